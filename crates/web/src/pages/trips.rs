//! The trips: bottles, readings against their criteria, air and its class, exposures, custody; lots and acids.

use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, findings, heads, link, number, outcome_word, respond, td};
use crate::forms::Done;
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded, moment};
use crate::pages::case::Said;
use crate::pages::field;
use crate::pages::tables::{is_asked, label};
use ::figure::number::Printed;
use assessment::field_checks::FieldChecks;
use assessment::verdict::Rules;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use maud::{Markup, html};
use record::model::{Bottle, Trip};
use record::schema;
use record::store::{Filter, Store};

/// Trips on the list, the newest.
const LISTED: usize = 100;

/// All trips, lots and acids.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = page::read(&app, |store, _| {
        let mut trips = store.trips()?;
        trips.sort_by(|a, b| b.starts.cmp(&a.starts));
        let total = trips.len();
        trips.truncate(LISTED);
        let mut rows = vec![];
        for t in &trips {
            let bottles = store.bottles(&Filter::all().is("trip", t.id))?.len();
            rows.push(vec![
                link(&format!("/trips/{}", encoded(&t.name)), t.name.clone()),
                td(moment(&t.starts)),
                td(t.question.clone().unwrap_or_default()),
                td(t.persons.clone().unwrap_or_default()),
                number(bottles.to_string()),
            ]);
        }
        let trips = Listing {
            caption: if total > LISTED {
                format!("The newest {LISTED} of {total} trips")
            } else {
                "Trips, newest first".into()
            },
            headings: heads(&["Trip", "Start", "What it is to decide", "Who", "Bottles"]),
            rows,
            empty: "No trip is on record yet.",
            ..Listing::default()
        };
        let mut out: Vec<Piece> = vec![trips.into()];
        for (table, title) in [("lot", "Lots of bottles"), ("acid", "Acid lots"), ("filter", "Filter lots")] {
            out.push(html! { h2 { (title) } }.into());
            out.push(entered(store, table, &Filter::all(), "/trips")?.into());
        }
        Ok(out)
    })
    .await?;
    let head = html! {
        h1 { "Trips" }
        p.acts {
            a.go href="/plan" { "Plan the next trip" } " " a href="/lots" { "May each lot go out?" } " "
            a href="/attribution" { "Whose metal it was" }
        }
        @if who.may(Role::Sampler) {
            p.acts {
                a href="/enter/trip" { "Enter a trip" } " "
                a href="/enter/lot?to=%2Ftrips" { "a lot of bottles" } " " a href="/enter/acid?to=%2Ftrips" { "an acid lot" } " "
                a href="/enter/filter?to=%2Ftrips" { "a filter lot" } " " a href="/enter/person?to=%2Ftrips" { "a person" }
            }
        }
    };
    let pieces: Vec<Piece> = std::iter::once(head.into()).chain(pieces).collect();
    respond(&app, &who, Place::of("/trips", "Trips"), &q, &pieces)
}

/// One trip.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = page_of(&app, &who, &name, None).await?;
    respond(&app, &who, Place::of("/trips", &format!("Trip {name}")), &q, &pieces)
}

/// The trip once more, with what was typed in one of its forms.
pub(crate) async fn again(app: &Shared, who: &Who, name: &str, said: &Said<'_>) -> Result<Done, HttpError> {
    let who = &Who { here: format!("/trips/{}", encoded(name)), ..who.clone() };
    let pieces = page_of(app, who, name, Some(said)).await?;
    Ok(Done::Again(body(app, who, Place::of("/trips", &format!("Trip {name}")), &pieces)))
}

async fn page_of(app: &Shared, who: &Who, name: &str, said: Option<&Said<'_>>) -> Result<Vec<Piece>, HttpError> {
    let asked = name.to_string();
    let may = who.may(Role::Sampler);
    let (mut pieces, differ) = page::read(app, move |store, _| {
        let absent = || HttpError::absent(format!("There is no trip \"{asked}\" in the programme."));
        let found = store.list::<Trip>(&Filter::all().is("name", asked.as_str()))?;
        let trip = found.into_iter().next().ok_or_else(absent)?;
        Ok((one(store, &trip, may)?, intake::field::conflicts(store, Some(&trip.name))?))
    })
    .await?;
    pieces.insert(1, field::links(name).into());
    if !differ.is_empty() {
        pieces.insert(2, field::conflicts(app, who, name, &differ, said).into());
    }
    Ok(pieces)
}

