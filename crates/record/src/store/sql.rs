//! The sentences of SQL, made from the declared schema. Plain enough for any database; what
//! differs between the two that are used (types, placeholders) stands in [`Dialect`].

use super::amend::ROW;
use super::backend::{Query, ReadAs, UNDO};
use super::{Cell, StoreError};
use crate::schema::{self, Column, Kind, Table, UnitOf};
use std::fmt::Write as _;

/// A name in quotes.
pub fn quoted(name: &str) -> String {
    format!("\"{name}\"")
}

/// Joins pieces with commas.
fn commas<T: AsRef<str>>(pieces: impl IntoIterator<Item = T>) -> String {
    let pieces: Vec<_> = pieces.into_iter().map(|p| p.as_ref().to_owned()).collect();
    pieces.join(", ")
}

/// Which database a sentence is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Dialect {
    Sqlite,
    Postgres,
}

impl Dialect {
    pub(crate) fn type_of(self, kind: Kind) -> &'static str {
        let [integer, real, blob, text] = match self {
            Self::Sqlite => ["INTEGER", "REAL", "BLOB", "TEXT"],
            Self::Postgres => ["BIGINT", "DOUBLE PRECISION", "BYTEA", "TEXT"],
        };
        match kind {
            Kind::Integer | Kind::Row(_) => integer,
            Kind::Real => real,
            Kind::Blob => blob,
            Kind::Text | Kind::Word(_) | Kind::Time | Kind::Unit | Kind::Json => text,
        }
    }

    fn place(self, number: usize) -> String {
        match self {
            Self::Sqlite => format!("?{number}"),
            Self::Postgres => format!("${number}"),
        }
    }

    /// What ends the making of a table.
    fn strict(self) -> &'static str {
        match self {
            Self::Sqlite => " STRICT",
            Self::Postgres => "",
        }
    }

    /// On a server texts are compared by their bytes, as a file compares them, and references
    /// are not checked again: `act` has checked them, and `verify` asks for all of them.
    fn column_definition(self, column: &Column) -> String {
        let mut out = format!("{} {}", quoted(column.name), self.type_of(column.kind));
        if self == Self::Postgres && self.type_of(column.kind) == "TEXT" {
            out.push_str(" COLLATE \"C\"");
        }
        if column.required {
            out.push_str(" NOT NULL");
        }
        if let (Kind::Row(other), Self::Sqlite) = (column.kind, self) {
            write!(out, " REFERENCES {}(id)", quoted(other)).expect("a string takes all");
        }
        out
    }
}

/// The table of the event chain.
pub(crate) fn create_event(dialect: Dialect) -> String {
    let [id, body, hash] = [Kind::Integer, Kind::Text, Kind::Blob].map(|k| dialect.type_of(k));
    let strict = dialect.strict();
    format!("CREATE TABLE event (id {id} PRIMARY KEY, body {body} NOT NULL, hash {hash} NOT NULL){strict}")
}

/// What makes `table` as version `version` declares it.
pub(crate) fn create_table(table: &Table, version: u32, dialect: Dialect) -> Vec<String> {
    let columns = table.columns.iter().filter(|c| c.since <= version);
    let integer = dialect.type_of(Kind::Integer);
    let mut out = vec![format!(
        "CREATE TABLE {} (\n  id {integer} PRIMARY KEY,\n  event {integer} NOT NULL,\n  {}\n){}",
        quoted(table.name),
        columns.map(|c| dialect.column_definition(c)).collect::<Vec<_>>().join(",\n  "),
        dialect.strict()
    )];
    out.extend(name_index(table, version));
    for column in table.index {
        out.push(format!(
            "CREATE INDEX {} ON {} ({})",
            quoted(&format!("{}_{column}", table.name)),
            quoted(table.name),
            quoted(column)
        ));
    }
    out
}

/// Columns of the index of names. Within one act a name is unique; between acts too, which `act` asks before it writes:
/// a name whose row counts no longer may be given again.
pub(crate) fn name_columns(table: &Table, version: u32) -> Vec<&'static str> {
    let event = (version >= UNDO).then_some("event");
    table.key.iter().copied().chain(event).collect()
}

