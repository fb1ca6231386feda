//! A water at equilibrium, and what can be done to it: gases and solids brought to equilibrium,
//! two waters mixed, temperature changed, acid or base added.
//!
//! In: temperature (°C), component totals (mol/kg water), pH given or from charge, alkalinity,
//! pe where couples are closed. Out: [`Equilibrium`] with activities, saturation indices, gas
//! pressures. What is done to a water conserves its component totals and its charge: the charge
//! that an analysis fails to balance is carried along, not hidden in H+. Couples stay apart on
//! all paths; with couples closed at a given pe electrons come from outside and paths are refused.
//! Valid 0 to 40 °C (a warning to 60), ionic strength to 0.1 mol/kg (a warning to 0.5).
//! Checked in `tests/validation_carbonate.rs`, `tests/properties.rs`.

use crate::batch::{Answer, Batch};
use crate::error::{Error, within};
use crate::lanes::LANES;
use crate::network::{self, ELECTRON, Entity, Network, PROTON};
use crate::solver::{Balance, Choices, Equations, Held, SMALLEST_TOTAL, Solution, System};
use crate::water::debye_hueckel;
use core::f64::consts::LN_10;
use message::{Name, Shown, analysis as said};
use rayon::prelude::*;
use std::sync::Arc;

/// Temperature beyond which there is no answer, °C.
pub const TEMPERATURE_RANGE_C: (f64, f64) = (0.0, 60.0);

/// How pH is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ph {
    /// Measured or chosen.
    Given(f64),
    /// From the charge balance.
    FromCharge,
}

/// What a water is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Composition {
    /// Temperature, °C.
    pub temperature_c: f64,
    /// pH, given or to be found.
    pub ph: Ph,
    /// Network component and total, mol/kg water. Carbon may be left to `alkalinity`.
    pub totals: Vec<(usize, f64)>,
    /// Alkalinity, eq/kg water; takes the place of a carbon total.
    pub alkalinity: Option<f64>,
    /// pe, for the couples that `choices` closes.
    pub pe: Option<f64>,
    /// What is left out and what is coupled.
    pub choices: Choices,
}

/// Values of log K for one solution: one a row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Constants {
    /// Temperature that they hold for, °C.
    pub temperature_c: f64,
    /// log10 K of each row.
    pub rows: Vec<f64>,
}

impl Constants {
    /// The default set at a temperature.
    pub fn at(temperature_c: f64) -> Self {
        Self { temperature_c, rows: network::row_values(temperature_c) }
    }
}

/// A water at equilibrium.
#[derive(Debug, Clone)]
pub struct Equilibrium {
    /// Temperature, °C.
    pub temperature_c: f64,
    /// The components and species present.
    pub system: Arc<System>,
    /// Activities and molalities.
    pub solution: Solution,
    /// The pH that was given, none where it came of the charge balance.
    pub given_ph: Option<f64>,
    /// Component totals, mol/kg, in the order of the system (0 for H+, and e−).
    pub totals: Vec<f64>,
    /// Σ z·m, eq/kg: what the analysis leaves unbalanced.
    pub charge: f64,
    /// Constants used.
    pub constants: Arc<Constants>,
    /// Choices used.
    pub choices: Choices,
    /// Moles that each held phase gave to a kilogram of water (negative: took up), by name.
    pub transfers: Vec<(String, f64)>,
}

/// A phase to be brought to equilibrium.
#[derive(Debug, Clone, PartialEq)]
pub struct Hold {
    /// Name of a solid (`calcite`) or a gas (`CO2`).
    pub name: String,
    /// Wanted saturation index, or log10 of the partial pressure in atm.
    pub target: f64,
    /// Moles on hand for a kilogram of water; 0 lets the phase form but not dissolve.
    pub available_mol_kg: f64,
}

impl Hold {
    /// A phase with no end of it on hand.
    pub fn plenty(name: &str, target: f64) -> Self {
        Self { name: name.into(), target, available_mol_kg: f64::INFINITY }
    }
}

