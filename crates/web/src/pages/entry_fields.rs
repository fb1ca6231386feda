//! The fields of a form that people enter: each with its words, its fault or the question about it; and the list of all
//! that is wrong, each with a link to its field.

use super::entry::Asked;
use super::tables::{is_asked, is_long, label, sort_of};
use crate::forms::{Filled, people};
use crate::typed::say;
use intake::entry::EntryFault;
use maud::{Markup, html};
use message::{Message, Spoken as _, count, web_forms as said};
use quantity::format::capital;
use record::schema::{Column, Kind};

/// The words of a table's row, of its form, of a column; the English of the schema where the catalogue has none.
pub(super) fn words(of: &str, name: &str) -> Option<String> {
    Message::named("web_forms", &format!("{of}-{name}")).map(|m| m.text())
}

pub(super) fn thing(table: &str) -> String {
    words("thing", table).unwrap_or_else(|| table.replace('_', " "))
}

/// A column in words, without its unit.
pub(super) fn column_words(c: &Column) -> String {
    words("column", c.name).unwrap_or_else(|| capital(&label(c).0))
}

/// A word of the record as people say it.
pub(super) fn word_said(word: &str) -> String {
    // Signs of tracers are the same in every language.
    if record::schema::TRACER_SIGNS.contains(&word) {
        return limits::claim::tracer_sign(word).to_string();
    }
    let known = words("word", word).or_else(|| Message::named("kind", word).map(|m| m.text()));
    known.unwrap_or_else(|| word.replace('-', " "))
}

/// Whether a field that is needed was left empty.
fn is_lacking(form: &Asked, filled: &Filled, f: &EntryFault) -> bool {
    let column = f.column.as_deref().and_then(|c| form.table.column(c));
    column.is_some_and(|c| c.required && filled.get(&format!("r{}.{}", f.row, c.name)).trim().is_empty())
}

pub(super) fn fault_list(form: &Asked, filled: &Filled) -> Markup {
    if form.faults.is_empty() && form.questions.is_empty() {
        return html! {};
    }
    let (lacking, wrong): (Vec<&EntryFault>, Vec<&EntryFault>) =
        form.faults.iter().partition(|f| is_lacking(form, filled, f));
    let name = |column: &str| form.table.column(column).map_or_else(|| column.to_string(), column_words);
    let place = |row: usize, column: &str| {
        let row =
            if form.sort.rows > 1 { format!(", {}", say(said::Row { n: count(row + 1) })) } else { String::new() };
        html! { (name(column)) (row) }
    };
    html! {
        div.fault role="alert" tabindex="-1" #faults {
            p { strong { (said::NothingEntered.text()) }
                @if !lacking.is_empty() { " " (say(said::Needed { things: count(lacking.len()) })) }
                @if !wrong.is_empty() { " " (say(said::CannotBeTaken { fields: count(wrong.len()) })) }
                @if !form.questions.is_empty() { " " (say(said::Asked { fields: count(form.questions.len()) })) }
            }
            ul {
                @for f in &lacking { @if let Some(c) = &f.column {
                    li { a href=(format!("#r{}.{c}", f.row)) { (place(f.row, c)) } }
                } }
                @for f in &wrong { li {
                    @if let Some(c) = &f.column { a href=(format!("#r{}.{c}", f.row)) { (place(f.row, c)) } ": " }
                    (say(f.says.clone()))
                } }
                @for q in form.questions { li {
                    a href=(format!("#r{}.{}", q.row, q.column)) { (place(q.row, &q.column)) } ": " (q.asks)
                } }
            }
        }
    }
}

pub(super) fn row(form: &Asked, filled: &Filled, n: usize, several: bool) -> Markup {
    let fields = html! {
        @for c in form.table.columns.iter().filter(|c| is_asked(form.table.name, c)) {
            @if form.correcting && form.table.is_key(c.name) {
                p.fixed { span.label { (column_words(c)) } " " strong { (filled.get(&format!("r{n}.{}", c.name))) } }
            } @else {
                (field(form, c, filled, n))
            }
        }
    };
    html! {
        @if several { fieldset.row { legend { (say(said::Row { n: count(n + 1) })) } (fields) } }
        @else { div.fields { (fields) } }
    }
}

fn field(form: &Asked, c: &Column, filled: &Filled, n: usize) -> Markup {
    let id = format!("r{n}.{}", c.name);
    let (words_of, unit) = (column_words(c), label(c).1);
    let fault = form.faults.iter().find(|f| f.row == n && f.column.as_deref() == Some(c.name));
    let question = form.questions.iter().find(|q| q.row == n && q.column == c.name);
    let (hint, wrong) = (format!("{id}-hint"), format!("{id}-fault"));
    let stands_out = fault.is_some() || question.is_some();
    let described = if stands_out { format!("{wrong} {hint}") } else { hint.clone() };
    let refers = if let Kind::Row(other) = c.kind { sort_of(other).map(|_| other) } else { None };
    html! {
        div class=(if stands_out { "field wrong" } else { "field" }) {
            label for=(id) {
                (words_of) @if !unit.is_empty() { " (" (unit) ")" }
                @if c.required { span.needed { " " (said::NeededMark.text()) } }
            }
            (control(form, c, filled, &id, (&described, stands_out)))
            @if let Some(f) = fault {
                p.why #(wrong) { @if is_lacking(form, filled, f) { (said::Lacking.text()) } @else { (capital(&say(f.says.clone()))) } }
            }
            @if let Some(q) = question { div.asks #(wrong) {
                p.why { (q.asks) }
                label.inner { input type="checkbox" name=(format!("ok.{id}")) value=(filled.get(&id)); " " (say(said::IsRight { value: filled.get(&id).into() })) }
            } }
            p.hint #(hint) {
                @if let Some(hint) = words("hint", &format!("{}-{}", form.table.name, c.name)) { (hint) }
                @if let Some(other) = refers { " " a href=(format!("/enter/{other}")) { (words("new", other).unwrap_or_default()) } }
            }
        }
    }
}

fn control(form: &Asked, c: &Column, filled: &Filled, id: &str, (described, stands_out): (&str, bool)) -> Markup {
    let value = filled.get(id);
    let invalid = stands_out.then_some("true");
    match c.kind {
        Kind::Word(all) => html! {
            select #(id) name=(id) aria-describedby=(described) aria-invalid=[invalid] {
                option value="" { "–" }
                @for w in all { option value=(w) selected[*w == value] { (word_said(w)) } }
                // A word that the list lacks stays chosen: the fault beside it speaks of it.
                @if !value.is_empty() && !all.contains(&value) { option value=(value) selected { (value) } }
            }
        },
        Kind::Row("person") => {
            let known = form.names.get("person").map_or(&[][..], Vec::as_slice);
            people((id, id), value, known, (Some(described), stands_out))
        }
        _ if is_long(c) => html! {
            textarea #(id) name=(id) rows="2" aria-describedby=(described) aria-invalid=[invalid] { (value) }
        },
        _ => {
            let names = |other: &str| form.names.contains_key(other).then(|| format!("names-{other}"));
            let list = if let Kind::Row(other) = c.kind { names(other) } else { None };
            html! {
                input #(id) name=(id) value=(value) list=[list] inputmode=[matches!(c.kind, Kind::Real | Kind::Integer).then_some("decimal")]
                    placeholder=[(c.kind == Kind::Time).then(|| said::MomentAs.text())] autocomplete="off"
                    aria-describedby=(described) aria-invalid=[invalid];
            }
        }
    }
}
