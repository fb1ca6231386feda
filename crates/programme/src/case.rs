//! The case for one number: the result, its verdict with findings and history, the water's share,
//! and the derivation down to the counts, as a tree that a person can read.

use assessment::assess::findings_of;
use assessment::results::{self, Listed, Lists};
use assessment::witnesses::{self, Way};
use cleanliness::accounting::{Accounting, Part, Told};
use message::{Message, Name, Spoken, language, step, step_measurement};
pub use quantity::format::sentence;
use quantity::format::{percent_of_budget, significant};
use quantity::{Derivation, Finding, NodeId};
use record::error::Error;
use record::identity::ResultId;
use record::model::{ResultRow, State, VerdictWord};
use record::store::{Filter, RowRead, Store, StoreError, Typed};
use serde::Serialize;
use std::collections::HashMap;
use std::fmt::Write as _;

/// A verdict of the past.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PastVerdict {
    /// Counts up with each assessment.
    pub revision: i64,
    /// The word.
    pub verdict: VerdictWord,
    /// The profile of checks that judged; none: the programme's table alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub profile: Option<String>,
    /// Checks that decided.
    pub reasons: serde_json::Value,
    /// Number of the act that wrote it: an event of the record, with person and moment.
    #[serde(skip)]
    pub act: i64,
}

/// The act that wrote a verdict.
struct WrittenBy {
    revision: i64,
    event: i64,
}

impl Typed for WrittenBy {
    const TABLE: &'static str = "verdict";
    const PATHS: &'static [&'static str] = &["revision", "event"];
    fn from_row(r: &RowRead) -> Result<Self, StoreError> {
        Ok(Self { revision: r.get(0)?, event: r.get(1)? })
    }
}

/// A person's word on a verdict or a bottle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Word {
    /// Who.
    pub person: String,
    /// Why.
    pub why: String,
    /// Number of the act.
    #[serde(skip)]
    pub act: i64,
    /// How it was given: signed by key, by login, typed.
    #[serde(skip)]
    pub way: Way,
}

/// The case for a number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Case {
    /// The result.
    #[serde(flatten)]
    pub result: Listed,
    /// Findings of the verdict that stands, in the order of the path.
    pub findings: Vec<Finding>,
    /// All verdicts so far, oldest first.
    pub history: Vec<PastVerdict>,
    /// Who stands for it.
    pub sign_offs: Vec<Word>,
    /// From the result down to the counts; for a laboratory's concentration the file and row.
    pub derivation: Derivation,
    /// The method in words.
    pub method: String,
    /// Published sources.
    pub sources: Vec<String>,
    /// What to bear in mind.
    pub warnings: Vec<String>,
}

/// The case of a result by identity.
///
/// # Errors
/// [`Error::Absent`]; the store cannot be read.
pub fn case(store: &Store, identity: &str) -> Result<Case, Error> {
    of_row(store, results::find(store, identity)?)
}

/// The case of a result.
///
/// # Errors
/// As [`case`].
pub fn of(store: &Store, id: &ResultId) -> Result<Case, Error> {
    of_row(store, results::row(store, id)?)
}

fn of_row(store: &Store, row: ResultRow) -> Result<Case, Error> {
    let derivation = match store.derivation_text(row.id)? {
        Some(d) => serde_json::from_str(&d).map_err(|e| Error::Unfit {
            what: format!("derivation of {}", row.identity()),
            found: e.to_string(),
            expected: "the graph as it was written".into(),
        })?,
        None => reported(store, &row)?,
    };
    let (subject, lists) = (row.subject_id, Lists::for_rows(store, std::slice::from_ref(&row))?);
    let out = lists.taken_out(&row).zip(lists.bottle(&row)).map(|(why, bottle)| results::taken_out(why, bottle));
    let result = lists.listed(row);
    let verdicts = if result.verdict.is_some() { store.verdict_history(subject)? } else { vec![] };
    let mut findings = match verdicts.last() {
        Some(v) => findings_of(store, v)?,
        None => vec![],
    };
    findings.extend(out.filter(|f| findings.iter().all(|known| known.check != f.check)));
    let acts = store.list::<WrittenBy>(&Filter::all().is("subject", subject))?;
    let act = |revision: i64| acts.iter().find(|a| a.revision == revision).map_or(0, |a| a.event);
    let sign_offs = store.list::<record::model::SignOff>(&Filter::all().is("subject", subject))?;
    let ways = if sign_offs.is_empty() { HashMap::new() } else { witnesses::ways(store)? };
    let word = |s: record::model::SignOff| Word {
        way: ways.get(&s.id).copied().unwrap_or(Way::Typed),
        person: s.person,
        why: s.why,
        act: s.event,
    };
    Ok(Case {
        method: derivation.method.clone(),
        sources: derivation.sources.clone(),
        warnings: vec!["What was not tested, microbes first, is not spoken of; advice on drinking is the local health authority's.".into()],
        history: verdicts.into_iter().map(|v| PastVerdict { act: act(v.revision), revision: v.revision, verdict: v.verdict, profile: v.profile, reasons: v.reasons }).collect(),
        sign_offs: sign_offs.into_iter().map(word).collect(),
        findings,
        derivation,
        result,
    })
}

