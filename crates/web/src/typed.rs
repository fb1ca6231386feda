//! What people type: numbers with a comma or a point, days and hours as they are spoken, reasons that say something.
//!
//! In: the text of a field, and the language that is spoken. Out: the text as the record reads it (a decimal point, ISO
//! 8601), or why it cannot be read. A sign that may stand for thousands or for decimals is asked about, never guessed:
//! "1,234" of an English page, "1.234" of a German one. What is no number and no day is left as it is: whoever reads the
//! row says what was expected. Checked in this file.

use document::printed::printed;
use message::{Lang, Message, Spoken, language, web_forms as said};

/// Words that a reason has at least: fewer say nothing years from now. The programme's own choice.
const REASON_WORDS: usize = 3;

/// A message in the language that is spoken, with days and units as they are printed.
#[allow(clippy::needless_pass_by_value, reason = "a message is made where it is said")]
pub(crate) fn say(message: impl Spoken) -> String {
    let spoken = language();
    printed(&message.in_language(spoken), spoken)
}

/// A text that is not a message, in what it is printed with: days in words, units and charges as a chemist writes them.
pub(crate) fn shown(text: &str) -> String {
    printed(text, language())
}

/// A text that speaks English alone; marked where another language is spoken.
pub(crate) fn older(text: &str) -> String {
    shown(&message::older(&quantity::format::capital(text)))
}

/// An amount with its expanded uncertainty, or what bounds it.
pub(crate) fn amount(a: &quantity::Amount) -> String {
    shown(&limits::claim::amount_in_words(language(), a))
}

/// A number as the record reads it: with a decimal point, its digits as they were typed.
///
/// # Errors
/// What was found, and what was expected.
pub(crate) fn number_text(text: &str) -> Result<String, Message> {
    let no_number = || Message::from(said::NoNumber { text: text.trim().into() });
    let plain: String = text.trim().chars().filter(|c| !is_space(*c)).map(|c| if c == '−' { '-' } else { c }).collect();
    let signs: Vec<char> = plain.chars().filter(|c| matches!(c, '.' | ',')).collect();
    let decimal = match signs[..] {
        [] => None,
        [one] if may_be_thousands(&plain, one) => {
            let (small, large) = (plain.replace(one, "."), plain.replace(one, ""));
            return Err(said::Thousands { text: text.trim().into(), small: small.into(), large: large.into() }.into());
        }
        [one] => Some(one),
        // "1,234,567": one sign several times parts thousands; "1.234,5": the last of two kinds is the decimal sign.
        [first, .., last] if first == last && signs.iter().all(|s| *s == first) => None,
        [.., last] if signs.iter().filter(|s| **s == last).count() == 1 => Some(last),
        _ => return Err(no_number()),
    };
    let (whole, part) = match decimal {
        Some(sign) => plain.split_once(sign).unwrap_or((&plain, "")),
        None => (plain.as_str(), ""),
    };
    if !in_thousands(whole) {
        return Err(no_number());
    }
    let whole: String = whole.chars().filter(|c| !matches!(c, '.' | ',')).collect();
    let read = if decimal.is_some() { format!("{whole}.{part}") } else { whole };
    match read.parse::<f64>() {
        Ok(x) if x.is_finite() => Ok(read),
        _ => Err(no_number()),
    }
}

/// The same as a number.
///
/// # Errors
/// What was found, and what was expected.
pub(crate) fn number(text: &str) -> Result<f64, Message> {
    let read = number_text(text)?;
    read.parse().map_err(|_| said::NoNumber { text: text.trim().into() }.into())
}

fn is_space(c: char) -> bool {
    c.is_whitespace() || matches!(c, '\'' | '’')
}

/// Whether a sign that is not the decimal sign of the language stands where thousands part.
fn may_be_thousands(text: &str, sign: char) -> bool {
    let own = if language() == Lang::De { ',' } else { '.' };
    let Some((before, after)) = text.trim_start_matches('-').split_once(sign) else { return false };
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    sign != own && digits(before) && digits(after) && after.len() == 3 && before.len() <= 3 && !before.starts_with('0')
}

/// Whether the signs within a whole number part groups of three.
fn in_thousands(whole: &str) -> bool {
    let mut groups = whole.trim_start_matches('-').split(['.', ',']);
    let first = groups.next().unwrap_or_default();
    let rest: Vec<&str> = groups.collect();
    rest.is_empty() || (!first.is_empty() && first.len() <= 3 && rest.iter().all(|g| g.len() == 3))
}

/// Months by the three letters that tell them apart, English and German.
const MONTHS: [&[&str]; 12] = [
    &["jan", "jän"],
    &["feb"],
    &["mar", "mär"],
    &["apr"],
    &["may", "mai"],
    &["jun"],
    &["jul"],
    &["aug"],
    &["sep"],
    &["oct", "okt"],
    &["nov"],
    &["dec", "dez"],
];

