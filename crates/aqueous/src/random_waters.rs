//! Random waters over the whole stated range, for stress tests and benchmarks: pH 2 to 12,
//! 0 to 40 °C, from nearly nothing to 0.45 mol/kg, trace components down to 1e−20 mol/kg.
//!
//! In: an index. Out: the water of that index, the same on every machine (ChaCha8, one stream an
//! index). The shares of the kinds (pH given with carbon total, with alkalinity, pH from charge)
//! are 60, 20 and 20 %. Nothing here claims to look like a real aquifer.

use crate::network::{Network, PROTON};
use crate::solver::{Balance, Choices, Equations, Solution, System};
use crate::water::debye_hueckel;
use crate::{Error, network};
use core::f64::consts::LN_10;
use rand::{Rng, RngExt, SeedableRng, rngs::ChaCha8Rng};

/// One random water.
#[derive(Debug, Clone, PartialEq)]
pub struct RandomWater {
    /// Temperature, °C.
    pub t_c: f64,
    /// pH that the water has (or had, where it is then asked for).
    pub ph: f64,
    /// Network index and total, mol/kg.
    pub totals: Vec<(usize, f64)>,
    /// Carbon is to be found again from the alkalinity that the water had.
    pub alkalinity: bool,
    /// pH is to be found from the charge that the water had at `ph`.
    pub from_charge: bool,
}

/// Range of log10 of the total, mol/kg.
fn range(name: &str) -> (f64, f64) {
    match name {
        "Ca^2+" | "Mg^2+" | "Na+" | "K+" | "Cl-" | "SO4^2-" | "CO3^2-" => (-7.0, -1.0),
        "H4SiO4" | "NO3-" | "HS-" | "B(OH)3" | "F-" | "NH4+" => (-8.0, -2.3),
        "PO4^3-" | "Sr^2+" | "Ba^2+" | "Fe^2+" | "Mn^2+" | "Al^3+" | "Br-" | "Li+" => (-12.0, -3.0),
        _ => (-20.0, -4.0),
    }
}

/// The water of an index.
pub fn water(network: &Network, index: u64) -> RandomWater {
    // Any fixed number serves; it only makes the set the same everywhere.
    let mut rng = ChaCha8Rng::seed_from_u64(20_261_125);
    rng.set_stream(index);
    let alkalinity = rng.random_bool(0.2);
    let from_charge = !alkalinity && rng.random_bool(0.25);
    let ph = if alkalinity { uniform(&mut rng, 5.0, 11.0) } else { uniform(&mut rng, 2.0, 12.0) };
    let mut totals = Vec::new();
    for (j, c) in network.components.iter().enumerate().skip(2) {
        let (low, high) = range(&c.name);
        if rng.random_bool(0.8) {
            totals.push((j, libm::exp10(uniform(&mut rng, low, high))));
        }
    }
    let ionic: f64 = totals
        .iter()
        .map(|(c, t)| {
            let z = f64::from(network.components[*c].charge.abs().max(1));
            0.5 * z * z * t
        })
        .sum();
    if ionic > 0.4 {
        for (_, t) in &mut totals {
            *t *= 0.4 / ionic;
        }
    }
    RandomWater { t_c: uniform(&mut rng, 0.0, 40.0), ph, totals, alkalinity, from_charge }
}

fn uniform(rng: &mut impl Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * rng.random::<f64>()
}

/// Solves a trial from scratch with the whole table.
///
/// # Errors
/// Those of [`Equations::solve`].
pub fn solve(trial: &RandomWater) -> Result<Solution, Error> {
    let network = network::network();
    let present: Vec<usize> = trial.totals.iter().map(|(c, _)| *c).collect();
    let system = System::new(network, &present, &Choices::default());
    let ln_k = system.ln_k(&network::row_values(trial.t_c));
    let mut balance = vec![Balance::FixedLnActivity(-trial.ph * LN_10); system.width()];
    for (c, t) in &trial.totals {
        let at = system.position(*c).expect("every component of the trial is in its system");
        balance[at] = Balance::Total(*t);
    }
    let mut eq = Equations { system: &system, ln_k: &ln_k, dh: debye_hueckel(trial.t_c), balance, held: vec![] };
    let solution = eq.solve()?;
    let sum = |c: &[f64]| c.iter().zip(&solution.molality).map(|(c, m)| c * m).sum();
    if trial.from_charge {
        eq.balance[PROTON] = Balance::Charge(sum(system.charges()));
        return eq.solve();
    }
    let carbon = network.component("CO3^2-").and_then(|c| system.position(c));
    if let (true, Some(at)) = (trial.alkalinity, carbon) {
        eq.balance[at] = Balance::Alkalinity(sum(system.alkalinities()));
        return eq.solve();
    }
    Ok(solution)
}
