//! One analyte from responses to concentrations over the zero of the calibration, every shared
//! source kept in rows.

use super::bottle::{self, AcidFactor, BottleSources};
use super::drift::{Check, Model, Reproducibility};
use super::drift_open::Open;
use super::error::Error;
use super::input::{AssignedSide, Role, Vial};
use super::line::{self, Fitted, Point};
use super::plan::Plan;
use super::recipe::{Drift, Intercept, Recipe};
use super::scatter::{self, Scatter};
use super::signal::{Levels, Response, Signal};
use super::sources::{Group, Key, Pool, Sources, add_scaled};
use super::table::{Hole, Table, When};
use message::refusal as says;
use quantity::{Measured, Substance};
use statistics::sample::Moments;
use statistics::welch::effective_dof;

/// What a vial's own noise adds to its concentration, as standard uncertainties.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Own {
    pub replicates: f64,
    pub replicates_dof: f64,
    /// What this vial's own replicates scatter over what is expected of them, for its decision alone.
    pub excess: f64,
    /// Degrees of freedom of its own scatter.
    pub excess_dof: f64,
    /// Its own scatter over the expected, as a ratio of standard deviations.
    pub times: f64,
    /// Whether `replicates` is that of all vials of the run together.
    pub pooled: bool,
    pub between_vials: f64,
    /// With the sign of the concentration: metals of one vial share it.
    pub dilution: f64,
}

/// One vial of an analyte.
#[derive(Debug, Clone, Copy)]
pub(super) struct VialPoint {
    pub response: Response,
    /// Response with drift removed.
    pub y: f64,
    /// Concentration in the water of the bottle over the zero of the calibration.
    pub gross: f64,
    /// Concentration in the water of the bottle per unit of the response.
    pub per_response: f64,
    /// Factor from the solution as measured to the water of the bottle: dilution and acid.
    pub dilution: f64,
    pub own: Own,
}

/// One analyte of a run, reduced up to the gross concentration.
#[derive(Debug, Clone)]
pub(super) struct AnalyteReduction {
    pub plan: Plan,
    pub signal: Signal,
    pub sources: Sources,
    pub drift: Option<Model>,
    /// Drift checks that hold the element, in time order.
    pub checks: Vec<usize>,
    /// What the replicates of all vials scatter.
    pub scatter: Option<Scatter>,
    pub fitted: Fitted,
    pub between_vials: Option<Reproducibility>,
    pub points: Vec<Option<VialPoint>>,
    /// Sensitivities of the gross concentration; `sources.len()` per vial.
    pub rows: Vec<f64>,
    /// Whether the row of a vial already holds its own noise (standards, drift checks).
    pub own_in_row: Vec<bool>,
    /// Standards left out because they have no value or no reading for this analyte.
    pub standards_left_out: Vec<usize>,
    /// Where vials stand before the first or after the last drift check.
    pub open: Open,
    /// Whether the drift checks say nothing of this element.
    pub drift_not_seen: bool,
    /// Sources of the volumes of each vial's bottle.
    pub bottles: Vec<BottleSources>,
}

impl AnalyteReduction {
    /// The row of a vial.
    pub fn row(&self, v: usize) -> &[f64] {
        let n = self.sources.len();
        &self.rows[v * n..(v + 1) * n]
    }

    /// Index of the pooled degrees of freedom of the spread between vials.
    pub fn vials_dof(&self) -> f64 {
        self.between_vials.map_or(f64::INFINITY, |b| b.dof)
    }
}

/// Sources of one vial's own noise, where others stand on it.
#[derive(Debug, Clone, Copy)]
struct OwnSources {
    replicates: usize,
    between: usize,
}

/// An assigned value in the recipe's unit, in the bottle that the vial was diluted from. Said of the solution as
/// measured, it is brought there by the vial's own dilution, whose u the result that it is held against has too: it is
/// not counted a second time.
pub(super) fn assigned_in_bottle(vial: &Vial, element: &str, recipe: &Recipe) -> Result<Option<Measured>, Error> {
    let Some((value, side, _)) = assigned(vial, element, recipe)? else {
        return Ok(None);
    };
    let factor = if side == Some(AssignedSide::AsMeasured) { bottle::dilution(vial).0 } else { 1.0 };
    Ok(Some(Measured { value: value.value * factor, u: value.u * factor, ..value }))
}