fn name_index(table: &Table, version: u32) -> Option<String> {
    (!table.key.is_empty()).then(|| {
        format!(
            "CREATE UNIQUE INDEX {} ON {} ({})",
            quoted(&format!("{}_name", table.name)),
            quoted(table.name),
            commas(name_columns(table, version).iter().map(|c| quoted(c)))
        )
    })
}

/// What makes the index of names of an older `table` as version `version` has it.
pub(crate) fn name_index_anew(table: &Table, version: u32) -> Vec<String> {
    let drop = || format!("DROP INDEX {}", quoted(&format!("{}_name", table.name)));
    name_index(table, version).map_or_else(Vec::new, |index| vec![drop(), index])
}

/// What adds `column` to an older `table`.
pub(crate) fn add_column(table: &Table, column: &Column, dialect: Dialect) -> String {
    format!("ALTER TABLE {} ADD COLUMN {}", quoted(table.name), dialect.column_definition(column))
}

/// Views for people who open the file with other programs; amendments are not applied in them.
pub(crate) const VIEWS: &[&str] = &[
    "CREATE VIEW results_readable AS
SELECT r.id, b.label AS bottle, b.kind AS bottle_kind, w.name AS well, t.name AS trip,
  b.filled_at, m.analyte, m.isotopes, m.resolution, m.fraction, r.revision, r.state, r.censor,
  r.value, r.u, r.limit_value, r.unit, r.critical_value, r.detection_limit, r.upper_bound,
  r.reporting_limit, r.remark, r.laboratory, r.method, f.name AS file, r.file_row,
  (SELECT v.verdict FROM verdict v WHERE v.subject = r.subject ORDER BY v.revision DESC LIMIT 1)
    AS verdict
FROM result r
JOIN bottle b ON b.id = r.bottle
JOIN measurand m ON m.id = r.measurand
LEFT JOIN well w ON w.id = b.well
LEFT JOIN trip t ON t.id = b.trip
LEFT JOIN raw_file f ON f.id = r.raw_file",
    "CREATE VIEW findings_readable AS
SELECT f.id, s.key AS subject, f.revision, f.stage, f.check_name, f.outcome, f.sentence
FROM finding f JOIN subject s ON s.id = f.subject",
];

