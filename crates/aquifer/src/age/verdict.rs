//! What the models that fit say together: decided, likely, or cannot tell.
//!
//! In: a [`Fit`] with its tables. Out: for each question an answer over all models that are not rejected, the union of
//! their 95 % ranges, the two most unlike of them with the tracer on which they differ most, and whether the age
//! contradicts the travel time by Darcy. Nothing is averaged over two possible ages. Checked in `tests/age_fit.rs`.

use super::fit::{Fit, Frame, ModelFit, Sample, Side, Tested, quantiles};
use super::measured::Tracer;
use super::tables::{Kind, Tables};
use crate::Reason;
use message::{Arg, Digits, Message, Name, Share, Shown, age as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use serde::Serialize;

/// A question of yes or no.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Question {
    /// Less than a twentieth fell since 1953.
    BeforeBomb,
    /// More than a twentieth did.
    PartYoung,
    /// More than 19 parts of 20 did.
    WhollyYoung,
}

/// Share that is as good as nothing.
// The programme's own choice, from the design: 5 %.
const LITTLE: f64 = 0.05;
/// Chance at which a model answers, and weight of models that makes an answer likely.
const SURE: f64 = 0.95;

impl Question {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::BeforeBomb, Self::PartYoung, Self::WhollyYoung];

    /// Whether a share of young water says yes.
    pub fn yes(self, young: f64) -> bool {
        match self {
            Self::BeforeBomb => young < LITTLE,
            Self::PartYoung => young >= LITTLE,
            Self::WhollyYoung => young > 1.0 - LITTLE,
        }
    }

    /// The same as words.
    pub fn named(self) -> Message {
        match self {
            Self::BeforeBomb => said::AskBeforeBomb.into(),
            Self::PartYoung => said::AskPartYoung.into(),
            Self::WhollyYoung => said::AskWhollyYoung.into(),
        }
    }
}

/// How an answer stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// Every model that fits says so.
    Decided,
    /// Models with 95 % of the weight do.
    Likely,
    /// They do not agree.
    CannotTell,
}

/// An answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Verdict {
    /// To which question.
    pub question: Question,
    /// How it stands.
    pub standing: Standing,
    /// The answer, where there is one.
    pub answer: Option<bool>,
    /// The same as a sentence.
    #[serde(skip)]
    pub finding: Finding,
}

/// Chance of yes under one model.
pub fn chance(m: &ModelFit, question: Question) -> f64 {
    let (yes, all) = m
        .draws
        .iter()
        .fold((0.0, 0.0), |(y, a), d| (y + if question.yes(d.young) { d.weight } else { 0.0 }, a + d.weight));
    yes / all
}

/// One-sided 95 % bounds of the share, 0 to 1, that is younger than so many years by one model.
///
/// # Panics
/// The tables are not those that the model was fitted by.
pub fn younger_bounds(m: &ModelFit, tables: &Tables, years: f64) -> (f64, f64) {
    let family = tables.families.iter().find(|f| f.kind == m.kind).expect("a fitted model has its tables");
    // Sums of two tails may pass 1 by a rounding.
    let share = |place| family.model(place).younger_than(years).clamp(0.0, 1.0);
    let at = quantiles(m.draws.iter().map(|d| (share(&d.place), d.weight)).collect());
    (at(1.0 - SURE), at(SURE))
}

/// The models that are not rejected.
pub fn standing_models(fit: &Fit) -> Vec<&ModelFit> {
    fit.models.iter().filter(|m| !m.rejected).collect()
}

/// The answer to a question over all models that are not rejected.
pub fn verdict(fit: &Fit, question: Question) -> Verdict {
    let models = standing_models(fit);
    let answer = |m: &&ModelFit| match chance(m, question) {
        p if p >= SURE => Some(true),
        p if p <= 1.0 - SURE => Some(false),
        _ => None,
    };
    let weight = |of: bool| -> f64 { models.iter().filter(|m| answer(m) == Some(of)).map(|m| m.weight).sum() };
    let first = models.first().and_then(answer);
    let (standing, answer) = if first.is_some() && models.iter().all(|m| answer(m) == first) {
        (Standing::Decided, first)
    } else if weight(true) >= SURE {
        (Standing::Likely, Some(true))
    } else if weight(false) >= SURE {
        (Standing::Likely, Some(false))
    } else {
        (Standing::CannotTell, None)
    };
    let asked = question.named();
    let count = message::count(models.len());
    let says: Message = match (standing, answer) {
        (Standing::Decided, Some(true)) => said::DecidedYes { asked, count }.into(),
        (Standing::Decided, _) => said::DecidedNo { asked, count }.into(),
        (Standing::Likely, Some(true)) => said::LikelyYes { asked }.into(),
        (Standing::Likely, _) => said::LikelyNo { asked }.into(),
        (Standing::CannotTell, _) => said::CannotTell { asked }.into(),
    };
    let outcome = match (standing, answer) {
        (Standing::CannotTell, _) => Outcome::NotKnown,
        (_, Some(true)) => Outcome::Met,
        _ => Outcome::NotMet,
    };
    Verdict { question, standing, answer, finding: Finding::new(Check::AquiferAge, outcome, says) }
}

