//! The columns of a laboratory's table, chosen on the screen. What the file tells by itself stands in the form already, each
//! guess with its proof (`intake::import::guess`); a person corrects it, and what is sent goes the way of the corrections
//! at the command line. Before it is kept the first rows are shown as the sentences that they would become. It is kept in
//! the programme under the laboratory's name, as text that can be read and changed by hand later.

use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, body, respond};
use crate::forms::{Done, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::lock::lock;
use crate::moment::now;
use crate::page::{self, Place};
use crate::pages::mapping_parts as parts;
use crate::uploads::UpFile;
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use intake::import::guess::{Guess, Place as From, guess};
use intake::import::{ImportError, Input, RowRead};
use maud::{Markup, html};
use message::{Spoken as _, older, web_columns as says, web_files};
use parts::{BOTTLE, COMMON, COVERAGES, FORM, Field, IN_WHAT, Key, LIMITS_K, LONG, MEANINGS};
use record::store::{ActInfo, StoreError};

fn file(app: &App, who: &Who, id: &str, n: usize) -> Result<UpFile, HttpError> {
    let upload = app.uploads.get(id, who)?;
    let files = lock(&upload.files);
    files.get(n).cloned().ok_or_else(|| HttpError::absent(web_files::NoSuchFile.text()))
}

fn place<'t>(who: &Who, title: &'t str) -> Place<'t> {
    Place::of("/runs", title).spoken(who)
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
    let look = look(&app, &file, &seen).await?;
    let asked = Asked { id: &id, n, file: &file, seen: &seen, fault: None, look: &look };
    let pieces = pieces(&asked, &filled, &token_field(&app, &who));
    respond(&app, &who, place(&who, &says::Title.text()), &q, &pieces)
}

/// What the form is of.
pub(crate) struct Asked<'a> {
    pub id: &'a str,
    pub n: usize,
    pub file: &'a UpFile,
    pub seen: &'a Guess,
    pub fault: Option<&'a str>,
    /// The first rows as they would be kept; none while a question is open.
    pub look: &'a [RowRead],
}

