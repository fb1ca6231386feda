//! Sections on results that were derived from counts: verdicts, tables, paths, the run itself.

use super::substance;
use super::words::{capital, numbers_of_share};
use super::{Run, derived, detection, path, section, unit, word};
use assessment::results::{Listed, coverage_k};
use assessment::well_value::{Part, Told, WellValue};
use cleanliness::share::Left;
use document::content::{Annex, Block, Cell, Column, Content, Illustration, Share, Table, Verdict};
use figure::blanks::{Blank, BlankKind, BlanksPicture};
use figure::line::{Fitted, LinePicture, Standard};
use figure::overview::{OverviewPicture, OverviewRow};
use figure::sequence::{CheckReading, InternalReading, SequencePicture, VialKind};
use figure::{self, Figure, Head, PHONE, WIDE, slug};
use measurement::run::{Analyte, AnalyteSummary, Isotope, Role};
use message::{Arg, Message, Shown, Spoken, chapter, run as said, well_value, word as common};
use programme::case::{self, Case};
use quantity::factor::S_PER_MIN;
use quantity::{Amount, Check, Outcome};
use record::Error;
use record::model::{Bears, VerdictWord};
use record::store::Store;
use record::words::{BottleKind, State};
use statistics::normal;
use std::collections::BTreeMap;

/// The element that the key results are of: lead where it was measured.
fn key_element<'a>(measured: &[&'a Listed]) -> &'a str {
    measured.iter().map(|r| r.analyte.as_str()).find(|a| *a == "Pb").unwrap_or(measured[0].analyte.as_str())
}

/// Fills verdicts, findings in words, and the annexes of results and runs. Answers the cases of the key results.
pub fn fill(
    store: &Store,
    measured: &[&Listed],
    runs: &[&Run],
    (key, wells): (Option<&str>, &[WellValue]),
    out: &mut Content,
) -> Result<Vec<Case>, Error> {
    let key = key.filter(|k| measured.iter().any(|r| r.analyte == *k)).unwrap_or_else(|| key_element(measured));
    let waters: Vec<&Listed> = measured.iter().copied().filter(|r| r.verdict.is_some()).collect();
    let mut cases = Vec::new();
    for r in key_results(&waters, key) {
        cases.push(case::of(store, &r.result)?);
    }
    let of_wells = of_wells(store, &cases, wells)?;
    out.found = found(&waters, &of_wells, key);
    out.verdicts = of_wells.iter().flat_map(verdicts).collect();
    if !waters.is_empty() {
        out.sections.push(section(said::Results, results_blocks(&waters, wells, key)).within(Annex::Results));
    }
    let mut blocks = vec![];
    for c in &cases {
        let element = capital(substance(&c.result.analyte)).into();
        blocks.push(Block::Heading(said::AtWell { element, well: well_of(&c.result).into() }.text()));
        // What is not met and not known stands in the chapters on the path.
        let met: Vec<quantity::Finding> = told(c).into_iter().filter(|f| f.outcome == Outcome::Met).collect();
        blocks.push(Block::Findings(met));
    }
    if !blocks.is_empty() {
        out.sections.push(section(said::PathOf { element: substance(key).into() }, blocks).within(Annex::Results));
    }
    let lead_sources = store.lead_sources()?;
    for run in runs {
        let mut blocks = run_blocks(run, key);
        // The run in time and the blanks stand in their chapters.
        let recoveries = recoveries(run).caption;
        let in_chapter = |b: &Block| match b {
            Block::Figure(f) => f.wide.id.starts_with("sequence-") || f.wide.id.starts_with("blanks-"),
            Block::Table(t) => t.caption == recoveries,
            _ => false,
        };
        if runs.len() == 1 {
            blocks.retain(|b| !in_chapter(b));
        }
        blocks.extend(detection::blocks(run, key));
        blocks.extend(super::lead::blocks(run, &lead_sources, &|bottle| waters.iter().any(|r| r.bottle == bottle)));
        blocks.extend(super::dust::blocks(run));
        let title = said::TheRun { run: run.reduced.name.as_str().into() };
        out.sections.push(section(title, blocks).within(Annex::Runs));
    }
    Ok(cases)
}

