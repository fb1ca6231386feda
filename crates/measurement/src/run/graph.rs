//! The way back: every step of an analyte as a named node, from the counts on the detector to the
//! net values of all its vials. Shared steps (factor, drift checks, line, blank mean) stand once.
//!
//! u of a rate or response is that of its replicates; from the concentration on it is the whole u.
//! Means of replicates are shown; products and ratios were formed replicate by replicate before.

use super::analyte_reduction::AnalyteReduction;
use super::input::Mode;
use super::net::Net;
use super::recipe::{BlankCentre, Intercept, Recovery};
use super::table::{Cell, Table, When};
use super::{ReducedRun, gross_tally};
use quantity::{Amount, Derivation, Measured, NodeId, Unit};
use statistics::sample::Moments;
use std::collections::HashMap;
use std::fmt::Write as _;

/// The graph of one analyte and the node of each vial's result.
pub(super) struct Graph {
    pub derivation: Derivation,
    pub result_node: HashMap<usize, NodeId>,
}

const METHOD: &str =
    "counts → dead time → background → overlaps → internal standard → drift → weighted line → dilution → blank";

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
        d: Derivation::new(METHOD, SOURCES),
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
                format!("net concentration ÷ recovery, \"{}\"", b.name(net.vial)),
                Amount::Measured(run.results[k].net.clone()),
                "net / R",
                "",
                &[node, r_node],
            );
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
    fn name(&self, v: usize) -> &str {
        &self.run.table.vials[v].name
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
        let origin = format!("recipe \"{}\"", recipe.name);
        if recipe.dead_time.ns > 0.0 {
            let tau = Amount::measured(recipe.dead_time.ns, recipe.dead_time.u_ns, Unit::known("ns"));
            self.dead_time = Some(self.d.given("dead time τ", tau, origin.clone()));
        }
        let x = recipe.analogue_factor;
        if (x.value - 1.0).abs() > 0.0 {
            let x = Amount::measured(x.value, x.u, Unit::one());
            self.cross = Some(self.d.given("analogue cross factor X", x, origin));
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
                let (on, by) =
                    (self.run.table.isotopes[target].to_string(), self.run.table.isotopes[track.monitor].to_string());
                nodes.push(match p.vial {
                    None => {
                        let from = format!("recipe \"{}\"", self.run.recipe.name);
                        self.d.given(format!("overlap factor f, {on} per {by}"), amount, from)
                    }
                    Some(v) => {
                        let inputs = [self.rate(target, v), self.rate(track.monitor, v)];
                        let name = format!("overlap factor f, {on} per {by}, in \"{}\"", self.name(v));
                        self.d.step(
                            name,
                            amount,
                            "(T − T of the calibration blanks) / (M − M of the calibration blanks)",
                            "measured in this run in a vial with the interfering element alone",
                            &inputs,
                        )
                    }
                });
            }
            self.factors.push(nodes);
        }
        self.line();
    }

    /// Rate of an isotope in a vial after dead time and background.
    fn rate(&mut self, isotope: usize, v: usize) -> NodeId {
        if let Some(id) = self.rates.get(&(isotope, v)) {
            return *id;
        }
        let table = &self.run.table;
        let Ok(cell) = table.cell(isotope, v) else {
            unreachable!("a vial with a response has its readings");
        };
        let (name, vial) = (table.isotopes[isotope].to_string(), self.name(v).to_string());
        let (m, u, dof) = mean_and_u(table, cell, true);
        let how = if cell.summary_n > 0 {
            format!("mean of {} replicates as the instrument gave it", cell.summary_n)
        } else {
            format!("replicates {} counts/s, {} s each", list(table.raw(cell)), cell.integration_s)
        };
        let source = format!("run \"{}\", position {}: {how}", self.run.name, table.vials[v].position);
        let observed = self.amount(m, u, dof);
        let mut id = self.d.given(format!("observed rate n, {name} in \"{vial}\""), observed, source);
        let (m, u, dof) = mean_and_u(table, cell, false);
        let correction = match cell.mode {
            Mode::Counting => self.dead_time.map(|t| (t, "N = n / (1 − n·τ)", "dead time")),
            Mode::Analogue => self.cross.map(|x| (x, "N = n·X", "cross factor")),
        };
        if let Some((by, step, word)) = correction {
            let amount = self.amount(m, u, dof);
            id = self.d.step(format!("rate N after {word}, {name} in \"{vial}\""), amount, step, "", &[id, by]);
        }
        if let Some((zero, u0, dof0)) = self.reduction.signal.background_of(isotope) {
            let zero_amount = self.amount(zero, u0, dof0);
            let b = *self.background.entry(isotope).or_insert_with(|| {
                self.d.given(
                    format!("gas background B, {name}"),
                    zero_amount,
                    "mean of the background vials of this run",
                )
            });
            let amount = self.amount(m - zero, u, dof);
            id = self.d.step(format!("rate minus background, {name} in \"{vial}\""), amount, "N − B", "", &[id, b]);
        }
        self.rates.insert((isotope, v), id);
        id
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
        if !plan.standards.is_empty() {
            let (open, close) = if step == "N" { ("", "") } else { ("(", ")") };
            let i = self.reduction.points[v].map_or(1.0, |p| p.response.standard);
            step =
                format!("{open}{step}{close} / I, I = {i:.4} the internal standard over its mean in the calibration");
            inputs.extend(plan.standards.iter().map(|(i, _)| self.rate(*i, v)));
        }
        step.push_str("; replicate by replicate, then the mean");
        let r = self.reduction.points[v].expect("a vial with a result has a response").response;
        let amount = self.amount(r.value, r.u, r.dof);
        let name = format!("response R, {} in \"{}\"", plan.analyte, self.name(v));
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
                let minutes = when.minutes;
                let mut used = vec![false; model.checks.len()];
                model.basis(when, |k, _| {
                    for (u, w) in used.iter_mut().zip(model.weights(k)) {
                        *u |= *w != 0.0;
                    }
                });
                let mut inputs = vec![response];
                for (check, _) in model.checks.iter().zip(&used).filter(|x| *x.1) {
                    if check.vial != v {
                        inputs.push(self.response(check.vial));
                    }
                }
                let p = self.reduction.points[v].expect("a vial with a result has a response");
                let g = model.at(when);
                let amount = self.amount(p.y, p.response.u / g, p.response.dof);
                let name = format!("response with drift removed, \"{}\"", self.name(v));
                let step = format!("y = R / g(t), g({minutes} min) = {g:.6} from the drift checks");
                self.d.step(name, amount, step, "", &inputs)
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
                inputs.push(self.d.given(
                    format!("assigned value, {element} in \"{}\"", vial.name),
                    Amount::Measured(a.amount.clone()),
                    a.stock.as_ref().map_or(String::new(), |s| format!("stock \"{s}\"")),
                ));
            }
            inputs.push(self.corrected(v));
        }
        let how = match recipe.intercept {
            Intercept::Free => "weighted least squares y = a + b·x, weights 1/u², calibration blanks at zero",
            Intercept::Blank => "weighted least squares through the mean of the calibration blanks",
            Intercept::Zero => "weighted least squares through zero",
        };
        let fit = format!(
            "{how}; cov(a, b) = {:e}; χ² = {:.4} with {} degrees of freedom; u widened by {:.3}",
            line.covariance, line.chi_squared, line.dof, line.widened
        );
        let a = Amount::measured(line.intercept, line.u_intercept, self.cps.clone());
        let b = Amount::measured(line.slope, line.u_slope, self.per_unit.clone());
        let per = &recipe.unit;
        self.intercept = Some(self.d.step("intercept a", a, fit.clone(), "JCGM 100 H.3, with weights", &inputs));
        self.slope = Some(self.d.step(format!("slope b, per {per}"), b, fit, "JCGM 100 H.3, with weights", &inputs));
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
            inputs.push(self.d.given(
                format!("dilution D of \"{}\", by mass", vial.name),
                Amount::measured(d.value, d.u, Unit::one()),
                format!("run \"{}\", position {}", self.run.name, vial.position),
            ));
        }
        let name = format!("gross concentration, \"{}\"", vial.name);
        let id = self.d.step(name, amount, step, "", &inputs);
        self.gross.insert(v, id);
        id
    }

    fn blank_mean(&mut self, b: &super::net::Blanks) -> NodeId {
        let inputs: Vec<NodeId> = b.vials.iter().map(|v| self.gross(*v)).collect();
        let amount = Amount::Measured(Measured::with_dof(b.mean, b.u_mean, b.dof(), self.run.recipe.unit.clone()));
        let centre = match self.run.recipe.blank.centre {
            BlankCentre::Mean => "mean",
            BlankCentre::Robust => "Huber's location",
        };
        let step = format!("{centre} of {} {}s, standard deviation between them {:.6}", b.n, b.role.word(), b.sd);
        self.d.step(format!("{} b", b.role.word()), amount, step, "", &inputs)
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
        let step = if (net.blank_scale - 1.0).abs() > 0.0 {
            "c − b/V, b the mass per bottle, V the bottle's volume"
        } else {
            "c − b"
        };
        let name = format!("net concentration, \"{}\"", self.name(net.vial));
        let source = "u holds s² of the blanks for this bottle and s²/n for their mean";
        self.d.step(name, amount, step, source, &[gross, blank])
    }

    fn recovery(&mut self, r: &Measured) -> NodeId {
        let from = match self.run.recipe.recovery {
            Recovery::FieldSpikes => "mean of the field spikes of this run",
            Recovery::LabSpikes => "mean of the laboratory spikes of this run",
            _ => "given in the recipe",
        };
        self.d.given("recovery R", Amount::Measured(r.clone()), from)
    }
}
