//! What may be right and is worth a second look is taken and told, at its row, by message; what cannot be is refused.
//!
//! The ranges stand in `reference/usual_ranges.csv` with their sources. Here facts outside it hold them (from memory):
//! a spring of pH 12.9 and a mine water of -3.6 were measured, sea water has pH 8.1, 1,290 mg/L magnesium and 19,400 mg/L
//! chloride (Millero's reference composition), air-saturated water at 0 °C holds 14.6 mg/L oxygen.

use crate::import_common::Desk;
use intake::entry::{EntryError, TypedRow, enter};
use intake::import::{ImportError, Imported};
use message::{Arg, Message, Name, Shown, expected, intake as said, unfit};
use quantity::{Check, Finding, Outcome};
use record::by::By;
use record::store::Filter;

const MARIT: By = By { person: "Marit Osk", at: "2026-07-20T10:00:00Z" };

fn desk() -> Desk {
    let mut d = Desk::new();
    d.text("wells.csv", "wells", "name\nSL-2\n");
    d.text("trips.csv", "trips", "name,starts\nT,2026-07-14\n");
    d
}

fn place(f: &Finding) -> (Option<u64>, Option<&str>) {
    f.place.as_ref().map_or((None, None), |p| (p.row, p.column.as_deref()))
}

/// The one note of an import: a value outside what is usual, with its four arguments.
#[track_caller]
fn unusual(taken: &Imported, row: u64, column: &str, what: &str, figures: [(f64, &str); 3]) {
    let [note] = taken.notes.as_slice() else { panic!("{:?}", taken.notes) };
    assert_eq!((note.check, note.outcome), (Check::FileUnusual, Outcome::NotKnown));
    assert_eq!(place(note), (Some(row), Some(column)));
    let says = note.message.as_ref().unwrap();
    assert!(says.is::<said::Unusual>(), "{says:?}");
    assert_eq!(says.arg("what"), Some(&Arg::Name(Name::from(what))));
    for (name, (x, unit)) in ["value", "lower", "upper"].iter().zip(figures) {
        assert_eq!(says.arg(name), Some(&Arg::Amount(Shown::as_given(x, unit))), "{name}");
    }
}

#[track_caller]
fn reading(quantity: &str, value: &str, unit: &str) -> Imported {
    let text = format!("well,at,quantity,value,unit\nSL-2,2026-07-14 10:00,{quantity},{value},{unit}\n");
    let mut d = desk();
    let path = d.file("readings.csv", &text);
    let seen = d.look(&path, "field-readings");
    let taken = d.take(&path, "field-readings").unwrap();
    assert_eq!(taken.notes, seen.notes, "a preview tells what the import tells");
    assert_eq!(d.store.field_readings(&Filter::all()).unwrap().len(), 1, "it is taken");
    taken
}

#[test]
fn a_reading_outside_what_is_usual_is_taken_and_told() {
    unusual(&reading("pH", "12.9", "pH"), 2, "value", "pH", [(12.9, ""), (4.0, ""), (10.0, "")]);
    unusual(
        &reading("pH (laboratory)", "-3.6", "pH"),
        2,
        "value",
        "pH (laboratory)",
        [(-3.6, ""), (4.0, ""), (10.0, "")],
    );
    unusual(&reading("temperature", "95", "°C"), 2, "value", "temperature", [(95.0, "°C"), (0.5, ""), (60.0, "°C")]);
    // Another unit than the table's: the value as it stands, the range as the table has it.
    unusual(&reading("Eh", "1.2", "V"), 2, "value", "Eh", [(1.2, "V"), (-500.0, ""), (900.0, "mV")]);
    for (quantity, value, unit) in
        [("pH", "8.1", "pH"), ("temperature", "9.4", "°C"), ("dissolved oxygen", "14.6", "mg/L"), ("Eh", "0.2", "V")]
    {
        assert_eq!(reading(quantity, value, unit).notes, [], "{quantity}");
    }
    // Of a quantity that the table lacks nothing is said.
    assert_eq!(reading("colour of the hose", "78", "1").notes, []);
}

