//! The report: made on demand from the record as it stands, as PDF and as one web page, and kept until the program ends.

use crate::app::Shared;
use crate::blocks::{Listing, Piece, Query, heads, number, respond, td};
use crate::door::guard::Who;
use crate::door::random;
use crate::forms::{Done, Filled, once, token_field};
use crate::jobs::{self, Outcome};
use crate::page::{self, Place};
use crate::record::lock;
use crate::trouble::Trouble;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use maud::html;
use std::collections::VecDeque;
use std::sync::{Arc, LazyLock, Mutex};

/// Reports kept.
const KEPT: usize = 4;

/// A report that was made.
struct Made {
    id: String,
    at: String,
    head: String,
    person: String,
    pdf: Vec<u8>,
    html: String,
}

static MADE: LazyLock<Mutex<VecDeque<Arc<Made>>>> = LazyLock::new(Mutex::default);

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, Trouble> {
    let head = page::read(&app, |store, _| Ok(store.head()?.map_or(String::new(), |h| h.to_string()))).await?;
    let made: Vec<Arc<Made>> = lock(&MADE).iter().cloned().collect();
    let rows = made.iter().map(|m| {
        let mut files = td(String::new());
        files.shown = html! {
            a href=(format!("/report/file/{}/report.pdf", m.id)) { "PDF" } " "
            a href=(format!("/report/file/{}/report.html", m.id)) { "Web page" }
        };
        let now = if m.head == head { "as the record stands" } else { "the record has changed since" };
        vec![
            td(page::moment(&m.at)),
            td(m.person.clone()),
            files,
            number(m.pdf.len().to_string()),
            td(m.head.chars().take(16).collect::<String>()),
            td(now),
        ]
    });
    let listing = Listing {
        caption: "Reports made since the program was started".into(),
        headings: heads(&["Made", "By", "Files", "Bytes of the PDF", "Head hash begins", "State"]),
        rows: rows.collect(),
        empty: "None was made since the program was started.",
        ..Listing::default()
    };
    let body = html! {
        h1 { "Report" }
        p { "What was asked and found, verdicts with their reasons, the path of the bottles, wells, waters, the years, methods with their sources: one document from the record as it stands. Its foot names the head hash, so that anyone can tell later which record it came from." }
        form method="post" action="/report" { (token_field(&app, &who)) button type="submit" { "Make the report" } }
    };
    respond(&app, &who, Place::of("/report", "Report"), &q, &[Piece::from(body), listing.into()])
}

/// Makes one.
pub(crate) async fn make(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, Trouble> {
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let person = who.person.clone();
        let to = jobs::begin(&app, &who, "Making the report", move |app, job| {
            job.step("Laying out the report")?;
            let (content, head) = app.record.read_now(|store| {
                let content = ::report::assemble::content(store, &app.name)?;
                Ok::<_, Trouble>((content, store.head()?))
            })?;
            job.step("Setting it as PDF")?;
            let made = Made {
                id: random(),
                at: crate::app::now(),
                head: head.map_or(String::new(), |h| h.to_string()),
                person,
                pdf: pdf(&content)?,
                html: ::report::html::to_html(&content),
            };
            let mut all = lock(&MADE);
            all.push_front(Arc::new(made));
            all.truncate(KEPT);
            Ok(Outcome { to: "/report".into(), told: vec![] })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

fn pdf(content: &::report::content::Content) -> Result<Vec<u8>, Trouble> {
    let paper = ::report::paper::to_markup(content);
    let input = typeset::TypesetInput {
        main: paper.main,
        files: paper.files,
        title: paper.title,
        author: paper.author,
        date: paper.date.map(|(year, month, day)| typeset::Date { year, month, day }),
        lang: paper.lang,
    };
    typeset::pdf(&input).map_err(|e| Trouble::outside(format!("setting the report as PDF: {e}")))
}

/// One of the files.
pub(crate) async fn file(
    State(app): State<Shared>,
    _: Who,
    Path((id, name)): Path<(String, String)>,
) -> Result<Response, Trouble> {
    let made = lock(&MADE).iter().find(|m| m.id == id).cloned();
    let made = made.ok_or_else(|| Trouble::absent("This report is not kept any more: make it again."))?;
    let stem = ::report::figure::slug(&app.name);
    match name.as_str() {
        "report.pdf" => {
            let headers = [
                (header::CONTENT_TYPE, "application/pdf".to_string()),
                (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{stem}-report.pdf\"")),
            ];
            Ok((headers, made.pdf.clone()).into_response())
        }
        "report.html" => Ok(([(header::CONTENT_TYPE, "text/html; charset=utf-8")], made.html.clone()).into_response()),
        _ => Err(Trouble::absent("There is no such file.")),
    }
}
