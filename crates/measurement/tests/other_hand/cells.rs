//! The cells: a design, with or without a fault, the checks that may speak of it, the cell that is the same without the
//! fault, and the goals that are held to in every test.

use super::design::{Asked, CADMIUM, Design, Fault, LEAD, THALLIUM, ZINC};
use super::judge::Goal;
use quantity::Check;

pub struct Cell {
    pub name: &'static str,
    pub design: Design,
    pub fault: Fault,
    /// Checks that speak of the fault.
    pub told_by: &'static [Check],
    /// The cell without it.
    pub clean: &'static str,
    /// Checks that speak of the design, as they should.
    pub of_design: &'static [Check],
    /// The fault is to be told although intervals still hold the truth.
    pub must_tell: bool,
    /// Goals that the reduction does not keep: printed, not asserted.
    pub open: &'static [Goal],
}

const FEW_BLANKS: &[Check] = &[Check::RunBlankCount, Check::NumberFewDegrees];

const LINE_OFF: &[Check] = &[
    Check::RunDeadTime,
    Check::RunStandardSignal,
    Check::RunCalibrationLine,
    Check::RunSecondSource,
    Check::RunReferenceMaterial,
];

impl Cell {
    fn clean(name: &'static str, design: Design) -> Self {
        Self {
            name,
            design,
            fault: Fault::None,
            told_by: &[],
            clean: name,
            of_design: &[],
            must_tell: false,
            open: &[],
        }
    }

    fn told_by(mut self, checks: &'static [Check], clean: &'static str) -> Self {
        (self.told_by, self.clean) = (checks, clean);
        self
    }

    fn open(mut self, goals: &'static [Goal]) -> Self {
        self.open = goals;
        self
    }

    fn of_design(mut self, checks: &'static [Check]) -> Self {
        self.of_design = checks;
        self
    }

    fn must_tell(mut self) -> Self {
        self.must_tell = true;
        self
    }

    fn with(mut self, fault: Fault) -> Self {
        self.fault = fault;
        self
    }
}

pub fn all() -> Vec<Cell> {
    let mut cells = without_fault();
    cells.extend(counting_faults());
    cells.extend(calibration_faults());
    cells.extend(other_faults());
    cells
}

