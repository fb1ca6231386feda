//! Figures that are hard to lay out: long names, ten stages, nothing measured, negative nets.

use super::{ng, path_sl2, upper, value};
use assessment::results::Left;
use document::content::Word;
use figure::blanks::{self, Blank, BlankKind, BlanksPicture};
use figure::line::{self, Fitted, LinePicture};
use figure::overview::{self, OverviewPicture, OverviewRow};
use figure::pairs::{self, Pair, PairsPicture};
use figure::path::{Mark, PathPicture, PathStage};
use figure::sequence::{self, SequencePicture};
use figure::{Figure, Head, PHONE, WIDE};
use quantity::{Amount, Outcome};

/// Ten stages with long names.
pub fn ten_stages() -> PathPicture {
    let names = [
        "aquifer",
        "well and rising main",
        "tap and hose",
        "clean air",
        "filter holder",
        "bottle",
        "acid from the quartz still",
        "cool box",
        "laboratory subsampling",
        "number",
    ];
    PathPicture {
        id: "hard-ten-stages".into(),
        title: "Zinc in bottle SL3-26-07-unfiltered-acidified-in-the-field, a name that is far too long for one line of a figure".into(),
        volume_ml: 250.0,
        stages: names
            .iter()
            .enumerate()
            .map(|(i, n)| PathStage {
                name: (*n).into(),
                detail: ["", "galvanised, 1962", "silicone", "cabinet in the van", "0.45 µm, lot 8812", "lot 14", "lot Q-3, 1.00 mL", "31 h at 4 °C", "split to 4 vials", "12.4 ng/L"][i].into(),
                finding: (i > 0).then(|| ([Outcome::Met, Outcome::NotMet, Outcome::NotKnown][i % 3], "contact time 41 min, less than the programme allows".to_string())),
                forecast: (i % 2 == 1).then_some((2.0 * i as f64, 300.0)),
                measured: match i {
                    1 => value(8200.0, 5000.0, 12000.0),
                    2 | 8 => upper(20.0),
                    3..=7 => value(20.0 * i as f64, 12.0 * i as f64, 31.0 * i as f64),
                    _ => None,
                },
                not_here: i == 9,
            })
            .collect(),
        left: Left::Water,
        water: value(2900.0, 2500.0, 3300.0),
        found: value(3100.0, 2950.0, 3260.0),
        caption: "A stage stands above the water’s own metal. Invented data.".into(),
        strip: None,
    }
}

/// A water below every blank, a net below zero.
pub fn water_below_blanks() -> PathPicture {
    let mut p = path_sl2();
    p.id = "hard-water-below".into();
    p.title = "Cadmium: the water lies below every blank".into();
    p.stages[1].measured = value(-0.31, -1.1, 0.5);
    p.water = upper(0.8);
    p.found = value(-0.4, -2.0, 1.2);
    p
}

/// Net of the water below zero, with an interval.
pub fn negative_water() -> PathPicture {
    let mut p = path_sl2();
    p.id = "hard-negative-water".into();
    p.water = value(-3.0, -9.0, 3.0);
    p.found = value(5.0, 2.0, 8.0);
    p
}

/// No blanks at all.
pub fn nothing_known() -> PathPicture {
    let mut p = path_sl2();
    p.id = "hard-no-blanks".into();
    p.title = "No blanks at all".into();
    for s in &mut p.stages {
        s.measured = None;
        s.forecast = None;
        s.finding = Some((Outcome::NotKnown, "no blank taken".into()));
    }
    p.water = None;
    p
}

/// All stages and the water at one level: labels have little room.
pub fn all_at_one_level() -> PathPicture {
    let mut p = ten_stages();
    p.id = "hard-one-level".into();
    p.title = "Everything at one level".into();
    for s in &mut p.stages {
        s.measured = value(2900.0, 2600.0, 3200.0);
    }
    p
}

/// Values that are no values.
pub fn nonsense() -> PathPicture {
    let mut p = path_sl2();
    p.id = "hard-nonsense".into();
    p.volume_ml = f64::NAN;
    p.stages[1].measured = value(f64::NAN, f64::NEG_INFINITY, f64::INFINITY);
    p.stages[2].measured = value(0.0, 0.0, 0.0);
    p.stages[3].forecast = Some((0.0, f64::INFINITY));
    p.stages[4].measured = Some(Mark::Upper { pg: 0.0 });
    p.stages[5].measured = value(1e-12, 1e-13, 1e-11);
    p.water = value(1e9, 1e8, 1e10);
    p
}

