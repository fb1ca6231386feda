//! What belongs to one analyte: which isotopes are added, which internal standards divide, which
//! overlaps are taken off, which vials calibrate. Names are resolved here, once.

use super::error::Error;
use super::input::{Isotope, Role};
use super::recipe::{ByMass, FactorSource, Interference, Recipe};
use super::result::Analyte;
use super::table::Table;
use crate::interference::{self, method_terms};
use message::{Message, refusal as says};

/// One overlap on one of the isotopes.
#[derive(Debug, Clone)]
pub(super) struct Overlap {
    /// Index among the analyte's isotopes.
    pub member: usize,
    /// Monitor, index in the table.
    pub monitor: usize,
    /// The entry of the recipe.
    pub recipe: Interference,
    /// Check vials in time order; empty where the factor does not come from vials.
    pub vials: Vec<usize>,
}

/// The plan of one analyte.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    pub analyte: Analyte,
    /// Isotopes added up, indices in the table.
    pub members: Vec<usize>,
    /// Internal standards with weights that add up to 1.
    pub standards: Vec<(usize, f64)>,
    pub overlaps: Vec<Overlap>,
}

/// Plans of all analytes of a run, in order of element, mass, resolution.
pub(super) fn plans(table: &Table, recipe: &Recipe) -> Result<Vec<Plan>, Error> {
    let mut plans = Vec::new();
    let mut used = vec![false; table.isotopes.len()];
    for isotope in &recipe.internal_standards.isotopes {
        if let Some(i) = table.find(isotope) {
            used[i] = true;
        }
    }
    for isotope in &recipe.monitors_only {
        if let Some(i) = table.find(isotope) {
            used[i] = true;
        }
    }
    for i in 0..table.isotopes.len() {
        if used[i] {
            continue;
        }
        let members = members_of(table, recipe, i, &used);
        for m in &members {
            used[*m] = true;
        }
        plans.push(plan(table, recipe, members)?);
    }
    Ok(plans)
}

/// The isotope alone, or the sum of the recipe that it belongs to where all of it was read.
fn members_of(table: &Table, recipe: &Recipe, i: usize, used: &[bool]) -> Vec<usize> {
    let isotope = &table.isotopes[i];
    for sum in &recipe.sums {
        if sum.element != isotope.element || sum.resolution != isotope.resolution || !sum.masses.contains(&isotope.mass)
        {
            continue;
        }
        let members: Vec<usize> = (0..table.isotopes.len())
            .filter(|k| {
                let x = &table.isotopes[*k];
                !used[*k] && x.element == sum.element && x.resolution == sum.resolution && sum.masses.contains(&x.mass)
            })
            .collect();
        if members.len() == sum.masses.len() {
            return members;
        }
    }
    vec![i]
}

fn plan(table: &Table, recipe: &Recipe, members: Vec<usize>) -> Result<Plan, Error> {
    let first = &table.isotopes[members[0]];
    let masses: Vec<String> = members.iter().map(|m| table.isotopes[*m].mass.to_string()).collect();
    let analyte =
        Analyte { element: first.element.clone(), isotopes: masses.join("+"), resolution: first.resolution.clone() };
    let standards = internal_standards(table, recipe, &members, &analyte)?;
    let overlaps = overlaps(table, recipe, &members)?;
    Ok(Plan { analyte, members, standards, overlaps })
}

fn internal_standards(
    table: &Table,
    recipe: &Recipe,
    members: &[usize],
    analyte: &Analyte,
) -> Result<Vec<(usize, f64)>, Error> {
    let rule = &recipe.internal_standards;
    let missing = |standard: &Isotope, hint: Message| Error::MissingInternalStandard {
        analyte: analyte.to_string(),
        standard: standard.to_string(),
        place: says::Anywhere.into(),
        hint,
    };
    for named in &rule.named {
        if members.iter().any(|m| table.isotopes[*m].same_measurand(&named.isotope)) {
            return match &named.standard {
                None => Ok(vec![]),
                Some(s) => Ok(vec![(table.find(s).ok_or_else(|| missing(s, says::HintRead.into()))?, 1.0)]),
            };
        }
    }
    if rule.isotopes.is_empty() {
        return Ok(vec![]);
    }
    let mut at: Vec<(f64, usize)> = Vec::new();
    // Only at the analyte's resolution: the same isotope at another one is another measurand.
    for s in rule.isotopes.iter().filter(|s| s.resolution == analyte.resolution) {
        let i = table.find(s).ok_or_else(|| missing(s, says::HintTakeOut.into()))?;
        at.push((f64::from(s.mass), i));
    }
    if at.is_empty() {
        return Err(Error::NoInternalStandard { analyte: analyte.to_string(), resolution: analyte.resolution.clone() });
    }
    at.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mass = members.iter().map(|m| f64::from(table.isotopes[*m].mass)).sum::<f64>() / members.len() as f64;
    Ok(by_mass(&at, mass, rule.by_mass))
}

