//! How a value came to be: a directed graph of named nodes, inputs before what uses them.
//! A node carries what a chemist would write beside a line of a worked example: name, value
//! with unit, the step in words, where the step was published, and which nodes went in.
//! Nodes shared by many results (a calibration line, a blank mean) stand once in a run's
//! graph; [`Derivation::of`] cuts out the part that one result stands on.
//!
//! What a derivation says in words is a message, kept beside its English: `says` where `method`, `name`, `step`, `source`
//! and `input` are the English, left out where there is none. Text alone ([`Said::Text`]) is what is the same in every
//! language: a formula without words in it, a symbol, a name, a source of literature. A derivation of an older version
//! has text alone, one of a newer version may have messages that are not known here: both show their English.

use crate::{Amount, Lang, Spoken, language};
use message::{Message, Said};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer, Serialize};

/// Index of a node in its derivation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct NodeId(pub usize);

/// One step, or one given number.
#[derive(Debug, Clone, Serialize, Deserialize)]
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
    /// What name, step and source say.
    #[serde(default, skip_serializing_if = "NodeSays::is_nothing", deserialize_with = "readable")]
    pub says: NodeSays,
    /// The nodes it was computed from, in the order the step names them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub inputs: Vec<NodeId>,
    /// The step as a machine reads it: formula or function, what the inputs are called in it, constants. None in what
    /// earlier programs kept. The functions are told in the METHODS of a data package.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calc: Option<serde_json::Value>,
}

/// What the words of a node say, as identities and arguments; none where they are the same in every language, and none
/// in what earlier programs kept.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
pub struct NodeSays {
    /// What its name says.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "readable")]
    pub name: Option<Message>,
    /// What its step says.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "readable")]
    pub step: Option<Message>,
    /// What its source says.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "readable")]
    pub source: Option<Message>,
}

impl NodeSays {
    fn is_nothing(&self) -> bool {
        self.name.is_none() && self.step.is_none() && self.source.is_none()
    }
}

/// One input's part in the variance of a result.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Contribution {
    /// The input's name.
    pub input: String,
    /// What the name says.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "readable")]
    pub says: Option<Message>,
    /// Its u in the unit of the result.
    pub u: f64,
    /// Its share of the variance, 0 to 1; the shares of a budget add up to 1.
    pub share: f64,
    /// Degrees of freedom with which it is known; none where infinite or not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dof: Option<f64>,
}

/// A graph of nodes, inputs first, the last node being the result.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct Derivation {
    /// The method in words.
    pub method: String,
    /// What the method says.
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "readable")]
    pub says: Option<Message>,
    /// Published sources of the method as a whole.
    pub sources: Vec<String>,
    /// The nodes; `inputs` point to earlier ones only.
    pub nodes: Vec<Node>,
    /// The uncertainty budget of the last node.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub budget: Vec<Contribution>,
    /// What the result rests on that its data cannot show, with the measurement that would show it.
    #[serde(default, skip_serializing_if = "Vec::is_empty", deserialize_with = "readable")]
    pub unseen: Vec<Message>,
}

/// What another version wrote in a way that this one cannot read is nothing: the English beside it stands.
fn readable<'de, T: DeserializeOwned + Default, D: Deserializer<'de>>(from: D) -> Result<T, D::Error> {
    let kept = serde_json::Value::deserialize(from)?;
    Ok(serde_json::from_value(kept).unwrap_or_default())
}

/// The message, and the English that is kept beside it.
fn apart(says: impl Into<Said>) -> (Option<Message>, String) {
    match says.into() {
        Said::Message(m) => {
            let english = m.in_english();
            (Some(m), english)
        }
        Said::Text(text) => (None, text),
    }
}

/// In the language that is spoken. In English, and where this version has no such message, what was kept.
fn spoken(says: Option<&Message>, english: &str) -> String {
    match says {
        Some(m) if language() != Lang::En && m.said(language()).is_some() => m.text(),
        _ => english.into(),
    }
}

/// By identity and arguments where both have them; the English beside them is a help to people.
fn same(own: (Option<&Message>, &str), other: (Option<&Message>, &str)) -> bool {
    match (own.0, other.0) {
        (None, None) => own.1 == other.1,
        (own, other) => own == other,
    }
}

