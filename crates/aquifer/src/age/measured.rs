//! A tracer as the laboratory measured it: what was found, how surely, when, and under which limits.
//!
//! In: value or bound with unit, u and day of sampling. Out: the same in the unit that the models use (tritium and
//! tritiogenic helium-3 TU, gases fmol/kg, carbon-14 F14C) and its likelihood under a model's value. A value below its
//! critical value stays a value with its u; what was given as "below" stays an upper bound; neither becomes nought.
//! Decay between sampling and measurement is the laboratory's: with which half-life is asked, never guessed.
//! Checked in `tests/age_inputs.rs`.

use super::constants::number;
use crate::Reason;
use message::{Message, Shown, age as said};
use serde::{Deserialize, Serialize};
use statistics::normal;

/// What dates water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Tracer {
    /// 3H of the water.
    #[serde(rename = "3H")]
    Tritium,
    /// 3He that came from 3H since recharge.
    #[serde(rename = "3He_tri")]
    Helium3,
    /// Sulfur hexafluoride.
    #[serde(rename = "SF6")]
    Sf6,
    /// CFC-11.
    #[serde(rename = "CFC-11")]
    Cfc11,
    /// CFC-12.
    #[serde(rename = "CFC-12")]
    Cfc12,
    /// CFC-113.
    #[serde(rename = "CFC-113")]
    Cfc113,
    /// 14C of the dissolved inorganic carbon.
    #[serde(rename = "14C")]
    Carbon14,
}

impl Tracer {
    /// All of them.
    pub const ALL: [Self; 7] =
        [Self::Tritium, Self::Helium3, Self::Sf6, Self::Cfc11, Self::Cfc12, Self::Cfc113, Self::Carbon14];

    /// Its sign, the same in every language.
    pub fn sign(self) -> &'static str {
        match self {
            Self::Tritium => "3H",
            Self::Helium3 => "3He_tri",
            Self::Sf6 => "SF6",
            Self::Cfc11 => "CFC-11",
            Self::Cfc12 => "CFC-12",
            Self::Cfc113 => "CFC-113",
            Self::Carbon14 => "14C",
        }
    }

    /// By its sign.
    pub fn by_sign(sign: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|t| t.sign() == sign)
    }

    /// The unit that models and measured values share.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Tritium | Self::Helium3 => "TU",
            Self::Sf6 | Self::Cfc11 | Self::Cfc12 | Self::Cfc113 => "fmol/kg",
            Self::Carbon14 => "F14C",
        }
    }

    /// Units that a laboratory reports it in, each with its factor to [`Self::unit`].
    pub fn units(self) -> Vec<(&'static str, f64)> {
        match self {
            Self::Tritium => {
                vec![("TU", 1.0), ("Bq/kg", 1.0 / number("3H.Bq_per_TU")), ("pCi/kg", 1.0 / number("3H.pCi_per_TU"))]
            }
            Self::Helium3 => vec![("TU", 1.0), ("cm3STP/g", 1.0 / number("3He.cm3STP_per_g_per_TU"))],
            Self::Sf6 | Self::Cfc11 | Self::Cfc12 | Self::Cfc113 => {
                vec![("fmol/kg", 1.0), ("pmol/kg", 1e3), ("nmol/kg", 1e6), ("mol/kg", 1e15)]
            }
            // "pMC" alone is refused: it may be 100·F14C or a value decayed to the year of measurement.
            Self::Carbon14 => vec![("F14C", 1.0), ("pMC (100 F14C)", 0.01)],
        }
    }

    /// Whether it is a gas of the air, which exchanges until the water table.
    pub fn is_gas(self) -> bool {
        matches!(self, Self::Sf6 | Self::Cfc11 | Self::Cfc12 | Self::Cfc113)
    }
}

/// What was found.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// A value with its standard uncertainty; it may lie below its critical value, or below nought.
    Value {
        /// The value.
        value: f64,
        /// Its standard uncertainty.
        u: f64,
    },
    /// Not detected: an upper bound, with the u of a value near it.
    Below {
        /// What could have been seen.
        limit: f64,
        /// Standard uncertainty there.
        u: f64,
    },
}

/// A tracer of one sample, in the unit of [`Tracer::unit`].
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Measured {
    /// Which.
    pub tracer: Tracer,
    /// What was found.
    pub level: Level,
    /// Critical value: above it the tracer counts as detected.
    pub critical: Option<f64>,
    /// Detection limit: what is detected with the stated probability.
    pub detection_limit: Option<f64>,
    /// When it was sampled, decimal year (2026.5 is the middle of 2026).
    pub sampled_year: f64,
}

/// Years that a sample can be of.
// The programme's own choice: no tracer of these was measured before, and a decimal year is not mistyped beyond.
const YEARS: std::ops::RangeInclusive<f64> = 1940.0..=2200.0;

