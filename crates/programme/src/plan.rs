//! The plan of the next trip by the record: a person's question, what the programme's own blanks, duplicates and
//! spikes say of the variances, and a trip with its bottles made from a design that was chosen.
//!
//! In: the question as JSON or TOML (the input of the calculation `plan`, with `analyte` and `wells`); what the person
//! leaves out comes from the record: blanks in pg per bottle, scatter, laboratory, recovery. Out: the completed input,
//! the designs that nothing beats, and, on demand, rows for a trip. What was taken from the record, and from how many
//! bottles, is said. The science is [`cleanliness::plan`]. Checked in `tests/blame.rs`.

use assessment::attribution::{RunPair, own_and_shared};
use intake::entry::{Entered, EntryError, TypedRow, enter};
use measurement::run::Role;
use quantity::CalcError;
use record::by::By;
use record::error::Error;
use record::model::{Bottle, BottleKind};
use record::store::{Filter, Store};
use serde_json::{Value, json};
use statistics::sample::{Moments, mean_sd, median};
use std::collections::HashMap;

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
/// [`Error::Unfit`] with what both readers say.
pub fn read(text: &str) -> Result<Value, Error> {
    let fault = |found: String| Error::Unfit {
        what: "the question".into(),
        found,
        expected: "JSON or TOML as `limpid plan --example` prints it".into(),
    };
    if text.trim_start().starts_with('{') {
        return serde_json::from_str(text).map_err(|e| fault(e.to_string()));
    }
    toml::from_str::<Value>(text).map_err(|e| fault(e.to_string().trim_end().to_string()))
}

/// The question with what the record adds; each addition in words.
pub struct Completed {
    /// Input of the calculation.
    pub input: Value,
    /// What came from the record, and from how many bottles.
    pub from_record: Vec<String>,
}

/// The designs that nothing beats, by the calculation `plan`.
///
/// # Errors
/// [`CalcError`] names the field, what was found and what is expected.
pub fn rank(input: &Value) -> Result<Value, CalcError> {
    let plan = cleanliness::CALCULATIONS.iter().find(|c| c.name == "plan").expect("the calculation of plans is there");
    (plan.run)(input)
}

/// The design to begin with: the cheapest that decides with a chance of 80 %, else the best.
pub fn first_choice(answer: &Value) -> usize {
    let designs = answer["designs"].as_array().map_or(0, Vec::len);
    let power = |i: &usize| answer["designs"][*i]["power"].as_f64().unwrap_or(0.0);
    (0..designs).find(|i| power(i) >= 0.8).unwrap_or(designs.saturating_sub(1))
}

/// The question as a sentence.
pub fn in_words(question: &Value) -> String {
    let q = &question["question"];
    let level = |key: &str| match &q[key] {
        Value::Number(n) => format!("{n} ng/L"),
        Value::Object(o) => format!(
            "{} {}",
            o.get("value").map(Value::to_string).unwrap_or_default(),
            o.get("unit").and_then(Value::as_str).unwrap_or("ng/L")
        ),
        _ => "a level not given".into(),
    };
    let metal = question["analyte"].as_str().unwrap_or("the metal");
    match q["kind"].as_str().unwrap_or_default() {
        "detect" => format!("Will {metal} of {} be detected?", level("level")),
        "limit" => format!("Will {metal} of {} be shown to lie on its side of {}?", level("level"), level("limit")),
        "lower" => format!("Will {metal} of {} be shown to be lower than {}?", level("a"), level("b")),
        "trend" => {
            format!("Will a change of {metal} of {} % a year in {} years be seen?", q["percent_per_year"], q["years"])
        }
        "detection-limit" => format!("Is a detection limit of {} for {metal} reached?", level("target")),
        _ => String::new(),
    }
}

