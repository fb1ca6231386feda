//! What the bottle does to a number: acid thins the water, its volume carries masses per bottle, its
//! density turns a dilution by mass into one by volume.
//!
//! In: mL, kg/L, dilution by mass as the vial has them. Out: factors without unit.
//!
//! ```text
//! c_water = c_solution·F·A     A = (V + V_acid)/V     F = 1 + (D − 1)·ρ/ρ_d  (D where ρ is not recorded)
//! ```
//!
//! V and V_acid are volumes of water and acid, taken to add up (nitric or hydrochloric acid of two
//! percent shrinks by less than 0.1 % of the whole: the programme's own estimate). Blanks have their
//! own A, so that what is subtracted is metal per volume of water as well. One bottle has one error
//! of volume and one of acid, whichever vials, metals or steps they enter.
//! Valid for acid up to the volume of the water. Checked in `tests/run_recorded.rs`.

use super::error::Error;
use super::input::Vial;
use super::recipe::{BlankScale, Recipe};
use super::sources::{Group, Key, Pool, Sources};
use super::table::Table;

/// Relative standard uncertainty of a volume of acid that was written down without one.
// The programme's own choice: drops and bottle-top dispensers at a millilitre hold a few percent.
pub(super) const U_OF_ACID: f64 = 0.05;

/// Density of what a vial is diluted with, kg/L, and its standard uncertainty.
// Water at 20 °C 0.9982 (IAPWS-95, from memory), 2 % nitric acid about 1.01 (from memory): what laboratories dilute
// with lies between.
const DILUENT_KG_L: (f64, f64) = (1.003, 0.004);

/// The factor (V + V_acid)/V, with what each volume's u moves it by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct AcidFactor {
    pub value: f64,
    /// ∂A/∂V·u(V).
    pub by_volume: f64,
    /// ∂A/∂V_acid·u(V_acid).
    pub by_acid: f64,
}

impl AcidFactor {
    /// A bottle of which acid or volume is not known.
    const ONE: Self = Self { value: 1.0, by_volume: 0.0, by_acid: 0.0 };

    pub fn of(vial: &Vial) -> Self {
        match (vial.bottle_volume_ml, vial.acid_ml) {
            (Some(volume), Some(acid)) if volume > 0.0 => Self {
                value: 1.0 + acid / volume,
                by_volume: -acid / (volume * volume) * vial.u_bottle_volume_ml,
                by_acid: u_acid(vial) / volume,
            },
            _ => Self::ONE,
        }
    }
}

/// u of the acid's volume, mL.
pub(super) fn u_acid(vial: &Vial) -> f64 {
    vial.u_acid_ml.or(vial.acid_ml.map(|acid| U_OF_ACID * acid)).unwrap_or(0.0)
}

/// The dilution by volume: factor and u. Without a density, or where the vial was not diluted, it is
/// the dilution by mass.
pub(super) fn dilution(vial: &Vial) -> (f64, f64) {
    let d = vial.dilution;
    let Some(density) = vial.density_kg_l.filter(|_| d.value > 1.0) else {
        return (d.value, d.u);
    };
    let (diluent, u_diluent) = DILUENT_KG_L;
    let more = d.value - 1.0;
    let parts = [
        density / diluent * d.u,
        more / diluent * vial.u_density_kg_l,
        more * density / (diluent * diluent) * u_diluent,
    ];
    (1.0 + more * density / diluent, parts.iter().map(|p| p * p).sum::<f64>().sqrt())
}

/// Density of the diluent with u, for the derivation.
pub(super) fn diluent() -> (f64, f64) {
    DILUENT_KG_L
}

/// Sources of the volumes of a vial's bottle, where they have a u that enters somewhere.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct BottleSources {
    pub volume: Option<usize>,
    pub acid: Option<usize>,
}

/// One source for each bottle's volume and one for its acid; vials of one bottle share them.
pub(super) fn sources(table: &Table, recipe: &Recipe, sources: &mut Sources) -> Vec<BottleSources> {
    let mut all: Vec<BottleSources> = Vec::with_capacity(table.vials.len());
    for (v, vial) in table.vials.iter().enumerate() {
        let same = |k: &usize| vial.bottle.is_some() && table.vials[*k].bottle == vial.bottle;
        let first = (0..v).find(same);
        let mut own = first.map_or_else(BottleSources::default, |k| all[k]);
        let factor = AcidFactor::of(vial);
        let carries_mass = recipe.blank.scale == BlankScale::MassPerBottle || !vial.spike_added.is_empty();
        let key = first.unwrap_or(v);
        if own.volume.is_none() && vial.u_bottle_volume_ml > 0.0 && (carries_mass || factor.by_volume != 0.0) {
            own.volume = Some(sources.add_shared(Group::Volume, Pool::None, f64::INFINITY, Key::Volume(key)));
        }
        if own.acid.is_none() && factor.by_acid > 0.0 {
            own.acid = Some(sources.add_shared(Group::Acid, Pool::None, f64::INFINITY, Key::Acid(key)));
        }
        all.push(own);
    }
    all
}

/// Volumes and densities that no bottle has.
pub(super) fn check(vial: &Vial) -> Result<(), Error> {
    let at_least = |x: f64| x >= 0.0 && x.is_finite();
    let above = |x: f64| x > 0.0 && x.is_finite();
    let refused = |what: &'static str, value: f64, above_zero: bool| Error::BadBottle {
        position: vial.position,
        vial: vial.name.clone(),
        what,
        value,
        above_zero,
    };
    let acid = vial.acid_ml.unwrap_or(0.0);
    for (what, value) in [
        ("u_volume_mL", vial.u_bottle_volume_ml),
        ("acid_mL", acid),
        ("u_acid_mL", vial.u_acid_ml.unwrap_or(0.0)),
        ("u_density_kg_L", vial.u_density_kg_l),
    ] {
        if !at_least(value) {
            return Err(refused(what, value, false));
        }
    }
    for (what, value) in [("volume_mL", vial.bottle_volume_ml), ("density_kg_L", vial.density_kg_l)] {
        if let Some(value) = value.filter(|x| !above(*x)) {
            return Err(refused(what, value, true));
        }
    }
    Ok(())
}
