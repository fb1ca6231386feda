//! What physics forbids and who is nobody: refused in every way in, in the same words, and nothing is kept.
//!
//! The bounds stand in `reference/physical_bounds.csv` with their sources; here two facts outside it hold them: water at
//! sea level boils at 100 °C and is 0 °C cold in ice (both inside), and 374 °C, the critical point of water (IAPWS
//! R2-83, 373.946 °C, from memory), ends all liquid water (outside).

use crate::import_common::Desk;
use intake::entry::{Correction, EntryError, EntryFault, TypedRow, correct, enter};
use intake::field::{programme_id, settle};
use intake::import::{Input, Mapping, import};
use programme::start;
use programme::work;
use record::Error;
use record::bounds;
use record::by::By;
use record::store::{Filter, Store, StoreError};
use serde_json::json;

/// As `import_common::Desk` takes files.
const AT: &str = "2026-07-20T10:00:00Z";
const MARIT: By = By { person: "Marit Osk", at: AT };

fn desk() -> Desk {
    let mut desk = Desk::new();
    desk.text("wells.csv", "wells", "name\nSL-2\n");
    desk.text("trips.csv", "trips", "name,starts\nT,2026-07-14\n");
    desk.text("bottles.csv", "bottles", "label,kind,trip,well,volume_mL\nA,sample,T,SL-2,250\n");
    desk
}

/// One value into one column: as a file, as a form, and by a field sheet where sheets bring such rows.
#[track_caller]
fn check(table: &'static str, mapping: &str, cells: &[(&str, &str)], column: &str, expected: Option<&str>) {
    let mut desk = desk();
    let (names, values): (Vec<&str>, Vec<&str>) = cells.iter().copied().unzip();
    let text = format!("{}\n{}\n", names.join(","), values.join(","));
    let row = cells.iter().fold(TypedRow::of(table), |r, (c, v)| r.with(c, *v));
    let Some(expected) = expected else {
        desk.text("rows.csv", mapping, &text);
        enter(&mut desk.store, MARIT, "", &[row]).unwrap();
        return;
    };
    let said = desk.refusal("rows.csv", mapping, &text);
    let (file, what) = (format!("rows.csv, row 2, column \"{column}\""), format!("expected {expected}"));
    assert!(said.contains(&file) && said.contains(&what), "{said}");
    let head = desk.store.head().unwrap();
    let faults = faults(enter(&mut desk.store, MARIT, "", &[row]));
    assert_eq!((faults[0].column.as_deref(), faults[0].expected().as_str()), (Some(column), expected), "{faults:?}");
    assert_eq!(desk.store.head().unwrap(), head);
}

#[track_caller]
fn faults<T: std::fmt::Debug>(done: Result<T, EntryError>) -> Vec<EntryFault> {
    match done {
        Err(EntryError::Faults(f)) => f,
        other => panic!("{other:?}"),
    }
}

/// The words of a bound, from the table.
fn words(quantity: &str) -> String {
    let b = bounds::of(quantity).unwrap();
    let unit = if b.unit == quantity { String::new() } else { format!(" {}", b.unit) };
    format!("a {quantity} from {} to {}{unit}", b.lower, b.upper)
}

fn reading(quantity: &str, value: &str, unit: &str, expected: Option<&str>) {
    let cells = [
        ("trip", "T"),
        ("well", "SL-2"),
        ("at", "2026-07-14 10:00"),
        ("quantity", quantity),
        ("value", value),
        ("unit", unit),
    ];
    check("field_reading", "field-readings", &cells, "value", expected);
}

#[test]
fn the_table_says_why_and_what_is_certain_lies_on_the_right_side_of_it() {
    for b in bounds::table() {
        assert!(b.lower < b.upper && b.source.len() > 20 && ["recalled", "own"].contains(&&*b.provenance), "{b:?}");
    }
    for x in [0.0, 25.0, 100.0] {
        bounds::of("temperature").unwrap().check(x).unwrap();
    }
    bounds::of("temperature").unwrap().check(374.0).unwrap_err();
    // The most acid and the most alkaline waters that were measured: -3.6 in a mine, 12.9 in a spring (from memory).
    for x in [-3.6, 12.9] {
        bounds::of("pH").unwrap().check(x).unwrap();
    }
}

