//! Functions of one row: what a cell says, what a unit is, how a result stands to the limits.

use super::answer::{self, Layout, Of, Value};
use datafusion::arrow::array::{Array, ArrayRef, AsArray, Float64Array, StringArray};
use datafusion::arrow::datatypes::{DataType, Date32Type, Float64Type};
use datafusion::common::{DataFusionError, Result};
use datafusion::logical_expr::{ColumnarValue, ScalarFunctionArgs, ScalarUDFImpl, Signature, Volatility};
use limits::{Limit, Options, compare};
use quantity::{Amount, Measured, Unit};
use std::collections::HashMap;
use std::hash::{Hash, Hasher};

/// A function of one row over whole columns.
pub struct Rowwise {
    /// Name in SQL.
    pub name: &'static str,
    /// Arguments with type and meaning.
    pub arguments: &'static [(&'static str, DataType, &'static str)],
    answer: fn() -> DataType,
    run: fn(&[ArrayRef]) -> Result<ArrayRef>,
    /// What it does, one sentence.
    pub about: &'static str,
}

/// A [`Rowwise`] with its signature.
pub struct Registered {
    of: &'static Rowwise,
    signature: Signature,
}

impl Registered {
    /// The function.
    pub fn new(of: &'static Rowwise) -> Self {
        let types = of.arguments.iter().map(|a| a.1.clone()).collect();
        Self { of, signature: Signature::exact(types, Volatility::Immutable) }
    }
}

impl std::fmt::Debug for Registered {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.of.name)
    }
}

impl PartialEq for Registered {
    fn eq(&self, other: &Self) -> bool {
        self.of.name == other.of.name
    }
}

impl Eq for Registered {}

impl Hash for Registered {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.of.name.hash(state);
    }
}

impl ScalarUDFImpl for Registered {
    fn name(&self) -> &str {
        self.of.name
    }

    fn signature(&self) -> &Signature {
        &self.signature
    }

    fn return_type(&self, _: &[DataType]) -> Result<DataType> {
        Ok((self.of.answer)())
    }

    fn invoke_with_args(&self, args: ScalarFunctionArgs) -> Result<ColumnarValue> {
        let arrays = args.args.iter().map(|a| a.to_array(args.number_rows)).collect::<Result<Vec<_>>>()?;
        Ok(ColumnarValue::Array((self.of.run)(&arrays)?))
    }
}

fn text(of: &StringArray, i: usize) -> Option<&str> {
    of.is_valid(i).then(|| of.value(i).trim()).filter(|t| !t.is_empty())
}

fn number(of: &Float64Array, i: usize) -> Option<f64> {
    of.is_valid(i).then(|| of.value(i))
}

// ---- what a cell says ------------------------------------------------------------------------

const READING: Layout =
    &[("value", Of::Number), ("below", Of::Number), ("u", Of::Number), ("fault", Of::Text), ("fault_cell", Of::Text)];

/// `reading(analyte, value, below, remark, limit, u, words)`.
pub static CELL: Rowwise = Rowwise {
    name: "reading",
    arguments: &[
        ("analyte", DataType::Utf8, "what was measured: the zero of a temperature is a value"),
        ("value", DataType::Utf8, "the cell as it stands: 1.2, <0.5"),
        ("below", DataType::Utf8, "the limit of a non-detect where the table has a column for it"),
        ("remark", DataType::Utf8, "the laboratory's remark"),
        ("limit", DataType::Utf8, "the reporting limit"),
        ("u", DataType::Utf8, "standard uncertainty"),
        ("words", DataType::Utf8, "what remarks mean: \"<=below;E=value;>=above\""),
    ],
    answer: || answer::data_type(READING),
    run: cells,
    about: "value, limit of a non-detect, u, or the fault that keeps a row out with the cell it lies in; a literal zero of an amount is a non-detect, never a number",
};

/// What a remark means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Meaning {
    Value,
    Below,
    Above,
}

/// What remarks mean where the person names nothing else.
pub const REMARKS: &str = "<=below;>=above;E=value;U=below";

