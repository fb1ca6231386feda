//! Quality over several runs, against the simulator that knows what was done to them: charts, the
//! stability of bottles that are measured again, revisions that settle, the long-term u.
//! The charts themselves stand on handbook examples in `measurement`'s `tests/control.rs`.

use assessment::quality::stability::{self, Changed};
use assessment::quality::{Charted, Kind, Quality};
use assessment::{derive, results};
use intake::import;
use measurement::run::Analyte;
use programme::work;
use programme::{case, start};
use quantity::{Check, Outcome};
use record::by::By;
use record::model::VerdictWord;
use record::store::Store;
use simulator::files::{RawFile, raw_files, run_files};
use simulator::{Counts, Purpose, Trip};
use std::fmt::Write as _;
use std::path::Path;

const BY: By = By { person: "Ines Varga", at: "2046-07-23T14:20:00+02:00" };
// Uranium stands far above its blanks, so that its loss is told; of lead, with the bad blank in the
// mean, a loss of 60 % stays within three standard uncertainties.
const URANIUM: &str = "SL2-26-07-A:U:238@low:unfiltered";
const LEAD: &str = "SL2-26-07-A:Pb:206+207+208@low:unfiltered";

fn import_files(store: &mut Store, dir: &Path, tag: &str, files: &[RawFile]) {
    let mut bundle = String::new();
    for file in files {
        let name = format!("{tag}-{}", file.name);
        std::fs::write(dir.join(&name), &file.text).unwrap();
        let _ = write!(bundle, "[[file]]\npath = \"{name}\"\nmapping = \"{}\"\n", file.mapping);
    }
    let path = dir.join(format!("{tag}.toml"));
    std::fs::write(&path, bundle).unwrap();
    let inputs = import::inputs(store, &[path], "bundle").unwrap();
    import::import(store, &inputs, BY.person, BY.at).unwrap_or_else(|e| panic!("{e}"));
}

/// The trip's own run, then the same bottles each year after as `change` left them.
fn years(dir: &Path, runs: usize, change: impl Fn(usize, &mut Trip)) -> Store {
    let trip = Trip::new(2611, Purpose::Demo);
    let mut store = start::start(dir.join("years.sqlite"), BY.person, BY.at).unwrap();
    import_files(&mut store, dir, "run0", &raw_files(&trip));
    for year in 1..runs {
        let mut again = trip.clone();
        change(year, &mut again);
        let again = again.measured_again(5000 + year as u64);
        let files = run_files(&again, &format!("SL-R-{}", 26 + year), &format!("{}-07-21 08:30", 2026 + year));
        import_files(&mut store, dir, &format!("run{year}"), &files);
    }
    work::recompute(&mut store, None, BY).unwrap_or_else(|e| panic!("{e}"));
    store
}

fn lead() -> Analyte {
    Analyte { element: "Pb".into(), isotopes: "206+207+208".into(), resolution: "low".into() }
}

fn uranium() -> Analyte {
    Analyte { element: "U".into(), isotopes: "238".into(), resolution: "low".into() }
}

fn quality(store: &Store) -> Quality {
    let runs: Vec<_> = store
        .runs()
        .unwrap()
        .into_iter()
        .map(|r| {
            let prepared = derive::prepare(store, r).unwrap();
            let reduced = derive::reduce(&prepared).unwrap();
            (prepared, reduced)
        })
        .collect();
    Quality::of(store, runs.iter().map(|(p, r)| (p, r))).unwrap()
}

