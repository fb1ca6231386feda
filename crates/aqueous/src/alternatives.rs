//! Answers with rival constants in place of the default ones, and who carries each element over all of them.
//!
//! In: a composition and its solution with the default constants. Out: one [`Alternative`] for each rival that moves a
//! saturation index or a share, sets taken whole, and one without metal bisulfides; a [`Carrier`] for each component.
//! Checked in `tests/calc.rs`, `tests/validation_cold.rs`.

use crate::constants::{self, Kind};
use crate::equilibrium::{Composition, Constants, Equilibrium, solve_in, system_of};
use crate::network::{ELECTRON, network};
use crate::solver::System;
use crate::speciation::OFF;
use crate::uncertainty;
use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::sync::Arc;

/// One answer with a rival constant in place of the default.
#[derive(Debug, Clone, PartialEq)]
pub struct Alternative {
    /// `galena`, `PbCO3(aq)`, `metal bisulfides`; of a set, its first row.
    pub constant: String,
    /// What changes with it because it was measured together: other rows of the set.
    pub with: Vec<String>,
    /// Which rival: the tag of the table, or `left out`.
    pub which: String,
    /// log K of the rival; NaN where a group is left out.
    pub log_k: f64,
    /// Source.
    pub source: String,
    /// How it is known.
    pub provenance: &'static str,
    /// Solids whose index moves by more than 0.02: name, new index.
    pub moved: Vec<(String, f64)>,
    /// Species that hold another share of a component by more than a hundredth: species, component, new share.
    pub shares: Vec<(String, usize, f64)>,
}

/// Who carries a component, over the answer and every rival one.
#[derive(Debug, Clone, PartialEq)]
pub struct Carrier {
    /// Network component.
    pub component: usize,
    /// The species that holds most of it.
    pub species: String,
    /// Its share of the inorganic part.
    pub share: f64,
    /// Least and largest share of it over all answers.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// False where a rival answer names another species: who carries it cannot be told.
    pub told: bool,
}

/// Answers with each rival constant in turn, with each rival set, and without metal bisulfides.
pub(crate) fn alternatives(c: &Composition, first: &Equilibrium) -> Vec<Alternative> {
    let used = |row: usize, rivals: bool| {
        let net = network();
        let species = if rivals { &net.species } else { &first.system.species };
        species.iter().chain(&net.solids).any(|s| {
            s.recipe.iter().any(|(r, _)| *r == row) && s.terms.iter().all(|(j, _)| first.system.position(*j).is_some())
        })
    };
    let mut out = single_alternatives(c, first, &used);
    out.extend(whole_sets(c, first, &used));
    // They exist, but their constants are very uncertain: every answer is also given without them.
    if uncertainty::touches_bisulfides(first) {
        let mut without = c.clone();
        without.choices.without_bisulfides = true;
        let system = Arc::new(system_of(&without));
        if let Some((moved, shares)) = moved(&without, first, &first.constants.rows, &system) {
            out.push(Alternative {
                constant: "metal bisulfide complexes".into(),
                with: vec![],
                which: "left out".into(),
                log_k: f64::NAN,
                source: "reference/aqueous_constants.csv calls them very uncertain".into(),
                provenance: "memory",
                moved,
                shares,
            });
        }
    }
    out
}

/// Rivals of rows that stand alone, one at a time.
fn single_alternatives(c: &Composition, first: &Equilibrium, used: &dyn Fn(usize, bool) -> bool) -> Vec<Alternative> {
    let table = constants::table();
    let mut out = Vec::new();
    for (row, default) in table.iter().enumerate().filter(|(_, d)| d.is_default() && d.kind != Kind::Gas) {
        if constants::alternatives(default).next().is_none() || !used(row, false) {
            continue;
        }
        let values = uncertainty::alternative_values(default, c.temperature_c);
        for (rival, value) in constants::alternatives(default).zip(values).filter(|(r, _)| r.set.is_empty()) {
            let Some(value) = value else { continue };
            let mut rows = first.constants.rows.clone();
            rows[row] = value;
            if let Some((moved, shares)) = moved(c, first, &rows, &first.system) {
                out.push(Alternative {
                    constant: default.name.clone(),
                    with: vec![],
                    which: rival.tag.clone(),
                    log_k: value,
                    source: rival.source.clone(),
                    provenance: rival.provenance.word(),
                    moved,
                    shares,
                });
            }
        }
    }
    out
}

