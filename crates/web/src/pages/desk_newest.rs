//! The newest day of each well: bottles side by side, dots on one axis, the verdict with its reason, the common value, and
//! the year before beside it.
//!
//! In: the short list of results and an element. Out: [`Newest`] a well, and its rows on the desk. Of several isotopes or
//! fractions of an element the one with most bottles stands for it, not filtered before filtered. Nothing is computed
//! here: values, verdicts and common values stand in the record. Checked in `crates/web/tests/desk.rs`.

use super::check_words::Weights;
use super::word;
use crate::app::App;
use crate::blocks::verdict_word;
use crate::http_error::HttpError;
use crate::page::{case_address, day, encoded};
use crate::worked::{self, well_values};
use ::figure::ink;
use ::figure::number::Printed;
use assessment::results::{self, Listed};
use assessment::well_value::{Told, WellValue};
use maud::{Markup, PreEscaped, html};
use message::{Shown, Spoken, web_desk as says};
use programme::index::{Index, Wanted};
use quantity::Amount;
use record::model::{VerdictWord, Well};
use record::store::Store;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::sync::Arc;

/// Metals that a chooser names first: lead, then what the trade of trace metals asks for most.
// The programme's own order.
const KEY: [&str; 8] = ["Pb", "Cd", "Zn", "Mn", "As", "Cu", "Ni", "Fe"];

/// Elements that the chooser names; the others stand in its list.
const CHIPS: usize = 4;

/// Checks named as reasons of one row.
const REASONS: usize = 2;

/// Width of the dots, px.
const WIDTH: f64 = 250.0;
/// Letters of a label that stands beside its dot.
const SHORT: usize = 4;

/// Height of a bottle's dot, px.
const STEP: f64 = 20.0;

/// What the year before says.
#[derive(Debug, Clone)]
enum Before {
    NoTrip,
    NotMeasured,
    Found(Vec<Listed>),
}

/// The newest day of a well.
#[derive(Debug, Clone)]
pub(crate) struct Newest {
    pub well: Well,
    pub day: String,
    pub rows: Vec<Listed>,
    pub common: Option<WellValue>,
    year: String,
    before: Before,
}

/// Elements on the newest days, the key metals first; gone through once after a change.
pub(crate) fn elements(store: &Store, app: &App) -> Result<Arc<Vec<String>>, HttpError> {
    let state = app.record.index(store, Index::state)?.to_string();
    worked::kept(app, "elements", state, || app.record.index(store, on_newest_days))
}

fn on_newest_days(i: &Index) -> Vec<String> {
    let mut days: Vec<Option<&str>> = vec![None; i.wells.len()];
    let mut there = vec![false; i.measurands.len()];
    let wanted = Wanted::default();
    for e in i.wanted(&wanted) {
        let Some(b) = i.bottles.get(e.bottle as usize) else { continue };
        let Some(newest) = b.well.and_then(|w| days.get_mut(w as usize)) else { continue };
        if *newest.get_or_insert(b.day.as_str()) == b.day
            && let Some(t) = there.get_mut(e.measurand as usize)
        {
            *t = true;
        }
    }
    let here = i.measurands.iter().zip(&there).filter(|(_, t)| **t).map(|(m, _)| m.analyte.clone());
    let mut out: Vec<String> = here.collect();
    let place = |a: &String| KEY.iter().position(|k| k == a).unwrap_or(KEY.len());
    out.sort_by(|a, b| place(a).cmp(&place(b)).then_with(|| a.cmp(b)));
    out.dedup();
    out
}

/// Rows of a well: of its newest day and of the newest day of the year before it.
#[derive(Debug, Clone, Default)]
struct Rows {
    day: String,
    /// By measurand.
    newest: BTreeMap<u32, Vec<i64>>,
    day_before: String,
    before: BTreeMap<u32, Vec<i64>>,
    /// Whether a bottle of the well was filled in the year before.
    visited: bool,
}

fn year_before(day: &str) -> String {
    day.get(..4).and_then(|y| y.parse::<i32>().ok()).map_or_else(String::new, |y| (y - 1).to_string())
}

