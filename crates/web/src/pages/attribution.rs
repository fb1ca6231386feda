//! Whose metal it is: what each source brought, the water's own beside the plain result, fills and flows with their
//! pictures, and what these bottles cannot tell apart. Fitted once for a state of the record, and then kept.

use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, respond};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::document::content::Block;
use ::report::pages;
use assessment::attribution::{self, RunPair, TripAnalyte};
use assessment::derive;
use assessment::results;
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::index::Wanted;
use record::store::Store;
use std::collections::HashMap;
use std::sync::{LazyLock, Mutex};

/// Results of a metal taken, at most: the newest.
const MOST: usize = 2000;

/// What the runs of a programme say at a head of its record, and what was set out of it by element.
struct Worked {
    head: String,
    fits: Vec<TripAnalyte>,
    left_out: Vec<String>,
    blocks: HashMap<String, Vec<Block>>,
}

/// The last of it. Who asks meanwhile waits: the work is done once, not once a reader.
static WORKED: LazyLock<Mutex<Option<Worked>>> = LazyLock::new(Mutex::default);

fn work_out(store: &Store, head: String) -> Result<Worked, HttpError> {
    let all = derive::reduce_all(store)?;
    let pairs: Vec<RunPair> = all.runs.iter().map(|(p, r)| (p, r)).collect();
    // Without a run there is nothing to be fitted, and the evidence of all trips need not be read.
    let fits = if pairs.is_empty() { vec![] } else { attribution::all(store, &pairs)? };
    let left_out = all.left_out.iter().map(|(_, why)| why.to_string()).collect();
    Ok(Worked { head, fits, left_out, blocks: HashMap::new() })
}

/// What the page shows.
struct Shown {
    blocks: Vec<Block>,
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
        return Ok(Shown { blocks: vec![], elements, element: String::new(), left_out });
    };
    if !elements.contains(&key) {
        return Err(HttpError::absent(format!("No run on record measured \"{key}\" in bottles of a trip.")));
    }
    if let Some(blocks) = worked.blocks.get(&key) {
        return Ok(Shown { blocks: blocks.clone(), elements, element: key, left_out });
    }
    let rows = app.record.index(store, |i| {
        let water = Wanted { analyte: Some(key.clone()), ..Wanted::default() };
        let blanks = Wanted { evidence: true, ..Wanted::default() };
        super::with_blanks(i, &water, &blanks, MOST)
    })?;
    let listed = results::listed(store, &rows)?;
    let blocks = pages::attribution(store, &worked.fits, &listed, &[&key])?;
    worked.blocks.insert(key.clone(), blocks.clone());
    Ok(Shown { blocks, elements, element: key, left_out })
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
    pieces.extend(s.blocks.into_iter().map(Piece::from));
    respond(&app, &who, Place::of("/results", "Whose metal it is"), &q, &pieces)
}

fn head(s: &Shown) -> Markup {
    html! {
        h1 { "Whose metal it is" }
        @if s.elements.is_empty() {
            p.quiet { "No run on record measured blanks and waters of a trip, so nothing can be attributed yet. It takes the counts of a run, and of each bottle what it was exposed to: acid, openings, minutes in the open." }
        } @else {
            nav.elements aria-label="Metals" { ul { @for e in &s.elements {
                li { a href=(format!("/attribution?analyte={}", encoded(e))) aria-current=[(*e == s.element).then_some("true")] { (e) } }
            } } }
        }
        @for why in &s.left_out { p.caution { "Left out: " (why) } }
    }
}
