//! Reduction of a run: counts on the detector to concentrations in the bottle, each with its
//! uncertainty, its detection state and the way back to the counts.
//!
//! In: a [`RunInput`] (vials in time order, readings in counts/s) and a [`Recipe`]. Out: a
//! [`ReducedRun`] in the recipe's unit (ng/L unless it says otherwise).
//! The chain: dead time → gas background → overlaps → internal standard → drift → weighted line →
//! dilution → one nested blank → recovery where the recipe says so. Linear propagation with
//! correlations (JCGM 100) through independent sources that results share; effective degrees of
//! freedom by Welch–Satterthwaite; detection by Currie 1968, IUPAC 1995, ISO 11843-1.
//! The order of rows in the input changes nothing. A fault that leaves a number is a finding; a
//! run that cannot be reduced is an [`Error`].
//! It does not attribute contamination, and it never removes a reading by itself.
//! Checked in `tests/run_*.rs`: a run worked by hand, coverage by simulation, invariances.

mod analyte_reduction;
mod blank_choice;
mod bottle;
mod bottles;
mod calc;
mod chosen;
mod decision;
mod drift;
mod drift_open;
mod earlier;
mod error;
mod graph;
mod input;
mod line;
mod net;
mod plan;
mod quality;
mod recipe;
mod recorded;
mod reference;
mod result;
mod scatter;
mod signal;
mod sources;
mod spike;
mod table;

pub use crate::detector::DeadTimeModel;
pub use bottles::Combined;
pub use chosen::{Constant, constants};
pub use error::Error;
pub use input::{
    Assigned, AssignedSide, BlankChoice, EarlierBlanks, Factor, Isotope, Mode, Reading, Role, RunInput, Summary, Vial,
};
pub use quality::FEWEST_BLANKS;
pub use recipe::{
    BlankCentre, BlankRule, BlankScale, ByMass, DarkRate, DeadTime, Drift, FactorSource, GivenRecovery, Intercept,
    Interference, InternalStandards, LeadRatio, LeadReference, NamedInternalStandard, Quantification, Recipe, Recovery,
    Sum,
};
pub use result::{
    Analyte, AnalyteSummary, Bears, BlankTaken, ByRecipe, CalibrationLine, DuplicatePair, FewOf, KnownWorst, Limits,
    LinePoint, ReferenceCheck, RunFinding, RunResult, SpikeRecovery, State, VialScatter,
};

use analyte_reduction::AnalyteReduction;
use net::{Blanks, Critical, Net};
use quantity::{Derivation, Measured};
use signal::Levels;
use sources::Tally;
use table::Table;

/// A reduced run.
#[derive(Debug, Clone)]
pub struct ReducedRun {
    /// Name of the run.
    pub name: String,
    /// The recipe it was reduced by.
    pub recipe: Recipe,
    /// Results, analyte by analyte in order of element, mass, resolution; within one by position.
    pub results: Vec<RunResult>,
    /// What holds for all results of an analyte.
    pub analytes: Vec<AnalyteSummary>,
    /// Recoveries of spikes.
    pub spikes: Vec<SpikeRecovery>,
    /// Reference materials and drift checks against their assigned values.
    pub references: Vec<ReferenceCheck>,
    /// Duplicates.
    pub duplicates: Vec<DuplicatePair>,
    /// Findings of the run, of analytes, of single results.
    pub findings: Vec<RunFinding>,
    table: Table,
    reductions: Vec<AnalyteReduction>,
    blanks: Vec<Vec<Blanks>>,
    /// For each result its reduction and net value.
    nets: Vec<(usize, Net)>,
}

impl ReducedRun {
    /// The derivation of one result, with its budget: every step from the net value down to the
    /// replicates on the detector.
    ///
    /// # Panics
    /// When there is no such result.
    pub fn derivation(&self, result: usize) -> Derivation {
        let reduction = self.nets[result].0;
        let graph = graph::of_reduction(self, reduction);
        self.cut(&graph, result)
    }

