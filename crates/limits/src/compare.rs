//! Is a result under a published limit?
//!
//! In: an amount with u, a limit, and what else is known of the measurement. Out: "below", "above",
//! "cannot tell" by the decision rule of the limit, or by how sure a person asks to be; then the
//! probability that the true value lies under the limit (inside the range, for a limit with two ends).
//!
//! Method: JCGM 106:2012, 7.2 to 7.4, 8.2 and 8.3: the true value is taken as normal about the result
//! (Student's t where u has few degrees of freedom); p = Φ((T − y)/u). The guard is a probability, a
//! band w = r·U with U = 2u, or none (simple acceptance).
//!
//! A value without u is answered by the value, with how far it lies and that its uncertainty is not
//! stated. What "< L" bounds depends on what L is ([`BelowIs`]). A mass of nitrate, nitrite, ammonium
//! or sulfide without a basis is read both ways and told only where both say the same. Conductivity is
//! brought to the temperature of its limit. Sulfide is compared in all and, where the undissociated
//! part is known, by that part too. A goal of zero is held against what could have been seen. Not for
//! sums of substances. Checked in `tests/limits.rs`.

use crate::claim::probability;
use crate::method::{MethodMet, method_met};
use crate::table::Limit;
use crate::terms::{Concern, Rule};
use message::{Arg, Digits, Message, Share, Shown, limit as said};
use quantity::{Amount, Measured, Spoken, Substance, Unit, UnitError};
use serde::Serialize;

/// How sure the programme wants to be.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Guard {
    /// The limit's own decision rule.
    #[default]
    OfLimit,
    /// Simple acceptance: the value itself decides.
    None,
    /// "Below" takes at least this probability, "above" at most one minus it.
    Probability(f64),
    /// A band of r times U = 2u on either side of the limit (JCGM 106:2012, 8.3.2).
    ExpandedU(f64),
}

impl Guard {
    /// Reads `rule`, `none`, `95 %`, `0.95`, `U`, `0.5 U`.
    pub fn parse(text: &str) -> Option<Self> {
        let t = text.trim();
        if t.eq_ignore_ascii_case("rule") {
            return Some(Self::OfLimit);
        }
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
            Self::OfLimit => said::GuardOfLimit.into(),
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

/// What the L of "< L" is. It decides whether L is an upper bound of the true value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub enum BelowIs {
    /// Nobody says.
    #[default]
    #[serde(rename = "not stated")]
    NotStated,
    /// An upper bound of the true value, 95 %.
    #[serde(rename = "bound")]
    Bound,
    /// A true value at L would have been detected with 95 % probability (ISO 11843-1): a bound.
    #[serde(rename = "detection limit")]
    DetectionLimit,
    /// A value under L was measured and not reported as a number: no bound, the true value has u about it.
    #[serde(rename = "quantification limit")]
    QuantificationLimit,
    /// From L on the laboratory reports numbers: no bound, as for the quantification limit.
    #[serde(rename = "reporting limit")]
    ReportingLimit,
    /// From L on a signal counts as detected; a true value at L is missed half the time. US 40 CFR 136 appendix B calls
    /// such a value a method detection limit.
    #[serde(rename = "critical value")]
    CriticalValue,
}

/// True values up to so many critical values may go undetected.
// ISO 11843-1 and Currie 1968: L_D is about twice L_C where u does not change with the level and both risks are 5 %
// (from memory).
const DETECTION_OVER_CRITICAL: f64 = 2.0;

impl BelowIs {
    /// Reads what laboratories call it; none where the words say nothing.
    pub fn parse(text: &str) -> Option<Self> {
        let t = text.trim().to_lowercase();
        let has = |words: &[&str]| words.iter().any(|w| t.contains(w));
        let is = |words: &[&str]| words.contains(&t.as_str());
        if has(&["method detection", "critical", "decision"]) || is(&["lc"]) || t.ends_with("mdl") {
            Some(Self::CriticalValue)
        } else if has(&["quantif"]) || is(&["loq", "lq", "pql"]) {
            Some(Self::QuantificationLimit)
        } else if has(&["detection"]) || is(&["lod", "ld"]) {
            Some(Self::DetectionLimit)
        } else if has(&["report"]) || is(&["rl", "mrl", "lrl", "irl"]) {
            Some(Self::ReportingLimit)
        } else {
            (t == "bound").then_some(Self::Bound)
        }
    }

