//! Names that a file brings and that may be slips of names on record: refused with the nearest, read as another by a
//! person's word alone, kept with the mapping, never for another species, fraction or number in a series. The slips are
//! likely ones in English and German, from memory.

use crate::import_common;
use import_common::{Desk, content};
use intake::import::names::{Proposal, Word, proposals};
use intake::import::{Agreed, ImportError, Imported, Input, Mapping, import_agreed, preview_agreed};
use message::{Message, expected, intake as says};
use quantity::Finding;
use record::By;
use record::model::SameName;
use record::schema;
use record::store::Filter;

/// A laboratory's table, all names as it writes them.
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
unit = { constant = "ug/L" }
"#;

const HEAD: &str = "sample,well,analyte,fraction,value\n";

/// A programme with two wells, a person, two analytes and two fractions.
fn desk() -> Desk {
    let mut desk = Desk::new();
    desk.text("people.csv", "people", "name,role\nMarit Osk,lead\n");
    let rows = "WK1-A,WK1,Pb,unfiltered,1.2\nWK1-B,WK1,Pb,0.45 um,0.4\nWK2-A,WK2,K,unfiltered,2500\n";
    desk.text("first.csv", RESULTS, &[HEAD, rows].concat());
    desk
}

fn agreed(take: &[(&str, &str)], new: &[&str]) -> Agreed {
    let take = take.iter().map(|(a, b)| ((*a).to_string(), (*b).to_string())).collect();
    Agreed { take, new: new.iter().map(ToString::to_string).collect() }
}

fn take(desk: &mut Desk, rows: &str, agreed: &Agreed) -> Result<Imported, ImportError> {
    take_by(desk, RESULTS, &[HEAD, rows].concat(), agreed)
}

fn take_by(desk: &mut Desk, mapping: &str, text: &str, agreed: &Agreed) -> Result<Imported, ImportError> {
    let path = desk.file("next.csv", text);
    let mapping = if mapping.contains('\n') { Mapping::parse(mapping) } else { Mapping::shipped(mapping) };
    let input = Input { path, mapping: mapping.unwrap() };
    let by = By { person: "Marit Osk", at: "2026-07-21T10:00:00Z" };
    import_agreed(&mut desk.store, &[input], by, ("as the laboratory writes it", agreed), &|_| true)
}

/// What is proposed where these rows are refused; the store stays as it was.
fn proposed(desk: &mut Desk, mapping: &str, text: &str) -> Vec<Proposal> {
    let before = content(&desk.store);
    let Err(ImportError::Refused(faults)) = take_by(desk, mapping, text, &Agreed::default()) else {
        panic!("taken in: {text}");
    };
    assert_eq!(content(&desk.store), before);
    let seen = proposals(&faults.shown);
    assert!(!seen.is_empty(), "{:?}", faults.shown);
    seen
}

fn one(written: &str, near: &str) -> Vec<Proposal> {
    vec![Proposal { written: written.into(), near: vec![near.into()], may_be_new: true }]
}

fn told<T: message::Declared>(imported: &Imported) -> Vec<&Message> {
    imported.notes.iter().filter_map(|n: &Finding| n.message.as_ref()).filter(|m| m.is::<T>()).collect()
}

fn column(desk: &Desk, table: &str, column: &str) -> Vec<String> {
    let place = schema::table(table).unwrap().place(column).unwrap();
    desk.store.as_typed(table, &Filter::all()).unwrap().into_iter().map(|(_, cells)| cells[place].clone()).collect()
}

#[test]
fn each_new_name_that_may_be_a_slip_is_refused_with_the_nearest() {
    let mut desk = desk();
    for (row, written, near) in [
        ("X,WK1,Blei,unfiltered,1", "Blei", "Pb"),
        ("X,WK1,pb,unfiltered,1", "pb", "Pb"),
        ("X,WK1,Kalium,unfiltered,1", "Kalium", "K"),
        ("X,WK1,Pb,unfilterd,1", "unfilterd", "unfiltered"),
        ("X,WK1,Pb,ungefiltert,1", "ungefiltert", "unfiltered"),
        ("X,WK1,Pb,0.45um,1", "0.45um", "0.45 um"),
        ("X,Wk 1,Pb,unfiltered,1", "Wk 1", "WK1"),
        ("wk1-a,WK1,Pb,unfiltered,1", "wk1-a", "WK1-A"),
    ] {
        // Twice in the file, told once.
        let text = format!("{HEAD}{row}\n{}\n", row.replacen("X,", "Y,", 1));
        assert_eq!(proposed(&mut desk, RESULTS, &text), one(written, near), "{row}");
    }
    assert_eq!(proposed(&mut desk, "people", "name,role\nMarit Oks,\n"), one("Marit Oks", "Marit Osk"));
}

