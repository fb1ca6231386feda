//! Two names that are one: what bears the old name reads as the new one, nothing is lost, the record stays as written; what
//! cannot be one is refused by name.

use crate::import_common;
use import_common::{Desk, content};
use intake::entry::{EntryError, TypedRow, enter};
use intake::import::names::Word;
use intake::one_name::{KINDS, Merged, made_one, merge};
use record::model::ResultRow;
use record::schema;
use record::store::Filter;
use record::{By, Error};

const RESULTS: &str = r#"
name = "labor"
target = "results"

[columns.well]
name = "well"

[columns.bottle]
label = "sample"
kind = { constant = "sample" }
well = "well"

[columns.result]
analyte = "analyte"
fraction = "fraction"
value = "value"
unit = "unit"
"#;

const HEAD: &str = "sample,well,analyte,fraction,value,unit\n";

const BY: By = By { person: "Marit Osk", at: "2026-07-21T10:00:00Z" };

/// Lead, a well and a person twice, each under two names: as two laboratories and two people write them.
fn desk() -> Desk {
    let mut desk = Desk::new();
    desk.text("people.csv", "people", "name,role\nMarit Osk,lead\nTobin Rell,sampler\nT Rel,\n");
    desk.text("wells.csv", "wells", "name,description\nQuelle am Hang,behind the barn\n");
    let rows = "A-1,WK1,Pb,unfiltered,1.2,ug/L\nA-2,WK1,Pb,0.45 um,400,ng/L\nA-2,WK1,Zn,0.45 um,4,ug/L\n\
        B-1,Quelle am Hang,Blei laut Labor,unfiltered,1.1,ug/L\nB-2,Quelle am Hang,Blei laut Labor,0.45 um,1.0,ug/L\n";
    desk.text("first.csv", RESULTS, &[HEAD, rows].concat());
    let row = |well: &str, at: &str, value: &str| {
        TypedRow::of("field_reading")
            .with("well", well)
            .with("at", at)
            .with("quantity", "temperature")
            .with("value", value)
            .with("unit", "Cel")
    };
    let rows = [row("WK1", "2026-07-01T10:00:00Z", "9.1"), row("Quelle am Hang", "2026-07-02T10:00:00Z", "9.3")];
    enter(&mut desk.store, BY, "", &rows).unwrap();
    desk
}

fn one(desk: &mut Desk, kind: &str, old: &str, new: &str) -> Result<Merged, EntryError> {
    merge(&mut desk.store, BY, "both are the same, by the register", kind, (old, new))
}

/// What was refused: what was found in what, with nothing written.
fn refused(desk: &mut Desk, kind: &str, old: &str, new: &str) -> String {
    let before = content(&desk.store);
    let refused = match one(desk, kind, old, new) {
        Err(EntryError::Programme(Error::Unfit { found, .. })) => found,
        Err(EntryError::Programme(Error::Absent { name, hint, .. })) => name + &hint,
        other => panic!("{other:?}"),
    };
    assert_eq!(content(&desk.store), before);
    refused
}

fn names(desk: &Desk, table: &str, column: &str) -> Vec<String> {
    let place = schema::table(table).unwrap().place(column).unwrap();
    desk.store.as_typed(table, &Filter::all()).unwrap().into_iter().map(|(_, cells)| cells[place].clone()).collect()
}

fn results(desk: &Desk) -> Vec<(String, i64, f64)> {
    let of = |r: ResultRow| (format!("{}:{}:{}", r.bottle, r.analyte, r.fraction), r.revision, r.value.unwrap());
    desk.store.results(&Filter::all().latest()).unwrap().into_iter().map(of).collect()
}

