//! Laws of what can be done to a water.

use aqueous::equilibrium::{Composition, Equilibrium, Hold, Ph, speciate};
use aqueous::network::network;
use aqueous::solver::Choices;
use proptest::prelude::*;

fn water(t_c: f64, ph: f64, totals: &[(&str, f64)]) -> Equilibrium {
    speciate(&Composition {
        temperature_c: t_c,
        ph: Ph::Given(ph),
        totals: totals.iter().map(|(n, t)| (network().component(n).unwrap(), *t)).collect(),
        alkalinity: None,
        pe: None,
        choices: Choices::default(),
    })
    .unwrap()
}

fn hard(t: f64) -> Equilibrium {
    water(
        t,
        7.3,
        &[
            ("Ca^2+", 2.4e-3),
            ("Mg^2+", 8e-4),
            ("Na+", 1e-3),
            ("K+", 6e-5),
            ("Cl-", 7e-4),
            ("SO4^2-", 4e-4),
            ("CO3^2-", 6.4e-3),
            ("H4SiO4", 3e-4),
            ("Fe^2+", 3e-6),
        ],
    )
}

fn soft(t: f64) -> Equilibrium {
    water(
        t,
        6.1,
        &[
            ("Ca^2+", 1.2e-4),
            ("Mg^2+", 6e-5),
            ("Na+", 3e-4),
            ("Cl-", 2.5e-4),
            ("SO4^2-", 8e-5),
            ("CO3^2-", 6e-4),
            ("HS-", 1e-6),
        ],
    )
}

