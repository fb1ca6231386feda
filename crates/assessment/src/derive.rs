//! From the counts in the record to results: builds the input of a reduction from vials,
//! readings, bottles, spikes and exclusions, reduces it by the run's recipe, and writes results,
//! derivations and the water's shares as one act. Results are functions of raw data and recipe:
//! reducing again gives the same numbers, and then nothing is written.
//!
//! The sciences are `measurement::run` and `cleanliness::share`; here is only who meets whom.
//! Checked in `crates/programme/tests/demo_truth.rs`.

use crate::engine::{DERIVED_BY, ENGINE};
use crate::unmet::Ways;
use crate::verify::{Differs, Way};
use cleanliness::share::{GrossAndBlank, water_share};
pub use measurement::run::constants;
use measurement::run::{
    self, Assigned, BlankChoice, EarlierBlanks, Factor, Isotope, Reading, Recipe, ReducedRun, Role, RunInput,
    RunResult, Vial,
};
use message::refusal as says;
use quantity::{Derivation, Measured, Unit};
use record::error::Error;
use record::identity::ResultId;
use record::model::{self, AssignedSide, Bears, Mode, ResultRow, State, VialRole};
use record::store::NamedCells;
use record::store::{Act, ActInfo, Cell, Filter, Store, StoreError};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// What a reduction did to the record.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Derived {
    /// Results written, as new or as a higher revision.
    pub written: usize,
    /// Results that came out as they stood.
    pub unchanged: usize,
    /// What changed: identity, old, new, in words.
    pub changes: Vec<Change>,
}

/// A result that came out differently than it stood.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// The new revision.
    pub identity: ResultId,
    /// The value as it stood, with unit and u.
    pub old: String,
    /// The value as it is now.
    pub new: String,
}

/// A run of the record, ready to be reduced.
pub struct Prepared {
    /// The run.
    pub run: model::Run,
    /// Input of the reduction.
    pub input: RunInput,
    /// The recipe.
    pub recipe: Recipe,
    vials: Vec<model::Vial>,
    bottles: HashMap<i64, model::Bottle>,
}

impl Prepared {
    /// Lots of the bottles that the run's blanks came in, by the kind of blank.
    fn lots_of_blanks(&self) -> LotsOfBlanks {
        let mut lots = LotsOfBlanks::new();
        for v in self.vials.iter().filter(|v| role(v.role).is_blank()) {
            let bottle = v.bottle_id.and_then(|b| self.bottles.get(&b));
            lots.entry(role(v.role)).or_default().insert(bottle.and_then(|b| b.lot_id));
        }
        lots
    }

    /// Vials of the run, as in the record.
    pub fn vials(&self) -> &[model::Vial] {
        &self.vials
    }
}

/// A run by name.
///
/// # Errors
/// [`Error::Absent`] with the names that there are.
pub fn find_run(store: &Store, name: &str) -> Result<model::Run, Error> {
    let runs = store.runs()?;
    let names: Vec<&str> = runs.iter().map(|r| r.name.as_str()).collect();
    let hint =
        if names.is_empty() { "; no run was imported".into() } else { format!("; there are {}", names.join(", ")) };
    runs.iter().find(|r| r.name == name).cloned().ok_or_else(|| Error::absent("run", name, hint))
}

/// Collects what a reduction needs.
///
/// # Errors
/// A run without a recipe, a recipe that cannot be read, an isotope that cannot be.
pub fn prepare(store: &Store, run: model::Run) -> Result<Prepared, Error> {
    prepare_after(store, run, &mut EarlierRuns::default())
}

/// As [`prepare`], for many runs: what was asked of earlier ones is asked once.
///
/// # Errors
/// As [`prepare`].
pub fn prepare_after(store: &Store, run: model::Run, earlier: &mut EarlierRuns) -> Result<Prepared, Error> {
    let prepared = prepare_alone(store, run, &Excluded::read(store)?)?;
    after(store, prepared, earlier)
}

/// As [`prepare`], with other exclusions than those on record: [`Excluded::default`] puts everything back. Earlier runs
/// keep theirs.
///
/// # Errors
/// As [`prepare`].
pub fn prepare_without(store: &Store, run: model::Run, out: &Excluded) -> Result<Prepared, Error> {
    let prepared = prepare_alone(store, run, out)?;
    after(store, prepared, &mut EarlierRuns::default())
}

fn after(store: &Store, mut prepared: Prepared, earlier: &mut EarlierRuns) -> Result<Prepared, Error> {
    prepared.input.earlier_blanks = earlier.of(store, &prepared)?;
    Ok(prepared)
}

