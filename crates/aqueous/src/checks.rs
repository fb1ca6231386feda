//! Checks that a chemist makes before believing an analysis, as findings with their numbers.
//!
//! In: the analysis, its interpretation and the solved water. Out: charge balance against the
//! gate of its rule (`balance`), calculated against measured conductivity and dissolved solids,
//! hardness, carbonate in alkalinity, field against laboratory pH, oxygen beside sulfide,
//! nitrate beside sulfide, dissolved above total, carbon stated twice.
//! Windows of conductivity and solids: Standard Methods 1030 E (from memory; common practice). A
//! finding never changes a number. Checked in `tests/checks.rs`.

use crate::analysis::{ASSUMED_RELATIVE_U, Analysis, Bound, Fraction, Interpreted, ion_mass};
use crate::balance::{Answer, Balance};
use crate::equilibrium::Equilibrium;
use crate::network::{ELECTRON, network};
use crate::water::density_kg_l;
use message::{Arg, Digits, Message, Name, Share, Shown, water as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};

/// Figures that the checks compute.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sums {
    /// 100·(positive − negative)/(positive + negative charges) of the species: what ions bind in
    /// complexes is gone from both sums, so it is larger than the balance of the analysis.
    pub species_charge_percent: f64,
    /// Σ of positive charges of the species, meq/L.
    pub species_cations_meq_l: f64,
    /// Σ of negative charges of the species, meq/L.
    pub species_anions_meq_l: f64,
    /// Dissolved solids as weighed: bicarbonate as half carbonate, silica as SiO2, mg/L.
    pub solids_mg_l: f64,
    /// Ca and Mg, mg/L as CaCO3.
    pub hardness_mg_l_as_caco3: f64,
    /// Part of it balanced by alkalinity, mg/L as CaCO3.
    pub carbonate_hardness_mg_l_as_caco3: f64,
    /// Alkalinity of all species, mmol/L.
    pub alkalinity_mmol_l: f64,
    /// Part of it that is carbonate, percent.
    pub carbonate_share_percent: f64,
}

/// Molar mass of CaCO3, g/mol.
// Standard atomic weights 2021.
const CACO3: f64 = 100.086;

/// The sums of a solved water.
pub fn sums(e: &Equilibrium) -> Sums {
    let net = network();
    let rho = density_kg_l(e.temperature_c);
    let (mut plus, mut minus, mut carbonate) = (0.0, 0.0, 0.0);
    let carbon = net.component("CO3^2-");
    for (s, m) in e.system.species.iter().zip(&e.solution.molality) {
        let z = f64::from(s.charge) * m;
        if z > 0.0 {
            plus += z;
        } else {
            minus -= z;
        }
        if carbon.is_some_and(|c| s.count(c) != 0.0) {
            carbonate += s.alkalinity * m;
        }
    }
    let alkalinity = e.alkalinity();
    let total = |n: &str| net.component(n).map_or(0.0, |c| e.total(c));
    let hardness = (total("Ca^2+") + total("Mg^2+")) * rho * CACO3 * 1e3;
    // Alkalinity beyond Ca and Mg belongs to Na and K: it is no hardness.
    let carbonate_hardness = (alkalinity.max(0.0) * 0.5 * rho * CACO3 * 1e3).min(hardness);
    Sums {
        species_charge_percent: if plus + minus > 0.0 { 100.0 * (plus - minus) / (plus + minus) } else { 0.0 },
        species_cations_meq_l: plus * rho * 1e3,
        species_anions_meq_l: minus * rho * 1e3,
        solids_mg_l: solids(e, rho),
        hardness_mg_l_as_caco3: hardness,
        carbonate_hardness_mg_l_as_caco3: carbonate_hardness,
        alkalinity_mmol_l: alkalinity * rho * 1e3,
        carbonate_share_percent: if alkalinity > 0.0 { 100.0 * carbonate / alkalinity } else { 0.0 },
    }
}

/// Residue on evaporation: 2 HCO3− = CO3−− + CO2 + H2O, H4SiO4 = SiO2 + 2 H2O, gases leave.
fn solids(e: &Equilibrium, rho: f64) -> f64 {
    let mut g = 0.0;
    for (c, t) in e.system.components.iter().zip(&e.totals) {
        let name = network().components[*c].name.as_str();
        let mass = match name {
            _ if *c <= ELECTRON => 0.0,
            "CO3^2-" => ion_mass("CO3") * (e.alkalinity() * 0.5).clamp(0.0, *t) / t.max(1e-30),
            "H4SiO4" => ion_mass("SiO2"),
            "O2" | "N2" | "CH4" => 0.0,
            other => ion_mass(other),
        };
        g += mass * t;
    }
    g * rho * 1e3
}

