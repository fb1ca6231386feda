//! Does one quantity rise with another, when values are tied or known only as "below"?
//! In: two lists of readings of one length (times or group marks on one side, values on the
//! other); out: Kendall's S, tau-b, the exact permutation variance of S, and p. No units.
//!
//! A pair counts +1 or −1 where the order is certain and 0 where it is not: equal values, two
//! non-detects, or a value under a non-detect's limit. "< L" lies below a value of L.
//! Pairs are counted in O(n log n) through two Fenwick trees, not one by one.
//!
//! Sources: Kendall (1938) Biometrika 30:81; Mann (1945) Econometrica 13:245; variance of a sum of products of
//! antisymmetric scores under permutation: Daniels (1944) Biometrika 33:129 (from memory; checked
//! by enumeration in `tests/brute_force.rs`): it holds for ties and non-detects alike and turns
//! into n(n−1)(2n+5)/18 without them. What it does not do: it assumes that (value, limit) pairs
//! are exchangeable in time; a limit that moved in step with time is reported by `trend`.

use crate::Reading;
use message::{Message, series as said};
use rand::{SeedableRng, rngs::ChaCha8Rng, seq::SliceRandom};
use rayon::prelude::*;
use std::collections::BTreeMap;

/// Both ends of each reading as whole numbers in the order of their size: `a` is surely above
/// `b` where `low(a) > high(b)`.
#[derive(Debug, Clone)]
pub struct Codes {
    low: Vec<u32>,
    high: Vec<u32>,
}

impl Codes {
    /// Codes of readings.
    pub fn of(readings: &[Reading]) -> Self {
        // Adding 0.0 turns −0.0 into 0.0, so that the two count as equal.
        let mut order: Vec<(u64, u32)> =
            readings.iter().zip(0..).map(|(r, i)| (ordered_bits(r.bound() + 0.0), i)).collect();
        order.sort_unstable();
        let mut low = vec![0; readings.len()];
        let mut high = vec![0; readings.len()];
        let (mut rank, mut last) = (0, None);
        for (bits, i) in order {
            if last != Some(bits) {
                rank += 2;
                last = Some(bits);
            }
            let i = i as usize;
            (low[i], high[i]) = if readings[i].is_known() { (rank, rank) } else { (0, rank - 1) };
        }
        Self { low, high }
    }

    /// Codes of plain numbers.
    pub fn of_values(values: &[f64]) -> Self {
        let readings: Vec<Reading> = values.iter().map(|v| Reading::Known(*v)).collect();
        Self::of(&readings)
    }

    /// Number of readings.
    pub fn len(&self) -> usize {
        self.low.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.low.is_empty()
    }

    /// +1 where reading `i` is surely above reading `j`, −1 where surely below, else 0.
    pub fn sign(&self, i: usize, j: usize) -> i64 {
        i64::from(self.low[i] > self.high[j]) - i64::from(self.low[j] > self.high[i])
    }

    /// For each reading: how many are surely below it minus how many surely above; and the
    /// number of ordered pairs whose order is certain.
    pub fn row_sums(&self) -> (Vec<i64>, i64) {
        let below = counts_up_to(&self.high);
        let up_to = counts_up_to(&self.low);
        let n = self.len() as i64;
        let mut certain = 0;
        let sums = (0..self.len())
            .map(|i| {
                let low = self.low[i] as usize;
                let below = if low == 0 { 0 } else { below[(low - 1).min(below.len() - 1)] };
                let above = n - up_to[(self.high[i] as usize).min(up_to.len() - 1)];
                certain += below + above;
                below - above
            })
            .collect();
        (sums, certain)
    }

    fn permuted(&self, order: &[u32]) -> Self {
        Self {
            low: order.iter().map(|i| self.low[*i as usize]).collect(),
            high: order.iter().map(|i| self.high[*i as usize]).collect(),
        }
    }
}

