//! Results as rows for people, one place for the command line and the web interface: one row a result, or wide, a row a
//! well and day and a column an analyte, as people keep results in spreadsheets. What a number alone would hide stands
//! beside it as a sign, and each sign is explained ([`SIGNS`]).
//!
//! In: results as the record lists them. Out: [`Line`]s, the [`Grid`], and either as a [`Sheet`]. No science: digits and
//! uncertainty come from `quantity::format`. Checked in `crates/cli/tests/looking.rs` and `crates/web/tests/requests.rs`.

use crate::sheet::{Numbers, Sheet};
use assessment::results::Listed;
use quantity::Amount;
use quantity::format::value_and_expanded;
use record::ResultId;
use record::model::VerdictWord;
use std::collections::{BTreeMap, BTreeSet};

/// What the signs of the wide table mean, a line each.
pub const SIGNS: &[&str] = &[
    "<  below this limit or upper bound: no value",
    ">  above this limit: no value",
    "nd not detected, and the report does not say below what",
    "p  provisional    r  rejected    no sign: accepted    a  accepted by a profile of checks",
    ";  between bottles of one well and day: each stands for itself",
    "   an empty cell: nothing of it is on record, which is not \"none\"",
    "Uncertainties and reasons stand in the table of one row a result. Blanks and spikes are left out.",
];

/// What the sign of the table of one row a result means.
const SIGN: &str = "sign: < below, > above the number in the column value, which is then a limit or bound";

/// A result as the tables show it.
#[derive(Debug, Clone)]
pub struct Line {
    /// Its identity.
    pub id: ResultId,
    /// Its whole name, with the revision.
    pub name: String,
    /// Well; this and what follows as on record, empty where not known.
    pub well: String,
    /// Trip.
    pub trip: String,
    /// Day on which the bottle was filled.
    pub day: String,
    /// Bottle.
    pub bottle: String,
    /// Element or quantity.
    pub analyte: String,
    /// Isotopes.
    pub isotopes: String,
    /// Fraction.
    pub fraction: String,
    /// The number as it is shown, with U beside it.
    pub value: String,
    /// Its unit.
    pub unit: String,
    /// The same for a spreadsheet.
    pub number: Number,
    /// Detection state.
    pub state: String,
    /// Verdict; none for evidence.
    pub verdict: Option<VerdictWord>,
    /// The verdict as a word with the profile that judged, or what the bottle is.
    pub judged: String,
    /// The profile that judged; empty where none did.
    pub profile: String,
    /// Why.
    pub because: String,
}

/// A number with what stands before and beside it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Number {
    /// `<`, `>` or nothing.
    pub sign: &'static str,
    /// Value or limit; empty where the report states none.
    pub value: String,
    /// Expanded uncertainty, 95 %; empty where there is none.
    pub expanded: String,
}

impl Number {
    fn of(r: &Listed) -> Self {
        match (&r.amount, r.coverage_k) {
            (None, _) => Self::default(),
            (Some(Amount::Measured(m)), Some(k)) => {
                let (value, expanded) = value_and_expanded(m, k);
                Self { sign: "", value, expanded }
            }
            (Some(Amount::Measured(m)), None) => Self { value: m.value.to_string(), ..Self::default() },
            // In full: a bound to fewer digits would have to be raised, and a source's own limit would change.
            (Some(Amount::Stated(s)), _) => Self { value: s.value.to_string(), ..Self::default() },
            (Some(Amount::Below(b)), _) => Self { sign: "<", value: b.limit.to_string(), ..Self::default() },
            (Some(Amount::Above(b)), _) => Self { sign: ">", value: b.limit.to_string(), ..Self::default() },
        }
    }
}

/// The day on which the bottle was filled, as the record writes it; empty where it is not known.
pub fn day(r: &Listed) -> &str {
    let at = r.filled_at.as_deref().unwrap_or_default();
    at.get(..10).unwrap_or(at)
}

