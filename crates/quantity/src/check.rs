//! Every check that the program makes, by its name: what it looks at, and which stage of the path it speaks of.
//! A finding bears one of these ([`Finding`](crate::Finding)); a programme's table of checks says what each decides,
//! and `reference/default_checks.csv` is the table that a programme starts with.
//!
//! In the record and in files a check stands by its text, `stage.what`. Checked in the tests below, and against the
//! table in `assessment::verdict`.

use crate::Stage;
use serde::{Deserialize, Serialize};
use std::fmt;

macro_rules! checks {
    ($($stage:ident { $($variant:ident = $text:literal, $about:literal;)+ })+) => {
        /// A check.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub enum Check { $($(#[doc = $about] #[serde(rename = $text)] $variant,)+)+ }

        impl Check {
            /// All of them, in the order of the path.
            pub const ALL: &'static [Self] = &[$($(Self::$variant),+),+];

            /// The name in the record, in files and in the table of checks: `stage.what`.
            pub fn text(self) -> &'static str {
                match self { $($(Self::$variant => $text,)+)+ }
            }

            /// What it looks at.
            pub fn about(self) -> &'static str {
                match self { $($(Self::$variant => $about,)+)+ }
            }

            /// The stage that it speaks of. A fault of a file speaks of the stage that the file is of: its reader
            /// says which.
            pub fn stage(self) -> Stage {
                match self { $($(Self::$variant => Stage::$stage,)+)+ }
            }
        }
    };
}

