//! What the programme gives a sheet: trip, people, wells with their casing, planned bottles, lots,
//! acids, filters; what earlier trips found at each well (`past`); criteria and class limits from the
//! tables that the programme itself judges by.

use super::fields;
use super::past::{self, Past};
use aquifer::purge::{self, Criterion};
use aquifer::well::Section;
use assessment::field_checks::{WATCHED, rule_of};
use assessment::verdict::Rules;
use cleanliness::air;
use intake::field::{DAYS_AFTER, DAYS_BEFORE, EXPORT_FORMAT, EXPORT_VERSION, programme_id, sheet_id};
use message::{Lang, Spoken as _};
use quantity::Check;
use record::Error;
use record::bounds::{self, Bound};
use record::model::{Bottle, BottleKind};
use record::schema;
use record::store::{Filter, Store};
use record::usual::{self, Usual};
use serde::Serialize;
use std::collections::BTreeMap;

/// Everything in a sheet. Serialised, it is what the page carries.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Data {
    /// Form of the file that the sheet saves.
    pub format: &'static str,
    /// Its version.
    pub version: u64,
    /// Name of the sheet.
    pub sheet: String,
    /// Whose it is.
    pub programme: Programme,
    /// Whether the site does not exist.
    pub invented: bool,
    /// The trip.
    pub trip: Trip,
    /// Who may sample.
    pub people: Vec<Person>,
    /// Wells, those with bottles of the trip first.
    pub wells: Vec<Well>,
    /// Planned bottles.
    pub bottles: Vec<Planned>,
    /// Lots of bottles.
    pub lots: Vec<Lot>,
    /// Acid lots.
    pub acids: Vec<Named>,
    /// Filter lots.
    pub filters: Vec<FilterLot>,
    /// Quantities read at a well.
    pub watched: Vec<Watched>,
    /// Criteria of stability, all.
    pub criteria: Vec<Criterion>,
    /// What a value can be at all.
    pub bounds: Vec<Range>,
    /// What the trade is used to.
    pub usual: Vec<UsualRange>,
    /// Units of the columns that a sheet fills, as people read them: `bottle.volume_mL`, mL.
    pub units: BTreeMap<String, String>,
    /// Class, size µm, limit per m³.
    pub classes: Vec<(u8, f64, Option<f64>)>,
    /// Limits of the programme.
    pub limits: Limits,
    /// Days that the phone may be off.
    pub clock: Clock,
    /// Fields in order.
    pub fields: BTreeMap<&'static str, Vec<&'static str>>,
    /// All words, by language and key.
    pub words: BTreeMap<&'static str, BTreeMap<String, String>>,
    /// The language that it begins with.
    pub language: &'static str,
    /// What can be tapped.
    pub choices: BTreeMap<&'static str, Choices>,
}

/// What a value can be at all, as the sheet asks about it: `record::bounds`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Range {
    /// A quantity as the record names it, or what a column holds.
    pub quantity: &'static str,
    /// Least.
    pub lower: f64,
    /// Most.
    pub upper: f64,
    /// The range in words, by language.
    pub said: BTreeMap<&'static str, String>,
}

/// A usual range as the sheet asks about it: `record::usual`.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct UsualRange {
    /// A quantity, or table and column.
    pub quantity: &'static str,
    /// Least, in `unit`.
    pub lower: f64,
    /// Most, in `unit`.
    pub upper: f64,
    /// Unit of both.
    pub unit: &'static str,
    /// The unit as it stands beside the figures; pH has none.
    pub shown_unit: &'static str,
}

/// Words or numbers to choose from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Choices {
    /// Words.
    Words(Vec<&'static str>),
    /// Numbers.
    Numbers(Vec<f64>),
}

/// Whose sheet it is.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Programme {
    /// Hash of its first event.
    pub id: String,
    /// Name.
    pub name: String,
    /// Hash of its last event when the sheet was made.
    pub head: String,
}

/// The trip.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trip {
    /// Name.
    pub name: String,
    /// Start.
    pub starts: String,
    /// End, where planned.
    pub ends: Option<String>,
    /// What it is to decide.
    pub question: Option<String>,
}

/// A person.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Person {
    /// Name.
    pub name: String,
    /// Role.
    pub role: Option<String>,
}

/// A well.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Well {
    /// Name.
    pub name: String,
    /// In words.
    pub description: Option<String>,
    /// Flows always, shut between visits, pumped.
    pub flow_note: Option<String>,
    /// Stretches of pipe that the water meets.
    pub sections: Vec<Section>,
    /// What earlier trips found of each quantity.
    pub past: Vec<Past>,
}

