//! `limpid results`: every result with value, uncertainty, unit, verdict, or those that filters leave; or one value a
//! well and day. As a table of a terminal's width, as a file for spreadsheets, or as JSON.

use super::{open, results_wide, results_written};
use crate::args::Results;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out, lay_out_with_notes};
use assessment::results::{self, Listed};
use assessment::well_value::{self, Part, WellValue};
use quantity::Amount;
use quantity::format::value_and_expanded;
use record::model::VerdictWord;
use record::schema;
use record::store::{Filter, Store};
use serde_json::json;
use std::collections::HashMap;

/// Columns of a terminal as it opens.
const TERMINAL: usize = 80;

/// What a filter says of results that get no verdict.
const NO_VERDICT: &str = "none";

/// Names that a refusal lists, at most.
const LISTED: usize = 12;

/// Runs `limpid results`.
pub fn run(args: &Results) -> Result<(), Failure> {
    let store = open(&args.store)?;
    if args.wells {
        return wells(&store, args.json);
    }
    check(&store, args)?;
    if args.json {
        return document(&store, args);
    }
    let lines = lines(&store, args)?;
    if let Some(file) = &args.csv {
        results_written::csv(file, &results_written::sheet(&lines, args.wide))?;
    }
    if let Some(file) = &args.xlsx {
        results_written::workbook(file, &results_written::sheet(&lines, args.wide))?;
    }
    if args.csv.is_some() || args.xlsx.is_some() {
        return Ok(());
    }
    if args.wide {
        crate::out::write(format_args!("{}", results_wide::on_a_terminal(&lines, TERMINAL)));
        return Ok(());
    }
    crate::out::write(format_args!("{}", table(&lines)));
    say!(
        "\n± is the 95 % interval. < is an upper bound or a limit, not a value. Evidence (blanks, spikes) gets no verdict.\nUnder a row stands what its verdict is because of. A name ends where one result alone begins so; `limpid case` takes it as it stands here."
    );
    Ok(())
}

/// Refuses a filter that nothing on record can meet, so that a name mistyped is not read as "there is none".
fn check(store: &Store, args: &Results) -> Result<(), Failure> {
    for (asked, table, column) in [
        (&args.well, "well", "name"),
        (&args.trip, "trip", "name"),
        (&args.analyte, "measurand", "analyte"),
        (&args.fraction, "measurand", "fraction"),
    ] {
        if asked.is_empty() {
            continue;
        }
        let place = schema::table(table).and_then(|t| t.place(column)).unwrap_or(0);
        let rows = store.as_typed(table, &Filter::all())?;
        let mut known: Vec<&str> = rows.iter().map(|(_, cells)| cells[place].as_str()).collect();
        known.sort_unstable();
        known.dedup();
        let Some(unknown) = asked.iter().find(|a| !known.contains(&a.as_str())) else { continue };
        let what = if table == "measurand" { column } else { table };
        let more = if known.len() > LISTED { format!(" and {} more", known.len() - LISTED) } else { String::new() };
        known.truncate(LISTED);
        let there =
            if known.is_empty() { "there is none".into() } else { format!("there are {}{more}", known.join(", ")) };
        return Err(Failure::Refused(format!("no {what} \"{unknown}\" is on record; {there}")));
    }
    let words = [VerdictWord::WORDS, &[NO_VERDICT]].concat();
    if let Some(unknown) = args.verdict.iter().find(|v| !words.contains(&v.as_str())) {
        return Err(Failure::Refused(format!("verdict: found \"{unknown}\", expected one of {}", words.join(", "))));
    }
    for day in [&args.from, &args.to].into_iter().flatten() {
        if day.parse::<jiff::civil::Date>().is_err() || day.len() != "2026-07-14".len() {
            return Err(Failure::Refused(format!("found \"{day}\", expected a day such as 2026-07-14")));
        }
    }
    Ok(())
}

impl Results {
    /// Whether the filters leave this one.
    fn wants(&self, r: &Listed) -> bool {
        let one_of = |asked: &[String], found: Option<&str>| {
            asked.is_empty() || found.is_some_and(|found| asked.iter().any(|a| a == found))
        };
        let day = day(r);
        // A bottle whose day is not known was filled neither before nor after.
        let since = self.from.as_deref().is_none_or(|from| !day.is_empty() && day >= from);
        let until = self.to.as_deref().is_none_or(|to| !day.is_empty() && day <= to);
        one_of(&self.well, r.well.as_deref())
            && one_of(&self.trip, r.trip.as_deref())
            && one_of(&self.analyte, Some(&r.analyte))
            && one_of(&self.fraction, Some(&r.fraction))
            && one_of(&self.verdict, Some(r.verdict.map_or(NO_VERDICT, VerdictWord::word)))
            && since
            && until
    }
}

/// The day on which the bottle was filled, as the record writes it; empty where it is not known.
pub fn day(r: &Listed) -> &str {
    let at = r.filled_at.as_deref().unwrap_or_default();
    at.get(..10).unwrap_or(at)
}

/// One JSON document, written result by result: of a long record all at once would be memory many times the file's.
fn document(store: &Store, args: &Results) -> Result<(), Failure> {
    let mut warnings = vec![
        "What was not tested, microbes first, is not spoken of; advice on drinking is the local health authority's."
            .to_string(),
    ];
    warnings.extend(assessment::engine::reach(store)?.in_words());
    let head = json!(store.head()?.map(|h| h.to_string()));
    let method = json!(
        "newest revision of every result; amounts that were not detected stand as \"below\" with their upper bound or limit"
    );
    let (mut before, mut fault) = ("", None);
    crate::out::write(format_args!("{{\"head\":{head},\"method\":{method},\"results\":["));
    results::each(store, |r| {
        if fault.is_some() || !args.wants(&r) {
            return;
        }
        match serde_json::to_string(&r) {
            Ok(text) => crate::out::write(format_args!("{before}{text}")),
            Err(e) => fault = Some(e),
        }
        before = ",";
    })?;
    if let Some(e) = fault {
        return Err(Failure::Outside(anyhow::anyhow!(e).context("writing a result as JSON")));
    }
    let sources = json!(["Currie 1968, Anal. Chem. 40:586", "JCGM 100:2008"]);
    say!("],\"sources\":{sources},\"warnings\":{}}}", json!(warnings));
    Ok(())
}

