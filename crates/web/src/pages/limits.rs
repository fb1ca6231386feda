//! The newest value of each well and substance against limits: what lies above first, then what does so though its verdict
//! is provisional or rejected, then what cannot be told with its reason, then what lies below, folded.
//!
//! In: results and limits. Out: a page; a comparison and no word on drinking. Bottles of one well and day stand in one row,
//! and count as the highest of them. Worked out once for a state of the record and a day.

use super::result_cards::{letters, limit_words};
use super::result_groups::{self, reporting};
use super::words::{self, Parts};
use crate::app::{App, Shared};
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, respond};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, case_address, encoded};
use assessment::results::{self, Listed};
use axum::extract::{Query as FromQuery, State};
use axum::response::Response;
use limits::Answer;
use maud::{Markup, html};
use message::{Arg, Message, Shown, Spoken, count, language, web_limits as said};
use programme::limits_of::{self, Against, Asked, against_of};
use quantity::Amount;
use record::model::VerdictWord;
use record::store::Store;
use std::collections::HashMap;

/// Rows of a part of the page that stand open; the rest follows on pages of its own.
const OPEN: usize = 10;

/// Rows of such a page.
const PER_PAGE: usize = 25;

/// A part of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// Above a limit, and accepted.
    Above,
    /// Above a limit, and provisional or rejected.
    AboveThough,
    /// The data do not decide.
    Open,
    /// Below.
    Below,
}

impl Part {
    const ALL: [Self; 4] = [Self::Above, Self::AboveThough, Self::Open, Self::Below];

    fn word(self) -> &'static str {
        match self {
            Self::Above => "above",
            Self::AboveThough => "above-though",
            Self::Open => "cannot-tell",
            Self::Below => "below",
        }
    }

    fn heading(self, n: usize) -> String {
        let n = count(n);
        match self {
            Self::Above => said::Above { n }.text(),
            Self::AboveThough => said::AboveThough { n }.text(),
            Self::Open => said::Open { n }.text(),
            Self::Below => said::Below { n }.text(),
        }
    }
}

/// A well and substance beside its limits.
struct Line {
    /// Bottles of its newest day.
    bottles: Vec<Listed>,
    /// The limits that give the answer, the most pressing first.
    rows: Vec<limits_of::Row>,
    verdict: Option<VerdictWord>,
}

impl Line {
    fn first(&self) -> &limits_of::Row {
        &self.rows[0]
    }

    fn part(&self) -> Part {
        match self.first().comparison.answer {
            Answer::Above if self.verdict == Some(VerdictWord::Accepted) => Part::Above,
            Answer::Above => Part::AboveThough,
            Answer::CannotTell => Part::Open,
            Answer::Below => Part::Below,
        }
    }

    /// The bottle that the first limit speaks of.
    fn result(&self) -> &Listed {
        let of = |r: &&Listed| r.result == self.first().result;
        self.bottles.iter().find(of).unwrap_or(&self.bottles[0])
    }
}

/// All lines in order, and what else is to be said.
fn lines(store: &Store, app: &App) -> Result<(Vec<Line>, Against), HttpError> {
    let grouped = result_groups::grouped(store, app)?;
    let rows = app.record.index(store, |i| {
        let of = |at: u32| {
            grouped.group(at).map_or(vec![], |g| reporting(i, &g.entries).iter().map(|e| e.row).collect::<Vec<_>>())
        };
        grouped.newest(i).into_iter().map(of).collect::<Vec<_>>()
    })?;
    let mut groups: Vec<Vec<Listed>> = vec![];
    for of in rows {
        groups.push(results::listed(store, &of)?.into_iter().filter(|r| r.verdict.is_some()).collect());
    }
    let all: Vec<Listed> = groups.iter().flatten().cloned().collect();
    let asked = Asked { otherwise: Some(now()[..10].to_string()), ..Asked::default() };
    let against = against_of(store, &all, &asked)?;
    let mut of: HashMap<String, Vec<(usize, &limits_of::Row)>> = HashMap::new();
    let told =
        |r: &limits_of::Row| (r.strictest || r.local || r.nearest_health) && !r.comparison.limit.is_goal_of_zero();
    for (n, row) in against.rows.iter().enumerate().filter(|(_, r)| told(r)) {
        of.entry(row.result.to_string()).or_default().push((n, row));
    }
    let mut out: Vec<(usize, Line)> = vec![];
    for bottles in groups {
        let mut beside: Vec<(usize, &limits_of::Row)> =
            bottles.iter().filter_map(|r| of.get(&r.result.to_string())).flatten().copied().collect();
        beside.sort_by_key(|(n, _)| *n);
        let Some((first, answer)) = beside.first().map(|(n, r)| (*n, r.comparison.answer)) else { continue };
        let rows = beside.iter().filter(|(_, r)| r.comparison.answer == answer).map(|(_, r)| (*r).clone()).collect();
        let verdict = bottles.iter().filter_map(|r| r.verdict).max();
        out.push((first, Line { bottles, rows, verdict }));
    }
    out.sort_by_key(|(n, _)| *n);
    Ok((out.into_iter().map(|(_, line)| line).collect(), Against { rows: vec![], ..against }))
}

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let part = q.get("show").and_then(|s| Part::ALL.into_iter().find(|p| p.word() == s));
    let number = q.get("page").and_then(|p| p.parse::<usize>().ok()).unwrap_or(1).max(1) - 1;
    let body = page::read(&app, move |store, app| {
        let head = store.head()?.map_or_else(String::new, |h| h.to_string());
        let key = format!("{head} {} {:?} /limits {part:?} {number}", &now()[..10], language());
        crate::worked::body(app, key, || {
            let (lines, against) = lines(store, app)?;
            Ok(body(&lines, &against, part, number))
        })
    })
    .await?;
    let title = said::Title.text();
    respond(&app, &who, Place::of("/results", &title).spoken(&who), &q, &[Piece::from(body)])
}

