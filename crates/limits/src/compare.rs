//! Is a result under a published limit?
//!
//! In: an amount with u, a limit, and how sure the programme wants to be. Out: "below", "above",
//! "cannot tell", and the probability that the true value lies under the limit (inside the range,
//! for a limit with two ends).
//!
//! Method: JCGM 106:2012, 7.2 to 7.4 and 8.3: the true value is taken as normal about the result
//! (Student's t where u has few degrees of freedom); p = Φ((T − y)/u). The guard is a probability, a
//! band w = r·U with U = 2u, or none (simple acceptance).
//!
//! A non-detect is below any limit at or above its own; under a higher reporting limit nothing can
//! be told. A value without u cannot be told either: the sentence names the u at which the answer
//! would change. Not for sums of substances. Checked in `tests/limits.rs`.

use crate::claim::probability;
use crate::table::Limit;
use message::{Arg, Digits, Message, Share, Shown, limit as said};
use quantity::{Amount, Measured, Spoken, Substance, Unit};
use serde::Serialize;
use statistics::normal;

/// How sure the programme wants to be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Guard {
    /// Simple acceptance: the value itself decides.
    None,
    /// "Below" takes at least this probability, "above" at most one minus it.
    Probability(f64),
    /// A band of r times U = 2u on either side of the limit (JCGM 106:2012, 8.3.2).
    ExpandedU(f64),
}

impl Default for Guard {
    /// 95 %: common practice.
    fn default() -> Self {
        Self::Probability(0.95)
    }
}

impl Guard {
    /// Reads `none`, `95 %`, `0.95`, `U`, `0.5 U`.
    pub fn parse(text: &str) -> Option<Self> {
        let t = text.trim();
        if t.eq_ignore_ascii_case("none") || t.eq_ignore_ascii_case("simple") {
            return Some(Self::None);
        }
        if let Some(r) = t.strip_suffix(['U', 'u']) {
            let r = r.trim();
            let r = if r.is_empty() { Some(1.0) } else { r.parse().ok() };
            return r.filter(|r| *r >= 0.0).map(Self::ExpandedU);
        }
        let p: f64 = match t.strip_suffix('%') {
            Some(percent) => percent.trim().parse::<f64>().ok()? / 100.0,
            None => t.parse().ok()?,
        };
        (0.5..1.0).contains(&p).then_some(Self::Probability(p))
    }

    /// As a message.
    pub fn message(self) -> Message {
        match self {
            Self::None => said::GuardNone.into(),
            Self::Probability(p) => said::GuardProbability { share: Share::new(p, Digits::Significant(3)) }.into(),
            Self::ExpandedU(r) => said::GuardBand { r: Shown::as_given(r, "") }.into(),
        }
    }

    /// The guard in words.
    pub fn in_words(self) -> String {
        self.message().text()
    }
}

/// What a comparison is asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Options {
    /// How sure.
    pub guard: Guard,
}

/// Where the true value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Answer {
    /// Under the limit (inside the range).
    #[serde(rename = "below")]
    Below,
    /// Over the limit (outside the range).
    #[serde(rename = "above")]
    Above,
    /// The data do not decide.
    #[serde(rename = "cannot tell")]
    CannotTell,
}

impl Answer {
    /// The answer in words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Below => "below",
            Self::Above => "above",
            Self::CannotTell => "cannot tell",
        }
    }

    /// As a message.
    pub fn message(self) -> Message {
        match self {
            Self::Below => message::word::Below.into(),
            Self::Above => message::word::Above.into(),
            Self::CannotTell => message::word::CannotTell.into(),
        }
    }
}

/// A result beside a limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// The limit.
    pub limit: Limit,
    /// The result in the limit's unit; the result as it came where it cannot be converted.
    pub amount: Amount,
    /// Below, above, cannot tell.
    pub answer: Answer,
    /// Probability that the true value is under the limit; none without u.
    pub probability_under: Option<f64>,
    /// One plain sentence, in English.
    pub sentence: String,
    /// The same, to be said in any language; none where the two cannot be compared.
    pub message: Option<Message>,
}

/// Compares an amount of the limit's analyte with the limit.
///
/// An amount whose unit cannot be brought to the limit's is answered with "cannot tell" and the reason.
///
/// ```
/// use limits::{Answer, Options, compare, limits};
/// use quantity::{Amount, Unit};
/// let lead = limits().iter().find(|l| l.analyte == "Pb" && l.authority == "WHO").unwrap();
/// let answer = |amount| compare(&amount, lead, &Options::default()).answer;
/// let ug_l = || Unit::known("µg/L");
/// // Under the limit of 10 µg/L, but within its own uncertainty of it.
/// assert_eq!(answer(Amount::measured(9.8, 0.5, ug_l())), Answer::CannotTell);
/// // Not detected by a method that cannot see the limit says nothing; by one that can, it is below.
/// assert_eq!(answer(Amount::below(50.0, ug_l())), Answer::CannotTell);
/// assert_eq!(answer(Amount::below(1.0, ug_l())), Answer::Below);
/// ```
pub fn compare(amount: &Amount, limit: &Limit, options: &Options) -> Comparison {
    let in_unit = match to_unit(amount, limit) {
        Ok(a) => a,
        Err(why) => {
            return Comparison {
                limit: limit.clone(),
                amount: amount.clone(),
                answer: Answer::CannotTell,
                probability_under: None,
                sentence: format!("{} cannot be compared with {}: {why}.", limit.analyte, name(limit).in_english()),
                message: None,
            };
        }
    };
    let (answer, probability_under, why) = match &in_unit {
        Amount::Measured(m) => by_probability(m, limit, options.guard),
        Amount::Stated(s) => without_u(s.value, limit),
        Amount::Below(b) => non_detect(b.limit, limit),
        Amount::Above(b) => over_range(b.limit, limit),
    };
    let (analyte, result, named) = (limit.analyte.as_str().into(), in_unit.with_u(), name(limit));
    let message: Message = match answer {
        Answer::Below => said::IsBelow { analyte, result, limit: named, why }.into(),
        Answer::Above => said::IsAbove { analyte, result, limit: named, why }.into(),
        Answer::CannotTell => said::IsOpen { analyte, result, limit: named, why }.into(),
    };
    Comparison {
        sentence: message.in_english(),
        message: Some(message),
        limit: limit.clone(),
        amount: in_unit,
        answer,
        probability_under,
    }
}

