//! What was done to a programme, act by act, and taking one of these acts back.
//!
//! In: the event chain. Out: each act with its number, the beginning of its hash, who, when, the files that it brought
//! and how many rows of which table; whether it was taken back. Taking an act back is an act of its own, with a reason:
//! its rows stay on record and count no longer, everything derived follows, and its files may be taken in again.
//! The rules (what goes with it, what stands against it) are the store's: `record/src/store/undo.rs`. Checked in
//! `crates/programme/tests/undo.rs`.

use crate::work::{Recomputed, follow};
use assessment::engine;
use record::by::{By, said};
use record::error::Error;
use record::model::Undone;
use record::store::{ActInfo, Cell, Event, Filter, Store, UNDOABLE};
use serde_json::json;
use std::collections::BTreeMap;

/// Digits of a hash that are shown: enough to tell acts apart, and to name one by.
pub const SHOWN_OF_A_HASH: usize = 12;

/// One act.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Done {
    /// Number of its event.
    pub event: i64,
    /// Hash of its event.
    pub hash: String,
    /// What it was.
    pub act: String,
    /// Who did it.
    pub author: String,
    /// When.
    pub at: String,
    /// Files that it brought.
    pub files: Vec<String>,
    /// The reason that was given.
    pub why: Option<String>,
    /// Rows that it wrote, by table.
    pub rows: BTreeMap<String, u64>,
    /// Whether the program derived it: it follows from the others.
    pub derived: bool,
    /// Whether it is of a kind that can be taken back.
    pub undoable: bool,
    /// The event that took it back, and why.
    pub undone: Option<(i64, String)>,
}

impl Done {
    fn of(event: &Event, undone: &[Undone]) -> Self {
        let body = &event.json["body"];
        let files = body["files"].as_array().into_iter().flatten().filter_map(|f| f["file"].as_str());
        let tables = event.json["tables"].as_object().into_iter().flatten();
        Self {
            event: event.number,
            hash: event.hash.to_string(),
            act: event.kind.clone(),
            author: event.author.clone(),
            at: event.at.clone(),
            files: files.map(String::from).collect(),
            why: body["why"].as_str().map(String::from),
            rows: tables.map(|(t, rows)| (t.clone(), rows["rows"].as_u64().unwrap_or(0))).collect(),
            derived: engine::follows(event),
            undoable: UNDOABLE.contains(&event.kind.as_str()),
            undone: undone.iter().find(|u| u.undone_event == event.number).map(|u| (u.event, u.why.clone())),
        }
    }
}

/// All acts in order.
///
/// # Errors
/// The store cannot be read.
pub fn acts(store: &Store) -> Result<Vec<Done>, Error> {
    let undone = store.list::<Undone>(&Filter::all())?;
    Ok(store.events()?.iter().map(|e| Done::of(e, &undone)).collect())
}

/// What taking an act back did.
#[derive(Debug, Clone, PartialEq)]
pub struct TakenBack {
    /// The act.
    pub act: Done,
    /// Rows that count no longer, by table: its own and those that only speak of them.
    pub rows: BTreeMap<&'static str, u64>,
    /// What followed.
    pub followed: Recomputed,
}

/// Takes the act back that `what` names (a number, or the beginning of a hash), with a reason; then derives anew.
///
/// # Errors
/// A reason that says nothing; no such act; one that cannot be taken back, with what stands on it; the store;
/// [`Error::NotDerived`].
pub fn undo(store: &mut Store, what: &str, why: &str, by: By) -> Result<TakenBack, Error> {
    said(why)?;
    let event = store.event_meant(what)?;
    let info = ActInfo {
        kind: "undo".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "event": event.number, "hash": event.hash.to_string(), "why": why }),
    };
    let (rows, _) = store.act(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        act.undo(&event, why, person)
    })?;
    let act = Done::of(&event, &store.list::<Undone>(&Filter::all())?);
    Ok(TakenBack { act, rows, followed: follow(store, by, &|_| true)? })
}
