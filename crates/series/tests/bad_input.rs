//! What cannot be answered is named, with what can still be said.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use jiff::civil::date;
use quantity::Check;
use series::summary::{self, summary};
use series::trend::{self, trend};
use series::{Error, Observation, Reading, rows};

fn known(v: &[f64]) -> Vec<Reading> {
    v.iter().map(|x| Reading::Known(*x)).collect()
}

fn dated(rows: &[(f64, Reading)]) -> Vec<Observation> {
    rows.iter().map(|(t, r)| Observation::new(*t, *r)).collect()
}

fn summarise(r: &[Reading]) -> Result<summary::Summary, Error> {
    summary(r, &summary::Request::default())
}

fn checks(findings: &[quantity::Finding]) -> Vec<Check> {
    findings.iter().map(|f| f.check).collect()
}

#[test]
fn all_censored_still_bounds_the_share_above_the_limit() {
    let r = [Reading::Below(1.0), Reading::Below(2.0), Reading::Below(0.5)];
    let Err(Error::AllCensored { n, highest_limit, share_above_upper_95 }) = summarise(&r) else {
        panic!("all censored");
    };
    assert_eq!((n, highest_limit), (3, 2.0));
    // Clopper–Pearson for 0 of 3: scipy 1.17.1, beta.ppf(0.95, 1, 3).
    assert!((share_above_upper_95 - 0.6315968501359612).abs() < 1e-9);
}

#[test]
fn nothing_and_one_value() {
    assert!(matches!(summarise(&[]), Err(Error::TooFew { found: 0, .. })));
    let one = summarise(&known(&[3.0])).unwrap();
    let pl = one.methods[0].figures.as_ref().unwrap();
    assert_eq!(pl.mean.high, 3.0);
    assert!(!pl.mean_has_interval);
    for m in &one.methods[1..] {
        assert!(matches!(m.figures, Err(Error::TooFew { found: 1, needed: 3, .. })));
    }
    let rows = dated(&[(2000.0, Reading::Known(3.0))]);
    assert!(matches!(trend(&rows, &trend::Request::default()), Err(Error::TooFew { found: 1, needed: 4, .. })));
}

#[test]
fn one_number_many_times_has_no_spread() {
    let s = summarise(&known(&[2.0; 6])).unwrap();
    assert_eq!(s.methods[0].figures.as_ref().unwrap().sd, 0.0);
    for m in &s.methods[1..] {
        assert!(matches!(m.figures, Err(Error::NoSpread { .. })), "{m:?}");
    }
    let rows: Vec<Observation> = (0..6).map(|i| Observation::new(f64::from(i), Reading::Known(2.0))).collect();
    assert!(matches!(trend(&rows, &trend::Request::default()), Err(Error::NoSpread { .. })));
}

#[test]
fn one_date_repeated() {
    let rows: Vec<Observation> = (0..5).map(|i| Observation::new(2001.5, Reading::Known(f64::from(i)))).collect();
    assert!(matches!(trend(&rows, &trend::Request::default()), Err(Error::OneDate { n: 5, .. })));
}

#[test]
fn dates_out_of_order_give_the_same_answer_and_a_finding() {
    let rows = dated(&[
        (2003.0, Reading::Known(3.0)),
        (2001.0, Reading::Known(1.0)),
        (2002.0, Reading::Below(2.0)),
        (2004.0, Reading::Known(4.5)),
        (2004.0, Reading::Known(4.0)),
    ]);
    let mut sorted = rows.clone();
    sorted.sort_by(|a, b| a.time_years.total_cmp(&b.time_years));
    let (a, b) =
        (trend(&rows, &trend::Request::default()).unwrap(), trend(&sorted, &trend::Request::default()).unwrap());
    assert_eq!((a.test, a.slope), (b.test, b.slope));
    assert!(checks(&a.findings).contains(&Check::RecordOrder));
    assert!(checks(&a.findings).contains(&Check::RecordDateRepeated));
    assert!(!checks(&b.findings).contains(&Check::RecordOrder));
}

#[test]
fn limits_above_every_value() {
    let mut r = known(&[0.5, 0.7, 0.9, 1.1]);
    r.extend([Reading::Below(5.0); 4]);
    let s = summarise(&r).unwrap();
    assert!(checks(&s.findings).contains(&Check::RecordLimitAboveValues));
    // They carry no weight: the product limit is that of the known values alone.
    let alone = summarise(&r[..4]).unwrap();
    let mean = |s: &summary::Summary| s.methods[0].figures.as_ref().unwrap().mean.high;
    assert!((mean(&s) - mean(&alone)).abs() < 1e-12);
}

#[test]
fn zero_and_negative_values_have_no_lognormal() {
    for bad in [Reading::Known(0.0), Reading::Known(-0.2), Reading::Below(0.0)] {
        let mut r = known(&[0.5, 0.7, 0.9, 1.1]);
        r.push(bad);
        let s = summarise(&r).unwrap();
        assert!(s.methods[0].figures.is_ok());
        for m in &s.methods[1..] {
            assert!(matches!(m.figures, Err(Error::NotPositive { number: 5, .. })), "{m:?}");
        }
        assert!(checks(&s.findings).contains(&Check::RecordNotPositive));
    }
}

#[test]
fn not_a_number_is_refused_with_its_place() {
    let r = known(&[1.0, f64::NAN, 2.0]);
    assert!(matches!(summarise(&r), Err(Error::NotFinite { number: 2, .. })));
}

#[test]
fn the_leap_day_has_its_own_place() {
    let leap = rows::decimal_year(date(2024, 2, 29));
    assert!(leap > rows::decimal_year(date(2024, 2, 28)));
    assert!(leap < rows::decimal_year(date(2024, 3, 1)));
    // Every day of a leap year and of a common year comes back from its decimal year.
    for year in [2023, 2024] {
        let mut day = date(year, 1, 1);
        while day.year() == year {
            assert_eq!(rows::date_of(rows::decimal_year(day)), day);
            day = day.tomorrow().unwrap();
        }
    }
}

#[test]
fn known_values_that_leave_the_slope_open() {
    // Known values first, non-detects under higher limits after: any fall would do.
    let rows = dated(&[
        (2001.0, Reading::Known(3.0)),
        (2002.0, Reading::Below(9.0)),
        (2003.0, Reading::Below(9.0)),
        (2004.0, Reading::Below(9.0)),
    ]);
    let t = trend(&rows, &trend::Request::default()).unwrap();
    assert!(t.slope.is_none());
    assert!(checks(&t.findings).contains(&Check::TrendSlopeOpen));
}
