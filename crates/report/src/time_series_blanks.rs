//! Blanks over the years: the first thing to look at, since a rising blank looks like a rising metal.

use super::time_series::{analyte, number, points};
use super::words::capital;
use assessment::series_of::{Record, Series};
use document::content::{Block, Cell, Column, Illustration, Table};
use figure::control::{self, ControlPicture};
use figure::{Head, PHONE, WIDE, slug};
use message::{Message, Spoken, time_series as said, word};
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
        Block::Heading(said::BlanksHeading.text()),
        Block::Text(said::BlanksFirst.text()),
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

/// The kind of a series of blanks, as the record names it.
fn kind(s: &Series) -> String {
    s.of.replace(' ', "-")
}

/// Blanks of the kind of a series.
pub(super) fn of_kind(s: &Series) -> Message {
    said::Blanks { kind: kind(s).into() }.into()
}

fn table(charts: &[BlankChart]) -> Table {
    let rows = charts
        .iter()
        .map(|b| {
            let s = b.series;
            let below = s.rows.iter().filter(|p| !p.observation.reading.is_known()).count();
            let mut row = vec![
                Cell::Text(capital(said::Blank { kind: kind(s).into() }.text())),
                Cell::Text(capital(analyte(s).text())),
                Cell::Text(format!("{} ({below})", s.rows.len())),
                Cell::Text(s.unit.to_string()),
            ];
            match &b.chart {
                Ok(c) => {
                    row.extend([
                        Cell::Text(c.baseline.to_string()),
                        Cell::Text(number(c.action).text()),
                        Cell::Text(b.above().to_string()),
                        c.in_time.map_or(Cell::Missing("–".into()), |k| Cell::Text(p_value(k.p))),
                        Cell::Text(stands_out(c)),
                    ]);
                }
                Err(why) => {
                    row.extend(std::iter::repeat_n(Cell::Missing("–".into()), 4));
                    row.push(Cell::Text(capital(why.message().text())));
                }
            }
            row
        })
        .collect();
    Table {
        caption: said::BlanksCaption.text(),
        columns: vec![
            Column::words(word::Blank.text()),
            Column::words(word::Analyte.text()),
            Column::words(said::NBelow.text()),
            Column::words(word::Unit.text()),
            Column::words(said::Baseline.text()),
            Column::words(said::ActionLimit.text()),
            Column::words(said::AboveIt.text()),
            Column::words(said::PInTime.text()),
            Column::words(said::StandsOut.text()),
        ],
        rows,
        notes: vec![said::BlanksNote.text()],
    }
}

/// What stands out, in short words; the note of the table says what they mean.
fn stands_out(c: &Chart) -> String {
    let rises = c.in_time.is_some_and(|k| k.s > 0);
    let words: Vec<String> = [
        (Check::ControlInTime, if rises { said::Rise.text() } else { said::Fall.text() }),
        (Check::ControlAction, said::Action.text()),
        (Check::ControlRun, said::Run.text()),
        (Check::ControlCannotTell, word::CannotTell.text()),
    ]
    .into_iter()
    .filter(|(check, _)| c.findings.iter().any(|f| f.check == *check))
    .map(|(_, word)| word)
    .collect();
    if words.is_empty() { said::Nothing.text() } else { words.join(", ") }
}

fn picture(s: &Series, chart: &Chart) -> Illustration {
    let title = capital(said::BlanksTitle { blanks: of_kind(s), analyte: analyte(s) }.text());
    let findings: Vec<String> = chart.findings.iter().map(quantity::Finding::text).collect();
    let p = ControlPicture {
        head: Head {
            id: slug(&format!("blanks-{}-{}-{}", s.of, s.analyte, s.fraction)),
            desc: format!("{title}. {}", findings.join("; ")),
            title: title.clone(),
        },
        under: said::Limits { basis: chart.basis.clone() }.text(),
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
