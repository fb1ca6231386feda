//! What the rest of the analysis says beside a number: charge balance, conductivity, oxygen or
//! nitrate beside sulfide. Laboratory concentrations of one water (one well on one trip, or one
//! sample of a reported table) and the last field readings there become one analysis for `aqueous`;
//! its findings hold for every result of that water.

use crate::organics::Compounds;
use crate::results::amount;
use crate::verdict::Rules;
use aqueous::analysis::{Analysis, Analyte, Fraction};
use aqueous::balance::Rule;
use aqueous::speciation::{Request, speciation};
use message::{Message, Shown, chemistry};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use record::error::Error;
use record::identity::ResultId;
use record::model::{Bottle, BottleKind, FieldReading, ResultRow};
use record::store::{Cell, Filter, Store};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// One water: well and trip, or a single bottle where there is no trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Water {
    /// A well on a trip.
    Visit(i64, i64),
    /// A bottle on its own.
    Bottle(i64),
}

impl Water {
    /// The water in a bottle.
    pub fn of(b: &Bottle) -> Self {
        match (b.trip_id, b.well_id) {
            (Some(trip), Some(well)) => Self::Visit(trip, well),
            _ => Self::Bottle(b.id),
        }
    }
}

/// Findings of the meaning stage by water.
#[derive(Debug, Clone, Default)]
pub struct ChemistryChecks(HashMap<Water, Vec<Finding>>);

/// Bottles asked for one by one up to here; of more, all are read at once.
const FEW: usize = 64;

// An analysis without these says nothing of the balance.
const NEEDED: [&str; 4] = ["Ca", "Na", "Cl", "alkalinity"];

/// One water of the record as one analysis.
#[derive(Debug, Clone)]
pub struct Analysed {
    /// Which water.
    pub water: Water,
    /// The first of its bottles: well, trip, when filled.
    pub bottle: Bottle,
    /// What was measured of it.
    pub analysis: Analysis,
    /// Standard uncertainty of the measured Eh, mV.
    pub u_eh_mv: Option<f64>,
    /// Results of a run that joined it, by identity; a laboratory's report goes before the run.
    pub from_run: Vec<ResultId>,
    /// What had to be assumed.
    pub assumed: Vec<Message>,
}

/// Every water of the record that has major ions, in the order of trips and wells. Results from
/// counts among the rows join the laboratory's report of the same well and trip.
///
/// # Errors
/// The store cannot be read.
pub fn analyses(store: &Store, rows: &[ResultRow]) -> Result<Vec<Analysed>, Error> {
    let asked: BTreeSet<i64> = rows.iter().map(|r| r.bottle_id).collect();
    let few = asked.len() <= FEW;
    let mut bottles: HashMap<i64, Bottle> = HashMap::new();
    if few {
        for id in asked {
            bottles.extend(store.bottles(&Filter::all().is("id", id))?.into_iter().map(|b| (b.id, b)));
        }
    } else {
        bottles.extend(store.bottles(&Filter::all())?.into_iter().map(|b| (b.id, b)));
    }
    let mut waters: BTreeMap<Water, Vec<(&ResultRow, &Bottle)>> = BTreeMap::new();
    let compounds = Compounds::described(store)?;
    for r in rows.iter().filter(|r| !compounds.holds(&r.analyte)) {
        if let Some(b) = bottles.get(&r.bottle_id).filter(|b| b.kind.is_water()) {
            waters.entry(Water::of(b)).or_default().push((r, b));
        }
    }
    let mut readings = vec![];
    for water in waters.keys().filter(|_| few) {
        if let Water::Visit(trip, well) = water {
            readings.extend(store.field_readings(&Filter::all().is("trip", *trip).is("well", *well))?);
        }
    }
    if !few {
        readings = store.field_readings(&Filter::all())?;
    }
    let readings = by_visit(readings);
    let rule = balance_rule(&Rules::new(store.check_rules()?));
    let analysed = |(water, rows): (Water, Vec<_>)| analysed(water, &rows, &readings, &rule);
    Ok(waters.into_iter().filter_map(analysed).collect())
}

/// Field readings by trip and well, in the order of the record.
type ByVisit = HashMap<(i64, i64), Vec<FieldReading>>;

fn by_visit(readings: Vec<FieldReading>) -> ByVisit {
    let mut out = ByVisit::new();
    for r in readings {
        if let Some(trip) = r.trip_id {
            out.entry((trip, r.well_id)).or_default().push(r);
        }
    }
    out
}

