//! Sections on results that were derived from counts: verdicts, tables, paths, the run itself.

use super::words::{capital, element};
use super::{Run, derived, detection, path, section, unit, word};
use assessment::results::{Listed, coverage_k};
use cleanliness::share::Left;
use document::content::{Block, Cell, Column, Content, Illustration, Share, Table, Verdict};
use figure::blanks::{Blank, BlankKind, BlanksPicture};
use figure::line::{Fitted, LinePicture, Standard};
use figure::overview::{OverviewPicture, OverviewRow};
use figure::sequence::{CheckReading, InternalReading, SequencePicture, VialKind};
use figure::{self, Figure, Head, PHONE, WIDE, slug};
use language::as_written;
use measurement::run::{AnalyteSummary, Role};
use programme::case::{self, Case};
use quantity::factor::S_PER_MIN;
use quantity::format::{percent, significant};
use quantity::{Amount, Check, Outcome};
use record::Error;
use record::model::VerdictWord;
use record::store::Store;
use record::words::BottleKind;
use statistics::normal;
use std::collections::BTreeMap;

/// The element that the key results are of: lead where it was measured.
fn key_element<'a>(measured: &[&'a Listed]) -> &'a str {
    measured.iter().map(|r| r.analyte.as_str()).find(|a| *a == "Pb").unwrap_or(measured[0].analyte.as_str())
}

/// Fills verdicts, findings in words, and the sections of the runs.
pub fn fill(store: &Store, measured: &[&Listed], runs: &[Run], out: &mut Content) -> Result<(), Error> {
    let key = key_element(measured);
    let waters: Vec<&Listed> = measured.iter().copied().filter(|r| r.verdict.is_some()).collect();
    let mut cases = Vec::new();
    for r in key_results(&waters, key) {
        cases.push(case::of(store, &r.result)?);
    }
    out.found = found(&waters, &cases, key);
    out.verdicts = cases.iter().map(verdict).collect();
    out.sections.push(section("Results", results_blocks(&waters, key)));
    let mut blocks = vec![Block::Text("From left to right the stages that a bottle passes. Every stage can add metal; each is read as a share of what the blanks leave: the water’s own, or, where the pipe or an open air was met by no blank, the water’s with theirs. A picture for one bottle of each well.".into())];
    for c in &cases {
        blocks.push(Block::Heading(format!(
            "{} at {}",
            capital(element(&c.result.analyte)),
            as_written(c.result.well.as_deref().unwrap_or(&c.result.bottle))
        )));
        if let Some(picture) = path::illustration(store, c, runs, out.invented)? {
            blocks.push(Block::Figure(picture));
        }
        blocks.push(Block::Findings(told(c)));
    }
    out.sections.push(section(&format!("The path of {}", element(key)), blocks));
    let lead_sources = store.lead_sources()?;
    for run in runs {
        let mut blocks = run_blocks(run, key);
        blocks.extend(detection::blocks(run, key));
        blocks.extend(super::lead::blocks(run, &lead_sources));
        blocks.extend(super::dust::blocks(run));
        out.sections.push(section(&format!("The run {}", as_written(&run.reduced.name)), blocks));
    }
    Ok(())
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
    quantity::Finding { sentence: language::finding_as_sentence(f), message: None, ..f.clone() }
}

fn found(waters: &[&Listed], cases: &[Case], key: &str) -> Vec<String> {
    let mut out = vec![];
    for c in cases {
        let r = &c.result;
        let well = as_written(r.well.as_deref().unwrap_or(&r.bottle));
        out.push(format!("{} at {well}: {}. {}", capital(element(key)), case::in_line(r), why(c)));
    }
    let count = |w: VerdictWord| waters.iter().filter(|r| r.verdict == Some(w)).count();
    out.push(format!(
        "Of {} results of well water in this report {} are accepted, {} provisional, {} rejected; each names its reasons.",
        waters.len(), count(VerdictWord::Accepted), count(VerdictWord::Provisional), count(VerdictWord::Rejected)
    ));
    out
}

fn why(c: &Case) -> String {
    match c.result.verdict {
        Some(VerdictWord::Accepted) => "Accepted: all decisive checks are met.".into(),
        Some(v) => format!("{}: {}", capital(v.word()), reasons(c).join(" ")),
        None => String::new(),
    }
}

