//! What do flow and drawdown in time say of the aquifer: transmissivity T and storage coefficient S?
//!
//! In: times in s with flow in m³/s (flowing well at constant head) or drawdown in m (pumped well). Out:
//! T in m²/s and S with u, 95 % intervals by linearisation on the logarithms and by bootstrap of the
//! residuals, residuals, influence of single points, what dropping the first points does, and whether the
//! model holds.
//!
//! Methods: Jacob & Lohman 1952 (Trans. Am. Geophys. Union 33:559) on the full function G(α), equal
//! relative errors of the flow; Theis 1935 (Trans. Am. Geophys. Union 16:519) on W(u), equal absolute
//! errors of the drawdown; the straight lines of Jacob & Lohman and of Cooper & Jacob 1946 (Trans. Am.
//! Geophys. Union 27:526), the recovery line of Theis. Confined aquifer, uniform, without leakage or edge:
//! the misfit is tested (curvature of the residuals, runs of their signs) and said.
//!
//! It does not fit leaky, bounded or fractured aquifers. Checked in `tests/validation_tests.rs`.
//! Caution: opening or shutting a flowing well can damage it or the ground.

use crate::reason::above_nought;
use crate::separable::{Curve, Fit, Spread};
use crate::stats::line;
use crate::{Error, Reason};
use message::{Message, Shown, aquifer as part, well as said};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;
use serde::Serialize;
use statistics::sample::nearest_rank;
use std::f64::consts::{LN_10, PI};

/// 4·exp(−γ), the "2.25" of the straight lines (Cooper & Jacob 1946).
const LINE_CONSTANT: f64 = 2.245_838_101_577_139;

/// One reading of a test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Time since the test began, s.
    pub t_s: f64,
    /// Flow in m³/s, or drawdown in m.
    pub value: f64,
}

/// A flowing well held at constant head.
#[derive(Debug, Clone, PartialEq)]
pub struct FlowingTest {
    /// Drawdown at the well while it flows, m.
    pub drawdown_m: f64,
    /// Radius of the well, m.
    pub radius_m: f64,
    /// Flow in m³/s in time.
    pub series: Vec<Reading>,
}

/// A well pumped at a constant rate, watched in a well at some distance.
#[derive(Debug, Clone, PartialEq)]
pub struct PumpedTest {
    /// Pumping rate, m³/s.
    pub rate_m3_s: f64,
    /// Distance of the watched well, m (the radius of the pumped well when that is watched).
    pub radius_m: f64,
    /// Drawdown in m in time.
    pub series: Vec<Reading>,
}

/// Bootstrap of the residuals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bootstrap {
    /// Number of draws; 0 for none.
    pub draws: usize,
    /// Seed of the random stream.
    pub seed: u64,
}

impl Default for Bootstrap {
    fn default() -> Self {
        Self { draws: 2000, seed: 1 }
    }
}

/// A positive quantity with its spread, taken on the logarithm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Estimate {
    /// Best value.
    pub value: f64,
    /// Standard uncertainty, by linearisation.
    pub u: f64,
    /// 95 % interval, symmetric on the logarithm (Student's t).
    pub interval_95: (f64, f64),
    /// 95 % interval by bootstrap of the residuals; none when not asked for.
    pub bootstrap_95: Option<(f64, f64)>,
}

/// One point of a fit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PointFit {
    /// Time, s.
    pub t_s: f64,
    /// Flow in m³/s or drawdown in m as measured.
    pub observed: f64,
    /// The same by the fitted curve.
    pub fitted: f64,
    /// Residual over its own standard deviation.
    pub standard_residual: f64,
    /// T without this point, m²/s; none where that fit has no answer.
    pub transmissivity_without_m2_s: Option<f64>,
    /// S without this point.
    pub storage_without: Option<f64>,
}

/// The fit without the first points.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Dropped {
    /// How many first points were left out.
    pub points: usize,
    /// T without them, m²/s.
    pub transmissivity_m2_s: f64,
    /// Its u, m²/s.
    pub u_transmissivity_m2_s: f64,
    /// S without them.
    pub storage: f64,
    /// Its u.
    pub u_storage: f64,
}

