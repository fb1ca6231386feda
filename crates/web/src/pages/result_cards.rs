//! A row, or on a telephone a card, for each well, day and substance: bottles side by side, their common value, verdict
//! with its reason, the limit, the visit before.
//!
//! In: the groups of a page. Out: [`Row`]s, and their markup. No science: values, comparisons and findings come from the
//! rooms below; here is chosen what of them stands in the row.

use super::check_words;
use super::result_groups::{Grouped, reporting};
use super::words::{self, Parts};
use crate::app::App;
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{case_address, encoded};
use crate::worked::well_values;
use assessment::assess::findings_of;
use assessment::results::{self, Listed};
use assessment::well_value::{Told, WellValue};
use limits::Answer;
use maud::{Markup, html};
use message::{Message, Shown, Spoken, web_results as said};
use programme::index::Entry;
use programme::limits_of::{self, Asked, against_of};
use quantity::{Amount, Outcome};
use record::model::VerdictWord;
use record::store::Store;
use std::collections::HashMap;

/// Bottles beside each other, at most; more are counted.
const BOTTLES: usize = 6;

/// Reasons told, at most; more are counted.
const REASONS: usize = 2;

/// Limits told where a value lies above several, at most.
const LIMITS: usize = 2;

/// What a row shows.
pub(crate) struct Row {
    /// The bottles, of one isotope or sum of isotopes.
    bottles: Vec<Listed>,
    /// Of all bottles, where their counts are on record.
    value: Option<WellValue>,
    /// The worst verdict.
    verdict: Option<VerdictWord>,
    /// Why it is not accepted: outcome and words.
    reasons: Vec<(Option<Outcome>, String)>,
    /// Beside limits.
    limit: Option<Beside>,
    /// Bottles of the visit before.
    before: Vec<Listed>,
}

/// Where a row stands to its limits.
struct Beside {
    answer: Answer,
    words: String,
}

/// The rows of some groups.
pub(crate) fn rows(
    store: &Store,
    app: &App,
    grouped: &Grouped,
    page: &[(u32, Vec<Entry>)],
) -> Result<Vec<Row>, HttpError> {
    type Chosen = (Vec<i64>, Vec<i64>);
    let chosen: Vec<Chosen> = app.record.index(store, |i| {
        let rows = |of: &[Entry]| reporting(i, of).iter().map(|e| e.row).collect::<Vec<i64>>();
        let before = |at: u32| grouped.group(at).and_then(|g| grouped.group(g.before?)).map(|g| rows(&g.entries));
        // All bottles of the group stand beside those that fit.
        let whole = |(at, fits): &(u32, Vec<Entry>)| {
            let measurand = reporting(i, fits).first().map(|e| e.measurand);
            let all = grouped.group(*at).map(|g| g.entries.as_slice()).unwrap_or_default();
            let of: Vec<Entry> = all.iter().filter(|e| Some(e.measurand) == measurand).copied().collect();
            (rows(&of), before(*at).unwrap_or_default())
        };
        page.iter().map(whole).collect()
    })?;
    let mut rows = vec![];
    for (own, before) in chosen {
        let bottles = results::listed(store, &own)?;
        let value = common(store, app, &bottles)?;
        let verdict = bottles.iter().filter_map(|r| r.verdict).max();
        let before = results::listed(store, &before[..before.len().min(3)])?;
        rows.push(Row { reasons: reasons(store, &bottles, verdict)?, bottles, value, verdict, limit: None, before });
    }
    beside_limits(store, &mut rows)?;
    Ok(rows)
}

/// The common value of bottles whose counts are on record.
pub(crate) fn common(store: &Store, app: &App, bottles: &[Listed]) -> Result<Option<WellValue>, HttpError> {
    let Some((first, well)) = bottles.first().and_then(|r| Some((r, r.well.as_deref()?))) else { return Ok(None) };
    if bottles.iter().all(|r| r.gross.is_none()) {
        return Ok(None);
    }
    let day = first.filled_at.as_deref().unwrap_or_default().get(..10).unwrap_or_default();
    let is = |w: &&WellValue| {
        w.is_of(&first.analyte, &first.isotopes, &first.resolution)
            && (w.water.day.as_str(), w.water.fraction.as_str()) == (day, first.fraction.as_str())
    };
    let of = well_values(store, app, well)?;
    // Bottles filled under a cabinet and in the open are two waters to the fit: neither value speaks for the row.
    let mut found = of.iter().filter(is);
    Ok(found.next().filter(|_| found.next().is_none()).cloned())
}

