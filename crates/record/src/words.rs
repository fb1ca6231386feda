//! Words of the record that are one of a few: kinds of bottles, roles of vials, states, verdicts, modes. Each list stands
//! here once, as a type with its words: [`schema`](crate::schema) declares columns by them, the importer, the sciences'
//! callers, the package and the interfaces read and write them.

use crate::store::{Cell, FromCell};

macro_rules! words {
    ($(#[$about:meta])* $name:ident { $($(#[$doc:meta])* $variant:ident = $word:literal,)+ }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize)]
        pub enum $name { $($(#[$doc])* #[serde(rename = $word)] $variant,)+ }

        impl $name {
            /// All of them, as declared.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// Their words, in the same order.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The word in the record.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word,)+ }
            }

            /// From the word in the record.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }

        impl FromCell for $name {
            const EXPECTED: &'static str = stringify!($name);
            fn from_cell(cell: &Cell) -> Option<Self> {
                match cell { Cell::Text(t) => Self::from_word(t), _ => None }
            }
        }
    };
}

words! {
    /// What a bottle is.
    BottleKind {
        /// Water of a well.
        Sample = "sample",
        /// The same water again.
        Duplicate = "duplicate",
        /// Clean water through all that the sample met.
        FieldBlank = "field-blank",
        /// Clean water that travelled closed.
        TripBlank = "trip-blank",
        /// What the bottle itself gives.
        BottleBlank = "bottle-blank",
        /// What the equipment gives.
        EquipmentBlank = "equipment-blank",
        /// Metal added at the well.
        FieldSpike = "field-spike",
        /// Metal added in the laboratory.
        LabSpike = "lab-spike",
        /// A reference material.
        ReferenceMaterial = "reference-material",
    }
}

words! {
    /// What a vial of a run is for.
    VialRole {
        /// Blank of the calibration.
        CalibrationBlank = "calibration-blank",
        /// Calibration standard.
        Standard = "standard",
        /// Blank of the laboratory's procedure.
        ProceduralBlank = "procedural-blank",
        /// Bottle blank.
        BottleBlank = "bottle-blank",
        /// Trip blank.
        TripBlank = "trip-blank",
        /// Field blank.
        FieldBlank = "field-blank",
        /// Equipment blank.
        EquipmentBlank = "equipment-blank",
        /// Reference material.
        ReferenceMaterial = "reference-material",
        /// Drift check.
        DriftCheck = "drift-check",
        /// One element alone, for the overlaps it makes.
        InterferenceCheck = "interference-check",
        /// Sample.
        Sample = "sample",
        /// Duplicate.
        Duplicate = "duplicate",
        /// Spike of the field.
        FieldSpike = "field-spike",
        /// Spike of the laboratory.
        LabSpike = "lab-spike",
    }
}

words! {
    /// On which side of a vial's dilution an assigned value stands.
    AssignedSide {
        /// Before it: in the bottle that the vial was diluted from.
        InTheBottle = "in the bottle",
        /// After it: in the solution as it was measured.
        AsMeasured = "as measured",
    }
}

words! {
    /// Which side of the stated number the value lies on.
    Censor {
        /// A value.
        Equal = "=",
        /// Below the limit.
        Below = "<",
        /// Above the limit.
        Above = ">",
    }
}

words! {
    /// Detection state.
    State {
        /// At or above the quantification limit.
        Quantified = "quantified",
        /// Between critical value and quantification limit.
        Detected = "detected",
        /// Net at or below the critical value.
        NotDetected = "not-detected",
        /// Net above the critical value, but the vial's own scatter might show as much without any metal.
        NotDecided = "not-decided",
        /// The laboratory calls it an estimate.
        Estimated = "estimated",
        /// Above the range.
        AboveRange = "above-range",
    }
}

words! {
    /// What a number bears.
    Bears {
        /// The value itself.
        Value = "value",
        /// An upper bound: metal of a stage that no blank met is in it.
        AtMost = "at-most",
    }
}

words! {
    /// A row of the accounting of a bottle.
    AccountingPart {
        /// All that was found.
        Found = "found",
        /// The aquifer's.
        Aquifer = "aquifer",
        /// That of well and pipe.
        WellAndPipe = "well-and-pipe",
        /// That of air and hands.
        AirAndHands = "air-and-hands",
        /// That of the bottle and its acid.
        BottleAndAcid = "bottle-and-acid",
        /// That of the journey.
        Journey = "journey",
        /// That of the laboratory.
        Laboratory = "laboratory",
    }
}

words! {
    /// How a part is told, and how the sum of the parts stands.
    AccountingTold {
        /// By blanks or bottles.
        Measured = "measured",
        /// No blank met it.
        NotMeasured = "not-measured",
        /// Nothing tells it from another part.
        NotToldApart = "not-told-apart",
        /// An upper bound.
        AtMost = "at-most",
        /// The parts add up to what was found.
        AddsUp = "adds-up",
        /// They do by the model, but the bottles disagree.
        BottlesDisagree = "bottles-disagree",
        /// They do not.
        DoesNotAddUp = "does-not-add-up",
        /// Nothing was found above the blanks.
        NothingAbove = "nothing-above",
    }
}

words! {
    /// What findings add up to.
    VerdictWord {
        /// All decisive checks are met.
        Accepted = "accepted",
        /// Decisive evidence is missing, or a warning stands unsigned.
        Provisional = "provisional",
        /// A decisive check is not met.
        Rejected = "rejected",
    }
}

words! {
    /// What a check decides.
    Weight {
        /// Not met means rejected, missing means provisional.
        Decisive = "decisive",
        /// Not met means provisional until signed.
        Warning = "warning",
        /// Told only.
        Note = "note",
    }
}

words! {
    /// How results were come by that a profile of checks may judge.
    ProfileBasis {
        /// Derived from counts of a run.
        Counts = "counts",
        /// Reported as concentrations by a laboratory.
        Reported = "reported",
        /// Read on a meter: temperature, pH, conductivity, dissolved oxygen, redox potential, turbidity.
        Meter = "meter",
    }
}

words! {
    /// What a row of a laboratory's own quality control says.
    QualityKind {
        /// Whether the method is accredited: `answer`.
        Accreditation = "accreditation",
        /// A blank of the laboratory: `value`, or `below` where nothing was found.
        Blank = "blank",
        /// What came back of a spike or a control sample: `value` in percent, or `value` beside `expected`.
        Recovery = "recovery",
        /// One sample twice: `value` and `second`, or their difference as `value` in percent.
        Duplicate = "duplicate",
        /// Whether the control chart over the years is in control: `answer`.
        ControlChart = "control-chart",
        /// A meter held in a buffer or standard: `value` beside `expected`.
        MeterCheck = "meter-check",
    }
}

words! {
    /// A plain answer.
    Answer {
        /// Yes.
        Yes = "yes",
        /// No.
        No = "no",
    }
}

words! {
    /// Mass resolution.
    Resolution {
        /// Low.
        Low = "low",
        /// Medium.
        Medium = "medium",
        /// High.
        High = "high",
    }
}

words! {
    /// Detector mode.
    Mode {
        /// Pulse counting.
        Counting = "counting",
        /// Analogue.
        Analogue = "analogue",
    }
}

words! {
    /// What a well yields.
    Medium {
        /// Water of the ground.
        Groundwater = "groundwater",
        /// A stream or a lake.
        SurfaceWater = "surface-water",
    }
}

words! {
    /// The day that a value of tritium holds for.
    DecayedTo {
        /// That of sampling: the laboratory reckoned it back.
        Sampling = "sampling",
        /// That of measurement: nothing was reckoned back.
        Measurement = "measurement",
    }
}

words! {
    /// What carbon-14 was normalised to.
    Normalised {
        /// A δ13C of −25 ‰, as F14C always is.
        MinusTwentyFive = "d13C-minus-25",
        /// Nothing: the fractionation is still in it.
        Not = "not-normalised",
    }
}

words! {
    /// What is known of the recharge, each with its unit; prices in any one currency.
    RechargeFact {
        /// Temperature at the water table when the water fell.
        Temperature = "recharge-temperature-C",
        /// Height of the recharge area.
        Height = "recharge-height-m",
        /// Excess air.
        ExcessAir = "excess-air-cm3STP-kg",
        /// Thickness of the zone above the water table.
        DryZone = "dry-zone-m",
        /// δ18O of winter rain.
        WinterRain = "winter-rain-d18O",
        /// δ18O of summer rain.
        SummerRain = "summer-rain-d18O",
        /// δ18O of the year's rain at the height of its station.
        YearRain = "year-rain-d18O",
        /// Height of that station.
        StationHeight = "rain-station-height-m",
        /// Analysis, bottle and trip.
        Price = "price",
    }
}

words! {
    /// What a stretch of a well is.
    SectionKind {
        /// Blind pipe.
        Casing = "casing",
        /// Slotted pipe.
        Screen = "screen",
        /// The bare hole.
        Open = "open",
    }
}

words! {
    /// Where particles were counted.
    AirPlace {
        /// In the cabinet.
        Cabinet = "cabinet",
        /// Outdoors.
        OpenAir = "open-air",
        /// In a room.
        Room = "room",
    }
}

words! {
    /// The seal of a box.
    Seal {
        /// Whole.
        Whole = "whole",
        /// Broken.
        Broken = "broken",
    }
}

impl BottleKind {
    /// Whether it holds the water of a well, and no blank, spike or reference material.
    pub const fn is_water(self) -> bool {
        matches!(self, Self::Sample | Self::Duplicate)
    }

    /// Whether it is a blank of a bottle.
    pub const fn is_blank(self) -> bool {
        matches!(self, Self::FieldBlank | Self::TripBlank | Self::EquipmentBlank | Self::BottleBlank)
    }
}

words! {
    /// How a key came to be used no longer.
    KeyEndHow {
        /// Its owner laid it aside.
        Retired = "retired",
        /// Another may have it.
        Lost = "lost",
    }
}

words! {
    /// What was signed by key.
    SignedWhat {
        /// A sign-off.
        SignOff = "sign-off",
        /// A head of the record, and so all before it.
        Head = "head",
    }
}

words! {
    /// How others keep a head.
    AnchorKind {
        /// As a line of text.
        Line = "line",
        /// An authority stamped it.
        TimeStamp = "time-stamp",
    }
}
