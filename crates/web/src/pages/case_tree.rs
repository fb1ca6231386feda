//! The derivation of a number as a tree that opens step by step down to the counts; on paper with every step open, and
//! long sets in columns.

use super::words::printed;
use maud::{Markup, html};
use message::number::sentence;
use message::{Spoken, web_case as said};
use quantity::{Derivation, NodeId};

/// What stands open at first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Open {
    /// The first two steps.
    First,
    /// Every step: for paper, where nothing opens with a click.
    All,
}

/// Inputs of one step that are set in columns, at least.
const LONG: usize = 9;

/// The tree. A node that stands in several places is told once and referred to.
pub(super) fn derivation(d: &Derivation, open: Open) -> Markup {
    let Some(last) = d.nodes.len().checked_sub(1) else {
        return html! { p { (sentence(&printed(&d.method_text()))) } };
    };
    let mut tree = Tree { d, open, told: vec![false; d.nodes.len()] };
    html! {
        p.quiet { @if open == Open::First { (said::TreeHow.text()) " " } (said::TreeU.text()) }
        div.tree { (tree.branch(NodeId(last), 0)) }
        @if !d.unseen.is_empty() {
            h3 { (said::NotShown.text()) }
            ul { @for says in &d.unseen { li { (sentence(&printed(&says.text()))) } } }
        }
    }
}

struct Tree<'d> {
    d: &'d Derivation,
    open: Open,
    told: Vec<bool>,
}

impl Tree<'_> {
    fn branch(&mut self, id: NodeId, depth: usize) -> Markup {
        let d = self.d;
        let node = d.node(id);
        let line = html! { span.what { (printed(&node.name_text())) } " = " strong { (printed(&node.amount.with_u().text())) } };
        let how = html! {
            @if !node.step.is_empty() { span.step { (printed(&node.step_text())) } }
            @if !node.source.is_empty() { " " span.from { (printed(&node.source_text())) } }
        };
        if node.inputs.is_empty() {
            return html! { p.leaf { (line) " " (how) } };
        }
        if self.told[id.0] {
            return html! { p.leaf { (line) " " a href=(format!("#n{}", id.0)) { (said::ToldAbove.text()) } } };
        }
        self.told[id.0] = true;
        let long = node.inputs.len() >= LONG;
        html! {
            details #(format!("n{}", id.0)) open[self.open == Open::All || depth < 2] {
                summary { (line) }
                @if !node.step.is_empty() || !node.source.is_empty() { p.how { (how) } }
                div class=[long.then_some("counts")] { @for input in &node.inputs { (self.branch(*input, depth + 1)) } }
            }
        }
    }
}
