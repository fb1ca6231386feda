//! One accounting of metal: at the three wells of the demo every surface of this crate gives the same shares, the sums
//! add up, and a bound bears no sentence that needs its lower end. Picture and report stand in the tests of the command
//! line (`crates/cli/tests/accounting.rs`).

use crate::demo_common::{self, record};
use assessment::results::{self, Left, Listed};
use assessment::verify;
use cleanliness::accounting::{Source, Stands, Told};
use programme::case;
use programme::work;
use quantity::{Amount, Check, Outcome};
use record::by::By;
use record::model::Bears;
use record::store::Store;
use simulator::{Purpose, Trip};
use std::path::Path;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };

fn programme(dir: &Path, change: impl Fn(&str, String) -> Option<String>) -> Store {
    let mut store = record(dir, &Trip::new(2611, Purpose::Demo), change);
    work::recompute(&mut store, None, BY).unwrap_or_else(|e| panic!("{e}"));
    work::exclude(&mut store, "FB-26-07-4", true, "the gust of the field sheet", BY).unwrap();
    store
}

fn lead(all: &[Listed], bottle: &str) -> Listed {
    all.iter().find(|r| r.bottle == bottle && r.analyte == "Pb").unwrap_or_else(|| panic!("{bottle}")).clone()
}

/// Of a hundred parts, by the words of the record.
fn hundred(r: &Listed) -> Vec<(&'static str, u32)> {
    r.accounting.as_ref().unwrap().of_hundred().into_iter().map(|(s, n)| (s.word(), n)).collect()
}

#[test]
fn the_three_wells_of_the_demo() {
    let dir = tempfile::tempdir().unwrap();
    let store = programme(dir.path(), |_, text| Some(text));
    let all = results::all(&store).unwrap();
    for r in all.iter().filter(|r| r.accounting.is_some()) {
        let a = r.accounting.as_ref().unwrap();
        let sum: f64 = a.parts.iter().filter_map(|p| p.value_pg).sum();
        match a.stands {
            // The largest remainder makes a hundred whatever the shares.
            Stands::AddsUp | Stands::BottlesDisagree => {
                assert!((sum - a.found_pg).abs() < 1e-9 * a.found_pg, "{}: {sum} of {}", r.result, a.found_pg);
                assert_eq!(a.of_hundred().iter().map(|h| h.1).sum::<u32>(), 100, "{}", r.result);
                let share = r.water_share.unwrap();
                assert_eq!(Some(share.share.to_bits()), a.share(Source::Aquifer).map(|s| s.share.to_bits()));
            }
            Stands::DoesNotAddUp => assert!((sum - a.found_pg).abs() > a.expanded_pg && r.water_share.is_none()),
            Stands::NothingAbove => assert!(a.parts.is_empty() && r.water_share.is_none()),
        }
    }

    // SL-2: the cabinet's own blanks, a short contact: solid, as it leaves the well.
    let sl2 = lead(&all, "SL2-26-07-A");
    println!("{:?}", hundred(&sl2));
    assert_eq!(sl2.water_share.unwrap().is, Left::LeavesWell);
    let parts = hundred(&sl2);
    let about = |name: &str, n: u32| parts.iter().any(|p| p.0 == name && p.1.abs_diff(n) <= 1);
    for (name, n) in [("aquifer", 91), ("air-and-hands", 5), ("bottle-and-acid", 2), ("journey", 1), ("laboratory", 1)]
    {
        assert!(about(name, n), "{name} {n}: {parts:?}");
    }
    assert_eq!((sl2.bears, sl2.accounting.as_ref().unwrap().stands), (Bears::Value, Stands::AddsUp));

    // SL-1: filled in the open air, which no blank met: 98 not told apart, and a bound in place of a value.
    let sl1 = lead(&all, "SL1-26-07-A");
    println!("{:?} {:?}", hundred(&sl1), sl1.amount);
    assert_eq!(sl1.water_share.unwrap().is, Left::WaterPipeAndOpenAir);
    assert_eq!(hundred(&sl1)[0], ("aquifer", 98));
    let Some(Amount::Below(bound)) = &sl1.amount else { panic!("{:?}", sl1.amount) };
    assert!((2.69..2.76).contains(&bound.limit) && sl1.bears == Bears::AtMost, "{bound:?}");
    assert!((sl1.net.as_ref().and_then(Amount::value).unwrap() - 2.67).abs() < 0.01, "{:?}", sl1.net);

    // SL-3: the pipe by the model of four flows, and no solid number while its bottles disagree.
    let sl3 = lead(&all, "SL3-26-07-A");
    let a = sl3.accounting.as_ref().unwrap();
    println!("{:?} {:?}", hundred(&sl3), a);
    assert_eq!(a.stands, Stands::BottlesDisagree);
    assert_eq!(sl3.water_share.unwrap().is, Left::WaterAndOpenAir);
    let pipe = hundred(&sl3).iter().find(|p| p.0 == "well-and-pipe").map(|p| p.1).unwrap();
    assert!((96..=98).contains(&pipe), "{:?}", hundred(&sl3));
    let aquifer = a.part(Source::Aquifer).unwrap();
    let most = aquifer.interval_pg.unwrap().1 / 250.0;
    assert!(aquifer.told == Told::AtMost && (8.0..10.5).contains(&most), "{most} ng/L");
}

