//! Patterns of metals and training blanks: scipy and hand computation.

use cleanliness::patterns::{Excess, Signature, explain, rising_blanks, training};
use quantity::Outcome;

fn excess(list: &[(&str, f64, f64)]) -> Vec<Excess> {
    list.iter().map(|(m, v, u)| Excess { metal: (*m).into(), value: *v, u: *u }).collect()
}

/// Invented signatures: what matters here is the arithmetic.
fn signatures() -> Vec<Signature> {
    let s = |name: &str, amounts: &[(&str, f64)]| Signature {
        name: name.into(),
        amounts: amounts.iter().map(|(m, a)| ((*m).to_string(), *a)).collect(),
        source: "invented for the test".into(),
    };
    vec![
        s("galvanised pipe", &[("Zn", 1000.0), ("Pb", 8.0), ("Cd", 2.0)]),
        s("stainless steel", &[("Cr", 18.0), ("Ni", 10.0), ("Fe", 70.0)]),
        s("gloves", &[("Zn", 10.0), ("Cr", 0.1)]),
    ]
}

#[test]
fn a_mixture_is_taken_apart() {
    // Three parts of pipe and half a part of steel.
    let e = excess(&[
        ("Zn", 3000.0, 30.0),
        ("Pb", 24.0, 1.0),
        ("Cd", 6.0, 0.5),
        ("Cr", 9.0, 1.0),
        ("Ni", 5.0, 0.5),
        ("Fe", 35.0, 3.0),
    ]);
    let x = explain(&e, &signatures()).unwrap();
    assert!((x.amounts[0].1 - 3.0).abs() < 1e-9 && (x.amounts[1].1 - 0.5).abs() < 1e-9, "{x:?}");
    assert!(x.p > 0.99 && x.sentence.contains("fits galvanised pipe with stainless steel"), "{}", x.sentence);
    // Lead alone fits nothing here: χ² of (50 − 8x)/1 against Zn (0 − 1000x)/30, and scipy's chi2.sf.
    let e = excess(&[("Zn", 0.0, 30.0), ("Pb", 50.0, 1.0)]);
    let x = explain(&e, &signatures()).unwrap();
    let a: f64 = 50.0 * 8.0 / (64.0 + (1000.0f64 / 30.0).powi(2));
    assert!((x.amounts[0].1 - a).abs() < 1e-9);
    assert!(x.p < 1e-6 && x.sentence.contains("fits none"), "{x:?}");
}

#[test]
fn a_beginner_is_measured_by_the_teams_scatter() {
    let team = [8.0, 10.0, 12.0, 9.0, 11.0];
    // Mean 10, sd 1.5811; t(0.95, 4) = 2.131847 (scipy): limit for three blanks 10 + 2.131847·1.5811·√(1/3 + 1/5) = 12.4617.
    assert_eq!(training("N", &[12.4, 12.4, 12.4], &team).unwrap().outcome, Outcome::Met);
    let f = training("N", &[12.5, 12.5, 12.5], &team).unwrap();
    assert_eq!(f.outcome, Outcome::NotMet);
    assert!(f.sentence.contains("12.5 pg for 3 blanks"), "{}", f.sentence);
}

#[test]
fn faults_are_named() {
    assert!(explain(&excess(&[("Zn", 1.0, 1.0)]), &signatures()).unwrap_err().to_string().contains("two metals"));
    assert!(
        explain(&excess(&[("Zn", 1.0, 0.0), ("Pb", 1.0, 1.0)]), &signatures())
            .unwrap_err()
            .to_string()
            .contains("excess of Zn")
    );
    let mut s = signatures();
    s[0].amounts[0].1 = -1.0;
    assert!(
        explain(&excess(&[("Zn", 1.0, 1.0), ("Pb", 1.0, 1.0)]), &s)
            .unwrap_err()
            .to_string()
            .contains("Zn of signature")
    );
    assert!(training("N", &[], &[1.0, 2.0]).is_err());
}

#[test]
fn rising_blanks_are_seen() {
    let at = |f: &dyn Fn(f64) -> f64| -> Vec<(f64, f64, f64)> {
        (0..8)
            .map(|i| (f64::from(i), f(f64::from(i)) + [0.3, -0.4, 0.1, 0.5, -0.5, 0.2, -0.3, 0.1][i as usize], 0.5))
            .collect()
    };
    let f = rising_blanks("trip blank", "Pb", &at(&|t| 5.0 + 0.8 * t)).unwrap();
    assert_eq!(f.outcome, Outcome::NotMet);
    assert!(f.sentence.starts_with("The trip blanks of Pb rise by 0.7"), "{}", f.sentence);
    assert_eq!(rising_blanks("trip blank", "Pb", &at(&|_| 5.0)).unwrap().outcome, Outcome::Met);
    assert!(rising_blanks("trip blank", "Pb", &[(0.0, 1.0, 1.0)]).is_err());
}
