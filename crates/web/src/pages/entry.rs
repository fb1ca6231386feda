//! Forms for what people enter, made from the declared schema: one for each table, and one to correct a row. A
//! fault stands at its field, with what was typed beside it; what is unusual is asked about before it is kept, and the
//! answer is kept with it.

use super::entry_fields::{column_words, fault_list, row, thing, word_said, words};
use super::tables::{Sort, is_asked, sort_of};
use crate::app::Shared;
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::forms::{Done, Filled, once, same_token, strip, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, encoded};
use crate::typed::{self, say};
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use intake::entry::{Correction, EntryError, EntryFault, TypedRow, correct, enter, look, present};
use maud::{Markup, html};
use message::{Spoken as _, web_forms as said};
use quantity::format::capital;
use record::model::Amendment;
use record::near::{Names as Of, nearest};
use record::schema::{self, Column, Kind, Table};
use record::store::{Filter, Store};
use std::collections::BTreeMap;

/// Names offered for a reference, at most: with more, one types.
const OFFERED: usize = 400;

/// Rows on record that are shown under a form, the newest.
const SHOWN: usize = 10;

/// Names that a column may refer to, by the table referred to.
pub(super) type Names = BTreeMap<&'static str, Vec<String>>;

/// What is asked about before it is kept: a field, and the question.
#[derive(Debug, Clone)]
pub(super) struct Question {
    pub row: usize,
    pub column: String,
    pub asks: String,
}

/// A form on its way to the page.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    pub sort: &'a Sort,
    pub table: &'static Table,
    pub names: &'a Names,
    pub faults: &'a [EntryFault],
    pub questions: &'a [Question],
    /// Whether the row is there already: its name cannot change.
    pub correcting: bool,
}

fn known(table: &str) -> Result<(&'static Sort, &'static Table), HttpError> {
    let none = || HttpError::absent(say(said::NoSuchForm { table: table.into() }));
    sort_of(table).ok_or_else(none)
}

/// The names that the columns of a table can refer to, newest first.
fn names(store: &Store, table: &Table) -> Result<Names, HttpError> {
    let mut out = Names::new();
    let referred = table.columns.iter().filter_map(|c| if let Kind::Row(other) = c.kind { Some(other) } else { None });
    for other in referred.chain([table.name]) {
        let Some([key]) = schema::table(other).map(|t| t.key) else { continue };
        if out.contains_key(other) {
            continue;
        }
        let place = schema::table(other).and_then(|t| t.place(key)).unwrap_or(0);
        let rows = store.as_typed(other, &Filter::all())?;
        out.insert(other, rows.into_iter().rev().take(OFFERED).map(|(_, r)| r[place].clone()).collect());
    }
    Ok(out)
}

/// The empty form of a table, with what the address says already filled in; after an act what was entered stands over it.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(table): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (sort, table) = known(&table)?;
    who.must_be(sort.role)?;
    let done = q.get("entered").cloned();
    let (names, there) =
        page::read(&app, move |store, _| Ok((names(store, table)?, on_record(store, table, done.is_some())?))).await?;
    let acting = who_acts(&who, table, &names);
    let filled = Filled(
        (0..sort.rows)
            .flat_map(|n| q.iter().chain(&acting).map(move |(c, v)| (format!("r{n}.{c}"), v.clone())))
            .chain(q.get("to").map(|t| ("to".to_string(), t.clone())))
            .collect(),
    );
    let form = Asked { sort, table, names: &names, faults: &[], questions: &[], correcting: false };
    let over = q.get("entered").map(|name| entered(sort, name, &filled));
    let body = new_page(&form, &filled, &token_field(&app, &who), over.as_ref(), &there);
    let title = form_title(sort);
    Ok(page::page(&app, &who, Place::of(sort.place, &title).spoken(&who), &body).into_response())
}

/// Who acts, in each column that names a person, where the record knows them.
fn who_acts(who: &Who, table: &Table, names: &Names) -> BTreeMap<String, String> {
    let known = names.get("person").is_some_and(|all| all.contains(&who.person));
    let columns = table.columns.iter().filter(|c| known && matches!(c.kind, Kind::Row("person")));
    columns.map(|c| (c.name.to_string(), who.person.clone())).collect()
}

fn form_title(sort: &Sort) -> String {
    words("enter", sort.table).unwrap_or_else(|| format!("Enter {}", sort.one))
}

