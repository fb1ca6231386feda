//! One's own account: password, sessions, second factor.

use crate::app::Shared;
use crate::auth::access_log::{Act, Event};
use crate::auth::accounts::{Account, AccountError, Role};
use crate::auth::cookies::cookie;
use crate::auth::guard::address;
use crate::auth::login::{self, Refused, Typed, wait_words};
use crate::auth::sessions::Listed;
use crate::auth::throttle::HeldUp;
use crate::auth::totp;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, body, td};
use crate::forms::{Asking, Fault, Field, Filled, token_field};
use crate::http_error::HttpError;
use crate::page::{Place, encoded};
use crate::written::moment;
use axum::Form;
use axum::extract::{ConnectInfo, State};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{AppendHeaders, IntoResponse, Redirect, Response};
use maud::{Markup, html};
use message::{Spoken as _, count, web_door as says, web_places as places};
use std::net::SocketAddr;

/// What stands on the page besides what always does.
#[derive(Default)]
struct Said {
    done: Option<String>,
    faults: Vec<Fault>,
    /// A secret that is being set up.
    secret: Option<String>,
}

/// The page.
pub(crate) async fn show(State(app): State<Shared>, who: Who, headers: HeaderMap) -> Result<Response, HttpError> {
    let own = own(&app, &who)?;
    Ok(page(&app, &who, &own, &headers, &Said::default()).into_response())
}

/// The account of who asks.
fn own(app: &Shared, who: &Who) -> Result<Account, HttpError> {
    let found = who.session.then(|| app.accounts.of(&who.person)).flatten();
    found.ok_or_else(|| HttpError::absent(says::OwnNobody.text()))
}

fn page(app: &Shared, who: &Who, own: &Account, headers: &HeaderMap, said: &Said) -> Markup {
    let number = cookie(headers, &app.cookies.session).unwrap_or_default();
    let sessions = app.sessions.listed(Some(&who.person), &number);
    let title = says::Own.text();
    let others = sessions.iter().any(|s| !s.own);
    let head = html! {
        h1 { (title) }
        p { (says::OwnWho { who: who.person.as_str().into(), role: who.role.called().into() }.text()) }
        @if let Some(done) = &said.done { (crate::forms::strip(done, &[])) }
    };
    let end = html! {
        @if others { form method="post" action="/account/sessions/others" {
            (token_field(app, who))
            button.second type="submit" { (says::SessionsEndOthers.text()) }
        } }
    };
    let pieces: Vec<Piece> = vec![
        head.into(),
        listing(app, who, &sessions, &says::Sessions.text()),
        end.into(),
        password(app, who, own, said).into(),
        second(app, who, own, said).into(),
    ];
    body(app, who, Place::of("", &title), &pieces)
}

/// Sessions, each with what ends it.
pub(crate) fn listing(app: &Shared, who: &Who, sessions: &[Listed], caption: &str) -> Piece {
    let row = |s: &Listed| {
        let mut last = td("");
        let begun = moment(&s.from.at);
        last.shown = html! {
            @if s.own { span.quiet { (says::SessionThis.text()) } }
            @else { form.inline method="post" action="/account/sessions" {
                (token_field(app, who))
                input type="hidden" name="id" value=(s.id);
                button.plain type="submit" aria-label=(says::SessionEndOf { who: s.person.as_str().into(), begun: begun.as_str().into() }.text()) { (says::SessionEnd.text()) }
            } }
        };
        let minutes = says::MinutesAgo { n: count((s.idle.as_secs() / 60) as usize) }.text();
        let (from, browser) = (s.from.address.clone(), s.from.browser.clone());
        vec![td(s.person.clone()), td(begun), td(minutes), td(from), td(browser), last]
    };
    Listing {
        caption: caption.into(),
        headings: vec![
            places::Name.text(),
            says::SessionBegun.text(),
            says::SessionIdle.text(),
            says::SessionFrom.text(),
            says::SessionBrowser.text(),
            String::new(),
        ],
        rows: sessions.iter().map(row).collect(),
        ..Listing::default()
    }
    .or(says::SessionsNone.text())
}

/// The field of a code, where one is asked for.
fn code_field(asking: Asking, own: &Account) -> Markup {
    let (words, hint) = (says::Code.text(), String::new());
    html! { @if own.has_second() { (asking.line(Field { name: "code", words: &words, hint: &hint })) } }
}

