//! CAS registry numbers and the names of compounds.
//!
//! A number is up to seven digits, two digits, a check digit: the sum of the digits before it, each times
//! its place counted from the right, modulo 10. A wrong digit is a slip of writing; a right one proves
//! nothing of the name, so names are looked up in `reference/compounds.csv` (recalled, each number's
//! digit right) and, for groups that limits name, in `reference/compound_groups.csv`. Source of the rule: CAS, "Check digit verification of CAS registry numbers"; from
//! memory, its worked example 107-07-3. Checked in `tests/absence.rs`.

use serde::Serialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// What is wrong with a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Fault {
    /// Not of the form 0000000-00-0.
    Form,
    /// The check digit does not follow from the others.
    CheckDigit {
        /// What it would be.
        expected: u8,
    },
}

/// A number in its usual form, where its check digit is right.
///
/// # Errors
/// [`Fault`].
///
/// ```
/// use limits::cas::{Fault, parse};
/// // Two digits changed places: the check digit tells, and says what it would be.
/// assert_eq!(parse("1912-24-9"), Ok("1912-24-9".to_string()));
/// assert_eq!(parse("1921-24-9"), Err(Fault::CheckDigit { expected: 0 }));
/// ```
pub fn parse(text: &str) -> Result<String, Fault> {
    let text = text.trim();
    let parts: Vec<&str> = text.split('-').collect();
    let [first, second, check] = parts[..] else { return Err(Fault::Form) };
    let digits = |t: &str| !t.is_empty() && t.bytes().all(|b| b.is_ascii_digit());
    let form = (2..=7).contains(&first.len()) && second.len() == 2 && check.len() == 1;
    if !form || !digits(first) || !digits(second) || !digits(check) || first.starts_with('0') {
        return Err(Fault::Form);
    }
    let expected = digit(first, second);
    if check.bytes().next() == Some(b'0' + expected) {
        Ok(text.to_string())
    } else {
        Err(Fault::CheckDigit { expected })
    }
}

/// The check digit of the two groups before it.
pub fn digit(first: &str, second: &str) -> u8 {
    let digits = first.bytes().chain(second.bytes()).rev().map(|b| u32::from(b.saturating_sub(b'0')));
    // Modulo 10: fits a byte.
    (digits.zip(1..).map(|(d, place)| d * place).sum::<u32>() % 10) as u8
}

/// A compound of the table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Known {
    /// Name.
    pub name: String,
    /// CAS number.
    pub cas: String,
    /// herbicide, insecticide, fungicide, metabolite, repellent; else the first group of `reference/compound_groups.csv`.
    pub group: String,
    /// Other names.
    pub other_names: Vec<String>,
    /// How the row was come by.
    pub provenance: String,
}

fn known(r: &csv::StringRecord, [name, cas, group]: [usize; 3]) -> Known {
    Known {
        name: r[name].into(),
        cas: r[cas].into(),
        group: r[group].into(),
        other_names: r[3].split(';').filter(|n| !n.is_empty()).map(String::from).collect(),
        provenance: r[4].into(),
    }
}

fn rows(text: &str, columns: [usize; 3]) -> Vec<Known> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    reader.records().map(|r| known(&r.expect("the table of compounds is well-formed"), columns)).collect()
}

/// The members of groups that limits name, a row each; one compound may stand in several.
pub(crate) fn group_rows() -> Vec<Known> {
    rows(include_str!("../../../reference/compound_groups.csv"), [1, 2, 0])
}

static COMPOUNDS: LazyLock<Vec<Known>> = LazyLock::new(|| {
    let mut out = rows(include_str!("../../../reference/compounds.csv"), [0, 1, 2]);
    for member in group_rows() {
        if !out.iter().any(|c| c.cas == member.cas) {
            out.push(member);
        }
    }
    out
});

static BY_NAME: LazyLock<HashMap<String, usize>> = LazyLock::new(|| {
    let named = COMPOUNDS.iter().enumerate();
    named.flat_map(|(i, c)| std::iter::once(&c.name).chain(&c.other_names).map(move |n| (folded(n), i))).collect()
});

/// A name without what people write differently: case, blanks, hyphens.
pub fn folded(name: &str) -> String {
    name.chars().filter(|c| !c.is_whitespace() && *c != '-').flat_map(char::to_lowercase).collect()
}

/// What makes two names one compound: a right number, else that of the table's name, else the name.
pub fn identity(name: &str, cas: Option<&str>) -> String {
    let stated = cas.and_then(|n| parse(n).ok());
    stated.or_else(|| by_name(name).map(|k| k.cas.clone())).unwrap_or_else(|| folded(name))
}

/// The table of compounds.
pub fn compounds() -> &'static [Known] {
    &COMPOUNDS
}

/// A compound by one of its names.
pub fn by_name(name: &str) -> Option<&'static Known> {
    BY_NAME.get(&folded(name)).map(|i| &COMPOUNDS[*i])
}

/// A compound by its number.
pub fn by_cas(cas: &str) -> Option<&'static Known> {
    COMPOUNDS.iter().find(|c| c.cas == cas.trim())
}
