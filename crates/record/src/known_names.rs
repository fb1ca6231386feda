//! Names of one kind that are known, of which many new ones are asked: which may each be a slip of?
//!
//! The answer is that of [`nearest`] held beside every known name, without holding each beside each. Whatever the rules of
//! [`near`](crate::near) call near either
//! * shares a key: the same label whatever the order of letters in a word, a thing that both go by, the same words of a
//!   person in another order; or
//! * has the same digits and signs and, in letters, at most two put in, taken out, changed or swapped. Then the lengths
//!   differ by two at most and the counts of the letters by four at most: each of the two takes one letter away, brings
//!   one, or both.
//!
//! Only what passes one of the two is held beside the new name.
//! Checked below against the plain way.

use crate::near::{Names, Parts, Water, digits, nearest, series, words_of};
use crate::other_names::{self, Kind};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// Letters that may be amiss between two names, at most.
const AMISS: usize = 2;

/// Bits of [`counts`] in which names with so many letters amiss may differ: a change takes one letter away and brings one.
const BITS: u32 = 2 * AMISS as u32;

/// Classes of letters, and how far each is counted: together the bits of [`counts`].
const CLASSES: u32 = 32;
const COUNTED: u32 = 4;

/// Names of one kind that are known.
#[derive(Debug, Clone, Default)]
pub struct Known {
    kind: Option<Names>,
    all: HashSet<String>,
    /// In the order in which they came.
    names: Vec<String>,
    by_key: HashMap<String, Vec<usize>>,
    /// By digits and signs, then by the number of letters: counts of the letters, place of the name.
    by_letters: HashMap<String, BTreeMap<usize, Vec<(u128, usize)>>>,
}

/// What names that may be near have in common.
#[derive(Default)]
struct Marks {
    keys: Vec<String>,
    /// Digits and signs, letters: as the name is written, then as other names of the same thing are.
    forms: Vec<(String, String)>,
}

impl Marks {
    fn of(kind: Names, name: &str) -> Self {
        match kind {
            Names::Labels => Self { keys: vec![signs(name)], forms: vec![] },
            Names::Places => Self { keys: vec![signs(name)], forms: vec![form(&Parts::of(name))] },
            Names::People => Self::of_person(name),
            Names::Analytes => Self::of_thing(Kind::Analyte, name),
            Names::Quantities => Self::of_thing(Kind::Quantity, name),
            Names::Fractions => {
                let mut out = Self::of_thing(Kind::Fraction, name);
                let water = Water::of(name);
                out.keys = if water == Water::Other { vec![] } else { vec![format!("{water:?}")] };
                out
            }
        }
    }

    fn of_thing(kind: Kind, name: &str) -> Self {
        let (parts, things) = (Parts::of(name), other_names::things(kind, name));
        let by_words = other_names::things(kind, &parts.words.join(" "));
        let hard = form(&parts).0;
        let keys =
            things.iter().map(usize::to_string).chain(by_words.iter().map(|at| format!("{at} {hard}"))).collect();
        let others = other_names::names(&things).map(|n| form(&Parts::of(n)));
        let forms = std::iter::once(form(&parts)).chain(others).collect();
        Self { keys, forms }
    }

    fn of_person(name: &str) -> Self {
        let mut words = words_of(name);
        let mut keys = vec![format!("letters {}", words.concat())];
        let forms = vec![(digits(&words), words.join(" "))];
        // "M. Osk" and Marit Osk.
        if let [first, rest @ ..] = &words[..]
            && !rest.is_empty()
        {
            keys.push(format!("begins {} {}", first.chars().take(1).collect::<String>(), rest.join(" ")));
        }
        words.sort_unstable();
        keys.push(format!("words {}", words.join(" ")));
        Self { keys, forms }
    }
}

/// What tells two things apart, and the letters.
fn form(parts: &Parts) -> (String, String) {
    (parts.hard.join("\u{1f}"), parts.letters())
}

/// How often each letter stands in a text: for each class of letters as many bits as there are of it, four at most. One
/// letter more or less changes one bit, or none.
fn counts(letters: &str) -> u128 {
    let mut out = 0_u128;
    for c in letters.chars() {
        let first = u32::from(c) % CLASSES * COUNTED;
        let free = (first..first + COUNTED).find(|bit| out >> bit & 1 == 0);
        out |= free.map_or(0, |bit| 1 << bit);
    }
    out
}

impl Known {
    /// None yet.
    pub fn new(kind: Names) -> Self {
        Self { kind: Some(kind), ..Self::default() }
    }

    /// Adds a name.
    pub fn add(&mut self, name: &str) {
        let Some(kind) = self.kind else { return };
        if !self.all.insert(name.to_string()) {
            return;
        }
        let (at, marks) = (self.names.len(), Marks::of(kind, name));
        self.names.push(name.to_string());
        for key in marks.keys {
            self.by_key.entry(key).or_default().push(at);
        }
        for (hard, letters) in marks.forms {
            let of_length = self.by_letters.entry(hard).or_default().entry(letters.chars().count()).or_default();
            of_length.push((counts(&letters), at));
        }
    }

    /// Whether it is known as it is written.
    pub fn has(&self, name: &str) -> bool {
        self.all.contains(name)
    }

