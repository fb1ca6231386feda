//! All results: what is asked for as words in the address, what needs one first, a row or card for each well, day and
//! substance with its bottles side by side ([`result_cards`](super::result_cards)), or the wide table
//! ([`result_wide`](super::result_wide)). What is shown goes out whole as CSV and as a workbook.

use super::result_cards;
use super::result_groups::{self, Found, Order, Sought};
use super::{check_words, result_wide, words};
use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, respond};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use assessment::results;
use assessment::verdict::NO_DECISIVE_CHECK;
use axum::extract::{Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use exchange::result_rows::{self, Line};
use exchange::sheet::{CsvRows, SheetError};
use maud::{Markup, html};
use message::{Message, Spoken, count, language, web_results as said};
use programme::index::{Index, Wanted};
use quantity::Check;
use record::model::VerdictWord;
use record::near::{self, Names};
use record::store::Store;

/// Wells, days and substances on a page: six screens of a telephone.
const PER_PAGE: usize = 20;

/// Results of one file that is held in memory as a whole: a workbook, a wide table. One row a result goes out as CSV
/// however many there are.
// The programme's own choice: some 100 MB while it is made.
pub(super) const IN_FILE: usize = 50_000;

/// Results read at a time for a CSV file.
const AT_A_TIME: usize = 2_000;

/// What an address asks for.
#[derive(Debug, Clone, Default)]
pub(super) struct Asked {
    pub wanted: Wanted,
    /// The substance as it was typed.
    pub substance: Option<String>,
    /// The check that holds them back.
    pub held_by: Option<String>,
    pub order: Order,
    /// Wide table in place of rows.
    pub wide: bool,
    /// Which substances the wide table shows.
    pub family: Option<String>,
    /// Without U in the wide table.
    pub without_u: bool,
    /// From 0.
    pub page: usize,
}

/// What an address asks for.
///
/// # Errors
/// A verdict, a day or a check that cannot be: read as nothing it would show what nobody asked for.
pub(super) fn asked(q: &Query) -> Result<Asked, HttpError> {
    let text = |name: &str| q.get(name).map(|v| v.trim()).filter(|v| !v.is_empty()).map(str::to_string);
    let day = |name: &str| match text(name) {
        Some(d) if d.len() != "2026-07-14".len() || d.parse::<jiff::civil::Date>().is_err() => {
            Err(HttpError::refused(said::NoDay { found: d.into() }.text()))
        }
        day => Ok(day),
    };
    let verdict = match text("verdict") {
        Some(v) => {
            let words = || said::NoVerdict { found: v.as_str().into() }.text();
            Some(VerdictWord::from_word(&v).ok_or_else(|| HttpError::refused(words()))?)
        }
        None => None,
    };
    let held_by = text("held-by");
    if let Some(check) = held_by.as_deref().filter(|c| Check::from_text(c).is_none() && *c != NO_DECISIVE_CHECK) {
        return Err(HttpError::refused(said::NoCheck { found: check.into() }.text()));
    }
    let evidence = q.get("of").is_some_and(|o| o == "evidence");
    let substance = text("analyte");
    Ok(Asked {
        wanted: Wanted {
            well: text("well"),
            trip: text("trip"),
            analyte: substance.clone(),
            fraction: text("fraction"),
            bottle: text("bottle"),
            from: day("from")?,
            to: day("to")?,
            verdict,
            evidence,
            ..Wanted::default()
        },
        substance,
        held_by,
        order: Order::ALL.into_iter().find(|o| Some(o.word()) == q.get("sort").map(String::as_str)).unwrap_or_default(),
        // Blanks are of no well and day.
        wide: q.get("wide").is_some_and(|w| w == "1") && !evidence,
        family: text("family"),
        without_u: q.get("u").is_some_and(|u| u == "0"),
        page: q.get("page").and_then(|p| p.parse::<usize>().ok()).unwrap_or(1).max(1) - 1,
    })
}

impl Asked {
    /// The name that the record has for a substance asked for by another: Pb for lead, Blei. What nothing is near to stays
    /// as typed, and nothing fits.
    fn named(mut self, i: &Index) -> Self {
        let Some(typed) = self.substance.clone() else { return self };
        let all = i.analytes();
        if !all.contains(&typed.as_str()) {
            let folded = near::folded(&typed);
            let is = |a: &&&str| {
                let word = ["substance", "condition"].into_iter().find_map(|room| Message::named(room, a));
                let said = |m: &Message| message::Lang::ALL.into_iter().filter_map(|l| m.said(l)).collect::<Vec<_>>();
                word.is_some_and(|m| said(&m).iter().any(|w| near::folded(w) == folded))
            };
            let near = || near::nearest(Names::Analytes, &typed, all.iter().copied()).first().copied();
            if let Some(name) = all.iter().find(is).copied().or_else(near) {
                self.wanted.analyte = Some(name.to_string());
            }
        }
        self
    }

    /// What the address of these results names.
    fn pairs(&self) -> Vec<(&'static str, String)> {
        let w = &self.wanted;
        let own: [(&'static str, Option<String>); 14] = [
            ("well", w.well.clone()),
            ("trip", w.trip.clone()),
            ("analyte", self.substance.clone()),
            ("fraction", w.fraction.clone()),
            ("bottle", w.bottle.clone()),
            ("from", w.from.clone()),
            ("to", w.to.clone()),
            ("verdict", w.verdict.map(|v| v.word().to_string())),
            ("held-by", self.held_by.clone()),
            ("of", w.evidence.then(|| "evidence".to_string())),
            ("sort", (self.order != Order::default()).then(|| self.order.word().to_string())),
            ("wide", self.wide.then(|| "1".to_string())),
            ("family", self.family.clone()),
            ("u", self.without_u.then(|| "0".to_string())),
        ];
        own.into_iter().filter_map(|(n, v)| Some((n, v?))).collect()
    }

    /// The address of these results, with some of it otherwise.
    fn with(&self, change: &[(&str, Option<String>)]) -> String {
        let is_kept = |n: &str| !change.iter().any(|(name, _)| *name == n);
        let own = self.pairs();
        let kept = own.iter().filter(|(n, _)| is_kept(n)).map(|(n, v)| (*n, v.clone()));
        let all = kept.chain(change.iter().filter_map(|(n, v)| Some((*n, v.clone()?))));
        let query: Vec<String> = all.map(|(n, v)| format!("{n}={}", encoded(&v))).collect();
        if query.is_empty() { "/results".into() } else { format!("/results?{}", query.join("&")) }
    }

    /// The same otherwise in one thing.
    pub fn but(&self, name: &str, value: Option<&str>) -> String {
        self.with(&[(name, value.map(str::to_string))])
    }

    /// What is asked for in words, each with the address without it.
    fn chips(&self) -> Vec<(String, String)> {
        let w = &self.wanted;
        let name = |n: &str| message::Name::from(n);
        let mut out: Vec<(&str, String)> = vec![];
        let mut chip = |key: &'static str, says: Option<String>| out.extend(says.map(|words| (key, words)));
        chip("well", w.well.as_ref().map(|x| said::ChipWell { well: name(x) }.text()));
        chip("analyte", w.analyte.as_ref().map(|x| words::substance(x)));
        chip("trip", w.trip.as_ref().map(|x| said::ChipTrip { trip: name(x) }.text()));
        chip("bottle", w.bottle.as_ref().map(|x| said::ChipBottle { bottle: name(x) }.text()));
        chip("fraction", w.fraction.as_ref().map(|x| words::fraction(x)));
        chip("from", w.from.as_ref().map(|x| said::ChipFrom { day: name(&words::day(x)) }.text()));
        chip("to", w.to.as_ref().map(|x| said::ChipTo { day: name(&words::day(x)) }.text()));
        chip("verdict", w.verdict.map(|v| assessment::verdict::said(v).text()));
        chip("held-by", self.held_by.as_ref().map(|x| said::ChipHeldBy { check: name(&check_words::check(x)) }.text()));
        chip("of", w.evidence.then(|| said::ChipEvidence.text()));
        out.into_iter().map(|(key, words)| (words, self.but(key, None))).collect()
    }
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

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = asked(&q)?;
    if let Some(kind) = q.get("file") {
        return file(&app, asked, kind).await;
    }
    let body = page::read(&app, move |store, app| {
        let asked = app.record.index(store, |i| asked.named(i))?;
        let head = store.head()?.map_or_else(String::new, |h| h.to_string());
        let today = crate::moment::now();
        let key = format!(
            "{head} {} {:?} {}",
            &today[..10],
            language(),
            asked.with(&[("page", Some(asked.page.to_string()))])
        );
        crate::worked::body(app, key, || of(store, app, &asked))
    })
    .await?;
    let title = said::Title.text();
    respond(&app, &who, Place::of("/results", &title).spoken(&who), &q, &[Piece::from(body)])
}

/// What stands on the page.
fn of(store: &Store, app: &App, asked: &Asked) -> Result<Markup, HttpError> {
    let choices = app.record.index(store, choices)?;
    if asked.wide {
        return result_wide::page(store, app, asked, &filters(asked, &choices));
    }
    let grouped = result_groups::grouped(store, app)?;
    let held = match &asked.held_by {
        Some(check) => Some(result_groups::held_by(store, app, check)?),
        None => None,
    };
    let sought = Sought { wanted: &asked.wanted, held: held.as_deref(), order: asked.order };
    let found = app.record.index(store, |i| grouped.select(i, &sought, asked.page, PER_PAGE))?;
    let rows = result_cards::rows(store, app, &grouped, &found.page)?;
    Ok(html! {
        div.titled { h1 { (said::Title.text()) } p.quiet { (heading(asked, &found)) } }
        (filters(asked, &choices))
        (counts(asked, &found))
        @if found.results == 0 { (nothing(store, app, asked)?) } @else {
            (sorted(asked))
            (result_cards::table(&rows, &caption(asked, &found), asked.wanted.evidence))
            (pages(asked, found.groups.div_ceil(PER_PAGE), found.groups.saturating_sub((asked.page + 1) * PER_PAGE)))
            p.under { (said::Under.text()) }
            (files(asked))
        }
    })
}

/// How many there are, and in how many rows.
fn heading(asked: &Asked, found: &Found) -> String {
    let (results, rows) = (count(found.results), count(found.groups));
    match &asked.held_by {
        Some(check) => said::CountHeld { results, rows, check: check_words::check(check).into() }.text(),
        None => said::Count { results, rows }.text(),
    }
}

fn caption(asked: &Asked, found: &Found) -> String {
    let first = asked.page * PER_PAGE + 1;
    let (from, to) = (count(first), count(first + found.page.len().max(1) - 1));
    said::Caption { from, to, all: count(found.groups) }.text()
}

/// What is asked for in words, and the form that asks.
fn filters(asked: &Asked, c: &Choices) -> Markup {
    let chips = asked.chips();
    html! {
        @if !chips.is_empty() {
            ul.chips aria-label=(said::Asked.text()) {
                @for (words, without) in &chips { li { a href=(without) title=(said::TakeAway.text()) { (words) " " span aria-hidden="true" { "×" } } } }
                li { a.all href=(if asked.wide { "/results?wide=1" } else { "/results" }) { (said::ShowAll.text()) } }
            }
        }
        details.choose { summary { (said::Choose.text()) } (form(asked, c)) }
    }
}

fn form(asked: &Asked, c: &Choices) -> Markup {
    let w = &asked.wanted;
    let label = |name: &str, says: &dyn Fn() -> String| html! { label for=(name) { (says()) } };
    let select = |name: &'static str, says: String, all: &[(String, String)], now: Option<&str>| {
        html! {
            div.field {
                (label(name, &|| says.clone()))
                select #(name) name=(name) {
                    option value="" { (said::All.text()) }
                    @for (value, words) in all { option value=(value) selected[now == Some(value.as_str())] { (words) } }
                }
            }
        }
    };
    let same = |all: &[String]| all.iter().map(|v| (v.clone(), v.clone())).collect::<Vec<_>>();
    let day = |name: &'static str, says: String, now: Option<&String>| {
        html! { div.field { (label(name, &|| says.clone())) input #(name) name=(name) type="date" value=[now]; } }
    };
    let verdicts: Vec<(String, String)> =
        VerdictWord::ALL.iter().map(|v| (v.word().to_string(), assessment::verdict::said(*v).text())).collect();
    let fractions: Vec<(String, String)> = c.fractions.iter().map(|f| (f.clone(), words::fraction(f))).collect();
    html! {
        form.filters method="get" action="/results" role="search" aria-label=(said::Which.text()) {
            (select("well", said::Well.text(), &same(&c.wells), w.well.as_deref()))
            div.field { (label("analyte", &|| said::Substance.text()))
                input #analyte name="analyte" list="substances" value=[asked.substance.as_ref()] placeholder=(said::SubstanceLike.text());
                datalist #substances { @for a in &c.analytes { option value=(words::substance(a)) {} } } }
            @if c.trips.len() <= 60 { (select("trip", said::Trip.text(), &same(&c.trips), w.trip.as_deref())) }
            @else { div.field { (label("trip", &|| said::Trip.text())) input #trip name="trip" value=[w.trip.as_ref()]; } }
            (day("from", said::From.text(), w.from.as_ref()))
            (day("to", said::To.text(), w.to.as_ref()))
            (select("verdict", said::Verdict.text(), &verdicts, w.verdict.map(VerdictWord::word)))
            (select("fraction", said::Fraction.text(), &fractions, w.fraction.as_deref()))
            (select("of", said::Of.text(), &[("evidence".to_string(), said::OfEvidence.text())], w.evidence.then_some("evidence")))
            @for (name, value) in [("bottle", &w.bottle), ("held-by", &asked.held_by)] {
                @if let Some(value) = value { input type="hidden" name=(name) value=(value); }
            }
            @if asked.wide { input type="hidden" name="wide" value="1"; }
            @if asked.order != Order::default() { input type="hidden" name="sort" value=(asked.order.word()); }
            button type="submit" { (said::Show.text()) }
        }
    }
}

/// How many there are of each verdict, each a link to exactly those.
fn counts(asked: &Asked, found: &Found) -> Markup {
    let all = VerdictWord::ALL.iter().map(|v| (found.verdicts[*v as usize], *v));
    html! {
        @if !asked.wanted.evidence && found.results > 0 {
            p.verdicts {
                @for (n, v) in all {
                    // What one bottle holds stands on the page as it is: only of more is a part asked for.
                    @if asked.wanted.bottle.is_some() || n == 0 { span.count { b { (n) } " " (words::verdict(Some(v))) } " " }
                    @else {
                        a.count href=(asked.but("verdict", Some(v.word()))) aria-current=[(asked.wanted.verdict == Some(v)).then_some("true")] {
                            b { (n) } " " (words::verdict(Some(v)))
                        } " "
                    }
                }
            }
        }
    }
}

/// The order, and the others to choose.
fn sorted(asked: &Asked) -> Markup {
    let says = |o: Order| match o {
        Order::Needs => said::SortNeeds.text(),
        Order::Newest => said::SortNewest.text(),
        Order::Well => said::SortWell.text(),
        Order::Substance => said::SortSubstance.text(),
    };
    html! {
        details.sorted {
            summary { (said::Sorted { order: says(asked.order).into() }.text()) " · " span.act { (said::Change.text()) } }
            form.filters method="get" action="/results" aria-label=(said::Order.text()) {
                @for (name, value) in asked.pairs() { @if !matches!(name, "sort" | "page") { input type="hidden" name=(name) value=(value); } }
                div.field { label for="sort" { (said::Order.text()) }
                    select #sort name="sort" { @for o in Order::ALL { option value=(o.word()) selected[o == asked.order] { (says(o)) } } } }
                button type="submit" { (said::Show.text()) }
            }
        }
    }
}

/// In place of rows: what was asked for, names near to it, and the way back.
fn nothing(store: &Store, app: &App, asked: &Asked) -> Result<Markup, HttpError> {
    let (none, near) = app.record.index(store, |i| {
        let typed = asked.wanted.analyte.as_deref().filter(|a| !i.analytes().contains(a));
        let near = |t: &str| -> Vec<String> {
            programme::hands::nearest(t, i.analytes().into_iter(), 3).into_iter().map(str::to_string).collect()
        };
        (i.is_empty(), typed.map(near).unwrap_or_default())
    })?;
    Ok(html! {
        @if none { p { (said::NoResults.text()) } p.acts { a.go href="/runs/bring-in" { (said::BringIn.text()) } } }
        @else {
            p { (said::NothingFits.text()) }
            @if !near.is_empty() { p { (said::Near.text()) @for n in &near { " " a href=(asked.but("analyte", Some(n))) { (words::substance(n)) } } } }
            p.acts { a.go href="/results" { (said::ShowAll.text()) } }
        }
    })
}

/// What is shown, whole, as files, and in the other form.
pub(super) fn files(asked: &Asked) -> Markup {
    let to = |kind: &str| asked.but("file", Some(kind));
    let other = if asked.wide { None } else { Some("1") };
    html! {
        p.acts {
            @if !asked.wanted.evidence && asked.wanted.bottle.is_none() {
                a href=(asked.but("wide", other)) { @if asked.wide { (said::AsRows.text()) } @else { (said::AsWide.text()) } } " "
            }
            a href="/limits" { (message::web_limits::Title.text()) } " "
            span { (said::AllThatFits.text()) } " " a href=(to("csv")) { "CSV" } " " a href=(to("xlsx")) { (said::Workbook.text()) }
        }
    }
}

/// The pages before and after, with how many rows are left.
pub(super) fn pages(asked: &Asked, last: usize, left: usize) -> Markup {
    let number = asked.page + 1;
    let to = |page: usize| asked.but("page", (page > 1).then(|| page.to_string()).as_deref());
    html! {
        @if last > 1 {
            nav.pages aria-label=(said::Pages.text()) {
                @if number > 1 { a rel="prev" href=(to(number - 1)) { (said::Back.text()) } }
                span { (said::PageOf { number: count(number), last: count(last) }.text()) }
                @if left > 0 { a.go rel="next" href=(to(number + 1)) { (said::MoreRows { n: count(left) }.text()) } }
            }
        }
    }
}

/// All that is wanted as a file.
async fn file(app: &Shared, asked: Asked, kind: &str) -> Result<Response, HttpError> {
    let workbook = match kind {
        "csv" => false,
        "xlsx" => true,
        _ => return Err(HttpError::refused(said::NoFile { found: kind.into() }.text())),
    };
    let bytes = page::read(app, move |store, app| {
        let asked = app.record.index(store, |i| asked.named(i))?;
        let mut rows = app.record.index(store, |i| i.select(&asked.wanted, 0, usize::MAX).rows)?;
        if let Some(check) = &asked.held_by {
            let held = result_groups::held_by(store, app, check)?;
            rows.retain(|row| held.contains(row));
        }
        if !asked.wide && !workbook {
            return long_csv(store, &rows);
        }
        if rows.len() > IN_FILE {
            let (results, most) = (count(rows.len()), count(IN_FILE));
            return Err(HttpError::refused(said::TooMany { results, most }.text()));
        }
        let sheet = if asked.wide {
            result_wide::sheet(store, app, &asked, &rows)?
        } else {
            result_rows::long(lines(store, &rows)?)
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

impl From<SheetError> for HttpError {
    fn from(e: SheetError) -> Self {
        Self::outside(e.to_string())
    }
}
