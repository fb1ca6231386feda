//! The product limit of values with non-detects: the share of values at or below each known
//! value, no shape assumed, nothing put in place of a non-detect. In: readings in one unit; out:
//! a step function, its mean, percentiles and intervals in that unit.
//!
//! Left-censored form: F just below a known value v is the product over known values w ≥ v of
//! (1 − d/r), d values at w, r readings at or below w. What is left below the lowest known value
//! is named `mass_below_lowest`; the mean is then not one number but lies between the mean with
//! that mass at zero and the mean with it as high as the non-detects there allow: each at its own
//! limit, which is never above the lowest known value.
//!
//! Sources: Kaplan & Meier (1958) JASA 53:457; variance Greenwood (1926); percentile interval by
//! test inversion, Brookmeyer & Crowley (1982) Biometrics 38:29, on the logit of F (all from
//! memory). Trusted where `docs/validation/series_coverage.csv` says so. Checked in
//! `tests/handbook.rs` against published cases and in `bench/series` against lifelines.

use crate::{Error, Reading, rows};
use statistics::{normal, t};

/// One step of the distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// A known value.
    pub value: f64,
    /// Readings at or below it (values and limits).
    pub at_risk: usize,
    /// Known values equal to it.
    pub here: usize,
    /// Share at or below it: F(value).
    pub share_at_or_below: f64,
    /// Share below it.
    pub share_below: f64,
    /// Greenwood sum of `share_below`: its squared relative standard error.
    pub greenwood: f64,
}

/// The distribution, from the highest known value down.
#[derive(Debug, Clone, PartialEq)]
pub struct ProductLimit {
    /// Steps in falling order of value.
    pub steps: Vec<Step>,
    /// Number of readings.
    pub n: usize,
    /// Share below the lowest known value.
    pub mass_below_lowest: f64,
    /// Mean limit of the non-detects that share is of; the lowest known value where there is none.
    pub highest_of_mass: f64,
}

/// An estimate with its interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Lowest the estimate can be (mass below the lowest known value at zero).
    pub low: f64,
    /// Highest the estimate can be; equal to `low` where nothing is left open.
    pub high: f64,
    /// Confidence interval, from the lower end of `low` to the upper end of `high`.
    pub interval: (f64, f64),
}

/// The product limit of readings.
///
/// # Errors
/// [`Error::NotFinite`], [`Error::TooFew`] for none, [`Error::AllCensored`].
///
/// ```
/// use series::Reading::{Below, Known};
/// use series::product_limit::product_limit;
/// // More than half below their limits: the median is "below 2", not a number and not half the limit.
/// let pl = product_limit(&[Below(1.0), Below(1.0), Below(2.0), Known(2.0), Known(5.0)])?;
/// assert_eq!(pl.percentile(0.5), Below(2.0));
/// // The mean has two figures: what is open may lie at zero or at the lowest known value.
/// let mean = pl.mean(0.95);
/// assert!(mean.low < mean.high);
/// # Ok::<(), series::Error>(())
/// ```
pub fn product_limit(readings: &[Reading]) -> Result<ProductLimit, Error> {
    rows::check_finite(readings)?;
    rows::check_some_known(readings)?;
    let mut ordered = readings.to_vec();
    // Falling; at one number the value before the non-detects, which are at risk there.
    ordered.sort_unstable_by(|a, b| b.bound().total_cmp(&a.bound()).then(b.is_known().cmp(&a.is_known())));
    let n = ordered.len();
    let mut steps = Vec::new();
    let (mut share, mut greenwood) = (1.0, 0.0);
    let mut i = 0;
    while i < n {
        let Reading::Known(value) = ordered[i] else {
            i += 1;
            continue;
        };
        let here = ordered[i..].iter().take_while(|r| **r == Reading::Known(value)).count();
        let at_risk = n - i;
        let below = share * (1.0 - here as f64 / at_risk as f64);
        if at_risk > here {
            greenwood += here as f64 / (at_risk as f64 * (at_risk - here) as f64);
        }
        steps.push(Step { value, at_risk, here, share_at_or_below: share, share_below: below, greenwood });
        share = below;
        i += here;
    }
    let lowest = steps[steps.len() - 1].value;
    // What stands behind the lowest known value has a limit at or under it.
    let limits: Vec<f64> = ordered.iter().rev().take_while(|r| !r.is_known()).map(|r| r.bound()).collect();
    let highest_of_mass = if limits.is_empty() { lowest } else { limits.iter().sum::<f64>() / limits.len() as f64 };
    Ok(ProductLimit { steps, n, mass_below_lowest: share, highest_of_mass })
}

