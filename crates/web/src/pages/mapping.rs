//! A mapping made on the screen: which column of a laboratory's table is what. It is saved in the programme under its
//! name, as text that can be read and changed by hand later.

use crate::app::{App, Shared, now};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, body, respond, td};
use crate::forms::{Done, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::lock::lock;
use crate::page::{self, Place};
use crate::uploads::UpFile;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::Response;
use intake::import::Mapping;
use intake::import::look::{Look, look};
use maud::{Markup, html};
use record::store::{ActInfo, StoreError};

/// A field of a result table: name in the mapping, in words, whether it is needed, whether one text may hold for
/// every row.
struct Field(&'static str, &'static str, bool, bool);

const BOTTLE: &[Field] = &[
    Field("bottle.label", "bottle label or sample name", true, false),
    Field("bottle.kind", "kind of bottle (sample, field-blank …)", false, true),
    Field("bottle.filled_at", "when it was filled", false, false),
    Field("well.name", "well", false, true),
];

const LONG: &[Field] = &[
    Field("result.analyte", "analyte", true, true),
    Field("result.value", "value", true, false),
    Field("result.unit", "unit", true, true),
    Field("result.remark", "remark beside the value", false, false),
    Field("result.u", "standard uncertainty u", false, false),
    Field("result.reporting_limit", "reporting limit", false, false),
];

const COMMON: &[Field] = &[
    Field("result.fraction", "fraction (unfiltered, 0.45 um, filtered)", true, true),
    Field("result.laboratory", "laboratory", false, true),
    Field("result.method", "method", false, true),
];

/// What a word in a cell may mean.
const MEANINGS: &[(&str, &str)] = &[
    ("below", "the number beside it is a limit that the value lies under"),
    ("above", "the number beside it is a limit that the value lies over"),
    ("estimated", "the laboratory calls the value an estimate"),
    ("not-detected", "not detected; the number beside it, if any, is the limit"),
    ("missing", "nothing was reported"),
];

/// Words asked for: as in the cell, how they are named, what they most often mean.
const WORDS: &[(&str, &str, &str)] = &[
    ("<", "<", "below"),
    (">", ">", "above"),
    ("", "an empty cell", "missing"),
    ("ND", "ND", "not-detected"),
    ("E", "E", "estimated"),
    ("0", "a literal 0", ""),
];

fn file(app: &App, who: &Who, id: &str, n: usize) -> Result<UpFile, HttpError> {
    let upload = app.uploads.get(id, who)?;
    let files = lock(&upload.files);
    files.get(n).cloned().ok_or_else(|| HttpError::absent("There is no such file in this upload."))
}

/// The form for one file.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path((id, n)): Path<(String, usize)>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let file = file(&app, &who, &id, n)?;
    let seen = look(&file.path)?;
    let filled = first_guess(&file, &seen);
    let pieces =
        pieces(&Asked { id: &id, n, file: &file, seen: &seen, fault: None }, &filled, &token_field(&app, &who));
    respond(&app, &who, Place::of("/runs", "Choose columns"), &q, &pieces)
}

struct Asked<'a> {
    id: &'a str,
    n: usize,
    file: &'a UpFile,
    seen: &'a Look,
    fault: Option<&'a str>,
}

/// A form with what the headings say by themselves.
fn first_guess(file: &UpFile, seen: &Look) -> Filled {
    let stem = file.name.rsplit_once('.').map_or(file.name.as_str(), |(s, _)| s);
    let mut out =
        vec![("name".to_string(), stem.to_lowercase().replace(' ', "-")), ("layout".into(), "results".into())];
    for Field(name, ..) in BOTTLE.iter().chain(LONG).chain(COMMON) {
        let own = name.rsplit('.').next().unwrap_or(name);
        let alike = seen.headings.iter().find(|h| {
            let h = h.to_lowercase();
            h == own
                || (own == "label" && ["bottle", "sample", "sample id", "sample name"].contains(&h.as_str()))
                || (own == "name" && h == "well")
        });
        if let Some(h) = alike {
            out.push((format!("c.{name}"), h.clone()));
        }
    }
    for (n, (_, _, meaning)) in WORDS.iter().enumerate() {
        out.push((format!("w{n}"), (*meaning).to_string()));
    }
    Filled(out)
}