/// Does the model hold?
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ModelCheck {
    /// Neither the curvature of the residuals nor their runs speak against it (5 % each).
    pub holds: bool,
    /// p of a further bend of the data, a term in (ln t)².
    pub curvature_p: f64,
    /// p of so few runs of like signs among the residuals.
    pub runs_p: f64,
    /// In plain words.
    pub sentence: String,
    /// The same, a message a sentence.
    #[serde(skip)]
    pub says: Vec<Message>,
}

/// A fitted test.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TestFit {
    /// T, m²/s.
    pub transmissivity_m2_s: Estimate,
    /// S, without dimension.
    pub storage: Estimate,
    /// Correlation of ln T and ln S.
    pub correlation: f64,
    /// Residual standard deviation: relative for flow, m for drawdown.
    pub residual_sd: f64,
    /// Points less two.
    pub dof: f64,
    /// Each point.
    pub points: Vec<PointFit>,
    /// The fit without the first two, four, six ninths of the points.
    pub dropped: Vec<Dropped>,
    /// Does the model hold?
    pub model: ModelCheck,
}

/// What a curve's scale and shift mean.
#[derive(Clone, Copy)]
struct Meaning {
    curve: Curve,
    /// ln T = scale − offset (flowing), ln T = offset − ln scale (pumped).
    offset: f64,
    ln_r2: f64,
}

impl Meaning {
    /// ln T and ln S.
    fn logs(&self, f: &Fit) -> (f64, f64) {
        match self.curve {
            // a = ln(2π·T·s), b = ln(T/(S·r²))
            Curve::LnFlowingG => {
                let ln_t = f.scale - self.offset;
                (ln_t, ln_t - f.shift - self.ln_r2)
            }
            // A = Q/(4π·T), b = ln(r²·S/(4·T))
            Curve::TheisW => {
                let ln_t = self.offset - libm::log(f.scale);
                (ln_t, f.shift + libm::log(4.0) + ln_t - self.ln_r2)
            }
        }
    }

    /// Variances of ln T and ln S and their covariance, from those of scale and shift.
    fn spread(&self, f: &Fit, s: &Spread) -> (f64, f64, f64) {
        let [va, vb, cab] = s.variance;
        let (k, sign) = match self.curve {
            Curve::LnFlowingG => (1.0, -1.0),
            Curve::TheisW => (-1.0 / f.scale, 1.0),
        };
        let (vt, ct) = (k * k * va, k * cab);
        (vt, vt + vb + 2.0 * sign * ct, vt + sign * ct)
    }
}

/// Fits a flowing-well test on the full function.
///
/// # Errors
/// [`Reason::TooFew`] under four points; [`Reason::OutOfRange`] for drawdown, radius, time or flow that is not
/// positive; [`Reason::Unlike`] for a flow that rises with time; [`Reason::NotConverged`] where the data do not bend.
pub fn fit_flowing(test: &FlowingTest, bootstrap: Bootstrap) -> Result<TestFit, Reason> {
    above_nought(part::Drawdown, test.drawdown_m, "m")?;
    within(part::RadiusOfWell, test.radius_m, RADIUS_M)?;
    let series = checked(&test.series, "flow", "m³/s")?;
    let x: Vec<f64> = series.iter().map(|r| libm::log(r.t_s)).collect();
    let y: Vec<f64> = series.iter().map(|r| libm::log(r.value)).collect();
    let trend = line(&x, &y).map_or(0.0, |l| l.slope);
    if trend >= 0.0 {
        return Err(Reason::unlike(part::FlowInTime, part::FlowDoesNotFall, part::FallingFlow));
    }
    let meaning = Meaning {
        curve: Curve::LnFlowingG,
        offset: libm::log(2.0 * PI * test.drawdown_m),
        ln_r2: 2.0 * libm::log(test.radius_m),
    };
    fit(meaning, &series, &x, &y, bootstrap)
}

