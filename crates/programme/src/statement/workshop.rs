//! The workshop of sentences: what can stand in one, and its answer before anybody keeps it.
//!
//! In: the values of wells and the results of one substance, and what a person chose of them ([`Draft`]). Out: the lists
//! that they choose from ([`Offer`], a value and a verdict each), the sentences of a draft, and what the record says to
//! each ([`Told`]): answer, the nearest sentence that holds, the results that it stands on, and how far the same sentence
//! would hold with other numbers ([`Step`]). A well stands by the common value of its bottles; where they disagree there
//! is none, and a sentence is asked of one bottle, or of each ([`Stands::Each`]): then it holds where all of them bear it.
//!
//! What it does not do: it keeps nothing ([`super::add`] does), and works out nothing that `limits::claim` does not.
//! Checked here and in `crates/web/tests/workshop.rs`.

use super::resolve::{Resolved, resolve};
use super::{Sentence, Subject, WellName, answered, checked, of_fractions};
use assessment::age::Leans;
use assessment::results::Listed;
use assessment::well_value::{Told as OfWell, WellValue};
use limits::claim::{Answer, Checked, Claim, Says};
use message::{Lang, Message};
use quantity::{Amount, CalcError, Unit};
use record::error::Error;
use record::identity::{ResultId, in_address};
use record::model::VerdictWord;
use record::store::Store;
use serde_json::{Value, json};

/// The kinds of sentences that the workshop builds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Kind {
    /// Below a published limit, or one of the person's own.
    Limit,
    /// So many times more or less than another.
    #[default]
    Times,
    /// As little as so much in so much.
    Picture,
    /// Not more than a level, or more.
    Level,
    /// None found.
    None,
    /// Has changed.
    Changed,
    /// How old it is.
    Age,
}

impl Kind {
    /// All of them, in the order that they are offered.
    pub const ALL: [Self; 7] =
        [Self::Limit, Self::Times, Self::Picture, Self::Level, Self::None, Self::Changed, Self::Age];

    /// As a word of an address.
    pub fn word(self) -> &'static str {
        match self {
            Self::Limit => "limit",
            Self::Times => "times",
            Self::Picture => "picture",
            Self::Level => "level",
            Self::None => "none",
            Self::Changed => "changed",
            Self::Age => "age",
        }
    }

    /// Of a word; none of another.
    pub fn parse(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|k| k.word() == word)
    }
}

/// What a name in a list stands for.
#[derive(Debug, Clone, PartialEq)]
pub enum Stands {
    /// The common value of a well's bottles.
    Well(WellName),
    /// One result.
    Result(ResultId),
    /// Each of these results: a sentence of all, which every one has to bear.
    Each(Vec<ResultId>),
}

/// One line of a list: what may stand in the place of an amount.
#[derive(Debug, Clone)]
pub struct Offer {
    /// Names it in an address.
    pub key: String,
    /// The well; the bottle where it has none.
    pub place: String,
    /// The bottle, where it is one alone.
    pub bottle: Option<String>,
    /// Day of sampling; empty where it is not known.
    pub day: String,
    /// Filtered or not.
    pub fraction: String,
    /// Isotopes, where several of one element are offered.
    pub isotopes: String,
    /// What may be said of it; of bottles that disagree one amount each.
    pub amounts: Vec<Amount>,
    /// The worst verdict of what it stands on; none: evidence alone.
    pub verdict: Option<VerdictWord>,
    /// The number only bounds what of it is the water's.
    pub at_most: bool,
    /// What it stands for.
    pub stands: Stands,
}

/// What can stand in a sentence about one substance: the wells by the common values of their bottles, the newest day
/// first; their single bottles where these disagree; and results of waters that no run on record measured.
pub fn offers(values: &[WellValue], reported: &[Listed]) -> Vec<Offer> {
    let mut out: Vec<Offer> = values.iter().flat_map(of_well).collect();
    out.extend(reported.iter().filter(|r| r.verdict.is_some() && r.amount.is_some()).map(single));
    out.sort_by(|a, b| (&b.day, &a.place, &a.bottle).cmp(&(&a.day, &b.place, &b.bottle)));
    out
}

