//! What to take on the next trip: the question asked by a form, the designs that nothing beats with price and chance,
//! what the next money buys, the packing list, and the trip made from one of them.
//!
//! The question stands in the address: a plan can be kept, sent to a colleague, and asked anew next year. What is left
//! out comes from the record, and the page says from what. The science is `programme::plan`.

use super::report::pdf;
use crate::app::{App, Shared, now};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, link, number, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::page::{self, Place, encoded};
use ::report::packing::{self, Packing};
use assessment::attribution::RunPair;
use assessment::derive;
use axum::Form;
use axum::extract::{Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use maud::{Markup, html};
use programme::plan::{self, Chosen, NewTrip};
use quantity::CalcError;
use record::store::Store;
use serde_json::{Map, Value, json};

/// Designs ranked while a person waits: some seconds on a small machine. More are for `limpid plan`.
const MOST_DESIGNS: usize = 100_000;

/// Days from today to the trip that the form proposes.
const AHEAD_DAYS: i64 = 14;

/// What can be asked: kind, words, and the numbers that it needs.
const KINDS: &[(&str, &str, &[Field])] = &[
    (
        "detect",
        "a water of this level is detected",
        &[field("detect.level", "Level, ng/L", "What you expect in the water.")],
    ),
    (
        "limit",
        "a water is shown to lie on its side of a limit",
        &[
            field("limit.level", "Level, ng/L", "What you expect."),
            field("limit.limit", "Limit, ng/L", "The limit to decide about."),
        ],
    ),
    (
        "lower",
        "one water is shown to be lower than another",
        &[field("lower.a", "The lower one, ng/L", ""), field("lower.b", "The higher one, ng/L", "")],
    ),
    (
        "trend",
        "a change over the years is seen",
        &[
            field("trend.level", "Level at the start, ng/L", ""),
            field("trend.percent_per_year", "Change, % a year", "Below zero: a fall."),
            field("trend.years", "Years", ""),
            field("trend.visits_per_year", "Visits a year", "1 where left out."),
            field(
                "trend.natural_share",
                "Scatter of the water itself",
                "A share of the level, from visit to visit; 0 where left out.",
            ),
        ],
    ),
    (
        "detection-limit",
        "a detection limit is reached",
        &[
            field("detection-limit.target", "Detection limit, ng/L", ""),
            field("detection-limit.level", "Level, ng/L", "For the relative uncertainty; the target where left out."),
        ],
    ),
];

const PRICES: &[Field] = &[
    field("prices.bottle", "A bottle", "Washed, filled, analysed; sample or blank."),
    field("prices.spike", "A spiked bottle", ""),
    field("prices.minute_saved", "A minute saved", "Keeping bottles open for less time costs work."),
    field("prices.litre", "A litre carried", ""),
    field("prices.trip", "The trip itself", ""),
];

const CHOICES: &[Field] = &[
    field("choices.samples", "Sample bottles a well", ""),
    field("choices.field_blanks", "Field blanks", "Two at least: one shows no scatter."),
    field("choices.trip_blanks", "Trip blanks", ""),
    field("choices.bottle_blanks", "Bottle blanks", "They stay at home."),
    field("choices.spikes", "Spiked bottles", ""),
    field("choices.volume_ml", "Fill volume, mL", ""),
    field("choices.minutes", "Minutes open", ""),
];

/// What the record says where the person does not.
const OWN: &[Field] = &[
    field("past_blanks_pg", "Blanks so far, pg per bottle", "At least two, with commas."),
    field("between_bottles_pg", "Deviation between blanks, pg", ""),
    field("past_dof", "Degrees of freedom of it", ""),
    field("laboratory_pg", "Deviation of the laboratory, pg a bottle", ""),
    field("relative_sd", "Scatter of one sample bottle", "A share of its level."),
    field("spike_sd", "Scatter of one spike recovery", "A share."),
    field("recovery_u", "u of the recovery without a spike", "A share."),
];

const fn field(name: &'static str, words: &'static str, hint: &'static str) -> Field<'static> {
    Field { name, words, hint }
}

/// The numbers of a list: "1, 2, 3".
fn numbers(text: &str) -> Result<Vec<f64>, String> {
    let parts = text.split([',', ';', ' ']).map(str::trim).filter(|p| !p.is_empty());
    let one = |p: &str| p.parse::<f64>().map_err(|_| format!("Found \"{p}\", expected numbers with commas between."));
    parts.map(one).collect()
}

/// The question of a filled form, or what is wrong with its fields.
fn question(filled: &Filled, wells: &[String]) -> Result<Value, Vec<Fault>> {
    let mut faults: Vec<Fault> = vec![];
    let mut one = |name: &str, into: &mut Map<String, Value>, key: &str| {
        let text = filled.get(name).trim();
        match text.parse::<f64>() {
            _ if text.is_empty() => {}
            Ok(x) => _ = into.insert(key.into(), json!(x)),
            Err(_) => faults.push((name.into(), format!("Found \"{text}\", expected a number with a decimal point."))),
        }
    };
    let after = |name: &str| name.split_once('.').map_or(name, |(_, n)| n).to_string();
    let kind = filled.get("kind");
    let (mut asked, mut prices, mut input) = (Map::new(), Map::new(), Map::new());
    for f in KINDS.iter().find(|k| k.0 == kind).map_or(&[][..], |k| k.2) {
        one(f.name, &mut asked, &after(f.name));
    }
    for f in PRICES {
        one(f.name, &mut prices, &after(f.name));
    }
    OWN.iter().filter(|f| f.name != "past_blanks_pg").for_each(|f| one(f.name, &mut input, f.name));
    asked.insert("kind".into(), json!(kind));
    let mut choices = Map::new();
    let mut combinations: usize = 1;
    for f in CHOICES {
        match numbers(filled.get(f.name)) {
            Ok(list) if list.is_empty() => {}
            Ok(list) => {
                combinations = combinations.saturating_mul(list.len());
                let whole = !matches!(f.name, "choices.volume_ml" | "choices.minutes");
                if whole && list.iter().any(|x| x.fract() != 0.0 || !(0.0..=1e6).contains(x)) {
                    faults.push((f.name.into(), "Found a number that counts no bottles, expected 0, 1, 2 …".into()));
                }
                let value = if whole { json!(list.iter().map(|x| *x as u32).collect::<Vec<_>>()) } else { json!(list) };
                choices.insert(after(f.name), value);
            }
            Err(words) => faults.push((f.name.into(), words)),
        }
    }
    if combinations > MOST_DESIGNS {
        let words = format!(
            "Found {combinations} combinations, expected at most {MOST_DESIGNS} on a page; `limpid plan` ranks more."
        );
        faults.push(("choices.samples".into(), words));
    }
    match numbers(filled.get("past_blanks_pg")) {
        Ok(list) if list.is_empty() => {}
        Ok(list) => _ = input.insert("past_blanks_pg".into(), json!(list)),
        Err(words) => faults.push(("past_blanks_pg".into(), words)),
    }
    let chosen: Vec<&String> = wells.iter().filter(|w| !filled.get(&format!("well.{w}")).is_empty()).collect();
    if !chosen.is_empty() {
        input.insert("wells".into(), json!(chosen));
    }
    let analyte = filled.get("analyte").trim();
    input.insert("analyte".into(), json!(if analyte.is_empty() { "Pb" } else { analyte }));
    input.insert("question".into(), Value::Object(asked));
    input.insert("prices".into(), Value::Object(prices));
    input.insert("choices".into(), Value::Object(choices));
    if faults.is_empty() { Ok(Value::Object(input)) } else { Err(faults) }
}

/// What the example asks, as the empty form shows it.
fn example() -> Filled {
    let example = plan::read(plan::EXAMPLE).unwrap_or_default();
    let text = |v: &Value| match v {
        Value::Array(all) => all.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
        other => other.to_string(),
    };
    let mut out = vec![("kind".to_string(), "detect".to_string()), ("analyte".into(), "Pb".into())];
    out.push(("detect.level".into(), text(&example["question"]["level"])));
    for group in ["prices", "choices"] {
        for (key, v) in example[group].as_object().into_iter().flatten() {
            out.push((format!("{group}.{key}"), text(v)));
        }
    }
    Filled(out)
}

/// The field that a refusal of the calculation speaks of.
fn place_of(field: &str, kind: &str) -> String {
    let name = match field.strip_prefix("question.") {
        Some(part) if part != "kind" => format!("{kind}.{part}"),
        _ => field.to_string(),
    };
    let all = KINDS.iter().flat_map(|k| k.2).chain(PRICES).chain(CHOICES).chain(OWN);
    // A refusal that names no field of the form speaks of the question as a whole.
    if all.clone().any(|f| f.name == name) { name } else { "kind".into() }
}

/// A plan worked out.
struct Planned {
    question: String,
    answer: Value,
    from_record: Vec<String>,
    wells: Vec<String>,
    left_out: Vec<String>,
}

fn work_out(store: &Store, asked: &Value, kind: &str) -> Result<Result<Planned, Vec<Fault>>, HttpError> {
    let all = derive::reduce_all(store)?;
    let pairs: Vec<RunPair> = all.runs.iter().map(|(p, r)| (p, r)).collect();
    let done = match plan::complete(store, &pairs, asked.clone()) {
        Ok(done) => done,
        Err(record::Error::Absent { name, hint, .. }) => {
            let words = format!("Found \"{name}\", which no run on record measured{hint}.");
            return Ok(Err(vec![("analyte".into(), words)]));
        }
        Err(other) => return Err(other.into()),
    };
    let answer = match plan::rank(&done.input) {
        Ok(answer) => answer,
        Err(CalcError::Refused { field, found, expected }) => {
            return Ok(Err(vec![(place_of(&field, kind), format!("{field}: found {found}, expected {expected}."))]));
        }
        Err(other) => return Ok(Err(vec![("kind".into(), other.to_string())])),
    };
    let wells = done.input["wells"].as_array().into_iter().flatten().filter_map(|w| w.as_str().map(Into::into));
    Ok(Ok(Planned {
        question: plan::in_words(asked),
        wells: wells.collect(),
        answer,
        from_record: done.from_record,
        left_out: all.left_out.iter().map(|(_, why)| why.to_string()).collect(),
    }))
}

/// What the form offers, and how far the answer came.
struct Ready {
    filled: Filled,
    faults: Vec<Fault>,
    wells: Vec<String>,
    analytes: Vec<String>,
    planned: Option<Planned>,
    trips: Vec<String>,
    head: String,
}

fn ready(store: &Store, app: &App, filled: Filled) -> Result<Ready, HttpError> {
    let wells: Vec<String> = store.wells()?.into_iter().filter(|w| !w.is_stream()).map(|w| w.name).collect();
    let analytes = app.record.index(store, |i| i.analytes().into_iter().map(str::to_string).collect())?;
    let mut out = Ready {
        filled,
        faults: vec![],
        wells,
        analytes,
        planned: None,
        trips: store.trips()?.into_iter().map(|t| t.name).collect(),
        head: store.head()?.map_or_else(String::new, |h| h.to_string()),
    };
    if out.filled.get("kind").is_empty() {
        out.filled = example();
        return Ok(out);
    }
    let done = match question(&out.filled, &out.wells) {
        Ok(asked) => work_out(store, &asked, out.filled.get("kind"))?,
        Err(faults) => Err(faults),
    };
    match done {
        Ok(planned) => out.planned = Some(planned),
        Err(faults) => out.faults = faults,
    }
    Ok(out)
}

/// The design shown: that asked for, else the one to begin with.
fn shown_design(p: &Planned, filled: &Filled) -> usize {
    let designs = p.answer["designs"].as_array().map_or(0, Vec::len);
    let asked = filled.get("design").parse::<usize>().ok().filter(|n| (1..=designs).contains(n));
    asked.map_or_else(|| plan::first_choice(&p.answer), |n| n - 1)
}

/// The address of this question, with other words where given.
fn address(filled: &Filled, other: &[(&str, String)]) -> String {
    let own = filled.0.iter().filter(|(n, v)| !v.is_empty() && !other.iter().any(|(o, _)| o == n));
    let own = own.map(|(n, v)| (n.as_str(), v.clone())).filter(|(n, _)| !matches!(*n, "table" | "print"));
    let all: Vec<String> = own
        .chain(other.iter().map(|(n, v)| (*n, v.clone())))
        .map(|(n, v)| format!("{}={}", encoded(n), encoded(&v)))
        .collect();
    format!("/plan?{}", all.join("&"))
}

/// The page: the form, and where it was filled, the answer.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let mut fields: Vec<(String, String)> = q.iter().map(|(n, v)| (n.clone(), v.clone())).collect();
    fields.sort();
    let ready = page::read(&app, move |store, app| ready(store, app, Filled(fields))).await?;
    if let (true, Some(p)) = (q.contains_key("print"), &ready.planned) {
        return print(&app, &ready, p).await;
    }
    let trip = Filled(proposal(&ready));
    let pieces = pieces(&who, &ready, Asking { filled: &trip, faults: &[] }, &token_field(&app, &who));
    respond(&app, &who, Place::of("/trips", "Plan a trip"), &q, &pieces)
}

/// A name and a day for the trip, from the names so far: SL-2026-07 leads to SL-2027-01.
fn proposal(ready: &Ready) -> Vec<(String, String)> {
    let today = now()[..10].parse::<jiff::civil::Date>().unwrap_or(jiff::civil::Date::MIN);
    let day = today.checked_add(jiff::Span::new().days(AHEAD_DAYS)).unwrap_or(today);
    let prefix = ready.trips.iter().rev().find_map(|t| {
        let mut parts = t.rsplitn(3, '-');
        let (month, year, prefix) = (parts.next()?, parts.next()?, parts.next()?);
        (month.len() == 2 && year.len() == 4 && year.parse::<u32>().is_ok()).then(|| prefix.to_string())
    });
    let stem = format!("{}-{}", prefix.unwrap_or_else(|| "trip".into()), day.strftime("%Y-%m"));
    let taken = |name: &String| ready.trips.contains(name);
    let name = std::iter::once(stem.clone()).chain((2..100).map(|n| format!("{stem}-{n}"))).find(|n| !taken(n));
    vec![("name".into(), name.unwrap_or(stem)), ("starts".into(), day.to_string())]
}

fn pieces(who: &Who, r: &Ready, trip: Asking, token: &Markup) -> Vec<Piece> {
    let mut out: Vec<Piece> = vec![html! { h1 { "Plan a trip" } p { "Which bottles and blanks decide the question? Every combination of the choices is a design; shown are those that no other beats in price and chance. What the form leaves open comes from the blanks, duplicates and spikes on record." } }.into()];
    if let Some(p) = &r.planned {
        out.extend(answer(who, r, p, trip, token));
    }
    out.push(form(r).into());
    out
}

fn form(r: &Ready) -> Markup {
    let asking = Asking { filled: &r.filled, faults: &r.faults };
    let group = |title: &str, fields: &[Field]| {
        html! { fieldset { legend { (title) } div.fields { @for f in fields { (asking.line(*f)) } } } }
    };
    let kind = r.filled.get("kind");
    html! {
        h2 #question { @if r.planned.is_some() { "Ask otherwise" } @else { "The question" } }
        (asking.all_faults())
        form.plan method="get" action="/plan" {
            div.fields {
                (asking.line_of(field("analyte", "Metal", "One that a run on record measured."), Some("analytes")))
            }
            datalist #analytes { @for a in &r.analytes { option value=(a) {} } }
            @if !r.wells.is_empty() {
                fieldset { legend { "Wells" } p.ticks { @for w in &r.wells {
                    @let name = format!("well.{w}");
                    label { input type="checkbox" name=(name) value="1" checked[!r.filled.get(&name).is_empty()]; " " (w) } " "
                } } p.hint { "All of them where none is ticked." } }
            }
            fieldset #kind { legend { "Take enough to be sure that" }
                @for (name, words, fields) in KINDS {
                    div.kind {
                        label { input type="radio" name="kind" value=(name) checked[kind == *name]; " " (words) }
                        div.fields { @for f in *fields { (asking.number(*f)) } }
                    }
                }
            }
            details open[!r.faults.is_empty()] { summary { "Prices, in your own money" } (group("Prices", PRICES)) }
            details open[!r.faults.is_empty()] { summary { "Choices: numbers with commas; each combination is a design" } (group("Choices", CHOICES)) }
            details open[r.faults.iter().any(|f| OWN.iter().any(|o| o.name == f.0))] {
                summary { "Numbers of your own in place of the record’s" } (group("The past", OWN))
            }
            button type="submit" { "Rank the designs" }
        }
    }
}

