//! The page of the readings of one visit: its two grids, and what they say of themselves.

use super::visit::{FILLS, Ready, TIMES, counted, last_flow, over_column, rows};
use crate::forms::{Filled, people};
use crate::typed::{amount, say};
use assessment::field_checks::WATCHED;
use maud::{Markup, html};
use message::{Shown, Spoken as _, count, web_forms as said};
use quantity::Outcome;

/// Minutes between the readings that the grid offers: the spacing of the criteria for low flow.
// Puls & Barcelona 1996, EPA/540/S-95/504: readings three minutes apart (from memory).
const APART_MIN: u32 = 3;

/// The whole page.
pub(super) fn whole(r: &Ready, token: &Markup, over: Option<&Markup>) -> Markup {
    html! {
        @if let Some(over) = over { (over) }
        h1 { (said::VisitTitle.text()) }
        p { (said::VisitIntro.text()) }
        p.caution { (message::web_plan::WellHouseCaution.text()) }
        @if r.wells.is_empty() {
            p { (said::NoWellYet.text()) " " a.go href="/enter/well" { (said::EnterWell.text()) } }
        } @else {
            (faults(r))
            form.visit #form method="post" action="/enter/visit" autocomplete="off" data-look="/enter/visit/look" {
                (token)
                (top(r))
                (readings(r))
                (fills(r))
                (paste())
                div #visit-told aria-live="polite" { (told(r)) }
                p.acts {
                    button type="submit" { (said::SaveAll.text()) }
                    button.second type="submit" formaction="/enter/visit/look" { (said::LookFirst.text()) }
                }
                p.hint { (said::AllOrNothing.text()) }
            }
        }
    }
}

fn faults(r: &Ready) -> Markup {
    html! {
        @if !r.faults.is_empty() || !r.questions.is_empty() {
            div.fault role="alert" tabindex="-1" #faults {
                p { strong { (said::NothingEntered.text()) }
                    @if !r.faults.is_empty() { " " (say(said::CannotBeTaken { fields: count(r.faults.len()) })) }
                    @if !r.questions.is_empty() { " " (say(said::Asked { fields: count(r.questions.len()) })) }
                }
                ul { @for (id, words) in r.faults.iter().chain(&r.questions) {
                    li { a href=(format!("#{id}")) { (field_words(&r.filled, id)) } ": " (words) }
                } }
            }
        }
    }
}

/// A quantity in words; nothing of another.
fn quantity_words(name: &str) -> String {
    message::Message::named("condition", name).map_or_else(String::new, |m| m.text())
}

/// A name at the head of a column; symbols that begin with a small letter on purpose stay.
fn heading(name: &str) -> String {
    if name == "pH" { name.into() } else { quantity::format::capital(name) }
}

/// A field in words: "pH, 10:43", "fill 2".
fn field_words(filled: &Filled, id: &str) -> String {
    let mut parts = id.split('.');
    let (row, column) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
    let n = row.get(1..).and_then(|n| n.parse::<usize>().ok());
    match (row.chars().next(), n) {
        (Some('c'), Some(n)) => {
            let name = column.parse::<usize>().ok().and_then(|q| WATCHED.get(q)).map_or("", |w| w.0);
            format!("{}, {}", quantity_words(name), filled.get(&format!("t{n}")))
        }
        (Some('t'), Some(n)) => say(said::TimeOfRow { n: count(n + 1) }),
        (Some('f'), Some(n)) => say(said::FillOf { n: count(n + 1) }),
        _ if row == "well" => say(said::ColumnWell),
        _ if row == "day" => say(said::Day),
        _ if row == "trip" => say(said::ColumnTrip),
        _ => "±".into(),
    }
}

fn top(r: &Ready) -> Markup {
    let value = |name: &str| r.filled.get(name);
    let wrong = |name: &str| r.faults.iter().any(|f| f.0 == name).then_some("true");
    let list = |name: &str, words: String, all: &[String], may_be_none: bool| {
        html! { div.field {
            label for=(name) { (words) }
            select #(name) name=(name) aria-invalid=[wrong(name)] {
                @if may_be_none || value(name).is_empty() { option value="" { "–" } }
                @for w in all { option value=(w) selected[value(name) == w] { (w) } }
                @if !value(name).is_empty() && !all.iter().any(|w| w == value(name)) { option value=(value(name)) selected { (value(name)) } }
            }
        } }
    };
    html! {
        div.fields {
            (list("well", say(said::ColumnWell), &r.wells, false))
            (list("trip", say(said::ColumnTrip), &r.trips, true))
            div.field {
                label for="day" { (said::Day.text()) }
                input #day name="day" type="date" value=(value("day")) aria-invalid=[wrong("day")];
            }
            div.field {
                label for="person" { (said::ReadBy.text()) }
                (people(("person", "person"), value("person"), &r.people, (None, false)))
            }
            div.field {
                label for="instrument" { (said::Instrument.text()) }
                input #instrument name="instrument" value=(value("instrument"));
            }
        }
    }
}

/// The times of a grid: as they stand, and three minutes on where the first is known.
fn times(filled: &Filled, n: usize) -> Vec<String> {
    let stands: Vec<String> = (0..n).map(|i| filled.get(&format!("t{i}")).trim().to_string()).collect();
    let minutes = |t: &str| {
        let (h, m) = t.split_once(':')?;
        Some(h.parse::<u32>().ok()? * 60 + m.parse::<u32>().ok()?)
    };
    let mut out: Vec<String> = vec![];
    for (i, time) in stands.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|b| minutes(&out[b]));
        out.push(match before.map(|m| (m + APART_MIN) % (24 * 60)) {
            Some(m) if time.is_empty() => format!("{:02}:{:02}", m / 60, m % 60),
            _ => time.clone(),
        });
    }
    out
}

