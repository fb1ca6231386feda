//! Long work: an import with what follows from it, deriving anew, a report. It runs on a thread of its own; its page tells
//! how far it is, and leads on when it is done. What is quick leads on at once.
//!
//! Each act of a job is whole or not at all. It can be stopped between its steps, and inside a step where the work below
//! asks whether to go on: an import until it is kept, a report between sections, deriving between runs. Its page is told
//! by a stream of events; without script it looks again by itself. Of one person one job is at work; more of theirs wait,
//! and nobody else does for them.

use crate::app::Shared;
use crate::auth::people::People;
use crate::auth::random;
use crate::auth::who::Who;
use crate::http_error::HttpError;
use crate::lock::lock;
use crate::page;
use axum::extract::{Path, State};
use axum::http::{StatusCode, header};
use axum::response::sse::{Event, Sse};
use axum::response::{IntoResponse, Redirect, Response};
use maud::{Markup, html};
use message::{Spoken, web_door as door, web_places as says};
use std::collections::HashMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};
use tokio::sync::{OwnedSemaphorePermit, SemaphorePermit};

/// How long the person who began it is kept waiting before the page of the job is shown.
const AT_ONCE: Duration = Duration::from_millis(2500);

/// Jobs remembered at most: those done longest ago go.
const MOST: usize = 100;

/// How a job stands.
#[derive(Debug, Clone)]
enum Stand {
    /// Until work before it is done.
    Waiting,
    Running,
    Done {
        to: String,
        told: Vec<String>,
    },
    Failed(String),
}

/// One job.
pub(crate) struct Job {
    pub title: String,
    person: String,
    begun: Instant,
    steps: Mutex<Vec<String>>,
    within: Mutex<Within>,
    state: Mutex<Stand>,
    stop: AtomicBool,
    /// Tells one that waits that it was stopped.
    stopped: tokio::sync::Notify,
    /// Where to mend what was refused.
    back: Option<String>,
    /// Tells those who watch that something changed.
    news: tokio::sync::watch::Sender<u64>,
}

/// What a job answers: the page that it leads to, and what it did in words.
pub(crate) struct Outcome {
    pub to: String,
    pub told: Vec<String>,
}

impl Job {
    /// Says what comes next; refuses where the job was stopped.
    pub fn step(&self, words: &str) -> Result<(), HttpError> {
        if self.stop.load(Ordering::Relaxed) {
            return Err(HttpError::refused(says::Stopped.text()));
        }
        self.begins(words);
        Ok(())
    }

    /// Says what comes next where the work below is the one to ask whether to go on.
    pub fn begins(&self, words: &str) {
        lock(&self.steps).push(words.to_string());
        self.tell();
    }

    /// Says how far the step at hand is; false where the job was stopped. Many times a second is not too often.
    pub fn goes_on(&self, words: &str) -> bool {
        let mut within = lock(&self.within);
        if within.words != words && within.at.is_none_or(|at| at.elapsed() > NEWS) {
            *within = Within { words: words.into(), at: Some(Instant::now()) };
            self.tell();
        }
        !self.stop.load(Ordering::Relaxed)
    }

    fn is_open(&self) -> bool {
        matches!(*lock(&self.state), Stand::Waiting | Stand::Running)
    }

    fn stands(&self, state: Stand) {
        *lock(&self.state) = state;
        self.tell();
    }

    fn ask_to_stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
        self.stopped.notify_one();
    }

    fn tell(&self) {
        self.news.send_modify(|n| *n += 1);
    }
}

/// What is told of the inside of a step.
#[derive(Debug, Clone, Default)]
struct Within {
    words: String,
    at: Option<Instant>,
}

/// Between two words on the inside of a step.
const NEWS: Duration = Duration::from_millis(150);

/// The jobs since the program was started. So many are at work at once, one of a person; more wait for their turn.
pub(crate) struct Jobs {
    all: Mutex<HashMap<String, Arc<Job>>>,
    at_work: tokio::sync::Semaphore,
    people: People,
    waiting_of_one: usize,
}

impl Jobs {
    pub fn new(at_work: usize, waiting_of_one: usize) -> Self {
        let at_work = tokio::sync::Semaphore::new(at_work);
        Self { all: Mutex::default(), at_work, people: People::new(1), waiting_of_one }
    }

    fn get(&self, id: &str) -> Result<Arc<Job>, HttpError> {
        let gone = || HttpError::absent(says::JobGone.text());
        lock(&self.all).get(id).cloned().ok_or_else(gone)
    }

    /// Titles and ids of those at work or waiting.
    pub fn running(&self) -> Vec<(String, String)> {
        let all = lock(&self.all);
        let at_work = all.iter().filter(|(_, j)| j.is_open());
        at_work.map(|(id, j)| (id.clone(), j.title.clone())).collect()
    }

