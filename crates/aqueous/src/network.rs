//! From a list of reactions to a network: components (the free ions that mole balances are
//! written for) and, for each dissolved species, solid, gas and half reaction, how many of each
//! component it holds and which rows of the table make up its log K.
//!
//! In: `constants` and `reference/aqueous_components.csv`. Out: [`Network`], built once.
//! Method: rows are solved for their one unknown name until none is left; log K of a species is
//! the sum of `coefficient × log K(row)`, so a draw of one row moves all that stand on it.
//! Water has activity 1 and drops out; H+ is component 0, e− component 1. The second
//! dissociation of H2S lies beyond pK 17 and is left out: sulfides are written with HS−.
//! Checked in `tests/network.rs`.

use crate::activity::Class;
use crate::constants::{self, Constant, Kind};
use std::collections::HashMap;
use std::sync::OnceLock;

/// Index of H+ among the components.
pub const PROTON: usize = 0;
/// Index of e− among the components.
pub const ELECTRON: usize = 1;

/// A free ion (or neutral molecule) that a mole balance is written for.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Name as in reactions: `Ca^2+`, `CO3^2-`, `H4SiO4`.
    pub name: String,
    /// Charge number.
    pub charge: i32,
    /// Element symbol.
    pub element: String,
    /// Element with its valence where the network holds more than one: `S(-II)`.
    pub label: String,
    /// Protons taken up on the way to the end point of an alkalinity titration (pH near 4.5).
    pub alkalinity: f64,
    /// What the table says of it beside the numbers.
    pub note: String,
}

/// Something made of components: a dissolved species, a solid, a gas, a half reaction.
#[derive(Debug, Clone, PartialEq)]
pub struct Entity {
    /// Name as shown.
    pub name: String,
    /// Charge number (0 for solids, gases, half reactions).
    pub charge: i32,
    /// Component index and how many of it one formula holds.
    pub terms: Vec<(usize, f64)>,
    /// Table row and its coefficient in log K.
    pub recipe: Vec<(usize, f64)>,
    /// Activity coefficient class (dissolved species only).
    pub class: Class,
    /// Protons taken up to the end point of an alkalinity titration.
    pub alkalinity: f64,
    /// Alternative tag, empty in the default set.
    pub tag: String,
    /// True for a species that the default set leaves out and a rival set knows.
    pub rival_only: bool,
}

/// The whole network.
#[derive(Debug)]
pub struct Network {
    /// Components; 0 is H+, 1 is e−.
    pub components: Vec<Component>,
    /// Dissolved species, the components among them (first, in the same order).
    pub species: Vec<Entity>,
    /// Solids of the default set; log K is that of dissolution to components.
    pub solids: Vec<Entity>,
    /// Alternative solids, `tag` set.
    pub alternative_solids: Vec<Entity>,
    /// Gases; log K is that of dissolution to components.
    pub gases: Vec<Entity>,
    /// Half reactions, `oxidised + n e− = reduced`; terms are products minus reactants.
    pub couples: Vec<Entity>,
}

impl Network {
    /// Index of a component by its name.
    pub fn component(&self, name: &str) -> Option<usize> {
        self.components.iter().position(|c| c.name == name)
    }

    /// Index of a dissolved species by its shown name.
    pub fn species_named(&self, name: &str) -> Option<usize> {
        self.species.iter().position(|s| s.name == name)
    }
}

impl Entity {
    /// log10 K from the values of the table's rows.
    pub fn log_k(&self, rows: &[f64]) -> f64 {
        self.recipe.iter().map(|(r, c)| c * rows[*r]).sum()
    }

    /// Standard uncertainty of log10 K at a temperature, rows taken as independent.
    pub fn u_log_k(&self, t_c: f64) -> f64 {
        let table = constants::table();
        let var: f64 = self
            .recipe
            .iter()
            .map(|(r, c)| {
                let u = c * table[*r].u_at(t_c);
                u * u
            })
            .sum();
        libm::sqrt(var)
    }

    /// The same with one component written as `by` (its expression in other components).
    #[must_use]
    pub fn with(mut self, component: usize, by: &Self) -> Self {
        let n = self.count(component);
        if n != 0.0 {
            self.terms.retain(|(c, _)| *c != component);
            add(&mut self.terms, &by.terms, n);
            add(&mut self.recipe, &by.recipe, n);
        }
        self
    }

    /// A half reaction solved for its reduced end: the component and its expression
    /// (for O2/H2O, O2 itself: its other end is water).
    pub fn solved_for_reduced(&self) -> Option<(usize, Self)> {
        let ends = |sign: f64| self.terms.iter().find(move |(c, n)| *c > ELECTRON && n * sign > 0.0);
        let (component, own) = *ends(1.0).or_else(|| ends(-1.0))?;
        let mut e = self.clone();
        e.terms.retain(|(c, _)| *c != component);
        // own·x + Σ others = log K.
        e.terms.iter_mut().for_each(|t| t.1 /= -own);
        e.recipe.iter_mut().for_each(|t| t.1 /= own);
        Some((component, e))
    }