/// The strip over a form after its act.
fn entered(sort: &Sort, name: &str, filled: &Filled) -> Markup {
    let what = say(said::Entered { thing: thing(sort.table).into(), name: name.into() });
    let first = Filled(filled.0.iter().filter(|(n, _)| n != "to").cloned().chain(named(sort, name)).collect());
    let open = leads_to(sort, &first);
    strip(&what, &[(open, say(said::OpenIt)), ("#form".into(), say(said::EnterAnother))])
}

/// The name as the form would have it.
fn named(sort: &Sort, name: &str) -> Vec<(String, String)> {
    let key = schema::table(sort.table).and_then(|t| t.key.first().copied()).unwrap_or("name");
    vec![(format!("r0.{key}"), name.to_string())]
}

/// The newest rows of a table, as they are typed; none where nobody asks.
fn on_record(store: &Store, table: &Table, asked: bool) -> Result<Vec<(i64, Vec<String>)>, HttpError> {
    if !asked {
        return Ok(vec![]);
    }
    Ok(store.as_typed(table.name, &Filter::all())?.into_iter().rev().take(SHOWN).collect())
}

fn rows_there(form: &Asked, there: &[(i64, Vec<String>)]) -> Markup {
    let shown = |cells: &[String]| -> String {
        let told = form.table.columns.iter().zip(cells).filter(|(c, v)| is_asked(form.table.name, c) && !v.is_empty());
        let told = told.take(6).map(|(c, v)| if matches!(c.kind, Kind::Word(_)) { word_said(v) } else { v.clone() });
        typed::shown(&told.collect::<Vec<_>>().join(" · "))
    };
    html! {
        @if !there.is_empty() {
            h2 { (said::OnRecord.text()) }
            ul.there { @for (id, cells) in there {
                li { (shown(cells)) " " a href=(format!("/correct/{}/{id}", form.table.name)) { (said::CorrectIt.text()) } }
            } }
        }
    }
}

fn new_page(
    form: &Asked,
    filled: &Filled,
    token: &Markup,
    over: Option<&Markup>,
    there: &[(i64, Vec<String>)],
) -> Markup {
    let several = form.sort.rows > 1;
    html! {
        @if let Some(over) = over { (over) }
        h1 { (form_title(form.sort)) }
        @if let Some(caution) = caution(form.sort) { p.caution { (caution) } }
        @if matches!(form.table.name, "field_reading" | "fill") {
            p { a href=(format!("/enter/visit?well={}&trip={}", encoded(filled.get("r0.well")), encoded(filled.get("r0.trip")))) { (said::AsAGrid.text()) } }
        }
        (fault_list(form, filled))
        form #form method="post" action=(format!("/enter/{}", form.table.name)) {
            (token)
            input type="hidden" name="to" value=(filled.get("to"));
            @for n in 0..form.sort.rows.max(rows_in(filled)) { (row(form, filled, n, several)) }
            @if several { p.quiet { (said::RowsLeftOut.text()) } }
            button type="submit" { (said::Enter.text()) }
        }
        p.quiet { (said::OneAct.text()) }
        @if several { (repeated(form)) }
        (rows_there(form, there))
        (offered(form))
    }
}

/// The caution that stands over a form.
fn caution(sort: &Sort) -> Option<String> {
    match sort.table {
        "well" => Some(said::CautionPressure.text()),
        "lot" | "acid" => Some(message::web_plan::AcidCaution.text()),
        "trip" | "field_reading" => Some(message::web_plan::WellHouseCaution.text()),
        _ => None,
    }
}

/// The names that fields may refer to, once for all rows.
fn offered(form: &Asked) -> Markup {
    html! { @for (other, names) in form.names.iter().filter(|(other, _)| **other != "person") {
        datalist #(format!("names-{other}")) { @for name in names { option value=(name) {} } }
    } }
}

/// References that a form of several rows repeats are no entry by themselves.
fn repeated(form: &Asked) -> Markup {
    let words: Vec<String> = form.table.columns.iter().filter(|c| is_repeated(c)).map(column_words).collect();
    html! { @if !words.is_empty() { p.quiet { (said::Repeated.text()) " " (words.join(", ")) } } }
}

fn is_repeated(c: &Column) -> bool {
    matches!(c.kind, Kind::Row(_)) || matches!(c.name, "at" | "unit" | "place")
}

