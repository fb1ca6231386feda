//! H2S in water and air.

use aqueous::equilibrium::{Composition, Equilibrium, Ph, speciate};
use aqueous::network::network;
use aqueous::odour::{HouseAir, Reach, SulfideUncertainty, WellHouse, house_air, odour, open_bottle, thresholds};
use aqueous::solver::Choices;

fn water(t_c: f64, ph: f64, sulfide: f64) -> Equilibrium {
    let totals = [("Ca^2+", 1.2e-3), ("CO3^2-", 3e-3), ("HS-", sulfide)];
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
    let air = |flow_l_min: f64, air_changes_per_h: f64| {
        house_air(&e, &SulfideUncertainty::default(), &WellHouse { flow_l_min, volume_m3: 10.0, air_changes_per_h })
    };
    let (closed, aired) = (air(30.0, 0.0).unwrap().unwrap(), air(30.0, 10.0).unwrap().unwrap());
    assert!(closed.at_rest_ppm > aired.at_rest_ppm);
    assert!((closed.at_rest_ppm - closed.highest_ppm).abs() < 1e-9);
    // 30 L/min of 10 µmol/L is 300 µmol/min in 10 m³ of air (23.2 L/mol at 10 °C): 0.697 ppm a
    // minute, so 1 ppm (ACGIH TLV-TWA) after 1.44 min.
    let tlv = closed.limits.iter().find(|l| l.level == "TLV-TWA").unwrap();
    assert!((tlv.minutes.unwrap() - 1.44).abs() < 0.02, "{tlv:?}");
    assert!(air(-1.0, 0.0).is_err());
    // Without sulfide looked for nothing is said of the air, "not reached" least of all.
    let house = WellHouse { flow_l_min: 30.0, volume_m3: 10.0, air_changes_per_h: 0.0 };
    assert_eq!(house_air(&water(10.0, 7.2, 0.0), &SulfideUncertainty::default(), &house).unwrap(), None);
}

/// What nothing is beyond: all sulfide as H2S, the water warm, two u more.
#[test]
fn the_ceiling_has_its_doubt_and_its_assumptions() {
    let house = WellHouse { flow_l_min: 30.0, volume_m3: 10.0, air_changes_per_h: 0.0 };
    let air = |t_c: f64, ph: f64, doubt: SulfideUncertainty| {
        house_air(&water(t_c, ph, 1e-5), &doubt, &house).unwrap().unwrap()
    };
    let sure = SulfideUncertainty::default();
    // In acid all of it is H2S already.
    let acid = air(10.0, 4.0, sure);
    assert!((acid.all_as_h2s_ppm / acid.ceiling_ppm - 1.0).abs() < 0.01, "{acid:?}");
    // Henry's constant of H2S rises as exp(2100 K·(1/T − 1/298.15 K)) in the cold (Sander 2023, from memory): 10 to
    // 25 °C is a factor 1.45; 48 % from 9.3 °C on. A hundredth for the rounding of −17.5 kJ/mol and 2100 K.
    let rises = (2100.0f64 * (1.0 / 283.15 - 1.0 / 298.15)).exp();
    assert!((acid.warm_ppm / acid.all_as_h2s_ppm / rises - 1.0).abs() < 0.01, "{acid:?} {rises}");
    let cold = air(9.0, 7.6, sure);
    assert!(cold.ceiling_ppm < cold.all_as_h2s_ppm && cold.all_as_h2s_ppm < cold.warm_ppm);
    assert!(cold.warm_ppm < cold.highest_ppm, "the constant has a u of its own");
    // A water warmer than that stays as it is.
    let hot = air(35.0, 7.6, sure);
    assert!((hot.warm_ppm / hot.all_as_h2s_ppm - 1.0).abs() < 1e-12);
    // A tenth of u on the sulfide: at least two tenths more at the end, and earlier by as much.
    let doubtful = air(9.0, 7.6, SulfideUncertainty { relative_u: 0.1, u_log_p: 0.05, upper_bound: false });
    // Independent parts on the logarithm: two u of the constant alone, then with those of the sulfide.
    let two_u = |air: &HouseAir| (air.highest_ppm / air.warm_ppm).ln();
    assert!((two_u(&doubtful) - two_u(&cold).hypot(0.2)).abs() < 1e-12);
    assert!((doubtful.u_ceiling_ppm / doubtful.ceiling_ppm - 0.05 * std::f64::consts::LN_10).abs() < 1e-12);
    for (l, m) in doubtful.limits.iter().zip(&cold.limits) {
        // Never said of a limit under all that the water may bring; always with the earliest time where not.
        assert_eq!(l.reach == Reach::NotByThis, l.ppm >= doubtful.highest_ppm, "{l:?}");
        assert_eq!(l.minutes.is_none(), l.reach == Reach::NotByThis);
        if let (Some(early), Some(late)) = (l.minutes, m.minutes) {
            assert!(early < late);
        }
        // Sure only under what two u less would bring over the water as it is.
        let least = doubtful.ceiling_ppm / 10f64.powf(0.1);
        assert_eq!(l.reach == Reach::Reached, l.ppm < least, "{l:?}");
    }
    assert!(doubtful.limits.iter().any(|l| l.reach == Reach::CannotTell));
    // Not detected: nothing is sure to be reached.
    let bound = air(9.0, 7.6, SulfideUncertainty { upper_bound: true, ..sure });
    assert!(bound.limits.iter().all(|l| l.reach != Reach::Reached));
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
    let limits = house_air(&water(10.0, 7.2, 1e-5), &SulfideUncertainty::default(), &house).unwrap().unwrap().limits;
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
