//! What was not detected is bounded over zero and never under its critical value, wherever the bound is told: in the
//! record, beside limits, in sentences, in lists.

use crate::{demo_common, import_common};
use assessment::results::{self, Listed};
use import_common::Desk;
use programme::limits_of::{Asked, against};
use programme::start::start;
use programme::statement::{self, New, Sentence};
use programme::work;
use quantity::Amount;
use record::by::By;
use record::model::{ResultRow, State};
use record::schema;
use record::store::{ActInfo, Cell, Filter, Store, StoreError};
use serde_json::json;
use simulator::{Counts, SimReading};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

/// The demo, but that the bottles of SL-2 hold no cadmium and no thallium: they count as plain acidified water does, less
/// than the field blanks.
fn demo(dir: &std::path::Path) -> Store {
    let mut trip = simulator::Trip::new(2611, simulator::Purpose::Demo);
    let plain = trip.vials.iter().find(|v| v.counts_of == Counts::Nothing).unwrap().position;
    let of_sl2 = |c: &Counts| matches!(c, Counts::Bottle(i) if trip.bottles[*i].label.starts_with("SL2-26-07"));
    let empty: Vec<u32> = trip.vials.iter().filter(|v| of_sl2(&v.counts_of)).map(|v| v.position).collect();
    let counts: Vec<SimReading> = trip.readings.iter().filter(|r| r.position == plain).cloned().collect();
    let none = |r: &&mut SimReading| ["Cd", "Tl"].contains(&r.element) && empty.contains(&r.position);
    for r in trip.readings.iter_mut().filter(none) {
        let of_plain = |c: &&SimReading| (c.element, c.mass, c.resolution) == (r.element, r.mass, r.resolution);
        r.rates_cps = counts.iter().find(of_plain).unwrap().rates_cps.clone();
    }
    let mut store = demo_common::record(dir, &trip, |_, text| Some(text));
    work::recompute(&mut store, None, BY).unwrap();
    store
}

fn bound(r: &Listed) -> f64 {
    match &r.amount {
        Some(Amount::Below(b)) => b.limit,
        other => panic!("{} was not detected and stands as {other:?}", r.result),
    }
}

#[test]
fn no_bound_of_a_run_lies_at_zero_or_under_its_critical_value() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path());
    let all = results::all(&store).unwrap();
    let of_run = |r: &&Listed| r.state == State::NotDetected && r.gross.is_some();
    let not_detected: Vec<&Listed> = all.iter().filter(of_run).collect();
    assert!(not_detected.len() >= 3, "{}", not_detected.len());
    let mut negative = None;
    for r in &not_detected {
        let (limit, critical) = (bound(r), r.critical_value.expect("the demo has blanks"));
        assert!(limit > 0.0 && limit >= critical, "{}: at most {limit}, L_C {critical}", r.result);
        let net = r.net.as_ref().unwrap();
        let (value, u) = (net.value().unwrap(), net.u().unwrap());
        // A one-sided 95 % point of Student's t is 1.645 or more.
        assert!(limit >= value.max(0.0) + 1.644 * u, "{}: at most {limit}, net {value} ± {u}", r.result);
        if value < 0.0 {
            negative = Some(r.result.clone());
        }
    }
    // The same bound in the record's own column, beside the limits and in a sentence.
    for row in store.results(&Filter::all().latest()).unwrap().iter().filter(|r| r.vial_id.is_some()) {
        if row.state == State::NotDetected {
            let listed = not_detected.iter().find(|r| r.row == row.id).unwrap();
            assert_eq!(row.upper_bound, Some(bound(listed)), "{}", listed.result);
        }
    }
    for row in against(&store, &Asked::default()).unwrap().rows {
        if let (Some(r), Amount::Below(b)) =
            (not_detected.iter().find(|r| r.result == row.result), &row.comparison.amount)
        {
            let unit = r.amount.as_ref().unwrap().convert(&b.unit, None, None).unwrap();
            assert_eq!(row.comparison.amount, unit, "{}", row.result);
        }
    }
    let negative = negative.expect("a net value under zero in the demo");
    let listed = not_detected.iter().find(|r| r.result == negative).unwrap();
    let fields = json!({"kind": "absence", "value": {"result": negative}});
    let new = New { name: "free", sentence: &Sentence::read(&fields).unwrap(), despite: Some("for the test") };
    let s = statement::add(&mut store, &new, BY).unwrap();
    assert_eq!(serde_json::to_value(&s.kept).unwrap()["highest_upper_bound"]["below"], json!(bound(listed)));
}