fn head(id: &str) -> Head {
    Head { id: id.into(), title: id.into(), desc: "For the checks of layout.".into() }
}

fn empties(width: f64) -> Vec<Figure> {
    let fitted = Fitted { slope: 1.0, intercept: 0.0, u_slope: 0.0, u_intercept: 0.0, covariance: 0.0, k: 2.0 };
    vec![
        line::draw(
            &LinePicture {
                head: head("hard-empty-line"),
                under: String::new(),
                x_name: "x".into(),
                y_name: "y".into(),
                standards: vec![],
                fitted,
            },
            width,
        ),
        sequence::draw(&SequencePicture { head: head("hard-empty-sequence"), ..Default::default() }, width),
        blanks::draw(&BlanksPicture { head: head("hard-empty-blanks"), ..Default::default() }, width),
        overview::draw(&OverviewPicture { head: head("hard-empty-overview"), ..Default::default() }, width),
        pairs::draw(&PairsPicture { head: head("hard-empty-pairs"), ..Default::default() }, width),
    ]
}

fn many_rows(width: f64) -> Figure {
    let rows = (0..28)
        .map(|i| OverviewRow {
            group: format!("Well number {} with a name that does not fit", i / 7),
            name: format!("bottle {i} of the long summer trip, duplicate"),
            amount: match i % 5 {
                0 => Amount::below(0.5 * f64::from(i + 1), ng()),
                1 => Amount::stated(12.0 + f64::from(i), ng()),
                2 => Amount::above(900.0, ng()),
                _ => Amount::measured(3.0 * f64::from(i + 1), 1.4 * f64::from(i + 1), ng()),
            },
            k: 2.0,
            bound: None,
            word: Some([Word::Accepted, Word::Provisional, Word::Rejected][i as usize % 3]),
        })
        .collect();
    overview::draw(
        &OverviewPicture {
            head: head("hard-many-rows"),
            under: "Rows with long names.".into(),
            unit: "ng/L".into(),
            rows,
            limit: Some((800.0, "limit of an invented authority, edition 2020: 800 ng/L".into())),
        },
        width,
    )
}

fn spiky_blanks(width: f64) -> Figure {
    let blank = |i: i32, v: f64| Blank { name: format!("FB-{i}"), value: v, excluded: i == 3, noted: i == 4 };
    blanks::draw(
        &BlanksPicture {
            head: head("hard-spiky-blanks"),
            unit: "pg per bottle".into(),
            kinds: vec![BlankKind {
                name: "equipment blank of the peristaltic pump".into(),
                blanks: vec![blank(1, -14.0), blank(2, 0.0), blank(3, 0.001), blank(4, 5000.0), blank(5, 0.001)],
            }],
            critical: Some(0.004),
            detection: Some(0.0041),
            ..Default::default()
        },
        width,
    )
}

fn wild_pairs(width: f64) -> Figure {
    let both = |level: f64, percent: f64| Pair::Both { level, percent, expected_percent: None };
    pairs::draw(
        &PairsPicture {
            head: head("hard-wild-pairs"),
            unit: "µg/L".into(),
            pairs: (1..40)
                .map(|i| both(f64::from(i), f64::from(i % 7) - 3.0))
                .chain([both(1e5, 198.0), both(1e-4, f64::NAN), both(0.0, -150.0)])
                .collect(),
            ..Default::default()
        },
        width,
    )
}

/// All hard figures.
pub fn hard_figures() -> Vec<Figure> {
    let paths = [ten_stages(), water_below_blanks(), negative_water(), nothing_known(), all_at_one_level(), nonsense()];
    let mut out: Vec<Figure> = paths.iter().flat_map(|p| [p.wide(), p.phone()]).collect();
    out.push(PathPicture { id: "hard-empty-path".into(), ..Default::default() }.wide());
    out.push(PathPicture { id: "hard-empty-path".into(), ..Default::default() }.phone());
    for width in [WIDE, PHONE] {
        out.extend(empties(width));
        out.extend([many_rows(width), spiky_blanks(width), wild_pairs(width)]);
    }
    out
}
