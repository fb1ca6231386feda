//! The supplement for the reviewers of a paper: every result with its blank, limits and verdict; the
//! method validation table; blanks, recoveries, duplicates, reference materials and budgets behind it;
//! the sums of the data package beside it. For reading next to the manuscript, not for neighbours.
//!
//! In: a programme, and names and sums of the files that are handed over. Out: [`Content`]. It only
//! lays out what was computed below. Where a kind of evidence is missing it says so in its place.
//! More than 3,000 results are not printed: they are in the data package, and the supplement says that.
//! The columns of the validation table follow what the trade asks for (Eurachem, The Fitness for
//! Purpose of Analytical Methods, from memory): line, limits, recovery, precision, trueness,
//! interferences, uncertainty.

use super::{Run, methods, section, start, word};
use assessment::derive;
use assessment::results::{self, Listed};
use document::content::{Block, Cell, Column, Content, Section, Table};
use measurement::run::{Analyte, AnalyteSummary, ReducedRun, Role, RunResult};
use message::{Digits, Share, Spoken, step};
use quantity::format::{percent, significant};
use quantity::{Amount, Measured};
use record::Error;
use record::store::Store;
use std::collections::BTreeMap;

/// Results that are printed at most.
const MOST_PRINTED: usize = 3_000;

/// Parts of a budget that are named; the rest is told as one.
const NAMED_PARTS: usize = 4;

/// The supplement of a programme; `sums` are names and sums of the files beside it.
///
/// # Errors
/// A record that is not what was written; the store cannot be read; a run that cannot be reduced.
pub fn supplement(store: &Store, name: &str, sums: &[(String, String)]) -> Result<Content, Error> {
    store.as_written()?;
    let all = results::all(store)?;
    let mut runs = Vec::new();
    for r in store.runs()? {
        if !store.readings(r.id)?.is_empty() {
            let prepared = derive::prepare(store, r)?;
            let reduced = derive::reduce(&prepared)?;
            runs.push(Run { prepared, reduced });
        }
    }
    let mut out = start(store, name, &all)?;
    out.title = format!("Supplement for reviewers. {}", out.title);
    out.asked = vec![];
    out.sections.push(section("What stands here", vec![Block::Text(format!(
        "For the reviewers of a paper: {} results with their blanks, limits and verdicts, the validation of the method from its instrument runs ({}), and the evidence behind it. The folder data beside this file is the whole record as an open data package: tables, raw files, provenance and sums; it reads back into a programme of its own with the same event chain.",
        all.len(),
        runs.len()
    ))]));
    out.sections.extend(runs.iter().map(validation));
    if let Some(reported) = reported(&all) {
        out.sections.push(reported);
    }
    out.sections.push(results_section(&all));
    out.sections.extend(runs.iter().flat_map(|r| [blanks(&r.reduced), recoveries(&r.reduced), budgets(&r.reduced)]));
    out.sections.push(sums_section(sums));
    out.methods = methods::of(!runs.is_empty(), all.iter().any(|r| r.gross.is_none()));
    Ok(out)
}

fn none(why: &str) -> Cell {
    Cell::Missing(why.into())
}

fn text(t: impl Into<String>) -> Cell {
    Cell::Text(t.into())
}

fn number(x: Option<f64>, figures: i32) -> Cell {
    x.filter(|v| v.is_finite()).map_or(none("–"), |v| text(significant(v, figures)))
}

/// Value and standard uncertainty, each to the digits that the uncertainty supports.
fn pair(m: &Measured) -> [Cell; 2] {
    let (value, u) = quantity::format::value_and_expanded(m, 1.0);
    [text(value), text(u)]
}

/// `0.93 ± 0.04`: value and standard uncertainty in one cell.
fn both(m: &Measured) -> Cell {
    let (value, u) = quantity::format::value_and_expanded(m, 1.0);
    text(format!("{value} ± {u}"))
}

/// What tables say under them where `both` stands in them.
const STANDARD: &str = "± is the standard uncertainty, k = 1.";

fn name(a: &Analyte) -> String {
    format!("{} {} {}", a.element, a.isotopes, a.resolution)
}

/// The mean to two digits; the word where there is nothing.
fn middle(values: &[f64], nothing: &str) -> Cell {
    if values.is_empty() { none(nothing) } else { text(significant(measurement::blank::centre(values).value, 2)) }
}

/// `101, s 4 (3)`: mean, standard deviation, number.
fn mean_of(values: &[f64], figures: i32) -> Cell {
    let c = measurement::blank::centre(values);
    match values {
        [] => none("none"),
        [only] => text(format!("{} (1)", significant(*only, figures))),
        _ => text(format!("{}, s {} ({})", significant(c.value, figures), significant(c.sd, 2), values.len())),
    }
}

