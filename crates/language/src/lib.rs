//! The report in another language.
//!
//! Sentences of a report come from every room, many of them kept with the record in English. They are put into the
//! language where they leave: [`put`] stands at the doors through which text reaches paper, page and figure (`escape`,
//! `quoted`, the widths of figures). It looks them up in one table, `reference/phrases.csv` (English, German): `#` stands
//! for a number, `{1}` for whatever stands there, put into the language in its turn. A text of several sentences is put
//! sentence by sentence.
//!
//! What the table does not have stays English, is told ([`speaking`]) and bears a mark ([`MARK`]); nothing is guessed.
//! Names, labels and what people wrote ([`as_written`], [`keep_names`]), sources of literature and hashes are the same in
//! every language. In English, and outside of [`speaking`], every text passes untouched.
//!
//! Each stretch of a text is put once, whatever phrases it stands in: a text of n words has n²/2 stretches at most, so the
//! work is bounded. Checked in `crates/report/tests/language.rs` and below.

mod names;

use message::Message;
use names::Names;
use quantity::{Finding, Lang};
use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::collections::{BTreeSet, HashMap, HashSet};
use std::sync::LazyLock;

/// Stands for a number in a text that is looked up.
const NUMBER: char = '\u{1}';

/// A phrase with gaps.
#[derive(Debug)]
struct Pattern {
    /// Literal parts of the English, around the gaps: one more than gaps.
    literals: Vec<String>,
    /// Numbers of the gaps in the English, in order.
    gaps: Vec<usize>,
    /// Letters of all literals: of two patterns that match, the more literal one is meant.
    weight: usize,
    /// The other language.
    other: String,
}

#[derive(Debug, Default)]
struct Phrases {
    whole: HashMap<String, String>,
    /// Single small words that are another word in German.
    words: HashSet<String>,
    /// By first word of the first literal; those that begin with a gap under "".
    patterns: HashMap<String, Vec<Pattern>>,
}

static GERMAN: LazyLock<Phrases> = LazyLock::new(phrases);

/// English and German of the table, row by row.
///
/// # Panics
/// When the table is no CSV; a test reads it.
pub fn table() -> Vec<(String, String)> {
    csv::Reader::from_reader(include_str!("../../../reference/phrases.csv").as_bytes())
        .records()
        .map(|r| {
            let r = r.expect("the table of phrases is well-formed CSV");
            (r[0].to_string(), r[1].to_string())
        })
        .collect()
}

fn phrases() -> Phrases {
    let mut out = Phrases::default();
    // Names of substances stand in the catalogues already.
    let substances = message::DECLARED.iter().filter_map(|(id, _)| id.strip_prefix("substance-"));
    for substance in substances.filter_map(|symbol| Message::named("substance", symbol)) {
        if let (Some(english), Some(german)) = (substance.said(Lang::En), substance.said(Lang::De)) {
            out.whole.insert(english, german);
        }
    }
    for (english, other) in table() {
        let english = english.replace('#', "\u{1}");
        if english.contains("{1}") {
            let p = pattern(&english, other);
            out.patterns.entry(first_word(&p.literals[0]).to_string()).or_default().push(p);
        } else {
            let word = english.chars().all(char::is_lowercase) && !other.eq_ignore_ascii_case(&english);
            if word {
                out.words.insert(english.clone());
            }
            out.whole.insert(english, other);
        }
    }
    for of in out.patterns.values_mut() {
        of.sort_by(|a, b| b.weight.cmp(&a.weight).then(a.literals.cmp(&b.literals)));
    }
    out
}

/// The first word of a literal, where it is whole: followed by a space.
fn first_word(literal: &str) -> &str {
    literal.split_once(' ').map_or("", |(word, _)| word)
}

fn pattern(english: &str, other: String) -> Pattern {
    let (mut literals, mut gaps) = (vec![], vec![]);
    let mut rest = english;
    while let Some(at) = rest.find('{') {
        let Some(end) = rest[at..].find('}') else { break };
        let Ok(number) = rest[at + 1..at + end].parse() else { break };
        literals.push(rest[..at].to_string());
        gaps.push(number);
        rest = &rest[at + end + 1..];
    }
    literals.push(rest.to_string());
    Pattern { weight: literals.iter().map(|l| l.chars().count()).sum(), literals, gaps, other }
}

