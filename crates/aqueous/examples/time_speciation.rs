//! Times the solver on waters of 20 components and 123 species, and writes the same problem for
//! the general-purpose peers: `time_speciation PROBLEM.json [count]`. Prints one line a figure.
//! See `bench/speciation/README.md`.

use aqueous::batch::{Batch, Water};
use aqueous::network::{self, network};
use aqueous::solver::{Balance, Choices, Equations, System};
use aqueous::water::debye_hueckel;
use core::f64::consts::LN_10;
use std::hint::black_box;
use std::time::Instant;

const COMPONENTS: [&str; 20] = [
    "Ca^2+", "Mg^2+", "Na+", "K+", "Cl-", "SO4^2-", "CO3^2-", "H4SiO4", "F-", "HS-", "PO4^3-", "Sr^2+", "Ba^2+",
    "Fe^2+", "Mn^2+", "Al^3+", "Pb^2+", "Zn^2+", "Fe^3+", "NO3-",
];
const T_C: f64 = 10.0;

/// A made-up aquifer's water: decades around usual values, pH 6 to 9.
fn totals(system: &System, k: usize, out: &mut [f64]) -> f64 {
    let net = network();
    let h = |j: usize| f64::from(((k * 7919 + j * 104_729 + 13) % 10_007) as u32) / 10_007.0;
    for (at, c) in system.components.iter().enumerate() {
        let middle = match net.components[*c].name.as_str() {
            "Ca^2+" | "CO3^2-" => -2.7,
            "Mg^2+" | "Na+" | "Cl-" => -3.2,
            "K+" | "SO4^2-" | "H4SiO4" => -3.8,
            "F-" | "NO3-" | "HS-" | "Sr^2+" => -5.0,
            "PO4^3-" | "Fe^2+" | "Mn^2+" | "Ba^2+" => -6.5,
            "Pb^2+" => -11.0,
            _ => -8.0,
        };
        out[at] = libm::exp10(middle + h(at) - 0.5);
    }
    6.0 + 3.0 * h(77)
}

/// Additions and multiplications a second that this build reaches on one core with nothing else
/// to do: eight lanes, four independent chains.
fn peak() -> f64 {
    let mut a = [[1.0_f64; 8]; 4];
    let b = black_box([1.000_000_1_f64; 8]);
    let start = Instant::now();
    let rounds = 20_000_000_u64;
    for _ in 0..rounds {
        for x in &mut a {
            for l in 0..8 {
                x[l] = x[l] * b[l] + 1e-9;
            }
        }
    }
    black_box(a);
    rounds as f64 * 64.0 / start.elapsed().as_secs_f64()
}

/// Seconds of processor time of all threads so far, where the system tells (clock ticks of 10 ms).
fn processor_s() -> f64 {
    let text = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after = text.rsplit(')').next().unwrap_or("");
    let ticks: f64 = after.split_whitespace().skip(11).take(2).filter_map(|t| t.parse::<f64>().ok()).sum();
    ticks * 0.01
}