checks! {
    Aquifer {
        AquiferAge = "aquifer.age", "The age of the water beside the travel time";
        WellLogGap = "well.log-gap", "The layer log from the ground to the foot of the well";
    }
    Well {
        WellFlow = "well.flow", "The flow at the visit";
        WellFlowSteady = "well.flow-steady", "Whether the flow changed during the visit";
        WellScreen = "well.screen", "Where the well takes its water";
        WellContactTime = "well.contact-time", "How long the water touched the pipe";
        WellSteady = "well.steady", "Whether the readings at the well stood still";
        WellStableReadings = "well.stable-readings", "Since when each reading stood still";
        WellRenewed = "well.renewed", "Volumes of the well that ran before the bottle";
        WellOxygen = "well.oxygen", "Dissolved oxygen at the well";
        WellPipe = "well.pipe", "What the pipe adds of the key metal";
        WellPipeByFlow = "well.pipe-by-flow", "What bottles at different flow say of the pipe's metal";
        WellSectionTwice = "well.section-twice", "A section of the well that is described twice";
        FieldMeterCheck = "field.meter-check", "The meter in its buffer or standard";
        FieldHead = "field.head", "The state of the programme that a field sheet was made from";
        FieldClock = "field.clock", "The clock of the phone";
        FieldOffset = "field.offset", "The offset of the phone from UTC";
        FieldStruck = "field.struck", "Entries of a field sheet that were taken back";
    }
    CleanAir {
        AirClass = "air.class", "The class of the air over the open bottle";
        AirOpenAirBlank = "air.open-air-blank", "Whether a blank met the open air that the bottle stood in";
        AirZeroCount = "air.zero-count", "What a count of zero particles shows";
    }
    Bottle {
        BottleFieldConflict = "bottle.field-conflict", "Field sheets that differ, among them or from the record";
        BottleLot = "bottle.lot", "Whether the lot may go out, by its blanks";
        BottleBlankAgainstForecast = "bottle.blank-against-forecast", "Field blanks beside their forecast";
        BottleLotBlank = "bottle.lot-blank", "What the lot's bottle blanks hold beside what was found";
        BottleAcid = "bottle.acid", "The acid in the bottle, as volume beside the water";
        BottleTrainingBlanks = "bottle.training-blanks", "A person's practice blanks beside the programme's";
        BottleBlanksInTime = "bottle.blanks-in-time", "Whether blanks rise with the years";
        BottlePattern = "bottle.pattern", "Which known source the metals of a blank look like";
    }
    CoolBox {
        CoolBoxAcidified = "cool-box.acidified", "Hours from filling to acid";
        CoolBoxTemperature = "cool-box.temperature", "The temperature of the box";
        CoolBoxSeal = "cool-box.seal", "The seal of the box";
        CoolBoxHoldingTime = "cool-box.holding-time", "Days from filling to measurement";
    }
    LabRun {
        RunCalibrationLine = "run.calibration-line", "Whether the points fit the calibration line";
        RunStandards = "run.standards", "Standards without a value or a reading";
        RunDrift = "run.drift", "The change of sensitivity over the run";
        RunBetweenVials = "run.between-vials", "How well an analyte reproduces between vials";
        RunDeadTime = "run.dead-time", "How long the detector was dead";
        RunBlankCount = "run.blank-count", "How many blanks of the field were measured";
        RunBlanksEqual = "run.blanks-equal", "Blanks that all came out equal";
        RunBlankOutlier = "run.blank-outlier", "A blank far above the others";
        RunReferenceMaterial = "run.reference-material", "Control waters beside their value";
        RunReferenceWarning = "run.reference-warning", "Control waters that miss by more than chance explains";
        RunReferenceBlank = "run.reference-blank", "The blank under the reference materials";
        RunInternalStandard = "run.internal-standard", "Internal standards beside the calibration";
        RunInterference = "run.interference", "What overlaps take from a signal";
        RunInterferenceFactor = "run.interference-factor", "The factor of an overlap";
        RunIsotopesAgree = "run.isotopes-agree", "Isotopes of an element beside each other";
        RunDuplicate = "run.duplicate", "Two bottles of one water in a run";
        RunFieldSpike = "run.field-spike", "The recovery of a spike made at the well";
        RunLabSpike = "run.lab-spike", "The recovery of a spike made in the laboratory";
        RunExcluded = "run.excluded", "Readings that a person took out";
        RunControlChart = "run.control-chart", "The run on the charts over all runs";
        RunReplicateOutlier = "run.replicate-outlier", "A replicate far from the others of its vial";
        RunWashOut = "run.wash-out", "What a high vial leaves for the vials after it";
        RunDetectorBackground = "run.detector-background", "What the detector counts without a sample";
        RunDriftOpen = "run.drift-open", "Vials that no drift check stands before or after";
        RunFastDrift = "run.fast-drift", "Drift faster than its checks, by a second control";
        RunRepeatedReadings = "run.repeated-readings", "Readings of two vials that are the same to the last digit";
        RunStandardSignal = "run.standard-signal", "Dead time and internal standard of the vials that others stand on";
        RunSecondSource = "run.second-source", "The calibration beside a second source";
        RunAssignedSide = "run.assigned-side", "Whether an assigned value stands before or after dilution";
        RunStock = "run.stock", "Whether the standards name the stock that they are made of";
        LabMethod = "lab.method", "Whether method and reporting limit of a reported value are stated";
        LabAccreditation = "lab.accreditation", "Whether it is on record that the laboratory's method is accredited or not";
        LabNotAccredited = "lab.not-accredited", "A method of a laboratory that is not accredited";
        LabBlank = "lab.blank", "The laboratory's own blanks beside its results";
        LabRecovery = "lab.recovery", "What came back of the laboratory's own spikes and control samples";
        LabDuplicate = "lab.duplicate", "The laboratory's own duplicates";
        LabControlChart = "lab.control-chart", "The laboratory's own control charts";
        LabBlanksNormal = "lab.blanks-normal", "Whether blanks look drawn from a normal distribution";
        LabLeadReference = "lab.lead-reference", "The reference material of isotope ratios of lead";
    }
    Number {
        NumberDetected = "number.detected", "Whether the net value exceeds its critical value";
        NumberRecovery = "number.recovery", "What came back of spikes in this water";
        NumberDuplicates = "number.duplicates", "Bottles of one water that disagree";
        NumberDuplicatesSpread = "number.duplicates-spread", "Bottles of one water that nearly disagree";
        NumberStability = "number.stability", "A bottle that changed between runs";
        NumberStabilitySpread = "number.stability-spread", "A bottle that nearly changed between runs";
        NumberLongTerm = "number.long-term", "What control water and blanks of all runs say of u";
        NumberExcluded = "number.excluded", "A bottle that a person took out of the evidence";
        NumberWaterShare = "number.water-share", "The water's share of what was found";
        NumberVialScatter = "number.vial-scatter", "Whether the vial's own scatter decides what is detected";
        NumberFewDegrees = "number.few-degrees", "What few values widen the interval beyond two standard uncertainties";
        NumberUnseenSource = "number.unseen-source", "Bottles of one kind that the joint fit of a trip misses";
        NumberPutBack = "number.put-back", "The number with what a person took out put back";
        NumberFractions = "number.fractions", "Filtered beside not filtered";
        NumberUncertainty = "number.uncertainty", "Whether a reported value states its uncertainty";
        NumberBlanks = "number.blanks", "Blanks of the programme beside a reported value";
        NumberReplicates = "number.replicates", "Replicates of the programme beside a reported value";
        NumberEstimated = "number.estimated", "A value that the laboratory calls an estimate";
        NumberUnread = "number.unread", "A kept value that cannot be read";
        NumberLimit = "number.limit", "Whether a reported non-detect says below what";
        NumberNegative = "number.negative", "Negative values that came without uncertainty";
        NumberProfile = "number.profile", "The profile of checks that a result is judged by";
        RecordFormerCheck = "record.former-check", "A check of another version of the program, by its name";
        RecordOrder = "record.order", "Rows of a series out of order";
        RecordDateRepeated = "record.date-repeated", "Rows of a series that share a date";
        RecordLimitAboveValues = "record.limit-above-values", "Limits of a series above all its values";
        RecordNotPositive = "record.not-positive", "Values of a series at or below zero";
        SummaryMassBelowLowest = "summary.mass-below-lowest", "Non-detects under the lowest value of a summary";
        SummaryShape = "summary.shape", "The shape that a summary takes its values to have";
        SummaryNoMethod = "summary.no-method", "Whether any method can summarise the values";
        TrendCoverage = "trend.coverage", "How often the interval of the slope holds its level";
        TrendSerialCorrelation = "trend.serial-correlation", "Neighbours in time that resemble each other";
        TrendLimitsMoved = "trend.limits-moved", "Limits that moved with the years";
        TrendSlopeOpen = "trend.slope-open", "Non-detects that leave the slope open";
        TrendSlopeUnbounded = "trend.slope-unbounded", "An interval of the slope without a bound";
        TrendStep = "trend.step", "A step in the series";
        ControlAction = "control.action", "Values above the action limit of a chart";
        ControlCannotTell = "control.cannot-tell", "Limits above the action limit of a chart";
        ControlRun = "control.run", "Values in a row on one side of the centre";
        ControlInTime = "control.in-time", "A chart that rises or falls with time";
    }
    Meaning {
        MeaningChargeBalance = "meaning.charge-balance", "Charges of the ions";
        MeaningConductivity = "meaning.conductivity", "Conductivity beside that of the ions";
        MeaningDissolvedSolids = "meaning.dissolved-solids", "Dissolved solids beside their sum";
        MeaningFieldAndLaboratoryPh = "meaning.field-and-laboratory-ph", "pH at the well beside that of the laboratory";
        MeaningCarbonateAlkalinity = "meaning.carbonate-alkalinity", "How much of the alkalinity is carbonate";
        MeaningCarbonTwice = "meaning.carbon-twice", "Carbon stated in two ways";
        MeaningOxygenBesideSulfide = "meaning.oxygen-beside-sulfide", "Oxygen beside sulfide";
        MeaningNitrateBesideSulfide = "meaning.nitrate-beside-sulfide", "Nitrate beside sulfide";
        MeaningDissolvedAboveTotal = "meaning.dissolved-above-total", "A filtered value above the unfiltered one";
        MeaningStatedTwice = "meaning.stated-twice", "A solute stated twice";
        MeaningAlkalinityTwice = "meaning.alkalinity-twice", "Alkalinity stated in two ways";
        MeaningMajorIons = "meaning.major-ions", "Major ions that an analysis needs";
        MeaningRedoxMeasured = "meaning.redox-measured", "Whether a redox state was measured";
        MeaningLeadSource = "meaning.lead-source", "Isotope ratios of lead beside known sources";
        MeaningOrganicsSum = "meaning.organics-sum", "The highest possible sum of compounds";
        MeaningOrganicsBlind = "meaning.organics-blind", "Compounds whose detection limit lies over their limit";
        MeaningOrganicsDouble = "meaning.organics-double", "One compound under two names";
        MeaningOrganicsNumber = "meaning.organics-number", "A compound's number";
        MeaningStatement = "meaning.statement", "A sentence beside its results";
        MeaningStatementChanged = "meaning.statement-changed", "What changed under a sentence";
        MeaningStatementToday = "meaning.statement-today", "The answer to a sentence by the record of today";
    }
    LabRun {
        FileAssigned = "file.assigned", "Assigned values of one vial that differ";
        FileBottleDiffers = "file.bottle-differs", "A bottle described in two ways";
        FileClock = "file.clock", "The phone's clock against the record";
        FileColumnMissing = "file.column-missing", "A column that is not there";
        FileColumnTwice = "file.column-twice", "A column that stands twice";
        FileColumnUnknown = "file.column-unknown", "A column that nothing names";
        FileDelimiter = "file.delimiter", "The sign between cells";
        FileDiffers = "file.differs", "A row that the programme holds otherwise";
        FileEncoding = "file.encoding", "Bytes that are not of the encoding";
        FileForm = "file.form", "The form of the file";
        FileLineLength = "file.line-length", "A line without end";
        FileNotText = "file.not-text", "A file that is no text";
        FileNotWorkbook = "file.not-workbook", "A file that is no workbook";
        FileProgramme = "file.programme", "A field sheet of another programme";
        FileQuote = "file.quote", "A quote that does not close";
        FileReadingTwice = "file.reading-twice", "A reading that stands twice";
        FileReference = "file.reference", "A name that the programme does not have";
        FileReplicateOfTwo = "file.replicate-of-two", "A replicate set with two samples";
        FileResultTwice = "file.result-twice", "A result that stands twice";
        FileRowLength = "file.row-length", "A row with too few or too many cells";
        FileRowTwice = "file.row-twice", "A row that stands twice";
        FileRunDiffers = "file.run-differs", "A run described in two ways";
        FileSheet = "file.sheet", "The sheet of a workbook";
        FileSize = "file.size", "A file that is too large";
        FileStandardWithoutValue = "file.standard-without-value", "A standard without a value";
        FileUnit = "file.unit", "A unit";
        FileUnusual = "file.unusual", "A value outside what is usual";
        FileValue = "file.value", "A value";
        FileVialTwice = "file.vial-twice", "A vial that stands twice";
    }
}

