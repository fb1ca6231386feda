//! Figures of tests as people read them, one way for findings, tables and sentences.
//!
//! In: a probability or a signed figure; out: a message, or text in the language that is spoken. Digits follow common
//! practice: a p value down to 0.0001, four decimals below 0.01, two above; a proper minus sign. No units, no rounding to
//! an uncertainty: that is `quantity::format`.

use crate::Reading;
use message::{Digits, Lang, Message, Shown, Spoken, series as said};

/// The smallest p that is told; one below it is told as being below it.
const LEAST_P: f64 = 1e-4;

fn p_told(p: f64) -> Shown {
    Shown::decimals(p, if p < 0.01 { 4 } else { 2 }, "")
}

/// A p value within a message: `0.03`, `0.0042`, `< 0.0001`.
pub fn p_shown(p: f64) -> Shown {
    if p < LEAST_P { Shown { relation: "<".into(), ..p_told(LEAST_P) } } else { p_told(p) }
}

/// The same alone, with a hard space after the sign.
pub fn p_value(p: f64) -> String {
    p_shown(p).text().replace(' ', "\u{A0}")
}

/// The same after the letter, as a message: `p 0.03`, `p < 0.0001`.
pub fn p_said(p: f64) -> Message {
    if p < LEAST_P { said::PUnder { bound: p_told(LEAST_P) }.into() } else { said::P { p: p_told(p) }.into() }
}

/// "tau" and the figure, for a message.
pub fn tau_said(tau: f64) -> Message {
    let size = Shown::decimals(tau.abs(), 2, "");
    if is_negative(tau, Digits::Decimals(2)) { said::TauNegative { size }.into() } else { said::Tau { size }.into() }
}

/// A figure with a proper sign, `∞` where the data do not bound it.
pub fn figure(x: f64, digits: Digits) -> Message {
    if !x.is_finite() {
        return said::Unbounded.into();
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
