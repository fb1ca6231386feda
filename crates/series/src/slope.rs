//! How fast does it change? Theil–Sen slope, and its censored form after Akritas, Murphy and
//! LaValley: the slope at which Kendall's S of the residuals is zero. In: times in years,
//! readings in one unit, strata within which pairs are formed; out: slope in units per year with
//! an interval by inverting the test.
//!
//! S of the residuals falls by 2 at the slope of two known values and by 1 where one of the two
//! is a non-detect (its residual reaches down to −∞; two non-detects never count). So estimate
//! and interval are order statistics of the pair slopes, weighted 2, 1, 0. They are found
//! without forming all pairs: pairs with a slope under θ are the pairs that change order between
//! "ordered by x" and "ordered by y − θx", which a merge sort counts; random pairs of that kind
//! narrow the bracket until the rest can be listed. Expected O(n log n); the answer is exact, so
//! the random stream does not show in it. A group mark 0/1 in place of time gives the
//! Hodges–Lehmann shift.
//!
//! Sources: Sen (1968) JASA 63:1379; Akritas, Murphy & LaValley (1995) JASA 90:170; slope selection by
//! random inversions: Matoušek (1991) Inf. Process. Lett. 39:183 (all from memory). Checked against a
//! brute force over all pairs in `tests/brute_force.rs`.

use crate::kendall::ordered_bits;
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};

/// One row as the slope sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Time in years, or a group mark.
    pub x: f64,
    /// Value or limit.
    pub y: f64,
    /// Whether `y` is a value.
    pub known: bool,
}

/// Strata of rows; pairs are formed within a stratum only.
#[derive(Debug, Clone)]
pub struct PairSlopes {
    points: Vec<Point>,
    /// End of each stratum in `points`, which stand in order of (x, y) within it.
    ends: Vec<usize>,
    /// Weight of all pairs: 2 for two known values, 1 for one.
    total: u64,
    /// S as the slope goes to −∞: the weight at which S of the residuals is zero.
    zero: u64,
    /// Places that a listed slope stands for: 2 where every value is known, else 1 (then a slope of
    /// two known values is listed twice).
    places: u64,
    windows: Vec<Window>,
    list_up_to: u64,
    /// Sample of the whole, in order, shared by all questions.
    start: Option<Vec<f64>>,
}

/// A bracket whose slopes are all listed: the weight below it, and each slope as often as it weighs.
#[derive(Debug, Clone)]
struct Window {
    below: u64,
    places: u64,
    slopes: Vec<f64>,
    /// Places already asked for, in order: what stands before one is no larger, what stands after no smaller.
    settled: Vec<usize>,
}

/// A bracket is listed when it holds no more than this many pairs per row.
const LIST_PER_ROW: u64 = 4;
/// Up to this many pairs in all, the slopes are simply listed.
const LIST_ALWAYS: u64 = 6_000;
/// Random pairs per row that start a selection, and the most of them.
const START_PER_ROW: usize = 8;
const MOST_START: usize = 100_000;
/// Two slopes nearer than this share of the scale count as one: rounding of y − θx.
const ROUNDING: f64 = 1e-13;

#[derive(Debug, Clone, Copy, PartialEq)]
struct Bracket {
    low: f64,
    high: f64,
    below_low: u64,
    below_high: u64,
}

impl Bracket {
    /// Cuts at a slope inside; keeps the part that holds `target`.
    fn cut(&mut self, sorter: &mut Sorter, slope: f64, target: u64) {
        if !(slope > self.low && slope < self.high) {
            return;
        }
        sorter.order_at(slope);
        let below = self.below_low + sorter.weight();
        if below <= target {
            (self.low, self.below_low) = (slope, below);
            sorter.upper_becomes_low();
        } else {
            (self.high, self.below_high) = (slope, below);
            sorter.upper_becomes_high();
        }
    }
}

impl PairSlopes {
    /// Takes the strata in; rows in any order.
    pub fn new(strata: Vec<Vec<Point>>) -> Self {
        let mut points = Vec::with_capacity(strata.iter().map(Vec::len).sum());
        let mut ends = Vec::with_capacity(strata.len());
        let (mut total, mut zero) = (0, 0);
        for mut stratum in strata {
            stratum.sort_unstable_by(|a, b| {
                (a.x, a.y).partial_cmp(&(b.x, b.y)).unwrap_or(std::cmp::Ordering::Equal).then(a.known.cmp(&b.known))
            });
            let (t, z) = weights(&stratum);
            total += t;
            zero += z;
            points.extend(stratum);
            ends.push(points.len());
        }
        let places = if points.iter().all(|p| p.known) { 2 } else { 1 };
        Self { points, ends, total, zero, places, windows: Vec::new(), list_up_to: LIST_ALWAYS, start: None }
    }

