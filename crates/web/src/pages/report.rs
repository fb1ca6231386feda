//! The report as PDF and as one web page, and the open data package: made on demand from the record as it stands, and
//! kept on disk until the program ends.

use crate::app::{Shared, now};
use crate::auth::accounts::Role;
use crate::auth::random;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, heads, number, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Outcome};
use crate::lock::lock;
use crate::page::{self, Place};
use ::document::content::Content;

use crate::documents::Made;
use axum::Form;
use axum::extract::{Path as Segments, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use quantity::Lang;
use std::fs::File;
use std::io::{BufWriter, Write as _};
use std::path::Path;
use std::sync::Arc;

/// Reports and packages kept.
const KEPT: usize = 6;

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
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
            td(m.what.clone()),
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
    let filled = Filled(q.iter().map(|(n, v)| (n.clone(), v.clone())).collect());
    let asking = Asking { filled: &filled, faults: &[] };
    let top = html! {
        h1 { "Report" }
        p { "What was asked and found, verdicts with their reasons, the path of the bottles, wells, waters, the years, methods with their sources: made from the record as it stands. Its foot names the head hash, so that anyone can tell later which record it came from." }
        (make_form(&who, asking, &token_field(&app, &who)))
    };
    respond(&app, &who, Place::of("/report", "Report"), &q, &[Piece::from(top), listing.into()])
}

/// What can be made: name, words, what it is.
const WHAT: &[(&str, &str)] = &[
    ("full", "the full report, as PDF and web page"),
    ("leaflet", "one page for neighbours"),
    ("authority", "one page for the authority"),
    ("package", "the open data package: tables with units, methods, uncertainty and provenance, raw files, sums"),
    ("supplement", "the supplement for the reviewers of a paper: tables as PDF and web page, and the data package"),
    ("backup", "a copy of the whole programme, to keep elsewhere"),
];

fn make_form(who: &Who, asking: Asking, token: &Markup) -> Markup {
    let field = |name, words, hint| Field { name, words, hint };
    let now = if asking.filled.get("what").is_empty() { "full" } else { asking.filled.get("what") };
    html! {
        (asking.all_faults())
        form #make method="post" action="/report" {
            (token)
            fieldset #what { legend { "Make" }
                @for (name, words) in WHAT { @if *name != "backup" || who.may(Role::Analyst) {
                    p { label { input type="radio" name="what" value=(name) checked[now == *name]; " " (words) } }
                } }
            }
            div.fields {
                (asking.choice(field("lang", "Language", "Of a report, a page for neighbours or for the authority."), LANGUAGES))
                (asking.line(field("sections", "Sections", "Of the full report, with commas: asked, found, verdicts, methods, or how a title begins. All where left empty.")))
                (asking.line(field("licence", "Licence", "Of a data package or supplement, as others shall find it.")))
            }
            button type="submit" { "Make it" }
        }
    }
}

const LANGUAGES: &[(&str, &str)] = &[("en", "English"), ("de", "Deutsch")];

fn label(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("pdf") => "PDF",
        Some("html") => "Web page",
        Some("sqlite") => "Programme",
        _ => "ZIP",
    }
}

/// What a form asks to be made.
#[derive(Clone)]
struct Wanted {
    what: &'static str,
    lang: Lang,
    sections: Vec<String>,
    licence: Option<String>,
}

fn wanted(filled: &Filled, who: &Who) -> Result<Wanted, Vec<Fault>> {
    let mut faults: Vec<Fault> = vec![];
    let asked = if filled.get("what").is_empty() { "full" } else { filled.get("what") };
    let what = WHAT.iter().map(|w| w.0).find(|w| *w == asked);
    if what.is_none() || (what == Some("backup") && !who.may(Role::Analyst)) {
        faults.push(("what".into(), format!("Found \"{asked}\", expected one of those listed.")));
    }
    let what = what.unwrap_or("full");
    let lang = if filled.get("lang").is_empty() { "en" } else { filled.get("lang") };
    let lang = Lang::parse(lang).unwrap_or_else(|| {
        faults.push(("lang".into(), format!("Found \"{lang}\", expected en or de.")));
        Lang::En
    });
    let sections: Vec<String> =
        filled.get("sections").split(',').map(|s| s.trim().to_string()).filter(|s| !s.is_empty()).collect();
    if what != "full" && !sections.is_empty() {
        faults.push(("sections".into(), "Found sections for what has none to choose, expected none.".into()));
    }
    let licence = Some(filled.get("licence").trim().to_string()).filter(|l| !l.is_empty());
    if faults.is_empty() { Ok(Wanted { what, lang, sections, licence }) } else { Err(faults) }
}