/// How many codes are at or below each number from 0 to the highest code.
fn counts_up_to(codes: &[u32]) -> Vec<i64> {
    let highest = codes.iter().copied().max().unwrap_or(0) as usize;
    let mut counts = vec![0; highest + 1];
    for c in codes {
        counts[*c as usize] += 1;
    }
    let mut sum = 0;
    for c in &mut counts {
        sum += *c;
        *c = sum;
    }
    counts
}

/// Bits of a float in the order of its size.
pub(crate) fn ordered_bits(z: f64) -> u64 {
    let bits = z.to_bits();
    if bits >> 63 == 1 { !bits } else { bits | 1 << 63 }
}

/// Counts of codes up to a bound, in O(log n) each.
struct Fenwick(Vec<u32>);

impl Fenwick {
    fn add(&mut self, code: u32) {
        let mut i = code as usize + 1;
        while i < self.0.len() {
            self.0[i] += 1;
            i += i & i.wrapping_neg();
        }
    }

    /// How many codes are at or below `code`.
    fn up_to(&self, code: u32) -> u32 {
        let mut i = code as usize + 1;
        let mut sum = 0;
        while i > 0 {
            sum += self.0[i];
            i &= i - 1;
        }
        sum
    }
}

/// Kendall's S: pairs in the same order minus pairs in opposite order.
pub fn s_statistic(a: &Codes, b: &Codes) -> i64 {
    let n = a.len();
    let mut by_high: Vec<u32> = (0..n as u32).collect();
    let mut by_low = by_high.clone();
    by_high.sort_unstable_by_key(|i| a.high[*i as usize]);
    by_low.sort_unstable_by_key(|i| a.low[*i as usize]);
    let size = b.high.iter().copied().max().unwrap_or(0) as usize + 3;
    let mut highs = Fenwick(vec![0; size]);
    let mut lows = Fenwick(vec![0; size]);
    let (mut next, mut s) = (0, 0_i64);
    for j in by_low {
        let j = j as usize;
        while next < n && a.high[by_high[next] as usize] < a.low[j] {
            let i = by_high[next] as usize;
            highs.add(b.high[i]);
            lows.add(b.low[i]);
            next += 1;
        }
        if b.low[j] > 0 {
            s += i64::from(highs.up_to(b.low[j] - 1));
        }
        s -= next as i64 - i64::from(lows.up_to(b.high[j]));
    }
    s
}

/// The pieces of the permutation variance on one side.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Moments {
    /// Sum of the squares of the row sums of the scores.
    pub(crate) squares_of_sums: f64,
    /// Sum of the squares of the scores: where they are −1, 0, 1 the number of ordered pairs of a
    /// certain order.
    pub(crate) certain: f64,
}

fn moments(c: &Codes) -> Moments {
    let (sums, certain) = c.row_sums();
    Moments { squares_of_sums: sums.iter().map(|r| (*r as f64) * (*r as f64)).sum(), certain: certain as f64 }
}

/// Variance of S from the scores of both sides (Daniels 1944, see the head).
pub(crate) fn variance_from(n: usize, a: Moments, b: Moments) -> f64 {
    let n = n as f64;
    if n < 2.0 {
        return 0.0;
    }
    let pairs = a.certain * b.certain / (2.0 * n * (n - 1.0));
    if n < 3.0 {
        return pairs;
    }
    pairs + (a.squares_of_sums - a.certain) * (b.squares_of_sums - b.certain) / (n * (n - 1.0) * (n - 2.0))
}

/// Variance of S over all permutations of one side against the other.
pub fn s_variance(a: &Codes, b: &Codes) -> f64 {
    variance_from(a.len(), moments(a), moments(b))
}

/// Where a p-value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PFrom {
    /// All arrangements counted.
    Exact,
    /// Normal approximation with the permutation variance and a continuity correction of 1.
    Normal,
    /// So many random arrangements (the observed one counted in).
    Permutation {
        /// Number of arrangements drawn.
        draws: u32,
    },
}