/// A value, the side of the dilution that it stands on, its stock.
type Said<'a> = (Measured, Option<AssignedSide>, Option<&'a str>);

/// An assigned value in the recipe's unit as it was said, on which side of the dilution it stands, and its stock.
fn assigned<'a>(vial: &'a Vial, element: &str, recipe: &Recipe) -> Result<Option<Said<'a>>, Error> {
    let Some(a) = vial.assigned.iter().find(|a| a.element == element) else {
        return Ok(None);
    };
    Ok(Some((in_unit(vial, &a.amount, element, recipe)?, a.side, a.stock.as_deref())))
}

/// A measured value in the recipe's unit.
pub(super) fn in_unit(vial: &Vial, amount: &Measured, element: &str, recipe: &Recipe) -> Result<Measured, Error> {
    if amount.unit == recipe.unit {
        return Ok(amount.clone());
    }
    let substance = Substance::parse(element).ok();
    let c = amount.unit.conversion(&recipe.unit, substance.as_ref(), None).map_err(|error| Error::Unit {
        position: vial.position,
        vial: vial.name.clone(),
        error,
    })?;
    Ok(Measured {
        value: c.apply(amount.value),
        u: c.apply_difference(amount.u).abs(),
        dof: amount.dof,
        unit: recipe.unit.clone(),
    })
}

/// From the assigned value of a standard as it was said to its x on the line: the factor, and the u of the dilution in it
/// as a share. None without an assigned value, or where its unit cannot be read.
pub(super) fn to_line(vial: &Vial, element: &str, recipe: &Recipe) -> Option<(f64, f64)> {
    let a = vial.assigned.iter().find(|a| a.element == element)?;
    let one = Measured { value: 1.0, u: 0.0, dof: f64::INFINITY, unit: a.amount.unit.clone() };
    let unit = in_unit(vial, &one, element, recipe).ok()?.value;
    let (d, u_d) = if a.side == Some(AssignedSide::AsMeasured) { (1.0, 0.0) } else { bottle::dilution(vial) };
    Some((unit / d, u_d / d))
}

/// Reduces one analyte up to gross concentrations.
pub(super) fn reduce(table: &Table, levels: &Levels, recipe: &Recipe, plan: Plan) -> Result<AnalyteReduction, Error> {
    let n_vials = table.vials.len();
    let mut sources = Sources::default();
    let signal = Signal::new(table, recipe, levels, &plan, &mut sources)?;
    let (checks, drift_not_seen) = drift_checks(table, recipe, &plan)?;
    let standards = Standards::of(table, recipe, &plan, &mut sources)?;
    let bottles = bottle::sources(table, recipe, &mut sources);
    let mut own: Vec<Option<OwnSources>> = vec![None; n_vials];
    for v in checks.iter().chain(&standards.vials).chain(&standards.blanks) {
        own[*v].get_or_insert_with(|| OwnSources {
            replicates: sources.add(Group::Line, Pool::None, 1.0),
            between: sources.add(Group::Line, Pool::Vials, 1.0),
        });
    }
    for s in checks.iter().filter_map(|v| own[*v]) {
        sources.group[s.replicates] = Group::Drift;
        sources.group[s.between] = Group::Drift;
    }
    let modelled: &[usize] = if recipe.drift == Drift::None { &[] } else { &checks };
    let open = Open::of(table, modelled, &mut sources);
    let n = sources.len();
    let mut rows = vec![0.0; n * n_vials];
    let mut responses: Vec<Option<Response>> = Vec::with_capacity(n_vials);
    for v in 0..n_vials {
        let skip = table.vials[v].role == Role::GasBackground;
        let row = &mut rows[v * n..(v + 1) * n];
        responses.push(if skip { None } else { signal.response(table, &plan, v, row)? });
    }
    let scatter = scatter::pool(&mut responses);
    let model = drift_model(table, recipe, &plan, &responses, &checks)?;
    let between_vials = match recipe.between_vials {
        Some(relative) => Some(Reproducibility { relative, dof: f64::INFINITY }),
        None => reproducibility(table, recipe, &responses, &checks, model.as_ref()),
    };
    own_noise_into_rows(&mut rows, &mut sources, &own, &responses, between_vials);
    take_drift_off(table, &mut rows, n, &responses, model.as_ref());
    let y: Vec<f64> =
        (0..n_vials).map(|v| responses[v].map_or(0.0, |r| r.value / drift_at(table, model.as_ref(), v))).collect();
    if let Some(m) = &model {
        open.add_to_rows(table, m, between_vials, (&mut rows, &y), &mut sources);
    }
    let fitted = calibrate(
        table,
        recipe,
        &plan,
        &Ready {
            standards: &standards,
            responses: &responses,
            y: &y,
            model: model.as_ref(),
            between: between_vials.map_or(0.0, |b| b.relative),
            own: &own,
            n,
        },
        &mut rows,
        &mut sources,
    )?;
    // A calibration blank that is subtracted from samples brings its scatter as a blank.
    for v in &standards.blanks {
        if let Some(o) = own[*v].take() {
            rows[v * n + o.replicates] = 0.0;
            rows[v * n + o.between] = 0.0;
        }
    }
    let mut points = Vec::with_capacity(n_vials);
    for v in 0..n_vials {
        let row = &mut rows[v * n..(v + 1) * n];
        points.push(responses[v].map(|r| {
            let g = drift_at(table, model.as_ref(), v);
            to_concentration(&table.vials[v], bottles[v], (r, y[v], g), &fitted, between_vials, row)
        }));
    }
    Ok(AnalyteReduction {
        plan,
        signal,
        sources,
        drift: model,
        checks,
        scatter,
        fitted,
        between_vials,
        points,
        rows,
        own_in_row: own.iter().map(Option::is_some).collect(),
        standards_left_out: standards.left_out,
        open,
        drift_not_seen,
        bottles,
    })
}

