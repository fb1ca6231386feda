//! The path of one bottle in picograms: what each stage added, by the nested blanks of the same
//! run, beside what was found and what the evidence leaves to the water.
//!
//! Stages: lab run (procedural blanks), bottle (bottle less procedural), cool box (trip less
//! bottle), clean air and hands (field less trip; only field blanks opened in the air that the bottle stood in, or the
//! stage was not measured). Blanks that a person took out do not count.
//! ng/L times mL is pg.

use cleanliness::nested::{self, Added};
use measurement::run::{ReducedRun, Role, State};
use quantity::Measured;
use record::model::{BottleKind, ResultRow};

/// Metal in one bottle by stage, pg.
#[derive(Debug, Clone, PartialEq)]
pub struct BottlePath {
    /// Volume of water, mL.
    pub volume_ml: f64,
    /// Procedure of the laboratory, acid with it.
    pub lab_run: Option<Added>,
    /// The bottle itself.
    pub bottle: Option<Added>,
    /// The journey.
    pub cool_box: Option<Added>,
    /// Air and hands at the well; none where fewer than two blanks met that air.
    pub clean_air: Option<Added>,
    /// All that was found, gross.
    pub found: Measured,
    /// Net of the one blank: what the blanks leave.
    pub water: Measured,
    /// One-sided 95 % upper bound of it where it was not detected.
    pub water_upper: Option<f64>,
}

/// The path of a result of a run; `None` where the result did not come from it. `met_its_air`: was the field blank of
/// this label (none: without a bottle on record) opened in the air that the bottle stood in?
pub fn of(
    reduced: &ReducedRun,
    row: &ResultRow,
    (kind, volume_ml): (BottleKind, f64),
    met_its_air: impl Fn(Option<&str>) -> bool,
) -> Option<BottlePath> {
    if !kind.is_water() {
        return None;
    }
    let result = reduced.results.iter().find(|r| {
        r.bottle.as_deref() == Some(&row.bottle)
            && r.analyte.element == row.analyte
            && r.analyte.isotopes == row.isotopes
            && r.analyte.resolution == row.resolution
    })?;
    let pg = |role: Role| -> Vec<f64> {
        reduced
            .results
            .iter()
            .filter(|r| r.role == role && r.analyte == result.analyte)
            .filter(|r| role != Role::FieldBlank || met_its_air(r.bottle.as_deref()))
            // Gross: a stage is the difference of two kinds of blank, and of a net value one is taken off already.
            .map(|r| r.gross.value * volume_ml)
            .collect()
    };
    let (procedural, bottle, trip, field) =
        (pg(Role::ProceduralBlank), pg(Role::BottleBlank), pg(Role::TripBlank), pg(Role::FieldBlank));
    let in_pg = |m: &Measured| Measured {
        value: m.value * volume_ml,
        u: m.u * volume_ml,
        dof: m.dof,
        unit: quantity::Unit::known("pg"),
    };
    Some(BottlePath {
        volume_ml,
        lab_run: nested::first(&procedural),
        bottle: nested::added(&bottle, &procedural),
        cool_box: nested::added(&trip, &bottle),
        clean_air: nested::added(&field, &trip),
        found: in_pg(&result.gross),
        water: in_pg(&result.net),
        water_upper: (result.state == State::NotDetected).then_some(result.upper_bound * volume_ml),
    })
}
