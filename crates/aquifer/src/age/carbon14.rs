//! How long has the carbon of this water been cut off from the air, and how far do the corrections lie apart?
//!
//! In: 14C of the dissolved inorganic carbon (DIC) with its normalisation, δ13C in ‰ VPDB, CO2 and HCO3 in mmol/kg,
//! sulfide, methane. Out: an age in years for each published correction that applies, with its share q of soil carbon and
//! its A0 in pMC, and the band over them. No age stands without its A0.
//!
//! Method: t = (T½/ln 2)·ln(q·100/A), A in pMC of F14C, T½ = 5730 ± 40 y. Corrections q: fixed share (Vogel 1970);
//! chemical dilution by stoichiometry (Tamers 1975) or by DIC at recharge; isotope mixing (Ingerson & Pearson 1964);
//! mixing with recharge in equilibrium with soil air (Gonfiantini 1972, as the IAEA recommends it; ε of Mook et al. 1974).
//! Carbon that sulfate reduction made is taken out first: SO4 + 2 CH2O → H2S + 2 HCO3. Monte Carlo over all of it.
//!
//! The correction of Fontes & Garnier 1979 is not built in: two recalled forms differ in the sign of the fractionation of
//! its exchange term, and that sign is not settled before its print is read. No closed-system exchange with rock, no
//! matrix diffusion, no hydrolysis: in such rock every age here is too high. Usual range 1000 to 30 000 y. Mixing
//! averages pMC, not ages. Checked in `tests/validation_carbon14.rs`.

use super::constants::{constant, number};
use super::draws::{Dice, draws, spread};
use super::fit::Spread;
use super::gases::Found;
use super::measured::{Carbon14, WithU};
use crate::Reason;
use message::{Digits, Message, Share, Shown, aquifer as part, origin as said};
use serde::{Deserialize, Serialize};
use statistics::normal;
use std::f64::consts::LN_2;

/// Carbon-14 as a laboratory reports it. "pMC" alone may be either of two: it has to be said which.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reported {
    /// Fraction modern, normalised to δ13C −25 ‰ (Reimer, Brown & Reimer 2004).
    F14c(WithU),
    /// 100·F14C.
    PercentOfF14c(WithU),
    /// Percent modern of the standard's activity in 1950, decayed to the year of measurement.
    Absolute {
        /// pMC.
        pmc: WithU,
        /// Year of measurement.
        year: f64,
    },
    /// A conventional radiocarbon age (Libby's half-life, 5568 y): no age of a groundwater.
    Conventional(WithU),
}

/// Mean life, years, of a half-life in years.
fn mean_life(half_life: f64) -> f64 {
    half_life / LN_2
}

impl Reported {
    /// As F14C.
    ///
    /// ```
    /// use aquifer::age::{WithU, carbon14::Reported};
    /// // 25 pMC measured in 2026: as an absolute value it is nearly 1 % more in F14C than as 100·F14C.
    /// let pmc = WithU { value: 25.0, u: 0.3 };
    /// assert_eq!(Reported::PercentOfF14c(pmc).f14c().value, 0.25);
    /// assert!((Reported::Absolute { pmc, year: 2026.0 }.f14c().value - 0.2523).abs() < 1e-4);
    /// ```
    pub fn f14c(&self) -> WithU {
        let times = |x: WithU, f: f64| WithU { value: x.value * f, u: x.u * f };
        match *self {
            Self::F14c(x) => x,
            Self::PercentOfF14c(x) => times(x, 0.01),
            // Stuiver & Polach 1977, Radiocarbon 19:355 (from memory): pMC = 100·F14C·exp((1950 − y)/8267).
            Self::Absolute { pmc, year } => {
                times(pmc, 0.01 * libm::exp((year - 1950.0) / mean_life(number("14C.halflife"))))
            }
            Self::Conventional(years) => {
                let life = mean_life(number("14C.halflife.Libby"));
                let value = libm::exp(-years.value / life);
                WithU { value, u: value * years.u / life }
            }
        }
    }
}

/// Percent modern without which of its two meanings.
pub fn percent_modern_alone() -> Reason {
    Reason::unlike(said::CarbonFourteen, said::PercentModernAlone, said::WhichPercentModern)
}

/// An age in years without the half-life that it was reckoned with.
pub fn years_without_half_life() -> Reason {
    Reason::unlike(said::CarbonFourteen, said::YearsWithoutHalfLife, said::SayHalfLife)
}

