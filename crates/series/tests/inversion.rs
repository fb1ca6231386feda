//! An interval of slopes holds zero exactly where the test does not reject it: random series with ties, non-detects
//! at several limits, seasons and stretches.

use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use series::compare::{self, Weight};
use series::seasonal::Season;
use series::trend::{Request, Slope, Trend, trend};
use series::{Observation, Reading};

/// Zero within the open interval, or outside the closed one; an end of exactly zero goes with either.
fn check((low, high): (f64, f64), p: f64, case: &str) {
    if p < 0.05 {
        assert!(low >= 0.0 || high <= 0.0, "{case}: p {p} and {low} to {high}");
    } else {
        assert!(low <= 0.0 && high >= 0.0, "{case}: p {p} and {low} to {high}");
    }
}

fn check_slope(s: Option<Slope>, p: f64, p_serial: Option<f64>, case: &str) {
    let Some(s) = s else { return };
    let serial = |i: Option<(f64, f64)>| i.zip(p_serial);
    check(s.interval, p, case);
    assert!(s.interval.0 <= s.per_year && s.per_year <= s.interval.1, "{case}: {s:?}");
    if let Some((i, p)) = serial(s.interval_serial) {
        check(i, p, case);
        assert!(i.0 <= s.interval.0 && s.interval.1 <= i.1, "{case}: {s:?}");
    }
    if let Some(percent) = s.percent_per_year {
        check(percent.interval, p, case);
        serial(percent.interval_serial).inspect(|(i, p)| check(*i, *p, case));
    }
}

fn check_all(t: &Trend, case: &str) {
    check_slope(t.slope, t.p(), t.p_serial, case);
    if let Some(w) = &t.with_steps {
        check_slope(w.slope, w.p, w.p_serial, case);
    }
    for g in &t.given_steps {
        if let Some(shift) = g.shift {
            check(shift.interval, g.deciding_p(), case);
        }
    }
}

/// Rounded lognormal values, non-detects at three limits; a slope of ln(value) in some.
fn series(rng: &mut ChaCha8Rng, n: usize, censored: f64, slope: f64) -> Vec<Observation> {
    (0..n)
        .map(|i| {
            let z = statistics::normal::quantile(rng.random_range(1e-16..1.0));
            let value = (100.0 * (z + slope * i as f64 / n as f64).exp()).round() / 100.0;
            let limit = statistics::normal::quantile(censored + [-0.1, 0.0, 0.1][rng.random_range(0..3)]).exp();
            let reading = if censored > 0.0 && value < limit { Reading::Below(limit) } else { Reading::Known(value) };
            let method = if 3 * i > n { "new" } else { "old" };
            Observation { time_years: 2000.0 + 0.25 * i as f64, reading, method: method.into() }
        })
        .collect()
}

#[test]
fn zero_is_held_exactly_where_it_is_not_rejected() {
    let mut rng = ChaCha8Rng::seed_from_u64(21);
    let (mut rejected, mut held) = (0, 0);
    for case in 0..1_200 {
        let n = [8, 14, 24, 50][case % 4];
        let censored = [0.0, 0.3, 0.8][case / 4 % 3];
        let slope = [0.0, 0.0, 1.5][case / 12 % 3];
        let rows = series(&mut rng, n, censored, slope);
        let Ok(t) = trend(&rows, &Request::default()) else { continue };
        check_all(&t, &format!("case {case}: {n} values, {censored} below"));
        if t.slope.is_some() {
            *if t.p() < 0.05 { &mut rejected } else { &mut held } += 1;
        }
    }
    assert!(rejected > 100 && held > 400, "{rejected} {held}");
}

#[test]
fn the_same_with_seasons() {
    let mut rng = ChaCha8Rng::seed_from_u64(22);
    for case in 0..60 {
        let years = [4, 6, 12][case % 3];
        let rows = series(&mut rng, 4 * years, [0.0, 0.4][case / 3 % 2], [0.0, 2.0][case / 6 % 2]);
        let request = Request { season: Season::Quarter, ..Request::default() };
        let Ok(t) = trend(&rows, &request) else { continue };
        check_all(&t, &format!("case {case}: {years} years"));
    }
}

#[test]
fn a_shift_of_groups_is_held_by_its_test() {
    let mut rng = ChaCha8Rng::seed_from_u64(23);
    let readings = |rows: Vec<Observation>| rows.iter().map(|r| r.reading).collect::<Vec<_>>();
    for case in 0..300 {
        let censored = [0.0, 0.4, 0.8][case % 3];
        let groups = [6, 20].map(|n| readings(series(&mut rng, n, censored, 0.0)));
        let Ok(c) = compare::compare(&groups, Weight::Gehan, 0.95) else { continue };
        if let Some(shift) = c.shifts[0].shift {
            check(shift.interval, c.p, &format!("case {case}"));
        }
        // Where p is that of S there stands no other statistic.
        assert!(c.chi_squared.is_none() && c.s.is_some());
    }
}
