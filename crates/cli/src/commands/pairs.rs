//! `limpid pairs`: duplicates, samples split between two laboratories, blanks against limits.

use super::open;
use crate::args::Pairs;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out_with_notes};
use programme::pairs::{self, Blank, Pair, Signal};
use quantity::Amount;
use quantity::format::{significant, value_and_expanded};
use serde_json::json;

/// Columns of a terminal as it opens.
const TERMINAL: usize = 100;

/// What a reader has to bear in mind.
const TOLD: &str = "ζ takes the two u as independent; what they share would make it larger. ± is 2u.";

/// Runs `limpid pairs`.
pub fn run(args: &Pairs) -> Result<(), Failure> {
    let store = open(&args.store)?;
    let all = pairs::all(&store)?;
    if args.json {
        let document = json!({
            "duplicates": all.duplicates,
            "splits": all.splits,
            "blanks": all.blanks,
            "head": store.head()?.map(|h| h.to_string()),
            "method": "zeta = d/sqrt(u1^2 + u2^2); E_n = d/sqrt(U1^2 + U2^2) with U = 2u; no score where a u is missing",
            "sources": ["ISO 13528:2022, 9.4, 9.6, 9.7 (from memory)"],
            "warnings": [TOLD],
        });
        say!("{document}");
        return Ok(());
    }
    of_one_laboratory(&all.duplicates);
    of_two(&all.splits);
    blanks(&all.blanks);
    say!("{TOLD}");
    Ok(())
}

fn amount(a: Option<&Amount>) -> String {
    match a {
        None => "–".into(),
        Some(Amount::Measured(m)) => {
            let (value, expanded) = value_and_expanded(m, 2.0);
            format!("{value} ± {expanded} {}", m.unit)
        }
        Some(other) => other.in_words(),
    }
}

fn number(x: Option<f64>, unit: &str) -> String {
    x.map_or_else(|| "–".into(), |x| format!("{}{unit}", significant(x, 2)))
}

fn of_one_laboratory(pairs: &[Pair]) {
    if pairs.is_empty() {
        say!("no duplicates: no two bottles are said to be of one water (`parent` or `set_name` of a bottle)\n");
        return;
    }
    let row = |p: &Pair| {
        let cells = vec![
            p.first.result.bottle.clone(),
            p.second.result.bottle.clone(),
            p.analyte.clone(),
            amount(p.first.amount.as_ref()),
            amount(p.second.amount.as_ref()),
            number(p.relative_percent, " %"),
            number(p.zeta, ""),
            p.signal.map_or("", Signal::word).into(),
        ];
        (cells, p.note.clone().unwrap_or_default())
    };
    let headings = [
        ("duplicates", Side::Left),
        ("", Side::Left),
        ("analyte", Side::Left),
        ("first", Side::Right),
        ("second", Side::Right),
        ("differ by", Side::Right),
        ("ζ", Side::Right),
        ("", Side::Left),
    ];
    crate::out::write(format_args!(
        "{}\n",
        lay_out_with_notes(&headings, &pairs.iter().map(row).collect::<Vec<_>>(), TERMINAL)
    ));
}

fn of_two(pairs: &[Pair]) {
    if pairs.is_empty() {
        say!("no sample that two laboratories measured\n");
        return;
    }
    let side =
        |s: &pairs::Side| format!("{}, {}", s.result.bottle, s.laboratory.as_deref().unwrap_or("laboratory not named"));
    let row = |p: &Pair| {
        let e_n = p.e_n.map_or("", |e| if e.abs() <= 1.0 { "successful" } else { "not successful" });
        let cells = vec![
            side(&p.first),
            side(&p.second),
            p.analyte.clone(),
            amount(p.first.amount.as_ref()),
            amount(p.second.amount.as_ref()),
            number(p.zeta, ""),
            number(p.e_n, ""),
            e_n.into(),
        ];
        (cells, p.note.clone().unwrap_or_default())
    };
    let headings = [
        ("split between", Side::Left),
        ("and", Side::Left),
        ("analyte", Side::Left),
        ("first", Side::Right),
        ("second", Side::Right),
        ("ζ", Side::Right),
        ("E_n", Side::Right),
        ("", Side::Left),
    ];
    crate::out::write(format_args!(
        "{}\n",
        lay_out_with_notes(&headings, &pairs.iter().map(row).collect::<Vec<_>>(), TERMINAL)
    ));
}

fn blanks(blanks: &[Blank]) {
    if blanks.is_empty() {
        say!("no blanks with results\n");
        return;
    }
    let row = |b: &Blank| {
        let above = match b.above_limit {
            Some(true) => "above",
            Some(false) => "not above",
            None => "cannot be told",
        };
        let cells = vec![
            b.result.bottle.clone(),
            b.kind.word().replace('-', " "),
            b.result.analyte.clone(),
            amount(b.amount.as_ref()),
            number(b.limit, ""),
            above.into(),
            number(b.of_smallest_percent, " %"),
        ];
        (cells, String::new())
    };
    let headings = [
        ("blank", Side::Left),
        ("", Side::Left),
        ("analyte", Side::Left),
        ("holds", Side::Right),
        ("limit", Side::Right),
        ("", Side::Left),
        ("of the smallest water of its trip", Side::Right),
    ];
    crate::out::write(format_args!(
        "{}\n",
        lay_out_with_notes(&headings, &blanks.iter().map(row).collect::<Vec<_>>(), TERMINAL)
    ));
}