    /// As a message.
    pub fn message(self) -> Message {
        match self {
            Self::NotStated => said::BelowNotStated.into(),
            Self::Bound => said::BelowBound.into(),
            Self::DetectionLimit => said::BelowDetectionLimit.into(),
            Self::QuantificationLimit => said::BelowQuantificationLimit.into(),
            Self::ReportingLimit => said::BelowReportingLimit.into(),
            Self::CriticalValue => said::BelowCriticalValue.into(),
        }
    }
}

/// What is known of a measurement beside its amount; limits are in the unit of the amount.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Known {
    /// What the L of "< L" is.
    pub below_is: BelowIs,
    /// L_D.
    pub detection_limit: Option<f64>,
    /// L_Q.
    pub quantification_limit: Option<f64>,
    /// Temperature that a conductivity was measured at or brought to, °C; 25 where nobody says.
    pub conductivity_at_degc: Option<f64>,
    /// Share of total sulfide that is undissociated H2S, 0 to 1.
    pub undissociated: Option<f64>,
}

/// What a comparison is asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Options {
    /// How sure.
    pub guard: Guard,
    /// What is known of the measurement.
    pub known: Known,
}

/// On which side of the limit a result lies, in the order of what a person sees first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum Answer {
    /// Over the limit (outside the range).
    #[serde(rename = "above")]
    Above,
    /// The data do not decide.
    #[serde(rename = "cannot tell")]
    CannotTell,
    /// Under the limit (inside the range).
    #[serde(rename = "below")]
    Below,
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
    /// Whether the limit lies within the uncertainty of the result: neither side has 95 %.
    pub within_uncertainty: bool,
    /// Whether the method meets what the limit demands of it; none where it demands nothing.
    pub method: Option<MethodMet>,
    /// One plain sentence, in English.
    pub sentence: String,
    /// The same, to be said in any language.
    pub message: Message,
}

impl Comparison {
    /// The result, or its bound, as a share of the limit; beside a range, its place in it (1 at either end). Where the
    /// basis is left open, by the reading that comes out higher: as N, as S.
    pub fn share_of_limit(&self) -> f64 {
        share_of(&self.amount, &self.limit)
    }

    /// A place in the order of what a person sees first: what lies above a limit (health before taste before operation,
    /// then goals of zero), then what cannot be told, then what lies below.
    pub fn urgency(&self) -> Urgency {
        urgency_of(self.answer, &self.limit)
    }

    /// The answer as a message, with how sure it is where the limit lies within the uncertainty.
    pub fn answer_message(&self) -> Message {
        self.with_uncertainty(self.answer.message())
    }

    /// The same in words of the caller's own for the answer.
    pub fn with_uncertainty(&self, answer: Message) -> Message {
        if self.within_uncertainty && self.answer != Answer::CannotTell {
            said::AnswerWithinUncertainty { answer }.into()
        } else {
            answer
        }
    }
}

/// A place in the order of what a person sees first.
pub type Urgency = (Answer, bool, Concern);

fn urgency_of(answer: Answer, limit: &Limit) -> Urgency {
    (answer, limit.is_goal_of_zero(), limit.terms.concern)
}

fn share_of(amount: &Amount, l: &Limit) -> f64 {
    let read = open_bases(amount.unit(), l).map(|[higher, _]| to_unit(&in_unit_of(amount, &higher), l));
    let x = match read.and_then(Result::ok).as_ref().unwrap_or(amount) {
        Amount::Measured(m) => m.value,
        Amount::Stated(s) => s.value,
        Amount::Below(b) | Amount::Above(b) => b.limit,
    };
    match l.low {
        Some(low) => ((x - 0.5 * (low + l.high)) / (0.5 * (l.high - low))).abs(),
        None => x / l.high,
    }
}

/// What puts a [`compare`]d amount in its place among others, without a sentence: its urgency, and its share of the limit.
pub fn rank(amount: &Amount, limit: &Limit, options: &Options) -> (Urgency, f64) {
    let held = Held::beside(amount, limit, options);
    let answer = held.answer.unwrap_or(Answer::CannotTell);
    (urgency_of(answer, limit), share_of(amount_of(&held, amount), limit))
}

