//! A sheet into the record, within one act: its entries, and the rows that follow from them.
//!
//! In: a sheet that was read, the trip, the raw file. Out: rows, or faults by entry; what a person
//! should know as findings. Entries come once; those that the phone took back in the same file
//! bring no rows. What was taken back later than it came home stays, and is named.

use super::Around;
use super::bottles::{self, Trip};
use super::clock::{Days, Moment};
use super::format::{CONDITIONS, Entry, Sheet, as_text};
use crate::entry::{self, TypedRow};
use crate::import::FileTaken;
use crate::import::fault::{Collector, Fault, fault, quoted};
use crate::import::words;
use message::{Message, expected, field, found};
use quantity::{Check, Finding, Outcome};
use record::model;
use record::store::{Act, AmendmentIn, Cell, Filter, StoreError, canonical_json};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// How the reason of every amendment begins that a sheet brought about.
pub(crate) const WHY: &str = "field sheet ";

/// Seconds that a clock may run back before it is named.
const CLOCK_BACK_S: i64 = 120;

/// Does the sheet belong to this programme, to a trip of it, to its days? The trip, or faults.
pub fn fits(
    act: &Act,
    sheet: &Sheet,
    around: &Around,
    add_days: Option<f64>,
    out: &mut Collector,
) -> Result<Option<model::Trip>, StoreError> {
    if sheet.programme != around.programme {
        let short = |id: &str| id.chars().take(12).collect::<String>();
        out.add(Check::FileProgramme, None, Some("programme"), || {
            let (name, id) = (quoted(&sheet.programme_name), short(&sheet.programme).into());
            let expected = expected::ThisProgramme { id: short(&around.programme).into() };
            fault(found::OtherProgramme { name, id }, expected)
        });
        return Ok(None);
    }
    let Some(trip) = act.list::<model::Trip>(&Filter::all().is("name", sheet.trip.as_str()))?.pop() else {
        out.add(Check::FileReference, None, Some("trip"), || {
            let trip = record::schema::table("trip").expect("the record has trips");
            fault(found::Trip { trip: quoted(&sheet.trip) }, expected::RowKnown { one: words::one_of(trip) })
        });
        return Ok(None);
    };
    // Days said to be 0: the person takes the times as they are.
    if add_days == Some(0.0) {
        return Ok(Some(trip));
    }
    let days = Days { starts: &trip.starts, ends: trip.ends.as_deref(), taken_at: &around.at };
    let wrong =
        |e: &Entry| times(e).into_iter().find_map(|(key, m)| Some((key, days.wrong(&m, add_days.unwrap_or(0.0))?)));
    let mut all = sheet.entries.iter().filter_map(|e| Some((e.n, wrong(e)?)));
    let Some((n, (key, Fault { found, expected }))) = all.next() else { return Ok(Some(trip)) };
    let more = message::count(all.count());
    let found = if more > 0 { found::AndMore { found, more }.into() } else { found };
    out.add(Check::FileClock, Some(n.unsigned_abs()), Some(&key), || fault(found, expected));
    Ok(None)
}

/// All times of an entry.
fn times(e: &Entry) -> Vec<(String, Moment)> {
    let mut found = vec![("at".to_string(), e.at.clone())];
    let sets = e.body.get("sets").and_then(Value::as_object).into_iter().flatten();
    for (key, v) in e.body.iter().chain(sets).filter(|(k, _)| *k == "since" || k.ends_with("_at")) {
        found.extend(v.as_str().and_then(Moment::parse).map(|m| (key.clone(), m)));
    }
    found
}

/// One sheet on its way in.
pub(crate) struct Taking<'a, 's> {
    pub act: &'a mut Act<'s>,
    pub sheet: &'a Sheet,
    pub trip: model::Trip,
    pub raw_file: i64,
    pub add_days: Option<f64>,
    pub out: &'a mut Collector,
}

impl Taking<'_, '_> {
    /// Takes it; what a person should know comes back.
    pub fn take(&mut self, around: &Around, taken: &mut FileTaken) -> Result<Vec<Finding>, StoreError> {
        let offset_min = self.site_offset()?;
        let id = self.keep_sheet()?;
        let fresh = self.keep_entries(id, taken)?;
        let mut notes = self.notes(around, offset_min);
        notes.extend(self.late_strikes(&fresh));
        self.rows(&fresh, offset_min, taken)?;
        let trip = Trip { id: self.trip.id, name: &self.trip.name, offset_min };
        let (conflicts, amended) = bottles::apply(self.act, &trip, self.sheet, self.out)?;
        let amended = amended + self.conditions(offset_min)?;
        if amended > 0 {
            *taken.added.entry("amendment").or_insert(0) += amended;
        }
        notes.extend(conflicts.iter().map(bottles::Conflict::finding));
        Ok(notes)
    }

