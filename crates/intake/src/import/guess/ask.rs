//! What a guess asks of a person: what the file does not say, each with how it is said at the command line.

use super::super::cell::{DateOrder, Decimal};
use super::super::pattern;
use super::super::plan::{Coverage, is_in_percent};
use super::{Guess, Place, quoted};
use message::{Arg, Message, web_columns as says};
use std::collections::BTreeMap;
use std::fmt;

/// What a file does not answer, and how a person says it at the command line.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The question.
    pub says: Message,
    /// `key=value`, and what may stand there.
    pub how: String,
}

impl Question {
    pub(super) fn new(says: impl Into<Message>, how: impl Into<String>) -> Self {
        Self { says: says.into(), how: how.into() }
    }
}

impl Question {
    /// Whether it asks what a word in a value's cell means.
    pub(super) fn is_of_word(&self, word: &str) -> bool {
        self.says.is::<says::AskWord>() && self.says.arg("word") == Some(&Arg::Name(quoted(word).into()))
    }
}

impl fmt::Display for Question {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let says = self.says.in_english();
        match (self.how.is_empty(), says.ends_with('?')) {
            (true, _) => f.write_str(&says),
            (false, true) => write!(f, "{says} {}", self.how),
            (false, false) => write!(f, "{says}: {}", self.how),
        }
    }
}

impl serde::Serialize for Question {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl Guess {
    /// Asks what the file leaves open, each with how it is said.
    pub(super) fn ask(&mut self) {
        let mut asked: Vec<Question> = vec![];
        let mut ask = |says: Message, how: &str| asked.push(Question::new(says, how));
        let lacks = |field: &str| !self.columns.contains_key(field);
        if lacks("bottle.label") {
            ask(says::AskBottle.into(), "bottle.label=HEADING");
        }
        if lacks("result.fraction") {
            ask(says::AskFraction.into(), "result.fraction=unfiltered, or filtered, or 0.45 um");
        }
        if !self.wide {
            if lacks("result.analyte") {
                ask(says::AskAnalyte.into(), "result.analyte=HEADING");
            }
            if lacks("result.value") {
                ask(says::AskValue.into(), "result.value=HEADING");
            }
            if lacks("result.unit") && self.value_unit.is_none() && !self.value_has_unit() {
                ask(says::AskUnit.into(), "value.unit=ng/L");
            }
        } else if self.analytes.is_empty() && self.pattern.is_none() {
            ask(says::AskAcross.into(), "analyte.HEADING=NAME");
        }
        let none = BTreeMap::new();
        let bare: Vec<&String> = self
            .analytes
            .iter()
            .filter(|(h, _, u)| u.is_none() && !matches!(pattern::heading_unit(h, &none), Some((_, Ok(_)))))
            .map(|(h, ..)| h)
            .collect();
        if !bare.is_empty() && self.value_unit.is_none() {
            let bare: Vec<String> = bare.into_iter().take(5).map(|h| quoted(h)).collect();
            ask(says::AskUnitOf { headings: bare.join(", ").into() }.into(), "value.unit=ng/L, or file.units_row=N");
        }
        if self.pattern.as_deref().is_some_and(|p| !p.contains("{unit}")) && self.value_unit.is_none() {
            ask(says::AskUnitOfIsotopes.into(), "value.unit=ng/L, or file.units_row=N");
        }
        if let Some(Place::Heading(h)) = self.columns.get("result.u") {
            let heading = quoted(h).into();
            if self.coverage.is_none() && Coverage::of(h) == Coverage::Unsaid {
                let how = "result.u.k=1 (standard), result.u.k=2, or result.u.level=95 %";
                ask(says::AskCoverage { heading }.into(), how);
            }
            let heading = quoted(h).into();
            if self.u_in.is_none() && !says_in_what(h) {
                ask(says::AskUUnit { heading }.into(), "result.u.unit=%, or result.u.unit=value");
            }
        }
        if self.plus_minus.as_deref() == Some("") {
            let how = "plus_minus.k=1 (standard), plus_minus.k=2, or plus_minus.level=95 %";
            ask(says::AskPlusMinus.into(), how);
        }
        if self.form.decimal == Decimal::Asked {
            ask(says::AskDecimal.into(), "file.decimal=, or file.decimal=.");
        }
        if self.form.dates == DateOrder::Asked && self.columns.contains_key("bottle.filled_at") {
            ask(says::AskDates.into(), "file.dates=day-month-year or file.dates=month-day-year");
        }
        self.questions.extend(asked);
    }

    fn value_has_unit(&self) -> bool {
        matches!(self.columns.get("result.value"), Some(Place::Heading(h))
            if matches!(pattern::heading_unit(h, &BTreeMap::new()), Some((_, Ok(_)))))
    }

    /// The questions in a line, in English.
    pub(super) fn questions_in_words(&self) -> String {
        self.questions.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
    }
}

/// Whether a heading of uncertainties says in what they are: per cent, a unit; or it is the record's own u.
pub fn says_in_what(heading: &str) -> bool {
    is_in_percent(heading)
        || heading.trim() == "u"
        || matches!(pattern::heading_unit(heading, &BTreeMap::new()), Some((_, Ok(_))))
}