/// Views of a file for people who open it with other programs and would take a mean: what stands now, with what was taken
/// out, what is evidence and what is only a bound marked as such; by whom, when and why something was taken out.
/// Amendments are not applied in them. A server has none of them: nobody hands it on.
const FILE_VIEWS: [&str; 2] = [
    "CREATE VIEW exclusions_readable AS
SELECT x.id, COALESCE(b.label, vb.label) AS bottle, n.name AS run, v.position, x.isotope,
  CASE x.excluded WHEN 1 THEN 'out' ELSE 'back in' END AS which, x.why, p.name AS person,
  json_extract(e.body, '$.at') AS at, x.event
FROM exclusion x
LEFT JOIN bottle b ON b.id = x.bottle
LEFT JOIN vial v ON v.id = x.vial
LEFT JOIN bottle vb ON vb.id = v.bottle
LEFT JOIN run n ON n.id = v.run
LEFT JOIN person p ON p.id = x.person
JOIN event e ON e.id = x.event
WHERE NOT EXISTS (SELECT 1 FROM undone_rows u
  WHERE u.table_name = 'exclusion' AND x.id BETWEEN u.first_row AND u.last_row)",
    "CREATE VIEW results_current AS
SELECT s.*, CASE WHEN s.excluded IS NOT NULL THEN 'excluded'
  WHEN s.bottle_kind NOT IN ('sample', 'duplicate') THEN 'evidence'
  WHEN s.verdict = 'rejected' THEN 'rejected'
  WHEN s.bears = 'at-most' THEN 'upper bound' ELSE 'result' END AS counts_as
FROM (SELECT r.id AS result_row, b.label AS bottle, b.kind AS bottle_kind, w.name AS well, t.name AS trip,
  b.filled_at, m.analyte, m.isotopes, m.resolution, m.fraction, r.revision, r.state, r.censor,
  r.value, r.u, r.dof, r.limit_value, r.upper_bound, r.unit, r.critical_value, r.detection_limit,
  r.quantification_limit, r.reporting_limit, r.bears, r.remark, r.laboratory, r.method, f.name AS file, r.file_row, j.key AS subject,
  (SELECT v.verdict FROM verdict v WHERE v.subject = r.subject ORDER BY v.revision DESC LIMIT 1) AS verdict,
  (SELECT CASE x.excluded WHEN 1 THEN x.why END FROM exclusion x
    WHERE (x.bottle = r.bottle OR x.vial = r.vial) AND x.isotope IS NULL
    AND NOT EXISTS (SELECT 1 FROM undone_rows u
      WHERE u.table_name = 'exclusion' AND x.id BETWEEN u.first_row AND u.last_row)
    ORDER BY x.id DESC LIMIT 1) AS excluded
FROM result r
JOIN bottle b ON b.id = r.bottle
JOIN measurand m ON m.id = r.measurand
JOIN subject j ON j.id = r.subject
LEFT JOIN well w ON w.id = b.well
LEFT JOIN trip t ON t.id = b.trip
LEFT JOIN raw_file f ON f.id = r.raw_file
WHERE NOT EXISTS (SELECT 1 FROM undone_rows u
    WHERE u.table_name = 'result' AND r.id BETWEEN u.first_row AND u.last_row)
  AND NOT EXISTS (SELECT 1 FROM result q WHERE q.bottle = r.bottle AND q.measurand = r.measurand
    AND q.revision > r.revision AND NOT EXISTS (SELECT 1 FROM undone_rows u
      WHERE u.table_name = 'result' AND q.id BETWEEN u.first_row AND u.last_row))) s",
];

/// The views of a file, the dictionary last.
pub(crate) fn file_views() -> Vec<String> {
    FILE_VIEWS.iter().map(|v| (*v).to_owned()).chain([dictionary_view()]).collect()
}

/// Every table and column, what it holds, its unit and what it means, as a view without a table behind it. A version of
/// the schema that adds a column has to make it anew.
fn dictionary_view() -> String {
    let text = |t: &str| format!("'{}'", t.replace('\'', "''"));
    let mut rows = vec![];
    for table in schema::TABLES {
        rows.push(format!("({}, '', '', '', {})", text(table.name), text(table.about)));
        for column in table.columns {
            let unit = match column.unit {
                UnitOf::Fixed(unit) => unit.ucum.to_owned(),
                UnitOf::Column(name) => format!("({name})"),
                UnitOf::None => String::new(),
            };
            let holds = match column.kind {
                Kind::Text => "text".to_owned(),
                Kind::Word(words) => words.join(" | "),
                Kind::Integer => "whole number".to_owned(),
                Kind::Real => "number".to_owned(),
                Kind::Time => "date or time, ISO 8601".to_owned(),
                Kind::Unit => "unit, UCUM".to_owned(),
                Kind::Json => "JSON".to_owned(),
                Kind::Blob => "bytes".to_owned(),
                Kind::Row(other) => format!("row of {other}"),
            };
            let cells = [table.name, column.name, &holds, &unit, column.about].map(text);
            rows.push(format!("({})", cells.join(", ")));
        }
    }
    format!("CREATE VIEW dictionary (table_name, column_name, holds, unit, about) AS\nVALUES {}", rows.join(",\n  "))
}

/// Adds a row of `table`: id, event, and the columns whose bit is set in `filled`.
pub fn insert(table: &Table, filled: u64) -> String {
    let columns: Vec<_> =
        (0..).zip(table.columns).filter(|(place, _)| filled & (1 << place) != 0).map(|(_, c)| quoted(c.name)).collect();
    let places = (1..=columns.len() + 2).map(|n| format!("?{n}"));
    let columns = ["id".to_owned(), "event".to_owned()].into_iter().chain(columns);
    format!("INSERT INTO {} ({}) VALUES ({})", quoted(table.name), commas(columns), commas(places))
}