fn rows_in(filled: &Filled) -> usize {
    let numbers = filled.0.iter().filter_map(|(n, _)| n.strip_prefix('r')?.split('.').next()?.parse::<usize>().ok());
    numbers.max().map_or(0, |n| n + 1).min(200)
}

/// The rows of a form, those left out that hold nothing of their own, with their numbers on the form.
fn rows_typed(table: &'static Table, filled: &Filled, several: bool) -> Vec<(usize, TypedRow)> {
    (0..rows_in(filled))
        .filter_map(|n| {
            let prefix = format!("r{n}.");
            let cells: Vec<(String, String)> = filled
                .0
                .iter()
                .filter_map(|(name, v)| Some((name.strip_prefix(&prefix)?.to_string(), v.trim().to_string())))
                .filter(|(name, _)| table.place(name).is_some())
                .collect();
            let own = |(name, v): &(String, String)| {
                let column = table.columns.iter().find(|c| c.name == name);
                let repeated = several && column.is_some_and(is_repeated);
                !v.is_empty() && !repeated
            };
            cells.iter().any(own).then(|| (n, TypedRow { table: table.name.into(), cells }))
        })
        .collect()
}

/// Puts what was typed as the record reads it: numbers with a point, days by the calendar, names as they stand on
/// record. What cannot be read comes back as faults beside those of the record.
fn as_read(table: &'static Table, names: &Names, rows: &mut [TypedRow]) -> Vec<EntryFault> {
    let mut faults = vec![];
    for (n, row) in rows.iter_mut().enumerate() {
        for (column, text) in row.cells.iter_mut().filter(|(_, t)| !t.is_empty()) {
            let Some(c) = table.column(column) else { continue };
            match c.kind {
                Kind::Real => match typed::number_text(text) {
                    Ok(read) => *text = read,
                    Err(says) => {
                        let column = Some(column.clone());
                        faults.push(EntryFault { row: n, table: table.name.into(), column, says });
                    }
                },
                Kind::Time => {
                    if let Some(read) = typed::moment_text(text) {
                        *text = read;
                    }
                }
                Kind::Row(other) => {
                    if let Some(known) = names.get(other).and_then(|known| typed::meant(text, known)) {
                        *text = known.into();
                    }
                }
                _ => {}
            }
        }
    }
    faults
}

