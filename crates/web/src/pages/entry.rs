//! Forms for what people enter, made from the declared schema: one for each table, and one to correct a row. A
//! fault stands at its field, with what was typed beside it.

use super::tables::{Sort, is_asked, is_long, label, sort_of};
use crate::app::{App, Shared, now};
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::forms::{Done, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use intake::entry::{Correction, EntryError, EntryFault, TypedRow, correct, enter, present};
use maud::{Markup, html};
use quantity::format::capital;
use record::schema::{self, Column, Kind, Table};
use record::store::{Filter, Store};
use std::collections::BTreeMap;

/// Names offered for a reference, at most: with more, one types.
const OFFERED: usize = 400;

/// Names that a column may refer to, by the table referred to.
type Names = BTreeMap<&'static str, Vec<String>>;

/// A form on its way to the page.
struct Asked<'a> {
    sort: &'a Sort,
    table: &'static Table,
    names: &'a Names,
    faults: &'a [EntryFault],
    /// Whether the row is there already: its name cannot change.
    correcting: bool,
}

fn known(table: &str) -> Result<(&'static Sort, &'static Table), HttpError> {
    sort_of(table).ok_or_else(|| HttpError::absent(format!("There is no form for \"{table}\".")))
}

/// The names that the columns of a table can refer to, newest first.
fn names(store: &Store, table: &Table) -> Result<Names, HttpError> {
    let mut out = Names::new();
    for c in table.columns {
        let Kind::Row(other) = c.kind else { continue };
        let Some([key]) = schema::table(other).map(|t| t.key) else { continue };
        let place = schema::table(other).and_then(|t| t.place(key)).unwrap_or(0);
        let rows = store.as_typed(other, &Filter::all())?;
        out.entry(other)
            .or_insert_with(|| rows.into_iter().rev().take(OFFERED).map(|(_, r)| r[place].clone()).collect());
    }
    Ok(out)
}

/// The empty form of a table, with what the address says already filled in.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(table): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (sort, table) = known(&table)?;
    who.must_be(sort.role)?;
    let names = page::read(&app, move |store, _| names(store, table)).await?;
    let filled = Filled(
        (0..sort.rows)
            .flat_map(|n| q.iter().map(move |(c, v)| (format!("r{n}.{c}"), v.clone())))
            .chain(q.get("to").map(|t| ("to".to_string(), t.clone())))
            .collect(),
    );
    let form = Asked { sort, table, names: &names, faults: &[], correcting: false };
    Ok(new_page(&app, &who, &form, &filled, &token_field(&app, &who)).into_response())
}

fn new_page(app: &App, who: &Who, form: &Asked, filled: &Filled, token: &Markup) -> Markup {
    let title = format!("Enter {}", form.sort.one);
    let body = html! {
        h1 { (title) }
        @if !form.sort.caution.is_empty() { p.caution { (form.sort.caution) } }
        (fault_list(form))
        form method="post" action=(format!("/enter/{}", form.table.name)) {
            (token)
            input type="hidden" name="to" value=(filled.get("to"));
            @for n in 0..form.sort.rows.max(rows_in(filled)) { (row(form, filled, n, form.sort.rows > 1)) }
            @if form.sort.rows > 1 { p.quiet { "A row in which only the first, repeated fields stand is left out." } }
            button type="submit" { "Enter" }
        }
        p.quiet { (form.table.about) " The act is one event of the record, with your name." }
        @if form.sort.rows > 1 { (repeated(form)) }
        (offered(form))
    };
    page::page(app, who, Place::of(form.sort.place, &title), &body)
}

/// The names that fields may refer to, once for all rows.
fn offered(form: &Asked) -> Markup {
    html! { @for (other, names) in form.names {
        datalist #(format!("names-{other}")) { @for name in names { option value=(name) {} } }
    } }
}

/// References that a form of several rows repeats are no entry by themselves.
fn repeated(form: &Asked) -> Markup {
    let words: Vec<String> = form.table.columns.iter().filter(|c| is_repeated(c)).map(|c| label(c).0).collect();
    html! { @if !words.is_empty() { p.quiet { "Repeated fields: " (words.join(", ")) "." } } }
}

fn is_repeated(c: &Column) -> bool {
    matches!(c.kind, Kind::Row(_)) || matches!(c.name, "at" | "unit" | "place")
}

fn rows_in(filled: &Filled) -> usize {
    let numbers = filled.0.iter().filter_map(|(n, _)| n.strip_prefix('r')?.split('.').next()?.parse::<usize>().ok());
    numbers.max().map_or(0, |n| n + 1).min(200)
}

