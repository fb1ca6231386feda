//! What lets a stranger use a package without this program: README, METHODS, the licence, and three small programs in
//! Python (recompute, verify, BLAKE3 for where no module has it).
//!
//! README and METHODS are made from the record and from the same declarations as the program: files, constants with
//! their sources, the programme's rules, its recipes. Checked in `crates/cli/tests/strangers.rs`.

use crate::Error;
use crate::describe::Whole;
use crate::folder::Folder;
use crate::write::Options;
use assessment::derive::constants;
use assessment::engine::DERIVED_BY;
use record::store::{Filter, RowRead, Store, StoreError, Typed};
use serde_json::Value;
use std::fmt::Write as _;

/// Programs of the package: path, text, what it is.
const PROGRAMS: [(&str, &str, &str); 3] = [
    (
        "recompute.py",
        include_str!("../package/recompute.py"),
        "Works every derived result out again from the counts (Python, numpy).",
    ),
    (
        "verify.py",
        include_str!("../package/verify.py"),
        "Whether the package is what was written: sums, chain, rows, tables (Python).",
    ),
    (
        "blake3_plain.py",
        include_str!("../package/blake3_plain.py"),
        "BLAKE3 in plain Python, for verify.py where the module is not installed.",
    ),
];

/// Where the licence is stated.
pub const LICENCE: &str = "LICENCE.txt";

const METHODS: &str = include_str!("../package/METHODS.md");
const README: &str = include_str!("../package/README.head.md");

/// How many results are looked at for one that is worth following.
const LOOKED_AT: usize = 500;

/// A derivation and its result, without its body.
struct Derived(i64);

impl Typed for Derived {
    const TABLE: &'static str = "derivation";
    const PATHS: &'static [&'static str] = &["id", "result"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        row.get(1).map(Self)
    }
}

/// Writes them; README last, since it lists the files.
///
/// # Errors
/// The store cannot be read, the folder not written.
pub fn write(store: &Store, folder: &Folder, whole: &Whole, options: &Options) -> Result<(), Error> {
    for (path, text, about) in PROGRAMS {
        folder.put(path, text.as_bytes(), "text/x-python", about)?;
    }
    folder.put(LICENCE, licence(options).as_bytes(), "text/plain", "Licence of this data package.")?;
    let about = "Every formula, constant and rule behind the numbers, and how the package is sealed.";
    folder.put("METHODS.md", methods(store)?.as_bytes(), "text/markdown", about)?;
    let about = "Where to begin: files, how to read a row, one number followed to its counts.";
    folder.put("README.md", readme(store, folder, whole, options)?.as_bytes(), "text/markdown", about)
}

fn licence(options: &Options) -> String {
    match &options.licence {
        Some(licence) => format!("Licence of this data package, as its holders state it:\n\n{licence}\n"),
        None => "The holders of the record have stated no licence: ask them before reuse.\n".into(),
    }
}

/// A cell of a table in Markdown.
fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace(['\r', '\n'], " ")
}

fn methods(store: &Store) -> Result<String, Error> {
    let mut rows = String::from("| constant | value | unit | source |\n|---|---|---|---|\n");
    for c in constants() {
        let _ = writeln!(rows, "| {} | {} | {} | {} |", cell(c.name), c.value, c.unit, cell(c.source));
    }
    let mut recipes = String::new();
    for (_, row) in store.as_typed("recipe", &Filter::all())? {
        // Name, version, text, hash.
        let _ = writeln!(recipes, "`{}`, version {}:\n\n```toml\n{}\n```\n", row[0], row[1], row[2].trim_end());
    }
    if recipes.is_empty() {
        recipes = "No run is on record.\n".into();
    }
    let mut rules = String::from("| check | weight | limit | unit | why |\n|---|---|---|---|---|\n");
    let declared = record::schema::table("check_rule").map_or(&[][..], |t| t.columns);
    let at = |name: &str| declared.iter().position(|c| c.name == name);
    for (_, row) in store.as_typed("check_rule", &Filter::all())? {
        let of = |name: &str| at(name).and_then(|i| row.get(i)).map(|t| cell(t)).unwrap_or_default();
        let words = ["check_name", "weight", "limit_value", "limit_unit", "why"].map(of);
        let _ = writeln!(rules, "| {} |", words.join(" | "));
    }
    let text = METHODS.replace("<!-- constants -->\n", &rows).replace("<!-- rules -->\n", &rules);
    Ok(text.replace("<!-- recipes -->\n", &recipes))
}

