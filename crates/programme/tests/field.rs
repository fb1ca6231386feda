//! Field sheets taken in: once, twice, two phones, conflicts, wrong clocks, wrong programmes, broken files.

use intake::entry::{TypedRow, enter};
use intake::field::{self, conflicts, settle};
use intake::import::{ImportError, Imported, Input, Mapping, find_mapping, import, preview};
use programme::start::start;
use record::by::By;
use record::store::{Filter, Store};
use serde_json::{Value, json};
use std::path::PathBuf;
use tempfile::TempDir;

const AT: &str = "2026-07-16T08:00:00Z";
const BY: By = By { person: "Marit Osk", at: "2026-07-10T08:00:00Z" };

struct Desk {
    folder: TempDir,
    store: Store,
}

fn row(table: &str, cells: &[(&str, &str)]) -> TypedRow {
    cells.iter().fold(TypedRow::of(table), |r, (c, v)| r.with(c, *v))
}

/// A programme with a trip and two planned bottles.
fn desk() -> Desk {
    let folder = tempfile::tempdir().unwrap();
    let mut store =
        start(folder.path().join("p.sqlite").to_str().unwrap(), "Marit Osk", "2026-07-10T08:00:00Z").unwrap();
    let rows = [
        row("person", &[("name", "Marit Osk")]),
        row("person", &[("name", "Tobin <b>Rell</b>")]),
        row("well", &[("name", "SL-2")]),
        row(
            "well_section",
            &[("well", "SL-2"), ("from_m", "0"), ("to_m", "56"), ("radius_m", "0.0525"), ("kind", "casing")],
        ),
        row("lot", &[("name", "14"), ("volume_mL", "250")]),
        row("acid", &[("name", "HN-88")]),
        row("filter", &[("name", "F-3"), ("pore_um", "0.45")]),
        row("trip", &[("name", "T"), ("starts", "2026-07-14 08:30")]),
        row("bottle", &[("label", "A"), ("kind", "sample"), ("trip", "T"), ("well", "SL-2"), ("lot", "14")]),
        row("bottle", &[("label", "B"), ("kind", "sample"), ("trip", "T"), ("well", "SL-2"), ("acid_mL", "1.0")]),
    ];
    enter(&mut store, BY, "", &rows).unwrap();
    Desk { folder, store }
}

fn at(minute: u32) -> String {
    format!("2026-07-14T{:02}:{:02}:20+02:00", 9 + minute / 60, minute % 60)
}

fn sets(n: i64, bottle: &str, sets: &Value) -> Value {
    json!({"n": n, "at": at(n as u32), "who": "Tobin <b>Rell</b>", "what": "bottle", "bottle": bottle, "step": "tap", "sets": sets})
}

impl Desk {
    fn sheet(&self, device: &str, entries: &[Value]) -> Value {
        let id = field::programme_id(&self.store).unwrap().unwrap();
        let head = self.store.head().unwrap().unwrap();
        json!({
            "format": "limpid-field-sheet", "version": 1, "sheet": "0011223344556677", "trip": "T", "device": device,
            "programme": {"id": id.to_string(), "name": "p", "head": head.to_string()},
            "exported_at": "2026-07-14T17:00:00+02:00", "entries": entries,
        })
    }

    fn file(&self, name: &str, bytes: &[u8]) -> PathBuf {
        let path = self.folder.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path
    }

    fn take_with(&mut self, mapping: &Mapping, files: &[(&str, &Value)]) -> Result<Imported, ImportError> {
        let inputs: Vec<Input> = files
            .iter()
            .map(|(name, sheet)| Input {
                path: self.file(name, sheet.to_string().as_bytes()),
                mapping: mapping.clone(),
            })
            .collect();
        import(&mut self.store, &inputs, "Marit Osk", AT)
    }

    fn take(&mut self, files: &[(&str, &Value)]) -> Result<Imported, ImportError> {
        let mapping = find_mapping(&self.store, "field-sheet").unwrap();
        self.take_with(&mapping, files)
    }

    fn refused(&mut self, sheet: &Value) -> String {
        let head = self.store.head().unwrap();
        let said = match self.take(&[("s.json", sheet)]) {
            Err(e @ ImportError::Refused(_)) => e.to_string(),
            other => panic!("not refused: {other:?}"),
        };
        assert_eq!(self.store.head().unwrap(), head, "a refused sheet leaves nothing");
        assert!(self.store.field_entries(&Filter::all()).unwrap().is_empty());
        said
    }