const LONG: &str = "name = \"own\"\ntarget = \"results\"\n[columns.bottle]\nlabel = \"sample\"\nkind = { constant = \"sample\" }\n[columns.result]\nanalyte = \"analyte\"\nfraction = { constant = \"unfiltered\" }\nvalue = \"value\"\nunit = \"unit\"\n[words]\n\"<\" = \"below\"\n";
const WIDE: &str = "name = \"wide\"\ntarget = \"results-wide\"\n[columns.bottle]\nlabel = \"sample\"\nkind = { constant = \"sample\" }\n[columns.result]\nfraction = { constant = \"unfiltered\" }\n[wide]\npattern = \"{analyte} ({unit})\"\n";

#[test]
fn zinc_of_a_kilogram_to_the_litre_was_taken_without_a_word() {
    let mut d = Desk::new();
    let taken =
        d.text("lab.csv", LONG, "sample,analyte,value,unit\nX,Ca,52,mg/L\nX,Zn,1000000,mg/L\nX,Pb,<1000000,mg/L\n");
    unusual(&taken, 3, "value", "Zn", [(1e6, "mg/L"), (0.0, ""), (50.0, "mg/L")]);
    let taken =
        d.text("wide.csv", WIDE, "sample,Zn (ug/L),Mg (mg/L),Cl (mg/L)\nY,60000,1290,19400\nZ,49000,1290,19400\n");
    unusual(&taken, 2, "Zn (ug/L)", "Zn", [(60000.0, "µg/L"), (0.0, ""), (50.0, "mg/L")]);
}

#[test]
fn a_pipe_of_fifty_metres_and_a_bottle_of_a_drop_were_taken_without_a_word() {
    let mut d = desk();
    let sections = "well,from_m,to_m,radius_m,kind,material\nSL-2,0,30,50,casing,steel\nSL-2,30,40,0.05,screen,steel\n";
    let taken = d.text("sections.csv", "well-sections", sections);
    unusual(&taken, 2, "radius_m", "radius_m", [(50.0, "m"), (0.005, ""), (1.0, "m")]);
    let taken = d.text("bottles.csv", "bottles", "label,kind,volume_mL\nA,sample,250\nB,sample,0.24\n");
    unusual(&taken, 3, "volume_mL", "volume_mL", [(0.24, "mL"), (5.0, ""), (5000.0, "mL")]);
}

#[test]
fn acid_before_filling_was_taken_without_a_word() {
    let mut d = desk();
    let head = "label,kind,filled_at,acidified_at\n";
    let row = |label: &str, filled: &str, acid: &str| format!("{label},sample,{filled},{acid}\n");
    let text = head.to_string()
        + &row("A", "2026-07-14 10:00", "2026-07-14 09:00")
        + &row("B", "2026-07-14 10:00", "2026-07-15 09:00")
        // The day alone does not tell which came first.
        + &row("C", "2026-07-14 10:00", "2026-07-14");
    let taken = d.text("bottles.csv", "bottles", &text);
    let [note] = taken.notes.as_slice() else { panic!("{:?}", taken.notes) };
    assert_eq!((note.check, place(note)), (Check::FileUnusual, (Some(2), Some("acidified_at"))));
    let says = note.message.as_ref().unwrap();
    assert!(says.is::<said::AcidBeforeFilling>(), "{says:?}");
    assert!(matches!(says.arg("acidified"), Some(Arg::Name(Name(t))) if t.contains("09:00")), "{says:?}");
    assert!(matches!(says.arg("filled"), Some(Arg::Name(Name(t))) if t.contains("10:00")), "{says:?}");
}

/// The halves of a fault.
fn halves(says: &Message) -> (&Message, &Message) {
    let half = |name| match says.arg(name) {
        Some(Arg::Message(m)) => m,
        other => panic!("{other:?}"),
    };
    (half("found"), half("expected"))
}