fn fault_list(form: &Asked) -> Markup {
    html! {
        @if !form.faults.is_empty() {
            div.fault role="alert" tabindex="-1" #faults {
                p { strong { "Nothing was entered yet. " } (form.faults.len()) @if form.faults.len() == 1 { " field" } @else { " fields" } " cannot be taken as typed:" }
                ul { @for f in form.faults {
                    li {
                        @match &f.column {
                            Some(c) => { a href=(format!("#r{}.{c}", f.row)) { (c.replace('_', " ")) } ": " }
                            None => {}
                        }
                        (f.says.in_english())
                    }
                } }
            }
        }
    }
}

fn row(form: &Asked, filled: &Filled, n: usize, several: bool) -> Markup {
    let fields = html! {
        @for c in form.table.columns.iter().filter(|c| is_asked(form.table.name, c)) {
            @if form.correcting && form.table.is_key(c.name) {
                p.fixed { span.label { (capital(&label(c).0)) } " " strong { (filled.get(&format!("r{n}.{}", c.name))) } }
            } @else {
                (field(form, c, filled, n))
            }
        }
    };
    html! {
        @if several { fieldset.row { legend { "Row " (n + 1) } (fields) } } @else { div.fields { (fields) } }
    }
}

fn field(form: &Asked, c: &Column, filled: &Filled, n: usize) -> Markup {
    let id = format!("r{n}.{}", c.name);
    let value = filled.get(&id);
    let (words, unit) = label(c);
    let fault = form.faults.iter().find(|f| f.row == n && f.column.as_deref() == Some(c.name));
    let (hint, wrong) = (format!("{id}-hint"), format!("{id}-fault"));
    let described = if fault.is_some() { format!("{wrong} {hint}") } else { hint.clone() };
    let invalid = fault.map(|_| "true");
    html! {
        div class=(if fault.is_some() { "field wrong" } else { "field" }) {
            label for=(id) {
                (capital(&words)) @if !unit.is_empty() { " (" (unit) ")" }
                @if c.required { span.needed { " needed" } }
            }
            @match c.kind {
                Kind::Word(all) => {
                    select #(id) name=(id) aria-describedby=(described) aria-invalid=[invalid] {
                        option value="" { "–" }
                        @for w in all { option value=(w) selected[*w == value] { (w) } }
                        // A word that the list lacks stays chosen: the fault beside it speaks of it.
                        @if !value.is_empty() && !all.contains(&value) { option value=(value) selected { (value) } }
                    }
                }
                _ if is_long(c) => {
                    textarea #(id) name=(id) rows="2" aria-describedby=(described) aria-invalid=[invalid] { (value) }
                }
                _ => {
                    @let list = if let Kind::Row(other) = c.kind { form.names.contains_key(other).then(|| format!("names-{other}")) } else { None };
                    input #(id) name=(id) value=(value) list=[list.as_ref()] inputmode=[matches!(c.kind, Kind::Real | Kind::Integer).then_some("decimal")]
                        placeholder=[(c.kind == Kind::Time).then_some("2026-07-15 09:30")] autocomplete="off"
                        aria-describedby=(described) aria-invalid=[invalid];
                }
            }
            @if let Some(f) = fault { p.why #(wrong) { "Found " (f.found()) ", expected " (f.expected()) "." } }
            p.hint #(hint) { @if !c.about.eq_ignore_ascii_case(&words) { (c.about) } }
        }
    }
}

/// The rows of a form, those left out that hold nothing of their own, with their numbers on the form.
fn typed(table: &'static Table, filled: &Filled, several: bool) -> Vec<(usize, TypedRow)> {
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

/// Enters what was typed.
pub(crate) async fn take(
    State(app): State<Shared>,
    who: Who,
    Path(table): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let (sort, table) = known(&table)?;
    who.must_be(sort.role)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let mut rows = typed(table, &filled, sort.rows > 1);
        if rows.is_empty() {
            // The first row tells what is needed.
            rows.push((0, TypedRow::of(table.name)));
        }
        let places: Vec<usize> = rows.iter().map(|(n, _)| *n).collect();
        let mut rows: Vec<TypedRow> = rows.into_iter().map(|(_, r)| r).collect();
        let (person, at) = (who.clone(), now());
        let outcome = page::write(&app, move |store| {
            number_rules(store, &mut rows)?;
            let done = enter(store, person.by(&at), "", &rows);
            Ok::<_, HttpError>((done, names(store, table)?))
        })
        .await??;
        match outcome {
            (Ok(entered), _) if entered.notes.is_empty() => Ok(Done::To(leads_to(sort, &filled))),
            (Ok(entered), _) => {
                let to = leads_to(sort, &filled);
                let page = second_look(&app, &who, sort, &entered.notes, &to);
                Ok(Done::Told { to, page })
            }
            (Err(EntryError::Faults(mut faults)), names) => {
                for f in &mut faults {
                    f.row = places.get(f.row).copied().unwrap_or(0);
                }
                let form = Asked { sort, table, names: &names, faults: &faults, correcting: false };
                Ok(Done::Again(new_page(&app, &who, &form, &filled, &same_token(&filled))))
            }
            (Err(other), _) => Err(other.into()),
        }
    })
    .await
}