/// Why the worst of the bottles is not accepted, in words.
pub(crate) fn reasons(
    store: &Store,
    bottles: &[Listed],
    verdict: Option<VerdictWord>,
) -> Result<Vec<(Option<Outcome>, String)>, HttpError> {
    let Some(worst) = bottles.iter().find(|r| r.verdict == verdict && !r.reasons.is_empty()) else { return Ok(vec![]) };
    let findings = match store.verdict_history(worst.subject)?.last() {
        Some(v) => findings_of(store, v)?,
        None => vec![],
    };
    let told = |code: &String| {
        let found = findings.iter().find(|f| f.check.text() == code && f.outcome != Outcome::Met);
        let words = found.and_then(::report::pages::few_words).map(|w| message::number::capital(&words::printed(&w)));
        let check = || check_words::check(code);
        let words = words.unwrap_or_else(|| match found.map(|f| f.outcome) {
            Some(Outcome::NotKnown) => said::CheckNotKnown { check: check().into() }.text(),
            Some(_) => said::CheckNotMet { check: check().into() }.text(),
            None => message::number::capital(&check()),
        });
        (found.map(|f| f.outcome), words)
    };
    Ok(worst.reasons.iter().map(told).collect())
}

fn beside_limits(store: &Store, rows: &mut [Row]) -> Result<(), HttpError> {
    let today = now()[..10].to_string();
    let asked = Asked { otherwise: Some(today), ..Asked::default() };
    let all: Vec<Listed> = rows.iter().flat_map(|r| r.bottles.iter().cloned()).collect();
    let against = against_of(store, &all, &asked)?;
    let mut of: HashMap<String, Vec<&limits_of::Row>> = HashMap::new();
    for row in &against.rows {
        of.entry(row.result.to_string()).or_default().push(row);
    }
    for row in rows {
        let beside: Vec<(&Listed, &limits_of::Row)> = row
            .bottles
            .iter()
            .flat_map(|r| of.get(&r.result.to_string()).into_iter().flatten().map(move |l| (r, *l)))
            .collect();
        row.limit = told(&beside);
    }
    Ok(())
}

/// Above before cannot tell before below; of what lies below the strictest limit.
fn told(beside: &[(&Listed, &limits_of::Row)]) -> Option<Beside> {
    let of = |answer: Answer| {
        let is = move |(_, l): &&(&Listed, &limits_of::Row)| {
            l.comparison.answer == answer && !l.comparison.limit.is_goal_of_zero()
        };
        beside.iter().filter(is)
    };
    let mut above: Vec<String> = vec![];
    for (r, l) in of(Answer::Above) {
        let words = limit_words(r, l);
        if !above.contains(&words) {
            above.push(words);
        }
    }
    if !above.is_empty() {
        let more = above.len().saturating_sub(LIMITS);
        above.truncate(LIMITS);
        let mut words = said::Above { limits: above.join("; ").into() }.text();
        if more > 0 {
            words += &format!(" {}", said::AndMore { n: message::count(more) }.text());
        }
        return Some(Beside { answer: Answer::Above, words });
    }
    let strictest = |answer: Answer| of(answer).find(|(_, l)| l.strictest).or_else(|| of(answer).next());
    if let Some((r, l)) = strictest(Answer::CannotTell) {
        let words = said::CannotTell { limit: limit_words(r, l).into() }.text();
        return Some(Beside { answer: Answer::CannotTell, words });
    }
    let (r, l) = strictest(Answer::Below)?;
    Some(Beside { answer: Answer::Below, words: said::Below { limit: limit_words(r, l).into() }.text() })
}

/// A limit in the unit of the result, and whose it is; `*` where it is quoted from memory.
pub(crate) fn limit_words(r: &Listed, l: &limits_of::Row) -> String {
    let limit = &l.comparison.limit;
    let (factor, unit) = to_unit_of(r, l).unwrap_or((1.0, words::printed(&limit.unit.to_string())));
    let shown = |x: f64| Shown::trimmed(x * factor, 6, "").typeset().text();
    let high = shown(limit.high);
    let range = limit.low.map_or(high.clone(), |low| said::Range { low: shown(low).into(), high: high.into() }.text());
    let mark = if limit.provenance == "recalled" { "\u{A0}*" } else { "" };
    format!("{range}\u{A0}{unit}, {}{mark}", limit.authority)
}

