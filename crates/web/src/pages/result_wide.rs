//! The wide table: a row a well and day, a column a substance, the bottles beneath with their U, blanks and detection limits
//! as foot rows; on the screen, on paper and as a file with the same columns.
//!
//! In: results of waters. Out: [`Wide`], its markup and its sheet. A substance has one column: of the isotopes that a run
//! reports the sum stands in it, else those with the most bottles. A well's value stands only where the fit of its bottles
//! gives one, with its own U; where bottles disagree, or no counts are on record, a dash with the mark of the verdict.

use super::result_cards::{common, letters};
use super::results::{Asked, files, pages};
use super::words::{self, Parts};
use crate::app::App;
use crate::http_error::HttpError;
use crate::page::{case_address, encoded};
use assessment::results::{self, Listed};
use assessment::well_value::{Told, WellValue};
use exchange::result_rows::Line;
use exchange::sheet::{Numbers, Sheet};
use maud::{Markup, html};
use message::{Message, Shown, Spoken, count, web_results as said};
use programme::index::{Entry, Index};
use quantity::Amount;
use record::model::VerdictWord;
use record::store::Store;
use std::collections::{BTreeMap, HashSet};

/// Wells and days on a page.
const DAYS_PER_PAGE: usize = 10;

/// What stands together in a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Family {
    Metals,
    Ions,
    Readings,
    Others,
}

/// Major constituents and what is told with them.
const IONS: [&str; 19] = [
    "Ca", "Mg", "Na", "K", "Cl", "SO4", "NO3", "NO2", "NH4", "PO4", "F", "Br", "SiO2", "Si", "HCO3", "CO3", "S(-II)",
    "DOC", "hardness",
];

impl Family {
    const ALL: [Self; 4] = [Self::Metals, Self::Ions, Self::Readings, Self::Others];

    fn of(analyte: &str) -> Self {
        let mut letters = analyte.chars();
        let first_large = letters.next().is_some_and(|c| c.is_ascii_uppercase());
        let rest: String = letters.collect();
        let is_symbol = first_large && rest.len() <= 1 && rest.chars().all(|c| c.is_ascii_lowercase());
        if IONS.contains(&analyte) || analyte.starts_with("alkalinity") {
            Self::Ions
        } else if Message::named("condition", analyte).is_some() {
            // "Eh" has the look of a symbol.
            Self::Readings
        } else if is_symbol || analyte == "Cr(VI)" {
            Self::Metals
        } else {
            Self::Others
        }
    }

    fn word(self) -> &'static str {
        match self {
            Self::Metals => "metals",
            Self::Ions => "ions",
            Self::Readings => "readings",
            Self::Others => "others",
        }
    }

    fn says(self) -> String {
        match self {
            Self::Metals => said::FamilyMetals.text(),
            Self::Ions => said::FamilyIons.text(),
            Self::Readings => said::FamilyReadings.text(),
            Self::Others => said::FamilyOthers.text(),
        }
    }
}

/// A column: lead first, then by symbol; filtered and unfiltered apart.
type Column = (bool, String, String);

/// Results of one well, day and column, of one isotope or sum.
#[derive(Default)]
struct Cell {
    bottles: Vec<Listed>,
    value: Option<WellValue>,
}

/// A well on a day.
struct Day {
    well: String,
    date: String,
    labels: Vec<String>,
    cells: BTreeMap<Column, Cell>,
}

/// The table.
struct Wide {
    columns: Vec<Column>,
    /// The unit of most results of each column.
    units: BTreeMap<Column, String>,
    days: Vec<Day>,
}

impl Wide {
    fn of(store: &Store, app: &App, all: Vec<Listed>) -> Result<Self, HttpError> {
        let mut found: Vec<(String, String)> = vec![];
        let mut cells: BTreeMap<(String, String), BTreeMap<Column, Vec<Listed>>> = BTreeMap::new();
        for r in all.into_iter().filter(|r| r.verdict.is_some()) {
            let Some(well) = r.well.clone() else { continue };
            let at = (well, exchange::result_rows::day(&r).to_string());
            if !cells.contains_key(&at) {
                found.push(at.clone());
            }
            let column = (r.analyte != "Pb", r.analyte.clone(), r.fraction.clone());
            cells.entry(at).or_default().entry(column).or_default().push(r);
        }
        let mut out = Self { columns: vec![], units: BTreeMap::new(), days: vec![] };
        for at in found {
            let of = cells.remove(&at).unwrap_or_default();
            let mut day = Day { well: at.0, date: at.1, labels: vec![], cells: BTreeMap::new() };
            for (column, results) in of {
                let bottles = reporting(results);
                for label in bottles.iter().map(|r| &r.bottle) {
                    if !day.labels.contains(label) {
                        day.labels.push(label.clone());
                    }
                }
                if !out.columns.contains(&column) {
                    out.columns.push(column.clone());
                }
                let value = if bottles.len() > 1 { common(store, app, &bottles)? } else { None };
                day.cells.insert(column, Cell { bottles, value });
            }
            day.labels.sort();
            out.days.push(day);
        }
        out.columns.sort();
        out.units = out.columns.iter().map(|c| (c.clone(), out.unit(c))).collect();
        Ok(out)
    }