impl ProductLimit {
    /// The lowest known value.
    pub fn lowest(&self) -> f64 {
        self.steps[self.steps.len() - 1].value
    }

    /// Smallest known value with at least the share `p` at or below it; "below the lowest known value" where
    /// that much mass lies below it.
    pub fn percentile(&self, p: f64) -> Reading {
        if self.mass_below_lowest >= p {
            return Reading::Below(self.lowest());
        }
        // Rounding of the product must not move a percentile that falls exactly on a step.
        let enough = p - 1e-12;
        let at = self.steps.iter().rev().find(|s| s.share_at_or_below >= enough).unwrap_or(&self.steps[0]);
        Reading::Known(at.value)
    }

    /// Interval of a percentile: the values at which the test of F = p by the logit of F does
    /// not reject. An open lower end is "below the lowest known value"; an open upper end is infinite.
    pub fn percentile_interval(&self, p: f64, confidence: f64) -> (Reading, f64) {
        let z = normal::quantile(0.5 * (1.0 + confidence));
        let target = logit(p);
        let (mut low, mut high) = (Reading::Below(self.lowest()), f64::INFINITY);
        for s in &self.steps {
            // F on the stretch from this value down to the next is `share_below`.
            if s.share_below <= 0.0 {
                low = Reading::Known(s.value);
                break;
            }
            let f = s.share_below;
            let se = libm::sqrt(s.greenwood) / (1.0 - f);
            let gap = logit(f) - target;
            if gap > z * se {
                high = s.value;
            }
            if gap < -z * se {
                low = Reading::Known(s.value);
                break;
            }
        }
        (low, high)
    }

    /// Mean; the mass below the lowest known value is at zero for the lower figure (at the
    /// limits themselves where they are negative), at the limits there for the higher.
    /// The interval uses Greenwood's variance of the area under F and Student's t.
    pub fn mean(&self, confidence: f64) -> Estimate {
        let high: f64 = self.steps.iter().map(|s| s.value * (s.share_at_or_below - s.share_below)).sum::<f64>()
            + self.mass_below_lowest * self.highest_of_mass;
        let low = high - self.mass_below_lowest * self.highest_of_mass.max(0.0);
        let known: usize = self.steps.iter().map(|s| s.here).sum();
        let t = t::quantile(0.5 * (1.0 + confidence), (known as f64 - 1.0).max(1.0));
        let half = t * libm::sqrt(self.mean_variance());
        let interval = if low > 0.0 {
            // On the log scale: concentrations are skewed and never negative.
            (low * libm::exp(-half / low), high * libm::exp(half / high))
        } else {
            (low - half, high + half)
        };
        Estimate { low, high, interval }
    }

    /// Variance of the mean: Σ A² d/(r(r − d)), A the area under F below each known value.
    fn mean_variance(&self) -> f64 {
        let mut area = 0.0;
        let mut variance = 0.0;
        for pair in self.steps.windows(2).rev() {
            let (upper, lower) = (pair[0], pair[1]);
            area += upper.share_below * (upper.value - lower.value);
            if upper.at_risk > upper.here {
                variance +=
                    area * area * upper.here as f64 / (upper.at_risk as f64 * (upper.at_risk - upper.here) as f64);
            }
        }
        let known: f64 = self.steps.iter().map(|s| s.here as f64).sum();
        variance * known / (known - 1.0).max(1.0)
    }

    /// Standard deviation of the distribution, the open mass at the mean of its limits.
    pub fn sd(&self) -> f64 {
        let mean = self.mean(0.95).high;
        let mut sum = self.mass_below_lowest * (self.highest_of_mass - mean) * (self.highest_of_mass - mean);
        for s in &self.steps {
            sum += (s.share_at_or_below - s.share_below) * (s.value - mean) * (s.value - mean);
        }
        libm::sqrt(sum * self.n as f64 / (self.n as f64 - 1.0).max(1.0))
    }
}

fn logit(p: f64) -> f64 {
    libm::log(p / (1.0 - p))
}
