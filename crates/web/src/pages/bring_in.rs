//! Bringing in files: upload, how each is read, preview (`preview`) with equal faults together, then all or nothing.
//!
//! An upload lies in a folder of its own outside the record until it is taken in or two hours have passed. It is
//! written to disk as it comes; one that says it is too large is refused before its first byte.

use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Piece, Query, marked, respond};
use crate::forms::{Done, Filled, once, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Outcome};
use crate::lock::lock;
use crate::moment::now;
use crate::page::{self, Place};
use crate::pages::came_of;
use crate::pages::preview;
use crate::uploads::{UpFile, Upload};
use crate::written::{size, written};
use axum::Form;
use axum::extract::multipart::{Field, MultipartError};
use axum::extract::{Multipart, Path, Query as FromQuery, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::{IntoResponse, Redirect, Response};
use intake::import::look::fitting;
use intake::import::names::{Proposal, proposals};
use intake::import::{Agreed, Bundle, ImportError, Imported, Input, Mapping, SHIPPED, Target, find_mapping};
use maud::{Markup, html};
use message::{Spoken as _, count, web_files as says};
use programme::work;
use quantity::Check;
use record::store::{Filter, Store};
use std::collections::HashMap;
use std::sync::Mutex;
use std::time::Instant;
use tokio::io::AsyncWriteExt as _;

/// Bytes of an upload in all: some hundred times a year's laboratory files.
pub(crate) const MOST_BYTES: u64 = 256 << 20;

/// Files of one upload.
const MOST_FILES: usize = 100;

/// The form.
pub(crate) async fn form(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let most = says::FilesWhat { files: count(MOST_FILES), mib: i64::try_from(MOST_BYTES >> 20).unwrap_or(i64::MAX) };
    let body = html! {
        h1 { (says::Title.text()) }
        p { (says::What.text()) }
        form method="post" action="/runs/bring-in" enctype="multipart/form-data" {
            (token_field(&app, &who))
            div.field.drop {
                label for="files" { (says::Files.text()) }
                input #files type="file" name="file" multiple required aria-describedby="files-hint";
                p.hint #files-hint { (most.text()) }
            }
            div.field {
                label for="why" { (says::Why.text()) }
                input #why type="text" name="why" maxlength="500" aria-describedby="why-hint";
                p.hint #why-hint { (says::WhyWhat.text()) }
            }
            button type="submit" { (says::Look.text()) }
        }
        p.quiet { (says::HowKnown.text()) }
        p { a href="/templates" { (message::start::Templates.text()) } " " a href="/recipes" { (message::recipe::Title.text()) } }
    };
    let title = says::Title.text();
    respond(&app, &who, place(&who, &title), &q, &[body.into()])
}

fn place<'t>(who: &Who, title: &'t str) -> Place<'t> {
    Place::of("/runs", title).spoken(who)
}

/// Takes an upload to its folder.
pub(crate) async fn upload(
    State(app): State<Shared>,
    who: Who,
    headers: HeaderMap,
    parts: Multipart,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let said = headers.get(header::CONTENT_LENGTH).and_then(|l| l.to_str().ok()?.parse::<u64>().ok());
    if said.is_some_and(|n| n > MOST_BYTES + (1 << 20)) {
        return Err(too_large());
    }
    let (token, why, folder, files) = receive(&app, &who, parts).await?;
    let filled = Filled(vec![("token".into(), token)]);
    once(&app, &who, &filled, async {
        let upload = Upload {
            at: Instant::now(),
            person: who.person.clone(),
            why,
            files: Mutex::new(files),
            agreed: Mutex::default(),
            foreseen: Mutex::default(),
            _folder: folder,
        };
        let id = app.uploads.add(upload);
        let (found, asked) = (app.uploads.get(&id, &who)?, app.clone());
        page::write(&app, move |store| choose(store, &asked, &found)).await??;
        Ok(Done::To(format!("/runs/bring-in/{id}")))
    })
    .await
}

fn too_large() -> HttpError {
    let mib = i64::try_from(MOST_BYTES >> 20).unwrap_or(i64::MAX);
    HttpError::new(StatusCode::PAYLOAD_TOO_LARGE, says::TooLarge { mib }.text())
}

