//! What one cell says: a number, "less than", "not detected", a date.
//!
//! In: the text of a cell, the decimal sign, the words that the mapping explains ("<", "ND",
//! "E", "U", ">", "", "0"). Out: a [`Said`], or what was found and what was expected. Nothing
//! is guessed here: a word without an entry, a thousands sign that is not said, the other decimal
//! sign, a literal zero that the mapping does not explain, and a day that does not exist are refused.
//! What the file tells of its signs is found in `form`.
//! Dates come out as ISO 8601. Checked in the tests below.

use message::{Message, Name, expected};
use serde::Deserialize;
use std::collections::BTreeMap;

/// The decimal sign of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
pub enum Decimal {
    /// `1.5`
    #[default]
    #[serde(rename = ".")]
    Point,
    /// `1,5`
    #[serde(rename = ",")]
    Comma,
    /// Nothing in the file tells: a number with a sign in it is refused with the question.
    #[serde(skip)]
    Asked,
}

/// How numbers are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Numbers {
    /// Decimal sign.
    pub decimal: Decimal,
    /// The sign between groups of three digits; none: there is none.
    pub thousands: Option<char>,
}

impl From<Decimal> for Numbers {
    fn from(decimal: Decimal) -> Self {
        Self { decimal, thousands: None }
    }
}

/// What a word of a laboratory means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Meaning {
    /// A value stands there, as for an empty remark.
    Value,
    /// The number beside it is a limit that the value lies under.
    Below,
    /// The number beside it is a limit that the value lies over.
    Above,
    /// The laboratory calls the value an estimate.
    Estimated,
    /// Not detected; the number beside it, if any, is the limit.
    NotDetected,
    /// Below the detection limit that stands in its own column ("<NWG").
    BelowDetectionLimit,
    /// Below the quantification limit that stands in its own column ("<BG").
    BelowQuantificationLimit,
    /// Nothing was reported: the cell brings no result.
    Missing,
    /// The laboratory withdrew the result: the cell brings none.
    Withdrawn,
}

/// Words and their meaning.
pub type Words = BTreeMap<String, Meaning>;

/// What a cell says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Said {
    /// No result.
    Nothing,
    /// A value.
    Value(f64),
    /// A value that the laboratory calls an estimate.
    Estimate(f64),
    /// Below this limit.
    Below(f64),
    /// Not detected; the limit where one is given.
    NotDetected(Option<f64>),
    /// Above this limit.
    Above(f64),
    /// Below a limit that stands in its own column.
    BelowOf(OwnLimit),
}

/// A limit with a column of its own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OwnLimit {
    /// L_D.
    Detection,
    /// L_Q.
    Quantification,
}

/// What stands behind ± in a cell, in the words of the mapping's coverage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// The number.
    pub x: f64,
    /// Whether it is in per cent of the value.
    pub percent: bool,
}

/// What was expected instead.
pub type Expected = Message;

/// A number with the file's decimal sign: digits, one sign, an exponent.
///
/// # Errors
/// What was expected.
pub fn number(text: &str, form: impl Into<Numbers>) -> Result<f64, Expected> {
    let Numbers { decimal, thousands } = form.into();
    let ungrouped = thousands.and_then(|sign| without_groups(text, sign, decimal));
    let text = ungrouped.as_deref().unwrap_or(text);
    let wrong = || {
        Err(match decimal {
            Decimal::Point if text.contains(',') => expected::NumberDecimalPoint.into(),
            Decimal::Comma if text.contains('.') => expected::NumberNoThousands.into(),
            Decimal::Point | Decimal::Asked => expected::Number.into(),
            Decimal::Comma => expected::NumberDecimalComma.into(),
        })
    };
    let text = text.trim();
    if decimal == Decimal::Asked && text.contains(['.', ',']) {
        return Err(expected::DecimalAsked.into());
    }
    let mut plain = [0u8; 48];
    let bytes = if let Some(rest) = text.strip_prefix('\u{2212}') {
        // The typographic minus.
        if rest.len() + 1 > plain.len() {
            return wrong();
        }
        plain[0] = b'-';
        plain[1..=rest.len()].copy_from_slice(rest.as_bytes());
        &mut plain[..=rest.len()]
    } else if text.len() <= plain.len() {
        plain[..text.len()].copy_from_slice(text.as_bytes());
        &mut plain[..text.len()]
    } else {
        return wrong();
    };
    let sign = match decimal {
        Decimal::Point | Decimal::Asked => b'.',
        Decimal::Comma => b',',
    };
    if !well_formed(bytes, sign) {
        return wrong();
    }
    if decimal == Decimal::Comma
        && let Some(b) = bytes.iter_mut().find(|b| **b == b',')
    {
        *b = b'.';
    }
    let text = std::str::from_utf8(bytes).expect("well-formed numbers are ASCII");
    match text.parse::<f64>() {
        Ok(x) if x.is_finite() => Ok(x),
        _ => Err(expected::NumberOrdinary.into()),
    }
}

