//! The way back: every step of an analyte as a named node, from the counts on the detector to the
//! net values of all its vials. Shared steps (factor, drift checks, line, blank mean) stand once.
//!
//! u of a rate or response is that of its replicates; from the concentration on it is the whole u.
//! Means of replicates are shown; products and ratios were formed replicate by replicate before.
//!
//! A formula whose letters the node explains is text, the same in every language; one with words in it is a message.

use super::analyte_reduction::AnalyteReduction;
use super::input::Mode;
use super::net::Net;
use super::quality::kind;
use super::recipe::{BlankCentre, Intercept, Recovery};
use super::result::Bears;
use super::table::{Cell, Table, When};
use super::{ReducedRun, gross_tally};
use message::{Message, Name, Said, Shown, step_measurement as said};
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
        factors: vec![],
        intercept: None,
        slope: None,
    };
    b.shared();
    let mut blank_nodes = HashMap::new();
    let mut result_node = HashMap::new();
    let mut recovery = None;
    for (k, (_, net)) in run.nets.iter().enumerate().filter(|(_, n)| n.0 == index) {
        let gross = b.gross(net.vial);
        let mut node = gross;
        if net.blank_set != usize::MAX {
            let blank =
                *blank_nodes.entry(net.blank_set).or_insert_with(|| b.blank_mean(&run.blanks[index][net.blank_set]));
            node = b.net(k, net, gross, blank);
        }
        if let Some(r) = &run.results[k].recovery {
            let r_node = *recovery.get_or_insert_with(|| b.recovery(r));
            node = b.d.step(
                said::NetOverRecovery { vial: b.name(net.vial) },
                Amount::Measured(run.results[k].net.clone()),
                said::NetOverRecoveryFormula,
                "",
                &[node, r_node],
            );
        }
        if run.results[k].bears == Bears::AtMost {
            let whole = run.results[k]
                .by_recipe
                .as_ref()
                .and_then(|o| run.blanks[index].iter().position(|set| set.role == o.role && !set.part));
            let blank = whole.map(|s| *blank_nodes.entry(s).or_insert_with(|| b.blank_mean(&run.blanks[index][s])));
            node = b.at_most(k, net, (node, gross), blank);
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
    if let Some(u) = moments.and_then(|m| m.u_mean()) {
        return (mean, u, x.len() as f64 - 1.0);
    }
    let time = c.integration_s;
    let u = if time > 0.0 { (mean / time).sqrt() } else { f64::NAN };
    (mean, u, f64::INFINITY)
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
            self.dead_time = Some(self.d.given(said::DeadTime, tau, self.recipe()));
        }
        let x = recipe.analogue_factor;
        if (x.value - 1.0).abs() > 0.0 {
            let x = Amount::measured(x.value, x.u, Unit::one());
            self.cross = Some(self.d.given(said::CrossFactor, x, self.recipe()));
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
                    None => self.d.given(said::OverlapFactor { target: on, monitor: by }, amount, self.recipe()),
                    Some(v) => {
                        let inputs = [self.rate(target, v), self.rate(track.monitor, v)];
                        let name = said::OverlapFactorIn { target: on, monitor: by, vial: self.name(v) };
                        self.d.step(name, amount, said::OverlapFormula, said::OverlapMeasured, &inputs)
                    }
                });
            }
            self.factors.push(nodes);
        }
        self.line();
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
        let (m, u, dof) = mean_and_u(table, cell, false);
        let amount = self.amount(m, u, dof);
        if let Some((by, step, name)) = self.correction(cell.mode, &isotope, &vial) {
            id = self.d.step(name, amount, step, "", &[id, by]);
        }
        if let Some((zero, u0, dof0)) = self.reduction.signal.background_of(i) {
            let zero_amount = self.amount(zero, u0, dof0);
            let b = *self.background.entry(i).or_insert_with(|| {
                self.d.given(said::Background { isotope: isotope.clone() }, zero_amount, said::BackgroundMean)
            });
            let amount = self.amount(m - zero, u, dof);
            id = self.d.step(said::RateMinusBackground { isotope, vial }, amount, "N − B", "", &[id, b]);
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
                self.dead_time.map(|by| (by, "N = n / (1 − n·τ)", name.into()))
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
        for k in 0..self.reduction.signal.tracks.len() {
            let track = &self.reduction.signal.tracks[k];
            let species = &plan.overlaps[k].recipe.species;
            let _ = write!(step, " − f·M ({species})");
            let near = track.at(When::of(&self.run.table.vials[v]));
            inputs.extend(near.iter().filter(|x| x.1 != 0.0).map(|x| self.factors[k][x.0]));
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
        let id = self.d.step(name, amount, step, "", &inputs);
        self.responses.insert(v, id);
        id
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
                let mut used = vec![false; model.checks.len()];
                model.basis(when, |k, _| {
                    for (u, w) in used.iter_mut().zip(model.weights(k)) {
                        *u |= *w != 0.0;
                    }
                });
                let mut inputs = vec![response];
                for (check, _) in model.checks.iter().zip(&used).filter(|x| *x.1) {
                    // A drift check helps to shape the drift taken off it; its own response is an input already.
                    if check.vial != v {
                        inputs.push(self.response(check.vial));
                    }
                }
                let p = self.reduction.points[v].expect("a vial with a result has a response");
                let g = model.at(when);
                let amount = self.amount(p.y, p.response.u / g, p.response.dof);
                let step =
                    said::DriftFormula { time: Shown::as_given(when.minutes, "min"), g: Shown::decimals(g, 6, "") };
                self.d.step(said::WithoutDrift { vial: self.name(v) }, amount, step, "", &inputs)
            }
        };
        self.corrected.insert(v, id);
        id
    }

    fn line(&mut self) {
        let recipe = &self.run.recipe;
        let line = &self.reduction.fitted.line;
        let element = self.reduction.plan.analyte.element.clone();
        let mut inputs = Vec::new();
        for p in &line.points {
            let v = self
                .run
                .table
                .vials
                .iter()
                .position(|x| x.position == p.position)
                .expect("a point of the line is a vial");
            let vial = &self.run.table.vials[v];
            if let Some(a) = vial.assigned.iter().find(|a| a.element == element) {
                let name = said::Assigned { element: Name::from(&element), vial: self.name(v) };
                let stock = a.stock.as_ref().map(|stock| said::Stock { stock: Name::from(stock) });
                let source = stock.map_or_else(|| Said::from(""), Said::from);
                inputs.push(self.d.given(name, Amount::Measured(a.amount.clone()), source));
            }
            inputs.push(self.corrected(v));
        }
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
        self.intercept = Some(self.d.step(said::Intercept, a, fit.clone(), said::WithWeights, &inputs));
        self.slope = Some(self.d.step(slope, b, fit, said::WithWeights, &inputs));
    }

    /// Concentration in the bottle over the zero of the calibration.
    fn gross(&mut self, v: usize) -> NodeId {
        if let Some(id) = self.gross.get(&v) {
            return *id;
        }
        let y = self.corrected(v);
        let mut inputs = vec![y, self.intercept.expect("the line stands"), self.slope.expect("the line stands")];
        let vial = &self.run.table.vials[v];
        let p = self.reduction.points[v].expect("a vial with a result has a response");
        let t = gross_tally(self.reduction, v);
        let amount = Amount::Measured(Measured::with_dof(p.gross, t.u(), t.dof(), self.run.recipe.unit.clone()));
        let mut step = "c = (y − a) / b";
        let d = vial.dilution;
        if (d.value - 1.0).abs() > 0.0 || d.u > 0.0 {
            step = "c = D·(y − a) / b";
            let (run, position) = self.place(v);
            inputs.push(self.d.given(
                said::DilutionByMass { vial: self.name(v) },
                Amount::measured(d.value, d.u, Unit::one()),
                said::Position { run, position },
            ));
        }
        let id = self.d.step(said::Gross { vial: self.name(v) }, amount, step, "", &inputs);
        self.gross.insert(v, id);
        id
    }

    fn blank_mean(&mut self, b: &super::net::Blanks) -> NodeId {
        let inputs: Vec<NodeId> = b.vials.iter().map(|v| self.gross(*v)).collect();
        let amount = Amount::Measured(Measured::with_dof(b.mean, b.u_mean, b.dof(), self.run.recipe.unit.clone()));
        let blanks = said::Blanks { count: message::count(b.n), role: kind(b.role) }.into();
        let sd = Shown::decimals(b.sd, 6, "");
        let step: Message = match self.run.recipe.blank.centre {
            BlankCentre::Mean => said::BlanksMean { blanks, sd }.into(),
            BlankCentre::Robust => said::BlanksLocation { blanks, sd }.into(),
        };
        self.d.step(said::Blank { role: kind(b.role) }, amount, step, "", &inputs)
    }

    fn net(&mut self, k: usize, net: &Net, gross: NodeId, blank: NodeId) -> NodeId {
        let r = &self.run.results[k];
        let factor = r.recovery.as_ref().map_or(1.0, |x| x.value);
        let amount = if r.recovery.is_some() {
            // Its u before the recovery was never needed; the whole u stands on the last node.
            Amount::stated(r.net.value * factor, self.run.recipe.unit.clone())
        } else {
            Amount::Measured(r.net.clone())
        };
        let by_volume = (net.blank_scale - 1.0).abs() > 0.0;
        let step = if by_volume { said::NetByVolume.into() } else { Said::from("c − b") };
        self.d.step(said::Net { vial: self.name(net.vial) }, amount, step, said::NetU, &[gross, blank])
    }

    /// The bound, on the value and, beside it, the value by the recipe's rule.
    fn at_most(&mut self, k: usize, net: &Net, (node, gross): (NodeId, NodeId), blank: Option<NodeId>) -> NodeId {
        let r = &self.run.results[k];
        let mut inputs = vec![node];
        if let (Some(other), Some(blank)) = (&r.by_recipe, blank) {
            let blanks = said::Blanks { count: message::count(other.n), role: kind(other.role) }.into();
            let name = said::NetByRecipe { blanks, vial: self.name(net.vial) };
            let amount = Amount::Measured(other.net.clone());
            inputs.push(self.d.step(name, amount, said::NetByRecipeFormula, "", &[gross, blank]));
        }
        let bound = Amount::below(r.upper_bound, self.run.recipe.unit.clone());
        self.d.step(said::AtMost { vial: self.name(net.vial) }, bound, said::AtMostFormula, "", &inputs)
    }

    fn recovery(&mut self, r: &Measured) -> NodeId {
        let from: Message = match self.run.recipe.recovery {
            Recovery::FieldSpikes => said::RecoveryOfFieldSpikes.into(),
            Recovery::LabSpikes => said::RecoveryOfLaboratorySpikes.into(),
            _ => said::RecoveryGiven.into(),
        };
        self.d.given(said::Recovery, Amount::Measured(r.clone()), from)
    }
}
