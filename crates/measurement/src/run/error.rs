//! What makes a run impossible to reduce. Faults that still leave a number are findings.

/// A run or recipe that cannot be worked with; nothing was computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Error {
    /// Two vials at one place.
    #[error("position {position} is taken twice, by \"{first}\" and \"{second}\": give each vial a place of its own")]
    DoubledPosition {
        /// The place.
        position: u32,
        /// One vial.
        first: String,
        /// The other.
        second: String,
    },
    /// The same isotope read twice in one vial.
    #[error("{isotope} is read twice in the vial at position {position}: exclude one of the two")]
    DoubledReading {
        /// The place.
        position: u32,
        /// The isotope.
        isotope: String,
    },
    /// A reading of a vial that is not in the run.
    #[error("{isotope} is read at position {position}, where the run has no vial")]
    ReadingWithoutVial {
        /// The place.
        position: u32,
        /// The isotope.
        isotope: String,
    },
    /// A reading without replicates and without a summary, or with impossible ones.
    #[error("{isotope} at position {position} ({vial}): {why}; give replicates in counts/s ≥ 0 or mean, sd and n")]
    BadReading {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// The isotope.
        isotope: String,
        /// What is wrong.
        why: String,
    },
    /// Replicates of isotopes that belong together differ in number.
    #[error(
        "{isotope} at position {position} ({vial}) has {found} replicates where {with} has {expected}: ratios are formed replicate by replicate"
    )]
    UnequalReplicates {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// The isotope.
        isotope: String,
        /// Its replicates.
        found: usize,
        /// The isotope it is put in relation to.
        with: String,
        /// Replicates of that one.
        expected: usize,
    },
    /// A dilution that is zero, negative or not a number.
    #[error(
        "dilution of \"{vial}\" at position {position} is {value} (u {u}): a dilution factor by mass is above 0 with u ≥ 0, 1 for undiluted"
    )]
    BadDilution {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// The factor.
        value: f64,
        /// Its u.
        u: f64,
    },
    /// A time that is not a number.
    #[error("time of \"{vial}\" at position {position} is {minutes} min: give minutes since the start of the run")]
    BadTime {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// What was given.
        minutes: f64,
    },
    /// Rates at which the detector is dead for too large a part of the time.
    #[error(
        "{isotope} at position {position} ({vial}): {rate_cps:.0} counts/s with a dead time of {dead_time_ns} ns keeps the detector dead {dead_percent:.0} % of the time; the dead-time model is refused from {limit_percent:.0} %: dilute, measure in analogue mode, or exclude the reading"
    )]
    BeyondDeadTime {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// The isotope.
        isotope: String,
        /// The rate observed, counts/s.
        rate_cps: f64,
        /// Dead time, ns.
        dead_time_ns: f64,
        /// n·τ in %.
        dead_percent: f64,
        /// The recipe's limit in %.
        limit_percent: f64,
    },
    /// A standard that has no value, for an element or at all.
    #[error(
        "standard \"{vial}\" at position {position} has no assigned value{element}: give value, u and unit, or another role"
    )]
    StandardWithoutValue {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// " for Pb", or nothing where it has none at all.
        element: String,
    },
    /// Not enough standards for a line.
    #[error("{analyte}: {found} usable standards, a calibration line needs at least 2")]
    TooFewStandards {
        /// What is measured.
        analyte: String,
        /// Usable standards.
        found: usize,
    },
    /// Standards that do not determine a slope.
    #[error("{analyte}: {why}, so the calibration line has no slope to divide by: {hint}")]
    SingularLine {
        /// What is measured.
        analyte: String,
        /// What is wrong.
        why: String,
        /// What to do.
        hint: String,
    },
    /// Not enough blanks to subtract and to know their spread.
    #[error(
        "{analyte}: the recipe needs {role}s and the run has {found} usable; at least 2 are needed to know their spread: measure more, or name another blank in the recipe"
    )]
    TooFewBlanks {
        /// What is measured.
        analyte: String,
        /// Kind of blank.
        role: String,
        /// How many there are.
        found: usize,
    },
    /// A blank that is to be taken as mass per bottle, and a bottle without volume.
    #[error(
        "\"{vial}\" at position {position} has no bottle volume, and the recipe takes the blank as mass per bottle: give mL"
    )]
    NoBottleVolume {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
    },
    /// An internal standard that is not there.
    #[error("{analyte}: internal standard {standard} has no signal {place}: {hint}")]
    MissingInternalStandard {
        /// What is measured.
        analyte: String,
        /// The internal standard, or the resolution one is needed for.
        standard: String,
        /// Where.
        place: String,
        /// What to do.
        hint: String,
    },
    /// A recipe that names a vial the run does not have.
    #[error(
        "the recipe names vial \"{vial}\" ({what}), and the run has no such vial with a usable reading of {isotope}"
    )]
    NoSuchVial {
        /// The name.
        vial: String,
        /// What it is named for.
        what: String,
        /// The isotope.
        isotope: String,
    },
    /// The monitor of an interference was not read.
    #[error("{monitor} monitors {species} on {target} and is not read {place}")]
    MissingMonitor {
        /// The monitor.
        monitor: String,
        /// What it monitors.
        species: String,
        /// On which isotope.
        target: String,
        /// Where.
        place: String,
    },
    /// An interference factor that cannot be formed.
    #[error("factor of {species} on {target}: {why}")]
    BadFactor {
        /// What interferes.
        species: String,
        /// On which isotope.
        target: String,
        /// What is wrong.
        why: String,
    },
    /// Not enough drift checks for the model.
    #[error(
        "{analyte}: drift model \"{model}\" needs {needed} drift checks and the run has {found}: measure more, or choose another model"
    )]
    TooFewDriftChecks {
        /// What is measured.
        analyte: String,
        /// The model.
        model: String,
        /// How many it needs.
        needed: usize,
        /// How many there are.
        found: usize,
    },
    /// A number of the recipe that is out of range.
    #[error("recipe: {field} is {found}, {expected}")]
    BadRecipe {
        /// The field.
        field: String,
        /// Its value.
        found: String,
        /// What it may be.
        expected: String,
    },
    /// A unit that cannot be turned into the recipe's.
    #[error("\"{vial}\" at position {position}: {error}")]
    Unit {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// What the unit said.
        error: quantity::UnitError,
    },
    /// A run with nothing in it.
    #[error("the run has {what}")]
    Empty {
        /// What is missing.
        what: String,
    },
}
