//! The tables of `docs/validation/bounds.md`: how often intervals and upper bounds of reduced runs hold the truth, over
//! all samples and among those that were not detected, and how often clean water is called detected, with few blanks,
//! few replicates, few counts, and with a replicate that went wrong.
//! Run with `cargo run --release -p measurement --example bounds_table`.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{Random, Setting, Truth, lead, recipe, simulate};
use measurement::run::{EarlierBlanks, Role, RunInput, State, blank_spreads, reduce};

const RUNS: u64 = 4000;

fn main() {
    bounds();
    scatter();
    earlier();
}

#[derive(Default)]
struct Seen {
    all: u64,
    inside: u64,
    under: u64,
    below: u64,
    below_under: u64,
    undecided: u64,
    found: u64,
}

impl Seen {
    fn of(setting: &Setting, first_seed: u64, change: impl Fn(&mut RunInput)) -> Self {
        let truth = setting.truths[0].water;
        let recipe = recipe(setting);
        let mut s = Self::default();
        for seed in first_seed..first_seed + RUNS {
            let mut input = simulate(setting, seed);
            change(&mut input);
            let run = reduce(&input, &recipe).expect("a simulated run");
            let r = run.results.iter().find(|r| r.role == Role::Sample).expect("a sample");
            let under = truth <= r.upper_bound;
            s.all += 1;
            s.inside += u64::from(r.interval[0] <= truth && truth <= r.interval[1]);
            s.under += u64::from(under);
            match r.state {
                State::NotDetected => {
                    s.below += 1;
                    s.below_under += u64::from(under);
                }
                State::NotDecided => s.undecided += 1,
                State::Detected | State::Quantified => s.found += 1,
            }
        }
        s
    }
}

fn percent(n: u64, of: u64) -> String {
    if of == 0 { "none".into() } else { format!("{:.1} %", 100.0 * n as f64 / of as f64) }
}

/// Counts of some 500 a vial in a blank, and of some 10.
fn truths(few: bool) -> Truth {
    if few {
        Truth {
            background_cps: 0.2,
            sensitivity: 12.0,
            calibration_blank: 0.01,
            field_blank: 0.05,
            between_bottles: 0.005,
            ..lead()
        }
    } else {
        lead()
    }
}

fn setting(few: bool, blanks: usize, replicates: usize, water: f64) -> Setting {
    Setting {
        truths: vec![Truth { water, ..truths(few) }],
        samples: 2,
        field_blanks: blanks,
        replicates,
        ..Setting::default()
    }
}

fn bounds() {
    println!(
        "| counts of a blank | blanks | replicates | level | interval holds | bound holds | not detected | bound holds among them |\n|---|---|---|---|---|---|---|---|"
    );
    let mut seed = 1_000_000;
    for few in [false, true] {
        for (blanks, replicates) in [(3, 3), (5, 3), (10, 3), (3, 6), (10, 6)] {
            // L_D from the spread of the setting, by eye the level where half and half are found and more.
            let t = truths(few);
            let time = replicates as f64 * 3.0;
            let counts = (t.background_cps * 3.0 + t.sensitivity * (t.field_blank + t.calibration_blank)) * time;
            let counted = counts.sqrt() / (t.sensitivity * time);
            let s0 = t.between_bottles.hypot(counted) * (1.0 + 1.0 / blanks as f64).sqrt();
            for (name, level) in [("0", 0.0), ("2 s₀", 2.0), ("4 s₀", 4.0), ("40 s₀", 40.0)] {
                let s = Seen::of(&setting(few, blanks, replicates, level * s0), seed, |_| ());
                seed += RUNS;
                println!(
                    "| {counts:.0} | {blanks} | {replicates} | {name} | {} | {} | {} | {} |",
                    percent(s.inside, s.all),
                    percent(s.under, s.all),
                    percent(s.below, s.all),
                    percent(s.below_under, s.below)
                );
            }
        }
    }
}

