//! Two plots that people draw by hand: mass against fill volume, concentration against 1/flow.
//!
//! In: bottles of one water filled to different volumes (pg with u, mL), or samples of one well at different
//! flows (ng/L with u, L/min). Out: slope and intercept with u, and whether the line is a line.
//!
//! * Fills: the slope is the water (ng/L), the intercept what bottle and hands brought (pg).
//! * Flows: the intercept at 1/Q = 0 is the aquifer (ng/L), the slope the pipe (ng/min). A rise at fast flow may be
//!   particles: filtered beside unfiltered, or Fe and Al, tell.
//!
//! Method: least squares weighted by 1/(u² + τ²), τ² the scatter beyond u (Paule & Mandel 1982); u by Student's
//! t with n − 2; the test of the line is the t test of a square term, two-sided, so that bends both ways count.
//! Checked in `tests/validation_lines.rs`.

use crate::Error;
use message::{Message, Shown, attribution as said, count};
use serde::Serialize;
use statistics::t;

/// A weighted line and its test.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TestedLine {
    /// Slope.
    pub slope: f64,
    /// Its u.
    pub u_slope: f64,
    /// 95 % interval of the slope.
    pub slope_95: (f64, f64),
    /// Value at zero.
    pub intercept: f64,
    /// Its u.
    pub u_intercept: f64,
    /// 95 % interval of the intercept.
    pub intercept_95: (f64, f64),
    /// Covariance of the two.
    pub covariance: f64,
    /// Scatter beyond the stated u, standard deviation.
    pub beyond_u: f64,
    /// n − 2.
    pub dof: f64,
    /// Coefficient of a square term.
    pub bend: Option<f64>,
    /// Two-sided p of it; none with three points.
    pub bend_p: Option<f64>,
    /// y − fitted.
    pub residuals: Vec<f64>,
    /// Was the scatter beyond u found, of the line and of its square term?
    pub converged: bool,
}

/// A line is refused as a line under this p: common practice.
const BEND_P: f64 = 0.05;

impl TestedLine {
    /// Does the square term leave it a line?
    pub fn is_a_line(&self) -> bool {
        self.bend_p.is_none_or(|p| p >= BEND_P)
    }
}

/// A point: x, y, u of y.
pub type Point = (f64, f64, f64);

/// Fits and tests a line.
///
/// # Errors
/// [`Error::TooFew`] under three points or all at one x; [`Error::OutOfRange`] for a u that is not positive.
pub fn tested_line(points: &[Point]) -> Result<TestedLine, Error> {
    if points.len() < 3 {
        return Err(Error::TooFew {
            what: "points of the line".into(),
            have: points.len(),
            need: 3,
            hint: "two points always lie on a line".into(),
        }
        .saying(said::FewPoints { have: count(points.len()) }));
    }
    for (i, (x, y, u)) in points.iter().enumerate() {
        if !(x.is_finite() && y.is_finite() && *u > 0.0 && u.is_finite()) {
            return Err(Error::out_of_range(
                format!("point {}", i + 1),
                format!("x {x}, y {y}, u {u}"),
                "finite numbers with u above 0",
            )
            .saying(said::Point {
                point: count(i + 1),
                x: given(*x, ""),
                y: given(*y, ""),
                u: given(*u, ""),
            }));
        }
    }
    let n = points.len() as f64;
    let (tau2, found) = beyond(points, n - 2.0).ok_or_else(|| {
        Error::TooFew {
            what: "different x of the line".into(),
            have: 1,
            need: 2,
            hint: "fill different volumes, or let the well flow at different rates".into(),
        }
        .saying(said::OnePlace)
    })?;
    let f = weighted(points, tau2).expect("different x were found");
    let reach = t::quantile(0.975, n - 2.0);
    let (us, ui) = (f.variance_slope.sqrt(), f.variance_intercept.sqrt());
    // With three points a square term leaves no degree of freedom to judge it by.
    let bend = (points.len() > 3).then(|| square_term(points, n)).flatten();
    let bend_found = bend.is_none_or(|b| b.2);
    Ok(TestedLine {
        slope: f.slope,
        u_slope: us,
        slope_95: (f.slope - reach * us, f.slope + reach * us),
        intercept: f.intercept,
        u_intercept: ui,
        intercept_95: (f.intercept - reach * ui, f.intercept + reach * ui),
        covariance: f.covariance,
        beyond_u: tau2.sqrt(),
        dof: n - 2.0,
        bend: bend.map(|b| b.0),
        bend_p: bend.map(|b| b.1),
        residuals: points.iter().map(|(x, y, _)| y - f.intercept - f.slope * x).collect(),
        converged: found && bend_found,
    })
}