impl Pattern {
    /// Where the gaps of a text stand; none where the text is another.
    fn gaps_in(&self, text: &str) -> Option<Vec<(usize, usize)>> {
        let (first, last) = (self.literals.first()?, self.literals.last()?);
        let mut at = first.len();
        let end = text.len().checked_sub(last.len()).filter(|end| *end >= at)?;
        if !text.starts_with(first.as_str()) || !text.ends_with(last.as_str()) {
            return None;
        }
        let mut out = vec![];
        for literal in &self.literals[1..self.literals.len() - 1] {
            let found = text.get(at..end)?.find(literal.as_str())?;
            out.push((at, at + found));
            at += found + literal.len();
        }
        out.push((at, end));
        // A gap holds something, and never the end of a sentence.
        out.iter().all(|(a, b)| a < b && !ends_within(&text[*a..*b])).then_some(out)
    }
}

/// Does a sentence end within, and another begin?
fn ends_within(text: &str) -> bool {
    let begins = |c: char| c.is_uppercase() || names::is_held(c);
    text.match_indices(". ").any(|(at, _)| text[at + 2..].starts_with(begins))
}

/// What stands behind a text that stayed English: its language by ISO 639-1.
pub const MARK: &str = "[en]";

struct Speaker {
    lang: Lang,
    /// Texts that are in the language already.
    done: HashSet<String>,
    known: HashMap<String, String>,
    missing: BTreeSet<String>,
    names: Names,
    /// Stretches of text that were looked up: the work done.
    steps: u64,
}

thread_local! {
    static SPEAKER: RefCell<Option<Speaker>> = const { RefCell::new(None) };
}

/// Does `work` in a language; what had no phrase comes back beside its answer.
pub fn speaking<T>(lang: Lang, work: impl FnOnce() -> T) -> (T, Vec<String>) {
    if lang == Lang::En {
        return (work(), vec![]);
    }
    let speaker = Speaker {
        lang,
        done: HashSet::new(),
        known: HashMap::new(),
        missing: BTreeSet::new(),
        names: Names::default(),
        steps: 0,
    };
    let before = SPEAKER.with(|s| s.borrow_mut().replace(speaker));
    let answer = quantity::with_language(lang, work);
    let spoken = SPEAKER.with(|s| std::mem::replace(&mut *s.borrow_mut(), before));
    (answer, spoken.map_or_else(Vec::new, |s| s.missing.into_iter().collect()))
}

/// The language that is spoken now.
pub fn spoken() -> Lang {
    SPEAKER.with(|s| s.borrow().as_ref().map_or(Lang::En, |s| s.lang))
}

/// A text in the language that is spoken now.
pub fn put(text: &str) -> Cow<'_, str> {
    SPEAKER.with(|s| match s.borrow_mut().as_mut() {
        None => Cow::Borrowed(text),
        Some(s) => s.put(text),
    })
}

/// What a finding says in the language that is spoken now: from its message; where there is none, its English, which
/// is put where it leaves.
pub fn finding(f: &Finding) -> String {
    of_finding(f, str::to_string)
}

/// The same as a sentence: its first letter large, a full stop.
pub fn finding_as_sentence(f: &Finding) -> String {
    of_finding(f, quantity::format::sentence)
}

fn of_finding(f: &Finding, form: impl Fn(&str) -> String) -> String {
    let other = Some(spoken()).filter(|lang| *lang != Lang::En).and_then(|lang| f.said(lang));
    match other {
        // Whole, so nothing of it is looked up.
        Some(text) => names::marked(&form(&text)),
        None => form(&f.sentence),
    }
}

/// A text that stays as a person wrote it, also within another text.
pub fn as_written(text: &str) -> String {
    if spoken() == Lang::En { text.to_string() } else { names::marked(text) }
}

