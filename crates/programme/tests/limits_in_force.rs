//! Results are held to the limits of their own day, or of the day that is asked for; none that comes later decides.

use crate::import_common;
use import_common::Desk;
use programme::limits_of::{Asked, Row, against};
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
