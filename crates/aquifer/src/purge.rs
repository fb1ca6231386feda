//! Is the water that comes out the aquifer's, or what stood in the pipe?
//!
//! In: readings in time (s, min) of temperature, conductivity, pH, oxygen or a metal; volume and flow of
//! the well. Out: since when each reading is steady and by which rule; volumes renewed; the washout of a
//! standing well fitted with its end value.
//!
//! Methods: the criteria of `reference/stabilisation_criteria.csv`: a reading is steady from the first
//! time at which the last n readings, at the rule's spacing, all lie within the band about their mean, and
//! stay so to the end. Washout: plug flow up to one volume, or well-mixed c = c_aq + (c_0 − c_aq)·e^(−k·t),
//! k = Q/V; least squares with the two concentrations eliminated and a search over k.
//!
//! A steady reading shows that nothing changes any more, not that the water is the aquifer's. Checked in
//! `tests/validation_purge.rs`.

use crate::reason::key;
use crate::{Error, Reason};
use message::{Arg, Digits, Message, Name, Share, Shown, aquifer as part, well as said};
use quantity::{Check, Finding, Outcome};
use serde::Serialize;
use statistics::t;
use std::sync::LazyLock;

/// One rule for one reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Criterion {
    /// Who wrote it.
    pub source: String,
    /// `temperature`, `conductivity`, `pH`, `redox`, `dissolved oxygen`, `turbidity`.
    pub parameter: String,
    /// Name of the set it belongs to: `usgs`, `low-flow`, `astm`.
    pub rule: String,
    /// Half-width of the band in the unit of the reading.
    pub absolute: Option<f64>,
    /// Half-width as percent of the mean.
    pub relative_percent: Option<f64>,
    /// Unit of the reading.
    pub unit: String,
    /// Holds up to this mean.
    pub applies_below: Option<f64>,
    /// Holds over this mean.
    pub applies_above: Option<f64>,
    /// Readings in a row.
    pub readings: usize,
    /// Least spacing, min.
    pub spacing_min: f64,
    /// `seen…` or `recalled`.
    pub provenance: String,
}

static CRITERIA: LazyLock<Vec<Criterion>> = LazyLock::new(|| {
    include_str!("../../../reference/stabilisation_criteria.csv")
        .lines()
        .skip(1)
        .map(|line| {
            let f = split_quoted(line);
            Criterion {
                source: f[0].clone(),
                parameter: f[1].clone(),
                rule: f[2].clone(),
                absolute: f[3].parse().ok(),
                relative_percent: f[4].parse().ok(),
                unit: f[5].clone(),
                applies_below: f[7].parse().ok(),
                applies_above: f[8].parse().ok(),
                readings: f[9].parse().expect("the table's count is a number"),
                spacing_min: f[10].parse().expect("the table's spacing is a number"),
                provenance: f[12].clone(),
            }
        })
        .collect()
});

/// Splits a line of a table whose fields may stand in quotes.
pub(crate) fn split_quoted(line: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => out.push(String::new()),
            _ => out.last_mut().expect("one field at least").push(c),
        }
    }
    out
}

/// All criteria of the table.
pub fn criteria() -> &'static [Criterion] {
    &CRITERIA
}

/// A parameter read in time.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// `temperature`, `conductivity`, `pH`, `redox`, `dissolved oxygen`, `turbidity`.
    pub parameter: String,
    /// Time in min and value in the unit of the criteria (°C, µS/cm, mV, mg/L, NTU).
    pub points: Vec<(f64, f64)>,
}

/// Whether a parameter became steady.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Steady {
    /// Which parameter.
    pub parameter: String,
    /// The set of rules used.
    pub rule: String,
    /// The rule in words.
    pub rule_in_words: String,
    /// The same as a message.
    #[serde(skip)]
    pub rule_said: Message,
    /// Steady since, min; none when it is not.
    pub since_min: Option<f64>,
    /// Largest distance from the mean over the last window.
    pub last_spread: f64,
    /// Mean of the last window.
    pub last_mean: f64,
}