/// A result as the tables show it.
#[derive(Debug, Clone)]
pub struct Line {
    /// The beginning of its name by which it alone is meant.
    pub short: String,
    /// Its whole name, with the revision.
    pub name: String,
    /// Where, when, what: as on record, empty where not known.
    pub well: String,
    pub trip: String,
    pub day: String,
    pub bottle: String,
    pub analyte: String,
    pub isotopes: String,
    pub fraction: String,
    /// The number as it is shown, with U beside it, and its unit.
    pub value: String,
    pub unit: String,
    /// The same for a spreadsheet.
    pub number: Number,
    /// Detection state.
    pub state: String,
    /// Verdict; none for evidence.
    pub verdict: Option<VerdictWord>,
    /// The verdict as a word, or what the bottle is.
    pub judged: String,
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

/// What the filters leave, in the order of the record.
fn lines(store: &Store, args: &Results) -> Result<Vec<Line>, Failure> {
    let mut out = vec![];
    // How many results begin so: among all of the record, not among those shown.
    let mut begin: HashMap<String, usize> = HashMap::new();
    results::each(store, |r| {
        let newest = r.result.newest().to_string();
        for begins in beginnings(&newest) {
            *begin.entry(begins.to_string()).or_default() += 1;
        }
        if args.wants(&r) {
            out.push(line(r));
        }
    })?;
    for l in &mut out {
        let alone = beginnings(&l.short).find(|b| begin.get(*b) == Some(&1)).map(String::from);
        l.short = alone.unwrap_or_else(|| std::mem::take(&mut l.short));
    }
    Ok(out)
}

/// Beginnings of a name that say at least bottle and analyte, the shortest first: `SL2-26-07-A:Pb` and what follows.
fn beginnings(name: &str) -> impl Iterator<Item = &str> {
    name.match_indices(':').skip(1).map(move |(end, _)| &name[..end])
}

fn line(r: Listed) -> Line {
    let (value, unit) = value(&r);
    let mut because = r.reasons.join(", ");
    // What the field said stands where a verdict holds a result back.
    if let (Some(note), false) = (&r.note, r.reasons.is_empty()) {
        because += &format!("; field note: {note}");
    }
    Line {
        short: r.result.newest().to_string(),
        name: r.result.to_string(),
        day: day(&r).to_string(),
        number: Number::of(&r),
        state: r.state.word().replace('-', " "),
        judged: verdict(&r),
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
    }
}

/// The results as a table of a terminal's width; why a verdict is what it is stands under its row.
fn table(lines: &[Line]) -> String {
    let row = |l: &Line| (vec![l.short.clone(), l.value.clone(), l.unit.clone(), l.judged.clone()], l.because.clone());
    let headings = [("result", Side::Left), ("value", Side::Right), ("unit", Side::Left), ("verdict", Side::Left)];
    lay_out_with_notes(&headings, &lines.iter().map(row).collect::<Vec<_>>(), TERMINAL)
}

/// Runs `limpid results --wells`.
fn wells(store: &Store, json: bool) -> Result<(), Failure> {
    let all = well_value::all(store)?;
    if json {
        let document = json!({
            "wells": all,
            "head": store.head()?.map(|h| h.to_string()),
            "method": "one value a well, day, element and fraction: weighted mean of the bottles that agree, what they share in it once and in full; none where they disagree",
            "sources": ["JCGM 100:2008", "Welch 1951, Biometrika 38:330", "Birge 1932, Phys. Rev. 40:207"],
            "warnings": assessment::engine::reach(store)?.in_words(),
        });
        say!("{document}");
    } else {
        crate::out::write(format_args!("{}", table_of_wells(&all)));
        say!(
            "\n± is the 95 % interval; what the bottles share is in it once and in full. < is an upper bound. Where bottles disagree no number is given: their values stand side by side."
        );
    }
    Ok(())
}

/// The values of wells as a table.
fn table_of_wells(all: &[WellValue]) -> String {
    let labels = |parts: &[Part]| parts.iter().map(|p| p.bottle.as_str()).collect::<Vec<_>>().join(", ");
    let row = |w: &WellValue| {
        vec![
            w.water.well.clone().unwrap_or_default(),
            w.water.day.clone(),
            format!("{} {}@{}", w.analyte, w.isotopes, w.resolution),
            w.water.fraction.clone(),
            w.number(),
            w.verdict.map_or("", VerdictWord::word).to_string(),
            labels(&w.bottles),
            w.number_with_all_back().unwrap_or_default(),
            w.reasons.join(", "),
        ]
    };
    let headings = [
        ("well", Side::Left),
        ("day", Side::Left),
        ("element", Side::Left),
        ("fraction", Side::Left),
        ("value", Side::Left),
        ("verdict", Side::Left),
        ("bottles", Side::Left),
        ("with everything put back", Side::Left),
        ("because of", Side::Left),
    ];
    lay_out(&headings, &all.iter().map(row).collect::<Vec<_>>())
}

/// The verdict as a word, or what the bottle is where it gets none.
pub fn verdict(r: &Listed) -> String {
    r.verdict.map_or_else(|| r.kind.word().replace('-', " "), |v| v.word().to_string())
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
