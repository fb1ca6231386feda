//! One is one: no message sets a 1 beside a noun or verb of many ("1 bottles"), in any language. Which words are of many is
//! read from the catalogues: what stands in `[other]` where `[one]` has another word; in English also a word with an s
//! whose stem is a word of the catalogues.

use crate::catalogues::{catalogue, distinct};
use fluent_syntax::ast::{Entry, Expression, Pattern, PatternElement, VariantKey};
use message::{Arg, DECLARED, Lang, Message};
use std::collections::{BTreeMap, BTreeSet};

/// Words after a number that belong to it, at most: "1 dated result".
const BESIDE: usize = 3;

/// What stands behind these is not what is counted: "1 of the bottles", "1 year with values".
const NOT_COUNTED: [&str; 20] = [
    "of", "from", "to", "in", "the", "for", "with", "that", "or", "at", "its", "von", "der", "ihrer", "bis", "für",
    "mit", "davon", "oder", "zugleich",
];

/// German adjectives of many that are also those of one: "eine weitere".
const OF_EITHER: [&str; 5] = ["weitere", "andere", "anderen", "saubere", "brauchbare"];

/// A number behind these is a name and counts nothing: "class 1 allows".
const NUMBERED: [&str; 2] = ["class", "Zeile"];

/// A word of a text; none where a number, a sign or an argument stands.
fn words(text: &str) -> Vec<Option<String>> {
    let split = |w: &str| {
        let bare = w.trim_end_matches([',', '.', ';', ':', ')', '?']);
        let ends = bare.len() < w.len();
        let plain = !bare.is_empty() && bare.chars().all(|c| c.is_alphabetic() || matches!(c, '-' | '’'));
        let word = if plain { Some(bare.to_string()) } else { None };
        if ends { vec![word, None] } else { vec![word] }
    };
    text.split_whitespace().flat_map(split).collect()
}

/// The text of a pattern, an argument as a sign.
fn flat(pattern: &Pattern<String>) -> String {
    let part = |e: &PatternElement<String>| match e {
        PatternElement::TextElement { value } => value.clone(),
        PatternElement::Placeable { .. } => " # ".into(),
    };
    pattern.elements.iter().map(part).collect()
}

/// Words of a language.
#[derive(Default)]
struct Words {
    /// Those that a choice between one and many has for one only: "bottle", "holds".
    one: BTreeSet<String>,
    /// Those that it has for many only: "bottles", "hold".
    many: BTreeSet<String>,
    /// All.
    all: BTreeSet<String>,
}

/// Forms of one word that do not begin alike.
const UNLIKE: [(&str, &str); 5] = [("is", "are"), ("was", "were"), ("ist", "sind"), ("hat", "haben"), ("it", "they")];

/// Whether two words are forms of one: they begin alike ("Wasser" and "Wässer" too), or are known to be.
fn of_one_word(a: &str, b: &str) -> bool {
    if UNLIKE.contains(&(a, b)) {
        return true;
    }
    let plain = |w: &str| w.to_lowercase().replace('ä', "a").replace('ö', "o").replace('ü', "u");
    let (x, y) = (plain(a), plain(b));
    let alike = x.chars().zip(y.chars()).take_while(|(x, y)| x == y).count();
    let (shorter, longer) = (x.chars().count().min(y.chars().count()), x.chars().count().max(y.chars().count()));
    let longer_by = longer - shorter;
    a != b && shorter > 2 && (alike == shorter && longer_by < 4 || longer_by < 2 && alike > 1 && alike + 2 >= shorter)
}

impl Words {
    /// Of a language.
    fn of(language: Lang) -> Self {
        let mut out = Self::default();
        for text in catalogue(language) {
            let parsed = fluent_syntax::parser::parse(text).expect("the build has read it");
            let value = |e: &Entry<String>| if let Entry::Message(m) = e { m.value.clone() } else { None };
            parsed.body.iter().filter_map(value).for_each(|pattern| out.read(&pattern));
        }
        out
    }

