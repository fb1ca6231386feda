//! The constants by which a run is reduced, each with its source, for whoever works a number out again elsewhere: the
//! same that the steps use, said once.

use super::{bottle, decision, earlier, line, scatter};

/// A constant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constant {
    /// What it is.
    pub name: &'static str,
    /// Its value.
    pub value: f64,
    /// Its unit; 1 without.
    pub unit: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

const OWN: &str = "the program's own choice";

/// All of them.
pub fn constants() -> Vec<Constant> {
    let of = |name, value, unit, source| Constant { name, value, unit, source };
    let (diluent, u_diluent) = bottle::diluent();
    let water = "water at 20 °C 0.9982 (IAPWS-95), 2 % nitric acid about 1.01, both from memory: between them";
    vec![
        of("u of a volume of acid that was written down without one, as a share", bottle::U_OF_ACID, "1", OWN),
        of("density of what a vial is diluted with", diluent, "kg/L", water),
        of("its standard uncertainty", u_diluent, "kg/L", water),
        of(
            "scatter: level at which a vial leaves the pool, over the number of vials (`apart`)",
            scatter::APART,
            "1",
            OWN,
        ),
        of(
            "scatter: level at which a vial scatters more than the pool, for its own decision",
            scatter::SUSPECT,
            "1",
            OWN,
        ),
        of("counts under which a vial's own larger scatter decides", decision::MANY_COUNTS, "1", OWN),
        of("line: level of the chi-squared test that widens u", line::LACK_OF_FIT, "1", "common practice"),
        of("blanks: level of Bartlett's test among earlier runs", earlier::EARLIER_AGREE, "1", "common practice"),
        of(
            "blanks: level at which a run scatters more than earlier ones (F, one side)",
            earlier::SCATTERS_MORE,
            "1",
            OWN,
        ),
        of("blanks: level at which it scatters less", earlier::SCATTERS_LESS, "1", "common practice: half of 5 %"),
        of(
            "robust centre: winsorised at so many scale units",
            crate::blank::CUT,
            "1",
            "ISO 13528:2015, C.3.1, from memory",
        ),
        of("robust centre: factor of its scale", crate::blank::CONSISTENT, "1", "ISO 13528:2015, C.3.1, from memory"),
    ]
}