/// Names and texts of people that sentences kept with the record may hold: they stay as they are.
pub fn keep_names<'a>(of: impl IntoIterator<Item = &'a str>) {
    SPEAKER.with(|s| {
        if let Some(s) = s.borrow_mut().as_mut() {
            of.into_iter().for_each(|name| s.names.add(name, reads_as_ordinary));
        }
    });
}

/// Could a name be a number of the report, or a word of its own: one letter, a word or two in small letters, or a word
/// that a phrase begins with?
fn reads_as_ordinary(name: &str) -> bool {
    let letters: Vec<char> = name.chars().collect();
    let is_number = number_at(&letters, 0) == Some(letters.len());
    let small = letters.iter().all(|c| c.is_lowercase() || *c == ' ') && name.split(' ').count() < 3;
    let of_the_table = GERMAN.patterns.contains_key(name) || ENGLISH.contains(&name.to_lowercase().as_str());
    letters.len() == 1 || is_number || small || of_the_table
}

/// Did a text stay English so far?
pub fn is_incomplete() -> bool {
    SPEAKER.with(|s| s.borrow().as_ref().is_some_and(|s| !s.missing.is_empty()))
}

/// Marks texts, such as lines of a broken text, as being in the language already.
pub fn done(texts: &[String]) {
    SPEAKER.with(|s| {
        if let Some(s) = s.borrow_mut().as_mut() {
            s.done.extend(texts.iter().cloned());
        }
    });
}

impl Speaker {
    fn put<'a>(&mut self, text: &'a str) -> Cow<'a, str> {
        if self.done.contains(text) {
            return Cow::Borrowed(text);
        }
        if let Some(known) = self.known.get(text) {
            return Cow::Owned(known.clone());
        }
        let of = Whole::of(text, &self.names);
        let (said, steps) = of.in_german();
        self.steps += steps;
        let out = match said {
            Some(out) => out,
            None if is_source(&of.plain()) => of.plain(),
            None if is_english(&of.norm) => {
                self.missing.insert(names::bare(text));
                format!("{} {MARK}", of.as_it_stands())
            }
            None => of.as_it_stands(),
        };
        let out = names::restored(&out, &of.names);
        self.done.insert(out.clone());
        self.known.insert(text.to_string(), out.clone());
        Cow::Owned(out)
    }
}

/// Words that only an English text has: without one of them, and without a word that has a phrase of its own, a text is a
/// name, a label, a source or a number.
const ENGLISH: [&str; 22] = [
    "the", "of", "is", "are", "and", "with", "not", "no", "were", "by", "to", "from", "at", "on", "for", "that",
    "which", "than", "per", "below", "above", "one",
];

/// Is something of a text English that should not be: no name, label, number or title of a source?
pub fn is_english(text: &str) -> bool {
    let words = || text.split_whitespace().map(|w| w.trim_matches(|c: char| !c.is_alphanumeric()));
    words().any(|w| ENGLISH.contains(&w) || GERMAN.words.contains(w)) && !is_source(text)
}

/// The title of a source, alone: it stays as it is. A sentence that names a source is none.
fn is_source(text: &str) -> bool {
    const MARKS: [&str; 10] =
        ["doi ", "doi:", "ISO ", "EPA/", "J. ", "https://", "USGS ", "JCGM ", "Guidelines for ", "Introduction to "];
    MARKS.iter().any(|m| text.contains(m)) && !text.contains(": ") && !text.ends_with('.') && !ends_within(text)
}

/// Of a source only phrases that are more than a joining word between two names.
const MORE_THAN_JOINING: usize = 9;

/// A text to be put: [`NUMBER`] for each number, a letter for each name, and the numbers and names.
struct Whole {
    norm: String,
    numbers: Vec<String>,
    names: Vec<String>,
}

