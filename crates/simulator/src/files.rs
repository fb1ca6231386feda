//! The raw files of the trip, as a team would bring them home: register sheets (one row a thing,
//! headings as in the record), the field sheets, the sequence of the run, the counts in blocks as
//! an instrument exports them (semicolons, decimal comma), and a laboratory's table of major ions.
//! All invented.

use crate::run::{INTEGRATION_S, REPLICATES};
use crate::truth::{ACID_ML, BottleTruth, ELEMENTS, WELLS};
use crate::{Counts, Trip};
use std::fmt::Write as _;

/// A raw file of the trip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RawFile {
    /// Name without folder.
    pub name: &'static str,
    /// The mapping that reads it.
    pub mapping: &'static str,
    /// Its text.
    pub text: String,
}

/// Name of the trip.
pub const TRIP: &str = "SL-2026-07";
/// The ditch that takes the overflow of all three wells.
pub const DRAIN: &str = "Heron Drain";
/// Name of the run.
pub const RUN: &str = "SL-R-2607";

/// A comma-separated table being written.
pub(crate) struct Sheet(String);

impl Sheet {
    pub(crate) fn new(headings: &[&str]) -> Self {
        let mut s = Self(String::new());
        s.row(headings);
        s
    }

    pub(crate) fn into_text(self) -> String {
        self.0
    }

    pub(crate) fn row(&mut self, cells: &[&str]) {
        for (i, cell) in cells.iter().enumerate() {
            if i > 0 {
                self.0.push(',');
            }
            if cell.contains([',', '"', '\n']) {
                let _ = write!(self.0, "\"{}\"", cell.replace('"', "\"\""));
            } else {
                self.0.push_str(cell);
            }
        }
        self.0.push('\n');
    }

    fn of(headings: &[&str], rows: &[&[&str]]) -> String {
        let mut s = Self::new(headings);
        for row in rows {
            s.row(row);
        }
        s.0
    }
}

/// The recipe of the invented laboratory: its dead time, its internal standards, its vials, its lead.
pub const RECIPE: &str = include_str!("../../../recipes/sector-field-water.toml");

/// All raw files of a trip, in the order in which they refer to each other.
pub fn raw_files(trip: &Trip) -> Vec<RawFile> {
    let file = |name, mapping, text| RawFile { name, mapping, text };
    vec![
        file("people.csv", "people", people()),
        file("sites.csv", "sites", sites()),
        file("wells.csv", "wells", wells()),
        file("well-sections.csv", "well-sections", well_sections()),
        file("layers.csv", "layers", layers()),
        file("lots.csv", "lots", lots()),
        file("acids.csv", "acids", acids()),
        file("lot-targets.csv", "lot-targets", lot_targets()),
        file("source-facts.csv", "source-facts", source_facts()),
        file("trip.csv", "trips", trips()),
        file("bottles.csv", "bottles", bottles(trip)),
        file("spikes.csv", "spikes", spikes(trip)),
        file("field-readings.csv", "field-readings", field_readings()),
        file("fills.csv", "fills", fills()),
        file("air-counts.csv", "air-counts", air_counts()),
        file("custody.csv", "custody", custody()),
        file("recipe.toml", "recipe", RECIPE.into()),
        file("run-sequence.csv", "sequence", sequence(trip)),
        file("run-counts.csv", "counts-blocks", counts(trip)),
        file("major-ions.csv", "laboratory-long", majors()),
        file("organics-numbers.csv", "compounds", crate::organics::numbers()),
        file("organics.csv", "organics-long", crate::organics::report()),
        file("district-limits.csv", "local-limits", crate::organics::district_limits()),
        file("tracers.csv", "tracers", crate::tracers::tracers()),
        file("rain-tritium.csv", "input-histories", crate::tracers::histories()),
        file("recharge.csv", "recharge-facts", crate::tracers::facts()),
    ]
}

