//! Sentences with their case: each supported, contradicted or "cannot tell", with the nearest sentence that the data do
//! support; and the newest results of a well against published limits. A new sentence is made in the `workshop`.

use crate::app::Shared;
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, link, number, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, case_address, encoded};
use crate::typed::{amount, older, say, shown};
use assessment::results;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use limits::Guard;
use limits::claim::Answer;
use limits::compare::Answer as Beside;
use limits::local::coming_in_words;
use limits::table::{authorities, authority};
use maud::{Markup, html};
use message::{Message, Said, Shown, Spoken as _, count, language, web_statements as said};
use programme::index::Wanted;
use programme::limits_of::{Asked, Row, against_of};
use programme::statement::workshop::Kind;
use programme::statement::{self, Stated, Whole};
use quantity::Outcome;
use quantity::format::capital;
use record::identity::ResultId;
use record::model::VerdictWord;

/// Results compared with limits on a page, the newest.
const COMPARED: usize = 150;

/// A substance in the language that is spoken; its own symbol where the catalogue has no name of it.
pub(super) fn element(analyte: &str) -> String {
    let named = |room| Message::named(room, analyte);
    let known = named("substance").or_else(|| named("condition")).or_else(|| named("word"));
    known.map_or_else(|| shown(analyte), |m| m.text())
}

fn outcome(answer: &str) -> Outcome {
    match answer {
        "supported" => Outcome::Met,
        "contradicted" => Outcome::NotMet,
        _ => Outcome::NotKnown,
    }
}

/// A mark and a word in the colour of an outcome.
fn mark(outcome: Outcome, words: &str) -> Markup {
    crate::blocks::marked(outcome, words)
}

/// An answer as mark and word.
pub(super) fn answer_mark(answer: Answer) -> Markup {
    mark(outcome(answer.word()), &answer.message().text())
}

/// A verdict as mark and word; evidence has none.
pub(super) fn verdict_mark(verdict: Option<VerdictWord>) -> Markup {
    let Some(verdict) = verdict else { return html! { span.quiet { (said::Evidence.text()) } } };
    crate::blocks::verdict_word(super::word(verdict))
}

/// A kept answer in a list.
fn answer(word: &str) -> Td {
    let words = statement::answer(word).text();
    Td { shown: mark(outcome(word), &words), words, number: false }
}

fn heads(all: &[Message]) -> Vec<String> {
    all.iter().map(message::Spoken::text).collect()
}

/// A text with results by the labels of their bottles in place of their names.
pub(super) fn by_bottle<'a>(text: String, results: impl Iterator<Item = &'a ResultId>) -> String {
    let mut out = text;
    for r in results {
        for name in [r.to_string(), r.newest().to_string()] {
            out = out.replace(&shown(&name), &r.bottle).replace(&name, &r.bottle);
        }
    }
    out
}

/// What changed, in the language that is spoken.
fn change(said: &Said) -> String {
    match said {
        Said::Message(m) => say(m.clone()),
        Said::Text(text) => older(text),
    }
}

/// The sentences of a statement in the language that is spoken; as they were kept where they cannot be said anew.
struct Spoken {
    asked: String,
    plain: String,
    scientific: String,
    warnings: Vec<String>,
}

fn spoken(s: &Stated) -> Spoken {
    match statement::in_language(s, language()) {
        Ok(c) => Spoken {
            asked: say(c.sentences.asked),
            plain: say(c.sentences.plain),
            scientific: say(c.sentences.scientific),
            warnings: c.sentences.warnings.into_iter().map(say).collect(),
        },
        Err(_) => Spoken {
            asked: older(&s.asked),
            plain: older(&s.plain),
            scientific: older(&s.scientific),
            warnings: s.warnings.iter().map(|w| older(w)).collect(),
        },
    }
}

