//! Lots, air, forecast, blanks over the years and plans of the invented trip, against what its scenario put in.

use assessment::blanks::PatternOf;
use assessment::forecast::{Knowledge, Moment};
use assessment::{air, attribution, blanks, derive, lots, results};
use intake::entry::{TypedRow, enter};
use intake::import;
use measurement::run::Analyte;
use message::{Arg, Message, path};
use programme::plan::{self, NewTrip};
use programme::start;
use programme::work;
use quantity::Check;
use quantity::{Outcome, Stage};
use record::by::By;
use record::model::{Bottle, BottleKind};
use record::store::{Filter, Store};
use simulator::{ELEMENTS, Purpose, Trip};
use std::path::Path;

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00+02:00" };

fn programme(dir: &Path, trip: &Trip, leave_out: &[&str]) -> Store {
    let mut bundle = String::new();
    for file in simulator::files::raw_files(trip) {
        if leave_out.contains(&file.name) {
            continue;
        }
        std::fs::write(dir.join(file.name), file.text).unwrap();
        bundle += &format!("[[file]]\npath = \"{}\"\nmapping = \"{}\"\n", file.name, file.mapping);
    }
    let path = dir.join("bundle.toml");
    std::fs::write(&path, bundle).unwrap();
    let mut store = start::start(dir.join("demo.sqlite"), BY.person, BY.at).unwrap();
    let inputs = import::inputs(&store, &[path], "bundle").unwrap();
    import::import(&mut store, &inputs, BY.person, BY.at).unwrap_or_else(|e| panic!("{e}"));
    store
}

type Reduced = Vec<(derive::Prepared, measurement::run::ReducedRun)>;

fn reduced(store: &Store) -> Reduced {
    let one = |r| {
        let prepared = derive::prepare(store, r).unwrap();
        let reduced = derive::reduce(&prepared).unwrap();
        (prepared, reduced)
    };
    store.runs().unwrap().into_iter().map(one).collect()
}

fn pairs(runs: &Reduced) -> Vec<attribution::RunPair<'_>> {
    runs.iter().map(|(p, r)| (p, r)).collect()
}

fn lead() -> Analyte {
    Analyte { element: "Pb".into(), isotopes: "206+207+208".into(), resolution: "low".into() }
}