/// Compares an amount of the limit's analyte with the limit.
///
/// An amount whose unit cannot be brought to the limit's is answered with "cannot tell" and the reason.
///
/// ```
/// use limits::{Answer, Guard, Options, compare, limits};
/// use quantity::{Amount, Unit};
/// let lead = limits().iter().find(|l| l.analyte == "Pb" && l.authority == "WHO").unwrap();
/// let answer = |amount, guard| compare(&amount, lead, &Options { guard, ..Options::default() }).answer;
/// let ug_l = || Unit::known("µg/L");
/// // Under the limit of 10 µg/L, but within its own uncertainty of it: by the rule of the limit below, with 95 % open.
/// assert_eq!(answer(Amount::measured(9.8, 0.5, ug_l()), Guard::OfLimit), Answer::Below);
/// assert_eq!(answer(Amount::measured(9.8, 0.5, ug_l()), Guard::Probability(0.95)), Answer::CannotTell);
/// // Not detected by a method that cannot see the limit says nothing; by one that can, it is below.
/// assert_eq!(answer(Amount::below(50.0, ug_l()), Guard::OfLimit), Answer::CannotTell);
/// assert_eq!(answer(Amount::below(1.0, ug_l()), Guard::OfLimit), Answer::Below);
/// ```
pub fn compare(amount: &Amount, limit: &Limit, options: &Options) -> Comparison {
    let held = Held::beside(amount, limit, options);
    let (analyte, named) = (limit.analyte.as_str().into(), name(limit));
    let (result, why) = (amount_of(&held, amount).with_u(), held.why);
    let message: Message = match held.answer {
        Some(Answer::Below) => said::IsBelow { analyte, result, limit: named, why }.into(),
        Some(Answer::Above) => said::IsAbove { analyte, result, limit: named, why }.into(),
        Some(Answer::CannotTell) => said::IsOpen { analyte, result, limit: named, why }.into(),
        None => said::NotComparable { analyte, limit: named, why }.into(),
    };
    let within = held.probability_under.is_some_and(|p| p > NEITHER_SIDE[0] && p < NEITHER_SIDE[1]);
    Comparison {
        sentence: message.in_english(),
        message,
        limit: limit.clone(),
        method: held
            .amount
            .as_ref()
            .and_then(|a| method_met(a, limit, &in_limits_unit(amount.unit(), limit, &options.known))),
        answer: held.answer.unwrap_or(Answer::CannotTell),
        probability_under: held.probability_under,
        within_uncertainty: within,
        amount: held.amount.unwrap_or_else(|| amount.clone()),
    }
}

/// Between these probabilities neither side of a limit has 95 %.
// Common practice; JCGM 106:2012 leaves the level to the parties.
const NEITHER_SIDE: [f64; 2] = [0.05, 0.95];

/// What came of holding an amount to a limit.
struct Held {
    /// None where the two cannot be compared.
    answer: Option<Answer>,
    /// In the limit's unit; none where it has no single one.
    amount: Option<Amount>,
    probability_under: Option<f64>,
    why: Message,
}

fn amount_of<'a>(held: &'a Held, amount: &'a Amount) -> &'a Amount {
    held.amount.as_ref().unwrap_or(amount)
}

impl Held {
    fn beside(amount: &Amount, limit: &Limit, options: &Options) -> Self {
        match (open_bases(amount.unit(), limit), limit.terms.at_degc) {
            (Some(bases), _) => Self::both_ways(amount, &bases, limit, options),
            (None, Some(at)) => Self::at_temperature(amount, limit, at, options),
            (None, None) => Self::of(amount, limit, options),
        }
    }

    fn not_comparable(why: Message) -> Self {
        Self { answer: None, amount: None, probability_under: None, why }
    }

    fn of(amount: &Amount, limit: &Limit, options: &Options) -> Self {
        match to_unit(amount, limit) {
            Err(e) => Self::not_comparable(e.message()),
            Ok(converted) => {
                let known = in_limits_unit(amount.unit(), limit, &options.known);
                Self::in_unit(converted, limit, options.guard, &known)
            }
        }
    }

