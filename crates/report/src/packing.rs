//! The packing list of a planned trip as a document: the question, the designs that nothing beats with what each buys,
//! and what goes into the box, line by line, with a box to tick and the label of each bottle.
//!
//! In: the answer of the plan, the design chosen, labels. Out: a [`Content`] for both renderings. No number is computed
//! here. Checked in `tests/report.rs`.

use document::content::{Block, Cell, Column, Content, Provenance, Section, Table};
use quantity::format::significant_trimmed;
use serde_json::Value;

/// What the list is made of.
#[derive(Debug, Clone)]
pub struct Packing<'a> {
    /// Programme.
    pub programme: &'a str,
    /// Head hash of the record.
    pub head: String,
    /// The record is made up.
    pub invented: bool,
    /// The question in words.
    pub question: String,
    /// The answer of the plan.
    pub answer: &'a Value,
    /// Place of the chosen design, from 0.
    pub chosen: usize,
    /// What came from the record, in words.
    pub from_record: &'a [String],
    /// Labels and kinds of the bottles.
    pub bottles: &'a [(String, String)],
}

/// Number of a design's key as shown.
fn number(design: &Value, key: &str) -> String {
    design[key].as_f64().map_or_else(|| "–".into(), |v| significant_trimmed(v, 3))
}

/// The designs as a table.
pub fn table(answer: &Value) -> Table {
    let columns = [
        ("design", ""),
        ("price", "price"),
        ("samples a well", "samples"),
        ("field blanks", "field_blanks"),
        ("trip blanks", "trip_blanks"),
        ("bottle blanks", "bottle_blanks"),
        ("spikes", "spikes"),
        ("mL", "volume_ml"),
        ("min open", "minutes"),
        ("detects, ng/L", "detection_limit"),
        ("chance", "power"),
    ];
    let rows = answer["designs"]
        .as_array()
        .into_iter()
        .flatten()
        .enumerate()
        .map(|(i, d)| {
            let cell = |key: &str| Cell::Text(if key.is_empty() { (i + 1).to_string() } else { number(d, key) });
            columns.iter().map(|(_, key)| cell(key)).collect()
        })
        .collect();
    Table {
        caption: "Designs that nothing beats in price and chance, cheapest first".into(),
        columns: columns.iter().map(|(name, _)| Column::words(name)).collect(),
        rows,
        notes: vec!["Chance: to decide the question with clean work; a spike of contamination is not in it.".into()],
    }
}

/// The document.
pub fn content(p: &Packing) -> Content {
    let design = &p.answer["designs"][p.chosen];
    let texts = |v: &Value| -> Vec<String> {
        v.as_array().into_iter().flatten().filter_map(|t| t.as_str().map(ToString::to_string)).collect()
    };
    let buys: Vec<String> = p.answer["designs"]
        .as_array()
        .into_iter()
        .flatten()
        .enumerate()
        .map(|(i, d)| format!("{}: {}", i + 1, d["buys"].as_str().unwrap_or_default()))
        .collect();
    let pack: Vec<String> = texts(&design["pack"]).into_iter().map(|l| format!("☐ {l}")).collect();
    let bottles = Table {
        caption: "Bottles to label".into(),
        columns: ["label", "kind", "packed", "label", "kind", "packed"].map(Column::words).to_vec(),
        rows: p
            .bottles
            .chunks(2)
            .map(|pair| {
                pair.iter()
                    .flat_map(|(label, kind)| {
                        [Cell::Text(label.clone()), Cell::Text(kind.clone()), Cell::Text("☐".into())]
                    })
                    .collect()
            })
            .collect(),
        notes: vec![],
    };
    let mut warnings = texts(&p.answer["warnings"]);
    warnings.extend(p.from_record.iter().cloned());
    let section = |title: &str, blocks: Vec<Block>| Section { title: title.into(), blocks };
    Content {
        title: "What to take on the next trip".into(),
        subtitle: format!("design {} of {}", p.chosen + 1, buys.len()),
        lang: "en".into(),
        invented: p.invented,
        asked: vec![p.question.clone()],
        sections: vec![
            section("To pack", vec![Block::List(pack), Block::Table(bottles)]),
            section("The designs", vec![Block::Table(table(p.answer)), Block::List(buys)]),
            section("What this rests on", vec![Block::List(warnings)]),
        ],
        cautions: vec![crate::Caution::Packing.sentence()],
        provenance: Provenance { programme: p.programme.into(), head_hash: p.head.clone(), ..Provenance::default() },
        ..Content::default()
    }
}
