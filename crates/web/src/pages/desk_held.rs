//! What holds results back: each check that rejects results or leaves them provisional, with how many, where, and what
//! helps. Counted over all results; each count leads to exactly those.
//!
//! In: the short list of results. Out: [`Held`] a check and verdict; what fails first, then the most. Worked out once after
//! a change. Checked in `crates/web/tests/desk.rs`.

use super::check_words::{Weights, helps};
use crate::app::App;
use crate::http_error::HttpError;
use crate::page::encoded;
use crate::worked;
use maud::{Markup, html};
use message::number::spaced;
use message::{Spoken, count, web_desk as says};
use programme::index::{Index, Wanted};
use record::model::VerdictWord;
use record::store::Store;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Names listed under "where"; more are counted.
const NAMED: usize = 3;

/// Reasons shown; the rest is folded.
const SHOWN: usize = 10;

/// Results held by one check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Held {
    pub check: String,
    pub verdict: VerdictWord,
    pub results: usize,
    wells: BTreeSet<String>,
    analytes: BTreeSet<String>,
}

/// All that is held, and how many results there are.
#[derive(Debug, Clone, Default)]
pub(crate) struct AllHeld {
    pub held: Vec<Held>,
    /// Results that are not accepted.
    not_accepted: usize,
    /// All results with a verdict.
    all: usize,
}

/// As the record stands.
pub(crate) fn of(store: &Store, app: &App) -> Result<Arc<AllHeld>, HttpError> {
    let state = app.record.index(store, Index::state)?.to_string();
    worked::kept(app, "held", state, || app.record.index(store, counted))
}

#[derive(Default)]
struct Places {
    results: usize,
    wells: BTreeSet<u32>,
    measurands: BTreeSet<u32>,
}

fn counted(i: &Index) -> AllHeld {
    let mut out = AllHeld::default();
    let mut by: BTreeMap<(&str, bool), Places> = BTreeMap::new();
    let wanted = Wanted::default();
    for e in i.wanted(&wanted) {
        let Some(verdict) = e.verdict else { continue };
        out.all += 1;
        if verdict == VerdictWord::Accepted {
            continue;
        }
        out.not_accepted += 1;
        for check in i.reasons(e) {
            let of = by.entry((check.as_str(), verdict == VerdictWord::Rejected)).or_default();
            of.results += 1;
            of.wells.extend(i.bottles.get(e.bottle as usize).and_then(|b| b.well));
            of.measurands.insert(e.measurand);
        }
    }
    let held = |((check, rejected), p): ((&str, bool), Places)| Held {
        check: check.into(),
        verdict: if rejected { VerdictWord::Rejected } else { VerdictWord::Provisional },
        results: p.results,
        wells: p.wells.iter().filter_map(|w| i.wells.get(*w as usize).cloned()).collect(),
        analytes: p.measurands.iter().filter_map(|m| Some(i.measurands.get(*m as usize)?.analyte.clone())).collect(),
    };
    out.held = by.into_iter().map(held).collect();
    let fails = |h: &Held| h.verdict != VerdictWord::Rejected;
    out.held.sort_by(|a, b| fails(a).cmp(&fails(b)).then(b.results.cmp(&a.results)).then(a.check.cmp(&b.check)));
    out
}

impl Held {
    /// The address of exactly these results.
    pub fn address(&self) -> String {
        address(&self.check, self.verdict)
    }

    fn places(&self) -> String {
        let some = |all: Vec<String>, many: String| if all.len() > NAMED { many } else { all.join(", ") };
        let wells = some(self.wells.iter().cloned().collect(), says::WellsMany { n: count(self.wells.len()) }.text());
        let analytes = some(
            self.analytes.iter().map(|a| ::report::pages::element(a)).collect(),
            says::SubstancesMany { n: count(self.analytes.len()) }.text(),
        );
        [wells, analytes].into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join("; ")
    }
}

/// The address of the results that a check holds back under a verdict.
pub(crate) fn address(check: &str, verdict: VerdictWord) -> String {
    format!("/results?held-by={}&verdict={}", encoded(check), verdict.word())
}

/// The table.
pub(crate) fn shown(all: &AllHeld, weights: &Weights) -> Markup {
    let (first, rest) = all.held.split_at(all.held.len().min(SHOWN));
    html! {
        h2 #held { (says::Held.text()) }
        @if all.held.is_empty() { p.quiet { (says::HeldNothing.text()) } }
        @else {
            p.under { (says::HeldOf { n: count(all.not_accepted), found: count(all.all) }.text()) ". " (says::HeldOrder.text()) }
            (table(first, weights))
            @if !rest.is_empty() {
                details.fold { summary { (says::MoreReasons { n: count(rest.len()) }.text()) } (table(rest, weights)) }
            }
        }
    }
}

fn table(rows: &[Held], weights: &Weights) -> Markup {
    html! {
        table.held {
            caption.unseen { (says::Held.text()) }
            thead { tr {
                th scope="col" { (says::Reason.text()) } th.n scope="col" { (says::Count.text()) }
                th scope="col" { (says::Where.text()) } th scope="col" { (says::Helps.text()) }
            } }
            tbody { @for h in rows {
                tr {
                    th scope="row" { (mark(h.verdict)) " " (weights.held(&h.check, h.verdict)) }
                    td.n { a href=(h.address()) { (spaced(&h.results.to_string())) } }
                    td.places { (h.places()) }
                    td.helps { (helps(&h.check)) }
                }
            } }
        }
    }
}

/// The verdict as a mark with its word for who does not see it.
pub(crate) fn mark(v: VerdictWord) -> Markup {
    let word = super::word(v);
    html! { span class=(format!("vd {}", word.word())) { (crate::blocks::square(word)) span.unseen { (crate::blocks::word_of(word)) ": " } } }
}
