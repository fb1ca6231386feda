//! The way in: what a programme has of what a first year needs, and which step is next, from an empty record to a signed
//! result. The command line says the step in words, the web interface leads there.
//!
//! In: a store. Out: [`Step`]s in their order, each done or not. Nothing is forced: where a laboratory reports
//! concentrations, recipe and run are not waited for; where results are there, nobody waits for a reading.
//! Checked by the guides that tests follow: `crates/cli/tests/own_trip.rs`, `crates/web/tests/first_year.rs`.

use crate::templates::{self, Template};
use message::{Message, start};
use record::error::Error;
use record::store::{Filter, Store};

/// What is to be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Todo {
    /// Who works on the programme.
    People,
    /// Wells.
    Wells,
    /// A trip.
    Trips,
    /// Bottles.
    Bottles,
    /// Readings at the wells.
    Readings,
    /// Timed fills.
    Fills,
    /// Custody.
    Custody,
    /// A recipe.
    Recipe,
    /// The sequence of a run.
    Sequence,
    /// Its counts.
    Counts,
    /// What a laboratory reported.
    Results,
    /// Somebody stands for a result.
    Sign,
}

/// A step of the way in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// What.
    pub todo: Todo,
    /// Whether it is done, or nobody waits for it any more.
    pub done: bool,
}

impl Todo {
    /// In words.
    pub fn message(self) -> Message {
        match self {
            Self::People => start::StepPeople.into(),
            Self::Wells => start::StepWells.into(),
            Self::Trips => start::StepTrips.into(),
            Self::Bottles => start::StepBottles.into(),
            Self::Readings => start::StepReadings.into(),
            Self::Fills => start::StepFills.into(),
            Self::Custody => start::StepCustody.into(),
            Self::Recipe => start::StepRecipe.into(),
            Self::Sequence => start::StepSequence.into(),
            Self::Counts => start::StepCounts.into(),
            Self::Results => start::StepResults.into(),
            Self::Sign => start::StepSign.into(),
        }
    }

    /// The empty file by which it comes in.
    pub fn template(self) -> Option<&'static Template> {
        let file = match self {
            Self::People | Self::Recipe | Self::Sign => return None,
            Self::Wells => "wells",
            Self::Trips => "trips",
            Self::Bottles => "bottles",
            Self::Readings => "field-readings",
            Self::Fills => "fills",
            Self::Custody => "custody",
            Self::Sequence => "sequence",
            Self::Counts => "counts",
            Self::Results => "results",
        };
        templates::of(file)
    }
}

/// All steps, in their order.
///
/// # Errors
/// The store cannot be read.
pub fn steps(store: &Store) -> Result<Vec<Step>, Error> {
    let some = |table: &str| Ok::<_, Error>(!store.as_typed(table, &Filter::all().limit(1))?.is_empty());
    let results = some("result")?;
    let counts = some("reading")?;
    // By counts or as concentrations: one of the two is enough.
    let reported = results && !counts;
    let done = [
        (Todo::People, some("person")?),
        (Todo::Wells, some("well")?),
        (Todo::Trips, some("trip")? || results),
        (Todo::Bottles, some("bottle")?),
        (Todo::Readings, some("field_reading")? || results),
        (Todo::Fills, some("fill")? || results),
        (Todo::Custody, some("custody")? || results),
        (Todo::Recipe, some("recipe")? || reported),
        (Todo::Sequence, some("run")? || reported),
        (Todo::Counts, counts || reported),
        (Todo::Results, results),
        (Todo::Sign, some("sign_off")?),
    ];
    Ok(done.map(|(todo, done)| Step { todo, done }).to_vec())
}

/// The step that is next; none where all are done.
///
/// # Errors
/// The store cannot be read.
pub fn next(store: &Store) -> Result<Option<Todo>, Error> {
    Ok(steps(store)?.into_iter().find(|s| !s.done).map(|s| s.todo))
}
