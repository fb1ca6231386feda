//! Overlap factors against abundances and the published equations they replace.

use measurement::interference::{Error, isobaric_factor, mass_bias, method_terms};
use measurement::isotope::WithU;

const NONE: WithU = WithU { value: 0.0, u: 0.0 };

#[test]
fn factors_of_today_s_abundances() {
    // Computed from the table's abundances: 114Sn/118Sn 0.02725, 204Hg/202Hg 0.2293, 98Ru/99Ru
    // 0.1466, 95Mo/92Mo 1.084.
    for (element, on, by, want) in
        [("Sn", 114, 118, 0.02725), ("Hg", 204, 202, 0.2293), ("Ru", 98, 99, 0.1466), ("Mo", 95, 92, 1.084)]
    {
        let f = isobaric_factor(element, on, by, NONE).expect("a factor");
        assert!((f.value / want - 1.0).abs() < 1e-3, "{element}: {}", f.value);
        assert!(f.u > 0.0);
    }
}

#[test]
fn a_mass_bias_found_from_a_ratio_gives_that_ratio_back() {
    let measured = WithU { value: 0.2293 * 1.02, u: 0.0005 };
    let bias = mass_bias("Hg", 204, 202, measured).expect("a bias");
    let f = isobaric_factor("Hg", 204, 202, WithU { value: bias.value, u: 0.0 }).expect("a factor");
    assert!((f.value - measured.value).abs() < 1e-12);
    // 2 % over two mass units in 200: β = ln 1.02 / ln(204/202) = 2.0.
    assert!((bias.value - 2.0).abs() < 0.05, "{}", bias.value);
    assert!(matches!(mass_bias("Hg", 204, 202, NONE), Err(Error::NotPositive { .. })));
    assert!(matches!(isobaric_factor("Hg", 203, 202, NONE), Err(Error::UnknownNuclide { mass: 203, .. })));
}

#[test]
fn the_equations_of_the_method_are_multiplied_out() {
    let terms = method_terms("EPA 200.8").expect("the method");
    let factor = |t: &str, m: u16| terms.iter().find(|x| x.target.0 == t && x.monitor.1 == m).expect("a term").factor;
    // As 75C − 3.127[77C − 0.815(82C)]; V 51C − 3.127[53C − 0.113(52C)];
    // Cd 111C − 1.073[108C − 0.712(106C)] (US EPA 200.8 table 5, from memory).
    for (t, outer, inner, a, b) in
        [("As", 77, 82, 3.127, 0.815), ("V", 53, 52, 3.127, 0.113), ("Cd", 108, 106, 1.073, 0.712)]
    {
        assert!((factor(t, outer) - a).abs() < 1e-12);
        assert!((factor(t, inner) + a * b).abs() < 1e-12, "{t}");
    }
    assert!((factor("Mo", 99) - 0.146).abs() < 1e-12);
    let e = method_terms("EPA 999").expect_err("not there").to_string();
    assert!(e.contains("EPA 200.8"), "{e}");
}
