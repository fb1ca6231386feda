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
use message::Spoken;
use programme::plan::{self, Answer, Asked as Plan, Figure, FromRecord, Kind, NewTrip, Wells};
use quantity::CalcError;
use quantity::format::significant_trimmed;
use record::store::Store;

/// Designs ranked while a person waits: some seconds on a small machine. More are for `limpid plan`.
const MOST_DESIGNS: usize = 100_000;

/// Days from today to the trip that the form proposes.
const AHEAD_DAYS: i64 = 14;

/// A field of the form and where its number goes.
struct Number(Field<'static>, fn(&mut Plan, f64));

/// What can be asked: kind, words, and the numbers that it needs.
const KINDS: &[(Kind, &str, &[Number])] = &[
    (
        Kind::Detect,
        "a water of this level is detected",
        &[Number(field("detect.level", "Level, ng/L", "What you expect in the water."), level)],
    ),
    (
        Kind::Limit,
        "a water is shown to lie on its side of a limit",
        &[
            Number(field("limit.level", "Level, ng/L", "What you expect."), level),
            Number(field("limit.limit", "Limit, ng/L", "The limit to decide about."), |p, x| {
                p.question.limit = Some(Figure::ng_l(x));
            }),
        ],
    ),
    (
        Kind::Lower,
        "one water is shown to be lower than another",
        &[
            Number(field("lower.a", "The lower one, ng/L", ""), |p, x| p.question.a = Some(Figure::ng_l(x))),
            Number(field("lower.b", "The higher one, ng/L", ""), |p, x| p.question.b = Some(Figure::ng_l(x))),
        ],
    ),
    (
        Kind::Trend,
        "a change over the years is seen",
        &[
            Number(field("trend.level", "Level at the start, ng/L", ""), level),
            Number(field("trend.percent_per_year", "Change, % a year", "Below zero: a fall."), |p, x| {
                p.question.percent_per_year = Some(Figure::plain(x));
            }),
            Number(field("trend.years", "Years", ""), |p, x| p.question.years = Some(Figure::plain(x))),
            Number(field("trend.visits_per_year", "Visits a year", "1 where left out."), |p, x| {
                p.question.visits_per_year = Some(x);
            }),
            Number(
                field(
                    "trend.natural_share",
                    "Scatter of the water itself",
                    "A share of the level, from visit to visit; 0 where left out.",
                ),
                |p, x| p.question.natural_share = Some(x),
            ),
        ],
    ),
    (
        Kind::DetectionLimit,
        "a detection limit is reached",
        &[
            Number(field("detection-limit.target", "Detection limit, ng/L", ""), |p, x| {
                p.question.target = Some(Figure::ng_l(x));
            }),
            Number(
                field(
                    "detection-limit.level",
                    "Level, ng/L",
                    "For the relative uncertainty; the target where left out.",
                ),
                level,
            ),
        ],
    ),
];

fn level(p: &mut Plan, ng_l: f64) {
    p.question.level = Some(Figure::ng_l(ng_l));
}

const PRICES: &[Number] = &[
    Number(field("prices.bottle", "A bottle", "Washed, filled, analysed; sample or blank."), |p, x| {
        p.prices.bottle = Some(x);
    }),
    Number(field("prices.spike", "A spiked bottle", ""), |p, x| p.prices.spike = Some(x)),
    Number(field("prices.minute_saved", "A minute saved", "Keeping bottles open for less time costs work."), |p, x| {
        p.prices.minute_saved = Some(x);
    }),
    Number(field("prices.litre", "A litre carried", ""), |p, x| p.prices.litre = Some(x)),
    Number(field("prices.trip", "The trip itself", ""), |p, x| p.prices.trip = Some(x)),
    Number(field("prices.vial", "A vial of the run", "Reference material, drift check, second source."), |p, x| {
        p.prices.vial = Some(x);
    }),
];

/// Where the numbers of a choice go: bottles, or what is measured.
enum List {
    Bottles(fn(&mut Plan) -> &mut Vec<u32>),
    Measured(fn(&mut Plan) -> &mut Vec<f64>),
}

const CHOICES: &[(Field, List)] = &[
    (field("choices.samples", "Sample bottles a well", ""), List::Bottles(|p| &mut p.choices.samples)),
    (
        field("choices.field_blanks", "Field blanks", "Two at least: one shows no scatter."),
        List::Bottles(|p| &mut p.choices.field_blanks),
    ),
    (field("choices.trip_blanks", "Trip blanks", ""), List::Bottles(|p| &mut p.choices.trip_blanks)),
    (
        field("choices.bottle_blanks", "Bottle blanks", "They stay at home."),
        List::Bottles(|p| &mut p.choices.bottle_blanks),
    ),
    (field("choices.spikes", "Spiked bottles", "Of all wells together."), List::Bottles(|p| &mut p.choices.spikes)),
    (field("choices.volume_ml", "Fill volume, mL", ""), List::Measured(|p| &mut p.choices.volume_ml)),
    (field("choices.minutes", "Minutes open", ""), List::Measured(|p| &mut p.choices.minutes)),
];

/// The field of the blanks so far.
const PAST_BLANKS: Field = field("past_blanks_pg", "Blanks so far, pg per bottle", "At least two, with commas.");

/// What the record says where the person does not.
const OWN: &[Number] = &[
    Number(field("between_bottles_pg", "Deviation between blanks, pg", ""), |p, x| p.between_bottles_pg = Some(x)),
    Number(field("past_dof", "Degrees of freedom of it", ""), |p, x| p.past_dof = Some(x)),
    Number(field("laboratory_pg", "Deviation of the laboratory, pg a bottle", ""), |p, x| p.laboratory_pg = Some(x)),
    Number(field("relative_sd", "Scatter of one sample bottle", "A share of its level."), |p, x| {
        p.relative_sd = Some(x);
    }),
    Number(field("spike_sd", "Scatter of one spike recovery", "A share."), |p, x| p.spike_sd = Some(x)),
    Number(field("recovery_u", "u of the recovery without a spike", "A share."), |p, x| p.recovery_u = Some(x)),
];

const fn field(name: &'static str, words: &'static str, hint: &'static str) -> Field<'static> {
    Field { name, words, hint }
}

/// The numbers of a list: "1, 2, 3".
fn numbers(text: &str) -> Result<Vec<f64>, String> {
    let parts = text.split([',', ';', ' ']).map(str::trim).filter(|p| !p.is_empty());
    let one = |p: &str| {
        let number = p.parse::<f64>().ok().filter(|x| x.is_finite());
        number.ok_or_else(|| format!("Found \"{p}\", expected numbers with commas between."))
    };
    parts.map(one).collect()
}

/// The question of a filled form, or what is wrong with its fields.
fn question(filled: &Filled, wells: &[String]) -> Result<Plan, Vec<Fault>> {
    let mut faults: Vec<Fault> = vec![];
    let analyte = filled.get("analyte").trim();
    let mut out = Plan { analyte: Some(if analyte.is_empty() { "Pb" } else { analyte }.into()), ..Plan::default() };
    match Kind::parse(filled.get("kind")) {
        Ok(kind) => out.question.kind = Some(kind),
        Err(e) => faults.push(("kind".into(), refused(&e))),
    }
    let kind = out.question.kind;
    let of_kind = KINDS.iter().filter(|k| Some(k.0) == kind).flat_map(|k| k.2);
    for Number(f, put) in of_kind.chain(PRICES).chain(OWN) {
        let text = filled.get(f.name).trim();
        match text.parse::<f64>() {
            _ if text.is_empty() => {}
            Ok(x) if x.is_finite() => put(&mut out, x),
            _ => faults.push((f.name.into(), format!("Found \"{text}\", expected a number with a decimal point."))),
        }
    }
    // Each combination is a design: their number is bounded before any is ranked, and saturates where it overflows.
    let mut combinations: usize = 1;
    for (f, list) in CHOICES {
        match numbers(filled.get(f.name)) {
            Ok(numbers) if numbers.is_empty() => {}
            Ok(numbers) => {
                combinations = combinations.saturating_mul(numbers.len());
                match list {
                    List::Measured(of) => *of(&mut out) = numbers,
                    List::Bottles(_) if numbers.iter().any(|x| x.fract() != 0.0 || !(0.0..=1e6).contains(x)) => {
                        faults
                            .push((f.name.into(), "Found a number that counts no bottles, expected 0, 1, 2 …".into()));
                    }
                    List::Bottles(of) => *of(&mut out) = numbers.iter().map(|x| *x as u32).collect(),
                }
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
    match numbers(filled.get(PAST_BLANKS.name)) {
        Ok(list) if list.is_empty() => {}
        Ok(list) => out.past_blanks_pg = Some(list),
        Err(words) => faults.push((PAST_BLANKS.name.into(), words)),
    }
    let chosen: Vec<String> = wells.iter().filter(|w| !filled.get(&format!("well.{w}")).is_empty()).cloned().collect();
    out.wells = Some(chosen).filter(|c| !c.is_empty()).map(Wells::Named);
    if faults.is_empty() { Ok(out) } else { Err(faults) }
}

/// What the example asks, as the empty form shows it.
fn example() -> Filled {
    fn list<T: ToString>(all: &[T]) -> String {
        all.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
    }
    let mut example = plan::example();
    let mut out = vec![("kind".to_string(), Kind::Detect.word().to_string()), ("analyte".into(), "Pb".into())];
    let p = example.prices;
    let level = example.question.level.as_ref().map(|f| f.value);
    for (name, value) in [
        ("detect.level", level),
        ("prices.bottle", p.bottle),
        ("prices.spike", p.spike),
        ("prices.minute_saved", p.minute_saved),
        ("prices.litre", p.litre),
        ("prices.trip", p.trip),
        ("prices.vial", p.vial),
    ] {
        out.extend(value.map(|v| (name.to_string(), v.to_string())));
    }
    for (f, of) in CHOICES {
        let numbers = match of {
            List::Bottles(of) => list(of(&mut example)),
            List::Measured(of) => list(of(&mut example)),
        };
        out.push((f.name.into(), numbers));
    }
    Filled(out)
}

/// The field that a refusal of the calculation speaks of.
fn place_of(field: &str, kind: Kind) -> String {
    let name = match field.strip_prefix("question.") {
        Some(part) if part != "kind" => format!("{}.{part}", kind.word()),
        _ => field.to_string(),
    };
    let numbers = KINDS.iter().flat_map(|k| k.2).chain(PRICES).chain(OWN).map(|n| n.0.name);
    let mut all = numbers.chain(CHOICES.iter().map(|c| c.0.name)).chain([PAST_BLANKS.name]);
    // A refusal that names no field of the form speaks of the question as a whole.
    if all.any(|n| n == name) { name } else { "kind".into() }
}

fn refused(e: &CalcError) -> String {
    format!("{e}.")
}

/// A plan worked out.
struct Planned {
    question: String,
    answer: Answer,
    from_record: Vec<FromRecord>,
    wells: Vec<String>,
    left_out: Vec<String>,
}

fn work_out(store: &Store, asked: Plan) -> Result<Result<Planned, Vec<Fault>>, HttpError> {
    let all = derive::reduce_all(store)?;
    let pairs: Vec<RunPair> = all.runs.iter().map(|(p, r)| (p, r)).collect();
    let question = plan::in_words(&asked);
    let done = match plan::complete(store, &pairs, asked) {
        Ok(done) => done,
        Err(record::Error::Absent { name, hint, .. }) => {
            let words = format!("Found \"{name}\", which no run on record measured{hint}.");
            return Ok(Err(vec![("analyte".into(), words)]));
        }
        Err(other) => return Err(other.into()),
    };
    let answer = match done.asked.answer() {
        Ok(answer) => answer,
        Err(e) => {
            let place = match (&e, done.asked.question.kind) {
                (CalcError::Refused { field, .. }, Some(kind)) => place_of(field, kind),
                _ => "kind".into(),
            };
            return Ok(Err(vec![(place, refused(&e))]));
        }
    };
    Ok(Ok(Planned {
        question,
        answer,
        wells: done.wells,
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
        Ok(asked) => work_out(store, asked)?,
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
    let designs = p.answer.designs.len();
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
    let mut out: Vec<Piece> = vec![html! { h1 { "Plan a trip" } p { "Which bottles and blanks decide the question? Every combination of the choices that the table of checks can accept is a design; shown are those that no other beats in price and chance. What the form leaves open comes from the blanks, duplicates and spikes on record." } }.into()];
    if let Some(p) = &r.planned {
        out.extend(answer(who, r, p, trip, token));
    }
    out.push(form(r).into());
    out
}

fn form(r: &Ready) -> Markup {
    let asking = Asking { filled: &r.filled, faults: &r.faults };
    let group = |title: &str, fields: &mut dyn Iterator<Item = Field<'static>>| {
        html! { fieldset { legend { (title) } div.fields { @for f in fields { (asking.line(f)) } } } }
    };
    let own = || std::iter::once(PAST_BLANKS).chain(OWN.iter().map(|n| n.0));
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
                        label { input type="radio" name="kind" value=(name.word()) checked[kind == name.word()]; " " (words) }
                        div.fields { @for n in *fields { (asking.number(n.0)) } }
                    }
                }
            }
            details open[!r.faults.is_empty()] { summary { "Prices, in your own money" } (group("Prices", &mut PRICES.iter().map(|n| n.0))) }
            details open[!r.faults.is_empty()] { summary { "Choices: numbers with commas; each combination is a design" } (group("Choices", &mut CHOICES.iter().map(|c| c.0))) }
            details open[r.faults.iter().any(|f| own().any(|o| o.name == f.0))] {
                summary { "Numbers of your own in place of the record’s" } (group("The past", &mut own()))
            }
            button type="submit" { "Rank the designs" }
        }
    }
}

fn answer(who: &Who, r: &Ready, p: &Planned, trip: Asking, token: &Markup) -> Vec<Piece> {
    let chosen = shown_design(p, &r.filled);
    let design = &p.answer.designs[chosen];
    let price = significant_trimmed(design.ranked.price, 4);
    let power = significant_trimmed(100.0 * design.ranked.power, 3);
    let mut mind: Vec<String> = p.answer.warnings.iter().map(ToString::to_string).collect();
    mind.extend(p.left_out.iter().map(|w| format!("left out: {w}")));
    let list = |items: &[String]| html! { ul { @for i in items { li { (quantity::format::capital(i)) } } } };
    let pack: Vec<String> = design.pack.iter().map(ToString::to_string).collect();
    vec![
        html! {
            h2 { (p.question) }
            div.verdict {
                p.number { "Design " (chosen + 1) ": price " (price) ", chance " (power) " %" }
                p { (design.ranked.buys) }
            }
        }
        .into(),
        designs(r, p, chosen).into(),
        html! {
            h2 { "To pack, design " (chosen + 1) }
            (list(&pack))
            p { a href=(address(&r.filled, &[("design", (chosen + 1).to_string()), ("print", "1".into())])) { "Packing list as PDF" } " with labels and boxes to tick." }
            (trip_form(who, r, p, chosen, trip, token))
            @if !p.answer.requires.is_empty() {
                h2 { "What every design contains" }
                p { "A bottle is accepted by the table of checks; a design without what answers them is not offered." }
                (list(&p.answer.requires.iter().map(ToString::to_string).collect::<Vec<_>>()))
            }
            @if !p.from_record.is_empty() { h2 { "From the record" } (list(&p.from_record.iter().map(named).collect::<Vec<_>>())) }
            @if !mind.is_empty() { h2 { "To keep in mind" } (list(&mind)) }
        }
        .into(),
    ]
}

/// What came from the record under the words of its field: `relative_sd` is "Scatter of one sample bottle".
fn named(taken: &FromRecord) -> String {
    match taken {
        FromRecord::Field { key, value, why, .. } => {
            let words = OWN.iter().find(|n| n.0.name == *key).map_or(*key, |n| n.0.words);
            format!("{words}: {} ({})", value.text(), why.text())
        }
        blank @ FromRecord::Blank { .. } => blank.to_string(),
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
        row.push(td(p.answer.designs[i].ranked.buys.to_string()));
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
    let design = p.answer.designs[chosen].ranked.design;
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
        // The form carries the question alone: the design is chosen from an answer of the record as it stands now.
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
            let design = p.answer.designs[shown_design(p, &ready.filled)].ranked.design;
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
        let mut asked = question(&example(), &[]).unwrap();
        asked.past_blanks_pg = Some(vec![3.0, 5.0, 4.0]);
        assert!(!asked.answer().unwrap().designs.is_empty());
        // The form and the file ask the same.
        let file = plan::example();
        assert_eq!((&asked.choices, asked.prices), (&file.choices, file.prices));
        assert_eq!(plan::in_words(&asked), plan::in_words(&file));
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
        assert_eq!(place_of("question.level", Kind::Trend), "trend.level");
        assert_eq!(place_of("prices.bottle", Kind::Trend), "prices.bottle");
        assert_eq!(place_of("something else", Kind::Trend), "kind");
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
