//! Sentences about numbers, checked: does what was measured bear them?
//!
//! In: a sentence as fields ([`Claim`]), never as free prose: its kind ([`KINDS`]), amounts with unit and u, a
//! relation, names. Out: supported, contradicted or cannot tell; the 95 % interval; the nearest
//! sentence that the data do support, in plain and in scientific words, in English or German; what
//! stands in the way, by name (a non-detect under the line, a reference without u).
//!
//! Method: one-sided 95 % bounds (module `core`); a sentence is supported where the bound reaches
//! it. The point value being on the right side supports nothing: at 25 ± 2 against 5 ± 1 "five times"
//! has one half of the probability. True amounts are not negative: a net value under zero is a bound on one side.
//! Pictures of scale are checked where somebody else has drawn one; no answer proposes one. Sources: Fieller 1954; JCGM 106:2012, 7 and 8.
//! No sentence says that water may be drunk, and none is made from words alone.
//! Checked in `tests/claim.rs` and, twenty cases a kind, in `tests/claim_cases.rs`.

mod absence;
mod age;
mod analogy;
mod change;
mod core;
mod difference;
mod ranking;
mod ratio;
mod reference;
mod threshold;
pub(crate) mod words;

pub use absence::{Absence, Item};
pub use age::{Age, AgeAsked, AgeModel, Tracers, Tritium, tracer_sign};
pub use analogy::Analogy;
pub use change::{Change, Slope};
pub use difference::Difference;
pub use ranking::{Ranked, Ranking, Shared};
pub use ratio::Ratio;
pub use reference::{Comparison, Given, Reference};
pub use threshold::Threshold;
pub(crate) use words::probability;
pub use words::{amount_in_words, at_least, at_most, substance};

use message::{Arg, Message};
use quantity::{Amount, CalcError, Calculation, Lang, Spoken, Substance, Unit};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

/// Kinds of sentences.
pub const KINDS: &[&str] =
    &["ratio", "difference", "threshold", "absence", "reference", "ranking", "change", "analogy", "age"];

/// What the data say to a sentence.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Answer {
    /// The data bear it.
    #[serde(rename = "supported")]
    Supported,
    /// The data speak against it.
    #[serde(rename = "contradicted")]
    Contradicted,
    /// Neither.
    #[serde(rename = "cannot tell")]
    CannotTell,
}

impl Answer {
    /// The three answers.
    pub const ALL: [Self; 3] = [Self::Supported, Self::Contradicted, Self::CannotTell];

    /// As a word.
    pub fn word(self) -> &'static str {
        match self {
            Self::Supported => "supported",
            Self::Contradicted => "contradicted",
            Self::CannotTell => "cannot tell",
        }
    }

    /// As a message.
    pub fn message(self) -> Message {
        match self {
            Self::Supported => message::word::Supported.into(),
            Self::Contradicted => message::word::Contradicted.into(),
            Self::CannotTell => message::word::CannotTell.into(),
        }
    }

    /// All have to hold.
    fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::Contradicted, _) | (_, Self::Contradicted) => Self::Contradicted,
            (Self::Supported, Self::Supported) => Self::Supported,
            _ => Self::CannotTell,
        }
    }
}

/// A sentence with its answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Checked {
    /// Kind of sentence.
    pub kind: String,
    /// The sentence as it was asked, in words.
    pub asked: String,
    /// The answer.
    pub answer: Answer,
    /// 95 % interval of what `interval_of` names; none: no limit on that side.
    pub interval: [Option<f64>; 2],
    /// What the interval is of.
    pub interval_of: String,
    /// Probability that the sentence is true, where a number bears one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub probability: Option<f64>,
    /// The nearest sentence that the data do support, in plain words.
    pub plain: String,
    /// The same with its numbers.
    pub scientific: String,
    /// What stands in the way, and what to bear in mind.
    pub warnings: Vec<String>,
    /// Published sources, and sources of the reference figures.
    pub sources: Vec<String>,
    /// Figures of the kind of sentence.
    #[serde(flatten)]
    pub figures: Map<String, Value>,
    /// The sentences as messages, to be said in any language.
    #[serde(skip)]
    pub sentences: Sentences,
}

/// What a check says.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentences {
    /// The sentence as it was asked.
    pub asked: Message,
    /// What the interval is of; nothing where there is none.
    pub interval_of: Vec<Arg>,
    /// The nearest sentence that the data do support, in plain words.
    pub plain: Message,
    /// The same with its numbers.
    pub scientific: Message,
    /// What stands in the way, and what to bear in mind.
    pub warnings: Vec<Message>,
}