    fn results(&self, column: &Column) -> impl Iterator<Item = &Listed> {
        self.days.iter().filter_map(move |d| d.cells.get(column)).flat_map(|c| &c.bottles)
    }

    fn unit(&self, column: &Column) -> String {
        let mut of: BTreeMap<String, usize> = BTreeMap::new();
        for r in self.results(column) {
            *of.entry(Parts::of_result(r).unit).or_default() += 1;
        }
        of.into_iter().max_by_key(|(unit, n)| (!unit.is_empty(), *n)).map_or_else(String::new, |(unit, _)| unit)
    }

    /// Whether a substance stands in more than one column.
    fn is_divided(&self, column: &Column) -> bool {
        self.columns.iter().filter(|c| c.1 == column.1).count() > 1
    }

    /// What was taken off, or could be seen, in the unit of the column: one number, or the lowest and the highest.
    fn range(&self, column: &Column, of: impl Fn(&Listed) -> Option<f64>) -> Option<String> {
        let unit = &self.units[column];
        let in_unit = self.results(column).filter(|r| Parts::of_result(r).unit == *unit);
        let all: Vec<f64> = in_unit.filter_map(of).filter(|x| x.is_finite()).collect();
        let (low, high) = all.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (l.min(*x), h.max(*x)));
        let [low, high] = [low, high].map(|x| Shown::significant(x, 2, "").typeset().text());
        match all.len() {
            0 => None,
            _ if low == high => Some(low),
            _ => Some(said::Range { low: low.into(), high: high.into() }.text()),
        }
    }
}

/// The results of one isotope or sum: the sum where there is one, else those of the most bottles.
fn reporting(all: Vec<Listed>) -> Vec<Listed> {
    let set = |r: &Listed| (r.isotopes.clone(), r.resolution.clone());
    let mut sets: Vec<(String, String)> = all.iter().map(set).collect();
    sets.sort();
    sets.dedup();
    sets.reverse();
    let rank = |s: &(String, String)| (s.0.contains('+'), all.iter().filter(|r| set(r) == *s).count());
    let Some(best) = sets.into_iter().max_by_key(rank) else { return all };
    all.into_iter().filter(|r| set(r) == best).collect()
}

/// What was taken off a result as blank.
fn blank(r: &Listed) -> Option<f64> {
    r.blank.as_ref().and_then(Amount::value)
}

/// What could be seen: the detection limit, else the laboratory's own limit.
fn detection(r: &Listed) -> Option<f64> {
    r.detection_limit.or(r.reporting_limit)
}

/// The page.
pub(super) fn page(store: &Store, app: &App, asked: &Asked, filters: &Markup) -> Result<Markup, HttpError> {
    let (families, chosen, found, rows) = app.record.index(store, |i| {
        let all: Vec<Family> =
            Family::ALL.into_iter().filter(|f| i.analytes().iter().any(|a| Family::of(a) == *f)).collect();
        let of_one = asked.wanted.analyte.as_deref().map(Family::of);
        let named = Family::ALL.into_iter().find(|f| Some(f.word()) == asked.family.as_deref());
        let chosen = of_one.or(named).or(all.first().copied()).unwrap_or(Family::Metals);
        let found = i.select_wide(&asked.wanted, asked.page, DAYS_PER_PAGE);
        let rows = of_family(i, asked, chosen, &found.rows);
        (all, chosen, found, rows)
    })?;
    let wide = Wide::of(store, app, results::listed(store, &rows)?)?;
    let left = found.total.saturating_sub((asked.page + 1) * DAYS_PER_PAGE);
    Ok(html! {
        div.titled { h1 { (said::TitleWide.text()) } p.quiet { (said::CountDays { n: count(found.total) }.text()) } }
        (filters)
        nav.elements aria-label=(said::Families.text()) { ul { @for f in families {
            li { a href=(asked.but("family", Some(f.word()))) aria-current=[(f == chosen).then_some("true")] { (f.says()) } }
        } } }
        p.quiet {
            (said::Rule.text()) " "
            a href=(asked.but("u", if asked.without_u { None } else { Some("0") })) { @if asked.without_u { (said::WithU.text()) } @else { (said::NoU.text()) } }
        }
        @if wide.days.is_empty() { p { (said::NothingWide.text()) } p.acts { a.go href="/results?wide=1" { (said::ShowAll.text()) } } }
        @else { (table(&wide, asked)) (signs()) }
        (pages(asked, found.total.div_ceil(DAYS_PER_PAGE), left))
        (files(asked))
    })
}