/// By what a limit is multiplied to stand in the unit of a result, which the comparison brought to the limit's.
fn to_unit_of(r: &Listed, l: &limits_of::Row) -> Option<(f64, String)> {
    let size = |a: &Amount| match a {
        Amount::Measured(m) => m.value,
        Amount::Stated(s) => s.value,
        Amount::Below(b) | Amount::Above(b) => b.limit,
    };
    let (own, theirs) = (r.amount.as_ref()?, &l.comparison.amount);
    let factor = size(own) / size(theirs);
    // Another basis (as N, as S) is another number, not another unit: the limit stays as its authority writes it.
    let decades = factor.log10();
    let is_unit = factor.is_finite() && factor > 0.0 && (decades - decades.round()).abs() < 1e-9;
    is_unit.then(|| (factor, words::printed(&own.unit().to_string())))
}

/// The letter by which bottles of a set are told apart: what stands behind what all their labels have in common.
pub(crate) fn letters(labels: &[&str]) -> Vec<String> {
    let [first, _, ..] = labels else { return labels.iter().map(ToString::to_string).collect() };
    let is_common = |n: usize| labels.iter().all(|l| l.starts_with(&first[..n]));
    let ends = first.char_indices().filter(|(_, c)| matches!(c, '-' | '_' | ' ')).map(|(n, c)| n + c.len_utf8());
    let cut = ends.rev().find(|n| is_common(*n)).unwrap_or(0);
    labels.iter().map(|l| if l.len() > cut && cut > 0 { l[cut..].to_string() } else { (*l).to_string() }).collect()
}

impl Row {
    fn first(&self) -> &Listed {
        &self.bottles[0]
    }

    /// The one unit of the bottles; none where they differ.
    fn unit(&self) -> Option<String> {
        let units: Vec<String> = self.bottles.iter().map(|r| Parts::of_result(r).unit).collect();
        units.windows(2).all(|w| w[0] == w[1]).then(|| units.into_iter().next()).flatten()
    }

    fn heading(&self) -> Markup {
        let r = self.first();
        html! {
            span.what { (words::substance(&r.analyte)) } " "
            @match &r.well { Some(w) => { a href=(format!("/wells/{}", encoded(w))) { (w) } } None => { span.quiet { (words::kind(r.kind.word())) } } }
            " " span.unit { (self.unit().unwrap_or_default()) }
            small { (self.under().join(", ")) }
        }
    }

    /// Day, fraction, isotopes.
    fn under(&self) -> Vec<String> {
        let r = self.first();
        let day = r.filled_at.as_deref().map(words::day).unwrap_or_default();
        let all = [day, words::fraction(&r.fraction), words::isotopes(&r.isotopes)];
        all.into_iter().filter(|w| !w.is_empty()).collect()
    }

    fn bottles(&self) -> Markup {
        let labels: Vec<&str> = self.bottles.iter().map(|r| r.bottle.as_str()).collect();
        let more = self.bottles.len().saturating_sub(BOTTLES);
        let with_unit = self.unit().is_none();
        html! {
            ul.side {
                @for (r, letter) in self.bottles.iter().zip(letters(&labels)).take(BOTTLES) {
                    @let p = Parts::of_result(r);
                    li {
                        span.label title=(r.bottle) { (letter) } " "
                        a href=(case_address(&r.result)) { (p.value) @if with_unit { "\u{A0}" (p.unit) } }
                        @if let Some(u) = &p.expanded { small { "±\u{A0}" (u) } }
                        @if p.without_u { small { (said::WithoutU.text()) } }
                        @if r.verdict.is_none() && r.kind.is_water() { small { (said::Evidence.text()) } }
                    }
                }
            }
            @if more > 0 { p.quiet { (said::MoreBottles { n: message::count(more) }.text()) } }
        }
    }

