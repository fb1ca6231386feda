//! What in a file speaks for the form that was told of it: one line a guess, for a person to judge it by.

use super::super::cell::{DateOrder, Decimal};
use super::super::mapping::FileForm;
use message::{Message, count, web_columns as says};
use std::collections::BTreeMap;

/// What in the first rows speaks for the form that was told.
pub(super) fn proofs(cells: &[Vec<String>], form: &FileForm) -> BTreeMap<&'static str, Message> {
    let mut out = BTreeMap::new();
    let all: Vec<&str> = cells.iter().flatten().map(|c| c.trim_start_matches(['<', '>', ' '])).collect();
    // "1,2" and "1.2" alone: with two signs the one of the thousands stands in it too.
    let with = |sign: char| {
        let is = |c: &&&str| {
            c.split_once(sign).is_some_and(|(a, b)| {
                [a, b].iter().all(|part| !part.is_empty() && part.bytes().all(|x| x.is_ascii_digit()))
            })
        };
        let found: Vec<&str> = all.iter().filter(is).copied().collect();
        (count(found.len()), found.first().map(ToString::to_string))
    };
    let (commas, comma) = with(',');
    let (points, point) = with('.');
    match (form.decimal, comma, point) {
        (Decimal::Comma, Some(example), _) => {
            out.insert("decimal", says::ProofComma { n: commas, example: example.into(), points }.into());
        }
        (Decimal::Point, _, Some(example)) => {
            out.insert("decimal", says::ProofPoint { n: points, example: example.into(), commas }.into());
        }
        _ => {}
    }
    let widest = cells.iter().map(Vec::len).max().unwrap_or(0);
    let rows = cells.iter().filter(|r| r.len() == widest).count();
    if widest > 1 {
        out.insert("delimiter", says::ProofCells { rows: count(rows), cells: count(widest) }.into());
    }
    let is_date = |c: &&&str| {
        let parts: Vec<&str> = c.split(' ').next().unwrap_or_default().split(['.', '/', '-']).collect();
        parts.len() == 3 && parts.iter().all(|p| (1..=4).contains(&p.len()) && p.bytes().all(|b| b.is_ascii_digit()))
    };
    if let Some(example) = all.iter().find(is_date).filter(|_| form.dates != DateOrder::Asked) {
        out.insert("dates", says::ProofDate { example: (*example).into() }.into());
    }
    out
}