/// x = (y − a)/b, times dilution and acid; the row becomes that of the concentration in the water of the bottle.
fn to_concentration(
    vial: &Vial,
    sources: BottleSources,
    (response, y, g): (Response, f64, f64),
    fitted: &Fitted,
    between: Option<Reproducibility>,
    row: &mut [f64],
) -> VialPoint {
    let (a, b) = (fitted.line.intercept, fitted.line.slope);
    let (dilution, u_dilution) = bottle::dilution(vial);
    let acid = AcidFactor::of(vial);
    let to_water = dilution * acid.value;
    let x = (y - a) / b;
    for (j, r) in row.iter_mut().enumerate() {
        *r = (*r - fitted.row_a[j] - x * fitted.row_b[j]) * to_water / b;
    }
    for (source, moved) in [(sources.volume, acid.by_volume), (sources.acid, acid.by_acid)] {
        if let Some(s) = source {
            row[s] += x * dilution * moved;
        }
    }
    let per_response = to_water / (b * g);
    VialPoint {
        response,
        y,
        gross: x * to_water,
        per_response,
        dilution: to_water,
        own: Own {
            replicates: response.u * per_response,
            replicates_dof: response.dof,
            excess: response.excess.sqrt() * per_response.abs(),
            excess_dof: response.own.dof,
            times: response.times,
            pooled: response.noise.fixed == 0.0,
            between_vials: between.map_or(0.0, |s| s.relative * response.value.abs()) * per_response,
            dilution: x * acid.value * u_dilution,
        },
    }
}

fn drift_at(table: &Table, model: Option<&Model>, v: usize) -> f64 {
    model.map_or(1.0, |m| m.at(When::of(&table.vials[v])))
}

/// The standards of an analyte and where the u of their values comes from.
struct Standards {
    vials: Vec<usize>,
    x: Vec<f64>,
    u_x: Vec<f64>,
    /// The stock that standards share, and the standard's own dilution, each with its part of u.
    sources: Vec<[Option<(usize, f64)>; 2]>,
    blanks: Vec<usize>,
    left_out: Vec<usize>,
}

