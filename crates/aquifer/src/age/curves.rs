//! What a picture of ages shows: how likely each age is under a model, and the rain of each year as it would be today.
//!
//! In: a fitted model, a history. Out: points, ages in years. Checked in `tests/age_curves.rs`.

use super::fit::ModelFit;
use super::history::History;
use super::measured::Tracer;
use super::tables::decay_of;
use std::collections::BTreeMap;

/// Width of a bin of ln T: a twelfth of the age, what a page can show.
const BIN: f64 = 0.08;

/// How likely each T is, as a share of the likeliest: years and 0 to 1, rising in age. A bin without draws stands at 0, so
/// that what lies between two bumps is seen to be empty.
pub fn density(m: &ModelFit) -> Vec<(f64, f64)> {
    let mut bins: BTreeMap<i64, f64> = BTreeMap::new();
    for d in &m.draws {
        *bins.entry((libm::log(d.t) / BIN).floor() as i64).or_default() += d.weight;
    }
    let most = bins.values().copied().fold(f64::MIN_POSITIVE, f64::max);
    let (Some(first), Some(last)) = (bins.keys().next().copied(), bins.keys().next_back().copied()) else {
        return vec![];
    };
    (first..=last).map(|k| (libm::exp((k as f64 + 0.5) * BIN), bins.get(&k).copied().unwrap_or(0.0) / most)).collect()
}

/// Points of the curve of rain; enough that the peak of the bomb tests keeps its shape at the width of a page.
const POINTS: usize = 320;
/// Age up to which it is drawn, years: a dozen half-lives, beyond which nothing of any rain is left to see.
const OLDEST_YEARS: f64 = 150.0;

/// Rain of tritium as it would be at sampling: years before the sample (1 to 150, even on the logarithm), TU.
pub fn rain_today(history: &History, sampled_year: f64) -> Vec<(f64, f64)> {
    let lambda = decay_of(Tracer::Tritium);
    let step = libm::log(OLDEST_YEARS) / (POINTS - 1) as f64;
    (0..POINTS)
        .map(|k| {
            let tau = libm::exp(k as f64 * step);
            (tau, history.at(sampled_year - tau) * libm::exp(-lambda * tau))
        })
        .collect()
}