/// Fits a pumped-well test on the full function.
///
/// # Errors
/// As [`fit_flowing`], with a drawdown that does not grow refused.
pub fn fit_pumped(test: &PumpedTest, bootstrap: Bootstrap) -> Result<TestFit, Reason> {
    above_nought(part::PumpingRate, test.rate_m3_s, "m³/s")?;
    within(part::DistanceOfWatchedWell, test.radius_m, DISTANCE_M)?;
    let series = checked(&test.series, "drawdown", "m")?;
    let x: Vec<f64> = series.iter().map(|r| libm::log(r.t_s)).collect();
    let y: Vec<f64> = series.iter().map(|r| r.value).collect();
    if line(&x, &y).is_none_or(|l| l.slope <= 0.0) {
        return Err(Reason::unlike(part::DrawdownInTime, part::DrawdownDoesNotGrow, part::GrowingDrawdown));
    }
    let meaning = Meaning {
        curve: Curve::TheisW,
        offset: libm::log(test.rate_m3_s / (4.0 * PI)),
        ln_r2: 2.0 * libm::log(test.radius_m),
    };
    fit(meaning, &series, &x, &y, bootstrap)
}

fn positive(what: &str, x: f64, unit: &str) -> Result<(), Error> {
    if x > 0.0 && x.is_finite() {
        Ok(())
    } else {
        Err(Error::out_of_range(what, format!("{x} {unit}"), format!("more than 0 {unit}")))
    }
}

/// Most draws of the bootstrap.
// The programme's own choice: ten thousand give both ends of an interval to two digits.
const MOST_DRAWS: usize = 10_000;

/// Radius of a flowing well, m.
// The programme's own choice: from a thin pipe to a dug well with all that is washed out around it.
const RADIUS_M: (f64, f64) = (0.001, 100.0);

/// Distance of a watched well from a pumped one, m; the least is the wall of the pumped one itself.
// The programme's own choice: beyond a hundred kilometres no pumping is seen.
const DISTANCE_M: (f64, f64) = (0.001, 1e5);

fn within(what: impl Into<Message>, x: f64, (low, high): (f64, f64)) -> Result<(), Reason> {
    if (low..=high).contains(&x) {
        return Ok(());
    }
    let shown = |x: f64| Shown::as_given(x, "");
    let range = part::Between { low: shown(low), high: Shown::as_given(high, "m") };
    Err(Reason::out_of_range(what, Shown::as_given(x, "m"), range))
}

/// Least number of points: two are spent on T and S, and a misfit needs two more to show.
const LEAST_POINTS: usize = 4;

fn checked(series: &[Reading], what: &str, unit: &str) -> Result<Vec<Reading>, Reason> {
    if series.len() < LEAST_POINTS {
        return Err(Reason::TooFew {
            what: part::Readings { reading: what.into() }.into(),
            have: series.len(),
            need: LEAST_POINTS,
            hint: part::ReadMoreOften.into(),
        });
    }
    for (i, r) in series.iter().enumerate() {
        let reading = message::count(i + 1);
        if !(r.t_s > 0.0 && r.t_s.is_finite()) {
            let found = Shown::as_given(r.t_s, "s");
            return Err(Reason::out_of_range(part::TimeOfReading { reading }, found, part::AfterTheStart));
        }
        above_nought(part::ValueOfReading { what: what.into(), reading }, r.value, unit)?;
    }
    let mut s = series.to_vec();
    s.sort_by(|a, b| a.t_s.total_cmp(&b.t_s));
    Ok(s)
}