/// Of these rows those of a family.
fn of_family(i: &Index, asked: &Asked, family: Family, rows: &[i64]) -> Vec<i64> {
    let rows: HashSet<i64> = rows.iter().copied().collect();
    let fits: Vec<bool> = i.measurands.iter().map(|m| Family::of(&m.analyte) == family).collect();
    let of = |e: &&Entry| rows.contains(&e.row) && fits.get(e.measurand as usize).copied().unwrap_or(false);
    i.wanted(&asked.wanted).filter(of).map(|e| e.row).collect()
}

fn signs() -> Markup {
    html! {
        p.under { @for v in VerdictWord::ALL { (words::verdict(Some(*v))) " " } (said::SignsWide.text()) }
    }
}

fn table(wide: &Wide, asked: &Asked) -> Markup {
    html! {
        div.frame role="region" tabindex="0" aria-label=(said::TitleWide.text()) {
            table.wide-of-wells {
                caption { span { (said::CaptionWide.text()) } }
                thead { tr {
                    th scope="col" { (said::HeadWell.text()) }
                    @for c in &wide.columns { th.n scope="col" {
                        (c.1) br; small { (::report::pages::element(&c.1)) @if wide.is_divided(c) { ", " (words::fraction(&c.2)) } br; (wide.units[c]) }
                    } }
                } }
                @for day in &wide.days { (of_day(wide, day, asked)) }
                tfoot {
                    (foot(wide, &said::FootBlank.text(), blank))
                    (foot(wide, &said::FootDetection.text(), detection))
                }
            }
        }
    }
}

fn foot(wide: &Wide, name: &str, of: impl Fn(&Listed) -> Option<f64>) -> Markup {
    html! { tr {
        th scope="row" { (name) }
        @for c in &wide.columns { td.n { (wide.range(c, &of).unwrap_or_else(|| "–".into())) } }
    } }
}

fn of_day(wide: &Wide, day: &Day, asked: &Asked) -> Markup {
    let labels: Vec<&str> = day.labels.iter().map(String::as_str).collect();
    let several = labels.len() > 1;
    html! {
        tbody {
            tr.sum {
                th scope="row" {
                    a href=(format!("/wells/{}", encoded(&day.well))) { (day.well) } br;
                    small { (words::day(&day.date)) @if !several { br; (labels.join(", ")) } }
                }
                @for c in &wide.columns { td.n { @if let Some(cell) = day.cells.get(c) { (in_common(cell, &wide.units[c], asked)) } } }
            }
            @if several { @for (label, letter) in labels.iter().zip(letters(&labels)) {
                tr {
                    th scope="row" title=(label) { (said::Bottle { letter: letter.into() }.text()) }
                    @for c in &wide.columns { td.n {
                        @if let Some(r) = day.cells.get(c).and_then(|cell| cell.bottles.iter().find(|r| r.bottle == **label)) {
                            (of_bottle(r, &wide.units[c], asked))
                        }
                    } }
                }
            } }
        }
    }
}

/// The mark, and the common value or a dash; of one bottle its own value.
fn in_common(cell: &Cell, unit: &str, asked: &Asked) -> Markup {
    let verdict = cell.bottles.iter().filter_map(|r| r.verdict).max();
    let marked = html! { @if let Some(v) = verdict { (words::mark(v)) " " } };
    if let [one] = &cell.bottles[..] {
        return html! { (marked) (of_bottle(one, unit, asked)) };
    }
    let parts = match cell.value.as_ref().map(|v| (&v.told, v)) {
        Some((Told::Value { amount, coverage_k, .. }, _)) => Some(Parts::of(amount, *coverage_k)),
        Some((Told::AtMost { .. }, v)) => {
            // In the unit of its column, which stands over it.
            let bound = words::printed(&v.number());
            let value = bound.strip_suffix(unit).map_or(bound.as_str(), str::trim_end).to_string();
            Some(Parts { value, expanded: None, without_u: false, unit: unit.into() })
        }
        _ => None,
    };
    html! {
        (marked)
        @match parts {
            Some(p) => { b { (p.value) } (beneath(&p, unit, asked)) }
            None => { "–" }
        }
    }
}