/// The path of each of these: picture, what is not met and not known in words, what is met folded to a line.
pub(super) fn paths(store: &Store, cases: &[&Case], runs: &[Run], invented: bool) -> Result<Vec<Block>, Error> {
    let mut blocks = vec![];
    for c in cases {
        let element = capital(substance(&c.result.analyte)).into();
        if cases.len() > 1 {
            blocks.push(Block::Heading(said::AtWell { element, well: well_of(&c.result).into() }.text()));
        }
        if let Some(picture) = path::illustration(store, c, runs, invented)? {
            blocks.push(Block::Figure(picture));
        }
        let open: Vec<quantity::Finding> =
            c.findings.iter().filter(|f| f.outcome != Outcome::Met).map(as_sentence).collect();
        if !open.is_empty() {
            blocks.push(Block::Findings(open));
        }
        let mut stages: Vec<(quantity::Stage, i64)> = vec![];
        for f in c.findings.iter().filter(|f| f.outcome == Outcome::Met) {
            match stages.iter_mut().find(|s| s.0 == f.stage) {
                Some(s) => s.1 += 1,
                None => stages.push((f.stage, 1)),
            }
        }
        let met = |(stage, n): (quantity::Stage, i64)| -> Arg {
            Message::from(chapter::MetAt { n, stage: stage_said(stage) }).into()
        };
        if !stages.is_empty() {
            blocks.push(Block::Text(chapter::Met { stages: stages.into_iter().map(met).collect() }.text()));
        }
    }
    Ok(blocks)
}

/// The name of a stage, the last one too.
fn stage_said(stage: quantity::Stage) -> Message {
    if stage == quantity::Stage::Meaning { message::document::Meaning.into() } else { stage.said() }
}

/// The run in time, its control waters and spikes, for the chapter on it.
pub(super) fn in_short(runs: &[&Run], key: &str) -> Vec<Block> {
    let mut blocks = vec![];
    for run in runs {
        if runs.len() > 1 {
            blocks.push(Block::Heading(said::TheRun { run: run.reduced.name.as_str().into() }.text()));
        }
        blocks.push(Block::Table(recoveries(run)));
        if runs.len() == 1 {
            blocks.extend(sequence(run, key).map(Block::Figure));
        }
    }
    blocks
}

/// The blanks of the key element on one axis, for the chapter on where it comes from.
pub(super) fn blanks_of_key(runs: &[&Run], key: &str) -> Vec<Block> {
    let [run] = runs else { return vec![] };
    let summary = run.reduced.analytes.iter().find(|a| a.analyte.element == key);
    summary.map(|a| Block::Figure(blanks(run, a))).into_iter().collect()
}

/// The well of a result, or its bottle where none is known.
fn well_of(r: &Listed) -> &str {
    r.well.as_deref().unwrap_or(&r.bottle)
}

/// One bottle a well for the key element: the first sample.
fn key_results<'a>(waters: &[&'a Listed], key: &str) -> Vec<&'a Listed> {
    let mut out: Vec<&Listed> = vec![];
    for r in waters.iter().copied().filter(|r| r.analyte == key && r.kind == BottleKind::Sample) {
        if !out.iter().any(|o| o.well == r.well) {
            out.push(r);
        }
    }
    // The best supported first.
    out.sort_by_key(|r| r.verdict);
    out
}

/// What a well is said to hold, with the case of the bottle in it that its verdict hangs on.
struct OfWell<'a> {
    value: Option<&'a WellValue>,
    case: Case,
}

/// The value of the well that each key result is of; none where it is of no well.
fn of_wells<'a>(store: &Store, cases: &[Case], wells: &'a [WellValue]) -> Result<Vec<OfWell<'a>>, Error> {
    let mut out = vec![];
    for c in cases {
        let r = &c.result;
        let holds = |w: &&WellValue| {
            w.is_of(&r.analyte, &r.isotopes, &r.resolution)
                && w.bottles.iter().chain(&w.left_out).any(|p| p.bottle == r.bottle)
        };
        let value = wells.iter().find(holds);
        let named = |p: &Part| p.result.clone();
        let mut case = c.clone();
        for result in value.into_iter().flat_map(|w| &w.bottles).filter_map(named) {
            let other = if result == r.result { c.clone() } else { case::of(store, &result)? };
            if value.is_some_and(|w| other.result.verdict == w.verdict) {
                case = other;
                break;
            }
        }
        out.push(OfWell { value, case });
    }
    Ok(out)
}

/// Findings worth a reader's time: those not met and not known, and the decisive ones that are met.
fn told(c: &Case) -> Vec<quantity::Finding> {
    const ALWAYS: [Check; 8] = [
        Check::WellContactTime,
        Check::AirClass,
        Check::BottleLotBlank,
        Check::CoolBoxSeal,
        Check::RunBlankCount,
        Check::RunReferenceMaterial,
        Check::NumberRecovery,
        Check::NumberDuplicates,
    ];
    c.findings.iter().filter(|f| f.outcome != Outcome::Met || ALWAYS.contains(&f.check)).map(as_sentence).collect()
}