/// What is reckoned of the water as analysed, beside its sums; none of it where phases were held
/// before the water had a pH.
#[derive(Debug, Clone, Copy)]
pub struct AsAnalysed<'b> {
    /// Balance of the analysed charges.
    pub balance: &'b Balance,
    /// Calculated conductivity at 25 °C, µS/cm.
    pub conductivity25_us_cm: f64,
}

/// All findings of a solved water.
pub fn findings(
    a: &Analysis,
    i: &Interpreted,
    e: &Equilibrium,
    s: &Sums,
    analysed: Option<AsAnalysed>,
) -> Vec<Finding> {
    let mut out = i.findings.clone();
    out.push(match analysed.filter(|_| a.ph.is_some()) {
        Some(x) => charge(x.balance),
        None => Finding::new(Check::MeaningChargeBalance, Outcome::NotKnown, said::ChargeNotChecked),
    });
    out.extend(analysed.and_then(|x| measured_conductivity(a, x.conductivity25_us_cm)));
    out.extend(measured_solids(a, s));
    out.extend(laboratory_ph(a));
    out.push(acidity(i, e).unwrap_or_else(|| alkalinity_kind(s)));
    out.extend(carbon_dioxide(i, e));
    out.extend(carbon_twice(i, e));
    out.extend(beside_sulfide(a, i, e));
    out.extend(dissolved_above_total(a));
    out
}

fn stated(x: f64, unit: &str) -> Amount {
    Amount::stated(x, Unit::known(unit))
}

fn met(ok: bool) -> Outcome {
    if ok { Outcome::Met } else { Outcome::NotMet }
}

fn charge(b: &Balance) -> Finding {
    let judged = b.judged();
    let unit = if judged.gate.in_meq_l { "meq/L" } else { "%" };
    // A digit more in meq/L: the narrowest gate there is two tenths.
    let decimals = if judged.gate.in_meq_l { 2 } else { 1 };
    let shown = |x: f64| Shown::decimals(x, decimals, unit);
    let cations = Shown::decimals(b.cations.meq_l, 3, "");
    let anions = Shown::decimals(b.anions.meq_l, 3, "");
    if !b.lacking.is_empty() || b.lacks_carbon {
        let mut missing: Vec<Arg> = b.lacking.iter().map(|n| Name::from(*n).into()).collect();
        if b.lacks_carbon {
            missing.push(Message::from(message::word::Alkalinity).into());
        }
        let says = said::ChargesIncomplete { cations, anions, missing };
        return Finding::new(Check::MeaningChargeBalance, Outcome::NotKnown, says);
    }
    let difference = if judged.low.is_finite() && judged.high.is_finite() {
        difference(b, [judged.low, judged.high, judged.u].map(shown))
    } else {
        // Beside a result that is only a lower bound a difference in meq/L has no end; in percent it has.
        let (low, high) = b.range_percent();
        difference(b, [low, high, b.u_percent()].map(|x| Shown::decimals(x, 1, "%")))
    };
    let gate = Shown::trimmed(judged.gate.width, 2, unit);
    let rule = Message::named("balance_rule", &b.rule.key).expect("every rule has its words");
    let (outcome, says): (_, Message) = match judged.answer {
        Answer::Inside => (Outcome::Met, said::ChargesInside { cations, anions, difference, gate, rule }.into()),
        Answer::Beyond => (Outcome::NotMet, said::ChargesBeyond { cations, anions, difference, gate, rule }.into()),
        Answer::CannotTell => {
            (Outcome::NotKnown, said::ChargesCannotTell { cations, anions, difference, gate, rule }.into())
        }
    };
    let (low, high) = b.range_percent();
    let finding = Finding::new(Check::MeaningChargeBalance, outcome, says);
    let percent = Unit::known("%");
    match b.percent() {
        Some(x) => finding.comparing(message::compared::ChargeBalance, Amount::measured(x, b.u_percent(), percent)),
        None => finding
            .comparing(message::compared::LowestChargeBalance, Amount::measured(low, b.u_percent(), percent.clone()))
            .comparing(message::compared::HighestChargeBalance, Amount::measured(high, b.u_percent(), percent)),
    }
}

