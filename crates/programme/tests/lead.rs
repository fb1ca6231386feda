//! Isotope ratios of lead against the simulator, whose standards hold 206, 207 and 208 in the parts
//! 0.2444, 0.2242 and 0.5314 (IUPAC abundances of the three) and whose instrument has no mass bias.
//! The estimator by hand: two replicates whose flicker is shared give the exact ratio without u.

use crate::demo_common;

use assessment::derive;
use assessment::lead::sources::{self, Fits};
use assessment::lead::{self, Lean};
use demo_common::record;
use measurement::line::Estimate;
use measurement::run::Role;
use record::model::LeadSource;
use record::store::Store;
use simulator::{Purpose, Trip};

fn demo(dir: &std::path::Path, blank_shift: f64) -> Store {
    let mut trip = Trip::new(2611, Purpose::Demo);
    let blanks: Vec<u32> = trip.vials.iter().filter(|v| v.role == "field-blank").map(|v| v.position).collect();
    for r in trip.readings.iter_mut().filter(|r| r.element == "Pb" && r.mass == 206 && blanks.contains(&r.position)) {
        r.rates_cps.iter_mut().for_each(|x| *x *= blank_shift);
    }
    record(dir, &trip, |_, text| Some(text))
}

fn ratios(store: &Store) -> lead::LeadRatios {
    let run = derive::find_run(store, "SL-R-2607").unwrap();
    lead::ratios(&derive::prepare(store, run).unwrap())
}

#[test]
fn standards_come_out_at_the_abundances_they_were_made_with() {
    let dir = tempfile::tempdir().unwrap();
    let all = ratios(&demo(dir.path(), 1.0));
    let top = all.vials.iter().find(|v| v.name == "standard 6").unwrap();
    assert_eq!(top.role, Role::Standard);
    for (found, truth) in top.ratios.iter().zip([0.2444 / 0.2242, 0.5314 / 0.2444]) {
        // Dead time is believed 0.4 ns wrong; at the rates of the top standard that is under 1e-4.
        assert!((found.value - truth).abs() < 4.0 * found.u + 2e-4 * truth, "{found:?} against {truth}");
        assert!(found.u < 0.005 * found.value, "{found:?}");
    }
    assert!(top.lean.is_none(), "a standard leans to nothing");
}

#[test]
fn water_unlike_its_field_blanks_is_said_so() {
    let dir = tempfile::tempdir().unwrap();
    // Blanks whose lead holds a half more 206 than anything else in the run.
    let all = ratios(&demo(dir.path(), 1.5));
    let blanks = all.field_blanks.unwrap();
    assert!((blanks[0].value / (0.2444 / 0.2242) - 1.5).abs() < 0.15, "{blanks:?}");
    let waters: Vec<_> = all.vials.iter().filter(|v| v.role == Role::Sample).collect();
    assert!(!waters.is_empty());
    for w in waters {
        assert_eq!(w.lean.map(|l| l.0), Some(Lean::Other), "{w:?}");
    }
}

/// NIST SRM 981, common lead: 207/206 = 0.91464 ± 0.00033, 208/206 = 2.1681 ± 0.0008 (95 %), of the
/// certificate, from memory.
const COMMON_LEAD: [(u16, u16, f64, f64); 2] = [(207, 206, 0.914_64, 0.000_17), (208, 206, 2.1681, 0.0004)];

#[test]
fn mass_bias_by_a_reference_brings_back_the_known_ratio_and_the_exponential_law() {
    let dir = tempfile::tempdir().unwrap();
    let store = demo(dir.path(), 1.0);
    let run = derive::find_run(&store, "SL-R-2607").unwrap();
    let mut prepared = derive::prepare(&store, run).unwrap();
    let reference = prepared.recipe.lead_reference.as_mut().unwrap();
    reference.vials = vec!["standard 6".into()];
    reference.ratios = COMMON_LEAD
        .iter()
        .map(|(numerator, denominator, value, u)| measurement::run::LeadRatio {
            numerator: *numerator,
            denominator: *denominator,
            value: *value,
            u: *u,
        })
        .collect();
    let both_known = lead::ratios(&prepared);
    let top = both_known.vials.iter().find(|v| v.name == "standard 6").unwrap().corrected.unwrap();
    // The reference itself comes out at what it is known to be: rounding only.
    assert!((top[0].value - 1.0 / 0.914_64).abs() < 1e-12 && (top[1].value - 2.1681).abs() < 1e-12, "{top:?}");
    // One known ratio: the other by the exponential law, ln f(208/206) / ln f(206/207) = ln(m208/m206) / ln(m206/m207).
    prepared.recipe.lead_reference.as_mut().unwrap().ratios.truncate(1);
    let one_known = lead::ratios(&prepared).bias.unwrap().factors;
    let law = (207.976_652_f64 / 205.974_465_2).ln() / (205.974_465_2_f64 / 206.975_896_8).ln();
    assert!((one_known[1].value.ln() / one_known[0].value.ln() - law).abs() < 1e-9, "{one_known:?}");
    // A vial that was not measured: no correction, and a finding that names it.
    prepared.recipe.lead_reference.as_mut().unwrap().vials = vec!["lead reference".into()];
    let none = lead::ratios(&prepared);
    assert!(none.bias.is_none() && none.findings[0].sentence.contains("lead reference"), "{:?}", none.findings);
}

fn of_source(source: &str, ratio: &str, value: f64, u: Option<f64>) -> LeadSource {
    LeadSource { id: 0, source: source.into(), ratio: ratio.into(), value, u, origin: "invented".into() }
}

/// A known mixture in ratio space, computed by hand: 206 from A 0.3, from B 0.7; 207/206 and 208/206 mix
/// linearly over 206.
#[test]
fn a_known_mixture_leans_to_its_sources_and_a_stranger_to_none() {
    let (table, odd) = sources::sources(&[
        of_source("pipe", "206/207", 1.10, Some(0.002)),
        of_source("pipe", "206/208", 1.0 / 2.15, Some(0.001)),
        of_source("rock", "207/206", 1.0 / 1.20, Some(0.002)),
        of_source("rock", "208/206", 2.05, Some(0.005)),
        of_source("dust", "206/207", 1.15, None),
    ]);
    assert_eq!(table.iter().map(|s| s.name.as_str()).collect::<Vec<_>>(), ["pipe", "rock"]);
    assert_eq!(odd.len(), 1, "a ratio without u is named: {odd:?}");
    assert!(odd[0].sentence.contains("dust"));
    let at = |r67: f64, r86: f64| [Estimate { value: r67, u: 0.002 }, Estimate { value: r86, u: 0.003 }];
    assert_eq!(sources::fits(&at(1.10, 2.15), &table), Fits::Alone(vec!["pipe".into()]));
    let r76 = 0.3 / 1.10 + 0.7 / 1.20;
    let Fits::Between(pairs) = sources::fits(&at(1.0 / r76, 0.3 * 2.15 + 0.7 * 2.05), &table) else {
        panic!("a mixture lies between its sources")
    };
    // A sample exactly on the line: rounding only.
    assert!((pairs[0].share - 0.3).abs() < 1e-9, "{pairs:?}");
    assert_eq!(sources::fits(&at(1.15, 2.20), &table), Fits::None);
    let vague = [Estimate { value: 1.15, u: 0.1 }, Estimate { value: 2.1, u: 0.1 }];
    assert_eq!(sources::fits(&vague, &table), Fits::CannotTell);
}