/// Reads "word=meaning;word=meaning".
fn meanings(words: &str) -> Result<HashMap<&str, Meaning>> {
    words
        .split(';')
        .filter(|w| !w.trim().is_empty())
        .map(|pair| {
            let fault = || {
                DataFusionError::Execution(format!(
                    "remarks: \"{pair}\"; expected WORD=value, WORD=below or WORD=above, separated by ;"
                ))
            };
            let (word, meaning) = pair.rsplit_once('=').ok_or_else(fault)?;
            let meaning = match meaning.trim() {
                "value" => Meaning::Value,
                "below" => Meaning::Below,
                "above" => Meaning::Above,
                _ => return Err(fault()),
            };
            Ok((word.trim(), meaning))
        })
        .collect()
}

/// Checks the words for remarks.
///
/// # Errors
/// A word without a meaning.
pub fn check_remarks(words: &str) -> Result<()> {
    meanings(words).map(|_| ())
}

/// What a row says: value, limit of a non-detect, standard uncertainty.
#[derive(Debug, Clone, Copy, Default)]
struct Cell {
    value: Option<f64>,
    below: Option<f64>,
    u: Option<f64>,
}

/// What keeps a row out, and the cell that it lies in.
type Fault<'a> = (&'static str, &'a str);

/// A cell that holds a number or nothing; "<0.5" is the number 0.5 where a limit stands.
fn number_in<'a>(cell: Option<&'a str>, fault: &'static str) -> std::result::Result<Option<f64>, Fault<'a>> {
    let Some(text) = cell else { return Ok(None) };
    text.parse::<f64>().ok().filter(|x| x.is_finite()).map(Some).ok_or((fault, text))
}

fn limit_in<'a>(cell: Option<&'a str>, fault: &'static str) -> std::result::Result<Option<f64>, Fault<'a>> {
    number_in(cell.map(|c| c.strip_prefix('<').map_or(c, str::trim)), fault)
}

/// A row as its laboratory wrote it.
struct Written<'a> {
    analyte: Option<&'a str>,
    value: Option<&'a str>,
    below: Option<&'a str>,
    remark: Option<&'a str>,
    limit: Option<&'a str>,
    u: Option<&'a str>,
}

fn read<'a>(w: &Written<'a>, known: &HashMap<&str, Meaning>) -> std::result::Result<Cell, Fault<'a>> {
    let mark = match w.remark {
        None => None,
        Some(r) => Some(*known.get(r).ok_or(("a remark that has no meaning here", r))?),
    };
    let below = limit_in(w.below, "a limit that is not a number")?;
    let limit = limit_in(w.limit, "a reporting limit that is not a number")?;
    let u = number_in(w.u, "a standard uncertainty that is not a number")?;
    let bound = |l: Option<f64>| match l.filter(|l| *l > 0.0) {
        Some(l) => Ok(Cell { value: None, below: Some(l), u: None }),
        None => Err(("not detected, and not said below what", w.value.unwrap_or_default())),
    };
    if below.is_some() {
        return bound(below);
    }
    let marked = |sign: char| w.value.and_then(|c| c.strip_prefix(sign)).map(str::trim);
    let (mark, cell) = match (marked('<'), marked('>')) {
        (Some(rest), _) => (Some(Meaning::Below), Some(rest)),
        (None, Some(rest)) => (Some(Meaning::Above), Some(rest)),
        (None, None) => (mark, w.value),
    };
    let value = number_in(cell, "a value that is not a number")?;
    // Of an amount, a zero says "not detected"; of a temperature or a potential it is a number.
    let zero_is_a_value = w.analyte.is_some_and(super::water::is_condition);
    match (mark, value) {
        (Some(Meaning::Above), _) => Err(("above the range of the method", w.value.unwrap_or_default())),
        (Some(Meaning::Below), v) => bound(v.filter(|v| *v > 0.0).or(limit)),
        (_, None) => Err(("no value", "")),
        (_, Some(0.0)) if !zero_is_a_value => bound(limit),
        (_, Some(v)) => Ok(Cell { value: Some(v), below: None, u }),
    }
}