    /// Lists all pairs only up to this many in all; above, slopes are selected. The answer does
    /// not depend on it.
    #[must_use]
    pub fn listing_up_to(mut self, pairs: u64) -> Self {
        self.list_up_to = pairs;
        self
    }

    /// The slope where S of the residuals is zero: the middle of the interval where there is
    /// one. `None` where S is never on both sides of zero: no slope can be told.
    pub fn estimate(&mut self) -> Option<f64> {
        let (low, high) = self.zero_interval()?;
        Some(0.5 * (low + high))
    }

    /// The slopes between which S of the residuals is zero.
    pub fn zero_interval(&mut self) -> Option<(f64, f64)> {
        if self.zero == 0 || self.zero >= self.total {
            return None;
        }
        let high = self.at(self.zero);
        Some((self.at(self.zero - 1), high))
    }

    /// Slopes with |S| ≤ `c`; an end without bound is infinite.
    pub fn interval(&mut self, c: u64) -> (f64, f64) {
        let low = match self.zero.checked_sub(c + 1) {
            Some(t) if t < self.total => self.at(t),
            _ => f64::NEG_INFINITY,
        };
        let high = if self.zero + c < self.total { self.at(self.zero + c) } else { f64::INFINITY };
        (low, high)
    }

    /// The slope that holds place `target` (from 0) when each slope stands as often as it weighs.
    fn at(&mut self, target: u64) -> f64 {
        for w in &mut self.windows {
            if target >= w.below && target - w.below < w.len() {
                return w.nth(target);
            }
        }
        if self.pairs() <= self.list_up_to || self.few_known() {
            let mut w = Window::new(0, self.places, self.all_slopes());
            let found = w.nth(target);
            self.windows.push(w);
            return found;
        }
        self.select(target)
    }

    fn pairs(&self) -> u64 {
        let mut from = 0;
        let mut sum = 0;
        for end in &self.ends {
            let n = (end - from) as u64;
            sum += n * n.saturating_sub(1) / 2;
            from = *end;
        }
        sum
    }

    fn few_known(&self) -> bool {
        self.points.iter().filter(|p| p.known).count() <= 16
    }

