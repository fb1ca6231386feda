//! Whose metal is in a bottle, by the record: one sum for each result of a run, kept beside it and read by all that
//! tell of it (case, picture, results, report, package). The science is [`cleanliness::accounting`]; here is only who
//! meets whom.
//!
//! In: a reduced run (the metal found and its nested blanks, concentration times volume: pg), the way of each bottle
//! ([`Ways`]), and bottles at different flow, which alone tell the pipe: their line against 1/flow, where the fit of all
//! bottles tells the pipe too, else that fit. Out: [`Accounting`] of a result of
//! a water; rows of the table `accounting`, written only where it came out anew. A bottle whose volume nobody wrote down
//! has shares and no masses: it is judged, and nothing is kept. Checked in `crates/programme/tests/accounting.rs`.

use crate::attribution::{Exposure, Fit, RunPair, Sort, TripAnalyte, WaterFit};
use crate::derive::{as_kept, blank_of_one};
use crate::engine::{DERIVED_BY, ENGINE};
use crate::unmet::{Ways, outdoors};
use crate::verify::{Differs, Way};
use cleanliness::accounting::{
    Accounting, Air, BlankSet, BottleSeen, Estimate, Part, PartShare, Pipe, Source, Stands, Told, account,
};
use cleanliness::lines::TestedLine;
use measurement::run::{BlankScale, ReducedRun, Role, RunResult, State};
use message::{Message, Sentence};
use quantity::{Finding, Measured, Unit};
use record::error::Error;
use record::model::{AccountingPart, AccountingRow, AccountingTold, Bottle, ResultRow};
use record::store::{Act, ActInfo, Cell, Filter, NamedCells, Store, StoreError};
use serde_json::json;
use statistics::sample::Moments;
use statistics::t;
use std::collections::HashMap;

/// What is read once for the accountings of many results.
pub struct Books<'a> {
    /// What met which bottle.
    pub ways: &'a Ways,
    /// Bottles by their labels.
    pub by_label: &'a HashMap<String, Bottle>,
    /// What all bottles together say, trip by trip.
    pub fits: &'a [TripAnalyte],
}

/// The accounting of one result, with what it stands on.
pub struct Accounted {
    /// The sum.
    pub accounting: Accounting,
    /// What is known of the bottle.
    pub seen: BottleSeen,
}

impl Accounted {
    /// The finding on the water's part against the least that is asked.
    pub fn finding(&self, asked: f64, bottle: &Bottle) -> Finding {
        self.accounting.finding(asked, &self.seen, outdoors(bottle))
    }
}

/// A bottle without a volume is accounted for as if it held this much, mL: shares do not depend on it.
const ANY_VOLUME_ML: f64 = 1000.0;