    fn common(&self) -> Markup {
        let words = match self.value.as_ref().map(|v| (&v.told, v.bottles.len())) {
            Some((Told::Value { amount, coverage_k, .. }, n)) if n > 1 => {
                let value = Parts::of(amount, *coverage_k);
                return html! {
                    span.cap { (said::CommonOf { n: message::count(n) }.text()) " " } b { (value.value) }
                    @if let Some(u) = &value.expanded { small { "±\u{A0}" (u) } }
                };
            }
            Some((Told::AtMost { .. }, n)) if n > 1 => {
                let value = self.value.as_ref().map(WellValue::number).unwrap_or_default();
                return html! { span.cap { (said::CommonOf { n: message::count(n) }.text()) " " } b { (words::printed(&value)) } };
            }
            Some((Told::NoNumber, _)) => Some(said::NoCommonValue.text()),
            None if self.bottles.iter().filter(|r| r.verdict.is_some()).count() > 1 => Some(said::EachForItself.text()),
            _ => None,
        };
        html! { @if let Some(words) = words { span.dash { "– " } span.quiet { (words) } } @else { span.dash { "–" } } }
    }

    fn because(&self) -> Markup {
        let more = self.reasons.len().saturating_sub(REASONS);
        html! {
            (words::verdict(self.verdict))
            @if let Some(p) = &self.first().profile { small { (words::by_profile(p)) } }
            @if !self.reasons.is_empty() {
                p.why-not {
                    @for (n, (_, words)) in self.reasons.iter().take(REASONS).enumerate() { @if n > 0 { "; " } (words) }
                    @if more > 0 { " " (said::AndMore { n: message::count(more) }.text()) }
                }
            }
        }
    }

    fn limit(&self) -> Markup {
        let Some(limit) = &self.limit else { return html! { span.quiet { (said::NoLimit.text()) } } };
        match limit.answer {
            Answer::Above => html! { b.above { i.mk.over {} " " (limit.words) } },
            Answer::CannotTell => html! { i.oc.unknown {} " " (limit.words) },
            Answer::Below => html! { span.quiet { (limit.words) } },
        }
    }

    fn before(&self) -> Markup {
        let Some(first) = self.before.first() else { return html! { span.dash { "–" } } };
        let values: Vec<String> = self.before.iter().map(|r| Parts::of_result(r).line()).collect();
        let day = first.filled_at.as_deref().map(words::day).unwrap_or_default();
        let to = format!(
            "/time?well={}&analyte={}",
            encoded(first.well.as_deref().unwrap_or_default()),
            encoded(&first.analyte)
        );
        html! { span.quiet { span.cap { (said::LastVisit.text()) " " } a href=(to) { (day) } ": " (values.join("; ")) } }
    }
}

/// Rows as a table that becomes cards on a narrow screen.
pub(crate) fn table(rows: &[Row], caption: &str, evidence: bool) -> Markup {
    let heads: [Message; 6] = [
        said::HeadWhat.into(),
        said::HeadBottles.into(),
        said::HeadCommon.into(),
        said::HeadVerdict.into(),
        said::HeadLimit.into(),
        said::HeadBefore.into(),
    ];
    // Of blanks there is no common value, no limit and no visit before.
    let shown = |n: usize| !evidence || matches!(n, 0 | 1 | 3);
    html! {
        table.cards {
            caption { (caption) }
            thead { tr { @for (n, h) in heads.iter().enumerate() { @if shown(n) { th scope="col" { (h.text()) } } } } }
            tbody {
                @for row in rows { @if !row.bottles.is_empty() {
                    tr {
                        th scope="row" { (row.heading()) }
                        td.values { (row.bottles()) }
                        @if !evidence { td.common { (row.common()) } }
                        td.verdict-of { (row.because()) }
                        @if !evidence {
                            td.limit-of { (row.limit()) }
                            td.before { (row.before()) }
                        }
                    }
                } }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn bottles_of_a_set_are_told_apart_by_their_ends() {
        let check = |labels: &[&str], out: &[&str]| assert_eq!(super::letters(labels), out);
        check(&["SL2-26-07-A", "SL2-26-07-B"], &["A", "B"]);
        check(&["SL2-26-07-A"], &["SL2-26-07-A"]);
        check(&["blank", "blank 2"], &["blank", "blank 2"]);
        check(&["A", "B"], &["A", "B"]);
        check(&["ü-1", "ü-2"], &["1", "2"]);
        check(&[], &[]);
    }
}