fn of_bottle(r: &Listed, unit: &str, asked: &Asked) -> Markup {
    let p = Parts::of_result(r);
    html! { a href=(case_address(&r.result)) { (p.value) } (beneath(&p, unit, asked)) }
}

/// U and, where it is another than the column's, the unit.
fn beneath(p: &Parts, unit: &str, asked: &Asked) -> Markup {
    html! {
        @if p.unit != unit && !p.unit.is_empty() { "\u{A0}" (p.unit) }
        @if let (Some(u), false) = (&p.expanded, asked.without_u) { small { "±\u{A0}" (u) } }
    }
}

/// The same columns as a sheet: of each substance the number, its U unless it is switched off, and the verdict.
pub(super) fn sheet(store: &Store, app: &App, asked: &Asked, rows: &[i64]) -> Result<Sheet, HttpError> {
    let wide = Wide::of(store, app, results::listed(store, rows)?)?;
    let mut headings: Vec<String> = ["well", "day", "bottle"].map(str::to_string).to_vec();
    for c in &wide.columns {
        let name = if wide.is_divided(c) { format!("{} {}", c.1, c.2) } else { c.1.clone() };
        let unit = &wide.units[c];
        let with_unit =
            |what: &str| if unit.is_empty() { format!("{name}{what}") } else { format!("{name}{what} ({unit})") };
        headings.push(with_unit(""));
        if !asked.without_u {
            headings.push(with_unit(" U95"));
        }
        headings.push(format!("{name} verdict"));
    }
    let mut out = vec![];
    for day in &wide.days {
        let begin = |bottle: &str| vec![day.well.clone(), day.date.clone(), bottle.to_string()];
        for label in &day.labels {
            let mut row = begin(label);
            for c in &wide.columns {
                let r = day.cells.get(c).and_then(|cell| cell.bottles.iter().find(|r| r.bottle == *label));
                row.extend(in_sheet(r, &wide.units[c], asked));
            }
            out.push(row);
        }
        if day.cells.values().any(|cell| matches!(cell.value.as_ref().map(|v| &v.told), Some(Told::Value { .. }))) {
            let mut row = begin("common value");
            for c in &wide.columns {
                row.extend(common_in_sheet(day.cells.get(c), asked));
            }
            out.push(row);
        }
    }
    let legend = [said::Rule.text(), said::SignsWide.text()].to_vec();
    Ok(Sheet { name: "results", headings, rows: out, numbers: Numbers::From(3), legend })
}

fn in_sheet(r: Option<&Listed>, unit: &str, asked: &Asked) -> Vec<String> {
    let Some(line) = r.cloned().map(Line::from) else {
        return vec![String::new(); if asked.without_u { 2 } else { 3 }];
    };
    let mut number = format!("{}{}", line.number.sign, line.number.value);
    // A number of another unit than the heading's says so, and is then no number of the column.
    let own = words::printed(&line.unit);
    if number.is_empty() {
        number = "nd".into();
    } else if own != unit && !own.is_empty() {
        number += &format!(" {own}");
    }
    let mut out = vec![number];
    if !asked.without_u {
        out.push(line.number.expanded);
    }
    out.push(line.judged);
    out
}

fn common_in_sheet(cell: Option<&Cell>, asked: &Asked) -> Vec<String> {
    let told = cell.and_then(|c| c.value.as_ref());
    let (value, expanded) = match told.map(|v| &v.told) {
        Some(Told::Value { amount: Amount::Measured(m), coverage_k, .. }) => {
            quantity::format::value_and_expanded(m, *coverage_k)
        }
        _ => (String::new(), String::new()),
    };
    let verdict =
        told.and_then(|v| v.verdict).filter(|_| !value.is_empty()).map_or_else(String::new, |v| v.word().into());
    let mut out = vec![value];
    if !asked.without_u {
        out.push(expanded);
    }
    out.push(verdict);
    out
}

#[cfg(test)]
mod tests {
    use super::Family;

    #[test]
    fn what_stands_together() {
        for (analyte, family) in [
            ("Pb", Family::Metals),
            ("U", Family::Metals),
            ("Ca", Family::Ions),
            ("alkalinity (laboratory)", Family::Ions),
            ("pH", Family::Readings),
            ("Eh", Family::Readings),
            ("atrazine", Family::Others),
            ("", Family::Others),
        ] {
            assert_eq!(Family::of(analyte), family, "{analyte}");
        }
    }
}
