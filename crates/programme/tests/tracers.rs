//! From tracers on record to an age: what a file must say, what is refused and told, and whether the truth of the demo lies
//! in what is answered. The truth stands in `simulator::tracers`, which convolves by plain sums of its own.

use crate::demo_common::record;
use crate::import_common::Desk;
use aquifer::age::verdict::{Question, Standing};
use assessment::age::{self, WellAge};
use message::Message;
use record::store::Store;
use simulator::{Purpose, Trip, tracers as truth};
use std::path::Path;

const HEAD: &str = "well,sampled_on,tracer,value,below,uncertainty,k,unit,measured_on,decayed_to,half_life_a";

/// A row of a tracer is refused, and its column and the words are told.
#[track_caller]
fn refused(row: &str, column: &str, says: &str) {
    let mut desk = Desk::new();
    desk.text("wells.csv", "wells", "name\nSL-2\n");
    let said = desk.refusal("t.csv", "tracers", format!("{HEAD}\n{row}\n"));
    assert!(said.contains("row 2") && said.contains(&format!("column \"{column}\"")), "{said}");
    assert!(said.contains(says), "expected \"{says}\" in: {said}");
}

#[test]
fn a_tracer_says_its_unit_its_day_and_what_pmc_means() {
    let day = "2026-07-14";
    refused(&format!("SL-2,{day},3H,0.6,,0.1,2,,,,12.32"), "unit", "nothing");
    refused(&format!("SL-2,{day},3H,0.6,,0.1,2,ng/L,,,12.32"), "unit", "TU, Bq/kg");
    refused(&format!("SL-2,{day},14C,53,,0.3,,pMC,,,"), "unit", "100 F14C");
    refused(&format!("SL-2,{day},14C,53,,0.3,,pMC (absolute),,,"), "measured_on", "day of measurement");
    refused("SL-2,,3H,0.6,,0.1,2,TU,,,12.32", "sampled_on", "day of sampling");
    refused(&format!(",{day},3H,0.6,,0.1,2,TU,,,12.32"), "well", "a bottle, or a well");
    refused(&format!("SL-2,{day},3H,0.6,,0.1,2,TU,,,"), "half_life_a", "12.32");
    refused(&format!("SL-2,{day},3H,0.6,,0.1,2,TU,,measurement,"), "measured_on", "day of measurement");
    refused(&format!("SL-2,{day},3H,0.6,,,2,TU,,,12.32"), "uncertainty", "nothing");
    refused(&format!("SL-2,{day},3H,0,1,0.1,2,TU,,,12.32"), "value", "above zero");
    refused(&format!("SL-2,{day},gold,1,,0.1,2,TU,,,"), "tracer", "14C");
}

#[test]
fn a_history_and_a_fact_say_what_they_are() {
    let mut desk = Desk::new();
    let head = "name,tracer,region,source,in_year,value,u,unit";
    let said = desk.refusal("h.csv", "input-histories", format!("{head}\nrain,3H,here,own,1950.5,6,0.6,Bq/L\n"));
    assert!(said.contains("column \"unit\"") && said.contains("TU"), "{said}");
    let said = desk.refusal("h.csv", "input-histories", format!("{head}\nrain,d18O,here,own,1950.5,6,0.6,TU\n"));
    assert!(said.contains("column \"tracer\"") && said.contains("SF6"), "{said}");
    let facts = "what,tracer,low,high,source";
    let said = desk.refusal("f.csv", "recharge-facts", format!("{facts}\nrecharge-height-m,,60,20,map\n"));
    assert!(said.contains("column \"high\""), "{said}");
    let said = desk.refusal("f.csv", "recharge-facts", format!("{facts}\nprice,,60,60,offer\n"));
    assert!(said.contains("column \"tracer\""), "{said}");
}

/// The demo's record without its run.
fn demo(dir: &Path, change: impl Fn(&str, String) -> Option<String>) -> Store {
    record(dir, &Trip::new(2611, Purpose::Demo), |name, text| {
        if matches!(name, "run-counts.csv" | "run-sequence.csv") { None } else { change(name, text) }
    })
}

fn said(a: &WellAge) -> String {
    let found = a.findings.iter().filter_map(|f| f.message.as_ref().map(Message::in_english));
    found.chain(a.refused.iter().map(Message::in_english)).collect::<Vec<_>>().join("\n")
}