fn validation(run: &Run) -> Section {
    let reduced = &run.reduced;
    let unit = reduced.results.first().map_or_else(String::new, |r| r.net.unit.to_string());
    let blocks = vec![
        Block::Text("Line and limits hold for an undiluted sample in a bottle as large as those of the blanks. L_C, L_D and L_Q are on the net scale, from the field blanks. P: probability of residuals as large by chance; widened: factor on the points’ own uncertainty where the line did not fit.".into()),
        Block::Table(line_table(reduced, &unit)),
        Block::Table(performance_table(reduced, &unit)),
    ];
    section(&format!("Method validation, run {}", reduced.name), blocks)
}

fn line_table(run: &ReducedRun, unit: &str) -> Table {
    let row = |a: &AnalyteSummary| {
        let highest = a.line.points.iter().map(|p| p.x).fold(0.0, f64::max);
        vec![
            text(name(&a.analyte)),
            text(a.line.points.len().to_string()),
            text(format!("0 to {}", significant(highest, 3))),
            text(significant(a.line.slope, 4)),
            number(Some(a.line.p_lack_of_fit), 2),
            text(significant(a.line.widened, 3)),
            a.blank.as_ref().map_or(none("none"), |b| text(b.n.to_string())),
            number(a.limits.as_ref().map(|l| l.critical_value), 2),
            number(a.limits.as_ref().map(|l| l.detection_limit), 2),
            number(a.limits.as_ref().and_then(|l| l.quantification_limit), 2),
        ]
    };
    Table {
        caption: "Line and limits of each analyte".into(),
        columns: vec![
            Column::words("analyte"),
            Column::numbers("points", ""),
            Column::words(&format!("range, {unit}")),
            Column::numbers("slope", &format!("counts/s per {unit}")),
            Column::numbers("P", ""),
            Column::numbers("widened", ""),
            Column::numbers("field blanks", "n"),
            Column::numbers("L_C", unit),
            Column::numbers("L_D", unit),
            Column::numbers("L_Q", unit),
        ],
        rows: run.analytes.iter().map(row).collect(),
        notes: vec!["A dash: the evidence does not give it.".into()],
    }
}

fn performance_table(run: &ReducedRun, unit: &str) -> Table {
    let row = |a: &AnalyteSummary| {
        let of = |x: &Analyte| *x == a.analyte;
        let spikes: Vec<_> = run.spikes.iter().filter(|s| of(&s.analyte)).collect();
        let recovery: Vec<f64> = spikes.iter().map(|s| 100.0 * s.recovery.value).collect();
        let levels: Vec<f64> = spikes.iter().map(|s| s.level.value).collect();
        let pairs: Vec<f64> =
            run.duplicates.iter().filter(|d| of(&d.analyte)).map(|d| d.relative_percent.abs()).collect();
        let pairs: Vec<f64> = pairs.into_iter().filter(|p| p.is_finite()).collect();
        let trueness: Vec<f64> = run
            .references
            .iter()
            .filter(|r| of(&r.analyte) && is_reference(run, r.position))
            .map(|r| 100.0 * r.recovery.value)
            .collect();
        let waters = || run.results.iter().filter(|r| of(&r.analyte) && is_water(r.role));
        let relative: Vec<f64> =
            waters().filter(|r| r.net.value > 0.0).map(|r| 100.0 * r.net.u / r.net.value).collect();
        vec![
            text(name(&a.analyte)),
            mean_of(&recovery, 3),
            middle(&levels, "–"),
            text(percent(a.between_vials, 2)),
            pairs
                .iter()
                .copied()
                .reduce(f64::max)
                .map_or(none("no pair"), |m| text(format!("{} ({})", significant(m, 2), pairs.len()))),
            mean_of(&trueness, 3),
            text(interference(run, a)),
            middle(&relative, "–"),
        ]
    };
    Table {
        caption: "Recovery, precision, trueness, interferences, uncertainty".into(),
        columns: vec![
            Column::words("analyte"),
            Column::words("recovery, %: mean, s (n)"),
            Column::numbers("water’s level", unit),
            Column::numbers("between vials", "%"),
            Column::words("largest difference of duplicates, % (pairs)"),
            Column::words("reference material, % of assigned"),
            Column::words("overlaps taken off, largest share"),
            Column::numbers("mean u of waters", "%"),
        ],
        rows: run.analytes.iter().map(row).collect(),
        notes: vec![
            "Recovery of spikes in the water of the programme, at its own level. Each spike, pair and reference vial stands below.".into(),
        ],
    }
}

