//! Trial of handling steps: the designs' laws, Lenth's published rule, power in simulation.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::screening_design::{Assumed, Design, Mass, design, evaluate, power};

fn steps(k: usize) -> Vec<String> {
    (1..=k).map(|i| format!("step {i}")).collect()
}

#[test]
fn every_design_is_balanced_and_orthogonal() {
    for k in 3..=47 {
        for foldover in [false, true] {
            let d = design(&steps(k), foldover).unwrap();
            let n = d.bottles.len();
            assert_eq!(n, (k + 1).div_ceil(4) * 4 * (1 + usize::from(foldover)));
            assert_eq!(d.dof, n - 1 - k);
            for a in 0..k {
                assert_eq!(d.bottles.iter().filter(|r| r[a]).count(), n / 2, "{k} steps, column {a}");
                for b in 0..a {
                    let same = d.bottles.iter().filter(|r| r[a] == r[b]).count();
                    assert_eq!(same, n / 2, "{k} steps, columns {a} and {b}");
                }
            }
        }
    }
}

#[test]
fn a_foldover_parts_effects_from_interactions() {
    let d = design(&steps(7), true).unwrap();
    for a in 0..7 {
        for b in 0..7 {
            for c in 0..b {
                // Main effect against the product of two columns: orthogonal in a foldover.
                let sum: i32 = d.bottles.iter().map(|r| if r[a] == (r[b] == r[c]) { 1 } else { -1 }).sum();
                assert_eq!(sum, 0);
            }
        }
    }
}

#[test]
fn four_culprits_among_23_steps_are_named() {
    let d = design(&steps(23), false).unwrap();
    assert_eq!((d.bottles.len(), d.dof), (24, 0));
    assert!(d.warnings[0].contains("no degrees of freedom"));
    let a = Assumed { culprits: 4, adds_sd: 3.0, censored: 0.0, risk: 0.05, trials: 2000, seed: 1 };
    let p = power(&d, &a).unwrap();
    println!("{p:?}");
    assert!(p.all_named >= 0.95, "{p:?}");
    // Innocents are named at no more than the risk and a little: Lenth's error is a touch large with four culprits.
    assert!(p.false_name <= 0.055, "{p:?}");
    // Censoring costs power, and the figure shows it.
    let half = power(&d, &Assumed { censored: 0.5, ..a }).unwrap();
    println!("{half:?}");
    assert!(half.all_named < p.all_named - 0.1 && half.false_name <= 0.07, "{half:?}");
    // A smaller effect is found less often.
    let small = power(&d, &Assumed { adds_sd: 1.0, ..a }).unwrap();
    assert!(small.one_named < 0.8, "{small:?}");
}

#[test]
fn the_risk_per_step_is_kept_without_culprits_worth_naming() {
    for (k, foldover) in [(23, false), (11, false), (9, false), (7, true)] {
        let d = design(&steps(k), foldover).unwrap();
        let a = Assumed { culprits: 1, adds_sd: 0.0, censored: 0.0, risk: 0.05, trials: 4000, seed: 2 };
        let p = power(&d, &a).unwrap();
        // 4000 trials of many steps: the standard error is under 0.4 %.
        assert!((p.false_name - 0.05).abs() < 0.012, "{k} {foldover}: {p:?}");
    }
}

#[test]
fn effects_by_hand() {
    let d = design(&steps(3), false).unwrap();
    // Masses made of 10 + 4·(step 2): effect 4 for step 2, 0 else.
    let m: Vec<Mass> = d.bottles.iter().map(|r| Mass::Value(10.0 + 4.0 * f64::from(u8::from(r[1])))).collect();
    let e = evaluate(&d, &m, 0.05).unwrap();
    assert_eq!((e.effects[0].step.as_str(), e.effects[0].effect), ("step 2", 4.0));
    assert!(e.effects[1].effect.abs() < 1e-12);
    // With columns left over the error comes from them: 4 steps in 8 bottles, 3 degrees of freedom.
    let d = design(&steps(4), false).unwrap();
    let noise = [0.3, -0.2, 0.1, 0.4, -0.5, 0.2, -0.1, -0.3];
    let m: Vec<Mass> =
        (d.bottles.iter().zip(noise)).map(|(r, x)| Mass::Value(10.0 + 4.0 * f64::from(u8::from(r[2])) + x)).collect();
    let e = evaluate(&d, &m, 0.05).unwrap();
    // scipy 1.17.1: stats.t.ppf(.95, 3) = 2.353363
    assert!((e.critical - 2.3533634).abs() < 1e-6 && e.effects[0].named && e.effects[0].step == "step 3");
    assert!(e.sentence.contains("step 3"));
    let list = d.packing_list();
    assert_eq!(list.len(), 8);
    assert!(list[0].starts_with("bottle 1: with "));
}

#[test]
fn non_detects_take_part_without_a_number() {
    let d: Design = design(&steps(11), false).unwrap();
    let base = |r: &Vec<bool>| 1.0 + 20.0 * f64::from(u8::from(r[4])) + 0.01 * r.iter().filter(|x| **x).count() as f64;
    let m: Vec<Mass> =
        d.bottles.iter().map(|r| if base(r) < 5.0 { Mass::Below(5.0) } else { Mass::Value(base(r)) }).collect();
    let e = evaluate(&d, &m, 0.05).unwrap();
    assert_eq!((e.scale, e.effects[0].step.as_str()), ("score", "step 5"));
    assert!(e.effects[0].named && e.warnings.iter().any(|w| w.contains("6 of 12 bottles lie below")), "{e:?}");
}

#[test]
fn faults_are_named() {
    assert!(design(&steps(2), false).unwrap_err().to_string().contains("3 to 47"));
    assert!(design(&steps(48), false).is_err());
    let mut twice = steps(5);
    twice[4] = "step 1".into();
    assert!(design(&twice, false).unwrap_err().to_string().contains("each step once"));
    let d = design(&steps(5), false).unwrap();
    assert!(evaluate(&d, &[Mass::Value(1.0)], 0.05).unwrap_err().to_string().contains("1 given, at least 8"));
    assert!(evaluate(&d, &[Mass::Below(1.0); 8], 0.05).unwrap_err().to_string().contains("non-detects alone"));
    assert!(evaluate(&d, &[Mass::Value(1.0); 8], 0.7).is_err());
    let a = Assumed { culprits: 5, adds_sd: 1.0, censored: 0.0, risk: 0.05, trials: 10, seed: 1 };
    assert!(power(&d, &a).unwrap_err().to_string().contains("1 to 4"));
}
