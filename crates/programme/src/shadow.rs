//! The numbers that a person reported before, beside those that this programme derives: a run in the shadow. Nothing is
//! kept and nothing changes.
//!
//! In: a sheet with a row a value (a bottle, or a well and a day; analyte, value, unit; u, fraction, isotopes where they
//! are known). Out: each row with the number of today, and where the two differ by more than the digits of the reported
//! one, every single step of the derivation that explains the difference: the run is reduced again with that step left
//! out or taken otherwise, and what comes out is held against the reported number. Where none does, two things at once are
//! tried (a step, and the blank not taken off). Where that does not do either, no step of this case explains it, and that
//! is said. A step that explains a difference need not be what happened: with two digits several may.
//! Checked in `tests/shadow.rs`.

use crate::shadow_sheet::{Of, Reported, Said, Sheet};
use assessment::derive::{self, Prepared};
use assessment::results::{Listed, Lists};
use measurement::run::{self, Factor, ReducedRun, RunResult};
use measurement::run::{BlankScale, Drift, Recipe, Recovery};
use quantity::{Amount, Unit};
use record::error::Error;
use record::identity::ResultId;
use record::model::ResultRow;
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// What may explain a difference.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "cause", rename_all = "kebab-case")]
pub enum Cause {
    /// The blank was not taken off.
    BlankNotTaken,
    /// The blank was taken off twice.
    BlankTwice,
    /// A step of the reduction was left out or taken otherwise.
    Step {
        /// Which.
        step: String,
        /// And the blank was not taken off either.
        and_blank_not_taken: bool,
    },
    /// The unit: the same digits by a factor.
    Unit {
        /// Reported over derived.
        factor: f64,
    },
    /// The basis that a compound is reckoned by.
    Basis {
        /// As NO3 in place of N.
        basis: String,
    },
    /// The mean of bottles of one water.
    MeanOfBottles {
        /// Their labels.
        bottles: Vec<String>,
    },
    /// One bottle, where several give the value of the water.
    OneBottle {
        /// Its label.
        bottle: String,
    },
    /// The net value, where the number of today is a bound.
    NetValue,
    /// What an earlier revision of the result said.
    EarlierRevision {
        /// Which.
        revision: i64,
    },
}

impl Cause {
    /// In plain English.
    pub fn in_words(&self) -> String {
        match self {
            Self::BlankNotTaken => "the blank was not taken off".into(),
            Self::BlankTwice => "the blank was taken off twice".into(),
            Self::Step { step, and_blank_not_taken: false } => step.clone(),
            Self::Step { step, .. } => format!("{step}, and the blank was not taken off"),
            Self::Unit { factor } => format!("unit: the same digits, by a factor of {factor}"),
            Self::Basis { basis } => format!("basis: reckoned {basis}"),
            Self::MeanOfBottles { bottles } => format!("the mean of {}", bottles.join(", ")),
            Self::OneBottle { bottle } => format!("bottle {bottle} alone"),
            Self::NetValue => "the net value, where nothing was detected or a bound is told".into(),
            Self::EarlierRevision { revision } => format!("what revision {revision} of this result said"),
        }
    }
}

/// How a reported value stands to the one of today.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Stand {
    /// They differ by more than the reported digits.
    Differs,
    /// The record has no such result.
    NotOnRecord,
    /// Both are there and cannot be held against each other.
    CannotCompare,
    /// Bounds that contradict nothing.
    Consistent,
    /// The same to the digits that were reported.
    Same,
}

impl Stand {
    /// In plain English.
    pub fn word(self) -> &'static str {
        match self {
            Self::Differs => "differs",
            Self::NotOnRecord => "not on record",
            Self::CannotCompare => "cannot be compared",
            Self::Consistent => "no contradiction",
            Self::Same => "the same",
        }
    }
}

