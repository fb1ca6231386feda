//! Digits of a number: what a value shows. Round half to even, on the decimal digits of the number.

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

/// An upper bound to `digits` significant digits: rounded up, so that what is said still holds. What lies a rounding of
/// double precision over a printed number is that number.
///
/// ```
/// use message::number::{down, up};
/// assert_eq!([up(0.02810, 2), up(0.15, 2), up(12.01, 2), up(999.0, 2)], ["0.029", "0.15", "13", "1000"]);
/// assert_eq!([down(0.0289, 2), down(0.0996, 2), down(999.0, 2)], ["0.028", "0.099", "990"]);
/// ```
pub fn up(x: f64, digits: i32) -> String {
    towards(x, digits, 1.0)
}

/// A lower bound to `digits` significant digits: rounded down.
pub fn down(x: f64, digits: i32) -> String {
    towards(x, digits, -1.0)
}

/// An upper bound raised to a number of decimals, where the number beside it decides how many.
///
/// ```
/// use message::number::raised;
/// assert_eq!([raised(2.7412, 2), raised(2.74, 2)], [2.75, 2.74]);
/// ```
pub fn raised(x: f64, decimals: i32) -> f64 {
    let scale = 10f64.powi(decimals);
    // As `up`: what lies a rounding over a printed number is that number.
    (x * scale - 1e-12 * (x * scale).abs()).ceil() / scale
}

fn towards(x: f64, digits: i32, side: f64) -> String {
    if x == 0.0 || !x.is_finite() {
        return significant(x, digits);
    }
    // Places of the number itself: 0.0996 has its second digit at the fourth place, though it rounds to 0.10.
    let places = digits - 1 - x.abs().log10().floor() as i32;
    let mut out = at_decimals(x, places).parse::<f64>().unwrap_or(x);
    // Twelve digits of a number that came out of some computing are its own (15 are kept).
    if side * (out - x) < -1e-12 * x.abs() {
        out += side * 10f64.powi(-places);
    }
    significant(out, digits)
}

/// To at most `digits` significant digits, without trailing zeros that nobody gave.
pub fn significant_trimmed(x: f64, digits: i32) -> String {
    trimmed(&significant(x, digits))
}

/// Without trailing zeros after the point.
pub fn trimmed(text: &str) -> String {
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { text };
    short.to_string()
}

/// Groups of three before the point with a thin no-break space, a true minus sign.
pub fn spaced(number: &str) -> String {
    let (sign, digits) = number.strip_prefix('-').map_or(("", number), |rest| ("−", rest));
    let (whole, fraction) = digits.split_once('.').map_or((digits, None), |(w, f)| (w, Some(f)));
    let mut out = String::from(sign);
    for (i, c) in whole.chars().enumerate() {
        if i > 0 && (whole.len() - i) % 3 == 0 && whole.len() > 3 {
            out.push('\u{202F}');
        }
        out.push(c);
    }
    if let Some(f) = fraction {
        out.push('.');
        out.push_str(f);
    }
    out
}

/// A text with its first letter large.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().collect::<String>() + chars.as_str())
}

/// A sentence with its first letter large and a full stop.
pub fn sentence(text: &str) -> String {
    let stop = if text.trim_end_matches(')').ends_with(['.', '!', '?']) { "" } else { "." };
    capital(text) + stop
}
