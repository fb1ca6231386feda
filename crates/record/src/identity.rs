//! Names of what the record holds, as people and files write them: results, readings, what a verdict speaks of.
//! Here alone they are written and read.
//!
//! * A result: `bottle:analyte:isotope@resolution:fraction#revision`, [`ResultId`]; without `#revision` the newest.
//! * A reading: `bottle`, `bottle/isotope`, `run/position`, `run/position/isotope`, [`ReadingId`].
//! * What a verdict speaks of: a result whatever its revision, or a series, [`subject_of_series`].
//!
//! Labels are other people's and may hold any sign. A sign is percent-encoded (RFC 3986, section 2.1) where, and only
//! where, it would be read as something else, so that all other labels stand as they are:
//!
//! | part | encoded |
//! |---|---|
//! | any | `%` before two hexadecimal digits |
//! | bottle, isotopes, resolution, fraction | `:` |
//! | isotopes, resolution | `@` |
//! | fraction | `#` |
//! | bottle or run of a reading | `/` |
//!
//! An analyte keeps its `:` (`6:2 FTS`): the bottle ends at the first, the other parts are counted from the end.
//! When read, any percent-encoded sign is taken as what it stands for. [`fits`] says which labels come in at all.
//! Checked in the tests below, in `crates/programme/tests/labels.rs`, and from file to package in `crates/cli/tests/labels.rs`.

use message::{Message, count, expected};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, percent_decode_str, utf8_percent_encode};
use std::fmt::{self, Write};
use std::str::FromStr;

/// A text that names no result or reading.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{what}: found {found}, expected {expected}")]
pub struct NoName {
    /// What was to be named.
    pub what: String,
    /// As found.
    pub found: String,
    /// As needed.
    pub expected: String,
}

/// Most letters of a label.
// Our own choice: a tube or a bottle holds no more, and a line of a table neither.
pub const MOST_LETTERS: usize = 200;

/// Whether a label may come into the record: any signs but control signs, at most [`MOST_LETTERS`].
///
/// # Errors
/// What was expected.
pub fn fits(label: &str) -> Result<(), Message> {
    // Nearly all labels are like this; a file may bring a million.
    if label.len() <= MOST_LETTERS && label.bytes().all(|b| (b' '..=b'~').contains(&b)) {
        return Ok(());
    }
    if label.chars().any(char::is_control) {
        return Err(expected::NameWithoutControlSigns.into());
    }
    match label.chars().count() {
        n if n > MOST_LETTERS => Err(expected::NameShort { most: count(MOST_LETTERS), letters: count(n) }.into()),
        _ => Ok(()),
    }
}

/// What was measured in which bottle, and which revision of it.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ResultId {
    /// Bottle label.
    pub bottle: String,
    /// Element, compound or quantity.
    pub analyte: String,
    /// As 206+207+208; empty where not said.
    pub isotopes: String,
    /// Mass resolution; empty where it does not apply.
    pub resolution: String,
    /// unfiltered, a pore size, or filtered.
    pub fraction: String,
    /// Revision; none: whichever is newest.
    pub revision: Option<i64>,
}

impl ResultId {
    /// The result whatever its revision.
    #[must_use]
    pub fn newest(&self) -> Self {
        Self { revision: None, ..self.clone() }
    }

    /// Its text as part of an address (RFC 3986): letters, digits and `-._~:` stay.
    pub fn in_address(&self) -> String {
        in_address(&self.to_string())
    }

    fn parts(&self) -> [&str; 5] {
        [&self.bottle, &self.analyte, &self.isotopes, &self.resolution, &self.fraction]
    }
}

impl fmt::Display for ResultId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write_result(f, self.parts(), self.revision)
    }
}

impl FromStr for ResultId {
    type Err = NoName;