/// The sentences of the checks that decided.
fn reasons(c: &Case) -> Vec<String> {
    c.findings
        .iter()
        .filter(|f| c.result.reasons.iter().any(|r| r == f.check.text()) && f.outcome != Outcome::Met)
        .map(|f| capital(&language::finding(f)))
        .collect()
}

fn verdict(c: &Case) -> Verdict {
    let r = &c.result;
    let mut because = reasons(c);
    if because.is_empty() {
        let kept = [Check::NumberRecovery, Check::NumberDuplicates, Check::RunReferenceMaterial];
        because = c.findings.iter().filter(|f| kept.contains(&f.check)).map(language::finding_as_sentence).collect();
    }
    Verdict {
        subject: format!(
            "{}, {}, {}",
            as_written(r.well.as_deref().unwrap_or(&r.bottle)),
            element(&r.analyte),
            r.fraction
        ),
        amount: derived(r),
        k: r.coverage_k.unwrap_or(2.0),
        word: word(r).expect("key results have a verdict"),
        share: r.water_share.map(|s| Share { value: s.share, lo: s.low, hi: s.high, is: s.is }),
        because,
        signed: c.sign_offs.last().map(|s| as_written(&format!("{}: {}", s.person, s.why))),
        result: Some(r.result.clone()),
    }
}

fn results_blocks(waters: &[&Listed], key: &str) -> Vec<Block> {
    let mut wells: Vec<&str> = waters.iter().filter_map(|r| r.well.as_deref()).collect();
    wells.sort_unstable();
    wells.dedup();
    let mut blocks = vec![Block::Figure(overview(waters, key))];
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
    let number = |x: Option<f64>| x.map_or(Cell::Missing("–".into()), |v| Cell::Text(significant(v, 2)));
    let mut fractions: Vec<&str> = rows.iter().map(|r| r.fraction.as_str()).collect();
    fractions.dedup();
    let left = left_by_blanks(&rows);
    let mut notes = vec![
        "L_C: a net value above it counts as detected. L_D: a level that would be missed one time in twenty. Both on the net scale.".to_string(),
        "Values stand for the bottle as acidified; isotopes are mass numbers with the mass resolution.".into(),
    ];
    notes.extend(left.notes);
    Table {
        caption: format!(
            "{}: concentrations in the water ({}), with what can be detected",
            as_written(well),
            fractions.join(", ")
        ),
        columns: vec![
            Column::words("element"),
            Column::words("isotopes"),
            Column::names("bottle"),
            Column::numbers("found", &unit),
            Column::numbers("L_C", &unit),
            Column::numbers("L_D", &unit),
            Column::words(left.heading),
            Column::words("verdict"),
        ],
        rows: rows
            .iter()
            .map(|r| {
                vec![
                    Cell::Text(r.analyte.clone()),
                    Cell::Text(format!("{}, {}", r.isotopes, r.resolution)),
                    Cell::Text(r.bottle.clone()),
                    Cell::Amount { amount: derived(r), k: r.coverage_k.unwrap_or(2.0) }.of(&r.result),
                    number(r.critical_value),
                    number(r.detection_limit),
                    r.water_share
                        .map_or(Cell::Missing("–".into()), |s| Cell::Text(s.in_words().replace(" to ", "–"))),
                    word(r).map_or(Cell::Missing("–".into()), Cell::Verdict),
                ]
            })
            .collect(),
        notes,
    }
}

/// Heading and notes of the column of what the blanks leave.
struct LeftByBlanks {
    heading: &'static str,
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
    if of.keys().all(|l| *l == Left::Water) {
        return LeftByBlanks { heading: "water’s share", notes: vec![] };
    }
    let many = of.len() > 1;
    let note = |(left, elements): (&Left, &Vec<&str>)| {
        let what = match left {
            Left::Water => "Left by the blanks: the water’s share.",
            Left::WaterAndOpenAir => {
                "Left by the blanks: the water’s share with what the open air brought, which no blank met."
            }
            Left::WaterAndPipe => {
                "Left by the blanks: what is not from air, bottle or laboratory. No blank sees the pipe, so water and pipe are not told apart."
            }
            Left::WaterPipeAndOpenAir => {
                "Left by the blanks: what is not from air, bottle or laboratory. No blank sees the pipe and none met the open air at this well, so water, pipe and open air are not told apart."
            }
        };
        if many { format!("{}: {what}", elements.join(", ")) } else { what.to_string() }
    };
    LeftByBlanks { heading: "left by the blanks", notes: of.iter().map(note).collect() }
}

