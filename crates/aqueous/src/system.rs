//! Components and species of one kind of water, compiled to flat arrays for the solvers.
//!
//! In: the network, the components present, what is left out or coupled on purpose. Out:
//! [`System`] — which species those components make, with charges, activity classes and counts.
//! A closed redox couple is substitution: its reduced end is written with the oxidised one, H+
//! and e−. No numbers of a water stand here; many waters share one system.
//! Checked in `tests/solver.rs`, `tests/calc.rs` (coupled and apart).

use crate::activity::Class;
use crate::network::{ELECTRON, Entity, Network, PROTON};
use core::f64::consts::LN_10;

/// Components and species of one kind of water, compiled to flat arrays.
#[derive(Debug, Clone, PartialEq)]
pub struct System {
    /// Network indices of the components; 0 is H+.
    pub components: Vec<usize>,
    /// The species in this system's terms (a coupled redox state is written in its partner's).
    pub species: Vec<Entity>,
    pub(crate) component_charge: Vec<f64>,
    pub(crate) start: Vec<u32>,
    pub(crate) column: Vec<u32>,
    pub(crate) count: Vec<f64>,
    pub(crate) charge: Vec<f64>,
    pub(crate) alkalinity: Vec<f64>,
    pub(crate) class_of: Vec<u32>,
    pub(crate) classes: Vec<Class>,
    pub(crate) names: Vec<String>,
}

/// What is left out, and what is coupled, on purpose.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Choices {
    /// Leave metal bisulfide complexes out (very uncertain constants).
    pub without_bisulfides: bool,
    /// Bring in the species that only a rival set knows, for draws and rival answers.
    pub with_rivals: bool,
    /// Half reactions (indices of `Network::couples`) at equilibrium with a given pe; the totals
    /// of both ends are then one total. All other couples are held apart.
    pub coupled: Vec<usize>,
}

/// A metal bound to HS−, as opposed to HS− and H2S themselves.
pub fn is_bisulfide_complex(network: &Network, e: &Entity) -> bool {
    let sulfide = network.component("HS-");
    sulfide.is_some_and(|h| e.count(h) != 0.0) && e.terms.iter().any(|(c, _)| *c != PROTON && Some(*c) != sulfide)
}

impl System {
    /// The system of the components given (network indices). H+ is always in; e− where a couple
    /// is closed.
    pub fn new(network: &Network, present: &[usize], choices: &Choices) -> Self {
        let replaced: Vec<(usize, Entity)> =
            choices.coupled.iter().filter_map(|k| network.couples[*k].solved_for_reduced()).collect();
        let mut components: Vec<usize> = present.to_vec();
        components.push(PROTON);
        for (reduced, e) in &replaced {
            // Either end brings the pair in: the oxidised end carries the balance.
            if components.contains(reduced) || e.terms.iter().any(|(c, _)| components.contains(c)) {
                components.extend(e.terms.iter().map(|(c, _)| *c));
            }
        }
        components.retain(|c| !replaced.iter().any(|(r, _)| r == c));
        components.sort_unstable();
        components.dedup();
        let mut s = Self {
            species: Vec::new(),
            start: vec![0],
            column: Vec::new(),
            count: Vec::new(),
            charge: Vec::new(),
            alkalinity: Vec::new(),
            class_of: Vec::new(),
            classes: Vec::new(),
            component_charge: Vec::new(),
            names: Vec::new(),
            components,
        };
        for c in &s.components {
            s.names.push(network.components[*c].label.clone());
            s.component_charge.push(f64::from(network.components[*c].charge));
        }
        for (i, e) in network.species.iter().enumerate() {
            let left_out = choices.without_bisulfides && is_bisulfide_complex(network, e);
            if i == ELECTRON || left_out || (e.rival_only && !choices.with_rivals) {
                continue;
            }
            let e = replaced.iter().fold(e.clone(), |e, (c, by)| e.with(*c, by));
            if e.terms.iter().all(|(c, _)| s.components.contains(c)) {
                s.push(e);
            }
        }
        s
    }

    fn push(&mut self, e: Entity) {
        self.charge.push(f64::from(e.charge));
        self.alkalinity.push(e.alkalinity);
        let known = self.classes.iter().position(|c| *c == e.class);
        let k = known.unwrap_or_else(|| {
            self.classes.push(e.class);
            self.classes.len() - 1
        });
        self.class_of.push(k as u32);
        for (c, n) in &e.terms {
            let at = self.position(*c).expect("all components of the species are present");
            self.column.push(at as u32);
            self.count.push(*n);
        }
        self.start.push(self.column.len() as u32);
        self.species.push(e);
    }

    /// ln K of formation of each species from the values of the table's rows (log10).
    pub fn ln_k(&self, rows: &[f64]) -> Vec<f64> {
        self.species.iter().map(|e| e.log_k(rows) * LN_10).collect()
    }

    /// Number of components, H+ among them.
    pub fn width(&self) -> usize {
        self.components.len()
    }

    /// Position of a network component in this system.
    pub fn position(&self, component: usize) -> Option<usize> {
        self.components.iter().position(|c| *c == component)
    }

    /// Terms of a species: position of the component and count.
    pub fn terms(&self, species: usize) -> impl Iterator<Item = (usize, f64)> + '_ {
        let range = self.start[species] as usize..self.start[species + 1] as usize;
        range.map(|t| (self.column[t] as usize, self.count[t]))
    }

    /// Charge number of a component by position.
    pub fn component_charge(&self, position: usize) -> f64 {
        self.component_charge[position]
    }

    /// Charge numbers of the species.
    pub fn charges(&self) -> &[f64] {
        &self.charge
    }

    /// Alkalinity held by one mole of each species, eq/mol.
    pub fn alkalinities(&self) -> &[f64] {
        &self.alkalinity
    }

    /// Activity classes in use and the class of each species.
    pub fn class_table(&self) -> (&[Class], &[u32]) {
        (&self.classes, &self.class_of)
    }

    /// Label of a component by position: `Ca`, `S(-II)`.
    pub fn label(&self, position: usize) -> &str {
        &self.names[position]
    }
}