fn same(a: &Equilibrium, b: &Equilibrium, tolerance: f64) {
    assert!((a.ph() - b.ph()).abs() <= tolerance, "pH {} and {}", a.ph(), b.ph());
    for (s, m) in a.system.species.iter().zip(&a.solution.molality) {
        let n = b.molality(&s.name);
        assert!((m - n).abs() <= tolerance * m.max(1e-15), "{}: {m:e} and {n:e}", s.name);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn mixing_is_commutative(share in 0.0f64..1.0, t1 in 1.0f64..30.0, t2 in 1.0f64..30.0) {
        let (a, b) = (hard(t1), soft(t2));
        let one = a.mixed_with(&b, share).unwrap();
        let two = b.mixed_with(&a, 1.0 - share).unwrap();
        // 1 − (1 − share) rounds: totals agree to 1e-15, pH to that over the buffer intensity.
        same(&one, &two, 1e-7);
    }

    #[test]
    fn acid_and_base_cancel(acid in 1e-5f64..2e-3) {
        let a = hard(12.0);
        let b = a.with_acid(acid).unwrap();
        prop_assert!(b.ph() < a.ph());
        let c = b.with_acid(-acid).unwrap();
        // NaCl stays behind: pH comes back but for its ionic strength.
        prop_assert!((c.ph() - a.ph()).abs() < 0.03 && (c.alkalinity() - a.alkalinity()).abs() < 1e-9);
    }

    #[test]
    fn mass_and_charge_are_conserved(t in 1.0f64..39.0, co2 in -4.0f64..-1.0) {
        let a = hard(10.0);
        let b = a.at_temperature(t).unwrap().equilibrate(&[Hold::plenty("CO2", co2), Hold::plenty("calcite", 0.0)]).unwrap();
        let ca = network().component("Ca^2+").unwrap();
        let c = network().component("CO3^2-").unwrap();
        let (gas, solid) = (b.transfers[0].1, b.transfers[1].1);
        prop_assert!((b.total(ca) - a.total(ca) - solid).abs() < 1e-14);
        prop_assert!((b.total(c) - a.total(c) - solid - gas).abs() < 1e-13);
        let charge: f64 = b.system.charges().iter().zip(&b.solution.molality).map(|(z, m)| z * m).sum();
        prop_assert!((charge - a.charge).abs() < 1e-13, "{charge:e} {:e}", a.charge);
    }
}

#[test]
fn equilibrating_twice_changes_nothing() {
    let holds = [Hold::plenty("CO2", -2.0), Hold::plenty("calcite", 0.0), Hold::plenty("quartz", 0.0)];
    let once = hard(11.0).equilibrate(&holds).unwrap();
    let twice = once.equilibrate(&holds).unwrap();
    same(&once, &twice, 1e-9);
    for (name, n) in &twice.transfers {
        assert!(n.abs() < 1e-12, "{name} moved again: {n:e}");
    }
}

#[test]
fn going_and_coming_back_in_temperature_changes_nothing() {
    let a = hard(9.0);
    let b = a.at_temperature(31.0).unwrap();
    assert!((a.ph() - b.ph()).abs() > 0.02, "pH moves with temperature");
    same(&a, &b.at_temperature(9.0).unwrap(), 1e-8);
}

#[test]
fn phases_run_out_and_appear() {
    let a = soft(15.0);
    let si = |e: &Equilibrium, name: &str| {
        let s = network().solids.iter().find(|s| s.name == name).unwrap();
        e.saturation_index(s).unwrap()
    };
    assert!(si(&a, "calcite") < -1.0);
    // A little calcite runs out: all of it dissolves, the water stays under.
    let little = Hold { name: "calcite".into(), target: 0.0, available_mol_kg: 5e-5 };
    let b = a.equilibrate(&[little]).unwrap();
    assert!((b.transfers[0].1 - 5e-5).abs() < 1e-18 && si(&b, "calcite") < 0.0);
    // A phase that may only form stays away from a water that is under.
    let none = Hold { name: "calcite".into(), target: 0.0, available_mol_kg: 0.0 };
    let c = a.equilibrate(std::slice::from_ref(&none)).unwrap();
    assert!(c.transfers[0].1.abs() < 1e-300, "nothing passed over");
    // Once CO2 leaves, it appears.
    let d = hard(15.0).equilibrate(&[Hold::plenty("CO2", -3.4), none]).unwrap();
    assert!(d.transfers[1].1 < -1e-4 && si(&d, "calcite").abs() < 1e-9, "{:?}", d.transfers);
    // Of calcite and aragonite only the more stable stays; the other's supply dissolves.
    let both = [Hold::plenty("aragonite", 0.0), Hold::plenty("calcite", 0.0)];
    let e = a.equilibrate(&both).unwrap();
    assert!(si(&e, "calcite").abs() < 1e-9 && si(&e, "aragonite") < -0.1);
}

#[test]
fn solids_that_may_only_form_leave_nothing_over() {
    // 300 random waters; ten solids without supply. At the end every solid is either there (it
    // took something up, and its index is 0) or absent and not over.
    let net = network();
    let names = [
        "calcite",
        "aragonite",
        "dolomite disordered",
        "gypsum",
        "barite",
        "chalcedony",
        "gibbsite crystalline",
        "ferrihydrite",
        "fluorite",
        "cerussite",
    ];
    let holds: Vec<Hold> =
        names.iter().map(|n| Hold { name: (*n).into(), target: 0.0, available_mol_kg: 0.0 }).collect();
    let mut formed = 0;
    for i in 0..300 {
        let t = aqueous::random_waters::water(net, i);
        let c = Composition {
            temperature_c: t.t_c,
            ph: Ph::Given(t.ph.clamp(3.0, 11.0)),
            totals: t.totals,
            alkalinity: None,
            pe: None,
            choices: Choices::default(),
        };
        let before = speciate(&c).unwrap();
        let after = before.equilibrate(&holds).unwrap();
        for (name, moles) in &after.transfers {
            let solid = net.solids.iter().find(|s| s.name == *name).unwrap();
            let si = after.saturation_index(solid).unwrap_or(f64::NEG_INFINITY);
            assert!(*moles <= 0.0, "water {i}: {name} dissolved {moles:e} that was not there");
            assert!(si < 1e-8, "water {i}: {name} is left over at {si}");
            assert!(moles.abs() < 1e-300 || si.abs() < 1e-8, "water {i}: {name} {moles:e} {si}");
            formed += usize::from(*moles < 0.0);
        }
        // What left the water stands in the solids.
        for (at, component) in after.system.components.iter().enumerate().skip(1) {
            let taken: f64 = after
                .transfers
                .iter()
                .map(|(n, m)| net.solids.iter().find(|s| s.name == *n).unwrap().count(*component) * m)
                .sum();
            let start = before.total(*component);
            assert!((after.totals[at] - start - taken).abs() <= 1e-11 * (start + taken.abs()), "water {i}");
        }
    }
    // The set is fixed; enough solids must form for the laws above to mean something.
    assert!(formed > 200, "{formed} solids formed");
}
