//! The report as PDF and as one web page, and the open data package: made on demand from the record as it stands, and
//! kept on disk until the program ends.

use crate::app::{Shared, now};
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
use std::fs::File;
use std::io::{BufWriter, Write as _};
use std::sync::{Arc, Mutex};

/// Reports and packages kept.
const KEPT: usize = 6;

/// What was made: files in a folder of its own.
struct Made {
    id: String,
    at: String,
    head: String,
    person: String,
    what: &'static str,
    /// Names and bytes.
    files: Vec<(&'static str, u64)>,
    folder: tempfile::TempDir,
}

/// What was made since the program was started.
#[derive(Default)]
pub(crate) struct Documents(Mutex<VecDeque<Arc<Made>>>);

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, Trouble> {
    let head = page::read(&app, |store, _| Ok(store.head()?.map_or(String::new(), |h| h.to_string()))).await?;
    let made: Vec<Arc<Made>> = lock(&app.documents.0).iter().cloned().collect();
    let rows = made.iter().map(|m| {
        let mut files = td(String::new());
        files.shown = html! { @for (name, _) in &m.files {
            a href=(format!("/report/file/{}/{name}", m.id)) { (label(name)) } " "
        } };
        let bytes: u64 = m.files.iter().map(|f| f.1).sum();
        let now = if m.head == head { "as the record stands" } else { "the record has changed since" };
        let beginning: String = m.head.chars().take(16).collect();
        vec![
            td(m.what),
            files,
            td(page::moment(&m.at)),
            td(m.person.clone()),
            number(bytes.to_string()),
            td(beginning),
            td(now),
        ]
    });
    let listing = Listing {
        caption: "Made since the program was started".into(),
        headings: heads(&["What", "Files", "Made", "By", "Bytes", "Head hash begins", "State"]),
        rows: rows.collect(),
        empty: "Nothing was made since the program was started.",
        ..Listing::default()
    };
    let form = |what: &str, button: &str| {
        html! { form.inline method="post" action="/report" {
            (token_field(&app, &who))
            input type="hidden" name="what" value=(what);
            button type="submit" { (button) }
        } }
    };
    let body = html! {
        h1 { "Report" }
        p { "What was asked and found, verdicts with their reasons, the path of the bottles, wells, waters, the years, methods with their sources: one document from the record as it stands. Its foot names the head hash, so that anyone can tell later which record it came from." }
        p { (form("report", "Make the report")) }
        p { "The open data package is for others and for later: tables with units, methods, uncertainty and provenance, the raw files as they came, and the sums of all." }
        p { (form("package", "Make the data package")) }
    };
    respond(&app, &who, Place::of("/report", "Report"), &q, &[Piece::from(body), listing.into()])
}

fn label(name: &str) -> &'static str {
    match name {
        "report.pdf" => "PDF",
        "report.html" => "Web page",
        _ => "ZIP",
    }
}