fn rows_of(i: &Index, element: &str) -> Vec<Rows> {
    let mut out = vec![Rows::default(); i.wells.len()];
    let wanted = Wanted { analyte: Some(element.into()), ..Wanted::default() };
    for e in i.wanted(&wanted).filter(|e| e.verdict.is_some()) {
        let Some(b) = i.bottles.get(e.bottle as usize) else { continue };
        let Some(of) = b.well.and_then(|w| out.get_mut(w as usize)) else { continue };
        if of.newest.is_empty() {
            of.day.clone_from(&b.day);
        }
        if b.day == of.day {
            of.newest.entry(e.measurand).or_default().push(e.row);
        } else if b.day.get(..4) == Some(year_before(&of.day).as_str()) {
            if of.before.is_empty() {
                of.day_before.clone_from(&b.day);
            }
            if b.day == of.day_before {
                of.before.entry(e.measurand).or_default().push(e.row);
            }
        }
    }
    for b in i.bottles.iter().filter(|b| b.kind.is_water()) {
        if let Some(of) = b.well.and_then(|w| out.get_mut(w as usize)) {
            of.visited |= !of.day.is_empty() && b.day.get(..4) == Some(year_before(&of.day).as_str());
        }
    }
    out
}

/// The measurand that stands for the element: most bottles, not filtered before filtered.
fn stands_for(i: &Index, of: &Rows) -> Option<u32> {
    let filtered = |m: u32| i.measurands.get(m as usize).is_none_or(|m| m.fraction != "unfiltered");
    let most = of.newest.iter().max_by_key(|(m, rows)| (!filtered(**m), rows.len(), std::cmp::Reverse(**m)));
    most.map(|(m, _)| *m)
}

/// The newest day of each well on which the element was measured, in the order of the record, streams last.
pub(crate) fn of(store: &Store, app: &App, element: &str) -> Result<Vec<Newest>, HttpError> {
    let state = format!("{} {element}", app.record.index(store, Index::state)?);
    let all = worked::kept(app, "newest-rows", state, || {
        app.record.index(store, |i| {
            let of = |(name, r): (&String, Rows)| (name.clone(), stands_for(i, &r), r);
            i.wells.iter().zip(rows_of(i, element)).map(of).collect::<Vec<_>>()
        })
    })?;
    let mut wells: BTreeMap<String, Well> = store.wells()?.into_iter().map(|w| (w.name.clone(), w)).collect();
    let mut out = vec![];
    for (name, measurand, rows) in all.iter() {
        let (Some(measurand), Some(well)) = (*measurand, wells.remove(name)) else { continue };
        let mut newest = results::listed(store, rows.newest.get(&measurand).map_or(&[][..], Vec::as_slice))?;
        newest.sort_by(|a, b| a.bottle.cmp(&b.bottle));
        let common = common_of(store, app, &newest)?;
        let before = match rows.before.get(&measurand) {
            Some(found) => Before::Found(results::listed(store, found)?),
            None if rows.visited => Before::NotMeasured,
            None => Before::NoTrip,
        };
        let (year, day) = (year_before(&rows.day), rows.day.clone());
        out.push(Newest { well, year, day, rows: newest, common, before });
    }
    out.sort_by_key(|n| n.well.is_stream());
    Ok(out)
}

/// The common value of these bottles, where there is one on record.
fn common_of(store: &Store, app: &App, rows: &[Listed]) -> Result<Option<WellValue>, HttpError> {
    let Some((first, well)) = rows.first().and_then(|r| Some((r, r.well.as_deref()?))) else { return Ok(None) };
    let of_day = first.filled_at.as_deref().and_then(|t| t.get(..10)).unwrap_or_default();
    let is = |w: &&WellValue| {
        w.is_of(&first.analyte, &first.isotopes, &first.resolution)
            && w.water.fraction == first.fraction
            && w.water.day == of_day
    };
    Ok(well_values(store, app, well)?.iter().find(is).cloned())
}

/// The heading, the chooser, the rows.
pub(crate) fn shown(all: &[Newest], elements: &[String], element: &str, weights: &Weights, most: usize) -> Markup {
    let newest = all.iter().map(|n| n.day.as_str()).max().unwrap_or_default();
    let here = &all[..all.len().min(most)];
    let axis = Axis::of(here);
    let title =
        if newest.is_empty() { says::Newest.text() } else { says::NewestDay { day: day(newest).into() }.text() };
    html! {
        h1 { (title) }
        (chooser(elements, element))
        @if here.is_empty() { p.quiet { (says::NoResults.text()) } }
        @else {
            div.newest {
                @for n in here { (n.row(newest, axis.as_ref(), weights)) }
                @if let Some(a) = &axis { (a.foot()) }
            }
            p.under { (says::U95.text()) @if here.iter().any(Newest::lacks_u) { " " (says::UNone.text()) } " " (says::Order.text()) }
            @if all.len() > most { p { a href="/wells" { (says::MoreWells { n: message::count(all.len() - most) }.text()) } } }
        }
    }
}