    fn strata(&self) -> impl Iterator<Item = std::ops::Range<usize>> + '_ {
        let mut from = 0;
        self.ends.iter().map(move |end| {
            let range = from..*end;
            from = *end;
            range
        })
    }

    fn push_slope(&self, i: usize, j: usize, out: &mut Vec<f64>) {
        let (a, b) = (self.points[i.min(j)], self.points[i.max(j)]);
        if a.x == b.x || !(a.known || b.known) {
            return;
        }
        let slope = (b.y - a.y) / (b.x - a.x);
        out.push(slope);
        if self.places == 1 && a.known && b.known {
            out.push(slope);
        }
    }

    fn all_slopes(&self) -> Vec<f64> {
        let mut out = Vec::with_capacity(self.total as usize);
        for range in self.strata() {
            let known: Vec<usize> = range.clone().filter(|i| self.points[*i].known).collect();
            if known.len() * 4 > range.len() {
                for i in range.clone() {
                    for j in i + 1..range.end {
                        self.push_slope(i, j, &mut out);
                    }
                }
            } else {
                for i in known {
                    for j in range.clone() {
                        if j > i || (j < i && !self.points[j].known) {
                            self.push_slope(i, j, &mut out);
                        }
                    }
                }
            }
        }
        out
    }

    /// Slope selection by random inversions.
    fn select(&mut self, target: u64) -> f64 {
        let mut sorter = Sorter::new(self);
        let mut bracket = Bracket { low: f64::NEG_INFINITY, high: f64::INFINITY, below_low: 0, below_high: self.total };
        let cap = (LIST_PER_ROW * self.points.len() as u64).max(25 * self.list_up_to);
        let mut sampled = Some(self.start.take().unwrap_or_else(|| self.random_pairs()));
        let mut found = None;
        let mut stuck = false;
        for round in 0..200 {
            let slopes = if let Some(slopes) = sampled.take() {
                slopes
            } else {
                sorter.order_at_high();
                let inside =
                    if self.places == 2 { (bracket.below_high - bracket.below_low) / 2 } else { sorter.count_only() };
                if inside <= cap || stuck {
                    let window = self.list(&mut sorter, bracket.below_low);
                    found = Some(self.last_of(window, bracket, target));
                    break;
                }
                let mut slopes = Vec::new();
                sorter.sample(inside, round, |i, j| self.push_slope(i, j, &mut slopes));
                slopes.sort_unstable_by(f64::total_cmp);
                slopes
            };
            let before = bracket;
            found = Self::narrow(&mut sorter, &mut bracket, &slopes, target);
            stuck = round > 60 || bracket.below_high - bracket.below_low == before.below_high - before.below_low;
            if round == 0 {
                self.start = Some(slopes);
            }
            if found.is_some() {
                break;
            }
        }
        // 200 rounds without an answer: the bracket is down to rounding.
        found.unwrap_or(0.5 * (bracket.low + bracket.high))
    }

    /// Slopes of random pairs of the whole, in order.
    fn random_pairs(&self) -> Vec<f64> {
        let mut rng = ChaCha8Rng::seed_from_u64(1);
        let known = self.points.iter().filter(|p| p.known).count() as f64 / self.points.len() as f64;
        let draws =
            (START_PER_ROW * self.points.len()).clamp(1_000, MOST_START) as f64 / (known * (2.0 - known)).max(0.05);
        let pairs = self.pairs();
        let mut slopes = Vec::with_capacity(2 * draws as usize);
        for range in self.strata() {
            let n = range.len() as u32;
            let here = u64::from(n) * u64::from(n.saturating_sub(1)) / 2;
            let from = range.start;
            for _ in 0..(draws * here as f64 / pairs as f64) as usize {
                let (i, j) = (rng.random_range(0..n), rng.random_range(0..n));
                if i != j {
                    self.push_slope(from + i as usize, from + j as usize, &mut slopes);
                }
            }
        }
        slopes.sort_unstable_by(f64::total_cmp);
        slopes
    }

    /// All slopes of the bracket that the sorter holds.
    fn list(&self, sorter: &mut Sorter, below: u64) -> Window {
        let mut slopes = Vec::new();
        sorter.each_pair(|i, j| self.push_slope(i, j, &mut slopes));
        Window::new(below, self.places, slopes)
    }

    /// The answer from a listed bracket, which is kept for the next question. Pairs within
    /// rounding of the bracket's ends may have changed sides: the nearest listed slope is then
    /// the answer to within that rounding.
    fn last_of(&mut self, mut window: Window, bracket: Bracket, target: u64) -> f64 {
        if window.slopes.is_empty() {
            return bracket.low;
        }
        let last = window.below + window.len() - 1;
        let found = window.nth(target.min(last));
        self.windows.push(window);
        found
    }

    /// Narrows the bracket around `target` by two sampled slopes; the answer where both are one.
    fn narrow(sorter: &mut Sorter, bracket: &mut Bracket, sample: &[f64], target: u64) -> Option<f64> {
        let m = sample.len();
        if m == 0 {
            return None;
        }
        let share = (target - bracket.below_low) as f64 / (bracket.below_high - bracket.below_low).max(1) as f64;
        let place = share * m as f64;
        let reach = 2.0 * libm::sqrt(m as f64 * share * (1.0 - share)) + 3.0;
        let mut low = match place - reach {
            p if p >= 0.0 => sample[(p as usize).min(m - 1)],
            _ => bracket.low,
        };
        let mut high = match place + reach {
            p if p < m as f64 => sample[p as usize],
            _ => bracket.high,
        };
        let scale = low.abs().max(high.abs()).max(sorter.slope_scale);
        let one = scale.is_finite() && high - low <= ROUNDING * scale;
        let answer = low;
        if one {
            low -= 4.0 * ROUNDING * scale;
            high += 4.0 * ROUNDING * scale;
        }
        let before = *bracket;
        bracket.cut(sorter, low, target);
        bracket.cut(sorter, high, target);
        if one && bracket.low < answer && answer < bracket.high {
            return Some(answer);
        }
        if *bracket == before {
            // Many pairs stand exactly on an end: step off it.
            bracket.cut(sorter, before.low + 4.0 * ROUNDING * scale, target);
            bracket.cut(sorter, before.high - 4.0 * ROUNDING * scale, target);
        }
        None
    }
}

impl Window {
    fn len(&self) -> u64 {
        self.places * self.slopes.len() as u64
    }