impl Node {
    fn new(name: impl Into<Said>, amount: Amount, step: impl Into<Said>, source: impl Into<Said>) -> Self {
        let ((name_says, name), (step_says, step), (source_says, source)) = (apart(name), apart(step), apart(source));
        let says = NodeSays { name: name_says, step: step_says, source: source_says };
        Self { name, amount, step, source, says, inputs: vec![], calc: None }
    }

    /// Its name in the language that is spoken.
    pub fn name_text(&self) -> String {
        spoken(self.says.name.as_ref(), &self.name)
    }

    /// Its step in the language that is spoken.
    pub fn step_text(&self) -> String {
        spoken(self.says.step.as_ref(), &self.step)
    }

    /// Its source in the language that is spoken.
    pub fn source_text(&self) -> String {
        spoken(self.says.source.as_ref(), &self.source)
    }

    /// Name, step and source, each with what it says.
    fn words(&self) -> [(Option<&Message>, &str); 3] {
        let NodeSays { name, step, source } = &self.says;
        [(name.as_ref(), &self.name), (step.as_ref(), &self.step), (source.as_ref(), &self.source)]
    }
}

impl PartialEq for Node {
    fn eq(&self, other: &Self) -> bool {
        let words = self.words().into_iter().zip(other.words()).all(|(own, others)| same(own, others));
        words && self.amount == other.amount && self.inputs == other.inputs && self.calc == other.calc
    }
}

impl Contribution {
    /// A part of a budget.
    pub fn new(input: impl Into<Said>, u: f64, share: f64) -> Self {
        let (says, input) = apart(input);
        Self { input, says, u, share, dof: None }
    }

    /// The input's name in the language that is spoken.
    pub fn text(&self) -> String {
        spoken(self.says.as_ref(), &self.input)
    }
}

impl PartialEq for Contribution {
    fn eq(&self, other: &Self) -> bool {
        same((self.says.as_ref(), &self.input), (other.says.as_ref(), &other.input))
            && (self.u, self.share, self.dof) == (other.u, other.share, other.dof)
    }
}

impl PartialEq for Derivation {
    fn eq(&self, other: &Self) -> bool {
        same((self.says.as_ref(), &self.method), (other.says.as_ref(), &other.method))
            && self.sources == other.sources
            && self.nodes == other.nodes
            && self.budget == other.budget
            && self.unseen == other.unseen
    }
}

impl Derivation {
    /// An empty graph for a method.
    pub fn new(method: impl Into<Said>, sources: &[&str]) -> Self {
        let (says, method) = apart(method);
        Self { method, says, sources: sources.iter().map(ToString::to_string).collect(), ..Self::default() }
    }

    /// The method in the language that is spoken.
    pub fn method_text(&self) -> String {
        spoken(self.says.as_ref(), &self.method)
    }

    /// Adds a given number: where it comes from, and nothing before it.
    pub fn given(&mut self, name: impl Into<Said>, amount: Amount, source: impl Into<Said>) -> NodeId {
        self.push(Node::new(name, amount, "", source))
    }