fn answer(who: &Who, r: &Ready, p: &Planned, trip: Asking, token: &Markup) -> Vec<Piece> {
    let chosen = shown_design(p, &r.filled);
    let design = &p.answer["designs"][chosen];
    let texts = |v: &Value| -> Vec<String> {
        v.as_array().into_iter().flatten().filter_map(|t| t.as_str().map(ToString::to_string)).collect()
    };
    let price = design["price"].as_f64().map_or_else(String::new, |p| quantity::format::significant_trimmed(p, 4));
    let power = design["power"].as_f64().map_or_else(String::new, |p| quantity::format::percent_trimmed(p, 3));
    let mut mind = texts(&p.answer["warnings"]);
    mind.extend(p.left_out.iter().map(|w| format!("left out: {w}")));
    let list = |items: &[String]| html! { ul { @for i in items { li { (quantity::format::capital(i)) } } } };
    vec![
        html! {
            h2 { (p.question) }
            div.verdict {
                p.number { "Design " (chosen + 1) ": price " (price) ", chance " (power) " %" }
                p { (quantity::format::capital(design["buys"].as_str().unwrap_or_default())) }
            }
        }
        .into(),
        designs(r, p, chosen).into(),
        html! {
            h2 { "To pack, design " (chosen + 1) }
            (list(&texts(&design["pack"])))
            p { a href=(address(&r.filled, &[("design", (chosen + 1).to_string()), ("print", "1".into())])) { "Packing list as PDF" } " with labels and boxes to tick." }
            (trip_form(who, r, p, chosen, trip, token))
            @if !p.from_record.is_empty() { h2 { "From the record" } (list(&p.from_record.iter().map(|l| named(l)).collect::<Vec<_>>())) }
            @if !mind.is_empty() { h2 { "To keep in mind" } (list(&mind)) }
        }
        .into(),
    ]
}

