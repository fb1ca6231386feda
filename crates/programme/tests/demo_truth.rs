//! The invented trip against its own truth: the simulator knows what is in each bottle.
//!
//! * The raw files go in, everything is derived, and the verdicts are those that the scenario was
//!   made for.
//! * Over many simulated trips the 95 % intervals cover the truth in 92 to 98 % of results: the
//!   window asked of a method whose components have under ten degrees of freedom and whose blanks
//!   are skewed by rare spikes.

use crate::demo_common;
use crate::simulated_run;

use assessment::results::{self, Listed};
use demo_common::record;
use measurement::run::{self, Recipe};
use programme::case;
use programme::work;
use quantity::{Check, Outcome};
use record::by::By;
use record::model::VerdictWord;
use record::store::Store;
use simulated_run::input;
use simulator::{Purpose, Trip};
use std::path::Path;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };

fn programme(dir: &Path, trip: &Trip) -> Store {
    let mut store = record(dir, trip, |_, text| Some(text));
    work::recompute(&mut store, None, BY).unwrap_or_else(|e| panic!("{e}"));
    store
}

fn one<'a>(all: &'a [Listed], bottle: &str, analyte: &str) -> &'a Listed {
    all.iter().find(|r| r.bottle == bottle && r.analyte == analyte).unwrap_or_else(|| panic!("{bottle} {analyte}"))
}

#[test]
fn the_demo_tells_the_story_it_was_made_for() {
    let dir = tempfile::tempdir().unwrap();
    let trip = Trip::new(2611, Purpose::Demo);
    let mut store = programme(dir.path(), &trip);

    // The bad field blank is named; only a person takes it out.
    let before = case::case(&store, "SL2-26-07-A:Pb:206+207+208@low:unfiltered").unwrap();
    assert!(
        before.findings.iter().any(|f| f.check == Check::RunBlankOutlier && f.sentence.contains("FB-26-07-4")),
        "{:#?}",
        before.findings
    );
    let done = work::exclude(&mut store, "FB-26-07-4", true, "the gust of the field sheet", BY).unwrap();
    assert!(!done.changes.is_empty(), "the results that stood on the bad blank come out anew");

    let all = results::all(&store).unwrap();
    let sl2 = one(&all, "SL2-26-07-A", "Pb");
    assert_eq!(sl2.verdict, Some(VerdictWord::Accepted), "{:?}", sl2.reasons);
    let truth = trip.water_ng_l("SL2-26-07-A", "Pb").unwrap();
    let value = sl2.amount.as_ref().unwrap().value().unwrap();
    assert!((value - truth).abs() < 3.0 * sl2.amount.as_ref().unwrap().u().unwrap(), "{value} against {truth}");
    let share = sl2.water_share.unwrap();
    assert!((0.85..0.97).contains(&share.share), "{share:?}");

    let sl3 = one(&all, "SL3-26-07-A", "Pb");
    assert_eq!(sl3.verdict, Some(VerdictWord::Rejected));
    assert!(sl3.reasons.contains(&Check::NumberDuplicates.to_string()), "{:?}", sl3.reasons);
    assert_eq!(one(&all, "SL1-26-07-A", "Pb").verdict, Some(VerdictWord::Provisional));

    // Molybdenum oxide is a third of the counts on cadmium 111.
    let cadmium = all.iter().find(|r| r.bottle == "SL2-26-07-A" && r.analyte == "Cd" && r.isotopes == "111").unwrap();
    let cadmium = case::of(&store, &cadmium.result).unwrap();
    let overlap = cadmium.findings.iter().find(|f| f.check == Check::RunInterference).unwrap();
    assert_eq!(overlap.outcome, Outcome::NotMet);
    assert!(overlap.sentence.contains("MoO") || overlap.sentence.contains("Mo16O"), "{}", overlap.sentence);

    // The case goes down to the replicates of the vial.
    let text = case::of(&store, &sl2.result).unwrap().in_words();
    assert!(text.contains("counts/s") || text.contains("/s"), "{text}");

    assert_eq!(work::underivable(&store).unwrap(), Vec::<String>::new());
    assert!(store.verify(None).unwrap().differences.is_empty());
    let again = work::recompute(&mut store, None, BY).unwrap();
    assert_eq!((again.results, again.verdicts), (0, 0), "deriving again writes nothing");
}

#[test]
fn the_same_raw_files_give_the_same_record() {
    let (a, b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let trip = Trip::new(7, Purpose::Demo);
    let (a, b) = (programme(a.path(), &trip), programme(b.path(), &trip));
    assert_eq!(a.head().unwrap(), b.head().unwrap());
}

#[test]
fn intervals_cover_the_truth() {
    const TRIPS: u64 = 2000;
    let recipe: Recipe = toml::from_str(simulator::files::RECIPE).unwrap();
    let counts: Vec<std::collections::BTreeMap<String, (u32, u32)>> = {
        use rayon::prelude::*;
        (0..TRIPS)
            .into_par_iter()
            .map(|seed| {
                let trip = Trip::new(10_000 + seed, Purpose::Trial);
                let reduced = run::reduce(&input(&trip), &recipe).unwrap();
                let mut seen = std::collections::BTreeMap::new();
                for r in &reduced.results {
                    let Some(truth) = r.bottle.as_ref().and_then(|b| trip.water_ng_l(b, &r.analyte.element)) else {
                        continue;
                    };
                    let entry = seen.entry(r.analyte.to_string()).or_insert((0, 0));
                    entry.0 += u32::from(r.interval[0] <= truth && truth <= r.interval[1]);
                    entry.1 += 1;
                }
                seen
            })
            .collect()
    };
    let mut total: std::collections::BTreeMap<String, (u32, u32)> = std::collections::BTreeMap::new();
    for (name, (hit, n)) in counts.into_iter().flatten() {
        let entry = total.entry(name).or_default();
        entry.0 += hit;
        entry.1 += n;
    }
    assert_eq!(total.len(), 13, "{total:?}");
    let mut outside = vec![];
    for (name, (hit, n)) in &total {
        let covered = f64::from(*hit) / f64::from(*n);
        println!("{name}: {hit} of {n} intervals cover the truth, {:.1} %", 100.0 * covered);
        if !(0.92..=0.98).contains(&covered) {
            outside.push(format!("{name}: {covered:.4}"));
        }
    }
    assert!(outside.is_empty(), "{outside:?}");
}
