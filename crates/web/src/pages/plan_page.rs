//! The pieces of the plan's page: the question, the designs with what each would end as, what to pack, the trip, the form.

use super::plan::{CHOICES, KINDS, OWN, PAST_BLANKS, PRICES, Planned, Ready, address, shown_design};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Td, link, number, square, td};
use crate::forms::{Asking, Field};
use crate::typed::{older, say};
use ::document::content::Word;
use ::report::packing;
use maud::{Markup, html};
use message::{Message, Share, Shown, Spoken as _, count, language, packing as heads, web_plan as said, word};
use programme::plan::{self, FromRecord, Offered};
use quantity::format::capital;

/// The words of a field, a group or a kind, by its name; nothing where the catalogue has none.
fn words(of: &str, name: &str) -> String {
    Message::named("web_plan", &format!("{of}-{name}")).map_or_else(String::new, |m| m.text())
}

/// The page.
pub(super) fn pieces(who: &Who, r: &Ready, trip: Asking, token: &Markup) -> Vec<Piece> {
    let mut out: Vec<Piece> = vec![html! { h1 { (said::Title.text()) } p { (said::Intro.text()) } }.into()];
    if let Some(p) = &r.planned {
        out.extend(answer(who, r, p, trip, token));
    }
    out.push(form(r).into());
    out
}

fn form(r: &Ready) -> Markup {
    let asking = Asking { filled: &r.filled, faults: &r.faults };
    let line = |name: &str, list: Option<&str>| {
        let (own, hint) = (words("field", name), words("hint", name));
        asking.line_of(Field { name, words: &own, hint: &hint }, list)
    };
    let group = |title: String, fields: &mut dyn Iterator<Item = &'static str>| {
        html! { fieldset { legend { (title) } div.fields { @for f in fields { (line(f, None)) } } } }
    };
    let own = || std::iter::once(PAST_BLANKS).chain(OWN.iter().map(|n| n.0));
    let kind = r.filled.get("kind");
    let faulty = |names: &mut dyn Iterator<Item = &'static str>| {
        let names: Vec<&str> = names.collect();
        r.faults.iter().any(|f| names.contains(&f.0.as_str()))
    };
    html! {
        h2 #question { @if r.planned.is_some() { (said::AskOtherwise.text()) } @else { (said::TheQuestion.text()) } }
        (faults(r))
        form.plan method="get" action="/plan" {
            div.fields { (line("analyte", Some("analytes"))) }
            datalist #analytes { @for a in &r.analytes { option value=(a) { (super::statements::element(a)) } } }
            @if !r.wells.is_empty() {
                fieldset { legend { (said::Wells.text()) } p.ticks { @for w in &r.wells {
                    @let name = format!("well.{w}");
                    label { input type="checkbox" name=(name) value="1" checked[!r.filled.get(&name).is_empty()]; " " (w) } " "
                } } p.hint { (said::AllWells.text()) } }
            }
            fieldset #kind { legend { (said::TakeEnough.text()) }
                @for (name, fields) in KINDS {
                    div.kind {
                        label { input type="radio" name="kind" value=(name.word()) checked[kind == name.word()]; " " (words("kind", name.word())) }
                        div.fields { @for n in *fields { (line(n.0, None)) } }
                    }
                }
            }
            details open[faulty(&mut PRICES.iter().map(|n| n.0))] {
                summary { (said::Prices.text()) } (group(say(said::Prices), &mut PRICES.iter().map(|n| n.0)))
            }
            details open[faulty(&mut CHOICES.iter().map(|c| c.0))] {
                summary { (said::Choices.text()) } (group(say(said::Choices), &mut CHOICES.iter().map(|c| c.0)))
            }
            details open[faulty(&mut own())] {
                summary { (said::OwnNumbers.text()) } (group(say(said::OwnNumbers), &mut own()))
            }
            button type="submit" { (said::Rank.text()) }
        }
    }
}

/// All that is wrong, each with a link to its field, in the field's own words.
fn faults(r: &Ready) -> Markup {
    let name = |field: &str| {
        let own = words("field", field);
        if own.is_empty() { say(said::TheQuestion) } else { own }
    };
    html! {
        @if !r.faults.is_empty() {
            div.fault role="alert" tabindex="-1" #faults {
                p { strong { (say(message::web_forms::CannotBeTaken { fields: count(r.faults.len()) })) } }
                ul { @for (field, why) in &r.faults { li { a href=(format!("#{field}")) { (name(field)) } ": " (why) } } }
            }
        }
    }
}

