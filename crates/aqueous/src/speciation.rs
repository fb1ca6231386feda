//! One analysis, whole: what the water is, with its doubt and its checks.
//!
//! In: [`Request`] (analysis, phases to hold, couples to close, draws). Out: [`Speciation`]:
//! the water at equilibrium, saturation indices with interval and word, gases, redox ladder,
//! rival answers, conductivity, findings, and what the table does not know. Values that follow
//! from a non-detect are marked as bounds. Method and sources: the modules that do the work.
//! Checked in `tests/calc.rs`, `tests/groundwater.rs`.

use crate::activity::STATED_IONIC_STRENGTH;
pub use crate::alternatives::{Alternative, Carrier};
use crate::alternatives::{alternatives, carriers};
use crate::analysis::{ASSUMED_U_PH, Analysis, Bound, Interpreted, interpret};
use crate::balance::{Balance as ChargeBalance, balance};
use crate::checks::{self, AsAnalysed, Sums};
use crate::conductivity::conductivity_us_cm;
use crate::constants::{self, Constant, Kind, Provenance, Temperature};
use crate::equilibrium::{Composition, Equilibrium, Hold, Ph, speciate};
use crate::error::{Error, within};
use crate::network::{ELECTRON, Entity, network};
use crate::odour::SulfideUncertainty;
use crate::organic;
use crate::redox::{Couple, couples_named, ladder, pe_of};
use crate::sensitivity::Response;
use crate::solver::{Balance, Choices, Equations};
use crate::uncertainty::{self, Draws, Interval, Uncertain};
use crate::water::debye_hueckel;
use message::{Message, Name, Shown, analysis as said, step, word};
use quantity::{Amount, Contribution, Derivation, Finding, Unit};

/// What is asked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Request {
    /// The analysis.
    pub analysis: Analysis,
    /// Phases to bring to equilibrium.
    pub hold: Vec<Hold>,
    /// Names of couples to close at the measured Eh; all others stay apart.
    pub coupled: Vec<String>,
    /// Monte Carlo draws; 0 for first-order doubt only.
    pub draws: usize,
    /// Seed of the draws.
    pub seed: u64,
    /// Leave metal bisulfide complexes out.
    pub without_bisulfides: bool,
}

/// One solid.
#[derive(Debug, Clone, PartialEq)]
pub struct Saturation {
    /// Name.
    pub solid: String,
    /// log10(IAP/K).
    pub saturation_index: f64,
    /// Standard uncertainty (first order, constants and their alternatives included).
    pub u: f64,
    /// 95 % interval: from the draws where there are any, else ±2u.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// log10 of the ion activity product in the reaction's components.
    pub log_iap: f64,
    /// log10 K of dissolution to components.
    pub log_k: f64,
    /// over, under, at saturation, cannot tell.
    pub word: &'static str,
    /// A component stands at its detection limit: the index is an upper bound.
    pub upper_bound: bool,
    /// How the solid's own constant is known.
    pub provenance: &'static str,
    /// How its temperature term is known; empty where there is none.
    pub temperature_provenance: &'static str,
    /// What makes up u, largest first; the shares add up to 1.
    pub contributions: Vec<Contribution>,
}

/// The whole answer.
#[derive(Debug, Clone)]
pub struct Speciation {
    /// The water.
    pub equilibrium: Equilibrium,
    /// The analysis in components.
    pub interpreted: Interpreted,
    /// Solids whose components are all there.
    pub saturation: Vec<Saturation>,
    /// Gases: name, log10 p (atm), upper bound or not.
    pub gases: Vec<(String, f64, bool)>,
    /// Redox couples.
    pub redox: Vec<Couple>,
    /// Measured Eh, to stand beside them, mV.
    pub eh_measured_mv: Option<f64>,
    /// Sums of the checks.
    pub sums: Sums,
    /// Charge balance of the analysis; none where pH was sought with phases held: the water as analysed was not solved.
    pub balance: Option<ChargeBalance>,
    /// Doubt of the sulfide and of the H2S over the water, where sulfide is there.
    pub sulfide: Option<SulfideUncertainty>,
    /// µS/cm at the water's temperature.
    pub conductivity_us_cm: f64,
    /// µS/cm at 25 °C.
    pub conductivity25_us_cm: f64,
    /// Findings.
    pub findings: Vec<Finding>,
    /// Warnings.
    pub warnings: Vec<Message>,
    /// Alternative answers.
    pub alternatives: Vec<Alternative>,
    /// Who carries each component.
    pub carriers: Vec<Carrier>,
    /// Monte Carlo, where asked for.
    pub draws: Option<Draws>,
}