    fn bottle(&self, label: &str) -> record::model::Bottle {
        self.store.bottles(&Filter::all().is("label", label)).unwrap().pop().unwrap()
    }
}

fn whole_day() -> Vec<Value> {
    vec![
        json!({"n": 1, "at": at(1), "what": "condition", "field": "weather", "value": "dry"}),
        json!({"n": 2, "at": at(2), "what": "well", "well": "SL-2", "state": "open", "since": "2026-07-14T08:00:00+02:00"}),
        json!({"n": 3, "at": at(3), "what": "fill", "well": "SL-2", "volume_L": 10, "u_volume_L": 0.05, "seconds": 25.1}),
        json!({"n": 4, "at": at(4), "what": "reading", "well": "SL-2", "quantity": "temperature", "value": 9.4, "unit": "°C"}),
        json!({"n": 5, "at": at(5), "what": "air", "well": "SL-2", "place": "cabinet", "volume_L": 28.3, "counts": [{"size_um": 0.5, "count": 0}, {"size_um": 5, "count": 0}]}),
        sets(6, "A", &json!({"sampler": "Marit Osk"})),
        sets(7, "A", &json!({"filled_at": at(7)})),
        sets(8, "A", &json!({"openings": 1, "cabinet_min": 2.3, "open_air_min": 0})),
        sets(
            9,
            "A",
            &json!({"acid": "HN-88", "acid_mL": 0.5, "acidified_at": at(9), "acidified_place": "at the well"}),
        ),
        sets(10, "A", &json!({"fraction": "0.45 um", "filter": "F-3"})),
        json!({"n": 11, "at": at(11), "what": "custody", "step": "sealed", "person": "Marit Osk", "place": "at the car", "temperature_C": 5.1, "seal": "whole"}),
        json!({"n": 12, "at": at(12), "what": "bottle", "bottle": "N", "step": "added", "sets": {"kind": "duplicate", "well": "SL-2", "lot": "14", "parent": "A"}}),
        json!({"n": 13, "at": at(13), "what": "reading", "well": "SL-2", "quantity": "pH", "value": 77, "unit": "pH"}),
        json!({"n": 14, "at": at(14), "what": "strike", "strikes": 13}),
        json!({"n": 15, "at": at(15), "what": "photo", "bottle": "A", "name": "a.jpg", "type": "image/jpeg", "data": "AAAA"}),
        json!({"n": 16, "at": at(16), "what": "note", "text": "lorries <script>alert(1)</script>"}),
    ]
}

#[test]
fn a_day_comes_home_and_again_changes_nothing() {
    let mut d = desk();
    let sheet = d.sheet("one", &whole_day());
    let seen = {
        let mapping = find_mapping(&d.store, "field-sheet").unwrap();
        let path = d.file("s.json", sheet.to_string().as_bytes());
        preview(&mut d.store, &[Input { path, mapping }], AT).unwrap()
    };
    assert_eq!((seen.faults.total, seen.files[0].added["field_entry"]), (0, 16));
    assert!(d.store.field_entries(&Filter::all()).unwrap().is_empty(), "a preview takes nothing");

    let taken = d.take(&[("s.json", &sheet)]).unwrap();
    assert_eq!(taken.notes, []);
    let a = d.bottle("A");
    // Local to the site, as the record keeps times.
    assert_eq!(a.filled_at.as_deref(), Some("2026-07-14T09:07:20"));
    assert_eq!((a.sampler.as_deref(), a.acid.as_deref(), a.acid_mL), (Some("Marit Osk"), Some("HN-88"), Some(0.5)));
    assert_eq!((a.openings, a.cabinet_min, a.open_air_min), (Some(1), Some(2.3), Some(0.0)));
    assert_eq!((a.fraction.as_deref(), a.filter_pore_um), (Some("0.45 um"), Some(0.45)));
    let n = d.bottle("N");
    assert_eq!((n.kind.word(), n.parent.as_deref(), n.lot.as_deref()), ("duplicate", Some("A"), Some("14")));
    let all = Filter::all();
    assert_eq!(d.store.fills(&all).unwrap().len(), 1);
    let read = d.store.field_readings(&all).unwrap();
    let told: Vec<(&str, f64, &str)> = read.iter().map(|r| (r.quantity.as_str(), r.value, r.at.as_str())).collect();
    assert_eq!(
        told,
        [
            ("valve", 0.0, "2026-07-14T07:59:59"),
            ("valve", 1.0, "2026-07-14T08:00:00"),
            ("temperature", 9.4, "2026-07-14T09:04:20"),
        ],
        "what was taken back brings no row; who opens a well says that it was shut"
    );
    assert_eq!(d.store.air_counts(&all).unwrap().len(), 2);
    assert_eq!(d.store.custody(&all).unwrap()[0].temperature_C, Some(5.1));
    assert_eq!(d.store.trips().unwrap()[0].weather.as_deref(), Some("dry"));
    assert_eq!(d.store.field_entries(&all).unwrap().len(), 16, "every entry is kept, the one taken back too");
    assert_eq!(d.store.raw_files().unwrap().len(), 1);
    assert_eq!(conflicts(&d.store, None).unwrap(), []);
    assert_eq!(d.store.verify(None).unwrap().differences, []);

    let head = d.store.head().unwrap();
    let again = d.take(&[("s.json", &sheet)]).unwrap();
    assert!(again.files[0].before && again.head.is_none());
    // The same entries in a file saved later: they are there already, the new one comes.
    let mut more = whole_day();
    more.push(sets(17, "A", &json!({"note": "cap touched the sleeve"})));
    let later = d.sheet("one", &more);
    let taken = d.take(&[("later.json", &later)]).unwrap();
    assert_eq!((taken.files[0].already, taken.files[0].added["field_entry"]), (16, 1));
    assert_eq!(d.store.fills(&all).unwrap().len(), 1);
    assert_eq!(d.bottle("A").note.as_deref(), Some("cap touched the sleeve"));
    assert_ne!(d.store.head().unwrap(), head);
    assert_eq!(d.store.verify(None).unwrap().differences, []);
}