fn one(store: &Store, t: &Trip, may: bool) -> Result<Vec<Piece>, HttpError> {
    let on_trip = Filter::all().is("trip", t.id);
    let here = format!("/trips/{}", encoded(&t.name));
    let rules = Rules::new(store.check_rules()?);
    let evidence = FieldChecks::of(store, t.id, &rules)?;
    let bottles = store.bottles(&on_trip)?;
    let mut out: Vec<Piece> =
        vec![head(t, may).into(), html! { h2 { "Bottles" } }.into(), bottle_list(&bottles, &here, may).into()];
    out.push(html! { h2 { "At the wells" } p.caution { "Hydrogen sulfide gathers in closed well houses and kills: measure the air before going in, and follow local rules." } }.into());
    let mut any = false;
    for w in store.wells()? {
        let Some(known) = evidence.well(w.id) else { continue };
        any = true;
        out.push(html! { h3 { a href=(format!("/wells/{}", encoded(&w.name))) { (w.name) } } }.into());
        let why = if known.unfit.is_empty() { "no fill was timed" } else { "a timed fill cannot be" };
        let flow = known.flow.as_ref().map_or(format!("not known: {why}"), |a| Printed::of(a, 2.0).with_unit());
        let contact: Vec<String> =
            known.contact.iter().map(|(m, a)| format!("{} in {m}", Printed::of(a, 2.0).with_unit())).collect();
        out.push(html! { p { "Flow " strong { (flow) } @if !contact.is_empty() { "; the water touches the pipe " strong { (contact.join(", ")) } } "." } }.into());
        if !known.steady.is_empty() {
            out.push(steady(&w.name, &known.steady).into());
        }
        out.push(findings(&known.findings).into());
    }
    if !any {
        out.push(html! { p.quiet { "Nothing was read at a well on this trip yet." } }.into());
    }
    out.push(html! { h2 { "The air over the open bottles" } }.into());
    out.push(air(&bottles, &evidence, &rules).into());
    out.push(html! { h2 { "As entered" } }.into());
    for table in ["field_reading", "fill", "air_count", "custody"] {
        out.push(entered(store, table, &on_trip, &here)?.into());
    }
    out.push(entered(store, "trip", &Filter::all().is("id", t.id), &here)?.into());
    Ok(out)
}

fn head(t: &Trip, may: bool) -> Markup {
    let told: Vec<(&str, &String)> = [
        ("weather", &t.weather),
        ("wind", &t.wind),
        ("dust", &t.dust),
        ("road salt", &t.road_salt),
        ("engines", &t.engines),
        ("who", &t.persons),
    ]
    .into_iter()
    .filter_map(|(n, v)| Some((n, v.as_ref()?)))
    .collect();
    let (e, to) = (encoded(&t.name), encoded(&format!("/trips/{}", encoded(&t.name))));
    html! {
        h1 { "Trip " (t.name) }
        p.under { (moment(&t.starts)) @if let Some(end) = &t.ends { " to " (moment(end)) } }
        @if let Some(question) = &t.question { p { "To decide: " (question) } }
        @if !told.is_empty() { dl { @for (n, v) in told { div { dt { (n) } dd { (v) } } } } }
        @if may {
            p.acts {
                a.go href=(format!("/enter/bottle?trip={e}&to={to}")) { "Enter a bottle" } " "
                a href=(format!("/enter/field_reading?trip={e}&to={to}")) { "readings" } " "
                a href=(format!("/enter/fill?trip={e}&to={to}")) { "timed fills" } " "
                a href=(format!("/enter/air_count?trip={e}&to={to}")) { "particle counts" } " "
                a href=(format!("/enter/custody?trip={e}&to={to}")) { "a step of custody" } " "
                a href=(format!("/enter/spike?to={to}")) { "spikes" }
            }
        }
    }
}

fn bottle_list(bottles: &[Bottle], here: &str, may: bool) -> Listing {
    let shown = |x: Option<f64>, unit: &str| {
        x.map_or(String::new(), |x| format!("{} {unit}", quantity::format::significant_trimmed(x, 3)))
    };
    let row = |b: &Bottle| {
        let mut cells = vec![
            link(
                &format!(
                    "/results?bottle={}{}",
                    encoded(&b.label),
                    if b.kind.is_blank() { "&of=evidence" } else { "" }
                ),
                b.label.clone(),
            ),
            td(b.kind.word().replace('-', " ")),
            td(b.well.clone().unwrap_or_default()),
            td(b.lot.clone().unwrap_or_default()),
            td(b.fraction.clone().unwrap_or_default()),
            td(moment(b.filled_at.as_deref().unwrap_or_default())),
            td(b.sampler.clone().unwrap_or_default()),
            td(b.acid.as_ref().map_or(String::new(), |a| format!("{a} {}", shown(b.acid_mL, "mL")))),
            td(b.openings.map_or(String::new(), |n| n.to_string())),
            td(shown(b.cabinet_min, "min")),
            td(shown(b.open_air_min, "min")),
        ];
        if may {
            cells.push(link(&format!("/correct/bottle/{}?to={}", b.id, encoded(here)), "Correct"));
        }
        cells
    };
    let mut headings = heads(&[
        "Bottle",
        "Kind",
        "Well",
        "Lot",
        "Fraction",
        "Filled",
        "By",
        "Acid",
        "Openings",
        "Open in cabinet",
        "Open outdoors",
    ]);
    if may {
        headings.push(String::new());
    }
    Listing {
        caption: "Bottles and what each was exposed to".into(),
        headings,
        rows: bottles.iter().map(row).collect(),
        empty: "No bottle of this trip is on record yet.",
        ..Listing::default()
    }
}

