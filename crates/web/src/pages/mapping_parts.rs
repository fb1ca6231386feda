//! The parts of the form on which the columns of a table are chosen: each guess with its proof, each question with what an
//! answer would print.
//!
//! In: a guess, what was typed. Out: markup in the language that is spoken now.

use crate::blocks::marked;
use crate::forms::Filled;
use crate::written::{spoken, written};
use intake::import::RowRead;
use intake::import::guess::{Guess, Known, Place as From, known, says_in_what};
use intake::import::k_of_level;
use intake::import::row_read::with_expanded;
use maud::{Markup, html};
use message::{Message, Spoken as _, web_columns as says, web_files};
use quantity::Outcome;
use std::collections::BTreeMap;

/// A field of a result table: name in the mapping, whether it is needed, whether one text may hold for every row.
pub(crate) struct Field(pub &'static str, pub bool, pub bool);

pub(crate) const BOTTLE: &[Field] = &[
    Field("bottle.label", true, false),
    Field("bottle.kind", false, true),
    Field("bottle.filled_at", false, false),
    Field("well.name", false, true),
];

pub(crate) const LONG: &[Field] = &[
    Field("result.analyte", true, true),
    Field("result.value", true, false),
    Field("result.unit", true, true),
    Field("result.remark", false, false),
    Field("result.u", false, false),
    Field("result.detection_limit", false, false),
    Field("result.quantification_limit", false, false),
    Field("result.reporting_limit", false, false),
];

pub(crate) const COMMON: &[Field] = &[
    Field("result.fraction", true, true),
    Field("result.laboratory", false, true),
    Field("result.method", false, true),
];

/// What a word in a cell may mean.
pub(crate) const MEANINGS: &[&str] =
    &["below", "above", "estimated", "not-detected", "below-quantification-limit", "below-detection-limit", "missing"];

/// What an uncertainty may be.
pub(crate) const COVERAGES: &[&str] = &["k=1", "k=2", "level=95 %"];

/// Half the width between limits that are never exceeded over the standard uncertainty: the square root of three, of a
/// rectangle (JCGM 100:2008, 4.3.7).
pub(crate) const LIMITS_K: &str = "k=1.7320508075688772";

/// In what uncertainties are.
pub(crate) const IN_WHAT: &[&str] = &["%", "value"];

/// A key of the file's form, and what it can be, with a message of the catalogue or as it stands; an empty list: a number
/// or a text is typed.
pub(crate) struct Key(pub &'static str, pub &'static [(&'static str, &'static str)]);

const YES: &[(&str, &str)] = &[("true", "yes"), ("false", "no")];

pub(crate) const FORM: &[Key] = &[
    Key("delimiter", &[(";", ""), (",", ""), ("tab", "tab"), ("|", "")]),
    Key("decimal", &[(",", "comma"), (".", "point")]),
    Key("thousands", &[(".", ""), (",", ""), (" ", "blank"), ("'", "")]),
    Key("encoding", &[("utf-8", ""), ("windows-1252", "")]),
    Key(
        "dates",
        &[("year-month-day", "year-first"), ("day-month-year", "day-first"), ("month-day-year", "month-first")],
    ),
    Key("sheet", &[]),
    Key("header_row", &[]),
    Key("units_row", &[]),
    Key("methods_row", &[]),
    Key("transposed", YES),
    Key("blocks", YES),
    Key("hidden", &[("take", "hidden-take"), ("leave", "hidden-leave")]),
];

/// A message of these pages by its key.
fn by_key(key: &str) -> Option<String> {
    Message::named("web_columns", &key.replace(['_', '.'], "-")).map(|m| m.text())
}

fn words_of(key: &str) -> String {
    by_key(key).unwrap_or_else(|| key.to_string())
}

fn field_words(name: &str) -> String {
    words_of(&format!("f-{name}"))
}

fn options(all: &[(&str, String)], chosen: &str, empty: &str) -> Markup {
    html! {
        option value="" { (empty) }
        @for (value, words) in all { option value=(value) selected[*value == chosen] { (words) } }
    }
}

/// Every column of the file: its heading, its first cells, what it is read as or that it is left out.
pub(crate) fn columns(seen: &Guess) -> Markup {
    let mut read: BTreeMap<&str, String> = BTreeMap::new();
    for (field, place) in &seen.columns {
        match place {
            From::Heading(h) => drop(read.insert(h, field_words(field))),
            From::Both(day, time) => {
                read.insert(day, field_words(field));
                read.insert(time, field_words(field));
            }
            From::Constant(_) => {}
        }
    }
    for (heading, name, _) in &seen.analytes {
        let substance = Message::named("substance", name).map_or_else(|| name.clone(), |m| m.text());
        read.insert(heading, says::AnalyteAcross { analyte: substance.into() }.text());
    }
    let cells = |at: usize| {
        let all = seen.rows.iter().filter_map(|r| r.get(at)).filter(|c| !c.is_empty());
        all.take(3).map(|c| c.chars().take(30).collect::<String>()).collect::<Vec<_>>().join(" · ")
    };
    html! {
        @if seen.rows.is_empty() { p.quiet { (says::NoRows.text()) } }
        div.frame role="region" tabindex="0" aria-labelledby="columns" {
            table {
                caption #columns { span { (says::ReadAs.text()) } }
                thead { tr { th scope="col" { (says::Column.text()) } th scope="col" { (says::FirstCells.text()) } th scope="col" { (says::ReadAs.text()) } } }
                tbody { @for (at, h) in seen.headings.iter().enumerate() {
                    tr { th scope="row" { (written(h)) } td.as-written { (cells(at)) }
                        td { @match read.get(h.as_str()) { Some(words) => { (words) } None => { span.quiet { (says::Ignored.text()) } } } } }
                } }
            }
        }
    }
}

/// The form of the file, each guess with what speaks for it.
pub(crate) fn form(seen: &Guess, filled: &Filled) -> Markup {
    // Open where the file left something of it open.
    let asks = ["f.delimiter", "f.decimal", "f.dates"].iter().any(|key| filled.get(key).is_empty());
    html! {
        details.act open[asks] { summary { (says::Form.text()) } div.fields { @for key in FORM { (form_key(key, seen, filled)) } } }
    }
}

fn form_key(Key(key, values): &Key, seen: &Guess, filled: &Filled) -> Markup {
    let id = format!("f.{key}");
    let chosen = filled.get(&id);
    let listed: Vec<(&str, String)> =
        values.iter().map(|(v, k)| (*v, if k.is_empty() { (*v).to_string() } else { words_of(k) })).collect();
    let proof = seen.proofs.get(key).filter(|_| !chosen.is_empty());
    html! {
        div.field { label for=(id) { (words_of(key)) }
            @if values.is_empty() { input #(id) name=(id) value=(chosen) size="12"; }
            @else { select #(id) name=(id) { (options(&listed, chosen, &says::AsTold.text())) } }
            @if let Some(proof) = proof { p.hint.as-written { (proof.text()) } }
        }
    }
}

/// Whether a row is a result or a bottle.
pub(crate) fn layout(filled: &Filled) -> Markup {
    html! {
        fieldset { legend { (says::Layout.text()) }
            @for (value, words) in [("results", says::LayoutLong.text()), ("results-wide", says::LayoutWide.text())] {
                p { label { input type="radio" name="layout" value=(value) checked[filled.get("layout") == value]; " " (words) } }
            }
        }
    }
}

/// Which column a field is, or what it is in every row.
pub(crate) fn field(Field(name, needed, constant): &Field, seen: &Guess, filled: &Filled) -> Markup {
    let (id, fixed) = (format!("c.{name}"), format!("k.{name}"));
    let chosen = filled.get(&id);
    html! {
        div.field.pair {
            label for=(id) { (field_words(name)) @if *needed { span.needed { " " (says::Needed.text()) } } }
            select #(id) name=(id) {
                option value="" { (says::NotThere.text()) }
                @for h in &seen.headings { option.as-written value=(h) selected[h == chosen] { (h) } }
            }
            @if *constant {
                label.inner for=(fixed) { (says::OrEvery.text()) }
                input #(fixed) name=(fixed) value=(filled.get(&fixed)) size="12";
            }
        }
    }
}

/// What the uncertainties may be: answer, words, the factor over u, whether in per cent.
fn means() -> [(&'static str, &'static str, f64, bool); 6] {
    [
        ("k=1|value", "u-standard", 1.0, false),
        ("k=2|value", "u-expanded", 2.0, false),
        ("level=95 %|value", "u-level", k_of_level("95 %").unwrap_or(2.0), false),
        ("k=1.7320508075688772|value", "u-limits", 1.732_050_807_568_877_2, false),
        ("k=1|%", "u-standard-percent", 1.0, true),
        ("k=2|%", "u-expanded-percent", 2.0, true),
    ]
}

/// What ± is, each answer with how the first value of the file would be printed by it.
pub(crate) fn uncertainty(seen: &Guess, filled: &Filled) -> Markup {
    let Some(From::Heading(heading)) = seen.columns.get("result.u") else { return plus_minus(seen, filled) };
    let first = first_value(seen, heading);
    let chosen = filled.get("u.means");
    let own = number(filled.get("u.k")).filter(|k| *k > 0.0);
    let example = |k: f64, percent: bool| {
        let (value, u, unit, from) = first.as_ref()?;
        let u = if percent { value * u / 100.0 } else { *u } / k;
        Some(says::WouldPrint { from: from.as_str().into(), to: with_expanded(*value, u, unit) }.text())
    };
    html! {
        fieldset #u { legend { (says::U.text()) }
            p { (says::UWhat.text()) }
            @if says_in_what(heading) { p { label { input type="radio" name="u.means" value="" checked[chosen.is_empty()]; " " (says::UHeading.text()) } } }
            @for (value, words, k, percent) in means() {
                @let k = own.filter(|_| value.starts_with("k=2")).unwrap_or(k);
                p { label { input type="radio" name="u.means" value=(value) checked[chosen == value]; " " (words_of(words)) }
                    @if let Some(example) = example(k, percent) { br; small.as-written { (example) } } }
            }
            p { label.inner for="u.k" { (says::UK.text()) } " " input id="u.k" name="u.k" value=(filled.get("u.k")) size="4" inputmode="decimal"; }
        }
        (plus_minus(seen, filled))
    }
}

/// A number with a decimal point or comma.
fn number(text: &str) -> Option<f64> {
    text.trim().replace(',', ".").parse::<f64>().ok().filter(|x| x.is_finite())
}

/// The first row with a value and an uncertainty that are plain numbers: both, the unit, the uncertainty as written.
fn first_value(seen: &Guess, heading: &str) -> Option<(f64, f64, String, String)> {
    let place = |field: &str| match seen.columns.get(field) {
        Some(From::Heading(h)) => seen.headings.iter().position(|x| x == h),
        _ => None,
    };
    let (value, u) = (place("result.value")?, seen.headings.iter().position(|h| h == heading)?);
    let unit = place("result.unit");
    seen.rows.iter().find_map(|r| {
        let (v, x) = (number(r.get(value)?)?, number(r.get(u)?)?);
        let unit = unit.and_then(|at| r.get(at)).or(seen.value_unit.as_ref()).cloned().unwrap_or_default();
        Some((v, x, unit, r.get(u)?.clone()))
    })
}

/// What stands behind ± inside a cell, where a cell has one.
fn plus_minus(seen: &Guess, filled: &Filled) -> Markup {
    let words = [says::ShortStandard.text(), says::ShortExpanded.text(), says::ShortLevel.text()];
    let listed: Vec<(&str, String)> = COVERAGES.iter().copied().zip(words).collect();
    html! {
        @if seen.plus_minus.is_some() || !filled.get("pm.coverage").is_empty() {
            div.field { label for="pm.coverage" { (says::Pm.text()) }
                select id="pm.coverage" name="pm.coverage" { (options(&listed, filled.get("pm.coverage"), &says::PmNone.text())) } }
        }
    }
}

/// Their names beside ours, each with how well it is known; names that would be one substance are asked about.
pub(crate) fn names(seen: &Guess, filled: &Filled) -> Markup {
    let across = seen.analytes.iter().map(|(h, ..)| h.clone());
    let all: Vec<String> = if seen.wide { across.collect() } else { seen.written.clone() };
    if all.is_empty() {
        return html! {};
    }
    let ours = |name: &str| {
        let typed = filled.get(&format!("a.{name}"));
        if typed.is_empty() { known(name).1.unwrap_or_else(|| name.to_string()) } else { typed.to_string() }
    };
    let mut by: BTreeMap<String, Vec<&str>> = BTreeMap::new();
    for name in &all {
        by.entry(ours(name)).or_default().push(name);
    }
    html! {
        fieldset #names { legend { (says::Names.text()) }
            p.hint { (says::NamesWhat.text()) }
            @for (name, theirs) in by.iter().filter(|(_, t)| t.len() > 1) {
                p.caution.as-written { (says::TwoNames { names: theirs.join(", ").into(), ours: name.as_str().into() }.text()) }
            }
            div.frame role="region" tabindex="0" aria-label=(says::Names.text()) {
                table {
                    thead { tr { th scope="col" { (says::Theirs.text()) } th scope="col" { (says::Ours.text()) } th scope="col" { (says::Mark.text()) } } }
                    tbody { @for name in &all { (one_name(name, &ours(name))) } }
                }
            }
        }
    }
}

