//! Activity coefficients: how far an ion behaves as if it were more dilute than it is.
//!
//! In: ionic strength in mol/kg, the Debye–Hückel parameters of the temperature, the class of
//! the species. Out: log10 γ and its derivative by ionic strength.
//! Method: extended Debye–Hückel with å and b as a pair for the nine ions of
//! `reference/ion_activity.csv` (Truesdell & Jones 1974), Davies with 0.3 for all other ions
//! (Davies 1962), 0.1·I for neutral species. Stated range: I up to 0.1 mol/kg; beyond it answers
//! carry a warning, beyond 0.5 there is none. Activity of water is taken as 1 (at 0.1 mol/kg
//! the error is 0.0015 in log10 per water). Checked in `tests/validation_activity.rs`.

use crate::water::DebyeHueckel;
use libm::sqrt;
use std::sync::OnceLock;

/// Ionic strength up to which the model is stated to hold, mol/kg.
pub const STATED_IONIC_STRENGTH: f64 = 0.1;

/// Ionic strength beyond which there is no answer, mol/kg.
pub const LARGEST_IONIC_STRENGTH: f64 = 0.5;

/// Coefficient of the linear term of Davies' equation.
// Davies 1962, Ion Association: 0.3.
const DAVIES: f64 = 0.3;

/// log10 γ of a neutral species per unit of ionic strength.
// Common practice (Setschenow coefficient 0.1 kg/mol).
const NEUTRAL: f64 = 0.1;

/// How log γ of a species is computed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Class {
    /// The reference itself: H2O, e−.
    One,
    /// log γ = 0.1·I.
    Neutral,
    /// Davies, with the square of the charge.
    Davies(f64),
    /// Extended Debye–Hückel: square of the charge, å in Å, b in kg/mol.
    Extended {
        /// z².
        z2: f64,
        /// Ion size, Å.
        a_angstrom: f64,
        /// Linear coefficient, kg/mol.
        b: f64,
    },
}

/// log10 γ = −A·z²·√I/(1 + B·å·√I), without linear term.
pub fn extended_debye_hueckel(dh: DebyeHueckel, z: f64, a_angstrom: f64, i: f64) -> f64 {
    let s = sqrt(i);
    -dh.a * z * z * s / (1.0 + dh.b * a_angstrom * s)
}

impl Class {
    /// The class of a species by name and charge.
    pub fn of(name: &str, charge: i32) -> Self {
        if name == "H2O" || name == "e-" {
            return Self::One;
        }
        if charge == 0 {
            return Self::Neutral;
        }
        let z2 = f64::from(charge * charge);
        match ions().iter().find(|r| r.0 == name) {
            Some((_, a_angstrom, b)) => Self::Extended { z2, a_angstrom: *a_angstrom, b: *b },
            None => Self::Davies(z2),
        }
    }

    /// log10 γ and d(log10 γ)/dI at ionic strength `i` > 0.
    pub fn log_gamma(self, dh: DebyeHueckel, i: f64) -> (f64, f64) {
        let s = sqrt(i);
        match self {
            Self::One => (0.0, 0.0),
            Self::Neutral => (NEUTRAL * i, NEUTRAL),
            Self::Davies(z2) => {
                let d = 1.0 + s;
                (-dh.a * z2 * (s / d - DAVIES * i), -dh.a * z2 * (0.5 / (s * d * d) - DAVIES))
            }
            Self::Extended { z2, a_angstrom, b } => {
                let d = 1.0 + dh.b * a_angstrom * s;
                (-dh.a * z2 * s / d + b * i, -dh.a * z2 * 0.5 / (s * d * d) + b)
            }
        }
    }
}

/// The ions with parameters of their own: name, å, b.
fn ions() -> &'static [(String, f64, f64)] {
    static ROWS: OnceLock<Vec<(String, f64, f64)>> = OnceLock::new();
    ROWS.get_or_init(|| {
        let table = include_str!("../../../reference/ion_activity.csv");
        csv::Reader::from_reader(table.as_bytes())
            .records()
            .map(|r| {
                let r = r.expect("the table of ion parameters is well-formed CSV");
                let number = |i: usize| r[i].parse().expect("ion parameters are numbers");
                (r[0].to_string(), number(1), number(2))
            })
            .collect()
    })
}
