//! How often may a password be tried? Five times in a quarter of an hour for a name, twenty for an address; then
//! one waits. Counted in memory, before the password is looked at: many tries at once are as many tries.

use crate::lock::lock;
use std::collections::HashMap;
use std::sync::Mutex;
use std::time::{Duration, Instant};

const WINDOW: Duration = Duration::from_mins(15);
const FOR_A_NAME: usize = 5;
const FOR_AN_ADDRESS: usize = 20;

/// Names and addresses remembered at most; beyond, the oldest are forgotten.
const MOST: usize = 10_000;

/// Tries that did not succeed (yet), by name and address.
pub(crate) struct Throttle {
    tries: Mutex<HashMap<String, Vec<Instant>>>,
    hashing: tokio::sync::Semaphore,
}

impl Default for Throttle {
    fn default() -> Self {
        Self { tries: Mutex::default(), hashing: tokio::sync::Semaphore::new(1) }
    }
}

impl Throttle {
    /// Counts a try and answers its moment, or how long to wait before the next one. Asked and counted in one step, so
    /// that of tries made at the same time no more get through than one after the other.
    pub fn begin(&self, name: &str, address: &str) -> Result<Instant, Duration> {
        let now = Instant::now();
        let mut all = lock(&self.tries);
        if all.len() > MOST {
            all.retain(|_, tries| tries.iter().any(|t| now.duration_since(*t) < WINDOW));
        }
        let mut longest = None;
        for (key, most) in keys(name, address) {
            let Some(tries) = all.get_mut(&key) else { continue };
            tries.retain(|t| now.duration_since(*t) < WINDOW);
            if tries.len() >= most {
                longest = longest.max(tries.first().map(|t| WINDOW.saturating_sub(now.duration_since(*t))));
            }
        }
        if let Some(wait) = longest {
            return Err(wait);
        }
        for (key, _) in keys(name, address) {
            all.entry(key).or_default().push(now);
        }
        Ok(now)
    }

    /// One's turn to have a password hashed.
    pub async fn turn(&self) -> Option<tokio::sync::SemaphorePermit<'_>> {
        self.hashing.acquire().await.ok()
    }

    /// The try of that moment succeeded: the name starts anew, and the address did not fail.
    pub fn succeeded(&self, name: &str, address: &str, begun: Instant) {
        let mut all = lock(&self.tries);
        let [(name, _), (address, _)] = keys(name, address);
        all.remove(&name);
        if let Some(tries) = all.get_mut(&address)
            && let Some(own) = tries.iter().position(|t| *t == begun)
        {
            tries.remove(own);
        }
    }
}

fn keys(name: &str, address: &str) -> [(String, usize); 2] {
    [(format!("name {name}"), FOR_A_NAME), (format!("address {address}"), FOR_AN_ADDRESS)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sixth_try_waits_and_another_name_does_not() {
        let t = Throttle::default();
        let mut last = None;
        for _ in 0..FOR_A_NAME {
            last = t.begin("a", "1").ok();
        }
        assert!(t.begin("a", "2").is_err());
        assert!(t.begin("b", "1").is_ok());
        t.succeeded("a", "1", last.unwrap());
        assert!(t.begin("a", "2").is_ok());
        for n in 0..FOR_AN_ADDRESS {
            t.begin(&n.to_string(), "9").unwrap();
        }
        assert!(t.begin("new", "9").is_err());
    }

    #[test]
    fn a_try_that_succeeds_is_none_of_its_address() {
        let t = Throttle::default();
        for n in 0..3 * FOR_AN_ADDRESS {
            let begun = t.begin("a", "1").unwrap_or_else(|wait| panic!("try {n} waits {wait:?}"));
            t.succeeded("a", "1", begun);
        }
        for n in 0..FOR_AN_ADDRESS {
            t.begin(&n.to_string(), "1").unwrap();
        }
        assert!(t.begin("a", "1").is_err(), "those that failed still count");
    }
}
