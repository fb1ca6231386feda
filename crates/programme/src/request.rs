//! Requests to a laboratory: the bottles of a trip under blind labels, in an order in which what belongs together does
//! not stand side by side. Labels and order are drawn from a number that is kept; who holds the record can open them,
//! the laboratory cannot.
//!
//! In: a trip, what to measure. Out: [`Request`] as it was kept; [`open`] says which label is which bottle, and keeps
//! that somebody asked. A file that comes back with blind labels is matched by the importer, which keeps that too.
//! Checked in `tests/request.rs`.

use record::by::{By, said};
use record::error::Error;
use record::model::{BlindLabel, Bottle, LabRequest, ResultRow, Unblinding};
use record::store::{Act, ActInfo, Cell, Filter, NamedCells, Store, StoreError};
use serde::Serialize;
use serde_json::json;
use std::collections::{BTreeMap, BTreeSet};

/// Letters of a blind label: none that is read as another (0 and O, 1 and I, 2 and Z, 5 and S, 8 and B).
const LETTERS: &[u8] = b"34679ACDEFGHJKLMNPQRTUVWXY";

/// Letters of a label: 26⁶ is 3·10⁸, so that two requests hardly draw the same one.
const LETTERS_OF_A_LABEL: usize = 6;

/// Exchanges that are tried to part what belongs together, for each bottle.
const TRIES_A_BOTTLE: usize = 400;

/// What to measure.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Asked {
    /// Element or quantity.
    pub analyte: String,
    /// Unit to report in.
    pub unit: String,
    /// How far down, in the unit; none: the laboratory's own limit.
    pub down_to: Option<f64>,
}

/// One bottle as the laboratory sees it, and as it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Blind {
    /// Place in the order, from 1.
    pub place: usize,
    /// Blind label.
    pub label: String,
    /// Volume, mL, as noted at filling.
    #[serde(rename = "volume_mL")]
    pub volume_ml: Option<f64>,
    /// Filtered or not.
    pub fraction: Option<String>,
    /// Acid and how much of it, mL.
    pub acid: Option<(String, Option<f64>)>,
}

/// A request as it was kept.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Request {
    /// Its name.
    pub name: String,
    /// The trip.
    pub trip: String,
    /// To whom.
    pub laboratory: Option<String>,
    /// Where labels and order were drawn from.
    pub seed: i64,
    /// The bottles in their order.
    pub bottles: Vec<Blind>,
    /// What to measure.
    pub asked: Vec<Asked>,
    /// Pairs side by side that belong together, because there was no other order.
    pub together: usize,
    /// First and last day on which the bottles were filled.
    pub days: Option<(String, String)>,
}

/// Random numbers from a seed (splitmix64, Steele, Lea and Flood 2014; from memory).
struct Drawn(u64);

impl Drawn {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number under `n`. The bias of the remainder is below n/2⁶⁴.
    fn under(&mut self, n: usize) -> usize {
        usize::try_from(self.next() % (n.max(1) as u64)).unwrap_or(0)
    }

    fn label(&mut self) -> String {
        (0..LETTERS_OF_A_LABEL).map(|_| char::from(LETTERS[self.under(LETTERS.len())])).collect()
    }
}

/// How much two bottles belong together: a sample and what was made of it, or a blank and a sample of one well, most; two
/// of one well and kind less.
fn belong(a: &Bottle, b: &Bottle) -> usize {
    let made_of = |x: &Bottle, y: &Bottle| x.parent.as_ref() == Some(&y.label);
    let of_one = a.parent.is_some() && a.parent == b.parent;
    if made_of(a, b) || made_of(b, a) || of_one {
        return 2;
    }
    match (a.well_id, b.well_id) {
        (Some(x), Some(y)) if x == y => {
            if a.kind == b.kind {
                1
            } else {
                2
            }
        }
        _ => 0,
    }
}