impl PFrom {
    /// As a message.
    pub fn said(self) -> Message {
        match self {
            Self::Exact => said::PExact.into(),
            Self::Normal => said::PNormal.into(),
            Self::Permutation { draws } => said::PArrangements { draws: draws.into() }.into(),
        }
    }
}

/// How to find p.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum PChoice {
    /// Exact where it can be counted cheaply, else normal.
    #[default]
    Best,
    /// Normal approximation always.
    Normal,
    /// Random arrangements.
    Permutation {
        /// How many.
        draws: u32,
        /// Seed of the counter-based random stream.
        seed: u64,
    },
}

/// The distribution of S over all arrangements: `probability[k]` of S = k − `offset`.
#[derive(Debug, Clone)]
pub struct NullDistribution {
    offset: i64,
    probability: Vec<f64>,
}

impl NullDistribution {
    /// S is zero for certain: where a sum of distributions starts.
    pub fn certain_zero() -> Self {
        Self { offset: 0, probability: vec![1.0] }
    }

    /// From how often each S from −`offset` on was counted.
    pub(crate) fn counted(offset: usize, counts: &[u32]) -> Self {
        let total: f64 = counts.iter().map(|c| f64::from(*c)).sum();
        Self { offset: offset as i64, probability: counts.iter().map(|c| f64::from(*c) / total).collect() }
    }

    /// P(|S| ≥ |s|).
    pub fn two_sided(&self, s: i64) -> f64 {
        let s = s.abs();
        let p: f64 = self
            .probability
            .iter()
            .enumerate()
            .filter(|(k, _)| (*k as i64 - self.offset).abs() >= s)
            .map(|(_, p)| p)
            .sum();
        p.min(1.0)
    }

    /// P(S ≥ s).
    pub fn upper(&self, s: i64) -> f64 {
        let from = (s + self.offset).clamp(0, self.probability.len() as i64) as usize;
        self.probability[from..].iter().sum::<f64>().min(1.0)
    }

    /// The smallest c with P(|S| > c) ≤ alpha.
    pub fn critical(&self, alpha: f64) -> i64 {
        let reach = self.offset.max(self.probability.len() as i64 - 1 - self.offset);
        let mut c = reach;
        while c > 0 && self.two_sided(c) <= alpha {
            c -= 1;
        }
        c
    }

    /// The distribution of the sum of two independent S; `None` where it would be long to count.
    pub fn plus(&self, other: &Self) -> Option<Self> {
        if self.probability.len() as f64 * other.probability.len() as f64 > EXACT_BUDGET {
            return None;
        }
        let mut probability = vec![0.0; self.probability.len() + other.probability.len() - 1];
        for (i, p) in self.probability.iter().enumerate() {
            for (j, q) in other.probability.iter().enumerate() {
                probability[i + j] += p * q;
            }
        }
        Some(Self { offset: self.offset + other.offset, probability })
    }
}

/// Work that one exact count may cost, in additions: a few ms.
const EXACT_BUDGET: f64 = 2e6;
/// Up to this n a series without ties is counted exactly: beyond, the normal approximation with
/// continuity correction agrees to under 0.001 in p.
const EXACT_UNTIED_N: usize = 40;

/// The exact distribution of S over all arrangements of `b` against `a`, where it can be counted
/// cheaply: without ties up to n = 40; with ties and non-detects on either side as long as the
/// number of partial arrangements stays small (n up to 12 or so, far more where most values are
/// tied).
pub fn exact_distribution(a: &Codes, b: &Codes) -> Option<NullDistribution> {
    let n = a.len();
    if n < 2 {
        return Some(NullDistribution { offset: 0, probability: vec![1.0] });
    }
    if is_strict(a) && is_strict(b) {
        return (n <= EXACT_UNTIED_N).then(|| inversions(n));
    }
    // The side placed in order must have plain ties only; the other may hold non-detects.
    let plain = |c: &Codes| c.low == c.high;
    let mut found = None;
    if plain(a) {
        found = two_groups(a, b).or_else(|| count_arrangements(a, b));
    }
    if found.is_none() && plain(b) {
        found = two_groups(b, a).or_else(|| count_arrangements(b, a));
    }
    found
}