/// What a check found, before it is said.
struct Found {
    kind: &'static str,
    answer: Answer,
    interval: [Option<f64>; 2],
    probability: Option<f64>,
    sources: Vec<Source>,
    figures: Map<String, Value>,
    sentences: Sentences,
}

/// Where a method or a figure comes from.
enum Source {
    /// Of the literature, as it is cited in every language.
    Published(String),
    /// In our words.
    Said(Message),
}

impl Source {
    fn said(&self, lang: Lang) -> String {
        match self {
            Self::Published(title) => title.clone(),
            Self::Said(message) => message.in_language(lang),
        }
    }
}

impl From<&str> for Source {
    fn from(title: &str) -> Self {
        Self::Published(title.into())
    }
}

impl Found {
    fn said(self, lang: Lang) -> Checked {
        let s = &self.sentences;
        Checked {
            kind: self.kind.into(),
            asked: s.asked.in_language(lang),
            answer: self.answer,
            interval: self.interval,
            interval_of: Arg::from(s.interval_of.clone()).in_language(lang),
            probability: self.probability,
            plain: s.plain.in_language(lang),
            scientific: s.scientific.in_language(lang),
            warnings: s.warnings.iter().map(|w| w.in_language(lang)).collect(),
            sources: self.sources.iter().map(|s| s.said(lang)).collect(),
            figures: self.figures,
            sentences: self.sentences,
        }
    }
}

/// A sentence as fields. `A` is what stands where an amount is meant: the amount itself, or what names it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Claim<A = Amount> {
    /// The language it is answered in; English where left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lang: Option<Lang>,
    /// What it says.
    #[serde(flatten)]
    pub says: Says<A>,
}

/// What a sentence says, by its kind.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "lowercase")]
pub enum Says<A = Amount> {
    /// a holds so many times as much as b.
    Ratio(Ratio<A>),
    /// a holds so much more than b.
    Difference(Difference<A>),
    /// Under a level, over a level.
    Threshold(Threshold<A>),
    /// As little as a litre in a lake: other people's sentences; none is made here.
    Analogy(Analogy<A>),
    /// Free of.
    Absence(Absence<A>),
    /// Lower than a named water.
    Reference(Comparison<A>),
    /// The lowest, the highest, in this order.
    Ranking(Ranking<A>),
    /// Fallen, risen, unchanged.
    Change(Change<A>),
    /// It fell before, it is older than, so much of it is younger.
    Age(Age),
}

impl<A> Claim<A> {
    /// Kind of sentence, of [`KINDS`].
    pub fn kind(&self) -> &'static str {
        match self.says {
            Says::Ratio(_) => "ratio",
            Says::Difference(_) => "difference",
            Says::Threshold(_) => "threshold",
            Says::Analogy(_) => "analogy",
            Says::Absence(_) => "absence",
            Says::Reference(_) => "reference",
            Says::Ranking(_) => "ranking",
            Says::Change(_) => "change",
            Says::Age(_) => "age",
        }
    }

    /// The same sentence with something else in the place of each amount. `put` is given the place (`a`,
    /// `items[2].amount`) and what stands there; places come in the order of their names.
    ///
    /// # Errors
    /// Those of `put`.
    pub fn with_amounts<B, E>(self, mut put: impl FnMut(&str, A) -> Result<B, E>) -> Result<Claim<B>, E> {
        let says = match self.says {
            Says::Ratio(r) => Says::Ratio(Ratio {
                a: put("a", r.a)?,
                b: put("b", r.b)?,
                a_name: r.a_name,
                b_name: r.b_name,
                analyte: r.analyte,
                relation: r.relation,
                factor: r.factor,
                within: r.within,
                covariance: r.covariance,
            }),
            Says::Difference(s) => Says::Difference(s.with_amounts(put)?),
            Says::Threshold(s) => Says::Threshold(s.with_amounts(put)?),
            Says::Analogy(s) => Says::Analogy(s.with_value(|a| put("value", a))?),
            Says::Absence(s) => Says::Absence(s.with_amounts(put)?),
            Says::Reference(c) => Says::Reference(Comparison {
                value: put("value", c.value)?,
                name: c.name,
                analyte: c.analyte,
                reference: c.reference,
                relation: c.relation,
                factor: c.factor,
                within: c.within,
                as_published: c.as_published,
            }),
            Says::Ranking(r) => Says::Ranking(Ranking {
                items: (r.items.into_iter().enumerate())
                    .map(|(i, item)| {
                        Ok(Ranked { amount: put(&format!("items[{i}].amount"), item.amount)?, name: item.name })
                    })
                    .collect::<Result<_, E>>()?,
                analyte: r.analyte,
                lowest: r.lowest,
                highest: r.highest,
                order: r.order,
                covariances: r.covariances,
            }),
            Says::Change(s) => Says::Change(s.with_amounts(put)?),
            Says::Age(s) => Says::Age(s),
        };
        Ok(Claim { lang: self.lang, says })
    }
}

