//! One module a place. Each reads the record, and sets out what was computed below.

pub(crate) mod accounts;
pub(crate) mod attribution;
pub(crate) mod bring_in;
pub(crate) mod case;
pub(crate) mod check_words;
pub(crate) mod compounds;
pub(crate) mod desk_held;
pub(crate) mod desk_newest;
pub(crate) mod desk_waits;
pub(crate) mod entry;
mod entry_fields;
pub(crate) mod field;
pub(crate) mod home;
pub(crate) mod lots;
pub(crate) mod mapping;
pub(crate) mod plan;
mod plan_page;
pub(crate) mod recipes;
pub(crate) mod record;
pub(crate) mod report;
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
pub(crate) mod workshop;
mod workshop_page;

use crate::blocks::{Td, verdict};
use crate::page::case_address;
use ::document::content::Word;
use ::figure::number::Printed;
use ::record::model::VerdictWord;
use assessment::results::Listed;
use maud::html;
use message::Spoken;
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
        None => message::web_desk::NotStated.text(),
    };
    let words = ::document::printed::printed(&words, message::language());
    Td { shown: html! { a href=(case_address(&r.result)) { (words) } }, words, number: true }
}

/// A result's verdict.
pub(crate) fn judged(r: &Listed) -> Td {
    let judged = verdict(r.verdict.map(word));
    let Some(profile) = r.profile.as_deref() else { return judged };
    Td {
        words: format!("{} {} {profile}", judged.words, message::web_frame::ByProfile.text()),
        shown: html! { (judged.shown) (by_profile(Some(profile))) },
        ..judged
    }
}

/// The profile of checks that gave a verdict, behind its word.
pub(crate) fn by_profile(profile: Option<&str>) -> maud::Markup {
    html! { @if let Some(profile) = profile { " " (message::web_frame::ByProfile.text()) " " em { (profile) } } }
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
