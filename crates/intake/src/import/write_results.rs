//! Results into the record: bottles and wells that are not there yet, one measurand for each
//! analyte, isotopes, resolution and fraction, and the rule for a result that is reported again.
//!
//! The same bottle and measurand in two files: the same statement (value, limit and state, in
//! whichever unit) is one result, kept once and counted; another statement is the next revision,
//! so that both are kept and the later one counts. Twice within one file is a fault.

use super::cell::Said;
use super::fault::{Collector, fault, quoted};
use super::mapping::{Evidence, Mapping};
use super::plan::Value;
use super::results::{Batch, NONE, NewBottle, REPORTING_LIMIT, ResultRow, Series};
use super::write::Writer;
use message::{expected, found};
use quantity::{Check, Unit};
use record::identity::{subject_of_series, write_result};
use record::model;
use record::schema::{self, Table};
use record::store::{Cell, Filter, StoreError};
use record::words::{Censor, State};
use rustc_hash::FxHashMap;

/// Version of the program, kept with each result.
const ENGINE: &str = env!("CARGO_PKG_VERSION");

/// Relative difference below which two values of different units are the same: the conversion
/// factor's rounding.
const SAME: f64 = 1e-12;

struct BottleAt {
    id: i64,
    /// What stood in the record before this file: newest revision of each measurand.
    before: Option<FxHashMap<i64, model::ResultRow>>,
}

/// What a result says, as the record keeps it.
struct Statement {
    censor: Censor,
    value: Option<f64>,
    limit: Option<f64>,
    state: State,
}

/// Writes batches of results.
pub(crate) struct ResultWriter<'m> {
    mapping: &'m Mapping,
    raw_file: i64,
    table: &'static Table,
    bottles: Vec<Option<BottleAt>>,
    labels: Vec<String>,
    series: Vec<(Series, i64)>,
    units: Vec<(Unit, String)>,
    texts: Vec<String>,
    subjects: FxHashMap<(u32, State), i64>,
    scratch: String,
}

impl<'m> ResultWriter<'m> {
    pub fn new(mapping: &'m Mapping, raw_file: i64) -> Self {
        Self {
            mapping,
            raw_file,
            table: schema::table("result").expect("the record has results"),
            bottles: vec![],
            labels: vec![],
            series: vec![],
            units: vec![],
            texts: vec![],
            subjects: FxHashMap::default(),
            scratch: String::new(),
        }
    }

    /// Takes a batch; with `rows` off only what it refers to is looked up, for the faults in it.
    pub fn take(
        &mut self,
        writer: &mut Writer,
        batch: Batch,
        rows: bool,
        out: &mut Collector,
    ) -> Result<(), StoreError> {
        for bottle in &batch.bottles {
            let at = Self::bottle(writer, bottle, out)?;
            self.bottles.push(at);
            self.labels.push(bottle.label.clone());
        }
        for s in batch.series {
            let cells = [&s.analyte, &s.isotopes, &s.resolution, &s.fraction].map(|t| Cell::Text(t));
            let before = writer.act.find("measurand", &cells)?;
            let id = match before {
                Some(id) => id,
                None => writer.insert(schema::table("measurand").expect("the record has measurands"), &cells)?,
            };
            self.series.push((s, id));
        }
        for u in batch.units {
            let code = u.ucum().to_string();
            self.units.push((u, code));
        }
        self.texts.extend(batch.texts);
        if rows {
            for row in &batch.rows {
                self.row(writer, row)?;
            }
        }
        Ok(())
    }

    fn bottle(writer: &mut Writer, new: &NewBottle, out: &mut Collector) -> Result<Option<BottleAt>, StoreError> {
        let there = writer.act.find("bottle", &[Cell::Text(&new.label)])?;
        let Some(well) = Self::well(writer, new, out)? else {
            return Ok(None);
        };
        if let Some(id) = there {
            return Self::known_bottle(writer, new, id, well, out);
        }
        // Sample or blank decides what its results are evidence of, so a bottle of unknown kind is never made.
        if !new.fields.iter().any(|(c, _)| *c == "kind") {
            out.add(Check::FileReference, Some(new.row), Some("label"), || {
                fault(found::Bottle { bottle: quoted(&new.label) }, expected::Bottle)
            });
            return Ok(None);
        }
        let table = schema::table("bottle").expect("the record has bottles");
        let mut cells = vec![Cell::Null; table.columns.len()];
        for (place, column) in table.columns.iter().enumerate() {
            cells[place] = match column.name {
                "label" => Cell::Text(&new.label),
                "set_name" => new.set.as_deref().into(),
                "parent" => match &new.parent {
                    Some(p) => writer.act.find("bottle", &[Cell::Text(p)])?.into(),
                    None => Cell::Null,
                },
                name => match new.fields.iter().find(|(c, _)| *c == name) {
                    None if name == "well" => well.into(),
                    None | Some((_, Value::Null)) => Cell::Null,
                    Some((_, Value::Text(t))) => Cell::Text(t),
                    Some((_, Value::Integer(i))) => Cell::Integer(*i),
                    Some((_, Value::Real(x))) => Cell::Real(*x),
                    Some((_, Value::Name(n))) => match Self::reference(writer, column.kind, n, new.row, name, out)? {
                        Some(id) => Cell::Integer(id),
                        None => return Ok(None),
                    },
                },
            };
        }
        let id = writer.insert(table, &cells)?;
        Ok(Some(BottleAt { id, before: None }))
    }

