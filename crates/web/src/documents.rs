//! Reports, packages and copies made since the program was started, for who wants to fetch them.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex};

/// What was made: files in a folder of its own.
pub(crate) struct Made {
    pub id: String,
    pub at: String,
    pub head: String,
    pub person: String,
    pub what: String,
    /// Names and bytes.
    pub files: Vec<(String, u64)>,
    pub folder: tempfile::TempDir,
}

/// What was made since the program was started.
#[derive(Default)]
pub(crate) struct Documents(pub Mutex<VecDeque<Arc<Made>>>);
