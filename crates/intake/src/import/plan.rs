//! A mapping laid against one file's headings: which cell fills which field.
//!
//! In: a [`Mapping`] and the headings as found. Out: [`Plan`], whose fields read a record's cells
//! to values of the record, or every fault of the headings at once: a column that is missing or
//! stands twice, a column that nothing names, a unit in a heading that is ambiguous or differs.

use super::cell::{self, Expected};
use super::fault::{Collector, Fault, fault, listed, quoted};
use super::mapping::{ColumnUnit, From, Layout, Mapping, Part, Source, Target};
use super::pattern::{self, Pattern, Piece};
use super::shape::ABSENT;
use super::text::{Record, decode, show};
use message::{Message, expected, found, intake as said};
use quantity::unit::Conversion;
use quantity::{Check, Unit, UnitError};
use record::bounds::{self, ActTime};
use record::identity;
use record::schema::{self, Column, Kind};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// A value for a column of the record.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Nothing.
    Null,
    /// Text, words, times, unit codes.
    Text(String),
    /// A whole number.
    Integer(i64),
    /// A number.
    Real(f64),
    /// The name of a row of another table.
    Name(String),
}

#[derive(Debug, Clone)]
enum Bound {
    Cell(usize),
    Constant(String),
    Template(Vec<BoundPiece>),
}

#[derive(Debug, Clone)]
enum BoundPiece {
    Literal(String),
    Cell { at: usize, digits: bool },
}

/// One field, bound to the file.
#[derive(Debug, Clone)]
pub struct Field {
    /// `table.column`.
    pub name: String,
    /// The column of the record; none for fields of the file's form only.
    pub column: Option<&'static Column>,
    /// Heading for messages.
    pub heading: String,
    bound: Bound,
    part: Part,
    values: BTreeMap<String, String>,
    keep: bool,
    empty: Option<String>,
    is_name: bool,
    /// The unit the column carries.
    pub unit: Option<Unit>,
    convert: Option<Conversion>,
    /// Time of the act, for times that cannot lie after it.
    act: Option<ActTime>,
    /// Of a limit or an uncertainty beside a result: the unit that its own heading carries.
    pub carried: Option<Unit>,
    /// Of uncertainties: what they are divided by, and whether they are in per cent of the value.
    pub spread: (f64, bool),
}

/// One analyte's column of a wide table.
#[derive(Debug, Clone)]
pub struct AnalyteColumn {
    /// Where.
    pub at: usize,
    /// Heading.
    pub heading: String,
    /// Analyte.
    pub analyte: String,
    /// Fraction, where it is not the row's.
    pub fraction: Option<String>,
    /// Unit.
    pub unit: Unit,
    /// Isotopes, where the heading names one.
    pub isotopes: String,
    /// Resolution, where the heading names it.
    pub resolution: String,
    /// Method, where one stands under the heading.
    pub method: Option<String>,
}

/// What a heading of a counts table names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IsotopeColumn {
    /// Where.
    pub at: usize,
    /// Heading.
    pub heading: String,
    /// As `Pb208`.
    pub isotope: String,
    /// Resolution, where the heading names it.
    pub resolution: Option<String>,
    /// Detector, where the heading names it.
    pub mode: Option<String>,
}

/// A mapping laid against a file.
#[derive(Debug)]
pub struct Plan {
    /// Fields by name.
    pub fields: BTreeMap<String, Field>,
    /// Analytes across.
    pub analytes: Vec<AnalyteColumn>,
    /// Isotopes across.
    pub isotopes: Vec<IsotopeColumn>,
    /// Replicates across: column and number.
    pub replicates: Vec<(usize, String)>,
    /// Column that names the replicate set.
    pub set: Option<usize>,
    /// Headings as found.
    pub headings: Vec<String>,
}

struct Binder<'a> {
    mapping: &'a Mapping,
    headings: &'a [String],
    used: Vec<bool>,
    out: &'a mut Collector,
    row: Option<u64>,
    act: Option<ActTime>,
}

/// What is bound besides the headings: the file's name without its ending, the row of the headings, the act.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Around<'a> {
    pub stem: &'a str,
    pub header_row: Option<u64>,
    pub act: Option<ActTime>,
}

