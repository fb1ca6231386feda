//! The steps behind the derived results as three tables of Parquet: nodes, edges, and which node is whose result.
//!
//! What stands in many derivations (a line, a blank, the counts of a standard) is one node here: nodes are the same
//! where all that they say and all that they come from is the same. `record/derivation.csv` has each derivation whole.
//! Checked in `crates/cli/tests/strangers.rs`.

use crate::folder::Folder;
use crate::nodes::Known;
use crate::{Error, nodes};
use columns::{Field, Kind, Value, Writer};
use record::store::{Filter, RowRead, Store, StoreError, Typed};
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

/// A derivation's result and its body as text: of a hundred thousand nodes few are different, so few are read.
struct Body(i64, String);

impl Typed for Body {
    const TABLE: &'static str = "derivation";
    const PATHS: &'static [&'static str] = &["id", "result", "body"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(1)?, row.get(2)?))
    }
}

/// A node as it stands in bodies: what it says (a number for all that say the same) and the places of its inputs.
struct Step {
    says: usize,
    inputs: Vec<usize>,
}

/// The three tables in the making.
struct Tables {
    nodes: Writer<crate::folder::Sink>,
    edges: Writer<crate::folder::Sink>,
    results: Writer<crate::folder::Sink>,
    texts: Known,
    steps: Vec<Step>,
    says: HashMap<[u8; 32], usize>,
    /// Nodes by what they say and what they come from.
    known: HashMap<(usize, Vec<i64>), i64>,
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
        texts: Known::default(),
        steps: vec![],
        says: HashMap::new(),
        known: HashMap::new(),
    };
    let mut failed = None;
    let read = store.each(&Filter::all(), |Body(result, body)| {
        tables.add(result, &body).map_err(|e| {
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

/// A text of JSON; what is none says nothing.
fn read(text: &str) -> Json {
    serde_json::from_str(text).unwrap_or(Json::Null)
}

/// What a node says, without its wording as messages and without the places of its inputs.
fn said(node: &Json) -> [u8; 32] {
    let parts = [&node["name"], &node["amount"], &node["step"], &node["source"], &node["calc"]];
    *blake3::hash(json!(parts).to_string().as_bytes()).as_bytes()
}

impl Tables {
    fn add(&mut self, result: i64, body: &str) -> Result<(), Error> {
        let Self { texts, steps, says, .. } = self;
        let numbers = texts.numbers(body, |_, text| {
            let node = read(text);
            let next = says.len();
            let places = node["inputs"].as_array().map_or(&[][..], Vec::as_slice);
            let inputs = places.iter().filter_map(|i| usize::try_from(i.as_u64()?).ok()).collect();
            steps.push(Step { says: *says.entry(said(&node)).or_insert(next), inputs });
            Ok::<(), Error>(())
        })?;
        let (Some(numbers), Some((from, to, nodes))) = (numbers, nodes::listed(body)) else { return Ok(()) };
        let mut ids: Vec<i64> = vec![];
        for (number, text) in numbers.into_iter().zip(nodes) {
            let step = &self.steps[number - 1];
            let inputs: Vec<i64> = step.inputs.iter().filter_map(|i| ids.get(*i)).copied().collect();
            let key = (step.says, inputs);
            let id = match self.known.get(&key) {
                Some(id) => *id,
                None => self.node(&read(text), key)?,
            };
            ids.push(id);
        }
        let Some(last) = ids.last() else { return Ok(()) };
        let rest = read(&[&body[..from], &body[to..]].concat());
        self.results.push(Value::Whole(result))?;
        self.results.push(Value::Whole(*last))?;
        self.results.push(Value::Text(&budget(&rest["budget"])))?;
        Ok(self.results.end_row()?)
    }

    /// Writes a new node; answers its number.
    fn node(&mut self, node: &Json, key: (usize, Vec<i64>)) -> Result<i64, Error> {
        let id = i64::try_from(self.known.len()).unwrap_or(i64::MAX) + 1;
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
        for (place, input) in (1..).zip(&key.1) {
            for n in [id, place, *input] {
                self.edges.push(Value::Whole(n))?;
            }
            self.edges.end_row()?;
        }
        self.known.insert(key, id);
        Ok(id)
    }

    fn text(&mut self, text: Option<&str>) -> Result<(), Error> {
        Ok(self.nodes.push(text.map_or(Value::Null, Value::Text))?)
    }
}
