//! Tritium alone: before or after the bomb tests, all piston ages of one value, the input that infiltrates.
//!
//! In: a measured value, the local history, the half-life that the laboratory used. Out: two thresholds of the
//! sampling date (from the local history, decayed), the class between them, every piston age. Three classes with
//! thresholds that vary with place and date: Lindsey, Jurgens & Belitz 2019, USGS SIR 2019-5090 (abstract); the
//! arithmetic is our own. One value has several piston ages, because the peak of the bomb tests rises and falls: all are
//! listed, never their mean. Contamination gives too much tritium, never too little. Checked in `tests/age_tritium.rs`.

use super::constants::number;
use super::history::{History, Piece, year};
use super::measured::{Measured, Tracer};
use super::models::decay_constant;
use crate::Reason;
use message::{Message, Shown, age as said};
use quantity::factor::{S_PER_D, S_PER_YEAR};
use quantity::{Check, Finding, Outcome};
use serde::Serialize;
use statistics::{brent, normal};

/// Rain before the first large thermonuclear tests came down until here (design of the classes: Lindsey et al. 2019).
pub const BOMB_YEAR: f64 = 1953.0;

/// Half-life of tritium, years of 365.25 d: 4500 ± 8 d (Lucas & Unterweger 2000).
pub fn half_life_years() -> f64 {
    number("3H.halflife") * S_PER_D / S_PER_YEAR
}

/// Decay constant of tritium, 1/years.
pub fn lambda() -> f64 {
    decay_constant(half_life_years())
}

/// What a value of tritium is multiplied with to hold for the day of sampling by the half-life used here: one that was
/// reckoned back over `years_after` with another half-life, or one as on the day of measurement.
///
/// ```
/// use aquifer::age::tritium::to_sampling;
/// // A half-life after sampling, not reckoned back: twice. Reckoned back with 12.43 years, a tenth of a percent off.
/// assert!((to_sampling(12.32, None) - 2.0).abs() < 1e-3);
/// assert!((to_sampling(2.0, Some(12.43)) - 1.001).abs() < 1e-4);
/// ```
pub fn to_sampling(years_after: f64, half_life_used: Option<f64>) -> f64 {
    let back = |half_life: f64| libm::exp2(years_after / half_life);
    back(half_life_years()) / half_life_used.map_or(1.0, back)
}

/// What one value of tritium says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Can all be from before the bomb tests.
    Before,
    /// Fell after them.
    After,
    /// Mixed, or cannot tell.
    Between,
    /// The measurement could not have seen what decides.
    TooCoarse,
}

/// The class with what it stands on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Classified {
    /// The class.
    pub class: Class,
    /// L, TU: highest value that water from before 1953 can have today.
    pub before_tu: f64,
    /// u of L by the history, TU.
    pub u_before_tu: f64,
    /// M, TU: lowest value that wholly younger water can have.
    pub after_tu: f64,
    /// From which year on the rain of M is: 1953, or the first year whose M lies above L.
    pub after_year: f64,
    /// Largest share that can be younger, 0 to 1, where the value lies below L.
    pub younger_at_most: Option<f64>,
    /// The same as a sentence.
    #[serde(skip)]
    pub finding: Finding,
}

