//! Layout of the figures: every text inside the picture, no text over another, no number that is
//! none, not blank when rendered, the same bytes each time. The hard cases are those that break a
//! chart in practice: long names, ten stages, a water below all blanks, negative nets, nothing at
//! all, values that are no values. Rendering is checked with a general-purpose SVG renderer.

use crate::specimen;

use cleanliness::share::Left;
use figure::path::{Mark, PathPicture, PathStage};
use figure::{Figure, PHONE};
use proptest::prelude::*;
use resvg::{tiny_skia, usvg};
use std::sync::Arc;

fn all() -> Vec<Figure> {
    let mut out = specimen::figures();
    out.extend(specimen::hard::hard_figures());
    out
}

fn check_layout(f: &Figure) {
    let svg = f.alone();
    for bad in ["NaN", "inf", "\"\"/>"] {
        let marks = svg.split("</style>").nth(1).unwrap();
        let attributes: String = marks.split('<').filter(|t| !t.starts_with("text")).collect();
        assert!(!attributes.contains(bad), "{}: {bad}", f.id);
    }
    assert!(f.height > 0.0 && f.height < 3000.0, "{}: height {}", f.id, f.height);
    for l in f.labels() {
        let a = l.area;
        assert!(
            a.x0 >= 0.0 && a.y0 >= 0.0 && a.x1 <= f.width && a.y1 <= f.height,
            "{}: \"{}\" leaves the picture: {a:?} in {} × {}",
            f.id,
            l.text,
            f.width,
            f.height
        );
    }
}

fn check_no_text_over_text(f: &Figure) {
    for (i, a) in f.labels().iter().enumerate() {
        for b in &f.labels()[i + 1..] {
            assert!(
                !a.area.overlaps(&b.area, 1.0),
                "{}: \"{}\" over \"{}\": {:?} {:?}",
                f.id,
                a.text,
                b.text,
                a.area,
                b.area
            );
        }
    }
}

#[test]
fn all_text_stands_inside_and_free() {
    for f in all() {
        check_layout(&f);
        check_no_text_over_text(&f);
    }
}