    /// Stops all of them.
    pub fn stop_all(&self) {
        lock(&self.all).values().for_each(|j| j.ask_to_stop());
    }

    /// Keeps a new one, where its person has not enough that waits.
    fn keep(&self, id: &str, job: &Arc<Job>) -> Result<(), HttpError> {
        let mut all = lock(&self.all);
        let open = all.values().filter(|j| j.person == job.person && j.is_open()).count();
        if open > self.waiting_of_one {
            let words = door::EnoughWork { n: message::count(self.waiting_of_one) }.text();
            return Err(HttpError::new(StatusCode::TOO_MANY_REQUESTS, words));
        }
        if all.len() >= MOST {
            // A running job is never dropped: its page is the only way to stop it.
            let oldest = all.iter().filter(|(_, j)| !j.is_open());
            if let Some(oldest) = oldest.min_by_key(|(_, j)| j.begun).map(|(k, _)| k.clone()) {
                all.remove(&oldest);
            }
        }
        all.insert(id.into(), job.clone());
        Ok(())
    }

    /// One's turn to work: first among one's own, then among all. None where it was stopped before.
    async fn turn(&self, job: &Job) -> Option<(OwnedSemaphorePermit, SemaphorePermit<'_>)> {
        let turns = async {
            let own = self.people.of(&job.person).acquire_owned().await.ok()?;
            Some((own, self.at_work.acquire().await.ok()?))
        };
        tokio::select! {
            turns = turns => turns,
            () = job.stopped.notified() => None,
        }
    }
}

/// Begins a job; answers where to go: its outcome where it was quick, else its page.
pub(crate) async fn begin(
    app: &Shared,
    who: &Who,
    title: &str,
    work: impl FnOnce(&Shared, &Job) -> Result<Outcome, HttpError> + Send + 'static,
) -> Result<String, HttpError> {
    begin_from(app, who, title, None, work).await
}

/// As [`begin`], from a form that stands at `back` with what was typed.
pub(crate) async fn begin_from(
    app: &Shared,
    who: &Who,
    title: &str,
    back: Option<String>,
    work: impl FnOnce(&Shared, &Job) -> Result<Outcome, HttpError> + Send + 'static,
) -> Result<String, HttpError> {
    let id = random();
    let job = Arc::new(Job {
        title: title.into(),
        person: who.person.clone(),
        begun: Instant::now(),
        steps: Mutex::default(),
        state: Mutex::new(Stand::Waiting),
        stop: AtomicBool::new(false),
        stopped: tokio::sync::Notify::new(),
        within: Mutex::default(),
        back,
        news: tokio::sync::watch::Sender::new(0),
    });
    app.jobs.keep(&id, &job)?;
    let (shared, doing, spoken) = (app.clone(), job.clone(), message::language());
    let thread = tokio::spawn(async move {
        let Some(_turn) = shared.jobs.turn(&doing).await else {
            doing.stands(Stand::Failed(message::with_language(spoken, || says::Stopped.text())));
            return;
        };
        doing.stands(Stand::Running);
        let (app, job) = (shared.clone(), doing.clone());
        let work = move || job.stands(ended(|| message::with_language(spoken, || work(&app, &job))));
        let _ = tokio::task::spawn_blocking(work).await;
    });
    // How the work ends, it tells itself; here it is only waited for.
    let _ = tokio::time::timeout(AT_ONCE, thread).await;
    let state = lock(&job.state).clone();
    Ok(match state {
        // What the job has to tell stands on its page; only where it has nothing to tell may the page be passed over.
        Stand::Done { to, told } if told.is_empty() => to,
        _ => format!("/jobs/{id}"),
    })
}

/// How work ended: also where it broke off, at whatever time, so that no page waits for it for ever.
fn ended(work: impl FnOnce() -> Result<Outcome, HttpError>) -> Stand {
    match std::panic::catch_unwind(std::panic::AssertUnwindSafe(work)) {
        Ok(Ok(o)) => Stand::Done { to: o.to, told: o.told },
        Ok(Err(t)) => Stand::Failed(t.words),
        Err(broken) => {
            let text = broken.downcast_ref::<String>().map(String::as_str);
            let text = text.or_else(|| broken.downcast_ref::<&str>().copied()).unwrap_or("no reason was given");
            Stand::Failed(format!("The work broke off by a fault of the program: {text}. What was kept before stands."))
        }
    }
}

