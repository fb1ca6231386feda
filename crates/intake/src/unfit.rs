//! Rows that no derivation can use: a fill in no time, a count at a size that the other counts of its place do not have,
//! pipes or layers that overlap, a trip that ends before it starts. Alone each may look well; it is beside the others
//! that it cannot be.
//!
//! In: the fills, counts or sections of one place. Out: the rows at fault ([`Unfit`]), each with its column, what was
//! found and what was expected, in the words of the science that refuses it. The importer, forms and corrections ask
//! before a row is kept (the newest rows are the ones at fault); evidence asks of what is kept already, says so beside
//! the results that stand on it, and goes on with the rest. Nothing is left out of a sum in silence: of fills or counts
//! among which one cannot be, none is used until a person has put it right.
//! Checked in `crates/programme/tests/kept_rows.rs`.

use crate::import::fault::fault;
use crate::site;
use aquifer::well::{self, Fills};
use cleanliness::air::{self, AirSample, Count};
use message::{Message, Shown, intake, unfit as said};
use quantity::{Refusal, Unit};
use record::bounds;
use record::model::{AirCount, FieldReading, Fill, Layer, Trip, WellSection};
use record::store::{Act, Filter, StoreError};
use std::collections::{BTreeMap, BTreeSet};

/// A row that cannot be as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Unfit {
    /// Table of the record.
    pub table: &'static str,
    /// Row in it.
    pub row: i64,
    /// Column at fault.
    pub column: &'static str,
    /// What stands there, and what could.
    pub says: Message,
}

impl Unfit {
    fn new(table: &'static str, row: i64, column: &'static str, refusal: Refusal) -> Self {
        let says = match refusal {
            Refusal::OutOfRange { found, expected, .. } => {
                intake::FaultByScience { found: found.into(), expected: expected.into() }.into()
            }
            other => fault(said::Unusable, other.message()).into(),
        };
        Self { table, row, column, says }
    }
}

/// The rows, and what a person can do.
pub fn message(rows: &[Unfit]) -> Message {
    let one = |r: &Unfit| -> Message {
        said::Row {
            table: r.table.into(),
            row: r.row.to_string().into(),
            column: r.column.into(),
            fault: r.says.clone(),
        }
        .into()
    };
    let all = rows.iter().rev().map(one).reduce(|more, one| said::Rows { one, more }.into());
    // Nobody asks of no row; a list of none would still be no sentence.
    let rows = all.unwrap_or_else(|| said::NoValue.into());
    said::Correct { rows }.into()
}

