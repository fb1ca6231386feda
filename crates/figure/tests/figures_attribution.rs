//! Layout of the figures of fills and flows, air, and blanks over the years: every text inside the picture and free
//! of others, no number that is none. The hard cases: no line, nothing counted, negative intercepts, long names, many
//! lanes, nothing at all. Invented numbers.

use crate::layout::{check, head};
use figure::air::{self, AirPanel, AirPicture, AirRow};
use figure::blank_years::{self, BlankYears, Group, Lane};
use figure::line::Fitted;
use figure::tell_line::{self, TellLine};
use figure::{Figure, PHONE, WIDE};

/// Where a person asks for it, the figures are written to look at.
fn shown(f: &Figure) {
    if let Some(dir) = std::env::var_os("FIGURES") {
        std::fs::write(std::path::Path::new(&dir).join(format!("{}.svg", f.id)), f.alone()).unwrap();
    }
    check(f);
}

fn fills() -> TellLine {
    TellLine {
        head: head("fills"),
        under: "The slope is the water, the value at zero volume what bottle and hands brought.".into(),
        x_name: "fill volume, mL".into(),
        y_name: "metal in the bottle, pg".into(),
        points: [(60.0, 84.0), (125.0, 150.0), (250.0, 284.0), (250.0, 279.0), (375.0, 410.0), (500.0, 545.0)]
            .iter()
            .enumerate()
            .map(|(i, p)| (format!("SL2-{i}"), p.0, p.1, 4.0))
            .collect(),
        fitted: Some(Fitted { slope: 1.045, intercept: 20.4, u_slope: 0.02, u_intercept: 4.0, covariance: -0.06, k: 2.8 }),
        at_zero: "at zero: bottle and hands, pg".into(),
        caption: "The water holds 1.05 ng/L (u 0.02), and bottle and hands brought 20 pg (u 4): the points lie on a line. The test of the line against a bend: p = 0.62.".into(),
    }
}

#[test]
fn lines_that_tell() {
    for width in [WIDE, PHONE] {
        shown(&tell_line::draw(&fills(), width));
        let mut none = fills();
        none.head = head("fills-no-line");
        none.fitted = None;
        shown(&tell_line::draw(&none, width));
        let mut negative = fills();
        negative.head = head("fills-negative");
        negative.fitted = Some(Fitted { intercept: -40.0, u_intercept: 60.0, ..fills().fitted.unwrap() });
        shown(&tell_line::draw(&negative, width));
        let mut nonsense = fills();
        nonsense.head = head("fills-nonsense");
        nonsense.points = vec![("a".into(), f64::NAN, 1.0, 1.0), ("b".into(), 1.0, f64::INFINITY, 1.0)];
        nonsense.fitted = Some(Fitted { slope: f64::NAN, ..fills().fitted.unwrap() });
        shown(&tell_line::draw(&nonsense, width));
    }
}

fn row(name: &str, detail: &str, per_m3: f64, bounds: (f64, f64)) -> AirRow {
    AirRow { name: name.into(), detail: detail.into(), per_m3, bounds }
}

#[test]
fn air_of_cabinet_and_field() {
    let limits =
        vec![(3, 35.2), (4, 352.0), (5, 3520.0), (6, 35_200.0), (7, 352_000.0), (8, 3_520_000.0), (9, 35_200_000.0)];
    let fine = AirPanel {
        size_um: 0.5,
        rows: vec![
            row("SL-1, open air", "1.5 min, 2 bottles", 2.17e7, (2.15e7, 2.19e7)),
            row("SL-2, cabinet", "2 min, 20 bottles", 11.8, (0.6, 55.9)),
            row("The old well behind the pumping station, cabinet", "0.5 to 12 min, 140 bottles", 0.0, (0.0, 35.3)),
        ],
        limits,
    };
    let coarse = AirPanel {
        size_um: 5.0,
        rows: vec![row("SL-1, open air", "", 7.5e4, (6.7e4, 8.5e4))],
        limits: vec![(7, 2930.0), (8, 29_300.0)],
    };
    for width in [WIDE, PHONE] {
        let p = AirPicture {
            head: head("air"),
            under: "Cabinet and open air on one axis.".into(),
            panels: vec![fine.clone(), coarse.clone()],
            caption: "Bounds are exact, one-sided 95 % each.".into(),
        };
        shown(&air::draw(&p, width));
        shown(&air::draw(&AirPicture { head: head("air-empty"), ..AirPicture::default() }, width));
    }
}

#[test]
fn blanks_beside_wells_over_the_years() {
    let years = |from: f64, n: usize| -> Vec<f64> { (0..n).map(|i| from + 0.5 * i as f64).collect() };
    let group = |name: &str, level: f64, growth: f64| Group {
        name: name.into(),
        points: years(2009.3, 24)
            .into_iter()
            .zip(0i32..)
            .map(|(t, i)| (t, level * growth.powi(i) * (1.0 + 0.2 * f64::from((i * 7) % 5) - 0.4)))
            .collect(),
    };
    let lane = |what: &str, name: &str, from: f64, n: usize| Lane {
        what: what.into(),
        name: name.into(),
        years: years(from, n),
    };
    let mut blanks =
        vec![group("field blank", 20.0, 1.05), group("trip blank", 12.0, 1.04), group("bottle blank", 8.0, 1.0)];
    blanks[2].points[3].1 = -1.0;
    let p = BlankYears {
        head: head("blank-years"),
        under: "Wells above, blanks below, and what each blank met, on one time axis.".into(),
        wells: vec![group("SL-1", 2.6, 1.0), group("SL-2", 1.0, 1.02), group("SL-3", 44.0, 0.99)],
        unit: "ng/L".into(),
        blanks,
        lanes: vec![
            lane("lot", "11", 2009.3, 8),
            lane("lot", "14", 2013.3, 16),
            lane("person", "Marit Osk", 2009.3, 24),
            lane("person", "a person with a name that is far too long for a lane", 2015.0, 3),
            lane("acid", "HN-71", 2009.3, 10),
            lane("acid", "HN-88", 2014.3, 14),
            lane("cabinet", "frame with filtered air, SL-2", 2012.0, 18),
        ],
        caption: "A tick in a lane is a blank with that lot, person, acid or cabinet.".into(),
    };
    for width in [WIDE, PHONE] {
        shown(&blank_years::draw(&p, width));
        shown(&blank_years::draw(&BlankYears { head: head("blank-years-empty"), ..BlankYears::default() }, width));
        let one = BlankYears {
            head: head("blank-years-nonsense"),
            blanks: vec![Group { name: "x".into(), points: vec![(f64::NAN, 1.0), (2020.0, f64::NAN)] }],
            ..p.clone()
        };
        shown(&blank_years::draw(&one, width));
    }
}
