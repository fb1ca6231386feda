//! The case for one number. First what it says: number, sentence, verdict with its reason, the strip of where the metal
//! comes from, the bottles of the set. Then what failed, what is not known, what is met; the path, the derivation down to the
//! counts, the uncertainty budget, the history; and the person's own word on it. `?open=all` is the same for paper: every
//! step open, written so by the server.

use super::case_tree::{self, Open};
use super::result_cards::{self, letters};
use super::words::{self, Parts};
use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, number, respond, td};
use crate::forms::Done;
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use ::document::content::{Block, Illustration};
use ::report::pages;
use assessment::results::{self, Listed};
use assessment::well_value::WellValue;
use axum::extract::{Path, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use message::{Spoken, count, web_case as said};
use programme::case::Case;
use quantity::{Finding, Outcome, Stage};
use record::ResultId;
use record::model::Weight;
use record::store::{Filter, Store};
use std::collections::HashMap;

pub(crate) use super::case_acts::{Said, followed, reason, recompute, sign, take_back, take_out, told};

/// What the page shows beside the case.
pub(super) struct Around {
    pub case: Case,
    strip: Option<Illustration>,
    path: Option<Illustration>,
    run: Option<String>,
    file: Option<(i64, String)>,
    newer: Option<ResultId>,
    /// Newest results of the bottle.
    pub others: Vec<Listed>,
    /// Bottles of the same water, this one among them.
    pub set: Vec<Listed>,
    value: Option<WellValue>,
    reasons: Vec<(Option<Outcome>, String)>,
    /// What bottles that agree decide in this programme.
    pub duplicates: Weight,
    /// Who did an act and when, by its number.
    acts: HashMap<i64, (String, String)>,
}

fn around(store: &Store, app: &App, identity: &str) -> Result<Around, HttpError> {
    let case = programme::case::case(store, identity)?;
    let row = results::row(store, &case.result.result)?;
    let run = match row.vial_id {
        Some(v) => store.list::<record::model::Vial>(&Filter::all().is("id", v))?.pop().map(|v| v.run_id),
        None => None,
    };
    let run = match run {
        Some(id) => store.runs()?.into_iter().find(|r| r.id == id).map(|r| r.name),
        None => None,
    };
    let path = match &run {
        Some(name) if case.result.verdict.is_some() => {
            let reduced = pages::reduced(store, name)?;
            pages::bottle_path(store, &case, &reduced, app.invented)?
        }
        _ => None,
    };
    let file = match row.raw_file_id {
        Some(id) => store.list::<record::model::RawFile>(&Filter::all().is("id", id))?.pop().map(|f| (id, f.name)),
        None => None,
    };
    let newest = results::row(store, &case.result.result.newest())?.identity();
    let newer = (newest != case.result.result).then_some(newest);
    let wanted = programme::index::Wanted {
        bottle: Some(row.bottle.clone()),
        evidence: case.result.verdict.is_none() && !case.result.kind.is_water(),
        ..programme::index::Wanted::default()
    };
    let rows = app.record.index(store, |i| i.select(&wanted, 0, 60).rows)?;
    let set = set_of(store, app, row.id)?;
    let value = if set.len() > 1 { result_cards::common(store, app, &set)? } else { None };
    let has_acts = !case.history.is_empty() || !case.sign_offs.is_empty();
    let events = if has_acts { store.events()? } else { vec![] };
    Ok(Around {
        strip: pages::strip(store, &case)?,
        path,
        run,
        file,
        newer,
        others: results::listed(store, &rows)?,
        reasons: result_cards::reasons(store, std::slice::from_ref(&case.result), case.result.verdict)?,
        duplicates: super::case_acts::weight_of_duplicates(store)?,
        acts: events.into_iter().map(|e| (e.number, (e.author, e.at))).collect(),
        set,
        value,
        case,
    })
}

/// The bottles of the same well, day, substance and isotopes.
fn set_of(store: &Store, app: &App, row: i64) -> Result<Vec<Listed>, HttpError> {
    let grouped = super::result_groups::grouped(store, app)?;
    let rows = grouped.set(row);
    Ok(results::listed(store, &rows)?)
}

fn title_of(r: &Listed) -> String {
    said::Title { substance: words::substance(&r.analyte).into(), bottle: r.bottle.as_str().into() }.text()
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(identity): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let around = page::read(&app, move |store, app| around(store, app, &identity)).await?;
    if q.contains_key("json") {
        let text = serde_json::to_string_pretty(&around.case).map_err(|e| HttpError::outside(e.to_string()))?;
        return Ok(([(header::CONTENT_TYPE, "application/json")], text).into_response());
    }
    let open = if q.get("open").is_some_and(|o| o == "all") { Open::All } else { Open::First };
    let title = title_of(&around.case.result);
    let pieces = pieces(&app, &who, &around, open, None);
    respond(&app, &who, Place::of("/results", &title).spoken(&who), &q, &pieces)
}

/// The case of a result once more, with what was typed.
pub(super) async fn again(app: &Shared, who: &Who, result: &str, said: &Said<'_>) -> Result<Done, HttpError> {
    let asked = result.to_string();
    let around = page::read(app, move |store, app| around(store, app, &asked)).await?;
    let title = title_of(&around.case.result);
    let who = &Who { here: case_address(&around.case.result.result), ..who.clone() };
    let pieces = pieces(app, who, &around, Open::First, Some(said));
    Ok(Done::Again(body(app, who, Place::of("/results", &title).spoken(who), &pieces)))
}

fn pieces(app: &App, who: &Who, a: &Around, open: Open, said: Option<&Said>) -> Vec<Piece> {
    let c = &a.case;
    let mut out: Vec<Piece> = vec![head(a).into()];
    if let Some(strip) = &a.strip {
        out.push(words::in_words(Block::Figure(strip.clone())).into());
    }
    out.push(set(a).into());
    if !c.findings.is_empty() {
        out.push(html! { h2 #findings { (said::Findings.text()) } (findings(c, open)) }.into());
    }
    if let Some(path) = &a.path {
        out.push(html! { h2 #path { (said::Path.text()) } }.into());
        out.push(words::in_words(Block::Figure(path.clone())).into());
    }
    out.push(
        html! { h2 #derivation { (said::Derivation.text()) } (case_tree::derivation(&c.derivation, open)) }.into(),
    );
    if !c.derivation.budget.is_empty() {
        out.push(html! { h2 #budget { (said::Budget.text()) } }.into());
        out.push(budget(c).into());
    }
    out.push(html! { h2 #history { (said::History.text()) } }.into());
    out.push(words::or_else(history(a), &said::NotJudged));
    if open == Open::First {
        out.push(super::case_acts::words_on_it(app, who, a, said).into());
    }
    out.push(origin(a).into());
    out.push(html! { h2 { (said::Others.text()) } }.into());
    out.push(words::or_else(others(a), &said::NoOther));
    out
}

/// Number, sentence, verdict and reason.
fn head(a: &Around) -> Markup {
    let r = &a.case.result;
    let place = [
        r.well.as_ref().map(|w| html! { a href=(format!("/wells/{}", encoded(w))) { (w) } }),
        r.filled_at.as_ref().map(|t| html! { (said::Filled { when: words::moment(t).into() }.text()) }),
        Some(html! { (words::fraction(&r.fraction)) }),
        Some(words::isotopes(&r.isotopes)).filter(|w| !w.is_empty()).map(|w| html! { (w) }),
        Some(html! { (words::kind(r.kind.word())) }),
        r.trip.as_ref().map(|t| html! { (said::Trip.text()) " " a href=(format!("/trips/{}", encoded(t))) { (t) } }),
        r.note.as_ref().map(|n| html! { (said::FieldNote { note: n.as_str().into() }.text()) }),
    ];
    html! {
        h1 { (title_of(r)) }
        p.under { @for (n, p) in place.iter().flatten().enumerate() { @if n > 0 { " · " } (p) } }
        @if let Some(newer) = &a.newer {
            p.caution { (said::Older.text()) " " a href=(case_address(newer)) { (said::Newest.text()) } }
        }
        div.verdict {
            p.number { (Parts::of_result(r).line()) }
            p { (sentence(r)) }
            p { (words::verdict(r.verdict)) @if let Some(p) = &r.profile { " " (words::by_profile(p)) }
                @if !a.reasons.is_empty() { ": " (a.reasons.iter().map(|(_, w)| w.as_str()).collect::<Vec<_>>().join("; ")) "." } }
            @for s in &a.case.sign_offs {
                p { (said::SignedBy.text()) " " strong { (s.person) } (on(a, s.act)) " (" (s.way.message().text()) "): " (s.why) }
            }
        }
        p.jump { a href="#findings" { (said::Findings.text()) } " " a href="#derivation" { (said::JumpDerivation.text()) } " " a href="#history" { (said::JumpHistory.text()) } " "
            a href="#say" { (said::YourWord.text()) } " "
            @if r.gross.is_some() { a href=(format!("/attribution?analyte={}", encoded(&r.analyte))) { (said::Sources.text()) } " " }
            @if let Some(w) = &r.well { a href=(format!("/time?well={}&analyte={}", encoded(w), encoded(&r.analyte))) { (said::OverTime.text()) } " " }
            a href=(format!("{}?open=all", case_address(&r.result))) { (said::ForPaper.text()) } " "
            a href=(format!("{}?json=1", case_address(&r.result))) { "JSON" } }
    }
}

/// ", 14 July 2026", where the act is known.
fn on(a: &Around, act: i64) -> String {
    a.acts.get(&act).map_or_else(String::new, |(_, at)| format!(", {}", words::day(at)))
}

/// What the number is, in one sentence.
fn sentence(r: &Listed) -> String {
    let state = message::Message::named("state", r.state.word()).map_or_else(|| r.state.word().into(), |m| m.text());
    let mut out = vec![match (&r.amount, r.at_most(), r.coverage_k) {
        (_, Some(bound), _) => message::number::sentence(&bound.text()),
        (Some(quantity::Amount::Measured(_)), _, Some(k)) => {
            said::SentenceMeasured { state: state.into(), k: message::Shown::significant(k, 3, "") }.text()
        }
        (None, ..) => said::SentenceNoLimit.text(),
        _ => said::SentenceState { state: state.into() }.text(),
    }];
    if let Some(s) = &r.water_share {
        out.push(message::number::sentence(&said::Share { share: s.said().into() }.text()));
    }
    words::printed(&out.join(" "))
}

/// The bottles of the set, with the one before and the one after.
fn set(a: &Around) -> Markup {
    let r = &a.case.result;
    let here = a.set.iter().position(|o| o.row == r.row);
    let (Some(here), 2..) = (here, a.set.len()) else { return html! {} };
    let labels: Vec<&str> = a.set.iter().map(|o| o.bottle.as_str()).collect();
    let letters = letters(&labels);
    html! {
        section.set aria-label=(said::Set.text()) {
            h2 { (said::SetOf { n: count(a.set.len()) }.text()) }
            ul.side { @for ((o, letter), n) in a.set.iter().zip(&letters).zip(0..) {
                @let p = Parts::of_result(o);
                li aria-current=[(n == here).then_some("true")] {
                    span.label title=(o.bottle) { (letter) } " "
                    @if n == here { b { (p.value) } } @else { a href=(case_address(&o.result)) { (p.value) } }
                    @if let Some(u) = &p.expanded { small { "±\u{A0}" (u) } }
                    (words::verdict(o.verdict))
                }
            } }
            p { (common(a)) }
            p.pages {
                @if let Some(o) = here.checked_sub(1).and_then(|n| a.set.get(n)) { a rel="prev" aria-keyshortcuts="[" href=(case_address(&o.result)) { (said::BottleBefore.text()) } " " }
                @if let Some(o) = a.set.get(here + 1) { a rel="next" aria-keyshortcuts="]" href=(case_address(&o.result)) { (said::BottleAfter.text()) } }
            }
        }
    }
}

fn common(a: &Around) -> String {
    let element = words::substance(&a.case.result.analyte);
    let value = a.value.as_ref().map(|v| words::printed(&v.sentence(&element).text()));
    value.unwrap_or_else(|| message::web_results::EachForItself.text())
}

/// Failed, not known, then those met folded, by stage.
fn findings(c: &Case, open: Open) -> Markup {
    let of = |outcome: Outcome| {
        let in_order = Stage::ALL.into_iter().flat_map(|s| c.findings.iter().filter(move |f| f.stage == s));
        in_order.filter(move |f| f.outcome == outcome).collect::<Vec<&Finding>>()
    };
    let (failed, unknown, met) = (of(Outcome::NotMet), of(Outcome::NotKnown), of(Outcome::Met));
    html! {
        @if !failed.is_empty() { h3 { (said::Failed { n: count(failed.len()) }.text()) } (words::findings(failed)) }
        @if !unknown.is_empty() { h3 { (said::NotKnown { n: count(unknown.len()) }.text()) } (words::findings(unknown)) }
        @if !met.is_empty() {
            details.met-ones open[open == Open::All] {
                summary { (said::Met { n: count(met.len()) }.text()) }
                @for stage in Stage::ALL {
                    @let here: Vec<&Finding> = met.iter().copied().filter(|f| f.stage == stage).collect();
                    @if !here.is_empty() { h4 { (message::number::capital(&stage.said().text())) } (words::findings(here)) }
                }
            }
        }
    }
}

fn budget(c: &Case) -> Listing {
    let rows = c
        .derivation
        .budget
        .iter()
        .map(|b| {
            let share = message::language().number(&quantity::format::percent_of_budget(b.share));
            // A bar of a hundred steps, as a picture with its number beside it.
            let width = format!("{:.0}", 120.0 * b.share);
            let bar = html! {
                svg.bar width="120" height="10" viewBox="0 0 120 10" aria-hidden="true" {
                    rect width="120" height="10" fill="#e3dfd6" {}
                    rect width=(width) height="10" fill="#23636e" {}
                }
            };
            let mut shown = td(String::new());
            shown.shown = bar;
            let u = message::language().number(&quantity::format::significant(b.u, 2));
            vec![td(words::printed(&b.text())), number(share), shown, number(words::printed(&u))]
        })
        .collect();
    Listing {
        caption: said::BudgetCaption.text(),
        headings: vec![said::BudgetInput.text(), said::BudgetShare.text(), String::new(), said::BudgetU.text()],
        rows,
        ..Listing::default()
    }
}

fn history(a: &Around) -> Listing {
    let reasons = |v: &serde_json::Value| match v.as_array() {
        Some(all) => {
            all.iter().filter_map(|r| r.as_str()).map(super::check_words::check).collect::<Vec<_>>().join(", ")
        }
        None => String::new(),
    };
    let act = |n: i64| a.acts.get(&n);
    Listing {
        caption: said::HistoryCaption.text(),
        headings: vec![said::When.text(), said::Who.text(), said::Verdict.text(), said::Because.text()],
        rows: a
            .case
            .history
            .iter()
            .map(|h| {
                vec![
                    td(act(h.act).map_or_else(String::new, |(_, at)| words::moment(at))),
                    td(act(h.act).map_or_else(String::new, |(author, _)| author.clone())),
                    words::verdict_cell(Some(h.verdict), h.profile.as_deref()),
                    td(reasons(&h.reasons)),
                ]
            })
            .collect(),
        ..Listing::default()
    }
}

fn origin(a: &Around) -> Markup {
    let c = &a.case;
    html! {
        h2 { (said::Origin.text()) }
        dl {
            @if let Some(run) = &a.run { div { dt { (said::Run.text()) } dd { a href=(format!("/runs/{}", encoded(run))) { (run) } } } }
            @if let Some((id, name)) = &a.file { div { dt { (said::File.text()) } dd { a href=(format!("/record/file/{id}")) { (name) } } } }
            @if let Some(l) = &c.result.laboratory { div { dt { (said::Laboratory.text()) } dd { (l) } } }
            @if let Some(m) = &c.result.method { div { dt { (said::ItsMethod.text()) } dd { (m) } } }
            div { dt { (said::Method.text()) } dd { (words::printed(&c.derivation.method_text())) } }
            div { dt { (said::Engine.text()) } dd { (c.result.engine) } }
        }
        @if !c.sources.is_empty() { ul { @for s in &c.sources { li lang="en" { (s) } } } }
        p.quiet { (said::NotTested.text()) }
    }
}

fn others(a: &Around) -> Listing {
    let rows = a.others.iter().filter(|o| o.row != a.case.result.row);
    let row = |o: &Listed| {
        let what = [words::substance(&o.analyte), words::isotopes(&o.isotopes)];
        let what = what.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(", ");
        vec![
            td(what),
            td(words::fraction(&o.fraction)),
            words::value(o),
            words::verdict_cell(o.verdict, o.profile.as_deref()),
        ]
    };
    Listing {
        caption: said::OthersCaption { bottle: a.case.result.bottle.as_str().into() }.text(),
        headings: vec![said::What.text(), said::Fraction.text(), said::Value.text(), said::Verdict.text()],
        rows: rows.map(row).collect(),
        ..Listing::default()
    }
}
