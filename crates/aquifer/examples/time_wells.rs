//! Times of the well functions and of a full fit with 2,000 bootstrap draws, as one JSON line; the peer's
//! times are taken in the same run by `bench/wells/run.py`.

use aquifer::functions::{flowing_g, flowing_g_by_quadrature, theis_w};
use aquifer::welltest::{Bootstrap, FlowingTest, Reading, fit_flowing};
use std::hint::black_box;
use std::time::Instant;

/// Nanoseconds a value over a list.
fn nanoseconds(values: &[f64], f: impl Fn(f64) -> f64) -> f64 {
    let start = Instant::now();
    for v in values {
        black_box(f(black_box(*v)));
    }
    start.elapsed().as_nanos() as f64 / values.len() as f64
}

fn main() {
    let n = 200_000;
    let spread = |from: f64, to: f64| -> Vec<f64> {
        (0..n).map(|i| 10f64.powf(from + (to - from) * f64::from(i) / f64::from(n - 1))).collect()
    };
    let (alpha, u) = (spread(-4.0, 12.0), spread(-12.0, 0.7));
    let start = Instant::now();
    black_box(flowing_g(1.0));
    let table_ms = start.elapsed().as_secs_f64() * 1e3;
    let g = nanoseconds(&alpha, flowing_g);
    let g_direct = nanoseconds(&alpha[..n as usize / 100], flowing_g_by_quadrature);
    let w = nanoseconds(&u, theis_w);
    let series = include_str!("../tests/data/flowing_well_recalled.csv")
        .lines()
        .skip(1)
        .filter_map(|l| {
            let mut f = l.split(',').map(str::parse::<f64>);
            let (t, q) = (f.next()?.ok()?, f.next()?.ok()?);
            Some(Reading { t_s: 60.0 * t, value: q * 6.309e-5 })
        })
        .collect();
    let test = FlowingTest { drawdown_m: 28.142, radius_m: 0.0841, series };
    let start = Instant::now();
    let fit = fit_flowing(&test, Bootstrap { draws: 2000, seed: 1 });
    let fit_ms = start.elapsed().as_secs_f64() * 1e3;
    assert!(fit.is_ok(), "the test's fit has an answer");
    println!(
        r#"{{"g_ns":{g:.1},"g_quadrature_ns":{g_direct:.1},"g_table_ms":{table_ms:.2},"w_ns":{w:.1},"fit_2000_draws_ms":{fit_ms:.1}}}"#
    );
}
