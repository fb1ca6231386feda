//! The field sheet of a trip, and what came of several of them: `field-sheet`, `conflicts`, `settle`.

use super::{now, of_entry, open, upkeep};
use crate::args::{FieldSheet, Hand};
use crate::failure::Failure;
use crate::out::{progress, say};
use anyhow::{Context as _, anyhow};
use document::paper::Paper;
use field_sheet::{LabelGrid, gather, html, labels, paper};
use intake::field;
use programme::work;
use record::by::By;
use serde_json::json;
use std::fs;

/// `limpid field-sheet`
pub fn sheet(args: &FieldSheet) -> Result<(), Failure> {
    let store = open(&args.store)?;
    let name = record::store::short_name(&args.store);
    let data = gather(&store, &args.trip, &name)?;
    let grid = LabelGrid {
        page_width_mm: args.page[0],
        page_height_mm: args.page[1],
        columns: args.labels[0],
        rows: args.labels[1],
        width_mm: args.label[0],
        height_mm: args.label[1],
        left_mm: args.margins[0],
        top_mm: args.margins[1],
        gap_x_mm: args.gaps[0],
        gap_y_mm: args.gaps[1],
    };
    let label_pages = labels(&data, &grid).map_err(|e| Failure::Refused(e.to_string()))?;
    let files = [
        ("field-sheet.html", html(&data).into_bytes()),
        ("field-sheet.pdf", pdf(paper(&data), "the field sheet")?),
        ("labels.pdf", pdf(label_pages, "the labels")?),
    ];
    fs::create_dir_all(&args.out).with_context(|| format!("making the folder {}", args.out.display()))?;
    for (name, bytes) in files {
        let path = args.out.join(name);
        fs::write(&path, bytes).with_context(|| format!("writing {}", path.display()))?;
        say!("{}", path.display());
    }
    Ok(())
}

fn pdf(paper: Paper, what: &str) -> Result<Vec<u8>, Failure> {
    paper.pdf().map_err(|e| Failure::Outside(anyhow!(e).context(format!("setting {what} as PDF"))))
}

/// `limpid conflicts`
pub fn conflicts(address: &str, json: bool) -> Result<(), Failure> {
    let all = field::conflicts(&open(address)?, None).map_err(record::Error::from)?;
    if json {
        say!(
            "{}",
            json!({ "conflicts": all, "method": "entries of all phones compared, column by column", "sources": [], "warnings": [] })
        );
        return Ok(());
    }
    if all.is_empty() {
        say!("no field sheets differ");
    }
    for c in &all {
        say!("{}: {}", c.trip, c.in_words());
    }
    Ok(())
}

/// `limpid settle`
pub fn settle(address: &str, of: (&str, &str), value: &str, hand: &Hand, why: &str) -> Result<(), Failure> {
    let (mut store, at, person) = (open(address)?, now(), hand.name());
    hand.may_act(&store)?;
    let by = By { person, at: &at };
    field::settle(&mut store, by, why, of, value).map_err(of_entry)?;
    hand.keep(&mut store)?;
    let stands = if value.is_empty() { "nothing" } else { value };
    say!("{}, {}: {stands} from now on: {why} ({person})", of.0, of.1);
    let done = work::follow(&mut store, by, &progress())?;
    upkeep::say(&done);
    upkeep::derived(done)
}
