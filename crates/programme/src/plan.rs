//! The plan of the next trip by the record: a person's question, what the programme's own blanks, duplicates and
//! spikes say of the variances, and a trip with its bottles made from a design that was chosen.
//!
//! In: the question ([`Asked`]; [`read`] takes it from JSON or TOML, the input of the calculation `plan`); what the
//! person leaves out comes from the record: blanks in pg per bottle, scatter, laboratory, recovery; and what every design
//! must contain, from the programme's table of checks: what answers those that decide, and the vials of the run of those
//! that warn. Out: the completed question, the designs that nothing beats, and, on demand, rows for a trip. What was taken
//! from the record, and from how many bottles, is said. The science is [`cleanliness::plan`]. Checked in `tests/forecast_and_plan.rs`.

use assessment::attribution::{RunPair, own_and_shared};
use assessment::verdict::Rules;
pub use cleanliness::asked::{Answer, Asked, Figure, Kind, Offered, Source, Wells};
use cleanliness::needs::{Need, Part};
pub use cleanliness::plan::Design;
use intake::entry::{Entered, EntryError, TypedRow, enter};
use measurement::run::Role;
use message::{Message, Shown, Spoken, plan as said, web_plan as page};
use quantity::{CalcError, Check};
use record::by::By;
use record::error::Error;
use record::model::{Bottle, BottleKind, Lot, Weight};
use record::store::{Filter, Store};
use serde_json::Value;
use statistics::sample::{Moments, mean_sd, median};
use std::collections::HashMap;
use std::fmt;

/// A question that runs, as a person would write it.
pub const EXAMPLE: &str = r#"# A question for `limpid plan STORE --question FILE`. Numbers that are left out come from the record.
analyte = "Pb"
wells = ["SL-2"]

[question]          # detect, limit, lower, trend or detection-limit; concentrations in ng/L
kind = "detect"
level = 0.2

[prices]            # your own money
bottle = 40         # one bottle washed, filled, analysed
spike = 60
vial = 25           # one vial of the run: reference material, drift check, second source
minute_saved = 2    # keeping the air clean costs time
litre = 1
trip = 300

[choices]           # every combination is a design
samples = [1, 2, 3]
field_blanks = [2, 3, 4, 6, 8]
trip_blanks = [1, 2, 3]
bottle_blanks = [1, 2, 4]
spikes = [0, 1, 2, 3]
volume_ml = [125, 250, 500]
minutes = [1, 2, 5]
"#;

/// Reads a question: JSON, else TOML.
///
/// # Errors
/// [`Error::Unfit`] with what both readers say, or with the field, what was found and what is expected.
pub fn read(text: &str) -> Result<Asked, Error> {
    let fault = |found: String| Error::Unfit {
        what: "the question".into(),
        found,
        expected: "JSON or TOML as `limpid plan --example` prints it".into(),
    };
    let document: Value = if text.trim_start().starts_with('{') {
        serde_json::from_str(text).map_err(|e| fault(e.to_string()))?
    } else {
        toml::from_str(text).map_err(|e| fault(e.to_string().trim_end().to_string()))?
    };
    cleanliness::calc::read_plan(&document).map_err(|e| match e {
        CalcError::Refused { field, found, expected } => Error::Unfit { what: field, found, expected },
        other => fault(other.to_string()),
    })
}

/// The question of [`EXAMPLE`].
pub fn example() -> Asked {
    read(EXAMPLE).expect("the example is a question that runs")
}

/// What the record gave where the question left something open.
#[derive(Debug, Clone, PartialEq)]
pub enum FromRecord {
    /// A number of the question.
    Field {
        /// Its key.
        key: &'static str,
        /// The number, as it is shown.
        value: Shown,
        /// From what.
        why: Message,
        /// All of it.
        says: Message,
    },
    /// The blank and what air and hands have of it, pg.
    Blank {
        /// Mean of the blanks.
        mean_pg: f64,
        /// Of it by air and hands while open.
        air_pg: f64,
        /// Of which blanks.
        blanks: Message,
    },
}

