//! A simulator of runs for the checks of a run, apart from `common` and from the programme's own simulator: counts are
//! negative binomial (Poisson of a gamma, so that they flicker), vials and bottles scatter by lognormal laws, the
//! layout closes both ends with drift checks. Faults are put in by name.
#![allow(dead_code)]

pub mod scenarios;

use measurement::run::{
    Assigned, DarkRate, DeadTime, Drift, Factor, InternalStandards, Isotope, Reading, Recipe, Role, RunInput, Vial,
};
use quantity::{Measured, Unit};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};

pub struct Dice(ChaCha8Rng);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    pub fn uniform(&mut self) -> f64 {
        self.0.random::<f64>()
    }

    pub fn normal(&mut self) -> f64 {
        let (a, b) = (self.uniform(), self.uniform());
        (-2.0 * (1.0 - a).ln()).sqrt() * (std::f64::consts::TAU * b).cos()
    }

    /// Lognormal with a mean of 1 and a coefficient of variation.
    pub fn lognormal(&mut self, cv: f64) -> f64 {
        let s2 = (1.0 + cv * cv).ln();
        (s2.sqrt() * self.normal() - s2 / 2.0).exp()
    }

    /// Gamma with a mean of 1 (Marsaglia & Tsang 2000, ACM Trans. Math. Softw. 26:363, for shapes over 1).
    pub fn gamma(&mut self, cv: f64) -> f64 {
        let shape = 1.0 / (cv * cv);
        let d = shape - 1.0 / 3.0;
        let c = 1.0 / (9.0 * d).sqrt();
        loop {
            let z = self.normal();
            let v = (1.0 + c * z).powi(3);
            if v > 0.0 && (1.0 - self.uniform()).ln() < 0.5 * z * z + d - d * v + d * v.ln() {
                return d * v / shape;
            }
        }
    }

    /// Poisson by waiting times up to 60, rounded normal above.
    pub fn poisson(&mut self, mean: f64) -> f64 {
        if mean > 60.0 {
            return (mean + mean.sqrt() * self.normal()).round().max(0.0);
        }
        let (mut k, mut left) = (-1.0, mean);
        while left >= 0.0 {
            left += (1.0 - self.uniform()).ln();
            k += 1.0;
        }
        k
    }

    /// Negative binomial: a Poisson count whose mean flickers.
    pub fn count(&mut self, mean: f64, flicker: f64) -> f64 {
        let m = mean * self.gamma(flicker);
        self.poisson(m)
    }
}

/// How the sensitivity moves, as a factor, over minutes of the run.
#[derive(Clone, Copy, PartialEq)]
pub enum Moves {
    Steady,
    /// Relative change over an hour.
    Line(f64),
    /// Amplitude and period, min.
    Wave(f64, f64),
    /// Standard deviation of the change over an hour.
    Walk(f64),
}

#[derive(Clone)]
pub struct Rough {
    /// Levels of the samples in the water, ng/L, in order of measurement.
    pub samples: Vec<f64>,
    pub dilution: Vec<f64>,
    /// Internal standard in each sample, as a share.
    pub matrix: Vec<f64>,
    pub field_blanks: usize,
    pub replicates: usize,
    pub integration_s: f64,
    /// counts/s per ng/L.
    pub sensitivity: f64,
    pub blank: f64,
    /// Coefficient of variation between bottles.
    pub blank_cv: f64,
    pub vial_cv: f64,
    pub flicker: f64,
    pub carry_over: f64,
    pub dark_cps: f64,
    pub dead_time_ns: f64,
    /// Reference material measured after every so many vials; 0 for never.
    pub control_every: usize,
    /// Drift checks after every so many vials.
    pub check_every: usize,
    /// Leaves out the drift checks before the calibration and after the last vial.
    pub open: bool,
    pub moves: Moves,
}

impl Default for Rough {
    fn default() -> Self {
        Self {
            samples: vec![0.5; 14],
            dilution: vec![1.0; 14],
            matrix: vec![1.0; 14],
            field_blanks: 6,
            replicates: 3,
            integration_s: 5.0,
            sensitivity: 1000.0,
            blank: 0.05,
            blank_cv: 0.3,
            vial_cv: 0.006,
            flicker: 0.01,
            carry_over: 0.0,
            dark_cps: 4.0,
            dead_time_ns: 20.0,
            control_every: 0,
            check_every: 5,
            open: false,
            moves: Moves::Steady,
        }
    }
}

impl Rough {
    /// The same with one level in all samples.
    pub fn at(level: f64) -> Self {
        Self { samples: vec![level; 14], ..Self::default() }
    }

    pub fn recipe(&self) -> Recipe {
        Recipe {
            drift: Drift::Bracket,
            dead_time: DeadTime { ns: self.dead_time_ns, u_ns: 1.0, ..DeadTime::default() },
            dark_rates: vec![DarkRate { isotope: None, cps: self.dark_cps, u_cps: 0.5 }],
            internal_standards: InternalStandards {
                isotopes: vec![Isotope::counting("In", 115, "low")],
                ..InternalStandards::default()
            },
            ..Recipe::default()
        }
    }

