//! What a person asks of a programme as a whole: derive all results anew, take something out of
//! the evidence, sign. Each is one or more acts; what did not change is not written.

use assessment::accounting;
use assessment::assess::{self, Assessed};
use assessment::attribution;
use assessment::chemistry_checks::ChemistryChecks;
use assessment::derive::{self, Change, Derived, Prepared};
use assessment::engine;
use assessment::put_back::PutBack;
use assessment::quality::Quality;
use assessment::reported_results;
use assessment::results;
use assessment::same_water::Waters;
use assessment::verdict::Rules;
use assessment::witnesses::WAY;
use intake::entry::{Correction, EntryError, TypedRow, correct, enter};
use intake::import::{self, Agreed, ImportError, Imported, Input};
use measurement::run::ReducedRun;
use record::by::{By, Watch, go_on, said};
use record::error::Error;
use record::identity::ReadingId;
use record::model::{Compound, Run, VerdictWord};
use record::store::NamedCells;
use record::store::{ActInfo, Cell, EventHash, Filter, Store, StoreError};
use serde_json::json;
use std::collections::BTreeSet;

/// What deriving anew did.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Recomputed {
    /// Results written.
    pub results: usize,
    /// Results as they stood.
    pub same: usize,
    /// Values that changed.
    pub changes: Vec<Change>,
    /// Attributions written.
    pub attributed: usize,
    /// Accountings of the metal in a bottle written.
    pub accounted: usize,
    /// Verdicts written.
    pub verdicts: usize,
    /// Verdicts whose word changed: subject, old, new.
    pub turned: Vec<(String, VerdictWord, VerdictWord)>,
    /// Runs that give no results, and why; the other runs are not held up by them.
    pub underived: Vec<String>,
    /// Names in the programme's table of checks that no check of this program bears: they decide nothing.
    pub unknown_checks: Vec<String>,
}

impl Recomputed {
    fn add(&mut self, derived: Derived, assessed: Assessed) {
        self.results += derived.written;
        self.same += derived.unchanged;
        self.changes.extend(derived.changes);
        self.verdicts += assessed.written;
        self.turned.extend(assessed.changed);
    }

    /// What another attempt wrote as well.
    fn keep(&mut self, other: Self) {
        self.results += other.results;
        self.changes.extend(other.changes);
        self.attributed += other.attributed;
        self.accounted += other.accounted;
        self.verdicts += other.verdicts;
        self.turned.extend(other.turned);
    }
}

/// Takes raw files in, all or nothing, and derives everything anew where something came in that was not there before.
/// `told` hears what came in before the deriving begins; `watch` hears of both and stops either. What came in stays in,
/// also where deriving it fails or is stopped: that is told beside it.
///
/// # Errors
/// As [`import::import_watched`]; nothing is kept then.
pub fn take_in(
    store: &mut Store,
    inputs: &[Input],
    by: By,
    watch: Watch,
    told: impl FnOnce(&Imported),
) -> Result<(Imported, Result<Recomputed, Error>), ImportError> {
    take_in_because(store, inputs, by, "", watch, told)
}

/// As [`take_in`], with the reason of a person: a recipe that changes needs one.
///
/// # Errors
/// As [`take_in`].
pub fn take_in_because(
    store: &mut Store,
    inputs: &[Input],
    by: By,
    why: &str,
    watch: Watch,
    told: impl FnOnce(&Imported),
) -> Result<(Imported, Result<Recomputed, Error>), ImportError> {
    take_in_agreed(store, inputs, by, (why, &Agreed::default()), watch, told)
}

/// As [`take_in_because`], with what a person agreed of names that are not on record.
///
/// # Errors
/// As [`take_in`].
pub fn take_in_agreed(
    store: &mut Store,
    inputs: &[Input],
    by: By,
    said: (&str, &Agreed),
    watch: Watch,
    told: impl FnOnce(&Imported),
) -> Result<(Imported, Result<Recomputed, Error>), ImportError> {
    let taken = import::import_agreed(store, inputs, by, said, watch)?;
    told(&taken);
    let derived = match taken.head {
        Some(_) => follow(store, by, watch),
        None => Ok(Recomputed::default()),
    };
    Ok((taken, derived))
}

/// Derives results and verdicts again from raw data and recipes: of one run, or of everything.
///
/// # Errors
/// The run asked for cannot be reduced; the store. Of everything, a run that cannot be reduced is
/// told in [`Recomputed::underived`].
pub fn recompute(store: &mut Store, run: Option<&str>, by: By) -> Result<Recomputed, Error> {
    recompute_watched(store, run, by, &|_| true)
}

