//! Sequences and counts of a run: rows, isotopes across, or blocks as instruments export them.
//!
//! In: records and a [`Plan`] (blocks need no headings). Out: [`RunData`], ordered by run,
//! position, isotope, resolution and mode, so that the order of rows in the file does not matter.
//! A run is held in memory: 1,000 vials × 50 isotopes are some 10 MB.

use super::cell::{self, Expected};
use super::fault::{Collector, Fault, fault, number, quoted};
use super::mapping::{Blocks, Layout, Mapping};
use super::pattern::Pattern;
use super::plan::{Field, IsotopeColumn, Plan, Value, is_name, isotope, isotope_column, short_enough};
use super::rows::Rows;
use super::text::{Record, decode};
use message::{Message, count, expected, found};
use quantity::Check;
use record::bounds::ActTime;
use record::identity;
use record::schema::{self, Kind};
use std::collections::BTreeMap;

/// Columns with their values.
pub type Row = Vec<(&'static str, Value)>;

/// A row and where it stood first.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Placed {
    pub row: u64,
    pub fields: Row,
}

/// A vial of a file.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct VialData {
    pub placed: Placed,
    pub assigned: BTreeMap<String, Placed>,
}

/// Run and position.
pub(crate) type VialKey = (String, i64);

/// A vial and isotope, resolution, mode.
pub(crate) type ReadingKey = (VialKey, String, String, String);

/// A reading of a file.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ReadingData {
    pub row: u64,
    pub integration_s: f64,
    /// Replicate number and rate.
    pub rates: Vec<(i64, f64)>,
}

/// What a file says of runs.
#[derive(Debug, Default)]
pub(crate) struct RunData {
    pub runs: BTreeMap<String, Placed>,
    pub vials: BTreeMap<VialKey, VialData>,
    pub readings: BTreeMap<ReadingKey, ReadingData>,
    /// Rows with data.
    pub rows: u64,
}

/// Reads sequences and counts.
pub(crate) struct RunReader<'a> {
    mapping: &'a Mapping,
    act: Option<ActTime>,
    pub out: Collector,
    data: RunData,
}

/// What one reading needs.
struct OneReading<'r> {
    vial: VialKey,
    isotope: String,
    resolution: String,
    mode: String,
    integration_s: f64,
    row: u64,
    heading: &'r str,
}

fn word<'w>(kind: &str, text: &'w str) -> Result<&'w str, Expected> {
    let column = schema::table("reading").and_then(|t| t.column(kind)).expect("the record has readings");
    match column.kind {
        Kind::Word(words) if !words.contains(&text) => Err(expected::OneOf { words: words.join(", ").into() }.into()),
        _ => Ok(text),
    }
}

impl<'a> RunReader<'a> {
    pub fn new(mapping: &'a Mapping, act: Option<ActTime>, out: Collector) -> Self {
        Self { mapping, act, out, data: RunData::default() }
    }

    fn fault(&mut self, check: Check, row: u64, column: &str, says: impl FnOnce() -> Fault) {
        self.out.add(check, Some(row), Some(column), says);
    }

    /// Reads rows under headings: sequence, tidy rows, isotopes across.
    pub fn read_rows(&mut self, rows: &mut Rows, plan: &Plan) -> Result<(), std::io::Error> {
        let mut record = Record::default();
        let counts = self.mapping.counts.as_ref().map(|c| c.layout);
        while rows.next_data(&mut record, &plan.headings, &mut self.out)? {
            self.data.rows += 1;
            let Some(vial) = self.vial(&record, plan) else {
                continue;
            };
            match counts {
                None => self.assigned(&record, plan, &vial, None),
                Some(Layout::Rows) => self.tidy(&record, plan, &vial),
                Some(Layout::Wide) => self.across(&record, plan, &vial),
                Some(Layout::Blocks) => {}
            }
        }
        Ok(())
    }