fn is_water(role: Role) -> bool {
    matches!(role, Role::Sample | Role::Duplicate)
}

fn is_reference(run: &ReducedRun, position: u32) -> bool {
    run.results.iter().any(|r| r.position == position && r.role == Role::ReferenceMaterial)
}

/// The overlaps of an analyte with the largest share of counts that was taken off a water.
fn interference(run: &ReducedRun, a: &AnalyteSummary) -> String {
    let isotopes: Vec<&str> = a.analyte.isotopes.split('+').collect();
    let mut species: Vec<&str> = run
        .recipe
        .interferences
        .iter()
        .filter(|i| {
            i.target.element == a.analyte.element
                && i.target.resolution == a.analyte.resolution
                && isotopes.contains(&i.target.mass.to_string().as_str())
        })
        .map(|i| i.species.as_str())
        .collect();
    species.dedup();
    if species.is_empty() {
        return "none in the recipe".into();
    }
    let of = |r: &&RunResult| r.analyte == a.analyte && is_water(r.role);
    let largest = run.results.iter().filter(of).map(|r| r.interference_share).fold(0.0, f64::max);
    format!("{}: {} %", species.join(", "), percent(largest, 2))
}

fn blanks(run: &ReducedRun) -> Section {
    const KINDS: [(Role, &str); 6] = [
        (Role::CalibrationBlank, "calibration"),
        (Role::ProceduralBlank, "procedural"),
        (Role::BottleBlank, "bottle"),
        (Role::TripBlank, "trip"),
        (Role::FieldBlank, "field"),
        (Role::EquipmentBlank, "equipment"),
    ];
    let values = |a: &AnalyteSummary, role: Role| -> Vec<f64> {
        run.results.iter().filter(|r| r.analyte == a.analyte && r.role == role).map(|r| r.gross.value).collect()
    };
    let shown: Vec<_> = KINDS.into_iter().filter(|(role, _)| run.results.iter().any(|r| r.role == *role)).collect();
    let rows = run
        .analytes
        .iter()
        .map(|a| {
            let cells = shown.iter().map(|(role, _)| mean_of(&values(a, *role), 2));
            [text(name(&a.analyte))].into_iter().chain(cells).collect()
        })
        .collect();
    let unit = run.results.first().map_or_else(String::new, |r| r.net.unit.to_string());
    let heading = |(_, word): &(Role, &str)| Column::words(&format!("{word}, {unit}"));
    let table = Table {
        caption: "Blanks by kind: mean, standard deviation (number), gross".into(),
        columns: [Column::words("analyte")].into_iter().chain(shown.iter().map(heading)).collect(),
        rows,
        notes: vec!["Gross: over the zero of the calibration, no other blank taken off. A blank that a person took out of the evidence is not counted; the data package has it with the reason.".into()],
    };
    section(&format!("Blanks, run {}", run.name), vec![Block::Table(table)])
}

fn recoveries(run: &ReducedRun) -> Section {
    let unit = run.results.first().map_or_else(String::new, |r| r.net.unit.to_string());
    let kind = |role: Role| if role == Role::FieldSpike { "field" } else { "laboratory" };
    let spikes = run.spikes.iter().map(|s| {
        vec![
            text(name(&s.analyte)),
            text(&s.vial),
            text(kind(s.role)),
            text(&s.of),
            both(&s.level),
            both(&s.added),
            both(&s.recovery.in_percent()),
        ]
    });
    let pairs = run.duplicates.iter().map(|d| {
        let vial = |p: u32| run.results.iter().find(|r| r.position == p).map_or_else(String::new, |r| r.vial.clone());
        vec![
            text(name(&d.analyte)),
            text(vial(d.of_position)),
            text(vial(d.position)),
            both(&d.difference),
            number(Some(d.relative_percent), 2),
            text(significant(d.allowed, 2)),
        ]
    });
    let references = run.references.iter().filter(|r| is_reference(run, r.position)).map(|r| {
        vec![
            text(name(&r.analyte)),
            text(&r.vial),
            both(&r.found),
            both(&r.assigned),
            text(significant(r.zeta, 2)),
            text(significant(r.e_n, 2)),
        ]
    });
    let table = |caption: &str, headings: &[&str], rows: Vec<Vec<Cell>>| {
        let columns = headings.iter().map(|h| Column::words(*h)).collect();
        Block::Table(Table { caption: format!("{caption}, {unit}"), columns, rows, notes: vec![STANDARD.into()] })
    };
    let blocks = vec![
        table(
            "Spikes",
            &["analyte", "vial", "spiked in the", "water", "level", "added", "recovery, %"],
            spikes.collect(),
        ),
        table(
            "Duplicates",
            &["analyte", "sample", "duplicate", "difference", "% of the mean", "allowed by the budgets"],
            pairs.collect(),
        ),
        table("Reference materials", &["analyte", "vial", "found", "assigned", "zeta", "E_n"], references.collect()),
    ];
    section(&format!("Recoveries, duplicates, reference materials, run {}", run.name), blocks)
}