impl Plan {
    /// Binds a mapping; faults go to the collector.
    pub(crate) fn bind(mapping: &Mapping, around: Around, headings: &[String], out: &mut Collector) -> Self {
        let Around { stem, header_row, act } = around;
        let mut b = Binder { mapping, headings, used: vec![false; headings.len()], out, row: header_row, act };
        let mut fields = BTreeMap::new();
        for (name, source) in &mapping.sources {
            if let Some(field) = b.field(name, source, stem) {
                fields.insert(name.clone(), field);
            }
        }
        if let (true, Target::Table(t)) = (mapping.own_headings, mapping.target) {
            for c in t.columns {
                let name = format!("{}.{}", t.name, c.name);
                if mapping.sources.contains_key(&name) {
                    continue;
                }
                let source = Source {
                    from: From::Headings(vec![c.name.to_string()]),
                    part: Part::Whole,
                    values: BTreeMap::new(),
                    keep: false,
                    unit: None,
                    optional: !c.required,
                    empty: None,
                    coverage: None,
                };
                if let Some(field) = b.field(&name, &source, stem) {
                    fields.insert(name, field);
                }
            }
        }
        let set = mapping.pair.as_ref().and_then(|p| b.find(&p.set, "pair.set", false));
        let analytes = b.analytes();
        let isotopes = b.isotopes();
        let replicates = b.replicates();
        // Last: whatever nothing above has taken is a column that the mapping does not know, and is refused.
        b.rest();
        Self { fields, analytes, isotopes, replicates, set, headings: headings.to_vec() }
    }

    /// Sets the methods that stand under the headings.
    pub(crate) fn set_methods(&mut self, methods: &[Vec<u8>], mapping: &Mapping) {
        for column in &mut self.analytes {
            let cell = methods.get(column.at).map_or(&b""[..], Vec::as_slice);
            column.method = decode(cell, mapping.file.encoding).ok().map(Cow::into_owned).filter(|t| !t.is_empty());
        }
    }

    /// A field.
    pub fn field(&self, name: &str) -> Option<&Field> {
        self.fields.get(name)
    }

    /// The fields of one table, in the order of the record's columns.
    pub fn of_table(&self, table: &str) -> Vec<&Field> {
        let columns = schema::table(table).map_or(&[][..], |t| t.columns);
        columns.iter().filter_map(|c| self.fields.get(&format!("{table}.{}", c.name))).collect()
    }
}

