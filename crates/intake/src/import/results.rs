//! Result tables, long and wide, read on a thread of their own into batches of small rows.
//!
//! In: records and a [`Plan`]. Out: [`Batch`]es in which bottles, series (analyte, fraction,
//! isotopes, resolution), units and texts are numbered in order of appearance and spelled out
//! once; memory grows with the number of different bottles, not with the number of rows, except
//! for one entry of 16 bytes a row by which a result that stands twice is found.

use super::cell::{OwnLimit, Said, Spread};
use super::fault::{Collector, Fault, fault, number, quoted};
use super::mapping::{Mapping, Target};
use super::pattern;
use super::plan::{Field, Plan, Value, shown};
use super::row_read;
use super::rows::Rows;
use super::shape::ABSENT;
use super::text::{Record, decode};
use super::units::unit_fits;
use crate::plausible;
use message::{Message, expected, found};
use quantity::{Check, Finding, Outcome, Unit};
use record::bounds;
use record::usual::Scale;
use rustc_hash::{FxHashMap, FxHasher};
use std::collections::BTreeMap;
use std::hash::{Hash, Hasher};
use std::sync::atomic::{AtomicBool, Ordering};

/// No text.
pub(crate) const NONE: u32 = u32::MAX;

/// Rows in one batch.
const BATCH: usize = 4096;

/// Reals beside a result, in the order of [`REALS`].
pub(crate) const REALS: [&str; 6] = [
    "result.u",
    "result.dof",
    "result.critical_value",
    "result.detection_limit",
    "result.quantification_limit",
    "result.reporting_limit",
];
/// Places of the uncertainty and of the limits among the reals.
const U: usize = 0;
const DOF: usize = 1;
const DETECTION_LIMIT: usize = 3;
const QUANTIFICATION_LIMIT: usize = 4;

/// Rows of which a preview shows what became of them.
pub const SHOWN_READ: usize = 5;

/// What a mapping made of one row of the file.
#[derive(Debug, Clone, Default, PartialEq, serde::Serialize)]
pub struct RowRead {
    /// Row of the file.
    pub row: u64,
    /// Heading and cell, as read; empty cells left out.
    pub read: Vec<(String, String)>,
    /// The results as they are kept: one line each; none where the row says that there is none, or is refused.
    pub kept: Vec<String>,
    /// The same as sentences.
    #[serde(skip)]
    pub says: Vec<Message>,
}

/// Place of the reporting limit among the reals.
pub(crate) const REPORTING_LIMIT: usize = 5;

/// Texts beside a result, in the order of [`TEXTS`].
pub(crate) const TEXTS: [&str; 4] =
    ["result.reporting_limit_kind", "result.remark", "result.laboratory", "result.method"];
/// Place of the remark among the texts.
pub(crate) const REMARK: usize = 1;
/// Place of the method among the texts.
const METHOD: usize = 3;

/// One result as read.
#[derive(Debug, Clone, Copy)]
pub struct ResultRow {
    pub row: u64,
    pub bottle: u32,
    pub series: u32,
    pub unit: u32,
    pub said: Said,
    /// NaN where nothing stands.
    pub reals: [f64; 6],
    /// [`NONE`] where nothing stands.
    pub texts: [u32; 4],
}

/// What the rows of a series have in common.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Series {
    pub analyte: String,
    pub fraction: String,
    pub isotopes: String,
    pub resolution: String,
}

