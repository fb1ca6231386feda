//! Standard addition.

use measurement::addition::Additions;
use measurement::error::Error;
use measurement::line::Estimate;
use measurement::ratio::FiellerInterval;
use quantity::Unit;
use statistics::t;

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

const ADDED: [f64; 7] = [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0];
const SIGNAL: [f64; 7] = [0.32, 0.41, 0.52, 0.60, 0.70, 0.77, 0.89];

fn silver() -> Additions<'static> {
    Additions {
        added: &ADDED,
        signal: &SIGNAL,
        u_signal: None,
        blank_signal: Estimate { value: 0.0, u: 0.0 },
        dilution: Estimate { value: 1.0, u: 0.0 },
        unit: Unit::known("ug/L"),
    }
}

/// Miller & Miller, silver in waste (from memory, recomputed): 17.3 ± 1.9 µg/mL, s = 0.749.
#[test]
fn silver_of_miller_and_miller() {
    let r = silver().evaluate().expect("a result");
    near(r.line.slope, 0.0186, 5e-5);
    near(r.line.intercept, 0.3218, 5e-5);
    near(r.concentration.value, 17.3, 0.05);
    // The book divides rounded figures (0.0109/0.0186): 0.2 % above the unrounded 0.7479.
    near(r.concentration.u, 0.749, 1.5e-3);
    near(r.concentration.dof, 5.0, 1e-9);
    near(t::quantile(0.975, 5.0) * r.concentration.u, 1.9, 0.05);
    // Fieller is a little wider on the high side and holds the estimate.
    match r.interval_95 {
        FiellerInterval::Bounded { low, high } => {
            assert!(low < r.concentration.value && high - r.concentration.value > r.concentration.value - low);
            // Each limit x solves |a − x·b| = t·√(u²(a) + x²·u²(b) − 2·x·cov), x counted downwards.
            let l = &r.line;
            for x in [low, high] {
                let v = l.u_intercept.powi(2) + (x * l.u_slope).powi(2) - 2.0 * x * l.covariance;
                let score = (l.intercept - x * l.slope).abs() / v.sqrt();
                near(score, t::quantile(0.975, 5.0), 1e-9);
            }
        }
        other => panic!("{other:?}"),
    }
    assert!(r.warnings.is_empty(), "{:?}", r.warnings);
    let total: f64 = r.derivation.budget.iter().map(|c| c.share).sum();
    near(total, 1.0, 1e-12);
    assert_eq!(r.derivation.result().expect("a node").name, "concentration in the sample");
}

#[test]
fn blank_and_dilution_come_in() {
    let mut s = silver();
    s.blank_signal = Estimate { value: 0.1, u: 0.01 };
    s.dilution = Estimate { value: 2.0, u: 0.02 };
    let r = s.evaluate().expect("a result");
    let plain = silver().evaluate().expect("a result");
    let expected = 2.0 * (plain.concentration.value - 0.1 / plain.line.slope);
    near(r.concentration.value, expected, 1e-12);
    assert!(r.concentration.u > 2.0 * 0.01 / plain.line.slope);
    assert_eq!(r.derivation.budget.len(), 3);
}

#[test]
fn additions_that_cannot_be_read_are_refused_or_warned_about() {
    let mut s = silver();
    s.added = &[5.0; 7];
    assert!(matches!(s.evaluate(), Err(Error::OneLevel { .. })));
    let mut s = silver();
    s.added = &[0.0, -5.0, 10.0, 15.0, 20.0, 25.0, 30.0];
    assert!(matches!(s.evaluate(), Err(Error::OutOfRange { .. })));
    let mut s = silver();
    s.dilution.value = -1.0;
    assert!(matches!(s.evaluate(), Err(Error::OutOfRange { .. })));
    let small = [0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0];
    let mut s = silver();
    s.added = &small;
    s.signal = &[0.50, 0.53, 0.49, 0.52, 0.48, 0.51, 0.53];
    let r = s.evaluate().expect("a result");
    assert!(r.warnings.iter().any(|w| w.contains("further out")), "{:?}", r.warnings);
    assert!(r.warnings.iter().any(|w| w.contains("no upper limit")));
}

/// A signal that falls with what is added is no standard addition: refused by name, with the slope.
#[test]
fn a_falling_line_is_refused_and_an_exact_one_is_told() {
    let addition = measurement::CALCULATIONS.iter().find(|c| c.name == "addition").expect("listed");
    let ask = |signal: [f64; 4]| {
        (addition.run)(&serde_json::json!({ "added": [0, 1, 2, 3], "signal": signal, "unit": "ng/L" }))
    };
    let e = ask([10.0, 9.1, 7.9, 7.0]).expect_err("it falls").to_string();
    assert!(e.starts_with("slope of the additions: found -1.0") && e.contains("more than 0"), "{e}");
    assert!(ask([5.0, 5.0, 5.0, 5.0]).is_err());
    let exact = ask([2.0, 3.0, 4.0, 5.0]).expect("an answer");
    assert!(exact["warnings"].to_string().contains("the noise is not known"), "{exact:#}");
    let real = ask([2.0, 3.1, 3.9, 5.0]).expect("an answer");
    assert!(!real["warnings"].to_string().contains("the noise is not known"), "{real:#}");
}