#[test]
fn the_trip_is_told_stage_by_stage() {
    let dir = tempfile::tempdir().unwrap();
    let trip = Trip::new(2611, Purpose::Demo);
    let mut store = programme(dir.path(), &trip, &[]);
    work::recompute(&mut store, None, BY).unwrap();
    work::exclude(&mut store, "FB-26-07-4", true, "the gust of the field sheet", BY).unwrap();

    // The lot: what its four blanks show of lead lies under the target of 15 pg at the mean; the limit decides.
    let sheets = lots::all(&store).unwrap();
    let metal = sheets[0].metals.iter().find(|m| m.analyte == "Pb").unwrap();
    let limit = metal.limit.as_ref().unwrap();
    let truth = 0.45 * ELEMENTS[0].field_blank_pg;
    assert!((limit.mean_pg - truth).abs() < 0.5 * truth && limit.upper_pg > limit.highest_pg, "{limit:?}");
    assert_eq!((limit.blanks, metal.target_pg), (4, Some(15.0)));
    assert_eq!(sheets[0].bags, Some((2, 2)));

    // The air: the cabinet shows its class, the open air is some thousand times dirtier.
    let t = store.trips().unwrap()[0].id;
    let a = air::of_trip(&store, t).unwrap();
    assert_eq!(a.places.len(), 4);
    let cabinet = a.places.iter().find(|p| p.place == "cabinet").unwrap();
    // Class 4 asks for 20/352 m³ = 56.8 L at 0.5 µm; 84.9 L were drawn, one particle came.
    assert_eq!((cabinet.reading.shown_class, cabinet.open.unwrap().1), (Some(4), 2.0));
    assert!(a.reductions[0].1.interval_95.0 > 1000.0, "{:?}", a.reductions);

    // The forecast covers what each stage truly brought on average, and what the blanks found.
    let runs = reduced(&store);
    let knowledge = Knowledge::read(&store).unwrap();
    let bottle = store.bottles(&Filter::all()).unwrap().into_iter().find(|b| b.label == "SL2-26-07-A").unwrap();
    let at = Moment { measured_at: Some("2026-07-21 08:30"), contact_min: Some(20.0), earlier: vec![] };
    let expected = knowledge.of_bottle(&bottle, &lead(), &at);
    for (stage, part) in [(Stage::LabRun, 0.15), (Stage::Bottle, 0.30), (Stage::CleanAir, 0.45)] {
        let f = expected.iter().find(|e| e.stage == stage).unwrap_or_else(|| panic!("{stage:?}: {expected:?}"));
        let (low, high) = f.forecast.range_95;
        let truth = part * 20.0;
        assert!(low <= truth && truth <= high && !f.basis.is_empty(), "{stage:?}: {f:?} against {truth}");
    }
    // Nothing is known of the journey, and of steel in the pipe.
    assert!(!expected.iter().any(|e| matches!(e.stage, Stage::CoolBox | Stage::Well)), "{expected:?}");
    let old_pipe = store.bottles(&Filter::all()).unwrap().into_iter().find(|b| b.label == "SL3-26-07-A").unwrap();
    let at = Moment { contact_min: Some(332.0), ..at };
    let expected = knowledge.of_bottle(&old_pipe, &lead(), &at);
    let pipe = expected.iter().find(|e| e.stage == Stage::Well).unwrap();
    let truth = (44.0 - 1.05) * 250.0;
    assert!(pipe.forecast.range_95.0 < truth && truth < pipe.forecast.range_95.1, "{pipe:?} against {truth}");

    // The finding stands in the case.
    let case = programme::case::case(&store, "SL2-26-07-A:Pb:206+207+208@low:unfiltered").unwrap();
    let f = case.findings.iter().find(|f| f.check == Check::BottleBlankAgainstForecast).unwrap();
    assert!(f.outcome == Outcome::Met && f.sentence.contains("cool box"), "{f:?}");
    assert!(case.findings.iter().any(|f| f.check == Check::BottleLot));

    // The pattern of the old pipe holds zinc and lead as galvanised pipe does.
    let listed = results::all(&store).unwrap();
    let points = blanks::of(&store, &listed).unwrap();
    assert!(points.points.iter().any(|p| p.excluded && p.bottle == "FB-26-07-4"));
    let fits = attribution::all(&store, &pairs(&runs)).unwrap();
    let patterns = blanks::patterns_of(&points, &fits, &blanks::signatures(&store).unwrap());
    let pipe = patterns.iter().find(|p| matches!(&p.of, PatternOf::Pipe { well, .. } if well == "SL-3")).unwrap();
    assert!(pipe.finding().sentence.contains("galvanised pipe"), "{:?}", pipe.finding());
}

#[test]
fn without_physics_the_blanks_of_earlier_runs_forecast() {
    let dir = tempfile::tempdir().unwrap();
    let trip = Trip::new(77, Purpose::Trial);
    let mut store = programme(dir.path(), &trip, &["source-facts.csv"]);
    for (k, file) in
        simulator::files::run_files(&trip.measured_again(5), "SL-R-2701", "2027-01-21 08:30").into_iter().enumerate()
    {
        let path = dir.path().join(format!("again-{k}.csv"));
        std::fs::write(&path, file.text).unwrap();
        let inputs = import::inputs(&store, &[path], file.mapping).unwrap();
        import::import(&mut store, &inputs, BY.person, "2027-01-25T10:00:00Z").unwrap();
    }
    let runs = reduced(&store);
    let all = pairs(&runs);
    let knowledge = Knowledge::read(&store).unwrap();
    let bottle = store.bottles(&Filter::all()).unwrap().into_iter().find(|b| b.label == "SL2-26-07-A").unwrap();
    let of = |started: &'static str| {
        let earlier = assessment::forecast::earlier(&all, Some(started));
        knowledge.of_bottle(&bottle, &lead(), &Moment { measured_at: Some(started), contact_min: None, earlier })
    };
    assert!(of("2026-07-21 08:30").is_empty(), "the first run has no past");
    let second = of("2027-01-21 08:30");
    let stages: Vec<Stage> = second.iter().map(|e| e.stage).collect();
    assert_eq!(stages, [Stage::CleanAir, Stage::Bottle, Stage::CoolBox, Stage::LabRun]);
    let earlier_blanks = |b: &Arg| matches!(b, Arg::Message(m) if m.is::<path::EarlierBlanks>());
    assert!(second.iter().all(|e| e.basis.iter().any(earlier_blanks)), "{second:?}");
    // Past blanks are drawn as they are: the range of the clean air holds the mean of field less trip blanks.
    let (low, high) = second[0].forecast.range_95;
    assert!(low < 9.0 && 9.0 < high, "{:?}", second[0]);
}

