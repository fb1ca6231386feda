//! Coming in and going out; and, where nobody needs to log in, under which name one acts.

use super::access_log::{Act, Event};
use super::accounts::Account;
use super::cookies::cookie;
use super::guard::address;
use super::known;
use super::sessions::{self, From};
use super::throttle::{HeldUp, Try};
use super::who::Who;
use crate::app::Shared;
use crate::forms::{Filled, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, decoded, encoded, own_path};
use axum::Form;
use axum::extract::{ConnectInfo, Query, State};
use axum::http::{HeaderMap, HeaderName, StatusCode, header};
use axum::response::{AppendHeaders, IntoResponse, Redirect, Response};
use maud::{Markup, html};
use message::{Spoken, web_door as door, web_places as says};
use std::collections::HashMap;
use std::net::{IpAddr, SocketAddr};
use std::time::Duration;

/// The login page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Query(q): Query<HashMap<String, String>>,
) -> Result<Response, HttpError> {
    let to = q.get("to").and_then(|t| own_path(t)).unwrap_or("/").to_string();
    Ok(form(&app, &who, &to, "", None).into_response())
}

fn form(app: &Shared, who: &Who, to: &str, name: &str, fault: Option<&str>) -> Markup {
    let (wrong, told) = (fault.map(|_| "true"), fault.map(|_| "login-fault"));
    let class = if fault.is_some() { "field wrong" } else { "field" };
    let body = html! {
        h1 { (says::WhoAreYou.text()) }
        @if let Some(fault) = fault { p.fault role="alert" #login-fault { (fault) } }
        form method="post" action="/login" class="narrow" {
            (token_field(app, who))
            input type="hidden" name="to" value=(to);
            div class=(class) { label for="name" { (says::Name.text()) } input #name name="name" value=(name) autocomplete="username" required aria-invalid=[wrong] aria-describedby=[told]; }
            div class=(class) { label for="password" { (says::Password.text()) } input #password name="password" type="password" autocomplete="current-password" required aria-invalid=[wrong] aria-describedby=[told] autofocus[fault.is_some()]; }
            div class=(class) { label for="code" { (door::Code.text()) } input #code name="code" inputmode="numeric" autocomplete="one-time-code" aria-invalid=[wrong] aria-describedby="code-hint"; p.hint #code-hint { (door::CodeHint.text()) } }
            button type="submit" { (says::ComeIn.text()) }
        }
        p.quiet { (says::AccountsMade.text()) " " code { "limpid account" } "." }
    };
    page::bare(app, who, &says::LogIn.text(), &body)
}

/// How long to wait, in words.
pub(crate) fn wait_words(wait: Duration) -> String {
    let s = wait.as_secs().max(1);
    if s < 100 {
        door::WaitSeconds { n: message::count(s as usize) }.text()
    } else {
        says::TooMany { n: message::count(s.div_ceil(60) as usize) }.text()
    }
}

/// Whether name, password and code are an account's; counted, and held up where that was tried too often.
pub(crate) async fn proven(app: &Shared, from: IpAddr, headers: &HeaderMap, typed: Typed) -> Result<Account, Refused> {
    let Typed { name, password, code } = typed;
    let marks = cookie(headers, &app.cookies.known).unwrap_or_default();
    let account = app.accounts.of(&name);
    let browser = account.as_ref().and_then(|a| known::number(a, &marks));
    let who = Try { name: &name, from, browser };
    app.throttle.begin(who).map_err(Refused::Wait)?;
    let turn = app.throttle.turn(browser.is_some()).await;
    let (asked, known) = (app.clone(), name.clone());
    let proven = tokio::task::spawn_blocking(move || asked.accounts.proven(&known, &password)).await;
    drop(turn);
    let account = proven.ok().flatten().ok_or(Refused::Wrong)?;
    // After the password, so that nobody learns from the time who has a second factor.
    if account.second().is_some_and(|secret| !app.codes.fits(&account.name, secret, &code)) {
        return Err(Refused::Wrong);
    }
    app.throttle.succeeded(who);
    Ok(account)
}

/// What was typed to come in.
pub(crate) struct Typed {
    pub name: String,
    pub password: String,
    pub code: String,
}

/// Why one does not come in.
pub(crate) enum Refused {
    Wait(HeldUp),
    Wrong,
}

/// Where a request comes from, for the list of sessions.
pub(crate) fn from(app: &Shared, peer: SocketAddr, headers: &HeaderMap) -> From {
    let browser = headers.get(header::USER_AGENT).and_then(|v| v.to_str().ok()).unwrap_or_default();
    let browser = browser.chars().filter(|c| !c.is_control()).take(160).collect();
    From { address: address(app, peer, headers).to_string(), browser, at: now() }
}

/// Begins a session: its cookie, and the one that makes the browser known.
pub(crate) fn begin(app: &Shared, account: &Account, from: From, headers: &HeaderMap) -> [(HeaderName, String); 2] {
    let number = app.sessions.begin(account, from);
    let marks = known::with(account, &cookie(headers, &app.cookies.known).unwrap_or_default());
    let cookies = &app.cookies;
    [cookies.set(&cookies.session, &number, SESSION_S), cookies.set(&cookies.known, &marks, known::KEPT_S)]
}

/// Longest session, s: so long its cookie is kept.
const SESSION_S: i64 = sessions::LONGEST.as_secs().cast_signed();

/// A try to come in.
pub(crate) async fn enter(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let name = filled.get("name").to_string();
    let typed = Typed { name: name.clone(), password: filled.get("password").into(), code: filled.get("code").into() };
    let to = own_path(filled.get("to")).unwrap_or("/").to_string();
    let from = from(&app, peer, &headers);
    // A name that is none may be a password in the wrong field: it is not written down.
    let known = if app.accounts.of(&name).is_some() { name.as_str() } else { "" };
    let kept = |act| app.log.keep(&Event::now(known, &from.address, act));
    match proven(&app, address(&app, peer, &headers), &headers, typed).await {
        Ok(account) => {
            kept(Act::CameIn);
            // What the browser had opened before is left.
            app.sessions.end(&cookie(&headers, &app.cookies.session).unwrap_or_default());
            Ok((AppendHeaders(begin(&app, &account, from, &headers)), Redirect::to(&to)).into_response())
        }
        Err(Refused::Wait(HeldUp { wait, first })) => {
            if first {
                kept(Act::HeldUp);
            }
            let page = form(&app, &who, &to, &name, Some(&wait_words(wait)));
            let wait = wait.as_secs().max(1).to_string();
            Ok((StatusCode::TOO_MANY_REQUESTS, [(header::RETRY_AFTER, wait)], page).into_response())
        }
        Err(Refused::Wrong) => {
            kept(Act::Refused);
            let page = form(&app, &who, &to, &name, Some(&door::Wrong.text()));
            Ok((StatusCode::UNAUTHORIZED, page).into_response())
        }
    }
}

/// Going out.
pub(crate) async fn leave(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    app.tokens.check(Filled(fields).get("token"), &who.bound)?;
    app.sessions.end(&cookie(&headers, &app.cookies.session).unwrap_or_default());
    if who.session {
        app.log.keep(&Event::now(&who.person, &address(&app, peer, &headers).to_string(), Act::Left));
    }
    let gone = app.cookies.set(&app.cookies.session, "", 0);
    Ok(([gone], Redirect::to("/login")).into_response())
}

/// The name under which one acts where nobody logs in.
pub(crate) async fn name(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields).with_other_names();
    app.tokens.check(filled.get("token"), &who.bound)?;
    if who.session {
        return Err(HttpError::refused(door::NamedAlready.text()));
    }
    let name: String = filled.get("name").trim().chars().filter(|c| !c.is_control()).take(80).collect();
    if record::store::named(&name).is_err() {
        return Err(HttpError::refused(door::PersonUnfit { found: name.into() }.text()));
    }
    let back = decoded(filled.get("to")).unwrap_or_default();
    let set = app.cookies.until_closed(&app.cookies.name, &encoded(&name));
    Ok(([set], Redirect::to(own_path(&back).unwrap_or("/"))).into_response())
}
