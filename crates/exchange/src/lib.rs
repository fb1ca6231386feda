//! The open data package of a programme: written, and read back into a programme of its own.
//!
//! In: a store. Out: a folder that others can use without this program ([`write()`]), whole or not at
//! all: tables as CSV with a Frictionless Data Package (Table Schema), results as Parquet,
//! observations as SensorThings entities, provenance in W3C PROV terms, an RO-Crate that describes
//! every file, the raw files as they came, and the sums of all (SHA-256, BLAKE3).
//! Back: [`read()`] makes a programme with the same rows, the same raw files and the same event chain;
//! nothing is kept where one byte differs.
//!
//! * [`cell`] — how a value is written as text: nothing that a spreadsheet would run;
//! * [`folder`] — files with their sums, renamed into place when all are there; [`packed`](mod@packed) — all in one file;
//! * [`whole_record`] — every table of the schema, `nodes` the steps of derivations once; [`results`], [`tables`] — the tables for people;
//! * [`observations`], [`provenance`], [`describe`] — the descriptions; [`dictionary`] — the words;
//! * `documents` — README, METHODS, licence, and the programs that recompute and verify a package without this one;
//! * `steps` — nodes and edges of the derivations as Parquet;
//! * [`standing`] — what was excluded, corrected, superseded, in words;
//! * [`mod@read`] — back into a store; `compare` — what is derived against the record;
//! * [`result_rows`], [`sheet`] — results and empty files as tables for spreadsheets, beside the package.
//!
//! All of it is driven by `record::schema`: a table declared there is carried by itself.
//! Dates come from the record, never from a clock: the same record makes the same bytes.
//! Checked in `tests/round_trip.rs`, `tests/damage.rs`, and by the standard validators in
//! `docs/validation/package`.

pub mod cell;
mod compare;
pub mod describe;
pub mod dictionary;
mod documents;
mod error;
pub mod folder;
mod nodes;
pub mod observations;
pub mod packed;
pub mod provenance;
pub mod read;
pub mod result_rows;
pub mod results;
pub mod sheet;
pub mod standing;
mod steps;
pub mod tables;
pub mod whole_record;
mod write;

pub use error::Error;
pub use packed::packed;
pub use read::{ReadBack, read, verify};
pub use write::{Options, Written, write};

/// Version of the package's own form; a newer one is refused by name. 2: derivations whole, each with all its nodes.
pub const FORMAT: u64 = 3;

/// Folder of the tables that carry the record whole.
pub const RECORD: &str = "record";

/// Folder of the raw files.
pub const RAW: &str = "raw";