/// Sequence and counts of a trip under another run's name and start: the same bottles measured
/// again. `started_at` as `2027-07-21 08:30`.
pub fn run_files(trip: &Trip, run: &str, started_at: &str) -> [RawFile; 2] {
    [
        RawFile { name: "run-sequence.csv", mapping: "sequence", text: sequence_of(trip, run, started_at) },
        RawFile { name: "run-counts.csv", mapping: "counts-blocks", text: counts_of(trip, run) },
    ]
}

fn people() -> String {
    Sheet::of(
        &["name", "role"],
        &[
            &["Marit Osk", "lead, clean hands"],
            &["Tobin Rell", "sampler, dirty hands"],
            &["Ines Varga", "analyst of the run"],
        ],
    )
}

fn sites() -> String {
    Sheet::of(
        &["name", "description", "latitude_deg", "longitude_deg", "invented"],
        &[&[
            "Sallow Levels",
            "Coastal lowland of marine clay over sandstone, recharged on Tamsin Heath. Invented place, invented data.",
            "",
            "",
            "1",
        ]],
    )
}

fn wells() -> String {
    let mut s = Sheet::new(&[
        "name",
        "site",
        "description",
        "medium",
        "pipe_material",
        "flow_note",
        "elevation_m",
        "overflows_to",
    ]);
    let site = "Sallow Levels";
    let about = "ditch that takes the overflow, above the first well";
    s.row(&[DRAIN, site, about, "surface-water", "", "", "0.9", ""]);
    for (w, elevation) in WELLS.iter().zip(["3.1", "2.4", "1.9"]) {
        s.row(&[w.name, site, w.description, "groundwater", w.pipe_material, "flows always", elevation, DRAIN]);
    }
    s.0
}

fn well_sections() -> String {
    let mut s = Sheet::new(&["well", "from_m", "to_m", "radius_m", "kind", "material"]);
    for w in &WELLS {
        let (foot, screen, radius) = (w.depth_m.to_string(), w.screen_to_m.to_string(), w.radius_m.to_string());
        s.row(&[w.name, "0", &foot, &radius, "casing", w.pipe_material]);
        s.row(&[w.name, &foot, &screen, &radius, "screen", w.pipe_material]);
    }
    s.0
}

fn layers() -> String {
    let mut s = Sheet::new(&["well", "from_m", "to_m", "material"]);
    for (w, clay, sand) in [("SL-1", "41", "54"), ("SL-2", "47", "62"), ("SL-3", "44", "55")] {
        s.row(&[w, "0", "1.2", "peat and made ground"]);
        s.row(&[w, "1.2", clay, "marine clay"]);
        s.row(&[w, clay, sand, "sandstone"]);
    }
    s.0
}

fn lots() -> String {
    Sheet::of(
        &["name", "material", "volume_mL", "cleaned_on", "steps", "acid_days", "rinse", "target_pg_Pb"],
        &[&[
            "14",
            "low-density polyethylene",
            "250",
            "2026-06-03",
            "detergent; HCl 50 %, hot, 7 days; HNO3 1 %, 14 days; rinse; double bag",
            "21",
            "high-purity water, five times",
            "15",
        ]],
    )
}

/// What a bottle of lot 14 may bring; lead stands with the lot itself.
fn lot_targets() -> String {
    let mut s = Sheet::new(&["lot", "analyte", "target_pg", "why"]);
    for e in ELEMENTS.iter().filter(|e| e.symbol != "Pb") {
        s.row(&["14", e.symbol, &short(1.5 * e.field_blank_pg), "one and a half usual field blanks"]);
    }
    s.0
}

/// Metal in dust, µg/g: magnitudes of soil and road dust, from memory; they make the scenario plausible.
const DUST_UG_G: [f64; 12] = [60.0, 0.5, 2.0, 0.5, 2.5, 1.5, 90.0, 80.0, 12.0, 35.0, 45.0, 180.0];