fn all_equal(columns: &[&str], dialect: Dialect) -> String {
    let term = |(i, c): (usize, &&str)| format!("{} = {}", quoted(c), dialect.place(i + 1));
    let terms: Vec<_> = columns.iter().enumerate().map(term).collect();
    if terms.is_empty() { "1 = 1".into() } else { terms.join(" AND ") }
}

/// The highest id of a table.
pub(crate) fn highest_id(table: &Table) -> String {
    format!("SELECT max(id) FROM {}", quoted(table.name))
}

/// The id of the row with these key values, where it counts; `undone`: the table has rows that do not.
pub fn find(table: &Table, undone: bool, dialect: Dialect) -> String {
    let counts = if undone { format!(" AND {}", counts(table, "t")) } else { String::new() };
    format!("SELECT id FROM {} t WHERE {}{counts}", quoted(table.name), all_equal(table.key, dialect))
}

/// Whether row `row` of the table counts: ranges of rows that do not neither touch nor overlap, so that the last one
/// which begins before it tells.
fn counts(table: &Table, row: &str) -> String {
    format!(
        "COALESCE((SELECT u.last_row FROM undone_rows u WHERE u.table_name = '{}' AND u.first_row <= {row}.id ORDER BY u.first_row DESC LIMIT 1), 0) < {row}.id",
        table.name
    )
}

/// The highest value of the last key column among rows with the other key values.
pub(crate) fn highest_in_key(table: &Table, dialect: Dialect) -> String {
    let (last, others) = table.key.split_last().expect("only tables with a key are asked");
    format!("SELECT max({}) FROM {} WHERE {}", quoted(last), quoted(table.name), all_equal(others, dialect))
}

/// A table, its amended columns read as amended; `listed`: without the rows that are read as others. A row referred to
/// is there also where it is read as another: what stands of its name then stands for good.
fn source(table: &Table, read_as: &ReadAs, dialect: Dialect, listed: bool) -> String {
    let is_amended = |c: &Column| read_as.amended.contains(&(table.name.to_owned(), c.name.to_owned()));
    let corrections = schema::table("amendment").expect("the record has amendments");
    let standing = if read_as.undone.contains(corrections.name) {
        format!(" AND {}", counts(corrections, "a"))
    } else {
        String::new()
    };
    let hides = listed && read_as.amended.contains(&(table.name.to_owned(), ROW.to_owned()));
    if !hides && !table.columns.iter().any(is_amended) {
        return quoted(table.name);
    }
    let columns = table.columns.iter().map(|c| {
        let name = quoted(c.name);
        if !is_amended(c) {
            return format!("t.{name}");
        }
        let of_it = format!(
            "FROM amendment a WHERE a.table_name = '{}' AND a.column_name = '{}' AND a.row_id = t.id{standing}",
            table.name, c.name
        );
        format!(
            "CASE WHEN EXISTS (SELECT 1 {of_it}) THEN CAST((SELECT a.new {of_it} ORDER BY a.id DESC LIMIT 1) AS {}) ELSE t.{name} END AS {name}",
            dialect.type_of(c.kind)
        )
    });
    let without = if hides {
        format!(
            " WHERE t.id NOT IN (SELECT a.row_id FROM amendment a WHERE a.table_name = '{}' AND a.column_name = '{ROW}'{standing})",
            table.name
        )
    } else {
        String::new()
    };
    format!("(SELECT t.id, t.event, {} FROM {} t{without})", commas(columns.collect::<Vec<_>>()), quoted(table.name))
}

/// Tables joined so far: for each path prefix its alias and table.
struct Joins<'a> {
    read_as: &'a ReadAs,
    dialect: Dialect,
    known: Vec<(String, &'static Table)>,
    text: String,
}

