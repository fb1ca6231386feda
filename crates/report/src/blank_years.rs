//! Blanks by lot, person, acid and cabinet beside the wells on one time axis, with the findings of rise and training.

use super::section;
use super::words::{capital, element};
use assessment::blanks::{self, BlankPoint, Blanks};
use assessment::results::Listed;
use assessment::series_of;
use document::content::{Block, Content, Illustration};
use figure::blank_years::{self, BlankYears, Group, Lane};
use figure::{Head, PHONE, WIDE, slug};
use language::as_written;
use quantity::{Finding, Outcome};
use record::Error;
use record::store::Store;
use std::collections::BTreeMap;

/// Pictures, at most.
const PICTURES: usize = 3;
/// Lanes of one kind, at most; more are told.
const LANES: usize = 12;

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
    let mut blocks = vec![Block::Text("A rising blank looks like a rising metal. Every blank on record by what it met, beside the wells on the same axis: where a lot, a person, an acid or a cabinet begins, look at the blanks first.".into())];
    for analyte in elements.into_iter().take(PICTURES) {
        blocks.push(Block::Figure(picture(&found, &record, analyte)));
    }
    blocks.push(Block::Findings(findings));
    if found.left_out > 0 {
        blocks.push(Block::Text(format!(
            "{} blanks are not shown as numbers: the laboratory gave only a limit, or volume or date is not on record.",
            found.left_out
        )));
    }
    out.sections.push(section("Blanks by lot, person, acid and cabinet", blocks));
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
        .take(5)
        .map(|s| Group {
            name: if s.fraction == "unfiltered" { s.of.clone() } else { format!("{}, {}", s.of, s.fraction) },
            points: s
                .rows
                .iter()
                .filter_map(|r| match r.observation.reading {
                    series::Reading::Known(v) => Some((r.observation.time_years, v)),
                    series::Reading::Below(_) => None,
                })
                .collect(),
        })
        .collect();
    let title = format!("{} in blanks and wells over the years", capital(element(analyte)));
    let p = BlankYears {
        head: Head {
            id: slug(&format!("blank-years-{analyte}")),
            desc: format!("{title}: {} blanks, {} wells.", points.len(), series.len()),
            title: title.clone(),
        },
        under: "Wells above, blanks below, and what each blank met, on one time axis.".into(),
        wells,
        unit: series.first().map_or_else(|| "ng/L".into(), |s| s.unit.to_string()),
        blanks: kinds.into_iter().map(|(k, points)| Group { name: k.into(), points }).collect(),
        lanes: lanes(&points),
        caption: "A tick in a lane is a blank with that lot, person, acid or cabinet. What is at or below zero stands at the foot; non-detects of the wells are not shown here.".into(),
    };
    Illustration {
        wide: blank_years::draw(&p, WIDE),
        phone: Some(blank_years::draw(&p, PHONE)),
        caption: format!("{title}."),
    }
}

/// What of a blank a picture is coloured by.
type Mark = fn(&BlankPoint) -> Option<&String>;

fn lanes(points: &[&BlankPoint]) -> Vec<Lane> {
    let mut out = vec![];
    let of: [(&str, Mark); 4] = [
        ("lot", |p| p.lot.as_ref()),
        ("person", |p| p.person.as_ref()),
        ("acid", |p| p.acid.as_ref()),
        ("cabinet", |p| p.cabinet.as_ref()),
    ];
    for (what, get) in of {
        let mut by: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
        for p in points {
            if let Some(name) = get(p) {
                by.entry(name).or_default().push(p.year);
            }
        }
        let mut lanes: Vec<Lane> =
            by.into_iter().map(|(name, years)| Lane { what: what.into(), name: as_written(name), years }).collect();
        lanes.sort_by(|a, b| a.years[0].total_cmp(&b.years[0]).then_with(|| a.name.cmp(&b.name)));
        lanes.truncate(LANES);
        out.extend(lanes);
    }
    out
}
