//! Results are held to the limits of their own day, or of the day that is asked for; none that comes later decides.

use crate::import_common;
use import_common::Desk;
use programme::limits_of::{Asked, Row, against, exceedances, may_exceed};
use programme::start::start;
use programme::work;
use record::by::By;
use serde_json::{Value, json};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

fn desk() -> Desk {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nA,groundwater\n");
    desk.text(
        "bottles.csv",
        "bottles",
        "label,kind,well,fraction,filled_at\nA1,sample,A,unfiltered,2026-07-14 09:00\nA2,sample,A,unfiltered,\n",
    );
    desk.text(
        "chromium.csv",
        "laboratory-long",
        "bottle,analyte,fraction,value,u,unit,laboratory\nA1,Cr,unfiltered,30,1,ug/L,L\nA2,Cr,unfiltered,30,1,ug/L,L\n",
    );
    desk.text(
        "local.csv",
        "local-limits",
        "analyte,unit,authority,limit_high,kind,valid_from\n\
         Cr,ug/L,District (invented),40,guide value,2024-01-01\n\
         Cr,ug/L,District (invented),20,guide value,2030-01-01\n\
         Cr,ug/L,District (invented),10,guide value,1 January 2030\n",
    );
    work::recompute(&mut desk.store, None, BY).unwrap();
    desk
}

/// Limits that decided of a bottle, with their answers.
fn decided(rows: &[Row], bottle: &str) -> Vec<(f64, &'static str)> {
    let own = |r: &&Row| r.result.bottle == bottle && ["EU", "District (invented)"].contains(&whose(r));
    let mut out: Vec<_> =
        rows.iter().filter(own).map(|r| (r.comparison.limit.high, r.comparison.answer.word())).collect();
    out.sort_by(|a, b| a.0.total_cmp(&b.0));
    out
}

fn whose(r: &Row) -> &str {
    r.comparison.limit.authority.as_str()
}

fn day(rows: &[Row], bottle: &str) -> Value {
    serde_json::to_value(rows.iter().find(|r| r.result.bottle == bottle).unwrap()).unwrap()["on"].clone()
}

/// 30 µg/L of chromium lie over the EU's limit of 2036 (25) and under that of today (50).
#[test]
fn a_limit_of_2036_says_nothing_of_a_bottle_of_2026() {
    let desk = desk();
    let a = against(&desk.store, &Asked::default()).unwrap();
    assert_eq!(decided(&a.rows, "A1"), [(40.0, "below"), (50.0, "below")]);
    assert_eq!(day(&a.rows, "A1"), json!("2026-07-14"));
    // Nobody knows the day of this one, so no limit with a first day decides.
    assert_eq!(decided(&a.rows, "A2"), [(50.0, "below")]);
    assert_eq!(day(&a.rows, "A2"), Value::Null);
    let strictest: Vec<f64> = a.rows.iter().filter(|r| r.strictest).map(|r| r.comparison.limit.high).collect();
    assert_eq!(strictest, [40.0, 50.0]);
    assert!(a.warnings.iter().any(|w| w.contains("valid_from") && w.contains("1 January 2030")), "{:?}", a.warnings);
    let later = against(&desk.store, &Asked { date: Some("2036-01-12".into()), ..Asked::default() }).unwrap();
    for bottle in ["A1", "A2"] {
        assert_eq!(decided(&later.rows, bottle), [(20.0, "above"), (25.0, "above"), (40.0, "below")]);
        assert_eq!(day(&later.rows, bottle), json!("2036-01-12"));
    }
}