    fn new(below: u64, places: u64, slopes: Vec<f64>) -> Self {
        Self { below, places, slopes, settled: vec![] }
    }

    fn nth(&mut self, target: u64) -> f64 {
        let k = ((target - self.below) / self.places) as usize;
        if let Err(place) = self.settled.binary_search(&k) {
            let from = if place == 0 { 0 } else { self.settled[place - 1] + 1 };
            let to = self.settled.get(place).copied().unwrap_or(self.slopes.len());
            self.slopes[from..to].select_nth_unstable_by(k - from, f64::total_cmp);
            self.settled.insert(place, k);
        }
        self.slopes[k]
    }
}

/// Weight of all pairs and S as the slope goes to −∞, of rows in order of x.
fn weights(points: &[Point]) -> (u64, u64) {
    let (mut total, mut zero) = (0, 0);
    let (mut known, mut below) = (0_u64, 0_u64);
    let mut i = 0;
    while i < points.len() {
        let mut j = i;
        while j < points.len() && points[j].x == points[i].x {
            j += 1;
        }
        let here = points[i..j].iter().filter(|p| p.known).count() as u64;
        let here_below = (j - i) as u64 - here;
        total += here * (2 * known + below) + here_below * known;
        zero += here * (known + below);
        known += here;
        below += here_below;
        i = j;
    }
    (total, zero)
}

/// What is done with each pair that changed order.
trait Sink {
    /// `right` comes before all of `left`, which stood before it; `before` pairs came earlier.
    fn take(&mut self, before: u64, left: &[u32], right: u32);
}

struct Everything<F>(F);
impl<F: FnMut(u32, u32)> Sink for Everything<F> {
    fn take(&mut self, _: u64, left: &[u32], right: u32) {
        for l in left {
            (self.0)(*l, right);
        }
    }
}

struct Chosen<'a, F> {
    wanted: &'a [u64],
    next: usize,
    f: F,
}
impl<F: FnMut(u32, u32)> Sink for Chosen<'_, F> {
    fn take(&mut self, before: u64, left: &[u32], right: u32) {
        while let Some(w) = self.wanted.get(self.next) {
            let Some(l) = left.get((w - before) as usize) else {
                break;
            };
            (self.f)(*l, right);
            self.next += 1;
        }
    }
}

/// Orders the rows by residual and counts changes of order. A label is `rank·2 + known`, the
/// rank being that of the lower order.
struct Sorter {
    points: Vec<Point>,
    ends: Vec<usize>,
    censored: bool,
    keys: Vec<(u64, u32)>,
    /// The upper order, in labels.
    labels: Vec<u32>,
    work: Vec<u32>,
    buffer: Vec<u32>,
    row_of_rank: Vec<u32>,
    label_of_row: Vec<u32>,
    high_rows: Vec<u32>,
    upper_rows: Vec<u32>,
    x_mid: f64,
    slope_scale: f64,
}

impl Sorter {
    fn new(p: &PairSlopes) -> Self {
        let n = p.points.len();
        let (mut x_low, mut x_high) = (f64::MAX, f64::MIN);
        let mut y_size: f64 = 0.0;
        for q in &p.points {
            x_low = x_low.min(q.x);
            x_high = x_high.max(q.x);
            y_size = y_size.max(q.y.abs());
        }
        let mut sorter = Self {
            points: p.points.clone(),
            ends: p.ends.clone(),
            censored: p.points.iter().any(|q| !q.known),
            keys: Vec::with_capacity(n),
            labels: vec![0; n],
            work: vec![0; n],
            buffer: vec![0; n],
            row_of_rank: Vec::with_capacity(n),
            label_of_row: vec![0; n],
            high_rows: Vec::with_capacity(n),
            upper_rows: Vec::with_capacity(n),
            x_mid: 0.5 * (x_low + x_high),
            slope_scale: y_size / (x_high - x_low),
        };
        sorter.order_at(f64::NEG_INFINITY);
        sorter.upper_becomes_low();
        sorter.order_at(f64::INFINITY);
        sorter.upper_becomes_high();
        sorter
    }

    /// Puts the order at `slope` into the labels, in ranks of the bracket's lower order.
    fn order_at(&mut self, slope: f64) {
        let mut rows = std::mem::take(&mut self.upper_rows);
        self.rows_at(slope, &mut rows);
        self.label(&rows);
        self.upper_rows = rows;
    }

    /// The same for the bracket's upper order.
    fn order_at_high(&mut self) {
        let rows = std::mem::take(&mut self.high_rows);
        self.label(&rows);
        self.high_rows = rows;
    }

