//! Printing to the digits that the uncertainty supports: u to two significant digits, the value
//! to the same decimal place (GUM 7.2.6; two digits are common practice). A value without u is
//! printed as its source gave it, to at most four significant digits; a bound to two, an upper one rounded up and a
//! lower one down, so that it still holds.
//! Round half to even, on the decimal digits of the number.

use crate::{Amount, Measured};
use message::number::{down, trimmed, up};
use message::{Digits, Lang, Message, Shown, amount as said};

pub use message::number::{at_decimals, capital, decimals_for, sentence, significant, significant_trimmed};

/// A share in percent to a number of significant digits, without the sign: 0.0345 to two is "3.5".
pub fn percent(share: f64, digits: i32) -> String {
    significant(100.0 * share, digits)
}

/// As [`percent`], without trailing zeros that nobody gave: 0.95 to three is "95".
pub fn percent_trimmed(share: f64, digits: i32) -> String {
    significant_trimmed(100.0 * share, digits)
}

/// A part of an uncertainty budget in percent, to two digits; one too small to matter as "< 0.01".
pub fn percent_of_budget(share: f64) -> String {
    if share < 1e-4 { "< 0.01".into() } else { percent(share, 2) }
}

/// A share of species or sources in whole percent; under one as "< 1", so that what is there is never
/// a nought.
pub fn percent_whole(share: f64) -> String {
    if 100.0 * share < 1.0 { "< 1".into() } else { at_decimals(100.0 * share, 0) }
}

/// A probability to three decimals: near its ends a bound, because a probability from an estimated u is never 0 or 1.
pub fn probability(p: f64) -> String {
    probability_shown(p).said(Lang::En)
}

/// The same within a message.
pub fn probability_shown(p: f64) -> Shown {
    let bound = |relation: &str, bound: f64| Shown { relation: relation.into(), ..Shown::decimals(bound, 3, "") };
    match at_decimals(p, 3).as_str() {
        "1.000" => bound(">", 0.999),
        "0.000" => bound("<", 0.001),
        _ => Shown::decimals(p, 3, ""),
    }
}

/// The smallest p value that is told; one below it is told as being below it.
// Common practice: further out the tail of a distribution is a matter of faith.
const LEAST_P: f64 = 1e-4;

/// The p value of a test: two decimals, four below 0.01, and `< 0.0001`.
///
/// ```
/// use message::Lang;
/// use quantity::format::p_value;
/// assert_eq!([0.034, 0.0042, 3e-120].map(|p| p_value(p).said(Lang::En)), ["0.03", "0.0042", "< 0.0001"]);
/// ```
pub fn p_value(p: f64) -> Shown {
    let told = |p: f64| Shown::decimals(p, if p < 0.01 { 4 } else { 2 }, "");
    if p < LEAST_P { Shown { relation: "<".into(), ..told(LEAST_P) } } else { told(p) }
}

/// Value and expanded uncertainty `k·u` in text, without unit: `("1.05", "0.12")`.
///
/// ```
/// use quantity::{Measured, Unit, format::value_and_expanded};
/// // The u decides the digits: a value far below it is a nought with the u's decimals, and has no sign.
/// let net = Measured::new(-0.004, 0.0498, Unit::known("ng/L"));
/// assert_eq!(value_and_expanded(&net, 2.0), ("0.00".into(), "0.10".into()));
/// ```
pub fn value_and_expanded(m: &Measured, k: f64) -> (String, String) {
    let decimals = decimals_for(k * m.u, 2);
    (at_decimals(m.value, decimals), at_decimals(k * m.u, decimals))
}

impl Measured {
    /// With its expanded uncertainty k·u, both to the digits that the uncertainty gives; for a message.
    pub fn shown(&self, k: f64) -> Shown {
        let decimals = decimals_for(k * self.u, 2);
        let shown = Shown::decimals(self.value, decimals, printed(&self.unit));
        Shown { expanded: Some(k * self.u).filter(|u| u.is_finite()), ..shown }
    }
}

/// As it stands behind a number; the unit 1 is not printed.
fn printed(unit: &crate::Unit) -> String {
    let text = unit.to_string();
    if text == "1" { String::new() } else { text }
}