impl Binder<'_> {
    /// The headings of the file.
    fn columns(&self) -> found::Columns {
        found::Columns { columns: listed(self.headings.iter().take(40)) }
    }

    /// Whether a heading is the name of a column of the record, where headings are meant so.
    fn is_own(&self, heading: &str) -> bool {
        matches!(self.mapping.target, Target::Table(t) if self.mapping.own_headings && t.column(heading).is_some())
    }

    /// Finds a heading as written, else one that is it with a unit.
    fn find(&mut self, heading: &str, field: &str, optional: bool) -> Option<usize> {
        let exact: Vec<usize> =
            self.headings.iter().enumerate().filter(|(_, h)| *h == heading).map(|(i, _)| i).collect();
        // As written first: "Flow" and "Flow (L/min)" may stand side by side, and the former is then the one meant.
        let found = if exact.is_empty() {
            self.headings
                .iter()
                .enumerate()
                // "acid_mL" is the record's own column of that name, not the lot of acid in mL.
                .filter(|(_, h)| !self.is_own(h))
                .filter(|(_, h)| pattern::heading_unit(h, &self.mapping.units).is_some_and(|(n, _)| n == heading))
                .map(|(i, _)| i)
                .collect()
        } else {
            exact
        };
        match found[..] {
            [at] => {
                self.used[at] = true;
                Some(at)
            }
            [] => {
                if !optional {
                    let (heading, mapping) = (heading.into(), self.mapping.name.as_str().into());
                    let expected = expected::ColumnOfMapping { heading, mapping, field: field.into() };
                    let says = fault(self.columns(), expected);
                    self.out.add(Check::FileColumnMissing, self.row, None, || says);
                }
                None
            }
            _ => {
                // Used, though not bound: the fault is that it stands twice, not that nothing names it.
                for at in &found {
                    self.used[*at] = true;
                }
                let times = message::count(found.len());
                self.out.add(Check::FileColumnTwice, self.row, Some(heading), || {
                    fault(found::Times { times }, expected::HeadingOnce)
                });
                None
            }
        }
    }

    fn find_one_of(&mut self, headings: &[String], field: &str, optional: bool) -> Option<usize> {
        if let [only] = headings {
            return self.find(only, field, optional);
        }
        for h in headings {
            if self.headings.contains(h) {
                return self.find(h, field, optional);
            }
        }
        for h in headings {
            if let Some(at) = self.find(h, field, true) {
                return Some(at);
            }
        }
        if !optional {
            let (headings, mapping) = (listed(headings), self.mapping.name.as_str().into());
            let expected = expected::OneOfColumns { headings, mapping, field: field.into() };
            let says = fault(self.columns(), expected);
            self.out.add(Check::FileColumnMissing, self.row, None, || says);
        }
        None
    }

    fn field(&mut self, name: &str, source: &Source, stem: &str) -> Option<Field> {
        let (table, column_name) = name.split_once('.')?;
        let column = schema::table(table).and_then(|t| t.column(column_name));
        let (bound, heading) = match &source.from {
            From::Headings(h) => match (self.find_one_of(h, name, source.optional), &source.empty) {
                (Some(at), _) => (Bound::Cell(at), self.headings[at].clone()),
                // A column that is not there is as empty as one whose cells are.
                (None, Some(e)) if source.optional => (Bound::Constant(e.clone()), name.to_string()),
                (None, _) => return None,
            },
            From::Constant(c) => (Bound::Constant(c.clone()), name.to_string()),
            From::FileName => (Bound::Constant(stem.to_string()), name.to_string()),
            From::Template(p) => {
                let mut pieces = vec![];
                let mut shown = vec![];
                for piece in &p.0 {
                    pieces.push(match piece {
                        Piece::Literal(l) => BoundPiece::Literal(l.clone()),
                        Piece::Name { name: h, digits } => {
                            let at = self.find(h, name, source.optional)?;
                            shown.push(self.headings[at].clone());
                            BoundPiece::Cell { at, digits: *digits }
                        }
                    });
                }
                (Bound::Template(pieces), shown.join(" + "))
            }
        };
        let is_cell = matches!(bound, Bound::Cell(_));
        let in_percent = name == "result.u" && (is_fixed(source, "%") || is_in_percent(&heading));
        let unit = match &source.unit {
            Some(u) if !in_percent => Some(self.column_unit(u, &heading)?),
            _ => None,
        };
        let spread =
            if name == "result.u" { (self.divisor(source, &heading, is_cell)?, in_percent) } else { (1.0, false) };
        // A limit in µg/L beside results in mg/L: its heading says so, and it is turned into theirs.
        let beside = table == "result" && column.is_some_and(|c| c.kind == Kind::Real) && name != "result.value";
        let carried = if beside && is_cell && !in_percent {
            match (&unit, pattern::heading_unit(&heading, &self.mapping.units)) {
                (Some(u), _) => Some(u.clone()),
                (None, Some((_, Ok(u)))) => Some(u),
                (None, _) => None,
            }
        } else {
            None
        };
        // One replicate a row is in the unit of them all.
        let declared = if name == "reading.rate_cps" { schema::table(table)?.column("rates_cps") } else { column };
        let own = declared.and_then(Column::fixed_unit);
        let convert = match (&unit, &own) {
            (Some(from), Some(to)) => match from.conversion(to, None, None) {
                Ok(c) => Some(c),
                Err(e) => {
                    self.not_to(&heading, &e, to);
                    None
                }
            },
            // A heading with a unit over a column with a unit, and the mapping is silent.
            (None, Some(to)) if matches!(bound, Bound::Cell(_)) && heading != column_name => {
                self.silent_unit(&heading, to)
            }
            _ => None,
        };
        Some(Field {
            name: name.to_string(),
            column,
            heading,
            bound,
            part: source.part.clone(),
            values: source.values.clone(),
            keep: source.keep,
            empty: source.empty.clone(),
            is_name: is_name(table, column_name) && column.is_none_or(|c| c.kind == Kind::Text),
            unit,
            convert,
            act: self.act,
            carried,
            spread,
        })
    }

    /// What uncertainties are divided by: the mapping says it, or the heading does; a heading that may mean either kind
    /// is refused with the question.
    fn divisor(&mut self, source: &Source, heading: &str, is_cell: bool) -> Option<f64> {
        if let Some(k) = source.coverage {
            return Some(k);
        }
        if !is_cell {
            return Some(1.0);
        }
        match Coverage::of(heading) {
            Coverage::Said(k) => {
                if k.to_bits() != 1.0_f64.to_bits() {
                    let says = said::CoverageOfHeading { heading: heading.into(), k: k.to_string().into() };
                    self.out.tell(Check::FileUnit, self.row, Some(heading), says);
                }
                Some(k)
            }
            Coverage::Standard => Some(1.0),
            Coverage::Unsaid => {
                self.out.add(Check::FileUnit, self.row, Some(heading), || {
                    fault(found::CoverageUnsaid { heading: heading.into() }, expected::Coverage)
                });
                None
            }
        }
    }

    fn silent_unit(&mut self, heading: &str, to: &Unit) -> Option<Conversion> {
        let (_, carried) = pattern::heading_unit(heading, &self.mapping.units)?;
        let outcome = carried.and_then(|u| u.conversion(to, None, None));
        match outcome {
            Ok(c) => Some(c),
            Err(e) => {
                self.not_to(heading, &e, to);
                None
            }
        }
    }

    /// A unit that is not of the column.
    fn not_to(&mut self, heading: &str, e: &UnitError, to: &Unit) {
        self.out.add(Check::FileUnit, self.row, Some(heading), || {
            fault(e.message(), expected::UnitTo { unit: to.to_string().into() })
        });
    }

    /// The unit of a column: the heading's, or the mapping's where the two do not differ.
    fn column_unit(&mut self, wanted: &ColumnUnit, heading: &str) -> Option<Unit> {
        let carried = pattern::heading_unit(heading, &self.mapping.units).map(|(_, u)| u);
        match (wanted, carried) {
            (ColumnUnit::Heading, Some(Err(e))) => {
                self.out.add(Check::FileUnit, self.row, Some(heading), || fault(e.message(), expected::Unit));
                None
            }
            (ColumnUnit::Heading, None) => {
                self.out
                    .add(Check::FileUnit, self.row, Some(heading), || fault(found::NoUnit, expected::UnitInHeading));
                None
            }
            (ColumnUnit::Heading, Some(Ok(u))) => Some(u),
            (ColumnUnit::Fixed(text), carried) => {
                let fixed = pattern::unit(text, &self.mapping.units).ok()?;
                match carried {
                    // The mapping is a person's word on this file and holds; that the heading says otherwise is told.
                    Some(Ok(u)) if u != fixed => {
                        let (carried, unit) = (u.to_string().into(), fixed.to_string().into());
                        let mapping = self.mapping.name.as_str().into();
                        self.out.tell(
                            Check::FileUnit,
                            self.row,
                            Some(heading),
                            said::UnitOfMapping { carried, unit, mapping },
                        );
                        Some(fixed)
                    }
                    _ => Some(fixed),
                }
            }
        }
    }

    fn analytes(&mut self) -> Vec<AnalyteColumn> {
        if self.mapping.target != Target::ResultsWide {
            return vec![];
        }
        let mut out = vec![];
        let named: Vec<_> = self.mapping.wide.analytes.clone().into_iter().collect();
        for (heading, a) in named {
            let Some(at) = self.find(&heading, &format!("analyte {}", a.analyte), a.optional) else {
                continue;
            };
            let wanted = a.unit.map_or(ColumnUnit::Heading, ColumnUnit::Fixed);
            let found = self.headings[at].clone();
            if let Some(unit) = self.column_unit(&wanted, &found) {
                out.push(AnalyteColumn {
                    at,
                    heading: found,
                    analyte: a.analyte,
                    fraction: a.fraction,
                    unit,
                    isotopes: String::new(),
                    resolution: String::new(),
                    method: None,
                });
            }
        }
        // After the headings that are named one by one: the pattern takes only what these left.
        let pattern = self.mapping.wide.pattern.as_deref().and_then(|p| Pattern::parse(p).ok());
        if let Some(p) = pattern {
            for at in 0..self.headings.len() {
                let heading = self.headings[at].clone();
                if self.used[at] || self.mapping.ignore.contains(&heading) {
                    continue;
                }
                let Some(found) = p.fit(&heading) else { continue };
                self.used[at] = true;
                match self.across(at, &heading, &found) {
                    Ok(column) => out.push(column),
                    Err(why) => self.out.add(Check::FileUnit, self.row, Some(&heading), || why),
                }
            }
        }
        for a in &out {
            for name in [Some(&a.analyte), a.fraction.as_ref()].into_iter().flatten() {
                if let Err(expected) = identity::fits(name) {
                    self.out.add(Check::FileValue, self.row, Some(&a.heading), || fault(quoted(name), expected));
                }
            }
        }
        out.sort_by_key(|a| a.at);
        out
    }

    /// A column of the pattern of a wide table, by what the pattern found in its heading.
    fn across(&self, at: usize, heading: &str, parts: &BTreeMap<&str, &str>) -> Result<AnalyteColumn, Fault> {
        let isotopes = match parts.get("isotope") {
            Some(text) => isotope(text).ok_or_else(|| fault(quoted(text), expected::Isotope))?,
            None => String::new(),
        };
        let element: String = isotopes.chars().filter(char::is_ascii_alphabetic).collect();
        let analyte = match (parts.get("analyte"), element.is_empty()) {
            (Some(a), _) => (*a).to_string(),
            (None, false) => element,
            (None, true) => return Err(fault(found::NoAnalyte, expected::AnalyteAndUnit)),
        };
        let analyte = self.mapping.wide.names.get(&analyte).cloned().unwrap_or(analyte);
        // The unit of the pattern, of a row of units that was joined to the heading, of the mapping.
        let unit = match parts.get("unit").copied().or(self.mapping.wide.unit.as_deref()) {
            Some(u) => pattern::unit(u, &self.mapping.units),
            None => Err(UnitError::Unknown { text: heading.to_string(), hint: String::new() }),
        };
        let unit = unit.map_err(|e| fault(e.message(), expected::AnalyteAndUnit))?;
        let resolution = parts.get("resolution").map_or_else(String::new, |r| resolution(r).to_string());
        Ok(AnalyteColumn {
            at,
            heading: heading.to_string(),
            analyte,
            fraction: None,
            unit,
            isotopes,
            resolution,
            method: None,
        })
    }

    fn isotopes(&mut self) -> Vec<IsotopeColumn> {
        let wide = self.mapping.counts.as_ref().filter(|c| c.layout == Layout::Wide);
        let Some(p) = wide.and_then(|c| Pattern::parse(c.heading.as_deref()?).ok()) else {
            return vec![];
        };
        let mut out = vec![];
        for at in 0..self.headings.len() {
            let heading = &self.headings[at];
            if self.used[at] || self.mapping.ignore.contains(heading) {
                continue;
            }
            if let Some(column) = isotope_column(&p, at, heading) {
                self.used[at] = true;
                out.push(column);
            }
        }
        out
    }

    fn replicates(&mut self) -> Vec<(usize, String)> {
        let prefix = self.mapping.counts.as_ref().and_then(|c| c.replicate_prefix.as_deref());
        let Some(prefix) = prefix else { return vec![] };
        let mut found = vec![];
        for (at, heading) in self.headings.iter().enumerate() {
            let Some(rest) = heading.strip_prefix(prefix) else { continue };
            let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
            if let Ok(n) = digits.parse::<u32>() {
                self.used[at] = true;
                found.push((n, at, heading.clone()));
            }
        }
        found.sort_unstable();
        if found.is_empty() {
            let says = fault(self.columns(), expected::ReplicateColumns { prefix: prefix.into() });
            self.out.add(Check::FileColumnMissing, self.row, None, || says);
        }
        found.into_iter().map(|(_, at, h)| (at, h)).collect()
    }

    /// Columns that nothing names.
    fn rest(&mut self) {
        if self.mapping.ignore_others {
            return;
        }
        for (at, heading) in self.headings.iter().enumerate() {
            if self.used[at] || self.mapping.ignore.contains(heading) {
                continue;
            }
            let name = if heading.is_empty() { (at + 1).to_string() } else { heading.clone() };
            let mapping = self.mapping.name.as_str().into();
            self.out.add(Check::FileColumnUnknown, self.row, Some(&name), || {
                fault(found::ColumnUnnamed { mapping }, expected::EntryOrIgnore)
            });
        }
    }
}