impl Books<'_> {
    /// The accounting of a result of a water; none for blanks, spikes and results in a unit that is no mass in a volume.
    pub fn of(&self, run: &ReducedRun, index: usize) -> Option<Accounted> {
        let r = &run.results[index];
        let bottle = self.by_label.get(r.bottle.as_ref()?)?;
        if !bottle.kind.is_water() || !matches!(r.role, Role::Sample | Role::Duplicate) {
            return None;
        }
        let seen = self.seen(run, r, bottle)?;
        // Masses that are no numbers give no sum.
        Some(Accounted { accounting: account(&seen).ok()?, seen })
    }

    fn seen(&self, run: &ReducedRun, r: &RunResult, bottle: &Bottle) -> Option<BottleSeen> {
        let ng_l = r.gross.unit.conversion(&Unit::known("ng/L"), None, None).ok()?.apply_difference(1.0);
        let volume_ml = bottle.volume_mL.filter(|v| *v > 0.0).unwrap_or(ANY_VOLUME_ML);
        // ng/L times mL is pg.
        let pg = ng_l * volume_ml;
        let set = |kind: Role| self.blanks(run, r, bottle, (kind, pg));
        let outermost = run.recipe.blank.samples;
        let air = set(if outermost == Role::EquipmentBlank { outermost } else { Role::FieldBlank });
        let stood = if air.is_some() { Air::Met } else { self.ways.air_not_met(bottle) };
        let mut seen = BottleSeen {
            found: Measured {
                value: r.gross.value * pg,
                u: r.gross.u * pg,
                unit: Unit::known("pg"),
                ..r.gross.clone()
            },
            covariance_pg2: 0.0,
            detected: r.state != State::NotDetected,
            laboratory: set(Role::ProceduralBlank),
            bottle: set(Role::BottleBlank),
            journey: set(Role::TripBlank),
            air,
            stood,
            pipe: Pipe::NotKnown,
            between_pg: self.between(run, r, bottle).map(|s| s * pg),
        };
        taken_off(&mut seen, r, pg);
        seen.pipe = self.by_flow(run, r, bottle, (&seen, volume_ml)).unwrap_or_else(|| self.ways.pipe(bottle));
        Some(seen)
    }

    /// Blanks of a kind that met what the bottle met, pg in a bottle like it.
    fn blanks(&self, run: &ReducedRun, r: &RunResult, bottle: &Bottle, (kind, pg): (Role, f64)) -> Option<BlankSet> {
        let of = |b: &RunResult| b.bottle.as_ref().and_then(|label| self.by_label.get(label));
        // Counted as mass a bottle, a blank brings what was in it, whatever the volume of the sample.
        let by_bottle = run.recipe.blank.scale == BlankScale::MassPerBottle && kind != Role::ProceduralBlank;
        let per_ml = bottle.volume_mL.filter(|v| *v > 0.0);
        let scale = |b: &RunResult| match (by_bottle, of(b).and_then(|x| x.volume_mL), per_ml) {
            (true, Some(own), Some(volume)) => pg * own / volume,
            _ => pg,
        };
        let masses: Vec<f64> = (run.results.iter())
            .filter(|b| b.role == kind && b.analyte == r.analyte && self.ways.met(kind, of(b), bottle))
            // Gross: a stage is the difference of two kinds of blank, and of a net value one is taken off already.
            .map(|b| b.gross.value * scale(b))
            .collect();
        BlankSet::of(&masses)
    }

    /// Standard deviation between the bottles of this water in the run, in the unit of the result; none for a bottle of
    /// a series, and for one alone.
    fn between(&self, run: &ReducedRun, r: &RunResult, bottle: &Bottle) -> Option<f64> {
        let same = |b: &Bottle| {
            let key = |x: &Bottle| (x.well_id, x.trip_id, x.fraction.clone());
            b.kind.is_water() && !b.is_series() && key(b) == key(bottle)
        };
        if bottle.is_series() || bottle.well_id.is_none() {
            return None;
        }
        let values: Vec<f64> = (run.results.iter())
            .filter(|x| x.analyte == r.analyte && matches!(x.role, Role::Sample | Role::Duplicate))
            .filter(|x| x.bottle.as_ref().and_then(|l| self.by_label.get(l)).is_some_and(same))
            .map(|x| x.net.value)
            .collect();
        Some(Moments::of(&values)?.variance()?.sqrt())
    }

    /// What bottles at different flow say of pipe and aquifer in this bottle; none where they do not tell the pipe.
    fn by_flow(
        &self,
        run: &ReducedRun,
        r: &RunResult,
        bottle: &Bottle,
        (seen, volume_ml): (&BottleSeen, f64),
    ) -> Option<Pipe> {
        let (water, fit, source) = pipe_fit(self.fits, run, r, bottle)?;
        let of_water = fit.fit.waters.first()?;
        let most = fit.recovery.0 * of_water.interval_95.1 * volume_ml;
        let flows = water.series.iter().filter(|s| s.sort == Sort::Flows).find_map(|s| s.line.as_ref());
        if let (Some(line), Some(flow)) = (flows.filter(|l| l.is_a_line()), self.ways.flow_l_min(bottle)) {
            return Some(by_line(line, flow, volume_ml, (seen, most)));
        }
        let part = fit.fit.bottles.iter().find(|p| p.name == bottle.label)?;
        let exposure = self.ways.contact_min(bottle)? * volume_ml * 1e-3;
        let recovery = fit.recovery.0;
        let half = |(low, high): (f64, f64)| 0.5 * (high - low);
        let k = t::quantile(0.975, fit.fit.dof);
        // One more bottle: the scatter between bottles that the fit found, beside the u of the strength.
        let brought: f64 = part.sources_pg.iter().sum();
        let scatter = fit.fit.between_bottles_pg.hypot(fit.fit.between_bottles_share * brought);
        let strength = &fit.fit.sources[source];
        let u_strength = strength.u_pg.unwrap_or_else(|| half(strength.interval_95) / k) * exposure;
        let pipe = estimate(recovery * strength.per_unit_pg * exposure, recovery * u_strength.hypot(scatter), k);
        let handled = |a: &crate::attribution::Asked| a.members.iter().all(|m| OF_AIR.contains(m));
        let air = fit.asked.iter().zip(&part.sources_pg).filter(|(a, _)| handled(a)).map(|(_, pg)| pg).sum::<f64>();
        let unmet = if seen.stood == Air::Met { 0.0 } else { air };
        let ends = |x: f64| recovery * x * volume_ml;
        let (low, high) = (ends(of_water.interval_95.0), most);
        let value = recovery * (part.water_pg + unmet);
        let rest = Estimate { value_pg: value, u_pg: half((low, high)) / k, interval_pg: (low.max(0.0), high) };
        Some(Pipe::ByFlow { pipe, rest })
    }
}

