//! Enrichment over the upper crust: is what stands in a blank or a residue dust?
//!
//! In: masses of elements in one particle or residue (blank, wipe, dust, unfiltered minus
//! filtered), a reference element. Out: EF = (X/ref)sample / (X/ref)crust for each crust table
//! of `reference/ucc_and_waters.csv`, side by side because they differ. EF near 1 says crust; an
//! EF above 10 says another source (common practice).
//! Never for filtered groundwater: its aluminium is held by its own solubility, so the quotient
//! means nothing; it is refused. Checked in `tests/enrichment.rs`.

use crate::error::Error;
use std::sync::OnceLock;

/// What the masses were measured in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Material {
    /// A blank: what fell in or was left on a surface.
    Blank,
    /// Dust or particles.
    Dust,
    /// Unfiltered minus filtered of the same water.
    UnfilteredMinusFiltered,
    /// Filtered water: refused.
    Filtered,
}

/// One enrichment factor.
#[derive(Debug, Clone, PartialEq)]
pub struct Factor {
    /// Element.
    pub element: String,
    /// Which crust table.
    pub crust: String,
    /// (X/ref)sample / (X/ref)crust.
    pub factor: f64,
    /// The crust's mass fraction of the element, mg/kg.
    pub crust_mg_kg: f64,
}

struct Crust {
    name: String,
    values: Vec<(String, f64)>,
}

fn crusts() -> &'static [Crust] {
    static CRUSTS: OnceLock<Vec<Crust>> = OnceLock::new();
    CRUSTS.get_or_init(|| {
        let table = include_str!("../../../reference/ucc_and_waters.csv");
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        let heads: Vec<String> =
            reader.headers().expect("the crust table has a heading").iter().map(String::from).collect();
        let rows: Vec<csv::StringRecord> =
            reader.records().map(|r| r.expect("the crust table is well-formed CSV")).collect();
        heads
            .iter()
            .enumerate()
            .filter(|(_, h)| h.starts_with("UCC_"))
            .map(|(k, h)| Crust {
                name: h.trim_start_matches("UCC_").trim_end_matches("_ppm").into(),
                values: rows
                    .iter()
                    .filter_map(|r| {
                        let first = r[k].split([' ', '(']).next().unwrap_or("");
                        first.parse().ok().map(|v| (r[0].to_string(), v))
                    })
                    .collect(),
            })
            .collect()
    })
}

/// Enrichment factors of every element against a reference element, one a crust that has both.
/// Masses in any one unit.
///
/// # Errors
/// [`Error::Unclear`] for filtered water, a reference that is not among the masses or in no crust.
///
/// ```
/// use aqueous::enrichment::{Material, enrichment};
/// let masses = [("Al".to_string(), 100.0), ("Pb".to_string(), 3.0)];
/// // Over a blank the quotient tells dust of the crust from a source of lead …
/// assert!(enrichment(Material::Blank, &masses, "Al")?.iter().all(|f| f.factor > 100.0));
/// // … over filtered water it means nothing, because its aluminium is held by its own solubility.
/// assert!(enrichment(Material::Filtered, &masses, "Al").is_err());
/// # Ok::<(), aqueous::Error>(())
/// ```
pub fn enrichment(material: Material, masses: &[(String, f64)], reference: &str) -> Result<Vec<Factor>, Error> {
    if material == Material::Filtered {
        return Err(Error::Unclear {
            quantity: "enrichment factor".into(),
            found: "filtered water".into(),
            expected: "a blank, dust, or unfiltered minus filtered: dissolved aluminium is held by its own solubility"
                .into(),
        });
    }
    let base = masses
        .iter()
        .find(|(e, m)| e == reference && *m > 0.0)
        .ok_or_else(|| Error::Unclear {
            quantity: "reference element".into(),
            found: reference.into(),
            expected: "one of the elements given, with a mass above 0".into(),
        })?
        .1;
    let mut out = Vec::new();
    for crust in crusts() {
        let value = |e: &str| crust.values.iter().find(|(n, _)| n == e).map(|(_, v)| *v);
        let Some(own) = value(reference) else { continue };
        for (e, m) in masses.iter().filter(|(e, _)| e != reference) {
            if let Some(x) = value(e) {
                out.push(Factor {
                    element: e.clone(),
                    crust: crust.name.clone(),
                    factor: (m / base) / (x / own),
                    crust_mg_kg: x,
                });
            }
        }
    }
    if out.is_empty() {
        return Err(Error::Unclear {
            quantity: "enrichment factor".into(),
            found: format!("reference {reference}").into(),
            expected: "a reference element and another that a crust table both hold".into(),
        });
    }
    Ok(out)
}

/// Signature ratio of two elements in the sample against those of known sources: the sources in
/// order of distance, |log10(sample/source)|.
pub fn nearest_sources(sample: f64, sources: &[(String, f64)]) -> Vec<(String, f64)> {
    let mut d: Vec<(String, f64)> =
        sources.iter().map(|(n, r)| (n.clone(), libm::fabs(libm::log10(sample / r)))).collect();
    d.sort_by(|a, b| a.1.total_cmp(&b.1));
    d
}
