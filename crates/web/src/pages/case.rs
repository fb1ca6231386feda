//! The case for one number: verdict, the path of the bottle as a picture, findings, the derivation that opens step by
//! step to the counts, uncertainty budget, history; and the person's own word on it.

use super::{measurand, value, word};
use crate::app::{App, Shared, now};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, heads, number, respond, td, verdict_word};
use crate::forms::{Done, Fault, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Job, Outcome};
use crate::page::{self, Place, case_address, encoded};
use ::document::content::{Block, Illustration};
use ::report::pages;
use assessment::results;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use programme::case::Case;
use programme::hands;
use programme::work::{self, Recomputed};
use quantity::format::capital;
use quantity::{Derivation, NodeId, Spoken, Stage};
use record::by::By;
use record::model::VerdictWord;
use record::store::{Filter, Store};
use record::{ReadingId, ResultId};

/// To whom signs while nobody is named.
const NOBODY_SIGNS: &str = "A verdict is signed by somebody, and nobody is named: say at the top of the page who acts, by a name that is on record as a person with the role lead or analyst.";

/// What the page shows beside the case.
struct Around {
    case: Case,
    path: Option<Illustration>,
    run: Option<String>,
    file: Option<(i64, String)>,
    newer: Option<ResultId>,
    others: Vec<results::Listed>,
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
        evidence: case.result.verdict.is_none(),
        ..programme::index::Wanted::default()
    };
    let rows = app.record.index(store, |i| i.select(&wanted, 0, 60).rows)?;
    Ok(Around { path, run, file, newer, others: results::listed(store, &rows)?, case })
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
    let title = format!("{} in {}", capital(&measurand(&around.case.result)), around.case.result.bottle);
    let pieces = pieces(&app, &who, &around, &title, None);
    respond(&app, &who, Place::of("/results", &title), &q, &pieces)
}