/// What a careful laboratory does, in all its ways.
fn without_fault() -> Vec<Cell> {
    let d = Design::default;
    let blanks = |n, cv| Design { field_blanks: n, bottle_cv: cv, ..d() };
    let few = Design { brightness: 0.01, dark_cps: 0.1, integration_s: 1.0, replicates: 3, ..d() };
    let two_metals = &[LEAD, THALLIUM];
    let shared = Design { metals: two_metals, dilution: (2.0, 0.02), ..d() };
    vec![
        Cell::clean("clean", d()),
        Cell::clean("2 field blanks", blanks(2, 0.25)).of_design(FEW_BLANKS).open(&[Goal::Near]),
        Cell::clean("3 field blanks", blanks(3, 0.25)),
        Cell::clean("5 field blanks", blanks(5, 0.25)),
        Cell::clean("8 field blanks", blanks(8, 0.25)),
        Cell::clean("2 field blanks, bottles of cv 1", blanks(2, 1.0))
            .of_design(FEW_BLANKS)
            .open(&[Goal::Near, Goal::Nothing]),
        // Fewer than eight blanks cannot show that bottles are so skewed; a sentence in each derivation says it is assumed.
        Cell::clean("3 field blanks, bottles of cv 1", blanks(3, 1.0)).open(&[Goal::Near, Goal::Nothing]),
        Cell::clean("5 field blanks, bottles of cv 1", blanks(5, 1.0)).open(&[
            Goal::Near,
            Goal::Nothing,
            Goal::EachCheck,
        ]),
        // Bottles so skewed raise the check of outlying blanks: one of them is far above the others by nature.
        Cell::clean("6 field blanks, bottles of cv 1", blanks(6, 1.0)).open(&[Goal::Nothing, Goal::EachCheck]),
        Cell::clean("8 field blanks, bottles of cv 1", blanks(8, 1.0)).open(&[
            Goal::Nothing,
            Goal::EachCheck,
            Goal::AllChecks,
        ]),
        Cell::clean("3 replicates", Design { replicates: 3, ..d() }),
        Cell::clean("few counts", few).open(&[Goal::EachCheck, Goal::AllChecks]),
        Cell::clean("two days, bridged", Design { two_days: true, ..d() }).of_design(&[Check::RunInternalStandard]),
        Cell::clean("matrix leaves 65 to 75 %", Design { matrix: (0.65, 0.75), ..d() }),
        Cell::clean("oxide of Mo on Cd", Design { metals: &[CADMIUM], oxide: true, ..d() })
            .of_design(&[Check::RunInterference]),
        Cell::clean(
            "Zn by pulses and current, diluted 2.000(10)",
            Design { metals: &[ZINC], dilution: (2.0, 0.005), ..d() },
        )
        .open(&[Goal::EachCheck]),
        Cell::clean(
            "diluted tenfold, 20 cps in the dark, measured",
            Design { dilution: (10.0, 0.002), dark_cps: 20.0, matrix: (0.65, 0.75), ..d() },
        ),
        // Where nothing after a high vial tells what it left, a usual carry-over is asked about: known to nobody, not none.
        Cell::clean("a thousandfold water before, nothing stays", Design { high_before: true, ..d() })
            .of_design(&[Check::RunWashOut])
            .open(&[Goal::EachCheck]),
        Cell::clean("bottles of three sizes, mass per bottle", Design { bottles_differ: true, ..d() }),
        Cell::clean("control water between the checks", Design { control_often: true, ..d() })
            .open(&[Goal::EachCheck, Goal::AllChecks]),
        Cell::clean("standards to 9 % dead", Design { range: 600.0, ..d() }),
        Cell::clean("standards to 20 % dead", Design { range: 1500.0, ..d() })
            .of_design(&[Check::RunDeadTime, Check::RunStandardSignal]),
        Cell::clean("Pb + Tl of one bottle, dilution 2 %", Design { asked: Asked::Sum, ..shared.clone() }),
        Cell::clean("Pb : Tl of one bottle, dilution 2 %", Design { asked: Asked::Ratio, ..shared }),
        Cell::clean("stock known to 2 %, named", Design { u_stock: 0.02, ..d() }),
    ]
}

fn counting_faults() -> Vec<Cell> {
    let d = Design::default;
    let cell = |name, design| Cell::clean(name, design);
    vec![
        cell("one replicate of 3 threefold", Design { replicates: 3, ..d() })
            .with(Fault::Particle)
            .told_by(&[Check::RunReplicateOutlier, Check::NumberVialScatter], "3 replicates"),
        cell("one replicate of 5 threefold", d())
            .with(Fault::Particle)
            .told_by(&[Check::RunReplicateOutlier, Check::NumberVialScatter], "clean"),
        cell("1e-4 to 1e-3 of a thousandfold water stays", Design { high_before: true, ..d() })
            .with(Fault::CarryOver)
            .told_by(&[Check::RunWashOut], "a thousandfold water before, nothing stays")
            .open(&[Goal::Quiet]),
        cell(
            "20 cps in the dark, not measured, diluted tenfold",
            Design { dilution: (10.0, 0.002), dark_cps: 20.0, gas_background: false, matrix: (0.65, 0.75), ..d() },
        )
        .told_by(&[Check::RunDetectorBackground], "diluted tenfold, 20 cps in the dark, measured"),
        cell("dead time 20 % longer", Design { range: 600.0, ..d() })
            .with(Fault::LongerDeadTime)
            .told_by(LINE_OFF, "standards to 9 % dead"),
        cell("dead time extends, to 20 % dead", Design { range: 1500.0, ..d() })
            .with(Fault::ExtendingDeadTime)
            .told_by(LINE_OFF, "clean"),
        // 26,460 ng/L · 810 counts/s: 0.43 in the dead time, so that 30 % of the time is dead.
        cell("top standard 30 % dead", Design { top_standard: Some(26_460.0), ..d() })
            .told_by(LINE_OFF, "clean")
            .must_tell(),
        cell("readings of another vial", d()).with(Fault::Copied).told_by(&[Check::RunRepeatedReadings], "clean"),
    ]
}

