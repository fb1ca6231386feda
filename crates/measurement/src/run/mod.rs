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
mod drift;
mod error;
mod graph;
mod input;
mod line;
mod net;
mod plan;
mod quality;
mod recipe;
mod reference;
mod result;
mod signal;
mod sources;
mod spike;
mod table;

pub use error::Error;
pub use input::{Assigned, BlankChoice, Factor, Isotope, Mode, Reading, Role, RunInput, Summary, Vial};
pub use recipe::{
    BlankCentre, BlankRule, BlankScale, ByMass, DeadTime, Drift, FactorSource, GivenRecovery, Intercept, Interference,
    InternalStandards, LeadRatio, LeadReference, NamedInternalStandard, Quantification, Recipe, Recovery, Sum,
};
pub use result::{
    Analyte, AnalyteSummary, Bears, BlankTaken, ByRecipe, CalibrationLine, DuplicatePair, Limits, LinePoint,
    ReferenceCheck, RunFinding, RunResult, SpikeRecovery, State,
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
        cut
    }

    /// Index of the result of a vial and analyte.
    pub fn find(&self, position: u32, analyte: &Analyte) -> Option<usize> {
        self.results.iter().position(|r| r.position == position && r.analyte == *analyte)
    }

    /// Covariance of two net values, in the square of the unit. Results of one analyte share the
    /// line, the drift checks, the blank's mean, the dead time; results of different analytes are
    /// taken as independent (what they share, internal standard and dead time, is small beside
    /// the rest).
    ///
    /// # Panics
    /// When there is no such result.
    pub fn covariance(&self, a: usize, b: usize) -> f64 {
        let ((ca, na), (cb, nb)) = (&self.nets[a], &self.nets[b]);
        if ca != cb {
            return 0.0;
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
        add_reduction(&mut run, reduction, &critical)?;
    }
    quality::findings(&mut run);
    blank_choice::findings(&mut run);
    Ok(run)
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

fn add_reduction(run: &mut ReducedRun, reduction: AnalyteReduction, critical: &Critical) -> Result<(), Error> {
    let index = run.reductions.len();
    let recipe = run.recipe.clone();
    let mut sets: Vec<Blanks> = Vec::new();
    for role in Role::NESTED_BLANKS {
        sets.extend(net::blanks(&run.table, &recipe, &reduction, role, None)?);
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
        let taken = blank_choice::of_vial(&run.table, &recipe, &reduction, v, (wanted, set), &mut sets)?;
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
        let divided = recovery.as_ref().filter(|_| blank_role(&recipe, role) == Some(recipe.blank.samples));
        if let Some(r) = divided.filter(|_| role != Role::ReferenceMaterial) {
            for net in std::iter::once(&mut net).chain(&mut other) {
                r.apply(net);
            }
        }
        let factor = divided.map_or(1.0, |r| r.value);
        let limits = set
            .or(zero.map(|z| &sets[z]))
            .map(|b| net::limits(&run.table, &recipe, &reduction, critical, b, Some((&net, factor))));
        let mut result = result_of(run, &reduction, &net, blank, limits, divided);
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
    blank: Option<BlankTaken>,
    limits: Option<Limits>,
    recovery: Option<&spike::MeanRecovery>,
) -> RunResult {
    let recipe = &run.recipe;
    let vial = &run.table.vials[net.vial];
    let point = reduction.points[net.vial].expect("a net value has its gross value");
    let tally = net.tally(reduction);
    let (u, dof) = (tally.u(), tally.dof());
    let k = statistics::t::upper_quantile((1.0 - recipe.coverage) / 2.0, dof);
    let one_sided = statistics::t::upper_quantile(recipe.alpha, dof);
    let gross = gross_tally(reduction, net.vial);
    // Without blanks the value is held against its own u, and never called quantified.
    let critical = limits.map_or(one_sided * u, |l| l.critical_value);
    let quantified = limits.and_then(|l| l.quantification_limit);
    let state = if net.value <= critical {
        State::NotDetected
    } else if quantified.is_some_and(|q| net.value >= q) {
        State::Quantified
    } else {
        State::Detected
    };
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
        net: Measured::with_dof(net.value, u, dof, recipe.unit.clone()),
        interval: [net.value - k * u, net.value + k * u],
        coverage_k: k,
        upper_bound: statistics::bound::upper_bound(net.value, u, dof, limits.map(|l| l.critical_value)),
        state,
        bears: net.bears,
        by_recipe: None,
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
        }),
    }
}