impl<A: DeserializeOwned> Claim<A> {
    /// Reads a sentence: an object with `kind`, its fields, and `lang`.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming the field, what was found and what is expected.
    pub fn read(input: &Value) -> Result<Self, CalcError> {
        let mut fields = input
            .as_object()
            .cloned()
            .ok_or_else(|| CalcError::refused("input", input, "an object with kind and the fields of that kind"))?;
        let kind = match fields.remove("kind") {
            Some(Value::String(k)) => k,
            other => return Err(CalcError::refused("kind", other.unwrap_or_default(), one_of(KINDS))),
        };
        let lang = match fields.remove("lang") {
            None | Some(Value::Null) => None,
            Some(v) => {
                let lang = v.as_str().and_then(Lang::parse);
                Some(lang.ok_or_else(|| CalcError::refused("lang", v, "en or de"))?)
            }
        };
        let fields = Value::Object(fields);
        let says = match kind.as_str() {
            "ratio" => Says::Ratio(read(&fields)?),
            "difference" => Says::Difference(read(&fields)?),
            "threshold" => Says::Threshold(read(&fields)?),
            "analogy" => Says::Analogy(read(&fields)?),
            "absence" => Says::Absence(read(&fields)?),
            "reference" => Says::Reference(read(&fields)?),
            "ranking" => Says::Ranking(read(&fields)?),
            "change" => Says::Change(read(&fields)?),
            "age" => Says::Age(read(&fields)?),
            other => return Err(CalcError::refused("kind", other, one_of(KINDS))),
        };
        Ok(Self { lang, says })
    }
}

/// Checks a sentence.
///
/// # Errors
/// [`CalcError::Refused`] naming the field.
pub fn check(claim: &Claim) -> Result<Checked, CalcError> {
    let found = match &claim.says {
        Says::Ratio(f) => ratio::check(f),
        Says::Difference(f) => difference::check(f),
        Says::Threshold(f) => threshold::check(f),
        Says::Analogy(f) => analogy::check(f),
        Says::Absence(f) => absence::check(f),
        Says::Reference(f) => reference::check(f),
        Says::Ranking(f) => ranking::check(f),
        Says::Change(f) => change::check(f),
        Says::Age(f) => age::check(f),
    };
    Ok(found?.said(claim.lang.unwrap_or_default()))
}

fn one_of(words: &[&str]) -> String {
    format!("one of {}", words.join(", "))
}

/// The fields of a kind; a fault names its place: `items[2].amount.u`.
fn read<T: DeserializeOwned>(fields: &Value) -> Result<T, CalcError> {
    serde_path_to_error::deserialize(fields).map_err(|e| {
        let place = match e.path().to_string() {
            // The whole, or a key without letters.
            whole if whole == "." || whole.is_empty() => "input".to_string(),
            place => place,
        };
        CalcError::refused(place, e.inner(), "the fields that `--schema claim` lists")
    })
}

/// The calculation `claim`.
pub const CLAIM: Calculation = Calculation {
    name: "claim",
    about: "a sentence as fields: supported, contradicted or cannot tell; the nearest one that the data bear",
    example: r#"{"kind":"ratio","analyte":"Pb","a":{"value":20,"u":1.6,"unit":"ng/L"},"b":{"value":4.1,"u":0.3,"unit":"ng/L"},"a_name":"the spring","b_name":"the well","relation":"at least","factor":4}"#,
    schema: include_str!("schema.json"),
    run: |input| {
        let checked = check(&Claim::read(input)?)?;
        let mut out = serde_json::to_value(&checked).unwrap_or_default();
        out["method"] =
            "one-sided 95 % bounds of the ratio (Fieller), of an age the bounds of every model that stands; a sentence is supported where the bound reaches it".into();
        Ok(out)
    },
};

/// How a ratio is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Relation {
    AtLeast,
    About,
    AtMost,
}

