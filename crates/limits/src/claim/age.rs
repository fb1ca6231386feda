//! "All of it fell before the bomb tests", "it is older than so many years", "so much of it is younger".
//!
//! In: the sentence, and what the tracers of a water say to it: for each model of its age that they do not reject the share
//! that is younger than the age asked, as one-sided 95 % bounds. Out: supported where every one of these models bears it,
//! contradicted where every one speaks against it, else cannot tell: the data do not tell the models apart, and a sentence
//! is as strong as the weakest of them. No share is averaged over models.
//!
//! "All of it" and "older than" are read strongly, of the youngest part and never of the mean age, which is higher: less
//! than a twentieth of the water is younger. Before the bomb tests, or anything older, is never borne without a value of
//! tritium that could have seen rain since; where no model was tested, little young water is borne only as far as
//! tritium bears it whatever the model, and no further back than it tells. An age says nothing of purity. Rules: `docs/theory/origin.md` and Lindsey, Jurgens & Belitz
//! 2019. Checked in `tests/claim_cases.rs` and `tests/claim_age.rs`.

use super::words::{Word, named, none, said, word};
use super::{Answer, Found, Sentences};
use message::{Arg, Date, Digits, Message, Name, Share, Shown, age as science, claim, well_age};
use quantity::CalcError;
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};

/// Share of the water that is as good as none of it.
// The programme's own choice, as in the verdicts of ages (`docs/theory/origin.md`): 5 %.
const LITTLE: f64 = 0.05;
/// Rain before the first large thermonuclear tests came down until here (Lindsey, Jurgens & Belitz 2019).
const BOMB_YEAR: f64 = 1953.0;
/// Oldest age that can be asked, years: the models reach no further.
// The upper end of the prior of the fit (`docs/theory/origin.md`).
const OLDEST: f64 = 50_000.0;
/// Years of sampling that can be.
const SAMPLED: std::ops::RangeInclusive<f64> = 1900.0..=2200.0;
/// A day or two that a decimal year may be off, years.
const SLACK: f64 = 0.01;

/// "It fell before", "it is older than", "so much of it is younger", as fields.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Age {
    /// before (a year), older (than years), at most, at least (a share is younger).
    pub relation: String,
    /// All of it fell before this year, or the share since it; 1953 where "before" leaves it out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub year: Option<f64>,
    /// Older than so many years, or the share younger than them.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub years: Option<f64>,
    /// The share, over 0 and under 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub share: Option<f64>,
    /// The water the sentence speaks of.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// What its tracers say; nothing where none was measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tracers: Option<Tracers>,
}

/// What the tracers of a water say to a sentence about its age.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Tracers {
    /// Decimal year that ages count back from: the day of sampling.
    pub counted_from: f64,
    /// The same as a day, ISO 8601.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub day: Option<String>,
    /// Tracers that the models were held against, by their signs.
    pub by: Vec<String>,
    /// Those of them that are known on one side only: not detected, or "not older than".
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub one_sided: Vec<String>,
    /// What tritium says alone; nothing where it was not measured or has no history.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tritium: Option<Tritium>,
    /// Largest share that can have fallen since the bomb tests by tritium alone, whatever the model, 0 to 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub tritium_younger_at_most: Option<f64>,
    /// The models that the tracers do not reject.
    pub models: Vec<AgeModel>,
    /// Band of carbon-14 over all its corrections, years; no upper end where none can be told.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub carbon_years: Option<[Option<f64>; 2]>,
    /// An end of that band could not be worked out with the other tracers.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub carbon_not_in_full: bool,
    /// What stands in the way, as sentences.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Message>,
    /// Why something was not used, as clauses.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub not_used: Vec<Message>,
    /// What the ages rest on (histories, half-lives, what was assumed before), as clauses.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub beside: Vec<Message>,
}

/// What tritium says alone of rain since the bomb tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tritium {
    /// The water can all be from before them.
    Before,
    /// Rain of the time since is in it.
    After,
    /// Mixed, or cannot tell.
    Between,
    /// The measurement could not have seen what decides.
    TooCoarse,
}

/// A model of the water's age that the tracers do not reject.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AgeModel {
    /// Its name.
    pub model: String,
    /// Lower and upper one-sided 95 % bound of the share that is younger than the age asked, 0 to 1.
    pub younger: [f64; 2],
    /// Whether there were tracers enough to test it.
    #[serde(default)]
    pub tested: bool,
}

/// The age that a sentence asks about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AgeAsked {
    /// Rain since this year.
    Since(f64),
    /// Water younger than so many years.
    Years(f64),
}

