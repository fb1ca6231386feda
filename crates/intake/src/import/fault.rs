//! Faults of a file: every one with row, column, what was found and what was expected.
//!
//! A fault is a [`Finding`] with its [`Place`]; at most [`SHOWN`] are kept, all are counted. One
//! fault is enough to refuse the file, and no fault hides another, except where the file cannot
//! be told apart any further (a quote never closed, a line without end).

use super::text::TextFault;
pub use message::intake::Fault;
use message::{Arg, Lang, Message, Name, Spoken, found};
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

/// What stands there, and what would be read, in English; of another finding its sentence, and nothing.
pub fn parts(finding: &Finding) -> (String, String) {
    finding.message.as_ref().and_then(halves).unwrap_or_else(|| (finding.sentence.clone(), String::new()))
}

/// The same in the language that is spoken now.
pub fn spoken_parts(finding: &Finding) -> (String, String) {
    let halves = finding.message.as_ref().and_then(|m| Some((half(m, "found")?, half(m, "expected")?)));
    halves.unwrap_or_else(|| (finding.text(), String::new()))
}

/// One half of a fault in the language that is spoken now.
fn half(says: &Message, name: &str) -> Option<String> {
    match says.arg(name)? {
        Arg::Name(Name(text)) => Some(text.clone()),
        Arg::Message(m) => Some(m.text()),
        _ => None,
    }
}

/// The two halves of a fault in English; none of another message.
pub(crate) fn halves(says: &Message) -> Option<(String, String)> {
    let half = |name| match says.arg(name)? {
        Arg::Name(Name(text)) => Some(text.clone()),
        Arg::Message(m) => m.said(Lang::En),
        _ => None,
    };
    half("found").zip(half("expected"))
}

/// What stands there, and what would be read.
pub(crate) fn fault(found: impl Into<Message>, expected: impl Into<Message>) -> Fault {
    Fault { found: found.into(), expected: expected.into() }
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
    /// What a person should know of rows that are taken all the same; the first [`SHOWN`].
    notes: Vec<Finding>,
    /// How many more there are.
    more_notes: u64,
    /// How the file is read; the first [`SHOWN`].
    told: Vec<Finding>,
}

impl Collector {
    pub fn new(file: &str, laboratory: bool) -> Self {
        Self {
            file: file.to_string(),
            stage: if laboratory { Stage::LabRun } else { Stage::Well },
            faults: Faults::default(),
            notes: vec![],
            more_notes: 0,
            told: vec![],
        }
    }

    /// Adds what a person should look at once more in a row that is taken.
    pub fn note(&mut self, row: Option<u64>, column: &str, says: impl Into<Message>) {
        if self.notes.len() < SHOWN {
            let finding = self.finding(Check::FileUnusual, Outcome::NotKnown, row, Some(column), says);
            self.notes.push(finding);
        } else {
            self.more_notes += 1;
        }
    }

    /// Tells what a person should know of how the file is read; nothing of it stops the import.
    pub fn tell(&mut self, check: Check, row: Option<u64>, column: Option<&str>, says: impl Into<Message>) {
        if self.told.len() < SHOWN {
            let finding = self.finding(check, Outcome::NotKnown, row, column, says);
            self.told.push(finding);
        }
    }

    /// What [`Self::tell`] was told.
    pub fn take_told(&mut self) -> Vec<Finding> {
        let mut told = std::mem::take(&mut self.told);
        // A file that is opened twice, for its replicate sets, tells of its form twice.
        told.dedup();
        told
    }

    /// The notes, and that there are more.
    pub fn take_notes(&mut self) -> Vec<Finding> {
        let mut notes = std::mem::take(&mut self.notes);
        let more = std::mem::take(&mut self.more_notes);
        if more > 0 {
            let says = message::intake::MoreUnusual { more: number(more) };
            notes.push(self.finding(Check::FileUnusual, Outcome::NotKnown, None, None, says));
        }
        notes
    }

    /// Adds a fault of a cell or a row; `says` is asked only where it is going to be shown.
    pub fn add<M: Into<Message>>(
        &mut self,
        check: Check,
        row: Option<u64>,
        column: Option<&str>,
        says: impl FnOnce() -> M,
    ) {
        self.faults.total += 1;
        if self.faults.shown.len() < SHOWN {
            let finding = self.finding(check, Outcome::NotMet, row, column, says());
            self.faults.shown.push(finding);
        }
    }

    /// Adds what stopped or spoiled the reading of the file.
    pub fn text_fault(&mut self, t: &TextFault, headings: &[String]) {
        let column = t.column.map(|c| headings.get(c - 1).cloned().unwrap_or_else(|| c.to_string()));
        self.add(t.check, t.row, column.as_deref(), || (*t.says).clone());
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

/// A text in quotes, at most 60 characters; nothing where it is empty.
pub(crate) fn quoted(text: &str) -> Message {
    if text.is_empty() { found::Nothing.into() } else { found::Quoted { text: short(text).into() }.into() }
}

/// Headings or words as the file or its mapping has them, in quotes of their own.
pub(crate) fn listed<'t>(all: impl IntoIterator<Item = &'t String>) -> Name {
    let all: Vec<String> = all.into_iter().map(|t| format!("\"{}\"", short(t))).collect();
    all.join(", ").into()
}

fn short(text: &str) -> String {
    let mut short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short.escape_debug().to_string()
}

/// A row or a number of things, as an argument.
pub(crate) fn number(n: u64) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use message::expected;

    #[test]
    fn a_fault_beyond_those_shown_is_counted_and_not_put_together() {
        let mut out = Collector::new("a.csv", true);
        let mut asked = 0;
        for row in 0..SHOWN as u64 + 5 {
            out.add(Check::FileValue, Some(row), None, || {
                asked += 1;
                fault(quoted("x"), expected::Number)
            });
        }
        assert_eq!((out.faults.total, out.faults.shown.len(), asked), (SHOWN as u64 + 5, SHOWN, SHOWN));
    }

    #[test]
    fn both_halves_of_every_kind_of_fault_are_given() {
        let expected = || expected::Number.into();
        for says in [
            fault(found::Quoted { text: "78".into() }, expected::Number).into(),
            message::intake::FaultOfValue { found: "\"78\"".into(), expected: expected() }.into(),
            message::intake::FaultByScience { found: "\"78\"".into(), expected: "a number".into() }.into(),
        ] {
            assert_eq!(halves(&says), Some(("\"78\"".into(), "a number".into())), "{says:?}");
        }
        assert_eq!(halves(&found::Nothing.into()), None);
    }
}
