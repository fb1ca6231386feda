//! The record itself: every act with its author, in one chain; the rules of the checks; people; whole files as they came.

use super::case::followed;
use crate::app::{Shared, now};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, heads, number, respond, td};
use crate::forms::{Asking, Done, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Outcome};
use crate::page::{self, Place, moment};
use assessment::verdict::Rules;
use assessment::verify::{Answer, verify_watched};
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use intake::one_name::{KINDS, merge};
use maud::{Markup, html};
use programme::{history, work};
use quantity::format::capital;
use record::model::{RawFile, Undone};
use record::store::{Event, EventHash, Filter};

/// Acts shown, the newest.
const ACTS: usize = 100;

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let nothing = Asking { filled: &Filled::default(), faults: &[] };
    let pieces = pieces(&app, &who, nothing, token_field(&app, &who)).await?;
    respond(&app, &who, Place::of("/record", "Record"), &q, &pieces)
}

async fn pieces(app: &Shared, who: &Who, asking: Asking<'_>, token: Markup) -> Result<Vec<Piece>, HttpError> {
    let pieces = page::read(app, |store, _| {
        let events = store.events_last(ACTS)?;
        let head = store.head()?.map_or("none yet".to_string(), |h| h.to_string());
        let total = events.last().map_or(0, |e| e.number);
        let rules = store.check_rules()?;
        let mut out: Vec<Piece> = vec![html! {
            p { "Rows are only ever added. Each act is one event: who, when, what, and digests of every row that it wrote, chained to the event before it." }
            dl { div { dt { "head hash" } dd { code { (head) } } } div { dt { "events" } dd { (total) } } }
            p.quiet { "Write the head hash down elsewhere, as each report does: a chain alone cannot show that its end was cut off. " code { "limpid verify" } " compares every stored value with it." }
            h2 { "Acts" }
        }
        .into()];
        out.push(acts(&events, &store.list(&Filter::all())?).into());
        let known = Rules::new(rules.clone());
        out.push(
            html! {
                h2 { "Rules of the checks" }
                p { "Which checks decide, which warn, and the programme’s own limits. A change is the next revision, with a reason." }
                @for name in known.unknown() { p.caution { "No check of this program is called " code { (name) } ": its rule decides nothing." } }
                (untaken(&known))
            }
            .into(),
        );
        out.push(checks(&rules).into());
        out.extend(profiles(store)?);
        out.push(html! { h2 { "People" } }.into());
        out.push(super::trips::entered(store, "person", &Filter::all(), "/record")?.into());
        Ok(out)
    })
    .await?;
    let noted = Field {
        name: "noted",
        words: "Head hash noted elsewhere",
        hint: "As a report’s foot has it; may stay empty. With it, a record whose end was cut off is found out.",
    };
    let head = html! {
        h1 { "Record" }
        p.acts {
            @if who.may(Role::Sampler) { a href="/enter/person?to=%2Frecord" { "Enter a person" } " " }
            @if who.may(Role::Analyst) { a href="/enter/laboratory_quality?to=%2Frecord" { "Enter what a laboratory says of its quality" } " " }
            @if who.may(Role::Lead) { a href="/enter/check_rule?to=%2Frecord" { "Change a rule of the checks" } " " }
            (super::accounts::link(who)) " "
            a href="/report?what=backup#make" { "Copy of the programme" }
        }
        @if who.may(Role::Lead) { (undo_form(&asking, &token)) (one_name_form(&asking, &token)) }
        details.act open[asks(&asking, &["noted"])] {
            summary { "Is everything still what it was?" }
            form method="post" action="/record/verify" {
                (token)
                @if asks(&asking, &["noted"]) { (asking.all_faults()) }
                (asking.line(noted))
                button type="submit" { "Verify" }
                p.hint { "Every stored value is compared with its digest, and every result derived anew from its raw data." }
            }
        }
    };
    Ok(std::iter::once(head.into()).chain(pieces).collect())
}

/// Whether one of these fields is at fault.
fn asks(asking: &Asking<'_>, fields: &[&str]) -> bool {
    asking.faults.iter().any(|(name, _)| fields.contains(&name.as_str()))
}

