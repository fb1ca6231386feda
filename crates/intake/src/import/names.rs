//! Names that files bring: which are on record, which a person agreed to read as another, which may be a slip, which are
//! new.
//!
//! In: a name, what it is of, what a person agreed ([`Agreed`]), what was agreed before for files of the same mapping, which
//! names on record were made one. Out: the name to write, or a refusal with the nearest on record. What was agreed with an
//! import is kept with its act and, for the mapping, in the table `same_name`: the next file of the mapping is read so too,
//! and each time it is told. Nothing is ever read as another name without a person's word; what is near is decided in
//! [`record::near`].
//!
//! A name with no neighbour is new and is told where its kind was on record before. Typed rows (`Manner::Typed`) are
//! refused for no new name: who types one is told of its neighbour.
//! Checked in `tests/import_names.rs`.

use super::fault::{Collector, fault, quoted};
use message::{Arg, Message, Name, count, expected, intake as says};
use quantity::{Check, Finding, Outcome};
use record::known_names::Known;
use record::model::SameName;
use record::near::Names;
use record::other_names::{self, Kind as Thing};
use record::schema::{self, Column, Kind, TABLES, Table};
use record::store::{Act, Cell, Filter, NamedCells, StoreError};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// Tables whose rows a file may make by a new name that is asked about.
const ASKED: [&str; 3] = ["well", "person", "bottle"];

/// New names that a note lists.
const LISTED: usize = 12;

/// What a person said of names in the files of one import.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Agreed {
    /// Name as written, name on record that it stands for.
    pub take: Vec<(String, String)>,
    /// Names that are meant as new.
    pub new: Vec<String>,
}

impl Agreed {
    /// From words as `Blei=Pb`, parted at the last sign =.
    ///
    /// # Errors
    /// The word that has no name before or after its sign.
    pub fn parse(take: &[String], new: &[String]) -> Result<Self, String> {
        let part = |word: &String| {
            let (written, taken) = word.rsplit_once('=').ok_or_else(|| word.clone())?;
            let (written, taken) = (written.trim(), taken.trim());
            let whole = !written.is_empty() && !taken.is_empty();
            whole.then(|| (written.to_string(), taken.to_string())).ok_or_else(|| word.clone())
        };
        Ok(Self { take: take.iter().map(part).collect::<Result<_, _>>()?, new: new.to_vec() })
    }

    fn names(&self) -> impl Iterator<Item = &String> {
        self.take.iter().map(|(written, _)| written).chain(&self.new)
    }
}

/// A new name and the names on record that may be meant.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct Proposal {
    /// As the file writes it.
    pub written: String,
    /// On record, nearest first.
    pub near: Vec<String>,
    /// Whether it can be taken as new: not so where a row of another table is named.
    pub may_be_new: bool,
}

/// The proposals among the faults of files, each name once.
pub fn proposals(faults: &[Finding]) -> Vec<Proposal> {
    let mut out: Vec<Proposal> = vec![];
    for f in faults.iter().filter(|f| f.check == Check::FileReference) {
        let Some((written, near, may_be_new)) = f.message.as_ref().and_then(proposal) else { continue };
        if out.iter().all(|p| p.written != written) {
            out.push(Proposal { written, near, may_be_new });
        }
    }
    out
}

fn proposal(fault: &Message) -> Option<(String, Vec<String>, bool)> {
    let message = |m: &Message, name| match m.arg(name) {
        Some(Arg::Message(m)) => Some(m.clone()),
        _ => None,
    };
    let expected = message(fault, "expected")?;
    let may_be_new = expected.is::<expected::NameMeant>();
    let Some(Arg::List(near)) = expected.arg("near") else { return None };
    let found = message(fault, "found")?;
    let Some(Arg::Name(Name(written))) = found.arg("name") else { return None };
    let near = near.iter().filter_map(|a| if let Arg::Name(Name(n)) = a { Some(n.clone()) } else { None }).collect();
    Some((written.clone(), near, may_be_new))
}