/// The carbon of one sample and of what it came from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Carbon {
    /// 14C of the DIC.
    pub reported: Reported,
    /// δ13C of the DIC, ‰ VPDB.
    pub d13c: Option<WithU>,
    /// Dissolved CO2, mmol/kg.
    pub co2: Option<WithU>,
    /// HCO3, mmol/kg.
    pub hco3: Option<WithU>,
    /// DIC at recharge, mmol/kg.
    pub dic_at_recharge: Option<WithU>,
    /// Temperature at recharge, °C: the fractionation hangs on it.
    pub temperature_c: Option<WithU>,
    /// Sulfide made, mmol/kg: what is in the water and what was lost as iron sulfide.
    pub sulfide: Option<WithU>,
    /// Methane.
    pub methane: Found,
    /// Tritium.
    pub tritium: Found,
    /// δ13C of the soil's CO2, ‰ VPDB.
    pub soil: WithU,
    /// δ13C of the rock's carbonate, ‰ VPDB; its 14C is none.
    pub carbonate: WithU,
}

impl Carbon {
    /// A sample with 14C alone, soil and rock by usual values (soil −23 ± 3, marine carbonate 0 ± 2 ‰).
    pub fn new(reported: Reported) -> Self {
        let usual = |key: &str| WithU { value: number(key), u: constant(key).u.unwrap_or(0.0) };
        Self {
            reported,
            d13c: None,
            co2: None,
            hco3: None,
            dic_at_recharge: None,
            temperature_c: None,
            sulfide: None,
            methane: Found::NotMeasured,
            tritium: Found::NotMeasured,
            soil: usual("d13C.soilCO2"),
            carbonate: usual("d13C.marine_carbonate"),
        }
    }
}

/// Shares of soil carbon that can be.
// The programme's own choice, about what published corrections give in simple carbonate rock.
const SHARES: std::ops::RangeInclusive<f64> = 0.4..=1.05;

/// A published correction for carbon that did not come from the soil's air.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Correction {
    /// q = 0.85 ± 0.05 (Vogel 1970; printed in a university exercise).
    FixedShare,
    /// q = (CO2 + ½HCO3)/(CO2 + HCO3) (Tamers 1975; recalled, and the stoichiometry of CaCO3 + CO2 + H2O itself).
    Stoichiometric,
    /// q = DIC at recharge over DIC of the sample (printed in a university exercise).
    ByDic,
    /// q = (δDIC − δrock)/(δsoil − δrock) (Ingerson & Pearson 1964; printed in a university exercise).
    IsotopeMixing,
    /// The same with δsoil − ε in place of δsoil, ε of gas and bicarbonate: recharge in equilibrium with soil air
    /// (Gonfiantini 1972, recalled; ε of Mook et al. 1974, printed).
    Equilibrium,
}

impl Correction {
    /// All of them.
    pub const ALL: [Self; 5] =
        [Self::FixedShare, Self::Stoichiometric, Self::ByDic, Self::IsotopeMixing, Self::Equilibrium];

    /// As a person is told.
    pub fn said(self) -> Message {
        match self {
            Self::FixedShare => said::FixedShare.into(),
            Self::Stoichiometric => said::Stoichiometric.into(),
            Self::ByDic => said::ByDic.into(),
            Self::IsotopeMixing => said::IsotopeMixing.into(),
            Self::Equilibrium => said::EquilibriumMixing.into(),
        }
    }

    /// Whether its formula was read in print; the others are recalled.
    pub fn read_in_print(self) -> bool {
        matches!(self, Self::FixedShare | Self::ByDic | Self::IsotopeMixing)
    }

    /// Whether it hangs on δ13C.
    fn by_isotope(self) -> bool {
        matches!(self, Self::IsotopeMixing | Self::Equilibrium)
    }
}

/// Enrichment of CO2 gas over bicarbonate, ‰, at a temperature in °C (Mook, Bommerson & Staverman 1974).
pub fn gas_over_bicarbonate(t_c: f64) -> f64 {
    number("eps13C.bicarbonate.a") / (t_c + 273.15) + number("eps13C.bicarbonate.b")
}

/// What one correction makes of the sample.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Dated {
    /// Which correction.
    pub correction: Correction,
    /// Share of the soil's carbon.
    pub q: f64,
    /// Activity at the start, pMC.
    pub a0_pmc: f64,
    /// Age by the values as given, years; none where no 14C is left by them. Nought or less: modern, or A0 too low.
    pub years: Option<f64>,
    /// q with the u of everything.
    pub q_spread: Option<Spread>,
    /// Age with the u of everything; ends beyond any number where 14C may be none.
    pub spread: Option<Spread>,
    /// Whether it stands in the band: q from 0.4 to 1.05.
    pub in_band: bool,
    /// Whether its formula was read in print.
    pub read_in_print: bool,
}