/// A bottle at its first appearance in the file.
#[derive(Debug, Clone)]
pub(crate) struct NewBottle {
    pub row: u64,
    pub label: String,
    /// Columns of `bottle` with their values, label left out.
    pub fields: Vec<(&'static str, Value)>,
    /// Columns of `well` with their values.
    pub well: Vec<(&'static str, Value)>,
    /// Label of the sample of which it is a replicate.
    pub parent: Option<String>,
    /// Replicate sets that name it.
    pub set: Option<String>,
}

/// Rows, and what they newly refer to.
#[derive(Debug, Default)]
pub(crate) struct Batch {
    pub bottles: Vec<NewBottle>,
    pub series: Vec<Series>,
    pub units: Vec<Unit>,
    pub texts: Vec<String>,
    pub rows: Vec<ResultRow>,
}

/// What the reading thread hands back at its end.
#[derive(Debug)]
pub struct Read {
    pub collector: Collector,
    pub notes: Vec<Finding>,
    /// Rows of the file with data.
    pub rows: u64,
    /// Cells that said that there is no result.
    pub without: u64,
    /// What became of the first rows.
    pub shown: Vec<RowRead>,
}

struct Known {
    id: u32,
    attributes: u64,
    row: u64,
}

/// Texts numbered in order of appearance, with a memory of the last one.
#[derive(Default)]
struct Interner {
    ids: FxHashMap<Box<[u8]>, u32>,
    last: (Vec<u8>, u32),
}

impl Interner {
    fn get(&mut self, bytes: &[u8]) -> Option<u32> {
        if self.last.0 == bytes && !bytes.is_empty() {
            return Some(self.last.1);
        }
        let id = *self.ids.get(bytes)?;
        self.remember(bytes, id);
        Some(id)
    }

    fn remember(&mut self, bytes: &[u8], id: u32) {
        self.last.0.clear();
        self.last.0.extend_from_slice(bytes);
        self.last.1 = id;
    }

    fn insert(&mut self, bytes: &[u8], id: u32) {
        self.ids.insert(bytes.into(), id);
        self.remember(bytes, id);
    }
}

/// Reads result tables.
pub(crate) struct ResultReader<'a> {
    mapping: &'a Mapping,
    plan: &'a Plan,
    out: Collector,
    notes: Vec<Finding>,
    batch: Batch,
    bottles: FxHashMap<Box<str>, Known>,
    attributes: Vec<&'a Field>,
    label: &'a Field,
    series_fields: Vec<&'a Field>,
    series_cells: Interner,
    series: FxHashMap<Series, u32>,
    units: Interner,
    unit_list: Vec<Unit>,
    series_list: Vec<Series>,
    fits: FxHashMap<u64, bool>,
    scales: FxHashMap<u64, Option<Scale>>,
    texts: Interner,
    text_count: u32,
    seen: FxHashMap<u64, u32>,
    wide_series: FxHashMap<(usize, Box<str>), u32>,
    wide_units: Vec<u32>,
    scratch: Vec<u8>,
    rows: u64,
    without: u64,
    shown: Vec<RowRead>,
}

impl<'a> ResultReader<'a> {
    /// A reader; the plan has every field that the mapping requires.
    pub fn new(mapping: &'a Mapping, plan: &'a Plan, out: Collector) -> Option<Self> {
        let mut attributes = plan.of_table("bottle");
        // The label is the bottle's name and is looked up; attributes are what rows of one name have to agree on.
        attributes.retain(|f| f.name != "bottle.label");
        attributes.extend(plan.of_table("well"));
        let series_fields = ["analyte", "fraction", "isotopes", "resolution"]
            .iter()
            .filter_map(|c| plan.field(&format!("result.{c}")))
            .collect();
        let mut reader = Self {
            mapping,
            plan,
            out,
            notes: vec![],
            batch: Batch::default(),
            bottles: FxHashMap::default(),
            attributes,
            label: plan.field("bottle.label")?,
            series_fields,
            series_cells: Interner::default(),
            series: FxHashMap::default(),
            units: Interner::default(),
            unit_list: vec![],
            series_list: vec![],
            fits: FxHashMap::default(),
            scales: FxHashMap::default(),
            texts: Interner::default(),
            text_count: 0,
            seen: FxHashMap::default(),
            wide_series: FxHashMap::default(),
            wide_units: vec![],
            scratch: vec![],
            rows: 0,
            without: 0,
            shown: vec![],
        };
        for column in &plan.analytes {
            let id = reader.unit_id(column.unit.clone());
            reader.wide_units.push(id);
        }
        Some(reader)
    }

    /// Reads a file through; `each` takes the batches and says whether to go on, `faulty` is set
    /// before it as soon as a fault is known.
    pub fn read(
        mut self,
        rows: &mut Rows,
        faulty: &AtomicBool,
        mut each: impl FnMut(Batch) -> bool,
    ) -> Result<Read, std::io::Error> {
        let plan = self.plan;
        let mut record = Record::default();
        let wide = self.mapping.target == Target::ResultsWide;
        while rows.next_data(&mut record, &plan.headings, &mut self.out)? {
            self.rows += 1;
            let before = self.batch.rows.len();
            if wide {
                self.wide_row(&record);
            } else {
                self.long_row(&record);
            }
            if self.shown.len() < SHOWN_READ {
                self.show(&record, before);
            }
            if self.batch.rows.len() >= BATCH {
                faulty.fetch_or(!self.out.faults.is_empty(), Ordering::Relaxed);
                let full = std::mem::replace(
                    &mut self.batch,
                    Batch { rows: Vec::with_capacity(BATCH + 64), ..Batch::default() },
                );
                if !each(full) {
                    return Ok(self.end());
                }
            }
        }
        faulty.fetch_or(!self.out.faults.is_empty(), Ordering::Relaxed);
        each(std::mem::take(&mut self.batch));
        Ok(self.end())
    }

