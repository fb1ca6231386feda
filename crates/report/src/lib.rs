//! From the record to the report: reads a programme and lays out what was asked, what was found,
//! the path of the key bottles, findings, methods and origin. It chooses and words; every number
//! in it was computed below and stands in the record.
//!
//! * [`content`] — the report of the newest trip, [`content_of`] of what a [`Scope`] names: page one, chapters, annexes;
//! * [`supplement`] — the supplement for the reviewers of a paper;
//! * `run`, `trip`, `reported`, `chemistry` — sections; `words` — names and short forms.

mod age;
mod air;
mod attribution;
mod blank_years;
mod cautions;
mod chemistry;
mod choose;
mod detection;
mod dust;
mod exceedances;
mod front;
mod lead;
mod lots;
mod metals;
mod methods;
mod one_page;
mod opened;
mod overflow;
pub mod packing;
pub mod pages;
mod path;
mod quality;
mod reported;
pub mod request;
mod run;
mod scope;
mod signed;
mod statements;
mod strip;
mod supplement;
mod time_series;
mod time_series_blanks;
#[cfg(test)]
mod time_series_sentences;
mod time_series_tables;
mod trip;
mod wells;
mod who;
mod words;

pub use cautions::Caution;
pub use choose::{NoSection, choose, names};
pub use one_page::{authority, leaflet, leaflet_with};
pub use scope::Scope;
pub use supplement::supplement;

use std::fmt::Write as _;

use assessment::derive::{self, Prepared};
use assessment::engine::DERIVED_BY;
use assessment::results::Listed;
use assessment::verdict::Rules;
use document::content::{Cell, Content, Day, Depth, Provenance, RawFile, Section, Word};
use measurement::run::ReducedRun;
use message::{Message, Spoken, chapter, front as front_said, limit, report as said};
use programme::case::Case;
use record::Error;
use record::by::{Watch, go_on};
use record::model::{Site, Trip, VerdictWord};
use record::store::Store;
use scope::Chosen;

/// A reduced run with what it was reduced from.
pub struct Run {
    /// What it was reduced from.
    pub prepared: Prepared,
    /// What came of it.
    pub reduced: ReducedRun,
}

/// The report of the newest trip of a programme.
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
    content_of(store, name, &Scope::default(), watch)
}

