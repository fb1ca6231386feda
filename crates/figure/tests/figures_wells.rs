//! Layout of the pictures of wells: every text inside the picture, no text over another, no number that is none.
//! The hard cases: long names of layers, a well of 600 m, one of 10 m, layers a hand thick, nothing on record,
//! a head far above the ground, values that are no values. All numbers invented.

use figure::choice::{self, ChoicePicture, FlowChoice};
use figure::flow_test::{self, FlowTestPicture, TestPoint};
use figure::section::{self, SectionPicture};
use figure::well::{self, LayerDrawn, PipeDrawn, PipeKind, WellPicture};
use figure::{Figure, Head, PHONE, WIDE};
use proptest::prelude::*;

fn head(id: &str, title: &str) -> Head {
    Head { id: id.into(), title: title.into(), desc: "Invented.".into() }
}

fn layers(all: &[(f64, f64, &str)]) -> Vec<LayerDrawn> {
    all.iter().map(|(from_m, to_m, name)| LayerDrawn { from_m: *from_m, to_m: *to_m, name: (*name).into() }).collect()
}

fn pipes(all: &[(f64, f64, f64, PipeKind, &str)]) -> Vec<PipeDrawn> {
    all.iter()
        .map(|&(from_m, to_m, radius_m, kind, material)| PipeDrawn {
            from_m,
            to_m,
            radius_m,
            kind,
            material: material.into(),
        })
        .collect()
}

fn ordinary() -> WellPicture {
    WellPicture {
        head: head("well-ordinary", "The well SL-1, depths to scale"),
        layers: layers(&[(0.0, 1.2, "peat and made ground"), (1.2, 41.0, "marine clay"), (41.0, 54.0, "sandstone")]),
        pipes: pipes(&[(0.0, 48.0, 0.038, PipeKind::Casing, "iron"), (48.0, 54.0, 0.038, PipeKind::Screen, "iron")]),
        static_head: Some((4.58, "head: the water of the shut well stands (4.58 ± 0.20) m above ground".into())),
        flow: Some("flows (12.0 ± 0.2) L/min".into()),
    }
}

/// 600 m, telescoped, thin layers, names that no box holds.
fn deep() -> WellPicture {
    let mut all = vec![(0.0, 0.4, "soil"), (0.4, 0.9, "loess loam"), (0.9, 1.1, "a band of flint")];
    let long = "grey-green silty marine clay with shells, pyrite nodules and thin streaks of glauconitic fine sand, stiff below";
    all.extend([
        (1.1, 310.0, long),
        (310.0, 311.0, "lignite"),
        (311.0, 595.0, "chalk"),
        (595.0, 600.0, "Grobkieselkonglomeratschichtgestein"),
    ]);
    WellPicture {
        head: head(
            "well-deep",
            "The municipal exploration borehole at the old waterworks, a name too long for one line",
        ),
        layers: layers(&all),
        pipes: pipes(&[
            (-0.8, 120.0, 0.16, PipeKind::Casing, "welded carbon steel with a cement-mortar lining"),
            (120.0, 590.0, 0.057, PipeKind::Casing, "stainless steel"),
            (590.0, 600.0, 0.057, PipeKind::Open, ""),
        ]),
        static_head: Some((62.0, "head: the water of the shut well stands (62 ± 4) m above ground".into())),
        flow: None,
    }
}

fn shallow() -> WellPicture {
    WellPicture {
        head: head("well-shallow", "A driven point of ten metres"),
        layers: layers(&[(0.0, 3.0, "clay"), (5.0, 10.0, "gravel")]),
        pipes: pipes(&[
            (-0.5, 9.0, 0.0125, PipeKind::Casing, "zinc-coated steel"),
            (9.0, 10.0, 0.0125, PipeKind::Screen, "zinc-coated steel"),
        ]),
        static_head: None,
        flow: Some("flows (0.80 ± 0.05) L/min".into()),
    }
}