/// One water as an analysis, where the laboratory's report has its major ions.
fn analysed(water: Water, rows: &[(&ResultRow, &Bottle)], readings: &ByVisit, rule: &Rule) -> Option<Analysed> {
    let reported: Vec<&ResultRow> = rows.iter().filter(|(r, _)| r.vial_id.is_none()).map(|(r, _)| *r).collect();
    let (_, bottle) = rows.iter().find(|(r, _)| r.vial_id.is_none())?;
    // An alkalinity of the laboratory counts: "alkalinity (laboratory)".
    let has = |name: &str| {
        let of_laboratory = |rest: &str| rest.is_empty() || rest.starts_with(" (");
        reported.iter().any(|r| r.analyte.strip_prefix(name).is_some_and(of_laboratory))
    };
    if !NEEDED.iter().all(|n| has(n)) {
        return None;
    }
    let visited = match water {
        Water::Visit(trip, well) => readings.get(&(trip, well)).map_or(&[][..], Vec::as_slice),
        Water::Bottle(_) => &[],
    };
    let mut known = analysis_of(water, bottle, (&reported, &best_of_run(rows)), &field(visited, water));
    known.analysis.balance_rule = rule.clone();
    Some(known)
}

/// The rule of the charge balance: the usual one, with the programme's own gate where it set another in percent.
fn balance_rule(rules: &Rules) -> Rule {
    let own = rules.of(Check::MeaningChargeBalance).filter(|r| r.limit_unit.as_deref() == Some("%"));
    own.and_then(|r| r.limit_value).map_or_else(Rule::default, Rule::with_gate)
}

/// One result an element from the run: a sample before its duplicate, then the smallest u.
fn best_of_run<'a>(rows: &[(&'a ResultRow, &'a Bottle)]) -> Vec<&'a ResultRow> {
    let mut best: BTreeMap<&str, (&ResultRow, &Bottle)> = BTreeMap::new();
    for (r, b) in rows.iter().copied().filter(|(r, _)| r.vial_id.is_some()) {
        let rank = |r: &ResultRow, b: &Bottle| (b.kind != BottleKind::Sample, r.u.unwrap_or(f64::INFINITY));
        let standing = best.entry(&r.analyte).or_insert((r, b));
        if rank(r, b) < rank(standing.0, standing.1) {
            *standing = (r, b);
        }
    }
    best.into_values().map(|(r, _)| r).collect()
}

impl ChemistryChecks {
    /// Works out every water of the record that has major ions.
    ///
    /// # Errors
    /// The store cannot be read. What a water's analysis cannot be is told as a finding.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let mut waters: BTreeMap<Water, Vec<Bottle>> = BTreeMap::new();
        for b in store.bottles(&Filter::all())?.into_iter().filter(|b| b.kind.is_water()) {
            waters.entry(Water::of(&b)).or_default().push(b);
        }
        let compounds = Compounds::described(store)?;
        let readings = by_visit(store.field_readings(&Filter::all())?);
        let rule = balance_rule(&Rules::new(store.check_rules()?));
        let mut out = HashMap::new();
        // Water by water: of a long record the results of one are held at a time.
        for (water, bottles) in waters {
            let mut rows = vec![];
            for b in &bottles {
                // Metals at a part per trillion move no balance: the laboratory's report alone decides.
                let reported = Filter::all().is("bottle", b.id).is("vial", Cell::Null).latest();
                rows.extend(store.results(&reported)?.into_iter().map(|r| (r, b)));
            }
            rows.sort_by_key(|(r, _)| r.id);
            let rows: Vec<_> =
                rows.iter().filter(|(r, _)| !compounds.holds(&r.analyte)).map(|(r, b)| (r, *b)).collect();
            if let Some(known) = analysed(water, &rows, &readings, &rule) {
                out.insert(water, findings(known.analysis));
            }
        }
        Ok(Self(out))
    }

    /// What is said of a water.
    pub fn findings(&self, water: Water) -> Vec<Finding> {
        self.of_water(water).to_vec()
    }

    /// The same, borrowed.
    pub(crate) fn of_water(&self, water: Water) -> &[Finding] {
        self.0.get(&water).map_or(&[], Vec::as_slice)
    }
}

/// The last reading of each quantity at a well on a trip.
fn field(readings: &[FieldReading], water: Water) -> BTreeMap<&str, &FieldReading> {
    let mut last = BTreeMap::new();
    let Water::Visit(trip, well) = water else { return last };
    for r in readings.iter().filter(|r| r.trip_id == Some(trip) && r.well_id == well) {
        let standing = last.entry(r.quantity.as_str()).or_insert(r);
        if r.at >= standing.at {
            *standing = r;
        }
    }
    last
}

