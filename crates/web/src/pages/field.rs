//! The field sheet of a trip: the file for a phone, the same on paper, the labels; and where phones differ, a person's
//! word. What a phone brings home comes in like any file (`bring_in`).

use super::case::{Said, followed, reason};
use super::report::pdf;
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::Query;
use crate::forms::{Done, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Outcome};
use crate::moment::now;
use crate::page::{self, encoded, moment};
use ::field_sheet::{LabelGrid, gather, html as sheet, labels, paper};
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use intake::field::{Conflict, settle as decide};
use maud::{Markup, html};
use message::{Lang, Spoken, web_places as says, with_language};
use programme::work::follow;

/// One of the files of a trip.
pub(crate) async fn file(
    State(app): State<Shared>,
    _: Who,
    Path((trip, name)): Path<(String, String)>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let (asked, wanted) = (trip.clone(), name.clone());
    let lang = language(&q)?;
    let (kind, bytes) = page::read(&app, move |store, app| {
        with_language(lang, || {
            let data = gather(store, &asked, &app.name)?;
            Ok(match wanted.as_str() {
                "field-sheet.html" => ("text/html; charset=utf-8", sheet(&data).into_bytes()),
                "field-sheet.pdf" => ("application/pdf", pdf(paper(&data))?),
                "labels.pdf" => {
                    let pages = labels(&data, &grid(&q)?).map_err(|e| HttpError::refused(e.to_string()))?;
                    ("application/pdf", pdf(pages)?)
                }
                _ => return Err(HttpError::absent("There is no such file of a trip.")),
            })
        })
    })
    .await?;
    // Saved, not opened here: on the phone it is opened as a file, without this web interface.
    let stem = ::figure::slug(&trip);
    let headers = [
        (header::CONTENT_TYPE, kind.to_string()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{stem}-{name}\"")),
    ];
    Ok((headers, bytes).into_response())
}

/// The language of paper and labels, and the one that the phone begins with; English where the address names none.
fn language(q: &Query) -> Result<Lang, HttpError> {
    let Some(code) = q.get("lang") else { return Ok(Lang::En) };
    Lang::parse(code).ok_or_else(|| HttpError::refused(format!("lang: found \"{code}\", expected en or de.")))
}

/// What can be said of a label sheet: its names in an address.
const SHEET: [&str; 10] = [
    "page_width_mm",
    "page_height_mm",
    "columns",
    "rows",
    "width_mm",
    "height_mm",
    "left_mm",
    "top_mm",
    "gap_x_mm",
    "gap_y_mm",
];

/// One of them in words.
fn of_sheet_in_words(name: &str) -> String {
    match name {
        "page_width_mm" => says::PageWidth.text(),
        "page_height_mm" => says::PageHeight.text(),
        "columns" => says::Across.text(),
        "rows" => says::Down.text(),
        "width_mm" => says::LabelWidth.text(),
        "height_mm" => says::LabelHeight.text(),
        "left_mm" => says::Left.text(),
        "top_mm" => says::Top.text(),
        "gap_x_mm" => says::GapAcross.text(),
        _ => says::GapDown.text(),
    }
}

/// A number of the sheet as it stands.
fn of_sheet(g: &mut LabelGrid, name: &str) -> f64 {
    match name {
        "columns" => g.columns as f64,
        "rows" => g.rows as f64,
        _ => *side(g, name),
    }
}

fn side<'g>(g: &'g mut LabelGrid, name: &str) -> &'g mut f64 {
    match name {
        "page_width_mm" => &mut g.page_width_mm,
        "page_height_mm" => &mut g.page_height_mm,
        "width_mm" => &mut g.width_mm,
        "height_mm" => &mut g.height_mm,
        "left_mm" => &mut g.left_mm,
        "top_mm" => &mut g.top_mm,
        "gap_x_mm" => &mut g.gap_x_mm,
        _ => &mut g.gap_y_mm,
    }
}

/// The sheet that an address names; what it leaves out is as it is.
fn grid(q: &Query) -> Result<LabelGrid, HttpError> {
    let mut out = LabelGrid::A4;
    for name in SHEET {
        let Some(text) = q.get(name).map(|t| t.trim()).filter(|t| !t.is_empty()) else { continue };
        let x: f64 = text.parse().ok().filter(|x: &f64| x.is_finite()).ok_or_else(|| {
            let words = of_sheet_in_words(name);
            HttpError::refused(format!("{words}: found \"{text}\", expected a number with a decimal point."))
        })?;
        match name {
            "columns" => out.columns = x.clamp(0.0, 1000.0) as _,
            "rows" => out.rows = x.clamp(0.0, 1000.0) as _,
            _ => *side(&mut out, name) = x,
        }
    }
    Ok(out)
}

/// A form for other sheets of labels.
fn other_sheet(to: &str) -> Markup {
    let mut now = LabelGrid::A4;
    html! {
        details.act { summary { (says::OtherLabels.text()) }
            form method="get" action=(to) { div.fields { @for name in SHEET {
                div.field { label for=(name) { (of_sheet_in_words(name)) }
                    input #(name) name=(name) inputmode="decimal" value=(quantity::format::significant_trimmed(of_sheet(&mut now, name), 5)); }
            } } button.second type="submit" { (says::LabelsAct.text()) } }
        }
    }
}

/// The field sheet, folded on the trip's page: for the phone, on paper in each language, labels, and the way home.
pub(crate) fn links(trip: &str) -> Markup {
    let to = |name: &str| format!("/trips/{}/files/{name}", encoded(trip));
    let inside = |lang: Lang| {
        let file = |name: &str| format!("{}?lang={}", to(name), lang.code());
        html! {
            li { (lang.name()) ": "
                a href=(file("field-sheet.pdf")) { (says::FieldPaper.text()) } ", " a href=(file("labels.pdf")) { (says::FieldLabels.text()) } }
        }
    };
    html! {
        details.fold #field-sheet {
            summary { (says::Field.text()) }
            p { a.go href=(to("field-sheet.html")) { (says::FieldPhoneAct.text()) } " " (says::FieldPhone.text()) }
            ul.plain { @for lang in Lang::ALL { (inside(lang)) } }
            p.quiet { (says::FieldFits.text()) }
            (other_sheet(&to("labels.pdf")))
            p { (says::FieldHome.text()) " " a href="/runs/bring-in" { (message::web_frame::BringIn.text()) } }
        }
    }
}

