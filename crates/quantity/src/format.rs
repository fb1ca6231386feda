//! Printing to the digits that the uncertainty supports: u to two significant digits, the value
//! to the same decimal place (GUM 7.2.6; two digits are common practice). A value without u is
//! printed as its source gave it, to at most four significant digits; a limit to two.
//! Round half to even, on the decimal digits of the number.

use crate::{Amount, Measured};

/// Number of decimals at which `u` has `digits` significant digits (may be negative).
pub fn decimals_for(u: f64, digits: i32) -> i32 {
    if u == 0.0 || !u.is_finite() {
        return digits;
    }
    let exponent = u.abs().log10().floor() as i32;
    let decimals = digits - 1 - exponent;
    // 0.0996 rounds up to 0.10: one digit fewer after the point.
    let scale = 10f64.powi(decimals);
    if (u.abs() * scale).round() >= 10f64.powi(digits) { decimals - 1 } else { decimals }
}

/// `x` at a number of decimals; negative decimals round before the point.
pub fn at_decimals(x: f64, decimals: i32) -> String {
    let text = if decimals >= 0 {
        format!("{x:.*}", decimals as usize)
    } else {
        let scale = 10f64.powi(-decimals);
        format!("{:.0}", (x / scale).round_ties_even() * scale)
    };
    if text.trim_start_matches('-').chars().all(|c| matches!(c, '0' | '.')) {
        text.trim_start_matches('-').to_string()
    } else {
        text
    }
}

/// `x` to a number of significant digits.
pub fn significant(x: f64, digits: i32) -> String {
    if x == 0.0 { "0".into() } else { at_decimals(x, decimals_for(x, digits)) }
}

/// A probability to three decimals: near its ends a bound, because a probability from an estimated u is never 0 or 1.
pub fn probability(p: f64) -> String {
    match format!("{p:.3}").as_str() {
        "1.000" => "> 0.999".into(),
        "0.000" => "< 0.001".into(),
        plain => plain.into(),
    }
}

/// Value and expanded uncertainty `k·u` in text, without unit: `("1.05", "0.12")`.
pub fn value_and_expanded(m: &Measured, k: f64) -> (String, String) {
    let decimals = decimals_for(k * m.u, 2);
    (at_decimals(m.value, decimals), at_decimals(k * m.u, decimals))
}

impl Amount {
    /// The amount in one line with standard uncertainty and unit: `1.05 ng/L (u 0.06)`, `< 0.15 ng/L`,
    /// `12 µg/L (u not stated)`.
    pub fn in_words(&self) -> String {
        match self {
            Self::Measured(m) => {
                let (v, u) = value_and_expanded(m, 1.0);
                format!("{} (u {u})", with_unit(&v, &m.unit))
            }
            Self::Stated(s) => format!("{} (u not stated)", with_unit(&significant_trimmed(s.value, 4), &s.unit)),
            Self::Below(b) => format!("< {}", with_unit(&significant_trimmed(b.limit, 2), &b.unit)),
            Self::Above(b) => format!("> {}", with_unit(&significant_trimmed(b.limit, 2), &b.unit)),
        }
    }
}

fn with_unit(number: &str, unit: &crate::Unit) -> String {
    let u = unit.to_string();
    if u == "1" { number.to_string() } else { format!("{number} {u}") }
}

/// To at most `digits` significant digits, without trailing zeros that nobody gave.
pub fn significant_trimmed(x: f64, digits: i32) -> String {
    let text = significant(x, digits);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_string() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Unit;

    #[test]
    fn digits_follow_the_uncertainty() {
        for (value, u, want) in [
            (1.0512, 0.0612, "1.051 ng/L (u 0.061)"),
            (0.004, 0.0996, "0.00 ng/L (u 0.10)"),
            (-0.004, 0.0996, "0.00 ng/L (u 0.10)"),
            (12345.0, 678.0, "12340 ng/L (u 680)"),
            (-0.31, 0.12, "-0.31 ng/L (u 0.12)"),
        ] {
            assert_eq!(Amount::measured(value, u, Unit::known("ng/L")).in_words(), want);
        }
        assert_eq!(Amount::below(0.15, Unit::known("ng/L")).in_words(), "< 0.15 ng/L");
        assert_eq!(Amount::stated(12.0, Unit::known("ug/L as Cr")).in_words(), "12 µg/L as Cr (u not stated)");
    }
}
