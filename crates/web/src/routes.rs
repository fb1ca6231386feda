//! Which address leads where. Every page and act goes through the guard; bodies are small but for uploads, which are
//! written to disk as they come.

use crate::app::Shared;
use crate::auth::{guard, login};
use crate::http_error::HttpError;
use crate::jobs;
use crate::pages::{
    accounts, age, attribution, bring_in, case, compounds, entry, field, home, limits, lots, mapping, own_account,
    plan, recipes, record, report, results, runs, search, start, statements, time, trips, visit, water, wells,
    workshop,
};
use crate::style::{script, style};
use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::middleware::from_fn_with_state;
use axum::routing::{get, post};
use tower_http::compression::CompressionLayer;

/// Bytes of a form: the longest has some hundred fields.
const FORM_BYTES: usize = 1 << 20;

/// Bytes of an upload with what surrounds its files.
const UPLOAD_BYTES: usize = (bring_in::MOST_BYTES + (2 << 20)) as usize;

/// All of them.
pub(crate) fn of(app: Shared) -> Router {
    let upload = post(bring_in::upload).layer(DefaultBodyLimit::max(UPLOAD_BYTES));
    Router::new()
        .route("/", get(home::show))
        .route("/wells", get(wells::list))
        .route("/wells/{name}", get(wells::show))
        .route("/wells/{name}/age", get(age::show))
        .route("/trips", get(trips::list))
        .route("/trips/{name}", get(trips::show))
        .route("/trips/{name}/files/{file}", get(field::file))
        .route("/settle", post(field::settle))
        .route("/plan", get(plan::show))
        .route("/plan/trip", post(plan::make))
        .route("/lots", get(lots::show))
        .route("/attribution", get(attribution::show))
        .route("/runs", get(runs::list))
        .route("/runs/{name}", get(runs::show))
        .route("/runs/bring-in", get(bring_in::form).merge(upload))
        .route("/runs/bring-in/{id}", get(bring_in::preview))
        .route("/runs/bring-in/{id}/mappings", post(bring_in::mappings))
        .route("/runs/bring-in/{id}/names", post(bring_in::names))
        .route("/runs/bring-in/{id}/{n}/columns", get(mapping::show).post(mapping::save))
        .route("/runs/bring-in/{id}/foresee", post(bring_in::foresee))
        .route("/runs/bring-in/{id}/take", post(bring_in::take))
        .route("/recipes", get(recipes::list).post(recipes::take))
        .route("/recipes/template", get(recipes::template))
        .route("/recipes/questions", get(recipes::questions).post(recipes::answered))
        .route("/recipes/give", post(recipes::give))
        .route("/recipes/{name}", get(recipes::show))
        .route("/vial-name", post(recipes::vial_name))
        .route("/templates", get(start::templates))
        .route("/templates/{file}", get(start::file))
        .route("/results", get(results::show))
        .route("/case/{identity}", get(case::show))
        .route("/sign", post(case::sign))
        .route("/take-out", post(case::take_out))
        .route("/take-back", post(case::take_back))
        .route("/recompute", post(case::recompute))
        .route("/water", get(water::list))
        .route("/water/{label}", get(water::show))
        .route("/time", get(time::show))
        .route("/compounds", get(compounds::show))
        .route("/limits", get(limits::show))
        .route("/statements", get(statements::list))
        .route("/statements/new", get(workshop::show).post(workshop::add))
        .route("/statements/new/answer", get(workshop::answer))
        .route("/statements/{name}", get(statements::show))
        .route("/statements/{name}/again", post(statements::again))
        .route("/report", get(report::show).post(report::make))
        .route("/report/file/{id}/{name}", get(report::file))
        .route("/record", get(record::show))
        .route("/record/file/{id}", get(record::file))
        .route("/record/verify", post(record::verify))
        .route("/record/undo", post(record::undo))
        .route("/record/one-name", post(record::one_name))
        .route("/record/accounts", get(accounts::show).post(accounts::set))
        .route("/record/accounts/remove", post(accounts::remove))
        .route("/record/accounts/second", post(accounts::end_second))
        .route("/record/accounts/log", get(accounts::log))
        .route("/account", get(own_account::show))
        .route("/account/password", post(own_account::set_password))
        .route("/account/sessions", post(own_account::end_session))
        .route("/account/sessions/others", post(own_account::end_others))
        .route("/account/second/begin", post(own_account::begin_second))
        .route("/account/second", post(own_account::set_second))
        .route("/account/second/end", post(own_account::end_second))
        .route("/enter/visit", get(visit::show).post(visit::take))
        .route("/enter/visit/look", post(visit::look_at))
        .route("/enter/{table}", get(entry::show).post(entry::take))
        .route("/correct/{table}/{id}", get(entry::edit).post(entry::amend))
        .route("/jobs/{id}", get(jobs::show))
        .route("/jobs/{id}/progress", get(jobs::progress))
        .route("/jobs/{id}/stream", get(jobs::stream))
        .route("/jobs/{id}/stop", post(jobs::stop))
        .route("/login", get(login::show).post(login::enter))
        .route("/leave", post(login::leave))
        .route("/name", post(login::name))
        .route("/search", get(search::show))
        .route("/keys", get(search::keys))
        .route("/page.css", get(style))
        .route("/page.js", get(script))
        .fallback(async || HttpError::absent(message::Spoken::text(&message::web_frame::NoPage)))
        // Layers hold for what stands above them, the fallback included: nothing is reached around the guard. The
        // larger bound of uploads stands further inside and therefore wins.
        .layer(DefaultBodyLimit::max(FORM_BYTES))
        .layer(from_fn_with_state(app.clone(), guard::guard))
        .layer(CompressionLayer::new())
        .with_state(app)
}