/// What the team knew before the trip: a certificate, leach tests, dust, a glove test. All invented.
fn source_facts() -> String {
    let mut s = Sheet::new(&["what", "analyte", "lot", "acid", "material", "place", "value", "u", "source"]);
    let mut row = |what: &str, analyte: &str, of: [&str; 4], value: f64, relative_u: f64, source: &str| {
        let [lot, acid, material, place] = of;
        s.row(&[what, analyte, lot, acid, material, place, &short(value), &short(relative_u * value), source]);
    };
    let all = ["", "", "", ""];
    row("deposition velocity, m/s", "", all, 0.003, 0.5, "still to light air, literature, from memory");
    row("bottle mouth, cm2", "", all, 5.3, 0.02, "measured, invented");
    row("bottle wall, cm2", "", all, 230.0, 0.05, "measured, invented");
    for (e, dust) in ELEMENTS.iter().zip(DUST_UG_G) {
        let blank = e.field_blank_pg;
        row(
            "metal in acid, pg/mL",
            e.symbol,
            ["", "HN-88", "", ""],
            0.3 * blank,
            0.25,
            "certificate of HN-88, invented",
        );
        row(
            "leach rate of bottle, pg/(cm2.d)",
            e.symbol,
            ["14", "", "", ""],
            0.3 * blank / 230.0 / 6.85,
            0.35,
            "leach test of two bottles of lot 14, invented",
        );
        row("handling, pg per opening", e.symbol, all, 0.4 * blank, 0.45, "glove and cap test of 2025, invented");
        row("metal in dust, ug/g", e.symbol, all, dust, 0.5, "dust of the field track, invented");
    }
    for (analyte, value) in [("Pb", 3.1), ("Zn", 300.0)] {
        let of = ["", "", "galvanised steel", ""];
        row("leach rate of pipe, ng/(m2.min)", analyte, of, value, 0.5, "leach test of a piece of old pipe, invented");
    }
    s.0
}

fn acids() -> String {
    Sheet::of(&["name", "kind", "opened_on"], &[&["HN-88", "nitric acid, twice sub-boiled", "2026-07-01"]])
}

fn trips() -> String {
    Sheet::of(
        &["name", "starts", "ends", "question", "weather", "wind", "dust", "road_salt", "engines", "persons"],
        &[&[
            TRIP,
            "2026-07-14 08:30",
            "2026-07-14 17:10",
            "Is lead at SL-2 still near 1 ng/L, and may one believe it?",
            "dry, 17 to 21 °C, broken cloud",
            "west, 2 to 4 on the Beaufort scale, gusts after noon",
            "field track dry, harvester at 600 m",
            "none since March",
            "car parked 80 m downwind; lorries on the road by SL-1",
            "Marit Osk, Tobin Rell",
        ]],
    )
}

/// When bottles of a kind and well were filled.
fn filled_at(b: &BottleTruth, k: usize) -> Option<String> {
    let (hour, minute) = match (b.kind, b.well) {
        ("bottle-blank" | "trip-blank", _) => return None,
        ("field-blank", _) => (11, 5 + 6 * k),
        _ if b.set_name == "fill series" => (13, 5 + 4 * k),
        _ if b.set_name == "flow series" => (15, 55 + 4 * k),
        (_, Some("SL-1")) => (9, 20 + 5 * k),
        (_, Some("SL-2")) => (12, 10 + 4 * k),
        _ => (15, 25 + 6 * k),
    };
    Some(format!("2026-07-14 {:02}:{:02}", hour + minute / 60, minute % 60))
}

