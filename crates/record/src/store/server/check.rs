//! Is the schema on the server what the program made? Tables, columns, types, indexes, views, and
//! nothing beside them that would change what is read or written (triggers, rules, row security);
//! then whether each reference has its row.
//!
//! The text of a view is compared with the same view made for the moment; where the role may not
//! make one, only its presence is looked at. Pages and indexes of the server are its own affair
//! (checksums, `amcheck`): every row is read and compared with its digest all the same.

use super::{Link, Server, VERSION_TABLE};
use crate::schema::{Kind, TABLES};
use crate::store::StoreError;
use crate::store::migrate::VERSION_OF_VIEWS;
use crate::store::sql::{self, Dialect, quoted};
use crate::store::verify::Difference;
use std::collections::BTreeMap;

/// What stands in a schema: for each name its kind and what describes it.
type Objects = BTreeMap<String, (&'static str, String)>;

pub(super) fn check(server: &Server) -> Result<Vec<Difference>, StoreError> {
    let expected = expected(server.version);
    let found = server.with("checking", |link, at| objects(link, &at.schema))?;
    let mut out = vec![];
    let mut tell = |object: &str, detail: String| out.push(Difference::Schema { object: object.into(), detail });
    for (name, (kind, text)) in &expected {
        match found.get(name) {
            Some((k, t)) if k == kind && t == text => {}
            Some(_) | None => tell(name, "is missing or altered".into()),
        }
    }
    for (name, (kind, _)) in &found {
        if !expected.contains_key(name) {
            tell(name, format!("a {kind} that the record does not have"));
        }
    }
    for name in server.with("checking", |link, _| altered_views(link))? {
        tell(&name, "is missing or altered".into());
    }
    // References within tables that are as they should be, all in one question.
    let whole = |name: &str| expected.get(name) == found.get(name);
    let mut questions = vec![];
    for table in TABLES.iter().filter(|t| t.since() <= server.version && whole(t.name)) {
        for column in table.columns.iter().filter(|c| c.since <= server.version) {
            if let Kind::Row(other) = column.kind
                && whole(other)
            {
                questions.push(format!(
                    "(SELECT '{}', t.id, '{other}' FROM {} t WHERE t.{c} IS NOT NULL AND NOT EXISTS (SELECT 1 FROM {} o WHERE o.id = t.{c}) ORDER BY t.id LIMIT 1000)",
                    table.name,
                    quoted(table.name),
                    quoted(other),
                    c = quoted(column.name)
                ));
            }
        }
    }
    if questions.is_empty() {
        return Ok(out);
    }
    let text = questions.join(" UNION ALL ");
    for row in server.with("checking", |link, _| link.client.query(&text, &[]))? {
        out.push(Difference::Dangling { table: row.get(0), row: row.get(1), refers_to: row.get(2) });
    }
    Ok(out)
}

/// A column as the server describes it: name, type, whether it may be empty.
fn column(name: &str, kind: Kind, required: bool) -> String {
    let ty = Dialect::Postgres.type_of(kind).to_lowercase();
    let collation = if ty == "text" { " C" } else { "" };
    format!("{name} {ty}{collation}{}", if required { " not null" } else { "" })
}

fn expected(version: u32) -> Objects {
    let mut out = Objects::new();
    let primary = |name: &str| (format!("{name}_pkey"), ("index", format!("unique {name} (id)")));
    out.insert(VERSION_TABLE.into(), ("table", column("version", Kind::Integer, true)));
    let event = [("id", Kind::Integer), ("body", Kind::Text), ("hash", Kind::Blob)];
    // The body of an event is only ever read whole.
    let event: Vec<_> = event.iter().map(|(n, k)| column(n, *k, true).replace(" C", "")).collect();
    out.insert("event".into(), ("table", event.join(", ")));
    out.extend([primary("event")]);
    for table in TABLES.iter().filter(|t| t.since() <= version) {
        let own = table.columns.iter().filter(|c| c.since <= version).map(|c| column(c.name, c.kind, c.required));
        let first = ["id", "event"].map(|n| column(n, Kind::Integer, true));
        let columns: Vec<_> = first.into_iter().chain(own).collect();
        out.insert(table.name.into(), ("table", columns.join(", ")));
        out.extend([primary(table.name)]);
        if !table.key.is_empty() {
            let text = format!("unique {} ({})", table.name, sql::name_columns(table, version).join(", "));
            out.insert(format!("{}_name", table.name), ("index", text));
        }
        for column in table.index {
            out.insert(format!("{}_{column}", table.name), ("index", format!("{} ({column})", table.name)));
        }
    }
    if version >= VERSION_OF_VIEWS {
        out.extend(views().map(|(name, _)| (name.to_owned(), ("view", String::new()))));
    }
    out
}

/// Name and text of the views.
fn views() -> impl Iterator<Item = (&'static str, &'static str)> {
    sql::VIEWS.iter().filter_map(|v| v.strip_prefix("CREATE VIEW ")?.split_once(" AS"))
}

const COLUMNS: &str = "SELECT c.relname::text, string_agg(a.attname || ' ' || format_type(a.atttypid, a.atttypmod) ||
    CASE WHEN l.collname IS NULL OR l.collname = 'default' THEN '' ELSE ' ' || l.collname END ||
    CASE WHEN a.attnotnull THEN ' not null' ELSE '' END, ', ' ORDER BY a.attnum)
  FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
  JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
  LEFT JOIN pg_collation l ON l.oid = a.attcollation
  WHERE n.nspname = $1 AND c.relkind = 'r' GROUP BY 1";