fn checked(c: &Composition) -> Result<(), Error> {
    let (low, high) = TEMPERATURE_RANGE_C;
    within(message::word::Temperature, c.temperature_c, "°C", low, high)?;
    if let Ph::Given(ph) = c.ph {
        within("pH", ph, "", 0.0, 14.0)?;
    }
    for (j, t) in &c.totals {
        let label = &network::network().components[*j].label;
        within(said::Total { element: Name::from(label) }, *t, "mol/kg", 0.0, 10.0)?;
    }
    Ok(())
}

/// The solution of a composition with the default constants.
///
/// # Errors
/// [`Error::OutOfRange`] outside the stated ranges; those of [`Equations::solve`].
pub fn speciate(c: &Composition) -> Result<Equilibrium, Error> {
    speciate_with(c, &Arc::new(Constants::at(c.temperature_c)))
}

/// The same with constants of the caller's choice.
///
/// # Errors
/// As [`speciate`].
pub fn speciate_with(c: &Composition, constants: &Arc<Constants>) -> Result<Equilibrium, Error> {
    checked(c)?;
    let system = Arc::new(system_of(c));
    solve_in(c, &system, constants, None)
}

/// The system that a composition needs.
pub fn system_of(c: &Composition) -> System {
    let net = network::network();
    let mut present: Vec<usize> = c.totals.iter().filter(|(_, t)| *t >= SMALLEST_TOTAL).map(|(j, _)| *j).collect();
    if c.alkalinity.is_some() {
        present.push(carbon(net));
    }
    System::new(net, &present, &c.choices)
}

fn carbon(net: &Network) -> usize {
    net.component("CO3^2-").expect("carbonate is a component of the table")
}

/// Solves in a system built before (many solutions of one kind of water share it).
///
/// # Errors
/// As [`speciate`].
pub fn solve_in(
    c: &Composition,
    system: &Arc<System>,
    constants: &Arc<Constants>,
    guess: Option<&Solution>,
) -> Result<Equilibrium, Error> {
    let ln_k = system.ln_k(&constants.rows);
    let eq = Equations {
        system,
        ln_k: &ln_k,
        dh: debye_hueckel(c.temperature_c),
        balance: balances(c, system)?,
        held: vec![],
    };
    let solution = match eq.solve_from(guess) {
        Err(e @ Error::NotConverged { .. }) if c.alkalinity.is_some() => return Err(used_up(eq, e)),
        other => other?,
    };
    if c.alkalinity.is_some() {
        attainable(&eq, &solution)?;
    }
    Ok(wrap(c, system, constants, solution))
}

/// Why an alkalinity cannot be met: at this pH the other bases alone may hold more than it.
fn used_up(mut eq: Equations, error: Error) -> Error {
    let Some(at) = eq.balance.iter().position(|b| matches!(b, Balance::Alkalinity(_))) else {
        return error;
    };
    let Balance::Alkalinity(target) = eq.balance[at] else { return error };
    eq.balance[at] = Balance::Total(1e-15);
    match eq.solve() {
        Ok(s) if dot(eq.system.alkalinities(), &s.molality) > target => Error::NoSolution {
            equation: said::AlkalinityBalance.into(),
            why: said::BasesHoldMore {
                held: Shown::decimals(dot(eq.system.alkalinities(), &s.molality) * 1e3, 3, "mmol/kg"),
                given: Shown::decimals(target * 1e3, 3, "mmol/kg"),
            }
            .into(),
        },
        _ => error,
    }
}