fn readings(r: &Ready) -> Markup {
    let n = TIMES.max(rows(&r.filled, 'c') + 1);
    let times = times(&r.filled, n);
    html! {
        h2 { (said::Readings.text()) }
        div.frame role="region" tabindex="0" aria-label=(said::Readings.text()) {
            table.grid data-step=(APART_MIN) {
                thead {
                    tr { th scope="col" { (said::Time.text()) }
                        @for (q, (name, _, unit)) in WATCHED.iter().enumerate() {
                            @let (past, words) = over_column(&r.past, q);
                            th scope="col" #(format!("q{q}")) {
                                (heading(&words.text()))
                                @if unit != name { br; small { (unit) } }
                                @if let Some(p) = past { br; small {
                                    (say(said::LastTime { value: Shown::as_given(p.last, p.unit).typeset(), day: p.day.as_str().into() }))
                                } }
                            }
                        }
                    }
                    tr.margins { th scope="row" { (said::Margin.text()) }
                        @for q in 0..WATCHED.len() { td { (cell(r, &format!("u.{q}"), &say(said::MarginOf { quantity: over_column(&r.past, q).1 }))) } }
                    }
                }
                tbody { @for (i, time) in times.iter().enumerate() {
                    tr {
                        th scope="row" { input #(format!("t{i}")) name=(format!("t{i}")) value=(time) size="5" inputmode="numeric" aria-label=(say(said::TimeOfRow { n: count(i + 1) })) aria-invalid=[wrong(r, &format!("t{i}"))]; }
                        @for q in 0..WATCHED.len() { td { (cell(r, &format!("c{i}.{q}"), &label_of(r, i, q))) } }
                    }
                } }
            }
        }
    }
}

fn label_of(r: &Ready, i: usize, q: usize) -> String {
    say(said::ReadingOf { quantity: over_column(&r.past, q).1, n: count(i + 1) })
}

fn wrong(r: &Ready, id: &str) -> Option<&'static str> {
    r.faults.iter().chain(&r.questions).any(|f| f.0 == id).then_some("true")
}

/// One field of a grid, with its fault or the question about it.
fn cell(r: &Ready, id: &str, label: &str) -> Markup {
    let of = |all: &[(String, String)]| all.iter().find(|f| f.0 == id).map(|f| f.1.clone());
    let value = r.filled.get(id);
    html! {
        input #(id) name=(id) value=(value) size="6" inputmode="decimal" aria-label=(label) aria-invalid=[wrong(r, id)];
        @if let Some(why) = of(&r.faults) { span.why { (why) } }
        @if let Some(asks) = of(&r.questions) {
            span.why { (asks) }
            label.inner { input type="checkbox" name=(format!("ok.{id}")) value=(value); " " (say(said::IsRight { value: value.into() })) }
        }
    }
}

fn fills(r: &Ready) -> Markup {
    let n = FILLS.max(rows(&r.filled, 'f') + 1);
    html! {
        h2 { (said::Fills.text()) }
        @if let Some(p) = last_flow(&r.past) {
            p.hint { (say(said::LastTime { value: Shown::significant(p.last, 3, p.unit), day: p.day.as_str().into() })) }
        }
        div.frame role="region" tabindex="0" aria-label=(said::Fills.text()) {
            table.grid {
                thead { tr {
                    th scope="col" { "#" }
                    th scope="col" { (said::Litres.text()) br; small { "L" } }
                    th scope="col" { (said::Seconds.text()) br; small { "s" } }
                    th scope="col" { (said::Time.text()) br; small { (said::MayBeEmpty.text()) } }
                } }
                tbody { @for i in 0..n { tr {
                    th scope="row" { (i + 1) }
                    @for (c, words) in [("l", say(said::Litres)), ("s", say(said::Seconds)), ("t", say(said::Time))] {
                        td { (cell(r, &format!("f{i}.{c}"), &format!("{words}, {}", say(said::FillOf { n: count(i + 1) })))) }
                    }
                } } }
            }
        }
    }
}

fn paste() -> Markup {
    html! {
        details {
            summary { (said::Paste.text()) }
            label for="paste" { (said::PasteHow.text()) }
            textarea #paste name="paste" rows="4" spellcheck="false" {}
        }
    }
}

/// What the grids say of themselves.
pub(super) fn told(r: &Ready) -> Markup {
    let at = |since: &str| since.get(11..16).unwrap_or(since).to_string();
    html! {
        @if r.told.readings + r.told.fills > 0 {
            p { strong { (counted(&r.told)) } }
            ul.steady { @for s in &r.told.steady { li {
                @match (s.outcome, &s.since) {
                    (Outcome::Met, Some(since)) => { span.state.met { "✓ " (say(said::SteadySince { at: at(since).into() })) } }
                    (Outcome::NotMet, _) => { span.state.not { "✗ " (said::NotSteady.text()) } }
                    _ => { span.state.unknown { "? " (said::SteadyNotKnown.text()) } }
                }
                " " strong { (quantity_words(&s.quantity)) } " " small { (say(s.rule.clone())) }
            } } }
            @if let Some(flow) = &r.told.flow {
                p { (said::Flow.text()) " " strong { (amount(flow)) } }
            }
            @for (id, asks) in &r.questions { p.why { (field_words(&r.filled, id)) ": " (asks) } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_offered_three_minutes_apart() {
        let filled = Filled(vec![("t0".into(), "23:56".into()), ("t3".into(), "00:30".into())]);
        assert_eq!(times(&filled, 5), ["23:56", "23:59", "00:02", "00:30", "00:33"]);
        assert_eq!(times(&Filled::default(), 2), ["", ""]);
    }
}
