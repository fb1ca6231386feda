//! A person's own word on a result: standing for its verdict, taking a bottle out of the evidence or back, deriving anew;
//! and what each of these would change, said before it is done.

use super::case::{Around, again};
use super::{check_words, words};
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::forms::{Done, Fault, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Job, Outcome};
use crate::moment::now;
use crate::page::{self, case_address, encoded};
use assessment::results;
use assessment::verdict::Rules;
use axum::Form;
use axum::extract::State;
use axum::response::Response;
use maud::{Markup, html};
use message::{Spoken, count, web_case as said};
use programme::hands;
use programme::work::{self, Recomputed};
use quantity::format::capital;
use quantity::{Check, Outcome as Came};
use record::by::By;
use record::model::{VerdictWord, Weight};
use record::{ReadingId, ResultId};

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

/// Signing and taking out, each with a reason, and beforehand with what it would change.
pub(super) fn words_on_it(app: &App, who: &Who, a: &Around, said: Option<&Said>) -> Markup {
    let r = &a.case.result;
    let form = |action: &str, id: &str, [words, hint, button]: [String; 3]| {
        html! {
            form method="post" action=(action) {
                @match said.filter(|s| s.act == action) { Some(s) => (same_token(s.filled)), None => (token_field(app, who)) }
                input type="hidden" name="result" value=(r.result.to_string());
                input type="hidden" name="what" value=(ReadingId::bottle(&r.bottle).to_string());
                (reason(id, &words, &hint, Said::of(said, action, "why")))
                button type="submit" { (button) }
            }
        }
    };
    let open = |acts: &[&str]| said.is_some_and(|s| acts.contains(&s.act));
    let out = r.reasons.iter().any(|x| x == results::TAKEN_OUT.text());
    html! {
        h2 #say { (said::YourWord.text()) }
        @if r.verdict.is_some() {
            details.act open[open(&["/sign"])] {
                summary { (said::Stand.text()) }
                p { (before_signing(a)) }
                @if !who.session && !who.is_named() { p.caution { (said::NobodySigns.text()) " " a href="/enter/person" { (said::EnterPerson.text()) } } }
                @if who.may(Role::Lead) { (form("/sign", "sign-why", [said::WhyStand.text(), said::WhyStandHint.text(), said::Sign.text()])) }
                @else { p.quiet { (said::SigningIsTheLeads.text()) } }
            }
        }
        details.act open[open(&["/take-out", "/take-back"])] {
            summary { @if out { (said::TakeBottleBack.text()) } @else { (said::TakeBottleOut.text()) } }
            @if who.may(Role::Analyst) {
                @if out { (form("/take-back", "out-why", [said::WhyBack.text(), said::WhyBackHint.text(), said::TakeBack.text()])) }
                @else {
                    ul { @for words in before_taking_out(a) { li { (words) } } }
                    (form("/take-out", "out-why", [said::WhyOut.text(), said::WhyOutHint.text(), said::TakeOut.text()]))
                }
            } @else { p.quiet { (said::WeighingIsForAnalysts.text()) } }
        }
    }
}

/// Which of the checks that hold the result back a word answers for, and which it cannot.
///
/// A verdict is provisional by decisive checks that are not known and by warnings that are not met, rejected by decisive
/// checks that are not met ([`Rules::judge`]): a word answers for warnings alone.
fn before_signing(a: &Around) -> String {
    let c = &a.case;
    let lifts = |code: &&String| {
        let is = |o: Came| c.findings.iter().any(|f| f.check.text() == code.as_str() && f.outcome == o);
        c.result.verdict == Some(VerdictWord::Provisional) && is(Came::NotMet) && !is(Came::NotKnown)
    };
    let listed = |all: Vec<&String>| all.iter().map(|r| check_words::check(r)).collect::<Vec<_>>().join(", ");
    let (lifted, left): (Vec<&String>, Vec<&String>) = c.result.reasons.iter().partition(lifts);
    let verdict = || words::verdict_text(c.result.verdict).into();
    match (lifted.is_empty(), left.is_empty()) {
        (true, true) => said::SignNothing.text(),
        (false, true) => said::SignLiftsAll { checks: listed(lifted).into() }.text(),
        (true, false) => said::SignLiftsNone { checks: listed(left).into(), verdict: verdict() }.text(),
        (false, false) => {
            said::SignLiftsSome { checks: listed(lifted).into(), left: listed(left).into(), verdict: verdict() }.text()
        }
    }
}