impl Standards {
    fn of(table: &Table, recipe: &Recipe, plan: &Plan, sources: &mut Sources) -> Result<Self, Error> {
        let mut s = Self { vials: vec![], x: vec![], u_x: vec![], sources: vec![], blanks: vec![], left_out: vec![] };
        let mut stocks: Vec<(Option<&str>, usize)> = Vec::new();
        let (mut any_value, mut first) = (false, None);
        for (v, vial) in table.vials.iter().enumerate() {
            if vial.role == Role::CalibrationBlank && readable(table, plan, v) {
                s.blanks.push(v);
            }
            if vial.role != Role::Standard {
                continue;
            }
            first.get_or_insert(v);
            if vial.assigned.is_empty() {
                return Err(without_value(vial, None, false));
            }
            let value = assigned(vial, &plan.analyte.element, recipe)?;
            any_value |= value.is_some();
            let Some((m, side, stock)) = value.filter(|_| readable(table, plan, v)) else {
                s.left_out.push(v);
                continue;
            };
            if !(m.value.is_finite() && m.value >= 0.0 && m.u >= 0.0) {
                return Err(without_value(vial, Some(&plan.analyte.element), true));
            }
            let (d, u_d) = if side == Some(AssignedSide::AsMeasured) { (1.0, 0.0) } else { bottle::dilution(vial) };
            let x = m.value / d;
            let (of_stock, of_dilution) = (m.u / d, x * u_d / d);
            // Standards of one stock err together: one source for all, which no number of levels averages out. Those
            // that name no stock are taken as of one. A dilution is each standard's own, and one for all its metals.
            let stock_source = (of_stock > 0.0).then(|| {
                let known = stocks.iter().find(|k| k.0 == stock).map(|k| k.1);
                known.unwrap_or_else(|| {
                    let source = sources.add(Group::Assigned, Pool::None, m.dof);
                    stocks.push((stock, source));
                    source
                })
            });
            let dilution_source = (of_dilution > 0.0)
                .then(|| sources.add_shared(Group::Assigned, Pool::None, f64::INFINITY, Key::StandardDilution(v)));
            s.vials.push(v);
            s.x.push(x);
            s.u_x.push(of_stock.hypot(of_dilution));
            s.sources.push([stock_source.map(|s| (s, of_stock)), dilution_source.map(|s| (s, of_dilution))]);
        }
        if let Some(v) = first.filter(|_| !any_value) {
            let (vial, element) = (&table.vials[v], plan.analyte.element.clone());
            return Err(Error::NoStandardHolds { position: vial.position, vial: vial.name.clone(), element });
        }
        if s.vials.len() < 2 {
            return Err(Error::TooFewStandards { analyte: plan.analyte.to_string(), found: s.vials.len() });
        }
        if recipe.intercept == Intercept::Blank && s.blanks.len() < 2 {
            return Err(Error::TooFewBlanks {
                analyte: plan.analyte.to_string(),
                role: Role::CalibrationBlank.word().into(),
                found: s.blanks.len(),
            });
        }
        // Forced through zero counts, a point at x = 0 has no say in the slope; it would only swell χ².
        if recipe.intercept == Intercept::Zero {
            s.blanks.clear();
        }
        Ok(s)
    }
}

fn without_value(vial: &Vial, element: Option<&str>, negative: bool) -> Error {
    let element = element.map(str::to_string);
    Error::StandardWithoutValue { position: vial.position, vial: vial.name.clone(), element, negative }
}

/// Whether all isotopes of the analyte were read in a vial and kept.
fn readable(table: &Table, plan: &Plan, v: usize) -> bool {
    let excluded = |i: &usize| matches!(table.cell(*i, v), Err(Hole::Excluded));
    plan.members.iter().all(|i| table.cell(*i, v).is_ok())
        && !plan.standards.iter().any(|(i, _)| excluded(i))
        && !plan.overlaps.iter().any(|o| excluded(&o.monitor))
}

