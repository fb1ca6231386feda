//! Series of the programme: counted on public records, and on a small table that holds each case.
//!
//! The counts of `examples/real/trace.csv` (US Geological Survey, doi 10.5066/P9UWRYR4, CC0) were
//! taken with pandas: rows grouped by place, analyte, fraction; "<" is below the value, "U" and a
//! literal zero below the reporting level or, without one, left out; ">" and empty cells left out.

use crate::import_common;
use assessment::series_of::{self, LeftOut, Record, Series};
use import_common::Desk;
use intake::import::{import, inputs};
use series::survey::Request;
use series::{Error, Reading};
use std::path::PathBuf;

const HEAD: &str = "site_no,site_nm,date,time,pcode,parm_short_nm,unit_cd,remark_cd,result_va,rpt_lev_va,rpt_lev_cd,lab_sd_va,medium_cd,sample_type_cd,anl_ent_cd,meth_cd\n";

fn real() -> Record {
    let mut desk = Desk::new();
    let table = PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/real/trace.csv"));
    let files = inputs(&desk.store, &[table], "trace-long").unwrap();
    import(&mut desk.store, &files, "test", "2026-07-22").unwrap_or_else(|e| panic!("{e}"));
    series_of::all(&desk.store).unwrap()
}

#[test]
fn every_series_of_the_real_table_is_there_with_its_rows() {
    let record = real();
    let long: Vec<&Series> = record.wells.iter().filter(|s| s.rows.len() >= 8).collect();
    let non_detects = |s: &Series| s.rows.iter().filter(|p| !p.observation.reading.is_known()).count();
    let usable: usize = record.wells.iter().map(|s| s.rows.len()).sum();
    let all_censored = long.iter().filter(|s| non_detects(s) == s.rows.len()).count();
    assert_eq!((usable, record.wells.len(), long.len(), all_censored), (605, 71, 20, 1));
    assert_eq!(long.iter().map(|s| s.rows.len()).sum::<usize>(), 555);
    assert_eq!(long.iter().map(|s| non_detects(s)).sum::<usize>(), 337);
    assert!(record.wells.iter().all(|s| s.rows.is_sorted_by_key(|p| p.observation.time_years)));
}

#[test]
fn each_gets_a_trend_or_a_reason() {
    let record = real();
    let entries = record.survey(&Request::default());
    assert_eq!(entries.len(), record.wells.len());
    for (s, e) in record.wells.iter().zip(&entries) {
        assert_eq!(e.n, s.rows.len(), "{}", e.group);
        match &e.trend {
            Ok(t) => assert!(t.n >= 8 && (0.0..=1.0).contains(&t.test.p)),
            Err(Error::TooFew { found, .. }) => assert!(*found < 8),
            Err(why) => {
                assert!(matches!(why, Error::AllCensored { .. } | Error::NoSpread { .. }), "{}: {why}", e.group);
            }
        }
    }
}

fn small(rows: &str) -> Record {
    let mut desk = Desk::new();
    desk.text("small.csv", "trace-long", &format!("{HEAD}{rows}"));
    series_of::all(&desk.store).unwrap()
}

/// What a laboratory states in 2026 is not said of rows of 2002 that state nothing.
#[test]
fn a_method_is_not_carried_back() {
    let row = |date: &str, value: &str, method: &str| {
        format!("SL-2,Sallow 2,{date},09:00,01049,\"Lead, wf\",ug/L,,{value},,,,WG,9,LAB,{method}\n")
    };
    let rows = [row("2002-01-01", "0.091", ""), row("2003-01-01", "0.08", ""), row("2026-01-01", "0.03", "A")];
    let record = small(&rows.concat());
    let methods: Vec<&str> = record.wells[0].rows.iter().map(|p| p.observation.method.as_str()).collect();
    assert_eq!(methods, ["LAB", "LAB", "LAB, A"]);
}

#[test]
fn limits_estimates_ranges_and_missing_limits() {
    let row = |date: &str, remark: &str, value: &str, level: &str, method: &str| {
        format!("SL-2,Sallow 2,{date},09:00,01049,\"Lead, wf\",ug/L,{remark},{value},{level},,,WG,9,LAB,{method}\n")
    };
    let record = small(
        &[
            row("2004-02-29", "<", "0.5", "", ""),
            row("2003-01-01", "", "0.7", "", "A"),
            row("2005-01-01", "E", "0.2", "0.3", "B"),
            row("2006-01-01", "", "0", "", "B"),
            row("2007-01-01", "", "0", "0.1", "B"),
            row("2008-01-01", ">", "9", "", "B"),
        ]
        .concat(),
    );
    let [s] = record.wells.as_slice() else { panic!("{:?}", record.wells) };
    let readings: Vec<Reading> = s.rows.iter().map(|p| p.observation.reading).collect();
    assert_eq!(readings, [Reading::Known(0.7), Reading::Below(0.5), Reading::Known(0.2), Reading::Below(0.1)]);
    // 29 February is day 60 of 366.
    assert!((s.rows[1].observation.time_years - (2004.0 + 59.0 / 366.0)).abs() < 1e-12);
    assert_eq!(s.rows[0].observation.method, "LAB, A");
    assert_eq!(s.rows[2].observation.method, "LAB, B");
    assert_eq!(s.rows[1].observation.method, "LAB, A", "not stated is no change");
    assert_eq!(s.left_out, LeftOut { no_limit: 1, above_range: 1, ..LeftOut::default() });
}