/// Pipe and aquifer by the line through the bottles at different flow: concentration less the blanks against 1/flow.
/// `most`: what all bottles together leave to the water at most; where it is more than the line's, it is the bound.
fn by_line(line: &TestedLine, flow_l_min: f64, volume_ml: f64, (seen, most): (&BottleSeen, f64)) -> Pipe {
    let k = t::quantile(0.975, line.dof);
    // Bottles of one water that lie further apart than U are not told by one line: their scatter is in the part.
    let expanded = t::quantile(0.975, seen.found.dof) * seen.found.u;
    let scatter = seen.between_pg.filter(|s| *s > expanded).unwrap_or(0.0);
    let per_slope = volume_ml / flow_l_min;
    let pipe = estimate(line.slope.max(0.0) * per_slope, (line.u_slope * per_slope).hypot(scatter), k);
    let value_pg = line.intercept.max(0.0) * volume_ml;
    let high = (line.intercept_95.1 * volume_ml).max(most).max(value_pg);
    let low = (line.intercept_95.0 * volume_ml).max(0.0);
    let rest = Estimate { value_pg, u_pg: line.u_intercept * volume_ml, interval_pg: (low, high) };
    Pipe::ByFlow { pipe, rest }
}

/// Exposures that field blanks see and trip blanks do not.
const OF_AIR: [Exposure; 4] = [Exposure::Filter, Exposure::Openings, Exposure::Cabinet, Exposure::OpenAir];

fn estimate(value_pg: f64, u_pg: f64, k: f64) -> Estimate {
    Estimate { value_pg, u_pg, interval_pg: ((value_pg - k * u_pg).max(0.0), value_pg + k * u_pg) }
}

/// The fit that tells the pipe of a bottle's well by bottles at different flow, and the place of the pipe in it.
pub(crate) fn pipe_fit<'a>(
    fits: &'a [TripAnalyte],
    run: &ReducedRun,
    r: &RunResult,
    bottle: &Bottle,
) -> Option<(&'a WaterFit, &'a Fit, usize)> {
    let fraction = bottle.fraction.as_deref().unwrap_or("unfiltered");
    let here = |t: &&TripAnalyte| t.run == run.name && Some(&t.trip) == bottle.trip.as_ref() && t.analyte == r.analyte;
    let mut waters = fits.iter().filter(here).flat_map(|t| &t.waters);
    let water = waters.find(|w| Some(&w.well) == bottle.well.as_ref() && w.fraction == fraction)?;
    let fit = water.fit.as_ref().ok()?;
    let alone = fit.asked.iter().position(|a| a.members == [Exposure::Pipe])?;
    fit.fit.sources.get(alone).filter(|s| s.identifiable)?;
    Some((water, fit, alone))
}

/// Where the outermost kind that met the bottle is the blank that was taken off, its mean is that of the value, and the
/// covariance of the two is known.
fn taken_off(seen: &mut BottleSeen, r: &RunResult, pg: f64) {
    let kinds = [
        (Role::FieldBlank, &mut seen.air),
        (Role::TripBlank, &mut seen.journey),
        (Role::BottleBlank, &mut seen.bottle),
        (Role::ProceduralBlank, &mut seen.laboratory),
    ];
    let Some((kind, Some(set))) = kinds.into_iter().find(|(_, set)| set.is_some()) else { return };
    let same = |role: Role| role == kind || (kind == Role::FieldBlank && role == Role::EquipmentBlank);
    let Some(blank) = r.blank.as_ref().filter(|b| same(b.role) && b.n == set.n) else { return };
    *set = BlankSet { mean_pg: blank.mean.value * pg, sd_pg: blank.sd * pg, n: blank.n };
    seen.covariance_pg2 = blank_of_one(r).map_or(0.0, |(_, covariance)| covariance * pg * pg);
}

