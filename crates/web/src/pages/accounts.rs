//! Who may come in: accounts made, changed and taken away by the lead. They stand beside the programme, never in it; what
//! is shown here is names and roles.

use crate::app::Shared;
use crate::auth::access_log::{Act, Event};
use crate::auth::accounts::{AccountError, Role, SHORTEST, Unfit};
use crate::auth::guard::address;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, csv, csv_file, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::Place;
use crate::pages::own_account;
use crate::written::moment;
use axum::Form;
use axum::extract::{ConnectInfo, Query as FromQuery, State};
use axum::http::HeaderMap;
use axum::response::Response;
use maud::{Markup, html};
use message::{Spoken, web_door as door, web_places as says};
use std::net::SocketAddr;

/// The roles with what each may.
fn roles() -> [(&'static str, String); 4] {
    [
        ("reader", says::RoleReader.text()),
        ("sampler", says::RoleSampler.text()),
        ("analyst", says::RoleAnalyst.text()),
        ("lead", says::RoleLead.text()),
    ]
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let empty = Filled(vec![("role".into(), if app.accounts.is_empty() { "lead" } else { "sampler" }.into())]);
    let asking = Asking { filled: &empty, faults: &[] };
    let pieces = pieces(&app, &who, asking, &token_field(&app, &who));
    respond(&app, &who, Place::of("/record", &says::Accounts.text()), &q, &pieces)
}

fn pieces(app: &Shared, who: &Who, asking: Asking, token: &Markup) -> Vec<Piece> {
    let all = app.accounts.all();
    let number = if who.session { who.bound.as_str() } else { "" };
    let sessions = app.sessions.listed(None, number);
    let row = |a: &crate::auth::accounts::Account| {
        let mut last = td("");
        last.shown = html! {
            @if a.name == who.person { span.quiet { (says::Yourself.text()) } }
            @else { form.inline method="post" action="/record/accounts/remove" {
                (token_field(app, who))
                input type="hidden" name="name" value=(a.name);
                button.plain type="submit" aria-label=(says::TakeAwayOf { who: a.name.as_str().into() }.text()) { (says::TakeAway.text()) }
            } }
        };
        let mut second = td(if a.has_second() { door::Yes.text() } else { door::No.text() });
        if a.has_second() && a.name != who.person {
            second.shown = html! {
                (door::Yes.text()) " "
                form.inline method="post" action="/record/accounts/second" {
                    (token_field(app, who))
                    input type="hidden" name="name" value=(a.name);
                    button.plain type="submit" aria-label=(door::SecondTakeOf { who: a.name.as_str().into() }.text()) { (door::SecondTake.text()) }
                }
            };
        }
        vec![td(a.name.clone()), td(a.role.called()), second, last]
    };
    let listing = Listing {
        caption: says::AccountsWho.text(),
        headings: vec![says::Name.text(), says::Role.text(), door::SecondColumn.text(), String::new()],
        rows: all.iter().map(row).collect(),
        ..Listing::default()
    };
    let field = |name, words, hint| Field { name, words, hint };
    let hint = says::PasswordHint { n: message::count(SHORTEST) }.text();
    let words = [says::Name.text(), says::AccountName.text(), says::Role.text(), says::Password.text()];
    let known = roles();
    let roles: Vec<(&str, &str)> = known.iter().map(|(code, words)| (*code, words.as_str())).collect();
    let form = html! {
        h2 { (says::AccountForm.text()) }
        @if all.is_empty() { p.caution { (says::AccountFirst.text()) } }
        @else { p.quiet { (says::AccountEnds.text()) } }
        (asking.all_faults())
        form method="post" action="/record/accounts" {
            (token)
            (asking.line(field("name", &words[0], &words[1])))
            (asking.choice(field("role", &words[2], ""), &roles))
            (asking.secret(field("password", &words[3], &hint)))
            button type="submit" { (says::Keep.text()) }
        }
    };
    vec![
        html! { h1 { (says::Accounts.text()) } p { (says::AccountsWhere.text()) } }.into(),
        listing.or(says::AccountsNone.text()),
        form.into(),
        own_account::listing(app, who, &sessions, &door::SessionsOfAll.text()),
        html! { h2 #log { (door::Log.text()) } p { (door::LogWhere.text()) " " a href="/record/accounts/log" { (door::LogCsv.text()) } } }.into(),
        newest(app),
    ]
}

/// Events of the log that stand on the page.
const NEWEST: usize = 30;

fn newest(app: &Shared) -> Piece {
    // A log that cannot be read keeps nobody from the accounts: the page of the whole log says why.
    let events = app.log.newest(NEWEST).unwrap_or_default();
    let row = |e: &Event| {
        let what = match e.role {
            Some(role) => door::ActWithRole { act: e.act.words(), role: role.called().into() }.text(),
            None => e.act.words().text(),
        };
        vec![td(moment(&e.at)), td(e.who.clone()), td(what), td(e.whom.clone()), td(e.from.clone())]
    };
    let headings = vec![
        door::LogAt.text(),
        door::LogWho.text(),
        door::LogWhat.text(),
        door::LogWhom.text(),
        door::SessionFrom.text(),
    ];
    let rows = events.iter().map(row).collect();
    Listing { caption: door::Log.text(), headings, rows, ..Listing::default() }.or(door::LogNone.text())
}

/// The whole log, as CSV: moments and acts as the file has them, for machines.
pub(crate) async fn log(State(app): State<Shared>, who: Who) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let asked = app.clone();
    let events = tokio::task::spawn_blocking(move || asked.log.all()).await;
    let events = events.map_err(|e| HttpError::outside(e.to_string()))??;
    let row = |e: Event| {
        let act = serde_json::to_value(e.act).ok().and_then(|a| a.as_str().map(str::to_string)).unwrap_or_default();
        let role = e.role.map_or("", Role::word).to_string();
        vec![e.at, e.who, act, e.whom, role, e.from]
    };
    let headings = ["at", "who", "act", "whom", "role", "from"].map(str::to_string);
    Ok(csv_file("access-log", csv(&headings, events.into_iter().map(row))?))
}

/// Takes another's second factor away: a lost telephone must not keep a person out.
pub(crate) async fn end_second(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let name = filled.get("name");
        app.accounts.set_second(name, None).map_err(|e| HttpError::refused(e.to_string()))?;
        kept(&app, &who, peer, &headers, |e| e.to(name, None), Act::RemovedCode);
        Ok(Done::To("/record/accounts".into()))
    })
    .await
}

