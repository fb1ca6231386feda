//! How far a record was derived, by which engine, and what verifying answers: after acts that were cut off between
//! keeping and deriving, acts at once, an older engine, values altered together with their chain; and the number of
//! the engine against the computed values of the invented trip.
//!
//! `LIMPID_KILLS` sets the number of kills (6 here).

use crate::{demo_common, store_outside};

use assessment::assess;
use assessment::engine::ENGINE;
use assessment::verify::{Answer, Verified, Way, verify};
use intake::entry::{TypedRow, enter};
use programme::work;
use record::Error;
use record::by::By;
use record::model::{Share, VerdictWord};
use record::store::{Act, ActInfo, Cell, Filter, Store, StoreError};
use serde_json::{Value, json};
use simulator::{Purpose, Trip};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Instant;

const BY: By = By { person: demo_common::BY, at: demo_common::AT };

/// A copy of the invented programme, everything derived.
fn programme(dir: &Path) -> PathBuf {
    static MADE: OnceLock<tempfile::TempDir> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        let made = tempfile::tempdir().unwrap();
        let mut store = demo_common::record(made.path(), &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
        work::recompute(&mut store, None, BY).unwrap();
        store.backup(made.path().join("made.sqlite")).unwrap();
        made
    });
    let path = dir.join("p.sqlite");
    std::fs::copy(made.path().join("made.sqlite"), &path).unwrap();
    path
}

fn opened() -> (tempfile::TempDir, Store) {
    let dir = tempfile::tempdir().unwrap();
    let store = Store::open(programme(dir.path())).unwrap();
    (dir, store)
}

/// What verifying answers; no row or event may differ.
#[track_caller]
fn answer(store: &Store, expected: Answer) -> Verified {
    let found = verify(store, None).unwrap();
    assert_eq!(found.rows.differences, []);
    assert_eq!(found.answer(), expected, "{:#?} {:?}", &found.derived[..found.derived.len().min(5)], found.reach);
    found
}

/// Takes a bottle out of the evidence and derives nothing: what an act leaves that is cut off after keeping.
fn keep_only(store: &mut Store, bottle: &str) {
    let row = TypedRow::of("exclusion").with("bottle", bottle).with("excluded", "1").with("why", "a gust");
    enter(store, BY, "", &[row.with("person", BY.person)]).unwrap();
}

#[test]
fn what_is_kept_and_not_yet_derived_is_no_difference_and_deriving_heals_it() {
    let (_dir, mut store) = opened();
    answer(&store, Answer::Intact);
    // Field blanks of the run (the trip itself has taken FB-26-07-4 out): values move, and what stands on them.
    for bottle in ["FB-26-07-2", "FB-26-07-1"] {
        keep_only(&mut store, bottle);
        let found = answer(&store, Answer::NotDerived);
        assert_eq!((found.reach.engine, found.reach.acts_since), (Some(ENGINE), 1), "{bottle}");
        assert!(!found.derived.is_empty(), "{bottle}");
        work::recompute(&mut store, None, BY).unwrap();
        assert!(answer(&store, Answer::Intact).reach.is_current());
    }
    let head = store.head().unwrap();
    work::recompute(&mut store, None, BY).unwrap();
    assert_eq!(store.head().unwrap(), head, "deriving again writes nothing, not even that it was done");
}

#[test]
fn what_nothing_follows_from_leaves_the_record_derived() {
    let (dir, mut store) = opened();
    enter(&mut store, BY, "", &[TypedRow::of("person").with("name", "Rea Dahl")]).unwrap();
    assert!(answer(&store, Answer::Intact).reach.is_current());
    // A stretch of river says nothing of results, but who can tell beforehand: it counts, and nothing differs.
    enter(&mut store, BY, "", &[TypedRow::of("site").with("name", "Elsewhere")]).unwrap();
    assert_eq!(answer(&store, Answer::Intact).reach.acts_since, 1);
    let empty = programme::start::start(dir.path().join("new.sqlite"), BY.person, BY.at).unwrap();
    answer(&empty, Answer::Intact);
}

#[test]
fn a_deriving_that_stops_half_way_is_not_told_as_altered() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = demo_common::record(dir.path(), &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    assert_eq!(answer(&store, Answer::NotDerived).reach.engine, None);
    for stop_before in ["whose metal", "judging run", "judging reported"] {
        let watch = |step: &str| !step.starts_with(stop_before);
        let stopped = work::recompute_watched(&mut store, None, BY, &watch);
        assert!(matches!(stopped, Err(Error::Stopped { .. })), "{stop_before}");
        assert_eq!(answer(&store, Answer::NotDerived).reach.engine, None, "{stop_before}");
    }
    work::recompute(&mut store, None, BY).unwrap();
    answer(&store, Answer::Intact);
}