/// One row of the sheet beside the record.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Beside {
    /// Row of the sheet, from 1, the headings counted.
    pub row: usize,
    /// Bottle, or well and day.
    pub of: String,
    /// Analyte as the sheet has it.
    pub analyte: String,
    /// As the sheet has it, with its unit.
    pub reported: String,
    /// The result of today; of a well and day with several bottles none.
    pub result: Option<ResultId>,
    /// The number of today in the unit of the sheet.
    pub today: Option<Amount>,
    /// Reported less today, in the unit of the sheet.
    pub difference: Option<f64>,
    /// The same in percent of today.
    pub percent: Option<f64>,
    /// Whether the reported value lies within the 95 % interval of today's; none where there is no u.
    pub within_interval: Option<bool>,
    /// How they stand to each other.
    pub stand: Stand,
    /// What may explain a difference; empty where nothing does.
    pub causes: Vec<Cause>,
    /// Why they cannot be compared, what to bear in mind.
    pub note: Option<String>,
}

/// What the record holds of the bottles on the sheet, and the sheet does not.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Missing {
    /// The result.
    pub result: ResultId,
    /// What it says.
    pub amount: Option<Amount>,
}

/// A sheet beside the record.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Shadow {
    /// Rows of the sheet.
    pub rows: Vec<Beside>,
    /// Results of the sheet's bottles that the sheet does not have.
    pub missing: Vec<Missing>,
    /// Results of waters in bottles that the sheet does not name.
    pub of_other_bottles: usize,
}

/// Lays a sheet beside the record.
///
/// # Errors
/// The store cannot be read.
pub fn beside(store: &Store, sheet: &Sheet) -> Result<Shadow, Error> {
    let mut shadow = Reader { store, runs: HashMap::new(), vials: None, asked: HashMap::new() };
    let (mut rows, mut met): (Vec<Beside>, BTreeSet<i64>) = (vec![], BTreeSet::new());
    let mut bottles: BTreeSet<i64> = BTreeSet::new();
    for r in &sheet.rows {
        let found = shadow.found(r)?;
        bottles.extend(shadow.bottles(&r.of)?.iter().map(|f| f.0.bottle_id));
        met.extend(found.iter().map(|(row, _)| row.id));
        rows.push(shadow.one(r, &found)?);
    }
    let mut missing = vec![];
    let all: BTreeMap<i64, Listed> =
        shadow.asked.into_values().flatten().map(|(row, listed)| (row.id, listed)).collect();
    for (id, r) in all {
        if r.kind.is_water() && !met.contains(&id) {
            missing.push(Missing { result: r.result, amount: r.amount });
        }
    }
    let waters: BTreeSet<i64> =
        store.bottles(&Filter::all())?.into_iter().filter(|b| b.kind.is_water()).map(|b| b.id).collect();
    let mut of_other_bottles = 0;
    store.each(&Filter::all().latest(), |r: ResultRow| {
        of_other_bottles += usize::from(waters.contains(&r.bottle_id) && !bottles.contains(&r.bottle_id));
        Ok(())
    })?;
    Ok(Shadow { rows, missing, of_other_bottles })
}

type Found = (ResultRow, Listed);

/// The blank not taken off, among the steps of a mean.
const GROSS: &str = "gross";

/// A run with what comes of it when one step is taken otherwise.
struct Varied {
    plain: ReducedRun,
    others: Vec<(String, ReducedRun)>,
}

struct Reader<'s> {
    store: &'s Store,
    /// By run; none for one that cannot be reduced.
    runs: HashMap<i64, Option<Varied>>,
    /// Run and position of each vial.
    vials: Option<HashMap<i64, (i64, u32)>>,
    /// Results of what was asked for, by bottle, or well and day.
    asked: HashMap<String, Vec<Found>>,
}