fn chooser(elements: &[String], element: &str) -> Markup {
    let called = |e: &str| message::number::capital(&::report::pages::element(e));
    let mut chips: Vec<&str> = elements.iter().take(CHIPS).map(String::as_str).collect();
    if !element.is_empty() && !chips.contains(&element) {
        chips.push(element);
    }
    html! {
        @if elements.len() > 1 {
            div.elements {
                ul aria-label=(says::Choose.text()) { @for e in &chips {
                    li { a href=(format!("/?element={}", encoded(e))) aria-current=[(*e == element).then_some("true")] { (called(e)) } }
                } }
                @if elements.len() > chips.len() {
                    form method="get" action="/" {
                        label.unseen for="element" { (says::Choose.text()) }
                        select #element name="element" {
                            option value="" { (says::Another { n: message::count(elements.len()) }.text()) }
                            @for e in elements { option value=(e) { (called(e)) } }
                        }
                        button.second type="submit" { (says::Show.text()) }
                    }
                }
            }
        }
    }
}

/// A result's number in words, without unit.
fn number(r: &Listed) -> String {
    match (&r.amount, r.bound()) {
        (_, Some((bound, _))) => bound,
        (Some(a), None) => Printed::of(a, r.coverage_k.unwrap_or(2.0)).number(),
        (None, None) => says::NotStated.text(),
    }
}

/// The unit of a result, as it is printed.
pub(crate) fn unit(r: &Listed) -> String {
    let unit = r.amount.as_ref().map_or_else(String::new, |a| Printed::of(a, 2.0).unit);
    ::document::printed::printed(&unit, message::language())
}

/// What tells bottles of a day apart: their labels without the beginning that all share up to a hyphen.
fn short(rows: &[Listed]) -> Vec<String> {
    let labels: Vec<&str> = rows.iter().map(|r| r.bottle.as_str()).collect();
    let cut = labels.first().and_then(|l| l.rfind('-')).map_or(0, |at| at + 1);
    let begin = labels.first().and_then(|l| l.get(..cut)).unwrap_or_default();
    let all = labels.len() > 1 && cut > 0 && labels.iter().all(|l| l.len() > cut && l.starts_with(begin));
    labels.iter().map(|l| if all { l[cut..].to_string() } else { (*l).to_string() }).collect()
}

impl Newest {
    fn lacks_u(&self) -> bool {
        self.rows.iter().any(|r| matches!(r.amount, Some(Amount::Stated(_))))
    }

    /// The verdict of the day: that of the common value, else the hardest of the bottles.
    pub fn verdict(&self) -> Option<VerdictWord> {
        let of_value = self.common.as_ref().and_then(|c| c.verdict);
        of_value.or_else(|| self.rows.iter().filter_map(|r| r.verdict).max())
    }

    /// The number that stands for the day, with its unit: the common value, else that of the only bottle.
    pub fn number(&self) -> Option<String> {
        match (&self.common, &self.rows[..]) {
            (Some(c), _) if c.told != Told::NoNumber => Some(c.number()),
            (_, [one]) => Some(format!("{}\u{A0}{}", number(one), unit(one))),
            _ => None,
        }
    }

    fn row(&self, newest: &str, axis: Option<&Axis>, weights: &Weights) -> Markup {
        let labels = short(&self.rows);
        let units: Vec<String> = self.rows.iter().map(unit).collect();
        let one_unit = units.iter().all(|u| Some(u) == units.first());
        html! {
            article.row {
                div.who-well {
                    h2 { a href=(format!("/wells/{}", encoded(&self.well.name))) { (self.well.name) } }
                    @if self.day != newest && !self.day.is_empty() { p.day { (day(&self.day)) } }
                    @if let Some(d) = &self.well.description { p.quiet { (d) } }
                }
                @if let Some(a) = axis { (a.dots(self, &labels)) }
                div.says {
                    ul.bottles { @for (r, label) in self.rows.iter().zip(&labels) {
                        li { span.label title=(r.bottle) { (label) } " "
                            a href=(case_address(&r.result)) { (number(r)) } @if !one_unit { " " (unit(r)) } }
                    } @if let (true, Some(u)) = (one_unit, units.first()) { li.unit { (u) } } }
                    @if let Some(v) = self.verdict() { p { (verdict_word(word(v))) " " (self.because(v, weights)) } }
                    p.quiet.foot { span { (self.together()) } " " span { (self.year_said()) } }
                }
            }
        }
    }

