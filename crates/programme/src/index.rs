//! Which results are there, by well, analyte, trip, time and verdict? A compact list of the newest
//! revision of every result, for interfaces that show a page of many results at a time: some tens of
//! bytes a result, read once and then brought up to date by what was added since.
//!
//! In: a store. Out: [`Index`]; [`Index::select`] answers the rows of a page and how many there are of each
//! verdict. The rows themselves are read from the store (`results::listed`). Order: newest sampling
//! first, then bottle and measurand as the record has them.
//!
//! What it does not do: no values, no science. A correction of a bottle, a result or what they refer to makes
//! it read everything anew, and so does an act that was taken back. Checked in `tests/index.rs`.

use record::error::Error;
use record::model::{BottleKind, State, Undone, VerdictWord};
use record::store::{Filter, RowRead, Store, StoreError, Typed};
use std::collections::{HashMap, HashSet};

/// A result in short.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Entry {
    /// Row of the result.
    pub row: i64,
    /// Subject of its verdict.
    pub subject: i64,
    /// Place of its bottle in [`Index::bottles`].
    pub bottle: u32,
    /// Place of its measurand in [`Index::measurands`].
    pub measurand: u32,
    /// Detection state.
    pub state: State,
    /// Its verdict; none for evidence.
    pub verdict: Option<VerdictWord>,
    /// Place of the reasons of its verdict in [`Index::reasons`]; 0 for none.
    pub reasons: u32,
    revision: u32,
}

/// A bottle in short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BottleShort {
    /// Row of the bottle.
    pub row: i64,
    /// Label.
    pub label: String,
    /// What it is.
    pub kind: BottleKind,
    /// Place of its well in [`Index::wells`].
    pub well: Option<u32>,
    /// Place of its trip in [`Index::trips`].
    pub trip: Option<u32>,
    /// Day of filling as the record writes it; empty where not known.
    pub day: String,
    /// Whether a result of it is on record.
    pub measured: bool,
}

/// A measurand in short.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MeasurandShort {
    /// Element or quantity.
    pub analyte: String,
    /// Isotopes.
    pub isotopes: String,
    /// Fraction.
    pub fraction: String,
}

/// Which results are wanted; what is left open takes all.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Wanted {
    /// Name of the well.
    pub well: Option<String>,
    /// Name of the trip.
    pub trip: Option<String>,
    /// Element or quantity.
    pub analyte: Option<String>,
    /// Fraction.
    pub fraction: Option<String>,
    /// Label of the bottle.
    pub bottle: Option<String>,
    /// Verdict.
    pub verdict: Option<VerdictWord>,
    /// The check, by its name in the record, that holds the result back: one of the reasons of its verdict.
    pub held_by: Option<String>,
    /// Filled on this day or later, as 2026-07-14. A bottle whose day is not known was filled neither before nor after.
    pub from: Option<String>,
    /// Filled on this day or earlier.
    pub to: Option<String>,
    /// Blanks, spikes and other evidence in place of the water.
    pub evidence: bool,
}

/// What was found: how many, how many of each verdict, and the rows of the page.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Selected {
    /// All that fit.
    pub total: usize,
    /// Of these accepted, provisional, rejected.
    pub verdicts: [usize; 3],
    /// Rows of the page.
    pub rows: Vec<i64>,
}

/// The newest results in short.
#[derive(Debug, Clone, Default)]
pub struct Index {
    /// Names of wells, as in the record.
    pub wells: Vec<String>,
    /// Names of trips, as in the record.
    pub trips: Vec<String>,
    /// Bottles, as in the record.
    pub bottles: Vec<BottleShort>,
    /// Measurands, as in the record.
    pub measurands: Vec<MeasurandShort>,
    entries: Vec<Entry>,
    /// Places in `entries`, newest sampling first.
    order: Vec<u32>,
    place: HashMap<(u32, u32), u32>,
    at: Places,
    /// Word and reasons by the subject of the verdict.
    verdicts: HashMap<i64, (VerdictWord, u32)>,
    reasons: Reasons,
    taken_out: HashSet<i64>,
    read: Read,
    state: u64,
}

