//! The control chart: every text inside the picture, no text over another, a broken rule stands
//! beside its point in words and in another shape, the same bytes each time; also with one point,
//! none, values that are all equal, and long names.

use figure::chart::{ChartPicture, Charted, draw};
use figure::{Figure, Head, PHONE, WIDE};

fn picture(n: usize, broken: bool) -> ChartPicture {
    let points = (0..n).map(|i| {
        let out = broken && i + 1 == n;
        Charted {
            name: format!("a run with a long name {i}"),
            value: if out { 133.0 } else { 100.0 + 2.0 * (i as f64 * 2.1).sin() },
            half: 2.5,
            broken: if out { "one beyond 3 sd, high".into() } else { String::new() },
            beyond: out,
            average: Some((100.0 + if out { 6.0 } else { 0.2 }, 97.0, 103.0)),
        }
    });
    ChartPicture {
        head: Head {
            id: format!("chart-{n}"),
            title: "Control water of lead, run by run".into(),
            desc: "A chart.".into(),
        },
        under: "Bars: 2 u of the run. The first rule broken stands beside its point.".into(),
        what: "Recovery, %".into(),
        points: points.collect(),
        centre_sd: (n >= 8).then_some((100.0, 2.0)),
        baseline: n.min(12),
    }
}

fn check(f: &Figure) {
    assert!(!f.alone().split("</style>").nth(1).unwrap().contains("NaN"), "{}", f.id);
    assert!(f.height > 0.0 && f.height < 1000.0, "{}", f.height);
    crate::layout::labels_stand_free(f);
}

#[test]
fn text_stands_inside_and_free() {
    for width in [WIDE, PHONE] {
        for (n, broken) in [(0, false), (1, false), (2, false), (8, false), (13, true), (60, true)] {
            check(&draw(&picture(n, broken), width));
        }
        let mut equal = picture(9, false);
        equal.points.iter_mut().for_each(|p| p.value = 100.0);
        equal.centre_sd = Some((100.0, 1e-9));
        check(&draw(&equal, width));
    }
}

#[test]
fn a_broken_rule_is_told_by_word_and_shape() {
    for width in [WIDE, PHONE] {
        let (kept, broken) = (draw(&picture(13, false), width), draw(&picture(13, true), width));
        let says = |f: &Figure, words: &str| f.labels().iter().any(|l| l.text == words);
        assert!(says(&broken, "one beyond 3 sd, high") && says(&broken, "beyond 3 sd"));
        assert!(!says(&kept, "beyond 3 sd"));
        assert_eq!(broken.alone(), draw(&picture(13, true), width).alone());
    }
}