    fn label(&mut self, rows: &[u32]) {
        for (label, row) in self.labels.iter_mut().zip(rows) {
            *label = self.label_of_row[*row as usize];
        }
    }

    /// The last order that was put into the labels becomes the bracket's lower one.
    fn upper_becomes_low(&mut self) {
        std::mem::swap(&mut self.row_of_rank, &mut self.upper_rows);
        self.rank_rows();
    }

    fn rank_rows(&mut self) {
        for (rank, row) in self.row_of_rank.iter().enumerate() {
            let known = u32::from(self.points[*row as usize].known);
            self.label_of_row[*row as usize] = 2 * rank as u32 + known;
        }
    }

    /// It becomes the bracket's upper one.
    fn upper_becomes_high(&mut self) {
        std::mem::swap(&mut self.high_rows, &mut self.upper_rows);
    }

    /// The rows of every stratum in order of y − θx; rows of one x keep their order at any θ.
    fn rows_at(&mut self, theta: f64, rows: &mut Vec<u32>) {
        rows.clear();
        let mut from = 0;
        for end in &self.ends {
            if theta == f64::NEG_INFINITY {
                rows.extend(from as u32..*end as u32);
            } else {
                self.keys.clear();
                self.keys.extend((from..*end).map(|i| {
                    let q = self.points[i];
                    let z = if theta == f64::INFINITY { -q.x } else { q.y - theta * (q.x - self.x_mid) };
                    (ordered_bits(z + 0.0), i as u32)
                }));
                self.keys.sort_unstable();
                rows.extend(self.keys.iter().map(|k| k.1));
            }
            from = *end;
        }
    }

    /// Number of pairs that differ in order between the two.
    fn count(&mut self, sink: &mut impl Sink) -> u64 {
        self.work.copy_from_slice(&self.labels);
        let mut pairs = 0;
        let mut from = 0;
        for end in &self.ends {
            let (work, buffer) = (&mut self.work[from..*end], &mut self.buffer[from..*end]);
            pairs = merge_count(work, buffer, pairs, sink);
            from = *end;
        }
        pairs
    }

    /// The same without looking at the pairs.
    fn count_only(&mut self) -> u64 {
        self.work.copy_from_slice(&self.labels);
        let mut pairs = 0;
        let mut from = 0;
        for end in &self.ends {
            pairs += fast_count(&mut self.work[from..*end], &mut self.buffer[from..*end]);
            from = *end;
        }
        pairs
    }

    /// Calls `f` with the rows of every such pair.
    fn each_pair(&mut self, mut f: impl FnMut(usize, usize)) {
        let rows = std::mem::take(&mut self.row_of_rank);
        let row = |label: u32| rows[(label >> 1) as usize] as usize;
        self.count(&mut Everything(|l, r| f(row(l), row(r))));
        self.row_of_rank = rows;
    }

    /// Calls `f` with the rows of about as many random pairs as there are rows (more where many are
    /// non-detects), out of the `inside` pairs that differ in order.
    fn sample(&mut self, inside: u64, round: u64, mut f: impl FnMut(usize, usize)) {
        let mut rng = ChaCha8Rng::seed_from_u64(0);
        rng.set_stream(round);
        // Pairs of two non-detects have no slope: the more of them, the more pairs are drawn.
        let known = self.points.iter().filter(|p| p.known).count() as f64 / self.points.len() as f64;
        let draws = self.points.len().max(1000) as f64 / (known * (2.0 - known)).max(0.05);
        let mut wanted: Vec<u64> = (0..draws as usize).map(|_| rng.random_range(0..inside)).collect();
        wanted.sort_unstable();
        let rows = std::mem::take(&mut self.row_of_rank);
        let row = |label: u32| rows[(label >> 1) as usize] as usize;
        self.count(&mut Chosen { wanted: &wanted, next: 0, f: |l, r| f(row(l), row(r)) });
        self.row_of_rank = rows;
    }

    /// Weight of the pairs that differ in order; uses up the labels.
    fn weight(&mut self) -> u64 {
        if !self.censored {
            return 2 * self.count_only();
        }
        let mut weight = 0;
        let mut from = 0;
        for end in &self.ends {
            weight += merge_weight(&mut self.labels[from..*end], &mut self.buffer[from..*end]);
            from = *end;
        }
        weight
    }
}

