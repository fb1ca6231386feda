//! How long a reduction takes: 60 vials × 14 isotopes × 5 replicates, and 500 × 60 × 5.
//! Run with `cargo run --release -p measurement --example reduce_time [REPEATS]`.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{Setting, Truth, lead, recipe, simulate};
use measurement::run::reduce;
use std::time::Instant;

const NAMES: [&str; 58] = [
    "Li", "Be", "Na", "Mg", "Al", "Si", "K", "Ca", "Sc", "Ti", "V", "Cr", "Mn", "Fe", "Co", "Ni", "Cu", "Zn", "Ga",
    "Ge", "As", "Se", "Rb", "Sr", "Y", "Zr", "Nb", "Rh", "Pd", "Ag", "Cd", "Sn", "Sb", "Te", "Cs", "Ba", "La", "Ce",
    "Pr", "Nd", "Sm", "Eu", "Gd", "Tb", "Dy", "Ho", "Er", "Tm", "Yb", "Lu", "Hf", "Ta", "W", "Re", "Pt", "Au", "Tl",
    "Bi",
];

fn main() {
    let repeats: usize = std::env::args().nth(1).and_then(|a| a.parse().ok()).unwrap_or(10);
    for (elements, samples) in [(12, 34), (58, 395)] {
        let setting = Setting {
            truths: NAMES
                .iter()
                .take(elements)
                .enumerate()
                .map(|(i, element)| Truth { element, isotopes: vec![(i as u16 + 40, 1.0)], ..lead() })
                .collect(),
            samples,
            ..Setting::default()
        };
        let input = simulate(&setting, 1);
        let recipe = recipe(&setting);
        let mut best = f64::INFINITY;
        let mut results = 0;
        for _ in 0..repeats {
            let start = Instant::now();
            let run = reduce(&input, &recipe).expect("a simulated run");
            best = best.min(start.elapsed().as_secs_f64());
            results = run.results.len();
        }
        let run = reduce(&input, &recipe).expect("a simulated run");
        let start = Instant::now();
        let nodes: usize = (0..results.min(20)).map(|i| run.derivation(i).nodes.len()).sum();
        let one = start.elapsed().as_secs_f64() / results.min(20) as f64;
        println!(
            "{} vials × {} isotopes × {} replicates: {results} results with budgets in {:.1} ms; one derivation {:.2} ms, {} nodes",
            input.vials.len(),
            elements + 2,
            setting.replicates,
            1e3 * best,
            1e3 * one,
            nodes / results.min(20)
        );
    }
}
