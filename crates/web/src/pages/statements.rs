//! Sentences with their case: each supported, contradicted or "cannot tell", with the nearest sentence that the data do
//! support; and the newest results of a well against published limits.

use crate::app::{App, Shared, now};
use crate::blocks::{Listing, Piece, Query, Td, findings, heads, link, outcome_word, respond, td};
use crate::door::accounts::Role;
use crate::door::guard::Who;
use crate::forms::{Done, Filled, once, same_token, token_field};
use crate::page::{self, Place, case_address, encoded};
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use programme::index::Wanted;
use programme::limits_of::{Asked, against_of};
use programme::results;
use programme::statement::{self, New, Stated};
use quantity::{Finding, Outcome, Stage};
use serde_json::{Map, Value, json};

/// Results compared with limits on a page, the newest.
const COMPARED: usize = 150;

fn outcome(answer: &str) -> Outcome {
    match answer {
        "supported" => Outcome::Met,
        "contradicted" => Outcome::NotMet,
        _ => Outcome::NotKnown,
    }
}

/// An answer as shape and word.
fn answer(word: &str) -> Td {
    let (class, sign) = match outcome(word) {
        Outcome::Met => ("state met", "✓"),
        Outcome::NotMet => ("state not", "✗"),
        Outcome::NotKnown => ("state unknown", "?"),
    };
    Td {
        shown: html! { span class=(class) { span aria-hidden="true" { (sign) } " " (word) } },
        words: word.into(),
        number: false,
    }
}

/// All statements, and limits of a well where one is chosen.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, Trouble> {
    let well = q.get("well").cloned().filter(|w| !w.is_empty());
    let chosen = well.clone();
    let (stated, wells, limits) = page::read(&app, move |store, app| {
        let stated = statement::all(store)?;
        let wells: Vec<String> = store.wells()?.into_iter().map(|w| w.name).collect();
        let limits = match &chosen {
            Some(w) => {
                let wanted = Wanted { well: Some(w.clone()), ..Wanted::default() };
                let rows = app.record.index(store, |i| i.select(&wanted, 0, COMPARED).rows)?;
                Some(against_of(store, &results::listed(store, &rows)?, &Asked::default())?)
            }
            None => None,
        };
        Ok((stated, wells, limits))
    })
    .await?;
    let row = |s: &Stated| {
        let changed = if s.stands() { td("stands") } else { td(format!("changed since: {}", s.changed.join("; "))) };
        vec![
            link(&format!("/statements/{}", encoded(&s.name)), s.name.clone()),
            td(s.asked.clone()),
            answer(&s.answer),
            td(s.plain.clone()),
            changed,
        ]
    };
    let listing = Listing {
        caption: "Sentences and what the data say to them".into(),
        headings: heads(&["Name", "Asked", "Answer", "What may be said", "State"]),
        rows: stated.iter().map(row).collect(),
        empty: "No sentence was checked yet.",
        ..Listing::default()
    };
    let mut pieces: Vec<Piece> = vec![
        html! {
            h1 { "Statements" }
            p { "A sentence is given as fields and checked by one-sided 95 % bounds against the results that it names. It is marked when one of them changes." }
            @if who.may(Role::Analyst) { p.acts { a.go href="/statements/new" { "Check a sentence" } } }
        }
        .into(),
        listing.into(),
        html! {
            h2 { "Against published limits" }
            form.filters method="get" action="/statements" {
                div.field { label for="well" { "Well" } select #well name="well" {
                    option value="" { "choose" }
                    @for w in &wells { option value=(w) selected[well.as_ref() == Some(w)] { (w) } }
                } }
                button type="submit" { "Compare" }
            }
        }
        .into(),
    ];
    if let Some(a) = limits {
        let rows = a.rows.iter().map(|r| {
            let l = &r.comparison.limit;
            let n = |x: f64| quantity::format::significant_trimmed(x, 3);
            let limit = l.low.map_or_else(|| n(l.high), |low| format!("{} – {}", n(low), n(l.high)));
            vec![
                link(&case_address(&r.result), r.result.split(':').next().unwrap_or_default().to_string()),
                td(::report::assemble::pages::element(&r.analyte)),
                td(r.comparison.amount.in_words()),
                td(format!("{limit} {}", l.unit)),
                td(format!("{}, {}", l.authority, l.kind)),
                td(r.comparison.answer.word()),
            ]
        });
        let listing = Listing {
            caption: "The newest results against each limit".into(),
            headings: heads(&["Bottle", "What", "Result", "Limit", "Whose, kind", "The result is"]),
            rows: rows.collect(),
            empty: "No limit on record is of anything measured there.",
            ..Listing::default()
        };
        pieces.push(listing.into());
        pieces.push(
            html! {
                @if !a.not_tested.is_empty() { p { "Not tested: " (a.not_tested.join(", ")) "." } }
                ul { @for w in &a.warnings { li { (programme::case::sentence(w)) } } }
            }
            .into(),
        );
    }
    respond(&app, &who, Place::of("/statements", "Statements"), &q, &pieces)
}