/// Without the runs before it.
fn prepare_alone(store: &Store, run: model::Run, out: &Excluded) -> Result<Prepared, Error> {
    // The recipe as it stands beside the run, not a file of today: the same run must give the same numbers again.
    let Some(toml) = run.recipe_toml.clone() else {
        let recipes: BTreeSet<String> =
            store.list::<model::KeptRecipe>(&Filter::all())?.into_iter().map(|r| r.name).collect();
        let there = if recipes.is_empty() { "–".into() } else { recipes.into_iter().collect::<Vec<_>>().join(", ") };
        return Err(Error::Run { run: run.name, why: says::RunWithoutRecipe { there: there.into() }.into() });
    };
    let recipe: Recipe = toml::from_str(&toml)
        .map_err(|e| Error::Recipe { name: run.recipe.clone().unwrap_or_default(), message: e.to_string() })?;
    let vials = store.vials(run.id)?;
    let bottles: HashMap<i64, model::Bottle> = store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect();
    let mut assigned: HashMap<i64, Vec<Assigned>> = HashMap::new();
    for a in store.assigned(run.id)? {
        let amount = Measured::new(a.value, a.u, unit(&a.unit)?);
        // The stock is an identity of its own: what stands in `source` says where a value is from, not what it shares.
        let side = a.assigned_side.map(side);
        assigned.entry(a.vial_id).or_default().push(Assigned { element: a.analyte, amount, stock: a.stock, side });
    }
    let mut spiked: HashMap<i64, Vec<Assigned>> = HashMap::new();
    for s in store.spikes()? {
        spiked
            .entry(s.bottle_id)
            .or_default()
            .push(Assigned::new(&s.analyte, Measured::new(s.added_pg, s.u_pg, Unit::known("pg"))));
    }
    let by_id: HashMap<i64, &model::Vial> = vials.iter().map(|v| (v.id, v)).collect();
    let readings = store.readings(run.id)?.into_iter().map(|r| reading(r, &by_id, out)).collect::<Result<_, _>>()?;
    let mut input = RunInput {
        name: run.name.clone(),
        vials: vials.iter().map(|v| vial(v, &bottles, &mut assigned, &spiked)).collect(),
        readings,
        earlier_blanks: vec![],
    };
    choose_blanks(store, &mut input, &recipe, (&vials, &bottles))?;
    Ok(Prepared { run, input, recipe, vials, bottles })
}

/// Earlier runs whose blanks are asked: ten of three blanks give twenty degrees of freedom, and more add little.
// The programme's own choice.
const EARLIER_RUNS: usize = 10;

/// What the blanks of earlier runs scattered, run by run as they were asked for: each is reduced once.
#[derive(Default)]
pub struct EarlierRuns {
    spreads: HashMap<i64, Spreads>,
}

/// Lots of the bottles of each kind of blank.
type LotsOfBlanks = BTreeMap<Role, BTreeSet<Option<i64>>>;

/// Recipe, lots and spreads of the blanks of a run.
type Spreads = (Recipe, LotsOfBlanks, Vec<EarlierBlanks>);

impl EarlierRuns {
    /// The blanks of runs that started before this one, of the same recipe and the same lots of bottles, newest first.
    /// Only earlier runs: a later one never changes a result that stands. A run without a date takes none.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(&mut self, store: &Store, prepared: &Prepared) -> Result<Vec<EarlierBlanks>, Error> {
        let Some(started) = prepared.run.started_at.as_deref() else { return Ok(vec![]) };
        let runs = runs_in_order(store)?;
        let earlier = runs
            .into_iter()
            .rev()
            .filter(|r| r.started_at.as_deref().is_some_and(|at| at < started) && r.recipe_toml.is_some());
        let lots = prepared.lots_of_blanks();
        let (mut out, mut taken) = (vec![], 0);
        for run in earlier {
            if taken == EARLIER_RUNS {
                break;
            }
            let (recipe, its_lots, spreads) = self.spread(store, run)?;
            if *recipe != prepared.recipe {
                continue;
            }
            let same = |b: &&EarlierBlanks| its_lots.get(&b.role) == lots.get(&b.role);
            let before = out.len();
            out.extend(spreads.iter().filter(same).cloned());
            taken += usize::from(out.len() > before);
        }
        Ok(out)
    }

    /// Of a run that cannot be reduced nothing is known, and no run stops for it.
    fn spread(&mut self, store: &Store, run: model::Run) -> Result<&Spreads, Error> {
        let id = run.id;
        if let std::collections::hash_map::Entry::Vacant(e) = self.spreads.entry(id) {
            let found = match prepare_alone(store, run, &Excluded::read(store)?) {
                Ok(p) => {
                    let spreads = run::blank_spreads(&p.input, &p.recipe).unwrap_or_default();
                    (p.recipe.clone(), p.lots_of_blanks(), spreads)
                }
                Err(e @ Error::Store(_)) => return Err(e),
                Err(_) => Spreads::default(),
            };
            e.insert(found);
        }
        Ok(&self.spreads[&id])
    }
}