/// A laboratory's report of a trip of 2026: no u, nitrate without its basis, non-detects at and under their limit by the
/// laboratory's own words for it, sulfide beside a pH of 7.5 at 10 °C, conductivity at 25 °C.
fn report() -> Desk {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nA,groundwater\n");
    desk.text("trips.csv", "trips", "name,starts\nT,2026-07-14\n");
    desk.text(
        "bottles.csv",
        "bottles",
        "label,kind,well,trip,fraction,filled_at\nA1,sample,A,T,unfiltered,2026-07-14 09:00\nA2,sample,A,T,unfiltered,2026-07-14 09:10\n",
    );
    desk.text(
        "field.csv",
        "field-readings",
        "trip,well,at,quantity,value,unit\nT,A,2026-07-14 09:00,pH,7.5,pH\nT,A,2026-07-14 09:00,temperature,10,°C\n",
    );
    desk.text(
        "report.csv",
        "laboratory-long",
        "bottle,analyte,fraction,value,u,unit,reporting_limit,reporting_limit_kind,laboratory\n\
         A1,Fe,unfiltered,2100,,ug/L,,,L\n\
         A1,NO3,unfiltered,12,0.3,mg/L,,,L\n\
         A1,Pb,unfiltered,<10,,ug/L,10,MDL,L\n\
         A1,Mn,unfiltered,60,1,ug/L,,,L\n\
         A1,S(-II),unfiltered,0.08,0.001,mg/L as H2S,,,L\n\
         A1,conductivity,unfiltered,2600,10,uS/cm,,,L\n\
         A1,Cr,unfiltered,30,1,ug/L,,,L\n\
         A2,Pb,unfiltered,<10,,ug/L,10,detection limit,L\n\
         A2,As,unfiltered,12,0.5,ug/L,,,L\n",
    );
    work::recompute(&mut desk.store, None, BY).unwrap();
    desk
}

#[test]
fn a_report_of_a_laboratory_is_held_to_the_limits_of_its_day() {
    let desk = report();
    let all = Asked { authorities: vec!["EU".into(), "WHO".into()], ..Asked::default() };
    let a = against(&desk.store, &all).unwrap();
    let answer = |bottle: &str, analyte: &str, authority: &str| {
        let of = |r: &&Row| r.result.bottle == bottle && r.analyte == analyte && whose(r) == authority;
        a.rows.iter().find(of).unwrap_or_else(|| panic!("{bottle} {analyte} {authority}")).comparison.answer.word()
    };
    // By the value: 2,100 is ten times 200. Nitrate: 12 as N lies over 50 as NO3, 12 as NO3 under it.
    assert_eq!([answer("A1", "Fe", "EU"), answer("A1", "NO3", "EU")], ["above", "cannot tell"]);
    // The laboratory calls its 10 an MDL, a critical value; the other a detection limit.
    assert_eq!([answer("A1", "Pb", "EU"), answer("A2", "Pb", "EU")], ["cannot tell", "below"]);
    // pK1 of H2S is 7.23 at 10 °C (Millero et al. 1988): at pH 7.5 0.35 of 0.08 mg/L, 0.028, is undissociated; all of it is
    // over 0.05, this part is not.
    assert_eq!(answer("A1", "S(-II)", "WHO"), "cannot tell");
    assert_eq!(answer("A1", "conductivity", "EU"), "below");
    assert_eq!(answer("A1", "Cr", "EU"), "below");
    let coming: Vec<(&str, f64)> = a.coming.iter().map(|l| (l.analyte.as_str(), l.high)).collect();
    assert!(coming.contains(&("Cr", 25.0)) && coming.contains(&("Pb", 5.0)), "{coming:?}");
}

/// Arsenic over 10 µg/L (health), iron and manganese over 200 and 50 (taste, the EU's); the WHO's 80 for manganese is met.
#[test]
fn what_lies_above_a_limit_stands_first_and_waits() {
    let desk = report();
    let a = against(&desk.store, &Asked { authorities: vec!["EU".into(), "WHO".into()], ..Asked::default() }).unwrap();
    let waits: Vec<&str> = exceedances(&a.rows).iter().map(|r| r.analyte.as_str()).collect();
    assert_eq!(waits, ["As", "Fe", "Mn"]);
    assert_eq!(a.rows[0].analyte, "As");
    let health = a.rows.iter().find(|r| r.analyte == "Mn" && r.nearest_health).unwrap();
    assert_eq!((health.comparison.limit.high, health.comparison.answer.word()), (80.0, "below"));
    // A first look by amount alone leaves out none of them.
    let all = assessment::results::all(&desk.store).unwrap();
    let rows: Vec<i64> = all.iter().map(|r| r.row).collect();
    let left = may_exceed(&desk.store, &rows).unwrap();
    let row = |of: &Row| all.iter().find(|r| r.result == of.result).unwrap().row;
    assert!(left.len() < rows.len() && exceedances(&a.rows).iter().all(|r| left.contains(&row(r))));
    // A goal of zero is no limit that a result could keep.
    let us = against(&desk.store, &Asked { authorities: vec!["US EPA".into()], ..Asked::default() }).unwrap();
    assert!(us.rows.iter().any(|r| r.analyte == "As" && r.comparison.limit.high == 0.0));
    assert!(exceedances(&us.rows).iter().all(|r| r.comparison.limit.high > 0.0));
}