/// A bottle as planned.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(non_snake_case, reason = "units keep their capitals: mL")]
pub struct Planned {
    /// Label.
    pub label: String,
    /// Kind.
    pub kind: String,
    /// Well.
    pub well: Option<String>,
    /// Lot.
    pub lot: Option<String>,
    /// Fraction.
    pub fraction: Option<String>,
    /// Filter lot.
    pub filter: Option<String>,
    /// Volume, mL.
    pub volume_mL: Option<f64>,
    /// The sample that it belongs to.
    pub parent: Option<String>,
}

/// A lot of bottles.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(non_snake_case, reason = "units keep their capitals: mL")]
pub struct Lot {
    /// Name.
    pub name: String,
    /// Nominal volume, mL.
    pub volume_mL: Option<f64>,
}

/// Something with a name.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Named {
    /// Name.
    pub name: String,
    /// Kind.
    pub kind: Option<String>,
}

/// A filter lot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FilterLot {
    /// Name.
    pub name: String,
    /// Pore size, µm.
    pub pore_um: f64,
}

/// A quantity read at a well.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Watched {
    /// As the record names it.
    pub quantity: &'static str,
    /// As the criteria name it.
    pub parameter: &'static str,
    /// Unit.
    pub unit: &'static str,
    /// The unit as it stands beside the figures; pH has none.
    pub shown_unit: &'static str,
    /// Set of criteria it is held against.
    pub rule: Option<&'static str>,
    /// Step of a tap, in the unit.
    pub step: f64,
    /// Decimals.
    pub places: u8,
    /// Where the taps begin.
    pub start: f64,
}

/// Limits of the programme, and of the sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Limits {
    /// Longest contact with the pipe, min.
    pub contact_min: f64,
    /// Class wanted over an open bottle.
    pub air_class: u8,
    /// Volumes to renew.
    pub volumes: f64,
    /// Relative standard uncertainty of a container's mark.
    pub mark_relative_u: f64,
    /// Photographs at most.
    pub photographs: u32,
    /// Bytes of each at most.
    pub photograph_bytes: u32,
}

/// Days that the phone may be off.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Clock {
    /// Before the start.
    pub before_days: i64,
    /// After the start.
    pub after_days: i64,
}

/// Sizes of the printed table of classes, µm.
// ISO 14644-1:2015, Table 1.
const TABLE_SIZES_UM: [f64; 6] = [0.1, 0.2, 0.3, 0.5, 1.0, 5.0];

/// Half a percent: a line on a bucket read from above. Common practice; the programme's own choice.
const MARK_RELATIVE_U: f64 = 0.005;

/// Gathers the sheet of a trip.
///
/// # Errors
/// No such trip, a programme without any act; the store cannot be read.
pub fn gather(store: &Store, trip: &str, name: &str) -> Result<Data, Error> {
    let trips = store.trips()?;
    let Some(t) = trips.iter().find(|t| t.name == trip) else {
        let known: Vec<&str> = trips.iter().map(|t| t.name.as_str()).collect();
        let hint =
            if known.is_empty() { "; enter one first".into() } else { format!("; there are {}", known.join(", ")) };
        return Err(Error::absent("trip", trip, hint));
    };
    let (Some(id), Some(head)) = (programme_id(store)?, store.head()?) else {
        return Err(Error::absent("trip", trip, ""));
    };
    let mut bottles = planned(store, t.id)?;
    let rules = Rules::new(store.check_rules()?);
    let wells = wells_of(store, &bottles, past::of(store, t)?)?;
    // As they are met on the way: well by well, what belongs to none first.
    bottles.sort_by_key(|b| wells.iter().position(|w| Some(&w.name) == b.well.as_ref()).map_or(0, |p| p + 1));
    Ok(Data {
        format: EXPORT_FORMAT,
        version: EXPORT_VERSION,
        sheet: sheet_id(id, head, trip),
        programme: Programme { id: id.to_string(), name: name.into(), head: head.to_string() },
        invented: store.sites()?.iter().any(|s| s.invented == Some(true)),
        trip: Trip {
            name: t.name.clone(),
            starts: t.starts.clone(),
            ends: t.ends.clone(),
            question: t.question.clone(),
        },
        people: store.persons()?.into_iter().map(|p| Person { name: p.name, role: p.role }).collect(),
        wells,
        bottles,
        lots: store.lots()?.into_iter().map(|l| Lot { name: l.name, volume_mL: l.volume_mL }).collect(),
        acids: store.acids()?.into_iter().map(|a| Named { name: a.name, kind: a.kind }).collect(),
        filters: store.filters()?.into_iter().map(|f| FilterLot { name: f.name, pore_um: f.pore_um }).collect(),
        watched: watched(),
        criteria: purge::criteria().to_vec(),
        bounds: bounds::table().iter().map(range).collect(),
        usual: usual::table().iter().map(usual_range).collect(),
        units: units(),
        classes: classes(),
        limits: Limits {
            contact_min: rules.longest_contact_min(),
            air_class: rules.limit(Check::AirClass, 5.0) as u8,
            volumes: rules.limit(Check::WellRenewed, 3.0),
            mark_relative_u: MARK_RELATIVE_U,
            photographs: 10,
            photograph_bytes: 200_000,
        },
        clock: Clock { before_days: DAYS_BEFORE, after_days: DAYS_AFTER },
        fields: order(),
        words: fields::on_the_phone(),
        language: message::language().code(),
        choices: choices(),
    })
}

