//! Do the charges of an analysis balance, as the trade computes it: over what was analysed, in meq/L?
//!
//! In: the analysis in components (mol/kg water with u), the solved water, a [`Rule`]. Out: [`Balance`]: the sums of
//! cations and anions in meq/L with u, their difference in percent by the rule's formula, and whether it is inside the
//! rule's gate.
//!
//! Each constituent counts with its analysed amount and the charge that it has at the end point of an alkalinity
//! titration (CO2, H2PO4−, H2S, B(OH)3, H4SiO4, NH4+, aquo metal ions); alkalinity counts once, for all that it holds:
//! carbonate, borate, silicate, sulfide, phosphate, hydroxide. So nothing stands in both sums, and complexes do not
//! move the answer. Where alkalinity was not measured it is that of the solved water, from inorganic carbon and pH.
//!
//! Doubt: u of each amount (5 % where none is stated). A non-detect lies between nought and its limit: it gives a range,
//! not a number. A difference within its u of the gate, a range with the gate in it, and an analysis without one of its
//! major ions cannot be told. Valid for fresh to brackish water, 0 to 60 °C; colloidal iron and aluminium of an
//! unfiltered bottle count as dissolved ions. Rules: `reference/charge_balance_rules.csv`, each with its source.
//! Checked in `tests/balance.rs`.

use crate::analysis::{ASSUMED_U_PH, Analysis, Bound, Interpreted};
use crate::equilibrium::Equilibrium;
use crate::network::network;
use crate::water::density_kg_l;
use core::f64::consts::LN_10;
use std::sync::OnceLock;

/// What the difference of the two sums is divided by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Formula {
    /// 100·(cations − anions)/(cations + anions).
    Sum,
    /// 100·(cations − anions)/(½·(cations + anions)): twice the other.
    HalfSum,
}

/// A gate that holds from some sum of anions on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gate {
    /// Holds for anion sums over this, meq/L.
    pub anions_over_meq_l: f64,
    /// Largest difference either way, in percent by the formula or in meq/L.
    pub width: f64,
    /// True where the width is meq/L of difference, not percent.
    pub in_meq_l: bool,
}

/// Formula and gates of one named rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// Key of the rule: `freeze-cherry`; the catalogue `balance_rule` says it.
    pub key: String,
    /// Formula.
    pub formula: Formula,
    /// Gates by rising anion sum, the first from nought.
    pub gates: Vec<Gate>,
    /// Where it is published.
    pub source: String,
}

/// Key of the rule where nobody chose one.
const USUAL: &str = "freeze-cherry";

impl Default for Rule {
    fn default() -> Self {
        Self::named(USUAL).expect("the usual rule is a row of the table")
    }
}

fn rules() -> &'static [Rule] {
    static RULES: OnceLock<Vec<Rule>> = OnceLock::new();
    RULES.get_or_init(|| {
        let table = include_str!("../../../reference/charge_balance_rules.csv");
        let mut out: Vec<Rule> = vec![];
        for row in csv::Reader::from_reader(table.as_bytes()).records() {
            let row = row.expect("the table of rules is well-formed CSV");
            let number = |k: usize| row[k].parse().expect("sums and gates are numbers");
            let gate = Gate { anions_over_meq_l: number(2), width: number(3), in_meq_l: &row[4] == "meq/L" };
            if let Some(standing) = out.iter_mut().find(|r| r.key == row[0]) {
                standing.gates.push(gate);
                continue;
            }
            let formula = if &row[1] == "half-sum" { Formula::HalfSum } else { Formula::Sum };
            let source = format!("{} ({})", &row[5], &row[6]);
            out.push(Rule { key: row[0].into(), formula, gates: vec![gate], source });
        }
        out
    })
}

impl Rule {
    /// The published rule of a key.
    pub fn named(key: &str) -> Option<Self> {
        rules().iter().find(|r| r.key == key).cloned()
    }

