//! Rows into the record, within one act: references by name, rows that are there already, rows
//! that are there but differ, rows that stand twice.

use super::counts::{Placed, Row, RunData, VialData, VialKey};
use super::fault::{Collector, Fault, fault, number, quoted};
use super::mapping::Mapping;
use super::names::{Naming, Of, Read, listed};
use super::plan::{Plan, Value};
use super::rows::Rows;
use super::text::Record;
use super::units::unit_fits;
use super::words;
use super::{FileTaken, SHOWN_ROWS, TableRows};
use crate::{plausible, unfit};
use message::{Shown, expected, found};
use quantity::{Check, Unit};
use record::bounds;
use record::model::{BlindLabel, KeptRecipe};
use record::schema::{self, Kind, Table};
use record::store::{Act, Cell, Filter, NamedCells, Said, StoreError};
use record::usual::{self, Scale, Usual};
use record::words::VialRole;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// Tables in which a person acts: the same words a second time are a second act, and their order counts.
const ACTS: [&str; 2] = ["exclusion", "sign_off"];

/// Adds rows and remembers what was added.
pub(crate) struct Writer<'a, 's, 'n> {
    pub act: &'a mut Act<'s>,
    pub taken: &'a mut FileTaken,
    /// Names that are read as others, or may be slips.
    pub names: &'a mut Naming<'n>,
    pub preview: bool,
    /// What the rows of a table without names said before this file.
    before: Said,
    /// Rows added, with their rows in the file.
    fresh: BTreeMap<i64, u64>,
    /// Whether the record has blind labels; none: not looked at yet.
    blind: Option<bool>,
    /// Blind labels that were opened.
    opened: BTreeSet<String>,
}

/// A row of a file by its table's columns; a place without a value is none.
type Wanted = Vec<Value>;

/// What came of a row.
enum Outcome {
    Added(i64),
    There(i64),
    Differs { column: &'static str, stands: String },
}

impl<'a, 's, 'n> Writer<'a, 's, 'n> {
    pub fn new(act: &'a mut Act<'s>, taken: &'a mut FileTaken, names: &'a mut Naming<'n>, preview: bool) -> Self {
        let (before, fresh) = (Said::default(), BTreeMap::new());
        Self { act, taken, names, preview, before, fresh, blind: None, opened: BTreeSet::new() }
    }

    /// Before the rows of a file: what the record says already, word for word, is there already. The file may be one
    /// that was taken in before, with a blank line more. Equal rows within one file are each a row.
    pub fn remember(&mut self, table: &'static Table) -> Result<(), StoreError> {
        if table.key.is_empty() && !ACTS.contains(&table.name) {
            self.before = self.act.said(table)?;
        }
        Ok(())
    }

    /// The bottle that a blind label stands for, where no bottle is called so itself; told and counted.
    pub fn behind(&mut self, label: &str) -> Result<Option<BlindLabel>, StoreError> {
        if self.blind.is_none() {
            self.blind = Some(!self.act.list::<BlindLabel>(&Filter::all().limit(1))?.is_empty());
        }
        if self.blind == Some(false) {
            return Ok(None);
        }
        let found = self.act.list::<BlindLabel>(&Filter::all().is("label", label))?.pop();
        if let Some(blind) = &found
            && self.opened.insert(blind.label.clone())
        {
            *self.taken.unblinded.entry(blind.request.clone()).or_insert(0) += 1;
        }
        Ok(found)
    }

    /// Keeps which requests a file opened: one row each.
    pub fn keep_unblinding(&mut self, raw_file: i64) -> Result<(), StoreError> {
        let names: Vec<String> = self.taken.unblinded.keys().cloned().collect();
        for name in names {
            let Some(request) = self.act.find("lab_request", &[name.as_str().into()])? else { continue };
            let mut cells = NamedCells::new("unblinding");
            cells.integer("request", request).integer("raw_file", raw_file);
            cells.insert(self.act)?;
        }
        Ok(())
    }

    /// Adds a row.
    pub fn insert(&mut self, table: &'static Table, cells: &[Cell]) -> Result<i64, StoreError> {
        let id = self.act.insert(table.name, cells)?;
        *self.taken.added.entry(table.name).or_insert(0) += 1;
        if self.preview {
            self.show(table, id)?;
        }
        Ok(id)
    }

