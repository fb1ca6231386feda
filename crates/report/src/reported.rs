//! Sections on results that laboratories reported as concentrations: what there is, how much of it
//! is censored, what the blanks and the replicates say.

use super::words::{CONDITIONS, capital};
use super::{section, substance, unit, word};
use assessment::assess::findings_of;
use assessment::results::Listed;
use document::content::{Annex, Block, Cell, Column, Content, Illustration, Table, Word};
use figure::pairs::{Pair, PairsPicture};
use figure::{self, Head, PHONE, WIDE, slug};
use message::{Digits, Message, Share, Shown, Spoken, count, reported as said, word as words};
use quantity::{Amount, Check, Finding, Stage};
use record::Error;
use record::model::{State, Verdict, VerdictWord};
use record::store::{Filter, Store};
use std::collections::{BTreeMap, BTreeSet};

/// Results of one analyte and fraction in one unit.
type Series<'a> = BTreeMap<(&'a str, &'a str, String), Vec<&'a Listed>>;

/// Adds the sections; `alone` where the programme holds nothing else.
pub fn fill(store: &Store, reported: &[&Listed], alone: bool, out: &mut Content) -> Result<(), Error> {
    let mut series: Series = BTreeMap::new();
    for r in reported.iter().copied().filter(|r| r.kind.is_water()) {
        series.entry((&r.analyte, &r.fraction, unit(r))).or_default().push(r);
    }
    let findings = findings_by_subject(store, reported)?;
    if alone {
        out.subtitle = said::Subtitle { results: count(reported.len()) }.text();
        out.asked.push(said::Asked.text());
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
    out.sections.push(section(said::Title, blocks).within(Annex::Results));
    Ok(())
}

/// The findings of the verdicts that stand on these results.
fn findings_by_subject(store: &Store, reported: &[&Listed]) -> Result<BTreeMap<i64, Vec<Finding>>, Error> {
    let subjects: BTreeSet<i64> = reported.iter().map(|r| r.subject).collect();
    let mut out = BTreeMap::new();
    for subject in subjects {
        for v in store.list::<Verdict>(&Filter::all().is("subject", subject).latest())? {
            out.insert(v.subject_id, findings_of(store, &v)?);
        }
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
    let missing = reasons.iter().rev().map(|(check, n)| missing(check, *n));
    let missing = missing.reduce(|more, one| said::MissingMore { one, more }.into());
    let found = said::Found {
        results: count(reported.len()),
        series: count(series.len()),
        below: count(below),
        share: Share::new(below as f64 / reported.len() as f64, Digits::Significant(2)),
    };
    let [accepted, provisional, rejected] =
        [VerdictWord::Accepted, VerdictWord::Provisional, VerdictWord::Rejected].map(|w| count(of(w)));
    let judged = match missing {
        Some(missing) => said::JudgedWith { accepted, provisional, rejected, missing }.text(),
        None => said::Judged { accepted, provisional, rejected }.text(),
    };
    let by_profile = super::accepted_by(reported.iter().copied()).into_iter().map(|m| m.text());
    [found.text(), judged].into_iter().chain(by_profile).chain([said::Provisional.text()]).collect()
}

/// What a check that decided was missing, and of how many results.
fn missing(check: &str, results: usize) -> Message {
    let results = count(results);
    match Check::from_text(check) {
        Some(Check::NumberRecovery) => said::MissingRecovery { results }.into(),
        Some(Check::NumberUncertainty) => said::MissingUncertainty { results }.into(),
        Some(Check::NumberBlanks) => said::MissingBlanks { results }.into(),
        Some(Check::NumberEstimated) => said::MissingEstimated { results }.into(),
        Some(Check::NumberLimit) => said::MissingLimit { results }.into(),
        _ => said::MissingOther { check: check.into(), results }.into(),
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
            let named = Message::named("condition", a).map_or_else(|| a.to_string(), |m| m.text());
            let mut row = vec![Cell::Text(named), Cell::Text(unit)];
            row.extend(columns.iter().map(|b| {
                one(b).map_or(Cell::Missing("–".into()), |r| Cell::Text(number(r.amount.as_ref())).of(&r.result))
            }));
            row
        })
        .collect();
    let mut heads = vec![Column::words(words::Analyte.text()), Column::words(words::Unit.text())];
    heads.extend(columns.iter().map(|b| Column::words(b.to_string())));
    let by_profile = super::accepted_by(reported.iter().copied()).into_iter().map(|m| m.text());
    let notes = std::iter::once(said::WatersNote.text()).chain(by_profile).collect();
    Table { caption: said::Waters.text(), columns: heads, rows, notes }
}

/// The number without its unit.
fn number(a: Option<&Amount>) -> String {
    let Some(a) = a else { return said::BelowNotStated.text() };
    let bound = |relation: &str, limit| Shown { relation: relation.into(), ..Shown::trimmed(limit, 3, "") };
    let shown = match a {
        Amount::Measured(m) => Shown { unit: String::new(), ..m.shown(2.0) },
        Amount::Stated(s) => Shown::trimmed(s.value, 4, ""),
        Amount::Below(b) => bound("<", b.limit),
        Amount::Above(b) => bound(">", b.limit),
    };
    shown.text()
}

/// Findings on the water as a whole, each once.
fn meaning(reported: &[&Listed], findings: &BTreeMap<i64, Vec<Finding>>) -> Vec<Finding> {
    let mut out: Vec<Finding> = vec![];
    for r in reported {
        for f in findings.get(&r.subject).into_iter().flatten().filter(|f| f.stage == Stage::Meaning) {
            let told = of_well(r.well.as_deref().unwrap_or(&r.bottle), f);
            if !out.iter().any(|o| o.sentence == told.sentence) {
                out.push(told);
            }
        }
    }
    out
}

/// A finding with the well that it speaks of; of one that has its English alone the English does.
fn of_well(well: &str, f: &Finding) -> Finding {
    let message = f.message.clone().map(|finding| Message::from(said::OfWell { well: well.into(), finding }));
    let sentence = message.as_ref().map_or_else(|| format!("{}: {}", well, f.sentence), Message::in_english);
    Finding { sentence, message, ..f.clone() }
}

fn inventory(series: &Series) -> Table {
    let rows =
        series.iter().map(|((analyte, fraction, unit), rs)| inventory_row(analyte, fraction, unit, rs)).collect();
    Table {
        caption: said::Inventory.text(),
        columns: vec![
            Column::words(said::AnalyteFraction.text()),
            Column::words(words::Unit.text()),
            Column::numbers(said::Results.text(), "n"),
            Column::numbers(said::BelowLimit.text(), "n"),
            Column::numbers(said::Estimated.text(), "n"),
            Column::words(said::Values.text()),
            Column::words(said::Limits.text()),
            Column::words(words::Verdict.text()),
        ],
        rows,
        notes: std::iter::once(said::InventoryNote.text())
            .chain(uncertainties(series))
            .chain(super::accepted_by(series.values().flatten().copied()).into_iter().map(|m| m.text()))
            .collect(),
    }
}

/// Values of these results, and how many of them came with their uncertainty.
fn with_u<'a>(results: impl Iterator<Item = &'a Listed>) -> (usize, usize) {
    let values = results.filter_map(|r| r.amount.as_ref()).filter(|a| a.value().is_some());
    values.fold((0, 0), |(stated, all), a| (stated + usize::from(a.u().is_some()), all + 1))
}