/// One statement with its case.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, Trouble> {
    let asked = name.clone();
    let s = page::read(&app, move |store, _| Ok(statement::find(store, &asked)?)).await?;
    let mut told = vec![Finding::new("meaning.statement", Stage::Meaning, outcome(&s.answer), s.scientific.clone())];
    told.extend(s.changed.iter().map(|c| {
        Finding::new("meaning.statement-changed", Stage::Meaning, Outcome::NotMet, format!("Changed since: {c}."))
    }));
    if let Some(t) = &s.today {
        let now = t.answer.as_deref().map_or(Outcome::NotKnown, outcome);
        told.push(Finding::new(
            "meaning.statement-today",
            Stage::Meaning,
            now,
            format!("On the record of today: {}", t.plain),
        ));
    }
    let uses = Listing {
        caption: "The results that it stands on".into(),
        headings: heads(&["Place in the sentence", "Result", "Verdict then"]),
        rows: s
            .uses
            .iter()
            .map(|u| {
                vec![
                    td(u.role.clone()),
                    link(&case_address(&u.result), u.result.clone()),
                    crate::blocks::verdict(u.verdict.map(super::word)),
                ]
            })
            .collect(),
        empty: "It stands on no result of this record.",
        ..Listing::default()
    };
    let head = html! {
        h1 { (s.name) }
        p.under { (s.kind) ", revision " (s.revision) ", checked by " (s.person) " at head " code { (s.head.chars().take(16).collect::<String>()) } }
        div.verdict {
            p.number { "“" (s.asked) "”" }
            p { (outcome_word(outcome(&s.answer))) " " strong { (s.answer) } }
            p { "What may be said: " strong { (s.plain) } }
            @if let Some(d) = &s.despite { p { "Provisional or rejected results were taken all the same: " (d) } }
        }
        (findings(&told))
        @if !s.warnings.is_empty() { h2 { "To bear in mind" } ul { @for w in &s.warnings { li { (w) } } } }
        @if who.may(Role::Analyst) { form method="post" action=(format!("/statements/{}/again", encoded(&name))) {
            (token_field(&app, &who))
            button.second type="submit" { "Check it anew on the record of today" }
        } }
    };
    respond(&app, &who, Place::of("/statements", &s.name), &q, &[head.into(), uses.into()])
}

/// The form for a sentence.
pub(crate) async fn form(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, Trouble> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(q.into_iter().collect());
    Ok(form_page(&app, &who, &filled, &token_field(&app, &who), None).into_response())
}

/// What each field of the form is: name, words, hint.
const FIELDS: &[(&str, &str, &str)] = &[
    ("name", "Name of the statement", "Short, without spaces; it stays."),
    ("a", "First result", "Its name, as on its case page."),
    ("b", "Second result", "For a ratio or a change: the one compared with."),
    ("factor", "Factor", "How many times; 1 where left out."),
    ("despite", "Why provisional or rejected results are taken", "Only where some are; kept for good."),
];

