//! A mapping made on the screen: which column of a laboratory's table is what. What the file tells by itself stands in the
//! form already (`intake::import::guess`); a person corrects it, and what is sent goes the way of the corrections at the
//! command line. It is saved in the programme under its name, as text that can be read and changed by hand later.

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
use intake::import::ImportError;
use intake::import::guess::{Guess, Place as From, guess};
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
    Field("result.u", "uncertainty", false, false),
    Field("result.detection_limit", "detection limit (NWG)", false, false),
    Field("result.quantification_limit", "quantification limit (BG)", false, false),
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
    ("below-quantification-limit", "below the quantification limit of its own column"),
    ("below-detection-limit", "below the detection limit of its own column"),
    ("missing", "nothing was reported"),
];

/// What an uncertainty may be.
const COVERAGES: &[(&str, &str)] =
    &[("k=1", "standard uncertainties"), ("k=2", "expanded by k = 2"), ("level=95 %", "half an interval of 95 %")];

/// In what uncertainties are.
const IN_WHAT: &[(&str, &str)] = &[("%", "in per cent of the value"), ("value", "in the unit of the value")];

/// A key of the file's form, in words, and what it can be; an empty list: a number or a text is typed.
struct Key(&'static str, &'static str, &'static [(&'static str, &'static str)]);

const YES: &[(&str, &str)] = &[("true", "yes"), ("false", "no")];

const FORM: &[Key] = &[
    Key("delimiter", "sign between cells", &[(";", ";"), (",", ","), ("tab", "tab"), ("|", "|")]),
    Key("decimal", "decimal sign", &[(",", "comma"), (".", "point")]),
    Key("thousands", "sign between groups of three digits", &[(".", "."), (",", ","), (" ", "blank"), ("'", "'")]),
    Key("encoding", "encoding", &[("utf-8", "UTF-8"), ("windows-1252", "Windows-1252")]),
    Key(
        "dates",
        "dates",
        &[
            ("year-month-day", "2026-07-15"),
            ("day-month-year", "15.07.2026 or 15/07/2026"),
            ("month-day-year", "07/15/2026"),
        ],
    ),
    Key("sheet", "sheet", &[]),
    Key("header_row", "row of the headings", &[]),
    Key("units_row", "row of the units", &[]),
    Key("methods_row", "row of the methods", &[]),
    Key("transposed", "parameters down, samples across", YES),
    Key("blocks", "several blocks, each with its own headings", YES),
    Key("hidden", "hidden rows and columns", &[("take", "belong to the table"), ("leave", "are left out")]),
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
    let seen = guess(&file.path, &[])?;
    let filled = first_guess(&file, &seen);
    let pieces =
        pieces(&Asked { id: &id, n, file: &file, seen: &seen, fault: None }, &filled, &token_field(&app, &who));
    respond(&app, &who, Place::of("/runs", "Choose columns"), &q, &pieces)
}

struct Asked<'a> {
    id: &'a str,
    n: usize,
    file: &'a UpFile,
    seen: &'a Guess,
    fault: Option<&'a str>,
}

/// The heading of a guessed field; of a date with its time the date's.
fn heading(place: Option<&From>) -> &str {
    match place {
        Some(From::Heading(h) | From::Both(h, _)) => h,
        _ => "",
    }
}

/// The form of a file as the guess writes it, key by key.
fn form_of(seen: &Guess) -> Vec<(String, String)> {
    let toml = seen.toml();
    let mut lines = toml.lines().skip_while(|l| *l != "[file]").skip(1).take_while(|l| !l.is_empty());
    let mut out = vec![];
    while let Some((key, value)) = lines.next().and_then(|l| l.split_once(" = ")) {
        let value = serde_json::from_str::<String>(value).unwrap_or_else(|_| value.to_string());
        out.push((format!("f.{key}"), value));
    }
    out
}

