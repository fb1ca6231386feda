//! Figures of tests as people read them, one way for findings, tables and sentences.
//!
//! In: a probability or a signed figure; out: a message, or text in the language that is spoken. A p value is
//! told by `quantity::format`, as everywhere; a figure has a proper minus sign. No units, no rounding to an uncertainty.

use crate::Reading;
use message::{Digits, Lang, Message, Shown, Spoken, series as said};

/// As everywhere, but near 0.05 with the digits that tell on which side it lies.
pub fn p_shown(p: f64) -> Shown {
    if (0.045..0.055).contains(&p) { Shown::decimals(p, 4, "") } else { quantity::format::p_value(p) }
}

/// The same alone, with a hard space after the sign.
pub fn p_value(p: f64) -> String {
    p_shown(p).text().replace(' ', "\u{A0}")
}

/// The same after the letter, as a message: `p 0.03`, `p < 0.0001`.
pub fn p_said(p: f64) -> Message {
    let p = p_shown(p);
    if p.relation.is_empty() {
        return said::P { p }.into();
    }
    said::PUnder { bound: Shown { relation: String::new(), ..p } }.into()
}

/// "tau" and the figure, for a message.
pub fn tau_said(tau: f64) -> Message {
    let size = Shown::decimals(tau.abs(), 2, "");
    if is_negative(tau, Digits::Decimals(2)) { said::TauNegative { size }.into() } else { said::Tau { size }.into() }
}

/// A figure with a proper sign, `∞` or `−∞` where the data do not bound it.
pub fn figure(x: f64, digits: Digits) -> Message {
    if !x.is_finite() {
        return if x < 0.0 { said::UnboundedBelow.into() } else { said::Unbounded.into() };
    }
    let sign = if is_negative(x, digits) { "minus" } else { "plus" };
    said::Figure { sign: sign.into(), size: Shown::new(x.abs(), digits, "") }.into()
}

/// A reading: its figure, or below which it is.
pub fn reading(r: Reading, digits: Digits) -> Message {
    let figure = figure(r.bound(), digits);
    if r.is_known() { figure } else { said::Below { limit: figure }.into() }
}

/// As it is printed: what rounds to zero has no sign.
fn is_negative(x: f64, digits: Digits) -> bool {
    Shown::new(x, digits, "").said(Lang::En).starts_with('-')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_open_end_has_its_side() {
        let said = |x: f64| figure(x, Digits::Significant(2)).in_english();
        assert_eq!([f64::NEG_INFINITY, f64::INFINITY, -0.5].map(said), ["−∞", "∞", "−0.50"]);
    }
}
