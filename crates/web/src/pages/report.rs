//! The report: for whom, of what, in which language; its first page as it would print, and what would be missing; then as
//! PDF and as one web page. The open data package, a supplement and a copy of the programme likewise: made on demand from
//! the record as it stands, and kept on disk until the program ends.

use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::random;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, body, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::jobs::{self, Outcome};
use crate::lock::lock;
use crate::moment::now;
use crate::page::{self, Place};
use crate::pages::report_preview::{self, Missing};
use crate::written::{moment, size};
use ::document::content::Content;
use ::report::Scope;

use crate::documents::Made;
use axum::Form;
use axum::extract::{Path as Segments, Query as FromQuery, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use message::{Message, Spoken as _, web_record as says};
use quantity::Lang;
use std::fs::File;
use std::io::{BufWriter, Write as _};
use std::path::Path;
use std::sync::Arc;

/// Reports and packages kept of one person, and of all: the oldest go.
const KEPT: usize = 6;
const KEPT_OF_ALL: usize = 60;

/// The page.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    // From the address itself: several wells bear one name there.
    let query = who.here.split_once('?').map_or("", |(_, query)| query);
    let mut filled = Filled(form_urlencoded::parse(query.as_bytes()).into_owned().collect());
    if filled.get("lang").is_empty() {
        filled.0.push(("lang".into(), message::language().code().into()));
    }
    let token = token_field(&app, &who);
    let pieces = if filled.get("show").is_empty() {
        pieces(&app, &who, Asking { filled: &filled, faults: &[] }, &token).await?
    } else {
        looked_at(&app, &who, &filled, &token).await?
    };
    respond(&app, &who, place(&who, &says::Report.text()), &q, &pieces)
}

fn place<'t>(who: &Who, title: &'t str) -> Place<'t> {
    Place::of("/report", title).spoken(who)
}

/// The form, and what was made.
async fn pieces(app: &Shared, who: &Who, asking: Asking<'_>, token: &Markup) -> Result<Vec<Piece>, HttpError> {
    let known = known(app).await?;
    Ok(vec![head(who, asking, &known, token).into(), made(app, &known.head)])
}

/// The form with the first page of what it asks for; or what is wrong with it.
async fn looked_at(app: &Shared, who: &Who, filled: &Filled, token: &Markup) -> Result<Vec<Piece>, HttpError> {
    let wanted = match wanted(filled, who) {
        Ok(wanted) => wanted,
        Err(faults) => return pieces(app, who, Asking { filled, faults: &faults }, token).await,
    };
    let known = known(app).await?;
    let mut out: Vec<Piece> = vec![head(who, Asking { filled, faults: &[] }, &known, token).into()];
    let (name, asked) = (app.name.clone(), wanted.clone());
    let seen = page::read(app, move |store, _| {
        let missing = Missing::of(store, &asked)?;
        let content = match asked.what {
            "full" | "leaflet" | "authority" => {
                Some(message::with_language(asked.lang, || content(store, &name, &asked, &|_| true))?)
            }
            _ => None,
        };
        Ok((missing, content))
    })
    .await?;
    out.push(seen.0.markup().into());
    out.extend(report_preview::first_page(seen.1, wanted.lang));
    out.push(made(app, &known.head));
    Ok(out)
}

/// What the form offers.
struct Known {
    head: String,
    trips: Vec<String>,
    wells: Vec<String>,
}

async fn known(app: &Shared) -> Result<Known, HttpError> {
    page::read(app, |store, _| {
        let mut trips = store.trips()?;
        trips.sort_by(|a, b| b.starts.cmp(&a.starts));
        Ok(Known {
            head: store.head()?.map_or(String::new(), |h| h.to_string()),
            trips: trips.into_iter().map(|t| t.name).collect(),
            wells: store.wells()?.into_iter().map(|w| w.name).collect(),
        })
    })
    .await
}

