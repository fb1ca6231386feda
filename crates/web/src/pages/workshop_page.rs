//! The pieces of the workshop's page: the kinds, the sentence as lists, its answer, how far it would hold, the sentences
//! to copy, the results that it stands on, and the form that keeps it.

use super::statements::{age_of, answer_mark, by_bottle, element, verdict_mark};
use super::workshop::{Answered, Ready, limit_key, relations};
use crate::auth::who::Who;
use crate::page::{case_address, encoded};
use crate::typed::{amount, say, shown};
use limits::bodies::bodies;
use limits::waters::waters;
use maud::{Markup, html};
use message::{Lang, Message, Spoken as _, language, web_forms as forms, web_statements as said};
use programme::statement::workshop::{Kind, Offer, Stands, Told, all_of};
use programme::statement::{Whole, leans_on};
use record::model::VerdictWord;

/// The whole page.
pub(super) fn whole(r: &Ready, who: &Who, token: &Markup) -> Markup {
    html! {
        h1 { (said::NewSentence.text()) " " small { (said::FromLists.text()) } }
        @if r.analytes.is_empty() && r.kind != Kind::Age {
            p { (said::NoResults.text()) " " a.go href="/runs/bring-in" { (said::BringIn.text()) } }
            (kinds(r))
        } @else {
            (kinds(r))
            (faults(r))
            (lists(r))
            div #answer aria-live="polite" { (answer(r, who, token)) }
        }
    }
}

fn kinds(r: &Ready) -> Markup {
    html! {
        ul.kinds { @for kind in Kind::ALL { li {
            @let (name, example) = kind_words(kind);
            @if kind == Kind::Changed && !r.two_days {
                span.grey { strong { (name) } small { (said::NeedsTwoTrips.text()) } }
            } @else {
                a href=(format!("/statements/new?kind={}&analyte={}", kind.word(), encoded(&r.analyte))) aria-current=[(kind == r.kind).then_some("true")] {
                    strong { (name) } small { (example) }
                }
            }
        } } }
    }
}

/// The name of a kind, and an example.
fn kind_words(kind: Kind) -> (String, String) {
    match kind {
        Kind::Limit => (said::KindLimit.text(), said::ExampleLimit.text()),
        Kind::Times => (said::KindTimes.text(), said::ExampleTimes.text()),
        Kind::Picture => (said::KindPicture.text(), said::ExamplePicture.text()),
        Kind::Level => (said::KindLevel.text(), said::ExampleLevel.text()),
        Kind::None => (said::KindNone.text(), said::ExampleNone.text()),
        Kind::Changed => (said::KindChanged.text(), said::ExampleChanged.text()),
        Kind::Age => (said::KindAge.text(), said::ExampleAge.text()),
    }
}

fn faults(r: &Ready) -> Markup {
    html! {
        @if !r.faults.is_empty() {
            div.fault role="alert" tabindex="-1" #faults {
                ul { @for (field, why) in &r.faults { li { a href=(format!("#{field}")) { (field_words(field)) } ": " (why) } } }
            }
        }
    }
}

fn field_words(field: &str) -> String {
    match field {
        "number" => said::Number.text(),
        "level" => said::Level.text(),
        "unit" => said::Unit.text(),
        "year" => said::Year.text(),
        "years" => said::Years.text(),
        "share" => said::SharePercent.text(),
        "name" => said::Name.text(),
        "despite" => said::Despite.text(),
        _ => said::TheSentence.text(),
    }
}

/// A list of the sentence.
fn list(name: &str, words: &str, chosen: &str, all: &[(String, String)], whole: bool) -> Markup {
    html! { div.field {
        label for=(name) { (words) }
        select #(name) name=(name) data-whole=[whole.then_some("")] {
            @for (value, words) in all { option value=(value) selected[value == chosen] { (words) } }
        }
    } }
}