/// A chance: whole per cents, a bound near the ends.
fn chance(p: f64) -> String {
    match p {
        p if p > 0.999 => said::ChanceOver.text(),
        p if p < 0.001 => said::ChanceUnder.text(),
        p => Share::new(p, message::Digits::Decimals(0)).said(language()),
    }
}

fn price(x: f64) -> String {
    Shown::trimmed(x, 4, "").text()
}

/// What a design would end as: accepted, or provisional and why.
fn ends_as(lacks: &[Message]) -> String {
    if lacks.is_empty() {
        return say(said::EndsAccepted);
    }
    say(said::EndsProvisional { why: lacks.iter().map(|m| m.clone().into()).collect() })
}

fn ends_mark(lacks: &[Message]) -> Markup {
    let word = if lacks.is_empty() { Word::Accepted } else { Word::Provisional };
    html! { span class=(word.word()) { (square(word)) " " (ends_as(lacks)) } }
}

fn answer(who: &Who, r: &Ready, p: &Planned, trip: Asking, token: &Markup) -> Vec<Piece> {
    let chosen = shown_design(p, &r.filled);
    let Some(design) = p.answer.designs.get(chosen) else {
        return vec![html! { h2 { (p.question) } p { (said::NoDesign.text()) } }.into()];
    };
    let mut mind: Vec<String> = p.answer.warnings.iter().map(ToString::to_string).collect();
    mind.extend(p.left_out.iter().map(|w| say(said::LeftOut { why: older(w).into() })));
    let list = |items: &[String]| html! { ul { @for i in items { li { (capital(i)) } } } };
    let mut pack: Vec<String> = design.pack.iter().map(ToString::to_string).collect();
    pack.extend(plan::gear(&design.ranked.design, p.wells.len()).into_iter().map(say));
    let n = count(chosen + 1);
    vec![
        html! {
            h2 { (p.question) }
            div.verdict {
                p.number { (say(said::DesignIs { n, price: price(design.ranked.price).into(), chance: chance(design.ranked.power).into() })) }
                p { (said::WouldEndAs.text()) ": " (ends_mark(&p.lacks[chosen])) }
                p { (design.ranked.buys) }
            }
        }
        .into(),
        designs(r, p, chosen).into(),
        html! {
            h2 { (say(said::ToPack { n })) }
            (list(&pack))
            p.caution { (said::AcidCaution.text()) }
            p.caution { (said::WellHouseCaution.text()) }
            p { a href=(address(&r.filled, &[("design", (chosen + 1).to_string()), ("print", "1".into())])) { (said::PackingPdf.text()) } }
            (trip_form(who, r, p, chosen, trip, token))
            @if !p.answer.requires.is_empty() {
                details { summary { (said::EveryDesign.text()) }
                    p { (said::EveryDesignWhy.text()) }
                    (list(&p.answer.requires.iter().map(|s| say_sentence(&s.to_string())).collect::<Vec<_>>()))
                }
            }
            @if !p.from_record.is_empty() { h2 { (said::FromTheRecord.text()) } (list(&p.from_record.iter().map(named).collect::<Vec<_>>())) }
            @if !mind.is_empty() { details { summary { (said::ToBearInMind.text()) } (list(&mind.iter().map(|m| say_sentence(m)).collect::<Vec<_>>())) } }
        }
        .into(),
    ]
}

/// A sentence of the plan with the names of checks as people say them.
fn say_sentence(text: &str) -> String {
    let said = |word: &str| {
        let bare = word.trim_end_matches([',', '.', ':', ';']);
        let known = quantity::Check::from_text(bare).filter(|c| c.text() == bare);
        known.map(|c| format!("{}{}", check_words(c), &word[bare.len()..]))
    };
    text.split(' ').map(|w| said(w).unwrap_or_else(|| w.to_string())).collect::<Vec<_>>().join(" ")
}

/// A check in words: "spikes come back" and not its name.
fn check_words(check: quantity::Check) -> String {
    let own = words("check", check.text());
    if own.is_empty() { check.text().replace(['.', '-'], " ") } else { own }
}

/// What came from the record under the words of its field: `relative_sd` is "Scatter of one sample bottle".
fn named(taken: &FromRecord) -> String {
    match taken {
        FromRecord::Field { key, value, why, .. } => {
            format!("{}: {} ({})", words("field", key), value.text(), why.text())
        }
        blank @ FromRecord::Blank { .. } => blank.to_string(),
    }
}

/// The detection limit of a design; a dash where it has none.
fn detects(d: &Offered) -> String {
    let limit = d.ranked.detection_limit;
    if limit.is_finite() { Shown::trimmed(limit, 3, d.unit).text() } else { "–".into() }
}

