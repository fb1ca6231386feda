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

/// Level at the first date of the line that rises or falls by a fixed percentage a year: median
/// (product limit) of the logarithms less the slope. `None` with zero or negative readings or
/// where the median lies below the lowest known residual.
pub fn level_of_percent_line(rows: &[Observation], percent_per_year: f64) -> Option<f64> {
    let first = rows.iter().map(|r| r.time_years).fold(f64::INFINITY, f64::min);
    if rows.iter().any(|r| r.reading.bound() <= 0.0) {
        return None;
    }
    let slope = libm::log1p(percent_per_year / 100.0);
    let residuals: Vec<Reading> =
        rows.iter().map(|r| r.reading.map(|y| libm::log(y) - slope * (r.time_years - first))).collect();
    match crate::product_limit::product_limit(&residuals).ok()?.percentile(0.5) {
        Reading::Known(level) => Some(libm::exp(level)),
        Reading::Below(_) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_in_percent_is_found_again() {
        // 8 · 0.95^t, one reading hidden under a limit far above the line.
        let rows: Vec<Observation> = (0..15)
            .map(|i| {
                let value = 8.0 * libm::pow(0.95, f64::from(i));
                let reading = if i == 7 { Reading::Below(50.0) } else { Reading::Known(value) };
                Observation::new(1990.0 + f64::from(i), reading)
            })
            .collect();
        let level = level_of_percent_line(&rows, -5.0).unwrap();
        assert!((level - 8.0).abs() < 1e-9, "{level}");
        let zero = [Observation::new(1990.0, Reading::Known(0.0))];
        assert_eq!(level_of_percent_line(&zero, 1.0), None);
    }
}
