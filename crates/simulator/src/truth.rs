//! What is truly in each bottle. Magnitudes: a practitioner's estimates for a clean anoxic
//! groundwater with some sulfide, from memory; they make the demo plausible and check nothing.

use crate::{Purpose, Stream};

/// An element as the invented laboratory measures it.
#[derive(Debug, Clone, Copy)]
pub struct Element {
    /// Symbol.
    pub symbol: &'static str,
    /// Masses with their part of the counts of all masses listed.
    pub masses: &'static [(u16, f64)],
    /// Mass resolution.
    pub resolution: &'static str,
    /// Truth in the water of each well, ng/L, in the order of [`WELLS`].
    pub water_ng_l: [f64; 3],
    /// Mean of a field blank, pg in a bottle of 250 mL.
    pub field_blank_pg: f64,
    /// Counts per second per ng/L, all listed masses together.
    pub cps_per_ng_l: f64,
    /// The internal standard that follows it.
    pub internal_standard: &'static str,
    /// Highest standard, ng/L.
    pub top_ng_l: f64,
}

/// The elements of the run. Isotope parts from the IUPAC abundances of the masses listed.
pub const ELEMENTS: &[Element] = &[
    Element {
        symbol: "Pb",
        masses: &[(206, 0.2444), (207, 0.2242), (208, 0.5314)],
        resolution: "low",
        water_ng_l: [2.6, 1.05, 44.0],
        field_blank_pg: 20.0,
        cps_per_ng_l: 1500.0,
        internal_standard: "Ir193",
        top_ng_l: 100.0,
    },
    Element {
        symbol: "Cd",
        masses: &[(111, 0.3080), (114, 0.6920)],
        resolution: "low",
        water_ng_l: [0.35, 0.30, 2.4],
        field_blank_pg: 5.0,
        cps_per_ng_l: 500.0,
        internal_standard: "In115",
        top_ng_l: 10.0,
    },
    Element {
        symbol: "Sb",
        masses: &[(121, 1.0)],
        resolution: "low",
        water_ng_l: [2.4, 2.0, 2.2],
        field_blank_pg: 10.0,
        cps_per_ng_l: 800.0,
        internal_standard: "In115",
        top_ng_l: 20.0,
    },
    Element {
        symbol: "Tl",
        masses: &[(205, 1.0)],
        resolution: "low",
        water_ng_l: [0.32, 0.30, 0.4],
        field_blank_pg: 1.0,
        cps_per_ng_l: 1800.0,
        internal_standard: "Ir193",
        top_ng_l: 5.0,
    },
    Element {
        symbol: "U",
        masses: &[(238, 1.0)],
        resolution: "low",
        water_ng_l: [6.2, 5.0, 5.4],
        field_blank_pg: 2.0,
        cps_per_ng_l: 2000.0,
        internal_standard: "Ir193",
        top_ng_l: 50.0,
    },
    Element {
        symbol: "Mo",
        masses: &[(98, 1.0)],
        resolution: "low",
        water_ng_l: [430.0, 500.0, 520.0],
        field_blank_pg: 10.0,
        cps_per_ng_l: 350.0,
        internal_standard: "In115",
        top_ng_l: 1000.0,
    },
    Element {
        symbol: "V",
        masses: &[(51, 1.0)],
        resolution: "medium",
        water_ng_l: [9.5, 8.0, 8.5],
        field_blank_pg: 10.0,
        cps_per_ng_l: 120.0,
        internal_standard: "In115",
        top_ng_l: 100.0,
    },
    Element {
        symbol: "Cr",
        masses: &[(52, 1.0)],
        resolution: "medium",
        water_ng_l: [12.0, 10.0, 38.0],
        field_blank_pg: 100.0,
        cps_per_ng_l: 120.0,
        internal_standard: "In115",
        top_ng_l: 200.0,
    },
    Element {
        symbol: "Co",
        masses: &[(59, 1.0)],
        resolution: "medium",
        water_ng_l: [5.6, 5.0, 7.0],
        field_blank_pg: 10.0,
        cps_per_ng_l: 150.0,
        internal_standard: "In115",
        top_ng_l: 50.0,
    },
    Element {
        symbol: "Ni",
        masses: &[(60, 1.0)],
        resolution: "medium",
        water_ng_l: [46.0, 40.0, 70.0],
        field_blank_pg: 150.0,
        cps_per_ng_l: 30.0,
        internal_standard: "In115",
        top_ng_l: 500.0,
    },
    Element {
        symbol: "Cu",
        masses: &[(63, 1.0)],
        resolution: "medium",
        water_ng_l: [27.0, 20.0, 60.0],
        field_blank_pg: 150.0,
        cps_per_ng_l: 90.0,
        internal_standard: "In115",
        top_ng_l: 500.0,
    },
    Element {
        symbol: "Zn",
        masses: &[(66, 1.0)],
        resolution: "medium",
        water_ng_l: [160.0, 100.0, 4200.0],
        field_blank_pg: 1500.0,
        cps_per_ng_l: 25.0,
        internal_standard: "In115",
        top_ng_l: 6000.0,
    },
];