/// A finding whose text is a sentence, in the language of the report.
fn as_sentence(f: &quantity::Finding) -> quantity::Finding {
    quantity::Finding { sentence: f.as_sentence(), message: None, language: message::language(), ..f.clone() }
}

fn found(waters: &[&Listed], of_wells: &[OfWell], key: &str) -> Vec<String> {
    let mut out = vec![];
    for OfWell { value, case: c } in of_wells {
        let r = &c.result;
        let element = capital(substance(key));
        let found = match value {
            Some(value) => value.sentence(&element).text(),
            None => said::Found { element: element.into(), well: well_of(r).into(), result: in_line(r) }.text(),
        };
        out.push(format!("{found} {}", why(c)));
    }
    let count = |w: VerdictWord| message::count(waters.iter().filter(|r| r.verdict == Some(w)).count());
    let verdicts = said::Verdicts {
        results: message::count(waters.len()),
        accepted: count(VerdictWord::Accepted),
        provisional: count(VerdictWord::Provisional),
        rejected: count(VerdictWord::Rejected),
    };
    out.push(verdicts.text());
    out.extend(super::accepted_by(waters.iter().copied()).into_iter().map(|m| m.text()));
    out
}

/// Value, expanded uncertainty, state and what the blanks leave.
fn in_line(r: &Listed) -> Message {
    let value: Message = match (&r.amount, r.coverage_k) {
        (Some(Amount::Below(bound)), _) if r.bears == Bears::AtMost => {
            r.at_most().unwrap_or_else(|| Amount::Below(bound.clone()).with_u())
        }
        (Some(Amount::Measured(m)), Some(k)) => {
            said::Value { amount: m.shown(k), k: Shown::significant(k, 3, "") }.into()
        }
        // A bound says how much may be there, the detection limit how much would have been seen.
        (Some(below @ Amount::Below(b)), _) => match r.detection_limit {
            Some(l) => {
                let limit = Shown::significant(l, 2, b.unit.to_string());
                said::ValueAndDetectionLimit { value: below.with_u(), limit }.into()
            }
            None => below.with_u(),
        },
        (Some(other), _) => other.with_u(),
        (None, _) if matches!(r.state, State::NotDetected | State::AboveRange) => said::ValueUnstated.into(),
        (None, _) => said::ValueUntold.into(),
    };
    let result: Message = said::ValueAndState { value, state: state(r.state) }.into();
    match &r.water_share {
        Some(s) => said::ResultAndShare { result, share: s.says() }.into(),
        None => result,
    }
}

/// What may be claimed of a result.
fn state(state: State) -> Message {
    match state {
        State::Quantified => said::Quantified.into(),
        State::Detected => common::Detected.into(),
        State::NotDetected => said::NotDetected.into(),
        State::NotDecided => said::NotDecided.into(),
        State::Estimated => said::Estimated.into(),
        State::AboveRange => said::AboveRange.into(),
    }
}

/// Filtered or not.
fn fraction(name: &str) -> Message {
    said::Fraction { fraction: name.into() }.into()
}

fn why(c: &Case) -> String {
    match c.result.verdict {
        Some(VerdictWord::Accepted) => match c.result.accepted_by() {
            Some(profile) => super::accepted_of(1, profile).text(),
            None => said::WhyAccepted.text(),
        },
        Some(VerdictWord::Provisional) => format!("{} {}", said::WhyProvisional.text(), reasons(c).join(" ")),
        Some(VerdictWord::Rejected) => format!("{} {}", said::WhyRejected.text(), reasons(c).join(" ")),
        None => String::new(),
    }
}

/// The sentences of the checks that decided.
fn reasons(c: &Case) -> Vec<String> {
    c.findings
        .iter()
        .filter(|f| c.result.reasons.iter().any(|r| r == f.check.text()) && f.outcome != Outcome::Met)
        .map(|f| capital(f.text()))
        .collect()
}

/// The verdict on a well; on each of its bottles where they disagree.
fn verdicts(of: &OfWell) -> Vec<Verdict> {
    let plain = verdict(&of.case);
    match of.value.map(|w| (w, &w.told)) {
        None => vec![plain],
        Some((_, Told::Value { amount, coverage_k, .. })) => {
            vec![Verdict { amount: amount.clone(), k: *coverage_k, bound: None, ..plain }]
        }
        Some((w, Told::AtMost { amount, .. })) => vec![Verdict { amount: amount.clone(), bound: w.bound(), ..plain }],
        Some((w, Told::NoNumber)) => {
            let subject = |p: &Part| said::SubjectOfBottle {
                subject: plain.subject.as_str().into(),
                bottle: p.bottle.as_str().into(),
            };
            let of_bottle = |p: &Part| {
                let amount = p.amount.clone()?;
                let k = if let Amount::Measured(m) = &amount { coverage_k(m.dof) } else { 2.0 };
                let (result, share, bound) = (p.result.clone(), None, p.bound());
                Some(Verdict { subject: subject(p).text(), amount, k, bound, result, share, ..plain.clone() })
            };
            w.bottles.iter().filter_map(of_bottle).collect()
        }
    }
}

