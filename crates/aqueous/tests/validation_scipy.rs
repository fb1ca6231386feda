//! The equations solved by a general-purpose library.
//!
//! `data/scipy_waters.csv` was made with Python 3 and scipy 1.17.1 (scipy.optimize.root, hybr,
//! analytic Jacobian) by `bench/speciation/peers.py PROBLEM.json 200 100 scipy_waters.csv` on the
//! problem that `time_speciation` writes: 10 °C, one water a line: pH, total of each of the 20
//! components in mol/kg, then ln a of each and ln I as scipy found them.

use aqueous::network::{self, network};
use aqueous::solver::{Balance, Choices, Equations, System};
use aqueous::water::debye_hueckel;
use core::f64::consts::LN_10;

#[test]
fn scipy_finds_the_same_waters() {
    let net = network();
    let names = [
        "Ca^2+", "Mg^2+", "Na+", "K+", "Cl-", "SO4^2-", "CO3^2-", "H4SiO4", "F-", "HS-", "PO4^3-", "Sr^2+", "Ba^2+",
        "Fe^2+", "Mn^2+", "Al^3+", "Pb^2+", "Zn^2+", "Fe^3+", "NO3-",
    ];
    let present: Vec<usize> = names.iter().map(|n| net.component(n).unwrap()).collect();
    let system = System::new(net, &present, &Choices::default());
    let ln_k = system.ln_k(&network::row_values(10.0));
    let mut lines = 0;
    for line in include_str!("data/scipy_waters.csv").lines() {
        let v: Vec<f64> = line.split(',').map(|x| x.parse().unwrap()).collect();
        let (ph, totals, want) = (v[0], &v[1..21], &v[21..]);
        let mut balance = vec![Balance::FixedLnActivity(-ph * LN_10)];
        balance.extend(totals.iter().map(|t| Balance::Total(*t)));
        let s =
            Equations { system: &system, ln_k: &ln_k, dh: debye_hueckel(10.0), balance, held: vec![] }.solve().unwrap();
        for (x, w) in s.x[1..].iter().zip(want) {
            // Both stop at 1e-12 in the sums; a condition number up to 1e2 lies between.
            assert!((x - w).abs() < 1e-10, "{x} {w}");
        }
        assert!((libm::log(s.ionic_strength) - want[20]).abs() < 1e-10);
        lines += 1;
    }
    assert_eq!(lines, 12);
}
