//! Section "Quality over the runs": a chart of the control water and one of the blanks for the key
//! element, the state of every chart in a table, bottles that were measured again, and what the
//! years say of u. With one run a sentence says why there is nothing to show.

use super::substance;
use super::words::capital;
use super::{Run, section};
use assessment::quality::stability::{Changed, Stability};
use assessment::quality::{Charted, FEWEST, Kind, Quality, Series, patterns_said};
use document::content::{Annex, Block, Cell, Column, Content, Illustration, Table};
use figure::chart::{ChartPicture, Charted as Drawn};
use figure::{Head, PHONE, WIDE, slug};
use measurement::control::Rule;
use message::{Shown, Spoken, quality as said, word as common};
use quantity::{Amount, Outcome};
use record::Error;
use record::store::Store;

/// Adds the section, where the programme has runs.
pub fn fill(store: &Store, runs: &[Run], out: &mut Content) -> Result<(), Error> {
    if runs.is_empty() {
        return Ok(());
    }
    if runs.len() == 1 {
        let text = said::OneRun { runs: message::count(FEWEST) }.text();
        out.sections.push(section(said::OverTheRuns, vec![Block::Text(text)]).within(Annex::Runs));
        return Ok(());
    }
    let q = Quality::of(store, runs.iter().map(|r| (&r.prepared, &r.reduced)))?;
    let key = if q.series.iter().any(|s| s.analyte.element == "Pb") {
        "Pb".to_string()
    } else {
        q.series.first().map_or_else(String::new, |s| s.analyte.element.clone())
    };
    let before = said::Before {
        runs: message::count(q.runs.len()),
        first: q.runs[0].name.as_str().into(),
        last: q.runs[q.runs.len() - 1].name.as_str().into(),
    };
    let mut blocks = vec![Block::Text(before.text())];
    for kind in [Kind::ControlWater, Kind::BlankMean] {
        let of_key = q.series.iter().find(|s| s.kind == kind && s.analyte.element == key);
        blocks.extend(of_key.map(|s| Block::Figure(illustration(s))));
    }
    blocks.push(Block::Table(charts(&q)));
    blocks.push(Block::Table(run_by_run(&q, &key)));
    if !q.stability.is_empty() {
        blocks.push(Block::Table(bottles(&q.stability)));
    }
    blocks.push(Block::Table(long_term(&q)));
    out.sections.push(section(said::OverTheRuns, blocks).within(Annex::Runs));
    Ok(())
}

fn illustration(s: &Series) -> Illustration {
    let factor = if s.kind.is_recovery() { 100.0 } else { 1.0 };
    let charts = match &s.charted {
        Charted::Drawn(c) => Some(c),
        _ => None,
    };
    let points = s.points.iter().enumerate().map(|(i, p)| {
        let broken = charts.map_or_else(Vec::new, |c| c.broken_at(i));
        let begun = charts.map_or_else(Vec::new, |c| c.begun_at(i));
        Drawn {
            name: p.name.clone(),
            value: factor * p.value,
            half: factor * 2.0 * p.u,
            beyond: broken.iter().any(|(r, _)| *r == Rule::BeyondThree),
            // One pattern, where it begins, is what there is room for; the findings of the run's results name them all.
            broken: patterns_said(&begun[..begun.len().min(1)]).map_or_else(String::new, |rules| rules.text()),
            average: charts.map(|c| {
                let a = &c.ewma.points[i];
                (factor * a.statistic, factor * a.lower, factor * a.upper)
            }),
        }
    });
    let (chart, name) = (|| s.kind.said(), || substance(&s.analyte.element).into());
    let picture = ChartPicture {
        head: Head {
            id: slug(&format!("chart-{}-{}", s.kind.word(), s.analyte.element)),
            title: capital(said::Chart { chart: chart(), element: name() }.text()),
            desc: format!(
                "{} {}.",
                capital(said::ChartDescribed { chart: chart(), element: name() }.text()),
                capital(s.says().text())
            ),
        },
        under: match charts {
            Some(_) => said::Bars.text(),
            None => said::ChartIs { state: s.says() }.text(),
        },
        what: if s.kind.is_recovery() {
            said::RecoveryAxis.text()
        } else {
            said::BlankAxis { unit: s.unit.to_string().into() }.text()
        },
        points: points.collect(),
        centre_sd: charts.map(|c| (factor * c.centre, factor * c.sd)),
        baseline: charts.map_or(0, |c| c.baseline),
    };
    Illustration {
        wide: figure::chart::draw(&picture, WIDE),
        phone: Some(figure::chart::draw(&picture, PHONE)),
        caption: capital(said::ChartCaption { chart: chart(), element: name(), state: s.says() }.text()),
    }
}

fn shown(s: &Series, x: f64) -> String {
    if s.kind.is_recovery() {
        Shown::significant(100.0 * x, 3, "%").text()
    } else {
        Shown::significant(x, 3, s.unit.to_string()).text()
    }
}

fn charts(q: &Quality) -> Table {
    let rows = q.series.iter().map(|s| {
        let (centre, sd, met) = match &s.charted {
            Charted::Drawn(c) => {
                let broken = (0..s.points.len()).any(|i| !c.broken_at(i).is_empty());
                let met = if broken { Outcome::NotMet } else { Outcome::Met };
                (Cell::Text(shown(s, c.centre)), Cell::Text(shown(s, c.sd)), met)
            }
            // No chart is no evidence that the process is kept.
            _ => (Cell::Missing("–".into()), Cell::Missing("–".into()), Outcome::NotKnown),
        };
        vec![
            Cell::Text(format!("{} {}", s.analyte.element, s.analyte.isotopes)),
            Cell::Text(s.kind.said().text()),
            Cell::Text(s.points.len().to_string()),
            centre,
            sd,
            Cell::Outcome(met),
            Cell::Text(s.says().text()),
        ]
    });
    Table {
        caption: said::Charts.text(),
        columns: vec![
            Column::words(common::Isotopes.text()),
            Column::words(common::What.text()),
            Column::numbers(said::Points.text(), ""),
            Column::words(said::Centre.text()),
            Column::words("sd"),
            Column::words(said::IsKept.text()),
            Column::words(said::Rules.text()),
        ],
        rows: rows.collect(),
        notes: vec![said::Skewed.text(), said::DriftChecksSeeLess.text()],
    }
}