impl Reader<'_> {
    /// Newest results of a bottle, or of the waters of a well on a day.
    fn bottles(&mut self, of: &Of) -> Result<&[Found], Error> {
        let key = of.to_string();
        if !self.asked.contains_key(&key) {
            let filter = Filter::all().latest();
            let rows = match of {
                Of::Bottle(label) => self.store.results(&filter.is("bottle.label", label.as_str()))?,
                Of::WellAndDay(well, day) => {
                    let here = self.store.bottles(&Filter::all().is("well.name", well.as_str()))?;
                    let on_day = here.iter().filter(|b| {
                        b.kind.is_water() && b.filled_at.as_deref().is_some_and(|at| at.starts_with(day.as_str()))
                    });
                    let mut rows = vec![];
                    for b in on_day {
                        rows.extend(self.store.results(&Filter::all().latest().is("bottle", b.id))?);
                    }
                    rows
                }
            };
            let lists = Lists::for_rows(self.store, &rows)?;
            let found = rows.into_iter().map(|r| (r.clone(), lists.listed(r))).collect();
            self.asked.insert(key.clone(), found);
        }
        Ok(&self.asked[&key])
    }

    /// The results that a row of the sheet speaks of.
    fn found(&mut self, r: &Reported) -> Result<Vec<Found>, Error> {
        let fits = |l: &Listed| {
            l.analyte == r.analyte
                && r.isotopes.as_ref().is_none_or(|i| *i == l.isotopes)
                && r.fraction.as_ref().is_none_or(|f| *f == l.fraction)
        };
        Ok(self.bottles(&r.of)?.iter().filter(|(_, l)| fits(l)).cloned().collect())
    }

    fn one(&mut self, r: &Reported, found: &[Found]) -> Result<Beside, Error> {
        let mut out = Beside {
            row: r.row,
            of: r.of.to_string(),
            analyte: r.analyte.clone(),
            reported: format!("{} {}", r.text, r.unit),
            result: None,
            today: None,
            difference: None,
            percent: None,
            within_interval: None,
            stand: Stand::NotOnRecord,
            causes: vec![],
            note: None,
        };
        // Of one water and one measurand several bottles; several measurands cannot be told apart.
        let measurands: BTreeSet<(&str, &str, &str)> =
            found.iter().map(|(_, l)| (l.isotopes.as_str(), l.resolution.as_str(), l.fraction.as_str())).collect();
        match (found, measurands.len()) {
            ([], _) => return Ok(out),
            (_, 1) => {}
            _ => {
                let names: Vec<String> = measurands.iter().map(|(i, _, f)| format!("{i} {f}").trim().into()).collect();
                out.stand = Stand::CannotCompare;
                out.note = Some(format!(
                    "several are on record: {}; a column isotopes or fraction says which",
                    names.join(", ")
                ));
                return Ok(out);
            }
        }
        match found {
            [one] => self.of_one(r, one, &mut out)?,
            several => self.of_several(r, several, &mut out)?,
        }
        Ok(out)
    }

    fn of_one(&mut self, r: &Reported, found: &Found, out: &mut Beside) -> Result<(), Error> {
        let (row, listed) = found;
        out.result = Some(listed.result.clone());
        let Some(unit) = Unit::parse(&row.unit).ok() else {
            out.stand = Stand::CannotCompare;
            out.note = Some(format!("the record's unit \"{}\" cannot be read", row.unit));
            return Ok(());
        };
        let Ok(conversion) = unit.conversion(&r.unit, None, None) else {
            out.stand = Stand::CannotCompare;
            out.note = Some(format!("{unit} on record and {} on the sheet are not joined by a factor", r.unit));
            return Ok(());
        };
        out.today = listed.amount.as_ref().and_then(|a| a.convert(&r.unit, None, None).ok());
        let net = listed.net.as_ref().and_then(Amount::value).or(row.value).map(|v| conversion.apply(v));
        let k = listed.coverage_k;
        if !compare(r, net, k, out) {
            return Ok(());
        }
        let Said::Value(value, half) = r.said else { return Ok(()) };
        let Some(today) = net else { return Ok(()) };
        if listed.amount.as_ref().and_then(Amount::value).is_none() && (value - today).abs() <= half {
            out.causes.push(Cause::NetValue);
            return Ok(());
        }
        out.causes = self.causes(r, found, today, &conversion)?;
        Ok(())
    }

    /// Steps and other things that bring the number of today to the reported one.
    fn causes(
        &mut self,
        r: &Reported,
        (row, listed): &Found,
        today: f64,
        to: &quantity::unit::Conversion,
    ) -> Result<Vec<Cause>, Error> {
        let Said::Value(value, half) = r.said else { return Ok(vec![]) };
        // What changes less than the digits show explains nothing.
        let explains = |x: f64| (x - value).abs() <= half && (x - today).abs() > half;
        let number = |a: &Option<Amount>| a.as_ref().and_then(Amount::value).map(|v| to.apply(v));
        let mut out = vec![];
        if number(&listed.gross).is_some_and(explains) {
            out.push(Cause::BlankNotTaken);
        }
        if number(&listed.blank).is_some_and(|b| explains(today - b)) {
            out.push(Cause::BlankTwice);
        }
        let (mut single, mut both) = (vec![], vec![]);
        if let Some((varied, position)) = self.varied(row)? {
            let of = |run: &ReducedRun| -> Vec<RunResult> {
                let same = |x: &&RunResult| x.position == position && x.analyte.element == listed.analyte;
                run.results.iter().filter(same).cloned().collect()
            };
            for (step, run) in &varied.others {
                for x in of(run) {
                    let other = x.analyte.isotopes != listed.isotopes || x.analyte.resolution != listed.resolution;
                    let step = if other { format!("{} alone", x.analyte) } else { step.clone() };
                    if explains(to.apply(x.net.value)) {
                        single.push(Cause::Step { step, and_blank_not_taken: false });
                    } else if explains(to.apply(x.gross.value)) {
                        both.push(Cause::Step { step, and_blank_not_taken: true });
                    }
                }
            }
            for x in of(&varied.plain) {
                let own = x.analyte.isotopes == listed.isotopes && x.analyte.resolution == listed.resolution;
                if own && x.net_before_recovery.as_ref().is_some_and(|n| explains(to.apply(n.value))) {
                    let step = "the recovery was not divided out".into();
                    single.push(Cause::Step { step, and_blank_not_taken: false });
                }
            }
        }
        out.extend(single);
        out.extend(units(r, today, value, half));
        for old in self.store.results(&Filter::all().is("bottle", row.bottle_id).is("measurand", row.measurand_id))? {
            if old.revision < row.revision && old.value.is_some_and(|v| explains(to.apply(v))) {
                out.push(Cause::EarlierRevision { revision: old.revision });
            }
        }
        out.extend(self.mean_of_its_water(listed, value, half, to)?);
        if out.is_empty() {
            out = both;
        }
        // Two steps of the same words (isotopes of one run under several variants) are told once.
        let mut told: Vec<Cause> = vec![];
        for cause in out {
            if !told.contains(&cause) {
                told.push(cause);
            }
        }
        Ok(told)
    }

    /// The mean of the bottles of the same water, which a person may have reported under the label of one.
    fn mean_of_its_water(
        &mut self,
        listed: &Listed,
        value: f64,
        half: f64,
        to: &quantity::unit::Conversion,
    ) -> Result<Option<Cause>, Error> {
        let (Some(well), Some(at)) = (&listed.well, listed.filled_at.as_ref().and_then(|at| at.get(..10))) else {
            return Ok(None);
        };
        let of = Of::WellAndDay(well.clone(), at.to_string());
        let same = |l: &Listed| {
            (&l.analyte, &l.isotopes, &l.resolution, &l.fraction)
                == (&listed.analyte, &listed.isotopes, &listed.resolution, &listed.fraction)
        };
        // Asked of the record, not of the sheet: it adds nothing to what the sheet names.
        let known = self.asked.contains_key(&of.to_string());
        let here: Vec<(String, f64)> = self
            .bottles(&of)?
            .iter()
            .filter(|(_, l)| same(l))
            .filter_map(|(row, l)| Some((l.bottle.clone(), to.apply(row.value?))))
            .collect();
        if !known {
            self.asked.remove(&of.to_string());
        }
        if here.len() < 2 {
            return Ok(None);
        }
        let mean = here.iter().map(|h| h.1).sum::<f64>() / here.len() as f64;
        let bottles = here.into_iter().map(|h| h.0).collect();
        Ok(((mean - value).abs() <= half).then_some(Cause::MeanOfBottles { bottles }))
    }

    /// A water of several bottles: what they say together is held against the sheet.
    fn of_several(&mut self, r: &Reported, found: &[Found], out: &mut Beside) -> Result<(), Error> {
        let number = |(row, l): &Found| {
            let unit = Unit::parse(&row.unit).ok()?;
            let to = unit.conversion(&r.unit, None, None).ok()?;
            l.net.as_ref().and_then(Amount::value).or(row.value).map(|v| (l.bottle.clone(), to.apply(v)))
        };
        let numbers: Vec<(String, f64)> = found.iter().filter_map(number).collect();
        if numbers.len() < found.len() {
            out.stand = Stand::CannotCompare;
            out.note =
                Some("some of its bottles have a limit in place of a value, or a unit that no factor joins".into());
            return Ok(());
        }
        let mean = numbers.iter().map(|n| n.1).sum::<f64>() / numbers.len() as f64;
        let labels: Vec<String> = numbers.iter().map(|n| n.0.clone()).collect();
        out.note = Some(format!("today: the plain mean of {}", labels.join(", ")));
        out.today = Some(Amount::stated(mean, r.unit.clone()));
        if !compare(r, Some(mean), None, out) {
            return Ok(());
        }
        let Said::Value(value, half) = r.said else { return Ok(()) };
        for (bottle, x) in numbers {
            if (x - value).abs() <= half {
                out.causes.push(Cause::OneBottle { bottle });
            }
        }
        if out.causes.is_empty() {
            out.causes = units(r, mean, value, half);
        }
        // What explains every single bottle's difference by one step explains that of their mean.
        if out.causes.is_empty() {
            out.causes = self.steps_of_mean(r, found, mean)?;
        }
        Ok(())
    }

    fn steps_of_mean(&mut self, r: &Reported, found: &[Found], mean: f64) -> Result<Vec<Cause>, Error> {
        let Said::Value(value, half) = r.said else { return Ok(vec![]) };
        let mut sums: BTreeMap<String, (f64, usize)> = BTreeMap::new();
        let mut add = |step: &str, x: f64| {
            let at = sums.entry(step.to_string()).or_insert((0.0, 0));
            *at = (at.0 + x, at.1 + 1);
        };
        for (row, listed) in found {
            let Some(to) = Unit::parse(&row.unit).ok().and_then(|u| u.conversion(&r.unit, None, None).ok()) else {
                return Ok(vec![]);
            };
            if let Some(gross) = listed.gross.as_ref().and_then(Amount::value) {
                add(GROSS, to.apply(gross));
            }
            let Some((varied, position)) = self.varied(row)? else { continue };
            for (step, run) in &varied.others {
                let own = |x: &&RunResult| {
                    x.position == position
                        && (&x.analyte.element, &x.analyte.isotopes) == (&listed.analyte, &listed.isotopes)
                        && x.analyte.resolution == listed.resolution
                };
                if let Some(x) = run.results.iter().find(own) {
                    add(step, to.apply(x.net.value));
                }
            }
        }
        let all = found.len();
        let explains = |x: f64| (x - value).abs() <= half && (x - mean).abs() > half;
        let fits = sums.into_iter().filter(|(_, (sum, n))| *n == all && explains(sum / all as f64));
        Ok(fits
            .map(|(step, _)| match step.as_str() {
                GROSS => Cause::BlankNotTaken,
                _ => Cause::Step { step, and_blank_not_taken: false },
            })
            .collect())
    }

    /// The run of a derived result with its variants, and the position of the vial; none for what a laboratory reported.
    fn varied(&mut self, row: &ResultRow) -> Result<Option<(&Varied, u32)>, Error> {
        let Some(vial) = row.vial_id else { return Ok(None) };
        if self.vials.is_none() {
            let mut all = HashMap::new();
            for run in self.store.runs()? {
                for v in self.store.vials(run.id)? {
                    all.insert(v.id, (run.id, u32::try_from(v.position).unwrap_or(0)));
                }
            }
            self.vials = Some(all);
        }
        let Some((run, position)) = self.vials.as_ref().and_then(|v| v.get(&vial)).copied() else { return Ok(None) };
        if !self.runs.contains_key(&run) {
            let row = self.store.runs()?.into_iter().find(|r| r.id == run);
            let prepared = row.map(|r| derive::prepare(self.store, r)).transpose();
            let varied = match prepared {
                Err(e @ Error::Store(_)) => return Err(e),
                Ok(Some(prepared)) => vary(&prepared),
                Ok(None) | Err(_) => None,
            };
            self.runs.insert(run, varied);
        }
        Ok(self.runs[&run].as_ref().map(|v| (v, position)))
    }
}