impl Speciation {
    /// How a solid's saturation index came to be: the analysis in mol/kg, the activities, log IAP,
    /// log K with its source, the index with its budget. `None` for a solid that is not there.
    pub fn derivation(&self, solid: &str) -> Option<Derivation> {
        let s = self.saturation.iter().find(|s| s.solid == solid)?;
        let entity = network().solids.iter().find(|e| e.name == solid)?;
        let e = &self.equilibrium;
        let one = Unit::one;
        let mut d =
            Derivation::new(step::SaturationMethod, &["reference/aqueous_constants.csv", "docs/theory/chemistry.md"]);
        let mut given = vec![
            d.given(word::Temperature, Amount::stated(e.temperature_c, Unit::known("degC")), step::Analysis),
            d.given("pH", Amount::stated(e.ph(), Unit::known("pH")), step::AnalysisOrBalance),
        ];
        for x in &self.interpreted.entries {
            let unit = Unit::known("mol/kg");
            let amount = match x.bound {
                Bound::Value => Amount::measured(x.molality, x.u, unit),
                Bound::Below => Amount::below(x.molality, unit),
                Bound::Above => Amount::above(x.molality, unit),
            };
            given.push(d.given(x.name.as_str(), amount, step::Analysis));
        }
        if let Some(a) = &self.interpreted.alkalinity {
            let amount = Amount::measured(a.eq_kg, a.u, Unit::known("eq/kg"));
            given.push(d.given(word::Alkalinity, amount, step::Analysis));
        }
        let mut factors = Vec::new();
        for (c, _) in &entity.terms {
            let name = step::LogActivity { component: network().components[*c].name.as_str().into() };
            let value = Amount::stated(e.log_activity(*c)?, one());
            factors.push(d.step(name, value, step::MoleBalances, "docs/theory/chemistry.md", &given));
        }
        let iap = d.step("log10 IAP", Amount::stated(s.log_iap, one()), "Σ n·log10 a", "", &factors);
        let row = own_row(entity);
        let known = step::ConstantSource { source: row.source.as_str().into(), seen: row.provenance.word().into() };
        let name = format!("log10 K(25 °C), {}", row.reaction);
        let k25 = d.given(name, Amount::measured(row.log_k25, row.u, one()), known);
        let k = d.step("log10 K", Amount::stated(s.log_k, one()), row.formula(), temperature_step(row), &[k25]);
        let index = Amount::measured(s.saturation_index, s.u, one());
        d.step(step::SaturationIndex { solid: solid.into() }, index, "log10 IAP − log10 K", "", &[iap, k]);
        d.budget.clone_from(&s.contributions);
        Some(d)
    }
}

/// How log K of a row goes with temperature, as a step of a derivation.
fn temperature_step(row: &Constant) -> Message {
    let seen = || Name::from(row.temperature_provenance.word());
    let source = || if row.temperature_source.is_empty() { &row.source } else { &row.temperature_source };
    match row.temperature {
        Temperature::Fit(_) => step::TemperatureByFit { source: source().as_str().into(), seen: seen() }.into(),
        Temperature::Enthalpy { dh_kj, u_kj, dcp_j } => {
            let (enthalpy, u) = (Shown::trimmed(dh_kj, 2, "kJ/mol"), Shown::trimmed(u_kj, 2, "kJ/mol"));
            let source = source().as_str().into();
            if dcp_j == 0.0 {
                step::TemperatureByEnthalpy { enthalpy, u, source, seen: seen() }.into()
            } else {
                let heat_capacity = Shown::trimmed(dcp_j, 1, "J/(mol K)");
                step::TemperatureByHeatCapacity { enthalpy, u, heat_capacity, source, seen: seen() }.into()
            }
        }
        Temperature::Unknown => step::TemperatureUnknown.into(),
    }
}

/// Most draws that one request may ask for.
pub const MOST_DRAWS: usize = 1_000_000;