/// A form with what the file says by itself.
fn first_guess(file: &UpFile, seen: &Guess) -> Filled {
    let stem = file.name.rsplit_once('.').map_or(file.name.as_str(), |(s, _)| s);
    let layout = if seen.wide { "results-wide" } else { "results" };
    let mut out = vec![("name".to_string(), stem.to_lowercase().replace(' ', "-")), ("layout".into(), layout.into())];
    for Field(name, ..) in BOTTLE.iter().chain(LONG).chain(COMMON) {
        out.push((format!("c.{name}"), heading(seen.columns.get(*name)).to_string()));
    }
    for (word, meaning) in &seen.words {
        out.push((format!("m.{word}"), meaning.clone()));
    }
    for (heading, name, _) in &seen.analytes {
        out.push((format!("a.{heading}"), name.clone()));
    }
    out.extend(form_of(seen));
    Filled(out)
}

/// What the form says otherwise than the guess, as corrections to it.
fn corrections(filled: &Filled, seen: &Guess) -> Vec<String> {
    let mut out = form_corrections(filled);
    out.push(format!("name={}", filled.get("name").trim()));
    let layout = if filled.get("layout") == "results-wide" { "results-wide" } else { "results" };
    out.push(format!("layout={layout}"));
    for Field(name, ..) in BOTTLE.iter().chain(LONG).chain(COMMON) {
        let (chosen, constant) = (filled.get(&format!("c.{name}")), filled.get(&format!("k.{name}")).trim());
        let place = seen.columns.get(*name);
        if chosen.is_empty() && !constant.is_empty() {
            // Across there is no column of units: one stands for all that carry none.
            let key = if *name == "result.unit" && layout == "results-wide" { "value.unit" } else { name };
            out.push(format!("{key}={constant}"));
        } else if chosen != heading(place) {
            out.push(format!("{name}={chosen}"));
        }
    }
    // A bottle that the file describes is made by it, and needs its kind.
    let kind = ["c.bottle.kind", "k.bottle.kind"].iter().all(|k| filled.get(k).trim().is_empty());
    if kind && !filled.get("c.bottle.filled_at").is_empty() {
        out.push("bottle.kind=sample".into());
    }
    for (key, of) in [("u.coverage", "result.u"), ("pm.coverage", "plus_minus")] {
        if COVERAGES.iter().any(|(c, _)| *c == filled.get(key)) {
            out.push(format!("{of}.{}", filled.get(key)));
        }
    }
    if IN_WHAT.iter().any(|(u, _)| *u == filled.get("u.unit")) {
        out.push(format!("result.u.unit={}", filled.get("u.unit")));
    }
    for (field, value) in &filled.0 {
        if let Some(word) = field.strip_prefix("m.")
            && MEANINGS.iter().any(|(m, _)| m == value)
        {
            out.push(format!("words.{word}={value}"));
        }
        if let Some(heading) = field.strip_prefix("a.")
            && !value.trim().is_empty()
        {
            out.push(format!("analyte.{heading}={}", value.trim()));
        }
    }
    let word = filled.get("new.word").trim();
    if !word.is_empty() && MEANINGS.iter().any(|(m, _)| *m == filled.get("new.meaning")) {
        out.push(format!("words.{word}={}", filled.get("new.meaning")));
    }
    out
}

fn form_corrections(filled: &Filled) -> Vec<String> {
    let said = |Key(key, ..): &Key| {
        let value = filled.get(&format!("f.{key}"));
        // A blank is a sign between groups of digits, not nothing.
        (!value.is_empty()).then(|| format!("file.{key}={value}"))
    };
    FORM.iter().filter_map(said).collect()
}

