//! Runs with one fault each, beside the same runs without: how often the check names the fault at a result, how often
//! the 95 % interval holds the truth, how often a metal is detected. Numbers of the table in
//! docs/validation/run_checks.md.

use super::{Moves, Rough, rates};
use measurement::run::{self, Recipe, ReducedRun, Role, RunInput, State};
use quantity::{Check, Outcome};

pub struct Scenario {
    pub name: &'static str,
    pub check: Check,
    pub target: &'static str,
    pub clean: Rough,
    pub faulty: Rough,
    pub spoil: fn(&mut RunInput),
    pub recipe: fn(&mut Recipe),
}

/// What is done to the run and to its recipe.
type Fault = (fn(&mut RunInput), fn(&mut Recipe));

#[derive(Default, Debug, Clone, Copy)]
pub struct Seen {
    pub named: f64,
    pub covered: f64,
    pub detected: f64,
}

impl Scenario {
    /// Shares of runs without and with the fault.
    pub fn seen(&self, runs: u64) -> (Seen, Seen) {
        let clean = self.shares(&self.clean, runs, None);
        (clean, self.shares(&self.faulty, runs, Some((self.spoil, self.recipe))))
    }

    fn shares(&self, setting: &Rough, runs: u64, fault: Option<Fault>) -> Seen {
        let index: usize = self.target.trim_start_matches("sample ").parse().expect("a sample");
        let truth = setting.samples[index];
        let mut s = Seen::default();
        for seed in 0..runs {
            let (mut input, mut recipe) = (setting.simulate(1000 + seed), setting.recipe());
            if let Some((spoil, change)) = fault {
                spoil(&mut input);
                change(&mut recipe);
            }
            let run = run::reduce(&input, &recipe).expect("a simulated run");
            let i = run.results.iter().position(|r| r.vial == self.target).expect("a sample");
            let r = &run.results[i];
            s.named += f64::from(u8::from(named(&run, i, self.check)));
            s.covered += f64::from(u8::from(r.interval[0] <= truth && truth <= r.interval[1]));
            s.detected += f64::from(u8::from(r.state != State::NotDetected));
        }
        let n = runs as f64;
        Seen { named: s.named / n, covered: s.covered / n, detected: s.detected / n }
    }
}

/// Whether a check says anything but "met" at a result.
pub fn named(run: &ReducedRun, result: usize, check: Check) -> bool {
    run.findings_of(result).any(|f| f.finding.check == check && f.finding.outcome != Outcome::Met)
}

fn nothing(_: &mut RunInput) {}
fn as_it_is(_: &mut Recipe) {}

fn particle(input: &mut RunInput) {
    rates(input, "sample 5", "Cd")[1] *= 3.0;
}

fn halved_standard(input: &mut RunInput) {
    for x in rates(input, "standard 3", "In") {
        *x *= 0.5;
    }
}

fn written_twice(input: &mut RunInput) {
    for element in ["Cd", "In"] {
        let kept = rates(input, "sample 4", element).clone();
        *rates(input, "sample 5", element) = kept;
    }
}

fn no_dark_rate(recipe: &mut Recipe) {
    recipe.dark_rates.clear();
}

fn too_short(recipe: &mut Recipe) {
    recipe.dead_time.ns = 20.0;
}

fn after_high(carry_over: f64) -> Rough {
    let mut s = Rough { carry_over, ..Rough::at(0.0) };
    s.samples[6] = 400.0;
    s
}

fn weak_and_diluted(dark_cps: f64) -> Rough {
    let mut s = Rough { dark_cps, ..Rough::at(0.0) };
    s.dilution[5] = 10.0;
    s.matrix[5] = 0.7;
    s
}