fn cells(a: &[ArrayRef]) -> Result<ArrayRef> {
    let columns: Vec<&StringArray> = a.iter().map(AsArray::as_string::<i32>).collect();
    let words = columns[6];
    let known = meanings(if words.is_empty() || words.is_null(0) { REMARKS } else { words.value(0) })?;
    let rows = (0..columns[0].len())
        .map(|i| {
            let of = |k: usize| text(columns[k], i);
            let written = Written { analyte: of(0), value: of(1), below: of(2), remark: of(3), limit: of(4), u: of(5) };
            let (cell, fault) = match read(&written, &known) {
                Ok(cell) => (cell, None),
                Err(fault) => (Cell::default(), Some(fault)),
            };
            let words = |t: Option<&str>| Value::Text(t.map(str::to_string));
            vec![
                cell.value.into(),
                cell.below.into(),
                cell.u.into(),
                words(fault.map(|f| f.0)),
                words(fault.map(|f| f.1)),
            ]
        })
        .collect();
    answer::array(READING, rows)
}

// ---- units -----------------------------------------------------------------------------------

/// What words stand for: "std units=pH;uS/cm @25C=uS/cm".
fn renamings(words: &StringArray) -> HashMap<&str, &str> {
    let words = if words.is_empty() || words.is_null(0) { "" } else { words.value(0) };
    words.split(';').filter_map(|w| w.rsplit_once('=')).map(|(a, b)| (a.trim(), b.trim())).collect()
}

/// `renamed(text, words)`.
pub static RENAMED: Rowwise = Rowwise {
    name: "renamed",
    arguments: &[
        ("text", DataType::Utf8, "an analyte as the table writes it"),
        ("words", DataType::Utf8, "what it is called here: \"Calcium, wf=Ca;Arsenic, wf=As\""),
    ],
    answer: || DataType::Utf8,
    run: renamed,
    about: "the name that the words give, else the text as it stands",
};

#[allow(clippy::unnecessary_wraps, reason = "as every function of rows")]
fn renamed(a: &[ArrayRef]) -> Result<ArrayRef> {
    let (of, other) = (a[0].as_string::<i32>(), renamings(a[1].as_string::<i32>()));
    let column: StringArray =
        (0..of.len()).map(|i| text(of, i).map(|raw| other.get(raw).copied().unwrap_or(raw))).collect();
    Ok(std::sync::Arc::new(column))
}

/// `unit_of(text, words)`.
pub static UNIT_OF: Rowwise = Rowwise {
    name: "unit_of",
    arguments: &[
        ("text", DataType::Utf8, "a unit as a laboratory writes it"),
        ("words", DataType::Utf8, "other names: \"std units=pH;uS/cm @25C=uS/cm\""),
    ],
    answer: || DataType::Utf8,
    run: units,
    about: "the unit as this program writes it, so that ug/L and µg/L are one; absent where it is not known",
};

#[allow(clippy::unnecessary_wraps, reason = "as every function of rows")]
fn units(a: &[ArrayRef]) -> Result<ArrayRef> {
    let (of, other) = (a[0].as_string::<i32>(), renamings(a[1].as_string::<i32>()));
    let mut known: HashMap<&str, Option<String>> = HashMap::new();
    let column: StringArray = (0..of.len())
        .map(|i| {
            let raw = text(of, i)?;
            known
                .entry(raw)
                .or_insert_with(|| {
                    let named = other.get(raw).copied().unwrap_or(raw);
                    Unit::parse(named).ok().map(|u| u.to_string())
                })
                .clone()
        })
        .collect();
    Ok(std::sync::Arc::new(column))
}

// ---- limits ----------------------------------------------------------------------------------

const LIMIT: Layout = &[
    ("authority", Of::Text),
    ("kind", Of::Text),
    ("limit", Of::Number),
    ("unit", Of::Text),
    ("provenance", Of::Text),
    ("answer", Of::Text),
    ("probability_under", Of::Number),
];