/// What is asked about before rows are kept, and was not answered yet: what is unusual, a new name near another, a
/// measurement that is there already.
fn questions(
    store: &Store,
    (table, names): (&'static Table, &Names),
    rows: &[TypedRow],
    notes: &[EntryFault],
) -> Result<Vec<Question>, HttpError> {
    let mut out: Vec<Question> = (notes.iter())
        .filter_map(|n| Some(Question { row: n.row, column: n.column.clone()?, asks: capital(&say(n.says.clone())) }))
        .collect();
    let cell = |row: &TypedRow, column: &str| {
        row.cells.iter().find(|(c, _)| c == column).map_or_else(String::new, |(_, v)| v.clone())
    };
    if let [key] = table.key {
        let kind = match table.name {
            "person" => Of::People,
            "bottle" | "aliquot" => Of::Labels,
            "compound" => Of::Analytes,
            _ => Of::Places,
        };
        for (n, row) in rows.iter().enumerate() {
            let (name, known) = (cell(row, key), names.get(table.name).map_or(&[][..], Vec::as_slice));
            let same = typed::meant(&name, known).map(|k| vec![k]);
            let near = same.unwrap_or_else(|| nearest(kind, &name, known.iter().map(String::as_str)));
            // One that is there under the very name is a fault of its own, or the same row.
            if !name.is_empty() && !near.is_empty() && !near.contains(&name.as_str()) {
                let near = near.iter().map(|k| message::Name::from(*k).into()).collect();
                let asks = say(said::NearName { name: name.into(), near });
                out.push(Question { row: n, column: (*key).into(), asks });
            }
        }
    }
    if table.name == "field_reading" {
        for (n, row) in rows.iter().enumerate() {
            let twice = super::visit::read_twice(store, &cell(row, "well"), &cell(row, "at"), &cell(row, "quantity"))?;
            out.extend(twice.map(|asks| Question { row: n, column: "value".into(), asks }));
        }
    }
    Ok(out)
}

/// Enters what was typed.
pub(crate) async fn take(
    State(app): State<Shared>,
    who: Who,
    Path(table): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let (sort, table) = known(&table)?;
    who.must_be(sort.role)?;
    let filled = Filled(fields).with_other_names();
    once(&app, &who, &filled, async {
        let mut rows = rows_typed(table, &filled, sort.rows > 1);
        if rows.is_empty() {
            // The first row tells what is needed.
            rows.push((0, TypedRow::of(table.name)));
        }
        let places: Vec<usize> = rows.iter().map(|(n, _)| *n).collect();
        let mut rows: Vec<TypedRow> = rows.into_iter().map(|(_, r)| r).collect();
        let (person, at, typed, on_form) = (who.clone(), now(), filled.clone(), places.clone());
        let outcome = page::write(&app, move |store| {
            number_rules(store, &mut rows)?;
            let names = names(store, table)?;
            let mut unread = as_read(table, &names, &mut rows);
            let (looked, faults) = look(store, person.by(&at), &rows).map_err(HttpError::from)?;
            // A number that cannot be read is told once, by what was typed.
            unread.extend(faults.into_iter().filter(|f| !is_told(&unread, f)).collect::<Vec<_>>());
            if !unread.is_empty() {
                return Ok((Err((unread, vec![])), names));
            }
            let asked = questions(store, (table, &names), &rows, &looked.notes)?;
            let answered = |q: &Question| {
                let id = format!("r{}.{}", on_form[q.row], q.column);
                !typed.get(&id).is_empty() && typed.get(&format!("ok.{id}")) == typed.get(&id)
            };
            let (confirmed, open): (Vec<Question>, Vec<Question>) = asked.into_iter().partition(answered);
            if !open.is_empty() {
                return Ok((Err((vec![], open)), names));
            }
            let why = confirmed.iter().map(|q| format!("{}: {} confirmed", q.column, q.asks)).collect::<Vec<_>>();
            match enter(store, person.by(&at), &why.join("; "), &rows) {
                Ok(_) => Ok((Ok(rows), names)),
                Err(EntryError::Faults(faults)) => Ok((Err((faults, vec![])), names)),
                Err(other) => Err(HttpError::from(other)),
            }
        })
        .await??;
        match outcome {
            (Ok(rows), _) => Ok(Done::To(after(sort, &filled, &rows))),
            (Err((mut faults, mut questions)), names) => {
                let on_form = |row: usize| places.get(row).copied().unwrap_or(0);
                for f in &mut faults {
                    f.row = on_form(f.row);
                }
                for q in &mut questions {
                    q.row = on_form(q.row);
                }
                let form =
                    Asked { sort, table, names: &names, faults: &faults, questions: &questions, correcting: false };
                let body = new_page(&form, &filled, &same_token(&filled), None, &[]);
                let title = form_title(sort);
                Ok(Done::Again(page::page(&app, &who, Place::of(sort.place, &title).spoken(&who), &body)))
            }
        }
    })
    .await
}

fn is_told(told: &[EntryFault], f: &EntryFault) -> bool {
    told.iter().any(|t| t.row == f.row && t.column == f.column)
}

/// Where an entry leads: to the page that asked for it, else to the form with what was entered over it.
fn after(sort: &Sort, filled: &Filled, rows: &[TypedRow]) -> String {
    if page::own_path(filled.get("to")).is_some() {
        return leads_to(sort, filled);
    }
    let first = |column: &str| rows[0].cells.iter().find(|(c, v)| c == column && !v.is_empty()).map(|(_, v)| v.clone());
    let key = schema::table(sort.table).and_then(|t| t.key.first().copied());
    let name =
        key.and_then(first).or_else(|| first("well")).or_else(|| first("bottle")).or_else(|| first("laboratory"));
    let entered = match (name, rows.len()) {
        (Some(name), 1) => name,
        (Some(name), n) => format!("{name}, {n}"),
        (None, n) => n.to_string(),
    };
    // What a next one has in common with this stays filled in.
    let kept = ["trip", "well", "bottle", "site"].iter().filter_map(|c| Some((*c, first(c)?)));
    let kept = kept.fold(String::new(), |all, (c, v)| all + "&" + c + "=" + &encoded(&v));
    format!("/enter/{}?entered={}{kept}", sort.table, encoded(&entered))
}

/// A rule of the checks is the next revision of its name.
fn number_rules(store: &Store, rows: &mut [TypedRow]) -> Result<(), HttpError> {
    for row in rows.iter_mut().filter(|r| r.table == "check_rule") {
        let name = row.cells.iter().find(|(c, _)| c == "check_name").map_or("", |(_, v)| v.as_str());
        let newest = store.check_rules()?.into_iter().filter(|r| r.check_name == name).map(|r| r.revision).max();
        row.cells.push(("revision".into(), (newest.unwrap_or(0) + 1).to_string()));
    }
    Ok(())
}

/// Where an entry leads: to the page that asked for it, else to the thing's own page.
fn leads_to(sort: &Sort, filled: &Filled) -> String {
    if let Some(to) = page::own_path(filled.get("to")) {
        return to.to_string();
    }
    let of = |c: &str| encoded(filled.get(&format!("r0.{c}")).trim());
    match sort.table {
        "well" => format!("/wells/{}", of("name")),
        "well_section" | "layer" => format!("/wells/{}", of("well")),
        "trip" => format!("/trips/{}", of("name")),
        "bottle" | "field_reading" | "fill" | "air_count" | "custody" if !of("trip").is_empty() => {
            format!("/trips/{}", of("trip"))
        }
        _ => sort.place.to_string(),
    }
}

/// The form to correct a row.
pub(crate) async fn edit(
    State(app): State<Shared>,
    who: Who,
    Path((table, id)): Path<(String, i64)>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (sort, table) = known(&table)?;
    who.must_be(sort.role)?;
    let (names, stands, before) = page::read(&app, move |store, _| {
        Ok((names(store, table)?, present(store, table.name, id)?, corrected(store, table, id)?))
    })
    .await?;
    let mut fields: Vec<(String, String)> =
        table.columns.iter().zip(&stands).map(|(c, v)| (format!("r0.{}", c.name), v.clone())).collect();
    fields.extend(table.columns.iter().zip(&stands).map(|(c, v)| (format!("seen.{}", c.name), v.clone())));
    fields.extend(q.get("to").map(|t| ("to".to_string(), t.clone())));
    let form = Asked { sort, table, names: &names, faults: &[], questions: &[], correcting: true };
    let over = q.contains_key("corrected").then(|| {
        let open = leads_to(sort, &Filled(fields.clone()));
        strip(&say(said::Corrected { thing: thing(table.name).into() }), &[(open, say(said::OpenIt))])
    });
    let told = Told { lacks: None, over, before: &before };
    let body = edit_page(&form, id, &Filled(fields), &token_field(&app, &who), &told);
    let title = correct_title(sort);
    Ok(page::page(&app, &who, Place::of(sort.place, &title).spoken(&who), &body).into_response())
}

fn correct_title(sort: &Sort) -> String {
    say(said::CorrectTitle { thing: thing(sort.table).into() })
}

/// Corrections of a row so far, the newest first: column, what stood and what is read from then on, who, why, and when.
type Corrected = Vec<(Amendment, String)>;

fn corrected(store: &Store, table: &Table, id: i64) -> Result<Corrected, HttpError> {
    let all = store.list::<Amendment>(&Filter::all().is("table_name", table.name).is("row_id", id))?;
    let events = if all.is_empty() { vec![] } else { store.events()? };
    let at = |event: i64| events.iter().find(|e| e.number == event).map_or_else(String::new, |e| e.at.clone());
    Ok(all.into_iter().rev().map(|a| (a.clone(), at(a.event))).collect())
}

/// What stands beside the fields of a correction.
struct Told<'a> {
    /// What the reason lacks.
    lacks: Option<String>,
    over: Option<Markup>,
    before: &'a Corrected,
}

