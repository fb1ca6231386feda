//! A recipe by questions: what is asked of a laboratory, and the file that its answers make. The file is read as any other
//! ([`super::read`]), so that an answer out of its range is a fault at its own key.
//!
//! In: answers by key, as typed; an empty one is left out. Out: TOML. What each question says is a message of the room
//! `question`, by its key. Checked below.

#[cfg(test)]
use super::Kind;
use super::RecipeFault;
use message::{Arg, Message, Name};
use toml::{Table, Value};

/// A question: the key that it answers, counted from 1 in lists as faults count them, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// As `dead_time.ns`, `dark_rates[1].cps`.
    pub key: &'static str,
    /// How it is answered.
    pub answer: Answer,
    /// Whether a recipe must say it.
    pub needed: bool,
}

/// How a question is answered.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Answer {
    /// A text.
    Text,
    /// A number.
    Number,
    /// Names, one a line.
    Lines,
    /// One of these words.
    Word(&'static [&'static str]),
}

const fn asks(key: &'static str, answer: Answer) -> Question {
    Question { key, answer, needed: false }
}

const fn needs(key: &'static str, answer: Answer) -> Question {
    Question { key, answer, needed: true }
}

/// All of them, in the order of the work: detector, internal standards and drift, blanks, lead.
pub const QUESTIONS: &[Question] = &[
    needs("name", Answer::Text),
    needs("unit", Answer::Text),
    needs("dead_time.ns", Answer::Number),
    needs("dead_time.u_ns", Answer::Number),
    asks("dead_time.model", Answer::Word(&["non-extending", "extending"])),
    asks("analogue_factor.value", Answer::Number),
    asks("analogue_factor.u", Answer::Number),
    asks("dark_rates[1].cps", Answer::Number),
    asks("dark_rates[1].u_cps", Answer::Number),
    asks("gas_background", Answer::Lines),
    asks("internal_standards.isotopes", Answer::Lines),
    asks("internal_standards.by_mass", Answer::Word(&["nearest", "interpolate"])),
    needs("drift.model", Answer::Word(&["none", "bracket", "smooth"])),
    needs("blank.samples", Answer::Word(super::BLANKS)),
    needs("blank.reference", Answer::Word(super::BLANKS)),
    asks("blank.scale", Answer::Word(&["concentration", "mass-per-bottle"])),
    asks("lead_reference.vials", Answer::Lines),
    asks("lead_reference.source", Answer::Text),
    asks("lead_reference.ratios[1].value", Answer::Number),
    asks("lead_reference.ratios[1].u", Answer::Number),
    asks("lead_reference.ratios[2].value", Answer::Number),
    asks("lead_reference.ratios[2].u", Answer::Number),
];

/// Ratios of lead that are asked for, as numerator and denominator: the two from which the others follow.
const RATIOS: [(i64, i64); 2] = [(206, 207), (208, 206)];

impl Question {
    /// What is asked, and what stands under it.
    pub fn messages(&self) -> (Option<Message>, Option<Message>) {
        let key = self.key.replace("].", "-");
        (Message::named("question", &key), Message::named("question", &format!("{key}-more")))
    }
}

/// The file of these answers. What is no number where one is asked for stays as it was typed: reading says so at its key.
pub fn written(answer: impl Fn(&str) -> String) -> String {
    let mut table = Table::new();
    for q in QUESTIONS {
        let text = answer(q.key).trim().to_string();
        // "There is no internal standard" is an answer that a recipe must hold.
        if text.is_empty() && q.key != "internal_standards.isotopes" {
            continue;
        }
        put(&mut table, q.key, value(q.answer, &text));
    }
    name_ratios(&mut table);
    // Keys and plain values alone: nothing of them cannot be written.
    toml::to_string(&table).unwrap_or_default()
}

fn value(how: Answer, text: &str) -> Value {
    match how {
        // A decimal comma is how half of Europe types a number; no number of a recipe has thousands.
        Answer::Number => text.replace(',', ".").parse::<f64>().map_or_else(|_| text.into(), Value::Float),
        Answer::Lines => {
            let lines = text.lines().map(str::trim).filter(|l| !l.is_empty());
            Value::Array(lines.map(Value::from).collect())
        }
        Answer::Text | Answer::Word(_) => text.into(),
    }
}

/// Puts a value at its path, making the tables and lists on the way.
fn put(table: &mut Table, path: &str, value: Value) {
    let Some((head, rest)) = path.split_once('.') else {
        table.insert(path.into(), value);
        return;
    };
    match head.split_once('[') {
        None => {
            if let Value::Table(inner) = table.entry(head).or_insert_with(|| Table::new().into()) {
                put(inner, rest, value);
            }
        }
        Some((name, place)) => {
            let place = place.trim_end_matches(']').parse::<usize>().unwrap_or(1);
            if let Value::Array(items) = table.entry(name).or_insert_with(|| Value::Array(vec![])) {
                items.resize_with(items.len().max(place), || Table::new().into());
                if let Some(Value::Table(inner)) = items.get_mut(place - 1) {
                    put(inner, rest, value);
                }
            }
        }
    }
}

