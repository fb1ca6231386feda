//! Two tables for `docs/validation`: how often intervals of reduced runs hold the truth, and how
//! often clean water is called detected with normal and with skewed blanks.
//! Run with `cargo run --release -p measurement --example coverage_table`.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{Random, Setting, lead, recipe, simulate};
use measurement::blank::{OrderLimit, centre, percentile_limit, robust_centre};
use measurement::run::{Role, reduce};

const RUNS: u64 = 10_000;

fn main() {
    coverage();
    false_detections();
}

/// 95 % intervals of lead at 1, 3 and 30 times the detection limit.
fn coverage() {
    println!("| components | level | covered | runs |\n|---|---|---|---|");
    let many = Setting { field_blanks: 12, replicates: 12, samples: 2, check_every: 1, ..Setting::default() };
    let few = Setting { field_blanks: 4, replicates: 3, samples: 2, ..Setting::default() };
    for (name, base) in [("at least 10 degrees of freedom", many), ("3 replicates, 4 blanks", few)] {
        // σ₀ of the net value at zero and its detection limit, from the setting.
        let n = base.field_blanks as f64;
        let sigma = lead().between_bottles * (1.0 + 1.0 / n).sqrt();
        let limit = sigma * statistics::noncentral::detection_delta(0.05, 0.05, n - 1.0);
        for times in [1.0, 3.0, 30.0] {
            let mut truth = lead();
            truth.water = times * limit;
            let setting = Setting { truths: vec![truth.clone()], ..base_of(&base) };
            let recipe = recipe(&setting);
            let mut inside = 0;
            for seed in 0..RUNS {
                let run = reduce(&simulate(&setting, 100_000 + seed), &recipe).expect("a simulated run");
                let r = run.results.iter().find(|r| r.role == Role::Sample).expect("a sample");
                inside += u64::from(r.interval[0] <= truth.water && truth.water <= r.interval[1]);
            }
            println!("| {name} | {times} × L_D | {:.1} % | {RUNS} |", 100.0 * inside as f64 / RUNS as f64);
        }
    }
}

fn base_of(s: &Setting) -> Setting {
    Setting {
        field_blanks: s.field_blanks,
        replicates: s.replicates,
        samples: s.samples,
        check_every: s.check_every,
        ..Setting::default()
    }
}

/// Blanks normal, or lognormal (25 %) with 3 % spikes of 2 to 20 times.
fn false_detections() {
    println!(
        "\n| blanks | n | t-based | robust | largest of n as limit | order limit (80th percentile, 95 %) |\n|---|---|---|---|---|---|"
    );
    for skewed in [false, true] {
        for n in [3_u32, 5, 7, 10, 14, 20, 40] {
            let mut random = Random::new(u64::from(n) + 1000 * u64::from(skewed));
            let mut draw = || {
                if !skewed {
                    return random.normal();
                }
                let base = (0.25 * random.normal()).exp();
                if random.uniform() < 0.03 { base * (2.0 + 18.0 * random.uniform()) } else { base }
            };
            let factor = statistics::t::upper_quantile(0.05, f64::from(n) - 1.0) * (1.0 + 1.0 / f64::from(n)).sqrt();
            let (mut t, mut robust, mut largest, mut order) = (0, 0, 0, 0);
            let runs = 100_000;
            let mut given = true;
            for _ in 0..runs {
                let blanks: Vec<f64> = (0..n).map(|_| draw()).collect();
                let sample = draw();
                let (c, r) = (centre(&blanks), robust_centre(&blanks));
                t += i32::from(sample - c.value > factor * c.sd);
                robust += i32::from(sample - r.value > factor * r.sd);
                largest += i32::from(blanks.iter().all(|b| sample > *b));
                match percentile_limit(&blanks, 0.8, 0.95) {
                    OrderLimit::Given { limit, .. } => order += i32::from(sample > limit),
                    OrderLimit::TooFew { .. } => given = false,
                }
            }
            let share = |k: i32| format!("{:.1} %", 100.0 * f64::from(k) / f64::from(runs));
            let order = if given { share(order) } else { "cannot be given".into() };
            let law = if skewed { "lognormal with spikes" } else { "normal" };
            println!("| {law} | {n} | {} | {} | {} | {order} |", share(t), share(robust), share(largest));
        }
    }
}