/// The answer: one band.
#[derive(Debug, Clone, PartialEq)]
pub struct CarbonAge {
    /// As measured.
    pub f14c: WithU,
    /// Half-life used, years, and its u.
    pub half_life: WithU,
    /// F14C after the carbon of the sulfide, taken as dead, is out.
    pub f14c_corrected: f64,
    /// Every correction that applies.
    pub dated: Vec<Dated>,
    /// Union of their 95 % ranges, years; none where no age can be given. No upper end where 14C may be none.
    pub band: Option<(f64, Option<f64>)>,
    /// The same over those whose formula was read in print.
    pub band_read_in_print: Option<(f64, Option<f64>)>,
    /// Largest share of water with 100 pMC that the measured 14C leaves room for.
    pub modern_share_at_most: f64,
    /// Share of the DIC that came with the sulfide; none where it was not taken out.
    pub share_of_sulfide: Option<f64>,
    /// Corrections that do not apply, each with the reason.
    pub refused: Vec<(Correction, Message)>,
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

impl CarbonAge {
    /// As a joint fit with other tracers takes it: what is left of an A0 within the 95 % ranges of the corrections that
    /// stand, and within the shares at which one stands at all (0.4 to 1.05): a draw beyond them is no water's. None where
    /// none does.
    pub fn with_start(&self) -> Option<Carbon14> {
        let ends = self.dated.iter().filter(|d| d.in_band).filter_map(|d| d.q_spread).map(|q| (q.low_95, q.high_95));
        let (a0_low, a0_high) = ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
        let stands = |q: f64| q.clamp(*SHARES.start(), *SHARES.end());
        let (a0_low, a0_high) = (stands(a0_low), stands(a0_high));
        let u = self.f14c.u * self.f14c_corrected / self.f14c.value;
        Some(Carbon14 { f14c: self.f14c_corrected, u: if u > 0.0 { u } else { self.f14c.u }, a0_low, a0_high })
    }
}

/// One draw of everything.
struct State {
    f14c: f64,
    d13c: Option<f64>,
    co2: Option<f64>,
    hco3: Option<f64>,
    dic_at_recharge: Option<f64>,
    temperature_c: Option<f64>,
    soil: f64,
    carbonate: f64,
    fixed: f64,
    /// Mean life, years.
    life: f64,
}

/// What a State is drawn from: values as given, or draws.
trait Source {
    fn of(&mut self, x: WithU) -> f64;
    /// 14C of the organic matter that sulfate reduction used, as a share of the DIC's: none, unless drawn.
    fn organic_share(&mut self) -> f64;
}

struct AsGiven;

impl Source for AsGiven {
    fn of(&mut self, x: WithU) -> f64 {
        x.value
    }
    fn organic_share(&mut self) -> f64 {
        0.0
    }
}

impl Source for Dice {
    fn of(&mut self, x: WithU) -> f64 {
        self.normal(x.value, x.u)
    }
    fn organic_share(&mut self) -> f64 {
        self.share()
    }
}

fn table(key: &str) -> WithU {
    WithU { value: number(key), u: constant(key).u.unwrap_or(0.0) }
}

/// The sample after the carbon of sulfate reduction is taken out: two DIC for each sulfide, δ13C of organic matter.
/// None where more would be taken out than there is.
fn state(c: &Carbon, from: &mut impl Source) -> Option<State> {
    let mut given = |x: Option<WithU>| x.map(|x| from.of(x));
    let (mut d13c, co2, mut hco3) = (given(c.d13c), given(c.co2), given(c.hco3));
    let (dic_at_recharge, temperature_c, sulfide) =
        (given(c.dic_at_recharge), given(c.temperature_c), given(c.sulfide));
    let mut f14c = from.of(c.reported.f14c());
    let organic = (from.of(table("d13C.sedimentary_organic")), from.organic_share());
    if let (Some(s), Some(h)) = (sulfide, hco3) {
        let made = 2.0 * s.max(0.0);
        let dic = h + co2.unwrap_or(0.0);
        let rest = dic - made;
        if made >= h {
            return None;
        }
        f14c = (f14c * dic - organic.1 * f14c * made) / rest;
        d13c = d13c.map(|d| (d * dic - organic.0 * made) / rest);
        hco3 = Some(h - made);
    }
    let life = mean_life(from.of(table("14C.halflife")));
    let (soil, carbonate, fixed) = (from.of(c.soil), from.of(c.carbonate), from.of(table("q.Vogel")));
    Some(State { f14c, d13c, co2, hco3, dic_at_recharge, temperature_c, soil, carbonate, fixed, life })
}

impl State {
    fn q(&self, correction: Correction) -> Option<f64> {
        let mixing = |soil: f64| Some((self.d13c? - self.carbonate) / (soil - self.carbonate));
        match correction {
            Correction::FixedShare => Some(self.fixed),
            Correction::Stoichiometric => {
                let (co2, hco3) = (self.co2?, self.hco3?);
                Some((co2 + 0.5 * hco3) / (co2 + hco3))
            }
            Correction::ByDic => Some(self.dic_at_recharge? / (self.hco3? + self.co2.unwrap_or(0.0))),
            Correction::IsotopeMixing => mixing(self.soil),
            Correction::Equilibrium => mixing(self.soil - gas_over_bicarbonate(self.temperature_c?)),
        }
    }

