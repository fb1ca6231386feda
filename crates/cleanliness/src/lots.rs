//! May this lot of bottles go out?
//!
//! In: blanks of the lot (pg per bottle), the target that a bottle may bring. Out: a limit that a
//! stated share of the lot's bottles stays under with stated confidence, and: accept, refuse, or take
//! more blanks.
//!
//! Method: one-sided tolerance limit mean + k·s, normal law (k from the non-central t; Owen 1958).
//! Beside it the limit without a law: the highest of n blanks holds the share p with confidence
//! 1 − p^n. Blanks are often skewed: where the logarithms are nearer to normal (larger probability-plot
//! correlation) the limit is taken on them, and that is said. Valid for blanks drawn at random
//! from the lot and handled like it. Checked in `tests/validation_lots.rs`.

use crate::Error;
use message::{Digits, Message, Name, Share, Shown, bottle as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use serde::{Deserialize, Serialize};
use statistics::{noncentral::tolerance_factor, normal, sample::mean_sd};

/// What is asked of a lot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct LotRule {
    /// Highest mass that a bottle may bring, pg.
    pub target_pg: f64,
    /// Share of the bottles that must stay under it.
    pub content: f64,
    /// Confidence of that.
    pub confidence: f64,
}

/// On which scale the limit was taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scale {
    /// The values themselves.
    Plain,
    /// Their logarithms.
    Logarithm,
}

/// What the blanks say of a lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LotLimit {
    /// Number of blanks.
    pub blanks: usize,
    /// Mean of the blanks, pg.
    pub mean_pg: f64,
    /// Standard deviation, pg.
    pub sd_pg: f64,
    /// Scale of the limit.
    pub scale: Scale,
    /// Upper tolerance limit, pg.
    pub upper_pg: f64,
    /// Lower bound of the same percentile, pg: above the target means that the lot is bad beyond doubt.
    pub lower_pg: f64,
    /// The highest blank, pg.
    pub highest_pg: f64,
    /// Confidence that the highest blank alone gives for the content, without a law.
    pub highest_confidence: f64,
    /// Accepted, refused, or not decided.
    pub outcome: Outcome,
    /// In words.
    pub sentence: String,
    /// The same as a message.
    #[serde(skip)]
    pub says: Message,
}

/// Judges a lot by its blanks.
///
/// # Errors
/// [`Error::TooFew`] under three blanks; [`Error::OutOfRange`] for a target that is not positive, a
/// probability outside (0.5, 1), a blank that is not a number.
///
/// ```
/// use cleanliness::lots::{LotRule, judge};
/// use quantity::Outcome;
/// // Three blanks, all under the target: they do not show that 95 % of the lot are.
/// let rule = LotRule { target_pg: 20.0, content: 0.95, confidence: 0.95 };
/// let three = judge(&[8.0, 14.0, 10.0], &rule)?;
/// assert!(three.highest_pg < rule.target_pg && three.upper_pg > rule.target_pg);
/// assert_eq!(three.outcome, Outcome::NotKnown);
/// # Ok::<(), cleanliness::Error>(())
/// ```
pub fn judge(blanks_pg: &[f64], rule: &LotRule) -> Result<LotLimit, Error> {
    let n = blanks_pg.len();
    let Some((mean, sd)) = mean_sd(blanks_pg).filter(|_| n >= 3) else {
        return Err(Error::TooFew {
            what: "blanks of the lot".into(),
            have: n,
            need: 3,
            hint: "fill three bottles or more of each lot with the cleanest water and acid".into(),
        }
        .saying(said::LotFewBlanks { have: message::count(n) }));
    };
    if !(rule.target_pg > 0.0 && rule.target_pg.is_finite()) {
        return Err(Error::out_of_range("target of the lot", format!("{} pg", rule.target_pg), "more than 0 pg")
            .saying(said::LotTarget { target: Shown::as_given(rule.target_pg, "pg") }));
    }
    for (what, p) in [("content", rule.content), ("confidence", rule.confidence)] {
        if !(p > 0.5 && p < 1.0) {
            return Err(Error::out_of_range(what, p, "over 0.5 and under 1"));
        }
    }
    if let Some(bad) = blanks_pg.iter().find(|b| !b.is_finite()) {
        return Err(Error::out_of_range(
            "blank of the lot",
            format!("{bad} pg"),
            "a number: the net value with its sign",
        ));
    }
    let k_upper = tolerance_factor(n, rule.content, rule.confidence);
    // The lower bound of the same percentile: a lot is refused only where even that lies above the target.
    let k_lower = tolerance_factor(n, rule.content, 1.0 - rule.confidence);
    let scale = nearer_to_normal(blanks_pg);
    let (upper, lower) = if scale == Scale::Logarithm {
        let logs: Vec<f64> = blanks_pg.iter().map(|b| libm::log(*b)).collect();
        let (m, s) = mean_sd(&logs).expect("as many as the blanks");
        (libm::exp(m + k_upper * s), libm::exp(m + k_lower * s))
    } else {
        (mean + k_upper * sd, mean + k_lower * sd)
    };
    let outcome = if upper <= rule.target_pg {
        Outcome::Met
    } else if lower > rule.target_pg {
        Outcome::NotMet
    } else {
        Outcome::NotKnown
    };
    let says = says(n, upper, lower, rule, outcome);
    Ok(LotLimit {
        blanks: n,
        mean_pg: mean,
        sd_pg: sd,
        scale,
        upper_pg: upper,
        lower_pg: lower,
        highest_pg: blanks_pg.iter().copied().fold(f64::NEG_INFINITY, f64::max),
        highest_confidence: 1.0 - libm::pow(rule.content, n as f64),
        outcome,
        sentence: says.in_english(),
        says,
    })
}

