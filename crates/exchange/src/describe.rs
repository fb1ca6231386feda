//! The descriptions of a package: `datapackage.json` (Frictionless Data Package with a Table Schema for
//! each table, version 1 of the specifications) and `ro-crate-metadata.json` (RO-Crate 1.2).
//!
//! Table Schema of the record: types, required, words, primary key `id`, a foreign key for each
//! reference; unit as `unit` (UCUM code) or `unitColumn` (the column that holds it), both beyond the
//! specification, which lets a field have more members. Words stand as they do in the cells, defused.
//! An RO-Crate must have a date and a licence: the date is that of the last act; where nobody states a
//! licence it says so.

use crate::folder::Entry;
use crate::tables::{BOTTLES, EVENTS, FINDINGS, Field, Readable};
use crate::write::Options;
use crate::{Error, FORMAT, cell, results, whole_record};
use assessment::engine::DERIVED_BY;
use record::schema::{Column, Kind, TABLES, Table, UnitOf};
use record::store::{Event, Store, VERSIONS};
use serde_json::{Map, Value, json};

/// Name of the description as a data package.
pub const DATA_PACKAGE: &str = "datapackage.json";

/// Name of the description as an RO-Crate.
pub const RO_CRATE: &str = "ro-crate-metadata.json";

/// The tables for people.
pub const READABLE: [&Readable; 4] = [&results::RESULTS, &FINDINGS, &BOTTLES, &EVENTS];

/// What the package says of itself as a whole.
pub struct Whole {
    title: String,
    description: String,
    head: String,
    events: Vec<Event>,
    persons: Vec<(String, Option<String>)>,
    schema: u32,
}

impl Whole {
    /// Reads it from the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let sites = store.sites()?;
        let names: Vec<&str> = sites.iter().map(|s| s.name.as_str()).collect();
        let title = match names.as_slice() {
            [] => "Measurements of well water".to_owned(),
            names => format!("Measurements of the water of {}", names.join(", ")),
        };
        let invented = sites.iter().any(|s| s.invented == Some(true));
        let description = format!(
            "{}Results with value, uncertainty, unit, limits, blanks and verdict; the record that they stand on, whole; the raw files; provenance. Only what was measured is in it: microbes are not, and nothing in it says that the water may be drunk.",
            if invented { "INVENTED DATA: the site does not exist. " } else { "" }
        );
        let mut persons: Vec<(String, Option<String>)> =
            store.persons()?.into_iter().map(|p| (p.name, p.role)).collect();
        let events = store.events()?;
        for e in &events {
            if !persons.iter().any(|p| p.0 == e.author) {
                persons.push((e.author.clone(), None));
            }
        }
        let head = store.head()?.map_or_else(String::new, |h| h.to_string());
        Ok(Self { title, description, head, events, persons, schema: VERSIONS.last().map_or(0, |v| v.0) })
    }

    /// What the record is of.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// In a sentence or two.
    pub fn description(&self) -> &str {
        &self.description
    }

    /// Head hash of the record.
    pub fn head(&self) -> &str {
        &self.head
    }

    /// How many acts.
    pub fn events(&self) -> usize {
        self.events.len()
    }

    /// Names of the persons.
    pub fn names(&self) -> Vec<&str> {
        self.persons.iter().map(|p| p.0.as_str()).collect()
    }

    /// Whether everybody with an identifier is on record.
    ///
    /// # Errors
    /// [`Error::NoPerson`].
    pub fn knows(&self, identifiers: &[(String, String)]) -> Result<(), Error> {
        let names = || self.persons.iter().map(|p| p.0.clone());
        match identifiers.iter().find(|i| names().all(|n| n != i.0)) {
            None => Ok(()),
            Some((name, _)) => Err(Error::NoPerson { name: name.clone(), known: names().collect() }),
        }
    }

    /// Time of the last act. An RO-Crate must have a date; a record without any act has none to give.
    pub fn date(&self) -> &str {
        self.events.last().map_or("1970-01-01", |e| e.at.as_str())
    }
}

