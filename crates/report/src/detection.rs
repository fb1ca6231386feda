//! One page on detection: which limit was used for what, and what other published ways would have
//! said from the same blanks, standards and spikes. The ways stand on two scales (net and gross) and
//! answer different questions; the page says which, and mixes none of them.

use super::Run;
use super::substance;
use document::content::{Block, Cell, Column, Table};
use measurement::blank::{OrderLimit, percentile_limit};
use measurement::detection::trust::{Trust, trust};
use measurement::detection::{self, Comparison, MdlBlanks, Risks};
use measurement::run::{AnalyteSummary, Role};
use message::{Message, Shown, Spoken, detection as said, word as common};
use quantity::{Check, Finding, Outcome};

/// The blocks for one analyte of a run.
pub fn blocks(run: &Run, key: &str) -> Vec<Block> {
    let Some(a) = run.reduced.analytes.iter().find(|a| a.analyte.element == key) else { return vec![] };
    vec![
        Block::Heading(said::Page { element: substance(key).into() }.text()),
        Block::Text(said::Before { element: substance(key).into() }.text()),
        Block::Table(table(run, a)),
        Block::Findings(trust(&gross(run, a, Role::FieldBlank)).map(finding).into_iter().collect()),
    ]
}

/// What the number and the shape of the field blanks let one trust.
fn finding(t: Trust) -> Finding {
    let outcome = match t.normality {
        Some(n) if n.passes => Outcome::Met,
        Some(_) => Outcome::NotMet,
        None => Outcome::NotKnown,
    };
    Finding::new(Check::LabBlanksNormal, outcome, t.says())
}

fn table(run: &Run, a: &AnalyteSummary) -> Table {
    let mut rows = vec![used(a)];
    let field = gross(run, a, Role::FieldBlank);
    rows.extend(others_from_blanks(&field));
    rows.push(percentile(&field));
    rows.push(mdl_blanks(&field));
    rows.push(mdl_spikes(run, a));
    rows.push(from_line(a));
    Table {
        caption: said::Limits { element: substance(&a.analyte.element).into() }.text(),
        columns: vec![
            Column::words(said::Way.text()),
            Column::words(said::Scale.text()),
            Column::words(said::DecidesAbove.text()),
            Column::words(said::PromisesFrom.text()),
            Column::words(said::QuotedFrom.text()),
            Column::words(said::UsedFor.text()),
        ],
        rows,
        notes: vec![said::TableExplained.text()],
    }
}

/// A way, and the scale that it stands on.
type Way = (Message, Message);

fn net(way: impl Into<Message>) -> Way {
    (way.into(), common::Net.into())
}

fn gross_scale(way: impl Into<Message>) -> Way {
    (way.into(), common::Gross.into())
}

fn row((way, scale): Way, limits: [Option<f64>; 3], used_for: impl Into<Message>) -> Vec<Cell> {
    let number = |x: Option<f64>| {
        let known = x.filter(|v| v.is_finite());
        known.map_or(Cell::Missing("–".into()), |v| Cell::Text(Shown::significant(v, 2, "").text()))
    };
    let mut cells = vec![Cell::Text(way.text()), Cell::Text(scale.text())];
    cells.extend(limits.map(number));
    cells.push(Cell::Text(used_for.into().text()));
    cells
}

fn cannot(way: Way, why: impl Into<Message>) -> Vec<Cell> {
    row(way, [None; 3], why)
}

fn used(a: &AnalyteSummary) -> Vec<Cell> {
    let way = net(said::Student);
    match &a.limits {
        Some(l) => row(way, [Some(l.critical_value), Some(l.detection_limit), l.quantification_limit], said::Decides),
        None => cannot(way, said::TooFewFieldBlanks),
    }
}

/// Gross concentrations of the blanks of a role.
fn gross(run: &Run, a: &AnalyteSummary, role: Role) -> Vec<f64> {
    run.reduced.results.iter().filter(|r| r.role == role && r.analyte == a.analyte).map(|r| r.gross.value).collect()
}

fn others_from_blanks(field: &[f64]) -> Vec<Vec<Cell>> {
    let way = net(said::Huber);
    match detection::from_blanks(field, Comparison::default(), Risks::default()) {
        Ok(l) => {
            let looks: Message = match detection::normality(field) {
                Some(n) if n.passes => said::LooksNormal.into(),
                Some(_) => said::LooksNotNormal.into(),
                None => said::NormalityUnknown.into(),
            };
            let r = l.robust;
            let limits = [Some(r.critical_value), Some(r.detection_limit), Some(r.quantification_limit)];
            vec![row(way, limits, looks)]
        }
        Err(e) => vec![cannot(way, e.says())],
    }
}

fn percentile(field: &[f64]) -> Vec<Cell> {
    let way = gross_scale(said::Percentile);
    match percentile_limit(field, 0.90, 0.95) {
        OrderLimit::Given { limit, .. } => row(way, [Some(limit), None, None], said::Free),
        OrderLimit::TooFew { needed, .. } => {
            let (needed, blanks) = (message::count(needed), message::count(field.len()));
            cannot(way, said::PercentileTooFew { needed, blanks })
        }
    }
}

fn mdl_blanks(field: &[f64]) -> Vec<Cell> {
    let way = gross_scale(said::MdlBlanks);
    let all: Vec<Option<f64>> = field.iter().copied().map(Some).collect();
    match detection::mdl_from_blanks(&all) {
        Ok(MdlBlanks::NotGiven) => cannot(way, said::NoNumber),
        Ok(m) => row(way, [None, m.value(), None], said::Comparison),
        Err(e) => cannot(way, said::Cannot { why: e.says() }),
    }
}

fn mdl_spikes(run: &Run, a: &AnalyteSummary) -> Vec<Cell> {
    let way = gross_scale(said::MdlSpikes);
    let spiked: Vec<f64> = [Role::FieldSpike, Role::LabSpike].into_iter().flat_map(|r| gross(run, a, r)).collect();
    match detection::mdl_from_spikes(&spiked) {
        Ok(m) => row(way, [None, Some(m.value), None], said::SpikesAbove),
        Err(e) => cannot(way, said::Cannot { why: e.says() }),
    }
}

fn from_line(a: &AnalyteSummary) -> Vec<Cell> {
    let way = net(said::Line);
    // The lower standards only: the ways assume one spread along the line.
    let highest = a.line.points.iter().map(|p| p.x).fold(0.0, f64::max);
    let low: Vec<_> = a.line.points.iter().filter(|p| p.x <= LOW_PART * highest).collect();
    let (x, y): (Vec<f64>, Vec<f64>) = low.iter().map(|p| (p.x, p.y)).unzip();
    match detection::from_line(&x, &y, 1, Risks::default()) {
        Ok(l) => row(
            way,
            [Some(l.iso.critical_value), Some(l.iso.detection_limit), Some(l.din_quantification)],
            said::InstrumentAlone,
        ),
        Err(e) => cannot(way, said::Cannot { why: e.says() }),
    }
}

/// Part of the line, from zero, whose standards count for the ways that assume one spread.
// Chosen here: the standards near the blank; higher ones scatter in proportion to their level.
const LOW_PART: f64 = 0.05;