/// Is a parameter steady by a set of rules, and since when?
///
/// The window slides over the readings; steady since the first reading of the first window from which on
/// every window holds. Readings closer together than the rule's spacing are thinned to it.
///
/// # Errors
/// [`Reason`]: a parameter that the set has no rule for; times that do not rise; fewer readings than the rule's at its
/// spacing.
pub fn steady(readings: &Readings, rule: &str) -> Result<Steady, Reason> {
    told(readings, rule).map_err(|e| e.reason(&readings.parameter, rule))
}

/// Why steady or not cannot be told.
enum Untold {
    /// No rule for the parameter.
    NoRule,
    /// Times do not rise: number of the reading, its time and that of the one before, min.
    Backwards { reading: usize, at: f64, before: f64 },
    /// Fewer readings than the rule's at its spacing, min.
    TooFew { spacing: f64, have: usize, need: usize },
}

impl Untold {
    fn reason(&self, parameter: &str, rule: &str) -> Reason {
        match *self {
            Self::NoRule => {
                let found = said::RuleOf { parameter: key(parameter), rule: Name::from(rule) };
                Reason::unlike(part::ParameterAndRule, found, part::OneOf { known: known() })
            }
            Self::Backwards { reading, at, before } => {
                let reading = part::TimeOfReading { reading: message::count(reading) };
                Reason::out_of_range(reading, minutes(at), part::LaterThan { before: minutes(before) })
            }
            Self::TooFew { spacing, have, need } => Reason::TooFew {
                what: part::SpacedReadings { parameter: key(parameter), spacing: minutes(spacing) }.into(),
                have,
                need,
                hint: part::GoOnReading.into(),
            },
        }
    }

    fn said(&self, of: &Readings, rule: &str) -> Message {
        let parameter = key(&of.parameter);
        match *self {
            Self::NoRule => said::ReadingsNoRule { parameter, rule: Name::from(rule), known: known() }.into(),
            Self::Backwards { reading, at, before } => {
                let reading = message::count(reading);
                said::ReadingsBackwards { reading, time: minutes(at), before: minutes(before) }.into()
            }
            Self::TooFew { spacing, have, need } => {
                let (have, need) = (message::count(have), message::count(need));
                said::ReadingsTooFew { parameter, spacing: minutes(spacing), have, need }.into()
            }
        }
    }
}

fn minutes(t: f64) -> Shown {
    Shown::as_given(t, "min")
}

/// What there are rules for.
fn known() -> Vec<Arg> {
    let one = |c: &Criterion| said::RuleOf { parameter: key(&c.parameter), rule: Name::from(&c.rule) };
    criteria().iter().map(|c| Message::from(one(c)).into()).collect()
}

fn told(readings: &Readings, rule: &str) -> Result<Steady, Untold> {
    let all: Vec<&Criterion> =
        criteria().iter().filter(|c| c.rule == rule && c.parameter == readings.parameter).collect();
    let first = all.first().ok_or(Untold::NoRule)?;
    let points = thinned(&readings.points, first.spacing_min)?;
    let n = first.readings;
    if points.len() < n {
        return Err(Untold::TooFew { spacing: first.spacing_min, have: points.len(), need: n });
    }
    let mut since = None;
    let mut last = (0.0, 0.0);
    for w in points.windows(n) {
        let mean = w.iter().map(|p| p.1).sum::<f64>() / n as f64;
        let spread = w.iter().map(|p| (p.1 - mean).abs()).fold(0.0, f64::max);
        last = (spread, mean);
        // Readings are written in decimals: a spread equal to the band to rounding is inside.
        if spread <= band(&all, mean) * (1.0 + 1e-9) {
            since = since.or(Some(w[0].0));
        } else {
            since = None;
        }
    }
    let rule_said = rule_said(&all, last.1);
    Ok(Steady {
        parameter: readings.parameter.clone(),
        rule: rule.into(),
        rule_in_words: rule_said.in_english(),
        rule_said,
        since_min: since,
        last_spread: last.0,
        last_mean: last.1,
    })
}

