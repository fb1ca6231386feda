//! Turns of people: how much of one person is done at the same time. Who asks for more than that waits; others do not.

use crate::lock::lock;
use std::collections::HashMap;
use std::sync::{Arc, Mutex};
use std::time::Duration;
use tokio::sync::{OwnedSemaphorePermit, Semaphore};

/// Longest wait for a turn: after that something else is wrong.
const PATIENCE: Duration = Duration::from_secs(30);

/// Turns, so many of each person.
pub(crate) struct People {
    of_one: usize,
    turns: Mutex<HashMap<String, Arc<Semaphore>>>,
}

impl People {
    pub fn new(of_one: usize) -> Self {
        Self { of_one, turns: Mutex::default() }
    }

    /// The turns of a person. Those of who has nothing under way are forgotten, so the list stays as long as the team at work.
    pub fn of(&self, person: &str) -> Arc<Semaphore> {
        let mut turns = lock(&self.turns);
        turns.retain(|name, own| name == person || Arc::strong_count(own) > 1);
        turns.entry(person.into()).or_insert_with(|| Arc::new(Semaphore::new(self.of_one))).clone()
    }

    /// A turn; none where it did not come.
    pub async fn turn(&self, person: &str) -> Option<OwnedSemaphorePermit> {
        tokio::time::timeout(PATIENCE, self.of(person).acquire_owned()).await.ok()?.ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_persons_turns_are_not_anothers() {
        let people = People::new(2);
        let taken: Vec<_> = (0..2).map(|_| people.of("a").try_acquire_owned().unwrap()).collect();
        assert!(people.of("a").try_acquire_owned().is_err());
        assert!(people.of("b").try_acquire_owned().is_ok());
        drop(taken);
        assert!(people.of("a").try_acquire_owned().is_ok());
        people.of("c");
        assert_eq!(lock(&people.turns).len(), 1, "who has nothing under way is forgotten");
    }
}