/// What a name is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Of {
    Analyte,
    Fraction,
    Quantity,
    /// A row of a table with one name.
    Row(&'static Table),
}

impl Of {
    /// What a column of a table names; none where nobody asks.
    pub fn column(table: &'static Table, column: &Column) -> Option<Self> {
        match (column.kind, column.name) {
            (Kind::Text, "analyte") => Some(Self::Analyte),
            (Kind::Text, "name") if table.name == "compound" => Some(Self::Analyte),
            (Kind::Text, "fraction") => Some(Self::Fraction),
            (Kind::Text, "quantity") => Some(Self::Quantity),
            (Kind::Text, name) if table.key == [name] && ASKED.contains(&table.name) => Some(Self::Row(table)),
            (Kind::Row(other), _) => Self::row(schema::table(other)?),
            _ => None,
        }
    }

    /// A row of a table that goes by one name.
    pub fn row(table: &'static Table) -> Option<Self> {
        let [name] = table.key else { return None };
        (table.column(name)?.kind == Kind::Text).then_some(Self::Row(table))
    }

    /// As the record writes it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Analyte => "analyte",
            Self::Fraction => "fraction",
            Self::Quantity => "quantity",
            Self::Row(table) => table.name,
        }
    }

    /// With its article.
    pub fn one(self) -> Message {
        match self {
            Self::Row(table) => super::words::one_of(table),
            _ => Message::named("name_kind", self.word()).expect("every kind of name has a word"),
        }
    }

    /// By which rules such names are near.
    pub fn names(self) -> Names {
        match self {
            Self::Analyte => Names::Analytes,
            Self::Fraction => Names::Fractions,
            Self::Quantity => Names::Quantities,
            Self::Row(table) => match table.name {
                "person" => Names::People,
                "bottle" | "aliquot" | "trip" | "run" => Names::Labels,
                _ => Names::Places,
            },
        }
    }

    /// Columns of the record in which such names stand.
    pub fn columns(self) -> Vec<(&'static Table, &'static str)> {
        if let Self::Row(table) = self {
            return vec![(table, table.key[0])];
        }
        let of = |t: &'static Table| {
            t.columns.iter().filter(move |c| Self::column(t, c) == Some(self)).map(move |c| (t, c.name))
        };
        TABLES.iter().flat_map(of).collect()
    }
}

/// How names that are not on record are met.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Manner {
    /// A file: a new name with a neighbour is refused.
    File,
    /// Typed rows: a new name with a neighbour is taken, and told.
    Typed,
}

/// What is written of a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Read {
    /// As it stands.
    Same,
    /// As another name.
    As(String),
    /// Nothing: it was refused.
    Refused,
}

/// Why a name was read as another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Word {
    /// A person agreed to it with this act.
    Now,
    /// A person agreed to it before, for files of the mapping.
    Before,
    /// Two names on record were made one.
    OneName,
}

/// A name that was read as another.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct TakenAs {
    /// What it names: analyte, fraction, quantity, or a table.
    pub kind: &'static str,
    /// As written.
    pub written: String,
    /// As on record.
    pub taken: String,
    /// By whose word.
    pub word: Word,
}

/// The names of the files of one act.
pub(crate) struct Naming<'a> {
    agreed: &'a Agreed,
    manner: Manner,
    /// What was said of names before this act, the newest last.
    before: Option<Vec<SameName>>,
    known: BTreeMap<&'static str, Known>,
    /// Kinds of which names were on record before this act.
    on_record: BTreeSet<&'static str>,
    met: BTreeSet<String>,
    /// The rest is of the file at hand.
    mapping: String,
    read: HashMap<(&'static str, String), Read>,
    taken: Vec<(Of, TakenAs)>,
    new: BTreeMap<&'static str, (Of, Vec<String>)>,
    notes: Vec<Message>,
}