/// A laboratory's own concentration: its derivation is the place in the file.
fn reported(store: &Store, row: &record::model::ResultRow) -> Result<Derivation, Error> {
    let file = store.raw_files()?.into_iter().find(|f| Some(f.id) == row.raw_file_id);
    let place: Message = match (&file, row.file_row) {
        (Some(f), Some(n)) => step::FileRow { file: Name::from(&f.name), row: n.to_string().into() }.into(),
        (Some(f), None) => step::File { file: Name::from(&f.name) }.into(),
        _ => step::NoFile.into(),
    };
    if let Some(why) = results::unread(row) {
        return Ok(Derivation::new(step::AsReportedUntold { place, why }, &[]));
    }
    let Some(amount) = results::amount(row) else {
        return Ok(Derivation::new(step::AsReportedWithoutLimit { place }, &[]));
    };
    let mut d = Derivation::new(step::AsReportedMethod, &[]);
    d.given(step::AsReported { analyte: Name::from(&row.analyte) }, amount, place);
    Ok(d)
}

impl Case {
    /// The case as text: verdict, findings, budget, and the derivation as a tree.
    pub fn in_words(&self) -> String {
        let mut out = String::new();
        let r = &self.result;
        let _ = writeln!(out, "{}", r.result);
        let _ = writeln!(out, "{}", in_line(r));
        if let Some(before) = before_recovery(&self.derivation) {
            let _ = writeln!(out, "  {before}");
        }
        if r.verdict.is_some() {
            let _ = writeln!(out, "verdict: {}", verdict_in_words(r));
        }
        if let Some(note) = &r.note {
            let _ = writeln!(out, "field note: {note}");
        }
        for s in &self.sign_offs {
            let _ = writeln!(out, "signed by {}: {}", s.person, s.why);
        }
        if let Some(a) = &r.accounting {
            accounting(&mut out, a);
        }
        if let Some(a) = &r.attributed {
            let _ = writeln!(out, "{} ({})", a.said(), a.scope);
            if let Some(remark) = &a.remark {
                let _ = writeln!(out, "  {remark}");
            }
        }
        if !self.findings.is_empty() {
            out.push_str("\nFindings along the path\n");
        }
        for f in &self.findings {
            let _ = writeln!(out, "  {:<9}  {:<9}  {}", f.stage.word(), f.outcome.word(), sentence(&f.sentence));
        }
        self.budget(&mut out);
        out.push_str("\nFrom the number down to the counts\n");
        tree(&self.derivation, &mut out);
        let _ = writeln!(out, "\nMethod: {}", self.derivation.method_text());
        for s in &self.sources {
            let _ = writeln!(out, "  {s}");
        }
        if !self.derivation.unseen.is_empty() {
            out.push_str("\nWhat the data cannot show\n");
        }
        for says in &self.derivation.unseen {
            let _ = writeln!(out, "  {}", sentence(&says.text()));
        }
        out
    }

    fn budget(&self, out: &mut String) {
        let budget = &self.derivation.budget;
        if budget.is_empty() {
            return;
        }
        out.push_str("\nUncertainty budget\n");
        for c in budget {
            let (share, u) = (percent_of_budget(c.share), significant(c.u, 2));
            let [share, u] = [share, u].map(|digits| language().number(&digits));
            let _ = writeln!(out, "  {share:>6} %  u {u:<9}  {}", c.text());
        }
    }
}

