//! The runs: sequence in time with drift, line, blanks, reference materials; taking a vial out with a reason; deriving
//! anew. And the files that were brought in.

use super::case::{Said, reason};
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, heads, link, number, respond, td};
use crate::forms::{Done, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded, moment};
use ::document::content::Block;
use ::report::{Run, pages};
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
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
                td(moment(r.started_at.as_deref().unwrap_or_default())),
                td(r.recipe.clone().unwrap_or_default()),
                number(vials.to_string()),
                td(if waits { "counts have not come yet" } else { "reduced" }),
            ]);
        }
        let runs = Listing {
            caption: "Instrument sessions, the newest first".into(),
            headings: heads(&["Run", "Laboratory", "Start", "Recipe", "Vials", "State"]),
            rows,
            empty: "No run is on record. Laboratories that report concentrations need none.",
            ..Listing::default()
        };
        Ok(vec![Piece::from(runs), html! { h2 { "Files brought in" } }.into(), files(store)?.into()])
    })
    .await?;
    let head = html! {
        h1 { "Runs" }
        @if who.may(Role::Analyst) {
            p.acts { a.go href="/runs/bring-in" { "Bring in files" } " " a href="/recipes" { (page::said(&who, message::recipe::Title)) } " " (recompute(&app, &who, "", "Derive everything anew")) }
        }
    };
    let pieces: Vec<Piece> = std::iter::once(head.into()).chain(pieces).collect();
    respond(&app, &who, Place::of("/runs", "Runs"), &q, &pieces)
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
            td(format!("{} (version {})", f.mapping, f.mapping_version)),
            number(f.rows.map_or(String::new(), |n| n.to_string())),
            number(f.size.to_string()),
            td(blake3::Hash::from_bytes(f.hash).to_hex()[..16].to_string()),
        ]
    };
    Ok(Listing {
        caption: if total > FILES {
            format!("The newest {FILES} of {total} files, kept whole")
        } else {
            "Files, kept whole as they came".into()
        },
        headings: heads(&["File", "Read by mapping", "Rows", "Bytes", "BLAKE3, first half of it"]),
        rows: all.iter().rev().take(FILES).map(row).collect(),
        empty: "No file was brought in yet.",
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
    respond(&app, &who, Place::of("/runs", &format!("Run {name}")), &q, &pieces)
}

/// The run once more, with what was typed in one of its forms.
pub(crate) async fn again(app: &Shared, who: &Who, name: &str, said: &Said<'_>) -> Result<Done, HttpError> {
    let who = &Who { here: format!("/runs/{}", encoded(name)), ..who.clone() };
    let pieces = page_of(app, who, name, &Query::new(), Some(said)).await?;
    Ok(Done::Again(body(app, who, Place::of("/runs", &format!("Run {name}")), &pieces)))
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
        h1 { "The run " (name) }
        @if who.may(Role::Analyst) { p.acts { (recompute(app, who, name, "Derive it anew")) } }
        @if let Some(words) = &unreduced { div.fault role="alert" { p { strong { "It gives no results. " } } p.lines { (words) } } }
    }
    .into()];
    if let Some((elements, chosen, blocks)) = run {
        pieces.push(element_choice(name, &elements, &chosen).into());
        pieces.extend(blocks.into_iter().map(Piece::from));
    }
    // Also of a run that cannot be reduced: taking a vial out may be what lets it be.
    pieces.push(html! { h2 { "The sequence" } }.into());
    pieces.push(sequence(&vials, name, &out, who.may(Role::Analyst)).into());
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
        nav.elements aria-label="Elements" { ul { @for e in elements {
            li { a href=(format!("/runs/{}?element={}", encoded(name), encoded(e))) aria-current=[(e == chosen).then_some("true")] { (e) } }
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
            td(v.role.word().replace('-', " ")),
            match &v.bottle {
                Some(b) => link(&results_of(b, v.role.word()), b.clone()),
                None => td(""),
            },
            number(quantity::format::significant_trimmed(v.minutes, 4)),
            td(why(v).map_or(String::new(), |w| format!("out: {w}"))),
        ];
        if may {
            cells.push(link(&format!("/runs/{}?vial={}#take-out", encoded(name), v.position), "Take out or back"));
        }
        cells
    };
    let mut headings = heads(&["Place", "Vial", "Role", "Bottle", "Minutes", "Taken out"]);
    if may {
        headings.push(String::new());
    }
    Listing {
        caption: "Vials in time order".into(),
        headings,
        rows: vials.iter().map(row).collect(),
        empty: "The run has no vials.",
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
            div class=(if fault.is_some() { "field wrong" } else { "field" }) { label for=(format!("{id}-what")) { "Which: run/place, run/place/isotope, or a bottle" }
                input #(format!("{id}-what")) name="what" value=(value) required aria-invalid=[fault.map(|_| "true")] aria-describedby=(format!("{id}-what-fault"));
                p.why #(format!("{id}-what-fault")) role=[fault.map(|_| "alert")] { @if let Some(f) = fault { (f) } } }
            (reason(&format!("{id}-why"), "Reason", "Kept for good, with your name.", Said::of(said, act, "why")))
        }
    };
    let open = |act: &str| said.is_some_and(|s| s.act == act);
    html! {
        h2 #take-out { "Take a point out, or back" }
        p { "Nothing is deleted: the decision is a row of the record with your name and reason, and everything that stands on it is derived anew." }
        details.act open[vial.is_some() || open("/take-out")] { summary { "Take out of the evidence" }
            form method="post" action="/take-out" { (fields("out", "/take-out")) button type="submit" { "Take it out" } } }
        details.act open[open("/take-back")] { summary { "Take back into the evidence" }
            form method="post" action="/take-back" { (fields("back", "/take-back")) button type="submit" { "Take it back" } } }
    }
}