    fn days(&self) -> f64 {
        self.add_days.unwrap_or(0.0)
    }

    /// The site's offset from UTC: that of the first phone of the trip.
    fn site_offset(&self) -> Result<i64, StoreError> {
        let known = self.act.list::<model::FieldSheet>(&Filter::all().is("trip", self.trip.id).limit(1))?;
        let own = || self.sheet.entries.first().map_or(self.sheet.exported_at.offset_min, |e| e.at.offset_min);
        Ok(known.first().map_or_else(own, |s| s.utc_offset_min))
    }

    fn keep_sheet(&mut self) -> Result<i64, StoreError> {
        let s = self.sheet;
        let offset = s.entries.first().map_or(s.exported_at.offset_min, |e| e.at.offset_min);
        let cells = [
            self.raw_file.into(),
            self.trip.id.into(),
            Cell::Text(&s.id),
            Cell::Text(&s.device),
            Cell::Text(&s.exported_at.text),
            offset.into(),
            Cell::Real(self.days()),
        ];
        self.act.insert("field_sheet", &cells)
    }

    /// Keeps each entry once; answers those that are new.
    fn keep_entries(&mut self, field_sheet: i64, taken: &mut FileTaken) -> Result<Vec<Entry>, StoreError> {
        let s = self.sheet;
        let mut fresh = vec![];
        for e in &s.entries {
            let body =
                canonical_json(&json!({ "at": e.at.text, "who": e.who, "what": e.what, "body": without_bytes(e) }))?;
            let key = [Cell::Text(&s.id), Cell::Text(&s.device), e.n.into()];
            // A phone saves all its entries each time, so most of a later file are there already. Where one says
            // something else, which of the two holds cannot be told.
            if let Some(id) = self.act.find("field_entry", &key)? {
                let same =
                    self.act.list::<model::FieldEntry>(&Filter::all().is("id", id))?.iter().any(|k| k.body == body);
                if same {
                    taken.already += 1;
                } else {
                    self.out.add(Check::FileDiffers, Some(e.n.unsigned_abs()), None, || {
                        let found = found::OtherEntry { entry: e.n, phone: s.device.as_str().into() };
                        fault(found, expected::SameEntry)
                    });
                }
                continue;
            }
            let [sheet, device, n] = key;
            let who = e.who.as_deref().map_or(Cell::Null, Cell::Text);
            let cells = [
                sheet,
                device,
                n,
                field_sheet.into(),
                self.trip.id.into(),
                Cell::Text(&e.at.text),
                who,
                Cell::Text(&e.what),
                Cell::Text(&body),
            ];
            self.act.insert("field_entry", &cells)?;
            *taken.added.entry("field_entry").or_insert(0) += 1;
            fresh.push(e.clone());
        }
        Ok(fresh)
    }

    fn finding(&self, check: Check, says: impl Into<Message>) -> Finding {
        self.out.finding(check, Outcome::NotKnown, None, None, says.into())
    }

    fn notes(&self, around: &Around, offset_min: i64) -> Vec<Finding> {
        let s = self.sheet;
        let mut out = vec![];
        if !around.heads.contains(&s.head) {
            let head: String = s.head.chars().take(12).collect();
            out.push(self.finding(Check::FieldHead, field::Head { head: head.into() }));
        }
        for w in s.entries.windows(2) {
            if w[1].at.seconds_since(&w[0].at) < -CLOCK_BACK_S {
                out.push(self.finding(
                    Check::FieldClock,
                    field::ClockBack {
                        earlier: w[0].n,
                        earlier_at: w[0].at.text.as_str().into(),
                        later: w[1].n,
                        later_at: w[1].at.text.as_str().into(),
                    },
                ));
            }
        }
        if self.days() != 0.0 {
            out.push(self.finding(
                Check::FieldClock,
                field::DaysAdded { days: self.days().to_string().into(), phone: s.device.as_str().into() },
            ));
        }
        // The times are turned to the site's offset all the same; one such entry is enough to name the phone.
        let other = s.entries.iter().find(|e| e.at.offset_min != offset_min);
        if let Some(e) = other {
            out.push(self.finding(
                Check::FieldOffset,
                field::Offset { phone: s.device.as_str().into(), offset: e.at.text[19..].into() },
            ));
        }
        out
    }

