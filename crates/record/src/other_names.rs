//! Other names of what the record names: the elements in English and German, ions and quantities as people write them.
//!
//! In: a name. Out: which things go by it, as numbers that are equal where two names are one thing. The rows are those of
//! `reference/element_names.csv`, `reference/other_names.csv` and `reference/compounds.csv`, with their provenance there.
//! A thing is found by its name as written, else by the name in whatever case, with or without spaces and hyphens: "CO" is
//! carbon monoxide and never cobalt, "co" may be either.
//!
//! What it does not do: it knows no misspelling ([`near`](crate::near) does) and turns no name into another.

use crate::near::folded;
use serde::Deserialize;
use std::collections::{BTreeSet, HashMap};
use std::sync::LazyLock;

/// What a name may be of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Element, compound or measured quantity of a result.
    Analyte,
    /// What of the water was measured.
    Fraction,
    /// What is read at a well.
    Quantity,
}

#[derive(Deserialize)]
struct Element {
    symbol: String,
    english: String,
    german: String,
    #[serde(rename = "other_names")]
    others: String,
    in_water: String,
}

#[derive(Deserialize)]
struct Other {
    kind: Kind,
    name: String,
    #[serde(rename = "other_names")]
    others: String,
}

#[derive(Deserialize)]
struct Compound {
    name: String,
    #[serde(rename = "other_names")]
    others: String,
}

/// One thing: all of its names, the one that this program writes first.
struct Thing {
    kind: Kind,
    /// Of a list of organic compounds.
    compound: bool,
    names: Vec<String>,
}

struct Table {
    things: Vec<Thing>,
    written: HashMap<(Kind, String), usize>,
    folded: HashMap<(Kind, String), BTreeSet<usize>>,
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let mut out = Table { things: vec![], written: HashMap::new(), folded: HashMap::new() };
    for e in rows::<Element>(include_str!("../../../reference/element_names.csv")) {
        let names = [e.english, e.german].into_iter().chain(several(&e.others));
        if e.in_water == "element" {
            out.add(Kind::Analyte, std::iter::once(e.symbol).chain(names).collect());
        }
    }
    for o in rows::<Other>(include_str!("../../../reference/other_names.csv")) {
        out.add(o.kind, std::iter::once(o.name).chain(several(&o.others)).collect());
    }
    for c in rows::<Compound>(include_str!("../../../reference/compounds.csv")) {
        let at = out.add(Kind::Analyte, std::iter::once(c.name).chain(several(&c.others)).collect());
        out.things[at].compound = true;
    }
    out
});

fn rows<T: serde::de::DeserializeOwned>(text: &'static str) -> Vec<T> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    reader.deserialize().collect::<Result<_, _>>().expect("a table of names is well formed")
}

fn several(text: &str) -> impl Iterator<Item = String> {
    text.split(['|', ';']).filter(|n| !n.is_empty()).map(str::to_string)
}

impl Table {
    /// Adds a thing; names that stand in two tables (a compound that is an ion) are one thing.
    fn add(&mut self, kind: Kind, names: Vec<String>) -> usize {
        let known = names.iter().find_map(|n| self.written.get(&(kind, n.clone()))).copied();
        let at = known.unwrap_or_else(|| {
            self.things.push(Thing { kind, compound: false, names: vec![] });
            self.things.len() - 1
        });
        for name in names {
            self.folded.entry((kind, folded(&name))).or_default().insert(at);
            self.written.insert((kind, name.clone()), at);
            if !self.things[at].names.contains(&name) {
                self.things[at].names.push(name);
            }
        }
        at
    }
}

/// The things that go by this name: by the name as written where one does, else in whatever case and spacing.
pub(crate) fn things(kind: Kind, name: &str) -> BTreeSet<usize> {
    if let Some(at) = TABLE.written.get(&(kind, name.to_string())) {
        return [*at].into();
    }
    TABLE.folded.get(&(kind, folded(name))).cloned().unwrap_or_default()
}

/// Whether they are organic compounds: their lists may hold one under two names, each with its own limit, and what is
/// said of a list counts it once by its CAS number.
pub(crate) fn are_compounds(things: &BTreeSet<usize>) -> bool {
    things.iter().all(|at| TABLE.things[*at].compound)
}

/// All names of these things.
pub(crate) fn names(things: &BTreeSet<usize>) -> impl Iterator<Item = &'static str> {
    things.iter().flat_map(|at| TABLE.things[*at].names.iter().map(String::as_str))
}

/// The name by which this program writes a thing; none where no thing, or more than one, goes by the name.
pub fn written_here(kind: Kind, name: &str) -> Option<&'static str> {
    let found = things(kind, name);
    let mut all = found.iter();
    let (Some(at), None) = (all.next(), all.next()) else { return None };
    TABLE.things[*at].names.first().map(String::as_str)
}

/// Names of a kind as this program writes them.
pub fn all_written_here(kind: Kind) -> impl Iterator<Item = &'static str> {
    TABLE.things.iter().filter(move |t| t.kind == kind).filter_map(|t| t.names.first().map(String::as_str))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_name_is_of_two_things_as_written() {
        let mut seen: HashMap<(Kind, &str), usize> = HashMap::new();
        for (at, thing) in TABLE.things.iter().enumerate() {
            for name in &thing.names {
                assert_eq!(*seen.entry((thing.kind, name)).or_insert(at), at, "{name}");
            }
        }
        // The elements are 118 (IUPAC 2016).
        assert_eq!(rows::<Element>(include_str!("../../../reference/element_names.csv")).len(), 118);
    }

    #[test]
    fn a_name_in_either_language_is_the_symbol() {
        for (name, symbol) in [
            ("Blei", Some("Pb")),
            ("lead", Some("Pb")),
            ("LEAD", Some("Pb")),
            ("Chlorid", Some("Cl")),
            ("Chlor", Some("free chlorine")),
            ("Kalium-40", None),
            ("CO", Some("CO")),
            ("Co", Some("Co")),
            ("co", None),
        ] {
            assert_eq!(written_here(Kind::Analyte, name), symbol, "{name}");
        }
    }
}