/// What every newest result of the runs should carry.
fn wanted(store: &Store, fits: &[TripAnalyte], runs: &[RunPair]) -> Result<Vec<(ResultRow, Accounting)>, Error> {
    if runs.is_empty() {
        return Ok(vec![]);
    }
    let by_label: HashMap<String, Bottle> =
        store.bottles(&Filter::all())?.into_iter().map(|b| (b.label.clone(), b)).collect();
    let ways = Ways::of(store, by_label.values())?;
    let books = Books { ways: &ways, by_label: &by_label, fits };
    let mut vials: HashMap<i64, (&ReducedRun, u32)> = HashMap::new();
    for (prepared, run) in runs {
        vials.extend(prepared.vials().iter().map(|v| (v.id, (*run, v.position as u32))));
    }
    let mut out = vec![];
    for row in store.results(&Filter::all().has("vial").latest())? {
        let Some((run, position)) = row.vial_id.and_then(|v| vials.get(&v)) else { continue };
        let analyte = measurement::run::Analyte {
            element: row.analyte.clone(),
            isotopes: row.isotopes.clone(),
            resolution: row.resolution.clone(),
        };
        let volume = by_label.get(&row.bottle).and_then(|b| b.volume_mL).filter(|v| *v > 0.0);
        let found = run.find(*position, &analyte).filter(|_| volume.is_some()).and_then(|i| books.of(run, i));
        out.extend(found.map(|a| (row, a.accounting)));
    }
    Ok(out)
}

/// Keeps what came out anew; answers how many results got an accounting.
///
/// # Errors
/// The store cannot be read or written.
pub fn keep(store: &mut Store, fits: &[TripAnalyte], runs: &[RunPair], author: &str, at: &str) -> Result<usize, Error> {
    let standing = standing(&store.accounting(&Filter::all())?);
    let fresh: Vec<(i64, Accounting)> = wanted(store, fits, runs)?
        .into_iter()
        .filter(|(row, a)| standing.get(&row.id).is_none_or(|old| !same(old, a)))
        .map(|(row, a)| (row.id, a))
        .collect();
    if fresh.is_empty() {
        return Ok(0);
    }
    let info = ActInfo {
        kind: "accounting".into(),
        author: author.into(),
        at: at.into(),
        body: json!({ "results": fresh.len(), "engine": ENGINE }),
    };
    store.act::<_, StoreError>(&info, |act| fresh.iter().try_for_each(|(result, a)| write(act, *result, a)))?;
    Ok(fresh.len())
}

/// A row of the table.
struct Row<'a> {
    part: &'a str,
    told: &'a str,
    with: Option<Source>,
    numbers: &'a [(&'a str, Option<f64>)],
    why: Option<&'a Sentence>,
}

impl Row<'_> {
    fn write(&self, act: &mut Act, result: i64, revision: i64) -> Result<(), StoreError> {
        let texts = self.why.map(|why| {
            let message: &Message = why;
            (message.in_english(), serde_json::to_string(message).expect("arguments are plain data"))
        });
        let mut cells = NamedCells::new("accounting");
        cells.integer("result", result).text("part", self.part).integer("revision", revision).text("told", self.told);
        if let Some(with) = self.with {
            cells.text("told_with", with.word());
        }
        for (column, x) in self.numbers {
            cells.real(column, *x);
        }
        if let Some((sentence, message)) = &texts {
            cells.text("sentence", sentence).text("message", message);
        }
        cells.text("engine", DERIVED_BY).insert(act).map(|_| ())
    }
}

fn write(act: &mut Act, result: i64, a: &Accounting) -> Result<(), StoreError> {
    let found = AccountingPart::Found.word();
    let revision = act.next_revision("accounting", &[Cell::Integer(result), Cell::Text(found)])?;
    let numbers = [("value_pg", Some(a.found_pg)), ("u_pg", Some(a.expanded_pg))];
    let all = Row { part: found, told: a.stands.word(), with: None, numbers: &numbers, why: a.says.as_ref() };
    all.write(act, result, revision)?;
    for p in &a.parts {
        let numbers = [
            ("value_pg", p.value_pg),
            ("u_pg", p.u_pg),
            ("low_pg", p.interval_pg.map(|i| i.0)),
            ("high_pg", p.interval_pg.map(|i| i.1)),
            ("share", p.share.map(|s| s.share)),
            ("u_share", p.share.map(|s| s.u)),
            ("low", p.share.map(|s| s.low)),
            ("high", p.share.map(|s| s.high)),
        ];
        let row =
            Row { part: p.part.word(), told: p.told.word(), with: p.with, numbers: &numbers, why: p.why.as_ref() };
        row.write(act, result, revision)?;
    }
    Ok(())
}

