//! What a laboratory of the second simulator planned, and what went wrong in it without being written down.

/// A metal as the instrument sees it.
#[derive(Debug, Clone, Copy)]
pub struct Metal {
    pub element: &'static str,
    /// Mass number and share of the sensitivity.
    pub isotopes: &'static [(u16, f64)],
    /// counts/s per ng/L, all isotopes.
    pub sensitivity: f64,
    /// Mean contamination of a bottle, ng/L in 250 mL.
    pub contamination: f64,
    /// Its standards, control water and samples are this many times those of lead.
    pub scale: f64,
}

pub const LEAD: Metal = Metal {
    element: "Pb",
    isotopes: &[(206, 0.24), (207, 0.22), (208, 0.54)],
    sensitivity: 1500.0,
    contamination: 0.02,
    scale: 1.0,
};

pub const CADMIUM: Metal =
    Metal { element: "Cd", isotopes: &[(111, 1.0)], sensitivity: 500.0, contamination: 0.006, scale: 0.3 };

pub const ZINC: Metal =
    Metal { element: "Zn", isotopes: &[(66, 1.0)], sensitivity: 800.0, contamination: 2.0, scale: 1000.0 };

pub const THALLIUM: Metal =
    Metal { element: "Tl", isotopes: &[(205, 1.0)], sensitivity: 1000.0, contamination: 0.005, scale: 1.0 };

/// Molybdenum is read for its oxide on cadmium alone.
pub const MOLYBDENUM_MASS: u16 = 95;
pub const MOLYBDENUM_CPS_PER_NG_L: f64 = 230.0;
pub const MOLYBDENUM_NG_L: f64 = 500.0;

/// What of the results is held against the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked {
    /// The first metal alone.
    One,
    /// The first metal plus the second, in one bottle.
    Sum,
    /// The first metal over the second, in one bottle.
    Ratio,
}

/// The plan of a run: all of it is written in the sequence and the recipe.
// Each is a question that a sequence answers with yes or no.
#[allow(clippy::struct_excessive_bools)]
#[derive(Debug, Clone)]
pub struct Design {
    pub metals: &'static [Metal],
    pub asked: Asked,
    pub field_blanks: usize,
    /// Coefficient of variation of a bottle's contamination (lognormal): 1 where bottles are skewed, as dusty ones are.
    pub bottle_cv: f64,
    pub replicates: usize,
    pub integration_s: f64,
    /// Factor on every sensitivity: 0.01 makes counts few.
    pub brightness: f64,
    /// Factor on all levels but the blanks: a calibration that goes high.
    pub range: f64,
    /// A top standard far over the others, ng/L of lead.
    pub top_standard: Option<f64>,
    /// Samples and field blanks: factor and relative u; the true factor differs by that u.
    pub dilution: (f64, f64),
    /// Whether only the samples are diluted.
    pub blanks_diluted: bool,
    /// Vials of gas background stand in the run.
    pub gas_background: bool,
    /// What the detector counts in the dark, counts/s per isotope; the gas background shows it where there is one.
    pub dark_cps: f64,
    /// Signal that the matrix of samples leaves, from … to.
    pub matrix: (f64, f64),
    /// Relative u on the label of the standards' stock; its true level differs by that.
    pub u_stock: f64,
    /// The standards name the stock that they are made of.
    pub stock_named: bool,
    /// A control water of another maker is measured.
    pub second_source: bool,
    /// The control water stands again between the drift checks.
    pub control_often: bool,
    /// The first drift check stands after the samples asked of.
    pub check_late: bool,
    /// Bottles of 125, 250 and 500 mL; a blank counts as mass per bottle.
    pub bottles_differ: bool,
    /// A high water stands before each sample asked of, and a rinse after the first high water tells what stays.
    pub high_before: bool,
    /// The run goes over two days, bridged by drift checks.
    pub two_days: bool,
    /// Molybdenum in the samples, its oxide on cadmium.
    pub oxide: bool,
}

impl Default for Design {
    fn default() -> Self {
        Self {
            metals: &[LEAD],
            asked: Asked::One,
            field_blanks: 6,
            bottle_cv: 0.25,
            replicates: 5,
            integration_s: 3.0,
            brightness: 1.0,
            range: 1.0,
            top_standard: None,
            dilution: (1.0, 0.0),
            blanks_diluted: false,
            gas_background: true,
            dark_cps: 3.0,
            matrix: (0.80, 0.95),
            u_stock: 0.005,
            stock_named: true,
            second_source: true,
            control_often: false,
            check_late: false,
            bottles_differ: false,
            high_before: false,
            two_days: false,
            oxide: false,
        }
    }
}

/// What went wrong, unseen by whoever wrote the sequence.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    None,
    /// One replicate of each sample asked of is three times too high.
    Particle,
    /// 1e-4 to 1e-3 of a vial stays for the next.
    CarryOver,
    /// True dead time a fifth longer than the recipe's.
    LongerDeadTime,
    /// The detector's dead time extends; the recipe knows the non-extending one.
    ExtendingDeadTime,
    /// Half of the internal standard in one standard.
    HalfInStandard,
    /// Half of the internal standard in one field blank.
    HalfInBlank,
    /// The stock of the standards holds 2 % more than its label.
    Stock,
    /// Sensitivity falls by 5 % while the instrument warms up; the internal standard does not see it.
    WarmUp,
    /// A wave of 4 % that every drift check meets in the same phase.
    Wave,
    /// The readings of the samples asked of are those of other vials.
    Copied,
    /// One field blank holds fifteen times the usual contamination.
    DirtyBlank,
    /// 5 mL of acid in 250 mL of water.
    Acid,
    /// Standards filled up by 5 %; their values are those after it, the sequence reads as those before.
    Side,
}