fn one_name(name: &str, ours: &str) -> Markup {
    let id = format!("a.{name}");
    let mark = match known(name).0 {
        Known::Sure => marked(Outcome::Met, &says::Sure.text()),
        Known::Likely => marked(Outcome::NotKnown, &says::Likely.text()),
        Known::New => html! { span.state.not { span aria-hidden="true" { "+" } " " (says::New.text()) } },
    };
    html! {
        tr { th scope="row" { label for=(id) { (written(name)) } }
            td { input #(id) name=(id) value=(ours) size="16"; }
            td { (mark) } }
    }
}

/// What stands in the cell of a value beside numbers.
pub(crate) fn words(seen: &Guess, filled: &Filled) -> Markup {
    let listed: Vec<(&str, String)> = MEANINGS.iter().map(|m| (*m, words_of(&format!("m-{m}")))).collect();
    html! {
        details.act open[seen.words.keys().any(|w| filled.get(&format!("m.{w}")).is_empty())] { summary { (says::Words.text()) }
            @for word in seen.words.keys() {
                @let id = format!("m.{word}");
                div.field { label for=(id) { @if word.is_empty() { (says::Empty.text()) } @else { (written(word)) } }
                    select #(id) name=(id) { (options(&listed, filled.get(&id), &says::Refused.text())) } }
            }
            div.field.pair { label for="new.word" { (says::Another.text()) }
                input id="new.word" name="new.word" value=(filled.get("new.word")) size="12";
                label.inner for="new.meaning" { (says::Means.text()) }
                select id="new.meaning" name="new.meaning" { (options(&listed, filled.get("new.meaning"), "–")) } }
        }
    }
}

/// The first rows as the sentences that they would become.
pub(crate) fn last_look(look: &[RowRead]) -> Markup {
    html! {
        section aria-labelledby="last-look" {
            h2 #last-look { (says::LastLook.text()) }
            @if look.is_empty() { p.quiet { (says::NoLook.text()) } } @else {
                ol.sentences { @for r in look {
                    @for m in &r.says { li { (spoken(&m.text())) } }
                    @if r.says.is_empty() { li.quiet { (web_files::NoResult.text()) } }
                } }
                p.hint { (says::LastLookWhat.text()) }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use message::Shown;

    /// Every field, meaning and key of the form has its words in both languages.
    #[test]
    fn nothing_on_the_form_is_a_code() {
        for f in BOTTLE.iter().chain(LONG).chain(COMMON) {
            assert!(by_key(&format!("f-{}", f.0)).is_some(), "{}", f.0);
        }
        for m in MEANINGS {
            assert!(by_key(&format!("m-{m}")).is_some(), "{m}");
        }
        for Key(key, values) in FORM {
            assert!(by_key(key).is_some(), "{key}");
            for (_, words) in values.iter().filter(|(_, k)| !k.is_empty()) {
                assert!(by_key(words).is_some(), "{words}");
            }
        }
    }

    /// 0.10 beside 1.20: as U with k = 2 it is printed as it stands; as u it doubles; 10 % of 1.20 are 0.12.
    #[test]
    fn an_answer_shows_how_it_would_be_printed() {
        let said = |x: Shown| x.said(message::Lang::En);
        assert_eq!(said(with_expanded(1.20, 0.10 / 2.0, "µg/L")), "1.20 ± 0.10 µg/L");
        assert_eq!(said(with_expanded(1.20, 0.10, "µg/L")), "1.20 ± 0.20 µg/L");
        assert_eq!(said(with_expanded(1.20, 1.20 * 10.0 / 100.0 / 2.0, "µg/L")), "1.20 ± 0.12 µg/L");
    }
}