/// The description as a data package, of the files so far.
pub fn data_package(whole: &Whole, files: &[Entry], options: &Options) -> Value {
    let resources: Vec<Value> = files.iter().map(resource).collect();
    let mut out = json!({
        "profile": "data-package",
        "name": "limpid-record",
        "title": whole.title,
        "description": whole.description,
        "contributors": contributors(whole, options),
        "resources": resources,
        "limpid": {
            "format": FORMAT,
            "schema": whole.schema,
            "head": whole.head,
            "events": whole.events.len(),
            "engine": DERIVED_BY,
        },
    });
    if let Some(at) = crate::provenance::date_time(whole.date()).filter(|t| t.len() > 19) {
        out["created"] = json!(at);
    }
    if let Some(licence) = &options.licence {
        let key = if licence.contains("://") { "path" } else { "name" };
        out["licenses"] = json!([{ key: licence }]);
    }
    if let Some(publisher) = &options.publisher {
        out["limpid"]["publisher"] = json!(publisher);
    }
    out
}

/// The publisher, where one is named, and the persons of the record.
fn contributors(whole: &Whole, options: &Options) -> Vec<Value> {
    let publisher = options.publisher.iter().map(|p| json!({"title": p, "role": "publisher"}));
    let person = |p: &(String, Option<String>)| {
        let mut out = json!({"title": p.0, "role": "contributor"});
        if let Some(address) = identifier(options, &p.0) {
            out["path"] = json!(address);
        }
        out
    };
    publisher.chain(whole.persons.iter().map(person)).collect()
}

fn identifier<'a>(options: &'a Options, name: &str) -> Option<&'a str> {
    options.identifiers.iter().find(|i| i.0 == name).map(|i| i.1.as_str())
}

/// What a description says that its record does not: licence, publisher, identifiers of persons.
pub fn stated(about: &Value) -> Options {
    let text = |v: &Value| v.as_str().map(str::to_owned);
    let licence = ["path", "name"].into_iter().find_map(|k| text(&about["licenses"][0][k]));
    let contributors = about["contributors"].as_array().map_or(&[][..], Vec::as_slice);
    let identifiers = contributors.iter().filter_map(|c| Some((text(&c["title"])?, text(&c["path"])?))).collect();
    Options { licence, publisher: text(&about["limpid"]["publisher"]), identifiers }
}

fn resource(file: &Entry) -> Value {
    let mut out = json!({
        "name": file.path.to_ascii_lowercase().replace('/', "-"),
        "path": file.path,
        "description": file.about,
        "mediatype": file.media_type,
        "bytes": file.bytes,
        "hash": format!("sha256:{}", file.sha256),
        "blake3": file.blake3,
        // What is no table of ours is not to be read as one: raw files have forms of their own.
        "type": "file",
    });
    if let Some(schema) = table_schema(&file.path) {
        out["type"] = json!("table");
        out["profile"] = json!("tabular-data-resource");
        out["format"] = json!("csv");
        out["encoding"] = json!("utf-8");
        out["schema"] = schema;
        out["dialect"] = json!({
            "delimiter": ",", "lineTerminator": "\r\n", "quoteChar": "\"", "doubleQuote": true,
            "skipInitialSpace": false, "header": true,
        });
    }
    out
}

fn name_of(path: &str) -> String {
    path.replace('/', "-")
}

/// The Table Schema of a file of the package, where it is a table.
pub fn table_schema(path: &str) -> Option<Value> {
    if let Some(table) = READABLE.iter().find(|t| path == format!("{}.csv", t.name)) {
        return Some(readable_schema(table));
    }
    if path == whole_record::path("event") {
        return Some(event_schema());
    }
    if path == whole_record::path(crate::nodes::TABLE) {
        return Some(node_schema());
    }
    TABLES.iter().find(|t| path == whole_record::path(t.name)).map(record_schema)
}

fn readable_schema(table: &Readable) -> Value {
    let key = |name: &str, to: &str, column: &str| json!({"fields": name, "reference": {"resource": format!("{to}.csv"), "fields": column}});
    let mut out = json!({
        "fields": table.fields.iter().map(|f| readable_field(f, table.key)).collect::<Vec<_>>(),
        "missingValues": [""],
    });
    if !table.key.is_empty() {
        out["primaryKey"] = json!(table.key);
    }
    if !table.refers.is_empty() {
        out["foreignKeys"] = table.refers.iter().map(|(name, to, column)| key(name, to, column)).collect();
    }
    out
}

fn readable_field(f: &Field, key: &str) -> Value {
    let kind = match f.kind {
        columns::Kind::Text => "string",
        columns::Kind::Whole => "integer",
        columns::Kind::Number => "number",
    };
    let mut out = json!({"name": f.name, "type": kind, "description": f.about});
    if !f.unit.is_empty() {
        out["unit"] = json!(f.unit);
    }
    if !f.unit_from.is_empty() {
        out["unitColumn"] = json!(f.unit_from);
    }
    constrain(&mut out, f.required, f.name == key, f.words);
    out
}