/// What the key element did in every run.
fn run_by_run(q: &Quality, key: &str) -> Table {
    let kinds: Vec<&Series> = q.series.iter().filter(|s| s.analyte.element == key && s.kind != Kind::Blank).collect();
    let mut columns = vec![Column::words(said::Run.text()), Column::words(said::Start.text())];
    columns.extend(kinds.iter().map(|s| {
        Column::numbers(s.kind.said().text(), &if s.kind.is_recovery() { "%".into() } else { s.unit.to_string() })
    }));
    let rows = q.runs.iter().enumerate().map(|(i, run)| {
        let mut row = vec![
            Cell::Text(run.name.clone()),
            run.started_at.clone().map_or(Cell::Missing("–".into()), |t| Cell::Text(t[..t.len().min(10)].into())),
        ];
        row.extend(kinds.iter().map(|s| match s.points.iter().find(|p| p.run == i) {
            Some(p) => {
                let value = if s.kind.is_recovery() { 100.0 * p.value } else { p.value };
                Cell::Text(Shown::significant(value, 3, "").text())
            }
            None => Cell::Missing(common::None.text()),
        }));
        row
    });
    let caption = said::RunByRun { element: capital(substance(key)).into() }.text();
    Table { caption, columns, rows: rows.collect(), notes: vec![] }
}

fn bottles(all: &[Stability]) -> Table {
    // Nothing can be lost where nothing was ever detected. Of lead every bottle is shown, of the others only
    // those that changed: of a hundred pairs about five do so by chance.
    let water = |s: &&Stability| s.visits.iter().any(|v| v.detected);
    let rows = all.iter().filter(water).filter(|s| s.changed() != Changed::No || s.analyte.element == "Pb").map(|s| {
        let (first, last) = (s.first(), s.last());
        let (outcome, word) = match (s.changed(), s.difference.value < 0.0) {
            (Changed::No, _) => (Outcome::Met, said::NoChangeSeen.text()),
            (Changed::Perhaps, _) => (Outcome::NotKnown, said::Perhaps.text()),
            (Changed::Yes, true) => (Outcome::NotMet, said::ALoss.text()),
            (Changed::Yes, false) => (Outcome::NotMet, said::AGain.text()),
        };
        vec![
            Cell::Text(s.bottle.clone()),
            Cell::Text(format!("{} {}", s.analyte.element, s.analyte.isotopes)),
            Cell::Amount { amount: Amount::Measured(first.value.clone()), k: 2.0 },
            Cell::Amount { amount: Amount::Measured(last.value.clone()), k: 2.0 },
            last.years.map_or(Cell::Missing("–".into()), |y| Cell::Text(Shown::significant(y, 2, "").text())),
            s.recovery.as_ref().map_or_else(
                || Cell::Missing(said::FirstTooUncertain.text()),
                |r| Cell::Text(format!("{} ± {}", percent(r.value, 3), percent(2.0 * r.u, 2))),
            ),
            Cell::Outcome(outcome),
            Cell::Text(word),
        ]
    });
    Table {
        caption: said::SameBottle.text(),
        columns: vec![
            Column::words(common::Bottle.text()),
            Column::words(common::Isotopes.text()),
            Column::words(said::First.text()),
            Column::words(said::Last.text()),
            Column::numbers(said::YearsBetween.text(), ""),
            Column::words(said::Recovery.text()),
            Column::words(said::Stable.text()),
            Column::words(""),
        ],
        rows: rows.collect(),
        notes: vec![said::WhichBottles.text(), said::Independent.text()],
    }
}

/// A share in percent, without its sign.
fn percent(share: f64, digits: i32) -> String {
    Shown::significant(100.0 * share, digits, "").text()
}

fn long_term(q: &Quality) -> Table {
    let share = |x: f64| Cell::Text(percent(x, 2));
    let rows = q.long_term.iter().map(|l| {
        let name = Cell::Text(format!("{} {}", l.analyte.element, l.analyte.isotopes));
        let few = || Cell::Missing(said::ThisFew.text());
        match &l.parts {
            // With two runs one difference would stand for the years (`FEWEST_RUNS`).
            None => vec![name, Cell::Text(l.runs.to_string()), few()],
            Some(p) => vec![
                name,
                Cell::Text(l.runs.to_string()),
                share(p.bias),
                share(p.between_runs),
                share(p.u_reference),
                p.blank_sd.map_or(Cell::Missing("–".into()), |s| {
                    Cell::Text(Shown::significant(s, 2, p.unit.to_string()).text())
                }),
            ],
        }
    });
    Table {
        caption: said::YearsSay.text(),
        columns: vec![
            Column::words(common::Isotopes.text()),
            Column::numbers(said::Runs.text(), ""),
            Column::numbers(said::Bias.text(), "%"),
            Column::numbers(said::BetweenRuns.text(), "%"),
            Column::numbers(said::UOfValue.text(), "%"),
            Column::words(said::SingleBlanksSd.text()),
        ],
        rows: rows.collect(),
        notes: vec![said::AnotherWater.text()],
    }
}
