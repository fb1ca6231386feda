//! What does the record hold over the years? Series of the programme by well, analyte and fraction,
//! and the blanks of the same analyte and fraction, ready for the crate `series`.
//!
//! In: the newest revision of every result. Out: rows with date, value or limit, method, verdict;
//! one unit an analyte and fraction, that of its first result on record. Where the programme has a
//! raw net value it is used, also below the critical value and below zero; a result that a
//! laboratory censored enters with its limit. Laboratory, method and mass resolution together mark
//! the practice: where they change, a step is possible; a row that does not state them is no change.
//!
//! Nothing is made up for a result that cannot enter: it is left out and counted by reason
//! ([`LeftOut`]). Of several isotopes measured in one bottle the one enters that the well has most
//! often. A blank without a date of its own bears that of its trip, else of the washing of its lot.
//! Verdicts stand beside the rows and move nothing. Checked in `crates/programme/tests/series_of.rs`.

use crate::derive::Excluded;
use crate::results::{self, Listed};
use jiff::civil::Date;
use message::{Message, count, time_series as said};
use quantity::{Amount, Unit};
use record::error::Error;
use record::model::{Bears, Bottle, VerdictWord};
use record::store::{Filter, Store};
use series::survey::{self, Entry, Request, Row};
use series::{Observation, Reading, rows};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// One result as a row of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// Date, reading in the unit of the series, practice.
    pub observation: Observation,
    /// Day that it stands for.
    pub date: Date,
    /// Row of the result in the record.
    pub row: i64,
    /// Label of the bottle.
    pub bottle: String,
    /// Its verdict; none for blanks.
    pub verdict: Option<VerdictWord>,
    /// U, 95 %, in the unit of the series; none where the source states none, and for non-detects.
    pub expanded: Option<f64>,
}

/// Results that could not enter, by reason.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// No date.
    pub no_date: usize,
    /// Not detected, and the report does not say below what.
    pub no_limit: usize,
    /// Above the range of the method.
    pub above_range: usize,
    /// In a unit that cannot be turned into that of the series.
    pub other_unit: usize,
    /// Another isotope of a bottle that is in the series already.
    pub other_isotope: usize,
    /// The bottle was taken out of the evidence by a person.
    pub taken_out: usize,
}

impl LeftOut {
    /// All of them.
    pub fn total(&self) -> usize {
        let Self { no_date, no_limit, above_range, other_unit, other_isotope, taken_out } = *self;
        no_date + no_limit + above_range + other_unit + other_isotope + taken_out
    }

    /// The reasons that there are, each with how many.
    pub fn reasons(&self) -> Vec<Message> {
        let all: [(usize, Message); 6] = [
            (self.no_date, said::WithoutDate { results: count(self.no_date) }.into()),
            (self.no_limit, said::WithoutLimit { results: count(self.no_limit) }.into()),
            (self.above_range, said::AboveRange { results: count(self.above_range) }.into()),
            (self.other_unit, said::OtherUnit { results: count(self.other_unit) }.into()),
            (self.other_isotope, said::OtherIsotope { results: count(self.other_isotope) }.into()),
            (self.taken_out, said::TakenOut { results: count(self.taken_out) }.into()),
        ];
        all.into_iter().filter(|(n, _)| *n > 0).map(|(_, reason)| reason).collect()
    }

    /// The sum of two.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            no_date: self.no_date + other.no_date,
            no_limit: self.no_limit + other.no_limit,
            above_range: self.above_range + other.above_range,
            other_unit: self.other_unit + other.other_unit,
            other_isotope: self.other_isotope + other.other_isotope,
            taken_out: self.taken_out + other.taken_out,
        }
    }
}

/// A series.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Well, or for blanks the kind of bottle.
    pub of: String,
    /// Element or quantity.
    pub analyte: String,
    /// Fraction.
    pub fraction: String,
    /// Unit of all rows.
    pub unit: Unit,
    /// Rows in order of time.
    pub rows: Vec<Point>,
    /// What could not enter.
    pub left_out: LeftOut,
}

impl Series {
    /// The rows as the science takes them.
    pub fn observations(&self) -> Vec<Observation> {
        self.rows.iter().map(|p| p.observation.clone()).collect()
    }

    /// Rows with this verdict.
    pub fn with_verdict(&self, word: VerdictWord) -> usize {
        self.rows.iter().filter(|p| p.verdict == Some(word)).count()
    }
}

/// All series of a programme.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Record {
    /// By well, analyte, fraction; in that order.
    pub wells: Vec<Series>,
    /// Blanks by kind, analyte, fraction; in that order.
    pub blanks: Vec<Series>,
}