const KINDS: &[(&str, &str)] =
    &[("ratio", "the second holds so many times less than the first"), ("fields", "another kind, as fields below")];

fn form_page(app: &App, who: &Who, filled: &Filled, token: &Markup, fault: Option<&str>) -> Markup {
    let kind = if filled.get("kind").is_empty() { "ratio" } else { filled.get("kind") };
    let body = html! {
        h1 { "Check a sentence" }
        @if let Some(f) = fault { div.fault role="alert" { p { strong { "Not kept. " } } p.lines { (f) } } }
        form method="post" action="/statements/new" {
            (token)
            fieldset { legend { "The sentence says that" }
                @for (k, words) in KINDS { p { label { input type="radio" name="kind" value=(k) checked[kind == *k]; " " (words) } } }
            }
            div.field { label for="relation" { "How" } select #relation name="relation" {
                @for r in ["at least", "about", "at most"] { option value=(r) selected[filled.get("relation") == r] { (r) } }
            } }
            @for (name, words, hint) in FIELDS {
                div.field { label for=(name) { (words) }
                    input #(name) name=(name) value=(filled.get(name)) aria-describedby=(format!("{name}-hint"));
                    p.hint #(format!("{name}-hint")) { (hint) } }
            }
            div.field { label for="fields" { "Fields of another kind" }
                textarea #fields name="fields" rows="4" aria-describedby="fields-hint" { (filled.get("fields")) }
                p.hint #fields-hint { "As JSON, a result by its name: " code { "{\"kind\":\"analogy\",\"value\":{\"result\":\"…\"},\"body\":\"Loch Ness\",\"litres\":1}" } "; kinds: ratio, analogy, absence, reference, ranking, change." } }
            button type="submit" { "Check and keep" }
        }
    };
    page::page(app, who, Place::of("/statements", "Check a sentence"), &body)
}

/// The sentence of a form as fields.
fn fields(filled: &Filled) -> Result<Value, String> {
    if filled.get("kind") == "fields" {
        return serde_json::from_str(filled.get("fields"))
            .map_err(|e| format!("The fields: found {e}, expected JSON."));
    }
    let mut out = Map::new();
    out.insert("kind".into(), json!("ratio"));
    for name in ["a", "b"] {
        out.insert(name.into(), json!({ "result": filled.get(name).trim() }));
    }
    out.insert("relation".into(), json!(filled.get("relation")));
    let factor = filled.get("factor").trim();
    if !factor.is_empty() {
        let x: f64 = factor.parse().map_err(|_| format!("The factor: found \"{factor}\", expected a number."))?;
        out.insert("factor".into(), json!(x));
    }
    Ok(Value::Object(out))
}

/// Checks a sentence and keeps it.
pub(crate) async fn add(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, Trouble> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let again = |fault: &str| Ok(Done::Again(form_page(&app, &who, &filled, &same_token(&filled), Some(fault))));
        let fields = match fields(&filled) {
            Ok(f) => f,
            Err(fault) => return again(&fault),
        };
        let (typed, person, at) = (filled.clone(), who.clone(), now());
        let kept = page::write(&app, move |store| {
            let despite = Some(typed.get("despite").trim()).filter(|d| !d.is_empty());
            let new = New { name: typed.get("name").trim(), fields: &fields, despite };
            statement::add(store, &new, person.by(&at)).map(|s| s.name)
        })
        .await?;
        match kept {
            Ok(name) => Ok(Done::To(format!("/statements/{}", encoded(&name)))),
            Err(programme::Error::Store(e)) => Err(e.into()),
            Err(other) => again(&other.to_string()),
        }
    })
    .await
}

/// Checks one anew.
pub(crate) async fn again(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, Trouble> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let (asked, person, at) = (name.clone(), who.clone(), now());
        page::write(&app, move |store| statement::again(store, &asked, None, person.by(&at)).map(|_| ())).await??;
        Ok(Done::To(format!("/statements/{}", encoded(&name))))
    })
    .await
}
