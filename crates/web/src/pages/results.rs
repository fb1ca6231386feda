//! All results: filters, verdicts, pages; each opens its case. Or wide: a row a well and day, a column an analyte. What is
//! shown goes out whole as CSV and as a workbook, by the same rows as at the command line (`exchange::result_rows`).

use super::{judged, measurand, value};
use crate::app::Shared;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, heads, link, respond, td};
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use crate::worked::well_values;
use assessment::results::{self, Listed};
use assessment::well_value::WellValue;
use axum::extract::{Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use exchange::result_rows::{self, Cells, Grid, Line, Row, SIGNS};
use exchange::sheet::{CsvRows, SheetError};
use maud::{Markup, html};
use programme::index::{Index, Selected, Wanted};
use record::ResultId;
use record::model::VerdictWord;
use record::store::Store;
use std::sync::Arc;

/// Results on a page.
const PER_PAGE: usize = 50;

/// Wells and days on a page of the wide table.
const DAYS_PER_PAGE: usize = 40;

/// Results of one file that is held in memory as a whole: a workbook, a wide table. One row a result goes out as CSV
/// however many there are.
// The programme's own choice: some 100 MB while it is made.
const IN_FILE: usize = 50_000;

/// Results read at a time for a CSV file.
const AT_A_TIME: usize = 2_000;

/// What an address asks for.
///
/// # Errors
/// A verdict or a day that cannot be: read as nothing it would show what nobody asked for.
pub(crate) fn wanted(q: &Query) -> Result<Wanted, HttpError> {
    let text = |name: &str| q.get(name).map(|v| v.trim()).filter(|v| !v.is_empty()).map(str::to_string);
    let day = |name: &str| match text(name) {
        Some(d) if d.len() != "2026-07-14".len() || d.parse::<jiff::civil::Date>().is_err() => {
            Err(HttpError::refused(format!("Found \"{d}\", expected a day such as 2026-07-14.")))
        }
        day => Ok(day),
    };
    let verdict = match text("verdict") {
        Some(v) => Some(VerdictWord::from_word(&v).ok_or_else(|| {
            let words = VerdictWord::WORDS.join(", ");
            HttpError::refused(format!("Verdict: found \"{v}\", expected one of {words}."))
        })?),
        None => None,
    };
    Ok(Wanted {
        well: text("well"),
        trip: text("trip"),
        analyte: text("analyte"),
        fraction: text("fraction"),
        bottle: text("bottle"),
        from: day("from")?,
        to: day("to")?,
        verdict,
        held_by: text("held-by"),
        evidence: q.get("of").is_some_and(|o| o == "evidence"),
    })
}

/// The address of these results.
fn address(w: &Wanted, more: &[(&str, String)]) -> String {
    let mut out = String::from("/results?");
    let own = [
        ("well", w.well.clone()),
        ("trip", w.trip.clone()),
        ("analyte", w.analyte.clone()),
        ("fraction", w.fraction.clone()),
        ("bottle", w.bottle.clone()),
        ("from", w.from.clone()),
        ("to", w.to.clone()),
        ("verdict", w.verdict.map(|v| v.word().to_string())),
        ("held-by", w.held_by.clone()),
        ("of", w.evidence.then(|| "evidence".to_string())),
    ];
    let own = own.into_iter().filter_map(|(n, v)| Some((n, v?)));
    for (n, v) in own.chain(more.iter().map(|(n, v)| (*n, v.clone()))) {
        if !out.ends_with('?') {
            out.push('&');
        }
        out += &format!("{n}={}", encoded(&v));
    }
    out
}

struct Choices {
    wells: Vec<String>,
    trips: Vec<String>,
    analytes: Vec<String>,
    fractions: Vec<String>,
}

fn choices(index: &Index) -> Choices {
    let mut trips = index.trips.clone();
    trips.reverse();
    let owned = |all: Vec<&str>| all.into_iter().map(str::to_string).collect();
    let (analytes, fractions) = (owned(index.analytes()), owned(index.fractions()));
    Choices { wells: index.wells.clone(), trips, analytes, fractions }
}

/// How results are laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Form {
    /// One row a result.
    Long,
    /// One row a well and day.
    Wide,
}