fn verdict(c: &Case) -> Verdict {
    let r = &c.result;
    let mut because = reasons(c);
    if because.is_empty() {
        let kept = [Check::NumberRecovery, Check::NumberDuplicates, Check::RunReferenceMaterial];
        because = c.findings.iter().filter(|f| kept.contains(&f.check)).map(quantity::Finding::as_sentence).collect();
    }
    because.extend(r.accepted_by().map(|profile| super::accepted_of(1, profile).text()));
    Verdict {
        subject: said::Subject {
            well: well_of(r).into(),
            element: substance(&r.analyte).into(),
            fraction: fraction(&r.fraction),
        }
        .text(),
        amount: derived(r),
        k: r.coverage_k.unwrap_or(2.0),
        bound: r.bound().map(|(bound, _)| bound),
        word: word(r).expect("key results have a verdict"),
        share: r.water_share.map(|s| Share { value: s.share, lo: s.low, hi: s.high, is: s.is }),
        because,
        signed: c.sign_offs.last().map(|s| format!("{}: {}", s.person, s.why)),
        result: Some(r.result.clone()),
    }
}

/// One row a well and element: the value from the bottles that agree, or those that disagree side by side.
fn table_of_wells(wells: &[WellValue]) -> Table {
    let mut rows: Vec<&WellValue> = wells.iter().collect();
    rows.sort_by_key(|w| (&w.analyte, &w.isotopes, &w.water));
    let value = |w: &WellValue| match &w.told {
        Told::Value { amount, coverage_k, .. } => Cell::Amount { amount: amount.clone(), k: *coverage_k },
        Told::AtMost { amount, found: None } => Cell::Amount { amount: amount.clone(), k: 2.0 },
        // A bound on what was found is not what is written for nothing found.
        Told::AtMost { .. } => Cell::Text(w.number()),
        Told::NoNumber => Cell::Text(well_value::Disagree.text()),
    };
    let labels = |parts: &[Part]| {
        let labels: Vec<Arg> = parts.iter().map(|p| Arg::Name(p.bottle.as_str().into())).collect();
        Arg::from(labels).text()
    };
    // What is the same in every row stands once, in the note.
    let same_day =
        rows.iter().all(|w| (&w.water.day, &w.water.fraction) == (&rows[0].water.day, &rows[0].water.fraction));
    let row = |w: &&WellValue| {
        let word = w.verdict.map(super::verdict_word);
        let mut cells = vec![
            Cell::Text(format!("{} {}", w.analyte, w.isotopes)),
            Cell::Text(w.water.well.clone().unwrap_or_default()),
        ];
        if !same_day {
            cells.push(Cell::Text(w.water.day.clone()));
            cells.push(Cell::Text(fraction(&w.water.fraction).text()));
        }
        cells.extend([
            value(w),
            Cell::Text(if w.told == Told::NoNumber { w.number() } else { labels(&w.bottles) }),
            w.number_with_all_back().map_or(Cell::Missing("–".into()), Cell::Text),
            word.map_or(Cell::Missing("–".into()), Cell::Verdict),
        ]);
        cells
    };
    let unit = wells.iter().find_map(|w| w.common.as_ref()).map_or_else(String::new, |c| c.value.unit.to_string());
    let mut columns = vec![Column::words(common::Element.text()), Column::words(common::Well.text())];
    let mut notes = vec![];
    match rows.first().filter(|_| same_day) {
        Some(w) => notes.push(
            well_value::AllOfDay { day: w.water.day.clone().into(), fraction: fraction(&w.water.fraction) }.text(),
        ),
        None => columns.extend([Column::words(well_value::Day.text()), Column::words(well_value::Fraction.text())]),
    }
    columns.extend([
        Column::numbers(common::Found.text(), &unit),
        Column::words(well_value::BottlesInIt.text()),
        Column::words(well_value::PutBack.text()),
        Column::words(common::Verdict.text()),
    ]);
    notes.push(well_value::TableNote.text());
    let accepted = |w: &&&WellValue| w.verdict == Some(VerdictWord::Accepted);
    let profiles: std::collections::BTreeSet<&str> =
        rows.iter().filter(accepted).filter_map(|w| w.profile.as_deref()).collect();
    for profile in profiles {
        let of = rows.iter().filter(accepted).filter(|w| w.profile.as_deref() == Some(profile)).count();
        notes.push(super::accepted_of(of, profile).text());
    }
    Table { caption: well_value::Caption.text(), columns, rows: rows.iter().map(row).collect(), notes }
}

