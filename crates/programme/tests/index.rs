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

/// What holds results back is the same in the short list as in the long one, by check and verdict.
#[test]
fn by_the_check_that_holds_them() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path());
    work::recompute(&mut store, None, BY).unwrap();
    // A bottle that is out is held by that alone.
    work::exclude(
        &mut store,
        &record::identity::ReadingId::bottle("SL2-26-07-B").to_string(),
        true,
        "the cap was loose when it came",
        BY,
    )
    .unwrap();
    let index = Index::of(&store).unwrap();
    let all = results::all(&store).unwrap();
    let reasons: std::collections::BTreeSet<&String> =
        all.iter().filter(|r| r.verdict.is_some()).flat_map(|r| &r.reasons).collect();
    assert!(reasons.len() > 4 && reasons.iter().any(|c| c.as_str() == "number.excluded"), "{reasons:?}");
    for check in reasons {
        for verdict in [VerdictWord::Provisional, VerdictWord::Rejected] {
            let wanted = Wanted { held_by: Some(check.clone()), verdict: Some(verdict), ..Wanted::default() };
            let mut found = index.select(&wanted, 0, 10_000).rows;
            let held = all.iter().filter(|r| r.verdict == Some(verdict) && r.reasons.contains(check));
            let mut known: Vec<i64> = held.map(|r| r.row).collect();
            found.sort_unstable();
            known.sort_unstable();
            assert_eq!(found, known, "{check} {verdict:?}");
        }
    }
}

/// Days bound what is wanted, and wells and days are counted and paged without one lost or told twice.
#[test]
fn by_day_and_by_well_and_day() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path());
    work::recompute(&mut store, None, BY).unwrap();
    let index = Index::of(&store).unwrap();
    let all = results::all(&store).unwrap();
    let day = |r: &results::Listed| r.filled_at.as_deref().unwrap_or_default().chars().take(10).collect::<String>();
    let days: std::collections::BTreeSet<String> = all.iter().map(day).filter(|d| !d.is_empty()).collect();
    let last = days.last().unwrap();
    let on_last = Wanted { from: Some(last.clone()), to: Some(last.clone()), ..Wanted::default() };
    let expected = all.iter().filter(|r| r.kind.is_water() && day(r) == *last).count();
    assert!(expected > 0);
    assert_eq!(index.select(&on_last, 0, 10_000).total, expected);
    let after = Wanted { from: Some(format!("{last}x")), ..Wanted::default() };
    assert_eq!(index.select(&after, 0, 10).total, 0);
    let judged = || all.iter().filter(|r| r.verdict.is_some() && r.well.is_some());
    let keys: std::collections::BTreeSet<_> = judged().map(|r| (r.well.clone(), day(r))).collect();
    let mut rows = vec![];
    for page in 0..keys.len() {
        let found = index.select_wide(&Wanted::default(), page, 1);
        assert_eq!(found.total, keys.len());
        let listed = results::listed(&store, &found.rows).unwrap();
        assert!(listed.iter().all(|r| (&r.well, day(r)) == (&listed[0].well, day(&listed[0]))), "one well and day");
        rows.extend(found.rows);
    }
    rows.sort_unstable();
    let mut expected: Vec<i64> = judged().map(|r| r.row).collect();
    expected.sort_unstable();
    assert_eq!(rows, expected);
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
