//! Statements, limits and long lists in the full report: each sentence with its answer and its case,
//! results against the strictest and the local limit, what a list of compounds shows.

use super::{Caution, section};
use assessment::organics;
use assessment::results::Listed;
use document::content::{Block, Cell, Column, Content, Method, Section, Table};
use figure::number::Printed;
use language::as_written;
use programme::limits_of::{Against, Asked, Row, against_of};
use programme::statement::{self, Stated};
use quantity::format::significant_trimmed;
use quantity::{Check, Finding, Lang, Outcome};
use record::Error;
use record::store::Store;

/// Adds the sections.
pub fn fill(store: &Store, all: &[Listed], out: &mut Content) -> Result<(), Error> {
    let statement::All { stated, unread } = statement::all(store)?;
    out.found.extend(unread.iter().map(|why| as_written(why)));
    if !stated.is_empty() {
        out.sections.push(statements(&stated));
        out.methods.push(Method {
            name: "Statements".into(),
            text: "A sentence is given as fields and checked by one-sided 95 % bounds of the ratio that it implies; a non-detect stands as a bound, never as a number. It is kept with the results it stands on, and marked when one of them changes.".into(),
            sources: vec!["Fieller 1954, J. R. Stat. Soc. B 16:175".into(), "JCGM 106:2012".into()],
        });
    }
    let mut against = against_of(store, all, &Asked::default())?;
    let named = organics::Compounds::of(store, all)?;
    against.rows.retain(|r| !named.holds(&r.analyte));
    if !against.rows.is_empty() {
        out.sections.push(limits(&against));
        out.methods.push(Method {
            name: "Results against limits".into(),
            text: "Probability that the true value lies under the limit, normal or Student’s t about the result; below takes 95 %. The strictest limit of each substance is the lowest upper end in one unit and basis among all tables, a person’s own among them.".into(),
            sources: vec!["JCGM 106:2012, 7.2 to 7.4 and 8.3".into()],
        });
    }
    let list = match organics::report(store, all, Lang::En) {
        Ok(list) => list,
        // A list that cannot be summed up is told; the rest of the report stands.
        Err(e @ Error::Science { .. }) => {
            out.cautions.push(Caution::CompoundsLeftOut.sentence());
            out.found.push(format!("Of the organic compounds: {e}."));
            None
        }
        Err(e) => return Err(e),
    };
    if let Some(report) = list {
        out.sections.push(compounds(&report));
        out.methods.push(Method {
            name: "Lists of compounds, none found".into(),
            text: "Upper bound of each: max(net, 0) + U with k = 2 where a net value is given, never under its critical value, else the reporting limit; the highest possible sum adds them up within a sample. Not found in n of n samples bounds the frequency at 1 − 0.05^(1/n).".into(),
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

/// Each sentence with its answer, then its case.
fn statements(stated: &[Stated]) -> Section {
    let rows = stated
        .iter()
        .map(|s| {
            vec![
                Cell::Text(s.asked.clone()),
                Cell::Text(if s.stands() { s.answer.clone() } else { format!("{}, † see below", s.answer) }),
                Cell::Text(s.plain.clone()),
            ]
        })
        .collect();
    let mut blocks = vec![
        Block::Text("Each sentence was checked against the results that it names. The last column is the nearest sentence that the data do support.".into()),
        Block::Table(Table {
            caption: "Sentences and what the data say to them".into(),
            columns: vec![Column::words("sentence asked"), Column::words("answer"), Column::words("what may be said")],
            rows,
            notes: vec!["† a result has changed since the sentence was checked.".into()],
        }),
    ];
    for s in stated {
        blocks.push(Block::Heading(format!("{}, revision {}", as_written(&s.name), s.revision)));
        blocks.push(Block::Findings(case(s)));
        let mut list = vec![stands_on(s)];
        list.extend(s.despite.iter().map(|d| {
            format!(
                "Provisional or rejected results were taken all the same: {} ({}).",
                as_written(d),
                as_written(&s.person)
            )
        }));
        list.extend(s.warnings.iter().cloned());
        blocks.push(Block::List(list));
    }
    section("Statements", blocks)
}

fn case(s: &Stated) -> Vec<Finding> {
    let mut out = vec![Finding::kept(Check::MeaningStatement, outcome(&s.answer), s.scientific.clone())];
    for changed in &s.changed {
        out.push(Finding::kept(Check::MeaningStatementChanged, Outcome::NotMet, format!("Changed since: {changed}.")));
    }
    if let Some(t) = &s.today {
        let sentence = format!("On the record of today: {}", t.plain);
        out.push(Finding::kept(
            Check::MeaningStatementToday,
            t.answer.as_deref().map_or(Outcome::NotKnown, outcome),
            sentence,
        ));
    }
    out
}

fn stands_on(s: &Stated) -> String {
    let head: String = s.head.chars().take(12).collect();
    if s.uses.is_empty() {
        return format!("Stands on no result of this record; checked at head {head}… by {}.", as_written(&s.person));
    }
    let some: Vec<String> = s
        .uses
        .iter()
        .take(4)
        .map(|u| u.verdict.map_or_else(|| u.result.to_string(), |v| format!("{} ({})", u.result, v.word())))
        .collect();
    let more = if s.uses.len() > 4 { format!(" and {} more", s.uses.len() - 4) } else { String::new() };
    format!("Stands on {}{more}; checked at head {head}… by {}.", some.join(", "), as_written(&s.person))
}

/// The highest result of each analyte, by its share of the strictest limit: the nearest to a limit first.
pub(super) fn nearest(rows: &[Row]) -> Vec<&Row> {
    let mut best: Vec<&Row> = vec![];
    for r in rows.iter().filter(|r| r.strictest && r.verdict != Some(record::model::VerdictWord::Rejected)) {
        match best.iter_mut().find(|b| b.analyte == r.analyte) {
            Some(b) if share(r) > share(b) => *b = r,
            Some(_) => {}
            None => best.push(r),
        }
    }
    best.sort_by(|a, b| share(b).total_cmp(&share(a)).then_with(|| a.analyte.cmp(&b.analyte)));
    best
}

/// The result, or its bound, as a share of the limit; a value beside a range by its place in it.
pub(super) fn share(r: &Row) -> f64 {
    use quantity::Amount;
    let x = match &r.comparison.amount {
        Amount::Measured(m) => m.value,
        Amount::Stated(s) => s.value,
        Amount::Below(b) | Amount::Above(b) => b.limit,
    };
    let l = &r.comparison.limit;
    match l.low {
        Some(low) => ((x - 0.5 * (low + l.high)) / (0.5 * (l.high - low))).abs(),
        None => x / l.high,
    }
}

/// An amount with U, in the limit's unit.
pub(super) fn printed(a: &quantity::Amount) -> String {
    let k = match a {
        quantity::Amount::Measured(m) => assessment::results::coverage_k(m.dof),
        _ => 2.0,
    };
    Printed::of(a, k).with_unit()
}

/// A limit with its unit; a range with both ends.
pub(super) fn limit_in_words(l: &limits::Limit) -> String {
    let n = |x: f64| significant_trimmed(x, 3);
    match l.low {
        Some(low) => format!("{} – {} {}", n(low), n(l.high), l.unit),
        None => format!("{} {}", n(l.high), l.unit),
    }
}

fn limits(against: &Against) -> Section {
    let row = |r: &&Row| {
        let c = &r.comparison;
        vec![
            Cell::Text(r.analyte.clone()),
            Cell::Text(r.result.bottle.clone()),
            Cell::Text(printed(&c.amount)).of(&r.result),
            Cell::Text(limit_in_words(&c.limit)),
            Cell::Text(format!(
                "{}, {}{}",
                c.limit.authority,
                c.limit.kind,
                if c.limit.provenance == "recalled" { " *" } else { "" }
            )),
            Cell::Text(c.answer.word().into()),
            Cell::Text(c.probability_under.map_or_else(|| "–".into(), probability)),
        ]
    };
    let columns = || {
        let words = ["result", "limit", "whose, kind", "the result is", "P(under)"].map(Column::words);
        [Column::words("analyte"), Column::names("bottle")].into_iter().chain(words).collect()
    };
    let mut blocks = vec![
        Block::Text("Comparison with published limits and those that a person added, as they hold on the day of each sample. It says nothing of what the water may be used for.".into()),
        Block::Table(Table {
            caption: "The highest result of each analyte against the strictest limit, the nearest to it first".into(),
            columns: columns(),
            rows: nearest(&against.rows).iter().map(row).collect(),
            notes: vec!["* recalled: still to be compared with its document. Rejected results are left out. Unmarked limits were seen.".into()],
        }),
    ];
    let local: Vec<&Row> = against.rows.iter().filter(|r| r.local).collect();
    if !local.is_empty() {
        blocks.push(Block::Table(Table {
            caption: "Against local limits".into(),
            columns: columns(),
            rows: local.iter().map(row).collect(),
            notes: vec![],
        }));
    }
    blocks.push(Block::List(vec![
        format!("Not tested: {}.", against.not_tested.join(", ")),
        "Who decides: the local health authority.".into(),
    ]));
    section("Against limits", blocks)
}

pub(super) fn probability(p: f64) -> String {
    if p > 0.9995 {
        "> 0.999".into()
    } else if p < 0.0005 {
        "< 0.001".into()
    } else {
        format!("{p:.3}")
    }
}

fn compounds(r: &limits::absence::Report) -> Section {
    let mut blocks = vec![Block::Text(r.plain.clone()), Block::Text(r.scientific.clone())];
    let mut findings = vec![];
    let mut finding = |check: Check, outcome: Outcome, sentence: String| {
        findings.push(Finding::kept(check, outcome, sentence));
    };
    if let (Some(under), Some(l), Some(sum)) = (r.sum_under_limit, &r.sum_limit, r.highest_sum) {
        let outcome = if under { Outcome::Met } else { Outcome::NotKnown };
        let n = |x: f64| significant_trimmed(x, 2);
        finding(
            Check::MeaningOrganicsSum,
            outcome,
            format!("Highest possible sum {} {} against {} {} ({}).", n(sum), r.unit, n(l.value), r.unit, l.authority),
        );
    }
    if !r.blind.is_empty() {
        let share = 100.0 * r.blind_share.unwrap_or(0.0);
        finding(
            Check::MeaningOrganicsBlind,
            Outcome::NotKnown,
            format!(
                "For {} of the compounds ({} %) the detection limit lies over the limit that they are held to: {}.",
                r.blind.len(),
                significant_trimmed(share, 2),
                r.blind.join(", ")
            ),
        );
    }
    for names in &r.doubles {
        finding(
            Check::MeaningOrganicsDouble,
            Outcome::NotMet,
            format!("{} are one compound under two names; it counts once, with the higher bound.", names.join(" and ")),
        );
    }
    for fault in &r.faults {
        finding(Check::MeaningOrganicsNumber, Outcome::NotMet, format!("{fault}."));
    }
    if !findings.is_empty() {
        blocks.push(Block::Findings(findings));
    }
    blocks.push(Block::Table(bounds(r)));
    section("Organic compounds", blocks)
}

/// All bounds, three compounds a row, so that a long list stays short; what was found stands first, with its value.
fn bounds(r: &limits::absence::Report) -> Table {
    const ACROSS: usize = 3;
    let cell = |row: &limits::absence::Row| {
        let bound = match (row.value.filter(|_| row.found), row.upper_bound) {
            (Some(value), _) => significant_trimmed(value, 2),
            (None, Some(b)) => format!("< {}", significant_trimmed(b, 2)),
            (None, None) => "not said".to_string(),
        };
        let mark = if row.found {
            " found"
        } else if row.blind {
            " ‡"
        } else {
            ""
        };
        [Cell::Text(row.name.clone()), Cell::Text(format!("{bound}{mark}"))]
    };
    let unit = r.unit.to_string();
    let columns = (0..ACROSS).flat_map(|_| [Column::words("compound"), Column::numbers("at most", &unit)]).collect();
    let (found, others): (Vec<_>, Vec<_>) = r.rows.iter().partition(|row| row.found);
    let told: Vec<&limits::absence::Row> = found.into_iter().chain(others).collect();
    let rows = told.chunks(ACROSS).map(|c| c.iter().flat_map(|row| cell(row)).collect()).collect();
    Table {
        caption: "Upper bounds of the compounds".into(),
        columns,
        rows,
        notes: vec!["‡ the detection limit lies over the limit: nothing can be said.".into()],
    }
}