fn of_well(w: &WellValue) -> Vec<Offer> {
    let well = w.water.well.clone().unwrap_or_default();
    let name = WellName {
        well: well.clone(),
        analyte: w.analyte.clone(),
        trip: Some(w.water.trip.clone().unwrap_or_default()),
        day: Some(w.water.day.clone()),
        fraction: Some(w.water.fraction.clone()),
        isotopes: Some(w.isotopes.clone()),
        resolution: Some(w.resolution.clone()),
    };
    let key = |of: &str| {
        let trip = name.trip.as_deref().unwrap_or_default();
        let parts = [of, &well, trip, &w.water.day, &w.water.fraction, &w.isotopes, &w.resolution];
        parts.map(in_address).join("/")
    };
    let offer = |key: String, amounts: Vec<Amount>, stands: Stands| Offer {
        key,
        place: well.clone(),
        bottle: None,
        day: w.water.day.clone(),
        fraction: w.water.fraction.clone(),
        isotopes: w.isotopes.clone(),
        amounts,
        verdict: w.verdict,
        at_most: matches!(w.told, OfWell::AtMost { found: Some(_), .. }),
        stands,
    };
    match &w.told {
        OfWell::Value { amount, .. } | OfWell::AtMost { amount, .. } => {
            vec![offer(key("well"), vec![amount.clone()], Stands::Well(name))]
        }
        OfWell::NoNumber => {
            let parts: Vec<(&ResultId, &Amount, &str)> = (w.bottles.iter())
                .filter_map(|p| Some((p.result.as_ref()?, p.amount.as_ref()?, p.bottle.as_str())))
                .collect();
            let amounts = parts.iter().map(|(_, a, _)| (*a).clone()).collect();
            let each = Stands::Each(parts.iter().map(|(r, ..)| r.newest()).collect());
            let mut out = vec![offer(key("each"), amounts, each)];
            out.extend(parts.iter().map(|(result, amount, bottle)| Offer {
                bottle: Some((*bottle).into()),
                ..offer(bottle_key(result), vec![(*amount).clone()], Stands::Result(result.newest()))
            }));
            out
        }
    }
}

fn bottle_key(result: &ResultId) -> String {
    format!("bottle/{}", result.newest().in_address())
}

/// A result alone, as a list offers it.
fn single(r: &Listed) -> Offer {
    let day = r.filled_at.as_deref().and_then(|at| at.get(..10)).unwrap_or_default();
    Offer {
        key: bottle_key(&r.result),
        place: r.well.clone().unwrap_or_else(|| r.bottle.clone()),
        bottle: r.well.is_some().then(|| r.bottle.clone()),
        day: day.into(),
        fraction: r.fraction.clone(),
        isotopes: r.isotopes.clone(),
        amounts: r.amount.iter().cloned().collect(),
        verdict: r.verdict,
        at_most: r.bound().is_some(),
        stands: Stands::Result(r.result.newest()),
    }
}

/// "Before the bomb tests", where no year is said.
const BOMB_YEAR: f64 = aquifer::age::tritium::BOMB_YEAR;

/// What a person chose.
#[derive(Debug, Clone, Default)]
pub struct Draft {
    /// The kind of sentence.
    pub kind: Kind,
    /// The substance.
    pub analyte: String,
    /// What the sentence speaks of.
    pub of: Option<Stands>,
    /// What it is compared with.
    pub with: Option<Stands>,
    /// A reference water that it is compared with, in place of `with`.
    pub reference: Option<String>,
    /// At least, about, at most; below, above; fallen, risen, unchanged; before, older.
    pub relation: String,
    /// So many times, so many kilograms; of an age the share, percent.
    pub number: Option<f64>,
    /// The sentence says less, not more.
    pub less: bool,
    /// A level with its unit.
    pub level: Option<(f64, Unit)>,
    /// A well whose age is asked.
    pub well: Option<String>,
    /// It fell before this year, or since it.
    pub year: Option<f64>,
    /// So many years old.
    pub years: Option<f64>,
    /// A body of water.
    pub body: Option<String>,
    /// A bottle whose organic compounds are all asked for.
    pub whole_bottle: Option<String>,
    /// Of the waters, or of what was found in the bottles.
    pub subject: Subject,
}

