//! Compounds of a laboratory's list that nobody described: counted, told where they were found, and one number of
//! substances in the list and in a sentence on it.

use crate::import_common;
use assessment::organics;
use assessment::results;
use import_common::Desk;
use programme::start::start;
use programme::statement::{self, New, Sentence};
use programme::work;
use quantity::Lang;
use record::by::By;
use serde_json::json;

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

fn desk() -> Desk {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nSL-2,groundwater\n");
    let bottles = format!(
        "label,kind,well,fraction,filled_at\n{},sample,SL-2,unfiltered,2026-07-14 09:00\n",
        simulator::organics::BOTTLE
    );
    desk.text("bottles.csv", "bottles", &bottles);
    desk
}

/// The invented list, its compounds described by nobody.
fn list(desk: &mut Desk) {
    desk.text("organics.csv", "organics-long", &simulator::organics::report());
}

fn report(desk: &mut Desk) -> limits::absence::Report {
    work::recompute(&mut desk.store, None, BY).unwrap();
    let all = results::all(&desk.store).unwrap();
    organics::report(&desk.store, &all, Lang::En).unwrap().expect("a list of compounds")
}

fn free(desk: &mut Desk, name: &str) -> statement::Stated {
    let fields = json!({"kind": "absence", "bottle": simulator::organics::BOTTLE, "of": "organic compounds"});
    let new = New { name, sentence: &Sentence::read(&fields).unwrap(), despite: Some("another laboratory's list") };
    statement::add(&mut desk.store, &new, BY).unwrap()
}

#[test]
fn a_compound_that_nobody_described_is_found_and_told_first() {
    let mut desk = desk();
    list(&mut desk);
    let before = report(&mut desk);
    assert_eq!(before.found, Vec::<String>::new());
    desk.text(
        "more.csv",
        "organics-long",
        "bottle,analyte,cas,value,u,unit\nSL2-26-07-O,vinyl chloride,75-01-4,2.4,0.3,µg/L\n",
    );
    let r = report(&mut desk);
    assert_eq!((r.found.as_slice(), r.compounds), (["vinyl chloride".to_string()].as_slice(), before.compounds + 1));
    assert!(r.frequency_upper_95.is_none());
    let first = |text: &str| text.find("vinyl chloride").expect("it is told");
    for text in [&r.plain, &r.scientific] {
        assert!(first(text) < text.find("dieldrin").unwrap_or(usize::MAX), "{text}");
        assert!(!text.contains("none was found"), "{text}");
    }
    let s = free(&mut desk, "free");
    assert_eq!(s.answer, "contradicted");
    assert!(s.plain.contains("vinyl chloride") && !s.plain.contains("none was found"), "{}", s.plain);
}

/// The list as it is invented: 120 rows, lindane under two names.
#[test]
fn the_list_and_a_sentence_on_it_count_the_same_substances() {
    let mut desk = desk();
    list(&mut desk);
    let r = report(&mut desk);
    assert_eq!((r.rows.len(), r.compounds), (120, 119));
    let s = free(&mut desk, "free");
    assert_eq!(serde_json::to_value(&s.kept).unwrap()["substances"], json!(119));
    let told = |text: &str, n: &str| text.split(|c: char| !c.is_ascii_digit()).any(|w| w == n);
    for text in [&s.plain, &s.scientific, &r.plain, &r.scientific] {
        assert!(told(text, "119") && !told(text, "120"), "{text}");
    }
}

/// A person's own mapping says nothing of compounds: what stands beside them in the bottle counts with them, unless it
/// is no compound.
#[test]
fn a_compound_counts_by_whatever_mapping_it_came() {
    let mut desk = desk();
    list(&mut desk);
    let before = report(&mut desk).compounds;
    desk.text(
        "own.csv",
        "laboratory-long",
        "bottle,analyte,fraction,value,u,unit,laboratory\n\
         SL2-26-07-O,chloroform,unfiltered,<0.1,,µg/L,L\n\
         SL2-26-07-O,Pb,unfiltered,20,1.6,ng/L,L\n\
         SL2-26-07-O,nitrate,unfiltered,1,0.1,mg/L as N,L\n\
         SL2-26-07-O,TOC,unfiltered,1.2,0.1,mg/L,L\n\
         SL2-26-07-O,specific conductance,unfiltered,412,4,uS/cm,L\n",
    );
    let r = report(&mut desk);
    assert_eq!((r.compounds, r.found.len()), (before + 1, 0), "{:?}", r.found);
    assert!(r.rows.iter().any(|row| row.name == "chloroform"));
}

/// A net value under zero without u says nothing of the compound: it stays in the list, without a bound.
#[test]
fn a_compound_without_u_under_zero_is_not_dropped() {
    let mut desk = desk();
    desk.text(
        "list.csv",
        "organics-long",
        "bottle,analyte,cas,value,u,unit\nSL2-26-07-O,diuron,330-54-1,<0.01,,µg/L\nSL2-26-07-O,linuron,330-55-2,-0.001,,µg/L\n",
    );
    let r = report(&mut desk);
    assert_eq!((r.compounds, r.open.as_slice()), (2, ["linuron".to_string()].as_slice()));
    assert_eq!(r.highest_sum, None);
}