/// Compares; answers whether a difference is to be explained.
fn compare(r: &Reported, today: Option<f64>, k: Option<f64>, out: &mut Beside) -> bool {
    let bound = match &out.today {
        Some(Amount::Below(b)) => Some(b.limit),
        _ => None,
    };
    match (r.said, today, bound) {
        (Said::Value(value, half), Some(today), bound) => {
            out.difference = Some(value - today);
            out.percent = (today.abs() > 0.0).then(|| 100.0 * (value - today) / today.abs());
            if let (Some(Amount::Measured(m)), Some(k)) = (&out.today, k) {
                out.within_interval = Some((value - m.value).abs() <= k * m.u);
            }
            let same = (value - today).abs() <= half && bound.is_none();
            out.stand = if same { Stand::Same } else { Stand::Differs };
            !same
        }
        (Said::Value(value, half), None, Some(limit)) => {
            out.stand = if value <= limit + half { Stand::Consistent } else { Stand::Differs };
            out.note = Some("today a limit stands where a value was reported".into());
            false
        }
        (Said::Below(Some(reported)), _, Some(limit)) => {
            let same = (reported - limit).abs() <= 1e-9 * limit.abs();
            out.stand = if same { Stand::Same } else { Stand::Consistent };
            false
        }
        (Said::Below(Some(reported)), Some(today), None) => {
            out.stand = if today <= reported { Stand::Consistent } else { Stand::Differs };
            out.note = Some("a limit was reported where a value stands today".into());
            false
        }
        (Said::Above(reported), Some(today), _) => {
            out.stand = if today >= reported { Stand::Consistent } else { Stand::Differs };
            false
        }
        (Said::Below(None), _, Some(_)) => {
            out.stand = Stand::Consistent;
            false
        }
        (Said::Nothing, ..) => {
            out.stand = Stand::CannotCompare;
            out.note = Some("the sheet has no value".into());
            false
        }
        _ => {
            out.stand = Stand::CannotCompare;
            out.note = Some("one of the two says no number".into());
            false
        }
    }
}

