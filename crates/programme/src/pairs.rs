//! Bottles of one water held against each other: duplicates of one laboratory, samples split between two; and blanks
//! against limits and against the waters of their trip.
//!
//! In: the record. Out: [`Pairs`]. Of two values with uncertainty the ζ score, d/√(u₁² + u₂²), and for two laboratories
//! E_n = d/√(U₁² + U₂²) with U = 2u, as ISO 13528 names them: |ζ| up to 2 acceptable, over 2 a warning signal, from 3 an
//! action signal; |E_n| up to 1 successful (ISO 13528:2022, 9.4, 9.6 and 9.7, from memory). The two u are taken as
//! independent: what they share (one line, one blank) makes the true u of the difference smaller, so that a score is no
//! larger than it would be. Where one of the two has no u there is no score, and that is said.
//! Checked in `tests/pairs.rs`.

use assessment::results::{Listed, Lists};
use quantity::{Amount, Unit};
use record::error::Error;
use record::identity::ResultId;
use record::model::{Bottle, BottleKind, ResultRow, State};
use record::store::{Filter, Store};
use serde::Serialize;
use std::collections::{BTreeMap, HashMap};

/// A water, an analyte, its isotopes and the fraction.
type Of = (String, String, String, String);

/// |ζ| from which a score is a warning signal.
// ISO 13528:2022, 9.4.2 (from memory).
const WARNING: f64 = 2.0;
/// |ζ| from which it is an action signal.
// As above.
const ACTION: f64 = 3.0;
/// Coverage factor of the U in E_n.
// ISO 13528:2022, 9.7: U with a coverage factor of 2 (from memory).
const K: f64 = 2.0;

/// What a score says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Signal {
    /// |ζ| ≤ 2.
    Acceptable,
    /// 2 < |ζ| < 3.
    Warning,
    /// |ζ| ≥ 3.
    Action,
}

impl Signal {
    fn of(zeta: f64) -> Self {
        match zeta.abs() {
            z if z <= WARNING => Self::Acceptable,
            z if z < ACTION => Self::Warning,
            _ => Self::Action,
        }
    }

    /// In the words of the standard.
    pub fn word(self) -> &'static str {
        match self {
            Self::Acceptable => "acceptable",
            Self::Warning => "warning signal",
            Self::Action => "action signal",
        }
    }
}

/// One side of a pair.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Side {
    /// The result.
    pub result: ResultId,
    /// Laboratory, where it is known.
    pub laboratory: Option<String>,
    /// What it says, in the unit of the first.
    pub amount: Option<Amount>,
}

/// Two results of one water.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Pair {
    /// Analyte, with isotopes where they are known.
    pub analyte: String,
    /// The first.
    pub first: Side,
    /// The second.
    pub second: Side,
    /// First less second.
    pub difference: Option<f64>,
    /// Over their mean, percent.
    pub relative_percent: Option<f64>,
    /// d/√(u₁² + u₂²).
    pub zeta: Option<f64>,
    /// What it says.
    pub signal: Option<Signal>,
    /// d/√(U₁² + U₂²), for two laboratories.
    pub e_n: Option<f64>,
    /// What stands against a score.
    pub note: Option<String>,
}

/// A blank beside what matters.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Blank {
    /// The result.
    pub result: ResultId,
    /// What the bottle is.
    pub kind: BottleKind,
    /// What it says.
    pub amount: Option<Amount>,
    /// The limit that it is held against, in its unit: of what a laboratory reported the reporting limit, else the
    /// quantification limit, else the detection limit.
    pub limit: Option<f64>,
    /// Whether something was found above that limit; none where it cannot be told.
    pub above_limit: Option<bool>,
    /// Over the smallest value of a water of the same trip, percent; of a non-detect its bound over it.
    pub of_smallest_percent: Option<f64>,
}

/// All pairs and blanks.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Pairs {
    /// Of one laboratory, or of laboratories that are not named.
    pub duplicates: Vec<Pair>,
    /// Of two laboratories.
    pub splits: Vec<Pair>,
    /// Blanks.
    pub blanks: Vec<Blank>,
}

/// Whether two bottles are one water on purpose: one made of the other, or of one replicate set.
fn water_of(b: &Bottle) -> Option<String> {
    if !b.kind.is_water() {
        return None;
    }
    Some(match (&b.set_name, &b.parent) {
        (Some(set), _) => format!("set {set}"),
        (None, Some(parent)) => format!("bottle {parent}"),
        (None, None) => format!("bottle {}", b.label),
    })
}