/// A resolution in the record's word.
fn resolution(text: &str) -> &str {
    match text {
        "LR" | "lr" | "Low" | "LOW" => "low",
        "MR" | "mr" | "Medium" | "MEDIUM" => "medium",
        "HR" | "hr" | "High" | "HIGH" => "high",
        other => other,
    }
}

fn is_fixed(source: &Source, unit: &str) -> bool {
    matches!(&source.unit, Some(ColumnUnit::Fixed(u)) if u == unit)
}

/// Whether a heading of uncertainties says that they are in per cent: "U (%)", "U [%]", "U in %", "rel. U". A level, "U
/// (95 %)", is none.
pub(super) fn is_in_percent(heading: &str) -> bool {
    let h = heading.to_lowercase();
    ["(%)", "[%]", "in %", "_%"].iter().any(|s| h.contains(s)) || h.starts_with("rel")
}

/// What a heading of uncertainties says of their kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Coverage {
    /// Expanded by this factor (1: standard).
    Said(f64),
    /// Nothing in it speaks of an expanded one.
    Standard,
    /// A heading under which laboratories give either.
    Unsaid,
}

impl Coverage {
    pub(crate) fn of(heading: &str) -> Self {
        let plain: String = heading.to_lowercase().chars().filter(|c| !c.is_whitespace()).collect();
        if let Some((_, rest)) = plain.split_once("k=") {
            let number: String = rest.chars().take_while(|c| c.is_ascii_digit() || ".,".contains(*c)).collect();
            if let Ok(k) = number.replace(',', ".").parse::<f64>()
                && (1.0..=5.0).contains(&k)
            {
                return Self::Said(k);
            }
        }
        let name = heading.split(['(', '[', ',']).next().unwrap_or("").trim();
        let either = ["uncertainty", "unsicherheit", "expanded", "erweitert", "±", "+/-"];
        let standard = plain.contains("standard") && !plain.contains("expanded") && !plain.contains("erweitert");
        // GUM: u is the standard uncertainty, U the expanded one; under "U" laboratories give the latter.
        if name == "U"
            || name == "MU"
            || plain.starts_with("u95")
            || either.iter().any(|e| plain.contains(e)) && !standard
        {
            Self::Unsaid
        } else {
            Self::Standard
        }
    }
}