fn steady(well: &str, readings: &[assessment::field_checks::SteadyReading]) -> Listing {
    let row = |r: &assessment::field_checks::SteadyReading| {
        let mut came = td(r.outcome.word());
        came.shown = outcome_word(r.outcome);
        vec![
            td(r.quantity.clone()),
            number(r.readings.to_string()),
            came,
            td(r.since.clone().unwrap_or_default()),
            td(r.rule.in_english()),
        ]
    };
    Listing {
        caption: format!("Whether the readings at {well} were steady before the bottles"),
        headings: heads(&["Reading", "Readings", "Steady", "Since", "Rule"]),
        rows: readings.iter().map(row).collect(),
        empty: "",
        ..Listing::default()
    }
}

/// The findings on the air, one well's and place's once.
fn air(bottles: &[Bottle], evidence: &FieldChecks, rules: &Rules) -> Markup {
    let mut told: Vec<(String, quantity::Finding)> = vec![];
    for b in bottles.iter().filter(|b| b.well_id.is_some()) {
        for f in evidence.findings(b, None, rules).into_iter().filter(|f| f.stage == quantity::Stage::CleanAir) {
            let well = b.well.clone().unwrap_or_default();
            if !told.iter().any(|(w, k)| *w == well && k.sentence == f.sentence) {
                told.push((well, f));
            }
        }
    }
    html! {
        @if told.is_empty() { p.quiet { "No bottle of a well is on record, so no air is judged." } }
        @for (well, f) in &told { h3 { (well) } (findings(std::slice::from_ref(f))) }
    }
}

/// Rows of a table as they were typed, each with a way to correct it.
pub(crate) fn entered(store: &Store, table: &'static str, filter: &Filter, to: &str) -> Result<Listing, HttpError> {
    let declared = schema::table(table).ok_or_else(|| HttpError::absent(table))?;
    let rows = store.as_typed(table, filter)?;
    // Columns in which nothing stands are left out.
    let places: Vec<usize> = (0..declared.columns.len())
        .filter(|p| is_asked(table, &declared.columns[*p]) && rows.iter().any(|(_, r)| !r[*p].is_empty()))
        .collect();
    let mut headings: Vec<String> = places.iter().map(|p| heading(&declared.columns[*p])).collect();
    headings.push(String::new());
    let row = |(id, cells): &(i64, Vec<String>)| {
        let mut out: Vec<_> = places
            .iter()
            .map(|p| match declared.columns[*p].kind {
                schema::Kind::Real | schema::Kind::Integer => number(cells[*p].clone()),
                schema::Kind::Time => td(moment(&cells[*p])),
                _ => td(cells[*p].clone()),
            })
            .collect();
        out.push(link(&format!("/correct/{table}/{id}?to={}", encoded(to)), "Correct"));
        out
    };
    Ok(Listing {
        caption: declared.about.trim_end_matches('.').to_string(),
        headings,
        rows: rows.iter().map(row).collect(),
        empty: EMPTY.iter().find(|(t, _)| *t == table).map_or("Nothing is on record.", |(_, w)| w),
        ..Listing::default()
    })
}

const EMPTY: &[(&str, &str)] = &[
    ("field_reading", "No reading is on record."),
    ("fill", "No timed fill is on record."),
    ("air_count", "No particle count is on record."),
    ("custody", "No step of custody is on record."),
    ("well_section", "Casing and screen are not on record."),
    ("layer", "The layers are not on record."),
    ("lot", "No lot is on record."),
    ("acid", "No acid lot is on record."),
    ("filter", "No filter lot is on record."),
];

/// The heading of a column, with its unit.
fn heading(c: &schema::Column) -> String {
    let (words, unit) = label(c);
    if unit.is_empty() { words } else { format!("{words}, {unit}") }
}