/// Writes an act into the log.
fn kept(app: &Shared, who: &Who, peer: SocketAddr, headers: &HeaderMap, to: impl FnOnce(Event) -> Event, act: Act) {
    app.log.keep(&to(Event::now(&who.person, &address(app, peer, headers).to_string(), act)));
}

/// Adds or changes one.
pub(crate) async fn set(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let role = filled.get("role").parse::<Role>();
        let mut faults: Vec<Fault> = vec![];
        match role {
            Err(words) => faults.push(("role".into(), words)),
            Ok(role) if role < Role::Lead && (app.accounts.is_empty() || filled.get("name") == who.person) => {
                let words = door::MustBeLead.text();
                faults.push(("role".into(), words));
            }
            Ok(role) => {
                let (asked, typed) = (app.clone(), filled.clone());
                // Hashing takes memory on purpose.
                let _turn = app.throttle.turn(true).await;
                let set = tokio::task::spawn_blocking(move || {
                    asked.accounts.set(typed.get("name"), role, typed.get("password"))
                });
                match set.await.map_err(|e| HttpError::outside(e.to_string()))? {
                    Ok(()) => {
                        let to = |e: Event| e.to(filled.get("name"), Some(role));
                        kept(&app, &who, peer, &headers, to, Act::SetAccount);
                        return Ok(Done::To("/record/accounts".into()));
                    }
                    Err(AccountError::Unfit { what, why }) => {
                        let name = if what == Unfit::Password { "password" } else { "name" };
                        faults.push((name.into(), why.text()));
                    }
                    Err(other) => return Err(HttpError::outside(other.to_string())),
                }
            }
        }
        let asking = Asking { filled: &filled, faults: &faults };
        let pieces = pieces(&app, &who, asking, &same_token(&filled));
        Ok(Done::Again(body(&app, &who, Place::of("/record", &says::Accounts.text()), &pieces)))
    })
    .await
}

/// Takes one away.
pub(crate) async fn remove(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let name = filled.get("name");
        if name == who.person {
            return Err(HttpError::refused(door::NotOneself.text()));
        }
        if app.accounts.remove(name).map_err(|e| HttpError::outside(e.to_string()))? {
            kept(&app, &who, peer, &headers, |e| e.to(name, None), Act::RemovedAccount);
        }
        Ok(Done::To("/record/accounts".into()))
    })
    .await
}

/// A link to the page, for those who may.
pub(crate) fn link(who: &Who) -> Markup {
    html! { @if who.may(Role::Lead) { a href="/record/accounts" { (says::Accounts.text()) } } }
}
