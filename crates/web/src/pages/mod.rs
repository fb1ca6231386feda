//! One module a place. Each reads the record, and sets out what was computed below.

pub(crate) mod accounts;
pub(crate) mod age;
pub(crate) mod attribution;
pub(crate) mod bring_in;
mod came_of;
pub(crate) mod case;
mod case_acts;
mod case_tree;
pub(crate) mod check_words;
pub(crate) mod compounds;
pub(crate) mod desk_held;
pub(crate) mod desk_newest;
pub(crate) mod desk_waits;
pub(crate) mod entry;
mod entry_fields;
pub(crate) mod field;
pub(crate) mod home;
pub(crate) mod limits;
pub(crate) mod lots;
pub(crate) mod mapping;
mod mapping_parts;
pub(crate) mod own_account;
pub(crate) mod plan;
mod plan_page;
mod preview;
pub(crate) mod recipes;
pub(crate) mod record;
pub(crate) mod report;
mod report_preview;
mod result_cards;
pub(crate) mod result_groups;
mod result_wide;
pub(crate) mod results;
pub(crate) mod runs;
pub(crate) mod search;
pub(crate) mod start;
pub(crate) mod statements;
pub(crate) mod tables;
pub(crate) mod time;
pub(crate) mod trips;
pub(crate) mod visit;
mod visit_page;
pub(crate) mod water;
pub(crate) mod wells;
pub(crate) mod words;
pub(crate) mod workshop;
mod workshop_page;

use crate::blocks::{Td, verdict};
use ::document::content::Word;
use ::record::model::VerdictWord;
use assessment::results::Listed;
use programme::index::{Index, Wanted};

/// The verdict as the report words it.
pub(crate) fn word(v: VerdictWord) -> Word {
    match v {
        VerdictWord::Accepted => Word::Accepted,
        VerdictWord::Provisional => Word::Provisional,
        VerdictWord::Rejected => Word::Rejected,
    }
}

/// A result's value as a link to its case.
pub(crate) fn value(r: &Listed) -> Td {
    words::value(r)
}

/// A result's verdict.
pub(crate) fn judged(r: &Listed) -> Td {
    words::verdict_cell(r.verdict, r.profile.as_deref())
}

/// Rows of results of waters and of blanks, the newest `most` of each, in the order of the record as the report reads them.
fn with_blanks(i: &Index, water: &Wanted, blanks: &Wanted, most: usize) -> Vec<i64> {
    let mut rows = i.select(water, 0, most).rows;
    rows.extend(i.select(blanks, 0, most).rows);
    rows.sort_unstable();
    rows
}