/// Two groups in `a`: S is the sum of the second group's row sums, so its distribution is that of
/// the sum of so many scores drawn from all.
fn two_groups(a: &Codes, b: &Codes) -> Option<NullDistribution> {
    let lowest = a.low.iter().min()?;
    let second = a.low.iter().filter(|c| *c != lowest).count();
    let highest = a.low.iter().max()?;
    if a.low.iter().any(|c| c != lowest && c != highest) {
        return None;
    }
    let n = a.len();
    let width = 2 * second * n + 1;
    if (n * second * width) as f64 > EXACT_BUDGET {
        return None;
    }
    let middle = second * n;
    let mut ways = vec![vec![0.0; width]; second + 1];
    ways[0][middle] = 1.0;
    for (i, score) in b.row_sums().0.into_iter().enumerate() {
        for taken in (0..second.min(i + 1)).rev() {
            let (now, next) = ways.split_at_mut(taken + 1);
            // So many scores reach no further than this from the middle.
            let reach = taken * n;
            for k in middle - reach..=middle + reach {
                next[0][(k as i64 + score) as usize] += now[taken][k];
            }
        }
    }
    let mut probability = ways.pop()?;
    let total: f64 = probability.iter().sum();
    for p in &mut probability {
        *p /= total;
    }
    Some(NullDistribution { offset: middle as i64, probability })
}

fn is_strict(c: &Codes) -> bool {
    let mut low = c.low.clone();
    low.sort_unstable();
    c.low == c.high && low.windows(2).all(|w| w[0] < w[1])
}

/// Distribution of S of n untied values: the number of inversions, placed one value at a time.
fn inversions(n: usize) -> NullDistribution {
    let mut p = vec![1.0];
    for m in 2..=n {
        let mut next = vec![0.0; p.len() + m - 1];
        for (k, x) in p.iter().enumerate() {
            for slot in &mut next[k..k + m] {
                *slot += x / m as f64;
            }
        }
        p = next;
    }
    // S = N − 2·inversions: spread out to every second place.
    let pairs = n * (n - 1) / 2;
    let mut probability = vec![0.0; 2 * pairs + 1];
    for (k, x) in p.into_iter().enumerate() {
        probability[2 * pairs - 2 * k] = x;
    }
    NullDistribution { offset: pairs as i64, probability }
}

struct Classes {
    counts: Vec<usize>,
    sign: Vec<Vec<i64>>,
    /// What one more of a class adds to the number of a state.
    stride: Vec<usize>,
}

/// Of each class of `b` its first member and how many there are.
fn members(b: &Codes) -> (Vec<usize>, Vec<usize>) {
    let mut of: BTreeMap<(u32, u32), (usize, usize)> = BTreeMap::new();
    for i in 0..b.len() {
        of.entry((b.low[i], b.high[i])).or_insert((i, 0)).1 += 1;
    }
    of.into_values().unzip()
}

impl Classes {
    fn of(b: &Codes, first: &[usize], counts: Vec<usize>) -> Self {
        let mut stride = vec![1; counts.len()];
        for k in (1..counts.len()).rev() {
            stride[k - 1] = stride[k] * (counts[k] + 1);
        }
        Self { counts, stride, sign: first.iter().map(|i| first.iter().map(|j| b.sign(*i, *j)).collect()).collect() }
    }
}