/// What follows an act that is kept: everything is derived anew. Where that fails the act stands all the same.
///
/// # Errors
/// [`Error::NotDerived`]; [`Error::Stopped`].
pub fn follow(store: &mut Store, by: By, watch: Watch) -> Result<Recomputed, Error> {
    recompute_watched(store, None, by, watch).map_err(Error::after_keeping)
}

/// As [`recompute`], watched: it can be stopped between runs. What was derived before then stands; to be judged, it
/// wants to be derived anew.
///
/// # Errors
/// As [`recompute`]; [`Error::Stopped`].
pub fn recompute_watched(store: &mut Store, run: Option<&str>, by: By, watch: Watch) -> Result<Recomputed, Error> {
    let overtaken = |e: &Error| matches!(e, Error::Store(StoreError::WriteConflict));
    // What was written before another act overtook the rest is written.
    let mut before = Recomputed::default();
    let mut done = store.retrying(overtaken, |store| {
        let mut done = Recomputed::default();
        let through = recompute_once(store, run, by, watch, &mut done);
        if through.is_err() {
            before.keep(std::mem::take(&mut done));
        }
        through.map(|()| done)
    })?;
    before.same = done.same.saturating_sub(before.results);
    before.underived = std::mem::take(&mut done.underived);
    before.keep(done);
    before.unknown_checks = Rules::new(store.check_rules()?).unknown().to_vec();
    Ok(before)
}

fn recompute_once(
    store: &mut Store,
    run: Option<&str>,
    by: By,
    watch: Watch,
    done: &mut Recomputed,
) -> Result<(), Error> {
    let runs = derive::runs_in_order(store)?;
    let mut names: Vec<String> = runs.iter().map(|r| r.name.clone()).collect();
    if let Some(name) = run {
        let first = derive::find_run(store, name)?;
        let bottles = bottles_of(store, first.id)?;
        names = vec![first.name.clone()];
        // A later run of the same bottles stays the newest word on them; one of the same recipe learns from its blanks.
        for later in runs.iter().skip_while(|r| r.id != first.id).skip(1) {
            if derive::may_learn_from(later, &first) || !bottles.is_disjoint(&bottles_of(store, later.id)?) {
                names.push(later.name.clone());
            }
        }
    }
    let (mut reduced, mut stuck) = (vec![], vec![]);
    let mut earlier = derive::EarlierRuns::default();
    for name in &names {
        go_on(watch, &format!("deriving run {name}"))?;
        let prepared = derive::prepare_after(store, derive::find_run(store, name)?, &mut earlier);
        let both = prepared.and_then(|p| {
            let (derived, run) = derive::derive_prepared(store, &p, by.person, by.at)?;
            Ok((derived, run, p))
        });
        let (derived, run, prepared) = match both {
            Err(e) if run != Some(name) && derive::of_one_run(&e) => {
                stuck.push((derive::find_run(store, name)?.id, e));
                continue;
            }
            other => other?,
        };
        reduced.push((prepared, run));
        done.add(derived, Assessed::default());
    }
    go_on(watch, "whose metal it is, by all bottles")?;
    let others = others(store, &runs, &names, &mut earlier);
    let pairs: Vec<(&Prepared, &ReducedRun)> = reduced.iter().chain(&others).map(|(p, r)| (p, r)).collect();
    let fits = attribution::all(store, &pairs)?;
    done.attributed = attribution::keep(store, &fits, &pairs, by.person, by.at)?;
    done.accounted = accounting::keep(store, &fits, &pairs, by.person, by.at)?;
    // What the water as a whole says stands on the results just derived.
    let meanings = ChemistryChecks::of(store)?;
    let quality = Quality::of(store, reduced.iter().chain(&others).map(|(p, r)| (p, r)))?;
    let back = PutBack::of(store, &pairs)?;
    let waters = Waters::of(store, &pairs, &back)?;
    let standing =
        assess::Standing { meanings: &meanings, quality: &quality, runs: &pairs, fits: &fits, waters: &waters };
    for (prepared, run) in &reduced {
        go_on(watch, &format!("judging run {}", prepared.run.name))?;
        let assessed = assess::assess_run(store, prepared, run, &standing, by.person, by.at)?;
        done.add(Derived::default(), assessed);
    }
    for (run, why) in stuck {
        let cases = assess::of_stuck_run(store, run, why.message())?;
        done.add(Derived::default(), assess::keep(store, cases, by.person, by.at)?);
        done.underived.push(why.to_string());
    }
    if run.is_none() {
        go_on(watch, "judging reported results")?;
        let assessed = reported_results::keep(store, &meanings, by)?;
        done.add(Derived::default(), assessed);
        engine::mark(store, by)?;
    }
    Ok(())
}