/// Makes one replicate of the first sample three times too high.
fn spoil(input: &mut RunInput) {
    let at = input.vials.iter().find(|v| v.name == "sample 0").expect("a sample").position;
    for r in input.readings.iter_mut().filter(|r| r.position == at && r.isotope.element == "Pb") {
        r.rates_cps[0] *= 3.0;
    }
}

fn scatter() {
    println!(
        "\n| counts of a blank | blanks | replicates | one replicate | detected | not decided |\n|---|---|---|---|---|---|"
    );
    let mut seed = 2_000_000;
    for few in [false, true] {
        for (blanks, replicates) in [(3, 3), (6, 3), (10, 3), (6, 6)] {
            for (name, wrong) in [("as the others", false), ("three times too high", true)] {
                let set = setting(few, blanks, replicates, 0.0);
                let s = Seen::of(&set, seed, |i| {
                    if wrong {
                        spoil(i);
                    }
                });
                seed += RUNS;
                let counts = if few { "few" } else { "many" };
                println!(
                    "| {counts} | {blanks} | {replicates} | {name} | {} | {} |",
                    percent(s.found, s.all),
                    percent(s.undecided, s.all)
                );
            }
        }
    }
}

/// Blanks of this run that scatter as those of ten earlier runs, and twice as much.
fn earlier() {
    println!(
        "\n| blanks a run | earlier runs | this run scatters | detected, earlier runs taken | this run alone | mean k | mean k, alone |\n|---|---|---|---|---|---|---|"
    );
    let mut seed = 3_000_000;
    for blanks in [3, 5] {
        for runs in [3, 10] {
            for times in [1.0, 2.0] {
                let before = setting(false, blanks, 3, 0.0);
                let mut now = setting(false, blanks, 3, 0.0);
                now.truths[0].between_bottles *= times;
                let recipe = recipe(&now);
                let mut random = Random::new(seed);
                let known = blank_spreads(&simulate(&before, 1), &recipe).expect("a simulated run");
                let lead = known.iter().find(|b| b.role == Role::FieldBlank).expect("field blanks").analyte.clone();
                let (mut found, mut k) = ([0, 0], [0.0, 0.0]);
                for _ in 0..RUNS {
                    let mut input = simulate(&now, seed);
                    seed += 1;
                    for (i, take) in [true, false].into_iter().enumerate() {
                        input.earlier_blanks = vec![];
                        if take {
                            input.earlier_blanks = (0..runs).map(|r| drawn(&mut random, &lead, r, blanks)).collect();
                        }
                        let run = reduce(&input, &recipe).expect("a simulated run");
                        let r = run.results.iter().find(|r| r.role == Role::Sample).expect("a sample");
                        found[i] += u64::from(matches!(r.state, State::Detected | State::Quantified));
                        k[i] += r.coverage_k / RUNS as f64;
                    }
                }
                println!(
                    "| {blanks} | {runs} | {} | {} | {} | {:.2} | {:.2} |",
                    if times > 1.0 { "twice as much" } else { "as they do" },
                    percent(found[0], RUNS),
                    percent(found[1], RUNS),
                    k[0],
                    k[1]
                );
            }
        }
    }
}

/// The spread of n blanks of the setting: bottle to bottle, and the counts of some 500.
fn drawn(random: &mut Random, analyte: &measurement::run::Analyte, run: usize, n: usize) -> EarlierBlanks {
    let (t, time) = (truths(false), 9.0);
    let counts = (3.0 * t.background_cps + t.sensitivity * (t.field_blank + t.calibration_blank)) * time;
    let sigma = t.between_bottles.hypot(counts.sqrt() / (t.sensitivity * time));
    let values: Vec<f64> = (0..n).map(|_| sigma * random.normal()).collect();
    let sd = statistics::sample::mean_sd(&values).map_or(0.0, |m| m.1);
    EarlierBlanks { run: format!("run {run}"), analyte: analyte.clone(), role: Role::FieldBlank, sd, n }
}