impl Whole {
    fn of(text: &str, known: &Names) -> Self {
        let written: Vec<char> = text.chars().collect();
        let letters: Vec<char> = written.iter().map(|c| if *c == '\u{a0}' { ' ' } else { *c }).collect();
        let mut out = Self { norm: String::with_capacity(text.len()), numbers: vec![], names: vec![] };
        let mut i = 0;
        while i < letters.len() {
            let name = names::marked_at(&written, i)
                .or_else(|| known.at(&letters, i).map(|n| (written[i..i + n].iter().collect(), n)));
            if let Some(((name, length), letter)) = name.zip(names::letter(out.names.len())) {
                out.names.push(name);
                out.norm.push(letter);
                i += length;
            } else if let Some(end) = number_at(&letters, i) {
                out.numbers.push(letters[i..end].iter().collect());
                out.norm.push(NUMBER);
                i = end;
            } else {
                out.norm.push(letters[i]);
                i += 1;
            }
        }
        out
    }

    /// In German, names still as letters; and how many stretches were looked up for it.
    fn in_german(&self) -> (Option<String>, u64) {
        let work = Work::default();
        let said = Text { norm: &self.norm, numbers: &self.numbers, start: 0 }.in_german(&work);
        (said, work.steps.get())
    }

    fn plain(&self) -> String {
        fill_plain(&self.norm, &self.numbers)
    }

    /// With its numbers as German writes them.
    fn as_it_stands(&self) -> String {
        with_commas(&self.norm, &self.numbers)
    }
}

/// What is known of the stretches of one text, by where they begin and how long they are.
#[derive(Default)]
struct Work {
    put: Known,
    matched: Known,
    steps: Cell<u64>,
}

type Known = RefCell<HashMap<(usize, usize), Option<String>>>;

impl Work {
    /// The answer for a stretch, worked out once.
    fn once(&self, known: &Known, text: Text, work_out: impl FnOnce() -> Option<String>) -> Option<String> {
        let stretch = (text.start, text.norm.len());
        if let Some(known) = known.borrow().get(&stretch) {
            return known.clone();
        }
        self.steps.set(self.steps.get() + 1);
        let said = work_out();
        known.borrow_mut().insert(stretch, said.clone());
        said
    }
}

/// End of a number that begins here: digits, one group of three after a thin space, decimals, an exponent. Digits that
/// belong to a name (SL-2, 2026-07-14 past the year, 14644-1 past the hyphen) are none.
fn number_at(letters: &[char], start: usize) -> Option<usize> {
    let at = |i: usize| letters.get(i).copied();
    let digit = |i: usize| at(i).is_some_and(|c| c.is_ascii_digit());
    let before = start.checked_sub(1).and_then(at);
    let mut i = start;
    if at(i) == Some('-') && digit(i + 1) && before.is_none_or(|c| c == ' ' || c == '(') {
        i += 1;
    } else if before.is_some_and(|c| c.is_alphanumeric() || matches!(c, '_' | '-' | ':' | '.')) {
        return None;
    }
    if !digit(i) {
        return None;
    }
    while digit(i)
        || (at(i) == Some('.') && digit(i + 1))
        || (matches!(at(i), Some('\u{2009}' | '\u{202f}')) && digit(i + 1) && digit(i + 2) && digit(i + 3))
    {
        i += 1;
    }
    if at(i) == Some('e') {
        let sign = usize::from(matches!(at(i + 1), Some('-' | '+' | '−')));
        if digit(i + 1 + sign) {
            i += 1 + sign;
            while digit(i) {
                i += 1;
            }
        }
    }
    // "2,4-D", "3h": the number is part of a name.
    let joined = at(i).is_some_and(|c| c.is_alphabetic() || c == '_');
    (!joined).then_some(i)
}

/// A number as German writes it: a comma for the one point; with more points it is a version or a section.
fn number(of: &str) -> String {
    if of.matches('.').count() == 1 { of.replace('.', ",") } else { of.to_string() }
}

/// A pattern that fits: where its gaps stand, the full stop that was taken off, whether the first letter was large.
type Fitting<'p> = (&'p Pattern, Vec<(usize, usize)>, &'static str, bool);

/// A stretch of a text: its numbers apart, and where it begins.
#[derive(Clone, Copy)]
struct Text<'a> {
    norm: &'a str,
    numbers: &'a [String],
    start: usize,
}