fn results_blocks(waters: &[&Listed], values: &[WellValue], key: &str) -> Vec<Block> {
    let mut wells: Vec<&str> = waters.iter().filter_map(|r| r.well.as_deref()).collect();
    wells.sort_unstable();
    wells.dedup();
    let mut blocks = vec![Block::Figure(overview(waters, key))];
    if !values.is_empty() {
        blocks.push(Block::Table(table_of_wells(values)));
    }
    for well in wells {
        let rows: Vec<&Listed> = waters.iter().copied().filter(|r| r.well.as_deref() == Some(well)).collect();
        blocks.push(Block::Table(table(well, &rows)));
    }
    blocks
}

/// One row an analyte and bottle.
fn table(well: &str, rows: &[&Listed]) -> Table {
    let unit = unit(rows[0]);
    let mut rows: Vec<&Listed> = rows.to_vec();
    rows.sort_by(|a, b| (&a.analyte, &a.isotopes, &a.bottle).cmp(&(&b.analyte, &b.isotopes, &b.bottle)));
    let mut fractions: Vec<&str> = rows.iter().map(|r| r.fraction.as_str()).collect();
    fractions.sort_unstable();
    fractions.dedup();
    let fractions = fractions.into_iter().map(|f| Arg::from(fraction(f))).collect();
    let left = left_by_blanks(&rows);
    let mut notes = vec![said::LimitsExplained.text(), said::AsAcidified.text()];
    notes.extend(left.notes);
    notes.extend(super::accepted_by(rows.iter().copied()).into_iter().map(|m| m.text()));
    // What the field said of a bottle stands where its result is held back.
    let mut noted: BTreeMap<&str, &str> = BTreeMap::new();
    noted.extend(rows.iter().filter(|r| !r.reasons.is_empty()).filter_map(|r| Some((&*r.bottle, r.note.as_deref()?))));
    notes.extend(noted.into_iter().map(|(b, note)| said::FieldNote { bottle: b.into(), note: note.into() }.text()));
    Table {
        caption: said::Concentrations { well: well.into(), fractions }.text(),
        columns: vec![
            Column::words(common::Element.text()),
            Column::words(common::Isotopes.text()),
            Column::words(common::Bottle.text()),
            Column::numbers(common::Found.text(), &unit),
            Column::numbers("L_C", &unit),
            Column::numbers("L_D", &unit),
            Column::words(left.heading),
            Column::words(common::Verdict.text()),
        ],
        rows: rows
            .iter()
            .map(|r| {
                vec![
                    Cell::Text(r.analyte.clone()),
                    Cell::Text(isotopes(r)),
                    Cell::Text(r.bottle.clone()),
                    // A bound on what was found is not what is written for nothing found.
                    match r.bound() {
                        Some((bound, _)) => Cell::Text(bound),
                        None => Cell::Amount { amount: derived(r), k: r.coverage_k.unwrap_or(2.0) },
                    }
                    .of(&r.result),
                    number(r.critical_value),
                    number(r.detection_limit),
                    r.water_share.map_or(Cell::Missing("–".into()), |s| Cell::Text(numbers_of_share(&s))),
                    word(r).map_or(Cell::Missing("–".into()), Cell::Verdict),
                ]
            })
            .collect(),
        notes,
    }
}

/// Mass numbers with their resolution.
fn isotopes(r: &Listed) -> String {
    said::IsotopesAt { isotopes: r.isotopes.as_str().into(), resolution: r.resolution.as_str().into() }.text()
}

/// A number to two digits, or a dash.
fn number(x: Option<f64>) -> Cell {
    x.map_or(Cell::Missing("–".into()), |v| Cell::Text(Shown::significant(v, 2, "").text()))
}

/// Heading and notes of the column of what the blanks leave.
struct LeftByBlanks {
    heading: String,
    notes: Vec<String>,
}