impl AgeAsked {
    /// As years before a day of sampling.
    pub fn years(self, counted_from: f64) -> f64 {
        match self {
            Self::Since(year) => counted_from - year,
            Self::Years(years) => years,
        }
    }

    /// The part of the water that is so young, as words behind "is".
    fn part(self) -> Message {
        match self {
            Self::Since(year) => claim::AgeSince { year: number(year) }.into(),
            Self::Years(years) => claim::AgeYounger { years: number(years) }.into(),
        }
    }
}

/// What a sentence says of that part.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Side {
    /// As good as nothing is so young.
    Nothing,
    AtMost(f64),
    AtLeast(f64),
}

/// A number that a person gave.
fn number(x: f64) -> Shown {
    Shown::as_given(x, "")
}

/// A bound from above is rounded up, and never shown smaller than a thousandth.
fn at_most(x: f64) -> Share {
    Share::new(x.clamp(1e-3, 1.0), Digits::Up(2))
}

/// A bound from below is rounded down; less than a thousandth is nothing.
fn at_least(x: f64) -> Share {
    Share::new(if x < 1e-3 { 0.0 } else { x }, Digits::Down(2))
}

/// The sign of a tracer as it is written by hand: ³H, δ¹⁸O; as it came where it is none of them.
pub fn tracer_sign(sign: &str) -> &str {
    match sign {
        "3H" => "³H",
        "14C" => "¹⁴C",
        "d13C" => "δ¹³C",
        "d18O" => "δ¹⁸O",
        "d2H" => "δ²H",
        "3He_tri" => "³He",
        "3He/4He" => "³He/⁴He",
        "SF6" => "SF₆",
        other => other,
    }
}

impl Age {
    /// The age that it asks about, held to what can be asked: `latest` is the day of sampling as a decimal year, where it
    /// is known.
    ///
    /// # Errors
    /// [`CalcError::Refused`] naming the field and the range: a year to come, no age, more years than the models reach, a
    /// share that is none.
    pub fn asked(&self, latest: Option<f64>) -> Result<AgeAsked, CalcError> {
        self.side()?;
        let latest = latest.unwrap_or(*SAMPLED.end());
        let since = |year: f64| {
            let earliest = latest - OLDEST;
            if year.is_finite() && year >= earliest && year <= latest {
                return Ok(AgeAsked::Since(year));
            }
            let range = format!("a year from {earliest:.0} to {:.0}, the year of sampling", latest.floor());
            Err(CalcError::refused("year", year, range))
        };
        let ago = |years: f64| {
            if years > 0.0 && years <= OLDEST {
                return Ok(AgeAsked::Years(years));
            }
            Err(CalcError::refused("years", years, format!("a number of years over 0, to {OLDEST:.0}")))
        };
        match (self.relation.trim(), self.year, self.years) {
            ("before", year, None) => since(year.unwrap_or(BOMB_YEAR)),
            ("before", _, Some(years)) => Err(CalcError::refused("years", years, "year alone beside \"before\"")),
            ("older", Some(year), _) => Err(CalcError::refused("year", year, "years alone beside \"older\"")),
            (_, Some(year), None) => since(year),
            (_, None, Some(years)) => ago(years),
            (_, Some(_), Some(years)) => Err(CalcError::refused("years", years, "year or years, not both")),
            (_, None, None) => {
                Err(CalcError::refused("years", "nothing", format!("a number of years over 0, to {OLDEST:.0}")))
            }
        }
    }

    fn side(&self) -> Result<Side, CalcError> {
        let share = |side: fn(f64) -> Side| match self.share {
            Some(x) if x > 0.0 && x < 1.0 => Ok(side(x)),
            Some(x) => Err(CalcError::refused("share", x, "a share over 0 and under 1: 0.05 for 5 %")),
            None => Err(CalcError::refused("share", "nothing", "a share over 0 and under 1: 0.05 for 5 %")),
        };
        match (self.relation.trim(), self.share) {
            ("before" | "older", None) => Ok(Side::Nothing),
            ("before" | "older", Some(x)) => {
                Err(CalcError::refused("share", x, "no share beside \"before\" and \"older\", which speak of all"))
            }
            ("at most", _) => share(Side::AtMost),
            ("at least", _) => share(Side::AtLeast),
            (other, _) => Err(CalcError::refused("relation", other, "before, older, at most or at least")),
        }
    }

    fn name(&self) -> Word {
        self.name.as_deref().map_or_else(none, named)
    }
}