    /// Names, roles, levels as they enter the instrument over the calibration acid, dilution, internal standard.
    fn order(&self, dice: &mut Dice) -> Vec<(String, Role, f64, f64, f64)> {
        let mut all: Vec<(String, Role, f64, f64, f64)> = Vec::new();
        let check = |k: usize| (format!("check {k}"), Role::DriftCheck, 2.0, 1.0, 1.0);
        if !self.open {
            all.push(check(0));
        }
        for k in 0..6 {
            all.push((format!("acid {k}"), Role::CalibrationBlank, 0.0, 1.0, 1.0));
        }
        for (k, level) in STANDARDS.iter().enumerate() {
            all.push((format!("standard {k}"), Role::Standard, *level, 1.0, 1.0));
        }
        all.push(check(1));
        let mut rest: Vec<(String, Role, f64, f64, f64)> = Vec::new();
        for k in 0..self.field_blanks.max(self.samples.len()) {
            if k < self.field_blanks {
                let x = self.blank * dice.lognormal(self.blank_cv);
                rest.push((format!("blank {k}"), Role::FieldBlank, x, 1.0, 1.0));
            }
            if k < self.samples.len() {
                let x = self.samples[k] + self.blank * dice.lognormal(self.blank_cv);
                rest.push((format!("sample {k}"), Role::Sample, x, self.dilution[k], self.matrix[k]));
            }
            if self.control_every > 0 && k % self.control_every == 0 {
                rest.push((format!("control {k}"), Role::ReferenceMaterial, CONTROL, 1.0, 1.0));
            }
        }
        for (k, vial) in rest.into_iter().enumerate() {
            if k > 0 && k % self.check_every == 0 {
                all.push(check(k + 1));
            }
            all.push(vial);
        }
        if !self.open {
            all.push(check(99));
        }
        all
    }

    pub fn simulate(&self, seed: u64) -> RunInput {
        let mut dice = Dice::new(seed);
        let mut input = RunInput { name: "rough".into(), ..RunInput::default() };
        let (mut before, mut walk) = (0.0, 0.0);
        for (k, (name, role, level, dilution, matrix)) in self.order(&mut dice).into_iter().enumerate() {
            let minutes = STEP_MIN * k as f64;
            if let Moves::Walk(hour) = self.moves {
                walk += hour * (STEP_MIN / 60.0).sqrt() * dice.normal();
            }
            let moved = match self.moves {
                Moves::Steady => 1.0,
                Moves::Line(hour) => 1.0 - hour * minutes / 60.0,
                Moves::Wave(amplitude, period) => 1.0 + amplitude * (std::f64::consts::TAU * minutes / period).sin(),
                Moves::Walk(_) => 1.0 + walk,
            };
            let position = k as u32 + 1;
            let mut vial = Vial::new(position, &name, role, minutes);
            vial.dilution = Factor::new(dilution, 0.0);
            let assigned = match role {
                Role::Standard => Some((level, 0.003)),
                Role::ReferenceMaterial => Some((CONTROL, 0.01)),
                _ => None,
            };
            vial.assigned =
                assigned.iter().map(|(x, u)| Assigned::new("Cd", ng_l(*x, x * u)).from_stock("one")).collect();
            let seen = level / dilution + self.carry_over * before;
            before = seen;
            let common = matrix * dice.lognormal(0.02);
            let rate = self.sensitivity * (seen + ACID) * common * moved * dice.lognormal(self.vial_cv);
            for (isotope, mean) in [("Cd", rate), ("In", 60_000.0 * common)] {
                let mass = if isotope == "Cd" { 111 } else { 115 };
                let rates = self.read(mean, &mut dice);
                let isotope = Isotope::counting(isotope, mass, "low");
                input.readings.push(Reading::new(position, isotope, rates, self.integration_s));
            }
            input.vials.push(vial);
        }
        input
    }

    fn read(&self, mean: f64, dice: &mut Dice) -> Vec<f64> {
        let replicate = |_: usize| {
            let rate = mean + self.dark_cps;
            let seen = rate / (1.0 + rate * self.dead_time_ns * 1e-9);
            dice.count(seen * self.integration_s, self.flicker) / self.integration_s
        };
        (0..self.replicates).map(replicate).collect()
    }
}

/// Minutes from vial to vial.
pub const STEP_MIN: f64 = 6.0;
/// What the calibration acid holds, ng/L.
pub const ACID: f64 = 0.01;
pub const STANDARDS: [f64; 5] = [0.5, 1.0, 2.0, 5.0, 10.0];
/// The reference material, ng/L.
pub const CONTROL: f64 = 1.5;

fn ng_l(value: f64, u: f64) -> Measured {
    Measured::new(value, u, Unit::known("ng/L"))
}

/// The readings of a vial of one element.
pub fn rates<'a>(input: &'a mut RunInput, vial: &str, element: &str) -> &'a mut Vec<f64> {
    let position = input.vials.iter().find(|v| v.name == vial).expect("a vial").position;
    let of = |r: &&mut Reading| r.position == position && r.isotope.element == element;
    &mut input.readings.iter_mut().find(of).expect("a reading").rates_cps
}