/// Counts S over all arrangements by placing one group of equal `a` after the other; a state is
/// how many of each class of `b` are already placed.
fn count_arrangements(a: &Codes, b: &Codes) -> Option<NullDistribution> {
    let n = a.len();
    let mut groups: BTreeMap<u32, usize> = BTreeMap::new();
    for code in &a.low {
        *groups.entry(*code).or_default() += 1;
    }
    let groups: Vec<usize> = groups.into_values().collect();
    let (first, counts) = members(b);
    let pairs = n * (n - 1) / 2;
    let states: f64 = counts.iter().map(|t| *t as f64 + 1.0).product();
    let largest = *groups.iter().max()?;
    // A group of g places can be filled in up to C(g + classes − 1, g) ways.
    let ways = (1..=largest).fold(1.0, |w, g| w * (counts.len() + g - 1) as f64 / g as f64);
    if states * ways * (pairs + 1) as f64 > EXACT_BUDGET {
        return None;
    }
    let c = Classes::of(b, &first, counts);
    // States by their number, the first class its highest digit.
    let mut layer = BTreeMap::from([(0, State::nothing(&c))]);
    for size in groups {
        let mut next: BTreeMap<usize, State> = BTreeMap::new();
        for (number, state) in &layer {
            for step in steps(&c, state, size) {
                let target = next
                    .entry(number + step.ahead)
                    .or_insert_with(|| state.with(&c, number + step.ahead))
                    .weights
                    .as_mut_slice();
                let first = (target.len() / 2).saturating_add_signed(step.shift) - state.weights.len() / 2;
                for (t, w) in target[first..].iter_mut().zip(&state.weights) {
                    *t += w * step.ways;
                }
            }
        }
        layer = next;
    }
    let all = layer.into_values().next()?.weights;
    let mut probability = vec![0.0; 2 * pairs + 1];
    let first = pairs - all.len() / 2;
    probability[first..first + all.len()].copy_from_slice(&all);
    let total: f64 = probability.iter().sum();
    for p in &mut probability {
        *p /= total;
    }
    Some(NullDistribution { offset: pairs as i64, probability })
}

/// A way to fill a group: the state that it leads to, what it adds to S, and in how many ways it can be done.
struct Step {
    ahead: usize,
    shift: isize,
    ways: f64,
}

fn steps(c: &Classes, from: &State, size: usize) -> Vec<Step> {
    let free = |k: usize| c.counts[k] - from.used[k];
    if size == 1 {
        return (0..from.used.len())
            .filter(|k| free(*k) > 0)
            .map(|k| Step { ahead: c.stride[k], shift: from.against[k], ways: free(k) as f64 })
            .collect();
    }
    let step = |fill: Vec<usize>| {
        let mut step = Step { ahead: 0, shift: 0, ways: 1.0 };
        for (k, m) in fill.iter().enumerate().filter(|(_, m)| **m > 0) {
            step.ahead += m * c.stride[k];
            step.shift += *m as isize * from.against[k];
            step.ways *= (0..*m).fold(1.0, |w, i| w * (free(k) - i) as f64 / (i + 1) as f64);
        }
        step
    };
    fills(&from.used, &c.counts, size).into_iter().map(step).collect()
}

/// What is placed already.
struct State {
    /// How many of each class.
    used: Vec<usize>,
    /// What one more of each class adds to S.
    against: Vec<isize>,
    /// Weights of S from −reach to reach, which is all that the placed pairs of a certain order can make of it.
    weights: Vec<f64>,
}

impl State {
    fn nothing(c: &Classes) -> Self {
        Self { used: vec![0; c.counts.len()], against: vec![0; c.counts.len()], weights: vec![1.0] }
    }

    /// The state of this number, which has more of some classes than this one, without weights yet.
    fn with(&self, c: &Classes, number: usize) -> Self {
        let (mut used, mut against) = (self.used.clone(), self.against.clone());
        let mut reach = self.weights.len() / 2;
        for (k, (n, stride)) in c.counts.iter().zip(&c.stride).enumerate() {
            let more = number / stride % (n + 1) - used[k];
            if more == 0 {
                continue;
            }
            for (j, sign) in c.sign[k].iter().enumerate().filter(|(_, s)| **s != 0) {
                reach += more * used[j];
                against[j] -= more as isize * *sign as isize;
            }
            used[k] += more;
        }
        Self { used, against, weights: vec![0.0; 2 * reach + 1] }
    }
}