/// The analysis of one water from a laboratory's report, the results of a run beside it and the
/// last field readings. What the report holds is not taken from the run again.
pub fn analysis_of(
    water: Water,
    bottle: &Bottle,
    (reported, run): (&[&ResultRow], &[&ResultRow]),
    field: &BTreeMap<&str, &FieldReading>,
) -> Analysed {
    let temperature = reading(reported, field, "temperature");
    let mut analysis = Analysis {
        temperature_c: temperature.unwrap_or(ASSUMED_TEMPERATURE_C),
        ph: reading(reported, field, "pH"),
        u_ph: field.get("pH").and_then(|r| r.u),
        eh_mv: reading(reported, field, "Eh"),
        conductivity_us_cm: reading(reported, field, "conductivity"),
        ..Analysis::default()
    };
    let mut from_run = vec![];
    let run = run.iter().filter(|r| reported.iter().all(|x| x.analyte != r.analyte));
    for r in reported.iter().filter(|r| !FIELD.contains(&r.analyte.as_str())).chain(run) {
        if let Some(amount) = amount(r) {
            analysis.analytes.push(Analyte { name: r.analyte.clone(), amount, fraction: fraction(&r.fraction) });
            from_run.extend(r.vial_id.map(|_| r.identity()));
        }
    }
    if let Some(amount) = oxygen(reported, field) {
        analysis.analytes.push(Analyte { name: "O2".into(), amount, fraction: None });
    }
    let assumed = match temperature {
        Some(_) => vec![],
        None => {
            vec![chemistry::TemperatureAssumed { temperature: Shown::as_given(ASSUMED_TEMPERATURE_C, "°C") }.into()]
        }
    };
    let u_eh_mv = field.get("Eh").and_then(|r| r.u);
    Analysed { water, bottle: bottle.clone(), analysis, u_eh_mv, from_run, assumed }
}

/// A cold groundwater, where no temperature was read (common practice; said beside the answer).
const ASSUMED_TEMPERATURE_C: f64 = 10.0;

fn oxygen(rows: &[&ResultRow], field: &BTreeMap<&str, &FieldReading>) -> Option<Amount> {
    if let Some(o) = field.get("dissolved oxygen") {
        let unit = Unit::parse(&o.unit).unwrap_or_else(|_| Unit::known("mg/L"));
        return Some(o.u.map_or(Amount::stated(o.value, unit.clone()), |u| Amount::measured(o.value, u, unit)));
    }
    let row = rows.iter().find(|r| r.analyte == "dissolved oxygen")?;
    // A saturation in percent is not a concentration; it says nothing here.
    amount(row).filter(|a| a.convert(&Unit::known("mg/L"), None, None).is_ok())
}

fn findings(analysis: Analysis) -> Vec<Finding> {
    let request = Request { analysis, ..Request::default() };
    match speciation(&request) {
        Ok(s) => s.findings.into_iter().filter(|f| KEPT.contains(&f.check)).collect(),
        Err(e) => vec![Finding::new(
            Check::MeaningChargeBalance,
            Outcome::NotKnown,
            message::water::NotWorkedOut { why: e.message() },
        )],
    }
}

/// Names of quantities that are conditions of the water, not solutes.
const FIELD: [&str; 5] = ["temperature", "pH", "Eh", "conductivity", "dissolved oxygen"];

/// Findings that speak of the water as a whole; the rest stands in the chemistry of the sample.
const KEPT: [Check; 4] = [
    Check::MeaningChargeBalance,
    Check::MeaningConductivity,
    Check::MeaningOxygenBesideSulfide,
    Check::MeaningNitrateBesideSulfide,
];

fn reading(rows: &[&ResultRow], field: &BTreeMap<&str, &FieldReading>, name: &str) -> Option<f64> {
    field.get(name).map(|r| r.value).or_else(|| rows.iter().find(|r| r.analyte == name)?.value)
}

fn fraction(text: &str) -> Option<Fraction> {
    if text == "unfiltered" {
        return Some(Fraction::Unfiltered);
    }
    text.split_whitespace().next()?.parse().ok().map(Fraction::FilteredUm)
}

#[cfg(test)]
mod tests {
    use super::*;
    use record::model::{CheckRule, Weight};

    #[test]
    fn the_gate_of_the_balance_is_that_of_the_programmes_table() {
        let of = |limit: Option<f64>, unit: Option<&str>| {
            let row = CheckRule {
                id: 0,
                check_name: Check::MeaningChargeBalance.text().into(),
                revision: 1,
                weight: Weight::Warning,
                limit_value: limit,
                limit_unit: unit.map(String::from),
                why: None,
            };
            balance_rule(&Rules::new(vec![row])).gate_percent()
        };
        let usual = Rule::default().gate_percent();
        assert_eq!(of(Some(3.0), Some("%")), Some(3.0));
        // Without a number, and in a unit that is no percent, the usual rule holds.
        assert_eq!((of(None, Some("%")), of(Some(0.2), Some("meq/L"))), (usual, usual));
        // The table of a new programme sets the gate of the usual rule.
        let mut rows = csv::Reader::from_reader(crate::verdict::DEFAULT_CHECKS.as_bytes());
        let name = Check::MeaningChargeBalance.text();
        let row = rows.records().map(Result::unwrap).find(|r| &r[0] == name).unwrap();
        assert_eq!((row[2].parse().ok(), &row[3]), (usual, "%"));
    }
}