impl FromRecord {
    fn says(&self) -> Message {
        match self {
            Self::Field { says, .. } => says.clone(),
            Self::Blank { mean_pg, air_pg, blanks } => {
                let pg = |x| Shown::significant(x, 3, "pg");
                said::Blank { mean: pg(*mean_pg), blanks: blanks.clone(), air: pg(*air_pg) }.into()
            }
        }
    }
}

impl fmt::Display for FromRecord {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.says().text())
    }
}

/// The question with what the record adds.
#[derive(Debug, Clone)]
pub struct Completed {
    /// The whole question.
    pub asked: Asked,
    /// The wells of the trip.
    pub wells: Vec<String>,
    /// What came from the record, and from how many bottles.
    pub from_record: Vec<FromRecord>,
}

/// Why a design would not be believed by these needs, however clean the work: what it lacks of what the decisive checks
/// ask for. Empty: nothing stands in the way of "accepted" but care.
pub fn lacks(required: &[Check], design: &Design, wells: &[String]) -> Vec<Message> {
    let needs: Vec<Need> = required.iter().filter_map(|c| Need::of(*c)).collect();
    let least = |part: Part| needs.iter().filter(|n| n.part == part).map(|n| n.least).max().unwrap_or(0);
    let named = |w: &String| message::Arg::from(message::Name::from(w.as_str()));
    let mut out: Vec<Message> = vec![];
    let unspiked: Vec<message::Arg> = (wells.iter().enumerate())
        .filter(|(i, _)| design.spikes_at(*i, wells.len()) < least(Part::Spikes))
        .map(|(_, w)| named(w))
        .collect();
    if !unspiked.is_empty() {
        out.push(page::NoSpikeIn { wells: unspiked }.into());
    }
    let mut fewer = |part: Part, there: u32, says: fn(i64, i64) -> Message| {
        if there < least(part) {
            out.push(says(there.into(), least(part).into()));
        }
    };
    fewer(Part::Samples, design.samples, |n, least| page::TooFewSamples { n, least }.into());
    fewer(Part::FieldBlanks, design.field_blanks, |n, least| page::TooFewFieldBlanks { n, least }.into());
    fewer(Part::BottleBlanks, design.bottle_blanks, |n, least| page::TooFewBottleBlanks { n, least }.into());
    let l = design.laboratory;
    fewer(Part::ReferenceMaterials, l.reference_materials, |n, least| page::TooFewReferences { n, least }.into());
    fewer(Part::DriftChecks, l.drift_checks, |n, least| page::TooFewDriftChecks { n, least }.into());
    fewer(Part::SecondSources, l.second_sources, |n, least| page::TooFewSecondSources { n, least }.into());
    out
}

/// Cheaper designs that decide as well and would not be believed: what the decisive checks ask for of bottles and blanks
/// is left away, the vials of the run stay. The dearest first, so that it stands next to those that would be believed.
///
/// # Errors
/// As [`Asked::answer`].
pub fn not_believed(asked: &Asked, answer: &Answer) -> Result<Vec<Offered>, CalcError> {
    let of_the_run = |c: &Check| Need::of_warning(*c).is_some();
    let required = asked.required.iter().copied().filter(of_the_run).collect();
    let wells = match &asked.wells {
        Some(Wells::Named(names)) => names.clone(),
        _ => vec![],
    };
    let cheapest = answer.designs.first().map_or(f64::INFINITY, |d| d.ranked.price);
    let mut out = Asked { required, ..asked.clone() }.answer()?.designs;
    out.retain(|d| d.ranked.price < cheapest && !lacks(&asked.required, &d.ranked.design, &wells).is_empty());
    out.reverse();
    Ok(out)
}

/// Pairs of gloves for each bottle that is opened, and bags around each bottle: hands that touch bottles are two pairs,
/// and each bottle travels in two bags (US EPA method 1669, "clean hands, dirty hands"; from memory).
const GLOVES_A_BOTTLE: u32 = 2;
const BAGS_A_BOTTLE: u32 = 2;

/// Acid for a bottle as a share of its volume: half a percent of concentrated nitric acid is common (as
/// `reference/usual_ranges.csv` says of bottle.acid_mL); half as much again is taken along.
const ACID_SHARE: f64 = 0.005;
const ACID_SPARE: f64 = 1.5;

/// One spare bottle for so many, two at least: the programme's own choice.
const BOTTLES_A_SPARE: u32 = 10;
const LEAST_SPARES: u32 = 2;

