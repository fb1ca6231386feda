//! Table "Is what fell into the field blanks dust?" of a run.

use super::Run;
use super::words::{capital, element};
use assessment::dust::{self, ANOTHER_SOURCE, Dust, Reads};
use document::content::{Block, Cell, Column, Table};
use quantity::{Amount, Unit};

/// The blocks; a sentence where no factor can be given, nothing where the run has no field blanks.
pub fn blocks(run: &Run) -> Vec<Block> {
    let heading = Block::Heading("Is what fell into the field blanks dust?".into());
    match dust::of(&run.reduced) {
        Ok(d) => vec![heading, Block::Text(sentence(&d)), Block::Table(table(&d))],
        Err(dust::NoDust::TooFewBlanks) => vec![],
        Err(e) => vec![heading, Block::Text(format!("No enrichment over the crust can be given: {e}."))],
    }
}

fn sentence(d: &Dust) -> String {
    let stands_out: Vec<String> =
        d.over.iter().filter(|o| o.reads() == Reads::Other).map(|o| element(&o.element)).collect();
    let name = element(&d.reference.0);
    if stands_out.is_empty() {
        format!("Against {name} no element stands out over the earth’s crust: dust can explain what fell in.")
    } else {
        format!(
            "Against {name}, {} came in more than dust of the crust would bring: another source is likely.",
            stands_out.join(", ")
        )
    }
}

fn table(d: &Dust) -> Table {
    let crusts: Vec<&String> = d.over.first().map_or_else(Vec::new, |o| o.factors.iter().map(|f| &f.0).collect());
    let rows = d
        .over
        .iter()
        .map(|o| {
            let mut row = vec![
                Cell::Text(capital(element(&o.element))),
                Cell::Amount {
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
            row.push(Cell::Text(o.reads().word().into()));
            row
        })
        .collect();
    let mut columns = vec![Column::words("element"), Column::numbers("added in the field", "")];
    columns.extend(crusts.iter().map(|c| Column::numbers(&format!("over {}", spaced(c)), "")));
    columns.push(Column::words("reads as"));
    Table {
        caption: format!(
            "What the field blanks hold beyond the {}, over the upper crust, against {}",
            d.beyond,
            element(&d.reference.0)
        ),
        columns,
        rows,
        notes: vec![format!(
            "Factor: the element over {} in the blanks, over the same in the crust; one column a crust table, because they differ. Near 1 crust, above {ANOTHER_SOURCE:.0} another source (common practice), with two u. Of filtered water such factors mean nothing and are not given.",
            element(&d.reference.0)
        )],
    }
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