#[test]
fn metal_lost_between_two_runs_is_told_and_the_old_value_stays() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = years(dir.path(), 3, |year, trip| {
        if year == 2 {
            let b = trip.bottles.iter_mut().find(|b| b.label == "SL2-26-07-A").unwrap();
            b.water_ng_l[4] *= 0.4;
        }
    });
    let all = stability::all(&store).unwrap();
    let of = |bottle: &str| all.iter().find(|s| s.is_of(bottle, &uranium())).unwrap();
    let lost = of("SL2-26-07-A");
    assert_eq!(lost.visits.iter().map(|v| v.run.as_str()).collect::<Vec<_>>(), ["SL-R-2607", "SL-R-27", "SL-R-28"]);
    assert_eq!(lost.changed(), Changed::Yes, "{lost:?}");
    let recovery = lost.recovery.as_ref().unwrap();
    assert!((recovery.value - 0.4).abs() < 3.0 * recovery.u, "{recovery:?}");
    assert_eq!(of("SL2-26-07-B").changed(), Changed::No);
    assert!((lost.last().years.unwrap() - 2.0).abs() < 0.01, "{:?}", lost.last());
    assert!(lost.slope.is_some_and(|s| s.per_year < 0.0));

    // The result that stands is the newest; the older revisions are on record.
    let row = results::find(&store, URANIUM).unwrap();
    assert_eq!(row.revision, 3);
    assert_eq!(Some(row.value.unwrap()), Some(lost.last().value.value));
    let told = case::case(&store, URANIUM).unwrap();
    let finding = told.findings.iter().find(|f| f.check == Check::NumberStability).unwrap();
    assert_eq!(finding.outcome, Outcome::NotMet);
    assert!(finding.sentence.contains("a loss with time"), "{}", finding.sentence);
    assert_ne!(told.result.verdict, Some(VerdictWord::Accepted));
    let charts = told.findings.iter().find(|f| f.check == Check::RunControlChart).unwrap();
    assert_eq!(charts.outcome, Outcome::NotKnown);
    assert!(charts.sentence.contains("cannot be given with this few: 3 runs"), "{}", charts.sentence);

    // Deriving again settles, also after an older run has changed.
    let again = work::recompute(&mut store, None, BY).unwrap();
    assert_eq!((again.results, again.verdicts), (0, 0));
    assert_eq!(work::underivable(&store).unwrap(), Vec::<String>::new());
    let position = store
        .vials(derive::find_run(&store, "SL-R-2607").unwrap().id)
        .unwrap()
        .iter()
        .find(|v| v.name == "FB-26-07-4")
        .map(|v| v.position)
        .unwrap();
    work::exclude(&mut store, &format!("SL-R-2607/{position}"), true, "the gust of the field sheet", BY).unwrap();
    let settled = work::recompute(&mut store, None, BY).unwrap();
    assert_eq!((settled.results, settled.verdicts), (0, 0));
    let newest = results::find(&store, URANIUM).unwrap();
    assert_eq!(newest.value, row.value, "the newest run is the newest word again");
    let first = stability::all(&store).unwrap();
    let first = first.iter().find(|s| s.is_of("SL2-26-07-A", &uranium())).unwrap();
    let moved = (first.first().value.value - lost.first().value.value).abs();
    assert!(moved > 0.0, "the old run's value follows the exclusion");
}

#[test]
fn a_run_that_breaks_the_chart_is_named() {
    let dir = tempfile::tempdir().unwrap();
    // In the last year the control water truly holds a third more than its label says.
    let store = years(dir.path(), 13, |year, trip| {
        if year == 12 {
            for v in trip.vials.iter_mut().filter(|v| v.role == "reference-material") {
                let Counts::Solution(c) = &mut v.counts_of else { panic!("a control water is a solution") };
                for x in c {
                    *x *= 1.33;
                }
            }
        }
    });
    let q = quality(&store);
    assert_eq!(q.runs.len(), 13);
    let control = q.series_of(&lead(), Kind::ControlWater).unwrap();
    let Charted::Drawn(charts) = &control.charted else { panic!("{}", control.says().in_english()) };
    // The baseline lies at the label; 2 % is what the simulator's labels are off by from batch to batch.
    assert!((charts.centre - 1.0).abs() < 4.0 * 0.02, "{}", charts.centre);
    assert!((0.007..0.06).contains(&charts.sd), "{}", charts.sd);
    assert!(charts.broken_at(12).iter().any(|(r, high)| *r == measurement::control::Rule::BeyondThree && *high));
    assert!(charts.broken_at(12).iter().any(|(r, _)| *r == measurement::control::Rule::CumulativeSum));
    let told = case::case(&store, LEAD).unwrap();
    let broken =
        told.findings.iter().find(|f| f.check == Check::RunControlChart && f.outcome == Outcome::NotMet).unwrap();
    assert!(broken.sentence.contains("one beyond 3 sd, high"), "{}", broken.sentence);
    assert_eq!(q.series_of(&lead(), Kind::Blank).unwrap().points.len(), 13 * 8);

    // Top-down u by hand from the series: sd between runs, bias, label, blanks about their run's mean.
    let l = q.long_term.iter().find(|l| l.analyte == lead()).unwrap();
    let parts = l.parts.as_ref().unwrap();
    let values: Vec<f64> = control.points.iter().map(|p| p.value).collect();
    let mean = values.iter().sum::<f64>() / 13.0;
    let variance = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / 12.0;
    assert!((parts.bias - (mean - 1.0)).abs() < 1e-12 && (parts.between_runs.powi(2) - variance).abs() < 1e-12);
    assert!((parts.u_reference - 0.02).abs() < 1e-6);
    let relative = variance * (1.0 + 1.0 / 13.0) + (mean - 1.0).powi(2) + 0.02_f64.powi(2);
    let blank = parts.blank_sd.unwrap().powi(2) * (1.0 + 1.0 / 8.0);
    assert!((parts.u(2.0) - (4.0 * relative + blank).sqrt()).abs() < 1e-6);
    assert!(told.findings.iter().any(|f| f.check == Check::NumberLongTerm && f.outcome != Outcome::NotKnown));
}

