//! Solves random waters over the whole stated range and says how many converged, how many
//! iterations they took and which equations failed: `million_waters [count] [first]`.

use aqueous::{Error, network, random_waters};
use rayon::prelude::*;

type Outcome = Result<(usize, f64), Error>;

fn main() {
    let mut args = std::env::args().skip(1).map(|a| a.parse::<u64>().expect("a number"));
    let count = args.next().unwrap_or(1_000_000);
    let first = args.next().unwrap_or(0);
    let net = network::network();
    let start = std::time::Instant::now();
    let results: Vec<(u64, Outcome)> = (first..first + count)
        .into_par_iter()
        .map(|i| {
            let t = random_waters::water(net, i);
            (i, random_waters::solve(&t).map(|s| (s.iterations, s.residual)))
        })
        .collect();
    let seconds = start.elapsed().as_secs_f64();
    let mut iterations: Vec<usize> = Vec::new();
    let mut worst = 0.0_f64;
    let mut failed = 0_u32;
    for (i, r) in &results {
        match r {
            Ok((n, residual)) => {
                iterations.push(*n);
                worst = worst.max(*residual);
            }
            Err(e) => {
                failed += 1;
                if failed <= 20 {
                    println!("water {i}: {e}");
                }
            }
        }
    }
    iterations.sort_unstable();
    let q = |p: f64| iterations[((iterations.len() - 1) as f64 * p) as usize];
    println!(
        "{count} waters in {seconds:.1} s ({:.1} µs each): {failed} failed ({:.5} %)",
        seconds * 1e6 / count as f64,
        100.0 * f64::from(failed) / count as f64
    );
    println!("safeguard {}", iterations.iter().filter(|i| **i >= 1000).count());
    println!(
        "iterations: median {}, 99 % {}, 99.99 % {}, most {}; worst residual {worst:e}",
        q(0.5),
        q(0.99),
        q(0.9999),
        q(1.0)
    );
}
