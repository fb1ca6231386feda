//! Section "Quality over the runs": a chart of the control water and one of the blanks for the key
//! element, the state of every chart in a table, bottles that were measured again, and what the
//! years say of u. With one run a sentence says why there is nothing to show.

use super::words::{capital, element};
use super::{Run, section};
use assessment::quality::stability::{Changed, Stability};
use assessment::quality::{Charted, FEWEST, Kind, Quality, Series, rules_in_words};
use document::content::{Block, Cell, Column, Content, Illustration, Table};
use figure::chart::{self, ChartPicture, Charted as Drawn};
use figure::{Head, PHONE, WIDE, slug};
use language::as_written;
use measurement::control::Rule;
use quantity::format::{percent, significant};
use quantity::{Amount, Outcome};
use record::Error;
use record::store::Store;

/// Adds the section, where the programme has runs.
pub fn fill(store: &Store, runs: &[Run], out: &mut Content) -> Result<(), Error> {
    if runs.is_empty() {
        return Ok(());
    }
    if runs.len() == 1 {
        let text = format!(
            "There is one run. What holds from run to run cannot be told from it: charts need {FEWEST} runs, the stability of a bottle two."
        );
        out.sections.push(section("Quality over the runs", vec![Block::Text(text)]));
        return Ok(());
    }
    let q = Quality::of(store, runs.iter().map(|r| (&r.prepared, &r.reduced)))?;
    let key = if q.series.iter().any(|s| s.analyte.element == "Pb") {
        "Pb".to_string()
    } else {
        q.series.first().map_or_else(String::new, |s| s.analyte.element.clone())
    };
    let mut blocks = vec![Block::Text(format!(
        "{} runs, from {} to {}. A point is the mean of a run; centre and sd come from the first runs, and a rule that a later run breaks is told in the findings of its results.",
        q.runs.len(),
        as_written(&q.runs[0].name),
        as_written(&q.runs[q.runs.len() - 1].name)
    ))];
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
    out.sections.push(section("Quality over the runs", blocks));
    Ok(())
}

fn illustration(s: &Series) -> Illustration {
    let name = element(&s.analyte.element);
    let factor = if s.kind.is_recovery() { 100.0 } else { 1.0 };
    let charts = match &s.charted {
        Charted::Drawn(c) => Some(c),
        _ => None,
    };
    let points = s.points.iter().enumerate().map(|(i, p)| {
        let broken = charts.map_or_else(Vec::new, |c| c.broken_at(i));
        Drawn {
            name: p.name.clone(),
            value: factor * p.value,
            half: factor * 2.0 * p.u,
            beyond: broken.iter().any(|(r, _)| *r == Rule::BeyondThree),
            broken: rules_in_words(&broken[..broken.len().min(1)]).unwrap_or_default(),
            average: charts.map(|c| {
                let a = &c.ewma.points[i];
                (factor * a.statistic, factor * a.lower, factor * a.upper)
            }),
        }
    });
    let unit = if s.kind.is_recovery() { "%".to_string() } else { s.unit.to_string() };
    let picture = ChartPicture {
        head: Head {
            id: slug(&format!("chart-{}-{}", s.kind.word(), s.analyte.element)),
            title: format!("{} of {name}, run by run", capital(s.kind.word())),
            desc: format!(
                "{} of {name} in every run with centre and limits. {}.",
                capital(s.kind.word()),
                capital(&s.in_words())
            ),
        },
        under: match charts {
            Some(_) => "Bars: 2 u of the run. The first rule broken stands beside its point.".into(),
            None => format!("The chart {}.", s.in_words()),
        },
        what: if s.kind.is_recovery() { "Recovery, %".into() } else { format!("Blank, {unit}") },
        points: points.collect(),
        centre_sd: charts.map(|c| (factor * c.centre, factor * c.sd)),
        baseline: charts.map_or(0, |c| c.baseline),
    };
    Illustration {
        wide: chart::draw(&picture, WIDE),
        phone: Some(chart::draw(&picture, PHONE)),
        caption: format!("{} of {name} in every run: {}.", capital(s.kind.word()), s.in_words()),
    }
}

fn shown(s: &Series, x: f64) -> String {
    if s.kind.is_recovery() { format!("{} %", percent(x, 3)) } else { format!("{} {}", significant(x, 3), s.unit) }
}

fn charts(q: &Quality) -> Table {
    let rows = q.series.iter().map(|s| {
        let (centre, sd, met) = match &s.charted {
            Charted::Drawn(c) => {
                let broken = (0..s.points.len()).any(|i| !c.broken_at(i).is_empty());
                let met = if broken { Outcome::NotMet } else { Outcome::Met };
                (Cell::Text(shown(s, c.centre)), Cell::Text(shown(s, c.sd)), met)
            }
            _ => (Cell::Missing("–".into()), Cell::Missing("–".into()), Outcome::NotKnown),
        };
        vec![
            Cell::Text(format!("{} {}", s.analyte.element, s.analyte.isotopes)),
            Cell::Text(s.kind.word().into()),
            Cell::Text(s.points.len().to_string()),
            centre,
            sd,
            Cell::Outcome(met),
            Cell::Text(s.in_words()),
        ]
    });
    Table {
        caption: "Charts of all runs: run rules, cumulative sum, moving average".into(),
        columns: vec![
            Column::words("isotopes"),
            Column::words("what"),
            Column::numbers("points", ""),
            Column::words("centre"),
            Column::words("sd"),
            Column::words("kept"),
            Column::words("rules"),
        ],
        rows: rows.collect(),
        notes: vec![
            "Blanks are skewed with rare spikes: a rule broken by a single blank may be chance.".into(),
            "Drift checks also correct the drift of their run, so that their chart sees less than the control water's."
                .into(),
        ],
    }
}

