//! What a contract laboratory gives can be accepted, by a profile that a person chose, and says so; what is missing is
//! named; what was measured and fails is not unsaid; nothing moves where nobody chose.

use crate::demo_common;
use assessment::results::{self, Listed};
use intake::import::{Input, Mapping, import};
use programme::profiles::{self, Scope};
use programme::{checks, start, work};
use record::by::By;
use record::model::{State, VerdictWord};
use record::store::Store;
use simulator::{Purpose, Trip};
use std::collections::BTreeMap;
use std::path::Path;

const LEAD: By = By { person: "Jule Ahrend", at: "2026-09-01T10:00:00Z" };
const WHY: &str = "the laboratory's reports of this year, agreed on 1 September";
const PROFILE: &str = "contract laboratory";

const WELLS: &str = "name,medium\nBrunnen 1,groundwater\n";
const BOTTLES: &str = "label,kind,well,filled_at,fraction\nE-25,sample,Brunnen 1,2025-05-12 10:00,unfiltered\nE-26,sample,Brunnen 1,2026-05-14 10:15,unfiltered\n";
/// Iron and calcium found, lead not, one value below its blank without u; no uncertainty but of one.
const RESULTS: &str = "bottle,analyte,fraction,value,u,unit,reporting_limit,laboratory,method
E-25,Fe,unfiltered,1990,,ug/L,5,Labor E,M 1
E-26,Fe,unfiltered,2100,70,ug/L,5,Labor E,M 1
E-26,Pb,unfiltered,<0.2,,ug/L,0.2,Labor E,M 1
E-26,Ca,unfiltered,82.6,,mg/L,0.5,Labor E,M 2
E-26,Zn,unfiltered,-0.3,,ug/L,1,Labor E,M 1
E-26,Ni,unfiltered,4,,ug/L,1,Labor F,M 9
E-26,pH,unfiltered,7.4,,pH,,meter 3,electrode
";
const QUALITY: &str = "laboratory,method,analyte,kind,from_day,until_day,answer,value,below,second,expected,unit,note
Labor E,M 1,,accreditation,,,yes,,,,,,D-1 (invented)
Labor E,M 1,Fe,blank,2026-05-01,2026-06-30,,,1,,,ug/L,batch 7
Labor E,M 1,Fe,recovery,2026-05-01,2026-06-30,,48.1,,,50,ug/L,batch 7
Labor E,M 1,Fe,duplicate,2026-05-01,2026-06-30,,2060,,2140,,ug/L,batch 7
Labor E,M 1,Pb,blank,2026-05-01,2026-06-30,,,0.1,,,ug/L,batch 7
Labor E,M 1,Pb,recovery,2026-05-01,2026-06-30,,97,,,,%,batch 7
Labor E,M 1,Pb,duplicate,2026-05-01,2026-06-30,,0.3,,0.2,,ug/L,batch 7
Labor E,M 1,Zn,blank,2026-05-01,2026-06-30,,,0.5,,,ug/L,batch 7
Labor E,M 1,Zn,recovery,2026-05-01,2026-06-30,,97,,,,%,batch 7
Labor E,M 1,Zn,duplicate,2026-05-01,2026-06-30,,4,,,,%,batch 7
Labor F,,,accreditation,,,no,,,,,,asked by telephone
Labor F,,Ni,blank,2026-05-14,,,0.4,,,,ug/L,
Labor F,,Ni,recovery,2026-05-14,,,88,,,,%,
Labor F,,Ni,duplicate,2026-05-14,,,3,,,,%,
meter 3,,pH,meter-check,2026-05-14,,,7.05,,,7.00,pH,buffer 7
";

fn take(store: &mut Store, dir: &Path, name: &str, mapping: &str, text: &str) {
    std::fs::write(dir.join(name), text).unwrap();
    let input = Input { path: dir.join(name), mapping: Mapping::shipped(mapping).unwrap() };
    import(store, &[input], LEAD.person, LEAD.at).unwrap_or_else(|e| panic!("{e}"));
    work::recompute(store, None, LEAD).unwrap();
}

fn programme(dir: &Path) -> Store {
    let mut store = start::start(dir.join("p.sqlite"), LEAD.person, LEAD.at).unwrap();
    for (name, mapping, text) in
        [("w.csv", "wells", WELLS), ("b.csv", "bottles", BOTTLES), ("r.csv", "laboratory-long", RESULTS)]
    {
        take(&mut store, dir, name, mapping, text);
    }
    store
}

type Stands = BTreeMap<String, (VerdictWord, Vec<String>, Option<String>)>;

/// Word, reasons and profile of each result of a water.
fn stands(store: &Store) -> Stands {
    let all = results::all(store).unwrap().into_iter();
    all.filter_map(|r| Some((format!("{} {}", r.bottle, r.analyte), (r.verdict?, r.reasons, r.profile)))).collect()
}

