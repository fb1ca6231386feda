//! `limpid start`: a programme of one's own. A few questions, then a folder with the programme, an empty file for each
//! thing that comes next (as CSV and as a workbook), a sheet of what their columns mean, and the next step. Called again
//! on that folder it says the step that is next by then.
//!
//! The files stand in `programme::templates`, the steps in `programme::first_steps`: the web interface offers the same.
//! Checked in `crates/cli/tests/own_trip.rs`.

use super::{now, of_entry, open};
use crate::args::Start;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use exchange::sheet::Sheet;
use intake::entry::{self, TypedRow};
use message::{Lang, Message, start as says};
use programme::first_steps::{self, Todo};
use programme::templates::{self, TEMPLATES};
use record::by::By;
use record::store::{Store, named};
use std::fs;
use std::io::{BufRead as _, IsTerminal as _, Write as _};
use std::path::Path;

/// The programme's file in the folder.
const STORE: &str = "programme.sqlite";

/// The sheet of words, without its ending.
const WORDS: &str = "words";

/// A message in the language asked for.
fn said(what: impl Into<Message>, language: Lang) -> String {
    what.into().said(language).unwrap_or_default()
}

/// What a person answered.
struct Answers {
    site: String,
    wells: Vec<String>,
    trip: String,
    day: String,
    person: String,
}

/// Runs `limpid start`.
pub fn run(args: &Start) -> Result<(), Failure> {
    let (address, language) = (args.dir.join(STORE), args.lang.of_messages());
    if address.exists() {
        return next(&open(&address.to_string_lossy())?, &args.dir, language);
    }
    let empty = || fs::read_dir(&args.dir).is_ok_and(|mut entries| entries.next().is_none());
    if args.dir.exists() && !empty() {
        return Err(Failure::Refused(format!(
            "{} holds other files already: name a new or an empty folder",
            args.dir.display()
        )));
    }
    let answers = answers(args)?;
    fs::create_dir_all(&args.dir).with_context(|| format!("making the folder {}", args.dir.display()))?;
    let at = now();
    let by = By { person: &answers.person, at: &at };
    let mut store = programme::start::start_own(&address, by.person, by.at, &super::upkeep::drawn()?)?;
    if let Err(e) = entry::enter(&mut store, by, "start of the programme", &rows(&answers)) {
        // Nothing but the empty programme was made: the same words, mended, are to be taken.
        drop(store);
        fs::remove_file(&address).with_context(|| format!("removing {}", address.display()))?;
        return Err(of_entry(e));
    }
    let shown = |path: &Path| message::Name::from(path.display().to_string());
    say!("{}", said(says::Made { path: shown(&address), person: answers.person.as_str().into() }, language));
    say!("{}", said(super::named(&store)?, language));
    for t in TEMPLATES {
        let rows = vec![t.example(language)];
        let sheet = Sheet { name: t.file, headings: t.headings(), rows, ..Sheet::default() };
        written(&args.dir, t.file, &sheet)?;
        let path = args.dir.join(format!("{}.csv", t.file));
        say!("{}", said(says::EmptyFile { path: shown(&path) }, language));
    }
    let (headings, rows) = (templates::word_headings(language), templates::words(language));
    written(&args.dir, WORDS, &Sheet { name: WORDS, headings, rows, ..Sheet::default() })?;
    let path = args.dir.join(format!("{WORDS}.csv"));
    say!("{}", said(says::WordsFile { path: shown(&path) }, language));
    next(&store, &args.dir, language)
}

/// What was given, and what is asked for.
fn answers(args: &Start) -> Result<Answers, Failure> {
    let asked = Questions { none: args.no_questions, language: args.lang.of_messages() };
    let site = asked.answer(args.site.as_ref(), says::AskSite, "--site")?;
    let wells = if args.well.is_empty() {
        let all = asked.answer(None, says::AskWells, "--well")?;
        all.split(',').map(|w| w.trim().to_string()).filter(|w| !w.is_empty()).collect()
    } else {
        args.well.clone()
    };
    let trip = asked.answer(args.trip.as_ref(), says::AskTrip, "--trip")?;
    let day = asked.answer(args.day.as_ref(), says::AskDay, "--day")?;
    let person = asked.answer(args.person.as_ref(), says::AskPerson, "--as")?;
    named(&person)?;
    Ok(Answers { site, wells, trip, day, person })
}

