//! The last steps of a result: the mean of the blanks, what one more bottle catches, net, bound, recovery.

use super::Builder;
use crate::run::calc;
use crate::run::input::Role;
use crate::run::net::{self, Blanks, Net};
use crate::run::quality::kind;
use crate::run::recipe::Recovery;
use crate::run::spike;
use message::{Message, Said, Shown, step_measurement as said, step_recompute};
use quantity::{Amount, Measured, NodeId, Unit};

/// Metal per bottle, where a concentration is in `unit`: ng/L gives ng.
fn per_bottle_unit(unit: &Unit) -> Unit {
    let text = unit.to_string();
    text.split_once('/')
        .and_then(|(top, below)| {
            let mass = if below == "L" { top.to_owned() } else { format!("{top}·L/{below}") };
            Unit::parse(&mass).ok()
        })
        .unwrap_or_else(|| unit.clone())
}

impl Builder<'_> {
    /// Whether a set of blanks is taken as metal per bottle, and the unit it then has.
    fn blank_scale(&self, b: &Blanks) -> (bool, Unit) {
        let unit = &self.run.recipe.unit;
        let per_bottle = net::per_bottle(b.role, &self.run.recipe);
        (per_bottle, if per_bottle { per_bottle_unit(unit) } else { unit.clone() })
    }

    /// Mean of a set of blanks, and what one more bottle catches: nothing more or less, with its u.
    fn blank(&mut self, analyte: usize, set: usize) -> (NodeId, NodeId) {
        if let Some(both) = self.blanks.get(&set) {
            return *both;
        }
        let b = &self.run.blanks[analyte][set];
        let mean = self.blank_mean(b);
        let (_, unit) = self.blank_scale(b);
        let caught = Amount::Measured(Measured::with_dof(0.0, b.contamination().sqrt(), b.dof(), unit));
        let name = step_recompute::Contamination { role: kind(b.role) };
        let e = self.d.step(name, caught, "u² = s² − m²", step_recompute::ContaminationLetters, &[mean]);
        self.d.calculated(e, calc::formula("contamination", &["b"]));
        self.blanks.insert(set, (mean, e));
        (mean, e)
    }

    fn blank_mean(&mut self, b: &Blanks) -> NodeId {
        let mut inputs: Vec<NodeId> = b.vials.iter().map(|v| self.gross(*v)).collect();
        let (per_bottle, unit) = self.blank_scale(b);
        if per_bottle {
            inputs.extend(b.vials.iter().filter_map(|v| self.volume(*v)));
        }
        let amount = Amount::Measured(Measured::with_dof(b.mean, b.u_mean, b.dof(), unit));
        let blanks = said::Blanks { count: message::count(b.n), role: kind(b.role) }.into();
        let sd = Shown::decimals(b.sd, 6, "");
        let step: Message = if b.robust {
            said::BlanksLocation { blanks, sd }.into()
        } else if b.earlier.is_empty() {
            said::BlanksMean { blanks, sd }.into()
        } else {
            let own = Shown::decimals(b.own_sd, 6, "");
            let (runs, dof) = (b.earlier.join(", ").into(), Shown::trimmed(b.sd_dof, 3, ""));
            said::BlanksMeanOfRuns { blanks, sd, own, runs, dof }.into()
        };
        let id = self.d.step(said::Blank { role: kind(b.role) }, amount, step, "", &inputs);
        self.d.calculated(id, calc::blank(b, per_bottle));
        id
    }

    /// gross − blank of a set: inputs, and how it is computed.
    fn less(&mut self, analyte: usize, set: usize, (v, gross): (usize, NodeId)) -> (Vec<NodeId>, serde_json::Value) {
        let (mean, e) = self.blank(analyte, set);
        let b = &self.run.blanks[analyte][set];
        let (per_bottle, _) = self.blank_scale(b);
        let vial = &self.run.table.vials[v];
        let litres = vial.bottle_volume_ml.filter(|_| per_bottle).map_or(1.0, |ml| ml / 1000.0);
        let row = self.reduction.row(v);
        let shared: f64 = row.iter().zip(&b.row).map(|(c, b)| c * b / litres).sum();
        // The volume by which the blank is divided is that in which the acid was thinned.
        let volume = self.reduction.bottles[v].volume.filter(|_| per_bottle);
        let of_volume = volume.map_or(0.0, |s| row[s] * b.mean / litres * net::relative_u_volume(vial));
        let mut inputs = vec![gross, mean, e];
        if per_bottle {
            inputs.extend(self.volume(v));
        }
        (inputs, calc::net(per_bottle, shared - of_volume))
    }

    /// The net value of a vial, before any recovery; where no blank is taken off, its gross value.
    pub(super) fn net_of(&mut self, analyte: usize, v: usize) -> NodeId {
        if let Some(id) = self.nets.get(&v) {
            return *id;
        }
        let run = self.run;
        let gross = self.gross(v);
        let found = run.nets.iter().enumerate().find(|(_, n)| n.0 == analyte && n.1.vial == v);
        let id = match found {
            Some((k, (_, net))) if net.blank_set != usize::MAX => self.net(k, net, gross),
            _ => gross,
        };
        self.nets.insert(v, id);
        id
    }

    fn net(&mut self, k: usize, net: &Net, gross: NodeId) -> NodeId {
        let r = &self.run.results[k];
        let amount = Amount::Measured(r.net_before_recovery.as_ref().unwrap_or(&r.net).clone());
        let by_volume = (net.blank_scale - 1.0).abs() > 0.0;
        let step = if by_volume { said::NetByVolume.into() } else { Said::from("c − b") };
        let (inputs, by) = self.less(self.run.nets[k].0, net.blank_set, (net.vial, gross));
        let id = self.d.step(said::Net { vial: self.name(net.vial) }, amount, step, said::NetU, &inputs);
        self.d.calculated(id, by);
        id
    }

    /// The bound, on the value and, beside it, the value by the recipe's rule.
    pub(super) fn at_most(
        &mut self,
        k: usize,
        net: &Net,
        (node, gross): (NodeId, NodeId),
        set: Option<usize>,
    ) -> NodeId {
        let r = &self.run.results[k];
        let mut inputs = vec![node];
        if let (Some(other), Some(set)) = (&r.by_recipe, set) {
            let blanks = said::Blanks { count: message::count(other.n), role: kind(other.role) }.into();
            let name = said::NetByRecipe { blanks, vial: self.name(net.vial) };
            let amount = Amount::Measured(other.net.clone());
            let (of, by) = self.less(self.run.nets[k].0, set, (net.vial, gross));
            let id = self.d.step(name, amount, said::NetByRecipeFormula, "", &of);
            self.d.calculated(id, by);
            inputs.push(id);
        }
        let bound = Amount::below(r.upper_bound, self.run.recipe.unit.clone());
        self.d.step(said::AtMost { vial: self.name(net.vial) }, bound, said::AtMostFormula, "", &inputs)
    }

    /// The recovery that results are divided by. One of spikes shares line, drift and blanks with what it divides, so its
    /// own u is not all that is to be known of it: it stands on the net values of the spikes and of their waters.
    pub(super) fn recovery(&mut self, analyte: usize, r: &Measured) -> NodeId {
        let (from, wanted): (Message, Role) = match self.run.recipe.recovery {
            Recovery::FieldSpikes => (said::RecoveryOfFieldSpikes.into(), Role::FieldSpike),
            Recovery::LabSpikes => (said::RecoveryOfLaboratorySpikes.into(), Role::LabSpike),
            _ => {
                let id = self.d.given(said::Recovery, Amount::Measured(r.clone()), said::RecoveryGiven);
                self.d.calculated(id, calc::given("recovery"));
                return id;
            }
        };
        let nets = || self.run.nets.iter().filter(|n| n.0 == analyte);
        let vials: Vec<usize> = nets().map(|n| n.1.vial).collect();
        let pairs = spike::pairs(self.run, self.reduction, &vials);
        let (mut inputs, mut told) = (vec![], vec![]);
        for p in pairs.into_iter().filter(|p| self.run.table.vials[p.vial].role == wanted) {
            let [spiked, water] = [p.vial, p.of].map(|v| self.net_of(analyte, v));
            let name = said::SpikeAdded { vial: self.name(p.vial) };
            let added = self.d.given(name, Amount::Measured(p.added), said::SpikeAddedFrom);
            self.d.calculated(added, calc::given("spike"));
            let first = inputs.len();
            inputs.extend([spiked, water, added]);
            // The volume that the mass was divided by errs as it does in the net value.
            let has_volume = p.by_volume > 0.0 && self.reduction.bottles[p.vial].volume.is_some();
            let volume = self.volume(p.vial).filter(|_| has_volume);
            inputs.extend(volume);
            told.push(calc::spike(&self.run.table, (p.vial, p.of), first, volume.is_some()));
        }
        let id = self.d.step(said::Recovery, Amount::Measured(r.clone()), from, "", &inputs);
        self.d.calculated(id, calc::recovery(told, wanted == Role::LabSpike));
        id
    }
}
