//! The runs: sequence in time with drift, line, blanks, reference materials; taking a vial out with a reason; deriving
//! anew. And the files that were brought in.

use super::case::{Said, reason};
use super::words;
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, link, number, respond, td};
use crate::forms::{Done, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::document::content::Block;
use ::report::{Run, pages};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use message::{Spoken, count, web_runs as said};
use record::ReadingId;
use record::store::{Filter, Store};
use record::words::BottleKind;
use std::collections::BTreeSet;

/// Files on the list, the newest.
const FILES: usize = 50;

/// All runs and files.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = page::read(&app, |store, _| {
        let mut rows = vec![];
        for r in store.runs()?.into_iter().rev() {
            let vials = store.vials(r.id)?.len();
            let waits = store.list::<record::model::Reading>(&Filter::all().is("vial.run", r.id).limit(1))?.is_empty();
            rows.push(vec![
                link(&format!("/runs/{}", encoded(&r.name)), r.name.clone()),
                td(r.laboratory.clone().unwrap_or_default()),
                td(words::moment(r.started_at.as_deref().unwrap_or_default())),
                td(r.recipe.clone().unwrap_or_default()),
                number(vials.to_string()),
                td(if waits { said::Waits.text() } else { said::Reduced.text() }),
            ]);
        }
        let runs = Listing {
            caption: said::Caption { n: count(rows.len()) }.text(),
            headings: vec![
                said::Run.text(),
                said::Laboratory.text(),
                said::Start.text(),
                said::Recipe.text(),
                said::Vials.text(),
                said::State.text(),
            ],
            rows,
            ..Listing::default()
        };
        let files = words::or_else(files(store)?, &said::NoFile);
        Ok(vec![words::or_else(runs, &said::NoRun), html! { h2 { (said::Files.text()) } }.into(), files])
    })
    .await?;
    let title = said::Title.text();
    let head = html! {
        h1 { (title) }
        @if who.may(Role::Analyst) {
            p.acts { a.go href="/runs/bring-in" { (said::BringIn.text()) } " " a href="/recipes" { (page::said(&who, message::recipe::Title)) } " " (recompute(&app, &who, "", &said::DeriveAll.text())) }
        }
    };
    let pieces: Vec<Piece> = std::iter::once(head.into()).chain(pieces).collect();
    respond(&app, &who, Place::of("/runs", &title).spoken(&who), &q, &pieces)
}

fn recompute(app: &App, who: &Who, run: &str, words: &str) -> Markup {
    html! {
        form.inline method="post" action="/recompute" {
            (token_field(app, who))
            input type="hidden" name="run" value=(run);
            button.second type="submit" { (words) }
        }
    }
}

fn files(store: &Store) -> Result<Listing, HttpError> {
    let all = store.raw_files()?;
    let total = all.len();
    let row = |f: &record::model::RawFile| {
        vec![
            link(&format!("/record/file/{}", f.id), f.name.clone()),
            td(said::MappingVersion { mapping: f.mapping.as_str().into(), version: f.mapping_version }.text()),
            number(f.rows.map_or(String::new(), |n| n.to_string())),
            number(
                said::Kilobytes { kb: message::Shown::decimals((f.size as f64 / 1000.0).ceil(), 0, "").typeset() }
                    .text(),
            ),
        ]
    };
    Ok(Listing {
        caption: said::FilesCaption { shown: count(total.min(FILES)), all: count(total) }.text(),
        headings: vec![said::File.text(), said::Mapping.text(), said::Rows.text(), said::Size.text()],
        rows: all.iter().rev().take(FILES).map(row).collect(),
        ..Listing::default()
    })
}

/// One run.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = page_of(&app, &who, &name, &q, None).await?;
    respond(
        &app,
        &who,
        Place::of("/runs", &said::TitleOne { run: name.as_str().into() }.text()).spoken(&who),
        &q,
        &pieces,
    )
}

