//! Table "Is what fell into the field blanks dust?" of a run.

use super::Run;
use super::words::capital;
use assessment::dust::{self, ANOTHER_SOURCE, Dust, NoDust, Reads};
use document::content::{Block, Cell, Column, Table};
use message::{Arg, Message, Name, Shown, Spoken, dust as said, word};
use quantity::{Amount, Unit};

/// The blocks; a sentence where no factor can be given, nothing where the run has no field blanks.
pub fn blocks(run: &Run) -> Vec<Block> {
    let heading = Block::Heading(said::Question.text());
    match dust::of(&run.reduced) {
        Ok(d) => vec![heading, Block::Text(sentence(&d).text()), Block::Table(table(&d))],
        Err(NoDust::TooFewBlanks) => vec![],
        Err(why) => vec![heading, Block::Text(said::None { why: why.said() }.text())],
    }
}

/// An element by its word, or by its symbol where the catalogues have none.
fn element(symbol: &str) -> Arg {
    Message::named("substance", symbol).map_or_else(|| Name::from(symbol).into(), Arg::from)
}

/// The blanks that were taken off, by their key in the catalogues.
fn key(beyond: &str) -> Name {
    beyond.replace(' ', "-").into()
}

fn sentence(d: &Dust) -> Message {
    let elements: Vec<Arg> = d.over.iter().filter(|o| o.reads() == Reads::Other).map(|o| element(&o.element)).collect();
    let reference = vec![element(&d.reference.0)];
    if elements.is_empty() {
        said::Explains { reference }.into()
    } else {
        said::DoesNotExplain { reference, elements }.into()
    }
}

fn table(d: &Dust) -> Table {
    // A column for each crust: the tables differ, and the answer goes by the one that speaks least for it.
    let crusts: Vec<&String> = d.over.first().map_or_else(Vec::new, |o| o.factors.iter().map(|f| &f.0).collect());
    let rows = d
        .over
        .iter()
        .map(|o| {
            let mut row = vec![
                Cell::Text(name(&o.element)),
                Cell::Amount {
                    // What was not seen to be added has an upper bound only, and so has its factor.
                    amount: if o.added.is_seen() {
                        Amount::measured(o.added.value, o.added.u, Unit::known("ng/L"))
                    } else {
                        Amount::below(o.added.upper.max(0.0), Unit::known("ng/L"))
                    },
                    k: 2.0,
                },
            ];
            for c in &crusts {
                let factor = o.factors.iter().find(|f| f.0 == **c).map(|f| f.1);
                row.push(factor.map_or(Cell::Missing("–".into()), |f| Cell::Amount {
                    amount: match o.relative_u {
                        Some(u) => Amount::measured(f, f * u, Unit::one()),
                        None => Amount::below(f, Unit::one()),
                    },
                    k: 2.0,
                }));
            }
            row.push(Cell::Text(o.reads().said().text()));
            row
        })
        .collect();
    let mut columns = vec![Column::words(word::Element.text()), Column::numbers(said::Added.text(), "")];
    columns.extend(crusts.iter().map(|c| Column::numbers(said::Over { crust: spaced(c).into() }.text(), "")));
    columns.push(Column::words(said::ReadsAs.text()));
    let reference = || vec![element(&d.reference.0)];
    Table {
        caption: said::Table { beyond: key(d.beyond), reference: reference() }.text(),
        columns,
        rows,
        notes: vec![said::Factor { reference: reference(), other: Shown::decimals(ANOTHER_SOURCE, 0, "") }.text()],
    }
}

/// The name of an element as a cell begins with it.
fn name(symbol: &str) -> String {
    Message::named("substance", symbol).map_or_else(|| symbol.to_string(), |m| capital(m.text()))
}

/// Crust tables as people write them.
const CRUSTS: [(&str, &str); 4] = [
    ("RudnickGao2003", "Rudnick & Gao 2003"),
    ("TaylorMcLennan1985", "Taylor & McLennan 1985"),
    ("McLennan2001", "McLennan 2001"),
    ("HuGao2008", "Hu & Gao 2008"),
];

fn spaced(name: &str) -> &str {
    CRUSTS.iter().find(|(n, _)| *n == name).map_or(name, |(_, shown)| shown)
}
