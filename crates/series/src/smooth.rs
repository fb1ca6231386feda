//! The course of a record without a straight line: a median that moves with time. In: rows in
//! order of time, a half-width in years; out: at each asked date the local median, which may be
//! "below the lowest known value nearby".
//!
//! Product limit with tricube weights (1 − |d/h|³)³ of the distance d in time: non-detects take
//! part with their limits, nothing is put in their place. Sources: Cleveland (1979) JASA 74:829
//! for the weights; Beran (1981) for the local product limit (from memory). At least 3 rows with
//! weight, one of them known, else there is no answer at that date. No interval is given.
//! Checked in `tests/programme_of_years.rs`.

use crate::{Observation, Reading};

/// Local median at each date of `at_years`; `None` where too little lies within the half-width.
pub fn moving_median(rows: &[Observation], at_years: &[f64], half_width_years: f64) -> Vec<Option<Reading>> {
    let mut falling: Vec<&Observation> = rows.iter().collect();
    falling.sort_by(|a, b| {
        let (x, y) = (a.reading, b.reading);
        y.bound().total_cmp(&x.bound()).then(y.is_known().cmp(&x.is_known()))
    });
    at_years.iter().map(|t| local_median(&falling, *t, half_width_years)).collect()
}

fn local_median(falling: &[&Observation], t: f64, h: f64) -> Option<Reading> {
    let weight = |row: &Observation| {
        let d = ((row.time_years - t) / h).abs();
        let rest = 1.0 - d * d * d;
        if rest > 0.0 { rest * rest * rest } else { 0.0 }
    };
    let near: Vec<(Reading, f64)> = falling.iter().map(|r| (r.reading, weight(r))).filter(|(_, w)| *w > 0.0).collect();
    if near.len() < 3 || !near.iter().any(|(r, _)| r.is_known()) {
        return None;
    }
    let mut at_risk: f64 = near.iter().map(|(_, w)| w).sum();
    let mut share = 1.0;
    let mut answer = None;
    for (reading, w) in &near {
        if let Reading::Known(v) = reading {
            if share >= 0.5 {
                answer = Some(*v);
            }
            share *= (1.0 - w / at_risk).max(0.0);
        }
        at_risk -= w;
    }
    // Mass of a half or more below the lowest known value: that is all that is known.
    answer.map(|v| if share >= 0.5 { Reading::Below(v) } else { Reading::Known(v) })
}