/// The run once more, with what was typed in one of its forms.
pub(crate) async fn again(app: &Shared, who: &Who, name: &str, said: &Said<'_>) -> Result<Done, HttpError> {
    let who = &Who { here: format!("/runs/{}", encoded(name)), ..who.clone() };
    let pieces = page_of(app, who, name, &Query::new(), Some(said)).await?;
    Ok(Done::Again(body(
        app,
        who,
        Place::of("/runs", &said::TitleOne { run: name.into() }.text()).spoken(who),
        &pieces,
    )))
}

async fn page_of(
    app: &Shared,
    who: &Who,
    name: &str,
    q: &Query,
    said: Option<&Said<'_>>,
) -> Result<Vec<Piece>, HttpError> {
    let (asked, element) = (name.to_string(), q.get("element").cloned());
    let (run, (vials, out, recipe), unreduced) = page::read(app, move |store, _| {
        let found = assessment::derive::find_run(store, &asked)?;
        let out = (store.vials(found.id)?, excluded(store, found.id)?, found.recipe.clone());
        match pages::reduced(store, &asked) {
            Ok(run) => Ok((Some(of_element(store, &run, element.as_deref())?), out, None)),
            // A run that cannot be reduced is a fault of the data: its page says why. Other errors are not.
            Err(e @ (record::Error::Run { .. } | record::Error::Recipe { .. } | record::Error::Unfit { .. })) => {
                Ok((None, out, Some(e.to_string())))
            }
            Err(other) => Err(other.into()),
        }
    })
    .await?;
    let mut pieces: Vec<Piece> = vec![html! {
        h1 { (said::TitleOne { run: name.into() }.text()) }
        @if who.may(Role::Analyst) { p.acts { (recompute(app, who, name, &said::DeriveIt.text())) } }
        @if let Some(words) = &unreduced { div.fault role="alert" { p { strong { (said::NoResults.text()) " " } } p.lines { (words) } } }
    }
    .into()];
    if let Some((elements, chosen, blocks)) = run {
        pieces.push(element_choice(name, &elements, &chosen).into());
        pieces.extend(words::pieces(blocks));
    }
    // Also of a run that cannot be reduced: taking a vial out may be what lets it be.
    pieces.push(html! { h2 { (said::Sequence.text()) } }.into());
    pieces.push(words::or_else(sequence(&vials, name, &out, who.may(Role::Analyst)), &said::NoVial));
    if who.may(Role::Analyst) {
        pieces.push(take_out(app, who, name, q.get("vial").map(String::as_str), said).into());
        pieces.push(super::recipes::on_a_run(app, who, name, recipe.as_deref(), said).into());
    }
    Ok(pieces)
}

/// The elements of a run, the one chosen, and what is shown of it.
fn of_element(
    store: &Store,
    run: &Run,
    wanted: Option<&str>,
) -> Result<(BTreeSet<String>, String, Vec<Block>), HttpError> {
    let elements: BTreeSet<String> = run.reduced.analytes.iter().map(|a| a.analyte.element.clone()).collect();
    let first = elements.first().map_or("", String::as_str);
    let key = if elements.contains("Pb") { "Pb" } else { first };
    let chosen = wanted.filter(|w| elements.contains(*w)).unwrap_or(key).to_string();
    let blocks = pages::run(store, run, &chosen)?;
    Ok((elements, chosen, blocks))
}

fn element_choice(name: &str, elements: &BTreeSet<String>, chosen: &str) -> Markup {
    html! {
        nav.elements aria-label=(said::Elements.text()) { ul { @for e in elements {
            li { a href=(format!("/runs/{}?element={}", encoded(name), encoded(e))) aria-current=[(e == chosen).then_some("true")] { (words::substance(e)) } }
        } } }
    }
}

/// What a person took out: vials, bottles, by row, with the reason.
struct Out {
    vials: Vec<(i64, String)>,
    bottles: Vec<(i64, String)>,
}

fn excluded(store: &Store, run: i64) -> Result<Out, HttpError> {
    let mut out = Out { vials: vec![], bottles: vec![] };
    let here: BTreeSet<i64> = store.vials(run)?.into_iter().map(|v| v.id).collect();
    for x in store.exclusions()? {
        let isotope = x.isotope.as_ref().map_or(String::new(), |i| format!("{i}: "));
        let why = format!("{isotope}{} ({})", x.why, x.person);
        let (list, id) = match (x.vial_id, x.bottle_id) {
            (Some(v), _) if here.contains(&v) => (&mut out.vials, v),
            (None, Some(b)) => (&mut out.bottles, b),
            _ => continue,
        };
        list.retain(|(known, _)| *known != id);
        if x.excluded {
            list.push((id, why));
        }
    }
    Ok(out)
}