/// Solids that are computed only when asked for by name (`hold`): constants in open conflict.
pub(crate) const OFF: &[&str] = &["hydroxyapatite"];

/// Answers a request.
///
/// # Example
/// A non-detect stays one: its index is an upper bound, and the word says what that allows.
/// ```
/// use aqueous::analysis::{Analysis, Analyte};
/// use aqueous::speciation::{Request, speciation};
/// use quantity::{Amount, Unit};
/// let analyte = |name: &str, amount| Analyte { name: name.into(), amount, fraction: None };
/// let analysis = Analysis {
///     temperature_c: 9.0,
///     ph: Some(7.6),
///     analytes: vec![
///         analyte("Ca", Amount::measured(52.0, 0.6, Unit::known("mg/L"))),
///         analyte("alkalinity", Amount::measured(130.0, 2.0, Unit::known("mg/L as CaCO3"))),
///         analyte("Pb", Amount::below(1.1, Unit::known("ng/L"))),
///     ],
///     ..Analysis::default()
/// };
/// let answer = speciation(&Request { analysis, ..Request::default() })?;
/// let cerussite = answer.saturation.iter().find(|s| s.solid == "cerussite").unwrap();
/// assert!(cerussite.upper_bound && cerussite.word == "under");
/// # Ok::<(), aqueous::Error>(())
/// ```
///
/// # Errors
/// Those of [`interpret`], [`speciate`] and [`Equilibrium::equilibrate`].
pub fn speciation(r: &Request) -> Result<Speciation, Error> {
    within("draws", r.draws as f64, "", 0.0, MOST_DRAWS as f64)?;
    let interpreted = interpret(&r.analysis)?;
    let composition = composition(r, &interpreted)?;
    let mut warnings = interpreted.warnings.clone();
    let (first, equilibrium) = solve(r, &composition, &mut warnings)?;
    let uncertain = uncertain(&r.analysis, &interpreted, &composition);
    let draws = if r.draws > 0 {
        Some(uncertainty::monte_carlo(&first, &composition, &uncertain, r.draws, r.seed)?)
    } else {
        None
    };
    let ln_k = first.system.ln_k(&first.constants.rows);
    let equations = equations(&first, &composition, &ln_k);
    let response = Response::at(&equations, &first.solution).ok_or_else(|| Error::NotConverged {
        equation: said::Singular.into(),
        iterations: 0,
        residual: f64::INFINITY,
    })?;
    let doubt = FirstOrder { first: &first, response: &response, uncertain: &uncertain };
    let mut saturation = saturations(&doubt, &equilibrium, &interpreted, draws.as_ref());
    // Rivals are solved for the water as analysed; with phases held the indices shown are those of another water.
    let alternatives = if r.hold.is_empty() { alternatives(&composition, &first) } else { vec![] };
    widen(&mut saturation, &alternatives);
    let sums = checks::sums(&first);
    // With pH sought and phases held there is no water as analysed: the first solved is that after they reacted.
    let balance = (r.analysis.ph.is_some() || r.hold.is_empty()).then(|| balance(&r.analysis, &interpreted, &first));
    // The meter stood in the water as it came, not in the one after phases were held.
    let conductivity25_us_cm = conductivity_us_cm(&first, 25.0);
    let analysed = balance.as_ref().map(|balance| AsAnalysed { balance, conductivity25_us_cm });
    let findings = checks::findings(&r.analysis, &interpreted, &first, &sums, analysed);
    warn(&equilibrium, &interpreted, r, &mut warnings);
    let limit = |c: usize| interpreted.at_limit(c);
    Ok(Speciation {
        gases: gases(&equilibrium, &interpreted),
        redox: ladder(&equilibrium, &limit),
        eh_measured_mv: r.analysis.eh_mv,
        conductivity_us_cm: conductivity_us_cm(&equilibrium, equilibrium.temperature_c),
        conductivity25_us_cm: conductivity_us_cm(&equilibrium, 25.0),
        sulfide: doubt.of_sulfide(&interpreted),
        balance,
        // With phases held no rival was asked, so nothing can be said of who would carry what.
        carriers: if r.hold.is_empty() { carriers(&equilibrium, &alternatives) } else { vec![] },
        alternatives,
        equilibrium,
        interpreted,
        saturation,
        sums,
        findings,
        warnings,
        draws,
    })
}

