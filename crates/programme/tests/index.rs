//! The short list of results says the same as the long one, also after it was brought up to date.

use assessment::results;
use programme::index::{Index, Wanted};
use programme::work;
use record::by::By;
use record::model::VerdictWord;
use record::store::Store;
use simulator::{Purpose, Trip};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

fn demo(dir: &std::path::Path) -> Store {
    let mut store = programme::start::start(dir.join("a.sqlite"), "test", "2026-07-01").unwrap();
    let mut inputs = vec![];
    for file in simulator::files::raw_files(&Trip::new(2611, Purpose::Demo)) {
        let path = dir.join(file.name);
        std::fs::write(&path, file.text).unwrap();
        inputs.extend(intake::import::inputs(&store, &[path], file.mapping).unwrap());
    }
    intake::import::import(&mut store, &inputs, BY.person, BY.at).unwrap();
    store
}

fn compare(index: &Index, store: &Store) {
    let all = results::all(store).unwrap();
    assert_eq!(index.len(), all.len());
    let wanted = Wanted { well: Some("SL-2".into()), analyte: Some("Pb".into()), ..Wanted::default() };
    let of_lead: Vec<_> =
        all.iter().filter(|r| r.well.as_deref() == Some("SL-2") && r.analyte == "Pb" && r.kind.is_water()).collect();
    let found = index.select(&wanted, 0, 1000);
    assert_eq!(found.total, of_lead.len());
    assert!(found.total > 1);
    let count = |w| of_lead.iter().filter(|r| r.verdict == Some(w)).count();
    assert_eq!(found.verdicts, [VerdictWord::Accepted, VerdictWord::Provisional, VerdictWord::Rejected].map(count));
    let listed = results::listed(store, &found.rows).unwrap();
    for r in listed {
        let long = all.iter().find(|l| l.row == r.row).unwrap();
        assert_eq!(&r, long);
    }
    let evidence = index.select(&Wanted { evidence: true, ..Wanted::default() }, 0, 10);
    let water = index.select(&Wanted::default(), 0, 10);
    assert_eq!(evidence.total + water.total, all.len());
    assert_eq!(water.rows.len(), 10);
    assert_eq!(index.select(&Wanted { well: Some("nowhere".into()), ..Wanted::default() }, 0, 10).total, 0);
}

#[test]
fn short_and_long_agree_before_and_after_changes() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path());
    let mut index = Index::of(&store).unwrap();
    work::recompute(&mut store, None, BY).unwrap();
    index.refresh(&store).unwrap();
    compare(&index, &store);
    work::exclude(&mut store, "SL2-26-07-B", true, "the cap was loose", BY).unwrap();
    index.refresh(&store).unwrap();
    compare(&index, &store);
    let change = intake::entry::Correction { column: "well", seen: None, new: "SL-1" };
    let bottle = store.bottles(&record::store::Filter::all().is("label", "SL2-26-07-C")).unwrap().remove(0);
    intake::entry::correct(&mut store, BY, "labels swapped", ("bottle", bottle.id), &[change]).unwrap();
    index.refresh(&store).unwrap();
    compare(&index, &store);
}