/// The blanks that stand between groups of digits: SI Brochure, 9th edition, 5.4.4, asks for thin ones.
const BLANKS: [char; 4] = [' ', '\u{a0}', '\u{202f}', '\u{2009}'];

/// Whether a sign is the one between groups; any blank and either apostrophe stands for its like.
fn is_group_sign(c: char, sign: char) -> bool {
    c == sign || (BLANKS.contains(&c) && BLANKS.contains(&sign)) || ("'’".contains(c) && "'’".contains(sign))
}

/// A number without the signs between its groups of three digits; none where it has none, or its groups are no groups.
fn without_groups(text: &str, sign: char, decimal: Decimal) -> Option<String> {
    let text = text.trim();
    let point = if decimal == Decimal::Comma { ',' } else { '.' };
    let whole_end = text.find([point, 'e', 'E']).unwrap_or(text.len());
    let (whole, rest) = text.split_at(whole_end);
    let digits = whole.trim_start_matches(['+', '-', '\u{2212}']);
    let lead = &whole[..whole.len() - digits.len()];
    let groups: Vec<&str> = digits.split(|c| is_group_sign(c, sign)).collect();
    let (first, others) = groups.split_first()?;
    let all_digits = |g: &str| !g.is_empty() && g.bytes().all(|b| b.is_ascii_digit());
    let sound = !others.is_empty() && first.len() <= 3 && all_digits(first);
    (sound && others.iter().all(|g| g.len() == 3 && all_digits(g))).then(|| format!("{lead}{}{rest}", groups.concat()))
}

fn well_formed(bytes: &[u8], sign: u8) -> bool {
    let mut rest = match bytes {
        [b'+' | b'-', rest @ ..] => rest,
        _ => bytes,
    };
    let digits = |r: &mut &[u8]| {
        let n = r.iter().take_while(|b| b.is_ascii_digit()).count();
        *r = &r[n..];
        n
    };
    let mut n = digits(&mut rest);
    if rest.first() == Some(&sign) {
        rest = &rest[1..];
        n += digits(&mut rest);
    }
    if n == 0 {
        return false;
    }
    if let [b'e' | b'E', tail @ ..] = rest {
        rest = match tail {
            [b'+' | b'-', t @ ..] => t,
            _ => tail,
        };
        return digits(&mut rest) > 0 && rest.is_empty();
    }
    rest.is_empty()
}

/// The word in a cell with its meaning, and the number.
type Parted<'w> = (Option<(&'w str, Meaning)>, Option<f64>);

/// How a measured cell is read.
#[derive(Debug, Clone)]
pub struct Rules {
    /// How numbers are written.
    pub numbers: Numbers,
    /// Words in the value's cell.
    pub words: Words,
    /// Words in the remark's cell.
    pub remarks: Words,
    /// Whether numbers below zero are values (net results) or refused.
    pub negative_is_value: bool,
}

