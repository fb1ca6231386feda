//! Files that came up and wait to be looked at and taken in.

use crate::auth::random;
use crate::auth::who::Who;
use crate::http_error::HttpError;
use crate::lock::lock;
use intake::import::Agreed;
use message::{Spoken as _, web_files};
use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// How long an upload waits to be taken in.
const KEPT: Duration = Duration::from_hours(2);

/// Uploads waiting at once; the oldest goes, of a person's own first.
const MOST: usize = 20;
const MOST_OF_ONE: usize = 5;

/// One file of an upload.
#[derive(Debug, Clone)]
pub(crate) struct UpFile {
    pub name: String,
    pub path: PathBuf,
    pub bytes: u64,
    /// The mapping chosen; none: not yet.
    pub mapping: Option<String>,
    /// Days to add to a phone's times, as typed; empty: none.
    pub clock: String,
}

/// An upload.
pub(crate) struct Upload {
    pub at: Instant,
    pub person: String,
    /// The reason that the person gave; may be empty.
    pub why: String,
    pub files: Mutex<Vec<UpFile>>,
    /// What the person said of names that are not on record.
    pub agreed: Mutex<Agreed>,
    /// Which verdicts would change, in words; none: not worked out yet.
    pub foreseen: Mutex<Option<Vec<String>>>,
    /// Goes with it.
    pub _folder: tempfile::TempDir,
}

/// Uploads that wait.
#[derive(Default)]
pub(crate) struct Uploads(Mutex<HashMap<String, Arc<Upload>>>);

impl Uploads {
    /// One of them.
    pub fn get(&self, id: &str, who: &Who) -> Result<Arc<Upload>, HttpError> {
        let gone = || HttpError::absent(web_files::Gone.text());
        let found = lock(&self.0).get(id).cloned().ok_or_else(gone)?;
        if found.person == who.person { Ok(found) } else { Err(gone()) }
    }

    /// Keeps one; its name.
    pub fn add(&self, upload: Upload) -> String {
        let id = random();
        let mut all = lock(&self.0);
        all.retain(|_, u| u.at.elapsed() < KEPT);
        let own = all.values().filter(|u| u.person == upload.person).count();
        if own >= MOST_OF_ONE || all.len() >= MOST {
            let may_go = all.iter().filter(|(_, u)| own < MOST_OF_ONE || u.person == upload.person);
            if let Some(oldest) = may_go.min_by_key(|(_, u)| u.at).map(|(k, _)| k.clone()) {
                all.remove(&oldest);
            }
        }
        all.insert(id.clone(), Arc::new(upload));
        id
    }

    /// Forgets one.
    pub fn remove(&self, id: &str) {
        lock(&self.0).remove(id);
    }
}