impl Record {
    /// The blanks of an analyte and fraction.
    pub fn blanks_of<'a>(&'a self, analyte: &'a str, fraction: &'a str) -> impl Iterator<Item = &'a Series> {
        self.blanks.iter().filter(move |b| b.analyte == analyte && b.fraction == fraction)
    }

    /// Summary and trend of every well's series, or why not, in the order of [`Record::wells`].
    pub fn survey(&self, request: &Request) -> Vec<Entry> {
        // The survey answers in order of the names: numbers of one length keep the order.
        let rows: Vec<Row> = self
            .wells
            .iter()
            .enumerate()
            .flat_map(|(i, s)| {
                s.rows.iter().map(move |p| Row { group: format!("{i:08}"), observation: p.observation.clone() })
            })
            .collect();
        let mut entries = survey::survey(&rows, request).into_iter().peekable();
        self.wells
            .iter()
            .enumerate()
            .map(|(i, s)| {
                let name = format!("{}, {}, {}", s.of, s.analyte, s.fraction);
                match entries.next_if(|e| e.group == format!("{i:08}")) {
                    Some(e) => Entry { group: name, ..e },
                    None => survey::one(&name, &[], request),
                }
            })
            .collect()
    }
}

/// Well or kind of blank, analyte, fraction.
type Key = (String, String, String);
type Groups<'a> = BTreeMap<Key, Vec<&'a Listed>>;

/// Series of the programme.
///
/// # Errors
/// The store cannot be read; a unit in the record that this program does not know.
pub fn all(store: &Store) -> Result<Record, Error> {
    of(store, &results::all(store)?)
}

/// Series of results already listed.
///
/// # Errors
/// The store cannot be read.
pub fn of(store: &Store, results: &[Listed]) -> Result<Record, Error> {
    let bottles = bottles_of(store, results)?;
    let dates = Dates::of_bottles(store, &bottles)?;
    let excluded = Excluded::read(store)?;
    let label = |b: &Bottle| b.label.clone();
    let out: HashSet<String> = bottles.iter().filter(|b| excluded.bottle(b.id).is_some()).map(label).collect();
    let series: HashSet<String> = bottles.iter().filter(|b| b.is_series()).map(label).collect();
    let units = units(results);
    let (mut wells, mut blanks) = (Groups::new(), Groups::new());
    for r in results {
        let key = |of: &str| (of.to_string(), r.analyte.clone(), r.fraction.clone());
        match &r.well {
            Some(_) if r.kind.is_water() && series.contains(&r.bottle) => {}
            Some(well) if r.kind.is_water() => wells.entry(key(well)).or_default().push(r),
            _ if r.kind.is_blank() => blanks.entry(key(&r.kind.word().replace('-', " "))).or_default().push(r),
            _ => {}
        }
    }
    let build =
        |groups: Groups| groups.into_iter().filter_map(|(key, rs)| one(key, &rs, &dates, &out, &units)).collect();
    Ok(Record { wells: build(wells), blanks: build(blanks) })
}

fn units(results: &[Listed]) -> HashMap<(&str, &str), Unit> {
    let mut units = HashMap::new();
    // Samples before blanks: a blank is shown on the scale of the water.
    for blanks in [false, true] {
        for r in results.iter().filter(|r| r.kind.is_blank() == blanks) {
            if let Some(a) = r.amount.as_ref().or(r.net.as_ref()) {
                units.entry((r.analyte.as_str(), r.fraction.as_str())).or_insert_with(|| a.unit().clone());
            }
        }
    }
    units
}

/// Bottles asked for one by one up to here; of more, all are read at once.
const FEW: usize = 400;

/// The bottles of these results.
fn bottles_of(store: &Store, results: &[Listed]) -> Result<Vec<Bottle>, Error> {
    let labels: BTreeSet<&str> = results.iter().map(|r| r.bottle.as_str()).collect();
    if labels.len() > FEW {
        return Ok(store.bottles(&Filter::all())?);
    }
    let mut out = vec![];
    for label in labels {
        out.extend(store.bottles(&Filter::all().is("label", label))?);
    }
    Ok(out)
}

/// Labels of bottles that tell where metal comes from, not what the well holds.
pub(crate) fn of_series(store: &Store) -> Result<HashSet<String>, Error> {
    Ok(store.bottles(&Filter::all())?.into_iter().filter(Bottle::is_series).map(|b| b.label).collect())
}

/// Dates of bottles.
pub(crate) struct Dates(HashMap<String, Date>);

impl Dates {
    pub(crate) fn of_bottle(&self, label: &str) -> Option<Date> {
        self.0.get(label).copied()
    }

    pub fn of(store: &Store) -> Result<Self, Error> {
        Self::of_bottles(store, &store.bottles(&Filter::all())?)
    }

    /// Dates of these alone.
    fn of_bottles(store: &Store, bottles: &[Bottle]) -> Result<Self, Error> {
        let trips: HashMap<i64, String> = store.trips()?.into_iter().map(|t| (t.id, t.starts)).collect();
        let lots: HashMap<i64, String> =
            store.lots()?.into_iter().filter_map(|l| Some((l.id, l.cleaned_on?))).collect();
        let date = |b: &Bottle| {
            let texts = [
                b.filled_at.as_deref(),
                b.trip_id.and_then(|t| trips.get(&t)).map(String::as_str),
                b.lot_id.and_then(|l| lots.get(&l)).map(String::as_str),
            ];
            texts.into_iter().flatten().find_map(day)
        };
        Ok(Self(bottles.iter().filter_map(|b| Some((b.label.clone(), date(b)?))).collect()))
    }
}

