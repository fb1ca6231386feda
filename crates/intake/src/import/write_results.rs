//! Results into the record: bottles and wells that are not there yet, one measurand for each
//! analyte, isotopes, resolution and fraction, and the rule for a result that is reported again.
//!
//! The same bottle and measurand in two files: the same statement (value, limit and state, in
//! whichever unit) is one result, kept once and counted; another statement is the next revision,
//! so that both are kept and the later one counts. Twice within one file is a fault.

use super::cell::Said;
use super::fault::{Collector, fault, quoted};
use super::mapping::{Evidence, Mapping};
use super::names::{Of, Read};
use super::plan::Value;
use super::results::{Batch, NONE, NewBottle, REALS, REPORTING_LIMIT, ResultRow, Series};
use super::write::Writer;
use crate::negative;
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
    /// Whether its label was read as another one.
    joined: bool,
    /// What stood in the record before this file: newest revision of each measurand.
    before: Option<FxHashMap<i64, model::ResultRow>>,
    /// The bottle's own label, where the file has a blind one.
    stands_for: Option<String>,
}

/// A series of the file with its measurand.
struct OneSeries {
    says: Series,
    measurand: i64,
    /// Measurands that read as this one since their names were made one.
    others: Vec<i64>,
    /// Whether another series of the file may have the same measurand, by names that are one.
    joined: bool,
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
    /// None where a name of it was refused.
    series: Vec<Option<OneSeries>>,
    units: Vec<(Unit, String)>,
    texts: Vec<String>,
    subjects: FxHashMap<(u32, State), i64>,
    scratch: String,
}