    fn in_unit(amount: Amount, limit: &Limit, guard: Guard, known: &Known) -> Self {
        let simple = |amount: &Amount| match amount {
            _ if limit.is_goal_of_zero() => goal_of_zero(amount, known),
            Amount::Measured(m) => by_rule(m, limit, guard),
            Amount::Stated(s) => without_u(s.value, limit),
            Amount::Below(b) => non_detect(b.limit, limit, known.below_is),
            Amount::Above(b) => over_range(b.limit, limit),
        };
        let (answer, probability_under, why) = simple(&amount);
        if limit.analyte != SULFIDE {
            return Self { answer: Some(answer), amount: Some(amount), probability_under, why };
        }
        let (answer, why) = match known.undissociated {
            None if answer == Answer::Above => (answer, said::SulfideTotalAlone { why }.into()),
            None => (answer, said::SulfideTotal { why }.into()),
            Some(share) => {
                let part = scaled(&amount, [share; 3]);
                let (other, ..) = simple(&part);
                let undissociated = part.with_u();
                if other == answer {
                    (answer, said::SulfideBoth { undissociated, why }.into())
                } else {
                    let (total, part) = (answer.message(), other.message());
                    (Answer::CannotTell, said::SulfideDiffer { total, part, undissociated }.into())
                }
            }
        };
        Self { answer: Some(answer), amount: Some(amount), probability_under, why }
    }

    /// By each basis that the unit leaves open; an answer only where all give the same.
    fn both_ways(amount: &Amount, bases: &[Unit; 2], limit: &Limit, options: &Options) -> Self {
        let [one, other] = bases.each_ref().map(|unit| Self::of(&in_unit_of(amount, unit), limit, options).answer);
        let [write, or] = bases.each_ref().map(|unit| unit.to_string().into());
        let unit = amount.unit().to_string().into();
        let (answer, why): (_, Message) = match one {
            Some(answer) if one == other && answer != Answer::CannotTell => {
                (answer, said::BasisOpenSame { unit, write, or }.into())
            }
            _ => (Answer::CannotTell, said::BasisOpen { unit, write, or }.into()),
        };
        Self { answer: Some(answer), amount: None, probability_under: None, why }
    }

    /// A conductivity at the temperature of its limit.
    fn at_temperature(amount: &Amount, limit: &Limit, at_degc: f64, options: &Options) -> Self {
        let measured_at = options.known.conductivity_at_degc.unwrap_or(CONDUCTIVITY_DEGC);
        let degrees = |t: f64| Shown::as_given(t, "°C");
        let factors = match (measured_at, at_degc) {
            (from, to) if from == to => [1.0; 3],
            (25.0, 20.0) => K20_OVER_K25,
            (20.0, 25.0) => [1.0 / K20_OVER_K25[0], 1.0 / K20_OVER_K25[2], 1.0 / K20_OVER_K25[1]],
            _ => {
                let (from, to) = (degrees(measured_at), degrees(at_degc));
                return Self::not_comparable(said::ConductivityAtOther { from, to }.into());
            }
        };
        let mut held = Self::of(&scaled(amount, factors), limit, options);
        let (measured, from, to) = (amount.with_u(), degrees(measured_at), degrees(at_degc));
        held.why = said::ConductivityAt { measured, from, to, why: held.why }.into();
        held
    }
}

/// Where nobody says at what temperature a conductivity holds.
// ISO 7888:1985: conductivity of water is given at 25 °C (from memory).
const CONDUCTIVITY_DEGC: f64 = 25.0;

/// Conductivity at 20 °C over that at 25 °C of natural waters: value, least, most.
// Ratio of limiting conductivities of all ions of `reference/ion_conductivity.csv` but H+ (0.928), as powers of viscosity:
// 0.890 to 0.907, the major ions 0.893 to 0.907. ISO 7888 has 1/1.116 = 0.896 (from memory).
const K20_OVER_K25: [f64; 3] = [0.900, 0.890, 0.910];

