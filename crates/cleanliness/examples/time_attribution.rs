//! Times of the non-negative fit, of an attribution of 60 bottles × 8 sources × 20 metals, and of ranking
//! 100,000 plans, as one JSON line; the peer's times are taken in the same run by `bench/attribution/run.py`.

use cleanliness::attribution::{Bottle, Kind, Spikes, Survey, attribute};
use cleanliness::nnls::{Nnls, gram, project};
use cleanliness::plan::{Choices, Laboratory, Past, Planning, Prices, Question, rank};
use rayon::prelude::*;
use std::hint::black_box;
use std::time::Instant;

/// Remainders of products: a design without a file.
fn entry(i: usize, j: usize) -> f64 {
    ((i * 37 + j * 101 + i * j * 13) % 97) as f64 / 97.0
}

/// Right-hand side k: some sources positive, some pulled below zero, and an even scatter.
fn side(k: usize) -> Vec<f64> {
    (0..60)
        .map(|i| {
            entry(i, 0) - 0.3 * entry(i, 3)
                + 2.0 * entry(i, 6)
                + entry(i, k % 8)
                + ((17 * i + 5 * k) % 23) as f64 / 23.0
                - 0.5
        })
        .collect()
}

fn survey(metal: usize) -> Survey {
    let noise = |i: usize| ((i * 71 + metal * 29) % 53) as f64 / 53.0 - 0.5;
    let bottles = (0..60)
        .map(|i| {
            let sample = i % 3 == 0;
            let exposures: Vec<f64> = (0..8).map(|j| entry(i, j) * 5.0).collect();
            let other: f64 = exposures.iter().enumerate().map(|(j, x)| x * (j % 4) as f64 * 0.5).sum();
            let volume_ml = 125.0 * (1 + i % 4) as f64;
            let truth = other + if sample { volume_ml * (0.2 + metal as f64 * 0.1) } else { 0.0 };
            Bottle {
                name: format!("B{i}"),
                kind: if sample { Kind::Sample } else { Kind::Blank },
                water: sample.then(|| "SL-2".to_string()),
                volume_ml,
                mass_pg: truth + 4.0 * noise(i),
                u_pg: 1.0,
                exposures,
            }
        })
        .collect();
    Survey {
        sources: (0..8).map(|j| format!("source {j}")).collect(),
        bottles,
        recovery: (1.0, 0.0),
        spikes: Spikes::default(),
    }
}

fn main() {
    let columns: Vec<f64> = (0..8).flat_map(|j| (0..60).map(move |i| entry(i, j))).collect();
    let sides: Vec<Vec<f64>> = (0..64).map(side).collect();
    let (mut solver, mut atb, mut x) = (Nnls::new(8), [0.0; 8], [0.0; 8]);
    let rounds = 2000;
    let g = gram(&columns, 8);
    let start = Instant::now();
    for _ in 0..rounds {
        for b in &sides {
            project(&columns, black_box(b), &mut atb);
            solver.solve(&g, &atb, &mut x).expect("the fit settles");
            black_box(&x);
        }
    }
    let fit_ns = start.elapsed().as_nanos() as f64 / f64::from(rounds) / sides.len() as f64;
    let start = Instant::now();
    for _ in 0..rounds / 4 {
        for b in &sides {
            let g = gram(black_box(&columns), 8);
            project(&columns, black_box(b), &mut atb);
            solver.solve(&g, &atb, &mut x).expect("the fit settles");
            black_box(&x);
        }
    }
    let fit_with_gram_ns = start.elapsed().as_nanos() as f64 / f64::from(rounds / 4) / sides.len() as f64;
    let surveys: Vec<Survey> = (0..20).map(survey).collect();
    let start = Instant::now();
    let fits: Vec<bool> = surveys.par_iter().map(|s| attribute(s).is_ok()).collect();
    let attribution_ms = start.elapsed().as_secs_f64() * 1e3;
    assert!(fits.into_iter().all(|ok| ok), "every metal has an answer");
    let planning = Planning {
        question: Question::Limit { level: 0.9, limit: 1.1 },
        past: Past {
            blank_pg: 10.0,
            pg_per_minute: 2.0,
            between_pg: 3.0,
            between_share: 0.2,
            laboratory_pg: 2.0,
            relative_sd: 0.04,
            dof: 6.0,
            spike_sd: 0.06,
            recovery_u: 0.08,
        },
        prices: Prices { bottle: 40.0, spike: 60.0, minute_saved: 1.0, litre: 0.5, trip: 300.0, vial: 25.0 },
        choices: Choices {
            samples: (1..=8).collect(),
            field_blanks: (2..=11).collect(),
            trip_blanks: (0..5).collect(),
            bottle_blanks: (0..5).collect(),
            spikes: (0..5).collect(),
            volume_ml: vec![60.0, 125.0, 250.0, 500.0, 1000.0],
            minutes: vec![1.0, 2.0, 5.0, 10.0],
            laboratory: Laboratory::default(),
        },
        wells: 2,
        needs: vec![],
    };
    let c = &planning.choices;
    let plans = c.samples.len()
        * c.field_blanks.len()
        * c.trip_blanks.len()
        * c.bottle_blanks.len()
        * c.spikes.len()
        * c.volume_ml.len()
        * c.minutes.len();
    let start = Instant::now();
    let front = rank(&planning).map_or(0, |f| f.len());
    let plans_s = start.elapsed().as_secs_f64();
    println!(
        r#"{{"nnls_ns":{fit_ns:.0},"nnls_with_gram_ns":{fit_with_gram_ns:.0},"attribution_60x8x20_ms":{attribution_ms:.1},"plans":{plans},"plans_s":{plans_s:.2},"front":{front}}}"#
    );
}