/// Writes the files as they come; the token must stand before the first of them. Comes back with the reason.
async fn receive(
    app: &Shared,
    who: &Who,
    mut parts: Multipart,
) -> Result<(String, String, tempfile::TempDir, Vec<UpFile>), HttpError> {
    let folder = app.private.folder()?;
    let (mut token, mut why, mut files, mut left) = (String::new(), String::new(), Vec::new(), MOST_BYTES);
    while let Some(mut part) = parts.next_field().await.map_err(|e| broken_off(&e))? {
        match part.name().unwrap_or_default() {
            "token" => {
                token = short(&mut part).await?;
                app.tokens.check(&token, &who.bound)?;
            }
            "why" => {
                app.tokens.check(&token, &who.bound)?;
                why = short(&mut part).await?;
            }
            "file" => {
                app.tokens.check(&token, &who.bound)?;
                let name = safe_name(part.file_name().unwrap_or_default());
                let Some(name) = name else { continue };
                if files.len() == MOST_FILES {
                    return Err(HttpError::refused(says::TooMany { n: count(MOST_FILES) }.text()));
                }
                // A folder for each: two chosen files may have the same name, which the record keeps as it is.
                let place = folder.path().join(files.len().to_string());
                std::fs::create_dir(&place)?;
                let path = place.join(&name);
                let mut file = tokio::fs::File::create(&path).await?;
                let mut bytes = 0;
                while let Some(chunk) = part.chunk().await.map_err(|e| broken_off(&e))? {
                    // Counted as it comes: what a request says of its own length need not be true.
                    left = left.checked_sub(chunk.len() as u64).ok_or_else(too_large)?;
                    bytes += chunk.len() as u64;
                    file.write_all(&chunk).await?;
                }
                file.flush().await?;
                files.push(UpFile { name, path, bytes, mapping: None, clock: String::new() });
            }
            _ => {}
        }
    }
    if files.is_empty() {
        return Err(HttpError::refused(says::NoFile.text()));
    }
    Ok((token, why, folder, files))
}

/// Longest token or reason, bytes.
const SHORT: usize = 16 * 1024;