/// A part of a budget.
fn in_percent(share: f64) -> Share {
    Share::new(share, Digits::Significant(2))
}

fn budgets(run: &ReducedRun) -> Section {
    let unit = run.results.first().map_or_else(String::new, |r| r.net.unit.to_string());
    let rows = run
        .results
        .iter()
        .filter(|r| is_water(r.role))
        .map(|r| {
            let mut parts: Vec<_> = r.budget.iter().collect();
            parts.sort_by(|a, b| b.share.total_cmp(&a.share));
            let named = parts.iter().take(NAMED_PARTS);
            let mut words: Vec<String> =
                named.map(|c| format!("{} {}", c.text(), in_percent(c.share).text())).collect();
            let rest: f64 = parts.iter().skip(NAMED_PARTS).map(|c| c.share).sum();
            if rest > 0.0 {
                let count = message::count(parts.len() - NAMED_PARTS);
                words.push(step::Others { count, share: in_percent(rest) }.text());
            }
            let [value, u] = pair(&r.net);
            vec![text(name(&r.analyte)), text(&r.vial), value, u, text(words.join("; "))]
        })
        .collect();
    let table = Table {
        caption: "Uncertainty budget of each result: share of the variance".into(),
        columns: vec![
            Column::words("analyte"),
            Column::words("vial"),
            Column::numbers("net value", &unit),
            Column::numbers("u", &unit),
            Column::words("where its uncertainty comes from"),
        ],
        rows,
        notes: vec!["The derivation of each result down to the counts stands in data/record/derivation.csv.".into()],
    };
    section(&format!("Budgets, run {}", run.name), vec![Block::Table(table)])
}

/// Results by analyte and unit.
type ByAnalyte<'a> = BTreeMap<(String, String), Vec<&'a Listed>>;

/// What laboratories reported as concentrations: no counts, so no line and no budget of ours.
fn reported(all: &[Listed]) -> Option<Section> {
    let mut groups: BTreeMap<(String, String), ByAnalyte> = BTreeMap::new();
    for r in all.iter().filter(|r| r.gross.is_none() && r.amount.is_some()) {
        let or = |t: &Option<String>, what: &str| t.clone().unwrap_or_else(|| format!("{what} not stated"));
        let group = groups.entry((or(&r.laboratory, "laboratory"), or(&r.method, "method"))).or_default();
        group.entry((r.analyte.clone(), super::unit(r))).or_default().push(r);
    }
    if groups.is_empty() {
        return None;
    }
    let mut blocks = vec![Block::Text("Results that came as concentrations: line, budget and raw counts are with the laboratory. Blanks are those of the same laboratory and method.".into())];
    for ((laboratory, method), analytes) in groups {
        blocks.push(Block::Heading(format!("{laboratory}; {method}")));
        blocks.push(Block::Table(reported_table(&laboratory, analytes)));
    }
    Some(section("Reported results", blocks))
}

fn reported_table(laboratory: &str, analytes: ByAnalyte) -> Table {
    let rows = analytes.into_iter().map(|((analyte, unit), rows)| reported_row(analyte, unit, rows)).collect();
    Table {
        caption: format!("Reported, {laboratory}"),
        columns: vec![
            Column::words("analyte"),
            Column::words("unit"),
            Column::numbers("results", "n"),
            Column::numbers("below", "n"),
            Column::numbers("reporting limit", ""),
            Column::numbers("mean u", "%"),
            Column::numbers("blanks with a value", ""),
            Column::numbers("highest blank", ""),
        ],
        rows,
        notes: vec![],
    }
}