#[test]
fn a_trip_that_ends_before_it_starts_was_taken_without_a_word() {
    let mut d = desk();
    let path = d.file("trips.csv", "name,starts,ends\nU,2026-07-14,2026-07-14\nV,2026-07-14 09:00,2026-07-13\n");
    let Err(ImportError::Refused(faults)) = d.take(&path, "trips") else { panic!("it was taken") };
    let [fault] = faults.shown.as_slice() else { panic!("{faults:?}") };
    assert_eq!(place(fault), (Some(3), Some("ends")));
    let (found, wanted) = halves(fault.message.as_ref().unwrap());
    assert!(found.is::<unfit::EndsBeforeStart>() && wanted.is::<unfit::EndAfterStart>(), "{fault:?}");
    assert_eq!(found.arg("ends"), Some(&Arg::Name(Name::from("2026-07-13"))));
    // Typed, and as a correction.
    let row = TypedRow::of("trip").with("name", "V").with("starts", "2026-07-14").with("ends", "2026-07-13");
    let Err(EntryError::Faults(faults)) = enter(&mut d.store, MARIT, "", &[row]) else { panic!("it was entered") };
    assert_eq!(faults[0].column.as_deref(), Some("ends"));
    let change = [intake::entry::Correction { column: "ends", seen: None, new: "2026-07-01" }];
    let done = intake::entry::correct(&mut d.store, MARIT, "as in the diary", ("trip", 1), &change);
    assert!(matches!(&done, Err(EntryError::Faults(f)) if f[0].column.as_deref() == Some("ends")), "{done:?}");
}

#[test]
fn layers_that_overlap_were_kept() {
    let mut d = desk();
    d.text("layers.csv", "layers", "well,from_m,to_m,material\nSL-2,0,12,clay\n");
    let said = d.refusal("more.csv", "layers", "well,from_m,to_m,material\nSL-2,10,20,sand\nSL-2,20,30,chalk\n");
    assert!(said.contains("1 fault") && said.contains("more.csv, row 2, column \"from_m\""), "{said}");
}

#[test]
fn a_form_is_told_the_same_as_a_file() {
    let mut d = desk();
    let row = TypedRow::of("field_reading").with("well", "SL-2").with("at", "2026-07-14 10:00");
    let row = row.with("quantity", "pH").with("value", "12.9").with("unit", "pH");
    let entered = enter(&mut d.store, MARIT, "", &[TypedRow::of("lot").with("name", "15"), row]).unwrap();
    let [note] = entered.notes.as_slice() else { panic!("{entered:?}") };
    assert_eq!((note.row, note.table.as_str(), note.column.as_deref()), (1, "field_reading", Some("value")));
    assert!(note.says.is::<said::Unusual>());
    assert!(entered.head.is_some());
}

#[test]
fn notes_beyond_those_shown_are_counted() {
    let mut d = Desk::new();
    let rows: String = (0..intake::import::SHOWN + 7).map(|n| format!("B{n},Zn,1000,mg/L\n")).collect();
    let taken = d.text("lab.csv", LONG, &format!("sample,analyte,value,unit\n{rows}"));
    assert_eq!(taken.notes.len(), intake::import::SHOWN + 1);
    let last = taken.notes.last().unwrap().message.clone().unwrap();
    assert!(last.is::<said::MoreUnusual>());
    assert_eq!(last.arg("more"), Some(&Arg::Count(7)));
}

/// A file that says otherwise of the same thing than the record is refused by row, with the row on record.
#[track_caller]
fn otherwise(mapping: &str, head: &str, rows: [&str; 2], changed: &str, column: &str) {
    let mut d = desk();
    d.text("bottles.csv", "bottles", "label,kind,trip,well\nA,sample,T,SL-2\n");
    d.text("first.csv", mapping, &format!("{head}\n{}\n{}\n", rows[0], rows[1]));
    let before = d.store.head().unwrap();
    let path = d.file("again.csv", format!("{head}\n{}\n{changed}\n", rows[0]));
    let seen = d.look(&path, mapping);
    let Err(ImportError::Refused(faults)) = d.take(&path, mapping) else { panic!("{mapping}: it was taken") };
    assert_eq!(seen.faults, faults, "a preview tells what the import tells");
    assert_eq!(d.store.head().unwrap(), before);
    let told = faults.shown.iter().find(|f| f.check == Check::FileDiffers).unwrap_or_else(|| panic!("{faults:?}"));
    assert_eq!(place(told), (Some(3), Some(column)), "{mapping}");
    let (found, wanted) = halves(told.message.as_ref().unwrap());
    assert!(found.is::<message::found::OtherwiseThanRow>() && wanted.is::<expected::AsRowOrCorrected>(), "{told:?}");
    assert_eq!(found.arg("row"), Some(&Arg::Count(2)));
    assert_eq!(wanted.arg("row"), Some(&Arg::Count(2)));
    // The same rows in another order, and rows beside them, are none of this.
    let turned = d.text("turned.csv", mapping, &format!("{head}\n{}\n{}\n", rows[1], rows[0]));
    assert_eq!((turned.files[0].already, turned.files[0].added.len()), (2, 0), "{mapping}");
}