/// The accountings of these rows, by result: of each the newest.
pub fn standing(rows: &[AccountingRow]) -> HashMap<i64, Accounting> {
    let mut newest: HashMap<i64, i64> = HashMap::new();
    for r in rows {
        let revision = newest.entry(r.result_id).or_insert(r.revision);
        *revision = (*revision).max(r.revision);
    }
    let mut by_result: HashMap<i64, Vec<&AccountingRow>> = HashMap::new();
    for r in rows.iter().filter(|r| newest[&r.result_id] == r.revision) {
        by_result.entry(r.result_id).or_default().push(r);
    }
    by_result.into_iter().filter_map(|(result, rows)| Some((result, read(&rows)?))).collect()
}

fn read(rows: &[&AccountingRow]) -> Option<Accounting> {
    let found = rows.iter().find(|r| r.part == AccountingPart::Found)?;
    let part = |of: Source| rows.iter().find(|r| r.part.word() == of.word()).and_then(|r| read_part(of, r));
    Some(Accounting {
        stands: Stands::ALL.into_iter().find(|s| s.word() == found.told.word())?,
        found_pg: found.value_pg?,
        expanded_pg: found.u_pg?,
        says: read_message(found),
        parts: Source::ALL.into_iter().filter_map(part).collect(),
    })
}

fn read_part(part: Source, r: &AccountingRow) -> Option<Part> {
    let share = || Some(PartShare { share: r.share?, u: r.u_share?, low: r.low?, high: r.high? });
    Some(Part {
        part,
        told: told(r.told)?,
        with: r.told_with.and_then(|w| Source::from_word(w.word())),
        value_pg: r.value_pg,
        u_pg: r.u_pg,
        interval_pg: r.low_pg.zip(r.high_pg),
        share: share(),
        why: read_message(r),
    })
}

fn told(word: AccountingTold) -> Option<Told> {
    Told::ALL.into_iter().find(|t| t.word() == word.word())
}

/// What a row says; none where this program does not know it (another version's).
fn read_message(r: &AccountingRow) -> Option<Sentence> {
    Some(serde_json::from_value::<Message>(r.message.clone()?).ok()?.into())
}

fn same(old: &Accounting, now: &Accounting) -> bool {
    same_value(old, now)
        && old.says == now.says
        && old.parts.iter().map(|p| &p.why).eq(now.parts.iter().map(|p| &p.why))
}

fn same_value(old: &Accounting, now: &Accounting) -> bool {
    let bits = |a: &Accounting| {
        let of = |p: &Part| {
            let (low, high) = p.interval_pg.unzip();
            let s = p.share;
            let shares = [s.map(|s| s.share), s.map(|s| s.u), s.map(|s| s.low), s.map(|s| s.high)];
            ([p.value_pg, p.u_pg, low, high].map(as_kept), shares.map(as_kept), p.told, p.with, p.part)
        };
        let found = [a.found_pg, a.expanded_pg].map(|x| as_kept(Some(x)));
        (a.stands, found, a.parts.iter().map(of).collect::<Vec<_>>())
    };
    bits(old) == bits(now)
}

/// Accountings that do not come out as they stand.
///
/// # Errors
/// The store cannot be read.
pub fn differences(store: &Store, fits: &[TripAnalyte], runs: &[RunPair]) -> Result<Vec<Differs>, Error> {
    let mut standing = standing(&store.accounting(&Filter::all())?);
    let mut out = vec![];
    for (row, now) in wanted(store, fits, runs)? {
        let identity = row.identity();
        let (sentence, way) = match standing.remove(&row.id) {
            Some(old) if same(&old, &now) => continue,
            Some(old) => {
                let way = if same_value(&old, &now) { Way::Wording } else { Way::Value };
                (format!("the accounting of {identity} comes out differently"), way)
            }
            None => (format!("{identity} was never accounted for"), Way::Missing),
        };
        out.push(Differs { sentence, way });
    }
    Ok(out)
}
