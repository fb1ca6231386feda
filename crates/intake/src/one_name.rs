//! Two names that are one: a well entered twice, a person under two spellings, lead as "Pb" and as "Blei".
//!
//! In: what the names are of, the old name, the one that stays, who, why. Out: [`Merged`], or why they cannot be one. One act
//! corrects every row that bears or refers to the old name, so that it reads as the new one from then on; what it said is
//! kept beside the correction, and the old row of a table stays as it was written. The table `same_name` keeps the pair: a
//! file, a form or an identity with the old name is read as the new one ([`import::names`](crate::import::names)).
//!
//! Refused by name: two things that are known to be two (isotopes, states of oxidation, pores), units that do not turn into
//! one another, values of both for one bottle, different figures of one well, counts reduced under the old name.
//!
//! What it does not do: it derives nothing; `work::follow` does. Bottles are not made one: two bottles are two pieces of
//! evidence. Checked in `tests/one_name.rs`.

use crate::entry::EntryError;
use crate::import::names::Of;
use quantity::Unit;
use record::by::{By, said};
use record::error::Error;
use record::model::ResultRow;
use record::near::{are_two, nearest};
use record::schema::{self, Kind, SAME_THING, TABLES, Table};
use record::store::{Act, ActInfo, AmendmentIn, Cell, EventHash, Filter, NamedCells, Store, StoreError};
use serde_json::json;
use std::collections::BTreeSet;

/// What may have two names: words of columns, and tables.
pub const KINDS: [&str; 9] = ["analyte", "fraction", "quantity", "well", "person", "site", "lot", "acid", "filter"];

/// Tables that say who made or said what by which name: there the old one stands for good.
const AS_SIGNED: [&str; 2] = ["amendment", "same_name"];

/// Names that a refusal lists, at most.
const LISTED: usize = 5;

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Merged {
    /// Rows that read otherwise from now on.
    pub corrected: u64,
    /// Hash of the event.
    pub head: EventHash,
}

/// Makes two names one: rows of the old name are read by the new one from now on.
///
/// # Errors
/// [`Error::Absent`] for a name that is not on record; [`Error::Unfit`] where the two cannot be one; a reason that says
/// nothing; the store.
pub fn merge(store: &mut Store, by: By, why: &str, kind: &str, (old, new): (&str, &str)) -> Result<Merged, EntryError> {
    said(why)?;
    let of = of(kind)?;
    if old == new {
        return Err(unfit(format!("the two names of {kind}"), format!("\"{old}\" twice"), "two names"));
    }
    if kind == "person" && by.person == old {
        return Err(unfit(
            "who acts".into(),
            format!("{old}, the old name"),
            "the name that stays, or another person's",
        ));
    }
    let info = ActInfo {
        kind: "names made one".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "table": kind, "old": old, "new": new, "why": why }),
    };
    let (corrected, head) = store.act::<_, EntryError>(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let mut merging = Merging { act, of, old, new, why, person, corrected: 0 };
        merging.all()?;
        Ok(merging.corrected)
    })?;
    Ok(Merged { corrected, head })
}

/// The names that are one with others: old name, new one, of a kind.
///
/// # Errors
/// The store.
pub fn made_one(store: &Store, kind: &str, name: &str) -> Result<Option<String>, StoreError> {
    let all = store.list::<record::model::SameName>(&Filter::all().is("kind", kind).is("written", name))?;
    Ok(all.into_iter().rev().find(|s| s.mapping.is_none()).map(|s| s.stands_for))
}

fn of(kind: &str) -> Result<Of, EntryError> {
    let known = KINDS.contains(&kind);
    match kind {
        "analyte" => Ok(Of::Analyte),
        "fraction" => Ok(Of::Fraction),
        "quantity" => Ok(Of::Quantity),
        _ => {
            let table = schema::table(kind).filter(|_| known).and_then(Of::row);
            table.ok_or_else(|| unfit("what has two names".into(), format!("\"{kind}\""), &KINDS.join(", ")))
        }
    }
}

fn unfit(what: String, found: String, expected: &str) -> EntryError {
    Error::Unfit { what, found, expected: expected.into() }.into()
}

struct Merging<'m, 's> {
    act: &'m mut Act<'s>,
    of: Of,
    old: &'m str,
    new: &'m str,
    why: &'m str,
    person: i64,
    corrected: u64,
}

impl Merging<'_, '_> {
    fn all(&mut self) -> Result<(), EntryError> {
        for name in [self.old, self.new] {
            self.must_be_known(name)?;
        }
        if are_two(self.of.names(), self.old, self.new) {
            let expected =
                "two names of one thing; other isotopes, states of oxidation, species and pores are other things";
            return Err(unfit(self.both(), "names of two things".into(), expected));
        }
        match self.of {
            Of::Row(table) => self.rows(table)?,
            Of::Analyte | Of::Fraction => {
                self.results()?;
                self.words()?;
            }
            Of::Quantity => {
                self.readings()?;
                self.words()?;
            }
        }
        let mut cells = NamedCells::new("same_name");
        cells.text("kind", self.of.word()).text("written", self.old).text("stands_for", self.new);
        cells.text("why", self.why).integer("person", self.person);
        cells.insert(self.act)?;
        Ok(())
    }