/// All duplicates, splits and blanks of a programme.
///
/// # Errors
/// The store cannot be read.
pub fn all(store: &Store) -> Result<Pairs, Error> {
    let bottles: HashMap<i64, Bottle> = store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)).collect();
    let mut members: HashMap<String, usize> = HashMap::new();
    for water in bottles.values().filter_map(water_of) {
        *members.entry(water).or_default() += 1;
    }
    let laboratories = laboratories(store)?;
    let named = |row: &ResultRow| {
        row.laboratory.clone().or_else(|| row.vial_id.and_then(|v| laboratories.get(&v).cloned()).flatten())
    };
    let (mut rows, mut revised): (Vec<ResultRow>, Vec<ResultRow>) = (vec![], vec![]);
    let mut smallest: HashMap<(Option<i64>, String, String), f64> = HashMap::new();
    store.each(&Filter::all().latest(), |r: ResultRow| {
        let Some(b) = bottles.get(&r.bottle_id) else { return Ok(()) };
        if let (true, Some(v), Ok(unit)) = (b.kind.is_water(), r.value, Unit::parse(&r.unit))
            && v > 0.0
            && r.state != State::NotDetected
        {
            let key = (b.trip_id, r.analyte.clone(), unit.ucum().to_string());
            smallest.entry(key).and_modify(|x| *x = x.min(v)).or_insert(v);
        }
        let paired = water_of(b).is_some_and(|w| members.get(&w).is_some_and(|n| *n > 1));
        if r.revision > 1 && r.vial_id.is_none() {
            revised.push(r.clone());
        }
        if paired || is_blank(b.kind) {
            rows.push(r);
        }
        Ok(())
    })?;
    let lists = Lists::for_rows(store, &rows)?;
    let mut out = Pairs::default();
    let mut waters: BTreeMap<Of, Vec<(Listed, Option<String>)>> = BTreeMap::new();
    for row in rows {
        let Some(b) = bottles.get(&row.bottle_id).filter(|_| lists.taken_out(&row).is_none()) else { continue };
        let laboratory = named(&row);
        let listed = lists.listed(row);
        match water_of(b) {
            Some(water) => {
                let key = (water, listed.analyte.clone(), listed.isotopes.clone(), listed.fraction.clone());
                waters.entry(key).or_default().push((listed, laboratory));
            }
            None => out.blanks.push(blank(listed, b, &smallest)),
        }
    }
    for ((_, analyte, ..), of) in waters {
        for (n, first) in of.iter().enumerate() {
            for second in &of[n + 1..] {
                let isotopes = &first.0.isotopes;
                let analyte = if isotopes.is_empty() { analyte.clone() } else { format!("{analyte} {isotopes}") };
                let pair = pair(&analyte, first, second);
                if pair.first.laboratory != pair.second.laboratory
                    && pair.first.laboratory.is_some()
                    && pair.second.laboratory.is_some()
                {
                    out.splits.push(pair);
                } else {
                    out.duplicates.push(pair);
                }
            }
        }
    }
    for row in revised {
        out.splits.extend(other_laboratory(store, &row)?);
    }
    for pair in &mut out.duplicates {
        pair.e_n = None;
    }
    Ok(out)
}

fn is_blank(kind: BottleKind) -> bool {
    matches!(
        kind,
        BottleKind::FieldBlank | BottleKind::TripBlank | BottleKind::EquipmentBlank | BottleKind::BottleBlank
    )
}

/// Laboratory of each vial, by its run.
fn laboratories(store: &Store) -> Result<HashMap<i64, Option<String>>, Error> {
    let mut out = HashMap::new();
    for run in store.runs()? {
        for v in store.vials(run.id)? {
            out.insert(v.id, run.laboratory.clone());
        }
    }
    Ok(out)
}

