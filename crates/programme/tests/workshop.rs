//! The workshop of sentences: what its lists offer, and its answers, held against the statements that are kept.

use crate::demo_common;
use crate::import_common;
use assessment::{results, well_value};
use import_common::Desk;
use limits::claim::Answer;
use programme::start::start;
use programme::statement::workshop::{Draft, Kind, Offer, Stands, all_of, ask, offers, sentences};
use programme::statement::{self, New, Subject};
use programme::work;
use quantity::Unit;
use record::by::By;
use record::store::Store;
use simulator::{Purpose, Trip};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

/// What the demo offers of lead.
fn of_lead(store: &Store) -> Vec<Offer> {
    let values: Vec<_> = well_value::all(store).unwrap().into_iter().filter(|v| v.analyte == "Pb").collect();
    offers(&values, &[])
}

fn find<'a>(all: &'a [Offer], place: &str) -> &'a Offer {
    all.iter().find(|o| o.place == place && o.bottle.is_none()).unwrap_or_else(|| panic!("{place}: {all:?}"))
}

#[test]
fn a_well_stands_by_its_common_value_and_disagreeing_bottles_stand_alone() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo_common::record(dir.path(), &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    work::recompute(&mut store, None, BY).unwrap();
    let all = of_lead(&store);
    let (sl1, sl2, sl3) = (find(&all, "SL-1"), find(&all, "SL-2"), find(&all, "SL-3"));
    assert!(matches!(sl2.stands, Stands::Well(_)) && !sl2.at_most && sl1.at_most);
    let Stands::Each(bottles) = &sl3.stands else { panic!("{sl3:?}") };
    assert_eq!(bottles.len(), sl3.amounts.len());
    assert!(bottles.len() > 1);
    // Each is offered alone too, and every key names one line.
    assert_eq!(all.iter().filter(|o| o.place == "SL-3" && o.bottle.is_some()).count(), bottles.len());
    let mut keys: Vec<&str> = all.iter().map(|o| o.key.as_str()).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), all.len());

    let head = store.head().unwrap();
    let times = |n: f64, subject: Subject| {
        let draft = Draft {
            kind: Kind::Times,
            analyte: "Pb".into(),
            of: Some(sl2.stands.clone()),
            with: Some(sl1.stands.clone()),
            relation: "at least".into(),
            number: Some(n),
            less: true,
            subject,
            ..Draft::default()
        };
        let mut all = sentences(&draft).unwrap();
        assert_eq!(all.len(), 1);
        all.remove(0)
    };
    // A value that is "at most" bears no ratio of the waters; of the bottles it does.
    let of_waters = ask(&store, &times(2.0, Subject::Waters)).unwrap();
    assert_eq!(of_waters.checked.answer, Answer::CannotTell);
    let of_bottles = ask(&store, &times(2.0, Subject::Bottles)).unwrap();
    assert_eq!(of_bottles.checked.answer, Answer::Supported);
    assert!(of_bottles.held().any(|r| r.well.as_deref() == Some("SL-1")), "SL-1 is provisional, and that is told");
    assert_eq!(of_bottles.days(), ["2026-07-14"]);
    // How far it would hold: the answers fall from supported to contradicted, never back.
    let rank = |a: Answer| match a {
        Answer::Supported => 0,
        Answer::CannotTell => 1,
        Answer::Contradicted => 2,
    };
    let ranks: Vec<i32> = of_bottles.steps.iter().map(|s| rank(s.answer)).collect();
    assert!(ranks.len() == 5 && ranks.is_sorted(), "{ranks:?}");
    // Said of each bottle: what one alone bears is not supported.
    let below = |level: f64| {
        let draft = Draft {
            kind: Kind::Level,
            analyte: "Pb".into(),
            of: Some(sl3.stands.clone()),
            relation: "below".into(),
            level: Some((level, Unit::known("ng/L"))),
            subject: Subject::Bottles,
            ..Draft::default()
        };
        let told: Vec<_> = sentences(&draft).unwrap().iter().map(|s| ask(&store, s).unwrap()).collect();
        assert_eq!(told.len(), bottles.len());
        all_of(&told)
    };
    // What was found, or at most may be, in each.
    let level = |a: &quantity::Amount| match a {
        quantity::Amount::Below(bound) => Some(bound.limit),
        other => other.value(),
    };
    let values: Vec<f64> = sl3.amounts.iter().filter_map(level).collect();
    let (low, high) = values.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), x| (l.min(*x), h.max(*x)));
    assert_eq!(below(3.0 * high), Answer::Supported);
    assert_ne!(below((low * high).sqrt()), Answer::Supported);
    assert_eq!(store.head().unwrap(), head, "asking keeps nothing");
    // What is kept is what was answered.
    let sentence = times(2.0, Subject::Bottles);
    let new = New { name: "twice", sentence: &sentence, despite: Some("the open well is shown as it is") };
    let kept = statement::add(&mut store, &new, BY).unwrap();
    assert_eq!((kept.answer.as_str(), &kept.plain), (of_bottles.checked.answer.word(), &of_bottles.checked.plain));
}

#[test]
fn reported_results_are_offered_one_by_one_and_change_needs_two_days() {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nA,groundwater\n");
    desk.text(
        "bottles.csv",
        "bottles",
        "label,kind,well,fraction,filled_at\nA1,sample,A,unfiltered,2025-07-14 09:00\nA2,sample,A,unfiltered,2026-07-14 09:00\n",
    );
    desk.text(
        "results.csv",
        "laboratory-long",
        "bottle,analyte,fraction,value,u,unit,laboratory\nA1,Pb,unfiltered,20,0.5,ng/L,L\nA2,Pb,unfiltered,10,0.5,ng/L,L\n",
    );
    work::recompute(&mut desk.store, None, BY).unwrap();
    let all = offers(&[], &results::all(&desk.store).unwrap());
    let days: Vec<&str> = all.iter().map(|o| o.day.as_str()).collect();
    assert_eq!(days, ["2026-07-14", "2025-07-14"], "the newest first");
    let draft = Draft {
        kind: Kind::Changed,
        analyte: "Pb".into(),
        of: Some(all[1].stands.clone()),
        with: Some(all[0].stands.clone()),
        relation: "fallen".into(),
        ..Draft::default()
    };
    let told = ask(&desk.store, &sentences(&draft).unwrap()[0]).unwrap();
    // 20 ± 0.5 to 10 ± 0.5: fourteen standard uncertainties apart.
    assert_eq!(told.checked.answer, Answer::Supported);
    assert_eq!(told.days(), ["2025-07-14", "2026-07-14"]);
}
