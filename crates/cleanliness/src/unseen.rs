//! Does a source speak that nobody asked about? Bottles of one kind against the joint fit of all.
//!
//! In: the bottles of a survey, their fit, and what bottles can be told apart by (kind of blank, air, lot, day, person).
//! Out: for each group of bottles how much more metal they hold than the water and the sources asked about explain,
//! pg a bottle with u, and the p of it, alone and over all groups.
//!
//! Method: the weighted fit without the bound with one more column, 1 for the bottles of the group: its
//! coefficient is the group's mean residual with the leverage of the fit taken out. Student's t with the residual
//! scatter of that fit; the variance is the larger of the model's and the sandwich HC3 (MacKinnon & White 1985,
//! J. Econometrics 29:305), so that one spiked bottle does not speak for its group. Bottles of the group count in full,
//! whatever the mixture thinks of them: a source that some bottles alone met looks like spikes in them. Over all groups
//! by Holm 1979, Scand. J. Stat. 6:65; groups of one direction count once.
//!
//! What it cannot see: a source that every sample of a water met alike, whatever its volume. It is the water's for
//! these bottles; then [`Unseen::in_samples`] is none. Checked by simulation in `tests/validation_unseen.rs`: false
//! in at most 5 % of trips, for even, relative and lognormal scatter.

use crate::attribution::{Attribution, Design, Kind, Survey, pseudo_inverse};
use message::{Arg, Message, Shown, count, unseen as said};
use nalgebra::{DMatrix, DVector};
use quantity::format::decimals_for;
use serde::Serialize;
use statistics::t;

/// One way to tell bottles apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grouping {
    /// By what: "kind", "lot".
    pub by: String,
    /// The group of each bottle, in the order of the survey; none where it is not known.
    pub groups: Vec<Option<String>>,
}

/// The grouping that every survey has: samples and blanks.
pub const BY_KIND: &str = "kind";
/// The group of [`BY_KIND`] that holds water of a well.
pub const SAMPLES: &str = "sample";

/// A group of bottles against the fit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Group {
    /// By what it was told apart.
    pub by: String,
    /// Its name.
    pub group: String,
    /// Its bottles.
    pub bottles: usize,
    /// Metal of a bottle beyond what the water and the sources explain, pg, negative where it is less; none where
    /// these bottles cannot tell it from them.
    pub more_pg: Option<f64>,
    /// Its u, pg.
    pub u_pg: Option<f64>,
    /// Two-sided p of it alone.
    pub p: Option<f64>,
    /// The same over all groups.
    pub p_over_all: Option<f64>,
}

/// All groups.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Unseen {
    /// In the order given, groups by name.
    pub groups: Vec<Group>,
    /// Different directions that were tested.
    pub tested: usize,
}

impl Unseen {
    /// The group that departs most, of those that depart with p over all groups under the level.
    pub fn stands_out(&self, level: f64) -> Option<&Group> {
        self.clearest().filter(|g| g.p_over_all.is_some_and(|p| p < level))
    }

    /// The group with the smallest p; of two that are each other's rest the one that holds more.
    pub fn clearest(&self) -> Option<&Group> {
        let key = |g: &&Group| (g.p.unwrap_or(f64::INFINITY), g.more_pg.is_none_or(|m| m < 0.0));
        let told = self.groups.iter().filter(|g| g.p.is_some());
        told.min_by(|a, b| {
            let ((pa, la), (pb, lb)) = (key(a), key(b));
            // Two of one direction differ by rounding.
            if (pa - pb).abs() <= 1e-9 * pa.max(pb) { la.cmp(&lb) } else { pa.total_cmp(&pb) }
        })
    }

