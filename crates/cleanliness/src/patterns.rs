//! Do the metals that a blank or a sample has too much of fit a known source? Do a beginner's blanks match
//! the team's? Do blanks rise over the years?
//!
//! In: excess of several metals with u; signatures (relative amounts of the same metals in galvanised pipe,
//! steel, gloves …), which are the programme's own data with where they came from. Or two lists of blanks. Out:
//! which signatures explain the excess, how well, and the finding.
//!
//! Methods: non-negative least squares of the excess on the signatures, weighted by u (Lawson & Hanson 1974);
//! a fit is said to explain the pattern when its weighted squares stay under the 95 % point of χ² and each
//! signature named brings a twentieth of some metal. A beginner's mean is compared with the team's by Student's
//! prediction limit for a mean of m further blanks, one-sided 95 %. Checked in `tests/validation_patterns.rs`.

use crate::Error;
use crate::lines::{Point, tested_line};
use crate::nnls::{Nnls, gram, project};
use message::{Message, Name, Shown, bottle as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use serde::{Deserialize, Serialize};
use statistics::sample::{Moments, mean_sd};
use statistics::{chi2, t};

/// A metal in excess.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Excess {
    /// The metal.
    pub metal: String,
    /// Its excess, any one unit for all.
    pub value: f64,
    /// u of it.
    pub u: f64,
}

/// What a source looks like.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Signature {
    /// Its name: "galvanised pipe".
    pub name: String,
    /// Relative amounts by metal; a metal that is not listed is absent.
    pub amounts: Vec<(String, f64)>,
    /// Where the programme has it from.
    pub source: String,
}

/// How signatures explain an excess.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Explained {
    /// Amount of each signature, in units of its amounts; zero where it takes no part.
    pub amounts: Vec<(String, f64)>,
    /// Weighted squares left.
    pub chi2: f64,
    /// Metals less signatures that take part.
    pub dof: f64,
    /// Chance of so bad a fit if the signatures were right.
    pub p: f64,
    /// In words.
    pub sentence: String,
    /// The same as a message.
    #[serde(skip)]
    pub says: Message,
}

/// Explains an excess by signatures.
///
/// # Errors
/// [`Error::TooFew`] with fewer than two metals or no signature; [`Error::OutOfRange`] for a u that is not
/// positive or a negative amount.
pub fn explain(excess: &[Excess], signatures: &[Signature]) -> Result<Explained, Error> {
    if excess.len() < 2 || signatures.is_empty() {
        return Err(Error::TooFew {
            what: "metals and signatures".into(),
            have: excess.len().min(signatures.len()),
            need: 2,
            hint: "a pattern needs two metals and a signature to lay beside it".into(),
        });
    }
    if let Some(e) = excess.iter().find(|e| !(e.u > 0.0 && e.u.is_finite() && e.value.is_finite())) {
        return Err(Error::out_of_range(
            format!("excess of {}", e.metal),
            format!("{} with u {}", e.value, e.u),
            "a number with u above 0",
        )
        .saying(said::Excess {
            metal: Name::from(&e.metal),
            excess: Shown::as_given(e.value, ""),
            u: Shown::as_given(e.u, ""),
        }));
    }
    if let Some((s, (m, a))) =
        signatures.iter().flat_map(|s| s.amounts.iter().map(move |a| (s, a))).find(|(_, a)| a.1.is_nan() || a.1 < 0.0)
    {
        return Err(Error::out_of_range(format!("{m} of signature {}", s.name), a, "0 or more"));
    }
    let amount = |s: &Signature, metal: &str| s.amounts.iter().find(|a| a.0 == metal).map_or(0.0, |a| a.1);
    let columns: Vec<f64> =
        signatures.iter().flat_map(|s| excess.iter().map(move |e| amount(s, &e.metal) / e.u)).collect();
    let b: Vec<f64> = excess.iter().map(|e| e.value / e.u).collect();
    let k = signatures.len();
    let (mut atb, mut x) = (vec![0.0; k], vec![0.0; k]);
    project(&columns, &b, &mut atb);
    Nnls::new(k).solve(&gram(&columns, k), &atb, &mut x)?;
    let n = excess.len();
    let chi2: f64 = (0..n).map(|i| (b[i] - (0..k).map(|j| columns[j * n + i] * x[j]).sum::<f64>()).powi(2)).sum();
    let part = x.iter().filter(|v| **v > 0.0).count();
    // As many signatures as metals fit anything, and χ² without a degree of freedom has no p: at least one.
    let dof = (n - part.min(n - 1)) as f64;
    let p = chi2::sf(chi2, dof);
    let taking: Vec<&Signature> = (0..k)
        .filter(|j| {
            (excess.iter()).any(|e| e.value > 0.0 && x[*j] * amount(&signatures[*j], &e.metal) >= 0.05 * e.value)
        })
        .map(|j| &signatures[j])
        .collect();
    let (metals, shown) = (names(excess), quantity::format::p_value(p));
    let sources =
        (taking.into_iter().map(Signature::says)).reduce(|first, other| said::SourceWith { first, other }.into());
    let says: Message = match sources {
        None => said::PatternWithoutSource { metals }.into(),
        Some(sources) if p >= 0.05 => said::PatternFits { metals, sources, p: shown }.into(),
        Some(sources) => said::PatternFitsNone { metals, sources, p: shown }.into(),
    };
    Ok(Explained {
        amounts: signatures.iter().zip(x).map(|(s, x)| (s.name.clone(), x)).collect(),
        chi2,
        dof,
        p,
        sentence: says.in_english(),
        says,
    })
}

