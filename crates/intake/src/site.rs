//! A site as the sciences take it, from the rows of the record: the well's construction, the place of a count of
//! particles.

use aquifer::well::{self, Construction, Screen, Section};
use record::model::{AirCount, Layer, WellSection};
use std::collections::BTreeSet;

/// Cabinet or open air; a room counts as open.
pub type Place = &'static str;

/// The place of a count.
pub fn place(c: &AirCount) -> Place {
    if c.place == "cabinet" { "cabinet" } else { "open-air" }
}

/// Rows that say word for word what a row before them says: one stretch of pipe, taken in twice.
pub fn said_before(sections: &[WellSection]) -> Vec<i64> {
    let said = |s: &WellSection| {
        (s.from_m.to_bits(), s.to_m.to_bits(), s.radius_m.to_bits(), s.kind.clone(), s.material.clone())
    };
    let mut seen = BTreeSet::new();
    sections.iter().filter(|s| !seen.insert(said(s))).map(|s| s.id).collect()
}

/// The construction that the sciences read: screens are sections that the water rises through too. A stretch that
/// stands twice, word for word, is one.
pub fn construction(sections: &[WellSection], layers: &[Layer], elevation_m: Option<f64>) -> Construction {
    let is_casing = |s: &WellSection| s.kind != "screen" && s.kind != "open";
    let again = said_before(sections);
    let sections: Vec<&WellSection> = sections.iter().filter(|s| !again.contains(&s.id)).collect();
    Construction {
        sections: sections
            .iter()
            .map(|s| Section {
                from_m: s.from_m,
                to_m: s.to_m,
                radius_m: s.radius_m,
                // An open hole has no pipe: its material is none that somebody left unsaid.
                material: match (&s.material, s.kind.as_str()) {
                    (Some(m), _) => m.clone(),
                    (None, "open") => "open hole".into(),
                    (None, _) => "material not stated".into(),
                },
            })
            .collect(),
        screens: sections
            .iter()
            .copied()
            .filter(|s| !is_casing(s))
            .map(|s| Screen { from_m: s.from_m, to_m: s.to_m })
            .collect(),
        layers: layers
            .iter()
            .map(|l| well::Layer { from_m: l.from_m, to_m: l.to_m, name: l.material.clone() })
            .collect(),
        depth_m: None,
        ground_elevation_m: elevation_m,
    }
}