/// What was kept and is worth a second look.
fn second_look(app: &App, who: &Who, sort: &Sort, notes: &[EntryFault], to: &str) -> Markup {
    let body = html! {
        h1 { "Kept. Please look once more" }
        ul { @for n in notes { li { (n.in_words()) "." } } }
        p { a href=(to) { "Go on" } }
    };
    page::page(app, who, Place::of(sort.place, "Kept"), &body)
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
    let (names, stands) =
        page::read(&app, move |store, _| Ok((names(store, table)?, present(store, table.name, id)?))).await?;
    let mut fields: Vec<(String, String)> =
        table.columns.iter().zip(&stands).map(|(c, v)| (format!("r0.{}", c.name), v.clone())).collect();
    fields.extend(table.columns.iter().zip(&stands).map(|(c, v)| (format!("seen.{}", c.name), v.clone())));
    fields.extend(q.get("to").map(|t| ("to".to_string(), t.clone())));
    let form = Asked { sort, table, names: &names, faults: &[], correcting: true };
    Ok(edit_page(&app, &who, &form, id, &Filled(fields), &token_field(&app, &who), None).into_response())
}

fn edit_page(
    app: &App,
    who: &Who,
    form: &Asked,
    id: i64,
    filled: &Filled,
    token: &Markup,
    lacks: Option<&str>,
) -> Markup {
    let title = format!("Correct {}", form.sort.one);
    // How the values stood when the page was made: `entry::correct` refuses what somebody changed meanwhile.
    let seen = filled.0.iter().filter(|(n, _)| n.starts_with("seen."));
    let body = html! {
        h1 { (title) }
        @if lacks.is_some() { div.fault role="alert" tabindex="-1" #faults { p { strong { "Nothing was corrected yet. " } a href="#why" { "The reason" } " cannot be taken as typed." } } }
        (fault_list(form))
        form method="post" action=(format!("/correct/{}/{id}", form.table.name)) {
            (token)
            input type="hidden" name="to" value=(filled.get("to"));
            @for (name, v) in seen { input type="hidden" name=(name) value=(v); }
            (row(form, filled, 0, false))
            div class=(if lacks.is_some() { "field wrong" } else { "field" }) {
                label for="why" { "Reason " span.needed { "needed" } }
                textarea #why name="why" rows="2" required aria-invalid=[lacks.map(|_| "true")] aria-describedby=(if lacks.is_some() { "why-fault why-hint" } else { "why-hint" }) { (filled.get("why")) }
                @if let Some(words) = lacks { p.why #why-fault { (capital(words)) "." } }
                p.hint #why-hint { "Kept for good, with your name. The value as it stood is kept too." }
            }
            button type="submit" { "Correct" }
        }
        (offered(form))
    };
    page::page(app, who, Place::of(form.sort.place, &title), &body)
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
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (person, at, typed) = (who.clone(), now(), filled.clone());
        let outcome = page::write(&app, move |store| {
            let sent: Vec<(&str, String, &str)> = table
                .columns
                .iter()
                .filter(|c| !table.is_key(c.name) && is_asked(table.name, c))
                .filter(|c| typed.0.iter().any(|(n, _)| *n == format!("r0.{}", c.name)))
                .map(|c| {
                    (c.name, typed.get(&format!("seen.{}", c.name)).to_string(), typed.get(&format!("r0.{}", c.name)))
                })
                // What the person did not touch is no correction, whatever somebody else did to it.
                .filter(|(_, seen, new)| seen.trim() != new.trim())
                .collect();
            let corrections: Vec<Correction> =
                sent.iter().map(|(column, seen, new)| Correction { column, seen: Some(seen), new }).collect();
            let done = correct(store, person.by(&at), typed.get("why"), (table.name, id), &corrections);
            Ok::<_, HttpError>((done, names(store, table)?))
        })
        .await??;
        let (faults, lacks) = match outcome.0 {
            Ok(_) => return Ok(Done::To(leads_to(sort, &filled))),
            Err(EntryError::Faults(faults)) => (faults, None),
            Err(EntryError::Programme(e @ record::Error::Unfit { .. })) => (vec![], Some(e.to_string())),
            Err(other) => return Err(other.into()),
        };
        let form = Asked { sort, table, names: &outcome.1, faults: &faults, correcting: true };
        let token = same_token(&filled);
        Ok(Done::Again(edit_page(&app, &who, &form, id, &filled, &token, lacks.as_deref())))
    })
    .await
}
