//! `limpid supplement`: in one step what the reviewers of a paper ask for: the tables as PDF and as
//! web page, the data package, and the sums of all of it.

use super::{export, open, report};
use crate::args::Export;
use crate::failure::Failure;
use crate::out::say;
use exchange::folder;
use exchange::folder::Folder;

/// Runs `limpid supplement`.
pub fn run(args: &Export) -> Result<(), Failure> {
    let store = open(&args.store)?;
    let name = record::store::short_name(&args.store);
    let outer = Folder::begin(&args.out)?;
    let written = exchange::write(&store, &outer.place("data"), &export::options(args))?;
    outer.adopt("data", &written.files)?;
    let list = format!("data/{}", folder::SHA256SUMS);
    let sums: Vec<(String, String)> = outer
        .entries()
        .into_iter()
        .filter(|e| e.path == list || e.path == "data/datapackage.json" || e.path == "data/results.csv")
        .map(|e| (e.path, e.sha256))
        .collect();
    let content = ::report::supplement(&store, &name, &sums)?;
    let pdf = report::pdf(&content)?;
    outer.put("supplement.pdf", &pdf, "application/pdf", "Supplement for reviewers, tagged PDF.")?;
    let page = ::document::html::to_html(&content);
    outer.put("supplement.html", page.as_bytes(), "text/html", "The same as one web page.")?;
    outer.finish(&args.out)?;
    for file in ["supplement.pdf", "supplement.html", folder::SHA256SUMS, folder::BLAKE3SUMS] {
        say!("{}", args.out.join(file).display());
    }
    export::say(&args.out.join("data"), &written);
    Ok(())
}
