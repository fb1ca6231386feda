//! Lots: published tolerance factors, scipy's non-central t, the decision in simulation.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::lots::{LotRule, Scale, judge};
use quantity::Outcome;
use statistics::noncentral::tolerance_factor;

const RULE: LotRule = LotRule { target_pg: 20.0, content: 0.95, confidence: 0.95 };

#[test]
fn tolerance_factors() {
    // One-sided 95/95 (tables of Owen and of the NIST/SEMATECH handbook; recalled, met by scipy's nct).
    for (n, want) in [(5, 4.2027), (8, 3.1873), (10, 2.9110), (20, 2.3960), (30, 2.2198)] {
        assert!((tolerance_factor(n, 0.95, 0.95) - want).abs() < 6e-5, "{n}");
    }
    // n 43 at 90 % content, 99 % confidence: 1.8740 exact (the handbook's approximation is 1.8752).
    assert!((tolerance_factor(43, 0.90, 0.99) - 1.8740).abs() < 6e-5);
}

#[test]
fn accept_refuse_or_more_blanks() {
    let good = judge(&[4.0, 5.5, 5.0, 4.6, 6.1, 5.2, 4.9, 5.4], &RULE).unwrap();
    assert_eq!(good.outcome, Outcome::Met);
    assert!((good.highest_confidence - (1.0 - 0.95f64.powi(8))).abs() < 1e-12);
    let bad = judge(&[34.0, 35.5, 35.0, 34.6, 36.1, 35.2, 34.9, 35.4], &RULE).unwrap();
    assert_eq!(bad.outcome, Outcome::NotMet);
    assert!(bad.sentence.contains("wash the lot again"));
    let few = judge(&[8.0, 14.0, 10.0], &RULE).unwrap();
    assert_eq!(few.outcome, Outcome::NotKnown);
    assert_eq!(few.finding("L7", &RULE).outcome, Outcome::NotKnown);
    // Skewed blanks are judged on their logarithms.
    let skewed = judge(&[1.0, 1.3, 1.9, 2.4, 3.6, 5.0, 9.0, 14.0], &RULE).unwrap();
    assert_eq!(skewed.scale, Scale::Logarithm);
    // Negative net blanks stay on the plain scale.
    assert_eq!(judge(&[-1.0, 1.3, 1.9, 2.4, 3.6], &RULE).unwrap().scale, Scale::Plain);
}

#[test]
fn equal_blanks_are_their_own_limit() {
    // Six times 12.3: the sum rounds in f64, and the rounding is neither scatter nor skew.
    let l = judge(&[12.3; 6], &RULE).unwrap();
    assert_eq!((l.sd_pg, l.upper_pg, l.scale), (0.0, 12.3, Scale::Plain));
}

#[test]
fn faults_are_named() {
    assert!(judge(&[1.0, 2.0], &RULE).unwrap_err().to_string().contains("2 given, at least 3"));
    assert!(judge(&[1.0, f64::NAN, 2.0], &RULE).unwrap_err().to_string().contains("blank of the lot"));
    assert!(judge(&[1.0; 5], &LotRule { target_pg: 0.0, ..RULE }).is_err());
    assert!(judge(&[1.0; 5], &LotRule { content: 0.2, ..RULE }).is_err());
}
