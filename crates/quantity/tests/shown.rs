//! Factors against the table of units; shares as percentages.

#![allow(clippy::float_cmp)] // exact equivalents are compared exactly

use quantity::factor::{
    L_MIN_PER_M3_S, L_PER_M3, M_PER_KM, MIN_PER_H, MIN_PER_YEAR, MM_PER_M, NG_PER_UG, S_PER_D, S_PER_H, S_PER_MIN,
    S_PER_YEAR,
};
use quantity::format::{percent, percent_of_budget, percent_trimmed, percent_whole};
use quantity::{Measured, Unit};

#[test]
fn a_factor_is_that_of_the_table_of_units() {
    // The table's factors are UCUM's (tests/units.rs); it divides two of them, so to a rounding.
    for (factor, from, to) in [
        (S_PER_MIN, "min", "s"),
        (S_PER_H, "h", "s"),
        (S_PER_D, "d", "s"),
        (S_PER_D, "m2/s", "m2/d"),
        (S_PER_YEAR, "a", "s"),
        (MIN_PER_H, "h", "min"),
        (MIN_PER_YEAR, "a", "min"),
        (MM_PER_M, "m", "mm"),
        (M_PER_KM, "km", "m"),
        (L_PER_M3, "m3", "L"),
        (L_MIN_PER_M3_S, "m3/s", "L/min"),
        (NG_PER_UG, "µg", "ng"),
    ] {
        let by_table = Unit::known(from).conversion(&Unit::known(to), None, None).unwrap().factor;
        assert!((factor / by_table - 1.0).abs() < 1e-14, "{from} in {to}: {factor}, table {by_table}");
    }
}

#[test]
fn a_share_is_shown_with_the_digits_asked_for() {
    for (share, digits, want) in [(0.0345, 2, "3.5"), (0.95, 3, "95.0"), (1.0, 2, "100"), (0.0, 2, "0")] {
        assert_eq!(percent(share, digits), want);
    }
    assert_eq!((percent_trimmed(0.95, 3), percent_trimmed(0.999, 3)), ("95".into(), "99.9".into()));
}

#[test]
fn a_part_that_is_there_is_never_a_nought() {
    // A hundredth of a percent of the variance is a hundredth of u: under it no digit is shown.
    assert_eq!((percent_of_budget(0.00009), percent_of_budget(0.0001)), ("< 0.01".into(), "0.010".into()));
    assert_eq!((percent_whole(0.0099), percent_whole(0.01)), ("< 1".into(), "1".into()));
    assert_eq!((percent_whole(1e-12), percent_whole(0.996)), ("< 1".into(), "100".into()));
}

#[test]
fn a_recovery_keeps_its_degrees_of_freedom_in_percent() {
    let r = Measured::with_dof(0.97, 0.02, 6.0, Unit::one()).in_percent();
    assert_eq!((r.value, r.u, r.dof, r.unit.to_string()), (97.0, 2.0, 6.0, "%".into()));
}
