//! Section "Bottles and their lots": which lot may go out, metal by metal, and what its bottles met.

use super::section;
use assessment::lots::{self, LotSheet};
use assessment::results::Listed;
use document::content::{Annex, Block, Cell, Column, Content, Table};
use message::{Digits, Message, Share, Shown, Spoken, count, join, lots as said, word};
use quantity::Outcome;
use record::Error;
use record::store::Store;

/// Adds the section where the record has lots with blanks.
pub fn fill(store: &Store, all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let mut blocks = vec![];
    for sheet in lots::of(store, all)?.iter().filter(|s| !s.metals.is_empty()) {
        blocks.push(Block::Heading(said::Lot { lot: (&sheet.lot.name).into() }.text()));
        blocks.extend(one(sheet));
    }
    if !blocks.is_empty() {
        out.sections.push(section(said::Title, blocks).within(Annex::Runs));
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
    let l = &s.lot;
    let mut all: Vec<Message> = vec![];
    all.extend(l.material.as_ref().map(|material| said::Material { material: material.into() }.into()));
    all.extend(l.cleaned_on.as_ref().map(|day| said::CleanedOn { day: day.into() }.into()));
    all.extend(l.steps.as_ref().map(|steps| said::Steps { steps: steps.into() }.into()));
    all.extend(l.acid_days.map(|days| said::DaysInAcid { days: Shown::trimmed(days, 3, "") }.into()));
    all.extend(l.rinse.as_ref().map(|rinse| said::LastRinse { rinse: rinse.into() }.into()));
    let kind = |(kind, n): (&String, &usize)| said::Kind { n: count(*n), kind: kind.replace(' ', "-").into() }.into();
    let kinds = s.bottles.iter().map(kind).rev().reduce(|more, one| join::Comma { one, more }.into());
    all.extend(kinds.map(|kinds| said::Bottles { kinds }.into()));
    all.extend(s.bags.map(|range| match range {
        (bags, to) if bags == to => said::Bags { bags }.into(),
        (from, to) => said::BagsFromTo { from, to }.into(),
    }));
    all.extend(s.openings.map(|range| match range {
        (openings, to) if openings == to => said::Openings { openings }.into(),
        (from, to) => said::OpeningsFromTo { from, to }.into(),
    }));
    all.iter().map(Message::text).collect()
}

fn table(s: &LotSheet) -> Table {
    let pg = |x: f64| Cell::Text(Shown::significant(x, 2, "").text());
    let rows = s
        .metals
        .iter()
        .map(|m| {
            let mut row = vec![
                Cell::Text(format!("{} {}", m.analyte, m.isotopes)),
                Cell::Text(match m.left_out {
                    0 => m.blanks.len().to_string(),
                    n => said::SomeLeftOut { blanks: count(m.blanks.len()), left_out: count(n) }.text(),
                }),
            ];
            match &m.limit {
                Ok(l) => row.extend([pg(l.mean_pg), pg(l.upper_pg)]),
                Err(_) => row.extend([Cell::Missing("–".into()), Cell::Missing("–".into())]),
            }
            row.push(m.target_pg.map_or_else(|| Cell::Missing(said::NoneSet.text()), pg));
            row.push(Cell::Outcome(m.outcome));
            // Without a limit the outcome is "not known" for a reason of its own, so the reason comes first.
            row.push(Cell::Text(match (&m.limit, m.outcome) {
                (Err(why), _) => why.text(),
                (Ok(_), Outcome::Met) => said::MayGoOut.text(),
                (Ok(_), Outcome::NotMet) => said::WashAgain.text(),
                (Ok(_), Outcome::NotKnown) => said::MoreBlanks.text(),
            }));
            row
        })
        .collect();
    let headings = [
        word::Metal.text(),
        word::Blanks.text(),
        word::Mean.text(),
        word::Limit.text(),
        said::Target.text(),
        word::Outcome.text(),
        String::new(),
    ];
    let share = |x| Share::new(x, Digits::Trimmed(3));
    Table {
        caption: said::AgainstTarget { lot: (&s.lot.name).into() }.text(),
        columns: headings.map(Column::words).to_vec(),
        rows,
        notes: vec![said::Limit { confidence: share(s.confidence), content: share(s.content) }.text()],
    }
}