impl<'a> Naming<'a> {
    pub fn new(agreed: &'a Agreed, manner: Manner) -> Self {
        Self {
            agreed,
            manner,
            before: None,
            known: BTreeMap::new(),
            on_record: BTreeSet::new(),
            met: BTreeSet::new(),
            mapping: String::new(),
            read: HashMap::new(),
            taken: vec![],
            new: BTreeMap::new(),
            notes: vec![],
        }
    }

    /// Before each file.
    pub fn begin(&mut self, mapping: &str) {
        self.mapping = mapping.into();
        self.read.clear();
        self.taken.clear();
        self.new.clear();
        self.notes.clear();
    }

    /// What is written of a name that a file brings; where it may be a slip, the fault goes to the collector, once.
    pub fn read(
        &mut self,
        act: &mut Act,
        of: Of,
        name: &str,
        out: &mut Collector,
        at: (Option<u64>, &str),
    ) -> Result<Read, StoreError> {
        let key = (of.word(), name.to_string());
        if let Some(known) = self.read.get(&key) {
            return Ok(known.clone());
        }
        let read = if name.is_empty() { Read::Same } else { self.decide(act, of, name, out, at)? };
        self.read.insert(key, read.clone());
        Ok(read)
    }

    fn decide(
        &mut self,
        act: &mut Act,
        of: Of,
        name: &str,
        out: &mut Collector,
        (row, column): (Option<u64>, &str),
    ) -> Result<Read, StoreError> {
        if let Some(taken) = self.said_before(act, of, name, false)? {
            return Ok(self.take(of, name, taken, Word::OneName));
        }
        // The record knows its rows by name without a list of them all.
        if let Of::Row(table) = of
            && act.find(table.name, &[name.into()])?.is_some()
        {
            return Ok(Read::Same);
        }
        self.load(act, of)?;
        if self.known[of.word()].has(name) {
            return Ok(Read::Same);
        }
        if let Some((_, taken)) = self.agreed.take.iter().find(|(written, _)| written == name) {
            self.met.insert(name.into());
            let own = of == Of::Analyte && other_names::written_here(Thing::Analyte, taken) == Some(taken.as_str());
            if own || self.known[of.word()].has(taken) {
                let taken = taken.clone();
                self.known.entry(of.word()).or_default().add(&taken);
                return Ok(self.take(of, name, taken, Word::Now));
            }
            out.add(Check::FileReference, row, Some(column), || {
                fault(quoted(name), expected::TargetKnown { name: taken.as_str().into() })
            });
            return Ok(Read::Refused);
        }
        if let Some(taken) = self.said_before(act, of, name, true)? {
            return Ok(self.take(of, name, taken, Word::Before));
        }
        let meant = self.agreed.new.iter().any(|n| n == name);
        if meant {
            self.met.insert(name.into());
        }
        let near: Vec<String> = self.known[of.word()].nearest(name).into_iter().map(str::to_string).collect();
        if !near.is_empty() && !meant {
            if self.manner == Manner::File {
                out.add(Check::FileReference, row, Some(column), || {
                    fault(name_of(name), expected::NameMeant { one: of.one(), near: listed(&near) })
                });
                return Ok(Read::Refused);
            }
            let near = listed(&near);
            out.note(row, column, says::NearTo { one: of.one(), written: name.into(), near });
            self.known.entry(of.word()).or_default().add(name);
            return Ok(Read::Same);
        }
        self.bring(of, name);
        Ok(Read::Same)
    }

    /// Remembers a new name.
    fn bring(&mut self, of: Of, name: &str) {
        self.known.entry(of.word()).or_default().add(name);
        if self.on_record.contains(of.word()) && of.word() != "bottle" {
            self.new.entry(of.word()).or_insert((of, vec![])).1.push(name.into());
        }
        if of == Of::Analyte
            && let Some(known) = other_names::written_here(Thing::Analyte, name).filter(|k| *k != name)
        {
            self.notes.push(says::KnownHere { written: name.into(), known: known.into() }.into());
        }
    }

