//! A small simulator of runs whose truth is known, for tests only.
#![allow(dead_code)]

use measurement::run::{
    Assigned, DeadTime, Drift, FactorSource, Interference, InternalStandards, Isotope, Reading, Recipe, Role, RunInput,
    Vial,
};
use quantity::{Measured, Unit};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};

pub struct Random(ChaCha8Rng);

impl Random {
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

    /// Poisson by inversion up to 50, rounded normal above (error far below its spread).
    pub fn poisson(&mut self, mean: f64) -> f64 {
        if mean > 50.0 {
            return (mean + mean.sqrt() * self.normal()).round().max(0.0);
        }
        let limit = (-mean).exp();
        let (mut k, mut p) = (0.0, self.uniform());
        while p > limit {
            p *= self.uniform();
            k += 1.0;
        }
        k
    }
}

pub fn ng_l(value: f64, u: f64) -> Measured {
    Measured::new(value, u, Unit::known("ng/L"))
}

/// One analyte of the simulator; levels in ng/L, sensitivity in counts/s per ng/L.
#[derive(Clone)]
pub struct Truth {
    pub element: &'static str,
    /// (mass, share of the sensitivity)
    pub isotopes: Vec<(u16, f64)>,
    pub sensitivity: f64,
    pub background_cps: f64,
    pub calibration_blank: f64,
    pub field_blank: f64,
    pub between_bottles: f64,
    pub water: f64,
}

pub const LEVELS: [f64; 5] = [0.5, 1.0, 2.0, 5.0, 10.0];

pub struct Setting {
    pub truths: Vec<Truth>,
    pub samples: usize,
    pub field_blanks: usize,
    pub calibration_blanks: usize,
    pub check_every: usize,
    pub replicates: usize,
    pub integration_s: f64,
    pub dead_time_ns: f64,
    /// Relative loss of sensitivity over the run that the internal standard sees.
    pub drift_common: f64,
    /// Loss that it does not see.
    pub drift_rest: f64,
    pub between_vials: f64,
    pub u_standards: f64,
    /// Field spikes, one for each of the first samples, and what is added to them, ng/L.
    pub spikes: usize,
    pub spike_added: f64,
    /// Part of the metal in the water (and of the spike) that comes back.
    pub recovery: f64,
    /// Oxide ratio of Mo on Cd 111, per count of Mo 95.
    pub oxide: f64,
    /// Acid in each bottle of 250 mL, mL: it thins what is measured.
    pub acid_ml: f64,
    /// Vials of a reference material of another source at 1.5 times the scale of the standards.
    pub references: usize,
}

/// Water in each bottle, mL.
pub const BOTTLE_ML: f64 = 250.0;

impl Default for Setting {
    fn default() -> Self {
        Self {
            truths: vec![lead(), cadmium()],
            samples: 4,
            field_blanks: 6,
            calibration_blanks: 5,
            check_every: 6,
            replicates: 5,
            integration_s: 3.0,
            dead_time_ns: 20.0,
            drift_common: 0.15,
            drift_rest: 0.03,
            between_vials: 0.005,
            u_standards: 0.005,
            spikes: 0,
            spike_added: 2.0,
            recovery: 1.0,
            oxide: 0.0,
            acid_ml: 0.0,
            references: 0,
        }
    }
}

pub fn lead() -> Truth {
    Truth {
        element: "Pb",
        isotopes: vec![(206, 0.24), (207, 0.22), (208, 0.54)],
        sensitivity: 1500.0,
        background_cps: 5.0,
        calibration_blank: 0.02,
        field_blank: 0.08,
        between_bottles: 0.014,
        water: 1.0,
    }
}

pub fn cadmium() -> Truth {
    Truth {
        element: "Cd",
        isotopes: vec![(111, 1.0)],
        sensitivity: 500.0,
        background_cps: 2.0,
        calibration_blank: 0.005,
        field_blank: 0.02,
        between_bottles: 0.005,
        water: 0.3,
    }
}