/// Half-width of the band at a mean: the larger of absolute and relative where both are given.
fn band(all: &[&Criterion], mean: f64) -> f64 {
    let Some(c) = applicable(all, mean) else {
        return 0.0;
    };
    let relative = c.relative_percent.map_or(0.0, |p| p / 100.0 * mean.abs());
    c.absolute.unwrap_or(0.0).max(relative)
}

fn applicable<'a>(all: &[&'a Criterion], mean: f64) -> Option<&'a Criterion> {
    all.iter().find(|c| c.applies_below.is_none_or(|b| mean <= b) && c.applies_above.is_none_or(|a| mean > a)).copied()
}

fn rule_said(all: &[&Criterion], mean: f64) -> Message {
    let Some(c) = applicable(all, mean) else { return said::RuleNone.into() };
    let (readings, spacing) = (message::count(c.readings), Shown::as_given(c.spacing_min, "min"));
    let (source, seen) = (Name::from(&c.source), Name::from(c.provenance.replace(' ', "-")));
    let number = |x| Shown::as_given(x, "");
    let unit = Name::from(&c.unit);
    match (c.absolute, c.relative_percent) {
        (Some(a), Some(p)) => {
            let relative = Shown::as_given(p, "%");
            said::RuleLarger { readings, spacing, width: number(a), unit, relative, source, seen }.into()
        }
        (Some(a), None) => said::Rule { readings, spacing, width: number(a), unit, source, seen }.into(),
        (None, Some(p)) => {
            said::Rule { readings, spacing, width: number(p), unit: Name::from("%"), source, seen }.into()
        }
        (None, None) => said::RuleNone.into(),
    }
}

fn thinned(points: &[(f64, f64)], spacing: f64) -> Result<Vec<(f64, f64)>, Untold> {
    let mut out: Vec<(f64, f64)> = vec![];
    for (i, p) in points.iter().enumerate() {
        if i > 0 && p.0 <= points[i - 1].0 {
            return Err(Untold::Backwards { reading: i + 1, at: p.0, before: points[i - 1].0 });
        }
        // Times are noted to the minute or to seconds.
        if out.last().is_none_or(|q| p.0 - q.0 >= spacing - 0.01) {
            out.push(*p);
        }
    }
    Ok(out)
}

/// The findings of a set of parameters: steady, since when, by which rule; or what is missing.
pub fn stability_findings(readings: &[Readings], rule: &str) -> Vec<Finding> {
    readings
        .iter()
        .map(|r| {
            let parameter = key(&r.parameter);
            let (outcome, says): (_, Message) = match told(r, rule) {
                Ok(Steady { since_min: Some(t), rule_said: rule, .. }) => {
                    (Outcome::Met, said::ReadingSteady { parameter, since: Shown::as_given(t, "min"), rule }.into())
                }
                Ok(s) => (Outcome::NotMet, said::ReadingNotSteady { parameter, rule: s.rule_said }.into()),
                Err(e) => (Outcome::NotKnown, e.said(r, rule)),
            };
            Finding::new(Check::WellStableReadings, outcome, says)
        })
        .collect()
}