/// Completes a question from the runs of a programme.
///
/// # Errors
/// An analyte that no run measured, a well that is not there; the store cannot be read.
pub fn complete(store: &Store, runs: &[RunPair], mut input: Value) -> Result<Completed, Error> {
    let wells = wells(store, &mut input)?;
    let analyte = input.get("analyte").and_then(Value::as_str).unwrap_or("Pb").to_string();
    let measured = |r: &&RunPair| r.1.results.iter().any(|x| x.analyte.element == analyte);
    let Some(run) = runs.iter().filter(measured).max_by_key(|r| r.0.run.started_at.clone()) else {
        return Err(Error::absent("run that measured", analyte, "; name another analyte, or give past_blanks_pg"));
    };
    let bottles: HashMap<String, Bottle> =
        store.bottles(&Filter::all())?.into_iter().map(|b| (b.label.clone(), b)).collect();
    let past = Past::of(run, &analyte, &bottles);
    let mut from_record = vec![];
    let run_name = &run.1.name;
    let mut add = |key: &str, value: Option<f64>, words: String| {
        if let (Some(v), None) = (value.filter(|v| v.is_finite()), input.get(key)) {
            input[key] = json!(v);
            from_record.push(format!("{key} {}: {words}", quantity::format::significant(v, 3)));
        }
    };
    let n = past.blanks.len();
    let blanks = format!("{n} field blanks of run {run_name}");
    add("between_bottles_pg", past.between_pg(), format!("pg between {blanks}, the laboratory's part taken off"));
    add("past_dof", (n > 1).then_some(n as f64 - 1.0), format!("degrees of freedom of {blanks}"));
    add("laboratory_pg", past.laboratory_pg, format!("pg, the laboratory's own u of one of {blanks}"));
    add("relative_sd", past.relative_sd, "scatter of one bottle, from pairs of duplicates".into());
    add("spike_sd", past.spike_sd, "scatter of spike recoveries".into());
    add("recovery_u", past.recovery_u, "u of the recovery by the spikes so far".into());
    let stated = ["past_blanks_pg", "sources"].iter().any(|k| input.get(*k).is_some());
    if !stated && n > 1 {
        let mean = past.blanks.iter().sum::<f64>() / n as f64;
        let minutes = past.minutes.filter(|m| *m > 0.0);
        let air = past.air_pg().filter(|_| minutes.is_some()).unwrap_or(0.0).clamp(0.0, mean);
        from_record.push(format!(
            "blank {} pg: mean of {blanks}; of it {} pg by air and hands while open (field less trip blanks)",
            quantity::format::significant(mean, 3),
            quantity::format::significant(air, 3)
        ));
        input["sources"] = json!([
            { "name": "bottle, acid, journey", "per_unit_pg": mean - air },
            { "name": "open_min", "per_unit_pg": minutes.map_or(0.0, |m| air / m) },
        ]);
    }
    input["wells"] = json!(wells);
    if let Some(map) = input.as_object_mut() {
        map.remove("analyte");
    }
    Ok(Completed { input, from_record })
}

/// The wells asked about; all of the programme where none is named.
fn wells(store: &Store, input: &mut Value) -> Result<Vec<String>, Error> {
    let all = store.wells()?;
    let Some(Value::Array(names)) = input.get("wells") else {
        return Ok(all.into_iter().filter(|w| !w.is_stream()).map(|w| w.name).collect());
    };
    let known: Vec<String> = all.into_iter().filter(|w| !w.is_stream()).map(|w| w.name).collect();
    let mut out = vec![];
    for name in names {
        let name = name.as_str().unwrap_or_default();
        if !known.iter().any(|k| k == name) {
            return Err(Error::absent("well", name, format!("; there are {}", known.join(", "))));
        }
        out.push(name.to_string());
    }
    Ok(out)
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

/// Relative deviation of one bottle from what each pair of duplicates says of its square. One pair that truly differs
/// (flakes of a pipe) must not speak for all: the median.
fn scatter_of_one(squares: &[f64]) -> Option<f64> {
    median(squares).map(f64::sqrt)
}

/// A design as the calculation gives it, on its way into the record.
#[derive(Debug, Clone, Copy, PartialEq, serde::Deserialize)]
pub struct Chosen {
    /// Sample bottles a well.
    pub samples: u32,
    /// Field blanks.
    pub field_blanks: u32,
    /// Trip blanks.
    pub trip_blanks: u32,
    /// Bottle blanks.
    pub bottle_blanks: u32,
    /// Spiked bottles.
    pub spikes: u32,
    /// Fill volume, mL.
    pub volume_ml: f64,
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
    /// Wells it goes to; field blanks and spikes are made at the first.
    pub wells: &'a [String],
    /// The design.
    pub design: Chosen,
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
    let first = trip.wells.first();
    let blanks = [
        ("FB", BottleKind::FieldBlank, d.field_blanks, first),
        ("TB", BottleKind::TripBlank, d.trip_blanks, None),
        ("BB", BottleKind::BottleBlank, d.bottle_blanks, None),
    ];
    for (prefix, kind, n, well) in blanks {
        out.extend((1..=n).map(|i| (format!("{prefix}-{tail}-{i}"), kind, well.cloned(), None)));
    }
    if let Some(well) = first {
        out.extend(
            (1..=d.spikes)
                .map(|i| (format!("FS-{tail}-{i}"), BottleKind::FieldSpike, Some(well.clone()), Some(first_of(well)))),
        );
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
    for (label, kind, well, parent) in bottles(trip) {
        let mut row = TypedRow::of("bottle").with("label", label).with("kind", kind.word());
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
