//! `limpid start`: a programme of one's own. A few questions, then a folder with the programme, a template for each file
//! that comes next, a sheet of what their columns mean, and the next step. Called again on that folder it says the step
//! that is next by then.
//!
//! The example row of a template cannot be taken in by mistake: where it refers to something it says that it is an
//! example, and nothing of that name is on record. Checked in `crates/cli/tests/own_trip.rs`.

use super::{now, of_entry, open};
use crate::args::Start;
use crate::failure::Failure;
use crate::out::say;
use anyhow::{Context as _, anyhow};
use intake::entry::{self, TypedRow};
use record::by::By;
use record::schema::{self, Column, Kind, UnitOf};
use record::store::{Filter, Store, named};
use std::fs;
use std::io::{BufRead as _, IsTerminal as _, Write as _};
use std::path::Path;

/// The programme's file in the folder.
const STORE: &str = "programme.sqlite";

/// The sheet of words.
const WORDS: &str = "words.csv";

/// What stands where an example row refers to something.
const EXAMPLE: &str = "EXAMPLE delete this row";

/// A file to fill.
struct Template {
    file: &'static str,
    mapping: &'static str,
    /// Tables in which its headings are declared; the first that has one says what it means.
    tables: &'static [&'static str],
    /// Headings with what the example says; each is what the mapping reads.
    columns: &'static [(&'static str, &'static str)],
}

/// In the order in which they refer to each other.
const TEMPLATES: &[Template] = &[
    Template {
        file: "bottles.csv",
        mapping: "bottles",
        tables: &["bottle"],
        columns: &[
            ("label", "A-1"),
            ("kind", "sample"),
            ("trip", EXAMPLE),
            ("well", EXAMPLE),
            ("fraction", "unfiltered"),
            ("volume_mL", "250"),
            ("filled_at", "2026-05-11 09:30"),
            ("acid_mL", "0.5"),
            ("acidified_at", "2026-05-11 09:40"),
            ("openings", "1"),
            ("cabinet_min", "2"),
            ("open_air_min", "0"),
            ("parent", ""),
            ("note", "calm, no traffic"),
        ],
    },
    Template {
        file: "field-readings.csv",
        mapping: "field-readings",
        tables: &["field_reading"],
        columns: &[
            ("trip", EXAMPLE),
            ("well", EXAMPLE),
            ("at", "2026-05-11 09:20"),
            ("quantity", "temperature"),
            ("value", "9.4"),
            ("u", "0.1"),
            ("unit", "Cel"),
        ],
    },
    Template {
        file: "fills.csv",
        mapping: "fills",
        tables: &["fill"],
        columns: &[
            ("trip", EXAMPLE),
            ("well", EXAMPLE),
            ("at", "2026-05-11 09:15"),
            ("volume_L", "1"),
            ("u_volume_L", "0.01"),
            ("seconds", "8.2"),
        ],
    },
    Template {
        file: "results.csv",
        mapping: "laboratory-long",
        tables: &["result", "measurand", "bottle"],
        columns: &[
            ("bottle", "A-1"),
            ("analyte", "Pb"),
            ("fraction", "unfiltered"),
            ("value", "<0.05"),
            ("u", ""),
            // No reference here that could be refused: no unit is called so either.
            ("unit", EXAMPLE),
            ("detection_limit", "0.05"),
            ("reporting_limit", "0.05"),
            ("laboratory", "name of the laboratory"),
            ("method", "name of the method"),
        ],
    },
];

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
    let address = args.dir.join(STORE);
    if address.exists() {
        return next(&open(&address.to_string_lossy())?, &args.dir);
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
    let mut store = programme::start::start(&address, by.person, by.at)?;
    if let Err(e) = entry::enter(&mut store, by, "start of the programme", &rows(&answers)) {
        // Nothing but the empty programme was made: the same words, mended, are to be taken.
        drop(store);
        fs::remove_file(&address).with_context(|| format!("removing {}", address.display()))?;
        return Err(of_entry(e));
    }
    say!("{}: the programme, with {} as lead", address.display(), answers.person);
    for template in TEMPLATES {
        written(&args.dir, template.file, &lines(template))?;
        say!(
            "{}: empty, with one example row, which is refused until it is deleted",
            args.dir.join(template.file).display()
        );
    }
    written(&args.dir, WORDS, &words())?;
    say!("{}: what each column means, its unit, the words it takes", args.dir.join(WORDS).display());
    next(&store, &args.dir)
}