#[test]
fn case_results_and_attribution_tell_one_share() {
    let dir = tempfile::tempdir().unwrap();
    let store = programme(dir.path(), |_, text| Some(text));
    let all = results::all(&store).unwrap();
    for (bottle, outcome) in
        [("SL1-26-07-A", Outcome::NotKnown), ("SL2-26-07-A", Outcome::Met), ("SL3-26-07-A", Outcome::NotMet)]
    {
        let listed = lead(&all, bottle);
        let case = case::of(&store, &listed.result).unwrap();
        assert_eq!(case.result.accounting, listed.accounting, "{bottle}");
        let whose = case.findings.iter().find(|f| f.check == Check::NumberWaterShare).unwrap();
        assert_eq!(whose.outcome, outcome, "{}", whose.sentence);
        let share = listed.water_share.unwrap();
        // The finding compares the same number, and the words hold it.
        let compared = whose.compared[0].amount.value().unwrap();
        assert_eq!(compared.to_bits(), share.share.to_bits(), "{bottle}");
        let words = case.in_words();
        assert!(words.contains(&listed.water_share.unwrap().said()), "{words}");
        for p in &listed.accounting.as_ref().unwrap().parts {
            let Some(s) = p.share else { continue };
            assert!(words.contains(&format!("{:.3} of it", s.share)), "{bottle} {:?}\n{words}", p.part);
        }
        // The annex gives no share of its own.
        let annex = listed.attributed.as_ref().unwrap().said();
        assert!(annex.starts_with("what all bottles together say") && !annex.contains("share"), "{annex}");
    }
    // The value by the recipe's rule stands in the case under its own name.
    let sl1 = case::of(&store, &lead(&all, "SL1-26-07-A").result).unwrap().in_words();
    assert!(sl1.contains("field blanks of the run, which met other air"), "{sl1}");
    assert!(sl1.contains("2.621"), "{sl1}");
    assert!(!sl1.contains("the water’s own"), "{sl1}");
}

#[test]
fn accounting_again_writes_nothing_and_verifies() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path(), |_, text| Some(text));
    let again = work::recompute(&mut store, None, BY).unwrap();
    assert_eq!((again.results, again.accounted, again.verdicts), (0, 0, 0), "{again:?}");
    assert_eq!(verify::differences(&store).unwrap(), Vec::<String>::new());
}

#[test]
fn a_field_blank_of_another_well_says_nothing_unless_its_air_is_alike() {
    // The bottles of SL-1 in a cabinet there: the field blanks were opened in the one at SL-2.
    let in_cabinet = |name: &str, text: String| {
        if name != "bottles.csv" {
            return Some(text);
        }
        let line = |l: &str| {
            if l.starts_with("SL1-26-07-") { l.replace(",1,0,1.5,", ",1,2,0,") + "\n" } else { format!("{l}\n") }
        };
        Some(text.lines().map(line).collect())
    };
    let share = |store: &Store| lead(&results::all(store).unwrap(), "SL1-26-07-A");
    let dir = tempfile::tempdir().unwrap();
    let other = share(&programme(dir.path(), in_cabinet));
    assert_eq!((other.bears, other.water_share.unwrap().is), (Bears::AtMost, Left::WaterPipeAndAir));
    // With the air of both counted within the class they do.
    let counted = |name: &str, text: String| {
        let text = in_cabinet(name, text)?;
        let sl1: String = if name == "air-counts.csv" {
            let cabinet =
                text.lines().filter(|l| l.contains(",SL-2,cabinet,")).map(|l| l.replace(",SL-2,", ",SL-1,") + "\n");
            cabinet.collect()
        } else {
            String::new()
        };
        Some(text + &sl1)
    };
    let dir = tempfile::tempdir().unwrap();
    let alike = share(&programme(dir.path(), counted));
    assert_eq!((alike.bears, alike.water_share.unwrap().is), (Bears::Value, Left::LeavesWell));
}
