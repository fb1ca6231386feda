//! The tables of `docs/validation/run_checks.md`: what the checks of a run name, and what that is worth.
//! Run with `cargo run --release -p measurement --example run_checks_table`.

#[path = "../tests/rough/mod.rs"]
mod rough;

use rough::Rough;
use rough::scenarios::{CHECKS, all, blank_named, touched};

const RUNS: u64 = 1000;

fn percent(x: f64) -> String {
    format!("{:.1} %", 100.0 * x)
}

fn main() {
    println!("| fault | check | named, without → with the fault | covered | detected |\n|---|---|---|---|---|");
    for s in all() {
        let (clean, faulty) = s.seen(RUNS);
        let pair = |a: f64, b: f64| format!("{} → {}", percent(a), percent(b));
        println!(
            "| {} | {} | {} | {} | {} |",
            s.name,
            s.check,
            pair(clean.named, faulty.named),
            pair(clean.covered, faulty.covered),
            pair(clean.detected, faulty.detected)
        );
    }
    println!("\n| check | results of clean runs at which it speaks | with lognormal blanks of cv 1 |\n|---|---|---|");
    let controlled = Rough { control_every: 3, ..Rough::at(0.5) };
    let (each, any) = touched(&controlled, RUNS);
    let (skewed, any_skewed) = touched(&Rough { blank_cv: 1.0, ..controlled }, RUNS);
    for ((check, share), other) in CHECKS.iter().zip(&each).zip(&skewed) {
        println!("| {check} | {} | {} |", percent(*share), percent(*other));
    }
    println!("| any of them | {} | {} |", percent(any), percent(any_skewed));
    println!(
        "\n| blanks | spread | named, none raised | one 5 times | one 20 times | one 40 times |\n|---|---|---|---|---|---|"
    );
    for blanks in [3, 4, 6] {
        for cv in [0.3, 1.0] {
            let named = [1.0, 5.0, 20.0, 40.0].map(|times| percent(blank_named(blanks, cv, times, RUNS)));
            println!("| {blanks} | lognormal, cv {cv} | {} |", named.join(" | "));
        }
    }
}