/// What came from the record under the words of its field: "relative_sd 0.03: scatter …" is "scatter of one sample bottle: 0.03 (scatter …)".
fn named(line: &str) -> String {
    let parts = line.split_once(' ').and_then(|(key, rest)| Some((key, rest.split_once(": ")?)));
    match parts.and_then(|(key, (value, why))| Some((OWN.iter().find(|f| f.name == key)?, value, why))) {
        Some((f, value, why)) => {
            format!("{}: {value} ({})", f.words, why.trim_start_matches("pg, ").trim_start_matches("pg "))
        }
        None => line.to_string(),
    }
}

/// The designs, each with what it buys beyond the one before and a way to choose it.
fn designs(r: &Ready, p: &Planned, chosen: usize) -> Listing {
    let table = packing::table(&p.answer);
    let rows = table.shown().into_iter().enumerate().map(|(i, cells)| {
        let n = i + 1;
        let mut row: Vec<Td> = cells.into_iter().map(|c| number(c.words)).collect();
        row[0] = if i == chosen {
            let mut cell = td(n.to_string());
            cell.shown = html! { strong { "▸ " (n) } };
            cell
        } else {
            link(&address(&r.filled, &[("design", n.to_string())]), n.to_string())
        };
        row.push(td(p.answer["designs"][i]["buys"].as_str().unwrap_or_default()));
        row
    });
    let mut headings: Vec<String> = table.columns.iter().map(|c| c.heading.clone()).collect();
    headings.push("what its money buys".into());
    Listing {
        caption: table.caption.clone(),
        headings,
        rows: rows.collect(),
        empty: "No design is on offer.",
        foot: Some(html! { (table.notes.join(" ")) " A number opens its packing list; ▸ is shown." }),
        ..Listing::default()
    }
}