    fn reference(
        writer: &mut Writer,
        kind: schema::Kind,
        name: &str,
        row: u64,
        column: &str,
        out: &mut Collector,
    ) -> Result<Option<i64>, StoreError> {
        let schema::Kind::Row(other) = kind else {
            return Ok(None);
        };
        let other = schema::table(other).expect("the record refers to its own tables");
        let id = writer.named(other, name)?;
        if id.is_none() {
            out.add(Check::FileReference, Some(row), Some(column), || {
                let found = found::Row { table: other.name.into(), row: quoted(name) };
                fault(found, expected::RowKnownOrTaken { one: super::words::one_of(other) })
            });
        }
        Ok(id)
    }

    /// The well of a bottle: outer none where it is at fault, inner none where there is none.
    #[allow(clippy::option_option, reason = "a fault, no well, a well")]
    fn well(writer: &mut Writer, new: &NewBottle, out: &mut Collector) -> Result<Option<Option<i64>>, StoreError> {
        let Some((_, Value::Text(name))) = new.well.iter().find(|(c, _)| *c == "name") else {
            return Ok(Some(None));
        };
        if let Some(id) = writer.act.find("well", &[Cell::Text(name)])? {
            return Ok(Some(Some(id)));
        }
        let table = schema::table("well").expect("the record has wells");
        let mut cells = vec![Cell::Null; table.columns.len()];
        for (column, value) in &new.well {
            let place = table.place(column).expect("a column of the table");
            cells[place] = match value {
                Value::Null => Cell::Null,
                Value::Text(t) => Cell::Text(t),
                Value::Integer(i) => Cell::Integer(*i),
                Value::Real(x) => Cell::Real(*x),
                Value::Name(n) => match Self::reference(writer, table.columns[place].kind, n, new.row, column, out)? {
                    Some(id) => Cell::Integer(id),
                    None => return Ok(None),
                },
            };
        }
        Ok(Some(Some(writer.insert(table, &cells)?)))
    }

    /// A bottle that is in the record: kind and well must agree; its results are looked up.
    fn known_bottle(
        writer: &mut Writer,
        new: &NewBottle,
        id: i64,
        well: Option<i64>,
        out: &mut Collector,
    ) -> Result<Option<BottleAt>, StoreError> {
        let by_id = Filter::all().is("id", id);
        for stored in writer.act.list::<model::Bottle>(&by_id)? {
            let kind = new.fields.iter().find_map(|(c, v)| match v {
                Value::Text(t) if *c == "kind" => Some(t.as_str()),
                _ => None,
            });
            let other_kind = kind.filter(|k| *k != stored.kind.word());
            let other_well = well.filter(|w| stored.well_id.is_some_and(|s| s != *w));
            if other_kind.is_some() || other_well.is_some() {
                let column = if other_kind.is_some() { "kind" } else { "well" };
                out.add(Check::FileDiffers, Some(new.row), Some(column), || {
                    let (bottle, kind) = (quoted(&new.label), stored.kind.word().into());
                    let expected = expected::KindOnRecord { kind };
                    match other_kind {
                        Some(kind) => fault(found::BottleOfKind { bottle, kind: kind.into() }, expected),
                        None => fault(found::BottleOfOtherWell { bottle }, expected),
                    }
                });
                return Ok(None);
            }
        }
        // Once a bottle, not once a result: a wide panel would ask the record hundreds of times for the same rows.
        let mut before: FxHashMap<i64, model::ResultRow> = FxHashMap::default();
        let of_bottle = Filter::all().is("bottle", id);
        for result in writer.act.list::<model::ResultRow>(&of_bottle)? {
            let newest = before.get(&result.measurand_id).is_none_or(|b| b.revision < result.revision);
            if newest {
                before.insert(result.measurand_id, result);
            }
        }
        Ok(Some(BottleAt { id, before: (!before.is_empty()).then_some(before) }))
    }