impl<'m> ResultWriter<'m> {
    /// The file whose results it writes.
    pub fn raw_file(&self) -> i64 {
        self.raw_file
    }

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
        let Batch { bottles, series, units, texts, rows: all } = batch;
        for mut bottle in bottles {
            let at = Self::named_bottle(writer, &mut bottle, out)?;
            self.labels.push(at.as_ref().and_then(|a| a.stands_for.clone()).unwrap_or(bottle.label));
            self.bottles.push(at);
        }
        for s in series {
            let row = all.iter().find(|r| r.series as usize == self.series.len()).map(|r| r.row);
            let one = self.one_series(writer, s, row, out)?;
            self.series.push(one);
        }
        for u in units {
            let code = u.ucum().to_string();
            self.units.push((u, code));
        }
        self.texts.extend(texts);
        if rows {
            for row in &all {
                self.row(writer, row, out)?;
            }
        }
        Ok(())
    }

    /// A series by the names on record; none where one was refused.
    fn one_series(
        &self,
        writer: &mut Writer,
        mut s: Series,
        row: Option<u64>,
        out: &mut Collector,
    ) -> Result<Option<OneSeries>, StoreError> {
        let (mut good, mut joined) = (true, false);
        for (of, name, column) in
            [(Of::Analyte, &mut s.analyte, "analyte"), (Of::Fraction, &mut s.fraction, "fraction")]
        {
            match writer.names.read(writer.act, of, name, out, (row, column))? {
                Read::Same => {}
                Read::As(taken) => {
                    *name = taken;
                    joined = true;
                }
                Read::Refused => good = false,
            }
        }
        if !good {
            return Ok(None);
        }
        let parts = [&s.analyte, &s.isotopes, &s.resolution, &s.fraction];
        let cells = parts.map(|t| Cell::Text(t));
        let measurand = match writer.act.find("measurand", &cells)? {
            Some(id) => id,
            None => writer.insert(schema::table("measurand").expect("the record has measurands"), &cells)?,
        };
        let same = ["analyte", "isotopes", "resolution", "fraction"].iter().zip(parts);
        let same = same.fold(Filter::all(), |filter, (column, text)| filter.is(column, text.as_str()));
        let alike = writer.act.as_typed("measurand", &same)?;
        let others = alike.into_iter().map(|(id, _)| id).filter(|id| *id != measurand).collect();
        joined |= self.series.iter().flatten().any(|other| other.measurand == measurand);
        Ok(Some(OneSeries { says: s, measurand, others, joined }))
    }

    /// A bottle by the names on record; none where one was refused or at fault.
    fn named_bottle(
        writer: &mut Writer,
        new: &mut NewBottle,
        out: &mut Collector,
    ) -> Result<Option<BottleAt>, StoreError> {
        let (mut good, mut joined, row) = (true, false, Some(new.row));
        let bottle = schema::table("bottle").expect("the record has bottles");
        let well = schema::table("well").expect("the record has wells");
        // A blind label is no slip of another one: what it stands for is on record.
        let blind =
            writer.act.find("bottle", &[Cell::Text(&new.label)])?.is_none() && writer.behind(&new.label)?.is_some();
        let read = if blind {
            Read::Same
        } else {
            writer.names.read(writer.act, Of::Row(bottle), &new.label, out, (row, "label"))?
        };
        match read {
            Read::Same => {}
            Read::As(taken) => {
                new.label = taken;
                joined = true;
            }
            Read::Refused => good = false,
        }
        for (table, fields) in [(bottle, &mut new.fields), (well, &mut new.well)] {
            for (column, value) in fields {
                if let Value::Text(name) = value
                    && let Some(of) = table.column(column).and_then(|c| Of::column(table, c))
                {
                    match writer.names.read(writer.act, of, name, out, (row, *column))? {
                        Read::Same => {}
                        Read::As(taken) => *value = Value::Text(taken),
                        Read::Refused => good = false,
                    }
                }
            }
        }
        if let Some(parent) = &new.parent
            && let Some(taken) = writer.names.referred(writer.act, Of::Row(bottle), parent)?
        {
            new.parent = Some(taken);
        }
        if !good {
            return Ok(None);
        }
        Ok(Self::bottle(writer, new, out)?.map(|at| BottleAt { joined, ..at }))
    }

    fn bottle(writer: &mut Writer, new: &NewBottle, out: &mut Collector) -> Result<Option<BottleAt>, StoreError> {
        let there = writer.act.find("bottle", &[Cell::Text(&new.label)])?;
        if there.is_none()
            && let Some(blind) = writer.behind(&new.label)?
        {
            // What the file takes a blind bottle to be (all are samples to the laboratory) says nothing of it.
            let before = Self::results_of(writer, blind.bottle_id)?;
            return Ok(Some(BottleAt { id: blind.bottle_id, joined: false, before, stands_for: Some(blind.bottle) }));
        }
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
        Ok(Some(BottleAt { id, joined: false, before: None, stands_for: None }))
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
        let id = writer.referred(other, name)?;
        if id.is_none() {
            let says = writer.absent(other, name)?;
            out.add(Check::FileReference, Some(row), Some(column), || says);
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
        Ok(Some(BottleAt { id, joined: false, before: Self::results_of(writer, id)?, stands_for: None }))
    }

    /// The newest results of a bottle by measurand; none where it has none. Asked once a bottle, not once a result: a
    /// wide panel would ask the record hundreds of times for the same rows.
    fn results_of(writer: &mut Writer, id: i64) -> Result<Option<FxHashMap<i64, model::ResultRow>>, StoreError> {
        let mut before: FxHashMap<i64, model::ResultRow> = FxHashMap::default();
        let of_bottle = Filter::all().is("bottle", id);
        for result in writer.act.list::<model::ResultRow>(&of_bottle)? {
            let newest = before.get(&result.measurand_id).is_none_or(|b| b.revision < result.revision);
            if newest {
                before.insert(result.measurand_id, result);
            }
        }
        Ok((!before.is_empty()).then_some(before))
    }

    fn row(&mut self, writer: &mut Writer, row: &ResultRow, out: &mut Collector) -> Result<(), StoreError> {
        let (Some(bottle), Some(one)) = (&self.bottles[row.bottle as usize], &self.series[row.series as usize]) else {
            return Ok(());
        };
        let (series, mut measurand) = (&one.says, one.measurand);
        // Where the bottle's result stands under a name that was made one with this, the series of revisions goes on.
        if let Some(before) = &bottle.before
            && let Some(other) = one.others.iter().find(|o| before.contains_key(o))
        {
            measurand = *other;
        }
        let (unit, code) = &self.units[row.unit as usize];
        let says = statement(row, &series.analyte, code);
        let bottle_id = bottle.id;
        let mut revision = 1;
        if let Some(old) = bottle.before.as_ref().and_then(|b| b.get(&measurand)) {
            if says.same(unit, old, &row.reals) {
                writer.taken.kept += 1;
                return Ok(());
            }
            revision = old.revision + 1;
            writer.taken.revised += 1;
        }
        // Two names of the file that are one say the same thing twice, and the reader could not know.
        if (one.joined || bottle.joined)
            && writer.act.find("result", &[bottle_id.into(), measurand.into(), revision.into()])?.is_some()
        {
            out.add(Check::FileResultTwice, Some(row.row), Some("analyte"), || {
                let (bottle, analyte) = (quoted(&self.labels[row.bottle as usize]), series.analyte.as_str().into());
                fault(found::ResultByTwoNames { bottle, analyte }, expected::OneResult)
            });
            return Ok(());
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
        let id = writer.act.insert("result", &cells)?;
        *writer.taken.added.entry("result").or_insert(0) += 1;
        if writer.preview {
            writer.show(self.table, id)?;
        }
        Ok(())
    }
}

fn statement(row: &ResultRow, analyte: &str, unit: &str) -> Statement {
    let [u, _, critical, _, quantification, reporting] = row.reals;
    let below = |limit: Option<f64>| Statement { censor: Censor::Below, value: None, limit, state: State::NotDetected };
    let value = |x: f64, state: State| Statement { censor: Censor::Equal, value: Some(x), limit: None, state };
    match row.said {
        Said::Nothing => unreachable!("cells without a result make no row"),
        // Comparisons with NaN (no such limit stated) are false.
        // Below its blank and without uncertainty: neither found nor not found.
        Said::Value(x) if u.is_nan() && critical.is_nan() && negative::says_nothing(analyte, x, unit) => {
            value(x, State::NotDecided)
        }
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
    /// Whether the record says so already, the uncertainty and the limits beside the value too. What a file leaves out
    /// of these it does not take back.
    fn same(&self, unit: &Unit, old: &model::ResultRow, beside: &[f64; REALS.len()]) -> bool {
        let factor = Unit::parse(&old.unit).and_then(|from| from.conversion(unit, None, None)).map(|c| c.factor);
        let Ok(factor) = factor else { return false };
        let equal = |a: Option<f64>, b: Option<f64>| match (a, b) {
            (None, None) => true,
            (Some(a), Some(b)) => (a - b * factor).abs() <= SAME * a.abs(),
            _ => false,
        };
        // The state follows from the statement; a not-detected net value has one too.
        // Earlier versions kept a negative value without uncertainty as quantified.
        let same_state = self.state == old.state || (self.state, old.state) == (State::NotDecided, State::Quantified);
        let [u, _, critical, detection, quantification, reporting] = *beside;
        let stands = |new: f64, old: Option<f64>| new.is_nan() || equal(Some(new), old);
        let same_beside = stands(u, old.u)
            && stands(critical, old.critical_value)
            && stands(detection, old.detection_limit)
            && stands(quantification, old.quantification_limit)
            && stands(reporting, old.reporting_limit);
        let same_value = equal(self.value, old.value) && equal(self.limit, old.limit_value);
        self.censor == old.censor && same_state && same_value && same_beside
    }
}