    /// Why the verdict is what it is, in few words.
    fn because(&self, verdict: VerdictWord, weights: &Weights) -> String {
        let mut codes: Vec<&String> = vec![];
        for r in self.rows.iter().filter(|r| r.verdict == Some(verdict)) {
            for c in r.reasons.iter().filter(|c| !codes.contains(c)).collect::<Vec<_>>() {
                codes.push(c);
            }
        }
        if codes.is_empty() {
            let together = self.common.as_ref().is_some_and(|c| c.bottles.len() > 1 && c.told != Told::NoNumber);
            return if together { says::Agree.text() } else { String::new() };
        }
        let words: Vec<String> = codes.iter().take(REASONS).map(|c| weights.held(c, verdict)).collect();
        let more = codes.len().saturating_sub(REASONS);
        let more =
            if more > 0 { format!(" ({})", says::AndMore { n: message::count(more) }.text()) } else { String::new() };
        format!("{}.{more}", words.join(". "))
    }

    /// The common value with its interval.
    fn together(&self) -> String {
        match self.common.as_ref().map(|c| (&c.told, c)) {
            _ if self.rows.len() < 2 => says::OneBottle.text(),
            Some((Told::Value { amount, coverage_k, interval }, _)) => {
                let shown = amount.shown(*coverage_k);
                let [low, high] = interval.map(|x| Shown::new(x, shown.digits, ""));
                let found = Shown { expanded: None, ..shown };
                says::Together { found, low, high }.text()
            }
            Some((Told::AtMost { .. }, c)) => says::TogetherMost { found: c.number().into() }.text(),
            _ => says::NoCommon.text(),
        }
    }

    fn year_said(&self) -> Markup {
        let year = || self.year.as_str().into();
        let element = || ::report::pages::element(self.rows.first().map_or("", |r| r.analyte.as_str())).into();
        html! {
            @match &self.before {
                _ if self.year.is_empty() => {}
                Before::NoTrip => { (says::YearNoTrip { day: year() }.text()) }
                Before::NotMeasured => { (says::YearNotMeasured { day: year(), element: element() }.text()) }
                Before::Found(rows) => { (says::YearFound { day: year() }.text()) @for r in rows { " " a href=(case_address(&r.result)) { (number(r)) } } @if let Some(r) = rows.first() { " " (unit(r)) } }
            }
        }
    }
}

/// An axis that all wells share: each line ten times the one before.
struct Axis {
    unit: String,
    /// Powers of ten.
    low: i32,
    high: i32,
}

impl Axis {
    /// Over all values of the unit that most have; none where nothing can be drawn.
    fn of(all: &[Newest]) -> Option<Self> {
        let rows = || all.iter().flat_map(|n| &n.rows);
        let mut units: BTreeMap<String, usize> = BTreeMap::new();
        for r in rows().filter(|r| at(r).is_some()) {
            *units.entry(unit(r)).or_default() += 1;
        }
        let unit = units.into_iter().max_by_key(|(_, n)| *n)?.0;
        let values = rows().filter(|r| self::unit(r) == unit).filter_map(at);
        let (low, high) = values.fold((f64::INFINITY, 0.0_f64), |(a, b), x| (a.min(x), b.max(x)));
        let (low, high) = (low.log10().floor() as i32, high.log10().ceil() as i32);
        // Twelve powers of ten hold any water; what lies outside was typed amiss and is not drawn.
        ((high - low) <= 12).then_some(Self { unit, low, high: high.max(low + 1) })
    }

    fn x(&self, value: f64) -> f64 {
        let part = (value.log10() - f64::from(self.low)) / f64::from(self.high - self.low);
        8.0 + part.clamp(0.0, 1.0) * (WIDTH - 40.0)
    }