    /// Shows a row that was added, its references by the names of their rows.
    pub fn show(&mut self, table: &'static Table, id: i64) -> Result<(), StoreError> {
        let columns = || table.columns.iter().map(|c| c.name).collect();
        let shown =
            self.taken.tables.entry(table.name).or_insert_with(|| TableRows { columns: columns(), rows: vec![] });
        if shown.rows.len() < SHOWN_ROWS {
            let mut rows = self.act.as_typed(table.name, &Filter::all().is("id", id))?;
            if let Some((_, mut cells)) = rows.pop() {
                for (column, cell) in table.columns.iter().zip(&mut cells) {
                    if let Some(name) = name_of_several(self.act, column.kind, cell)? {
                        *cell = name;
                    }
                }
                shown.rows.push(cells);
            }
        }
        Ok(())
    }

    /// The row of that name, whatever the table's key; none where there is none.
    pub fn named(&mut self, table: &'static Table, name: &str) -> Result<Option<i64>, StoreError> {
        match table.key {
            [_] => match self.act.find(table.name, &[name.into()])? {
                None if table.name == "bottle" => Ok(self.behind(name)?.map(|b| b.bottle_id)),
                found => Ok(found),
            },
            // A text with versions: the newest that counts.
            [_, "version"] => {
                for version in (1..self.act.next_revision(table.name, &[name.into()])?).rev() {
                    if let Some(id) = self.act.find(table.name, &[name.into(), version.into()])? {
                        return Ok(Some(id));
                    }
                }
                Ok(None)
            }
            // A vial: run/position.
            ["run", "position"] => {
                let Some((run, position)) = record::identity::vial(name) else {
                    return Ok(None);
                };
                let Some(run) = self.act.find("run", &[run.as_str().into()])? else {
                    return Ok(None);
                };
                self.act.find(table.name, &[run.into(), position.into()])
            }
            _ => Ok(None),
        }
    }

    /// The row that a name refers to, also where the name is read as another.
    pub fn referred(&mut self, other: &'static Table, name: &str) -> Result<Option<i64>, StoreError> {
        let taken = match Of::row(other) {
            Some(of) => self.names.referred(self.act, of, name)?,
            None => None,
        };
        self.named(other, taken.as_deref().unwrap_or(name))
    }

    /// The fault of a name that no row of a table has, with the nearest that one has.
    pub fn absent(&mut self, other: &'static Table, name: &str) -> Result<Fault, StoreError> {
        let near = match Of::row(other) {
            Some(of) => self.names.nearest(self.act, of, name)?,
            None => vec![],
        };
        if !near.is_empty() {
            let found = found::UnknownRow { table: other.name.into(), name: name.into() };
            return Ok(fault(found, expected::RowNearest { one: words::one_of(other), near: listed(&near) }));
        }
        let found = found::Row { table: other.name.into(), row: quoted(name) };
        Ok(match other.name {
            "recipe" => fault(found, expected::RecipeKnown),
            _ => fault(found, expected::RowKnownOrTaken { one: words::one_of(other) }),
        })
    }

    /// The names in a row's own columns as they are written; false where one was refused.
    fn rename(
        &mut self,
        table: &'static Table,
        wanted: &mut [Value],
        out: &mut Collector,
        row: u64,
        heading: &dyn Fn(&str) -> String,
    ) -> Result<bool, StoreError> {
        let mut good = true;
        for (column, value) in table.columns.iter().zip(wanted) {
            if let Value::Text(name) = value
                && let Some(of) = Of::column(table, column)
            {
                match self.names.read(self.act, of, name, out, (Some(row), heading(column.name).as_str()))? {
                    Read::Same => {}
                    Read::As(taken) => *value = Value::Text(taken),
                    Read::Refused => good = false,
                }
            }
        }
        Ok(good)
    }