    fn end(self) -> Read {
        Read { collector: self.out, notes: self.notes, rows: self.rows, without: self.without, shown: self.shown }
    }

    /// Keeps for a preview what became of a row.
    fn show(&mut self, record: &Record, before: usize) {
        let mut read = vec![];
        for (at, heading) in self.plan.headings.iter().enumerate() {
            let text = decode(record.get(at), self.mapping.file.encoding).unwrap_or_default();
            if !text.is_empty() && record.get(at) != ABSENT {
                read.push((heading.clone(), text.into_owned()));
            }
        }
        let kept = self.batch.rows[before..].iter().map(|r| self.in_words(r)).collect();
        let says = self.batch.rows[before..].iter().map(|r| self.as_sentence(r)).collect();
        self.shown.push(RowRead { row: record.row, read, kept, says });
    }

    /// A result as it is kept, as a sentence.
    fn as_sentence(&self, row: &ResultRow) -> Message {
        let label = self.bottles.iter().find(|(_, k)| k.id == row.bottle).map_or("", |(l, _)| l);
        let new = self.batch.bottles.iter().find(|b| b.label == label);
        let filled = new.and_then(|b| b.fields.iter().find(|(column, _)| *column == "filled_at"));
        let day = match filled {
            Some((_, Value::Text(at))) => at.get(..10),
            _ => None,
        };
        let series = &self.series_list[row.series as usize];
        row_read::sentence(label, day, series, &self.unit_list[row.unit as usize], row)
    }

    /// A result as it is kept, in one line.
    fn in_words(&self, row: &ResultRow) -> String {
        let label = self.bottles.iter().find(|(_, k)| k.id == row.bottle).map_or("", |(l, _)| l);
        let s = &self.series_list[row.series as usize];
        let unit = self.unit_list[row.unit as usize].to_string();
        let unit = if unit == "pH" { String::new() } else { format!(" {unit}") };
        let said = match row.said {
            Said::Nothing | Said::BelowOf(_) => "no result".to_string(),
            Said::Value(x) => format!("{x}{unit}"),
            Said::Estimate(x) => format!("{x}{unit}, estimated"),
            Said::Below(l) => format!("< {l}{unit}"),
            Said::NotDetected(Some(l)) => format!("not detected, < {l}{unit}"),
            Said::NotDetected(None) => "not detected, limit not known".into(),
            Said::Above(l) => format!("> {l}{unit}"),
        };
        let mut out = format!("{label}: {} {said}", s.analyte);
        for (k, name) in ["u", "degrees of freedom", "L_C", "L_D", "L_Q", "reporting limit"].iter().enumerate() {
            let unit = if k == DOF { "" } else { unit.as_str() };
            if !row.reals[k].is_nan() {
                out += &format!(", {name} {}{unit}", row.reals[k]);
            }
        }
        for text in [&s.fraction, &s.isotopes, &s.resolution] {
            if !text.is_empty() {
                out += ", ";
                out += text;
            }
        }
        out
    }

    fn fault(&mut self, check: Check, row: u64, column: &str, why: Fault) {
        self.out.add(check, Some(row), Some(column), || why);
    }

