//! Every blank over the years: by lot, person, acid, cabinet. Do they rise, do a beginner's match the team's, and does
//! the metal that some bottles have too much of look like galvanised pipe, steel or gloves?
//!
//! In: results of blanks on record (pg per bottle with u, before any blank was taken off), signatures. Out: the
//! blanks as points in time, and findings. A blank that the laboratory censored, that is no number or that has no date is counted, not
//! shown as a number; one of exactly zero is a number like any other, with its u. Training blanks are blanks of the set "training"; the team's are the blanks of the same kind by
//! everybody else. Signatures are the programme's own (`signature`) and those that come with the program
//! (`reference/signatures.csv`), each with where it comes from; their amounts count as known to a third. The science is
//! [`cleanliness::patterns`]. Checked in `crates/programme/tests/forecast_and_plan.rs`.

use crate::attribution::{Sort, TripAnalyte};
use crate::derive::Excluded;
use crate::lots;
use crate::results::Listed;
use crate::series_of::Dates;
use cleanliness::patterns::{self, Excess, Explained, Signature};
use message::{Message, Sentence, bottle as said, verdict};
use quantity::{Check, Finding, Outcome};
use record::error::Error;
use record::model::{Bottle, BottleKind, TRAINING};
use record::store::{Filter, Store};
use statistics::sample::mean_sd;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// A blank.
#[derive(Debug, Clone, PartialEq)]
pub struct BlankPoint {
    /// Label.
    pub bottle: String,
    /// Field blank, trip blank …
    pub kind: String,
    /// Element.
    pub analyte: String,
    /// Isotopes and resolution: one channel.
    pub channel: String,
    /// Decimal year.
    pub year: f64,
    /// pg in the bottle.
    pub pg: f64,
    /// Its standard uncertainty.
    pub u_pg: Option<f64>,
    /// Lot.
    pub lot: Option<String>,
    /// Who filled it.
    pub person: Option<String>,
    /// Acid lot.
    pub acid: Option<String>,
    /// Cabinet.
    pub cabinet: Option<String>,
    /// A blank taken for practice.
    pub training: bool,
    /// Taken out by a person.
    pub excluded: bool,
}

/// Blanks of the record.
#[derive(Debug, Clone, Default)]
pub struct Blanks {
    /// In order of time, then label.
    pub points: Vec<BlankPoint>,
    /// Not shown: censored, no volume, no date.
    pub left_out: usize,
}

/// Collects them.
///
/// # Errors
/// The store cannot be read.
pub fn of(store: &Store, listed: &[Listed]) -> Result<Blanks, Error> {
    let bottles: HashMap<String, Bottle> =
        store.bottles(&Filter::all())?.into_iter().map(|b| (b.label.clone(), b)).collect();
    let (dates, excluded) = (Dates::of(store)?, Excluded::read(store)?);
    let mut out = Blanks::default();
    for r in listed {
        let Some(b) = bottles.get(&r.bottle).filter(|b| b.kind.is_blank()) else { continue };
        let measured = lots::measured_pg(r, b).filter(|(pg, _)| pg.is_finite());
        let (Some((pg, u_pg)), Some(date)) = (measured, dates.of_bottle(&b.label)) else {
            out.left_out += 1;
            continue;
        };
        out.points.push(BlankPoint {
            bottle: b.label.clone(),
            kind: b.kind.word().replace('-', " "),
            analyte: r.analyte.clone(),
            channel: format!("{}@{}", r.isotopes, r.resolution),
            year: series::rows::decimal_year(date),
            pg,
            u_pg: u_pg.filter(|u| *u > 0.0 && u.is_finite()),
            lot: b.lot.clone(),
            person: b.sampler.clone(),
            acid: b.acid.clone(),
            cabinet: b.cabinet.clone(),
            training: b.set_name.as_deref() == Some(TRAINING),
            excluded: excluded.bottle(b.id).is_some(),
        });
    }
    out.points.sort_by(|a, b| a.year.total_cmp(&b.year).then_with(|| a.bottle.cmp(&b.bottle)));
    Ok(out)
}

