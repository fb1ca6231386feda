//! Figures of tests as people read them, one way for findings, tables and sentences.
//!
//! In: a probability or a signed figure; out: text. Digits follow common practice: a p value down
//! to 0.0001, four decimals below 0.01, two above; a proper minus sign. No units, no rounding to
//! an uncertainty: that is `quantity::format`.

use message::{Message, Shown, series as said};

/// A p value: `0.03`, `0.0042`, `<0.0001` (with a hard space after the sign).
pub fn p_value(p: f64) -> String {
    if p < 1e-4 { "<\u{A0}0.0001".into() } else { quantity::format::at_decimals(p, if p < 0.01 { 4 } else { 2 }) }
}

/// The same after the letter: `p 0.03`, `p < 0.0001`.
pub fn p(p: f64) -> String {
    format!("p {}", p_value(p))
}

/// The same for a message.
pub fn p_said(p: f64) -> Message {
    if p < 1e-4 {
        said::PUnder { bound: Shown::decimals(1e-4, 4, "") }.into()
    } else {
        said::P { p: Shown::decimals(p, if p < 0.01 { 4 } else { 2 }, "") }.into()
    }
}

/// "tau" and the figure, for a message.
pub fn tau_said(x: f64) -> Message {
    let size = Shown::decimals(x.abs(), 2, "");
    if tau(x).starts_with('−') { said::TauNegative { size }.into() } else { said::Tau { size }.into() }
}

/// A figure between −1 and 1 with its sign.
pub fn tau(tau: f64) -> String {
    quantity::format::at_decimals(tau, 2).replace('-', "−")
}
