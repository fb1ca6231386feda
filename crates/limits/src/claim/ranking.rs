//! "The lowest of all", "in this order".
//!
//! Each pair that the sentence implies is tested; with m pairs each has to hold with 1 − 0.05/m
//! (Bonferroni), so that the sentence as a whole holds with 95 %. What cannot be told apart is said.

use super::core::{bounds_at, core};
use super::words::{amount, in_a_row, named, said, sentences, substance, then};
use super::{Answer, Found, Sentences, sound, sound_covariance, to_unit};
use message::{Message, claim};
use quantity::{Amount, CalcError};
use serde::{Deserialize, Serialize};
use serde_json::{Map, json};
use statistics::{t, welch};

/// "The lowest of all", "in this order", as fields: exactly one of lowest, highest, order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ranking<A = Amount> {
    /// What is put in order.
    pub items: Vec<Ranked<A>>,
    /// Symbol or name of the substance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub analyte: Option<String>,
    /// Name of the lowest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lowest: Option<String>,
    /// Name of the highest.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub highest: Option<String>,
    /// All names, the lowest first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub order: Option<Vec<String>>,
    /// What pairs share, in the square of the unit of the first item; a pair that is not named shares nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub covariances: Option<Vec<Shared>>,
}

/// What two items share.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shared {
    /// Name of the one.
    pub a: String,
    /// Name of the other.
    pub b: String,
    /// Their covariance, in the square of the unit of the first item.
    pub covariance: f64,
}

/// One of the items.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ranked<A = Amount> {
    /// Its name.
    pub name: String,
    /// Its amount.
    pub amount: A,
}

pub(super) fn check(f: &Ranking) -> Result<Found, CalcError> {
    let items = in_one_unit(f)?;
    let place = |field: &str, name: &str| {
        items.iter().position(|i| i.0 == name).ok_or_else(|| {
            let names: Vec<&str> = items.iter().map(|i| i.0.as_str()).collect();
            CalcError::refused(field, name, format!("one of {}", names.join(", ")))
        })
    };
    let what = substance(f.analyte.as_deref().unwrap_or_default());
    // Pairs (low, high) that the sentence implies.
    let (pairs, asked): (Vec<(usize, usize)>, Message) = match (&f.lowest, &f.highest, &f.order) {
        (Some(n), None, None) => {
            let k = place("lowest", n)?;
            let pairs = (0..items.len()).filter(|i| *i != k).map(|i| (k, i)).collect();
            (pairs, claim::Lowest { name: n.as_str().into(), what: what.clone() }.into())
        }
        (None, Some(n), None) => {
            let k = place("highest", n)?;
            let pairs = (0..items.len()).filter(|i| *i != k).map(|i| (i, k)).collect();
            (pairs, claim::Highest { name: n.as_str().into(), what: what.clone() }.into())
        }
        (None, None, Some(order)) => {
            let at = order.iter().map(|n| place("order", n)).collect::<Result<Vec<_>, _>>()?;
            if at.len() < 2 {
                return Err(CalcError::refused("order", order.join(", "), "two names or more"));
            }
            (
                at.windows(2).map(|w| (w[0], w[1])).collect(),
                claim::Order { what: what.clone(), names: order.join(" < ").into() }.into(),
            )
        }
        _ => return Err(CalcError::refused("lowest, highest, order", "none or several", "exactly one of them")),
    };
    let covariances = f.covariances.as_deref().unwrap_or_default();
    for (i, s) in covariances.iter().enumerate() {
        let at = |name: &str| place(&format!("covariances[{i}]"), name);
        let (a, b) = (&items[at(&s.a)?].1, &items[at(&s.b)?].1);
        sound_covariance(&format!("covariances[{i}].covariance"), s.covariance, a, b)?;
    }
    let shared = |l: usize, h: usize| {
        let (l, h) = (items[l].0.as_str(), items[h].0.as_str());
        let pair = |s: &&Shared| (s.a == l && s.b == h) || (s.a == h && s.b == l);
        covariances.iter().find(pair).map_or(0.0, |s| s.covariance)
    };
    let level = 1.0 - 0.05 / pairs.len() as f64;
    let answers: Vec<Answer> =
        pairs.iter().map(|(l, h)| lower(&items[*l].1, &items[*h].1, shared(*l, *h), level)).collect();
    let answer = answers.iter().fold(Answer::Supported, |a, b| a.and(*b));
    let told: Vec<Message> =
        pairs.iter().zip(&answers).map(|((l, h), a)| of_pair(&items[*l].0, &items[*h].0, *a)).collect();
    let told = in_a_row(&told, sentences).expect("a ranking has a pair");
    let with_amount =
        |(name, a): &(String, Amount)| -> Message { claim::WithAmount { name: named(name), x: amount(a) }.into() };
    let list = in_a_row(&items.iter().map(with_amount).collect::<Vec<_>>(), then).expect("a ranking has items");
    let mut warnings: Vec<Message> = vec![];
    for (l, h) in &pairs {
        let c = core(&items[*h].1, &items[*l].1, shared(*l, *h));
        for w in c.in_the_way(&named(&items[*h].0), &named(&items[*l].0)) {
            if !warnings.contains(&w) {
                warnings.push(w);
            }
        }
    }
    let mut figures = Map::new();
    figures.insert(
        "pairs".into(),
        json!(
            pairs
                .iter()
                .zip(&answers)
                .map(|((l, h), a)| json!({"lower": items[*l].0, "higher": items[*h].0, "answer": a}))
                .collect::<Vec<_>>()
        ),
    );
    figures.insert("level_of_each_pair".into(), json!(level));
    let interval = match pairs[..] {
        [(l, h)] => core(&items[h].1, &items[l].1, shared(l, h)).interval,
        _ => [None, None],
    };
    Ok(Found {
        kind: "ranking",
        answer,
        interval,
        probability: None,
        sources: vec!["Bonferroni's inequality; JCGM 106:2012, 7".into()],
        figures,
        sentences: Sentences {
            plain: if answer == Answer::Supported { asked.clone() } else { told.clone() },
            asked,
            interval_of: match pairs[..] {
                [(l, h)] => said(claim::Quotient { a: named(&items[h].0), b: named(&items[l].0) }),
                _ => vec![],
            },
            scientific: claim::RankingScientific { items: list, what, pairs: told }.into(),
            warnings,
        },
    })
}