    fn read(&mut self, pattern: &Pattern<String>) {
        self.all.extend(words(&flat(pattern)).into_iter().flatten());
        for element in &pattern.elements {
            let PatternElement::Placeable { expression: Expression::Select { variants, .. } } = element else {
                continue;
            };
            variants.iter().for_each(|v| self.read(&v.value));
            let one = variants.iter().find(|v| matches!(&v.key, VariantKey::Identifier { name } if name == "one"));
            let other = variants.iter().find(|v| v.default);
            let (Some(one), Some(other)) = (one, other) else { continue };
            let (one, other) = (words(&flat(&one.value)), words(&flat(&other.value)));
            for (a, b) in one.into_iter().flatten().zip(other.into_iter().flatten()) {
                if of_one_word(&a, &b) {
                    self.one.insert(a);
                    self.many.insert(b);
                }
            }
        }
    }

    /// Whether a word is one of many. In English also one with an s whose stem is a word that is there, if it is not what one
    /// thing does ("holds").
    fn is_many(&self, word: &str, language: Lang) -> bool {
        let stems = [word.strip_suffix('s'), word.strip_suffix("es")];
        let plural = language == Lang::En && stems.into_iter().flatten().any(|s| s.len() > 3 && self.all.contains(s));
        (self.many.contains(word) || plural) && !self.one.contains(word) && !OF_EITHER.contains(&word)
    }
}

/// A message where one count is `n` and the others are many.
fn said(id: &str, arguments: &[(&str, &str)], counted: &str, n: i64, language: Lang) -> String {
    let given = arguments.iter().enumerate().map(|(at, (name, kind))| {
        let arg = if *name == counted { Arg::Count(n) } else { distinct(kind, at + 1, language).0 };
        ((*name).to_string(), serde_json::to_value(arg).unwrap())
    });
    let args: serde_json::Map<_, _> = given.collect();
    let made: Message = serde_json::from_value(serde_json::json!({ "id": id, "args": args })).unwrap();
    made.said(language).unwrap_or_else(|| panic!("{id} has no {}", language.code()))
}

/// The word of many beside a 1, if there is one. What a total of 1 is beside a larger part ("71 of 1") is nothing that is
/// said.
fn fault(text: &str, is_many: impl Fn(&str) -> bool) -> Option<String> {
    let all: Vec<&str> = text.split_whitespace().collect();
    let at = all.iter().position(|w| w.trim_start_matches(['(', '+']) == "1")?;
    let before = &all[at.saturating_sub(3)..at];
    if before.last().is_some_and(|w| NUMBERED.contains(w)) {
        return None;
    }
    if before.iter().any(|w| w.starts_with('7')) && before.iter().any(|w| ["of", "von", "ihrer"].contains(w)) {
        return None;
    }
    let behind = words(&all[at + 1..].join(" "));
    let mut beside: Vec<String> = vec![];
    for word in behind.into_iter().map_while(|w| w).take(BESIDE) {
        if beside.last().is_some_and(|w| w.starts_with(char::is_uppercase)) {
            // The noun of a German text stands; what comes is its genitive.
            break;
        }
        beside.push(word);
    }
    beside.into_iter().take_while(|w| !NOT_COUNTED.contains(&w.as_str())).find(|w| is_many(w))
}

#[test]
fn no_1_stands_beside_a_word_of_many() {
    let mut faults = BTreeMap::new();
    for language in Lang::ALL {
        let words = Words::of(language);
        assert!(words.many.len() > 40, "the catalogues choose between one and many: {:?}", words.many);
        let is_many = |w: &str| words.is_many(w, language);
        for (id, arguments) in DECLARED {
            for (name, _) in arguments.iter().filter(|(_, kind)| *kind == "count") {
                let text = said(id, arguments, name, 1, language);
                if let Some(word) = fault(&text, is_many) {
                    faults.insert((language.code(), *id, *name), format!("{word}: {text}"));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn a_word_of_many_beside_a_1_is_seen() {
    let is_many = |w: &str| w == "bottles";
    for text in ["1 bottles", "at most 1 wide bottles, 3 wells", "(1 bottles)"] {
        assert_eq!(fault(text, is_many).as_deref(), Some("bottles"), "{text}");
    }
    for text in ["1 bottle", "1 of the bottles", "1, bottles", "11 bottles", "1 of 3 bottles", "x1 bottles"] {
        assert_eq!(fault(text, is_many), None, "{text}");
    }
}
