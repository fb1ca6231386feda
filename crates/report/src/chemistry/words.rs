//! Names of solids and metals, numbers with a true minus sign; species are set by [`quantity::formula::typeset`].

use super::super::words::capital;
use message::{Arg, Message, Name, Shown, Spoken, chemistry, language as spoken, word};

/// To significant digits.
pub fn digits(x: f64, n: i32, unit: &str) -> Shown {
    Shown::significant(x, n, unit).typeset()
}

/// To decimals.
pub fn decimals(x: f64, n: i32, unit: &str) -> Shown {
    Shown::decimals(x, n, unit).typeset()
}

/// A share in whole percent; under one as "< 1", so that what is there is never a nought.
pub fn percent(share: f64, unit: &str) -> Shown {
    if 100.0 * share < 1.0 {
        return Shown { relation: "<".into(), ..Shown::decimals(1.0, 0, unit) };
    }
    Shown::decimals(100.0 * share, 0, unit)
}

/// A solid of the table of constants.
pub fn solid(name: &str) -> Arg {
    Message::named("mineral", name).map_or_else(|| Name::from(name).into(), Arg::from)
}

/// A solid where it stands alone.
pub fn solid_alone(name: &str) -> String {
    Message::named("mineral", name).map_or_else(|| name.to_string(), |m| m.text())
}

/// An element or ion by its symbol, or by the name it was given.
pub fn substance(symbol: &str) -> Arg {
    Message::named("substance", symbol).map_or_else(|| Name::from(symbol).into(), Arg::from)
}

/// How a figure is known: the mark of the tables.
pub fn how_known(mark: &str) -> Message {
    match mark {
        "seen" | "S" => word::Seen.into(),
        "computed" => chemistry::Computed.into(),
        "estimate" => chemistry::Estimated.into(),
        _ => chemistry::Recalled.into(),
    }
}

/// With its first letter large.
pub fn with_capital(of: &Message) -> String {
    capital(plain(of))
}

/// A clause as a sentence.
pub fn as_sentence(clause: &Message) -> String {
    format!("{}.", capital(plain(clause)))
}

fn plain(of: &Message) -> String {
    of.said(spoken()).unwrap_or_else(|| of.in_english())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each solid of the table of constants is in the catalogue, and each row of the odour thresholds.
    #[test]
    fn rows_of_the_tables_have_their_words() {
        for solid in &aqueous::network::network().solids {
            assert!(Message::named("mineral", &solid.name).is_some(), "{}", solid.name);
        }
        for row in aqueous::odour::thresholds() {
            assert!(Message::named("odour", &row.key).is_some(), "{row:?}");
        }
    }

    #[test]
    fn what_is_there_is_never_a_nought() {
        for (share, shown) in [(1e-12, "< 1 %"), (0.0099, "< 1 %"), (0.01, "1 %"), (0.996, "100 %")] {
            assert_eq!(percent(share, "%").text(), shown);
        }
    }

    #[test]
    fn a_rounded_nothing_has_no_sign() {
        assert_eq!(decimals(-0.001, 2, "").text(), "0.00");
        assert_eq!(decimals(-2.5, 1, "").text(), "−2.5");
    }
}