/// Drift checks that hold the element, in time order; and whether there are checks at all that
/// do not.
fn drift_checks(table: &Table, recipe: &Recipe, plan: &Plan) -> Result<(Vec<usize>, bool), Error> {
    let all: Vec<usize> = (0..table.vials.len()).filter(|v| table.vials[*v].role == Role::DriftCheck).collect();
    let element = &plan.analyte.element;
    let mut checks: Vec<usize> = all
        .iter()
        .copied()
        .filter(|v| {
            let a = &table.vials[*v].assigned;
            (a.is_empty() || a.iter().any(|a| a.element == *element)) && readable(table, plan, *v)
        })
        .collect();
    checks.sort_by(|a, b| {
        let (a, b) = (&table.vials[*a], &table.vials[*b]);
        When::of(a).order(&When::of(b)).then(a.position.cmp(&b.position))
    });
    let (needed, model) = match recipe.drift {
        // Only checks measured in each session bridge them; without, one day's line would read another day's counts.
        Drift::None if sessions(table).len() > 1 => {
            return Err(Error::BadRecipe {
                field: "drift".into(),
                found: "none".into(),
                expected: says::RecipeBridge.into(),
            });
        }
        Drift::None => return Ok((checks, false)),
        Drift::Bracket => (2, "bracket".to_string()),
        Drift::Smooth { degree } => (usize::from(degree) + 1, format!("smooth, degree {degree}")),
    };
    for session in sessions(table) {
        let of = |v: &&usize| table.vials[**v].session == session;
        let found = all.iter().filter(of).count();
        if found < needed {
            let model = format!("{model}, session {session}");
            return Err(Error::TooFewDriftChecks { analyte: plan.analyte.to_string(), model, needed, found });
        }
        // The run has its checks, but they say nothing of this element: it goes on uncorrected, and a finding tells.
        if checks.iter().filter(of).count() < needed {
            return Ok((vec![], true));
        }
    }
    Ok((checks, false))
}

/// The sessions of a run in order.
pub(super) fn sessions(table: &Table) -> Vec<u32> {
    let mut sessions: Vec<u32> = table.vials.iter().map(|v| v.session).collect();
    sessions.sort_unstable();
    sessions.dedup();
    sessions
}

fn collect_checks(table: &Table, responses: &[Option<Response>], checks: &[usize]) -> Option<Vec<Check>> {
    checks
        .iter()
        .map(|v| {
            let r = responses[*v].filter(|r| r.value > 0.0)?;
            Some(Check { vial: *v, when: When::of(&table.vials[*v]), response: r.value, u: r.u })
        })
        .collect()
}

fn drift_model(
    table: &Table,
    recipe: &Recipe,
    plan: &Plan,
    responses: &[Option<Response>],
    checks: &[usize],
) -> Result<Option<Model>, Error> {
    if checks.is_empty() || recipe.drift == Drift::None {
        return Ok(None);
    }
    let few = |model: &str| Error::UnfitDriftChecks {
        analyte: plan.analyte.to_string(),
        model: model.into(),
        needed: checks.len().max(2),
    };
    let found = collect_checks(table, responses, checks).ok_or_else(|| few("any"))?;
    match recipe.drift {
        Drift::Bracket => Ok(Some(Model::bracket(found))),
        Drift::Smooth { degree } => Model::smooth(found, degree).map(Some).ok_or_else(|| few("smooth")),
        Drift::None => Ok(None),
    }
}

/// From the drift model, or without one from the checks about their mean.
fn reproducibility(
    table: &Table,
    recipe: &Recipe,
    responses: &[Option<Response>],
    checks: &[usize],
    model: Option<&Model>,
) -> Option<Reproducibility> {
    match model {
        Some(m) => m.reproducibility(),
        None if recipe.drift == Drift::None && checks.len() >= 2 => {
            Model::smooth(collect_checks(table, responses, checks)?, 0)?.reproducibility()
        }
        None => None,
    }
}

fn own_noise_into_rows(
    rows: &mut [f64],
    sources: &mut Sources,
    own: &[Option<OwnSources>],
    responses: &[Option<Response>],
    between: Option<Reproducibility>,
) {
    let n = sources.len();
    for (v, own) in own.iter().enumerate() {
        let (Some(own), Some(r)) = (own, responses[v]) else {
            continue;
        };
        rows[v * n + own.replicates] = r.u;
        sources.dof[own.replicates] = r.dof;
        if let Some(b) = between {
            rows[v * n + own.between] = b.relative * r.value.abs();
            sources.dof[own.between] = b.dof;
        }
    }
}

/// y = r/g: divides every row, and takes off what the checks' errors put into g.
fn take_drift_off(table: &Table, rows: &mut [f64], n: usize, responses: &[Option<Response>], model: Option<&Model>) {
    let Some(m) = model else { return };
    let theta: Vec<Vec<f64>> = (0..m.terms())
        .map(|k| {
            let mut row = vec![0.0; n];
            for (w, c) in m.weights(k).iter().zip(&m.checks) {
                if *w != 0.0 {
                    add_scaled(&mut row, *w, &rows[c.vial * n..(c.vial + 1) * n]);
                }
            }
            row
        })
        .collect();
    for (v, row) in rows.chunks_exact_mut(n).enumerate() {
        let Some(r) = responses[v] else { continue };
        let t = When::of(&table.vials[v]);
        let g = m.at(t);
        for x in row.iter_mut() {
            *x /= g;
        }
        m.basis(t, |k, phi| {
            add_scaled(row, -phi * r.value / (g * g), &theta[k]);
        });
    }
}

