//! The steps behind the derived results as three tables of Parquet: nodes, edges, and which node is whose result.
//!
//! What stands in many derivations (a line, a blank, the counts of a standard) is one node here: nodes are the same
//! where all that they say and all that they come from is the same. `record/derivation.csv` has each derivation whole.
//! Checked in `crates/cli/tests/strangers.rs`.

use crate::Error;
use crate::folder::Folder;
use columns::{Field, Kind, Value, Writer};
use record::model::DerivationRow;
use record::store::{Filter, Store, StoreError};
use serde_json::{Value as Json, json};
use std::collections::HashMap;

/// A table: path, what it holds, its columns with what each means.
pub type Declared = (&'static str, &'static str, &'static [(&'static str, Kind, &'static str)]);

/// The three tables.
pub static DECLARED: [Declared; 3] = [
    (
        "parquet/derivation-nodes.parquet",
        "Every step of every derived result once: name, value, formula.",
        &[
            ("node", Kind::Whole, "Number of the node"),
            ("name", Kind::Text, "What it is"),
            ("value", Kind::Number, "Its value, in `unit`"),
            ("below", Kind::Number, "Or the bound that it is below, in `unit`"),
            ("u", Kind::Number, "Standard uncertainty, in `unit`"),
            ("dof", Kind::Number, "Degrees of freedom of u; nothing where infinite or not said"),
            ("unit", Kind::Text, "Unit as people write it"),
            ("step", Kind::Text, "The step in words"),
            ("source", Kind::Text, "Where a given number comes from, or where the step is published"),
            ("formula", Kind::Text, "Formula or function of METHODS.md"),
            ("calc", Kind::Text, "JSON: formula, names of the inputs, constants"),
        ],
    ),
    (
        "parquet/derivation-edges.parquet",
        "Which node goes into which, in the order of the formula.",
        &[
            ("node", Kind::Whole, "Node that is computed"),
            ("place", Kind::Whole, "Place among its inputs, from 1"),
            ("input", Kind::Whole, "Node that goes into it"),
        ],
    ),
    (
        "parquet/derivation-results.parquet",
        "Which node is the result of which row of record/result.csv.",
        &[
            ("result_row", Kind::Whole, "Row of record/result.csv; `results.row`"),
            ("node", Kind::Whole, "Its last node"),
            ("budget", Kind::Text, "JSON: the parts of its u, their shares of the variance, degrees of freedom"),
        ],
    ),
];

fn writer(folder: &Folder, (path, about, columns): Declared) -> Result<Writer<crate::folder::Sink>, Error> {
    let field = |(name, kind, _): &(&str, Kind, &str)| Field { name: (*name).into(), kind: *kind, unit: String::new() };
    Ok(Writer::new(folder.file(path)?, columns.iter().map(field).collect(), &[("title", about)])?)
}

/// The three tables in the making.
struct Tables {
    nodes: Writer<crate::folder::Sink>,
    edges: Writer<crate::folder::Sink>,
    results: Writer<crate::folder::Sink>,
    known: HashMap<[u8; 32], i64>,
}

/// Writes them; nothing where the record has no derivation.
///
/// # Errors
/// The store cannot be read, the folder not written.
pub fn write(store: &Store, folder: &Folder) -> Result<(), Error> {
    let [nodes, edges, results] = DECLARED;
    let mut tables = Tables {
        nodes: writer(folder, nodes)?,
        edges: writer(folder, edges)?,
        results: writer(folder, results)?,
        known: HashMap::new(),
    };
    let mut failed = None;
    let read = store.each(&Filter::all(), |d: DerivationRow| {
        tables.add(&d).map_err(|e| {
            failed = Some(e);
            StoreError::UnknownTable { table: "derivation".into() }
        })
    });
    // What failed in here is told, not what stopped the reading.
    if let Some(e) = failed {
        return Err(e);
    }
    read?;
    for (table, (_, about, _)) in [tables.nodes, tables.edges, tables.results].into_iter().zip(DECLARED) {
        folder.keep(table.finish()?, "application/vnd.apache.parquet", about)?;
    }
    Ok(())
}

/// A budget without what its words say as messages: `record/derivation.csv` has them.
fn budget(of: &Json) -> String {
    let parts = of.as_array().map_or(&[][..], Vec::as_slice).iter();
    let part = |p: &Json| json!({"input": p["input"], "u": p["u"], "share": p["share"], "dof": p["dof"]});
    Json::Array(parts.map(part).collect()).to_string()
}

impl Tables {
    fn add(&mut self, d: &DerivationRow) -> Result<(), Error> {
        let mut ids = vec![];
        for node in d.body["nodes"].as_array().map_or(&[][..], Vec::as_slice) {
            let places = node["inputs"].as_array().map_or(&[][..], Vec::as_slice);
            let place = |i: &Json| i.as_u64().and_then(|i| ids.get(usize::try_from(i).ok()?)).copied();
            let inputs: Vec<i64> = places.iter().filter_map(place).collect();
            ids.push(self.node(node, &inputs)?);
        }
        let Some(last) = ids.last() else { return Ok(()) };
        self.results.push(Value::Whole(d.result_id))?;
        self.results.push(Value::Whole(*last))?;
        self.results.push(Value::Text(&budget(&d.body["budget"])))?;
        Ok(self.results.end_row()?)
    }

    /// The number of a node, written where it is new.
    fn node(&mut self, node: &Json, inputs: &[i64]) -> Result<i64, Error> {
        let key = [&node["name"], &node["amount"], &node["step"], &node["source"], &node["calc"]];
        let key = *blake3::hash(format!("{key:?}{inputs:?}").as_bytes()).as_bytes();
        if let Some(id) = self.known.get(&key) {
            return Ok(*id);
        }
        let id = i64::try_from(self.known.len()).unwrap_or(i64::MAX) + 1;
        self.known.insert(key, id);
        let text = |v: &'_ Json| v.as_str().filter(|t| !t.is_empty()).map(str::to_owned);
        let calc = Some(&node["calc"]).filter(|c| !c.is_null()).map(Json::to_string);
        let amount = &node["amount"];
        self.nodes.push(Value::Whole(id))?;
        self.text(text(&node["name"]).as_deref())?;
        for of in ["value", "below", "u", "dof"] {
            self.nodes.push(amount[of].as_f64().map_or(Value::Null, Value::Number))?;
        }
        for of in [text(&amount["unit"]), text(&node["step"]), text(&node["source"]), text(&node["calc"]["f"]), calc] {
            self.text(of.as_deref())?;
        }
        self.nodes.end_row()?;
        for (place, input) in (1..).zip(inputs) {
            for n in [id, place, *input] {
                self.edges.push(Value::Whole(n))?;
            }
            self.edges.end_row()?;
        }
        Ok(id)
    }

    fn text(&mut self, text: Option<&str>) -> Result<(), Error> {
        Ok(self.nodes.push(text.map_or(Value::Null, Value::Text))?)
    }
}
