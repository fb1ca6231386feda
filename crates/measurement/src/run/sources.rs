//! Independent sources of uncertainty and what a result owes to each.
//!
//! A quantity carries a row: for each source shared in the analyte, its sensitivity times the
//! source's standard uncertainty. Rows add like the quantities themselves, so whatever two
//! results share (line, drift checks, blank mean, dead time) stays correlated, and
//! u² = Σ row². Sources whose variance was estimated together form a pool; the
//! Welch–Satterthwaite formula ([`welch`]) is applied to pools, not to their members.

use super::result::{FewOf, KnownWorst};
use message::{Message, step_measurement as said};
use quantity::Contribution;
use statistics::welch;
use std::sync::LazyLock;

/// What a source is, for the budget.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Group {
    Replicates,
    BetweenVials,
    Dilution,
    Bottle,
    BlankMean,
    Line,
    Assigned,
    Drift,
    Interference,
    DeadTime,
    Analogue,
    Background,
    Recovery,
    Volume,
    Acid,
    DriftOpen,
}

impl Group {
    pub const COUNT: usize = 16;

    /// What each is, in the order of the groups.
    fn says() -> [Message; Self::COUNT] {
        [
            said::PartReplicates.into(),
            said::PartBetweenVials.into(),
            said::PartDilution.into(),
            said::PartBottle.into(),
            said::PartBlankMean.into(),
            said::PartLine.into(),
            said::PartAssigned.into(),
            said::PartDrift.into(),
            said::PartInterference.into(),
            said::PartDeadTime.into(),
            said::PartAnalogue.into(),
            said::PartBackground.into(),
            said::PartRecovery.into(),
            said::PartVolume.into(),
            said::PartAcid.into(),
            said::PartDriftOpen.into(),
        ]
    }
}

/// A contribution of each group, its words put together once: every result of a run has them.
static PARTS: LazyLock<[Contribution; Group::COUNT]> =
    LazyLock::new(|| Group::says().map(|says| Contribution::new(says, 0.0, 0.0)));

/// Variances estimated together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pool {
    /// Alone.
    None,
    /// The spread between vials, from the drift checks.
    Vials,
    /// The spread between blanks.
    Blanks,
}

/// What makes a source of one analyte the same error as a source of another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Key {
    /// The detector's dead time.
    DeadTime,
    /// The cross factor of the analogue mode.
    Analogue,
    /// Dilution of a standard, by its place in the table.
    StandardDilution(usize),
    /// Volume of a bottle, by the place of its first vial.
    Volume(usize),
    /// Acid in a bottle, by the place of its first vial.
    Acid(usize),
}

/// The shared sources of an analyte.
#[derive(Debug, Clone, Default)]
pub(super) struct Sources {
    /// What each shares with other analytes of the run; none for an error of this analyte alone.
    pub key: Vec<Option<Key>>,
    pub group: Vec<Group>,
    pub pool: Vec<Pool>,
    pub dof: Vec<f64>,
}

impl Sources {
    pub fn add(&mut self, group: Group, pool: Pool, dof: f64) -> usize {
        self.key.push(None);
        self.group.push(group);
        self.pool.push(pool);
        self.dof.push(dof);
        self.group.len() - 1
    }

    /// A source whose error other analytes of the run share.
    pub fn add_shared(&mut self, group: Group, pool: Pool, dof: f64, key: Key) -> usize {
        let source = self.add(group, pool, dof);
        self.key[source] = Some(key);
        source
    }

    /// Σ of the products of two rows of different analytes over what both share, in the order of the sources.
    pub fn covariance(&self, row: &[f64], other: &Self, other_row: &[f64]) -> f64 {
        let mut sum = 0.0;
        for (key, x) in self.key.iter().zip(row).filter(|(key, x)| key.is_some() && **x != 0.0) {
            for (_, y) in other.key.iter().zip(other_row).filter(|(other, _)| *other == key) {
                sum += x * y;
            }
        }
        sum
    }

    pub fn len(&self) -> usize {
        self.group.len()
    }
}

/// Adds up a variance by group and by pool.
#[derive(Debug, Clone)]
pub(super) struct Tally {
    pub variance: f64,
    pub by_group: [f64; Group::COUNT],
    /// Of each group the doubt about its parts that stand alone, and the variance and degrees of freedom of its pool.
    doubt_of_group: [(f64, f64, f64); Group::COUNT],
    alone: f64,
    /// Of the parts that stand alone the one in most doubt: its doubt, degrees of freedom, group.
    worst_alone: (f64, f64, Group),
    vials: (f64, f64),
    blanks: (f64, f64),
}