#[test]
fn a_row_that_is_referred_to_by_a_slip_is_refused_with_the_nearest_and_cannot_be_new() {
    let mut desk = desk();
    let text = "name,bottle\nP-1,WK1_A\n";
    let mapping = "name = \"teile\"\ntarget = \"aliquot\"\nheadings = \"own\"\n";
    let seen = proposed(&mut desk, mapping, text);
    assert_eq!(seen, [Proposal { written: "WK1_A".into(), near: vec!["WK1-A".into()], may_be_new: false }]);
    let taken = take_by(&mut desk, mapping, text, &agreed(&[("WK1_A", "WK1-A")], &[])).unwrap();
    assert_eq!(taken.files[0].taken_as[0].taken, "WK1-A");
    assert_eq!(column(&desk, "aliquot", "bottle"), ["WK1-A"]);
    // Where nothing is near, what there was to say is said.
    let Err(ImportError::Refused(faults)) = take_by(&mut desk, mapping, "name,bottle\nP-2,Q-9\n", &Agreed::default())
    else {
        panic!("taken in");
    };
    assert!(proposals(&faults.shown).is_empty() && faults.total == 1);
}

#[test]
fn what_a_person_agrees_to_is_read_so_kept_with_act_and_mapping_and_told() {
    let mut desk = desk();
    let taken = take(&mut desk, "WK2-B,WK2,Blei,0.45um,0.3\n", &agreed(&[("Blei", "Pb"), ("0.45um", "0.45 um")], &[]));
    let taken = taken.unwrap();
    let read: Vec<_> = taken.files[0].taken_as.iter().map(|t| (t.kind, &*t.written, &*t.taken, t.word)).collect();
    assert_eq!(read, [("analyte", "Blei", "Pb", Word::Now), ("fraction", "0.45um", "0.45 um", Word::Now)]);
    assert_eq!(told::<says::TakenAs>(&taken).len(), 2);
    assert_eq!(column(&desk, "measurand", "analyte"), ["Pb", "Pb", "K"]);
    let kept = desk.store.list::<SameName>(&Filter::all()).unwrap();
    let kept: Vec<_> =
        kept.iter().map(|s| (&*s.written, &*s.stands_for, s.mapping.as_deref(), s.person.as_deref())).collect();
    let marit = Some("Marit Osk");
    assert_eq!(kept, [("Blei", "Pb", Some("labor"), marit), ("0.45um", "0.45 um", Some("labor"), marit)]);
    let event = desk.store.events().unwrap().pop().unwrap();
    assert!(event.json.to_string().contains("\"taken_as\""), "{:?}", event.json);
    // The next file of the same mapping needs no word, and says so; another mapping has no such word.
    let next = take(&mut desk, "WK2-C,WK2,Blei,unfiltered,0.3\n", &Agreed::default()).unwrap();
    assert_eq!((told::<says::TakenAsBefore>(&next).len(), next.files[0].taken_as[0].word), (1, Word::Before));
    let other = RESULTS.replace("\"labor\"", "\"other\"");
    let text = [HEAD, "WK2-D,WK2,Blei,unfiltered,0.3\n"].concat();
    assert_eq!(proposed(&mut desk, &other, &text), one("Blei", "Pb"));
    assert_eq!(desk.store.list::<SameName>(&Filter::all()).unwrap().len(), 2);
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn a_name_that_is_meant_as_new_comes_in_and_needs_no_word_again() {
    let mut desk = desk();
    take(&mut desk, "WK2-B,Wk 1,Pb,unfiltered,0.3\n", &agreed(&[], &["Wk 1"])).unwrap();
    assert_eq!(column(&desk, "well", "name"), ["WK1", "WK2", "Wk 1"]);
    take(&mut desk, "WK2-C,Wk 1,Pb,unfiltered,0.4\n", &Agreed::default()).unwrap();
}

#[test]
fn what_is_near_to_nothing_comes_in_and_is_told() {
    let mut desk = desk();
    let taken = take(&mut desk, "WK3-A,WK3,Kalium-40,unfiltered,0.3\nWK3-B,WK3,Cd,filtered,1\n", &Agreed::default());
    let taken = taken.unwrap();
    let new: Vec<_> = told::<says::NewNames>(&taken).iter().map(|m| format!("{:?}", m.arg("names").unwrap())).collect();
    for name in ["Kalium-40, Cd", "filtered", "WK3"] {
        assert!(new.iter().any(|n| n.contains(name)), "{name}: {new:?}");
    }
    // In an empty programme all names are new, and that is no news; a name that limits do not know is.
    let mut empty = Desk::new();
    let first = take(&mut empty, "A,W,Blei,unfiltered,1\n", &Agreed::default()).unwrap();
    assert!(told::<says::NewNames>(&first).is_empty());
    assert_eq!(told::<says::KnownHere>(&first).len(), 1);
}

#[test]
fn unlike_species_fractions_and_numbers_of_a_series_come_in_unasked() {
    let mut desk = desk();
    let rows = "WK1-C,WK3,208Pb,unfiltered,1\nWK1-D,WK11,Cr,filtered,1\nWK1-E,WK3,Cr(VI),0.2 um,1\n";
    let taken = take(&mut desk, rows, &Agreed::default()).unwrap();
    assert!(taken.files[0].taken_as.is_empty());
    // An unfiltered is no filtered, also where somebody mistyped it.
    let seen = proposed(&mut desk, RESULTS, &[HEAD, "Z-9,WK1,Pb,unfilterd,1\n"].concat());
    assert_eq!(seen, one("unfilterd", "unfiltered"));
}

#[test]
fn two_names_of_one_file_that_are_one_do_not_give_a_bottle_two_values() {
    let mut desk = desk();
    for rows in
        ["N-1,WK1,Pb,unfiltered,1\nN-1,WK1,Blei,unfiltered,2\n", "N-1,WK1,Blei,unfiltered,2\nN-1,WK1,Pb,unfiltered,1\n"]
    {
        let Err(ImportError::Refused(faults)) = take(&mut desk, rows, &agreed(&[("Blei", "Pb")], &[])) else {
            panic!("taken in: {rows}");
        };
        let says = faults.shown[0].message.clone().unwrap();
        assert!(format!("{says:?}").contains("result-by-two-names"), "{says:?}");
    }
}

#[test]
fn a_word_that_cannot_hold_or_meets_nothing_is_told() {
    let mut desk = desk();
    let Err(ImportError::Refused(faults)) =
        take(&mut desk, "N-1,WK1,Blei,unfiltered,1\n", &agreed(&[("Blei", "Pbb")], &[]))
    else {
        panic!("taken in");
    };
    let Some(message::Arg::Message(why)) = faults.shown[0].message.as_ref().unwrap().arg("expected") else { panic!() };
    assert!(why.is::<expected::TargetKnown>());
    let taken = take(&mut desk, "N-1,WK1,Pb,unfiltered,1\n", &agreed(&[("Bley", "Pb")], &["Kalium-40"])).unwrap();
    assert_eq!(told::<says::AgreedForNothing>(&taken).len(), 2);
}

#[test]
fn a_preview_shows_names_where_rows_refer_to_rows() {
    let mut desk = desk();
    let path = desk.file("next.csv", [HEAD, "N-1,WK1,Pb,unfiltered,1\n"].concat());
    let input = Input { path, mapping: Mapping::parse(RESULTS).unwrap() };
    let seen = preview_agreed(&mut desk.store, &[input], "2026-07-21T10:00:00Z", ("", &Agreed::default())).unwrap();
    let tables = &seen.files[0].tables;
    let cell = |table: &str, column: &str| {
        let rows = &tables[table];
        rows.rows[0][rows.columns.iter().position(|c| *c == column).unwrap()].clone()
    };
    assert_eq!(cell("bottle", "well"), "WK1");
    assert_eq!((cell("result", "bottle"), cell("result", "measurand")), ("N-1".into(), "Pb unfiltered".into()));
}
