//! Gross to net: the one blank that is subtracted, the limits it sets, recovery, and the budget.
//!
//! n blanks, mean b, standard deviation s, ν = n − 1, on the scale of the net result (Currie 1968;
//! IUPAC 1995; ISO 11843-1):
//!
//! ```text
//! L_C = t(1−α, ν)·s₀      L_D = δ(α, β, ν)·s₀      s₀ = s·√(1 + 1/n)
//! ```
//!
//! s₀ grows where a sample was diluted more than the blanks, and by the counts of an overlap
//! that the sample has and the blanks have not. u of the net value holds s² (this bottle's own
//! contamination) and s²/n (the mean); what s² holds of the blanks' measurement noise is
//! replaced by the sample's own.

use super::analyte_reduction::{AnalyteReduction, Own, VialPoint};
use super::decision;
use super::earlier::{self, Pooled};
use super::error::Error;
use super::input::{EarlierBlanks, Role, Vial};
use super::recipe::{BlankCentre, BlankScale, Quantification, Recipe, Recovery};
use super::result::{Bears, BlankTaken, Limits};
use super::sources::{Group, Pool, Tally, add_scaled};
use super::table::Table;
use crate::blank;
use quantity::Measured;
use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

/// Critical factors by degrees of freedom.
#[derive(Debug)]
pub(super) struct Critical {
    alpha: f64,
    beta: f64,
}

/// α, β (as bits) and whole degrees of freedom.
type Key = (u64, u64, u64);

/// Factors already worked out: δ takes a root of an integral, and runs ask for the same few
/// degrees of freedom again and again. The values do not depend on who asked first.
static KNOWN: Mutex<BTreeMap<Key, (f64, f64)>> = Mutex::new(BTreeMap::new());

impl Critical {
    pub fn new(recipe: &Recipe) -> Self {
        Self { alpha: recipe.alpha, beta: recipe.beta }
    }

    /// t(1 − α, ν) and δ(α, β, ν), ν rounded down (JCGM 100, G.4.1, note 2).
    pub fn at(&self, dof: f64) -> (f64, f64) {
        // Over 10 000 degrees of freedom the factors are those of the normal distribution to
        // four digits.
        let nu = if dof < 1e4 { dof.floor().max(1.0) } else { f64::INFINITY };
        let whole = if nu.is_finite() { nu as u64 } else { u64::MAX };
        let key = (self.alpha.to_bits(), self.beta.to_bits(), whole);
        let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
        *known.entry(key).or_insert_with(|| {
            (
                statistics::t::upper_quantile(self.alpha, nu),
                statistics::noncentral::detection_delta(self.alpha, self.beta, nu),
            )
        })
    }
}

/// A set of blanks of one role on the scale they are subtracted on.
#[derive(Debug, Clone)]
pub(super) struct Blanks {
    pub role: Role,
    pub n: usize,
    pub mean: f64,
    /// Spread between single blanks.
    pub sd: f64,
    /// Standard uncertainty of the mean from that spread.
    pub u_mean: f64,
    /// Degrees of freedom of `sd`: with those of earlier runs where their spreads agree.
    pub sd_dof: f64,
    /// Spread between the blanks of this run alone.
    pub own_sd: f64,
    /// Earlier runs whose blanks `sd` was learnt from too.
    pub earlier: Vec<String>,
    /// Mean variance of the blanks' own measurement.
    pub measurement: f64,
    /// Its degrees of freedom.
    pub measurement_dof: f64,
    /// Mean dilution of the blanks.
    pub dilution: f64,
    /// Factor from the blank's scale to a concentration: 1, or one over the mean volume of the
    /// blanks' bottles where they count as mass per bottle.
    pub as_concentration: f64,
    /// Whether all blanks came out equal, so that the spread is that of their counting.
    pub all_equal: bool,
    /// Whether the middle is Huber's; else the mean, which stands in where Huber's cannot be told.
    pub robust: bool,
    /// What each blank weighs in the middle.
    pub weights: Vec<f64>,
    /// Sensitivities of the mean to shared sources.
    pub row: Vec<f64>,
    /// Positions in the table.
    pub vials: Vec<usize>,
    /// Whether others of the kind stand in the run that are not in it.
    pub part: bool,
}

