//! The software bill of materials: every crate that is built into the program, in CycloneDX 1.6 (ECMA-424), as JSON.

use anyhow::{Context as _, Result};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// A crate of the graph: what `cargo metadata` says of it.
#[derive(Debug, Clone, Copy)]
pub struct Part<'a>(pub &'a Value);

impl<'a> Part<'a> {
    /// Its name.
    #[must_use]
    pub fn name(self) -> &'a str {
        self.0["name"].as_str().unwrap_or_default()
    }

    /// Its version.
    #[must_use]
    pub fn version(self) -> &'a str {
        self.0["version"].as_str().unwrap_or_default()
    }

    /// Its licence as an SPDX expression. The slash of older crates means OR (cargo's manual, field `license`).
    #[must_use]
    pub fn licence(self) -> Option<String> {
        self.0["license"].as_str().map(|l| l.replace(" / ", " OR ").replace('/', " OR "))
    }

    /// Whether it comes from outside.
    #[must_use]
    pub fn from_outside(self) -> bool {
        !self.0["source"].is_null()
    }

    /// The package URL, which names it in the bill.
    fn purl(self) -> String {
        format!("pkg:cargo/{}@{}", self.name(), self.version().replace('+', "%2B"))
    }
}

/// The crates that are built into `limpid`, by cargo's identity, each with those it leans on. Crates that only tests
/// lean on are left out; those that only build others stay, since they decide what is built.
///
/// # Errors
/// The graph holds no crate `limpid`.
pub fn built_in(graph: &Value) -> Result<BTreeMap<&str, (Part<'_>, BTreeSet<&str>)>> {
    let parts: BTreeMap<&str, Part<'_>> =
        graph["packages"].as_array().into_iter().flatten().filter_map(|p| Some((p["id"].as_str()?, Part(p)))).collect();
    let mut leans: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for node in graph["resolve"]["nodes"].as_array().into_iter().flatten() {
        let Some(id) = node["id"].as_str() else { continue };
        let on = node["deps"]
            .as_array()
            .into_iter()
            .flatten()
            .filter(|dep| dep["dep_kinds"].as_array().into_iter().flatten().any(|kind| kind["kind"] != "dev"));
        leans.insert(id, on.filter_map(|dep| dep["pkg"].as_str()).collect());
    }
    let (first, _) = parts.iter().find(|(_, p)| p.name() == "limpid").context("no crate is named limpid")?;
    let (mut found, mut open) = (BTreeMap::new(), vec![*first]);
    while let Some(id) = open.pop() {
        if found.contains_key(id) {
            continue;
        }
        let on = leans.get(id).cloned().unwrap_or_default();
        open.extend(on.iter().copied());
        found.insert(id, (*parts.get(id).with_context(|| format!("{id} is not in the graph"))?, on));
    }
    Ok(found)
}

/// The bill as text. `lock` is the parsed Cargo.lock, whose sums (SHA-256 of the crate's file) it repeats.
///
/// # Errors
/// The graph holds no crate `limpid`.
pub fn of(graph: &Value, lock: &toml::Table) -> Result<String> {
    let parts = built_in(graph)?;
    let sums: BTreeMap<(&str, &str), &str> = lock
        .get("package")
        .and_then(toml::Value::as_array)
        .into_iter()
        .flatten()
        .filter_map(|p| {
            let of = |key| p.get(key).and_then(toml::Value::as_str);
            Some(((of("name")?, of("version")?), of("checksum")?))
        })
        .collect();
    let component = |part: Part<'_>, kind: &str| {
        let mut told = json!({
            "type": kind,
            "bom-ref": part.purl(),
            "name": part.name(),
            "version": part.version(),
            "purl": part.purl(),
        });
        if let Some(licence) = part.licence() {
            told["licenses"] = json!([{ "expression": licence }]);
        }
        if let Some(sum) = sums.get(&(part.name(), part.version())) {
            told["hashes"] = json!([{ "alg": "SHA-256", "content": sum }]);
        }
        if let Some(place) = part.0["repository"].as_str() {
            told["externalReferences"] = json!([{ "type": "vcs", "url": place }]);
        }
        told
    };
    let limpid = parts.values().find(|(p, _)| p.name() == "limpid").context("no crate is named limpid")?.0;
    let libraries: Vec<Value> =
        parts.values().filter(|(p, _)| p.name() != "limpid").map(|(p, _)| component(*p, "library")).collect();
    let leans: Vec<Value> = parts
        .values()
        .map(|(part, on)| {
            let on: Vec<String> = on.iter().filter_map(|id| parts.get(id)).map(|(p, _)| p.purl()).collect();
            json!({ "ref": part.purl(), "dependsOn": on })
        })
        .collect();
    let bill = json!({
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "version": 1,
        "metadata": { "component": component(limpid, "application") },
        "components": libraries,
        "dependencies": leans,
    });
    Ok(serde_json::to_string_pretty(&bill)? + "\n")
}