/// The verdict as a word, or what the bottle is where it gets none.
pub fn verdict(r: &Listed) -> String {
    r.verdict_said().map_or_else(|| r.kind.word().replace('-', " "), |v| v.in_english())
}

/// The number with its expanded uncertainty, and the unit.
pub fn value(r: &Listed) -> (String, String) {
    if let Some((bound, unit)) = r.bound() {
        return (bound, unit);
    }
    match (&r.amount, r.coverage_k) {
        (None, _) => ("< not stated".into(), String::new()),
        (Some(Amount::Measured(m)), Some(k)) => {
            let (v, u) = value_and_expanded(m, k);
            (format!("{v} ± {u}"), m.unit.to_string())
        }
        (Some(other), _) => {
            let unit = other.unit().to_string();
            let words = other.in_words().replace(&format!(" {unit}"), "").replace("(u not stated)", "(no u)");
            (words, unit)
        }
    }
}

impl From<Listed> for Line {
    fn from(r: Listed) -> Self {
        let (value, unit) = value(&r);
        let mut because = r.reasons.join(", ");
        // What the field said stands where a verdict holds a result back.
        if let (Some(note), false) = (&r.note, r.reasons.is_empty()) {
            because += &format!("; field note: {note}");
        }
        Self {
            name: r.result.to_string(),
            day: day(&r).to_string(),
            number: Number::of(&r),
            state: r.state.word().replace('-', " "),
            judged: verdict(&r),
            profile: r.profile.clone().unwrap_or_default(),
            verdict: r.verdict,
            value,
            unit,
            because,
            well: r.well.unwrap_or_default(),
            trip: r.trip.unwrap_or_default(),
            bottle: r.bottle,
            analyte: r.analyte,
            isotopes: r.isotopes,
            fraction: r.fraction,
            id: r.result,
        }
    }
}

/// Headings of the table of one row a result; a reader of tables finds each thing in a column of its own.
const LONG: &[&str] = &[
    "well",
    "trip",
    "day",
    "bottle",
    "analyte",
    "isotopes",
    "fraction",
    "sign",
    "value",
    "expanded_uncertainty_95",
    "unit",
    "state",
    "verdict",
    "because",
    "result",
];

/// Places of value and uncertainty among them.
const LONG_NUMBERS: &[usize] = &[8, 9];

/// The table of one row a result, without its rows.
pub fn long_head() -> Sheet {
    Sheet {
        name: "results",
        headings: LONG.iter().map(ToString::to_string).collect(),
        rows: vec![],
        numbers: Numbers::At(LONG_NUMBERS),
        legend: vec![SIGN.into()],
    }
}

/// A row of it.
pub fn long_row(l: Line) -> Vec<String> {
    let n = l.number;
    vec![
        l.well,
        l.trip,
        l.day,
        l.bottle,
        l.analyte,
        l.isotopes,
        l.fraction,
        n.sign.to_string(),
        n.value,
        n.expanded,
        l.unit,
        l.state,
        l.judged,
        l.because,
        l.name,
    ]
}

/// One row a result.
pub fn long(lines: Vec<Line>) -> Sheet {
    Sheet { rows: lines.into_iter().map(long_row).collect(), ..long_head() }
}

/// One row a well and day.
pub fn wide<T>(grid: Grid<T>) -> Sheet {
    Sheet {
        name: "results",
        rows: grid.rows.iter().map(Row::words).collect(),
        headings: grid.headings,
        numbers: Numbers::From(2),
        legend: SIGNS.iter().map(ToString::to_string).collect(),
    }
}

/// What was measured, as the heading of a column.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Column {
    analyte: String,
    isotopes: String,
    fraction: String,
    unit: String,
}

/// A row a well and day; `T` is what a page needs of each number, as its result's identity, and nothing elsewhere.
#[derive(Debug, Clone)]
pub struct Grid<T> {
    /// Well and day first, then what was measured with its unit.
    pub headings: Vec<String>,
    /// By well and day.
    pub rows: Vec<Row<T>>,
}