    /// Cells of a wanted row; a name that is not there goes to the collector, and none comes back.
    fn resolve<'v>(
        &mut self,
        table: &'static Table,
        wanted: &'v [Value],
        out: &mut Collector,
        row: u64,
        heading: &dyn Fn(&str) -> String,
    ) -> Result<Option<Vec<Cell<'v>>>, StoreError> {
        let mut cells = Vec::with_capacity(wanted.len());
        let mut good = true;
        for (column, value) in table.columns.iter().zip(wanted) {
            cells.push(match value {
                Value::Null => Cell::Null,
                Value::Text(t) => Cell::Text(t),
                Value::Integer(i) => Cell::Integer(*i),
                Value::Real(x) => Cell::Real(*x),
                Value::Name(name) => {
                    let Kind::Row(other) = column.kind else { unreachable!("names stand in reference columns only") };
                    let other = schema::table(other).expect("the record refers to its own tables");
                    if let Some(id) = self.referred(other, name)? {
                        Cell::Integer(id)
                    } else {
                        let says = self.absent(other, name)?;
                        out.add(Check::FileReference, Some(row), Some(&heading(column.name)), || says);
                        // On with the other columns: all names that are missing in the row are told at once.
                        good = false;
                        Cell::Null
                    }
                }
            });
        }
        Ok(good.then_some(cells))
    }

    /// Adds a row, or finds that it is there, or that another of its name is.
    fn add(&mut self, table: &'static Table, cells: &[Cell]) -> Result<Outcome, StoreError> {
        if table.key.is_empty() {
            if let Some(id) = self.before.take(table, cells)? {
                self.taken.already += 1;
                return Ok(Outcome::There(id));
            }
            return Ok(Outcome::Added(self.insert(table, cells)?));
        }
        let key: Vec<Cell> = table.key.iter().filter_map(|c| table.place(c)).map(|p| cells[p]).collect();
        let Some(id) = self.act.find(table.name, &key)? else {
            return Ok(Outcome::Added(self.insert(table, cells)?));
        };
        let (mut differs, mut recipes) = (None, None);
        let by_id = Filter::all().is("id", id);
        self.act.dump(table, &by_id, &mut |_, _, stored| {
            for ((column, a), b) in table.columns.iter().zip(stored).zip(cells) {
                // What the file leaves open is no contradiction.
                if *b == Cell::Null || same(a, b) {
                    continue;
                }
                match (column.kind, a, b) {
                    (Kind::Row("recipe"), Cell::Integer(stands), Cell::Integer(wanted)) => {
                        recipes = Some((column.name, *stands, *wanted));
                    }
                    _ if differs.is_none() => differs = Some((column.name, a.as_typed())),
                    _ => {}
                }
            }
            Ok(())
        })?;
        // A run keeps the version it came with: a file that names the recipe means that one, also after a newer came.
        if let Some((column, stands, wanted)) = recipes
            && self.recipe_name(stands)? != self.recipe_name(wanted)?
        {
            differs = Some((column, stands.to_string()));
        }
        Ok(match differs {
            None => {
                self.taken.already += 1;
                Outcome::There(id)
            }
            Some((column, stands)) => Outcome::Differs { column, stands },
        })
    }

    fn recipe_name(&self, id: i64) -> Result<Option<String>, StoreError> {
        Ok(self.act.list::<KeptRecipe>(&Filter::all().is("id", id))?.pop().map(|r| r.name))
    }

    /// Adds a row of a file and tells where it contradicts the record.
    fn add_or_tell(
        &mut self,
        table: &'static Table,
        wanted: &[Value],
        out: &mut Collector,
        row: u64,
        heading: &dyn Fn(&str) -> String,
    ) -> Result<Option<i64>, StoreError> {
        let Some(cells) = self.resolve(table, wanted, out, row, heading)? else {
            return Ok(None);
        };
        match self.add(table, &cells)? {
            Outcome::Added(id) => {
                self.fresh.insert(id, row);
                Ok(Some(id))
            }
            Outcome::There(id) => Ok(Some(id)),
            Outcome::Differs { column, stands } => {
                let place = table.place(column).expect("a column of the table");
                out.add(Check::FileDiffers, Some(row), Some(&heading(column)), || {
                    let (value, stands) = (cells[place].as_typed().into(), stands.into());
                    let found = found::Differs { value, one: words::one_of(table), stands };
                    fault(found, expected::SameAsOnRecord)
                });
                Ok(None)
            }
        }
    }
}