/// The results of a bottle: those of the water, or those of a blank.
fn results_of(bottle: &str, role: &str) -> String {
    let evidence = if BottleKind::from_word(role).is_some_and(BottleKind::is_water) { "" } else { "&of=evidence" };
    format!("/results?bottle={}{evidence}", encoded(bottle))
}

fn sequence(vials: &[record::model::Vial], name: &str, out: &Out, may: bool) -> Listing {
    let why = |v: &record::model::Vial| {
        let of =
            |list: &[(i64, String)], id: Option<i64>| list.iter().find(|(k, _)| Some(*k) == id).map(|(_, w)| w.clone());
        of(&out.vials, Some(v.id)).or_else(|| of(&out.bottles, v.bottle_id))
    };
    let row = |v: &record::model::Vial| {
        let mut cells = vec![
            number(v.position.to_string()),
            td(v.name.clone()),
            td(words::kind(v.role.word())),
            match &v.bottle {
                Some(b) => link(&results_of(b, v.role.word()), b.clone()),
                None => td(""),
            },
            number(message::Shown::trimmed(v.minutes, 4, "").text()),
            td(why(v).map_or(String::new(), |w| said::Out { why: w.into() }.text())),
        ];
        if may {
            cells.push(link(&format!("/runs/{}?vial={}#take-out", encoded(name), v.position), said::OutOrBack.text()));
        }
        cells
    };
    let mut headings = vec![
        said::PlaceInRun.text(),
        said::Vial.text(),
        said::Role.text(),
        said::Bottle.text(),
        said::Minutes.text(),
        said::TakenOut.text(),
    ];
    if may {
        headings.push(String::new());
    }
    Listing {
        caption: said::VialsCaption { n: count(vials.len()) }.text(),
        headings,
        rows: vials.iter().map(row).collect(),
        ..Listing::default()
    }
}

fn take_out(app: &App, who: &Who, name: &str, vial: Option<&str>, said: Option<&Said>) -> Markup {
    let place = vial.and_then(|v| v.parse().ok());
    let what = place.map_or(String::new(), |v| ReadingId::vial(name, v).to_string());
    let fields = |id: &str, act: &str| {
        let (typed, fault) = Said::of(said, act, "what");
        let mine = said.filter(|s| s.act == act);
        let value = if mine.is_some() { typed } else { what.as_str() };
        html! {
            @match mine { Some(s) => (same_token(s.filled)), None => (token_field(app, who)) }
            input type="hidden" name="to" value=(format!("/runs/{}", encoded(name)));
            div class=(if fault.is_some() { "field wrong" } else { "field" }) { label for=(format!("{id}-what")) { (said::Which.text()) }
                input #(format!("{id}-what")) name="what" value=(value) required aria-invalid=[fault.map(|_| "true")] aria-describedby=(format!("{id}-what-fault"));
                p.why #(format!("{id}-what-fault")) role=[fault.map(|_| "alert")] { @if let Some(f) = fault { (f) } } }
            (reason(&format!("{id}-why"), &said::Reason.text(), &said::ReasonHint.text(), Said::of(said, act, "why")))
        }
    };
    let open = |act: &str| said.is_some_and(|s| s.act == act);
    html! {
        h2 #take-out { (said::TakeOutOrBack.text()) }
        p { (said::NothingDeleted.text()) }
        details.act open[vial.is_some() || open("/take-out")] { summary { (said::TakeOut.text()) }
            form method="post" action="/take-out" { (fields("out", "/take-out")) button type="submit" { (message::web_case::TakeOut.text()) } } }
        details.act open[open("/take-back")] { summary { (said::TakeBack.text()) }
            form method="post" action="/take-back" { (fields("back", "/take-back")) button type="submit" { (message::web_case::TakeBack.text()) } } }
    }
}