fn body(lines: &[Line], against: &Against, part: Option<Part>, number: usize) -> Markup {
    let of = |p: Part| lines.iter().filter(|l| l.part() == p).collect::<Vec<&Line>>();
    html! {
        h1 { (said::Title.text()) }
        p { (said::What.text()) }
        @if lines.is_empty() { p.quiet { (said::None.text()) } }
        @match part {
            Some(p) => {
                @let all = of(p);
                h2 { (p.heading(all.len())) }
                (table(&all[(number * PER_PAGE).min(all.len())..((number + 1) * PER_PAGE).min(all.len())], p))
                nav.pages aria-label=(message::web_results::Pages.text()) {
                    @if number > 0 { a rel="prev" href=(address(p, number)) { (message::web_results::Back.text()) } }
                    @if all.len() > (number + 1) * PER_PAGE { a.go rel="next" href=(address(p, number + 2)) {
                        (message::web_results::MoreRows { n: count(all.len() - (number + 1) * PER_PAGE) }.text())
                    } }
                    a href="/limits" { (said::AllParts.text()) }
                }
            }
            None => {
                @for p in Part::ALL {
                    @let all = of(p);
                    @if p == Part::Below {
                        @if !all.is_empty() { details.met-ones { summary { (p.heading(all.len())) } (begin(&all, p)) } }
                    } @else if !all.is_empty() || p == Part::Above { h2 { (p.heading(all.len())) } (begin(&all, p)) }
                }
            }
        }
        p.under { (said::Under.text()) }
        @if !against.coming.is_empty() {
            p { (message::limit::ComingAll { limits: against.coming.iter().map(|l| limits::local::coming_in_words(l).into()).collect() }.text()) }
        }
        p.quiet { (not_tested(against)) }
        p.quiet { (said::Advice.text()) }
        p.acts { a.go href="/enter/local_limit?to=%2Flimits" { (said::Own.text()) } " " a href="/statements" { (said::ByAuthority.text()) } }
    }
}

fn address(part: Part, number: usize) -> String {
    format!("/limits?show={}&page={number}", part.word())
}

/// The first rows of a part, and the way to the rest.
fn begin(all: &[&Line], part: Part) -> Markup {
    let more = all.len().saturating_sub(OPEN);
    html! {
        @if !all.is_empty() { (table(&all[..all.len().min(OPEN)], part)) }
        @if more > 0 { p { a.go href=(address(part, 1)) { (message::web_results::MoreRows { n: count(more) }.text()) } } }
    }
}

fn table(lines: &[&Line], part: Part) -> Markup {
    let heads = [
        said::HeadRatio.text(),
        said::HeadWhat.text(),
        said::HeadValue.text(),
        said::HeadLimit.text(),
        said::HeadVerdict.text(),
    ];
    html! {
        table.cards.limits {
            caption.hid { (part.heading(lines.len())) }
            thead { tr { @for h in heads { th scope="col" { (h) } } } }
            tbody { @for l in lines { tr {
                td.ratio { (ratio(l)) }
                th scope="row" { (what(l)) }
                td.values { (values(l)) }
                td.limit-of { (limits_of_line(l, part)) }
                td.verdict-of { (words::verdict(l.verdict)) }
            } } }
        }
    }
}

