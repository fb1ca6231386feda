//! The way back: every step of an analyte as a named node, from the counts on the detector to the
//! net values of all its vials. Shared steps (factor, drift checks, line, blank mean) stand once.
//!
//! u of a rate or response is that of its replicates; from the concentration on it is the whole u.
//! Means of replicates are shown; products and ratios were formed replicate by replicate before.
//!
//! A formula whose letters the node explains is text, the same in every language; one with words in it is a message.

mod blanks;

use super::analyte_reduction::AnalyteReduction;
use super::bottle::{self, AcidFactor};
use super::calc;
use super::input::{Mode, Role, Vial};
use super::recipe::Intercept;
use super::result::Bears;
use super::signal::{Response, poisson_variance};
use super::table::{Cell, Table, When};
use super::{DeadTimeModel, ReducedRun, gross_tally};
use message::{Digits, Message, Name, Said, Share, Shown, step_measurement as said, step_recompute};
use quantity::{Amount, Derivation, Measured, NodeId, Unit};
use statistics::sample::Moments;
use std::collections::HashMap;
use std::fmt::Write as _;

/// The graph of one analyte and the node of each vial's result.
pub(super) struct Graph {
    pub derivation: Derivation,
    pub result_node: HashMap<usize, NodeId>,
}

const SOURCES: &[&str] = &[
    "JCGM 100:2008 (linear propagation with correlations, Welch–Satterthwaite)",
    "Currie 1968, Anal. Chem. 40:586; Currie 1995, Pure Appl. Chem. 67:1699; ISO 11843-1 (detection)",
];

struct Builder<'a> {
    run: &'a ReducedRun,
    reduction: &'a AnalyteReduction,
    d: Derivation,
    cps: Unit,
    per_unit: Unit,
    dead_time: Option<NodeId>,
    cross: Option<NodeId>,
    background: HashMap<usize, NodeId>,
    rates: HashMap<(usize, usize), NodeId>,
    responses: HashMap<usize, NodeId>,
    corrected: HashMap<usize, NodeId>,
    gross: HashMap<usize, NodeId>,
    volumes: HashMap<String, NodeId>,
    acids: HashMap<String, NodeId>,
    between_vials: Option<NodeId>,
    scatter: Option<NodeId>,
    /// Mean of each set of blanks and what one bottle of it catches.
    blanks: HashMap<usize, (NodeId, NodeId)>,
    /// Net value of each vial.
    nets: HashMap<usize, NodeId>,
    factors: Vec<Vec<NodeId>>,
    intercept: Option<NodeId>,
    slope: Option<NodeId>,
}

/// The graph of one analyte.
pub(super) fn of_reduction(run: &ReducedRun, index: usize) -> Graph {
    let reduction = &run.reductions[index];
    let cps = Unit::known("counts/s");
    let mut b = Builder {
        run,
        reduction,
        d: Derivation::new(said::Run, SOURCES),
        per_unit: per(&cps, &run.recipe.unit),
        cps,
        dead_time: None,
        cross: None,
        background: HashMap::new(),
        rates: HashMap::new(),
        responses: HashMap::new(),
        corrected: HashMap::new(),
        gross: HashMap::new(),
        volumes: HashMap::new(),
        acids: HashMap::new(),
        between_vials: None,
        scatter: None,
        blanks: HashMap::new(),
        nets: HashMap::new(),
        factors: vec![],
        intercept: None,
        slope: None,
    };
    b.shared();
    let mut result_node = HashMap::new();
    let mut recovery = None;
    for (k, (_, net)) in run.nets.iter().enumerate().filter(|(_, n)| n.0 == index) {
        let gross = b.gross(net.vial);
        let mut node = b.net_of(index, net.vial);
        if let Some(r) = &run.results[k].recovery {
            let r_node = *recovery.get_or_insert_with(|| b.recovery(index, r));
            node = b.d.step(
                said::NetOverRecovery { vial: b.name(net.vial) },
                Amount::Measured(run.results[k].net.clone()),
                said::NetOverRecoveryFormula,
                "",
                &[node, r_node],
            );
            b.d.calculated(node, calc::over_recovery(run, net.vial));
        }
        if run.results[k].bears == Bears::AtMost {
            let whole = run.results[k]
                .by_recipe
                .as_ref()
                .and_then(|o| run.blanks[index].iter().position(|set| set.role == o.role && !set.part));
            node = b.at_most(k, net, (node, gross), whole);
        }
        result_node.insert(net.vial, node);
    }
    Graph { derivation: b.d, result_node }
}

