//! Results that lie above a limit, or cannot be told from it, as a table: in the chapter and on the authority's sheet alike.
//!
//! In: rows of the comparison with limits. Out: a table, or a sentence where there is one row. A value and its limit stand
//! in one unit, ng/L below 1 µg/L. Checked in `crates/cli/tests/papers.rs`.

use super::statements::{Fractions, conductivity_stands_at, limit_in_words, printed, share};
use assessment::results::Listed;
use document::content::{Align, Block, Cell, Column, Table};
use limits::terms::Concern;
use message::{Shown, Spoken, chapter, count, document as document_words, leaflet, paper, word};
use programme::limits_of::Row;
use quantity::{Amount, Lang, Unit, language};
use record::model::{Bears, VerdictWord};
use std::collections::{BTreeMap, BTreeSet};

/// Sentences under a table, at most.
const NOTES: usize = 6;

/// Results with limit, ratio and verdict, each with its hour; a single one is a sentence, for no table has one row.
pub(super) fn exceedances(caption: String, rows: &[&Row], all: &[Listed], most: usize) -> Vec<Block> {
    let lang = language();
    let fractions = Fractions::of(rows);
    let moments: Vec<String> = rows.iter().map(|r| when(r, all)).collect();
    let day = one_day(&moments);
    // Why nothing can be told stands with what cannot be told.
    let open = rows.iter().filter(|r| r.comparison.answer == limits::Answer::CannotTell);
    let why = open.filter_map(|r| r.comparison.message.arg("why"));
    let reasons: BTreeSet<String> = why.map(|why| format!("{}.", quantity::format::capital(&why.text()))).collect();
    let mut notes: Vec<String> = fractions.note(lang).into_iter().chain(conductivity_stands_at(rows, lang)).collect();
    if rows.iter().any(|r| r.comparison.limit.provenance == "recalled") {
        notes.push(leaflet::Recalled.text());
    }
    if rows.iter().any(|r| r.comparison.limit.terms.concern != Concern::Health) {
        notes.push(leaflet::NotForHealth.text());
    }
    if rows.len() > most {
        notes.push(leaflet::More { n: count(rows.len() - most) }.text());
    }
    notes.extend(by_profile(&rows[..rows.len().min(most)]));
    notes = plus_minus(rows).into_iter().chain(reasons.iter().cloned()).chain(notes).collect();
    notes.truncate(NOTES);
    if let [r] = rows {
        let unit = readable_unit(rows);
        let name = fractions.behind(quantity::format::capital(&super::substance(&r.analyte)), r, lang);
        let one = paper::OneRow {
            what: caption.into(),
            substance: name.into(),
            place: place_of(r).into(),
            when: moments[0].as_str().into(),
            result: found(r, all, &unit).into(),
            limit: limit_of(r, "").into(),
            ratio: ratio(r).into(),
            verdict: r.verdict.map_or_else(|| word::NotKnown.into(), |v| super::verdict_word(v).said()),
        };
        let told: Vec<String> = std::iter::once(one.text()).chain(reasons).collect();
        return vec![Block::Text(told.join(" "))];
    }
    let row = |(r, moment): (&&Row, &String)| {
        let at = if day.is_some() { moment.get(11..).filter(|t| !t.is_empty()).unwrap_or("–") } else { moment };
        vec![
            Cell::Text(fractions.behind(quantity::format::capital(&super::substance(&r.analyte)), r, lang)),
            Cell::Text(place_of(r)),
            Cell::Text(at.to_string()),
            Cell::Text(found(r, all, &readable_unit(&[*r]))).of(&r.result),
            Cell::Text(limit_of(r, &readable_unit(&[*r]))),
            Cell::Text(ratio(r)),
            super::verdict_cell(r.verdict),
        ]
    };
    vec![Block::Table(Table {
        caption,
        columns: vec![
            Column::words(word::Analyte.text()),
            Column::words(chapter::Where.text()),
            Column { unit: day.clone().unwrap_or_default(), ..Column::words(chapter::When.text()) },
            Column::words(word::Result.text()),
            Column::words(paper::LimitWhose.text()),
            Column { align: Align::Number, ..Column::words(paper::Ratio.text()) },
            Column::words(word::Verdict.text()),
        ],
        rows: rows.iter().zip(&moments).take(most).map(row).collect(),
        notes,
    })]
}

/// What ± is in these rows: the coverage factors lie between two where values have few degrees of freedom.
fn plus_minus(rows: &[&Row]) -> Option<String> {
    let k_of = |r: &&Row| match &r.comparison.amount {
        Amount::Measured(m) => Some(assessment::results::coverage_k(m.dof)),
        _ => None,
    };
    let all = || rows.iter().filter_map(k_of);
    let told = |k| Shown::significant(k, 2, "");
    let (low, high) = (all().reduce(f64::min)?, all().reduce(f64::max)?);
    // To the digits that are shown.
    Some(if high - low < 0.05 {
        document_words::Expanded { k: told(low) }.text()
    } else {
        document_words::ExpandedBetween { low: told(low), high: told(high) }.text()
    })
}