    /// Keys of all published rules.
    pub fn keys() -> Vec<&'static str> {
        rules().iter().map(|r| r.key.as_str()).collect()
    }

    /// The usual rule, or one gate over the sum where a programme set another, percent.
    pub fn with_gate(percent: f64) -> Self {
        let usual = Self::default();
        if usual.gate_percent() == Some(percent) {
            return usual;
        }
        let gates = vec![Gate { anions_over_meq_l: 0.0, width: percent, in_meq_l: false }];
        Self { key: "programme".into(), formula: Formula::Sum, gates, source: "the programme's own gate".into() }
    }

    /// The gate in percent of a rule that has one for all waters.
    pub fn gate_percent(&self) -> Option<f64> {
        match &self.gates[..] {
            [only] if !only.in_meq_l => Some(only.width),
            _ => None,
        }
    }

    /// The gate for a sum of anions, meq/L.
    pub fn gate(&self, anions_meq_l: f64) -> Gate {
        let holds = |g: &&Gate| anions_meq_l > g.anions_over_meq_l;
        *self.gates.iter().rev().find(holds).unwrap_or(&self.gates[0])
    }

    /// The difference of two sums in percent; 0 where there is nothing.
    fn percent(&self, cations: f64, anions: f64) -> f64 {
        let sum = cations + anions;
        if sum > 0.0 { self.factor() * (cations - anions) / sum } else { 0.0 }
    }

    fn factor(&self) -> f64 {
        match self.formula {
            Formula::Sum => 100.0,
            Formula::HalfSum => 200.0,
        }
    }
}

/// What one side holds, meq/L.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Side {
    /// Found.
    pub meq_l: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// What may come to it: limits of what was not detected; infinite beside a result that is only a lower bound.
    pub open: f64,
}

impl Side {
    pub(crate) fn add(&mut self, meq_l: f64, u: f64, bound: Bound) {
        match bound {
            Bound::Value => {
                self.meq_l += meq_l;
                self.u = libm::hypot(self.u, u);
            }
            Bound::Below => self.open += meq_l,
            Bound::Above => {
                self.meq_l += meq_l;
                self.open = f64::INFINITY;
            }
        }
    }
}

/// The charge balance of an analysis.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// Cations.
    pub cations: Side,
    /// Anions, alkalinity among them.
    pub anions: Side,
    /// Symbols of major ions that nobody looked for.
    pub lacking: Vec<&'static str>,
    /// Alkalinity or inorganic carbon is among what nobody looked for, in a water that may hold them.
    pub lacks_carbon: bool,
    /// A u of 5 % was assumed for at least one amount.
    pub u_assumed: bool,
    /// The rule.
    pub rule: Rule,
}

/// What a rule says of a balance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// Inside the gate.
    Inside,
    /// Beyond it.
    Beyond,
    /// Doubt, a non-detect or a missing ion leaves it open.
    CannotTell,
}

/// A difference held against its gate, both in percent by the formula or both in meq/L.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// The answer.
    pub answer: Answer,
    /// The gate.
    pub gate: Gate,
    /// Least difference, cations less anions.
    pub low: f64,
    /// Largest difference.
    pub high: f64,
    /// Standard uncertainty of either.
    pub u: f64,
}

/// Range of a difference that prints as one number, percent.
// Half of it either way is half of the last digit that a balance is shown with.
const ONE_NUMBER: f64 = 0.1;

/// Range of a difference that its u covers, as a share of it.
// As a rectangle (JCGM 100:2008, 4.3.7) it would add a quarter of a percent to u.
const LOST_IN_U: f64 = 0.25;

/// Under this pH a water holds no alkalinity.
// The end point of its titration (Standard Methods 2320, from memory).
const END_POINT_PH: f64 = 4.5;

/// The balance of an analysis; `e` is the same water solved, before any phase is held.
pub fn balance(a: &Analysis, i: &Interpreted, e: &Equilibrium) -> Balance {
    let (mut cations, mut anions) = (Side::default(), Side::default());
    let meq_l = density_kg_l(e.temperature_c) * 1e3;
    for x in &i.entries {
        let c = &network().components[x.component];
        // Charge at the end point: that of the component with the protons that it takes up on the way.
        let z = f64::from(c.charge) + c.alkalinity;
        if z == 0.0 {
            continue;
        }
        let side = if z > 0.0 { &mut cations } else { &mut anions };
        side.add(z.abs() * x.molality * meq_l, z.abs() * x.u * meq_l, x.bound);
    }
    let (alkalinity, u, bound) = alkalinity(a, i, e);
    // Less alkalinity than none is free acid, a cation.
    let side = if alkalinity < 0.0 { &mut cations } else { &mut anions };
    side.add(alkalinity.abs() * meq_l, u * meq_l, bound);
    if i.alkalinity.as_ref().is_some_and(|x| x.bound == Bound::Below || x.eq_kg == 0.0) {
        // A titration that found nothing leaves the acid of the water to be counted.
        cations.add(e.molality("H+") * meq_l, 0.0, Bound::Value);
    }
    let counted = |x: &&crate::analysis::Entry| x.bound == Bound::Value && x.molality > 0.0;
    Balance {
        cations,
        anions,
        lacking: i.major_ions_lacking(),
        lacks_carbon: !i.has_carbon() && e.ph() >= END_POINT_PH,
        u_assumed: i.entries.iter().filter(counted).any(|x| !x.u_stated)
            || i.alkalinity.as_ref().is_some_and(|x| !x.u_stated && x.bound == Bound::Value),
        rule: a.balance_rule.clone(),
    }
}