fn bottles(trip: &Trip) -> String {
    let mut s = Sheet::new(&[
        "label",
        "kind",
        "trip",
        "well",
        "lot",
        "fraction",
        "volume_mL",
        "u_volume_mL",
        "filled_at",
        "sampler",
        "acid",
        "acid_mL",
        "acidified_at",
        "acidified_place",
        "openings",
        "cabinet_min",
        "open_air_min",
        "parent",
        "set_name",
        "note",
        "bags",
        "cabinet",
        "flow_L_min",
        "u_flow_L_min",
    ]);
    let mut k = 0;
    let mut last = ("", None, "");
    for b in &trip.bottles {
        k = if last == (b.kind, b.well, b.set_name) { k + 1 } else { 0 };
        last = (b.kind, b.well, b.set_name);
        let filled = filled_at(b, k).unwrap_or_default();
        let in_cabinet = b.well == Some("SL-2");
        let opened = b.well.is_some();
        s.row(&[
            &b.label,
            b.kind,
            if b.kind == "bottle-blank" { "" } else { TRIP },
            b.well.unwrap_or(""),
            "14",
            "unfiltered",
            &b.volume_ml.to_string(),
            "1.5",
            &filled,
            if opened { "Marit Osk" } else { "" },
            "HN-88",
            &ACID_ML.to_string(),
            "2026-07-15 09:30",
            "clean bench, Sallow Levels laboratory",
            if opened { "1" } else { "0" },
            if in_cabinet { "2" } else { "0" },
            if opened && !in_cabinet { "1.5" } else { "0" },
            b.parent.as_deref().unwrap_or(""),
            b.set_name,
            b.note,
            "2",
            if in_cabinet { "frame with filtered air, SL-2" } else { "" },
            &b.flow_l_min.map_or_else(String::new, |q| q.to_string()),
            // The mark and the watch: 2 %.
            &b.flow_l_min.map_or_else(String::new, |q| short(0.02 * q)),
        ]);
    }
    let others = [
        ("SL-1", "09:40", 'M'),
        ("SL-2", "12:55", 'M'),
        ("SL-3", "15:50", 'M'),
        (DRAIN, "08:50", 'M'),
        ("SL-2", "13:05", 'O'),
    ];
    for (well, time, mark) in others {
        let label = if mark == 'M' { majors_label(well) } else { crate::organics::BOTTLE.to_string() };
        let filled = format!("2026-07-14 {time}");
        s.row(&[
            &label,
            "sample",
            TRIP,
            well,
            "",
            "unfiltered",
            "500",
            "5",
            &filled,
            "Tobin Rell",
            "",
            "",
            "",
            "",
            "1",
            "0",
            "2",
            "",
            "",
            if mark == 'M' {
                "major ions, no acid; sulfide in a separate fixed bottle"
            } else {
                "glass, for organic compounds, no acid"
            },
            "1",
            "",
            "",
            "",
        ]);
    }
    s.0
}

fn spikes(trip: &Trip) -> String {
    let mut s = Sheet::new(&["bottle", "analyte", "added_pg", "u_pg"]);
    for b in &trip.bottles {
        for (e, pg) in ELEMENTS.iter().zip(&b.spike_stated_pg) {
            if *pg > 0.0 {
                s.row(&[&b.label, e.symbol, &pg.to_string(), &format!("{}", (pg * 0.01 * 1e4).round() / 1e4)]);
            }
        }
    }
    s.0
}

/// Quantity, five readings, u, unit.
type Series = (&'static str, [&'static str; 5], &'static str, &'static str);

