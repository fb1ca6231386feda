//! What two amounts say of their ratio, with non-detects held as bounds and never as numbers.
//!
//! In: two amounts in one unit. Out: the ratio a/b with Fieller's 95 % interval and the one-sided
//! 95 % bounds on which a sentence stands: it is supported where the bound reaches it, contradicted
//! where the other bound stops short of it. Degrees of freedom by Welch–Satterthwaite at the ratio
//! found, so that the test and the bound are one and the same.
//!
//! A non-detect lies between zero and its bound, a reading over range above its limit; a value
//! without u says nothing of a ratio. Concentrations are not negative: bounds under zero are zero, and
//! a net value at or under zero counts as zero with its own u, since taken as a number it would turn the
//! ratio round. One side is left of such a ratio: with a true b of zero or more, a − ρ·max(b, 0) lies at or
//! under a − ρ·b, so the lower bound of the ratio errs to the side that claims less; likewise the upper
//! bound with max(a, 0).
//! Two bounds of 95 % each hold together with at least 90 %. Checked in `tests/claim.rs`, `tests/claim_cases.rs`.

use super::words::Word;
use message::{Message, claim};
use quantity::{Amount, Measured};
use statistics::bound::{SIDE, upper_bound};
use statistics::fieller::{Interval, Pair, interval};
use statistics::t;
use statistics::welch::effective_dof;

/// Which of the two amounts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Which {
    A,
    B,
}

/// Why a ratio is known less well than by two numbers with u.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Obstacle {
    NoU(Which),
    NonDetect(Which),
    OverRange(Which),
    /// Not distinct from zero: b leaves the ratio no upper limit, a no lower limit over zero.
    NotFromZero(Which),
}

/// What is known of a/b.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Core {
    pub point: Option<f64>,
    /// Two-sided 95 %.
    pub interval: [Option<f64>; 2],
    /// One-sided 95 % bounds.
    pub at_least: Option<f64>,
    pub at_most: Option<f64>,
    pub obstacles: Vec<Obstacle>,
    /// Bounds of the two amounts were put together, each of which holds with 95 %.
    put_together: bool,
    exact: Option<(Pair, f64)>,
}

pub(crate) fn core(a: &Amount, b: &Amount, covariance: f64) -> Core {
    if let (Amount::Measured(a), Amount::Measured(b)) = (a, b) {
        return if a.value > 0.0 && b.value > 0.0 { measured(a, b, covariance) } else { one_sided(a, b, covariance) };
    }
    let mut obstacles = vec![];
    for (which, amount) in [(Which::A, a), (Which::B, b)] {
        match amount {
            Amount::Stated(_) => obstacles.push(Obstacle::NoU(which)),
            Amount::Below(_) => obstacles.push(Obstacle::NonDetect(which)),
            Amount::Above(_) => obstacles.push(Obstacle::OverRange(which)),
            Amount::Measured(m) if m.value <= 0.0 => obstacles.push(Obstacle::NonDetect(which)),
            Amount::Measured(_) => {}
        }
    }
    let (low_a, high_a) = bounds(a);
    let (low_b, high_b) = bounds(b);
    let quotient = |over: Option<f64>, under: Option<f64>| match (over, under) {
        (Some(o), Some(u)) if u > 0.0 => Some(o / u),
        _ => None,
    };
    let at_least = quotient(low_a, high_b).filter(|x| *x > 0.0);
    let at_most = quotient(high_a, low_b);
    let point = quotient(a.value(), b.value()).filter(|x| *x > 0.0);
    Core { point, interval: [at_least, at_most], at_least, at_most, obstacles, put_together: true, exact: None }
}

/// One of the two is a net value at or under zero, or both: at most one bound is left.
fn one_sided(a: &Measured, b: &Measured, covariance: f64) -> Core {
    let pair = Pair { a: a.value.max(0.0), u_a: a.u, b: b.value.max(0.0), u_b: b.u, covariance };
    // There is no ratio at which the two u could be weighed: the fewer degrees of freedom of those that count.
    let dof = [a, b].into_iter().filter(|m| m.u > 0.0).map(|m| m.dof).fold(f64::INFINITY, f64::min);
    let [at_least, at_most] = ends(interval(&pair, t::upper_quantile(SIDE, dof)));
    let at_least = at_least.filter(|x| *x > 0.0 && a.value > 0.0);
    let at_most = at_most.filter(|_| b.value > 0.0);
    let under = [(Which::A, a), (Which::B, b)].into_iter().filter(|(_, m)| m.value <= 0.0);
    Core {
        point: None,
        interval: [at_least, at_most],
        at_least,
        at_most,
        obstacles: under.map(|(which, _)| Obstacle::NonDetect(which)).collect(),
        put_together: false,
        exact: None,
    }
}

fn measured(a: &Measured, b: &Measured, covariance: f64) -> Core {
    let pair = Pair { a: a.value, u_a: a.u, b: b.value, u_b: b.u, covariance };
    let point = a.value / b.value;
    let dof = dof_at(a, b, point);
    let (one, two) = (t::upper_quantile(SIDE, dof), t::upper_quantile(SIDE / 2.0, dof));
    let [at_least, at_most] = ends(interval(&pair, one));
    let both = ends(interval(&pair, two));
    let at_least = at_least.filter(|x| *x > 0.0);
    let open = [(Which::A, at_least.is_none()), (Which::B, both[1].is_none())].into_iter();
    let obstacles = open.filter(|(_, open)| *open).map(|(which, _)| Obstacle::NotFromZero(which)).collect();
    Core {
        point: point.is_finite().then_some(point),
        interval: both,
        at_least,
        at_most,
        obstacles,
        put_together: false,
        exact: Some((pair, dof)),
    }
}