/// The name of a row of several parts (a vial, what is measured), where a column refers to one by its number.
fn name_of_several(act: &Act, kind: Kind, number: &str) -> Result<Option<String>, StoreError> {
    let (Kind::Row(other), Ok(id)) = (kind, number.parse::<i64>()) else { return Ok(None) };
    let other = schema::table(other).expect("the record refers to its own tables");
    if let [_] | [] = other.key {
        return Ok(None);
    }
    let Some((_, cells)) = act.as_typed(other.name, &Filter::all().is("id", id))?.pop() else { return Ok(None) };
    let parts = other.key.iter().filter_map(|c| other.place(c)).map(|p| cells[p].as_str()).filter(|c| !c.is_empty());
    Ok(Some(parts.collect::<Vec<_>>().join(" ")))
}

fn same(a: &Cell, b: &Cell) -> bool {
    match (a, b) {
        (Cell::Real(x), Cell::Integer(i)) | (Cell::Integer(i), Cell::Real(x)) => (*x - *i as f64).abs() == 0.0,
        _ => a == b,
    }
}

/// Reads and writes a file whose rows are rows of one table.
pub(crate) fn take_table(
    writer: &mut Writer,
    mapping: &Mapping,
    plan: &Plan,
    rows: &mut Rows,
    table: &'static Table,
    out: &mut Collector,
) -> Result<Result<u64, StoreError>, std::io::Error> {
    let heading = |column: &str| {
        plan.field(&format!("{}.{column}", table.name)).map_or_else(|| column.to_string(), |f| f.heading.clone())
    };
    let mut record = Record::default();
    let mut first_rows: HashMap<String, u64> = HashMap::new();
    let mut waiting: Vec<(u64, Wanted)> = vec![];
    let usual = usual::columns(table);
    let mut count = 0;
    while rows.next_data(&mut record, &plan.headings, out)? {
        count += 1;
        let Some(mut wanted) = wanted(mapping, plan, table, &record, out) else {
            continue;
        };
        match writer.rename(table, &mut wanted, out, record.row, &heading) {
            Ok(true) => {}
            Ok(false) => continue,
            Err(e) => return Ok(Err(e)),
        }
        if let Some(key) = key_text(table, &wanted) {
            if let Some(first) = first_rows.get(&key) {
                out.add(Check::FileRowTwice, Some(record.row), Some(&heading(table.key[0])), || {
                    let (row, first) = (quoted(&key.replace('\u{1F}', " ")), number(*first));
                    fault(found::RowTwice { table: table.name.into(), row, first }, expected::OnceInFile)
                });
                continue;
            }
            first_rows.insert(key, record.row);
        }
        tell_unusual((table, &usual), &wanted, record.row, &heading, out);
        if refers_to_itself(table, &wanted) {
            waiting.push((record.row, wanted));
            continue;
        }
        if let Err(e) = writer.add_or_tell(table, &wanted, out, record.row, &heading) {
            return Ok(Err(e));
        }
    }
    let written = take_waiting(writer, table, waiting, out, &heading);
    Ok(written.and_then(|()| beside_the_others(writer, table, out, &heading)).map(|()| count))
}

/// Rows that can be alone, but not beside what else the record holds.
fn beside_the_others(
    writer: &Writer,
    table: &'static Table,
    out: &mut Collector,
    heading: &dyn Fn(&str) -> String,
) -> Result<(), StoreError> {
    let ids = writer.fresh.keys().copied().collect();
    for u in unfit::among(writer.act, table.name, &ids)? {
        out.add(Check::FileValue, writer.fresh.get(&u.row).copied(), Some(&heading(u.column)), || u.says);
    }
    otherwise(writer, table, out, heading)
}

