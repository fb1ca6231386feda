//! Redox couples against handbook potentials.

use aqueous::equilibrium::{Composition, Ph, speciate};
use aqueous::network::network;
use aqueous::redox::{ladder, pe_of};
use aqueous::solver::Choices;

fn eh(ph: f64, totals: &[(&str, f64)], couple: &str) -> f64 {
    let e = speciate(&Composition {
        temperature_c: 25.0,
        ph: Ph::Given(ph),
        totals: totals.iter().map(|(n, t)| (network().component(n).unwrap(), *t)).collect(),
        alkalinity: None,
        pe: None,
        choices: Choices::default(),
    })
    .unwrap();
    ladder(&e, &|_| false).into_iter().find(|c| c.name == couple).unwrap().eh_mv
}

#[test]
fn couples_stand_where_handbooks_put_them() {
    // Stumm & Morgan 1996, table 8.6 pe°(W) at pH 7, 25 °C (from memory): O2/H2O +13.75 at unit
    // pressure; SO4/HS −3.75; with [ox] = [red] in the couples of NO3/NH4 +6.15. 0.15 pe: I is
    // not zero here and the O2 value holds for the gas at 1 atm (1.26 mmol/kg).
    let near = |got: f64, pe: f64| {
        let got = pe_of(got, 25.0);
        assert!((got - pe).abs() < 0.15, "{got} against {pe}");
    };
    near(eh(7.0, &[("O2", 1.26e-3)], "O2(aq)/H2O"), 13.75);
    // HS− is half of total sulfide at pH 7 (pK1 6.98).
    near(eh(7.0, &[("SO4^2-", 1e-6), ("HS-", 2e-6)], "SO4^2-/HS-"), -3.66);
    near(eh(7.0, &[("NO3-", 1e-6), ("NH4+", 1e-6)], "NO3-/NH4+"), 6.15);
}

#[test]
fn the_couples_of_one_cold_water_disagree() {
    let totals = [("O2", 3e-6), ("SO4^2-", 2e-4), ("HS-", 1e-5), ("NO3-", 1e-5), ("NH4+", 1e-5)];
    let top = eh(7.5, &totals, "O2(aq)/H2O");
    let low = eh(7.5, &totals, "SO4^2-/HS-");
    assert!(top - low > 800.0, "{top} {low}");
}
