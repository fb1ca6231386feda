//! How a value came to be: a directed graph of named nodes, inputs before what uses them.
//! A node carries what a chemist would write beside a line of a worked example: name, value
//! with unit, the step in words, where the step was published, and which nodes went in.
//! Nodes shared by many results (a calibration line, a blank mean) stand once in a run's
//! graph; [`Derivation::of`] cuts out the part that one result stands on.

use crate::Amount;
use serde::{Deserialize, Serialize};

/// Index of a node in its derivation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct NodeId(pub usize);

/// One step, or one given number.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Node {
    /// What it is, in the field's words: "rate after dead time, Pb 208".
    pub name: String,
    /// Its value with unit and u.
    pub amount: Amount,
    /// The step as a formula or in words: "N / (1 − N·τ)"; empty for a given number.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub step: String,
    /// Where the step is published, or where the given number comes from (file, row, column).
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub source: String,
    /// The nodes it was computed from, in the order the step names them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub inputs: Vec<NodeId>,
}

/// One input's part in the variance of a result.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Contribution {
    /// The input's name.
    pub input: String,
    /// Its u in the unit of the result.
    pub u: f64,
    /// Its share of the variance, 0 to 1; the shares of a budget add up to 1.
    pub share: f64,
}

/// A graph of nodes, inputs first, the last node being the result.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct Derivation {
    /// The method in words.
    pub method: String,
    /// Published sources of the method as a whole.
    pub sources: Vec<String>,
    /// The nodes; `inputs` point to earlier ones only.
    pub nodes: Vec<Node>,
    /// The uncertainty budget of the last node.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub budget: Vec<Contribution>,
}

impl Derivation {
    /// An empty graph for a method.
    pub fn new(method: impl Into<String>, sources: &[&str]) -> Self {
        Self { method: method.into(), sources: sources.iter().map(ToString::to_string).collect(), ..Self::default() }
    }

    /// Adds a given number: where it comes from, and nothing before it.
    pub fn given(&mut self, name: impl Into<String>, amount: Amount, source: impl Into<String>) -> NodeId {
        self.push(Node { name: name.into(), amount, step: String::new(), source: source.into(), inputs: vec![] })
    }

    /// Adds a computed step.
    pub fn step(
        &mut self,
        name: impl Into<String>,
        amount: Amount,
        step: impl Into<String>,
        source: impl Into<String>,
        inputs: &[NodeId],
    ) -> NodeId {
        self.push(Node { name: name.into(), amount, step: step.into(), source: source.into(), inputs: inputs.to_vec() })
    }

    /// Adds a node.
    ///
    /// # Panics
    /// When an input does not stand before it: the graph would no longer be a derivation.
    pub fn push(&mut self, node: Node) -> NodeId {
        let id = NodeId(self.nodes.len());
        assert!(node.inputs.iter().all(|i| *i < id), "inputs stand before what uses them");
        self.nodes.push(node);
        id
    }

    /// The node behind an id.
    pub fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id.0]
    }

    /// The result: the last node.
    pub fn result(&self) -> Option<&Node> {
        self.nodes.last()
    }

    /// The part of the graph that `root` stands on, renumbered, with `root` last.
    #[must_use]
    pub fn of(&self, root: NodeId) -> Self {
        let mut wanted = vec![false; root.0 + 1];
        wanted[root.0] = true;
        for i in (0..=root.0).rev() {
            if wanted[i] {
                for input in &self.nodes[i].inputs {
                    wanted[input.0] = true;
                }
            }
        }
        let mut new_id = vec![NodeId(0); root.0 + 1];
        let mut nodes = Vec::new();
        for i in (0..=root.0).filter(|i| wanted[*i]) {
            new_id[i] = NodeId(nodes.len());
            let mut node = self.nodes[i].clone();
            for input in &mut node.inputs {
                *input = new_id[input.0];
            }
            nodes.push(node);
        }
        Self { method: self.method.clone(), sources: self.sources.clone(), nodes, budget: vec![] }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Unit;

    #[test]
    fn a_cut_keeps_only_what_the_result_stands_on() {
        let one = || Amount::stated(1.0, Unit::one());
        let mut d = Derivation::new("test", &[]);
        let a = d.given("a", one(), "");
        let b = d.given("b", one(), "");
        let c = d.step("c", one(), "2·b", "", &[b]);
        d.step("d", one(), "a + c", "", &[a, c]);
        let cut = d.of(c);
        let names: Vec<_> = cut.nodes.iter().map(|n| n.name.as_str()).collect();
        assert_eq!(names, ["b", "c"]);
        assert_eq!(cut.nodes[1].inputs, [NodeId(0)]);
    }
}