/// Steps of units between which a slip happens: ng, µg, mg, g.
const STEPS_OF_UNITS: [f64; 6] = [1e-9, 1e-6, 1e-3, 1e3, 1e6, 1e9];

/// Compounds that are reckoned by two bases, and their quotient.
// Standard atomic weights, IUPAC 2021, abridged: N 14.007, O 15.999, H 1.008, P 30.974, S 32.06.
const BASES: [(&str, &str, f64); 5] = [
    ("NO3", "as NO3 in place of N, or the other way round", 62.004 / 14.007),
    ("NO2", "as NO2 in place of N, or the other way round", 46.005 / 14.007),
    ("NH4", "as NH4 in place of N, or the other way round", 18.039 / 14.007),
    ("PO4", "as PO4 in place of P, or the other way round", 94.970 / 30.974),
    ("SO4", "as SO4 in place of S, or the other way round", 96.056 / 32.06),
];

fn units(r: &Reported, today: f64, value: f64, half: f64) -> Vec<Cause> {
    let fits = |factor: f64| (today * factor - value).abs() <= half && today.abs() > 0.0 && value.abs() > half;
    let mut out: Vec<Cause> =
        STEPS_OF_UNITS.into_iter().filter(|f| fits(*f)).map(|factor| Cause::Unit { factor }).collect();
    let of_basis = |(analyte, basis, factor): &(&str, &str, f64)| {
        (r.analyte == *analyte && (fits(*factor) || fits(1.0 / factor)))
            .then(|| Cause::Basis { basis: (*basis).to_string() })
    };
    out.extend(BASES.iter().filter_map(of_basis));
    out
}