    fn row(&mut self, writer: &mut Writer, row: &ResultRow) -> Result<(), StoreError> {
        let Some(bottle) = &self.bottles[row.bottle as usize] else {
            return Ok(());
        };
        let (series, measurand) = &self.series[row.series as usize];
        let measurand = *measurand;
        let (unit, code) = &self.units[row.unit as usize];
        let says = statement(row);
        let bottle_id = bottle.id;
        let mut revision = 1;
        if let Some(old) = bottle.before.as_ref().and_then(|b| b.get(&measurand)) {
            if says.same(unit, old) {
                writer.taken.kept += 1;
                return Ok(());
            }
            revision = old.revision + 1;
            writer.taken.revised += 1;
        }
        let subject = match self.mapping.evidence {
            Evidence::Series => {
                if let Some(id) = self.subjects.get(&(row.series, says.state)) {
                    *id
                } else {
                    let key = subject_of_series(&series.analyte, &series.fraction, says.state.word());
                    let id = writer.act.ensure("subject", &[Cell::Text(&key)])?;
                    self.subjects.insert((row.series, says.state), id);
                    id
                }
            }
            Evidence::Result => {
                let label = &self.labels[row.bottle as usize];
                let Series { analyte, isotopes, resolution, fraction } = series;
                self.scratch.clear();
                let parts = [label, analyte, isotopes, resolution, fraction].map(String::as_str);
                write_result(&mut self.scratch, parts, Some(revision)).expect("a string takes all that is written");
                writer.act.ensure("subject", &[Cell::Text(&self.scratch)])?
            }
        };
        let text = |k: usize| match row.texts[k] {
            NONE => Cell::Null,
            id => Cell::Text(&self.texts[id as usize]),
        };
        let real = |k: usize| if row.reals[k].is_nan() { Cell::Null } else { Cell::Real(row.reals[k]) };
        // A statement below or above has a limit and no value that an uncertainty could belong to.
        let u = if says.censor == Censor::Equal { real(0) } else { Cell::Null };
        let cells = [
            bottle_id.into(),
            measurand.into(),
            revision.into(),
            Cell::Null,
            says.censor.word().into(),
            says.value.into(),
            u,
            real(1),
            says.limit.into(),
            Cell::Text(code),
            says.state.word().into(),
            real(2),
            real(3),
            real(4),
            Cell::Null,
            Cell::Null,
            Cell::Null,
            Cell::Null,
            Cell::Null,
            real(REPORTING_LIMIT),
            text(0),
            text(1),
            text(2),
            text(3),
            self.raw_file.into(),
            row.row.cast_signed().into(),
            subject.into(),
            ENGINE.into(),
            // What a laboratory reports bears what it says.
            Cell::Null,
        ];
        writer.act.insert("result", &cells)?;
        *writer.taken.added.entry("result").or_insert(0) += 1;
        if writer.preview {
            writer.show(self.table, &cells);
        }
        Ok(())
    }
}

fn statement(row: &ResultRow) -> Statement {
    let [_, _, critical, _, quantification, reporting] = row.reals;
    let below = |limit: Option<f64>| Statement { censor: Censor::Below, value: None, limit, state: State::NotDetected };
    let value = |x: f64, state: State| Statement { censor: Censor::Equal, value: Some(x), limit: None, state };
    match row.said {
        Said::Nothing => unreachable!("cells without a result make no row"),
        // Comparisons with NaN (no such limit stated) are false.
        Said::Value(x) if x <= critical => value(x, State::NotDetected),
        Said::Value(x) if x < quantification => value(x, State::Detected),
        Said::Value(x) => value(x, State::Quantified),
        Said::Estimate(x) => value(x, State::Estimated),
        Said::Below(l) => below(Some(l)),
        Said::NotDetected(limit) => below(limit.or(Some(reporting).filter(|r| *r > 0.0))),
        Said::BelowOf(_) => unreachable!("its limit was looked up beside it"),
        Said::Above(l) => Statement { censor: Censor::Above, value: None, limit: Some(l), state: State::AboveRange },
    }
}

impl Statement {
    fn same(&self, unit: &Unit, old: &model::ResultRow) -> bool {
        let factor = Unit::parse(&old.unit).and_then(|from| from.conversion(unit, None, None)).map(|c| c.factor);
        let Ok(factor) = factor else { return false };
        let equal = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (None, None) => true,
            (Some(a), Some(b)) => (a - b * factor).abs() <= SAME * a.abs(),
            _ => false,
        };
        // The state follows from the statement; a not-detected net value has one too.
        self.censor == old.censor
            && self.state == old.state
            && equal(self.value, old.value)
            && equal(self.limit, old.limit_value)
    }
}
