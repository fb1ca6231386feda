//! Which tables a person fills on a screen: in what words, how many rows at once, who may, where it leads. And the
//! words of the columns.

use crate::auth::accounts::Role;
use record::schema::{self, Column, Kind, Table, UnitOf};

/// A table that people fill.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sort {
    /// Table of the record.
    pub table: &'static str,
    /// One of it, with its article.
    pub one: &'static str,
    /// Rows of an empty form.
    pub rows: usize,
    /// Who may.
    pub role: Role,
    /// The place that it belongs to.
    pub place: &'static str,
}

const fn sort(table: &'static str, one: &'static str, rows: usize, role: Role, place: &'static str) -> Sort {
    Sort { table, one, rows, role, place }
}

/// All of them.
pub(crate) const SORTS: &[Sort] = &[
    sort("person", "a person", 1, Role::Sampler, "/record"),
    sort("site", "a site", 1, Role::Lead, "/wells"),
    sort("well", "a well", 1, Role::Lead, "/wells"),
    sort("well_section", "casing and screen", 4, Role::Lead, "/wells"),
    sort("layer", "layers", 6, Role::Lead, "/wells"),
    sort("lot", "a lot of bottles", 1, Role::Sampler, "/trips"),
    sort("acid", "an acid lot", 1, Role::Sampler, "/trips"),
    sort("filter", "a filter lot", 1, Role::Sampler, "/trips"),
    sort("trip", "a trip", 1, Role::Sampler, "/trips"),
    sort("bottle", "a bottle", 1, Role::Sampler, "/trips"),
    sort("spike", "spikes", 3, Role::Sampler, "/trips"),
    sort("aliquot", "a part of a bottle", 1, Role::Sampler, "/trips"),
    sort("field_reading", "readings at a well", 6, Role::Sampler, "/trips"),
    sort("fill", "timed fills", 4, Role::Sampler, "/trips"),
    sort("air_count", "particle counts", 6, Role::Sampler, "/trips"),
    sort("custody", "a step of custody", 1, Role::Sampler, "/trips"),
    sort("compound", "a compound's number", 1, Role::Analyst, "/compounds"),
    sort("laboratory_quality", "what a laboratory says of its quality", 3, Role::Analyst, "/record"),
    sort("local_limit", "a limit of your own", 1, Role::Lead, "/limits"),
    sort("tracer", "tracers of age", 2, Role::Analyst, "/wells"),
    sort("recharge_fact", "what is known of the recharge", 2, Role::Lead, "/wells"),
    sort("check_rule", "a rule of the checks", 1, Role::Lead, "/record"),
];

/// The sort of a table, with its declaration.
pub(crate) fn sort_of(table: &str) -> Option<(&'static Sort, &'static Table)> {
    let sort = SORTS.iter().find(|s| s.table == table)?;
    Some((sort, schema::table(table)?))
}

/// A column in words: `u_volume_mL` is "u of volume" in mL.
pub(crate) fn label(column: &Column) -> (String, String) {
    let (stem, unit) = match column.unit {
        UnitOf::Fixed(unit) => (column.name.strip_suffix(unit.ending).unwrap_or(column.name), unit.in_words()),
        UnitOf::Column(_) | UnitOf::None => (column.name, String::new()),
    };
    let stem = match stem.strip_prefix("u_") {
        Some(of) => format!("u of {of}"),
        None if stem == "u" => "standard uncertainty u".into(),
        None => stem.to_string(),
    };
    (stem.replace('_', " "), unit)
}

/// Columns of prose.
pub(crate) fn is_long(column: &Column) -> bool {
    column.kind == Kind::Text
        && matches!(column.name, "question" | "steps" | "description" | "note" | "why" | "weather" | "persons")
}

/// Whether a form asks for a column: the program counts revisions itself.
pub(crate) fn is_asked(table: &str, column: &Column) -> bool {
    let counted = table == "check_rule" && column.name == "revision";
    !counted && !matches!(column.kind, Kind::Blob | Kind::Json)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sort_is_a_table_that_people_fill() {
        for s in SORTS {
            let (_, table) = sort_of(s.table).unwrap();
            assert!(table.from_files, "{}", s.table);
        }
    }

    #[test]
    fn columns_in_words() {
        let of = |table: &str, column: &str| {
            let t = schema::table(table).unwrap();
            let (words, unit) = label(t.column(column).unwrap());
            [words, unit]
        };
        assert_eq!(of("bottle", "flow_L_min"), ["flow", "L/min"]);
        assert_eq!(of("bottle", "u_flow_L_min"), ["u of flow", "L/min"]);
        assert_eq!(of("lot", "acid_days"), ["acid days", "d"]);
        assert_eq!(of("filter", "pore_um"), ["pore", "µm"]);
        assert_eq!(of("custody", "temperature_C"), ["temperature", "°C"]);
        assert_eq!(of("site", "latitude_deg"), ["latitude", "°"]);
        assert_eq!(of("bottle", "u_volume_mL"), ["u of volume", "mL"]);
        assert_eq!(of("bottle", "cabinet_min"), ["cabinet", "min"]);
        assert_eq!(of("lot", "target_pg_Pb"), ["target", "pg Pb"]);
        assert_eq!(of("field_reading", "u"), ["standard uncertainty u", ""]);
        assert_eq!(of("fill", "seconds"), ["seconds", "s"]);
        assert_eq!(of("trip", "road_salt"), ["road salt", ""]);
    }
}
