//! From the record to the report: reads a programme and lays out what was asked, what was found,
//! the path of the key bottles, findings, methods and origin. It chooses and words; every number
//! in it was computed below and stands in the record.
//!
//! * [`content`] — the report of a programme, with its runs or with reported concentrations;
//! * [`supplement`] — the supplement for the reviewers of a paper;
//! * `run`, `trip`, `reported`, `chemistry` — sections; `words` — names and short forms.

mod air;
mod attribution;
mod blank_years;
mod cautions;
mod chemistry;
mod choose;
mod detection;
mod dust;
mod lead;
mod lots;
mod methods;
mod one_page;
mod overflow;
pub mod packing;
pub mod pages;
mod path;
mod quality;
mod reported;
pub mod request;
mod run;
mod signed;
mod statements;
mod supplement;
mod time_series;
mod time_series_blanks;
#[cfg(test)]
mod time_series_sentences;
mod time_series_tables;
mod trip;
mod wells;
mod words;

pub use cautions::Caution;
pub use choose::{NoSection, choose, names};
pub use one_page::{authority, leaflet};
pub use supplement::supplement;

use std::fmt::Write as _;

use assessment::derive::{self, Prepared};
use assessment::engine::DERIVED_BY;
use assessment::results::{self, Listed};
use assessment::verdict::Rules;
use document::content::{Content, Day, Depth, Provenance, RawFile, Section, Word};
use measurement::run::ReducedRun;
use message::{Message, Spoken, report as said};
use record::Error;
use record::by::{Watch, go_on};
use record::model::{Site, Trip, VerdictWord};
use record::store::Store;

/// A reduced run with what it was reduced from.
pub struct Run {
    /// What it was reduced from.
    pub prepared: Prepared,
    /// What came of it.
    pub reduced: ReducedRun,
}

/// The report of a programme.
///
/// # Errors
/// A record that is not what was written; the store cannot be read; a run that cannot be reduced.
pub fn content(store: &Store, name: &str) -> Result<Content, Error> {
    content_watched(store, name, &|_| true)
}

/// How many checks of this version the programme's table does not name.
fn untaken(store: &Store) -> Result<usize, Error> {
    Ok(Rules::new(store.check_rules()?).untaken().len())
}

/// As [`content`], watched: it can be stopped between sections.
///
/// # Errors
/// As [`content`]; [`Error::Stopped`].
pub fn content_watched(store: &Store, name: &str, watch: Watch) -> Result<Content, Error> {
    let step = |words: &str| go_on(watch, words);
    step("whether the record is what was written")?;
    store.as_written()?;
    step("the runs")?;
    let all = results::all(store)?;
    let (runs, stuck) = reduced(store)?;
    // Long lists of compounds have a section of their own.
    let compounds = assessment::organics::Compounds::of(store, &all)?;
    let (measured, reported): (Vec<&Listed>, Vec<&Listed>) =
        all.iter().filter(|r| !compounds.holds(&r.analyte)).partition(|r| r.gross.is_some());
    let mut out = start(store, name, &all)?;
    if !measured.is_empty() {
        let pairs: Vec<_> = runs.iter().map(|r| (&r.prepared, &r.reduced)).collect();
        let wells = assessment::well_value::of_runs(store, &pairs, &all)?;
        run::fill(store, &measured, &runs, &wells, &mut out)?;
    }
    for (run, why) in stuck {
        out.cautions.push(Caution::RunLeftOut(run.clone()).sentence());
        out.found.push(said::RunNotReduced { run: run.into(), why: why.message() }.text());
    }
    out.methods = methods::of(!measured.is_empty(), !reported.is_empty(), untaken(store)?);
    if !runs.is_empty() {
        out.methods.extend(methods::of_runs());
    }
    out.sections.extend(signed::sections(store, &all)?);
    step("whose metal it is")?;
    attribution::fill(store, &runs, &all, &mut out)?;
    step("quality over the runs")?;
    quality::fill(store, &runs, &mut out)?;
    step("lots of bottles")?;
    lots::fill(store, &all, &mut out)?;
    out.sections.extend(trip::sections(store)?);
    step("the wells")?;
    let wells = wells::sections(store, &all)?;
    if !wells.is_empty() {
        out.methods.push(methods::of_wells());
        out.cautions.push(Caution::Well.sentence());
    }
    out.sections.extend(wells);
    let overflow = overflow::sections(store, &all)?;
    if !overflow.is_empty() {
        out.methods.push(methods::of_overflow());
    }
    out.sections.extend(overflow);
    if !reported.is_empty() {
        reported::fill(store, &reported, measured.is_empty(), &mut out)?;
    }
    step("the waters")?;
    chemistry::fill(store, &mut out)?;
    step("the years")?;
    time_series::fill(store, &all, &mut out)?;
    blank_years::fill(store, &all, &mut out)?;
    step("statements and limits")?;
    statements::fill(store, &all, &mut out)?;
    Ok(out)
}