    /// Whether none is known.
    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// The known names that a new one may stand for, as [`nearest`] says of all of them.
    pub fn nearest(&self, new: &str) -> Vec<&str> {
        let Some(kind) = self.kind.filter(|_| !self.has(new)) else { return vec![] };
        let marks = Marks::of(kind, new);
        let mut maybe: BTreeSet<usize> =
            marks.keys.iter().filter_map(|k| self.by_key.get(k)).flatten().copied().collect();
        // The name as it is written; by another name of the same thing only what is known is looked for.
        if let Some((hard, letters)) = marks.forms.first()
            && let Some(by_length) = self.by_letters.get(hard)
        {
            let (length, own) = (letters.chars().count(), counts(letters));
            let beside = by_length.range(length.saturating_sub(AMISS)..=length + AMISS).flat_map(|(_, names)| names);
            maybe.extend(beside.filter(|(theirs, _)| (own ^ theirs).count_ones() <= BITS).map(|(_, at)| *at));
        }
        nearest(kind, new, maybe.into_iter().map(|at| self.names[at].as_str()))
    }
}

/// The signs of a label in order, those of each word sorted.
fn signs(label: &str) -> String {
    let label = series(label);
    let mut out: Vec<char> = vec![];
    let mut word: Vec<char> = vec![];
    for c in label.chars() {
        if c.is_alphabetic() {
            word.push(c);
        } else {
            word.sort_unstable();
            out.append(&mut word);
            out.push(c);
        }
    }
    word.sort_unstable();
    out.append(&mut word);
    out.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::strategy::ValueTree as _;
    use proptest::test_runner::TestRunner;

    const KINDS: [Names; 6] =
        [Names::Analytes, Names::Fractions, Names::Quantities, Names::Labels, Names::Places, Names::People];

    /// Names as they are met, of all kinds, among them other names of one thing; random ones are made of them.
    const MET: &[&str] = &[
        "Pb",
        "Blei",
        "lead",
        "208Pb",
        "Cr(VI)",
        "Chrom(VI)",
        "chromium",
        "SO4",
        "sulphate",
        "Sulfit",
        "atrazine",
        "trichloroethene",
        "dimethyl phthalate",
        "gamma-HCH",
        "lindane",
        "NO3-N",
        "nitrate as N",
        "conductivity",
        "Leitfähigkeit",
        "temperature",
        "air temperature",
        "pH",
        "dissolved oxygen",
        "unfiltered",
        "ungefiltert",
        "0.45 um",
        "450 nm",
        "filtered 0.45 µm",
        "through membrane",
        "SL2-26-07-A",
        "SLA-BLANK-1",
        "WK0-1",
        "Wk 1",
        "Brunnen Erlengrund 1",
        "Brunnen II",
        "Westbrunnen",
        "Suedbrunnen",
        "Sallow Spring by the mill",
        "Marit Osk",
        "M. Osk",
        "Osk, Marit",
        "Ada Maria Lund",
        "Sampler 12",
        "Müller",
        "",
    ];

    /// One to three of them in a row, up to three letters put in, taken out, changed or swapped.
    fn name() -> impl Strategy<Value = String> {
        let parts = proptest::collection::vec(proptest::sample::select(MET), 1..3);
        let edits = proptest::collection::vec((0..5_u8, 0..40_usize, "[a-eA-Eäöß0-2IV .(_-]"), 0..4);
        (parts, edits).prop_map(|(parts, edits)| {
            let mut out: Vec<char> = parts.join(" ").chars().collect();
            for (what, at, letter) in edits {
                let (at, letter) = (at % (out.len() + 1), letter.chars().next().unwrap());
                match what {
                    0 => out.insert(at, letter),
                    1 if at < out.len() => drop(out.remove(at)),
                    2 if at < out.len() => out[at] = letter,
                    3 if at + 1 < out.len() => out.swap(at, at + 1),
                    _ => {}
                }
            }
            out.into_iter().collect()
        })
    }

    #[test]
    fn what_is_near_is_what_is_near_of_each_beside_each() {
        let mut runner = TestRunner::deterministic();
        let mut random =
            |n: usize| -> Vec<String> { (0..n).map(|_| name().new_tree(&mut runner).unwrap().current()).collect() };
        let (names, new) = (random(500), random(250));
        for kind in KINDS {
            let mut known = Known::new(kind);
            for n in &names {
                known.add(n);
            }
            let mut met = 0;
            for n in &new {
                let plain = nearest(kind, n, names.iter().map(String::as_str));
                assert_eq!(known.nearest(n), plain, "{kind:?} {n:?}");
                met += usize::from(!plain.is_empty());
            }
            // Names that are near to none would agree by doing nothing.
            assert!(met > 10, "{kind:?} {met}");
        }
    }

    #[test]
    fn one_letter_changes_one_bit_of_the_counts_at_most() {
        assert_eq!(counts(""), 0);
        assert_eq!((counts("erle") ^ counts("erlen")).count_ones(), 1);
        assert_eq!((counts("erle") ^ counts("erla")).count_ones(), 2);
        assert_eq!(counts("eeee"), counts("eeeee"));
        assert_eq!(counts("erle"), counts("leer"));
    }
}