fn both(draw: impl Fn(f64) -> Figure, caption: String) -> Illustration {
    Illustration { wide: draw(WIDE), phone: Some(draw(PHONE)), caption }
}

fn overview(waters: &[&Listed], key: &str) -> Illustration {
    let rows: Vec<OverviewRow> = waters
        .iter()
        .filter(|r| r.analyte == key)
        .map(|r| OverviewRow {
            group: as_written(r.well.as_deref().unwrap_or_default()),
            name: as_written(&r.bottle),
            amount: derived(r),
            k: r.coverage_k.unwrap_or(2.0),
            word: word(r),
        })
        .collect();
    let name = element(key);
    let unit = rows.first().map_or_else(String::new, |r| r.amount.unit().to_string());
    let picture = OverviewPicture {
        head: Head {
            id: slug(&format!("overview-{key}")),
            title: format!("{} in every bottle of well water", capital(name)),
            desc: format!(
                "One interval a bottle for {name}, grouped by well; non-detects as bars from zero to their bound."
            ),
        },
        under: "95 % intervals; shapes give the verdict.".into(),
        unit,
        rows,
        limit: None,
    };
    both(|w| figure::overview::draw(&picture, w), format!("{} bottle by bottle.", capital(name)))
}

pub(super) fn run_blocks(run: &Run, key: &str) -> Vec<Block> {
    let r = &run.prepared.run;
    let recipe = &run.reduced.recipe;
    let mut blocks = vec![Block::Text(format!(
        "{} vials, {} readings; {}{}. Recipe {} (version {}).",
        run.prepared.input.vials.len(),
        run.prepared.input.readings.len(),
        r.instrument.as_deref().map_or_else(|| "instrument not stated".into(), as_written),
        r.laboratory.as_ref().map_or_else(String::new, |l| format!(", {}", as_written(l))),
        as_written(&recipe.name),
        r.recipe_version.unwrap_or(1)
    ))];
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
    let name = element(&a.analyte.element);
    let picture = LinePicture {
        head: Head {
            id: slug(&format!("line-{}", a.analyte.element)),
            title: format!("Calibration of {name} {}", a.analyte.isotopes),
            desc: format!(
                "Response of the standards of {name} against their assigned concentration with the fitted line and its residuals."
            ),
        },
        under: "Weighted by 1/u²; below, residuals with their 95 % intervals.".into(),
        x_name: "assigned concentration, ng/L".into(),
        y_name: "response, counts/s".into(),
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
    both(
        |w| figure::line::draw(&picture, w),
        format!("Calibration line of {name}: p of lack of fit {}.", significant(a.line.p_lack_of_fit, 2)),
    )
}

fn blanks(run: &Run, a: &AnalyteSummary) -> Illustration {
    let name = element(&a.analyte.element);
    let excluded: Vec<u32> =
        run.prepared.input.readings.iter().filter(|r| r.excluded.is_some()).map(|r| r.position).collect();
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
                    value: r.gross.value,
                    excluded: excluded.contains(&r.position),
                    noted: false,
                })
                .collect();
            (!blanks.is_empty()).then(|| BlankKind { name: role.word().to_string(), blanks })
        })
        .collect();
    let out: Vec<&str> =
        run.prepared.input.vials.iter().filter(|v| excluded.contains(&v.position)).map(|v| v.name.as_str()).collect();
    let picture = BlanksPicture {
        head: Head {
            id: slug(&format!("blanks-{}", a.analyte.element)),
            title: format!("Blanks of the run, {name}"),
            desc: format!("Blanks of {name} by kind with critical value and detection limit."),
        },
        under: "Each kind holds those above it and one stage more.".into(),
        unit: "ng/L".into(),
        kinds,
        critical: a.limits.as_ref().map(|l| l.critical_value),
        detection: a.limits.as_ref().map(|l| l.detection_limit),
    };
    let note = if out.is_empty() {
        String::new()
    } else {
        format!(" Taken out by a person, with a reason on record: {}.", out.join(", "))
    };
    both(|w| figure::blanks::draw(&picture, w), format!("Blanks of {name} by kind.{note}"))
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
        head: Head { id: slug(&format!("sequence-{}", run.reduced.name)), title: format!("The run in time: internal standard and checks, {}", element(key)), desc: "Internal standard of every vial in percent of the first, and recovery of drift checks and control waters.".into() },
        under: format!("Internal standard {standard}, then what the checks gave after all corrections."),
        internal: internal.iter().map(|(t, r, k)| InternalReading { time_s: *t, percent: 100.0 * r / first, kind: *k }).collect(),
        internal_limits: Some((run.reduced.recipe.internal_standards.lowest_percent, run.reduced.recipe.internal_standards.highest_percent)),
        drift: vec![],
        checks,
        check_limits: Some(CHECK_LIMITS_PERCENT),
    };
    Some(both(|w| figure::sequence::draw(&picture, w), "The run from the first vial to the last.".into()))
}

