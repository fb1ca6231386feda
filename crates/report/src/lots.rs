//! Section "Bottles and their lots": which lot may go out, metal by metal, and what its bottles met.

use super::section;
use assessment::lots::{self, LotSheet};
use assessment::results::Listed;
use document::content::{Block, Cell, Column, Content, Table};
use language::as_written;
use message::Spoken;
use quantity::format::{percent_trimmed, significant, significant_trimmed};
use record::Error;
use record::store::Store;

/// Adds the section where the record has lots with blanks.
pub fn fill(store: &Store, all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let mut blocks = vec![];
    for sheet in lots::of(store, all)?.iter().filter(|s| !s.metals.is_empty()) {
        blocks.push(Block::Heading(format!("Lot {}", as_written(&sheet.lot.name))));
        blocks.extend(one(sheet));
    }
    if !blocks.is_empty() {
        out.sections.push(section("Bottles and their lots", blocks));
    }
    Ok(())
}

/// What its bottles met, and its blanks against the targets where there are blanks.
pub(super) fn one(sheet: &LotSheet) -> Vec<Block> {
    let about = about(sheet);
    let mut out = vec![];
    if !about.is_empty() {
        out.push(Block::List(about));
    }
    if !sheet.metals.is_empty() {
        out.push(Block::Table(table(sheet)));
    }
    out
}

fn about(s: &LotSheet) -> Vec<String> {
    let mut out = vec![];
    let l = &s.lot;
    let written = |name: &str, text: Option<&str>| text.map(|t| format!("{name}: {}", as_written(t)));
    out.extend(written("material", l.material.as_deref()));
    out.extend(written("cleaned on", l.cleaned_on.as_deref()));
    out.extend(written("steps", l.steps.as_deref()));
    // A number of the report, no name: it takes the sign of the language.
    out.extend(l.acid_days.map(|d| format!("days in acid: {}", significant_trimmed(d, 3))));
    out.extend(written("last rinse", l.rinse.as_deref()));
    let kinds: Vec<String> =
        s.bottles.iter().map(|(k, n)| format!("{n} {k}{}", if *n == 1 { "" } else { "s" })).collect();
    let mut say = |name: &str, text: Option<String>| out.extend(text.map(|t| format!("{name}: {t}")));
    say("bottles on record", (!kinds.is_empty()).then(|| kinds.join(", ")));
    let range = |r: (i64, i64)| if r.0 == r.1 { r.0.to_string() } else { format!("{} to {}", r.0, r.1) };
    say("bags", s.bags.map(range));
    say("openings", s.openings.map(range));
    out
}

fn table(s: &LotSheet) -> Table {
    let pg = |x: f64| Cell::Text(significant(x, 2));
    let rows = s
        .metals
        .iter()
        .map(|m| {
            let mut row = vec![
                Cell::Text(format!("{} {}", m.analyte, m.isotopes)),
                Cell::Text(match m.left_out {
                    0 => m.blanks.len().to_string(),
                    n => format!("{} ({n} left out)", m.blanks.len()),
                }),
            ];
            match &m.limit {
                Ok(l) => row.extend([pg(l.mean_pg), pg(l.upper_pg)]),
                Err(_) => row.extend([Cell::Missing("–".into()), Cell::Missing("–".into())]),
            }
            row.push(m.target_pg.map_or(Cell::Missing("none set".into()), pg));
            row.push(Cell::Outcome(m.outcome));
            row.push(Cell::Text(match (&m.limit, m.outcome) {
                (Err(why), _) => why.text(),
                (Ok(_), quantity::Outcome::Met) => "may go out".into(),
                (Ok(_), quantity::Outcome::NotMet) => "wash again".into(),
                (Ok(_), quantity::Outcome::NotKnown) => "more blanks would decide".into(),
            }));
            row
        })
        .collect();
    Table {
        caption: format!("Lot {}: bottle blanks against the target, pg per bottle", as_written(&s.lot.name)),
        columns: ["metal", "blanks", "mean", "limit", "target", "outcome", ""].map(Column::words).to_vec(),
        rows,
        notes: vec![format!(
            "Limit: with {} % confidence {} % of the lot’s bottles bring less (tolerance limit, Owen 1958, from memory).",
            percent_trimmed(s.confidence, 3),
            percent_trimmed(s.content, 3)
        )],
    }
}
