//! What a row of results has behind it, in words: that its bottle or vial was taken out, what was corrected in it, which
//! revisions it takes the place of, in which files its counts came; each with who, when and why.
//!
//! Read once for all results: of a record without corrections and later revisions nothing is read twice.
//! Checked in `tests/strangers.rs`.

use crate::Error;
use crate::results::One;
use crate::whole_record::raw_path;
use record::model::{Amendment, Bears, Exclusion, VerdictWord};
use record::store::{Event, Filter, RowRead, Store, StoreError, Typed};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// How a row counts: for whoever takes a mean.
pub const COUNTS_AS: &[&str] = &["result", "upper bound", "evidence", "excluded", "rejected"];

/// One revision of a result.
struct Revision {
    of: (i64, i64),
    number: i64,
    value: Option<f64>,
    u: Option<f64>,
    unit: String,
    state: String,
    event: i64,
}

impl Typed for Revision {
    const TABLE: &'static str = "result";
    const PATHS: &'static [&'static str] =
        &["id", "bottle", "measurand", "revision", "value", "u", "unit", "state", "event"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self {
            of: (row.get(1)?, row.get(2)?),
            number: row.get(3)?,
            value: row.get(4)?,
            u: row.get(5)?,
            unit: row.get(6)?,
            state: row.get(7)?,
            event: row.get(8)?,
        })
    }
}

/// A reading's vial and raw file.
struct Counted(i64, Option<i64>);

impl Typed for Counted {
    const TABLE: &'static str = "reading";
    const PATHS: &'static [&'static str] = &["id", "vial", "raw_file"];
    fn from_row(row: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(row.get(1)?, row.get(2)?))
    }
}

/// What stands behind the results of a record.
#[derive(Debug, Default)]
pub struct Standing {
    paths: BTreeMap<i64, String>,
    out_bottles: HashMap<i64, String>,
    out_vials: HashMap<i64, String>,
    amended: HashMap<(String, i64), Vec<String>>,
    superseded: HashMap<(i64, i64), Vec<String>>,
    counts: HashMap<i64, String>,
}