impl Rules {
    /// Reads a value's cell, with the remark beside it where the file has one. Comes with the word
    /// as the laboratory wrote it: the remark, else the word in the cell, else nothing.
    ///
    /// # Errors
    /// What was expected.
    pub fn read<'t>(&'t self, cell: &str, remark: Option<&'t str>) -> Result<(Said, &'t str), Expected> {
        let meaning = match remark {
            None => None,
            Some(r) => match self.remarks.get(r) {
                Some(m) => Some(*m),
                None if r.is_empty() => None,
                None => {
                    return Err(match list(&self.remarks) {
                        None => expected::RemarkOfNone { remark: r.into() }.into(),
                        Some(remarks) => expected::Remark { remarks, remark: r.into() }.into(),
                    });
                }
            },
        };
        let (in_cell, x) = self.split(cell)?;
        let word = match (remark, in_cell) {
            (Some(r), _) if !r.is_empty() => r,
            (_, Some((w, _))) => w,
            _ => "",
        };
        let in_cell = in_cell.map(|(_, m)| m);
        let meaning = match (meaning, in_cell) {
            (Some(Meaning::Value) | None, m) => m.unwrap_or(Meaning::Value),
            (Some(m), None | Some(Meaning::Value | Meaning::Missing)) => m,
            (Some(m), Some(c)) if m == c => m,
            // A zero called an estimate: the word for the zero says more.
            (Some(Meaning::Estimated), Some(c)) => c,
            (Some(_), Some(_)) => {
                return Err(expected::SameMeaning.into());
            }
        };
        Ok((self.weigh(meaning, x)?, word))
    }

    /// Parts a cell at its ±: the value's part, and what stands behind it. A cell without ± is its value's part.
    ///
    /// # Errors
    /// What was expected behind it.
    pub fn part_spread<'c>(&self, cell: &'c str) -> Result<(&'c str, Option<Spread>), Expected> {
        // Almost no cell has one: a look at its bytes is quicker than three searches.
        if !cell.bytes().any(|b| b == b'+' || b >= 0x80) {
            return Ok((cell, None));
        }
        let sign = ["±", "+/-", "+-"].iter().find_map(|s| cell.split_once(s));
        let Some((value, spread)) = sign else { return Ok((cell, None)) };
        let value = value.trim().trim_end_matches('(').trim_end();
        let spread = spread.trim().trim_end_matches(')').trim_end();
        let (spread, percent) = match spread.strip_suffix('%') {
            Some(s) => (s.trim_end(), true),
            None => (spread, false),
        };
        let x = number(spread, self.numbers)?;
        if x < 0.0 { Err(expected::NotNegative.into()) } else { Ok((value, Some(Spread { x, percent }))) }
    }

    fn weigh(&self, meaning: Meaning, x: Option<f64>) -> Result<Said, Expected> {
        let limit = |x: f64| {
            if x > 0.0 { Ok(x) } else { Err(Message::from(expected::LimitAboveZero)) }
        };
        match (meaning, x) {
            (Meaning::Missing | Meaning::Withdrawn, _) => Ok(Said::Nothing),
            (Meaning::Value, Some(x)) if x < 0.0 && !self.negative_is_value => Err(expected::NotNegative.into()),
            (Meaning::Value, Some(x)) => Ok(Said::Value(x)),
            (Meaning::Estimated, Some(x)) => Ok(Said::Estimate(x)),
            (Meaning::Above, Some(x)) => Ok(Said::Above(limit(x)?)),
            (Meaning::Below | Meaning::BelowDetectionLimit | Meaning::BelowQuantificationLimit, Some(x)) => {
                Ok(Said::Below(limit(x)?))
            }
            (Meaning::BelowDetectionLimit, None) => Ok(Said::BelowOf(OwnLimit::Detection)),
            (Meaning::BelowQuantificationLimit, None) => Ok(Said::BelowOf(OwnLimit::Quantification)),
            (Meaning::NotDetected, x) => Ok(Said::NotDetected(x.filter(|x| *x > 0.0))),
            (Meaning::Value, None) => Err(expected::Number.into()),
            (Meaning::Estimated, None) => Err(expected::NumberOfEstimate.into()),
            (Meaning::Below | Meaning::Above, None) => Err(expected::LimitBesideWord.into()),
        }
    }

    /// Parts a cell into the meaning of its word and its number.
    fn split(&self, cell: &str) -> Result<Parted<'_>, Expected> {
        let plain = number(cell, self.numbers);
        if let Ok(x) = plain {
            if x != 0.0 {
                return Ok((None, Some(x)));
            }
            return match self.words.get("0") {
                Some(m) => Ok((Some(("0", *m)), Some(0.0))),
                None => Err(expected::ZeroExplained.into()),
            };
        }
        if let Some((w, m)) = self.words.get_key_value(cell) {
            return Ok((Some((w, *m)), None));
        }
        if cell.is_empty() {
            return Err(expected::EmptyExplained.into());
        }
        // The longest word first: "<=" before "<".
        let mut words: Vec<(&String, &Meaning)> =
            self.words.iter().filter(|(w, _)| !w.is_empty() && *w != "0").collect();
        words.sort_by_key(|(w, _)| std::cmp::Reverse(w.len()));
        for (word, meaning) in words {
            let rest = cell.strip_prefix(word.as_str()).or_else(|| cell.strip_suffix(word.as_str()));
            if let Some(rest) = rest {
                let rest = rest.trim().trim_start_matches('(').trim_end_matches(')');
                return match number(rest, self.numbers) {
                    Ok(x) => Ok((Some((word, *meaning)), Some(x))),
                    Err(number) => Err(expected::BesideWord { number, word: word.into() }.into()),
                };
            }
        }
        if cell.bytes().any(|b| b.is_ascii_digit()) {
            return Err(plain.expect_err("it was no number"));
        }
        Err(match list(&self.words) {
            None => expected::NumberOrWordOfNone.into(),
            Some(words) => expected::NumberOrWord { words }.into(),
        })
    }
}

