//! Statements, limits and long lists in the full report: each sentence with its answer and its case,
//! results against the strictest and the local limit, what a list of compounds shows.

use super::{Caution, section};
use assessment::organics;
use assessment::results::Listed;
use document::content::{Block, Cell, Column, Content, Method, Section, Table};
use figure::number::Printed;
use message::{Digits, Message, Said, Share, Shown, absence, count, join, leaflet, limit, statement as said, word};
use programme::limits_of::{Against, Asked, Row, against_of};
use programme::statement::{self, Stated};
use quantity::{Check, Finding, Lang, Outcome, Spoken, language};
use record::Error;
use record::store::Store;
use std::collections::BTreeSet;

/// Adds the sections.
pub fn fill(store: &Store, all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let statement::All { stated, unread } = statement::all(store)?;
    out.found.extend(unread.iter().cloned());
    if !stated.is_empty() {
        out.sections.push(statements(&stated));
        out.methods.push(Method {
            name: said::Section.text(),
            text: said::MethodText.text(),
            sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into(), "JCGM 106:2012".into()],
        });
    }
    let mut against = against_of(store, all, &Asked::default())?;
    let named = organics::Compounds::of(store, all)?;
    against.rows.retain(|r| !named.holds(&r.analyte));
    if !against.rows.is_empty() {
        out.sections.push(limits(&against));
        out.methods.push(Method {
            name: limit::Method.text(),
            text: limit::MethodText.text(),
            sources: vec!["JCGM 106:2012, 7.2 to 7.4, 8.2 and 8.3".into()],
        });
    }
    let list = match organics::report(store, all, language()) {
        Ok(list) => list,
        // A list that cannot be summed up is told; the rest of the report stands.
        Err(e @ Error::Science { .. }) => {
            out.cautions.push(Caution::CompoundsLeftOut.sentence());
            out.found.push(said::CompoundsUnread { why: e.message() }.text());
            None
        }
        Err(e) => return Err(e),
    };
    if let Some(report) = list {
        out.sections.push(compounds(&report));
        out.methods.push(Method {
            name: absence::Method.text(),
            text: absence::MethodText.text(),
            sources: vec!["Clopper & Pearson 1934, Biometrika 26:404".into()],
        });
    }
    Ok(())
}

fn outcome(answer: &str) -> Outcome {
    match answer {
        "supported" => Outcome::Met,
        "contradicted" => Outcome::NotMet,
        _ => Outcome::NotKnown,
    }
}

/// The sentences of a statement in the language of the report: as they are kept, or said anew of what was kept.
struct Told {
    asked: String,
    plain: String,
    scientific: Finding,
    warnings: Vec<String>,
}

fn told(s: &Stated) -> Told {
    let (check, outcome) = (Check::MeaningStatement, outcome(&s.answer));
    let kept_in = statement::language(s);
    let anew = if kept_in == language() { None } else { statement::in_language(s, language()).ok() };
    if let Some(c) = anew {
        let scientific = Finding::new(check, outcome, c.sentences.scientific);
        return Told { asked: c.asked, plain: c.plain, scientific, warnings: c.warnings };
    }
    let as_kept = |text: &String| if kept_in == language() { text.clone() } else { message::older(text) };
    Told {
        asked: as_kept(&s.asked),
        plain: as_kept(&s.plain),
        scientific: Finding::kept(check, outcome, kept_in, &s.scientific),
        warnings: s.warnings.iter().map(as_kept).collect(),
    }
}

/// Each sentence with its answer, then its case.
fn statements(stated: &[Stated]) -> Section {
    let all: Vec<(&Stated, Told)> = stated.iter().map(|s| (s, told(s))).collect();
    let row = |(s, told): &(&Stated, Told)| {
        let answer = statement::answer(&s.answer);
        // A result that changed marks the sentence and does not take it away: it is kept as it was agreed upon.
        let answer = if s.stands() { answer } else { said::AnswerMarked { answer }.into() };
        vec![Cell::Text(told.asked.clone()), Cell::Text(answer.text()), Cell::Text(told.plain.clone())]
    };
    let mut blocks = vec![
        Block::Text(said::Introduction.text()),
        Block::Table(Table {
            caption: said::Caption.text(),
            columns: vec![
                Column::words(said::SentenceAsked.text()),
                Column::words(word::Answer.text()),
                Column::words(said::MayBeSaid.text()),
            ],
            rows: all.iter().map(row).collect(),
            notes: vec![said::NoteChanged.text()],
        }),
    ];
    for (s, told) in all {
        blocks.push(Block::Heading(said::Revision { name: s.name.as_str().into(), revision: s.revision }.text()));
        blocks.push(Block::Findings(case(s, &told)));
        let mut list = vec![stands_on(s)];
        list.extend(
            s.despite
                .iter()
                .map(|why| said::Despite { why: why.as_str().into(), person: s.person.as_str().into() }.text()),
        );
        list.extend(told.warnings);
        blocks.push(Block::List(list));
    }
    section(said::Section, blocks)
}