/// One bottle that two laboratories reported: the record keeps the later report as the next revision.
fn other_laboratory(store: &Store, row: &ResultRow) -> Result<Option<Pair>, Error> {
    let all = store.results(&Filter::all().is("bottle", row.bottle_id).is("measurand", row.measurand_id))?;
    let other = |o: &&ResultRow| {
        o.revision < row.revision && o.vial_id.is_none() && o.laboratory.is_some() && o.laboratory != row.laboratory
    };
    let Some(earlier) = all.iter().rev().find(other).filter(|_| row.vial_id.is_none() && row.laboratory.is_some())
    else {
        return Ok(None);
    };
    let rows = [earlier.clone(), row.clone()];
    let lists = Lists::for_rows(store, &rows)?;
    let [first, second] = rows.map(|r| {
        let laboratory = r.laboratory.clone();
        (lists.listed(r), laboratory)
    });
    Ok(Some(pair(&row.analyte, &first, &second)))
}

fn pair(analyte: &str, first: &(Listed, Option<String>), second: &(Listed, Option<String>)) -> Pair {
    let unit = first.0.amount.as_ref().map(|a| a.unit().clone());
    let joined = |a: &Option<Amount>| {
        let (a, unit) = (a.as_ref()?, unit.as_ref()?);
        a.convert(unit, None, None).ok()
    };
    let side = |of: &(Listed, Option<String>)| Side {
        result: of.0.result.clone(),
        laboratory: of.1.clone(),
        amount: joined(&of.0.amount),
    };
    let mut out = Pair {
        analyte: analyte.into(),
        first: side(first),
        second: side(second),
        difference: None,
        relative_percent: None,
        zeta: None,
        signal: None,
        e_n: None,
        note: None,
    };
    let (Some(a), Some(b)) = (&out.first.amount, &out.second.amount) else {
        out.note = Some("one of the two says no number, or in a unit that no factor joins".into());
        return out;
    };
    // What was found in two bottles is held against each other also where each is only a bound on the water.
    let found = (joined(&first.0.net), joined(&second.0.net));
    let (a, b) = match (&found.0, &found.1) {
        (Some(x), Some(y)) if (a.value().is_none() || b.value().is_none()) && x.u().is_some() && y.u().is_some() => {
            out.note = Some("by what was found in the bottles: as numbers of the water they are bounds".into());
            (x, y)
        }
        _ => (a, b),
    };
    let (Some(x), Some(y)) = (a.value(), b.value()) else {
        out.note = Some(match (a, b) {
            (Amount::Below(_), Amount::Below(_)) => "both are below a limit".into(),
            (Amount::Below(l), other) | (other, Amount::Below(l)) if other.value().is_some_and(|v| v <= l.limit) => {
                "one is below a limit that the other's value does not exceed: no contradiction".into()
            }
            _ => "one is below a limit that the other's value exceeds, or above one".into(),
        });
        return out;
    };
    let (d, mean) = (x - y, 0.5 * (x + y));
    out.difference = Some(d);
    out.relative_percent = (mean > 0.0).then(|| 100.0 * d / mean);
    match (a.u(), b.u()) {
        (Some(u), Some(v)) if u.hypot(v) > 0.0 => {
            let zeta = d / u.hypot(v);
            out.zeta = Some(zeta);
            out.signal = Some(Signal::of(zeta));
            out.e_n = Some(d / (K * u).hypot(K * v));
        }
        (Some(_), Some(_)) => out.note = Some("both state an uncertainty of zero: no score".into()),
        (None, None) => out.note = Some("neither states an uncertainty: no score".into()),
        _ => out.note = Some("one states no uncertainty: no score".into()),
    }
    out
}

fn blank(r: Listed, b: &Bottle, smallest: &HashMap<(Option<i64>, String, String), f64>) -> Blank {
    // Limits of a run's own counts are those of a net value, which a blank is not.
    let own = r.quantification_limit.or(r.detection_limit).filter(|_| r.gross.is_none());
    let limit = r.reporting_limit.or(own);
    let bound = match &r.amount {
        Some(Amount::Below(x)) => Some((x.limit, false)),
        Some(a) => a.value().map(|v| (v, true)),
        None => None,
    };
    let above_limit = match (bound, limit) {
        (Some((v, true)), Some(l)) => Some(v > l),
        (Some((below, false)), Some(l)) if below <= l => Some(false),
        _ => None,
    };
    let unit = r.amount.as_ref().map(|a| a.unit().ucum().to_string()).unwrap_or_default();
    let least = smallest.get(&(b.trip_id, r.analyte.clone(), unit)).filter(|_| b.trip_id.is_some());
    let of_smallest_percent = bound.zip(least).map(|((v, _), least)| 100.0 * v / least);
    Blank { result: r.result, kind: r.kind, amount: r.amount, limit, above_limit, of_smallest_percent }
}