fn unit(ucum: &str) -> Result<Unit, Error> {
    Unit::parse(ucum).map_err(|e| Error::Unfit {
        what: "unit in the record".into(),
        found: ucum.into(),
        expected: e.to_string(),
    })
}

fn vial(
    v: &model::Vial,
    bottles: &HashMap<i64, model::Bottle>,
    assigned: &mut HashMap<i64, Vec<Assigned>>,
    spiked: &HashMap<i64, Vec<Assigned>>,
) -> Vial {
    let bottle = v.bottle_id.and_then(|id| bottles.get(&id));
    Vial {
        session: v.session.unwrap_or(0) as u32,
        dilution: Factor::new(v.dilution.unwrap_or(1.0), v.u_dilution.unwrap_or(0.0)),
        assigned: assigned.remove(&v.id).unwrap_or_default(),
        bottle: v.bottle.clone(),
        bottle_volume_ml: bottle.and_then(|b| b.volume_mL),
        u_bottle_volume_ml: bottle.and_then(|b| b.u_volume_mL).unwrap_or(0.0),
        acid_ml: bottle.and_then(|b| b.acid_mL),
        u_acid_ml: bottle.and_then(|b| b.u_acid_mL),
        density_kg_l: bottle.and_then(|b| b.density_kg_L),
        u_density_kg_l: bottle.and_then(|b| b.u_density_kg_L).unwrap_or(0.0),
        of: bottle.and_then(|b| b.parent.clone()),
        spike_added: bottle.and_then(|b| spiked.get(&b.id)).cloned().unwrap_or_default(),
        ..Vial::new(v.position as u32, &v.name, role(v.role), v.minutes)
    }
}

fn side(side: AssignedSide) -> run::AssignedSide {
    match side {
        AssignedSide::InTheBottle => run::AssignedSide::InTheBottle,
        AssignedSide::AsMeasured => run::AssignedSide::AsMeasured,
    }
}

/// Which blanks may be taken off which bottle, where the field blanks of the run did not all meet what it met: those
/// that did, else the outermost kind that is nested in them and did, and the value is then an upper bound. Where all met
/// it, where the recipe takes off another kind, or where the run has none, the recipe's rule stands as it is.
fn choose_blanks(
    store: &Store,
    input: &mut RunInput,
    recipe: &Recipe,
    (vials, bottles): (&[model::Vial], &HashMap<i64, model::Bottle>),
) -> Result<(), Error> {
    let outermost = recipe.blank.samples;
    if !matches!(outermost, Role::FieldBlank | Role::EquipmentBlank) {
        return Ok(());
    }
    let of = |v: &model::Vial| v.bottle_id.and_then(|id| bottles.get(&id));
    let ways = Ways::of(store, vials.iter().filter_map(of))?;
    let met = |kind: Role, bottle: &model::Bottle| -> (Vec<u32>, usize) {
        let all = || vials.iter().filter(|v| role(v.role) == kind);
        let met = all().filter(|v| ways.met(kind, of(v), bottle)).map(|v| v.position as u32).collect();
        (met, all().count())
    };
    for (v, vial) in vials.iter().zip(&mut input.vials) {
        let samples = matches!(vial.role, Role::Sample | Role::Duplicate | Role::FieldSpike | Role::LabSpike);
        let Some(bottle) = of(v).filter(|_| samples) else { continue };
        let (blanks, all) = met(outermost, bottle);
        if blanks.len() == all {
            continue;
        }
        vial.blank_choices.push(BlankChoice { role: outermost, blanks, met_all: true });
        let inner = Role::NESTED_BLANKS.into_iter().rev().skip_while(|r| *r != outermost).skip(1);
        vial.blank_choices.extend(inner.map(|role| BlankChoice { role, blanks: met(role, bottle).0, met_all: false }));
    }
    Ok(())
}

fn role(r: VialRole) -> Role {
    match r {
        VialRole::CalibrationBlank => Role::CalibrationBlank,
        VialRole::Standard => Role::Standard,
        VialRole::ProceduralBlank => Role::ProceduralBlank,
        VialRole::BottleBlank => Role::BottleBlank,
        VialRole::TripBlank => Role::TripBlank,
        VialRole::FieldBlank => Role::FieldBlank,
        VialRole::EquipmentBlank => Role::EquipmentBlank,
        VialRole::ReferenceMaterial => Role::ReferenceMaterial,
        VialRole::DriftCheck => Role::DriftCheck,
        VialRole::InterferenceCheck => Role::InterferenceCheck,
        VialRole::Sample => Role::Sample,
        VialRole::Duplicate => Role::Duplicate,
        VialRole::FieldSpike => Role::FieldSpike,
        VialRole::LabSpike => Role::LabSpike,
    }
}

