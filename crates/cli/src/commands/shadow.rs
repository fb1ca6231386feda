//! `limpid shadow`: values that were reported before beside those of today. Reads only.

use super::open;
use crate::args::Shadow;
use crate::failure::Failure;
use crate::out::say;
use crate::table::{Side, lay_out_with_notes};
use anyhow::Context as _;
use programme::shadow::{self, Beside, Cause, Shadow as Answer, Stand};
use programme::shadow_sheet;
use quantity::Amount;
use quantity::format::{significant, value_and_expanded};
use serde_json::json;
use std::path::Path;

/// Columns of a terminal as it opens.
const TERMINAL: usize = 100;

/// Results that are named as missing, at most.
const LISTED: usize = 12;

/// What a reader has to bear in mind.
const TOLD: [&str; 2] = [
    "A step that explains a difference need not be what happened: with few digits several may.",
    "What was not tested, microbes first, is not spoken of; advice on drinking is the local health authority's.",
];

/// Runs `limpid shadow`.
pub fn run(args: &Shadow) -> Result<(), Failure> {
    let store = open(&args.store)?;
    let bytes = std::fs::read(&args.reported).with_context(|| format!("reading {}", args.reported.display()))?;
    let sheet = shadow_sheet::read(&bytes)?;
    let answer = shadow::beside(&store, &sheet)?;
    if let Some(file) = &args.csv {
        return csv(file, &answer);
    }
    if args.json {
        let document = json!({
            "rows": answer.rows,
            "missing_on_the_sheet": answer.missing,
            "results_of_other_bottles": answer.of_other_bottles,
            "columns_passed_over": sheet.passed_over,
            "head": store.head()?.map(|h| h.to_string()),
            "method": "the run reduced again with one step left out or taken otherwise; a step explains a difference where the result then is the reported one to its last digit",
            "sources": [],
            "warnings": TOLD,
        });
        say!("{document}");
        return Ok(());
    }
    let row = |b: &Beside| {
        let cells = vec![
            b.of.clone(),
            b.analyte.clone(),
            b.reported.clone(),
            today(b),
            b.percent.map_or_else(String::new, |p| format!("{} %", significant(p, 2))),
            b.stand.word().into(),
        ];
        (cells, because(b))
    };
    let headings = [
        ("bottle or well", Side::Left),
        ("analyte", Side::Left),
        ("reported", Side::Right),
        ("today", Side::Right),
        ("differs by", Side::Right),
        ("", Side::Left),
    ];
    let rows: Vec<_> = answer.rows.iter().map(row).collect();
    crate::out::write(format_args!("{}", lay_out_with_notes(&headings, &rows, TERMINAL)));
    let count = |stand: Stand| answer.rows.iter().filter(|b| b.stand == stand).count();
    let unexplained = answer.rows.iter().filter(|b| b.stand == Stand::Differs && b.causes.is_empty()).count();
    say!(
        "\n{} rows: {} the same, {} without contradiction, {} differ ({unexplained} of them by no step of their case), {} not on record, {} cannot be compared",
        answer.rows.len(),
        count(Stand::Same),
        count(Stand::Consistent),
        count(Stand::Differs),
        count(Stand::NotOnRecord),
        count(Stand::CannotCompare),
    );
    if !answer.missing.is_empty() {
        let names: Vec<String> = answer.missing.iter().take(LISTED).map(|m| m.result.to_string()).collect();
        let more = answer.missing.len().saturating_sub(LISTED);
        let more = if more > 0 { format!(" and {more} more (--json names all)") } else { String::new() };
        say!("on record of these bottles and not on the sheet: {}{more}", names.join(", "));
    }
    say!("results of waters in bottles that the sheet does not name: {}", answer.of_other_bottles);
    if !sheet.passed_over.is_empty() {
        say!("columns passed over: {}", sheet.passed_over.join(", "));
    }
    say!("{}", TOLD[0]);
    Ok(())
}

/// The number of today, in the unit of the sheet.
fn today(b: &Beside) -> String {
    match &b.today {
        None => "–".into(),
        Some(Amount::Measured(m)) => {
            let (value, expanded) = value_and_expanded(m, 2.0);
            format!("{value} ± {expanded}")
        }
        Some(Amount::Stated(s)) => significant(s.value, 4),
        Some(Amount::Below(x)) => format!("< {}", significant(x.limit, 3)),
        Some(Amount::Above(x)) => format!("> {}", significant(x.limit, 3)),
    }
}

/// What explains a difference, and what to bear in mind.
fn because(b: &Beside) -> String {
    let causes: Vec<String> = b.causes.iter().map(Cause::in_words).collect();
    let explained = match (b.stand, causes.is_empty()) {
        (Stand::Differs, true) => "no step of this case explains it".into(),
        (Stand::Differs, false) => causes.join("; or "),
        _ => String::new(),
    };
    let within = match (b.stand, b.within_interval) {
        (Stand::Differs, Some(true)) => "within the 95 % interval of today",
        (Stand::Differs, Some(false)) => "outside the 95 % interval of today",
        _ => "",
    };
    let note = b.note.as_deref().unwrap_or_default();
    [explained.as_str(), within, note].into_iter().filter(|t| !t.is_empty()).collect::<Vec<_>>().join("; ")
}

fn csv(file: &Path, answer: &Answer) -> Result<(), Failure> {
    let doing = || format!("writing {}", file.display());
    let mut out = csv::Writer::from_path(file).with_context(doing)?;
    let headings = [
        "row",
        "bottle_or_well",
        "analyte",
        "reported",
        "today",
        "difference",
        "percent",
        "within_95",
        "stand",
        "because",
        "result",
    ];
    out.write_record(headings).with_context(doing)?;
    let text = |t: String| if t.is_empty() { t } else { exchange::cell::defused(&t) };
    let number = |x: Option<f64>| x.map(|x| x.to_string()).unwrap_or_default();
    for b in &answer.rows {
        let within = b.within_interval.map(|w| if w { "yes" } else { "no" }).unwrap_or_default();
        let result = b.result.as_ref().map(ToString::to_string).unwrap_or_default();
        let cells = [
            b.row.to_string(),
            text(b.of.clone()),
            text(b.analyte.clone()),
            text(b.reported.clone()),
            text(today(b)),
            number(b.difference),
            number(b.percent),
            within.into(),
            b.stand.word().into(),
            text(because(b)),
            text(result),
        ];
        out.write_record(cells).with_context(doing)?;
    }
    for m in &answer.missing {
        let mut cells = vec![String::new(); headings.len()];
        cells[1] = text(m.result.bottle.clone());
        cells[2] = text(m.result.analyte.clone());
        cells[4] = text(m.amount.as_ref().map(Amount::in_words).unwrap_or_default());
        cells[8] = "not on the sheet".into();
        cells[10] = text(m.result.to_string());
        out.write_record(cells).with_context(doing)?;
    }
    out.flush().with_context(doing)?;
    say!("{}: {} rows", file.display(), answer.rows.len() + answer.missing.len());
    Ok(())
}
