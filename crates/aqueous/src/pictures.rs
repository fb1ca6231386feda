//! What the pictures of a water show, as plain values: drawing is for who draws.
//!
//! In: a solved water (or several). Out: equivalents for two stacked columns, the three points
//! of a Piper diagram, the widths of a Stiff polygon, the redox ladder, saturation indices as
//! intervals, and the distribution of an element over its species against pH with this water's
//! pH marked. Piper: shares of equivalents, Ca/Mg/(Na+K) and Cl/SO4/(HCO3+CO3), the diamond by
//! projection on axes at 60° (Piper 1944, Trans. AGU 25:914; from memory). Stiff: meq/L, left
//! Na+K, Ca, Mg, right Cl, HCO3+CO3, SO4 (Stiff 1951, J. Petrol. Technol. 3:15; from memory).
//! Trade diagrams. Checked in `tests/pictures.rs`.

use crate::equilibrium::{Composition, Constants, Equilibrium, Ph, solve_in};
use crate::error::Error;
use crate::network::{ELECTRON, network};
use crate::water::density_kg_l;
use std::sync::Arc;

/// One layer of a column.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// `Ca`, `HCO3 + CO3`.
    pub name: String,
    /// Equivalents, meq/L.
    pub meq_l: f64,
}

/// Two columns side by side, each from the bottom up.
#[derive(Debug, Clone, PartialEq)]
pub struct Columns {
    /// Cations.
    pub cations: Vec<Layer>,
    /// Anions.
    pub anions: Vec<Layer>,
}

const CATIONS: [(&str, &str); 8] = [
    ("Ca^2+", "Ca"),
    ("Mg^2+", "Mg"),
    ("Na+", "Na"),
    ("K+", "K"),
    ("NH4+", "NH4"),
    ("Sr^2+", "Sr"),
    ("Fe^2+", "Fe"),
    ("Mn^2+", "Mn"),
];
const ANIONS: [(&str, &str); 6] =
    [("SO4^2-", "SO4"), ("Cl-", "Cl"), ("NO3-", "NO3"), ("F-", "F"), ("Br-", "Br"), ("HS-", "HS")];

/// Equivalents by constituent, complexes counted with the ion that they hold; alkalinity as
/// HCO3 + CO3. Layers of nothing are left out.
pub fn columns(e: &Equilibrium) -> Columns {
    let net = network();
    let to_meq_l = density_kg_l(e.temperature_c) * 1e3;
    let layer = |(component, name): &(&str, &str)| {
        let c = net.component(component)?;
        let meq_l = e.total(c) * f64::from(net.components[c].charge.abs()) * to_meq_l;
        (meq_l > 0.0).then(|| Layer { name: (*name).into(), meq_l })
    };
    let cations: Vec<Layer> = CATIONS.iter().filter_map(layer).collect();
    let mut anions: Vec<Layer> = ANIONS.iter().filter_map(layer).collect();
    // Alkalinity counts sulfide in HS− once; it stands as a layer of its own, so it is taken off.
    let sulfide = anions.iter().find(|l| l.name == "HS").map_or(0.0, |l| l.meq_l);
    let alkalinity = e.alkalinity() * to_meq_l - sulfide;
    if alkalinity > 0.0 {
        anions.insert(0, Layer { name: "HCO3 + CO3".into(), meq_l: alkalinity });
    }
    Columns { cations, anions }
}

fn of(layers: &[Layer], names: &[&str]) -> f64 {
    layers.iter().filter(|l| names.contains(&l.name.as_str())).map(|l| l.meq_l).sum()
}

/// One water in a Piper diagram; coordinates have the side of a triangle as unit, the cation
/// triangle's left corner at the origin, the anion triangle's left corner at (1 + gap, 0).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piper {
    /// Ca, Mg, Na + K in percent of their equivalents.
    pub cations_percent: [f64; 3],
    /// HCO3 + CO3, Cl, SO4 in percent of their equivalents.
    pub anions_percent: [f64; 3],
    /// Point in the cation triangle.
    pub cation: (f64, f64),
    /// Point in the anion triangle.
    pub anion: (f64, f64),
    /// Point in the diamond.
    pub diamond: (f64, f64),
}

/// Distance between the two triangles of a Piper diagram, in sides.
pub const PIPER_GAP: f64 = 0.2;