/// A text beside the files: no more of it is held than a person writes.
async fn short(part: &mut Field<'_>) -> Result<String, HttpError> {
    let mut bytes = vec![];
    while let Some(chunk) = part.chunk().await.map_err(|e| broken_off(&e))? {
        if bytes.len() + chunk.len() > SHORT {
            return Err(too_large());
        }
        bytes.extend_from_slice(&chunk);
    }
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

fn broken_off(e: &MultipartError) -> HttpError {
    HttpError::refused(says::BrokeOff { why: e.to_string().into() }.text())
}

/// A name without folder, made of characters that a file may have; none where nothing is left.
fn safe_name(name: &str) -> Option<String> {
    let last = name.rsplit(['/', '\\']).next().unwrap_or_default();
    let clean: String = last.chars().filter(|c| !c.is_control()).take(150).collect();
    let clean = clean.trim().trim_start_matches('.').to_string();
    (!clean.is_empty()).then_some(clean)
}

/// All mappings: those saved in the programme first.
fn known(store: &Store) -> Result<Vec<Mapping>, HttpError> {
    let mut out = vec![];
    for k in store.kept_texts("mapping")? {
        out.extend(Mapping::parse(&k.toml).ok());
    }
    for (name, text) in SHIPPED {
        if out.iter().all(|m: &Mapping| m.name != *name) {
            out.extend(Mapping::parse(text).ok());
        }
    }
    Ok(out)
}

/// Chooses a mapping for each file where one reads it; a bundle that came along says so itself.
fn choose(store: &mut Store, _: &App, upload: &Upload) -> Result<(), HttpError> {
    let known = known(store)?;
    // The clock of one phone says nothing of the next.
    let unshifted: Vec<Mapping> = known.iter().filter(|m| m.clock.is_none()).cloned().collect();
    let mut files = lock(&upload.files).clone();
    let mut said: HashMap<String, String> = HashMap::new();
    files.retain(|f| {
        let bundle = f.name.to_lowercase().ends_with(".toml");
        if bundle
            && let Ok(text) = std::fs::read_to_string(&f.path)
            && let Ok(b) = Bundle::parse(&f.name, &text, std::path::Path::new(""))
        {
            said.extend(
                b.files.into_iter().filter_map(|(p, m)| Some((p.file_name()?.to_string_lossy().into_owned(), m))),
            );
            return false;
        }
        true
    });
    for f in &mut files {
        f.mapping = match said.get(&f.name) {
            Some(name) if known.iter().any(|m| m.name == *name) => Some(name.clone()),
            // A sheet with a fault is a sheet all the same: its fault is what one wants to read.
            _ if is_field_sheet(&f.path) => Some("field-sheet".into()),
            // So is a recipe.
            _ if f.name.to_lowercase().ends_with(".toml") => Some("recipe".into()),
            _ => fitting(store, &f.path, &unshifted)?,
        };
    }
    *lock(&upload.files) = files;
    Ok(())
}

/// Whether a file says that it is a field sheet.
fn is_field_sheet(path: &std::path::Path) -> bool {
    use std::io::Read as _;
    // Its name stands among the first words of the file, before the entries.
    let mut bytes = vec![];
    let read = std::fs::File::open(path).and_then(|f| f.take(64 << 10).read_to_end(&mut bytes));
    let said: &[u8] = b"limpid-field-sheet";
    read.is_ok() && bytes.first() == Some(&b'{') && bytes.windows(said.len()).any(|w| w == said)
}

/// What the chosen mappings make of the files, in the order in which they refer to each other.
fn inputs(store: &Store, upload: &Upload) -> Result<Vec<Input>, HttpError> {
    let mut out = vec![];
    for f in lock(&upload.files).iter() {
        if let Some(name) = &f.mapping {
            let mapping = find_mapping(store, name)?;
            out.push(Input { path: f.path.clone(), mapping: shifted(mapping, &f.clock)? });
        }
    }
    out.sort_by_key(|i| i.mapping.place());
    Ok(out)
}

/// The days of a field, where it holds a number that can be.
fn days(typed: &str) -> Option<f64> {
    // A century either way, as a mapping takes it.
    typed.trim().parse::<f64>().ok().filter(|d| d.abs() <= 40_000.0)
}

/// A mapping for a phone whose clock was wrong: under a name of its own, so that no other sheet is read by it. It is kept
/// with the file, and says by how many days.
fn shifted(mapping: Mapping, typed: &str) -> Result<Mapping, HttpError> {
    let Some(days) = days(typed).filter(|_| mapping.target == Target::FieldSheet && mapping.clock.is_none()) else {
        return Ok(mapping);
    };
    let name = format!("{}-clock-{days:+}", mapping.name);
    let own = format!("name = \"{}\"", mapping.name);
    let toml = mapping.toml.replacen(&own, &format!("name = \"{name}\""), 1);
    let toml = format!("{}\n\n[clock]\nadd_days = {days}\n", toml.trim_end());
    Mapping::parse(&toml).map_err(|e| HttpError::refused(e.to_string()))
}

/// What would be taken, and every fault.
pub(crate) async fn preview(
    State(app): State<Shared>,
    who: Who,
    Path(id): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let upload = app.uploads.get(&id, &who)?;
    let asked = upload.clone();
    // As a writer: a preview is an act that is dropped (`intake::import::preview`), and acts come one after another.
    let (seen, names, judged) = page::write(&app, move |store| {
        let inputs = inputs(store, &asked)?;
        let names: Vec<String> = known(store)?.into_iter().map(|m| m.name).collect();
        let judged = !store.list::<record::model::Verdict>(&Filter::all().limit(1))?.is_empty();
        let seen = if inputs.is_empty() {
            Imported::default()
        } else {
            let agreed = lock(&asked.agreed).clone();
            intake::import::preview_agreed(store, &inputs, &now(), (&asked.why, &agreed))?
        };
        Ok::<_, HttpError>((seen, names, judged))
    })
    .await??;
    let files = lock(&upload.files).clone();
    let whole = seen.faults.is_empty() && !files.is_empty() && files.iter().all(|f| f.mapping.is_some());
    let mut pieces: Vec<Piece> = vec![html! { h1 { (says::Preview.text()) } (summary(&seen, &files)) }.into()];
    pieces.push(html! { (preview::sums(&seen)) }.into());
    if whole {
        let foreseen = lock(&upload.foreseen).clone();
        pieces.push(take_form(&app, &who, &id, judged, foreseen.as_deref()).into());
    }
    if !seen.faults.is_empty() {
        pieces.push(preview::faults(&seen.faults).into());
    }
    let agreed = lock(&upload.agreed).clone();
    pieces.push(names_form(&app, &who, &id, &proposals(&seen.faults.shown), &agreed).into());
    pieces.push(how_read(&app, &who, &id, &files, &names, &seen).into());
    pieces.extend(preview::files(&seen));
    let title = says::Preview.text();
    respond(&app, &who, place(&who, &title), &q, &pieces)
}

fn summary(seen: &Imported, files: &[UpFile]) -> Markup {
    let lacking = files.iter().filter(|f| f.mapping.is_none()).count();
    html! {
        @if lacking > 0 { p.caution { (says::Lacking { n: count(lacking) }.text()) } }
        @if !seen.faults.is_empty() {
            div.fault role="alert" { p { strong { (says::NFaults { n: i64::try_from(seen.faults.total).unwrap_or(i64::MAX) }.text()) } ". " (says::FaultsStop.text()) } }
        } @else if lacking == 0 {
            p { (marked(quantity::Outcome::Met, &says::NoFaults.text())) ". " (says::AllCan.text()) }
        }
    }
}

/// Days that the fault of a phone's clock proposes.
fn proposed(seen: &Imported, file: &str) -> Option<String> {
    let of = |f: &&quantity::Finding| f.check == Check::FileClock && f.place.as_ref().is_some_and(|p| p.file == file);
    let fault = seen.faults.shown.iter().find(of)?;
    let said = fault.sentence.split_once("add_days = ").map_or("", |(_, rest)| rest);
    Some(said.chars().take_while(|c| c.is_ascii_digit() || *c == '-').collect())
}

/// For a field sheet: what the phone's clock was off by. It stands open where the times cannot be.
fn clock(n: usize, f: &UpFile, seen: &Imported) -> Markup {
    let fault = proposed(seen, &f.name);
    let unread = !f.clock.trim().is_empty() && days(&f.clock).is_none();
    let value = if f.clock.is_empty() { fault.clone().unwrap_or_default() } else { f.clock.clone() };
    html! {
        details open[fault.is_some() || !f.clock.is_empty()] { summary { (says::Clock.text()) }
            label.inner for=(format!("clock{n}")) { (says::ClockDays.text()) } " "
            input #(format!("clock{n}")) name=(format!("clock{n}")) value=(value) size="8" inputmode="decimal"
                aria-invalid=[unread.then_some("true")] aria-describedby=(format!("clock{n}-hint"));
            @if unread { p.why { (says::ClockWrong { found: f.clock.as_str().into() }.text()) } }
            p.hint #(format!("clock{n}-hint")) { (says::ClockWhat.text()) }
        }
    }
}

fn how_read(app: &App, who: &Who, id: &str, files: &[UpFile], names: &[String], seen: &Imported) -> Markup {
    html! {
        h2 #how { (says::HowRead.text()) }
        form method="post" action=(format!("/runs/bring-in/{id}/mappings")) {
            (token_field(app, who))
            @for (n, f) in files.iter().enumerate() {
                div.field {
                    label for=(format!("m{n}")) { (written(&f.name)) " " small { (size(i64::try_from(f.bytes).unwrap_or(i64::MAX))) } }
                    select #(format!("m{n}")) name=(format!("m{n}")) {
                        option value="" { (says::NotChosen.text()) }
                        @for name in names { option.as-written value=(name) selected[f.mapping.as_ref() == Some(name)] { (name) } }
                    }
                    " " a href=(format!("/runs/bring-in/{id}/{n}/columns")) { (says::Columns.text()) }
                    @if f.mapping.as_deref().is_some_and(|m| m.starts_with("field-sheet")) { (clock(n, f, seen)) }
                }
            }
            button.second type="submit" { (says::Again.text()) }
        }
    }
}