/// An amount times a factor, u with the factor's own (half its range over √3, JCGM 100:2008, 4.3.7); a bound by the end
/// that claims less.
fn scaled(amount: &Amount, [factor, least, most]: [f64; 3]) -> Amount {
    match amount {
        Amount::Measured(m) => {
            let of_factor = m.value * 0.5 * (most - least) / libm::sqrt(3.0);
            let u = libm::hypot(m.u * factor, of_factor);
            Amount::Measured(Measured::with_dof(m.value * factor, u, m.dof, m.unit.clone()))
        }
        Amount::Stated(s) => Amount::stated(s.value * factor, s.unit.clone()),
        Amount::Below(b) => Amount::below(b.limit * most, b.unit.clone()),
        Amount::Above(b) => Amount::above(b.limit * least, b.unit.clone()),
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

/// Sulfide in all its forms.
const SULFIDE: &str = "S(-II)";

/// What a mass of these may be meant as; they differ by up to 4.4, and nobody may guess.
const BASES: [(&str, [&str; 2]); 4] =
    [("NO3", ["N", "NO3"]), ("NO2", ["N", "NO2"]), ("NH4", ["N", "NH4"]), (SULFIDE, ["S", "H2S"])];

/// The units that a mass without a basis may be meant as; none where nothing is open.
fn open_bases(unit: &Unit, limit: &Limit) -> Option<[Unit; 2]> {
    if limit.unit.basis().is_none() || unit.basis().is_some() || !is_mass(unit) {
        return None;
    }
    let (_, bases) = BASES.iter().find(|(analyte, _)| *analyte == limit.analyte)?;
    Some(bases.map(|basis| Unit::known(&format!("{unit} as {basis}"))))
}

/// The same number in another unit.
fn in_unit_of(amount: &Amount, unit: &Unit) -> Amount {
    let unit = unit.clone();
    match amount {
        Amount::Measured(m) => Amount::Measured(Measured { unit, ..m.clone() }),
        Amount::Stated(s) => Amount::stated(s.value, unit),
        Amount::Below(b) => Amount::below(b.limit, unit),
        Amount::Above(b) => Amount::above(b.limit, unit),
    }
}

fn substance(limit: &Limit) -> Option<Substance> {
    let formula = if limit.analyte == SULFIDE { "H2S" } else { limit.analyte.as_str() };
    Substance::parse(formula).ok()
}

fn to_unit(amount: &Amount, limit: &Limit) -> Result<Amount, UnitError> {
    amount.convert(&limit.unit, substance(limit).as_ref(), None)
}

/// What is known of a measurement in the unit of the limit; a limit of the laboratory that cannot be converted is not known.
fn in_limits_unit(unit: &Unit, limit: &Limit, known: &Known) -> Known {
    let conversion = unit.conversion(&limit.unit, substance(limit).as_ref(), None).ok();
    let converted = |x: Option<f64>| x.and_then(|x| conversion.as_ref().map(|c| c.apply(x)));
    Known {
        detection_limit: converted(known.detection_limit),
        quantification_limit: converted(known.quantification_limit),
        ..known.clone()
    }
}

/// Is the unit a mass per volume or per mass, and not moles or equivalents?
fn is_mass(unit: &Unit) -> bool {
    unit.conversion(&Unit::known("mg/L"), None, None).is_ok()
        || unit.conversion(&Unit::known("mg/kg"), None, None).is_ok()
}

fn by_rule(m: &Measured, limit: &Limit, guard: Guard) -> (Answer, Option<f64>, Message) {
    let p = probability_under(m, limit);
    let u = 2.0 * m.u;
    let simple = inside(m.value, limit, 0.0);
    let answer = match (guard, limit.terms.rule) {
        (Guard::None, _) | (Guard::OfLimit, Rule::SimpleAcceptance) => decide(simple, !simple),
        (Guard::OfLimit, Rule::GuardedAcceptance) => decide(inside(m.value, limit, u), !simple),
        (Guard::OfLimit, Rule::GuardedRejection) => decide(simple, !inside(m.value, limit, -u)),
        (Guard::Probability(c), _) => decide(p >= c, p <= 1.0 - c),
        (Guard::ExpandedU(r), _) => decide(inside(m.value, limit, r * u), !inside(m.value, limit, -r * u)),
    };
    let p_in_words = probability(p);
    let why = match (guard, limit.low) {
        (Guard::OfLimit, None) => said::RuleUnder { rule: limit.terms.rule.message(), p: p_in_words }.into(),
        (Guard::OfLimit, Some(_)) => said::RuleInside { rule: limit.terms.rule.message(), p: p_in_words }.into(),
        (guard, None) => said::UnderWith { p: p_in_words, guard: guard.message() }.into(),
        (guard, Some(_)) => said::InsideWith { p: p_in_words, guard: guard.message() }.into(),
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

/// By the value itself, and how far it lies: the factor is rounded to the side that claims less.
fn without_u(y: f64, limit: &Limit) -> (Answer, Option<f64>, Message) {
    let under = inside(y, limit, 0.0);
    let answer = decide(under, !under);
    let why = if let Some(low) = limit.low {
        let gap = Shown::trimmed((limit.high - y).abs().min((y - low).abs()), 2, limit.unit.to_string());
        if under { said::WithoutUInside { gap }.into() } else { said::WithoutUOutside { gap }.into() }
    } else {
        let digits = if under { Digits::Up(2) } else { Digits::Down(2) };
        said::WithoutU { times: Shown::new((y / limit.high).max(0.0), digits, "") }.into()
    };
    (answer, None, why)
}

fn non_detect(l: f64, limit: &Limit, below_is: BelowIs) -> (Answer, Option<f64>, Message) {
    if limit.low.is_some() {
        return (Answer::CannotTell, None, said::BoundAndRange.into());
    }
    // What was written down as the limit is the limit, to the last digit of a conversion.
    let (at, over) = ((l / limit.high - 1.0).abs() < 1e-9, l > limit.high);
    let what = below_is.message();
    let (answer, why) = match below_is {
        _ if over && !at => (Answer::CannotTell, said::NotSensitive.into()),
        BelowIs::Bound | BelowIs::DetectionLimit => (Answer::Below, said::BelowIsBound { what }.into()),
        BelowIs::CriticalValue => {
            let seen = DETECTION_OVER_CRITICAL * l;
            let most = Shown::bound(seen, limit.unit.to_string());
            if seen <= limit.high {
                (Answer::Below, said::BelowCriticalUnder { most }.into())
            } else {
                (Answer::CannotTell, said::BelowCriticalOver { most }.into())
            }
        }
        _ if at => (Answer::CannotTell, said::BelowAtLimit { what }.into()),
        _ => (Answer::Below, said::BelowByValue { what }.into()),
    };
    (answer, None, why)
}

/// A goal of zero cannot be shown by any measurement: what was found lies over it, else it is told from where on it
/// would have been seen.
fn goal_of_zero(amount: &Amount, known: &Known) -> (Answer, Option<f64>, Message) {
    let unit = || amount.unit().to_string();
    let seen_from = |l: f64| Shown::bound(l, unit());
    let not_found = |l: f64| (Answer::CannotTell, None, said::GoalNotFound { seen: seen_from(l) }.into());
    let found = || match known.detection_limit {
        Some(l) => (Answer::Above, None, said::GoalFoundOver { seen: seen_from(l) }.into()),
        None => (Answer::Above, None, said::GoalFound.into()),
    };
    match (amount, known.detection_limit) {
        (Amount::Below(b), limit) => not_found(limit.unwrap_or(0.0).max(b.limit)),
        (Amount::Above(_), _) => found(),
        (Amount::Measured(m), _)
            if statistics::t::cdf(-m.value / m.u.max(f64::MIN_POSITIVE), m.dof) < NEITHER_SIDE[0] =>
        {
            found()
        }
        (Amount::Stated(s), Some(l)) if s.value >= l => found(),
        (Amount::Measured(_) | Amount::Stated(_), Some(l)) => not_found(l),
        (Amount::Stated(s), None) if s.value > 0.0 => (Answer::Above, None, said::GoalFoundWithoutLimit.into()),
        (Amount::Measured(_) | Amount::Stated(_), None) => (Answer::CannotTell, None, said::GoalOpen.into()),
    }
}

fn over_range(reading: f64, limit: &Limit) -> (Answer, Option<f64>, Message) {
    if reading >= limit.high {
        (Answer::Above, None, said::OverRange.into())
    } else {
        (Answer::CannotTell, None, said::OverRangeUnder.into())
    }
}
