//! One module a place. Each reads the record, and sets out what was computed below.

pub(crate) mod accounts;
pub(crate) mod attribution;
pub(crate) mod bring_in;
mod came_of;
pub(crate) mod case;
pub(crate) mod compounds;
pub(crate) mod entry;
pub(crate) mod field;
pub(crate) mod home;
pub(crate) mod lots;
pub(crate) mod mapping;
mod mapping_parts;
pub(crate) mod plan;
mod preview;
pub(crate) mod recipes;
pub(crate) mod record;
pub(crate) mod report;
mod report_preview;
pub(crate) mod results;
pub(crate) mod runs;
pub(crate) mod start;
pub(crate) mod statements;
pub(crate) mod tables;
pub(crate) mod time;
pub(crate) mod trips;
pub(crate) mod water;
pub(crate) mod wells;

use crate::blocks::{Td, verdict};
use crate::page::case_address;
use ::document::content::Word;
use ::figure::number::Printed;
use ::record::model::VerdictWord;
use assessment::results::Listed;
use maud::html;
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
    let words = match &r.amount {
        _ if r.bound().is_some() => r.bound().map_or_else(String::new, |(bound, unit)| format!("{bound} {unit}")),
        Some(a) => Printed::of(a, r.coverage_k.unwrap_or(2.0)).with_unit(),
        None => "not detected, limit not stated".into(),
    };
    Td { shown: html! { a href=(case_address(&r.result)) { (words) } }, words, number: true }
}

/// A result's verdict.
pub(crate) fn judged(r: &Listed) -> Td {
    let judged = verdict(r.verdict.map(word));
    let Some(profile) = r.profile.as_deref() else { return judged };
    Td {
        words: format!("{} by profile {profile}", judged.words),
        shown: html! { (judged.shown) (by_profile(Some(profile))) },
        ..judged
    }
}

/// The profile of checks that gave a verdict, behind its word.
pub(crate) fn by_profile(profile: Option<&str>) -> maud::Markup {
    html! { @if let Some(profile) = profile { " by profile " em { (profile) } } }
}

/// What was measured: "lead 206+207+208".
pub(crate) fn measurand(r: &Listed) -> String {
    let name = ::report::pages::element(&r.analyte);
    if r.isotopes.is_empty() { name } else { format!("{name} {}", r.isotopes) }
}

/// Rows of results of waters and of blanks, the newest `most` of each, in the order of the record as the report reads them.
fn with_blanks(i: &Index, water: &Wanted, blanks: &Wanted, most: usize) -> Vec<i64> {
    let mut rows = i.select(water, 0, most).rows;
    rows.extend(i.select(blanks, 0, most).rows);
    rows.sort_unstable();
    rows
}
