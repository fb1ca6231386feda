//! What came of files that were taken in: verdicts written, values that came out anew, verdicts that turned.
//!
//! In: what was derived, and whether anything had been judged before: a first import moves nothing. Out: lines.

use crate::http_error::HttpError;
use message::{Message, Spoken as _, count, older, web_files as says};
use programme::work::Recomputed;
use quantity::format::capital;
use record::ResultId;
use record::model::VerdictWord;

/// Verdicts that turned and are told one by one.
const TOLD: usize = 20;

/// What followed, or that it is not derived yet.
pub(crate) fn followed(done: Result<Recomputed, record::Error>, judged: bool) -> Result<Vec<String>, HttpError> {
    let done = match done {
        Ok(done) => done,
        Err(e @ (record::Error::NotDerived { .. } | record::Error::Stopped { .. })) => {
            return Ok(vec![older(&format!("{}.", capital(&e.to_string())))]);
        }
        Err(other) => return Err(other.into()),
    };
    let mut out = vec![says::FirstVerdicts { n: count(done.verdicts) }.text()];
    if judged && !done.changes.is_empty() {
        out.push(says::ValuesAnew { n: count(done.changes.len()) }.text());
    }
    if !done.turned.is_empty() {
        out.push(says::Turned { n: count(done.turned.len()) }.text());
        out.extend(turned(&done.turned));
    }
    out.extend(done.underived.iter().map(|why| says::WithoutResults { why: why.as_str().into() }.text()));
    Ok(out)
}

/// Verdicts that turn, by what they are of.
pub(crate) fn turned(all: &[(String, VerdictWord, VerdictWord)]) -> Vec<String> {
    let word = |w: VerdictWord| -> Message {
        match w {
            VerdictWord::Accepted => message::word::Accepted.into(),
            VerdictWord::Provisional => message::word::Provisional.into(),
            VerdictWord::Rejected => message::word::Rejected.into(),
        }
    };
    let line = |(of, old, new): &(String, VerdictWord, VerdictWord)| {
        says::VerdictTurns { of: named(of).into(), old: word(*old), new: word(*new) }.text()
    };
    let mut out: Vec<String> = all.iter().take(TOLD).map(line).collect();
    if all.len() > TOLD {
        out.push(says::AndMore { n: count(all.len() - TOLD) }.text());
    }
    out
}

/// Bottle and substance of what a verdict is of; another subject as it is written.
fn named(of: &str) -> String {
    let Ok(result) = of.parse::<ResultId>() else { return of.to_string() };
    let substance = Message::named("substance", &result.analyte).map_or_else(|| result.analyte.clone(), |m| m.text());
    format!("{}, {substance}", result.bottle)
}