fn given(x: f64, unit: &str) -> Shown {
    Shown::as_given(x, unit)
}

struct Weighted {
    slope: f64,
    intercept: f64,
    variance_slope: f64,
    variance_intercept: f64,
    covariance: f64,
    chi2: f64,
}

fn weighted(points: &[Point], tau2: f64) -> Option<Weighted> {
    let w = |u: f64| 1.0 / (u * u + tau2);
    let sum = |f: &dyn Fn(&Point) -> f64| points.iter().map(|p| w(p.2) * f(p)).sum::<f64>();
    let (s, sx, sy) = (sum(&|_| 1.0), sum(&|p| p.0), sum(&|p| p.1));
    let (mx, my) = (sx / s, sy / s);
    let sxx = sum(&|p| (p.0 - mx).powi(2));
    if sxx <= 0.0 {
        return None;
    }
    let slope = sum(&|p| (p.0 - mx) * (p.1 - my)) / sxx;
    let intercept = my - slope * mx;
    Some(Weighted {
        slope,
        intercept,
        variance_slope: 1.0 / sxx,
        variance_intercept: 1.0 / s + mx * mx / sxx,
        covariance: -mx / sxx,
        chi2: sum(&|p| (p.1 - intercept - slope * p.0).powi(2)),
    })
}

/// τ² at which the weighted squares equal their degrees of freedom, and whether it was found; 0 where u explains all.
/// None where all x are the same.
fn beyond(points: &[Point], dof: f64) -> Option<(f64, bool)> {
    weighted(points, 0.0).filter(|f| f.chi2.is_finite())?;
    Some(where_it_falls_to(dof, points, |t| weighted(points, t).map_or(0.0, |f| f.chi2)))
}

/// τ² at which weighted squares, which fall as it rises, reach a target; and whether it was found.
fn where_it_falls_to(target: f64, points: &[Point], squares: impl Fn(f64) -> f64) -> (f64, bool) {
    if squares(0.0) <= target {
        return (0.0, true);
    }
    // n values of at most this square: with n times it as τ² each weighted square is under 1/n.
    let most = points.iter().map(|p| p.1 * p.1 + p.2 * p.2).fold(1e-300, f64::max);
    let (mut low, mut high) = (0.0, most);
    if squares(high) > target {
        high = most * points.len() as f64;
    }
    let found = squares(high) <= target;
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if squares(middle) > target {
            low = middle;
        } else {
            high = middle;
        }
    }
    (0.5 * (low + high), found)
}

/// Coefficient and p of a square term added to the line, and whether its τ² was found: both columns orthogonal to the
/// line, τ² found anew.
fn square_term(points: &[Point], n: f64) -> Option<(f64, f64, bool)> {
    let residual_of = |tau2: f64| -> Option<(f64, f64, f64)> {
        // The square with its own weighted line taken off.
        let squares: Vec<Point> = points.iter().map(|(x, _, u)| (*x, x * x, *u)).collect();
        let (f, q) = (weighted(points, tau2)?, weighted(&squares, tau2)?);
        let (mut zz, mut zr, mut rr) = (0.0, 0.0, 0.0);
        for ((x, y, u), (_, x2, _)) in points.iter().zip(&squares) {
            let w = 1.0 / (u * u + tau2);
            let z = x2 - q.intercept - q.slope * x;
            let r = y - f.intercept - f.slope * x;
            zz += w * z * z;
            zr += w * z * r;
            rr += w * r * r;
        }
        Some((zz, zr, rr))
    };
    let left = |t: f64| residual_of(t).map_or(0.0, |(zz, zr, rr)| rr - zr * zr / zz);
    let dof = n - 3.0;
    let (tau2, found) = where_it_falls_to(dof, points, left);
    let (zz, zr, _) = residual_of(tau2)?;
    // Two different x only: the square is a line.
    let wx4: f64 = points.iter().map(|(x, _, u)| x.powi(4) / (u * u + tau2)).sum();
    if zz <= 1e-12 * wx4 {
        return None;
    }
    let t = zr / zz.sqrt();
    let p = t::two_sided_p(t, dof);
    Some((zr / zz, p, found))
}

