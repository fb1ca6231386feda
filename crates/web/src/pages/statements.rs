//! Sentences with their case: each supported, contradicted or "cannot tell", with the nearest sentence that the data do
//! support; and the newest results of a well against published limits.

use crate::app::{App, Shared, now};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, findings, heads, link, number, outcome_word, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use assessment::results;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use limits::Guard;
use limits::local::coming_in_words;
use limits::table::{authorities, authority};
use maud::{Markup, html};
use programme::index::Wanted;
use programme::limits_of::{Asked, against_of};
use programme::statement::{self, New, Sentence, Stated};
use quantity::format::capital;
use quantity::{Check, Finding, Outcome, Spoken as _};

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
) -> Result<Response, HttpError> {
    let well = q.get("well").cloned().filter(|w| !w.is_empty());
    let chosen = well.clone();
    let filled = Filled(q.iter().map(|(n, v)| (n.clone(), v.clone())).collect());
    let (against, faults) = asked_of(&filled);
    let (stated, unread, wells, limits) = page::read(&app, move |store, app| {
        let stated = statement::all(store)?;
        let wells: Vec<String> = store.wells()?.into_iter().map(|w| w.name).collect();
        let limits = match &chosen {
            Some(w) => {
                let wanted = Wanted { well: Some(w.clone()), ..Wanted::default() };
                let rows = app.record.index(store, |i| i.select(&wanted, 0, COMPARED).rows)?;
                Some(against_of(store, &results::listed(store, &rows)?, &against)?)
            }
            None => None,
        };
        Ok((stated.stated, stated.unread, wells, limits))
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
            @for why in &unread { p.caution { "Cannot be read: " (why) "." } }
            p.acts {
                @if who.may(Role::Analyst) { a.go href="/statements/new" { "Check a sentence" } " " }
                a href="/compounds" { "Organic compounds: found or not" }
            }
        }
        .into(),
        listing.into(),
        html! {
            h2 { "Against published limits" }
            (limits_form(&wells, Asking { filled: &filled, faults: &faults }))
        }
        .into(),
    ];
    if let Some(a) = limits {
        let rows = a.rows.iter().map(|r| {
            let l = &r.comparison.limit;
            let n = |x: f64| quantity::format::significant_trimmed(x, 3);
            let limit = l.low.map_or_else(|| n(l.high), |low| format!("{} – {}", n(low), n(l.high)));
            let marks = [(r.strictest, "strictest"), (r.nearest_health, "nearest for health"), (r.local, "your own")];
            let marks: Vec<&str> = marks.iter().filter(|m| m.0).map(|m| m.1).collect();
            let under = r.comparison.probability_under.map_or_else(String::new, quantity::format::probability);
            vec![
                link(&case_address(&r.result), r.result.bottle.clone()),
                td(::report::pages::element(&r.analyte)),
                link(&case_address(&r.result), r.comparison.amount.in_words()),
                td(format!("{limit} {}", l.unit)),
                td(r.on.clone().unwrap_or_default()),
                td(format!("{}, {}{}", l.authority, l.kind, if l.provenance == "recalled" { " *" } else { "" })),
                td(l.terms.concern.message().in_english()),
                td(marks.join(", ")),
                td(r.comparison.answer_message().in_english()),
                number(under),
                crate::blocks::verdict(r.verdict.map(super::word)),
            ]
        });
        let listing = Listing {
            caption: "The newest results against each limit, what lies above first".into(),
            headings: heads(&[
                "Bottle",
                "What",
                "Result",
                "Limit",
                "As of",
                "Whose, kind",
                "Set for",
                "",
                "The result is",
                "P(under)",
                "Verdict",
            ]),
            rows: rows.collect(),
            empty: "No limit on record is of anything measured there.",
            foot: Some(
                html! { "* recalled: still to be compared with its document. P(under): probability that the true value lies under the limit." },
            ),
            ..Listing::default()
        };
        pieces.push(listing.into());
        pieces.push(
            html! {
                @if !a.coming.is_empty() {
                    p { (message::limit::ComingAll { limits: a.coming.iter().map(|l| coming_in_words(l).into()).collect() }.text()) }
                }
                @if !a.not_tested.is_empty() { p { "Not tested: " (a.not_tested.join(", ")) "." } }
                ul { @for w in &a.warnings { li { (programme::case::sentence(w)) } } }
            }
            .into(),
        );
    }
    respond(&app, &who, Place::of("/statements", "Statements"), &q, &pieces)
}

