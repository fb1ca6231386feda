//! Whose hand is on an act (`--as`, `--new-person`): looked at before the act, kept with it.

use super::{now, of_entry};
use crate::args::Hand;
use crate::failure::Failure;
use crate::out::progress;
use programme::hands::{self, NOT_NAMED};
use programme::work;
use record::by::By;
use record::store::Store;

impl Hand {
    /// The name that stands under the act.
    pub fn name(&self) -> &str {
        self.person.as_deref().unwrap_or(NOT_NAMED)
    }

    /// Refuses a name that is not on record and is not said to be new. Whoever is not named may act.
    pub fn may_act(&self, store: &Store) -> Result<(), Failure> {
        match &self.person {
            Some(name) => Ok(hands::known(store, name, self.new_person)?),
            None => Ok(()),
        }
    }

    /// Puts somebody new on record, after an act that did not do so itself.
    pub fn keep(&self, store: &mut Store) -> Result<(), Failure> {
        if !self.new_person {
            return Ok(());
        }
        let at = now();
        let by = By { person: self.name(), at: &at };
        if hands::put_on_record(store, by).map_err(of_entry)? {
            // Nothing follows from a name, but an act after which nothing was derived would be told as "not yet derived".
            work::follow(store, by, &progress())?;
        }
        Ok(())
    }
}