/// counts/s per unit of concentration.
fn per(cps: &Unit, unit: &Unit) -> Unit {
    let text = unit.to_string();
    text.split_once('/')
        .and_then(|(top, below)| Unit::parse(&format!("counts·{below}/s/{top}")).ok())
        .unwrap_or_else(|| cps.clone())
}

/// The bottle of a vial by its label; a vial without one by its own name.
fn bottle_name(vial: &Vial) -> Name {
    Name::from(vial.bottle.as_ref().unwrap_or(&vial.name))
}

fn list(x: &[f64]) -> String {
    let mut text = String::new();
    for (i, v) in x.iter().enumerate() {
        let joint = if i > 0 { ", " } else { "" };
        let _ = write!(text, "{joint}{v}");
    }
    text
}

fn mean_and_u(table: &Table, c: Cell, raw: bool) -> (f64, f64, f64) {
    let x = if raw { table.raw(c) } else { table.rates(c) };
    let moments = Moments::of(x);
    let mean = moments.map_or(f64::NAN, |m| m.mean);
    if c.summary_n > 0 {
        let n = f64::from(c.summary_n);
        return (mean, c.summary_sd / n.sqrt(), (n - 1.0).max(1.0));
    }
    match moments.and_then(|m| m.u_mean()) {
        Some(u) if u > 0.0 => (mean, u, x.len() as f64 - 1.0),
        // One replicate, or several that agree to the last digit, none counted among them: as the response takes it.
        _ => {
            let counting = poisson_variance(table, c).sqrt();
            let u = if counting.is_finite() || x.len() < 2 { counting } else { 0.0 };
            (mean, u, f64::INFINITY)
        }
    }
}