impl Form {
    /// What of an address asks for it.
    fn query(self) -> Vec<(&'static str, String)> {
        match self {
            Self::Long => vec![],
            Self::Wide => vec![("wide", "1".into())],
        }
    }
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let wanted = wanted(&q)?;
    let number = q.get("page").and_then(|p| p.parse::<usize>().ok()).unwrap_or(1).max(1);
    // Blanks are of no well and day.
    let form = if q.get("wide").is_some_and(|w| w == "1") && !wanted.evidence { Form::Wide } else { Form::Long };
    if let Some(kind) = q.get("file") {
        return file(&app, wanted, form, kind).await;
    }
    let asked = wanted.clone();
    // Blanks have no well's value; the wide table shows each bottle's.
    let asked_well = wanted.well.clone().filter(|_| !wanted.evidence && form == Form::Long);
    let (found, choices, rows, values) = page::read(&app, move |store, app| {
        let select = |i: &Index| match form {
            Form::Long => i.select(&asked, number - 1, PER_PAGE),
            Form::Wide => i.select_wide(&asked, number - 1, DAYS_PER_PAGE),
        };
        let (found, choices) = app.record.index(store, |i| (select(i), choices(i)))?;
        let rows = results::listed(store, &found.rows)?;
        let values = match asked_well {
            Some(well) => well_values(store, app, &well)?,
            None => Arc::default(),
        };
        Ok((found, choices, rows, values))
    })
    .await?;
    let mut pieces: Vec<Piece> = vec![
        html! { h1 { "Results" } (filters(&wanted, &choices, form)) @if form == Form::Long { (counts(&wanted, &found)) } }
            .into(),
    ];
    if let (Some(well), false) = (&wanted.well, values.is_empty()) {
        let of_analyte = |w: &WellValue| wanted.analyte.as_ref().is_none_or(|a| *a == w.analyte);
        let values: Vec<WellValue> = values.iter().filter(|w| of_analyte(w)).cloned().collect();
        pieces.push(super::wells::values_of_well(well, &values).into());
    }
    let per = match form {
        Form::Long => PER_PAGE,
        Form::Wide => DAYS_PER_PAGE,
    };
    let listing = match form {
        Form::Long => listing(&rows, &found, &wanted, number),
        Form::Wide => wide(rows, &found, &wanted, number),
    };
    pieces.extend([
        Piece::from(listing),
        files(&wanted, &found, form).into(),
        pages(&wanted, &found, form, number, per).into(),
    ]);
    respond(&app, &who, Place::of("/results", "Results"), &q, &pieces)
}

/// All that is wanted as a file.
async fn file(app: &Shared, wanted: Wanted, form: Form, kind: &str) -> Result<Response, HttpError> {
    let workbook = match kind {
        "csv" => false,
        "xlsx" => true,
        _ => return Err(HttpError::refused(format!("Found the file \"{kind}\", expected csv or xlsx."))),
    };
    let bytes = page::read(app, move |store, app| {
        let rows = app.record.index(store, |i| i.select(&wanted, 0, usize::MAX).rows)?;
        if form == Form::Long && !workbook {
            return long_csv(store, &rows);
        }
        if rows.len() > IN_FILE {
            return Err(HttpError::refused(format!(
                "{} results are more than one such file holds ({IN_FILE}): narrow them by well, trip or day, or take one row a result as CSV, which holds all.",
                rows.len()
            )));
        }
        let lines = lines(store, &rows)?;
        let sheet = match form {
            Form::Long => result_rows::long(lines),
            Form::Wide => result_rows::wide(grid(lines)),
        };
        Ok(if workbook { sheet.workbook() } else { sheet.csv() }?)
    })
    .await?;
    Ok(attachment("results", kind, bytes))
}

