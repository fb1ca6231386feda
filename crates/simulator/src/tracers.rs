//! Invented tracers of the three wells, made from a stated truth, with an invented history of tritium.
//!
//! The truth: SL-2 is exponential-piston water, mean age 2600 years, a third of the way confined (η = 1.5), of which the
//! dissolved carbon began at 72 pMC. SL-3 has 12 parts in 100 of exponential water of 15 years beside it, along the old
//! casing; the rest is as SL-2. SL-1 is as SL-2, but was measured by a laboratory whose method sees 2 TU and more. Half-
//! lives: tritium 12.32 years, carbon-14 5730 years. Convolution by plain sums over months, not by the program's own.
//! Every number is invented, and the history is of no real rain.

use crate::files::Sheet;
use crate::random::Stream;

/// Years of the mean age of the old water.
pub const OLD_YEARS: f64 = 2600.0;
/// Its η, exponential-piston.
pub const ETA: f64 = 1.5;
/// Share of young water at SL-3.
pub const YOUNG_SHARE: f64 = 0.12;
/// Mean age of that young water, years, exponential.
pub const YOUNG_YEARS: f64 = 15.0;
/// Carbon-14 of the dissolved carbon at the start, F14C.
pub const START: f64 = 0.72;
/// When the wells were sampled: 14 July 2026.
pub const SAMPLED: f64 = 2026.53;
/// Name of the history.
pub const HISTORY: &str = "Tamsin Heath rain (invented)";

/// Natural level before the bomb tests, TU.
const NATURAL: f64 = 6.0;

/// Tritium of the invented rain, TU: a natural level, two humps of tests, a long fall.
pub fn rain(year: f64) -> f64 {
    if year < 1953.0 {
        return NATURAL;
    }
    let hump = |at: f64, width: f64, height: f64| height * libm::exp(-((year - at) / width).powi(2));
    let fall = |height: f64, years: f64| {
        if year > 1963.5 { height * libm::exp(-(year - 1963.5) / years) } else { 0.0 }
    };
    NATURAL
        + 1.5 * (year - 1953.0).min(4.0)
        + hump(1958.5, 1.3, 420.0)
        + hump(1963.4, 1.6, 2300.0)
        + fall(700.0, 4.5)
        + fall(70.0, 14.0)
}

/// A model's output of tritium at the day of sampling: Σ rain · share · decay, a month at a time.
fn tritium(share_of_month: impl Fn(f64) -> f64) -> f64 {
    const MONTH: f64 = 1.0 / 12.0;
    let decay = core::f64::consts::LN_2 / 12.32;
    (0..12 * 400)
        .map(|k| {
            let tau = (f64::from(k) + 0.5) * MONTH;
            rain(SAMPLED - tau) * share_of_month(tau) * MONTH * libm::exp(-decay * tau)
        })
        .sum()
}

/// Tritium of the young water, TU.
pub fn young_tritium() -> f64 {
    tritium(|tau| libm::exp(-tau / YOUNG_YEARS) / YOUNG_YEARS)
}

/// Carbon-14 of the old water, F14C.
pub fn old_carbon() -> f64 {
    let lt = core::f64::consts::LN_2 / 5730.0 * OLD_YEARS;
    START * libm::exp(-lt * (1.0 - 1.0 / ETA)) / (1.0 + lt / ETA)
}

/// A number as a laboratory prints it.
fn printed(x: f64, digits: usize) -> String {
    format!("{x:.digits$}")
}

/// What the laboratories reported.
pub(crate) fn tracers() -> String {
    let mut noise = Stream::new(1953, 1);
    let mut with = |truth: f64, u: f64| truth + u * noise.normal();
    // Nothing of the old water is younger than 866 years: its tritium is none.
    let old = printed(with(0.0, 0.02), 3);
    let leak = printed(with(YOUNG_SHARE * young_tritium(), 0.03), 2);
    let carbon = printed(100.0 * with(old_carbon(), 0.003), 1);
    let lab = "Kestrel Isotope Laboratory (invented)";
    let low = "electrolytic enrichment, counting";
    let mut s = Sheet::new(&[
        "well",
        "sampled_on",
        "tracer",
        "value",
        "below",
        "uncertainty",
        "k",
        "unit",
        "critical_value",
        "detection_limit",
        "laboratory",
        "method",
        "half_life_a",
        "normalised_to",
        "note",
    ]);
    let day = "2026-07-14";
    let note = "invented";
    s.row(&["SL-2", day, "3H", &old, "", "0.04", "2", "TU", "0.033", "0.066", lab, low, "12.32", "", note]);
    s.row(&["SL-3", day, "3H", &leak, "", "0.06", "2", "TU", "0.05", "0.1", lab, low, "12.32", "", note]);
    let direct = ("Lowmere Water Laboratory (invented)", "direct counting");
    s.row(&["SL-1", day, "3H", "2", "1", "1", "2", "TU", "", "2", direct.0, direct.1, "12.43", "", note]);
    s.row(&[
        "SL-2",
        day,
        "14C",
        &carbon,
        "",
        "0.3",
        "1",
        "pMC (100 F14C)",
        "",
        "",
        lab,
        "accelerator",
        "",
        "d13C-minus-25",
        note,
    ]);
    s.row(&["SL-2", day, "d13C", "-13.4", "", "0.2", "1", "‰ VPDB", "", "", lab, "mass spectrometry", "", "", note]);
    s.row(&["SL-2", day, "d18O", "-8.62", "", "0.1", "1", "‰ VSMOW", "", "", lab, "laser", "", "", note]);
    s.row(&["SL-2", day, "d2H", "-58.7", "", "1", "1", "‰ VSMOW", "", "", lab, "laser", "", "", note]);
    s.into_text()
}

/// The history, a row a year.
pub(crate) fn histories() -> String {
    let mut s = Sheet::new(&["name", "tracer", "region", "source", "site", "in_year", "before", "value", "u", "unit"]);
    let source = "made up for this demonstration";
    let region = "Tamsin Heath, which does not exist";
    let mut row = |year: &str, before: &str, value: f64, u: f64| {
        let (value, u) = (printed(value, 1), printed(u, 1));
        s.row(&[HISTORY, "3H", region, source, "Sallow Levels", year, before, &value, &u, "TU"]);
    };
    row("1940.5", "1", NATURAL, 0.6);
    for year in 1940..=2026 {
        let middle = f64::from(year) + 0.5;
        row(&format!("{year}.5"), "", rain(middle), 0.1 * rain(middle));
    }
    s.into_text()
}

/// What is known of the heath, and what further measurements would cost.
pub(crate) fn facts() -> String {
    let mut s = Sheet::new(&["what", "tracer", "site", "low", "high", "source"]);
    let site = "Sallow Levels";
    for (what, low, high) in [
        ("recharge-height-m", "25", "60"),
        ("recharge-temperature-C", "7.5", "10.5"),
        ("dry-zone-m", "2", "8"),
        ("winter-rain-d18O", "-10.4", "-9.8"),
        ("summer-rain-d18O", "-6.8", "-6.2"),
        ("year-rain-d18O", "-8.7", "-8.3"),
        ("rain-station-height-m", "12", "12"),
    ] {
        s.row(&[what, "", site, low, high, "invented, as the heath is"]);
    }
    for (tracer, price) in [("3He/4He", "700"), ("14C", "480")] {
        s.row(&["price", tracer, site, price, price, "invented offer"]);
    }
    s.into_text()
}