fn typed(r: &Ready, name: &str, words: &str) -> Markup {
    let wrong = r.faults.iter().any(|f| f.0 == name).then_some("true");
    html! { div.field {
        label for=(name) { (words) }
        input #(name) name=(name) value=(r.filled.get(name)) inputmode=[(name != "unit").then_some("decimal")] autocomplete="off" aria-invalid=[wrong];
    } }
}

fn lists(r: &Ready) -> Markup {
    let chosen = |name: &str| r.filled.get(name);
    let substances: Vec<(String, String)> = r.analytes.iter().map(|a| (a.clone(), element(a))).collect();
    let relation: Vec<(String, String)> =
        relations(r.kind).iter().map(|w| ((*w).to_string(), relation_words(r.kind, w))).collect();
    let offers = offered(r);
    let words = |m: &dyn Fn() -> String| html! { span.says { (m()) } };
    let substance = list("analyte", &said::Substance.text(), &r.analyte, &substances, true);
    let of = |words: String| list("of", &words, chosen("of"), &offers, false);
    // The other fields of an age follow from how it is meant.
    let relation = || list("relation", &said::How.text(), chosen("relation"), &relation, r.kind == Kind::Age);
    let wells: Vec<(String, String)> = r.wells.iter().map(|w| (w.clone(), w.clone())).collect();
    html! {
        form #ask method="get" action="/statements/new" data-answer="/statements/new/answer" {
            input type="hidden" name="kind" value=(r.kind.word());
            p.quiet { (said::TheSentence.text()) }
            div.sentence {
                @match r.kind {
                    Kind::Limit => {
                        (of(said::Water.text())) (words(&|| said::HoldsIs.text())) (relation())
                        (list("limit", &said::Limit.text(), chosen("limit"), &limits(r), false)) (substance)
                    }
                    Kind::Times => {
                        (of(said::Water.text())) (words(&|| said::Holds.text())) (relation())
                        (typed(r, "number", &said::Number.text())) (words(&|| said::Times.text()))
                        (list("way", &said::Way.text(), chosen("way"), &[("less".into(), said::Less.text()), ("more".into(), said::More.text())], false))
                        (substance) (words(&|| said::Than.text()))
                        (list("with", &said::CompareWith.text(), chosen("with"), &with_waters(r, &offers), false))
                    }
                    Kind::Picture => {
                        (of(said::Water.text())) (words(&|| said::HoldsAsLittleAs.text())) (relation())
                        (typed(r, "number", &said::Kilograms.text())) (words(&|| said::KilogramsIn.text()))
                        (list("body", &said::Body.text(), chosen("body"), &bodies_there(), false)) (substance)
                    }
                    Kind::Level => {
                        (of(said::Water.text())) (words(&|| said::Holds.text())) (relation())
                        (typed(r, "level", &said::Level.text())) (typed(r, "unit", &said::Unit.text())) (substance)
                    }
                    Kind::None => {
                        @if r.bottles.is_empty() { (of(said::Water.text())) (words(&|| said::IsFreeOf.text())) (substance) }
                        @else {
                            (list("bottle", &said::Bottle.text(), chosen("bottle"), &bottles(r), false))
                            (words(&|| said::IsFreeOfCompounds.text()))
                            @if chosen("bottle").is_empty() { (of(said::Water.text())) (substance) } @else { input type="hidden" name="analyte" value=(r.analyte); }
                        }
                        (words(&|| said::MeansBelow.text()))
                        (typed(r, "level", &said::Level.text())) (typed(r, "unit", &said::Unit.text()))
                    }
                    Kind::Age => {
                        (list("well", &said::Well.text(), chosen("well"), &wells, false)) (relation())
                        @match chosen("relation") {
                            "before" => { (typed(r, "year", &said::Year.text())) }
                            "older" => { (typed(r, "years", &said::Years.text())) (words(&|| said::YearsOld.text())) }
                            _ => {
                                (typed(r, "share", &said::SharePercent.text())) (words(&|| said::OfItYounger.text()))
                                (typed(r, "years", &said::Years.text())) (words(&|| said::YearsOld.text()))
                            }
                        }
                    }
                    Kind::Changed => {
                        (substance) (words(&|| said::Has.text())) (relation())
                        (typed(r, "number", &said::ByPercent.text()))
                        (list("of", &said::FromDay.text(), chosen("of"), &offers, false))
                        (list("with", &said::ToDay.text(), chosen("with"), &offers, false))
                    }
                }
            }
            @if r.kind == Kind::Age { p.hint { (said::AgeHint.text()) } } @else {
                details open[chosen("subject") == "bottles"] {
                    summary { (said::SpeaksOf.text()) }
                    (list("subject", &said::SpeaksOf.text(), chosen("subject"), &[("waters".into(), said::OfWaters.text()), ("bottles".into(), said::OfBottles.text())], false))
                }
                p.hint { (said::ValueHint.text()) }
            }
            button.second type="submit" { (said::Answer.text()) }
        }
    }
}

