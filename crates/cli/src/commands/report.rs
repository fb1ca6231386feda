//! `limpid report`: PDF, web page and figures from the same content.

use super::open;
use crate::failure::Failure;
use crate::out::say;
use anyhow::{Context as _, anyhow};
use programme::store::Store;
use report::content::Content;
use std::fs;
use std::path::{Path, PathBuf};

/// Runs `limpid report`.
pub fn run(address: &str, out: &Path) -> Result<(), Failure> {
    for path in write(&open(address)?, address, out)? {
        say!("{}", path.display());
    }
    Ok(())
}

/// Writes the report of a programme; answers the files written, the PDF first.
pub fn write(store: &Store, address: &str, out: &Path) -> Result<Vec<PathBuf>, Failure> {
    let name = Path::new(address).file_stem().map_or_else(|| address.to_string(), |s| s.to_string_lossy().into_owned());
    let content = report::assemble::content(store, &name)?;
    let pdf = pdf(&content)?;
    let figures = out.join("figures");
    fs::create_dir_all(&figures).with_context(|| format!("making the folder {}", figures.display()))?;
    let mut files =
        vec![(out.join("report.pdf"), pdf), (out.join("report.html"), report::html::to_html(&content).into_bytes())];
    for figure in content.figures() {
        files.push((figures.join(format!("{}.svg", figure.id)), figure.alone().into_bytes()));
    }
    for (path, bytes) in &files {
        fs::write(path, bytes).with_context(|| format!("writing {}", path.display()))?;
    }
    Ok(files.into_iter().map(|f| f.0).collect())
}

/// A report as PDF.
pub fn pdf(content: &Content) -> Result<Vec<u8>, Failure> {
    let paper = report::paper::to_markup(content);
    let input = typeset::TypesetInput {
        main: paper.main,
        files: paper.files,
        title: paper.title,
        author: paper.author,
        date: paper.date.map(|(year, month, day)| typeset::Date { year, month, day }),
        lang: paper.lang,
    };
    typeset::pdf(&input).map_err(|e| Failure::Outside(anyhow!(e).context("setting the report as PDF")))
}