impl Relation {
    fn parse(word: Option<&str>, otherwise: Self) -> Result<Self, CalcError> {
        Ok(match word.map(str::trim) {
            None | Some("") => otherwise,
            Some("at least") => Self::AtLeast,
            Some("about") => Self::About,
            Some("at most") => Self::AtMost,
            Some(other) => return Err(CalcError::refused("relation", other, "at least, about or at most")),
        })
    }

    /// Does what is known of the ratio bear "relation factor"? `within` is the factor that "about" may be off.
    fn answer(self, core: &core::Core, factor: f64, within: f64) -> Answer {
        use Answer::{CannotTell, Contradicted, Supported};
        match self {
            // "At least once as much" is said as less: equal amounts do not bear it.
            Self::AtLeast if once(factor) => core.exceeds_one(),
            Self::AtLeast => core.reaches(factor),
            Self::AtMost => {
                if core.at_most.is_some_and(|x| x <= factor) {
                    Supported
                } else if core.at_least.is_some_and(|x| x > factor) {
                    Contradicted
                } else {
                    CannotTell
                }
            }
            Self::About => {
                let (low, high) = (factor / within, factor * within);
                if core.at_least.is_some_and(|x| x >= low) && core.at_most.is_some_and(|x| x <= high) {
                    Supported
                } else if core.at_most.is_some_and(|x| x < low) || core.at_least.is_some_and(|x| x > high) {
                    Contradicted
                } else {
                    CannotTell
                }
            }
        }
    }
}

/// A factor that says no more than which is the larger.
pub(crate) fn once(factor: f64) -> bool {
    (factor - 1.0).abs() < 1e-12
}

/// By how much "about" may be off, as a factor. Our own choice; a claim may state another.
pub(crate) const ABOUT: f64 = 1.25;

pub(crate) fn positive(field: &str, x: f64) -> Result<f64, CalcError> {
    if x > 0.0 && x.is_finite() { Ok(x) } else { Err(CalcError::refused(field, x, "a number over zero")) }
}

/// `within`, the factor that "about" may be off.
pub(crate) fn within(x: Option<f64>) -> Result<f64, CalcError> {
    match x {
        None => Ok(ABOUT),
        Some(w) if w > 1.0 && w.is_finite() => Ok(w),
        Some(w) => Err(CalcError::refused("within", w, "a factor over 1: about may be off by so much")),
    }
}

/// An amount in another unit; mass and moles meet over the analyte.
pub(crate) fn to_unit(
    field: &str,
    a: &Amount,
    unit: &Unit,
    analyte: Option<&str>,
    density: f64,
) -> Result<Amount, CalcError> {
    if unit.basis().is_some() != a.unit().basis().is_some() {
        return Err(CalcError::refused(
            field,
            a.in_words(),
            format!("an amount in the basis of {unit}: as N and as NO3 differ by a factor that nobody may guess"),
        ));
    }
    let substance = analyte.and_then(|n| Substance::parse(n).ok());
    let converted = a.convert(unit, substance.as_ref(), Some(density));
    converted.map_err(|e| CalcError::refused(field, a.in_words(), format!("an amount that converts to {unit}: {e}")))
}

/// A finite amount that is not under zero where it is a bound; a net value at or under zero needs a u to be bounded by.
pub(crate) fn sound(field: &str, a: &Amount) -> Result<(), CalcError> {
    let ok = match a {
        Amount::Measured(m) => {
            m.value.is_finite() && m.u.is_finite() && m.u >= 0.0 && m.dof > 0.0 && (m.value > 0.0 || m.u > 0.0)
        }
        Amount::Stated(s) => s.value.is_finite(),
        Amount::Below(b) | Amount::Above(b) => b.limit.is_finite() && b.limit > 0.0,
    };
    if ok {
        Ok(())
    } else {
        Err(CalcError::refused(
            field,
            a.in_words(),
            "finite numbers, u not negative, a bound or a value with its u over zero",
        ))
    }
}

/// A covariance that two amounts can have.
pub(crate) fn sound_covariance(field: &str, covariance: f64, a: &Amount, b: &Amount) -> Result<(), CalcError> {
    let most = a.u().unwrap_or(0.0) * b.u().unwrap_or(0.0);
    if covariance.is_finite() && covariance.abs() <= most * (1.0 + 1e-12) {
        return Ok(());
    }
    Err(CalcError::refused(field, covariance, format!("no larger than the product of both u, {most}")))
}