/// What the key element did in every run.
fn run_by_run(q: &Quality, key: &str) -> Table {
    let kinds: Vec<&Series> = q.series.iter().filter(|s| s.analyte.element == key && s.kind != Kind::Blank).collect();
    let mut columns = vec![Column::names("run"), Column::words("start")];
    columns.extend(
        kinds.iter().map(|s| {
            Column::numbers(s.kind.word(), &if s.kind.is_recovery() { "%".into() } else { s.unit.to_string() })
        }),
    );
    let rows = q.runs.iter().enumerate().map(|(i, run)| {
        let mut row = vec![
            Cell::Text(run.name.clone()),
            run.started_at.clone().map_or(Cell::Missing("–".into()), |t| Cell::Text(t[..t.len().min(10)].into())),
        ];
        row.extend(kinds.iter().map(|s| match s.points.iter().find(|p| p.run == i) {
            Some(p) => Cell::Text(significant(if s.kind.is_recovery() { 100.0 * p.value } else { p.value }, 3)),
            None => Cell::Missing("none".into()),
        }));
        row
    });
    Table { caption: format!("{} run by run", capital(element(key))), columns, rows: rows.collect(), notes: vec![] }
}

fn bottles(all: &[Stability]) -> Table {
    let water = |s: &&Stability| s.visits.iter().any(|v| v.detected);
    let rows = all.iter().filter(water).filter(|s| s.changed() != Changed::No || s.analyte.element == "Pb").map(|s| {
        let (first, last) = (s.first(), s.last());
        let (outcome, word) = match (s.changed(), s.difference.value < 0.0) {
            (Changed::No, _) => (Outcome::Met, "no change seen"),
            (Changed::Perhaps, _) => (Outcome::NotKnown, "perhaps"),
            (Changed::Yes, true) => (Outcome::NotMet, "loss"),
            (Changed::Yes, false) => (Outcome::NotMet, "gain"),
        };
        vec![
            Cell::Text(s.bottle.clone()),
            Cell::Text(format!("{} {}", s.analyte.element, s.analyte.isotopes)),
            Cell::Amount { amount: Amount::Measured(first.value.clone()), k: 2.0 },
            Cell::Amount { amount: Amount::Measured(last.value.clone()), k: 2.0 },
            last.years.map_or(Cell::Missing("–".into()), |y| Cell::Text(significant(y, 2))),
            s.recovery.as_ref().map_or(Cell::Missing("first value too uncertain".into()), |r| {
                Cell::Text(format!("{} ± {}", percent(r.value, 3), percent(2.0 * r.u, 2)))
            }),
            Cell::Outcome(outcome),
            Cell::Text(word.into()),
        ]
    });
    Table {
        caption: "The same bottle measured again: what became of the metal".into(),
        columns: vec![
            Column::names("bottle"),
            Column::words("isotopes"),
            Column::words("first"),
            Column::words("last"),
            Column::numbers("years between", ""),
            Column::words("recovery, %"),
            Column::words("stable"),
            Column::words(""),
        ],
        rows: rows.collect(),
        notes: vec![
            "All bottles for lead, of the other elements those that changed by more than two standard uncertainties; of a hundred pairs about five do so by chance.".into(),
            "The u of both runs are taken as independent. The earlier value stays on record as an earlier revision.".into(),
        ],
    }
}

fn long_term(q: &Quality) -> Table {
    let share = |x: f64| Cell::Text(percent(x, 2));
    let rows = q.long_term.iter().map(|l| {
        let name = Cell::Text(format!("{} {}", l.analyte.element, l.analyte.isotopes));
        let few = || Cell::Missing("cannot be given with this few".into());
        match &l.parts {
            None => vec![name, Cell::Text(l.runs.to_string()), few()],
            Some(p) => vec![
                name,
                Cell::Text(l.runs.to_string()),
                share(p.bias),
                share(p.between_runs),
                share(p.u_reference),
                p.blank_sd
                    .map_or(Cell::Missing("–".into()), |s| Cell::Text(format!("{} {}", significant(s, 2), p.unit))),
            ],
        }
    });
    Table {
        caption: "What the years say of u, beside the budget of each number".into(),
        columns: vec![
            Column::words("isotopes"),
            Column::numbers("runs", ""),
            Column::numbers("bias of the control water", "%"),
            Column::numbers("between runs", "%"),
            Column::numbers("u of its value", "%"),
            Column::words("single blanks, sd"),
        ],
        rows: rows.collect(),
        notes: vec!["The control water is another water than the samples. These parts replace no uncertainty; the findings of each result set both side by side.".into()],
    }
}
