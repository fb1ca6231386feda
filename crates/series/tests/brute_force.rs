//! The O(n log n) answers against an O(n²) count of every pair, on random small series with ties
//! and many limits; the permutation variance and the exact p against a count of every
//! arrangement.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng, seq::SliceRandom};
use series::Reading;
use series::kendall::{self, Codes, PChoice, PFrom};
use series::slope::{PairSlopes, Point};

/// −1, 0, +1: is `b` surely below or above `a`?
fn sign(a: Reading, b: Reading) -> i64 {
    match (a, b) {
        (Reading::Known(x), Reading::Known(y)) => i64::from(y > x) - i64::from(y < x),
        (Reading::Below(l), Reading::Known(y)) => i64::from(y >= l),
        (Reading::Known(x), Reading::Below(l)) => -i64::from(x >= l),
        (Reading::Below(_), Reading::Below(_)) => 0,
    }
}

fn brute_s(x: &[f64], y: &[Reading]) -> i64 {
    let mut s = 0;
    for i in 0..x.len() {
        for j in 0..x.len() {
            if x[j] > x[i] {
                s += sign(y[i], y[j]);
            }
        }
    }
    s
}

/// Pair slopes as often as they weigh, in order; and S at slope −∞.
fn brute_slopes(x: &[f64], y: &[Reading]) -> (Vec<f64>, usize) {
    let mut slopes = Vec::new();
    let mut zero = 0;
    for i in 0..x.len() {
        for j in 0..x.len() {
            if x[j] > x[i] {
                let slope = (y[j].bound() - y[i].bound()) / (x[j] - x[i]);
                let weight = usize::from(y[i].is_known()) + usize::from(y[j].is_known());
                slopes.extend(std::iter::repeat_n(slope, weight));
                // At slope −∞ a later known residual is above everything earlier.
                zero += usize::from(y[j].is_known());
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    (slopes, zero)
}

fn random_series(rng: &mut ChaCha8Rng) -> (Vec<f64>, Vec<Reading>) {
    let n = rng.random_range(2..40);
    let steps = [4, 30, 100_000][rng.random_range(0..3)];
    let dates = [5, 40, 1_000_000][rng.random_range(0..3)];
    let censored = rng.random_range(0.0..0.95);
    let limits: Vec<f64> = (0..rng.random_range(1..6)).map(|_| f64::from(rng.random_range(0..steps))).collect();
    let mut x = Vec::new();
    let mut y = Vec::new();
    for _ in 0..n {
        x.push(f64::from(rng.random_range(0..dates)) / 7.0);
        y.push(if rng.random_bool(censored) {
            Reading::Below(limits[rng.random_range(0..limits.len())])
        } else {
            Reading::Known(f64::from(rng.random_range(0..steps)))
        });
    }
    (x, y)
}

fn points(x: &[f64], y: &[Reading]) -> Vec<Point> {
    x.iter().zip(y).map(|(x, y)| Point { x: *x, y: y.bound(), known: y.is_known() }).collect()
}

/// Slopes agree to rounding of y − θx: 1e-12 of the largest value per unit of time.
fn near(a: f64, b: f64, scale: f64) -> bool {
    a == b || (a - b).abs() <= 1e-9 * scale
}

#[test]
fn ten_thousand_random_series_agree_with_every_pair() {
    let mut rng = ChaCha8Rng::seed_from_u64(7);
    let mut with_slope = 0;
    for case in 0..10_000 {
        let (x, y) = random_series(&mut rng);
        let (a, b) = (Codes::of_values(&x), Codes::of(&y));
        assert_eq!(kendall::s_statistic(&a, &b), brute_s(&x, &y), "case {case}");
        let (slopes, zero) = brute_slopes(&x, &y);
        let want = (zero > 0 && zero < slopes.len()).then(|| 0.5 * (slopes[zero - 1] + slopes[zero]));
        for listing in [0, 1_000_000] {
            let mut p = PairSlopes::new(vec![points(&x, &y)]).listing_up_to(listing);
            let got = p.estimate();
            match (got, want) {
                (Some(g), Some(w)) => {
                    assert!(near(g, w, w.abs().max(1e-3)), "case {case} {g} {w}");
                    with_slope += 1;
                }
                (g, w) => assert_eq!(g, w, "case {case}"),
            }
            let c = rng.random_range(0..slopes.len() + 2);
            let low = zero.checked_sub(c + 1).map_or(f64::NEG_INFINITY, |k| slopes[k]);
            let high = slopes.get(zero + c).copied().unwrap_or(f64::INFINITY);
            let (gl, gh) = p.interval(c as u64);
            assert!(near(gl, low, low.abs().max(1e-3)), "case {case} {gl} {low}");
            assert!(near(gh, high, high.abs().max(1e-3)), "case {case} {gh} {high}");
        }
    }
    assert!(with_slope > 15_000);
}

#[test]
fn strata_pool_their_pairs() {
    let mut rng = ChaCha8Rng::seed_from_u64(8);
    for _ in 0..500 {
        let parts: Vec<_> = (0..3).map(|_| random_series(&mut rng)).collect();
        let mut slopes = Vec::new();
        let mut zero = 0;
        for (x, y) in &parts {
            let (s, z) = brute_slopes(x, y);
            slopes.extend(s);
            zero += z;
        }
        slopes.sort_by(f64::total_cmp);
        if zero == 0 || zero >= slopes.len() {
            continue;
        }
        let want = 0.5 * (slopes[zero - 1] + slopes[zero]);
        for listing in [0, 1_000_000] {
            let strata = parts.iter().map(|(x, y)| points(x, y)).collect();
            let mut p = PairSlopes::new(strata).listing_up_to(listing);
            let got = p.estimate().unwrap();
            assert!(near(got, want, want.abs().max(1e-3)), "{got} {want}");
        }
    }
}

#[test]
fn a_long_series_agrees_with_every_pair() {
    let mut rng = ChaCha8Rng::seed_from_u64(9);
    for censored in [0.0, 0.3, 0.9, 0.99] {
        let n = 1500;
        let x: Vec<f64> = (0..n).map(|i| 1990.0 + f64::from(i) / 52.0).collect();
        let y: Vec<Reading> = (0..n)
            .map(|_| {
                let v = (rng.random_range(0.0..50.0_f64)).round() / 10.0;
                if rng.random_bool(censored) { Reading::Below(2.0) } else { Reading::Known(v) }
            })
            .collect();
        let (slopes, zero) = brute_slopes(&x, &y);
        let want = 0.5 * (slopes[zero - 1] + slopes[zero]);
        let got = PairSlopes::new(vec![points(&x, &y)]).listing_up_to(0).estimate().unwrap();
        assert!(near(got, want, want.abs().max(1e-6)), "{censored}: {got} {want}");
    }
}

/// All arrangements of 0..n (Heap's algorithm).
fn arrangements(n: usize, mut f: impl FnMut(&[usize])) {
    let mut order: Vec<usize> = (0..n).collect();
    let mut c = vec![0; n];
    f(&order);
    let mut i = 1;
    while i < n {
        if c[i] < i {
            order.swap(if i % 2 == 0 { 0 } else { c[i] }, i);
            f(&order);
            c[i] += 1;
            i = 1;
        } else {
            c[i] = 0;
            i += 1;
        }
    }
}

#[test]
fn variance_and_exact_p_agree_with_every_arrangement() {
    let mut rng = ChaCha8Rng::seed_from_u64(10);
    for case in 0..60 {
        let n = rng.random_range(3..8);
        let mut x: Vec<f64> = (0..n).map(|_| f64::from(rng.random_range(0..9))).collect();
        x.shuffle(&mut rng);
        let y: Vec<Reading> = (0..n)
            .map(|_| {
                let v = f64::from(rng.random_range(0..6));
                if rng.random_bool(0.4) { Reading::Below(v) } else { Reading::Known(v) }
            })
            .collect();
        let mut all = Vec::new();
        arrangements(n, |order| {
            let permuted: Vec<Reading> = order.iter().map(|i| y[*i]).collect();
            all.push(brute_s(&x, &permuted));
        });
        let count = all.len() as f64;
        let mean = all.iter().sum::<i64>() as f64 / count;
        assert!(mean.abs() < 1e-12, "S is centred on zero");
        let variance = all.iter().map(|s| (s * s) as f64).sum::<f64>() / count;
        let got = kendall::kendall(&Codes::of_values(&x), &Codes::of(&y), PChoice::Best);
        // Sums of a few thousand whole numbers: 1e-9 is rounding.
        assert!((got.variance - variance).abs() < 1e-9 * variance.max(1.0), "case {case}");
        let as_far = all.iter().filter(|s| s.abs() >= got.s.abs()).count() as f64;
        assert_eq!(got.p_from, PFrom::Exact);
        assert!((got.p - as_far / count).abs() < 1e-9, "case {case} {} {}", got.p, as_far / count);
    }
}

#[test]
fn permutation_p_is_near_the_exact_one_and_repeats() {
    let x: Vec<f64> = (0..9).map(f64::from).collect();
    let y = [3.0, 1.0, 4.0, 2.0, 6.0, 5.0, 7.0, 9.0, 8.0];
    let (a, b) = (Codes::of_values(&x), Codes::of_values(&y));
    let exact = kendall::kendall(&a, &b, PChoice::Best);
    let choice = PChoice::Permutation { draws: 20_000, seed: 1 };
    let drawn = kendall::kendall(&a, &b, choice);
    // Standard error of a share of p in 20,000 draws, five times.
    let tolerance = 5.0 * (exact.p * (1.0 - exact.p) / 20_000.0).sqrt();
    assert!((drawn.p - exact.p).abs() < tolerance);
    assert_eq!(drawn, kendall::kendall(&a, &b, choice));
}
