//! Recipes: which there are, one of them with its versions, beside a run; taking one in as text, making one by questions,
//! giving one to a run; and correcting the name of a vial, so that run and recipe meet. In English and German.
//!
//! What a recipe may hold is read by `intake::recipe`, what keeps it from a run by `programme::recipes`.
//! Checked in `crates/web/tests/first_year.rs`.

use crate::app::{App, Shared};
use crate::auth::accounts::Role;
use crate::auth::who::Who;
use crate::blocks::{Listing, Piece, Query, Td, number, respond, td};
use crate::forms::{Asking, Done, Fault, Field, Filled, once, same_token, token_field};
use crate::http_error::HttpError;
use crate::moment::now;
use crate::page::{self, Place, encoded, other_language, said};
use crate::written::{moment, quoted};
use axum::Form;
use axum::extract::{Path, Query as FromQuery, State};
use axum::response::{IntoResponse, Response};
use intake::entry::EntryError;
use intake::import::ImportError;
use intake::recipe::asked::{Answer, QUESTIONS, Question, written};
use intake::recipe::{RecipeFault, TEMPLATES, read};
use maud::{Markup, html};
use message::{Message, count, recipe as says, web_record};
use programme::recipes::{self, Listed};
use programme::work::{self, Recomputed};
use record::store::Store;

/// Where they belong.
const PLACE: &str = "/runs";

/// The address of a recipe.
fn address(name: &str) -> String {
    format!("/recipes/{}", encoded(name))
}

/// In the language of who asks.
struct Says<'a>(&'a Who);

impl Says<'_> {
    fn of(&self, what: impl Into<Message>) -> String {
        said(self.0, what)
    }
}

/// The list.
pub(crate) async fn list(
    State(app): State<Shared>,
    who: Who,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let all = page::read(&app, |store, _| Ok(recipes::all(store)?)).await?;
    let typed = Asking { filled: &Filled::default(), faults: &[] };
    let pieces = list_pieces(&who, &all, typed, &token_field(&app, &who));
    respond(&app, &who, Place::of(PLACE, &said(&who, says::Title)).spoken(&who), &q, &pieces)
}

fn list_pieces(who: &Who, all: &[Listed], typed: Asking, token: &Markup) -> Vec<Piece> {
    let say = Says(who);
    let mut pieces: Vec<Piece> = vec![
        html! {
            h1 { (say.of(says::Title)) }
            p.acts {
                @if who.may(Role::Analyst) { a.go href="/recipes/questions" { (say.of(says::Ask)) } " " }
                a href="/recipes/template" download { (say.of(says::Template)) } " " (other_language(who))
            }
            p { (say.of(says::What)) }
        }
        .into(),
    ];
    if all.is_empty() {
        pieces.push(html! { p.quiet { (say.of(says::None)) } }.into());
    } else {
        pieces.push(listing(who, all).into());
    }
    if who.may(Role::Analyst) {
        pieces.push(take_form(who, typed, token).into());
    }
    pieces
}

fn listing(who: &Who, all: &[Listed]) -> Listing {
    let say = Says(who);
    let row = |r: &Listed| {
        vec![
            Td {
                shown: html! { a.as-written href=(format!("{}?version={}", address(&r.name), r.version)) { (r.name) } },
                ..td(r.name.clone())
            },
            number(r.version.to_string()),
            td(moment(&r.at)),
            td(r.person.clone()),
            Td { shown: html! { span.as-written { (r.runs.join(", ")) } }, ..td(r.runs.join(", ")) },
            Td { shown: quoted(&r.why), ..td(r.why.clone()) },
        ]
    };
    Listing {
        caption: say.of(web_record::RecipeAll { n: count(all.len()) }),
        headings: vec![
            say.of(says::Name),
            say.of(says::Version),
            say.of(says::Since),
            say.of(says::By),
            say.of(says::Runs),
            say.of(says::Reason),
        ],
        rows: all.iter().map(row).collect(),
        ..Listing::default()
    }
}