/// Where phones differ, or a phone and the record, with a form for each bottle's value.
pub(crate) fn conflicts(app: &App, who: &Who, trip: &str, all: &[Conflict], said: Option<&Said>) -> Markup {
    let mine = |c: &Conflict| {
        said.filter(|s| s.act == "/settle" && s.filled.get("bottle") == c.subject && s.filled.get("column") == c.field)
    };
    let columns = [
        "acid",
        "acid_mL",
        "acidified_at",
        "acidified_place",
        "openings",
        "cabinet_min",
        "open_air_min",
        "filled_at",
        "filter",
        "sampler",
        "note",
        "volume_mL",
        "lot",
        "fraction",
    ];
    html! {
        @if !all.is_empty() {
            h2 #differ { (says::Differ.text()) }
            @for (n, c) in all.iter().enumerate() {
                div.caution {
                    h3 { (says::DifferOf { what: c.subject.as_str().into(), found: field_of(&c.field).into() }.text()) }
                    div.side-by-side {
                        @for s in &c.said { p { span.quiet { (says::Says { who: s.device.as_str().into() }.text()) } br; strong { (moment(&s.value)) } } }
                        @if let Some(stands) = &c.stands { p { span.quiet { (says::RecordSays.text()) } br; strong { (moment(stands)) } } }
                    }
                    @if columns.contains(&c.field.as_str()) && who.may(Role::Sampler) {
                        @let said = mine(c);
                        @let ((value, wrong), (why, lacks)) = (Said::of(said, "/settle", "value"), Said::of(said, "/settle", "why"));
                        form method="post" action="/settle" {
                            @match said { Some(s) => (same_token(s.filled)), None => (token_field(app, who)) }
                            input type="hidden" name="trip" value=(trip);
                            input type="hidden" name="bottle" value=(c.subject);
                            input type="hidden" name="column" value=(c.field);
                            div.fields {
                                div class=(if wrong.is_some() { "field wrong" } else { "field" }) { label for=(format!("v{n}")) { (says::WhatHolds.text()) }
                                    input #(format!("v{n}")) name="value" list=(format!("said{n}")) value=(value) required
                                        aria-invalid=[wrong.map(|_| "true")] aria-describedby=(format!("v{n}-fault"));
                                    p.why #(format!("v{n}-fault")) role=[wrong.map(|_| "alert")] { @if let Some(w) = wrong { (w) } }
                                    datalist #(format!("said{n}")) { @for s in &c.said { option value=(s.value) {} } } }
                                (reason(&format!("y{n}"), &says::SettleReason.text(), &says::SettleBoth.text(), (why, lacks)))
                            }
                            p.acts {
                                button type="submit" { (says::Decide.text()) }
                                @for s in &c.said { " " button.second type="submit" name="take" value=(s.value) formnovalidate { (says::TakeThis { found: moment(&s.value).into() }.text()) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// A column of a bottle, as its form calls it; a quantity that was read, in words.
fn field_of(column: &str) -> String {
    if let Some(known) = message::Message::named("condition", column) {
        return known.text();
    }
    let table = record::schema::table("bottle");
    let declared = table.and_then(|t| t.columns.iter().find(|c| c.name == column));
    declared.map_or_else(|| column.to_string(), |c| super::tables::label(c).0)
}

/// A person decides what a bottle's value is; everything is derived anew.
pub(crate) async fn settle(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Sampler)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (typed, person, at) = (filled.clone(), who.clone(), now());
        let decided = page::write(&app, move |store| {
            let of = (typed.get("bottle"), typed.get("column"));
            // A value that a phone says is taken by its button; else what was typed.
            let value = Some(typed.get("take")).filter(|t| !t.is_empty()).unwrap_or_else(|| typed.get("value"));
            decide(store, person.by(&at), typed.get("why"), of, value)
        })
        .await?;
        let fault = match decided {
            Ok(_) => None,
            Err(EntryError::Faults(all)) => {
                let words = all.iter().map(|f| format!("Found {}, expected {}.", f.found(), f.expected()));
                Some(("value".to_string(), words.collect::<Vec<_>>().join(" ")))
            }
            Err(EntryError::Programme(record::Error::Unfit { found, expected, .. })) => {
                Some(("why".to_string(), format!("Found {found}, expected {expected}.")))
            }
            Err(other) => return Err(other.into()),
        };
        if let Some(fault) = fault {
            let said = Said { act: "/settle", filled: &filled, fault };
            return super::trips::again(&app, &who, filled.get("trip"), &said).await;
        }
        // The decision is kept by now, and stays where deriving is stopped: Home offers to derive the rest.
        let (trip, person) = (format!("/trips/{}", encoded(filled.get("trip"))), who.clone());
        let to = jobs::begin(&app, &who, &says::DerivingDecision.text(), move |app, job| {
            job.step(&says::DerivingStep.text())?;
            let at = now();
            let by = person.by(&at);
            let done = app.record.write_now(|s| follow(s, by, &|words| job.goes_on(words)));
            Ok(Outcome { to: trip, told: followed(done)? })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}