/// All ways to take `size` from what is left of each class.
fn fills(used: &[usize], counts: &[usize], size: usize) -> Vec<Vec<usize>> {
    fn go(k: usize, left: usize, free: &[usize], now: &mut Vec<usize>, out: &mut Vec<Vec<usize>>) {
        if k == free.len() {
            if left == 0 {
                out.push(now.clone());
            }
            return;
        }
        for m in 0..=free[k].min(left) {
            now.push(m);
            go(k + 1, left - m, free, now, out);
            now.pop();
        }
    }
    let free: Vec<usize> = counts.iter().zip(used).map(|(c, u)| c - u).collect();
    let mut out = Vec::new();
    go(0, size, &free, &mut Vec::new(), &mut out);
    out
}

/// One test of order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kendall {
    /// Pairs in the same order minus pairs in opposite order.
    pub s: i64,
    /// S over the geometric mean of the numbers of pairs with a certain order on each side.
    pub tau_b: f64,
    /// Variance of S over all arrangements.
    pub variance: f64,
    /// Two-sided p.
    pub p: f64,
    /// Where p comes from.
    pub p_from: PFrom,
    /// Number of rows.
    pub n: usize,
    /// Share of the pairs whose order on the second side is certain.
    pub certain_share: f64,
}

/// S where every pair has the same certain order: the scale of tau-b.
pub(crate) fn largest_s(a: &Codes, b: &Codes) -> f64 {
    libm::sqrt(moments(a).certain * moments(b).certain) / 2.0
}

/// Two-sided p of S by the normal approximation.
pub fn normal_p(s: f64, variance: f64) -> f64 {
    if variance <= 0.0 {
        return 1.0;
    }
    let z = (s.abs() - 1.0).max(0.0) / libm::sqrt(variance);
    (2.0 * statistics::normal::cdf(-z)).min(1.0)
}

/// Tests whether `b` rises or falls with `a` (same length).
pub fn kendall(a: &Codes, b: &Codes, choice: PChoice) -> Kendall {
    let n = a.len();
    let (ma, mb) = (moments(a), moments(b));
    let s = s_statistic(a, b);
    let variance = variance_from(n, ma, mb);
    let (p, p_from) = match choice {
        PChoice::Best => match exact_distribution(a, b) {
            Some(d) => (d.two_sided(s), PFrom::Exact),
            None => (normal_p(s as f64, variance), PFrom::Normal),
        },
        PChoice::Normal => (normal_p(s as f64, variance), PFrom::Normal),
        PChoice::Permutation { draws, seed } => (permutation_p(a, b, s, draws, seed), PFrom::Permutation { draws }),
    };
    let scale = libm::sqrt(ma.certain * mb.certain) / 2.0;
    Kendall {
        s,
        tau_b: if scale > 0.0 { s as f64 / scale } else { 0.0 },
        variance,
        p,
        p_from,
        n,
        certain_share: mb.certain / ((n * n.saturating_sub(1)).max(1) as f64),
    }
}

/// Arrangements per random stream: results do not depend on the number of threads.
const BLOCK: u32 = 256;

/// (1 + arrangements at least as far from 0) / (1 + draws).
fn permutation_p(a: &Codes, b: &Codes, s: i64, draws: u32, seed: u64) -> f64 {
    let blocks = draws.div_ceil(BLOCK);
    let as_far: u32 = (0..blocks)
        .into_par_iter()
        .map(|block| {
            let mut rng = ChaCha8Rng::seed_from_u64(seed);
            rng.set_stream(u64::from(block));
            let mut order: Vec<u32> = (0..b.len() as u32).collect();
            (0..BLOCK.min(draws - block * BLOCK))
                .filter(|_| {
                    order.shuffle(&mut rng);
                    s_statistic(a, &b.permuted(&order)).abs() >= s.abs()
                })
                .count() as u32
        })
        .sum();
    f64::from(1 + as_far) / f64::from(1 + draws)
}