fn reading(r: model::Reading, vials: &HashMap<i64, &model::Vial>, out: &Excluded) -> Result<Reading, Error> {
    let vial = vials[&r.vial_id];
    let mut isotope: Isotope = format!("{}@{}", r.isotope, r.resolution.word()).parse().map_err(|e| Error::Unfit {
        what: format!("isotope of {}", vial.name),
        found: r.isotope.clone(),
        expected: e,
    })?;
    if r.mode == Mode::Analogue {
        isotope.mode = run::Mode::Analogue;
    }
    let excluded = out.reason(vial, &r.isotope);
    Ok(Reading { excluded, ..Reading::new(vial.position as u32, isotope, r.rates_cps, r.integration_s) })
}

/// What persons took out of the evidence; of several words on one thing the last counts.
#[derive(Default)]
pub struct Excluded {
    by_bottle: BTreeMap<(i64, Option<String>), Option<String>>,
    by_vial: BTreeMap<(i64, Option<String>), Option<String>>,
}

impl Excluded {
    /// Reads the exclusions of a programme.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn read(store: &Store) -> Result<Self, StoreError> {
        let mut all = Self::default();
        for x in store.exclusions()? {
            let why = x.excluded.then(|| format!("{} ({})", x.why, x.person));
            if let Some(v) = x.vial_id {
                all.by_vial.insert((v, x.isotope), why);
            } else if let Some(b) = x.bottle_id {
                all.by_bottle.insert((b, x.isotope), why);
            }
        }
        Ok(all)
    }

    /// Why a bottle is out as a whole.
    pub fn bottle(&self, bottle: i64) -> Option<&str> {
        self.by_bottle.get(&(bottle, None))?.as_deref()
    }

    /// Why a vial or one of its isotopes is out, by itself or with its bottle.
    pub fn vial_or_bottle(&self, vial: i64, bottle: i64) -> Option<String> {
        let of = |map: &BTreeMap<(i64, Option<String>), Option<String>>, id: i64| {
            map.range((id, None)..(id + 1, None)).find_map(|(_, why)| why.clone())
        };
        of(&self.by_vial, vial).or_else(|| of(&self.by_bottle, bottle))
    }

    fn reason(&self, vial: &model::Vial, isotope: &str) -> Option<String> {
        let of = |map: &BTreeMap<(i64, Option<String>), Option<String>>, id: i64| {
            [None, Some(isotope.to_string())].into_iter().find_map(|i| map.get(&(id, i)).cloned().flatten())
        };
        of(&self.by_vial, vial.id).or_else(|| of(&self.by_bottle, vial.bottle_id?))
    }
}

/// Reduces a run of the record without writing anything.
///
/// # Errors
/// What the reduction refuses, by name.
pub fn reduce(prepared: &Prepared) -> Result<ReducedRun, Error> {
    run::reduce(&prepared.input, &prepared.recipe)
        .map_err(|e| Error::Run { run: prepared.run.name.clone(), why: e.message() })
}

/// Every run of the record that has counts, with what came of it; of one that cannot be reduced its name and why.
#[derive(Default)]
pub struct Reduced {
    /// Runs with their results.
    pub runs: Vec<(Prepared, ReducedRun)>,
    /// Names of the others, and what stands against them.
    pub left_out: Vec<(String, Error)>,
}

/// Reduces every run that has counts.
///
/// # Errors
/// The store cannot be read.
pub fn reduce_all(store: &Store) -> Result<Reduced, Error> {
    let (mut all, mut earlier) = (Reduced::default(), EarlierRuns::default());
    for r in store.runs()? {
        if store.readings(r.id)?.is_empty() {
            continue;
        }
        let name = r.name.clone();
        let prepared = prepare_after(store, r, &mut earlier);
        match prepared.and_then(|p| reduce(&p).map(|reduced| (p, reduced))) {
            Ok(run) => all.runs.push(run),
            Err(e @ Error::Store(_)) => return Err(e),
            Err(e) => all.left_out.push((name, e)),
        }
    }
    Ok(all)
}

/// Reduces a run and keeps what came out, where it differs from what stands.
///
/// # Errors
/// As [`prepare`] and [`reduce`]; the store cannot be written.
pub fn derive_run(store: &mut Store, name: &str, author: &str, at: &str) -> Result<(Derived, ReducedRun), Error> {
    let prepared = prepare(store, find_run(store, name)?)?;
    derive_prepared(store, &prepared, author, at)
}