pub fn all() -> Vec<Scenario> {
    let of = |name, check, target, clean: Rough, faulty: Rough| Scenario {
        name,
        check,
        target,
        clean,
        faulty,
        spoil: nothing,
        recipe: as_it_is,
    };
    let bright = |dead_time_ns| Rough { sensitivity: 2e6, dead_time_ns, ..Rough::at(2.0) };
    let drifting = |open, moves| Rough { open, moves, ..Rough::at(2.0) };
    let controlled = |moves| Rough { control_every: 3, moves, ..Rough::at(2.0) };
    let uncontrolled = |moves| Rough { moves, ..Rough::at(2.0) };
    // One wave between neighbouring checks, and two over the calibration: each check meets the same place of it.
    let wave = Moves::Wave(0.05, 36.0);
    vec![
        Scenario {
            spoil: particle,
            ..of(
                "one replicate of three threefold, no metal",
                Check::RunReplicateOutlier,
                "sample 5",
                Rough::at(0.0),
                Rough::at(0.0),
            )
        },
        of(
            "carry-over of 1e-4 after 400 ng/L, no metal",
            Check::RunWashOut,
            "sample 7",
            Rough::at(0.0),
            after_high(1e-4),
        ),
        Scenario {
            recipe: no_dark_rate,
            ..of(
                "dark rate of 20 counts/s not recorded, internal standard at 70 %, dilution 10, no metal",
                Check::RunDetectorBackground,
                "sample 5",
                weak_and_diluted(20.0),
                weak_and_diluted(20.0),
            )
        },
        Scenario {
            recipe: too_short,
            ..of(
                "top standard 30 % dead, dead time 24 ns taken as 20 ns",
                Check::RunStandardSignal,
                "sample 5",
                Rough::at(2.0),
                bright(24.0),
            )
        },
        Scenario {
            spoil: halved_standard,
            ..of(
                "internal standard halved in one standard",
                Check::RunStandardSignal,
                "sample 5",
                Rough::at(2.0),
                Rough::at(2.0),
            )
        },
        of(
            "linear drift, 5 % an hour, no check after the last vial",
            Check::RunDriftOpen,
            "sample 13",
            drifting(false, Moves::Line(0.05)),
            drifting(true, Moves::Line(0.05)),
        ),
        of(
            "random drift, 3 % an hour, no check after the last vial",
            Check::RunDriftOpen,
            "sample 13",
            drifting(false, Moves::Walk(0.03)),
            drifting(true, Moves::Walk(0.03)),
        ),
        of(
            "wave of 5 % between the checks, a reference material five times",
            Check::RunFastDrift,
            "sample 4",
            controlled(Moves::Steady),
            controlled(wave),
        ),
        of(
            "wave of 5 % between the checks, no second control",
            Check::RunFastDrift,
            "sample 5",
            uncontrolled(Moves::Steady),
            uncontrolled(wave),
        ),
        Scenario {
            spoil: written_twice,
            ..of("one vial written twice", Check::RunRepeatedReadings, "sample 5", Rough::at(0.5), Rough::at(0.5))
        },
    ]
}

/// The checks that this simulator is for.
pub const CHECKS: [Check; 8] = [
    Check::RunReplicateOutlier,
    Check::RunWashOut,
    Check::RunDetectorBackground,
    Check::RunStandardSignal,
    Check::RunDriftOpen,
    Check::RunFastDrift,
    Check::RunRepeatedReadings,
    Check::RunBlankOutlier,
];

/// Shares of sample results of clean runs at which each check says anything but "met", and at which any does.
pub fn touched(setting: &Rough, runs: u64) -> (Vec<f64>, f64) {
    let (mut each, mut any, mut all) = (vec![0.0; CHECKS.len()], 0.0, 0.0);
    for seed in 0..runs {
        let run = run::reduce(&setting.simulate(50_000 + seed), &setting.recipe()).expect("a simulated run");
        for i in (0..run.results.len()).filter(|i| run.results[*i].role == Role::Sample) {
            let told = CHECKS.map(|c| named(&run, i, c));
            all += 1.0;
            any += f64::from(u8::from(told.contains(&true)));
            for (sum, t) in each.iter_mut().zip(told) {
                *sum += f64::from(u8::from(t));
            }
        }
    }
    (each.iter().map(|x| x / all).collect(), any / all)
}

/// Share of runs in which a blank is named: good blanks, and one of them raised.
pub fn blank_named(blanks: usize, cv: f64, times: f64, runs: u64) -> f64 {
    let setting = Rough { field_blanks: blanks, blank_cv: cv, ..Rough::at(0.5) };
    let mut named = 0.0;
    for seed in 0..runs {
        let mut input = setting.simulate(90_000 + seed);
        for x in rates(&mut input, "blank 1", "Cd") {
            *x *= times;
        }
        let run = run::reduce(&input, &setting.recipe()).expect("a simulated run");
        let told = |f: &run::RunFinding| f.finding.check == Check::RunBlankOutlier;
        named += f64::from(u8::from(run.findings.iter().any(told)));
    }
    named / runs as f64
}