#[test]
fn one_run_asks_for_no_chart() {
    let dir = tempfile::tempdir().unwrap();
    let store = years(dir.path(), 1, |_, _| {});
    let told = case::case(&store, LEAD).unwrap();
    let checks = [Check::RunControlChart, Check::NumberStability, Check::NumberLongTerm];
    assert!(!told.findings.iter().any(|f| checks.contains(&f.check)));
    assert!(stability::all(&store).unwrap().is_empty());
}

/// A run whose start is not on record comes last, in every list: order of runs, charts and bottles agree.
#[test]
fn a_run_without_a_start_is_last_everywhere() {
    let dir = tempfile::tempdir().unwrap();
    let trip = Trip::new(2611, Purpose::Demo);
    let mut store = start::start(dir.path().join("p.sqlite"), BY.person, BY.at).unwrap();
    import_files(&mut store, dir.path(), "first", &raw_files(&trip));
    let again = trip.measured_again(5001);
    let start_of = "2025-01-10 08:30";
    let mut files = run_files(&again, "SL-R-undated", start_of);
    let dated = files[0].text.clone();
    files[0].text = dated.replace(start_of, "");
    assert_ne!(files[0].text, dated);
    import_files(&mut store, dir.path(), "undated", &files);
    work::recompute(&mut store, None, BY).unwrap();
    let expected = ["SL-R-2607", "SL-R-undated"];
    let order: Vec<String> = derive::runs_in_order(&store).unwrap().into_iter().map(|r| r.name).collect();
    assert_eq!(order, expected);
    let charts: Vec<String> = quality(&store).runs.into_iter().map(|r| r.name).collect();
    assert_eq!(charts, expected);
    let bottles = stability::all(&store).unwrap();
    assert!(!bottles.is_empty());
    for s in &bottles {
        assert_eq!(s.visits.iter().map(|v| v.run.as_str()).collect::<Vec<_>>(), expected, "{}", s.bottle);
    }
}

/// Blanks of a run whose recipe speaks of another unit stand on the chart in the unit of the first.
#[test]
fn blanks_of_a_run_in_another_unit_are_converted() {
    let dir = tempfile::tempdir().unwrap();
    let store = years(dir.path(), 2, |_, _| {});
    let runs: Vec<_> = (derive::runs_in_order(&store).unwrap().into_iter().enumerate())
        .map(|(i, r)| {
            let mut prepared = derive::prepare(&store, r).unwrap();
            if i == 1 {
                prepared.recipe.unit = quantity::Unit::known("ug/L");
            }
            let reduced = derive::reduce(&prepared).unwrap();
            (prepared, reduced)
        })
        .collect();
    let all = Quality::of(&store, runs.iter().map(|(p, r)| (p, r))).unwrap();
    let plain = quality(&store);
    for kind in [Kind::Blank, Kind::BlankMean] {
        let (mixed, same) = (all.series_of(&lead(), kind).unwrap(), plain.series_of(&lead(), kind).unwrap());
        assert_eq!(mixed.unit.to_string(), "ng/L");
        assert_eq!(mixed.points.len(), same.points.len());
        for (a, b) in mixed.points.iter().zip(&same.points) {
            // The factor of a thousand in binary.
            assert!((a.value - b.value).abs() <= 1e-9 * b.value.abs(), "{a:?} {b:?}");
            assert!((a.u - b.u).abs() <= 1e-9 * b.u, "{a:?} {b:?}");
        }
    }
}