    /// How many of a component one formula holds.
    pub fn count(&self, component: usize) -> f64 {
        self.terms.iter().find(|(c, _)| *c == component).map_or(0.0, |(_, n)| *n)
    }
}

/// log10 K of every row of the table at a temperature.
pub fn row_values(t_c: f64) -> Vec<f64> {
    constants::table().iter().map(|c| c.log_k(t_c)).collect()
}

/// The network of the table, built once.
pub fn network() -> &'static Network {
    static NETWORK: OnceLock<Network> = OnceLock::new();
    NETWORK.get_or_init(build)
}

/// Charge from the end of a name.
pub fn charge_of(name: &str) -> i32 {
    quantity::formula::parted(name).1
}

/// Protons that a component takes up between its own form and the end point near pH 4.5
/// (Stumm & Morgan's reference level: CO2, H2PO4−, H2S, B(OH)3, H4SiO4, NH4+, aquo metal ions; HCrO4−, H2VO4−,
/// MoO4−−, Sb(OH)6− among the oxyanions of metals).
fn alkalinity_of(name: &str) -> f64 {
    match name {
        "CO3^2-" | "PO4^3-" => 2.0,
        "HS-" | "CrO4^2-" => 1.0,
        "H+" => -1.0,
        _ => 0.0,
    }
}

type Expressed = (Vec<(usize, f64)>, Vec<(usize, f64)>);

struct Builder {
    known: HashMap<String, Expressed>,
}

impl Builder {
    /// Sums the terms of a reaction except `skip` (and water) in components and table rows.
    fn sum(&self, terms: &[(String, f64)], skip: &str) -> Option<Expressed> {
        let mut of = Vec::new();
        let mut recipe = Vec::new();
        for (name, n) in terms.iter().filter(|(t, _)| t != skip && t != "H2O") {
            let (t, r) = self.known.get(name)?;
            add(&mut of, t, *n);
            add(&mut recipe, r, *n);
        }
        Some((of, recipe))
    }

    /// Expresses `name` (one of the reaction's terms) by the others.
    fn solve_for(&self, terms: &[(String, f64)], name: &str, row: usize) -> Option<Expressed> {
        let own = terms.iter().find(|(t, _)| t == name)?.1;
        let (mut of, mut recipe) = self.sum(terms, name)?;
        for t in &mut of {
            t.1 /= -own;
        }
        for r in &mut recipe {
            r.1 /= -own;
        }
        // own·log a(name) + Σ n·log a = log K, and each known log a = Σ ν·log c + its own log K.
        add(&mut recipe, &[(row, 1.0 / own)], 1.0);
        Some((of, recipe))
    }
}

fn add(to: &mut Vec<(usize, f64)>, what: &[(usize, f64)], times: f64) {
    for (i, n) in what {
        match to.iter_mut().find(|(j, _)| j == i) {
            Some(t) => t.1 += n * times,
            None => to.push((*i, n * times)),
        }
    }
    to.retain(|(_, n)| n.abs() > 1e-12);
    to.sort_by_key(|(i, _)| *i);
}

fn components() -> Vec<Component> {
    let table = include_str!("../../../reference/aqueous_components.csv");
    let rows: Vec<csv::StringRecord> = csv::Reader::from_reader(table.as_bytes())
        .records()
        .map(|r| r.expect("the table of components is well-formed CSV"))
        .collect();
    let fixed = ["H+", "e-"].map(|name| Component {
        name: name.into(),
        charge: charge_of(name),
        element: if name == "H+" { "H" } else { "e" }.into(),
        label: name.into(),
        alkalinity: alkalinity_of(name),
        note: String::new(),
    });
    let listed = rows.iter().map(|r| {
        let several = rows.iter().filter(|q| q[1] == r[1]).count() > 1;
        Component {
            name: r[0].into(),
            charge: charge_of(&r[0]),
            element: r[1].into(),
            label: if several { format!("{}({})", &r[1], &r[2]) } else { r[1].into() },
            alkalinity: alkalinity_of(&r[0]),
            note: r[4].into(),
        }
    });
    fixed.into_iter().chain(listed).collect()
}

fn shown(name: &str, charge: i32) -> String {
    if charge == 0 && name != "H2O" { format!("{name}(aq)") } else { name.to_string() }
}

fn dissolved(name: &str, expressed: &Expressed, components: &[Component]) -> Entity {
    let charge = charge_of(name);
    let alkalinity = expressed.0.iter().map(|(j, n)| n * components[*j].alkalinity).sum();
    Entity {
        name: shown(name, charge),
        charge,
        terms: expressed.0.clone(),
        recipe: expressed.1.clone(),
        class: Class::of(name, charge),
        alkalinity,
        tag: String::new(),
        rival_only: false,
    }
}