/// A well of the invented programme.
#[derive(Debug, Clone, Copy)]
pub struct Well {
    /// Name.
    pub name: &'static str,
    /// In words.
    pub description: &'static str,
    /// Material the water meets last.
    pub pipe_material: &'static str,
    /// Depth of the casing's foot, m.
    pub depth_m: f64,
    /// Foot of the screen, m.
    pub screen_to_m: f64,
    /// Inner radius, m.
    pub radius_m: f64,
    /// True flow, L/min.
    pub flow_l_min: f64,
}

/// The three wells.
pub const WELLS: [Well; 3] = [
    Well {
        name: "SL-1",
        description: "Roadside spout, flows day and night into a stone trough",
        pipe_material: "iron",
        depth_m: 48.0,
        screen_to_m: 54.0,
        radius_m: 0.038,
        flow_l_min: 12.0,
    },
    Well {
        name: "SL-2",
        description: "Steel sampling well with a cabinet of filtered air, never shut",
        pipe_material: "stainless steel",
        depth_m: 56.0,
        screen_to_m: 62.0,
        radius_m: 0.0525,
        flow_l_min: 24.0,
    },
    Well {
        name: "SL-3",
        description: "Old farm well, slow flow through a galvanised pipe",
        pipe_material: "galvanised steel",
        depth_m: 52.0,
        screen_to_m: 55.0,
        radius_m: 0.05,
        flow_l_min: 1.3,
    },
];

/// Bottle volume, mL.
pub const VOLUME_ML: f64 = 250.0;
/// Acid per bottle, mL.
pub const ACID_ML: f64 = 0.5;

/// A bottle and what is truly in it.
#[derive(Debug, Clone)]
pub struct BottleTruth {
    /// Label.
    pub label: String,
    /// Kind, as the record names it.
    pub kind: &'static str,
    /// Well, where water of a well is in it or it was opened at one.
    pub well: Option<&'static str>,
    /// The sample that it is a duplicate or spike of.
    pub parent: Option<String>,
    /// Volume of water, mL.
    pub volume_ml: f64,
    /// The water's own concentration, ng/L, per element; zero for blanks.
    pub water_ng_l: Vec<f64>,
    /// Metal brought in on the way, pg, per element.
    pub brought_pg: Vec<f64>,
    /// Metal added on purpose, pg, per element (as truly added).
    pub spike_pg: Vec<f64>,
    /// Metal added on purpose, pg, per element (as the person wrote it down).
    pub spike_stated_pg: Vec<f64>,
    /// Remark on the field sheet.
    pub note: &'static str,
    /// The series that it belongs to: bottles that tell where metal comes from; empty for others.
    pub set_name: &'static str,
    /// Flow set for this bottle, L/min.
    pub flow_l_min: Option<f64>,
}

impl BottleTruth {
    /// What an ideal instrument would find per volume of water, ng/L.
    pub fn found_ng_l(&self, element: usize) -> f64 {
        self.water_ng_l[element] + (self.brought_pg[element] + self.spike_pg[element]) / self.volume_ml
    }