    fn both(&self) -> String {
        format!("\"{}\" and \"{}\"", self.old, self.new)
    }

    fn must_be_known(&self, name: &str) -> Result<(), EntryError> {
        let mut known = BTreeSet::new();
        for (table, column) in self.of.columns() {
            self.act.texts(table, column, &mut |text| {
                known.insert(text.to_string());
            })?;
        }
        if known.contains(name) {
            return Ok(());
        }
        let near = nearest(self.of.names(), name, known.iter().map(String::as_str));
        let hint = if near.is_empty() { String::new() } else { format!("; the nearest: {}", near.join(", ")) };
        Err(Error::absent(self.of.word(), name, hint).into())
    }

    fn rename(&mut self, table: &str, row: i64, column: &str, new: &str) -> Result<(), EntryError> {
        let (why, person) = (self.why, Some(self.person));
        self.act.rename(&AmendmentIn { table, row, column, new: Some(new), why, person })?;
        self.corrected += 1;
        Ok(())
    }

    fn read_as(&mut self, table: &str, row: i64, other: i64) -> Result<(), EntryError> {
        let (why, person) = (self.why, Some(self.person));
        self.act.read_as(&AmendmentIn { table, row, column: "", new: None, why, person }, other)?;
        self.corrected += 1;
        Ok(())
    }

    /// Every row in whose own column the old name stands.
    fn words(&mut self) -> Result<(), EntryError> {
        let new = self.new;
        for (table, column) in self.of.columns() {
            let of = |act: &Act, name: &str| act.as_typed(table.name, &Filter::all().is(column, name));
            let (olds, news) = (of(self.act, self.old)?, of(self.act, new)?);
            // Results refer to what is measured by its row: two rows that read alike are one to every reader.
            let alone = table.name == "measurand";
            for (row, cells) in olds {
                let same = if alone { None } else { self.same_thing(table, column, &cells, &news)? };
                match same {
                    Some(other) => self.read_as(table.name, row, other)?,
                    None => self.rename(table.name, row, column, new)?,
                }
            }
        }
        Ok(())
    }

    /// The row of the new name that says the very same as one of the old; refused where it says otherwise of one thing.
    fn same_thing(
        &self,
        table: &'static Table,
        column: &str,
        cells: &[String],
        news: &[(i64, Vec<String>)],
    ) -> Result<Option<i64>, EntryError> {
        let by = if table.key.is_empty() {
            // Repeated fills within a minute are rows of their own.
            let same = SAME_THING.iter().find(|(name, _)| *name == table.name && *name != "fill");
            same.map_or(&[][..], |(_, columns)| *columns)
        } else {
            table.key
        };
        let day_only = by.contains(&"at") && table.place("at").is_some_and(|p| !cells[p].contains('T'));
        if !by.contains(&column) || day_only {
            return Ok(None);
        }
        let place = |c: &&str| table.place(c).filter(|_| *c != column);
        let places: Vec<usize> = by.iter().filter_map(place).collect();
        let Some((other, theirs)) = news.iter().find(|(_, n)| places.iter().all(|p| n[*p] == cells[*p])) else {
            return Ok(None);
        };
        let own = table.place(column);
        match (0..cells.len()).find(|p| Some(*p) != own && cells[*p] != theirs[*p]) {
            None => Ok(Some(*other)),
            Some(p) => {
                let of: Vec<&str> = places.iter().map(|p| cells[*p].as_str()).filter(|c| !c.is_empty()).collect();
                let name = table.columns[p].name;
                let found = format!(
                    "{name} {} and {} of {} {}",
                    cells[p],
                    theirs[p],
                    table.name.replace('_', " "),
                    of.join(", ")
                );
                Err(unfit(self.both(), found, "one value of one thing: correct the wrong one first"))
            }
        }
    }