/// What goes along beside the bottles of a design: gloves, bags, acid, spares, the counter.
pub fn gear(design: &Design, wells: usize) -> Vec<Message> {
    let samples = design.samples.saturating_mul(u32::try_from(wells.max(1)).unwrap_or(u32::MAX));
    let opened = samples.saturating_add(design.field_blanks).saturating_add(design.spikes);
    let carried = opened.saturating_add(design.trip_blanks);
    let spares = carried.div_ceil(BOTTLES_A_SPARE).max(LEAST_SPARES);
    let bottles = carried.saturating_add(spares);
    let acid_ml = f64::from(bottles) * design.volume_ml * ACID_SHARE * ACID_SPARE;
    let n = |x: u32| i64::from(x);
    vec![
        page::Spares { n: n(spares) }.into(),
        page::Gloves { n: n(opened.saturating_mul(GLOVES_A_BOTTLE)) }.into(),
        page::Bags { n: n(bottles.saturating_mul(BAGS_A_BOTTLE)) }.into(),
        page::Acid { volume: Shown::significant(acid_ml, 2, "mL") }.into(),
        page::Counter.into(),
    ]
}

/// The design to begin with: of those that would be accepted the cheapest that decides with a chance of 80 %, else the best.
pub fn first_choice(answer: &Answer) -> usize {
    let decides = answer.designs.iter().position(|d| d.ranked.power >= 0.8);
    decides.unwrap_or(answer.designs.len().saturating_sub(1))
}

/// The question as a sentence; empty where nothing is asked.
pub fn in_words(asked: &Asked) -> String {
    asked.question.says(asked.analyte.as_deref()).map_or_else(String::new, |says| says.text())
}

/// Completes a question from the runs of a programme.
///
/// # Errors
/// An analyte that no run measured, a well that is not there; the store cannot be read.
pub fn complete(store: &Store, runs: &[RunPair], mut asked: Asked) -> Result<Completed, Error> {
    let wells = wells(store, &asked)?;
    let analyte = asked.analyte.clone().unwrap_or_else(|| "Pb".into());
    let measured = |r: &&RunPair| r.1.results.iter().any(|x| x.analyte.element == analyte);
    let Some(run) = runs.iter().filter(measured).max_by_key(|r| r.0.run.started_at.clone()) else {
        return Err(Error::absent("run that measured", analyte, "; name another analyte, or give past_blanks_pg"));
    };
    let bottles: HashMap<String, Bottle> =
        store.bottles(&Filter::all())?.into_iter().map(|b| (b.label.clone(), b)).collect();
    let past = Past::of(run, &analyte, &bottles);
    let stated = asked.past_blanks_pg.is_some() || asked.sources.is_some();
    let n = past.blanks.len();
    let blanks: Message = said::BlanksOfRun { blanks: message::count(n), run: (&run.1.name).into() }.into();
    let mut from_record = past.fill(&mut asked, &blanks);
    if !stated && n > 1 {
        let mean_pg = past.blanks.iter().sum::<f64>() / n as f64;
        let minutes = past.minutes.filter(|m| *m > 0.0);
        let air_pg = past.air_pg().filter(|_| minutes.is_some()).unwrap_or(0.0).clamp(0.0, mean_pg);
        let source =
            |name: &str, per_unit_pg: f64| Source { name: name.into(), per_unit_pg, exposure: None, u_pg: None };
        asked.sources = Some(vec![
            source("bottle, acid, journey", mean_pg - air_pg),
            source("open_min", minutes.map_or(0.0, |m| air_pg / m)),
        ]);
        from_record.push(FromRecord::Blank { mean_pg, air_pg, blanks });
    }
    asked.wells = Some(Wells::Named(wells.clone()));
    bind(&Rules::new(store.check_rules()?), &mut asked);
    Ok(Completed { asked, wells, from_record })
}

/// Binds a question to a table of checks: beside what the question itself requires.
fn bind(rules: &Rules, asked: &mut Asked) {
    for (weight, checks) in [(Weight::Decisive, &mut asked.required), (Weight::Warning, &mut asked.warned)] {
        let more: Vec<Check> = rules.of_weight(weight).into_iter().filter(|c| !checks.contains(c)).collect();
        checks.extend(more);
    }
    asked.least_recovery = asked.least_recovery.or(Some(rules.limit(Check::NumberRecovery, 0.8)));
}

