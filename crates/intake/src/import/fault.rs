//! Faults of a file: every one with row, column, what was found and what was expected.
//!
//! A fault is a [`Finding`] with its [`Place`]; at most [`SHOWN`] are kept, all are counted. One
//! fault is enough to refuse the file, and no fault hides another, except where the file cannot
//! be told apart any further (a quote never closed, a line without end).

use super::text::TextFault;
use message::{Arg, Message, Name, intake};
use quantity::{Check, Finding, Outcome, Place, Stage};

/// Faults kept for showing.
pub const SHOWN: usize = 1000;

/// Faults of one file, or of several files of one import.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Faults {
    /// The first [`SHOWN`].
    pub shown: Vec<Finding>,
    /// How many there are.
    pub total: u64,
}

impl Faults {
    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.total == 0
    }

    /// Adds the faults of another file, or of the other thread.
    pub fn merge(&mut self, other: Self) {
        self.total += other.total;
        let room = SHOWN - self.shown.len().min(SHOWN);
        self.shown.extend(other.shown.into_iter().take(room));
    }

    /// Sorts by file order kept, then row.
    pub fn sort(&mut self) {
        self.shown.sort_by_key(|f| f.place.as_ref().and_then(|p| p.row).unwrap_or(0));
    }
}

/// What stands there, and what would be read; of another finding its sentence, and nothing.
pub fn parts(finding: &Finding) -> (&str, &str) {
    let part = |name| match finding.message.as_ref()?.arg(name)? {
        Arg::Name(Name(text)) => Some(text.as_str()),
        _ => None,
    };
    part("found").zip(part("expected")).unwrap_or((&finding.sentence, ""))
}

/// A finding of a file in one line: `wells.csv, row 3, column "medium": found …, expected …`.
pub fn in_words(finding: &Finding) -> String {
    let Some(place) = &finding.place else {
        return finding.sentence.clone();
    };
    let mut out = place.file.clone();
    if let Some(row) = place.row {
        out += ", row ";
        out += &row.to_string();
    }
    if let Some(column) = &place.column {
        out += ", column \"";
        out += column;
        out += "\"";
    }
    out.push_str(": ");
    out.push_str(&finding.sentence);
    out
}

/// Collects the faults of one file.
#[derive(Debug, Clone)]
pub(crate) struct Collector {
    file: String,
    stage: Stage,
    pub faults: Faults,
}

impl Collector {
    pub fn new(file: &str, laboratory: bool) -> Self {
        Self {
            file: file.to_string(),
            stage: if laboratory { Stage::LabRun } else { Stage::Well },
            faults: Faults::default(),
        }
    }

    /// Adds a fault of a cell or a row.
    pub fn add(
        &mut self,
        check: Check,
        row: Option<u64>,
        column: Option<&str>,
        found: impl std::fmt::Display,
        expected: impl std::fmt::Display,
    ) {
        self.faults.total += 1;
        if self.faults.shown.len() < SHOWN {
            let says = intake::Fault { found: found.to_string().into(), expected: expected.to_string().into() };
            let finding = self.finding(check, Outcome::NotMet, row, column, says);
            self.faults.shown.push(finding);
        }
    }

    /// Adds what stopped or spoiled the reading of the file.
    pub fn text_fault(&mut self, t: &TextFault, headings: &[String]) {
        let column = t.column.map(|c| headings.get(c - 1).cloned().unwrap_or_else(|| c.to_string()));
        self.add(t.check, t.row, column.as_deref(), &t.found, &t.expected);
    }

    /// A finding with its place in this file.
    pub fn finding(
        &self,
        check: Check,
        outcome: Outcome,
        row: Option<u64>,
        column: Option<&str>,
        says: impl Into<Message>,
    ) -> Finding {
        let mut f = Finding::new(check, outcome, says);
        f.stage = self.stage;
        f.place = Some(Place { file: self.file.clone(), row, column: column.map(str::to_string) });
        f
    }
}

/// A text in quotes for a message, at most 60 characters.
pub(crate) fn quoted(text: &str) -> String {
    if text.is_empty() {
        return "nothing".into();
    }
    let mut short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    format!("\"{}\"", short.escape_debug())
}
