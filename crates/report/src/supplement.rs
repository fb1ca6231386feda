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

use super::{Run, methods, section, start, statements, title, word};
use assessment::derive;
use assessment::organics;
use assessment::results::{self, Listed};
use document::content::{Block, Cell, Column, Content, Section, Table};
use measurement::run::{Analyte, AnalyteSummary, ReducedRun, Role, RunResult};
use message::{Digits, Message, Share, Shown, Spoken, count, supplement as said, word as words};
use quantity::format::significant;
use quantity::{Amount, Contribution, Measured};
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
    let mut earlier = derive::EarlierRuns::default();
    for r in store.runs()? {
        if !store.readings(r.id)?.is_empty() {
            let prepared = derive::prepare_after(store, r, &mut earlier)?;
            let reduced = derive::reduce(&prepared)?;
            runs.push(Run { prepared, reduced });
        }
    }
    let mut out = start(store, name, &store.trips()?, &all)?;
    out.title = said::Title { title: title(&store.sites()?) }.text();
    out.asked = vec![];
    let opening = said::Opening { results: count(all.len()), runs: count(runs.len()) }.text();
    out.sections.push(section(said::WhatStandsHere, vec![Block::Text(opening)]));
    out.sections.extend(runs.iter().map(validation));
    // Long lists of compounds are told by their bounds, not one by one: their rows are in the data package.
    let compounds = organics::Compounds::of(store, &all)?;
    let (lists, others): (Vec<&Listed>, Vec<&Listed>) = all.iter().partition(|r| compounds.holds(&r.analyte));
    if let Some(reported) = reported(&others) {
        out.sections.push(reported);
    }
    out.sections.push(results_section(&others));
    if !lists.is_empty() {
        match organics::report(store, &all, message::language()) {
            Ok(told) => out.sections.extend(told.map(|r| statements::compounds(&r))),
            // A list that cannot be summed up is told; the rest of the supplement stands.
            Err(e @ Error::Science { .. }) => {
                let why = message::statement::CompoundsUnread { why: e.message() };
                out.sections.push(section(message::absence::Compounds, vec![Block::Text(why.text())]));
            }
            Err(e) => return Err(e),
        }
    }
    out.sections.extend(runs.iter().flat_map(|r| [blanks(&r.reduced), recoveries(&r.reduced), budgets(&r.reduced)]));
    out.sections.push(sums_section(sums));
    out.methods = methods::of(!runs.is_empty(), all.iter().any(|r| r.gross.is_none()), super::untaken(store)?);
    Ok(out)
}

fn none(why: impl Into<String>) -> Cell {
    Cell::Missing(why.into())
}

fn text(t: impl Into<String>) -> Cell {
    Cell::Text(t.into())
}

/// To a number of significant digits.
fn digits(x: f64, figures: i32) -> Shown {
    Shown::significant(x, figures, "")
}

fn number(x: Option<f64>, figures: i32) -> Cell {
    x.filter(|v| v.is_finite()).map_or(none("–"), |v| text(digits(v, figures).text()))
}

/// Percent of a share, to two digits.
fn share(x: f64) -> Share {
    Share::new(x, Digits::Significant(2))
}

/// Value and standard uncertainty, each to the digits that the uncertainty supports.
fn pair(m: &Measured) -> [Cell; 2] {
    let decimals = quantity::format::decimals_for(m.u, 2);
    [m.value, m.u].map(|x| text(Shown::decimals(x, decimals, "").text()))
}

/// `0.93 ± 0.08`: value and expanded uncertainty in one cell.
fn both(m: &Measured) -> Cell {
    text(Shown { unit: String::new(), ..m.shown(2.0) }.text())
}

fn name(a: &Analyte) -> String {
    named(&a.element, &a.isotopes, &a.resolution)
}

fn named(element: &str, isotopes: &str, resolution: &str) -> String {
    said::Analyte { element: element.into(), isotopes: isotopes.into(), resolution: resolution.into() }.text()
}

/// The mean to two digits; the word where there is nothing.
fn middle(values: &[f64], nothing: impl Into<String>) -> Cell {
    if values.is_empty() { none(nothing) } else { text(digits(measurement::blank::centre(values).value, 2).text()) }
}

