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

/// What was found stands with its limit and laboratory; nothing but pesticides is held to the limit of pesticides.
/// Figures of Directive (EU) 2020/2184, annex I B, from memory: vinyl chloride 0.50, pesticides 0.50 together.
#[test]
fn what_was_found_stands_with_its_limit_and_laboratory() {
    let mut desk = desk();
    list(&mut desk);
    let before = report(&mut desk);
    let sum = |r: &limits::absence::Report| r.groups.iter().find(|g| g.group == "pesticides").unwrap().clone();
    desk.text(
        "more.csv",
        "organics-long",
        "bottle,analyte,cas,value,u,unit,laboratory\nSL2-26-07-O,vinyl chloride,75-01-4,2.4,0.3,µg/L,Harrow\n\
         SL2-26-07-O,erlenxylodur,,0.3,0.02,µg/L,Harrow\n",
    );
    let r = report(&mut desk);
    let found = r.found_rows();
    let told: Vec<_> = found.iter().map(|f| (f.name.as_str(), f.limit, f.answer, f.laboratory.as_deref())).collect();
    let over = Some(limits::Answer::Above);
    assert_eq!(
        told,
        [("vinyl chloride", Some(0.5), over, Some("Harrow")), ("erlenxylodur", None, None, Some("Harrow"))]
    );
    assert_eq!(sum(&r), sum(&before), "neither is a pesticide");
    assert!(r.without_limit.contains(&"erlenxylodur".to_string()), "{:?}", r.without_limit);
    assert!(!r.without_limit.contains(&"vinyl chloride".to_string()));
    // What lies above stands among the results beside limits too, where a person looks first.
    let all = results::all(&desk.store).unwrap();
    let against = programme::limits_of::against_of(&desk.store, &all, &programme::limits_of::Asked::default()).unwrap();
    let first = &against.rows[0];
    assert_eq!(
        (first.analyte.as_str(), first.comparison.limit.high, first.nearest_health),
        ("vinyl chloride", 0.5, true)
    );
    assert_eq!(first.comparison.answer, limits::Answer::Above);
    assert!(!against.without_limit.contains(&"vinyl chloride".to_string()));
}

/// The slip in atrazine's number (1912-24-8 for 1912-24-9, the registry's number from memory) is put right by a person:
/// the fault is gone, the act names who and why, and the number as it stood is kept.
#[test]
fn a_wrong_number_is_corrected_with_a_reason() {
    let mut desk = desk();
    desk.text("numbers.csv", "compounds", &simulator::organics::numbers());
    list(&mut desk);
    let faulty =
        |r: &limits::absence::Report| r.told.iter().filter(|f| f.is::<message::absence::CheckDigitKnown>()).count();
    assert_eq!(faulty(&report(&mut desk)), 1);
    let wrong = work::set_cas(&mut desk.store, "atrazine", "1912-24-7", "read again", BY).unwrap_err();
    assert!(wrong.to_string().contains("check digit 9"), "{wrong}");
    assert!(work::set_cas(&mut desk.store, "atrazine", "1912-24-9", " ", BY).is_err(), "a reason is needed");
    let head = work::set_cas(&mut desk.store, "atrazine", "1912-24-9", "slip of the laboratory", BY).unwrap();
    assert!(head.is_some());
    let r = report(&mut desk);
    assert_eq!((faulty(&r), r.compounds), (0, 119));
    let event = desk.store.events().unwrap().into_iter().rev().find(|e| e.kind == "correction").unwrap();
    assert_eq!(
        (event.author.as_str(), event.json["body"]["why"].as_str()),
        (BY.person, Some("slip of the laboratory"))
    );
    // Once more changes nothing; a compound that nobody described is described; one without a result is refused.
    assert_eq!(work::set_cas(&mut desk.store, "atrazine", "1912-24-9", "again", BY).unwrap(), None);
    assert!(work::set_cas(&mut desk.store, "no such compound", "75-01-4", "x", BY).is_err());
}

/// A rejected list bounds nothing, and what it found is not passed over.
#[test]
fn a_rejected_list_bounds_nothing() {
    let mut desk = desk();
    list(&mut desk);
    desk.text(
        "more.csv",
        "organics-long",
        "bottle,analyte,cas,value,u,unit\nSL2-26-07-O,vinyl chloride,75-01-4,2.4,0.3,µg/L\n",
    );
    report(&mut desk);
    work::exclude(&mut desk.store, simulator::organics::BOTTLE, true, "came broken", BY).unwrap();
    let r = report(&mut desk);
    assert_eq!((r.found.as_slice(), r.highest_sum), (["vinyl chloride".to_string()].as_slice(), None));
    assert!(r.found_rows()[0].rejected && r.groups.iter().all(|g| g.answer == limits::Answer::CannotTell));
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