impl Amount {
    /// For a message: a measured one with k·u, a stated one to four digits, a bound to two.
    pub fn shown(&self, k: f64) -> Shown {
        let trimmed = |x, n| Shown::new(x, Digits::Trimmed(n), printed(self.unit()));
        match self {
            Self::Measured(m) if m.value.is_finite() && m.u.is_finite() => m.shown(k),
            Self::Measured(m) => trimmed(m.value, 2),
            Self::Stated(s) => trimmed(s.value, 4),
            Self::Below(b) => Shown { relation: "<".into(), ..Shown::bound(b.limit, printed(&b.unit)) },
            Self::Above(b) => Shown { relation: ">".into(), ..Shown::lower_bound(b.limit, printed(&b.unit)) },
        }
    }

    /// A measured one with k·u by k = 2, which is said; a stated one as one without; for a message.
    pub fn with_u(&self) -> Message {
        let shown = |x, n| Shown::trimmed(x, n, printed(self.unit()));
        match self {
            Self::Measured(m) => {
                let decimals = decimals_for(m.u, 2);
                let amount = Shown::decimals(m.value, decimals, printed(&m.unit));
                said::WithU { amount, u: Shown::decimals(m.u, decimals, "") }.into()
            }
            Self::Stated(s) => said::WithoutU { amount: shown(s.value, 4) }.into(),
            Self::Below(b) => said::Below { limit: Shown::bound(b.limit, printed(&b.unit)) }.into(),
            Self::Above(b) => said::Above { limit: Shown::lower_bound(b.limit, printed(&b.unit)) }.into(),
        }
    }

    /// With its expanded uncertainty by k = 2, said so: what a finding compares; for a message.
    pub fn with_expanded(&self) -> Message {
        match self {
            Self::Measured(m) if m.u.is_finite() && m.u > 0.0 => said::WithExpanded { amount: m.shown(2.0) }.into(),
            other => other.with_u(),
        }
    }

    /// The amount as it came, in one line with standard uncertainty and unit, for who asks with it: `1.05 ng/L (u 0.06)`, `< 0.15 ng/L`,
    /// `12 µg/L (u not stated)`.
    pub fn in_words(&self) -> String {
        match self {
            Self::Measured(m) => {
                let (v, u) = value_and_expanded(m, 1.0);
                format!("{} (u {u})", with_unit(&v, &m.unit))
            }
            Self::Stated(s) => format!("{} (u not stated)", with_unit(&significant_trimmed(s.value, 4), &s.unit)),
            Self::Below(b) => format!("< {}", with_unit(&trimmed(&up(b.limit, 2)), &b.unit)),
            Self::Above(b) => format!("> {}", with_unit(&trimmed(&down(b.limit, 2)), &b.unit)),
        }
    }
}

fn with_unit(number: &str, unit: &crate::Unit) -> String {
    let u = unit.to_string();
    if u == "1" { number.to_string() } else { format!("{number} {u}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Unit;

    #[test]
    fn digits_follow_the_uncertainty() {
        // As it came, and as people are told it: ± is the expanded uncertainty, two digits of it (JCGM 100:2008, 7.2.6).
        for (value, u, came, told) in [
            (1.0512, 0.0612, "1.051 ng/L (u 0.061)", "1.05 ± 0.12 ng/L (k = 2)"),
            (0.004, 0.0996, "0.00 ng/L (u 0.10)", "0.00 ± 0.20 ng/L (k = 2)"),
            (-0.004, 0.0996, "0.00 ng/L (u 0.10)", "0.00 ± 0.20 ng/L (k = 2)"),
            (12345.0, 678.0, "12340 ng/L (u 680)", "12300 ± 1400 ng/L (k = 2)"),
            (-0.31, 0.12, "-0.31 ng/L (u 0.12)", "-0.31 ± 0.24 ng/L (k = 2)"),
        ] {
            let amount = Amount::measured(value, u, Unit::known("ng/L"));
            assert_eq!([amount.in_words(), amount.with_u().in_english()], [came, told]);
        }
        for (amount, want) in [
            (Amount::below(0.15, Unit::known("ng/L")), "< 0.15 ng/L"),
            (Amount::above(1200.0, Unit::one()), "> 1200"),
            (Amount::stated(12.0, Unit::known("ug/L as Cr")), "12 µg/L as Cr (u not stated)"),
        ] {
            assert_eq!([amount.in_words(), amount.with_u().in_english()], [want, want]);
        }
    }
}
