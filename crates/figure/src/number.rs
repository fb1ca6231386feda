//! How does a quantity stand in a table or a sentence?
//!
//! In: an [`Amount`] and a coverage factor k. Out: its printed parts: `1.05 ± 0.12 ng/L`,
//! `< 0.15 ng/L`, `12 µg/L` with the mark † for "uncertainty not stated". Digits follow the rule of
//! `quantity::format`: U to two significant digits, the value to the same place. A true minus sign,
//! no grouping of digits (so that columns stay aligned and can be copied).
//! What it does not do: it does not choose k. Checked below.

use crate::text::{self, Weight};
use message::number::{down, trimmed, up};
use message::{Spoken, figure as said};
use quantity::Amount;
use quantity::format::{significant_trimmed, value_and_expanded};

/// An amount in printed parts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// `<`, `>` or nothing.
    pub relation: &'static str,
    /// The number.
    pub value: String,
    /// The expanded uncertainty, where there is one.
    pub expanded: Option<String>,
    /// The unit; empty for 1.
    pub unit: String,
    /// The source gave a value without uncertainty.
    pub stated: bool,
}

impl Printed {
    /// The amount with expanded uncertainty `k · u`.
    pub fn of(amount: &Amount, k: f64) -> Self {
        let unit = amount.unit().to_string();
        let mut out = Self {
            relation: "",
            value: String::new(),
            expanded: None,
            unit: if unit == "1" { String::new() } else { unit },
            stated: false,
        };
        match amount {
            Amount::Measured(m) if m.value.is_finite() && m.u.is_finite() => {
                let (value, expanded) = value_and_expanded(m, k);
                out.value = value;
                out.expanded = Some(expanded);
            }
            // Without a finite u there is no place to round to: two digits, as for a bound.
            Amount::Measured(m) => out.value = finite(m.value, 2),
            Amount::Stated(s) => {
                out.value = finite(s.value, 4);
                out.stated = true;
            }
            Amount::Below(b) => {
                out.relation = "<";
                out.value = trimmed(&up(b.limit, 2));
            }
            Amount::Above(b) => {
                out.relation = ">";
                out.value = trimmed(&down(b.limit, 2));
            }
        }
        let language = message::language();
        out.value = language.number(&out.value.replace('-', "−"));
        out.expanded = out.expanded.map(|u| language.number(&u));
        out
    }

    /// Without unit: `1.05 ± 0.12`, `< 0.15`, `12 †`. Spaces do not break.
    pub fn number(&self) -> String {
        let mut out = String::new();
        if !self.relation.is_empty() {
            out += self.relation;
            out.push('\u{A0}');
        }
        out += &self.value;
        if let Some(u) = &self.expanded {
            out += "\u{A0}±\u{A0}";
            out += u;
        }
        if self.stated {
            out += "\u{A0}†";
        }
        out
    }

    /// With unit: `(1.05 ± 0.12) ng/L` as the SI brochure asks for, `< 0.15 ng/L`.
    pub fn with_unit(&self) -> String {
        if self.unit.is_empty() {
            return self.number();
        }
        let number = self.number();
        if self.expanded.is_some() {
            format!("({number})\u{A0}{}", self.unit)
        } else {
            format!("{number}\u{A0}{}", self.unit)
        }
    }

    /// As it stands in a paper: `1.05 ± 0.12 ng/L`, number, ± and unit held together, without brackets.
    pub fn in_line(&self) -> String {
        let number = self.number();
        if self.unit.is_empty() { number } else { format!("{number}\u{A0}{}", self.unit) }
    }

    /// Width of what follows the units digit, in em: columns line up when each cell is padded to
    /// the widest of these.
    pub fn after_point_em(&self) -> f64 {
        let number = self.number();
        let lead = self.relation.len() + if self.relation.is_empty() { 0 } else { '\u{A0}'.len_utf8() };
        let whole = self.value.find(['.', ',']).unwrap_or(self.value.len());
        text::width(&number[lead + whole..], 1.0, Weight::Regular)
    }
}

/// The same of a number in words ("at most 2.75"), at its first decimal sign.
pub fn after_point_in_words_em(words: &str) -> f64 {
    words.find(['.', ',']).map_or(0.0, |at| text::width(&words[at..], 1.0, Weight::Regular))
}

fn finite(x: f64, digits: i32) -> String {
    if x.is_finite() { significant_trimmed(x, digits) } else { said::NotGiven.text() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Unit;

    #[test]
    fn digits_never_outrun_the_uncertainty() {
        let ng = || Unit::known("ng/L");
        let check = |a: Amount, k: f64, want: &str| {
            assert_eq!(Printed::of(&a, k).with_unit().replace('\u{A0}', " "), want);
        };
        check(Amount::measured(1.0512, 0.0612, ng()), 2.0, "(1.05 ± 0.12) ng/L");
        check(Amount::measured(-0.31, 0.12, ng()), 2.0, "(−0.31 ± 0.24) ng/L");
        check(Amount::measured(12345.0, 678.0, ng()), 2.0, "(12300 ± 1400) ng/L");
        check(Amount::below(0.15, ng()), 2.0, "< 0.15 ng/L");
        check(Amount::stated(12.0, ng()), 2.0, "12 † ng/L");
        check(Amount::measured(f64::NAN, 1.0, ng()), 2.0, "not given ng/L");
    }

    #[test]
    fn padding_lines_up_the_points() {
        let ng = || Unit::known("ng/L");
        let whole = Printed::of(&Amount::below(2.0, ng()), 2.0);
        let fraction = Printed::of(&Amount::below(0.15, ng()), 2.0);
        assert!(whole.after_point_em().abs() < 1e-12);
        assert!((fraction.after_point_em() - text::width(".15", 1.0, Weight::Regular)).abs() < 1e-12);
    }
}
