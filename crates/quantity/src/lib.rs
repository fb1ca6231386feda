//! The vocabulary of Limpid: what a number is before it means anything.
//!
//! In: what people and laboratories write down. Out: values that cannot lose their unit,
//! their uncertainty or their "less than" on the way.
//!
//! * [`Unit`] — a unit of the trade with its UCUM code, dimension and factor to SI.
//! * [`Amount`] — a measured value with u, a value stated without u, "below", "above".
//! * [`Derivation`] — how a value came to be: named nodes, each with value, method, source.
//! * [`Check`] — every check by its name.
//! * [`Finding`] — one check: what was compared, the numbers, met or not, one plain sentence.
//! * [`factor`] — factors between two units where both stand in names.
//! * [`Refusal`] — why a question has no answer, with the value and what is allowed.
//! * [`formula`] — how a formula and its charge are read, written and printed.
//! * [`mod@format`] — printing to the digits that the uncertainty supports.
//!
//! What it does not do: no statistics, no chemistry beyond molar mass and charge, no files.

pub mod amount;
pub mod calc;
pub mod check;
pub mod derivation;
pub mod factor;
pub mod finding;
pub mod format;
pub mod formula;
pub mod refusal;
pub mod substance;
pub mod unit;

pub use amount::{Amount, Bound, Measured, Stated};
pub use calc::{CalcError, Calculation};
pub use check::Check;
pub use derivation::{Contribution, Derivation, Node, NodeId};
pub use finding::{Compared, Finding, Outcome, Place, Stage};
pub use message::{Lang, Spoken, language, with_language};
pub use refusal::Refusal;
pub use substance::Substance;
pub use unit::{Unit, UnitError};