    fn take(&mut self, of: Of, written: &str, taken: String, word: Word) -> Read {
        let (kind, written) = (of.word(), written.to_string());
        self.taken.push((of, TakenAs { kind, written, taken: taken.clone(), word }));
        Read::As(taken)
    }

    /// The name that another one is read as, where a row of another table is named by it.
    pub fn referred(&mut self, act: &mut Act, of: Of, name: &str) -> Result<Option<String>, StoreError> {
        self.load_said(act)?;
        // Nearly always: a table of a million rows pays nothing for names that nobody spoke of.
        if self.agreed.take.is_empty() && self.before.as_deref().is_none_or(<[SameName]>::is_empty) {
            return Ok(None);
        }
        if let Some(Read::As(taken)) = self.read.get(&(of.word(), name.to_string())) {
            return Ok(Some(taken.clone()));
        }
        let found = match self.said_before(act, of, name, false)? {
            Some(taken) => Some((taken, Word::OneName)),
            None if Self::stands(act, of, name)? => None,
            None => match self.agreed.take.iter().find(|(written, _)| written == name) {
                Some((_, taken)) => {
                    self.met.insert(name.into());
                    Some((taken.clone(), Word::Now))
                }
                None => self.said_before(act, of, name, true)?.map(|taken| (taken, Word::Before)),
            },
        };
        let Some((taken, word)) = found else { return Ok(None) };
        let read = self.take(of, name, taken.clone(), word);
        self.read.insert((of.word(), name.into()), read);
        Ok(Some(taken))
    }

    fn stands(act: &mut Act, of: Of, name: &str) -> Result<bool, StoreError> {
        let Of::Row(table) = of else { return Ok(false) };
        Ok(act.find(table.name, &[name.into()])?.is_some())
    }

    /// The nearest rows on record to a name that none of them has.
    pub fn nearest(&mut self, act: &mut Act, of: Of, name: &str) -> Result<Vec<String>, StoreError> {
        self.load(act, of)?;
        Ok(self.known[of.word()].nearest(name).into_iter().map(str::to_string).collect())
    }

    /// What was said of a name before this act: everywhere, or for files of the mapping at hand. Names made one with
    /// names made one later are followed to the last.
    fn said_before(&mut self, act: &Act, of: Of, name: &str, by_mapping: bool) -> Result<Option<String>, StoreError> {
        self.load_said(act)?;
        let before = self.before.as_deref().unwrap_or_default();
        let here = |s: &&SameName| {
            if by_mapping { s.mapping.as_deref() == Some(self.mapping.as_str()) } else { s.mapping.is_none() }
        };
        let of_kind = |s: &&SameName| s.kind == of.word();
        let one = |name: &str| before.iter().rev().filter(of_kind).filter(here).find(|s| s.written == name);
        let mut found = one(name).map(|s| s.stands_for.clone());
        // Each step leads to a name that was made one later: there are no more steps than rows.
        for _ in 0..before.len() {
            match found
                .as_deref()
                .and_then(|n| before.iter().rev().filter(of_kind).find(|s| s.mapping.is_none() && s.written == n))
            {
                Some(next) => found = Some(next.stands_for.clone()),
                None => break,
            }
        }
        Ok(found)
    }

    fn load_said(&mut self, act: &Act) -> Result<(), StoreError> {
        if self.before.is_none() {
            self.before = Some(act.list::<SameName>(&Filter::all())?);
        }
        Ok(())
    }

    /// Reads the names of a kind that are on record, once.
    fn load(&mut self, act: &Act, of: Of) -> Result<(), StoreError> {
        if self.known.contains_key(of.word()) {
            return Ok(());
        }
        let mut known = Known::new(of.names());
        for (table, column) in of.columns() {
            act.texts(table, column, &mut |name| known.add(name))?;
        }
        if !known.is_empty() {
            self.on_record.insert(of.word());
        }
        if of == Of::Quantity {
            other_names::all_written_here(Thing::Quantity).for_each(|name| known.add(name));
        }
        self.known.insert(of.word(), known);
        Ok(())
    }