fn pieces(a: &Asked, filled: &Filled, token: &Markup) -> Vec<Piece> {
    let rows = a.seen.rows.iter().map(|r| r.iter().map(|c| td(c.chars().take(60).collect::<String>())).collect());
    let table = Listing {
        caption: format!("The first rows of {}", a.file.name),
        headings: a.seen.headings.clone(),
        rows: rows.collect(),
        empty: "The file shows no rows.",
        ..Listing::default()
    };
    let form = html! {
        @if let Some(fault) = a.fault { div.fault role="alert" { p { strong { "Not saved. " } (fault) } } }
        form method="post" action=(format!("/runs/bring-in/{}/{}/columns", a.id, a.n)) {
            (token)
            div.field { label for="name" { "Name of the mapping " span.needed { "needed" } }
                input #name name="name" value=(filled.get("name")) required aria-describedby="name-hint";
                p.hint #name-hint { "Saved in the programme: the next file of this laboratory is read by itself." } }
            fieldset { legend { "One row of the file is" }
                @for (value, words) in [("results", "one result"), ("results-wide", "one bottle, with analytes across as “Pb (ng/L)”")] {
                    p { label { input type="radio" name="layout" value=(value) checked[filled.get("layout") == value]; " " (words) } }
                }
            }
            fieldset { legend { "The bottle" } @for f in BOTTLE { (field(f, a.seen, filled)) } }
            fieldset { legend { "The result, where a row is one result" } @for f in LONG { (field(f, a.seen, filled)) } }
            fieldset { legend { "Of every result" } @for f in COMMON { (field(f, a.seen, filled)) } }
            fieldset { legend { "What stands in a value’s cell beside numbers" }
                @for (n, (_, words, _)) in WORDS.iter().enumerate() {
                    div.field { label for=(format!("w{n}")) { (words) }
                        select #(format!("w{n}")) name=(format!("w{n}")) {
                            option value="" { "does not occur; if it does, the file is refused" }
                            @for (m, means) in MEANINGS { option value=(m) selected[filled.get(&format!("w{n}")) == *m] { (means) } }
                        } }
                }
            }
            p { label { input type="checkbox" name="others" value="ignore" checked[filled.get("others") == "ignore"]; " Leave all other columns of the file" } }
            button type="submit" { "Save and look again" }
        }
    };
    vec![
        html! { h1 { "Which column is what?" } @if let Some(t) = &a.seen.text_fault { p.caution { (t) } } }.into(),
        table.into(),
        form.into(),
    ]
}

fn field(Field(name, words, needed, constant): &Field, seen: &Look, filled: &Filled) -> Markup {
    let (id, fixed) = (format!("c.{name}"), format!("k.{name}"));
    let chosen = filled.get(&id);
    html! {
        div.field.pair {
            label for=(id) { (words) @if *needed { span.needed { " needed" } } }
            select #(id) name=(id) {
                option value="" { "– not in the file –" }
                @for h in &seen.headings { option value=(h) selected[h == chosen] { (h) } }
            }
            @if *constant {
                label.inner for=(fixed) { "or for every row" }
                input #(fixed) name=(fixed) value=(filled.get(&fixed)) size="12";
            }
        }
    }
}