fn names(excess: &[Excess]) -> Name {
    excess.iter().map(|e| e.metal.as_str()).collect::<Vec<_>>().join(", ").into()
}

/// A signature of the table goes by its key in the catalogues, one of a programme's own by its name.
fn source(name: &str) -> Name {
    match name {
        "galvanised pipe" | "stainless steel 304" | "stainless steel 316" | "brass" | "rubber gloves" => {
            name.replace(' ', "-").into()
        }
        own => own.into(),
    }
}

impl Signature {
    /// Its name: in every language that of a signature of the table, as it was written that of a programme's own.
    pub fn says(&self) -> Message {
        said::Source { source: source(&self.name) }.into()
    }
}

/// A beginner's training blanks against the team's (pg per bottle).
///
/// # Errors
/// [`Error::TooFew`] under two blanks of the team or one of the beginner.
///
/// ```
/// use cleanliness::patterns::training;
/// use quantity::Outcome;
/// // A beginner at the team's mean passes; one blank of the team is no scatter to be held against.
/// assert_eq!(training("A. Reed", &[10.0], &[8.0, 10.0, 12.0, 9.0, 11.0])?.outcome, Outcome::Met);
/// assert!(training("A. Reed", &[10.0], &[10.0]).is_err());
/// # Ok::<(), cleanliness::Error>(())
/// ```
pub fn training(person: &str, own_pg: &[f64], team_pg: &[f64]) -> Result<Finding, Error> {
    let (Some(Moments { mean: own, .. }), Some((team, sd))) = (Moments::of(own_pg), mean_sd(team_pg)) else {
        return Err(Error::TooFew {
            what: "blanks of the team and of the beginner".into(),
            have: team_pg.len().min(own_pg.len()),
            need: 2,
            hint: "two of the team and one of the beginner at least".into(),
        }
        .saying(said::TrainingFew { have: message::count(team_pg.len().min(own_pg.len())) }));
    };
    let (m, n) = (own_pg.len() as f64, team_pg.len() as f64);
    let limit = team + t::quantile(0.95, n - 1.0) * sd * (1.0 / m + 1.0 / n).sqrt();
    let pg = |v: f64| Shown::significant(v, 3, "pg");
    let (person, mean, blanks) = (Name::from(person), pg(own), message::count(own_pg.len()));
    let (outcome, says): (_, Message) = if own <= limit {
        (Outcome::Met, said::TrainingMatches { person, mean, limit: pg(limit), blanks }.into())
    } else {
        (Outcome::NotMet, said::TrainingAbove { person, mean, limit: pg(limit), blanks }.into())
    };
    Ok(Finding::new(Check::BottleTrainingBlanks, outcome, says)
        .comparing(message::compared::MeanOfTrainingBlanks, Amount::stated(own, Unit::known("pg")))
        .comparing(message::compared::LimitForMean, Amount::stated(limit, Unit::known("pg"))))
}

/// Blanks of one kind ("trip blank") and analyte in time, (years, pg, u): do they rise? By the slope of the weighted line, 95 % interval above
/// zero; a step or a season is for the series of the whole record.
///
/// # Errors
/// What [`tested_line`] refuses: fewer than three blanks, all at one time, u of zero.
pub fn rising_blanks(kind: &str, analyte: &str, blanks: &[Point]) -> Result<Finding, Error> {
    let l = tested_line(blanks)?;
    let shown = |x, unit| Shown::significant(x, 2, unit);
    let (kind, analyte) = (Name::from(kind.replace(' ', "-")), Name::from(analyte));
    let (slope, low, high) = (shown(l.slope, "pg"), shown(l.slope_95.0, ""), shown(l.slope_95.1, ""));
    let (outcome, says): (_, Message) = if l.slope_95.0 > 0.0 {
        (Outcome::NotMet, said::BlanksRise { kind, analyte, slope, low, high }.into())
    } else {
        (Outcome::Met, said::BlanksLevel { kind, analyte, slope, low, high }.into())
    };
    Ok(Finding::new(Check::BottleBlanksInTime, outcome, says))
}