impl Blanks {
    pub fn dof(&self) -> f64 {
        self.sd_dof
    }

    /// Variance of a single blank for the decision at zero, and its degrees of freedom: blanks cannot scatter less than
    /// their measurement does, and where few of them came out close together by chance that is what L_C stands on.
    fn at_zero(&self, critical: &Critical) -> (f64, f64) {
        let seen = (self.sd * self.sd, self.dof());
        let least = (self.measurement, self.measurement_dof);
        let limit = |(variance, dof): (f64, f64)| critical.at(dof).0 * variance.sqrt();
        if limit(least) > limit(seen) { least } else { seen }
    }

    /// Part of s² that is contamination, not measurement.
    pub fn contamination(&self) -> f64 {
        (self.sd * self.sd - self.measurement).max(0.0)
    }
}

/// Factor from concentration to the scale of the blank, for a vial.
fn scale_of(table: &Table, recipe: &Recipe, v: usize) -> Result<f64, Error> {
    match recipe.blank.scale {
        BlankScale::Concentration => Ok(1.0),
        BlankScale::MassPerBottle => {
            let vial = &table.vials[v];
            vial.bottle_volume_ml
                .filter(|x| *x > 0.0)
                .map(|ml| ml / 1000.0)
                .ok_or_else(|| Error::NoBottleVolume { position: vial.position, vial: vial.name.clone() })
        }
    }
}

/// u of the volume over the volume of a vial's bottle; one error for all that the volume enters.
pub(super) fn relative_u_volume(vial: &Vial) -> f64 {
    vial.bottle_volume_ml.filter(|ml| *ml > 0.0).map_or(0.0, |ml| vial.u_bottle_volume_ml / ml)
}

/// What the u of a blank's own volumes puts into it, on the scale of the blank: variance. It differs from blank to
/// blank, so their scatter holds it already, as it holds their counting.
fn of_volumes(table: &Table, reduction: &AnalyteReduction, v: usize, scale: f64, per_bottle: bool) -> f64 {
    let (sources, row) = (reduction.bottles[v], reduction.row(v));
    let gross = reduction.points[v].map_or(0.0, |p| p.gross);
    let mass = if per_bottle { gross * relative_u_volume(&table.vials[v]) } else { 0.0 };
    let volume = sources.volume.map_or(0.0, |s| (row[s] + mass) * scale);
    let acid = sources.acid.map_or(0.0, |s| row[s] * scale);
    volume * volume + acid * acid
}

/// Whether the blank of a role is taken as mass per bottle (laboratory blanks are not).
pub(super) fn per_bottle(role: Role, recipe: &Recipe) -> bool {
    recipe.blank.scale == BlankScale::MassPerBottle && !matches!(role, Role::CalibrationBlank | Role::ProceduralBlank)
}

