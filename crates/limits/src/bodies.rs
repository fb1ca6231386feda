//! Bodies of water and their volumes, `reference/bodies.csv`, read at compile time.
//!
//! One row a body: volume in km³, how it was come by (seen, recalled, arithmetic), source. Volumes of
//! lakes are handbook figures without u; those marked recalled have still to be compared with print.
//! 1 km³ is 1e12 L, so 1 ng/L in it is 1 kg. Checked in `tests/claim.rs`.

use serde::Serialize;
use std::sync::LazyLock;

/// A body of water.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Body {
    /// Name.
    pub name: String,
    /// Volume, km³.
    pub volume_km3: f64,
    /// seen, recalled or arithmetic.
    pub provenance: String,
    /// Where the volume stands.
    pub source: String,
}

/// Litres in a cubic kilometre.
// Exact: (1e4 dm)³.
pub const LITRES_PER_KM3: f64 = 1e12;

static BODIES: LazyLock<Vec<Body>> = LazyLock::new(|| {
    csv::Reader::from_reader(include_str!("../../../reference/bodies.csv").as_bytes())
        .records()
        .map(|r| {
            let r = r.expect("the table of bodies is well-formed");
            Body {
                name: r[0].into(),
                volume_km3: r[1].parse().expect("a volume is a number"),
                provenance: r[2].into(),
                source: r[3].into(),
            }
        })
        .collect()
});

/// All bodies of the table.
pub fn bodies() -> &'static [Body] {
    &BODIES
}

/// A body by its name; "olympic pool" finds the pool with its measures.
pub fn body(name: &str) -> Option<&'static Body> {
    let wanted = name.trim().to_lowercase();
    let exact = bodies().iter().find(|b| b.name.to_lowercase() == wanted);
    exact.or_else(|| bodies().iter().find(|b| wanted.len() > 5 && b.name.to_lowercase().starts_with(&wanted)))
}
