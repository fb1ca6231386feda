//! Is the true value on the right side of a limit? (JCGM 106:2012)
//!
//! In: value with u and degrees of freedom, a lower and/or upper limit in the same unit, and the
//! programme's guard band. Out: the probability that the true value conforms, the acceptance
//! limits, and one of three answers: conforms, does not conform, cannot tell. The guard band w is
//! either a multiple of u (w = r·U with U = 2u, r = 1: at most 2.3 % risk) or follows from a risk.
//! With w = 0 the answer is by the value alone (simple acceptance, shared risk). Risks before a
//! measurement is made (clause 9) need what is known of the population: a normal prior is taken.
//! Limits closer together than two guard bands leave no value to accept: that is said.
//! No limit of any authority is kept here. Checked in `tests/conformity.rs`.

use crate::error::{Error, all_finite};
use serde::{Deserialize, Serialize};
use statistics::{normal, t};

/// The limits; at least one is given.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Limits {
    /// The true value must not be under this.
    pub lower: Option<f64>,
    /// The true value must not be over this.
    pub upper: Option<f64>,
}

/// How wide a margin the value must keep from the limit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum Guard {
    /// None: the value alone decides.
    None,
    /// w = this many standard uncertainties.
    StandardUncertainties(f64),
    /// w such that the risk of a wrong acceptance at the acceptance limit is this.
    Risk(f64),
}

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// Within the limits by at least the guard band.
    Conforms,
    /// Outside a limit by at least the guard band.
    DoesNotConform,
    /// Within the guard band of a limit.
    CannotTell,
}

/// A judgement against limits.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Conformity {
    /// Probability that the true value lies within the limits.
    pub probability: f64,
    /// Guard band, unit of the value.
    pub guard_band: f64,
    /// Accepted between these: the limits moved inwards by the guard band. None where the limits stand closer together
    /// than two guard bands: no value is accepted then.
    pub accept: Option<Limits>,
    /// The answer.
    pub answer: Answer,
    /// Probability that accepting this value is wrong.
    pub consumer_risk: f64,
    /// Probability that rejecting this value is wrong.
    pub producer_risk: f64,
}

/// A measured value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty, over 0.
    pub u: f64,
    /// Degrees of freedom of u; infinite where well known.
    pub dof: f64,
}

fn check(limits: &Limits, u: f64) -> Result<(), Error> {
    if !(u > 0.0 && u.is_finite()) {
        return Err(Error::OutOfRange { what: "u".into(), value: u, range: "more than 0" });
    }
    match (limits.lower, limits.upper) {
        (None, None) => Err(Error::TooFew { what: "limits", found: 0, needed: 1 }),
        (Some(l), Some(h)) if l.is_nan() || h.is_nan() || l >= h => {
            Err(Error::OutOfRange { what: "lower limit".into(), value: l, range: "under the upper limit" })
        }
        (l, h) => all_finite("limits", &[l.unwrap_or(0.0), h.unwrap_or(0.0)]),
    }
}

/// Judges a value.
///
/// # Errors
/// [`Error::OutOfRange`] for u ≤ 0, dof below 1, crossed limits, a guard band below 0, a risk outside 0 to 0.5;
/// [`Error::TooFew`] without a limit; [`Error::NotFinite`].
///
/// ```
/// use measurement::conformity::{Answer, Guard, Limits, Value, judge};
/// // 9.5 ± 0.5 under a limit of 10: under it, but not by the margin that a risk of 5 % asks for.
/// let near = Value { value: 9.5, u: 0.5, dof: f64::INFINITY };
/// let c = judge(&near, &Limits { lower: None, upper: Some(10.0) }, Guard::Risk(0.05))?;
/// assert_eq!(c.answer, Answer::CannotTell);
/// assert!((c.probability - 0.841).abs() < 1e-3);
/// # Ok::<(), measurement::error::Error>(())
/// ```
pub fn judge(v: &Value, limits: &Limits, guard: Guard) -> Result<Conformity, Error> {
    all_finite("value", &[v.value])?;
    check(limits, v.u)?;
    if v.dof.is_nan() || v.dof < 1.0 {
        return Err(Error::OutOfRange { what: "dof".into(), value: v.dof, range: "1 or more" });
    }
    let below = |limit: f64| t::cdf((limit - v.value) / v.u, v.dof);
    let over_upper = limits.upper.map_or(0.0, |h| 1.0 - below(h));
    let under_lower = limits.lower.map_or(0.0, below);
    let probability = match (limits.lower, limits.upper) {
        (None, Some(h)) => below(h),
        _ => (1.0 - over_upper - under_lower).max(0.0),
    };
    let w = width(v, guard)?;
    let accept = Limits { lower: limits.lower.map(|l| l + w), upper: limits.upper.map(|h| h - w) };
    let crossed = accept.lower.zip(accept.upper).is_some_and(|(l, h)| l > h);
    let accept = (!crossed).then_some(accept);
    let inside = accept.is_some_and(|a| a.lower.is_none_or(|l| v.value >= l) && a.upper.is_none_or(|h| v.value <= h));
    let outside = limits.lower.is_some_and(|l| v.value < l - w) || limits.upper.is_some_and(|h| v.value > h + w);
    Ok(Conformity {
        probability,
        guard_band: w,
        accept,
        answer: if inside {
            Answer::Conforms
        } else if outside {
            Answer::DoesNotConform
        } else {
            Answer::CannotTell
        },
        consumer_risk: 1.0 - probability,
        producer_risk: probability,
    })
}