    /// Whether results of the two names can be one series: units that turn into each other, no bottle with both, no counts
    /// that would be reduced under the old name again.
    fn results(&mut self) -> Result<(), EntryError> {
        let column = self.of.word();
        let of = |act: &Act, name: &str| act.as_typed("measurand", &Filter::all().is(column, name));
        let (olds, news) = (of(self.act, self.old)?, of(self.act, self.new)?);
        let place = schema::table("measurand").and_then(|t| t.place(column)).expect("a measurand has it");
        let (mut bottles, mut units) = (BTreeSet::new(), [BTreeSet::new(), BTreeSet::new()]);
        for (id, cells) in &olds {
            let results = self.act.list::<ResultRow>(&Filter::all().is("measurand", *id))?;
            if let Some(r) = results.iter().find(|r| r.vial_id.is_some()) {
                let found = format!("{}, reduced from counts by a recipe that names {}", r.identity(), self.old);
                let expected = format!("give the run a recipe that names {} (`limpid recipes --give`)", self.new);
                return Err(unfit(self.both(), found, &expected));
            }
            units[0].extend(results.iter().map(|r| r.unit.clone()));
            let mine: BTreeSet<i64> = results.iter().map(|r| r.bottle_id).collect();
            let like = |n: &&(i64, Vec<String>)| (0..cells.len()).all(|p| p == place || n.1[p] == cells[p]);
            for (other, _) in news.iter().filter(like) {
                let theirs = self.act.list::<ResultRow>(&Filter::all().is("measurand", *other))?;
                bottles.extend(theirs.iter().filter(|r| mine.contains(&r.bottle_id)).map(|r| r.bottle.clone()));
            }
        }
        for (id, _) in &news {
            let results = self.act.list::<ResultRow>(&Filter::all().is("measurand", *id))?;
            units[1].extend(results.into_iter().map(|r| r.unit));
        }
        if !bottles.is_empty() {
            let some = bottles.iter().take(LISTED).map(String::as_str).collect::<Vec<_>>().join(", ");
            let found = format!("values of both for {} bottles: {some}", bottles.len());
            return Err(unfit(self.both(), found, "at most one value of a bottle: see which of the two holds first"));
        }
        let [old, new] = units;
        // A fraction's results are of many analytes, each in its own unit.
        if self.of == Of::Analyte { self.units(&old, &new) } else { Ok(()) }
    }

    fn readings(&mut self) -> Result<(), EntryError> {
        let place = schema::table("field_reading").and_then(|t| t.place("unit")).expect("a reading has a unit");
        let units = |act: &Act, name: &str| -> Result<BTreeSet<String>, StoreError> {
            let rows = act.as_typed("field_reading", &Filter::all().is("quantity", name))?;
            Ok(rows.into_iter().map(|(_, cells)| cells[place].clone()).collect())
        };
        let (old, new) = (units(self.act, self.old)?, units(self.act, self.new)?);
        self.units(&old, &new)
    }

    fn units(&self, old: &BTreeSet<String>, new: &BTreeSet<String>) -> Result<(), EntryError> {
        let into = |a: &str, b: &str| Some(Unit::parse(a).ok()?.conversion(&Unit::parse(b).ok()?, None, None).is_ok());
        for (a, b) in old.iter().flat_map(|a| new.iter().map(move |b| (a, b))) {
            if a != b && into(a, b) != Some(true) {
                return Err(unfit(self.both(), format!("units {a} and {b}"), "units that turn into one another"));
            }
        }
        Ok(())
    }

    /// A row of a table that is another: what refers to it, what it says and the other does not, and the row itself.
    fn rows(&mut self, table: &'static Table) -> Result<(), EntryError> {
        let gone = |name: &str| StoreError::NoRow { table: table.name, key: name.into() };
        let (old_name, new_name) = (self.old, self.new);
        let old = self.act.find(table.name, &[old_name.into()])?.ok_or_else(|| gone(old_name))?;
        let new = self.act.find(table.name, &[new_name.into()])?.ok_or_else(|| gone(new_name))?;
        self.own_columns(table, (old, new))?;
        let to = new.to_string();
        for other in TABLES.iter().filter(|t| !AS_SIGNED.contains(&t.name)) {
            for column in other.columns.iter().filter(|c| c.kind == Kind::Row(table.name)) {
                let rows = |act: &Act, id: i64| act.as_typed(other.name, &Filter::all().is(column.name, id));
                let (olds, news) = (rows(self.act, old)?, rows(self.act, new)?);
                for (row, cells) in olds {
                    match self.same_thing(other, column.name, &cells, &news)? {
                        Some(same) => self.read_as(other.name, row, same)?,
                        None => self.rename(other.name, row, column.name, &to)?,
                    }
                }
            }
        }
        self.read_as(table.name, old, new)
    }

    /// What the old row says of itself: figures must agree, words of the one that stays stand, what it lacks it takes over.
    fn own_columns(&mut self, table: &'static Table, (old, new): (i64, i64)) -> Result<(), EntryError> {
        let of = |act: &Act, id: i64| act.as_typed(table.name, &Filter::all().is("id", id)).map(|mut rows| rows.pop());
        let (Some((_, mine)), Some((_, theirs))) = (of(self.act, old)?, of(self.act, new)?) else { return Ok(()) };
        for (column, (a, b)) in table.columns.iter().zip(mine.iter().zip(&theirs)) {
            if table.is_key(column.name) || a.is_empty() || a == b {
                continue;
            }
            if !b.is_empty() {
                if column.kind == Kind::Text {
                    continue;
                }
                let found = format!("{} {a} and {b}", column.name);
                return Err(unfit(self.both(), found, "one figure of one thing: correct the wrong one first"));
            }
            let value = match column.kind {
                Kind::Row(other) => match self.act.find(other, &[a.as_str().into()])? {
                    Some(id) => id.to_string(),
                    None => continue,
                },
                _ => a.clone(),
            };
            self.rename(table.name, new, column.name, &value)?;
        }
        Ok(())
    }
}