/// Volumes of the well renewed in a time, and the standing water left if it mixes fully: exp(−n).
///
/// # Errors
/// [`Error::OutOfRange`] for a volume or flow that is not positive, or a negative time.
///
/// ```
/// use aquifer::purge::renewed;
/// // Just opened: nothing is renewed, all of the standing water is there.
/// assert_eq!(renewed(1000.0, 36.0, 0.0)?, (0.0, 1.0));
/// // Three volumes leave a twentieth of it, where it mixes.
/// assert!((renewed(1000.0, 30.0, 100.0)?.1 - 0.0498).abs() < 1e-4);
/// # Ok::<(), aquifer::Error>(())
/// ```
pub fn renewed(volume_l: f64, flow_l_min: f64, minutes: f64) -> Result<(f64, f64), Error> {
    for (what, x) in [("volume of the well", volume_l), ("flow", flow_l_min)] {
        if !(x > 0.0 && x.is_finite()) {
            return Err(Error::out_of_range(what, x, "more than 0"));
        }
    }
    if minutes.is_nan() || minutes < 0.0 {
        return Err(Error::out_of_range("time since opening", format!("{minutes} min"), "0 min or more"));
    }
    let n = flow_l_min * minutes / volume_l;
    Ok((n, libm::exp(-n)))
}

/// Volumes renewed against what the programme asks (three: common practice), as a finding.
///
/// # Errors
/// As [`renewed`].
pub fn renewed_finding(volume_l: f64, flow_l_min: f64, minutes: f64, least_volumes: f64) -> Result<Finding, Error> {
    let (n, left) = renewed(volume_l, flow_l_min, minutes)?;
    let times = Shown::significant(n, 3, "");
    let left = Share::new(left, Digits::Significant(2));
    let (outcome, says): (_, Message) = if n >= least_volumes {
        (Outcome::Met, said::Renewed { times, left }.into())
    } else {
        (Outcome::NotMet, said::RenewedTooLittle { times, least: Shown::as_given(least_volumes, ""), left }.into())
    };
    Ok(Finding::new(Check::WellRenewed, outcome, says))
}

/// A washout fitted to readings of a standing well that was opened.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Washout {
    /// What the aquifer gives: the end value.
    pub aquifer: f64,
    /// Its u.
    pub u_aquifer: f64,
    /// 95 % interval of the end value (Student's t).
    pub aquifer_95: (f64, f64),
    /// What stood in the well, extrapolated to the opening.
    pub standing: f64,
    /// Its u.
    pub u_standing: f64,
    /// Renewal rate k, 1/min.
    pub rate_per_min: f64,
    /// Its u.
    pub u_rate_per_min: f64,
    /// Volume that takes part, L, where the flow is given: Q/k.
    pub mixed_volume_l: Option<f64>,
    /// Its u from the rate's alone: the flow's own u is not in it.
    pub u_mixed_volume_l: Option<f64>,
    /// Residual standard deviation.
    pub residual_sd: f64,
    /// Points less three.
    pub dof: f64,
    /// Minutes until the standing water adds less than 1 % of its first excess: ln(100)/k.
    pub minutes_to_1_percent: f64,
    /// Its u.
    pub u_minutes_to_1_percent: f64,
    /// The last reading still differs from the end value by more than twice the residual.
    pub still_falling: bool,
}

/// Fits c = c_aq + (c_0 − c_aq)·e^(−k·t) to (min, value).
///
/// # Errors
/// [`Error::TooFew`] under five points; [`Error::NotConverged`] where no rate between a tenth of the
/// inverse of the whole time and ten times the inverse of the first step fits best: the readings do not bend.
pub fn fit_washout(points: &[(f64, f64)], flow_l_min: Option<f64>) -> Result<Washout, Error> {
    if points.len() < 5 {
        return Err(Error::TooFew {
            what: "readings of the washout".into(),
            have: points.len(),
            need: 5,
            hint: "three numbers are fitted; read before, during and after the first volumes".into(),
        });
    }
    let points = thinned(points, 0.0).map_err(|e| e.reason("washout", ""))?;
    let whole = points[points.len() - 1].0 - points[0].0;
    let step = points.windows(2).map(|w| w[1].0 - w[0].0).fold(f64::INFINITY, f64::min);
    let (low, high) = (libm::log(0.1 / whole), libm::log(10.0 / step));
    let ss = |ln_k: f64| linear(&points, libm::exp(ln_k)).2;
    let grid = 200;
    let at = |i: usize| low + (high - low) * i as f64 / f64::from(grid);
    let best = (0..=grid as usize).min_by(|a, b| ss(at(*a)).total_cmp(&ss(at(*b)))).expect("the grid is not empty");
    if best == 0 || best == grid as usize {
        return Err(Error::NotConverged {
            what: "fit of the washout: the readings show no bend between first and last, so no rate".into(),
            iterations: grid as usize,
            residual: ss(at(best)),
        });
    }
    let ln_k = golden(&ss, at(best - 1), at(best + 1));
    Ok(washout_at(&points, libm::exp(ln_k), flow_l_min))
}

