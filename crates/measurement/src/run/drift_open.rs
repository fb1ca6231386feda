//! Drift where no check stands on one side: before the first and after the last drift check of a session.
//!
//! Between two checks the drift is known by both; beyond them it is not known, and it is not none. Its standard
//! uncertainty there, as a share of the sensitivity at a distance d (min) from the nearest check, is taken from how the
//! checks of this run moved from one to the next: m their mean step, w the variance of the steps about it less what the
//! checks' own noise makes of it, T the mean time of a step,
//!
//! ```text
//! u² = m²·(d/T)² + w·d/T + (g(t) − g(t_check))²/(3·g(t)²)
//! ```
//!
//! a straight line that goes on or stops (m² with its own variance), and a random walk. Steps are those about the model (polynomial) or of the
//! checks themselves (bracket, which keeps the last check's value beyond it). The last term is of a polynomial alone,
//! which goes on beyond its checks: drift may have stopped or doubled, a rectangle (JCGM 100, 4.3.7).
//! The line goes on at both ends of a run alike, so it is one source for all of it, with the sign of time; what else
//! is not known is one source for each end. Checked in `tests/run_checks.rs` by simulation.

use super::drift::{Model, Reproducibility};
use super::sources::{Group, Pool, Sources};
use super::table::{Table, When};
use statistics::sample::Moments;

/// One open end of a session.
#[derive(Debug, Clone, Copy)]
struct End {
    session: u32,
    after: bool,
    /// Time of the check that stands nearest.
    edge: When,
    source: usize,
}

/// The open ends of a run.
#[derive(Debug, Clone, Default)]
pub(super) struct Open {
    /// Source of the line; none where nothing is open.
    line: Option<usize>,
    ends: Vec<End>,
}

/// What the checks of a run say of their own movement.
#[derive(Debug, Clone, Copy)]
struct Steps {
    /// m² and its own variance, as a share of the sensitivity squared.
    line: f64,
    /// w, likewise.
    walk: f64,
    /// T, min.
    spacing: f64,
    /// Degrees of freedom of the mean square of the steps.
    dof: f64,
}

impl Open {
    /// The ends of sessions that have vials beyond their drift checks, each with its source. `checks` are the vials
    /// that the model stands on, in time order; without any no drift is modelled, and there is nothing beyond it.
    pub fn of(table: &Table, checks: &[usize], sources: &mut Sources) -> Self {
        let mut ends = Vec::new();
        let when: Vec<When> = checks.iter().map(|v| When::of(&table.vials[*v])).collect();
        for part in when.chunk_by(|a, b| a.session == b.session) {
            let (Some(first), Some(last)) = (part.first(), part.last()) else { continue };
            for (edge, after) in [(*first, false), (*last, true)] {
                let session = edge.session;
                let beyond = |t: When| t.session == session && is_beyond(t, edge, after);
                if table.vials.iter().any(|v| beyond(When::of(v))) {
                    ends.push(End { session, after, edge, source: sources.add(Group::DriftOpen, Pool::None, 1.0) });
                }
            }
        }
        let line = (!ends.is_empty()).then(|| sources.add(Group::DriftOpen, Pool::None, 1.0));
        Self { line, ends }
    }

    fn end(&self, when: When) -> Option<&End> {
        self.ends.iter().find(|e| e.session == when.session && is_beyond(when, e.edge, e.after))
    }

    /// Minutes from the nearest check, and whether the vial stands after it; none between checks.
    pub fn beyond(&self, when: When) -> Option<(f64, bool)> {
        self.end(when).map(|e| ((when.minutes - e.edge.minutes).abs(), e.after))
    }

    /// The check that stands nearest to a vial beyond the checks, and whether the vial stands after it; none between.
    pub fn edge(&self, when: When) -> Option<(When, bool)> {
        self.end(when).map(|e| (e.edge, e.after))
    }

    /// What the row of a vial owes to all open ends, as a standard uncertainty.
    pub fn part_of(&self, row: &[f64]) -> f64 {
        self.sources().map(|s| row[s].powi(2)).sum::<f64>().sqrt()
    }

    fn sources(&self) -> impl Iterator<Item = usize> {
        self.line.into_iter().chain(self.ends.iter().map(|e| e.source))
    }

    /// Adds the u of the unknown drift to the rows of responses with drift removed, `y` in counts/s.
    pub fn add_to_rows(
        &self,
        table: &Table,
        model: &Model,
        between: Option<Reproducibility>,
        (rows, y): (&mut [f64], &[f64]),
        sources: &mut Sources,
    ) {
        let Some(steps) = steps(model, between.map_or(0.0, |b| b.relative)) else { return };
        let n = sources.len();
        for s in self.sources() {
            sources.dof[s] = steps.dof;
        }
        for (v, vial) in table.vials.iter().enumerate() {
            let when = When::of(vial);
            if let (Some(e), Some(line)) = (self.end(when), self.line) {
                let d = (when.minutes - e.edge.minutes) / steps.spacing;
                let g = model.at(when);
                let moved = (g - model.at(e.edge)) / g;
                rows[v * n + line] += y[v] * steps.line.sqrt() * d;
                rows[v * n + e.source] += y[v] * (steps.walk * d.abs() + moved * moved / 3.0).sqrt();
            }
        }
    }
}

fn is_beyond(when: When, edge: When, after: bool) -> bool {
    if after { when.minutes > edge.minutes } else { when.minutes < edge.minutes }
}

/// The steps between neighbouring checks of one session; none where no two stand at different times.
fn steps(model: &Model, between: f64) -> Option<Steps> {
    let checks = &model.checks;
    let scale = checks.iter().map(|c| c.response).sum::<f64>() / checks.len() as f64;
    let (mut step, mut time, mut noise) = (Vec::new(), 0.0, 0.0);
    for pair in checks.windows(2).filter(|p| p[0].when.session == p[1].when.session) {
        let [from, to] = [0, 1].map(|k| pair[k].response / scale - model.expected(pair[k].when));
        step.push(to - from);
        noise += pair.iter().map(|c| (c.u / scale).powi(2) + (between * c.response / scale).powi(2)).sum::<f64>();
        time += pair[1].when.minutes - pair[0].when.minutes;
    }
    let n = step.len() as f64;
    let m = Moments::of(&step).filter(|_| time > 0.0)?;
    let squares: Vec<f64> = step.iter().map(|d| d * d).collect();
    let square = Moments::of(&squares)?;
    // Degrees of freedom from how well the mean square is known, ν = 2·x²/u(x)² (JCGM 100, G.3): steps that are all
    // alike tell more than as many that are not.
    let known = square.u_mean().map_or(n, |u| if u > 0.0 { 2.0 * (square.mean / u).powi(2) } else { f64::INFINITY });
    Some(Steps {
        // Noise of all checks but the first and last cancels in the mean step.
        line: m.mean * m.mean + noise / (n * n * n),
        walk: (m.variance().unwrap_or(0.0) - noise / n).max(0.0),
        spacing: time / n,
        dof: known.max(n),
    })
}
