//! A guess as the text of a mapping, to be saved and given again.

use super::super::cell::{DateOrder, Decimal};
use super::super::mapping::{Hidden, Mapping, MappingError};
use super::super::pattern;
use super::super::text::Encoding;
use super::{Guess, Place, quoted};
use std::collections::BTreeMap;
use std::fmt::Write as _;

impl Guess {
    /// The mapping as text.
    pub fn toml(&self) -> String {
        let target = if self.wide { "results-wide" } else { "results" };
        let mut out = format!(
            "name = {}\nabout = \"Guessed from the file.\"\ntarget = \"{target}\"\nnegative = \"value\"\n",
            quoted(&self.name)
        );
        let list = |all: &[String]| all.iter().map(|h| quoted(h)).collect::<Vec<_>>().join(", ");
        if !self.ignore.is_empty() {
            let _ = writeln!(out, "ignore = [{}]", list(&self.ignore));
        }
        if let Some(c) = self.plus_minus.as_ref().filter(|c| !c.is_empty()) {
            let _ = writeln!(out, "plus_minus = {{ {c} }}");
        }
        out += &self.form_toml();
        for table in ["bottle", "well", "result"] {
            let mut lines = String::new();
            for (field, place) in &self.columns {
                let Some(column) = field.strip_prefix(table).and_then(|f| f.strip_prefix('.')) else { continue };
                let _ = writeln!(lines, "{column} = {}", self.place(field, place));
            }
            if !lines.is_empty() {
                let _ = write!(out, "\n[columns.{table}]\n{lines}");
            }
        }
        if self.wide {
            out += "\n[wide]\n";
            if let Some(p) = &self.pattern {
                let _ = writeln!(out, "pattern = {}", quoted(p));
                if let Some(u) = &self.value_unit {
                    let _ = writeln!(out, "unit = {}", quoted(u));
                }
            }
            if !self.analytes.is_empty() {
                out += "\n[wide.analytes]\n";
            }
            let none = BTreeMap::new();
            for (heading, name, unit) in &self.analytes {
                let carried = matches!(pattern::heading_unit(heading, &none), Some((_, Ok(_))));
                let unit = unit.as_ref().or(self.value_unit.as_ref().filter(|_| !carried));
                let unit = unit.map_or_else(String::new, |u| format!(", unit = {}", quoted(u)));
                let _ = writeln!(out, "{} = {{ analyte = {}{unit} }}", quoted(heading), quoted(name));
            }
        }
        for (title, words) in [("words", &self.words), ("remarks", &self.remarks)] {
            if !words.is_empty() {
                let _ = write!(out, "\n[{title}]\n");
            }
            for (word, means) in words {
                let _ = writeln!(out, "{} = {}", quoted(word), quoted(means));
            }
        }
        out
    }

    fn form_toml(&self) -> String {
        let f = &self.form;
        let mut out = String::from("\n[file]\n");
        let mut line = |key: &str, value: String| {
            let _ = writeln!(out, "{key} = {value}");
        };
        match f.delimiter {
            Some(b'\t') => line("delimiter", quoted("tab")),
            Some(b) => line("delimiter", quoted(&char::from(b).to_string())),
            None => line("delimiter", quoted("auto")),
        }
        line("encoding", quoted(if f.encoding == Encoding::Utf8 { "utf-8" } else { "windows-1252" }));
        // What nothing tells is left out, so that it is asked.
        match f.decimal {
            Decimal::Point => line("decimal", quoted(".")),
            Decimal::Comma => line("decimal", quoted(",")),
            Decimal::Asked => {}
        }
        if let Some(sign) = f.thousands {
            line("thousands", quoted(&sign.to_string()));
        }
        match f.dates {
            DateOrder::Ymd => line("dates", quoted("year-month-day")),
            DateOrder::Dmy => line("dates", quoted("day-month-year")),
            DateOrder::Mdy => line("dates", quoted("month-day-year")),
            DateOrder::Asked => {}
        }
        if let Some(sheet) = &f.sheet {
            line("sheet", quoted(sheet));
        }
        for (key, row) in [("header_row", f.header_row), ("units_row", f.units_row), ("methods_row", f.methods_row)] {
            if let Some(row) = row {
                line(key, row.to_string());
            }
        }
        for (key, on) in [("transposed", f.transposed), ("blocks", f.blocks)] {
            if on {
                line(key, "true".into());
            }
        }
        match f.hidden {
            Some(Hidden::Take) => line("hidden", quoted("take")),
            Some(Hidden::Leave) => line("hidden", quoted("leave")),
            None => {}
        }
        out
    }

    fn place(&self, field: &str, place: &Place) -> String {
        let heading = match place {
            Place::Constant(c) => return format!("{{ constant = {} }}", quoted(c)),
            Place::Both(day, time) => return format!("{{ template = {} }}", quoted(&format!("{{{day}}} {{{time}}}"))),
            Place::Heading(h) => quoted(h),
        };
        match field {
            "result.u" => {
                let percent = self.u_in.as_deref().filter(|u| *u == "%").map(|u| format!("unit = {}", quoted(u)));
                let said: Vec<String> = self.coverage.iter().cloned().chain(percent).collect();
                if said.is_empty() { heading } else { format!("{{ heading = {heading}, {} }}", said.join(", ")) }
            }
            "result.value" => match (&self.value_unit, self.columns.contains_key("result.unit")) {
                (Some(u), _) => format!("{{ heading = {heading}, unit = {} }}", quoted(u)),
                (None, false) => format!("{{ heading = {heading}, unit = \"heading\" }}"),
                (None, true) => heading,
            },
            "result.analyte" if !self.names.is_empty() => {
                let names: Vec<String> =
                    self.names.iter().map(|(a, b)| format!("{} = {}", quoted(a), quoted(b))).collect();
                format!("{{ heading = {heading}, keep = true, values = {{ {} }} }}", names.join(", "))
            }
            _ => heading,
        }
    }

    /// The mapping, where nothing that it needs is open.
    ///
    /// # Errors
    /// [`MappingError`], with the questions where there are some.
    pub fn mapping(&self) -> Result<Mapping, MappingError> {
        Mapping::parse(&self.toml()).map_err(|e| {
            if self.questions.is_empty() {
                return e;
            }
            MappingError::Meaning {
                name: self.name.clone(),
                what: "guessed from the file".into(),
                found: format!("questions that the file does not answer: {}", self.questions_in_words()),
                expected: "an answer to each".into(),
            }
        })
    }
}