/// Names that may be slips of names on record: for each which is meant, or that it is new. What was said stands under it.
fn names_form(app: &App, who: &Who, id: &str, proposed: &[Proposal], agreed: &Agreed) -> Markup {
    let to = format!("/runs/bring-in/{id}/names");
    html! {
        @if !proposed.is_empty() {
            h2 #names { (says::Names.text()) }
            p { (says::NamesWhat.text()) }
            form method="post" action=(to) {
                (token_field(app, who))
                @for (n, p) in proposed.iter().enumerate() {
                    input type="hidden" name=(format!("written{n}")) value=(p.written);
                    div.field {
                        label for=(format!("meant{n}")) { (written(&p.written)) }
                        select #(format!("meant{n}")) name=(format!("meant{n}")) {
                            option value="" { (says::Undecided.text()) }
                            @for near in &p.near { option.as-written value=(format!("={near}")) { (says::Is { name: near.as_str().into() }.text()) } }
                            @if p.may_be_new { option value="new" { (says::IsNew.text()) } }
                        }
                    }
                }
                button.second type="submit" { (says::NamesAgain.text()) }
            }
        }
        @if *agreed != Agreed::default() {
            h2 { (says::Said.text()) }
            ul.as-written {
                @for (written, meant) in &agreed.take { li { (says::SaidRead { written: written.as_str().into(), meant: meant.as_str().into() }.text()) } }
                @for name in &agreed.new { li { (says::SaidNew { written: name.as_str().into() }.text()) } }
            }
            form method="post" action=(to) {
                (token_field(app, who))
                input type="hidden" name="forget" value="1";
                button.second type="submit" { (says::Forget.text()) }
            }
        }
    }
}