fn made(app: &App, head: &str) -> Piece {
    let made: Vec<Arc<Made>> = lock(&app.documents.0).iter().cloned().collect();
    let row = |m: &Arc<Made>| {
        let mut files = td(String::new());
        files.shown = html! { @for (name, _) in &m.files {
            a href=(format!("/report/file/{}/{name}", m.id)) { (label(name)) } " "
        } };
        let bytes: u64 = m.files.iter().map(|f| f.1).sum();
        let state = if m.head == head { says::AsItStands.text() } else { says::ChangedSince.text() };
        let beginning: String = m.head.chars().take(12).collect();
        vec![
            td(m.what.clone()),
            files,
            td(moment(&m.at)),
            td(m.person.clone()),
            td(size(i64::try_from(bytes).unwrap_or(i64::MAX))),
            td(state),
            Td { shown: html! { code { (beginning) } }, ..td(beginning.clone()) },
        ]
    };
    let rows: Vec<Vec<Td>> = made.iter().map(row).collect();
    if rows.is_empty() {
        return html! { p.quiet { (says::MadeNothing.text()) } }.into();
    }
    let listing = Listing {
        caption: says::Made.text(),
        headings: [says::MadeWhat.text(), says::MadeFiles.text(), says::MadeWhen.text(), says::MadeBy.text()]
            .into_iter()
            .chain([says::Size.text(), says::State.text(), says::HashBegins.text()])
            .collect(),
        rows,
        ..Listing::default()
    };
    listing.into()
}

/// What can be made, by the word in the form; its words are those of the catalogue.
const WHAT: &[&str] = &["full", "leaflet", "authority", "package", "supplement", "backup"];

/// A word of the form in the language that is spoken now.
fn in_words(group: &str, what: &str) -> String {
    Message::named("web_record", &format!("{group}-{what}")).map_or_else(|| what.to_string(), |m| m.text())
}

fn head(who: &Who, asking: Asking, known: &Known, token: &Markup) -> Markup {
    html! {
        h1 { (says::Report.text()) }
        p { (says::ReportWhat.text()) }
        (make_form(who, asking, known, token))
    }
}

fn make_form(who: &Who, asking: Asking, known: &Known, token: &Markup) -> Markup {
    let filled = asking.filled;
    let now = if filled.get("what").is_empty() { "full" } else { filled.get("what") };
    let language = says::Language.text();
    let [from, from_what, contact, contact_what] =
        [says::Since.text(), says::SinceWhat.text(), says::Contact.text(), says::ContactWhat.text()];
    let field = |name, words, hint| Field { name, words, hint };
    html! {
        (asking.all_faults())
        form #make.report method="post" action="/report" {
            (token)
            fieldset #what { legend { (says::Reader.text()) }
                @for name in WHAT { @if *name != "backup" || who.may(Role::Analyst) {
                    p { label { input type="radio" name="what" value=(name) checked[now == *name]; " " (in_words("reader", name)) } }
                } }
            }
            fieldset { legend { (says::Question.text()) }
                div.field { (scope_choice(filled, &known.trips)) }
                (asking.line(field("from", &from, &from_what)))
                @if !known.wells.is_empty() {
                    p.ticks #well { b { (says::Wells.text()) } " "
                        @for w in &known.wells {
                            label { input type="checkbox" name="well" value=(w) checked[filled.0.iter().any(|(n, v)| n == "well" && v == w)]; " " span.as-written { (w) } }
                        }
                        small { (says::WellsWhat.text()) }
                    }
                }
            }
            div.fields {
                (asking.choice(field("lang", &language, ""), LANGUAGES))
                (asking.line(field("contact", &contact, &contact_what)))
            }
            (more(asking))
            p.acts {
                button type="submit" { (says::Make.text()) } " "
                button.second type="submit" name="show" value="1" { (says::Look.text()) }
            }
        }
    }
}

/// Of what the report is.
fn scope_choice(filled: &Filled, trips: &[String]) -> Markup {
    let chosen = filled.get("scope");
    html! {
        select #scope name="scope" aria-label=(says::Question.text()) {
            option value="" { (says::ScopeNewest.text()) }
            @for t in trips {
                @let value = format!("trip:{t}");
                option.as-written value=(value) selected[chosen == value] { (says::ScopeTrip { trip: t.as_str().into() }.text()) }
            }
            option value="from" selected[chosen == "from"] { (says::ScopeFrom.text()) }
            option value="all" selected[chosen == "all"] { (says::ScopeAll.text()) }
        }
    }
}

/// What is seldom asked for.
fn more(asking: Asking) -> Markup {
    let [sections, sections_what] = [says::Sections.text(), says::SectionsWhat.text()];
    let [licence, licence_what] = [says::Licence.text(), says::LicenceWhat.text()];
    let typed = ["sections", "licence"].iter().any(|n| !asking.filled.get(n).is_empty());
    html! {
        details.act open[typed] { summary { (says::More.text()) }
            (asking.line(Field { name: "sections", words: &sections, hint: &sections_what }))
            (asking.line(Field { name: "licence", words: &licence, hint: &licence_what }))
        }
    }
}