/// The wells asked about; all of the programme where none is named.
fn wells(store: &Store, asked: &Asked) -> Result<Vec<String>, Error> {
    let known: Vec<String> = store.wells()?.into_iter().filter(|w| !w.is_stream()).map(|w| w.name).collect();
    let Some(Wells::Named(names)) = &asked.wells else { return Ok(known) };
    match names.iter().find(|n| !known.contains(n)) {
        Some(name) => Err(Error::absent("well", name, format!("; there are {}", known.join(", ")))),
        None => Ok(names.clone()),
    }
}

/// What a run says of the variances of one analyte.
struct Past {
    blanks: Vec<f64>,
    trip_blanks: Vec<f64>,
    minutes: Option<f64>,
    laboratory_pg: Option<f64>,
    relative_sd: Option<f64>,
    spike_sd: Option<f64>,
    recovery_u: Option<f64>,
}

impl Past {
    fn of(run: &RunPair, element: &str, bottles: &HashMap<String, Bottle>) -> Self {
        let first = run.1.results.iter().find(|r| r.analyte.element == element).map(|r| r.analyte.clone());
        let at: Vec<usize> = (0..run.1.results.len())
            .filter(|i| Some(&run.1.results[*i].analyte) == first.as_ref() && run.1.results[*i].bottle.is_some())
            .collect();
        let (own, _) = own_and_shared(run.1, &at);
        let of = |role: Role| -> Vec<(usize, &Bottle, f64)> {
            let one = |(k, i): (usize, &usize)| {
                let r = &run.1.results[*i];
                let b = bottles.get(r.bottle.as_ref()?)?;
                Some((k, b, r.gross.value * b.volume_mL?)).filter(|_| r.role == role)
            };
            at.iter().enumerate().filter_map(one).collect()
        };
        let field = of(Role::FieldBlank);
        let laboratory: Vec<f64> = field.iter().filter_map(|(k, b, _)| Some(own[*k] * b.volume_mL?)).collect();
        let minutes: Vec<f64> =
            (field.iter()).map(|(_, b, _)| b.cabinet_min.unwrap_or(0.0) + b.open_air_min.unwrap_or(0.0)).collect();
        let mean = |x: &[f64]| Moments::of(x).map(|m| m.mean);
        let recoveries: Vec<f64> =
            (run.1.spikes.iter()).filter(|s| Some(&s.analyte) == first.as_ref()).map(|s| s.recovery.value).collect();
        // Pairs of duplicates: half the squared relative difference is the variance of one bottle.
        let pairs: Vec<f64> = (run.1.duplicates.iter())
            .filter(|p| Some(&p.analyte) == first.as_ref())
            .filter_map(|p| {
                let value = |position: u32| run.1.find(position, &p.analyte).map(|i| run.1.results[i].net.value);
                let level = 0.5 * (value(p.position)? + value(p.of_position)?);
                (level > 0.0).then(|| 0.5 * (p.difference.value / level).powi(2))
            })
            .collect();
        let spikes = mean_sd(&recoveries);
        Self {
            blanks: field.iter().map(|f| f.2).collect(),
            trip_blanks: of(Role::TripBlank).iter().map(|f| f.2).collect(),
            minutes: mean(&minutes),
            laboratory_pg: mean(&laboratory),
            relative_sd: scatter_of_one(&pairs),
            spike_sd: spikes.map(|s| s.1),
            recovery_u: spikes.map(|s| s.1 / (recoveries.len() as f64).sqrt()),
        }
    }