fn constrain(field: &mut Value, required: bool, unique: bool, words: &[&str]) {
    let mut constraints = Map::new();
    if required {
        constraints.insert("required".into(), json!(true));
    }
    if unique {
        constraints.insert("unique".into(), json!(true));
    }
    if !words.is_empty() {
        constraints.insert("enum".into(), words.iter().map(|w| cell::defused(w)).collect());
    }
    if !constraints.is_empty() {
        field["constraints"] = Value::Object(constraints);
    }
}

fn id_field() -> Value {
    json!({"name": "id", "type": "integer", "description": "Row", "constraints": {"required": true, "unique": true}})
}

fn event_schema() -> Value {
    json!({
        "fields": [
            id_field(),
            {"name": "body", "type": "string", "description": "Canonical JSON (RFC 8785) of the act: what, who, when, and digests of the rows that it wrote", "constraints": {"required": true}},
            {"name": "hash", "type": "string", "description": "BLAKE3 of the hash before and the body", "constraints": {"required": true}},
        ],
        "missingValues": [""],
        "primaryKey": "id",
    })
}

fn node_schema() -> Value {
    let node = "JSON of a node, as it stands in the bodies of derivations that have its number";
    json!({
        "fields": [
            id_field(),
            {"name": "node", "type": "string", "description": node, "constraints": {"required": true}},
        ],
        "missingValues": [""],
        "primaryKey": "id",
    })
}

fn record_schema(table: &Table) -> Value {
    let refers = |name: &str, to: &str| {
        let resource = if to == table.name { String::new() } else { name_of(&whole_record::path(to)) };
        json!({"fields": name, "reference": {"resource": resource, "fields": "id"}})
    };
    let mut fields = vec![
        id_field(),
        json!({"name": "event", "type": "integer", "description": "Act that wrote the row", "constraints": {"required": true}}),
    ];
    let mut keys = vec![refers("event", "event")];
    for (place, column) in table.columns.iter().enumerate() {
        fields.push(record_field(table, place, column));
        if let Kind::Row(other) = column.kind {
            keys.push(refers(column.name, other));
        }
    }
    if table.name == "raw_file" {
        fields.push(json!({"name": "path", "type": "string", "description": "Where in this package the file stands"}));
    }
    let mut out = json!({"fields": fields, "missingValues": [""], "primaryKey": "id", "foreignKeys": keys});
    if table.key.len() > 1 {
        out["uniqueKeys"] = json!([table.key]);
    }
    out
}

/// The kind of a column as row digests take it, beyond what the types of a Table Schema tell apart.
fn kind_of(kind: Kind) -> &'static str {
    match kind {
        Kind::Integer => "integer",
        Kind::Row(_) => "row",
        Kind::Real => "real",
        Kind::Blob => "bytes",
        Kind::Text | Kind::Word(_) | Kind::Time | Kind::Unit | Kind::Json => "text",
    }
}

fn record_field(table: &Table, place: usize, column: &Column) -> Value {
    if whole_record::is_raw_bytes(table, place) {
        return json!({"name": "size", "type": "integer", "description": "Bytes of the part, which stand in raw/", "kind": "raw bytes", "unit": whole_record::UNIT_OF_BYTES});
    }
    let kind = match column.kind {
        Kind::Integer | Kind::Row(_) => "integer",
        Kind::Real => "number",
        _ => "string",
    };
    let mut out = json!({"name": column.name, "type": kind, "description": column.about, "kind": kind_of(column.kind)});
    match column.unit {
        UnitOf::Fixed(unit) => out["unit"] = json!(unit.ucum),
        UnitOf::Column(name) => out["unitColumn"] = json!(name),
        UnitOf::None => {}
    }
    let words = if let Kind::Word(words) = column.kind { words } else { &[] };
    constrain(&mut out, column.required, table.key == [column.name], words);
    out
}

