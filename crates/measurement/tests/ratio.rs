//! Ratios: Fieller's interval, lead isotopes and mixing.

use measurement::error::Error;
use measurement::lead::{Lean, Reference, correct, mass, mix};
use measurement::line::Estimate;
use measurement::ratio::{FiellerInterval, Quotient};

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

fn q(a: f64, ua: f64, b: f64, ub: f64, covariance: f64) -> Quotient {
    Quotient { numerator: a, u_numerator: ua, denominator: b, u_denominator: ub, covariance }
}

fn e(value: f64, u: f64) -> Estimate {
    Estimate { value, u }
}

/// Computed from the closed formula (form seen in a public article; not a published example).
#[test]
fn fieller_computed_cases() {
    let bounded =
        |quotient: Quotient, t: f64, want: (f64, f64), digits: f64| match quotient.fieller(t).expect("an interval") {
            FiellerInterval::Bounded { low, high } => {
                near(low, want.0, digits);
                near(high, want.1, digits);
            }
            other => panic!("{other:?}"),
        };
    let c = q(0.15, 0.002_f64.sqrt(), 0.25, 0.005_f64.sqrt(), 0.0001);
    near(c.g(1.96), 0.3073, 5e-5);
    bounded(c, 1.96, (0.2306, 1.4840), 1e-4);
    bounded(q(25.0, 2.0, 5.0, 1.0, 0.0), 1.96, (3.44, 8.38), 6e-3);
    bounded(q(25.0, 2.0, 5.0, 2.0, 0.0), 1.96, (2.72, 23.2), 6e-2);
    near(q(25.0, 2.0, 5.0, 1.0, 0.0).first_order().expect("a ratio").u, 1.077, 5e-4);
}

/// A denominator not distinct from zero: "at least", never two limits.
#[test]
fn a_denominator_near_zero_gives_at_least() {
    let r = q(25.0, 2.0, 1.0, 1.0, 0.0).fieller(1.96).expect("an interval");
    match r {
        FiellerInterval::AtLeast { below, above } => {
            // The limit is where a − ρb just reaches 1.96 of its u.
            let edge = (25.0 - above) / (4.0 + above * above).sqrt();
            near(edge.abs(), 1.96, 1e-9);
            assert!(below < 0.0 && above > 0.0);
        }
        other => panic!("{other:?}"),
    }
    assert_eq!(q(1.0, 2.0, 0.5, 1.0, 0.0).fieller(1.96).expect("an answer"), FiellerInterval::Unbounded);
    assert!(matches!(q(1.0, 0.1, 0.0, 1.0, 0.0).first_order(), Err(Error::ZeroDenominator { .. })));
    assert!(matches!(q(1.0, 0.1, 2.0, 1.0, 0.5).fieller(1.96), Err(Error::OutOfRange { .. })));
    assert!(matches!(q(f64::NAN, 0.1, 2.0, 1.0, 0.0).fieller(1.96), Err(Error::NotFinite { .. })));
}

/// A run with a bias of 0.8 % per mass unit by the exponential law is corrected back.
#[test]
fn mass_bias_is_undone() {
    let m = |n: u16| mass(n).expect("lead");
    let bias = |true_ratio: f64, a: u16, b: u16| true_ratio * (m(a) / m(b)).powf(1.6);
    let reference = Reference {
        masses: (m(207), m(206)),
        certified: e(0.914_64, 0.000_17),
        measured: e(bias(0.914_64, 207, 206), 0.000_4),
    };
    let measured = e(bias(2.1, 208, 206), 0.002);
    let corrected = correct(&measured, (m(208), m(206)), &reference).expect("a ratio");
    near(corrected.value, 2.1, 1e-12);
    let relative = (0.002_f64 / measured.value).powi(2)
        + (1.9953_f64).powi(2) * ((0.000_17_f64 / 0.914_64).powi(2) + (0.000_4_f64 / reference.measured.value).powi(2));
    near(corrected.u / 2.1, relative.sqrt(), 1e-6);
    assert!(mass(205).is_err());
}

/// Two sources, invented ratios: a sample made of 30 % of the first is found again.
#[test]
fn mixing_of_two_sources() {
    let a = [e(0.910, 0.001), e(2.170, 0.002)];
    let b = [e(0.830, 0.001), e(2.050, 0.002)];
    let at = |f: f64, k: usize| f * a[k].value + (1.0 - f) * b[k].value;
    let sample = [e(at(0.3, 0), 0.001), e(at(0.3, 1), 0.003)];
    let m = mix(&sample, &a, &b).expect("a mixture");
    near(m.share, 0.3, 1e-12);
    assert_eq!(m.lean, Lean::Second);
    near(m.chi2, 0.0, 1e-15);
    // Against draws with numpy: sd of the share over 1e6 refits.
    near(m.u, 0.01372, 3e-4);
    // Off the line: neither.
    let off = [e(at(0.5, 0) + 0.02, 0.001), e(at(0.5, 1) - 0.03, 0.003)];
    assert_eq!(mix(&off, &a, &b).expect("a fit").lean, Lean::Neither);
    let middle = [e(at(0.5, 0), 0.001), e(at(0.5, 1), 0.003)];
    assert_eq!(mix(&middle, &a, &b).expect("a fit").lean, Lean::CannotTell);
    // A source richer in 206 per atom of lead counts less of the whole.
    near(m.share_of_total((4.0, 4.0)), 0.3, 1e-12);
    assert!(m.share_of_total((4.2, 3.9)) > 0.3);
    assert!(matches!(mix(&sample, &a, &a), Err(Error::Unsupported { .. })));
    assert!(matches!(mix(&sample, &a[..1], &b), Err(Error::Length { .. })));
}

/// The masses are those of the reference table.
#[test]
fn masses_of_lead_are_those_of_the_table() {
    let mut table =
        csv::ReaderBuilder::new().comment(Some(b'#')).from_path("../../reference/isotopes.csv").expect("the table");
    let mut found = 0;
    for r in table.records() {
        let r = r.expect("a row");
        if &r[0] == "Pb" {
            let number: u16 = r[1].parse().expect("a mass number");
            near(mass(number).expect("lead"), r[2].parse().expect("a mass"), 1e-9);
            found += 1;
        }
    }
    assert_eq!(found, 4);
}