/// Kind, analyte, channel.
type Key<'a> = (&'a str, &'a str, &'a str);

impl Blanks {
    fn used(&self) -> impl Iterator<Item = &BlankPoint> {
        self.points.iter().filter(|p| !p.excluded)
    }

    fn groups(&self) -> BTreeMap<Key<'_>, Vec<&BlankPoint>> {
        let mut out: BTreeMap<Key, Vec<&BlankPoint>> = BTreeMap::new();
        for p in self.used() {
            out.entry((&p.kind, &p.analyte, &p.channel)).or_default().push(p);
        }
        out
    }

    /// Does a kind of blank rise with the years? A finding for each kind and analyte with three dates or more.
    pub fn rising(&self) -> Vec<(String, Finding)> {
        let mut out = vec![];
        for ((kind, analyte, _), points) in self.groups() {
            let plain: Vec<cleanliness::lines::Point> =
                points.iter().filter(|p| !p.training).filter_map(|p| Some((p.year, p.pg, p.u_pg?))).collect();
            let dates: BTreeSet<u64> = plain.iter().map(|p| p.0.to_bits()).collect();
            if dates.len() > 2 {
                let found = patterns::rising_blanks(kind, analyte, &plain);
                out.extend(found.ok().map(|f| (analyte.to_string(), f)));
            }
        }
        out
    }

    /// Training blanks of each person against those of the others; what is too few is said.
    pub fn training(&self) -> Vec<Finding> {
        let mut out = vec![];
        for ((kind, analyte, _), points) in self.groups() {
            let beginners: BTreeSet<&str> =
                points.iter().filter(|p| p.training).filter_map(|p| p.person.as_deref()).collect();
            for person in beginners {
                let pg = |own: bool| -> Vec<f64> {
                    // A person's other blanks are on neither side: nobody is held against themselves.
                    let of = |p: &&&BlankPoint| {
                        if own {
                            p.training && p.person.as_deref() == Some(person)
                        } else {
                            p.person.as_deref() != Some(person) && !p.training
                        }
                    };
                    points.iter().filter(of).map(|p| p.pg).collect()
                };
                let found = patterns::training(person, &pg(true), &pg(false));
                out.push(match found {
                    Ok(mut f) => {
                        let (of, blanks) = (analyte.into(), blanks_of(kind));
                        let text = |text: &str| format!("{analyte}, {kind}s: {text}");
                        crate::say::more(&mut f, |finding| verdict::Training { analyte: of, blanks, finding }, text);
                        f
                    }
                    Err(e) => {
                        let (analyte, person) = (analyte.into(), person.into());
                        let says =
                            said::TrainingNotJudged { analyte, blanks: blanks_of(kind), person, why: e.message() };
                        Finding::new(Check::BottleTrainingBlanks, Outcome::NotKnown, says)
                    }
                });
            }
        }
        out
    }
}

fn blanks_of(kind: &str) -> Message {
    match kind {
        "field blank" => verdict::FieldBlanks.into(),
        "trip blank" => verdict::TripBlanks.into(),
        "equipment blank" => verdict::EquipmentBlanks.into(),
        "bottle blank" => verdict::BottleBlanks.into(),
        other => verdict::OtherBlanks { kind: other.into() }.into(),
    }
}

/// Whose metals a pattern is of.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PatternOf {
    /// A blank above the others of its kind.
    Blank {
        /// Its label.
        bottle: String,
    },
    /// A pipe by its flow series.
    Pipe {
        /// The well.
        well: String,
        /// The trip.
        trip: String,
    },
}