#[test]
fn an_older_engine_is_told_by_its_number_and_deriving_heals_it() {
    let (dir, mut store) = opened();
    let act = |store: &mut Store, kind: &str, body: Value| {
        let info = ActInfo { kind: kind.into(), author: BY.person.into(), at: BY.at.into(), body };
        store.act(&info, |_| Ok::<_, StoreError>(())).unwrap();
    };
    for other in [ENGINE + 1, ENGINE + 10] {
        act(&mut store, "derived", json!({ "engine": other }));
        let found = answer(&store, Answer::NotDerived);
        assert_eq!(found.reach.engine, Some(other));
        assert!(found.in_words().last().unwrap().contains(&format!("engine {other}")), "{:?}", found.in_words());
        let done = work::recompute(&mut store, None, BY).unwrap();
        assert_eq!((done.results, done.verdicts), (0, 0), "what comes out the same is not written");
        answer(&store, Answer::Intact);
    }
    // A part that another engine derived after the mark.
    act(&mut store, "reduction", json!({ "run": "SL-R-2607", "results": 0, "engine": ENGINE - 1 }));
    assert_eq!(answer(&store, Answer::NotDerived).reach.engine, Some(ENGINE - 1));
    work::recompute(&mut store, None, BY).unwrap();
    answer(&store, Answer::Intact);
    // A program before the numbers left acts that name none, and no mark.
    let mut store = demo_common::record(dir.path(), &Trip::new(2611, Purpose::Demo), |_, text| Some(text));
    act(&mut store, "reduction", json!({ "run": "SL-R-2607", "results": 0 }));
    let found = answer(&store, Answer::NotDerived);
    assert_eq!((found.reach.engine, found.reach.acts_since), (Some(0), 0));
    work::recompute(&mut store, None, BY).unwrap();
    answer(&store, Answer::Intact);
}

/// Writes the newest revision of a derived result once more, changed, as the program would: its chain is whole.
fn forge(store: &mut Store, change: impl Fn(&mut f64, &mut String)) {
    let result = store.results(&Filter::all().latest()).unwrap().into_iter().find(|r| r.vial_id.is_some()).unwrap();
    let mut value = result.value.unwrap();
    let mut body = store.derivation(result.id).unwrap().unwrap().body.to_string();
    change(&mut value, &mut body);
    let table = record::schema::table("result").unwrap();
    let place = |column: &str| table.place(column).unwrap();
    let mut forger = store.again().unwrap();
    let info =
        ActInfo { kind: "reduction".into(), author: "x".into(), at: BY.at.into(), body: json!({"engine": ENGINE}) };
    let write = |act: &mut Act, cells: &[Cell]| {
        let id = act.insert("result", cells)?;
        act.insert("derivation", &[Cell::Integer(id), Cell::Text(&body)])?;
        let share: Option<Share> = store.list(&Filter::all().is("result", result.id))?.pop();
        if let Some(s) = share {
            let number = |x: f64| Cell::Real(x);
            let cells = [id.into(), number(s.share), number(s.u), number(s.low), number(s.high), (&s.method).into()];
            act.insert("share", &cells)?;
        }
        Ok::<_, StoreError>(())
    };
    store
        .dump("result", |id, _, cells| {
            if id == result.id {
                let mut cells = cells.to_vec();
                cells[place("revision")] = (result.revision + 1).into();
                cells[place("value")] = Cell::Real(value);
                forger.act(&info, |act| write(act, &cells))?;
            }
            Ok(())
        })
        .unwrap();
}

#[test]
fn a_value_altered_together_with_its_chain_is_altered_and_other_words_are_not() {
    let (_dir, mut store) = opened();
    forge(&mut store, |value, _| *value *= 0.1);
    let found = answer(&store, Answer::Altered);
    assert!(found.derived.iter().any(|d| d.way == Way::Value), "{:?}", found.derived);
    work::recompute(&mut store, None, BY).unwrap();
    answer(&store, Answer::Intact);
    forge(&mut store, |_, body| *body = body.replacen("weighted", "weighed", 1));
    let found = answer(&store, Answer::NotDerived);
    assert!(found.derived.iter().any(|d| d.way == Way::Wording), "{:?}", found.derived);
    work::recompute(&mut store, None, BY).unwrap();
    answer(&store, Answer::Intact);
}