#[test]
fn two_phones_merge_and_neither_is_chosen_where_they_differ() {
    let one = [
        sets(1, "A", &json!({"acid": "HN-88", "acid_mL": 0.5, "filled_at": at(1)})),
        json!({"n": 2, "at": at(2), "what": "reading", "well": "SL-2", "quantity": "temperature", "value": 9.4, "unit": "°C"}),
        sets(3, "A", &json!({"cabinet_min": 2.0})),
    ];
    let two = [
        sets(1, "A", &json!({"acid_mL": 0.6, "filled_at": "2026-07-14T09:01:50+02:00", "sampler": "Marit Osk"})),
        json!({"n": 2, "at": at(2), "what": "reading", "well": "SL-2", "quantity": "temperature", "value": 9.9, "unit": "°C"}),
        sets(3, "A", &json!({"cabinet_min": 2.4})),
        sets(4, "B", &json!({"acid_mL": 1.2})),
    ];
    let outcome = |order: [usize; 2], together: bool| {
        let mut d = desk();
        let sheets = [d.sheet("one", &one), d.sheet("two", &two)];
        let names = ["one.json", "two.json"];
        if together {
            d.take(&order.map(|i| (names[i], &sheets[i]))).unwrap();
        } else {
            for i in order {
                d.take(&[(names[i], &sheets[i])]).unwrap();
            }
        }
        d
    };
    let mut seen = vec![];
    for (order, together) in [([0, 1], true), ([1, 0], true), ([0, 1], false), ([1, 0], false)] {
        let d = outcome(order, together);
        let a = d.bottle("A");
        assert_eq!(a.acid_mL, None, "neither is chosen");
        assert_eq!(a.acid.as_deref(), Some("HN-88"));
        assert_eq!(a.sampler.as_deref(), Some("Marit Osk"));
        assert_eq!(a.filled_at.as_deref(), Some("2026-07-14T09:01:20"), "within a minute: the earlier");
        assert_eq!(a.cabinet_min, Some(2.4), "within half a minute: the larger");
        assert_eq!(d.bottle("B").acid_mL, Some(1.0), "what a person entered stands until a person decides");
        assert_eq!(d.store.field_readings(&Filter::all()).unwrap().len(), 2, "both readings stand");
        seen.push(conflicts(&d.store, Some("T")).unwrap());
    }
    assert!(seen.iter().all(|s| *s == seen[0]), "the order of the files does not matter");
    let words: Vec<String> = seen[0].iter().map(field::Conflict::in_words).collect();
    assert_eq!(
        words,
        [
            "SL-2, temperature: phone one says 9.4 (entry 2), phone two says 9.9 (entry 2); both stand",
            "A, acid_mL: phone one says 0.5 (entry 1), phone two says 0.6 (entry 1); neither is taken until a person decides",
            "B, acid_mL: phone two says 1.2 (entry 4); the record says 1, which stands until a person decides",
        ]
    );

    let mut d = outcome([0, 1], true);
    let by = By { person: "Marit Osk", at: AT };
    settle(&mut d.store, by, "the pipette was set to 0.6", ("A", "acid_mL"), "0.6").unwrap();
    settle(&mut d.store, by, "as planned; 1.2 was a slip", ("B", "acid_mL"), "1").unwrap();
    assert_eq!((d.bottle("A").acid_mL, d.bottle("B").acid_mL), (Some(0.6), Some(1.0)));
    assert_eq!(conflicts(&d.store, None).unwrap().len(), 1, "only the readings, which both stand");
    assert!(settle(&mut d.store, by, " ", ("A", "acid_mL"), "0.6").is_err(), "a reason is needed");
    assert!(settle(&mut d.store, by, "why", ("A", "acid_mL"), "much").is_err());
    assert!(settle(&mut d.store, by, "why", ("A", "label"), "Z").is_err());
    assert_eq!(d.store.verify(None).unwrap().differences, []);
}