/// End value, first excess and sum of squares at a rate.
fn linear(points: &[(f64, f64)], k: f64) -> (f64, f64, f64) {
    let x: Vec<f64> = points.iter().map(|p| libm::exp(-k * p.0)).collect();
    let y: Vec<f64> = points.iter().map(|p| p.1).collect();
    match crate::stats::line(&x, &y) {
        Some(l) => (l.intercept, l.slope, l.residual_sd * l.residual_sd * l.dof),
        None => (f64::NAN, f64::NAN, f64::INFINITY),
    }
}

/// Golden-section search for a minimum inside a bracket.
fn golden(f: &impl Fn(f64) -> f64, mut a: f64, mut b: f64) -> f64 {
    let g = 0.5 * (5f64.sqrt() - 1.0);
    let (mut c, mut d) = (b - g * (b - a), a + g * (b - a));
    let (mut fc, mut fd) = (f(c), f(d));
    for _ in 0..80 {
        if fc < fd {
            (b, d, fd) = (d, c, fc);
            c = b - g * (b - a);
            fc = f(c);
        } else {
            (a, c, fc) = (c, d, fd);
            d = a + g * (b - a);
            fd = f(d);
        }
    }
    0.5 * (a + b)
}

fn washout_at(points: &[(f64, f64)], k: f64, flow_l_min: Option<f64>) -> Washout {
    let (aquifer, excess, ss) = linear(points, k);
    let dof = points.len() as f64 - 3.0;
    let s2 = ss / dof;
    // The rate was fitted too: an end value whose u took it as known would seem better than it is.
    let mut normal = nalgebra::Matrix3::<f64>::zeros();
    for (t, _) in points {
        let e = libm::exp(-k * t);
        let j = nalgebra::Vector3::new(1.0, e, -excess * t * e);
        normal += j * j.transpose();
    }
    // Readings that leave the matrix singular tell none of the three apart: u without bound, not u of zero.
    let c = normal.try_inverse().map_or_else(|| nalgebra::Matrix3::from_element(f64::INFINITY), |m| m * s2);
    let u_aquifer = c[(0, 0)].sqrt();
    let reach = t::quantile(0.975, dof) * u_aquifer;
    let last = points[points.len() - 1];
    Washout {
        aquifer,
        u_aquifer,
        aquifer_95: (aquifer - reach, aquifer + reach),
        standing: aquifer + excess,
        u_standing: (c[(0, 0)] + c[(1, 1)] + 2.0 * c[(0, 1)]).max(0.0).sqrt(),
        rate_per_min: k,
        u_rate_per_min: c[(2, 2)].sqrt(),
        mixed_volume_l: flow_l_min.map(|q| q / k),
        u_mixed_volume_l: flow_l_min.map(|q| q / k * c[(2, 2)].sqrt() / k),
        residual_sd: s2.sqrt(),
        dof,
        minutes_to_1_percent: libm::log(100.0) / k,
        u_minutes_to_1_percent: libm::log(100.0) / k * c[(2, 2)].sqrt() / k,
        still_falling: (excess * libm::exp(-k * last.0)).abs() > 2.0 * s2.sqrt(),
    }
}
