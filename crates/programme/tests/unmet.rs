//! What no blank met, at its edges: contact that nobody knows, a short contact at a well whose pipe the flows show, a
//! field blank that did stand in the open air. The demo as it is stands in the tests of the command line.

use crate::demo_common::{self, record};
use assessment::results::Left;
use programme::case::{Case, case};
use programme::work;
use quantity::Outcome;
use record::by::By;
use record::store::Store;
use simulator::{Purpose, Trip};
use std::path::Path;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };

fn programme(dir: &Path, change: impl Fn(&str, String) -> Option<String>) -> Store {
    let mut store = record(dir, &Trip::new(2611, Purpose::Demo), change);
    work::recompute(&mut store, None, BY).unwrap_or_else(|e| panic!("{e}"));
    store
}

fn lead(store: &Store, bottle: &str) -> Case {
    case(store, &format!("{bottle}:Pb:206+207+208@low:unfiltered")).unwrap_or_else(|e| panic!("{e}"))
}

fn outcome(case: &Case, check: &str) -> Option<Outcome> {
    case.findings.iter().find(|f| f.check.text() == check).map(|f| f.outcome)
}

fn left(case: &Case) -> Left {
    case.result.water_share.expect("a share").is
}

#[test]
fn a_contact_that_nobody_knows_counted_as_a_short_one() {
    let dir = tempfile::tempdir().unwrap();
    let store = programme(dir.path(), |name, text| (name != "fills.csv").then_some(text));
    let sl2 = lead(&store, "SL2-26-07-A");
    assert_eq!(left(&sl2), Left::WaterAndPipe);
    // Unknown, not refuted: the verdict does not turn for it.
    assert_eq!(outcome(&sl2, "number.water-share"), Some(Outcome::NotKnown));
    assert!(!sl2.result.reasons.contains(&"number.water-share".to_string()), "{:?}", sl2.result.reasons);
    assert_eq!(sl2.result.attributed.as_ref().map(|a| (a.identifiable, a.is)), Some((true, Left::WaterAndPipe)));
    assert!(!sl2.in_words().contains("the water’s own"), "{}", sl2.in_words());
}

#[test]
fn a_pipe_that_the_flows_show_was_the_waters_where_the_contact_is_short() {
    let dir = tempfile::tempdir().unwrap();
    // A quarter of the area: 83 min in the pipe, under the programme's 120.
    let narrow = |name: &str, text: String| {
        let narrower = text.replace("0.05,casing,galvanised", "0.025,casing,galvanised");
        Some(if name == "well-sections.csv" { narrower.replace("0.05,screen", "0.025,screen") } else { text })
    };
    let store = programme(dir.path(), narrow);
    let sl3 = lead(&store, "SL3-26-07-A");
    assert_eq!(outcome(&sl3, "well.contact-time"), Some(Outcome::Met));
    assert_eq!(outcome(&sl3, "well.pipe-by-flow"), Some(Outcome::NotMet));
    assert_eq!(outcome(&sl3, "number.water-share"), Some(Outcome::NotMet));
    // The flows tell the pipe from the rest, and no blank met the open air.
    assert_eq!(left(&sl3), Left::WaterAndOpenAir);
}

#[test]
fn two_field_blanks_in_the_same_open_air_measure_it() {
    let dir = tempfile::tempdir().unwrap();
    let outdoors = |name: &str, text: String| {
        if name != "bottles.csv" {
            return Some(text);
        }
        let moved = |line: &str| {
            let line = line.replace(",SL-2,14,", ",SL-1,14,").replace(",1,2,0,", ",1,0,1.5,");
            line.replace("\"frame with filtered air, SL-2\"", "")
        };
        let two = |l: &str| l.starts_with("FB-26-07-1,") || l.starts_with("FB-26-07-2,");
        let lines = text.lines().map(|l| if two(l) { moved(l) } else { l.to_string() });
        Some(lines.collect::<Vec<_>>().join("\n") + "\n")
    };
    let store = programme(dir.path(), outdoors);
    let sl1 = lead(&store, "SL1-26-07-A");
    assert_eq!(outcome(&sl1, "air.open-air-blank"), Some(Outcome::Met));
    assert_eq!(left(&sl1), Left::LeavesWell);
    // The blanks at SL-1 say nothing of the open air at SL-3.
    let sl3 = lead(&store, "SL3-26-07-A");
    assert_eq!(outcome(&sl3, "air.open-air-blank"), Some(Outcome::NotKnown));
    assert_eq!(left(&sl3), Left::WaterAndOpenAir);
}
