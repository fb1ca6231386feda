//! Sections on results that laboratories reported as concentrations: what there is, how much of it
//! is censored, what the blanks and the replicates say.

use super::words::{CONDITIONS, capital, element};
use super::{section, unit, word};
use assessment::assess::findings_of;
use assessment::results::Listed;
use document::content::{Block, Cell, Column, Content, Illustration, Table, Word};
use figure::pairs::{Pair, PairsPicture};
use figure::{self, Head, PHONE, WIDE, slug};
use language::as_written;
use quantity::format::{percent, significant};
use quantity::{Amount, Check, Finding, Stage};
use record::Error;
use record::model::{State, VerdictWord};
use record::store::{Filter, Store};
use std::collections::BTreeMap;

/// Results of one analyte and fraction in one unit.
type Series<'a> = BTreeMap<(&'a str, &'a str, String), Vec<&'a Listed>>;

/// Adds the sections; `alone` where the programme holds nothing else.
pub fn fill(store: &Store, reported: &[&Listed], alone: bool, out: &mut Content) -> Result<(), Error> {
    let mut series: Series = BTreeMap::new();
    for r in reported.iter().copied().filter(|r| r.kind.is_water()) {
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
        blocks.push(Block::Table(inventory(&series)));
        blocks.push(Block::Table(evidence(&series, &findings)));
        blocks.extend(pairs(store, reported)?.map(Block::Figure));
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
    let mut reasons: BTreeMap<&str, usize> = BTreeMap::new();
    for r in reported.iter().flat_map(|r| &r.reasons) {
        *reasons.entry(r).or_insert(0) += 1;
    }
    let mut reasons: Vec<(&str, usize)> = reasons.into_iter().collect();
    reasons.sort_by_key(|r| std::cmp::Reverse(r.1));
    let told: Vec<String> = reasons.iter().map(|(check, n)| format!("{} ({n})", missing(check))).collect();
    vec![
        format!(
            "{} results of {} analytes and fractions came in; {below} of them ({} %) are below a limit.",
            reported.len(),
            series.len(),
            percent(below as f64 / reported.len() as f64, 2)
        ),
        format!(
            "{} results of well and river water are accepted, {} provisional, {} rejected. What holds them back: {}.",
            of(VerdictWord::Accepted),
            of(VerdictWord::Provisional),
            of(VerdictWord::Rejected),
            told.join("; ")
        ),
        "Provisional does not say that a number is wrong. It says what would have to be shown before one may build on it.".into(),
    ]
}

/// What a check that decided was missing, in words.
fn missing(check: &str) -> &str {
    match Check::from_text(check) {
        Some(Check::NumberRecovery) => "no spike shows that nothing was lost",
        Some(Check::NumberUncertainty) => "the report states no uncertainty of the value",
        Some(Check::NumberBlanks) => "too few blanks of the analyte",
        Some(Check::NumberEstimated) => "the laboratory itself calls the value an estimate",
        Some(Check::NumberLimit) => "not detected, but not said below what",
        _ => check,
    }
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
            row.extend(columns.iter().map(|b| {
                one(b).map_or(Cell::Missing("–".into()), |r| Cell::Text(number(r.amount.as_ref())).of(&r.result))
            }));
            row
        })
        .collect();
    let mut heads = vec![Column::words("analyte"), Column::words("unit")];
    heads.extend(columns.iter().map(|b| Column::words(&as_written(b))));
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
        for f in findings.get(&r.subject).into_iter().flatten().filter(|f| f.stage == Stage::Meaning) {
            let sentence = format!("{}: {}", as_written(r.well.as_deref().unwrap_or(&r.bottle)), language::finding(f));
            if !out.iter().any(|o| o.sentence == sentence) {
                out.push(Finding { sentence, message: None, ..f.clone() });
            }
        }
    }
    out
}

fn inventory(series: &Series) -> Table {
    let rows =
        series.iter().map(|((analyte, fraction, unit), rs)| inventory_row(analyte, fraction, unit, rs)).collect();
    Table {
        caption: "What came in, by analyte and fraction".into(),
        columns: vec![
            Column::words("analyte, fraction"),
            Column::words("unit"),
            Column::numbers("results", "n"),
            Column::numbers("below limit", "n"),
            Column::numbers("estimated", "n"),
            Column::words("values"),
            Column::words("limits"),
            Column::words("verdict"),
        ],
        rows,
        notes: vec!["The verdict shown is the least favourable one of the series. Values and limits from lowest to highest, as reported, to two digits; the reports state no uncertainty of them.".into()],
    }
}