/// Words as the mapping has them, in quotes of their own; none where it explains none.
fn list(words: &Words) -> Option<Name> {
    let all: Vec<String> = words.keys().map(|w| format!("\"{w}\"")).collect();
    if all.is_empty() { None } else { Some(all.join(", ").into()) }
}

/// The order of day, month and year in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
pub enum DateOrder {
    /// 2026-07-15
    #[default]
    #[serde(rename = "year-month-day")]
    Ymd,
    /// 15.07.2026 or 15/07/2026
    #[serde(rename = "day-month-year")]
    Dmy,
    /// 07/15/2026
    #[serde(rename = "month-day-year")]
    Mdy,
    /// Nothing in the file tells day from month: such a date is refused with the question.
    #[serde(skip)]
    Asked,
}

/// A date or a date and time as ISO 8601: `2026-07-15`, `2026-07-15T09:30`, seconds and offset
/// kept where given. ISO dates are read whatever the order stated.
///
/// # Errors
/// What was expected.
pub fn time(text: &str, order: DateOrder) -> Result<String, Expected> {
    let want = || {
        Err(match order {
            DateOrder::Ymd => expected::DateYearFirst.into(),
            DateOrder::Dmy => expected::DateDayFirst.into(),
            DateOrder::Mdy => expected::DateMonthFirst.into(),
            DateOrder::Asked => expected::DateOrderAsked.into(),
        })
    };
    let (date, clock) = match text.split_once(['T', ' ']) {
        Some((d, c)) => (d, c.trim()),
        None => (text, ""),
    };
    let parts: Vec<&str> = date.split(['-', '.', '/']).collect();
    let [a, b, c] = parts[..] else {
        return want();
    };
    if [a, b, c].iter().any(|p| p.is_empty() || p.len() > 4 || !p.bytes().all(|b| b.is_ascii_digit())) {
        return want();
    }
    let n = |p: &str| p.parse::<u32>().expect("up to four digits");
    // Four digits in front can only be a year. Two may be a day or a month: the mapping has to say which.
    let (y, m, d) = match (a.len() == 4, order) {
        (true, _) => (a, b, c),
        (false, DateOrder::Dmy) => (c, b, a),
        (false, DateOrder::Mdy) => (c, a, b),
        (false, DateOrder::Ymd | DateOrder::Asked) => return want(),
    };
    if y.len() != 4 || m.len() > 2 || d.len() > 2 {
        return want();
    }
    let (y, m, d) = (n(y), n(m), n(d));
    if !(1..=12).contains(&m) || d == 0 || d > days(y, m) {
        let (year, month, day) = (format!("{y:04}").into(), m.into(), d.into());
        return Err(expected::DayThatExists { year, month, day }.into());
    }
    if clock.is_empty() {
        return Ok(format!("{y:04}-{m:02}-{d:02}"));
    }
    Ok(format!("{y:04}-{m:02}-{d:02}T{}", hours(clock)?))
}