/// A run that cannot be reduced: its name and why.
type LeftOut = (String, Error);

/// Every run reduced anew, and those that cannot be.
fn reduced(store: &Store) -> Result<(Vec<Run>, Vec<LeftOut>), Error> {
    let all = derive::reduce_all(store)?;
    let runs = all.runs.into_iter().map(|(prepared, reduced)| Run { prepared, reduced }).collect();
    Ok((runs, all.left_out))
}

/// What stands under results: those of a run name their isotopes, those that a laboratory reported do not.
fn depth(results: &[Listed]) -> Depth {
    match results.iter().filter(|r| r.isotopes.is_empty()).count() {
        0 => Depth::Counts,
        n if n == results.len() => Depth::Reported,
        _ => Depth::Both,
    }
}

/// What the report is of.
fn title(sites: &[Site]) -> Message {
    match sites {
        [site] => said::TitleOf { site: site.name.as_str().into() }.into(),
        _ => said::Title.into(),
    }
}

/// Title, origin, dates.
fn start(store: &Store, name: &str, all: &[Listed]) -> Result<Content, Error> {
    let sites = store.sites()?;
    let trips = store.trips()?;
    let events = store.events()?;
    let invented = sites.iter().any(|s| s.invented == Some(true));
    let trip = |t: &Trip| said::Trip { trip: t.name.as_str().into() }.text();
    Ok(Content {
        title: title(&sites).text(),
        subtitle: trips.iter().map(trip).collect::<Vec<_>>().join(", "),
        lang: "en".into(),
        date: last_day(all),
        invented,
        asked: trips.iter().filter_map(|t| t.question.as_deref().map(str::to_string)).collect(),
        provenance: Provenance {
            programme: name.to_string(),
            head_hash: hex_head(store)?,
            events: events.len() as u64,
            engine: DERIVED_BY.to_string(),
            files: store.raw_files()?.into_iter().map(|f| RawFile { name: f.name, hash: hex(&f.hash) }).collect(),
            depth: depth(all),
        },
        ..Content::default()
    })
}

/// The last day on which a bottle was filled.
fn last_day(all: &[Listed]) -> Option<Day> {
    all.iter().filter_map(|r| r.filled_at.as_deref()).max().and_then(day)
}

/// The head hash of the record; empty before the first event.
fn hex_head(store: &Store) -> Result<String, Error> {
    Ok(store.head()?.map_or_else(String::new, |h| h.to_string()))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, b| {
        let _ = write!(text, "{b:02x}");
        text
    })
}

fn day(text: &str) -> Option<Day> {
    let part = |r: std::ops::Range<usize>| text.get(r)?.parse::<i32>().ok();
    Some(Day { year: part(0..4)?, month: u8::try_from(part(5..7)?).ok()?, day: u8::try_from(part(8..10)?).ok()? })
}

/// The verdict word of a listed result.
pub(crate) fn word(r: &Listed) -> Option<Word> {
    r.verdict.map(verdict_word)
}

/// A verdict as documents set it.
pub(crate) fn verdict_word(v: VerdictWord) -> Word {
    match v {
        VerdictWord::Accepted => Word::Accepted,
        VerdictWord::Provisional => Word::Provisional,
        VerdictWord::Rejected => Word::Rejected,
    }
}

/// Of results, how many each profile of checks accepts: for the notes under their tables.
pub(crate) fn accepted_by<'a>(results: impl Iterator<Item = &'a Listed>) -> Vec<Message> {
    let mut by: std::collections::BTreeMap<&str, usize> = std::collections::BTreeMap::new();
    for profile in results.filter_map(Listed::accepted_by) {
        *by.entry(profile).or_default() += 1;
    }
    by.into_iter().map(|(profile, n)| accepted_of(n, profile)).collect()
}

/// That so many results are accepted by a profile.
pub(crate) fn accepted_of(results: usize, profile: &str) -> Message {
    message::laboratory::AcceptedBy { results: message::count(results), profile: profile.into() }.into()
}

/// A section.
pub(crate) fn section(title: impl Into<Message>, blocks: Vec<document::content::Block>) -> Section {
    Section::of(title, blocks)
}

/// The name of a substance, or of what else a laboratory reports, in the language; as it was reported where there is no
/// word of it.
pub(crate) fn substance(analyte: &str) -> String {
    let named = Message::named("substance", analyte).or_else(|| Message::named("condition", analyte));
    named.map_or_else(|| analyte.to_string(), |m| m.text())
}

/// The amount of a result that was derived: those always have one.
pub(crate) fn derived(r: &Listed) -> quantity::Amount {
    r.amount.clone().expect("a result derived from counts has a value or a bound")
}

/// The unit as printed; empty where the report gives no amount.
pub(crate) fn unit(r: &Listed) -> String {
    r.amount.as_ref().map_or_else(String::new, |a| a.unit().to_string())
}