fn reported_row(analyte: String, unit: String, rows: Vec<&Listed>) -> Vec<Cell> {
    let (blanks, waters): (Vec<&Listed>, Vec<&Listed>) = rows.into_iter().partition(|r| r.kind.is_blank());
    let below = waters.iter().filter(|r| matches!(r.amount, Some(Amount::Below(_)))).count();
    let limits = waters.iter().filter_map(|r| r.reporting_limit);
    let (low, high) = limits.fold((f64::INFINITY, 0.0), |(l, h): (f64, f64), x| (l.min(x), h.max(x)));
    let relative = waters.iter().filter_map(|r| {
        let a = r.amount.as_ref()?;
        Some(100.0 * a.u()? / a.value().filter(|v| *v > 0.0)?)
    });
    let relative: Vec<f64> = relative.collect();
    let seen: Vec<f64> = blanks.iter().filter_map(|r| r.amount.as_ref()?.value()).collect();
    let limit = match (significant(low, 3), significant(high, 3)) {
        _ if low > high => none("not stated"),
        (low, high) if low == high => text(low),
        (low, high) => text(format!("{low} to {high}")),
    };
    vec![
        text(analyte),
        text(unit),
        text(waters.len().to_string()),
        text(below.to_string()),
        limit,
        middle(&relative, "not stated"),
        if blanks.is_empty() { none("none") } else { text(format!("{} of {}", seen.len(), blanks.len())) },
        number(seen.iter().copied().reduce(f64::max), 2),
    ]
}

fn results_section(all: &[Listed]) -> Section {
    if all.len() > MOST_PRINTED {
        let sentence = format!(
            "The record holds {} results, too many to print: they stand in data/results.csv and data/parquet/results.parquet with the columns of this table.",
            all.len()
        );
        return section("All results", vec![Block::Text(sentence)]);
    }
    let mut blocks = vec![Block::Text("Newest revision of every result, evidence included. Where not detected the upper bound stands, net values are in data/results.csv.".into())];
    let mut by_analyte: BTreeMap<(&str, &str, &str, String), Vec<&Listed>> = BTreeMap::new();
    for r in all {
        let unit = super::unit(r);
        by_analyte.entry((&r.analyte, &r.isotopes, &r.resolution, unit)).or_default().push(r);
    }
    for ((analyte, isotopes, resolution, _), rows) in by_analyte {
        let what = [analyte, isotopes, resolution].iter().filter(|t| !t.is_empty()).copied().collect::<Vec<_>>();
        blocks.push(Block::Table(results_table(&what.join(" "), &rows)));
    }
    section("All results", blocks)
}

fn results_table(what: &str, rows: &[&Listed]) -> Table {
    let shown = |a: Option<&Amount>| -> [Cell; 2] {
        match a {
            None => [none("–"), none("–")],
            Some(Amount::Measured(m)) => pair(m),
            Some(Amount::Below(b)) => [text(format!("< {}", significant(b.limit, 2))), none("–")],
            Some(Amount::Above(b)) => [text(format!("> {}", significant(b.limit, 2))), none("–")],
            Some(a) => [number(a.value(), 3), none("not stated")],
        }
    };
    let row = |r: &&Listed| {
        let [value, u] = shown(r.amount.as_ref());
        let [gross, _] = shown(r.gross.as_ref());
        let [blank, _] = shown(r.blank.as_ref());
        vec![
            text(&r.bottle),
            text(r.kind.word().replace('-', " ")),
            text(r.state.word().replace('-', " ")),
            value.of(&r.result),
            u,
            gross,
            blank,
            number(r.critical_value, 2),
            number(r.detection_limit, 2),
            word(r).map_or(none("evidence"), Cell::Verdict),
        ]
    };
    let unit = rows.first().map_or_else(String::new, |r| super::unit(r));
    let columns = [
        ("result", unit.as_str()),
        ("u", unit.as_str()),
        ("gross", unit.as_str()),
        ("blank", unit.as_str()),
        ("L_C", unit.as_str()),
        ("L_D", unit.as_str()),
    ];
    let words = |heading: &str| Column::words(heading);
    Table {
        caption: format!("{what}: results with blank, limits and verdict"),
        columns: [words("bottle"), words("kind"), words("state")]
            .into_iter()
            .chain(columns.map(|(heading, unit)| Column::numbers(heading, unit)))
            .chain([words("verdict")])
            .collect(),
        rows: rows.iter().map(row).collect(),
        notes: vec![
            "u: standard uncertainty, k = 1. <: not detected, the number is the upper bound. L_C, L_D: net scale."
                .into(),
        ],
    }
}

fn sums_section(sums: &[(String, String)]) -> Section {
    let rows = sums.iter().map(|(file, sum)| vec![text(file), text(sum)]).collect();
    let table = Table {
        caption: "Files and their sums".into(),
        columns: vec![Column::words("file"), Column::words("SHA-256")],
        rows,
        notes: vec!["data/SHA256SUMS and data/BLAKE3SUMS list every file of the package; the sum of the list itself stands here.".into()],
    };
    section("The data package", vec![Block::Table(table)])
}