/// The union over the models that are not rejected.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Union {
    /// Ranges of the mean age, years, that hold the 95 % of each model; of models with a dead part that of their young
    /// part.
    pub mean_age_years: Vec<(f64, f64)>,
    /// Whether a mixture with dead water fits: then the age of all the water has no upper end.
    pub open: bool,
    /// Lowest and highest share that fell since 1953.
    pub young: (f64, f64),
}

/// Union of the 95 % ranges; none where every model is rejected.
pub fn union(fit: &Fit) -> Option<Union> {
    let models = standing_models(fit);
    if models.is_empty() {
        return None;
    }
    let dead = |m: &ModelFit| matches!(m.kind, Kind::PistonDead | Kind::ExponentialDead);
    let mut ranges: Vec<(f64, f64)> = models
        .iter()
        .flat_map(|m| match m.kind {
            Kind::Two | Kind::PartialExponential => {
                let at = quantiles(m.draws.iter().map(|d| (d.mean, d.weight)).collect());
                vec![(at(0.025), at(0.975))]
            }
            _ => m.ranges_years.clone(),
        })
        .collect();
    ranges.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut joined: Vec<(f64, f64)> = vec![];
    for r in ranges {
        match joined.last_mut() {
            Some(last) if r.0 <= last.1 => last.1 = last.1.max(r.1),
            _ => joined.push(r),
        }
    }
    let low = models.iter().map(|m| m.young.low_95).fold(1.0, f64::min);
    let high = models.iter().map(|m| m.young.high_95).fold(0.0, f64::max);
    Some(Union { mean_age_years: joined, open: models.iter().any(|m| dead(m)), young: (low, high) })
}

/// The two models that fit and are most unlike, by their share of young water, and the tracer on which they differ most.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Unlike {
    /// One.
    pub first: Kind,
    /// The other.
    pub second: Kind,
    /// Share of young water of each.
    pub young: (f64, f64),
    /// The tracer, of those with a history, measured or not.
    pub tracer: Tracer,
    /// What each gives of it, in its unit.
    pub predicted: (f64, f64),
}

/// u of a tracer that was not measured, as a part of its value.
// The programme's own choice: what a good laboratory gives of any of them.
const USUAL_U: f64 = 0.05;

/// The two most unlike; none where fewer than two are left.
///
/// # Errors
/// [`Reason`]: as the fit.
pub fn most_unlike(fit: &Fit, tables: &Tables, sample: &Sample) -> Result<Option<Unlike>, Reason> {
    let mut models = standing_models(fit);
    models.sort_by(|a, b| a.young.median.total_cmp(&b.young.median));
    let (Some(a), Some(b)) = (models.first(), models.last()) else { return Ok(None) };
    if a.kind == b.kind {
        return Ok(None);
    }
    let frame = Frame::new(tables, sample)?;
    let value = |m: &ModelFit, t: Tracer| {
        let d = m.draws.iter().max_by(|x, y| x.weight.total_cmp(&y.weight)).expect("a model has draws");
        let family = tables.families.iter().find(|f| f.kind == m.kind).expect("a fitted model has its tables");
        frame.middle_value(t, family.entry(&d.place, t))
    };
    let differ = (Tracer::ALL.into_iter().filter(|t| tables.has(*t)))
        .map(|t| {
            let (x, y) = (value(a, t), value(b, t));
            ((x - y).abs() / (USUAL_U * x.max(y)).max(1e-12), t, (x, y))
        })
        .max_by(|p, q| p.0.total_cmp(&q.0));
    Ok(differ.map(|(_, tracer, predicted)| Unlike {
        first: a.kind,
        second: b.kind,
        young: (a.young.median, b.young.median),
        tracer,
        predicted,
    }))
}