/// All statements, and limits of a well where one is chosen.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let well = q.get("well").cloned().filter(|w| !w.is_empty());
    let filled = Filled(q.iter().map(|(n, v)| (n.clone(), v.clone())).collect());
    let (against, faults) = asked_of(&filled);
    let (stated, unread, wells, limits) = page::read(&app, move |store, app| {
        let stated = statement::all(store)?;
        let wells: Vec<String> = store.wells()?.into_iter().map(|w| w.name).collect();
        let limits = match &well {
            Some(w) => {
                let wanted = Wanted { well: Some(w.clone()), ..Wanted::default() };
                let rows = app.record.index(store, |i| i.select(&wanted, 0, COMPARED).rows)?;
                Some(against_of(store, &results::listed(store, &rows)?, &against)?)
            }
            None => None,
        };
        Ok((stated.stated, stated.unread, wells, limits))
    })
    .await?;
    let mut pieces: Vec<Piece> = vec![top(&who, &stated, &unread).into()];
    if !stated.is_empty() {
        pieces.push(kept(&stated).into());
    }
    pieces.push(
        html! {
            h2 { (said::AgainstLimits.text()) }
            (limits_form(&wells, Asking { filled: &filled, faults: &faults }))
        }
        .into(),
    );
    if let Some(a) = &limits {
        pieces.extend(beside_limits(a));
    }
    respond(&app, &who, Place::of("/statements", &said::Title.text()).spoken(&who), &q, &pieces)
}

fn top(who: &Who, stated: &[Stated], unread: &[String]) -> Markup {
    html! {
        h1 { (said::Title.text()) }
        p { (said::Intro.text()) }
        @for why in unread { p.caution { (said::CannotBeRead.text()) " " (older(why)) "." } }
        p.acts {
            @if who.may(Role::Analyst) { a.go href="/statements/new" { (said::NewSentence.text()) } " " }
            a href="/compounds" { (said::Compounds.text()) }
        }
        @if stated.is_empty() {
            p { (said::NoneYet.text()) }
            @if who.may(Role::Analyst) {
                ul.kinds { @for (kind, words) in kinds() { li { a href=(format!("/statements/new?kind={}", kind.word())) { strong { (words) } } } } }
            }
        }
    }
}

fn kinds() -> [(Kind, String); 7] {
    [
        (Kind::Limit, said::KindLimit.text()),
        (Kind::Times, said::KindTimes.text()),
        (Kind::Picture, said::KindPicture.text()),
        (Kind::Level, said::KindLevel.text()),
        (Kind::None, said::KindNone.text()),
        (Kind::Changed, said::KindChanged.text()),
        (Kind::Age, said::KindAge.text()),
    ]
}

fn kept(stated: &[Stated]) -> Listing {
    let row = |s: &Stated| {
        let words = spoken(s);
        let uses = || s.uses.iter().map(|u| &u.result);
        let changes: Vec<String> = s.changes.iter().map(|c| by_bottle(change(c), uses())).collect();
        let state =
            if s.stands() { said::Stands.text() } else { say(said::ChangedSince { what: changes.join("; ").into() }) };
        vec![
            link(&format!("/statements/{}", encoded(&s.name)), s.name.clone()),
            td(words.asked),
            answer(&s.answer),
            td(words.plain),
            td(state),
        ]
    };
    Listing {
        caption: said::ListOf { n: count(stated.len()) }.text(),
        headings: heads(&[
            said::Name.into(),
            said::Asked.into(),
            said::TheAnswer.into(),
            said::MayBeSaid.into(),
            said::State.into(),
        ]),
        rows: stated.iter().map(row).collect(),
        ..Listing::default()
    }
}

/// Results beside limits: above, then what cannot be told; those below are folded.
fn beside_limits(a: &programme::limits_of::Against) -> Vec<Piece> {
    let (below, open): (Vec<&Row>, Vec<&Row>) = a.rows.iter().partition(|r| r.comparison.answer == Beside::Below);
    let mut out: Vec<Piece> = vec![];
    if open.is_empty() {
        out.push(
            html! { p { (if a.rows.is_empty() { said::NoLimitOfAny.text() } else { said::NoneAbove.text() }) } }.into(),
        );
    } else {
        let listing = Listing {
            caption: said::LimitsCaption.text(),
            headings: heads(&[
                said::Bottle.into(),
                said::Substance.into(),
                said::Result.into(),
                said::Limit.into(),
                said::AsOf.into(),
                said::Whose.into(),
                said::SetFor.into(),
                said::Marks.into(),
                said::ResultIs.into(),
                said::ChanceUnder.into(),
                said::Verdict.into(),
            ]),
            rows: open.iter().map(|r| limit_row(r)).collect(),
            foot: Some(html! { (said::LimitsFoot.text()) }),
            ..Listing::default()
        };
        out.push(listing.into());
    }
    out.push(
        html! {
            @if !below.is_empty() {
                details { summary { (said::BelowFolded { n: count(below.len()) }.text()) }
                    ul { @for r in &below { li {
                        a href=(case_address(&r.result)) { (r.result.bottle) } " " (element(&r.analyte)) ": "
                        (amount(&r.comparison.amount)) "; " (said::Limit.text()) " " (limit_words(r)) ", "
                        (r.comparison.limit.authority) ", " (say(r.comparison.answer_message()))
                    } } }
                }
            }
            @if !a.coming.is_empty() {
                p { (say(message::limit::ComingAll { limits: a.coming.iter().map(|l| coming_in_words(l).into()).collect() })) }
            }
            @if !a.not_tested.is_empty() {
                p { (said::NotTested.text()) " " (a.not_tested.iter().map(|n| element(n)).collect::<Vec<_>>().join(", ")) "." }
            }
            ul { @for w in &a.warnings { li { (shown(&capital(w))) } } }
        }
        .into(),
    );
    out
}

