//! What tells the age and origin of a water: tracers as laboratories measured them, histories of rain and air, what is known of the recharge.
//! Declarations only: the words stand in [`schema`](super), the science in `aquifer::age`.

use super::Kind::{Integer, Real, Row, Text, Time, Word};
use super::column::YEARS;
use super::{TRACERS, Table, opt, req, since};
use crate::words::{DecayedTo, Normalised, RechargeFact};

/// Tracers that a row can be of: isotopes and gases that date water or say where it fell.
pub const TRACER_SIGNS: &[&str] = &[
    "3H", "3He/4He", "He", "Ne", "Ar", "Kr", "Xe", "SF6", "CFC-11", "CFC-12", "CFC-113", "14C", "d13C", "d18O", "d2H",
];

pub(super) const TRACER: Table = Table {
    name: "tracer",
    key: &[],
    index: &["well"],
    from_files: true,
    about: "Tracers of age and origin as a laboratory measured them, of a bottle or of a well on a day.",
    columns: &[
        since(TRACERS, opt("bottle", Row("bottle"), "Bottle; its well and day are those of the sample")),
        since(TRACERS, opt("well", Row("well"), "Well, where no bottle is named")),
        since(TRACERS, opt("sampled_on", Time, "Day of sampling, where no bottle is named")),
        since(TRACERS, req("tracer", Word(TRACER_SIGNS), "Isotope or gas")),
        since(TRACERS, req("value", Real, "As measured; with below the limit that it lies under")),
        since(TRACERS, opt("below", Integer, "1: not detected, the value is the limit")),
        since(TRACERS, req("uncertainty", Real, "Its uncertainty, as the laboratory gives it").above_zero()),
        since(
            TRACERS,
            opt("k", Real, "Coverage factor of the uncertainty; empty: 1, a standard uncertainty").above_zero(),
        ),
        since(TRACERS, req("unit", Text, "TU, F14C, pMC (100 F14C), pMC (absolute), ‰ VSMOW, …: one of the tracer")),
        since(TRACERS, opt("critical_value", Real, "Above it the tracer counts as detected, in the unit of the value")),
        since(TRACERS, opt("detection_limit", Real, "As the laboratory states it, in the unit of the value")),
        since(TRACERS, opt("measured_on", Time, "Day of measurement")),
        since(TRACERS, opt("laboratory", Text, "Laboratory")),
        since(TRACERS, opt("method", Text, "Method as the laboratory names it")),
        since(
            TRACERS,
            opt("decayed_to", Word(DecayedTo::WORDS), "Tritium: the day that the value holds for; empty: sampling"),
        ),
        since(
            TRACERS,
            opt("half_life_a", Real, "Tritium: half-life with which it was reckoned back to the day of sampling")
                .unit(YEARS)
                .above_zero(),
        ),
        since(TRACERS, opt("normalised_to", Word(Normalised::WORDS), "Carbon-14: fractionation taken out, or not")),
        since(TRACERS, opt("note", Text, "What was noted")),
    ],
};

pub(super) const INPUT_HISTORY: Table = Table {
    name: "input_history",
    key: &[],
    index: &[],
    from_files: true,
    about: "What fell with the rain or stood in the air, year by year: the history that an age rests on.",
    columns: &[
        since(TRACERS, req("name", Text, "Name of the history")),
        since(TRACERS, req("tracer", Word(TRACER_SIGNS), "Isotope or gas")),
        since(TRACERS, req("region", Text, "Where it holds")),
        since(TRACERS, req("source", Text, "Where the numbers are from")),
        since(TRACERS, opt("site", Row("site"), "Only for wells of this site; empty: for all")),
        since(TRACERS, req("in_year", Real, "Decimal year; an annual mean stands at its middle")),
        since(TRACERS, opt("before", Integer, "1: the natural background of all time before this year")),
        since(TRACERS, req("value", Real, "Value").zero_or_more()),
        since(TRACERS, req("u", Real, "Its standard uncertainty").zero_or_more()),
        since(TRACERS, req("unit", Text, "TU for tritium, ppt for a gas of the air, F14C for carbon-14")),
    ],
};

pub(super) const RECHARGE_FACT: Table = Table {
    name: "recharge_fact",
    key: &[],
    index: &[],
    from_files: true,
    about: "What is known of the place and season where the water fell, and what a further measurement costs.",
    columns: &[
        since(TRACERS, req("what", Word(RechargeFact::WORDS), "What it is, with its unit")),
        since(TRACERS, opt("tracer", Word(TRACER_SIGNS), "Of a price: which tracer")),
        since(TRACERS, opt("site", Row("site"), "Only for wells of this site")),
        since(TRACERS, opt("well", Row("well"), "Only for this well")),
        since(TRACERS, req("low", Real, "Lower end of the range")),
        since(TRACERS, req("high", Real, "Upper end; the same as the lower where it is one number")),
        since(TRACERS, req("source", Text, "Where it comes from")),
    ],
};