    /// What was read.
    pub fn finish(mut self) -> (RunData, Collector) {
        for r in self.data.readings.values_mut() {
            r.rates.sort_by_key(|(n, _)| *n);
        }
        (self.data, self.out)
    }

    fn values(&mut self, record: &Record, fields: &[&Field]) -> Option<Row> {
        let mut row = vec![];
        let mut good = true;
        for f in fields {
            match f.value(record, self.mapping) {
                Ok(Value::Null) => {}
                Ok(v) => row.push((f.column.expect("a field of the record").name, v)),
                Err(why) => {
                    self.fault(Check::FileValue, record.row, &f.heading, || why);
                    good = false;
                }
            }
        }
        good.then_some(row)
    }

    /// Takes run and vial of a row; a row that describes either otherwise than before is a fault.
    fn vial(&mut self, record: &Record, plan: &Plan) -> Option<VialKey> {
        let run = self.values(record, &plan.of_table("run"));
        let vial = self.values(record, &plan.of_table("vial"));
        let (run, vial) = (run?, vial?);
        let heading = |f: &str| plan.field(f).map_or(f.to_string(), |f| f.heading.clone());
        self.take_vial(record.row, run, vial, &heading("run.name"), &heading("vial.position"))
    }

    fn take_vial(&mut self, row: u64, run: Row, vial: Row, run_column: &str, position_column: &str) -> Option<VialKey> {
        let name = run.iter().find_map(|(c, v)| match v {
            Value::Text(t) if *c == "name" => Some(t.clone()),
            _ => None,
        });
        let position = vial.iter().find_map(|(c, v)| match v {
            Value::Integer(i) if *c == "position" => Some(*i),
            _ => None,
        });
        let Some(name) = name else {
            self.fault(Check::FileValue, row, run_column, || fault(found::Nothing, expected::Run));
            return None;
        };
        let Some(position) = position else {
            self.fault(Check::FileValue, row, position_column, || fault(found::Nothing, expected::Position));
            return None;
        };
        // Run and vial are spelled out again in each of their rows: where two rows differ, the file is refused.
        match self.data.runs.get(&name) {
            Some(first) if first.fields != run => {
                let first = number(first.row);
                self.fault(Check::FileRunDiffers, row, run_column, || {
                    fault(found::RunDiffers { run: quoted(&name), row: first }, expected::SameRun)
                });
                return None;
            }
            Some(_) => {}
            None => {
                self.data.runs.insert(name.clone(), Placed { row, fields: run });
            }
        }
        let key = (name, position);
        match self.data.vials.get(&key) {
            Some(first) if first.placed.fields != vial => {
                let first = number(first.placed.row);
                self.fault(Check::FileVialTwice, row, position_column, || {
                    fault(found::PositionOfOtherVial { position, row: first }, expected::OneVial)
                });
                None
            }
            Some(_) => Some(key),
            None => {
                let placed = Placed { row, fields: vial };
                self.data.vials.insert(key.clone(), VialData { placed, assigned: BTreeMap::new() });
                Some(key)
            }
        }
    }