/// `101, s 4 (3)`: mean, standard deviation, number.
fn mean_of(values: &[f64], figures: i32) -> Cell {
    let c = measurement::blank::centre(values);
    match values {
        [] => none(words::None.text()),
        [only] => text(said::MeanOfOne { value: digits(*only, figures) }.text()),
        _ => {
            let (mean, sd, n) = (digits(c.value, figures), digits(c.sd, 2), count(values.len()));
            text(said::Mean { mean, sd, n }.text())
        }
    }
}

fn validation(run: &Run) -> Section {
    let reduced = &run.reduced;
    let unit = reduced.results.first().map_or_else(String::new, |r| r.net.unit.to_string());
    let blocks = vec![
        Block::Text(said::ValidationText.text()),
        Block::Table(line_table(reduced, &unit)),
        Block::Table(performance_table(reduced, &unit)),
    ];
    section(said::Validation { run: reduced.name.as_str().into() }, blocks)
}

fn line_table(run: &ReducedRun, unit: &str) -> Table {
    let row = |a: &AnalyteSummary| {
        let highest = a.line.points.iter().map(|p| p.x).fold(0.0, f64::max);
        vec![
            text(name(&a.analyte)),
            text(a.line.points.len().to_string()),
            text(said::FromZero { highest: digits(highest, 3) }.text()),
            text(digits(a.line.slope, 4).text()),
            number(Some(a.line.p_lack_of_fit), 2),
            text(digits(a.line.widened, 3).text()),
            a.blank.as_ref().map_or_else(|| none(words::None.text()), |b| text(b.n.to_string())),
            number(a.limits.as_ref().map(|l| l.critical_value), 2),
            number(a.limits.as_ref().map(|l| l.detection_limit), 2),
            number(a.limits.as_ref().and_then(|l| l.quantification_limit), 2),
        ]
    };
    Table {
        caption: said::Line.text(),
        columns: vec![
            Column::words(words::Analyte.text()),
            Column::numbers(said::Points.text(), ""),
            Column::words(said::Range { unit: unit.into() }.text()),
            Column::numbers(words::Slope.text(), &said::Response { unit: unit.into() }.text()),
            Column::numbers("P", ""),
            Column::numbers(said::Widened.text(), ""),
            Column::numbers(words::FieldBlanks.text(), "n"),
            Column::numbers("L_C", unit),
            Column::numbers("L_D", unit),
            Column::numbers("L_Q", unit),
        ],
        rows: run.analytes.iter().map(row).collect(),
        notes: vec![said::Dash.text()],
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
        // Over a net value at or below zero a relative u means nothing.
        let relative: Vec<f64> =
            waters().filter(|r| r.net.value > 0.0).map(|r| 100.0 * r.net.u / r.net.value).collect();
        vec![
            text(name(&a.analyte)),
            mean_of(&recovery, 3),
            middle(&levels, "–"),
            text(digits(100.0 * a.between_vials, 2).text()),
            pairs.iter().copied().reduce(f64::max).map_or_else(
                || none(said::NoPair.text()),
                |m| text(said::Largest { largest: digits(m, 2), n: count(pairs.len()) }.text()),
            ),
            mean_of(&trueness, 3),
            text(interference(run, a)),
            middle(&relative, "–"),
        ]
    };
    Table {
        caption: said::Performance.text(),
        columns: vec![
            Column::words(words::Analyte.text()),
            Column::words(said::RecoveryMean.text()),
            Column::numbers(said::LevelOfWater.text(), unit),
            Column::numbers(words::BetweenVials.text(), "%"),
            Column::words(said::DifferenceOfDuplicates.text()),
            Column::words(said::ReferenceOfAssigned.text()),
            Column::words(said::OverlapsTakenOff.text()),
            Column::numbers(said::MeanU.text(), "%"),
        ],
        rows: run.analytes.iter().map(row).collect(),
        notes: vec![said::PerformanceNote.text()],
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
        return said::NoOverlap.text();
    }
    let of = |r: &&RunResult| r.analyte == a.analyte && is_water(r.role);
    let largest = run.results.iter().filter(of).map(|r| r.interference_share).fold(0.0, f64::max);
    said::Overlaps { species: species.join(", ").into(), share: share(largest) }.text()
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
    // Gross: with the field blanks taken off, the field blanks would scatter about zero and show no level.
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
    let heading = |(_, kind): &(Role, &str)| {
        Column::words(said::BlankKind { kind: (*kind).into(), unit: unit.as_str().into() }.text())
    };
    let table = Table {
        caption: said::BlanksByKind.text(),
        columns: [Column::words(words::Analyte.text())].into_iter().chain(shown.iter().map(heading)).collect(),
        rows,
        notes: vec![said::BlanksNote.text()],
    };
    section(said::Blanks { run: run.name.as_str().into() }, vec![Block::Table(table)])
}