fn edit_page(form: &Asked, id: i64, filled: &Filled, token: &Markup, told: &Told) -> Markup {
    // How the values stood when the page was made: `entry::correct` refuses what somebody changed meanwhile.
    let seen = filled.0.iter().filter(|(n, _)| n.starts_with("seen."));
    let lacks = told.lacks.as_deref();
    html! {
        @if let Some(over) = &told.over { (over) }
        h1 { (correct_title(form.sort)) }
        @if lacks.is_some() { div.fault role="alert" tabindex="-1" #faults { p { strong { (said::NothingCorrected.text()) } " " a href="#why" { (said::Reason.text()) } } } }
        (fault_list(form, filled))
        form method="post" action=(format!("/correct/{}/{id}", form.table.name)) {
            (token)
            input type="hidden" name="to" value=(filled.get("to"));
            @for (name, v) in seen { input type="hidden" name=(name) value=(v); }
            (row(form, filled, 0, false))
            div class=(if lacks.is_some() { "field wrong" } else { "field" }) {
                label for="why" { (said::Reason.text()) span.needed { " " (said::NeededMark.text()) } }
                textarea #why name="why" rows="2" required aria-invalid=[lacks.map(|_| "true")] aria-describedby=(if lacks.is_some() { "why-fault why-hint" } else { "why-hint" }) { (filled.get("why")) }
                @if let Some(words) = lacks { p.why #why-fault { (words) } }
                p.hint #why-hint { (said::ReasonHint.text()) }
            }
            button type="submit" { (said::Correct.text()) }
        }
        (history(form.table, told.before))
        (offered(form))
    }
}

/// What was corrected before, the old value struck.
fn history(table: &Table, before: &Corrected) -> Markup {
    let name = |column: &str| table.column(column).map_or_else(|| column.to_string(), column_words);
    let day = |at: &str| typed::shown(at.get(..10).unwrap_or(at));
    html! {
        @if !before.is_empty() {
            h2 { (said::CorrectedBefore.text()) }
            ul { @for (a, at) in before {
                li { (name(&a.column_name)) ": " del { (a.old.as_deref().unwrap_or("–")) } " " strong { (a.new.as_deref().unwrap_or("–")) }
                    ", " (a.person.as_deref().unwrap_or_default()) ", " (day(at)) ": " (a.why) }
            } }
        }
    }
}

/// Corrects a row.
pub(crate) async fn amend(
    State(app): State<Shared>,
    who: Who,
    Path((table, id)): Path<(String, i64)>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let (sort, table) = known(&table)?;
    who.must_be(sort.role)?;
    let filled = Filled(fields).with_other_names();
    once(&app, &who, &filled, async {
        let (person, at, sent) = (who.clone(), now(), filled.clone());
        let lacks = typed::reason(filled.get("why")).err().map(say);
        let short = lacks.is_some();
        let outcome = page::write(&app, move |store| {
            let names = names(store, table)?;
            let before = corrected(store, table, id)?;
            let (corrections, mut faults) = corrections(table, &names, &sent);
            if faults.is_empty() && !short {
                let all: Vec<Correction> = corrections
                    .iter()
                    .map(|(column, seen, new)| Correction { column, seen: Some(seen), new })
                    .collect();
                match correct(store, person.by(&at), sent.get("why"), (table.name, id), &all) {
                    Ok(_) => return Ok((true, faults, names, before)),
                    Err(EntryError::Faults(all)) => faults = all,
                    Err(other) => return Err(HttpError::from(other)),
                }
            }
            Ok((false, faults, names, before))
        })
        .await??;
        let (done, faults, names, before) = outcome;
        if done {
            let own = page::own_path(filled.get("to")).is_some();
            let to = if own { leads_to(sort, &filled) } else { format!("/correct/{}/{id}?corrected=1", table.name) };
            return Ok(Done::To(to));
        }
        let form = Asked { sort, table, names: &names, faults: &faults, questions: &[], correcting: true };
        let told = Told { lacks, over: None, before: &before };
        let body = edit_page(&form, id, &filled, &same_token(&filled), &told);
        let title = correct_title(sort);
        Ok(Done::Again(page::page(&app, &who, Place::of(sort.place, &title).spoken(&who), &body)))
    })
    .await
}

/// The values that a person changed, as the record reads them: column, how it stood, how it reads from now on.
fn corrections(
    table: &'static Table,
    names: &Names,
    sent: &Filled,
) -> (Vec<(&'static str, String, String)>, Vec<EntryFault>) {
    let asked = table.columns.iter().filter(|c| !table.is_key(c.name) && is_asked(table.name, c));
    let mut changed = vec![];
    for c in asked.filter(|c| sent.0.iter().any(|(n, _)| *n == format!("r0.{}", c.name))) {
        let (seen, new) = (sent.get(&format!("seen.{}", c.name)), sent.get(&format!("r0.{}", c.name)).trim());
        // What the person did not touch is no correction, whatever somebody else did to it.
        if seen.trim() != new {
            changed.push((c.name, seen.to_string(), new.to_string()));
        }
    }
    let mut rows = vec![TypedRow::of(table.name)];
    rows[0].cells = changed.iter().map(|(c, _, new)| ((*c).to_string(), new.clone())).collect();
    let faults = as_read(table, names, &mut rows);
    let read = rows.remove(0).cells;
    (changed.into_iter().zip(read).map(|((c, seen, _), (_, new))| (c, seen, new)).collect(), faults)
}