#[test]
fn every_figure_says_what_it_is() {
    for f in all() {
        let svg = f.inline();
        assert!(svg.contains(&format!("<title id=\"{}-title\">", f.id)), "{}", f.id);
        assert!(svg.contains("role=\"img\" aria-labelledby="), "{}", f.id);
        assert!(f.id.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{}", f.id);
    }
}

#[test]
fn alone_needs_nothing_from_outside() {
    for f in all() {
        let svg = f.alone();
        assert!(svg.contains("@font-face") && svg.contains("data:font/woff2;base64,"));
        let without_namespace = svg.replace("http://www.w3.org/2000/svg", "");
        assert!(!without_namespace.contains("http") && !without_namespace.contains("href"), "{}", f.id);
        assert!(!f.for_paper().contains("@font-face"));
    }
}

#[test]
fn same_input_same_bytes() {
    let once: Vec<String> = all().iter().map(Figure::alone).collect();
    let twice: Vec<String> = all().iter().map(Figure::alone).collect();
    assert_eq!(once, twice);
}

/// Share of pixels that are not the ground, rendered with the carried typeface.
fn drawn_share(f: &Figure) -> f64 {
    let mut fonts = usvg::fontdb::Database::new();
    fonts.load_font_data(include_bytes!("../../../fonts/LimpidText-Regular.ttf").to_vec());
    fonts.load_font_data(include_bytes!("../../../fonts/LimpidText-SemiBold.ttf").to_vec());
    let options = usvg::Options { fontdb: Arc::new(fonts), ..Default::default() };
    let tree = usvg::Tree::from_str(&f.for_paper(), &options).expect("the figure is SVG");
    let mut map = tiny_skia::Pixmap::new(f.width as u32, f.height as u32).expect("it has a size");
    resvg::render(&tree, tiny_skia::Transform::identity(), &mut map.as_mut());
    let drawn = map.pixels().iter().filter(|p| (p.red(), p.green(), p.blue()) != (255, 255, 255)).count();
    drawn as f64 / map.pixels().len() as f64
}

#[test]
fn rendered_figures_are_neither_blank_nor_full() {
    for f in [
        specimen::path_sl2().wide(),
        specimen::path_sl2().phone(),
        specimen::hard::ten_stages().wide(),
        specimen::figures().remove(4),
    ] {
        let share = drawn_share(&f);
        assert!(share > 0.02 && share < 0.6, "{}: {share}", f.id);
    }
}

#[test]
fn rendered_figures_of_chemistry_are_neither_blank_nor_full() {
    // Line drawings on much ground: a title alone makes some 0.3 % of the pixels.
    for f in specimen::chemistry::figures().into_iter().filter(|f| !f.id.contains("none") && f.id != "piper-0") {
        let share = drawn_share(&f);
        assert!(share > 0.006 && share < 0.6, "{}: {share}", f.id);
    }
}

#[test]
fn the_words_of_the_path_carry_all_that_the_picture_shows() {
    let words = specimen::path_sl2().description();
    for part in [
        "246 pg (228 to 266)",
        "Found in all: 271 (255 to 288) pg",
        "well, SL-2, steel: forecast 0.02 to 0.6 pg; nothing found, < 0.5 pg; met: contact 41 min.",
        "not known: one seal not recorded.",
    ] {
        assert!(words.contains(part), "{part}\n{words}");
    }
    // What holds the pipe's metal bears another name, with the same number.
    let piped = PathPicture { left: Left::WaterAndPipe, ..specimen::path_sl2() }.description();
    assert!(piped.contains("laboratory: 246 pg (228 to 266)") && !piped.contains("the water’s own"), "{piped}");
    let below = specimen::hard::water_below_blanks().description();
    assert!(below.contains("the water’s own: nothing found, < 0.8 pg"), "{below}");
    assert!(below.contains("measured −0.31 (−1.10 to 0.50) pg"), "{below}");
}

fn wide_labels(id: &str) -> Vec<String> {
    let all = specimen::chemistry::figures();
    let f = all.iter().find(|f| f.id == id).expect("a figure of that id");
    f.labels().iter().map(|l| l.text.clone()).collect()
}

#[test]
fn the_words_of_saturation_stand_beside_their_rows() {
    let labels = wide_labels("saturation");
    for part in ["● at saturation", "? cannot tell", "▲ over", "▼ under", "galena", "may form →"] {
        assert!(labels.iter().any(|l| l == part), "{part}: {labels:?}");
    }
}

#[test]
fn couples_stand_from_the_most_oxidised_down_and_the_electrode_beside() {
    let labels = wide_labels("ladder");
    let at = |words: &str| labels.iter().position(|l| l == words).unwrap_or_else(|| panic!("{words}: {labels:?}"));
    assert!(at("O₂ / H₂O") < at("NO₃⁻ / NH₄⁺") && at("NO₃⁻ / NH₄⁺") < at("SO₄²⁻ / HS⁻"));
    at("measured −180 mV");
}

#[test]
fn thin_layers_are_one_and_the_sums_stand_above_the_columns() {
    let labels = wide_labels("equivalents");
    // 2.6 + 0.71 + 1.04 + 0.05 + 0.001 + 0.002 = 4.403; 3.78 + 0.11 + 0.49 + 0.008 + 0.01 = 4.398.
    assert_eq!(labels.iter().filter(|l| *l == "4.40").count(), 2, "{labels:?}");
    assert!(labels.iter().any(|l| l.starts_with("others")) && !labels.iter().any(|l| l.starts_with("Fe")));
}

#[test]
fn a_water_of_one_salt_stands_in_the_corners() {
    use figure::piper::{self, PiperPicture, PiperWater};
    // Sodium chloride: right corners of the triangles and of the diamond, by the geometry alone.
    let w = PiperWater {
        name: "salt".into(),
        cation: (1.0, 0.0),
        anion: (2.0 + piper::GAP, 0.0),
        diamond: (1.6, 0.6 * 3f64.sqrt()),
    };
    let f = piper::draw(&PiperPicture { waters: vec![w], ..Default::default() }, figure::WIDE);
    let svg = f.inline();
    let discs: Vec<(f64, f64)> = svg
        .split("<circle ")
        .skip(1)
        .map(|c| {
            let number = |key: &str| c.split(key).nth(1).unwrap().split('"').next().unwrap().parse::<f64>().unwrap();
            (number("cx=\""), number("cy=\""))
        })
        .collect();
    // The legend's disc, then cation, anion, diamond.
    let [_, cation, anion, diamond] = discs[..] else { panic!("{discs:?}") };
    let side = (anion.0 - cation.0) / (1.0 + piper::GAP);
    assert!((diamond.0 - cation.0 - 0.6 * side).abs() < 0.2, "{discs:?}");
    assert!((cation.1 - diamond.1 - 0.6 * 3f64.sqrt() * side).abs() < 0.2, "{discs:?}");
}

fn mark() -> impl Strategy<Value = Option<Mark>> {
    prop_oneof![
        Just(None),
        (-4.0..5.0f64).prop_map(|e| Some(Mark::Upper { pg: 10f64.powf(e) })),
        (-4.0..5.0f64).prop_map(|e| Some(Mark::AtMost { pg: 10f64.powf(e) })),
        (-4.0..5.0f64, 0.0..1.5f64, -1.0..1.0f64).prop_map(|(e, width, sign)| {
            let pg = 10f64.powf(e) * if sign < -0.8 { -1.0 } else { 1.0 };
            Some(Mark::Value { pg, lo: pg - width * pg.abs(), hi: pg + width * pg.abs() })
        }),
    ]
}

fn path_stage() -> impl Strategy<Value = PathStage> {
    let words = "[a-zA-Z0-9µ.,<>& -]{0,40}";
    (words, words, words, mark(), proptest::option::of((-3.0..3.0f64, 0.0..3.0f64)), proptest::bool::ANY).prop_map(
        |(name, detail, finding, measured, forecast, not_here)| PathStage {
            name,
            detail,
            finding: Some((quantity::Outcome::NotKnown, finding)),
            forecast: forecast.map(|(e, w)| (10f64.powf(e), 10f64.powf(e + w))),
            measured,
            not_here,
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    #[test]
    fn any_path_stays_inside_its_picture(
        stages in proptest::collection::vec(path_stage(), 0..11),
        water in mark(),
        found in mark(),
        left in proptest::sample::select(Left::ALL.to_vec()),
    ) {
        let p = PathPicture { id: "any".into(), title: "Any path".into(), volume_ml: 250.0, stages, water, found, left, caption: String::new(), strip: None };
        check_layout(&p.wide());
        check_layout(&p.phone());
        prop_assert!((p.phone().width - PHONE).abs() < 1e-9);
    }
}
