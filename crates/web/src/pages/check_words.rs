//! Words for what the record calls by a code: checks, what holds a result back, what helps; what was measured. Pages say these and never the code, which stays in addresses and files.
//!
//! In: names of the record. Out: words of the language that is spoken. A name that this version does not know (a check of
//! another version) stands in quotes. Checked in `crates/web/tests/words.rs`.

use assessment::results::Listed;
use assessment::verdict::Rules;
use message::number::capital;
use message::{Message, Spoken, web_desk as says};
use record::model::{VerdictWord, Weight};
use record::store::{Store, StoreError};

/// What a check looks at: "metal comes back".
pub(crate) fn check(code: &str) -> String {
    name(code).text()
}

fn name(code: &str) -> Message {
    let now = quantity::Check::from_text(code).map_or(code, |c| c.text());
    Message::named("web_check", now).unwrap_or_else(|| says::OfAnother { what: code.into() }.into())
}

/// The checks in words, with a comma between.
pub(crate) fn checks(codes: &[String]) -> String {
    codes.iter().map(|c| check(c)).collect::<Vec<_>>().join(", ")
}

/// How a programme weighs: what "provisional because of" means for each check.
pub(crate) struct Weights {
    rules: Rules,
    /// Results are judged by profiles too: the table alone no longer tells what came of a check.
    profiles: bool,
}

impl Weights {
    /// From the record.
    pub fn of(store: &Store) -> Result<Self, StoreError> {
        Ok(Self { rules: Rules::new(store.check_rules()?), profiles: !store.profile_choices()?.is_empty() })
    }

    /// What holds a result back: "No recovery known in this water". A rejected result misses a decisive check; of a
    /// provisional one a decisive check is not known, or a warning not met. Where profiles judge, nobody can tell which
    /// without opening the case, and the check is named alone.
    pub fn held(&self, code: &str, verdict: VerdictWord) -> String {
        let weight = quantity::Check::from_text(code).map(|c| self.rules.weight(c));
        let room = match (verdict, weight) {
            (VerdictWord::Rejected, _) => "web_not_met",
            _ if self.profiles => return capital(&check(code)),
            (_, Some(Weight::Decisive)) => "web_not_known",
            (_, Some(Weight::Warning)) => "web_not_met",
            _ => return capital(&check(code)),
        };
        let now = quantity::Check::from_text(code).map_or(code, |c| c.text());
        let said = Message::named(room, now).unwrap_or_else(|| match room {
            "web_not_met" => says::NotMet { what: name(code) }.into(),
            _ => says::NotKnown { what: name(code) }.into(),
        });
        capital(&said.text())
    }
}

/// What helps where a check holds a result back; empty where nobody wrote one.
pub(crate) fn helps(code: &str) -> String {
    Message::named("web_helps", code).map_or_else(String::new, |m| m.text())
}

/// What was measured, without the resolution of the instrument: "lead 206+207+208".
pub(crate) fn measurand(r: &Listed) -> String {
    of_isotopes(&r.analyte, &r.isotopes)
}

/// The same by symbol and isotopes.
pub(crate) fn of_isotopes(analyte: &str, isotopes: &str) -> String {
    let name = ::report::pages::element(analyte);
    match isotopes {
        "" => name,
        one => format!("{name} {one}"),
    }
}