fn bottles_of(store: &Store, run: i64) -> Result<BTreeSet<i64>, Error> {
    Ok(store.vials(run)?.into_iter().filter_map(|v| v.bottle_id).collect())
}

/// The other runs, reduced for what they say of quality; one that cannot be reduced says nothing.
fn others(
    store: &Store,
    runs: &[Run],
    names: &[String],
    earlier: &mut derive::EarlierRuns,
) -> Vec<(Prepared, ReducedRun)> {
    let others = runs.iter().filter(|r| !names.contains(&r.name));
    others
        .filter_map(|r| {
            let prepared = derive::prepare_after(store, r.clone(), earlier).ok()?;
            let reduced = derive::reduce(&prepared).ok()?;
            Some((prepared, reduced))
        })
        .collect()
}

/// Something in the evidence: a bottle, a vial, or one isotope of either.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    bottle: Option<i64>,
    vial: Option<i64>,
    isotope: Option<String>,
}

/// Finds what is meant by `BOTTLE`, `BOTTLE/Pb208`, `RUN/position` or `RUN/position/Pb208`.
///
/// # Errors
/// [`Error::Absent`]; [`Error::Unfit`] for a text that is no such name.
pub fn named(store: &Store, text: &str) -> Result<Named, Error> {
    let hint =
        "; name a bottle label, or run/position of a vial, with /isotope for one isotope only (a / in a label as %2F)";
    match text.parse()? {
        ReadingId::Bottle { label, isotope } => {
            let bottles = store.bottles(&Filter::all().is("label", label.as_str()))?;
            let bottle = bottles.first().ok_or_else(|| Error::absent("bottle or run", label, hint))?.id;
            let mut vials = vec![];
            for run in store.runs()? {
                let of_run = store.vials(run.id)?.into_iter().filter(|v| v.bottle_id == Some(bottle));
                vials.extend(of_run.map(|v| (run.id, v.id)));
            }
            let isotope = isotope_of(store, &vials, isotope, text)?;
            Ok(Named { bottle: Some(bottle), vial: None, isotope })
        }
        ReadingId::Vial { run, position, isotope } => {
            let runs = store.runs()?;
            let run = runs.iter().find(|r| r.name == run).ok_or_else(|| Error::absent("run", run, hint))?.id;
            let vials = store.vials(run)?;
            let vial = vials.iter().find(|v| v.position == position);
            let vial = vial.ok_or_else(|| Error::absent("vial", text, hint))?.id;
            let isotope = isotope_of(store, &[(run, vial)], isotope, text)?;
            Ok(Named { bottle: None, vial: Some(vial), isotope })
        }
    }
}

/// An isotope that was read in one of the vials (run and vial by row); a name that nothing bears
/// would take out nothing.
fn isotope_of(
    store: &Store,
    vials: &[(i64, i64)],
    isotope: Option<String>,
    text: &str,
) -> Result<Option<String>, Error> {
    let Some(isotope) = isotope else { return Ok(None) };
    let mut known = BTreeSet::new();
    for run in vials.iter().map(|v| v.0).collect::<BTreeSet<_>>() {
        let read = store.readings(run)?.into_iter().filter(|r| vials.contains(&(run, r.vial_id)));
        known.extend(read.map(|r| r.isotope));
    }
    if known.contains(&isotope) {
        return Ok(Some(isotope));
    }
    let names = known.into_iter().collect::<Vec<_>>().join(", ");
    let hint = if names.is_empty() { "; no isotope of it was read".into() } else { format!("; there are {names}") };
    Err(Error::absent("reading", text, hint))
}

/// Takes something out of the evidence, or back in, with a reason; then derives anew.
///
/// # Errors
/// [`Error::Absent`], a reason that says nothing; the store; [`Error::NotDerived`].
pub fn exclude(store: &mut Store, what: &str, out: bool, why: &str, by: By) -> Result<Recomputed, Error> {
    said(why)?;
    let named = named(store, what)?;
    let word = if out { "exclusion" } else { "taken back" };
    let info = ActInfo {
        kind: word.into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "what": what, "why": why }),
    };
    store.act(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let mut cells = NamedCells::new("exclusion");
        for (column, id) in [("vial", named.vial), ("bottle", named.bottle)] {
            if let Some(id) = id {
                cells.integer(column, id);
            }
        }
        if let Some(isotope) = &named.isotope {
            cells.text("isotope", isotope);
        }
        cells.integer("excluded", i64::from(out)).text("why", why).integer("person", person);
        cells.insert(act).map(|_| ())
    })?;
    follow(store, by, &|_| true)
}

