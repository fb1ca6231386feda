//! Empty files to fill: which there are, their headings, one example row each, and a sheet that says what each heading
//! means, its unit and the words it takes. The command line writes them into a folder, the web interface offers them.
//!
//! In: a language. Out: rows of text. The headings are those that the mapping of the same name reads, and units and words
//! come from the declarations that the importer reads by (`record::schema`); what a heading means is a message of its own.
//! An example row cannot be taken in by mistake: where it refers to something it says that it is an example, and nothing of
//! that name is on record.
//!
//! Checked in `crates/cli/tests/own_trip.rs` and below.

use message::{Lang, Message, start};
use record::schema::{self, Column, Kind, UnitOf};

/// A file to fill.
#[derive(Debug, Clone, Copy)]
pub struct Template {
    /// Name of the file without its ending.
    pub file: &'static str,
    /// The mapping that reads it.
    pub mapping: &'static str,
    /// Tables in which its headings are declared; the first that has one says its unit and words.
    tables: &'static [&'static str],
    /// Headings with what the example says; each is what the mapping reads.
    columns: &'static [(&'static str, Cell)],
}

/// A cell of the example row.
#[derive(Debug, Clone, Copy)]
enum Cell {
    /// As it stands in every language.
    Is(&'static str),
    /// That it is an example: a reference to something that is not there.
    Example,
}

use Cell::{Example, Is};

/// In the order in which they refer to each other.
pub const TEMPLATES: &[Template] = &[
    Template {
        file: "wells",
        mapping: "wells",
        tables: &["well"],
        columns: &[
            ("name", Is("A-1")),
            ("site", Example),
            ("description", Is("")),
            ("medium", Is("groundwater")),
            ("pipe_material", Is("stainless steel")),
            ("flow_note", Is("flows always")),
        ],
    },
    Template {
        file: "well-sections",
        mapping: "well-sections",
        tables: &["well_section"],
        columns: &[
            ("well", Example),
            ("from_m", Is("0")),
            ("to_m", Is("30")),
            ("radius_m", Is("0.05")),
            ("kind", Is("casing")),
            ("material", Is("stainless steel")),
        ],
    },
    Template {
        file: "trips",
        mapping: "trips",
        tables: &["trip"],
        columns: &[
            ("name", Is("A-2026-05")),
            // No reference here that could be refused: no day is called so either.
            ("starts", Example),
            ("ends", Is("")),
            ("question", Is("")),
            ("persons", Is("")),
        ],
    },
    Template {
        file: "bottles",
        mapping: "bottles",
        tables: &["bottle"],
        columns: &[
            ("label", Is("A-1")),
            ("kind", Is("sample")),
            ("trip", Example),
            ("well", Example),
            ("fraction", Is("unfiltered")),
            ("volume_mL", Is("250")),
            ("filled_at", Is("2026-05-11 09:30")),
            ("acid_mL", Is("0.5")),
            ("acidified_at", Is("2026-05-11 09:40")),
            ("openings", Is("1")),
            ("cabinet_min", Is("2")),
            ("open_air_min", Is("0")),
            ("parent", Is("")),
            ("note", Is("")),
        ],
    },
    Template {
        file: "field-readings",
        mapping: "field-readings",
        tables: &["field_reading"],
        columns: &[
            ("trip", Example),
            ("well", Example),
            ("at", Is("2026-05-11 09:20")),
            ("quantity", Is("temperature")),
            ("value", Is("9.4")),
            ("u", Is("0.1")),
            ("unit", Is("Cel")),
        ],
    },
    Template {
        file: "fills",
        mapping: "fills",
        tables: &["fill"],
        columns: &[
            ("trip", Example),
            ("well", Example),
            ("at", Is("2026-05-11 09:15")),
            ("volume_L", Is("1")),
            ("u_volume_L", Is("0.01")),
            ("seconds", Is("8.2")),
        ],
    },
    Template {
        file: "custody",
        mapping: "custody",
        tables: &["custody"],
        columns: &[
            ("trip", Example),
            ("at", Is("2026-05-11 13:10")),
            ("step", Is("sealed")),
            ("person", Is("")),
            ("place", Is("")),
            ("temperature_C", Is("6.1")),
            ("seal", Is("whole")),
        ],
    },
    Template {
        file: "spikes",
        mapping: "spikes",
        tables: &["spike"],
        columns: &[("bottle", Example), ("analyte", Is("Pb")), ("added_pg", Is("1000")), ("u_pg", Is("10"))],
    },
    Template {
        file: "sequence",
        mapping: "sequence",
        tables: &["run", "vial", "assigned"],
        columns: &[
            ("run", Is("A-R-1")),
            ("laboratory", Is("")),
            ("instrument", Is("")),
            ("started_at", Is("2026-05-13 09:00")),
            ("recipe", Example),
            ("position", Is("1")),
            ("name", Is("standard 1")),
            ("role", Is("standard")),
            ("bottle", Is("")),
            ("minutes", Is("4")),
            ("dilution", Is("1")),
            ("u_dilution", Is("0.001")),
            ("analyte", Is("Pb")),
            ("value", Is("2")),
            ("u", Is("0.008")),
            ("unit", Is("ng/L")),
            ("source", Is("")),
            ("stock", Is("")),
            ("assigned_side", Is("in the bottle")),
        ],
    },
    Template {
        file: "counts",
        mapping: "counts-wide",
        tables: &["vial", "reading"],
        columns: &[
            ("run", Example),
            ("position", Is("1")),
            ("replicate", Is("1")),
            ("integration_s", Is("4")),
            ("Pb208@low", Is("255.25")),
            ("In115@low", Is("247970.5")),
        ],
    },
    Template {
        file: "results",
        mapping: "laboratory-long",
        tables: &["result", "measurand", "bottle"],
        columns: &[
            ("bottle", Is("A-1")),
            ("analyte", Is("Pb")),
            ("fraction", Is("unfiltered")),
            ("value", Is("<0.05")),
            ("u", Is("")),
            // No reference here that could be refused: no unit is called so either.
            ("unit", Example),
            ("detection_limit", Is("0.05")),
            ("reporting_limit", Is("0.05")),
            ("laboratory", Is("")),
            ("method", Is("")),
        ],
    },
    Template {
        file: "tracers",
        mapping: "tracers",
        tables: &["tracer"],
        columns: &[
            ("bottle", Is("")),
            ("well", Example),
            ("sampled_on", Is("2026-05-11")),
            ("tracer", Is("3H")),
            ("value", Is("0.6")),
            ("below", Is("")),
            ("uncertainty", Is("0.1")),
            ("k", Is("2")),
            ("unit", Is("TU")),
            ("critical_value", Is("0.08")),
            ("detection_limit", Is("0.15")),
            ("measured_on", Is("2026-09-30")),
            ("laboratory", Is("")),
            ("method", Is("")),
            ("decayed_to", Is("sampling")),
            ("half_life_a", Is("12.32")),
            ("normalised_to", Is("")),
        ],
    },
    Template {
        file: "input-histories",
        mapping: "input-histories",
        tables: &["input_history"],
        columns: &[
            ("name", Example),
            ("tracer", Is("3H")),
            ("region", Example),
            ("source", Example),
            ("site", Example),
            ("in_year", Is("1963.5")),
            ("before", Is("")),
            ("value", Is("1000")),
            ("u", Is("100")),
            ("unit", Is("TU")),
        ],
    },
    Template {
        file: "recharge-facts",
        mapping: "recharge-facts",
        tables: &["recharge_fact"],
        columns: &[
            ("what", Is("recharge-height-m")),
            ("tracer", Is("")),
            ("site", Example),
            ("well", Is("")),
            ("low", Is("20")),
            ("high", Is("60")),
            ("source", Is("")),
        ],
    },
];

/// The template of a file.
pub fn of(file: &str) -> Option<&'static Template> {
    TEMPLATES.iter().find(|t| t.file == file)
}

