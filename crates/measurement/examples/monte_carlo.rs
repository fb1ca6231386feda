//! Times the Monte Carlo twin of one result's model; `bench/monte_carlo` compares it with numpy.
//!
//! `cargo run --release -p measurement --example monte_carlo -- DRAWS REPEATS` prints one line of
//! JSON: the smallest and the median wall time in seconds, threads, and the result.

use measurement::expression::Expression;
use measurement::uncertainty::{Draws, Input, Problem};
use std::time::Instant;

fn main() {
    let mut arguments = std::env::args().skip(1);
    let mut number =
        |default: usize| -> usize { arguments.next().map_or(default, |a| a.parse().expect("a whole number")) };
    let count = number(1_000_000);
    let repeats = number(9).max(1);
    let names = ["gross", "blank", "slope", "recovery", "dilution", "drift"];
    let model = Expression::parse("(gross - blank)/(slope*recovery)*dilution*drift", &names).expect("the model parses");
    let inputs = vec![
        Input::normal("gross", 2150.0, 28.0),
        Input::normal("blank", 310.0, 22.0),
        Input::normal("slope", 1840.0, 16.0),
        Input::normal("recovery", 0.97, 0.02),
        Input::normal("dilution", 1.05, 0.004),
        Input::normal("drift", 1.0, 0.008),
    ];
    let problem = Problem::new(model, inputs, &[]).expect("the problem stands");
    let draws = Draws { count, ..Draws::default() };
    let mut times = Vec::new();
    let mut result = None;
    for _ in 0..=repeats {
        let start = Instant::now();
        result = Some(problem.monte_carlo(&draws).expect("draws"));
        times.push(start.elapsed().as_secs_f64());
    }
    // The first run also makes tables and threads.
    let mut warm = times[1..].to_vec();
    warm.sort_by(f64::total_cmp);
    let r = result.expect("at least one run");
    println!(
        "{{\"smallest_s\":{:.5},\"median_s\":{:.5},\"first_s\":{:.5},\"threads\":{},\"value\":{:.6},\"u\":{:.6},\"low\":{:.6},\"high\":{:.6}}}",
        warm[0],
        warm[warm.len() / 2],
        times[0],
        rayon::current_num_threads(),
        r.value,
        r.u,
        r.symmetric.low,
        r.symmetric.high
    );
}