#[test]
fn the_truth_of_the_demo_lies_in_what_is_answered() {
    let dir = tempfile::tempdir().unwrap();
    let store = demo(dir.path(), |_, text| Some(text));
    let all = age::of_wells(&store, &["SL-1", "SL-2", "SL-3"]).unwrap();
    let [first, second, third] = &all[..] else { panic!("{}", all.len()) };

    // SL-2: all of it far older than 1953, mean age 2600 years.
    let u = second.union.as_ref().unwrap_or_else(|| panic!("{}", said(second)));
    let inside = u.mean_age_years.iter().any(|(low, high)| (*low..=*high).contains(&truth::OLD_YEARS));
    assert!(inside, "{:?}\n{}", u.mean_age_years, said(second));
    assert!(u.young.0 <= 1e-9 && u.young.1 < 0.05, "{:?}", u.young);
    let before = second.answer(Question::BeforeBomb).unwrap();
    assert_eq!((before.standing, before.answer), (Standing::Decided, Some(true)), "{}", said(second));
    // The true start of the carbon lies between the corrections, and so does the true age.
    let carbon = second.carbon.as_ref().unwrap();
    let starts = carbon.dated.iter().filter(|d| d.in_band).map(|d| d.a0_pmc / 100.0);
    let (low, high) = starts.fold((f64::INFINITY, 0.0f64), |(l, h), q| (l.min(q), h.max(q)));
    assert!(low < truth::START && truth::START < high, "{low} to {high}");
    assert!(second.origin.as_ref().unwrap().readings.is_some());
    assert!(second.next.is_none(), "nothing is open");

    // SL-3: a part of young water, whose share lies in the union.
    let u = third.union.as_ref().unwrap_or_else(|| panic!("{}", said(third)));
    assert!(u.young.0 <= truth::YOUNG_SHARE && truth::YOUNG_SHARE <= u.young.1, "{:?}", u.young);
    let part = third.answer(Question::PartYoung).unwrap();
    assert_ne!(part.answer, Some(false));
    assert!(third.next.is_some(), "a question is open, and prices are there: {}", said(third));

    // SL-1: the method could not have seen what decides, so that nothing is said of the bomb tests.
    let before = first.answer(Question::BeforeBomb).unwrap();
    assert_eq!(before.answer, None, "{}", said(first));
    assert!(first.darcy.is_some(), "its travel time is known");
}

#[test]
fn the_same_record_gives_the_same_answer() {
    let dir = tempfile::tempdir().unwrap();
    let store = demo(dir.path(), |_, text| Some(text));
    assert_eq!(age::of_well(&store, "SL-3").unwrap(), age::of_well(&store, "SL-3").unwrap());
    assert_eq!(age::of_well(&store, "nowhere").unwrap(), None);
}

/// The demo's tracers replaced by the given rows of SL-2, on the record's own headings.
fn with_rows(head: &str, rows: &str) -> WellAge {
    let dir = tempfile::tempdir().unwrap();
    let text = format!("{head}\n{rows}\n");
    let store = demo(dir.path(), |name, old| Some(if name == "tracers.csv" { text.clone() } else { old }));
    age::of_well(&store, "SL-2").unwrap().unwrap()
}

#[test]
fn what_cannot_be_used_is_told_and_stops_nothing() {
    // A CFC in sulfidic water, SF6 without history, carbon-14 that was not normalised: each with its reason.
    let head = format!("{HEAD},normalised_to");
    let a = with_rows(
        &head,
        "SL-2,2026-07-14,CFC-11,20,,5,,fmol/kg,,,,\nSL-2,2026-07-14,SF6,1.2,,0.1,,fmol/kg,,,,\nSL-2,2026-07-14,14C,0.5,,0.01,,F14C,,,,not-normalised",
    );
    assert!(a.union.is_none() && a.verdicts.is_empty());
    let told = said(&a);
    for words in ["CFC-11 has no history", "SF6 has no history", "not normalised"] {
        assert!(told.contains(words), "expected \"{words}\" in: {told}");
    }
}

#[test]
fn carbon_without_tritium_never_says_before_the_bomb_tests() {
    let a = with_rows(HEAD, "SL-2,2026-07-14,14C,20,,0.3,,pMC (100 F14C),,,");
    let before = a.answer(Question::BeforeBomb).unwrap();
    assert_eq!(before.answer, None);
    // Older rows than a year before the newest are left out, and of two of one day the last counts.
    let a = with_rows(HEAD, "SL-2,2019-07-14,3H,4,,0.1,,TU,,,12.32\nSL-2,2026-07-14,14C,20,,0.3,,pMC (100 F14C),,,");
    assert!(a.tritium.is_none() && said(&a).contains("left out"), "{}", said(&a));
    assert_eq!(a.seen.len(), 1);
}

#[test]
fn a_value_as_on_the_day_of_measurement_is_reckoned_back() {
    // Measured one half-life after sampling (12.32 a): twice the value. 2014-03-19 to 2026-07-14 are 12.32 years.
    let a = with_rows(HEAD, "SL-2,2014-03-19,3H,2,,0.1,,TU,2026-07-14,measurement,");
    let m = a.tritium_measured.unwrap();
    assert!((m.number() - 4.0).abs() < 0.01, "{}", m.number());
}