/// The verdict and the checks that decided it; for evidence, that it gets none.
pub fn verdict_in_words(r: &Listed) -> String {
    match r.verdict_said().map(|v| v.in_english()) {
        None => "none".into(),
        Some(word) if r.reasons.is_empty() => word,
        Some(word) => format!("{word}: {}", r.reasons.join(", ")),
    }
}

/// Value, expanded uncertainty, unit and share in one line.
pub fn in_line(r: &Listed) -> String {
    let mut line = match (&r.amount, r.coverage_k) {
        _ if r.at_most().is_some() => r.at_most().map_or_else(String::new, |m| m.in_english()),
        (Some(quantity::Amount::Measured(m)), Some(k)) => {
            let (value, expanded) = quantity::format::value_and_expanded(m, k);
            format!("{value} ± {expanded} {} (95 %, k = {})", m.unit, significant(k, 3))
        }
        (Some(other), _) => other.in_words(),
        (None, _) if matches!(r.state, State::NotDetected | State::AboveRange) => {
            "below a limit that the report does not state".into()
        }
        (None, _) => "a value that the record does not tell".into(),
    };
    let _ = write!(line, ", {}", r.state.word().replace('-', " "));
    if let Some(s) = &r.water_share {
        let _ = write!(line, ", {}", s.said());
    }
    line
}

/// The parts of the metal in the bottle, a line each.
fn accounting(out: &mut String, a: &Accounting) {
    out.push_str("\nWhose metal is in the bottle\n");
    if let Some(says) = &a.says {
        let _ = writeln!(out, "  {}", says.in_english());
    }
    for p in &a.parts {
        let _ = writeln!(out, "  {:<18} {}", p.part.says().in_english(), in_one_line(p));
        if let Some(why) = &p.why {
            let _ = writeln!(out, "  {:<18} {}", "", why.in_english());
        }
    }
    out.push('\n');
}

/// `225 pg (203 to 239), 0.91 of it (0.85 to 0.95)`, or with which part it is told.
fn in_one_line(p: &Part) -> String {
    let (Some(value), Some((low, high))) = (p.value_pg, p.interval_pg) else {
        let with = p.with.map_or_else(String::new, |w| format!(", in the part of the {}", w.says().in_english()));
        return format!("{}{with}", p.told.word().replace('-', " "));
    };
    let places = quantity::format::decimals_for((0.5 * (high - low)).max(1e-12), 2);
    let pg = |x: f64| quantity::format::at_decimals(x, places);
    let bound = if p.told == Told::AtMost { "not by itself: at most " } else { "" };
    let line = format!("{bound}{} pg ({} to {})", pg(value), pg(low), pg(high));
    p.share.map_or(line.clone(), |s| {
        let part = |x: f64| quantity::format::at_decimals(x, 3);
        format!("{line}, {} of it ({} to {})", part(s.share), part(s.low), part(s.high))
    })
}

/// The value as it was before a recovery was divided out, and the recovery; none where nothing was divided.
fn before_recovery(d: &Derivation) -> Option<String> {
    let last = d.nodes.last()?;
    last.says.name.as_ref().filter(|name| name.is::<step_measurement::NetOverRecovery>())?;
    let inputs = last.inputs.iter().map(|id| d.node(*id));
    Some(inputs.map(|n| format!("{} = {}", n.name_text(), n.amount.with_u().text())).collect::<Vec<_>>().join("; "))
}

/// Prints a derivation as a tree; a node that stands in several places is printed once in full.
fn tree(d: &Derivation, out: &mut String) {
    let Some(last) = d.nodes.len().checked_sub(1) else { return };
    let mut shown = vec![false; d.nodes.len()];
    branch(d, NodeId(last), 1, &mut shown, out);
}

fn branch(d: &Derivation, id: NodeId, depth: usize, shown: &mut [bool], out: &mut String) {
    let node = d.node(id);
    let indent = "  ".repeat(depth);
    let _ = write!(out, "{indent}{} = {}", node.name_text(), node.amount.with_u().text());
    if shown[id.0] && !node.inputs.is_empty() {
        out.push_str("  (above)\n");
        return;
    }
    shown[id.0] = true;
    if !node.step.is_empty() {
        let _ = write!(out, "   ← {}", node.step_text());
    }
    if !node.source.is_empty() {
        let _ = write!(out, "   [{}]", node.source_text());
    }
    out.push('\n');
    for input in &node.inputs {
        branch(d, *input, depth + 1, shown, out);
    }
}
