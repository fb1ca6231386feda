//! Sources: where the metal of a bottle comes from. First the one accounting, a strip a well; then what nothing tells yet and
//! which blank or bottle would; then the sources by all bottles of a trip, fills and flows with their pictures. Fitted once
//! for a state of the record, and then kept.

use super::words;
use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, respond};
use crate::http_error::HttpError;
use crate::page::{self, Place, case_address, encoded};
use ::document::content::{Block, Illustration};
use ::report::pages;
use assessment::attribution::{self, RunPair, TripAnalyte};
use assessment::derive;
use assessment::results::{self, Listed};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use message::{Lang, Spoken, count, language, web_sources as said};
use programme::index::Wanted;
use record::ResultId;
use record::store::Store;
use std::collections::{BTreeMap, HashMap};
use std::sync::{LazyLock, Mutex};

/// Results of a metal taken, at most: the newest.
const MOST: usize = 2000;

/// The accounting of a well's newest bottle.
#[derive(Clone)]
struct OfWell {
    well: String,
    result: ResultId,
    bottle: String,
    day: String,
    strip: Option<Illustration>,
    /// Where there is no strip, why.
    says: Option<String>,
}

/// What is not told yet: which part, why and what would tell, at which wells.
#[derive(Clone)]
struct Untold {
    part: String,
    why: String,
    wells: Vec<String>,
}

/// The word of the record for a part that blanks or bottles tell by itself.
const MEASURED: &str = "measured";

/// What is set out of an element.
#[derive(Clone, Default)]
struct Element {
    wells: Vec<OfWell>,
    untold: Vec<Untold>,
    blocks: Vec<Block>,
}

/// What the runs of a programme say at a head of its record, and what was set out of it by element and language.
struct Worked {
    head: String,
    fits: Vec<TripAnalyte>,
    left_out: Vec<String>,
    elements: HashMap<(String, Lang), Element>,
}

/// The last of it. Who asks meanwhile waits: the work is done once, not once a reader.
static WORKED: LazyLock<Mutex<Option<Worked>>> = LazyLock::new(Mutex::default);

fn work_out(store: &Store, head: String) -> Result<Worked, HttpError> {
    let all = derive::reduce_all(store)?;
    let pairs: Vec<RunPair> = all.runs.iter().map(|(p, r)| (p, r)).collect();
    // Without a run there is nothing to be fitted, and the evidence of all trips need not be read.
    let fits = if pairs.is_empty() { vec![] } else { attribution::all(store, &pairs)? };
    let left_out = all.left_out.iter().map(|(_, why)| why.to_string()).collect();
    Ok(Worked { head, fits, left_out, elements: HashMap::new() })
}

/// What the page shows.
struct Shown {
    of: Element,
    elements: Vec<String>,
    element: String,
    left_out: Vec<String>,
}

fn shown(store: &Store, app: &App, asked: Option<&str>) -> Result<Shown, HttpError> {
    let head = store.head()?.map_or_else(String::new, |h| h.to_string());
    let mut kept = crate::lock::lock(&WORKED);
    let worked = match kept.take() {
        Some(known) if known.head == head => kept.insert(known),
        _ => kept.insert(work_out(store, head)?),
    };
    let mut elements: Vec<String> = worked.fits.iter().map(|t| t.analyte.element.clone()).collect();
    elements.sort();
    elements.dedup();
    let left_out = worked.left_out.clone();
    let Some(key) = asked.or_else(|| pages::attribution_key(&worked.fits)).map(str::to_string) else {
        return Ok(Shown { of: Element::default(), elements, element: String::new(), left_out });
    };
    if !elements.contains(&key) {
        return Err(HttpError::absent(said::NoSuchMetal { metal: key.into() }.text()));
    }
    let at = (key.clone(), language());
    if let Some(of) = worked.elements.get(&at) {
        return Ok(Shown { of: of.clone(), elements, element: key, left_out });
    }
    let rows = app.record.index(store, |i| {
        let water = Wanted { analyte: Some(key.clone()), ..Wanted::default() };
        let blanks = Wanted { evidence: true, ..Wanted::default() };
        super::with_blanks(i, &water, &blanks, MOST)
    })?;
    let listed = results::listed(store, &rows)?;
    let wells = accountings(store, &listed, &key)?;
    let of = Element {
        untold: untold(&listed, &wells),
        wells,
        blocks: pages::attribution(store, &worked.fits, &listed, &[&key])?,
    };
    worked.elements.insert(at, of.clone());
    Ok(Shown { of, elements, element: key, left_out })
}