const LANGUAGES: &[(&str, &str)] = &[("en", "English"), ("de", "Deutsch")];

fn label(name: &str) -> String {
    match name.rsplit('.').next() {
        Some("pdf") => says::FilePdf.text(),
        Some("html") => says::FileHtml.text(),
        Some("sqlite") => says::FileSqlite.text(),
        _ => says::FileZip.text(),
    }
}

/// What a form asks to be made.
#[derive(Clone)]
pub(crate) struct Wanted {
    pub what: &'static str,
    pub lang: Lang,
    pub scope: Scope,
    pub contact: Option<String>,
    sections: Vec<String>,
    licence: Option<String>,
}

fn wanted(filled: &Filled, who: &Who) -> Result<Wanted, Vec<Fault>> {
    let mut faults: Vec<Fault> = vec![];
    let asked = if filled.get("what").is_empty() { "full" } else { filled.get("what") };
    let what = WHAT.iter().find(|w| **w == asked).copied();
    if what.is_none() || (what == Some("backup") && !who.may(Role::Analyst)) {
        faults.push(("what".into(), says::NotListed { found: asked.into() }.text()));
    }
    let what = what.unwrap_or("full");
    let own = message::language();
    let lang = if filled.get("lang").is_empty() { own.code() } else { filled.get("lang") };
    let lang = Lang::parse(lang).unwrap_or_else(|| {
        faults.push(("lang".into(), format!("Found \"{lang}\", expected en or de.")));
        own
    });
    let listed = |text: &str| -> Vec<String> {
        text.split(',').map(|s| s.trim().to_string()).filter(|s| !s.is_empty()).collect()
    };
    let sections = listed(filled.get("sections"));
    if what != "full" && !sections.is_empty() {
        faults.push(("sections".into(), says::NoSections.text()));
    }
    let scope = scope(filled).unwrap_or_else(|fault| {
        faults.push(fault);
        Scope::default()
    });
    let some = |name: &str| Some(filled.get(name).trim().to_string()).filter(|l| !l.is_empty());
    let (licence, contact) = (some("licence"), some("contact"));
    if faults.is_empty() { Ok(Wanted { what, lang, scope, contact, sections, licence }) } else { Err(faults) }
}

/// Of what the report is asked to be.
fn scope(filled: &Filled) -> Result<Scope, Fault> {
    let wells = filled.0.iter().filter(|(n, v)| n == "well" && !v.is_empty()).map(|(_, v)| v.clone()).collect();
    let chosen = filled.get("scope");
    let from = match chosen {
        "from" => Some(
            day(filled.get("from"))
                .ok_or_else(|| ("from".to_string(), says::SinceWrong { found: filled.get("from").into() }.text()))?,
        ),
        _ => None,
    };
    let trip = chosen.strip_prefix("trip:").map(str::to_string);
    Ok(Scope { trip, wells, from, until: None, all: chosen == "all" })
}

/// A day as people or as the record write it, as the record does.
fn day(typed: &str) -> Option<String> {
    let typed = typed.trim();
    let parts: Vec<u32> = typed.split(['.', '-']).map(|p| p.trim().parse().ok()).collect::<Option<_>>()?;
    let (y, m, d) = match parts[..] {
        [d, m, y] if typed.contains('.') => (y, m, d),
        [y, m, d] => (y, m, d),
        _ => return None,
    };
    let sound = (1000..=9999).contains(&y) && (1..=12).contains(&m) && (1..=31).contains(&d);
    sound.then(|| format!("{y}-{m:02}-{d:02}"))
}