#[test]
fn a_ph_of_78_and_water_at_412_degrees_were_taken() {
    reading("pH", "7.8", "pH", None);
    reading("pH", "78", "pH", Some(&words("pH")));
    reading("pH", "-7.8", "pH", Some(&words("pH")));
    reading("temperature", "9.4", "°C", None);
    reading("temperature", "412", "°C", Some(&words("temperature")));
    // 282.55 K is 9.4 °C; 9.4 K is none of a liquid.
    reading("temperature", "282.55", "K", None);
    reading("temperature", "9.4", "K", Some(&words("temperature")));
    // Of other quantities nothing is known that would forbid a number.
    reading("Eh", "-180", "mV", None);
}

#[test]
fn a_laboratorys_ph_and_temperature_are_held_to_the_same_bounds() {
    let mapping = "name = \"own\"\ntarget = \"results\"\n[columns.bottle]\nlabel = \"sample\"\nkind = { constant = \"sample\" }\n[columns.result]\nanalyte = \"analyte\"\nfraction = { constant = \"unfiltered\" }\nvalue = \"value\"\nunit = \"unit\"\n";
    let head = "sample,analyte,value,unit\n";
    let mut d = Desk::new();
    for (analyte, value, unit, quantity) in
        [("pH", "78", "pH", "pH"), ("pH (laboratory)", "78", "pH", "pH"), ("temperature", "412", "°C", "temperature")]
    {
        let said = d.refusal("lab.csv", mapping, format!("{head}X,{analyte},{value},{unit}\n"));
        assert!(said.contains("row 2, column \"value\"") && said.contains(&words(quantity)), "{said}");
    }
    let wide = "name = \"wide\"\ntarget = \"results-wide\"\n[columns.bottle]\nlabel = \"sample\"\nkind = { constant = \"sample\" }\n[columns.result]\nfraction = { constant = \"unfiltered\" }\n[wide]\npattern = \"{analyte} ({unit})\"\n";
    let said = d.refusal("wide.csv", wide, "sample,Ca (mg/L),pH (pH)\nX,52,78\n");
    assert!(said.contains("row 2, column \"pH (pH)\"") && said.contains(&words("pH")), "{said}");
    d.text("lab.csv", mapping, &format!("{head}X,pH,7.8,pH\nX,temperature,9.4,°C\n"));
}

#[test]
fn a_bottle_of_next_to_nothing_was_taken() {
    let bottle = |volume| [("label", "B"), ("kind", "sample"), ("volume_mL", volume)];
    check("bottle", "bottles", &bottle("250"), "volume_mL", None);
    for volume in ["1e-310", "1e-9", "1e300"] {
        check("bottle", "bottles", &bottle(volume), "volume_mL", Some(&words("bottle volume")));
    }
    check("bottle", "bottles", &bottle("0"), "volume_mL", Some("a number above zero"));
    let fill = |volume, seconds| [("trip", "T"), ("well", "SL-2"), ("volume_L", volume), ("seconds", seconds)];
    check("fill", "fills", &fill("10", "25.1"), "seconds", None);
    check("fill", "fills", &fill("10", "1e-310"), "seconds", Some(&words("fill time")));
    check("fill", "fills", &fill("1e-310", "25.1"), "volume_L", Some(&words("fill volume")));
    let step = |t| [("trip", "T"), ("at", "2026-07-15"), ("step", "received"), ("temperature_C", t)];
    check("custody", "custody", &step("412"), "temperature_C", Some(&words("box temperature")));
    check("lot", "lots", &[("name", "15"), ("volume_mL", "1e-310")], "volume_mL", Some(&words("bottle volume")));
}

#[test]
fn acid_and_density_that_no_bottle_has_are_refused_by_row_and_column() {
    let bottle = |column, x| [("label", "B"), ("kind", "sample"), ("volume_mL", "250"), (column, x)];
    let zero_or_more = Some("zero or more");
    for (column, good, bad, expected) in [
        ("acid_mL", "0.5", "-0.5", zero_or_more),
        ("u_acid_mL", "0.02", "-0.02", zero_or_more),
        ("u_volume_mL", "1.5", "-1.5", zero_or_more),
        ("u_density_kg_L", "0.001", "-0.001", zero_or_more),
        ("density_kg_L", "1.02", "1020", Some(&*words("density"))),
    ] {
        check("bottle", "bottles", &bottle(column, good), column, None);
        check("bottle", "bottles", &bottle(column, bad), column, expected);
    }
    check("bottle", "bottles", &bottle("density_kg_L", "0"), "density_kg_L", Some("a number above zero"));
    // The side of a dilution is one of two words.
    let run = |side: &str| {
        format!(
            "run,position,name,role,minutes,dilution,analyte,value,u,unit,stock,assigned_side\n\
             R,1,s1,standard,0,10,Pb,10,0.1,ng/L,MS-12,{side}\n"
        )
    };
    let mut d = desk();
    let said = d.refusal("sequence.csv", "sequence", run("before"));
    assert!(said.contains("sequence.csv, row 2, column \"assigned_side\""), "{said}");
    d.text("sequence.csv", "sequence", &run("as measured"));
    let run = d.store.runs().unwrap().pop().unwrap();
    let value = d.store.assigned(run.id).unwrap().pop().unwrap();
    assert_eq!(
        (value.stock.as_deref(), value.assigned_side.map(record::words::AssignedSide::word)),
        (Some("MS-12"), Some("as measured"))
    );
}

