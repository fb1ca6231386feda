//! Where every result comes from: `provenance.json`, PROV-JSON (W3C member submission of 2013) with the
//! terms of W3C PROV-DM.
//!
//! raw file → (act of import) → counts of a run → (act of reduction) → derivation → result, with the
//! people who did each act and the program's version as agents. A result that a laboratory reported as
//! a concentration was derived from its raw file. Entities and acts are numbered as the rows of
//! `record/`: `rec:result/12` is row 12 of `record/result.csv`.

use crate::Error;
use crate::cell::push_whole;
use crate::folder::{Folder, Sink};
use crate::observations::quoted;
use crate::results::One;
use record::store::{Event, Filter, RowRead, Store, StoreError, Typed};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// Name of the file.
pub const FILE: &str = "provenance.json";

/// Bytes gathered before they go to the file.
const GATHER: usize = 1 << 16;

/// A derivation and its result, without its body.
struct Derived(i64, i64);

impl Typed for Derived {
    const TABLE: &'static str = "derivation";
    const PATHS: &'static [&'static str] = &["id", "result"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(0)?, row.get(1)?))
    }
}

/// A reading's run and raw file.
struct Read(i64, Option<i64>);

impl Typed for Read {
    const TABLE: &'static str = "reading";
    const PATHS: &'static [&'static str] = &["id", "vial.run", "raw_file"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(1)?, row.get(2)?))
    }
}

/// A vial's run.
struct VialRun(i64, i64);

impl Typed for VialRun {
    const TABLE: &'static str = "vial";
    const PATHS: &'static [&'static str] = &["id", "run"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(0)?, row.get(1)?))
    }
}

/// A result's links.
struct Link {
    result: i64,
    event: i64,
    vial: Option<i64>,
    file: Option<i64>,
}

/// The file in the making.
pub struct Provenance {
    sink: Sink,
    out: Vec<u8>,
    first: bool,
    links: Vec<Link>,
    derivations: HashMap<i64, i64>,
}

impl Provenance {
    /// Begins the file.
    ///
    /// # Errors
    /// It cannot be made; the store cannot be read.
    pub fn begin(store: &Store, folder: &Folder) -> Result<Self, Error> {
        let head = store.head()?.map_or_else(|| "none".into(), |h| h.to_string());
        let prefix = json!({"rec": format!("urn:limpid:record:{head}:"), "schema": "https://schema.org/"});
        let derivations = store.list::<Derived>(&Filter::all())?.into_iter().map(|d| (d.1, d.0)).collect();
        let out = format!("{{\"prefix\":{prefix},\n\"entity\":{{").into_bytes();
        Ok(Self { sink: folder.file(FILE)?, out, first: true, links: vec![], derivations })
    }

    fn next(&mut self) -> Result<(), Error> {
        if self.out.len() > GATHER {
            self.sink.all(&self.out)?;
            self.out.clear();
        }
        if !std::mem::take(&mut self.first) {
            self.out.push(b',');
        }
        self.out.push(b'\n');
        Ok(())
    }

    /// Adds a result.
    ///
    /// # Errors
    /// The disk refuses.
    pub fn add(&mut self, one: &One) -> Result<(), Error> {
        self.next()?;
        name(&mut self.out, "result", one.id);
        self.out.extend(b":{\"prov:label\":");
        quoted(&mut self.out, &one.listed.result.to_string());
        self.out.push(b'}');
        self.links.push(Link { result: one.id, event: one.event, vial: one.vial, file: one.file });
        Ok(())
    }

    /// Ends the file with what the results come from.
    ///
    /// # Errors
    /// The store cannot be read, the disk refuses.
    pub fn end(mut self, store: &Store, folder: &Folder) -> Result<(), Error> {
        let events = store.events()?;
        let agents = agents(&events);
        let mut counts: BTreeMap<i64, BTreeSet<i64>> = store.runs()?.iter().map(|r| (r.id, BTreeSet::new())).collect();
        store.each(&Filter::all(), |r: Read| {
            counts.entry(r.0).or_default().extend(r.1);
            Ok(())
        })?;
        self.entities(store, &counts)?;
        self.section("activity");
        self.each(events.iter().map(activity))?;
        self.each(store.runs()?.iter().map(|r| {
            let label = format!("instrument session {}", r.name);
            (
                format!("rec:run/{}", r.id),
                timed(json!({"prov:label": label}), "prov:startTime", r.started_at.as_deref()),
            )
        }))?;
        self.section("agent");
        self.each(agents.iter().map(|(name, id)| (id.clone(), agent(name, id))))?;
        self.section("wasAssociatedWith");
        self.each(events.iter().flat_map(|e| associated(e, &agents)))?;
        self.generated(&counts)?;
        self.derived(store, &counts)?;
        self.out.extend(b"}}\n");
        self.sink.all(&self.out)?;
        folder.keep(
            self.sink,
            "application/json",
            "Provenance of every result in W3C PROV terms (PROV-JSON): raw file, run, derivation, result; acts and agents.",
        )
    }