/// Questions on the terminal.
struct Questions {
    /// Nobody is there to answer.
    none: bool,
    language: Lang,
}

impl Questions {
    fn answer(
        &self,
        given: Option<&String>,
        question: impl Into<Message>,
        option: &'static str,
    ) -> Result<String, Failure> {
        let question = question.into();
        let asked = said(question.clone(), self.language);
        let missing =
            || Failure::Usage(said(says::Missing { question: question.clone(), option: option.into() }, self.language));
        if let Some(given) = given {
            return if given.trim().is_empty() { Err(missing()) } else { Ok(given.trim().to_string()) };
        }
        if self.none {
            return Err(missing());
        }
        eprint!("{asked}: ");
        std::io::stderr().flush().context("asking")?;
        let mut line = String::new();
        std::io::stdin().lock().read_line(&mut line).context("reading an answer")?;
        // What is typed at a terminal ends its own line; what comes from a file does not.
        if !std::io::stdin().is_terminal() {
            eprintln!();
        }
        if line.trim().is_empty() { Err(missing()) } else { Ok(line.trim().to_string()) }
    }
}

/// What the answers put on record.
fn rows(a: &Answers) -> Vec<TypedRow> {
    let mut rows = vec![
        TypedRow::of("person").with("name", &a.person).with("role", "lead"),
        TypedRow::of("site").with("name", &a.site),
    ];
    rows.extend(
        a.wells
            .iter()
            .map(|w| TypedRow::of("well").with("name", w).with("site", &a.site).with("medium", "groundwater")),
    );
    rows.push(TypedRow::of("trip").with("name", &a.trip).with("starts", &a.day).with("persons", &a.person));
    rows
}

/// A table as CSV and as a workbook.
fn written(dir: &Path, file: &str, sheet: &Sheet) -> Result<(), Failure> {
    for (ending, bytes) in [("csv", sheet.csv()), ("xlsx", sheet.workbook())] {
        let path = dir.join(format!("{file}.{ending}"));
        let doing = || format!("writing {}", path.display());
        fs::write(&path, bytes.with_context(doing)?).with_context(doing)?;
    }
    Ok(())
}

/// The step that is next, by what is on record.
fn next(store: &Store, dir: &Path, language: Lang) -> Result<(), Failure> {
    let programme = dir.join(STORE).display().to_string();
    let then = |command: String| said(says::ByCommand { command: command.into() }, language);
    let Some(todo) = first_steps::next(store)? else {
        let step = said(says::Next { step: says::StepReport.into() }, language);
        let command = format!("limpid report {programme} --out {}", dir.join("report").display());
        say!("{step}; {}", then(command));
        return Ok(());
    };
    let (step, command) = match (todo.template(), todo) {
        (Some(t), _) => {
            let path = dir.join(format!("{}.csv", t.file)).display().to_string();
            let command = format!("limpid import {programme} {path} --mapping {} --as PERSON", t.mapping);
            (says::InFile { step: todo.message(), path: path.into() }.into(), command)
        }
        (None, Todo::Recipe) => {
            let path = dir.join("recipe.toml").display().to_string();
            let command = format!(
                "limpid recipes --template > {path}`, `limpid import {programme} {path} --mapping recipe --as PERSON"
            );
            (todo.message(), command)
        }
        (None, Todo::Sign) => (
            todo.message(),
            format!("limpid results {programme}`, `limpid sign {programme} RESULT --as PERSON --why REASON"),
        ),
        (None, _) => (todo.message(), format!("limpid import {programme} people.csv --mapping people --as PERSON")),
    };
    say!("{}; {}", said(says::Next { step }, language), then(command));
    if todo.template().is_some() {
        say!("      ({})", said(says::Preview, language));
    }
    if matches!(todo, Todo::Recipe | Todo::Sequence | Todo::Counts) {
        let results = dir.join("results.csv").display().to_string();
        let command = format!("limpid import {programme} {results} --mapping laboratory-long --as PERSON");
        say!("      {} {}", said(says::OrResults, language), then(command));
    }
    Ok(())
}
