//! What a handful of values says of itself: mean, standard deviation, median, percentiles.
//!
//! In: values of one kind in any one unit; out: the same unit (its square for a variance). Mean and
//! sum of squares are taken in two passes in plain f64 (Chan, Golub & LeVeque 1983, Am. Stat. 37:242):
//! a standard deviation a millionth of the mean keeps nine digits. Values that are all one number have
//! exactly that mean and no spread, whatever their sum rounds to. A value that is not a number makes
//! the answer not a number; nothing is dropped. Weights, non-detects and outliers are not for here.
//! Checked in `tests/sample.rs` against NIST's certified datasets and Python's exact fractions.

/// Number, mean and sum of squared deviations of values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moments {
    /// n, at least 1.
    pub n: usize,
    /// x̄ = Σx/n.
    pub mean: f64,
    /// Σ(x − x̄)².
    pub squares: f64,
}

impl Moments {
    /// Of at least one value; `None` without any.
    ///
    /// ```
    /// use statistics::sample::Moments;
    /// // Three equal blanks: no spread, though 0.1 + 0.1 + 0.1 is not 0.3 in f64.
    /// let equal = Moments::of(&[0.1, 0.1, 0.1]).unwrap();
    /// assert_eq!((equal.mean, equal.sd()), (0.1, Some(0.0)));
    /// // One value has a mean and says nothing of its spread; no value says nothing.
    /// assert_eq!(Moments::of(&[0.1]).unwrap().sd(), None);
    /// assert_eq!(Moments::of(&[]), None);
    /// ```
    pub fn of(values: &[f64]) -> Option<Self> {
        let first = *values.first()?;
        if first.is_finite() && values.iter().all(|v| *v == first) {
            return Some(Self { n: values.len(), mean: first, squares: 0.0 });
        }
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let squares = values.iter().map(|v| (v - mean) * (v - mean)).sum();
        Some(Self { n: values.len(), mean, squares })
    }

    /// s² = Σ(x − x̄)²/(n − 1); `None` for a single value (JCGM 100:2008, 4.2.2).
    pub fn variance(&self) -> Option<f64> {
        (self.n > 1).then(|| self.squares / (self.n as f64 - 1.0))
    }

    /// Standard deviation s of single values; `None` for a single value.
    pub fn sd(&self) -> Option<f64> {
        self.variance().map(f64::sqrt)
    }

    /// Standard uncertainty of the mean, √(s²/n); `None` for a single value (JCGM 100:2008, 4.2.3).
    pub fn u_mean(&self) -> Option<f64> {
        self.variance().map(|v| (v / self.n as f64).sqrt())
    }
}

/// Mean and standard deviation (n − 1); `None` under two values.
pub fn mean_sd(values: &[f64]) -> Option<(f64, f64)> {
    let m = Moments::of(values)?;
    Some((m.mean, m.sd()?))
}

/// The median: the value in the middle, between the two in the middle where their number is even;
/// `None` without values.
///
/// ```
/// use statistics::sample::{median, median_high};
/// // Of a pair, one value is as far from the median as the other; `median_high` takes the larger.
/// assert_eq!(median(&[1.0, 9.0]), Some(5.0));
/// assert_eq!(median_high(&[1.0, 9.0]), Some(9.0));
/// assert_eq!(median(&[]), None);
/// ```
pub fn median(values: &[f64]) -> Option<f64> {
    let v = rising(values)?;
    let n = v.len();
    Some(if n % 2 == 1 { v[n / 2] } else { f64::midpoint(v[n / 2 - 1], v[n / 2]) })
}

/// The median, but the larger of the two in the middle where their number is even: always one of the
/// values; `None` without values.
pub fn median_high(values: &[f64]) -> Option<f64> {
    let v = rising(values)?;
    Some(v[v.len() / 2])
}

/// The values in rising order; one that is not a number leaves only itself.
fn rising(values: &[f64]) -> Option<Vec<f64>> {
    if values.iter().any(|v| v.is_nan()) {
        return Some(vec![f64::NAN]);
    }
    let mut v = values.to_vec();
    v.sort_by(f64::total_cmp);
    (!v.is_empty()).then_some(v)
}

/// The percentile of values in rising order, linear between the ranks 1 + (n − 1)·p (definition 7 of
/// Hyndman & Fan 1996, Am. Stat. 50:361). Not a number without values or where p is not 0 to 1.
pub fn between_ranks(sorted: &[f64], p: f64) -> f64 {
    if sorted.is_empty() || !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    let at = p * (sorted.len() as f64 - 1.0);
    let i = at.floor() as usize;
    let j = (i + 1).min(sorted.len() - 1);
    sorted[i] + (at - i as f64) * (sorted[j] - sorted[i])
}

/// The member of values in rising order whose rank is nearest to 1 + (n − 1)·p: for thousands of draws,
/// where two neighbours are all but one. Not a number without values or where p is not 0 to 1.
pub fn nearest_rank(sorted: &[f64], p: f64) -> f64 {
    if sorted.is_empty() || !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    sorted[((sorted.len() as f64 - 1.0) * p).round() as usize]
}