    /// What came out, with the name of a group in words.
    pub fn says(&self, level: f64, name: impl Fn(&Group) -> Message) -> Message {
        let groups = count(self.tested);
        let Some(g) = self.clearest() else { return said::NotCompared.into() };
        let (Some(more), Some(u), Some(p)) = (g.more_pg, g.u_pg, g.p_over_all) else { return said::NotCompared.into() };
        let p = Shown::significant(p, 2, "");
        if self.stands_out(level).is_none() {
            return said::NoneStandsOut { groups, p }.into();
        }
        let decimals = decimals_for(u, 2);
        let (bottles, metal, u) =
            (count(g.bottles), Shown::decimals(more.abs(), decimals, "pg"), Shown::decimals(u, decimals, ""));
        let group = name(g);
        if more > 0.0 {
            said::HoldsMore { group, bottles, metal, u, groups, p }.into()
        } else {
            said::HoldsLess { group, bottles, metal, u, groups, p }.into()
        }
    }

    /// What counts as the water's because no blank met it, and what these bottles could show of it.
    pub fn rule(&self, not_met: Vec<Arg>) -> Message {
        let rule: Message =
            if not_met.is_empty() { said::AllMet.into() } else { said::NotMet { stages: not_met }.into() };
        let shows: Message = if self.in_samples().is_some() { said::VolumesDiffer.into() } else { said::Alike.into() };
        said::Rule { rule, shows }.into()
    }

    /// What the samples hold beyond water and sources, where their volumes tell it from the water.
    pub fn in_samples(&self) -> Option<&Group> {
        self.groups.iter().find(|g| g.by == BY_KIND && g.group == SAMPLES && g.more_pg.is_some())
    }
}

/// Compares every group of two bottles or more with the rest. A group is left out where it holds all bottles.
///
/// # Panics
/// When a grouping does not name every bottle of the survey, or the fit is of another survey.
pub fn unseen(survey: &Survey, fit: &Attribution, groupings: &[Grouping]) -> Unseen {
    let n = survey.bottles.len();
    assert!(fit.bottles.len() == n && groupings.iter().all(|g| g.groups.len() == n), "one entry a bottle");
    let test = Test::new(survey, fit);
    let (mut groups, mut tested): (Vec<Group>, Vec<(DVector<f64>, f64)>) = (vec![], vec![]);
    for grouping in groupings {
        let mut names: Vec<&String> = grouping.groups.iter().flatten().collect();
        names.sort();
        names.dedup();
        for name in names {
            let members: Vec<bool> = grouping.groups.iter().map(|g| g.as_ref() == Some(name)).collect();
            let bottles = members.iter().filter(|m| **m).count();
            if bottles < 2 || bottles == n {
                continue;
            }
            let found = test.departs(&members);
            let (more_pg, u_pg, p) = found
                .as_ref()
                .map_or((None, None, None), |d| (Some(d.more), Some(d.u), Some(t::two_sided_p(d.more / d.u, d.dof))));
            if let (Some(d), Some(p)) = (found, p) {
                match tested.iter_mut().find(|other| same_direction(&other.0, &d.direction)) {
                    Some(other) => other.1 = other.1.min(p),
                    None => tested.push((d.direction, p)),
                }
            }
            groups.push(Group {
                by: grouping.by.clone(),
                group: name.clone(),
                bottles,
                more_pg,
                u_pg,
                p,
                p_over_all: None,
            });
        }
    }
    let mut all: Vec<f64> = tested.iter().map(|d| d.1).collect();
    all.sort_by(f64::total_cmp);
    for g in &mut groups {
        g.p_over_all = g.p.map(|p| over_all(p, &all));
    }
    Unseen { groups, tested: tested.len() }
}

/// Holm's p of one among sorted ones.
fn over_all(p: f64, sorted: &[f64]) -> f64 {
    let m = sorted.len();
    let up_to_here = sorted.iter().enumerate().filter(|(_, q)| **q <= p);
    up_to_here.map(|(k, q)| (m - k) as f64 * q).fold(p, f64::max).min(1.0)
}

/// Two groups of one direction are each other's rest; what the mixture thinks of single bottles turns them a little.
fn same_direction(a: &DVector<f64>, b: &DVector<f64>) -> bool {
    let cosine = a.dot(b) / (a.norm() * b.norm());
    cosine.abs() > 0.99
}

