//! Statements, limits and long lists in the full report: each sentence with its answer and its case,
//! results against the strictest and the local limit, what a list of compounds shows.

use super::exceedances::{exceedances, in_unit, limit_of, readable_unit};
use super::{Caution, section};
use assessment::organics;
use assessment::results::Listed;
use document::content::{Annex, Block, Cell, Column, Content, Method, Section, Table};
use figure::number::Printed;
use limits::Answer;
use message::{
    Digits, Message, Said, Share, Shown, absence, chapter, count, join, leaflet, limit, paper, statement as said, word,
};
use programme::limits_of::{Against, Asked, Row, against_of};
use programme::statement::{self, Stated};
use quantity::{Check, Finding, Lang, Outcome, Spoken, language};
use record::Error;
use record::store::Store;
use std::collections::{BTreeMap, BTreeSet};

/// Adds the chapter on limits and sentences, and the annexes with all of them and with the compounds.
pub fn fill(store: &Store, all: &[Listed], against: &Against, out: &mut Content) -> Result<(), Error> {
    let statement::All { stated, unread } = statement::all(store)?;
    out.found.extend(unread.iter().cloned());
    let told: Vec<(&Stated, Told)> = stated.iter().map(|s| (s, told(s))).collect();
    let mut chapter = limits_in_short(against, all);
    if !told.is_empty() {
        chapter.push(Block::Table(sentences(&told)));
        out.sections.push(cases(told).within(Annex::Results));
        out.methods.push(Method {
            name: said::Section.text(),
            text: said::MethodText.text(),
            sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into(), "JCGM 106:2012".into()],
        });
    }
    if !chapter.is_empty() {
        out.sections.push(section(limit::Against, chapter));
    }
    if !against.rows.is_empty() {
        out.sections.push(limits(against).within(Annex::Results));
        out.methods.push(Method {
            name: limit::Method.text(),
            text: limit::MethodText.text(),
            sources: vec!["JCGM 106:2012, 7.2–7.4, 8.2, 8.3".into()],
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
        out.sections.push(compounds(&report).within(Annex::Compounds));
        out.methods.push(Method {
            name: absence::Method.text(),
            text: absence::MethodText.text(),
            sources: sources_of_compounds(&report),
        });
    }
    Ok(())
}

/// The results of the report against limits. Long lists of compounds have an annex of their own; one that lies above a
/// limit stands among the others too.
pub(super) fn against(store: &Store, all: &[Listed]) -> Result<Against, Error> {
    let mut against = against_of(store, all, &Asked::default())?;
    let named = organics::Compounds::of(store, all)?;
    against.rows.retain(|r| r.local || is_above(r) || !named.holds(&r.analyte));
    Ok(against)
}

/// Of each substance and place the result that goes farthest, of those with an answer: what lies above, whatever its
/// verdict, and what cannot be told.
pub(super) fn by_place(rows: &[Row], answer: Answer) -> Vec<&Row> {
    let mut best: Vec<&Row> = vec![];
    let place = |r: &Row| (r.analyte.clone(), r.well.clone().unwrap_or_else(|| r.result.bottle.clone()));
    let is = |r: &&Row| {
        r.comparison.answer == answer
            && (answer != Answer::Above || !r.comparison.limit.is_goal_of_zero())
            && (answer == Answer::Above || r.strictest)
    };
    for r in rows.iter().filter(is) {
        match best.iter_mut().find(|b| place(b) == place(r)) {
            Some(b) if order(r, b).is_lt() => *b = r,
            Some(_) => {}
            None => best.push(r),
        }
    }
    best.sort_by(|a, b| order(a, b).then_with(|| place(a).cmp(&place(b))));
    best
}

/// Rows of a table of the chapter, at most; the annex has all.
const IN_CHAPTER: usize = 14;

/// Above first, then what cannot be told, then the names of what lies below.
fn limits_in_short(against: &Against, all: &[Listed]) -> Vec<Block> {
    if against.rows.is_empty() {
        return vec![];
    }
    let above = by_place(&against.rows, Answer::Above);
    let told = |r: &&Row| above.iter().any(|a| a.analyte == r.analyte && a.well == r.well);
    let mut open = by_place(&against.rows, Answer::CannotTell);
    open.retain(|r| !told(r));
    let mut out = vec![];
    if above.is_empty() {
        out.push(Block::Text(chapter::NoneAbove.text()));
    } else {
        out.extend(exceedances(chapter::Above.text(), &above, all, IN_CHAPTER));
    }
    if !open.is_empty() {
        out.extend(exceedances(chapter::CannotTell.text(), &open, all, IN_CHAPTER));
    }
    let names: BTreeSet<String> = against
        .rows
        .iter()
        .filter(|r| r.strictest && r.comparison.answer == Answer::Below)
        .filter(|r| !above.iter().chain(&open).any(|a| a.analyte == r.analyte))
        .map(|r| super::substance(&r.analyte))
        .collect();
    if !names.is_empty() {
        let substances = names.into_iter().map(|n| message::Arg::Name(n.into())).collect();
        out.push(Block::Text(chapter::Below { substances }.text()));
    }
    out.push(Block::List(
        coming(against)
            .map(|m| m.text())
            .into_iter()
            .chain(not_tested(&against.not_tested))
            .chain([limit::WhoDecides.text()])
            .collect(),
    ));
    out
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

/// Each sentence with its answer.
fn sentences(all: &[(&Stated, Told)]) -> Table {
    let row = |(s, told): &(&Stated, Told)| {
        let answer = statement::answer(&s.answer);
        // A result that changed marks the sentence and does not take it away: it is kept as it was agreed upon.
        let answer = if s.stands() { answer } else { said::AnswerMarked { answer }.into() };
        vec![Cell::Text(told.asked.clone()), Cell::Text(answer.text()), Cell::Text(told.plain.clone())]
    };
    Table {
        caption: said::Caption.text(),
        columns: vec![
            Column::words(said::SentenceAsked.text()),
            Column::words(word::Answer.text()),
            Column::words(said::MayBeSaid.text()),
        ],
        rows: all.iter().map(row).collect(),
        notes: if all.iter().all(|(s, _)| s.stands()) { vec![] } else { vec![said::NoteChanged.text()] },
    }
}

/// The case of each sentence.
fn cases(all: Vec<(&Stated, Told)>) -> Section {
    let mut blocks = vec![Block::Text(said::Introduction.text())];
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
    if !s.kept.leans.is_empty() {
        let rows = s.kept.leans.iter().map(|l| statement::leans_on(l).into()).collect();
        return said::StandsOnTracers { rows, head: head(), person: person() }.text();
    }
    let Some(results) = named.rev().reduce(|more, one| join::Comma { one, more }.into()) else {
        return said::OnNoResult { head: head(), person: person() }.text();
    };
    match s.uses.len().saturating_sub(NAMED) {
        0 => said::StandsOn { results, head: head(), person: person() }.text(),
        more => said::StandsOnMore { results, more: count(more), head: head(), person: person() }.text(),
    }
}

/// The highest result of each analyte that stands, against its strictest limit: what lies above a limit first, health
/// before taste before operation, then the nearest to its limit. Rejected ones are named by [`rejected_higher`].
pub(super) fn nearest(rows: &[Row]) -> Vec<&Row> {
    let mut best: Vec<&Row> = vec![];
    for r in rows.iter().filter(|r| r.strictest && !is_rejected(r)) {
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

/// The result, or its bound, as a share of its limit.
pub(super) fn share(r: &Row) -> f64 {
    r.comparison.share_of_limit()
}

/// Does a row's result lie above its limit?
pub(super) fn is_above(r: &Row) -> bool {
    r.comparison.answer == Answer::Above
}

/// At what temperature the conductivity among the rows stands, where its limit has one.
pub(super) fn conductivity_stands_at(rows: &[&Row], lang: Lang) -> Option<String> {
    let at = rows.iter().find_map(|r| r.comparison.limit.terms.at_degc)?;
    Some(limit::ConductivityStandsAt { to: message::Shown::as_given(at, "°C") }.in_language(lang))
}

/// Is a row's result rejected?
fn is_rejected(r: &Row) -> bool {
    r.verdict == Some(record::model::VerdictWord::Rejected)
}

/// The days of results as rows are told: the newest of an analyte, and beside it a higher one of an earlier day.
pub(super) struct Dated<'a> {
    /// Of the newest day of each well, the one nearest to its limit.
    pub newest: &'a Row,
    /// Where the record holds one nearer still, or over, of another day: the extreme of its history.
    pub extreme: Option<&'a Row>,
}

impl<'a> Dated<'a> {
    /// The one nearest to its limit, of all days.
    fn nearest(&self) -> &'a Row {
        self.extreme.unwrap_or(self.newest)
    }

    /// Newest first.
    #[cfg(test)]
    pub fn rows(&self) -> impl Iterator<Item = &'a Row> + use<'a> {
        [Some(self.newest), self.extreme].into_iter().flatten()
    }
}

/// Each analyte by the newest results of its wells, with the extreme of its history where that is another; the nearest to
/// a limit first. A bound is no extreme: it says what a method could not see.
pub(super) fn newest_and_extreme(rows: &[Row]) -> Vec<Dated<'_>> {
    let mut of_analytes: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    for r in rows.iter().filter(|r| r.strictest && !is_rejected(r)) {
        of_analytes.entry(&r.analyte).or_default().push(r);
    }
    let mut out: Vec<Dated> = vec![];
    for rows in of_analytes.into_values() {
        // A bottle without a day goes before all that have one.
        let mut last: BTreeMap<Option<&str>, Option<&str>> = BTreeMap::new();
        for r in &rows {
            let day = last.entry(r.well.as_deref()).or_default();
            *day = (*day).max(r.on.as_deref());
        }
        let is_newest = |r: &&&Row| last.get(&r.well.as_deref()).is_some_and(|day| *day == r.on.as_deref());
        let first = |a: &&Row, b: &&Row| order(a, b);
        let Some(newest) = rows.iter().filter(is_newest).copied().min_by(first) else { continue };
        let a_value = |r: &&&Row| !matches!(r.comparison.amount, quantity::Amount::Below(_));
        let extreme = rows.iter().filter(a_value).copied().min_by(first).filter(|e| share(e) > share(newest));
        out.push(Dated { newest, extreme });
    }
    let first = Dated::nearest;
    out.sort_by(|a, b| order(first(a), first(b)).then_with(|| a.newest.analyte.cmp(&b.newest.analyte)));
    out
}

/// Rejected results that lie higher than what is shown of their analyte, or are all that there is of it: named as such,
/// for a highest result that passes them over in silence is none.
pub(super) fn rejected_higher(rows: &[Row], lang: Lang) -> Option<String> {
    let shown = nearest(rows);
    let mut highest: Vec<&Row> = vec![];
    for r in rows.iter().filter(|r| r.strictest && is_rejected(r)) {
        match highest.iter_mut().find(|h| h.analyte == r.analyte) {
            Some(h) if share(r) > share(h) => *h = r,
            Some(_) => {}
            None => highest.push(r),
        }
    }
    highest.retain(|r| shown.iter().find(|s| s.analyte == r.analyte).is_none_or(|s| share(r) > share(s)));
    let told = |r: &&Row| -> Message {
        let place = r.well.as_ref().unwrap_or(&r.result.bottle).as_str().into();
        let x = match &r.comparison.amount {
            a @ quantity::Amount::Measured(_) => printed(a, lang),
            other => limits::claim::amount_in_words(lang, other),
        };
        let (substance, x) = (limits::claim::substance(&r.analyte), vec![message::Arg::Name(x.into())]);

        match &r.on {
            Some(day) => leaflet::RejectedOne { substance, x, place, day: day.as_str().into() }.into(),
            None => leaflet::RejectedOneUndated { substance, x, place }.into(),
        }
    };
    let mut names: Vec<message::Arg> = highest.iter().take(REJECTED).map(|r| told(r).into()).collect();
    if highest.len() > REJECTED {
        names.push(Message::from(leaflet::More { n: count(highest.len() - REJECTED) }).into());
    }
    (!names.is_empty()).then(|| leaflet::RejectedHigher { names }.in_language(lang))
}

/// Rejected results that a note names.
const REJECTED: usize = 8;

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
    lang.number(&Printed::of(a, k).in_line())
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

/// `SL2-26-07-A, 2026-07-14`; the label alone where no day is on record.
fn bottle_and_day(r: &Row) -> String {
    match &r.on {
        Some(day) => format!("{}, {day}", r.result.bottle),
        None => r.result.bottle.clone(),
    }
}

fn limits(against: &Against) -> Section {
    let lang = language();
    let near = nearest(&against.rows);
    let local = highest_local(&against.rows);
    let shown: Vec<&Row> = near.iter().chain(&local).copied().collect();
    let fractions = Fractions::of(&shown);
    let row = |r: &&Row| {
        let c = &r.comparison;
        let health = match for_health(r, &against.rows, lang) {
            ForHealth::Itself => limit::IsForHealth.text(),
            ForHealth::None => limit::NoHealthValue.text(),
            ForHealth::Said(health) => health.text(),
        };
        vec![
            Cell::Text(fractions.behind(quantity::format::capital(&super::substance(&r.analyte)), r, lang)),
            Cell::Text(bottle_and_day(r)),
            Cell::Text(printed(&in_unit(&c.amount, &readable_unit(&[*r])), lang)).of(&r.result),
            Cell::Text(limit_of(r, &readable_unit(&[*r]))),
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
            Column::words(paper::LimitWhose.text()),
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
            notes: fractions
                .note(lang)
                .into_iter()
                .chain(conductivity_stands_at(&near, lang))
                .chain([limit::Marks.text(), leaflet::NotForHealth.text()])
                .chain(rejected_higher(&against.rows, lang))
                .collect(),
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
    closing.extend(near.iter().flat_map(|r| method_short(r)).map(|m| quantity::format::capital(&m.text())));
    closing.extend(not_tested(&against.not_tested));
    closing.push(limit::WhoDecides.text());
    blocks.push(Block::List(closing));
    section(chapter::LimitsInFull, blocks)
}

/// Of each substance the result that comes nearest to a person's own limit, or lies farthest over it.
fn highest_local(rows: &[Row]) -> Vec<&Row> {
    let mut best: Vec<&Row> = vec![];
    for r in rows.iter().filter(|r| r.local) {
        match best.iter_mut().find(|b| b.analyte == r.analyte) {
            Some(b) if order(r, b).is_lt() => *b = r,
            Some(_) => {}
            None => best.push(r),
        }
    }
    best.sort_by(|a, b| order(a, b).then_with(|| a.analyte.cmp(&b.analyte)));
    best
}

/// Limits that are still to come after the newest of the results; none where there is none.
pub(super) fn coming(against: &Against) -> Option<Message> {
    let newest = against.rows.iter().filter_map(|r| r.on.as_deref()).max();
    let to_come = against.coming.iter().filter(|l| newest.is_none_or(|day| l.valid_from.as_str() > day));
    let limits: Vec<message::Arg> = to_come.map(|l| limits::local::coming_in_words(l).into()).collect();
    (!limits.is_empty()).then(|| limit::ComingAll { limits }.into())
}

/// What the method lacks of the limit's demands, one message a demand.
fn method_short(r: &Row) -> Vec<Message> {
    let c = &r.comparison;
    let said = |why: &Message| -> Message {
        let (substance, bottle) = (limits::claim::substance(&r.analyte), r.result.bottle.as_str().into());
        let authority = c.limit.authority.as_str().into();
        limit::MethodShort { substance, bottle, authority, why: why.clone() }.into()
    };
    c.method.iter().flat_map(limits::method::MethodMet::not_met).map(|m| said(&m.message)).collect()
}

/// What limits name and nobody measured; none where all was.
fn not_tested(of: &[String]) -> Option<String> {
    let names: Vec<String> = of.iter().filter(|n| *n != "microbes").map(|n| super::substance(n)).collect();
    let microbes = names.len() < of.len();
    let names = names.join(", ");
    match (microbes, names.is_empty()) {
        (true, true) => Some(limit::MicrobesNotTested.text()),
        (true, false) => Some(limit::NotTestedNorMicrobes { names: names.into() }.text()),
        (false, true) => None,
        (false, false) => Some(limit::NotTested { names: names.into() }.text()),
    }
}

/// A probability in whole per cent; never as certain as 0 or 100.
pub(super) fn probability(p: f64, lang: Lang) -> String {
    let text = match p {
        p if p > 0.999 => "> 99.9\u{A0}%".to_string(),
        p if p < 0.001 => "< 0.1\u{A0}%".to_string(),
        p if p > 0.99 => "> 99\u{A0}%".to_string(),
        p if p < 0.01 => "< 1\u{A0}%".to_string(),
        p => format!("{:.0}\u{A0}%", 100.0 * p),
    };
    lang.number(&text)
}

/// What the section on compounds stands on: documents of the limits that were held against, once each.
fn sources_of_compounds(r: &limits::absence::Report) -> Vec<String> {
    let of_groups = r.groups.iter().map(|g| g.authority.clone());
    let of_found = r.found_rows().into_iter().filter_map(|row| row.authority.clone());
    let mut out = vec!["Clopper & Pearson 1934, Biometrika 26:404".to_string()];
    for whose in of_groups.chain(of_found) {
        if !out.contains(&whose) {
            out.push(whose);
        }
    }
    out
}

/// What there is to say of sums, blind methods, names and numbers of a list.
pub(super) fn of_compounds(r: &limits::absence::Report) -> Vec<Finding> {
    let mut out = vec![];
    let mut finding = |check: Check, outcome: Outcome, says: Message| out.push(Finding::new(check, outcome, says));
    for g in &r.groups {
        let outcome = match g.answer {
            // A limit that is still to come decides nothing.
            _ if g.from.is_some() => Outcome::NotKnown,
            Answer::Below => Outcome::Met,
            Answer::Above => Outcome::NotMet,
            Answer::CannotTell => Outcome::NotKnown,
        };
        finding(Check::MeaningOrganicsSum, outcome, g.told(&r.unit));
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
    out
}

pub(super) fn compounds(r: &limits::absence::Report) -> Section {
    let mut blocks = vec![Block::Text(r.plain.clone())];
    // With the figures where nothing was found; else it says the same.
    if r.scientific != r.plain {
        blocks.push(Block::Text(r.scientific.clone()));
    }
    let findings = of_compounds(r);
    if !findings.is_empty() {
        blocks.push(Block::Findings(findings));
    }
    blocks.extend([found(r), bounds(r)].into_iter().flatten().map(Block::Table));
    section(absence::Compounds, blocks)
}

/// What was found, with limit and laboratory; none where nothing was.
fn found(r: &limits::absence::Report) -> Option<Table> {
    let row = |row: &limits::absence::Row| {
        let value = row.amount.as_ref().map_or_else(|| word::Found.text(), |a| printed(a, language()));
        let laboratory = row.laboratory.clone().unwrap_or_else(|| absence::LaboratoryNotStated.text());
        vec![
            Cell::Text(row.name.clone()),
            Cell::Text(row.sample.clone()),
            Cell::Text(value),
            Cell::Text(row.told_limit().text()),
            Cell::Text(laboratory),
        ]
    };
    let rows: Vec<Vec<Cell>> = r.found_rows().into_iter().map(row).collect();
    let heads = [
        word::Compound.text(),
        word::Bottle.text(),
        absence::Value.text(),
        absence::BesideColumn.text(),
        absence::Laboratory.text(),
    ];
    let columns = heads.map(Column::words).to_vec();
    (!rows.is_empty()).then(|| Table { caption: absence::FoundCaption.text(), columns, rows, notes: vec![] })
}

/// All bounds of what was not found, each compound once, four a row, so that a long list stays short; none where all
/// were found.
fn bounds(r: &limits::absence::Report) -> Option<Table> {
    const ACROSS: usize = 4;
    let lang = language();
    let cell = |row: &&limits::absence::Row| {
        let told = match row.upper_bound {
            Some(b) => Shown { relation: "<".into(), ..Shown::bound(b, "") }.said(lang),
            None => absence::NotSaid.text(),
        };
        let mark = if row.blind { " ‡" } else { "" };
        [Cell::Text(row.name.clone()), Cell::Text(format!("{told}{mark}"))]
    };
    let unit = r.unit.to_string();
    let columns = (0..ACROSS)
        .flat_map(|_| [Column::words(word::Compound.text()), Column::numbers(absence::AtMost.text(), &unit)]);
    let told = r.not_found_rows();
    let rows: Vec<Vec<Cell>> = told.chunks(ACROSS).map(|c| c.iter().flat_map(cell).collect()).collect();
    (!rows.is_empty()).then(|| Table {
        caption: absence::Caption.text(),
        columns: columns.collect(),
        rows,
        notes: vec![absence::BlindMark.text()],
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Amount, Unit};
    use record::model::VerdictWord;

    /// Lead of a well on a day, in µg/L, beside the limit of the WHO.
    fn row(bottle: &str, well: &str, on: Option<&str>, amount: &Amount, verdict: VerdictWord) -> Row {
        let limit = limits::limits().iter().find(|l| l.analyte == "Pb" && l.authority == "WHO").unwrap();
        Row {
            result: format!("{bottle}:Pb:@:unfiltered#1").parse().unwrap(),
            well: Some(well.into()),
            analyte: "Pb".into(),
            verdict: Some(verdict),
            profile: None,
            on: on.map(String::from),
            comparison: limits::compare(amount, limit, &limits::Options::default()),
            local: false,
            strictest: true,
            nearest_health: false,
        }
    }

    fn ug_l() -> Unit {
        Unit::known("ug/L")
    }

    fn value(x: f64) -> Amount {
        Amount::measured(x, 0.01 * x, ug_l())
    }

    /// A well of 25 years: what was 0.091 µg/L in 2002 is 0.003 today; a coarse limit of between says nothing of it.
    fn history() -> Vec<Row> {
        vec![
            row("H", "SL-2", Some("2002-06-01"), &value(0.091), VerdictWord::Provisional),
            row("C", "SL-2", Some("2008-06-01"), &Amount::below(5.0, ug_l()), VerdictWord::Provisional),
            row("U", "SL-2", None, &value(0.05), VerdictWord::Provisional),
            row("N", "SL-2", Some("2026-07-14"), &value(0.003), VerdictWord::Accepted),
            row("O", "SL-1", Some("2026-07-14"), &value(0.002), VerdictWord::Accepted),
        ]
    }

    #[test]
    fn the_newest_stands_first_and_the_extreme_of_all_years_is_named() {
        let rows = history();
        let told = newest_and_extreme(&rows);
        let bottles: Vec<&str> = told.iter().flat_map(Dated::rows).map(|r| r.result.bottle.as_str()).collect();
        assert_eq!(bottles, ["N", "H"]);
        let newest_only = newest_and_extreme(&rows[3..]);
        assert!(newest_only.len() == 1 && newest_only[0].extreme.is_none());
    }

    #[test]
    fn a_rejected_result_that_lies_higher_is_named() {
        let mut rows = history();
        assert_eq!(rejected_higher(&rows, Lang::En), None);
        rows.push(row("R", "SL-3", Some("2026-07-14"), &value(40.0), VerdictWord::Rejected));
        let told = rejected_higher(&rows, Lang::En).expect("it is named");
        assert!(told.contains("SL-3") && told.contains("2026-07-14") && told.contains("40.0"), "{told}");
        assert_eq!(nearest(&rows)[0].result.bottle, "C", "and stands for nothing");
        rows.push(row("L", "SL-3", Some("2026-07-14"), &value(0.0001), VerdictWord::Rejected));
        assert_eq!(rejected_higher(&rows, Lang::En), Some(told), "a lower one is not");
    }
}
