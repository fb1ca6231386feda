//! Section "Whose metal it is": sources by the blanks, the water's own beside the plain result, fills and flows with
//! their pictures, and patterns of metals beside known sources. Every number was computed in the rooms below.

use super::words::{capital, element};
use super::{Run, section};
use assessment::attribution::{self, RunPair, SeriesLine, Sort, TripAnalyte, WaterFit};
use assessment::blanks;
use assessment::results::{Listed, WaterShare};
use cleanliness::share::Left;
use document::content::{Block, Cell, Column, Content, Illustration, Table};
use figure::line::Fitted;
use figure::tell_line::{self, TellLine};
use figure::{Head, PHONE, WIDE, slug};
use language::as_written;
use quantity::format::{at_decimals, decimals_for, significant};
use quantity::{Amount, Unit};
use record::Error;
use record::store::Store;
use record::words::BottleKind;

/// Adds the section where runs measured blanks and waters.
pub fn fill(store: &Store, runs: &[Run], all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let pairs: Vec<RunPair> = runs.iter().map(|r| (&r.prepared, &r.reduced)).collect();
    let fits = attribution::all(store, &pairs)?;
    let Some(key) = key_of(&fits) else { return Ok(()) };
    let blocks = of(store, &fits, all, &[key], out.invented)?;
    out.sections.push(section("Whose metal it is", blocks));
    Ok(())
}

/// The element told at length: lead where it was measured, else the first.
pub(super) fn key_of(fits: &[TripAnalyte]) -> Option<&str> {
    fits.iter().find(|t| t.analyte.element == "Pb").or(fits.first()).map(|t| t.analyte.element.as_str())
}

/// Sources and series of these elements at length, then every metal in tables.
pub(super) fn of(
    store: &Store,
    fits: &[TripAnalyte],
    all: &[Listed],
    at_length: &[&str],
    invented: bool,
) -> Result<Vec<Block>, Error> {
    let mut blocks = vec![Block::Text("All bottles of a trip, blanks and samples, are fitted together by what each was exposed to; no source can be negative, and a rare spike hardly counts. The result that is reported stays the plain one, net of the blank; the water’s own by all bottles stands beside it.".into())];
    for t in fits.iter().filter(|t| at_length.contains(&t.analyte.element.as_str())) {
        blocks.extend(sources(t, invented));
        blocks.extend(series_blocks(t));
    }
    blocks.extend(own_table(all));
    blocks.extend(flows_table(fits));
    blocks.extend(pattern_blocks(store, all, fits)?);
    Ok(blocks)
}

/// A value with its interval, both to the digits that the interval supports.
pub(super) fn with_interval(value: Option<f64>, (low, high): (f64, f64)) -> String {
    let places = decimals_for((0.5 * (high - low)).abs().max(1e-12), 2);
    let show = |x: f64| at_decimals(x, places);
    match value {
        Some(v) => format!("{} ({} to {})", show(v), show(low), show(high)),
        None => format!("at most {}", significant(high, 2)),
    }
}

fn sources(t: &TripAnalyte, invented: bool) -> Vec<Block> {
    let name = capital(element(&t.analyte.element));
    let mut out = vec![Block::Heading(format!("{name}, trip {}", as_written(&t.trip)))];
    match &t.blanks {
        Err(why) => out.push(Block::Text(format!("The blanks alone were not fitted: {why}."))),
        Ok(f) => {
            let rows = f
                .fit
                .sources
                .iter()
                .zip(&f.asked)
                .map(|(s, a)| {
                    vec![
                        Cell::Text(s.name.clone()),
                        Cell::Text(with_interval(Some(s.per_unit_pg).filter(|_| s.identifiable), s.interval_95)),
                        Cell::Text(format!("pg per {}", a.unit)),
                        Cell::Text(if s.interval_95.0 > 0.0 { "seen" } else { "not seen" }.into()),
                    ]
                })
                .collect();
            let mut notes = vec![format!("By {}.", f.scope)];
            notes.extend(f.not_asked.iter().map(|n| format!("Not asked: {n}.")));
            notes.extend(f.cannot_tell.iter().cloned());
            out.push(Block::Table(Table {
                caption: format!(
                    "{name}: what each source brought, by the blanks{}",
                    if invented { "; invented data" } else { "" }
                ),
                columns: ["source", "strength (95 % interval)", "unit", "seen"].map(Column::words).to_vec(),
                rows,
                notes,
            }));
        }
    }
    let refused: Vec<String> = t.waters.iter().filter_map(refusal).collect();
    if !refused.is_empty() {
        out.push(Block::List(refused));
    }
    out
}