    fn from_str(text: &str) -> Result<Self, NoName> {
        let wrong = |expected: &str| NoName {
            what: "the name of a result".into(),
            found: format!("{text:?}"),
            expected: expected.into(),
        };
        let form = || wrong("bottle:analyte:isotope@resolution:fraction#revision (the revision may be left out)");
        let (bottle, rest) = text.split_once(':').ok_or_else(form)?;
        let (rest, last) = rest.rsplit_once(':').ok_or_else(form)?;
        let (analyte, channel) = rest.rsplit_once(':').ok_or_else(form)?;
        let (isotopes, resolution) = channel.rsplit_once('@').ok_or_else(form)?;
        let (fraction, revision) = match last.rsplit_once('#') {
            None => (last, None),
            Some((fraction, n)) => {
                let n = n.parse().ok().filter(|n| *n > 0);
                (fraction, Some(n.ok_or_else(|| wrong("a revision from 1 on after the sign #"))?))
            }
        };
        let part = |p: &str| decoded(p).ok_or_else(|| wrong("percent-encoded signs that are UTF-8"));
        Ok(Self {
            bottle: part(bottle)?,
            analyte: part(analyte)?,
            isotopes: part(isotopes)?,
            resolution: part(resolution)?,
            fraction: part(fraction)?,
            revision,
        })
    }
}

impl serde::Serialize for ResultId {
    fn serialize<S: serde::Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

/// Writes a result's name from its parts (bottle, analyte, isotopes, resolution, fraction).
///
/// # Errors
/// As `out`.
pub fn write_result(out: &mut impl Write, parts: [&str; 5], revision: Option<i64>) -> fmt::Result {
    let [bottle, analyte, isotopes, resolution, fraction] = parts;
    write_part(out, bottle, ":")?;
    out.write_char(':')?;
    write_part(out, analyte, "")?;
    out.write_char(':')?;
    write_part(out, isotopes, ":@")?;
    out.write_char('@')?;
    write_part(out, resolution, ":@")?;
    out.write_char(':')?;
    write_part(out, fraction, ":#")?;
    match revision {
        Some(n) => write!(out, "#{n}"),
        None => Ok(()),
    }
}

/// The bottle that a text speaks of, where it is the name of a result or the beginning of one.
pub fn bottle_of(text: &str) -> String {
    let label = text.split(':').next().unwrap_or_default();
    decoded(label).unwrap_or_else(|| label.into())
}

/// Something in the evidence: a bottle or a vial, with all of its isotopes or one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadingId {
    /// All vials of a bottle.
    Bottle {
        /// Its label.
        label: String,
        /// Only this isotope.
        isotope: Option<String>,
    },
    /// One vial.
    Vial {
        /// Name of the run.
        run: String,
        /// Place in its sequence.
        position: i64,
        /// Only this isotope.
        isotope: Option<String>,
    },
}

impl ReadingId {
    /// A bottle as a whole.
    pub fn bottle(label: &str) -> Self {
        Self::Bottle { label: label.into(), isotope: None }
    }

    /// A vial as a whole.
    pub fn vial(run: &str, position: i64) -> Self {
        Self::Vial { run: run.into(), position, isotope: None }
    }
}

impl fmt::Display for ReadingId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let isotope = match self {
            Self::Bottle { label, isotope } => {
                write_part(f, label, "/")?;
                isotope
            }
            Self::Vial { run, position, isotope } => {
                write_part(f, run, "/")?;
                write!(f, "/{position}")?;
                isotope
            }
        };
        match isotope {
            Some(isotope) => {
                f.write_char('/')?;
                write_part(f, isotope, "/")
            }
            None => Ok(()),
        }
    }
}

impl FromStr for ReadingId {
    type Err = NoName;

    /// A second part that is a whole number is a position, anything else an isotope: no isotope is a number.
    fn from_str(text: &str) -> Result<Self, NoName> {
        let wrong = |expected: &str| NoName {
            what: "the name of a reading".into(),
            found: format!("{text:?}"),
            expected: expected.into(),
        };
        let part = |p: &str| decoded(p).ok_or_else(|| wrong("percent-encoded signs that are UTF-8"));
        let parts: Vec<&str> = text.split('/').collect();
        let position = parts.get(1).and_then(|p| p.parse::<i64>().ok());
        Ok(match (&parts[..], position) {
            ([label], _) => Self::bottle(&part(label)?),
            ([run, _], Some(position)) => Self::vial(&part(run)?, position),
            ([label, isotope], None) => Self::Bottle { label: part(label)?, isotope: Some(part(isotope)?) },
            ([run, _, isotope], Some(position)) => {
                Self::Vial { run: part(run)?, position, isotope: Some(part(isotope)?) }
            }
            _ => {
                return Err(wrong(
                    "bottle, bottle/isotope, run/position or run/position/isotope, with / in a label as %2F",
                ));
            }
        })
    }
}

