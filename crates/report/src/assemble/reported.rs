//! Sections on results that laboratories reported as concentrations: what there is, how much of it
//! is censored, what the blanks and the replicates say.

use super::words::{capital, element};
use super::{section, unit, word};
use crate::content::{Block, Cell, Column, Content, Illustration, Table, Word};
use crate::figure::pairs::{Pair, PairsPicture};
use crate::figure::{self, Head, PHONE, WIDE, slug};
use programme::Error;
use programme::assess::findings_of;
use programme::model::{State, VerdictWord};
use programme::results::Listed;
use programme::store::{Filter, Store};
use quantity::format::significant;
use quantity::{Amount, Finding, Outcome, Unit};
use std::collections::BTreeMap;

/// Results of one analyte and fraction in one unit.
type Series<'a> = BTreeMap<(&'a str, &'a str, String), Vec<&'a Listed>>;

/// Adds the sections; `alone` where the programme holds nothing else.
pub fn fill(store: &Store, reported: &[&Listed], alone: bool, out: &mut Content) -> Result<(), Error> {
    let mut series: Series = BTreeMap::new();
    for r in reported.iter().copied().filter(|r| matches!(r.kind.as_str(), "sample" | "duplicate")) {
        series.entry((&r.analyte, &r.fraction, unit(r))).or_default().push(r);
    }
    let findings = findings_by_subject(store)?;
    if alone {
        out.subtitle = format!("{} reported results", reported.len());
        out.asked.push("What do the reported concentrations hold, how far do blanks and replicates bear them, and what is missing before one may rely on them?".into());
        out.found = found(reported, &series);
    }
    let mut blocks = vec![];
    if series.values().map(Vec::len).max().unwrap_or(0) <= 4 {
        blocks.push(Block::Table(waters(reported)));
        blocks.push(Block::Findings(meaning(reported, &findings)));
    } else {
        blocks.push(Block::Table(inventory(&series, &findings)));
        blocks.push(Block::Table(evidence(&series, &findings)));
        blocks.extend(pairs(store, reported)?.map(Block::Figure));
        blocks.extend(balances(reported, &findings));
    }
    out.sections.push(section("Concentrations as laboratories reported them", blocks));
    Ok(())
}

fn findings_by_subject(store: &Store) -> Result<BTreeMap<i64, Vec<Finding>>, Error> {
    let mut out = BTreeMap::new();
    for v in store.verdicts()? {
        out.insert(v.subject_id, findings_of(store, &v)?);
    }
    Ok(out)
}

fn found(reported: &[&Listed], series: &Series) -> Vec<String> {
    let of = |w: VerdictWord| reported.iter().filter(|r| r.verdict == Some(w)).count();
    let below = reported.iter().filter(|r| matches!(r.amount, None | Some(Amount::Below(_)))).count();
    vec![
        format!("{} results of {} analytes and fractions came in; {} of them ({} %) are below a limit.", reported.len(), series.len(), below, significant(100.0 * below as f64 / reported.len() as f64, 2)),
        format!(
            "{} results are accepted, {} provisional, {} rejected. Most are provisional for the same reasons: the reports state no uncertainty of single values, no spike shows that nothing was lost, and for many analytes the blanks are too few.",
            of(VerdictWord::Accepted), of(VerdictWord::Provisional), of(VerdictWord::Rejected)
        ),
        "Provisional does not say that a number is wrong. It says what would have to be shown before one may build on it.".into(),
    ]
}

/// A table of a few waters side by side.
fn waters(reported: &[&Listed]) -> Table {
    let mut columns: Vec<&str> = reported.iter().map(|r| r.bottle.as_str()).collect();
    columns.sort_unstable();
    columns.dedup();
    let mut analytes: Vec<&str> = vec![];
    for r in reported {
        if !analytes.contains(&r.analyte.as_str()) {
            analytes.push(&r.analyte);
        }
    }
    let rows = analytes
        .iter()
        .map(|a| {
            let one = |bottle: &str| reported.iter().find(|r| r.bottle == bottle && r.analyte == **a);
            let unit = reported.iter().find(|r| r.analyte == **a).map_or_else(String::new, |r| unit(r));
            let mut row = vec![Cell::Text((*a).to_string()), Cell::Text(unit)];
            row.extend(
                columns
                    .iter()
                    .map(|b| one(b).map_or(Cell::Missing("–".into()), |r| Cell::Text(number(r.amount.as_ref())))),
            );
            row
        })
        .collect();
    let mut heads = vec![Column::words("analyte"), Column::words("unit")];
    heads.extend(columns.iter().map(|b| Column::words(b)));
    Table {
        caption: "Major ions and other reported concentrations".into(),
        columns: heads,
        rows,
        notes: vec![
            "± is the expanded uncertainty, k = 2, where the laboratory states one; < is its limit, not a value."
                .into(),
        ],
    }
}

