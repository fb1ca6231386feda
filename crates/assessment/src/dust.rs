//! Is what fell into the field blanks dust? Enrichment over the upper crust.
//!
//! In: a reduced run; what the field blanks hold beyond the trip blanks (or, without those, beyond
//! the procedural ones) by element, ng/L of bottles of one volume, so that the ratios are by mass.
//! Out: for the first element of [`REFERENCES`] of which something was added, the enrichment
//! factor of every other added element over each crust table, with u; near 1 says crust, above 10
//! another source (common practice). The tables differ, so all are given. What was not seen to be
//! added has an upper bound only, and so has its factor. Checked in `crates/programme/tests/dust.rs`.

use aqueous::enrichment::{self, Material};
use cleanliness::nested::{self, Added};
use measurement::run::{ReducedRun, Role};
use message::{Message, dust as said, word};
use std::collections::BTreeMap;
use std::fmt;

/// Reference elements, the best first. Aluminium, titanium, scandium, thorium and iron are the usual ones (common
/// practice); vanadium and cobalt have other sources too and serve where nothing better was measured.
pub const REFERENCES: [&str; 7] = ["Al", "Ti", "Sc", "Th", "Fe", "V", "Co"];

/// Factor above which another source than the crust is likely (common practice).
pub const ANOTHER_SOURCE: f64 = 10.0;

/// One element over the crusts.
#[derive(Debug, Clone, PartialEq)]
pub struct Over {
    /// Element.
    pub element: String,
    /// What was added, ng/L.
    pub added: Added,
    /// Crust table and factor; of the upper bound where nothing was seen to be added.
    pub factors: Vec<(String, f64)>,
    /// Relative u of the factors, where something was seen.
    pub relative_u: Option<f64>,
}

/// What the factors of an element say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reads {
    /// Over every crust it stands above [`ANOTHER_SOURCE`], two u taken off.
    Other,
    /// Over no crust it reaches [`ANOTHER_SOURCE`], two u put on, or its bound put in its place.
    Crust,
    /// Its bound lies above, but nothing was seen to be added.
    NotSeen,
    /// In between.
    CannotTell,
}

impl Reads {
    /// In words.
    pub fn said(self) -> Message {
        match self {
            Self::Other => said::OtherSource.into(),
            Self::Crust => said::Crust.into(),
            Self::NotSeen => said::NotSeen.into(),
            Self::CannotTell => word::CannotTell.into(),
        }
    }
}

impl Over {
    /// By the crust that speaks least for the answer: the tables differ.
    pub fn reads(&self) -> Reads {
        let low = self.factors.iter().map(|f| f.1).fold(f64::INFINITY, f64::min);
        let high = self.factors.iter().map(|f| f.1).fold(0.0, f64::max);
        match self.relative_u {
            None if high < ANOTHER_SOURCE => Reads::Crust,
            None => Reads::NotSeen,
            Some(u) if low * (1.0 - 2.0 * u) > ANOTHER_SOURCE => Reads::Other,
            Some(u) if high * (1.0 + 2.0 * u) < ANOTHER_SOURCE => Reads::Crust,
            Some(_) => Reads::CannotTell,
        }
    }
}

/// Enrichment of what fell in.
#[derive(Debug, Clone, PartialEq)]
pub struct Dust {
    /// The reference element with what was added of it, ng/L.
    pub reference: (String, Added),
    /// Which blanks were taken off.
    pub beyond: &'static str,
    /// The other elements in order of their factor, the largest first.
    pub over: Vec<Over>,
}

/// Why there is none.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum NoDust {
    /// Fewer than two field blanks, or fewer than two inner ones.
    TooFewBlanks,
    /// No reference element was seen to be added.
    NoReference {
        /// Which blanks were taken off.
        beyond: &'static str,
    },
}

impl NoDust {
    /// As a message, without a full stop.
    pub fn said(&self) -> Message {
        match self {
            Self::TooFewBlanks => said::TooFewBlanks.into(),
            Self::NoReference { beyond } => {
                said::NoReference { elements: REFERENCES.join(", ").into(), beyond: beyond.replace(' ', "-").into() }
                    .into()
            }
        }
    }
}

impl fmt::Display for NoDust {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.said().in_english())
    }
}

impl std::error::Error for NoDust {}

/// Looks at the field blanks of a run.
///
/// # Errors
/// [`NoDust`]: too few blanks, or nothing of a reference element.
pub fn of(run: &ReducedRun) -> Result<Dust, NoDust> {
    let gross = |role: Role| -> BTreeMap<&str, Vec<f64>> {
        let mut out: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
        // One measurand an element: the first isotope and resolution of the run stands for it.
        let mut first: BTreeMap<&str, _> = BTreeMap::new();
        for r in &run.results {
            let of = *first.entry(r.analyte.element.as_str()).or_insert(&r.analyte);
            if r.role == role && r.analyte == *of {
                out.entry(&r.analyte.element).or_default().push(r.gross.value);
            }
        }
        out
    };
    let field = gross(Role::FieldBlank);
    let trip = gross(Role::TripBlank);
    let (inner, beyond) = if trip.values().any(|v| v.len() > 1) {
        (trip, "trip blanks")
    } else {
        (gross(Role::ProceduralBlank), "procedural blanks")
    };
    let added: Vec<(&str, Added)> =
        field.iter().filter_map(|(e, outer)| Some((*e, nested::added(outer, inner.get(e)?)?))).collect();
    if added.is_empty() {
        return Err(NoDust::TooFewBlanks);
    }
    let seen = |e: &str| added.iter().find(|(n, a)| *n == e && a.is_seen());
    let (reference, base) = *REFERENCES.iter().find_map(|e| seen(e)).ok_or(NoDust::NoReference { beyond })?;
    let masses: Vec<(String, f64)> =
        added.iter().map(|(e, a)| ((*e).to_owned(), if a.is_seen() { a.value } else { a.upper.max(0.0) })).collect();
    let factors = enrichment::enrichment(Material::Blank, &masses, reference).unwrap_or_default();
    let mut over: Vec<Over> = added
        .iter()
        .filter(|(e, _)| *e != reference)
        .map(|(e, a)| Over {
            element: (*e).to_owned(),
            added: *a,
            factors: factors.iter().filter(|f| f.element == *e).map(|f| (f.crust.clone(), f.factor)).collect(),
            relative_u: a.is_seen().then(|| (a.u / a.value).hypot(base.u / base.value)),
        })
        .filter(|o| !o.factors.is_empty())
        .collect();
    over.sort_by(|a, b| b.factors[0].1.total_cmp(&a.factors[0].1));
    Ok(Dust { reference: (reference.to_owned(), base), beyond, over })
}
