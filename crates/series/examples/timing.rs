//! Times one function of `series` on a CSV file; used by `bench/series/bench.py`.
//!
//! `timing slope|product-limit|lognormal|survey FILE` prints one JSON line: seconds of
//! several repeats (slope: mean processor time; fits: best wall time;
//! survey: one run on the wall), and the
//! answer. Files: `slope` has x,y rows; `product-limit` and `lognormal`
//! value,nondetect rows; `survey` group,year,value,nondetect rows.

use series::likelihood::{self, Family};
use series::slope::{PairSlopes, Point};
use series::survey::{self, Row};
use series::{Observation, Reading, kendall, product_limit};
use std::time::Instant;

fn numbers(text: &str) -> Vec<Vec<f64>> {
    let row = |l: &str| l.split(',').map(|c| c.parse().expect("a number")).collect();
    text.lines().skip(1).map(row).collect()
}

fn reading(value: f64, mark: f64) -> Reading {
    if mark > 0.5 { Reading::Below(value) } else { Reading::Known(value) }
}

/// Processor time of this thread, where the system tells it: on a busy machine the clock on the
/// wall counts the others too. It moves in steps of milliseconds.
fn cpu_seconds() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(text.split(' ').next()?.parse::<f64>().ok()? * 1e-9)
}

/// Mean processor time of repeats: for what takes milliseconds.
fn mean<T>(repeats: u32, mut f: impl FnMut() -> T) -> (f64, T) {
    let (wall, cpu) = (Instant::now(), cpu_seconds());
    for _ in 1..repeats {
        std::hint::black_box(f());
    }
    let answer = f();
    let spent = cpu_seconds().zip(cpu).map_or_else(|| wall.elapsed().as_secs_f64(), |(b, a)| b - a);
    (spent / f64::from(repeats), answer)
}

/// Best time on the wall: for what takes microseconds.
fn best<T>(repeats: u32, mut f: impl FnMut() -> T) -> (f64, T) {
    let mut seconds = f64::INFINITY;
    let mut answer = None;
    for _ in 0..repeats {
        let start = Instant::now();
        answer = Some(f());
        seconds = seconds.min(start.elapsed().as_secs_f64());
    }
    (seconds, answer.expect("at least one repeat"))
}

/// Slope and the interval of |S| ≤ z·σ, as the peer gives it.
fn slope(rows: &[Vec<f64>]) -> (f64, (f64, f64)) {
    let points = rows.iter().map(|r| Point { x: r[0], y: r[1], known: true }).collect();
    let x: Vec<f64> = rows.iter().map(|r| r[0]).collect();
    let y: Vec<f64> = rows.iter().map(|r| r[1]).collect();
    let variance = kendall::s_variance(&kendall::Codes::of_values(&x), &kendall::Codes::of_values(&y));
    let mut pairs = PairSlopes::new(vec![points]);
    let b = pairs.estimate().expect("a slope");
    let c = statistics::normal::quantile(0.975) * variance.sqrt();
    (b, pairs.interval(c as u64))
}

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let [_, task, file] = args.as_slice() else {
        panic!("usage: timing TASK FILE");
    };
    let text = std::fs::read_to_string(file).expect("a readable file");
    match task.as_str() {
        "slope" => {
            let rows = numbers(&text);
            let (s, (b, (low, high))) = mean(if rows.len() > 10_000 { 20 } else { 100 }, || slope(&rows));
            println!("{{\"seconds\":{s},\"slope\":{b},\"low\":{low},\"high\":{high}}}");
        }
        "product-limit" | "lognormal" => {
            let data: Vec<Reading> = numbers(&text).iter().map(|r| reading(r[0], r[1])).collect();
            if task == "lognormal" {
                let (s, fit) = best(200, || likelihood::fit(&data, Family::Lognormal).expect("a fit"));
                let (mu, sigma) = fit.parameters();
                println!("{{\"seconds\":{s},\"mu\":{mu},\"sigma\":{sigma}}}");
            } else {
                let (s, pl) = best(200, || product_limit::product_limit(&data).expect("steps"));
                let lowest = pl.steps.last().expect("a step").share_at_or_below;
                println!("{{\"seconds\":{s},\"steps\":{},\"share_at_lowest\":{lowest}}}", pl.steps.len());
            }
        }
        "survey" => {
            let rows: Vec<Row> = text.lines().skip(1).map(survey_row).collect();
            drop(text);
            let start = Instant::now();
            let entries = survey::survey(&rows, &survey::Request::default());
            let s = start.elapsed().as_secs_f64();
            let trends = entries.iter().filter(|e| e.trend.is_ok()).count();
            println!("{{\"seconds\":{s},\"series\":{},\"trends\":{trends}}}", entries.len());
        }
        other => panic!("no task {other}"),
    }
}

fn survey_row(line: &str) -> Row {
    let (group, rest) = line.split_once(',').expect("a group");
    let n: Vec<f64> = rest.split(',').map(|c| c.parse().expect("a number")).collect();
    Row { group: group.into(), observation: Observation::new(n[0], reading(n[1], n[2])) }
}