/// Rivals that were measured together, each set whole.
fn whole_sets(c: &Composition, first: &Equilibrium, used: &dyn Fn(usize, bool) -> bool) -> Vec<Alternative> {
    let table = constants::table();
    let mut whole = c.clone();
    whole.choices.with_rivals = true;
    let with_rivals: OnceCell<Arc<System>> = OnceCell::new();
    let mut out = Vec::new();
    for variant in constants::sets().iter().flat_map(|s| &s.variants) {
        let touching: Vec<usize> = variant.rows.iter().map(|(d, _)| *d).filter(|d| used(*d, true)).collect();
        let Some(leading) = touching.first() else { continue };
        let mut rows = first.constants.rows.clone();
        for (row, value) in uncertainty::variant_values(variant, c.temperature_c) {
            rows[row] = value;
        }
        // A species that only this set knows needs a place of its own in the equations.
        let revived = touching.iter().any(|d| table[*d].is_absent());
        let system = if revived { with_rivals.get_or_init(|| Arc::new(system_of(&whole))) } else { &first.system };
        let asked = if revived { &whole } else { c };
        if let Some((moved, shares)) = moved(asked, first, &rows, system) {
            let (_, rival) = variant.rows.iter().find(|(d, _)| d == leading).expect("the row is of the variant");
            let rival = &table[*rival];
            out.push(Alternative {
                constant: table[*leading].name.clone(),
                with: touching.iter().skip(1).map(|d| table[*d].name.clone()).collect(),
                which: variant.tag.clone(),
                log_k: rows[*leading],
                source: rival.source.clone(),
                provenance: rival.provenance.word(),
                moved,
                shares,
            });
        }
    }
    out
}

/// Indices and shares that an answer with other constants moves; `None` where it moves none or finds no solution.
type Moved = (Vec<(String, f64)>, Vec<(String, usize, f64)>);

fn moved(c: &Composition, first: &Equilibrium, rows: &[f64], system: &Arc<System>) -> Option<Moved> {
    let constants = Arc::new(Constants { temperature_c: c.temperature_c, rows: rows.to_vec() });
    let same = system.species.len() == first.system.species.len();
    let e = solve_in(c, system, &constants, same.then_some(&first.solution)).ok()?;
    // 0.02: below it a moved index prints the same.
    let moved: Vec<(String, f64)> = network()
        .solids
        .iter()
        .filter(|s| !OFF.contains(&s.name.as_str()))
        .filter_map(|s| {
            let (a, b) = (first.saturation_index(s)?, e.saturation_index(s)?);
            ((a - b).abs() > 0.02).then(|| (s.name.clone(), b))
        })
        .collect();
    let shares = moved_shares(first, &e);
    (!moved.is_empty() || !shares.is_empty()).then_some((moved, shares))
}

/// Share of a component that each species holds.
fn shares_of(e: &Equilibrium) -> BTreeMap<(usize, &str), f64> {
    let mut out = BTreeMap::new();
    for (s, m) in e.system.species.iter().zip(&e.solution.molality) {
        for (c, n) in s.terms.iter().filter(|(c, n)| *c > ELECTRON && *n > 0.0) {
            let total = e.total(*c);
            if total > 0.0 {
                out.insert((*c, s.name.as_str()), n * m / total);
            }
        }
    }
    out
}

fn moved_shares(first: &Equilibrium, other: &Equilibrium) -> Vec<(String, usize, f64)> {
    let (before, after) = (shares_of(first), shares_of(other));
    let names = before.keys().chain(after.keys().filter(|k| !before.contains_key(*k)));
    let share = |all: &BTreeMap<(usize, &str), f64>, k: &(usize, &str)| all.get(k).copied().unwrap_or(0.0);
    // A hundredth: below it a share prints the same.
    names
        .map(|k| (k, share(&before, k), share(&after, k)))
        .filter(|(_, b, a)| (a - b).abs() > 0.01)
        .map(|((c, name), _, a)| ((*name).to_string(), *c, a))
        .collect()
}

/// Who carries each component: the species with the largest share, over all answers.
pub(crate) fn carriers(e: &Equilibrium, alternatives: &[Alternative]) -> Vec<Carrier> {
    let shares = shares_of(e);
    let mut out = Vec::new();
    for c in e.system.components.iter().filter(|c| **c > ELECTRON) {
        let mine: Vec<(&str, f64)> = shares.iter().filter(|((j, _), _)| j == c).map(|((_, n), x)| (*n, *x)).collect();
        let Some((species, share)) = mine.iter().copied().max_by(|a, b| a.1.total_cmp(&b.1)) else { continue };
        let (mut low, mut high, mut told) = (share, share, true);
        for a in alternatives {
            let moved = |name: &str| a.shares.iter().find(|(n, j, _)| n == name && j == c).map(|(_, _, x)| *x);
            let new = moved(species).unwrap_or(share);
            (low, high) = (low.min(new), high.max(new));
            let others = mine.iter().filter(|(n, _)| *n != species).map(|(n, x)| moved(n).unwrap_or(*x));
            let only_there = a.shares.iter().filter(|(n, j, _)| j == c && n != species).map(|(_, _, x)| *x);
            told &= others.chain(only_there).fold(0.0, f64::max) <= new;
        }
        out.push(Carrier { component: *c, species: species.into(), share, low, high, told });
    }
    out
}