/// A file that is saved and not shown.
pub(crate) fn attachment(name: &str, ending: &str, bytes: Vec<u8>) -> Response {
    let kind = match ending {
        "csv" => "text/csv; charset=utf-8",
        "xlsx" => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        _ => "application/octet-stream",
    };
    let name = format!("attachment; filename=\"{name}.{ending}\"");
    ([(header::CONTENT_TYPE, kind.to_string()), (header::CONTENT_DISPOSITION, name)], bytes).into_response()
}

fn lines(store: &Store, rows: &[i64]) -> Result<Vec<Line>, HttpError> {
    Ok(results::listed(store, rows)?.into_iter().map(Line::from).collect())
}

/// Part by part: what is held of a long record is its text alone.
fn long_csv(store: &Store, rows: &[i64]) -> Result<Vec<u8>, HttpError> {
    let mut out = CsvRows::begin(vec![], &result_rows::long_head())?;
    for part in rows.chunks(AT_A_TIME) {
        for line in lines(store, part)? {
            out.row(&result_rows::long_row(line))?;
        }
    }
    Ok(out.end()?)
}

fn grid(lines: Vec<Line>) -> Grid<ResultId> {
    let mut cells = Cells::default();
    for line in lines {
        let id = line.id.clone();
        cells.add(line, id);
    }
    cells.grid()
}

impl From<SheetError> for HttpError {
    fn from(e: SheetError) -> Self {
        Self::outside(e.to_string())
    }
}