fn case(s: &Stated, told: &Told) -> Vec<Finding> {
    let mut out = vec![told.scientific.clone()];
    for change in &s.changes {
        let (check, outcome) = (Check::MeaningStatementChanged, Outcome::NotMet);
        out.push(match change.clone() {
            Said::Message(change) => Finding::new(check, outcome, said::ChangedSince { change }),
            Said::Text(text) => Finding::kept(check, outcome, Lang::En, format!("Changed since: {text}.")),
        });
    }
    if let Some(t) = &s.today {
        let check = Check::MeaningStatementToday;
        let outcome = t.answer.as_deref().map_or(Outcome::NotKnown, outcome);
        out.push(match t.message.clone() {
            Some(plain) => Finding::new(check, outcome, said::Today { plain }),
            None => Finding::kept(check, outcome, Lang::En, format!("On the record of today: {}", t.plain)),
        });
    }
    out
}

/// Results that a statement names.
const NAMED: usize = 4;

fn stands_on(s: &Stated) -> String {
    let head = || s.head.chars().take(12).collect::<String>().into();
    let person = || s.person.as_str().into();
    let named = s.uses.iter().take(NAMED).map(|u| -> Message {
        let result = u.result.to_string().into();
        match u.verdict {
            None => said::ResultWithoutVerdict { result }.into(),
            verdict => said::ResultWithVerdict { result, verdict: statement::verdict(verdict) }.into(),
        }
    });
    let Some(results) = named.rev().reduce(|more, one| join::Comma { one, more }.into()) else {
        return said::OnNoResult { head: head(), person: person() }.text();
    };
    match s.uses.len().saturating_sub(NAMED) {
        0 => said::StandsOn { results, head: head(), person: person() }.text(),
        more => said::StandsOnMore { results, more: count(more), head: head(), person: person() }.text(),
    }
}

/// The highest result of each analyte against its strictest limit: what lies above a limit first, health before taste
/// before operation, then the nearest to its limit.
pub(super) fn nearest(rows: &[Row]) -> Vec<&Row> {
    let mut best: Vec<&Row> = vec![];
    for r in rows.iter().filter(|r| r.strictest && r.verdict != Some(record::model::VerdictWord::Rejected)) {
        match best.iter_mut().find(|b| b.analyte == r.analyte) {
            Some(b) if order(r, b).is_lt() => *b = r,
            Some(_) => {}
            None => best.push(r),
        }
    }
    best.sort_by(|a, b| order(a, b).then_with(|| a.analyte.cmp(&b.analyte)));
    best
}

/// Which of two rows a person sees first.
pub(super) fn order(a: &Row, b: &Row) -> std::cmp::Ordering {
    let (a, b) = (&a.comparison, &b.comparison);
    a.urgency().cmp(&b.urgency()).then_with(|| b.share_of_limit().total_cmp(&a.share_of_limit()))
}

/// What a result says of the nearest limit for health, where its row is not of that limit itself.
pub(super) enum ForHealth {
    /// The row is of it.
    Itself,
    /// The tables have none.
    None,
    /// Limit and answer.
    Said(Message),
}

/// The nearest limit for health beside a row.
pub(super) fn for_health(r: &Row, rows: &[Row], lang: Lang) -> ForHealth {
    if r.nearest_health {
        return ForHealth::Itself;
    }
    let Some(health) = rows.iter().find(|h| h.nearest_health && h.result == r.result) else { return ForHealth::None };
    let c = &health.comparison;
    let mark = if c.limit.provenance == "recalled" { " *" } else { "" };
    let limit = limit_in_words(&c.limit, lang).into();
    let authority = format!("{}{mark}", c.limit.authority).into();
    ForHealth::Said(limit::HealthValue { limit, authority, answer: c.answer_message() }.into())
}

/// An amount with U, in the limit's unit.
pub(super) fn printed(a: &quantity::Amount, lang: Lang) -> String {
    let k = match a {
        quantity::Amount::Measured(m) => assessment::results::coverage_k(m.dof),
        _ => 2.0,
    };
    lang.number(&Printed::of(a, k).with_unit())
}

