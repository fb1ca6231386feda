//! The pieces of the report one at a time, for a web interface that shows a page of each: a run, a well, the path of a
//! bottle, a water, a series. The same words, tables and pictures as in the report, from the same functions.
//!
//! In: the record, or what was read from it. Out: blocks of `content`. Checked through the pages that show them.

use super::{
    Run, age, attribution, chemistry, detection, dust, lead, lots, path, run as runs, statements, strip, time_series,
    wells, words,
};
use assessment::attribution::TripAnalyte;
use assessment::chemistry_checks::{self, Analysed};
use assessment::derive;
use assessment::lots::LotSheet;
use assessment::results::Listed;
use assessment::verdict::Rules;
use assessment::wells::WellSheet;
use document::content::{Block, Illustration, Section};
use message::Spoken;
use programme::case::Case;
use quantity::Finding;
use record::Error;
use record::model::ResultRow;
use record::store::{Filter, Store};

/// What there is to say of sums, blind methods, names and numbers of a list of compounds.
pub fn compounds(list: &limits::absence::Report) -> Vec<Finding> {
    statements::of_compounds(list)
}

/// A run of the record, reduced.
///
/// # Errors
/// There is none of that name; it cannot be reduced.
pub fn reduced(store: &Store, name: &str) -> Result<Run, Error> {
    let prepared = derive::prepare(store, derive::find_run(store, name)?)?;
    let reduced = derive::reduce(&prepared)?;
    Ok(Run { prepared, reduced })
}

/// Line, blanks, sequence with drift, recoveries and detection of one element of a run.
///
/// # Errors
/// The store cannot be read.
pub fn run(store: &Store, run: &Run, element: &str) -> Result<Vec<Block>, Error> {
    let mut blocks = runs::run_blocks(run, element);
    blocks.extend(detection::blocks(run, element));
    blocks.extend(lead::blocks(run, &store.lead_sources()?, &|_| true));
    blocks.extend(dust::blocks(run));
    Ok(blocks)
}

/// How old the water of a well is, with every model and every reason.
pub fn age(a: &assessment::age::WellAge) -> Vec<Block> {
    age::blocks(a, true)
}

/// The path of the bottle of a result, where it came from the run; its strip of 100 parts is [`strip`].
///
/// # Errors
/// The store cannot be read.
pub fn bottle_path(store: &Store, case: &Case, run: &Run, invented: bool) -> Result<Option<Illustration>, Error> {
    path::alone(store, case, run, invented)
}

/// Of 100 parts of the metal in the bottle of a case: the linear strip, alone; none where no shares are told.
///
/// # Errors
/// The store cannot be read.
pub fn strip(store: &Store, case: &Case) -> Result<Option<Illustration>, Error> {
    let Some(accounting) = &case.result.accounting else { return Ok(None) };
    let bottle = store.bottles(&Filter::all().is("label", case.result.bottle.as_str()))?;
    let volume = bottle.first().and_then(|b| b.volume_mL);
    let picture = strip::of(case, volume, path::of_hundred(case, accounting).unwrap_or_default());
    Ok(picture.map(|p| Illustration {
        wide: figure::strip::draw(&p, figure::WIDE),
        phone: Some(figure::strip::draw(&p, figure::PHONE)),
        caption: accounting.says.as_ref().map_or_else(String::new, |s| s.text()),
    }))
}

/// A finding in a few words, where it has such a form.
pub fn few_words(finding: &Finding) -> Option<String> {
    words::in_few_words(finding)
}

/// A well: drawing, what was measured on its visits, what follows.
pub fn well(sheet: &WellSheet, results: &[Listed], rules: &Rules) -> Vec<Block> {
    wells::blocks(sheet, results, rules)
}

/// The waters among these results that have major ions, with their names.
///
/// # Errors
/// The store cannot be read.
pub fn waters(store: &Store, rows: &[ResultRow]) -> Result<(Vec<Analysed>, Vec<String>), Error> {
    let waters = chemistry_checks::analyses(store, rows)?;
    let names = chemistry::names(&waters);
    Ok((waters, names))
}

/// The chemistry of one of the waters.
///
/// # Errors
/// The store cannot be read.
pub fn water(store: &Store, waters: Vec<Analysed>, at: usize) -> Result<Option<Section>, Error> {
    chemistry::one(store, waters, at)
}

/// A few waters side by side: first their numbers, shapes and smell, then what holds their first metal down.
///
/// # Errors
/// The store cannot be read.
pub fn waters_beside(store: &Store, waters: Vec<Analysed>) -> Result<[Vec<Block>; 2], Error> {
    let chapters = chemistry::beside(store, waters)?;
    Ok([chapters.waters, chapters.low])
}

/// The series of these results, each with picture, summary, trend, steps, and the blanks beside it; of the years
/// between `span` only, where that is given.
///
/// # Errors
/// The store cannot be read.
pub fn series(store: &Store, results: &[Listed], span: Option<(f64, f64)>) -> Result<Vec<Block>, Error> {
    time_series::singly(store, results, span)
}

/// Whose metal it is: sources, waters, fills and flows with their pictures; the metals named at length, all in tables.
///
/// # Errors
/// The store cannot be read.
pub fn attribution(
    store: &Store,
    fits: &[TripAnalyte],
    results: &[Listed],
    at_length: &[&str],
) -> Result<Vec<Block>, Error> {
    attribution::of(store, fits, results, at_length, false)
}

/// The element that attribution tells first.
pub fn attribution_key(fits: &[TripAnalyte]) -> Option<&str> {
    attribution::key_of(fits)
}

/// What the bottles of a lot met, and its blanks against the targets.
pub fn lot(sheet: &LotSheet) -> Vec<Block> {
    lots::one(sheet)
}

/// The name of a substance: "lead" for Pb; other names as they are.
pub fn element(symbol: &str) -> String {
    super::substance(symbol)
}
