//! The overflow mixed into its stream, and a well that had been shut, on the invented trip. The figures are
//! worked out here by hand from the raw files: a mass balance, and flow × time / volume.

use crate::demo_common;

use aquifer::mixing::measured;
use assessment::field_checks::FieldChecks;
use assessment::overflow;
use assessment::results;
use assessment::verdict::Rules;
use demo_common::record;
use quantity::{Check, Outcome};
use record::store::{Filter, Store};
use simulator::{Purpose, Trip};

/// The demo's record with its field readings altered.
fn demo(dir: &std::path::Path, readings: impl Fn(String) -> String) -> Store {
    record(dir, &Trip::new(2611, Purpose::Demo), |name, text| {
        Some(if name == "field-readings.csv" { readings(text) } else { text })
    })
}

#[test]
fn the_ditch_below_is_the_mass_balance_of_all_that_runs_in() {
    let dir = tempfile::tempdir().unwrap();
    let store = demo(dir.path(), |text| text);
    let all = results::all(&store).unwrap();
    let found = overflow::overflows(&store, &all).unwrap();
    assert_eq!(found.len(), 1, "one stream, one trip");
    let o = &found[0];
    assert!(o.lacking.is_empty(), "{:?}", o.lacking);
    let below = o.below.as_ref().unwrap();
    // 14 L/s by float; fills of 10 L and 2 L: litres over the mean of the seconds.
    let q = [14.0, 10.0 / 50.125, 10.0 / 25.05, 2.0 / 92.425];
    let total: f64 = q.iter().sum();
    for ((name, share), q) in below.shares.iter().zip(q) {
        // The timed flow is a mean of four fills, not litres over mean seconds: they differ by (s/t)²/4.
        assert!((share.value().unwrap() - q / total).abs() < 1e-4 * q / total, "{name}: {share:?}");
    }
    let wells = o.wells_share().unwrap();
    assert!((wells.value().unwrap() - (1.0 - q[0] / total)).abs() < 1e-4, "{wells:?}");
    let chloride = below.values.iter().find(|(n, _)| n == "Cl").and_then(|(_, m)| measured(m)).unwrap();
    let by_hand = (q[0] * 72.0 + q[1] * 19.0 + q[2] * 17.5 + q[3] * 21.0) / total;
    assert!((chloride.value - by_hand).abs() < 1e-3, "{} and {by_hand}", chloride.value);
    // Nitrate is below its limit in the wells: a range, never a number.
    let nitrate = below.values.iter().find(|(n, _)| n == "NO3").unwrap();
    assert!(measured(&nitrate.1).is_none(), "{nitrate:?}");
    assert!(below.values.iter().all(|(n, _)| n != "pH"), "pH does not mix by amounts");
}

#[test]
fn a_stream_whose_flow_nobody_read_gives_no_mixture() {
    let dir = tempfile::tempdir().unwrap();
    let store = demo(dir.path(), |text| {
        text.lines()
            .filter(|l| !l.contains("Heron Drain,2026-07-14 08:45,flow"))
            .fold(String::new(), |t, l| t + l + "\n")
    });
    let all = results::all(&store).unwrap();
    let o = &overflow::overflows(&store, &all).unwrap()[0];
    assert!(o.below.is_none() && o.lacking[0].is::<message::overflow::FlowNotRead>(), "{:?}", o.lacking);
}

#[test]
fn bottles_of_a_well_that_had_been_shut_say_how_often_it_was_renewed() {
    let dir = tempfile::tempdir().unwrap();
    let shut = "SL-2026-07,SL-2,2026-07-14 09:00,valve,0,,1\nSL-2026-07,SL-2,2026-07-14 12:00,valve,1,,1\n";
    let store = demo(dir.path(), |text| text + shut);
    let rules = Rules::new(store.check_rules().unwrap());
    let trip = store.trips().unwrap()[0].id;
    let evidence = FieldChecks::of(&store, trip, &rules).unwrap();
    let bottles = store.bottles(&Filter::all()).unwrap();
    let bottle = bottles.iter().find(|b| b.label == "SL2-26-07-A").unwrap();
    let well = evidence.well(bottle.well_id.unwrap()).unwrap();
    let found = evidence.findings(bottle, None, &rules);
    let renewed = found.iter().find(|f| f.check == Check::WellRenewed).unwrap();
    // Opened at 12:00, filled at 12:10: 10 min × 10 L / 25.05 s, over the volume of casing and screen.
    let volumes = 10.0 * 600.0 / 25.05 / (1000.0 * well.held.as_ref().unwrap().volume_m3);
    assert!(volumes < 3.0 && renewed.outcome == Outcome::NotMet, "{volumes} {renewed:?}");
    let told: f64 = renewed.sentence.split(' ').find_map(|w| w.parse().ok()).unwrap();
    assert!((told - volumes).abs() < 0.006 * volumes, "three digits: {told} and {volumes}");
    // The other wells flow always: nothing to say.
    let other = bottles.iter().find(|b| b.label == "SL3-26-07-A").unwrap();
    assert!(evidence.findings(other, None, &rules).iter().all(|f| f.check != Check::WellRenewed));
}
