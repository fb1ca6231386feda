//! Overlaps: how many counts of one isotope belong to something else.
//!
//! In: isotopes and abundances (module [`crate::isotope`]), a mass-bias exponent, or the name of a
//! published method. Out: counts of the target per count of the monitor, with u.
//!
//! An isobaric overlap follows from natural abundances: f = A(on)/A(by)·(m(on)/m(by))^β, β from a
//! ratio that is known. A molecular one (oxide, argide) depends on the plasma of the day and is
//! measured in each run ([`crate::run::FactorSource::Vials`]). The fixed equations of a method are in
//! `reference/interference_equations.csv`; they carry no u and are used only where a recipe claims
//! the method ([`crate::run::Recipe::published_equations`]).
//! Not done here: second-order overlaps (an overlap on the monitor) beyond what a method's equation
//! multiplies out. Checked in `tests/interference.rs`.

use crate::isotope::{self, WithU};
use message::{Message, Shown, refusal as says};

/// What an overlap cannot be computed for.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum Error {
    /// A nuclide that is not in the table.
    UnknownNuclide {
        /// Element symbol.
        element: String,
        /// Mass number.
        mass: u16,
    },
    /// A ratio that no mass bias can be read from.
    NotPositive {
        /// Its value.
        value: f64,
    },
    /// A method without equations in the table.
    UnknownMethod {
        /// The name asked for.
        name: String,
        /// Names there are.
        known: String,
    },
}

impl Error {
    /// What it says.
    pub fn message(&self) -> Message {
        match self {
            Self::UnknownNuclide { element, mass } => {
                says::Nuclide { nuclide: format!("{element}{mass}").into() }.into()
            }
            Self::NotPositive { value } => says::RatioNotPositive { value: Shown::as_given(*value, "") }.into(),
            Self::UnknownMethod { name, known } => {
                says::MethodUnknown { name: name.into(), known: known.into() }.into()
            }
        }
    }
}

impl std::fmt::Display for Error {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.message().in_english())
    }
}

impl std::error::Error for Error {}

fn find(element: &str, mass: u16) -> Result<&'static isotope::Nuclide, Error> {
    isotope::nuclide(element, mass).ok_or_else(|| Error::UnknownNuclide { element: element.into(), mass })
}

/// The exponent β of measured = true·(m(on)/m(by))^β, from a measured ratio on/by of an element
/// whose true ratio is natural.
///
/// # Errors
/// [`Error::UnknownNuclide`]; [`Error::NotPositive`] for a ratio that is not above zero.
pub fn mass_bias(element: &str, on: u16, by: u16, measured: WithU) -> Result<WithU, Error> {
    let (a, b) = (find(element, on)?, find(element, by)?);
    if measured.value.is_nan() || measured.value <= 0.0 {
        return Err(Error::NotPositive { value: measured.value });
    }
    let log_masses = libm::log(a.mass.value / b.mass.value);
    let truth = a.abundance.value / b.abundance.value;
    let relative = (measured.u / measured.value).powi(2)
        + (a.abundance.u / a.abundance.value).powi(2)
        + (b.abundance.u / b.abundance.value).powi(2);
    Ok(WithU { value: libm::log(measured.value / truth) / log_masses, u: relative.sqrt() / log_masses.abs() })
}

/// Counts of `on` per count of `by`, two isotopes of one element, at a mass bias β.
///
/// ```
/// use measurement::interference::isobaric_factor;
/// use measurement::isotope::WithU;
/// // Tin on cadmium 114, told by tin 118.
/// let f = isobaric_factor("Sn", 114, 118, WithU { value: 0.0, u: 0.5 }).unwrap();
/// assert!((f.value - 0.02725).abs() < 1e-5 && f.u > 0.0);
/// ```
///
/// # Errors
/// [`Error::UnknownNuclide`] where the table does not hold one of the two.
pub fn isobaric_factor(element: &str, on: u16, by: u16, bias: WithU) -> Result<WithU, Error> {
    let (a, b) = (find(element, on)?, find(element, by)?);
    let log_masses = libm::log(a.mass.value / b.mass.value);
    let value = a.abundance.value / b.abundance.value * libm::exp(bias.value * log_masses);
    let relative = (a.abundance.u / a.abundance.value).powi(2)
        + (b.abundance.u / b.abundance.value).powi(2)
        + (bias.u * log_masses).powi(2);
    Ok(WithU { value, u: value * relative.sqrt() })
}

/// One term of a published equation.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// Element and mass whose counts are corrected.
    pub target: (String, u16),
    /// Element and mass read as monitor.
    pub monitor: (String, u16),
    /// Counts taken off per count of the monitor; negative gives back.
    pub factor: f64,
    /// What the term stands for.
    pub species: String,
    /// Where it is published.
    pub source: String,
}

const TABLE: &str = include_str!("../../../reference/interference_equations.csv");

/// The equations of a method, as linear terms.
///
/// # Errors
/// [`Error::UnknownMethod`] with the names there are.
pub fn method_terms(method: &str) -> Result<Vec<Term>, Error> {
    let rows: Vec<Vec<&str>> = TABLE
        .lines()
        .filter(|l| !l.starts_with('#') && !l.starts_with("method,"))
        .map(|l| l.split(',').map(str::trim).collect())
        .collect();
    let terms: Vec<Term> = rows.iter().filter(|r| r[0] == method).filter_map(|r| term(r)).collect();
    if terms.is_empty() {
        let mut known: Vec<&str> = rows.iter().map(|r| r[0]).collect();
        known.dedup();
        return Err(Error::UnknownMethod { name: method.into(), known: known.join("; ") });
    }
    Ok(terms)
}

fn term(r: &[&str]) -> Option<Term> {
    let nuclide = |i: usize| Some(((*r.get(i)?).to_string(), r.get(i + 1)?.parse().ok()?));
    Some(Term {
        target: nuclide(1)?,
        monitor: nuclide(3)?,
        factor: r.get(5)?.parse().ok()?,
        species: (*r.get(6)?).to_string(),
        source: r.get(7..)?.join(", "),
    })
}
