//! The shadow run on the demo: what another programme made of the same raw files reports, with one step of its recipe
//! taken otherwise, is explained by that step; what no step explains is not.

use crate::demo_common;
use assessment::results::{self, Listed};
use programme::shadow::{self, Cause, Stand};
use programme::{shadow_sheet, work};
use quantity::Amount;
use record::by::By;
use record::store::Store;
use simulator::{Purpose, Trip};
use std::path::Path;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };
const BOTTLE: &str = "SL2-26-07-A";

/// The demo, one line of its recipe changed where a test asks.
fn programme(dir: &Path, from: &str, to: &str) -> Store {
    let changed = |_: &str, text: String| Some(if from.is_empty() { text } else { text.replace(from, to) });
    let mut store = demo_common::record(dir, &Trip::new(2611, Purpose::Demo), changed);
    work::recompute(&mut store, None, BY).unwrap();
    store
}

fn lead(store: &Store, bottle: &str) -> Listed {
    let of = |r: &Listed| r.bottle == bottle && r.analyte == "Pb" && r.isotopes == "206+207+208";
    results::all(store).unwrap().into_iter().find(of).unwrap()
}

fn net(r: &Listed) -> f64 {
    r.net.as_ref().and_then(Amount::value).unwrap()
}

/// One row of a sheet on lead in a bottle.
fn row(value: f64, decimals: usize, unit: &str) -> String {
    format!("bottle,analyte,isotopes,value,unit\n{BOTTLE},Pb,206+207+208,{value:.decimals$},{unit}\n")
}

fn one(store: &Store, sheet: &str) -> shadow::Beside {
    let sheet = shadow_sheet::read(sheet.as_bytes()).unwrap();
    shadow::beside(store, &sheet).unwrap().rows.remove(0)
}

#[test]
fn a_difference_is_explained_by_the_step_that_made_it() {
    let dir = tempfile::tempdir().unwrap();
    let store = programme(dir.path(), "", "");
    let head = store.head().unwrap();
    let today = lead(&store, BOTTLE);
    let same = one(&store, &row(net(&today), 3, "ng/L"));
    assert_eq!((same.stand, same.causes.len(), same.within_interval), (Stand::Same, 0, Some(true)));
    let gross = today.gross.as_ref().and_then(Amount::value).unwrap();
    assert!(one(&store, &row(gross, 4, "ng/L")).causes.contains(&Cause::BlankNotTaken));
    let slip = one(&store, &row(1000.0 * net(&today), 2, "ng/L"));
    assert_eq!(slip.causes, [Cause::Unit { factor: 1e3 }]);
    // In another unit it is the same.
    assert_eq!(one(&store, &row(1e-3 * net(&today), 6, "ug/L")).stand, Stand::Same);
    let other = one(&store, &row(7.3717 * net(&today), 4, "ng/L"));
    assert_eq!((other.stand, other.causes.len(), other.within_interval), (Stand::Differs, 0, Some(false)));
    for (from, to, words) in [
        ("ns = 25.0", "ns = 0.0", "dead time was not corrected"),
        ("from = \"not-applied\"", "from = \"field-spikes\"", "recovery of the field spikes"),
    ] {
        let dir = tempfile::tempdir().unwrap();
        let reported = net(&lead(&programme(dir.path(), from, to), BOTTLE));
        let told = one(&store, &row(reported, 8, "ng/L"));
        assert_eq!(told.stand, Stand::Differs, "{words}");
        let said: Vec<String> = told.causes.iter().map(Cause::in_words).collect();
        assert!(said.iter().any(|s| s.contains(words)), "{words}: {said:?}");
    }
    assert_eq!(store.head().unwrap(), head, "nothing was kept");
}

#[test]
fn means_of_bottles_and_what_is_missing_on_either_side() {
    let dir = tempfile::tempdir().unwrap();
    let store = programme(dir.path(), "", "");
    let today = lead(&store, BOTTLE);
    let day = today.filled_at.as_ref().unwrap()[..10].to_string();
    let here: Vec<f64> = results::all(&store)
        .unwrap()
        .iter()
        .filter(|r| r.well == today.well && r.kind.is_water() && r.analyte == "Pb" && r.isotopes == today.isotopes)
        .filter(|r| r.fraction == today.fraction && r.resolution == today.resolution)
        .filter(|r| r.filled_at.as_deref().is_some_and(|at| at.starts_with(&day)))
        .map(net)
        .collect();
    assert!(here.len() > 1, "the demo has a duplicate at this well");
    let mean = here.iter().sum::<f64>() / here.len() as f64;
    let told = one(&store, &row(mean, 6, "ng/L"));
    assert!(told.causes.iter().any(|c| matches!(c, Cause::MeanOfBottles { .. })), "{:?}", told.causes);
    let well = today.well.clone().unwrap();
    let sheet = format!(
        "well,date,analyte,isotopes,fraction,value,unit\n{well},{day},Pb,206+207+208,{0},{mean:.6},ng/L\n{well},{day},Pb,206+207+208,{0},{1:.6},ng/L\n{well},{day},Hg,,,1,ng/L\n",
        today.fraction,
        net(&today)
    );
    let sheet = shadow_sheet::read(sheet.as_bytes()).unwrap();
    let answer = shadow::beside(&store, &sheet).unwrap();
    assert_eq!(answer.rows[0].stand, Stand::Same);
    assert_eq!(answer.rows[1].causes, [Cause::OneBottle { bottle: BOTTLE.into() }]);
    assert_eq!(answer.rows[2].stand, Stand::NotOnRecord);
    assert!(answer.missing.iter().any(|m| m.result.bottle == BOTTLE && m.result.analyte != "Pb"));
    assert!(answer.of_other_bottles > 0);
}