/// The composition that an analysis stands for.
///
/// # Errors
/// [`Error::Unclear`] for couples that are to be closed without an Eh.
pub fn composition(r: &Request, i: &Interpreted) -> Result<Composition, Error> {
    let a = &r.analysis;
    let coupled = couples_named(&r.coupled)?;
    if !coupled.is_empty() && a.eh_mv.is_none() {
        return Err(Error::Unclear {
            quantity: "Eh".into(),
            found: "nothing".into(),
            expected: "Eh_mV for the couples that are to be closed".into(),
        });
    }
    let carbon = network().component("CO3^2-");
    let gas = r.hold.iter().any(|h| h.name.trim_end_matches("(g)") == "CO2");
    let dic = i.entries.iter().any(|e| Some(e.component) == carbon && e.molality > 0.0);
    // With pH open, measured inorganic carbon decides and alkalinity is only compared with it.
    let dic_decides = a.ph.is_none() && dic;
    // Less alkalinity than none is acid: it holds no carbon and leaves pH to the charge balance.
    let alkalinity = i.alkalinity.as_ref().filter(|x| x.eq_kg >= 0.0);
    if a.ph.is_none() && alkalinity.is_some() && !gas && !dic {
        return Err(Error::Unclear {
            quantity: said::PhFromCharge.into(),
            found: said::AlkalinityLeavesPhOpen.into(),
            expected: said::CarbonBeside.into(),
        });
    }
    Ok(Composition {
        temperature_c: a.temperature_c,
        ph: a.ph.map_or(Ph::FromCharge, Ph::Given),
        totals: i
            .entries
            .iter()
            .filter(|e| e.molality > 0.0 && !(a.ph.is_some() && alkalinity.is_some() && Some(e.component) == carbon))
            .map(|e| (e.component, e.molality))
            .collect(),
        alkalinity: alkalinity.filter(|_| !dic_decides).map(|x| x.eq_kg),
        pe: if coupled.is_empty() { None } else { a.eh_mv.map(|eh| pe_of(eh, a.temperature_c)) },
        choices: Choices { without_bisulfides: r.without_bisulfides, with_rivals: false, coupled },
    })
}

/// The water as analysed, and after phases were held.
fn solve(r: &Request, c: &Composition, warnings: &mut Vec<Message>) -> Result<(Equilibrium, Equilibrium), Error> {
    if r.hold.is_empty() {
        let e = speciate(c)?;
        return Ok((e.clone(), e));
    }
    if c.ph == Ph::FromCharge {
        // The phases may bring what balances the charge: no pH exists before they do. Carbon from
        // alkalinity is taken at pH 7 and given up to (or taken from) the CO2 pressure held.
        let start = Composition { ph: Ph::Given(7.0), ..c.clone() };
        let mut e = speciate(&start)?;
        e.charge = 0.0;
        let after = e.equilibrate(&r.hold)?;
        return Ok((after.clone(), after));
    }
    let first = speciate(c)?;
    if matches!(c.ph, Ph::Given(_)) {
        warnings.push(said::PhMoves.into());
    }
    let after = first.equilibrate(&r.hold)?;
    Ok((first, after))
}

fn uncertain(a: &Analysis, i: &Interpreted, c: &Composition) -> Uncertain {
    let u = |component: usize| {
        i.entries.iter().find(|e| e.component == component).map_or((0.0, false), |e| (e.u, e.bound == Bound::Below))
    };
    Uncertain {
        totals: c
            .totals
            .iter()
            .map(|(j, _)| {
                let (u, limit) = u(*j);
                (*j, u, limit)
            })
            .collect(),
        u_alkalinity: i.alkalinity.as_ref().map_or(0.0, |a| a.u),
        u_ph: if a.ph.is_some() { a.u_ph.unwrap_or(ASSUMED_U_PH) } else { 0.0 },
    }
}

/// The water as analysed with what its answers stand on.
struct FirstOrder<'d, 'e, 'a> {
    first: &'d Equilibrium,
    response: &'d Response<'e, 'a>,
    uncertain: &'d Uncertain,
}