    /// Age, years; beyond all numbers where no 14C is left.
    fn years(&self, correction: Correction) -> Option<f64> {
        let q = self.q(correction).filter(|q| *q > 0.0)?;
        Some(if self.f14c > 0.0 { self.life * libm::log(q / self.f14c) } else { f64::INFINITY })
    }
}

/// The band of ages.
///
/// # Errors
/// [`Reason`]: F14C below nought by more than its u allows, or above what any air held; u that is not above 0; more carbon
/// from sulfate reduction than there is; a negative concentration.
pub fn age(c: &Carbon) -> Result<CarbonAge, Reason> {
    let f14c = c.reported.f14c();
    check(c, f14c)?;
    let Some(as_given) = state(c, &mut AsGiven) else {
        let made = Shown::significant(2.0 * c.sulfide.map_or(0.0, |s| s.value), 2, "mmol/kg");
        let most = Shown::significant(c.hco3.map_or(0.0, |h| h.value), 2, "mmol/kg");
        return Err(Reason::out_of_range(said::CarbonOfSulfide, made, said::LessThanBicarbonate { most }));
    };
    let (dic, made) = (dic(c), c.sulfide.map_or(0.0, |s| 2.0 * s.value.max(0.0)));
    let mut out = CarbonAge {
        f14c,
        half_life: table("14C.halflife"),
        f14c_corrected: as_given.f14c,
        dated: vec![],
        band: None,
        band_read_in_print: None,
        modern_share_at_most: (f14c.value + normal::ONE_SIDED_95 * f14c.u).clamp(0.0, 1.0),
        share_of_sulfide: dic.filter(|_| c.sulfide.is_some()).map(|d| made / d),
        refused: vec![],
        findings: vec![],
    };
    of_the_sample(c, &mut out);
    // Carbon of the years after 1955 is in it: no decay from a level of before can be told.
    if f14c.value - normal::ONE_SIDED_95 * f14c.u > 1.0 {
        let pmc = Shown::significant(100.0 * f14c.value, 3, "pMC");
        out.findings.push(said::BombCarbon { pmc }.into());
        return Ok(out);
    }
    let drawn = draws(|dice| state(c, dice));
    for correction in Correction::ALL {
        if correction.by_isotope() && c.methane == Found::Detected {
            out.refused.push((correction, said::MethaneShiftsCarbon.into()));
            continue;
        }
        let Some(q) = as_given.q(correction) else {
            out.refused.push((correction, said::InputsMissing.into()));
            continue;
        };
        out.dated.push(Dated {
            correction,
            q,
            a0_pmc: 100.0 * q,
            years: as_given.years(correction).filter(|t| t.is_finite()),
            q_spread: spread(drawn.iter().map(|s| s.as_ref()?.q(correction))),
            spread: spread(drawn.iter().map(|s| s.as_ref()?.years(correction))),
            in_band: SHARES.contains(&q),
            read_in_print: correction.read_in_print(),
        });
    }
    out.band = band(out.dated.iter().filter(|d| d.in_band));
    out.band_read_in_print = band(out.dated.iter().filter(|d| d.in_band && d.read_in_print));
    of_the_ages(c, &mut out);
    Ok(out)
}

fn dic(c: &Carbon) -> Option<f64> {
    Some(c.hco3?.value + c.co2.map_or(0.0, |x| x.value))
}

fn check(c: &Carbon, f14c: WithU) -> Result<(), Reason> {
    let shown = |x| Shown::significant(x, 3, "F14C");
    if !(f14c.value.is_finite() && f14c.u > 0.0 && f14c.u.is_finite()) {
        let found = part::ValueWithU { value: shown(f14c.value), u: shown(f14c.u) };
        return Err(Reason::unlike(said::CarbonFourteen, found, said::AmountWithU));
    }
    // The highest air of any year and place was near F14C 2 (Hua, Barbetti & Rakowski 2013, Radiocarbon 55:2059; from
    // memory): beyond, tracer carbon came into the bottle.
    if f14c.value > 2.0 || f14c.value < -3.0 * f14c.u {
        return Err(Reason::out_of_range(said::CarbonFourteen, shown(f14c.value), said::WithinAirOfAnyYear));
    }
    let amounts = [(c.co2, "CO2"), (c.hco3, "HCO3"), (c.dic_at_recharge, "DIC"), (c.sulfide, "S(-II)")];
    for (x, name) in amounts.into_iter().filter_map(|(x, name)| Some((x?, name))) {
        // Sulfide below its critical value may be negative; carbon never.
        let ok = if name == "S(-II)" { x.value > -3.0 * x.u } else { x.value > 0.0 || name == "CO2" && x.value == 0.0 };
        if !(ok && x.value.is_finite() && x.u >= 0.0) {
            let what = part::Input { input: name.into() };
            return Err(Reason::out_of_range(what, Shown::as_given(x.value, "mmol/kg"), part::NoughtOrMore));
        }
    }
    Ok(())
}

fn band<'a>(dated: impl Iterator<Item = &'a Dated>) -> Option<(f64, Option<f64>)> {
    let ends =
        dated.filter_map(|d| d.spread).map(|s| (s.low_95, s.high_95)).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    ends.map(|(low, high)| (low, Some(high).filter(|h| h.is_finite())))
}