    /// Puts what the runs say where the question says nothing; each addition is given back.
    fn fill(&self, asked: &mut Asked, blanks: &Message) -> Vec<FromRecord> {
        let mut out = vec![];
        let mut add = |key, into: &mut Option<f64>, value: Option<f64>, why: Message, says: Taken| {
            if let (Some(value), None) = (value.filter(|v| v.is_finite()), *into) {
                *into = Some(value);
                let value = Shown::significant(value, 3, "");
                out.push(FromRecord::Field {
                    key,
                    value: value.clone(),
                    why: why.clone(),
                    says: says(key, value, why),
                });
            }
        };
        let n = self.blanks.len();
        let why = said::BetweenBlanks { blanks: blanks.clone() }.into();
        add("between_bottles_pg", &mut asked.between_bottles_pg, self.between_pg(), why, taken_mass);
        let why = said::DofOfBlanks { blanks: blanks.clone() }.into();
        add("past_dof", &mut asked.past_dof, (n > 1).then_some(n as f64 - 1.0), why, taken);
        let why = said::LaboratoryOfBlanks { blanks: blanks.clone() }.into();
        add("laboratory_pg", &mut asked.laboratory_pg, self.laboratory_pg, why, taken_mass_alone);
        add("relative_sd", &mut asked.relative_sd, self.relative_sd, said::ScatterOfPairs.into(), taken);
        add("spike_sd", &mut asked.spike_sd, self.spike_sd, said::ScatterOfSpikes.into(), taken);
        add("recovery_u", &mut asked.recovery_u, self.recovery_u, said::UOfSpikes.into(), taken);
        out
    }

    /// Deviation between blanks beyond the laboratory's own.
    fn between_pg(&self) -> Option<f64> {
        let sd = mean_sd(&self.blanks)?.1;
        Some((sd * sd - self.laboratory_pg.unwrap_or(0.0).powi(2)).max(0.0).sqrt())
    }

    /// What air and hands brought: field less trip blanks.
    fn air_pg(&self) -> Option<f64> {
        let mean = |x: &[f64]| Moments::of(x).map(|m| m.mean);
        Some(mean(&self.blanks)? - mean(&self.trip_blanks)?)
    }
}

/// Key, number and reason as one message.
type Taken = fn(&'static str, Shown, Message) -> Message;

fn taken(key: &'static str, value: Shown, why: Message) -> Message {
    said::Taken { key: key.into(), value, why }.into()
}

fn taken_mass(key: &'static str, value: Shown, why: Message) -> Message {
    said::TakenMass { key: key.into(), value, why }.into()
}

fn taken_mass_alone(key: &'static str, value: Shown, why: Message) -> Message {
    said::TakenMassAlone { key: key.into(), value, why }.into()
}

/// Relative deviation of one bottle from what each pair of duplicates says of its square. One pair that truly differs
/// (flakes of a pipe) must not speak for all: the median.
fn scatter_of_one(squares: &[f64]) -> Option<f64> {
    median(squares).map(f64::sqrt)
}

/// A trip to be made.
#[derive(Debug, Clone)]
pub struct NewTrip<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its day.
    pub starts: &'a str,
    /// What it is to decide.
    pub question: &'a str,
    /// Wells it goes to; field blanks are made at each in turn.
    pub wells: &'a [String],
    /// The design.
    pub design: Design,
}

/// Labels and kinds of the bottles of a new trip: label, kind, well, the sample it belongs to.
pub fn bottles(trip: &NewTrip) -> Vec<(String, BottleKind, Option<String>, Option<String>)> {
    let tail = tail(trip.name);
    let d = &trip.design;
    let mut out = vec![];
    let short = |well: &str| well.replace(['-', ' '], "");
    let first_of = |well: &str| format!("{}-{tail}-A", short(well));
    for well in trip.wells {
        for i in 0..d.samples {
            let letter = letters(i);
            let label = format!("{}-{tail}-{letter}", short(well));
            let (kind, parent) =
                if i == 0 { (BottleKind::Sample, None) } else { (BottleKind::Duplicate, Some(first_of(well))) };
            out.push((label, kind, Some(well.clone()), parent));
        }
    }
    let blanks = [
        ("FB", BottleKind::FieldBlank, d.field_blanks),
        ("TB", BottleKind::TripBlank, d.trip_blanks),
        ("BB", BottleKind::BottleBlank, d.bottle_blanks),
    ];
    for (prefix, kind, n) in blanks {
        // A blank tells of the air that it was opened in: each well has its own, as far as they go.
        let wells = if kind == BottleKind::FieldBlank { trip.wells } else { &[] };
        let mut turn = wells.iter().cycle();
        out.extend((1..=n).map(|i| (format!("{prefix}-{tail}-{i}"), kind, turn.next().cloned(), None)));
    }
    // A recovery speaks of its own water: each well has its spikes.
    let spiked = trip.wells.iter().enumerate().flat_map(|(i, well)| {
        let n = d.spikes_at(i, trip.wells.len());
        (0..n).map(move |_| well)
    });
    for (i, well) in spiked.enumerate() {
        let label = format!("FS-{tail}-{}", i + 1);
        out.push((label, BottleKind::FieldSpike, Some(well.clone()), Some(first_of(well))));
    }
    out
}