fn order() -> BTreeMap<&'static str, Vec<&'static str>> {
    [("trip", fields::TRIP), ("well", fields::WELL), ("bottle", fields::BOTTLE), ("box", fields::BOX)]
        .into_iter()
        .map(|(place, list)| (place, list.to_vec()))
        .collect()
}

fn units() -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    for table in ["bottle", "fill", "air_count", "custody"].into_iter().filter_map(schema::table) {
        for column in table.columns {
            out.extend(column.fixed_unit().map(|u| (format!("{}.{}", table.name, column.name), u.to_string())));
        }
    }
    out
}

fn choices() -> BTreeMap<&'static str, Choices> {
    let mut out: BTreeMap<_, _> = fields::CHOICES.iter().map(|(id, w)| (*id, Choices::Words(w.to_vec()))).collect();
    let kinds = BottleKind::ALL.iter().filter(|k| **k != BottleKind::LabSpike && **k != BottleKind::ReferenceMaterial);
    out.insert("kind", Choices::Words(kinds.map(|k| k.word()).collect()));
    for (id, numbers) in
        [("container_L", fields::CONTAINERS_L), ("air_volume_L", fields::AIR_VOLUMES_L), ("size_um", fields::SIZES_UM)]
    {
        out.insert(id, Choices::Numbers(numbers.to_vec()));
    }
    out
}

fn planned(store: &Store, trip: i64) -> Result<Vec<Planned>, Error> {
    let filters = store.filters()?;
    let of = |b: Bottle| Planned {
        filter: filters.iter().find(|f| Some(f.id) == b.filter_id).map(|f| f.name.clone()),
        label: b.label,
        kind: b.kind.word().into(),
        well: b.well,
        lot: b.lot,
        fraction: b.fraction,
        volume_mL: b.volume_mL,
        parent: b.parent,
    };
    // Laboratory spikes and reference materials are filled at the bench.
    let bench = [BottleKind::LabSpike, BottleKind::ReferenceMaterial];
    let all = store.bottles(&Filter::all().is("trip", trip))?;
    Ok(all.into_iter().filter(|b| !bench.contains(&b.kind)).map(of).collect())
}

fn wells_of(store: &Store, bottles: &[Planned], mut past: BTreeMap<i64, Vec<Past>>) -> Result<Vec<Well>, Error> {
    let mut out = vec![];
    for w in store.wells()? {
        let sections = intake::site::construction(&store.well_sections(w.id)?, &[], None).sections;
        let past = past.remove(&w.id).unwrap_or_default();
        out.push(Well { name: w.name, description: w.description, flow_note: w.flow_note, sections, past });
    }
    // A stable sort: wells of the trip first, each group in the record's order.
    out.sort_by_key(|w| !bottles.iter().any(|b| b.well.as_deref() == Some(&w.name)));
    Ok(out)
}

/// Step, decimals and start of a quantity's taps: what field meters show.
fn taps(quantity: &str) -> (f64, u8, f64) {
    match quantity {
        "temperature" => (0.1, 1, 9.0),
        "pH" => (0.01, 2, 7.0),
        "conductivity" => (1.0, 0, 400.0),
        "dissolved oxygen" => (0.01, 2, 0.1),
        "turbidity" => (0.1, 1, 0.5),
        _ => (1.0, 0, 0.0),
    }
}

fn usual_range(u: &'static Usual) -> UsualRange {
    UsualRange { quantity: &u.quantity, lower: u.lower, upper: u.upper, unit: &u.unit, shown_unit: u.shown_unit() }
}

fn range(b: &'static Bound) -> Range {
    // What lies beyond every bound is refused in the words of the table.
    let refused = b.check(f64::INFINITY).expect_err("every bound ends somewhere");
    let said = Lang::ALL.map(|l| (l.code(), refused.in_language(l))).into_iter().collect();
    Range { quantity: &b.quantity, lower: b.lower, upper: b.upper, said }
}

fn watched() -> Vec<Watched> {
    WATCHED
        .iter()
        .map(|(quantity, parameter, unit)| {
            let (step, places, start) = taps(quantity);
            // pH has no unit beside its name.
            let shown_unit = if unit == quantity { "" } else { *unit };
            Watched { quantity, parameter, unit, shown_unit, rule: rule_of(parameter), step, places, start }
        })
        .collect()
}

fn classes() -> Vec<(u8, f64, Option<f64>)> {
    (1..=9).flat_map(|k| TABLE_SIZES_UM.map(|size| (k, size, air::class_limit(k, size)))).collect()
}
