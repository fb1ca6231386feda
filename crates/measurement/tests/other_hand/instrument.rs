//! The instrument of the second simulator: sensitivity that walks and waves, flicker, dead time, current in place of
//! pulses, counts. Rates in counts/s, times in minutes.

use super::chance::Chance;
use super::design::{Design, Fault, MOLYBDENUM_MASS, Metal};
use super::generator::{ASKED, Content, acid_of_the_instrument, molybdenum_cps};
use measurement::run::{Isotope, Mode, Reading, Recipe, Role, RunInput};
use std::f64::consts::TAU;

pub const DEAD_TIME_NS: f64 = 20.0;
pub const U_DEAD_TIME_NS: f64 = 1.0;
/// Counts/s per unit of current, and its relative u.
pub const CROSS_FACTOR: f64 = 1000.0;
pub const U_CROSS_FACTOR: f64 = 0.01;
/// Internal standards with their counts/s.
pub const INTERNAL: [(&str, u16, f64); 2] = [("In", 115, 60_000.0), ("Ir", 193, 40_000.0)];

/// Pulses from here on are read as a current, where the metal is one of the high ones.
const CURRENT_FROM_CPS: f64 = 1e6;
/// Metals read by pulses and by current stand this far over lead.
const HIGH_SCALE: f64 = 1000.0;
/// Oxide of molybdenum per count of molybdenum.
const OXIDE: f64 = 0.0002;

/// Sensitivity by vial, as shares of that of the first.
struct Sensitivity {
    /// Shared by all isotopes.
    common: Vec<f64>,
    /// Of each metal, that the internal standards do not see.
    rest: Vec<Vec<f64>>,
}

/// The detector as it is, not as the recipe says.
struct Detector {
    dead_time_s: f64,
    extending: bool,
    cross_factor: f64,
}

/// Counts all vials.
pub fn measure(
    design: &Design,
    fault: Fault,
    contents: Vec<Content>,
    recipe: &Recipe,
    chance: &mut Chance,
) -> RunInput {
    let sensitivity = sensitivity(design, fault, &contents, chance);
    let longer = if fault == Fault::LongerDeadTime { 1.2 } else { 1.0 };
    let detector = Detector {
        dead_time_s: 1e-9 * longer * (recipe.dead_time.ns + recipe.dead_time.u_ns * chance.normal()),
        extending: fault == Fault::ExtendingDeadTime,
        cross_factor: recipe.analogue_factor.value * (1.0 + U_CROSS_FACTOR * chance.normal()),
    };
    let oxide = OXIDE * chance.lognormal(1.0, 0.2);
    let mut input = RunInput { name: "second simulator".into(), ..RunInput::default() };
    for (i, content) in contents.iter().enumerate() {
        let rates = rates(design, content, (&sensitivity, i), oxide, chance);
        read(design, content, &rates, &detector, chance, &mut input);
    }
    input.vials = contents.into_iter().map(|c| c.vial).collect();
    input
}

fn sensitivity(design: &Design, fault: Fault, contents: &[Content], chance: &mut Chance) -> Sensitivity {
    let n = contents.len();
    let second_day: Vec<bool> = contents.iter().map(|c| c.vial.session > 0).collect();
    // A walk of 0.3 % a vial and a slow wave of 3 %, which the internal standard sees.
    let mut common = wander(n, 0.003, 0.03, n as f64, chance);
    let between_checks = way_between_checks(contents);
    let rest = design
        .metals
        .iter()
        .map(|_| {
            // What it does not see: a walk of 0.07 % a vial, a wave of 0.3 % over one and a half runs.
            let mut rest = wander(n, 0.0007, 0.003, 1.5 * n as f64, chance);
            let phase = chance.between(0.0, TAU);
            for (i, r) in rest.iter_mut().enumerate() {
                match fault {
                    Fault::WarmUp => *r *= 1.0 + 0.05 * (-(i as f64) / 8.0).exp(),
                    Fault::Wave => *r *= 1.0 + 0.04 * (TAU * between_checks[i] + phase).sin(),
                    _ => {}
                }
                *r *= if second_day[i] { 0.9 } else { 1.0 };
            }
            rest
        })
        .collect();
    for (c, second) in common.iter_mut().zip(second_day) {
        *c *= if second { 0.75 } else { 1.0 };
    }
    Sensitivity { common, rest }
}

/// How far each vial stands on the way from one drift check to the next, 0 to 1; outside them as if one stood at the
/// end of the run.
fn way_between_checks(contents: &[Content]) -> Vec<f64> {
    let is_check = |i: usize| contents[i].vial.role == Role::DriftCheck;
    (0..contents.len())
        .map(|i| {
            let before = (0..=i).rev().find(|k| is_check(*k)).unwrap_or(0);
            let after = (i + 1..contents.len()).find(|k| is_check(*k)).unwrap_or(contents.len());
            (i - before) as f64 / (after - before) as f64
        })
        .collect()
}