#[test]
fn what_the_phone_corrects_later_follows() {
    let mut d = desk();
    let first = [sets(1, "A", &json!({"acid_mL": 0.5}))];
    let sheet = d.sheet("one", &first);
    d.take(&[("1.json", &sheet)]).unwrap();
    let mut more = first.to_vec();
    more.push(json!({"n": 2, "at": at(2), "what": "strike", "strikes": 1}));
    more.push(sets(3, "A", &json!({"acid_mL": 0.8})));
    let sheet = d.sheet("one", &more);
    d.take(&[("2.json", &sheet)]).unwrap();
    assert_eq!(d.bottle("A").acid_mL, Some(0.8));
    // A row of a measurement that had come home stays, and is named.
    let reading = json!({"n": 4, "at": at(4), "what": "reading", "well": "SL-2", "quantity": "temperature", "value": 94, "unit": "°C"});
    more.push(reading);
    let sheet = d.sheet("one", &more);
    d.take(&[("3.json", &sheet)]).unwrap();
    more.push(json!({"n": 5, "at": at(5), "what": "strike", "strikes": 4}));
    let sheet = d.sheet("one", &more);
    let taken = d.take(&[("4.json", &sheet)]).unwrap();
    assert!(taken.notes[0].sentence.contains("Entry 4 (reading"), "{:?}", taken.notes);
    // An entry that changed under its number is not the phone's.
    let mut other = more.clone();
    other[0] = sets(1, "A", &json!({"acid_mL": 5}));
    let sheet = d.sheet("one", &other);
    let said = d.take(&[("5.json", &sheet)]).unwrap_err().to_string();
    assert!(said.contains("row 1") && said.contains("another entry 1 of phone one"), "{said}");
}

#[test]
fn a_clock_that_is_off_by_a_year_is_named_and_can_be_put_right() {
    let mut d = desk();
    let shifted = |text: &str| text.replace("2026-", "2025-");
    let entries: Vec<Value> =
        whole_day().iter().map(|e| serde_json::from_str(&shifted(&e.to_string())).unwrap()).collect();
    let sheet = d.sheet("one", &entries);
    let said = d.refused(&sheet);
    assert!(said.contains("365 days before the start of the trip, 2026-07-14"), "{said}");
    assert!(said.contains("[clock] add_days = 365") && said.contains("15 more entries"), "{said}");

    let toml = "name = \"field-sheet\"\ntarget = \"field-sheet\"\n[clock]\nadd_days = 365\n";
    let taken = d.take_with(&Mapping::parse(toml).unwrap(), &[("s.json", &sheet)]).unwrap();
    assert!(taken.notes[0].sentence.contains("365 days were added"), "{:?}", taken.notes);
    assert_eq!(d.bottle("A").filled_at.as_deref(), Some("2026-07-14T09:07:20"));
    let kept = d.store.field_entries(&Filter::all()).unwrap();
    assert_eq!(kept[0].at, shifted(&at(1)), "the entry keeps the phone's own time");
    assert!(kept.windows(2).all(|w| w[0].n < w[1].n), "the order is that of the counter");

    // As it is, where the person says so; and a phone that runs ahead of the day of taking in.
    let mut d = desk();
    let toml = "name = \"field-sheet\"\ntarget = \"field-sheet\"\n[clock]\nadd_days = 0\n";
    let sheet = d.sheet("one", &entries);
    d.take_with(&Mapping::parse(toml).unwrap(), &[("s.json", &sheet)]).unwrap();
    let mut d = desk();
    let ahead: Vec<Value> =
        whole_day().iter().map(|e| serde_json::from_str(&e.to_string().replace("07-14", "07-20")).unwrap()).collect();
    let sheet = d.sheet("one", &ahead);
    assert!(d.refused(&sheet).contains("later than the day of taking in, 2026-07-16"));
    // Set back in the middle: named, taken in the counter's order.
    let mut back = whole_day();
    back[9]["at"] = json!("2026-07-14T08:30:00+02:00");
    let sheet = d.sheet("one", &back);
    let taken = d.take(&[("s.json", &sheet)]).unwrap();
    assert!(taken.notes[0].sentence.contains("went back between entries 9"), "{:?}", taken.notes);
}

