//! One module a command.

mod anchor;
mod attribution;
mod calc;
mod case;
mod checks;
mod correct;
mod demo;
mod doctor;
mod export;
mod field;
mod hand;
mod hand_over;
mod history;
mod import;
mod keys;
mod limits;
mod lots;
mod manual;
mod merge_names;
mod pairs;
mod plan;
mod profiles;
mod recipes;
mod report;
mod request;
mod results;
mod results_wide;
mod results_written;
mod serve;
mod shadow;
mod sign;
mod start;
mod state;
mod supplement;
mod survey;
mod upkeep;
mod verify;

use crate::args::Command;
use crate::failure::Failure;
use anyhow::Context as _;
use intake::entry::EntryError;
use message::{Message, Name, trust as says};
use record::store::Store;
use std::fs;
use std::io::Write as _;
use std::path::Path;

/// Does what was asked.
pub fn run(command: Command) -> Result<(), Failure> {
    match command {
        Command::Demo { dir } => demo::run(&dir),
        Command::New { store, from: None, hand } => upkeep::new(&store, &hand),
        Command::New { store, from: Some(package), .. } => export::read_back(&store, &package),
        Command::Start(args) => start::run(&args),
        Command::Import(args) => import::run(&args),
        Command::Results(args) => results::run(&args),
        Command::Case { store, result, json } => case::run(&store, &result, json),
        Command::Recompute { store, run, hand } => upkeep::recompute(&store, run.as_deref(), &hand),
        Command::Exclude { store, reading, why, hand, back } => upkeep::exclude(&store, &reading, !back, &why, &hand),
        Command::History { store, all, json } => history::run(&store, all, json),
        Command::Undo { store, event, why, hand } => history::undo(&store, &event, &why, &hand),
        Command::Sign(args) => sign::run(&args),
        Command::Keys(args) => keys::run(&args),
        Command::Anchor(args) => anchor::run(&args),
        Command::Checks(args) => checks::run(&args),
        Command::Shadow(args) => shadow::run(&args),
        Command::Pairs(args) => pairs::run(&args),
        Command::Request(args) => request::run(&args),
        Command::Unblind(args) => request::unblind(&args),
        Command::Profiles(args) => profiles::run(&args),
        Command::Recipes(args) => recipes::run(&args),
        Command::VialName { store, vial, name, hand, why } => upkeep::vial_name(&store, (&vial, &name), &why, &hand),
        Command::Correct(args) => correct::run(&args),
        Command::MergeNames(args) => merge_names::run(&args),
        Command::FieldSheet(args) => field::sheet(&args),
        Command::Conflicts { store, json } => field::conflicts(&store, json),
        Command::Settle { store, bottle, column, value, hand, why } => {
            field::settle(&store, (&bottle, &column), &value, &hand, &why)
        }
        Command::CasNumber { store, compound, number, hand, why } => {
            upkeep::cas_number(&store, (&compound, &number), &why, &hand)
        }
        Command::Report { store, out, kind, lang, sections, scope, contact, attach_package, licence } => {
            let package = attach_package.then_some(exchange::Options { licence, ..Default::default() });
            report::run(&store, &out, &report::Wanted { kind, lang, sections, scope, contact, package })
        }
        Command::State { store, action } => state::run(&store, action),
        Command::Limits(args) => limits::run(&args),
        Command::Export(args) => export::run(&args),
        Command::Supplement(args) => supplement::run(&args),
        Command::Verify(args) => verify::run(&args),
        Command::Backup { store, file } => upkeep::backup(&store, &file),
        Command::Restore { file, store } => upkeep::restore(&file, &store),
        Command::Move { from, to } => upkeep::move_programme(&from, &to),
        Command::Lots { store, json } => lots::run(&store, json),
        Command::Attribution { store, analyte, json } => attribution::run(&store, analyte.as_deref(), json),
        Command::Plan(args) => plan::run(&args),
        Command::Serve(args) => serve::run(&args),
        Command::Account(args) => serve::account(&args),
        Command::Calc(args) => calc::run(&args),
        Command::Doctor { store, json, lang } => doctor::run(store.as_deref(), json, lang.of_messages()),
        Command::Completions { shell } => manual::completions(shell),
        Command::Manual { dir } => manual::pages(&dir),
        Command::Survey { words } => hand_over::run("survey", &words),
        Command::SurveyWorker { words } => hand_over::run("worker", &words),
    }
}

/// How much of the file a command keeps in memory: each reads on from where it is, and looks back seldom. A choice.
const CACHE_KIB: u32 = 16 * 1024;

fn open(address: &str) -> Result<Store, Failure> {
    let mut store = open_to_take_in(address)?;
    store.set_cache(CACHE_KIB)?;
    Ok(store)
}

/// For a large import, which holds the growing ends of all indexes.
fn open_to_take_in(address: &str) -> Result<Store, Failure> {
    tell_left_over(address);
    Ok(Store::open(address).map_err(record::Error::from)?)
}

/// Tells what copies and starts that were broken off left beside a programme, and clears it away.
fn tell_left_over(address: &str) {
    if record::store::is_server(Path::new(address)) {
        return;
    }
    for found in record::store::left_over(Path::new(address)) {
        let file = Name::from(found.path.display().to_string());
        let said: Message =
            if found.removed { says::LeftOver { file }.into() } else { says::BeingMade { file }.into() };
        eprintln!("{}", said.in_english());
    }
}

/// The programme by its identity, how many events it has had, and its head.
fn named(store: &Store) -> Result<Message, Failure> {
    let (n, head) = (store.last_event_number()?, store.head()?.map_or_else(|| "–".into(), |h| h.to_string()));
    let head = Name::from(head);
    Ok(match store.identity()? {
        Some(identity) => says::Programme { identity: identity.into(), n, head }.into(),
        None => says::NoIdentity { n, head }.into(),
    })
}

/// A new file; what stands there already is left.
fn new_file(path: &Path, bytes: impl AsRef<[u8]>) -> Result<(), Failure> {
    let doing = || format!("writing {}", path.display());
    let mut file = fs::File::create_new(path).with_context(doing)?;
    file.write_all(bytes.as_ref()).and_then(|()| file.sync_all()).with_context(doing)?;
    Ok(())
}

/// Whether a file lies where the programme lies, or below: who can write the one can write the other.
fn is_beside(file: &Path, address: &str) -> bool {
    let folder = |p: &Path| p.canonicalize().ok().and_then(|p| p.parent().map(Path::to_path_buf));
    !record::store::is_server(Path::new(address))
        && matches!((folder(file), folder(Path::new(address))), (Some(f), Some(a)) if f.starts_with(&a))
}

/// Why nothing was entered or corrected.
fn of_entry(e: EntryError) -> Failure {
    match e {
        EntryError::Faults(_) => Failure::Refused(e.to_string()),
        EntryError::Store(e) => e.into(),
        EntryError::Programme(e) => e.into(),
        other => Failure::Outside(anyhow::anyhow!(other)),
    }
}

/// The moment of an act, to the second, in universal time.
fn now() -> String {
    jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
}