/// Reduces a run that was prepared, and keeps what came out where it differs from what stands.
///
/// # Errors
/// As [`reduce`]; the store cannot be written.
pub fn derive_prepared(
    store: &mut Store,
    prepared: &Prepared,
    author: &str,
    at: &str,
) -> Result<(Derived, ReducedRun), Error> {
    let name = prepared.run.name.as_str();
    let reduced = reduce(prepared)?;
    let (fresh, unchanged) = fresh(store, prepared, &reduced)?;
    let mut derived = Derived { unchanged, ..Derived::default() };
    for Fresh { row, old, revision, .. } in &fresh {
        if let Some(old) = old.as_ref().filter(|old| !row.same_as(old)) {
            derived.changes.push(Change {
                identity: row.identity(revision + 1),
                old: words(old.value, old.u, old.upper_bound, &unit(&old.unit)?),
                new: words(Some(row.value), Some(row.u), row.upper_bound, &row.unit),
            });
        }
    }
    derived.written = fresh.len();
    if !fresh.is_empty() {
        let info = ActInfo {
            kind: "reduction".into(),
            author: author.into(),
            at: at.into(),
            body: json!({ "run": name, "results": fresh.len(), "engine": ENGINE }),
        };
        store.act(&info, |act| fresh.iter().try_for_each(|f| f.row.write(act, f.subject)))?;
    }
    Ok((derived, reduced))
}

/// A result that does not stand in the record as it comes out now.
struct Fresh {
    row: Row,
    /// What stands for its vial.
    old: Option<ResultRow>,
    /// Newest revision of the bottle's result; 0 where there is none.
    revision: i64,
    /// What verdicts on an earlier revision speak of, where there is one.
    subject: Option<i64>,
}

/// Results that do not stand as they come out now, in value, share, derivation or place; and how many stand. Deriving
/// writes these, verifying names them: what one passes over the other does too.
fn fresh(store: &Store, prepared: &Prepared, reduced: &ReducedRun) -> Result<(Vec<Fresh>, usize), Error> {
    let mut standing = standing(store, prepared)?;
    let (mut fresh, mut unchanged) = (vec![], 0);
    for (r, derivation) in reduced.results.iter().zip(reduced.derivations()) {
        let Some(row) = Row::new(prepared, r, &derivation) else { continue };
        let old = standing.of_vial.remove(&(row.vial, row.key()));
        let stands = match &old {
            Some(old) => row.same_as(old) && row.came_about_as(old, store)? && standing.is_in_front(&row),
            None => false,
        };
        if stands {
            unchanged += 1;
        } else {
            let subject = standing.subjects.get(&row.identity(1).newest()).copied();
            fresh.push(Fresh { revision: standing.revision(&row), subject, row, old });
        }
    }
    Ok((fresh, unchanged))
}

fn words(value: Option<f64>, u: Option<f64>, upper_bound: Option<f64>, unit: &Unit) -> String {
    let said = match (value, u) {
        (Some(v), Some(u)) => quantity::Amount::measured(v, u, unit.clone()).in_words(),
        (Some(v), None) => quantity::Amount::stated(v, unit.clone()).in_words(),
        _ => "no value".into(),
    };
    match upper_bound {
        Some(b) => format!("{said}, at most {}", message::number::up(b, 2)),
        None => said,
    }
}

/// Bottle, element, isotopes, resolution.
type Key = (String, String, String, String);

/// What stands for the bottles of a run. A bottle that is measured again in a later run gets the
/// next revision there; the value of the earlier run stays on record and stands for its vial.
struct Standing {
    /// The newest result of each vial of the run.
    of_vial: HashMap<(i64, Key), ResultRow>,
    /// The newest result of each bottle: its vial and revision.
    of_bottle: HashMap<Key, (i64, i64)>,
    /// What the verdict on each result speaks of.
    subjects: HashMap<ResultId, i64>,
    /// Run and position of each vial of the record: the order in time.
    order: HashMap<i64, (InTime, i64)>,
}

impl Standing {
    fn revision(&self, row: &Row) -> i64 {
        self.of_bottle.get(&row.key()).map_or(0, |(_, revision)| *revision)
    }

    /// Does the newest result of the bottle belong to this vial, or to one measured after it?
    fn is_in_front(&self, row: &Row) -> bool {
        let newest = self.of_bottle.get(&row.key()).map(|(vial, _)| self.order.get(vial));
        newest.is_none_or(|newest| newest >= self.order.get(&row.vial))
    }
}