/// Makes one.
pub(crate) async fn make(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, Trouble> {
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (person, package) = (who.person.clone(), filled.get("what") == "package");
        let title = if package { "Making the data package" } else { "Making the report" };
        let to = jobs::begin(&app, &who, title, move |app, job| {
            let folder = tempfile::tempdir()?;
            let made = if package { data_package(app, job, &folder) } else { document(app, job, &folder) };
            let (head, names) = made?;
            let mut files = vec![];
            for name in names {
                files.push((name, folder.path().join(name).metadata()?.len()));
            }
            let what = if package { "data package" } else { "report" };
            let made = Made { id: random(), at: now(), head, person, what, files, folder };
            let mut all = lock(&app.documents.0);
            all.push_front(Arc::new(made));
            all.truncate(KEPT);
            Ok(Outcome { to: "/report".into(), told: vec![] })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// The head of the record that it was made from, and the files.
type Names = (String, Vec<&'static str>);

fn document(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir) -> Result<Names, Trouble> {
    job.step("Laying out the report")?;
    let (content, head) = app.record.read_now(|store| {
        let content = ::report::assemble::content(store, &app.name)?;
        Ok::<_, Trouble>((content, store.head()?))
    })?;
    job.step("Setting it as PDF")?;
    std::fs::write(folder.path().join("report.pdf"), pdf(::report::paper::to_markup(&content))?)?;
    std::fs::write(folder.path().join("report.html"), ::report::html::to_html(&content))?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec!["report.pdf", "report.html"]))
}

/// Sets pages as PDF.
pub(crate) fn pdf(paper: ::report::paper::Paper) -> Result<Vec<u8>, Trouble> {
    let input = typeset::TypesetInput {
        main: paper.main,
        files: paper.files,
        title: paper.title,
        author: paper.author,
        date: paper.date.map(|(year, month, day)| typeset::Date { year, month, day }),
        lang: paper.lang,
    };
    typeset::pdf(&input).map_err(|e| Trouble::outside(format!("setting it as PDF: {e}")))
}

fn data_package(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir) -> Result<Names, Trouble> {
    job.step("Writing the tables, the raw files and their sums")?;
    let package = folder.path().join("package");
    let options = exchange::Options::default();
    let failed = |e: exchange::Error| Trouble::outside(e.to_string());
    let written = app.record.read_now(|store| exchange::write(store, &package, &options)).map_err(failed)?;
    job.step("Packing it")?;
    let broken = |e: zip::result::ZipError| Trouble::outside(e.to_string());
    let mut archive = zip::ZipWriter::new(BufWriter::new(File::create(folder.path().join("package.zip"))?));
    let how = zip::write::SimpleFileOptions::default();
    pack(&package, &package, &mut |name, path| {
        archive.start_file(name, how).map_err(broken)?;
        std::io::copy(&mut File::open(path)?, &mut archive)?;
        Ok(())
    })?;
    archive.finish().map_err(broken)?.flush()?;
    std::fs::remove_dir_all(&package)?;
    Ok((written.head.map_or(String::new(), |h| h.to_string()), vec!["package.zip"]))
}

/// What is done with a file: its name within the package, and where it is.
type EachFile<'a> = &'a mut dyn FnMut(String, &std::path::Path) -> Result<(), Trouble>;

/// Every file under a folder, in the order of names.
fn pack(root: &std::path::Path, dir: &std::path::Path, each: EachFile) -> Result<(), Trouble> {
    let mut inside: Vec<_> = std::fs::read_dir(dir)?.map(|e| e.map(|e| e.path())).collect::<Result<_, _>>()?;
    inside.sort();
    for path in inside {
        if path.is_dir() {
            pack(root, &path, each)?;
        } else {
            let name = path.strip_prefix(root).unwrap_or(&path).to_string_lossy().into_owned();
            each(name, &path)?;
        }
    }
    Ok(())
}

/// One of the files.
pub(crate) async fn file(
    State(app): State<Shared>,
    _: Who,
    Path((id, name)): Path<(String, String)>,
) -> Result<Response, Trouble> {
    let made = lock(&app.documents.0).iter().find(|m| m.id == id).cloned();
    let made = made.ok_or_else(|| Trouble::absent("It is not kept any more: make it again."))?;
    let known = made.files.iter().find(|f| f.0 == name).ok_or_else(|| Trouble::absent("There is no such file."))?;
    let bytes = tokio::fs::read(made.folder.path().join(known.0)).await?;
    let stem = ::report::figure::slug(&app.name);
    let kind = match known.0 {
        "report.pdf" => "application/pdf",
        "report.html" => return Ok(([(header::CONTENT_TYPE, "text/html; charset=utf-8")], bytes).into_response()),
        _ => "application/zip",
    };
    let headers = [
        (header::CONTENT_TYPE, kind.to_string()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{stem}-{}\"", known.0)),
    ];
    Ok((headers, bytes).into_response())
}
