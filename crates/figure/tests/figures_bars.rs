//! Bars of shares: labels free and inside at both widths, a bar as long as its share in the frame of the whole, all of it
//! said in words; hard cases (long names, nothing at all, shares that are none).

use crate::layout::{check, head};
use figure::bars::{self, Bar, BarsPicture, Group, Panel};
use figure::{PHONE, WIDE, ink};
use proptest::prelude::*;

fn bar(name: &str, share: f64, interval: Option<(f64, f64)>) -> Bar {
    let words = if share.is_finite() { format!("{:.0} %", 100.0 * share) } else { "not known".into() };
    Bar { name: name.into(), share, interval, words }
}

fn panel(heading: &str, groups: &[(&str, &[Bar])]) -> Panel {
    let group = |(name, bars): &(&str, &[Bar])| Group {
        name: (*name).into(),
        bars: bars.to_vec(),
        instead: if bars.is_empty() { "no metal bisulfide in it".into() } else { String::new() },
    };
    Panel { heading: heading.into(), groups: groups.iter().map(group).collect() }
}

fn picture(panels: Vec<Panel>) -> BarsPicture {
    BarsPicture { head: head("bars"), under: String::new(), panels }
}

fn two_answers() -> Vec<Panel> {
    let main =
        [bar("PbCO₃", 0.62, Some((0.41, 0.78))), bar("Pb(HS)₂", 0.30, Some((0.0, 0.55))), bar("Pb²⁺", 0.05, None)];
    let bare = [bar("PbCO₃", 0.91, Some((0.85, 0.95)))];
    vec![
        panel("by the constants of the table", &[("SL-1", &main), ("SL-2", &main[..2])]),
        panel("with metal bisulfides left out", &[("SL-1", &bare), ("SL-2", &[])]),
    ]
}

#[test]
fn every_bar_is_named_and_numbered_and_stands_free() {
    let long = "the water of the old galvanised farm well and the drain that takes the overflow of all wells";
    let cases = [
        two_answers(),
        vec![panel("", &[("", &[bar("SL-1 and SL-2", 0.94, None), bar("SL-1 and Heron Drain", 0.52, None)])])],
        vec![panel(long, &[(long, &[bar(long, 0.5, None)])])],
        vec![panel("", &[("", &[bar("x", f64::NAN, None), bar("y", 7.0, Some((f64::NAN, -1.0)))])])],
        vec![],
    ];
    for panels in cases {
        let words = BarsPicture::in_words(&panels);
        let p = picture(panels);
        for width in [WIDE, PHONE] {
            let f = bars::draw(&p, width);
            check(&f);
            for b in p.panels.iter().flat_map(|p| &p.groups).flat_map(|g| &g.bars) {
                let first = b.name.split(' ').next().unwrap();
                assert!(f.labels().iter().any(|l| l.text.starts_with(first)), "{first}: {:?}", f.labels());
                assert!(f.labels().iter().any(|l| l.text == b.words), "{}: {:?}", b.words, f.labels());
                assert!(words.contains(&b.name) && words.contains(&b.words), "{words}");
            }
        }
    }
}

/// Widths of the bars and of their frames, in the order of the drawing.
fn widths(svg: &str) -> Vec<(f64, bool)> {
    let rects = svg.split("<rect ").skip(1).filter_map(|r| r.split('>').next()).filter(|r| r.starts_with("x="));
    let of = |r: &str| r.split("width=\"").nth(1)?.split('"').next()?.parse::<f64>().ok();
    rects.filter_map(|r| Some((of(r)?, r.contains(ink::WATER)))).collect()
}

proptest! {
    #[test]
    fn a_bar_is_as_long_as_its_share(shares in prop::collection::vec(0.0f64..=1.0, 1..6)) {
        let all: Vec<Bar> = shares.iter().map(|s| bar("x", *s, None)).collect();
        for width in [WIDE, PHONE] {
            let f = bars::draw(&picture(vec![panel("", &[("", &all)])]), width);
            let drawn = widths(&f.inline());
            let bars: Vec<f64> = drawn.iter().filter(|r| r.1).map(|r| r.0).collect();
            let frame = drawn.iter().filter(|r| !r.1).map(|r| r.0).fold(0.0, f64::max);
            prop_assert_eq!(bars.len(), shares.len());
            for (b, s) in bars.iter().zip(&shares) {
                // Coordinates are written to a tenth of a px.
                prop_assert!((b - frame * s).abs() <= 0.1, "{} of {} for {}", b, frame, s);
            }
        }
    }
}

#[test]
fn a_telephone_sets_panels_beneath_each_other() {
    let (wide, phone) = (bars::draw(&picture(two_answers()), WIDE), bars::draw(&picture(two_answers()), PHONE));
    let top = |f: &figure::Figure, words: &str| f.labels().iter().find(|l| l.text == words).unwrap().area.y0;
    let (one, other) = ("by the constants of the table", "with metal bisulfides left out");
    assert!((top(&wide, one) - top(&wide, other)).abs() < 0.5);
    assert!(top(&phone, other) > top(&phone, one) + 80.0);
}