fn field_readings() -> String {
    let mut s = Sheet::new(&["trip", "well", "at", "quantity", "value", "u", "unit"]);
    // Five readings three minutes apart before the first bottle; the scenario's choice.
    let series: [(&str, u32, [Series; 5]); 3] = [
        (
            "SL-1",
            9 * 60 + 2,
            [
                ("temperature", ["9.5", "9.4", "9.4", "9.4", "9.4"], "0.1", "°C"),
                ("pH", ["7.72", "7.71", "7.70", "7.70", "7.70"], "0.04", "pH"),
                ("conductivity", ["423", "424", "424", "424", "425"], "4", "µS/cm"),
                ("Eh", ["-152", "-158", "-161", "-162", "-163"], "15", "mV"),
                ("dissolved oxygen", ["0.08", "0.06", "0.06", "0.05", "0.05"], "0.03", "mg/L"),
            ],
        ),
        (
            "SL-2",
            10 * 60 + 40,
            [
                ("temperature", ["9.2", "9.2", "9.2", "9.2", "9.2"], "0.1", "°C"),
                ("pH", ["7.63", "7.63", "7.62", "7.62", "7.62"], "0.04", "pH"),
                ("conductivity", ["411", "411", "411", "411", "411"], "4", "µS/cm"),
                ("Eh", ["-178", "-180", "-181", "-182", "-182"], "15", "mV"),
                ("dissolved oxygen", ["0.05", "0.04", "0.04", "0.04", "0.04"], "0.03", "mg/L"),
            ],
        ),
        (
            "SL-3",
            15 * 60 + 5,
            [
                ("temperature", ["11.2", "11.6", "11.9", "12.1", "12.3"], "0.1", "°C"),
                ("pH", ["7.80", "7.83", "7.84", "7.85", "7.86"], "0.04", "pH"),
                ("conductivity", ["419", "419", "418", "418", "418"], "4", "µS/cm"),
                ("Eh", ["-92", "-97", "-101", "-105", "-108"], "15", "mV"),
                ("dissolved oxygen", ["0.22", "0.19", "0.17", "0.16", "0.15"], "0.03", "mg/L"),
            ],
        ),
    ];
    for (well, start, quantities) in series {
        for (name, values, u, unit) in quantities {
            for (i, value) in values.iter().enumerate() {
                let minute = start + 3 * i as u32;
                s.row(&[
                    TRIP,
                    well,
                    &format!("2026-07-14 {:02}:{:02}", minute / 60, minute % 60),
                    name,
                    value,
                    u,
                    unit,
                ]);
            }
        }
    }
    shut_in(&mut s);
    // The ditch by float and cross-section, a tenth at best.
    s.row(&[TRIP, DRAIN, "2026-07-14 08:45", "flow", "14", "1.5", "L/s"]);
    s.row(&[TRIP, DRAIN, "2026-07-14 08:40", "temperature", "16.4", "0.1", "°C"]);
    s.row(&[TRIP, DRAIN, "2026-07-14 08:40", "pH", "7.9", "0.05", "pH"]);
    s.0
}

/// SL-1 in the afternoon, after its bottles: shut for 52 minutes, the pressure read, opened, the flow read as it
/// fell; and what the map says of the heath. The flows lie about a constant-head test with T = 1.09e-4 m²/s and
/// S = 1e-4 (Jacob & Lohman 1952), 3.9 m of drawdown, scatter about 1 %.
fn shut_in(s: &mut Sheet) {
    let mut row = |at: &str, quantity: &str, value: &str, u: &str, unit: &str| {
        s.row(&[TRIP, "SL-1", &format!("2026-07-14 {at}"), quantity, value, u, unit]);
    };
    row("09:00", "distance to recharge area", "9500", "500", "m");
    row("09:00", "level of recharge area", "38", "1", "m");
    row("13:20", "valve", "0", "", "1");
    row("13:25", "gauge height", "0.60", "0.01", "m");
    row("13:25", "outlet height", "0.70", "0.01", "m");
    for (at, bar) in [("13:40", "0.37"), ("14:00", "0.39"), ("14:10", "0.39")] {
        row(at, "pressure", bar, "0.01", "bar");
    }
    row("14:12", "valve", "1", "", "1");
    for (minute, l_min) in [
        (13, "27.6"),
        (14, "25.6"),
        (15, "25.3"),
        (17, "24.0"),
        (20, "23.1"),
        (24, "22.9"),
        (30, "22.1"),
        (37, "21.4"),
        (46, "21.2"),
    ] {
        row(&format!("14:{minute}"), "flow", l_min, "", "L/min");
    }
}

