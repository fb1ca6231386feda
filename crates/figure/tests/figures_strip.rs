//! The strip of 100 parts and the time line beside it: labels free and inside at both widths, every part with a fill that a
//! grey print keeps, hard cases (a pipe of 97, seven small parts, names longer than the picture, nothing at all).

use crate::layout::{check, head};
use figure::earlier::{self, EarlierPicture, Then};
use figure::strip::{self, Fill, StripPart, StripPicture};
use figure::{PHONE, WIDE};
use proptest::prelude::*;

fn part(fill: Fill, share: f64, number: &str, name: &str) -> StripPart {
    StripPart { fill, share, number: number.into(), name: name.into(), amount: format!("{:.1} pg", 300.0 * share) }
}

fn picture(parts: Vec<StripPart>, by_model: bool) -> StripPicture {
    StripPicture { head: head("strip"), bottle: "SL2-26-07-A, 290 pg in 250 mL".into(), parts, by_model }
}

fn usual() -> StripPicture {
    let parts = vec![
        part(Fill::Water, 0.91, "91", "the water’s, as it leaves the well"),
        part(Fill::Air, 0.05, "5", "air and hands"),
        part(Fill::Bottle, 0.02, "2", "bottle and acid"),
        part(Fill::Journey, 0.013, "1", "journey"),
        part(Fill::Laboratory, 0.007, "1", "laboratory"),
    ];
    picture(parts, false)
}

#[test]
fn every_part_is_named_once_and_stands_free() {
    let long = "the water, the pipe and the open air: not told apart, with a name that no column of a telephone holds";
    let pipe = vec![
        part(Fill::NotToldApart, 0.03, "3", "the water and the open air: not told apart"),
        part(Fill::Pipe, 0.9685, "97", "well and pipe"),
        part(Fill::Bottle, 0.0010, "<1", "bottle and acid"),
        part(Fill::Journey, 0.0004, "<1", "journey"),
        part(Fill::Laboratory, 0.0001, "<1", "laboratory"),
    ];
    let cases = [
        usual(),
        picture(pipe.clone(), false),
        picture(pipe, true),
        picture(vec![part(Fill::NotToldApart, 1.0, "100", long)], false),
        picture(vec![], false),
    ];
    for p in &cases {
        for width in [WIDE, PHONE] {
            let f = strip::draw(p, width);
            check(&f);
            for part in &p.parts {
                // A long name is broken into lines: its first word tells it.
                let first = part.name.split(' ').next().unwrap();
                let named = f.labels().iter().filter(|l| l.text.starts_with(first)).count();
                assert!(named >= 1, "{} at {width}: {:?}", part.name, f.labels());
            }
        }
    }
}

/// The bar is linear: the water of 91 parts takes 91 of 100 of its width.
#[test]
fn the_bar_is_linear() {
    let svg = strip::draw(&usual(), WIDE).inline();
    let water =
        svg.split("<rect ").find(|r| r.contains(&format!("fill=\"{}\"", figure::ink::WATER))).expect("its area");
    let width: f64 = water.split("width=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
    // To a tenth of a px, as all coordinates are written; margins of 1 px at both sides.
    assert!((width - 0.91 * (WIDE - 2.0)).abs() < 0.06, "{width}");
}

#[test]
fn parts_of_a_model_are_never_solid() {
    let solid = format!("fill=\"{}\"", figure::ink::WATER);
    let of = |by_model| strip::draw(&StripPicture { by_model, ..usual() }, WIDE).inline();
    assert!(of(false).contains(&solid) && !of(true).contains(&solid));
}

#[test]
fn an_earlier_trip_that_was_not_is_no_value() {
    let then = |year, value: f64| Then { year, value, interval: Some((value - 0.05, value + 0.05)) };
    let of = |values: Vec<Then>| {
        let p = EarlierPicture { head: head("earlier"), unit: "ng/L".into(), values, newest: "1.05 ± 0.05".into() };
        earlier::draw(&p)
    };
    let (alone, three) =
        (of(vec![then(2026.5, 1.05)]), of(vec![then(2020.4, 1.2), then(2024.5, 0.9), then(2026.5, 1.05)]));
    let none = message::Spoken::text(&message::strip::NoneOnRecord);
    for f in [&alone, &three, &of(vec![])] {
        check(f);
    }
    assert!(alone.labels().iter().any(|l| l.text == none));
    assert!(!three.labels().iter().any(|l| l.text == none));
    let discs = |f: &figure::Figure| f.inline().matches("<circle ").count();
    assert_eq!((discs(&alone), discs(&three)), (1, 3), "one disc a value, none where none was measured");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn any_parts_stand_free(shares in proptest::collection::vec(1e-5..1.0f64, 1..7), by_model: bool) {
        let fills = [
            Fill::Water, Fill::Pipe, Fill::NotToldApart, Fill::Air, Fill::Bottle, Fill::Journey, Fill::Laboratory,
        ];
        let whole: f64 = shares.iter().sum();
        let parts = shares.iter().zip(fills).map(|(s, f)| part(f, s / whole, "7", "a part of it")).collect();
        let p = picture(parts, by_model);
        check(&strip::draw(&p, WIDE));
        check(&strip::draw(&p, PHONE));
    }
}