fn days(y: u32, m: u32) -> u32 {
    match m {
        2 if y.is_multiple_of(4) && (!y.is_multiple_of(100) || y.is_multiple_of(400)) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// `9:30`, `09:30:15`, with `Z` or `+02:00` where given.
fn hours(clock: &str) -> Result<String, Expected> {
    let want = || Err(expected::Clock.into());
    let (plain, offset) = match clock.find(['Z', '+', '-']) {
        Some(k) => clock.split_at(k),
        None => (clock, ""),
    };
    if !offset.is_empty() && offset != "Z" {
        let (h, m) = offset[1..].split_once(':').unwrap_or(("", ""));
        if !(two(h, 14).is_some() && two(m, 59).is_some() && h.len() == 2) {
            return want();
        }
    }
    let parts: Vec<&str> = plain.split(':').collect();
    let (h, m, s) = match parts[..] {
        [h, m] => (h, m, None),
        [h, m, s] => (h, m, Some(s)),
        _ => return want(),
    };
    let (Some(h), Some(m)) = (two(h, 23), two(m, 59)) else {
        return want();
    };
    match s {
        None => Ok(format!("{h:02}:{m:02}{offset}")),
        Some(s) => {
            let whole =
                s.split_once('.').map_or(s, |(w, f)| if f.bytes().all(|b| b.is_ascii_digit()) { w } else { "" });
            match two(whole, 59) {
                Some(s) => Ok(format!("{h:02}:{m:02}:{s:02}{offset}")),
                None => want(),
            }
        }
    }
}

fn two(text: &str, most: u32) -> Option<u32> {
    if text.is_empty() || text.len() > 2 || !text.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    text.parse().ok().filter(|n| *n <= most)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rules() -> Rules {
        let words = |w: &[(&str, Meaning)]| w.iter().map(|(k, m)| ((*k).to_string(), *m)).collect();
        Rules {
            numbers: Decimal::Point.into(),
            words: words(&[
                ("<", Meaning::Below),
                (">", Meaning::Above),
                ("E", Meaning::Estimated),
                ("ND", Meaning::NotDetected),
                ("", Meaning::Missing),
                ("0", Meaning::NotDetected),
            ]),
            remarks: words(&[
                ("<", Meaning::Below),
                ("E", Meaning::Estimated),
                ("U", Meaning::NotDetected),
                ("", Meaning::Value),
            ]),
            negative_is_value: false,
        }
    }

    fn check(cell: &str, remark: Option<&str>, want: Said) {
        assert_eq!(rules().read(cell, remark).map(|(said, _)| said), Ok(want), "{cell:?} {remark:?}");
    }

    fn refuse(cell: &str, remark: Option<&str>, part: &str) {
        let e = rules().read(cell, remark).unwrap_err().in_english();
        assert!(e.contains(part), "{cell:?} {remark:?}: {e}");
    }

    #[test]
    fn cells_say_what_the_mapping_explains() {
        check("0.5", None, Said::Value(0.5));
        check("<0.5", None, Said::Below(0.5));
        check("< 0.5", None, Said::Below(0.5));
        check("E 0.3", None, Said::Estimate(0.3));
        check("E0.3", None, Said::Estimate(0.3));
        check("0.3 E", None, Said::Estimate(0.3));
        check("1E3", None, Said::Value(1000.0));
        check("E1.5E-3", None, Said::Estimate(1.5e-3));
        check("ND", None, Said::NotDetected(None));
        check("ND (0.5)", None, Said::NotDetected(Some(0.5)));
        check(">200", None, Said::Above(200.0));
        check("", None, Said::Nothing);
        check("0", None, Said::NotDetected(None));
        check("0.00", Some("E"), Said::NotDetected(None));
        check("2", Some("<"), Said::Below(2.0));
        check("<2", Some("<"), Said::Below(2.0));
        check("", Some("U"), Said::NotDetected(None));
        check("3", Some("U"), Said::NotDetected(Some(3.0)));
        check("3", Some(""), Said::Value(3.0));
    }

    #[test]
    fn what_is_not_explained_is_refused() {
        refuse("BDL", None, "word that the mapping explains");
        refuse("1,5", None, "decimal point");
        refuse("1.234.5", None, "a number");
        refuse("-1", None, "negative");
        refuse("<0", None, "above zero");
        refuse("2", Some("J"), "remark");
        refuse("", Some("<"), "limit");
        refuse("", Some("E"), "estimate");
        refuse(">2", Some("<"), "say the same");
        refuse("NaN", None, "word that");
        refuse("inf", None, "word that");
        refuse("1e999", None, "number");
        let mut bare = rules();
        bare.words.clear();
        assert!(bare.read("0", None).unwrap_err().in_english().contains("zero"));
        assert!(bare.read("", None).unwrap_err().in_english().contains("empty"));
    }

    #[test]
    fn decimal_commas() {
        assert_eq!(number("1,5", Decimal::Comma), Ok(1.5));
        assert_eq!(number("-1,5E-03", Decimal::Comma), Ok(-1.5e-3));
        assert_eq!(number("\u{2212}2", Decimal::Comma), Ok(-2.0));
        assert_eq!(number("1.5", Decimal::Comma), Err(expected::NumberNoThousands.into()));
        assert!(number("1.234,5", Decimal::Comma).is_err());
    }

    #[test]
    fn groups_of_three_digits_where_the_mapping_has_a_sign_for_them() {
        let german = Numbers { decimal: Decimal::Comma, thousands: Some('.') };
        for (text, x) in [("1.234,5", 1234.5), ("1.234.567", 1_234_567.0), ("-12.000", -12_000.0), ("0,5", 0.5)] {
            assert_eq!(number(text, german), Ok(x), "{text}");
        }
        for text in ["1.23", "1234.567", ".123", "1..234", "1.234,5.6"] {
            assert_eq!(number(text, german), Err(expected::NumberNoThousands.into()), "{text}");
        }
        let thin = Numbers { decimal: Decimal::Point, thousands: Some(' ') };
        assert_eq!(number("12\u{202f}345.5", thin), Ok(12_345.5));
        let swiss = Numbers { decimal: Decimal::Point, thousands: Some('\'') };
        assert_eq!(number("1’234.5", swiss), Ok(1234.5));
    }

    #[test]
    fn a_sign_that_nothing_explains_is_asked_about() {
        assert_eq!(number("1.234", Decimal::Asked), Err(expected::DecimalAsked.into()));
        assert_eq!(number("12", Decimal::Asked), Ok(12.0));
        assert_eq!(time("03/04/2026", DateOrder::Asked), Err(expected::DateOrderAsked.into()));
        assert_eq!(time("2026-04-03", DateOrder::Asked).unwrap(), "2026-04-03");
    }

    #[test]
    fn a_spread_in_the_cell() {
        let r = rules();
        assert_eq!(r.part_spread("1.25 ± 0.1"), Ok(("1.25", Some(Spread { x: 0.1, percent: false }))));
        assert_eq!(r.part_spread("1.25 (±8 %)"), Ok(("1.25", Some(Spread { x: 8.0, percent: true }))));
        assert_eq!(r.part_spread("<0.5"), Ok(("<0.5", None)));
        assert_eq!(r.part_spread("1 +/- x"), Err(expected::Number.into()));
    }

    #[test]
    fn days_that_exist() {
        let ok = |t: &str, o: DateOrder, w: &str| assert_eq!(time(t, o).unwrap(), w);
        ok("2026-07-15", DateOrder::Ymd, "2026-07-15");
        ok("15.07.2026 9:30", DateOrder::Dmy, "2026-07-15T09:30");
        ok("7/15/2026 09:30:05", DateOrder::Mdy, "2026-07-15T09:30:05");
        ok("2024-02-29T00:00+02:00", DateOrder::Dmy, "2024-02-29T00:00+02:00");
        for (bad, part) in [
            ("2023-02-29", "exists"),
            ("2023-13-01", "exists"),
            ("2023-04-31", "exists"),
            ("15.07.2026", "2026-07-15"),
            ("2023-04-01T25:00", "09:30"),
            ("2023-04-01 10", "09:30"),
            ("yesterday", "2026-07-15"),
            ("23-04-01", "2026-07-15"),
        ] {
            let e = time(bad, DateOrder::Ymd).unwrap_err().in_english();
            assert!(e.contains(part), "{bad}: {e}");
        }
    }
}