/// The first rows as the mapping would keep them: an import that is dropped.
async fn look(app: &Shared, file: &UpFile, seen: &Guess) -> Result<Vec<RowRead>, HttpError> {
    let Some(mapping) = seen.mapping().ok().filter(|_| seen.questions.is_empty()) else { return Ok(vec![]) };
    let input = Input { path: file.path.clone(), mapping };
    let seen = page::write(app, move |store| intake::import::preview(store, &[input], &now())).await?;
    match seen {
        Ok(mut seen) => Ok(seen.files.pop().map(|f| f.shown).unwrap_or_default()),
        Err(ImportError::Mapping(_) | ImportError::Refused(_)) => Ok(vec![]),
        Err(other) => Err(other.into()),
    }
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
    // By the laboratory's own name where the file has it.
    let laboratory = match seen.columns.get("result.laboratory") {
        Some(From::Heading(h)) => seen.headings.iter().position(|x| x == h),
        _ => None,
    };
    let named = laboratory.and_then(|at| seen.rows.first()?.get(at)).filter(|name| !name.trim().is_empty());
    let stem = named.map_or(stem, String::as_str);
    let layout = if seen.wide { "results-wide" } else { "results" };
    let name: String = stem.chars().map(|c| if c.is_alphanumeric() || "-_ ".contains(c) { c } else { '-' }).collect();
    let mut out = vec![
        ("name".to_string(), if named.is_some() { name } else { name.to_lowercase().replace(' ', "-") }),
        ("layout".into(), layout.into()),
    ];
    for Field(name, ..) in BOTTLE.iter().chain(LONG).chain(COMMON) {
        out.push((format!("c.{name}"), heading(seen.columns.get(*name)).to_string()));
    }
    for (word, meaning) in &seen.words {
        out.push((format!("m.{word}"), meaning.clone()));
    }
    for (heading, name, _) in &seen.analytes {
        out.push((format!("a.{heading}"), name.clone()));
    }
    for (written, name) in &seen.names {
        out.push((format!("a.{written}"), name.clone()));
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
    out.extend(uncertainties(filled));
    for (field, value) in &filled.0 {
        if let Some(word) = field.strip_prefix("m.")
            && MEANINGS.contains(&value.as_str())
        {
            out.push(format!("words.{word}={value}"));
        }
        if let Some(heading) = field.strip_prefix("a.")
            && !value.trim().is_empty()
            && value.trim() != heading
        {
            out.push(format!("analyte.{heading}={}", value.trim()));
        }
    }
    let word = filled.get("new.word").trim();
    if !word.is_empty() && MEANINGS.contains(&filled.get("new.meaning")) {
        out.push(format!("words.{word}={}", filled.get("new.meaning")));
    }
    out
}

/// What ± is: one answer that holds both what it is and in what it stands, or the two by themselves.
fn uncertainties(filled: &Filled) -> Vec<String> {
    let mut out = vec![];
    let (means, unit) = filled.get("u.means").split_once('|').unwrap_or_default();
    let given = |one: &str, other: &str| if one.is_empty() { filled.get(other).to_string() } else { one.to_string() };
    let (means, unit) = (given(means, "u.coverage"), given(unit, "u.unit"));
    let known = |c: &str| COVERAGES.contains(&c) || c == LIMITS_K;
    let k = filled.get("u.k").trim().replace(',', ".").parse::<f64>().ok().filter(|k| k.is_finite() && *k > 0.0);
    match k {
        Some(k) if means == "k=2" => out.push(format!("result.u.k={k}")),
        _ if known(&means) => out.push(format!("result.u.{means}")),
        _ => {}
    }
    if IN_WHAT.contains(&unit.as_str()) {
        out.push(format!("result.u.unit={unit}"));
    }
    if known(filled.get("pm.coverage")) {
        out.push(format!("plus_minus.{}", filled.get("pm.coverage")));
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

fn pieces(a: &Asked, filled: &Filled, token: &Markup) -> Vec<Piece> {
    let to = format!("/runs/bring-in/{}/{}/columns", a.id, a.n);
    let name_what = says::NameWhat.text();
    let body = html! {
        h1 { (says::Title.text()) }
        p { (says::What.text()) " " (crate::written::written(&a.file.name)) }
        @if let Some(fault) = a.fault { div.fault role="alert" { p { strong { (says::NotSaved.text()) } " " span.as-written { (fault) } } } }
        @else if !a.seen.questions.is_empty() {
            div.caution { p { (says::Asked.text()) } ul { @for q in &a.seen.questions { li.as-written { (message::number::capital(&q.says.text())) } } } }
        }
        form.columns method="post" action=(to) {
            (token)
            (parts::columns(a.seen))
            (parts::form(a.seen, filled))
            (parts::layout(filled))
            fieldset { legend { (says::Bottle.text()) } @for f in BOTTLE { (parts::field(f, a.seen, filled)) } }
            fieldset { legend { (says::Result.text()) } @for f in LONG { (parts::field(f, a.seen, filled)) } }
            (parts::uncertainty(a.seen, filled))
            (parts::names(a.seen, filled))
            fieldset { legend { (says::Every.text()) } @for f in COMMON { (parts::field(f, a.seen, filled)) } }
            (parts::words(a.seen, filled))
            (parts::last_look(a.look))
            div.field { label for="name" { (says::Name.text()) " " span.needed { (says::Needed.text()) } }
                input #name name="name" value=(filled.get("name")) required aria-describedby="name-hint";
                p.hint #name-hint { (name_what) } }
            p.acts {
                button.second type="submit" name="look" value="1" { (says::ReadAgain.text()) } " "
                button type="submit" { (says::Keep.text()) }
            }
        }
    };
    vec![body.into()]
}

/// The guess with what the form says, and why it is no mapping yet.
fn corrected(file: &UpFile, filled: &Filled) -> Result<(Guess, Option<String>), HttpError> {
    let refused = |e: &ImportError| matches!(e, ImportError::Mapping(_));
    let seen = match guess(&file.path, &form_corrections(filled)) {
        Ok(seen) => seen,
        Err(e) if refused(&e) => return Ok((guess(&file.path, &[])?, Some(older(&e.to_string())))),
        Err(e) => return Err(e.into()),
    };
    match guess(&file.path, &corrections(filled, &seen)) {
        Err(e) if refused(&e) => Ok((seen, Some(older(&e.to_string())))),
        Err(e) => Err(e.into()),
        Ok(seen) if !seen.questions.is_empty() => {
            let all: Vec<String> = seen.questions.iter().map(|q| q.says.text()).collect();
            let open = format!("{} {}", says::Asked.text(), all.join("; "));
            Ok((seen, Some(open)))
        }
        Ok(seen) => {
            let fault = seen.mapping().err().map(|e| older(&e.to_string()));
            Ok((seen, fault))
        }
    }
}

/// Reads the file once more as the form says; keeps the mapping and chooses it for the file, where that was asked.
pub(crate) async fn save(
    State(app): State<Shared>,
    who: Who,
    Path((id, n)): Path<(String, usize)>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    let file = file(&app, &who, &id, n)?;
    let (seen, fault) = corrected(&file, &filled)?;
    if !filled.get("look").is_empty() {
        app.tokens.check(filled.get("token"), &who.bound)?;
        let page = again(&app, &who, (&id, n, &file), (&seen, fault.as_deref()), &filled).await?;
        return Ok(page.into_response());
    }
    once(&app, &who, &filled, async {
        let name = filled.get("name").trim().to_string();
        let sign = |c: char| c.is_alphanumeric() || "-_ ".contains(c);
        let plain = !name.is_empty() && name.chars().all(sign);
        let fault = fault.or_else(|| (!plain).then(|| says::NameWrong.text()));
        if let Some(fault) = fault {
            return Ok(Done::Again(again(&app, &who, (&id, n, &file), (&seen, Some(&fault)), &filled).await?));
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
        *lock(&upload.foreseen) = None;
        Ok(Done::To(format!("/runs/bring-in/{id}")))
    })
    .await
}

/// The form once more, with what was typed and what came of it.
async fn again(
    app: &Shared,
    who: &Who,
    (id, n, file): (&str, usize, &UpFile),
    (seen, fault): (&Guess, Option<&str>),
    filled: &Filled,
) -> Result<Markup, HttpError> {
    let look = if fault.is_none() { look(app, file, seen).await? } else { vec![] };
    let asked = Asked { id, n, file, seen, fault, look: &look };
    let who = &Who { here: format!("/runs/bring-in/{id}/{n}/columns"), ..who.clone() };
    Ok(body(app, who, place(who, &says::Title.text()), &pieces(&asked, filled, &same_token(filled))))
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
        assert!(corrected(&file, &form).unwrap().1.unwrap().contains(&says::AskFraction.text()));
        form.0.push(("k.result.fraction".into(), "unfiltered".into()));
        assert!(
            corrected(&file, &form)
                .unwrap()
                .1
                .unwrap()
                .contains(&says::AskCoverage { heading: "\"Messunsicherheit\"".into() }.text())
        );
        form.0.push(("u.coverage".into(), "k=2".into()));
        assert!(
            corrected(&file, &form)
                .unwrap()
                .1
                .unwrap()
                .contains(&says::AskUUnit { heading: "\"Messunsicherheit\"".into() }.text())
        );
        form.0.push(("u.unit".into(), "%".into()));
        let (seen, fault) = corrected(&file, &form).unwrap();
        assert_eq!(fault, None, "{}", seen.toml());
        assert_eq!(seen.mapping().unwrap().sources["result.u"].coverage, Some(2.0));
    }

    /// One answer says both; limits that are never exceeded are a rectangle, whose half width over its standard
    /// uncertainty is the square root of three (JCGM 100:2008, 4.3.7).
    #[test]
    fn one_answer_says_what_plus_minus_is() {
        let folder = tempfile::tempdir().unwrap();
        let file = upload(
            &folder,
            "Probe;Parameter;Messwert;Einheit;Messunsicherheit;Fraktion\nA;Blei;1,50;µg/l;0,20;unfiltered\n",
        );
        let with = |means: &str| {
            let mut form = first_guess(&file, &guess(&file.path, &[]).unwrap());
            form.0.push(("u.means".into(), means.into()));
            let (seen, fault) = corrected(&file, &form).unwrap();
            assert_eq!(fault, None, "{}", seen.toml());
            seen.mapping().unwrap().sources["result.u"].coverage
        };
        assert_eq!(with("k=1|value"), Some(1.0));
        assert_eq!(with("k=2|%"), Some(2.0));
        let limits = with(&format!("{LIMITS_K}|value")).unwrap();
        assert!((limits - 3f64.sqrt()).abs() < 1e-12, "{limits}");
    }
}