/// Says of each ratio of which masses it is, and leaves out those that were not answered.
fn name_ratios(table: &mut Table) {
    let Some(Value::Table(lead)) = table.get_mut("lead_reference") else { return };
    let Some(Value::Array(items)) = lead.get_mut("ratios") else { return };
    for (item, (numerator, denominator)) in items.iter_mut().zip(RATIOS) {
        let Value::Table(ratio) = item else { continue };
        if !ratio.is_empty() {
            ratio.insert("numerator".into(), numerator.into());
            ratio.insert("denominator".into(), denominator.into());
        }
    }
    items.retain(|item| item.as_table().is_none_or(|t| !t.is_empty()));
}

impl RecipeFault {
    /// The key that it is told of, as questions have it; none of a text that is no TOML.
    pub fn key(&self) -> Option<&str> {
        match self.says.found.arg("key")? {
            Arg::Name(Name(key)) => Some(key),
            _ => None,
        }
    }
}

/// Whether a word is one that a key of this kind takes: the questions offer no other.
#[cfg(test)]
fn takes(kind: Kind, question: &Question) -> bool {
    match (kind, question.answer) {
        (Kind::Word(all), Answer::Word(offered)) => all == offered,
        (Kind::Texts | Kind::Isotopes, Answer::Lines)
        | (Kind::Text | Kind::Unit, Answer::Text)
        | (Kind::ZeroOrMore | Kind::AboveZero, Answer::Number) => true,
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::recipe::{KEYS, read};

    fn answers<'a>(all: &'a [(&'a str, &'a str)]) -> impl Fn(&str) -> String + 'a {
        |key| all.iter().find(|(k, _)| *k == key).map_or_else(String::new, |(_, text)| (*text).to_string())
    }

    const LEAST: [(&str, &str); 7] = [
        ("name", "mein \"Rezept\""),
        ("unit", "ng/L"),
        ("dead_time.ns", "35,5"),
        ("dead_time.u_ns", "1.5"),
        ("drift.model", "bracket"),
        ("blank.samples", "field-blank"),
        ("blank.reference", "procedural-blank"),
    ];

    #[test]
    fn every_question_asks_for_a_key_and_has_its_words() {
        for q in QUESTIONS {
            let path = q.key.replace("[1]", "[]").replace("[2]", "[]");
            let key = KEYS.iter().find(|k| k.path == path).unwrap_or_else(|| panic!("{} is no key", q.key));
            assert!(takes(key.kind, q), "{}", q.key);
            let (asked, more) = q.messages();
            assert!(asked.is_some() && more.is_some(), "{}", q.key);
        }
    }

    #[test]
    fn what_a_recipe_must_say_is_needed() {
        // `internal_standards.isotopes` is answered by leaving it empty: there is none.
        let must = KEYS.iter().filter(|k| k.required && !k.path.contains("[]"));
        let must = must.filter(|k| !super::super::OPTIONAL.iter().any(|o| k.path.starts_with(&format!("{o}."))));
        let mut must: Vec<&str> = must.map(|k| k.path).filter(|p| *p != "internal_standards.isotopes").collect();
        let mut needed: Vec<&str> = QUESTIONS.iter().filter(|q| q.needed).map(|q| q.key).collect();
        must.sort_unstable();
        needed.sort_unstable();
        assert_eq!(needed, must);
    }

    #[test]
    fn answers_make_a_recipe_that_reads_back() {
        let recipe = read(&written(answers(&LEAST))).unwrap();
        assert_eq!((recipe.name.as_str(), recipe.dead_time.ns), ("mein \"Rezept\"", 35.5));
        assert!(recipe.internal_standards.isotopes.is_empty() && recipe.lead_reference.is_none());
        let more = [
            ("internal_standards.isotopes", "In115@low\n Ir193@low \n"),
            ("dark_rates[1].cps", "0.2"),
            ("lead_reference.vials", "lead 1\nlead 2"),
            ("lead_reference.source", "certificate"),
            ("lead_reference.ratios[2].value", "2.17"),
            ("lead_reference.ratios[2].u", "0.001"),
        ];
        let recipe = read(&written(answers(&[&LEAST[..], &more].concat()))).unwrap();
        assert_eq!(recipe.internal_standards.isotopes.len(), 2);
        let lead = recipe.lead_reference.unwrap();
        assert_eq!(lead.vials, ["lead 1", "lead 2"]);
        assert_eq!((lead.ratios.len(), lead.ratios[0].numerator, lead.ratios[0].denominator), (1, 208, 206));
    }

    #[test]
    fn what_cannot_be_taken_is_told_at_its_key() {
        let wrong = LEAST.map(|(k, v)| if k == "dead_time.ns" { (k, "some") } else { (k, v) });
        let keys = |all: &[(&str, &str)]| -> Vec<String> {
            read(&written(answers(all))).unwrap_err().iter().filter_map(|f| f.key().map(String::from)).collect()
        };
        assert_eq!(keys(&wrong), ["dead_time.ns"]);
        assert_eq!(keys(&LEAST[1..]), ["name"]);
    }
}