/// Before or after the bomb tests?
///
/// # Errors
/// [`Reason`]: a history that cannot be, or one that does not reach from before 1953 to after it.
pub fn classify(measured: &Measured, history: &History) -> Result<Classified, Reason> {
    history.check()?;
    let ts = measured.sampled_year;
    let input = history.input(ts);
    let pieces = &input.value.0;
    let bomb = ts - BOMB_YEAR;
    let decayed = |p: &Piece, tau: f64| p.at(tau) * libm::exp(-lambda() * tau);
    // Within a piece a tritium curve times its decay rises or falls throughout, so that its ends are enough.
    let before_tu = pieces
        .iter()
        .filter(|p| p.to > bomb)
        .map(|p| decayed(p, p.from.max(bomb)).max(if p.to.is_finite() { decayed(p, p.to) } else { 0.0 }))
        .fold(0.0, f64::max);
    let u_before_tu = input.u.at(bomb) * libm::exp(-lambda() * bomb);
    let lowest = |from_year: f64| {
        let oldest = ts - from_year;
        let held = pieces.iter().filter(|p| p.from < oldest);
        held.map(|p| decayed(p, p.from).min(decayed(p, p.to.min(oldest)))).fold(f64::INFINITY, f64::min)
    };
    let mut after_year = BOMB_YEAR;
    while after_year < ts && lowest(after_year) <= before_tu {
        after_year += 1.0;
    }
    let after_tu = lowest(after_year);
    if !after_tu.is_finite() {
        let found = said::NeverAbove { before: tu(before_tu) };
        return Err(Reason::unlike(
            said::HistoryOf { tracer: Tracer::Tritium.sign().into() },
            found,
            said::RainAboveOld,
        ));
    }
    let half = normal::ONE_SIDED_95 * measured.u();
    let could_see = measured.critical.unwrap_or(match measured.level {
        super::Level::Value { .. } => half,
        super::Level::Below { limit, .. } => limit,
    });
    let class = if measured.at_most() < before_tu && measured.number() + half < before_tu {
        Class::Before
    } else if measured.detected() && measured.number() - half > after_tu {
        Class::After
    } else if !measured.detected() && could_see >= before_tu {
        Class::TooCoarse
    } else {
        Class::Between
    };
    let younger_at_most = (class == Class::Before).then(|| (measured.at_most() / after_tu).min(1.0));
    let finding = class_finding(measured, class, before_tu, (after_tu, after_year), younger_at_most, could_see);
    Ok(Classified { class, before_tu, u_before_tu, after_tu, after_year, younger_at_most, finding })
}

fn tu(x: f64) -> Shown {
    Shown::significant(x, 2, "TU")
}

fn class_finding(
    m: &Measured,
    class: Class,
    before_tu: f64,
    (after_tu, after_year): (f64, f64),
    younger: Option<f64>,
    could_see: f64,
) -> Finding {
    let value: Message = match m.level {
        super::Level::Value { value, u } => {
            said::ValueU { value: Shown::trimmed(value, 3, "TU"), u: Shown::significant(u, 2, "") }.into()
        }
        super::Level::Below { limit, .. } => said::BelowLimit { limit: Shown::as_given(limit, "TU") }.into(),
    };
    let (before, after, from) = (tu(before_tu), tu(after_tu), year(after_year));
    let (outcome, says): (_, Message) = match class {
        Class::Before => {
            let younger = message::Share::new(younger.unwrap_or(1.0), message::Digits::Up(2));
            (Outcome::Met, said::TritiumBefore { value, before, younger }.into())
        }
        Class::After => (Outcome::Met, said::TritiumAfter { value, after, from }.into()),
        Class::Between => (Outcome::NotKnown, said::TritiumBetween { value, before, after }.into()),
        Class::TooCoarse => {
            (Outcome::NotKnown, said::TritiumTooCoarse { value, before, seen: Shown::bound(could_see, "TU") }.into())
        }
    };
    Finding::new(Check::AquiferAge, outcome, says)
}

/// All piston ages of a value, years, youngest first: where the decayed history passes through it. A step of the record
/// (its end, its background) that passes over the value counts as a passage.
///
/// # Errors
/// [`Reason`]: a history that cannot be, a value that is not above nought.
pub fn piston_ages(value_tu: f64, sampled_year: f64, history: &History) -> Result<Vec<f64>, Reason> {
    history.check()?;
    let tritium = said::OfTracer { tracer: Tracer::Tritium.sign().into() };
    crate::reason::above_nought(tritium, value_tu, "TU")?;
    Ok(passages(&history.input(sampled_year).value.0, value_tu, lambda()))
}