/// A random order in which few that belong together stand side by side; answers it with how many pairs still do.
fn order(bottles: &[Bottle], drawn: &mut Drawn) -> (Vec<usize>, usize) {
    let n = bottles.len();
    let mut at: Vec<usize> = (0..n).collect();
    for i in (1..n).rev() {
        at.swap(i, drawn.under(i + 1));
    }
    let cost = |at: &[usize]| at.windows(2).map(|w| belong(&bottles[w[0]], &bottles[w[1]])).sum::<usize>();
    let mut now = cost(&at);
    for _ in 0..n * TRIES_A_BOTTLE {
        if now == 0 {
            break;
        }
        let (i, j) = (drawn.under(n), drawn.under(n));
        at.swap(i, j);
        let with = cost(&at);
        if with > now {
            at.swap(i, j);
        } else {
            now = with;
        }
    }
    let together = at.windows(2).filter(|w| belong(&bottles[w[0]], &bottles[w[1]]) > 1).count();
    (at, together)
}

/// What was measured before in the wells of these bottles: each analyte in its newest unit, down to the lowest limit
/// that a laboratory stated for it.
///
/// # Errors
/// The store cannot be read.
pub fn measured_before(store: &Store, trip: &str) -> Result<Vec<Asked>, Error> {
    let of_trip = store.bottles(&Filter::all().is("trip.name", trip))?;
    let wells: BTreeSet<i64> = of_trip.iter().filter_map(|b| b.well_id).collect();
    let here: BTreeSet<i64> = store
        .bottles(&Filter::all())?
        .into_iter()
        .filter(|b| b.well_id.is_some_and(|w| wells.contains(&w)))
        .map(|b| b.id)
        .collect();
    let mut out: BTreeMap<String, Asked> = BTreeMap::new();
    store.each(&Filter::all().latest(), |r: ResultRow| {
        if here.contains(&r.bottle_id) {
            let limit = r.reporting_limit.or(r.limit_value).or(r.quantification_limit);
            let asked = out.entry(r.analyte.clone()).or_insert_with(|| Asked {
                analyte: r.analyte.clone(),
                unit: r.unit.clone(),
                down_to: limit,
            });
            if asked.unit != r.unit {
                *asked = Asked { analyte: r.analyte, unit: r.unit, down_to: limit };
            } else if let Some(l) = limit {
                asked.down_to = Some(asked.down_to.map_or(l, |x| x.min(l)));
            }
        }
        Ok(())
    })?;
    Ok(out.into_values().collect())
}

/// Draws blind labels and an order for all bottles of a trip, and keeps them.
///
/// # Errors
/// A trip that is not there or has no bottles; nothing to measure; a unit that cannot be read; the store.
pub fn make(
    store: &mut Store,
    trip: &str,
    laboratory: Option<&str>,
    asked: Vec<Asked>,
    seed: i64,
    by: By,
) -> Result<Request, Error> {
    let trips: Vec<String> = store.trips()?.into_iter().map(|t| t.name).collect();
    if !trips.iter().any(|t| t == trip) {
        let near = crate::hands::nearest(trip, trips.iter().map(String::as_str), 5).join(", ");
        let hint = if near.is_empty() { String::new() } else { format!("; the nearest: {near}") };
        return Err(Error::absent("trip", trip, hint));
    }
    let unfit = |found: String, expected: &str| Error::Unfit {
        what: format!("the request for trip {trip}"),
        found,
        expected: expected.into(),
    };
    let bottles = store.bottles(&Filter::all().is("trip.name", trip))?;
    if bottles.is_empty() {
        return Err(unfit("no bottle".into(), "bottles of the trip on record"));
    }
    if asked.is_empty() {
        return Err(unfit("nothing to measure".into(), "analytes: nothing was measured in these wells before"));
    }
    for a in &asked {
        quantity::Unit::parse(&a.unit).map_err(|e| unfit(format!("the unit \"{}\"", a.unit), &e.to_string()))?;
    }
    let mut taken: BTreeSet<String> = store.bottles(&Filter::all())?.into_iter().map(|b| b.label).collect();
    taken.extend(store.blind_labels()?.into_iter().map(|b| b.label));
    let mut drawn = Drawn(seed.cast_unsigned());
    let (order, together) = order(&bottles, &mut drawn);
    let mut blind = vec![];
    for (n, at) in order.iter().enumerate() {
        let b = &bottles[*at];
        let label = loop {
            let label = drawn.label();
            if taken.insert(label.clone()) {
                break label;
            }
        };
        let acid = b.acid.clone().map(|acid| (acid, b.acid_mL));
        blind.push(Blind { place: n + 1, label, volume_ml: b.volume_mL, fraction: b.fraction.clone(), acid });
    }
    let earlier = store.lab_requests()?;
    // One of so many names is free, since each earlier request bears one.
    let name = (1..=earlier.len() + 1)
        .map(|n| format!("{trip} request {n}"))
        .find(|name| earlier.iter().all(|r| r.name != *name))
        .unwrap_or_default();
    let days: BTreeSet<&str> = bottles.iter().filter_map(|b| b.filled_at.as_deref()?.get(..10)).collect();
    let days = days.first().zip(days.last()).map(|(a, b)| ((*a).to_string(), (*b).to_string()));
    let info = ActInfo {
        kind: "request to a laboratory".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "request": name, "trip": trip, "bottles": blind.len(), "asked": asked }),
    };
    store.act::<_, StoreError>(&info, |act| {
        keep(act, (name.as_str(), laboratory, seed), by.person, (&bottles[..], &order[..], &blind[..]))
    })?;
    Ok(Request {
        name,
        trip: trip.into(),
        laboratory: laboratory.map(Into::into),
        seed,
        bottles: blind,
        asked,
        together,
        days,
    })
}