/// Names that earlier tables used for a check, and its name now.
const FORMER: [(&str, Check); 1] = [("meaning.oxygen-sulfide", Check::MeaningOxygenBesideSulfide)];

impl Check {
    /// From the name in the record, also from one that an earlier version gave it.
    pub fn from_text(text: &str) -> Option<Self> {
        let now = Self::ALL.iter().copied().find(|c| c.text() == text);
        now.or_else(|| FORMER.iter().find(|(old, _)| *old == text).map(|(_, c)| *c))
    }

    /// Whether a programme says what it decides. A fault of a file refuses the file: there is nothing to weigh.
    pub fn is_weighed(self) -> bool {
        !self.text().starts_with("file.")
    }

    /// Names like a text, for a message: the three that begin most like it.
    pub fn like(text: &str) -> Vec<&'static str> {
        let same = |c: &Self| c.text().bytes().zip(text.bytes()).take_while(|(a, b)| a == b).count();
        let mut all: Vec<Self> = Self::ALL.iter().copied().filter(|c| c.is_weighed()).collect();
        all.sort_by_key(|c| std::cmp::Reverse(same(c)));
        all.into_iter().take(3).map(Self::text).collect()
    }
}

impl fmt::Display for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_check_reads_back_and_no_two_share_a_name() {
        let texts: BTreeSet<&str> = Check::ALL.iter().map(|c| c.text()).collect();
        assert_eq!(texts.len(), Check::ALL.len());
        for c in Check::ALL {
            assert_eq!(Check::from_text(c.text()), Some(*c));
            let json = serde_json::to_value(c).unwrap();
            assert_eq!(json, c.text());
            assert_eq!(serde_json::from_value::<Check>(json).unwrap(), *c);
            assert!(c.text().contains('.') && !c.about().is_empty(), "{c}");
        }
        for (old, now) in FORMER {
            assert!(!texts.contains(old), "{old} is a name of today");
            assert_eq!(Check::from_text(old), Some(now));
        }
        assert_eq!(Check::from_text("number.water-shore"), None);
    }

    #[test]
    fn a_mistyped_name_finds_the_right_one_near() {
        assert_eq!(Check::like("number.water-shore")[0], "number.water-share");
        assert!(Check::like("file.value").iter().all(|n| !n.starts_with("file.")));
    }
}
