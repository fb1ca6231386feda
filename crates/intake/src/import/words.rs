//! Names of tables as people say them: "3 people", "1 field reading", "an acid".

use message::Message;
use record::schema::Table;

/// Names whose plural is not the name with an s.
const PLURALS: [(&str, &str, &str); 7] = [
    ("person", "person", "people"),
    ("custody", "step of custody", "steps of custody"),
    ("assigned", "assigned value", "assigned values"),
    ("laboratory_quality", "row on a laboratory’s quality", "rows on a laboratory’s quality"),
    ("field_entry", "field entry", "field entries"),
    ("tracer", "value of a tracer", "values of tracers"),
    ("input_history", "year of a history", "years of histories"),
];

/// A number of rows of a table.
pub fn counted(n: u64, table: &str) -> String {
    match (PLURALS.iter().find(|p| p.0 == table), n) {
        (Some((_, one, _)), 1) => format!("1 {one}"),
        (Some((_, _, many)), _) => format!("{n} {many}"),
        (None, 1) => format!("1 {}", table.replace('_', " ")),
        (None, _) => format!("{n} {}s", table.replace('_', " ")),
    }
}

/// One of a table, with its article.
pub(crate) fn one_of(table: &Table) -> Message {
    Message::named("one_of", table.name).expect("every table of the record is named")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_articles() {
        assert_eq!(counted(1, "person"), "1 person");
        assert_eq!(counted(3, "person"), "3 people");
        assert_eq!(counted(96, "field_reading"), "96 field readings");
        let one = |table: &str| one_of(record::schema::table(table).unwrap()).in_english();
        assert_eq!(one("acid"), "an acid");
        assert_eq!(one("well_section"), "a well section");
    }

    #[test]
    fn every_table_is_named() {
        for table in record::schema::TABLES {
            assert!(Message::named("one_of", table.name).is_some(), "{}", table.name);
        }
    }
}