/// Reasons of verdicts: few sets of checks hold many results, each is kept once. Place 0 is "none", 1 "taken out".
#[derive(Debug, Clone)]
struct Reasons {
    sets: Vec<Vec<String>>,
    /// As the record writes them.
    at: HashMap<String, u32>,
}

/// The place of "taken out by a person" among the reasons.
const OUT: u32 = 1;

impl Default for Reasons {
    fn default() -> Self {
        Self { sets: vec![vec![], vec![assessment::results::TAKEN_OUT.text().into()]], at: HashMap::new() }
    }
}

impl Reasons {
    /// The place of a set as the record writes it.
    fn place(&mut self, text: String) -> u32 {
        if let Some(known) = self.at.get(&text) {
            return *known;
        }
        let checks: Vec<String> = serde_json::from_str(&text).unwrap_or_default();
        let place = if checks.is_empty() { 0 } else { u32::try_from(self.sets.len()).unwrap_or(0) };
        if place > 0 {
            self.sets.push(checks);
        }
        self.at.insert(text, place);
        place
    }
}

/// Where a row of the record stands in the lists: rows that count no longer leave gaps in its numbers.
#[derive(Debug, Clone, Default)]
struct Places {
    wells: HashMap<i64, u32>,
    trips: HashMap<i64, u32>,
    bottles: HashMap<i64, u32>,
}

/// Names in order, and where each row stands among them.
fn placed(rows: impl Iterator<Item = (i64, String)>) -> (Vec<String>, HashMap<i64, u32>) {
    let (mut names, mut places) = (vec![], HashMap::new());
    for (place, (id, name)) in (0..).zip(rows) {
        places.insert(id, place);
        names.push(name);
    }
    (names, places)
}

/// Highest rows read so far.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
struct Read {
    result: i64,
    verdict: i64,
    bottle: i64,
    measurand: i64,
    amendments: usize,
    /// Acts that were taken back.
    undone: usize,
    /// Corrections of all tables, lots, trips: what dates of blanks stand on.
    around: [usize; 3],
}

struct ResultLine {
    id: i64,
    bottle: i64,
    measurand: i64,
    revision: i64,
    state: State,
    subject: i64,
}

impl Typed for ResultLine {
    const TABLE: &'static str = "result";
    const PATHS: &'static [&'static str] = &["id", "bottle", "measurand", "revision", "state", "subject"];
    fn from_row(r: &RowRead) -> Result<Self, StoreError> {
        Ok(Self {
            id: r.get(0)?,
            bottle: r.get(1)?,
            measurand: r.get(2)?,
            revision: r.get(3)?,
            state: r.get(4)?,
            subject: r.get(5)?,
        })
    }
}

struct VerdictLine {
    id: i64,
    subject: i64,
    word: VerdictWord,
    reasons: String,
}

impl Typed for VerdictLine {
    const TABLE: &'static str = "verdict";
    const PATHS: &'static [&'static str] = &["id", "subject", "verdict", "reasons"];
    fn from_row(r: &RowRead) -> Result<Self, StoreError> {
        Ok(Self { id: r.get(0)?, subject: r.get(1)?, word: r.get(2)?, reasons: r.get(3)? })
    }
}

struct MeasurandLine {
    id: i64,
    short: MeasurandShort,
}

impl Typed for MeasurandLine {
    const TABLE: &'static str = "measurand";
    const PATHS: &'static [&'static str] = &["id", "analyte", "isotopes", "fraction"];
    fn from_row(r: &RowRead) -> Result<Self, StoreError> {
        Ok(Self {
            id: r.get(0)?,
            short: MeasurandShort { analyte: r.get(1)?, isotopes: r.get(2)?, fraction: r.get(3)? },
        })
    }
}