/// Taking one in: its text, and where a file is taken.
fn take_form(who: &Who, typed: Asking, token: &Markup) -> Markup {
    let say = Says(who);
    let (words, hint, why_hint) = (say.of(says::Text), say.of(says::TextWhat), say.of(says::WhyWhat));
    let reason = say.of(says::Reason);
    html! {
        h2 #take { (say.of(says::Take)) }
        (faults_of(who, typed.faults))
        p { a href="/runs/bring-in" { (say.of(says::TakeFile)) } }
        form method="post" action="/recipes" {
            (token)
            (typed.long(Field { name: "toml", words: &words, hint: &hint }, 16))
            (typed.line(Field { name: "why", words: &reason, hint: &why_hint }))
            button type="submit" { (say.of(says::Keep)) }
        }
    }
}

/// What cannot be taken, each at its field.
fn faults_of(who: &Who, faults: &[Fault]) -> Markup {
    html! {
        @if !faults.is_empty() {
            div.fault role="alert" tabindex="-1" #faults {
                p { strong { (said(who, says::NothingKept)) } }
                ul.as-written { @for (name, words) in faults { li { a href=(format!("#{name}")) { (words) } } } }
            }
        }
    }
}

/// The text with every key explained.
pub(crate) async fn template(who: Who) -> Result<Response, HttpError> {
    let text = TEMPLATES.iter().find(|(code, _)| *code == who.language.code()).or(TEMPLATES.first());
    let text = text.map_or("", |(_, text)| *text);
    Ok(super::results::attachment("recipe", "toml", text.into()))
}

/// One recipe.
pub(crate) async fn show(
    State(app): State<Shared>,
    who: Who,
    Path(name): Path<String>,
    FromQuery(q): FromQuery<Query>,
) -> Result<Response, HttpError> {
    let pieces = one(&app, &who, &name, &q, None).await?;
    let title = said(&who, says::One { name: name.into() });
    respond(&app, &who, Place::of(PLACE, &title).spoken(&who), &q, &pieces)
}

/// What keeps a recipe and a run from meeting, in the language of who asks.
type Held = Option<(String, Vec<Message>)>;

async fn one(
    app: &Shared,
    who: &Who,
    name: &str,
    q: &Query,
    typed: Option<(&Filled, &[Fault])>,
) -> Result<Vec<Piece>, HttpError> {
    let (asked, run) = (name.to_string(), q.get("run").cloned().filter(|r| !r.is_empty()));
    let (all, runs, held) = page::read(app, move |store, _| {
        let newest = recipes::newest(store, &asked)?.name;
        let all: Vec<Listed> = recipes::all(store)?.into_iter().filter(|r| r.name == newest).collect();
        let runs: Vec<String> = store.runs()?.into_iter().rev().map(|r| r.name).collect();
        let held: Held = match run {
            Some(run) => Some((run.clone(), recipes::check(store, &asked, &run)?)),
            None => None,
        };
        Ok((all, runs, held))
    })
    .await?;
    let say = Says(who);
    let version = q.get("version").and_then(|v| v.parse::<i64>().ok());
    let chosen = all.iter().find(|r| Some(r.version) == version).or(all.last());
    let mut pieces: Vec<Piece> = vec![
        html! {
            h1 { (say.of(says::One { name: name.into() })) }
            p.acts { a href="/recipes" { (say.of(says::Title)) } " " (other_language(who)) }
        }
        .into(),
        listing(who, &all).into(),
    ];
    pieces.push(beside(who, name, &runs, held.as_ref()).into());
    if who.may(Role::Analyst) && !runs.is_empty() {
        pieces.push(give_form(app, who, name, &runs, typed).into());
    }
    if let Some(r) = chosen {
        let version = r.version;
        pieces.push(html! { h2 { (say.of(says::KeptText { version })) } pre.text tabindex="0" { (r.toml) } }.into());
    }
    Ok(pieces)
}

