//! The instrument run: a sequence of vials and the counts they give.

use crate::Stream;
use crate::truth::{BottleTruth, ELEMENTS};

/// A vial of the run.
#[derive(Debug, Clone)]
pub struct SimVial {
    /// Place in the sequence, from 1.
    pub position: u32,
    /// Name.
    pub name: String,
    /// Role, as the record names it.
    pub role: &'static str,
    /// What is in it.
    pub counts_of: Counts,
    /// Minutes since the start.
    pub minutes: f64,
    /// Assigned values, ng/L with standard uncertainty, per element symbol.
    pub assigned: Vec<(&'static str, f64, f64)>,
}

/// What a vial holds.
#[derive(Debug, Clone, PartialEq)]
pub enum Counts {
    /// Plain acidified water.
    Nothing,
    /// True concentrations, ng/L, per element of [`ELEMENTS`].
    Solution(Vec<f64>),
    /// A bottle, by its place in the list of bottles.
    Bottle(usize),
}

/// Replicate rates of one isotope in one vial.
#[derive(Debug, Clone)]
pub struct SimReading {
    /// Place of the vial in the sequence.
    pub position: u32,
    /// Element symbol.
    pub element: &'static str,
    /// Mass number.
    pub mass: u16,
    /// Resolution.
    pub resolution: &'static str,
    /// Counts per second, one number a replicate.
    pub rates_cps: Vec<f64>,
}

/// Counting time per replicate, s.
pub const INTEGRATION_S: f64 = 4.0;
/// Replicates.
pub const REPLICATES: usize = 5;
/// True dead time of the detector, s; the laboratory believes 25 ns ± 1 ns.
pub const DEAD_TIME_S: f64 = 25.4e-9;
/// MoO⁺ over Mo⁺: dry sample introduction.
const OXIDE: f64 = 0.0002;
/// Mo 95 over Mo 98, from the IUPAC abundances 15.873 and 24.292 %.
const MO95_OVER_MO98: f64 = 0.6534;
/// Internal standards: name, element, mass, counts per second at the start.
pub const INTERNAL_STANDARDS: [(&str, &str, u16, f64); 2] =
    [("In115", "In", 115, 310_000.0), ("Ir193", "Ir", 193, 240_000.0)];

/// Relative standard uncertainty of the mixed stock that all standards are made of.
const STOCK_U: f64 = 0.004;
/// Relative standard uncertainty of the control water's values.
const CONTROL_U: f64 = 0.02;

struct Sequence {
    vials: Vec<SimVial>,
}

impl Sequence {
    fn add(
        &mut self,
        name: impl Into<String>,
        role: &'static str,
        counts_of: Counts,
        assigned: Vec<(&'static str, f64, f64)>,
    ) {
        let n = self.vials.len();
        self.vials.push(SimVial {
            position: n as u32 + 1,
            name: name.into(),
            role,
            counts_of,
            minutes: 4.0 + 8.5 * n as f64,
            assigned,
        });
    }

    fn check(&mut self) {
        let k = self.vials.iter().filter(|v| v.role == "drift-check").count() + 1;
        self.add(format!("check {k}"), "drift-check", Counts::Solution(level(0.2)), stated(0.2, STOCK_U));
    }
}

/// A multi-element solution at a part of each element's highest standard.
fn level(part: f64) -> Vec<f64> {
    ELEMENTS.iter().map(|e| part * e.top_ng_l).collect()
}

fn stated(part: f64, relative_u: f64) -> Vec<(&'static str, f64, f64)> {
    ELEMENTS.iter().map(|e| (e.symbol, part * e.top_ng_l, relative_u * part * e.top_ng_l)).collect()
}

/// The sequence: calibration, then bottles with a check after every eight vials.
pub fn sequence(bottles: &[BottleTruth]) -> Vec<SimVial> {
    let mut s = Sequence { vials: Vec::new() };
    for i in 1..=3 {
        s.add(format!("cal blank {i}"), "calibration-blank", Counts::Nothing, vec![]);
    }
    for (i, part) in [0.004, 0.02, 0.1, 0.3, 0.6, 1.0].into_iter().enumerate() {
        s.add(format!("standard {}", i + 1), "standard", Counts::Solution(level(part)), stated(part, STOCK_U));
    }
    s.check();
    let mo_alone: Vec<f64> = ELEMENTS.iter().map(|e| if e.symbol == "Mo" { 3000.0 } else { 0.0 }).collect();
    s.add("Mo alone 1", "interference-check", Counts::Solution(mo_alone.clone()), vec![]);
    for i in 1..=3 {
        s.add(format!("procedural blank {i}"), "procedural-blank", Counts::Solution(vec_of_reagent()), vec![]);
    }
    for i in 1..=2 {
        s.add(
            format!("control water {i}"),
            "reference-material",
            Counts::Solution(level(0.012)),
            stated(0.012, CONTROL_U),
        );
    }
    let mut since = 0;
    for (i, b) in bottles.iter().enumerate().filter(|(_, b)| b.set_name.is_empty()) {
        s.add(b.label.clone(), role_of(b.kind), Counts::Bottle(i), vec![]);
        since += 1;
        if since == 7 {
            s.check();
            since = 0;
        }
    }
    s.add("Mo alone 2", "interference-check", Counts::Solution(mo_alone), vec![]);
    s.add("control water 3", "reference-material", Counts::Solution(level(0.012)), stated(0.012, CONTROL_U));
    s.add("standard 3 again", "standard", Counts::Solution(level(0.1)), stated(0.1, STOCK_U));
    s.add("cal blank 4", "calibration-blank", Counts::Nothing, vec![]);
    s.check();
    // Bottles of a series come last, so that the others are measured as they are without them.
    let series: Vec<(usize, &BottleTruth)> =
        bottles.iter().enumerate().filter(|(_, b)| !b.set_name.is_empty()).collect();
    for (i, b) in &series {
        s.add(b.label.clone(), role_of(b.kind), Counts::Bottle(*i), vec![]);
    }
    if !series.is_empty() {
        s.check();
    }
    s.vials
}

fn role_of(kind: &str) -> &'static str {
    match kind {
        "bottle-blank" => "bottle-blank",
        "trip-blank" => "trip-blank",
        "field-blank" => "field-blank",
        "duplicate" => "duplicate",
        "field-spike" => "field-spike",
        "lab-spike" => "lab-spike",
        _ => "sample",
    }
}

/// Acid of the procedure: a twentieth of a field blank.
fn vec_of_reagent() -> Vec<f64> {
    ELEMENTS.iter().map(|e| 0.15 * e.field_blank_pg / 250.0).collect()
}

/// Counts of the whole run.
pub fn measure(seed: u64, bottles: &[BottleTruth], vials: &[SimVial]) -> Vec<SimReading> {
    let mut r = Stream::new(seed, 2);
    let plain = bottles.iter().filter(|b| b.set_name.is_empty()).count();
    let before_series = vials.iter().take_while(|v| !matches!(v.counts_of, Counts::Bottle(i) if i >= plain));
    let end = before_series.last().map_or(1.0, |v| v.minutes);
    // Loss of sensitivity over the run, and the small part of it that the internal standard misses.
    let loss = 0.08 + 0.08 * r.uniform();
    let missed: Vec<f64> = ELEMENTS.iter().map(|_| 0.012 * r.normal()).collect();
    // Lead's make-up differs from water to water.
    let mut lead_shift: Vec<f64> = bottles[..plain].iter().map(|_| 0.012 * r.normal()).collect();
    let mut of_series = Stream::new(seed, 4);
    lead_shift.extend(bottles[plain..].iter().map(|_| 0.012 * of_series.normal()));
    // What the labels of stock and control water say is not quite what is in them.
    let mut off = |relative_u: f64| -> Vec<f64> { ELEMENTS.iter().map(|_| 1.0 + relative_u * r.normal()).collect() };
    let (stock, control) = (off(STOCK_U), off(CONTROL_U));
    let mut out = Vec::new();
    for v in vials {
        let t = v.minutes / end;
        let sensitivity = 1.0 - loss * t;
        let flicker: Vec<f64> = (0..REPLICATES).map(|_| 1.0 + 0.012 * r.normal()).collect();
        let conc = |e: usize| match &v.counts_of {
            Counts::Nothing => 0.0,
            Counts::Solution(c) if v.role == "reference-material" => c[e] * control[e],
            Counts::Solution(c) => c[e] * stock[e],
            Counts::Bottle(i) => bottles[*i].in_solution_ng_l(e),
        };
        let mo98_cps = conc(5) * ELEMENTS[5].cps_per_ng_l;
        for (e, element) in ELEMENTS.iter().enumerate() {
            let own = 1.0 + missed[e] * t + 0.002 * r.normal();
            for (m, (mass, part)) in element.masses.iter().enumerate() {
                let shift = match (&v.counts_of, element.symbol, m) {
                    (Counts::Bottle(i), "Pb", 1) => lead_shift[*i],
                    (Counts::Bottle(i), "Pb", 2) => -lead_shift[*i] * 0.2242 / 0.5314,
                    _ => 0.0,
                };
                let oxide = match mass {
                    111 => mo98_cps * MO95_OVER_MO98 * OXIDE,
                    114 => mo98_cps * OXIDE,
                    _ => 0.0,
                };
                let mean = background(element)
                    + sensitivity * own * (conc(e) * element.cps_per_ng_l * part * (1.0 + shift) + oxide);
                out.push(SimReading {
                    position: v.position,
                    element: element.symbol,
                    mass: *mass,
                    resolution: element.resolution,
                    rates_cps: rates(&mut r, mean, &flicker),
                });
            }
        }
        for (_, symbol, mass, start) in INTERNAL_STANDARDS {
            for resolution in ["low", "medium"] {
                if symbol == "Ir" && resolution == "medium" {
                    continue;
                }
                let part = if resolution == "medium" { 0.08 } else { 1.0 };
                let mean = start * part * sensitivity * (1.0 + 0.002 * r.normal());
                out.push(SimReading {
                    position: v.position,
                    element: symbol,
                    mass,
                    resolution,
                    rates_cps: rates(&mut r, mean, &flicker),
                });
            }
        }
    }
    out
}

/// Gas and detector background, counts per second; the scenario's choice.
fn background(e: &crate::Element) -> f64 {
    if e.resolution == "medium" { 0.6 } else { 4.0 }
}

fn rates(r: &mut Stream, mean_cps: f64, flicker: &[f64]) -> Vec<f64> {
    flicker
        .iter()
        .map(|f| {
            let true_rate = mean_cps * f;
            let seen = true_rate / (1.0 + true_rate * DEAD_TIME_S);
            r.poisson(seen * INTEGRATION_S) / INTEGRATION_S
        })
        .collect()
}