/// What was given, and what is asked for.
fn answers(args: &Start) -> Result<Answers, Failure> {
    let asked = Questions { none: args.no_questions };
    let site = asked.answer(args.site.as_ref(), "Name of the site", "--site")?;
    let wells = if args.well.is_empty() {
        let all = asked.answer(None, "Names of the wells, with a comma between", "--well")?;
        all.split(',').map(|w| w.trim().to_string()).filter(|w| !w.is_empty()).collect()
    } else {
        args.well.clone()
    };
    let trip = asked.answer(args.trip.as_ref(), "Name of the first trip", "--trip")?;
    let day = asked.answer(args.day.as_ref(), "Its day, as 2026-05-11", "--day")?;
    let person = asked.answer(args.person.as_ref(), "Who leads the programme", "--as")?;
    named(&person)?;
    Ok(Answers { site, wells, trip, day, person })
}

/// Questions on the terminal.
struct Questions {
    /// Nobody is there to answer.
    none: bool,
}

impl Questions {
    fn answer(&self, given: Option<&String>, question: &str, option: &str) -> Result<String, Failure> {
        let missing = || Failure::Usage(format!("{question}? Say it with {option}"));
        if let Some(given) = given {
            return if given.trim().is_empty() { Err(missing()) } else { Ok(given.trim().to_string()) };
        }
        if self.none {
            return Err(missing());
        }
        eprint!("{question}: ");
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

fn lines(template: &Template) -> Vec<Vec<String>> {
    let of = |part: fn(&(&str, &str)) -> String| template.columns.iter().map(part).collect();
    vec![of(|(heading, _)| (*heading).to_string()), of(|(_, example)| (*example).to_string())]
}

/// The sheet of words, from the declarations that the importer reads by.
fn words() -> Vec<Vec<String>> {
    let headings = ["file", "column", "needed", "unit", "takes", "means"].map(String::from).to_vec();
    let of =
        |t: &'static Template| t.columns.iter().filter_map(move |(heading, _)| Some(word(t, declared(t, heading)?)));
    std::iter::once(headings).chain(TEMPLATES.iter().flat_map(of)).collect()
}

/// Where a heading is declared.
fn declared(template: &Template, heading: &str) -> Option<&'static Column> {
    let tables = template.tables.iter().filter_map(|t| schema::table(t));
    tables.flat_map(|t| t.columns).find(|c| c.name == heading)
}

fn word(template: &Template, column: &Column) -> Vec<String> {
    let unit = match column.unit {
        UnitOf::Fixed(unit) => unit.in_words(),
        UnitOf::Column(other) => format!("as in the column {other}"),
        UnitOf::None => String::new(),
    };
    let takes = match column.kind {
        Kind::Word(words) => words.join(", "),
        Kind::Real => "a number".into(),
        Kind::Integer => "a whole number".into(),
        Kind::Time => "a day, or day and time: 2026-05-11 09:30".into(),
        Kind::Unit => "a unit: ng/L, ug/L, mg/L, Cel, pH, uS/cm, mV".into(),
        Kind::Row(table) => format!("the name of a {}", table.replace('_', " ")),
        Kind::Text | Kind::Json | Kind::Blob => "text".into(),
    };
    let needed = if column.required { "yes" } else { "" };
    [template.file, column.name, needed, &unit, &takes, column.about].map(String::from).to_vec()
}

fn written(dir: &Path, file: &str, lines: &[Vec<String>]) -> Result<(), Failure> {
    let path = dir.join(file);
    let doing = || format!("writing {}", path.display());
    let mut out = csv::Writer::from_path(&path).with_context(doing)?;
    for line in lines {
        out.write_record(line).with_context(doing)?;
    }
    out.flush().map_err(|e| Failure::Outside(anyhow!(e).context(doing())))
}

/// The step that is next, by what is on record.
fn next(store: &Store, dir: &Path) -> Result<(), Failure> {
    let (programme, at) = (dir.join(STORE), |file: &str| dir.join(file).display().to_string());
    let programme = programme.display();
    let import = |t: &Template| format!("limpid import {programme} {} --mapping {} --as PERSON", at(t.file), t.mapping);
    let some = |table: &str| Ok::<_, Failure>(!store.as_typed(table, &Filter::all().limit(1))?.is_empty());
    let steps = [
        ("bottle", "fill in one row a bottle, blanks too"),
        ("field_reading", "fill in what was read at the wells"),
        ("fill", "fill in the timed fills of the wells"),
        ("result", "fill in what the laboratory reported"),
    ];
    for ((table, what), t) in steps.into_iter().zip(TEMPLATES) {
        // Where results are there already nobody waits for a reading.
        if !some(table)? && !some("result")? {
            let file = at(t.file);
            say!("next: in {file} delete the example row and {what}; then `{}`", import(t));
            say!("      (with --preview nothing is taken yet; what there is none of may be left out)");
            return Ok(());
        }
    }
    say!("next: `limpid results {programme}`, then `limpid report {programme} --out {}`", at("report"));
    Ok(())
}