const INDEXES: &str = "SELECT i.relname::text, CASE WHEN x.indisunique THEN 'unique ' ELSE '' END || t.relname || ' (' ||
    (SELECT string_agg(CASE WHEN k.attnum = 0 THEN '?' ELSE a.attname END, ', ' ORDER BY k.place)
     FROM unnest(x.indkey) WITH ORDINALITY k(attnum, place) LEFT JOIN pg_attribute a ON a.attrelid = t.oid AND a.attnum = k.attnum)
    || ')' || CASE WHEN x.indpred IS NULL AND x.indisvalid THEN '' ELSE ' in part' END
  FROM pg_index x JOIN pg_class i ON i.oid = x.indexrelid JOIN pg_class t ON t.oid = x.indrelid
  JOIN pg_namespace n ON n.oid = t.relnamespace WHERE n.nspname = $1";

const OTHERS: &str = "SELECT c.relname::text, c.relkind::text FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
  WHERE n.nspname = $1 AND c.relkind NOT IN ('r', 'i', 't')
  UNION ALL SELECT g.tgname::text, 'trigger' FROM pg_trigger g JOIN pg_class c ON c.oid = g.tgrelid
  JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = $1 AND NOT g.tgisinternal
  UNION ALL SELECT r.rulename::text, 'rule' FROM pg_rewrite r JOIN pg_class c ON c.oid = r.ev_class
  JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = $1 AND r.rulename <> '_RETURN'
  UNION ALL SELECT k.conname::text, 'constraint' FROM pg_constraint k JOIN pg_namespace n ON n.oid = k.connamespace
  WHERE n.nspname = $1 AND k.contype NOT IN ('p', 'n')
  UNION ALL SELECT 'row security of ' || c.relname, 'policy' FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
  WHERE n.nspname = $1 AND c.relrowsecurity";

fn objects(link: &mut Link, schema: &str) -> Result<Objects, postgres::Error> {
    let mut out = Objects::new();
    for (kind, text) in [("table", COLUMNS), ("index", INDEXES)] {
        for row in link.client.query(text, &[&schema])? {
            out.insert(row.get(0), (kind, row.get(1)));
        }
    }
    for row in link.client.query(OTHERS, &[&schema])? {
        let kind = match row.get::<_, &str>(1) {
            "v" => "view",
            "trigger" => "trigger",
            "rule" => "rule",
            "constraint" => "constraint",
            "policy" => "policy",
            _ => "relation",
        };
        out.insert(row.get(0), (kind, String::new()));
    }
    Ok(out)
}

/// Views whose text is not what the same sentence makes now.
fn altered_views(link: &mut Link) -> Result<Vec<String>, postgres::Error> {
    let mut out = vec![];
    for (name, text) in views() {
        let there = link.client.query_one("SELECT to_regclass($1) IS NOT NULL", &[&name])?;
        if !there.get::<_, bool>(0) {
            // Told as missing already, or of a version before the views.
            continue;
        }
        let twin = format!("{name}_as_made");
        let mut transaction = link.client.transaction()?;
        let made = transaction.batch_execute(&format!("CREATE TEMP VIEW {twin} AS{text}"));
        if let Err(error) = made {
            if error.code().is_some_and(|c| c.code() == "42501") {
                continue;
            }
            // A column that the view speaks of is gone or of another type.
            out.push(name.to_owned());
            continue;
        }
        let same = transaction.query_one(
            "SELECT pg_get_viewdef($1::text::regclass) = pg_get_viewdef($2::text::regclass)",
            &[&name, &twin],
        )?;
        if !same.get::<_, bool>(0) {
            out.push(name.to_owned());
        }
        transaction.rollback()?;
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_fit_the_server() {
        // A server cuts names at 63 bytes (NAMEDATALEN; from memory).
        let names = expected(crate::store::migrate::current_version());
        assert!(names.keys().all(|n| n.len() < 63));
        assert_eq!(views().count(), sql::VIEWS.len());
    }
}