/// What a heading names, by a pattern with `{isotope}`.
pub(crate) fn isotope_column(p: &Pattern, at: usize, heading: &str) -> Option<IsotopeColumn> {
    let found = p.fit(heading)?;
    Some(IsotopeColumn {
        at,
        heading: heading.to_string(),
        isotope: isotope(found.get("isotope")?)?,
        resolution: found.get("resolution").map(|s| (*s).to_string()),
        mode: found.get("mode").map(|s| (*s).to_string()),
    })
}

/// An isotope as the record writes it, `Pb208`, from `Pb208`, `208Pb` or `Pb-208`.
pub fn isotope(text: &str) -> Option<String> {
    let text = text.trim();
    let digits: String = text.chars().filter(char::is_ascii_digit).collect();
    let letters: String = text.chars().filter(char::is_ascii_alphabetic).collect();
    let joined = text.replace('-', "");
    let whole = joined == format!("{letters}{digits}") || joined == format!("{digits}{letters}");
    let symbol = letters.len() <= 2
        && letters.starts_with(|c: char| c.is_ascii_uppercase())
        && letters.chars().skip(1).all(|c| c.is_ascii_lowercase());
    (whole && symbol && (1..=3).contains(&digits.len())).then(|| format!("{letters}{digits}"))
}