/// The run as it is, and with one step taken otherwise each. A variant that cannot be reduced explains nothing.
fn vary(prepared: &Prepared) -> Option<Varied> {
    let plain = derive::reduce(prepared).ok()?;
    let recipe = &prepared.recipe;
    let mut others: Vec<(String, ReducedRun)> = vec![];
    let mut try_with = |words: &str, recipe: &Recipe| {
        if let Ok(run) = run::reduce(&prepared.input, recipe) {
            others.push((words.to_string(), run));
        }
    };
    let with = |change: &dyn Fn(&mut Recipe)| {
        let mut recipe = recipe.clone();
        change(&mut recipe);
        recipe
    };
    if recipe.dead_time.ns > 0.0 {
        try_with("dead time was not corrected", &with(&|r| (r.dead_time.ns, r.dead_time.u_ns) = (0.0, 0.0)));
    }
    if !recipe.dark_rates.is_empty() || !recipe.gas_background.is_empty() {
        try_with(
            "the detector's background was not taken off",
            &with(&|r| {
                r.dark_rates.clear();
                r.gas_background.clear();
            }),
        );
    }
    if !recipe.internal_standards.isotopes.is_empty() {
        try_with("no internal standard was used", &with(&|r| r.internal_standards.isotopes.clear()));
    }
    if recipe.drift != Drift::None {
        try_with("drift was not corrected", &with(&|r| r.drift = Drift::None));
    }
    if recipe.drift == Drift::None {
        try_with("drift was corrected between checks", &with(&|r| r.drift = Drift::Bracket));
    }
    if !recipe.interferences.is_empty() || recipe.published_equations.is_some() {
        try_with(
            "overlaps were not taken off",
            &with(&|r| {
                r.interferences.clear();
                r.published_equations = None;
            }),
        );
    }
    if recipe.recovery == Recovery::NotApplied {
        try_with(
            "divided by the recovery of the field spikes, which this recipe does not",
            &with(&|r| r.recovery = Recovery::FieldSpikes),
        );
        try_with(
            "divided by the recovery of the laboratory's spikes, which this recipe does not",
            &with(&|r| r.recovery = Recovery::LabSpikes),
        );
    } else {
        try_with("the recovery was not divided out", &with(&|r| r.recovery = Recovery::NotApplied));
    }
    match recipe.blank.scale {
        BlankScale::MassPerBottle => try_with(
            "the blank was taken as a concentration, whatever the volume of the bottle",
            &with(&|r| r.blank.scale = BlankScale::Concentration),
        ),
        BlankScale::Concentration => {
            try_with("the blank was taken as a mass per bottle", &with(&|r| r.blank.scale = BlankScale::MassPerBottle));
        }
    }
    // Sums apart: each isotope by itself.
    if !recipe.sums.is_empty() {
        try_with("one isotope alone", &with(&|r| r.sums.clear()));
    }
    let diluted = |v: &run::Vial| (v.dilution.value - 1.0).abs() > 1e-9;
    if prepared.input.vials.iter().any(diluted) {
        let mut input = prepared.input.clone();
        input.vials.iter_mut().for_each(|v| v.dilution = Factor::ONE);
        if let Ok(run) = run::reduce(&input, recipe) {
            others.push(("the dilution was not reckoned".into(), run));
        }
    }
    Some(Varied { plain, others })
}