/// Of how many values the reports state an uncertainty; none where there is no value.
fn uncertainties(series: &Series) -> Option<String> {
    let (with, all) = with_u(series.values().flatten().copied());
    let (stated, values) = (count(with), count(all));
    match with {
        _ if all == 0 => None,
        0 => Some(said::NoneStatesU { values }.text()),
        n if n == all => Some(said::AllStateU { values }.text()),
        _ => Some(said::SomeStateU { stated, values }.text()),
    }
}

fn inventory_row(analyte: &str, fraction: &str, unit: &str, rs: &[&Listed]) -> Vec<Cell> {
    let count = |s: State| Cell::Text(rs.iter().filter(|r| r.state == s).count().to_string());
    let values: Vec<f64> = rs.iter().filter_map(|r| r.amount.as_ref()?.value()).collect();
    let limits: Vec<f64> =
        rs.iter().filter_map(|r| if let Some(Amount::Below(b)) = &r.amount { Some(b.limit) } else { None }).collect();
    let shown = |x| Shown::significant(x, 2, "").text();
    let range = |v: &[f64]| match (v.iter().copied().reduce(f64::min), v.iter().copied().reduce(f64::max)) {
        (Some(a), Some(b)) if a < b => Cell::Text(format!("{} – {}", shown(a), shown(b))),
        (Some(a), _) => Cell::Text(shown(a)),
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
    let name = capital(substance(analyte));
    if CONDITIONS.contains(&analyte) {
        name
    } else {
        said::Analyte { analyte: name.into(), fraction: fraction.into() }.text()
    }
}

/// What blanks and replicates say, one row an analyte and fraction.
fn evidence(series: &Series, findings: &BTreeMap<i64, Vec<Finding>>) -> Table {
    let mut rows: BTreeMap<String, Vec<Cell>> = BTreeMap::new();
    let too_few = || Cell::Missing(said::TooFew.text());
    for ((analyte, fraction, _), rs) in series.iter().filter(|((a, ..), _)| !CONDITIONS.contains(a)) {
        let find =
            |check: Check| rs.iter().filter_map(|r| findings.get(&r.subject)).flatten().find(|f| f.check == check);
        let number = |f: Option<&Finding>, name: &str| {
            f.and_then(|f| f.compared.iter().find(|c| c.name == name)).map(|c| c.amount.clone())
        };
        let (blanks, pairs) = (find(Check::NumberBlanks), find(Check::NumberReplicates));
        let whole = |a: Option<Amount>| {
            a.and_then(|a| a.value())
                .map_or_else(|| Cell::Missing(words::None.text()), |v| Cell::Text(Shown::decimals(v, 0, "").text()))
        };
        let limit = number(blanks, "limit of the blanks");
        // Relative where all values are above zero: for net values about zero it means nothing, and the unit serves.
        let spread = number(pairs, "relative standard deviation").or(number(pairs, "standard deviation"));
        if limit.is_none() && spread.is_none() && number(blanks, "blanks").is_none() {
            continue;
        }
        // Once for analyte and fraction: the evidence is gathered for these, whatever the unit of a series.
        rows.entry(named(analyte, fraction)).or_insert_with(|| {
            vec![
                Cell::Text(named(analyte, fraction)),
                whole(number(blanks, "blanks")),
                whole(number(blanks, "found in")),
                limit.map_or_else(too_few, |l| Cell::Text(l.with_u().text())),
                whole(number(pairs, "pairs")),
                spread
                    .filter(|_| number(pairs, "pairs").and_then(|a| a.value()).is_some_and(|n| n >= 3.0))
                    .map_or_else(too_few, |s| {
                        Cell::Text(Shown::significant(s.value().unwrap_or(0.0), 2, s.unit().to_string()).text())
                    }),
            ]
        });
    }
    Table {
        caption: said::Evidence.text(),
        columns: vec![
            Column::words(said::AnalyteFraction.text()),
            Column::numbers(words::Blanks.text(), "n"),
            Column::numbers(said::FoundIn.text(), "n"),
            Column::words(said::NineInTen.text()),
            Column::numbers(said::Pairs.text(), "n"),
            Column::words(said::Spread.text()),
        ],
        rows: rows.into_values().collect(),
        notes: vec![said::NineInTenNote.text(), said::SpreadNote.text()],
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
    let (with, all) = with_u(sets.values().filter(|v| v.len() > 1).flatten().copied());
    let n = count(pairs.len());
    let under = match with {
        0 => said::ReplicatesUnder { pairs: n }.text(),
        _ => said::ReplicatesUnderStated { pairs: n, stated: count(with), values: count(all) }.text(),
    };
    let name = || substance(analyte).into();
    let picture = PairsPicture {
        head: Head {
            id: slug(&format!("replicates-{analyte}")),
            title: said::Replicates { analyte: name() }.text(),
            desc: said::ReplicatesShown { analyte: name() }.text(),
        },
        under,
        unit,
        pairs,
        limit_percent: None,
    };
    Ok(Some(Illustration {
        wide: figure::pairs::draw(&picture, WIDE),
        phone: Some(figure::pairs::draw(&picture, PHONE)),
        caption: said::ReplicatesCaption { analyte: name() }.text(),
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