fn build() -> Network {
    let components = components();
    let table = constants::table();
    let mut builder = Builder { known: HashMap::new() };
    for (i, c) in components.iter().enumerate() {
        builder.known.insert(c.name.clone(), (vec![(i, 1.0)], vec![]));
    }
    let mut species: Vec<Entity> =
        components.iter().map(|c| dissolved(&c.name, &builder.known[&c.name], &components)).collect();
    let mut open: Vec<usize> = (0..table.len())
        .filter(|i| {
            let c = &table[*i];
            // No S−−: its second dissociation lies beyond pK 17, so sulfides are written with HS−.
            c.kind == Kind::Aqueous && c.is_default() && c.name != "S^2-"
        })
        .collect();
    // Reactions may use each other's species in any order: each round adds those with one unknown name left.
    loop {
        let before = open.len();
        open.retain(|row| {
            let terms = &table[*row].terms;
            let mut unknown = terms.iter().filter(|(t, _)| t != "H2O" && !builder.known.contains_key(t));
            let (Some((name, _)), None) = (unknown.next(), unknown.next()) else {
                return true;
            };
            let e = builder.solve_for(terms, name, *row).expect("all other names of the reaction are known");
            let rival_only = table[*row].is_absent();
            species.push(Entity { rival_only, ..dissolved(name, &e, &components) });
            builder.known.insert(name.clone(), e);
            false
        });
        if open.len() == before {
            break;
        }
    }
    assert!(
        open.is_empty(),
        "reactions of the table that lead to no component: {:?}",
        open.iter().map(|r| &table[*r].name).collect::<Vec<_>>()
    );
    finish(builder, components, species)
}

fn finish(mut builder: Builder, components: Vec<Component>, species: Vec<Entity>) -> Network {
    let table = constants::table();
    let mut gases = Vec::new();
    for (row, c) in table.iter().enumerate() {
        if c.kind == Kind::Gas && c.is_default() {
            let name = c.terms[0].0.clone();
            if let Some(e) = builder.solve_for(&c.terms, &name, row) {
                gases.push(phase(c, &e, name.trim_end_matches("(g)")));
                builder.known.insert(name, e);
            }
        }
    }
    let mut solids = Vec::new();
    let mut alternative_solids = Vec::new();
    for (row, c) in table.iter().enumerate() {
        if c.kind == Kind::Mineral
            // A solid's name may be spelled like a dissolved species (PbCO3): it is the first term.
            && let Some(e) = builder.solve_for(&c.terms, &c.terms[0].0, row)
        {
            if c.is_default() {
                solids.push(phase(c, &e, &c.name));
            } else {
                alternative_solids.push(phase(c, &e, &c.name));
            }
        }
    }
    let couples = couples(&builder);
    Network { components, species, solids, alternative_solids, gases, couples }
}

/// Solids and gases: `recipe` then gives log K of dissolution to components.
fn phase(c: &Constant, e: &Expressed, name: &str) -> Entity {
    Entity {
        name: name.to_string(),
        charge: 0,
        terms: e.0.clone(),
        recipe: e.1.iter().map(|(r, n)| (*r, -n)).collect(),
        class: Class::One,
        alkalinity: 0.0,
        tag: c.tag.clone(),
        rival_only: false,
    }
}

fn couples(builder: &Builder) -> Vec<Entity> {
    let table = constants::table();
    let oxygen = table
        .iter()
        .position(|c| c.kind == Kind::Redox && c.name.starts_with("O2(aq)/"))
        .expect("the table holds the couple O2/H2O");
    let mut couples = Vec::new();
    for (row, c) in table.iter().enumerate() {
        if c.kind != Kind::Redox || c.name.contains("(g)") {
            continue;
        }
        let Some((mut of, mut recipe)) = builder.sum(&c.terms, "") else {
            continue;
        };
        for r in &mut recipe {
            r.1 = -r.1;
        }
        add(&mut recipe, &[(row, 1.0)], 1.0);
        if row != oxygen {
            // A couple written with O2 becomes a half reaction by taking O2 + 4 H+ + 4 e− away.
            let o2 = builder.known["O2"].0[0].0;
            let n = of.iter().find(|(j, _)| *j == o2).map_or(0.0, |(_, n)| *n);
            if n != 0.0 {
                let (half, _) = builder.sum(&table[oxygen].terms, "").expect("known above");
                // The half reaction holds −1 O2, so n times it leaves none.
                add(&mut of, &half, n);
                add(&mut recipe, &[(oxygen, n)], 1.0);
            }
        }
        // Electrons on the left, so that the terms read oxidised + n e− = reduced.
        if of.iter().any(|(j, n)| *j == ELECTRON && *n > 0.0) {
            for t in of.iter_mut().chain(&mut recipe) {
                t.1 = -t.1;
            }
        }
        couples.push(Entity {
            name: c.name.clone(),
            charge: 0,
            terms: of,
            recipe,
            class: Class::One,
            alkalinity: 0.0,
            tag: c.tag.clone(),
            rival_only: false,
        });
    }
    couples
}