#[test]
fn training_and_rising_blanks_are_told() {
    let dir = tempfile::tempdir().unwrap();
    let trip = Trip::new(2611, Purpose::Demo);
    let mut store = programme(dir.path(), &trip, &[]);
    work::recompute(&mut store, None, BY).unwrap();
    let mut points = blanks::of(&store, &results::all(&store).unwrap()).unwrap();
    assert!(points.rising().is_empty(), "one date tells nothing");
    let field: Vec<_> =
        points.points.iter().filter(|p| p.kind == "field blank" && p.analyte == "Pb").cloned().collect();
    for (k, p) in field.iter().take(3).enumerate() {
        // The beginner's blanks, far above; and the same blanks growing over three years.
        let more = |add: f64, year: f64| blanks::BlankPoint {
            year,
            pg: p.pg + add,
            bottle: format!("{}-{k}-{year}", p.bottle),
            ..p.clone()
        };
        points.points.push(blanks::BlankPoint {
            training: true,
            person: Some("Pia Lund".into()),
            ..more(400.0, p.year)
        });
        for later in 1..6 {
            points.points.push(more(40.0 * f64::from(later), p.year + f64::from(later)));
        }
    }
    let training = points.training();
    assert!(training.iter().any(|f| f.outcome == Outcome::NotMet && f.sentence.contains("Pia Lund")), "{training:?}");
    let rising = points.rising();
    assert!(rising.iter().any(|(a, f)| a == "Pb" && f.outcome == Outcome::NotMet), "{rising:?}");
}

