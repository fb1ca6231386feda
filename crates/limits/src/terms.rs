//! What stands beside a limit: what it is set for, by which rule a result is held to it, and what its authority
//! demands of the method.
//!
//! Three tables, read at compile time, each row with its source and whether that was seen or recalled:
//! `reference/limit_concerns.csv` (health, taste, operation by authority and kind; a row that names an analyte stands
//! before one that names none), `reference/limit_rules.csv` (the decision rule of each authority, JCGM 106:2012 clause
//! 8: simple acceptance, guarded acceptance, guarded rejection) and `reference/limit_methods.csv` (largest expanded
//! uncertainty in percent of the limit, or in its unit; largest quantification limit in percent; the temperature that a
//! conductivity holds at). What is not in the tables counts as health, the most serious, and as simple acceptance, and
//! says so. Checked in `tests/limits.rs`.

use message::{Message, limit as said};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

/// What a limit is set for, the most serious first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Concern {
    /// Health.
    Health,
    /// Taste, odour, colour, look.
    Taste,
    /// Treatment, pipes, monitoring.
    Operation,
}

impl Concern {
    /// As a message.
    pub fn message(self) -> Message {
        match self {
            Self::Health => said::ConcernHealth.into(),
            Self::Taste => said::ConcernTaste.into(),
            Self::Operation => said::ConcernOperation.into(),
        }
    }
}

/// How a result is held to a limit (JCGM 106:2012, 8.2 and 8.3). U is 2u.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Rule {
    /// The value itself decides.
    #[serde(rename = "simple acceptance")]
    SimpleAcceptance,
    /// "Below" takes a distance of U under the limit.
    #[serde(rename = "guarded acceptance")]
    GuardedAcceptance,
    /// "Above" takes a distance of U over the limit.
    #[serde(rename = "guarded rejection")]
    GuardedRejection,
}

impl Rule {
    /// As a message.
    pub fn message(self) -> Message {
        match self {
            Self::SimpleAcceptance => said::RuleSimpleAcceptance.into(),
            Self::GuardedAcceptance => said::RuleGuardedAcceptance.into(),
            Self::GuardedRejection => said::RuleGuardedRejection.into(),
        }
    }
}

/// What an authority demands of the method that a limit is watched with.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MethodDemand {
    /// Largest expanded uncertainty (k = 2) near the limit, percent of the limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u_percent: Option<f64>,
    /// The same in the unit of the limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub u_absolute: Option<f64>,
    /// Largest quantification limit, percent of the limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub quantification_percent: Option<f64>,
    /// Where it stands.
    pub source: String,
    /// seen or recalled.
    pub provenance: String,
}

/// All that stands beside a limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Terms {
    /// What it is set for.
    pub concern: Concern,
    /// Where that stands.
    pub concern_source: String,
    /// How a result is held to it.
    pub rule: Rule,
    /// Where that stands.
    pub rule_source: String,
    /// What is demanded of the method; none where the table has nothing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub method_demand: Option<MethodDemand>,
    /// Temperature that a limit of conductivity holds at, °C.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at_degc: Option<f64>,
}

/// Stands for the source of what no table holds.
// JCGM 106:2012, 8.2: simple acceptance is what is done where nothing else was agreed (from memory).
const RULE_NOT_STATED: &str = "no rule stated; JCGM 106:2012, 8.2 (recalled)";
const CONCERN_NOT_STATED: &str = "not stated; taken as health";

#[derive(Deserialize)]
struct ConcernRow {
    authority: String,
    kind: String,
    analyte: String,
    concern: Concern,
    source: String,
    provenance: String,
}

#[derive(Deserialize)]
struct RuleRow {
    authority: String,
    rule: Rule,
    source: String,
    provenance: String,
}

#[derive(Deserialize)]
struct MethodRow {
    authority: String,
    analyte: String,
    u_percent: Option<f64>,
    u_absolute: Option<f64>,
    quantification_percent: Option<f64>,
    at_degc: Option<f64>,
    source: String,
    provenance: String,
}

fn rows<T: serde::de::DeserializeOwned>(table: &str) -> Vec<T> {
    let read = csv::Reader::from_reader(table.as_bytes()).into_deserialize().collect::<Result<_, _>>();
    read.expect("the tables beside the limits are well-formed")
}

static CONCERNS: LazyLock<Vec<ConcernRow>> =
    LazyLock::new(|| rows(include_str!("../../../reference/limit_concerns.csv")));
static RULES: LazyLock<Vec<RuleRow>> = LazyLock::new(|| rows(include_str!("../../../reference/limit_rules.csv")));
static METHODS: LazyLock<Vec<MethodRow>> = LazyLock::new(|| rows(include_str!("../../../reference/limit_methods.csv")));

/// A source with its mark.
fn marked(source: &str, provenance: &str) -> String {
    if provenance == "seen" { source.into() } else { format!("{source} ({provenance})") }
}

impl Terms {
    /// What the tables hold of a limit, by authority, kind and analyte.
    pub fn of(authority: &str, kind: &str, analyte: &str) -> Self {
        let of_kind = |r: &&ConcernRow| r.authority == authority && r.kind == kind;
        let concern = CONCERNS
            .iter()
            .filter(of_kind)
            .find(|r| r.analyte == analyte)
            .or_else(|| CONCERNS.iter().filter(of_kind).find(|r| r.analyte.is_empty()));
        let rule = RULES.iter().find(|r| r.authority == authority);
        let method = METHODS.iter().find(|r| r.authority == authority && r.analyte == analyte);
        Self {
            concern: concern.map_or(Concern::Health, |r| r.concern),
            concern_source: concern.map_or_else(|| CONCERN_NOT_STATED.into(), |r| marked(&r.source, &r.provenance)),
            rule: rule.map_or(Rule::SimpleAcceptance, |r| r.rule),
            rule_source: rule.map_or_else(|| RULE_NOT_STATED.into(), |r| marked(&r.source, &r.provenance)),
            at_degc: method.and_then(|r| r.at_degc),
            method_demand: method.map(|r| MethodDemand {
                u_percent: r.u_percent,
                u_absolute: r.u_absolute,
                quantification_percent: r.quantification_percent,
                source: r.source.clone(),
                provenance: r.provenance.clone(),
            }),
        }
    }
}