fn fills() -> String {
    let mut s = Sheet::new(&["trip", "well", "at", "volume_L", "u_volume_L", "seconds"]);
    for (well, volume, at, seconds) in [
        ("SL-1", "10", "09:05", ["50.2", "49.8", "50.1", "50.4"]),
        ("SL-2", "10", "10:45", ["25.1", "24.9", "25.0", "25.2"]),
        ("SL-3", "2", "15:08", ["91.9", "92.6", "93.0", "92.2"]),
    ] {
        for t in seconds {
            s.row(&[TRIP, well, &format!("2026-07-14 {at}"), volume, if volume == "2" { "0.01" } else { "0.05" }, t]);
        }
    }
    s.0
}

fn air_counts() -> String {
    let mut s = Sheet::new(&["trip", "well", "place", "at", "size_um", "count", "volume_L"]);
    for (well, place, at, size, count, volume) in [
        ("SL-1", "open-air", "09:15", "0.5", "61420", "2.83"),
        ("SL-1", "open-air", "09:15", "5", "214", "2.83"),
        ("SL-2", "cabinet", "11:00", "0.5", "0", "28.3"),
        ("SL-2", "cabinet", "11:40", "0.5", "1", "28.3"),
        ("SL-2", "cabinet", "12:20", "0.5", "0", "28.3"),
        ("SL-2", "open-air", "11:02", "0.5", "38810", "2.83"),
        ("SL-3", "open-air", "15:20", "0.5", "45260", "2.83"),
        ("SL-3", "open-air", "15:20", "5", "390", "2.83"),
    ] {
        s.row(&[TRIP, well, place, &format!("2026-07-14 {at}"), size, count, volume]);
    }
    s.0
}

fn custody() -> String {
    Sheet::of(
        &["trip", "at", "step", "person", "place", "temperature_C", "seal"],
        &[
            &[TRIP, "2026-07-14 16:20", "sealed", "Marit Osk", "Sallow Levels, by the car", "5.1", "whole"],
            &[TRIP, "2026-07-15 08:40", "received", "Ines Varga", "laboratory", "4.2", "whole"],
            &[TRIP, "2026-07-15 09:30", "acidified", "Ines Varga", "clean bench", "", "whole"],
        ],
    )
}

fn sequence(trip: &Trip) -> String {
    sequence_of(trip, RUN, "2026-07-21 08:30")
}

fn sequence_of(trip: &Trip, run: &str, started_at: &str) -> String {
    let mut s = Sheet::new(&[
        "run",
        "laboratory",
        "instrument",
        "started_at",
        "recipe",
        "position",
        "name",
        "role",
        "bottle",
        "minutes",
        "dilution",
        "u_dilution",
        "analyte",
        "value",
        "u",
        "unit",
        "source",
        "stock",
        "assigned_side",
    ]);
    for v in &trip.vials {
        let bottle = match v.counts_of {
            Counts::Bottle(i) => trip.bottles[i].label.as_str(),
            _ => "",
        };
        let (position, minutes) = (v.position.to_string(), v.minutes.to_string());
        let row = |s: &mut Sheet, assigned: [&str; 7]| {
            let head = [
                run,
                "Sallow Levels laboratory (invented)",
                "sector-field mass spectrometer, dry sample introduction",
                started_at,
                "sector-field-water",
                &position,
                &v.name,
                v.role,
                bottle,
                &minutes,
                "1",
                "0.001",
            ];
            s.row(&[&head[..], &assigned[..]].concat());
        };
        if v.assigned.is_empty() {
            row(&mut s, [""; 7]);
        }
        for (symbol, value, u) in &v.assigned {
            row(
                &mut s,
                [
                    symbol,
                    &short(*value),
                    &short(*u),
                    "ng/L",
                    if v.role == "reference-material" {
                        "control water of the laboratory, invented"
                    } else {
                        "mixed stock, by mass"
                    },
                    if v.role == "reference-material" { "control water CW-5" } else { "mixed stock MS-12" },
                    "in the bottle",
                ],
            );
        }
    }
    s.0
}