/// What the form asks of the limits; what is wrong with its fields.
fn asked_of(filled: &Filled) -> (Asked, Vec<Fault>) {
    let mut faults: Vec<Fault> = vec![];
    let guard = match filled.get("guard").trim() {
        "" => Guard::default(),
        text => Guard::parse(text).unwrap_or_else(|| {
            let words = format!(
                "Found \"{text}\", expected rule, none, a probability from 50 to below 100 %, or a band such as 1 U."
            );
            faults.push(("guard".into(), words));
            Guard::default()
        }),
    };
    let date = Some(filled.get("date").trim().to_string()).filter(|d| !d.is_empty());
    if let Some(d) = date.as_ref().filter(|d| d.parse::<jiff::civil::Date>().is_err()) {
        faults.push(("date".into(), format!("Found \"{d}\", expected a day as 2027-07-13.")));
    }
    let date = date.filter(|_| faults.iter().all(|f| f.0 != "date"));
    let authorities = authority(filled.get("authority")).map(String::from).into_iter().collect();
    let otherwise = Some(now()[..10].to_string());
    (Asked { authorities, guard, date, otherwise }, faults)
}

fn limits_form(wells: &[String], asking: Asking) -> Markup {
    let mut names = vec![("", "choose")];
    names.extend(wells.iter().map(|w| (w.as_str(), w.as_str())));
    let mut whose = vec![("", "all")];
    let all = authorities();
    whose.extend(all.iter().map(|a| (*a, *a)));
    let field = |name, words, hint| Field { name, words, hint };
    html! {
        (asking.all_faults())
        form method="get" action="/statements" {
            div.fields {
                (asking.choice(field("well", "Well", ""), &names))
                (asking.choice(field("authority", "Limits of", "Your own stand beside them."), &whose))
                (asking.line(field("guard", "How sure", "none, 95 %, or a band such as 1 U; the rule of each limit where left out.")))
                (asking.line(field("date", "Limits as of", "A day as 2027-07-13; else that of each bottle, or today where it has none.")))
            }
            button type="submit" { "Compare" }
        }
        p.quiet { "Limits of your own, a permit’s or a neighbour’s, come in as a table by " a href="/runs/bring-in" { "Bring in files" } " with the mapping " code { "local-limits" } "." }
    }
}

