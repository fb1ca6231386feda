//! Faults that the data of a run cannot show, said with each result that rests on their absence, and with the
//! measurement that would show each. The same list with more words: docs/validation/assumptions.md.

use super::super::net::Net;
use super::super::{ReducedRun, blank_role};
use super::drift::has_second_control;
use message::{Message, count, step_measurement as said};

/// Blanks from which their shape can be seen: as in `detection::trust`, the programme's own choice.
const BLANKS_OF_A_SHAPE: usize = 8;

/// What a result of an analyte rests on unseen.
pub(in super::super) fn assumptions(run: &ReducedRun, c: usize, net: &Net) -> Vec<Message> {
    let mut out: Vec<Message> = Vec::new();
    if let Some(b) = run.blanks[c].get(net.blank_set) {
        out.push(said::UnseenHandling.into());
        if b.n < BLANKS_OF_A_SHAPE {
            out.push(said::UnseenSkew { blanks: count(b.n), least: count(BLANKS_OF_A_SHAPE) }.into());
        }
    }
    out.push(said::UnseenVial.into());
    if blank_role(&run.recipe, run.table.vials[net.vial].role).is_some() && !has_second_control(run, c) {
        out.push(said::UnseenWave.into());
    }
    out.push(said::UnseenRuns.into());
    out
}
