//! The field sheet of a trip: the file for a phone, the same on paper, the labels; and where phones differ, a person's
//! word. What a phone brings home comes in like any file (`bring_in`).

use super::report::pdf;
use crate::app::{App, Shared, now};
use crate::door::accounts::Role;
use crate::door::guard::Who;
use crate::forms::{Done, Filled, once, token_field};
use crate::jobs::{self, Outcome};
use crate::page::{self, encoded, moment};
use crate::trouble::Trouble;
use ::report::field::{LabelGrid, gather, html as sheet, labels, paper};
use axum::Form;
use axum::extract::{Path, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use programme::field::{Conflict, settle as decide};
use programme::work;

/// Labels of 63 × 33 mm, three across and eight down an A4 page, as `limpid field-sheet` has them where not told
/// otherwise.
const GRID: LabelGrid = LabelGrid {
    page_width_mm: 210.0,
    page_height_mm: 297.0,
    columns: 3,
    rows: 8,
    width_mm: 63.0,
    height_mm: 33.0,
    left_mm: 8.5,
    top_mm: 10.0,
    gap_x_mm: 2.0,
    gap_y_mm: 1.0,
};

/// One of the files of a trip.
pub(crate) async fn file(
    State(app): State<Shared>,
    _: Who,
    Path((trip, name)): Path<(String, String)>,
) -> Result<Response, Trouble> {
    let (asked, wanted) = (trip.clone(), name.clone());
    let (kind, bytes) = page::read(&app, move |store, app| {
        let data = gather(store, &asked, &app.name)?;
        Ok(match wanted.as_str() {
            "field-sheet.html" => ("text/html; charset=utf-8", sheet(&data).into_bytes()),
            "field-sheet.pdf" => ("application/pdf", pdf(paper(&data))?),
            "labels.pdf" => {
                let pages = labels(&data, &GRID).map_err(|e| Trouble::refused(e.to_string()))?;
                ("application/pdf", pdf(pages)?)
            }
            _ => return Err(Trouble::absent("There is no such file of a trip.")),
        })
    })
    .await?;
    // Saved, not opened here: on the phone it is opened as a file, without this face.
    let stem = ::report::figure::slug(&trip);
    let headers = [
        (header::CONTENT_TYPE, kind.to_string()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{stem}-{name}\"")),
    ];
    Ok((headers, bytes).into_response())
}

/// Links to the files, for the trip's page.
pub(crate) fn links(trip: &str) -> Markup {
    let to = |name: &str| format!("/trips/{}/files/{name}", encoded(trip));
    html! {
        p { "For the field: " a href=(to("field-sheet.html")) { "field sheet for a phone" } " (one file that works without network), "
            a href=(to("field-sheet.pdf")) { "the same on paper" } ", " a href=(to("labels.pdf")) { "labels with codes" } ". "
            "What the phone saves comes home by " a href="/runs/bring-in" { "Bring in files" } "." }
    }
}

/// Where phones differ, or a phone and the record, with a form for each bottle's value.
pub(crate) fn conflicts(app: &App, who: &Who, trip: &str, all: &[Conflict]) -> Markup {
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
            h2 #differ { "Field sheets that differ" }
            @for (n, c) in all.iter().enumerate() {
                div.caution {
                    p { (moment(&c.in_words())) "." }
                    @if columns.contains(&c.field.as_str()) && who.may(Role::Sampler) {
                        form method="post" action="/settle" {
                            (token_field(app, who))
                            input type="hidden" name="trip" value=(trip);
                            input type="hidden" name="bottle" value=(c.subject);
                            input type="hidden" name="column" value=(c.field);
                            div.fields {
                                div.field { label for=(format!("v{n}")) { "What holds" }
                                    input #(format!("v{n}")) name="value" list=(format!("said{n}")) required;
                                    datalist #(format!("said{n}")) { @for s in &c.said { option value=(s.value) {} } } }
                                div.field { label for=(format!("y{n}")) { "Reason" } input #(format!("y{n}")) name="why" required; }
                            }
                            button type="submit" { "Decide" }
                        }
                    }
                }
            }
        }
    }
}

/// A person decides what a bottle's value is; everything is derived anew.
pub(crate) async fn settle(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, Trouble> {
    who.must_be(Role::Sampler)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (typed, person) = (filled.clone(), who.clone());
        let title = format!("Deciding for {}", filled.get("bottle"));
        let to = jobs::begin(&app, &who, &title, move |app, job| {
            job.step("Keeping the decision, and deriving everything anew")?;
            let at = now();
            app.record.write_now(|store| {
                let of = (typed.get("bottle"), typed.get("column"));
                decide(store, person.by(&at), typed.get("why"), of, typed.get("value"))?;
                work::recompute(store, None, person.by(&at))?;
                Ok::<_, Trouble>(())
            })?;
            Ok(Outcome { to: format!("/trips/{}", encoded(typed.get("trip"))), told: vec![] })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}