/// The day of a moment as the record writes it.
fn day(text: &str) -> Option<Date> {
    text.get(..10)?.parse().ok()
}

/// The reading, or the count of the reason why there is none.
fn reading(r: &Listed, unit: &Unit, out: &mut LeftOut) -> Option<Reading> {
    // A value that is an upper bound says of the water no more than that.
    let net = r.net.as_ref().filter(|_| r.bears == Bears::Value);
    let Some(amount) = net.or(r.amount.as_ref()) else {
        out.no_limit += 1;
        return None;
    };
    match amount.convert(unit, None, None) {
        Err(_) => {
            out.other_unit += 1;
            None
        }
        Ok(Amount::Above(_)) => {
            out.above_range += 1;
            None
        }
        Ok(Amount::Below(b)) => Some(Reading::Below(b.limit)),
        Ok(other) => other.value().map(Reading::Known),
    }
}

/// Laboratory, method, resolution as the row states them.
type Practice = [Option<String>; 3];

fn practice(r: &Listed) -> Practice {
    let stated = |text: Option<&str>| text.filter(|t| !t.is_empty()).map(ToString::to_string);
    let resolution = stated(Some(&r.resolution)).map(|word| format!("{word} resolution"));
    [stated(r.laboratory.as_deref()), stated(r.method.as_deref()), resolution]
}

/// A row that states no laboratory or method is no change of it: it goes with the row before. Before the first row that
/// states one nothing is known, and what was stated years later is not said of it.
fn carry_on(practices: &mut [Practice]) {
    for part in 0..3 {
        let mut known = None;
        for p in practices.iter_mut() {
            if p[part].is_some() {
                known.clone_from(&p[part]);
            } else {
                p[part].clone_from(&known);
            }
        }
    }
}

fn one(
    (of, analyte, fraction): Key,
    results: &[&Listed],
    dates: &Dates,
    taken_out: &HashSet<String>,
    units: &HashMap<(&str, &str), Unit>,
) -> Option<Series> {
    let unit = units.get(&(analyte.as_str(), fraction.as_str()))?.clone();
    let mut left_out = LeftOut::default();
    let chosen = chosen_isotopes(results);
    let mut found: Vec<(Date, Reading, &Listed)> = Vec::new();
    for r in results {
        // In this order, so that a result is counted for one reason alone: out first, whatever else it lacks.
        if taken_out.contains(&r.bottle) {
            left_out.taken_out += 1;
        } else if chosen.get(r.bottle.as_str()).is_some_and(|row| *row != r.row) {
            left_out.other_isotope += 1;
        } else if let Some(date) = dates.0.get(&r.bottle) {
            found.extend(reading(r, &unit, &mut left_out).map(|reading| (*date, reading, *r)));
        } else {
            left_out.no_date += 1;
        }
    }
    found.sort_by(|a, b| a.0.cmp(&b.0).then_with(|| a.2.bottle.cmp(&b.2.bottle)));
    // After the order of time: a row that states no practice has that of the row before.
    let mut practices: Vec<Practice> = found.iter().map(|(.., r)| practice(r)).collect();
    carry_on(&mut practices);
    let rows = found
        .into_iter()
        .zip(practices)
        .map(|((date, reading, r), practice)| Point {
            observation: Observation {
                time_years: rows::decimal_year(date),
                reading,
                method: practice.into_iter().flatten().collect::<Vec<_>>().join(", "),
            },
            date,
            row: r.row,
            bottle: r.bottle.clone(),
            verdict: r.verdict,
            expanded: expanded(r, &unit),
        })
        .collect();
    Some(Series { of, analyte, fraction, unit, rows, left_out })
}

/// The expanded uncertainty of a measured value in a unit.
fn expanded(r: &Listed, unit: &Unit) -> Option<f64> {
    let amount = r.amount.as_ref()?.convert(unit, None, None).ok()?;
    Some(r.coverage_k.unwrap_or(2.0) * amount.u()?).filter(|u| u.is_finite())
}

/// For bottles with several isotopes of the analyte: the row of the one that the series has most
/// often, of equals the first by name.
fn chosen_isotopes<'a>(results: &[&'a Listed]) -> HashMap<&'a str, i64> {
    let mut often: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for r in results {
        *often.entry((&r.isotopes, &r.resolution)).or_default() += 1;
    }
    let rank = |r: &Listed| {
        let key = (r.isotopes.as_str(), r.resolution.as_str());
        (std::cmp::Reverse(often[&key]), r.isotopes.clone(), r.resolution.clone())
    };
    let mut best: HashMap<&str, &Listed> = HashMap::new();
    for r in results {
        let e = best.entry(&r.bottle).or_insert(r);
        if rank(r) < rank(e) {
            *e = r;
        }
    }
    best.into_iter().map(|(bottle, r)| (bottle, r.row)).collect()
}
