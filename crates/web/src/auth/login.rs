//! Coming in and going out; and, where nobody needs to log in, under which name one acts.

use super::guard::{COOKIE, NAME_COOKIE, address, cookie, set_cookie};
use super::who::Who;
use crate::app::Shared;
use crate::forms::{Filled, token_field};
use crate::http_error::HttpError;
use crate::page::{self, decoded, encoded, own_path};
use axum::Form;
use axum::extract::{ConnectInfo, Query, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use message::{Spoken, web_places as says};
use std::collections::HashMap;
use std::net::SocketAddr;

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
            button type="submit" { (says::ComeIn.text()) }
        }
        p.quiet { (says::AccountsMade.text()) " " code { "limpid account" } "." }
    };
    page::bare(app, who, &says::LogIn.text(), &body)
}

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
    let (name, password) = (filled.get("name").to_string(), filled.get("password").to_string());
    let to = own_path(filled.get("to")).unwrap_or("/").to_string();
    let address = address(&app, peer, &headers).to_string();
    let begun = match app.throttle.begin(&name, &address) {
        Ok(begun) => begun,
        Err(wait) => {
            let minutes = wait.as_secs().div_ceil(60);
            let words = says::TooMany { n: message::count(minutes as usize) }.text();
            let page = form(&app, &who, &to, &name, Some(&words));
            let wait = wait.as_secs().to_string();
            return Ok((StatusCode::TOO_MANY_REQUESTS, [(header::RETRY_AFTER, wait)], page).into_response());
        }
    };
    // Hashing takes memory on purpose: one at a time is enough for a small team.
    let _turn = app.throttle.turn().await;
    let (asked, known) = (app.clone(), name.clone());
    let proven = tokio::task::spawn_blocking(move || asked.accounts.proven(&known, &password))
        .await
        .map_err(|e| HttpError::outside(e.to_string()))?;
    let Some(account) = proven else {
        let page = form(&app, &who, &to, &name, Some(&says::WrongPassword.text()));
        return Ok((StatusCode::UNAUTHORIZED, page).into_response());
    };
    app.throttle.succeeded(&name, &address, begun);
    let number = app.sessions.begin(&account);
    let set = set_cookie(app.options.behind_tls, COOKIE, &number, Some(43_200));
    Ok((set, Redirect::to(&to)).into_response())
}

/// Going out.
pub(crate) async fn leave(
    State(app): State<Shared>,
    who: Who,
    headers: HeaderMap,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    app.tokens.check(Filled(fields).get("token"), &who.bound)?;
    app.sessions.end(&cookie(&headers, COOKIE).unwrap_or_default());
    let set = set_cookie(app.options.behind_tls, COOKIE, "", Some(0));
    Ok((set, Redirect::to("/login")).into_response())
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
        return Err(HttpError::refused("Who has logged in acts under that name."));
    }
    let name: String = filled.get("name").trim().chars().filter(|c| !c.is_control()).take(80).collect();
    if record::store::named(&name).is_err() {
        return Err(HttpError::refused(format!(
            "The name: found \"{name}\", expected a name as it is to stand in the record, with a letter or a digit."
        )));
    }
    let back = decoded(filled.get("to")).unwrap_or_default();
    let set = set_cookie(app.options.behind_tls, NAME_COOKIE, &encoded(&name), None);
    Ok((set, Redirect::to(own_path(&back).unwrap_or("/"))).into_response())
}
