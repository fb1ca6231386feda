//! The network that the table makes: laws that every reaction must obey.

use aqueous::constants;
use aqueous::network::{ELECTRON, network};

#[test]
fn every_reaction_conserves_charge() {
    let net = network();
    let all =
        net.species.iter().chain(&net.solids).chain(&net.alternative_solids).chain(&net.gases).chain(&net.couples);
    for e in all {
        let charge: f64 = e.terms.iter().map(|(c, n)| n * f64::from(net.components[*c].charge)).sum();
        assert!(
            (charge - f64::from(e.charge)).abs() < 1e-9,
            "{} has charge {} but is made of {charge}",
            e.name,
            e.charge
        );
    }
}

#[test]
fn components_and_species_stand_where_they_should() {
    let net = network();
    assert!(net.components.len() >= 35 && net.species.len() >= 170, "{} {}", net.components.len(), net.species.len());
    for (i, c) in net.components.iter().enumerate() {
        assert_eq!(net.species[i].terms, vec![(i, 1.0)], "{}", c.name);
    }
    let co2 = &net.species[net.species_named("CO2(aq)").unwrap()];
    let carbon = net.component("CO3^2-").unwrap();
    assert_eq!(co2.terms, vec![(0, 2.0), (carbon, 1.0)]);
    // Only H+ and e- may be taken away: the mole balances stay sums of positive terms.
    for s in &net.species {
        for (c, n) in &s.terms {
            assert!(*n > 0.0 || *c <= ELECTRON, "{} holds {n} of {}", s.name, net.components[*c].name);
        }
    }
    // No S^2- species: the second dissociation lies beyond pK 17.
    assert!(net.species_named("S^2-").is_none());
}

#[test]
fn solids_dissolve_to_what_their_formula_holds() {
    let net = network();
    let get = |n: &str| net.solids.iter().find(|s| s.name == n).unwrap();
    let c = |n: &str| net.component(n).unwrap();
    let (pb, hs) = (c("Pb^2+"), c("HS-"));
    let galena = get("galena");
    assert_eq!((galena.count(pb), galena.count(hs), galena.count(0)), (1.0, 1.0, -1.0));
    // PbCO3 is a solid and a dissolved species of one spelling.
    assert_eq!(
        get("cerussite").terms,
        vec![(c("CO3^2-"), 1.0), (pb, 1.0)]
            .into_iter()
            .collect::<std::collections::BTreeMap<_, _>>()
            .into_iter()
            .collect::<Vec<_>>()
    );
    // ZnCO3 + 2 H+ = Zn^2+ + CO2(g) + H2O is the same as ZnCO3 = Zn^2+ + CO3^2-: 7.25 less 18.15 by these carbonate
    // constants (1.468 + 6.352 + 10.329), by hand.
    let zn = get("smithsonite");
    let k = zn.log_k(&aqueous::network::row_values(25.0));
    assert!((k + 10.90).abs() < 0.01, "{k}");
}

#[test]
fn half_reactions_are_written_with_electrons() {
    let net = network();
    for (name, electrons) in [("As(V)/As(III)", 2.0), ("O2(aq)/H2O", 4.0), ("SO4^2-/HS-", 8.0), ("NO3-/NH4+", 8.0)] {
        let c = net.couples.iter().find(|c| c.name == name).unwrap();
        assert!((c.count(ELECTRON) + electrons).abs() < 1e-12, "{name}");
    }
    // H3AsO4 + 2 H+ + 2 e- = H3AsO3 + H2O: E° 0.56 V, log K 18.9 (handbooks, from memory).
    let c = net.couples.iter().find(|c| c.name == "As(V)/As(III)").unwrap();
    let rows = aqueous::network::row_values(25.0);
    let h3aso4 = &net.species[net.species_named("H3AsO4(aq)").unwrap()];
    let k = c.log_k(&rows) - h3aso4.log_k(&rows);
    assert!((k - 18.9).abs() < 0.7, "{k}");
    assert!(constants::table().len() > 250);
}