/// A vial that a file refers to: `run/position`. A `/` of the run may stand as it is: the position is the last part.
pub fn vial(text: &str) -> Option<(String, i64)> {
    let (run, position) = text.rsplit_once('/')?;
    Some((decoded(run)?, position.parse().ok()?))
}

/// What the verdict of a reported series speaks of.
pub fn subject_of_series(analyte: &str, fraction: &str, state: &str) -> String {
    let mut out = String::from("series:");
    let parts = [(analyte, ""), (fraction, ":@"), (state, ":")];
    for (n, (part, signs)) in parts.into_iter().enumerate() {
        out.push_str(if n > 0 { ":" } else { "" });
        write_part(&mut out, part, signs).expect("a string takes all that is written");
    }
    out
}

/// Whether a verdict's subject is a series. A bottle may be labelled `series` too, but the name of its result has an
/// unencoded `@` in its third part, and that of a series has none.
pub fn speaks_of_series(subject: &str) -> bool {
    subject.starts_with("series:") && subject.parse::<ResultId>().is_err()
}

/// Writes a part, with `signs` encoded, and `%` where it would be read as the beginning of an encoded sign.
fn write_part(out: &mut impl Write, part: &str, signs: &str) -> fmt::Result {
    let mut plain = 0;
    for (at, c) in part.char_indices() {
        if signs.contains(c) || (c == '%' && encoded_byte(&part.as_bytes()[at..]).is_some()) {
            write!(out, "{}%{:02X}", &part[plain..at], u32::from(c))?;
            plain = at + 1;
        }
    }
    out.write_str(&part[plain..])
}

/// The byte that `%XY` at the beginning of these bytes stands for.
fn encoded_byte(bytes: &[u8]) -> Option<u8> {
    let [b'%', high, low, ..] = bytes else { return None };
    let digit = |b: &u8| char::from(*b).to_digit(16);
    u8::try_from(digit(high)? * 16 + digit(low)?).ok()
}

/// A part as it was before it was written; none where its encoded signs are no UTF-8.
fn decoded(part: &str) -> Option<String> {
    Some(percent_decode_str(part).decode_utf8().ok()?.into_owned())
}

/// What of ASCII does not stand in an address as it is: all but letters, digits and `-._~:`.
const CODED: &AsciiSet = &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b':');