fn run_choice(who: &Who, id: &str, runs: &[String], chosen: &str) -> Markup {
    html! {
        div.field {
            label for=(id) { (said(who, says::Run)) }
            select #(id) name="run" { @for r in runs { option value=(r) selected[r == chosen] { (r) } } }
        }
    }
}

/// Beside a run: what is missing, in words.
fn beside(who: &Who, name: &str, runs: &[String], held: Option<&(String, Vec<Message>)>) -> Markup {
    let say = Says(who);
    let chosen = held.map_or("", |h| h.0.as_str());
    html! {
        h2 #beside { (say.of(says::Beside)) }
        @if runs.is_empty() { p.quiet { (say.of(says::NoRun)) } } @else {
            form.filters method="get" action=(format!("{}#beside", address(name))) {
                (run_choice(who, "check-run", runs, chosen))
                button.second type="submit" { (say.of(says::Check)) }
            }
        }
        @match held {
            Some((run, missing)) if missing.is_empty() => {
                p role="status" { span.state.met aria-hidden="true" { "✓ " } (say.of(says::Meets { run: run.as_str().into(), name: name.into() })) }
            }
            Some((run, missing)) => {
                div.fault role="status" {
                    p { strong { (say.of(says::MeetsNot { run: run.as_str().into(), name: name.into() })) } }
                    ul.as-written { @for m in missing { li { (say.of(m.clone())) } } }
                }
                p { a href=(format!("/runs/{}#vial-name", encoded(run))) { (say.of(says::Vial)) } }
            }
            None => {}
        }
    }
}

fn give_form(app: &App, who: &Who, name: &str, runs: &[String], typed: Option<(&Filled, &[Fault])>) -> Markup {
    let say = Says(who);
    let nothing = Filled::default();
    let (filled, faults) = typed.unwrap_or((&nothing, &[]));
    let asking = Asking { filled, faults };
    let (reason, hint) = (say.of(says::Reason), say.of(says::GiveWhat));
    html! {
        details.act open[typed.is_some()] {
            summary { (say.of(says::Give)) }
            (faults_of(who, faults))
            form method="post" action="/recipes/give" {
                @if typed.is_some() { (same_token(filled)) } @else { (token_field(app, who)) }
                input type="hidden" name="name" value=(name);
                (run_choice(who, "give-run", runs, filled.get("run")))
                (asking.prose(Field { name: "why", words: &reason, hint: &hint }))
                button type="submit" { (say.of(says::GiveIt)) }
            }
        }
    }
}

/// Reads a text as a recipe; the faults in the language of who asks.
fn faults_in(who: &Who, faults: &[RecipeFault]) -> Vec<(Option<String>, String)> {
    let line = |f: &RecipeFault| f.line.map_or_else(String::new, |n| format!("{n}: "));
    let words = |f: &RecipeFault| format!("{}{}", line(f), said(who, f.says.clone()));
    faults.iter().map(|f| (f.key().map(str::to_string), words(f))).collect()
}

/// Takes a recipe in as text, as a file of it comes in.
pub(crate) async fn take(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (text, why) = (filled.get("toml").replace("\r\n", "\n"), filled.get("why").to_string());
        let recipe = match read(&text) {
            Ok(recipe) => recipe,
            Err(faults) => {
                let faults = faults_in(&who, &faults).into_iter().map(|(_, words)| ("toml".to_string(), words));
                return again(&app, &who, &filled, faults.collect()).await;
            }
        };
        let (person, name) = (who.clone(), recipe.name.clone());
        let folder = app.private.folder()?;
        let done =
            page::write(&app, move |store| taken_in(store, (folder.path(), &name), &text, &why, &person)).await?;
        match done {
            Ok(()) => Ok(Done::To(address(&recipe.name))),
            Err(ImportError::Refused(faults)) => {
                let words = faults.shown.iter().map(|f| ("why".to_string(), fault_in_words(&who, f)));
                again(&app, &who, &filled, words.collect()).await
            }
            Err(other) => Err(other.into()),
        }
    })
    .await
}