#[test]
fn a_filling_after_the_day_of_the_act_was_taken() {
    let late = "a time that has been: this is taken in on 2026-07-20 10:00";
    let bottle = |at| [("label", "B"), ("kind", "sample"), ("filled_at", at)];
    // Clocks of two zones differ by less than a day.
    for at in ["2026-07-14 09:30", "2026-07-20", "2026-07-21 09:59"] {
        check("bottle", "bottles", &bottle(at), "filled_at", None);
    }
    for at in ["2062-07-14", "2026-07-21 10:01", "2026-07-22"] {
        check("bottle", "bottles", &bottle(at), "filled_at", Some(late));
    }
    // A trip is planned before it is made.
    check("trip", "trips", &[("name", "U"), ("starts", "2062-07-14"), ("ends", "2062-07-15")], "starts", None);
    let mut d = desk();
    let run =
        "run,started_at,position,name,role,minutes,dilution,analyte,value,u,unit\nR,2062-07-21,1,a,sample,0,1,,,,\n";
    assert!(d.refusal("sequence.csv", "sequence", run).contains(late));
    // A preview says what the import would say.
    let path = d.file("b.csv", "label,kind,filled_at\nB,sample,2062-07-14\n");
    assert!(d.look(&path, "bottles").faults.shown[0].sentence.contains(late));
}

#[test]
fn corrections_and_settlements_are_held_to_the_same_bounds() {
    let mut d = desk();
    let row = TypedRow::of("field_reading").with("trip", "T").with("well", "SL-2").with("at", "2026-07-14");
    let row = row.with("quantity", "pH").with("value", "7.8").with("unit", "pH");
    enter(&mut d.store, MARIT, "", &[row]).unwrap();
    let head = d.store.head().unwrap();
    let change = |store: &mut Store, table: &str, column, new| {
        faults(correct(store, MARIT, "a slip", (table, 1), &[Correction { column, seen: None, new }]))
            .remove(0)
            .expected()
    };
    assert_eq!(change(&mut d.store, "field_reading", "value", "78"), words("pH"));
    assert_eq!(change(&mut d.store, "bottle", "volume_mL", "1e-310"), words("bottle volume"));
    assert!(change(&mut d.store, "bottle", "filled_at", "2062-07-14").contains("2026-07-20"));
    let settled = |store: &mut Store, column, value| faults(settle(store, MARIT, "a slip", ("A", column), value));
    assert_eq!(settled(&mut d.store, "volume_mL", "1e-310")[0].expected(), words("bottle volume"));
    assert!(settled(&mut d.store, "filled_at", "2062-07-14")[0].expected().contains("2026-07-20"));
    assert_eq!(d.store.head().unwrap(), head);
}