/// A person stands for the verdict of a result; its warnings then no longer hold it back.
///
/// # Errors
/// [`Error::Absent`]; a result that has no verdict; the store; [`Error::NotDerived`].
pub fn sign(store: &mut Store, identity: &str, why: &str, by: By) -> Result<Recomputed, Error> {
    sign_off(store, identity, why, by, false)
}

/// As [`sign`], by somebody who had logged in: the record says so, until the person's key signs it too.
///
/// # Errors
/// As [`sign`].
pub fn sign_by_login(store: &mut Store, identity: &str, why: &str, by: By) -> Result<Recomputed, Error> {
    sign_off(store, identity, why, by, true)
}

fn sign_off(store: &mut Store, identity: &str, why: &str, by: By, login: bool) -> Result<Recomputed, Error> {
    said(why)?;
    let row = results::find(store, identity)?;
    if store.verdict_history(row.subject_id)?.is_empty() {
        return Err(Error::Unfit {
            what: identity.into(),
            found: "no verdict yet, or evidence that gets none".into(),
            expected: "a result with a verdict".into(),
        });
    }
    let mut body = json!({ "result": row.identity().to_string(), "why": why });
    if login {
        body[WAY.0] = json!(WAY.1);
    }
    let info = ActInfo { kind: "sign-off".into(), author: by.person.into(), at: by.at.into(), body };
    store.act::<_, StoreError>(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let mut cells = NamedCells::new("sign_off");
        cells.integer("subject", row.subject_id).integer("person", person).text("why", why);
        cells.insert(act).map(|_| ())
    })?;
    follow(store, by, &|_| true)
}

/// Corrects the CAS number that a compound bears on record, with a reason; a compound that nobody described yet is
/// described. The number as it stood is kept too. Nothing is derived of it: lists of compounds read it as it stands.
/// None comes back where it stands already.
///
/// # Errors
/// A reason that says nothing; a number whose form or check digit is wrong; a compound without a result; the store.
pub fn set_cas(
    store: &mut Store,
    compound: &str,
    number: &str,
    why: &str,
    by: By,
) -> Result<Option<EventHash>, EntryError> {
    said(why)?;
    let number = limits::cas::parse(number).map_err(|fault| Error::Unfit {
        what: format!("the CAS number of {compound}"),
        found: number.into(),
        expected: match fault {
            limits::cas::Fault::Form => "the form 1912-24-9".into(),
            limits::cas::Fault::CheckDigit { expected } => format!("the check digit {expected}, or another number"),
        },
    })?;
    let described = store.list::<Compound>(&Filter::all().is("name", compound))?;
    if let Some(row) = described.first() {
        return correct(
            store,
            by,
            why,
            ("compound", row.id),
            &[Correction { column: "cas", seen: None, new: &number }],
        );
    }
    if store.results(&Filter::all().is("measurand.analyte", compound))?.is_empty() {
        return Err(Error::absent("compound", compound, "; name it as its results do (`limpid results`)").into());
    }
    let row = TypedRow::of("compound").with("name", compound).with("cas", number);
    Ok(enter(store, by, why, &[row])?.head)
}

/// Corrects the name of a vial (`RUN/position`), with a reason, so that run and recipe meet; the name as it stood is
/// kept. Then derives anew. None comes back where it has that name already.
///
/// # Errors
/// A reason that says nothing; no such vial; a name that the record cannot hold; the store; [`Error::NotDerived`].
pub fn set_vial_name(
    store: &mut Store,
    vial: &str,
    name: &str,
    why: &str,
    by: By,
) -> Result<Option<Recomputed>, EntryError> {
    let Some(row) = named(store, vial)?.vial else {
        return Err(Error::absent("vial", vial, "; name it as run/position").into());
    };
    let head = correct(store, by, why, ("vial", row), &[Correction { column: "name", seen: None, new: name }])?;
    Ok(head.map(|_| follow(store, by, &|_| true)).transpose()?)
}

/// What no longer comes out as it stands: identity and what differs. Empty where results, attributions and verdicts
/// follow from raw data and recipe to the last bit. A run that cannot be reduced says nothing.
///
/// # Errors
/// The store.
pub fn underivable(store: &Store) -> Result<Vec<String>, Error> {
    assessment::verify::differences(store)
}