impl FirstOrder<'_, '_, '_> {
    /// Relative u of the sulfide, and u of log10 of the H2S pressure over the water.
    fn of_sulfide(&self, i: &Interpreted) -> Option<SulfideUncertainty> {
        let net = network();
        let component = net.component("HS-")?;
        let entry = i.entries.iter().find(|e| e.component == component && e.molality > 0.0)?;
        let gas = net.gases.iter().find(|g| g.name == "H2S")?;
        self.first.saturation_index(gas)?;
        let rows = uncertainty::rows(self.first.temperature_c);
        let parts = uncertainty::first_order(self.response, self.first, gas, self.uncertain, &rows);
        Some(SulfideUncertainty {
            // At its limit the sulfide is what it can be at most: no u comes to it.
            relative_u: if entry.bound == Bound::Below { 0.0 } else { entry.u / entry.molality },
            u_log_p: libm::sqrt(parts.iter().map(|(_, v)| v).sum()),
            upper_bound: entry.bound == Bound::Below,
        })
    }
}

fn saturations(doubt: &FirstOrder, shown: &Equilibrium, i: &Interpreted, draws: Option<&Draws>) -> Vec<Saturation> {
    let FirstOrder { first, response, uncertain } = doubt;
    let doubts = uncertainty::rows(first.temperature_c);
    let mut out = Vec::new();
    for (k, solid) in network().solids.iter().enumerate() {
        if OFF.contains(&solid.name.as_str()) {
            continue;
        }
        let Some(si) = shown.saturation_index(solid) else { continue };
        // A solid whose components a held phase alone brings has no derivatives at the analysed water: u of its
        // constant is all there is.
        let parts = if first.saturation_index(solid).is_some() {
            uncertainty::first_order(response, first, solid, uncertain, &doubts)
        } else {
            let u = solid.u_log_k(first.temperature_c);
            vec![(uncertainty::log_k_of(&solid.name), u * u)]
        };
        let interval = draws.and_then(|d| d.solids[k]);
        out.push(one_saturation(shown, solid, si, parts, interval, i));
    }
    out
}

/// An interval holds the answer of every rival constant, else its word would claim too much.
fn widen(saturation: &mut [Saturation], alternatives: &[Alternative]) {
    for s in saturation.iter_mut() {
        let moved = alternatives.iter().flat_map(|r| &r.moved);
        for (_, si) in moved.filter(|(name, _)| *name == s.solid) {
            s.low = s.low.min(*si);
            s.high = s.high.max(*si);
        }
        s.word = uncertainty::word(s.low, s.high);
    }
}

fn one_saturation(
    e: &Equilibrium,
    solid: &Entity,
    si: f64,
    parts: Vec<(Contribution, f64)>,
    interval: Option<Interval>,
    i: &Interpreted,
) -> Saturation {
    let variance: f64 = parts.iter().map(|(_, v)| v).sum();
    let u = libm::sqrt(variance);
    let upper_bound = solid.terms.iter().any(|(c, n)| *n > 0.0 && i.at_limit(*c));
    let (low, high) = interval.map_or((si - 2.0 * u, si + 2.0 * u), |i| (i.low, i.high));
    // A non-detect may be anything under its limit: no lower end, and the upper one at the limit itself, which draws
    // (uniform below it) hardly reach.
    let low = if upper_bound { f64::NEG_INFINITY } else { low };
    let high = if upper_bound { si + 2.0 * u } else { high };
    let log_k = solid.log_k(&e.constants.rows);
    Saturation {
        solid: solid.name.clone(),
        saturation_index: si,
        u,
        low,
        high,
        log_iap: si + log_k,
        log_k,
        word: uncertainty::word(low, high),
        upper_bound,
        provenance: own_row(solid).provenance.word(),
        temperature_provenance: match own_row(solid) {
            row if row.temperature == Temperature::Unknown => "",
            row => row.temperature_provenance.word(),
        },
        contributions: parts
            .into_iter()
            .map(|(part, v)| Contribution { u: libm::sqrt(v), share: v / variance, ..part })
            .collect(),
    }
}

/// The row of the table that a solid or gas is named after.
fn own_row(e: &Entity) -> &'static Constant {
    let table = constants::table();
    e.recipe
        .iter()
        .map(|(r, _)| &table[*r])
        .find(|c| c.kind != Kind::Aqueous && c.name.trim_end_matches("(g)") == e.name)
        .unwrap_or(&table[e.recipe[0].0])
}