fn filters(w: &Wanted, c: &Choices, form: Form) -> Markup {
    let day = |name: &str, label: &str, now: Option<&String>| {
        html! { div.field { label for=(name) { (label) } input #(name) name=(name) type="date" value=[now]; } }
    };
    let select = |name: &str, label: &str, all: &[String], now: Option<&str>| {
        html! {
            div.field {
                label for=(name) { (label) }
                select #(name) name=(name) {
                    option value="" { "all" }
                    @for v in all { option value=(v) selected[now == Some(v)] { (v) } }
                }
            }
        }
    };
    let verdicts: Vec<String> = VerdictWord::ALL.iter().map(|v| v.word().to_string()).collect();
    html! {
        form.filters method="get" action="/results" role="search" aria-label="Which results" {
            (select("well", "Well", &c.wells, w.well.as_deref()))
            (select("analyte", "Analyte", &c.analytes, w.analyte.as_deref()))
            @if c.trips.len() <= 60 { (select("trip", "Trip", &c.trips, w.trip.as_deref())) }
            @else { div.field { label for="trip" { "Trip" } input #trip name="trip" value=(w.trip.clone().unwrap_or_default()); } }
            (day("from", "From", w.from.as_ref()))
            (day("to", "To", w.to.as_ref()))
            (select("verdict", "Verdict", &verdicts, w.verdict.map(VerdictWord::word)))
            (select("fraction", "Fraction", &c.fractions, w.fraction.as_deref()))
            div.field {
                label for="of" { "Of" }
                select #of name="of" {
                    option value="" { "the water" }
                    option value="evidence" selected[w.evidence] { "blanks and other evidence" }
                }
            }
            div.field {
                label for="wide" { "Rows" }
                select #wide name="wide" disabled[w.evidence] {
                    option value="" { "one a result" }
                    option value="1" selected[form == Form::Wide] { "one a well and day" }
                }
            }
            @if let Some(bottle) = &w.bottle { input type="hidden" name="bottle" value=(bottle); }
            @if let Some(check) = &w.held_by { input type="hidden" name="held-by" value=(check); }
            button type="submit" { "Show" }
        }
    }
}

fn counts(w: &Wanted, found: &Selected) -> Markup {
    let [accepted, provisional, rejected] = found.verdicts;
    html! {
        @if !w.evidence {
            p { @for (n, v) in [(accepted, VerdictWord::Accepted), (provisional, VerdictWord::Provisional), (rejected, VerdictWord::Rejected)] {
                a.count href=(address(&Wanted { verdict: Some(v), ..w.clone() }, &[])) { (n) " " (crate::blocks::verdict_word(super::word(v))) } " "
            } }
        }
    }
}

fn listing(rows: &[Listed], found: &Selected, w: &Wanted, number: usize) -> Listing {
    let line = |r: &Listed| {
        vec![
            link(&page::case_address(&r.result), r.bottle.clone()),
            td(measurand(r)),
            value(r),
            judged(r),
            td(r.well.clone().unwrap_or_default()),
            td(r.filled_at.as_deref().unwrap_or_default().chars().take(10).collect::<String>()),
            td(r.fraction.clone()),
            td(r.water_share.map_or_else(String::new, |s| s.said())),
            td(r.reasons.join(", ")),
        ]
    };
    let first = (number - 1) * PER_PAGE + 1;
    let caption = if found.total == 0 {
        String::new()
    } else {
        format!("{first} to {} of {} results, newest sampling first", first + rows.len() - 1, found.total)
    };
    Listing {
        caption,
        headings: heads(&[
            "Bottle",
            "What",
            "Value ± U",
            "Verdict",
            "Well",
            "Filled",
            "Fraction",
            "Left by the blanks",
            "Because of",
        ]),
        rows: rows.iter().map(line).collect(),
        empty: "No result fits. Results come with a run or a laboratory's table: see Runs.",
        foot: Some(
            html! { "± is the expanded uncertainty (95 %); < is an upper bound, not a value; † the source states no uncertainty." },
        ),
        all: Some(address(w, &[("file", "csv".into())])),
    }
}

/// The wide table of a page, each number with its signs as a link to its case.
fn wide(rows: Vec<Listed>, found: &Selected, w: &Wanted, number: usize) -> Listing {
    let lines: Vec<Line> = rows.into_iter().map(Line::from).collect();
    let grid = grid(lines);
    let cell = |all: &Vec<(ResultId, String)>| Td {
        shown: html! {
            @for (n, (result, words)) in all.iter().enumerate() {
                @if n > 0 { "; " }
                a href=(case_address(result)) { (words) }
            }
        },
        words: all.iter().map(|(_, words)| words.as_str()).collect::<Vec<_>>().join("; "),
        number: true,
    };
    let row = |r: &Row<ResultId>| {
        let first = [link(&format!("/wells/{}", encoded(&r.well)), r.well.clone()), td(r.day.clone())];
        first.into_iter().chain(r.cells.iter().map(cell)).collect::<Vec<Td>>()
    };
    let first = (number - 1) * DAYS_PER_PAGE + 1;
    Listing {
        caption: format!(
            "Wells and days {first} to {} of {}, newest sampling first",
            first + grid.rows.len().max(1) - 1,
            found.total
        ),
        rows: grid.rows.iter().map(row).collect(),
        headings: grid.headings,
        empty: "No result of a well fits. Results come with a run or a laboratory's table: see Runs.",
        foot: Some(html! { @for sign in SIGNS { (sign) br; } }),
        all: Some(address(w, &[("wide", "1".into()), ("file", "csv".into())])),
    }
}

/// What is shown, whole, as files.
fn files(w: &Wanted, found: &Selected, form: Form) -> Markup {
    let to = |kind: &str| address(w, &[form.query(), vec![("file", kind.to_string())]].concat());
    html! {
        @if found.total > 0 {
            p.acts { "All that fits, not this page alone: " a href=(to("csv")) { "as CSV" } " " a href=(to("xlsx")) { "as a workbook (XLSX)" } }
        }
    }
}

fn pages(w: &Wanted, found: &Selected, form: Form, number: usize, per: usize) -> Markup {
    let last = found.total.div_ceil(per).max(1);
    let to = |page: usize| address(w, &[form.query(), vec![("page", page.to_string())]].concat());
    html! {
        @if last > 1 {
            nav.pages aria-label="Pages" {
                @if number > 1 { a rel="prev" href=(to(number - 1)) { "Newer" } }
                span { "Page " (number) " of " (last) }
                @if number < last { a rel="next" href=(to(number + 1)) { "Older" } }
            }
        }
    }
}
