//! The number of the engine, and how far a record was derived by which engine.
//!
//! Whenever everything was derived to its end, and something came since it last was, one event without rows says so:
//! the mark. It names the engine. What came after it and brings evidence was kept and is not yet derived; where it
//! names another engine, what was derived may come out otherwise. Neither is damage: `work::recompute` heals both.
//! Programmes made before there were marks have none. Checked in `crates/programme/tests/engine.rs`.

use record::by::By;
use record::store::{ActInfo, Event, Store, StoreError};
use serde_json::json;

macro_rules! number {
    () => {
        4
    };
}

/// Number of the engine: of all that makes a derived value of the evidence, from the counts to the verdict.
///
/// The rule: every change of a computed value raises it by one. That is a value, its u, a limit, a share, an
/// attribution, the word of a verdict and its reasons, or outcome and numbers of a finding. Wording does not raise
/// it. `engine.toml` holds the digests of all computed values of the demo under each number, and `crates/programme/tests/engine.rs`
/// fails where they change and the number does not; it says what to do. Kept with everything that is derived.
pub const ENGINE: i64 = number!();

/// Program and engine, as they stand beside what is derived.
pub const DERIVED_BY: &str = concat!("limpid ", env!("CARGO_PKG_VERSION"), ", engine ", number!());

/// The act that says that everything was derived.
const MARK: &str = "derived";

/// Acts that derive; each names the engine in its body.
const DERIVING: &[&str] = &["reduction", "attribution", "accounting", "assessment"];

/// Sentences about what was derived.
const SAYING: &str = "statement";

/// Tables that nothing is derived from.
const ASIDE: &[&str] = &["person", "mapping", "person_key", "key_end", "signed", "anchor"];

/// What stands for every engine before the numbers.
const BEFORE: i64 = 0;

/// Events looked at first; a mark is seldom far from the end.
const NEAR: usize = 64;

/// How far a record was derived.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct Reach {
    /// The engine that last derived everything; 0 for programs before the numbers, none where that never came to its
    /// end.
    pub engine: Option<i64>,
    /// Acts since then that bring evidence; where it never came to its end, all of them.
    pub acts_since: usize,
}

impl Reach {
    /// Whether everything was derived by this engine, and nothing came since.
    pub fn is_current(&self) -> bool {
        self.engine == Some(ENGINE) && self.acts_since == 0
    }

    /// What is behind, in a sentence; none where nothing is.
    pub fn in_words(&self) -> Option<String> {
        let acts = if self.acts_since == 1 { "act" } else { "acts" };
        match self.engine {
            Some(ENGINE) if self.acts_since == 0 => None,
            Some(ENGINE) => Some(format!("{} {acts} kept and not yet derived", self.acts_since)),
            Some(newer) if newer > ENGINE => {
                Some(format!("derived by engine {newer}, this program has engine {ENGINE}: use a newer Limpid"))
            }
            Some(BEFORE) => Some(format!("derived before engines had numbers, this is engine {ENGINE}")),
            Some(older) => Some(format!("derived by engine {older}, this is engine {ENGINE}")),
            None => Some(format!("{} {acts} kept, and never derived to the end", self.acts_since)),
        }
    }
}

/// How far a record was derived.
///
/// # Errors
/// The store cannot be read.
pub fn reach(store: &Store) -> Result<Reach, StoreError> {
    let mut most = NEAR;
    loop {
        let events = store.events_last(most)?;
        if let Some(at) = events.iter().rposition(|e| e.kind == MARK) {
            let (mark, since) = (engine_of(&events[at]), &events[at + 1..]);
            // Another engine may have derived a part after it.
            let other = since.iter().filter(|e| derives(e)).map(engine_of).find(|e| *e != mark);
            return Ok(Reach { engine: Some(other.unwrap_or(mark)), acts_since: evidence(since) });
        }
        if events.len() < most {
            let last = events.iter().rposition(|e| derives(e) && engine_of(e) == BEFORE);
            let since = last.map_or(0, |at| at + 1);
            return Ok(Reach { engine: last.map(|_| BEFORE), acts_since: evidence(&events[since..]) });
        }
        most = most.saturating_mul(16);
    }
}

fn engine_of(event: &Event) -> i64 {
    event.json["body"]["engine"].as_i64().unwrap_or(BEFORE)
}

fn derives(event: &Event) -> bool {
    DERIVING.contains(&event.kind.as_str())
}

/// Whether an act follows from others: the program derived it, or said that everything was.
pub fn follows(event: &Event) -> bool {
    event.kind == MARK || derives(event)
}

/// How many of the acts bring something to derive from.
fn evidence(events: &[Event]) -> usize {
    let aside = |e: &Event| e.kind == SAYING || follows(e);
    let of_weight =
        |e: &Event| e.json["tables"].as_object().is_some_and(|t| t.keys().any(|n| !ASIDE.contains(&n.as_str())));
    events.iter().filter(|e| !aside(e) && of_weight(e)).count()
}

/// Says that everything was derived, where that is not said yet.
///
/// # Errors
/// The store cannot be read or written.
pub fn mark(store: &mut Store, by: By) -> Result<(), StoreError> {
    if reach(store)?.is_current() {
        return Ok(());
    }
    let info =
        ActInfo { kind: MARK.into(), author: by.person.into(), at: by.at.into(), body: json!({ "engine": ENGINE }) };
    store.act(&info, |_| Ok::<_, StoreError>(())).map(|_| ())
}
