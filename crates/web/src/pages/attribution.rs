//! Whose metal it is: what each source brought, the water's own beside the plain result, fills and flows with their
//! pictures, and what these bottles cannot tell apart. Fitted once for a state of the record, and then kept.

use crate::app::{App, Shared};
use crate::blocks::{Piece, Query, respond};
use crate::door::guard::Who;
use crate::page::{self, Place, encoded};
use crate::trouble::Trouble;
use ::report::assemble::pages;
use ::report::content::Block;
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use programme::attribution::{self, RunPair, TripAnalyte, reduced_runs};
use programme::index::Wanted;
use programme::results;
use programme::store::Store;
use std::sync::{Arc, LazyLock, Mutex};

/// Results of a metal taken, at most: the newest.
const MOST: usize = 2000;

/// What the runs of a programme say.
struct Fits {
    fits: Vec<TripAnalyte>,
    left_out: Vec<String>,
}

/// A head of the record and its fits.
type Worked = (String, Arc<Fits>);

/// The last fits.
static WORKED: LazyLock<Mutex<Option<Worked>>> = LazyLock::new(Mutex::default);

fn fits(store: &Store) -> Result<Arc<Fits>, Trouble> {
    let key = store.head()?.map_or_else(String::new, |h| h.to_string());
    if let Some((known, fits)) = &*crate::record::lock(&WORKED)
        && *known == key
    {
        return Ok(fits.clone());
    }
    let (runs, left_out) = reduced_runs(store)?;
    let pairs: Vec<RunPair> = runs.iter().map(|(p, r)| (p, r)).collect();
    let fits = Arc::new(Fits { fits: attribution::all(store, &pairs)?, left_out });
    *crate::record::lock(&WORKED) = Some((key, fits.clone()));
    Ok(fits)
}

/// What the page shows.
struct Shown {
    blocks: Vec<Block>,
    elements: Vec<String>,
    element: String,
    left_out: Vec<String>,
}

fn shown(store: &Store, app: &App, asked: Option<&str>) -> Result<Shown, Trouble> {
    let fits = fits(store)?;
    let mut elements: Vec<String> = fits.fits.iter().map(|t| t.analyte.element.clone()).collect();
    elements.sort();
    elements.dedup();
    let Some(key) = asked.or_else(|| pages::attribution_key(&fits.fits)) else {
        return Ok(Shown { blocks: vec![], elements, element: String::new(), left_out: fits.left_out.clone() });
    };
    if !elements.iter().any(|e| e == key) {
        return Err(Trouble::absent(format!("No run on record measured \"{key}\" in bottles of a trip.")));
    }
    let rows = app.record.index(store, |i| {
        let water = Wanted { analyte: Some(key.into()), ..Wanted::default() };
        let blanks = Wanted { evidence: true, ..Wanted::default() };
        let mut rows = i.select(&water, 0, MOST).rows;
        rows.extend(i.select(&blanks, 0, MOST).rows);
        rows.sort_unstable();
        rows
    })?;
    let listed = results::listed(store, &rows)?;
    let blocks = pages::attribution(store, &fits.fits, &listed, &[key])?;
    Ok(Shown { blocks, element: key.into(), elements, left_out: fits.left_out.clone() })
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, Trouble> {
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
