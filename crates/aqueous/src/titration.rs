//! An alkalinity titration, evaluated twice: by Gran's function and by the derivative.
//!
//! In: sample volume (mL), acid concentration (mol/L), points of acid added (mL) and pH.
//! Out: alkalinity in mmol/L with u, end points, the points that were used.
//! Method. Past the end point all acid stays free: F = (V0 + V)·10^−pH is a straight line in V
//! that meets zero at the equivalence volume (Gran 1952, Analyst 77:661; from memory), whatever
//! the slope, so neither γ nor the junction potential enters. Points with pH 3.0 to 4.0 are
//! used (to 4.3 where there are fewer than three): above, bicarbonate still binds H+; below,
//! sulfate does and the ionic strength drifts. The little bicarbonate left in the window,
//! total carbonate × K1/[H+] with total carbonate taken as the alkalinity, is counted with F; half
//! of what that moves the answer stands in u (CO2 may have left the beaker). The derivative method takes the steepest places
//! of the curve, refined by a parabola through three slopes. u: the line's own scatter, u of
//! acid, sample volume and burette. With fewer than three points past the end the derivative stands
//! in, with the width between readings as its u; a titration that stopped before is refused. Strong acid burns: goggles, gloves, acid into water.
//! Checked in `tests/validation_titration.rs`.

use crate::constants::{self, Kind};
use crate::error::{Error, within};
use libm::{exp10, sqrt};

/// One reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Acid added so far, mL.
    pub acid_ml: f64,
    /// pH read.
    pub ph: f64,
}

/// A titration as done in the field.
#[derive(Debug, Clone, PartialEq)]
pub struct Titration {
    /// Volume of the sample, mL.
    pub sample_ml: f64,
    /// Acid, mol H+ per litre.
    pub acid_mol_l: f64,
    /// The readings in order.
    pub points: Vec<Point>,
    /// Temperature of the sample, °C (for the small correction of bicarbonate left over).
    pub temperature_c: f64,
    /// Standard uncertainty of the acid, relative.
    pub u_acid_relative: f64,
    /// Standard uncertainty of the sample volume, mL.
    pub u_sample_ml: f64,
    /// Standard uncertainty of the burette's reading, mL.
    pub u_burette_ml: f64,
}

/// A place on the curve that means something.
#[derive(Debug, Clone, PartialEq)]
pub struct EndPoint {
    /// `bicarbonate, Gran`, `bicarbonate, derivative`, `carbonate, derivative`.
    pub name: String,
    /// Acid at it, mL.
    pub acid_ml: f64,
    /// pH at it, read off the curve.
    pub ph: f64,
}

/// The evaluation.
#[derive(Debug, Clone, PartialEq)]
pub struct Evaluation {
    /// Alkalinity by Gran, mmol/L.
    pub alkalinity_mmol_l: f64,
    /// Its standard uncertainty, mmol/L.
    pub u_mmol_l: f64,
    /// Alkalinity by the derivative where the curve shows its end, mmol/L.
    pub derivative_mmol_l: Option<f64>,
    /// End points.
    pub end_points: Vec<EndPoint>,
    /// How many points Gran's line stands on.
    pub points_used: usize,
    /// Scatter about the line, relative to F at its middle.
    pub scatter: f64,
    /// Which pH the line's points span.
    pub ph_used: (f64, f64),
    /// False where the derivative had to stand in for Gran's line.
    pub by_gran: bool,
}

/// pH window of Gran's line: below 4.0 bicarbonate is under 0.5 % of its total; above 3.0 sulfate
/// and the change of ionic strength do not yet bend it.
// Chosen here from pK1 6.35 (Plummer & Busenberg 1982) and pK(HSO4−) 1.99.
const WINDOW: (f64, f64) = (3.0, 4.0);
/// Upper end where fewer than three points lie in the window.
const WIDER: f64 = 4.3;

fn checked(t: &Titration) -> Result<(), Error> {
    within("sample volume", t.sample_ml, "mL", 1.0, 5000.0)?;
    within("temperature", t.temperature_c, "°C", 0.0, 60.0)?;
    within("acid", t.acid_mol_l, "mol/L", 1e-4, 2.0)?;
    if t.points.len() < 4 {
        return Err(Error::Unclear {
            quantity: "titration".into(),
            found: format!("{} points", t.points.len()).into(),
            expected: "at least 4 points, three of them past the end point (pH 3.0 to 4.0)".into(),
        });
    }
    for p in &t.points {
        within("acid added", p.acid_ml, "mL", 0.0, 10.0 * t.sample_ml)?;
        within("pH", p.ph, "", 0.0, 14.0)?;
    }
    for w in t.points.windows(2) {
        if w[1].acid_ml <= w[0].acid_ml {
            return Err(Error::Unclear {
                quantity: "acid added".into(),
                found: format!("{} mL after {} mL", w[1].acid_ml, w[0].acid_ml).into(),
                expected: "the running total of acid, rising from point to point".into(),
            });
        }
    }
    Ok(())
}