/// A row of the grid.
#[derive(Debug, Clone)]
pub struct Row<T> {
    /// Well.
    pub well: String,
    /// Day.
    pub day: String,
    /// One a column: the results of the bottles of that well and day, each with its number and signs.
    pub cells: Vec<Vec<(T, String)>>,
}

impl<T> Row<T> {
    /// As text, well and day first.
    pub fn words(&self) -> Vec<String> {
        let cell = |all: &Vec<(T, String)>| all.iter().map(|(_, w)| w.as_str()).collect::<Vec<_>>().join("; ");
        [self.well.clone(), self.day.clone()].into_iter().chain(self.cells.iter().map(cell)).collect()
    }
}

/// What stands in a row, by the place of its column.
type ByColumn<T> = BTreeMap<usize, Vec<(T, String)>>;

/// A grid in the making: of each column its place, of each cell its numbers and no more.
#[derive(Debug)]
pub struct Cells<T> {
    columns: BTreeMap<Column, usize>,
    /// By well and day, then by the place of the column.
    rows: BTreeMap<(String, String), ByColumn<T>>,
}

impl<T> Default for Cells<T> {
    fn default() -> Self {
        Self { columns: BTreeMap::new(), rows: BTreeMap::new() }
    }
}

impl<T> Cells<T> {
    /// Adds a result of a water. Evidence, and bottles of no well, have no row.
    pub fn add(&mut self, l: Line, mark: T) {
        if l.verdict.is_none() || l.well.is_empty() {
            return;
        }
        let cell = cell(&l);
        let column = Column { analyte: l.analyte, isotopes: l.isotopes, fraction: l.fraction, unit: l.unit };
        let next = self.columns.len();
        let place = *self.columns.entry(column).or_insert(next);
        self.rows.entry((l.well, l.day)).or_default().entry(place).or_default().push((mark, cell));
    }

    /// All of it, the columns in their order.
    pub fn grid(self) -> Grid<T> {
        let named: BTreeSet<Column> = self.columns.keys().cloned().collect();
        let first = ["well".to_string(), "day".into()].into_iter();
        let headings = first.chain(named.iter().map(|c| heading(c, &named))).collect();
        let row = |((well, day), mut of): ((String, String), ByColumn<T>)| Row {
            well,
            day,
            cells: self.columns.values().map(|place| of.remove(place).unwrap_or_default()).collect(),
        };
        Grid { headings, rows: self.rows.into_iter().map(row).collect() }
    }
}

/// The analyte and its unit; isotopes and fraction only where they tell two columns apart.
fn heading(column: &Column, all: &BTreeSet<Column>) -> String {
    let same: Vec<&Column> = all.iter().filter(|c| c.analyte == column.analyte).collect();
    let mut out = column.analyte.clone();
    if same.iter().any(|c| c.isotopes != column.isotopes) && !column.isotopes.is_empty() {
        out += &format!(" {}", column.isotopes);
    }
    if same.iter().any(|c| c.fraction != column.fraction) {
        out += &format!(" {}", column.fraction);
    }
    if column.unit.is_empty() { out } else { format!("{out} ({})", column.unit) }
}

fn cell(l: &Line) -> String {
    // A limit or bound as it is shown, to digits that mean something; the long form has it in full.
    let number = match (l.number.sign, l.value.rsplit(' ').next()) {
        _ if l.number.value.is_empty() => "nd".into(),
        ("", _) | (_, None) => l.number.value.clone(),
        (sign, Some(limit)) => format!("{sign}{limit}"),
    };
    match l.verdict {
        Some(VerdictWord::Provisional) => format!("{number} p"),
        Some(VerdictWord::Rejected) => format!("{number} r"),
        Some(VerdictWord::Accepted) if !l.profile.is_empty() => format!("{number} a"),
        _ => number,
    }
}