/// Collects the usable blanks of a role (`only`: those at these positions of the run); their spread is that of the
/// earlier runs too, where these agree.
pub(super) fn blanks(
    table: &Table,
    recipe: &Recipe,
    reduction: &AnalyteReduction,
    (role, only): (Role, Option<&[u32]>),
    earlier: &[EarlierBlanks],
) -> Result<Option<Blanks>, Error> {
    let mut part = false;
    let mut vials = Vec::new();
    let mut values = Vec::new();
    let (mut measurement, mut dilution) = (Tally::new(), 0.0);
    let mut scales = Vec::new();
    for (v, vial) in table.vials.iter().enumerate() {
        let Some(p) = reduction.points[v].filter(|_| vial.role == role) else {
            continue;
        };
        if only.is_some_and(|only| !only.contains(&vial.position)) {
            part = true;
            continue;
        }
        let scale = if per_bottle(role, recipe) { scale_of(table, recipe, v)? } else { 1.0 };
        vials.push(v);
        scales.push(scale);
        values.push(p.gross * scale);
        // The replicates of a run are pooled and those of its vials too: each is one variance, known once.
        let (o, k) = (p.own, scale * scale);
        let pool = if o.pooled { Pool::Blanks } else { Pool::None };
        measurement.add(Group::Replicates, pool, o.replicates_dof, o.replicates.powi(2) * k);
        measurement.add(Group::BetweenVials, Pool::Vials, reduction.vials_dof(), o.between_vials.powi(2) * k);
        let volumes = of_volumes(table, reduction, v, scale, per_bottle(role, recipe));
        measurement.add(Group::Volume, Pool::None, f64::INFINITY, volumes);
        dilution += vial.dilution.value;
    }
    let n = vials.len();
    if n < 2 {
        return Ok(None);
    }
    let (measurement, measurement_dof) = (measurement.variance / n as f64, measurement.dof());
    let centre = match recipe.blank.centre {
        BlankCentre::Mean => blank::centre(&values),
        BlankCentre::Robust => blank::robust_centre(&values),
    };
    // Equal blanks leave the spread unknown, not zero: with s = 0 any count at all would be a detection.
    let all_equal = centre.sd == 0.0;
    let own_sd = if all_equal { measurement.sqrt() } else { centre.sd };
    let mut spread = Pooled { sd: own_sd, dof: n as f64 - 1.0, runs: vec![] };
    // The spread of a robust centre is no variance that a test compares.
    if recipe.blank.centre == BlankCentre::Mean && !all_equal {
        spread = earlier::pooled(own_sd, n, &reduction.plan.analyte, role, earlier).unwrap_or(spread);
    }
    let sd = spread.sd;
    let alone = !all_equal && spread.runs.is_empty();
    let u_mean = if alone { centre.u } else { sd / (n as f64).sqrt() };
    // Blanks that came out closer together than they were measured do so by chance.
    let u_mean = u_mean.max((measurement / n as f64).sqrt());
    let mut row = vec![0.0; reduction.sources.len()];
    for ((v, scale), w) in vials.iter().zip(&scales).zip(&centre.weights) {
        add_scaled(&mut row, w * scale, reduction.row(*v));
    }
    for sources in vials.iter().map(|v| reduction.bottles[*v]) {
        for s in [sources.volume, sources.acid].into_iter().flatten() {
            row[s] = 0.0;
        }
    }
    Ok(Some(Blanks {
        role,
        n,
        mean: centre.value,
        sd,
        sd_dof: spread.dof,
        own_sd,
        earlier: spread.runs,
        u_mean,
        measurement,
        measurement_dof,
        dilution: dilution / n as f64,
        as_concentration: n as f64 / scales.iter().sum::<f64>(),
        all_equal,
        robust: centre.robust,
        weights: centre.weights,
        row,
        vials,
        part,
    }))
}

/// A net value with what it owes to each source.
#[derive(Debug, Clone)]
pub(super) struct Net {
    pub vial: usize,
    pub value: f64,
    /// Shared sensitivities.
    pub row: Vec<f64>,
    pub own: Own,
    /// Sensitivity to the blank's mean, times its u.
    pub blank_mean: f64,
    /// This bottle's own contamination, as standard uncertainty.
    pub bottle: f64,
    /// s² of the blanks with which both were scaled, for the doubt about them.
    pub blank_variance: f64,
    pub blank_dof: f64,
    /// Index of the set of blanks it stands on, to know what two results share.
    pub blank_set: usize,
    /// u from a recovery, beyond what the row holds.
    pub recovery: f64,
    pub recovery_dof: f64,
    /// What the blank took off.
    pub subtracted: f64,
    /// Factor from the blank's scale to this vial's concentration.
    pub blank_scale: f64,
    /// The recovery it was divided by; 1 where none was.
    pub divided_by: f64,
    /// Value or upper bound.
    pub bears: Bears,
}