/// Many waters of one system, eight at a time where they allow it (pH given, no couple closed,
/// alkalinity in all or in none), else one by one. Answers stand in the order of the list.
pub fn speciate_many(system: &Arc<System>, list: &[(Composition, Arc<Constants>)]) -> Vec<Result<Equilibrium, Error>> {
    let alkaline = list.first().is_some_and(|(c, _)| c.alkalinity.is_some());
    let plain = |c: &Composition| {
        matches!(c.ph, Ph::Given(_)) && c.choices.coupled.is_empty() && c.alkalinity.is_some() == alkaline
    };
    if list.len() < LANES || !list.iter().all(|(c, _)| plain(c)) {
        return list.par_iter().map(|(c, k)| checked(c).and_then(|()| solve_in(c, system, k, None))).collect();
    }
    let at = system.position(carbon(network::network()));
    let batch = Batch::new(system, at.filter(|_| alkaline));
    let answers = batch.solve(list.len(), |k, w| {
        let (c, constants) = &list[k];
        w.ln_h = if let Ph::Given(ph) = c.ph { -ph * LN_10 } else { 0.0 };
        w.totals.fill(0.0);
        for (j, t) in &c.totals {
            if let Some(at) = system.position(*j) {
                w.totals[at] = *t;
            }
        }
        w.alkalinity = c.alkalinity;
        w.dh = debye_hueckel(c.temperature_c);
        for (k, e) in w.ln_k.iter_mut().zip(&system.species) {
            *k = e.log_k(&constants.rows) * LN_10;
        }
    });
    answers
        .into_par_iter()
        .zip(list)
        .map(|(a, (c, constants))| {
            // A refused water is solved all the same and its answer dropped: blocks of eight stay as they are.
            checked(c)?;
            let solution = full(system, constants, c.temperature_c, a?);
            let carbon = at.filter(|_| alkaline).map_or(0.0, |at| total_of(system, &solution, at));
            reasonable_carbon(carbon)?;
            Ok(wrap(c, system, constants, solution))
        })
        .collect()
}

/// Molalities and γ from ln activities.
fn full(system: &System, constants: &Constants, t_c: f64, a: Answer) -> Solution {
    let dh = debye_hueckel(t_c);
    let (classes, class_of) = system.class_table();
    let by_class: Vec<f64> = classes.iter().map(|c| c.log_gamma(dh, a.ionic_strength).0).collect();
    let log_gamma: Vec<f64> = class_of.iter().map(|k| by_class[*k as usize]).collect();
    let molality = (0..system.species.len())
        .map(|i| {
            let sum: f64 = system.terms(i).map(|(c, n)| n * a.x[c]).sum();
            libm::exp(sum + (system.species[i].log_k(&constants.rows) - log_gamma[i]) * LN_10)
        })
        .collect();
    Solution {
        x: a.x,
        molality,
        log_gamma,
        ionic_strength: a.ionic_strength,
        transfer: vec![],
        iterations: a.iterations,
        residual: a.residual,
    }
}

/// Carbon beyond any water means that alkalinity and pH do not go together.
fn attainable(eq: &Equations, s: &Solution) -> Result<(), Error> {
    let at = eq.balance.iter().position(|b| matches!(b, Balance::Alkalinity(_)));
    let carbon = at.map_or(0.0, |at| total_of(eq.system, s, at));
    reasonable_carbon(carbon)
}

fn reasonable_carbon(carbon: f64) -> Result<(), Error> {
    if carbon > 1.0 {
        return Err(Error::NoSolution {
            equation: said::AlkalinityBalance.into(),
            why: said::NeedsCarbon { carbon: Shown::decimals(carbon, 1, "mol/kg") }.into(),
        });
    }
    Ok(())
}

fn total_of(system: &System, s: &Solution, at: usize) -> f64 {
    (0..s.molality.len())
        .map(|i| {
            let n: f64 = system.terms(i).filter(|(c, _)| *c == at).map(|(_, n)| n).sum();
            n * s.molality[i]
        })
        .sum()
}

fn balances(c: &Composition, system: &System) -> Result<Vec<Balance>, Error> {
    let net = network::network();
    let mut balance = vec![Balance::Total(0.0); system.width()];
    balance[0] = match c.ph {
        Ph::Given(ph) => Balance::FixedLnActivity(-ph * LN_10),
        Ph::FromCharge => Balance::Charge(0.0),
    };
    if let Some(at) = system.position(ELECTRON) {
        let pe = c.pe.ok_or_else(|| Error::Unclear {
            quantity: "Eh".into(),
            found: "nothing".into(),
            expected: "a measured or chosen Eh for the couples that are to be closed".into(),
        })?;
        balance[at] = Balance::FixedLnActivity(-pe * LN_10);
    }
    for (j, t) in &c.totals {
        for (at, n) in carriers(net, system, &c.choices, *j) {
            if let Balance::Total(sum) = &mut balance[at] {
                *sum += n * t;
            }
        }
    }
    if let Some(alkalinity) = c.alkalinity {
        let at = system.position(carbon(net)).expect("carbon was added");
        balance[at] = Balance::Alkalinity(alkalinity);
    }
    Ok(balance)
}

