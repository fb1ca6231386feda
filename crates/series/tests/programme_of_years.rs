//! Control chart, power, moving median, steps at method changes, pairs.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use quantity::Check;
use series::compare::paired;
use series::control::{Place, control_chart};
use series::power::{Question, years_to_see};
use series::smooth::moving_median;
use series::trend::{Request, trend};
use series::{Error, Observation, Reading};

const T2: f64 = 2.428805130403569;
const T3: f64 = 4.5299736787334215;

fn row(t: f64, v: f64) -> Observation {
    Observation::new(t, Reading::Known(v))
}

#[test]
fn a_rising_blank_stands_out() {
    let base = [1.0, 1.2, 0.9, 1.1, 1.0, 0.95, 1.15, 1.05];
    let mut rows: Vec<Observation> = base.iter().enumerate().map(|(i, v)| row(i as f64, *v)).collect();
    rows.extend((8..18).map(|i| row(f64::from(i), 1.1 + 0.1 * f64::from(i - 8))));
    let c = control_chart(&rows, 8).unwrap();
    // Mean and sd by hand; t quantiles of scipy 1.17.1: t.ppf(norm.cdf(2), 7) and (3).
    let mean = base.iter().sum::<f64>() / 8.0;
    let sd = (base.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / 7.0).sqrt();
    let wide = (1.0_f64 + 1.0 / 8.0).sqrt();
    assert!((c.warning.unwrap() - (mean + T2 * sd * wide)).abs() < 1e-6);
    assert!((c.action - (mean + T3 * sd * wide)).abs() < 1e-6);
    let checks: Vec<Check> = c.findings.iter().map(|f| f.check).collect();
    for want in [Check::ControlAction, Check::ControlRun, Check::ControlInTime] {
        assert!(checks.contains(&want), "{checks:?}");
    }
    assert!(c.places[..8].iter().all(|(_, p)| *p == Place::Within));
}

#[test]
fn a_non_detect_above_the_action_limit_shows_nothing() {
    let mut rows: Vec<Observation> = (0..6).map(|i| row(f64::from(i), 1.0 + 0.1 * f64::from(i % 3))).collect();
    rows.push(Observation::new(7.0, Reading::Below(0.5)));
    rows.push(Observation::new(8.0, Reading::Below(50.0)));
    let c = control_chart(&rows, 6).unwrap();
    assert_eq!(c.places[6].1, Place::Within);
    assert_eq!(c.places[7].1, Place::CannotTell);
    assert!(matches!(control_chart(&rows[..3], 6), Err(Error::TooFew { .. })));
}

/// Power against a simulation with scipy 1.17.1: 20,000 series of n values, x = 0 … n − 1,
/// y = x·ln(1.04) + 0.3·N(0, 1), share with kendalltau(x, y).pvalue ≤ 0.05.
#[test]
fn power_agrees_with_scipy() {
    let q = Question {
        dates_years: (0..10).map(f64::from).collect(),
        per_year: 1.0,
        percent_per_year: 4.0,
        sd_ln: 0.3,
        limit_over_median: None,
        alpha: 0.05,
        power: 0.8,
        most_years: 40,
    };
    let a = years_to_see(&q).unwrap();
    for (more, scipy) in [(4, 0.388), (8, 0.717)] {
        let (_, chance) = a.curve.iter().find(|(m, _)| *m == more).unwrap();
        // Four standard errors of 2,000 series here and 20,000 there.
        let tolerance = 4.0 * (scipy * (1.0 - scipy) * (1.0 / 2e3 + 1.0 / 2e4_f64)).sqrt();
        assert!((chance - scipy).abs() < tolerance, "{more} {chance} {scipy}");
    }
    let needed = a.more_years.unwrap();
    assert!((9..=11).contains(&needed));
    // The limit at the median hides half of the values: it takes longer.
    let hidden = years_to_see(&Question { limit_over_median: Some(1.5), ..q.clone() }).unwrap();
    assert!(hidden.more_years.unwrap() >= needed);
    assert_eq!(a, years_to_see(&q).unwrap());
    assert!(matches!(years_to_see(&Question { sd_ln: 0.0, ..q }), Err(Error::OutOfRange { .. })));
}

#[test]
fn the_moving_median_takes_non_detects_as_they_are() {
    let mut rows: Vec<Observation> = (0..20).map(|i| row(f64::from(i), 1.0 + f64::from(i))).collect();
    let at = [10.0];
    // Symmetric window on a straight line: the median is the value in the middle.
    assert_eq!(moving_median(&rows, &at, 4.0), [Some(Reading::Known(11.0))]);
    for r in &mut rows[..10] {
        r.reading = Reading::Below(8.0);
    }
    // Around year 3 nothing is known; around 9 half is.
    assert_eq!(moving_median(&rows, &[3.0], 4.0), [None]);
    assert_eq!(moving_median(&rows, &[8.0], 4.0), [Some(Reading::Below(11.0))]);
}

/// A new method lowers every value by 2; within each method values rise by 0.1 a year.
#[test]
fn a_method_change_is_taken_out() {
    let rows: Vec<Observation> = (0..24)
        .map(|i| {
            let t = f64::from(i);
            let step = if i < 12 { 0.0 } else { -2.0 };
            let wiggle = 0.02 * f64::from((i * 7) % 5);
            Observation {
                method: if i < 12 { "old" } else { "new" }.into(),
                ..row(2000.0 + t, 5.0 + 0.1 * t + step + wiggle)
            }
        })
        .collect();
    let t = trend(&rows, &Request::default()).unwrap();
    assert!(t.test.p > 0.5, "with the step in, no rise is seen");
    let w = t.with_steps.unwrap();
    assert_eq!(w.stretches, 2);
    let slope = w.slope.unwrap();
    // The wiggle moves single pair slopes by up to 0.08 over a year, the median far less.
    assert!((slope.per_year - 0.1).abs() < 0.01, "{slope:?}");
    assert!(w.p < 1e-6);
    assert_eq!(t.given_steps.len(), 1);
    assert_eq!(t.given_steps[0].what.in_english(), "method \"old\" to \"new\"");
    assert!(t.given_steps[0].p < 0.05);
}

/// Nine pairs of Hollander & Wolfe (1973), depression scores (from memory); scipy 1.17.1:
/// wilcoxon(y − x, method="exact") gives 5.0 and 0.0390625; shift −0.46 in the book.
#[test]
#[allow(clippy::approx_constant)] // 3.14 is a score
fn pairs_of_hollander_and_wolfe() {
    let x = [1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30];
    let y = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29];
    let series = |v: &[f64]| v.iter().enumerate().map(|(i, v)| row(2000.0 + i as f64, *v)).collect::<Vec<_>>();
    let (a, b) = (series(&x), series(&y));
    let p = paired(&a, &b, 0.95).unwrap();
    let (w, chance) = p.signed_rank.unwrap();
    assert_eq!(w, 5.0);
    assert!((chance - 0.039_062_5).abs() < 1e-12);
    assert!((p.shift.unwrap().estimate + 0.46).abs() < 1e-9);
    // A non-detect leaves the sign test alone.
    let mut hidden = b.clone();
    hidden[0].reading = Reading::Below(0.9);
    hidden[1].reading = Reading::Below(0.9);
    let p = paired(&a, &hidden, 0.95).unwrap();
    assert!(p.signed_rank.is_none() && p.shift.is_none());
    assert_eq!((p.second_above, p.second_below, p.open), (1, 7, 1));
}
