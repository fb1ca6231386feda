//! Layout of the picture of ages: every text inside, none over another, no number that is none. All numbers invented.

use figure::ages::{AgesPicture, ModelStrip, RainCurve, draw};
use figure::{Figure, Head, PHONE, WIDE};
use proptest::prelude::*;

fn strip(name: &str, rejected: bool, at: f64) -> ModelStrip {
    let density = (0..30).map(|k| (at * 1.08f64.powi(k), 1.0 - (f64::from(k) - 15.0).abs() / 15.0)).collect();
    ModelStrip { name: name.into(), rejected, density }
}

fn picture() -> AgesPicture {
    AgesPicture {
        head: Head { id: "ages-SL-2".into(), title: "How old the water of SL-2 is".into(), desc: "Invented.".into() },
        under: "Each model by itself; ages on a logarithm.".into(),
        models: vec![
            strip("piston", false, 60.0),
            strip("exponential with old piston water (0.41 of the evidence)", true, 8000.0),
            strip("a hostile name <b>&\"'</b> of a model that goes on and on", false, 1.0),
        ],
        rain: Some(RainCurve {
            curve: (1..150).map(|k| (f64::from(k), 12.0 * 0.94f64.powi(k))).collect(),
            measured: (0.03, 0.11),
            words: "measured: 0.07 ± 0.02 TU".into(),
        }),
        darcy: Some((300.0, 9000.0)),
    }
}

fn sound(f: &Figure) {
    for l in f.labels() {
        let inside = l.area.x0 >= -0.5 && l.area.y0 >= 0.0 && l.area.x1 <= f.width + 0.5 && l.area.y1 <= f.height;
        assert!(inside, "{} at {:?} of {}×{}", l.text, l.area, f.width, f.height);
    }
    for (i, a) in f.labels().iter().enumerate() {
        for b in &f.labels()[..i] {
            assert!(!a.area.overlaps(&b.area, 1.5), "{} over {}", a.text, b.text);
        }
    }
    let svg = f.inline();
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
}

#[test]
fn texts_stand_inside_and_apart_in_both_widths() {
    let mut bare = picture();
    (bare.rain, bare.darcy) = (None, None);
    bare.models.truncate(1);
    bare.models[0].name = "piston".into();
    let mut usual = picture();
    usual.models.truncate(2);
    usual.models[1].name = "exponential with old piston water".into();
    for p in [usual, bare] {
        sound(&draw(&p, WIDE));
        sound(&draw(&p, PHONE));
    }
}

#[test]
fn names_are_escaped_and_rejected_models_are_hollow() {
    let svg = draw(&picture(), WIDE).inline();
    assert!(!svg.contains("<b>") && svg.contains("&lt;b&gt;"));
    assert!(svg.contains("fill=\"none\" stroke=\"#7d8f95\" stroke-dasharray=\"3 2\""));
}

proptest! {
    #[test]
    fn no_number_breaks_it(years in proptest::collection::vec(proptest::num::f64::ANY, 0..20), low: f64, high: f64) {
        let mut p = picture();
        p.models[0].density = years.iter().map(|t| (*t, *t)).collect();
        let rain = p.rain.as_mut().unwrap();
        rain.curve = years.iter().map(|t| (*t, *t)).collect();
        rain.measured = (low, high);
        p.darcy = Some((high, low));
        let svg = draw(&p, WIDE).inline();
        prop_assert!(!svg.contains("NaN") && !svg.contains("inf"));
    }
}