/// `against_limits(analyte, value, u, below, unit)`.
pub static AGAINST_LIMITS: Rowwise = Rowwise {
    name: "against_limits",
    arguments: &[
        ("analyte", DataType::Utf8, "Pb, lead, NO3 …"),
        ("value", DataType::Float64, "what was measured; absent for a non-detect"),
        ("u", DataType::Float64, "its standard uncertainty; absent where none is stated"),
        ("below", DataType::Float64, "the limit that a non-detect lies under"),
        ("unit", DataType::Utf8, "unit of all three, with its basis"),
    ],
    answer: || answer::data_type(LIMIT),
    run: |a| against(a, |_| None),
    about: "the strictest published limit of the analyte that has no first day, and whether the result lies below, above, or cannot tell; no word on drinking",
};

/// `against_limits_on(analyte, value, u, below, unit, date)`.
pub static AGAINST_LIMITS_ON: Rowwise = Rowwise {
    name: "against_limits_on",
    arguments: &[
        ("analyte", DataType::Utf8, "Pb, lead, NO3 …"),
        ("value", DataType::Float64, "what was measured; absent for a non-detect"),
        ("u", DataType::Float64, "its standard uncertainty; absent where none is stated"),
        ("below", DataType::Float64, "the limit that a non-detect lies under"),
        ("unit", DataType::Utf8, "unit of all three, with its basis"),
        ("date", DataType::Date32, "the day of the sample; absent where nobody knows it"),
    ],
    answer: || answer::data_type(LIMIT),
    run: |a| {
        let days = a[5].as_primitive::<Date32Type>();
        against(a, |i| days.is_valid(i).then(|| days.value(i)))
    },
    about: "the strictest published limit of the analyte in force on the day, and whether the result lies below, above, or cannot tell; no word on drinking",
};

/// The strictest limit of an analyte on a day (days since 1970-01-01), none where no table names it. Without a day a limit
/// that has a first day (one still to come) does not decide.
fn strictest(name: &str, day: Option<i32>) -> Option<&'static Limit> {
    let wanted = limits::table::analyte(name);
    let day = day.and_then(super::series::day).map(|d| d.to_string());
    let holding = limits::limits().iter().filter(|l| l.decides_on(day.as_deref()));
    limits::local::strictest(holding.filter(|l| l.analyte == wanted))
}

/// `day` gives the day of a row, in days since 1970-01-01.
fn against(a: &[ArrayRef], day: impl Fn(usize) -> Option<i32>) -> Result<ArrayRef> {
    let (names, units) = (a[0].as_string::<i32>(), a[4].as_string::<i32>());
    let of = |k: usize| a[k].as_primitive::<Float64Type>();
    let (value, u, below) = (of(1), of(2), of(3));
    // Names, days and units repeat over a batch of thousands of rows: each is looked up once.
    let mut limit_of: HashMap<(&str, Option<i32>), Option<&'static Limit>> = HashMap::new();
    let mut unit_of: HashMap<&str, Option<Unit>> = HashMap::new();
    let none = || {
        let t = Value::Text(None);
        vec![t.clone(), t.clone(), Value::Number(None), t.clone(), t.clone(), t, Value::Number(None)]
    };
    let rows = (0..names.len())
        .map(|i| {
            let found = text(names, i).zip(text(units, i)).and_then(|(name, unit)| {
                let on = day(i);
                let limit = (*limit_of.entry((name, on)).or_insert_with(|| strictest(name, on)))?;
                let unit = unit_of.entry(unit).or_insert_with(|| Unit::parse(unit).ok()).clone()?;
                let amount = match (number(value, i), number(u, i), number(below, i)) {
                    (_, _, Some(b)) => Amount::below(b, unit),
                    (Some(v), Some(u), None) => Amount::Measured(Measured::new(v, u, unit)),
                    (Some(v), None, None) => Amount::stated(v, unit),
                    (None, _, None) => return None,
                };
                Some((limit, compare(&amount, limit, &Options::default())))
            });
            found.map_or_else(none, |(limit, c)| {
                vec![
                    Some(limit.authority.clone()).into(),
                    Some(limit.kind.clone()).into(),
                    limit.high.into(),
                    Some(limit.unit.to_string()).into(),
                    Some(limit.provenance.clone()).into(),
                    Some(c.answer.word().to_string()).into(),
                    c.probability_under.into(),
                ]
            })
        })
        .collect();
    answer::array(LIMIT, rows)
}