    /// Takes the assigned value of a row. In tidy counts the isotope gives the element, and the
    /// same value stands in the rows of all its isotopes.
    fn assigned(&mut self, record: &Record, plan: &Plan, vial: &VialKey, element: Option<&str>) {
        let fields = plan.of_table("assigned");
        // A unit, a side or a constant stands in the rows of unknowns too: only a filled cell of its own assigns a value.
        let any = fields.iter().any(|f| {
            !["assigned.unit", "assigned.assigned_side"].contains(&&*f.name)
                && f.plain_cell().is_some()
                && f.text(record, self.mapping).is_ok_and(|t| !t.is_empty())
        });
        let first = self.data.vials[vial].placed.row;
        if !any {
            if element.is_none() && first != record.row {
                let heading = plan.field("vial.position").map_or("position", |f| f.heading.as_str());
                self.fault(Check::FileVialTwice, record.row, heading, || {
                    fault(found::PositionTwice { position: vial.1, row: number(first) }, expected::OneRowAVial)
                });
            }
            return;
        }
        let Some(mut row) = self.values(record, &fields) else {
            return;
        };
        if let Some(e) = element {
            row.retain(|(c, _)| *c != "analyte");
            row.push(("analyte", Value::Text(e.to_string())));
        }
        let heading = plan
            .field("assigned.analyte")
            .or_else(|| plan.field("assigned.value"))
            .map_or("analyte", |f| f.heading.as_str());
        let analyte = row.iter().find_map(|(c, v)| match v {
            Value::Text(t) if *c == "analyte" => Some(t.clone()),
            _ => None,
        });
        let missing: Vec<&str> =
            ["analyte", "value", "u", "unit"].into_iter().filter(|c| !row.iter().any(|(n, _)| n == c)).collect();
        let (Some(analyte), true) = (analyte, missing.is_empty()) else {
            self.fault(Check::FileAssigned, record.row, heading, || {
                fault(found::AssignedWithout { missing: missing.join(", ").into() }, expected::AssignedWhole)
            });
            return;
        };
        let data = self.data.vials.get_mut(vial).expect("it was taken");
        match data.assigned.get(&analyte) {
            Some(before) if element.is_some() && before.fields == row => {}
            Some(before) => {
                let before = number(before.row);
                self.fault(Check::FileVialTwice, record.row, heading, || {
                    let found = found::AnalyteTwice { position: vial.1, analyte: analyte.into(), row: before };
                    fault(found, expected::AssignedOnce)
                });
            }
            None => {
                let placed = Placed { row: record.row, fields: row };
                data.assigned.insert(analyte, placed);
            }
        }
    }

    /// A field's text that must be there.
    fn needed(&mut self, record: &Record, plan: &Plan, field: &str) -> Option<(String, String)> {
        let Some(f) = plan.field(field) else {
            return Some((String::new(), field.to_string()));
        };
        match f.text(record, self.mapping) {
            Ok(t) => Some((t.into_owned(), f.heading.clone())),
            Err(why) => {
                self.fault(Check::FileValue, record.row, &f.heading, || why);
                None
            }
        }
    }

    /// A number in the record's unit: the heading of a field may carry another.
    fn number(&self, text: &str, field: Option<&Field>) -> Result<f64, Expected> {
        match field {
            Some(f) => f.real(text, self.mapping),
            None => cell::number(text, self.mapping.file.numbers()),
        }
    }

    fn rate(&mut self, text: &str, field: Option<&Field>, row: u64, heading: &str) -> Option<f64> {
        match self.number(text, field) {
            Ok(x) => Some(x),
            Err(number) => {
                self.fault(Check::FileValue, row, heading, || fault(quoted(text), expected::Rate { number }));
                None
            }
        }
    }

    fn push(&mut self, one: &OneReading, replicate: Option<i64>, rate: f64) {
        let key = (one.vial.clone(), one.isotope.clone(), one.resolution.clone(), one.mode.clone());
        let reading = self.data.readings.entry(key).or_insert_with(|| ReadingData {
            row: one.row,
            integration_s: one.integration_s,
            rates: vec![],
        });
        let replicate = replicate.unwrap_or(reading.rates.len().cast_signed() as i64 + 1);
        let twice = reading.rates.iter().any(|(n, _)| *n == replicate);
        let differs = (reading.integration_s - one.integration_s).abs() > 0.0;
        if !twice && !differs {
            reading.row = reading.row.min(one.row);
            reading.rates.push((replicate, rate));
            return;
        }
        let (row, position) = (number(reading.row), one.vial.1);
        let reading = || format!("{} {} {}", one.isotope, one.resolution, one.mode).into();
        if differs {
            self.fault(Check::FileValue, one.row, one.heading, || {
                fault(found::IntegrationDiffers { reading: reading(), position, row }, expected::IntegrationTime)
            });
        } else {
            self.fault(Check::FileReadingTwice, one.row, one.heading, || {
                let found = found::ReplicateTwice { replicate, reading: reading(), position, row };
                fault(found, expected::ReplicateOnce)
            });
        }
    }