impl Tracers {
    fn check(&self) -> Result<(), CalcError> {
        let refused = |field: &str, found: String, expected: &str| {
            Err(CalcError::refused(format!("tracers.{field}"), found, expected))
        };
        if !SAMPLED.contains(&self.counted_from) {
            return refused("counted_from", self.counted_from.to_string(), "a decimal year from 1900 to 2200");
        }
        for (i, m) in self.models.iter().enumerate() {
            let [low, high] = m.younger;
            if !(0.0 <= low && low <= high && high <= 1.0) {
                let expected = "two shares from 0 to 1, the lower first";
                return refused(&format!("models[{i}].younger"), format!("{low} to {high}"), expected);
            }
        }
        if let Some(x) = self.tritium_younger_at_most.filter(|x| !(0.0..=1.0).contains(x)) {
            return refused("tritium_younger_at_most", x.to_string(), "a share from 0 to 1");
        }
        match self.carbon_years {
            Some([low, high]) if low.zip(high).is_some_and(|(l, h)| l > h) => {
                refused("carbon_years", format!("{low:?} to {high:?}"), "years, the lower end first")
            }
            _ => Ok(()),
        }
    }

    /// Whether its tritium could have seen rain since the bomb tests.
    fn saw_bomb(&self) -> bool {
        self.tritium.is_some_and(|t| t != Tritium::TooCoarse)
    }

    fn is_tested(&self) -> bool {
        self.models.iter().any(|m| m.tested)
    }
}

pub(super) fn check(f: &Age) -> Result<Found, CalcError> {
    let nothing = Tracers::default();
    let data = match &f.tracers {
        Some(t) => {
            t.check()?;
            t
        }
        None => &nothing,
    };
    let asked = f.asked(f.tracers.as_ref().map(|t| t.counted_from))?;
    let told = Told { f, data, asked, side: f.side()?, bounds: bounds(&data.models) };
    Ok(told.found())
}

/// The widest bounds over all models; none without a model.
fn bounds(models: &[AgeModel]) -> Option<[f64; 2]> {
    (models.iter().map(|m| m.younger)).reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])])
}

/// What an answer stands on.
struct Told<'a> {
    f: &'a Age,
    data: &'a Tracers,
    asked: AgeAsked,
    side: Side,
    bounds: Option<[f64; 2]>,
}

/// Why little young water is not borne although every model gives it.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Lacking {
    /// A tritium that could have seen rain since the bomb tests.
    Tritium,
    /// A model that was tested.
    Test,
    /// An end of the band of carbon-14.
    Band,
}