/// gross − blank.
pub(super) fn net(
    table: &Table,
    recipe: &Recipe,
    reduction: &AnalyteReduction,
    v: usize,
    blanks: Option<(usize, &Blanks)>,
) -> Result<Net, Error> {
    let p: VialPoint = reduction.points[v].expect("the caller has a gross value");
    let mut net = Net {
        vial: v,
        value: p.gross,
        row: reduction.row(v).to_vec(),
        own: p.own,
        blank_mean: 0.0,
        bottle: 0.0,
        blank_variance: 0.0,
        blank_dof: f64::INFINITY,
        blank_set: usize::MAX,
        recovery: 0.0,
        recovery_dof: f64::INFINITY,
        subtracted: 0.0,
        blank_scale: 1.0,
        divided_by: 1.0,
        bears: Bears::Value,
    };
    // The row of a standard or drift check holds its own noise already, since line and drift stand on it.
    if reduction.own_in_row[v] {
        net.own.replicates = 0.0;
        net.own.between_vials = 0.0;
    }
    let Some((set, b)) = blanks else {
        return Ok(net);
    };
    let k = if per_bottle(b.role, recipe) { 1.0 / scale_of(table, recipe, v)? } else { 1.0 };
    net.blank_scale = k;
    net.subtracted = k * b.mean;
    net.value -= net.subtracted;
    add_scaled(&mut net.row, -k, &b.row);
    if let Some(s) = reduction.bottles[v].volume.filter(|_| per_bottle(b.role, recipe)) {
        net.row[s] += net.subtracted * relative_u_volume(&table.vials[v]);
    }
    net.blank_mean = k * b.u_mean;
    net.bottle = k * b.contamination().sqrt();
    // Blanks that scatter no more than their measurement add no s² to u, so its doubt stays out too.
    let estimated = if net.bottle > 0.0 { (b.sd * k).powi(2) } else { 0.0 };
    net.blank_variance = estimated + net.blank_mean.powi(2);
    // Nothing but measurement in them: it is known as the run's replicates are.
    let measured = net.bottle == 0.0 && b.measurement >= b.sd * b.sd;
    net.blank_dof = if measured { b.measurement_dof } else { b.dof() };
    net.blank_set = set;
    Ok(net)
}

impl Net {
    /// Divides by a recovery R: `(R, its row, its remaining u, dof)`.
    pub fn divide(&mut self, r: f64, row: &[f64], u: f64, dof: f64) {
        let net = self.value / r;
        self.value = net;
        self.divided_by *= r;
        for (own, shared) in self.row.iter_mut().zip(row) {
            *own = (*own - net * shared) / r;
        }
        for x in [
            &mut self.own.replicates,
            &mut self.own.excess,
            &mut self.own.between_vials,
            &mut self.own.dilution,
            &mut self.blank_mean,
            &mut self.bottle,
            &mut self.subtracted,
        ] {
            *x /= r;
        }
        self.blank_variance /= r * r;
        self.recovery = net.abs() * u / r;
        self.recovery_dof = dof;
    }

    /// The whole variance by source.
    pub fn tally(&self, reduction: &AnalyteReduction) -> Tally {
        let mut t = Tally::new();
        t.add_row(&reduction.sources, &self.row);
        self.own_into(&mut t, reduction);
        t.add(Group::BlankMean, Pool::None, f64::INFINITY, self.blank_mean.powi(2));
        t.add_welch_term(Pool::Blanks, self.blank_dof, self.blank_variance);
        t
    }

    /// What belongs to this vial alone.
    pub fn own_into(&self, t: &mut Tally, reduction: &AnalyteReduction) {
        let o = self.own;
        t.add(Group::Replicates, Pool::None, o.replicates_dof, o.replicates.powi(2));
        t.add(Group::BetweenVials, Pool::Vials, reduction.vials_dof(), o.between_vials.powi(2));
        t.add(Group::Dilution, Pool::None, f64::INFINITY, o.dilution.powi(2));
        t.add(Group::Bottle, Pool::None, f64::INFINITY, self.bottle.powi(2));
        t.add(Group::Recovery, Pool::None, self.recovery_dof, self.recovery.powi(2));
    }
}