fn trip_form(who: &Who, r: &Ready, p: &Planned, chosen: usize, trip: Asking, token: &Markup) -> Markup {
    html! {
        @if who.may(Role::Sampler) {
            form #make method="post" action="/plan/trip" {
                h2 { "Make this trip" }
                (trip.all_faults())
                (token)
                input type="hidden" name="q" value=(address(&r.filled, &[("design", (chosen + 1).to_string())]));
                div.fields {
                    (trip.line(field("name", "Name of the trip", "It stays; labels are made from it.")))
                    (trip.line(field("starts", "Day", "As 2027-07-13.")))
                }
                button type="submit" { "Make this trip with its bottles" }
                p.hint { "One act of the record with your name: the trip, and a label for every bottle of design " (chosen + 1) " at " (p.wells.join(", ")) "." }
            }
        } @else { p.quiet { "Making the trip is for sampler or more." } }
    }
}

/// The packing list as PDF.
async fn print(app: &Shared, r: &Ready, p: &Planned) -> Result<Response, HttpError> {
    let chosen = shown_design(p, &r.filled);
    let design: Chosen = serde_json::from_value(p.answer["designs"][chosen].clone())
        .map_err(|e| HttpError::outside(format!("reading the design: {e}")))?;
    let name = proposal(r).remove(0).1;
    let trip = NewTrip { name: &name, starts: "", question: &p.question, wells: &p.wells, design };
    let bottles: Vec<(String, String)> =
        plan::bottles(&trip).into_iter().map(|(label, kind, ..)| (label, kind.word().replace('-', " "))).collect();
    let content = packing::content(&Packing {
        programme: &app.name,
        head: r.head.clone(),
        invented: app.invented,
        question: p.question.clone(),
        answer: &p.answer,
        chosen,
        from_record: &p.from_record,
        bottles: &bottles,
    });
    let paper = ::document::paper::to_markup(&content);
    let bytes =
        tokio::task::spawn_blocking(move || pdf(paper)).await.map_err(|e| HttpError::outside(e.to_string()))??;
    let headers = [
        (header::CONTENT_TYPE, "application/pdf".to_string()),
        (header::CONTENT_DISPOSITION, "attachment; filename=\"packing-list.pdf\"".to_string()),
    ];
    Ok((headers, bytes).into_response())
}