/// Keeps a result once more, with another bound.
fn revise(store: &mut Store, row: &ResultRow, upper_bound: f64) {
    let table = schema::table("result").unwrap();
    let at = |name: &str| table.place(name).unwrap();
    let info = ActInfo { kind: "reduction".into(), author: BY.person.into(), at: BY.at.into(), body: json!({}) };
    let mut texts: Vec<(usize, String)> = vec![];
    let mut numbers: Vec<Cell<'static>> = vec![Cell::Null; table.columns.len()];
    store
        .dump("result", |id, _, cells| {
            for (place, cell) in cells.iter().enumerate().filter(|_| id == row.id) {
                match cell {
                    Cell::Integer(i) => numbers[place] = Cell::Integer(*i),
                    Cell::Real(x) => numbers[place] = Cell::Real(*x),
                    Cell::Text(t) => texts.push((place, (*t).to_string())),
                    _ => {}
                }
            }
            Ok(())
        })
        .unwrap();
    let mut cells: Vec<Cell> = numbers;
    for (place, text) in &texts {
        cells[*place] = Cell::Text(text);
    }
    cells[at("revision")] = Cell::Integer(row.revision + 1);
    cells[at("upper_bound")] = Cell::Real(upper_bound);
    let body = store.derivation(row.id).unwrap().expect("a result of a run has its derivation").body.to_string();
    store
        .act::<_, StoreError>(&info, |act| {
            let id = act.insert("result", &cells)?;
            act.insert("derivation", &[Cell::Integer(id), Cell::Text(&body)])
        })
        .unwrap();
}

/// A record derived with the bounds of an earlier program: deriving again mends them and says so.
#[test]
fn deriving_again_mends_a_bound_that_was_kept_too_low() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo(dir.path());
    assert!(work::underivable(&store).unwrap().is_empty());
    let row = store
        .results(&Filter::all().latest())
        .unwrap()
        .into_iter()
        .find(|r| r.vial_id.is_some() && r.state == State::NotDetected)
        .unwrap();
    revise(&mut store, &row, -0.0083);
    let kept = results::row(&store, &row.identity().newest()).unwrap();
    assert_eq!((kept.revision, kept.upper_bound), (row.revision + 1, Some(-0.0083)));
    assert!(matches!(results::amount(&kept), Some(Amount::Below(b)) if b.limit > 0.0));
    let said = work::underivable(&store).unwrap();
    assert!(said.iter().any(|s| s.contains(&kept.identity().to_string())), "{said:?}");
    work::recompute(&mut store, None, BY).unwrap();
    let mended = results::row(&store, &row.identity().newest()).unwrap();
    assert_eq!((mended.revision, mended.upper_bound), (row.revision + 2, row.upper_bound));
    assert!(work::underivable(&store).unwrap().is_empty());
}

/// Net −0.02 ± 0.001 against a critical value of 0.005 would read "at most 0.002".
#[test]
fn a_reported_net_value_is_bounded_by_its_critical_value_too() {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nA,groundwater\n");
    desk.text(
        "bottles.csv",
        "bottles",
        "label,kind,well,fraction,filled_at\nA1,sample,A,unfiltered,2026-07-14 09:00\n",
    );
    desk.text(
        "list.csv",
        "organics-long",
        "bottle,analyte,cas,value,u,unit,critical_value\n\
         A1,diuron,330-54-1,-0.02,0.001,µg/L,0.005\nA1,simazine,122-34-9,0.003,0.002,µg/L,0.005\n",
    );
    work::recompute(&mut desk.store, None, BY).unwrap();
    let all = results::all(&desk.store).unwrap();
    let of = |name: &str| bound(all.iter().find(|r| r.analyte == name).unwrap());
    assert_eq!((of("diuron"), of("simazine")), (0.005, 0.003 + 2.0 * 0.002));
    let list = assessment::organics::report(&desk.store, &all, quantity::Lang::En).unwrap().unwrap();
    let bounds: Vec<Option<f64>> = list.rows.iter().map(|r| r.upper_bound).collect();
    assert_eq!(bounds, [Some(of("diuron")), Some(of("simazine"))]);
}