/// The sentences of a draft: one, or one for each bottle that it is said of. None where something is still to be chosen.
///
/// # Errors
/// [`CalcError::Refused`] naming the field.
pub fn sentences(draft: &Draft) -> Result<Vec<Sentence>, CalcError> {
    let one = |stands: &Option<Stands>| -> Vec<Value> { stands.iter().flat_map(places).collect() };
    let (of, with) = (one(&draft.of), one(&draft.with));
    let level = draft.level.as_ref().map(|(x, unit)| json!({ "value": x, "unit": unit }));
    let mut out = vec![];
    let mut put = |mut fields: Value| -> Result<(), CalcError> {
        if draft.subject == Subject::Bottles {
            fields["subject"] = "bottles".into();
        }
        out.push(Sentence::read(&fields)?);
        Ok(())
    };
    match draft.kind {
        Kind::Limit | Kind::Level => {
            let Some(level) = level else { return Ok(out) };
            for a in of {
                put(json!({ "kind": "threshold", "value": a, "relation": draft.relation, "level": level }))?;
            }
        }
        Kind::Times => {
            for a in &of {
                if let Some(name) = &draft.reference {
                    let factor = draft.number.unwrap_or(1.0);
                    let analyte = &draft.analyte;
                    put(json!({ "kind": "reference", "value": a, "reference": name, "analyte": analyte,
                        "relation": draft.relation, "factor": factor }))?;
                }
                for b in &with {
                    // "a holds so many times as much as b": the one that holds less stands as b.
                    let (higher, lower) = if draft.less { (b, a) } else { (a, b) };
                    put(json!({ "kind": "ratio", "a": higher, "b": lower, "relation": draft.relation,
                        "factor": draft.number.unwrap_or(1.0) }))?;
                }
            }
        }
        Kind::Picture => {
            let (Some(body), Some(n)) = (&draft.body, draft.number) else { return Ok(out) };
            for a in of {
                put(
                    json!({ "kind": "analogy", "value": a, "body": body, "kilograms": n, "relation": draft.relation }),
                )?;
            }
        }
        Kind::None => {
            if let Some(bottle) = &draft.whole_bottle {
                let mut fields = json!({ "kind": "absence", "bottle": bottle });
                if let Some(level) = &level {
                    fields["means_below"] = level.clone();
                }
                put(fields)?;
            } else {
                for a in of {
                    let mut fields = json!({ "kind": "absence", "value": a });
                    if let Some(level) = &level {
                        fields["means_below"] = level.clone();
                    }
                    put(fields)?;
                }
            }
        }
        Kind::Age => {
            let Some(well) = &draft.well else { return Ok(out) };
            let mut fields = json!({ "kind": "age", "well": well, "relation": draft.relation });
            let needed: &[(&str, Option<f64>)] = match draft.relation.as_str() {
                "before" => &[("year", draft.year.or(Some(BOMB_YEAR)))],
                "older" => &[("years", draft.years)],
                _ => &[("years", draft.years), ("share", draft.number.map(|x| x / 100.0))],
            };
            for (name, value) in needed {
                let Some(value) = value else { return Ok(out) };
                fields[*name] = (*value).into();
            }
            put(fields)?;
        }
        Kind::Changed => {
            for before in &of {
                for after in &with {
                    let mut fields =
                        json!({ "kind": "change", "relation": draft.relation, "before": before, "after": after });
                    if let Some(n) = draft.number {
                        let key = if draft.relation == "unchanged" { "within_percent" } else { "percent" };
                        fields[key] = n.into();
                    }
                    put(fields)?;
                }
            }
        }
    }
    Ok(out)
}

fn places(stands: &Stands) -> Vec<Value> {
    match stands {
        Stands::Well(name) => vec![json!(name)],
        Stands::Result(id) => vec![json!({ "result": id.to_string() })],
        Stands::Each(all) => all.iter().map(|id| json!({ "result": id.to_string() })).collect(),
    }
}

/// The same sentence with another number, and what the data say to it.
#[derive(Debug, Clone)]
pub struct Step {
    /// The sentence.
    pub asked: Message,
    /// The answer.
    pub answer: Answer,
}

/// What the record says to a sentence.
#[derive(Debug, Clone)]
pub struct Told {
    /// The sentence.
    pub sentence: Sentence,
    /// Its answer with its sentences.
    pub checked: Checked,
    /// The results that it stands on, each once.
    pub uses: Vec<Listed>,
    /// Rows of tracers, histories and facts that an age leans on.
    pub leans: Vec<Leans>,
    /// How far it would hold: the same sentence with other numbers, the one that claims least first.
    pub steps: Vec<Step>,
}

impl Told {
    /// Results that no person stood up for.
    pub fn held(&self) -> impl Iterator<Item = &Listed> {
        self.uses.iter().filter(|r| r.verdict != Some(VerdictWord::Accepted))
    }

    /// Days of sampling of what it stands on, each once.
    pub fn days(&self) -> Vec<&str> {
        let tracers = self.leans.iter().map(|l| l.day.as_str()).filter(|d| !d.is_empty());
        let mut days: Vec<&str> = (self.uses.iter()).filter_map(|r| r.filled_at.as_deref()?.get(..10)).collect();
        // Older tracers than a year before the newest are not used, and the scientific sentence names the day.
        days.extend(tracers.max());
        days.sort_unstable();
        days.dedup();
        days
    }
}