/// Keeps what the person said of names.
pub(crate) async fn names(
    State(app): State<Shared>,
    who: Who,
    Path(id): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let upload = app.uploads.get(&id, &who)?;
    let mut agreed = lock(&upload.agreed);
    if !filled.get("forget").is_empty() {
        *agreed = Agreed::default();
    }
    for (n, written) in (0..).map(|n| (n, filled.get(&format!("written{n}")))).take_while(|(_, w)| !w.is_empty()) {
        let written = written.to_string();
        match filled.get(&format!("meant{n}")) {
            "new" => agreed.new.push(written),
            meant => {
                if let Some(meant) = meant.strip_prefix('=') {
                    agreed.take.push((written, meant.to_string()));
                }
            }
        }
    }
    Ok(Redirect::to(&format!("/runs/bring-in/{id}")).into_response())
}

/// Taking it all in; and, where verdicts stand on record, working out beforehand which of them would change.
fn take_form(app: &App, who: &Who, id: &str, judged: bool, foreseen: Option<&[String]>) -> Markup {
    html! {
        form method="post" action=(format!("/runs/bring-in/{id}/take")) {
            (token_field(app, who))
            button type="submit" { (says::Take.text()) }
            p.hint { (says::TakeWhat.text()) }
        }
        @match foreseen {
            _ if !judged => { p.quiet { (says::NoVerdictsYet.text()) } }
            Some([]) => { p role="status" { (says::ForeseenNone.text()) } }
            Some(lines) => { div role="status" { p { strong { (says::Foreseen { n: count(lines.len()) }.text()) } } ul.as-written { @for line in lines { li { (line) } } } } }
            None => {
                form method="post" action=(format!("/runs/bring-in/{id}/foresee")) {
                    (token_field(app, who))
                    button.second type="submit" { (says::Foresee.text()) }
                    p.hint { (says::ForeseeWhat.text()) }
                }
            }
        }
    }
}