fn calibration_faults() -> Vec<Cell> {
    let d = Design::default;
    let cell = |name, design, fault| Cell::clean(name, design).with(fault);
    let signal = &[Check::RunStandardSignal, Check::RunInternalStandard];
    let standard = &[Check::RunStandardSignal, Check::RunInternalStandard, Check::RunCalibrationLine];
    let second = &[Check::RunSecondSource, Check::RunReferenceMaterial];
    let drift = &[Check::RunFastDrift, Check::RunDrift, Check::RunBetweenVials];
    vec![
        cell("half the internal standard in a standard", d(), Fault::HalfInStandard)
            .told_by(standard, "clean")
            .must_tell(),
        cell("half the internal standard in a field blank", d(), Fault::HalfInBlank)
            .told_by(signal, "clean")
            .must_tell(),
        cell("stock 2 % high, second source", d(), Fault::Stock).told_by(second, "clean").open(&[Goal::Level]),
        cell("stock 2 % high, no second source", Design { second_source: false, ..d() }, Fault::Stock)
            .told_by(second, "clean"),
        cell("stock known to 2 %, not named", Design { u_stock: 0.02, stock_named: false, ..d() }, Fault::None)
            .told_by(&[Check::RunStock], "stock known to 2 %, named"),
        cell("value on the other side of 1.05", d(), Fault::Side)
            .told_by(&[Check::RunAssignedSide, Check::RunSecondSource, Check::RunReferenceMaterial], "clean"),
        cell("5 % of drift before the first check", Design { check_late: true, ..d() }, Fault::WarmUp)
            .told_by(&[Check::RunDriftOpen], "clean"),
        cell("wave of 4 % in step with the checks", d(), Fault::Wave).told_by(drift, "clean").open(&[Goal::Level]),
        cell("the same wave, control water between", Design { control_often: true, ..d() }, Fault::Wave)
            .told_by(drift, "control water between the checks")
            .open(&[Goal::Level]),
    ]
}

fn other_faults() -> Vec<Cell> {
    let d = Design::default;
    let blanks = |n, cv| Design { field_blanks: n, bottle_cv: cv, ..d() };
    let cell = |name, design, fault| Cell::clean(name, design).with(fault);
    vec![
        cell("1 of 3 field blanks dirty", blanks(3, 0.25), Fault::DirtyBlank)
            .told_by(&[Check::RunBlankOutlier], "3 field blanks")
            .must_tell()
            .open(&[Goal::Told]),
        cell("1 of 6 field blanks dirty", blanks(6, 0.25), Fault::DirtyBlank)
            .told_by(&[Check::RunBlankOutlier], "clean")
            .must_tell(),
        cell("1 of 3 field blanks dirty, bottles of cv 1", blanks(3, 1.0), Fault::DirtyBlank)
            .told_by(&[Check::RunBlankOutlier], "3 field blanks, bottles of cv 1")
            .must_tell()
            .open(&[Goal::Told]),
        cell("1 of 6 field blanks dirty, bottles of cv 1", blanks(6, 1.0), Fault::DirtyBlank)
            .told_by(&[Check::RunBlankOutlier], "6 field blanks, bottles of cv 1")
            .must_tell(),
        cell("5 mL of acid in 250 mL, not recorded", d(), Fault::Acid).told_by(&[Check::BottleAcid], "clean"),
    ]
}