/// The points of a water in a Piper diagram; `None` without cations or anions of the three kinds.
pub fn piper(c: &Columns) -> Option<Piper> {
    let ca = of(&c.cations, &["Ca"]);
    let mg = of(&c.cations, &["Mg"]);
    let na = of(&c.cations, &["Na", "K"]);
    let hco3 = of(&c.anions, &["HCO3 + CO3"]);
    let cl = of(&c.anions, &["Cl"]);
    let so4 = of(&c.anions, &["SO4"]);
    let (cations, anions) = (ca + mg + na, hco3 + cl + so4);
    if cations <= 0.0 || anions <= 0.0 {
        return None;
    }
    let height = 0.5 * libm::sqrt(3.0);
    // Left corner Ca, right corner Na + K, top Mg.
    let (m, n) = (mg / cations, na / cations);
    let cation = (n + 0.5 * m, m * height);
    // Left corner HCO3, right corner Cl, top SO4.
    let (s, l) = (so4 / anions, cl / anions);
    let start = 1.0 + PIPER_GAP;
    let anion = (start + l + 0.5 * s, s * height);
    // Up along the right-leaning side from the cation point, along the left-leaning from the anion
    // point: y = y1 + √3 (x − x1) and y = y2 − √3 (x − x2).
    let root = libm::sqrt(3.0);
    let x = 0.5 * (cation.0 + anion.0) + (anion.1 - cation.1) / (2.0 * root);
    let y = cation.1 + root * (x - cation.0);
    Some(Piper {
        cations_percent: [ca, mg, na].map(|v| 100.0 * v / cations),
        anions_percent: [hco3, cl, so4].map(|v| 100.0 * v / anions),
        cation,
        anion,
        diamond: (x, y),
    })
}

/// Half-widths of a Stiff polygon from top to bottom, meq/L: left Na + K, Ca, Mg; right Cl,
/// HCO3 + CO3, SO4.
pub fn stiff(c: &Columns) -> ([f64; 3], [f64; 3]) {
    (
        [of(&c.cations, &["Na", "K"]), of(&c.cations, &["Ca"]), of(&c.cations, &["Mg"])],
        [of(&c.anions, &["Cl"]), of(&c.anions, &["HCO3 + CO3"]), of(&c.anions, &["SO4"])],
    )
}

/// Distribution of one component over its species against pH.
#[derive(Debug, Clone, PartialEq)]
pub struct Distribution {
    /// The component's label: `Pb`.
    pub element: String,
    /// pH of each column of `shares`.
    pub ph: Vec<f64>,
    /// Species and its share at each pH; those that never reach 1 % are summed as `others`.
    pub shares: Vec<(String, Vec<f64>)>,
    /// This water's pH.
    pub here: f64,
}

/// Shares of a component's species from `low` to `high` pH in `points` steps, all totals (carbon
/// too) held as they are in this water.
///
/// # Errors
/// [`Error::Unclear`] where the component is absent; those of the solver.
pub fn against_ph(
    e: &Equilibrium,
    component: usize,
    (low, high): (f64, f64),
    points: usize,
) -> Result<Distribution, Error> {
    let label = network().components[component].label.clone();
    if e.total(component) <= 0.0 || points < 2 {
        return Err(Error::Unclear {
            quantity: label.into(),
            found: "nothing of it in this water".into(),
            expected: "a component of the water and at least two points".into(),
        });
    }
    let parts = e.system.components.iter().zip(&e.totals);
    let mut c = Composition {
        temperature_c: e.temperature_c,
        ph: Ph::Given(low),
        totals: parts.filter(|(c, _)| **c > ELECTRON).map(|(c, t)| (*c, *t)).collect(),
        // Alkalinity moves with pH: held, it would ask for other carbon at each point.
        alkalinity: None,
        pe: e.system.position(ELECTRON).map(|at| -e.solution.x[at] / core::f64::consts::LN_10),
        choices: e.choices.clone(),
    };
    let constants: &Arc<Constants> = &e.constants;
    let holders: Vec<(usize, f64)> = (0..e.system.species.len())
        .map(|i| (i, e.system.species[i].count(component)))
        .filter(|(_, n)| *n != 0.0)
        .collect();
    let ph: Vec<f64> = (0..points).map(|k| low + (high - low) * k as f64 / (points - 1) as f64).collect();
    let mut table: Vec<Vec<f64>> = vec![Vec::with_capacity(points); holders.len()];
    for x in &ph {
        c.ph = Ph::Given(*x);
        let at = solve_in(&c, &e.system, constants, None)?;
        for ((i, n), row) in holders.iter().zip(&mut table) {
            row.push(n * at.solution.molality[*i] / e.total(component));
        }
    }
    let mut shares = Vec::new();
    let mut others = vec![0.0; points];
    for ((i, _), row) in holders.iter().zip(table) {
        if row.iter().any(|s| *s >= 0.01) {
            shares.push((e.system.species[*i].name.clone(), row));
        } else {
            others.iter_mut().zip(row).for_each(|(o, s)| *o += s);
        }
    }
    shares.push(("others".into(), others));
    Ok(Distribution { element: label, ph, shares, here: e.ph() })
}
