//! Names and what people wrote: the same in every language, letter by letter and digit by digit.
//!
//! Two ways lead here. Where the report itself sets a name into a text, it marks it ([`marked`]): the mark travels with
//! the text and is taken off where the text leaves. Sentences that are kept with the record bear no marks; in them the
//! names of the programme are looked for ([`Names`]), whole, longest first. A name that reads like a number or an ordinary
//! word of the report ("2.10", "lead", "The") is taken for one only where a word such as "lot" stands before it: else the
//! report's own numbers and words would be taken for names.
//!
//! A name that is found stands as one letter ([`is_held`]) that no phrase has, until the text leaves.

use std::collections::HashMap;

/// Around a name in a text; letters of private use that no font and no person has.
const OPEN: char = '\u{F8F0}';
const CLOSE: char = '\u{F8F1}';

/// The first of the letters that stand for names, one a name of a text.
const FIRST: u32 = 0xF_0000;
/// Names that one text may hold; those beyond are not looked for.
const MOST: usize = 0xFFFD;

/// Words that announce a name.
const ANNOUNCE: [&str; 20] = [
    "lot",
    "lots",
    "trip",
    "trips",
    "well",
    "wells",
    "bottle",
    "bottles",
    "run",
    "runs",
    "acid",
    "filter",
    "vial",
    "site",
    "recipe",
    "stream",
    "laboratory",
    "person",
    "at",
    "beside",
];

/// A name with its mark.
pub(super) fn marked(name: &str) -> String {
    format!("{OPEN}{}{CLOSE}", bare(name))
}

/// A text without marks.
pub(super) fn bare(text: &str) -> String {
    text.chars().filter(|c| !matches!(*c, OPEN | CLOSE)).collect()
}

/// Does this letter stand for a name?
pub(super) fn is_held(c: char) -> bool {
    ('\u{F0000}'..='\u{FFFFD}').contains(&c)
}

/// The letter of the name at a place.
pub(super) fn letter(at: usize) -> Option<char> {
    (at < MOST).then(|| char::from_u32(FIRST + u32::try_from(at).ok()?)).flatten()
}

/// A text with its names put back.
pub(super) fn restored(text: &str, names: &[String]) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match (c as u32).checked_sub(FIRST).filter(|_| is_held(c)).and_then(|at| names.get(at as usize)) {
            Some(name) => out += name,
            None => out.push(c),
        }
    }
    out
}

#[derive(Debug)]
struct Name {
    letters: Vec<char>,
    /// Reads like a number or a word of the report: only where announced.
    ordinary: bool,
}

/// Names that are looked for, by the letters and digits that they begin with.
#[derive(Debug, Default)]
pub(super) struct Names(HashMap<String, Vec<Name>>);

impl Names {
    /// Adds a name; `ordinary`: could be a word or number of the report itself.
    pub fn add(&mut self, name: &str, ordinary: impl Fn(&str) -> bool) {
        let name = bare(name);
        let name = name.trim();
        if name.is_empty() {
            return;
        }
        // At the beginning of a sentence the report gives it a capital.
        for form in [name.to_string(), quantity::format::capital(name)] {
            let letters: Vec<char> = form.chars().collect();
            let ordinary = ordinary(name) || ordinary(&form);
            let of = self.0.entry(start(&letters, 0)).or_default();
            if of.iter().all(|n| n.letters != letters) {
                of.push(Name { letters, ordinary });
                of.sort_by(|a, b| b.letters.len().cmp(&a.letters.len()).then_with(|| a.letters.cmp(&b.letters)));
            }
        }
    }

    /// Length of the name that begins at `i`, in letters.
    pub fn at(&self, text: &[char], i: usize) -> Option<usize> {
        if self.0.is_empty() || (i > 0 && text[i - 1].is_alphanumeric() && text[i].is_alphanumeric()) {
            return None;
        }
        let fits = |n: &&Name| {
            text[i..].starts_with(&n.letters) && ends(text, i + n.letters.len()) && (!n.ordinary || announced(text, i))
        };
        self.0.get(&start(text, i))?.iter().find(fits).map(|n| n.letters.len())
    }
}

/// The letters and digits that a text has from `i` on.
fn start(text: &[char], i: usize) -> String {
    text[i..].iter().take_while(|c| c.is_alphanumeric()).collect()
}

/// Can a name end before `end`? Not within a word, nor before the decimals of a number.
fn ends(text: &[char], end: usize) -> bool {
    let last = text[end - 1];
    let digit = |i: usize| text.get(i).is_some_and(char::is_ascii_digit);
    match text.get(end) {
        Some(c) if c.is_alphanumeric() => !last.is_alphanumeric(),
        Some('.') => !(last.is_ascii_digit() && digit(end + 1)),
        _ => true,
    }
}

/// Does a word that announces a name stand before `i`?
fn announced(text: &[char], i: usize) -> bool {
    let Some(space) = i.checked_sub(1).filter(|s| text[*s] == ' ') else { return false };
    let before: Vec<char> = text[..space].iter().rev().take_while(|c| c.is_alphabetic()).copied().collect();
    let word: String = before.iter().rev().collect::<String>().to_lowercase();
    ANNOUNCE.contains(&word.as_str())
}

/// A marked name at `i`: what stands in it, and how many letters with its marks.
pub(super) fn marked_at(text: &[char], i: usize) -> Option<(String, usize)> {
    if text[i] != OPEN {
        return None;
    }
    let end = text[i..].iter().position(|c| *c == CLOSE)?;
    Some((text[i + 1..i + end].iter().collect(), end + 1))
}