    fn section(&mut self, name: &str) {
        self.out.extend(format!("}},\n\"{name}\":{{").into_bytes());
        self.first = true;
    }

    fn each(&mut self, members: impl Iterator<Item = (String, Value)>) -> Result<(), Error> {
        for (id, value) in members {
            self.next()?;
            quoted(&mut self.out, &id);
            self.out.push(b':');
            self.out.extend(value.to_string().into_bytes());
        }
        Ok(())
    }

    /// Files, counts and derivations beside the results.
    fn entities(&mut self, store: &Store, counts: &BTreeMap<i64, BTreeSet<i64>>) -> Result<(), Error> {
        let files = store.raw_files()?;
        self.each(files.iter().map(|f| {
            let path = crate::whole_record::raw_path(f.id, &f.name);
            let value =
                json!({"prov:label": f.name, "prov:atLocation": path, "rec:blake3": crate::folder::hex(&f.hash)});
            (format!("rec:raw_file/{}", f.id), value)
        }))?;
        self.each(counts.keys().map(|run| (format!("rec:counts/{run}"), json!({"prov:label": "counts of a run"}))))?;
        let recipes: BTreeMap<i64, String> = store
            .runs()?
            .into_iter()
            .filter_map(|r| Some((r.recipe_id?, format!("recipe {}", r.recipe.unwrap_or_default()))))
            .collect();
        self.each(recipes.into_iter().map(|(id, label)| (format!("rec:recipe/{id}"), json!({"prov:label": label}))))?;
        let mut of_results: Vec<(i64, i64)> = vec![];
        for link in &self.links {
            of_results.extend(self.derivations.get(&link.result).map(|d| (*d, link.result)));
        }
        for (derivation, _) in &of_results {
            self.next()?;
            name(&mut self.out, "derivation", *derivation);
            self.out.extend(b":{}");
        }
        Ok(())
    }

    /// What generated what.
    fn generated(&mut self, counts: &BTreeMap<i64, BTreeSet<i64>>) -> Result<(), Error> {
        self.section("wasGeneratedBy");
        self.each(counts.keys().map(|run| {
            let of = json!({"prov:entity": format!("rec:counts/{run}"), "prov:activity": format!("rec:run/{run}")});
            (format!("_:c{run}"), of)
        }))?;
        for i in 0..self.links.len() {
            self.next()?;
            let Link { result, event, .. } = self.links[i];
            self.relation("g", result, ("prov:entity", "result", result), ("prov:activity", "event", event));
        }
        Ok(())
    }

    /// What was derived from what.
    fn derived(&mut self, store: &Store, counts: &BTreeMap<i64, BTreeSet<i64>>) -> Result<(), Error> {
        let runs: HashMap<i64, i64> = store.list::<VialRun>(&Filter::all())?.into_iter().map(|v| (v.0, v.1)).collect();
        self.section("wasDerivedFrom");
        self.each(counts.iter().flat_map(|(run, files)| {
            files.iter().map(move |file| {
                let of = json!({
                    "prov:generatedEntity": format!("rec:counts/{run}"), "prov:usedEntity": format!("rec:raw_file/{file}"),
                });
                (format!("_:f{run}-{file}"), of)
            })
        }))?;
        let (made, used) = ("prov:generatedEntity", "prov:usedEntity");
        for i in 0..self.links.len() {
            let Link { result, vial, file, .. } = self.links[i];
            let run = vial.and_then(|v| runs.get(&v)).copied();
            if let Some(derivation) = self.derivations.get(&result).copied() {
                self.next()?;
                self.relation("d", result, (made, "result", result), (used, "derivation", derivation));
                if let Some(run) = run {
                    self.next()?;
                    self.relation("e", result, (made, "derivation", derivation), (used, "counts", run));
                }
            } else if let Some(file) = file {
                self.next()?;
                self.relation("d", result, (made, "result", result), (used, "raw_file", file));
            }
        }
        self.used(store, &runs)
    }