impl<'a> Joins<'a> {
    fn new(table: &'static Table, read_as: &'a ReadAs, dialect: Dialect) -> Self {
        let text = format!("{} j0", source(table, read_as, dialect, true));
        Self { read_as, dialect, known: vec![(String::new(), table)], text }
    }

    /// The column at the end of a path, joining what is on the way.
    fn column(&mut self, path: &str) -> Result<String, StoreError> {
        let (prefix, name) = path.rsplit_once('.').unwrap_or(("", path));
        let at = self.join(prefix)?;
        let table = self.known[at].1;
        if name != "id" && name != "event" && table.place(name).is_none() {
            return Err(unknown(table, name));
        }
        Ok(format!("j{at}.{}", quoted(name)))
    }

    fn join(&mut self, prefix: &str) -> Result<usize, StoreError> {
        if let Some(at) = self.known.iter().position(|(p, _)| p == prefix) {
            return Ok(at);
        }
        let (before, name) = prefix.rsplit_once('.').unwrap_or(("", prefix));
        let from = self.join(before)?;
        let table = self.known[from].1;
        let place = table.place(name).ok_or_else(|| unknown(table, name))?;
        let Kind::Row(other) = table.columns[place].kind else {
            return Err(unknown(table, name));
        };
        let other = schema::table(other).expect("the schema refers to its own tables");
        let at = self.known.len();
        let source = source(other, self.read_as, self.dialect, false);
        write!(self.text, " LEFT JOIN {source} j{at} ON j{at}.id = j{from}.{}", quoted(name))
            .expect("a string takes all");
        self.known.push((prefix.to_owned(), other));
        Ok(at)
    }
}

fn unknown(table: &Table, column: &str) -> StoreError {
    StoreError::UnknownColumn { table: table.name.into(), column: column.into() }
}

/// A read; its parameters are the filter's values that are not null, in order.
pub fn select(query: &Query, read_as: &ReadAs, dialect: Dialect) -> Result<String, StoreError> {
    let mut joins = Joins::new(query.table, read_as, dialect);
    let mut columns = vec![];
    for path in query.paths {
        columns.push(joins.column(path)?);
    }
    let mut terms = vec![];
    let mut parameters = 0;
    for (path, value) in &query.filter.equal {
        let column = joins.column(path)?;
        // In SQL nothing equals NULL, not even NULL.
        if *value == Cell::Null {
            terms.push(format!("{column} IS NULL"));
        } else {
            parameters += 1;
            terms.push(format!("{column} = {}", dialect.place(parameters)));
        }
    }
    for path in &query.filter.present {
        terms.push(format!("{} IS NOT NULL", joins.column(path)?));
    }
    if let Some(after) = query.filter.after {
        terms.push(format!("j0.id > {after}"));
    }
    // Rows that others refer to count where those do (`undo`), so that only the table itself is asked.
    let undone = read_as.undone.contains(query.table.name);
    if undone {
        terms.push(counts(query.table, "j0"));
    }
    if query.filter.latest {
        terms.extend(latest(query.table, undone));
    }
    let mut out = format!("SELECT {} FROM {}", commas(columns), joins.text);
    if !terms.is_empty() {
        write!(out, " WHERE {}", terms.join(" AND ")).expect("a string takes all");
    }
    out.push_str(" ORDER BY j0.id");
    if let Some(limit) = query.filter.limit {
        write!(out, " LIMIT {limit}").expect("a string takes all");
    }
    Ok(out)
}

/// No row of the same name with a higher last key column that counts.
fn latest(table: &Table, undone: bool) -> Option<String> {
    let (last, others) = table.key.split_last()?;
    let same = others.iter().map(|c| {
        let c = quoted(c);
        format!("n.{c} = j0.{c} AND ")
    });
    let last = quoted(last);
    let counts = if undone { format!(" AND {}", counts(table, "n")) } else { String::new() };
    Some(format!(
        "NOT EXISTS (SELECT 1 FROM {} n WHERE {}n.{last} > j0.{last}{counts})",
        quoted(table.name),
        same.collect::<String>()
    ))
}