fn standing(store: &Store, prepared: &Prepared) -> Result<Standing, Error> {
    let mut order = HashMap::new();
    for run in store.runs()? {
        for v in store.vials(run.id)? {
            order.insert(v.id, (in_time(&run), v.position));
        }
    }
    let vials: std::collections::HashSet<i64> = prepared.vials.iter().map(|v| v.id).collect();
    let mut all = Standing { of_vial: HashMap::new(), of_bottle: HashMap::new(), subjects: HashMap::new(), order };
    for r in store.results(&Filter::all().has("vial"))? {
        let Some(vial) = r.vial_id else { continue };
        all.subjects.insert(r.identity().newest(), r.subject_id);
        let key: Key = (r.bottle.clone(), r.analyte.clone(), r.isotopes.clone(), r.resolution.clone());
        if all.of_bottle.get(&key).is_none_or(|(_, revision)| *revision < r.revision) {
            all.of_bottle.insert(key.clone(), (vial, r.revision));
        }
        let key = (vial, key);
        if vials.contains(&vial) && all.of_vial.get(&key).is_none_or(|old| old.revision < r.revision) {
            all.of_vial.insert(key, r);
        }
    }
    Ok(all)
}

/// One result on its way into the record.
struct Row {
    bottle: i64,
    label: String,
    fraction: String,
    vial: i64,
    analyte: run::Analyte,
    value: f64,
    u: f64,
    dof: Option<f64>,
    unit: Unit,
    state: State,
    limits: [Option<f64>; 3],
    upper_bound: Option<f64>,
    bears: Bears,
    gross: (f64, f64),
    blank: Option<(f64, f64)>,
    laboratory: Option<String>,
    derivation: String,
    share: Option<cleanliness::share::Share>,
}

impl Row {
    /// A row for a result of a bottle; `None` for standards, checks and other vials without one.
    fn new(prepared: &Prepared, r: &RunResult, derivation: &Derivation) -> Option<Self> {
        let vial = prepared.vials.iter().find(|v| v.position as u32 == r.position)?;
        let bottle = prepared.bottles.get(&vial.bottle_id?)?;
        let limit = |f: fn(&run::Limits) -> f64| r.limits.as_ref().map(f);
        Some(Self {
            bottle: bottle.id,
            label: bottle.label.clone(),
            fraction: bottle.fraction.clone().unwrap_or_else(|| "unfiltered".into()),
            vial: vial.id,
            analyte: r.analyte.clone(),
            value: r.net.value,
            u: r.net.u,
            // The record keeps no infinity: no number stands for it, and is read so.
            dof: r.net.dof.is_finite().then_some(r.net.dof),
            unit: r.net.unit.clone(),
            state: match r.state {
                run::State::Quantified => State::Quantified,
                run::State::Detected => State::Detected,
                run::State::NotDetected => State::NotDetected,
                run::State::NotDecided => State::NotDecided,
            },
            limits: [
                limit(|l| l.critical_value),
                limit(|l| l.detection_limit),
                r.limits.as_ref().and_then(|l| l.quantification_limit),
            ],
            upper_bound: (r.state == run::State::NotDetected || r.bears == run::Bears::AtMost).then_some(r.upper_bound),
            bears: match r.bears {
                run::Bears::Value => Bears::Value,
                run::Bears::AtMost => Bears::AtMost,
            },
            gross: (r.gross.value, r.gross.u),
            blank: r.blank.as_ref().map(|b| (b.mean.value, b.mean.u)),
            laboratory: prepared.run.laboratory.clone(),
            derivation: serde_json::to_string(derivation).expect("a derivation is plain data"),
            share: share(r),
        })
    }

    fn key(&self) -> Key {
        (
            self.label.clone(),
            self.analyte.element.clone(),
            self.analyte.isotopes.clone(),
            self.analyte.resolution.clone(),
        )
    }

    fn identity(&self, revision: i64) -> ResultId {
        ResultId { revision: Some(revision), ..identity(&self.label, &self.analyte, &self.fraction) }
    }

    /// Bit for bit: a result is a function of raw data and recipe.
    fn same_as(&self, old: &ResultRow) -> bool {
        let (gross, blank) = (Some(self.gross), self.blank);
        as_kept(Some(self.value)) == as_kept(old.value)
            && as_kept(Some(self.u)) == as_kept(old.u)
            && as_kept(self.dof) == as_kept(old.dof)
            && self.unit.ucum() == old.unit
            && self.state == old.state
            // Rows of earlier programs do not say: all of them were taken as values.
            && self.bears == old.bears.unwrap_or(Bears::Value)
            && self.limits.map(as_kept)
                == [old.critical_value, old.detection_limit, old.quantification_limit].map(as_kept)
            && as_kept(self.upper_bound) == as_kept(old.upper_bound)
            && as_kept(gross.map(|g| g.0)) == as_kept(old.gross)
            && as_kept(gross.map(|g| g.1)) == as_kept(old.u_gross)
            && as_kept(blank.map(|b| b.0)) == as_kept(old.blank)
            && as_kept(blank.map(|b| b.1)) == as_kept(old.u_blank)
            && self.fraction == old.fraction
            && self.laboratory == old.laboratory
    }

