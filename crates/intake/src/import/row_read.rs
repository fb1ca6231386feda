//! A result of a file as it would be kept, as a sentence: for the last look before a file is taken in.
//!
//! In: a row as read and what it refers to; standard uncertainties in the unit of the value. Out: a message. ± is U with
//! k = 2, as on every page. It computes nothing else and writes nothing.

use super::cell::Said;
use super::results::{ResultRow, Series};
use message::number::decimals_for;
use message::{Arg, Date, Message, Name, Shown, web_columns as says};
use quantity::Unit;

/// k of the ± that is printed: about 95 % of a normal distribution (JCGM 100:2008, 6.2.1, 6.3.3).
const COVERAGE: f64 = 2.0;

/// Significant digits of U (JCGM 100:2008, 7.2.6: at most two), and of a number without it.
const DIGITS_OF_U: i32 = 2;
const DIGITS: i32 = 4;

/// A limit in words.
type LimitSaid = fn(Shown) -> Message;

/// Where the limits stand among the reals of a row, and their words.
const LIMITS: [(usize, LimitSaid); 4] = [
    (2, |x| says::LimCritical { x }.into()),
    (3, |x| says::LimDetection { x }.into()),
    (4, |x| says::LimQuantification { x }.into()),
    (5, |x| says::LimReporting { x }.into()),
];

/// A value with U = 2 u where u is known.
pub fn with_expanded(value: f64, u: f64, unit: &str) -> Shown {
    let expanded = COVERAGE * u;
    if !(expanded.is_finite() && expanded > 0.0) {
        return Shown::trimmed(value, DIGITS, unit);
    }
    Shown { expanded: Some(expanded), ..Shown::decimals(value, decimals_for(expanded, DIGITS_OF_U), unit) }
}

/// The row in a sentence; `day` as the record writes it, where the file gives one.
pub(crate) fn sentence(bottle: &str, day: Option<&str>, series: &Series, unit: &Unit, row: &ResultRow) -> Message {
    let text = unit.to_string();
    let unit = if text == "pH" || text == "1" { "" } else { text.as_str() };
    let related = |relation: &str, x| Shown { relation: relation.into(), ..Shown::trimmed(x, DIGITS, unit) };
    let what = name_of(&series.analyte);
    let more = fraction(&series.fraction);
    let bottle: Name = bottle.into();
    let of = match row.said {
        Said::Value(x) | Said::Estimate(x) => amount(bottle, day, what, with_expanded(x, row.reals[0], unit), more),
        Said::Below(x) => amount(bottle, day, what, related("<", x), more),
        Said::Above(x) => amount(bottle, day, what, related(">", x), more),
        Said::NotDetected(Some(x)) => {
            let said = says::SaidNotFound { x: Shown::trimmed(x, DIGITS, unit) }.into();
            says::KeptNoNumber { bottle, what, said, more }.into()
        }
        Said::NotDetected(None) => {
            says::KeptNoNumber { bottle, what, said: says::SaidNotFoundUnknown.into(), more }.into()
        }
        Said::Nothing | Said::BelowOf(_) => {
            says::KeptNoNumber { bottle, what, said: says::SaidNothing.into(), more }.into()
        }
    };
    let of = if matches!(row.said, Said::Estimate(_)) { says::KeptEstimated { of }.into() } else { of };
    let stated = LIMITS.iter().filter(|(place, _)| !row.reals[*place].is_nan());
    let limits: Vec<Arg> =
        stated.map(|(place, of)| of(Shown::trimmed(row.reals[*place], DIGITS, unit)).into()).collect();
    if limits.is_empty() { of } else { says::KeptLimits { of, limits }.into() }
}

fn amount(bottle: Name, day: Option<&str>, what: Vec<Arg>, value: Shown, more: Message) -> Message {
    match day {
        Some(day) => says::KeptDated { bottle, day: Date(day.into()), what, value, more }.into(),
        None => says::Kept { bottle, what, value, more }.into(),
    }
}

/// What was measured, by its name in the catalogues or as it is written.
fn name_of(analyte: &str) -> Vec<Arg> {
    vec![Message::named("substance", analyte).map_or_else(|| Name::from(analyte).into(), Into::into)]
}

/// Which part of the water.
pub fn fraction(text: &str) -> Message {
    match text {
        "" => says::FractionNone.into(),
        "unfiltered" => says::FractionUnfiltered.into(),
        "filtered" => says::FractionFiltered.into(),
        other => match other.strip_suffix(" um") {
            Some(pore) => says::FractionPore { pore: pore.into() }.into(),
            None => says::FractionOther { fraction: other.into() }.into(),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use message::Lang;

    /// 1.20 with u 0.05: U is 0.10; four significant digits without u.
    #[test]
    fn a_value_is_kept_with_its_expanded_uncertainty() {
        let said = |x: Shown| x.said(Lang::En);
        assert_eq!(said(with_expanded(1.2, 0.05, "ug/L")), "1.20 ± 0.10 ug/L");
        assert_eq!(said(with_expanded(1.2, f64::NAN, "mg/L")), "1.2 mg/L");
        assert_eq!(said(with_expanded(1.2, 0.0, "mg/L")), "1.2 mg/L");
    }

    #[test]
    fn a_row_that_holds_no_number_says_so() {
        let series = Series {
            analyte: "Pb".into(),
            fraction: "0.45 um".into(),
            isotopes: String::new(),
            resolution: String::new(),
        };
        let unit = Unit::parse("mg/L").unwrap();
        let mut reals = [f64::NAN; 6];
        reals[4] = 0.02;
        let row = |said| ResultRow { row: 2, bottle: 0, series: 0, unit: 0, said, reals, texts: [u32::MAX; 4] };
        let says = sentence("A-1", Some("2026-07-14"), &series, &unit, &row(Said::NotDetected(Some(0.02))));
        assert!(says.is::<says::KeptLimits>());
        let Some(Arg::Message(of)) = says.arg("of") else { panic!("{says:?}") };
        assert!(of.is::<says::KeptNoNumber>(), "{of:?}");
        assert_eq!(of.arg("more"), Some(&Arg::Message(says::FractionPore { pore: "0.45".into() }.into())));
    }
}
