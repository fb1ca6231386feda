//! Effective degrees of freedom against JCGM 100 and scipy.

#![allow(clippy::float_cmp)] // exact answers are compared exactly

use statistics::welch::{dof_of, effective_dof, welch_term};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

/// JCGM 100:2008, H.1.6, end gauge (from memory): 25 nm with 18 degrees of freedom, 9.7 with 25.6, 2.9 with 50, 16.6
/// with 2 give 16.7; its inputs are rounded to two or three digits.
#[test]
fn gum_end_gauge() {
    let parts = [(25.0, 18.0), (9.7, 25.6), (2.9, 50.0), (16.6, 2.0)].map(|(u, dof): (f64, f64)| (u * u, dof));
    close(effective_dof(&parts).unwrap(), 16.7, 5e-3);
}

#[test]
fn welch_of_two_means() {
    // scipy 1.17.1: stats.ttest_ind([14, 11, 16, 12, 15], [6, 5, 8], equal_var=False).df; variances 4.3 and 7/3.
    close(effective_dof(&[(4.3 / 5.0, 4.0), (7.0 / 9.0, 2.0)]).unwrap(), 5.5036641681591005, 1e-14);
    // The same gathered one by one.
    let together = welch_term(4.3 / 5.0, 4.0) + welch_term(7.0 / 9.0, 2.0);
    close(dof_of(4.3 / 5.0 + 7.0 / 9.0, together).unwrap(), 5.5036641681591005, 1e-14);
}

#[test]
fn parts_that_are_nothing_or_known_exactly() {
    // One part alone keeps its own.
    assert_eq!(effective_dof(&[(0.25, 7.0)]), Some(7.0));
    // A part of nothing does not count, whatever its degrees of freedom.
    assert_eq!(effective_dof(&[(0.25, 7.0), (0.0, 0.0), (0.0, f64::INFINITY)]), Some(7.0));
    // All known exactly; nothing at all; no parts.
    assert_eq!(effective_dof(&[(0.25, f64::INFINITY)]), Some(f64::INFINITY));
    assert_eq!(effective_dof(&[(0.0, 7.0), (0.0, f64::INFINITY)]), None);
    assert_eq!(effective_dof(&[]), None);
}

#[test]
fn never_more_than_all_and_never_fewer_than_the_fewest() {
    // JCGM 100, G.4.1, note: min ν_i ≤ ν_eff ≤ Σ ν_i.
    for (a, b) in [(1.0, 1.0), (1.0, 1e-6), (3.0, 0.2), (1e-12, 5.0)] {
        let dof = effective_dof(&[(a, 3.0), (b, 11.0)]).unwrap();
        assert!((3.0..=14.0).contains(&dof), "{a}, {b}: {dof}");
    }
}

#[test]
fn what_cannot_be_is_not_a_number() {
    for (variance, dof) in [(-0.1, 3.0), (0.1, 0.0), (0.1, -2.0), (f64::NAN, 3.0), (0.1, f64::NAN)] {
        assert!(welch_term(variance, dof).is_nan(), "{variance}, {dof}");
        assert!(effective_dof(&[(variance, dof), (1.0, 4.0)]).unwrap().is_nan(), "{variance}, {dof}");
    }
}