/// A random walk times a wave.
fn wander(n: usize, step: f64, height: f64, period: f64, chance: &mut Chance) -> Vec<f64> {
    let phase = chance.between(0.0, TAU);
    let mut walk = 1.0;
    (0..n)
        .map(|i| {
            walk *= 1.0 + step * chance.normal();
            walk * (1.0 + height * (TAU * i as f64 / period + phase).sin())
        })
        .collect()
}

/// Mean rates that reach the detector, isotope by isotope.
fn rates(
    design: &Design,
    content: &Content,
    (sensitivity, at): (&Sensitivity, usize),
    oxide: f64,
    chance: &mut Chance,
) -> Vec<(Isotope, f64)> {
    let dark = design.dark_cps;
    let plasma = if content.vial.role == Role::GasBackground { 0.0 } else { sensitivity.common[at] * content.matrix };
    let mut rates: Vec<(Isotope, f64)> = INTERNAL
        .iter()
        .map(|(element, mass, cps)| {
            let rate = cps * plasma * content.internal * (1.0 + 0.002 * chance.normal());
            (Isotope::counting(element, *mass, "low"), rate + dark)
        })
        .collect();
    let molybdenum = molybdenum_cps(content, design.brightness) * plasma;
    for (k, m) in design.metals.iter().enumerate() {
        let level = content.solution[k] + acid_of_the_instrument(m);
        // Vials of one solution differ by 0.3 %.
        let vial = sensitivity.rest[k][at] * (1.0 + 0.003 * chance.normal());
        let signal = level * m.sensitivity * design.brightness * plasma * vial;
        for (mass, share) in m.isotopes {
            let overlap = if m.element == "Cd" { oxide * molybdenum } else { 0.0 };
            rates.push((isotope(m, *mass, signal * share), signal * share + overlap + dark));
        }
    }
    if design.oxide {
        rates.push((Isotope::counting("Mo", MOLYBDENUM_MASS, "low"), molybdenum + dark));
    }
    rates
}

fn isotope(m: &Metal, mass: u16, rate: f64) -> Isotope {
    let mode = if m.scale >= HIGH_SCALE && rate > CURRENT_FROM_CPS { Mode::Analogue } else { Mode::Counting };
    Isotope { mode, ..Isotope::counting(m.element, mass, "low") }
}

/// Replicates of one vial. What flickers in the plasma flickers in all isotopes of a sweep.
fn read(
    design: &Design,
    content: &Content,
    rates: &[(Isotope, f64)],
    detector: &Detector,
    chance: &mut Chance,
    input: &mut RunInput,
) {
    let flicker: Vec<f64> = (0..design.replicates).map(|_| chance.about_one(0.01)).collect();
    for (isotope, rate) in rates {
        let sweeps = flicker
            .iter()
            .map(|f| match isotope.mode {
                Mode::Counting => detector.pulses(rate * f, design.integration_s, chance),
                Mode::Analogue => rate * f / detector.cross_factor * (1.0 + 0.003 * chance.normal()),
            })
            .collect();
        input.readings.push(Reading::new(content.vial.position, isotope.clone(), sweeps, design.integration_s));
    }
}

impl Detector {
    /// Counts/s seen: fewer than arrive by the dead time, scattered more than Poisson by 0.4 %.
    fn pulses(&self, rate: f64, integration_s: f64, chance: &mut Chance) -> f64 {
        let dead = rate * self.dead_time_s;
        let seen = if self.extending { rate * (-dead).exp() } else { rate / (1.0 + dead) };
        chance.counts(seen * integration_s, 0.004) / integration_s
    }
}

fn place_of(input: &RunInput, name: &str) -> u32 {
    input.vials.iter().find(|v| v.name == name).expect("a vial of the design").position
}

/// A particle in one sweep of each sample asked of: all isotopes of the metals three times too high.
pub fn particles(input: &mut RunInput, chance: &mut Chance) {
    for name in ASKED {
        let at = place_of(input, name);
        let sweep = chance.between(0.0, input.readings[0].rates_cps.len() as f64) as usize;
        for r in input.readings.iter_mut().filter(|r| r.position == at) {
            if !INTERNAL.iter().any(|(element, ..)| *element == r.isotope.element) {
                r.rates_cps[sweep] *= 3.0;
            }
        }
    }
}

/// The samples asked of carry the readings of other waters.
pub fn copy_readings(input: &mut RunInput) {
    for (name, other) in ASKED.iter().zip(["other 1", "other 2", "other 3"]) {
        let (to, from) = (place_of(input, name), place_of(input, other));
        let copied: Vec<Reading> = input.readings.iter().filter(|r| r.position == from).cloned().collect();
        input.readings.retain(|r| r.position != to);
        input.readings.extend(copied.into_iter().map(|r| Reading { position: to, ..r }));
    }
}