/// A text as part of an address: letters, digits and `-._~:` stay, the rest is written as bytes (RFC 3986 section 2.1).
pub fn in_address(text: &str) -> String {
    utf8_percent_encode(text, CODED).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn id(bottle: &str, analyte: &str, fraction: &str, revision: Option<i64>) -> ResultId {
        ResultId {
            bottle: bottle.into(),
            analyte: analyte.into(),
            isotopes: "206+207+208".into(),
            resolution: "low".into(),
            fraction: fraction.into(),
            revision,
        }
    }

    #[test]
    fn an_address_keeps_the_signs_that_stand_for_themselves() {
        // RFC 3986 section 2.3 (unreserved), and the colon, which parts the pieces of an identity.
        for c in (0..=0x2FF).filter_map(char::from_u32).chain(['漢', '\u{1F41F}']) {
            let kept = c.is_ascii_alphanumeric() || "-._~:".contains(c);
            let bytes = c.to_string().bytes().fold(String::new(), |out, b| format!("{out}%{b:02X}"));
            assert_eq!(in_address(&c.to_string()), if kept { c.to_string() } else { bytes }, "{c:?}");
        }
    }

    #[test]
    fn names_that_were_written_before_read_and_write_as_they_did() {
        // As programmes hold them in their subjects and statements.
        for text in [
            "SL2-26-07-A:Pb:206+207+208@low:unfiltered#1",
            "SL2-26-07-A:Pb:206+207+208@low:unfiltered",
            "A:Pb:@:0.45 um#12",
            "A:6:2 FTS:@:unfiltered#1",
            "A#1:Pb:@:unfiltered#2",
            "A@home/x y:Pb:@:unfiltered#2",
            "Brunnen Süd 100%:Zn:66@medium:unfiltered#1",
            "水-3:Pb:208@low:unfiltered#1",
        ] {
            assert_eq!(text.parse::<ResultId>().unwrap().to_string(), text);
        }
        let read: ResultId = "A#1:6:2 FTS:@:0.45 um#3".parse().unwrap();
        assert_eq!((read.bottle.as_str(), read.analyte.as_str(), read.revision), ("A#1", "6:2 FTS", Some(3)));
        assert_eq!(read.fraction, "0.45 um");
    }

    #[test]
    fn a_sign_is_encoded_only_where_it_would_be_read_as_another_part() {
        let check = |id: ResultId, text: &str| {
            assert_eq!(id.to_string(), text);
            assert_eq!(text.parse::<ResultId>().unwrap(), id);
        };
        check(id("A:1#x@y/ü 100%", "Pb", "unfiltered", Some(1)), "A%3A1#x@y/ü 100%:Pb:206+207+208@low:unfiltered#1");
        check(id("50%25", "Pb", "a#b:c", None), "50%2525:Pb:206+207+208@low:a%23b%3Ac");
        // Whole in percent-encoding, as a script may write it.
        let whole: ResultId = "A%3A1%20%C3%BC:Pb:206+207+208@low:unfiltered".parse().unwrap();
        assert_eq!(whole.bottle, "A:1 ü");
    }

    #[test]
    fn what_is_no_name_of_a_result_says_what_one_is() {
        for text in ["", "A", "A:Pb", "A:Pb:unfiltered", "A:Pb:208@low:unfiltered#x", "A%FF:Pb:208@low:unfiltered#1"] {
            let Err(NoName { found, .. }) = text.parse::<ResultId>() else { panic!("{text}") };
            assert_eq!(found, format!("{text:?}"));
        }
    }

    #[test]
    fn readings_by_bottle_and_by_place_in_a_run() {
        let check = |id: ReadingId, text: &str| {
            assert_eq!(id.to_string(), text);
            assert_eq!(text.parse::<ReadingId>().unwrap(), id);
        };
        let isotope = || Some("Pb208".to_string());
        check(ReadingId::bottle("SL2-26-07-A"), "SL2-26-07-A");
        check(ReadingId::Bottle { label: "A/1 50%2F".into(), isotope: isotope() }, "A%2F1 50%252F/Pb208");
        check(ReadingId::vial("SL-R-2607", 12), "SL-R-2607/12");
        check(ReadingId::Vial { run: "R/1".into(), position: 3, isotope: isotope() }, "R%2F1/3/Pb208");
        assert!("a/b/c/d".parse::<ReadingId>().is_err());
        assert_eq!(vial("2026/07/12"), Some(("2026/07".into(), 12)));
        assert_eq!(vial("R%2F1/3"), Some(("R/1".into(), 3)));
    }

    #[test]
    fn a_bottle_that_is_labelled_series_is_no_series() {
        assert!(speaks_of_series(&subject_of_series("Pb", "unfiltered", "detected")));
        assert!(speaks_of_series(&subject_of_series("6:2 FTS", "x@y:z", "not-detected")));
        assert!(!speaks_of_series(&id("series", "Pb", "unfiltered", None).to_string()));
        assert!(!speaks_of_series("SL2-26-07-A:Pb:206+207+208@low:unfiltered"));
    }

    #[test]
    fn labels_are_refused_for_control_signs_and_length_alone() {
        assert_eq!(fits("A:1#x@y/ü 100%"), Ok(()));
        assert_eq!(fits(&"水".repeat(MOST_LETTERS)), Ok(()));
        assert!(fits("a\tb").is_err() && fits("a\u{85}b").is_err());
        assert!(fits(&"x".repeat(MOST_LETTERS + 1)).unwrap_err().in_english().contains("201"));
    }

    proptest::proptest! {
        #[test]
        fn any_label_comes_back(
            parts in proptest::array::uniform5("[A-Za-z0-9:#@/%+ .üß水µ²'\"-]{0,12}|\\PC{0,12}"),
            revision in proptest::option::of(1..i64::MAX),
        ) {
            let [bottle, analyte, isotopes, resolution, fraction] = parts.clone();
            let id = ResultId { bottle, analyte, isotopes, resolution, fraction, revision };
            proptest::prop_assert_eq!(id.to_string().parse::<ResultId>().unwrap(), id);
            let [label, isotope, run, ..] = parts;
            let isotope = Some(format!("i{isotope}"));
            for id in [
                ReadingId::bottle(&label),
                ReadingId::Bottle { label, isotope: isotope.clone() },
                ReadingId::Vial { run, position: revision.unwrap_or(1), isotope },
            ] {
                proptest::prop_assert_eq!(id.to_string().parse::<ReadingId>().unwrap(), id);
            }
        }
    }
}