/// The report of what a scope names, watched: page one, twelve pages of chapters, annexes.
///
/// # Errors
/// As [`content_watched`]; a trip or well that is not on record.
pub fn content_of(store: &Store, name: &str, scope: &Scope, watch: Watch) -> Result<Content, Error> {
    let step = |words: &str| go_on(watch, words);
    step("whether the record is what was written")?;
    store.as_written()?;
    step("the results")?;
    let chosen = Chosen::of(store, scope)?;
    step("the runs")?;
    let (runs, stuck) = reduced(store)?;
    let of_report = chosen.runs(store)?;
    let told: Vec<&Run> = runs.iter().filter(|r| of_report.contains(&r.prepared.run.id)).collect();
    let all = &chosen.results;
    // Long lists of compounds have an annex of their own.
    let compounds = assessment::organics::Compounds::of(store, all)?;
    let (measured, reported): (Vec<&Listed>, Vec<&Listed>) =
        all.iter().filter(|r| !compounds.holds(&r.analyte)).partition(|r| r.gross.is_some());
    let mut out = start(store, name, &chosen.trips, all)?;
    step("limits")?;
    let against = statements::against(store, all)?;
    let waters: Vec<&Listed> =
        measured.iter().chain(&reported).copied().filter(|r| r.verdict.is_some() && r.kind.is_water()).collect();
    let question = chosen.trips.iter().rev().find_map(|t| t.question.clone());
    let key = front::key(question.as_deref(), &waters, &against);
    let first = key.as_deref().map(|k| metals::first(k, &against)).unwrap_or_default();
    let (mut wells, mut cases) = (vec![], vec![]);
    if !measured.is_empty() {
        let pairs: Vec<_> = told.iter().map(|r| (&r.prepared, &r.reduced)).collect();
        wells = assessment::well_value::of_runs(store, &pairs, all)?;
        wells.retain(|w| w.water.well.as_deref().is_none_or(|well| chosen.has_well(well)));
        cases = run::fill(store, &measured, &told, (key.as_deref(), &wells), &mut out)?;
    }
    for (run, why) in stuck {
        out.cautions.push(Caution::RunLeftOut(run.clone()).sentence());
        out.found.push(said::RunNotReduced { run: run.into(), why: why.message() }.text());
    }
    out.methods = methods::of(!measured.is_empty(), !reported.is_empty(), untaken(store)?);
    if !runs.is_empty() {
        out.methods.extend(methods::of_runs());
    }
    out.sections.extend(signed::sections(store, all)?);
    let key = key.unwrap_or_default();
    step("whose metal it is")?;
    let in_report = |trip: &str| chosen.whole || chosen.trips.iter().any(|t| t.name == trip);
    let fits = attribution::fill(store, &runs, &in_report, all, &mut out)?;
    step("quality over the runs")?;
    quality::fill(store, &runs, &mut out)?;
    step("lots of bottles")?;
    lots::fill(store, all, &mut out)?;
    out.sections.extend(trip::sections(store, &chosen)?);
    step("the wells")?;
    let of_wells = wells::sections(store, &chosen)?;
    if !of_wells.is_empty() {
        out.methods.push(methods::of_wells());
        out.cautions.push(Caution::Well.sentence());
    }
    out.sections.extend(of_wells);
    let overflow = overflow::sections(store, all)?;
    if !overflow.is_empty() {
        out.methods.push(methods::of_overflow());
        let short = overflow::sentences(store, all)?;
        for title in [Message::from(chapter::Wells), chapter::Well.into()] {
            let Some(chapter) = chapter_mut(&mut out, &title) else { continue };
            chapter.blocks.extend(short.iter().cloned());
        }
    }
    out.sections.extend(overflow);
    if !reported.is_empty() {
        reported::fill(store, &reported, measured.is_empty(), &mut out)?;
    }
    step("the waters")?;
    let waters_told = chemistry::fill(store, &chosen.rows, &mut out)?;
    step("the years")?;
    let years = chosen.years(store, &first.iter().take(YEARS_OF).cloned().collect::<Vec<_>>())?;
    time_series::fill(store, &years, &mut out)?;
    blank_years::fill(store, &years, &mut out)?;
    step("statements and limits")?;
    statements::fill(store, all, &against, &mut out)?;
    let listed = |r: &Listed| !compounds.holds(&r.analyte);
    out.opened = opened::of(store, &chosen, &listed)?;
    step("page one")?;
    let place = place(store, &chosen, name)?;
    let known = front::Known {
        store,
        chosen: &chosen,
        place: &place,
        key: &key,
        runs: &runs,
        wells: &wells,
        cases: &cases,
        years: &years,
        against: &against,
    };
    let asked = known.front()?;
    if let Some((front, well)) = asked {
        let typed = question.map(|q| q.trim().to_string()).filter(|q| !q.is_empty());
        out.title = typed.unwrap_or_else(|| asked_otherwise(&chosen, &place));
        let element = || substance(&key).into();
        let (asked, others): (Vec<&Case>, Vec<&Case>) =
            cases.iter().partition(|c| c.result.well.as_deref().unwrap_or(&c.result.bottle) == well);
        let path = run::paths(store, &asked, &runs, out.invented)?;
        let other = run::paths(store, &others, &runs, out.invented)?;
        let mut sources = run::blanks_of_key(&told, &key);
        sources.extend(attribution::of_key(&fits, &key, out.invented));
        let [path, other, metals, sources, waters, low, run] = [
            section(chapter::Path { element: element(), well: well.as_str().into() }, path),
            section(chapter::OtherPaths { element: element() }, other),
            section(chapter::Metals, metals::blocks(&waters, &first)),
            section(chapter::Sources { element: element() }, sources),
            section(
                if waters_told.alone { Message::from(chapter::Water) } else { chapter::Waters.into() },
                waters_told.waters,
            ),
            section(chapter::Low { element: element() }, waters_told.low),
            section(chapter::Run, run::in_short(&told, &key)),
        ];
        let title = |s: &Section| s.title.clone();
        let order = [
            title(&path),
            limit::Against.text(),
            title(&metals),
            title(&other),
            title(&sources),
            chapter::Day.text(),
            chapter::Wells.text(),
            chapter::Well.text(),
            title(&waters),
            title(&low),
            title(&run),
        ];
        let chapters = [path, other, metals, sources, waters, low, run];
        out.sections.extend(chapters.into_iter().filter(|c| !c.blocks.is_empty()));
        in_order(&mut out.sections, &order);
        out.front = Some(Box::new(front));
    }
    Ok(out)
}