fn fit(meaning: Meaning, series: &[Reading], x: &[f64], y: &[f64], bootstrap: Bootstrap) -> Result<TestFit, Reason> {
    let curve = meaning.curve;
    if bootstrap.draws > MOST_DRAWS {
        let number = |n: usize| Shown::as_given(n as f64, "");
        let most = part::AtMost { most: number(MOST_DRAWS) };
        return Err(Reason::out_of_range(part::Draws, number(bootstrap.draws), most));
    }
    let best = curve.fit(x, y)?;
    let spread = curve.spread(&best, x, y);
    let (ln_t, ln_s) = meaning.logs(&best);
    let (vt, vs, cov) = meaning.spread(&best, &spread);
    let dof = x.len() as f64 - 2.0;
    let draws = resample(meaning, &best, &spread, x, bootstrap);
    let estimate = |ln: f64, v: f64, boot: Option<(f64, f64)>| {
        let (value, u) = (libm::exp(ln), v.sqrt());
        let t = statistics::t::quantile(0.975, dof);
        Estimate {
            value,
            u: value * u,
            interval_95: (libm::exp(ln - t * u), libm::exp(ln + t * u)),
            bootstrap_95: boot,
        }
    };
    let dropped = without_first(meaning, &best, x, y);
    Ok(TestFit {
        transmissivity_m2_s: estimate(ln_t, vt, percentiles(draws.iter().map(|d| d.0).collect())),
        storage: estimate(ln_s, vs, percentiles(draws.iter().map(|d| d.1).collect())),
        correlation: cov / (vt * vs).sqrt(),
        residual_sd: spread.residual_sd,
        dof,
        points: point_fits(meaning, &best, &spread, series, x, y),
        model: model_check(&spread, x, (ln_t, vt), (ln_s, vs), &dropped),
        dropped,
    })
}

/// T and S of each bootstrap draw, as logarithms. Draws come in blocks, each with its own random
/// stream, so that the number of threads changes nothing.
fn resample(meaning: Meaning, best: &Fit, spread: &Spread, x: &[f64], bootstrap: Bootstrap) -> Vec<(f64, f64)> {
    const BLOCK: usize = 64;
    let n = x.len();
    let fitted: Vec<f64> = x.iter().map(|x| meaning.curve.at(best, *x)).collect();
    let mean = spread.residuals.iter().sum::<f64>() / n as f64;
    // Residuals are smaller than errors by the two parameters spent on them.
    let scale = (n as f64 / (n as f64 - 2.0)).sqrt();
    let errors: Vec<f64> = spread.residuals.iter().map(|r| (r - mean) * scale).collect();
    let blocks: Vec<Vec<(f64, f64)>> = (0..bootstrap.draws.div_ceil(BLOCK))
        .into_par_iter()
        .map(|block| {
            let mut rng = ChaCha8Rng::seed_from_u64(bootstrap.seed);
            rng.set_stream(block as u64);
            let mut y = vec![0.0; n];
            let count = BLOCK.min(bootstrap.draws - block * BLOCK);
            (0..count)
                .filter_map(|_| {
                    for (y, f) in y.iter_mut().zip(&fitted) {
                        *y = f + errors[rng.random_range(0..n)];
                    }
                    let f = meaning.curve.refine(best.shift, x, &y).ok()?;
                    Some(meaning.logs(&f)).filter(|l| l.0.is_finite() && l.1.is_finite())
                })
                .collect()
        })
        .collect();
    blocks.concat()
}

/// 2.5th and 97.5th percentile of logarithms, turned back.
fn percentiles(mut logs: Vec<f64>) -> Option<(f64, f64)> {
    if logs.len() < 40 {
        return None;
    }
    logs.sort_by(f64::total_cmp);
    let at = |p: f64| libm::exp(nearest_rank(&logs, p));
    Some((at(0.025), at(0.975)))
}

fn point_fits(
    meaning: Meaning,
    best: &Fit,
    spread: &Spread,
    series: &[Reading],
    x: &[f64],
    y: &[f64],
) -> Vec<PointFit> {
    let back = |v: f64| match meaning.curve {
        Curve::LnFlowingG => libm::exp(v),
        Curve::TheisW => v,
    };
    (0..x.len())
        .map(|i| {
            let without =
                |v: &[f64]| -> Vec<f64> { v.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, v)| *v).collect() };
            let refit = meaning.curve.refine(best.shift, &without(x), &without(y)).ok();
            let logs = refit.map(|f| meaning.logs(&f));
            let own_sd = spread.residual_sd * (1.0 - spread.leverage[i]).max(1e-12).sqrt();
            PointFit {
                t_s: series[i].t_s,
                observed: series[i].value,
                fitted: back(meaning.curve.at(best, x[i])),
                standard_residual: if own_sd > 0.0 { spread.residuals[i] / own_sd } else { 0.0 },
                transmissivity_without_m2_s: logs.map(|l| libm::exp(l.0)),
                storage_without: logs.map(|l| libm::exp(l.1)),
            }
        })
        .collect()
}