    /// The derivations of all results, in their order; shared steps are worked out once for each
    /// analyte.
    pub fn derivations(&self) -> Vec<Derivation> {
        let mut graph = None;
        (0..self.results.len())
            .map(|i| {
                let reduction = self.nets[i].0;
                if graph.as_ref().is_none_or(|(c, _)| *c != reduction) {
                    graph = Some((reduction, graph::of_reduction(self, reduction)));
                }
                let (_, g) = graph.as_ref().expect("just made");
                self.cut(g, i)
            })
            .collect()
    }

    fn cut(&self, graph: &graph::Graph, result: usize) -> Derivation {
        let mut cut = graph.derivation.of(graph.result_node[&self.nets[result].1.vial]);
        cut.budget.clone_from(&self.results[result].budget);
        cut.unseen = quality::unseen::assumptions(self, self.nets[result].0, &self.nets[result].1);
        cut
    }

    /// Index of the result of a vial and analyte.
    pub fn find(&self, position: u32, analyte: &Analyte) -> Option<usize> {
        self.results.iter().position(|r| r.position == position && r.analyte == *analyte)
    }

    /// Covariance of two net values, in the square of the unit. Results of one analyte share the
    /// line, the drift checks, the blank's mean, the dead time. Results of different analytes share
    /// dead time, cross factor and the dilutions of the standards; of one bottle also its volume and
    /// acid, of one vial also its dilution and the counts of the internal standard. What a bottle
    /// caught of both metals, and the reproducibility between vials, are taken as independent: how
    /// much of them two metals share is not known.
    ///
    /// # Panics
    /// When there is no such result.
    pub fn covariance(&self, a: usize, b: usize) -> f64 {
        let ((ca, na), (cb, nb)) = (&self.nets[a], &self.nets[b]);
        if ca != cb {
            let most = self.results[a].net.u * self.results[b].net.u;
            return self.between_analytes((*ca, na), (*cb, nb)).clamp(-most, most);
        }
        if a == b {
            return self.results[a].net.u.powi(2);
        }
        let shared: f64 = na.row.iter().zip(&nb.row).map(|(x, y)| x * y).sum();
        let blank = blank_choice::shared(&self.blanks[*ca], na, nb);
        shared + blank
    }

    /// Covariance of two gross values of one analyte, in the square of the unit: the line, the drift checks, the dead
    /// time that they share; no blank is in it. Of one value with itself: its variance. 0 between analytes.
    ///
    /// # Panics
    /// When there is no such result.
    pub fn gross_covariance(&self, a: usize, b: usize) -> f64 {
        let ((ca, na), (cb, nb)) = (&self.nets[a], &self.nets[b]);
        if ca != cb {
            return 0.0;
        }
        if a == b {
            return self.results[a].gross.u.powi(2);
        }
        let reduction = &self.reductions[*ca];
        reduction.row(na.vial).iter().zip(reduction.row(nb.vial)).map(|(x, y)| x * y).sum()
    }

    /// What net values of two analytes share: sources that are the same error for both, and within one vial its
    /// dilution and the internal standard's counts.
    fn between_analytes(&self, (ca, na): (usize, &Net), (cb, nb): (usize, &Net)) -> f64 {
        let (a, b) = (&self.reductions[ca], &self.reductions[cb]);
        let mut shared = a.sources.covariance(&na.row, &b.sources, &nb.row);
        if na.vial != nb.vial {
            return shared;
        }
        shared += na.own.dilution * nb.own.dilution;
        if let (Some(p), Some(q)) = (a.points[na.vial], b.points[nb.vial]) {
            // R = N/I: a share of I too much is a share of R too little, in both alike.
            let [x, y] = [(p, na.divided_by), (q, nb.divided_by)]
                .map(|(p, recovery)| p.response.value * p.per_response / (p.response.standard * recovery));
            shared += x * y * a.signal.standards_in_common(&b.signal, &self.table, na.vial);
        }
        shared
    }

