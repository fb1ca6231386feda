//! `limpid results`: every result with value, uncertainty, unit, verdict, or those that filters leave; or one value a
//! well and day. As a table of a terminal's width, as a file for spreadsheets, or as JSON.

use super::{open, results_wide, results_written};
use crate::args::Results;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Rows, Side, lay_out};
use assessment::results::{self, Listed};
use assessment::well_value::{self, Part, WellValue};
use exchange::result_rows::{self, Cells, Grid, Line, day};
use record::model::VerdictWord;
use record::schema;
use record::store::{Filter, Store};
use serde_json::json;
use std::collections::{BTreeSet, HashMap};
use std::hash::{DefaultHasher, Hash as _, Hasher as _};

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
    if let Some(file) = &args.csv {
        if args.wide {
            results_written::csv(file, &result_rows::wide(grid(&store, args)?))?;
        } else {
            results_written::long_csv(file, |told| lines(&store, args, told))?;
        }
    }
    if let Some(file) = &args.xlsx {
        let sheet = if args.wide {
            result_rows::wide(grid(&store, args)?)
        } else {
            let mut all = vec![];
            lines(&store, args, |l| all.push(l))?;
            result_rows::long(all)
        };
        results_written::workbook(file, &sheet)?;
    }
    if args.csv.is_some() || args.xlsx.is_some() {
        return Ok(());
    }
    if args.wide {
        crate::out::write(format_args!("{}", results_wide::on_a_terminal(&grid(&store, args)?, TERMINAL)));
        return Ok(());
    }
    table(&store, args)?;
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
    each(store, args, |r| {
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

/// Reads all results of the bottles that the filters leave, in the order of the record: by the bottles of the wells or
/// trips asked for, where some are, else the whole record.
fn each(store: &Store, args: &Results, told: impl FnMut(Listed)) -> Result<(), Failure> {
    let (asked, column) = match (args.well.as_slice(), args.trip.as_slice()) {
        ([], []) => return Ok(results::each(store, told)?),
        ([], trips) => (trips, "trip"),
        (wells, _) => (wells, "well"),
    };
    let mut bottles = vec![];
    for name in asked.iter().collect::<BTreeSet<_>>() {
        for (place, _) in store.as_typed(column, &Filter::all().is("name", name.as_str()))? {
            let of_place = store.bottles(&Filter::all().is(column, place))?.into_iter();
            let on_trip = |trip: &Option<String>| {
                args.trip.is_empty() || trip.as_ref().is_some_and(|trip| args.trip.contains(trip))
            };
            bottles.extend(of_place.filter(|b| on_trip(&b.trip)).map(|b| b.id));
        }
    }
    Ok(results::each_of(store, &bottles, told)?)
}

/// What the filters leave, one after the other.
fn lines(store: &Store, args: &Results, mut told: impl FnMut(Line)) -> Result<(), Failure> {
    each(store, args, |r| {
        if args.wants(&r) {
            told(r.into());
        }
    })
}

fn grid(store: &Store, args: &Results) -> Result<Grid<()>, Failure> {
    let mut cells = Cells::default();
    lines(store, args, |l| cells.add(l, ()))?;
    Ok(cells.grid())
}

/// How many results begin with a text, among all of their bottle and so of the record. A digest stands for the text:
/// should two ever meet in one, a name is shown longer than it need be.
#[derive(Default)]
struct Begin(HashMap<u64, u32>);

impl Begin {
    fn digest(text: &str) -> u64 {
        let mut hasher = DefaultHasher::new();
        text.hash(&mut hasher);
        hasher.finish()
    }

    fn add(&mut self, newest: &str) {
        for begins in beginnings(newest) {
            *self.0.entry(Self::digest(begins)).or_default() += 1;
        }
    }

    /// The beginning of a name by which it alone is meant.
    fn short<'n>(&self, newest: &'n str) -> &'n str {
        beginnings(newest).find(|b| self.0.get(&Self::digest(b)) == Some(&1)).unwrap_or(newest)
    }
}

/// Beginnings of a name that say at least bottle and analyte, the shortest first: `SL2-26-07-A:Pb` and what follows.
fn beginnings(name: &str) -> impl Iterator<Item = &str> {
    name.match_indices(':').skip(1).map(move |(end, _)| &name[..end])
}

/// The results as a table of a terminal's width; why a verdict is what it is stands under its row.
fn table(store: &Store, args: &Results) -> Result<(), Failure> {
    let headings = [("result", Side::Left), ("value", Side::Right), ("unit", Side::Left), ("verdict", Side::Left)];
    let (mut begin, mut rows) = (Begin::default(), Rows::default());
    each(store, args, |r| {
        let newest = r.result.newest().to_string();
        begin.add(&newest);
        if args.wants(&r) {
            let l = Line::from(r);
            rows.push([&newest, &l.value, &l.unit, &l.judged], &l.because);
        }
    })?;
    rows.each_line(&headings, |newest| begin.short(newest), TERMINAL, |line| crate::out::write(format_args!("{line}")));
    Ok(())
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
            w.verdict.map_or_else(String::new, |v| assessment::verdict::said_by(v, w.profile.as_deref()).in_english()),
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
