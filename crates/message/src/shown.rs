//! A number as a message shows it: value, unit and digits travel, and every language prints them by the same rules.

use crate::Lang;
use crate::number::{at_decimals, down, significant, significant_trimmed, spaced, trimmed, up};
use serde::{Deserialize, Serialize};

/// To how many digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Digits {
    /// So many significant digits.
    Significant(i32),
    /// At most so many, without trailing zeros that nobody gave.
    Trimmed(i32),
    /// At most so many, without trailing zeros, rounded up: an upper bound.
    Up(i32),
    /// At most so many, without trailing zeros, rounded down: a lower bound.
    Down(i32),
    /// So many after the point.
    Decimals(i32),
    /// So many after the point of the number before its power of ten: `8.4e-6`.
    Exponent(i32),
}

/// Digits that a number of double precision can have before or behind its point (it reaches from 5e-324 to 1.8e308, IEEE
/// 754): what a kept message asks for beyond that is cut.
const MOST: i32 = 340;

impl Digits {
    fn print(self, x: f64) -> String {
        match self {
            Self::Significant(n) => significant(x, n.clamp(1, MOST)),
            Self::Trimmed(n) => significant_trimmed(x, n.clamp(1, MOST)),
            Self::Up(n) => trimmed(&up(x, n.clamp(1, MOST))),
            Self::Down(n) => trimmed(&down(x, n.clamp(1, MOST))),
            Self::Decimals(n) => at_decimals(x, n.clamp(-MOST, MOST)),
            Self::Exponent(n) => format!("{x:.*e}", n.clamp(0, MOST) as usize),
        }
    }
}

/// A number with its unit, shown to some digits; beside it, where it has one, its expanded uncertainty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// The number.
    #[serde(with = "beyond")]
    pub value: f64,
    /// How it is shown.
    pub digits: Digits,
    /// As it is printed; empty for none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub unit: String,
    /// Expanded uncertainty, to the digits that `digits` gives the value.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub expanded: Option<f64>,
    /// `<` or `>` before it; empty for none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub relation: String,
    /// Whether it is typeset: a true minus sign, the digits before the point in groups of three.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub typeset: bool,
}

impl Shown {
    /// To some digits, with a unit as it is printed.
    pub fn new(value: f64, digits: Digits, unit: impl Into<String>) -> Self {
        Self { value, digits, unit: unit.into(), expanded: None, relation: String::new(), typeset: false }
    }

    /// To `digits` significant digits.
    pub fn significant(value: f64, digits: i32, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Significant(digits), unit)
    }

    /// To at most `digits` significant digits, without trailing zeros.
    pub fn trimmed(value: f64, digits: i32, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Trimmed(digits), unit)
    }

    /// An upper bound ("at most"): to two digits, rounded up.
    pub fn bound(value: f64, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Up(2), unit)
    }

    /// A lower bound ("at least"): to two digits, rounded down.
    pub fn lower_bound(value: f64, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Down(2), unit)
    }

    /// All digits of a number that a person or a table gave. Fifteen are what a double keeps of any decimal number.
    pub fn as_given(value: f64, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Trimmed(15), unit)
    }

    /// To `decimals` after the point.
    pub fn decimals(value: f64, decimals: i32, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Decimals(decimals), unit)
    }

    /// The same typeset.
    ///
    /// ```
    /// use message::{Lang, Shown};
    /// assert_eq!(Shown::decimals(-1234.5, 1, "mV").typeset().said(Lang::De), "−1\u{202F}234,5 mV");
    /// ```
    #[must_use]
    pub fn typeset(self) -> Self {
        Self { typeset: true, ..self }
    }

    fn print(&self, x: f64) -> String {
        let digits = self.digits.print(x);
        if self.typeset { spaced(&digits) } else { digits }
    }

    /// In a language: its decimal sign, `1.05 ± 0.12 ng/L`.
    pub fn said(&self, language: Lang) -> String {
        let mut out = String::new();
        if !self.relation.is_empty() {
            out += &self.relation;
            out.push(' ');
        }
        out += &language.number(&self.print(self.value));
        if let Some(u) = self.expanded {
            out += " ± ";
            out += &language.number(&self.print(u));
        }
        if !self.unit.is_empty() {
            out.push(' ');
            out += &self.unit;
        }
        out
    }
}

/// A part of a whole, shown in percent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Share {
    /// 0 to 1; a recovery may be more.
    #[serde(with = "beyond")]
    pub value: f64,
    /// How its percent are shown.
    pub digits: Digits,
}

impl Share {
    /// To some digits of its percent.
    pub fn new(value: f64, digits: Digits) -> Self {
        Self { value, digits }
    }

    /// In a language: `96 %`.
    pub fn said(&self, language: Lang) -> String {
        format!("{} %", language.number(&self.digits.print(100.0 * self.value)))
    }
}

/// A quotient by next to nothing is beyond all numbers, which JSON has no word for: it is kept as text and reads back.
mod beyond {
    use serde::{Deserialize, Deserializer, Serializer};

    // The signature is serde's.
    #[allow(clippy::trivially_copy_pass_by_ref)]
    pub fn serialize<S: Serializer>(x: &f64, to: S) -> Result<S::Ok, S::Error> {
        if x.is_finite() { to.serialize_f64(*x) } else { to.collect_str(x) }
    }

    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Kept {
        Number(f64),
        Text(String),
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
        match Kept::deserialize(from)? {
            Kept::Number(x) => Ok(x),
            Kept::Text(text) => text.parse().map_err(serde::de::Error::custom),
        }
    }
}