/// A vial's bottle.
struct VialLine(Option<i64>);

impl Typed for VialLine {
    const TABLE: &'static str = "vial";
    const PATHS: &'static [&'static str] = &["id", "bottle"];
    fn from_row(r: &RowRead) -> Result<Self, StoreError> {
        Ok(Self(r.get(1)?))
    }
}

/// Bottles that stand in a run, by row.
///
/// # Errors
/// The store cannot be read.
pub fn in_runs(store: &Store) -> Result<HashSet<i64>, Error> {
    Ok(store.list::<VialLine>(&Filter::all())?.into_iter().filter_map(|v| v.0).collect())
}

/// Tables whose corrections move a result to another place.
const MOVING: [&str; 5] = ["bottle", "well", "trip", "measurand", "result"];

impl Index {
    /// Reads it from the record.
    ///
    /// # Errors
    /// The store cannot be read.
    pub fn of(store: &Store) -> Result<Self, Error> {
        let mut out = Self::default();
        out.refresh(store)?;
        Ok(out)
    }

    /// Adds what the record has got since it was last read.
    ///
    /// # Errors
    /// The store cannot be read; the index is then as it was or newer.
    pub fn refresh(&mut self, store: &Store) -> Result<(), Error> {
        let all = store.amendments()?;
        let amendments = all.iter().filter(|a| MOVING.contains(&a.table_name.as_str())).count();
        let undone = store.list::<Undone>(&Filter::all())?.len();
        if (amendments, undone) != (self.read.amendments, self.read.undone) {
            // The count of states goes on: what was worked out before the correction must not pass for valid.
            *self = Self { read: Read { amendments, undone, ..Read::default() }, state: self.state, ..Self::default() };
        }
        let before = self.read;
        self.read.around = [all.len(), store.lots()?.len(), store.trips()?.len()];
        (self.wells, self.at.wells) = placed(store.wells()?.into_iter().map(|w| (w.id, w.name)));
        (self.trips, self.at.trips) = placed(store.trips()?.into_iter().map(|t| (t.id, t.name)));
        self.read_bottles(store)?;
        let (mut measurands, mut read) = (std::mem::take(&mut self.measurands), self.read);
        store.each::<MeasurandLine>(&Filter::all().after(read.measurand), |m| {
            read.measurand = m.id;
            measurands.push(m.short);
            Ok(())
        })?;
        (self.measurands, self.read) = (measurands, read);
        self.read_results(store)?;
        let (mut verdicts, mut reasons) = (std::mem::take(&mut self.verdicts), std::mem::take(&mut self.reasons));
        let mut last = self.read.verdict;
        let read = store.each::<VerdictLine>(&Filter::all().after(last), |v| {
            last = v.id;
            verdicts.insert(v.subject, (v.word, reasons.place(v.reasons)));
            Ok(())
        });
        (self.verdicts, self.reasons, self.read.verdict) = (verdicts, reasons, last);
        read?;
        let excluded = assessment::derive::Excluded::read(store)?;
        let out = self.bottles.iter().filter(|b| excluded.bottle(b.row).is_some()).map(|b| b.row).collect();
        // To take a bottle out adds no row to the tables counted in `read`: that is compared by itself.
        if self.read != before || self.taken_out != out {
            self.taken_out = out;
            self.state += 1;
            self.judge();
        }
        Ok(())
    }

    /// Writes the verdict to each entry, and to each bottle whether it was measured.
    fn judge(&mut self) {
        for e in &mut self.entries {
            let Some(bottle) = self.bottles.get_mut(e.bottle as usize) else { continue };
            bottle.measured = true;
            let known = self.verdicts.get(&e.subject).copied().filter(|_| bottle.kind.is_water());
            // As in `results`: a bottle that is out stands alone.
            let known =
                known.map(|k| if self.taken_out.contains(&bottle.row) { (VerdictWord::Rejected, OUT) } else { k });
            e.verdict = known.map(|k| k.0);
            e.reasons = known.map_or(0, |k| k.1);
        }
    }