impl Builder<'_> {
    /// The name of a vial.
    fn name(&self, v: usize) -> Name {
        Name::from(&self.run.table.vials[v].name)
    }

    /// The name of an isotope.
    fn isotope(&self, i: usize) -> Name {
        self.run.table.isotopes[i].to_string().into()
    }

    fn recipe(&self) -> said::Recipe {
        said::Recipe { recipe: Name::from(&self.run.recipe.name) }
    }

    /// Name of the run, and position of a vial in it.
    fn place(&self, v: usize) -> (Name, Name) {
        (Name::from(&self.run.name), self.run.table.vials[v].position.to_string().into())
    }

    fn amount(&self, value: f64, u: f64, dof: f64) -> Amount {
        if u.is_finite() {
            Amount::Measured(Measured::with_dof(value, u, dof, self.cps.clone()))
        } else {
            Amount::stated(value, self.cps.clone())
        }
    }

    /// Dead time, overlap factors, line: what every vial stands on.
    fn shared(&mut self) {
        let recipe = &self.run.recipe;
        if recipe.dead_time.ns > 0.0 {
            let tau = Amount::measured(recipe.dead_time.ns, recipe.dead_time.u_ns, Unit::known("ns"));
            let id = self.d.given(said::DeadTime, tau, self.recipe());
            self.d.calculated(id, calc::given("dead time"));
            self.dead_time = Some(id);
        }
        let x = recipe.analogue_factor;
        if (x.value - 1.0).abs() > 0.0 {
            let x = Amount::measured(x.value, x.u, Unit::one());
            let id = self.d.given(said::CrossFactor, x, self.recipe());
            self.d.calculated(id, calc::given("analogue"));
            self.cross = Some(id);
        }
        for track in &self.reduction.signal.tracks {
            let target = self.reduction.plan.members[track.member];
            let mut nodes = Vec::new();
            for p in &track.points {
                let amount = Amount::Measured(Measured::with_dof(
                    p.value,
                    p.u,
                    self.reduction.sources.dof[p.source],
                    Unit::one(),
                ));
                let (on, by) = (self.isotope(target), self.isotope(track.monitor));
                nodes.push(match p.vial {
                    None => {
                        let id = self.d.given(said::OverlapFactor { target: on, monitor: by }, amount, self.recipe());
                        self.d.calculated(id, calc::given("interference"));
                        id
                    }
                    Some(v) => {
                        let mut inputs = vec![self.rate(target, v), self.rate(track.monitor, v)];
                        let [of_target, of_monitor] = [target, track.monitor].map(|i| self.calibration_blanks(i));
                        let how = calc::overlap(of_target.len(), of_monitor.len());
                        inputs.extend(of_target.into_iter().chain(of_monitor));
                        let name = said::OverlapFactorIn { target: on, monitor: by, vial: self.name(v) };
                        let id = self.d.step(name, amount, said::OverlapFormula, said::OverlapMeasured, &inputs);
                        self.d.calculated(id, how);
                        id
                    }
                });
            }
            self.factors.push(nodes);
        }
        self.scatter();
        self.reproducibility();
        self.line();
    }

    /// Rates of an isotope in all calibration blanks that were read.
    fn calibration_blanks(&mut self, isotope: usize) -> Vec<NodeId> {
        let table = &self.run.table;
        let wanted = |v: &usize| table.vials[*v].role == Role::CalibrationBlank && table.cell(isotope, *v).is_ok();
        let vials: Vec<usize> = (0..table.vials.len()).filter(wanted).collect();
        vials.into_iter().map(|v| self.rate(isotope, v)).collect()
    }

    /// The scatter of replicates that all vials of the run have in common.
    fn scatter(&mut self) {
        let Some(s) = &self.reduction.scatter else { return };
        let phi = Amount::stated(s.fit.phi, Unit::one());
        let flicker = Share::new(s.fit.kappa.sqrt(), Digits::Trimmed(2));
        let from = step_recompute::ScatterFrom { vials: message::count(s.members.len()), flicker };
        let id = self.d.given(step_recompute::Scatter, phi, from);
        self.d.calculated(id, calc::scatter(&self.run.table, s));
        self.scatter = Some(id);
    }

    /// Rate of an isotope in a vial after dead time and background.
    fn rate(&mut self, i: usize, v: usize) -> NodeId {
        if let Some(id) = self.rates.get(&(i, v)) {
            return *id;
        }
        let table = &self.run.table;
        let Ok(cell) = table.cell(i, v) else {
            unreachable!("a vial with a response has its readings");
        };
        let (isotope, vial) = (self.isotope(i), self.name(v));
        let (m, u, dof) = mean_and_u(table, cell, true);
        let observed = self.amount(m, u, dof);
        let name = said::ObservedRate { isotope: isotope.clone(), vial: vial.clone() };
        let mut id = self.d.given(name, observed, self.counts(cell, v));
        self.d.calculated(id, calc::counts(table, cell, (&self.run.name, v, i)));
        let (m, u, dof) = mean_and_u(table, cell, false);
        let amount = self.amount(m, u, dof);
        if let Some((by, step, name)) = self.correction(cell.mode, &isotope, &vial) {
            id = self.d.step(name, amount, step, "", &[id, by]);
            self.d.calculated(id, calc::detector(cell.mode, self.run.recipe.dead_time.model));
        }
        if let Some((zero, u0, dof0)) = self.reduction.signal.background_of(i) {
            let zero_amount = self.amount(zero, u0, dof0);
            let (of, from): (Message, Message) = if self.reduction.signal.is_dark(i) {
                (said::DarkRate { isotope: isotope.clone() }.into(), self.recipe().into())
            } else {
                (said::Background { isotope: isotope.clone() }.into(), said::BackgroundMean.into())
            };
            // One dark rate that stands for several isotopes errs the same way in all of them.
            let dark = self.run.recipe.dark_rate(&table.isotopes[i]).filter(|_| self.reduction.signal.is_dark(i));
            let error = dark.map_or_else(|| "background".to_string(), |k| format!("background, dark rate {k}"));
            let b = *self.background.entry(i).or_insert_with(|| {
                let id = self.d.given(of, zero_amount, from);
                self.d.calculated(id, calc::given(&error));
                id
            });
            let amount = self.amount(m - zero, u, dof);
            id = self.d.step(said::RateMinusBackground { isotope, vial }, amount, "N − B", "", &[id, b]);
            self.d.calculated(id, calc::formula("N - B", &["N", "B"]));
        }
        self.rates.insert((i, v), id);
        id
    }

    /// What the detector brings off a rate: by which factor, the step, and the name of the rate after it.
    fn correction(&self, mode: Mode, isotope: &Name, vial: &Name) -> Option<(NodeId, &'static str, Message)> {
        let (isotope, vial) = (isotope.clone(), vial.clone());
        match mode {
            Mode::Counting => {
                let name = said::RateAfterDeadTime { isotope, vial };
                let formula = match self.run.recipe.dead_time.model {
                    DeadTimeModel::NonExtending => "N = n / (1 − n·τ)",
                    DeadTimeModel::Extending => "n = N·e^(−N·τ)",
                };
                self.dead_time.map(|by| (by, formula, name.into()))
            }
            Mode::Analogue => {
                let name = said::RateAfterCrossFactor { isotope, vial };
                self.cross.map(|by| (by, "N = n·X", name.into()))
            }
        }
    }

    /// Where the counts of a vial stand, and what they are.
    fn counts(&self, cell: Cell, v: usize) -> Message {
        let (run, position) = self.place(v);
        if cell.summary_n > 0 {
            return said::InstrumentMean { run, position, n: i64::from(cell.summary_n) }.into();
        }
        let rates = list(self.run.table.raw(cell)).into();
        said::Replicates { run, position, rates, time: Shown::as_given(cell.integration_s, "s") }.into()
    }

    /// Response: overlaps off, isotopes added, internal standard divided.
    fn response(&mut self, v: usize) -> NodeId {
        if let Some(id) = self.responses.get(&v) {
            return *id;
        }
        let plan = &self.reduction.plan;
        let mut inputs: Vec<NodeId> = plan.members.iter().map(|i| self.rate(*i, v)).collect();
        let mut step = if plan.members.len() > 1 { "Σ N".to_string() } else { "N".to_string() };
        let mut weights = Vec::new();
        for k in 0..self.reduction.signal.tracks.len() {
            let track = &self.reduction.signal.tracks[k];
            let species = &plan.overlaps[k].recipe.species;
            let _ = write!(step, " − f·M ({species})");
            let near = track.at(When::of(&self.run.table.vials[v]));
            let near: Vec<_> = near.into_iter().filter(|x| x.1 != 0.0).collect();
            inputs.extend(near.iter().map(|x| self.factors[k][x.0]));
            weights.push(near.iter().map(|x| x.1).collect::<Vec<f64>>());
            inputs.push(self.rate(track.monitor, v));
        }
        let step: Message = if plan.standards.is_empty() {
            said::ResponseFormula { formula: step.into() }.into()
        } else {
            let formula = if step == "N" { step } else { format!("({step})") };
            let i = self.reduction.points[v].map_or(1.0, |p| p.response.standard);
            inputs.extend(plan.standards.iter().map(|(i, _)| self.rate(*i, v)));
            said::ResponseOverStandard { formula: formula.into(), i: Shown::decimals(i, 4, "") }.into()
        };
        let r = self.reduction.points[v].expect("a vial with a result has a response").response;
        let amount = self.amount(r.value, r.u, r.dof);
        let name = said::Response { analyte: plan.analyte.to_string().into(), vial: self.name(v) };
        let how = Self::spread(&r);
        let of_all = self.scatter.filter(|_| r.noise.phi > 0.0 && r.dof.is_finite() || r.noise.kappa > 0.0);
        inputs.extend(of_all);
        let (position, signal) = (self.run.table.vials[v].position, &self.reduction.signal);
        let by = calc::response(position, plan.members.len(), &weights, signal, (&r, of_all.is_some()));
        let id = self.d.step(name, amount, step, how, &inputs);
        self.d.calculated(id, by);
        self.responses.insert(v, id);
        id
    }

    /// Where the u of a response comes from.
    fn spread(r: &Response) -> Said {
        let noise = r.noise;
        let shown = |x: f64| Shown::trimmed(x, 3, "");
        if noise.phi > 0.0 && r.dof.is_finite() || noise.kappa > 0.0 {
            let flicker = Share::new(noise.kappa.sqrt(), Digits::Trimmed(2));
            return said::SpreadOfAllVials { phi: shown(noise.phi), flicker, dof: shown(r.dof) }.into();
        }
        if r.excess > 0.0 {
            return said::SpreadOfThisVial { times: shown(r.times) }.into();
        }
        if r.dof.is_finite() { Said::from("") } else { said::SpreadOfCounting.into() }
    }

    /// Response with drift removed.
    fn corrected(&mut self, v: usize) -> NodeId {
        if let Some(id) = self.corrected.get(&v) {
            return *id;
        }
        let response = self.response(v);
        let id = match &self.reduction.drift {
            None => response,
            Some(model) => {
                let when = When::of(&self.run.table.vials[v]);
                let mut inputs = vec![response];
                // Checks that lie farther off count as well: the drift is a ratio to the mean of all. A check helps to
                // shape the drift taken off it; its own response is an input already.
                inputs.extend(model.checks.iter().filter(|c| c.vial != v).map(|c| self.responses[&c.vial]));
                inputs.extend(self.between_vials);
                let p = self.reduction.points[v].expect("a vial with a result has a response");
                let g = model.at(when);
                let amount = self.amount(p.y, p.response.u / g, p.response.dof);
                let step =
                    said::DriftFormula { time: Shown::as_given(when.minutes, "min"), g: Shown::decimals(g, 6, "") };
                let id = self.d.step(said::WithoutDrift { vial: self.name(v) }, amount, step, "", &inputs);
                self.d.calculated(id, calc::drift(self.run, self.reduction, v));
                id
            }
        };
        self.corrected.insert(v, id);
        id
    }

    fn line(&mut self) {
        let recipe = &self.run.recipe;
        let line = &self.reduction.fitted.line;
        let element = self.reduction.plan.analyte.element.clone();
        let (mut inputs, mut places) = (Vec::new(), Vec::new());
        for p in &line.points {
            let v = self
                .run
                .table
                .vials
                .iter()
                .position(|x| x.position == p.position)
                .expect("a point of the line is a vial");
            let vial = &self.run.table.vials[v];
            let mut x = None;
            if let Some(a) = vial.assigned.iter().find(|a| a.element == element) {
                let name = said::Assigned { element: Name::from(&element), vial: self.name(v) };
                let stock = a.stock.as_ref().map(|stock| said::Stock { stock: Name::from(stock) });
                let source = stock.map_or_else(|| Said::from(""), Said::from);
                x = Some(inputs.len()).filter(|_| vial.role == Role::Standard);
                inputs.push(self.d.given(name, Amount::Measured(a.amount.clone()), source));
            }
            places.push((x, inputs.len(), v));
            inputs.push(self.corrected(v));
        }
        inputs.extend(self.between_vials);
        let how = match recipe.intercept {
            Intercept::Free => said::LineFree.into(),
            Intercept::Blank => said::LineThroughBlank.into(),
            Intercept::Zero => said::LineThroughZero.into(),
        };
        let fit = said::Line {
            how,
            covariance: format!("{:e}", line.covariance).into(),
            chi: Shown::decimals(line.chi_squared, 4, ""),
            dof: message::count(line.dof),
            widened: Shown::decimals(line.widened, 3, ""),
        };
        let a = Amount::measured(line.intercept, line.u_intercept, self.cps.clone());
        let b = Amount::measured(line.slope, line.u_slope, self.per_unit.clone());
        let slope = said::Slope { unit: recipe.unit.to_string().into() };
        let a = self.d.step(said::Intercept, a, fit.clone(), said::WithWeights, &inputs);
        let b = self.d.step(slope, b, fit, said::WithWeights, &inputs);
        for (id, part) in [(a, "a"), (b, "b")] {
            let mut by = calc::line(self.run, self.reduction, &places);
            by["part"] = part.into();
            // One of the two is enough to hold them.
            if part == "b" {
                by["weights"] = calc::weights(self.reduction);
            }
            self.d.calculated(id, by);
        }
        (self.intercept, self.slope) = (Some(a), Some(b));
    }

    /// Concentration in the bottle over the zero of the calibration.
    fn gross(&mut self, v: usize) -> NodeId {
        if let Some(id) = self.gross.get(&v) {
            return *id;
        }
        let y = self.corrected(v);
        let mut inputs = vec![y, self.intercept.expect("the line stands"), self.slope.expect("the line stands")];
        let p = self.reduction.points[v].expect("a vial with a result has a response");
        let t = gross_tally(self.reduction, v);
        let amount = Amount::Measured(Measured::with_dof(p.gross, t.u(), t.dof(), self.run.recipe.unit.clone()));
        let mut factors = String::new();
        if let Some((letter, node)) = self.dilution(v) {
            factors.push_str(letter);
            inputs.push(node);
        }
        if let Some(node) = self.acid(v) {
            factors.push_str("A·");
            inputs.push(node);
        }
        let there = |letter: &str| factors.contains(letter);
        // The line and the drift hold the reproducibility of a drift check already.
        let between = self.between_vials.filter(|_| !self.reduction.own_in_row[v]);
        let diluted = there("D") || there("F");
        let by = calc::gross(self.run.table.vials[v].position, (diluted, there("A"), between.is_some()));
        inputs.extend(between);
        let step = format!("c = {factors}(y − a) / b");
        let id = self.d.step(said::Gross { vial: self.name(v) }, amount, step, "", &inputs);
        self.d.calculated(id, by);
        self.gross.insert(v, id);
        id
    }

    /// The dilution of a vial with its letter in the formula; by volume where the water's density is recorded.
    fn dilution(&mut self, v: usize) -> Option<(&'static str, NodeId)> {
        let vial = &self.run.table.vials[v];
        let d = vial.dilution;
        if (d.value - 1.0).abs() == 0.0 && d.u == 0.0 {
            return None;
        }
        let (run, position) = self.place(v);
        let by_mass = self.d.given(
            said::DilutionByMass { vial: self.name(v) },
            Amount::measured(d.value, d.u, Unit::one()),
            said::Position { run, position },
        );
        self.d.calculated(by_mass, calc::given("dilution"));
        let Some(density) = vial.density_kg_l.filter(|_| d.value > 1.0) else {
            return Some(("D·", by_mass));
        };
        let kg_l = Unit::known("kg/L");
        let water = Amount::measured(density, vial.u_density_kg_l, kg_l.clone());
        let water = self.d.given(said::Density { bottle: bottle_name(vial) }, water, said::RecordedAtBottle);
        let (diluent, u) = bottle::diluent();
        let diluent = self.d.given(said::DensityOfDiluent, Amount::measured(diluent, u, kg_l), said::OwnChoice);
        for id in [water, diluent] {
            self.d.calculated(id, calc::given("dilution"));
        }
        let (f, u) = bottle::dilution(vial);
        let name = said::DilutionByVolume { vial: self.name(v) };
        let inputs = [by_mass, water, diluent];
        let f = Amount::measured(f, u, Unit::one());
        let id = self.d.step(name, f, "F = 1 + (D − 1)·ρ / r", said::DensityLetters, &inputs);
        self.d.calculated(id, calc::formula("1 + (D - 1) * rho / r", &["D", "rho", "r"]));
        Some(("F·", id))
    }

    /// The volume of water in a vial's bottle.
    fn volume(&mut self, v: usize) -> Option<NodeId> {
        let vial = &self.run.table.vials[v];
        let ml = vial.bottle_volume_ml?;
        let bottle = bottle_name(vial);
        if let Some(id) = self.volumes.get(&bottle.0) {
            return Some(*id);
        }
        let amount = Amount::measured(ml, vial.u_bottle_volume_ml, Unit::known("mL"));
        let id = self.d.given(said::VolumeOfWater { bottle: bottle.clone() }, amount, said::RecordedAtBottle);
        self.d.calculated(id, calc::given("volume"));
        self.volumes.insert(bottle.0, id);
        Some(id)
    }

    /// The acid in a vial's bottle, as the factor by which it thins the water.
    fn acid(&mut self, v: usize) -> Option<NodeId> {
        let vial = &self.run.table.vials[v];
        let ml = vial.acid_ml?;
        let volume = self.volume(v)?;
        let bottle = bottle_name(vial);
        if let Some(id) = self.acids.get(&bottle.0) {
            return Some(*id);
        }
        let source: Message =
            if vial.u_acid_ml.is_some() { said::RecordedAtBottle.into() } else { said::AcidWithoutU.into() };
        let amount = Amount::measured(ml, bottle::u_acid(vial), Unit::known("mL"));
        let acid = self.d.given(said::AcidAdded { bottle: bottle.clone() }, amount, source);
        self.d.calculated(acid, calc::given("acid"));
        let a = AcidFactor::of(vial);
        let amount = Amount::measured(a.value, a.by_volume.hypot(a.by_acid), Unit::one());
        let name = said::AcidInBottle { bottle: bottle.clone() };
        let id = self.d.step(name, amount, "A = (V + v) / V", said::VolumesAddUp, &[volume, acid]);
        self.d.calculated(id, calc::formula("(V + v) / V", &["V", "v"]));
        self.acids.insert(bottle.0, id);
        Some(id)
    }

    /// How well vials of one solution come out alike: a factor of one with its u. The responses of the drift checks come
    /// before it, and what they say of the drift after it.
    fn reproducibility(&mut self) {
        let checks: Vec<NodeId> = self.reduction.checks.iter().map(|v| self.response(*v)).collect();
        let Some(between) = self.reduction.between_vials else { return };
        let one = Amount::Measured(Measured::with_dof(1.0, between.relative, between.dof, Unit::one()));
        let id = if self.run.recipe.between_vials.is_some() {
            let id = self.d.given(said::BetweenVials, one, self.recipe());
            self.d.calculated(id, calc::given("between vials"));
            id
        } else {
            let id = self.d.step(said::BetweenVials, one, "", said::FromDriftChecks, &checks);
            self.d.calculated(id, calc::between(self.reduction, &self.run.table));
            id
        };
        self.between_vials = Some(id);
    }
}
