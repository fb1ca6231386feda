//! A table of checks as a sheet that a person prints, edits and brings back: the programme's own or a profile's.
//!
//! In: text as CSV (`check_name, weight, limit_value, limit_unit, why`; other columns, a revision among them, are passed
//! over: revisions count themselves). Out: rules, each checked; a name that no check bears is refused with those near it.

use quantity::{Check, Unit};
use record::error::Error;
use record::model::Weight;
use serde::Serialize;

/// Headings of the sheet.
pub const HEADINGS: [&str; 5] = ["check_name", "weight", "limit_value", "limit_unit", "why"];

/// One rule as a sheet holds it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ruled {
    /// As stage.what.
    pub check_name: String,
    /// What it decides.
    pub weight: Weight,
    /// The limit.
    pub limit_value: Option<f64>,
    /// Its unit, UCUM.
    pub limit_unit: Option<String>,
    /// Reason.
    pub why: Option<String>,
}

impl Ruled {
    /// Whether it decides the same: weight, limit, unit. Another reason alone is no change of the rule.
    pub fn decides_as(&self, other: &Self) -> bool {
        (self.weight, self.limit_value, &self.limit_unit) == (other.weight, other.limit_value, &other.limit_unit)
    }
}

/// The reason that an edited rule is kept with: the sheet's own where the person wrote another than stands, else that of
/// the act.
pub(crate) fn reason<'a>(edited: &'a Ruled, stands: Option<&Ruled>, why: &'a str) -> &'a str {
    let before = stands.and_then(|s| s.why.as_deref());
    edited.why.as_deref().filter(|w| Some(*w) != before).unwrap_or(why)
}

fn unfit(row: usize, found: impl Into<String>, expected: impl Into<String>) -> Error {
    Error::Unfit { what: format!("row {row} of the table of checks"), found: found.into(), expected: expected.into() }
}

/// A check by its name.
///
/// # Errors
/// A name that no weighed check bears, with those near it.
pub fn check_named(name: &str) -> Result<Check, Error> {
    let known = Check::from_text(name).filter(|c| c.is_weighed());
    known.ok_or_else(|| Error::absent("check", name, format!("; the nearest: {}", near(name).join(", "))))
}

fn near(name: &str) -> Vec<&'static str> {
    let all = Check::ALL.iter().filter(|c| c.is_weighed()).map(|c| c.text());
    crate::hands::nearest(name, all, 3)
}

/// Reads a sheet.
///
/// # Errors
/// A column that is missing, a name, weight, limit or unit that cannot be, a check that stands twice.
pub fn read(text: &str) -> Result<Vec<Ruled>, Error> {
    let mut rows = csv::ReaderBuilder::new().flexible(true).from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let headings = rows.headers().map_err(|e| unfit(1, e.to_string(), "headings"))?.clone();
    let place = |name: &str| headings.iter().position(|h| h.trim() == name);
    for needed in &HEADINGS[..2] {
        if place(needed).is_none() {
            return Err(unfit(1, format!("the headings {}", headings.iter().collect::<Vec<_>>().join(", ")), *needed));
        }
    }
    let mut out: Vec<Ruled> = vec![];
    for (n, row) in (2..).zip(rows.records()) {
        let row = row.map_err(|e| unfit(n, e.to_string(), "a row of a CSV table"))?;
        let text = |name: &str| place(name).and_then(|p| row.get(p)).map(str::trim).filter(|t| !t.is_empty());
        let Some(name) = text("check_name") else { return Err(unfit(n, "no check", "a check's name")) };
        let check = check_named(name)?;
        let word = text("weight").unwrap_or_default();
        let weight = Weight::from_word(word)
            .ok_or_else(|| unfit(n, format!("the weight \"{word}\""), Weight::WORDS.join(", ")))?;
        let limit_value = match text("limit_value").map(|t| (t, t.parse::<f64>())) {
            None => None,
            Some((_, Ok(x))) if x.is_finite() => Some(x),
            Some((t, _)) => return Err(unfit(n, format!("the limit \"{t}\""), "a number with a decimal point")),
        };
        let limit_unit = text("limit_unit").map(String::from);
        if let Some(unit) = &limit_unit {
            Unit::parse(unit).map_err(|e| unfit(n, format!("the unit \"{unit}\""), e.to_string()))?;
        }
        if out.iter().any(|r| r.check_name == check.text()) {
            return Err(unfit(n, format!("{} twice", check.text()), "each once"));
        }
        let why = text("why").map(String::from);
        out.push(Ruled { check_name: check.text().into(), weight, limit_value, limit_unit, why });
    }
    Ok(out)
}

/// Writes a sheet that [`read`] takes back.
pub fn write(rules: &[Ruled]) -> String {
    let mut out = csv::Writer::from_writer(vec![]);
    let row = |r: &Ruled| {
        [
            r.check_name.clone(),
            r.weight.word().to_string(),
            r.limit_value.map(|l| l.to_string()).unwrap_or_default(),
            r.limit_unit.clone().unwrap_or_default(),
            r.why.clone().unwrap_or_default(),
        ]
    };
    out.write_record(HEADINGS).expect("memory takes all");
    for r in rules {
        out.write_record(row(r)).expect("memory takes all");
    }
    String::from_utf8(out.into_inner().expect("memory takes all")).expect("texts are UTF-8")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sheet_reads_back_and_a_slip_is_named() {
        let rules = vec![
            Ruled {
                check_name: "number.recovery".into(),
                weight: Weight::Decisive,
                limit_value: Some(0.7),
                limit_unit: Some("1".into()),
                why: Some("agreed, \"in May\"".into()),
            },
            Ruled {
                check_name: "well.flow".into(),
                weight: Weight::Note,
                limit_value: None,
                limit_unit: None,
                why: None,
            },
        ];
        assert_eq!(read(&write(&rules)).unwrap(), rules);
        for (text, parts) in [
            ("check_name,weight\nnumber.recovry,note\n", ["number.recovry", "number.recovery"]),
            ("check_name,weight\nrecovery,note\n", ["recovery", "number.recovery"]),
            ("check_name,weight\nwell.flow,heavy\n", ["heavy", "decisive"]),
            ("check_name,weight,limit_value\nwell.flow,note,\"1,5\"\n", ["1,5", "decimal point"]),
            ("check_name,weight,limit_unit\nwell.flow,note,ppt\n", ["row 2", "ppt"]),
            ("check_name,weight\nwell.flow,note\nwell.flow,note\n", ["row 3", "twice"]),
            ("name,weight\nwell.flow,note\n", ["headings", "check_name"]),
            ("check_name,weight\n,note\n", ["row 2", "no check"]),
        ] {
            let said = read(text).unwrap_err().to_string();
            assert!(parts.iter().all(|p| said.contains(p)), "{text:?}: {said}");
        }
    }
}