/// The number without its unit.
fn number(a: Option<&Amount>) -> String {
    let Some(a) = a else { return "< not stated".into() };
    match a {
        Amount::Measured(m) => {
            let (v, u) = quantity::format::value_and_expanded(m, 2.0);
            format!("{v} ± {u}")
        }
        Amount::Stated(s) => quantity::format::significant_trimmed(s.value, 4),
        Amount::Below(b) => format!("< {}", quantity::format::significant_trimmed(b.limit, 3)),
        Amount::Above(b) => format!("> {}", quantity::format::significant_trimmed(b.limit, 3)),
    }
}

/// Findings on the water as a whole, each once.
fn meaning(reported: &[&Listed], findings: &BTreeMap<i64, Vec<Finding>>) -> Vec<Finding> {
    let mut out: Vec<Finding> = vec![];
    for r in reported {
        for f in findings.get(&r.subject).into_iter().flatten().filter(|f| f.check.starts_with("meaning.")) {
            let sentence = format!("{}: {}", r.well.as_deref().unwrap_or(&r.bottle), f.sentence);
            if !out.iter().any(|o| o.sentence == sentence) {
                out.push(Finding { sentence, ..f.clone() });
            }
        }
    }
    out
}

fn inventory(series: &Series, _findings: &BTreeMap<i64, Vec<Finding>>) -> Table {
    let rows = series
        .iter()
        .map(|((analyte, fraction, unit), rs)| {
            let count = |s: State| rs.iter().filter(|r| r.state == s).count();
            let mut values: Vec<f64> = rs.iter().filter_map(|r| r.amount.as_ref()?.value()).collect();
            values.sort_by(f64::total_cmp);
            let limits: Vec<f64> = rs
                .iter()
                .filter_map(|r| if let Some(Amount::Below(b)) = &r.amount { Some(b.limit) } else { None })
                .collect();
            let range = |v: &[f64]| match (v.iter().copied().reduce(f64::min), v.iter().copied().reduce(f64::max)) {
                (Some(a), Some(b)) if a < b => Cell::Text(format!("{} – {}", significant(a, 2), significant(b, 2))),
                (Some(a), _) => Cell::Text(significant(a, 2)),
                _ => Cell::Missing("–".into()),
            };
            let below = count(State::NotDetected);
            let worst = rs.iter().filter_map(|r| word(r)).max().unwrap_or(Word::Provisional);
            vec![
                Cell::Text(capital(element(analyte))),
                Cell::Text((*fraction).to_string()),
                Cell::Text(unit.clone()),
                Cell::Text(rs.len().to_string()),
                Cell::Text(below.to_string()),
                Cell::Text(count(State::Estimated).to_string()),
                range(&values),
                range(&limits),
                Cell::Verdict(worst),
            ]
        })
        .collect();
    Table {
        caption: "What came in, by analyte and fraction".into(),
        columns: vec![
            Column::words("analyte"), Column::words("fraction"), Column::words("unit"), Column::numbers("results", "n"), Column::numbers("below a limit", "n"), Column::numbers("estimated", "n"),
            Column::words("values from – to"), Column::words("limits from – to"), Column::words("verdict"),
        ],
        rows,
        notes: vec!["The verdict shown is the least favourable one of the series. Values are as reported, to two digits; no report states their uncertainty.".into()],
    }
}