    fn read_bottles(&mut self, store: &Store) -> Result<(), Error> {
        let place = |known: &HashMap<i64, u32>, id: Option<i64>| known.get(&id?).copied();
        for b in store.bottles(&Filter::all().after(self.read.bottle))? {
            self.read.bottle = b.id;
            self.at.bottles.insert(b.id, u32::try_from(self.bottles.len()).unwrap_or(u32::MAX));
            self.bottles.push(BottleShort {
                row: b.id,
                label: b.label,
                kind: b.kind,
                well: place(&self.at.wells, b.well_id),
                trip: place(&self.at.trips, b.trip_id),
                day: b.filled_at.map_or_else(String::new, |t| t.chars().take(10).collect()),
                measured: false,
            });
        }
        Ok(())
    }

    fn read_results(&mut self, store: &Store) -> Result<(), Error> {
        let before = self.entries.len();
        let (mut entries, mut place, mut last) =
            (std::mem::take(&mut self.entries), std::mem::take(&mut self.place), self.read.result);
        let bottles = &self.at.bottles;
        let read = store.each::<ResultLine>(&Filter::all().after(last), |r| {
            last = r.id;
            let entry = Entry {
                row: r.id,
                subject: r.subject,
                bottle: bottles.get(&r.bottle).copied().unwrap_or(u32::MAX),
                // Names are never taken back: rows are numbered from 1 without gaps.
                measurand: u32::try_from(r.measurand - 1).unwrap_or(u32::MAX),
                state: r.state,
                verdict: None,
                reasons: 0,
                revision: u32::try_from(r.revision).unwrap_or(0),
            };
            let known = place.entry((entry.bottle, entry.measurand)).or_insert(u32::MAX);
            if let Some(old) = entries.get_mut(*known as usize) {
                let old: &mut Entry = old;
                if old.revision <= entry.revision {
                    *old = entry;
                }
            } else {
                *known = u32::try_from(entries.len()).unwrap_or(u32::MAX);
                entries.push(entry);
            }
            Ok(())
        });
        // Before the fault is told: rows that were read stand, and are not read a second time.
        (self.entries, self.place, self.read.result) = (entries, place, last);
        read?;
        // A revision has the bottle and measurand of the one before, and so keeps its place in the order.
        if self.entries.len() != before || self.order.len() != self.entries.len() {
            self.order = (0..u32::try_from(self.entries.len()).unwrap_or(u32::MAX)).collect();
            let (entries, bottles) = (&self.entries, &self.bottles);
            let day = |e: &Entry| bottles.get(e.bottle as usize).map_or("", |b| b.day.as_str());
            self.order.sort_by(|a, b| {
                let (x, y) = (&entries[*a as usize], &entries[*b as usize]);
                day(y).cmp(day(x)).then(x.bottle.cmp(&y.bottle)).then(x.measurand.cmp(&y.measurand))
            });
        }
        Ok(())
    }

    /// Counts up when anything changed that results, their verdicts or their dates stand on: what was worked out
    /// from them holds as long as this does.
    pub fn state(&self) -> u64 {
        self.state
    }

    /// The checks that hold a result back, by their names in the record, in the order of the path; none where it is
    /// accepted, or evidence.
    pub fn reasons(&self, e: &Entry) -> &[String] {
        self.reasons.sets.get(e.reasons as usize).map_or(&[], Vec::as_slice)
    }