fn pieces(app: &App, who: &Who, a: &Around, title: &str, said: Option<&Said>) -> Vec<Piece> {
    let c = &a.case;
    let mut out: Vec<Piece> = vec![head(a, title).into()];
    if let Some(path) = &a.path {
        out.push(html! { h2 { "The path of the bottle" } }.into());
        out.push(Block::Figure(path.clone()).into());
    }
    if !c.findings.is_empty() {
        out.push(html! { h2 #findings { "Findings along the path" } (findings_by_stage(c)) }.into());
    }
    out.push(html! { h2 #derivation { "From the number down to the counts" } (derivation(&c.derivation)) }.into());
    if !c.derivation.budget.is_empty() {
        out.push(html! { h2 #budget { "Uncertainty budget" } }.into());
        out.push(budget(c).into());
    }
    out.push(html! { h2 #history { "History of the verdict" } }.into());
    out.push(history(c).into());
    out.push(words_on_it(app, who, a, said).into());
    out.push(origin(a).into());
    out.push(html! { h2 { "Other results of this bottle" } }.into());
    out.push(others(a).into());
    out
}

fn head(a: &Around, title: &str) -> Markup {
    let r = &a.case.result;
    let place = [
        r.well.as_ref().map(|w| html! { a href=(format!("/wells/{}", encoded(w))) { (w) } }),
        r.trip.as_ref().map(|t| html! { "trip " a href=(format!("/trips/{}", encoded(t))) { (t) } }),
        r.filled_at.as_ref().map(|t| html! { "filled " (page::moment(t)) }),
        Some(html! { (r.fraction) }),
        Some(html! { (r.kind.word().replace('-', " ")) }),
        r.note.as_ref().map(|n| html! { "field note: " (n) }),
    ];
    html! {
        h1 { (title) }
        p.under { @for (n, p) in place.iter().flatten().enumerate() { @if n > 0 { " · " } (p) } }
        @if let Some(newer) = &a.newer {
            p.caution { "This is an older revision. " a href=(case_address(newer)) { "The newest" } "." }
        }
        div.verdict {
            p.number { (value(r).words) }
            p { @if let Some(v) = r.verdict { (verdict_word(word(v))) (super::by_profile(r.profile.as_deref())) } @else { span.quiet { "evidence: it gets no verdict" } } }
            p { (programme::case::in_line(r)) "." }
            @if !r.reasons.is_empty() { p { "Because of " (r.reasons.join(", ")) "." } }
            @for s in &a.case.sign_offs { p { "Signed by " strong { (s.person) } ": " (s.why) } }
        }
        p.jump { a href="#findings" { "Findings" } " " a href="#derivation" { "Derivation" } " " a href="#history" { "History" } " "
            a href="#say" { "Your word" } " "
            @if r.gross.is_some() { a href=(format!("/attribution?analyte={}", encoded(&r.analyte))) { "Whose metal it is" } " " }
            @if let Some(w) = &r.well { a href=(format!("/time?well={}&analyte={}", encoded(w), encoded(&r.analyte))) { "Over time" } " " }
            a href=(format!("{}?json=1", case_address(&r.result))) { "As JSON" } }
        p.quiet { code { (r.result.to_string()) } }
    }
}

fn findings_by_stage(c: &Case) -> Markup {
    html! {
        @for stage in Stage::ALL {
            @let here: Vec<_> = c.findings.iter().filter(|f| f.stage == stage).cloned().collect();
            @if !here.is_empty() { (crate::blocks::findings(&here)) }
        }
    }
}

/// The tree: the first steps stand open, the rest opens with a click. A node that stands in several places is told
/// once and referred to.
fn derivation(d: &Derivation) -> Markup {
    let Some(last) = d.nodes.len().checked_sub(1) else {
        return html! { p { (capital(&d.method_text())) "." } };
    };
    let mut told = vec![false; d.nodes.len()];
    html! {
        p.quiet { "Each line is one step with its value; open it to see what it was computed from, down to the replicates of the counts." }
        div.tree { (branch(d, NodeId(last), 0, &mut told)) }
        @if !d.unseen.is_empty() {
            h3 { "What the data cannot show" }
            ul { @for says in &d.unseen { li { (capital(&says.text())) "." } } }
        }
    }
}

fn branch(d: &Derivation, id: NodeId, depth: usize, told: &mut [bool]) -> Markup {
    let node = d.node(id);
    let line = html! { span.what { (node.name_text()) } " = " strong { (node.amount.with_u().text()) } };
    let how = html! {
        @if !node.step.is_empty() { span.step { (node.step_text()) } }
        @if !node.source.is_empty() { " " span.from { (node.source_text()) } }
    };
    if node.inputs.is_empty() {
        return html! { p.leaf { (line) " " (how) } };
    }
    if told[id.0] {
        return html! { p.leaf { (line) " " a href=(format!("#n{}", id.0)) { "told above" } } };
    }
    told[id.0] = true;
    html! {
        details #(format!("n{}", id.0)) open[depth < 2] {
            summary { (line) }
            @if !node.step.is_empty() || !node.source.is_empty() { p.how { (how) } }
            @for input in &node.inputs { (branch(d, *input, depth + 1, told)) }
        }
    }
}

fn budget(c: &Case) -> Listing {
    let rows = c
        .derivation
        .budget
        .iter()
        .map(|b| {
            let share = quantity::format::percent_of_budget(b.share);
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
            vec![td(b.text()), number(share), shown, number(quantity::format::significant(b.u, 2))]
        })
        .collect();
    Listing {
        caption: "What the variance of the value is made of".into(),
        headings: heads(&["Input", "Share of the variance, %", "", "u in the value’s unit"]),
        rows,
        empty: "",
        ..Listing::default()
    }
}

fn history(c: &Case) -> Listing {
    let reasons = |v: &serde_json::Value| match v.as_array() {
        Some(all) => all.iter().filter_map(|r| r.as_str()).collect::<Vec<_>>().join(", "),
        None => String::new(),
    };
    Listing {
        caption: "Every verdict so far, oldest first".into(),
        headings: heads(&["Assessment", "Verdict", "By profile", "Because of"]),
        rows: c
            .history
            .iter()
            .map(|h| {
                vec![
                    number(h.revision.to_string()),
                    crate::blocks::verdict(Some(word(h.verdict))),
                    td(h.profile.clone().unwrap_or_default()),
                    td(reasons(&h.reasons)),
                ]
            })
            .collect(),
        empty: "It was not judged: it is evidence for others, or nothing was derived yet.",
        ..Listing::default()
    }
}

/// A word that could not be taken as typed: the act, what was typed, and what is wrong at which field.
pub(crate) struct Said<'a> {
    pub act: &'a str,
    pub filled: &'a Filled,
    pub fault: Fault,
}

impl Said<'_> {
    /// What was typed in a field of the act, and what is wrong with it; nothing of another act.
    pub fn of<'s>(said: Option<&'s Self>, act: &str, field: &str) -> (&'s str, Option<&'s str>) {
        match said.filter(|s| s.act == act) {
            Some(s) => (s.filled.get(field), (s.fault.0 == field).then_some(s.fault.1.as_str())),
            None => ("", None),
        }
    }
}

/// The field for a reason.
pub(crate) fn reason(id: &str, words: &str, hint: &str, (typed, fault): (&str, Option<&str>)) -> Markup {
    let described = if fault.is_some() { format!("{id}-fault {id}-hint") } else { format!("{id}-hint") };
    html! {
        div class=(if fault.is_some() { "field wrong" } else { "field" }) {
            label for=(id) { (words) }
            textarea #(id) name="why" rows="2" required aria-invalid=[fault.map(|_| "true")] aria-describedby=(described) { (typed) }
            @if let Some(f) = fault { p.why #(format!("{id}-fault")) role="alert" { (f) } }
            p.hint #(format!("{id}-hint")) { (hint) }
        }
    }
}

/// Signing and taking out, each with a reason.
fn words_on_it(app: &App, who: &Who, a: &Around, said: Option<&Said>) -> Markup {
    let r = &a.case.result;
    let form = |action: &str, id: &str, words: &str, hint: &str, button: &str| {
        html! {
            form method="post" action=(action) {
                @match said.filter(|s| s.act == action) { Some(s) => (same_token(s.filled)), None => (token_field(app, who)) }
                input type="hidden" name="result" value=(r.result.to_string());
                input type="hidden" name="what" value=(ReadingId::bottle(&r.bottle).to_string());
                (reason(id, words, hint, Said::of(said, action, "why")))
                button type="submit" { (button) }
            }
        }
    };
    let open = |acts: &[&str]| said.is_some_and(|s| acts.contains(&s.act));
    let out = a.case.result.reasons.iter().any(|x| x == results::TAKEN_OUT.text());
    html! {
        h2 #say { "Your word on it" }
        @if r.verdict.is_some() {
            details.act open[open(&["/sign"])] {
                summary { "Stand for this verdict" }
                @if !who.session && !who.is_named() { p.caution { (NOBODY_SIGNS) " " a href="/enter/person" { "Enter a person" } } }
                @if who.may(Role::Lead) { (form("/sign", "sign-why", "Why you stand for it", "Warnings then no longer hold the result back. Kept for good, with your name.", "Sign")) }
                @else { p.quiet { "Signing is the lead’s." } }
            }
        }
        details.act open[open(&["/take-out", "/take-back"])] {
            summary { @if out { "Take the bottle back into the evidence" } @else { "Take the bottle out of the evidence" } }
            @if who.may(Role::Analyst) {
                @if out { (form("/take-back", "out-why", "Why it counts again", "Everything that stands on it is derived anew.", "Take it back")) }
                @else { (form("/take-out", "out-why", "Why it does not count", "Nothing is deleted; everything that stands on it is derived anew. Kept for good, with your name.", "Take it out")) }
            } @else { p.quiet { "Weighing evidence is for analyst or lead." } }
        }
    }
}

fn origin(a: &Around) -> Markup {
    let c = &a.case;
    html! {
        h2 { "Where it comes from" }
        dl {
            @if let Some(run) = &a.run { div { dt { "run" } dd { a href=(format!("/runs/{}", encoded(run))) { (run) } } } }
            @if let Some((id, name)) = &a.file { div { dt { "file as it came" } dd { a href=(format!("/record/file/{id}")) { (name) } } } }
            @if let Some(l) = &c.result.laboratory { div { dt { "laboratory" } dd { (l) } } }
            @if let Some(m) = &c.result.method { div { dt { "its method" } dd { (m) } } }
            div { dt { "method" } dd { (c.derivation.method_text()) } }
            div { dt { "derived by version" } dd { (c.result.engine) } }
        }
        @if !c.sources.is_empty() { ul { @for s in &c.sources { li { (s) } } } }
        @for w in &c.warnings { p.quiet { (w) } }
    }
}

fn others(a: &Around) -> Listing {
    let rows = a.others.iter().filter(|o| o.row != a.case.result.row);
    Listing {
        caption: format!("Newest results of bottle {}", a.case.result.bottle),
        headings: heads(&["What", "Fraction", "Value ± U", "Verdict"]),
        rows: rows.map(|o| vec![td(measurand(o)), td(o.fraction.clone()), value(o), super::judged(o)]).collect(),
        empty: "There is no other.",
        ..Listing::default()
    }
}

/// What deriving anew did, in lines.
pub(crate) fn told(done: &Recomputed) -> Vec<String> {
    let mut out =
        vec![format!("{} values came out anew, {} verdicts were written.", done.changes.len(), done.verdicts)];
    for (subject, old, new) in done.turned.iter().take(20) {
        out.push(format!("{subject}: {} → {}", old.word(), new.word()));
    }
    if done.turned.len() > 20 {
        out.push(format!("… and {} more verdicts turned.", done.turned.len() - 20));
    }
    out.extend(done.underived.iter().map(|u| format!("Without results: {u}")));
    out.extend(done.unknown_checks.iter().map(|name| {
        format!(
            "The table of checks speaks of \"{name}\", which this program does not make: that rule decides nothing."
        )
    }));
    out
}

/// A person stands for a verdict.
pub(crate) async fn sign(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (result, why, person) = (filled.get("result").to_string(), filled.get("why").to_string(), who.clone());
        if let Err(e) = record::by::said(&why) {
            return again(&app, &who, &result, &Said { act: "/sign", filled: &filled, fault: at("why", &e) }).await;
        }
        let id = result.parse::<ResultId>()?;
        if let Some(words) = may_not_sign(&app, &who).await? {
            let said = Said { act: "/sign", filled: &filled, fault: ("why".into(), words) };
            return again(&app, &who, &result, &said).await;
        }
        let title = format!("Signing {result}");
        let to = jobs::begin(&app, &who, &title, move |app, job| {
            job.step("Signing, and judging anew")?;
            let at = now();
            let signed = app.record.write_now(|store| work::sign(store, &result, &why, person.by(&at)));
            let told = match signed {
                Ok(_) => still_provisional(app, &id)?,
                other => followed(other)?,
            };
            Ok(Outcome { to: case_address(&id.newest()), told })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// Why this person may not stand for a verdict, where no account says who may: by name and role on record, as at the
/// command line.
async fn may_not_sign(app: &Shared, who: &Who) -> Result<Option<String>, HttpError> {
    if who.session {
        return Ok(None);
    }
    if !who.is_named() {
        return Ok(Some(NOBODY_SIGNS.into()));
    }
    let person = who.person.clone();
    let may = page::read(app, move |store, _| Ok(hands::may_sign(store, &person))).await?;
    Ok(match may {
        Ok(()) => None,
        Err(record::Error::Store(e)) => return Err(e.into()),
        Err(record::Error::Absent { .. }) => Some(format!(
            "{} is not on record as a person: enter the person first, with the role lead or analyst, or act under the name of somebody who is.",
            who.person
        )),
        Err(_) => Some(format!(
            "The role of {} on record is none that stands for a verdict: lead or analyst is wanted. Correct it under Record, People.",
            who.person
        )),
    })
}

/// Of a result that is signed and stays provisional, why: a word answers for warnings, not for evidence that is missing.
fn still_provisional(app: &App, id: &ResultId) -> Result<Vec<String>, HttpError> {
    let id = id.newest().to_string();
    let case = app.record.read_now(|store| programme::case::case(store, &id))?;
    if case.result.verdict != Some(VerdictWord::Provisional) {
        return Ok(vec![]);
    }
    let open = case.result.reasons.join(", ");
    Ok(vec![format!(
        "Your word is kept. The result stays provisional: a word answers for warnings, and {open} is decisive evidence that is missing. The case says what was not known."
    )])
}

/// What is wrong, at its field.
fn at(field: &str, e: &record::Error) -> Fault {
    let words = match e {
        record::Error::Unfit { found, expected, .. } => format!("Found {found}, expected {expected}."),
        other => format!("{}.", capital(&other.to_string())),
    };
    (field.into(), words)
}

/// The case of a result once more, with what was typed.
async fn again(app: &Shared, who: &Who, result: &str, said: &Said<'_>) -> Result<Done, HttpError> {
    let asked = result.to_string();
    let around = page::read(app, move |store, app| around(store, app, &asked)).await?;
    let title = format!("{} in {}", capital(&measurand(&around.case.result)), around.case.result.bottle);
    let who = &Who { here: case_address(&around.case.result.result), ..who.clone() };
    let pieces = pieces(app, who, &around, &title, Some(said));
    Ok(Done::Again(body(app, who, Place::of("/results", &title), &pieces)))
}

/// Derives anew, told as it goes, and stopped between runs where somebody stops it.
fn derive(app: &App, job: &Job, run: Option<&str>, by: By) -> Result<Recomputed, HttpError> {
    let done = app.record.write_now(|store| work::recompute_watched(store, run, by, &|words| job.goes_on(words)));
    done.map_err(|e| match e {
        record::Error::Stopped { .. } => HttpError::refused(stopped(&e)),
        other => other.into(),
    })
}

fn stopped(e: &record::Error) -> String {
    format!(
        "{}. What was derived until then stands, each run whole; deriving anew brings up the rest.",
        capital(&e.to_string())
    )
}

/// What came of deriving after an act that is kept, in lines: kept it is also where deriving failed or was stopped.
pub(crate) fn followed(done: Result<Recomputed, record::Error>) -> Result<Vec<String>, HttpError> {
    match done {
        Ok(done) => Ok(told(&done)),
        Err(e @ record::Error::NotDerived { .. }) => Ok(vec![format!("{}.", capital(&e.to_string()))]),
        Err(e @ record::Error::Stopped { .. }) => Ok(vec![format!("Kept, not yet derived. {}", stopped(&e))]),
        Err(other) => Err(other.into()),
    }
}

/// Takes something out of the evidence.
pub(crate) async fn take_out(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    exclude(&app, &who, &Filled(fields), true).await
}

/// Takes it back.
pub(crate) async fn take_back(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    exclude(&app, &who, &Filled(fields), false).await
}

async fn exclude(app: &Shared, who: &Who, filled: &Filled, out: bool) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    once(app, who, filled, async {
        let (what, why, person) = (filled.get("what").to_string(), filled.get("why").to_string(), who.clone());
        let back = match filled.get("result") {
            "" => "/runs".to_string(),
            result => case_address(&result.parse::<ResultId>()?.newest()),
        };
        // `to` comes with the form: anything but a page of this face would lead whoever sends it somewhere else.
        let back = page::own_path(filled.get("to")).filter(|to| to.starts_with("/runs/")).map_or(back, str::to_string);
        let act = if out { "/take-out" } else { "/take-back" };
        let named = what.clone();
        // Looked at before the job begins: a fault then stands at its field with what was typed, not on a job's page.
        let known = page::read(app, move |store, _| Ok(work::named(store, &named).map(|_| ()))).await?;
        let fault = match (known, record::by::said(&why)) {
            (Err(record::Error::Store(e)), _) => return Err(e.into()),
            (Err(e), _) => Some(at("what", &e)),
            (_, Err(e)) => Some(at("why", &e)),
            _ => None,
        };
        if let Some(fault) = fault {
            let said = Said { act, filled, fault };
            return match (filled.get("to").strip_prefix("/runs/"), filled.get("result")) {
                (Some(run), _) => super::runs::again(app, who, &page::decoded(run).unwrap_or_default(), &said).await,
                (None, "") => Err(HttpError::refused(said.fault.1)),
                (None, result) => again(app, who, result, &said).await,
            };
        }
        let title = format!("Taking {what} {} the evidence", if out { "out of" } else { "back into" });
        let to = jobs::begin(app, who, &title, move |app, job| {
            job.step("Keeping the decision, and deriving everything anew")?;
            let at = now();
            let done = app.record.write_now(|store| work::exclude(store, &what, out, &why, person.by(&at)));
            Ok(Outcome { to: back, told: followed(done)? })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// Derives everything, or one run, anew.
pub(crate) async fn recompute(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (run, person) = (filled.get("run").to_string(), who.clone());
        let run = (!run.is_empty()).then_some(run);
        let back = run.as_ref().map_or("/results".to_string(), |r| format!("/runs/{}", encoded(r)));
        let to = jobs::begin(&app, &who, "Deriving anew", move |app, job| {
            job.step("Deriving results and verdicts from raw data and recipe")?;
            let at = now();
            let done = derive(app, job, run.as_deref(), person.by(&at))?;
            Ok(Outcome { to: back, told: told(&done) })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}