#[track_caller]
fn check(of: &Stands, result: &str, word: VerdictWord, reasons: &[&str]) {
    let (found, because, profile) = &of[result];
    assert_eq!((*found, because.iter().map(String::as_str).collect::<Vec<_>>()), (word, reasons.to_vec()), "{result}");
    assert_eq!(profile.as_deref(), Some(PROFILE), "{result}");
}

#[test]
fn what_a_laboratory_gives_is_enough_for_its_profile_and_what_is_missing_is_named() {
    use VerdictWord::{Accepted, Provisional};
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path());
    let before = stands(&store);
    assert!(before.values().all(|(word, reasons, profile)| {
        *word == Provisional && reasons.contains(&"number.recovery".to_string()) && profile.is_none()
    }));
    profiles::choose(&mut store, Some(PROFILE), Scope::default(), WHY, LEAD).unwrap();
    let empty = stands(&store);
    let lacking = ["lab.accreditation", "lab.blank", "lab.recovery", "lab.duplicate"];
    check(&empty, "E-26 Fe", Provisional, &lacking);
    take(&mut store, dir.path(), "q.csv", "laboratory-quality", QUALITY);
    let with = stands(&store);
    for accepted in ["E-26 Fe", "E-26 Pb"] {
        check(&with, accepted, Accepted, &[]);
    }
    // Of last year nothing came, of the other method nothing.
    check(&with, "E-25 Fe", Provisional, &lacking[1..]);
    check(&with, "E-26 Ca", Provisional, &lacking);
    // Below its blank and without u: complete in all else, and still no claim.
    check(&with, "E-26 Zn", Provisional, &["number.negative"]);
    check(&with, "E-26 Ni", Provisional, &["lab.not-accredited"]);
    // Somebody who knows the method stands for it.
    work::sign(&mut store, "E-26:Ni", "ring test of 2025, good", LEAD).unwrap();
    work::recompute(&mut store, None, LEAD).unwrap();
    check(&stands(&store), "E-26 Ni", Accepted, &[]);
    let zinc: Listed = results::all(&store).unwrap().into_iter().find(|r| r.analyte == "Zn").unwrap();
    assert_eq!(zinc.state, State::NotDecided);
    // The table again: what stood stands, but for the one that was signed.
    profiles::choose(&mut store, None, Scope::default(), "the meeting took it back", LEAD).unwrap();
    let mut after = stands(&store);
    after.insert("E-26 Ni".into(), before["E-26 Ni"].clone());
    assert_eq!(after, before);
    assert_eq!(store.verify(None).unwrap().differences, []);
}

#[test]
fn a_day_that_is_none_is_refused_at_its_row() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path());
    let text = "laboratory,kind,from_day,value,unit\nLabor E,blank,14.05.2026,1,ug/L\n";
    std::fs::write(dir.path().join("q.csv"), text).unwrap();
    let input = Input { path: dir.path().join("q.csv"), mapping: Mapping::shipped("laboratory-quality").unwrap() };
    let e = import(&mut store, &[input], LEAD.person, LEAD.at).unwrap_err().to_string();
    assert!(e.contains("from_day") && e.contains("14.05.2026") && e.contains("2026-07-15"), "{e}");
}

#[test]
fn what_was_measured_and_fails_rejects_whatever_the_profile() {
    let failing = [
        // Twice the reporting limit, and more than a tenth of what was found.
        ("Labor F,,Ni,blank,2026-05-14,,,2.0,,,,ug/L,", "lab.blank"),
        ("Labor F,,Ni,recovery,2026-05-14,,,61,,,,%,", "lab.recovery"),
        ("Labor F,,Ni,duplicate,2026-05-14,,,12,,7,,ug/L,", "lab.duplicate"),
    ];
    for (row, reason) in failing {
        let dir = tempfile::tempdir().unwrap();
        let mut store = programme(dir.path());
        take(&mut store, dir.path(), "q.csv", "laboratory-quality", &format!("{QUALITY}{row}\n"));
        profiles::choose(&mut store, Some(PROFILE), Scope { laboratory: Some("Labor F"), analyte: None }, WHY, LEAD)
            .unwrap();
        let now = stands(&store);
        check(&now, "E-26 Ni", VerdictWord::Rejected, &[reason]);
        // Of another laboratory nothing was chosen.
        assert_eq!(now["E-26 Fe"].2, None);
        // Taken out by a person stays out.
        work::exclude(&mut store, "E-26", true, "came open", LEAD).unwrap();
        assert_eq!(stands(&store)["E-26 Ni"].0, VerdictWord::Rejected);
    }
}

#[test]
fn a_meter_is_judged_by_its_check_of_the_day() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path());
    let scope = Scope { laboratory: None, analyte: Some("pH") };
    profiles::choose(&mut store, Some("field meters"), scope, WHY, LEAD).unwrap();
    assert_eq!(stands(&store)["E-26 pH"].1, ["field.meter-check"]);
    take(&mut store, dir.path(), "q.csv", "laboratory-quality", QUALITY);
    let (word, reasons, profile) = stands(&store)["E-26 pH"].clone();
    assert_eq!((word, reasons.len(), profile.as_deref()), (VerdictWord::Accepted, 0, Some("field meters")));
    let refused =
        profiles::choose(&mut store, Some("field meters"), Scope { laboratory: None, analyte: Some("Fe") }, WHY, LEAD);
    assert!(refused.unwrap_err().to_string().contains("no meter read"));
}