fn by_mass(at: &[(f64, usize)], mass: f64, rule: ByMass) -> Vec<(usize, f64)> {
    let above = at.iter().position(|(m, _)| *m > mass);
    match (rule, above) {
        (ByMass::Interpolate, Some(k)) if k > 0 => {
            let (low, high) = (at[k - 1], at[k]);
            let w = (mass - low.0) / (high.0 - low.0);
            if w == 0.0 { vec![(low.1, 1.0)] } else { vec![(low.1, 1.0 - w), (high.1, w)] }
        }
        _ => at
            .iter()
            .min_by(|a, b| (a.0 - mass).abs().total_cmp(&(b.0 - mass).abs()))
            .map(|best| vec![(best.1, 1.0)])
            .unwrap_or_default(),
    }
}

/// The recipe's own overlaps of the members and, for members it does not name, those of the
/// published method it claims.
fn entries_for(table: &Table, recipe: &Recipe, members: &[usize]) -> Result<Vec<Interference>, Error> {
    let mut entries = recipe.interferences.clone();
    let Some(method) = &recipe.published_equations else {
        return Ok(entries);
    };
    let terms = method_terms(method).map_err(|e| {
        let expected = match e {
            interference::Error::UnknownMethod { known, .. } => says::RecipeEquations { known: known.into() }.into(),
            other => other.message(),
        };
        Error::BadRecipe { field: "published_equations".into(), found: method.clone(), expected }
    })?;
    for m in members.iter().map(|m| &table.isotopes[*m]) {
        if recipe.interferences.iter().any(|e| e.target.same_measurand(m)) {
            continue;
        }
        for t in terms.iter().filter(|t| t.target == (m.element.clone(), m.mass)) {
            entries.push(Interference {
                target: m.clone(),
                monitor: Isotope::counting(&t.monitor.0, t.monitor.1, &m.resolution),
                species: t.species.clone(),
                factor: FactorSource::Given { value: t.factor, u: 0.0 },
            });
        }
    }
    Ok(entries)
}

fn overlaps(table: &Table, recipe: &Recipe, members: &[usize]) -> Result<Vec<Overlap>, Error> {
    let mut found = Vec::new();
    for entry in &entries_for(table, recipe, members)? {
        let Some(member) = members.iter().position(|m| table.isotopes[*m].same_measurand(&entry.target)) else {
            continue;
        };
        let monitor = table.find(&entry.monitor).ok_or_else(|| Error::MissingMonitor {
            monitor: entry.monitor.to_string(),
            species: entry.species.clone(),
            target: entry.target.to_string(),
            place: says::Anywhere.into(),
        })?;
        let vials = match &entry.factor {
            FactorSource::Vials { vials } => check_vials(table, entry, vials, members[member], monitor)?,
            _ => vec![],
        };
        found.push(Overlap { member, monitor, recipe: entry.clone(), vials });
    }
    Ok(found)
}

fn check_vials(
    table: &Table,
    entry: &Interference,
    names: &[String],
    target: usize,
    monitor: usize,
) -> Result<Vec<usize>, Error> {
    let mut found = Vec::new();
    for name in names {
        // A name stands for every vial that carries it: measured again and again, the factor may follow in time.
        let before = found.len();
        for (v, vial) in table.vials.iter().enumerate() {
            if vial.name == *name
                && vial.role == Role::InterferenceCheck
                && table.cell(target, v).is_ok()
                && table.cell(monitor, v).is_ok()
            {
                found.push(v);
            }
        }
        if found.len() == before {
            return Err(Error::NoSuchVial {
                vial: name.clone(),
                species: entry.species.clone(),
                target: entry.target.to_string(),
                monitor: entry.monitor.to_string(),
            });
        }
    }
    found.sort_unstable();
    found.dedup();
    if found.is_empty() {
        return Err(Error::BadFactor {
            species: entry.species.clone(),
            target: entry.target.to_string(),
            why: says::FactorNoVial.into(),
        });
    }
    Ok(found)
}