/// Ends of the interval for quantities that are not negative.
fn ends(i: Interval) -> [Option<f64>; 2] {
    match i {
        Interval::Bounded { low, high } => [Some(low.max(0.0)), Some(high.max(0.0))],
        // A denominator exactly at the edge may leave the negative side alone.
        Interval::AtLeast { above, .. } if above.is_finite() => [Some(above.max(0.0)), None],
        Interval::AtLeast { .. } | Interval::Unbounded => [None, None],
    }
}

/// Degrees of freedom of a − ρ·b.
fn dof_at(a: &Measured, b: &Measured, ratio: f64) -> f64 {
    let r = if ratio.is_finite() { ratio } else { 0.0 };
    effective_dof(&[(a.u * a.u, a.dof), ((r * b.u).powi(2), b.dof)]).unwrap_or(f64::INFINITY)
}

/// Lower and upper bound of an amount, each with 95 %; none where nothing bounds it.
pub(crate) fn bounds(a: &Amount) -> (Option<f64>, Option<f64>) {
    bounds_above(a, None)
}

/// The same with the upper bound never under the critical value that the amount was held against, in its unit.
pub(crate) fn bounds_above(a: &Amount, critical_value: Option<f64>) -> (Option<f64>, Option<f64>) {
    match a {
        Amount::Measured(m) => {
            let high = upper_bound(m.value, m.u, m.dof, critical_value);
            (bounds_at(a, SIDE).0, Some(high))
        }
        other => bounds_at(other, SIDE),
    }
}

/// Lower and upper bound, each holding but for `side`: max(net, 0) ± t(1 − side, ν)·u of a measured amount. What a
/// laboratory gives as a bound stands as it is, whatever it was made to hold with.
pub(crate) fn bounds_at(a: &Amount, side: f64) -> (Option<f64>, Option<f64>) {
    match a {
        Amount::Measured(m) => {
            let half = t::upper_quantile(side, m.dof) * m.u;
            (Some((m.value - half).max(0.0)), Some(m.value.max(0.0) + half))
        }
        Amount::Stated(_) => (None, None),
        Amount::Below(b) => (Some(0.0), Some(b.limit)),
        Amount::Above(b) => (Some(b.limit), None),
    }
}

impl Core {
    /// Nothing is known.
    pub fn open() -> Self {
        Self {
            point: None,
            interval: [None, None],
            at_least: None,
            at_most: None,
            obstacles: vec![],
            put_together: false,
            exact: None,
        }
    }

    /// What holds against every a of a range, from the ratios against its ends.
    pub fn up_to(&self, high: &Self, point: Option<f64>) -> Self {
        Self {
            point,
            interval: [self.interval[0], high.interval[1]],
            at_least: self.at_least,
            at_most: high.at_most,
            obstacles: self.obstacles.clone(),
            put_together: true,
            exact: None,
        }
    }

    /// Whether the interval is Fieller's, of both sides at once.
    pub fn is_of_both_sides(&self) -> bool {
        self.exact.is_some()
    }

    /// Probability that a/b is at least `factor`; none where a bound takes the place of a number.
    pub fn probability(&self, factor: f64) -> Option<f64> {
        let (p, dof) = self.exact?;
        let var = p.variance_at(factor);
        let gap = p.a - factor * p.b;
        if var <= 0.0 {
            return Some(f64::from(u8::from(gap >= 0.0)));
        }
        Some(t::cdf(gap / var.sqrt(), dof))
    }

    /// Does a/b reach the factor?
    pub fn reaches(&self, factor: f64) -> super::Answer {
        use super::Answer::{CannotTell, Contradicted, Supported};
        if self.at_least.is_some_and(|x| x >= factor) {
            Supported
        } else if self.at_most.is_some_and(|x| x < factor) {
            Contradicted
        } else {
            CannotTell
        }
    }

    /// Is a the larger?
    pub fn exceeds_one(&self) -> super::Answer {
        use super::Answer::{CannotTell, Contradicted, Supported};
        if self.at_least.is_some_and(|x| x > 1.0) {
            Supported
        } else if self.at_most.is_some_and(|x| x <= 1.0) {
            Contradicted
        } else {
            CannotTell
        }
    }

    /// What stands in the way; `a` and `b` are the names.
    pub fn in_the_way(&self, a: &Word, b: &Word) -> Vec<Message> {
        let name = |w: Which| if w == Which::A { a.clone() } else { b.clone() };
        let mut out: Vec<Message> = self
            .obstacles
            .iter()
            .map(|t| match *t {
                Obstacle::NoU(w) => claim::NoU { name: name(w) }.into(),
                Obstacle::NonDetect(Which::A) => claim::NotFoundOver { name: a.clone() }.into(),
                Obstacle::NonDetect(Which::B) => claim::NotFoundUnder { name: b.clone() }.into(),
                Obstacle::OverRange(w) => claim::OverRange { name: name(w) }.into(),
                Obstacle::NotFromZero(Which::A) => claim::NotFromZeroOver { name: a.clone() }.into(),
                Obstacle::NotFromZero(Which::B) => claim::NotFromZero { name: b.clone() }.into(),
            })
            .collect();
        if !self.obstacles.is_empty() && self.put_together && (self.at_least.is_some() || self.at_most.is_some()) {
            out.push(claim::TwoBounds.into());
        }
        out
    }
}