/// Works out on a copy which verdicts would change: the very same import and everything that follows from it.
pub(crate) async fn foresee(
    State(app): State<Shared>,
    who: Who,
    Path(id): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (upload, person, key) = (app.uploads.get(&id, &who)?, who.clone(), id.clone());
        let to = jobs::begin(&app, &who, &says::Foreseeing.text(), move |app, job| {
            job.step(&says::Foreseeing.text())?;
            let folder = app.private.folder()?;
            let copy = folder.path().join("copy.sqlite");
            app.record.read_now(|store| store.backup(&copy))?;
            let mut store = Store::open(&copy)?;
            let inputs = inputs(&store, &upload)?;
            let watch: record::by::Watch = &|words| job.goes_on(words);
            let agreed = lock(&upload.agreed).clone();
            let at = now();
            let (_, outcome) = work::take_in_agreed(
                &mut store,
                &inputs,
                person.by(&at),
                (upload.why.as_str(), &agreed),
                watch,
                |_| {},
            )?;
            *lock(&upload.foreseen) = Some(came_of::turned(&outcome?.turned));
            Ok(Outcome { to: format!("/runs/bring-in/{key}"), told: vec![] })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// Keeps the choice of mappings.
pub(crate) async fn mappings(
    State(app): State<Shared>,
    who: Who,
    Path(id): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let upload = app.uploads.get(&id, &who)?;
    for (n, f) in lock(&upload.files).iter_mut().enumerate() {
        let name = filled.get(&format!("m{n}"));
        f.mapping = (!name.is_empty()).then(|| name.to_string());
        f.clock = filled.get(&format!("clock{n}")).trim().to_string();
    }
    // What was worked out was of files read otherwise.
    *lock(&upload.foreseen) = None;
    Ok(Redirect::to(&format!("/runs/bring-in/{id}")).into_response())
}

/// Takes everything in, and derives anew.
pub(crate) async fn take(
    State(app): State<Shared>,
    who: Who,
    Path(id): Path<String>,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (upload, person, key) = (app.uploads.get(&id, &who)?, who.clone(), id.clone());
        let to =
            jobs::begin(&app, &who, &says::Taking.text(), move |app, job| {
                job.step(&says::StepTaking.text())?;
                let at = now();
                let (taken, outcome, judged) = app.record.write_now(|store| {
                    let judged = !store.list::<record::model::Verdict>(&Filter::all().limit(1))?.is_empty();
                    let inputs = inputs(store, &upload)?;
                    let begin = |taken: &Imported| {
                        if taken.head.is_some() {
                            job.begins(&says::StepDeriving.text());
                        }
                    };
                    let refused = |e| match e {
                        ImportError::Refused(f) => {
                            HttpError::refused(says::Refused { n: i64::try_from(f.total).unwrap_or(i64::MAX) }.text())
                        }
                        other => other.into(),
                    };
                    let watch: record::by::Watch = &|words| job.goes_on(words);
                    let agreed = lock(&upload.agreed).clone();
                    let said = (upload.why.as_str(), &agreed);
                    let (taken, outcome) =
                        work::take_in_agreed(store, &inputs, person.by(&at), said, watch, begin).map_err(refused)?;
                    Ok::<_, HttpError>((taken, outcome, judged))
                })?;
                let mut lines: Vec<String> = taken.files.iter().map(preview::in_words).collect();
                let read_as = taken.files.iter().flat_map(|f| &f.taken_as);
                lines.extend(read_as.map(|t| {
                    says::SaidRead { written: t.written.as_str().into(), meant: t.taken.as_str().into() }.text()
                }));
                if taken.head.is_some() {
                    lines.extend(came_of::followed(outcome, judged)?);
                }
                // Only now: after a refusal the upload still waits, and may be read by another mapping.
                app.uploads.remove(&key);
                Ok(Outcome { to: "/results".into(), told: lines })
            })
            .await?;
        Ok(Done::To(to))
    })
    .await
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_name_leads_nowhere_else() {
        let check = |name: &str, out: Option<&str>| assert_eq!(super::safe_name(name).as_deref(), out, "{name}");
        check("../../etc/passwd", Some("passwd"));
        check("C:\\data\\run.csv", Some("run.csv"));
        check("..", None);
        check("", None);
        check("<b>x</b>.csv", Some("b>.csv"));
        check("a\u{0}b\n.csv", Some("ab.csv"));
    }
}
