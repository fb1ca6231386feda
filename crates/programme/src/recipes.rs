//! The programme's recipes: which there are, in which versions and why, which runs each reduces; whether a recipe and a
//! run meet; and giving a run another recipe, or a newer version of its own.
//!
//! A run keeps the version that stood when it came: a newer one changes no result until a person gives it to the run.
//! Files of recipes come in through `intake::import` (mapping `recipe`), which refuses them key by key.
//!
//! Checked in `crates/programme/tests/recipes.rs`.

use crate::work::{Recomputed, follow};
use assessment::derive;
use intake::entry::{Correction, EntryError, correct};
use measurement::run::{FactorSource, Isotope, Recipe};
use message::{Message, refusal as says};
use record::by::By;
use record::error::Error;
use record::model::KeptRecipe;
use record::store::{Filter, Store};
use std::collections::{BTreeMap, BTreeSet};

/// A version of a recipe.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Listed {
    /// Its name.
    pub name: String,
    /// Its version, from 1.
    pub version: i64,
    /// When it came.
    pub at: String,
    /// Who brought it.
    pub person: String,
    /// Why, where it changed an earlier version.
    pub why: String,
    /// Runs that are reduced by it.
    pub runs: Vec<String>,
    /// The text.
    pub toml: String,
}

/// All versions of all recipes, by name and version.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<Listed>, Error> {
    let mut runs: BTreeMap<i64, Vec<String>> = BTreeMap::new();
    for run in store.runs()? {
        if let Some(recipe) = run.recipe_id {
            runs.entry(recipe).or_default().push(run.name);
        }
    }
    let events: BTreeMap<i64, _> = store.events()?.into_iter().map(|e| (e.number, e)).collect();
    let listed = |r: KeptRecipe| {
        let event = events.get(&r.event);
        Listed {
            at: event.map(|e| e.at.clone()).unwrap_or_default(),
            person: event.map(|e| e.author.clone()).unwrap_or_default(),
            why: event.and_then(|e| e.json["body"]["why"].as_str()).unwrap_or_default().into(),
            runs: runs.remove(&r.id).unwrap_or_default(),
            name: r.name,
            version: r.version,
            toml: r.toml,
        }
    };
    let mut all: Vec<Listed> = store.list::<KeptRecipe>(&Filter::all())?.into_iter().map(listed).collect();
    all.sort_by(|a, b| (&a.name, a.version).cmp(&(&b.name, b.version)));
    Ok(all)
}

/// A recipe by name, its newest version.
///
/// # Errors
/// [`Error::Absent`] with the names that there are.
pub fn newest(store: &Store, name: &str) -> Result<KeptRecipe, Error> {
    let kept = store.list::<KeptRecipe>(&Filter::all())?;
    let names: BTreeSet<&str> = kept.iter().map(|r| r.name.as_str()).collect();
    let there = if names.is_empty() {
        "; none is on record: `limpid recipes --template` makes the beginning of one".into()
    } else {
        format!("; there are {}", names.into_iter().collect::<Vec<_>>().join(", "))
    };
    let of_name = kept.iter().filter(|r| r.name == name).max_by_key(|r| r.version);
    of_name.cloned().ok_or_else(|| Error::absent("recipe", name, there))
}

/// What keeps a recipe and a run from meeting: vials and isotopes that the recipe names and the run has not, and, where
/// it has all of them, what the reduction refuses. Empty where the run can be reduced by it. Nothing is written.
///
/// # Errors
/// There is no such recipe or run; the store.
pub fn check(store: &Store, name: &str, run: &str) -> Result<Vec<Message>, Error> {
    let kept = newest(store, name)?;
    let recipe: Recipe =
        toml::from_str(&kept.toml).map_err(|e| Error::Recipe { name: name.into(), message: e.to_string() })?;
    let mut run = derive::find_run(store, run)?;
    let vials: Vec<String> = store.vials(run.id)?.into_iter().map(|v| v.name).collect();
    let read: BTreeSet<String> =
        store.readings(run.id)?.into_iter().map(|r| format!("{}@{}", r.isotope, r.resolution.word())).collect();
    let isotopes: Vec<String> = read.into_iter().collect();
    let mut missing = vec![];
    for (key, vial) in vials_of(&recipe).into_iter().filter(|(_, v)| !vials.contains(v)) {
        let there = vials.join(", ").into();
        missing.push(says::RecipeVial { key: key.into(), vial: vial.into(), there }.into());
    }
    for (key, isotope) in isotopes_of(&recipe) {
        let isotope = format!("{}{}@{}", isotope.element, isotope.mass, isotope.resolution);
        if !isotopes.contains(&isotope) {
            let there = isotopes.join(", ").into();
            missing.push(says::RecipeIsotope { key: key.into(), isotope: isotope.into(), there }.into());
        }
    }
    if !missing.is_empty() {
        return Ok(missing);
    }
    run.recipe_toml = Some(kept.toml);
    match derive::prepare(store, run).and_then(|p| derive::reduce(&p)) {
        Ok(_) => Ok(vec![]),
        Err(e @ Error::Store(_)) => Err(e),
        Err(e) => Ok(vec![e.message()]),
    }
}

/// Vials that a recipe names, with the key that does.
fn vials_of(recipe: &Recipe) -> Vec<(String, String)> {
    let mut all = vec![];
    let mut take = |key: String, vials: &[String]| all.extend(vials.iter().map(|v| (key.clone(), v.clone())));
    take("gas_background".into(), &recipe.gas_background);
    for (i, overlap) in recipe.interferences.iter().enumerate() {
        if let FactorSource::Vials { vials } = &overlap.factor {
            take(format!("interferences[{}].factor.vials", i + 1), vials);
        }
    }
    if let Some(lead) = &recipe.lead_reference {
        take("lead_reference.vials".into(), &lead.vials);
    }
    all
}

/// Isotopes that a recipe names, with the key that does.
fn isotopes_of(recipe: &Recipe) -> Vec<(String, &Isotope)> {
    let mut all: Vec<(String, &Isotope)> = vec![];
    all.extend(recipe.internal_standards.isotopes.iter().map(|i| ("internal_standards.isotopes".into(), i)));
    for (i, named) in recipe.internal_standards.named.iter().enumerate() {
        all.extend(named.standard.iter().map(|s| (format!("internal_standards.named[{}].standard", i + 1), s)));
    }
    for (i, overlap) in recipe.interferences.iter().enumerate() {
        all.push((format!("interferences[{}].target", i + 1), &overlap.target));
        all.push((format!("interferences[{}].monitor", i + 1), &overlap.monitor));
    }
    all
}

/// Gives a run the newest version of a recipe, with a reason, and derives everything anew; what the run had stays on
/// record. None comes back where it has that version already.
///
/// # Errors
/// There is no such recipe or run; a reason that says nothing; the store; [`Error::NotDerived`].
pub fn give(store: &mut Store, name: &str, run: &str, why: &str, by: By) -> Result<Option<Recomputed>, EntryError> {
    let (recipe, run) = (newest(store, name)?, derive::find_run(store, run)?);
    if run.recipe_id == Some(recipe.id) {
        return Ok(None);
    }
    let head = correct(store, by, why, ("run", run.id), &[Correction { column: "recipe", seen: None, new: name }])?;
    Ok(head.map(|_| follow(store, by, &|_| true)).transpose()?)
}