fn password(app: &Shared, who: &Who, own: &Account, said: &Said) -> Markup {
    let empty = Filled::default();
    let faults: Vec<Fault> = said.faults.iter().filter(|f| f.0 != "second").cloned().collect();
    let asking = Asking { filled: &empty, faults: &faults };
    let [now, new] = [says::PasswordNow.text(), says::PasswordNew.text()];
    let hint = places::PasswordHint { n: count(crate::auth::accounts::SHORTEST) }.text();
    html! {
        h2 #password { (says::NewPassword.text()) }
        (asking.all_faults())
        form method="post" action="/account/password" {
            (token_field(app, who))
            (asking.secret(Field { name: "now", words: &now, hint: "" }))
            (code_field(asking, own))
            (asking.secret(Field { name: "new", words: &new, hint: &hint }))
            p.hint { (says::PasswordEnds.text()) }
            button type="submit" { (says::Change.text()) }
        }
    }
}

fn second(app: &Shared, who: &Who, own: &Account, said: &Said) -> Markup {
    let empty = Filled::default();
    let faults: Vec<Fault> = said.faults.iter().filter(|f| f.0 == "second").cloned().collect();
    let asking = Asking { filled: &empty, faults: &faults };
    let (words, now) = (says::Code.text(), says::PasswordNow.text());
    html! {
        h2 #second-factor { (says::Second.text()) }
        p { (says::SecondWhat.text()) @if who.role == Role::Lead && !own.has_second() { " " (says::SecondLead.text()) } }
        @if own.has_second() {
            p { strong { (says::SecondIs.text()) } }
            (asking.all_faults())
            form method="post" action="/account/second/end" {
                (token_field(app, who))
                (asking.secret(Field { name: "now", words: &now, hint: "" }))
                (asking.line(Field { name: "second", words: &words, hint: "" }))
                button.second type="submit" { (says::SecondEnd.text()) }
            }
        } @else if let Some(secret) = &said.secret {
            p { (says::SecondKey.text()) }
            p { code { (in_fours(secret)) } }
            p { a href=(link(app, who, secret)) { (says::SecondLink.text()) } }
            (asking.all_faults())
            form method="post" action="/account/second" {
                (token_field(app, who))
                input type="hidden" name="secret" value=(secret);
                input type="hidden" name="mark" value=(app.tokens.seal(&who.bound, secret));
                (asking.secret(Field { name: "now", words: &now, hint: "" }))
                (asking.line(Field { name: "second", words: &words, hint: "" }))
                button type="submit" { (says::SecondConfirm.text()) }
            }
        } @else {
            p { (says::SecondIsNot.text()) }
            form method="post" action="/account/second/begin" {
                (token_field(app, who))
                button type="submit" { (says::SecondBegin.text()) }
            }
        }
    }
}

/// A key as people copy it: four signs and a space.
fn in_fours(secret: &str) -> String {
    let signs: Vec<char> = secret.chars().collect();
    signs.chunks(4).map(|four| four.iter().collect::<String>()).collect::<Vec<_>>().join(" ")
}

/// The address that authenticators open (`otpauth`, common practice; from memory).
fn link(app: &Shared, who: &Who, secret: &str) -> String {
    let (name, person) = (encoded(&app.called().name), encoded(&who.person));
    format!("otpauth://totp/Limpid%20{name}:{person}?secret={secret}&issuer=Limpid%20{name}")
}

/// What proves that it is the owner who asks.
struct Proof<'a> {
    app: &'a Shared,
    who: &'a Who,
    peer: SocketAddr,
    headers: &'a HeaderMap,
}

impl Proof<'_> {
    /// Whether the password, and the code where there is a second factor, are the owner's; else what to say at `field`.
    async fn given(&self, filled: &Filled, code: &str, field: &str) -> Result<(), Vec<Fault>> {
        let typed =
            Typed { name: self.who.person.clone(), password: filled.get("now").into(), code: filled.get(code).into() };
        let from = address(self.app, self.peer, self.headers);
        let fault = |words: String| vec![(field.to_string(), words)];
        match login::proven(self.app, from, self.headers, typed).await {
            Ok(_) => Ok(()),
            Err(Refused::Wait(HeldUp { wait, .. })) => Err(fault(wait_words(wait))),
            Err(Refused::Wrong) => Err(fault(says::PasswordWrong.text())),
        }
    }

    /// The account has changed: this browser goes on in a session of its own, all others end.
    fn goes_on(&self, account: &Account, act: Act, said: &Said) -> Response {
        let from = login::from(self.app, self.peer, self.headers);
        self.app.log.keep(&Event::now(&self.who.person, &from.address, act));
        self.app.sessions.end_others(&self.who.person, "");
        let set = login::begin(self.app, account, from, self.headers);
        // Tokens of the page are bound to the session, which is the new one from here on.
        let number = set[0].1.split_once('=').and_then(|(_, v)| v.split(';').next()).unwrap_or_default().to_string();
        let who = Who { bound: number, ..self.who.clone() };
        let page = page(self.app, &who, account, &HeaderMap::new(), said);
        (AppendHeaders(set), page).into_response()
    }

    fn again(&self, own: &Account, said: &Said) -> Response {
        (StatusCode::UNPROCESSABLE_ENTITY, page(self.app, self.who, own, self.headers, said)).into_response()
    }
}