/// The fields of an address of this page.
fn asked_again(address: &str) -> Filled {
    let query = address.strip_prefix("/plan?").unwrap_or_default();
    Filled(form_urlencoded::parse(query.as_bytes()).into_owned().collect())
}

/// Makes the trip of a design, with its bottles.
pub(crate) async fn make(
    State(app): State<Shared>,
    who: Who,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Sampler)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let asked = asked_again(filled.get("q"));
        let ready = page::read(&app, move |store, app| ready(store, app, asked)).await?;
        let Some(p) = &ready.planned else {
            return Err(HttpError::refused("The question of this plan cannot be answered any more: ask it anew."));
        };
        let mut faults: Vec<Fault> = vec![];
        for (name, expected) in [("name", "a name that stays"), ("starts", "a day as 2027-07-13")] {
            if filled.get(name).trim().is_empty() {
                faults.push((name.into(), format!("Found nothing, expected {expected}.")));
            }
        }
        if faults.is_empty() {
            let design: Chosen = serde_json::from_value(p.answer["designs"][shown_design(p, &ready.filled)].clone())
                .map_err(|e| HttpError::outside(format!("reading the design: {e}")))?;
            let (question, wells) = (p.question.clone(), p.wells.clone());
            let (typed, person, at) = (filled.clone(), who.clone(), now());
            let made = page::write(&app, move |store| {
                let trip = NewTrip {
                    name: typed.get("name").trim(),
                    starts: typed.get("starts").trim(),
                    question: &question,
                    wells: &wells,
                    design,
                };
                plan::make_trip(store, &trip, person.by(&at)).map(|_| ())
            })
            .await?;
            match made {
                Ok(()) => return Ok(Done::To(format!("/trips/{}", encoded(filled.get("name").trim())))),
                Err(e) => faults = wrong(e)?,
            }
        }
        let trip = Asking { filled: &filled, faults: &faults };
        let pieces = pieces(&who, &ready, trip, &same_token(&filled));
        Ok(Done::Again(crate::blocks::body(&app, &who, Place::of("/trips", "Plan a trip"), &pieces)))
    })
    .await
}