    /// Adds a computed step.
    pub fn step(
        &mut self,
        name: impl Into<Said>,
        amount: Amount,
        step: impl Into<Said>,
        source: impl Into<Said>,
        inputs: &[NodeId],
    ) -> NodeId {
        self.push(Node { inputs: inputs.to_vec(), ..Node::new(name, amount, step, source) })
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

    /// Says of a node how a machine computes it: see [`Node::calc`].
    pub fn calculated(&mut self, id: NodeId, calc: serde_json::Value) {
        self.nodes[id.0].calc = Some(calc);
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
        Self {
            method: self.method.clone(),
            says: self.says.clone(),
            sources: self.sources.clone(),
            nodes,
            budget: vec![],
            unseen: self.unseen.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Unit, with_language};
    use message::{Name, step};

    fn one() -> Amount {
        Amount::stated(1.0, Unit::one())
    }

    /// Two fills of a well, its method and a formula.
    fn flow() -> Derivation {
        let mut d = Derivation::new(step::FlowMethod, &["JCGM 100:2008"]);
        let fill = || Name::from("1");
        let v = d.given(step::FillVolume { fill: fill() }, one(), step::FieldRecord);
        let t = d.given(step::FillTime { fill: fill() }, one(), step::FieldRecord);
        d.step(step::FillFlow { fill: fill() }, one(), "V / t", "JCGM 100:2008, 4.2", &[v, t]);
        d.budget.push(Contribution::new(step::PartContainer, 0.5, 1.0));
        d
    }

    fn kept(d: &Derivation) -> serde_json::Value {
        serde_json::to_value(d).unwrap()
    }

    /// As an older version kept it: English alone.
    fn without_messages(value: &mut serde_json::Value) {
        match value {
            serde_json::Value::Object(all) => {
                all.remove("says");
                all.values_mut().for_each(without_messages);
            }
            serde_json::Value::Array(all) => all.iter_mut().for_each(without_messages),
            _ => {}
        }
    }

    /// All that a derivation says, as it stands in the language that is spoken.
    fn texts(d: &Derivation) -> Vec<String> {
        let mut out = vec![d.method_text()];
        out.extend(d.nodes.iter().flat_map(|n| [n.name_text(), n.step_text(), n.source_text()]));
        out.extend(d.budget.iter().map(Contribution::text));
        out
    }

    #[test]
    fn a_cut_keeps_only_what_the_result_stands_on() {
        let mut d = Derivation::new("test", &[]);
        let a = d.given("a", one(), "");
        let b = d.given("b", one(), "");
        let c = d.step("c", one(), "2·b", "", &[b]);
        d.step("d", one(), "a + c", "", &[a, c]);
        let cut = d.of(c);
        let names: Vec<_> = cut.nodes.iter().map(|n| n.name.as_str()).collect();
        assert_eq!(names, ["b", "c"]);
        assert_eq!(cut.nodes[1].inputs, [NodeId(0)]);
        assert_eq!(flow().of(NodeId(1)).says, Some(step::FlowMethod.into()));
    }

    #[test]
    fn it_is_kept_with_identities_and_english_and_said_in_german() {
        let d = flow();
        let file = kept(&d);
        assert_eq!(file["nodes"][0]["says"]["name"]["id"], "step-fill-volume");
        assert_eq!(file["nodes"][0]["name"], "volume of fill 1");
        assert!(file["nodes"][2]["says"].get("step").is_none(), "a formula is the same in every language");
        let read: Derivation = serde_json::from_value(file).unwrap();
        assert_eq!(read, d);
        for lang in Lang::ALL {
            let said = |m: Message| with_language(lang, || m.text());
            let expected = [
                said(step::FlowMethod.into()),
                said(step::FillVolume { fill: "1".into() }.into()),
                String::new(),
                said(step::FieldRecord.into()),
            ];
            assert_eq!(with_language(lang, || texts(&read))[..4], expected);
        }
        let german = with_language(Lang::De, || texts(&read));
        assert!(german.contains(&"V / t".into()) && german.contains(&"JCGM 100:2008, 4.2".into()), "{german:?}");
        assert_ne!(german.last(), texts(&read).last());
    }

    #[test]
    fn one_of_an_older_or_a_newer_version_opens_and_shows_its_english() {
        let english = texts(&flow());
        let mut older = kept(&flow());
        without_messages(&mut older);
        let mut newer = kept(&flow());
        newer["says"]["id"] = "step-of-the-future".into();
        newer["budget"][0]["says"] =
            serde_json::json!({ "id": "step-part-container", "args": { "n": { "tone": 440 } } });
        for node in newer["nodes"].as_array_mut().unwrap() {
            node["says"] = serde_json::json!(["said", "in", "another", "form"]);
        }
        for file in [&older, &newer] {
            let read: Derivation = serde_json::from_value(file.clone()).unwrap();
            for lang in Lang::ALL {
                assert_eq!(with_language(lang, || texts(&read)), english, "{file}");
            }
        }
        let read: Derivation = serde_json::from_value(older.clone()).unwrap();
        assert_eq!(kept(&read), older, "and is written as it was");
    }

    #[test]
    fn two_are_compared_by_identity_and_arguments() {
        let mut other = flow();
        other.method = "flow, in words that were mended".into();
        other.nodes[0].name = "volume of the first fill".into();
        other.budget[0].input = "container".into();
        assert_eq!(other, flow());
        let changes: [fn(&mut Derivation); 4] = [
            |d| d.nodes[0].says.name = Some(step::FillVolume { fill: "2".into() }.into()),
            |d| d.says = None,
            |d| d.nodes[2].step = "V / t²".into(),
            |d| d.budget[0].says = Some(step::PartTiming.into()),
        ];
        for change in changes {
            let mut other = flow();
            change(&mut other);
            assert_ne!(other, flow());
        }
    }
}
