//! H2S in water and air.

use aqueous::equilibrium::{Composition, Equilibrium, Ph, speciate};
use aqueous::network::network;
use aqueous::odour::{WellHouse, house_air, odour, open_bottle, thresholds};
use aqueous::solver::Choices;

fn water(t_c: f64, ph: f64, sulfide: f64) -> Equilibrium {
    let totals = [("Ca++", 1.2e-3), ("CO3--", 3e-3), ("HS-", sulfide)];
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

#[test]
fn half_of_the_sulfide_is_gas_at_the_first_pk() {
    // Millero, Plese & Fernandez 1988 (seen): pK1 6.98 at 25 °C and zero ionic strength; here at
    // 5 mmol/kg, which moves the half-way pH down by 0.03.
    let s = odour(&water(25.0, 6.95, 1e-5)).unwrap();
    assert!((s.h2s_share - 0.5).abs() < 0.02, "{}", s.h2s_share);
}

#[test]
fn thresholds_differ_a_thousandfold_and_all_are_shown() {
    let s = odour(&water(10.0, 7.5, 3e-6)).unwrap();
    assert_eq!(s.times.len(), thresholds().len());
    let water: Vec<f64> = s.times.iter().filter(|(t, _)| t.medium == "water").map(|(t, _)| t.threshold).collect();
    assert!(water[1] / water[0] > 1000.0);
    assert!(s.times.iter().all(|(t, _)| !t.source.is_empty() && t.provenance == "memory"));
    assert!(odour(&self::water(10.0, 7.5, 0.0)).is_none());
}

#[test]
fn air_over_the_water() {
    // Henry: H2S 0.1 mol/(kg atm) at 25 °C (Sander 2023, from memory), so 1 µmol/kg of H2S(aq)
    // stands under 10 ppm; 5 % for the second digit of the constant.
    let e = water(25.0, 5.0, 1e-6);
    let s = odour(&e).unwrap();
    assert!((s.air_ppm / (e.molality("H2S(aq)") * 1e6 * 10.0) - 1.0).abs() < 0.05, "{}", s.air_ppm);
}

#[test]
fn a_closed_house_fills_and_an_aired_one_comes_to_rest() {
    let e = water(10.0, 7.2, 1e-5);
    let closed = house_air(&e, &WellHouse { flow_l_min: 30.0, volume_m3: 10.0, air_changes_per_h: 0.0 }).unwrap();
    let aired = house_air(&e, &WellHouse { flow_l_min: 30.0, volume_m3: 10.0, air_changes_per_h: 10.0 }).unwrap();
    assert!(closed.at_rest_ppm > aired.at_rest_ppm);
    assert!((closed.at_rest_ppm - closed.ceiling_ppm).abs() < 1e-9);
    // 30 L/min of 10 µmol/L is 300 µmol/min in 10 m³ of air (23.2 L/mol at 10 °C): 0.697 ppm a
    // minute, so 1 ppm (ACGIH TLV-TWA) after 1.44 min.
    let tlv = closed.limits.iter().find(|l| l.level == "TLV-TWA").unwrap();
    assert!((tlv.minutes.unwrap() - 1.44).abs() < 0.02, "{tlv:?}");
    assert!(house_air(&e, &WellHouse { flow_l_min: -1.0, volume_m3: 10.0, air_changes_per_h: 0.0 }).is_err());
}

#[test]
fn an_open_bottle_turns_alkaline_and_loses_its_smell() {
    let e = water(10.0, 7.2, 1e-5);
    let b = open_bottle(&e).unwrap();
    assert!(b.ph_after > b.ph_before && b.co2_leaves_mmol_l > 0.0);
    assert!(b.calcite.1 > b.calcite.0);
    let (likely, short, long) = b.half_time_h.unwrap();
    // Hours to days.
    assert!(short > 5.0 && long < 1000.0 && short < likely && likely < long, "{short} {long}");
    // Two O2 a sulfide: 10 µmol/kg take 0.64 mg/L.
    assert!((b.oxygen_mg_l - 0.64).abs() < 0.01, "{}", b.oxygen_mg_l);
}

#[test]
fn limits_named_by_words_are_rows_of_the_table() {
    let house = WellHouse { flow_l_min: 30.0, volume_m3: 10.0, air_changes_per_h: 0.0 };
    let limits = house_air(&water(10.0, 7.2, 1e-5), &house).unwrap().limits;
    let named =
        limits.iter().filter(|l| message::Message::named("air_limit", &format!("{} {}", l.body, l.level)).is_some());
    let declared = message::DECLARED.iter().filter(|(id, _)| id.starts_with("air_limit-"));
    assert_eq!(named.count(), declared.count());
}

/// Millero, Plese & Fernandez 1988 (L&O 33:269): pK1 = −98.080 + 5765.4/T + 15.0455·ln T, so 6.980 at 25 °C and 7.228 at 10 °C;
/// share 1/(1 + 10^(pH − pK1)), worked out beside with Python.
#[test]
fn the_undissociated_share_follows_from_ph_and_temperature() {
    for (ph, t, share) in [(6.98, 25.0, 0.5), (7.5, 10.0, 0.348_41), (9.0, 10.0, 0.016_63)] {
        let found = aqueous::odour::undissociated_share(ph, t).unwrap();
        // The table has the same fit as base-10 coefficients to five digits.
        assert!((found - share).abs() < 2e-3 * share + 1e-3, "{ph} {t}: {found}");
    }
    assert!(aqueous::odour::undissociated_share(7.0, 900.0).is_err());
}