fn scheme() -> SectionPicture {
    SectionPicture {
        head: head("section-ordinary", "From the recharge area to SL-1"),
        recharge: "recharge area, 38 m above sea level".into(),
        well: "SL-1, ground 3.1 m above sea level".into(),
        distance: Some("9.5 km".into()),
        gradient: Some(
            "head: from the recharge area’s level to (7.68 ± 0.20) m above sea level at the well, gradient 3.2e-3 (u 2.0e-4)"
                .into(),
        ),
        rises_above_ground: Some(true),
        aquifer: Some("sandstone".into()),
        cover: Some("peat and made ground, marine clay".into()),
        travel: Some("way of the water: 440 to 4100 years (95 %), middle 1700".into()),
    }
}

fn flow_test_picture() -> FlowTestPicture {
    let points =
        [(1.0, 27.6), (2.0, 25.6), (3.0, 25.3), (5.0, 24.0), (8.0, 23.1), (12.0, 22.9), (18.0, 22.1), (34.0, 21.2)];
    FlowTestPicture {
        head: head("flow-test", "Flow test of SL-1, 3.9 m of drawdown held"),
        under: "T (9.4 ± 0.6) m²/d, S 1.0e-4 (95 %: 3.0e-5 to 4.0e-4); the model is not contradicted.".into(),
        y_name: "flow, L/min".into(),
        points: points
            .iter()
            .enumerate()
            .map(|(i, &(minutes, observed))| TestPoint {
                minutes,
                observed,
                fitted: 27.4 - 1.8 * libm::log(minutes),
                residual: [0.6, -1.3, 0.8, -0.3, -0.9, 2.4, 0.1, -0.5][i],
                moves_the_answer: i == 5,
            })
            .collect(),
    }
}

fn choice_picture() -> ChoicePicture {
    let at = |q: f64| FlowChoice { flow_l_min: q, ng_l: 57.0 / q, water_m3_year: 525.96 * q };
    ChoicePicture {
        head: head("choice", "Lead from the pipe of SL-3 against the water spent"),
        under: "An upper bound: as if all lead found, at most 44 ng/L, were the pipe’s. The aquifer’s own part makes it less.".into(),
        y_name: "lead at most, ng/L".into(),
        curve: (0..33).map(|i| at(0.4 * libm::pow(900.0, f64::from(i) / 32.0))).collect(),
        target_ng_l: 0.5,
        now: at(1.3),
        enough: at(114.0),
    }
}

fn nonsense() -> WellPicture {
    WellPicture {
        head: head("well-nonsense", "Depths that are no depths"),
        layers: layers(&[(f64::NAN, 3.0, "a"), (5.0, f64::INFINITY, "b"), (8.0, 2.0, "")]),
        pipes: pipes(&[(f64::NAN, f64::NAN, f64::NAN, PipeKind::Casing, ""), (0.0, 4.0, -1.0, PipeKind::Screen, "x")]),
        static_head: Some((f64::NAN, "head".into())),
        flow: Some("flow".into()),
    }
}

fn all() -> Vec<Figure> {
    let mut out = vec![];
    for w in [WIDE, PHONE] {
        let empty = WellPicture { head: head("well-empty", "Nothing on record"), ..WellPicture::default() };
        out.extend([ordinary(), deep(), shallow(), empty, nonsense()].iter().map(|p| well::draw(p, w)));
        let unknown = SectionPicture {
            head: head(
                "section-unknown",
                "From the recharge area to a well of which next to nothing is known, with a long name",
            ),
            recharge: "the recharge area of the Upper Tamsin Heath and its outliers, level not on record".into(),
            well: "Grobkieselkonglomeratschichtgesteinsbrunnen".into(),
            aquifer: Some(
                "grey-green silty marine clay with shells, pyrite nodules and thin streaks of glauconitic fine sand"
                    .into(),
            ),
            ..SectionPicture::default()
        };
        out.extend([scheme(), unknown].iter().map(|p| section::draw(p, w)));
        let none = FlowTestPicture { head: head("flow-none", "No readings"), points: vec![], ..flow_test_picture() };
        out.extend([flow_test_picture(), none].iter().map(|p| flow_test::draw(p, w)));
        let blank = ChoicePicture { head: head("choice-blank", "Nothing"), ..ChoicePicture::default() };
        out.extend([choice_picture(), blank].iter().map(|p| choice::draw(p, w)));
    }
    out
}