fn without_first(meaning: Meaning, best: &Fit, x: &[f64], y: &[f64]) -> Vec<Dropped> {
    let n = x.len();
    [2, 4, 6]
        .into_iter()
        .filter_map(|ninths| {
            let points = (n * ninths + 4) / 9;
            if points == 0 || n - points < LEAST_POINTS {
                return None;
            }
            let (x, y) = (&x[points..], &y[points..]);
            let f = (meaning.curve.fit(x, y)).or_else(|_| meaning.curve.refine(best.shift, x, y)).ok()?;
            let (t, s) = meaning.logs(&f);
            let (vt, vs, _) = meaning.spread(&f, &meaning.curve.spread(&f, x, y));
            let (t, s) = (libm::exp(t), libm::exp(s));
            Some(Dropped {
                points,
                transmissivity_m2_s: t,
                u_transmissivity_m2_s: t * vt.sqrt(),
                storage: s,
                u_storage: s * vs.sqrt(),
            })
        })
        .collect()
}

fn model_check(spread: &Spread, x: &[f64], t: (f64, f64), s: (f64, f64), dropped: &[Dropped]) -> ModelCheck {
    let curvature_p = curvature(spread, x);
    let runs_p = runs(&spread.residuals);
    let holds = curvature_p >= 0.05 && runs_p >= 0.05;
    let mut says: Vec<Message> = vec![if holds {
        said::ModelNoBend.into()
    } else {
        let p = |x| Shown::decimals(x, 3, "");
        said::ModelBends { bend: p(curvature_p), runs: p(runs_p) }.into()
    }];
    let widest = |f: &dyn Fn(&Dropped) -> f64, best: f64| {
        dropped.iter().map(|d| (libm::log(f(d)) - best).abs()).fold(0.0, f64::max)
    };
    let (dt, ds) = (widest(&|d| d.transmissivity_m2_s, t.0), widest(&|d| d.storage, s.0));
    if !dropped.is_empty() {
        let transmissivity = Shown::decimals(100.0 * (libm::exp(dt) - 1.0), 0, "%");
        let storage = Shown::decimals(libm::exp(ds), 2, "");
        says.push(if ds > 3.0 * dt {
            said::ModelRestsOnFirst { transmissivity, storage }.into()
        } else {
            said::ModelWithoutFirst { transmissivity, storage }.into()
        });
    }
    // The fit of a part differs from the fit of all by the difference of their variances (Hausman 1978,
    // Econometrica 46:1251).
    let beyond = |value: f64, u: f64, best: (f64, f64)| {
        let v = (u / value).powi(2) - best.1;
        (libm::log(value) - best.0).abs() > 3.0 * v.max(0.0).sqrt()
    };
    if dropped
        .iter()
        .any(|d| beyond(d.transmissivity_m2_s, d.u_transmissivity_m2_s, t) || beyond(d.storage, d.u_storage, s))
    {
        says.push(said::ModelBeyondScatter.into());
    }
    let sentence = says.iter().map(Message::in_english).collect::<Vec<_>>().join(" ");
    ModelCheck { holds, curvature_p, runs_p, sentence, says }
}

