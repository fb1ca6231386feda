//! The packing list of a planned trip as a document: the question, the designs that nothing beats with what each buys,
//! and what goes into the box, line by line, with a box to tick and the label of each bottle.
//!
//! In: the answer of the plan, the design chosen, labels. Out: a [`Content`] for both renderings. No number is computed
//! here. Checked in `tests/report.rs`.

use document::content::{Block, Cell, Column, Content, Provenance, Section, Table};
use message::{Shown, Spoken, packing as said, word};
use programme::plan::{Answer, FromRecord, Offered};

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
    if x.is_finite() { Shown::trimmed(x, 3, "").text() } else { "–".into() }
}

/// The designs as a table.
pub fn table(answer: &Answer) -> Table {
    type Of = fn(&Offered) -> f64;
    let columns: [(String, Of); 11] = [
        (said::Price.text(), |d| d.ranked.price),
        (said::SamplesAWell.text(), |d| d.ranked.design.samples.into()),
        (word::FieldBlanks.text(), |d| d.ranked.design.field_blanks.into()),
        (said::TripBlanks.text(), |d| d.ranked.design.trip_blanks.into()),
        (said::BottleBlanks.text(), |d| d.ranked.design.bottle_blanks.into()),
        (said::Spikes.text(), |d| d.ranked.design.spikes.into()),
        (said::Vials.text(), |d| d.ranked.design.laboratory.vials().into()),
        (said::Millilitres.text(), |d| d.ranked.design.volume_ml),
        (said::MinutesOpen.text(), |d| d.ranked.design.minutes),
        (said::Detects.text(), |d| d.ranked.detection_limit),
        (said::Chance.text(), |d| d.ranked.power),
    ];
    let row = |(i, d): (usize, &Offered)| {
        let numbers = columns.iter().map(|(_, of)| Cell::Text(number(of(d))));
        std::iter::once(Cell::Text((i + 1).to_string())).chain(numbers).collect()
    };
    let rows = answer.designs.iter().enumerate().map(row).collect();
    let headings = std::iter::once(said::Design.text()).chain(columns.into_iter().map(|c| c.0));
    Table {
        caption: said::BestDesigns.text(),
        columns: headings.map(Column::words).collect(),
        rows,
        notes: vec![said::WhatChanceIs.text()],
    }
}

/// The document.
pub fn content(p: &Packing) -> Content {
    let designs = &p.answer.designs;
    let buys: Vec<String> = designs.iter().enumerate().map(|(i, d)| format!("{}: {}", i + 1, d.ranked.buys)).collect();
    let pack: Vec<String> =
        designs.get(p.chosen).into_iter().flat_map(|d| &d.pack).map(|line| format!("☐ {line}")).collect();
    let heading = || [said::Label.text(), said::Kind.text(), said::Packed.text()].map(Column::words);
    let bottles = Table {
        caption: said::Bottles.text(),
        columns: [heading(), heading()].concat(),
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
    let mut warnings: Vec<String> = p.answer.requires.iter().map(ToString::to_string).collect();
    warnings.extend(p.answer.warnings.iter().map(ToString::to_string));
    warnings.extend(p.from_record.iter().map(ToString::to_string));
    Content {
        title: said::Title.text(),
        subtitle: said::DesignOf { chosen: message::count(p.chosen + 1), designs: message::count(buys.len()) }.text(),
        lang: "en".into(),
        invented: p.invented,
        asked: vec![p.question.clone()],
        sections: vec![
            Section::of(said::ToPack, vec![Block::List(pack), Block::Table(bottles)]),
            Section::of(said::Designs, vec![Block::Table(table(p.answer)), Block::List(buys)]),
            Section::of(said::RestsOn, vec![Block::List(warnings)]),
        ],
        cautions: vec![crate::Caution::Packing.sentence()],
        provenance: Provenance { programme: p.programme.into(), head_hash: p.head.clone(), ..Provenance::default() },
        ..Content::default()
    }
}
