//! Blanks by lot, person, acid and cabinet beside the wells on one time axis, with the findings of rise and training.

use super::attribution::metal;
use super::section;
use super::words::capital;
use assessment::blanks::{self, BlankPoint, Blanks};
use assessment::results::Listed;
use assessment::series_of;
use document::content::{Annex, Block, Content, Illustration};
use figure::blank_years::{self, BlankYears, Group, Lane};
use figure::{Head, PHONE, WIDE, slug};
use message::{Arg, Message, Spoken, blank_years as said, count, word};
use quantity::{Finding, Outcome};
use record::Error;
use record::store::Store;
use std::collections::BTreeMap;

/// Pictures, at most.
const PICTURES: usize = 3;
/// Lanes of one kind, at most; more are told.
const LANES: usize = 12;
/// Wells, at most; more are told. The figure has five shapes: a sixth well would look like the first.
const WELLS: usize = 5;

/// Adds the section where blanks stand on three dates or more, or somebody trained.
pub fn fill(store: &Store, all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let found = blanks::of(store, all)?;
    let (rising, training) = (found.rising(), found.training());
    let mut findings: Vec<Finding> = rising.iter().map(|r| r.1.clone()).collect();
    findings.sort_by_key(|f| f.outcome != Outcome::NotMet);
    findings.extend(training);
    let mut elements: Vec<&str> = vec![];
    // What rises first, lead before others.
    let order = rising
        .iter()
        .filter(|r| r.1.outcome == Outcome::NotMet)
        .chain(rising.iter().filter(|r| r.0 == "Pb"))
        .chain(&rising);
    for (analyte, _) in order {
        if !elements.contains(&analyte.as_str()) {
            elements.push(analyte);
        }
    }
    if findings.is_empty() {
        return Ok(());
    }
    let record = series_of::of(store, all)?;
    let mut blocks = vec![Block::Text(said::About.text())];
    for analyte in elements.into_iter().take(PICTURES) {
        blocks.push(Block::Figure(picture(&found, &record, analyte)));
    }
    blocks.push(Block::Findings(findings));
    if found.left_out > 0 {
        blocks.push(Block::Text(said::NotShown { blanks: count(found.left_out) }.text()));
    }
    out.sections.push(section(said::Title, blocks).within(Annex::Runs));
    Ok(())
}

fn picture(found: &Blanks, record: &series_of::Record, analyte: &str) -> Illustration {
    let points: Vec<&BlankPoint> = found.points.iter().filter(|p| p.analyte == analyte && !p.excluded).collect();
    let mut kinds: BTreeMap<&str, Vec<(f64, f64)>> = BTreeMap::new();
    for p in &points {
        kinds.entry(&p.kind).or_default().push((p.year, p.pg));
    }
    let series: Vec<&series_of::Series> = record.wells.iter().filter(|s| s.analyte == analyte).collect();
    let wells = series
        .iter()
        .take(WELLS)
        .map(|s| Group {
            name: if s.fraction == "unfiltered" {
                s.of.clone()
            } else {
                said::Well { well: (&s.of).into(), fraction: (&s.fraction).into() }.text()
            },
            points: s
                .rows
                .iter()
                .filter_map(|r| match r.observation.reading {
                    series::Reading::Known(v) => Some((r.observation.time_years, v)),
                    // A bound drawn as a point would look like a value; the caption says that these are not shown.
                    series::Reading::Below(_) => None,
                })
                .collect(),
        })
        .collect();
    let of: Message = said::Of { metal: metal(analyte) }.into();
    let desc = said::Description { title: of.clone(), blanks: count(points.len()), wells: count(series.len()) }.text();
    let title = capital(of.text());
    let (lanes, mut not_drawn) = lanes(&points);
    if series.len() > WELLS {
        not_drawn.push(more_of(word::Well.into(), series.len() - WELLS));
    }
    let mut caption = said::Caption.text();
    if !not_drawn.is_empty() {
        caption += " ";
        caption += &said::NotDrawn { what: not_drawn }.text();
    }
    let p = BlankYears {
        head: Head { id: slug(&format!("blank-years-{analyte}")), desc: capital(&desc), title: title.clone() },
        under: said::Under.text(),
        wells,
        unit: series.first().map_or_else(|| "ng/L".into(), |s| s.unit.to_string()),
        blanks: kinds.into_iter().map(|(k, points)| Group { name: kind(k), points }).collect(),
        lanes,
        caption,
    };
    Illustration {
        wide: blank_years::draw(&p, WIDE),
        phone: Some(blank_years::draw(&p, PHONE)),
        caption: format!("{title}."),
    }
}

/// A kind of blank by its word in the record.
fn kind(word: &str) -> String {
    Message::named("blank_years", word).map_or_else(|| word.to_string(), |says| says.text())
}

/// What of a blank a picture is coloured by.
type Mark = fn(&BlankPoint) -> Option<&String>;

/// So many more of a kind than are drawn.
fn more_of(what: Message, more: usize) -> Arg {
    Message::from(said::MoreOf { what, more: count(more) }).into()
}

/// Lanes of each kind, oldest first, and how many more of a kind there are than are drawn.
fn lanes(points: &[&BlankPoint]) -> (Vec<Lane>, Vec<Arg>) {
    let (mut out, mut not_drawn) = (vec![], vec![]);
    let of: [(Message, Mark); 4] = [
        (said::Lot.into(), |p| p.lot.as_ref()),
        (said::Person.into(), |p| p.person.as_ref()),
        (word::Acid.into(), |p| p.acid.as_ref()),
        (word::Cabinet.into(), |p| p.cabinet.as_ref()),
    ];
    for (what, get) in of {
        let mut by: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
        for p in points {
            if let Some(name) = get(p) {
                by.entry(name).or_default().push(p.year);
            }
        }
        let mut lanes: Vec<Lane> =
            by.into_iter().map(|(name, years)| Lane { what: what.text(), name: name.to_string(), years }).collect();
        lanes.sort_by(|a, b| a.years[0].total_cmp(&b.years[0]).then_with(|| a.name.cmp(&b.name)));
        if lanes.len() > LANES {
            not_drawn.push(more_of(what, lanes.len() - LANES));
            lanes.truncate(LANES);
        }
        out.extend(lanes);
    }
    (out, not_drawn)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lanes_that_find_no_room_are_told() {
        let point = |i: usize| BlankPoint {
            bottle: format!("FB-{i}"),
            kind: "field blank".into(),
            analyte: "Pb".into(),
            channel: String::new(),
            year: 2020.0 + i as f64,
            pg: 5.0,
            u_pg: None,
            lot: Some(format!("{i}")),
            person: None,
            acid: None,
            cabinet: None,
            training: false,
            excluded: false,
        };
        let told = |n: usize| {
            let all: Vec<BlankPoint> = (0..n).map(point).collect();
            let (lanes, more) = lanes(&all.iter().collect::<Vec<_>>());
            (lanes.len(), more)
        };
        assert_eq!(told(LANES), (LANES, vec![]));
        let (drawn, more) = told(LANES + 3);
        assert_eq!(
            (drawn, Message::from(said::NotDrawn { what: more }).in_english()),
            (LANES, "Not drawn for want of room: lot (3 more).".into())
        );
    }
}
