//! Intervals of reduced runs against the truth of simulated ones.

mod common;

use common::*;
use measurement::run::{self, Role, State};

const RUNS: u64 = 400;

struct Seen {
    inside: usize,
    all: usize,
    detected: usize,
}

fn seen(setting: &Setting, element: &str, truth: f64, first_seed: u64) -> Seen {
    let recipe = recipe(setting);
    let mut s = Seen { inside: 0, all: 0, detected: 0 };
    for seed in 0..RUNS {
        let input = simulate(setting, first_seed + seed);
        let run = run::reduce(&input, &recipe).unwrap();
        // One sample of each run: samples of a run share line and blank, and are not independent.
        let r = run.results.iter().find(|r| r.role == Role::Sample && r.analyte.element == element).unwrap();
        s.all += 1;
        s.inside += usize::from(r.interval[0] <= truth && truth <= r.interval[1]);
        s.detected += usize::from(r.state != State::NotDetected);
    }
    s
}

#[test]
fn look() {
    let s = Setting::default();
    for (e, t) in [("Pb", 1.0), ("Cd", 0.3)] {
        let x = seen(&s, e, t, 1000);
        println!("{e}: {} of {}", x.inside, x.all);
    }
    let input = simulate(&s, 5);
    let run = run::reduce(&input, &recipe(&s)).unwrap();
    for r in run.results.iter() {
        println!(
            "{} {} gross {:.4} net {:.4} u {:.4} dof {:.1} {:?} {:?}",
            r.vial,
            r.analyte,
            r.gross.value,
            r.net.value,
            r.net.u,
            r.net.dof,
            r.state,
            r.limits.map(|l| (l.critical_value, l.detection_limit))
        );
    }
    let i = run.results.iter().position(|r| r.role == Role::Sample).unwrap();
    println!("{:#?}", run.results[i].budget);
    let d = run.derivation(i);
    for n in d.nodes.iter().rev().take(30) {
        println!("{} = {} | {} | {:?}", n.name, n.amount.in_words(), n.step, n.inputs);
    }
    println!("{}", d.nodes.len());
    for f in &run.findings {
        println!("{:?} {}: {}", f.finding.outcome, f.finding.check, f.finding.sentence);
    }
}