/// Rows that say otherwise of the same thing than one on record that the file does not repeat: a person says which
/// holds. What a file brings beside all that is on record of the same thing (one more fill of that minute) is added.
fn otherwise(
    writer: &Writer,
    table: &'static Table,
    out: &mut Collector,
    heading: &dyn Fn(&str) -> String,
) -> Result<(), StoreError> {
    let Some((_, same)) = schema::SAME_THING.iter().find(|(name, _)| *name == table.name) else { return Ok(()) };
    let left = writer.before.left();
    if left.is_empty() || writer.fresh.is_empty() {
        return Ok(());
    }
    let rows = writer.act.as_typed(table.name, &Filter::all())?;
    let mut known: BTreeMap<Vec<&str>, (i64, &[String])> = BTreeMap::new();
    for (id, cells) in rows.iter().filter(|(id, _)| left.contains(id)) {
        if let Some(thing) = thing(table, same, cells) {
            known.entry(thing).or_insert((*id, cells.as_slice()));
        }
    }
    for (id, cells) in &rows {
        let Some(row) = writer.fresh.get(id) else { continue };
        let Some((there, stands)) = thing(table, same, cells).and_then(|t| known.get(&t)) else { continue };
        let Some(place) = cells.iter().zip(*stands).position(|(a, b)| a != b) else { continue };
        out.add(Check::FileDiffers, Some(*row), Some(&heading(table.columns[place].name)), || {
            let (value, stands) = (cells[place].as_str().into(), stands[place].as_str().into());
            let found = found::OtherwiseThanRow { value, one: words::one_of(table), row: *there, stands };
            fault(found, expected::AsRowOrCorrected { table: table.name.into(), row: *there })
        });
    }
    Ok(())
}

/// What a row speaks of; none where its time tells no more than the day, on which there may be many.
fn thing<'r>(table: &Table, same: &[&str], cells: &'r [String]) -> Option<Vec<&'r str>> {
    let one = |column: &&str| {
        let text = cells[table.place(column)?].as_str();
        (*column != "at" || text.contains('T')).then_some(text)
    };
    same.iter().map(one).collect()
}

/// What may be right and is worth a second look is told, and the row is taken.
fn tell_unusual(
    (table, usual): (&'static Table, &[(usize, &'static Usual)]),
    row: &[Value],
    n: u64,
    heading: &dyn Fn(&str) -> String,
    out: &mut Collector,
) {
    for (place, usual) in usual {
        if let Value::Real(x) = row[*place] {
            let heading = heading(table.columns[*place].name);
            if let Some(says) = plausible::number(usual, &heading, x) {
                out.note(Some(n), &heading, says);
            }
        }
    }
    let at = |column: &str| table.place(column).map(|p| &row[p]);
    if let (Some(Value::Text(quantity)), Some(Value::Real(x)), Some(Value::Text(unit))) =
        (at("quantity"), at("value"), at("unit"))
        && let Ok(unit) = Unit::parse(unit)
        && let Some(says) = Scale::of(quantity, &unit).and_then(|s| plausible::measured(&s, quantity, *x, &unit))
    {
        out.note(Some(n), &heading("value"), says);
    }
    if let (Some(Value::Text(acidified)), Some(Value::Text(filled))) = (at("acidified_at"), at("filled_at"))
        && let Some(says) = plausible::acid_first(acidified, filled)
    {
        out.note(Some(n), &heading("acidified_at"), says);
    }
}

/// Rows that name a row of their own table (the parent of a duplicate) wait until it is there,
/// so that the order of the file does not matter.
fn take_waiting(
    writer: &mut Writer,
    table: &'static Table,
    mut waiting: Vec<(u64, Wanted)>,
    out: &mut Collector,
    heading: &dyn Fn(&str) -> String,
) -> Result<(), StoreError> {
    loop {
        let before = waiting.len();
        let mut still = vec![];
        for (row, wanted) in waiting {
            let mut ready = true;
            for name in own_names(table, &wanted) {
                ready &= writer.referred(table, name)?.is_some();
            }
            if ready {
                writer.add_or_tell(table, &wanted, out, row, heading)?;
            } else {
                still.push((row, wanted));
            }
        }
        waiting = still;
        if waiting.is_empty() {
            return Ok(());
        }
        if waiting.len() == before {
            // Nothing moved: these names are nowhere. Resolving says so, row by row.
            for (row, wanted) in waiting {
                writer.add_or_tell(table, &wanted, out, row, heading)?;
            }
            return Ok(());
        }
    }
}

fn own_names<'v>(table: &'static Table, wanted: &'v [Value]) -> impl Iterator<Item = &'v str> {
    table.columns.iter().zip(wanted).filter_map(move |(c, v)| match (c.kind, v) {
        (Kind::Row(other), Value::Name(n)) if other == table.name => Some(n.as_str()),
        _ => None,
    })
}