fn width(v: &Value, guard: Guard) -> Result<f64, Error> {
    match guard {
        Guard::None => Ok(0.0),
        Guard::StandardUncertainties(r) if r >= 0.0 && r.is_finite() => Ok(r * v.u),
        Guard::StandardUncertainties(r) => {
            Err(Error::OutOfRange { what: "guard band in standard uncertainties".into(), value: r, range: "0 or more" })
        }
        Guard::Risk(risk) if risk > 0.0 && risk <= 0.5 => Ok(t::upper_quantile(risk, v.dof).max(0.0) * v.u),
        Guard::Risk(risk) => Err(Error::OutOfRange { what: "risk".into(), value: risk, range: "over 0, up to 0.5" }),
    }
}

/// What is known before the measurement: the population of true values, normal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Population {
    /// Mean of the true values.
    pub mean: f64,
    /// Standard deviation of the true values, over 0.
    pub sd: f64,
}

/// Risks before the measurement (JCGM 106 clause 9.5).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GlobalRisk {
    /// P(accepted and not conforming).
    pub consumer: f64,
    /// P(rejected and conforming).
    pub producer: f64,
}

/// Global risks of a rule "accept between `accept`" for a measurement with u; none where no value is accepted, so that
/// every one that conforms is rejected.
///
/// # Errors
/// As [`judge`]; [`Error::OutOfRange`] for a population without scatter.
pub fn global_risk(
    population: &Population,
    u: f64,
    limits: &Limits,
    accept: Option<&Limits>,
) -> Result<GlobalRisk, Error> {
    check(limits, u)?;
    if let Some(accept) = accept {
        // One value may be accepted alone: the limits moved inwards meet.
        all_finite("limits of acceptance", &[accept.lower.unwrap_or(0.0), accept.upper.unwrap_or(0.0)])?;
    }
    all_finite("population", &[population.mean])?;
    if !(population.sd > 0.0 && population.sd.is_finite()) {
        return Err(Error::OutOfRange {
            what: "sd of the population".into(),
            value: population.sd,
            range: "more than 0",
        });
    }
    let accepted = |x: f64| {
        let Some(accept) = accept else { return 0.0 };
        accept.upper.map_or(1.0, |h| normal::cdf((h - x) / u)) - accept.lower.map_or(0.0, |l| normal::cdf((l - x) / u))
    };
    // Pieces between the limits, so that each integrand is smooth; Simpson's rule, 2000 steps
    // over ± 9 standard deviations.
    let (from, to) = (population.mean - 9.0 * population.sd, population.mean + 9.0 * population.sd);
    let lower = limits.lower.unwrap_or(from).clamp(from, to);
    let upper = limits.upper.unwrap_or(to).clamp(from, to);
    let density = |x: f64| normal::pdf((x - population.mean) / population.sd) / population.sd;
    let outside = simpson(from, lower, |x| density(x) * accepted(x)) + simpson(upper, to, |x| density(x) * accepted(x));
    let inside = simpson(lower, upper, |x| density(x) * (1.0 - accepted(x)));
    Ok(GlobalRisk { consumer: outside, producer: inside })
}

fn simpson(a: f64, b: f64, f: impl Fn(f64) -> f64) -> f64 {
    const STEPS: i32 = 2000;
    if b <= a {
        return 0.0;
    }
    let h = (b - a) / f64::from(STEPS);
    let mut sum = f(a) + f(b);
    for k in 1..STEPS {
        sum += f(a + h * f64::from(k)) * if k % 2 == 1 { 4.0 } else { 2.0 };
    }
    sum * h / 3.0
}