    /// Resolution, mode and integration time of a row, checked.
    fn conditions(
        &mut self,
        record: &Record,
        plan: &Plan,
        column: Option<&IsotopeColumn>,
    ) -> Option<(String, String, f64)> {
        let mut words = vec![];
        for kind in ["resolution", "mode"] {
            let named = column.and_then(|c| if kind == "mode" { c.mode.clone() } else { c.resolution.clone() });
            let (text, heading) = match (named, column) {
                (Some(t), Some(c)) => (t, c.heading.clone()),
                _ => self.needed(record, plan, &format!("reading.{kind}"))?,
            };
            if let Err(expected) = word(kind, &text) {
                self.fault(Check::FileValue, record.row, &heading, || fault(quoted(&text), expected));
                return None;
            }
            words.push(text);
        }
        let (text, heading) = self.needed(record, plan, "reading.integration_s")?;
        let integration = self.integration(&text, plan.field("reading.integration_s"), record.row, &heading)?;
        let mode = words.pop()?;
        Some((words.pop()?, mode, integration))
    }

    fn integration(&mut self, text: &str, field: Option<&Field>, row: u64, heading: &str) -> Option<f64> {
        match self.number(text, field) {
            Ok(x) if x > 0.0 => Some(x),
            _ => {
                self.fault(Check::FileValue, row, heading, || fault(quoted(text), expected::Seconds));
                None
            }
        }
    }

    fn tidy(&mut self, record: &Record, plan: &Plan, vial: &VialKey) {
        let Some((text, heading)) = self.needed(record, plan, "reading.isotope") else {
            return;
        };
        let Some(name) = isotope(&text) else {
            self.fault(Check::FileValue, record.row, &heading, || fault(quoted(&text), expected::Isotope));
            return;
        };
        // A value is assigned to an element; a tidy row names the isotope alone.
        let element: String = name.chars().filter(char::is_ascii_alphabetic).collect();
        self.assigned(record, plan, vial, Some(&element));
        let Some((resolution, mode, integration_s)) = self.conditions(record, plan, None) else {
            return;
        };
        let mut one = OneReading {
            vial: vial.clone(),
            isotope: name,
            resolution,
            mode,
            integration_s,
            row: record.row,
            heading: &heading,
        };
        if plan.replicates.is_empty() {
            let number = self.replicate(record, plan);
            if let Some((text, column)) = self.needed(record, plan, "reading.rate_cps")
                && let (Some(rate), Some(number)) =
                    (self.rate(&text, plan.field("reading.rate_cps"), record.row, &column), number)
            {
                self.push(&one, number, rate);
            }
            return;
        }
        for (k, (at, column)) in plan.replicates.iter().enumerate() {
            one.heading = column;
            if let Some(rate) = self.rate_cell(record, *at, column) {
                self.push(&one, Some(k.cast_signed() as i64 + 1), rate);
            }
        }
    }

    /// The replicate's number where the file gives one; outer none: a fault.
    #[allow(clippy::option_option, reason = "a fault, no number given, a number")]
    fn replicate(&mut self, record: &Record, plan: &Plan) -> Option<Option<i64>> {
        let (text, heading) = self.needed(record, plan, "reading.replicate")?;
        if text.is_empty() {
            return Some(None);
        }
        match text.parse::<i64>() {
            Ok(n) if n > 0 => Some(Some(n)),
            _ => {
                self.fault(Check::FileValue, record.row, &heading, || fault(quoted(&text), expected::ReplicateNumber));
                None
            }
        }
    }