/// How far from the limit, and how sure.
fn ratio(l: &Line) -> Markup {
    let c = &l.first().comparison;
    let share = c.share_of_limit();
    let times = (c.limit.low.is_none() && share.is_finite()).then(|| {
        let shown = if share >= 0.095 { Shown::significant(share, 2, "") } else { Shown::trimmed(share, 1, "") };
        said::Times { times: shown.typeset() }.text()
    });
    html! {
        @if let Some(times) = times { b { (times) } }
        @if let Some(p) = c.probability_under { small { (said::ProbabilityAbove { p: percent(1.0 - p).into() }.text()) } }
        @else if matches!(c.amount, Amount::Stated(_)) { small { (said::ByValueAlone.text()) } }
    }
}

/// A probability as a whole per cent; at the ends as far as it is known.
pub(crate) fn percent(p: f64) -> String {
    let percent = 100.0 * p;
    let shown = |x: f64, n: i32| Shown::decimals(x, n, "").text();
    if percent > 99.9 {
        format!(">\u{A0}{}\u{A0}%", shown(99.9, 1))
    } else if percent < 0.1 {
        format!("<\u{A0}{}\u{A0}%", shown(0.1, 1))
    } else if percent > 99.0 {
        ">\u{A0}99\u{A0}%".to_string()
    } else if percent < 1.0 {
        "<\u{A0}1\u{A0}%".to_string()
    } else {
        format!("{}\u{A0}%", shown(percent, 0))
    }
}

fn what(l: &Line) -> Markup {
    let r = l.result();
    let day = r.filled_at.as_deref().map(words::day).unwrap_or_default();
    let under = [day, words::fraction(&r.fraction)];
    html! {
        span.what { (words::substance(&r.analyte)) } " "
        @if let Some(w) = &r.well { a href=(format!("/wells/{}", encoded(w))) { (w) } } @else { span.quiet { (r.bottle) } }
        small { (under.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(", ")) }
    }
}

fn values(l: &Line) -> Markup {
    let labels: Vec<&str> = l.bottles.iter().map(|r| r.bottle.as_str()).collect();
    html! { ul.side { @for (r, letter) in l.bottles.iter().zip(letters(&labels)) {
        @let p = Parts::of_result(r);
        li {
            @if labels.len() > 1 { span.label title=(r.bottle) { (letter) } " " }
            a href=(case_address(&r.result)) { (p.value) "\u{A0}" (p.unit) }
            @if let Some(u) = &p.expanded { small { "±\u{A0}" (u) } }
        }
    } } }
}

fn limits_of_line(l: &Line, part: Part) -> Markup {
    // The limit, its kind, and the edition as its document calls it.
    let mut told: Vec<(String, String, String)> = vec![];
    for row in &l.rows {
        let r = l.bottles.iter().find(|b| b.result == row.result).unwrap_or(&l.bottles[0]);
        let limit = &row.comparison.limit;
        let kind = Message::named("limit_kind", &limit.kind).map_or_else(|| limit.kind.clone(), |m| m.text());
        let under = [kind, limit.terms.concern.message().text()];
        let under = under.into_iter().filter(|w| !w.is_empty()).collect::<Vec<_>>().join(", ");
        let line = (limit_words(r, row), under, limit.edition.clone());
        if !told.iter().any(|(words, ..)| *words == line.0) {
            told.push(line);
        }
    }
    let why = match l.first().comparison.message.arg("why") {
        Some(Arg::Message(why)) if part == Part::Open => Some(words::printed(&message::number::sentence(&why.text()))),
        _ => None,
    };
    html! {
        @for (n, (limit, under, edition)) in told.iter().enumerate() {
            p {
                @if part != Part::Below && part != Part::Open && n == 0 { i.mk.over {} " " } (limit)
                small { (words::printed(under)) @if !edition.is_empty() { ", " span.as-written lang="en" { (edition) } } }
            }
        }
        @if let Some(why) = why { p.why-not { i.oc.unknown {} " " (why) } }
    }
}

fn not_tested(against: &Against) -> String {
    let names: Vec<String> =
        against.not_tested.iter().filter(|n| *n != "microbes").map(|n| ::report::pages::element(n)).collect();
    let names = || message::Name::from(names.join(", "));
    let microbes = against.not_tested.iter().any(|n| n == "microbes");
    match (microbes, names().0.is_empty()) {
        (true, true) => message::limit::MicrobesNotTested.text(),
        (true, false) => message::limit::NotTestedNorMicrobes { names: names() }.text(),
        (false, false) => message::limit::NotTested { names: names() }.text(),
        (false, true) => String::new(),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_probability_is_never_one_and_never_nothing() {
        let check = |p: f64, out: &str| assert_eq!(super::percent(p).replace('\u{A0}', " "), out);
        check(1.0, "> 99.9 %");
        check(0.999_95, "> 99.9 %");
        check(0.994, "> 99 %");
        check(0.42, "42 %");
        check(0.004, "< 1 %");
        check(0.000_9, "< 0.1 %");
        check(0.0, "< 0.1 %");
    }
}