#[test]
fn a_trip_is_made_from_a_plan() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path(), &Trip::new(2611, Purpose::Demo), &[]);
    work::recompute(&mut store, None, BY).unwrap();
    let runs = reduced(&store);
    let done = plan::complete(&store, &pairs(&runs), plan::example()).unwrap();
    assert!(done.from_record.len() > 4, "{:?}", done.from_record);
    let answer = done.asked.answer().unwrap();
    assert!(answer.requires.iter().any(|n| n.to_string().contains("number.recovery decides")), "{:?}", answer.requires);
    let designs = answer.designs;
    let prices: Vec<f64> = designs.iter().map(|d| d.ranked.price).collect();
    assert!(!designs.is_empty() && prices.windows(2).all(|w| w[0] < w[1]), "{prices:?}");

    let design = designs[0].ranked.design;
    let wells = ["SL-2".to_string()];
    let trip =
        NewTrip { name: "SL-2027-07", starts: "2027-07-13", question: "Is lead still there?", wells: &wells, design };
    let entered = plan::make_trip(&mut store, &trip, BY).unwrap();
    let made =
        store.bottles(&Filter::all()).unwrap().into_iter().filter(|b| b.label.contains("27-07")).collect::<Vec<_>>();
    assert_eq!(entered.added["bottle"] as usize, made.len());
    assert_eq!(made.iter().filter(|b| b.kind == BottleKind::FieldBlank).count() as u32, design.field_blanks);
    let again = plan::make_trip(&mut store, &trip, BY).unwrap_err().to_string();
    assert!(again.contains("on record already"), "{again}");

    let bad = plan::complete(&store, &pairs(&runs), plan::read(r#"{"analyte":"Au"}"#).unwrap());
    assert!(bad.err().unwrap().to_string().contains("Au"));
    let bad = plan::complete(&store, &pairs(&runs), plan::read(r#"{"wells":["SL-9"]}"#).unwrap());
    assert!(bad.err().unwrap().to_string().contains("there are SL-1"));
    // Where the table's own signatures come from is said in every language.
    for s in blanks::signatures(&store).unwrap() {
        assert_eq!(Message::named("source", &s.name).unwrap().in_english(), s.source, "{}", s.name);
        assert_eq!(s.says().in_english(), s.name);
    }
    // A signature of the programme's own replaces one that comes with the program.
    let row = TypedRow::of("signature")
        .with("name", "rubber gloves")
        .with("analyte", "Zn")
        .with("amount", "1")
        .with("source", "leach test, invented");
    enter(&mut store, BY, "glove test", &[row]).unwrap();
    let gloves = blanks::signatures(&store).unwrap();
    assert_eq!(gloves.iter().filter(|s| s.name == "rubber gloves").count(), 1);
    assert!(gloves[0].source.contains("leach test"));
}

#[test]
fn a_plan_follows_the_table_of_checks() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path(), &Trip::new(2611, Purpose::Demo), &[]);
    work::recompute(&mut store, None, BY).unwrap();
    let runs = reduced(&store);
    let designs = |store: &Store, wells: &[&str]| -> Vec<plan::Design> {
        let mut asked = plan::example();
        asked.wells = Some(plan::Wells::Named(wells.iter().map(ToString::to_string).collect()));
        let done = plan::complete(store, &pairs(&runs), asked).unwrap();
        done.asked.answer().unwrap().designs.iter().map(|d| d.ranked.design).collect()
    };
    // The table of a new programme: blanks, a second bottle, a spike in each water, a reference material decide; fast
    // drift and a second source warn.
    for d in designs(&store, &["SL-1", "SL-2"]) {
        assert!(d.field_blanks >= 3 && d.samples >= 2 && d.spikes >= 2, "{d:?}");
        let l = d.laboratory;
        assert_eq!((l.reference_materials, l.drift_checks, l.second_sources), (1, 3, 1));
    }
    // What a design lacks is said; cheaper ones that lack something stand apart, the dearest of them first.
    let two = ["SL-1".to_string(), "SL-2".to_string()];
    let mut asked = plan::example();
    asked.wells = Some(plan::Wells::Named(two.to_vec()));
    let done = plan::complete(&store, &pairs(&runs), asked).unwrap().asked;
    let answer = done.answer().unwrap();
    for d in &answer.designs {
        assert!(plan::lacks(&done.required, &d.ranked.design, &two).is_empty(), "{:?}", d.ranked.design);
    }
    let cheaper = plan::not_believed(&done, &answer).unwrap();
    assert!(!cheaper.is_empty() && cheaper.windows(2).all(|w| w[0].ranked.price > w[1].ranked.price));
    for d in &cheaper {
        assert!(d.ranked.price < answer.designs[0].ranked.price);
        assert!(!plan::lacks(&done.required, &d.ranked.design, &two).is_empty(), "{:?}", d.ranked.design);
    }
    let spared = plan::Design { spikes: 1, ..answer.designs[0].ranked.design };
    let lacks = plan::lacks(&done.required, &spared, &two);
    let no_spike = message::web_plan::NoSpikeIn { wells: vec![message::Name::from("SL-2").into()] };
    assert_eq!(lacks, vec![Message::from(no_spike)]);
    // Another table: one bottle and no spike are enough, two field blanks too; drift decides.
    let weights = [
        ("number.duplicates", "note"),
        ("number.recovery", "note"),
        ("run.blank-count", "warning"),
        ("number.blanks", "note"),
        ("run.reference-material", "note"),
        ("run.reference-warning", "note"),
        ("run.second-source", "note"),
        ("run.fast-drift", "note"),
        ("run.drift", "decisive"),
    ];
    let rows: Vec<TypedRow> = weights
        .iter()
        .map(|(check, weight)| {
            let row = TypedRow::of("check_rule").with("check_name", *check).with("revision", "2");
            row.with("weight", *weight)
        })
        .collect();
    enter(&mut store, BY, "another table of checks", &rows).unwrap();
    let free = designs(&store, &["SL-1", "SL-2"]);
    let cheapest = free[0];
    assert_eq!((cheapest.samples, cheapest.field_blanks, cheapest.spikes), (1, 2, 0));
    assert_eq!((cheapest.laboratory.drift_checks, cheapest.laboratory.vials()), (2, 2));

    // The trip made from a design of two wells has a spike in each water.
    let wells = ["SL-1".to_string(), "SL-2".to_string()];
    let design = plan::Design { spikes: 3, ..cheapest };
    let trip = NewTrip { name: "SL-2027-07", starts: "2027-07-13", question: "", wells: &wells, design };
    let spikes: Vec<_> = plan::bottles(&trip).into_iter().filter(|b| b.1 == BottleKind::FieldSpike).collect();
    let of = |well: &str| spikes.iter().filter(|b| b.2.as_deref() == Some(well)).count();
    assert_eq!((of("SL-1"), of("SL-2")), (2, 1));
    assert_eq!(spikes[2].3.as_deref(), Some("SL2-27-07-A"));
    // A blank tells of the air that it was opened in: the wells have them in turn, the box has none.
    let design = plan::Design { field_blanks: 3, trip_blanks: 1, ..cheapest };
    let of_kind = |kind| plan::bottles(&NewTrip { design, ..trip.clone() }).into_iter().filter(move |b| b.1 == kind);
    let field: Vec<Option<String>> = of_kind(BottleKind::FieldBlank).map(|b| b.2).collect();
    assert_eq!(field, ["SL-1", "SL-2", "SL-1"].map(|w| Some(w.to_string())));
    assert!(of_kind(BottleKind::TripBlank).all(|b| b.2.is_none()));
    // Lot and fraction are those of the newest lot and of the last trip's samples.
    plan::make_trip(&mut store, &trip, BY).unwrap();
    let lots: Vec<String> =
        store.list::<record::model::Lot>(&Filter::all()).unwrap().into_iter().map(|l| l.name).collect();
    let made = store.bottles(&Filter::all().is("label", "SL1-27-07-A")).unwrap().remove(0);
    assert_eq!((made.lot.as_ref(), made.fraction.as_deref()), (lots.last(), Some("unfiltered")));
}

#[test]
fn what_a_plan_asks_for_is_what_the_checks_ask_for() {
    // The demo's own bottles, taken out one after the other until a check turns.
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path(), &Trip::new(2611, Purpose::Demo), &[]);
    work::recompute(&mut store, None, BY).unwrap();
    let outcome = |store: &Store, check: Check| {
        let case = programme::case::case(store, "SL2-26-07-A:Pb:206+207+208@low:unfiltered").unwrap();
        case.findings.iter().find(|f| f.check == check).unwrap().outcome
    };
    let labels = |store: &Store, kinds: &[BottleKind]| -> Vec<String> {
        let here = |b: &Bottle| b.well.as_deref() == Some("SL-2") || b.parent.as_deref() == Some("SL2-26-07-A");
        let of = |b: &Bottle| kinds.contains(&b.kind) && (here(b) || b.kind.is_blank()) && !b.is_series();
        store.bottles(&Filter::all()).unwrap().into_iter().filter(of).map(|b| b.label).collect()
    };
    let least = |check: Check| cleanliness::needs::Need::of(check).unwrap().least as usize;
    let take_out = |store: &mut Store, kinds: &[BottleKind], check: Check, own: usize| {
        let mut left = labels(store, kinds);
        while left.len() + own > least(check) {
            work::exclude(store, &left.pop().unwrap(), true, "to see what is enough", BY).unwrap();
        }
        assert_eq!(outcome(store, check), Outcome::Met, "{check}: as many as the plan asks for");
        work::exclude(store, &left.pop().unwrap(), true, "to see what is enough", BY).unwrap();
        assert_ne!(outcome(store, check), Outcome::Met, "{check}: one fewer");
    };
    take_out(&mut store, &[BottleKind::FieldSpike, BottleKind::LabSpike], Check::NumberRecovery, 0);
    // The sample itself is one of the two bottles.
    take_out(&mut store, &[BottleKind::Duplicate], Check::NumberDuplicates, 1);
    take_out(&mut store, &[BottleKind::FieldBlank], Check::RunBlankCount, 0);
    assert_eq!(least(Check::RunBlankCount), measurement::run::FEWEST_BLANKS);
}