#[test]
fn an_act_that_another_overtakes_is_derived_with_it() {
    let (_dir, mut store) = opened();
    let mut other = store.again().unwrap();
    let beside = store.again().unwrap();
    keep_only(&mut store, "FB-26-07-4");
    let once = AtomicBool::new(true);
    let other = std::sync::Mutex::new(&mut other);
    let watch = |step: &str| {
        if step.starts_with("judging run") && once.swap(false, Ordering::Relaxed) {
            keep_only(&mut other.lock().unwrap(), "FB-26-07-1");
            assert_eq!(answer(&beside, Answer::NotDerived).reach.acts_since, 2, "seen from beside, in the middle");
        }
        true
    };
    work::follow(&mut store, BY, &watch).unwrap();
    assert!(answer(&store, Answer::Intact).reach.is_current());
    assert_eq!(store.exclusions().unwrap().len(), 2);
}

#[test]
fn two_who_write_at_once_leave_a_record_that_is_derived() {
    let dir = tempfile::tempdir().unwrap();
    let path = programme(dir.path());
    let at_work = AtomicBool::new(true);
    std::thread::scope(|scope| {
        let writers: Vec<_> = ["FB-26-07-4", "FB-26-07-1"]
            .into_iter()
            .map(|bottle| {
                let path = &path;
                scope.spawn(move || {
                    let mut store = Store::open(path).unwrap();
                    let done = [true, false, true].map(|out| {
                        let done = work::exclude(&mut store, bottle, out, "a gust, or none", BY);
                        // On a slow machine the other leaves no minute's pause; then it is kept and told so.
                        assert!(matches!(done, Ok(_) | Err(Error::NotDerived { .. })), "{done:?}");
                        done.is_ok()
                    });
                    done[2]
                })
            })
            .collect();
        let watcher = scope.spawn(|| {
            let store = Store::open(&path).unwrap();
            while at_work.load(Ordering::Relaxed) {
                let found = verify(&store, None).unwrap();
                assert_ne!(found.answer(), Answer::Altered, "{:?}", found.in_words());
            }
        });
        let derived: Vec<bool> = writers.into_iter().map(|w| w.join().unwrap()).collect();
        if derived == [true, true] {
            assert!(answer(&Store::open(&path).unwrap(), Answer::Intact).reach.is_current());
        }
        at_work.store(false, Ordering::Relaxed);
        watcher.join().unwrap();
    });
    let mut store = Store::open(&path).unwrap();
    work::recompute(&mut store, None, BY).unwrap();
    assert!(answer(&store, Answer::Intact).reach.is_current());
    let done = work::recompute(&mut store, None, BY).unwrap();
    assert_eq!((done.results, done.attributed, done.verdicts), (0, 0, 0));
    assert_eq!(store.exclusions().unwrap().len(), 6);
}

#[test]
fn an_act_killed_at_any_moment_is_whole_and_what_it_lacks_is_derived_later() {
    let kills: u32 = std::env::var("LIMPID_KILLS").map_or(6, |n| n.parse().unwrap());
    let child = store_outside::child();
    let exclude = |path: &Path| {
        let mut command = Command::new(&child);
        command.arg("exclude").arg(path).arg("FB-26-07-4");
        command
    };
    let timed = tempfile::tempdir().unwrap();
    let path = programme(timed.path());
    let begun = Instant::now();
    assert!(exclude(&path).status().unwrap().success());
    let span = begun.elapsed();
    let (mut kept, mut underived) = (0, 0);
    for kill in 0..kills {
        let dir = tempfile::tempdir().unwrap();
        let path = programme(dir.path());
        let mut running = exclude(&path).spawn().unwrap();
        std::thread::sleep(span.mul_f64((f64::from(kill) + 0.5) / f64::from(kills)));
        running.kill().unwrap();
        running.wait().unwrap();
        let mut store = Store::open(&path).unwrap();
        let found = verify(&store, None).unwrap();
        assert_ne!(found.answer(), Answer::Altered, "kill {kill}: {:?}", found.in_words());
        let is_kept = !store.exclusions().unwrap().is_empty();
        kept += u32::from(is_kept);
        if found.answer() == Answer::NotDerived {
            assert!(is_kept && found.reach.acts_since == 1, "kill {kill}: {:?}", found.reach);
            underived += 1;
        }
        work::recompute(&mut store, None, BY).unwrap();
        answer(&store, Answer::Intact);
    }
    assert!(underived > 0, "of {kills} none was killed between keeping ({kept}) and deriving");
}

/// One entry of `engine.toml`.
#[derive(Debug, PartialEq, serde::Deserialize)]
struct Pinned {
    number: i64,
    result: String,
    derivation: String,
    share: String,
    attributed: String,
    verdict: String,
}