impl Field {
    /// The field's text in a record.
    ///
    /// # Errors
    /// What was found and what was expected.
    pub fn text<'r>(&'r self, record: &'r Record, mapping: &Mapping) -> Result<Cow<'r, str>, Fault> {
        let encoding = mapping.file.encoding;
        let raw: Cow<'r, str> = match &self.bound {
            Bound::Cell(at) if record.get(*at) == ABSENT => Cow::Borrowed(""),
            Bound::Cell(at) => decode(record.get(*at), encoding)?,
            Bound::Constant(c) => Cow::Borrowed(c.as_str()),
            Bound::Template(pieces) => {
                let mut out = String::new();
                for piece in pieces {
                    match piece {
                        BoundPiece::Literal(l) => out.push_str(l),
                        BoundPiece::Cell { at, digits } => {
                            let text = decode(record.get(*at), encoding)?;
                            if *digits {
                                out.extend(text.chars().filter(|c| c.is_alphanumeric()));
                            } else {
                                out.push_str(&text);
                            }
                        }
                    }
                }
                Cow::Owned(out.trim().to_string())
            }
        };
        // Before the translation: what stands for an empty cell is a word of the file like any other.
        let raw = match (&self.empty, raw.is_empty()) {
            (Some(e), true) => Cow::Borrowed(e.as_str()),
            _ => raw,
        };
        let text = if self.values.is_empty() && self.part == Part::Whole { raw } else { self.translate(&raw)? };
        if self.is_name {
            identity::fits(&text).map_err(|expected| fault(quoted(&text), expected))?;
        }
        Ok(text)
    }

    fn translate<'r>(&'r self, raw: &str) -> Result<Cow<'r, str>, Fault> {
        if let Some(known) = self.values.get(raw) {
            return Ok(Cow::Borrowed(known));
        }
        let part = match &self.part {
            Part::Whole => raw,
            Part::Before(sign) => raw.split(sign.as_str()).next().unwrap_or("").trim(),
            Part::After(sign) => raw.split_once(sign.as_str()).map_or("", |(_, t)| t.trim()),
        };
        if let Some(known) = self.values.get(part) {
            return Ok(Cow::Borrowed(known));
        }
        if self.values.is_empty() || self.keep {
            return Ok(Cow::Owned(part.to_string()));
        }
        let values = listed(self.values.keys().take(60));
        Err(fault(quoted(raw), expected::Translated { field: self.name.as_str().into(), values }))
    }

    /// The raw bytes that the field's text depends on, for telling equal rows quickly.
    pub fn raw<'r>(&self, record: &'r Record, mut each: impl FnMut(&'r [u8])) {
        match &self.bound {
            Bound::Cell(at) => each(record.get(*at)),
            Bound::Constant(_) => {}
            Bound::Template(pieces) => {
                for p in pieces {
                    if let BoundPiece::Cell { at, .. } = p {
                        each(record.get(*at));
                    }
                }
            }
        }
    }

    /// The column of the file, where the field is one cell as it stands.
    pub fn plain_cell(&self) -> Option<usize> {
        match self.bound {
            Bound::Cell(at) => Some(at),
            _ => None,
        }
    }

    /// A number of the field, in the column's own unit.
    ///
    /// # Errors
    /// What was expected.
    pub fn real(&self, text: &str, mapping: &Mapping) -> Result<f64, Expected> {
        let x = cell::number(text, mapping.file.numbers())?;
        let column = self.name.rsplit('.').next().unwrap_or("");
        let x = match (&self.convert, column == "u" || column.starts_with("u_")) {
            (None, _) => x,
            (Some(c), false) => c.apply(x),
            (Some(c), true) => c.apply_difference(x),
        };
        if !x.is_finite() {
            return Err(expected::NumberOrdinaryInUnit.into());
        }
        if let Some(column) = self.column {
            column.check(x)?;
        }
        Ok(x)
    }

    /// The field's value for its column.
    ///
    /// # Errors
    /// What was found and what was expected.
    pub fn value(&self, record: &Record, mapping: &Mapping) -> Result<Value, Fault> {
        let text = self.text(record, mapping)?;
        let column = self.column.expect("only fields of the record have values");
        if text.is_empty() {
            if column.required {
                return Err(self.needed());
            }
            return Ok(Value::Null);
        }
        self.convert_text(&text, column, mapping).map_err(|e| fault(quoted(&text), e))
    }

    /// Nothing stands where a value must.
    pub fn needed(&self) -> Fault {
        fault(found::Nothing, expected::Value { field: self.name.as_str().into() })
    }

    fn convert_text(&self, text: &str, column: &Column, mapping: &Mapping) -> Result<Value, Expected> {
        Ok(match column.kind {
            Kind::Text => {
                short_enough(text, column.name == "name")?;
                Value::Text(text.to_string())
            }
            Kind::Word(words) => {
                if words.contains(&text) {
                    Value::Text(text.to_string())
                } else {
                    return Err(expected::OneOf { words: words.join(", ").into() }.into());
                }
            }
            Kind::Integer => {
                let x = self.real(text, mapping)?;
                // Beyond 2^53 (9.007e15) not every whole number has a binary64 of its own.
                if x.fract() != 0.0 || x.abs() > 9e15 {
                    return Err(expected::WholeNumber.into());
                }
                Value::Integer(x as i64)
            }
            Kind::Real => Value::Real(self.real(text, mapping)?),
            Kind::Time => {
                let time = cell::time(text, mapping.file.dates)?;
                if let Some(act) = self.act.filter(|_| !bounds::may_lie_ahead(&self.name)) {
                    act.check(&time)?;
                }
                Value::Text(time)
            }
            Kind::Unit => Value::Text(
                pattern::unit(text, &mapping.units)
                    .map_err(|e| expected::UnitKnown { why: e.message() })?
                    .ucum()
                    .to_string(),
            ),
            Kind::Row(_) => {
                short_enough(text, true)?;
                Value::Name(text.to_string())
            }
            Kind::Json | Kind::Blob => return Err(expected::NoText.into()),
        })
    }
}