fn bottles_of(d: &Offered) -> String {
    let d = &d.ranked.design;
    let parts = [
        (heads::SamplesAWell.text(), d.samples),
        (word::FieldBlanks.text(), d.field_blanks),
        (heads::TripBlanks.text(), d.trip_blanks),
        (heads::BottleBlanks.text(), d.bottle_blanks),
        (heads::Spikes.text(), d.spikes),
        (heads::Vials.text(), d.laboratory.vials()),
    ];
    parts.into_iter().map(|(words, n)| format!("{words} {n}")).collect::<Vec<_>>().join(" · ")
}

/// What more money buys beside the design before: the price and the chance side by side.
fn beside(now: &Offered, before: Option<&Offered>) -> String {
    let Some(before) = before else { return String::new() };
    let more = Shown::trimmed(now.ranked.price - before.ranked.price, 3, "").text();
    let (from, to) = (chance(before.ranked.power), chance(now.ranked.power));
    say(said::Beside { price: more.into(), from: from.into(), to: to.into() })
}

/// The designs: those that would be accepted, cheapest first, and below the line cheaper ones that would not.
fn designs(r: &Ready, p: &Planned, chosen: usize) -> Listing {
    let all = &p.answer.designs;
    let line = |n: Td, d: &Offered, before: Option<&Offered>, lacks: &[Message]| {
        let ends = Td { shown: ends_mark(lacks), words: ends_as(lacks), number: false };
        let design = &d.ranked.design;
        let how = format!(
            "{}; {} {}; {} {}",
            bottles_of(d),
            heads::Millilitres.text(),
            Shown::trimmed(design.volume_ml, 4, "").text(),
            heads::MinutesOpen.text(),
            Shown::trimmed(design.minutes, 3, "").text()
        );
        vec![
            n,
            number(price(d.ranked.price)),
            ends,
            number(chance(d.ranked.power)),
            td(beside(d, before)),
            number(detects(d)),
            td(how),
        ]
    };
    let mut rows: Vec<Vec<Td>> = (all.iter().enumerate())
        .map(|(i, d)| {
            let n = i + 1;
            let cell = if i == chosen {
                Td { shown: html! { strong { "▸ " (n) } }, words: n.to_string(), number: false }
            } else {
                link(&address(&r.filled, &[("design", n.to_string())]), n.to_string())
            };
            line(cell, d, i.checked_sub(1).and_then(|b| all.get(b)), &p.lacks[i])
        })
        .collect();
    rows.extend(p.not_believed.iter().map(|(d, lacks)| line(td(said::NotBelieved.text()), d, None, lacks)));
    let headings = [
        heads::Design.text(),
        heads::Price.text(),
        said::WouldEndAs.text(),
        heads::Chance.text(),
        said::MoneyBuys.text(),
        heads::Detects.text(),
        said::Bottles.text(),
    ];
    let foot = packing::table(&p.answer).notes.join(" ");
    Listing {
        caption: say(said::DesignsCaption { n: count(all.len()), cheaper: count(p.not_believed.len()) }),
        headings: headings.into(),
        rows,
        foot: Some(html! { (foot) " " (said::DesignsFoot.text()) }),
        ..Listing::default()
    }
}

fn trip_form(who: &Who, r: &Ready, p: &Planned, chosen: usize, trip: Asking, token: &Markup) -> Markup {
    let field = |name: &str| {
        let (own, hint) = (words("field", name), words("hint", name));
        trip.line(Field { name, words: &own, hint: &hint })
    };
    let (lot, fraction) = &p.usual;
    let said_fraction = |f: &String| message::run::Fraction { fraction: f.as_str().into() }.text();
    html! {
        @if who.may(Role::Sampler) {
            form #make method="post" action="/plan/trip" {
                h2 { (said::MakeTrip.text()) }
                (trip.all_faults())
                (token)
                input type="hidden" name="q" value=(address(&r.filled, &[("design", (chosen + 1).to_string())]));
                div.fields { (field("name")) (field("starts")) }
                button type="submit" { (said::MakeWithBottles.text()) }
                p.hint {
                    (say(said::OneActOf { n: count(chosen + 1), wells: p.wells.iter().map(|w| message::Name::from(w.as_str()).into()).collect() }))
                    @if let Some(lot) = lot { " " (say(said::OfLot { lot: lot.as_str().into() })) " " a href="/lots" { (said::MayItGoOut.text()) } }
                    @if let Some(f) = fraction { " " (say(said::OfFraction { fraction: said_fraction(f).into() })) }
                    " " (said::BlanksInTurn.text())
                }
            }
        } @else { p.quiet { (said::ForSamplers.text()) } }
    }
}
