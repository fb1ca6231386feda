//! Who may come in: accounts made, changed and taken away by the lead. They stand beside the programme, never in it; what
//! is shown here is names and roles.

use crate::app::{App, Shared};
use crate::auth::accounts::{AccountError, Role, SHORTEST};
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::Place;
use axum::Form;
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use message::{Spoken, web_places as says};

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

fn pieces(app: &App, who: &Who, asking: Asking, token: &Markup) -> Vec<Piece> {
    let all = app.accounts.all();
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
        vec![td(a.name.clone()), td(crate::page::role(a.role)), last]
    };
    let listing = Listing {
        caption: says::AccountsWho.text(),
        headings: vec![says::Name.text(), says::Role.text(), String::new()],
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
    ]
}

/// Adds or changes one.
pub(crate) async fn set(
    State(app): State<Shared>,
    who: Who,
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
                let words = "Found less than lead, expected lead: somebody must be able to make accounts.";
                faults.push(("role".into(), words.into()));
            }
            Ok(role) => {
                let (asked, typed) = (app.clone(), filled.clone());
                // Hashing takes memory on purpose.
                let _turn = app.throttle.turn().await;
                let kept = tokio::task::spawn_blocking(move || {
                    asked.accounts.set(typed.get("name"), role, typed.get("password"))
                });
                match kept.await.map_err(|e| HttpError::outside(e.to_string()))? {
                    Ok(()) => return Ok(Done::To("/record/accounts".into())),
                    Err(AccountError::Unfit { what, found, expected }) => {
                        let name = if what.contains("password") { "password" } else { "name" };
                        faults.push((name.into(), format!("Found {found}, expected {expected}.")));
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
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Lead)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let name = filled.get("name");
        if name == who.person {
            return Err(HttpError::refused("Nobody takes away the account that they act under: another lead can."));
        }
        app.accounts.remove(name).map_err(|e| HttpError::outside(e.to_string()))?;
        Ok(Done::To("/record/accounts".into()))
    })
    .await
}

/// A link to the page, for those who may.
pub(crate) fn link(who: &Who) -> Markup {
    html! { @if who.may(Role::Lead) { a href="/record/accounts" { (says::Accounts.text()) } } }
}
