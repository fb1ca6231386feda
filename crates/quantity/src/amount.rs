//! A quantity as it can honestly be known: measured with u, stated without u, below a limit,
//! above a range. "Below" is a case of its own, never a number with a flag.
//!
//! JSON follows the command-line contract: `{"value":52.1,"u":0.6,"unit":"mg/L"}`,
//! `{"below":1.0,"unit":"ng/L"}`, `{"above":…}`. Checked in `tests/units.rs`.

use crate::{Substance, Unit, UnitError};
use serde::{Deserialize, Serialize};

/// A value with its standard uncertainty and the degrees of freedom behind that uncertainty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Measured {
    /// The value, in `unit`.
    pub value: f64,
    /// Standard uncertainty (k = 1), in `unit`.
    pub u: f64,
    /// Effective degrees of freedom of `u`; left out (infinite) where it is taken as known.
    #[serde(default = "infinite", skip_serializing_if = "is_infinite")]
    pub dof: f64,
    /// The unit of value and u.
    pub unit: Unit,
}

/// A value whose source gave no uncertainty. It is shown as such, never as exact.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stated {
    /// The value, in `unit`.
    pub value: f64,
    /// The unit of the value.
    pub unit: Unit,
}

/// A limit that the true value lies under (or over).
#[derive(Debug, Clone, PartialEq)]
pub struct Bound {
    /// The limit, in `unit`.
    pub limit: f64,
    /// The unit of the limit.
    pub unit: Unit,
}

/// What can be known of a quantity.
#[derive(Debug, Clone, PartialEq)]
pub enum Amount {
    /// Value with standard uncertainty.
    Measured(Measured),
    /// Value whose source gave no uncertainty.
    Stated(Stated),
    /// Somewhere under the limit: a non-detect.
    Below(Bound),
    /// Somewhere over the limit: above the range of the instrument.
    Above(Bound),
}