/// What the calibration stands on.
struct Ready<'a> {
    standards: &'a Standards,
    responses: &'a [Option<Response>],
    y: &'a [f64],
    model: Option<&'a Model>,
    between: f64,
    own: &'a [Option<OwnSources>],
    n: usize,
}

/// Builds the points of the line and fits it.
fn calibrate(
    table: &Table,
    recipe: &Recipe,
    plan: &Plan,
    ready: &Ready,
    rows: &mut [f64],
    sources: &mut Sources,
) -> Result<Fitted, Error> {
    let n = ready.n;
    let s = ready.standards;
    let vials: Vec<usize> = s.vials.iter().chain(&s.blanks).copied().collect();
    let mut points: Vec<Point> = vials
        .iter()
        .enumerate()
        .map(|(k, v)| Point {
            vial: *v,
            x: s.x.get(k).copied().unwrap_or(0.0),
            y: ready.y[*v],
            variance: weight_variance(table, ready, *v, ready.y[*v]),
            u_x: s.u_x.get(k).copied().unwrap_or(0.0),
            sources_x: s.sources.get(k).copied().unwrap_or_default(),
        })
        .collect();
    // Calibration blanks may scatter more than counting and vials explain; weights without that would hold the line
    // too firmly at zero.
    let extra = extra_scatter(&points[s.vials.len()..]);
    for p in points.iter_mut().skip(s.vials.len()) {
        p.variance += extra;
        let own = ready.own[p.vial].expect("a calibration blank has its own sources");
        let j = p.vial * n + own.replicates;
        let old = rows[j] * rows[j];
        if extra > 0.0 {
            let parts = [(old, sources.dof[own.replicates]), (extra, s.blanks.len() as f64 - 1.0)];
            sources.dof[own.replicates] = effective_dof(&parts).expect("the scatter is more than nothing");
            rows[j] = (old + extra).sqrt();
        }
    }
    let variance = |p: &Point, y: f64| {
        let more = if p.x == 0.0 && s.blanks.contains(&p.vial) { extra } else { 0.0 };
        weight_variance(table, ready, p.vial, y) + more
    };
    let mut own = vec![false; n];
    for o in vials.iter().filter_map(|v| ready.own[*v]) {
        own[o.replicates] = true;
        own[o.between] = true;
    }
    line::fit(
        points,
        recipe.intercept,
        &variance,
        &|v| (table.vials[v].position, table.vials[v].name.clone()),
        &|v| rows[v * n..(v + 1) * n].to_vec(),
        &own,
        &plan.analyte,
    )
}

/// Variance of a response for its weight where the line stands at y: what the run's replicates show over counting,
/// plus the spread between vials. Counted at the line, not at what the vial happened to count: a point that came out low
/// would else weigh more than one that came out high, and pull the line down.
fn weight_variance(table: &Table, ready: &Ready, v: usize, y: f64) -> f64 {
    let r = ready.responses[v].expect("a standard was read");
    let g = drift_at(table, ready.model, v);
    let expected = y * g;
    let counting = r.counting_at(expected);
    let noise = r.noise.variance(counting, expected, r.replicates) / (g * g);
    // Keeps the weight finite where all replicates agree and counting is not known.
    let least = (1e-6 * y).powi(2).max(1e-12);
    noise.max(least) + (ready.between * y).powi(2)
}

/// What the calibration blanks scatter beyond the u of each.
fn extra_scatter(blanks: &[Point]) -> f64 {
    let responses: Vec<f64> = blanks.iter().map(|p| p.y).collect();
    let Some(s2) = Moments::of(&responses).and_then(|m| m.variance()) else {
        return 0.0;
    };
    let own = blanks.iter().map(|p| p.variance).sum::<f64>() / blanks.len() as f64;
    (s2 - own).max(0.0)
}