impl Standing {
    /// Reads it.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let paths: BTreeMap<i64, String> =
            store.raw_files()?.into_iter().map(|f| (f.id, raw_path(f.id, &f.name))).collect();
        let events: HashMap<i64, Event> = store.events()?.into_iter().map(|e| (e.number, e)).collect();
        let mut out = Self { paths, ..Self::default() };
        out.take_exclusions(store, &events)?;
        for a in store.list::<Amendment>(&Filter::all())? {
            let nothing = || "nothing".to_string();
            let (old, new) = (a.old.unwrap_or_else(nothing), a.new.unwrap_or_else(nothing));
            let who = when(&events, a.event, a.person.as_deref());
            let words = format!("{} {old} → {new}, {who}: {}", a.column_name, a.why);
            out.amended.entry((a.table_name, a.row_id)).or_default().push(words);
        }
        out.take_revisions(store, &events)?;
        let mut files: HashMap<i64, BTreeSet<i64>> = HashMap::new();
        store.each(&Filter::all(), |r: Counted| {
            files.entry(r.0).or_default().extend(r.1);
            Ok(())
        })?;
        for (vial, files) in files {
            let paths: Vec<&str> = files.iter().filter_map(|f| out.paths.get(f)).map(String::as_str).collect();
            out.counts.insert(vial, paths.join("; "));
        }
        Ok(out)
    }

    /// What is out now: of several rows for the same the last counts.
    fn take_exclusions(&mut self, store: &Store, events: &HashMap<i64, Event>) -> Result<(), Error> {
        for x in store.list::<Exclusion>(&Filter::all())? {
            // One isotope of a vial says nothing of what else was measured in it: without it there is no result at all.
            if x.isotope.is_some() {
                continue;
            }
            let words = format!("taken out {}: {}", when(events, x.event, Some(&x.person)), x.why);
            let (of, id) = match (x.vial_id, x.bottle_id) {
                (Some(vial), _) => (&mut self.out_vials, vial),
                (None, Some(bottle)) => (&mut self.out_bottles, bottle),
                (None, None) => continue,
            };
            if x.excluded {
                of.insert(id, words);
            } else {
                of.remove(&id);
            }
        }
        Ok(())
    }

    fn take_revisions(&mut self, store: &Store, events: &HashMap<i64, Event>) -> Result<(), Error> {
        if store.list::<Revision>(&Filter::all().is("revision", 2_i64).limit(1))?.is_empty() {
            return Ok(());
        }
        let mut before: HashMap<(i64, i64), Revision> = HashMap::new();
        store.each(&Filter::all(), |r: Revision| {
            if let Some(old) = before.get(&r.of).filter(|old| old.number < r.number) {
                let number = |x: Option<f64>| x.map_or_else(|| "none".into(), |x| x.to_string());
                let words = format!(
                    "revision {} (net {}, u {} {}, {}) until the next {}",
                    old.number,
                    number(old.value),
                    number(old.u),
                    old.unit,
                    old.state,
                    when(events, r.event, None)
                );
                self.superseded.entry(r.of).or_default().push(words);
            }
            before.insert(r.of, r);
            Ok(())
        })?;
        Ok(())
    }

    /// Path of the raw file that a result was read from, or of the files of its counts.
    pub fn file(&self, one: &One) -> Option<&str> {
        let counted = || one.vial.and_then(|v| self.counts.get(&v)).filter(|paths| !paths.is_empty());
        one.file.and_then(|f| self.paths.get(&f)).or_else(counted).map(String::as_str)
    }

    /// Why its bottle or vial is out.
    pub fn excluded(&self, one: &One) -> Option<&str> {
        let vial = || one.vial.and_then(|v| self.out_vials.get(&v));
        self.out_bottles.get(&one.bottle).or_else(vial).map(String::as_str)
    }

    /// What was corrected in it or its bottle.
    pub fn amended(&self, one: &One) -> Option<String> {
        if self.amended.is_empty() {
            return None;
        }
        let of = |table: &str, row| {
            self.amended.get(&(table.to_string(), row)).map(|w| format!("{table}: {}", w.join("; ")))
        };
        let words: Vec<String> = [of("result", one.id), of("bottle", one.bottle)].into_iter().flatten().collect();
        (!words.is_empty()).then(|| words.join("; "))
    }

    /// The revisions that it takes the place of.
    pub fn superseded(&self, one: &One) -> Option<String> {
        self.superseded.get(&(one.bottle, one.measurand)).map(|w| w.join("; "))
    }

    /// How it counts.
    pub fn counts_as(&self, one: &One) -> &'static str {
        let r = &one.listed;
        if self.excluded(one).is_some() {
            "excluded"
        } else if !r.kind.is_water() {
            "evidence"
        } else if r.verdict == Some(VerdictWord::Rejected) {
            "rejected"
        } else if r.bears == Bears::AtMost {
            "upper bound"
        } else {
            "result"
        }
    }
}

/// "by Ines Varga, 2026-07-23T14:20:00+02:00 (act 9, exclusion)".
fn when(events: &HashMap<i64, Event>, event: i64, person: Option<&str>) -> String {
    match events.get(&event) {
        None => person.map_or(String::new(), |p| format!("by {p}")),
        Some(e) => format!("by {}, {} (act {event}, {})", person.unwrap_or(&e.author), e.at, e.kind),
    }
}

/// A unit as UCUM allows it: what stands in braces has no blanks (`mg/L{as_N}`). The record keeps `mg/L{as N}`.
// UCUM, section 12: an annotation holds the characters 33 to 126 (from memory).
pub fn ucum(code: &str) -> String {
    let mut inside = false;
    let one = |c: char| {
        inside = (inside || c == '{') && c != '}';
        if inside && c == ' ' { '_' } else { c }
    };
    code.chars().map(one).collect()
}

#[cfg(test)]
mod tests {
    #[test]
    fn blanks_go_from_annotations_alone() {
        assert_eq!(super::ucum("mg/L{as N}"), "mg/L{as_N}");
        assert_eq!(super::ucum("{a b}/m c{d e}"), "{a_b}/m c{d_e}");
    }
}