/// A pattern of metals laid beside the signatures.
#[derive(Debug, Clone)]
pub struct Pattern {
    /// Of what.
    pub of: PatternOf,
    /// The excess.
    pub excess: Vec<Excess>,
    /// Unit of the excess.
    pub unit: &'static str,
    /// What explains it, or what was refused.
    pub explained: Result<Explained, Sentence>,
}

/// Relative u of an amount in a signature: our own choice; metal does not dissolve in the proportion of the alloy.
const SIGNATURE_U: f64 = 1.0 / 3.0;

/// The signatures of the programme and those that come with the program; a name of the programme's own replaces one.
///
/// # Errors
/// The store cannot be read.
pub fn signatures(store: &Store) -> Result<Vec<Signature>, Error> {
    let mut own: Vec<Signature> = vec![];
    let add = |list: &mut Vec<Signature>, name: &str, analyte: &str, amount: f64, source: &str| match list
        .iter_mut()
        .find(|s| s.name == name)
    {
        Some(s) => s.amounts.push((analyte.into(), amount)),
        None => {
            list.push(Signature { name: name.into(), amounts: vec![(analyte.into(), amount)], source: source.into() });
        }
    };
    for r in store.signatures()? {
        add(&mut own, &r.name, &r.analyte, r.amount, &r.source);
    }
    let mut shipped = vec![];
    let text = include_str!("../../../reference/signatures.csv");
    for line in text.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.splitn(4, ',').collect();
        let amount = cells[2].parse().expect("the table's amount is a number");
        add(&mut shipped, cells[0], cells[1], amount, cells[3].trim_matches('"'));
    }
    shipped.retain(|s| !own.iter().any(|o| o.name == s.name));
    own.extend(shipped);
    Ok(own)
}

/// Patterns of the record: blanks that a person took out or that hold more than three times the others' mean, and
/// pipes by their flow series.
pub fn patterns_of(blanks: &Blanks, fits: &[TripAnalyte], signatures: &[Signature]) -> Vec<Pattern> {
    let known: BTreeSet<&str> = signatures.iter().flat_map(|s| s.amounts.iter().map(|a| a.0.as_str())).collect();
    let mut out = blanks_apart(blanks, &known);
    out.extend(pipes(fits, &known));
    out.into_iter()
        .filter(|(_, _, excess)| excess.len() > 1)
        .map(|(of, unit, excess)| {
            let explained = fewest(&widened(&excess), signatures).map_err(|e| e.message().into());
            Pattern { of, excess, unit, explained }
        })
        .collect()
}

/// The fewest signatures that fit, of one or two: more would fit anything. Where none do, the best of the pairs.
fn fewest(excess: &[Excess], signatures: &[Signature]) -> Result<Explained, cleanliness::Error> {
    let mut best: Option<Explained> = None;
    for size in 1..=2.min(signatures.len()) {
        for i in 0..signatures.len() {
            let others = if size == 1 { i..i + 1 } else { i + 1..signatures.len() };
            for j in others {
                let chosen: Vec<Signature> = if size == 1 {
                    vec![signatures[i].clone()]
                } else {
                    vec![signatures[i].clone(), signatures[j].clone()]
                };
                let e = patterns::explain(excess, &chosen)?;
                if best.as_ref().is_none_or(|b| e.p > b.p) {
                    best = Some(e);
                }
            }
        }
        if best.as_ref().is_some_and(|b| b.p >= 0.05) {
            break;
        }
    }
    best.map_or_else(|| patterns::explain(excess, signatures), Ok)
}

/// The amounts of a signature are known to a third: that doubt goes to the excess.
fn widened(excess: &[Excess]) -> Vec<Excess> {
    excess.iter().map(|e| Excess { u: (e.u * e.u + (SIGNATURE_U * e.value).powi(2)).sqrt(), ..e.clone() }).collect()
}