    fn struck(&self) -> BTreeSet<i64> {
        let strikes = self.sheet.entries.iter().filter(|e| e.what == "strike");
        strikes.filter_map(|e| e.body.get("strikes")?.as_i64()).collect()
    }

    /// Entries taken back after they had come home: their rows stay.
    fn late_strikes(&self, fresh: &[Entry]) -> Vec<Finding> {
        let new: BTreeSet<i64> = fresh.iter().map(|e| e.n).collect();
        let measured = |n: i64| {
            self.sheet
                .entries
                .iter()
                .find(|e| e.n == n)
                .filter(|e| ["reading", "fill", "air", "custody", "well"].contains(&e.what.as_str()))
        };
        let late = fresh.iter().filter(|e| e.what == "strike").filter_map(|e| e.body.get("strikes")?.as_i64());
        late.filter(|n| !new.contains(n))
            .filter_map(|n| Some((n, measured(n)?)))
            .map(|(n, e)| {
                self.finding(
                    Check::FieldStruck,
                    field::Struck { entry: n, what: e.what.as_str().into(), at: e.at.text.as_str().into() },
                )
            })
            .collect()
    }

    /// Rows of measurements: all phones' stand.
    fn rows(&mut self, fresh: &[Entry], offset_min: i64, taken: &mut FileTaken) -> Result<(), StoreError> {
        let struck = self.struck();
        let mut rows: Vec<(i64, TypedRow)> = vec![];
        for e in fresh.iter().filter(|e| !struck.contains(&e.n)) {
            rows.extend(self.rows_of(e, offset_min).into_iter().map(|r| (e.n, r)));
        }
        rows.sort_by(|a, b| a.1.table.cmp(&b.1.table));
        let typed: Vec<TypedRow> = rows.iter().map(|r| r.1.clone()).collect();
        let (entered, faults) = entry::enter_in(self.act, &typed)?;
        for f in faults {
            let n = rows.get(f.row).map(|r| r.0.unsigned_abs());
            self.out.add(Check::FileValue, n, f.column.as_deref(), || f.says);
        }
        for f in entered.notes {
            let n = rows.get(f.row).map(|r| r.0.unsigned_abs());
            self.out.note(n, f.column.as_deref().unwrap_or_default(), f.says);
        }
        for (table, n) in entered.added {
            *taken.added.entry(table).or_insert(0) += n;
        }
        Ok(())
    }

    fn rows_of(&self, e: &Entry, offset_min: i64) -> Vec<TypedRow> {
        let at = e.at.local(offset_min, self.days());
        let row = |table: &str, keys: &[&str]| {
            let mut r = TypedRow::of(table).with("trip", &self.trip.name);
            for key in keys {
                if let Some(text) = e.body.get(*key).and_then(as_text) {
                    r = r.with(key, text);
                }
            }
            r
        };
        match e.what.as_str() {
            "reading" => vec![row("field_reading", &["well", "quantity", "value", "u", "unit"]).with("at", at)],
            "fill" => vec![row("fill", &["well", "volume_L", "u_volume_L", "seconds"]).with("at", at)],
            "custody" => {
                vec![row("custody", &["bottle", "step", "person", "place", "temperature_C", "seal"]).with("at", at)]
            }
            "well" => self.valve(e, offset_min),
            "air" => {
                let counts = e.body.get("counts").and_then(Value::as_array).into_iter().flatten();
                let one = |c: &Value| {
                    let text = |k: &str| c.get(k).and_then(as_text).unwrap_or_default();
                    row("air_count", &["well", "place", "volume_L"])
                        .with("at", &at)
                        .with("size_um", text("size_um"))
                        .with("count", text("count"))
                };
                counts.map(one).collect()
            }
            // On bottles and conditions all phones of the trip have a say (`bottles::apply`, `conditions`); a note or
            // a photograph stays an entry.
            _ => vec![],
        }
    }

