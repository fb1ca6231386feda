//! Titrations with a known answer.

use aqueous::titration::{Point, Titration, evaluate};

/// Curve computed outside the project with Python 3 and scipy 1.17 (brentq): closed system,
/// sample 100 mL, acid 0.02 mol/L, alkalinity 3.800 mmol/L, total carbonate 3.950 mmol/L,
/// concentration constants pK1 6.40, pK2 10.20, pKw 14.50, pH = −log10 [H+]. Command:
/// for each V: solve H·(S+V) − Kw/H·(S+V) − C·S·(K1·H + 2·K1·K2)/(H² + K1·H + K1·K2) + A·S − c·V = 0.
const CURVE: &[(f64, f64)] = &include!("data/titration_curve.in");

fn titration(points: &[(f64, f64)]) -> Titration {
    Titration {
        sample_ml: 100.0,
        acid_mol_l: 0.02,
        temperature_c: 25.0,
        points: points.iter().map(|(v, p)| Point { acid_ml: *v, ph: *p }).collect(),
        u_acid_relative: 0.002,
        u_sample_ml: 0.2,
        u_burette_ml: 0.01,
    }
}

#[test]
fn gran_finds_the_alkalinity_that_was_put_in() {
    let e = evaluate(&titration(CURVE)).unwrap();
    // The bicarbonate left over is corrected with total carbonate taken as the alkalinity (here
    // 4 % low) and another K1 (12 % off): a sixth of the 0.35 % that it moves the answer.
    assert!((e.alkalinity_mmol_l - 3.8).abs() < 0.001 * 3.8, "{}", e.alkalinity_mmol_l);
    assert!(e.points_used >= 5);
    // The derivative sees the same end on steps of 0.25 mL: half a step.
    assert!((e.derivative_mmol_l.unwrap() - 3.8).abs() < 0.025, "{:?}", e.derivative_mmol_l);
    // u: 0.2 % of acid and of sample, 0.01 mL of 19 mL, half of the 0.35 % correction.
    assert!((e.u_mmol_l - 3.8 * 0.0034).abs() < 0.002, "{}", e.u_mmol_l);
}

#[test]
fn a_constant_error_of_ph_does_not_matter() {
    let off: Vec<(f64, f64)> = CURVE.iter().map(|(v, p)| (*v, p + 0.04)).collect();
    let (a, b) = (evaluate(&titration(CURVE)).unwrap(), evaluate(&titration(&off)).unwrap());
    // F is scaled as a whole: the crossing stays, but for which points fall into the window.
    assert!((a.alkalinity_mmol_l - b.alkalinity_mmol_l).abs() < 0.001 * 3.8);
}

#[test]
fn scatter_shows_in_u() {
    let noisy: Vec<(f64, f64)> =
        CURVE.iter().enumerate().map(|(k, (v, p))| (*v, p + if k % 2 == 0 { 0.02 } else { -0.02 })).collect();
    let (a, b) = (evaluate(&titration(CURVE)).unwrap(), evaluate(&titration(&noisy)).unwrap());
    assert!(b.u_mmol_l > 1.2 * a.u_mmol_l, "{} {}", a.u_mmol_l, b.u_mmol_l);
}

#[test]
fn a_titration_that_stopped_early_is_refused() {
    let early: Vec<(f64, f64)> = CURVE.iter().copied().filter(|(_, p)| *p > 4.5).collect();
    let e = evaluate(&titration(&early)).unwrap_err().to_string();
    assert!(e.contains("go on with the acid"), "{e}");
    // Two readings past the end: the derivative stands in and says so by its u.
    let short: Vec<(f64, f64)> = CURVE.iter().copied().filter(|(_, p)| *p > 3.95).collect();
    let e = evaluate(&titration(&short)).unwrap();
    assert!(!e.by_gran && (e.alkalinity_mmol_l - 3.8).abs() < 0.025 && e.u_mmol_l > 0.02, "{e:?}");
    let mut back = CURVE.to_vec();
    back.swap(2, 3);
    assert!(evaluate(&titration(&back)).unwrap_err().to_string().contains("running total"));
    assert!(evaluate(&Titration { sample_ml: 0.0, ..titration(CURVE) }).is_err());
}