/// What blanks and replicates say, one row an analyte and fraction.
fn evidence(series: &Series, findings: &BTreeMap<i64, Vec<Finding>>) -> Table {
    let mut rows = vec![];
    for ((analyte, fraction, _), rs) in series {
        let find =
            |check: &str| rs.iter().filter_map(|r| findings.get(&r.subject)).flatten().find(|f| f.check == check);
        let said = |check: &str| {
            find(check).map_or(Cell::Missing("–".into()), |f| {
                Cell::Text(f.sentence.split(" (").next().unwrap_or_default().to_string())
            })
        };
        if find("number.blanks").is_some_and(|f| f.outcome != Outcome::NotKnown || !f.sentence.starts_with("No blank"))
            || find("number.replicates").is_some_and(|f| f.outcome == Outcome::Met)
        {
            rows.push(vec![
                Cell::Text(format!("{}, {fraction}", capital(element(analyte)))),
                said("number.blanks"),
                said("number.replicates"),
            ]);
        }
    }
    Table {
        caption: "What blanks and replicates of the same programme say".into(),
        columns: vec![Column::words("analyte"), Column::words("blanks"), Column::words("replicates")],
        rows,
        notes: vec![],
    }
}

/// Replicate sets of the analyte that has most of them, as relative difference against level.
fn pairs(store: &Store, reported: &[&Listed]) -> Result<Option<Illustration>, Error> {
    let sets: BTreeMap<String, String> =
        store.bottles(&Filter::all())?.into_iter().filter_map(|b| b.set_name.map(|s| (b.label, s))).collect();
    let mut by_analyte: BTreeMap<(&str, String), BTreeMap<&str, Vec<&Listed>>> = BTreeMap::new();
    for r in reported {
        if let Some(set) = sets.get(&r.bottle) {
            by_analyte.entry((&r.analyte, unit(r))).or_default().entry(set).or_default().push(r);
        }
    }
    by_analyte.retain(|(a, unit), _| Unit::parse(unit).is_ok() && !matches!(*a, "temperature" | "pH" | "conductivity"));
    let Some(((analyte, unit), sets)) =
        by_analyte.into_iter().max_by_key(|(_, s)| s.values().filter(|v| v.len() > 1).count())
    else {
        return Ok(None);
    };
    let pairs: Vec<Pair> = sets
        .values()
        .filter(|v| v.len() > 1)
        .filter_map(|v| Some(pair(v[0].amount.as_ref()?, v[1].amount.as_ref()?)))
        .collect();
    let name = element(analyte);
    let picture = PairsPicture {
        head: Head {
            id: slug(&format!("replicates-{analyte}")),
            title: format!("Replicate samples: {name}"),
            desc: format!("Relative difference of replicate pairs of {name} against their level."),
        },
        under: format!("{} pairs; the report states no uncertainty, so this is what is known of it.", pairs.len()),
        unit,
        pairs,
        limit_percent: None,
    };
    Ok(Some(Illustration {
        wide: figure::pairs::draw(&picture, WIDE),
        phone: Some(figure::pairs::draw(&picture, PHONE)),
        caption: format!("Differences of replicate samples, {name}, the analyte with most pairs."),
    }))
}

fn pair(a: &Amount, b: &Amount) -> Pair {
    let bound = |x: &Amount| match x {
        Amount::Below(l) | Amount::Above(l) => l.limit,
        other => other.value().unwrap_or(0.0),
    };
    match (a.value(), b.value()) {
        (Some(x), Some(y)) if x + y > 0.0 => {
            Pair::Both { level: 0.5 * (x + y), percent: 100.0 * (x - y) / (0.5 * (x + y)), expected_percent: None }
        }
        _ => Pair::WithNonDetect { level: bound(a).max(bound(b)) },
    }
}

/// How the charge balances of all complete analyses lie.
fn balances(reported: &[&Listed], findings: &BTreeMap<i64, Vec<Finding>>) -> Option<Block> {
    let mut seen: BTreeMap<&str, f64> = BTreeMap::new();
    let mut met = 0;
    for r in reported {
        for f in findings.get(&r.subject).into_iter().flatten().filter(|f| f.check == "meaning.charge-balance") {
            if let Some(v) = f.compared.first().and_then(|c| c.amount.value()) {
                if seen.insert(&r.bottle, v).is_none() && f.outcome == Outcome::Met {
                    met += 1;
                }
            }
        }
    }
    let within = seen.values().filter(|v| v.abs() <= 5.0).count();
    (!seen.is_empty()).then(|| Block::Text(format!("Charge balance was worked out for {} complete analyses: {met} stay within the window for their strength, {within} within 5 %.", seen.len())))
}