pub fn molybdenum() -> Truth {
    Truth {
        element: "Mo",
        isotopes: vec![(95, 1.0)],
        sensitivity: 230.0,
        background_cps: 2.0,
        calibration_blank: 0.02,
        field_blank: 0.04,
        between_bottles: 0.01,
        water: 500.0,
    }
}

pub fn recipe(s: &Setting) -> Recipe {
    let mut r = Recipe {
        drift: Drift::Smooth { degree: 1 },
        dead_time: DeadTime { ns: s.dead_time_ns, u_ns: 1.0, ..DeadTime::default() },
        internal_standards: InternalStandards {
            isotopes: vec![Isotope::counting("In", 115, "low"), Isotope::counting("Ir", 193, "low")],
            ..InternalStandards::default()
        },
        ..Recipe::default()
    };
    if s.oxide > 0.0 {
        r.interferences.push(Interference {
            target: Isotope::counting("Cd", 111, "low"),
            monitor: Isotope::counting("Mo", 95, "low"),
            species: "95Mo16O".into(),
            factor: FactorSource::Vials { vials: vec!["Mo alone 1".into(), "Mo alone 2".into()] },
        });
    }
    r
}

/// Concentration of an element in a vial as it enters the instrument.
struct Content {
    vial: Vial,
    levels: Vec<f64>,
}

pub fn simulate(s: &Setting, seed: u64) -> RunInput {
    let mut random = Random::new(seed);
    let stock: Vec<f64> = s.truths.iter().map(|_| 1.0 + s.u_standards * random.normal()).collect();
    let mut contents: Vec<Content> = Vec::new();
    let push = |name: String, role: Role, levels: Vec<f64>, contents: &mut Vec<Content>| {
        let position = contents.len() as u32 + 1;
        let minutes = f64::from(position - 1) * 8.0;
        contents.push(Content { vial: Vial::new(position, &name, role, minutes), levels });
    };
    let zero: Vec<f64> = vec![0.0; s.truths.len()];
    let scale = |t: &Truth| if t.element == "Mo" { 100.0 } else { 1.0 };
    for i in 0..s.calibration_blanks {
        push(format!("cal blank {i}"), Role::CalibrationBlank, zero.clone(), &mut contents);
    }
    for (i, level) in LEVELS.iter().enumerate() {
        let levels = s.truths.iter().zip(&stock).map(|(t, f)| level * scale(t) * f).collect();
        push(format!("std {i}"), Role::Standard, levels, &mut contents);
        let last = contents.last_mut().expect("just pushed");
        last.vial.assigned = s
            .truths
            .iter()
            .map(|t| {
                let x = level * scale(t);
                Assigned::new(t.element, ng_l(x, x * s.u_standards)).from_stock("mixed")
            })
            .collect();
    }
    if s.oxide > 0.0 {
        for i in 1..=2 {
            let levels = s.truths.iter().map(|t| if t.element == "Mo" { 500.0 } else { 0.0 }).collect();
            push(format!("Mo alone {i}"), Role::InterferenceCheck, levels, &mut contents);
        }
    }
    let mut rest: Vec<(String, Role, Vec<f64>)> = Vec::new();
    for i in 0..s.field_blanks {
        let levels = s.truths.iter().map(|t| t.field_blank + t.between_bottles * random.normal()).collect();
        rest.push((format!("field blank {i}"), Role::FieldBlank, levels));
    }
    for i in 0..s.samples + s.spikes {
        let spiked = i >= s.samples;
        let added = if spiked { s.spike_added } else { 0.0 };
        let levels = s
            .truths
            .iter()
            .map(|t| s.recovery * (t.water + added) + t.field_blank + t.between_bottles * random.normal())
            .collect();
        let (name, role) = if spiked {
            (format!("spike {}", i - s.samples), Role::FieldSpike)
        } else {
            (format!("sample {i}"), Role::Sample)
        };
        rest.push((name, role, levels));
    }
    if s.acid_ml > 0.0 {
        let thinner = BOTTLE_ML / (BOTTLE_ML + s.acid_ml);
        for x in rest.iter_mut().flat_map(|(_, _, levels)| levels) {
            *x *= thinner;
        }
    }
    let material: Vec<f64> = s.truths.iter().map(|t| 1.5 * scale(t)).collect();
    rest.extend((0..s.references).map(|i| (format!("material {i}"), Role::ReferenceMaterial, material.clone())));
    let check: Vec<f64> = s.truths.iter().map(|t| 2.0 * scale(t)).collect();
    for (k, (name, role, levels)) in rest.into_iter().enumerate() {
        if k % s.check_every == 0 {
            push(format!("check {k}"), Role::DriftCheck, check.clone(), &mut contents);
        }
        let of = name.strip_prefix("spike ").map(|n| format!("sample {n}"));
        push(name, role, levels, &mut contents);
        let last = contents.last_mut().expect("just pushed");
        if role == Role::ReferenceMaterial {
            let value = |t: &Truth| Assigned::new(t.element, ng_l(1.5 * scale(t), 0.0));
            last.vial.assigned = s.truths.iter().map(value).collect();
        } else if s.acid_ml > 0.0 {
            last.vial.bottle = Some(last.vial.name.clone());
            last.vial.bottle_volume_ml = Some(BOTTLE_ML);
            last.vial.acid_ml = Some(s.acid_ml);
            last.vial.u_acid_ml = Some(0.01 * s.acid_ml);
        }
        if of.is_some() {
            last.vial.of = of;
            last.vial.spike_added =
                s.truths.iter().map(|t| Assigned::new(t.element, ng_l(s.spike_added, 0.0))).collect();
        }
    }
    for k in 0..3 {
        push(format!("check end {k}"), Role::DriftCheck, check.clone(), &mut contents);
    }
    measure(s, contents, &mut random)
}