    /// Whether derivation and share are kept as they come out now: a blank that is taken out may leave a value as it
    /// was, and yet its derivation names the blank.
    fn came_about_as(&self, old: &ResultRow, store: &Store) -> Result<bool, StoreError> {
        Ok(self.derivation_is_kept(old, store)? && self.share_is_kept(old, store)?)
    }

    fn derivation_is_kept(&self, old: &ResultRow, store: &Store) -> Result<bool, StoreError> {
        Ok(store.derivation_is(old.id, &self.derivation)?
            || Self::derivation_kept(old, store)? == serde_json::from_str(&self.derivation).ok())
    }

    fn derivation_kept(old: &ResultRow, store: &Store) -> Result<Option<Value>, StoreError> {
        Ok(store.derivation(old.id)?.map(|d| d.body))
    }

    fn share_is_kept(&self, old: &ResultRow, store: &Store) -> Result<bool, StoreError> {
        let kept = store.list::<model::Share>(&Filter::all().is("result", old.id))?.pop();
        let kept = kept.map(|s| [s.share, s.u, s.low, s.high].map(|x| as_kept(Some(x))));
        let now = self.share_row().map(|s| s.map(|x| as_kept(Some(x))));
        Ok(kept == now)
    }

    /// Share, u and 95 % interval as they are kept; none where no share can be given.
    fn share_row(&self) -> Option<[f64; 4]> {
        let s = self.share.as_ref()?;
        let raw = s.raw?;
        Some([s.value.unwrap_or(raw), s.u?, s.interval.0, s.interval.1])
    }

    /// Writes the row; `subject` is what verdicts on an earlier revision speak of, where there is one.
    fn write(&self, act: &mut Act, subject: Option<i64>) -> Result<(), StoreError> {
        let a = &self.analyte;
        let measurand = act.ensure(
            "measurand",
            &[Cell::Text(&a.element), Cell::Text(&a.isotopes), Cell::Text(&a.resolution), Cell::Text(&self.fraction)],
        )?;
        let revision = act.next_revision("result", &[Cell::Integer(self.bottle), Cell::Integer(measurand)])?;
        // The verdict speaks of the result whatever its revision, so that its history stays together.
        let subject = match subject {
            Some(id) => id,
            None => act.ensure("subject", &[Cell::Text(&self.identity(revision).newest().to_string())])?,
        };
        let mut cells = NamedCells::new("result");
        cells.integer("bottle", self.bottle).integer("measurand", measurand).integer("revision", revision);
        cells.integer("vial", self.vial).text("censor", "=").real("value", Some(self.value)).real("u", Some(self.u));
        let ucum = self.unit.ucum().to_string();
        cells.real("dof", self.dof).text("unit", &ucum).text("state", self.state.word());
        cells.real("critical_value", self.limits[0]).real("detection_limit", self.limits[1]);
        cells.real("quantification_limit", self.limits[2]).real("upper_bound", self.upper_bound);
        cells.real("gross", Some(self.gross.0)).real("u_gross", Some(self.gross.1));
        cells.real("blank", self.blank.map(|b| b.0)).real("u_blank", self.blank.map(|b| b.1));
        if let Some(laboratory) = &self.laboratory {
            cells.text("laboratory", laboratory);
        }
        cells.integer("subject", subject).text("engine", DERIVED_BY).text("bears", self.bears.word());
        let id = cells.insert(act)?;
        act.insert("derivation", &[Cell::Integer(id), Cell::Text(&self.derivation)])?;
        if let Some([share, u, low, high]) = self.share_row() {
            act.insert(
                "share",
                &[
                    Cell::Integer(id),
                    Cell::Real(share),
                    Cell::Real(u),
                    Cell::Real(low),
                    Cell::Real(high),
                    Cell::Text("1 − blank/gross, Fieller's set held to 0…1"),
                ],
            )?;
        }
        Ok(())
    }
}

/// What a run measured in a bottle, whatever its revision.
pub fn identity(label: &str, analyte: &run::Analyte, fraction: &str) -> ResultId {
    ResultId {
        bottle: label.into(),
        analyte: analyte.element.clone(),
        isotopes: analyte.isotopes.clone(),
        resolution: analyte.resolution.clone(),
        fraction: fraction.into(),
        revision: None,
    }
}

/// The bits of a number as the record keeps it: no −0, and nothing where it is not finite.
pub(crate) fn as_kept(x: Option<f64>) -> Option<u64> {
    x.filter(|x| x.is_finite()).map(|x| (x + 0.0).to_bits())
}

/// What the blank that was taken off leaves of what was found in a bottle of water, as a share.
pub fn share(r: &RunResult) -> Option<cleanliness::share::Share> {
    if !matches!(r.role, Role::Sample | Role::Duplicate) {
        return None;
    }
    let (blank, covariance) = blank_of_one(r)?;
    let input = GrossAndBlank { gross: r.gross.clone(), blank, covariance };
    // 95 %: the coverage that all intervals of the report use.
    water_share(&input, 0.95).ok()
}

