//! A number as a message shows it: value, unit and digits travel, and every language prints them by the same rules.

use crate::Language;
use quantity::format::{at_decimals, significant, significant_trimmed, value_and_expanded};
use quantity::{Amount, Measured};
use serde::{Deserialize, Serialize};

/// To how many digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Digits {
    /// So many significant digits.
    Significant(i32),
    /// At most so many, without trailing zeros that nobody gave.
    Trimmed(i32),
    /// So many after the point.
    Decimals(i32),
}

impl Digits {
    fn print(self, x: f64) -> String {
        match self {
            Self::Significant(n) => significant(x, n),
            Self::Trimmed(n) => significant_trimmed(x, n),
            Self::Decimals(n) => at_decimals(x, n),
        }
    }
}

/// A number with its unit, shown to some digits; beside it, where it has one, its expanded uncertainty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// The number.
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
}

impl Shown {
    /// To some digits, with a unit as it is printed.
    pub fn new(value: f64, digits: Digits, unit: impl Into<String>) -> Self {
        Self { value, digits, unit: unit.into(), expanded: None, relation: String::new() }
    }

    /// To `digits` significant digits.
    pub fn significant(value: f64, digits: i32, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Significant(digits), unit)
    }

    /// To at most `digits` significant digits, without trailing zeros.
    pub fn trimmed(value: f64, digits: i32, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Trimmed(digits), unit)
    }

    /// To `decimals` after the point.
    pub fn decimals(value: f64, decimals: i32, unit: impl Into<String>) -> Self {
        Self::new(value, Digits::Decimals(decimals), unit)
    }

    /// A measured value with its expanded uncertainty k·u, both to the digits that the uncertainty gives.
    pub fn measured(m: &Measured, k: f64) -> Self {
        let (_, expanded) = value_and_expanded(m, k);
        let decimals = expanded.split_once('.').map_or(0, |(_, d)| d.len() as i32);
        let decimals = if decimals == 0 { quantity::format::decimals_for(k * m.u, 2).min(0) } else { decimals };
        let expanded = Some(k * m.u);
        Self { expanded, ..Self::decimals(m.value, decimals, unit_of(&m.unit.to_string())) }
    }

    /// Any amount: a measured one with k·u, a stated one to four digits, a bound to two.
    pub fn amount(amount: &Amount, k: f64) -> Self {
        let unit = unit_of(&amount.unit().to_string());
        match amount {
            Amount::Measured(m) if m.value.is_finite() && m.u.is_finite() => Self::measured(m, k),
            Amount::Measured(m) => Self::trimmed(m.value, 2, unit),
            Amount::Stated(s) => Self::trimmed(s.value, 4, unit),
            Amount::Below(b) => Self { relation: "<".into(), ..Self::trimmed(b.limit, 2, unit) },
            Amount::Above(b) => Self { relation: ">".into(), ..Self::trimmed(b.limit, 2, unit) },
        }
    }

    /// In a language: its decimal sign, `1.05 ± 0.12 ng/L`.
    pub fn said(&self, language: Language) -> String {
        let mut out = String::new();
        if !self.relation.is_empty() {
            out += &self.relation;
            out.push(' ');
        }
        out += &language.number(&self.digits.print(self.value));
        if let Some(u) = self.expanded {
            out += " ± ";
            out += &language.number(&self.digits.print(u));
        }
        if !self.unit.is_empty() {
            out.push(' ');
            out += &self.unit;
        }
        out
    }
}

/// The unit 1 is not printed.
fn unit_of(unit: &str) -> String {
    if unit == "1" { String::new() } else { unit.to_string() }
}

/// A part of a whole, shown in percent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Share {
    /// 0 to 1; a recovery may be more.
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
    pub fn said(&self, language: Language) -> String {
        format!("{} %", language.number(&self.digits.print(100.0 * self.value)))
    }
}