    fn long_row(&mut self, record: &Record) {
        let plan = self.plan;
        let bottle = self.bottle(record);
        let series = self.long_series(record);
        let value = &plan.fields["result.value"];
        let unit = match plan.field("result.unit") {
            Some(f) => self.unit_cell(f, record),
            None => value.unit.clone().map(|u| self.unit_id(u)),
        };
        let said = self.measured(record, value);
        // Only here, when all parts were read: a row tells all its faults at once.
        let (Some(bottle), Some(series), Some(unit), Some((said, remark, spread))) = (bottle, series, unit, said)
        else {
            return;
        };
        if said == Said::Nothing {
            self.without += 1;
            return;
        }
        if !self.unit_fits(series, unit) {
            let column = plan.field("result.unit").unwrap_or(value).heading.clone();
            self.unit_mismatch(record.row, &column, series, unit);
            return;
        }
        if let Some(expected) = self.beyond(series, unit, said) {
            let why = fault(shown(record, value.plain_cell().unwrap_or(usize::MAX)), expected);
            self.fault(Check::FileValue, record.row, &value.heading, why);
            return;
        }
        self.tell_unusual(series, unit, said, record.row, &value.heading);
        if let Some((mut reals, texts)) = self.beside(record, remark) {
            let said = match self.settle(said, spread, &mut reals, unit) {
                Ok(said) => said,
                Err((heading, why)) => return self.fault(Check::FileUnit, record.row, &heading, why),
            };
            self.push(ResultRow { row: record.row, bottle, series, unit, said, reals, texts }, &value.heading);
        }
    }

    fn wide_row(&mut self, record: &Record) {
        let plan = self.plan;
        let Some(bottle) = self.bottle(record) else {
            return;
        };
        // No remark yet: in a wide table it belongs to each cell, not to the row.
        let Some((reals, texts)) = self.beside(record, NONE) else {
            return;
        };
        let fraction = match plan.field("result.fraction") {
            Some(f) => match f.text(record, self.mapping) {
                Ok(t) => t.into_owned(),
                Err(why) => return self.fault(Check::FileValue, record.row, &f.heading, why),
            },
            None => String::new(),
        };
        for (k, column) in plan.analytes.iter().enumerate() {
            // The block of this row does not have this column.
            if record.get(column.at) == ABSENT {
                continue;
            }
            let cell = match decode(record.get(column.at), self.mapping.file.encoding) {
                Ok(c) => c,
                Err(why) => {
                    self.fault(Check::FileEncoding, record.row, &column.heading, why);
                    continue;
                }
            };
            let (said, word, spread) = match self.read_cell(&cell, None) {
                Ok((Said::Nothing, ..)) => {
                    self.without += 1;
                    continue;
                }
                Ok(read) => read,
                Err(expected) => {
                    let why = fault(quoted(&cell), expected);
                    self.fault(Check::FileValue, record.row, &column.heading, why);
                    continue;
                }
            };
            let fraction = column.fraction.as_deref().unwrap_or(&fraction);
            if fraction.is_empty() {
                let why = fault(found::NoFraction, expected::Fraction);
                self.fault(Check::FileValue, record.row, &column.heading, why);
                continue;
            }
            let series = self.wide_series(k, &column.analyte, fraction);
            let unit = self.wide_units[k];
            if !self.unit_fits(series, unit) {
                self.unit_mismatch(record.row, &column.heading, series, unit);
                continue;
            }
            if let Some(expected) = self.beyond(series, unit, said) {
                self.fault(Check::FileValue, record.row, &column.heading, fault(quoted(&cell), expected));
                continue;
            }
            self.tell_unusual(series, unit, said, record.row, &column.heading);
            let mut texts = texts;
            texts[REMARK] = self.text_id(word.as_bytes());
            if let Some(method) = &column.method {
                texts[METHOD] = self.text_id(method.as_bytes());
            }
            let mut reals = reals;
            let said = match self.settle(said, spread, &mut reals, unit) {
                Ok(said) => said,
                Err((heading, why)) => {
                    self.fault(Check::FileUnit, record.row, &heading, why);
                    continue;
                }
            };
            self.push(ResultRow { row: record.row, bottle, series, unit, said, reals, texts }, &column.heading);
        }
    }

    /// Adds a row, unless its bottle and series stood before.
    fn push(&mut self, row: ResultRow, heading: &str) {
        let key = u64::from(row.bottle) << 32 | u64::from(row.series);
        let number = u32::try_from(row.row).unwrap_or(u32::MAX);
        if let Some(first) = self.seen.insert(key, number) {
            let s = &self.series_list[row.series as usize];
            self.out.add(Check::FileResultTwice, Some(row.row), Some(heading), || {
                let (analyte, fraction) = (s.analyte.as_str().into(), s.fraction.as_str().into());
                fault(found::ResultTwice { analyte, fraction, row: first.into() }, expected::OneResult)
            });
            return;
        }
        self.batch.rows.push(row);
    }