/// p of a term in (ln t)² added to the fit: its coefficient after what scale and shift explain.
fn curvature(spread: &Spread, x: &[f64]) -> f64 {
    let n = x.len() as f64;
    let dof = n - 3.0;
    if dof < 1.0 {
        return 1.0;
    }
    let m = x.iter().sum::<f64>() / n;
    let mut z: Vec<f64> = x.iter().map(|x| (x - m) * (x - m)).collect();
    // Gram–Schmidt against the two columns of the fit.
    let a: Vec<f64> = spread.slopes.iter().map(|s| s.0).collect();
    let mut b: Vec<f64> = spread.slopes.iter().map(|s| s.1).collect();
    project_out(&mut b, &a);
    project_out(&mut z, &a);
    project_out(&mut z, &b);
    let zz: f64 = z.iter().map(|z| z * z).sum();
    let zr: f64 = z.iter().zip(&spread.residuals).map(|(z, r)| z * r).sum();
    let rr: f64 = spread.residuals.iter().map(|r| r * r).sum();
    let explained = zr * zr / zz;
    let left = rr - explained;
    // Exact data leave nothing to test.
    if zz <= 0.0 || rr <= 1e-24 * n || left <= 0.0 {
        return 1.0;
    }
    statistics::t::two_sided_p((explained / (left / dof)).sqrt(), dof)
}

fn project_out(v: &mut [f64], by: &[f64]) {
    let k = v.iter().zip(by).map(|(a, b)| a * b).sum::<f64>() / by.iter().map(|b| b * b).sum::<f64>();
    for (v, b) in v.iter_mut().zip(by) {
        *v -= k * b;
    }
}

/// Probability of so few runs of signs or fewer, given how many of each (Wald & Wolfowitz 1940, Ann.
/// Math. Stat. 11:147, exact).
pub fn runs(residuals: &[f64]) -> f64 {
    let signs: Vec<bool> = residuals.iter().filter(|r| **r != 0.0).map(|r| *r > 0.0).collect();
    let plus = signs.iter().filter(|s| **s).count();
    let minus = signs.len() - plus;
    if plus == 0 || minus == 0 {
        return 1.0;
    }
    let count = 1 + signs.windows(2).filter(|w| w[0] != w[1]).count();
    let choose = |n: usize, k: usize| -> f64 {
        if k > n {
            return 0.0;
        }
        (0..k).map(|i| (n - i) as f64 / (k - i) as f64).product()
    };
    let total = choose(plus + minus, plus);
    (2..=count)
        .map(|r| {
            let k = r / 2;
            if r % 2 == 0 {
                2.0 * choose(plus - 1, k - 1) * choose(minus - 1, k - 1) / total
            } else {
                (choose(plus - 1, k) * choose(minus - 1, k - 1) + choose(plus - 1, k - 1) * choose(minus - 1, k))
                    / total
            }
        })
        .sum()
}

/// T and S from the straight part of a test.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StraightLine {
    /// T, m²/s.
    pub transmissivity_m2_s: f64,
    /// Its u, from the scatter about the line.
    pub u_transmissivity_m2_s: f64,
    /// S; none for a recovery.
    pub storage: Option<f64>,
    /// u of S.
    pub u_storage: Option<f64>,
    /// Points on the line.
    pub points: usize,
    /// Degrees of freedom.
    pub dof: f64,
}

/// Largest u = r²·S/(4·T·t) at which drawdown about a pumped well counts as straight against log t.
// The slope of W(u) against ln u is −e^(−u): under 0.02 it is within 2 % of the line's (Cooper & Jacob 1946).
pub const LINE_MOST_U: f64 = 0.02;

/// Least α = T·t/(S·r²) at which 1/Q of a flowing well counts as straight against log t.
// From there the slope of 1/G(α) against ln α is within 2.1 % of the line's one half, as for the pumped well: 0.963 of
// it at 10³, 0.979 at 10⁴, 0.987 at 10⁵ (inverse Laplace transform with mpmath, `tests/validation_tests.rs`). At u 0.02,
// which is α 12.5, it is 0.85: the line would give T a sixth too large.
pub const LINE_LEAST_ALPHA: f64 = 1e4;

impl FlowingTest {
    /// Time from which the straight line holds, s, by T and S of the full fit.
    pub fn line_holds_from_s(&self, fit: &TestFit) -> f64 {
        LINE_LEAST_ALPHA * fit.storage.value * self.radius_m * self.radius_m / fit.transmissivity_m2_s.value
    }
}

impl PumpedTest {
    /// Time from which the straight line holds, s, by T and S of the full fit.
    pub fn line_holds_from_s(&self, fit: &TestFit) -> f64 {
        self.radius_m * self.radius_m * fit.storage.value / (4.0 * fit.transmissivity_m2_s.value * LINE_MOST_U)
    }
}