    fn lines(&self, height: f64) -> String {
        let mut out = String::new();
        for power in self.low..=self.high {
            let x = self.x(10f64.powi(power));
            let _ = write!(out, "<path d=\"M{x:.1} 0V{height:.0}\" stroke=\"{}\"/>", ink::HAIR);
        }
        out
    }

    /// The bottles of a day: a disc a value, a ring where it is rejected, a bar with a firm end for "at most".
    fn dots(&self, n: &Newest, labels: &[String]) -> Markup {
        let height = STEP * n.rows.len() as f64 + 6.0;
        let mut marks = self.lines(height);
        let mut told = vec![];
        for (k, (r, label)) in n.rows.iter().zip(labels).enumerate() {
            let y = 12.0 + STEP * k as f64;
            let words = format!("{} {}", number(r), unit(r));
            told.push(says::Dot { what: label.as_str().into(), found: words.into() }.text());
            let Some(value) = at(r).filter(|_| unit(r) == self.unit) else { continue };
            let x = self.x(value);
            let _ = match (&r.amount, r.verdict) {
                (Some(Amount::Below(_)), _) => write!(
                    marks,
                    "<path d=\"M8 {y}H{x:.1}\" stroke=\"{0}\" stroke-dasharray=\"3 3\" stroke-width=\"2\"/><path d=\"M{x:.1} {1}V{2}\" stroke=\"{0}\" stroke-width=\"2\"/>",
                    ink::TEXT,
                    y - 5.0,
                    y + 5.0
                ),
                (_, Some(VerdictWord::Rejected)) => write!(
                    marks,
                    "<circle cx=\"{x:.1}\" cy=\"{y}\" r=\"4.6\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\"/>",
                    ink::TEXT
                ),
                _ => write!(marks, "<circle cx=\"{x:.1}\" cy=\"{y}\" r=\"5.4\" fill=\"{}\"/>", ink::TEXT),
            };
            // A longer label stands beside the number; here it would leave the drawing.
            if label.chars().count() <= SHORT {
                let _ = write!(
                    marks,
                    "<text x=\"{:.1}\" y=\"{}\" font-size=\"12\" fill=\"{}\">{}</text>",
                    x + 11.0,
                    y + 4.0,
                    ink::TEXT,
                    ::figure::escape(label)
                );
            }
        }
        let title = format!("{}. {}", says::Dots { well: n.well.name.as_str().into() }.text(), told.join("; "));
        svg(&title, height, &marks)
    }

    /// The foot with the numbers of its lines.
    fn foot(&self) -> Markup {
        // So many lines that their numbers do not meet.
        let every = ((self.high - self.low) / 5 + 1) as usize;
        let mut marks = String::new();
        for power in (self.low..=self.high).step_by(every) {
            let number = Shown::new(10f64.powi(power), message::Digits::Trimmed(1), "").text();
            let _ = write!(
                marks,
                "<text x=\"{:.1}\" y=\"12\" font-size=\"12\" text-anchor=\"middle\" fill=\"{}\">{number}</text>",
                self.x(10f64.powi(power)).max(12.0),
                ink::MUTED
            );
        }
        let title = says::LogScale { what: self.unit.as_str().into() }.text();
        html! { div.row.axis { span {} (svg(&title, 16.0, &marks)) p.quiet { (title) } } }
    }
}

/// Where a result stands on an axis of powers of ten.
fn at(r: &Listed) -> Option<f64> {
    let value = match r.amount.as_ref()? {
        Amount::Measured(m) => m.value,
        Amount::Stated(s) => s.value,
        Amount::Below(b) | Amount::Above(b) => b.limit,
    };
    (value.is_finite() && value > 0.0).then_some(value)
}

/// A drawing of one well or of the foot.
fn svg(title: &str, height: f64, marks: &str) -> Markup {
    html! {
        div.dots { (PreEscaped(format!(
            "<svg role=\"img\" aria-label=\"{}\" viewBox=\"0 0 {WIDTH} {height}\" width=\"{WIDTH}\" height=\"{height}\">{marks}</svg>",
            ::figure::escape(title)
        ))) }
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_year_before_is_told_where_a_day_is_known() {
        assert_eq!(super::year_before("2026-07-14"), "2025");
        assert_eq!(super::year_before(""), "");
    }
}