fn bits(numbers: impl IntoIterator<Item = Option<f64>>) -> String {
    numbers.into_iter().map(|x| x.map_or("-".into(), |x| format!("{:016x} ", x.to_bits()))).collect()
}

/// Numbers of a document in their order, as they are written; those of its messages are its wording.
fn numbers(of: &Value, out: &mut String) {
    match of {
        Value::Number(n) => out.push_str(&format!("{n} ")),
        Value::Array(all) => all.iter().for_each(|v| numbers(v, out)),
        Value::Object(all) => all.iter().filter(|(key, _)| *key != "says").for_each(|(_, v)| numbers(v, out)),
        _ => {}
    }
}

/// Digests of what was computed, without its wording: newest revisions, in the order of their names.
fn computed(store: &Store) -> Pinned {
    let mut rows = store.results(&Filter::all().latest()).unwrap();
    rows.retain(|r| r.vial_id.is_some());
    rows.sort_by_key(|r| r.identity().newest().to_string());
    assert!(rows.len() > 400, "{}", rows.len());
    let mut texts = [const { String::new() }; 5];
    let [result, derivation, share, attributed, verdict] = &mut texts;
    for r in &rows {
        let name = format!("\n{}", r.identity().newest());
        let values = [r.value, r.u, r.dof, r.critical_value, r.detection_limit, r.quantification_limit, r.upper_bound];
        let parts = [r.gross, r.u_gross, r.blank, r.u_blank];
        write!(result, "{name} {} {} {}", r.unit, r.state.word(), bits(values.into_iter().chain(parts))).unwrap();
        derivation.push_str(&name);
        numbers(&store.derivation(r.id).unwrap().unwrap().body, derivation);
        for s in store.list::<Share>(&Filter::all().is("result", r.id)).unwrap() {
            write!(share, "{name} {}", bits([s.share, s.u, s.low, s.high].map(Some))).unwrap();
        }
    }
    let mut all = store.attributed().unwrap();
    all.retain(|a| rows.iter().any(|r| r.id == a.result_id));
    all.sort_by_key(|a| rows.iter().position(|r| r.id == a.result_id));
    for a in all {
        let values = [a.water, a.u_water, a.water_low, a.water_high, a.share, a.low, a.high];
        write!(attributed, "\n{} {}", a.identifiable, bits(values)).unwrap();
    }
    let mut verdicts = store.verdicts().unwrap();
    verdicts.sort_by(|a, b| a.subject.cmp(&b.subject));
    assert!(verdicts.iter().any(|v| v.verdict == VerdictWord::Accepted));
    for v in verdicts {
        write!(verdict, "\n{} {} {}", v.subject, v.verdict.word(), v.reasons).unwrap();
        for f in assess::findings_of(store, &v).unwrap() {
            write!(verdict, "\n{} {:?} ", f.check, f.outcome).unwrap();
            numbers(&serde_json::to_value(&f.compared).unwrap(), verdict);
        }
    }
    let [result, derivation, share, attributed, verdict] =
        texts.map(|t| blake3::hash(t.as_bytes()).to_hex().as_str()[..32].to_string());
    Pinned { number: ENGINE, result, derivation, share, attributed, verdict }
}

#[test]
fn the_number_of_the_engine_is_raised_with_every_computed_value() {
    #[derive(serde::Deserialize)]
    struct Pins {
        engine: Vec<Pinned>,
    }
    let (_dir, mut store) = opened();
    work::exclude(&mut store, "FB-26-07-4", true, "the gust of the field sheet", BY).unwrap();
    let now = computed(&store);
    let pins: Pins = toml::from_str(include_str!("../engine.toml")).unwrap();
    let numbers: Vec<i64> = pins.engine.iter().map(|p| p.number).collect();
    assert!(numbers.is_sorted_by(|a, b| a < b), "engine.toml: numbers count up: {numbers:?}");
    let last = pins.engine.last().unwrap();
    let to_add = |number: i64| {
        format!(
            "[[engine]]\nnumber = {number}\nresult = \"{}\"\nderivation = \"{}\"\nshare = \"{}\"\nattributed = \"{}\"\nverdict = \"{}\"\n",
            now.result, now.derivation, now.share, now.attributed, now.verdict
        )
    };
    assert!(
        last.number == ENGINE,
        "engine.toml ends with engine {}, the program is engine {ENGINE}; add at its end:\n{}",
        last.number,
        to_add(ENGINE)
    );
    assert!(
        *last == now,
        "computed values of the demo changed and the number of the engine did not: raise `number!` in src/engine.rs to \
         {}, list old → new and why in CHANGELOG.md under Changed results, and add at the end of engine.toml:\n{}",
        ENGINE + 1,
        to_add(ENGINE + 1)
    );
}