/// Sorts by merging; each pair out of order goes to the sink. Returns `before` plus their number.
fn merge_count(a: &mut [u32], b: &mut [u32], before: u64, sink: &mut impl Sink) -> u64 {
    let mut count = before;
    merge_runs(a, b, |left, right, out| {
        let (mut i, mut j) = (0, 0);
        for slot in out {
            if j == right.len() || (i < left.len() && left[i] < right[j]) {
                *slot = left[i];
                i += 1;
            } else {
                sink.take(count, &left[i..], right[j]);
                count += (left.len() - i) as u64;
                *slot = right[j];
                j += 1;
            }
        }
    });
    count
}

/// Labels that are counted by comparing each with each.
const BLOCK: usize = 8;

/// Number of pairs out of order. Sorts: blocks of 8 by rank, then merges without branches.
fn fast_count(a: &mut [u32], b: &mut [u32]) -> u64 {
    let mut count = 0;
    let blocks = a.len() / BLOCK * BLOCK;
    for block in a[..blocks].chunks_exact_mut(BLOCK) {
        let mut from = [0; BLOCK];
        from.copy_from_slice(block);
        for (i, x) in from.iter().enumerate() {
            let rank: usize = from.iter().map(|y| usize::from(y < x)).sum();
            block[rank] = *x;
            // Each smaller one to the right is out of order with this one.
            count += from[i..].iter().map(|y| u64::from(y < x)).sum::<u64>();
        }
    }
    let rest = a.len() - blocks;
    count += merge_count(&mut a[blocks..], &mut b[..rest], 0, &mut Everything(|_, _| {}));
    merge_runs_from(BLOCK, a, b, |left, right, out| {
        if right.is_empty() {
            out.copy_from_slice(left);
            return;
        }
        // What stands before the first of the right run, and after the last of the left, stays.
        let skip = left.partition_point(|l| *l < right[0]);
        let (before, left) = left.split_at(skip);
        let last = left.last().map_or(0, |last| right.partition_point(|r| r < last));
        let (right, after) = right.split_at(last);
        out[..skip].copy_from_slice(before);
        let end = out.len() - after.len();
        out[end..].copy_from_slice(after);
        let out = &mut out[skip..end];
        let (mut i, mut j) = (0, 0);
        while i < left.len() && j < right.len() {
            let (l, r) = (left[i], right[j]);
            let first = l < r;
            out[i + j] = if first { l } else { r };
            count += if first { 0 } else { (left.len() - i) as u64 };
            i += usize::from(first);
            j += usize::from(!first);
        }
        let (rest_left, rest_right) = (&left[i..], &right[j..]);
        out[i + j..i + j + rest_left.len()].copy_from_slice(rest_left);
        let at = out.len() - rest_right.len();
        out[at..].copy_from_slice(rest_right);
    });
    count
}

/// The same with the weight of each pair: 2 where both labels are known, 1 where one is, else 0.
fn merge_weight(a: &mut [u32], b: &mut [u32]) -> u64 {
    let mut weight = 0;
    merge_runs(a, b, |left, right, out| {
        let mut known = left.iter().map(|l| u64::from(l & 1)).sum::<u64>();
        let (mut i, mut j) = (0, 0);
        for slot in out {
            if j == right.len() || (i < left.len() && left[i] < right[j]) {
                *slot = left[i];
                known -= u64::from(left[i] & 1);
                i += 1;
            } else {
                let all = (left.len() - i) as u64;
                weight += known + all * u64::from(right[j] & 1);
                *slot = right[j];
                j += 1;
            }
        }
    });
    weight
}

/// Merges runs of 1, 2, 4 … labels.
fn merge_runs(a: &mut [u32], b: &mut [u32], merge: impl FnMut(&[u32], &[u32], &mut [u32])) {
    merge_runs_from(1, a, b, merge);
}

/// Merges runs that are in order up to `width`, turn about between the two buffers.
fn merge_runs_from(mut width: usize, a: &mut [u32], b: &mut [u32], mut merge: impl FnMut(&[u32], &[u32], &mut [u32])) {
    let n = a.len();
    let (mut from, mut to) = (a, b);
    let mut in_b = false;
    while width < n {
        for (source, target) in from.chunks(2 * width).zip(to.chunks_mut(2 * width)) {
            let (left, right) = source.split_at(width.min(source.len()));
            merge(left, right, target);
        }
        std::mem::swap(&mut from, &mut to);
        in_b = !in_b;
        width *= 2;
    }
    if in_b {
        to.copy_from_slice(from);
    }
}