fn infinite() -> f64 {
    f64::INFINITY
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature that serde asks for
fn is_infinite(dof: &f64) -> bool {
    dof.is_infinite()
}

impl Measured {
    /// A value whose u counts as well known (infinite degrees of freedom).
    pub fn new(value: f64, u: f64, unit: Unit) -> Self {
        Self { value, u, dof: f64::INFINITY, unit }
    }

    /// The same with degrees of freedom.
    pub fn with_dof(value: f64, u: f64, dof: f64, unit: Unit) -> Self {
        Self { value, u, dof, unit }
    }

    /// The same share (a value of unit 1) in percent.
    #[must_use]
    pub fn in_percent(&self) -> Self {
        Self::with_dof(100.0 * self.value, 100.0 * self.u, self.dof, Unit::known("%"))
    }

    /// u as a share of the value's size; infinite at zero.
    pub fn relative_u(&self) -> f64 {
        self.u / self.value.abs()
    }
}

impl Amount {
    /// A measured value with well-known u.
    pub fn measured(value: f64, u: f64, unit: Unit) -> Self {
        Self::Measured(Measured::new(value, u, unit))
    }

    /// A value without u.
    pub fn stated(value: f64, unit: Unit) -> Self {
        Self::Stated(Stated { value, unit })
    }

    /// A non-detect.
    pub fn below(limit: f64, unit: Unit) -> Self {
        Self::Below(Bound { limit, unit })
    }

    /// A value beyond the range.
    pub fn above(limit: f64, unit: Unit) -> Self {
        Self::Above(Bound { limit, unit })
    }

    /// The unit, whatever the case.
    pub fn unit(&self) -> &Unit {
        match self {
            Self::Measured(m) => &m.unit,
            Self::Stated(s) => &s.unit,
            Self::Below(b) | Self::Above(b) => &b.unit,
        }
    }

    /// The number where there is one; `None` for "below" and "above": a limit is not a value.
    pub fn value(&self) -> Option<f64> {
        match self {
            Self::Measured(m) => Some(m.value),
            Self::Stated(s) => Some(s.value),
            Self::Below(_) | Self::Above(_) => None,
        }
    }

    /// The standard uncertainty where it is known.
    pub fn u(&self) -> Option<f64> {
        match self {
            Self::Measured(m) => Some(m.u),
            _ => None,
        }
    }

    /// Whether value, u and limit are finite numbers.
    pub fn is_finite(&self) -> bool {
        match self {
            Self::Measured(m) => m.value.is_finite() && m.u.is_finite(),
            Self::Stated(s) => s.value.is_finite(),
            Self::Below(b) | Self::Above(b) => b.limit.is_finite(),
        }
    }

    /// The same amount in another unit. `substance` is needed where mass meets amount of
    /// substance or charge; `density_kg_l` where volume meets mass of water.
    ///
    /// # Errors
    /// [`UnitError`] where the two units do not measure the same thing, or what joins them
    /// (molar mass, charge, density, basis) is not given.
    ///
    /// ```
    /// use quantity::{Amount, Unit};
    /// // A non-detect keeps being one in another unit: its limit is converted, and it has no value.
    /// let below = Amount::below(0.15, Unit::known("ng/L")).convert(&Unit::known("µg/L"), None, None)?;
    /// assert_eq!((below.value(), below.in_words().as_str()), (None, "< 0.00015 µg/L"));
    /// // Mass per litre to amount per litre takes a molar mass; without one it is refused, not guessed.
    /// assert!(Amount::stated(1.0, Unit::known("mg/L")).convert(&Unit::known("mmol/L"), None, None).is_err());
    /// # Ok::<(), quantity::UnitError>(())
    /// ```
    pub fn convert(
        &self,
        to: &Unit,
        substance: Option<&Substance>,
        density_kg_l: Option<f64>,
    ) -> Result<Self, UnitError> {
        let f = self.unit().conversion(to, substance, density_kg_l)?;
        Ok(match self {
            Self::Measured(m) => Self::Measured(Measured {
                value: f.apply(m.value),
                u: f.apply_difference(m.u).abs(),
                dof: m.dof,
                unit: to.clone(),
            }),
            Self::Stated(s) => Self::stated(f.apply(s.value), to.clone()),
            Self::Below(b) => Self::below(f.apply(b.limit), to.clone()),
            Self::Above(b) => Self::above(f.apply(b.limit), to.clone()),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Wire {
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    u: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    dof: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    below: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    above: Option<f64>,
    unit: Unit,
}

impl Serialize for Amount {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let mut w = Wire { value: None, u: None, dof: None, below: None, above: None, unit: self.unit().clone() };
        match self {
            Self::Measured(m) => {
                w.value = Some(m.value);
                w.u = Some(m.u);
                w.dof = m.dof.is_finite().then_some(m.dof);
            }
            Self::Stated(x) => w.value = Some(x.value),
            Self::Below(b) => w.below = Some(b.limit),
            Self::Above(b) => w.above = Some(b.limit),
        }
        w.serialize(s)
    }
}

impl<'de> Deserialize<'de> for Amount {
    fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        use serde::de::Error;
        let w = Wire::deserialize(d)?;
        match (w.value, w.below, w.above) {
            (Some(value), None, None) => Ok(match w.u {
                Some(u) if u < 0.0 => {
                    return Err(D::Error::custom(format!("u is {u}, it cannot be negative")));
                }
                Some(u) => Self::Measured(Measured::with_dof(value, u, w.dof.unwrap_or(f64::INFINITY), w.unit)),
                None => Self::stated(value, w.unit),
            }),
            (None, Some(limit), None) if w.u.is_none() => Ok(Self::below(limit, w.unit)),
            (None, None, Some(limit)) if w.u.is_none() => Ok(Self::above(limit, w.unit)),
            _ => Err(D::Error::custom("give exactly one of value (with or without u), below, above; a limit has no u")),
        }
    }
}