/// Four decimals at most, no trailing zeros.
fn short(x: f64) -> String {
    ((x * 1e6).round() / 1e6).to_string()
}

/// Counts in blocks: one block a vial, isotopes across, replicates down; semicolons, decimal comma.
fn counts(trip: &Trip) -> String {
    counts_of(trip, RUN)
}

fn counts_of(trip: &Trip, run: &str) -> String {
    let mut out =
        format!("Invented counts of run {run}; counts per second; {INTEGRATION_S} s per replicate\n").replace('.', ",");
    for v in &trip.vials {
        let readings: Vec<_> = trip.readings.iter().filter(|r| r.position == v.position).collect();
        let _ = writeln!(out, "\nVial;{};{}", v.position, v.name);
        let names: Vec<String> = readings.iter().map(|r| format!("{}{}@{}", r.element, r.mass, r.resolution)).collect();
        let _ = writeln!(out, "Replicate;{}", names.join(";"));
        for k in 0..REPLICATES {
            let cells: Vec<String> =
                readings.iter().map(|r| format!("{:.2}", r.rates_cps[k]).replace('.', ",")).collect();
            let _ = writeln!(out, "{};{}", k + 1, cells.join(";"));
        }
    }
    out
}

/// Label of the bottle for major ions.
fn majors_label(water: &str) -> String {
    let short = if water == DRAIN { "HD".into() } else { water.replace('-', "") };
    format!("{short}-26-07-M")
}

fn majors() -> String {
    let mut s = Sheet::new(&[
        "bottle",
        "analyte",
        "fraction",
        "value",
        "u",
        "unit",
        "reporting_limit",
        "laboratory",
        "method",
        "remark",
    ]);
    // Three wells, then the ditch: field drains bring it nitrate and chloride.
    let rows: [(&str, &str, &str, [&str; 4], &str); 12] = [
        ("Ca", "mg/L", "0.2", ["55.0", "52.1", "50.0", "78"], "0.012"),
        ("Mg", "mg/L", "0.1", ["9.0", "8.6", "8.8", "12.1"], "0.012"),
        ("Na", "mg/L", "0.2", ["22.0", "24.0", "27.0", "41"], "0.015"),
        ("K", "mg/L", "0.1", ["2.0", "1.9", "2.2", "6.5"], "0.03"),
        ("alkalinity", "mg/L as CaCO3", "2", ["192", "190", "188", "205"], "0.01"),
        ("Cl", "mg/L", "0.1", ["19.0", "17.5", "21.0", "72"], "0.02"),
        ("SO4", "mg/L", "0.1", ["6.0", "5.2", "4.4", "38"], "0.03"),
        ("S(-II)", "mg/L", "0.02", ["0.24", "0.31", "0.12", "<0.02"], "0.08"),
        ("NO3", "mg/L as N", "0.02", ["<0.02", "<0.02", "<0.02", "3.1"], "0.03"),
        ("SiO2", "mg/L", "0.1", ["13.6", "14.0", "14.3", "9.0"], "0.03"),
        ("Fe", "µg/L", "2", ["46", "38", "310", "140"], "0.04"),
        ("Mn", "µg/L", "1", ["61", "58", "66", "35"], "0.03"),
    ];
    for (i, water) in WELLS.iter().map(|w| w.name).chain([DRAIN]).enumerate() {
        let label = majors_label(water);
        for (analyte, unit, limit, values, relative_u) in rows {
            let u = match (values[i].parse::<f64>(), relative_u.parse::<f64>()) {
                (Ok(v), Ok(r)) => short(libm::round(v * r * 1e4) / 1e4),
                _ => String::new(),
            };
            s.row(&[
                &label,
                analyte,
                "unfiltered",
                values[i],
                &u,
                unit,
                limit,
                "Lowmere Water Laboratory (invented)",
                "ion chromatography, ICP-OES, titration",
                "",
            ]);
        }
    }
    s.0
}