fn sound(desk: &Desk) {
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn an_analyte_of_two_names_is_one_from_then_on() {
    let mut desk = desk();
    let raw = |desk: &Desk| {
        content(&desk.store).into_iter().filter(|r| r.starts_with("result ") || r.starts_with("measurand "))
    };
    let before: Vec<String> = raw(&desk).collect();
    let merged = one(&mut desk, "analyte", "Blei laut Labor", "Pb").unwrap();
    assert_eq!(merged.corrected, 2);
    assert_eq!(before, raw(&desk).collect::<Vec<_>>(), "the rows stay as they were written");
    let mut all: Vec<String> = results(&desk).into_iter().map(|r| r.0).collect();
    all.sort();
    assert_eq!(all, ["A-1:Pb:unfiltered", "A-2:Pb:0.45 um", "A-2:Zn:0.45 um", "B-1:Pb:unfiltered", "B-2:Pb:0.45 um"]);
    assert_eq!(made_one(&desk.store, "analyte", "Blei laut Labor").unwrap().as_deref(), Some("Pb"));
    sound(&desk);
    // The laboratory goes on writing it so; the same result again is there, another is its next revision.
    let text = [HEAD, "B-1,Quelle am Hang,Blei laut Labor,unfiltered,1.1,ug/L\n"].concat();
    let again = desk.text("again.csv", RESULTS, &text);
    assert_eq!((again.files[0].kept, again.files[0].taken_as[0].word), (1, Word::OneName));
    for (n, analyte) in [(2, "Blei laut Labor"), (3, "Pb")] {
        desk.text(&format!("{n}.csv"), RESULTS, &format!("{HEAD}B-1,Quelle am Hang,{analyte},unfiltered,{n},ug/L\n"));
        let now: Vec<_> = results(&desk).into_iter().filter(|r| r.0 == "B-1:Pb:unfiltered").collect();
        assert_eq!(now, [("B-1:Pb:unfiltered".into(), n, n as f64)]);
    }
    sound(&desk);
}

#[test]
fn a_well_of_two_names_is_one_with_all_that_was_said_of_it() {
    let mut desk = desk();
    one(&mut desk, "well", "Quelle am Hang", "WK1").unwrap();
    assert_eq!(names(&desk, "well", "name"), ["WK1"]);
    assert_eq!(names(&desk, "well", "description"), ["behind the barn"], "what the old row said is taken over");
    assert!(names(&desk, "bottle", "well").iter().all(|w| w == "WK1"));
    assert_eq!(names(&desk, "field_reading", "well"), ["WK1", "WK1"]);
    sound(&desk);
    // Files and forms that still write the old name mean the new one.
    desk.text("next.csv", RESULTS, &[HEAD, "B-3,Quelle am Hang,Pb,unfiltered,1,ug/L\n"].concat());
    assert_eq!((names(&desk, "bottle", "well").pop().unwrap(), names(&desk, "well", "name").len()), ("WK1".into(), 1));
    let row = TypedRow::of("well_section").with("well", "Quelle am Hang").with("from_m", "0").with("to_m", "9");
    let row = row.with("radius_m", "0.05").with("kind", "casing");
    enter(&mut desk.store, BY, "", &[row]).unwrap();
    assert_eq!(names(&desk, "well_section", "well"), ["WK1"]);
    sound(&desk);
}

#[test]
fn a_person_a_fraction_and_a_quantity_of_two_names_are_one() {
    let mut desk = desk();
    one(&mut desk, "person", "T Rel", "Tobin Rell").unwrap();
    assert_eq!(names(&desk, "person", "name"), ["Marit Osk", "Tobin Rell"]);
    desk.text("f.csv", &RESULTS.replace("\"labor\"", "\"f\""), &[HEAD, "C-1,WK1,Cd,filtered,1,ug/L\n"].concat());
    let row = TypedRow::of("field_reading").with("well", "WK1").with("at", "2026-07-03T10:00:00Z");
    let row = row.with("quantity", "Wassertemperatur").with("value", "9").with("unit", "Cel");
    let noted = enter(&mut desk.store, BY, "", &[row]).unwrap();
    assert!(noted.notes[0].says.is::<message::intake::NearTo>(), "{:?}", noted.notes);
    one(&mut desk, "quantity", "Wassertemperatur", "temperature").unwrap();
    assert_eq!(names(&desk, "field_reading", "quantity"), ["temperature"; 3]);
    sound(&desk);
}

#[test]
fn what_cannot_be_one_is_refused_by_name() {
    let mut desk = desk();
    let rows = "D-1,WK1,208Pb,unfiltered,1,ug/L\nD-2,WK1,Menge,unfiltered,1,uS/cm\nD-3,WK1,Stoff,unfiltered,1,ug/L\n\
        A-1,WK1,Stoff,unfiltered,1,ug/L\n";
    desk.text("d.csv", RESULTS, &[HEAD, rows].concat());
    assert!(refused(&mut desk, "analyte", "208Pb", "Pb").contains("two things"));
    assert!(refused(&mut desk, "analyte", "Zn", "Pb").contains("two things"));
    assert!(refused(&mut desk, "fraction", "0.45 um", "unfiltered").contains("two things"));
    assert!(refused(&mut desk, "analyte", "Menge", "Stoff").contains("units uS/cm and ug/L"));
    assert!(refused(&mut desk, "analyte", "Stoff", "Pb").contains("1 bottles: A-1"));
    assert!(refused(&mut desk, "analyte", "Pbb", "Stoff").contains("Pbb"));
    assert!(refused(&mut desk, "well", "WK1", "WK1").contains("twice"));
    assert!(refused(&mut desk, "person", "Marit Osk", "Tobin Rell").contains("old name"));
    assert!(refused(&mut desk, "bottle", "A-1", "A-2").contains("bottle"));
    // Two wells of which one figure differs, and two readings of one moment.
    let row = TypedRow::of("field_reading").with("well", "WK1").with("at", "2026-07-02T10:00:00Z");
    let row = row.with("quantity", "temperature").with("value", "12").with("unit", "Cel");
    enter(&mut desk.store, BY, "", &[row]).unwrap();
    assert!(refused(&mut desk, "well", "Quelle am Hang", "WK1").contains("value 9.3 and 12"));
    let said = merge(&mut desk.store, BY, " ", "well", ("Quelle am Hang", "WK1"));
    assert!(matches!(said, Err(EntryError::Programme(Error::Unfit { .. }))));
    assert!(KINDS.contains(&"well"));
}