/// What taking the bottle out would change, a line each.
fn before_taking_out(a: &Around) -> Vec<String> {
    let r = &a.case.result;
    if r.verdict.is_none() {
        return vec![said::OutEvidence.text()];
    }
    let mut out = vec![said::OutThis { n: count(a.others.len().max(1)) }.text()];
    let stays = |o: &&results::Listed| {
        o.row != r.row && o.verdict.is_some() && !o.reasons.iter().any(|x| x == results::TAKEN_OUT.text())
    };
    let others: Vec<&results::Listed> = a.set.iter().filter(stays).collect();
    let finding = a.case.findings.iter().find(|f| f.check == Check::NumberDuplicates);
    match &others[..] {
        [] => out.push(said::OutNoOther.text()),
        [other] if a.duplicates == Weight::Decisive && r.profile.is_none() => {
            out.push(said::OutAlone { bottle: other.bottle.as_str().into() }.text());
        }
        [other] => out.push(said::OutAloneNoted { bottle: other.bottle.as_str().into() }.text()),
        others => out.push(said::OutFewer { n: count(others.len()) }.text()),
    }
    if !others.is_empty() && finding.is_some_and(|f| f.outcome == Came::NotMet) {
        out.push(said::OutDisagreementStays.text());
    }
    out
}

/// What the programme's table makes of bottles that agree.
pub(super) fn weight_of_duplicates(store: &record::store::Store) -> Result<Weight, HttpError> {
    Ok(Rules::new(store.check_rules()?).weight(Check::NumberDuplicates))
}

/// What deriving anew did, in lines.
pub(crate) fn told(done: &Recomputed) -> Vec<String> {
    let mut out = vec![said::Anew { values: count(done.changes.len()), verdicts: count(done.verdicts) }.text()];
    for (subject, old, new) in done.turned.iter().take(20) {
        let [old, new] = [old, new].map(|v| words::verdict_text(Some(*v)));
        out.push(format!("{subject}: {old} → {new}"));
    }
    if done.turned.len() > 20 {
        out.push(said::MoreTurned { n: count(done.turned.len() - 20) }.text());
    }
    out.extend(done.underived.iter().map(|u| said::WithoutResults { why: u.as_str().into() }.text()));
    out.extend(done.unknown_checks.iter().map(|name| said::UnknownCheck { check: name.as_str().into() }.text()));
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
        let title = said::Signing { bottle: id.bottle.as_str().into() }.text();
        let to = jobs::begin(&app, &who, &title, move |app, job| {
            job.step(&said::SigningStep.text())?;
            let at = now();
            let signed = app.record.write_now(|store| {
                // Only who has a session has logged in; on one's own machine a name is typed.
                let sign = if person.session { work::sign_by_login } else { work::sign };
                sign(store, &result, &why, person.by(&at))
            });
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
        return Ok(Some(said::NobodySigns.text()));
    }
    let person = who.person.clone();
    let may = page::read(app, move |store, _| Ok(hands::may_sign(store, &person))).await?;
    Ok(match may {
        Ok(()) => None,
        Err(record::Error::Store(e)) => return Err(e.into()),
        Err(record::Error::Absent { .. }) => Some(said::NotOnRecord { person: who.person.as_str().into() }.text()),
        Err(_) => Some(said::NoSuchRole { person: who.person.as_str().into() }.text()),
    })
}

/// Of a result that is signed and stays provisional, why: a word answers for warnings, not for evidence that is missing.
fn still_provisional(app: &App, id: &ResultId) -> Result<Vec<String>, HttpError> {
    let id = id.newest().to_string();
    let case = app.record.read_now(|store| programme::case::case(store, &id))?;
    if case.result.verdict != Some(VerdictWord::Provisional) {
        return Ok(vec![]);
    }
    let open = case.result.reasons.iter().map(|r| check_words::check(r)).collect::<Vec<_>>().join(", ");
    Ok(vec![said::StillProvisional { checks: open.into() }.text()])
}

/// What is wrong, at its field.
fn at(field: &str, e: &record::Error) -> Fault {
    let words = match e {
        record::Error::Unfit { found, expected, .. } => {
            said::FoundExpected { found: found.as_str().into(), expected: expected.as_str().into() }.text()
        }
        other => format!("{}.", capital(&other.to_string())),
    };
    (field.into(), words)
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
    said::Stopped { why: capital(&e.to_string()).into() }.text()
}

/// What came of deriving after an act that is kept, in lines: kept it is also where deriving failed or was stopped.
pub(crate) fn followed(done: Result<Recomputed, record::Error>) -> Result<Vec<String>, HttpError> {
    match done {
        Ok(done) => Ok(told(&done)),
        Err(e @ record::Error::NotDerived { .. }) => Ok(vec![format!("{}.", capital(&e.to_string()))]),
        Err(e @ record::Error::Stopped { .. }) => Ok(vec![said::KeptNotDerived { why: stopped(&e).into() }.text()]),
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
        let of = || what.as_str().into();
        let title = if out { said::TakingOut { what: of() }.text() } else { said::TakingBack { what: of() }.text() };
        let to = jobs::begin(app, who, &title, move |app, job| {
            job.step(&said::TakingStep.text())?;
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
        let to = jobs::begin(&app, &who, &said::Deriving.text(), move |app, job| {
            job.step(&said::DerivingStep.text())?;
            let at = now();
            let done = derive(app, job, run.as_deref(), person.by(&at))?;
            Ok(Outcome { to: back, told: told(&done) })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}