impl Tally {
    pub fn new() -> Self {
        Self {
            variance: 0.0,
            by_group: [0.0; Group::COUNT],
            doubt_of_group: [(0.0, 0.0, f64::INFINITY); Group::COUNT],
            alone: 0.0,
            worst_alone: (0.0, f64::INFINITY, Group::Replicates),
            vials: (0.0, f64::INFINITY),
            blanks: (0.0, f64::INFINITY),
        }
    }

    /// Adds a part of the variance.
    pub fn add(&mut self, group: Group, pool: Pool, dof: f64, variance: f64) {
        self.variance += variance;
        self.by_group[group as usize] += variance;
        let doubt = welch::welch_term(variance, dof);
        if pool == Pool::None && doubt > self.worst_alone.0 {
            self.worst_alone = (doubt, dof, group);
        }
        let of_group = &mut self.doubt_of_group[group as usize];
        match pool {
            Pool::None => of_group.0 += doubt,
            Pool::Vials | Pool::Blanks => *of_group = (of_group.0, of_group.1 + variance, dof),
        }
        self.add_welch_term(pool, dof, variance);
    }

    /// Degrees of freedom of a group, by Welch–Satterthwaite where it has several parts; none where infinite.
    fn dof_of_group(&self, group: usize) -> Option<f64> {
        let (alone, pooled, dof) = self.doubt_of_group[group];
        welch::dof_of(self.by_group[group], alone + welch::welch_term(pooled, dof)).filter(|d| d.is_finite())
    }

    /// Adds to the doubt about the variance alone, where an estimate enters with both signs.
    pub fn add_welch_term(&mut self, pool: Pool, dof: f64, variance: f64) {
        match pool {
            Pool::None => self.alone += welch::welch_term(variance, dof),
            Pool::Vials => self.vials = (self.vials.0 + variance, dof),
            Pool::Blanks => self.blanks = (self.blanks.0 + variance, dof),
        }
    }

    /// Adds a row of shared sources.
    pub fn add_row(&mut self, sources: &Sources, row: &[f64]) {
        for (j, c) in row.iter().enumerate() {
            if *c != 0.0 {
                self.add(sources.group[j], sources.pool[j], sources.dof[j], c * c);
            }
        }
    }

    pub fn u(&self) -> f64 {
        self.variance.sqrt()
    }

    /// u⁴/ν of the whole, of the spread between vials, of the spread between blanks.
    fn welch_terms(&self) -> [f64; 3] {
        let pooled = |(v, dof): (f64, f64)| welch::welch_term(v, dof);
        let (vials, blanks) = (pooled(self.vials), pooled(self.blanks));
        [self.alone + vials + blanks, vials, blanks]
    }

    /// Effective degrees of freedom; infinite where every part is well known.
    pub fn dof(&self) -> f64 {
        self.dof_at(self.welch_terms()[0])
    }

    fn dof_at(&self, doubt: f64) -> f64 {
        welch::dof_of(self.variance, doubt).unwrap_or(f64::INFINITY).max(1.0)
    }

    /// The part whose few values put most doubt into u; `coverage` is that of the interval.
    pub fn known_worst(&self, coverage: f64) -> Option<KnownWorst> {
        let [doubt, vials, blanks] = self.welch_terms();
        let (alone, alone_dof, group) = self.worst_alone;
        let few = match group {
            Group::Replicates | Group::Line | Group::Drift => FewOf::Replicates,
            Group::Recovery => FewOf::Spikes,
            _ => FewOf::Others,
        };
        let (term, dof, few) = [
            (blanks, self.blanks.1, FewOf::Blanks),
            (vials, self.vials.1, FewOf::DriftChecks),
            (alone, alone_dof, few),
        ]
        .into_iter()
        .reduce(|a, b| if b.0 > a.0 { b } else { a })?;
        (term > 0.0).then(|| {
            let then = self.dof_at(doubt - term / (dof + 1.0));
            KnownWorst { few, dof, one_more_k: statistics::t::upper_quantile((1.0 - coverage) / 2.0, then) }
        })
    }

    /// The budget, largest share first; shares add up to 1.
    pub fn budget(&self) -> Vec<Contribution> {
        let mut order: Vec<usize> = (0..Group::COUNT).filter(|g| self.by_group[*g] > 0.0).collect();
        order.sort_by(|a, b| self.by_group[*b].total_cmp(&self.by_group[*a]).then(a.cmp(b)));
        order
            .into_iter()
            .map(|g| Contribution {
                u: self.by_group[g].sqrt(),
                share: self.by_group[g] / self.variance,
                dof: self.dof_of_group(g),
                ..PARTS[g].clone()
            })
            .collect()
    }
}

/// `to += factor · from`.
pub(super) fn add_scaled(to: &mut [f64], factor: f64, from: &[f64]) {
    for (t, f) in to.iter_mut().zip(from) {
        *t += factor * f;
    }
}
