//! One page on detection: which limit was used for what, and what other published ways would have
//! said from the same blanks, standards and spikes. The ways stand on two scales (net and gross) and
//! answer different questions; the page says which, and mixes none of them.

use super::Run;
use super::words::element;
use document::content::{Block, Cell, Column, Table};
use measurement::blank::{OrderLimit, percentile_limit};
use measurement::detection::trust::{Trust, trust};
use measurement::detection::{self, Comparison, MdlBlanks, Risks};
use measurement::run::{AnalyteSummary, Role};
use quantity::format::significant;
use quantity::{Check, Finding, Outcome};

/// The blocks for one analyte of a run.
pub fn blocks(run: &Run, key: &str) -> Vec<Block> {
    let Some(a) = run.reduced.analytes.iter().find(|a| a.analyte.element == key) else { return vec![] };
    let name = element(key);
    vec![
        Block::Heading(format!("Detection: which limit was used for what, {}", element(key))),
        Block::Text(format!(
            "Every “detected” in this report rests on the critical value of the field blanks (first row). A promise, “a level of … would have been seen”, rests on the detection limit in the same row. The other rows are what other published ways give from the same vials; they decide nothing here. Concentrations of {name} in a bottle as large as those of the blanks."
        )),
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
    Finding::kept(Check::LabBlanksNormal, outcome, t.sentence())
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
        caption: format!("Limits of detection of {} by several ways, ng/L", element(&a.analyte.element)),
        columns: vec![
            Column::words("way"),
            Column::words("scale"),
            Column::words("decides above"),
            Column::words("promises from"),
            Column::words("quoted from"),
            Column::words("used here for"),
        ],
        rows,
        notes: vec![
            "Net: blank taken off. Gross: as measured. A dash: the way gives no such limit. Sources stand under Methods."
                .into(),
        ],
    }
}

fn row(way: &str, scale: &str, limits: [Option<f64>; 3], used_for: &str) -> Vec<Cell> {
    let number = |x: Option<f64>| {
        x.filter(|v| v.is_finite()).map_or(Cell::Missing("–".into()), |v| Cell::Text(significant(v, 2)))
    };
    let mut cells = vec![Cell::Text(way.into()), Cell::Text(scale.into())];
    cells.extend(limits.map(number));
    cells.push(Cell::Text(used_for.into()));
    cells
}

fn cannot(way: &str, scale: &str, why: String) -> Vec<Cell> {
    vec![
        Cell::Text(way.into()),
        Cell::Text(scale.into()),
        Cell::Missing("–".into()),
        Cell::Missing("–".into()),
        Cell::Missing("–".into()),
        Cell::Text(why),
    ]
}

fn used(a: &AnalyteSummary) -> Vec<Cell> {
    let way = "field blanks, Student’s t (Currie 1995, ISO 11843-1)";
    match &a.limits {
        Some(l) => row(
            way,
            "net",
            [Some(l.critical_value), Some(l.detection_limit), l.quantification_limit],
            "every decision and promise of this report",
        ),
        None => cannot(way, "net", "cannot be given: fewer than two field blanks".into()),
    }
}

/// Gross concentrations of the blanks of a role.
fn gross(run: &Run, a: &AnalyteSummary, role: Role) -> Vec<f64> {
    run.reduced.results.iter().filter(|r| r.role == role && r.analyte == a.analyte).map(|r| r.gross.value).collect()
}

fn others_from_blanks(field: &[f64]) -> Vec<Vec<Cell>> {
    match detection::from_blanks(field, Comparison::default(), Risks::default()) {
        Ok(l) => {
            let normal = detection::normality(field);
            let looks = match normal {
                Some(n) if n.passes => "comparison; the blanks look normal",
                Some(_) => "comparison; the blanks do not look normal",
                None => "comparison; too few blanks to test normality",
            };
            let r = l.robust;
            let limits = [Some(r.critical_value), Some(r.detection_limit), Some(r.quantification_limit)];
            vec![row("field blanks, Huber’s robust scale", "net", limits, looks)]
        }
        Err(e) => vec![cannot("field blanks, Huber’s robust scale", "net", e.to_string())],
    }
}

fn percentile(field: &[f64]) -> Vec<Cell> {
    let way = "95 % limit of the blanks’ 90th percentile, order statistics";
    match percentile_limit(field, 0.90, 0.95) {
        OrderLimit::Given { limit, .. } => {
            row(way, "gross", [Some(limit), None, None], "comparison, free of any distribution")
        }
        OrderLimit::TooFew { needed, .. } => cannot(
            way,
            "gross",
            format!("cannot be given with this few: it takes {needed} blanks, there are {}", field.len()),
        ),
    }
}

fn mdl_blanks(field: &[f64]) -> Vec<Cell> {
    let way = "method detection limit from blanks (US 40 CFR 136 App. B)";
    let all: Vec<Option<f64>> = field.iter().copied().map(Some).collect();
    match detection::mdl_from_blanks(&all) {
        Ok(MdlBlanks::NotGiven) => cannot(way, "gross", "not given: no blank is a number".into()),
        Ok(m) => row(way, "gross", [None, m.value(), None], "comparison"),
        Err(e) => cannot(way, "gross", format!("cannot be given: {e}")),
    }
}

fn mdl_spikes(run: &Run, a: &AnalyteSummary) -> Vec<Cell> {
    let way = "method detection limit from spikes (US 40 CFR 136 App. B)";
    let spiked: Vec<f64> = [Role::FieldSpike, Role::LabSpike].into_iter().flat_map(|r| gross(run, a, r)).collect();
    match detection::mdl_from_spikes(&spiked) {
        Ok(m) => {
            row(way, "gross", [None, Some(m.value), None], "comparison; the spikes lie above the water’s own metal")
        }
        Err(e) => cannot(way, "gross", format!("cannot be given: {e}")),
    }
}

fn from_line(a: &AnalyteSummary) -> Vec<Cell> {
    let way = "calibration line (ISO 11843-2; quoted from: DIN 32645)";
    // The lower standards only: the ways assume one spread along the line.
    let highest = a.line.points.iter().map(|p| p.x).fold(0.0, f64::max);
    let low: Vec<_> = a.line.points.iter().filter(|p| p.x <= LOW_PART * highest).collect();
    let (x, y): (Vec<f64>, Vec<f64>) = low.iter().map(|p| (p.x, p.y)).unzip();
    match detection::from_line(&x, &y, 1, Risks::default()) {
        Ok(l) => row(
            way,
            "net",
            [Some(l.iso.critical_value), Some(l.iso.detection_limit), Some(l.din_quantification)],
            "comparison; of the instrument alone, no bottle in it",
        ),
        Err(e) => cannot(way, "net", format!("cannot be given: {e}")),
    }
}

/// Part of the line, from zero, whose standards count for the ways that assume one spread.
// Chosen here: the standards near the blank; higher ones scatter in proportion to their level.
const LOW_PART: f64 = 0.05;
