//! What the rest of the analysis says beside a number: charge balance, conductivity, oxygen or
//! nitrate beside sulfide. Laboratory concentrations of one water (one well on one trip, or one
//! sample of a foreign table) and the last field readings there become one analysis for `aqueous`;
//! its findings hold for every result of that water.

use crate::error::Error;
use crate::model::{Bottle, BottleKind, FieldReading, ResultRow};
use crate::results::amount;
use crate::store::{Filter, Store};
use aqueous::analysis::{Analysis, Analyte, Fraction};
use aqueous::speciation::{Request, speciation};
use quantity::{Amount, Finding, Outcome, Stage, Unit};
use std::collections::{BTreeMap, HashMap};

/// One water: well and trip, or a single bottle where there is no trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Water {
    /// A well on a trip.
    Visit(i64, i64),
    /// A bottle on its own.
    Bottle(i64),
}

impl Water {
    /// The water in a bottle.
    pub fn of(b: &Bottle) -> Self {
        match (b.trip_id, b.well_id) {
            (Some(trip), Some(well)) => Self::Visit(trip, well),
            _ => Self::Bottle(b.id),
        }
    }
}

/// Findings of the meaning stage by water.
#[derive(Debug, Clone, Default)]
pub struct Meanings(HashMap<Water, Vec<Finding>>);

// An analysis without these says nothing of the balance.
const NEEDED: [&str; 4] = ["Ca", "Na", "Cl", "alkalinity"];

impl Meanings {
    /// Works out every water of the record that has major ions.
    ///
    /// # Errors
    /// The store cannot be read. What a water's analysis cannot be is told as a finding.
    pub fn of(store: &Store, rows: &[ResultRow]) -> Result<Self, Error> {
        let bottles: HashMap<i64, Bottle> = store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect();
        let mut waters: BTreeMap<Water, Vec<&ResultRow>> = BTreeMap::new();
        for r in rows.iter().filter(|r| r.vial_id.is_none()) {
            if let Some(b) =
                bottles.get(&r.bottle_id).filter(|b| matches!(b.kind, BottleKind::Sample | BottleKind::Duplicate))
            {
                waters.entry(Water::of(b)).or_default().push(r);
            }
        }
        let readings = store.field_readings(&Filter::all())?;
        let mut all = HashMap::new();
        for (water, rows) in waters {
            if NEEDED.iter().all(|n| rows.iter().any(|r| r.analyte == *n)) {
                all.insert(water, findings(&rows, &field(&readings, water))?);
            }
        }
        Ok(Self(all))
    }

    /// What is said of a water.
    pub fn findings(&self, water: Water) -> Vec<Finding> {
        self.0.get(&water).cloned().unwrap_or_default()
    }
}

/// The last reading of each quantity at a well on a trip.
fn field(readings: &[FieldReading], water: Water) -> BTreeMap<&str, &FieldReading> {
    let mut last = BTreeMap::new();
    let Water::Visit(trip, well) = water else { return last };
    for r in readings.iter().filter(|r| r.trip_id == Some(trip) && r.well_id == well) {
        let standing = last.entry(r.quantity.as_str()).or_insert(r);
        if r.at >= standing.at {
            *standing = r;
        }
    }
    last
}

fn findings(rows: &[&ResultRow], field: &BTreeMap<&str, &FieldReading>) -> Result<Vec<Finding>, Error> {
    let mut analysis = Analysis {
        temperature_c: reading(rows, field, "temperature").unwrap_or(10.0),
        ph: reading(rows, field, "pH"),
        u_ph: field.get("pH").and_then(|r| r.u),
        eh_mv: reading(rows, field, "Eh"),
        conductivity_us_cm: reading(rows, field, "conductivity"),
        ..Analysis::default()
    };
    for r in rows.iter().filter(|r| !FIELD.contains(&r.analyte.as_str())) {
        if let Some(amount) = amount(r)? {
            analysis.analytes.push(Analyte { name: r.analyte.clone(), amount, fraction: fraction(&r.fraction) });
        }
    }
    if let Some(o) = field.get("dissolved oxygen") {
        let unit = Unit::parse(&o.unit).unwrap_or_else(|_| Unit::known("mg/L"));
        let amount = o.u.map_or(Amount::stated(o.value, unit.clone()), |u| Amount::measured(o.value, u, unit));
        analysis.analytes.push(Analyte { name: "O2".into(), amount, fraction: None });
    }
    let request = Request { analysis, ..Request::default() };
    Ok(match speciation(&request) {
        Ok(s) => s.findings.into_iter().filter(|f| KEPT.contains(&f.check.as_str())).collect(),
        Err(e) => vec![Finding::new(
            "meaning.charge-balance",
            Stage::Meaning,
            Outcome::NotKnown,
            format!("The analysis could not be worked out: {e}."),
        )],
    })
}

/// Names of quantities that are conditions of the water, not solutes.
const FIELD: [&str; 5] = ["temperature", "pH", "Eh", "conductivity", "dissolved oxygen"];

/// Findings that speak of the water as a whole; the rest stands in the chemistry of the sample.
const KEPT: [&str; 4] = [
    "meaning.charge-balance",
    "meaning.conductivity",
    "meaning.oxygen-beside-sulfide",
    "meaning.nitrate-beside-sulfide",
];

fn reading(rows: &[&ResultRow], field: &BTreeMap<&str, &FieldReading>, name: &str) -> Option<f64> {
    field.get(name).map(|r| r.value).or_else(|| rows.iter().find(|r| r.analyte == name)?.value)
}

fn fraction(text: &str) -> Option<Fraction> {
    if text == "unfiltered" {
        return Some(Fraction::Unfiltered);
    }
    text.split_whitespace().next()?.parse().ok().map(Fraction::FilteredUm)
}
