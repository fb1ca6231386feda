//! What files would bring, before anything is taken in: sums, faults that are equal standing together, first rows by names.
//!
//! In: what a preview saw. Out: pieces of a page in the language that is spoken now.

use crate::blocks::Piece;
use crate::written::{spoken, written};
use intake::import::{Faults, FileTaken, Imported, TableRows, spoken_parts};
use maud::{Markup, html};
use message::{Arg, Message, Spoken as _, count, web_files as says};
use quantity::Finding;
use std::collections::BTreeMap;

/// Groups of faults that stand open.
const GROUPS: usize = 40;

/// Different values that a group names.
const VALUES: usize = 5;

/// Notes told.
const NOTES: usize = 20;

fn whole(n: u64) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

/// What the rows of a table are called.
fn table(name: &str) -> Message {
    let known = Message::named("web_record", &format!("table-{name}"));
    known.unwrap_or_else(|| says::HeadingOther.into())
}

/// What is new, what is there already, what changes: over all files.
pub(crate) fn sums(seen: &Imported) -> Markup {
    let mut new: BTreeMap<&str, u64> = BTreeMap::new();
    for (t, n) in seen.files.iter().flat_map(|f| &f.added) {
        *new.entry(t).or_default() += n;
    }
    let sum = |of: fn(&FileTaken) -> u64| seen.files.iter().map(of).sum::<u64>();
    let (already, kept, revised, without) =
        (sum(|f| f.already), sum(|f| f.kept), sum(|f| f.revised), sum(|f| f.without));
    let before = seen.files.iter().filter(|f| f.before).count() as u64;
    let said = |n: u64, m: Message| (n > 0).then(|| m.text());
    let there: Vec<String> = [
        said(before, says::SameFile { n: whole(before) }.into()),
        said(already, says::SameRows { n: whole(already) }.into()),
        said(kept, says::SameResults { n: whole(kept) }.into()),
    ]
    .into_iter()
    .flatten()
    .collect();
    let opened = seen.files.iter().flat_map(|f| &f.unblinded);
    let changes: Vec<String> = said(revised, says::Revised { n: whole(revised) }.into())
        .into_iter()
        .chain(opened.map(|(request, n)| says::Opened { request: request.as_str().into(), n: whole(*n) }.text()))
        .collect();
    let new: Vec<String> =
        new.iter().filter(|(_, n)| **n > 0).map(|(t, n)| says::NOf { what: table(t), n: whole(*n) }.text()).collect();
    let line = |all: &[String]| if all.is_empty() { says::NewNone.text() } else { all.join(", ") };
    html! {
        @if !seen.files.is_empty() {
            dl.sums {
                div { dt { (says::New.text()) } dd { (line(&new)) } }
                div { dt { (says::There.text()) } dd { (line(&there)) } }
                div { dt { (says::Changes.text()) } dd { @if changes.is_empty() { (says::ChangesNone.text()) } @else { (line(&changes)) } } }
            }
            @if without > 0 { p.quiet { (says::Without { n: whole(without) }.text()) } }
        }
    }
}

/// Faults that differ only in the row, or in the value found.
struct Group<'f> {
    file: &'f str,
    column: Option<&'f str>,
    found: Vec<String>,
    expected: String,
    rows: Vec<u64>,
    n: usize,
}

/// What makes two faults equal: the same file, column and kind of message, and the same that was expected.
fn same_kind(f: &Finding) -> String {
    let id = |name: &str| match f.message.as_ref().and_then(|m| m.arg(name)) {
        Some(Arg::Message(m)) => m.id().to_string(),
        _ => String::new(),
    };
    format!("{:?} {} {}", f.check, id("found"), id("expected"))
}

fn grouped(shown: &[Finding]) -> Vec<Group<'_>> {
    let mut out: Vec<(String, Group)> = vec![];
    for f in shown {
        let (found, expected) = spoken_parts(f);
        let (file, column, row) =
            f.place.as_ref().map_or(("", None, None), |p| (p.file.as_str(), p.column.as_deref(), p.row));
        let key = format!("{file} {column:?} {} {expected}", same_kind(f));
        let at = out.iter().position(|(k, _)| *k == key).unwrap_or_else(|| {
            out.push((key, Group { file, column, found: vec![], expected, rows: vec![], n: 0 }));
            out.len() - 1
        });
        let group = &mut out[at].1;
        group.n += 1;
        group.rows.extend(row);
        if !group.found.contains(&found) {
            group.found.push(found);
        }
    }
    let mut groups: Vec<Group> = out.into_iter().map(|(_, g)| g).collect();
    groups.sort_by_key(|g| std::cmp::Reverse(g.n));
    groups
}

/// All faults, equal ones together, the most frequent first.
pub(crate) fn faults(all: &Faults) -> Markup {
    let groups = grouped(&all.shown);
    let (open, folded) = groups.split_at(groups.len().min(GROUPS));
    html! {
        h2 #faults { (says::Faults.text()) }
        p.quiet {
            (says::FaultsEqual.text())
            @if all.total > all.shown.len() as u64 { " " (says::FirstFaults { shown: count(all.shown.len()), of: whole(all.total) }.text()) }
        }
        ul.faults { @for g in open { (group(g)) } }
        @if !folded.is_empty() {
            details { summary { (says::AndMore { n: count(folded.len()) }.text()) } ul.faults { @for g in folded { (group(g)) } } }
        }
    }
}

