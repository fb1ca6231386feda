//! An empty programme: the table of checks that a person then changes, and the recipes that come
//! with the program. Both stand in the record from the first event on.

use assessment::verdict::DEFAULT_CHECKS;
use quantity::Check;
use record::error::Error;
use record::store::NamedCells;
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
        default_checks(act)?;
        RECIPES.iter().try_for_each(|toml| keep_recipe(act, toml).map(|_| ()))
    })?;
    Ok(store)
}

fn default_checks(act: &mut Act) -> Result<(), Error> {
    let unfit = |found: String| Error::Unfit {
        what: "the table of default checks".into(),
        found,
        expected: "five columns".into(),
    };
    let mut rows = csv::Reader::from_reader(DEFAULT_CHECKS.as_bytes());
    for row in rows.records() {
        let row = row.map_err(|e| unfit(e.to_string()))?;
        let text = |i: usize| row.get(i).filter(|t| !t.is_empty());
        let mut cells = NamedCells::new("check_rule");
        let check = text(0).and_then(Check::from_text).ok_or_else(|| unfit(format!("check {:?}", text(0))))?;
        cells.text("check_name", check.text());
        cells.integer("revision", 1).text("weight", text(1).ok_or_else(|| unfit("a check without weight".into()))?);
        cells.real("limit_value", text(2).and_then(|t| t.parse().ok()));
        for (column, value) in [("limit_unit", text(3)), ("why", text(4))] {
            if let Some(value) = value {
                cells.text(column, value);
            }
        }
        cells.insert(act)?;
    }
    Ok(())
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
