//! Amounts and factors in the words of a language. A factor is rounded to the side that claims less.

use quantity::format::{decimals_for, significant, significant_trimmed, value_and_expanded};
use quantity::{Amount, Lang};
use statistics::t;

/// An amount with its expanded uncertainty, `1.05 ± 0.12 ng/L`, or what bounds it.
pub fn amount_in_words(lang: Lang, a: &Amount) -> String {
    let with = |n: String| {
        let unit = a.unit().to_string();
        if unit == "1" { lang.number(&n) } else { format!("{} {unit}", lang.number(&n)) }
    };
    match a {
        Amount::Measured(m) => {
            let (v, u) = value_and_expanded(m, t::upper_quantile(0.025, m.dof));
            with(format!("{v} ± {u}"))
        }
        Amount::Stated(s) => lang.say("amount.stated", &[("x", &with(significant_trimmed(s.value, 4)))]),
        Amount::Below(b) => lang.say("amount.below", &[("x", &with(at_most_text(b.limit)))]),
        Amount::Above(b) => lang.say("amount.above", &[("x", &with(significant_trimmed(b.limit, 2)))]),
    }
}

/// Two digits, rounded down: a bound that claims no more than was found.
pub fn floor_text(x: f64) -> String {
    rounded(x, f64::floor)
}

/// Two digits, rounded up.
pub fn at_most_text(x: f64) -> String {
    rounded(x, f64::ceil)
}

fn rounded(x: f64, to: fn(f64) -> f64) -> String {
    if x == 0.0 || !x.is_finite() {
        return significant(x, 2);
    }
    // Digits of the number itself, so that 0.9999… does not become 1.0 on the way.
    let exponent = x.abs().log10().floor() as i32;
    let scale = 10f64.powi(1 - exponent);
    // A number of two digits stays as it is, also where the scale brings rounding of its own.
    let scaled = x * scale;
    let whole = if (scaled - scaled.round()).abs() < 1e-9 { scaled.round() } else { to(scaled) };
    let value = whole / scale;
    plain(value, 2)
}

/// A number without exponent, to `digits` digits, without trailing zeros that nobody gave.
pub(crate) fn plain(x: f64, digits: i32) -> String {
    if x.abs() < 1e-9 && x != 0.0 {
        let decimals = decimals_for(x, digits);
        return format!("{x:.*}", usize::try_from(decimals).unwrap_or(0)).trim_end_matches('0').to_string();
    }
    significant_trimmed(x, digits)
}

/// A range in words; open ends say so.
pub(crate) fn range(lang: Lang, interval: [Option<f64>; 2]) -> String {
    let n = |x: f64| lang.number(&plain(x, 3));
    match interval {
        [Some(l), Some(h)] => lang.say("range.both", &[("low", &n(l)), ("high", &n(h))]),
        [Some(l), None] => lang.say("range.low", &[("low", &n(l))]),
        [None, Some(h)] => lang.say("range.high", &[("high", &n(h))]),
        [None, None] => lang.say("range.none", &[]),
    }
}

/// A probability in words.
pub(crate) fn probability(lang: Lang, p: f64) -> String {
    if p > 0.9995 {
        lang.say("probability.over", &[])
    } else if p < 0.0005 {
        lang.say("probability.under", &[])
    } else {
        lang.number(&format!("{p:.3}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_claim_no_more_than_was_found() {
        for (x, down, up) in [
            (3.4389, "3.4", "3.5"),
            (0.0996, "0.099", "0.1"),
            (12.0, "12", "12"),
            (999.0, "990", "1000"),
            (2.4, "2.4", "2.4"),
        ] {
            assert_eq!((floor_text(x).as_str(), at_most_text(x).as_str()), (down, up));
        }
    }
}