fn main() {
    let path = std::env::args().nth(1).expect("where to write the problem");
    let count: usize = std::env::args().nth(2).map_or(100_000, |n| n.parse().expect("a number"));
    let cold = Instant::now();
    let net = network();
    let present: Vec<usize> = COMPONENTS.iter().map(|n| net.component(n).expect("in the table")).collect();
    let system = System::new(net, &present, &Choices::default());
    let ln_k = system.ln_k(&network::row_values(T_C));
    let dh = debye_hueckel(T_C);
    let mut w = vec![0.0; system.width()];
    let equations = |k: usize, w: &mut Vec<f64>| {
        let ph = totals(&system, k, w);
        let mut balance: Vec<Balance> = w.iter().map(|t| Balance::Total(*t)).collect();
        balance[0] = Balance::FixedLnActivity(-ph * LN_10);
        balance
    };
    let first = Equations { system: &system, ln_k: &ln_k, dh, balance: equations(0, &mut w), held: vec![] };
    black_box(first.solve().expect("it converges"));
    println!("one water, cold (tables read, network built): {:.3} ms", cold.elapsed().as_secs_f64() * 1e3);
    let calc = &aqueous::CALCULATIONS[0];
    let input = serde_json::from_str(calc.example).expect("the example is JSON");
    let start = Instant::now();
    black_box((calc.run)(&input).expect("the example runs"));
    println!(
        "whole answer of the example, doubt and alternatives included: {:.3} ms",
        start.elapsed().as_secs_f64() * 1e3
    );
    println!("components {} (and H+), species {}", system.width() - 1, system.species.len());

    let start = Instant::now();
    let n = 5_000;
    let mut iterations = 0;
    for k in 0..n {
        let eq = Equations { system: &system, ln_k: &ln_k, dh, balance: equations(k, &mut w), held: vec![] };
        iterations += eq.solve().expect("it converges").iterations;
    }
    println!(
        "one by one, one core: {:.1} µs a water, {:.1} iterations",
        start.elapsed().as_secs_f64() * 1e6 / f64::from(n as u32),
        iterations as f64 / n as f64
    );

    let batch = Batch::new(&system, None);
    let fill = |k: usize, w: &mut Water| {
        w.ln_h = -totals(&system, k, &mut w.totals) * LN_10;
        w.ln_k.copy_from_slice(&ln_k);
        w.dh = dh;
    };
    for size in [count / 10, count, count * 2] {
        let (start, cpu) = (Instant::now(), processor_s());
        let answers = batch.solve(size, fill);
        let (seconds, cpu) = (start.elapsed().as_secs_f64(), processor_s() - cpu);
        let steps: usize = answers.iter().map(|a| a.as_ref().expect("it converges").iterations).sum();
        let worst = answers.iter().map(|a| a.as_ref().expect("it converges").residual).fold(0.0, f64::max);
        let mean = steps as f64 / size as f64;
        let (each, beside) = batch.operations();
        let operations = (mean + 1.0) * each as f64 + beside as f64;
        let per_water = seconds * 1e6 / size as f64;
        println!(
            "batch of {size}, {} threads: {per_water:.2} µs a water ({:.2} µs of processor), {mean:.2} steps, worst residual {worst:.1e}, {operations:.0} operations a water",
            rayon::current_num_threads(),
            cpu * 1e6 / size as f64
        );
        let bound = operations / peak() * 1e6 / rayon::current_num_threads() as f64;
        println!("  floating-point bound of this build: {bound:.2} µs a water; factor {:.2}", per_water / bound);
    }
    write_problem(&path, &system, &ln_k, dh, count.min(20_000));
}

fn write_problem(path: &str, system: &System, ln_k: &[f64], dh: aqueous::water::DebyeHueckel, waters: usize) {
    let species: Vec<_> = (0..system.species.len())
        .map(|i| {
            let e = &system.species[i];
            let class = match e.class {
                aqueous::activity::Class::One => vec![0.0],
                aqueous::activity::Class::Neutral => vec![1.0],
                aqueous::activity::Class::Davies(z2) => vec![2.0, z2],
                aqueous::activity::Class::Extended { z2, a_angstrom, b } => vec![3.0, z2, a_angstrom, b],
            };
            serde_json::json!({"name": e.name, "charge": e.charge, "ln_k": ln_k[i], "terms": system.terms(i).collect::<Vec<_>>(), "class": class})
        })
        .collect();
    let mut w = vec![0.0; system.width()];
    let list: Vec<_> = (0..waters)
        .map(|k| {
            let ph = totals(system, k, &mut w);
            serde_json::json!({"ln_h": -ph * LN_10, "totals": w})
        })
        .collect();
    let answers: Vec<_> = (0..20)
        .map(|k| {
            let ph = totals(system, k, &mut w);
            let mut balance: Vec<Balance> = w.iter().map(|t| Balance::Total(*t)).collect();
            balance[0] = Balance::FixedLnActivity(-ph * LN_10);
            Equations { system, ln_k, dh, balance, held: vec![] }.solve().expect("it converges").x
        })
        .collect();
    let v = serde_json::json!({"width": system.width(), "A": dh.a, "B": dh.b, "species": species, "waters": list, "answers": answers});
    std::fs::write(path, v.to_string()).expect("the problem can be written");
}