/// One number or two with u, and whether u was assumed.
fn difference(b: &Balance, [low, high, u]: [Shown; 3]) -> Message {
    let assumed = || Share::new(ASSUMED_RELATIVE_U, Digits::Trimmed(2));
    match (b.percent().is_some(), b.u_assumed) {
        (true, false) => said::DifferBy { difference: middle(low, &high), u }.into(),
        (true, true) => said::DifferByAssumed { difference: middle(low, &high), u, assumed: assumed() }.into(),
        (false, false) => said::DifferBetween { low, high, u }.into(),
        (false, true) => said::DifferBetweenAssumed { low, high, u, assumed: assumed() }.into(),
    }
}

fn middle(low: Shown, high: &Shown) -> Shown {
    Shown { value: 0.5 * (low.value + high.value), ..low }
}

fn measured_conductivity(a: &Analysis, calculated: f64) -> Option<Finding> {
    // A cell in air reads nought: nothing to compare with.
    let measured = a.conductivity_us_cm.filter(|c| *c > 0.0)?;
    let ratio = calculated / measured;
    // Standard Methods 1030 E (from memory): 0.9 to 1.1.
    Some(
        Finding::new(
            Check::MeaningConductivity,
            met((0.9..=1.1).contains(&ratio)),
            said::Conductivity { ratio: Shown::decimals(ratio, 2, "") },
        )
        .comparing(message::compared::CalculatedAtTwentyFive, stated(calculated, "uS/cm"))
        .comparing(message::compared::MeasuredAtTwentyFive, stated(measured, "uS/cm")),
    )
}

fn measured_solids(a: &Analysis, s: &Sums) -> Option<Finding> {
    let measured = a.dissolved_solids_mg_l?;
    let ratio = measured / s.solids_mg_l;
    // Standard Methods 1030 E (from memory): measured/calculated 1.0 to 1.2.
    Some(
        Finding::new(
            Check::MeaningDissolvedSolids,
            met((0.95..=1.2).contains(&ratio)),
            said::Solids { ratio: Shown::decimals(ratio, 2, "") },
        )
        .comparing(message::compared::Calculated, stated(s.solids_mg_l, "mg/L"))
        .comparing(message::compared::Measured, stated(measured, "mg/L")),
    )
}

fn laboratory_ph(a: &Analysis) -> Option<Finding> {
    let (field, lab) = (a.ph?, a.laboratory_ph?);
    // 0.3: common practice for two calibrated electrodes.
    let ok = (field - lab).abs() <= 0.3;
    let rose = lab > field;
    let (field, laboratory) = (Shown::decimals(field, 2, ""), Shown::decimals(lab, 2, ""));
    let says: Message = if ok {
        said::PhAgrees { field, laboratory }.into()
    } else if rose {
        said::PhRose { field, laboratory }.into()
    } else {
        said::PhFell { field, laboratory }.into()
    };
    Some(Finding::new(Check::MeaningFieldAndLaboratoryPh, met(ok), says))
}

fn alkalinity_kind(s: &Sums) -> Finding {
    let carbonate = Shown::decimals(s.carbonate_share_percent, 1, "%");
    // Over the whole by more than prints: something negative stands against it.
    if s.carbonate_share_percent > 100.1 {
        let says = said::CarbonateBeyondAlkalinity { carbonate };
        return Finding::new(Check::MeaningCarbonateAlkalinity, Outcome::NotMet, says);
    }
    // 95 %: above it carbonate alkalinity and total may be used for each other (common practice).
    let ok = s.carbonate_share_percent >= 95.0;
    Finding::new(Check::MeaningCarbonateAlkalinity, met(ok), said::AlkalinityOfCarbonate { carbonate })
}

/// Acidity beside the free acid of the pH: dissolved metals may make it more, nothing makes it less.
fn acidity(i: &Interpreted, e: &Equilibrium) -> Option<Finding> {
    let reported = i.alkalinity.as_ref().filter(|a| a.eq_kg < 0.0)?;
    let (acidity, acid) = (-reported.eq_kg, e.molality("H+"));
    let shown = |x: f64| Shown::significant(x * 1e3, 3, "mmol/kg");
    Some(Finding::new(
        Check::MeaningCarbonateAlkalinity,
        met(acid - acidity <= 2.0 * reported.u),
        said::AcidityBesidePh { acidity: shown(acidity), acid: shown(acid) },
    ))
}