fn readme(store: &Store, folder: &Folder, whole: &Whole, options: &Options) -> Result<String, Error> {
    let mut files = String::new();
    for e in folder.entries() {
        let _ = writeln!(files, "| `{}` | {} |", e.path, cell(&e.about));
    }
    for (path, about) in [
        ("README.md", "This text."),
        (crate::describe::RO_CRATE, "Description of this package as an RO-Crate."),
        (crate::describe::DATA_PACKAGE, "Description of every table and column as a Frictionless Data Package."),
        ("SHA256SUMS`, `BLAKE3SUMS", "A sum for every other file."),
    ] {
        let _ = writeln!(files, "| `{path}` | {about} |");
    }
    let licence = match &options.licence {
        Some(licence) => format!("Licence: {licence}."),
        None => "No licence is stated: ask the holders before reuse.".into(),
    };
    let mut out = README.to_owned();
    for (mark, text) in [
        ("{title}", whole.title().to_owned()),
        ("{description}", whole.description().to_owned()),
        ("{engine}", DERIVED_BY.to_owned()),
        ("{events}", whole.events().to_string()),
        ("{date}", whole.date().to_owned()),
        ("{head}", whole.head().to_owned()),
        ("{persons}", whole.names().join(", ")),
        ("{licence}", licence),
        ("{followed}", followed(store)?),
        ("{files}\n", files),
    ] {
        out = out.replace(mark, &text);
    }
    Ok(out)
}

/// One result from `results.csv` down to the counts; of a programme without counts, down to its raw file.
fn followed(store: &Store) -> Result<String, Error> {
    let derived = store.list::<Derived>(&Filter::all())?;
    // The newest stand last; blanks and other evidence are passed over where there is better.
    let last: Vec<i64> = derived.iter().rev().take(LOOKED_AT).map(|d| d.0).collect();
    let listed = assessment::results::listed(store, &last)?;
    let quantified = |r: &&assessment::results::Listed| {
        let value = r.bears == record::words::Bears::Value && r.state == record::words::State::Quantified;
        value && r.kind.is_water()
    };
    let Some(result) = listed.iter().find(quantified).or(listed.first()) else {
        return Ok("No result of this record was derived from counts: `raw_file` and `file_row` in `results.csv` name the file in `raw/` and the row that each was read from.".into());
    };
    let row = result.row;
    let Some(derivation) = store.derivation(row)? else { return Ok(String::new()) };
    let mut out = format!(
        "`{}`: row {row} of `record/result.csv`, row {} of `record/derivation.csv`, whose `nodes` are rows of `record/derivation_node.csv`. Each line comes from the one under it, and from what else its node names.\n\n",
        result.result, derivation.id
    );
    let nodes = derivation.body["nodes"].as_array().map_or(&[][..], Vec::as_slice);
    let mut at = nodes.len().checked_sub(1);
    while let Some(node) = at.and_then(|i| nodes.get(i)) {
        let text = |v: &Value| v.as_str().unwrap_or_default().to_owned();
        let amount = &node["amount"];
        let value = ["value", "below"].into_iter().map(|k| &amount[k]).find(|v| !v.is_null());
        let u = amount["u"].as_f64().map_or(String::new(), |u| format!(", u {u}"));
        let said = [text(&node["step"]), text(&node["source"])].into_iter().filter(|t| !t.is_empty());
        let value = value.map_or(String::new(), Value::to_string);
        let words: Vec<String> = said.collect();
        let _ = writeln!(
            out,
            "* {}: {value} {}{u}{}{}",
            text(&node["name"]),
            text(&amount["unit"]),
            if words.is_empty() { "" } else { " — " },
            words.join("; ")
        );
        at = node["inputs"][0].as_u64().and_then(|i| usize::try_from(i).ok());
    }
    out.push_str("\nThe last line's replicates stand in `record/reading.csv` and in the raw file that it names.");
    Ok(out)
}