/// The description as an RO-Crate, of the files so far.
pub fn ro_crate(whole: &Whole, files: &[Entry], options: &Options) -> Value {
    let id = |id: &str| json!({"@id": id});
    let parts: Vec<Value> = files.iter().map(|f| id(&at(&f.path))).collect();
    let person_id =
        |n: usize, name: &str| identifier(options, name).map_or_else(|| format!("#person-{n}"), str::to_owned);
    let people: Vec<Value> = (1..).zip(&whole.persons).map(|(n, p)| id(&person_id(n, &p.0))).collect();
    let (licence, licence_entity) = licence(options);
    let (publisher, publisher_entity) = match &options.publisher {
        Some(name) => (id("#publisher"), Some(json!({"@id": "#publisher", "@type": "Organization", "name": name}))),
        // Nobody named one: those who made the record give it out.
        None => (json!(people), None),
    };
    let mut graph = vec![
        json!({
            "@id": RO_CRATE, "@type": "CreativeWork",
            "conformsTo": id("https://w3id.org/ro/crate/1.2"), "about": id("./"),
        }),
        json!({
            "@id": "./", "@type": "Dataset",
            "name": whole.title, "description": whole.description,
            "datePublished": whole.date(), "license": licence,
            "identifier": format!("urn:limpid:record:{}", whole.head),
            "hasPart": parts, "contributor": people, "author": people, "publisher": publisher,
            "creator": id("#limpid"), "mentions": id("#export"),
        }),
        json!({
            "@id": "#limpid", "@type": "SoftwareApplication", "name": "Limpid", "version": DERIVED_BY,
            // An address that names the version and leads nowhere: the program has no page of its own.
            "url": format!("urn:limpid:engine:{}", crate::observations::percent(DERIVED_BY)),
            "description": "Keeps the case for each number: from the sentence in the report back to the counts on the detector",
        }),
        json!({
            "@id": "#export", "@type": "CreateAction", "name": "Export of the record",
            "description": "Provenance of each result in W3C PROV terms stands in provenance.json",
            "endTime": whole.date(), "instrument": id("#limpid"), "result": id("./"),
        }),
    ];
    graph.extend(licence_entity);
    graph.extend(publisher_entity);
    graph.push(json!({"@id": "https://w3id.org/ro/crate/1.2", "@type": "CreativeWork", "name": "RO-Crate 1.2", "version": "1.2"}));
    for (n, (name, role)) in (1..).zip(&whole.persons) {
        let mut person = json!({"@id": person_id(n, name), "@type": "Person", "name": name});
        if let Some(role) = role {
            person["description"] = json!(role);
        }
        graph.push(person);
    }
    graph.extend(files.iter().map(file_entity));
    json!({
        "@context": ["https://w3id.org/ro/crate/1.2/context", context()],
        "@graph": graph,
    })
}

/// Every term of the crate with its address, so that it can be read where the published context no longer answers.
pub fn context() -> Value {
    let mut out = json!({"conformsTo": "http://purl.org/dc/terms/conformsTo", "blake3": "urn:limpid:blake3",
        "File": "http://schema.org/MediaObject"});
    for term in [
        "CreativeWork",
        "Dataset",
        "SoftwareApplication",
        "CreateAction",
        "Person",
        "Organization",
        "about",
        "name",
        "description",
        "datePublished",
        "license",
        "identifier",
        "hasPart",
        "contributor",
        "author",
        "publisher",
        "creator",
        "mentions",
        "version",
        "url",
        "endTime",
        "instrument",
        "result",
        "encodingFormat",
        "contentSize",
        "additionalType",
        "sha256",
    ] {
        out[term] = json!(format!("http://schema.org/{term}"));
    }
    out
}

/// A path as an identifier: relative, and what an IRI does not take encoded.
fn at(path: &str) -> String {
    path.split('/').map(crate::observations::percent).collect::<Vec<_>>().join("/")
}

fn file_entity(f: &Entry) -> Value {
    let mut out = json!({
        "@id": at(&f.path), "@type": "File", "name": f.path, "description": f.about,
        "encodingFormat": f.media_type, "contentSize": f.bytes.to_string(),
        "sha256": f.sha256, "blake3": f.blake3,
    });
    if f.path.starts_with(crate::RAW) {
        out["additionalType"] = json!("raw file");
    }
    out
}

/// The licence as the crate refers to it, and its entity.
fn licence(options: &Options) -> (Value, Option<Value>) {
    let entity = |id: &str, name: &str, about: &str| json!({"@id": id, "@type": "CreativeWork", "name": name, "description": about});
    match options.licence.as_deref() {
        Some(url) if url.contains("://") => {
            (json!({"@id": url}), Some(entity(url, url, "Licence of this data package, as its holders state it")))
        }
        Some(name) => (
            json!({"@id": "#licence"}),
            Some(entity("#licence", name, "Licence of this data package, as its holders state it")),
        ),
        None => {
            let about = "The holders of the record have stated no licence: ask them before reuse";
            (json!({"@id": "#licence"}), Some(entity("#licence", "No licence stated", about)))
        }
    }
}
