//! Doubt: derivatives against differences, words, intervals.

use aqueous::equilibrium::{Composition, Constants, Ph, solve_in, speciate, system_of};
use aqueous::network::{self, network};
use aqueous::sensitivity::Response;
use aqueous::solver::{Balance, Choices, Equations};
use aqueous::uncertainty::{rows, word};
use aqueous::water::debye_hueckel;
use core::f64::consts::LN_10;
use std::sync::Arc;

fn composition() -> Composition {
    let totals = [
        ("Ca^2+", 2e-3),
        ("Na+", 9e-4),
        ("Mg^2+", 6e-4),
        ("Cl-", 7e-4),
        ("SO4^2-", 4e-4),
        ("HS-", 2e-5),
        ("Fe^2+", 3e-6),
        ("Al^3+", 2e-7),
        ("F-", 2e-5),
        ("Pb^2+", 5e-12),
    ];
    Composition {
        temperature_c: 12.0,
        ph: Ph::Given(7.4),
        totals: totals.iter().map(|(n, t)| (network().component(n).unwrap(), *t)).collect(),
        alkalinity: Some(4.2e-3),
        pe: None,
        choices: Choices::default(),
    }
}

#[test]
fn derivatives_are_those_of_differences() {
    // The gradient goes through the inverse of the Jacobian, so a wrong entry in either shows here.
    let c = composition();
    let e = speciate(&c).unwrap();
    let ln_k = e.system.ln_k(&e.constants.rows);
    let carbon = e.system.position(network().component("CO3^2-").unwrap()).unwrap();
    let balance: Vec<Balance> = (0..e.system.width())
        .map(|at| match at {
            0 => Balance::FixedLnActivity(-7.4 * LN_10),
            at if at == carbon => Balance::Alkalinity(4.2e-3),
            at => Balance::Total(e.totals[at]),
        })
        .collect();
    let base = Equations { system: &e.system, ln_k: &ln_k, dh: debye_hueckel(12.0), balance, held: vec![] };
    let solution = base.solve().unwrap();
    let response = Response::at(&base, &solution).unwrap();
    for target in 1..e.system.width() {
        let g = response.gradient(&[(target, 1.0)]);
        let value = |eq: &Equations| eq.solve().unwrap().x[target];
        let near = |what: String, got: f64, numeric: f64| {
            // Central differences with steps of 1e-4: relative error 1e-8 of curvature, 1e-10 of rounding.
            assert!(
                (got - numeric).abs() < 1e-6 * (1.0 + numeric.abs()),
                "x{target} by {what}: {got} against {numeric}"
            );
        };
        for j in 1..e.system.width() {
            let t = e.totals[j].max(1e-30);
            let scale = if j == carbon { 4.2e-3 } else { t };
            let at = |f: f64| {
                let mut eq = base.clone();
                eq.balance[j] = match eq.balance[j] {
                    Balance::Total(t) => Balance::Total(t * f),
                    Balance::Alkalinity(t) => Balance::Alkalinity(t * f),
                    other => other,
                };
                value(&eq)
            };
            near(format!("total {j}"), g.by_total[j] * scale, (at(1.0001) - at(0.9999)) / 2e-4);
        }
        for i in (0..ln_k.len()).step_by(7) {
            let at = |d: f64| {
                let mut k = ln_k.clone();
                k[i] += d;
                value(&Equations { ln_k: &k, ..base.clone() })
            };
            near(format!("ln K {i}"), g.by_ln_k[i], (at(1e-4) - at(-1e-4)) / 2e-4);
        }
        let at = |d: f64| {
            let mut eq = base.clone();
            eq.balance[0] = Balance::FixedLnActivity(-7.4 * LN_10 + d);
            value(&eq)
        };
        near("ln a(H+)".into(), g.by_fixed[0], (at(1e-4) - at(-1e-4)) / 2e-4);
    }
}

#[test]
fn words() {
    for (low, high, want) in [
        (0.1, 0.5, "over"),
        (-0.5, -0.1, "under"),
        (-0.2, 0.3, "at saturation"),
        (-0.4, 0.4, "cannot tell"),
        (-3.0, 0.05, "cannot tell"),
        (f64::NEG_INFINITY, -0.1, "under"),
        (f64::NEG_INFINITY, 0.1, "cannot tell"),
    ] {
        assert_eq!(word(low, high), want, "{low} {high}");
    }
}

#[test]
fn every_row_has_doubt_and_rivals_are_in_its_form() {
    let d = rows(25.0);
    let table = aqueous::constants::table();
    let of = |name: &str| &d[table.iter().position(|c| c.name == name && c.is_default()).unwrap()];
    // FeS as precipitated, written with HS− (−3.915, a compilation, from memory), is
    // −3.915 + 6.98 = 3.065 in the form of the default row, written with H2S.
    let fes = of("mackinawite");
    assert!(fes.alternatives.iter().any(|r| (r - 3.065).abs() < 0.002), "{:?}", fes.alternatives);
    assert!((of("PbCO3(aq)").u - 0.10).abs() < 1e-12);
    let al = table.iter().position(|c| c.name == "gibbsite crystalline").unwrap();
    assert!(d[al].alternatives.is_empty() && d[al].in_sets.len() == 1, "its rival comes with the aluminium set");
    let cold = rows(5.0);
    // Away from 25 °C an enthalpy's own u comes to it, or that of 15 kJ/mol where there is none.
    let part = |dh: f64| dh / (8.314_462_618e-3 * LN_10) * (1.0 / 278.15 - 1.0 / 298.15);
    for (name, u, u_kj) in [("FeCO3(aq)", 0.05, 8.0), ("ZnOH+", 0.025, 4.0), ("NiHS+", 0.10, 15.0)] {
        let k = table.iter().position(|c| c.name == name && c.is_default()).unwrap();
        assert!((d[k].u - u).abs() < 1e-12, "{name}: {}", d[k].u);
        assert!((cold[k].u - libm::hypot(u, part(u_kj))).abs() < 1e-9, "{name}: {}", cold[k].u);
    }
}

#[test]
fn a_rival_moves_the_answer_by_its_own_difference() {
    let c = composition();
    let e = speciate(&c).unwrap();
    let calcite = network().solids.iter().find(|s| s.name == "calcite").unwrap();
    let row = aqueous::constants::table().iter().position(|r| r.name == "calcite" && r.is_default()).unwrap();
    let mut values = network::row_values(12.0);
    values[row] -= 0.04;
    let system = Arc::new(system_of(&c));
    let other = solve_in(&c, &system, &Arc::new(Constants { temperature_c: 12.0, rows: values }), None).unwrap();
    let moved = other.saturation_index(calcite).unwrap() - e.saturation_index(calcite).unwrap();
    assert!((moved - 0.04).abs() < 1e-10, "{moved}");
}