impl Text<'_> {
    /// A piece of the text.
    fn part(self, from: usize, to: usize) -> Self {
        let count = |t: &str| t.matches(NUMBER).count();
        let skip = count(&self.norm[..from]);
        let take = count(&self.norm[from..to]);
        Text { norm: &self.norm[from..to], numbers: &self.numbers[skip..skip + take], start: self.start + from }
    }

    /// The text with its numbers as German writes them.
    fn as_it_stands(self) -> String {
        with_commas(self.norm, self.numbers)
    }

    /// In German, or as it stands where nothing of it is English.
    fn said(self, work: &Work) -> Option<String> {
        self.in_german(work).or_else(|| self.same_everywhere())
    }

    /// A source, a name, a number: nothing that wants a phrase.
    fn same_everywhere(self) -> Option<String> {
        if self.is_source() {
            return Some(fill_plain(self.norm, self.numbers));
        }
        (!is_english(self.norm)).then(|| self.as_it_stands())
    }

    fn in_german(self, work: &Work) -> Option<String> {
        if !self.norm.chars().any(char::is_alphabetic) {
            return Some(self.as_it_stands());
        }
        work.once(&work.put, self, || {
            let core = self.norm.trim();
            if core.len() != self.norm.len() {
                let start = self.norm.len() - self.norm.trim_start().len();
                let said = self.part(start, start + core.len()).in_german(work)?;
                return Some(format!("{}{said}{}", &self.norm[..start], &self.norm[start + core.len()..]));
            }
            let source = self.is_source();
            self.phrase(work).or_else(|| (!source).then(|| self.sentences(work).or_else(|| self.list(work))).flatten())
        })
    }

    fn is_source(self) -> bool {
        is_source(&fill_plain(self.norm, self.numbers))
    }

    fn phrase(self, work: &Work) -> Option<String> {
        self.whole().or_else(|| self.matched(work))
    }

    /// A whole phrase, with a small or a large first letter, with or without its full stop.
    fn whole(self) -> Option<String> {
        let of = |norm: &str| {
            let direct = GERMAN.whole.get(norm).cloned();
            direct.or_else(|| norm.strip_suffix('.').and_then(|n| GERMAN.whole.get(n)).map(|t| format!("{t}.")))
        };
        let found = of(self.norm).or_else(|| of(&small(self.norm)?).map(|t| quantity::format::capital(&t)))?;
        Some(fill(&found, &mut self.numbers.iter(), &[]))
    }

    fn matched(self, work: &Work) -> Option<String> {
        work.once(&work.matched, self, || self.match_anew(work))
    }

    fn match_anew(self, work: &Work) -> Option<String> {
        // As it stands, without its full stop, with a small first letter.
        let mut subjects = vec![(self.norm.to_string(), "", false)];
        subjects.extend(self.norm.strip_suffix('.').map(|t| (t.to_string(), ".", false)));
        for k in 0..subjects.len() {
            subjects.extend(small(&subjects[k].0).map(|t| (t, subjects[k].1, true)));
        }
        let mut fitting: Vec<Fitting> = vec![];
        for (subject, stop, large) in &subjects {
            let groups = [first_word(subject), ""];
            let groups = if *large || groups[0].is_empty() { &groups[..1] } else { &groups[..] };
            let patterns = groups.iter().flat_map(|g| GERMAN.patterns.get(*g).into_iter().flatten());
            fitting.extend(patterns.filter_map(|p| Some((p, p.gaps_in(subject)?, *stop, *large))));
        }
        let least = if self.is_source() { MORE_THAN_JOINING } else { 0 };
        fitting.retain(|f| f.0.weight >= least);
        fitting.sort_by_key(|f| std::cmp::Reverse(f.0.weight));
        fitting.into_iter().find_map(|(p, gaps, stop, large)| {
            let said = self.filled(p, &gaps, work)?;
            Some(if large { quantity::format::capital(&said) } else { said } + stop)
        })
    }

    fn filled(self, p: &Pattern, gaps: &[(usize, usize)], work: &Work) -> Option<String> {
        let mut said = vec![];
        let mut own = vec![];
        let mut at = 0;
        for ((from, to), name) in gaps.iter().zip(&p.gaps) {
            own.extend(self.part(at, *from).numbers);
            said.push((*name, self.part(*from, *to).said(work)?));
            at = *to;
        }
        own.extend(self.part(at, self.norm.len()).numbers);
        Some(fill(&p.other, &mut own.into_iter(), &said))
    }

    /// Sentence by sentence: the longest piece that is a phrase, then the next.
    fn sentences(self, work: &Work) -> Option<String> {
        let ends: Vec<usize> = self
            .norm
            .match_indices(' ')
            .map(|m| m.0)
            .filter(|at| matches!(self.norm[..*at].chars().next_back(), Some('.' | ':' | ';' | '?' | '·' | ',')))
            .collect();
        if ends.is_empty() {
            return None;
        }
        let mut out = String::new();
        let mut from = 0;
        while from < self.norm.len() {
            let pieces = ends.iter().copied().filter(|e| *e > from).chain([self.norm.len()]);
            let mut pieces: Vec<usize> = pieces.collect();
            pieces.reverse();
            if from == 0 {
                // The whole was tried before.
                pieces.remove(0);
            }
            let found = pieces.iter().find_map(|to| Some((*to, self.piece(from, *to, work)?)));
            let (to, said) = if let Some(found) = found {
                found
            } else {
                let to = *pieces.last()?;
                let part = self.part(from, to);
                (to, part.whole().or_else(|| part.same_everywhere())?)
            };
            if from > 0 {
                out.push(' ');
            }
            out += &said;
            from = to + 1;
        }
        Some(out)
    }

    /// A piece up to a sign that ends it, with that sign or without.
    fn piece(self, from: usize, to: usize, work: &Work) -> Option<String> {
        let part = self.part(from, to);
        let sign = part.norm.chars().next_back().filter(|c| matches!(c, ':' | ';' | ',' | '?'));
        part.whole()
            .or_else(|| {
                let sign = sign?;
                let said = part.part(0, part.norm.len() - sign.len_utf8()).phrase(work)?;
                Some(format!("{said}{sign}"))
            })
            .or_else(|| part.matched(work))
    }

    /// Names set apart by commas, each with its phrase or the same everywhere.
    fn list(self, work: &Work) -> Option<String> {
        let mut ends: Vec<usize> = self.norm.match_indices(", ").map(|m| m.0).collect();
        if ends.is_empty() {
            return None;
        }
        ends.push(self.norm.len());
        let mut from = 0;
        let mut out = vec![];
        for end in ends {
            out.push(self.part(from, end).said(work)?);
            from = (end + 2).min(self.norm.len());
        }
        Some(out.join(", "))
    }
}