fn refers_to_itself(table: &'static Table, wanted: &[Value]) -> bool {
    own_names(table, wanted).next().is_some()
}

fn key_text(table: &Table, wanted: &[Value]) -> Option<String> {
    let parts: Vec<String> = table
        .key
        .iter()
        .filter_map(|c| table.place(c))
        .map(|p| match &wanted[p] {
            Value::Null => String::new(),
            Value::Text(t) | Value::Name(t) => t.clone(),
            Value::Integer(i) => i.to_string(),
            Value::Real(x) => x.to_string(),
        })
        .collect();
    (!parts.is_empty()).then(|| parts.join("\u{1F}"))
}

/// The values of a record for a table's columns; none where any is at fault.
fn wanted(
    mapping: &Mapping,
    plan: &Plan,
    table: &'static Table,
    record: &Record,
    out: &mut Collector,
) -> Option<Wanted> {
    let mut row = Vec::with_capacity(table.columns.len());
    let mut good = true;
    for column in table.columns {
        let Some(field) = plan.field(&format!("{}.{}", table.name, column.name)) else {
            row.push(Value::Null);
            continue;
        };
        match field.value(record, mapping) {
            Ok(v) => row.push(v),
            Err(why) => {
                out.add(Check::FileValue, Some(record.row), Some(&field.heading), || why);
                good = false;
                row.push(Value::Null);
            }
        }
    }
    good &= sensible(table, &row, record.row, plan, out);
    good.then_some(row)
}

/// What columns say together: a section's foot lies under its top, a reading's unit is of its
/// quantity.
fn sensible(table: &'static Table, row: &[Value], n: u64, plan: &Plan, out: &mut Collector) -> bool {
    let at = |c: &str| table.place(c).map(|p| &row[p]);
    let heading =
        |c: &str| plan.field(&format!("{}.{c}", table.name)).map_or_else(|| c.to_string(), |f| f.heading.clone());
    if let (Some(Value::Real(from)), Some(Value::Real(to))) = (at("from_m"), at("to_m"))
        && from >= to
    {
        out.add(Check::FileValue, Some(n), Some(&heading("to_m")), || {
            let [to, from] = [to, from].map(|m| Shown::as_given(*m, "m"));
            fault(found::UpsideDown { to, from }, expected::FootDeeper)
        });
        return false;
    }
    if let (Some(Value::Text(quantity)), Some(Value::Text(unit))) = (at("quantity"), at("unit"))
        && let Ok(u) = Unit::parse(unit)
        && let Err(expected) = unit_fits(quantity, &u)
    {
        out.add(Check::FileUnit, Some(n), Some(&heading("unit")), || fault(unit_for(&u, quantity), expected));
        return false;
    }
    if table.name == "laboratory_quality" {
        // A day that is none would speak of no bottle, and nobody would notice.
        for column in ["from_day", "until_day"] {
            let Some(Value::Text(day)) = at(column) else { continue };
            if day.len() != "2026-07-15".len() || day.parse::<jiff::civil::Date>().is_err() {
                out.add(Check::FileValue, Some(n), Some(&heading(column)), || {
                    fault(quoted(day), expected::DateYearFirst)
                });
                return false;
            }
        }
    }
    if let Err((column, why)) = super::tracers::together(table.name, &|c| at(c)) {
        out.add(Check::FileValue, Some(n), Some(&heading(column)), || why);
        return false;
    }
    if let ("check_rule", Some(Value::Text(name))) = (table.name, at("check_name"))
        // A rule for a name that no check has would decide nothing, and nobody would notice.
        && !Check::from_text(name).is_some_and(Check::is_weighed)
    {
        out.add(Check::FileValue, Some(n), Some(&heading("check_name")), || {
            fault(quoted(name), expected::Check { checks: Check::like(name).join(", ").into() })
        });
        return false;
    }
    if let (Some(Value::Text(quantity)), Some(Value::Real(x)), Some(Value::Text(unit))) =
        (at("quantity"), at("value"), at("unit"))
        && let Ok(u) = Unit::parse(unit)
        && let Err(expected) = bounds::reading(quantity, *x, &u)
    {
        out.add(Check::FileValue, Some(n), Some(&heading("value")), || {
            let value = Shown::as_given(*x, u.to_string());
            fault(found::ValueFor { value, quantity: quantity.as_str().into() }, expected)
        });
        return false;
    }
    true
}