fn keep(
    act: &mut Act,
    (name, laboratory, seed): (&str, Option<&str>, i64),
    person: &str,
    (bottles, order, blind): (&[Bottle], &[usize], &[Blind]),
) -> Result<(), StoreError> {
    let person = act.ensure("person", &[Cell::Text(person), Cell::Null])?;
    let mut cells = NamedCells::new("lab_request");
    cells.text("name", name).integer("seed", seed).integer("person", person);
    if let Some(trip) = bottles.first().and_then(|b| b.trip_id) {
        cells.integer("trip", trip);
    }
    if let Some(laboratory) = laboratory {
        cells.text("laboratory", laboratory);
    }
    let request = cells.insert(act)?;
    for (at, b) in order.iter().zip(blind) {
        let place = i64::try_from(b.place).unwrap_or(i64::MAX);
        let mut cells = NamedCells::new("blind_label");
        cells.text("label", &b.label).integer("request", request).integer("position", place);
        cells.integer("bottle", bottles[*at].id);
        cells.insert(act)?;
    }
    Ok(())
}

/// A request with when it was opened.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Listed {
    /// The request.
    #[serde(flatten)]
    pub request: LabRequest,
    /// Its labels.
    pub labels: usize,
    /// When it was opened, by a file or a person; empty: not yet.
    pub opened: Vec<Unblinding>,
}

/// All requests.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Vec<Listed>, Error> {
    let (labels, opened) = (store.blind_labels()?, store.unblindings()?);
    let of = |request: LabRequest| Listed {
        labels: labels.iter().filter(|l| l.request_id == request.id).count(),
        opened: opened.iter().filter(|u| u.request_id == request.id).cloned().collect(),
        request,
    };
    Ok(store.lab_requests()?.into_iter().map(of).collect())
}

/// Opens a request: which label is which bottle, in the order of the run. That somebody asked, and why, is kept.
///
/// # Errors
/// A reason that says nothing; a request that is not there; the store.
pub fn open(store: &mut Store, name: &str, why: &str, by: By) -> Result<Vec<BlindLabel>, Error> {
    said(why)?;
    let requests = store.lab_requests()?;
    let Some(request) = requests.iter().find(|r| r.name == name) else {
        let near = crate::hands::nearest(name, requests.iter().map(|r| r.name.as_str()), 5).join(", ");
        let hint = if near.is_empty() { "; there is none yet".into() } else { format!("; the nearest: {near}") };
        return Err(Error::absent("request", name, hint));
    };
    let info = ActInfo {
        kind: "blind labels opened".into(),
        author: by.person.into(),
        at: by.at.into(),
        body: json!({ "request": name, "why": why }),
    };
    store.act::<_, StoreError>(&info, |act| {
        let person = act.ensure("person", &[Cell::Text(by.person), Cell::Null])?;
        let mut cells = NamedCells::new("unblinding");
        cells.integer("request", request.id).text("why", why).integer("person", person);
        cells.insert(act).map(|_| ())
    })?;
    let mut labels: Vec<BlindLabel> =
        store.blind_labels()?.into_iter().filter(|l| l.request_id == request.id).collect();
    labels.sort_by_key(|l| l.position);
    Ok(labels)
}