fn says(n: usize, upper: f64, lower: f64, rule: &LotRule, outcome: Outcome) -> Message {
    let share = |x| Share::new(x, Digits::Significant(3));
    let pg = |x| Shown::significant(x, 3, "pg");
    let (confidence, content) = (share(rule.confidence), share(rule.content));
    let (upper, blanks, target) = (pg(upper), message::count(n), pg(rule.target_pg));
    match outcome {
        Outcome::Met => said::LotMayGo { confidence, content, upper, blanks, target }.into(),
        Outcome::NotMet => said::LotRefused { confidence, content, upper, blanks, target, lower: pg(lower) }.into(),
        Outcome::NotKnown => said::LotUndecided { confidence, content, upper, blanks, target }.into(),
    }
}

/// Plain or logarithm: the larger correlation of the sorted values with normal scores (Filliben 1975,
/// Technometrics 17:111). Logarithms only where every blank is positive and five are there.
fn nearer_to_normal(values: &[f64]) -> Scale {
    if values.len() < 5 || values.iter().any(|v| *v <= 0.0) {
        return Scale::Plain;
    }
    let logs: Vec<f64> = values.iter().map(|v| libm::log(*v)).collect();
    if plot_correlation(&logs) > plot_correlation(values) { Scale::Logarithm } else { Scale::Plain }
}

fn plot_correlation(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let n = sorted.len() as f64;
    // Blom 1958: (i − 3/8)/(n + 1/4).
    let scores: Vec<f64> = (1..=sorted.len()).map(|i| normal::quantile((i as f64 - 0.375) / (n + 0.25))).collect();
    let (Some((m, s)), Some((_, t))) = (mean_sd(&sorted), mean_sd(&scores)) else { return 1.0 };
    if s == 0.0 {
        return 1.0;
    }
    sorted.iter().zip(&scores).map(|(v, z)| (v - m) * z).sum::<f64>() / ((n - 1.0) * s * t)
}

impl LotLimit {
    /// The finding of a bottle of this lot.
    pub fn finding(&self, lot: &str, rule: &LotRule) -> Finding {
        let pg = |v: f64| Amount::stated(v, Unit::known("pg"));
        Finding::new(Check::BottleLot, self.outcome, said::Lot { lot: Name::from(lot), limit: self.says.clone() })
            .comparing(message::compared::UpperToleranceLimit, pg(self.upper_pg))
            .comparing(message::compared::Target, pg(rule.target_pg))
    }
}