/// Longest name, and longest text of another kind, characters: a name is read at a glance, and what a person has to tell
/// stands on three pages. Our own choice.
const LONGEST_NAME: usize = 1_000;
const LONGEST_TEXT: usize = 10_000;

/// Refuses a text that is longer than any that a person would write.
pub(crate) fn short_enough(text: &str, name: bool) -> Result<(), Expected> {
    let most = if name { LONGEST_NAME } else { LONGEST_TEXT };
    // Bytes are counted at once, characters only where there may be too many.
    if text.len() > most && text.chars().count() > most {
        return Err(expected::TextOfAtMost { most: message::count(most) }.into());
    }
    Ok(())
}

/// Whether a column is part of the name of a row, or of a result.
pub(crate) fn is_name(table: &str, column: &str) -> bool {
    // What a file of results says of the measurand stands beside the values there.
    let table = if table == "result" { "measurand" } else { table };
    schema::table(table).is_some_and(|t| t.is_key(column)) || (table, column) == ("bottle", "fraction")
}

/// A record's cell for a message.
pub fn shown(record: &Record, at: usize) -> Message {
    match record.get(at) {
        b"" => found::Nothing.into(),
        b => show(b),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_heading_says_of_its_uncertainties() {
        for (heading, says) in [
            ("u", Coverage::Standard),
            ("lab_sd_va", Coverage::Standard),
            ("standard uncertainty", Coverage::Standard),
            ("Standardunsicherheit", Coverage::Standard),
            ("Unsicherheit (k=1)", Coverage::Said(1.0)),
            ("U (k = 2)", Coverage::Said(2.0)),
            ("erw. Messunsicherheit, k=1,96", Coverage::Said(1.96)),
            ("U", Coverage::Unsaid),
            ("U (%)", Coverage::Unsaid),
            ("U95", Coverage::Unsaid),
            ("Messunsicherheit", Coverage::Unsaid),
            ("expanded uncertainty", Coverage::Unsaid),
            ("±", Coverage::Unsaid),
        ] {
            assert_eq!(Coverage::of(heading), says, "{heading}");
        }
        assert!(is_in_percent("U (%)") && is_in_percent("MU in %") && !is_in_percent("U (95 %)"));
    }

    #[test]
    fn isotopes_in_their_spellings() {
        for text in ["Pb208", "208Pb", "Pb-208", "208-Pb"] {
            assert_eq!(isotope(text).as_deref(), Some("Pb208"), "{text}");
        }
        for text in ["Pb", "208", "PB208", "Pb2084", "Pb 208 x", "lead208"] {
            assert_eq!(isotope(text), None, "{text}");
        }
    }
}