/// The bottles as a table for the laboratory's own system.
pub fn sheet(r: &Request) -> String {
    let row = |b: &Blind| {
        let acid = b.acid.as_ref().map(|(name, ml)| match ml {
            Some(ml) => format!("{name}, {ml} mL"),
            None => name.clone(),
        });
        vec![
            b.place.to_string(),
            b.label.clone(),
            b.volume_ml.map(|v| v.to_string()).unwrap_or_default(),
            b.fraction.clone().unwrap_or_default(),
            acid.unwrap_or_default(),
        ]
    };
    table(&["place", "label", "volume_mL", "fraction", "preserved_with"], r.bottles.iter().map(row))
}

/// The table that the laboratory fills: it comes back by the mapping laboratory-long.
pub fn to_fill(r: &Request) -> String {
    let headings =
        ["bottle", "analyte", "fraction", "value", "u", "unit", "reporting_limit", "laboratory", "method", "remark"];
    let rows = r.bottles.iter().flat_map(|b| {
        r.asked.iter().map(move |a| {
            let cells = [
                b.label.as_str(),
                a.analyte.as_str(),
                b.fraction.as_deref().unwrap_or("unfiltered"),
                "",
                "",
                a.unit.as_str(),
                "",
                r.laboratory.as_deref().unwrap_or_default(),
                "",
                "",
            ];
            cells.map(String::from).to_vec()
        })
    });
    table(&headings, rows)
}

/// The table of the laboratory's own quality: it comes back by the mapping laboratory-quality.
pub fn quality_to_fill(r: &Request) -> String {
    let headings = [
        "laboratory",
        "method",
        "analyte",
        "kind",
        "from_day",
        "until_day",
        "answer",
        "value",
        "below",
        "second",
        "expected",
        "unit",
        "note",
    ];
    let (from, until) = r.days.clone().unwrap_or_default();
    let laboratory = r.laboratory.clone().unwrap_or_default();
    let rows = r.asked.iter().flat_map(|a| {
        let row = |kind: &str, unit: &str| {
            let (by, analyte, from, until) = (laboratory.as_str(), a.analyte.as_str(), from.as_str(), until.as_str());
            let cells = [by, "", analyte, kind, from, until, "", "", "", "", "", unit, ""];
            cells.map(String::from).to_vec()
        };
        [row("accreditation", ""), row("blank", &a.unit), row("recovery", "%"), row("duplicate", &a.unit)]
    });
    table(&headings, rows)
}

/// As CSV.
fn table(headings: &[&str], rows: impl Iterator<Item = Vec<String>>) -> String {
    let mut out = csv::Writer::from_writer(vec![]);
    out.write_record(headings).expect("memory takes all");
    for row in rows {
        out.write_record(row).expect("memory takes all");
    }
    String::from_utf8(out.into_inner().expect("memory takes all")).expect("texts are UTF-8")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The first numbers of splitmix64 from the seed 1234567, as the reference implementation gives them (from memory).
    #[test]
    fn numbers_are_those_of_the_published_generator() {
        let mut drawn = Drawn(1_234_567);
        let first: Vec<u64> = (0..3).map(|_| drawn.next()).collect();
        assert_eq!(first, [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]);
    }

    #[test]
    fn labels_hold_no_letter_that_is_read_as_another() {
        let mut drawn = Drawn(7);
        let labels: BTreeSet<String> = (0..2000).map(|_| drawn.label()).collect();
        assert_eq!(labels.len(), 2000);
        assert!(labels.iter().all(|l| l.len() == 6 && !l.contains(['0', 'O', '1', 'I', '2', 'Z', '5', 'S', '8', 'B'])));
    }
}