    /// What a value's cell says, the word in it, and what stands behind its ±.
    fn read_cell<'t>(&self, cell: &str, remark: Option<&'t str>) -> Result<(Said, &'t str, Option<Spread>), Message>
    where
        'a: 't,
    {
        let rules: &'a super::cell::Rules = &self.mapping.rules;
        let (value, spread) = rules.part_spread(cell)?;
        if spread.is_some() && self.mapping.plus_minus.is_none() {
            return Err(expected::CoverageOfCell.into());
        }
        let (said, word) = rules.read(value, remark)?;
        Ok((said, word, spread))
    }

    /// Makes of a result and what stands beside it what is kept: the limit of a word that names one, limits and
    /// uncertainty in the result's unit, the uncertainty standard.
    fn settle(
        &self,
        said: Said,
        spread: Option<Spread>,
        reals: &mut [f64; 6],
        unit: u32,
    ) -> Result<Said, (String, Fault)> {
        let to = &self.unit_list[unit as usize];
        for (k, name) in REALS.iter().enumerate() {
            if reals[k].is_nan() {
                continue;
            }
            let Some(f) = self.plan.field(name) else { continue };
            if let Some(from) = f.carried.as_ref().filter(|u| *u != to) {
                let c = from.conversion(to, None, None).map_err(|_| {
                    let (unit, other) = (from.to_string().into(), to.to_string().into());
                    (
                        f.heading.clone(),
                        fault(found::UnitBeside { unit, other }, expected::UnitTo { unit: to.to_string().into() }),
                    )
                })?;
                reals[k] = if k == U { c.apply_difference(reals[k]) } else { c.apply(reals[k]) };
            }
        }
        let value = match said {
            Said::Value(x) | Said::Estimate(x) => Some(x),
            _ => None,
        };
        let of_value = |x: f64, percent: bool| match (percent, value) {
            (false, _) => x,
            (true, Some(v)) => v.abs() * x / 100.0,
            (true, None) => f64::NAN,
        };
        if let (Some(s), Some(k)) = (spread, self.mapping.plus_minus) {
            reals[U] = of_value(s.x, s.percent) / k;
        } else if let Some(f) = self.plan.field(REALS[U]).filter(|_| !reals[U].is_nan()) {
            let (k, percent) = f.spread;
            reals[U] = of_value(reals[U], percent) / k;
        }
        let stated = |k: usize| Some(reals[k]).filter(|x| *x > 0.0);
        Ok(match said {
            Said::BelowOf(limit) => {
                let k = if limit == OwnLimit::Detection { DETECTION_LIMIT } else { QUANTIFICATION_LIMIT };
                // Without the column of that limit it is not known, and no other stands in for it.
                stated(k).map_or(Said::NotDetected(None), Said::Below)
            }
            // Not detected, and no limit beside the word: the reporting limit, else the detection limit, under which what
            // was not detected lies, else the quantification limit, which lies above it.
            Said::NotDetected(None) => Said::NotDetected(
                stated(REPORTING_LIMIT).or_else(|| stated(DETECTION_LIMIT)).or_else(|| stated(QUANTIFICATION_LIMIT)),
            ),
            other => other,
        })
    }

    /// What the value's cell and the remark's cell say, and the remark as written.
    fn measured(&mut self, record: &Record, value: &Field) -> Option<(Said, u32, Option<Spread>)> {
        let plan = self.plan;
        let cell = match value.text(record, self.mapping) {
            Ok(c) => c,
            Err(why) => {
                self.fault(Check::FileEncoding, record.row, &value.heading, why);
                return None;
            }
        };
        let remark_field = plan.field("result.remark");
        let remark = match remark_field.map(|f| f.text(record, self.mapping)) {
            None => None,
            Some(Ok(r)) => Some(r),
            Some(Err(why)) => {
                let heading = &remark_field.expect("it gave a text").heading;
                self.fault(Check::FileEncoding, record.row, heading, why);
                return None;
            }
        };
        match self.read_cell(&cell, remark.as_deref()) {
            Ok((said, word, spread)) => Some((said, self.text_id(word.as_bytes()), spread)),
            Err(expected) => {
                self.fault(Check::FileValue, record.row, &value.heading, fault(quoted(&cell), expected));
                None
            }
        }
    }

    /// Numbers and texts beside the value.
    fn beside(&mut self, record: &Record, remark: u32) -> Option<([f64; 6], [u32; 4])> {
        let plan = self.plan;
        // NaN stands for an empty cell: no cell reads as NaN, and six options would make each row larger.
        let mut reals = [f64::NAN; 6];
        let mut good = true;
        for (slot, name) in reals.iter_mut().zip(REALS) {
            let Some(f) = plan.field(name) else { continue };
            let read = f.text(record, self.mapping).and_then(|t| {
                if t.is_empty() { Ok(f64::NAN) } else { f.real(&t, self.mapping).map_err(|e| fault(quoted(&t), e)) }
            });
            match read {
                Ok(x) => *slot = x,
                Err(why) => {
                    self.fault(Check::FileValue, record.row, &f.heading, why);
                    good = false;
                }
            }
        }
        let mut texts = [NONE; 4];
        for (k, name) in TEXTS.iter().enumerate() {
            if k == REMARK {
                texts[k] = remark;
                continue;
            }
            let Some(f) = plan.field(name) else { continue };
            match f.text(record, self.mapping) {
                Ok(t) => texts[k] = self.text_id(t.as_bytes()),
                Err(why) => {
                    self.fault(Check::FileValue, record.row, &f.heading, why);
                    good = false;
                }
            }
        }
        good.then_some((reals, texts))
    }

    fn text_id(&mut self, bytes: &[u8]) -> u32 {
        if bytes.is_empty() {
            return NONE;
        }
        if let Some(id) = self.texts.get(bytes) {
            return id;
        }
        let id = self.text_count;
        self.text_count += 1;
        self.texts.insert(bytes, id);
        self.batch.texts.push(String::from_utf8_lossy(bytes).into_owned());
        id
    }

    fn unit_id(&mut self, unit: Unit) -> u32 {
        if let Some(k) = self.unit_list.iter().position(|u| *u == unit) {
            return k as u32;
        }
        self.unit_list.push(unit.clone());
        self.batch.units.push(unit);
        (self.unit_list.len() - 1) as u32
    }

    fn unit_cell(&mut self, field: &Field, record: &Record) -> Option<u32> {
        if let Some(at) = field.plain_cell()
            && let Some(id) = self.units.get(record.get(at))
        {
            return Some(id);
        }
        let read = field.text(record, self.mapping).and_then(|t| {
            pattern::unit(&t, &self.mapping.units)
                .map_err(|e| fault(quoted(&t), expected::UnitOrEntry { why: e.message() }))
        });
        match read {
            Ok(unit) => {
                let id = self.unit_id(unit);
                if let Some(at) = field.plain_cell() {
                    self.units.insert(record.get(at), id);
                }
                Some(id)
            }
            Err(why) => {
                self.fault(Check::FileUnit, record.row, &field.heading, why);
                None
            }
        }
    }

    fn unit_fits(&mut self, series: u32, unit: u32) -> bool {
        let key = u64::from(series) << 32 | u64::from(unit);
        let (list, units) = (&self.series_list, &self.unit_list);
        *self
            .fits
            .entry(key)
            .or_insert_with(|| unit_fits(&list[series as usize].analyte, &units[unit as usize]).is_ok())
    }

    /// The range of the quantity, where the value lies outside what it can be.
    fn beyond(&self, series: u32, unit: u32, said: Said) -> Option<Message> {
        let (Said::Value(x) | Said::Estimate(x)) = said else { return None };
        bounds::reading(&self.series_list[series as usize].analyte, x, &self.unit_list[unit as usize]).err()
    }

    /// A value that its quantity can have and seldom has is taken and told.
    fn tell_unusual(&mut self, series: u32, unit: u32, said: Said, row: u64, column: &str) {
        let (Said::Value(x) | Said::Estimate(x)) = said else { return };
        let key = u64::from(series) << 32 | u64::from(unit);
        let (analyte, unit) = (&self.series_list[series as usize].analyte, &self.unit_list[unit as usize]);
        let scale = self.scales.entry(key).or_insert_with(|| Scale::of(analyte, unit));
        if let Some(says) = scale.and_then(|s| plausible::measured(&s, analyte, x, unit)) {
            self.out.note(Some(row), column, says);
        }
    }

    fn unit_mismatch(&mut self, row: u64, column: &str, series: u32, unit: u32) {
        let analyte = &self.series_list[series as usize].analyte;
        let unit = &self.unit_list[unit as usize];
        let Err(expected) = unit_fits(analyte, unit) else { return };
        self.out.add(Check::FileUnit, Some(row), Some(column), || {
            let (unit, quantity) = (unit.to_string().into(), analyte.as_str().into());
            fault(found::UnitFor { unit, quantity }, expected)
        });
    }

    fn new_series(&mut self, s: Series) -> u32 {
        if let Some(id) = self.series.get(&s) {
            return *id;
        }
        let id = self.series_list.len() as u32;
        self.series.insert(s.clone(), id);
        self.series_list.push(s.clone());
        self.batch.series.push(s);
        id
    }

    fn long_series(&mut self, record: &Record) -> Option<u32> {
        // By the raw bytes: a file of millions of rows has few series, and each is decoded and translated only once.
        let mut key = std::mem::take(&mut self.scratch);
        key.clear();
        for f in &self.series_fields {
            f.raw(record, |b| {
                key.extend_from_slice(b);
                key.push(0x1F);
            });
        }
        let known = self.series_cells.get(&key);
        self.scratch = key;
        if known.is_some() {
            return known;
        }
        let mut texts = [const { String::new() }; 4];
        let fields = self.series_fields.clone();
        for f in fields {
            let place = ["analyte", "fraction", "isotopes", "resolution"]
                .iter()
                .position(|c| f.name.ends_with(c))
                .expect("series fields are these four");
            match f.text(record, self.mapping) {
                Ok(t) if t.is_empty() && place < 2 => {
                    self.fault(Check::FileValue, record.row, &f.heading, f.needed());
                    return None;
                }
                Ok(t) => texts[place] = t.into_owned(),
                Err(why) => {
                    self.fault(Check::FileValue, record.row, &f.heading, why);
                    return None;
                }
            }
        }
        let [analyte, fraction, isotopes, resolution] = texts;
        let id = self.new_series(Series { analyte, fraction, isotopes, resolution });
        let key = std::mem::take(&mut self.scratch);
        self.series_cells.insert(&key, id);
        self.scratch = key;
        Some(id)
    }

    fn wide_series(&mut self, k: usize, analyte: &str, fraction: &str) -> u32 {
        if let Some(id) = self.wide_series.get(&(k, Box::from(fraction))) {
            return *id;
        }
        let column = &self.plan.analytes[k];
        let id = self.new_series(Series {
            analyte: analyte.to_string(),
            fraction: fraction.to_string(),
            isotopes: column.isotopes.clone(),
            resolution: column.resolution.clone(),
        });
        self.wide_series.insert((k, Box::from(fraction)), id);
        id
    }

    fn attribute_hash(&self, record: &Record) -> u64 {
        let mut h = FxHasher::default();
        for f in &self.attributes {
            f.raw(record, |b| b.hash(&mut h));
        }
        h.finish()
    }

    fn bottle(&mut self, record: &Record) -> Option<u32> {
        let label = match self.label.text(record, self.mapping) {
            Ok(l) if l.is_empty() => Err(fault(found::Nothing, expected::Label)),
            other => other,
        };
        let label = match label {
            Ok(l) => l,
            Err(why) => {
                let column = &self.label.heading.clone();
                self.fault(Check::FileValue, record.row, column, why);
                return None;
            }
        };
        let hash = if self.attributes.is_empty() { 0 } else { self.attribute_hash(record) };
        if let Some(known) = self.bottles.get(label.as_ref()) {
            if known.attributes == hash {
                return Some(known.id);
            }
            let (id, first) = (known.id, known.row);
            let heading = self.label.heading.clone();
            self.out.add(Check::FileBottleDiffers, Some(record.row), Some(&heading), || {
                fault(found::BottleDiffers { bottle: quoted(&label), row: number(first) }, expected::SameBottle)
            });
            return Some(id);
        }
        let bottle = self.describe(record, label.into_owned());
        Some(self.add_bottle(bottle, hash))
    }

    fn add_bottle(&mut self, bottle: NewBottle, attributes: u64) -> u32 {
        let id = self.bottles.len() as u32;
        self.bottles.insert(bottle.label.as_str().into(), Known { id, attributes, row: bottle.row });
        self.batch.bottles.push(bottle);
        id
    }

    fn describe(&mut self, record: &Record, label: String) -> NewBottle {
        let mut fields = vec![];
        let mut well = vec![];
        for f in self.attributes.clone() {
            let (table, _) = f.name.split_once('.').expect("fields are table.column");
            match f.value(record, self.mapping) {
                Ok(Value::Null) => {}
                Ok(v) => {
                    let to = if table == "bottle" { &mut fields } else { &mut well };
                    to.push((f.column.expect("an attribute is a column").name, v));
                }
                Err(why) => self.fault(Check::FileValue, record.row, &f.heading, why),
            }
        }
        NewBottle { row: record.row, label, fields, well, parent: None, set: None }
    }

    /// Reads a file through for its replicate sets, before the results: every bottle of kind
    /// `sample` in a set is the parent of the set's other bottles.
    pub fn read_sets(&mut self, rows: &mut Rows) -> Result<(), std::io::Error> {
        let plan = self.plan;
        let Some(at) = plan.set else { return Ok(()) };
        let mut record = Record::default();
        let mut sets: BTreeMap<Vec<u8>, Vec<usize>> = BTreeMap::new();
        let mut order: Vec<(NewBottle, u64)> = vec![];
        let mut place: FxHashMap<String, usize> = FxHashMap::default();
        // Faults of rows are told in the second reading, once.
        let mut silent = Collector::new("", true);
        while rows.next_data(&mut record, &plan.headings, &mut silent)? {
            let Ok(label) = self.label.text(&record, self.mapping) else {
                continue;
            };
            if label.is_empty() {
                continue;
            }
            let k = if let Some(k) = place.get(label.as_ref()) {
                *k
            } else {
                let hash = self.attribute_hash(&record);
                let bottle = self.describe(&record, label.clone().into_owned());
                order.push((bottle, hash));
                place.insert(label.into_owned(), order.len() - 1);
                order.len() - 1
            };
            let set = record.get(at);
            if set.is_empty() {
                let heading = plan.headings[at].clone();
                let why = fault(shown(&record, at), expected::Set);
                self.fault(Check::FileValue, record.row, &heading, why);
                continue;
            }
            let members = sets.entry(set.to_vec()).or_default();
            if !members.contains(&k) {
                members.push(k);
            }
        }
        self.join(&mut order, &sets);
        let (samples, others): (Vec<_>, Vec<_>) = order.into_iter().partition(|(b, _)| b.parent.is_none());
        for (bottle, hash) in samples.into_iter().chain(others) {
            self.add_bottle(bottle, hash);
        }
        Ok(())
    }

    fn join(&mut self, order: &mut [(NewBottle, u64)], sets: &BTreeMap<Vec<u8>, Vec<usize>>) {
        let is_sample =
            |b: &NewBottle| b.fields.iter().any(|(c, v)| *c == "kind" && *v == Value::Text("sample".into()));
        let mut named: BTreeMap<usize, Vec<String>> = BTreeMap::new();
        let mut parents: BTreeMap<usize, BTreeMap<usize, usize>> = BTreeMap::new();
        for (set, members) in sets {
            let heads: Vec<usize> = members.iter().copied().filter(|k| is_sample(&order[*k].0)).collect();
            for k in members {
                named.entry(*k).or_default().push(String::from_utf8_lossy(set).into_owned());
                if let (Some(head), false) = (heads.first(), is_sample(&order[*k].0)) {
                    *parents.entry(*k).or_default().entry(*head).or_insert(0) += 1;
                }
            }
        }
        for (k, names) in named {
            order[k].0.set = Some(names.join(" "));
        }
        for (k, heads) in parents {
            // The sample of most sets; of equals the one that stands first.
            let (head, n) = heads
                .iter()
                .map(|(h, n)| (*h, *n))
                .max_by_key(|(h, n)| (*n, std::cmp::Reverse(*h)))
                .expect("an entry was made with a head");
            let parent = order[head].0.label.clone();
            if heads.len() > 1 {
                let all: usize = heads.values().sum();
                let b = &order[k].0;
                self.notes.push(self.out.finding(
                    Check::FileReplicateOfTwo,
                    Outcome::NotKnown,
                    Some(b.row),
                    None,
                    Message::from(message::intake::ReplicateOfTwo {
                        bottle: quoted(&b.label),
                        samples: message::count(heads.len()),
                        parent: parent.as_str().into(),
                        sets: message::count(n),
                        all: message::count(all),
                    }),
                ));
            }
            order[k].0.parent = Some(parent);
        }
    }
}