fn recoveries(run: &ReducedRun) -> Section {
    let unit = run.results.first().map_or_else(String::new, |r| r.net.unit.to_string());
    let kind = |role: Role| if role == Role::FieldSpike { said::Field.text() } else { said::Laboratory.text() };
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
            text(digits(d.allowed, 2).text()),
        ]
    });
    // Drift checks with a value are among the references too, but they also corrected the drift of the run.
    let references = run.references.iter().filter(|r| is_reference(run, r.position)).map(|r| {
        vec![
            text(name(&r.analyte)),
            text(&r.vial),
            both(&r.found),
            both(&r.assigned),
            text(digits(r.zeta, 2).text()),
            text(digits(r.e_n, 2).text()),
        ]
    });
    let unit = || unit.as_str().into();
    let table = |caption: String, columns: Vec<Column>, rows: Vec<Vec<Cell>>| {
        Block::Table(Table { caption, columns, rows, notes: vec![said::Standard.text()] })
    };
    let blocks = vec![
        table(
            said::Spikes { unit: unit() }.text(),
            vec![
                Column::words(words::Analyte.text()),
                Column::words(said::Vial.text()),
                Column::words(said::SpikedIn.text()),
                Column::words(words::Water.text()),
                Column::words(said::Level.text()),
                Column::words(said::Added.text()),
                Column::words(said::Recovery.text()),
            ],
            spikes.collect(),
        ),
        table(
            said::Duplicates { unit: unit() }.text(),
            vec![
                Column::words(words::Analyte.text()),
                Column::words(words::Sample.text()),
                Column::words(said::Duplicate.text()),
                Column::words(said::Difference.text()),
                Column::words(said::OfTheMean.text()),
                Column::words(said::Allowed.text()),
            ],
            pairs.collect(),
        ),
        table(
            said::References { unit: unit() }.text(),
            vec![
                Column::words(words::Analyte.text()),
                Column::words(said::Vial.text()),
                Column::words(words::Found.text()),
                Column::words(said::Assigned.text()),
                Column::words("zeta"),
                Column::words("E_n"),
            ],
            references.collect(),
        ),
    ];
    section(said::Recoveries { run: run.name.as_str().into() }, blocks)
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
            let part = |c: &&Contribution| said::Part { input: c.text().into(), share: share(c.share) }.text();
            let mut told: Vec<String> = named.map(part).collect();
            let rest: f64 = parts.iter().skip(NAMED_PARTS).map(|c| c.share).sum();
            if rest > 0.0 {
                told.push(said::Others { parts: count(parts.len() - NAMED_PARTS), share: share(rest) }.text());
            }
            let [value, u] = pair(&r.net);
            vec![text(name(&r.analyte)), text(&r.vial), value, u, text(told.join("; "))]
        })
        .collect();
    let table = Table {
        caption: said::Budget.text(),
        columns: vec![
            Column::words(words::Analyte.text()),
            Column::words(said::Vial.text()),
            Column::numbers(said::NetValue.text(), &unit),
            Column::numbers("u", &unit),
            Column::words(said::ComesFrom.text()),
        ],
        rows,
        notes: vec![said::BudgetNote.text()],
    };
    section(said::Budgets { run: run.name.as_str().into() }, vec![Block::Table(table)])
}

/// Results by method, analyte and unit.
type ByAnalyte<'a> = BTreeMap<(String, String, String), Vec<&'a Listed>>;