/// The end as the derivative sees it, where too few points lie past it for Gran's line.
fn by_derivative(t: &Titration, too_few: Error) -> Result<Evaluation, Error> {
    let end = steepest(&t.points).into_iter().find(|v| (3.8..5.6).contains(&ph_at(&t.points, *v)));
    let Some(volume) = end else { return Err(too_few) };
    let k = t.points.iter().position(|p| p.acid_ml >= volume).unwrap_or(1).max(1);
    // The end lies somewhere between two readings: a rectangle of that width.
    let width = t.points[k].acid_ml - t.points[k - 1].acid_ml;
    let per_ml = t.acid_mol_l / t.sample_ml * 1e3;
    let relative = libm::hypot(t.u_acid_relative, t.u_sample_ml / t.sample_ml);
    let u_volume = libm::hypot(width / sqrt(3.0), t.u_burette_ml);
    let ph = ph_at(&t.points, volume);
    Ok(Evaluation {
        alkalinity_mmol_l: volume * per_ml,
        u_mmol_l: libm::hypot(u_volume * per_ml, volume * per_ml * relative),
        derivative_mmol_l: Some(volume * per_ml),
        end_points: vec![EndPoint { name: "bicarbonate, derivative".into(), acid_ml: volume, ph }],
        points_used: 4,
        scatter: f64::NAN,
        ph_used: (t.points[k].ph, t.points[k - 1].ph),
        by_gran: false,
    })
}

/// Evaluates a titration.
///
/// # Errors
/// [`Error::OutOfRange`], [`Error::Unclear`] for points that cannot carry an answer.
///
/// ```
/// use aqueous::titration::{Point, Titration, evaluate};
/// // The acid ran out at pH 5.1, before the end point: refused, and told to go on.
/// let early = Titration {
///     sample_ml: 100.0,
///     acid_mol_l: 0.02,
///     points: [(0.0, 7.6), (5.0, 6.9), (10.0, 6.4), (14.0, 5.9), (17.0, 5.1)]
///         .map(|(acid_ml, ph)| Point { acid_ml, ph })
///         .to_vec(),
///     temperature_c: 9.0,
///     u_acid_relative: 0.002,
///     u_sample_ml: 0.2,
///     u_burette_ml: 0.01,
/// };
/// assert!(evaluate(&early).is_err());
/// ```
pub fn evaluate(t: &Titration) -> Result<Evaluation, Error> {
    checked(t)?;
    let bare = match gran(t, 0.0) {
        Ok(line) => line,
        Err(too_few) => return by_derivative(t, too_few),
    };
    let mut line = gran(t, bare.volume)?;
    // Left-over bicarbonate follows from the volume just found; up to pH 4.0 it is under 0.5 %, so few rounds do.
    for _ in 0..3 {
        line = gran(t, line.volume)?;
    }
    let per_ml = t.acid_mol_l / t.sample_ml * 1e3;
    let alkalinity = line.volume * per_ml;
    let relative =
        sqrt(t.u_acid_relative * t.u_acid_relative + (t.u_sample_ml / t.sample_ml) * (t.u_sample_ml / t.sample_ml));
    let left_over = 0.5 * (line.volume - bare.volume).abs();
    let u_volume = libm::hypot(libm::hypot(line.u, left_over), t.u_burette_ml);
    let u = libm::hypot(u_volume * per_ml, alkalinity * relative);
    let mut end_points =
        vec![EndPoint { name: "bicarbonate, Gran".into(), acid_ml: line.volume, ph: ph_at(&t.points, line.volume) }];
    let steep = steepest(&t.points);
    let mut derivative = None;
    for v in steep {
        let ph = ph_at(&t.points, v);
        if (3.8..5.6).contains(&ph) {
            derivative = Some(v * per_ml);
            end_points.push(EndPoint { name: "bicarbonate, derivative".into(), acid_ml: v, ph });
        } else if (7.4..9.2).contains(&ph) {
            end_points.push(EndPoint { name: "carbonate, derivative".into(), acid_ml: v, ph });
        }
    }
    Ok(Evaluation {
        alkalinity_mmol_l: alkalinity,
        u_mmol_l: u,
        derivative_mmol_l: derivative,
        end_points,
        points_used: line.used,
        scatter: line.scatter,
        ph_used: line.ph,
        by_gran: true,
    })
}