    /// Findings that speak of one result: of the run, of its analyte, of its vial, of itself.
    pub fn findings_of(&self, result: usize) -> impl Iterator<Item = &RunFinding> {
        let r = &self.results[result];
        self.findings.iter().filter(move |f| {
            f.analyte.as_ref().is_none_or(|a| *a == r.analyte) && f.position.is_none_or(|p| p == r.position)
        })
    }
}

/// Reduces a run.
///
/// # Errors
/// [`Error`] where the run or the recipe cannot be worked with: a standard without value, fewer
/// than two standards or blanks, a dilution that is not above zero, counts beyond the dead-time
/// model, a doubled vial position, a reading without vial, a missing internal standard, a line
/// without slope. Nothing is computed in that case.
pub fn reduce(input: &RunInput, recipe: &Recipe) -> Result<ReducedRun, Error> {
    recipe.check()?;
    let table = Table::new(input, recipe)?;
    let levels = Levels::new(&table, recipe);
    let critical = Critical::new(recipe);
    let mut run = ReducedRun {
        name: input.name.clone(),
        recipe: recipe.clone(),
        results: vec![],
        analytes: vec![],
        spikes: vec![],
        references: vec![],
        duplicates: vec![],
        findings: vec![],
        reductions: vec![],
        blanks: vec![],
        nets: vec![],
        table,
    };
    let plans = plan::plans(&run.table, recipe)?;
    if plans.is_empty() {
        return Err(Error::NoReadings);
    }
    for plan in plans {
        let reduction = analyte_reduction::reduce(&run.table, &levels, recipe, plan)?;
        add_reduction(&mut run, reduction, &critical, &input.earlier_blanks)?;
    }
    quality::findings(&mut run);
    let recorded = recorded::findings(&run);
    run.findings.extend(recorded);
    blank_choice::findings(&mut run);
    Ok(run)
}

/// What the blanks of a run scatter, analyte by analyte and role by role, for the runs that come after it: of this run
/// alone, whatever earlier ones say.
///
/// # Errors
/// As [`reduce`].
pub fn blank_spreads(input: &RunInput, recipe: &Recipe) -> Result<Vec<EarlierBlanks>, Error> {
    recipe.check()?;
    let table = Table::new(input, recipe)?;
    let levels = Levels::new(&table, recipe);
    let mut out = Vec::new();
    for plan in plan::plans(&table, recipe)? {
        let reduction = analyte_reduction::reduce(&table, &levels, recipe, plan)?;
        for role in Role::NESTED_BLANKS {
            let Some(b) = net::blanks(&table, recipe, &reduction, (role, None), &[])? else { continue };
            out.push(EarlierBlanks {
                run: input.name.clone(),
                analyte: reduction.plan.analyte.clone(),
                role,
                sd: b.own_sd,
                n: b.n,
            });
        }
    }
    Ok(out)
}

/// The blank that a role has subtracted.
fn blank_role(recipe: &Recipe, role: Role) -> Option<Role> {
    match role {
        Role::Sample | Role::Duplicate | Role::FieldSpike | Role::LabSpike => Some(recipe.blank.samples),
        Role::ReferenceMaterial => Some(recipe.blank.reference),
        _ => None,
    }
}

/// Whether a role gives results.
fn has_result(role: Role) -> bool {
    !matches!(role, Role::GasBackground | Role::CalibrationBlank | Role::Standard | Role::InterferenceCheck)
}