/// Why a water could not be told, in words.
fn refusal(w: &WaterFit) -> Option<String> {
    match &w.fit {
        Err(why) => Some(format!("{}: not fitted; {why}.", as_written(&w.well))),
        Ok(f) if f.fit.waters.iter().any(|x| !x.identifiable) => {
            // What hides the water; what else went together stands under the table.
            let water = format!("water of {}", w.well);
            let why: Vec<&str> = f.cannot_tell.iter().map(String::as_str).filter(|t| t.contains(&water)).collect();
            Some(format!("{}: the water’s own cannot be told. {}", as_written(&w.well), why.join(" ")))
        }
        Ok(_) => None,
    }
}

fn series_blocks(t: &TripAnalyte) -> Vec<Block> {
    let mut out = vec![];
    for w in &t.waters {
        for s in &w.series {
            match &s.line {
                Some(_) => out.push(Block::Figure(picture(t, w, s))),
                None => out.push(Block::Text(format!("{}: {}.", as_written(&w.well), s.sentence))),
            }
        }
    }
    out
}

fn picture(t: &TripAnalyte, w: &WaterFit, s: &SeriesLine) -> Illustration {
    let name = element(&t.analyte.element);
    let line = s.line.as_ref();
    let (title, under, x_name, y_name, at_zero) = match s.sort {
        Sort::Fills => (
            format!("{} in bottles of {} filled to different marks", capital(&name), as_written(&w.well)),
            "The slope is the water, the value at zero volume what bottle and hands brought.",
            "fill volume, mL",
            "metal in the bottle, pg",
            "bottle and hands, pg",
        ),
        Sort::Flows => (
            format!("{} at {} at different flows", capital(&name), as_written(&w.well)),
            "The value at 1/flow = 0 is the aquifer, the slope the pipe.",
            "1/flow, min/L",
            "concentration, ng/L",
            "the aquifer, ng/L",
        ),
    };
    let x = |q: f64| if s.sort == Sort::Flows { 1.0 / q } else { q };
    let bent = line
        .and_then(|l| l.bend_p)
        .map_or_else(String::new, |p| format!(" The test of the line against a bend: p = {}.", significant(p, 2)));
    let p = TellLine {
        head: Head {
            id: slug(&format!("{}-{}-{}-{}", t.trip, w.well, t.analyte.element, x_name)),
            desc: format!("{title}. {}{bent}", s.sentence),
            title: title.clone(),
        },
        under: under.into(),
        x_name: x_name.into(),
        y_name: y_name.into(),
        points: s.bottles.iter().zip(&s.points).map(|(b, p)| (b.clone(), x(p.0), p.1, p.2)).collect(),
        fitted: line.map(|l| Fitted {
            slope: l.slope,
            intercept: l.intercept,
            u_slope: l.u_slope,
            u_intercept: l.u_intercept,
            covariance: l.covariance,
            k: assessment::results::coverage_k(l.dof),
        }),
        at_zero: at_zero.into(),
        caption: format!("{}{bent}", s.sentence),
    };
    let caption = format!("{title}. {}{bent}", s.sentence);
    Illustration { wide: tell_line::draw(&p, WIDE), phone: Some(tell_line::draw(&p, PHONE)), caption }
}

