//! Reference waters: rain, rivers, ocean, old ice, certified materials; and the crust.
//!
//! `reference/reference_waters.csv` holds materials with u, and waters with the range that their source
//! gives; the world mean of rivers, the North Pacific and four tables of the upper crust come from
//! `reference/ucc_and_waters.csv`, whose sources give no spread. Each row says seen or recalled.
//! "Rain" and "old ice" alone name no water: which rain, which ice, must be said, because they lie
//! hundreds of times apart. What is noted to a figure stands there as the key of a message. Read at
//! compile time. Checked in `tests/absence.rs`.

use message::{Message, reference_water};
use quantity::{Amount, Lang, Spoken, Unit};
use serde::Serialize;
use std::sync::LazyLock;

/// One figure of a reference water.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Water {
    /// Which water: "rain, remote", "Greenland ice, 7760 years old".
    pub water: String,
    /// Kind: rain, river, ocean, old ice, crust, certified material.
    pub kind: String,
    /// Element.
    pub analyte: String,
    /// Its concentration, in `unit`.
    pub value: f64,
    /// Standard uncertainty.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u: Option<f64>,
    /// Range of the source, where it gives one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub range: Option<(f64, f64)>,
    /// Unit.
    pub unit: Unit,
    /// Density where mass meets volume, kg/L.
    pub density_kg_l: f64,
    /// seen, recalled or mixed.
    pub provenance: String,
    /// Source.
    pub source: String,
    /// What else to bear in mind, in English.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The same, to be said in any language.
    #[serde(skip)]
    pub noted: Option<Message>,
}

impl Water {
    /// The figure: with u, else stated.
    pub fn amount(&self) -> Amount {
        match self.u {
            Some(u) => Amount::measured(self.value, u, self.unit.clone()),
            None => Amount::stated(self.value, self.unit.clone()),
        }
    }
}

/// Columns of the table of crust and waters that hold a reference each: column, name, kind, unit, density,
/// source.
const COLUMNS: &[(&str, &str, &str, &str, f64, &str)] = &[
    (
        "UCC_RudnickGao2003_ppm",
        "upper crust, Rudnick & Gao",
        "crust",
        "mg/kg",
        1.0,
        "Rudnick & Gao 2003, Treatise on Geochemistry 3:1",
    ),
    (
        "UCC_TaylorMcLennan1985_ppm",
        "upper crust, Taylor & McLennan",
        "crust",
        "mg/kg",
        1.0,
        "Taylor & McLennan 1985, The Continental Crust",
    ),
    (
        "UCC_McLennan2001_ppm",
        "upper crust, McLennan",
        "crust",
        "mg/kg",
        1.0,
        "McLennan 2001, Geochem. Geophys. Geosyst. 2:1021",
    ),
    ("UCC_HuGao2008_ppm", "upper crust, Hu & Gao", "crust", "mg/kg", 1.0, "Hu & Gao 2008, Chem. Geol. 253:205"),
    (
        "world_river_Gaillardet2003_ugL",
        "rivers, world mean",
        "river",
        "ug/L",
        1.0,
        "Gaillardet et al. 2003, Treatise on Geochemistry 5:225",
    ),
    // Sea water near 1.025 kg/L at the surface: from memory.
    ("ocean_NPac_Nozaki1997_ngkg", "ocean, North Pacific", "ocean", "ng/kg", 1.025, "Nozaki 1997, Eos 78:221"),
];

static WATERS: LazyLock<Vec<Water>> = LazyLock::new(|| {
    let mut out = own();
    out.extend(crust_and_waters());
    out
});

fn own() -> Vec<Water> {
    let text = include_str!("../../../reference/reference_waters.csv");
    csv::Reader::from_reader(text.as_bytes())
        .records()
        .map(|r| {
            let r = r.expect("the table of reference waters is well-formed");
            let number = |i: usize| r[i].parse::<f64>().ok();
            let noted = noted(&r[11]);
            Water {
                water: r[0].into(),
                kind: r[1].into(),
                analyte: r[2].into(),
                value: number(3).expect("a value is a number"),
                u: number(4),
                range: number(5).zip(number(6)),
                unit: Unit::known(&r[7]),
                density_kg_l: number(8).expect("a density is a number"),
                provenance: r[9].into(),
                source: r[10].into(),
                note: noted.as_ref().map_or_else(String::new, Message::in_english),
                noted,
            }
        })
        .collect()
}

/// A note of the table, by its key.
fn noted(key: &str) -> Option<Message> {
    let known = || Message::named("reference_water", key).expect("a note of the table stands in the catalogue");
    (!key.is_empty()).then(known)
}

fn crust_and_waters() -> Vec<Water> {
    let mut reader = csv::Reader::from_reader(include_str!("../../../reference/ucc_and_waters.csv").as_bytes());
    let heads = reader.headers().expect("the table has a heading").clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(|r| r.expect("the table is well-formed CSV")).collect();
    let mut out = vec![];
    for (column, name, kind, unit, density, source) in COLUMNS {
        let at = heads.iter().position(|h| h == *column).expect("the column stands in the table");
        for row in &rows {
            // "3000 (S as TiO2 0.5 %)": the number stands first, what was seen of it in brackets.
            let cell = &row[at];
            let Some(value) = cell.split_whitespace().next().and_then(|n| n.parse().ok()) else { continue };
            let seen = cell.contains("(S");
            out.push(Water {
                water: (*name).into(),
                kind: (*kind).into(),
                analyte: row[0].into(),
                value,
                u: None,
                range: None,
                unit: Unit::known(unit),
                density_kg_l: *density,
                provenance: if seen { "seen" } else { "recalled" }.into(),
                source: (*source).into(),
                note: reference_water::NoSpread.in_language(Lang::En),
                noted: Some(reference_water::NoSpread.into()),
            });
        }
    }
    out
}

/// All figures.
pub fn waters() -> &'static [Water] {
    &WATERS
}

/// Names of the waters that hold a figure of the analyte.
pub fn names(analyte: &str) -> Vec<&'static str> {
    waters().iter().filter(|w| w.analyte == analyte && w.kind != "crust").map(|w| w.water.as_str()).collect()
}

/// A figure by water and analyte; none where no water bears exactly that name.
pub fn water(name: &str, analyte: &str) -> Option<&'static Water> {
    let wanted = name.trim().to_lowercase();
    waters().iter().find(|w| w.analyte == analyte && w.water.to_lowercase() == wanted)
}