/// A day, and the hour where one is typed, as the record reads them: "15.7.2026 9:30", "15 July 2026, 09:30",
/// "15. Juli 2026, 9:30 Uhr". None where it is nothing of the kind.
pub(crate) fn moment_text(text: &str) -> Option<String> {
    let mut parts = text.split([' ', ',', '\u{a0}']).filter(|p| !p.is_empty() && *p != "Uhr");
    let first = parts.next()?;
    let by_points: Vec<&str> = first.split('.').filter(|p| !p.is_empty()).collect();
    let (day, month, year) = match by_points[..] {
        [d, m, y] => (d.parse::<u8>().ok()?, m.parse::<u8>().ok()?, y.parse::<i16>().ok()?),
        [d] => {
            let month = parts.next()?.to_lowercase();
            let month = MONTHS.iter().position(|names| names.iter().any(|n| month.starts_with(n)))?;
            (d.parse().ok()?, u8::try_from(month + 1).ok()?, parts.next()?.parse().ok()?)
        }
        _ => return None,
    };
    let day = jiff::civil::Date::new(year, i8::try_from(month).ok()?, i8::try_from(day).ok()?).ok()?;
    match (parts.next(), parts.next()) {
        (None, _) => Some(day.to_string()),
        (Some(hour), None) => Some(format!("{day} {}", hour_text(hour)?)),
        _ => None,
    }
}

/// An hour of the clock as the record writes it: "9:05" is "09:05".
pub(crate) fn hour_text(text: &str) -> Option<String> {
    let (hour, minute) = text.trim().trim_end_matches("Uhr").trim().split_once([':', '.'])?;
    let (h, m) = (hour.parse::<u8>().ok()?, minute.parse::<u8>().ok()?);
    (h < 24 && m < 60 && minute.len() == 2).then(|| format!("{h:02}:{m:02}"))
}

/// Whether a reason says enough.
///
/// # Errors
/// What was expected.
pub(crate) fn reason(text: &str) -> Result<(), Message> {
    let words = text.split_whitespace().filter(|w| w.chars().any(char::is_alphanumeric)).count();
    if words >= REASON_WORDS { Ok(()) } else { Err(said::ReasonTooShort.into()) }
}

/// A name with what people write as they please left out: capitals, spaces, hyphens. Its numbers stay apart: SL-1-1 is
/// not SL-11.
pub(crate) fn loose(name: &str) -> (String, Vec<&str>) {
    let letters = name.chars().filter(|c| !c.is_whitespace() && !matches!(c, '-' | '‐' | '‑' | '–' | '_'));
    let numbers = name.split(|c: char| !c.is_ascii_digit()).filter(|n| !n.is_empty()).collect();
    (letters.flat_map(char::to_lowercase).collect(), numbers)
}

/// The name on record that was meant, where only capitals, spaces or hyphens differ and no other fits.
pub(crate) fn meant<'a>(typed: &str, known: impl IntoIterator<Item = &'a String>) -> Option<&'a str> {
    let wanted = loose(typed);
    let mut fits = known.into_iter().filter(|name| loose(name) == wanted);
    match (fits.next(), fits.next()) {
        (Some(one), None) => Some(one),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use message::with_language;

    #[test]
    fn commas_and_points_are_both_read_and_thousands_are_asked_about() {
        let read = |lang, text: &str| with_language(lang, || number_text(text).ok());
        for lang in Lang::ALL {
            for (text, as_read) in [
                ("7,62", "7.62"),
                ("7.62", "7.62"),
                ("−3,5", "-3.5"),
                ("0,234", "0.234"),
                ("1 234,5", "1234.5"),
                ("1.234,5", "1234.5"),
                ("1,234.5", "1234.5"),
                ("1,234,567", "1234567"),
                ("1’234", "1234"),
                ("1e-3", "1e-3"),
                ("12345,678", "12345.678"),
            ] {
                assert_eq!(read(lang, text).as_deref(), Some(as_read), "{text}");
            }
            for text in ["", "seven", "1,2,3", "1.2.3,4", "7,6 2 x", "--1", "inf", "NaN"] {
                assert_eq!(read(lang, text), None, "{text}");
            }
        }
        assert_eq!((read(Lang::En, "1.234"), read(Lang::En, "1,234")), (Some("1.234".into()), None));
        assert_eq!((read(Lang::De, "1,234"), read(Lang::De, "1.234")), (Some("1.234".into()), None));
        let asked = number_text("1,234").unwrap_err();
        assert!(asked.is::<said::Thousands>());
    }

    #[test]
    fn days_are_read_as_they_are_spoken() {
        for (text, read) in [
            ("15.7.2026", Some("2026-07-15")),
            ("15.07.2026 9:30", Some("2026-07-15 09:30")),
            ("15 July 2026, 09:30", Some("2026-07-15 09:30")),
            ("15. Juli 2026, 9:30 Uhr", Some("2026-07-15 09:30")),
            ("3 März 2026", Some("2026-03-03")),
            ("31.2.2026", None),
            ("15.7.2026 25:00", None),
            ("2026-07-15", None),
            ("soon", None),
            ("", None),
        ] {
            assert_eq!(moment_text(text).as_deref(), read, "{text}");
        }
    }

    #[test]
    fn a_reason_says_something() {
        for (text, enough) in [("the diary says so", true), ("a gust", false), (" . . . ", false), ("a b c", true)] {
            assert_eq!(reason(text).is_ok(), enough, "{text}");
        }
    }

    #[test]
    fn labels_are_compared_without_capitals_spaces_and_hyphens() {
        let known: Vec<String> = ["SL-2", "SL-21", "North Field"].map(String::from).into();
        for (typed, is) in
            [("sl2", Some("SL-2")), ("SL 21", Some("SL-21")), ("SL-2-1", None), ("north-field", Some("North Field"))]
        {
            assert_eq!(meant(typed, &known), is, "{typed}");
        }
    }
}