/// The unit in which rows are read with few noughts: ng/L where all of their values lie under 1 µg/L.
pub(super) fn readable_unit(of: &[&Row]) -> String {
    let unit = of.first().map_or_else(String::new, |r| r.comparison.amount.unit().to_string());
    let small = |r: &&Row| {
        let x = match &r.comparison.amount {
            Amount::Below(b) | Amount::Above(b) => Some(b.limit),
            other => other.value(),
        };
        x.is_some_and(|x| x.abs() < 1.0)
    };
    if unit == "µg/L" && of.iter().all(small) { "ng/L".into() } else { unit }
}

/// An amount in ng/L where that is the unit of its row; else, and where it cannot be converted, as it is.
pub(super) fn in_unit(a: &Amount, unit: &str) -> Amount {
    if unit == "ng/L" { a.convert(&Unit::known("ng/L"), None, None).unwrap_or_else(|_| a.clone()) } else { a.clone() }
}

/// The number of a limit in the unit of its row, where both are plain masses in a volume; else with its own unit.
pub(super) fn limit_number(l: &limits::Limit, unit: &str, lang: Lang) -> String {
    let plain = |unit: &str| match unit {
        "ng/L" => Some("ng/L"),
        "µg/L" => Some("ug/L"),
        "mg/L" => Some("mg/L"),
        _ => None,
    };
    let of_limit = l.unit.to_string();
    let converted = match (l.low, plain(unit), plain(&of_limit)) {
        (None, Some(to), Some(_)) => l.unit.conversion(&Unit::known(to), None, None).ok(),
        _ => None,
    };
    if let Some(c) = converted {
        Shown::trimmed(c.apply(l.high), 3, "").typeset().said(lang)
    } else {
        let words = limit_in_words(l, lang);
        let alone = words.strip_suffix(unit).filter(|_| of_limit == unit).map(|n| n.trim_end().to_string());
        alone.unwrap_or(words)
    }
}

fn place_of(r: &Row) -> String {
    r.well.clone().unwrap_or_else(|| r.result.bottle.clone())
}

/// The day of all these moments, where they share one.
fn one_day(moments: &[String]) -> Option<String> {
    let day = |m: &String| m.get(..10).filter(|_| m.len() > 10).map(str::to_string);
    let first = day(moments.first()?)?;
    moments.iter().all(|m| day(m).as_ref() == Some(&first)).then_some(first)
}

/// A limit with its authority, kind and marks; its unit only where it is not `unit`.
pub(super) fn limit_of(r: &Row, unit: &str) -> String {
    let l = &r.comparison.limit;
    let number = limit_number(l, unit, language());
    let health = l.terms.concern == Concern::Health;
    let marks =
        format!("{}{}", if l.provenance == "recalled" { "\u{A0}*" } else { "" }, if health { "" } else { "\u{A0}†" });
    let kind = limits::compare::kind(l);
    paper::Limit { number: number.into(), authority: format!("{}{marks}", l.authority).into(), kind }.text()
}

/// Which of the rows shown a profile of checks accepts.
pub(super) fn by_profile(rows: &[&Row]) -> Vec<String> {
    let accepted = rows.iter().filter(|r| r.verdict == Some(VerdictWord::Accepted));
    let mut by: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for r in accepted {
        if let Some(profile) = &r.profile {
            by.entry(profile).or_default().insert(r.result.to_string());
        }
    }
    by.into_iter().map(|(profile, of)| super::accepted_of(of.len(), profile).text()).collect()
}

/// Day and hour of the bottle of a row, as far as they are on record.
pub(super) fn when(r: &Row, all: &[Listed]) -> String {
    let filled = all.iter().find(|l| l.result.newest() == r.result.newest()).and_then(|l| l.filled_at.clone());
    let moment = filled.map(|at| at.get(..16).unwrap_or(&at).to_string());
    moment.or_else(|| r.on.clone()).unwrap_or_else(|| "–".into())
}

/// The result in the unit of its row. What was found and bounds the water says so; "<" is for what was not detected.
fn found(r: &Row, all: &[Listed], unit: &str) -> String {
    let amount = in_unit(&r.comparison.amount, unit);
    let listed = all.iter().find(|l| l.result.newest() == r.result.newest());
    if listed.is_some_and(|l| l.bears == Bears::AtMost) {
        limits::claim::amount_in_words(language(), &amount)
    } else {
        printed(&amount, language())
    }
}

/// Result over limit; a bound says at most.
pub(super) fn ratio(r: &Row) -> String {
    let x = Shown::significant(share(r), 2, "").said(language());
    match r.comparison.amount {
        Amount::Below(_) => format!("≤ {x}"),
        _ => x,
    }
}