#[test]
fn phones_set_to_different_offsets_tell_the_same_moment() {
    let mut d = desk();
    let one = d.sheet("one", &[sets(1, "A", &json!({"filled_at": at(1)}))]);
    let mut entry = sets(1, "A", &json!({"filled_at": "2026-07-14T07:01:20+00:00"}));
    entry["at"] = json!("2026-07-14T07:01:20+00:00");
    let two = d.sheet("two", &[entry]);
    let taken = d.take(&[("1.json", &one), ("2.json", &two)]).unwrap();
    assert!(taken.notes.iter().any(|n| n.sentence.contains("another offset from UTC (+00:00)")), "{:?}", taken.notes);
    assert_eq!(conflicts(&d.store, None).unwrap(), []);
    assert_eq!(d.bottle("A").filled_at.as_deref(), Some("2026-07-14T09:01:20"));
}

#[test]
fn sheets_that_cannot_be_taken_are_named_and_leave_nothing() {
    let mut d = desk();
    let good = d.sheet("one", &whole_day());
    let mut check = |change: &dyn Fn(&mut Value), words: &[&str]| {
        let mut sheet = good.clone();
        change(&mut sheet);
        let said = d.refused(&sheet);
        for w in words {
            assert!(said.contains(w), "{w:?} is not in: {said}");
        }
    };
    check(
        &|s| s["programme"] = json!({"id": "ab".repeat(32), "name": "Other Levels", "head": "cd"}),
        &["a sheet of the programme \"Other Levels\" (abababababab…)", "a sheet of this programme"],
    );
    check(&|s| s["trip"] = json!("T9"), &["trip \"T9\"", "a trip that is in the programme"]);
    check(&|s| s["format"] = json!("something"), &["a file of another kind"]);
    check(&|s| s["version"] = json!(2), &["version", "found 2"]);
    check(&|s| s["device"] = json!(""), &["device"]);
    check(&|s| s["entries"] = json!({}), &["entries, as a list"]);
    check(
        &|s| {
            s["entries"][2] =
                json!({"n": 3, "at": at(3), "what": "fill", "well": "SL-2", "volume_mL": 10000, "seconds": 25.1});
        },
        &["row 3", "volume_mL", "volume_L"],
    );
    check(&|s| s["entries"][3]["unit"] = json!("mg/L"), &["row 4", "mg/L for temperature"]);
    check(&|s| s["entries"][3]["unit"] = json!("furlong"), &["row 4", "furlong"]);
    check(&|s| s["entries"][3]["value"] = json!("9,4"), &["row 4", "a number"]);
    check(
        &|s| s["entries"][3]["well"] = json!("<img src=x onerror=alert(1)>"),
        &["row 4", "<img src=x onerror=alert(1)>", "a well that is in the programme"],
    );
    check(&|s| s["entries"][8]["sets"]["acid"] = json!("HN-00"), &["row 9", "HN-00"]);
    check(&|s| s["entries"][8]["sets"]["acid_mL"] = json!(-1), &["row 9", "zero or more"]);
    check(&|s| s["entries"][8]["sets"]["acid_uL"] = json!(500), &["row 9", "acid_uL"]);
    check(&|s| s["entries"][6]["sets"]["filled_at"] = json!("yesterday"), &["row 7", "filled_at", "offset from UTC"]);
    check(&|s| s["entries"][5]["bottle"] = json!("Z"), &["bottle \"Z\"", "added with its kind"]);
    check(&|s| s["entries"][4]["counts"] = json!([{"size_um": 0.5, "count": 1.5}]), &["row 5", "counts"]);
    check(&|s| s["entries"][0]["what"] = json!("teleport"), &["row 1", "teleport", "condition"]);
    check(&|s| s["entries"][1]["n"] = json!(1), &["two entries of this number"]);
    check(
        &|s| {
            s["entries"][0].as_object_mut().unwrap().remove("at");
        },
        &["row 1", "at"],
    );

    // Cut at every hundredth byte: told as cut, or as no JSON, never half taken.
    let text = good.to_string();
    let mapping = find_mapping(&d.store, "field-sheet").unwrap();
    for cut in (0..text.len() - 1).step_by(100) {
        let path = d.file("cut.json", &text.as_bytes()[..text.floor_char_boundary(cut)]);
        let said = import(&mut d.store, &[Input { path, mapping: mapping.clone() }], "M", AT).unwrap_err().to_string();
        assert!(said.contains("ends too early"), "{said}");
    }
    assert!(d.store.field_entries(&Filter::all()).unwrap().is_empty());
    // A sheet made from a state that the record does not have: taken, and said.
    let mut old = good.clone();
    old["programme"]["head"] = json!("ef".repeat(32));
    let taken = d.take(&[("s.json", &old)]).unwrap();
    assert!(taken.notes[0].sentence.contains("was an older copy restored"), "{:?}", taken.notes);
}