/// A unit that is none of its quantity.
fn unit_for(unit: &Unit, quantity: &str) -> found::UnitFor {
    found::UnitFor { unit: unit.to_string().into(), quantity: quantity.into() }
}

/// Writes what a file says of runs.
pub(crate) fn write_runs(
    writer: &mut Writer,
    mapping: &Mapping,
    data: &RunData,
    raw_file: i64,
    out: &mut Collector,
) -> Result<(), StoreError> {
    let heading = |column: &str| column.to_string();
    let run_table = schema::table("run").expect("the record has runs");
    let mut runs = BTreeMap::new();
    for (name, placed) in &data.runs {
        let wanted = spread(run_table, &placed.fields);
        if let Some(id) = writer.add_or_tell(run_table, &wanted, out, placed.row, &heading)? {
            runs.insert(name.clone(), id);
        }
    }
    vial_names(data, out);
    let mut vials = BTreeMap::new();
    for (key, vial) in &data.vials {
        let Some(run) = runs.get(&key.0) else { continue };
        if let Some(id) = write_vial(writer, mapping, key, vial, *run, out)? {
            vials.insert(key.clone(), id);
        }
    }
    write_readings(writer, data, &vials, raw_file, out)
}

fn spread(table: &'static Table, fields: &Row) -> Vec<Value> {
    table
        .columns
        .iter()
        .map(|c| fields.iter().find(|(n, _)| *n == c.name).map_or(Value::Null, |(_, v)| v.clone()))
        .collect()
}

/// A name that stands at two positions of a run cannot name a vial.
fn vial_names(data: &RunData, out: &mut Collector) {
    let mut names: HashMap<(&str, &str), (i64, u64)> = HashMap::new();
    for ((run, position), vial) in &data.vials {
        let name = vial.placed.fields.iter().find_map(|(c, v)| match v {
            Value::Text(t) if *c == "name" => Some(t.as_str()),
            _ => None,
        });
        let Some(name) = name else { continue };
        if let Some((other, row)) = names.insert((run, name), (*position, vial.placed.row)) {
            out.add(Check::FileVialTwice, Some(vial.placed.row), Some("name"), || {
                let (vial, position, row) = (quoted(name), *position, number(row));
                fault(found::VialNameTwice { vial, position, other, row }, expected::VialName)
            });
        }
    }
}

fn write_vial(
    writer: &mut Writer,
    mapping: &Mapping,
    key: &VialKey,
    vial: &VialData,
    run: i64,
    out: &mut Collector,
) -> Result<Option<i64>, StoreError> {
    let heading = |column: &str| column.to_string();
    let table = schema::table("vial").expect("the record has vials");
    let row = vial.placed.row;
    if !mapping.sources.contains_key("vial.role") {
        return known_vial(writer, key, &vial.placed, run, out);
    }
    let mut wanted = spread(table, &vial.placed.fields);
    // The run was resolved before; its name would be looked up once more for nothing.
    let place = table.place("run").expect("a vial has a run");
    wanted[place] = Value::Integer(run);
    let role = |c: &Placed| {
        c.fields.iter().find_map(|(c, v)| match v {
            Value::Text(t) if *c == "role" => Some(t.clone()),
            _ => None,
        })
    };
    let can_assign = mapping.sources.keys().any(|k| k.starts_with("assigned."));
    if role(&vial.placed).as_deref() == Some(VialRole::Standard.word()) && vial.assigned.is_empty() && can_assign {
        out.add(Check::FileStandardWithoutValue, Some(row), Some("role"), || {
            fault(found::StandardWithoutValue { position: key.1 }, expected::AssignedValue)
        });
        return Ok(None);
    }
    let Some(id) = writer.add_or_tell(table, &wanted, out, row, &heading)? else {
        return Ok(None);
    };
    let assigned = schema::table("assigned").expect("the record has assigned values");
    for (analyte, placed) in &vial.assigned {
        let mut wanted = spread(assigned, &placed.fields);
        wanted[assigned.place("vial").expect("a value belongs to a vial")] = Value::Integer(id);
        let unit = wanted[assigned.place("unit").expect("a value has a unit")].clone();
        if !writer.rename(assigned, &mut wanted, out, placed.row, &heading)? {
            continue;
        }
        if let Value::Text(code) = unit
            && let Ok(u) = Unit::parse(&code)
            && let Err(expected) = unit_fits(analyte, &u)
        {
            out.add(Check::FileUnit, Some(placed.row), Some("unit"), || fault(unit_for(&u, analyte), expected));
            continue;
        }
        writer.add_or_tell(assigned, &wanted, out, placed.row, &heading)?;
    }
    Ok(Some(id))
}