/// Of sentences that all have to hold.
pub fn all_of(told: &[Told]) -> Answer {
    let any = |a: Answer| told.iter().any(|t| t.checked.answer == a);
    match () {
        () if any(Answer::Contradicted) => Answer::Contradicted,
        () if any(Answer::CannotTell) || told.is_empty() => Answer::CannotTell,
        () => Answer::Supported,
    }
}

/// What the record says to a sentence; nothing is kept.
///
/// # Errors
/// As [`super::add`], but for what is provisional: that is told beside the answer.
pub fn ask(store: &Store, sentence: &Sentence) -> Result<Told, Error> {
    let resolved = resolve(store, sentence)?;
    let of = resolved.uses.iter().map(|(_, r)| r.fraction.as_str());
    let checked = of_fractions(answered(NEW, &resolved, sentence)?, sentence.lang(), of);
    let mut uses: Vec<Listed> = vec![];
    for (_, r) in &resolved.uses {
        if !uses.iter().any(|u| u.result == r.result) {
            uses.push(r.clone());
        }
    }
    let steps = steps(&resolved)?;
    Ok(Told { sentence: sentence.clone(), checked, uses, leans: resolved.leans, steps })
}

/// A sentence that has no name yet.
const NEW: &str = "of the workshop";

/// Numbers that people say, within a decade.
const SAID: [f64; 9] = [1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0];

/// Steps on each side of the number asked for.
const BESIDE: usize = 2;

/// The same sentence with the numbers that people would say instead of the one that was asked.
fn steps(resolved: &Resolved) -> Result<Vec<Step>, Error> {
    let asked = match &resolved.claim.says {
        Says::Ratio(r) => r.factor,
        Says::Reference(r) => r.factor,
        Says::Threshold(t) => t.level.value(),
        Says::Analogy(a) => a.kilograms,
        _ => None,
    };
    let Some(asked) = asked.filter(|x| x.is_finite() && *x > 0.0) else { return Ok(vec![]) };
    let mut out = vec![];
    for x in beside(asked) {
        // A ratio under one is said the other way round.
        if matches!(resolved.claim.says, Says::Ratio(_) | Says::Reference(_)) && x < 1.0 {
            continue;
        }
        let claim = with_number(&resolved.claim, x);
        let told = checked(NEW, &Claim { lang: Some(Lang::En), ..claim })?;
        out.push(Step { asked: told.sentences.asked, answer: told.answer });
    }
    Ok(out)
}

/// The number and two that people say on either side of it.
fn beside(asked: f64) -> Vec<f64> {
    let decade = asked.log10().floor();
    let said = (-1..=1).flat_map(|d| SAID.map(|x| x * 10f64.powf(decade + f64::from(d))));
    // Within a thousandth it is the same number.
    let (mut less, mut more): (Vec<f64>, Vec<f64>) =
        said.filter(|x| (x / asked - 1.0).abs() > 1e-3).partition(|x| *x < asked);
    less.sort_by(|a, b| b.total_cmp(a));
    less.truncate(BESIDE);
    less.reverse();
    more.sort_by(f64::total_cmp);
    more.truncate(BESIDE);
    less.into_iter().chain([asked]).chain(more).collect()
}

fn with_number(claim: &Claim, x: f64) -> Claim {
    let mut claim = claim.clone();
    match &mut claim.says {
        Says::Ratio(r) => r.factor = Some(x),
        Says::Reference(r) => r.factor = Some(x),
        Says::Threshold(t) => t.level = Amount::stated(x, t.level.unit().clone()),
        Says::Analogy(a) => a.kilograms = Some(x),
        _ => {}
    }
    claim
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_numbers_that_people_say_around_the_one_asked() {
        let near = |x: f64, expected: &[f64]| {
            let found = beside(x);
            assert_eq!(found.len(), expected.len(), "{x}: {found:?}");
            assert!(found.iter().zip(expected).all(|(a, b)| (a / b - 1.0).abs() < 1e-9), "{x}: {found:?}");
        };
        near(2.3, &[1.5, 2.0, 2.3, 2.5, 3.0]);
        near(1.0, &[0.6, 0.8, 1.0, 1.5, 2.0]);
        near(10.0, &[6.0, 8.0, 10.0, 15.0, 20.0]);
        near(0.005, &[0.003, 0.004, 0.005, 0.006, 0.008]);
    }

    #[test]
    fn a_draft_that_is_not_finished_asks_nothing() {
        for kind in Kind::ALL {
            assert!(sentences(&Draft { kind, ..Draft::default() }).unwrap().is_empty(), "{kind:?}");
            assert_eq!(Kind::parse(kind.word()), Some(kind));
        }
    }
}