/// What the sample's chemistry says before any age.
fn of_the_sample(c: &Carbon, out: &mut CarbonAge) {
    match c.methane {
        Found::Detected => out.findings.push(said::MethaneFound.into()),
        Found::NotMeasured => out.findings.push(said::MethaneNotLookedFor.into()),
        Found::NotDetected => {}
    }
    if let Some(d) = c.d13c.filter(|d| d.value > number("13C.heavy")) {
        out.findings.push(said::HeavyCarbon { delta: Shown::significant(d.value, 3, "‰").typeset() }.into());
    }
    match (c.sulfide, out.share_of_sulfide) {
        (Some(_), Some(share)) if share > 0.0 => {
            // As if the organic carbon were dead: what the age would be too high by, uncorrected.
            let years = -mean_life(out.half_life.value) * libm::log(1.0 - share);
            let (share, years) = (Share::new(share, Digits::Significant(2)), Shown::significant(years, 2, ""));
            out.findings.push(said::SulfideTakenOut { share, years }.into());
        }
        (Some(_), None) => out.findings.push(said::SulfideWithoutCarbonate.into()),
        (None, _) => out.findings.push(said::SulfideNotLookedFor.into()),
        _ => {}
    }
    if c.tritium == Found::Detected && out.f14c.value < 0.5 {
        let share = Share::new(out.modern_share_at_most, Digits::Up(2));
        out.findings.push(said::TritiumWithOldCarbon { share }.into());
    }
}

/// What the ages say of themselves.
fn of_the_ages(c: &Carbon, out: &mut CarbonAge) {
    for d in &out.dated {
        let (model, q) = (d.correction.said(), Shown::significant(d.q, 3, ""));
        if !d.in_band {
            out.findings.push(said::ShareOutside { model, q }.into());
        } else if d.q > 1.0 {
            out.findings.push(said::ShareAboveOne { model, q }.into());
        }
    }
    let years = |x: f64| Shown::significant(x, 2, "");
    let Some((low, high)) = out.band else {
        out.findings.push(said::NoCorrectionStands.into());
        return;
    };
    let below_detection = out.f14c.value <= normal::ONE_SIDED_95 * out.f14c.u;
    let (least, most) = (number("14C.least_years"), number("14C.most_years"));
    if below_detection || high.is_none() {
        out.findings.push(said::OlderThan { years: Shown::lower_bound(low.min(most), "") }.into());
    } else if high.is_some_and(|h| h > most) {
        out.findings.push(said::BeyondTheRange { years: years(most) }.into());
    }
    if out.dated.iter().any(|d| d.in_band && d.years.is_some_and(|t| t <= 0.0)) {
        out.findings.push(said::ModernOrTooLow.into());
    } else if low < least {
        out.findings.push(said::BelowTheRange { years: years(least) }.into());
    }
    if out.dated.iter().any(|d| d.in_band && !d.read_in_print) {
        out.findings.push(said::FormulasRecalled.into());
    }
    if c.d13c.is_none() {
        out.findings.push(said::WithoutCarbonThirteen.into());
    }
}
