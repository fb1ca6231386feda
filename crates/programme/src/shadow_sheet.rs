//! A sheet of values that were reported before, as people keep it: CSV with commas, semicolons or tabs, a decimal comma
//! where the columns are not parted by commas.
//!
//! In: bytes. Out: rows ([`Reported`]), columns that were passed over. A row that cannot be read is refused with its
//! number; nothing is guessed. Checked below.

use quantity::Unit;
use record::error::Error;
use std::fmt;

/// What a row speaks of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Of {
    /// A bottle by its label.
    Bottle(String),
    /// A well on a day, YYYY-MM-DD.
    WellAndDay(String, String),
}

impl fmt::Display for Of {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bottle(label) => f.write_str(label),
            Self::WellAndDay(well, day) => write!(f, "{well}, {day}"),
        }
    }
}

/// What a cell says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Said {
    /// A value, and half of its last digit.
    Value(f64, f64),
    /// Below a limit, or not said below what.
    Below(Option<f64>),
    /// Above a limit.
    Above(f64),
    /// Nothing.
    Nothing,
}

/// One row.
#[derive(Debug, Clone, PartialEq)]
pub struct Reported {
    /// Row of the sheet, from 1, the headings counted.
    pub row: usize,
    /// What it speaks of.
    pub of: Of,
    /// Element or quantity, as on record.
    pub analyte: String,
    /// As 206+207+208, where the sheet says.
    pub isotopes: Option<String>,
    /// unfiltered, …, where the sheet says.
    pub fraction: Option<String>,
    /// The value.
    pub said: Said,
    /// As written.
    pub text: String,
    /// Standard uncertainty in the unit, where the sheet says.
    pub u: Option<f64>,
    /// Unit.
    pub unit: Unit,
}

/// A sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sheet {
    /// Its rows.
    pub rows: Vec<Reported>,
    /// Headings that were passed over.
    pub passed_over: Vec<String>,
}

/// Headings, each with other words for it.
const COLUMNS: [(&str, &[&str]); 9] = [
    ("bottle", &["label", "sample"]),
    ("well", &[]),
    ("date", &["day"]),
    ("analyte", &["element"]),
    ("isotopes", &[]),
    ("fraction", &[]),
    ("value", &[]),
    ("u", &["standard uncertainty"]),
    ("unit", &[]),
];

fn unfit(row: usize, found: impl Into<String>, expected: impl Into<String>) -> Error {
    Error::Unfit { what: format!("row {row} of the sheet"), found: found.into(), expected: expected.into() }
}

/// Reads a sheet.
///
/// # Errors
/// A heading that is missing or stands twice, a row without what it speaks of, a value, unit or day that cannot be read.
pub fn read(bytes: &[u8]) -> Result<Sheet, Error> {
    let text = match std::str::from_utf8(bytes) {
        Ok(text) => text.trim_start_matches('\u{feff}').to_string(),
        // One byte a letter: Latin-1, as spreadsheets of some countries still save.
        Err(_) => bytes.iter().map(|b| char::from(*b)).collect(),
    };
    let first = text.lines().next().unwrap_or_default();
    let delimiter =
        [b';', b'\t', b','].into_iter().max_by_key(|d| first.matches(char::from(*d)).count()).unwrap_or(b',');
    let mut rows =
        csv::ReaderBuilder::new().delimiter(delimiter).flexible(true).has_headers(false).from_reader(text.as_bytes());
    let mut records = rows.records();
    let headings = match records.next() {
        Some(row) => row.map_err(|e| unfit(1, e.to_string(), "headings"))?,
        None => return Err(unfit(1, "an empty file", "headings and rows")),
    };
    let named: Vec<String> = headings.iter().map(|h| h.trim().to_lowercase()).collect();
    let is = |h: &str, (name, others): &(&str, &[&str])| h == *name || others.contains(&h);
    let mut places = [None; COLUMNS.len()];
    for (n, column) in COLUMNS.iter().enumerate() {
        let mut at = named.iter().enumerate().filter(|(_, h)| is(h, column)).map(|(place, _)| place);
        places[n] = at.next();
        if at.next().is_some() {
            return Err(unfit(1, format!("the heading {} twice", column.0), "each once"));
        }
    }
    let place = |name: &str| COLUMNS.iter().position(|c| c.0 == name).and_then(|n| places[n]);
    for needed in ["analyte", "value", "unit"] {
        if place(needed).is_none() {
            return Err(unfit(1, format!("the headings {}", named.join(", ")), format!("a heading {needed}")));
        }
    }
    if place("bottle").is_none() && (place("well").is_none() || place("date").is_none()) {
        return Err(unfit(1, format!("the headings {}", named.join(", ")), "a heading bottle, or well and date"));
    }
    let passed_over = named.iter().filter(|h| !COLUMNS.iter().any(|c| is(h, c))).cloned().collect();
    let mut out = Sheet { rows: vec![], passed_over };
    for (row, record) in (2..).zip(records) {
        let record = record.map_err(|e| unfit(row, e.to_string(), "a row of a table"))?;
        if record.iter().all(|c| c.trim().is_empty()) {
            continue;
        }
        let text = |name: &str| place(name).and_then(|p| record.get(p)).map(str::trim).filter(|t| !t.is_empty());
        let of = match (text("bottle"), text("well"), text("date")) {
            (Some(label), ..) => Of::Bottle(label.into()),
            (None, Some(well), Some(day)) => Of::WellAndDay(well.into(), day_of(day, row)?),
            _ => return Err(unfit(row, "neither a bottle nor a well and its date", "one of them")),
        };
        let unit = text("unit").unwrap_or_default();
        let unit = Unit::parse(unit).map_err(|e| unfit(row, format!("the unit \"{unit}\""), e.to_string()))?;
        let comma = delimiter != b',';
        let cell = text("value").unwrap_or_default();
        let number = |t: &str| {
            number(t, comma).ok_or_else(|| unfit(row, format!("the number \"{t}\""), "a number, also after < or >"))
        };
        let said = match cell.chars().next() {
            None => Said::Nothing,
            Some('<') => Said::Below(Some(number(cell[1..].trim())?.0)),
            Some('>') => Said::Above(number(cell[1..].trim())?.0),
            _ if ["nd", "n.d.", "n.n.", "not detected"].contains(&cell.to_lowercase().as_str()) => Said::Below(None),
            _ => number(cell).map(|(x, half)| Said::Value(x, half))?,
        };
        out.rows.push(Reported {
            row,
            of,
            analyte: text("analyte")
                .map(String::from)
                .ok_or_else(|| unfit(row, "no analyte", "an element or quantity"))?,
            isotopes: text("isotopes").map(String::from),
            fraction: text("fraction").map(String::from),
            said,
            text: cell.into(),
            u: text("u").map(|t| number(t).map(|n| n.0)).transpose()?,
            unit,
        });
    }
    Ok(out)
}

