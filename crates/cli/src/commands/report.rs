//! `limpid report`: PDF, web page and figures from the same content; the whole, a leaflet, a sheet.

use super::open;
use crate::args::{ReportKind, ReportScope};
use crate::failure::Failure;
use crate::out::say;
use anyhow::{Context as _, anyhow};
use document::content::Content;
use message::Spoken as _;
use quantity::Lang;
use record::store::{Filter, Store};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Which document is wanted.
#[derive(Debug, Clone, Default)]
pub struct Wanted {
    /// Which.
    pub kind: ReportKind,
    /// Language code.
    pub lang: String,
    /// Sections of the full report; all when empty.
    pub sections: Vec<String>,
    /// What the full report is of.
    pub scope: ReportScope,
    /// Whom to ask, for the leaflet.
    pub contact: Option<String>,
    /// The open data package inside the PDF of the full report, where it is wanted.
    pub package: Option<exchange::Options>,
}

/// The package as it stands inside a PDF.
const PACKAGE: &str = "package.zip";

/// Bottles of a record whose whole report opens as one document; of more it comes in parts, one a year.
const IN_ONE: usize = 1500;

/// Runs `limpid report`.
pub fn run(address: &str, out: &Path, wanted: &Wanted) -> Result<(), Failure> {
    for path in write_as(&open(address)?, address, out, wanted)? {
        say!("{}", path.display());
    }
    Ok(())
}

/// Writes the full report of a programme; answers the files written, the PDF first.
pub fn write(store: &Store, address: &str, out: &Path) -> Result<Vec<PathBuf>, Failure> {
    write_as(store, address, out, &Wanted { lang: "en".into(), ..Wanted::default() })
}

/// Writes a document of a programme; answers the files written, the PDF first.
pub fn write_as(store: &Store, address: &str, out: &Path, wanted: &Wanted) -> Result<Vec<PathBuf>, Failure> {
    let name = record::store::short_name(address);
    let lang = Lang::parse(&wanted.lang)
        .ok_or_else(|| Failure::Usage(format!("--lang {}: there are en and de", wanted.lang)))?;
    let files = quantity::with_language(lang, || documents(store, &name, out, wanted, lang))?;
    for (path, bytes) in &files {
        fs::write(path, bytes).with_context(|| format!("writing {}", path.display()))?;
    }
    Ok(files.into_iter().map(|f| f.0).collect())
}

/// Files and what is to stand in them.
type Files = Vec<(PathBuf, Vec<u8>)>;

/// The documents in the language that is spoken.
fn documents(store: &Store, name: &str, out: &Path, wanted: &Wanted, lang: Lang) -> Result<Files, Failure> {
    let suffix = if lang == Lang::En { String::new() } else { format!("-{}", lang.code()) };
    if wanted.contact.is_some() && wanted.kind != ReportKind::Leaflet {
        return Err(Failure::Usage("--contact is for the leaflet: no other document names whom to ask".into()));
    }
    if wanted.package.is_some() && wanted.kind != ReportKind::Full {
        return Err(Failure::Usage("--attach-package is for the full report".into()));
    }
    if wanted.kind != ReportKind::Full {
        page_alone(wanted)?;
        let (file, content) = match wanted.kind {
            ReportKind::Leaflet => ("leaflet", report::leaflet_with(store, name, lang, wanted.contact.as_deref())?),
            _ => ("authority", report::authority(store, name, lang)?),
        };
        return set(&content, out, &format!("{file}{suffix}"), (None, vec![]));
    }
    let attached = wanted.package.as_ref().map(|options| package(store, options)).transpose()?;
    let mut files = vec![];
    for (part, scope) in parts(store, &wanted.scope)? {
        let mut content = report::content_of(store, name, &scope, &|_| true)?;
        if !wanted.sections.is_empty() {
            report::choose(&mut content, &wanted.sections).map_err(|e| Failure::Usage(e.to_string()))?;
        }
        content.lang = lang.code().into();
        let with = (Some(format!("figures{part}")), attached.clone().into_iter().collect());
        files.extend(set(&content, out, &format!("report{part}{suffix}"), with)?);
    }
    Ok(files)
}

