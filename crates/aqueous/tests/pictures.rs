//! Values behind the pictures.

use aqueous::equilibrium::{Composition, Equilibrium, Ph, speciate};
use aqueous::network::network;
use aqueous::pictures::{against_ph, columns, piper, stiff};
use aqueous::solver::Choices;

fn water(totals: &[(&str, f64)]) -> Equilibrium {
    speciate(&Composition {
        temperature_c: 10.0,
        ph: Ph::Given(7.4),
        totals: totals.iter().map(|(n, t)| (network().component(n).unwrap(), *t)).collect(),
        alkalinity: None,
        pe: None,
        choices: Choices::default(),
    })
    .unwrap()
}

fn usual() -> Equilibrium {
    water(&[
        ("Ca^2+", 1e-3),
        ("Mg^2+", 5e-4),
        ("Na+", 8e-4),
        ("K+", 2e-4),
        ("Cl-", 5e-4),
        ("SO4^2-", 5e-4),
        ("CO3^2-", 2.7e-3),
        ("Pb^2+", 1e-11),
    ])
}

#[test]
fn corners_of_a_piper_diagram() {
    // Pure calcium sulfate: the cation point at the left corner, the anion point at the top; the
    // diamond's point at its top: half-way between the triangles, √3 (1 + gap/2) high.
    let p = piper(&columns(&water(&[("Ca^2+", 1e-3), ("SO4^2-", 1e-3)]))).unwrap();
    let root3 = 3f64.sqrt();
    assert!(p.cation.0.abs() < 1e-4 && p.cation.1.abs() < 1e-12);
    assert!((p.anion.1 - root3 / 2.0).abs() < 1e-3 && (p.anion.0 - 1.7).abs() < 1e-3);
    assert!((p.diamond.0 - 1.1).abs() < 2e-3 && (p.diamond.1 - 1.1 * root3).abs() < 4e-3, "{p:?}");
    // Sodium chloride: the right corner of the diamond, half-way up.
    let p = piper(&columns(&water(&[("Na+", 1e-3), ("Cl-", 1e-3)]))).unwrap();
    assert!((p.diamond.0 - 1.6).abs() < 2e-3 && (p.diamond.1 - 0.6 * root3).abs() < 4e-3, "{p:?}");
    assert!(piper(&columns(&water(&[("Cl-", 1e-3)]))).is_none());
}

#[test]
fn stiff_and_columns_hold_the_equivalents() {
    let c = columns(&usual());
    let (left, right) = stiff(&c);
    // mmol/kg times 0.9997 kg/L times charge.
    for (got, want) in left.iter().zip([0.9997, 1.9994, 0.9997]) {
        assert!((got - want).abs() < 2e-4, "{left:?}");
    }
    assert!((right[0] - 0.49985).abs() < 1e-4 && (right[2] - 0.9997).abs() < 2e-4);
    let p = piper(&c).unwrap();
    assert!((p.cations_percent.iter().sum::<f64>() - 100.0).abs() < 1e-9);
    assert!((p.anions_percent.iter().sum::<f64>() - 100.0).abs() < 1e-9);
    assert_eq!(c.anions[0].name, "HCO3 + CO3");
}

#[test]
fn shares_against_ph_add_up_and_cross_where_they_should() {
    let e = usual();
    let net = network();
    let d = against_ph(&e, net.component("CO3^2-").unwrap(), (4.0, 11.0), 29).unwrap();
    for k in 0..d.ph.len() {
        let sum: f64 = d.shares.iter().map(|(_, s)| s[k]).sum();
        assert!((sum - 1.0).abs() < 1e-11);
    }
    let share = |name: &str, ph: f64| {
        let k = d.ph.iter().position(|p| (p - ph).abs() < 1e-9).unwrap();
        d.shares.iter().find(|(n, _)| n == name).unwrap().1[k]
    };
    // pK1 at 10 °C is 6.46 (Plummer & Busenberg 1982), 0.03 lower at this ionic strength.
    assert!(share("CO2(aq)", 6.0) > share("HCO3-", 6.0) && share("CO2(aq)", 6.75) < share("HCO3-", 6.75));
    assert!((d.here - 7.4).abs() < 1e-9);
    let lead = against_ph(&e, net.component("Pb^2+").unwrap(), (5.0, 10.0), 11).unwrap();
    assert!(lead.shares.iter().any(|(n, _)| n == "PbCO3(aq)"));
    assert!(against_ph(&e, net.component("Zn^2+").unwrap(), (5.0, 10.0), 11).is_err());
}