/// With a small first letter, where it had a large one. Of a letter that grows or shrinks by it there is none: gaps found
/// in the one text are those of the other.
fn small(text: &str) -> Option<String> {
    let mut chars = text.chars();
    let first = chars.next().filter(|c| c.is_uppercase())?;
    let out: String = first.to_lowercase().chain(chars).collect();
    (out.len() == text.len()).then_some(out)
}

/// A phrase with its numbers and gaps filled.
fn fill<'n>(phrase: &str, numbers: &mut impl Iterator<Item = &'n String>, gaps: &[(usize, String)]) -> String {
    let mut out = String::with_capacity(phrase.len() + 32);
    let mut chars = phrase.chars().peekable();
    while let Some(c) = chars.next() {
        if c == '#' {
            out += &numbers.next().map_or_else(|| c.to_string(), |n| number(n));
        } else if c == '{' {
            let name: String = std::iter::from_fn(|| chars.next_if(|c| *c != '}')).collect();
            chars.next();
            let said = name.parse().ok().and_then(|n: usize| gaps.iter().find(|g| g.0 == n));
            out += said.map_or("", |g| g.1.as_str());
        } else {
            out.push(c);
        }
    }
    out
}

/// The text as it was.
fn fill_plain(norm: &str, numbers: &[String]) -> String {
    with_numbers(norm, numbers, str::to_string)
}

/// The text with its numbers as German writes them. A brace in it is a brace, no gap.
fn with_commas(norm: &str, numbers: &[String]) -> String {
    with_numbers(norm, numbers, number)
}