fn fault_in_words(who: &Who, finding: &quantity::Finding) -> String {
    finding.message.as_ref().and_then(|m| m.said(who.language)).unwrap_or_else(|| finding.sentence.clone())
}

/// Takes a recipe in, as a file of its name in a folder for it.
fn taken_in(
    store: &mut Store,
    (folder, name): (&std::path::Path, &str),
    text: &str,
    why: &str,
    who: &Who,
) -> Result<(), ImportError> {
    let file: String = name.chars().map(|c| if c.is_alphanumeric() || c == '-' { c } else { '_' }).collect();
    let path = folder.join(format!("{file}.toml"));
    std::fs::write(&path, text).map_err(|source| ImportError::Io { path: path.clone(), source })?;
    let inputs = intake::import::inputs(store, &[path], "recipe")?;
    let at = now();
    intake::import::import_because(store, &inputs, who.by(&at), why, &|_| true)?;
    // Nothing follows from a recipe that no run has; an act after which nothing was derived would be told as open.
    if let Err(e) = work::follow(store, who.by(&at), &|_| true) {
        eprintln!("web: after a recipe came in: {e}");
    }
    Ok(())
}

async fn again(app: &Shared, who: &Who, filled: &Filled, faults: Vec<Fault>) -> Result<Done, HttpError> {
    let all = page::read(app, |store, _| Ok(recipes::all(store)?)).await?;
    let typed = Asking { filled, faults: &faults };
    let pieces = list_pieces(who, &all, typed, &same_token(filled));
    let who = &Who { here: "/recipes".into(), ..who.clone() };
    Ok(Done::Again(crate::blocks::body(app, who, Place::of(PLACE, &said(who, says::Title)).spoken(who), &pieces)))
}

/// The questions.
pub(crate) async fn questions(State(app): State<Shared>, who: Who) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    Ok(questions_page(&app, &who, &Filled::default(), &[]).into_response())
}

/// The name of a question's field: a key may hold signs that an address of a page may not.
fn field(key: &str) -> String {
    key.replace(['[', ']'], "").replace('.', "-")
}

fn questions_page(app: &App, who: &Who, filled: &Filled, faults: &[Fault]) -> Markup {
    let say = Says(who);
    let body = html! {
        h1 { (say.of(says::Questions)) }
        p.acts { a href="/recipes" { (say.of(says::Title)) } " " (other_language(who)) }
        p { (say.of(says::QuestionsWhat)) }
        @if !faults.is_empty() {
            div.fault role="alert" tabindex="-1" #faults {
                p { strong { (say.of(says::Faults { n: message::count(faults.len()) })) } }
                ul.as-written { @for (name, words) in faults { li { a href=(format!("#{name}")) { (words) } } } }
            }
        }
        form method="post" action="/recipes/questions" {
            (token_field(app, who))
            div.fields { @for q in QUESTIONS { (question(who, q, Asking { filled, faults })) } }
            button type="submit" { (say.of(says::Show)) }
        }
    };
    page::page(app, who, Place::of(PLACE, &say.of(says::Questions)).spoken(who), &body)
}

/// A word that a recipe takes, in the language of who asks.
fn in_words(who: &Who, word: &str) -> String {
    let named = Message::named("kind", word).or_else(|| Message::named("web_record", &format!("word-{word}")));
    named.map_or_else(|| word.to_string(), |m| said(who, m))
}

fn question(who: &Who, q: &Question, asking: Asking) -> Markup {
    let say = Says(who);
    let (words, hint) = q.messages();
    let words = words.map_or_else(|| q.key.to_string(), |m| say.of(m));
    let words = if q.needed { format!("{words} ({})", say.of(says::Needed)) } else { words };
    let (name, hint) = (field(q.key), hint.map_or_else(String::new, |m| say.of(m)));
    let f = Field { name: &name, words: &words, hint: &hint };
    match q.answer {
        Answer::Text => asking.line(f),
        Answer::Number => asking.number(f),
        Answer::Lines => asking.prose(f),
        Answer::Word(all) => {
            let left_out = say.of(says::LeftOut);
            let words: Vec<String> = all.iter().map(|w| in_words(who, w)).collect();
            let listed = all.iter().copied().zip(words.iter().map(String::as_str));
            let choices: Vec<(&str, &str)> = std::iter::once(("", left_out.as_str())).chain(listed).collect();
            asking.choice(f, &choices)
        }
    }
}