fn limit_words(r: &Row) -> String {
    let l = &r.comparison.limit;
    let high = Shown::trimmed(l.high, 3, l.unit.to_string()).text();
    shown(&l.low.map_or(high.clone(), |low| format!("{} – {high}", Shown::trimmed(low, 3, "").text())))
}

/// A chance under a limit: whole per cents, a bound near the ends.
fn chance(p: f64) -> String {
    match p {
        p if p > 0.999 => said::OverThousandth.text(),
        p if p < 0.001 => said::UnderThousandth.text(),
        p => message::Share::new(p, message::Digits::Decimals(0)).said(language()),
    }
}

fn limit_row(r: &Row) -> Vec<Td> {
    let l = &r.comparison.limit;
    let marks = [
        (r.strictest, said::Strictest.text()),
        (r.nearest_health, said::NearestHealth.text()),
        (r.local, said::YourOwn.text()),
    ];
    let marks: Vec<String> = marks.into_iter().filter(|m| m.0).map(|m| m.1).collect();
    let kind = Message::named("limit_kind", &l.kind).map_or_else(|| l.kind.clone(), |m| m.text());
    let day = shown(r.on.as_deref().unwrap_or_default());
    let verdict = Td {
        shown: verdict_mark(r.verdict),
        words: r.verdict.map_or_else(String::new, |v| assessment::verdict::said(v).text()),
        number: false,
    };
    vec![
        link(&case_address(&r.result), r.result.bottle.clone()),
        td(element(&r.analyte)),
        link(&case_address(&r.result), amount(&r.comparison.amount)),
        td(limit_words(r)),
        td(day),
        td(format!("{}, {kind}{}", l.authority, if l.provenance == "recalled" { " *" } else { "" })),
        td(say(l.terms.concern.message())),
        td(marks.join(", ")),
        td(say(r.comparison.answer_message())),
        number(r.comparison.probability_under.map_or_else(String::new, chance)),
        verdict,
    ]
}

/// What the form asks of the limits; what is wrong with its fields.
fn asked_of(filled: &Filled) -> (Asked, Vec<Fault>) {
    let mut faults: Vec<Fault> = vec![];
    let guard = match filled.get("guard").trim() {
        "" => Guard::default(),
        text => Guard::parse(text).unwrap_or_else(|| {
            faults.push(("guard".into(), say(said::NoGuard { text: text.into() })));
            Guard::default()
        }),
    };
    let typed = filled.get("date").trim();
    let date = crate::typed::moment_text(typed).or_else(|| Some(typed.to_string()).filter(|d| !d.is_empty()));
    if date.as_ref().is_some_and(|d| d.parse::<jiff::civil::Date>().is_err()) {
        faults.push(("date".into(), say(said::NoDay { text: typed.into() })));
    }
    let date = date.filter(|_| faults.iter().all(|f| f.0 != "date"));
    let authorities = authority(filled.get("authority")).map(String::from).into_iter().collect();
    let otherwise = Some(now()[..10].to_string());
    (Asked { authorities, guard, date, otherwise }, faults)
}

fn limits_form(wells: &[String], asking: Asking) -> Markup {
    let (choose, all_of_them) = (said::Choose.text(), said::AllOfThem.text());
    let mut names = vec![("", choose.as_str())];
    names.extend(wells.iter().map(|w| (w.as_str(), w.as_str())));
    let mut whose = vec![("", all_of_them.as_str())];
    let all = authorities();
    whose.extend(all.iter().map(|a| (*a, *a)));
    let words: Vec<String> = [
        Message::from(said::Well),
        said::LimitsOf.into(),
        said::LimitsOfHint.into(),
        said::HowSure.into(),
        said::HowSureHint.into(),
        said::LimitsAsOf.into(),
        said::LimitsAsOfHint.into(),
    ]
    .iter()
    .map(message::Spoken::text)
    .collect();
    html! {
        (asking.all_faults())
        form method="get" action="/statements" {
            div.fields {
                (asking.choice(Field { name: "well", words: &words[0], hint: "" }, &names))
                (asking.choice(Field { name: "authority", words: &words[1], hint: &words[2] }, &whose))
                (asking.line(Field { name: "guard", words: &words[3], hint: &words[4] }))
                (asking.line(Field { name: "date", words: &words[5], hint: &words[6] }))
            }
            button type="submit" { (said::Compare.text()) }
        }
        p.quiet { (said::OwnLimits.text()) " " a href="/runs/bring-in" { (said::BringIn.text()) } }
    }
}