fn left_by_blanks(rows: &[&Listed]) -> LeftByBlanks {
    let mut of: BTreeMap<Left, Vec<&str>> = BTreeMap::new();
    for r in rows {
        let elements = r.water_share.map(|s| of.entry(s.is).or_default());
        if let Some(elements) = elements.filter(|e| !e.contains(&r.analyte.as_str())) {
            elements.push(&r.analyte);
        }
    }
    if of.keys().all(|l| !l.is_bound()) {
        return LeftByBlanks { heading: said::WatersShare.text(), notes: vec![] };
    }
    let many = of.len() > 1;
    let note = |(left, elements): (&Left, &Vec<&str>)| {
        let note: Message = said::CameWithWater { left: left.says() }.into();
        if many { said::NoteFor { elements: elements.join(", ").into(), note }.text() } else { note.text() }
    };
    LeftByBlanks { heading: said::LeftByBlanks.text(), notes: of.iter().map(note).collect() }
}

fn both(draw: impl Fn(f64) -> Figure, caption: String) -> Illustration {
    Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption }
}

fn overview(waters: &[&Listed], key: &str) -> Illustration {
    let rows: Vec<OverviewRow> = waters
        .iter()
        .filter(|r| r.analyte == key)
        .map(|r| OverviewRow {
            group: r.well.as_deref().unwrap_or_default().to_string(),
            name: r.bottle.clone(),
            amount: derived(r),
            k: r.coverage_k.unwrap_or(2.0),
            bound: r.bound().map(|(bound, _)| bound),
            word: word(r),
        })
        .collect();
    let name = substance(key);
    let unit = rows.first().map_or_else(String::new, |r| r.amount.unit().to_string());
    let picture = OverviewPicture {
        head: Head {
            id: slug(&format!("overview-{key}")),
            title: said::Overview { element: capital(&name).into() }.text(),
            desc: said::OverviewDescribed { element: name.as_str().into() }.text(),
        },
        under: said::OverviewUnder.text(),
        unit,
        rows,
        limit: None,
    };
    both(|w| figure::overview::draw(&picture, w), said::OverviewCaption { element: capital(&name).into() }.text())
}

pub(super) fn run_blocks(run: &Run, key: &str) -> Vec<Block> {
    let r = &run.prepared.run;
    let recipe = &run.reduced.recipe;
    let measured = said::Measured {
        vials: message::count(run.prepared.input.vials.len()),
        readings: message::count(run.prepared.input.readings.len()),
    };
    let mut by = vec![r.instrument.as_deref().map_or_else(|| said::NoInstrument.text(), str::to_string)];
    by.extend(r.laboratory.as_deref().map(str::to_string));
    let made = said::Recipe { recipe: recipe.name.as_str().into(), version: r.recipe_version.unwrap_or(1) };
    let about = format!("{}; {}. {}", measured.text(), by.join(", "), made.text());
    let mut blocks = vec![Block::Text(about)];
    let summaries: Vec<&AnalyteSummary> = run.reduced.analytes.iter().collect();
    if let Some(a) = summaries.iter().find(|a| a.analyte.element == key) {
        blocks.push(Block::Figure(line(a)));
        blocks.push(Block::Figure(blanks(run, a)));
    }
    if let Some(i) = sequence(run, key) {
        blocks.push(Block::Figure(i));
    }
    blocks.push(Block::Table(run_table(run)));
    blocks.push(Block::Table(recoveries(run)));
    blocks
}

fn line(a: &AnalyteSummary) -> Illustration {
    let name = substance(&a.analyte.element);
    let picture = LinePicture {
        head: Head {
            id: slug(&format!("line-{}", a.analyte.element)),
            title: said::Calibration { element: name.as_str().into(), isotopes: a.analyte.isotopes.as_str().into() }
                .text(),
            desc: said::CalibrationDescribed { element: name.as_str().into() }.text(),
        },
        under: said::CalibrationUnder.text(),
        x_name: said::Assigned.text(),
        y_name: said::Response.text(),
        standards: a
            .line
            .points
            .iter()
            .map(|p| Standard { name: p.vial.clone(), x: p.x, y: p.y, u_y: p.u, excluded: false })
            .collect(),
        fitted: Fitted {
            slope: a.line.slope,
            intercept: a.line.intercept,
            u_slope: a.line.u_slope,
            u_intercept: a.line.u_intercept,
            covariance: a.line.covariance,
            k: normal::TWO_SIDED_95,
        },
    };
    let p = quantity::format::p_value(a.line.p_lack_of_fit);
    both(|w| figure::line::draw(&picture, w), said::CalibrationCaption { element: name.into(), p }.text())
}

/// Whether a reading is one of those that an analyte is the sum of.
fn is_of(isotope: &Isotope, analyte: &Analyte) -> bool {
    isotope.element == analyte.element
        && isotope.resolution == analyte.resolution
        && analyte.isotopes.split('+').any(|mass| mass == isotope.mass.to_string())
}