/// What laboratories reported as concentrations: no counts, so no line and no budget of ours.
fn reported(all: &[&Listed]) -> Option<Section> {
    let mut groups: BTreeMap<String, ByAnalyte> = BTreeMap::new();
    for r in all.iter().filter(|r| r.gross.is_none() && r.amount.is_some()) {
        let laboratory = r.laboratory.as_deref().map_or_else(|| said::LaboratoryNotStated.text(), str::to_string);
        let method = r.method.as_deref().map_or_else(|| said::MethodNotStated.text(), str::to_string);
        let group = groups.entry(laboratory).or_default();
        group.entry((method, r.analyte.clone(), super::unit(r))).or_default().push(r);
    }
    if groups.is_empty() {
        return None;
    }
    let mut blocks = vec![Block::Text(said::ReportedText.text())];
    blocks.extend(groups.into_iter().map(|(laboratory, of)| Block::Table(reported_table(&laboratory, of))));
    Some(section(said::Reported, blocks))
}

fn reported_table(laboratory: &str, analytes: ByAnalyte) -> Table {
    let row = |((method, analyte, unit), rows): ((String, String, String), Vec<&Listed>)| {
        [reported_row(&analyte, unit, rows), vec![text(method)]].concat()
    };
    let rows = analytes.into_iter().map(row).collect();
    Table {
        caption: said::ReportedBy { laboratory: laboratory.into() }.text(),
        columns: vec![
            Column::words(words::Analyte.text()),
            Column::words(words::Unit.text()),
            Column::numbers(said::Results.text(), "n"),
            Column::numbers(said::Below.text(), "n"),
            Column::numbers(said::ReportingLimit.text(), ""),
            Column::numbers(said::MeanUOfReported.text(), "%"),
            Column::numbers(said::BlanksWithValue.text(), ""),
            Column::numbers(said::HighestBlank.text(), ""),
            Column::words(said::Method.text()),
        ],
        rows,
        notes: vec![],
    }
}

fn reported_row(analyte: &str, unit: String, rows: Vec<&Listed>) -> Vec<Cell> {
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
    let limit = if low > high {
        none(said::NotStated.text())
    } else if significant(low, 3) == significant(high, 3) {
        text(digits(low, 3).text())
    } else {
        text(said::FromTo { low: digits(low, 3), high: digits(high, 3) }.text())
    };
    let with_value = said::Of { found: count(seen.len()), blanks: count(blanks.len()) };
    vec![
        text(analyte.to_string()),
        text(unit),
        text(waters.len().to_string()),
        text(below.to_string()),
        limit,
        middle(&relative, said::NotStated.text()),
        if blanks.is_empty() { none(words::None.text()) } else { text(with_value.text()) },
        number(seen.iter().copied().reduce(f64::max), 2),
    ]
}

/// Results of an analyte that have a table of their own, at least; of fewer, all stand in one table.
const OWN_TABLE: usize = 6;

fn results_section(all: &[&Listed]) -> Section {
    if all.len() > MOST_PRINTED {
        let sentence = said::TooMany { results: count(all.len()) }.text();
        return section(said::All, vec![Block::Text(sentence)]);
    }
    let mut blocks = vec![Block::Text(said::AllText.text())];
    let mut by_analyte: BTreeMap<(&str, &str, &str, String), Vec<&Listed>> = BTreeMap::new();
    for r in all.iter().copied() {
        let unit = super::unit(r);
        by_analyte.entry((&r.analyte, &r.isotopes, &r.resolution, unit)).or_default().push(r);
    }
    // Without isotopes a laboratory reported it: it has no blank of ours taken off and no limits on the net scale.
    let (own, few): (Vec<_>, Vec<_>) =
        by_analyte.into_iter().partition(|((_, isotopes, ..), rows)| !isotopes.is_empty() && rows.len() >= OWN_TABLE);
    for ((analyte, isotopes, resolution, _), rows) in own {
        blocks.push(Block::Table(results_table(named(analyte, isotopes, resolution), &rows)));
    }
    let few: Vec<&Listed> = few.into_iter().flat_map(|(_, rows)| rows).collect();
    if !few.is_empty() {
        blocks.push(Block::Table(few_table(&few)));
    }
    section(said::All, blocks)
}