#[test]
fn a_row_that_says_otherwise_of_the_same_measurement_was_added_beside_it() {
    let at = "2026-07-14 10:45";
    otherwise(
        "fills",
        "well,at,volume_L,seconds",
        [&format!("SL-2,{at},10,25.1"), &format!("SL-2,{at},10,24.9")],
        &format!("SL-2,{at},10,24.7"),
        "seconds",
    );
    otherwise(
        "field-readings",
        "trip,well,at,quantity,value,unit",
        [&format!("T,SL-2,{at},pH,7.8,pH"), &format!("T,SL-2,{at},temperature,9.4,°C")],
        &format!("T,SL-2,{at},temperature,9.7,°C"),
        "value",
    );
    otherwise(
        "air-counts",
        "trip,well,place,at,size_um,count,volume_L",
        [&format!("T,SL-2,cabinet,{at},0.5,3,28.3"), &format!("T,SL-2,cabinet,{at},5,0,28.3")],
        &format!("T,SL-2,cabinet,{at},5,1,28.3"),
        "count",
    );
    otherwise(
        "custody",
        "bottle,trip,at,step,temperature_C",
        [&format!("A,T,{at},sealed,5"), &format!("A,T,{at},sent,5")],
        &format!("A,T,{at},sent,6"),
        "temperature_C",
    );
    otherwise(
        "well-sections",
        "well,from_m,to_m,radius_m,kind,material",
        ["SL-2,0,30,0.05,casing,steel", "SL-2,30,40,0.05,screen,steel"],
        "SL-2,30,40,0.04,screen,steel",
        "radius_m",
    );
    otherwise(
        "layers",
        "well,from_m,to_m,material",
        ["SL-2,0,12,clay", "SL-2,12,40,chalk"],
        "SL-2,12,40,sand",
        "material",
    );
    otherwise("spikes", "bottle,analyte,added_pg,u_pg", ["A,Pb,100,1", "A,Zn,500,5"], "A,Zn,600,5", "added_pg");
    otherwise(
        "source-facts",
        "what,analyte,value,u,source",
        ["\"metal in acid, pg/mL\",Pb,1,0.1,certificate", "\"metal in acid, pg/mL\",Zn,2,0.1,certificate"],
        "\"metal in acid, pg/mL\",Zn,3,0.1,certificate",
        "value",
    );
}

#[test]
fn one_more_fill_of_a_minute_and_another_day_are_not_otherwise() {
    let mut d = desk();
    let head = "well,at,volume_L,seconds\n";
    let three =
        format!("{head}SL-2,2026-07-14 10:45,10,25.1\nSL-2,2026-07-14 10:45,10,24.9\nSL-2,2026-07-14,10,25.0\n");
    d.text("a.csv", "fills", &three);
    let more = d.text("b.csv", "fills", &format!("{three}SL-2,2026-07-14 10:45,10,25.3\n"));
    assert_eq!((more.files[0].added["fill"], more.files[0].already), (1, 3));
    // A day is no moment: there may be many fills on it.
    let day = d.text("c.csv", "fills", &format!("{head}SL-2,2026-07-14,10,26.0\n"));
    assert_eq!(day.files[0].added["fill"], 1);
    let other = d.text("d.csv", "fills", &format!("{head}SL-2,2026-07-13 10:45,10,26.0\n"));
    assert_eq!(other.files[0].added["fill"], 1);
}
