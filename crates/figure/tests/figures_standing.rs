//! Wells to one scale of depth; colours that can be told apart.

use figure::standing::{Standing, StandingPicture, draw};
use figure::well::{LayerDrawn, PipeDrawn, PipeKind};
use figure::{Head, PHONE, WIDE, ink};

fn picture(depths: &[f64]) -> StandingPicture {
    let well = |(i, foot): (usize, &f64)| Standing {
        name: format!("W-{i}"),
        layers: vec![
            LayerDrawn { from_m: 0.0, to_m: 0.6 * foot, name: "grey clay with shells and a long name".into() },
            LayerDrawn { from_m: 0.6 * foot, to_m: *foot, name: "sandstone".into() },
        ],
        pipes: vec![PipeDrawn {
            from_m: -0.8,
            to_m: *foot,
            radius_m: 0.05,
            kind: PipeKind::Casing,
            material: "steel".into(),
        }],
        flows: i == 0,
        beneath: vec!["Flows by itself: 24 L/min.".into(), "22 min to rise through the pipe.".into()],
    };
    StandingPicture {
        head: Head { id: "standing".into(), title: "Wells, heights to scale".into(), desc: "Wells.".into() },
        under: String::new(),
        wells: depths.iter().enumerate().map(well).collect(),
    }
}

#[test]
fn no_word_lies_on_another_and_none_leaves_the_drawing() {
    for depths in [&[62.0][..], &[64.0, 62.0, 55.0], &[4.0, 900.0]] {
        for width in [250.0, PHONE, WIDE] {
            let f = draw(&picture(depths), width);
            for (i, a) in f.labels().iter().enumerate() {
                assert!(a.area.x1 <= f.width + 1.0 && a.area.x0 >= -1.0, "{a:?}");
                assert!(a.area.y1 <= f.height + 1.0, "{a:?}");
                for b in &f.labels()[i + 1..] {
                    assert!(!a.area.overlaps(&b.area, 1.0), "{a:?} lies on {b:?} ({depths:?}, {width})");
                }
            }
        }
    }
}

/// Relative luminance and contrast: WCAG 2.2, definitions of "relative luminance" and "contrast ratio" (W3C 2023).
fn contrast(a: &str, b: &str) -> f64 {
    let luminance = |colour: &str| {
        let part = |i: usize| {
            let x = f64::from(u8::from_str_radix(&colour[i..i + 2], 16).unwrap()) / 255.0;
            if x <= 0.04045 { x / 12.92 } else { ((x + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    };
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Text at 4.5 : 1 at least, marks and lines that carry meaning at 3 : 1 (WCAG 2.2, 1.4.3 and 1.4.11).
#[test]
fn colours_are_read_on_the_ground() {
    for text in [ink::TEXT, ink::MUTED, ink::WATER, ink::MET, ink::NOT_MET, ink::NOT_KNOWN] {
        assert!(contrast(text, ink::PAPER) >= 4.5, "{text}: {}", contrast(text, ink::PAPER));
    }
    assert!(contrast(ink::LINE, ink::PAPER) >= 3.0);
}
