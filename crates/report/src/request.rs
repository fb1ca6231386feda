//! The request and custody form that goes to a laboratory with blind bottles.
//!
//! In: a request as it was kept. Out: a [`Content`] for both renderings, in the language that is spoken. It says nothing
//! of what is in a bottle. Checked in `crates/cli/tests/profiles.rs`.

use document::content::{Block, Cell, Column, Content, Provenance, Section, Table};
use message::{Shown, Spoken, count, request as said, word};
use programme::request::{Asked, Blind, Request};

/// Lines of custody, in the order of the way.
fn steps() -> [String; 6] {
    [
        said::HandedOver.text(),
        said::Carried.text(),
        said::Received.text(),
        said::Opened.text(),
        said::Measured.text(),
        said::Kept.text(),
    ]
}

fn plain(caption: String, headings: Vec<String>, rows: Vec<Vec<String>>, notes: Vec<String>) -> Table {
    Table {
        caption,
        columns: headings.into_iter().map(Column::words).collect(),
        rows: rows.into_iter().map(|r| r.into_iter().map(Cell::Text).collect()).collect(),
        notes,
    }
}

fn bottles(r: &Request) -> Table {
    let volume = |ml: f64| Shown::trimmed(ml, 4, "mL").text();
    let row = |b: &Blind| {
        let acid = b.acid.as_ref().map(|(name, ml)| match ml {
            Some(ml) => format!("{name}, {}", volume(*ml)),
            None => name.clone(),
        });
        vec![
            b.place.to_string(),
            b.label.clone(),
            b.volume_ml.map_or_else(|| said::NotSaid.text(), volume),
            message::run::Fraction { fraction: b.fraction.as_deref().unwrap_or("unfiltered").into() }.text(),
            acid.unwrap_or_else(|| said::NotSaid.text()),
            "☐".into(),
        ]
    };
    let headings = vec![
        said::Place.text(),
        said::Label.text(),
        said::Volume.text(),
        said::Fraction.text(),
        said::Preserved.text(),
        said::Whole.text(),
    ];
    let caption = said::BottlesCaption { bottles: count(r.bottles.len()) }.text();
    plain(caption, headings, r.bottles.iter().map(row).collect(), vec![said::Apart.text()])
}

fn analytes(r: &Request) -> Table {
    let row = |a: &Asked| {
        let unit = quantity::Unit::parse(&a.unit).map_or_else(|_| a.unit.clone(), |u| u.to_string());
        vec![
            a.analyte.clone(),
            unit.clone(),
            a.down_to.map_or_else(|| said::OwnLimit.text(), |x| Shown::trimmed(x, 3, unit).text()),
        ]
    };
    let headings = vec![word::Analyte.text(), word::Unit.text(), said::DownTo.text()];
    let rows = r.asked.iter().map(row).collect();
    plain(said::AnalytesCaption.text(), headings, rows, vec![said::Zero.text()])
}

fn custody() -> Table {
    let headings = vec![
        said::Step.text(),
        said::When.text(),
        said::Name.text(),
        said::Signature.text(),
        said::Seal.text(),
        said::Temperature.text(),
    ];
    let line =
        |step: String| vec![step, "…………………".into(), "…………………".into(), "…………………".into(), "………".into(), "……".into()];
    plain(said::CustodyCaption.text(), headings, steps().map(line).to_vec(), vec![])
}

/// The form.
pub fn content(r: &Request, programme: &str, head: String, invented: bool) -> Content {
    let lang = message::language();
    let mut asked = vec![said::Asked.text()];
    asked.extend(r.laboratory.as_ref().map(|l| said::To { laboratory: l.as_str().into() }.text()));
    let back = vec![
        said::BackRows.text(),
        said::BackUncertainty.text(),
        said::BackAccredited.text(),
        said::BackQuality.text(),
        said::BackState.text(),
    ];
    Content {
        title: said::Title.text(),
        subtitle: said::Subtitle { request: r.name.as_str().into() }.text(),
        lang: lang.code().into(),
        invented,
        asked,
        sections: vec![
            Section::of(said::Bottles, vec![Block::Table(bottles(r))]),
            Section::of(said::Analytes, vec![Block::Table(analytes(r))]),
            Section::of(said::Back, vec![Block::List(back)]),
            Section::of(said::Custody, vec![Block::Table(custody())]),
        ],
        cautions: vec![crate::Caution::Request.sentence()],
        provenance: Provenance { programme: programme.into(), head_hash: head, ..Provenance::default() },
        ..Content::default()
    }
}