    /// A rate; an empty cell is a replicate that was not measured where the mapping says so.
    fn rate_cell(&mut self, record: &Record, at: usize, heading: &str) -> Option<f64> {
        match decode(record.get(at), self.mapping.file.encoding) {
            Ok(t) if t.is_empty() && self.mapping.rules.words.get("") == Some(&cell::Meaning::Missing) => None,
            Ok(t) => self.rate(&t, None, record.row, heading),
            Err(why) => {
                self.fault(Check::FileEncoding, record.row, heading, || why);
                None
            }
        }
    }

    fn across(&mut self, record: &Record, plan: &Plan, vial: &VialKey) {
        let Some(number) = self.replicate(record, plan) else {
            return;
        };
        for column in &plan.isotopes {
            let Some((resolution, mode, integration_s)) = self.conditions(record, plan, Some(column)) else {
                return;
            };
            if let Some(rate) = self.rate_cell(record, column.at, &column.heading) {
                let one = OneReading {
                    vial: vial.clone(),
                    isotope: column.isotope.clone(),
                    resolution,
                    mode,
                    integration_s,
                    row: record.row,
                    heading: &column.heading,
                };
                self.push(&one, number, rate);
            }
        }
    }
}

/// The block that is being read.
#[derive(Default)]
struct Block {
    vial: Option<VialKey>,
    columns: Vec<IsotopeColumn>,
    /// Cells of the line with the isotopes, understood or not.
    width: usize,
    lines: BTreeMap<String, Vec<String>>,
    open: bool,
    replicates: u64,
    row: u64,
}