fn blanks(run: &Run, a: &AnalyteSummary) -> Illustration {
    let name = substance(&a.analyte.element);
    // Of these isotopes alone: a vial whose zinc a person took out still tells of lead.
    let excluded: Vec<u32> = (run.prepared.input.readings.iter())
        .filter(|r| r.excluded.is_some() && is_of(&r.isotope, &a.analyte))
        .map(|r| r.position)
        .collect();
    // L_C and L_D are limits of what is left when the blank of the samples is taken off: the blanks stand beside them
    // on the same scale.
    let taken_off = a.blank.as_ref().map_or(0.0, |b| b.mean.value);
    let unit = run.reduced.recipe.unit.to_string();
    // From the innermost out: each kind holds what those before it hold, and one stage more.
    let kinds = [Role::ProceduralBlank, Role::BottleBlank, Role::TripBlank, Role::FieldBlank]
        .into_iter()
        .filter_map(|role| {
            let blanks: Vec<Blank> = run
                .reduced
                .results
                .iter()
                .filter(|r| r.role == role && r.analyte == a.analyte)
                .map(|r| Blank {
                    name: r.vial.clone(),
                    value: r.gross.value - taken_off,
                    excluded: excluded.contains(&r.position),
                    noted: false,
                })
                .collect();
            (!blanks.is_empty()).then(|| BlankKind { name: role.said().text(), blanks })
        })
        .collect();
    let out: Vec<&str> =
        run.prepared.input.vials.iter().filter(|v| excluded.contains(&v.position)).map(|v| v.name.as_str()).collect();
    let picture = BlanksPicture {
        head: Head {
            id: slug(&format!("blanks-{}", a.analyte.element)),
            title: said::Blanks { element: name.as_str().into() }.text(),
            desc: said::BlanksDescribed { element: name.as_str().into() }.text(),
        },
        under: a.blank.as_ref().map_or_else(
            || said::BlanksUnder.text(),
            |b| said::BlanksNet { blank: Shown::significant(b.mean.value, 2, unit.as_str()) }.text(),
        ),
        unit,
        kinds,
        critical: a.limits.as_ref().map(|l| l.critical_value),
        detection: a.limits.as_ref().map(|l| l.detection_limit),
    };
    let mut caption = said::BlanksCaption { element: name.into() }.text();
    if !out.is_empty() {
        caption += &format!(" {}", said::TakenOut { vials: out.join(", ").into() }.text());
    }
    both(|w| figure::blanks::draw(&picture, w), caption)
}

/// Window of the checks, % of their value.
// US EPA method 200.8: calibration check within 10 % (from memory).
const CHECK_LIMITS_PERCENT: (f64, f64) = (90.0, 110.0);

fn sequence(run: &Run, key: &str) -> Option<Illustration> {
    let standard = run.reduced.analytes.iter().find(|a| a.analyte.element == key)?.internal_standards.first()?.clone();
    let kind = |role: Role| match role {
        Role::Standard | Role::CalibrationBlank => VialKind::Calibration,
        Role::DriftCheck | Role::ReferenceMaterial | Role::InterferenceCheck => VialKind::Check,
        r if r.is_blank() => VialKind::Blank,
        _ => VialKind::Sample,
    };
    let at = |position: u32| run.prepared.input.vials.iter().find(|v| v.position == position);
    let rate = |r: &measurement::run::Reading| r.rates_cps.iter().sum::<f64>() / r.rates_cps.len() as f64;
    let mut internal: Vec<(f64, f64, VialKind)> = run
        .prepared
        .input
        .readings
        .iter()
        .filter(|r| r.isotope.to_string() == standard && !r.rates_cps.is_empty())
        .filter_map(|r| at(r.position).map(|v| (v.minutes * S_PER_MIN, rate(r), kind(v.role))))
        .collect();
    internal.sort_by(|a, b| a.0.total_cmp(&b.0));
    let first = internal.first()?.1;
    let checks: Vec<CheckReading> = run
        .reduced
        .references
        .iter()
        .filter(|c| c.analyte.element == key)
        .filter_map(|c| {
            let v = at(c.position)?;
            let (m, k) = (100.0 * c.recovery.value, 100.0 * coverage_k(c.recovery.dof) * c.recovery.u);
            Some(CheckReading { time_s: v.minutes * S_PER_MIN, percent: m, lo: m - k, hi: m + k, name: c.vial.clone() })
        })
        .collect();
    let picture = SequencePicture {
        head: Head {
            id: slug(&format!("sequence-{}", run.reduced.name)),
            title: said::InTime { element: substance(key).into() }.text(),
            desc: said::InTimeDescribed.text(),
        },
        under: said::InTimeUnder { standard: standard.as_str().into() }.text(),
        internal: internal
            .iter()
            .map(|(t, r, k)| InternalReading { time_s: *t, percent: 100.0 * r / first, kind: *k })
            .collect(),
        internal_limits: Some((
            run.reduced.recipe.internal_standards.lowest_percent,
            run.reduced.recipe.internal_standards.highest_percent,
        )),
        drift: vec![],
        checks,
        check_limits: Some(CHECK_LIMITS_PERCENT),
    };
    Some(both(|w| figure::sequence::draw(&picture, w), said::InTimeCaption.text()))
}