/// The question of a report whose trip has none on record.
fn asked_otherwise(chosen: &Chosen, place: &str) -> String {
    match &chosen.trips[..] {
        [trip] => {
            let day = trip.starts.get(..10).unwrap_or(&trip.starts);
            let asked = front_said::AskedOfTrip { place: place.into(), day: day.into() };
            document::printed::printed(&asked.text(), message::language())
        }
        _ => front_said::AskedOfRecord { place: place.into() }.text(),
    }
}

/// Substances whose years stand in the annex, at most: the asked one, then what lies nearest to a limit.
const YEARS_OF: usize = 4;

/// Chapters by these titles in their order, then the annexes as they were added.
fn in_order(sections: &mut [Section], titles: &[String]) {
    let place = |s: &Section| match titles.iter().position(|t| s.annex.is_none() && *t == s.title) {
        Some(place) => place,
        None if s.annex.is_none() => titles.len(),
        None => titles.len() + 1,
    };
    sections.sort_by_key(place);
}

/// A chapter that was added already.
fn chapter_mut<'a>(out: &'a mut Content, title: &impl Spoken) -> Option<&'a mut Section> {
    let title = title.text();
    out.sections.iter_mut().find(|s| s.annex.is_none() && s.title == title)
}

/// The site of the wells, or the programme where there are several sites or none.
fn place(store: &Store, chosen: &Chosen, name: &str) -> Result<String, Error> {
    let mut sites: Vec<String> = store
        .wells()?
        .into_iter()
        .filter(|w| chosen.results.iter().any(|r| r.well.as_deref() == Some(&w.name)))
        .filter_map(|w| w.site)
        .collect();
    sites.dedup();
    Ok(match &sites[..] {
        [site] => site.clone(),
        _ => name.to_string(),
    })
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
fn start(store: &Store, name: &str, trips: &[Trip], all: &[Listed]) -> Result<Content, Error> {
    let sites = store.sites()?;
    let events = store.events()?;
    let invented = sites.iter().any(|s| s.invented == Some(true));
    let trip = |t: &Trip| said::Trip { trip: t.name.as_str().into() }.text();
    Ok(Content {
        title: title(&sites).text(),
        subtitle: trips.iter().map(trip).collect::<Vec<_>>().join(", "),
        author: persons(store)?,
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

/// Who made the record that a report tells.
fn persons(store: &Store) -> Result<String, Error> {
    let names: Vec<String> = store.persons()?.into_iter().map(|p| p.name).collect();
    Ok(names.join(", "))
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

/// A verdict as a cell.
pub(crate) fn verdict_cell(v: Option<VerdictWord>) -> Cell {
    v.map_or(Cell::Missing("–".into()), |v| Cell::Verdict(verdict_word(v)))
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