/// What is said of a pair.
fn of_pair(low: &str, high: &str, answer: Answer) -> Message {
    let (low, high) = (low.into(), high.into());
    match answer {
        Answer::Supported => claim::IsLower { low, high }.into(),
        Answer::Contradicted => claim::IsHigher { low, high }.into(),
        Answer::CannotTell => claim::NotInOrder { low, high }.into(),
    }
}

fn in_one_unit(f: &Ranking) -> Result<Vec<(String, Amount)>, CalcError> {
    if f.items.len() < 2 {
        return Err(CalcError::refused("items", f.items.len(), "two or more, each with name and amount"));
    }
    let unit = f.items[0].amount.unit().clone();
    let mut out: Vec<(String, Amount)> = vec![];
    for (i, item) in f.items.iter().enumerate() {
        sound(&format!("items[{i}]"), &item.amount)?;
        if out.iter().any(|o| o.0 == item.name) {
            return Err(CalcError::refused(format!("items[{i}].name"), &item.name, "a name that stands once"));
        }
        let amount = to_unit(&format!("items[{i}]"), &item.amount, &unit, f.analyte.as_deref(), 1.0)?;
        out.push((item.name.clone(), amount));
    }
    Ok(out)
}

/// Is `low` under `high` with the probability `level`? How far under zero a net value lies puts nothing in order: the one
/// that is said to be under the other counts as zero there, which errs to the side that claims less.
fn lower(low: &Amount, high: &Amount, covariance: f64, level: f64) -> Answer {
    if let (Amount::Measured(a), Amount::Measured(b)) = (low, high) {
        let var = a.u * a.u + b.u * b.u - 2.0 * covariance;
        let (up, down) = (b.value - a.value.max(0.0), a.value - b.value.max(0.0));
        if var <= 0.0 {
            // Known exactly; equal ones have no order.
            return if up > 0.0 {
                Answer::Supported
            } else if down > 0.0 {
                Answer::Contradicted
            } else {
                Answer::CannotTell
            };
        }
        // The doubt is that of each alone, of what they share too: never too many degrees of freedom.
        let doubt = welch::welch_term(a.u * a.u, a.dof) + welch::welch_term(b.u * b.u, b.dof);
        let dof = welch::dof_of(var, doubt).unwrap_or(f64::INFINITY);
        let p = |gap: f64| t::cdf(gap / var.sqrt(), dof);
        return if p(up) >= level {
            Answer::Supported
        } else if p(down) >= level {
            Answer::Contradicted
        } else {
            Answer::CannotTell
        };
    }
    match (bounds_at(low, 1.0 - level), bounds_at(high, 1.0 - level)) {
        ((_, Some(top)), (Some(bottom), _)) if top < bottom => Answer::Supported,
        ((Some(bottom), _), (_, Some(top))) if bottom > top => Answer::Contradicted,
        _ => Answer::CannotTell,
    }
}
