//! The solver: 20,000 random waters, extremes, derivatives, laws.

use aqueous::Error;
use aqueous::network::{self, PROTON, network};
use aqueous::random_waters;
use aqueous::solver::{Balance, Choices, Equations, System, TOLERANCE};
use aqueous::water::debye_hueckel;
use rayon::prelude::*;

#[test]
fn twenty_thousand_random_waters() {
    let net = network();
    let failed: Vec<(u64, Error)> = (0..20_000u64)
        .into_par_iter()
        .filter_map(|i| match random_waters::solve(&random_waters::water(net, i)) {
            Ok(s) => {
                assert!(s.residual <= TOLERANCE, "water {i}: {:e}", s.residual);
                assert!(s.ionic_strength > 0.0 && s.molality.iter().all(|m| m.is_finite()));
                None
            }
            Err(e) => Some((i, e)),
        })
        .collect();
    // 99.99 % of 20,000 leaves two.
    assert!(failed.len() <= 2, "{failed:?}");
}

struct Case {
    system: System,
    ln_k: Vec<f64>,
    totals: Vec<(usize, f64)>,
    t_c: f64,
}

fn case(t_c: f64, totals: &[(&str, f64)]) -> Case {
    let net = network();
    let totals: Vec<(usize, f64)> = totals.iter().map(|(n, t)| (net.component(n).unwrap(), *t)).collect();
    let present: Vec<usize> = totals.iter().map(|(c, _)| *c).collect();
    let system = System::new(net, &present, &Choices::default());
    let ln_k = system.ln_k(&network::row_values(t_c));
    Case { system, ln_k, totals, t_c }
}

impl Case {
    fn equations(&self, ph: f64) -> Equations<'_> {
        let mut balance = vec![Balance::FixedLnActivity(-ph * core::f64::consts::LN_10); self.system.width()];
        for (c, t) in &self.totals {
            balance[self.system.position(*c).unwrap()] = Balance::Total(*t);
        }
        Equations { system: &self.system, ln_k: &self.ln_k, dh: debye_hueckel(self.t_c), balance, held: vec![] }
    }
}

#[test]
fn traces_beside_salt_from_ph_2_to_12() {
    // A component of 1e-20 mol/kg beside one of 1e-2, and its own balance still to 1e-12.
    let c = case(
        8.0,
        &[
            ("Na+", 1e-2),
            ("Cl-", 1e-2),
            ("CO3^2-", 4e-3),
            ("Pb^2+", 1e-20),
            ("UO2^2+", 1e-20),
            ("HS-", 1e-20),
            ("Al^3+", 1e-6),
            ("F-", 1e-5),
        ],
    );
    for k in 0..=20 {
        let ph = 2.0 + 0.5 * f64::from(k);
        let s = c.equations(ph).solve().unwrap();
        assert!(s.residual <= TOLERANCE, "pH {ph}: {:e}", s.residual);
        // Written out once more, outside the solver: Σ over species against the total.
        for (j, t) in &c.totals {
            let at = c.system.position(*j).unwrap();
            let sum: f64 = (0..s.molality.len())
                .map(|i| c.system.terms(i).filter(|(x, _)| *x == at).map(|(_, n)| n).sum::<f64>() * s.molality[i])
                .sum();
            assert!((sum / t - 1.0).abs() <= 1e-12, "pH {ph}, component {j}: {sum:e} against {t:e}");
        }
    }
}

#[test]
fn charge_and_ph_are_two_ways_to_one_water() {
    let c = case(
        15.0,
        &[
            ("Ca^2+", 2e-3),
            ("Na+", 1e-3),
            ("CO3^2-", 4e-3),
            ("SO4^2-", 3e-4),
            ("PO4^3-", 1e-5),
            ("NH4+", 2e-5),
            ("HS-", 3e-5),
            ("B(OH)3", 1e-4),
        ],
    );
    for ph in [3.0, 5.0, 6.5, 7.7, 9.0, 11.0] {
        let mut eq = c.equations(ph);
        let a = eq.solve().unwrap();
        let charge: f64 = c.system.charges().iter().zip(&a.molality).map(|(z, m)| z * m).sum();
        eq.balance[PROTON] = Balance::Charge(charge);
        let b = eq.solve().unwrap();
        let found = -b.x[0] / core::f64::consts::LN_10;
        // pH from charge inherits charge's rounding over the buffer intensity.
        assert!((found - ph).abs() < 1e-8, "{found} for {ph}");
        let alkalinity: f64 = c.system.alkalinities().iter().zip(&a.molality).map(|(z, m)| z * m).sum();
        if ph > 4.9 {
            let mut eq = c.equations(ph);
            let at = c.system.position(network().component("CO3^2-").unwrap()).unwrap();
            eq.balance[at] = Balance::Alkalinity(alkalinity);
            let b = eq.solve().unwrap();
            assert!((b.x[at] - a.x[at]).abs() < 1e-8, "carbonate from alkalinity at pH {ph}");
        }
    }
}

#[test]
fn a_wrong_total_is_named() {
    let c = case(25.0, &[("Na+", 1e-3), ("Cl-", 1e-3)]);
    let mut eq = c.equations(7.0);
    eq.balance[1] = Balance::Total(-1e-3);
    let e = eq.solve().unwrap_err();
    assert!(e.to_string().contains("total Na") || e.to_string().contains("total Cl"), "{e}");
    assert!(matches!(e, Error::OutOfRange { .. }));
}

#[test]
fn ions_that_no_ph_balances_are_named() {
    let c = case(25.0, &[("Na+", 0.3)]);
    let mut eq = c.equations(7.0);
    // 0.3 mol/kg of sodium with an excess of 5 eq/kg asked for.
    eq.balance[PROTON] = Balance::Charge(5.0);
    let e = eq.solve().unwrap_err();
    assert!(e.to_string().contains("charge balance"), "{e}");
}
