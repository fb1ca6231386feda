//! Fieller's set against roots found by scipy, and where it has one side, none, or a known range.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use statistics::fieller::{Interval, Pair, interval, within};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn pair(a: f64, u_a: f64, b: f64, u_b: f64, covariance: f64) -> Pair {
    Pair { a, u_a, b, u_b, covariance }
}

// scipy 1.17.1: optimize.brentq(lambda r: abs(a - r*b)/numpy.sqrt(ua**2 - 2*r*c + (r*ub)**2) - t, …) on each side of
// a/b, xtol=1e-15, rtol=1e-14; tolerance: its own.
#[test]
fn ends_are_where_the_difference_is_t_times_its_u() {
    // t of 8 degrees of freedom, two-sided 95 %.
    let eight = 2.306004135204166;
    for (p, t, low, high) in [
        (pair(20.0, 1.6, 4.1, 0.3, 0.2), eight, 4.006350931070404, 5.905403634388341),
        (pair(0.15, 0.002_f64.sqrt(), 0.25, 0.005_f64.sqrt(), 0.0001), 1.96, 0.23062000512764358, 1.484054299593783),
    ] {
        let Interval::Bounded { low: l, high: h } = interval(&p, t) else { panic!("{p:?} is bounded") };
        close(l, low, 1e-12);
        close(h, high, 1e-12);
    }
    let Interval::AtLeast { below, above } = interval(&pair(5.0, 0.2, 0.4, 0.3, 0.0), 1.96) else { panic!("one side") };
    close(above, 5.034573802090998, 1e-12);
    close(below, -26.569589738002787, 1e-12);
}

#[test]
fn a_ratio_of_two_exact_numbers_is_exact() {
    // The discriminant of these is −2e-19 to −7e-18 by rounding; nothing was said of a ratio that is known.
    for (a, b) in [(0.1, 0.3), (0.1, 0.7), (0.1, 1.3), (1.1, 0.3)] {
        let Interval::Bounded { low, high } = interval(&pair(a, 0.0, b, 0.0, 0.0), 1.96) else {
            panic!("{a}/{b} is known")
        };
        close(low, a / b, 1e-8);
        close(high, a / b, 1e-8);
    }
}

#[test]
fn the_edge_where_b_just_reaches_zero() {
    // t·u_b = b: A = 0, one side is left, where a over twice b lies (B = a·b, C = a² − t²·v_a).
    let above = |a: f64| interval(&pair(a, 0.0, 2.0, 1.0, 0.0), 2.0);
    assert_eq!(above(6.0), Interval::AtLeast { below: f64::NEG_INFINITY, above: 1.5 });
    assert_eq!(above(-6.0), Interval::AtLeast { below: -1.5, above: f64::INFINITY });
    assert_eq!(interval(&pair(0.0, 1.0, 0.0, 1.0, 0.0), 2.0), Interval::Unbounded);
    assert_eq!(interval(&pair(f64::NAN, 1.0, 2.0, 0.1, 0.0), 2.0), Interval::Unbounded);
}

#[test]
fn a_factor_scales_every_end() {
    assert_eq!(Interval::Bounded { low: 1.0, high: 2.0 }.times(3.0), Interval::Bounded { low: 3.0, high: 6.0 });
    let open = Interval::AtLeast { below: f64::NEG_INFINITY, above: 1.5 };
    assert_eq!(open.times(2.0), Interval::AtLeast { below: f64::NEG_INFINITY, above: 3.0 });
    assert_eq!(Interval::Unbounded.times(2.0), Interval::Unbounded);
}

#[test]
fn within_a_range_it_is_the_same_set_cut_there() {
    let p = pair(0.15, 0.002_f64.sqrt(), 0.25, 0.005_f64.sqrt(), 0.0001);
    let (low, high) = within(&p, 1.96 * 1.96, 0.0, 1.0);
    close(low, 0.23062000512764358, 1e-12);
    assert_eq!(high, 1.0);
    // One-sided: what is left of "at least" up to a known end.
    let (low, high) = within(&pair(5.0, 0.2, 0.4, 0.3, 0.0), 1.96 * 1.96, 0.0, 100.0);
    close(low, 5.034573802090998, 1e-12);
    assert_eq!(high, 100.0);
    // No ratio is excluded: the whole range.
    assert_eq!(within(&pair(0.1, 0.2, 0.4, 0.3, 0.0), 1.96 * 1.96, 0.0, 1.0), (0.0, 1.0));
}