/// Makes one, or shows its first page.
pub(crate) async fn make(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    let filled = Filled(fields);
    if !filled.get("show").is_empty() {
        app.tokens.check(filled.get("token"), &who.bound)?;
        let who = Who { here: "/report".into(), ..who };
        let pieces = looked_at(&app, &who, &filled, &same_token(&filled)).await?;
        return Ok(body(&app, &who, place(&who, &says::Report.text()), &pieces).into_response());
    }
    once(&app, &who, &filled, async {
        let wanted = match wanted(&filled, &who) {
            Ok(wanted) => wanted,
            Err(faults) => {
                let asking = Asking { filled: &filled, faults: &faults };
                let pieces = pieces(&app, &who, asking, &same_token(&filled)).await?;
                return Ok(Done::Again(body(&app, &who, place(&who, &says::Report.text()), &pieces)));
            }
        };
        let person = who.person.clone();
        let typed = filled.0.iter().filter(|(name, _)| name != "token");
        let fields: Vec<String> = typed.map(|(name, text)| format!("{name}={}", page::encoded(text))).collect();
        let back = format!("/report?{}#make", fields.join("&"));
        let title = says::Making { what: named(wanted.what) }.text();
        let to = jobs::begin_from(&app, &who, &title, Some(back), move |app, job| {
            let folder = app.private.folder()?;
            let (head, names) = match wanted.what {
                "package" => data_package(app, job, &folder, &wanted)?,
                "supplement" => supplement(app, job, &folder, &wanted)?,
                "backup" => backup(app, job, &folder)?,
                _ => document(app, job, &folder, &wanted)?,
            };
            let mut files = vec![];
            for name in names {
                let bytes = folder.path().join(&name).metadata()?.len();
                files.push((name, bytes));
            }
            let whose = person.clone();
            let made = Made { id: random(), at: now(), head, person, what: title_of(&wanted), files, folder };
            let mut all = lock(&app.documents.0);
            all.push_front(Arc::new(made));
            // Each holds the temporary folder of its files, which goes from the disk with it.
            let mut own = 0;
            all.retain(|m| {
                own += usize::from(m.person == whose);
                m.person != whose || own <= KEPT
            });
            all.truncate(KEPT_OF_ALL);
            Ok(Outcome { to: "/report".into(), told: vec![] })
        })
        .await?;
        Ok(Done::To(to))
    })
    .await
}

/// What is made, as a message.
fn named(what: &str) -> Message {
    Message::named("web_record", &format!("title-{what}")).unwrap_or_else(|| says::TitleFull.into())
}

/// What was made, with what was chosen.
fn title_of(w: &Wanted) -> String {
    let mut out = named(w.what).text();
    if matches!(w.what, "full" | "leaflet" | "authority") {
        out += &format!(", {}", w.lang.name());
    }
    let chosen = w.scope.trip.iter().chain(&w.scope.wells).chain(&w.sections);
    let chosen: Vec<&str> = chosen.map(String::as_str).collect();
    if !chosen.is_empty() {
        out += &format!(": {}", chosen.join(", "));
    }
    out
}

/// A document in the language that is spoken now.
fn content(
    store: &record::store::Store,
    name: &str,
    w: &Wanted,
    watch: record::by::Watch,
) -> Result<Content, HttpError> {
    Ok(match w.what {
        "leaflet" => ::report::leaflet_with(store, name, w.lang, w.contact.as_deref())?,
        "authority" => ::report::authority(store, name, w.lang)?,
        _ => ::report::content_of(store, name, &w.scope, watch)?,
    })
}

/// The head of the record that it was made from, and the files.
type Names = (String, Vec<String>);

fn document(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    quantity::with_language(w.lang, || laid_out(app, job, folder, w))
}

fn laid_out(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    job.step(&says::StepLaying.text())?;
    let (mut content, head) = app.record.read_now(|store| {
        let content = content(store, &app.name, w, &|words| job.goes_on(words))?;
        Ok::<_, HttpError>((content, store.head()?))
    })?;
    if !w.sections.is_empty() {
        ::report::choose(&mut content, &w.sections).map_err(|e| HttpError::refused(format!("Sections: {e}.")))?;
    }
    content.lang = w.lang.code().into();
    // Read here, its numbers open their cases.
    content.cases_at = "/case/".into();
    let stem = if w.what == "full" { "report" } else { w.what };
    set(job, folder, stem, &content)?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec![format!("{stem}.pdf"), format!("{stem}.html")]))
}

/// Sets a document as PDF and as web page.
fn set(job: &jobs::Job, folder: &tempfile::TempDir, stem: &str, content: &Content) -> Result<(), HttpError> {
    job.step(&says::StepSetting.text())?;
    let bytes = pdf(::document::paper::to_markup(content))?;
    if !job.goes_on("set") {
        return Err(HttpError::refused(says::Stopped.text()));
    }
    std::fs::write(folder.path().join(format!("{stem}.pdf")), bytes)?;
    std::fs::write(folder.path().join(format!("{stem}.html")), ::document::html::to_html(content))?;
    Ok(())
}