/// Where the total of a component goes: itself, or the other end of a closed couple.
fn carriers(net: &Network, system: &System, choices: &Choices, j: usize) -> Vec<(usize, f64)> {
    if let Some(at) = system.position(j) {
        return vec![(at, 1.0)];
    }
    choices
        .coupled
        .iter()
        .filter_map(|k| net.couples[*k].solved_for_reduced())
        .find(|(reduced, _)| *reduced == j)
        .map(|(_, e)| {
            e.terms
                .iter()
                .filter(|(c, _)| *c > ELECTRON)
                .filter_map(|(c, n)| system.position(*c).map(|at| (at, *n)))
                .collect()
        })
        .unwrap_or_default()
}

fn wrap(c: &Composition, system: &Arc<System>, constants: &Arc<Constants>, solution: Solution) -> Equilibrium {
    let totals = (0..system.width())
        .map(|at| if system.components[at] <= ELECTRON { 0.0 } else { total_of(system, &solution, at) })
        .collect();
    let charge = dot(system.charges(), &solution.molality);
    Equilibrium {
        temperature_c: c.temperature_c,
        system: Arc::clone(system),
        charge: if c.ph == Ph::FromCharge { 0.0 } else { charge },
        given_ph: if let Ph::Given(ph) = c.ph { Some(ph) } else { None },
        solution,
        totals,
        constants: Arc::clone(constants),
        choices: c.choices.clone(),
        transfers: vec![],
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Equilibrium {
    /// pH = −log10 of the activity of H+. One that was given comes back as it was given, to the last digit.
    pub fn ph(&self) -> f64 {
        self.given_ph.unwrap_or(-self.solution.x[0] / LN_10)
    }

    /// log10 activity of a network component; `None` where it is absent.
    pub fn log_activity(&self, component: usize) -> Option<f64> {
        self.system.position(component).map(|at| self.solution.x[at] / LN_10)
    }

    /// Total of a network component, mol/kg; 0 where it is absent.
    pub fn total(&self, component: usize) -> f64 {
        self.system.position(component).map_or(0.0, |at| self.totals[at])
    }

    /// Molality of a species by its shown name; 0 where it is absent.
    pub fn molality(&self, name: &str) -> f64 {
        self.system.species.iter().position(|e| e.name == name).map_or(0.0, |i| self.solution.molality[i])
    }

    /// Alkalinity, eq/kg, from the species.
    pub fn alkalinity(&self) -> f64 {
        dot(self.system.alkalinities(), &self.solution.molality)
    }

    /// log10 of the ion activity product of a solid, gas or half reaction; `None` where a
    /// component of it is absent.
    pub fn log_iap(&self, e: &Entity) -> Option<f64> {
        e.terms.iter().map(|(c, n)| self.log_activity(*c).map(|a| n * a)).sum()
    }

    /// Saturation index of a solid, log10 of the partial pressure (atm) of a gas.
    pub fn saturation_index(&self, e: &Entity) -> Option<f64> {
        self.log_iap(e).map(|i| i - e.log_k(&self.constants.rows))
    }

    /// What is conserved: totals by network component.
    fn conserved(&self) -> Vec<(usize, f64)> {
        self.system.components.iter().zip(&self.totals).filter(|(c, _)| **c > ELECTRON).map(|(c, t)| (*c, *t)).collect()
    }

    /// The same water brought to equilibrium with phases: moles pass over until each phase has
    /// the saturation asked for; a phase that runs out is left out, one that becomes
    /// supersaturated comes back.
    ///
    /// # Errors
    /// [`Error::Unclear`] for a name that the table does not hold; those of the solver.
    pub fn equilibrate(&self, holds: &[Hold]) -> Result<Self, Error> {
        React::from(self)?.run(holds)
    }

    /// The same water at another temperature, nothing let in or out.
    ///
    /// # Errors
    /// Those of the solver; [`Error::OutOfRange`] for the temperature.
    pub fn at_temperature(&self, temperature_c: f64) -> Result<Self, Error> {
        let mut r = React::from(self)?;
        let (low, high) = TEMPERATURE_RANGE_C;
        r.temperature_c = within(message::word::Temperature, temperature_c, "°C", low, high)?;
        r.constants = Arc::new(Constants::at(temperature_c));
        r.run(&[])
    }

    /// The same water with strong acid (HCl, mol/kg) added; a negative amount is NaOH.
    ///
    /// # Errors
    /// Those of the solver.
    pub fn with_acid(&self, acid_mol_kg: f64) -> Result<Self, Error> {
        let net = network::network();
        let mut r = React::from(self)?;
        let name = if acid_mol_kg >= 0.0 { "Cl-" } else { "Na+" };
        let ion = net.component(name).expect("Na and Cl are in the table");
        r.add(ion, acid_mol_kg.abs());
        r.run(&[])
    }

    /// A mixture with `share` of the other water (0 to 1 by mass of water), temperatures mixed
    /// by mass as well.
    ///
    /// # Errors
    /// Those of the solver; [`Error::OutOfRange`] for the share.
    pub fn mixed_with(&self, other: &Self, share: f64) -> Result<Self, Error> {
        within("share of the second water", share, "", 0.0, 1.0)?;
        let mut r = React::from(self)?;
        r.totals.iter_mut().for_each(|(_, t)| *t *= 1.0 - share);
        for (c, t) in other.conserved() {
            r.add(c, t * share);
        }
        r.charge = self.charge * (1.0 - share) + other.charge * share;
        if (self.temperature_c - other.temperature_c).abs() > 0.0 {
            r.temperature_c = self.temperature_c * (1.0 - share) + other.temperature_c * share;
            r.constants = Arc::new(Constants::at(r.temperature_c));
        }
        r.run(&[])
    }

    /// The same water with moles of a component added together with what balances its charge
    /// elsewhere; the caller states the charge that goes with it.
    ///
    /// # Errors
    /// Those of the solver.
    pub fn with_added(&self, added: &[(usize, f64)], charge: f64) -> Result<Self, Error> {
        let mut r = React::from(self)?;
        for (c, t) in added {
            r.add(*c, *t);
        }
        r.charge += charge;
        r.run(&[])
    }
}

/// A reaction path: what is conserved and under which conditions it is solved again.
struct React {
    temperature_c: f64,
    totals: Vec<(usize, f64)>,
    charge: f64,
    constants: Arc<Constants>,
    choices: Choices,
    guess_ph: f64,
}

/// One phase on the way.
struct Phase {
    entity: &'static Entity,
    ln_iap: f64,
    hold: Hold,
    given: f64,
    active: bool,
}

impl React {
    fn from(e: &Equilibrium) -> Result<Self, Error> {
        if !e.choices.coupled.is_empty() {
            return Err(Error::Unclear {
                quantity: "redox couples".into(),
                found: "closed at a given Eh".into(),
                expected: "all couples apart: with Eh given from outside a path conserves no electrons".into(),
            });
        }
        Ok(Self {
            temperature_c: e.temperature_c,
            totals: e.conserved(),
            charge: e.charge,
            constants: Arc::clone(&e.constants),
            choices: e.choices.clone(),
            guess_ph: e.ph(),
        })
    }

    fn add(&mut self, component: usize, moles: f64) {
        match self.totals.iter_mut().find(|(c, _)| *c == component) {
            Some(t) => t.1 += moles,
            None => self.totals.push((component, moles)),
        }
    }

    fn phases(&self, holds: &[Hold]) -> Result<Vec<Phase>, Error> {
        let net = network::network();
        holds
            .iter()
            .map(|h| {
                let entity = find_phase(net, &h.name)?;
                Ok(Phase {
                    entity,
                    ln_iap: (entity.log_k(&self.constants.rows) + h.target) * LN_10,
                    hold: h.clone(),
                    given: 0.0,
                    active: true,
                })
            })
            .collect()
    }

    fn run(self, holds: &[Hold]) -> Result<Equilibrium, Error> {
        let mut phases = self.phases(holds)?;
        leave_out_less_stable(&mut phases);
        for _ in 0..3 * phases.len() + 3 {
            let result = self.solve(&phases)?;
            let mut changed = false;
            let mut k = 0;
            for p in &mut phases {
                if p.active {
                    let n = result.transfers[k].1;
                    k += 1;
                    if n > p.hold.available_mol_kg * (1.0 + 1e-12) {
                        p.active = false;
                        p.given = p.hold.available_mol_kg;
                        changed = true;
                    }
                }
            }
            // Only where no phase left in this round, and one at a time: after a change the saturation seen here is
            // out of date.
            for p in &mut phases {
                let over = result.saturation_index(p.entity).is_some_and(|si| si > p.hold.target + 1e-9);
                if !changed && !p.active && over && p.hold.available_mol_kg.is_finite() {
                    p.active = true;
                    p.given = 0.0;
                    changed = true;
                }
            }
            if !changed {
                return Ok(Self::named(result, &phases));
            }
        }
        Err(Error::NotConverged {
            equation: said::PhasesPresent.into(),
            iterations: 3 * phases.len() + 3,
            residual: f64::INFINITY,
        })
    }

    fn named(mut result: Equilibrium, phases: &[Phase]) -> Equilibrium {
        let mut active = result.transfers.iter();
        result.transfers = phases
            .iter()
            .map(|p| {
                let n = if p.active { active.next().map_or(0.0, |t| t.1) } else { p.given };
                (p.hold.name.clone(), n)
            })
            .collect();
        result
    }

    /// Solves with the active phases held; moves their saturation in steps where one is too far.
    fn solve(&self, phases: &[Phase]) -> Result<Equilibrium, Error> {
        let net = network::network();
        let mut totals = self.totals.clone();
        for p in phases.iter().filter(|p| !p.active && p.given > 0.0) {
            for (c, n) in p.entity.terms.iter().filter(|(c, _)| *c > ELECTRON) {
                match totals.iter_mut().find(|(d, _)| d == c) {
                    Some(t) => t.1 += n * p.given,
                    None => totals.push((*c, n * p.given)),
                }
            }
        }
        let mut present: Vec<usize> = totals.iter().filter(|(_, t)| *t >= SMALLEST_TOTAL).map(|(c, _)| *c).collect();
        let active: Vec<&Phase> = phases.iter().filter(|p| p.active).collect();
        for p in &active {
            // A phase may bring an element that the water has not: its balance must be there before it dissolves.
            present.extend(p.entity.terms.iter().map(|(c, _)| *c).filter(|c| *c > ELECTRON));
        }
        let system = Arc::new(System::new(net, &present, &self.choices));
        let ln_k = system.ln_k(&self.constants.rows);
        let mut balance = vec![Balance::Total(0.0); system.width()];
        balance[PROTON] = Balance::Charge(self.charge);
        for (c, t) in &totals {
            if let Some(at) = system.position(*c) {
                balance[at] = Balance::Total(*t);
            }
        }
        let eq =
            Equations { system: &system, ln_k: &ln_k, dh: debye_hueckel(self.temperature_c), balance, held: vec![] };
        let solution = self.with_phases(eq, &active)?;
        let c = Composition {
            temperature_c: self.temperature_c,
            ph: Ph::FromCharge,
            totals: vec![],
            alkalinity: None,
            pe: None,
            choices: self.choices.clone(),
        };
        let mut result = wrap(&c, &system, &self.constants, solution);
        result.charge = self.charge;
        result.transfers =
            active.iter().zip(&result.solution.transfer).map(|(p, n)| (p.hold.name.clone(), *n)).collect();
        Ok(result)
    }

    fn with_phases(&self, mut eq: Equations, active: &[&Phase]) -> Result<Solution, Error> {
        if active.is_empty() {
            return eq.solve();
        }
        // A trace of each phase is dissolved first, so that every activity is finite.
        let seed = 1e-8;
        let real = eq.balance.clone();
        for p in active {
            for (c, n) in &p.entity.terms {
                if let Some(at) = eq.system.position(*c)
                    && let Balance::Total(t) = &mut eq.balance[at]
                {
                    *t += n.max(0.0) * seed;
                }
            }
        }
        let mut at = match eq.solve() {
            Ok(s) => s,
            Err(Error::NoSolution { .. }) => {
                // Only the phases bring the ions that balance the charge: start at a given pH.
                eq.balance[PROTON] = Balance::FixedLnActivity(-self.guess_ph * LN_10);
                eq.solve()?
            }
            Err(e) => return Err(e),
        };
        let started_at_ph = matches!(eq.balance[PROTON], Balance::FixedLnActivity(_));
        at.transfer = vec![seed; active.len()];
        eq.balance = real;
        let start_charge = dot(eq.system.charges(), &at.molality);
        let start: Vec<f64> = active.iter().map(|p| ln_iap(&eq, p, &at)).collect();
        let (mut done, mut step) = (0.0_f64, 1.0_f64);
        let mut iterations = 0;
        while done < 1.0 {
            let to = (done + step).min(1.0);
            eq.held = active
                .iter()
                .zip(&start)
                .map(|(p, s)| Held {
                    terms: positions(&eq, p),
                    ln_iap: s + (p.ln_iap - s) * to,
                    name: p.hold.name.clone(),
                })
                .collect();
            if started_at_ph {
                eq.balance[PROTON] = Balance::Charge(start_charge + (self.charge - start_charge) * to);
            }
            match eq.solve_near(&at) {
                Ok(s) => {
                    iterations += s.iterations;
                    at = s;
                    done = to;
                    step *= 2.0;
                }
                Err(e) if step < 1e-3 => return Err(e),
                Err(_) => step *= 0.25,
            }
        }
        at.iterations = iterations;
        Ok(at)
    }
}

fn positions(eq: &Equations, p: &Phase) -> Vec<(usize, f64)> {
    p.entity.terms.iter().filter_map(|(c, n)| eq.system.position(*c).map(|at| (at, *n))).collect()
}

fn ln_iap(eq: &Equations, p: &Phase, s: &Solution) -> f64 {
    positions(eq, p).iter().map(|(at, n)| n * s.x[*at]).sum()
}

/// A solid or gas of the table by its name.
///
/// # Errors
/// [`Error::Unclear`] with the names that are known.
pub fn find_phase<'n>(net: &'n Network, name: &str) -> Result<&'n Entity, Error> {
    let plain = name.trim_end_matches("(g)");
    net.solids.iter().chain(&net.gases).find(|e| e.name == plain || e.name == name).ok_or_else(|| Error::Unclear {
        quantity: "solid or gas".into(),
        found: name.into(),
        expected: format!(
            "one of {}",
            net.solids.iter().chain(&net.gases).map(|e| e.name.as_str()).collect::<Vec<_>>().join(", ")
        )
        .into(),
    })
}

/// Of two phases of one formula only the more stable can be at equilibrium; the other dissolves.
fn leave_out_less_stable(phases: &mut [Phase]) {
    for a in 0..phases.len() {
        for b in 0..phases.len() {
            if a == b || !phases[b].active || !phases[a].active {
                continue;
            }
            let same = phases[a].entity.terms == phases[b].entity.terms;
            let less_stable = (phases[b].ln_iap, b) > (phases[a].ln_iap, a);
            if same && less_stable {
                phases[b].active = false;
                let n = phases[b].hold.available_mol_kg;
                phases[b].given = if n.is_finite() { n } else { 0.0 };
            }
        }
    }
}