fn with_numbers(norm: &str, numbers: &[String], as_written: fn(&str) -> String) -> String {
    let mut numbers = numbers.iter();
    let mut out = String::with_capacity(norm.len() + 32);
    for c in norm.chars() {
        if c == NUMBER {
            out += &numbers.next().map_or_else(String::new, |n| as_written(n));
        } else {
            out.push(c);
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn german(text: &str) -> String {
        speaking(Lang::De, || put(text).into_owned()).0
    }

    #[test]
    fn numbers_have_a_comma_and_versions_do_not() {
        assert_eq!(german("1.057 ± 0.074 ng/L"), "1,057 ± 0,074 ng/L");
        assert_eq!(german("1.2.3, doi 10.5066/P9"), "1.2.3, doi 10.5066/P9");
        assert_eq!(german("SL-2 2026-07-14"), "SL-2 2026-07-14");
    }

    #[test]
    fn a_gap_is_put_into_the_language_in_its_turn() {
        assert_eq!(
            german("SL-2 holds at least 2.3 times less lead than SL-1."),
            "SL-2 enthält mindestens 2,3-mal weniger Blei als SL-1."
        );
        assert_eq!(german("Lead at SL-2"), "Blei in SL-2");
        assert_eq!(
            german("Over: quartz and calcite. Cannot tell: galena."),
            "Übersättigt: Quarz und Calcit. Nicht entscheidbar: Bleiglanz."
        );
    }

    #[test]
    fn in_english_every_text_passes_untouched() {
        assert!(matches!(put("The numbers"), Cow::Borrowed("The numbers")));
        let (said, missing) = speaking(Lang::En, || put("2.5 of nothing").into_owned());
        assert_eq!((said.as_str(), missing.len()), ("2.5 of nothing", 0));
    }

    #[test]
    fn what_has_no_phrase_stays_and_is_told() {
        let (said, missing) = speaking(Lang::De, || put("a heron of 2.5 kg was seen").into_owned());
        assert_eq!(said, format!("a heron of 2,5 kg was seen {MARK}"));
        assert_eq!(missing, ["a heron of 2.5 kg was seen"]);
    }

    /// Stretches that were looked up for a text, and its words.
    fn work(text: &str) -> (u64, u64) {
        let words = text.split(' ').count() as u64;
        (
            speaking(Lang::De, || {
                (put(text).into_owned(), SPEAKER.with(|s| s.borrow().as_ref().map_or(0, |s| s.steps)))
            })
            .0
            .1,
            words,
        )
    }

    /// Each item fits a dozen phrases, with the rest of the text in their gaps, and the last gap has no phrase, so that all
    /// ways are tried. Counted in look-ups: seven items took 948,070 of them, eight 1,843,500.
    #[test]
    fn phrases_within_phrases_were_tried_again_in_every_way_they_could_be_reached() {
        for items in [2, 7, 14, 28] {
            let item = |i| format!("well, heron: over pond {i}x and the reed");
            let text = (0..items).map(item).collect::<Vec<_>>().join("; ");
            let (steps, words) = work(&text);
            assert!(steps > words / 2, "the text is looked up at all: {steps} for {words} words");
            // Stretches that begin and end at a word, each once for its phrase and once for its patterns.
            assert!(steps <= words * (words + 1), "{steps} look-ups for {words} words");
        }
        // Twice the items, about twice the look-ups: the stretches that phrases reach are few.
        let of = |items: u32| {
            work(
                &(0..items).map(|i| format!("well, heron: over pond {i}x and the reed")).collect::<Vec<_>>().join("; "),
            )
            .0
        };
        assert!(of(28) < 3 * of(14), "{} against {}", of(28), of(14));
    }

    #[test]
    fn a_brace_in_a_text_was_taken_for_a_gap() {
        assert_eq!(german("SL-2 {1} 2.5"), "SL-2 {1} 2,5");
    }

    #[test]
    fn a_letter_that_grows_when_it_is_made_small_shifted_the_gaps() {
        // U+0130 is two bytes, its small form three.
        assert!(german("\u{130}dil at the pond and the reed").contains("dil"));
    }
}
