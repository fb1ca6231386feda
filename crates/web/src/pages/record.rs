//! The record itself: who did what, when and why, in sentences; the rules of the checks; people; whole files as they came.

use super::case::followed;
use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, body, number, respond, td};
use crate::forms::{Asking, Done, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Outcome};
use crate::moment::now;
use crate::page::{self, Place};
use crate::written::{moment, quoted, size, spoken, written};
use assessment::verdict::Rules;
use assessment::verify::{Answer, verify_watched};
use assessment::witnesses::Asked;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use intake::one_name::{KINDS, merge};
use maud::{Markup, html};
use message::{Message, Spoken as _, count, older, web_record as says};
use programme::history::{self, Done as Act, SHOWN_OF_A_HASH};
use programme::work;
use quantity::format::capital;
use record::model::{CheckRule, Person, RawFile};
use record::store::{EventHash, Filter, Store};
use record::words::Weight;

/// Acts of people on one page.
const ACTS: usize = 25;

/// Files that stand open; the others are folded.
const FILES: usize = 12;

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let nothing = Asking { filled: &Filled::default(), faults: &[] };
    let seen = Seen {
        before: q.get("before").and_then(|n| n.parse::<i64>().ok()),
        all_rules: q.get("rules").is_some_and(|r| r == "all"),
    };
    let pieces = pieces(&app, &who, seen, nothing, token_field(&app, &who)).await?;
    respond(&app, &who, place(&who, &says::Title.text()), &q, &pieces)
}

/// What of the page is asked for: acts before one, all rules or those that decide.
#[derive(Clone, Copy, Default)]
struct Seen {
    before: Option<i64>,
    all_rules: bool,
}

fn place<'t>(who: &Who, title: &'t str) -> Place<'t> {
    Place::of("/record", title).spoken(who)
}