#[test]
fn a_field_sheet_is_held_to_the_same_bounds_by_entry() {
    let mut d = desk();
    let id = programme_id(&d.store).unwrap().unwrap().to_string();
    let head = d.store.head().unwrap();
    let sheet = |n: i64, entry: serde_json::Value| {
        let mut one = json!({"n": n, "at": "2026-07-14T09:00:20+02:00"});
        one.as_object_mut().unwrap().extend(entry.as_object().unwrap().clone());
        json!({
            "format": "limpid-field-sheet", "version": 1, "sheet": "0011223344556677", "trip": "T", "device": "one",
            "programme": {"id": id, "name": "p", "head": head.unwrap().to_string()},
            "exported_at": "2026-07-14T17:00:00+02:00", "entries": [one],
        })
    };
    let reading = |quantity: &str, value: f64, unit: &str| json!({"what": "reading", "well": "SL-2", "quantity": quantity, "value": value, "unit": unit});
    for (entry, column, expected) in [
        (reading("pH", 78.0, "pH"), "value", words("pH")),
        (reading("temperature", 412.0, "°C"), "value", words("temperature")),
        (json!({"what": "fill", "well": "SL-2", "volume_L": 10, "seconds": 1e-310}), "seconds", words("fill time")),
        (json!({"what": "bottle", "bottle": "A", "sets": {"volume_mL": 1e-310}}), "volume_mL", words("bottle volume")),
        (json!({"what": "custody", "step": "sealed", "temperature_C": 412}), "temperature_C", words("box temperature")),
    ] {
        let path = d.file("sheet.json", sheet(7, entry).to_string());
        let mapping = Mapping::shipped("field-sheet").unwrap();
        let e = import(&mut d.store, &[Input { path, mapping }], "Marit Osk", AT).unwrap_err().to_string();
        assert!(e.contains(&format!("row 7, column \"{column}\"")) && e.contains(&expected), "{e}");
        assert_eq!(d.store.head().unwrap(), head);
    }
}

/// Nobody does this: refused as such, and nothing is kept.
#[track_caller]
fn nobody(store: &Store, head: Option<record::store::EventHash>, e: &(dyn std::error::Error + 'static)) {
    let mut cause: Option<&dyn std::error::Error> = Some(e);
    let mut found = false;
    while let Some(e) = cause {
        found |= matches!(e.downcast_ref::<StoreError>(), Some(StoreError::Nobody { .. }));
        cause = e.source();
    }
    assert!(found || e.to_string().contains("expected a name"), "{e}");
    assert_eq!(store.head().unwrap(), head, "{e}");
    assert!(store.persons().unwrap().iter().all(|p| !p.name.trim().is_empty()));
}

#[test]
fn a_name_of_nothing_was_kept_and_made_a_warning_accepted() {
    let mut d = desk();
    let mapping = "name = \"own\"\ntarget = \"results\"\n[columns.bottle]\nlabel = \"sample\"\n[columns.result]\nanalyte = \"analyte\"\nfraction = { constant = \"unfiltered\" }\nvalue = \"value\"\nunit = \"unit\"\n";
    d.text("lab.csv", mapping, "sample,analyte,value,unit\nA,Ca,52,mg/L\n");
    work::recompute(&mut d.store, None, MARIT).unwrap();
    let head = d.store.head().unwrap();
    let path = d.file("more.csv", "name\nSL-9\n");
    // Nothing, blanks, a hard blank, a mark that takes no room: none of them is anybody.
    for person in ["", " ", "\t \n", "\u{a0}", "\u{200b}", "-"] {
        let by = By { person, at: AT };
        let s = &mut d.store;
        let signed = work::sign(s, "A:Ca:@:unfiltered", "it looks right", by);
        nobody(s, head, &signed.unwrap_err());
        let out = work::exclude(s, "A", true, "cracked cap", by);
        nobody(s, head, &out.unwrap_err());
        let settled = settle(s, by, "as weighed", ("A", "volume_mL"), "251");
        nobody(s, head, &settled.unwrap_err());
        let change = [Correction { column: "volume_mL", seen: None, new: "251" }];
        let corrected = correct(s, by, "as weighed", ("bottle", 1), &change);
        nobody(s, head, &corrected.unwrap_err());
        let typed = enter(s, by, "", &[TypedRow::of("well").with("name", "SL-9")]);
        nobody(s, head, &typed.unwrap_err());
        let input = Input { path: path.clone(), mapping: Mapping::shipped("wells").unwrap() };
        let taken = import(s, &[input], person, AT);
        nobody(s, head, &taken.unwrap_err());
        let fresh = start::start(d.folder.path().join("fresh.sqlite"), person, AT).err();
        assert!(matches!(fresh, Some(Error::Store(StoreError::Nobody { .. }))), "{fresh:?}");
        assert!(!d.folder.path().join("fresh.sqlite").exists(), "no file is left without an act");
    }
    for person in ["Marit Osk", "李", "R2"] {
        work::sign(&mut d.store, "A:Ca:@:unfiltered", "it looks right", By { person, at: AT }).unwrap();
    }
    assert_eq!(d.store.list::<record::model::SignOff>(&Filter::all()).unwrap().len(), 3);
}