/// A, B … Z, AA, AB …
fn letters(i: u32) -> String {
    let letter = char::from(b'A' + (i % 26) as u8);
    if i < 26 { letter.to_string() } else { format!("{}{letter}", letters(i / 26 - 1)) }
}

/// Year and month of a trip named after them (SL-2026-07 gives 26-07), else its whole name.
fn tail(name: &str) -> String {
    let parts: Vec<&str> = name.rsplitn(3, '-').collect();
    match parts.as_slice() {
        [month, year, ..] if month.len() == 2 && year.len() == 4 && year.bytes().all(|b| b.is_ascii_digit()) => {
            format!("{}-{month}", &year[2..])
        }
        _ => name.to_string(),
    }
}

/// What bottles of a new trip have in common: the newest lot, and the fraction of most samples of the newest trip.
///
/// # Errors
/// The store cannot be read.
pub fn usual_bottle(store: &Store) -> Result<(Option<String>, Option<String>), Error> {
    let lot = store.list::<Lot>(&Filter::all())?.pop().map(|l| l.name);
    let trips = store.trips()?;
    let Some(newest) = trips.iter().max_by(|a, b| a.starts.cmp(&b.starts)) else { return Ok((lot, None)) };
    let mut fractions: HashMap<String, usize> = HashMap::new();
    for b in store.bottles(&Filter::all().is("trip", newest.id))?.into_iter().filter(|b| b.kind.is_water()) {
        if let Some(fraction) = b.fraction {
            *fractions.entry(fraction).or_default() += 1;
        }
    }
    // Of as many the first by name, so that the same record gives the same trip.
    let most = fractions.into_iter().max_by(|a, b| a.1.cmp(&b.1).then(b.0.cmp(&a.0)));
    Ok((lot, most.map(|m| m.0)))
}

/// Writes trip and bottles as one entry.
///
/// # Errors
/// [`EntryError`]: a trip or label that is there already with other content, a date that is none.
pub fn make_trip(store: &mut Store, trip: &NewTrip, by: By) -> Result<Entered, EntryError> {
    if store.trips()?.iter().any(|t| t.name == trip.name) {
        return Err(Error::Unfit {
            what: format!("trip {}", trip.name),
            found: "it is on record already".into(),
            expected: "a name of its own".into(),
        }
        .into());
    }
    let mut rows =
        vec![TypedRow::of("trip").with("name", trip.name).with("starts", trip.starts).with("question", trip.question)];
    let (lot, fraction) = usual_bottle(store)?;
    for (label, kind, well, parent) in bottles(trip) {
        let mut row = TypedRow::of("bottle").with("label", label).with("kind", kind.word());
        for (column, value) in [("lot", &lot), ("fraction", &fraction)] {
            if let Some(value) = value {
                row = row.with(column, value);
            }
        }
        // A bottle blank stays at home.
        if kind != BottleKind::BottleBlank {
            row = row.with("trip", trip.name);
        }
        for (column, value) in [("well", well), ("parent", parent)] {
            if let Some(value) = value {
                row = row.with(column, value);
            }
        }
        rows.push(row.with("volume_mL", trip.design.volume_ml.to_string()));
    }
    enter(store, by, &format!("trip {} made from a plan", trip.name), &rows)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_two_pairs_the_larger_does_not_speak_for_both() {
        // Python 3.11.7: statistics.median([0.0001, 0.09]) = 0.04505.
        assert_eq!(scatter_of_one(&[0.09, 0.0001]), Some(0.04505_f64.sqrt()));
        assert_eq!(scatter_of_one(&[0.09, 0.0001, 0.0004]), Some(0.02));
        assert_eq!(scatter_of_one(&[]), None);
    }
}