/// What is wrong with the trip's own fields.
fn wrong(e: EntryError) -> Result<Vec<Fault>, HttpError> {
    match e {
        EntryError::Faults(all) => Ok(all
            .into_iter()
            .map(|f| {
                let own = f.column.clone().filter(|c| f.table == "trip" && c == "starts");
                (own.unwrap_or_else(|| "name".into()), format!("{}.", quantity::format::capital(&f.in_words())))
            })
            .collect()),
        EntryError::Programme(record::Error::Unfit { found, expected, .. }) => {
            Ok(vec![("name".into(), format!("Found that {found}, expected {expected}."))])
        }
        other => Err(other.into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_form_as_it_opens_is_a_question_that_runs() {
        let asked = question(&example(), &[]).unwrap();
        let input = json!({ "past_blanks_pg": [3.0, 5.0, 4.0] });
        let mut whole = asked;
        whole["past_blanks_pg"] = input["past_blanks_pg"].clone();
        let answer = plan::rank(&whole).unwrap();
        assert!(answer["designs"].as_array().is_some_and(|d| !d.is_empty()));
    }

    #[test]
    fn faults_stand_at_their_fields() {
        let check = |name: &str, text: &str, at: &str| {
            let mut filled = example();
            filled.0.retain(|f| f.0 != name);
            filled.0.push((name.into(), text.into()));
            let faults = question(&filled, &[]).unwrap_err();
            assert_eq!(faults.iter().map(|f| f.0.as_str()).collect::<Vec<_>>(), [at], "{name} {text}");
        };
        check("detect.level", "0,2", "detect.level");
        check("choices.samples", "1; two", "choices.samples");
        check("choices.spikes", "0.5", "choices.spikes");
        let many = (0..200).map(|n| n.to_string()).collect::<Vec<_>>().join(",");
        check("choices.volume_ml", &many, "choices.samples");
        assert_eq!(place_of("question.level", "trend"), "trend.level");
        assert_eq!(place_of("prices.bottle", "trend"), "prices.bottle");
        assert_eq!(place_of("something else", "trend"), "kind");
    }

    #[test]
    fn an_address_says_the_question_again() {
        let mut filled = example();
        filled.0.push(("well.SL-2".into(), "1".into()));
        filled.0.push(("well.a b&c=d".into(), "1+1 = 2; 100 % ü".into()));
        let again = asked_again(&address(&filled, &[("design", "3".into())]));
        assert_eq!(again.get("well.SL-2"), "1");
        assert_eq!(again.get("well.a b&c=d"), "1+1 = 2; 100 % ü");
        assert_eq!(again.get("choices.samples"), filled.get("choices.samples"));
        assert_eq!(again.get("design"), "3");
    }
}