#[track_caller]
fn check(f: &Figure) {
    let svg = f.alone();
    let marks = svg.split("</style>").nth(1).unwrap();
    let attributes: String = marks.split('<').filter(|t| !t.starts_with("text")).collect();
    assert!(!attributes.contains("NaN") && !attributes.contains("inf"), "{}", f.id);
    assert!(f.height > 0.0 && f.height < 3000.0, "{}: height {}", f.id, f.height);
    crate::layout::labels_stand_free(f);
}

#[test]
fn all_text_stands_inside_and_free() {
    for f in all() {
        check(&f);
    }
}

#[test]
fn same_input_same_bytes() {
    assert_eq!(
        all().iter().map(Figure::alone).collect::<Vec<_>>(),
        all().iter().map(Figure::alone).collect::<Vec<_>>()
    );
}

/// Vertical ends of the rectangles filled with a colour.
fn rects(svg: &str, fill: &str) -> Vec<(f64, f64)> {
    let number = |tag: &str, name: &str| {
        tag.split(&format!(" {name}=\"")).nth(1).and_then(|t| t.split('"').next()).and_then(|t| t.parse::<f64>().ok())
    };
    svg.split('<')
        .filter(|t| t.starts_with("rect") && t.contains(fill))
        .filter_map(|t| Some((number(t, "y")?, number(t, "y")? + number(t, "height")?)))
        .collect()
}

#[test]
fn depths_are_to_scale() {
    // The clay is 39.8 m thick, the sandstone 13 m: their heights stand in that ratio.
    let svg = well::draw(&ordinary(), WIDE).inline();
    let clay = rects(&svg, "#e2dcc9")[0];
    let others = rects(&svg, "#f1ece0");
    let sandstone = others.last().unwrap();
    let ratio = (clay.1 - clay.0) / (sandstone.1 - sandstone.0);
    // Coordinates are written to a tenth of a px of about 80.
    assert!((ratio - 39.8 / 13.0).abs() < 0.01, "{ratio}");
    assert!((clay.1 - sandstone.0).abs() < 0.11);
}

#[test]
fn what_is_not_on_record_is_said_and_not_drawn() {
    let words = |f: &Figure| f.labels().iter().map(|l| l.text.as_str()).collect::<Vec<_>>().join(" ");
    let p = WellPicture { head: head("e", "e"), ..WellPicture::default() };
    let said = words(&well::draw(&p, WIDE));
    for part in [
        "layers: not on record",
        "head of the shut well: not measured",
        "flow: not measured",
        "casing and screen: not on record",
    ] {
        assert!(said.contains(part), "{part}\n{said}");
    }
    let s = SectionPicture { gradient: None, ..scheme() };
    assert!(words(&section::draw(&s, PHONE)).contains("no line drawn"));
    assert!(words(&section::draw(&scheme(), WIDE)).contains("not to scale"));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(80))]

    #[test]
    fn any_well_stays_inside_its_picture(
        thick in proptest::collection::vec((0.05..80.0f64, "[a-zA-Zäé ,-]{0,60}"), 0..9),
        casing in 1.0..400.0f64,
        radius in 0.005..0.4f64,
        above in proptest::option::of(-5.0..40.0f64),
    ) {
        let mut top = 0.0;
        let layers = thick.into_iter().map(|(t, name)| { let from_m = top; top += t; LayerDrawn { from_m, to_m: top, name } }).collect();
        let p = WellPicture {
            head: head("any", "Any well"),
            layers,
            pipes: pipes(&[(0.0, casing, radius, PipeKind::Casing, "steel"), (casing, casing * 1.1, radius * 0.6, PipeKind::Screen, "plastic")]),
            static_head: above.map(|m| (m, format!("head {m} m above ground"))),
            flow: None,
        };
        check(&well::draw(&p, WIDE));
        check(&well::draw(&p, PHONE));
    }
}