async fn pieces(
    app: &Shared,
    who: &Who,
    seen: Seen,
    asking: Asking<'_>,
    token: Markup,
) -> Result<Vec<Piece>, HttpError> {
    let pieces = page::read(app, move |store, _| {
        let acts = history::acts(store)?;
        let rules = store.check_rules()?;
        let known = Rules::new(rules.clone());
        let mut out: Vec<Piece> = vec![
            acts_of_people(&acts, seen.before).into(),
            files(store)?.into(),
            html! {
                h2 #rules { (says::Rules.text()) }
                p { (says::RulesWhat.text()) }
                @for name in known.unknown() { p.caution { (says::RuleUnknown.text()) " " code { (name) } } }
                (untaken(&known))
            }
            .into(),
            checks(&rules, seen.all_rules).into(),
        ];
        out.extend(profiles(store)?);
        out.push(people(&store.list::<Person>(&Filter::all())?).into());
        let head = store.head()?.map(|h| h.to_string());
        out.push(
            html! {
                p.quiet { (says::Head.text()) ": " @match &head { Some(h) => { code { (h) } } None => { (says::NoHead.text()) } } br; (says::HeadWhat.text()) }
            }
            .into(),
        );
        Ok(out)
    })
    .await?;
    let [noted, noted_what] = [says::Noted.text(), says::NotedWhat.text()];
    let noted = Field { name: "noted", words: &noted, hint: &noted_what };
    let head = html! {
        h1 { (says::Title.text()) }
        p { (says::What.text()) }
        p.acts {
            @if who.may(Role::Sampler) { a href="/enter/person?to=%2Frecord" { (says::EnterPerson.text()) } " " }
            @if who.may(Role::Analyst) { a href="/enter/laboratory_quality?to=%2Frecord" { (says::EnterQuality.text()) } " " }
            @if who.may(Role::Lead) { a href="/enter/check_rule?to=%2Frecord" { (says::ChangeRule.text()) } " " }
            (super::accounts::link(who)) " "
            a href="/report?what=backup#make" { (says::Copy.text()) }
        }
        @if who.may(Role::Lead) { (undo_form(&asking, &token)) (one_name_form(&asking, &token)) }
        details.act open[asks(&asking, &["noted"])] {
            summary { (says::Verify.text()) }
            form method="post" action="/record/verify" {
                (token)
                @if asks(&asking, &["noted"]) { (asking.all_faults()) }
                (asking.line(noted))
                button type="submit" { (says::VerifyDo.text()) }
                p.hint { (says::VerifyWhat.text()) }
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
    let [act, act_what, reason, kept] =
        [says::UndoAct.text(), says::UndoActWhat.text(), says::Reason.text(), says::Kept.text()];
    html! {
        details.act open[asks(asking, &UNDOING)] {
            summary { (says::Undo.text()) }
            form method="post" action="/record/undo" {
                (token)
                @if asks(asking, &UNDOING) { (asking.all_faults()) }
                (asking.line(Field { name: "event", words: &act, hint: &act_what }))
                (asking.line(Field { name: "why", words: &reason, hint: &kept }))
                button type="submit" { (says::UndoIt.text()) }
                p.hint { (says::UndoWhat.text()) }
            }
        }
    }
}

/// A word of the record by its key in the catalogue of these pages; where there is none, as it is written.
fn word(group: &str, key: &str) -> Markup {
    match Message::named("web_record", &format!("{group}-{key}")) {
        Some(m) => html! { (m.text()) },
        None => written(key),
    }
}

/// Two names that are one: what they are of, the old one, the one that stays.
fn one_name_form(asking: &Asking<'_>, token: &Markup) -> Markup {
    let in_words =
        |kind: &str| Message::named("web_record", &format!("kind-{kind}")).map_or_else(|| kind.into(), |m| m.text());
    let kinds: Vec<(&str, String)> = KINDS.iter().map(|kind| (*kind, in_words(kind))).collect();
    let kinds: Vec<(&str, &str)> = kinds.iter().map(|(kind, words)| (*kind, words.as_str())).collect();
    let texts = [says::OneNameKind.text(), says::OneNameOld.text(), says::OneNameOldWhat.text()];
    let [new, why, kept] = [says::OneNameNew.text(), says::Reason.text(), says::Kept.text()];
    let field = |name, words, hint| Field { name, words, hint };
    html! {
        details.act open[asks(asking, &["old"])] {
            summary { (says::OneName.text()) }
            form method="post" action="/record/one-name" {
                (token)
                @if asks(asking, &["old"]) { (asking.all_faults()) }
                (asking.choice(field("kind", &texts[0], ""), &kinds))
                (asking.line(field("old", &texts[1], &texts[2])))
                (asking.line(field("new", &new, "")))
                (asking.prose(field("why", &why, &kept)))
                button type="submit" { (says::OneNameDo.text()) }
            }
        }
    }
}

/// The page with what was typed and what is wrong with it.
async fn again(app: &Shared, who: &Who, asking: Asking<'_>, filled: &Filled) -> Result<Done, HttpError> {
    let pieces = pieces(app, who, Seen::default(), asking, same_token(filled)).await?;
    Ok(Done::Again(body(app, who, place(who, &says::Title.text()), &pieces)))
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
            return again(&app, &who, asking, &filled).await;
        }
        let person = who.clone();
        let to = jobs::begin(&app, &who, &says::TakingBack { act: event.as_str().into() }.text(), move |app, job| {
            job.step(&says::Keeping.text())?;
            let at = now();
            let done = app.record.write_now(|store| history::undo(store, &event, &why, person.by(&at)));
            let rows = done.as_ref().map_or(0, |done| done.rows.values().sum::<u64>());
            let mut told = followed(done.map(|done| done.followed))?;
            told.insert(0, says::RowsStay { n: i64::try_from(rows).unwrap_or(i64::MAX) }.text());
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
                return again(&app, &who, asking, &filled).await;
            }
            Err(other) => return Err(other.into()),
        };
        let person = who.clone();
        let to = jobs::begin(&app, &who, &says::MakingOne.text(), move |app, job| {
            job.step(&says::Deriving.text())?;
            let at = now();
            let watch: record::by::Watch = &|words| job.goes_on(words);
            let done = app.record.write_now(|store| work::follow(store, person.by(&at), watch));
            let mut told = vec![says::RowsRenamed { n: i64::try_from(merged.corrected).unwrap_or(i64::MAX) }.text()];
            told.extend(followed(done)?);
            Ok(Outcome { to: "/record".into(), told })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// What people did, newest first: who did what, when, why; what the program derived of it is counted behind it.
fn acts_of_people(acts: &[Act], before: Option<i64>) -> Markup {
    // Each act with how many derived ones follow it until the next.
    let mut people: Vec<(&Act, usize)> = vec![];
    for act in acts {
        match people.last_mut().filter(|_| act.derived) {
            Some((_, derived)) => *derived += 1,
            None => people.push((act, 0)),
        }
    }
    let all = people.len();
    let shown: Vec<&(&Act, usize)> =
        people.iter().rev().filter(|(a, _)| before.is_none_or(|n| a.event < n)).take(ACTS).collect();
    let last = shown.last().map(|(a, _)| a.event);
    let older = last.filter(|n| people.first().is_some_and(|(a, _)| a.event < *n));
    html! {
        h2 #acts { (says::Acts { n: count(all) }.text()) }
        @if all == 0 { p.quiet { (says::Nothing.text()) } } @else {
            p.quiet { (says::Sorted.text()) " " (says::Shown { shown: count(shown.len()), of: count(all) }.text()) }
            ol.events { @for (act, derived) in shown { (event(act, *derived)) } }
        }
        p.acts {
            @if before.is_some() { a href="/record#acts" { (says::Newest.text()) } " " }
            @if let Some(n) = older { a href=(format!("/record?before={n}#acts")) { (says::Older.text()) } }
        }
    }
}

fn event(act: &Act, derived: usize) -> Markup {
    let (did, known) = did(act);
    let hash: String = act.hash.chars().take(SHOWN_OF_A_HASH).collect();
    let rows: Vec<(&String, &u64)> = act.rows.iter().collect();
    html! {
        li {
            p { strong { (did) } @if !known { " " (written(&act.act)) } " " span.quiet { (moment(&act.at)) } }
            @if !act.files.is_empty() {
                @if act.files.len() <= FILES { p { (names(&act.files)) } }
                @else { details { summary { (says::Files { n: count(act.files.len()) }.text()) } p { (names(&act.files)) } } }
            }
            @if let Some(why) = act.why.as_deref().filter(|w| !w.is_empty()) { p { (says::Reason.text()) ": " (quoted(why)) } }
            @if let Some((event, why)) = &act.undone {
                p.caution { (says::TakenBack { event: *event }.text()) ": " (quoted(why)) }
            }
            p.quiet {
                small {
                    (says::Number { number: act.event }.text())
                    @if !rows.is_empty() {
                        " · " (says::Wrote.text()) ": "
                        @for (n, (table, rows)) in rows.iter().enumerate() { @if n > 0 { ", " } (word("table", table)) " " (rows) }
                    }
                    @if derived > 0 { " · " (says::Derived { n: count(derived) }.text()) }
                    " · " (says::HashBegins.text()) " " code { (hash) }
                }
            }
        }
    }
}

fn names(files: &[String]) -> Markup {
    html! { @for (n, file) in files.iter().enumerate() { @if n > 0 { ", " } (written(file)) } }
}

/// Who did what; whether there is a sentence for it.
fn did(act: &Act) -> (String, bool) {
    let (who, n) = (message::Name::from(act.author.as_str()), count(act.files.len()));
    let says: Message = match act.act.as_str() {
        "new programme" => says::DidNewProgramme { who }.into(),
        "import" => says::DidImport { who, n }.into(),
        "entry" => says::DidEntry { who }.into(),
        "correction" | "change" => says::DidCorrection { who }.into(),
        "exclusion" => says::DidExclusion { who }.into(),
        "taken back" => says::DidTakenBack { who }.into(),
        "sign-off" => says::DidSignOff { who }.into(),
        "key" => says::DidKey { who }.into(),
        "key ended" => says::DidKeyEnd { who }.into(),
        "signature" => says::DidSignature { who }.into(),
        "anchor" => says::DidAnchor { who }.into(),
        "settlement" => says::DidSettlement { who }.into(),
        "statement" => says::DidStatement { who }.into(),
        "mapping" => says::DidMapping { who }.into(),
        "names made one" => says::DidNamesMadeOne { who }.into(),
        "request to a laboratory" => says::DidRequestToALaboratory { who }.into(),
        "blind labels opened" => says::DidBlindLabelsOpened { who }.into(),
        "checks taken in" => says::DidChecksTakenIn { who }.into(),
        "table of checks changed" => says::DidTableOfChecksChanged { who }.into(),
        "profile of checks made" => says::DidProfileOfChecksMade { who }.into(),
        "profile of checks changed" => says::DidProfileOfChecksChanged { who }.into(),
        "profile of checks chosen" => says::DidProfileOfChecksChosen { who }.into(),
        "undo" => says::DidUndo { who }.into(),
        _ => return (says::DidOther { who }.text(), false),
    };
    (says.text(), true)
}

/// Who is on record, each with what was said of them and the way to correct it.
fn people(all: &[Person]) -> Markup {
    html! {
        h2 #people { (says::People.text()) }
        @if all.is_empty() { p.quiet { (says::NoPeople.text()) } }
        ul {
            @for p in all {
                li { (p.name) " " (quoted(p.role.as_deref().unwrap_or_default())) " "
                    a href=(format!("/correct/person/{}?to=%2Frecord", p.id)) { (says::Correct.text()) } }
            }
        }
    }
}

/// Every file as it came, the newest first, each to be taken home.
fn files(store: &Store) -> Result<Markup, HttpError> {
    let all = store.list::<RawFile>(&Filter::all())?;
    let one = |f: &RawFile| {
        html! { li { a.as-written href=(format!("/record/file/{}", f.id)) { (f.name) } " " span.quiet { (size(f.size)) @if let Some(rows) = f.rows { ", " (says::FileRows.text()) " " (rows) } } } }
    };
    let newest: Vec<&RawFile> = all.iter().rev().collect();
    let (open, folded) = newest.split_at(newest.len().min(FILES));
    Ok(html! {
        h2 #files { (says::Files { n: count(all.len()) }.text()) }
        @if all.is_empty() { p.quiet { (says::NoFiles.text()) } }
        ul.files { @for f in open { (one(f)) } }
        @if !folded.is_empty() {
            details { summary { (message::web_files::AndMore { n: count(folded.len()) }.text()) } ul.files { @for f in folded { (one(f)) } } }
        }
    })
}

/// The rules that decide, or all.
fn checks(rules: &[CheckRule], all: bool) -> Listing {
    let row = |r: &CheckRule| {
        let limit = r.limit_value.map_or(String::new(), |l| {
            let unit = r.limit_unit.as_deref().filter(|u| *u != "1").unwrap_or_default();
            spoken(format!("{} {unit}", quantity::format::significant_trimmed(l, 4)).trim_end())
        });
        let why = r.why.clone().unwrap_or_default();
        let check =
            Message::named("web_check", &r.check_name).map_or_else(|| written(&r.check_name), |m| html! { (m.text()) });
        let weight = word("weight", r.weight.word());
        vec![
            Td { shown: check, ..td(r.check_name.clone()) },
            Td { shown: weight, ..td(r.weight.word()) },
            number(limit),
            number(r.revision.to_string()),
            Td { shown: quoted(&why), ..td(why) },
        ]
    };
    let of = count(rules.len());
    let whole = says::NRules { n: of }.text();
    let shown: Vec<&CheckRule> = rows_of(rules).filter(|r| all || r.weight == Weight::Decisive).collect();
    Listing {
        caption: if all { whole.clone() } else { says::Shown { shown: count(shown.len()), of }.text() },
        headings: vec![
            says::Check.text(),
            says::Weight.text(),
            says::Limit.text(),
            says::Revision.text(),
            says::Reason.text(),
        ],
        rows: shown.into_iter().map(row).collect(),
        foot: (!all).then(|| html! { a href="/record?rules=all#rules" { (whole) } }),
        ..Listing::default()
    }
}

/// Profiles of checks, and which of them judges what.
fn profiles(store: &Store) -> Result<Vec<Piece>, HttpError> {
    let (all, standing) = (programme::profiles::listed(store)?, programme::profiles::standing(store)?);
    let person = |text: &str| Td { shown: quoted(text), ..td(text) };
    let row = |p: &programme::profiles::Profile| {
        let state = if p.on_record { says::OnRecord.text() } else { says::NotChosen.text() };
        vec![
            Td { shown: written(&p.name), ..td(p.name.clone()) },
            Td { shown: word("basis", p.basis.word()), ..td(p.basis.word()) },
            number(p.rules.len().to_string()),
            td(state),
            person(p.why.as_deref().unwrap_or_default()),
        ]
    };
    let of_profiles = Listing {
        caption: says::Profiles.text(),
        headings: vec![
            says::Profile.text(),
            says::Judges.text(),
            says::RulesShort.text(),
            says::State.text(),
            says::Reason.text(),
        ],
        rows: all.iter().map(row).collect(),
        ..Listing::default()
    };
    let row = |s: &programme::profiles::Standing| {
        let c = &s.choice;
        let by = match &c.profile {
            Some(profile) => Td { shown: written(profile), ..td(profile.clone()) },
            None => td(says::TableOfChecks.text()),
        };
        let or_any = |name: &Option<String>| {
            name.clone().map_or_else(|| td(says::Any.text()), |n| Td { shown: written(&n), ..td(n) })
        };
        vec![
            by,
            or_any(&c.laboratory),
            or_any(&c.analyte),
            number(s.results.to_string()),
            td(c.person.clone().unwrap_or_default()),
            person(&c.why),
        ]
    };
    let choices = Listing {
        caption: says::Choices.text(),
        headings: [says::JudgedBy.text(), says::Laboratory.text(), says::Analyte.text(), says::Results.text()]
            .into_iter()
            .chain([says::ChosenBy.text(), says::Because.text()])
            .collect(),
        rows: standing.iter().map(row).collect(),
        ..Listing::default()
    };
    let head = html! { h2 #profiles { (says::Profiles.text()) } p { (says::ProfilesWhat.text()) } };
    let none = standing.is_empty().then(|| Piece::from(html! { p.quiet { (says::NoChoice.text()) } }));
    let listed = if of_profiles.rows.is_empty() {
        html! { p.quiet { (says::NoProfile.text()) } }.into()
    } else {
        of_profiles.into()
    };
    Ok([Piece::from(head), listed].into_iter().chain([none.unwrap_or_else(|| choices.into())]).collect())
}

/// Checks of this version that the programme's table does not name; what they find moves no verdict.
fn untaken(rules: &Rules) -> Markup {
    let names = rules.untaken();
    if names.is_empty() {
        return html! {};
    }
    let of = |check: &quantity::Check| Message::named("web_check", check.text());
    html! {
        p.caution { (message::method::Untaken { checks: count(names.len()) }.text()) " " (says::UntakenHow.text()) }
        ul { @for check in &names { li { @match of(check) { Some(m) => { (m.text()) } None => { (written(check.text())) } } } } }
    }
}

/// Decisive ones first, each weight by name.
fn rows_of(rules: &[CheckRule]) -> impl Iterator<Item = &CheckRule> {
    let mut sorted: Vec<&CheckRule> = rules.iter().collect();
    let place = |w: Weight| [Weight::Decisive, Weight::Warning, Weight::Note].iter().position(|x| *x == w);
    sorted.sort_by(|a, b| (place(a.weight), &a.check_name).cmp(&(place(b.weight), &b.check_name)));
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
                    return again(&app, &who, asking, &filled).await;
                }
            },
        };
        let to = jobs::begin(&app, &who, &says::Verifying.text(), move |app, job| {
            job.step(&says::Comparing.text())?;
            let watch = |words: &str| job.goes_on(words);
            let found = app.record.read_now(|store| {
                let now = now();
                let asked = Asked { noted, now: Some(&now), ..Asked::default() };
                verify_watched(store, &asked, &watch)
            })?;
            let mut told: Vec<String> = found.in_words().iter().map(|line| older(line)).collect();
            let n = count(found.rows.differences.len() + found.derived.len());
            match found.answer() {
                Answer::Altered => told.insert(0, says::Altered { n }.text()),
                Answer::NotDerived => told.insert(0, says::NotDerived { n }.text()),
                Answer::Intact => {
                    told.push(says::Intact { n: i64::try_from(found.rows.events).unwrap_or(i64::MAX) }.text());
                }
            }
            told.extend(found.witnesses.messages().iter().map(message::Spoken::text));
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