/// Fields of an act to take back.
const UNDOING: [&str; 2] = ["event", "why"];

fn undo_form(asking: &Asking<'_>, token: &Markup) -> Markup {
    let event = Field {
        name: "event",
        words: "Act",
        hint: "Its number, or the beginning of its hash, as in the list below: an import, or rows typed in.",
    };
    let why = Field { name: "why", words: "Reason", hint: "It is kept for good." };
    html! {
        details.act open[asks(asking, &UNDOING)] {
            summary { "Take an import back" }
            form method="post" action="/record/undo" {
                (token)
                @if asks(asking, &UNDOING) { (asking.all_faults()) }
                (asking.line(event))
                (asking.line(why))
                button type="submit" { "Take it back" }
                p.hint { "Its rows stay on record and count no longer, and what was derived of them follows. Its files may be taken in again. What later acts stand on is not taken back: they are named." }
            }
        }
    }
}

/// Two names that are one: what they are of, the old one, the one that stays.
fn one_name_form(asking: &Asking<'_>, token: &Markup) -> Markup {
    let kinds: Vec<(&str, &str)> = KINDS.iter().map(|kind| (*kind, *kind)).collect();
    let field = |name, words, hint| Field { name, words, hint };
    html! {
        details.act open[asks(asking, &["old"])] {
            summary { "Two names that are one" }
            form method="post" action="/record/one-name" {
                (token)
                @if asks(asking, &["old"]) { (asking.all_faults()) }
                (asking.choice(field("kind", "What they are names of", ""), &kinds))
                (asking.line(field("old", "The old name", "What bears it is read by the other name from then on; it stays as it was written.")))
                (asking.line(field("new", "The name that stays", "")))
                (asking.prose(field("why", "Reason", "Kept for good.")))
                button type="submit" { "Make them one" }
            }
        }
    }
}