/// What holds for each analyte.
fn run_table(run: &Run) -> Table {
    let rows = run
        .reduced
        .analytes
        .iter()
        .map(|a| {
            let blank = a.blank.as_ref();
            let text = |x: Option<f64>| x.map_or(Cell::Missing("–".into()), |v| Cell::Text(significant(v, 2)));
            vec![
                Cell::Text(format!("{} {}", a.analyte.element, a.analyte.isotopes)),
                Cell::Text(significant(a.line.slope, 3)),
                Cell::Text(percent(a.drift, 2)),
                Cell::Text(percent(a.between_vials, 2)),
                blank.map_or(Cell::Missing("–".into()), |b| Cell::Text(b.n.to_string())),
                blank.map_or(Cell::Missing("–".into()), |b| Cell::Amount {
                    amount: Amount::Measured(b.mean.clone()),
                    k: 2.0,
                }),
                text(a.limits.as_ref().map(|l| l.critical_value)),
                text(a.limits.as_ref().map(|l| l.detection_limit)),
                text(a.limits.as_ref().and_then(|l| l.quantification_limit)),
            ]
        })
        .collect();
    Table {
        caption: "What the run can see".into(),
        columns: vec![
            Column::words("isotopes"), Column::numbers("slope", "counts/s per ng/L"), Column::numbers("drift left", "%"), Column::numbers("between vials", "%"),
            Column::numbers("field blanks", "n"), Column::numbers("their mean", "ng/L"), Column::numbers("L_C", "ng/L"), Column::numbers("L_D", "ng/L"), Column::numbers("L_Q", "ng/L"),
        ],
        rows,
        notes: vec!["Drift left: change of sensitivity over the run that the internal standard did not take out; the drift checks did.".into()],
    }
}

fn recoveries(run: &Run) -> Table {
    let mut rows = vec![];
    for a in &run.reduced.analytes {
        let spikes = |role: Role| -> Cell {
            let all: Vec<f64> = run
                .reduced
                .spikes
                .iter()
                .filter(|s| s.analyte == a.analyte && s.role == role)
                .map(|s| 100.0 * s.recovery.value)
                .collect();
            if all.is_empty() {
                Cell::Missing("none".into())
            } else {
                Cell::Text(all.iter().map(|v| significant(*v, 3)).collect::<Vec<_>>().join(", "))
            }
        };
        let control = run.reduced.reference_finding(&a.analyte);
        let found = control.compared.iter().map(|c| c.amount.value().unwrap_or(f64::NAN)).collect::<Vec<_>>();
        rows.push(vec![
            Cell::Text(format!("{} {}", a.analyte.element, a.analyte.isotopes)),
            spikes(Role::FieldSpike),
            spikes(Role::LabSpike),
            if found.len() == 2 { Cell::Text(percent(found[0] / found[1], 3)) } else { Cell::Missing("none".into()) },
            Cell::Outcome(control.outcome),
        ]);
    }
    Table {
        caption: "Does metal come back? Spikes of the water at its own level, and the control water".into(),
        columns: vec![
            Column::words("isotopes"),
            Column::words("field spikes, %"),
            Column::words("laboratory spikes, %"),
            Column::numbers("control water", "%"),
            Column::words("in control"),
        ],
        rows,
        notes: vec!["Spikes were made in the water of one well; they speak for that water.".into()],
    }
}
