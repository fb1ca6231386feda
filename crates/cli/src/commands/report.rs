//! `limpid report`: PDF, web page and figures from the same content; the whole, a leaflet, a sheet.

use super::open;
use crate::args::ReportKind;
use crate::failure::Failure;
use crate::out::say;
use anyhow::{Context as _, anyhow};
use document::content::Content;
use quantity::Lang;
use record::store::Store;
use std::fs;
use std::path::{Path, PathBuf};

/// Which document is wanted.
pub struct Wanted {
    /// Which.
    pub kind: ReportKind,
    /// Language code.
    pub lang: String,
    /// Sections of the full report; all when empty.
    pub sections: Vec<String>,
}

/// Runs `limpid report`.
pub fn run(address: &str, out: &Path, wanted: &Wanted) -> Result<(), Failure> {
    for path in write_as(&open(address)?, address, out, wanted)? {
        say!("{}", path.display());
    }
    Ok(())
}

/// Writes the full report of a programme; answers the files written, the PDF first.
pub fn write(store: &Store, address: &str, out: &Path) -> Result<Vec<PathBuf>, Failure> {
    write_as(store, address, out, &Wanted { kind: ReportKind::Full, lang: "en".into(), sections: vec![] })
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
    let (file, content) = content(store, name, wanted, lang)?;
    let pdf = pdf(&content)?;
    fs::create_dir_all(out).with_context(|| format!("making the folder {}", out.display()))?;
    let html = document::html::to_html(&content).into_bytes();
    let mut files = vec![(out.join(format!("{file}.pdf")), pdf), (out.join(format!("{file}.html")), html)];
    if wanted.kind == ReportKind::Full {
        let figures = out.join("figures");
        fs::create_dir_all(&figures).with_context(|| format!("making the folder {}", figures.display()))?;
        files.extend(content.figures().map(|f| (figures.join(format!("{}.svg", f.id)), f.alone().into_bytes())));
    }
    Ok(files)
}

/// The document and the name of its files.
fn content(store: &Store, name: &str, wanted: &Wanted, lang: Lang) -> Result<(String, Content), Failure> {
    let full = wanted.kind == ReportKind::Full;
    if !full && !wanted.sections.is_empty() {
        return Err(Failure::Usage("--sections is for the full report: a page has no sections to choose".into()));
    }
    let suffix = if lang == Lang::En { String::new() } else { format!("-{}", lang.code()) };
    Ok(match wanted.kind {
        ReportKind::Leaflet => (format!("leaflet{suffix}"), report::leaflet(store, name, lang)?),
        ReportKind::Authority => (format!("authority{suffix}"), report::authority(store, name, lang)?),
        ReportKind::Full => {
            let mut content = report::content(store, name)?;
            if !wanted.sections.is_empty() {
                report::choose(&mut content, &wanted.sections).map_err(|e| Failure::Usage(e.to_string()))?;
            }
            content.lang = lang.code().into();
            (format!("report{suffix}"), content)
        }
    })
}

/// A report as PDF.
pub fn pdf(content: &Content) -> Result<Vec<u8>, Failure> {
    let paper = document::paper::to_markup(content);
    paper.pdf().map_err(|e| Failure::Outside(anyhow!(e).context("setting the report as PDF")))
}