/// The newest accounting of each well: of its first bottle with a verdict.
fn accountings(store: &Store, listed: &[Listed], key: &str) -> Result<Vec<OfWell>, HttpError> {
    let mut newest: BTreeMap<&str, &Listed> = BTreeMap::new();
    let has = |r: &&Listed| r.analyte == key && r.verdict.is_some() && r.accounting.is_some();
    for r in listed.iter().filter(has) {
        let Some(well) = r.well.as_deref() else { continue };
        let at = newest.entry(well).or_insert(r);
        let day = |r: &Listed| r.filled_at.as_deref().and_then(|t| t.get(..10)).unwrap_or_default().to_string();
        // Of the newest day the first bottle, of the sum over isotopes where there is one.
        let rank = |r: &Listed| (day(r), r.isotopes.contains('+'), std::cmp::Reverse(r.bottle.clone()));
        if rank(r) > rank(at) {
            *at = r;
        }
    }
    let mut out = vec![];
    for (well, r) in newest {
        let case = programme::case::of(store, &r.result)?;
        let says = r.accounting.as_ref().and_then(|a| a.says.as_ref()).map(|s| words::printed(&s.text()));
        out.push(OfWell {
            well: well.into(),
            result: r.result.clone(),
            bottle: r.bottle.clone(),
            day: r.filled_at.as_deref().map(words::day).unwrap_or_default(),
            strip: pages::strip(store, &case)?,
            says,
        });
    }
    Ok(out)
}

/// Why parts are not told by themselves, each reason once with its wells.
fn untold(listed: &[Listed], wells: &[OfWell]) -> Vec<Untold> {
    let mut out: Vec<Untold> = vec![];
    for of in wells {
        let Some(r) = listed.iter().find(|r| r.result == of.result) else { continue };
        for p in r.accounting.iter().flat_map(|a| &a.parts).filter(|p| p.told.word() != MEASURED) {
            let Some(why) = &p.why else { continue };
            let (part, why) = (message::number::capital(&p.part.says().text()), words::printed(&why.text()));
            match out.iter_mut().find(|u| u.part == part && u.why == why) {
                Some(u) => u.wells.push(of.well.clone()),
                None => out.push(Untold { part, why, wells: vec![of.well.clone()] }),
            }
        }
    }
    out
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = q.get("analyte").filter(|a| !a.is_empty()).cloned();
    let s = page::read(&app, move |store, app| shown(store, app, asked.as_deref())).await?;
    let mut pieces: Vec<Piece> = vec![head(&s).into()];
    for of in &s.of.wells {
        pieces.push(heading_of(of).into());
        if let Some(strip) = &of.strip {
            pieces.push(words::in_words(Block::Figure(strip.clone())).into());
        }
    }
    pieces.push(would_tell(&s).into());
    if !s.of.blocks.is_empty() {
        pieces.push(html! { h2 #fit { (said::ByAll.text()) } }.into());
    }
    pieces.extend(words::pieces(s.of.blocks));
    let title = said::Title.text();
    respond(&app, &who, Place::of("/attribution", &title).spoken(&who), &q, &pieces)
}

fn head(s: &Shown) -> Markup {
    html! {
        h1 { (said::Title.text()) }
        @if s.elements.is_empty() {
            p.quiet { (said::None.text()) }
        } @else {
            p { (said::What.text()) }
            nav.elements aria-label=(said::Metals.text()) { ul { @for e in &s.elements {
                li { a href=(format!("/attribution?analyte={}", encoded(e))) aria-current=[(*e == s.element).then_some("true")] { (words::substance(e)) } }
            } } }
        }
        @for why in &s.left_out { p.caution { (said::LeftOut { why: why.as_str().into() }.text()) } }
    }
}

fn heading_of(of: &OfWell) -> Markup {
    html! {
        h2 { a href=(format!("/wells/{}", encoded(&of.well))) { (of.well) } ", " (of.day) }
        p.under { (said::Bottle.text()) " " a href=(case_address(&of.result)) { (of.bottle) } }
        // With a strip its caption says it.
        @if let (Some(says), None) = (&of.says, &of.strip) { p { (says) } }
    }
}

/// What is not told, and the blank or bottle that would tell, each as an act.
fn would_tell(s: &Shown) -> Markup {
    html! {
        @if !s.of.untold.is_empty() {
            h2 #would-tell { (said::WouldTell { n: count(s.of.untold.len()) }.text()) }
            ul.would-tell { @for u in &s.of.untold {
                li {
                    strong { (u.part) } span.quiet { " · " (u.wells.join(", ")) }
                    p { (u.why) }
                    a href=(plan(s, &u.wells)) { (said::AddToTrip.text()) }
                }
            } }
        }
    }
}

/// The plan of the next trip with these wells and this metal chosen.
fn plan(s: &Shown, wells: &[String]) -> String {
    let wells = wells.iter().fold(String::new(), |all, w| all + "&well." + &encoded(w) + "=1");
    format!("/plan?analyte={}{wells}", encoded(&s.element))
}
