//! How often may a password be tried? Five times in a quarter of an hour for a name, twenty for an address; then
//! one waits. Counted in memory.

use crate::record::lock;
use std::collections::HashMap;
use std::sync::Mutex;
use std::time::{Duration, Instant};

const WINDOW: Duration = Duration::from_mins(15);
const FOR_A_NAME: usize = 5;
const FOR_AN_ADDRESS: usize = 20;

/// Names and addresses remembered at most; beyond, the oldest are forgotten.
const MOST: usize = 10_000;

/// Tries that failed, by name and address.
pub(crate) struct Throttle {
    failed: Mutex<HashMap<String, Vec<Instant>>>,
    hashing: tokio::sync::Semaphore,
}

impl Default for Throttle {
    fn default() -> Self {
        Self { failed: Mutex::default(), hashing: tokio::sync::Semaphore::new(1) }
    }
}

impl Throttle {
    /// How long to wait before the next try; none where it may be made at once.
    pub fn wait(&self, name: &str, address: &str) -> Option<Duration> {
        let now = Instant::now();
        let mut all = lock(&self.failed);
        let mut longest = None;
        for (key, most) in keys(name, address) {
            let Some(tries) = all.get_mut(&key) else { continue };
            tries.retain(|t| now.duration_since(*t) < WINDOW);
            if tries.len() >= most {
                longest = longest.max(tries.first().map(|t| WINDOW.saturating_sub(now.duration_since(*t))));
            }
        }
        longest
    }

    /// One's turn to have a password hashed.
    pub async fn turn(&self) -> Option<tokio::sync::SemaphorePermit<'_>> {
        self.hashing.acquire().await.ok()
    }

    /// A try failed.
    pub fn failed(&self, name: &str, address: &str) {
        let mut all = lock(&self.failed);
        if all.len() > MOST {
            let now = Instant::now();
            all.retain(|_, tries| tries.iter().any(|t| now.duration_since(*t) < WINDOW));
        }
        for (key, _) in keys(name, address) {
            all.entry(key).or_default().push(Instant::now());
        }
    }

    /// A try succeeded: the name starts anew.
    pub fn succeeded(&self, name: &str) {
        lock(&self.failed).remove(&format!("name {name}"));
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
        for _ in 0..FOR_A_NAME {
            assert!(t.wait("a", "1").is_none());
            t.failed("a", "1");
        }
        assert!(t.wait("a", "2").is_some());
        assert!(t.wait("b", "1").is_none());
        t.succeeded("a");
        assert!(t.wait("a", "2").is_none());
        for n in 0..FOR_AN_ADDRESS {
            t.failed(&n.to_string(), "9");
        }
        assert!(t.wait("new", "9").is_some());
    }
}