/// The mapping as text. A quoted text of JSON is one of TOML too, for what can stand in a heading.
fn toml(filled: &Filled) -> String {
    let quoted = |t: &str| serde_json::to_string(t).unwrap_or_else(|_| "\"\"".into());
    let layout = if filled.get("layout") == "results-wide" { "results-wide" } else { "results" };
    let mut out = format!(
        "name = {}\nabout = \"Made on the screen.\"\ntarget = \"{layout}\"\nnegative = \"value\"\n",
        quoted(filled.get("name").trim())
    );
    if filled.get("others") == "ignore" {
        out += "others = \"ignore\"\n";
    }
    let fields: Vec<&Field> = if layout == "results" {
        BOTTLE.iter().chain(LONG).chain(COMMON).collect()
    } else {
        BOTTLE.iter().chain(COMMON).collect()
    };
    for table in ["bottle", "well", "result"] {
        let mut lines = String::new();
        for Field(name, ..) in &fields {
            let Some(column) = name.strip_prefix(&format!("{table}.")) else { continue };
            let (heading, constant) = (filled.get(&format!("c.{name}")), filled.get(&format!("k.{name}")).trim());
            if !heading.is_empty() {
                lines += &format!("{column} = {}\n", quoted(heading));
            } else if !constant.is_empty() {
                lines += &format!("{column} = {{ constant = {} }}\n", quoted(constant));
            } else if *name == "bottle.kind" && !filled.get("c.bottle.filled_at").is_empty() {
                lines += "kind = { constant = \"sample\" }\n";
            }
        }
        if !lines.is_empty() {
            out += &format!("\n[columns.{table}]\n{lines}");
        }
    }
    if layout == "results-wide" {
        out += "\n[wide]\npattern = \"{analyte} ({unit})\"\n";
    }
    let words = |out: &mut String| {
        for (n, (word, ..)) in WORDS.iter().enumerate() {
            let meaning = filled.get(&format!("w{n}"));
            if MEANINGS.iter().any(|(m, _)| *m == meaning) {
                *out += &format!("{} = \"{meaning}\"\n", quoted(word));
            }
        }
    };
    out += "\n[words]\n";
    words(&mut out);
    if !filled.get("c.result.remark").is_empty() {
        out += "\n[remarks]\n";
        let mut remarks = String::new();
        words(&mut remarks);
        // A remark that is empty leaves the value as it is.
        for line in remarks.lines().filter(|l| !l.starts_with("\"\"")) {
            out += line;
            out.push('\n');
        }
        out += "\"\" = \"value\"\n";
    }
    out
}

/// Saves the mapping, and chooses it for the file.
pub(crate) async fn save(
    State(app): State<Shared>,
    who: Who,
    Path((id, n)): Path<(String, usize)>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    let file = file(&app, &who, &id, n)?;
    once(&app, &who, &filled, async {
        let text = toml(&filled);
        let name = filled.get("name").trim().to_string();
        let sign = |c: char| c.is_alphanumeric() || "-_ ".contains(c);
        let plain = !name.is_empty() && name.chars().all(sign);
        let fault = match Mapping::parse(&text) {
            Err(e) => Some(e.to_string()),
            Ok(_) if !plain => {
                Some("The name of the mapping: found other signs, expected letters, digits, hyphens and spaces.".into())
            }
            Ok(_) => None,
        };
        if let Some(fault) = fault {
            let seen = look(&file.path)?;
            let asked = Asked { id: &id, n, file: &file, seen: &seen, fault: Some(&fault) };
            let pieces = pieces(&asked, &filled, &same_token(&filled));
            return Ok(Done::Again(body(&app, &who, Place::of("/runs", "Choose columns"), &pieces)));
        }
        let (person, at, kept) = (who.clone(), now(), name.clone());
        page::write(&app, move |store| {
            let body = serde_json::json!({ "mapping": kept });
            let info = ActInfo { kind: "mapping".into(), author: person.person, at, body };
            store.act::<_, StoreError>(&info, |act| act.keep_text("mapping", &kept, &text))
        })
        .await??;
        let upload = app.uploads.get(&id, &who)?;
        if let Some(f) = lock(&upload.files).get_mut(n) {
            f.mapping = Some(name);
        }
        Ok(Done::To(format!("/runs/bring-in/{id}")))
    })
    .await
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_text_is_a_mapping_whatever_the_headings_hold() {
        let filled = Filled(
            [
                ("name", "lab x"),
                ("layout", "results"),
                ("c.bottle.label", "Sample \"ID\"\n<b>"),
                ("c.result.analyte", "Parameter"),
                ("c.result.value", "Result"),
                ("k.result.unit", "ng/L"),
                ("k.result.fraction", "unfiltered"),
                ("c.result.remark", "Q"),
                ("w0", "below"),
                ("w2", "missing"),
                ("others", "ignore"),
            ]
            .map(|(a, b)| (a.to_string(), b.to_string()))
            .to_vec(),
        );
        let mapping = Mapping::parse(&toml(&filled)).unwrap();
        assert_eq!(mapping.name, "lab x");
        let wide = Filled(vec![
            ("name".into(), "w".into()),
            ("layout".into(), "results-wide".into()),
            ("c.bottle.label".into(), "bottle".into()),
            ("k.result.fraction".into(), "unfiltered".into()),
        ]);
        assert!(Mapping::parse(&toml(&wide)).is_ok(), "{}", toml(&wide));
    }
}