/// What holds for each analyte.
fn run_table(run: &Run) -> Table {
    let rows = run
        .reduced
        .analytes
        .iter()
        .map(|a| {
            let blank = a.blank.as_ref();
            let percent = |x: f64| Cell::Text(Shown::significant(100.0 * x, 2, "").text());
            vec![
                Cell::Text(format!("{} {}", a.analyte.element, a.analyte.isotopes)),
                Cell::Text(Shown::significant(a.line.slope, 3, "").text()),
                percent(a.drift),
                percent(a.between_vials),
                blank.map_or(Cell::Missing("–".into()), |b| Cell::Text(b.n.to_string())),
                blank.map_or(Cell::Missing("–".into()), |b| Cell::Amount {
                    amount: Amount::Measured(b.mean.clone()),
                    k: 2.0,
                }),
                number(a.limits.as_ref().map(|l| l.critical_value)),
                number(a.limits.as_ref().map(|l| l.detection_limit)),
                number(a.limits.as_ref().and_then(|l| l.quantification_limit)),
            ]
        })
        .collect();
    Table {
        caption: said::CanSee.text(),
        columns: vec![
            Column::words(common::Isotopes.text()),
            Column::numbers(common::Slope.text(), &said::CountsPerLevel.text()),
            Column::numbers(said::DriftLeft.text(), "%"),
            Column::numbers(common::BetweenVials.text(), "%"),
            Column::numbers(common::FieldBlanks.text(), "n"),
            Column::numbers(said::TheirMean.text(), "ng/L"),
            Column::numbers("L_C", "ng/L"),
            Column::numbers("L_D", "ng/L"),
            Column::numbers("L_Q", "ng/L"),
        ],
        rows,
        notes: vec![said::DriftLeftExplained.text()],
    }
}

fn recoveries(run: &Run) -> Table {
    let percent = |x: f64| Shown::significant(100.0 * x, 3, "").text();
    let mut rows = vec![];
    for a in &run.reduced.analytes {
        let spikes = |role: Role| -> Cell {
            let of_role = run.reduced.spikes.iter().filter(|s| s.analyte == a.analyte && s.role == role);
            let all: Vec<String> = of_role.map(|s| percent(s.recovery.value)).collect();
            if all.is_empty() { Cell::Missing(common::None.text()) } else { Cell::Text(all.join(", ")) }
        };
        // Of several control waters one that misses its value speaks before one that meets it.
        let control = run.reduced.reference_finding(&a.analyte);
        let found = control.compared.iter().map(|c| c.amount.value().unwrap_or(f64::NAN)).collect::<Vec<_>>();
        rows.push(vec![
            Cell::Text(format!("{} {}", a.analyte.element, a.analyte.isotopes)),
            spikes(Role::FieldSpike),
            spikes(Role::LabSpike),
            if found.len() == 2 {
                Cell::Text(percent(found[0] / found[1]))
            } else {
                Cell::Missing(common::None.text())
            },
            Cell::Outcome(control.outcome),
        ]);
    }
    Table {
        caption: said::Recoveries.text(),
        columns: vec![
            Column::words(common::Isotopes.text()),
            Column::words(said::FieldSpikes.text()),
            Column::words(said::LaboratorySpikes.text()),
            Column::numbers(common::ControlWater.text(), "%"),
            Column::words(common::InControl.text()),
        ],
        rows,
        notes: vec![said::SpikesSpeak.text()],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_vial_is_crossed_out_for_the_isotopes_of_its_own_number_alone() {
        let lead = Analyte { element: "Pb".into(), isotopes: "206+207+208".into(), resolution: "low".into() };
        let is = |element: &str, mass, resolution: &str| is_of(&Isotope::counting(element, mass, resolution), &lead);
        assert!(is("Pb", 207, "low"));
        assert!(!is("Zn", 66, "low") && !is("Pb", 204, "low") && !is("Pb", 208, "medium"));
    }
}