/// What the blank says of one more bottle, its own spread beside that of the mean; and its covariance with the gross
/// value, in the square of the unit.
pub(crate) fn blank_of_one(r: &RunResult) -> Option<(Measured, f64)> {
    let blank = r.blank.as_ref()?;
    let n = blank.n as f64;
    let of_one = Measured { u: blank.sd * (1.0 + 1.0 / n).sqrt(), dof: n - 1.0, ..blank.mean.clone() };
    // net = (gross − blank)/R, so the covariance follows from the three u, that of the recovery R taken out.
    let (recovery, u_recovery) = r.recovery.as_ref().map_or((1.0, 0.0), |r| (r.value, r.u));
    let u2_net = (recovery * r.net.u).powi(2) - (u_recovery * r.net.value).powi(2);
    let covariance = 0.5 * (r.gross.u.powi(2) + of_one.u.powi(2) - u2_net);
    let bound = r.gross.u * of_one.u;
    Some((of_one, covariance.clamp(-bound, bound)))
}

/// Results of a reduced run that do not come out as they stand.
///
/// # Errors
/// The store cannot be read.
pub fn differences(store: &Store, prepared: &Prepared, reduced: &ReducedRun) -> Result<Vec<Differs>, Error> {
    let (fresh, _) = fresh(store, prepared, reduced)?;
    fresh.iter().map(|f| f.differs(store)).collect()
}

impl Fresh {
    fn differs(&self, store: &Store) -> Result<Differs, Error> {
        let Self { row, old, .. } = self;
        let Some(old) = old else {
            return Ok(Differs { sentence: format!("{} was never derived", row.identity(1)), way: Way::Missing });
        };
        let by = format!("derived by {}, now {DERIVED_BY}", old.engine);
        if !row.same_as(old) {
            let stands = words(old.value, old.u, old.upper_bound, &unit(&old.unit)?);
            let now = words(Some(row.value), Some(row.u), row.upper_bound, &row.unit);
            let sentence = format!("{}: stands as {stands}, comes out as {now} ({by})", old.identity());
            return Ok(Differs { sentence, way: Way::Value });
        }
        if !row.share_is_kept(old, store)? {
            let sentence = format!("the water's share of {} comes out differently ({by})", old.identity());
            return Ok(Differs { sentence, way: Way::Value });
        }
        let kept = Row::derivation_kept(old, store)?.unwrap_or_default();
        let now: Value = serde_json::from_str(&row.derivation).unwrap_or_default();
        let way = if numbers(&kept) == numbers(&now) { Way::Wording } else { Way::Value };
        Ok(Differs { sentence: format!("the derivation of {} comes out differently ({by})", old.identity()), way })
    }
}

/// All numbers of a document in their order, but those in what it says: they are the same once more, in words.
fn numbers(of: &Value) -> Vec<&serde_json::Number> {
    match of {
        Value::Number(n) => vec![n],
        Value::Array(all) => all.iter().flat_map(numbers).collect(),
        Value::Object(all) => all.iter().filter(|(key, _)| *key != "says").flat_map(|(_, of)| numbers(of)).collect(),
        _ => vec![],
    }
}

/// Runs that have counts, in order of their start; a run whose counts have not come yet is no
/// fault of the record.
///
/// # Errors
/// The store cannot be read.
pub fn runs_in_order(store: &Store) -> Result<Vec<record::model::Run>, Error> {
    let mut runs = vec![];
    for r in store.runs()? {
        if !store.readings(r.id)?.is_empty() {
            runs.push(r);
        }
    }
    runs.sort_by_key(in_time);
    Ok(runs)
}

/// The one order of runs in time: by start, those without one last, by name where that is the same.
pub fn in_time(run: &record::model::Run) -> InTime {
    (run.started_at.is_none(), run.started_at.clone(), run.name.clone())
}

/// What [`in_time`] orders by.
pub type InTime = (bool, Option<String>, String);

/// Whether the blanks of one run may have a say in what another comes to: of one recipe, and started earlier.
pub fn may_learn_from(run: &model::Run, earlier: &model::Run) -> bool {
    let recipe = |r: &model::Run| r.recipe_toml.as_deref().and_then(|t| toml::from_str::<Recipe>(t).ok());
    run.started_at.is_some()
        && earlier.started_at.is_some()
        && earlier.started_at < run.started_at
        && recipe(run).is_some_and(|of| recipe(earlier) == Some(of))
}

/// Whether an error speaks of one run alone: what its rows hold, or its recipe.
pub fn of_one_run(e: &Error) -> bool {
    matches!(e, Error::Run { .. } | Error::Recipe { .. } | Error::Unfit { .. } | Error::Science { .. })
}
