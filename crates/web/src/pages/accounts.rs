//! Who may come in: accounts made, changed and taken away by the lead. They stand beside the programme, never in it; what
//! is shown here is names and roles.

use crate::app::{App, Shared};
use crate::auth::accounts::{AccountError, Role, SHORTEST};
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, heads, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::Place;
use axum::Form;
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};

const ROLES: &[(&str, &str)] = &[
    ("reader", "reader: looks, makes a report"),
    ("sampler", "sampler: enters what was done and read in the field"),
    ("analyst", "analyst: brings in files, weighs evidence"),
    ("lead", "lead: signs, describes wells, changes checks, makes accounts"),
];

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
    respond(&app, &who, Place::of("/record", "Accounts"), &q, &pieces)
}

fn pieces(app: &App, who: &Who, asking: Asking, token: &Markup) -> Vec<Piece> {
    let all = app.accounts.all();
    let row = |a: &crate::auth::accounts::Account| {
        let mut last = td("");
        last.shown = html! {
            @if a.name == who.person { span.quiet { "yourself" } }
            @else { form.inline method="post" action="/record/accounts/remove" {
                (token_field(app, who))
                input type="hidden" name="name" value=(a.name);
                button.plain type="submit" aria-label=(format!("Take away the account of {}", a.name)) { "Take away" }
            } }
        };
        vec![td(a.name.clone()), td(a.role.word()), last]
    };
    let listing = Listing {
        caption: "Who may come in".into(),
        headings: heads(&["Name", "Role", ""]),
        rows: all.iter().map(row).collect(),
        empty: "Nobody has an account: whoever uses this machine acts as lead.",
        ..Listing::default()
    };
    let field = |name, words, hint| Field { name, words, hint };
    let hint = format!("At least {SHORTEST} characters. It is kept as its hash, and typed again after a fault.");
    let form = html! {
        h2 { "Add an account, or give a name another role or password" }
        @if all.is_empty() { p.caution { "From the first account on everybody has to log in, on this machine too. The first is a lead’s." } }
        @else { p.quiet { "Another role or password, or an account taken away, ends the sessions of that name." } }
        (asking.all_faults())
        form method="post" action="/record/accounts" {
            (token)
            (asking.line(field("name", "Name", "As it is to stand as author in the record.")))
            (asking.choice(field("role", "Role", ""), ROLES))
            (asking.secret(field("password", "Password", &hint)))
            button type="submit" { "Keep" }
        }
    };
    vec![
        html! { h1 { "Accounts" } p { "They stand in a file of their own beside the programme, so that a copy of the record carries no secrets." } }.into(),
        listing.into(),
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
        Ok(Done::Again(body(&app, &who, Place::of("/record", "Accounts"), &pieces)))
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
    html! { @if who.may(Role::Lead) { a href="/record/accounts" { "Accounts" } } }
}