fn options(all: &[(&str, &str)], chosen: &str, empty: &str) -> Markup {
    html! {
        option value="" { (empty) }
        @for (value, words) in all { option value=(value) selected[*value == chosen] { (words) } }
    }
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
            fieldset { legend { "The form of the file, as the file tells it" } @for key in FORM { (form_key(key, filled)) } }
            fieldset { legend { "One row of the file is" }
                @for (value, words) in [("results", "one result"), ("results-wide", "one bottle, with analytes across as “Pb (ng/L)”")] {
                    p { label { input type="radio" name="layout" value=(value) checked[filled.get("layout") == value]; " " (words) } }
                }
            }
            fieldset { legend { "The bottle" } @for f in BOTTLE { (field(f, a.seen, filled)) } }
            fieldset { legend { "The result, where a row is one result" } @for f in LONG { (field(f, a.seen, filled)) }
                div.field { label for="u.coverage" { "the uncertainties are" }
                    select id="u.coverage" name="u.coverage" { (options(COVERAGES, filled.get("u.coverage"), "as their heading says; if it does not, it is asked")) } }
                div.field { label for="u.unit" { "they stand" }
                    select id="u.unit" name="u.unit" { (options(IN_WHAT, filled.get("u.unit"), "as their heading says; if it does not, it is asked")) } }
                div.field { label for="pm.coverage" { "what stands behind ± in a cell is" }
                    select id="pm.coverage" name="pm.coverage" { (options(COVERAGES, filled.get("pm.coverage"), "does not occur; if it does, it is asked")) } }
            }
            @if !a.seen.analytes.is_empty() {
                fieldset { legend { "Analytes across" }
                    @for (heading, ..) in &a.seen.analytes {
                        @let id = format!("a.{heading}");
                        div.field { label for=(id) { (heading) } input #(id) name=(id) value=(filled.get(&id)) size="20"; }
                    }
                }
            }
            fieldset { legend { "Of every result" } @for f in COMMON { (field(f, a.seen, filled)) } }
            fieldset { legend { "What stands in a value’s cell beside numbers" }
                @for word in a.seen.words.keys() {
                    @let id = format!("m.{word}");
                    div.field { label for=(id) { @if word.is_empty() { "an empty cell" } @else { (word) } }
                        select #(id) name=(id) { (options(MEANINGS, filled.get(&id), "is refused")) } }
                }
                div.field.pair { label for="new.word" { "another word" }
                    input id="new.word" name="new.word" value=(filled.get("new.word")) size="12";
                    label.inner for="new.meaning" { "means" }
                    select id="new.meaning" name="new.meaning" { (options(MEANINGS, filled.get("new.meaning"), "–")) } }
            }
            button type="submit" { "Save and look again" }
        }
        @if !a.seen.ignore.is_empty() { p.quiet { "Columns that are left: " (a.seen.ignore.join(", ")) "." } }
    };
    let asked = html! {
        h1 { "Which column is what?" }
        @if a.fault.is_none() && !a.seen.questions.is_empty() {
            p.caution { "The file does not say:" }
            ul { @for q in &a.seen.questions { li { (q) } } }
        }
    };
    vec![asked.into(), table.into(), form.into()]
}