fn add_reduction(
    run: &mut ReducedRun,
    reduction: AnalyteReduction,
    critical: &Critical,
    earlier: &[EarlierBlanks],
) -> Result<(), Error> {
    let index = run.reductions.len();
    let recipe = run.recipe.clone();
    let mut sets: Vec<Blanks> = Vec::new();
    for role in Role::NESTED_BLANKS {
        sets.extend(net::blanks(&run.table, &recipe, &reduction, (role, None), earlier)?);
    }
    let whole = sets.len();
    let set_of = |sets: &[Blanks], role: Role| sets[..whole].iter().position(|b| b.role == role);
    let zero = set_of(&sets, Role::CalibrationBlank);
    let mut nets: Vec<Net> = Vec::new();
    let mut by_recipe: Vec<Option<Net>> = Vec::new();
    for v in 0..run.table.vials.len() {
        let role = run.table.vials[v].role;
        if reduction.points[v].is_none() || !has_result(role) {
            continue;
        }
        let wanted = blank_role(&recipe, role);
        let set = wanted.and_then(|w| set_of(&sets, w));
        // A sample without its blank is refused; a reference material without stays gross, and a finding says so.
        if let (Some(blank), None) = (wanted, set)
            && role != Role::ReferenceMaterial
        {
            return Err(Error::TooFewBlanks {
                analyte: reduction.plan.analyte.to_string(),
                role: blank.word().into(),
                found: run
                    .table
                    .vials
                    .iter()
                    .enumerate()
                    .filter(|(v, x)| x.role == blank && reduction.points[*v].is_some())
                    .count(),
            });
        }
        let taken = blank_choice::of_vial(&run.table, &recipe, &reduction, v, (wanted, set), (earlier, &mut sets))?;
        let blanks = taken.set.map(|s| (s, &sets[s]));
        let mut net = net::net(&run.table, &recipe, &reduction, v, blanks)?;
        net.bears = taken.bears;
        by_recipe.push(match set.filter(|_| taken.set != set) {
            Some(s) => Some(net::net(&run.table, &recipe, &reduction, v, Some((s, &sets[s])))?),
            None => None,
        });
        nets.push(net);
    }
    spike::spikes(run, &reduction, &nets);
    let recovery = spike::recovery(run, &reduction, &nets);
    let mut summary_limits = None;
    if let Some(s) = set_of(&sets, recipe.blank.samples).or(zero) {
        summary_limits = Some(net::limits(&run.table, &recipe, &reduction, critical, &sets[s], None));
    }
    for (mut net, mut other) in nets.into_iter().zip(by_recipe) {
        let role = run.table.vials[net.vial].role;
        let set = sets.get(net.blank_set);
        let blank = set.map(|b| net::taken(b, &net, &recipe));
        // A reference material is held against its value as it was found, whichever blank it shares with samples.
        let is_water = role != Role::ReferenceMaterial && blank_role(&recipe, role) == Some(recipe.blank.samples);
        let divided = recovery.as_ref().filter(|_| is_water);
        let before = divided.map(|_| {
            let t = net.tally(&reduction);
            Measured::with_dof(net.value, t.u(), t.dof(), recipe.unit.clone())
        });
        if let Some(r) = divided {
            for net in std::iter::once(&mut net).chain(&mut other) {
                r.apply(net);
            }
        }
        let factor = divided.map_or(1.0, |r| r.value);
        let limits = set
            .or(zero.map(|z| &sets[z]))
            .map(|b| net::limits(&run.table, &recipe, &reduction, critical, b, Some((&net, factor))));
        let mut result = result_of(run, &reduction, &net, (set, blank), limits, divided);
        result.net_before_recovery = before;
        result.by_recipe = other.map(|o| blank_choice::by_recipe(&recipe, &reduction, &o, &sets));
        run.results.push(result);
        run.nets.push((index, net));
    }
    run.analytes.push(summary(run, &reduction, &sets, summary_limits));
    run.blanks.push(sets);
    run.reductions.push(reduction);
    Ok(())
}

