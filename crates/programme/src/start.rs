//! An empty programme: the table of checks that a person then changes, and the recipes that come
//! with the program. Both stand in the record from the first event on.

use record::error::Error;
use record::store::{Act, ActInfo, Store, StoreError, named};
use serde_json::json;
use std::path::Path;

/// Recipes that come with the program.
pub const RECIPES: &[&str] = &[include_str!("../../../recipes/sector-field-water.toml")];

/// Makes an empty programme.
///
/// # Errors
/// As [`Store::create`]; nobody is named as its author.
pub fn start(address: impl AsRef<Path>, author: &str, at: &str) -> Result<Store, Error> {
    // Before a file is made, which would be left without an act.
    named(author)?;
    let mut store = Store::create(address)?;
    let info = ActInfo { kind: "new programme".into(), author: author.into(), at: at.into(), body: json!({}) };
    store.act(&info, |act| {
        crate::checks::defaults()?.iter().try_for_each(|rule| crate::checks::keep(act, rule))?;
        RECIPES.iter().try_for_each(|toml| keep_recipe(act, toml).map(|_| ()))
    })?;
    Ok(store)
}

/// Keeps a recipe under the name it gives itself, as a new version where its text changed.
///
/// # Errors
/// A recipe that cannot be read; the store cannot be written.
pub fn keep_recipe(act: &mut Act, toml: &str) -> Result<i64, Error> {
    let recipe: measurement::run::Recipe =
        toml::from_str(toml).map_err(|e| Error::Recipe { name: "to be kept".into(), message: e.to_string() })?;
    Ok(act.keep_text("recipe", &recipe.name, toml).map_err(|e: StoreError| e)?)
}
