//! The invented wells against what they were made with: the scenario's head, transmissivity, steadiness.
//!
//! The truth stands beside the raw files in the simulator: head 4.6 m above ground at SL-1, T = 1.09e-4 m²/s, flows
//! that scatter by 1 %. Expected numbers here are that truth or sums done by hand, as said beside each.

use crate::demo_common;

use assessment::wells::{self, Input, WellSheet};
use assessment::{field_checks::FieldChecks, verdict::Rules};
use demo_common::record;
use message::Message;
use quantity::{Check, Outcome};
use record::store::Store;
use simulator::{Purpose, Trip};
use std::path::Path;

/// The demo's record without its run, with one of its raw files changed.
fn changed(dir: &Path, change: impl Fn(&str, String) -> String) -> Store {
    record(dir, &Trip::new(2611, Purpose::Demo), |name, text| {
        (!matches!(name, "run-counts.csv" | "run-sequence.csv")).then(|| change(name, text))
    })
}

fn sheets(change: impl Fn(&str, String) -> String) -> Vec<WellSheet> {
    let dir = tempfile::tempdir().unwrap();
    wells::sheets(&changed(dir.path(), change)).unwrap()
}

/// SL-1 with a line of the field readings changed: what the record then lacks.
#[track_caller]
fn lacking(from: &str, to: &str, says: &str) {
    let s = sheets(|name, text| {
        if name == "field-readings.csv" {
            assert!(text.contains(from), "{from}");
            text.replace(from, to)
        } else {
            text
        }
    });
    let all = s[0].visits[0].lacking.iter().map(Message::in_english).collect::<Vec<_>>().join("\n");
    assert!(all.contains(says), "expected \"{says}\" in:\n{all}");
}

#[test]
fn head_and_transmissivity_are_those_of_the_scenario() {
    let all = sheets(|_, text| text);
    let v = &all[0].visits[0];
    // By hand: 0.60 m + 0.39e5 Pa/(999.7 kg/m³ · 9.80665 m/s²) = 4.578 m; the scenario's 4.6 m is within the gauge.
    let head = v.head.as_ref().unwrap().above_ground.value().unwrap();
    assert!((head - 4.578).abs() < 0.002, "{head}");
    let t = v.test.as_ref().unwrap();
    assert_eq!(t.input.series.len(), 9);
    assert!((t.input.drawdown_m - (head - 0.70)).abs() < 1e-9);
    let (low, high) = t.fit.transmissivity_m2_s.interval_95;
    assert!(low < 1.09e-4 && 1.09e-4 < high, "{low} to {high}");
    assert!(t.fit.model.holds, "{}", t.fit.model.sentence);
}

#[test]
fn travel_time_says_what_is_measured_and_what_is_textbook() {
    let all = sheets(|_, text| text);
    let t = all[0].visits[0].travel.as_ref().expect("the inputs are on record");
    let measured: Vec<&str> = t.inputs.iter().filter(|i| i.is_measured()).map(|i| i.name).collect();
    assert_eq!(measured, ["distance", "gradient", "hydraulic conductivity"]);
    let book: Vec<&Input> = t.inputs.iter().filter(|i| !i.is_measured()).collect();
    assert!(book.len() == 1 && book[0].origin.in_english().contains("Freeze & Cherry 1979"), "{book:?}");
    // By hand: i = (38 − 3.1 − 4.578)/9500 = 3.19e-3; K = T/13 m; n = 0.05 to 0.30, so that
    // t = 9500·n/(K·i) is 600 to 3600 years at T = 1.09e-4 m²/s; u of T and distance widen it a little.
    let p = &t.years.percentiles;
    assert!(p.low_95 > 350.0 && p.high_95 < 6000.0 && p.low_95 < 900.0 && p.high_95 > 2800.0, "{p:?}");
    assert!(t.capture.is_some());
    let lacking = &all[1].visits[0].lacking;
    assert!(lacking.iter().any(Message::is::<message::well::HeadWithoutPressure>), "{lacking:?}");
}

#[test]
fn steady_by_which_rule_and_since_when() {
    let dir = tempfile::tempdir().unwrap();
    let store = changed(dir.path(), |_, text| text);
    let rules = Rules::new(store.check_rules().unwrap());
    let trip = store.trips().unwrap()[0].id;
    let evidence = FieldChecks::of(&store, trip, &rules).unwrap();
    let finding = |name: &str| {
        let id = store.wells().unwrap().into_iter().find(|w| w.name == name).unwrap().id;
        let w = evidence.well(id).unwrap();
        w.findings.iter().find(|f| f.check == Check::WellSteady).unwrap().clone()
    };
    assert_eq!(finding("SL-1").outcome, Outcome::Met, "{}", finding("SL-1").sentence);
    assert!(finding("SL-1").sentence.contains("2026-07-14 09:02"), "{}", finding("SL-1").sentence);
    assert_eq!(finding("SL-2").outcome, Outcome::Met);
    // 11.2 to 12.3 °C: half a degree and more from the mean, the rule allows 0.2.
    let slow = finding("SL-3");
    assert_eq!(slow.outcome, Outcome::NotMet);
    assert!(slow.sentence.contains("temperature") && slow.sentence.contains("USGS"), "{}", slow.sentence);
}

#[test]
fn what_is_missing_or_cannot_be_is_named_and_the_rest_goes_on() {
    lacking("gauge height,0.60", "depth of gauge,0.60", "not how high the gauge stood");
    lacking("outlet height,0.70", "outlet width,0.70", "height of the outlet is not on record");
    lacking("valve,1", "valve,0", "when the valve was opened");
    lacking("flow,23.1,,L/min", "flow,0,,L/min", "Flow test: ");
    lacking("level of recharge area,38", "level of recharge area,5", "water does not flow uphill");
    lacking("pressure,0.39", "pressure,-0.39", "measure the depth to water");
}

#[test]
fn the_pipes_part_falls_with_the_flow_and_costs_water() {
    let all = sheets(|_, text| text);
    let sl3 = &all[2];
    let flow = sl3.visits[0].known.flow.clone().unwrap();
    let c = wells::pipe_choice(&sl3.construction, &flow, 44.0, 0.5).unwrap();
    assert!((c.now.ng_l - 44.0).abs() < 1e-9, "at the flow of the trip it is what was found");
    // 44/0.5 times the flow brings it to the target.
    assert!((c.enough.flow_l_min - 88.0 * flow.value().unwrap()).abs() < 1e-6, "{:?}", c.enough);
    assert!(c.curve.windows(2).all(|w| w[1].ng_l < w[0].ng_l && w[1].water_m3_year > w[0].water_m3_year));
    assert!(c.curve[0].flow_l_min < c.now.flow_l_min && c.curve[32].flow_l_min > c.enough.flow_l_min);
}