fn outside(e: &AccountError) -> HttpError {
    HttpError::outside(e.to_string())
}

/// Changes the password.
pub(crate) async fn set_password(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let own = own(&app, &who)?;
    let proof = Proof { app: &app, who: &who, peer, headers: &headers };
    if let Err(faults) = proof.given(&filled, "code", "now").await {
        return Ok(proof.again(&own, &Said { faults, ..Said::default() }));
    }
    let (asked, person, new) = (app.clone(), who.person.clone(), filled.get("new").to_string());
    let _turn = app.throttle.turn(true).await;
    let set = tokio::task::spawn_blocking(move || asked.accounts.set_password(&person, &new)).await;
    match set.map_err(|e| HttpError::outside(e.to_string()))? {
        Ok(account) => {
            let said = Said { done: Some(says::Changed.text()), ..Said::default() };
            Ok(proof.goes_on(&account, Act::ChangedPassword, &said))
        }
        Err(AccountError::Unfit { why, .. }) => {
            Ok(proof.again(&own, &Said { faults: vec![("new".into(), why.text())], ..Said::default() }))
        }
        Err(other) => Err(outside(&other)),
    }
}

/// Ends a session: one's own, or as lead anybody's.
pub(crate) async fn end_session(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    own(&app, &who)?;
    let of = (!who.may(Role::Lead)).then_some(who.person.as_str());
    let Some(whose) = app.sessions.end_named(filled.get("id"), of) else {
        return Ok(Redirect::to("/account").into_response());
    };
    let event = Event::now(&who.person, &address(&app, peer, &headers).to_string(), Act::EndedSession);
    app.log.keep(&event.to(&whose, None));
    Ok(Redirect::to(if whose == who.person { "/account" } else { "/record/accounts" }).into_response())
}

/// Ends all one's sessions but this one.
pub(crate) async fn end_others(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    app.tokens.check(Filled(fields).get("token"), &who.bound)?;
    own(&app, &who)?;
    if app.sessions.end_others(&who.person, &who.bound) > 0 {
        let event = Event::now(&who.person, &address(&app, peer, &headers).to_string(), Act::EndedSession);
        app.log.keep(&event.to(&who.person, None));
    }
    Ok(Redirect::to("/account").into_response())
}

/// Shows a new secret.
pub(crate) async fn begin_second(
    State(app): State<Shared>,
    who: Who,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    app.tokens.check(Filled(fields).get("token"), &who.bound)?;
    let own = own(&app, &who)?;
    let said = Said { secret: Some(totp::new_secret()), ..Said::default() };
    Ok(page(&app, &who, &own, &headers, &said).into_response())
}

/// Sets the second factor up, once a code shows that the authenticator has the secret.
pub(crate) async fn set_second(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let own = own(&app, &who)?;
    let proof = Proof { app: &app, who: &who, peer, headers: &headers };
    let secret = filled.get("secret").to_string();
    // A secret that another page chose would be known there.
    if own.has_second() || !app.tokens.sealed(&who.bound, &secret, filled.get("mark")) {
        return Err(HttpError::refused(says::SecondGone.text()));
    }
    let again = |faults| proof.again(&own, &Said { faults, secret: Some(secret.clone()), ..Said::default() });
    if let Err(faults) = proof.given(&filled, "code", "second").await {
        return Ok(again(faults));
    }
    if !app.codes.fits(&who.person, &secret, filled.get("second")) {
        return Ok(again(vec![("second".into(), says::SecondWrong.text())]));
    }
    let account = app.accounts.set_second(&who.person, Some(secret.clone())).map_err(|e| outside(&e))?;
    let said = Said { done: Some(says::SecondSet.text()), ..Said::default() };
    Ok(proof.goes_on(&account, Act::SetCode, &said))
}

/// Gives the second factor up.
pub(crate) async fn end_second(
    State(app): State<Shared>,
    who: Who,
    ConnectInfo(peer): ConnectInfo<SocketAddr>,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let own = own(&app, &who)?;
    let proof = Proof { app: &app, who: &who, peer, headers: &headers };
    if let Err(faults) = proof.given(&filled, "second", "second").await {
        return Ok(proof.again(&own, &Said { faults, ..Said::default() }));
    }
    let account = app.accounts.set_second(&who.person, None).map_err(|e| outside(&e))?;
    let said = Said { done: Some(says::SecondEnded.text()), ..Said::default() };
    Ok(proof.goes_on(&account, Act::RemovedCode, &said))
}

#[cfg(test)]
mod tests {
    use super::in_fours;

    #[test]
    fn a_key_is_copied_in_fours() {
        assert_eq!(in_fours("MZXW6YTBOI"), "MZXW 6YTB OI");
    }
}
