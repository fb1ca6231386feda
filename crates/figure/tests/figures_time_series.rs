//! Layout of the figures of the record: every text inside the picture and free of others, no
//! number that is none, a non-detect a bar from the foot to its limit and never a dot. The hard
//! cases: all non-detects, negative net values, one date, many changes of method, long names,
//! hundreds of series, nothing at all. Invented numbers.

use crate::layout::{check, head};
use figure::control::{self, ControlPicture};
use figure::time_series::{self, Change, Dated, OnLine, Seen, TimeSeriesPicture};
use figure::time_series_panels::{self, Course, Small, TimeSeriesPanels};
use figure::{PHONE, WIDE};

/// A falling series with every third reading a non-detect; a cheap fixed scatter.
fn readings(n: usize) -> Vec<Dated> {
    (0..n)
        .map(|i| {
            let scatter = 1.0 + 0.4 * (f64::from(((i * 37) % 17) as u32) / 8.5 - 1.0);
            let v = 40.0 * 0.97f64.powf(i as f64) * scatter;
            Dated {
                time_years: 1988.3 + 0.71 * i as f64,
                seen: if i % 3 == 2 { Seen::Below(v) } else { Seen::Value(v) },
                rejected: i == 4,
                expanded: Some(0.1 * v).filter(|_| i % 3 != 2),
            }
        })
        .collect()
}

fn full() -> TimeSeriesPicture {
    TimeSeriesPicture {
        head: head("record-full"),
        under: "Invented data.".into(),
        unit: "ng/L".into(),
        points: readings(48),
        changes: (0..12)
            .map(|i| Change {
                time_years: 1995.0 + 1.4 * f64::from(i * i % 13),
                words: format!(
                    "2001-0{}-01: laboratory of the lowlands, method {i} to laboratory on the hill, method {}",
                    i % 9 + 1,
                    i + 1
                ),
            })
            .collect::<Vec<_>>()
            .into_iter()
            .take(11)
            .collect(),
        trend: (0..=40)
            .map(|i| {
                let t = 1988.3 + 0.85 * f64::from(i);
                let value = 35.0 - 0.9 * f64::from(i);
                OnLine { time_years: t, low: value - 4.0, value, high: value + 6.0 }
            })
            .collect(),
        trend_words: "trend; band: the slopes that the test does not reject, turned about the middle".into(),
        blanks: readings(9).into_iter().map(|d| Dated { seen: Seen::Value(0.01 * d.seen.bound()), ..d }).collect(),
        blanks_words: "Field blanks, trip blanks".into(),
    }
}

fn sorted(mut p: TimeSeriesPicture) -> TimeSeriesPicture {
    p.changes.sort_by(|a, b| a.time_years.total_cmp(&b.time_years));
    p
}

fn with_points(id: &str, points: Vec<Dated>) -> TimeSeriesPicture {
    TimeSeriesPicture { head: head(id), unit: "µg/L".into(), points, ..TimeSeriesPicture::default() }
}

fn single_pictures() -> Vec<TimeSeriesPicture> {
    let at = |seen| Dated { time_years: 2004.16, seen, rejected: false, expanded: None };
    vec![
        sorted(full()),
        with_points("record-empty", vec![]),
        with_points("record-one", vec![at(Seen::Value(3.0))]),
        with_points("record-one-date", vec![at(Seen::Value(3.0)), at(Seen::Below(5.0)), at(Seen::Value(2.0))]),
        with_points(
            "record-all-below",
            readings(20).into_iter().map(|d| Dated { seen: Seen::Below(1.0), ..d }).collect(),
        ),
        with_points(
            "record-negative",
            readings(20).into_iter().map(|d| Dated { seen: Seen::Value(-d.seen.bound()), ..d }).collect(),
        ),
        with_points(
            "record-mixed",
            readings(20)
                .into_iter()
                .enumerate()
                .map(|(i, d)| Dated { seen: Seen::Value(d.seen.bound() * if i % 4 == 0 { -0.2 } else { 1.0 }), ..d })
                .collect(),
        ),
        with_points(
            "record-wide",
            readings(20)
                .into_iter()
                .enumerate()
                .map(|(i, d)| Dated { seen: Seen::Value(10f64.powf(i as f64 - 8.0)), ..d })
                .collect(),
        ),
    ]
}