/// Bottles of one water filled to different volumes: (mL, pg, u pg). Slope in ng/L (pg/mL), intercept in pg.
///
/// # Errors
/// As [`tested_line`]; [`Error::OutOfRange`] for a volume that is not positive.
///
/// ```
/// use cleanliness::lines::fills;
/// // Equal masses whatever the volume: all of it is the bottle's, and the water's slope holds zero.
/// let (line, _) = fills(&[(60.0, 12.1, 1.0), (125.0, 11.8, 1.0), (250.0, 12.3, 1.0), (500.0, 12.0, 1.0)])?;
/// assert!(line.slope_95.0 < 0.0 && line.slope_95.1 > 0.0);
/// assert!((line.intercept - 12.0).abs() < 2.0 * line.u_intercept);
/// # Ok::<(), cleanliness::Error>(())
/// ```
pub fn fills(points: &[Point]) -> Result<(TestedLine, Message), Error> {
    for (i, p) in points.iter().enumerate() {
        if p.0.is_nan() || p.0 <= 0.0 {
            return Err(Error::out_of_range(
                format!("volume of fill {}", i + 1),
                format!("{} mL", p.0),
                "more than 0 mL",
            )
            .saying(said::VolumeOfFill { fill: count(i + 1), volume: given(p.0, "mL") }));
        }
    }
    let l = tested_line(points)?;
    let (water, u_water) = (Shown::significant(l.slope, 3, "ng/L"), Shown::significant(l.u_slope, 2, ""));
    let (brought, u_brought) = (Shown::significant(l.intercept, 3, "pg"), Shown::significant(l.u_intercept, 2, ""));
    let says = if l.is_a_line() {
        said::FillsOnLine { water, u_water, brought, u_brought }.into()
    } else {
        said::FillsBend { water, u_water, brought, u_brought }.into()
    };
    Ok((l, says))
}

/// Samples of one well at different flows: (L/min, ng/L, u). Intercept in ng/L: the aquifer; slope in ng/min: the
/// pipe.
///
/// # Errors
/// As [`tested_line`]; [`Error::OutOfRange`] for a flow that is not positive.
pub fn flows(points: &[Point]) -> Result<(TestedLine, Message), Error> {
    for (i, p) in points.iter().enumerate() {
        if p.0.is_nan() || p.0 <= 0.0 {
            return Err(Error::out_of_range(
                format!("flow of sample {}", i + 1),
                format!("{} L/min", p.0),
                "more than 0 L/min",
            )
            .saying(said::FlowOfSample { sample: count(i + 1), flow: given(p.0, "L/min") }));
        }
    }
    let inverse: Vec<Point> = points.iter().map(|(q, c, u)| (1.0 / q, *c, *u)).collect();
    let l = tested_line(&inverse)?;
    let (aquifer, u_aquifer) = (Shown::significant(l.intercept, 3, "ng/L"), Shown::significant(l.u_intercept, 2, ""));
    let (pipe, u_pipe) = (Shown::significant(l.slope, 3, "ng/min"), Shown::significant(l.u_slope, 2, ""));
    let rising =
        l.slope + l.u_slope * t::quantile(0.975, l.dof) < 0.0 || (!l.is_a_line() && l.bend.is_some_and(|b| b > 0.0));
    let says = match (l.is_a_line(), rising) {
        (true, false) => said::FlowsOnLine { aquifer, u_aquifer, pipe, u_pipe }.into(),
        (_, true) => said::FlowsRise { aquifer, u_aquifer, pipe, u_pipe }.into(),
        (false, false) => said::FlowsLevelOff { aquifer, u_aquifer, pipe, u_pipe }.into(),
    };
    Ok((l, says))
}