/// The recipe of the answers, to be looked at and kept; or what cannot be taken, at its question. Nothing is written.
pub(crate) async fn answered(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    app.tokens.check(filled.get("token"), &who.bound)?;
    let who = Who { here: "/recipes/questions".into(), ..who };
    let text = written(|key| filled.get(&field(key)).to_string());
    if let Err(faults) = read(&text) {
        let faults: Vec<Fault> = faults_in(&who, &faults)
            .into_iter()
            .map(|(key, words)| (key.map_or_else(|| "name".into(), |k| field(&of_question(&k))), words))
            .collect();
        let page = questions_page(&app, &who, &filled, &faults);
        return Ok((axum::http::StatusCode::UNPROCESSABLE_ENTITY, page).into_response());
    }
    let shown = Filled(vec![("toml".into(), text)]);
    let say = Says(&who);
    let (reason, why_hint) = (say.of(says::Reason), say.of(says::WhyWhat));
    let (words, hint) = (say.of(says::Text), say.of(says::ShownWhat));
    let asking = Asking { filled: &shown, faults: &[] };
    let body = html! {
        h1 { (say.of(says::Shown)) }
        form method="post" action="/recipes" {
            (token_field(&app, &who))
            (asking.long(Field { name: "toml", words: &words, hint: &hint }, 24))
            (asking.line(Field { name: "why", words: &reason, hint: &why_hint }))
            button type="submit" { (say.of(says::Keep)) }
        }
    };
    Ok(page::page(&app, &who, Place::of(PLACE, &say.of(says::Shown)).spoken(&who), &body).into_response())
}

/// The question that a fault's key belongs to: a table that lacks something is told at its first question.
fn of_question(key: &str) -> String {
    let own = QUESTIONS.iter().find(|q| q.key == key);
    let first =
        || QUESTIONS.iter().find(|q| key.split(['.', '[']).next().is_some_and(|table| q.key.starts_with(table)));
    own.or_else(first).map_or_else(|| key.to_string(), |q| q.key.to_string())
}

/// Gives a run the newest version.
pub(crate) async fn give(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (name, run, why) =
            (filled.get("name").to_string(), filled.get("run").to_string(), filled.get("why").to_string());
        let (person, given) = (who.clone(), (name.clone(), run.clone()));
        let done = page::write(&app, move |store| {
            let at = now();
            recipes::give(store, &given.0, &given.1, &why, person.by(&at))
        })
        .await?;
        match told(&who, done, says::HasIt.into(), "why")? {
            Ok(lines) => Ok(after(&app, &who, &format!("/runs/{}", encoded(&run)), &lines)),
            Err(fault) => {
                let who = &Who { here: address(&name), ..who.clone() };
                let faults = [fault];
                let pieces = one(&app, who, &name, &Query::new(), Some((&filled, faults.as_slice()))).await?;
                let title = said(who, says::One { name: name.as_str().into() });
                Ok(Done::Again(crate::blocks::body(&app, who, Place::of(PLACE, &title).spoken(who), &pieces)))
            }
        }
    })
    .await
}

