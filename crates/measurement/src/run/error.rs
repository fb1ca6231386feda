//! What makes a run impossible to reduce. Faults that still leave a number are findings.

use message::{Digits, Message, Name, Share, Shown, count, refusal as says};

/// A run or recipe that cannot be worked with; nothing was computed.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// Two vials at one place.
    DoubledPosition {
        /// The place.
        position: u32,
        /// One vial.
        first: String,
        /// The other.
        second: String,
    },
    /// The same isotope read twice in one vial.
    DoubledReading {
        /// The place.
        position: u32,
        /// The isotope.
        isotope: String,
    },
    /// A reading of a vial that is not in the run.
    ReadingWithoutVial {
        /// The place.
        position: u32,
        /// The isotope.
        isotope: String,
    },
    /// A reading without replicates and without a summary, or with impossible ones.
    BadReading {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// The isotope.
        isotope: String,
        /// What is wrong.
        why: Message,
    },
    /// Replicates of isotopes that belong together differ in number.
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
    /// A volume or density of a bottle that no bottle has.
    BadBottle {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// Which, as the record names it.
        what: &'static str,
        /// What was given.
        value: f64,
        /// Whether zero is refused too.
        above_zero: bool,
    },
    /// A time that is not a number.
    BadTime {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// What was given.
        minutes: f64,
    },
    /// Rates at which the detector is dead for too large a part of the time.
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
    /// More counts than a detector whose dead time extends can give at any true rate.
    BeyondMostRate {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// The isotope.
        isotope: String,
        /// Observed, counts/s.
        rate_cps: f64,
        /// Dead time, ns.
        dead_time_ns: f64,
        /// The most that the model gives, 1/(e·τ), counts/s.
        most_cps: f64,
    },
    /// A standard that has no value, for an element or at all.
    StandardWithoutValue {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// What it has no value for; none where it has none at all.
        element: Option<String>,
        /// There is one, and it is no number of 0 or more.
        negative: bool,
    },
    /// No standard has a value for an element that is measured.
    NoStandardHolds {
        /// The place of the first standard.
        position: u32,
        /// Its vial.
        vial: String,
        /// The element.
        element: String,
    },
    /// Not enough standards for a line.
    TooFewStandards {
        /// What is measured.
        analyte: String,
        /// Usable standards.
        found: usize,
    },
    /// Standards whose signal does not rise with concentration.
    FallingLine {
        /// What is measured.
        analyte: String,
        /// Its slope.
        slope: f64,
    },
    /// Standards of one concentration.
    OneLevel {
        /// What is measured.
        analyte: String,
        /// How many there are.
        standards: usize,
    },
    /// Not enough blanks to subtract and to know their spread.
    TooFewBlanks {
        /// What is measured.
        analyte: String,
        /// Kind of blank.
        role: String,
        /// How many there are.
        found: usize,
    },
    /// A blank that is to be taken as mass per bottle, and a bottle without volume.
    NoBottleVolume {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
    },
    /// An internal standard that is not there.
    MissingInternalStandard {
        /// What is measured.
        analyte: String,
        /// The internal standard.
        standard: String,
        /// Where.
        place: Message,
        /// What to do.
        hint: Message,
    },
    /// No internal standard of the resolution that one is needed for.
    NoInternalStandard {
        /// What is measured.
        analyte: String,
        /// The resolution.
        resolution: String,
    },
    /// A recipe that names a vial the run does not have.
    NoSuchVial {
        /// The name.
        vial: String,
        /// The interfering species whose factor it gives.
        species: String,
        /// The isotope that is disturbed.
        target: String,
        /// The one that monitors it.
        monitor: String,
    },
    /// The monitor of an interference was not read.
    MissingMonitor {
        /// The monitor.
        monitor: String,
        /// What it monitors.
        species: String,
        /// On which isotope.
        target: String,
        /// Where.
        place: Message,
    },
    /// An interference factor that cannot be formed.
    BadFactor {
        /// What interferes.
        species: String,
        /// On which isotope.
        target: String,
        /// What is wrong.
        why: Message,
    },
    /// Not enough drift checks for the model.
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
    /// Drift checks without a signal, or all of one time.
    UnfitDriftChecks {
        /// What is measured.
        analyte: String,
        /// The model.
        model: String,
        /// How many it needs.
        needed: usize,
    },
    /// A number of the recipe that is out of range.
    BadRecipe {
        /// The field.
        field: String,
        /// Its value.
        found: String,
        /// What it may be.
        expected: Message,
    },
    /// A unit that cannot be turned into the recipe's.
    Unit {
        /// The place.
        position: u32,
        /// The vial.
        vial: String,
        /// What the unit said.
        error: quantity::UnitError,
    },
    /// A run without vials.
    NoVials,
    /// A run without readings of anything but internal standards and monitors.
    NoReadings,
}