/// The page of a job.
pub(crate) async fn show(State(app): State<Shared>, who: Who, Path(id): Path<String>) -> Result<Response, HttpError> {
    let job = app.jobs.get(&id)?;
    let state = lock(&job.state).clone();
    let running = matches!(state, Stand::Waiting | Stand::Running);
    let body = html! {
        h1 { (job.title) }
        p.quiet { (says::BegunBy { who: job.person.as_str().into() }.text()) }
        div #progress data-work=[running.then_some(&id)] aria-live="polite" { (told(&job, &state)) }
        @if running {
            noscript { p { a href=(format!("/jobs/{id}")) { (says::LookAgain.text()) } } }
            form method="post" action=(format!("/jobs/{id}/stop")) {
                (crate::forms::token_field(&app, &who))
                button.second type="submit" { (says::Stop.text()) }
                p.hint { (says::StopHow.text()) }
            }
        }
    };
    let refresh = running.then_some(2);
    Ok(page::page(&app, &who, page::Place { title: &job.title, refresh, ..page::Place::default() }, &body)
        .into_response())
}

fn told(job: &Job, state: &Stand) -> Markup {
    let steps = lock(&job.steps).clone();
    let within = lock(&job.within).words.clone();
    html! {
        ol.steps {
            @for (n, step) in steps.iter().enumerate() {
                @let last = n + 1 == steps.len();
                li { (step) @if last && matches!(state, Stand::Running) { " – " (says::AtWork { n: message::count(job.begun.elapsed().as_secs() as usize) }.text()) @if !within.is_empty() { br; small { (within) } } } }
            }
        }
        @match state {
            Stand::Waiting => { p { (door::WaitsItsTurn.text()) } p { (says::MayLeave.text()) } }
            Stand::Running => { p { (says::MayLeave.text()) } }
            Stand::Failed(words) => {
                div.fault role="alert" { p { strong { (says::NotDone.text()) " " } } p.lines { (words) } }
                @if let Some(back) = &job.back { p { a.go href=(back) { (says::BackToForm.text()) } " " (says::TypedStands.text()) } }
            }
            Stand::Done { to, told } => {
                p { strong { (says::DoneWord.text()) } }
                ul { @for line in told { li { (line) } } }
                p { a.go href=(to) { (says::GoOn.text()) } }
            }
        }
    }
}

/// How far a job is, as a piece of its page, for the script.
pub(crate) async fn progress(State(app): State<Shared>, _: Who, Path(id): Path<String>) -> Result<Response, HttpError> {
    let job = app.jobs.get(&id)?;
    let state = lock(&job.state).clone();
    let word = if job.is_open() { "running" } else { "done" };
    let name = header::HeaderName::from_static("x-work");
    Ok(([(name, word)], told(&job, &state)).into_response())
}

/// How far a job is, as it happens: a stream of pieces of its page, until it is done.
pub(crate) async fn stream(State(app): State<Shared>, _: Who, Path(id): Path<String>) -> Result<Response, HttpError> {
    let job = app.jobs.get(&id)?;
    let news = job.news.subscribe();
    // The pieces are made when the handler has answered already.
    let spoken = message::language();
    let pieces = futures_util::stream::unfold(Some((job, news, true)), move |at| async move {
        let (job, mut news, first) = at?;
        if !first {
            // A word now and then keeps the seconds going, and shows a dead connection.
            let _ = tokio::time::timeout(Duration::from_secs(1), news.changed()).await;
        }
        news.borrow_and_update();
        let state = lock(&job.state).clone();
        let running = matches!(state, Stand::Waiting | Stand::Running);
        let event = Event::default()
            .event(if running { "running" } else { "done" })
            .data(message::with_language(spoken, || told(&job, &state)).into_string().replace('\n', " "));
        Some((Ok::<_, std::convert::Infallible>(event), running.then_some((job, news, false))))
    });
    Ok(Sse::new(pieces).into_response())
}

/// Stops a job before its next step, or inside it where that does no harm.
pub(crate) async fn stop(
    State(app): State<Shared>,
    who: Who,
    Path(id): Path<String>,
    axum::Form(fields): axum::Form<Vec<(String, String)>>,
) -> Result<Response, HttpError> {
    app.tokens.check(crate::forms::Filled(fields).get("token"), &who.bound)?;
    let job = app.jobs.get(&id)?;
    if job.person != who.person {
        who.must_be(crate::auth::accounts::Role::Lead)?;
    }
    job.ask_to_stop();
    Ok(Redirect::to(&format!("/jobs/{id}")).into_response())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// However late it breaks off: its page says so, and why, in place of running for ever.
    #[test]
    fn work_that_breaks_off_has_failed_with_its_reason() {
        let Stand::Failed(words) = ended(|| panic!("no vial {}", 7)) else { panic!("it has not failed") };
        assert!(words.contains("no vial 7") && words.contains("broke off"), "{words}");
        let Stand::Failed(words) = ended(|| panic!("plain")) else { panic!("it has not failed") };
        assert!(words.contains("plain"), "{words}");
    }
}