#[test]
fn weather_that_changed_is_told_with_its_times_and_the_persons_own_words_stay() {
    let mut d = desk();
    let seen = |n: i64, field: &str, value: &str| json!({"n": n, "at": at(n as u32), "what": "condition", "field": field, "value": value});
    let one = d.sheet("one", &[seen(1, "weather", "dry"), seen(9, "weather", "rain"), seen(10, "dust", "none")]);
    let two = d.sheet("two", &[seen(5, "weather", "cloud")]);
    d.take(&[("1.json", &one)]).unwrap();
    d.take(&[("2.json", &two)]).unwrap();
    let trip = &d.store.trips().unwrap()[0];
    assert_eq!(trip.weather.as_deref(), Some("dry (09:01); cloud (09:05); rain (09:09)"));
    assert_eq!(trip.dust.as_deref(), Some("none"));
}

/// Two phones make one new bottle of different kinds: that is a conflict, whichever file comes first, and is told
/// until a person decides.
#[test]
fn a_new_bottle_of_two_kinds_is_a_conflict() {
    let of = |kind: &str| [sets(1, "N", &json!({"kind": kind, "well": "SL-2", "lot": "14"}))];
    for together in [true, false] {
        for order in [[0, 1], [1, 0]] {
            let mut d = desk();
            let sheets = [d.sheet("one", &of("sample")), d.sheet("two", &of("field-blank"))];
            let files: Vec<(&str, &Value)> =
                order.iter().map(|i| (["one.json", "two.json"][*i], &sheets[*i])).collect();
            if together {
                d.take(&files).unwrap();
            } else {
                for f in &files {
                    d.take(&[*f]).unwrap();
                }
            }
            let found = conflicts(&d.store, Some("T")).unwrap();
            assert_eq!(found.iter().map(|c| c.field.as_str()).collect::<Vec<_>>(), ["kind"], "{together} {order:?}");
            assert_eq!(found[0].stands.as_deref(), Some(d.bottle("N").kind.word()));
            settle(
                &mut d.store,
                By { person: "Marit Osk", at: AT },
                "it held pure water",
                ("N", "kind"),
                "field-blank",
            )
            .unwrap();
            assert!(conflicts(&d.store, None).unwrap().is_empty());
        }
    }
}

/// A reading is held against the last one of every other phone within the minute, also where a third read in between.
#[test]
fn readings_of_three_phones_are_held_against_each_other() {
    let reading = |n: i64, second: u32, value: f64| json!({"n": n, "at": format!("2026-07-14T09:10:{second:02}+02:00"), "what": "reading", "well": "SL-2", "quantity": "temperature", "value": value, "unit": "°C"});
    let mut d = desk();
    let one = d.sheet("one", &[reading(1, 0, 9.4), reading(2, 20, 9.4)]);
    let two = d.sheet("two", &[reading(1, 10, 9.4)]);
    let three = d.sheet("three", &[reading(1, 30, 9.9)]);
    d.take(&[("one.json", &one), ("two.json", &two), ("three.json", &three)]).unwrap();
    let found = conflicts(&d.store, Some("T")).unwrap();
    let pairs: Vec<(&str, &str)> =
        found.iter().map(|c| (c.said[0].device.as_str(), c.said[1].device.as_str())).collect();
    assert_eq!(pairs, [("one", "three"), ("two", "three")]);
}