    /// A well opened or shut, as the record keeps it: the valve, 1 or 0. Who opens a well says that it
    /// was shut until then; where the sheet does not say since when, it was so the second before.
    fn valve(&self, e: &Entry, offset_min: i64) -> Vec<TypedRow> {
        let text = |e: &Entry, key: &str| e.body.get(key).and_then(Value::as_str).unwrap_or_default().to_string();
        let well = text(e, "well");
        let since = Moment::parse(&text(e, "since")).unwrap_or_else(|| e.at.clone());
        let row = |at: &Moment, value: &str| {
            let at = at.local(offset_min, self.days());
            let of = TypedRow::of("field_reading").with("trip", &self.trip.name).with("well", &well).with("at", at);
            of.with("quantity", "valve").with("value", value).with("unit", "1")
        };
        let open = text(e, "state") == "open";
        let told = |o: &&Entry| o.what == "well" && o.n < e.n && text(o, "well") == well;
        let shut_before = self.sheet.entries.iter().any(|o| told(&o) && text(o, "state") == "shut");
        let mut out = vec![];
        if open && !shut_before {
            out.extend(since.second_before().map(|before| row(&before, "0")));
        }
        out.push(row(&since, if open { "1" } else { "0" }));
        out
    }

    /// Weather and what was near: what all phones saw, in time order, as one text a column. What a
    /// person entered in the record before is left.
    fn conditions(&mut self, offset_min: i64) -> Result<u64, StoreError> {
        let entries = self.act.list::<model::FieldEntry>(&Filter::all().is("trip", self.trip.id))?;
        let seen = seen(&entries, offset_min);
        let present =
            self.act.as_typed("trip", &Filter::all().is("id", self.trip.id))?.pop().map(|r| r.1).unwrap_or_default();
        let mut amended = 0;
        for column in CONDITIONS {
            let Some(text) = seen.get(column) else { continue };
            let place =
                record::schema::table("trip").and_then(|t| t.place(column)).expect("the trip has its conditions");
            let stands = present.get(place).map_or("", String::as_str);
            if stands == text || !(stands.is_empty() || bottles::by_sheet(self.act, "trip", self.trip.id, column)?) {
                continue;
            }
            let why = format!("{WHY}{} of phone {}", self.sheet.id, self.sheet.device);
            self.act.amend(&AmendmentIn {
                table: "trip",
                row: self.trip.id,
                column,
                new: Some(text),
                why: &why,
                person: None,
            })?;
            amended += 1;
        }
        Ok(amended)
    }
}

/// What was seen, by column: one word where it never changed, else each with its time.
fn seen(entries: &[model::FieldEntry], offset_min: i64) -> BTreeMap<&'static str, String> {
    let struck = bottles::struck(entries);
    let mut all: BTreeMap<&'static str, Vec<(String, String)>> = BTreeMap::new();
    for e in entries
        .iter()
        .filter(|e| e.what == "condition" && !struck.contains(&(e.sheet.as_str(), e.device.as_str(), e.n)))
    {
        let body = bottles::body(e);
        let column = CONDITIONS.iter().find(|c| body.get("field").and_then(Value::as_str) == Some(**c));
        let (Some(column), Some(value), Some(at)) =
            (column, body.get("value").and_then(Value::as_str), Moment::parse(&e.at))
        else {
            continue;
        };
        all.entry(column).or_default().push((at.local(offset_min, e.add_days), value.to_string()));
    }
    let text = |(column, mut list): (&'static str, Vec<(String, String)>)| {
        // By time first: entries come phone by phone, and what two saw one after the other is then said once.
        list.sort();
        list.dedup_by(|a, b| a.1 == b.1);
        let one = match list.as_slice() {
            [only] => only.1.clone(),
            _ => list
                .iter()
                .map(|(at, v)| format!("{v} ({})", at.get(11..16).unwrap_or(at)))
                .collect::<Vec<_>>()
                .join("; "),
        };
        (column, one)
    };
    all.into_iter().map(text).collect()
}

/// The body as it is kept: of a photograph the size and hash, its bytes stay in the raw file.
fn without_bytes(e: &Entry) -> Value {
    let mut body = e.body.clone();
    if let Some(Value::String(data)) = body.remove("data") {
        body.insert("data_length".into(), json!(data.len()));
        body.insert("data_blake3".into(), json!(blake3::hash(data.as_bytes()).to_hex().to_string()));
    }
    Value::Object(body)
}