fn day_of(text: &str, row: usize) -> Result<String, Error> {
    let day = text.get(..10).unwrap_or(text);
    if day.len() == 10 && day.parse::<jiff::civil::Date>().is_ok() {
        return Ok(day.into());
    }
    Err(unfit(row, format!("the date \"{text}\""), "a day such as 2026-07-14"))
}

/// A number, and half of its last digit.
fn number(text: &str, comma: bool) -> Option<(f64, f64)> {
    let text = if comma && !text.contains('.') { text.replacen(',', ".", 1) } else { text.to_string() };
    let value: f64 = text.parse().ok().filter(|x: &f64| x.is_finite())?;
    let (mantissa, exponent) = match text.split_once(['e', 'E']) {
        Some((m, e)) => (m, e.parse::<i32>().ok()?),
        None => (text.as_str(), 0),
    };
    let decimals = mantissa.split_once('.').map_or(0, |(_, d)| d.len());
    let decimals = i32::try_from(decimals).ok()?;
    // A hair wider than the half, so that what was rounded from the very middle still is the same.
    Some((value, 0.5 * 10f64.powi(exponent - decimals) * (1.0 + 1e-9)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_with_their_last_digit() {
        for (text, comma, value, half) in [
            ("1.85", false, 1.85, 0.005),
            ("1,85", true, 1.85, 0.005),
            ("1450", false, 1450.0, 0.5),
            ("2.40e-3", false, 0.0024, 0.000_005),
            ("-0.3", false, -0.3, 0.05),
        ] {
            let (x, h) = number(text, comma).unwrap();
            assert!((x - value).abs() < 1e-12 && (h - half).abs() < 1e-6 * half, "{text}: {x} {h}");
        }
        for text in ["", "1,85", "1.2.3", "inf", "NaN", "12 mg"] {
            assert_eq!(number(text, false), None, "{text}");
        }
    }

    #[test]
    fn sheets_as_people_keep_them() {
        let english = b"bottle,analyte,value,unit,remark\nA-1,Pb,2.41,ng/L,x\nA-1,Cd,<0.5,ng/L,\n\nA-2,Pb,,ng/L,\n";
        let sheet = read(english).unwrap();
        assert_eq!(sheet.passed_over, ["remark"]);
        let said: Vec<Said> = sheet.rows.iter().map(|r| r.said).collect();
        assert!(matches!(said[..], [Said::Value(..), Said::Below(Some(_)), Said::Nothing]), "{said:?}");
        let german = "Well;Date;Element;Value;Unit\nBrunnen 1;2026-05-14;Fe;2100,5;µg/L\n".as_bytes();
        let row = &read(german).unwrap().rows[0];
        assert_eq!(row.of, Of::WellAndDay("Brunnen 1".into(), "2026-05-14".into()));
        assert!(matches!(row.said, Said::Value(x, _) if (x - 2100.5).abs() < 1e-9));
        // The same in one byte a letter.
        let text = "well;date;analyte;value;unit\nSüd;2026-05-14;Fe;1;mg/L\n";
        let latin: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).unwrap()).collect();
        assert_eq!(read(&latin).unwrap().rows[0].of.to_string(), "Süd, 2026-05-14");
        for (text, part) in [
            ("", "empty"),
            ("bottle,analyte,value\nA,Pb,1\n", "unit"),
            ("analyte,value,unit\nPb,1,ng/L\n", "well and date"),
            ("bottle,label,analyte,value,unit\nA,A,Pb,1,ng/L\n", "twice"),
            ("bottle,analyte,value,unit\nA,Pb,1,ppt\n", "ppt"),
            ("bottle,analyte,value,unit\nA,Pb,one,ng/L\n", "one"),
            ("bottle,analyte,value,unit\n,Pb,1,ng/L\n", "row 2"),
            ("well,date,analyte,value,unit\nW,14.5.2026,Pb,1,ng/L\n", "14.5.2026"),
        ] {
            let refused = read(text.as_bytes()).unwrap_err().to_string();
            assert!(refused.contains(part), "{text:?}: {refused}");
        }
    }
}