impl Told<'_> {
    /// Whether the age asked lies before the bomb tests, and how much.
    fn beyond_bomb(&self) -> f64 {
        self.asked.years(self.data.counted_from) - (self.data.counted_from - BOMB_YEAR)
    }

    /// What lacks for a conclusion that much of the water is older.
    fn lacking(&self) -> Option<Lacking> {
        let beyond = self.beyond_bomb();
        if self.side == Side::Nothing && beyond >= -SLACK && !self.data.saw_bomb() {
            return Some(Lacking::Tritium);
        }
        // Without a model that was tested only what tritium bears whatever the model.
        let alone = |x: f64| match self.side {
            Side::Nothing => x < LITTLE,
            Side::AtMost(most) => x <= most,
            Side::AtLeast(least) => x < least,
        };
        let by_tritium = beyond <= SLACK && self.data.tritium_younger_at_most.is_some_and(alone);
        if !self.data.is_tested() && !by_tritium {
            return Some(Lacking::Test);
        }
        (self.data.carbon_not_in_full && beyond > SLACK).then_some(Lacking::Band)
    }

    fn answer(&self) -> Answer {
        let models = &self.data.models;
        if models.is_empty() {
            return Answer::CannotTell;
        }
        let all = |holds: &dyn Fn(&[f64; 2]) -> bool| models.iter().all(|m| holds(&m.younger));
        let (little, much): (bool, bool) = match self.side {
            Side::Nothing => (all(&|b| b[1] < LITTLE), all(&|b| b[0] >= LITTLE)),
            Side::AtMost(x) => (all(&|b| b[1] <= x), all(&|b| b[0] > x)),
            Side::AtLeast(x) => (all(&|b| b[1] < x), all(&|b| b[0] >= x)),
        };
        // Much of it young is shown by the tracers themselves; that little is may be what was assumed before.
        let little = little && self.lacking().is_none();
        let (supported, contradicted) = match self.side {
            Side::AtLeast(_) => (much, little),
            Side::Nothing | Side::AtMost(_) => (little, much),
        };
        match (supported, contradicted) {
            (true, _) => Answer::Supported,
            (_, true) => Answer::Contradicted,
            _ => Answer::CannotTell,
        }
    }

    fn found(&self) -> Found {
        let answer = self.answer();
        let mut figures = Map::new();
        if self.f.tracers.is_some() {
            figures.insert("age_years".into(), json!(self.asked.years(self.data.counted_from)));
        }
        figures.insert("younger_at_least".into(), json!(self.bounds.map(|b| b[0])));
        figures.insert("younger_at_most".into(), json!(self.bounds.map(|b| b[1])));
        let (name, part) = (self.f.name(), self.asked.part());
        Found {
            kind: "age",
            answer,
            interval: self.bounds.map_or([None, None], |b| b.map(Some)),
            probability: None,
            sources: vec![
                "Lindsey, Jurgens & Belitz 2019, USGS SIR 2019-5090".into(),
                "Maloszewski & Zuber 1982, J. Hydrol. 57:207".into(),
            ],
            figures,
            sentences: Sentences {
                asked: self.said(),
                interval_of: said(claim::AgeShareOf { name, part }),
                plain: self.plain(answer),
                scientific: self.scientific(),
                warnings: self.in_the_way(answer),
            },
        }
    }

    /// The sentence as it was asked.
    fn said(&self) -> Message {
        let (name, part) = (self.f.name(), self.asked.part());
        match (self.side, self.asked) {
            (Side::Nothing, AgeAsked::Since(year)) if year == BOMB_YEAR => {
                claim::AgeBeforeBomb { name, year: number(year) }.into()
            }
            (Side::Nothing, AgeAsked::Since(year)) => claim::AgeBefore { name, year: number(year) }.into(),
            (Side::Nothing, AgeAsked::Years(years)) => claim::AgeOlder { name, years: number(years) }.into(),
            (Side::AtMost(x), _) => claim::AgeAtMost { name, part, share: given(x) }.into(),
            (Side::AtLeast(x), _) => claim::AgeAtLeast { name, part, share: given(x) }.into(),
        }
    }

    /// The nearest sentence that every model bears.
    fn plain(&self, answer: Answer) -> Message {
        let (name, part) = (self.f.name(), self.asked.part());
        let open = || claim::AgeOpen { name: name.clone(), part: part.clone() }.into();
        let Some([low, high]) = self.bounds else { return open() };
        if answer == Answer::Supported {
            return match (self.side, self.asked) {
                (Side::Nothing, AgeAsked::Since(year)) => {
                    claim::AgeBeforeBut { name, year: number(year), share: at_most(high) }.into()
                }
                (Side::Nothing, AgeAsked::Years(years)) => {
                    claim::AgeOlderBut { name, years: number(years), share: at_most(high) }.into()
                }
                _ => self.said(),
            };
        }
        // An upper bound that may be what was assumed before is none that a sentence stands on.
        let high = if self.lacking().is_some() { 1.0 } else { high };
        match (low >= 1e-3, high < 1.0 - 1e-3) {
            (true, true) => claim::AgeBetween { name, part, low: at_least(low), high: at_most(high) }.into(),
            (true, false) => claim::AgeAtLeast { name, part, share: at_least(low) }.into(),
            (false, true) => claim::AgeAtMost { name, part, share: at_most(high) }.into(),
            (false, false) => open(),
        }
    }

    fn scientific(&self) -> Message {
        let (name, part) = (self.f.name(), self.asked.part());
        let Some([low, high]) = self.bounds else { return claim::AgeNoModel { name, part }.into() };
        let models = self.data.models.iter().map(|m| model(&m.model).into()).collect();
        let day = match &self.data.day {
            Some(day) => word(Date::from(day)),
            None => word(Shown::decimals(self.data.counted_from, 1, "")),
        };
        let (low, high) = (at_least(low), at_most(high));
        claim::AgeScientific { name, part, low, high, models, tracers: signs(&self.data.by), day }.into()
    }

    fn in_the_way(&self, answer: Answer) -> Vec<Message> {
        let (data, mut out) = (self.data, vec![]);
        if data.models.is_empty() {
            if data.by.is_empty() && data.not_used.is_empty() {
                out.push(claim::AgeNoTracer { name: self.f.name() }.into());
            } else {
                out.push(well_age::NoAge.into());
            }
        } else if answer == Answer::CannotTell {
            out.extend(self.lacking().map(|lacking| match lacking {
                Lacking::Tritium => well_age::BeforeNeedsTritium.into(),
                Lacking::Test => well_age::NothingTested.into(),
                Lacking::Band => claim::AgeCarbonNotInFull.into(),
            }));
        }
        if answer == Answer::CannotTell {
            out.extend(self.differ());
            out.extend(self.would_tell());
        }
        // What models exclude and tritium itself does not.
        let alone = data.tritium_younger_at_most.zip(self.bounds).filter(|(alone, [_, high])| alone > high);
        out.extend(alone.map(|(younger, _)| well_age::WithoutModel { younger: at_most(younger) }.into()));
        let untested: Vec<Arg> = data.models.iter().filter(|m| !m.tested).map(|m| model(&m.model).into()).collect();
        if !untested.is_empty() {
            out.push(claim::AgeUntested { models: untested }.into());
        }
        if !data.one_sided.is_empty() {
            out.push(claim::AgeOneSided { tracers: signs(&data.one_sided) }.into());
        }
        let years = |x: f64| Shown::significant(x.max(0.0), 2, "");
        match data.carbon_years {
            Some([Some(low), Some(high)]) => {
                out.push(claim::AgeCarbonBand { low: years(low), high: years(high) }.into());
            }
            Some([Some(low), None]) => out.push(claim::AgeCarbonOpen { low: years(low) }.into()),
            _ => {}
        }
        out.extend(data.notes.iter().cloned());
        out.extend(data.not_used.iter().map(|why| well_age::NotUsedBecause { why: why.clone() }.into()));
        if self.side == Side::Nothing {
            out.push(claim::AgeAllMeans { share: given(LITTLE) }.into());
        }
        let beside = |says: &Message| -> Message { well_age::Beside { says: says.clone() }.into() };
        out.extend(data.beside.iter().map(beside));
        out.push(beside(&science::NoProof.into()));
        out
    }

    /// The two models that the data cannot tell apart and that are most unlike: with the least young water and the most.
    fn differ(&self) -> Option<Message> {
        let by = |of: fn(&AgeModel) -> f64| {
            move |a: &&AgeModel, b: &&AgeModel| of(a).total_cmp(&of(b)).then(a.model.cmp(&b.model))
        };
        let first = self.data.models.iter().min_by(by(|m| m.younger[1]))?;
        let second = self.data.models.iter().max_by(by(|m| m.younger[0] + m.younger[1]))?;
        if first.model == second.model {
            return None;
        }
        let range = |m: &AgeModel| -> Message {
            well_age::ShareRange { low: at_least(m.younger[0]), high: at_most(m.younger[1]) }.into()
        };
        let (a, b) = (range(first), range(second));
        Some(claim::AgeModelsDiffer { first: model(&first.model), a, second: model(&second.model), b }.into())
    }

    /// Which tracer would tell, by the age that is asked; nothing where it was measured.
    fn would_tell(&self) -> Option<Message> {
        let has = |sign: &str| self.data.by.iter().any(|b| b == sign);
        // Without a day of sampling a year stands for itself: what tells it was the same all these years.
        let since_bomb = match self.asked {
            AgeAsked::Since(year) => year >= BOMB_YEAR - SLACK,
            AgeAsked::Years(years) => years <= YOUNG,
        };
        let years = match self.asked {
            AgeAsked::Since(year) => BOMB_YEAR + YOUNG - year,
            AgeAsked::Years(years) => years,
        };
        if since_bomb {
            return (!has("3H") || self.data.tritium == Some(Tritium::TooCoarse)).then(|| claim::AgeTellYoung.into());
        }
        if years <= MIDDLE {
            return Some(claim::AgeTellMiddle.into());
        }
        if years <= OLD {
            return (!has("14C")).then(|| claim::AgeTellOld.into());
        }
        Some(claim::AgeTellOldest.into())
    }
}

/// Ages that tritium tells, years, that argon-39 alone tells, that carbon-14 of dissolved carbon tells.
// Usual ranges of the tracers (`docs/theory/origin.md`, from memory): tritium and its helium to some 75 years, argon-39
// (half-life 269 years) to 1000, carbon-14 of dissolved carbon to 30 000.
const YOUNG: f64 = 75.0;
const MIDDLE: f64 = 1000.0;
const OLD: f64 = 30_000.0;

/// A share that a person gave.
fn given(x: f64) -> Share {
    Share::new(x, Digits::Trimmed(6))
}

fn model(name: &str) -> Message {
    science::ModelName { model: Name::from(name) }.into()
}

fn signs(of: &[String]) -> Vec<Arg> {
    of.iter().map(|s| Arg::Name(Name::from(tracer_sign(s)))).collect()
}