impl Template {
    /// Its headings.
    pub fn headings(&self) -> Vec<String> {
        self.columns.iter().map(|(heading, _)| (*heading).to_string()).collect()
    }

    /// Its example row.
    pub fn example(&self, language: Lang) -> Vec<String> {
        let cell = |cell: &Cell| match cell {
            Is(text) => (*text).to_string(),
            Example => said(start::Example, language),
        };
        self.columns.iter().map(|(_, c)| cell(c)).collect()
    }

    /// Where a heading is declared; an isotope's is not.
    fn declared(&self, heading: &str) -> Option<&'static Column> {
        self.tables.iter().filter_map(|t| schema::table(t)).flat_map(|t| t.columns).find(|c| c.name == heading)
    }

    /// What a heading means; every heading of a template has its message.
    fn means(&self, heading: &str) -> Option<Message> {
        Message::named("column", &format!("{}-{}", self.file, heading.to_lowercase()))
    }
}

/// Headings of the sheet of words.
pub fn word_headings(language: Lang) -> Vec<String> {
    let all: [Message; 6] = [
        start::HeadingFile.into(),
        start::HeadingColumn.into(),
        start::HeadingNeeded.into(),
        start::HeadingUnit.into(),
        start::HeadingTakes.into(),
        start::HeadingMeans.into(),
    ];
    all.map(|m| said(m, language)).to_vec()
}