/// A vial that the sequence brought before; its name must agree where the file has one.
fn known_vial(
    writer: &mut Writer,
    key: &VialKey,
    placed: &Placed,
    run: i64,
    out: &mut Collector,
) -> Result<Option<i64>, StoreError> {
    let Some(id) = writer.act.find("vial", &[run.into(), key.1.into()])? else {
        out.add(Check::FileReference, Some(placed.row), Some("position"), || {
            fault(found::VialOfRun { position: key.1, run: quoted(&key.0) }, expected::VialOfSequence)
        });
        return Ok(None);
    };
    // Counts find their vial by run and position; a name that differs shows a sequence that was moved by a place.
    let wanted = placed.fields.iter().find_map(|(c, v)| match v {
        Value::Text(t) if *c == "name" => Some(t.as_str()),
        _ => None,
    });
    if let Some(wanted) = wanted {
        let by_id = Filter::all().is("id", id);
        for vial in writer.act.list::<record::model::Vial>(&by_id)? {
            if vial.name != wanted {
                out.add(Check::FileDiffers, Some(placed.row), Some("name"), || {
                    let found = found::VialAt { vial: quoted(wanted), position: key.1 };
                    fault(found, expected::VialAsInSequence { vial: quoted(&vial.name) })
                });
                return Ok(None);
            }
        }
    }
    Ok(Some(id))
}

fn write_readings(
    writer: &mut Writer,
    data: &RunData,
    vials: &BTreeMap<VialKey, i64>,
    raw_file: i64,
    out: &mut Collector,
) -> Result<(), StoreError> {
    let table = schema::table("reading").expect("the record has readings");
    for ((vial, isotope, resolution, mode), reading) in &data.readings {
        let Some(vial) = vials.get(vial) else { continue };
        let rates: Vec<f64> = reading.rates.iter().map(|(_, r)| *r).collect();
        let rates = serde_json::to_string(&rates).expect("finite numbers are JSON");
        let key = [(*vial).into(), Cell::Text(isotope), Cell::Text(resolution), Cell::Text(mode)];
        if let Some(id) = writer.act.find("reading", &key)? {
            let (mut same_rates, mut same_time) = (false, false);
            let by_id = Filter::all().is("id", id);
            let place = |column| table.place(column).expect("a reading has rates and their time");
            let (rates_at, time_at) = (place("rates_cps"), place("integration_s"));
            writer.act.dump(table, &by_id, &mut |_, _, cells| {
                same_rates = cells[rates_at] == Cell::Text(&rates);
                // The time says what the counts are worth: the same rates over another time are another reading.
                same_time = cells[time_at] == Cell::from(reading.integration_s);
                Ok(())
            })?;
            if same_rates && same_time {
                writer.taken.already += 1;
            } else {
                out.add(Check::FileDiffers, Some(reading.row), None, || {
                    let name = format!("{isotope} {resolution} {mode}").into();
                    if same_rates {
                        fault(found::OtherIntegration { reading: name }, expected::SameCounts)
                    } else {
                        fault(found::OtherCounts { reading: name }, expected::SameCounts)
                    }
                });
            }
            continue;
        }
        writer.insert(
            table,
            &[
                (*vial).into(),
                Cell::Text(isotope),
                Cell::Text(resolution),
                Cell::Text(mode),
                Cell::Text(&rates),
                reading.integration_s.into(),
                raw_file.into(),
                reading.row.cast_signed().into(),
            ],
        )?;
    }
    Ok(())
}
