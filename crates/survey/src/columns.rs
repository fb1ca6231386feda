//! Which column of a table is what, and the one view that every question is asked of.
//!
//! The view `results` has, whatever the table calls them: well, analyte, unit, sample, date, value, below, u, method,
//! fault, fault_cell. A row with a fault has neither value nor limit and is counted by its fault; a row without a day
//! has no date and takes no part in a series, one without a sample none in a water.

use crate::error::Error;
use crate::functions::scalar::{REMARKS, check_remarks};
use crate::table::Table;
use datafusion::prelude::{DataFrame, SessionContext};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What columns can be, with what each is.
pub const ROLES: &[(&str, &str)] = &[
    ("well", "the place"),
    ("analyte", "what was measured"),
    ("date", "the day, YYYY-MM-DD first"),
    ("value", "the cell with the number, marks such as < before it"),
    ("unit", "its unit"),
    ("below", "the limit of a non-detect, where it has a column"),
    ("remark", "the laboratory's remark"),
    ("limit", "the reporting limit"),
    ("u", "standard uncertainty, in the unit of the value"),
    ("method", "method or laboratory"),
    ("sample", "the sample that several results belong to"),
];

/// How a table is to be read.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reading {
    /// Role → column; a role that is not named is a column of its own name where there is one.
    pub columns: BTreeMap<String, String>,
    /// A unit for all rows, where the table has no column for it.
    pub unit: Option<String>,
    /// What remarks mean: `<=below;E=value`.
    pub remarks: String,
    /// Other names of units: `std units=pH`.
    pub units: String,
    /// Names of analytes in the table and what they are called here: `Calcium, wf=Ca`.
    pub names: String,
}

impl Default for Reading {
    fn default() -> Self {
        Self {
            columns: BTreeMap::new(),
            unit: None,
            remarks: REMARKS.into(),
            units: String::new(),
            names: String::new(),
        }
    }
}

impl Reading {
    /// Columns from `role=column,role=column`.
    ///
    /// # Errors
    /// [`Error::Input`] for a role that there is not.
    pub fn with_columns(mut self, text: &str) -> Result<Self, Error> {
        for pair in text.split(',').map(str::trim).filter(|p| !p.is_empty()) {
            let roles = || ROLES.iter().map(|r| r.0).collect::<Vec<_>>().join(", ");
            let Some((role, column)) = pair.split_once('=') else {
                return Err(Error::input("--columns", pair, "role=column, separated by commas"));
            };
            if !ROLES.iter().any(|r| r.0 == role) {
                return Err(Error::input("--columns", role, format!("one of {}", roles())));
            }
            self.columns.insert(role.into(), column.into());
        }
        Ok(self)
    }

    fn column<'a>(&'a self, role: &'a str, table: &[String]) -> Result<Option<&'a str>, Error> {
        let named = self.columns.get(role).map(String::as_str);
        let column = named.unwrap_or(role);
        if table.iter().any(|c| c == column) {
            return Ok(Some(column));
        }
        match named {
            None => Ok(None),
            Some(missing) => {
                Err(Error::input(format!("column for {role}"), format!("no column {missing}"), there_are(table)))
            }
        }
    }

    /// The view over rows of a table.
    ///
    /// # Errors
    /// [`Error::Input`] for a column that is missing, a remark without meaning, a unit that is none.
    pub async fn view(&self, session: &SessionContext, table: &Table, rows: DataFrame) -> Result<DataFrame, Error> {
        check_remarks(&self.remarks).map_err(|e| Error::input("--remarks", &self.remarks, e.to_string()))?;
        let columns = table.columns();
        let of = |role: &str| self.column(role, &columns).map(|c| c.map(quoted));
        let needed = |role: &str| {
            of(role)?.ok_or_else(|| {
                Error::input(
                    format!("column for {role}"),
                    "none",
                    format!("--columns {role}=…; {}", there_are(&columns)),
                )
            })
        };
        let text = |role: &str| -> Result<String, Error> {
            Ok(of(role)?.map_or_else(|| "CAST(NULL AS VARCHAR)".into(), |c| format!("CAST({c} AS VARCHAR)")))
        };
        let unit = match (&self.unit, of("unit")?) {
            (Some(u), _) => {
                quantity::Unit::parse(u).map_err(|e| Error::input("--unit", u, e.to_string()))?;
                literal(u)
            }
            (None, Some(c)) => format!("CAST({c} AS VARCHAR)"),
            (None, None) => {
                return Err(Error::input("column for unit", "none", "--unit UNIT for all rows, or --columns unit=…"));
            }
        };
        let (well, analyte, value) = (needed("well")?, needed("analyte")?, needed("value")?);
        let date = text("date")?;
        let analyte = format!("renamed(CAST({analyte} AS VARCHAR), {})", literal(&self.names));
        // A sample that the table does not name is a well's on a day and minute; without a day there is none.
        let sample = match of("sample")? {
            Some(c) => format!("CAST({c} AS VARCHAR)"),
            None => format!(
                "CASE WHEN {date} IS NULL OR {date} = '' THEN NULL \
                 ELSE concat(CAST({well} AS VARCHAR), ' ', substr({date}, 1, 16)) END"
            ),
        };
        let inner = format!(
            "SELECT CAST({well} AS VARCHAR) AS well, {analyte} AS analyte, {unit} AS raw_unit, \
             unit_of({unit}, {units}) AS unit, {sample} AS sample, {date} AS raw_date, \
             TRY_CAST(substr({date}, 1, 10) AS DATE) AS date, {method} AS method, \
             reading({analyte}, CAST({value} AS VARCHAR), {below}, {remark}, {limit}, {u}, {words}) \
             AS cell FROM survey_rows",
            units = literal(&self.units),
            method = text("method")?,
            u = text("u")?,
            below = text("below")?,
            remark = text("remark")?,
            limit = text("limit")?,
            words = literal(&self.remarks),
        );
        let told = format!(
            "SELECT *, CASE WHEN well IS NULL OR well = '' THEN 'no well' \
             WHEN analyte IS NULL OR analyte = '' THEN 'no analyte' \
             WHEN cell['fault'] IS NOT NULL THEN cell['fault'] \
             WHEN unit IS NULL THEN 'a unit that is not known' ELSE NULL END AS fault, \
             CASE WHEN cell['fault'] IS NOT NULL THEN cell['fault_cell'] \
             WHEN unit IS NULL THEN coalesce(raw_unit, '') ELSE NULL END AS fault_cell FROM ({inner})"
        );
        let outer = format!(
            "SELECT well, analyte, unit, sample, date, raw_date, \
             CASE WHEN fault IS NULL THEN cell['value'] ELSE NULL END AS value, \
             CASE WHEN fault IS NULL THEN cell['below'] ELSE NULL END AS below, \
             CASE WHEN fault IS NULL THEN cell['u'] ELSE NULL END AS u, method, fault, fault_cell FROM ({told})"
        );
        let _ = session.deregister_table("survey_rows")?;
        session.register_table("survey_rows", rows.into_view())?;
        // Planned at once: the name is free for the next rows afterwards.
        Ok(session.sql(&outer).await?)
    }
}

fn there_are(table: &[String]) -> String {
    format!("one of the table's columns: {}", table.join(", "))
}

fn quoted(column: &str) -> String {
    format!("\"{}\"", column.replace('"', "\"\""))
}

/// A text as SQL writes it.
pub fn literal(text: &str) -> String {
    format!("'{}'", text.replace('\'', "''"))
}