#[test]
fn single_series() {
    for p in single_pictures() {
        check(&time_series::draw(&p, WIDE));
        check(&time_series::draw(&p, PHONE));
    }
}

/// Discs are drawn as circles, bars of non-detects as dashed rectangles.
#[test]
fn a_non_detect_is_a_bar_and_never_a_dot() {
    let p = with_points("record-marks", readings(30));
    let empty = time_series::draw(&with_points("record-marks", vec![]), WIDE).inline();
    let svg = time_series::draw(&p, WIDE).inline();
    let (below, values) = (10, 20);
    // One more of each stands in the legend.
    assert_eq!(svg.matches("<circle").count() - empty.matches("<circle").count(), values + 1);
    let bars = |s: &str| s.matches("stroke-dasharray=\"3 2.5\"").count();
    assert_eq!(bars(&svg) - bars(&empty), below + 1);
}

/// Decades of readings are one shape a kind: every value a dot, every non-detect a bar, and a picture that loads at once.
#[test]
fn a_crowd_of_readings_keeps_every_mark_and_stays_small() {
    let p = with_points("record-crowd", readings(300));
    let f = time_series::draw(&p, WIDE);
    check(&f);
    let svg = f.inline();
    // A non-detect is every third of these readings; a dot is drawn with its rim beneath it.
    let (below, values) = (100, 200);
    // Of each path its own attributes, not what follows it.
    let paths: Vec<&str> = svg.split("<path ").skip(1).filter_map(|s| s.split('>').next()).collect();
    let shape = |look: &str| paths.iter().find(|s| s.contains(look)).unwrap_or_else(|| panic!("no {look}"));
    assert_eq!(shape("stroke-width=\"6.8\"").matches("h0").count(), values);
    assert_eq!(shape("fill-opacity=\"0.6\"").matches('M').count(), below);
    assert_eq!(f.notes().len(), below + values, "each tells its value");
    assert!(svg.len() < 30_000, "{} bytes", svg.len());
}

fn series(n: usize) -> Vec<Small> {
    (0..n)
        .map(|i| Small {
            well: if i % 7 == 0 {
                format!("Sallow Levels, well with a long name {}", i % 40)
            } else {
                format!("SL-{}", i % 40)
            },
            analyte: ["Pb", "Chromium(VI), unfiltered, recoverable", "Zn", "Cd", "U"][i % 5].into(),
            points: readings(8 + i % 20),
            changes: vec![1994.5, 2001.2],
            course: match i % 5 {
                0 => Course::Changes { up: true, percent_per_year: Some(0.7 * i as f64), stays: i % 2 == 0 },
                1 => Course::Changes { up: false, percent_per_year: None, stays: true },
                2 => Course::NoAnswer,
                _ => Course::NoneSeen,
            },
        })
        .collect()
}

#[test]
fn many_series() {
    for n in [0, 1, 7, 60] {
        let p = TimeSeriesPanels { head: head("sheet"), under: "Invented data.".into(), series: series(n) };
        for f in [
            time_series_panels::sheet(&p, WIDE),
            time_series_panels::sheet(&p, PHONE),
            time_series_panels::table(&p, WIDE),
            time_series_panels::table(&p, PHONE),
        ] {
            check(&f);
            assert!(f.height < 3000.0, "{} with {n}: {}", f.id, f.height);
        }
    }
}

#[test]
fn control_charts() {
    let base = ControlPicture {
        head: head("control"),
        under: "Limits of the first years.".into(),
        unit: "pg per bottle".into(),
        points: readings(30),
        baseline: 10,
        centre: Some(30.0),
        warning: Some(48.0),
        action: Some(55.0),
    };
    let spike = {
        let mut p = base.clone();
        p.points[20].seen = Seen::Value(4000.0);
        p.points[3].seen = Seen::Value(-2.0);
        p
    };
    let close = ControlPicture { centre: Some(54.0), warning: Some(54.5), ..base.clone() };
    for p in [base, spike, close, ControlPicture { head: head("control-empty"), ..ControlPicture::default() }] {
        check(&control::draw(&p, WIDE));
        check(&control::draw(&p, PHONE));
    }
}

#[test]
fn same_input_same_bytes() {
    let p = sorted(full());
    assert_eq!(time_series::draw(&p, WIDE).alone(), time_series::draw(&p, WIDE).alone());
}