    /// What each act used: an import the files that it brought, a reduction the counts of its run and the recipe.
    fn used(&mut self, store: &Store, runs: &HashMap<i64, i64>) -> Result<(), Error> {
        let mut used: BTreeSet<(i64, &str, i64)> =
            store.raw_files()?.iter().map(|f| (f.event, "raw_file", f.id)).collect();
        let recipes: HashMap<i64, i64> =
            store.runs()?.iter().filter_map(|r| r.recipe_id.map(|recipe| (r.id, recipe))).collect();
        for link in &self.links {
            let Some(run) = link.vial.and_then(|v| runs.get(&v)).copied() else { continue };
            used.insert((link.event, "counts", run));
            used.extend(recipes.get(&run).map(|recipe| (link.event, "recipe", *recipe)));
        }
        self.section("used");
        self.each((1..).zip(used).map(|(n, (event, table, id))| {
            let of = json!({"prov:activity": format!("rec:event/{event}"), "prov:entity": format!("rec:{table}/{id}")});
            (format!("_:u{n}"), of)
        }))
    }

    /// One relation between two things.
    fn relation(&mut self, kind: &str, number: i64, a: (&str, &str, i64), b: (&str, &str, i64)) {
        let out = &mut self.out;
        out.extend([b"\"_:", kind.as_bytes()].concat());
        push_whole(out, number);
        out.extend(b"\":{");
        for (i, (role, table, id)) in [a, b].into_iter().enumerate() {
            out.extend([if i == 0 { b"\"".as_slice() } else { b",\"" }, role.as_bytes(), b"\":"].concat());
            name(out, table, id);
        }
        out.push(b'}');
    }
}

fn name(out: &mut Vec<u8>, table: &str, id: i64) {
    out.extend([b"\"rec:", table.as_bytes(), b"/"].concat());
    push_whole(out, id);
    out.push(b'"');
}

/// People and versions of the program, with a name each that stays the same for the same record.
fn agents(events: &[Event]) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    for e in events {
        let next = format!("rec:person/{}", out.len() + 1);
        out.entry(e.author.clone()).or_insert(next);
        let engine = engine(e);
        let id = format!("rec:software/{}", crate::observations::percent(&engine));
        out.entry(engine).or_insert(id);
    }
    out
}

fn engine(e: &Event) -> String {
    format!("limpid {}", e.json["engine"].as_str().unwrap_or_default())
}

fn agent(name: &str, id: &str) -> Value {
    let kind = if id.starts_with("rec:software/") { "prov:SoftwareAgent" } else { "prov:Person" };
    json!({"prov:label": name, "prov:type": {"$": kind, "type": "prov:QUALIFIED_NAME"}})
}

fn activity(e: &Event) -> (String, Value) {
    let about = timed(json!({"prov:label": e.kind, "rec:hash": e.hash.to_string()}), "prov:startTime", Some(&e.at));
    (format!("rec:event/{}", e.number), timed(about, "prov:endTime", Some(&e.at)))
}

fn associated(e: &Event, agents: &BTreeMap<String, String>) -> Vec<(String, Value)> {
    let of = |kind: &str, agent: &str| {
        let value = json!({"prov:activity": format!("rec:event/{}", e.number), "prov:agent": agents.get(agent)});
        (format!("_:{kind}{}", e.number), value)
    };
    vec![of("a", &e.author), of("s", &engine(e))]
}

/// Adds a time, where it is one that XML Schema's dateTime allows; else as it was recorded.
fn timed(mut about: Value, role: &str, at: Option<&str>) -> Value {
    let Some(at) = at else { return about };
    match date_time(at) {
        Some(at) => about[role] = json!(at),
        None => about["rec:recorded"] = json!(at),
    }
    about
}

/// `2026-07-21T08:30` with its seconds; nothing for a date alone.
pub fn date_time(at: &str) -> Option<String> {
    let shape = |t: &str| {
        let like = |c: char| if c.is_ascii_digit() { '0' } else { c };
        t.chars().map(like).collect::<String>()
    };
    let minutes = at.get(..16).filter(|t| shape(t) == "0000-00-00T00:00")?;
    let rest = &at[16..];
    let zone = |z: &str| z.is_empty() || z == "Z" || matches!(shape(z).as_str(), "+00:00" | "-00:00");
    if zone(rest) {
        return Some(format!("{minutes}:00{rest}"));
    }
    let (seconds, after) = rest.split_at_checked(3)?;
    (shape(seconds) == ":00" && zone(after)).then(|| at.to_owned())
}

#[cfg(test)]
mod tests {
    use super::date_time;

    #[test]
    fn times_get_their_seconds_and_dates_stay_out() {
        for (recorded, time) in [
            ("2026-07-21T08:30", Some("2026-07-21T08:30:00")),
            ("2026-07-21T08:30:05", Some("2026-07-21T08:30:05")),
            ("2026-07-21T08:30+02:00", Some("2026-07-21T08:30:00+02:00")),
            ("2026-07-21T08:30:05Z", Some("2026-07-21T08:30:05Z")),
            ("2026-07-21", None),
            ("in the morning", None),
        ] {
            assert_eq!(date_time(recorded).as_deref(), time);
        }
    }
}