/// What a row is by a word of the record: "field blank".
fn row_word(room: &str, word: &str) -> Cell {
    text(Message::named(room, word).map_or_else(|| word.replace('-', " "), |m| m.text()))
}

/// Results of substances with few of them, each row with its substance and unit.
fn few_table(rows: &[&Listed]) -> Table {
    let row = |r: &&Listed| {
        let isotopes = || named(&r.analyte, &r.isotopes, &r.resolution);
        vec![
            text(if r.isotopes.is_empty() { super::substance(&r.analyte) } else { isotopes() }),
            text(&r.bottle),
            row_word("kind", r.kind.word()),
            row_word("state", r.state.word()),
            text(super::unit(r)),
            r.amount.as_ref().map_or(none("–"), |a| shown(Some(a))[0].clone()).of(&r.result),
            shown(r.amount.as_ref())[1].clone(),
            number(r.reporting_limit.or(r.detection_limit), 2),
            word(r).map_or_else(|| none(said::Evidence.text()), Cell::Verdict),
        ]
    };
    Table {
        caption: said::OtherResults.text(),
        columns: vec![
            Column::words(words::Analyte.text()),
            Column::words(words::Bottle.text()),
            Column::words(said::Kind.text()),
            Column::words(said::State.text()),
            Column::words(words::Unit.text()),
            Column::numbers(words::Result.text(), ""),
            Column::numbers("u", ""),
            Column::numbers(said::ReportingLimit.text(), ""),
            Column::words(words::Verdict.text()),
        ],
        rows: rows.iter().map(row).collect(),
        notes: std::iter::once(said::OthersNote.text())
            .chain(super::accepted_by(rows.iter().copied()).into_iter().map(|m| m.text()))
            .collect(),
    }
}

/// An amount and its standard uncertainty, in two cells.
fn shown(a: Option<&Amount>) -> [Cell; 2] {
    let bound =
        |relation: &str, limit| [text(Shown { relation: relation.into(), ..digits(limit, 2) }.text()), none("–")];
    match a {
        None => [none("–"), none("–")],
        Some(Amount::Measured(m)) => pair(m),
        Some(Amount::Below(b)) => bound("<", b.limit),
        Some(Amount::Above(b)) => bound(">", b.limit),
        Some(a) => [number(a.value(), 3), none(said::NotStated.text())],
    }
}

fn results_table(what: String, rows: &[&Listed]) -> Table {
    let row = |r: &&Listed| {
        let [value, u] = shown(r.amount.as_ref());
        let [gross, _] = shown(r.gross.as_ref());
        let [blank, _] = shown(r.blank.as_ref());
        vec![
            text(&r.bottle),
            row_word("kind", r.kind.word()),
            row_word("state", r.state.word()),
            value.of(&r.result),
            u,
            gross,
            blank,
            number(r.critical_value, 2),
            number(r.detection_limit, 2),
            word(r).map_or_else(|| none(said::Evidence.text()), Cell::Verdict),
        ]
    };
    let unit = rows.first().map_or_else(String::new, |r| super::unit(r));
    Table {
        caption: said::ResultsOf { analyte: what.into() }.text(),
        columns: vec![
            Column::words(words::Bottle.text()),
            Column::words(said::Kind.text()),
            Column::words(said::State.text()),
            Column::numbers(words::Result.text(), &unit),
            Column::numbers("u", &unit),
            Column::numbers(words::Gross.text(), &unit),
            Column::numbers(words::Blank.text(), &unit),
            Column::numbers("L_C", &unit),
            Column::numbers("L_D", &unit),
            Column::words(words::Verdict.text()),
        ],
        rows: rows.iter().map(row).collect(),
        notes: std::iter::once(said::ResultsNote.text())
            .chain(super::accepted_by(rows.iter().copied()).into_iter().map(|m| m.text()))
            .collect(),
    }
}

fn sums_section(sums: &[(String, String)]) -> Section {
    let rows = sums.iter().map(|(file, sum)| vec![text(file), text(sum)]).collect();
    let table = Table {
        caption: said::Sums.text(),
        columns: vec![Column::words(said::File.text()), Column::words("SHA-256")],
        rows,
        notes: vec![said::SumsNote.text()],
    };
    section(said::Package, vec![Block::Table(table)])
}
