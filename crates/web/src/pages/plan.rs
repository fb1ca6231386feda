//! What to take on the next trip: the question asked by a form, the designs that nothing beats with price and chance,
//! what the next money buys, the packing list, and the trip made from one of them.
//!
//! The question stands in the address: a plan can be kept, sent to a colleague, and asked anew next year. What is left
//! out comes from the record, and the page says from what. The science is `programme::plan`.

use super::plan_page::pieces;
use super::report::pdf;
use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Query, respond};
use crate::forms::{Asking, Done, Fault, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, encoded};
use crate::typed::{self, say};
use ::report::packing::{self, Packing};
use assessment::attribution::RunPair;
use assessment::derive;
use axum::Form;
use axum::extract::{Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use message::{Message, Sentence, Spoken, web_plan as said};
use programme::plan::{self, Answer, Asked as Plan, Figure, FromRecord, Kind, NewTrip, Offered, Wells};
use quantity::CalcError;
use record::store::Store;

/// Designs ranked while a person waits: some seconds on a small machine. More are for `limpid plan`.
const MOST_DESIGNS: usize = 100_000;

/// Cheaper designs shown below the line.
const MOST_CHEAPER: usize = 5;

/// Days from today to the trip that the form proposes.
const AHEAD_DAYS: i64 = 14;

/// A field of the form and where its number goes; its words stand in the catalogue, by its name.
pub(super) struct Number(pub &'static str, fn(&mut Plan, f64));

/// What can be asked: kind, and the numbers that it needs.
pub(super) const KINDS: &[(Kind, &[Number])] = &[
    (Kind::Detect, &[Number("detect.level", level)]),
    (
        Kind::Limit,
        &[
            Number("limit.level", level),
            Number("limit.limit", |p, x| {
                p.question.limit = Some(Figure::ng_l(x));
            }),
        ],
    ),
    (
        Kind::Lower,
        &[
            Number("lower.a", |p, x| p.question.a = Some(Figure::ng_l(x))),
            Number("lower.b", |p, x| p.question.b = Some(Figure::ng_l(x))),
        ],
    ),
    (
        Kind::Trend,
        &[
            Number("trend.level", level),
            Number("trend.percent_per_year", |p, x| {
                p.question.percent_per_year = Some(Figure::plain(x));
            }),
            Number("trend.years", |p, x| p.question.years = Some(Figure::plain(x))),
            Number("trend.visits_per_year", |p, x| {
                p.question.visits_per_year = Some(x);
            }),
            Number("trend.natural_share", |p, x| p.question.natural_share = Some(x)),
        ],
    ),
    (
        Kind::DetectionLimit,
        &[
            Number("detection-limit.target", |p, x| {
                p.question.target = Some(Figure::ng_l(x));
            }),
            Number("detection-limit.level", level),
        ],
    ),
];

fn level(p: &mut Plan, ng_l: f64) {
    p.question.level = Some(Figure::ng_l(ng_l));
}

pub(super) const PRICES: &[Number] = &[
    Number("prices.bottle", |p, x| {
        p.prices.bottle = Some(x);
    }),
    Number("prices.spike", |p, x| p.prices.spike = Some(x)),
    Number("prices.minute_saved", |p, x| {
        p.prices.minute_saved = Some(x);
    }),
    Number("prices.litre", |p, x| p.prices.litre = Some(x)),
    Number("prices.trip", |p, x| p.prices.trip = Some(x)),
    Number("prices.vial", |p, x| {
        p.prices.vial = Some(x);
    }),
];

/// Where the numbers of a choice go: bottles, or what is measured.
pub(super) enum List {
    Bottles(fn(&mut Plan) -> &mut Vec<u32>),
    Measured(fn(&mut Plan) -> &mut Vec<f64>),
}

pub(super) const CHOICES: &[(&str, List)] = &[
    ("choices.samples", List::Bottles(|p| &mut p.choices.samples)),
    ("choices.field_blanks", List::Bottles(|p| &mut p.choices.field_blanks)),
    ("choices.trip_blanks", List::Bottles(|p| &mut p.choices.trip_blanks)),
    ("choices.bottle_blanks", List::Bottles(|p| &mut p.choices.bottle_blanks)),
    ("choices.spikes", List::Bottles(|p| &mut p.choices.spikes)),
    ("choices.volume_ml", List::Measured(|p| &mut p.choices.volume_ml)),
    ("choices.minutes", List::Measured(|p| &mut p.choices.minutes)),
];

/// The field of the blanks so far.
pub(super) const PAST_BLANKS: &str = "past_blanks_pg";

/// What the record says where the person does not.
pub(super) const OWN: &[Number] = &[
    Number("between_bottles_pg", |p, x| p.between_bottles_pg = Some(x)),
    Number("past_dof", |p, x| p.past_dof = Some(x)),
    Number("laboratory_pg", |p, x| p.laboratory_pg = Some(x)),
    Number("relative_sd", |p, x| {
        p.relative_sd = Some(x);
    }),
    Number("spike_sd", |p, x| p.spike_sd = Some(x)),
    Number("recovery_u", |p, x| p.recovery_u = Some(x)),
];

/// The numbers of a list: "1, 2, 3"; where a semicolon parts them, a comma is a decimal sign.
fn numbers(text: &str) -> Result<Vec<f64>, String> {
    let parts: Vec<&str> =
        if text.contains(';') { text.split(';').collect() } else { text.split([',', ' ']).collect() };
    let one = |p: &&str| typed::number(p).map_err(|_| say(said::NoNumbers { text: (*p).trim().into() }));
    parts.iter().filter(|p| !p.trim().is_empty()).map(one).collect()
}

/// The question of a filled form, or what is wrong with its fields.
fn question(filled: &Filled, wells: &[String]) -> Result<Plan, Vec<Fault>> {
    let mut faults: Vec<Fault> = vec![];
    let analyte = limits::table::analyte(filled.get("analyte").trim());
    let mut out = Plan { analyte: Some(if analyte.is_empty() { "Pb".into() } else { analyte }), ..Plan::default() };
    match Kind::parse(filled.get("kind")) {
        Ok(kind) => out.question.kind = Some(kind),
        Err(_) => faults.push(("kind".into(), say(said::WhatIsAsked))),
    }
    let kind = out.question.kind;
    let of_kind = KINDS.iter().filter(|k| Some(k.0) == kind).flat_map(|k| k.1);
    for Number(name, put) in of_kind.chain(PRICES).chain(OWN) {
        let text = filled.get(name).trim();
        match typed::number(text) {
            _ if text.is_empty() => {}
            Ok(x) => put(&mut out, x),
            Err(why) => faults.push(((*name).into(), say(why))),
        }
    }
    // Each combination is a design: their number is bounded before any is ranked, and saturates where it overflows.
    let mut combinations: usize = 1;
    for (name, list) in CHOICES {
        match numbers(filled.get(name)) {
            Ok(numbers) if numbers.is_empty() => {}
            Ok(numbers) => {
                combinations = combinations.saturating_mul(numbers.len());
                match list {
                    List::Measured(of) => *of(&mut out) = numbers,
                    List::Bottles(_) if numbers.iter().any(|x| x.fract() != 0.0 || !(0.0..=1e6).contains(x)) => {
                        faults.push(((*name).into(), say(said::NoBottles)));
                    }
                    List::Bottles(of) => *of(&mut out) = numbers.iter().map(|x| *x as u32).collect(),
                }
            }
            Err(words) => faults.push(((*name).into(), words)),
        }
    }
    if combinations > MOST_DESIGNS {
        let (found, most) = (message::count(combinations), message::count(MOST_DESIGNS));
        let words = say(said::TooManyDesigns { found, most });
        faults.push(("choices.samples".into(), words));
    }
    match numbers(filled.get(PAST_BLANKS)) {
        Ok(list) if list.is_empty() => {}
        Ok(list) => out.past_blanks_pg = Some(list),
        Err(words) => faults.push((PAST_BLANKS.into(), words)),
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
    for (name, of) in CHOICES {
        let numbers = match of {
            List::Bottles(of) => list(of(&mut example)),
            List::Measured(of) => list(of(&mut example)),
        };
        out.push(((*name).into(), numbers));
    }
    Filled(out)
}

/// The field that a refusal of the calculation speaks of.
fn place_of(field: &str, kind: Kind) -> String {
    let name = match field.strip_prefix("question.") {
        Some(part) if part != "kind" => format!("{}.{part}", kind.word()),
        _ => field.to_string(),
    };
    let numbers = KINDS.iter().flat_map(|k| k.1).chain(PRICES).chain(OWN).map(|n| n.0);
    let mut all = numbers.chain(CHOICES.iter().map(|c| c.0)).chain([PAST_BLANKS]);
    // A refusal that names no field of the form speaks of the question as a whole.
    if all.any(|n| n == name) { name } else { "kind".into() }
}

/// A refusal of the calculation speaks English alone.
fn refused(e: &CalcError) -> String {
    typed::older(&format!("{e}."))
}

/// A plan worked out.
pub(super) struct Planned {
    pub question: String,
    pub answer: Answer,
    /// Designs that are cheaper and would not be believed, and why not.
    pub not_believed: Vec<(Offered, Vec<Message>)>,
    /// What each design on offer lacks; nothing, but where the checks ask for what no number answers.
    pub lacks: Vec<Vec<Message>>,
    pub from_record: Vec<FromRecord>,
    pub wells: Vec<String>,
    pub left_out: Vec<String>,
    /// Lot and fraction of the bottles of a trip made from here.
    pub usual: (Option<String>, Option<String>),
}

fn work_out(store: &Store, asked: Plan) -> Result<Result<Planned, Vec<Fault>>, HttpError> {
    let all = derive::reduce_all(store)?;
    let pairs: Vec<RunPair> = all.runs.iter().map(|(p, r)| (p, r)).collect();
    let question = plan::in_words(&asked);
    let done = match plan::complete(store, &pairs, asked) {
        Ok(done) => done,
        Err(record::Error::Absent { name, hint, .. }) => {
            let words = say(said::NotMeasured { name: name.as_str().into(), hint: hint.as_str().into() });
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
    let cheaper = plan::not_believed(&done.asked, &answer).unwrap_or_default();
    let lacks = |d: &Offered| plan::lacks(&done.asked.required, &d.ranked.design, &done.wells);
    Ok(Ok(Planned {
        question,
        lacks: answer.designs.iter().map(lacks).collect(),
        not_believed: cheaper.into_iter().take(MOST_CHEAPER).map(|d| (d.clone(), lacks(&d))).collect(),
        usual: plan::usual_bottle(store)?,
        answer,
        wells: done.wells,
        from_record: done.from_record,
        left_out: all.left_out.iter().map(|(_, why)| why.to_string()).collect(),
    }))
}

/// What the form offers, and how far the answer came.
pub(super) struct Ready {
    pub filled: Filled,
    pub faults: Vec<Fault>,
    pub wells: Vec<String>,
    pub analytes: Vec<String>,
    pub planned: Option<Planned>,
    pub trips: Vec<String>,
    pub head: String,
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

/// The design shown: that asked for, else the cheapest that would be accepted and decides with a chance of 80 %; where
/// none does, the cheapest that would be accepted.
pub(super) fn shown_design(p: &Planned, filled: &Filled) -> usize {
    let designs = &p.answer.designs;
    let asked = filled.get("design").parse::<usize>().ok().filter(|n| (1..=designs.len()).contains(n));
    let cheapest = || designs.iter().position(|d| d.ranked.power >= 0.8).unwrap_or(0);
    asked.map_or_else(cheapest, |n| n - 1)
}

/// The address of this question, with other words where given.
pub(super) fn address(filled: &Filled, other: &[(&str, String)]) -> String {
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
    respond(&app, &who, Place::of("/trips", &said::Title.text()).spoken(&who), &q, &pieces)
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

/// The packing list as PDF.
async fn print(app: &Shared, r: &Ready, p: &Planned) -> Result<Response, HttpError> {
    let chosen = shown_design(p, &r.filled);
    let design = p.answer.designs[chosen].ranked.design;
    let name = proposal(r).remove(0).1;
    let trip = NewTrip { name: &name, starts: "", question: &p.question, wells: &p.wells, design };
    let kind = |kind: record::model::BottleKind| {
        Message::named("kind", kind.word()).map_or_else(|| kind.word().replace('-', " "), |m| m.text())
    };
    let bottles: Vec<(String, String)> =
        plan::bottles(&trip).into_iter().map(|(label, of, ..)| (label, kind(of))).collect();
    let mut answer = p.answer.clone();
    answer.designs[chosen].pack.extend(plan::gear(&design, p.wells.len()).into_iter().map(Sentence::from));
    let content = packing::content(&Packing {
        programme: &app.name,
        head: r.head.clone(),
        invented: app.invented,
        question: p.question.clone(),
        answer: &answer,
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
            return Err(HttpError::refused(say(said::AskAnew)));
        };
        let mut faults: Vec<Fault> = vec![];
        for name in ["name", "starts"] {
            if filled.get(name).trim().is_empty() {
                faults.push((name.into(), say(message::web_forms::Lacking)));
            }
        }
        if faults.is_empty() {
            let design = p.answer.designs[shown_design(p, &ready.filled)].ranked.design;
            let (question, wells) = (p.question.clone(), p.wells.clone());
            let starts = filled.get("starts").trim();
            let starts = typed::moment_text(starts).unwrap_or_else(|| starts.to_string());
            let (sent, person, at) = (filled.clone(), who.clone(), now());
            let made = page::write(&app, move |store| {
                let trip = NewTrip {
                    name: sent.get("name").trim(),
                    starts: &starts,
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
        Ok(Done::Again(crate::blocks::body(&app, &who, Place::of("/trips", &said::Title.text()).spoken(&who), &pieces)))
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
                (own.unwrap_or_else(|| "name".into()), format!("{}.", quantity::format::capital(&say(f.says))))
            })
            .collect()),
        // A trip of this name is on record.
        EntryError::Programme(record::Error::Unfit { .. }) => Ok(vec![("name".into(), say(said::NameThere))]),
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
        // A comma is a decimal sign; a number that may be a thousand is asked about.
        check("detect.level", "0;2", "detect.level");
        check("detect.level", "1,234", "detect.level");
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