#[test]
fn a_blank_of_exactly_zero_keeps_its_u() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = programme(dir.path(), &Trip::new(2611, Purpose::Demo), &[]);
    work::recompute(&mut store, None, BY).unwrap();
    let mut listed = results::all(&store).unwrap();
    let at = listed.iter().position(|r| r.bottle == "FB-26-07-1" && r.analyte == "Pb").unwrap();
    let ng_l = |value: f64, u: f64| Some(quantity::Amount::measured(value, u, quantity::Unit::known("ng/L")));
    let find = |listed: &[results::Listed]| {
        let all = blanks::of(&store, listed).unwrap();
        let point = all.points.into_iter().find(|p| p.bottle == "FB-26-07-1" && p.analyte == "Pb");
        (point.map(|p| (p.pg, p.u_pg)), all.left_out)
    };
    // 0.004 ng/L in 250 mL is 1 pg.
    listed[at].gross = ng_l(0.0, 0.004);
    let volume =
        store.bottles(&Filter::all()).unwrap().into_iter().find(|b| b.label == "FB-26-07-1").unwrap().volume_mL;
    let (point, left_out) = find(&listed);
    assert_eq!(point, Some((0.0, Some(0.004 * volume.unwrap()))));
    // What is no number is counted, not shown.
    listed[at].gross = ng_l(f64::NAN, 0.004);
    assert_eq!(find(&listed), (None, left_out + 1));
}