struct Line {
    volume: f64,
    u: f64,
    used: usize,
    scatter: f64,
    ph: (f64, f64),
}

/// Gran's line; `carbonate_ml` is total carbonate as mL of acid, 0 for the bare function.
fn gran(t: &Titration, carbonate_ml: f64) -> Result<Line, Error> {
    let inside =
        |top: f64| -> Vec<Point> { t.points.iter().copied().filter(|p| p.ph >= WINDOW.0 && p.ph <= top).collect() };
    let mut used = inside(WINDOW.1);
    if used.len() < 3 {
        used = inside(WIDER);
    }
    if used.len() < 3 {
        return Err(Error::Unclear {
            quantity: "titration".into(),
            found: format!("{} points between pH 3.0 and 4.3", used.len()).into(),
            expected: "at least 3 points past the end point, pH 3.0 to 4.0: go on with the acid".into(),
        });
    }
    let pk1 = -constants::find(Kind::Aqueous, "HCO3-")
        .expect("the first dissociation of carbonic acid is in the table")
        .log_k(t.temperature_c);
    let carbonate = carbonate_ml * t.acid_mol_l;
    // Weights: u of F is proportional to F (a fixed u of pH), so each point counts as 1/F².
    let f: Vec<f64> =
        used.iter().map(|p| (t.sample_ml + p.acid_ml) * exp10(-p.ph) - carbonate * exp10(p.ph - pk1)).collect();
    let w: Vec<f64> = f.iter().map(|f| 1.0 / (f * f)).collect();
    let sw: f64 = w.iter().sum();
    let mean_v = w.iter().zip(&used).map(|(w, p)| w * p.acid_ml).sum::<f64>() / sw;
    let mean_f = w.iter().zip(&f).map(|(w, f)| w * f).sum::<f64>() / sw;
    let (mut svv, mut svf) = (0.0, 0.0);
    for ((w, p), f) in w.iter().zip(&used).zip(&f) {
        svv += w * (p.acid_ml - mean_v) * (p.acid_ml - mean_v);
        svf += w * (p.acid_ml - mean_v) * (f - mean_f);
    }
    let slope = svf / svv;
    if slope.is_nan() || slope <= 0.0 {
        return Err(Error::Unclear {
            quantity: "titration".into(),
            found: "free acid that does not rise with acid added".into(),
            expected: "pH falling from point to point past the end point".into(),
        });
    }
    let volume = mean_v - mean_f / slope;
    let chi: f64 = w
        .iter()
        .zip(&used)
        .zip(&f)
        .map(|((w, p), f)| {
            let d = f - mean_f - slope * (p.acid_ml - mean_v);
            w * d * d
        })
        .sum();
    let s2 = chi / (used.len() - 2) as f64;
    // Var(V0) of the crossing of a weighted line: s²/b²·(1/Σw + (mean V − V0)²/Svv).
    let u = sqrt(s2) / slope * sqrt(1.0 / sw + (mean_v - volume) * (mean_v - volume) / svv);
    let ends = used.iter().fold((f64::MAX, f64::MIN), |a, p| (a.0.min(p.ph), a.1.max(p.ph)));
    Ok(Line { volume, u, used: used.len(), scatter: sqrt(s2), ph: ends })
}

/// Volumes where the curve falls most steeply: local maxima of −dpH/dV, refined by a parabola.
fn steepest(points: &[Point]) -> Vec<f64> {
    let slopes: Vec<(f64, f64)> = points
        .windows(2)
        .map(|w| (0.5 * (w[0].acid_ml + w[1].acid_ml), (w[0].ph - w[1].ph) / (w[1].acid_ml - w[0].acid_ml)))
        .collect();
    let mut found = Vec::new();
    for w in slopes.windows(3) {
        let [(x0, y0), (x1, y1), (x2, y2)] = [w[0], w[1], w[2]];
        if y1 > y0 && y1 >= y2 {
            let (a, b) = (x1 - x0, x1 - x2);
            let top = a * a * (y1 - y2) - b * b * (y1 - y0);
            let below = a * (y1 - y2) - b * (y1 - y0);
            found.push(if below == 0.0 { x1 } else { x1 - 0.5 * top / below });
        }
    }
    found
}

fn ph_at(points: &[Point], v: f64) -> f64 {
    let k = points.iter().position(|p| p.acid_ml >= v).unwrap_or(points.len() - 1).max(1);
    let (a, b) = (points[k - 1], points[k]);
    a.ph + (b.ph - a.ph) * (v - a.acid_ml) / (b.acid_ml - a.acid_ml)
}