/// The programme as one file.
fn backup(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir) -> Result<Names, HttpError> {
    job.step(&says::StepCopying.text())?;
    let head = app.record.read_now(|store| {
        store.backup(folder.path().join("programme.sqlite"))?;
        store.head()
    })?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec!["programme.sqlite".into()]))
}

/// Sets pages as PDF.
pub(crate) fn pdf(paper: ::document::paper::Paper) -> Result<Vec<u8>, HttpError> {
    paper.pdf().map_err(|e| HttpError::outside(format!("setting it as PDF: {e}")))
}

fn data_package(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    let head = tables(app, job, &folder.path().join("package"), w)?.head;
    packed(job, folder, "package")?;
    Ok((head.map_or(String::new(), |h| h.to_string()), vec!["package.zip".into()]))
}

fn tables(app: &Shared, job: &jobs::Job, to: &Path, w: &Wanted) -> Result<exchange::Written, HttpError> {
    job.step(&says::StepTables.text())?;
    let options = exchange::Options { licence: w.licence.clone(), ..Default::default() };
    app.record.read_now(|store| exchange::write(store, to, &options).map_err(|e| HttpError::outside(e.to_string())))
}

/// The tables as documents, and the data beside them.
fn supplement(app: &Shared, job: &jobs::Job, folder: &tempfile::TempDir, w: &Wanted) -> Result<Names, HttpError> {
    let data = folder.path().join("package");
    let head = tables(app, job, &data, w)?.head;
    let sums = std::fs::read_to_string(data.join(exchange::folder::SHA256SUMS))?;
    let known = |name: &str| {
        let line = sums.lines().find(|l| l.ends_with(&format!(" {name}")))?;
        Some((format!("data/{name}"), line.split(' ').next()?.to_string()))
    };
    let sums: Vec<(String, String)> = ["datapackage.json", "results.csv"].into_iter().filter_map(known).collect();
    let mut content = app.record.read_now(|store| ::report::supplement(store, &app.name, &sums))?;
    content.cases_at = "/case/".into();
    set(job, folder, "supplement", &content)?;
    packed(job, folder, "package")?;
    let names = ["supplement.pdf", "supplement.html", "package.zip"].map(String::from).to_vec();
    Ok((head.map_or(String::new(), |h| h.to_string()), names))
}

/// Packs a folder beside itself, and takes it away.
fn packed(job: &jobs::Job, folder: &tempfile::TempDir, name: &str) -> Result<(), HttpError> {
    job.step(&says::StepPacking.text())?;
    let package = folder.path().join(name);
    let to = BufWriter::new(File::create(folder.path().join(format!("{name}.zip")))?);
    let packed = exchange::packed::pack(&package, to, &mut |name| job.goes_on(name));
    let stopped = |e| match e {
        exchange::Error::Stopped => HttpError::refused(says::Stopped.text()),
        e => HttpError::outside(e.to_string()),
    };
    packed.map_err(stopped)?.flush()?;
    std::fs::remove_dir_all(&package)?;
    Ok(())
}

/// One of the files.
pub(crate) async fn file(
    State(app): State<Shared>,
    _: Who,
    Segments((id, name)): Segments<(String, String)>,
) -> Result<Response, HttpError> {
    let made = lock(&app.documents.0).iter().find(|m| m.id == id).cloned();
    let made = made.ok_or_else(|| HttpError::absent(says::Gone.text()))?;
    let known = made.files.iter().find(|f| f.0 == name).ok_or_else(|| HttpError::absent(says::NoFile.text()))?;
    let bytes = tokio::fs::read(made.folder.path().join(&known.0)).await?;
    let stem = ::figure::slug(&app.name);
    let kind = match known.0.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("sqlite") => "application/vnd.sqlite3",
        Some("html") => return Ok(([(header::CONTENT_TYPE, "text/html; charset=utf-8")], bytes).into_response()),
        _ => "application/zip",
    };
    let headers = [
        (header::CONTENT_TYPE, kind.to_string()),
        (header::CONTENT_DISPOSITION, format!("attachment; filename=\"{stem}-{}\"", known.0)),
    ];
    Ok((headers, bytes).into_response())
}