fn equations<'a>(e: &'a Equilibrium, c: &Composition, ln_k: &'a [f64]) -> Equations<'a> {
    let net = network();
    let carbon = net.component("CO3^2-");
    let balance = e
        .system
        .components
        .iter()
        .enumerate()
        .map(|(at, j)| match *j {
            0 if c.ph == Ph::FromCharge => Balance::Charge(e.charge),
            0 | ELECTRON => Balance::FixedLnActivity(e.solution.x[at]),
            j if c.alkalinity.is_some() && Some(j) == carbon => Balance::Alkalinity(e.alkalinity()),
            _ => Balance::Total(e.totals[at]),
        })
        .collect();
    Equations { system: &e.system, ln_k, dh: debye_hueckel(e.temperature_c), balance, held: vec![] }
}

fn gases(e: &Equilibrium, i: &Interpreted) -> Vec<(String, f64, bool)> {
    network()
        .gases
        .iter()
        .filter_map(|g| {
            let p = e.saturation_index(g)?;
            Some((g.name.clone(), p, g.terms.iter().any(|(c, _)| i.at_limit(*c))))
        })
        .collect()
}

fn warn(e: &Equilibrium, i: &Interpreted, r: &Request, warnings: &mut Vec<Message>) {
    let t = e.temperature_c;
    if t > 40.0 {
        warnings.push(said::Warm { temperature: Shown::as_given(t, "°C") }.into());
    }
    let ionic = e.solution.ionic_strength;
    // Half a percent over is still the stated range as printed.
    if ionic > 1.005 * STATED_IONIC_STRENGTH {
        warnings.push(
            said::Salty {
                ionic_strength: Shown::decimals(ionic, 3, "mol/kg"),
                stated: Shown::as_given(STATED_IONIC_STRENGTH, "mol/kg"),
            }
            .into(),
        );
    }
    let ph = e.ph();
    if !(2.0..=12.0).contains(&ph) {
        warnings.push(said::PhOutside { ph: Shown::decimals(ph, 2, "") }.into());
    }
    if !i.not_in_table.is_empty() {
        warnings.push(said::NotInTable { analytes: Name::from(i.not_in_table.join(", ")) }.into());
    }
    let limits = checks::at_limit(i);
    if !limits.is_empty() {
        warnings.push(said::AtLimit { analytes: Name::from(limits.join(", ")) }.into());
    }
    temperature_terms(e, warnings);
    // Sorption and organic binding matter for what there is little of.
    if let Some(organic) = organic::sentence(e, i) {
        warnings.push(organic);
        warnings.push(said::SorptionLeftOut.into());
    }
    if !r.coupled.is_empty() {
        warnings.push(said::CouplesClosed.into());
    }
}

/// Species that matter, used away from 25 °C without a temperature term or with an estimated one.
fn temperature_terms(e: &Equilibrium, warnings: &mut Vec<Message>) {
    // 5 K: there an enthalpy of 15 kJ/mol moves log K by 0.05, as much as its u.
    if (e.temperature_c - 25.0).abs() <= 5.0 {
        return;
    }
    let table = constants::table();
    let (mut without, mut estimated): (Vec<&str>, Vec<&str>) = (vec![], vec![]);
    for (s, m) in e.system.species.iter().zip(&e.solution.molality) {
        let share = s
            .terms
            .iter()
            .filter(|(c, _)| *c > ELECTRON)
            .map(|(c, n)| n * m / e.total(*c).max(1e-300))
            .fold(0.0, f64::max);
        if share <= 0.01 {
            continue;
        }
        let rows = || s.recipe.iter().map(|(r, _)| &table[*r]);
        if rows().any(|c| c.temperature == Temperature::Unknown) {
            without.push(&s.name);
        } else if rows().any(|c| c.temperature_provenance == Provenance::Estimate) {
            estimated.push(&s.name);
        }
    }
    let temperature = || Shown::as_given(e.temperature_c, "°C");
    if !without.is_empty() {
        let species = Name::from(without.join(", "));
        warnings.push(said::WithoutTemperatureTerm { temperature: temperature(), species }.into());
    }
    if !estimated.is_empty() {
        let species = Name::from(estimated.join(", "));
        warnings.push(said::TemperatureTermEstimated { temperature: temperature(), species }.into());
    }
}