    /// What the instrument gets to see, ng/L: the water of the bottle thinned by its acid.
    pub fn in_solution_ng_l(&self, element: usize) -> f64 {
        self.found_ng_l(element) * self.volume_ml / (self.volume_ml + ACID_ML)
    }
}

// Parts of a field blank by stage: an assumption of the scenario.
const PART_ACID: f64 = 0.15;
const PART_BOTTLE: f64 = 0.30;
const PART_TRANSPORT: f64 = 0.10;
const PART_FIELD: f64 = 0.45;

/// The label of the field blank that went wrong in the demo.
pub const BAD_BLANK: &str = "FB-26-07-4";

/// Bottles of the trip.
pub fn bottles(seed: u64, purpose: Purpose) -> Vec<BottleTruth> {
    let mut r = Stream::new(seed, 1);
    let mut all = Vec::new();
    for i in 1..=4 {
        all.push(blank(&mut r, format!("BB-14-{i}"), "bottle-blank", PART_ACID + PART_BOTTLE, None));
    }
    for i in 1..=3 {
        all.push(blank(&mut r, format!("TB-26-07-{i}"), "trip-blank", PART_ACID + PART_BOTTLE + PART_TRANSPORT, None));
    }
    for i in 1..=8 {
        all.push(blank(&mut r, format!("FB-26-07-{i}"), "field-blank", 1.0, Some("SL-2")));
    }
    if purpose == Purpose::Demo {
        tidy_the_demo(&mut all);
    }
    for (w, well) in WELLS.iter().enumerate() {
        for suffix in if w == 1 { &["A", "B", "C"][..] } else { &["A", "B"] } {
            all.push(sample(&mut r, w, well, suffix));
        }
    }
    for (kind, prefix) in [("field-spike", "FS"), ("lab-spike", "LS")] {
        for i in 1..=3 {
            all.push(spiked(&mut r, kind, format!("{prefix}2-26-07-{i}")));
        }
    }
    if purpose == Purpose::Demo {
        all.extend(series(seed));
    }
    all
}

/// Volumes of the bottles of SL-2 that were filled to different marks, mL.
pub const FILLS_ML: [f64; 4] = [60.0, 125.0, 375.0, 500.0];
/// Flows of SL-3 with its tap opened further and further, L/min.
pub const FLOWS_L_MIN: [f64; 4] = [1.3, 2.1, 3.2, 4.5];

/// What the aquifer gives at SL-3, the pipe's part taken off, ng/L: the lower of the wells' values.
pub fn aquifer_ng_l(e: &Element) -> f64 {
    e.water_ng_l[1].min(e.water_ng_l[2])
}

/// Bottles of SL-2 at different volumes, and of SL-3 at different flows: they tell where metal comes from. Their own
/// stream, so that the other bottles are what they are without them.
fn series(seed: u64) -> Vec<BottleTruth> {
    let mut r = Stream::new(seed, 3);
    let mut all = vec![];
    let clean = |mut b: BottleTruth, label: String, set: &'static str| {
        for (brought, e) in b.brought_pg.iter_mut().zip(ELEMENTS) {
            *brought = brought.min(e.field_blank_pg * 1.6);
        }
        b.label = label;
        b.set_name = set;
        b
    };
    for (i, volume) in FILLS_ML.into_iter().enumerate() {
        let mut b = clean(sample(&mut r, 1, &WELLS[1], "A"), format!("SL2-26-07-V{}", i + 1), "fill series");
        b.volume_ml = volume;
        all.push(b);
    }
    for (i, flow) in FLOWS_L_MIN.into_iter().enumerate() {
        let mut b = clean(sample(&mut r, 2, &WELLS[2], "A"), format!("SL3-26-07-Q{}", i + 1), "flow series");
        b.flow_l_min = Some(flow);
        b.note = "tap set for this bottle";
        for (c, e) in b.water_ng_l.iter_mut().zip(ELEMENTS) {
            let own = aquifer_ng_l(e);
            *c = own + (e.water_ng_l[2] - own) * WELLS[2].flow_l_min / flow;
        }
        all.push(b);
    }
    all
}