/// Corrects the name of a vial.
pub(crate) async fn vial_name(
    State(app): State<Shared>,
    who: Who,
    Form(fields): Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    who.must_be(Role::Analyst)?;
    let filled = Filled(fields);
    once(&app, &who, &filled, async {
        let (vial, name, why) =
            (filled.get("vial").to_string(), filled.get("name").to_string(), filled.get("why").to_string());
        let (person, asked) = (who.clone(), vial.clone());
        let done = page::write(&app, move |store| {
            let at = now();
            work::set_vial_name(store, &asked, name.trim(), &why, person.by(&at))
        })
        .await?;
        let run = vial.rsplit_once('/').map_or(vial.as_str(), |(run, _)| run).to_string();
        let at = if filled.get("why").trim().is_empty() { "why" } else { "vial" };
        match told(&who, done, says::VialHasIt.into(), at)? {
            Ok(lines) => Ok(after(&app, &who, &format!("/runs/{}", encoded(&run)), &lines)),
            Err(fault) => {
                let said = super::case::Said { act: "/vial-name", filled: &filled, fault };
                super::runs::again(&app, &who, filled.get("run"), &said).await
            }
        }
    })
    .await
}

/// What came of an act from which results follow: lines to tell, or the fault at a field.
fn told(
    who: &Who,
    done: Result<Option<Recomputed>, EntryError>,
    nothing: Message,
    field: &str,
) -> Result<Result<Vec<String>, Fault>, HttpError> {
    match done {
        Ok(Some(done)) => Ok(Ok(super::case::told(&done))),
        Ok(None) => Ok(Ok(vec![said(who, nothing)])),
        Err(EntryError::Faults(faults)) => {
            let words: Vec<String> = faults.iter().map(|f| said(who, f.says.clone())).collect();
            Ok(Err((field.into(), words.join(" "))))
        }
        Err(EntryError::Programme(e @ record::Error::NotDerived { .. })) => Ok(Ok(super::case::followed(Err(e))?)),
        Err(EntryError::Programme(e @ (record::Error::Unfit { .. } | record::Error::Absent { .. }))) => {
            Ok(Err((field.into(), format!("{}.", quantity::format::capital(&e.to_string())))))
        }
        Err(other) => Err(other.into()),
    }
}

/// Tells what followed, and leads on.
fn after(app: &App, who: &Who, to: &str, lines: &[String]) -> Done {
    let who = &Who { here: to.into(), ..who.clone() };
    let body = html! {
        h1 { (said(who, says::Done)) }
        ul { @for line in lines { li { (line) } } }
        p { a.go href=(to) { (said(who, says::GoOn)) } }
    };
    Done::Told {
        to: to.into(),
        page: page::page(app, who, Place::of(PLACE, &said(who, says::Done)).spoken(who), &body),
    }
}

/// On a run's page: its recipe, and the form for the name of a vial.
pub(crate) fn on_a_run(
    app: &App,
    who: &Who,
    run: &str,
    recipe: Option<&str>,
    typed: Option<&super::case::Said>,
) -> Markup {
    let say = Says(who);
    let typed = typed.filter(|s| s.act == "/vial-name");
    let faults: Vec<Fault> = typed.iter().map(|s| s.fault.clone()).collect();
    let start = Filled(vec![("vial".into(), format!("{run}/"))]);
    let asking = Asking { filled: typed.map_or(&start, |s| s.filled), faults: &faults };
    let words = [says::VialPlace.into(), says::VialName.into(), says::Reason.into(), says::VialWhat.into()];
    let [place, name, reason, hint] = words.map(|m: Message| say.of(m));
    html! {
        p.acts {
            @match recipe {
                Some(recipe) => { a href=(format!("{}?run={}#beside", address(recipe), encoded(run))) { (say.of(says::One { name: recipe.into() })) } }
                None => { a href="/recipes" { (say.of(says::Title)) } }
            }
            " " (other_language(who))
        }
        details.act #vial-name open[typed.is_some()] {
            summary { (say.of(says::Vial)) }
            form method="post" action="/vial-name" {
                @match typed { Some(s) => (same_token(s.filled)), None => (token_field(app, who)) }
                input type="hidden" name="run" value=(run);
                (asking.line(Field { name: "vial", words: &place, hint: "" }))
                (asking.line(Field { name: "name", words: &name, hint: &hint }))
                (asking.line(Field { name: "why", words: &reason, hint: "" }))
                button type="submit" { (say.of(says::VialDo)) }
            }
        }
    }
}