/// Makes one.
pub(crate) async fn make(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let wanted = match wanted(&filled, &who) {
            Ok(wanted) => wanted,
            Err(faults) => {
                let asking = Asking { filled: &filled, faults: &faults };
                let form = html! { h1 { "Report" } (make_form(&who, asking, &same_token(&filled))) };
                return Ok(Done::Again(body(&app, &who, Place::of("/report", "Report"), &[form.into()])));
            }
        };
        let person = who.person.clone();
        let fields = ["what", "lang", "sections", "licence"].map(|n| format!("{n}={}", page::encoded(filled.get(n))));
        let back = format!("/report?{}#make", fields.join("&"));
        let title = format!("Making {}", title(wanted.what));
        let to = jobs::begin_from(&app, &who, &title, Some(back), move |app, job| {
            let folder = tempfile::tempdir()?;
            let (head, names) = match wanted.what {
                "package" => data_package(app, job, &folder, &wanted)?,
                "supplement" => supplement(app, job, &folder, &wanted)?,
                "backup" => backup(app, job, &folder)?,
                _ => document(app, job, &folder, &wanted)?,
            };
            let mut files = vec![];
            for name in names {
                let bytes = folder.path().join(&name).metadata()?.len();
                files.push((name, bytes));
            }
            let made = Made { id: random(), at: now(), head, person, what: title_of(&wanted), files, folder };
            let mut all = lock(&app.documents.0);
            all.push_front(Arc::new(made));
            // Each holds the temporary folder of its files, which goes from the disk with it.
            all.truncate(KEPT);
            Ok(Outcome { to: "/report".into(), told: vec![] })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

fn title(what: &str) -> &'static str {
    match what {
        "leaflet" => "the page for neighbours",
        "authority" => "the page for the authority",
        "package" => "the data package",
        "supplement" => "the supplement",
        "backup" => "a copy of the programme",
        _ => "the report",
    }
}

/// What was made, with what was chosen.
fn title_of(w: &Wanted) -> String {
    let mut out = title(w.what).trim_start_matches("the ").to_string();
    if w.lang != Lang::En {
        out += &format!(", {}", w.lang.code());
    }
    if !w.sections.is_empty() {
        out += &format!(": {}", w.sections.join(", "));
    }
    out
}

/// The head of the record that it was made from, and the files.
type Names = (String, Vec<String>);

fn document(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    quantity::with_language(w.lang, || laid_out(app, job, folder, w))
}

fn laid_out(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    job.step("Laying it out")?;
    let (mut content, head) = app.record.read_now(|store| {
        let content = match w.what {
            "leaflet" => ::report::leaflet(store, &app.name, w.lang)?,
            "authority" => ::report::authority(store, &app.name, w.lang)?,
            _ => ::report::content_watched(store, &app.name, &|words| job.goes_on(words))?,
        };
        Ok::<_, HttpError>((content, store.head()?))
    })?;
    if !w.sections.is_empty() {
        ::report::choose(&mut content, &w.sections).map_err(|e| HttpError::refused(format!("Sections: {e}.")))?;
    }
    content.lang = w.lang.code().into();
    // Read here, its numbers open their cases.
    content.cases_at = "/case/".into();
    let stem = if w.what == "full" { "report" } else { w.what };
    set(job, folder, stem, &content)?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec![format!("{stem}.pdf"), format!("{stem}.html")]))
}

/// Sets a document as PDF and as web page.
fn set(job: &jobs::Job, folder: &tempfile::TempDir, stem: &str, content: &Content) -> Result<(), HttpError> {
    job.step("Setting it as PDF")?;
    let bytes = pdf(::document::paper::to_markup(content))?;
    if !job.goes_on("set") {
        return Err(HttpError::refused("Stopped; nothing was kept of it."));
    }
    std::fs::write(folder.path().join(format!("{stem}.pdf")), bytes)?;
    std::fs::write(folder.path().join(format!("{stem}.html")), ::document::html::to_html(content))?;
    Ok(())
}