fn group(g: &Group) -> Markup {
    let rows = match (g.rows.iter().min(), g.rows.iter().max()) {
        (Some(first), Some(last)) if first == last => Some(says::InRow { row: whole(*first) }.text()),
        (Some(first), Some(last)) => Some(says::InRows { first: whole(*first), last: whole(*last) }.text()),
        _ => None,
    };
    let more = g.found.len().saturating_sub(VALUES);
    html! {
        li {
            p {
                strong { (says::Times { n: count(g.n) }.text()) } " " (says::Found.text()) " "
                @for (n, found) in g.found.iter().take(VALUES).enumerate() { @if n > 0 { "; " } span.as-written { (found) } }
                @if more > 0 { " " (says::AndMore { n: count(more) }.text()) }
                @if !g.expected.is_empty() { ", " (says::Expected.text()) " " span.as-written { (g.expected) } }
            }
            p.quiet {
                (written(g.file))
                @if let Some(rows) = rows { ", " (rows) }
                @if let Some(column) = g.column { ", " (says::InColumn.text()) " " (written(column)) }
            }
        }
    }
}

/// A file in a line, after it was taken in.
pub(crate) fn in_words(f: &FileTaken) -> String {
    let file = f.file.as_str().into();
    if f.before {
        return says::TookBefore { file }.text();
    }
    let one = |n: u64, m: Message| (n > 0).then_some(m);
    let mut what: Vec<Message> = f
        .added
        .iter()
        .filter(|(_, n)| **n > 0)
        .map(|(t, n)| says::NOf { what: table(t), n: whole(*n) }.into())
        .collect();
    what.extend(one(f.already, says::SameRows { n: whole(f.already) }.into()));
    what.extend(one(f.kept, says::SameResults { n: whole(f.kept) }.into()));
    what.extend(one(f.revised, says::Revised { n: whole(f.revised) }.into()));
    if what.is_empty() {
        what.push(says::NewNone.into());
    }
    says::Took { file, what: what.into_iter().map(Arg::from).collect() }.text()
}

/// File by file: what was told of its form, its first rows as they would be kept.
pub(crate) fn files(seen: &Imported) -> Vec<Piece> {
    let mut out: Vec<Piece> = vec![];
    if !seen.files.is_empty() {
        out.push(html! { h2 #would { (says::Would.text()) } }.into());
    }
    for f in &seen.files {
        out.push(file(f, seen.files.len() < 4).into());
    }
    if !seen.notes.is_empty() {
        out.push(
            html! {
                h2 #notes { (says::Notes.text()) }
                ul { @for n in seen.notes.iter().take(NOTES) { li { (note(n)) } } }
                @if seen.notes.len() > NOTES { p.quiet { (says::AndMore { n: count(seen.notes.len() - NOTES) }.text()) } }
            }
            .into(),
        );
    }
    out
}

/// A note with its place.
fn note(n: &Finding) -> Markup {
    html! {
        span { (spoken(&n.text())) }
        @if let Some(place) = &n.place {
            " " span.quiet {
                (written(&place.file))
                @if let Some(row) = place.row { ", " (says::InRow { row: whole(row) }.text()) }
            }
        }
    }
}

fn file(f: &FileTaken, open: bool) -> Markup {
    html! {
        details.file open[open] {
            summary {
                (written(&f.file)) " "
                span.quiet { @if f.before { (says::Before.text()) } @else { (says::Rows { n: whole(f.rows) }.text()) } }
            }
            p.quiet { (says::ReadAs.text()) " " (written(&f.mapping)) @if !f.form_in_words().is_empty() { ". " (says::Told.text()) ": " (written(&f.form_in_words())) } }
            @if !f.shown.is_empty() {
                ol.sentences {
                    @for r in &f.shown {
                        @for m in &r.says { li { (spoken(&m.text())) } }
                        @if r.says.is_empty() { li.quiet { (says::InRow { row: whole(r.row) }.text()) ": " (says::NoResult.text()) } }
                    }
                }
            }
            @for (name, rows) in f.tables.iter().filter(|(name, _)| **name != "result" || f.shown.is_empty()) {
                (first_rows(name, rows, &f.mapping))
            }
        }
    }
}

/// The first rows of a table, by the names of what they refer to; columns in which nothing stands are left out.
fn first_rows(name: &str, rows: &TableRows, mapping: &str) -> Markup {
    let places: Vec<usize> = (0..rows.columns.len()).filter(|p| rows.rows.iter().any(|r| !r[*p].is_empty())).collect();
    if rows.rows.is_empty() || places.is_empty() {
        return html! {};
    }
    let title = says::FirstOf { what: table(name) }.text();
    html! {
        div.frame role="region" tabindex="0" aria-label=(title) {
            table {
                caption { span { (title) } }
                thead { tr { @for p in &places { th scope="col" { (heading(mapping, name, rows.columns[*p])) } } } }
                tbody { @for r in &rows.rows { tr { @for p in &places { td.as-written { (spoken(&r[*p].chars().take(80).collect::<String>())) } } } } }
            }
        }
    }
}

/// What a column holds, where the catalogue of the templates says it; else its name as the record has it.
fn heading(mapping: &str, table: &str, column: &str) -> Markup {
    let template = [mapping.to_string(), format!("{}s", table.replace('_', "-"))];
    let key = column.to_lowercase();
    let known = template.iter().find_map(|t| Message::named("column", &format!("{t}-{key}")));
    match known {
        Some(m) => html! { (m.text()) },
        None => match Message::named("web_columns", &format!("f-{table}-{key}")) {
            Some(m) => html! { (m.text()) },
            None => written(&column.replace('_', " ")),
        },
    }
}