/// One statement with its case.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = name.clone();
    let s = page::read(&app, move |store, _| Ok(statement::find(store, &asked)?)).await?;
    let mut told =
        vec![Finding::kept(Check::MeaningStatement, outcome(&s.answer), quantity::Lang::En, s.scientific.clone())];
    told.extend(s.changed.iter().map(|c| {
        Finding::kept(
            Check::MeaningStatementChanged,
            Outcome::NotMet,
            quantity::Lang::En,
            format!("Changed since: {c}."),
        )
    }));
    if let Some(t) = &s.today {
        let now = t.answer.as_deref().map_or(Outcome::NotKnown, outcome);
        told.push(Finding::kept(
            Check::MeaningStatementToday,
            now,
            quantity::Lang::En,
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
                    link(&case_address(&u.result), u.result.to_string()),
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
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(q.into_iter().collect());
    Ok(form_page(&app, &who, &filled, &token_field(&app, &who), &[]).into_response())
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
    &[("ratio", "the first holds so many times as much as the second"), ("fields", "another kind, as fields below")];

fn form_page(app: &App, who: &Who, filled: &Filled, token: &Markup, faults: &[Fault]) -> Markup {
    let kind = if filled.get("kind").is_empty() { "ratio" } else { filled.get("kind") };
    let asking = Asking { filled, faults };
    let body = html! {
        h1 { "Check a sentence" }
        (asking.all_faults())
        form method="post" action="/statements/new" {
            (token)
            fieldset { legend { "The sentence says that" }
                @for (k, words) in KINDS { p { label { input type="radio" name="kind" value=(k) checked[kind == *k]; " " (words) } } }
            }
            (asking.choice(Field { name: "relation", words: "How", hint: "" }, &["at least", "about", "at most"].map(|r| (r, r))))
            @for (name, words, hint) in FIELDS { (asking.line(Field { name, words, hint })) }
            (asking.prose(Field { name: "fields", words: "Fields of another kind", hint: "As JSON, a result by its name: {\"kind\":\"threshold\",\"value\":{\"result\":\"…\"},\"relation\":\"below\",\"level\":{\"value\":5,\"unit\":\"ng/L\"}}; kinds: ratio, difference, threshold, absence, reference, ranking, change." }))
            button type="submit" { "Check and keep" }
        }
    };
    page::page(app, who, Place::of("/statements", "Check a sentence"), &body)
}

/// The field that a refusal speaks of.
fn field_of(e: &record::Error, filled: &Filled) -> &'static str {
    let text = e.to_string();
    match e {
        // A result that is not there, by what was typed.
        record::Error::Absent { name, .. } if name == filled.get("b").trim() => "b",
        record::Error::Absent { name, .. } if name == filled.get("a").trim() => "a",
        _ if text.contains("statement") || text.contains("the name") => "name",
        _ if text.contains("despite") || text.contains("provisional") || text.contains("rejected") => "despite",
        _ if filled.get("kind") == "fields" => "fields",
        _ => "a",
    }
}

/// The sentence of a form.
fn sentence(filled: &Filled) -> Result<Sentence, Fault> {
    if filled.get("kind") == "fields" {
        return Sentence::parse(filled.get("fields"))
            .map_err(|e| ("fields".into(), format!("{}.", capital(&e.to_string()))));
    }
    let factor = filled.get("factor").trim();
    let wrong = || ("factor".to_string(), format!("Found \"{factor}\", expected a number with a decimal point."));
    let number = match factor.parse::<f64>() {
        _ if factor.is_empty() => None,
        Ok(x) if x.is_finite() => Some(x),
        _ => return Err(wrong()),
    };
    Sentence::ratio(filled.get("a").trim(), filled.get("b").trim(), filled.get("relation"), number).map_err(|_| wrong())
}

/// Checks a sentence and keeps it.
pub(crate) async fn add(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let again = |fault: Fault| Ok(Done::Again(form_page(&app, &who, &filled, &same_token(&filled), &[fault])));
        let sentence = match sentence(&filled) {
            Ok(s) => s,
            Err(fault) => return again(fault),
        };
        let (typed, person, at) = (filled.clone(), who.clone(), now());
        let kept = page::write(&app, move |store| {
            let despite = Some(typed.get("despite").trim()).filter(|d| !d.is_empty());
            let new = New { name: typed.get("name").trim(), sentence: &sentence, despite };
            statement::add(store, &new, person.by(&at)).map(|s| s.name)
        })
        .await?;
        match kept {
            Ok(name) => Ok(Done::To(format!("/statements/{}", encoded(&name)))),
            Err(record::Error::Store(e)) => Err(e.into()),
            Err(other) => again((field_of(&other, &filled).into(), format!("{}.", capital(&other.to_string())))),
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
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let (asked, person, at) = (name.clone(), who.clone(), now());
        page::write(&app, move |store| statement::again(store, &asked, None, person.by(&at)).map(|_| ())).await??;
        Ok(Done::To(format!("/statements/{}", encoded(&name))))
    })
    .await
}