/// A page is of the newest values of every well: it has no sections to choose and no trip.
fn page_alone(wanted: &Wanted) -> Result<(), Failure> {
    let scope = &wanted.scope;
    if !wanted.sections.is_empty() {
        return Err(Failure::Usage("--sections is for the full report: a page has no sections to choose".into()));
    }
    if scope.trip.is_some() || !scope.well.is_empty() || scope.from.is_some() || scope.all {
        let why =
            "--trip, --well, --from and --all are for the full report: a page shows the newest values of every well";
        return Err(Failure::Usage(why.into()));
    }
    Ok(())
}

/// The scopes that are asked for, each with what its files are called behind "report".
fn parts(store: &Store, asked: &ReportScope) -> Result<Vec<(String, report::Scope)>, Failure> {
    if let Some(day) = &asked.from {
        let is_day = day.len() == 10
            && day.bytes().enumerate().all(|(i, b)| if matches!(i, 4 | 7) { b == b'-' } else { b.is_ascii_digit() });
        if !is_day {
            return Err(Failure::Usage(format!("--from {day}: write the day as YYYY-MM-DD")));
        }
    }
    let whole = report::Scope {
        trip: asked.trip.clone(),
        wells: asked.well.clone(),
        from: asked.from.clone(),
        until: None,
        all: asked.all,
    };
    let bottles = if asked.all { store.bottles(&Filter::all())? } else { vec![] };
    if bottles.len() <= IN_ONE {
        return Ok(vec![(String::new(), whole)]);
    }
    let year = |at: &str| at.get(..4).map(str::to_string);
    let mut years: BTreeSet<String> = bottles.iter().filter_map(|b| year(b.filled_at.as_deref()?)).collect();
    years.extend(store.trips()?.iter().filter_map(|t| year(&t.starts)));
    let of = |y: String| {
        let (from, until) = (Some(format!("{y}-01-01")), Some(format!("{y}-12-31")));
        (format!("-{y}"), report::Scope { from, until, all: false, ..whole.clone() })
    };
    Ok(years.into_iter().map(of).collect())
}

/// The open data package as a file of a PDF.
fn package(store: &Store, options: &exchange::Options) -> Result<document::paper::Attached, Failure> {
    let (bytes, written) = exchange::packed(store, options)?;
    let head = written.head.map_or_else(String::new, |h| h.to_string());
    let about = message::document::PackageInside { head: head.into() }.text();
    Ok(document::paper::Attached { name: PACKAGE.into(), bytes, media_type: "application/zip".into(), about })
}

/// A document as PDF, with what is attached to it, and as web page, with its figures where they have a folder.
fn set(
    content: &Content,
    out: &Path,
    file: &str,
    (figures, attached): (Option<String>, Vec<document::paper::Attached>),
) -> Result<Files, Failure> {
    let mut paper = document::paper::to_markup(content);
    paper.attached = attached;
    let pdf = as_pdf(paper)?;
    fs::create_dir_all(out).with_context(|| format!("making the folder {}", out.display()))?;
    let html = document::html::to_html(content).into_bytes();
    let mut files = vec![(out.join(format!("{file}.pdf")), pdf), (out.join(format!("{file}.html")), html)];
    if let Some(folder) = figures {
        let folder = out.join(folder);
        fs::create_dir_all(&folder).with_context(|| format!("making the folder {}", folder.display()))?;
        files.extend(content.figures().map(|f| (folder.join(format!("{}.svg", f.id)), f.alone().into_bytes())));
    }
    Ok(files)
}

/// A report as PDF.
pub fn pdf(content: &Content) -> Result<Vec<u8>, Failure> {
    as_pdf(document::paper::to_markup(content))
}

fn as_pdf(paper: document::paper::Paper) -> Result<Vec<u8>, Failure> {
    paper.pdf().map_err(|e| Failure::Outside(anyhow!(e).context("setting the report as PDF")))
}