fn result_of(
    run: &ReducedRun,
    reduction: &AnalyteReduction,
    net: &Net,
    (blanks, blank): (Option<&Blanks>, Option<BlankTaken>),
    limits: Option<Limits>,
    recovery: Option<&spike::MeanRecovery>,
) -> RunResult {
    let recipe = &run.recipe;
    let vial = &run.table.vials[net.vial];
    let point = reduction.points[net.vial].expect("a net value has its gross value");
    let tally = net.tally(reduction);
    let (u, dof) = (tally.u(), tally.dof());
    let k = statistics::t::upper_quantile((1.0 - recipe.coverage) / 2.0, dof);
    let gross = gross_tally(reduction, net.vial);
    let shown = Measured::with_dof(net.value, u, dof, recipe.unit.clone());
    let (state, vial_scatter) = decision::decide(recipe, net, &shown, k, limits.as_ref(), blanks);
    let whole = point.response.whole;
    RunResult {
        position: vial.position,
        vial: vial.name.clone(),
        role: vial.role,
        bottle: vial.bottle.clone(),
        analyte: reduction.plan.analyte.clone(),
        gross: Measured::with_dof(point.gross, gross.u(), gross.dof(), recipe.unit.clone()),
        blank,
        recovery: recovery.map(spike::MeanRecovery::measured),
        net_before_recovery: None,
        net: shown,
        interval: [net.value - k * u, net.value + k * u],
        coverage_k: k,
        upper_bound: statistics::bound::upper_bound(net.value, u, dof, limits.map(|l| l.critical_value)),
        state,
        bears: net.bears,
        by_recipe: None,
        vial_scatter,
        known_worst: tally.known_worst(recipe.coverage),
        limits,
        interference_share: if whole > 0.0 { 1.0 - point.response.value / whole } else { 0.0 },
        budget: tally.budget(),
    }
}

fn gross_tally(reduction: &AnalyteReduction, v: usize) -> Tally {
    let mut t = Tally::new();
    t.add_row(&reduction.sources, reduction.row(v));
    let o = reduction.points[v].expect("the caller has a gross value").own;
    t.add(sources::Group::Dilution, sources::Pool::None, f64::INFINITY, o.dilution.powi(2));
    if !reduction.own_in_row[v] {
        t.add(sources::Group::Replicates, sources::Pool::None, o.replicates_dof, o.replicates.powi(2));
        t.add(sources::Group::BetweenVials, sources::Pool::Vials, reduction.vials_dof(), o.between_vials.powi(2));
    }
    t
}

fn summary(run: &ReducedRun, reduction: &AnalyteReduction, sets: &[Blanks], limits: Option<Limits>) -> AnalyteSummary {
    let recipe = &run.recipe;
    // Within each session, from its first to its last vial; the largest change is told.
    let change = |model: &drift::Model| {
        let vials = &run.table.vials;
        let of = |session: u32| {
            let times = vials.iter().filter(|v| v.session == session).map(|v| v.minutes);
            let first = times.clone().fold(f64::INFINITY, f64::min);
            let last = times.fold(f64::NEG_INFINITY, f64::max);
            let g = |minutes: f64| model.at(table::When { session, minutes });
            g(last) / g(first) - 1.0
        };
        analyte_reduction::sessions(&run.table)
            .into_iter()
            .map(of)
            .fold(0.0, |m: f64, x| if x.abs() > m.abs() { x } else { m })
    };
    AnalyteSummary {
        analyte: reduction.plan.analyte.clone(),
        internal_standards: reduction.plan.standards.iter().map(|(i, _)| run.table.isotopes[*i].to_string()).collect(),
        line: reduction.fitted.line.clone(),
        drift: reduction.drift.as_ref().map_or(0.0, change),
        between_vials: reduction.between_vials.map_or(0.0, |b| b.relative),
        between_vials_dof: reduction.between_vials.map_or(0.0, |b| b.dof),
        limits,
        blank: sets.iter().find(|b| b.role == recipe.blank.samples).map(|b| BlankTaken {
            role: b.role,
            mean: Measured::with_dof(
                b.mean * b.as_concentration,
                b.u_mean * b.as_concentration,
                b.dof(),
                recipe.unit.clone(),
            ),
            sd: b.sd * b.as_concentration,
            n: b.n,
            earlier: b.earlier.clone(),
        }),
    }
}