/// A limit with its unit; a range with both ends.
pub(super) fn limit_in_words(l: &limits::Limit, lang: Lang) -> String {
    let high = Shown::trimmed(l.high, 3, l.unit.to_string()).said(lang);
    match l.low {
        Some(low) => format!("{} – {high}", Shown::trimmed(low, 3, "").said(lang)),
        None => high,
    }
}

/// How the rows of a table tell their fraction: once beneath it where all are of one, else behind each name.
pub(super) struct Fractions<'a> {
    all: BTreeSet<&'a str>,
}

impl<'a> Fractions<'a> {
    pub fn of(rows: &[&'a Row]) -> Self {
        let told = rows.iter().map(|r| r.result.fraction.as_str()).filter(|f| !f.is_empty());
        Self { all: told.collect() }
    }

    /// The name of what was measured in a row.
    pub fn behind(&self, name: String, r: &Row, lang: Lang) -> String {
        if self.all.len() < 2 || r.result.fraction.is_empty() {
            return name;
        }
        leaflet::SubstanceOf { substance: name.into(), fraction: fraction(&r.result.fraction) }.in_language(lang)
    }

    /// The note beneath the table.
    pub fn note(&self, lang: Lang) -> Option<String> {
        let one = self.all.first().filter(|_| self.all.len() == 1)?;
        Some(leaflet::AllOf { fraction: fraction(one) }.in_language(lang))
    }
}

fn fraction(name: &str) -> Message {
    message::run::Fraction { fraction: name.into() }.into()
}

fn limits(against: &Against) -> Section {
    let lang = language();
    let near = nearest(&against.rows);
    let local: Vec<&Row> = against.rows.iter().filter(|r| r.local).collect();
    let shown: Vec<&Row> = near.iter().chain(&local).copied().collect();
    let fractions = Fractions::of(&shown);
    let row = |r: &&Row| {
        let c = &r.comparison;
        let (authority, kind) = (c.limit.authority.as_str().into(), limits::compare::kind(&c.limit));
        let concern = c.limit.terms.concern.message();
        let whose = match c.limit.provenance.as_str() {
            "recalled" => limit::WhoseRecalled { authority, kind, concern }.text(),
            _ => limit::Whose { authority, kind, concern }.text(),
        };
        let health = match for_health(r, &against.rows, lang) {
            ForHealth::Itself => limit::IsForHealth.text(),
            ForHealth::None => limit::NoHealthValue.text(),
            ForHealth::Said(health) => health.text(),
        };
        vec![
            Cell::Text(fractions.behind(r.analyte.clone(), r, lang)),
            Cell::Text(r.result.bottle.clone()),
            Cell::Text(printed(&c.amount, lang)).of(&r.result),
            Cell::Text(limit_in_words(&c.limit, lang)),
            Cell::Text(whose),
            Cell::Text(c.answer_message().text()),
            Cell::Text(c.probability_under.map_or_else(|| "–".into(), |p| probability(p, lang))),
            Cell::Text(health),
        ]
    };
    let columns = || {
        vec![
            Column::words(word::Analyte.text()),
            Column::words(word::Bottle.text()),
            Column::words(word::Result.text()),
            Column::words(word::Limit.text()),
            Column::words(limit::WhoseKind.text()),
            Column::words(limit::ResultIs.text()),
            Column::words(limit::ProbabilityUnder.text()),
            Column::words(limit::NearestHealth.text()),
        ]
    };
    let mut blocks = vec![
        Block::Text(limit::Introduction.text()),
        Block::Table(Table {
            caption: limit::Nearest.text(),
            columns: columns(),
            rows: near.iter().map(row).collect(),
            notes: fractions.note(lang).into_iter().chain([limit::Marks.text()]).collect(),
        }),
    ];
    if !local.is_empty() {
        blocks.push(Block::Table(Table {
            caption: limit::AgainstLocal.text(),
            columns: columns(),
            rows: local.iter().map(row).collect(),
            notes: fractions.note(lang).into_iter().collect(),
        }));
    }
    let mut closing: Vec<String> = coming(against).map(|m| m.text()).into_iter().collect();
    closing.extend(near.iter().flat_map(|r| method_short(r)).map(|m| m.text()));
    closing.extend(not_tested(&against.not_tested));
    closing.push(limit::WhoDecides.text());
    blocks.push(Block::List(closing));
    section(limit::Against, blocks)
}

/// Limits that are still to come; none where there is none.
pub(super) fn coming(against: &Against) -> Option<Message> {
    let limits: Vec<message::Arg> = against.coming.iter().map(|l| limits::local::coming_in_words(l).into()).collect();
    (!limits.is_empty()).then(|| limit::ComingAll { limits }.into())
}

/// What the method lacks of the limit's demands, one message a demand.
fn method_short(r: &Row) -> Vec<Message> {
    let c = &r.comparison;
    let said = |why: &Message| -> Message {
        let (analyte, bottle) = (r.analyte.as_str().into(), r.result.bottle.as_str().into());
        let authority = c.limit.authority.as_str().into();
        limit::MethodShort { analyte, bottle, authority, why: why.clone() }.into()
    };
    c.method.iter().flat_map(|m| m.not_met()).map(|m| said(&m.message)).collect()
}

/// What limits name and nobody measured; none where all was.
fn not_tested(of: &[String]) -> Option<String> {
    let names: Vec<&str> = of.iter().map(String::as_str).filter(|n| *n != "microbes").collect();
    let microbes = names.len() < of.len();
    let names = names.join(", ");
    match (microbes, names.is_empty()) {
        (true, true) => Some(limit::MicrobesNotTested.text()),
        (true, false) => Some(limit::NotTestedNorMicrobes { names: names.into() }.text()),
        (false, true) => None,
        (false, false) => Some(limit::NotTested { names: names.into() }.text()),
    }
}

pub(super) fn probability(p: f64, lang: Lang) -> String {
    lang.number(&quantity::format::probability(p))
}

fn compounds(r: &limits::absence::Report) -> Section {
    let mut blocks = vec![Block::Text(r.plain.clone()), Block::Text(r.scientific.clone())];
    let mut findings = vec![];
    let mut finding = |check: Check, outcome: Outcome, says: Message| {
        findings.push(Finding::new(check, outcome, says));
    };
    if let (Some(under), Some(l), Some(sum)) = (r.sum_under_limit, &r.sum_limit, r.highest_sum) {
        // The sum is one of upper bounds: over the limit it proves nothing, the true sum may lie under it.
        let outcome = if under { Outcome::Met } else { Outcome::NotKnown };
        let n = |x: f64| Shown::trimmed(x, 2, r.unit.to_string());
        let against = absence::SumAgainst { sum: n(sum), limit: n(l.value), whose: l.whose.clone() };
        finding(Check::MeaningOrganicsSum, outcome, against.into());
    }
    if !r.blind.is_empty() {
        let share = Share::new(r.blind_share.unwrap_or(0.0), Digits::Trimmed(2));
        let blind = absence::BlindShare { n: count(r.blind.len()), share, names: r.blind.join(", ").into() };
        finding(Check::MeaningOrganicsBlind, Outcome::NotKnown, blind.into());
    }
    for names in &r.doubles {
        let names = names.iter().map(|n| message::Arg::Name(n.into())).collect();
        finding(Check::MeaningOrganicsDouble, Outcome::NotMet, absence::TwoNames { names }.into());
    }
    for fault in &r.told {
        let fault = absence::Fault { fault: fault.clone() };
        finding(Check::MeaningOrganicsNumber, Outcome::NotMet, fault.into());
    }
    if !findings.is_empty() {
        blocks.push(Block::Findings(findings));
    }
    blocks.push(Block::Table(bounds(r)));
    section(absence::Compounds, blocks)
}

/// All bounds, three compounds a row, so that a long list stays short; what was found stands first, with its value.
fn bounds(r: &limits::absence::Report) -> Table {
    const ACROSS: usize = 3;
    let lang = language();
    let cell = |row: &limits::absence::Row| {
        let n = |x: f64| Shown::trimmed(x, 2, "");
        let told = match (row.value, row.upper_bound) {
            (Some(value), _) if row.found => absence::ValueFound { value: n(value) }.text(),
            _ if row.found => word::Found.text(),
            (_, Some(b)) => Shown { relation: "<".into(), ..n(b) }.said(lang),
            (_, None) => absence::NotSaid.text(),
        };
        let mark = if row.blind { " ‡" } else { "" };
        [Cell::Text(row.name.clone()), Cell::Text(format!("{told}{mark}"))]
    };
    let unit = r.unit.to_string();
    let columns = (0..ACROSS)
        .flat_map(|_| [Column::words(word::Compound.text()), Column::numbers(absence::AtMost.text(), &unit)]);
    let (found, others): (Vec<_>, Vec<_>) = r.rows.iter().partition(|row| row.found);
    let told: Vec<&limits::absence::Row> = found.into_iter().chain(others).collect();
    let rows = told.chunks(ACROSS).map(|c| c.iter().flat_map(|row| cell(row)).collect()).collect();
    Table { caption: absence::Caption.text(), columns: columns.collect(), rows, notes: vec![absence::BlindMark.text()] }
}