/// In the demo chance must not spoil more than the one blank that the field sheet tells of.
fn tidy_the_demo(all: &mut [BottleTruth]) {
    for b in all.iter_mut() {
        for (brought, e) in b.brought_pg.iter_mut().zip(ELEMENTS) {
            *brought = brought.min(e.field_blank_pg * 1.6);
        }
    }
    if let Some(b) = all.iter_mut().find(|b| b.label == BAD_BLANK) {
        b.note =
            "gust lifted the cabinet's curtain while the bottle stood open, a lorry passed; cap touched the sleeve";
        for (brought, factor) in
            b.brought_pg.iter_mut().zip([9.0, 3.0, 6.0, 1.2, 1.5, 1.3, 3.0, 4.0, 2.0, 3.0, 7.0, 11.0])
        {
            *brought *= factor;
        }
    }
}

fn stage_pg(r: &mut Stream, mean_pg: f64) -> f64 {
    // Spread between bottles 10 to 25 %; 3 % of bottles carry 2 to 20 times: the scenario's choice.
    let ordinary = mean_pg * r.lognormal(0.18);
    let chance = r.uniform();
    let factor = 2.0 + 18.0 * r.uniform();
    if chance < 0.03 { ordinary * factor } else { ordinary }
}

fn brought(r: &mut Stream, part: f64) -> Vec<f64> {
    ELEMENTS.iter().map(|e| stage_pg(r, part * e.field_blank_pg)).collect()
}

fn blank(r: &mut Stream, label: String, kind: &'static str, part: f64, well: Option<&'static str>) -> BottleTruth {
    let none = vec![0.0; ELEMENTS.len()];
    BottleTruth {
        label,
        kind,
        well,
        parent: None,
        volume_ml: VOLUME_ML,
        water_ng_l: none.clone(),
        brought_pg: brought(r, part),
        spike_pg: none.clone(),
        spike_stated_pg: none,
        note: "",
        set_name: "",
        flow_l_min: None,
    }
}

fn sample(r: &mut Stream, w: usize, well: &Well, suffix: &str) -> BottleTruth {
    let first = format!("{}-26-07-A", well.name.replace('-', ""));
    let mut b = blank(
        r,
        format!("{}-26-07-{suffix}", well.name.replace('-', "")),
        "sample",
        PART_ACID + PART_BOTTLE + PART_TRANSPORT + PART_FIELD,
        Some(well.name),
    );
    b.water_ng_l = ELEMENTS.iter().map(|e| e.water_ng_l[w]).collect();
    if suffix != "A" {
        b.kind = "duplicate";
        b.parent = Some(first);
    }
    if w == 2 && suffix == "B" {
        // Flakes of the pipe: the second bottle truly holds more of the pipe's metals.
        for (c, e) in b.water_ng_l.iter_mut().zip(ELEMENTS) {
            if matches!(e.symbol, "Pb" | "Zn" | "Cd" | "Cr") {
                *c *= 1.45;
            }
        }
        b.note = "reddish flakes seen in the stream";
    }
    b
}

fn spiked(r: &mut Stream, kind: &'static str, label: String) -> BottleTruth {
    let mut b = sample(r, 1, &WELLS[1], "A");
    b.kind = kind;
    b.parent = Some("SL2-26-07-A".into());
    b.label = label;
    b.spike_stated_pg = ELEMENTS.iter().map(spike_pg).collect();
    // One pipetting for all elements of a bottle, 0.8 %.
    let pipette = 1.0 + 0.008 * r.normal();
    b.spike_pg = b.spike_stated_pg.iter().map(|pg| pg * pipette).collect();
    b
}

/// Spike at about twice the level of the water of SL-2, in round pg.
fn spike_pg(e: &Element) -> f64 {
    let pg = 2.0 * e.water_ng_l[1] * VOLUME_ML;
    let decade = libm::pow(10.0, libm::floor(libm::log10(pg)));
    (pg / decade).round() * decade
}
