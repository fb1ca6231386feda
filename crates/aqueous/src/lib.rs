//! What the water is: chemistry from one analysis.
//!
//! In: an analysis as laboratories give it, temperature in °C, pH. Out: species, saturation
//! indices with their doubt, gases, redox couples, conductivity, smell, findings. The tables it
//! stands on are in `reference/` at the root of the workspace, each row with source and with a
//! mark that says whether the figure was seen, recalled or computed.
//!
//! * [`analysis`] — units and bases to molality · [`solver`] — the equations ·
//!   [`batch`] — many at once · [`equilibrium`] — a water and what can be done to it · [`speciation`] — one analysis, whole
//! * [`uncertainty`] — intervals and words · [`balance`] — charges of an analysis · [`checks`] — findings · [`redox`], [`conductivity`],
//!   [`odour`], [`organic`], [`electrons`], [`enrichment`], [`pictures`], [`titration`], [`survey`]
//!
//! Pure: no files, no clock, no printing. Valid 0 to 40 °C and to 0.1 mol/kg ionic strength, with
//! a warning to 60 °C and 0.5 mol/kg. Equations: docs/theory/chemistry.md; checks against what is
//! published: docs/validation/chemistry.md.

pub mod activity;
pub mod alternatives;
pub mod analysis;
pub mod balance;
pub mod batch;
pub mod calc;
pub mod checks;
pub mod conductivity;
pub mod constants;
pub mod electrons;
pub mod enrichment;
pub mod equilibrium;
pub mod error;
pub mod lanes;
pub mod network;
pub mod odour;
pub mod organic;
pub mod pictures;
pub mod random_waters;
pub mod redox;
mod safeguard;
pub mod sensitivity;
pub mod solver;
pub mod speciation;
pub mod survey;
pub mod system;
pub mod titration;
pub mod uncertainty;
pub mod water;

pub use calc::CALCULATIONS;
pub use error::Error;
