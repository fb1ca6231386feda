//! Activity coefficients against Kielland's table, and their slope against differences.

use aqueous::activity::{Class, extended_debye_hueckel};
use aqueous::water::debye_hueckel;

#[test]
fn kielland() {
    // Kielland 1937, J. Am. Chem. Soc. 59:1675, as in Freeze & Cherry 1979 app. IV and most
    // textbooks (from memory), 25 °C: å, charge, γ at I = 0.001, 0.005, 0.01, 0.05, 0.1.
    // 0.01: the table was computed with A and B of its day and printed to 0.005 at high I.
    let ionic = [0.001, 0.005, 0.01, 0.05, 0.1];
    let table: &[(f64, f64, [f64; 5])] = &[
        (9.0, 1.0, [0.967, 0.933, 0.914, 0.86, 0.83]),
        (6.0, 1.0, [0.965, 0.929, 0.907, 0.835, 0.80]),
        (4.0, 1.0, [0.964, 0.927, 0.901, 0.815, 0.77]),
        (3.5, 1.0, [0.964, 0.926, 0.900, 0.81, 0.76]),
        (3.0, 1.0, [0.964, 0.925, 0.899, 0.805, 0.755]),
        (8.0, 2.0, [0.872, 0.755, 0.69, 0.52, 0.45]),
        (6.0, 2.0, [0.870, 0.749, 0.675, 0.485, 0.405]),
        (5.0, 2.0, [0.868, 0.744, 0.67, 0.465, 0.38]),
        (4.0, 2.0, [0.867, 0.740, 0.660, 0.445, 0.355]),
        (9.0, 3.0, [0.738, 0.54, 0.445, 0.245, 0.18]),
        (4.0, 3.0, [0.725, 0.505, 0.395, 0.16, 0.095]),
    ];
    let dh = debye_hueckel(25.0);
    for (a, z, row) in table {
        for (i, want) in ionic.iter().zip(row) {
            let got = libm::exp10(extended_debye_hueckel(dh, *z, *a, *i));
            assert!((got - want).abs() <= 0.01, "å {a}, charge {z}, I {i}: {got:.4}, table {want}");
        }
    }
}

#[test]
fn slopes_are_those_of_the_function() {
    let dh = debye_hueckel(12.0);
    for class in
        [Class::of("Ca^2+", 2), Class::of("SO4^2-", -2), Class::of("Pb^2+", 2), Class::of("CO2", 0), Class::One]
    {
        for i in [1e-6, 1e-3, 0.1, 0.4] {
            let h = 1e-5 * i;
            let (_, slope) = class.log_gamma(dh, i);
            let numeric = (class.log_gamma(dh, i + h).0 - class.log_gamma(dh, i - h).0) / (2.0 * h);
            // Central difference: truncation about h², rounding about 1e-16/h.
            assert!((slope - numeric).abs() <= 1e-6 * (1.0 + slope.abs()), "{class:?} at {i}");
        }
    }
}

#[test]
fn only_the_nine_ions_have_parameters_of_their_own() {
    assert!(matches!(Class::of("HCO3-", -1), Class::Extended { .. }));
    assert_eq!(Class::of("H+", 1), Class::Davies(1.0));
    assert_eq!(Class::of("UO2(CO3)3^4-", -4), Class::Davies(16.0));
}