/// Times before sampling at which an input, decayed to sampling, passes through a value.
pub(super) fn passages(pieces: &[Piece], value: f64, lambda: f64) -> Vec<f64> {
    let mut out: Vec<f64> = vec![];
    let mut last: Option<f64> = None;
    for p in pieces {
        let off = |tau: f64| p.at(tau) * libm::exp(-lambda * tau) - value;
        let start = off(p.from);
        if last.is_some_and(|l| l * start < 0.0) {
            out.push(p.from);
        }
        // The background is followed until nothing of it is left to find: 60 half-lives, or 1000 years for a gas.
        let to = if p.to.is_finite() { p.to } else { p.from + if lambda > 0.0 { 42.0 / lambda } else { 1000.0 } };
        let end = off(to);
        if start == 0.0 {
            out.push(p.from);
        } else if start * end < 0.0 {
            out.push(brent(off, p.from, to));
        }
        last = (end != 0.0).then_some(end).or(last);
    }
    out.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
    out
}

/// Rain of a month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Month {
    /// Amount, mm.
    pub rain_mm: f64,
    /// Tracer in it (tritium TU, or a delta value in ‰).
    pub value: f64,
    /// April to September in the north.
    pub summer: bool,
}

/// α, summer infiltration over winter infiltration, by stable isotopes: Σw P(δ − δG)/Σs P(δG − δ) (Grabczak et al. 1984,
/// from memory; the balance is exact). Outside 0 to 1 the caller says so and takes 0 to 1, flat: [`Alpha`].
///
/// # Errors
/// [`Reason`]: no summer or no winter month, or summer rain like the groundwater, which leaves α open.
pub fn alpha(months: &[Month], groundwater: f64) -> Result<Alpha, Reason> {
    let sum = |summer: bool| -> f64 {
        months.iter().filter(|m| m.summer == summer).map(|m| m.rain_mm * (m.value - groundwater)).sum()
    };
    let (winter, summer) = (sum(false), -sum(true));
    if summer == 0.0 || !months.iter().any(|m| !m.summer) {
        return Err(Reason::TooFew {
            what: said::MonthsOfRain.into(),
            have: months.len(),
            need: 2,
            hint: said::SummerAndWinter.into(),
        });
    }
    let value = winter / summer;
    Ok(if (0.0..=1.0).contains(&value) { Alpha::Known(value) } else { Alpha::Open(value) })
}

/// Summer infiltration over winter infiltration.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Alpha {
    /// Between 0 and 1.
    Known(f64),
    /// The balance gave this, which cannot be: 0 to 1 is taken, flat.
    Open(f64),
}

/// The year's input of what infiltrates: Σ α·P·C/Σ α·P, α for summer months and 1 for winter months.
///
/// # Errors
/// [`Reason`]: α outside 0 to 1, or no rain that infiltrates.
///
/// ```
/// use aquifer::age::tritium::{Month, infiltrating};
/// // Nothing of the summer rain infiltrates: its tritium does not count, however high.
/// let winter = Month { rain_mm: 300.0, value: 8.0, summer: false };
/// let summer = Month { rain_mm: 500.0, value: 20.0, summer: true };
/// assert_eq!(infiltrating(&[winter, summer], 0.0).unwrap(), 8.0);
/// ```
pub fn infiltrating(months: &[Month], alpha: f64) -> Result<f64, Reason> {
    if !(0.0..=1.0).contains(&alpha) {
        let found = Shown::as_given(alpha, "");
        return Err(Reason::out_of_range(said::SummerOverWinter, found, message::aquifer::ShareNotPercent));
    }
    let weight = |m: &Month| m.rain_mm * if m.summer { alpha } else { 1.0 };
    let rain: f64 = months.iter().map(weight).sum();
    crate::reason::above_nought(said::MonthsOfRain, rain, "mm")?;
    Ok(months.iter().map(|m| weight(m) * m.value).sum::<f64>() / rain)
}