    /// How many results there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// Results that are wanted, newest sampling first.
    pub fn wanted<'a>(&'a self, wanted: &'a Wanted) -> impl Iterator<Item = &'a Entry> {
        let at = |names: &[String], name: &Option<String>| {
            name.as_ref().map(|n| names.iter().position(|k| k == n).and_then(|p| u32::try_from(p).ok()))
        };
        let (well, trip) = (at(&self.wells, &wanted.well), at(&self.trips, &wanted.trip));
        let measurand = |m: &MeasurandShort| {
            wanted.analyte.as_ref().is_none_or(|a| *a == m.analyte)
                && wanted.fraction.as_ref().is_none_or(|f| *f == m.fraction)
        };
        let fits: Vec<bool> = self.measurands.iter().map(measurand).collect();
        let holds = |set: &Vec<String>| wanted.held_by.as_ref().is_none_or(|check| set.contains(check));
        let held: Vec<bool> = self.reasons.sets.iter().map(holds).collect();
        self.order.iter().map(|i| &self.entries[*i as usize]).filter(move |e| {
            let Some(b) = self.bottles.get(e.bottle as usize) else { return false };
            fits.get(e.measurand as usize).copied().unwrap_or(false)
                && held.get(e.reasons as usize).copied().unwrap_or(false)
                && b.kind.is_water() != wanted.evidence
                && well.is_none_or(|w| w.is_some() && b.well == w)
                && trip.is_none_or(|t| t.is_some() && b.trip == t)
                && wanted.bottle.as_ref().is_none_or(|l| *l == b.label)
                && wanted.from.as_ref().is_none_or(|from| !b.day.is_empty() && b.day >= *from)
                && wanted.to.as_ref().is_none_or(|to| !b.day.is_empty() && b.day <= *to)
        })
    }

    /// Page `page` (from 0) of `per` rows of the results that are wanted.
    pub fn select(&self, wanted: &Wanted, page: usize, per: usize) -> Selected {
        let mut out = Selected::default();
        for e in self.wanted(wanted) {
            let verdict = e.verdict;
            if let Some(v) = verdict {
                out.verdicts[v as usize] += 1;
            }
            if wanted.verdict.is_some() && verdict != wanted.verdict {
                continue;
            }
            if out.total / per == page {
                out.rows.push(e.row);
            }
            out.total += 1;
        }
        out
    }

    /// Page `page` (from 0) of `per` wells and days of the results that are wanted, newest first: how many wells and days
    /// there are, and the rows of all results of those of the page. Bottles of no well have no place here.
    pub fn select_wide(&self, wanted: &Wanted, page: usize, per: usize) -> Selected {
        let mut out = Selected::default();
        let mut places: HashMap<(u32, &str), usize> = HashMap::new();
        for e in self.wanted(wanted).filter(|e| e.verdict.is_some()) {
            if wanted.verdict.is_some() && e.verdict != wanted.verdict {
                continue;
            }
            let Some((well, day)) = self.bottles.get(e.bottle as usize).and_then(|b| Some((b.well?, b.day.as_str())))
            else {
                continue;
            };
            let next = places.len();
            let place = *places.entry((well, day)).or_insert(next);
            if place / per == page {
                out.rows.push(e.row);
            }
        }
        out.total = places.len();
        out
    }

    /// Fractions of which there are results, sorted.
    pub fn fractions(&self) -> Vec<&str> {
        let mut out: Vec<&str> = self.measurands.iter().map(|m| m.fraction.as_str()).collect();
        out.sort_unstable();
        out.dedup();
        out
    }

    /// Analytes of which there are results, sorted.
    pub fn analytes(&self) -> Vec<&str> {
        let mut out: Vec<&str> = if self.read.undone == 0 {
            self.measurands.iter().map(|m| m.analyte.as_str()).collect()
        } else {
            // Of what was taken back the names stay.
            let left: HashSet<u32> = self.entries.iter().map(|e| e.measurand).collect();
            left.iter().filter_map(|m| Some(self.measurands.get(*m as usize)?.analyte.as_str())).collect()
        };
        out.sort_unstable();
        out.dedup();
        out
    }
}
