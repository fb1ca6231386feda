//! Who stands for what: each verdict that a person signed, with name and reason, as it reads now, and
//! whether a key signed it, a login stands for it, or a name was typed.
//!
//! In: the sign-offs on record and the results. Out: one section, none where nobody signed. A signature answers for
//! warnings; the verdict beside it is the program's. Checked in `crates/cli/tests/own_trip.rs`.

use super::{section, word};
use assessment::results::Listed;
use assessment::witnesses::{self, Way};
use document::content::{Block, Cell, Column, Section, Table};
use message::{Spoken, signed as said};
use record::Error;
use record::store::Store;
use std::collections::HashMap;

/// The section; of several signatures on one verdict the newest.
pub fn sections(store: &Store, all: &[Listed]) -> Result<Vec<Section>, Error> {
    let mut newest: Vec<record::model::SignOff> = vec![];
    for s in store.sign_offs()? {
        newest.retain(|earlier| earlier.subject_id != s.subject_id);
        newest.push(s);
    }
    if newest.is_empty() {
        return Ok(vec![]);
    }
    let ways = witnesses::ways(store)?;
    let results: HashMap<String, &Listed> = all.iter().map(|r| (r.result.newest().to_string(), r)).collect();
    let row = |s: &record::model::SignOff| {
        let result = results.get(&s.subject);
        let what = Cell::Text(s.subject.clone());
        vec![
            match result {
                Some(r) => Cell::Of { result: r.result.clone(), cell: Box::new(what) },
                // A reported series: all results that stand on the same evidence.
                None => what,
            },
            result.and_then(|r| word(r)).map_or(Cell::Missing("–".into()), Cell::Verdict),
            Cell::Text(s.person.clone()),
            Cell::Text(s.why.clone()),
            Cell::Text(ways.get(&s.id).copied().unwrap_or(Way::Typed).message().text()),
        ]
    };
    let table = Table {
        caption: said::Caption.text(),
        columns: vec![
            Column::words(said::What.text()),
            Column::words(said::Verdict.text()),
            Column::words(said::Who.text()),
            Column::words(said::Why.text()),
            Column::words(said::How.text()),
        ],
        rows: newest.iter().map(row).collect(),
        notes: vec![said::About.text()],
    };
    Ok(vec![section(said::Title, vec![Block::Table(table)])])
}