/// Limits for a vial (or, with none, for an undiluted sample without overlaps, in a bottle as large
/// as those of the blanks).
pub(super) fn limits(
    table: &Table,
    recipe: &Recipe,
    reduction: &AnalyteReduction,
    critical: &Critical,
    b: &Blanks,
    of: Option<(&Net, f64)>,
) -> Limits {
    let mut t = Tally::new();
    let (mut k, mut dilution) = (b.as_concentration, 1.0);
    if let Some((net, _)) = of {
        let vial = &table.vials[net.vial];
        dilution = vial.dilution.value;
        k = net.blank_scale;
    }
    let (variance, dof) = b.at_zero(critical);
    t.add(Group::BlankMean, Pool::Blanks, dof, k * k * (variance + b.u_mean * b.u_mean));
    // Only measurement noise grows with dilution, and it is at most s²; what fell into the bottle is not multiplied.
    let more = (dilution / b.dilution).powi(2) - 1.0;
    if more > 0.0 {
        t.add(Group::Replicates, Pool::None, dof, b.measurement.min(variance) * k * k * more);
    }
    let mut recovered = 1.0;
    if let Some((net, recovery)) = of {
        recovered = recovery;
        overlap_at_zero(reduction, net, recovery, dilution, &mut t);
    }
    let s0 = t.u() / recovered;
    let dof = t.dof();
    let (t_c, delta) = critical.at(dof);
    let mut limits = Limits {
        critical_value: t_c * s0,
        detection_limit: delta * s0,
        quantification_limit: quantification(recipe, reduction, s0),
        sd_at_zero: s0,
        dof,
    };
    decision::few_counts(&mut limits, recipe, reduction, b, of.map(|(net, _)| net.vial), recovered);
    limits
}

/// What an overlap adds to the spread at zero: its factor, and its counts.
fn overlap_at_zero(reduction: &AnalyteReduction, net: &Net, recovery: f64, dilution: f64, t: &mut Tally) {
    if reduction.signal.tracks.is_empty() {
        return;
    }
    for p in reduction.signal.tracks.iter().flat_map(|t| &t.points) {
        let c = net.row[p.source] * recovery;
        t.add(Group::Interference, Pool::None, reduction.sources.dof[p.source], c * c);
    }
    let point = reduction.points[net.vial].expect("a net value has its point");
    let g = if point.y == 0.0 { 1.0 } else { point.response.value / point.y };
    let to_bottle = dilution / (reduction.fitted.line.slope * g);
    let counted = point.response.overlap_counting * to_bottle * to_bottle;
    if counted.is_finite() {
        t.add(Group::Replicates, Pool::None, f64::INFINITY, counted);
    } else {
        t.add(Group::Replicates, Pool::None, net.own.replicates_dof, net.own.replicates.powi(2) * recovery * recovery);
    }
}

/// L_Q by the recipe's rule; none where the relative parts of u alone exceed what is wanted.
fn quantification(recipe: &Recipe, reduction: &AnalyteReduction, s0: f64) -> Option<f64> {
    match recipe.quantification {
        // IUPAC 1995: ten standard deviations.
        Quantification::TenSigma => Some(10.0 * s0),
        Quantification::RelativeExpanded { share } => {
            let line = &reduction.fitted.line;
            let between = reduction.between_vials.map_or(0.0, |b| b.relative);
            let relative = (line.u_slope / line.slope).powi(2) + between.powi(2);
            let k = statistics::normal::upper_quantile((1.0 - recipe.coverage) / 2.0);
            let left = share * share - k * k * relative;
            (left > 0.0).then(|| k * s0 / left.sqrt())
        }
    }
}

/// The blank that was subtracted, as a result shows it.
pub(super) fn taken(b: &Blanks, net: &Net, recipe: &Recipe) -> BlankTaken {
    let k = net.blank_scale;
    BlankTaken {
        role: b.role,
        mean: Measured::with_dof(b.mean * k, b.u_mean * k, b.dof(), recipe.unit.clone()),
        sd: b.sd * k,
        n: b.n,
        earlier: b.earlier.clone(),
    }
}

/// The recovery given for an element.
pub(super) fn given_recovery(recipe: &Recipe, element: &str) -> Option<(f64, f64)> {
    match &recipe.recovery {
        Recovery::Given { values } => values.iter().find(|v| v.element == element).map(|v| (v.value, v.u)),
        _ => None,
    }
}