fn measure(s: &Setting, contents: Vec<Content>, random: &mut Random) -> RunInput {
    let end = contents.last().map_or(1.0, |c| c.vial.minutes);
    let mut input = RunInput { name: "simulated".into(), ..RunInput::default() };
    for c in contents {
        let share = c.vial.minutes / end;
        let common = (1.0 - s.drift_common * share) * (1.0 + 0.02 * random.normal());
        let mut rates: Vec<(Isotope, f64)> = vec![
            (Isotope::counting("In", 115, "low"), 60000.0 * common),
            (Isotope::counting("Ir", 193, "low"), 40000.0 * common),
        ];
        let mo: f64 =
            s.truths.iter().zip(&c.levels).filter(|(t, _)| t.element == "Mo").map(|(t, x)| t.sensitivity * x).sum();
        for (t, x) in s.truths.iter().zip(&c.levels) {
            let rest = (1.0 - s.drift_rest * share) * (1.0 + s.between_vials * random.normal());
            for (mass, part) in &t.isotopes {
                let mut rate = t.background_cps + t.sensitivity * part * (x + t.calibration_blank) * common * rest;
                if t.element == "Cd" {
                    rate += s.oxide * mo * common;
                }
                rates.push((Isotope::counting(t.element, *mass, "low"), rate));
            }
        }
        for (isotope, rate) in rates {
            let replicates = (0..s.replicates)
                .map(|_| {
                    // Non-extending dead time: n = N/(1 + N·τ).
                    let seen = rate / (1.0 + rate * s.dead_time_ns * 1e-9);
                    random.poisson(seen * s.integration_s) / s.integration_s
                })
                .collect();
            input.readings.push(Reading::new(c.vial.position, isotope, replicates, s.integration_s));
        }
        input.vials.push(c.vial);
    }
    input
}