/// What a group departs by.
struct Departs {
    more: f64,
    u: f64,
    dof: f64,
    /// The group's column with the design taken out, weighted evenly so that groups compare.
    direction: DVector<f64>,
}

struct Test {
    x: DMatrix<f64>,
    y: DVector<f64>,
    /// Variance of each bottle as a clean one.
    variance: Vec<f64>,
    clean: Vec<f64>,
    rank: usize,
}

/// Chance that clean work makes a group stand out, where nobody sets another.
// Common practice.
pub const LEVEL: f64 = 0.05;

/// A column of which less than this is left, once the design is taken out, cannot be told from it: volumes and exposures
/// are noted to three or four digits.
const LEAST_LEFT: f64 = 1e-6;

impl Test {
    fn new(s: &Survey, fit: &Attribution) -> Self {
        let waters: Vec<String> = fit.waters.iter().map(|w| w.name.clone()).collect();
        let design = Design::new(s, &waters);
        let r = s.recovery.0;
        let even = (fit.between_bottles_pg / r).powi(2);
        let variance = |(b, part): (&crate::attribution::Bottle, &crate::attribution::BottlePart)| {
            let other: f64 = part.sources_pg.iter().sum();
            (b.u_pg / r).powi(2) + even + (fit.between_bottles_share * other).powi(2)
        };
        Self {
            y: DVector::from_iterator(s.bottles.len(), s.bottles.iter().map(|b| b.mass_pg / r)),
            variance: s.bottles.iter().zip(&fit.bottles).map(variance).collect(),
            clean: fit.bottles.iter().map(|b| (1.0 - b.spike_probability).max(1e-9)).collect(),
            rank: design.rank,
            x: design.x,
        }
    }

    fn departs(&self, members: &[bool]) -> Option<Departs> {
        let (n, p) = (self.y.len(), self.x.ncols());
        let counts = |i: usize| if members[i] { 1.0 } else { self.clean[i] };
        let dof = (0..n).map(counts).sum::<f64>() - self.rank as f64 - 1.0;
        if dof < 1.0 {
            return None;
        }
        let root: Vec<f64> = (0..n).map(|i| (counts(i) / self.variance[i]).sqrt()).collect();
        let x = DMatrix::from_fn(n, p, |i, j| root[i] * self.x[(i, j)]);
        let column = |of: &dyn Fn(usize) -> f64| DVector::from_fn(n, |i, _| root[i] * of(i));
        let (y, z) = (column(&|i| self.y[i]), column(&|i| f64::from(u8::from(members[i]))));
        let inverse = pseudo_inverse(x.transpose() * &x);
        let rest = |v: &DVector<f64>| v - &x * (&inverse * (x.transpose() * v));
        let (left, residual) = (rest(&z), rest(&y));
        let square = left.dot(&left);
        if square <= LEAST_LEFT * z.dot(&z) {
            return None;
        }
        let more = left.dot(&residual) / square;
        let after = residual - &left * more;
        let model = after.dot(&after) / dof / square;
        let hat = &x * &inverse;
        let sandwich: f64 = (0..n)
            .map(|i| {
                let leverage = (hat.row(i).dot(&x.row(i)) + left[i] * left[i] / square).min(0.9);
                (left[i] / square * after[i] / (1.0 - leverage)).powi(2)
            })
            .sum();
        let u = model.max(sandwich).sqrt();
        // Weights differ from group to group by the spikes alone: undone, groups of one direction look alike.
        let direction = DVector::from_fn(n, |i, _| left[i] / root[i].max(1e-300) / self.variance[i].sqrt());
        (u > 0.0 && u.is_finite() && more.is_finite()).then_some(Departs { more, u, dof, direction })
    }
}

/// Samples and blanks of a survey, where nothing else is known of their kind.
pub fn by_kind(survey: &Survey) -> Grouping {
    let word = |k: Kind| if k == Kind::Sample { SAMPLES } else { "blank" };
    let groups = survey.bottles.iter().map(|b| Some(word(b.kind).to_string())).collect();
    Grouping { by: BY_KIND.into(), groups }
}
