//! What two amounts say of their ratio, with non-detects held as bounds and never as numbers.
//!
//! In: two amounts in one unit. Out: the ratio a/b with Fieller's 95 % interval and the one-sided
//! 95 % bounds on which a sentence stands: it is supported where the bound reaches it, contradicted
//! where the other bound stops short of it. Degrees of freedom by Welch–Satterthwaite at the ratio
//! found, so that the test and the bound are one and the same.
//!
//! A non-detect lies between zero and its bound, a reading over range above its limit; a value
//! without u says nothing of a ratio. Concentrations are not negative: bounds under zero are zero, and
//! a net value at or under zero is a non-detect, bounded by `statistics::bound`; taken as a number it
//! would turn the ratio round.
//! Two bounds of 95 % each hold together with at least 90 %. Checked in `tests/claim.rs`.

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
    /// b is not distinct from zero: no upper limit.
    NotFromZero,
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
    exact: Option<(Pair, f64)>,
}

pub(crate) fn core(a: &Amount, b: &Amount, covariance: f64) -> Core {
    if let (Amount::Measured(a), Amount::Measured(b)) = (a, b)
        && a.value > 0.0
        && b.value > 0.0
    {
        return measured(a, b, covariance);
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
    Core { point, interval: [at_least, at_most], at_least, at_most, obstacles, exact: None }
}

fn measured(a: &Measured, b: &Measured, covariance: f64) -> Core {
    let pair = Pair { a: a.value, u_a: a.u, b: b.value, u_b: b.u, covariance };
    let point = a.value / b.value;
    let dof = dof_at(a, b, point);
    let (one, two) = (t::upper_quantile(SIDE, dof), t::upper_quantile(SIDE / 2.0, dof));
    let [at_least, at_most] = ends(interval(&pair, one));
    let both = ends(interval(&pair, two));
    let obstacles = if both[1].is_none() { vec![Obstacle::NotFromZero] } else { vec![] };
    Core {
        point: point.is_finite().then_some(point),
        interval: both,
        at_least: at_least.filter(|x| *x > 0.0),
        at_most,
        obstacles,
        exact: Some((pair, dof)),
    }
}

/// Ends of the interval for quantities that are not negative.
fn ends(i: Interval) -> [Option<f64>; 2] {
    match i {
        Interval::Bounded { low, high } => [Some(low.max(0.0)), Some(high.max(0.0))],
        Interval::AtLeast { above, .. } => [Some(above.max(0.0)), None],
        Interval::Unbounded => [None, None],
    }
}

/// Degrees of freedom of a − ρ·b.
fn dof_at(a: &Measured, b: &Measured, ratio: f64) -> f64 {
    let r = if ratio.is_finite() { ratio } else { 0.0 };
    effective_dof(&[(a.u * a.u, a.dof), ((r * b.u).powi(2), b.dof)]).unwrap_or(f64::INFINITY)
}

/// Lower and upper bound of an amount, each with 95 %; none where nothing bounds it.
pub(crate) fn bounds(a: &Amount) -> (Option<f64>, Option<f64>) {
    match a {
        Amount::Measured(m) => {
            let low = m.value - t::upper_quantile(SIDE, m.dof) * m.u;
            (Some(low.max(0.0)), Some(upper_bound(m.value, m.u, m.dof, None)))
        }
        Amount::Stated(_) => (None, None),
        Amount::Below(b) => (Some(0.0), Some(b.limit)),
        Amount::Above(b) => (Some(b.limit), None),
    }
}

impl Core {
    /// What holds against every a of a range, from the ratios against its ends.
    pub fn up_to(&self, high: &Self, point: Option<f64>) -> Self {
        Self {
            point,
            interval: [self.interval[0], high.interval[1]],
            at_least: self.at_least,
            at_most: high.at_most,
            obstacles: self.obstacles.clone(),
            exact: None,
        }
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
                Obstacle::NotFromZero => claim::NotFromZero { name: b.clone() }.into(),
            })
            .collect();
        if !self.obstacles.is_empty() && self.exact.is_none() && (self.at_least.is_some() || self.at_most.is_some()) {
            out.push(claim::TwoBounds.into());
        }
        out
    }
}