impl Measured {
    /// As a laboratory reports it: a level in one of [`Tracer::units`], sampled in a decimal year.
    ///
    /// # Errors
    /// [`Reason`]: no unit or another one, no day of sampling, a value that is no number, no u, carbon-14 far above any
    /// air there was.
    ///
    /// ```
    /// use aquifer::age::{Level, Measured, Tracer};
    /// // Half a becquerel a kilogram is 4.2 TU; without its unit the number is refused.
    /// let level = Level::Value { value: 0.5, u: 0.02 };
    /// let m = Measured::new(Tracer::Tritium, level, "Bq/kg", Some(2026.5)).unwrap();
    /// assert!((m.number() - 4.195).abs() < 0.001);
    /// assert!(Measured::new(Tracer::Tritium, level, "", Some(2026.5)).is_err());
    /// ```
    pub fn new(tracer: Tracer, level: Level, unit: &str, sampled_year: Option<f64>) -> Result<Self, Reason> {
        let what = || -> Message { said::OfTracer { tracer: tracer.sign().into() }.into() };
        let Some((_, factor)) = tracer.units().into_iter().find(|(u, _)| *u == unit) else {
            let known = tracer.units().iter().map(|(u, _)| message::Name::from(*u).into()).collect();
            let found: Message =
                if unit.is_empty() { said::NoUnit.into() } else { said::Unit { unit: unit.into() }.into() };
            return Err(Reason::unlike(what(), found, said::OneOfUnits { known }));
        };
        let Some(sampled_year) = sampled_year else {
            return Err(Reason::unlike(what(), said::NoDate, said::DateOfSampling));
        };
        if !YEARS.contains(&sampled_year) {
            let year = |y| Shown::as_given(y, "");
            let range = message::aquifer::Between { low: year(*YEARS.start()), high: year(*YEARS.end()) };
            return Err(Reason::out_of_range(said::YearOfSampling, year(sampled_year), range));
        }
        let (value, u) = match level {
            Level::Value { value, u } | Level::Below { limit: value, u } => (value, u),
        };
        if !(value.is_finite() && u.is_finite() && u > 0.0) || (matches!(level, Level::Below { .. }) && value <= 0.0) {
            let found =
                message::aquifer::ValueWithU { value: Shown::as_given(value, unit), u: Shown::as_given(u, unit) };
            return Err(Reason::unlike(what(), found, said::ValueWithUAbove));
        }
        let (v, u) = (value * factor, u * factor);
        // The highest air of any year and place was near F14C 2 (Hua, Barbetti & Rakowski 2013, Radiocarbon 55:2059;
        // from memory).
        if tracer == Tracer::Carbon14 && v - 3.0 * u > 2.0 {
            return Err(Reason::out_of_range(what(), Shown::as_given(v, "F14C"), said::F14cAllowed));
        }
        let level = match level {
            Level::Value { .. } => Level::Value { value: v, u },
            Level::Below { .. } => Level::Below { limit: v, u },
        };
        Ok(Self { tracer, level, critical: None, detection_limit: None, sampled_year })
    }

    /// The value, or the bound.
    pub fn number(&self) -> f64 {
        match self.level {
            Level::Value { value, .. } => value,
            Level::Below { limit, .. } => limit,
        }
    }

    /// Standard uncertainty.
    pub fn u(&self) -> f64 {
        match self.level {
            Level::Value { u, .. } | Level::Below { u, .. } => u,
        }
    }

    /// Whether it was detected: a value above its critical value, or 1.645 u where none was stated.
    pub fn detected(&self) -> bool {
        match self.level {
            Level::Below { .. } => false,
            Level::Value { value, u } => value > self.critical.unwrap_or(normal::ONE_SIDED_95 * u),
        }
    }

    /// Largest true value that the measurement leaves, one-sided 95 %: never under the critical value.
    pub fn at_most(&self) -> f64 {
        match self.level {
            Level::Below { limit, u } => limit + normal::ONE_SIDED_95 * u,
            Level::Value { value, u } => value.max(self.critical.unwrap_or(0.0)).max(0.0) + normal::ONE_SIDED_95 * u,
        }
    }

    /// ln of the likelihood of a true value, without the constant: normal for a value, Φ((limit − true)/u) for a bound.
    pub fn ln_likelihood(&self, truth: f64) -> f64 {
        match self.level {
            Level::Value { value, u } => -0.5 * ((value - truth) / u).powi(2),
            Level::Below { limit, u } => normal::log_cdf((limit - truth) / u),
        }
    }
}

/// Carbon-14 as the joint fit takes it: what is left of an A0 known within a band.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Carbon14 {
    /// Measured, fraction modern.
    pub f14c: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// A0, share of the soil air's: lower end of the band over the models that apply.
    pub a0_low: f64,
    /// Upper end.
    pub a0_high: f64,
}

/// A number with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct WithU {
    /// The value.
    pub value: f64,
    /// Its standard uncertainty.
    pub u: f64,
}

/// What the water took along at recharge: temperature, height, excess air; measured by noble gases, or a range.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Recharge {
    /// Temperature at the water table, °C.
    pub temperature_c: WithU,
    /// Height above sea level, m.
    pub height_m: WithU,
    /// Excess air, cm³ STP/kg, unfractionated; none where no noble gas was measured.
    pub excess_air_cm3_kg: Option<WithU>,
}
