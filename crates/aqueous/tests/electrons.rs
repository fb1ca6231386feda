//! Electrons of an analysis against sums by hand.

use aqueous::analysis::{Analysis, Analyte, interpret};
use aqueous::electrons::electrons;
use aqueous::water::density_kg_l;
use quantity::{Amount, Unit};

fn water(analytes: &[(&str, Amount)]) -> aqueous::electrons::Electrons {
    let analytes =
        analytes.iter().map(|(n, a)| Analyte { name: (*n).into(), amount: a.clone(), fraction: None }).collect();
    let a = Analysis { temperature_c: 9.0, ph: Some(7.5), analytes, ..Analysis::default() };
    electrons(&interpret(&a).unwrap(), density_kg_l(9.0))
}

fn mg(x: f64) -> Amount {
    Amount::measured(x, 0.02 * x, Unit::known("mg/L"))
}

#[test]
fn sums_by_hand() {
    let e = water(&[
        ("O2", mg(8.0)),
        ("nitrate", Amount::measured(14.007, 0.28, Unit::known("mg/L as N"))),
        ("SO4", mg(96.06)),
        ("Fe(II)", mg(5.5845)),
        ("CH4", mg(1.6043)),
    ]);
    // O2 8/31.998·4, N 1 mmol·5; SO4 1 mmol·8; Fe 0.1 mmol·1, CH4 0.1 mmol·8. 1e-3: atomic weights.
    assert!((e.oxidants.meq_l - (8.0 / 31.998 * 4.0 + 5.0)).abs() < 1e-3, "{e:?}");
    assert!((e.sulfate.meq_l - 8.0).abs() < 1e-2 && (e.reductants.meq_l - 0.9).abs() < 1e-3, "{e:?}");
    // u of the sum: 2 % of each, in quadrature.
    let u = libm::hypot(0.02 * 8.0 / 31.998 * 4.0, 0.02 * 5.0);
    assert!((e.oxidants.u - u).abs() < 1e-3, "{e:?}");
    assert_eq!(e.not_looked_for, ["S(-II)", "NH4"]);
}

#[test]
fn a_non_detect_stays_open() {
    let e = water(&[("S(-II)", mg(3.206)), ("O2", Amount::below(0.1, Unit::known("mg/L")))]);
    assert!((e.reductants.meq_l - 0.8).abs() < 1e-3);
    assert!(e.oxidants.meq_l.abs() < 1e-12 && (e.oxidants.open - 0.1 / 31.998 * 4.0).abs() < 1e-5, "{e:?}");
}