/// Alkalinity with u, eq/kg: as measured, else of the solved water.
fn alkalinity(a: &Analysis, i: &Interpreted, e: &Equilibrium) -> (f64, f64, Bound) {
    if let Some(x) = &i.alkalinity {
        return (x.eq_kg, x.u, x.bound);
    }
    let solved = e.alkalinity();
    let carbon = network().component("CO3^2-");
    let Some(carbon) = i.entries.iter().find(|x| Some(x.component) == carbon && x.molality > 0.0) else {
        return (solved, 0.0, Bound::Value);
    };
    let [c0, c1, c2] = ["CO2(aq)", "HCO3-", "CO3^2-"].map(|s| e.molality(s));
    // d(alkalinity)/d(pH) at constant carbon: the buffer of the carbonates (Stumm & Morgan 1996, ch. 3, from memory).
    let by_ph = LN_10 * (c0 * c1 + c1 * c2 + 4.0 * c0 * c2) / carbon.molality;
    let u_ph = if a.ph.is_some() { a.u_ph.unwrap_or(ASSUMED_U_PH) } else { 0.0 };
    let u = libm::hypot((c1 + 2.0 * c2) * carbon.u / carbon.molality, by_ph * u_ph);
    (solved, u, carbon.bound)
}

impl Balance {
    /// The difference in percent by the rule's formula, the middle of its range; `None` where non-detects move it by more
    /// than it is shown to and more than a quarter of its u, and where there are no charges.
    pub fn percent(&self) -> Option<f64> {
        let (low, high) = self.range_percent();
        let any = self.cations.meq_l + self.anions.meq_l > 0.0;
        (any && high - low < ONE_NUMBER.max(LOST_IN_U * self.u_percent())).then_some(0.5 * (low + high))
    }

    /// Least and largest difference in percent, over all that non-detects may hold.
    pub fn range_percent(&self) -> (f64, f64) {
        let (c, a) = (&self.cations, &self.anions);
        let end = |open: f64, at: f64, beyond: f64| if open.is_finite() { at } else { beyond };
        let factor = self.rule.factor();
        (
            end(a.open, self.rule.percent(c.meq_l, a.meq_l + a.open), -factor),
            end(c.open, self.rule.percent(c.meq_l + c.open, a.meq_l), factor),
        )
    }

    /// Standard uncertainty of the difference, percent: that of what was found.
    pub fn u_percent(&self) -> f64 {
        let (c, a) = (&self.cations, &self.anions);
        let sum = c.meq_l + a.meq_l;
        // (c − a)/(c + a): derivatives 2a/(c + a)² by c and −2c/(c + a)² by a.
        if sum > 0.0 {
            self.rule.factor() * 2.0 * libm::hypot(a.meq_l / sum * c.u / sum, c.meq_l / sum * a.u / sum)
        } else {
            0.0
        }
    }

    /// Holds the difference against the rule's gate: inside or beyond by more than its u, over all that non-detects may
    /// hold; else it cannot be told.
    pub fn judged(&self) -> Judged {
        let (c, a) = (&self.cations, &self.anions);
        let gate = self.rule.gate(a.meq_l);
        let ((low, high), u) = if gate.in_meq_l {
            let difference = c.meq_l - a.meq_l;
            ((difference - a.open, difference + c.open), libm::hypot(c.u, a.u))
        } else {
            (self.range_percent(), self.u_percent())
        };
        let complete = self.lacking.is_empty() && !self.lacks_carbon && c.meq_l + a.meq_l > 0.0;
        let answer = if !complete {
            Answer::CannotTell
        } else if low - u >= -gate.width && high + u <= gate.width {
            Answer::Inside
        } else if low - u > gate.width || high + u < -gate.width {
            Answer::Beyond
        } else {
            Answer::CannotTell
        };
        Judged { answer, gate, low, high, u }
    }
}