/// What the fit has to say beside its numbers: how each model was tested, what was left out, what stands apart.
pub fn findings(fit: &Fit) -> Vec<Finding> {
    let mut out = vec![];
    let names = |of: &dyn Fn(&&ModelFit) -> bool| -> Vec<Arg> {
        fit.models
            .iter()
            .filter(of)
            .map(|m| Arg::Message(said::ModelName { model: Name::from(m.kind.name()) }.into()))
            .collect()
    };
    let mut say = |models: Vec<Arg>, outcome: Outcome, says: &dyn Fn(Vec<Arg>) -> Message| {
        if !models.is_empty() {
            out.push(Finding::new(Check::AquiferAge, outcome, says(models)));
        }
    };
    say(names(&|m| matches!(m.tested, Tested::NotDetermined)), Outcome::NotKnown, &|models| {
        said::NotDetermined { models }.into()
    });
    say(names(&|m| matches!(m.tested, Tested::ByConstruction)), Outcome::NotKnown, &|models| {
        said::ByConstruction { models }.into()
    });
    say(names(&|m| m.rejected), Outcome::NotMet, &|models| said::Rejected { models }.into());
    let tested = |m: &&ModelFit| matches!(m.tested, Tested::ChiSquared { .. }) && !m.rejected;
    say(names(&tested), Outcome::Met, &|models| said::Fits { models }.into());
    if fit.models.iter().all(|m| m.rejected) {
        out.push(match fit.disturbed.first() {
            Some((tracer, p)) => {
                let (reason, p) = (known_disturbance(*tracer), Shown::significant(*p, 2, ""));
                let says = said::Disturbed { tracer: tracer.sign().into(), p, reason };
                Finding::new(Check::AquiferAge, Outcome::NotMet, says)
            }
            None => Finding::new(Check::AquiferAge, Outcome::NotKnown, said::NoneFits),
        });
    } else if let Some(u) = union(fit) {
        let share = |x: f64| Share::new(x, Digits::Trimmed(2));
        let (low, high) = (share(u.young.0), share(u.young.1));
        out.push(Finding::new(Check::AquiferAge, Outcome::Met, said::YoungShare { low, high }));
        let years = |x: f64| Shown::significant(x, 2, "");
        let ranges = (u.mean_age_years.iter())
            .map(|r| Arg::Message(message::aquifer::Between { low: years(r.0), high: years(r.1) }.into()))
            .collect();
        out.push(Finding::new(Check::AquiferAge, Outcome::Met, said::MeanAge { ranges }));
        if u.open {
            out.push(Finding::new(Check::AquiferAge, Outcome::NotKnown, said::DeadPartFits));
        }
    }
    out
}

/// Why a tracer is often disturbed.
fn known_disturbance(tracer: Tracer) -> Message {
    match tracer {
        Tracer::Cfc11 | Tracer::Cfc12 | Tracer::Cfc113 => said::ReasonCfc.into(),
        Tracer::Sf6 => said::ReasonSf6.into(),
        Tracer::Helium3 => said::ReasonHelium.into(),
        Tracer::Carbon14 => said::ReasonCarbon.into(),
        Tracer::Tritium => said::ReasonTritium.into(),
    }
}

/// Does the age contradict the travel time by Darcy? Draws of both are compared: P(one exceeds the other) > 0.975.
pub fn against_darcy(fit: &Fit, darcy_years: &[f64]) -> Finding {
    let mut darcy = darcy_years.to_vec();
    darcy.sort_by(f64::total_cmp);
    let below = |t: f64| darcy.partition_point(|d| *d < t) as f64 / darcy.len() as f64;
    let (mut older, mut all) = (0.0, 0.0);
    let mut ages = vec![];
    for m in standing_models(fit) {
        let sum: f64 = m.draws.iter().map(|d| d.weight).sum();
        for d in &m.draws {
            let w = m.weight * d.weight / sum;
            older += w * below(d.mean);
            all += w;
            ages.push((d.mean, w));
        }
    }
    if ages.is_empty() || darcy.is_empty() {
        return Finding::new(Check::AquiferAge, Outcome::NotKnown, said::NoneFits);
    }
    let p = older / all;
    let at = quantiles(ages);
    let share = |x: f64| Share::new(x, Digits::Decimals(1));
    let years = |x: f64| Shown::significant(x, 2, "");
    let (outcome, says): (_, Message) = if p > 0.975 {
        (Outcome::NotMet, said::OlderThanDarcy { p: share(p) }.into())
    } else if p < 0.025 {
        (Outcome::NotMet, said::YoungerThanDarcy { p: share(1.0 - p) }.into())
    } else {
        (Outcome::Met, said::AgreesWithDarcy { p: share(p) }.into())
    };
    let amount = |x: f64| Amount::stated(years(x).value, Unit::known("a"));
    let quantile = |p: f64| statistics::sample::nearest_rank(&darcy, p);
    Finding::new(Check::AquiferAge, outcome, says)
        .comparing(said::TracerAgeLow, amount(at(0.025)))
        .comparing(said::TracerAgeHigh, amount(at(0.975)))
        .comparing(message::compared::TravelTimeLow, amount(quantile(0.025)))
        .comparing(message::compared::TravelTimeHigh, amount(quantile(0.975)))
}

/// SF6 where other tracers say the water is older: rock adds SF6, so that its age is a lower bound.
pub fn as_lower_bound(sample: &Sample) -> Sample {
    let mut out = sample.clone();
    for o in out.observations.iter_mut().filter(|o| o.measured.tracer == Tracer::Sf6) {
        o.side = Side::AtMost;
    }
    out
}
