//! A specimen of the whole report with invented numbers: PDF, web page, each figure as SVG.
//! `cargo run --release -p report --example specimen -- DIR` writes `report.pdf`, `report.html` and
//! `figures/*.svg`, for a person to look at. The numbers are made up here and check nothing.

#[path = "../tests/specimen/mod.rs"]
mod specimen;

use std::path::Path;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let dir = std::env::args().nth(1).ok_or("give a directory to write to")?;
    let dir = Path::new(&dir);
    std::fs::create_dir_all(dir.join("figures"))?;
    let content = specimen::content();
    std::fs::write(dir.join("report.html"), document::html::to_html(&content))?;
    std::fs::write(dir.join("report.pdf"), document::paper::to_markup(&content).pdf()?)?;
    for f in specimen::figures().into_iter().chain(specimen::hard::hard_figures()) {
        std::fs::write(dir.join("figures").join(format!("{}.svg", f.id)), f.alone())?;
    }
    Ok(())
}