/// Takes an act back.
pub(crate) async fn undo(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let (event, why) = (filled.get("event").trim().to_string(), filled.get("why").to_string());
        let named = event.clone();
        // Looked at before the job begins: a fault then stands at its field with what was typed.
        let known = page::read(&app, move |store, _| Ok(store.event_meant(&named).map(|e| e.number))).await?;
        let mut faults = vec![];
        if let Err(e) = &known {
            faults.push(("event".to_string(), format!("{}.", capital(&e.to_string()))));
        }
        if let Err(e) = record::by::said(&why) {
            faults.push(("why".to_string(), format!("{}.", capital(&e.to_string()))));
        }
        if !faults.is_empty() {
            let asking = Asking { filled: &filled, faults: &faults };
            let pieces = pieces(&app, &who, asking, same_token(&filled)).await?;
            return Ok(Done::Again(body(&app, &who, Place::of("/record", "Record"), &pieces)));
        }
        let person = who.clone();
        let to = jobs::begin(&app, &who, &format!("Taking act {event} back"), move |app, job| {
            job.step("Keeping the decision, and deriving everything anew")?;
            let at = now();
            let done = app.record.write_now(|store| history::undo(store, &event, &why, person.by(&at)));
            let rows = done.as_ref().map_or(0, |done| done.rows.values().sum::<u64>());
            let mut told = followed(done.map(|done| done.followed))?;
            told.insert(0, format!("{rows} rows stay on record and count no longer."));
            Ok(Outcome { to: "/record".into(), told })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// Makes two names one, and derives anew.
pub(crate) async fn one_name(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let (typed, person) = (filled.clone(), who.clone());
        let merged = page::write(&app, move |store| {
            let [kind, old, new] = ["kind", "old", "new"].map(|field| typed.get(field).trim());
            merge(store, person.by(&now()), typed.get("why"), kind, (old, new))
        })
        .await?;
        let merged = match merged {
            Ok(merged) => merged,
            Err(EntryError::Programme(e @ (record::Error::Unfit { .. } | record::Error::Absent { .. }))) => {
                let faults = [("old".to_string(), e.to_string())];
                let asking = Asking { filled: &filled, faults: &faults };
                let pieces = pieces(&app, &who, asking, same_token(&filled)).await?;
                return Ok(Done::Again(body(&app, &who, Place::of("/record", "Record"), &pieces)));
            }
            Err(other) => return Err(other.into()),
        };
        let person = who.clone();
        let to = jobs::begin(&app, &who, "Making two names one", move |app, job| {
            job.step("Deriving results and verdicts")?;
            let at = now();
            let watch: record::by::Watch = &|words| job.goes_on(words);
            let done = app.record.write_now(|store| work::follow(store, person.by(&at), watch));
            let mut told = vec![format!("{} rows read by the new name.", merged.corrected)];
            told.extend(followed(done)?);
            Ok(Outcome { to: "/record".into(), told })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

fn acts(events: &[Event], undone: &[Undone]) -> Listing {
    let row = |e: &Event| {
        let mut why = e.json["body"]["why"].as_str().unwrap_or_default().to_string();
        if let Some(u) = undone.iter().find(|u| u.undone_event == e.number) {
            why += &format!("{}taken back by act {}: {}", if why.is_empty() { "" } else { "; " }, u.event, u.why);
        }
        let tables = e.json["tables"]
            .as_object()
            .map_or(String::new(), |t| t.keys().map(|k| k.replace('_', " ")).collect::<Vec<_>>().join(", "));
        vec![
            number(e.number.to_string()),
            td(e.kind.clone()),
            td(e.author.clone()),
            td(moment(&e.at)),
            td(tables),
            td(why),
            td(e.hash.to_string().chars().take(16).collect::<String>()),
        ]
    };
    Listing {
        caption: format!("The newest acts, at most {ACTS}"),
        headings: heads(&["No.", "Act", "Author", "When", "Rows of", "Reason", "Hash begins"]),
        rows: events.iter().rev().map(row).collect(),
        empty: "Nothing was done yet.",
        ..Listing::default()
    }
}

fn checks(rules: &[record::model::CheckRule]) -> Listing {
    let row = |r: &record::model::CheckRule| {
        let limit = r.limit_value.map_or(String::new(), |l| {
            format!("{} {}", quantity::format::significant_trimmed(l, 4), r.limit_unit.clone().unwrap_or_default())
        });
        vec![
            td(r.check_name.clone()),
            td(r.weight.word()),
            number(limit),
            number(r.revision.to_string()),
            td(r.why.clone().unwrap_or_default()),
        ]
    };
    Listing {
        caption: "The newest revision of each rule".into(),
        headings: heads(&["Check", "Weight", "Limit", "Revision", "Reason"]),
        rows: rows_of(rules).map(row).collect(),
        empty: "There is no rule.",
        ..Listing::default()
    }
}

/// Profiles of checks, and which of them judges what.
fn profiles(store: &record::store::Store) -> Result<Vec<Piece>, HttpError> {
    let (all, standing) = (programme::profiles::listed(store)?, programme::profiles::standing(store)?);
    let row = |p: &programme::profiles::Profile| {
        let from = if p.on_record { "on record" } else { "of this version, not chosen" };
        vec![
            td(p.name.clone()),
            td(p.basis.word()),
            number(p.rules.len().to_string()),
            td(from),
            td(p.why.clone().unwrap_or_default()),
        ]
    };
    let of_profiles = Listing {
        caption: "Profiles of checks".into(),
        headings: heads(&["Profile", "Judges", "Rules", "", "Reason"]),
        rows: all.iter().map(row).collect(),
        empty: "There is none.",
        ..Listing::default()
    };
    let row = |s: &programme::profiles::Standing| {
        let c = &s.choice;
        vec![
            td(c.profile.clone().unwrap_or_else(|| "the table of checks".into())),
            td(c.laboratory.clone().unwrap_or_else(|| "any".into())),
            td(c.analyte.clone().unwrap_or_else(|| "any".into())),
            number(s.results.to_string()),
            td(c.person.clone().unwrap_or_default()),
            td(c.why.clone()),
        ]
    };
    let choices = Listing {
        caption: "Which profile judges which results".into(),
        headings: heads(&["Judged by", "Laboratory", "Analyte", "Results", "Chosen by", "Because"]),
        rows: standing.iter().map(row).collect(),
        empty: "Nobody chose one: the rules above judge everything.",
        ..Listing::default()
    };
    let words = html! {
        h2 { "Profiles of checks" }
        p { "Rules for results that were come by in another way than by counts: of laboratories, of meters. A result that a profile accepts says so wherever its verdict is shown. " code { "limpid profiles" } " shows their rules; there a lead chooses and edits them." }
    };
    Ok(vec![words.into(), of_profiles.into(), choices.into()])
}

/// Checks of this version that the programme's table does not name; what they find moves no verdict.
fn untaken(rules: &Rules) -> Markup {
    let names = rules.untaken();
    if names.is_empty() {
        return html! {};
    }
    html! {
        p.caution { (message::Spoken::text(&message::method::Untaken { checks: message::count(names.len()) })) " " code { "limpid checks" } " shows their rules beside the programme’s own; a lead takes them in there, or one by one here." }
        ul { @for check in names { li { code { (check.text()) } " " (check.about()) } } }
    }
}

fn rows_of(rules: &[record::model::CheckRule]) -> impl Iterator<Item = &record::model::CheckRule> {
    let mut sorted: Vec<_> = rules.iter().collect();
    sorted.sort_by(|a, b| a.check_name.cmp(&b.check_name));
    sorted.into_iter()
}

/// Compares every stored value with its digest, and derives every result anew.
pub(crate) async fn verify(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let typed = filled.get("noted").trim().to_string();
        let noted = match typed.as_str() {
            "" => None,
            text => match text.parse::<EventHash>() {
                Ok(hash) => Some(hash),
                Err(e) => {
                    let faults = [("noted".to_string(), e)];
                    let asking = Asking { filled: &filled, faults: &faults };
                    let pieces = pieces(&app, &who, asking, same_token(&filled)).await?;
                    return Ok(Done::Again(body(&app, &who, Place::of("/record", "Record"), &pieces)));
                }
            },
        };
        let to = jobs::begin(&app, &who, "Verifying the record", move |app, job| {
            job.step("Comparing every stored value with its digest, and deriving every result anew")?;
            let watch = |words: &str| job.goes_on(words);
            let found = app.record.read_now(|store| verify_watched(store, noted, &watch))?;
            let mut told = found.in_words();
            let n = found.rows.differences.len() + found.derived.len();
            match found.answer() {
                Answer::Altered => told.insert(0, format!("{n} differences: the record is not what it was.")),
                Answer::NotDerived => {
                    told.insert(0, format!("Every stored value is what it was; {n} derived ones come out otherwise."));
                }
                Answer::Intact => told.push(format!(
                    "{} events: every stored value and every derivation is what it was.",
                    found.rows.events
                )),
            }
            Ok(Outcome { to: "/record".into(), told })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// A file as it came.
pub(crate) async fn file(State(app): State<Shared>, _: Who, Path(id): Path<i64>) -> Result<Response, HttpError> {
    let (name, bytes) = page::read(&app, move |store, _| {
        let found = store.list::<RawFile>(&Filter::all().is("id", id))?.pop();
        let file = found.ok_or_else(|| HttpError::absent("There is no such file in the programme."))?;
        if file.size > 256 << 20 {
            return Err(HttpError::refused("The file is too large for a page; it stands whole in the programme."));
        }
        let mut bytes = vec![];
        store.write_raw_file(id, &mut bytes)?;
        Ok((file.name, bytes))
    })
    .await?;
    // Whatever it holds, a browser keeps it as a file and does not open it.
    let plain: String = name.chars().filter(|c| c.is_ascii_alphanumeric() || ".-_ ".contains(*c)).collect();
    let headers = [
        (header::CONTENT_TYPE, "application/octet-stream".to_string()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{plain}\"")),
    ];
    Ok((headers, bytes).into_response())
}