/// The water's own beside the plain result, first sample of each water.
fn own_table(all: &[Listed]) -> Vec<Block> {
    let with = all.iter().filter(|r| r.kind == BottleKind::Sample && r.verdict.is_some() && r.attributed.is_some());
    let mut rows = vec![];
    for r in with {
        let Some(a) = &r.attributed else { continue };
        rows.push(vec![
            Cell::Text(r.bottle.clone()),
            Cell::Text(if r.isotopes.contains('+') || r.isotopes.is_empty() {
                r.analyte.clone()
            } else {
                format!("{} {}", r.analyte, r.isotopes)
            }),
            r.net
                .clone()
                .map_or(Cell::Missing("–".into()), |amount| Cell::Amount { amount, k: r.coverage_k.unwrap_or(2.0) })
                .of(&r.result),
            match a.is {
                Left::Water => Cell::Text(with_interval(a.water, a.water_interval_95)),
                _ => not_alone(),
            },
            match r.water_share {
                Some(s) if s.is == Left::Water => Cell::Text(s.in_words()),
                Some(_) => not_alone(),
                None => Cell::Missing("–".into()),
            },
            match (a.share, a.share_interval_95, a.is) {
                (Some(share), Some((low, high)), Left::Water) => {
                    Cell::Text(WaterShare { share, u: 0.0, low, high, is: a.is }.in_words())
                }
                (Some(_), Some(_), _) => not_alone(),
                _ => Cell::Missing("cannot be told".into()),
            },
        ]);
    }
    if rows.is_empty() {
        return vec![];
    }
    vec![
        Block::Heading("The water’s own beside the plain result".into()),
        Block::Table(Table {
            caption: "Plain subtraction of the blank, and all bottles fitted together, ng/L".into(),
            columns: vec![
                Column::names("bottle"),
                Column::words("metal"),
                Column::numbers("plain", "ng/L"),
                Column::words("own, all bottles"),
                Column::words("share, by the blank"),
                Column::words("share, all bottles"),
            ],
            rows,
            notes: vec!["In brackets 95 % intervals. The plain result is the one that is judged and reported; its share comes from 1 − blank/gross. Own: without the pipe where bottles stood at different flows. At most: these bottles do not tell the water from a source; the list above names the blank that would.".into(), "Not the water’s alone: the pipe, or an open air that no blank met, is in what the blanks leave; the table of results has that part.".into()],
        }),
    ]
}

/// In place of a share that holds more than the water's.
fn not_alone() -> Cell {
    Cell::Missing("not the water’s alone".into())
}

/// Aquifer and pipe of every metal with a flow series.
fn flows_table(fits: &[TripAnalyte]) -> Vec<Block> {
    let mut rows = vec![];
    for t in fits {
        for w in &t.waters {
            let Some(s) = w.series.iter().find(|s| s.sort == Sort::Flows) else { continue };
            let Some(l) = &s.line else { continue };
            let amount = |value: f64, u: f64, unit: &str| Cell::Amount {
                amount: Amount::measured(value, u, Unit::known(unit)),
                k: assessment::results::coverage_k(l.dof),
            };
            rows.push(vec![
                Cell::Text(w.well.clone()),
                Cell::Text(format!("{} {}", t.analyte.element, t.analyte.isotopes)),
                amount(l.intercept, l.u_intercept, "ng/L"),
                amount(l.slope, l.u_slope, "ng/min"),
                Cell::Text(l.bend_p.map_or_else(|| "–".into(), |p| significant(p, 2))),
                Cell::Text(if l.is_a_line() { "a line" } else { "bends" }.into()),
            ]);
        }
    }
    if rows.is_empty() {
        return vec![];
    }
    vec![Block::Table(Table {
        caption: "Aquifer and pipe by samples at different flow".into(),
        columns: vec![
            Column::names("well"),
            Column::words("metal"),
            Column::numbers("aquifer", "ng/L"),
            Column::numbers("pipe", "ng/min"),
            Column::words("p of a bend"),
            Column::words("in 1/flow"),
        ],
        rows,
        notes: vec!["A bend towards more metal at faster flow may be particles: filtered beside unfiltered, or Fe and Al, tell.".into()],
    })]
}

fn pattern_blocks(store: &Store, all: &[Listed], fits: &[TripAnalyte]) -> Result<Vec<Block>, Error> {
    let signatures = blanks::signatures(store)?;
    let found = blanks::of(store, all)?;
    let patterns = blanks::patterns_of(&found, fits, &signatures);
    if patterns.is_empty() {
        return Ok(vec![]);
    }
    let mut named: Vec<String> = vec![];
    for s in &signatures {
        let metals: Vec<&str> = s.amounts.iter().map(|a| a.0.as_str()).collect();
        named.push(format!("{} ({}): {}", s.name, metals.join(", "), s.source));
    }
    Ok(vec![
        Block::Heading("Patterns of metals beside known sources".into()),
        Block::List(patterns.iter().map(|p| language::finding(&p.finding())).collect()),
        Block::Text("A pattern that fits is a hint where to look, no proof: metal does not dissolve in the proportion of the alloy, so amounts count as known to a third. The signatures, and where they come from:".into()),
        Block::List(named),
    ])
}