/// Rows that do not go with those before them, in the order given, and why.
fn one_by_one<'a, T>(rows: &[&'a T], check: impl Fn(&[&'a T]) -> Result<(), Refusal>) -> Vec<(&'a T, Refusal)> {
    if check(rows).is_ok() {
        return vec![];
    }
    let (mut good, mut out) = (vec![], vec![]);
    for row in rows {
        good.push(*row);
        if let Err(e) = check(&good) {
            good.pop();
            out.push((*row, e));
        }
    }
    out
}

/// Fills of one well on one trip.
pub fn fills(rows: &[&Fill]) -> Vec<Unfit> {
    // Each alone too: of several marks the first one's u is taken, and a row behind it may become the first.
    let check = |some: &[&Fill]| {
        some.iter().try_for_each(|f| flow_of(&[f]).map(|_| ()))?;
        if some.is_empty() { Ok(()) } else { flow_of(some).map(|_| ()) }
    };
    let column = |f: &Fill| {
        if !(f.volume_L > 0.0 && f.volume_L.is_finite()) {
            "volume_L"
        } else if flow_of(&[&Fill { u_volume_L: None, ..f.clone() }]).is_err() {
            "seconds"
        } else {
            "u_volume_L"
        }
    };
    one_by_one(rows, check).into_iter().map(|(f, e)| Unfit::new("fill", f.id, column(f), e)).collect()
}

/// The flow by timed fills, as the record holds them.
///
/// # Errors
/// What the science of the well refuses.
pub fn flow_of(rows: &[&Fill]) -> Result<well::Flow, Refusal> {
    well::flow(&Fills {
        fills: rows.iter().map(|f| well::Fill { volume_l: f.volume_L, seconds: f.seconds }).collect(),
        u_mark_l: rows.iter().find_map(|f| f.u_volume_L),
        u_seconds: None,
    })
}

/// Casing and screen of one well.
pub fn sections(rows: &[WellSection]) -> Vec<Unfit> {
    let all: Vec<&WellSection> = rows.iter().collect();
    let check = |some: &[&WellSection]| {
        let some: Vec<WellSection> = some.iter().map(|s| (*s).clone()).collect();
        site::construction(&some, &[], None).check().map_err(Refusal::from)
    };
    let column = |s: &WellSection| if s.radius_m > 0.0 && s.radius_m.is_finite() { "from_m" } else { "radius_m" };
    one_by_one(&all, check).into_iter().map(|(s, e)| Unfit::new("well_section", s.id, column(s), e)).collect()
}

/// Layers of one well.
pub fn layers(rows: &[&Layer]) -> Vec<Unfit> {
    let check = |some: &[&Layer]| {
        let some: Vec<Layer> = some.iter().map(|l| (*l).clone()).collect();
        site::construction(&[], &some, None).check().map_err(Refusal::from)
    };
    one_by_one(rows, check).into_iter().map(|(l, e)| Unfit::new("layer", l.id, "from_m", e)).collect()
}

/// A trip that ends before it starts.
fn trip(t: &Trip) -> Option<Unfit> {
    let ends = t.ends.as_deref().filter(|ends| bounds::is_before(ends, &t.starts))?;
    let found = said::EndsBeforeStart { ends: ends.into(), starts: t.starts.as_str().into() };
    Some(Unfit { table: "trip", row: t.id, column: "ends", says: fault(found, said::EndAfterStart).into() })
}

/// One sample of air: all sizes counted together at one place and moment.
fn sample(rows: &[&AirCount]) -> Result<AirSample, Refusal> {
    if let Some(c) = rows.iter().find(|c| c.count < 0) {
        return Err(Refusal::out_of_range("count", c.count, "0 or more"));
    }
    Ok(AirSample {
        counts: rows.iter().map(|c| Count { size_um: c.size_um, count: c.count.unsigned_abs() }).collect(),
        volume_l: rows.first().map_or(f64::NAN, |c| c.volume_L),
        minutes: None,
    })
}

/// Samples of one place at one well on one trip: the rows of each by their moment.
type Samples<'a> = BTreeMap<Option<&'a str>, Vec<&'a AirCount>>;

/// The counts of one place at one well on one trip, added up.
///
/// # Errors
/// The rows that cannot be.
pub fn pooled(rows: &[&AirCount]) -> Result<AirSample, Vec<Unfit>> {
    let mut samples = Samples::new();
    for c in rows {
        samples.entry(c.at.as_deref()).or_default().push(c);
    }
    let single: Vec<Unfit> = samples.values().flat_map(|s| within_a_sample(s)).collect();
    if !single.is_empty() {
        return Err(single);
    }
    let other = of_another_size(&samples);
    if !other.is_empty() {
        return Err(other);
    }
    let all =
        |e: Refusal| rows.iter().map(|c| Unfit::new("air_count", c.id, "volume_L", e.clone())).collect::<Vec<_>>();
    let each = samples.values().map(|s| sample(s)).collect::<Result<Vec<_>, _>>().map_err(all)?;
    air::pool(&each).and_then(|pooled| air::read(&pooled).map(|_| pooled)).map_err(all)
}

/// Rows of a sample that cannot be: no volume, a size twice, counts that rise with size.
fn within_a_sample(rows: &[&AirCount]) -> Vec<Unfit> {
    let check = |some: &[&AirCount]| match some {
        [] => Ok(()),
        some => sample(some).and_then(|s| air::read(&s).map(|_| ())),
    };
    let column = |c: &AirCount| {
        let sized = c.size_um > 0.0 && c.size_um.is_finite();
        let twice = rows.iter().any(|o| o.id != c.id && o.size_um.total_cmp(&c.size_um).is_eq());
        if !(c.volume_L > 0.0 && c.volume_L.is_finite()) {
            "volume_L"
        } else if twice || !sized {
            "size_um"
        } else {
            "count"
        }
    };
    one_by_one(rows, check).into_iter().map(|(c, e)| Unfit::new("air_count", c.id, column(c), e)).collect()
}

/// Repeated samples are added up size by size, so all need the sizes that most of them have (of equals, the first).
fn of_another_size(samples: &Samples) -> Vec<Unfit> {
    let sizes = |rows: &[&AirCount]| -> Vec<u64> {
        let mut all: Vec<u64> = rows.iter().map(|c| c.size_um.to_bits()).collect();
        all.sort_unstable();
        all
    };
    let mut in_order: Vec<(Vec<u64>, &Vec<&AirCount>)> = samples.values().map(|s| (sizes(s), s)).collect();
    in_order.sort_by_key(|(_, s)| s.iter().map(|c| c.id).min());
    let mut often: BTreeMap<&[u64], usize> = BTreeMap::new();
    for (sizes, _) in &in_order {
        *often.entry(sizes).or_default() += 1;
    }
    // Of equals the last of the row turned round: the first.
    let Some((usual, _)) = in_order.iter().rev().max_by_key(|(sizes, _)| often[sizes.as_slice()]) else {
        return vec![];
    };
    let words: Vec<String> = usual.iter().map(|bits| f64::from_bits(*bits).to_string()).collect();
    let unfit = |c: &AirCount, found: Message| {
        let says = fault(found, said::Sizes { sizes: words.join(", ").into() }).into();
        Unfit { table: "air_count", row: c.id, column: "size_um", says }
    };
    let mut out = vec![];
    for (_, sample) in in_order.iter().filter(|(sizes, _)| sizes != usual) {
        let strange: Vec<&&AirCount> = sample.iter().filter(|c| !usual.contains(&c.size_um.to_bits())).collect();
        match strange.as_slice() {
            [] => out.extend(sample.first().map(|c| unfit(c, said::LacksSize.into()))),
            some => out.extend(some.iter().map(|c| {
                let size = Shown::as_given(c.size_um, "µm");
                unfit(c, said::CountAt { size }.into())
            })),
        }
    }
    out
}

/// Rows of an act, just added or amended, that cannot be beside what else the record holds.
///
/// # Errors
/// The store cannot be read.
pub fn among(act: &Act, table: &str, ids: &BTreeSet<i64>) -> Result<Vec<Unfit>, StoreError> {
    let mut found = match table {
        "fill" => {
            let rows = newest_last(act.list::<Fill>(&Filter::all())?, ids, |f| f.id);
            let place = |f: &Fill| (f.id, f.trip_id.map(|trip| (trip, f.well_id, "")));
            by_place(&rows, ids, place).flat_map(|rows| fills(&rows)).collect()
        }
        "air_count" => {
            let rows = newest_last(act.list::<AirCount>(&Filter::all())?, ids, |c| c.id);
            let place =
                |c: &AirCount| (c.id, c.trip_id.zip(c.well_id).map(|(trip, well)| (trip, well, site::place(c))));
            by_place(&rows, ids, place).filter_map(|rows| pooled(&rows).err()).flatten().collect()
        }
        "well_section" => {
            let rows = newest_last(act.list::<WellSection>(&Filter::all())?, ids, |s| s.id);
            by_place(&rows, ids, |s| (s.id, Some((0, s.well_id, ""))))
                .flat_map(|rows| sections(&rows.into_iter().cloned().collect::<Vec<_>>()))
                .collect()
        }
        "layer" => {
            let rows = newest_last(act.list::<Layer>(&Filter::all())?, ids, |l| l.id);
            by_place(&rows, ids, |l| (l.id, Some((0, l.well_id, "")))).flat_map(|rows| layers(&rows)).collect()
        }
        "trip" => {
            let mut out = vec![];
            for id in ids {
                out.extend(act.list::<Trip>(&Filter::all().is("id", *id))?.iter().filter_map(trip));
            }
            out
        }
        "field_reading" => {
            let mut out = vec![];
            for id in ids {
                out.extend(act.list::<FieldReading>(&Filter::all().is("id", *id))?.iter().filter_map(reading));
            }
            out
        }
        _ => vec![],
    };
    // What could not be before this act is said beside the results that stand on it; it must not hold up a good row.
    found.retain(|u: &Unfit| ids.contains(&u.row));
    Ok(found)
}

/// A reading that its quantity cannot have.
fn reading(r: &FieldReading) -> Option<Unfit> {
    let expected = bounds::reading(&r.quantity, r.value, &Unit::parse(&r.unit).ok()?).err()?;
    let found = format!("{} {}", r.value, r.unit).into();
    let says = intake::FaultOfValue { found, expected }.into();
    Some(Unfit { table: "field_reading", row: r.id, column: "value", says })
}

/// What stood before first: the new rows are those that have to go with it.
fn newest_last<T>(mut rows: Vec<T>, ids: &BTreeSet<i64>, id: impl Fn(&T) -> i64) -> Vec<T> {
    rows.sort_by_key(|r| (ids.contains(&id(r)), id(r)));
    rows
}

/// Trip, well, place; none for a row that belongs to no trip, on which nothing stands.
type Place = Option<(i64, i64, &'static str)>;

/// Groups of rows that are used together, those alone that hold one of `ids`.
fn by_place<'a, T>(
    rows: &'a [T],
    ids: &BTreeSet<i64>,
    of: impl Fn(&T) -> (i64, Place),
) -> impl Iterator<Item = Vec<&'a T>> {
    let mut groups: BTreeMap<Place, (bool, Vec<&T>)> = BTreeMap::new();
    for r in rows {
        let (id, place) = of(r);
        let group = groups.entry(place).or_default();
        group.0 |= ids.contains(&id);
        group.1.push(r);
    }
    groups.into_iter().filter(|(place, (touched, _))| place.is_some() && *touched).map(|(_, (_, rows))| rows)
}