/// The sheet of words: a row a template and heading.
pub fn words(language: Lang) -> Vec<Vec<String>> {
    let of = |t: &'static Template| t.columns.iter().map(move |(heading, _)| word(t, heading, language));
    TEMPLATES.iter().flat_map(of).collect()
}

fn word(template: &Template, heading: &str, language: Lang) -> Vec<String> {
    let column = template.declared(heading);
    let unit = match column.map(|c| c.unit) {
        Some(UnitOf::Fixed(unit)) => unit.in_words(),
        Some(UnitOf::Column(other)) => said(start::UnitBeside { column: other.into() }, language),
        _ => String::new(),
    };
    let takes: Message = match column.map_or(Kind::Real, |c| c.kind) {
        Kind::Word(words) => return row(template, heading, (column, unit, words.join(", ")), language),
        Kind::Real => start::TakesNumber.into(),
        Kind::Integer => start::TakesWhole.into(),
        Kind::Time => start::TakesTime.into(),
        Kind::Unit => start::TakesUnit.into(),
        // What the sequence names itself (its run) is no reference.
        Kind::Row(table) if template.tables[0] != table => start::TakesName { table: table.into() }.into(),
        Kind::Row(_) | Kind::Text | Kind::Json | Kind::Blob => start::TakesText.into(),
    };
    row(template, heading, (column, unit, said(takes, language)), language)
}

fn row(
    template: &Template,
    heading: &str,
    (column, unit, takes): (Option<&Column>, String, String),
    language: Lang,
) -> Vec<String> {
    let needed = if column.is_some_and(|c| c.required) { said(start::Yes, language) } else { String::new() };
    let means = template.means(heading).map_or_else(String::new, |m| said(m, language));
    vec![template.file.into(), heading.into(), needed, unit, takes, means]
}

fn said(what: impl Into<Message>, language: Lang) -> String {
    what.into().said(language).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use intake::import::Mapping;

    #[test]
    fn every_template_has_a_mapping_and_every_heading_a_meaning_in_each_language() {
        for t in TEMPLATES {
            assert!(Mapping::shipped(t.mapping).is_ok(), "{}", t.mapping);
            for heading in t.headings() {
                assert!(t.means(&heading).is_some(), "{}: {heading}", t.file);
            }
        }
        for language in Lang::ALL {
            let words = words(language);
            assert_eq!(words.len(), TEMPLATES.iter().map(|t| t.columns.len()).sum::<usize>());
            assert!(words.iter().all(|w| !w[4].is_empty() && !w[5].is_empty()), "{words:?}");
        }
    }

    #[test]
    fn an_example_says_that_it_is_one() {
        for t in TEMPLATES {
            for language in Lang::ALL {
                assert!(t.example(language).contains(&said(start::Example, language)), "{}", t.file);
            }
        }
    }
}