fn relation_words(kind: Kind, word: &str) -> String {
    match (kind, word) {
        (_, "before") => said::FellBefore.text(),
        (_, "older") => said::OlderThan.text(),
        (Kind::Level, "below") => said::NotMoreThan.text(),
        (Kind::Level, _) => said::MoreThan.text(),
        (_, "below") => said::Below.text(),
        (_, "above") => said::Above.text(),
        (_, "at least") => said::AtLeast.text(),
        (_, "about") => said::About.text(),
        (_, "at most") => said::AtMost.text(),
        (_, "fallen") => said::Fallen.text(),
        (_, "risen") => said::Risen.text(),
        (_, "unchanged") => said::Unchanged.text(),
        _ => word.to_string(),
    }
}

/// Each choice with its value and verdict.
fn offered(r: &Ready) -> Vec<(String, String)> {
    let isotopes = r.offers.iter().any(|o| o.isotopes != r.offers[0].isotopes);
    let fractions = r.offers.iter().any(|o| o.fraction != r.offers[0].fraction);
    r.offers.iter().map(|o| (o.key.clone(), offer_words(o, (isotopes, fractions)))).collect()
}

fn offer_words(o: &Offer, (isotopes, fractions): (bool, bool)) -> String {
    let values: Vec<String> = o.amounts.iter().map(amount).collect();
    let values = values.join(" / ");
    let value =
        if o.at_most && !values.is_empty() { said::AtMostOf { value: values.as_str().into() }.text() } else { values };
    let mut parts = vec![match &o.bottle {
        Some(bottle) => said::BottleOf { place: o.place.as_str().into(), bottle: bottle.as_str().into() }.text(),
        None => o.place.clone(),
    }];
    parts.push(value);
    if matches!(o.stands, Stands::Each(_)) {
        parts.push(said::EachBottle.text());
    }
    if isotopes && !o.isotopes.is_empty() {
        parts.push(o.isotopes.clone());
    }
    if fractions && !o.fraction.is_empty() {
        parts.push(message::run::Fraction { fraction: o.fraction.as_str().into() }.text());
    }
    // A choice of a list is text alone and holds no mark: its word tells the verdict.
    parts.push(o.verdict.map_or_else(|| said::Evidence.text(), |v| assessment::verdict::said(v).text()));
    parts.push(shown(&o.day));
    parts.into_iter().filter(|p| !p.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// What a water may be compared with: the others, and reference waters of the table.
fn with_waters(r: &Ready, offers: &[(String, String)]) -> Vec<(String, String)> {
    let named = |name: &str| Message::named("reference_water", name).map_or_else(|| name.to_string(), |m| m.text());
    let references = waters().iter().filter(|w| w.analyte == r.analyte).map(|w| {
        let star = if w.provenance == "recalled" { " *" } else { "" };
        let words = format!("{} · {}{star}", named(&w.water), amount(&w.amount()));
        (format!("water/{}", encoded(&w.water)), words)
    });
    offers.iter().cloned().chain(references).collect()
}

fn limits(r: &Ready) -> Vec<(String, String)> {
    let kind = |k: &str| Message::named("limit_kind", k).map_or_else(|| k.to_string(), |m| m.text());
    let words = |l: &limits::table::Limit| {
        let star = if l.provenance == "recalled" { " *" } else { "" };
        let value = message::Shown::as_given(l.high, l.unit.to_string()).text();
        shown(&format!("{value} · {}, {}{star}", l.authority, kind(&l.kind)))
    };
    let none = r.limits.is_empty().then(|| (String::new(), said::NoLimit.text()));
    r.limits.iter().map(|l| (limit_key(l), words(l))).chain(none).collect()
}

fn bodies_there() -> Vec<(String, String)> {
    let named = |name: &str| Message::named("body", name).map_or_else(|| name.to_string(), |m| m.text());
    bodies().iter().map(|b| (b.name.clone(), named(&b.name))).collect()
}

fn bottles(r: &Ready) -> Vec<(String, String)> {
    let one = (String::new(), said::OneSubstance.text());
    r.bottles.iter().map(|b| (b.clone(), b.clone())).chain([one]).collect()
}

/// The answer, and all that stands on it.
pub(super) fn answer(r: &Ready, who: &Who, token: &Markup) -> Markup {
    match &r.answer {
        Answered::Open => html! { h2 { (said::TheAnswer.text()) } p { (said::StillToChoose.text()) } },
        Answered::Refused(why) => html! {
            h2 { (said::TheAnswer.text()) }
            p { span.state.unknown { "? " (said::CannotBeAsked.text()) } }
            p { (why) }
        },
        Answered::Told(told) => html! {
            div.workshop {
                div.answer {
                    h2 { (said::TheAnswer.text()) }
                    p.word { (answer_mark(all_of(told))) @if let Some(held) = held(told) { " " small { (held) } } }
                    @if told.len() > 1 { p { (said::OfEachBottle.text()) } }
                    @for t in told { (one(t)) }
                }
                div { (stands_on(told)) }
            }
            (copies(told))
            (keep(r, told, who, token))
        },
    }
}

/// What the answer is provisional because of.
fn held(told: &[Told]) -> Option<String> {
    let mut places: Vec<(String, VerdictWord)> = vec![];
    for r in told.iter().flat_map(Told::held) {
        let place = r.well.clone().unwrap_or_else(|| r.bottle.clone());
        let verdict = r.verdict.unwrap_or(VerdictWord::Provisional);
        match places.iter_mut().find(|(p, _)| *p == place) {
            Some(known) if verdict == VerdictWord::Rejected => known.1 = verdict,
            Some(_) => {}
            None => places.push((place, verdict)),
        }
    }
    let named = |(place, verdict): (String, VerdictWord)| -> message::Arg {
        Message::from(said::Held { place: place.as_str().into(), verdict: assessment::verdict::said(verdict) }).into()
    };
    (!places.is_empty()).then(|| say(said::Provisional { places: places.into_iter().map(named).collect() }))
}

fn one(t: &Told) -> Markup {
    let s = &t.checked.sentences;
    html! {
        p.quiet { q { (say(s.asked.clone())) } }
        p { strong { (say(s.plain.clone())) } }
        p { (say(s.scientific.clone())) }
        @if !s.warnings.is_empty() { ul { @for w in &s.warnings { li { (by_bottle(say(w.clone()), t.uses.iter().map(|u| &u.result))) } } } }
        @if !t.steps.is_empty() {
            h3 { (said::HowFar.text()) }
            ul.holds { @for step in &t.steps { li {
                span { (say(step.asked.clone())) } span { (answer_mark(step.answer)) }
            } } }
        }
    }
}

fn stands_on(told: &[Told]) -> Markup {
    html! {
        h3 { (said::StandsOn.text()) }
        ul.stands { @for u in told.iter().flat_map(|t| &t.uses) {
            li {
                a href=(case_address(&u.result)) { (u.bottle) } " "
                @if let Some(a) = &u.amount { (amount(a)) }
                " " (verdict_mark(u.verdict))
            }
        }
        @for l in told.iter().flat_map(|t| &t.leans) { li { (say(leans_on(l))) } }
        }
        @for t in told { @if let Some(Whole::Age(well)) = &t.sentence.whole { p { (age_of(well)) } } }
    }
}

/// The days of sampling behind sentences that are copied.
fn sampled(told: &Told, sentence: Message, lang: Lang) -> String {
    let days: Vec<message::Arg> = told.days().into_iter().map(|d| message::Date::from(d).into()).collect();
    // Of a well without tracers nothing was sampled.
    let dated = if days.is_empty() { sentence } else { said::Sampled { days, sentence }.into() };
    let text = document::printed::printed(&dated.in_language(lang), lang);
    let held = message::with_language(lang, || held(std::slice::from_ref(told)));
    held.map_or(text.clone(), |held| format!("{text} {}", quantity::format::capital(&held)))
}

fn copies(told: &[Told]) -> Markup {
    let own = language();
    let other = Lang::ALL.into_iter().find(|l| *l != own).unwrap_or(own);
    let rows = |t: &Told| {
        let s = &t.checked.sentences;
        [
            (said::Exact.text(), sampled(t, s.scientific.clone(), own), own),
            (said::Plain.text(), sampled(t, s.plain.clone(), own), own),
            (other.name(), sampled(t, s.plain.clone(), other), other),
        ]
    };
    html! {
        h2 { (said::ToCopy.text()) }
        div.copies { dl {
            @for (i, (words, text, lang)) in told.iter().flat_map(rows).enumerate() {
                div {
                    dt { (words) }
                    dd {
                        span #(format!("copy{i}")) lang=(lang.code()) { (text) } " "
                        button.second type="button" data-copy=(format!("copy{i}")) data-done=(said::Copied.text()) { (said::Copy.text()) }
                    }
                }
            }
        } }
    }
}

/// The form that keeps the sentence, with all that was chosen.
fn keep(r: &Ready, told: &[Told], who: &Who, token: &Markup) -> Markup {
    let own = ["token", "name", "despite", "table", "figure"];
    let kept = r.filled.0.iter().filter(|(n, _)| !own.contains(&n.as_str()));
    let wrong = |name: &str| r.faults.iter().find(|f| f.0 == name).map(|f| f.1.clone());
    let name = if r.filled.get("name").is_empty() { r.proposed_name() } else { r.filled.get("name").to_string() };
    let held = told.iter().any(|t| t.held().next().is_some());
    html! {
        form method="post" action="/statements/new" {
            (token)
            @for (n, v) in kept { input type="hidden" name=(n) value=(v); }
            div class=(if wrong("name").is_some() { "field wrong" } else { "field" }) {
                label for="name" { (said::Name.text()) }
                input #name name="name" value=(name) aria-invalid=[wrong("name").map(|_| "true")] aria-describedby="name-fault";
                p.why #name-fault { (wrong("name").unwrap_or_default()) }
            }
            @if held {
                div class=(if wrong("despite").is_some() { "field wrong" } else { "field" }) {
                    label for="despite" { (said::Despite.text()) span.needed { " " (forms::NeededMark.text()) } }
                    input #despite name="despite" value=(r.filled.get("despite")) aria-invalid=[wrong("despite").map(|_| "true")] aria-describedby="despite-fault despite-hint";
                    p.why #despite-fault { (wrong("despite").unwrap_or_default()) }
                    p.hint #despite-hint { (said::DespiteHint.text()) }
                }
            }
            button type="submit" { (said::Keep.text()) }
            p.hint { @if who.is_named() { (say(said::KeptAs { person: who.person.as_str().into() })) " " } (said::KeptAndWatched.text()) }
        }
    }
}