#[test]
fn no_profile_of_laboratories_reaches_what_was_counted() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo_common::record(dir.path(), &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    work::recompute(&mut store, None, LEAD).unwrap();
    let counted = |store: &Store| -> Stands {
        let rows = store.results(&record::store::Filter::all().latest()).unwrap();
        let vials: Vec<i64> = rows.into_iter().filter(|r| r.vial_id.is_some()).map(|r| r.id).collect();
        let listed = results::listed(store, &vials).unwrap().into_iter();
        listed.filter_map(|r| Some((r.result.to_string(), (r.verdict?, r.reasons, r.profile)))).collect()
    };
    let before = counted(&store);
    assert!(before.len() > 20);
    profiles::choose(&mut store, Some(PROFILE), Scope::default(), WHY, LEAD).unwrap();
    assert_eq!(counted(&store), before);
    // The profile for counts asks what the table asks: the words stay, and bear its name.
    profiles::choose(&mut store, Some("ng/L metals from counts"), Scope::default(), WHY, LEAD).unwrap();
    let by_profile = counted(&store);
    let words = |s: &Stands| s.iter().map(|(k, v)| (k.clone(), v.0, v.1.clone())).collect::<Vec<_>>();
    assert_eq!(words(&by_profile), words(&before));
    assert!(by_profile.values().any(|v| v.2.as_deref() == Some("ng/L metals from counts")));
    assert_eq!(store.verify(None).unwrap().differences, []);
}

#[test]
fn tables_are_edited_with_a_reason_and_count_their_revisions_themselves() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path());
    take(&mut store, dir.path(), "q.csv", "laboratory-quality", QUALITY);
    profiles::make(&mut store, "our laboratory", PROFILE, WHY, LEAD).unwrap();
    let table = profiles::table(&store, "our laboratory").unwrap();
    assert_eq!(table, profiles::table(&store, PROFILE).unwrap());
    // A narrower window: the recovery of 96.2 % no longer lies in it.
    let edited = table.replace("lab.recovery,decisive,0.8,1", "lab.recovery,decisive,0.98,1");
    let (changed, _) = profiles::keep(&mut store, "our laboratory", &edited, WHY, LEAD).unwrap();
    assert_eq!(changed, ["lab.recovery"]);
    let rule = |store: &Store| {
        let rules = store.profile_rules().unwrap().into_iter();
        rules.filter(|r| r.profile == "our laboratory").find(|r| r.check_name == "lab.recovery").unwrap()
    };
    assert_eq!(
        (rule(&store).revision, rule(&store).limit_value, rule(&store).why.as_deref()),
        (2, Some(0.98), Some(WHY))
    );
    assert!(profiles::keep(&mut store, "our laboratory", &edited, WHY, LEAD).is_err(), "nothing differs");
    profiles::choose(&mut store, Some("our laboratory"), Scope { laboratory: None, analyte: Some("Fe") }, WHY, LEAD)
        .unwrap();
    assert_eq!(stands(&store)["E-26 Fe"].1, ["lab.recovery"]);
    // The programme's own table in the same way.
    let own = checks::table(&store).unwrap().replace("number.recovery,decisive,0.8", "number.recovery,decisive,0.7");
    let (changed, _) = checks::keep_table(&mut store, &own, WHY, LEAD).unwrap();
    assert_eq!(changed, ["number.recovery"]);
    let kept = store.check_rules().unwrap().into_iter().find(|r| r.check_name == "number.recovery").unwrap();
    assert_eq!((kept.revision, kept.limit_value), (2, Some(0.7)));
}

#[test]
fn a_name_mistyped_is_refused_with_the_nearest() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path());
    let head = store.head().unwrap();
    let mut refused = |name: Option<&str>, scope: Scope, why: &str, said: &str| {
        let e = profiles::choose(&mut store, name, scope, why, LEAD).unwrap_err().to_string();
        assert!(e.contains(said), "{e}");
    };
    let all = Scope::default();
    refused(Some("contract labratory"), all, WHY, "contract laboratory");
    refused(Some(PROFILE), Scope { laboratory: Some("Labor G"), analyte: None }, WHY, "Labor E");
    refused(Some(PROFILE), Scope { laboratory: None, analyte: Some("Feh") }, WHY, "Fe");
    refused(Some(PROFILE), all, " ", "reason");
    refused(None, all, WHY, "already");
    refused(Some("ng/L metals from counts"), all, WHY, "reported as concentrations");
    assert!(profiles::make(&mut store, PROFILE, PROFILE, WHY, LEAD).is_err());
    assert!(profiles::keep(&mut store, PROFILE, "check_name,weight\nlab.blnk,note\n", WHY, LEAD).is_err());
    assert_eq!(store.head().unwrap(), head, "nothing was written");
}
