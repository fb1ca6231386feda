//! `limpid import`: raw files in, all or nothing; then everything is derived anew.

use super::{now, open_to_take_in, upkeep};
use crate::args::Import;
use crate::failure::{Failure, how_to_agree};
use crate::out::{progress, say};
use intake::import::guess::{self, Guess, guess};
use intake::import::names::proposals;
use intake::import::{self, Agreed, FileTaken, Imported, Input, in_words};
use programme::work;
use record::by::By;
use record::store::Store;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

/// Notes that are printed one by one.
const NOTES: usize = 5;

/// Runs `limpid import`.
pub fn run(args: &Import) -> Result<(), Failure> {
    let mut store = if args.new {
        upkeep::begin(&args.store, &args.hand)?
    } else {
        let store = open_to_take_in(&args.store)?;
        args.hand.may_act(&store)?;
        store
    };
    if args.mapping.as_deref() == Some(guess::NAME) {
        return guessed(&mut store, args);
    }
    if !args.said.is_empty() || args.save_mapping.is_some() {
        return Err(Failure::Usage("--set and --save-mapping go with --mapping guess".into()));
    }
    let inputs = inputs(&store, args)?;
    take(&mut store, &inputs, args)
}

/// Previews or takes in.
fn take(store: &mut Store, inputs: &[Input], args: &Import) -> Result<(), Failure> {
    let agreed = agreed(args)?;
    if args.preview {
        return preview(store, inputs, args, &agreed);
    }
    let (at, why) = (now(), args.why.as_deref().unwrap_or_default());
    let by = By { person: args.hand.name(), at: &at };
    let (taken, derived) = work::take_in_agreed(store, inputs, by, (why, &agreed), &progress(), |taken| {
        if !args.json {
            say(taken);
        }
    })?;
    // Only now: the files may have brought the person, with a role.
    args.hand.keep(store)?;
    if args.json {
        say!("{}", document(&taken, &derived));
    } else if let (Ok(done), true) = (&derived, taken.head.is_some()) {
        upkeep::say(done);
    }
    upkeep::derived(derived?)
}

/// A mapping guessed from each file: shown, saved where asked, and used where the file leaves no question open.
fn guessed(store: &mut Store, args: &Import) -> Result<(), Failure> {
    let guesses: Vec<Guess> = args.inputs.iter().map(|p| guess(p, &args.said)).collect::<Result<_, _>>()?;
    if !args.json && (args.preview || args.save_mapping.is_some()) {
        for (path, g) in args.inputs.iter().zip(&guesses) {
            say!("# {}: a mapping guessed from it", path.display());
            say!("{}", g.toml());
        }
    }
    if let Some(to) = &args.save_mapping {
        let [only] = &guesses[..] else {
            return Err(Failure::Usage("--save-mapping writes the mapping of one file: give one".into()));
        };
        std::fs::write(to, only.toml()).map_err(|e| Failure::Outside(anyhow::Error::new(e)))?;
    }
    let asked: Vec<String> = args
        .inputs
        .iter()
        .zip(&guesses)
        .flat_map(|(p, g)| g.questions.iter().map(move |q| format!("{}: {q}", p.display())))
        .collect();
    let inputs: Result<Vec<Input>, _> = args
        .inputs
        .iter()
        .zip(&guesses)
        .map(|(p, g)| g.mapping().map(|mapping| Input { path: p.clone(), mapping }))
        .collect();
    let open = || Failure::Refused(format!("the file does not say; answer with --set\n  {}", asked.join("\n  ")));
    match inputs {
        Err(_) if !asked.is_empty() => {
            if args.json {
                let one = |(p, g): (&PathBuf, &Guess)| json!({ "file": p.display().to_string(), "mapping": g.toml(), "questions": g.questions });
                let all: Vec<Value> = args.inputs.iter().zip(&guesses).map(one).collect();
                say!(
                    "{}",
                    json!({ "guesses": all, "method": "guess: nothing was taken", "sources": [], "warnings": [] })
                );
            } else {
                guesses.iter().for_each(first_rows);
            }
            Err(open())
        }
        Err(e) => Err(import::ImportError::from(e).into()),
        Ok(_) if !asked.is_empty() && !args.preview => Err(open()),
        Ok(inputs) => {
            let done = take(store, &inputs, args);
            if asked.is_empty() {
                return done;
            }
            // The questions first: most faults of a file that is read with one open are of that one.
            Err(match (done, open()) {
                (Err(Failure::Refused(faults)), Failure::Refused(open)) => {
                    Failure::Refused(format!("{open}\nand, read so: {faults}"))
                }
                (Err(other), _) | (Ok(()), other) => other,
            })
        }
    }
}

