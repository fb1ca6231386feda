//! Drift where no check stands on one side: before the first and after the last drift check of a session.
//!
//! Between two checks the drift is known by both; beyond them it is not known, and it is not none. Its standard
//! uncertainty there, as a share of the sensitivity at a distance d (min) from the nearest check, is taken from how the
//! checks of this run moved: with q = mean over neighbours of (step² − noise²), the part of their steps that their own
//! noise does not make, and T the mean time between neighbours,
//!
//! ```text
//! u² = q·max(d/T, (d/T)²) + (g(t) − g(t_check))²/(3·g(t)²)
//! ```
//!
//! d/T is a random walk, its square a straight line: the larger of both, since the checks cannot tell them apart. Steps
//! are those about the model (polynomial) or of the checks themselves (bracket). The second term is of a polynomial
//! alone, which goes on beyond its checks: drift may have stopped or doubled, a rectangle (JCGM 100, 4.3.7).
//! One error for all vials on one side, so one source each. Checked in `tests/run_checks.rs` by simulation.

use super::drift::{Model, Reproducibility};
use super::sources::{Group, Pool, Sources};
use super::table::{Table, When};

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
    ends: Vec<End>,
}

/// What the checks of a run say of their own movement.
#[derive(Debug, Clone, Copy)]
struct Steps {
    /// q, as a share of the sensitivity squared.
    square: f64,
    /// T, min.
    spacing: f64,
    /// Number of steps.
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
        Self { ends }
    }

    fn end(&self, when: When) -> Option<&End> {
        self.ends.iter().find(|e| e.session == when.session && is_beyond(when, e.edge, e.after))
    }

    /// Minutes from the nearest check, and whether the vial stands after it; none between checks.
    pub fn beyond(&self, when: When) -> Option<(f64, bool)> {
        self.end(when).map(|e| ((when.minutes - e.edge.minutes).abs(), e.after))
    }

    /// What the row of a vial owes to all open ends, as a standard uncertainty.
    pub fn part_of(&self, row: &[f64]) -> f64 {
        self.ends.iter().map(|e| row[e.source].powi(2)).sum::<f64>().sqrt()
    }

    /// Adds the u of the unknown drift to the rows of responses with drift removed, `y` in counts/s.
    pub fn into_rows(
        &self,
        table: &Table,
        model: &Model,
        between: Option<Reproducibility>,
        (rows, y): (&mut [f64], &[f64]),
        sources: &mut Sources,
    ) {
        let Some(steps) = steps(model, between.map_or(0.0, |b| b.relative)) else { return };
        let n = sources.len();
        for e in &self.ends {
            sources.dof[e.source] = steps.dof;
        }
        for (v, vial) in table.vials.iter().enumerate() {
            let when = When::of(vial);
            if let Some(e) = self.end(when) {
                rows[v * n + e.source] += y[v] * relative_u(model, &steps, when, e.edge);
            }
        }
    }
}

fn is_beyond(when: When, edge: When, after: bool) -> bool {
    if after { when.minutes > edge.minutes } else { when.minutes < edge.minutes }
}

fn relative_u(model: &Model, steps: &Steps, when: When, edge: When) -> f64 {
    let d = (when.minutes - edge.minutes).abs() / steps.spacing;
    let g = model.at(when);
    let moved = (g - model.at(edge)) / g;
    (steps.square * d.max(d * d) + moved * moved / 3.0).sqrt()
}

/// The steps between neighbouring checks of one session; none where no two stand at different times.
fn steps(model: &Model, between: f64) -> Option<Steps> {
    let checks = &model.checks;
    let scale = checks.iter().map(|c| c.response).sum::<f64>() / checks.len() as f64;
    let (mut sum, mut time, mut n) = (0.0, 0.0, 0.0);
    for pair in checks.windows(2).filter(|p| p[0].when.session == p[1].when.session) {
        let [from, to] = [0, 1].map(|k| pair[k].response / scale - model.expected(pair[k].when));
        let noise: f64 = pair.iter().map(|c| (c.u / scale).powi(2) + (between * c.response / scale).powi(2)).sum();
        sum += (to - from).powi(2) - noise;
        time += pair[1].when.minutes - pair[0].when.minutes;
        n += 1.0;
    }
    (time > 0.0).then(|| Steps { square: (sum / n).max(0.0), spacing: time / n, dof: n })
}
