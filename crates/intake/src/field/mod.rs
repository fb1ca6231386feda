//! Field sheets that come home: what was tapped on phones at the wells, taken into the record.
//!
//! In: the JSON file that a phone saved (`docs/guide/field-sheet.md` describes it), by
//! `limpid import STORE FILE --mapping field-sheet`. Out: every entry as a row of `field_entry`
//! (those taken back too), and from it readings, fills, counts, custody and what
//! bottles met, all through the importer's own checks; or every fault by entry and field.
//!
//! * An entry is known by sheet, phone and the phone's counter: a file taken in again, or a longer
//!   one of the same phone, brings each entry once. Its order is that of the counter.
//! * Measurements of several phones all stand. A value that a bottle can have only once (acid, time
//!   of filling) is taken where the phones agree; where they differ, neither is: both stay as
//!   entries, [`conflicts`] shows them, a person decides ([`settle`]). What stood in the record
//!   before, entered by a person, stays until then.
//! * A phone whose clock lies outside the days of the trip is named and refused, until the mapping
//!   says what to add ([`PhoneClock`](crate::import::PhoneClock)).
//!
//! `format` reads the file, `clock` judges and turns times, `bottles` decides what bottles get.
//! Times of the record are local to the site: that of the trip's first phone. Checked in
//! `crates/programme/tests/field.rs` and, through a browser, in `report/tests/field_sheet.rs`.

mod bottles;
mod clock;
mod format;
mod take;

pub use bottles::{Conflict, Said, conflicts, settle};
pub(crate) use format::parse;
pub use format::{EXPORT_FORMAT, EXPORT_VERSION, LARGEST_FILE};
pub(crate) use take::{Taking, fits};

use record::store::{EventHash, Store, StoreError};
use std::collections::BTreeSet;

/// Days before the trip that a phone may say; people prepare. The programme's own choice.
pub const DAYS_BEFORE: i64 = 3;
/// Days after its end, or its start where the end is not known. The programme's own choice.
pub const DAYS_AFTER: i64 = 31;

/// How this program is known to a field sheet, and when the sheet comes home.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Around {
    /// Hash of the programme's first event.
    pub programme: String,
    /// Hashes of all its events.
    pub heads: BTreeSet<String>,
    /// Time of the act that takes the sheet in.
    pub at: String,
}

impl Around {
    pub(crate) fn of(store: &Store, at: &str) -> Result<Self, StoreError> {
        let events = store.events()?;
        let programme = events.first().map_or_else(String::new, |e| e.hash.to_string());
        Ok(Self { programme, heads: events.iter().map(|e| e.hash.to_string()).collect(), at: at.into() })
    }
}

/// What a programme is known by outside: the hash of its first event. None before any act.
///
/// # Errors
/// The store cannot be read.
pub fn programme_id(store: &Store) -> Result<Option<EventHash>, StoreError> {
    Ok(store.events()?.first().map(|e| e.hash))
}

/// The name of a sheet: the same for the same programme, trip and state of the record.
pub fn sheet_id(programme: EventHash, head: EventHash, trip: &str) -> String {
    let mut hasher = blake3::Hasher::new();
    hasher.update(&programme.0).update(&head.0).update(trip.as_bytes());
    hasher.finalize().to_hex()[..16].to_string()
}