fn form_key(Key(key, words, values): &Key, filled: &Filled) -> Markup {
    let id = format!("f.{key}");
    let chosen = filled.get(&id);
    html! {
        div.field { label for=(id) { (words) }
            @if values.is_empty() { input #(id) name=(id) value=(chosen) size="12"; }
            @else { select #(id) name=(id) { (options(values, chosen, "as the file tells")) } }
        }
    }
}

fn field(Field(name, words, needed, constant): &Field, seen: &Guess, filled: &Filled) -> Markup {
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

/// The guess with what the form says, and why it is no mapping yet.
fn corrected(file: &UpFile, filled: &Filled) -> Result<(Guess, Option<String>), HttpError> {
    let refused = |e: &ImportError| matches!(e, ImportError::Mapping(_));
    let seen = match guess(&file.path, &form_corrections(filled)) {
        Ok(seen) => seen,
        Err(e) if refused(&e) => return Ok((guess(&file.path, &[])?, Some(e.to_string()))),
        Err(e) => return Err(e.into()),
    };
    match guess(&file.path, &corrections(filled, &seen)) {
        Err(e) if refused(&e) => Ok((seen, Some(e.to_string()))),
        Err(e) => Err(e.into()),
        Ok(seen) if !seen.questions.is_empty() => {
            let open = format!("The file does not say: {}", seen.questions.join("; "));
            Ok((seen, Some(open)))
        }
        Ok(seen) => {
            let fault = seen.mapping().err().map(|e| e.to_string());
            Ok((seen, fault))
        }
    }
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
        let name = filled.get("name").trim().to_string();
        let sign = |c: char| c.is_alphanumeric() || "-_ ".contains(c);
        let plain = !name.is_empty() && name.chars().all(sign);
        let (seen, fault) = corrected(&file, &filled)?;
        let fault = fault.or_else(|| {
            let words = "The name of the mapping: found other signs, expected letters, digits, hyphens and spaces.";
            (!plain).then(|| words.to_string())
        });
        if let Some(fault) = fault {
            let asked = Asked { id: &id, n, file: &file, seen: &seen, fault: Some(&fault) };
            let pieces = pieces(&asked, &filled, &same_token(&filled));
            return Ok(Done::Again(body(&app, &who, Place::of("/runs", "Choose columns"), &pieces)));
        }
        let text = seen.toml();
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

    fn filled(fields: &[(&str, &str)]) -> Filled {
        Filled(fields.iter().map(|(a, b)| ((*a).to_string(), (*b).to_string())).collect())
    }

    fn upload(folder: &tempfile::TempDir, text: &str) -> UpFile {
        let path = folder.path().join("x.csv");
        std::fs::write(&path, text).unwrap();
        UpFile { name: "x.csv".into(), path, bytes: 0, mapping: None, clock: String::new() }
    }

    #[test]
    fn the_text_is_a_mapping_whatever_the_headings_hold() {
        let folder = tempfile::tempdir().unwrap();
        let table = "\"Sample \"\"ID\"\"\n<b>\",Parameter,Result,Q\nA,Pb,1.5,<\n";
        let file = upload(&folder, table);
        let chosen = filled(&[
            ("name", "lab x"),
            ("layout", "results"),
            ("c.bottle.label", "Sample \"ID\"\n<b>"),
            ("c.result.analyte", "Parameter"),
            ("c.result.value", "Result"),
            ("k.result.unit", "ng/L"),
            ("k.result.fraction", "unfiltered"),
        ]);
        let (seen, fault) = corrected(&file, &chosen).unwrap();
        assert_eq!(fault, None, "{}", seen.toml());
        let mapping = seen.mapping().unwrap();
        assert_eq!(mapping.name, "lab x");
        assert_eq!(mapping.ignore, ["Q"]);
        let wide = upload(&folder, "bottle,Pb (ng/L)\nA,1\n");
        let chosen = filled(&[
            ("name", "w"),
            ("layout", "results-wide"),
            ("c.bottle.label", "bottle"),
            ("k.result.fraction", "unfiltered"),
        ]);
        let (seen, fault) = corrected(&wide, &chosen).unwrap();
        assert_eq!(fault, None, "{}", seen.toml());
    }

    #[test]
    fn what_the_file_does_not_say_is_asked_until_it_is_said() {
        let folder = tempfile::tempdir().unwrap();
        let file = upload(&folder, "Probe;Parameter;Messwert;Einheit;Messunsicherheit\nA;Blei;1,5;µg/l;0,2\n");
        let seen = guess(&file.path, &[]).unwrap();
        let mut form = first_guess(&file, &seen);
        assert_eq!((form.get("f.delimiter"), form.get("f.decimal")), (";", ","));
        assert_eq!(form.get("c.result.u"), "Messunsicherheit");
        assert!(corrected(&file, &form).unwrap().1.unwrap().contains("result.fraction"));
        form.0.push(("k.result.fraction".into(), "unfiltered".into()));
        assert!(corrected(&file, &form).unwrap().1.unwrap().contains("result.u.k"));
        form.0.push(("u.coverage".into(), "k=2".into()));
        assert!(corrected(&file, &form).unwrap().1.unwrap().contains("result.u.unit"));
        form.0.push(("u.unit".into(), "%".into()));
        let (seen, fault) = corrected(&file, &form).unwrap();
        assert_eq!(fault, None, "{}", seen.toml());
        assert_eq!(seen.mapping().unwrap().sources["result.u"].coverage, Some(2.0));
    }
}