impl RunReader<'_> {
    /// Reads blocks: one a vial, isotopes across, replicates down.
    pub fn read_blocks(&mut self, rows: &mut Rows, stem: &str) -> Result<(), std::io::Error> {
        let mapping = self.mapping;
        let counts = mapping.counts.as_ref().expect("the mapping was checked");
        let blocks = counts.blocks.as_ref().expect("the mapping was checked");
        let heading = Pattern::parse(counts.heading.as_deref().unwrap_or("")).expect("the mapping was checked");
        let mut said: BTreeMap<String, String> = BTreeMap::new();
        for (field, source) in &mapping.sources {
            match &source.from {
                super::mapping::From::Constant(c) => {
                    said.insert(field.clone(), c.clone());
                }
                super::mapping::From::FileName => {
                    said.insert(field.clone(), stem.to_string());
                }
                _ => {}
            }
        }
        // Each pattern fits one line and is then used up: what is left of the preamble is named, never passed over.
        let mut preamble: Vec<Pattern> = blocks.preamble.iter().filter_map(|p| Pattern::parse(p).ok()).collect();
        let mut record = Record::default();
        let mut block = Block::default();
        let mut started = false;
        loop {
            match rows.next(&mut record)? {
                Ok(true) => {}
                Ok(false) => break,
                Err(t) => {
                    self.out.text_fault(&t, &[]);
                    break;
                }
            }
            if record.is_blank() {
                continue;
            }
            if let Some(t) = record.text_fault.take() {
                self.out.text_fault(&t, &[]);
                continue;
            }
            let Some(cells) = self.cells(&record) else { continue };
            if cells[0] == blocks.start {
                self.close(&block);
                started = true;
                self.data.rows += 1;
                block = self.open_block(blocks, &said, &cells, record.row);
            } else if !started {
                self.preamble(&mut preamble, &mut said, &cells, record.row);
            } else if cells[0] == blocks.across {
                block.columns = self.columns(&heading, &cells, record.row);
                block.width = cells.len();
            } else if let Some(field) = blocks.lines.get(&cells[0]) {
                block.lines.insert(field.clone(), cells[1..].to_vec());
            } else if !blocks.ignore.contains(&cells[0]) {
                self.data.rows += 1;
                self.replicate_line(&mut block, &said, &cells, record.row);
            }
        }
        self.close(&block);
        if !started {
            self.out.add(Check::FileForm, None, None, || {
                fault(found::NoBlock, expected::Blocks { begin: blocks.start.as_str().into() })
            });
        }
        Ok(())
    }

    fn cells(&mut self, record: &Record) -> Option<Vec<String>> {
        let mut cells = vec![];
        for i in 0..record.len() {
            match decode(record.get(i), self.mapping.file.encoding) {
                Ok(t) => cells.push(t.into_owned()),
                Err(why) => {
                    let n = (i + 1).to_string();
                    self.fault(Check::FileEncoding, record.row, &n, || why);
                    return None;
                }
            }
        }
        while cells.len() > 1 && cells.last().is_some_and(String::is_empty) {
            cells.pop();
        }
        Some(cells)
    }

    fn preamble(
        &mut self,
        patterns: &mut Vec<Pattern>,
        said: &mut BTreeMap<String, String>,
        cells: &[String],
        row: u64,
    ) {
        let delimiter = self.mapping.file.delimiter.unwrap_or(b';') as char;
        let joined = cells.join(&delimiter.to_string());
        let spaced = cells.join(&format!("{delimiter} "));
        for k in 0..patterns.len() {
            let found = patterns[k].fit(&joined).or_else(|| patterns[k].fit(&spaced));
            if let Some(found) = found {
                for (field, text) in found {
                    said.insert(field.to_string(), text.to_string());
                }
                patterns.remove(k);
                return;
            }
        }
        self.out.add(Check::FileForm, Some(row), None, || fault(quoted(&joined), expected::Preamble));
    }

    fn open_block(&mut self, blocks: &Blocks, said: &BTreeMap<String, String>, cells: &[String], row: u64) -> Block {
        let mut run: Row = vec![];
        let mut vial: Row = vec![];
        let in_line = blocks.start_cells.iter().cloned().zip(cells[1..].iter().cloned());
        let all = said.iter().map(|(k, v)| (k.clone(), v.clone())).chain(in_line);
        let mut good = true;
        for (field, text) in all {
            let Some((table, column)) = field.split_once('.') else { continue };
            let to = match table {
                "run" => &mut run,
                "vial" => &mut vial,
                _ => continue,
            };
            let Some(column) = schema::table(table).and_then(|t| t.column(column)) else {
                continue;
            };
            if text.is_empty() {
                continue;
            }
            if let Err(e) = short_enough(&text, is_name(table, column.name)) {
                self.fault(Check::FileValue, row, &field, || fault(quoted(&text), e));
                good = false;
                continue;
            }
            match column.kind {
                Kind::Integer => {
                    let whole = text.parse::<i64>().map_err(|_| Message::from(expected::WholeNumber));
                    match whole.and_then(|i| column.check(i as f64).map(|()| i)) {
                        Ok(i) => to.push((column.name, Value::Integer(i))),
                        Err(e) => {
                            self.fault(Check::FileValue, row, &field, || fault(quoted(&text), e));
                            good = false;
                        }
                    }
                }
                Kind::Real => {
                    match cell::number(&text, self.mapping.file.numbers()).and_then(|x| column.check(x).map(|()| x)) {
                        Ok(x) => to.push((column.name, Value::Real(x))),
                        Err(e) => {
                            self.fault(Check::FileValue, row, &field, || fault(quoted(&text), e));
                            good = false;
                        }
                    }
                }
                Kind::Time => {
                    let read = cell::time(&text, self.mapping.file.dates);
                    match read.and_then(|t| self.act.map_or(Ok(()), |a| a.check(&t)).map(|()| t)) {
                        Ok(t) => to.push((column.name, Value::Text(t))),
                        Err(e) => {
                            self.fault(Check::FileValue, row, &field, || fault(quoted(&text), e));
                            good = false;
                        }
                    }
                }
                Kind::Row(_) => to.push((column.name, Value::Name(text))),
                _ => match identity::fits(&text) {
                    Err(e) if is_name(table, column.name) => {
                        self.fault(Check::FileValue, row, &field, || fault(quoted(&text), e));
                        good = false;
                    }
                    _ => to.push((column.name, Value::Text(text))),
                },
            }
        }
        let key = if good { self.take_vial(row, run, vial, "run.name", "vial.position") } else { None };
        // Equal fields make a second row of a vial the same vial, but a second block brings its counts twice.
        if let Some(k) = &key
            && self.data.vials[k].placed.row != row
        {
            let first = number(self.data.vials[k].placed.row);
            self.fault(Check::FileVialTwice, row, "vial.position", || {
                fault(found::BlockTwice { position: k.1, row: first }, expected::OneBlock)
            });
        }
        Block { vial: key, open: true, row, ..Block::default() }
    }

    fn columns(&mut self, heading: &Pattern, cells: &[String], row: u64) -> Vec<IsotopeColumn> {
        let mut out = vec![];
        for (at, text) in cells.iter().enumerate().skip(1) {
            match isotope_column(heading, at, text) {
                Some(c) => out.push(c),
                None => self.fault(Check::FileValue, row, &(at + 1).to_string(), || {
                    fault(quoted(text), expected::IsotopeOfMapping)
                }),
            }
        }
        out
    }

    fn replicate_line(&mut self, block: &mut Block, said: &BTreeMap<String, String>, cells: &[String], row: u64) {
        let Ok(number) = cells[0].parse::<i64>() else {
            self.fault(Check::FileValue, row, "1", || fault(quoted(&cells[0]), expected::ReplicateLine));
            return;
        };
        if block.columns.is_empty() {
            self.fault(Check::FileForm, row, "1", || fault(found::ReplicatesFirst, expected::IsotopesFirst));
            return;
        }
        // Counted before its cells are looked at: a block whose lines are at fault is not called empty as well.
        block.replicates += 1;
        if cells.len() != block.width {
            let (cells, width) = (count(cells.len()), count(block.width));
            self.out.add(Check::FileRowLength, Some(row), None, || {
                fault(found::Cells { cells }, expected::BlockCells { cells: width, isotopes: width - 1 })
            });
            return;
        }
        let Some(vial) = block.vial.clone() else { return };
        for column in block.columns.clone() {
            let value_of = |field: &str| {
                block.lines.get(field).and_then(|l| l.get(column.at - 1)).or_else(|| said.get(field)).cloned()
            };
            // The nearest statement holds: the isotope's heading, then the block's own line, then the file.
            let resolution = column.resolution.clone().or_else(|| value_of("reading.resolution"));
            let mode = column.mode.clone().or_else(|| value_of("reading.mode"));
            let integration = value_of("reading.integration_s").unwrap_or_default();
            let (resolution, mode) = (resolution.unwrap_or_default(), mode.unwrap_or_default());
            for (kind, text) in [("resolution", &resolution), ("mode", &mode)] {
                if let Err(expected) = word(kind, text) {
                    self.fault(Check::FileValue, row, &column.heading, || fault(quoted(text), expected));
                    return;
                }
            }
            let Some(integration_s) = self.integration(&integration, None, row, "reading.integration_s") else {
                return;
            };
            let Some(rate) = self.rate(&cells[column.at], None, row, &column.heading) else {
                continue;
            };
            let one = OneReading {
                vial: vial.clone(),
                isotope: column.isotope.clone(),
                resolution,
                mode,
                integration_s,
                row,
                heading: &column.heading,
            };
            self.push(&one, Some(number), rate);
        }
    }

    fn close(&mut self, block: &Block) {
        if block.open && block.vial.is_some() && block.replicates == 0 {
            self.out.add(Check::FileForm, Some(block.row), None, || fault(found::BlockEmpty, expected::RowsOfCounts));
        }
    }
}