/// The programme as one file.
fn backup(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir) -> Result<Names, HttpError> {
    job.step("Copying the programme while it is in use")?;
    let head = app.record.read_now(|store| {
        store.backup(folder.path().join("programme.sqlite"))?;
        store.head()
    })?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec!["programme.sqlite".into()]))
}

/// Sets pages as PDF.
pub(crate) fn pdf(paper: ::document::paper::Paper) -> Result<Vec<u8>, HttpError> {
    paper.pdf().map_err(|e| HttpError::outside(format!("setting it as PDF: {e}")))
}

fn data_package(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    let head = tables(app, job, &folder.path().join("package"), w)?.head;
    packed(job, folder, "package")?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec!["package.zip".into()]))
}

fn tables(app: &Shared, job: &jobs::Job, to: &Path, w: &Wanted) -> Result<exchange::Written, HttpError> {
    job.step("Writing the tables, the raw files and their sums")?;
    let options = exchange::Options { licence: w.licence.clone(), publisher: None };
    app.record.read_now(|store| exchange::write(store, to, &options)).map_err(|e| HttpError::outside(e.to_string()))
}

/// The tables as documents, and the data beside them.
fn supplement(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    let data = folder.path().join("package");
    let head = tables(app, job, &data, w)?.head;
    let sums = std::fs::read_to_string(data.join(exchange::folder::SHA256SUMS))?;
    let known = |name: &str| {
        let line = sums.lines().find(|l| l.ends_with(&format!(" {name}")))?;
        Some((format!("data/{name}"), line.split(' ').next()?.to_string()))
    };
    let sums: Vec<(String, String)> = ["datapackage.json", "results.csv"].into_iter().filter_map(known).collect();
    let mut content = app.record.read_now(|store| ::report::supplement(store, &app.name, &sums))?;
    content.cases_at = "/case/".into();
    set(job, folder, "supplement", &content)?;
    packed(job, folder, "package")?;
    let names = ["supplement.pdf", "supplement.html", "package.zip"].map(String::from).to_vec();
    Ok((head.map_or(String::new(), |h| h.to_string()), names))
}

/// Packs a folder beside itself, and takes it away.
fn packed(job: &jobs::Job, folder: &tempfile::TempDir, name: &str) -> Result<(), HttpError> {
    job.step("Packing it")?;
    let package = folder.path().join(name);
    let broken = |e: zip::result::ZipError| HttpError::outside(e.to_string());
    let mut archive = zip::ZipWriter::new(BufWriter::new(File::create(folder.path().join(format!("{name}.zip")))?));
    let how = zip::write::SimpleFileOptions::default();
    pack(&package, &package, &mut |name, path| {
        if !job.goes_on(&name) {
            return Err(HttpError::refused("Stopped; nothing was kept of it."));
        }
        archive.start_file(name, how).map_err(broken)?;
        std::io::copy(&mut File::open(path)?, &mut archive)?;
        Ok(())
    })?;
    archive.finish().map_err(broken)?.flush()?;
    std::fs::remove_dir_all(&package)?;
    Ok(())
}

/// What is done with a file: its name within the package, and where it is.
type EachFile<'a> = &'a mut dyn FnMut(String, &Path) -> Result<(), HttpError>;

/// Every file under a folder, in the order of names.
fn pack(root: &Path, dir: &Path, each: EachFile) -> Result<(), HttpError> {
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
    Segments((id, name)): Segments<(String, String)>,
) -> Result<Response, HttpError> {
    let made = lock(&app.documents.0).iter().find(|m| m.id == id).cloned();
    let made = made.ok_or_else(|| HttpError::absent("It is not kept any more: make it again."))?;
    let known = made.files.iter().find(|f| f.0 == name).ok_or_else(|| HttpError::absent("There is no such file."))?;
    let bytes = tokio::fs::read(made.folder.path().join(&known.0)).await?;
    let stem = ::figure::slug(&app.name);
    let kind = match known.0.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("sqlite") => "application/vnd.sqlite3",
        Some("html") => return Ok(([(header::CONTENT_TYPE, "text/html; charset=utf-8")], bytes).into_response()),
        _ => "application/zip",
    };
    let headers = [
        (header::CONTENT_TYPE, kind.to_string()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{stem}-{}\"", known.0)),
    ];
    Ok((headers, bytes).into_response())
}