fn inventory_row(analyte: &str, fraction: &str, unit: &str, rs: &[&Listed]) -> Vec<Cell> {
    let count = |s: State| Cell::Text(rs.iter().filter(|r| r.state == s).count().to_string());
    let values: Vec<f64> = rs.iter().filter_map(|r| r.amount.as_ref()?.value()).collect();
    let limits: Vec<f64> =
        rs.iter().filter_map(|r| if let Some(Amount::Below(b)) = &r.amount { Some(b.limit) } else { None }).collect();
    let range = |v: &[f64]| match (v.iter().copied().reduce(f64::min), v.iter().copied().reduce(f64::max)) {
        (Some(a), Some(b)) if a < b => Cell::Text(format!("{} – {}", significant(a, 2), significant(b, 2))),
        (Some(a), _) => Cell::Text(significant(a, 2)),
        _ => Cell::Missing("–".into()),
    };
    vec![
        Cell::Text(named(analyte, fraction)),
        Cell::Text(unit.to_string()),
        Cell::Text(rs.len().to_string()),
        count(State::NotDetected),
        count(State::Estimated),
        range(&values),
        range(&limits),
        Cell::Verdict(rs.iter().filter_map(|r| word(r)).max().unwrap_or(Word::Provisional)),
    ]
}

/// "Lead, filtered"; conditions of the water have no fraction.
fn named(analyte: &str, fraction: &str) -> String {
    let name = capital(element(analyte));
    if CONDITIONS.contains(&analyte) { name } else { format!("{name}, {fraction}") }
}

/// What blanks and replicates say, one row an analyte and fraction.
fn evidence(series: &Series, findings: &BTreeMap<i64, Vec<Finding>>) -> Table {
    let mut rows: BTreeMap<String, Vec<Cell>> = BTreeMap::new();
    for ((analyte, fraction, _), rs) in series.iter().filter(|((a, ..), _)| !CONDITIONS.contains(a)) {
        let find =
            |check: Check| rs.iter().filter_map(|r| findings.get(&r.subject)).flatten().find(|f| f.check == check);
        let number = |f: Option<&Finding>, name: &str| {
            f.and_then(|f| f.compared.iter().find(|c| c.name == name)).map(|c| c.amount.clone())
        };
        let (blanks, pairs) = (find(Check::NumberBlanks), find(Check::NumberReplicates));
        let whole = |a: Option<Amount>| {
            a.and_then(|a| a.value()).map_or(Cell::Missing("none".into()), |v| Cell::Text(format!("{v:.0}")))
        };
        let limit = number(blanks, "limit of the blanks");
        let spread = number(pairs, "relative standard deviation").or(number(pairs, "standard deviation"));
        if limit.is_none() && spread.is_none() && number(blanks, "blanks").is_none() {
            continue;
        }
        rows.entry(named(analyte, fraction)).or_insert_with(|| {
            vec![
                Cell::Text(named(analyte, fraction)),
                whole(number(blanks, "blanks")),
                whole(number(blanks, "found in")),
                limit.map_or(Cell::Missing("too few".into()), |l| Cell::Text(l.in_words())),
                whole(number(pairs, "pairs")),
                spread
                    .filter(|_| number(pairs, "pairs").and_then(|a| a.value()).is_some_and(|n| n >= 3.0))
                    .map_or(Cell::Missing("too few".into()), |s| {
                        Cell::Text(format!("{} {}", significant(s.value().unwrap_or(0.0), 2), s.unit()))
                    }),
            ]
        });
    }
    Table {
        caption: "What blanks and replicates of the same programme say".into(),
        columns: vec![
            Column::words("analyte, fraction"),
            Column::numbers("blanks", "n"),
            Column::numbers("found in", "n"),
            Column::words("nine samples in ten"),
            Column::numbers("replicate pairs", "n"),
            Column::words("spread of one value"),
        ],
        rows: rows.into_values().collect(),
        notes: vec![
            "Nine samples in ten: with 95 % confidence no more than a tenth of samples handled alike hold more than this from elsewhere; censored blanks count at their limit; it takes 29 blanks.".into(),
            "Spread of one value: standard deviation from replicate pairs, relative where all values are above zero.".into(),
        ],
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
    // Trace elements: conditions and radioactivity have their own laws.
    by_analyte.retain(|(a, unit), _| (unit.starts_with("µg/L") || unit.starts_with("ng/L")) && !CONDITIONS.contains(a));
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