type Apart = (PatternOf, &'static str, Vec<Excess>);

fn blanks_apart(blanks: &Blanks, known: &BTreeSet<&str>) -> Vec<Apart> {
    let mut by_bottle: BTreeMap<&str, Vec<Excess>> = BTreeMap::new();
    for p in blanks.points.iter().filter(|p| known.contains(p.analyte.as_str())) {
        let others: Vec<f64> = blanks
            .used()
            .filter(|o| (&o.kind, &o.analyte, &o.channel) == (&p.kind, &p.analyte, &p.channel) && o.bottle != p.bottle)
            .map(|o| o.pg)
            .collect();
        let n = others.len() as f64;
        let Some((mean, sd)) = mean_sd(&others).filter(|_| n >= 3.0) else { continue };
        let u = (sd * sd * (1.0 + 1.0 / n) + p.u_pg.unwrap_or(0.0).powi(2)).sqrt();
        let stands_out = p.excluded || (p.pg > 3.0 * mean && p.pg > mean + 3.0 * u);
        if u > 0.0 && stands_out {
            let list = by_bottle.entry(p.bottle.as_str()).or_default();
            if !list.iter().any(|e| e.metal == p.analyte) {
                list.push(Excess { metal: p.analyte.clone(), value: p.pg - mean, u });
            }
        }
    }
    by_bottle.into_iter().map(|(b, e)| (PatternOf::Blank { bottle: b.into() }, "pg", e)).collect()
}

fn pipes(fits: &[TripAnalyte], known: &BTreeSet<&str>) -> Vec<Apart> {
    let mut by_well: BTreeMap<PatternOf, Vec<Excess>> = BTreeMap::new();
    for t in fits.iter().filter(|t| known.contains(t.analyte.element.as_str())) {
        for w in &t.waters {
            let line = w.series.iter().find(|s| s.sort == Sort::Flows).and_then(|s| s.line.as_ref());
            let Some(line) = line.filter(|l| l.is_a_line()) else { continue };
            let pipe = PatternOf::Pipe { well: w.well.clone(), trip: t.trip.clone() };
            let list = by_well.entry(pipe).or_default();
            if !list.iter().any(|e| e.metal == t.analyte.element) {
                list.push(Excess { metal: t.analyte.element.clone(), value: line.slope, u: line.u_slope });
            }
        }
    }
    by_well.into_iter().map(|(of, e)| (of, "ng/min", e)).collect()
}

impl Pattern {
    /// The finding: told, never a verdict.
    pub fn finding(&self) -> Finding {
        let (outcome, says): (_, Message) = match (&self.of, &self.explained) {
            (PatternOf::Blank { bottle }, Ok(e)) => {
                (Outcome::Met, said::PatternOfBlank { bottle: bottle.into(), pattern: e.says.clone() }.into())
            }
            (PatternOf::Blank { bottle }, Err(why)) => {
                (Outcome::NotKnown, said::NoPatternOfBlank { bottle: bottle.into(), why: (**why).clone() }.into())
            }
            (PatternOf::Pipe { well, trip }, Ok(e)) => {
                let (well, trip, pattern) = (well.into(), trip.into(), e.says.clone());
                (Outcome::Met, said::PatternOfPipe { well, trip, pattern }.into())
            }
            (PatternOf::Pipe { well, trip }, Err(why)) => {
                let (well, trip, why) = (well.into(), trip.into(), (**why).clone());
                (Outcome::NotKnown, said::NoPatternOfPipe { well, trip, why }.into())
            }
        };
        let mut f = Finding::new(Check::BottlePattern, outcome, says);
        for e in &self.excess {
            let amount = quantity::Amount::measured(e.value, e.u, quantity::Unit::known(self.unit));
            f = f.comparing(message::compared::InExcess { metal: e.metal.as_str().into() }, amount);
        }
        f
    }
}

/// Whether a bottle is a blank that somebody took for practice.
pub fn is_training(b: &Bottle) -> bool {
    b.set_name.as_deref() == Some(TRAINING) && b.kind != BottleKind::Sample
}