    /// After each file: what was read as another name, and what a person should know.
    pub fn told(&mut self, out: &Collector) -> (Vec<TakenAs>, Vec<Finding>) {
        let taken: Vec<TakenAs> = self.taken.iter().map(|(_, t)| t.clone()).collect();
        let mut notes: Vec<Message> = self.taken.iter().map(|(of, t)| self.taken_as(*of, t)).collect();
        for (of, names) in self.new.values() {
            let mut shown = names.iter().take(LISTED).cloned().collect::<Vec<_>>().join(", ");
            if names.len() > LISTED {
                shown += ", …";
            }
            notes.push(says::NewNames { one: of.one(), names: shown.into(), count: count(names.len()) }.into());
        }
        notes.append(&mut self.notes);
        let finding = |says| out.finding(Check::FileReference, Outcome::NotKnown, None, None, says);
        (taken, notes.into_iter().map(finding).collect())
    }

    fn taken_as(&self, of: Of, t: &TakenAs) -> Message {
        let (one, written, taken) = (of.one(), t.written.as_str().into(), t.taken.as_str().into());
        match t.word {
            Word::Now => says::TakenAs { one, written, taken }.into(),
            Word::Before => says::TakenAsBefore { one, written, taken, mapping: self.mapping.as_str().into() }.into(),
            Word::OneName => says::OneName { one, written, taken }.into(),
        }
    }

    /// After the last file: what was agreed of names that no file has.
    pub fn for_nothing(&self, out: &Collector) -> Vec<Finding> {
        let left = self.agreed.names().filter(|n| !self.met.contains(*n));
        let says = |n: &String| says::AgreedForNothing { name: n.as_str().into() };
        left.map(|n| out.finding(Check::FileReference, Outcome::NotKnown, None, None, says(n))).collect()
    }

    /// Keeps what was agreed with this act for the next file of the mapping.
    pub fn keep(
        act: &mut Act,
        mapping: &str,
        taken: &[TakenAs],
        (author, why): (&str, &str),
    ) -> Result<(), StoreError> {
        // Whoever is not on record by that name is named by the event alone.
        let person = act.find("person", &[author.into()])?;
        for t in taken.iter().filter(|t| t.word == Word::Now) {
            let mut cells = NamedCells::new("same_name");
            cells
                .text("kind", t.kind)
                .text("written", &t.written)
                .text("stands_for", &t.taken)
                .text("mapping", mapping);
            if !why.is_empty() {
                cells.text("why", why);
            }
            cells.set("person", person.map_or(Cell::Null, Cell::Integer));
            cells.insert(act)?;
        }
        Ok(())
    }
}

/// A name as found, whole.
pub(crate) fn name_of(name: &str) -> message::found::NewName {
    message::found::NewName { name: name.into() }
}

/// Names as an argument.
pub(crate) fn listed(names: &[String]) -> Vec<Arg> {
    names.iter().map(|n| Arg::Name(n.as_str().into())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_agreed_is_parted_at_its_last_sign() {
        let words = |w: &[&str]| w.iter().map(ToString::to_string).collect::<Vec<_>>();
        let agreed = Agreed::parse(&words(&["Blei=Pb", "a=b = c"]), &words(&["Kalium-40"])).unwrap();
        assert_eq!(agreed.take, [("Blei".into(), "Pb".into()), ("a=b".into(), "c".into())]);
        for bad in ["Blei", "=Pb", "Blei="] {
            assert_eq!(Agreed::parse(&words(&[bad]), &[]), Err(bad.to_string()));
        }
    }

    #[test]
    fn every_kind_of_name_has_a_word_and_columns() {
        for of in [Of::Analyte, Of::Fraction, Of::Quantity, Of::row(schema::table("well").unwrap()).unwrap()] {
            assert!(!of.columns().is_empty() && !of.one().in_english().is_empty(), "{of:?}");
        }
        assert!(Of::Analyte.columns().iter().any(|(t, c)| (t.name, *c) == ("measurand", "analyte")));
    }
}