impl Error {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::DoubledPosition { position, first, second } => {
                says::PositionTwice { position: at(*position), first: first.into(), second: second.into() }.into()
            }
            Self::DoubledReading { position, isotope } => {
                says::ReadingTwice { isotope: isotope.into(), position: at(*position) }.into()
            }
            Self::ReadingWithoutVial { position, isotope } => {
                says::ReadingWithoutVial { isotope: isotope.into(), position: at(*position) }.into()
            }
            Self::BadReading { position, vial, isotope, why } => {
                says::Reading { isotope: isotope.into(), position: at(*position), vial: vial.into(), why: why.clone() }
                    .into()
            }
            Self::UnequalReplicates { position, vial, isotope, found, with, expected } => says::ReplicatesUnequal {
                isotope: isotope.into(),
                position: at(*position),
                vial: vial.into(),
                found: count(*found),
                with: with.into(),
                expected: count(*expected),
            }
            .into(),
            Self::BadDilution { position, vial, value, u } => {
                says::Dilution { vial: vial.into(), position: at(*position), value: given(*value), u: given(*u) }.into()
            }
            Self::BadBottle { position, vial, what, value, above_zero } => {
                let (vial, position, what, value) = (vial.into(), at(*position), (*what).into(), given(*value));
                if *above_zero {
                    says::BottleAboveZero { vial, position, what, value }.into()
                } else {
                    says::BottleZeroOrMore { vial, position, what, value }.into()
                }
            }
            Self::BadTime { position, vial, minutes } => {
                says::Time { vial: vial.into(), position: at(*position), minutes: given(*minutes) }.into()
            }
            Self::BeyondDeadTime { position, vial, isotope, rate_cps, dead_time_ns, dead_percent, limit_percent } => {
                says::DeadTime {
                    isotope: isotope.into(),
                    position: at(*position),
                    vial: vial.into(),
                    rate: Shown::decimals(*rate_cps, 0, ""),
                    dead: Shown::as_given(*dead_time_ns, "ns"),
                    share: percent(*dead_percent),
                    limit: percent(*limit_percent),
                }
                .into()
            }
            Self::BeyondMostRate { position, vial, isotope, rate_cps, dead_time_ns, most_cps } => says::DeadTimeMost {
                isotope: isotope.into(),
                position: at(*position),
                vial: vial.into(),
                rate: Shown::decimals(*rate_cps, 0, ""),
                dead: Shown::as_given(*dead_time_ns, "ns"),
                most: Shown::decimals(*most_cps, 0, ""),
            }
            .into(),
            Self::StandardWithoutValue { position, vial, element: None, .. } => {
                says::StandardWithoutValue { vial: vial.into(), position: at(*position) }.into()
            }
            Self::StandardWithoutValue { position, vial, element: Some(element), negative: false } => {
                says::StandardWithoutValueOf { vial: vial.into(), position: at(*position), element: element.into() }
                    .into()
            }
            Self::StandardWithoutValue { position, vial, element: Some(element), negative: true } => {
                says::StandardValueNegative { vial: vial.into(), position: at(*position), element: element.into() }
                    .into()
            }
            Self::NoStandardHolds { position, vial, element } => {
                says::StandardOfNone { vial: vial.into(), position: at(*position), element: element.into() }.into()
            }
            Self::TooFewStandards { analyte, found } => {
                says::StandardsFew { analyte: analyte.into(), found: count(*found) }.into()
            }
            Self::FallingLine { analyte, slope } => {
                says::LineFalls { analyte: analyte.into(), slope: given(*slope) }.into()
            }
            Self::OneLevel { analyte, standards } => {
                says::LineOneLevel { analyte: analyte.into(), standards: count(*standards) }.into()
            }
            Self::TooFewBlanks { analyte, role, found } => {
                says::BlanksFew { analyte: analyte.into(), role: role.into(), found: count(*found) }.into()
            }
            Self::NoBottleVolume { position, vial } => {
                says::BottleVolume { vial: vial.into(), position: at(*position) }.into()
            }
            Self::MissingInternalStandard { analyte, standard, place, hint } => says::InternalStandard {
                analyte: analyte.into(),
                standard: standard.into(),
                place: place.clone(),
                hint: hint.clone(),
            }
            .into(),
            Self::NoInternalStandard { analyte, resolution } => {
                says::InternalStandardResolution { analyte: analyte.into(), resolution: resolution.into() }.into()
            }
            Self::NoSuchVial { vial, species, target, monitor } => says::NoVial {
                vial: vial.into(),
                species: species.into(),
                target: target.into(),
                monitor: monitor.into(),
            }
            .into(),
            Self::MissingMonitor { monitor, species, target, place } => says::Monitor {
                monitor: monitor.into(),
                species: species.into(),
                target: target.into(),
                place: place.clone(),
            }
            .into(),
            Self::BadFactor { species, target, why } => {
                says::Factor { species: species.into(), target: target.into(), why: why.clone() }.into()
            }
            Self::TooFewDriftChecks { analyte, model, needed, found } => says::DriftChecksFew {
                analyte: analyte.into(),
                model: model.into(),
                needed: count(*needed),
                found: count(*found),
            }
            .into(),
            Self::UnfitDriftChecks { analyte, model, needed } => {
                says::DriftChecksUnfit { analyte: analyte.into(), model: model.into(), needed: count(*needed) }.into()
            }
            Self::BadRecipe { field, found, expected } => {
                says::Recipe { field: field.into(), found: found.into(), expected: expected.clone() }.into()
            }
            Self::Unit { position, vial, error } => {
                says::UnitOfVial { vial: vial.into(), position: at(*position), why: error.message() }.into()
            }
            Self::NoVials => says::NoVials.into(),
            Self::NoReadings => says::NoReadings.into(),
        }
    }
}

impl std::fmt::Display for Error {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl std::error::Error for Error {}

fn at(position: u32) -> Name {
    position.to_string().into()
}

fn given(x: f64) -> Shown {
    Shown::as_given(x, "")
}

fn percent(x: f64) -> Share {
    Share::new(x / 100.0, Digits::Decimals(0))
}