/// The straight line of drawdown over flow, s/Q, against log10 t: T = 2.30/(4π·Δ(s/Q)) a decade, S from
/// where it meets zero. `points` holds t in s and s/Q in s/m²; only readings from `from_s` on are used: from where the
/// line holds ([`PumpedTest::line_holds_from_s`], [`FlowingTest::line_holds_from_s`]), or later by a person's choice.
///
/// # Errors
/// [`Error::TooFew`] under three points, [`Error::OutOfRange`] for a line that does not rise.
pub fn straight_line(points: &[(f64, f64)], radius_m: f64, from_s: f64) -> Result<StraightLine, Error> {
    positive("radius", radius_m, "m")?;
    let late: Vec<&(f64, f64)> = points.iter().filter(|p| p.0 >= from_s).collect();
    let x: Vec<f64> = late.iter().map(|p| libm::log10(p.0 / (radius_m * radius_m))).collect();
    let y: Vec<f64> = late.iter().map(|p| p.1).collect();
    let l = rising(&x, &y)?;
    let t = LN_10 / (4.0 * PI * l.slope);
    let x0 = -l.intercept / l.slope;
    let s = LINE_CONSTANT * t * libm::pow(10.0, x0);
    // ln S = const − ln m − ln 10·(b/m): derivatives by slope m and intercept b.
    let (dm, db) = (-1.0 / l.slope - LN_10 * x0 / l.slope, -LN_10 / l.slope);
    let variance =
        dm * dm * l.u_slope * l.u_slope + db * db * l.u_intercept * l.u_intercept + 2.0 * dm * db * l.covariance;
    Ok(StraightLine {
        transmissivity_m2_s: t,
        u_transmissivity_m2_s: t * l.u_slope / l.slope,
        storage: Some(s),
        u_storage: Some(s * variance.max(0.0).sqrt()),
        points: x.len(),
        dof: l.dof,
    })
}

/// T from the recovery after pumping: residual drawdown (m) against log10(t/t'), t since pumping began and t'
/// since it stopped, in s (Theis 1935). S does not come out of it.
///
/// # Errors
/// As [`straight_line`]; [`Error::OutOfRange`] for times that cannot be.
pub fn recovery(rate_m3_s: f64, readings: &[(f64, f64, f64)]) -> Result<StraightLine, Error> {
    positive("pumping rate", rate_m3_s, "m³/s")?;
    for (i, (t, since, _)) in readings.iter().enumerate() {
        positive(&format!("time since the stop of reading {}", i + 1), *since, "s")?;
        if t <= since {
            return Err(Error::out_of_range(
                format!("time since the start of reading {}", i + 1),
                format!("{t} s"),
                format!("more than the {since} s since the stop"),
            ));
        }
    }
    let x: Vec<f64> = readings.iter().map(|r| libm::log10(r.0 / r.1)).collect();
    let y: Vec<f64> = readings.iter().map(|r| r.2).collect();
    let l = rising(&x, &y)?;
    let t = LN_10 * rate_m3_s / (4.0 * PI * l.slope);
    Ok(StraightLine {
        transmissivity_m2_s: t,
        u_transmissivity_m2_s: t * l.u_slope / l.slope,
        storage: None,
        u_storage: None,
        points: x.len(),
        dof: l.dof,
    })
}

fn rising(x: &[f64], y: &[f64]) -> Result<crate::stats::Line, Error> {
    if x.len() < 3 {
        return Err(Error::TooFew {
            what: "points on the straight part".into(),
            have: x.len(),
            need: 3,
            hint: "two points always lie on a line".into(),
        });
    }
    let l = line(x, y)
        .ok_or_else(|| Error::out_of_range("times of the straight part", "all the same", "different times"))?;
    if l.slope <= 0.0 {
        return Err(Error::out_of_range(
            "slope of the straight part",
            l.slope,
            "a line that rises with the logarithm of time",
        ));
    }
    Ok(l)
}
