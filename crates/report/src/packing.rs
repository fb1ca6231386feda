//! The packing list of a planned trip as a document: the question, the designs that nothing beats with what each buys,
//! and what goes into the box, line by line, with a box to tick and the label of each bottle.
//!
//! In: the answer of the plan, the design chosen, labels. Out: a [`Content`] for both renderings. No number is computed
//! here. Checked in `tests/report.rs`.

use document::content::{Block, Cell, Column, Content, Provenance, Section, Table};
use programme::plan::{Answer, FromRecord, Offered};
use quantity::format::significant_trimmed;

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
    pub answer: &'a Answer,
    /// Place of the chosen design, from 0.
    pub chosen: usize,
    /// What came from the record.
    pub from_record: &'a [FromRecord],
    /// Labels and kinds of the bottles.
    pub bottles: &'a [(String, String)],
}

/// A number as shown.
fn number(x: f64) -> String {
    if x.is_finite() { significant_trimmed(x, 3) } else { "–".into() }
}

/// The designs as a table.
pub fn table(answer: &Answer) -> Table {
    type Of = fn(&Offered) -> f64;
    let columns: [(&str, Of); 10] = [
        ("price", |d| d.ranked.price),
        ("samples a well", |d| d.ranked.design.samples.into()),
        ("field blanks", |d| d.ranked.design.field_blanks.into()),
        ("trip blanks", |d| d.ranked.design.trip_blanks.into()),
        ("bottle blanks", |d| d.ranked.design.bottle_blanks.into()),
        ("spikes", |d| d.ranked.design.spikes.into()),
        ("mL", |d| d.ranked.design.volume_ml),
        ("min open", |d| d.ranked.design.minutes),
        ("detects, ng/L", |d| d.ranked.detection_limit),
        ("chance", |d| d.ranked.power),
    ];
    let row = |(i, d): (usize, &Offered)| {
        let numbers = columns.iter().map(|(_, of)| Cell::Text(number(of(d))));
        std::iter::once(Cell::Text((i + 1).to_string())).chain(numbers).collect()
    };
    let rows = answer.designs.iter().enumerate().map(row).collect();
    let headings = std::iter::once("design").chain(columns.iter().map(|c| c.0));
    Table {
        caption: "Designs that nothing beats in price and chance, cheapest first".into(),
        columns: headings.map(Column::words).collect(),
        rows,
        notes: vec!["Chance: to decide the question with clean work; a spike of contamination is not in it.".into()],
    }
}

/// The document.
pub fn content(p: &Packing) -> Content {
    let designs = &p.answer.designs;
    let buys: Vec<String> = designs.iter().enumerate().map(|(i, d)| format!("{}: {}", i + 1, d.ranked.buys)).collect();
    let pack: Vec<String> =
        designs.get(p.chosen).into_iter().flat_map(|d| &d.pack).map(|line| format!("☐ {line}")).collect();
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
    let mut warnings: Vec<String> = p.answer.warnings.iter().map(ToString::to_string).collect();
    warnings.extend(p.from_record.iter().map(ToString::to_string));
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