/// Free CO2 of the report beside what pH and alkalinity give.
fn carbon_dioxide(i: &Interpreted, e: &Equilibrium) -> Option<Finding> {
    let entry = i.carbon_dioxide.as_ref().filter(|x| x.bound == Bound::Value && x.molality > 0.0)?;
    let solved = e.molality("CO2(aq)");
    // A fifth: CO2 goes as 10^-pH, so 0.05 of pH is a tenth of it, twice that with the CO2 that leaves a bottle.
    let ok = (entry.molality - solved).abs() <= (0.2 * solved).max(2.0 * entry.u);
    Some(
        Finding::new(Check::MeaningCarbonTwice, met(ok), said::CarbonDioxideBesidePh)
            .comparing(message::compared::Measured, stated(entry.molality * 1e3, "mmol/kg"))
            .comparing(message::compared::FromAlkalinity, stated(solved * 1e3, "mmol/kg")),
    )
}

fn carbon_twice(i: &Interpreted, e: &Equilibrium) -> Option<Finding> {
    i.alkalinity.as_ref()?;
    let entry = i.value("CO3^2-")?;
    let from_alkalinity = e.total(entry.component);
    let ok = (entry.molality / from_alkalinity - 1.0).abs() <= 0.1;
    Some(
        Finding::new(Check::MeaningCarbonTwice, met(ok), said::CarbonTwice)
            .comparing(message::compared::Measured, stated(entry.molality * 1e3, "mmol/kg"))
            .comparing(message::compared::FromAlkalinity, stated(from_alkalinity * 1e3, "mmol/kg")),
    )
}

fn beside_sulfide(a: &Analysis, i: &Interpreted, e: &Equilibrium) -> Vec<Finding> {
    let mut out = Vec::new();
    if i.value("HS-").is_none() {
        return out;
    }
    let rho = density_kg_l(e.temperature_c);
    if let Some(o2) = i.value("O2") {
        let mg_l = o2.molality * rho * 31.998e3;
        // Optical probes read 0.02 to 0.1 mg/L in water without oxygen (makers' statements; common practice).
        let floor = a.oxygen_floor_mg_l.unwrap_or(0.1);
        let (oxygen, as_given) = (Shown::decimals(mg_l, 2, "mg/L"), Shown::as_given(floor, "mg/L"));
        out.push(
            Finding::new(
                Check::MeaningOxygenBesideSulfide,
                met(mg_l <= floor),
                if mg_l <= floor {
                    said::OxygenAtFloor { oxygen, floor: as_given }.into()
                } else {
                    Message::from(said::OxygenBesideSulfide { oxygen, floor: as_given })
                },
            )
            .comparing(message::compared::Oxygen, stated(mg_l, "mg/L")),
        );
    }
    if let Some(n) = i.value("NO3-") {
        out.push(
            Finding::new(Check::MeaningNitrateBesideSulfide, Outcome::NotMet, said::NitrateBesideSulfide)
                .comparing(message::compared::Nitrate, stated(n.molality * 1e3, "mmol/kg")),
        );
    }
    out
}

/// A filtered result above the unfiltered one of the same analyte, beyond both u.
fn dissolved_above_total(a: &Analysis) -> Vec<Finding> {
    let mut out = Vec::new();
    for filtered in a.analytes.iter().filter(|x| matches!(x.fraction, Some(Fraction::FilteredUm(_)))) {
        let whole = a.analytes.iter().find(|x| x.name == filtered.name && x.fraction == Some(Fraction::Unfiltered));
        let Some(whole) = whole else { continue };
        let (Some(d), Some(t)) = (filtered.amount.value(), whole.amount.value()) else { continue };
        let Ok(f) = filtered.amount.unit().conversion(whole.amount.unit(), None, None) else { continue };
        let d = f.apply(d);
        let u = libm::hypot(
            filtered.amount.u().map_or(0.05 * d, |u| f.apply_difference(u)),
            whole.amount.u().unwrap_or(0.05 * t),
        );
        out.push(
            Finding::new(
                Check::MeaningDissolvedAboveTotal,
                met(d - t <= 2.0 * u),
                said::DissolvedAboveTotal { analyte: Name::from(&filtered.name) },
            )
            .comparing(message::compared::Filtered, filtered.amount.clone())
            .comparing(message::compared::Unfiltered, whole.amount.clone()),
        );
    }
    out
}

/// Names of the components that stand at a limit.
pub fn at_limit(i: &Interpreted) -> Vec<&str> {
    i.entries.iter().filter(|e| e.bound != Bound::Value).map(|e| e.name.as_str()).collect()
}