/// What a limit is set for: by its word where the catalogue has it.
pub fn kind(limit: &Limit) -> Vec<Arg> {
    vec![Message::named("limit_kind", &limit.kind).map_or_else(|| Arg::Name(limit.kind.as_str().into()), Arg::from)]
}

fn name(limit: &Limit) -> Message {
    let high = Shown::as_given(limit.high, limit.unit.to_string());
    let authority = limit.authority.as_str().into();
    let analyte = limit.analyte.as_str().into();
    let (document, edition) = (limit.document.as_str().into(), limit.edition.as_str().into());
    let provenance = limit.provenance.as_str().into();
    let kind = kind(limit);
    match limit.low {
        Some(low) => {
            let low = Shown::as_given(low, "");
            said::NamedRange { authority, kind, analyte, low, high, document, edition, provenance }.into()
        }
        None => said::Named { authority, kind, analyte, limit: high, document, edition, provenance }.into(),
    }
}

fn to_unit(amount: &Amount, limit: &Limit) -> Result<Amount, String> {
    let unit = amount.unit();
    // A mass of nitrate may be meant as N or as NO3: a factor of 4.4 that nobody may guess.
    if limit.unit.basis().is_some() && unit.basis().is_none() && is_mass(unit) {
        return Err(format!("\"{unit}\" leaves the basis open; write for instance \"{}\"", limit.unit));
    }
    let formula = match limit.analyte.as_str() {
        "S(-II)" => "H2S",
        other => other,
    };
    let substance = Substance::parse(formula).ok();
    amount.convert(&limit.unit, substance.as_ref(), None).map_err(|e| e.to_string())
}

/// Is the unit a mass per volume or per mass, and not moles or equivalents?
fn is_mass(unit: &Unit) -> bool {
    unit.conversion(&Unit::known("mg/L"), None, None).is_ok()
        || unit.conversion(&Unit::known("mg/kg"), None, None).is_ok()
}

fn by_probability(m: &Measured, limit: &Limit, guard: Guard) -> (Answer, Option<f64>, Message) {
    let p = probability_under(m, limit);
    let answer = match guard {
        Guard::None => decide(inside(m.value, limit, 0.0), !inside(m.value, limit, 0.0)),
        Guard::Probability(c) => decide(p >= c, p <= 1.0 - c),
        Guard::ExpandedU(r) => {
            let w = r * 2.0 * m.u;
            decide(inside(m.value, limit, w), !inside(m.value, limit, -w))
        }
    };
    let guard = guard.message();
    let why = match limit.low {
        Some(_) => said::InsideWith { p: probability(p), guard }.into(),
        None => said::UnderWith { p: probability(p), guard }.into(),
    };
    (answer, Some(p), why)
}

/// Probability that the true value lies at or under the limit (inside a range).
pub fn probability_under(m: &Measured, limit: &Limit) -> f64 {
    let p = |end: f64| cdf(end - m.value, m.u, m.dof);
    p(limit.high) - limit.low.map_or(0.0, p)
}

fn cdf(distance: f64, u: f64, dof: f64) -> f64 {
    if u == 0.0 {
        return f64::from(u8::from(distance >= 0.0));
    }
    statistics::t::cdf(distance / u, dof)
}

/// Inside the limit drawn in by `w` at each end?
fn inside(y: f64, limit: &Limit, w: f64) -> bool {
    y <= limit.high - w && limit.low.is_none_or(|low| y >= low + w)
}

fn decide(below: bool, above: bool) -> Answer {
    match (below, above) {
        (true, _) => Answer::Below,
        (false, true) => Answer::Above,
        (false, false) => Answer::CannotTell,
    }
}

fn without_u(y: f64, limit: &Limit) -> (Answer, Option<f64>, Message) {
    let mut room = (limit.high - y).abs();
    if let Some(low) = limit.low {
        room = room.min((y - low).abs());
    }
    let u = Shown::significant(room / normal::ONE_SIDED_95, 2, limit.unit.to_string());
    let why = if inside(y, limit, 0.0) { said::WithoutUUnder { u }.into() } else { said::WithoutUOver { u }.into() };
    (Answer::CannotTell, None, why)
}

fn non_detect(reporting: f64, limit: &Limit) -> (Answer, Option<f64>, Message) {
    if limit.low.is_some() {
        return (Answer::CannotTell, None, said::BoundAndRange.into());
    }
    if reporting <= limit.high {
        (Answer::Below, None, said::NotDetected.into())
    } else {
        (Answer::CannotTell, None, said::NotSensitive.into())
    }
}

fn over_range(reading: f64, limit: &Limit) -> (Answer, Option<f64>, Message) {
    if reading >= limit.high {
        (Answer::Above, None, said::OverRange.into())
    } else {
        (Answer::CannotTell, None, said::OverRangeUnder.into())
    }
}
