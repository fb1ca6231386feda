//! An invented sampling trip whose truth is known: Sallow Levels, three flowing wells, one lot of
//! bottles, blanks, spikes, one instrument run. Everything here is made up, and every file says so.
//!
//! In: a seed. Out: [`Trip`] — the truth (ng/L in each water, pg brought in at each stage), the
//! counts an instrument would have given, and the raw files a team would bring home
//! ([`files::raw_files`]). The same seed gives the same bytes.
//!
//! The instrument: Poisson counting, dead time, drift of the sensitivity, plasma flicker shared by
//! all masses of a replicate (so that an internal standard helps), molybdenum oxide on cadmium.
//! The contamination: per bottle and stage, lognormal between bottles, with rare spikes of 2 to 20
//! times. It does not model losses on walls: the true recovery is 1.

pub mod files;
pub mod organics;
mod random;
mod run;
pub mod tracers;
pub mod truth;

pub use random::Stream;
pub use run::{Counts, SimReading, SimVial};
pub use truth::{BottleTruth, ELEMENTS, Element, WELLS, Well};

/// An invented trip: bottles with their truth, and the run that measured them.
#[derive(Debug, Clone)]
pub struct Trip {
    /// Every bottle with what is truly in it.
    pub bottles: Vec<BottleTruth>,
    /// The vials of the run, in order.
    pub vials: Vec<SimVial>,
    /// The counts.
    pub readings: Vec<SimReading>,
}

/// What a simulated trip is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Purpose {
    /// The demo: one field blank is bad for a reason that the field sheet tells.
    Demo,
    /// A run among many for a coverage test: blanks bad only as chance has it.
    Trial,
}

impl Trip {
    /// Makes the trip of a seed.
    pub fn new(seed: u64, purpose: Purpose) -> Self {
        let bottles = truth::bottles(seed, purpose);
        let vials = run::sequence(&bottles);
        let readings = run::measure(seed, &bottles, &vials);
        Self { bottles, vials, readings }
    }

    /// The same bottles and vials on another day: other drift, other noise, other batches of stock
    /// and control water. Bottles and vials may be changed before (metal lost on a wall).
    #[must_use]
    pub fn measured_again(&self, seed: u64) -> Self {
        let readings = run::measure(seed, &self.bottles, &self.vials);
        Self { bottles: self.bottles.clone(), vials: self.vials.clone(), readings }
    }

    /// The true concentration of an element in the water of a bottle, ng/L; `None` for blanks and
    /// spiked bottles.
    pub fn water_ng_l(&self, label: &str, element: &str) -> Option<f64> {
        let e = ELEMENTS.iter().position(|x| x.symbol == element)?;
        let b = self.bottles.iter().find(|b| b.label == label)?;
        matches!(b.kind, "sample" | "duplicate").then(|| b.water_ng_l[e])
    }
}
