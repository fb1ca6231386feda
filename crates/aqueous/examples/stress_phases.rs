//! Random waters brought to equilibrium with phases: how many find it, and which equations fail.
//! `stress_phases [count]`.

use aqueous::equilibrium::{Composition, Hold, Ph, speciate};
use aqueous::network::network;
use aqueous::random_waters;
use aqueous::solver::Choices;
use rayon::prelude::*;

fn main() {
    let count = std::env::args().nth(1).map_or(2000, |n| n.parse::<u64>().expect("a number"));
    let net = network();
    // In the last two the solids may only form.
    let form: &[(&str, f64)] = &[
        ("calcite", 0.0),
        ("aragonite", 0.0),
        ("dolomite disordered", 0.0),
        ("gypsum", 0.0),
        ("barite", 0.0),
        ("chalcedony", 0.0),
        ("gibbsite crystalline", 0.0),
        ("ferrihydrite", 0.0),
        ("fluorite", 0.0),
        ("cerussite", 0.0),
    ];
    let sets: [&[(&str, f64)]; 7] = [
        &[("CO2", -2.0), ("calcite", 0.0)],
        &[("calcite", 0.0)],
        &[("gypsum", 0.0), ("quartz", 0.0)],
        &[("barite", 0.0), ("fluorite", 0.0), ("CO2", -3.4)],
        &[("goethite", 0.0), ("gibbsite crystalline", 0.0), ("sphalerite", 0.0), ("galena", 0.0)],
        form,
        &form[..5],
    ];
    let start = std::time::Instant::now();
    for (k, set) in sets.iter().enumerate() {
        let failed: Vec<String> = (0..count)
            .into_par_iter()
            .filter_map(|i| {
                let t = random_waters::water(net, i);
                let c = Composition {
                    temperature_c: t.t_c,
                    ph: Ph::Given(t.ph.clamp(3.0, 11.0)),
                    totals: t.totals,
                    alkalinity: None,
                    pe: None,
                    choices: Choices::default(),
                };
                let w = match speciate(&c) {
                    Ok(w) => w,
                    Err(e) => return Some(format!("{i} before: {e}")),
                };
                let supply = if k >= 5 { 0.0 } else { f64::INFINITY };
                let hold = |(n, s): &(&str, f64)| Hold { name: (*n).into(), target: *s, available_mol_kg: supply };
                let holds: Vec<Hold> = set.iter().map(hold).collect();
                w.equilibrate(&holds).err().map(|e| format!("{i}: {e}"))
            })
            .collect();
        let beyond = failed.iter().filter(|f| f.contains("ionic strength is")).count();
        println!("set {k}: {} of {count} failed, {beyond} of them beyond 0.5 mol/kg", failed.len());
        for f in failed.iter().filter(|f| !f.contains("ionic strength is")).take(6) {
            println!("  {f}");
        }
    }
    println!("{:.1} s", start.elapsed().as_secs_f64());
}