/// One statement with its case.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let asked = name.clone();
    let s = page::read(&app, move |store, _| Ok(statement::find(store, &asked)?)).await?;
    let words = spoken(&s);
    let uses: Vec<Vec<Td>> = (s.uses.iter())
        .map(|u| {
            let verdict = u.verdict.map_or_else(|| said::Evidence.text(), |v| assessment::verdict::said(v).text());
            vec![
                link(&case_address(&u.result), u.result.bottle.clone()),
                td(element(&u.result.analyte)),
                td(u.amount.as_ref().map_or_else(String::new, amount)),
                Td { shown: verdict_mark(u.verdict), words: verdict, number: false },
            ]
        })
        .collect();
    let none = uses.is_empty();
    let uses = Listing {
        caption: said::StandsOn.text(),
        headings: heads(&[said::Bottle.into(), said::Substance.into(), said::Result.into(), said::VerdictThen.into()]),
        rows: uses,
        ..Listing::default()
    };
    let today = s.today.as_ref().map(|t| {
        let now = t.answer.as_deref().map_or(Outcome::NotKnown, outcome);
        (now, t.message.clone().map_or_else(|| older(&t.plain), say))
    });
    let head = html! {
        h1 { (s.name) }
        p.under { (say(said::CheckedBy { revision: s.revision, person: s.person.as_str().into() })) }
        div.verdict {
            p.number { q { (words.asked) } }
            p { (mark(outcome(&s.answer), &statement::answer(&s.answer).text())) }
            p { (said::MayBeSaid.text()) ": " strong { (words.plain) } }
            p { (words.scientific) }
            @if let Some(d) = &s.despite { p { (said::DespiteTaken.text()) " " (d) } }
        }
        @if !s.changes.is_empty() { ul { @for c in &s.changes { li { (mark(Outcome::NotMet, &said::ChangedWord.text())) " " (by_bottle(change(c), s.uses.iter().map(|u| &u.result))) } } } }
        @if let Some((now, plain)) = today { p { (mark(now, &said::Today.text())) " " (plain) } }
        @if !words.warnings.is_empty() { h2 { (said::ToBearInMind.text()) } ul { @for w in &words.warnings { li { (by_bottle(w.clone(), s.uses.iter().map(|u| &u.result))) } } } }
        @if who.may(Role::Analyst) { form method="post" action=(format!("/statements/{}/again", encoded(&name))) {
            (token_field(&app, &who))
            button.second type="submit" { (said::CheckAnew.text()) }
        } }
        p.under { (said::Head.text()) " " code { (s.head.chars().take(16).collect::<String>()) } }
        @if !s.kept.leans.is_empty() {
            h2 { (said::StandsOn.text()) }
            ul { @for l in &s.kept.leans { li { (say(statement::leans_on(l))) } } }
            @if let Some(Whole::Age(well)) = &s.sentence.whole { p { (age_of(well)) } }
        } @else if none { p.quiet { (said::NoUses.text()) } }
    };
    let mut pieces: Vec<Piece> = vec![head.into()];
    if !none {
        pieces.push(uses.into());
    }
    respond(&app, &who, Place::of("/statements", &s.name).spoken(&who), &q, &pieces)
}

/// The page that tells how old the water of a well is.
pub(super) fn age_of(well: &str) -> Markup {
    let words = message::well_age::PageTitle { well: well.into() }.text();
    html! { a href=(format!("/wells/{}/age", encoded(well))) { (words) } }
}

/// Checks one anew.
pub(crate) async fn again(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    Form(sent): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(sent);
    once(&app, &who, &filled, async {
        let (asked, person, at) = (name.clone(), who.clone(), now());
        page::write(&app, move |store| statement::again(store, &asked, None, person.by(&at)).map(|_| ())).await??;
        Ok(Done::To(format!("/statements/{}", encoded(&name))))
    })
    .await
}
