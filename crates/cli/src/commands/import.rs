//! `limpid import`: raw files in, all or nothing; then everything is derived anew.

use super::{now, open_to_take_in, upkeep};
use crate::args::Import;
use crate::failure::{Failure, how_to_agree};
use crate::out::{progress, say};
use intake::import::names::proposals;
use intake::import::{self, Agreed, Imported, Input, in_words};
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
    let inputs = inputs(&store, args)?;
    let agreed = agreed(args)?;
    if args.preview {
        return preview(&mut store, &inputs, args, &agreed);
    }
    let (at, why) = (now(), args.why.as_deref().unwrap_or_default());
    let by = By { person: args.hand.name(), at: &at };
    let (taken, derived) = work::take_in_agreed(&mut store, &inputs, by, (why, &agreed), &progress(), |taken| {
        if !args.json {
            say(taken);
        }
    })?;
    // Only now: the files may have brought the person, with a role.
    args.hand.keep(&mut store)?;
    if args.json {
        say!("{}", document(&taken, &derived));
    } else if let (Ok(done), true) = (&derived, taken.head.is_some()) {
        upkeep::say(done);
    }
    upkeep::derived(derived?)
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
