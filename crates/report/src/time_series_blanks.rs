//! Blanks over the years: the first thing to look at, since a rising blank looks like a rising metal.

use super::time_series::{number, points};
use super::words::{capital, element};
use assessment::series_of::{Record, Series};
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::control::{self, ControlPicture};
use figure::{Head, PHONE, WIDE, slug};
use quantity::Check;
use series::control::{Chart, LEAST_BASELINE, Place, control_chart};
use series::words::p_value;
use series::{Error, Reading};

/// Pictures of charts, at most.
const PICTURES: usize = 4;

/// The blanks of one kind, analyte and fraction with their chart.
pub(super) struct BlankChart<'a> {
    pub series: &'a Series,
    pub chart: Result<Chart, Error>,
}

impl BlankChart<'_> {
    fn rises(&self) -> bool {
        let in_time = self.chart.as_ref().ok().and_then(|c| c.in_time);
        in_time.is_some_and(|k| k.p < super::time_series::P && k.s > 0)
    }

    fn above(&self) -> usize {
        self.chart.as_ref().map_or(0, |c| c.places.iter().filter(|(_, p)| *p == Place::Action).count())
    }
}

/// A chart for every kind of blank with enough values; the first third of the years, at least
/// five, is the baseline.
pub(super) fn charts(record: &Record, at_least: usize) -> Vec<BlankChart<'_>> {
    let mut out: Vec<BlankChart> = record
        .blanks
        .iter()
        .filter(|s| s.rows.len() >= at_least)
        .map(|series| {
            let baseline = (series.rows.len() / 3).max(LEAST_BASELINE);
            BlankChart { series, chart: control_chart(&series.observations(), baseline) }
        })
        .collect();
    out.sort_by_key(|b| (!b.rises(), std::cmp::Reverse(b.above())));
    out
}

/// Do blanks of the same analyte and fraction rise?
pub(super) fn rise(charts: &[BlankChart], of: &Series) -> bool {
    charts.iter().any(|b| b.series.analyte == of.analyte && b.series.fraction == of.fraction && b.rises())
}

/// Heading, table and the pictures of those that stand out.
pub(super) fn blocks(charts: &[BlankChart]) -> Vec<Block> {
    if charts.is_empty() {
        return vec![];
    }
    let mut out = vec![
        Block::Heading("Blanks over the years".into()),
        Block::Text("A rising blank looks like a rising metal, so the blanks are charted first. The first third of them, at least five, sets the limits for the rest.".into()),
        Block::Table(table(charts)),
    ];
    let noted = charts.iter().filter(|b| b.rises() || b.above() > 0).take(PICTURES);
    for b in noted {
        if let Ok(chart) = &b.chart {
            out.push(Block::Figure(picture(b.series, chart)));
        }
    }
    out
}

fn table(charts: &[BlankChart]) -> Table {
    let rows = charts
        .iter()
        .map(|b| {
            let s = b.series;
            let below = s.rows.iter().filter(|p| !p.observation.reading.is_known()).count();
            let mut row = vec![
                Cell::Text(capital(&s.of)),
                Cell::Text(format!("{}, {}", capital(element(&s.analyte)), s.fraction)),
                Cell::Text(format!("{} ({below})", s.rows.len())),
                Cell::Text(s.unit.to_string()),
            ];
            match &b.chart {
                Ok(c) => {
                    row.extend([
                        Cell::Text(c.baseline.to_string()),
                        Cell::Text(number(c.action)),
                        Cell::Text(b.above().to_string()),
                        c.in_time.map_or(Cell::Missing("–".into()), |k| Cell::Text(p_value(k.p))),
                        Cell::Text(stands_out(c)),
                    ]);
                }
                Err(why) => {
                    row.extend(std::iter::repeat_n(Cell::Missing("–".into()), 4));
                    row.push(Cell::Text(capital(&why.to_string())));
                }
            }
            row
        })
        .collect();
    Table {
        caption: "Blanks against the limits of their first years".into(),
        columns: vec![
            Column::words("blank"),
            Column::words("analyte"),
            Column::words("n (below)"),
            Column::words("unit"),
            Column::words("baseline"),
            Column::words("action limit"),
            Column::words("above it"),
            Column::words("p in time"),
            Column::words("stands out"),
        ],
        rows,
        notes: vec!["Baseline: how many of the first set the limits. Stands out: rise, fall: with the years, p < 0.05; action: above the action limit; run: eight in a row above the median of the baseline; cannot tell: non-detects whose own limit lies above the action limit.".into()],
    }
}

/// What stands out, in short words; the caption of the table says what they mean.
fn stands_out(c: &Chart) -> String {
    let words: Vec<&str> = [
        (Check::ControlInTime, if c.in_time.is_some_and(|k| k.s > 0) { "rise" } else { "fall" }),
        (Check::ControlAction, "action"),
        (Check::ControlRun, "run"),
        (Check::ControlCannotTell, "cannot tell"),
    ]
    .into_iter()
    .filter(|(check, _)| c.findings.iter().any(|f| f.check == *check))
    .map(|(_, word)| word)
    .collect();
    if words.is_empty() { "nothing".into() } else { words.join(", ") }
}

fn picture(s: &Series, chart: &Chart) -> Illustration {
    let title = format!("{}s over the years: {}, {}", capital(&s.of), element(&s.analyte), s.fraction);
    let said: Vec<String> = chart.findings.iter().map(language::finding).collect();
    let p = ControlPicture {
        head: Head {
            id: slug(&format!("blanks-{}-{}-{}", s.of, s.analyte, s.fraction)),
            desc: format!("{title}. {}", said.join("; ")),
            title: title.clone(),
        },
        under: format!("Limits: {}.", chart.basis),
        unit: s.unit.to_string(),
        points: points(s),
        baseline: chart.baseline,
        centre: match chart.centre {
            Reading::Known(v) => Some(v),
            Reading::Below(_) => None,
        },
        warning: chart.warning,
        action: Some(chart.action),
    };
    Illustration { wide: control::draw(&p, WIDE), phone: Some(control::draw(&p, PHONE)), caption: format!("{title}.") }
}