/// The first rows of a file as they are read, where no mapping can say yet what becomes of them.
fn first_rows(g: &Guess) {
    say!("  {}", g.headings.join(" | "));
    for row in g.rows.iter().take(import::SHOWN_READ) {
        say!("  {}", row.join(" | "));
    }
}

/// What the file told of its form, and what became of its first rows: as read, as kept.
fn how_read(file: &FileTaken) {
    if !file.form_in_words().is_empty() {
        say!("  {} told by the file: {}", file.file, file.form_in_words());
    }
    for row in &file.shown {
        let read: Vec<String> = row.read.iter().map(|(h, c)| format!("{h} {c:?}")).collect();
        say!("  row {}: {}", row.row, read.join(", "));
        for kept in &row.kept {
            say!("    → {kept}");
        }
        if row.kept.is_empty() {
            say!("    → no result");
        }
    }
}

/// What was taken in and what came of it, for programs.
fn document(taken: &Imported, derived: &Result<work::Recomputed, record::Error>) -> Value {
    let done = derived.as_ref().ok();
    json!({
        "files": taken.files,
        "notes": taken.notes,
        "head": taken.head.map(|h| h.to_string()),
        "derived": done.is_some(),
        "results_written": done.map(|d| d.results),
        "verdicts_written": done.map(|d| d.verdicts),
        "underived": done.map(|d| &d.underived),
        "method": "import by mapping, all or nothing",
        "sources": [],
        "warnings": derived.as_ref().err().map(ToString::to_string).into_iter().collect::<Vec<_>>(),
    })
}

/// The inputs of the command: with `--mapping bundle`, or for a `.toml` file and no mapping, what a
/// bundle lists.
fn inputs(store: &Store, args: &Import) -> Result<Vec<Input>, Failure> {
    let toml = |p: &PathBuf| p.extension().is_some_and(|e| e == "toml");
    let name = match args.mapping.as_deref() {
        Some(name) => name,
        None if args.inputs.iter().all(toml) => "bundle",
        None => {
            return Err(Failure::Usage(format!(
                "say how the files are to be read: --mapping NAME, where NAME is a mapping file or one of {}",
                names().join(", ")
            )));
        }
    };
    Ok(import::inputs(store, &args.inputs, name)?)
}

fn agreed(args: &Import) -> Result<Agreed, Failure> {
    Agreed::parse(&args.take, &args.new_name).map_err(|word| {
        Failure::Usage(format!("--take \"{word}\": write it as \"Blei=Pb\", a name of the files and one on record"))
    })
}

fn names() -> Vec<&'static str> {
    import::SHIPPED.iter().map(|(name, _)| *name).collect()
}

fn preview(store: &mut Store, inputs: &[Input], args: &Import, agreed: &Agreed) -> Result<(), Failure> {
    let seen = import::preview_agreed(store, inputs, &now(), (args.why.as_deref().unwrap_or_default(), agreed))?;
    let proposed = proposals(&seen.faults.shown);
    if args.json {
        say!(
            "{}",
            json!({ "files": seen.files, "notes": seen.notes, "faults": seen.faults.shown, "faults_total": seen.faults.total, "proposals": proposed, "method": "preview: nothing was taken", "sources": [], "warnings": [] })
        );
    } else {
        say(&seen);
        for file in &seen.files {
            how_read(file);
            for (table, rows) in &file.tables {
                say!("\n{} → {table}: first rows\n  {}", file.file, rows.columns.join(" | "));
                for row in &rows.rows {
                    say!("  {}", row.join(" | "));
                }
            }
        }
    }
    if seen.faults.is_empty() {
        return Ok(());
    }
    let shown: Vec<String> = seen.faults.shown.iter().map(in_words).collect();
    let how = how_to_agree(&proposed);
    Err(Failure::Refused(format!("{} faults\n  {}{how}", seen.faults.total, shown.join("\n  "))))
}

/// What came of each file.
pub fn say(taken: &Imported) {
    for f in &taken.files {
        say!("{}", f.in_words());
    }
    for n in taken.notes.iter().take(NOTES) {
        say!("note: {}", in_words(n));
    }
    if taken.notes.len() > NOTES {
        say!("… {} more notes; --json gives all", taken.notes.len() - NOTES);
    }
}

/// Takes in one bundle as somebody at a given time, and derives everything.
pub fn bundle(store: &mut Store, bundle: &Path, by: By) -> Result<work::Recomputed, Failure> {
    let inputs = import::inputs(store, &[bundle.to_path_buf()], "bundle")?;
    let (_, done) = work::take_in(store, &inputs, by, &|_| true, say)?;
    Ok(done?)
}
