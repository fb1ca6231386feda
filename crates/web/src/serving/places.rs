//! The places that connections take. Where none is free, the one whose holder asks for nothing gives way: of the address
//! that holds most, the one that waits longest.

use crate::lock::lock;
use std::collections::HashMap;
use std::net::IpAddr;
use std::sync::{Arc, Mutex};
use std::time::Instant;
use tokio::sync::Notify;

struct Taken {
    from: IpAddr,
    /// Requests being answered; none: it waits.
    at_work: usize,
    /// Since when it stands as it stands.
    since: Instant,
    close: Arc<Notify>,
}

#[derive(Default)]
struct All {
    next: u64,
    taken: HashMap<u64, Taken>,
}

impl All {
    fn of(&self, from: IpAddr) -> usize {
        self.taken.values().filter(|t| t.from == from).count()
    }

    /// Closes one that waits, of this address or of any; whether there was one.
    fn give_way(&mut self, of: Option<IpAddr>) -> bool {
        let mut counts: HashMap<IpAddr, usize> = HashMap::new();
        for t in self.taken.values() {
            *counts.entry(t.from).or_default() += 1;
        }
        let waiting = self.taken.iter().filter(|(_, t)| t.at_work == 0 && of.is_none_or(|from| t.from == from));
        let first = waiting.min_by_key(|(_, t)| (std::cmp::Reverse(counts[&t.from]), t.since)).map(|(n, _)| *n);
        // Its place is free now; the connection itself ends as soon as its turn comes.
        first.and_then(|n| self.taken.remove(&n)).inspect(|t| t.close.notify_one()).is_some()
    }
}

/// All places.
#[derive(Clone)]
pub(crate) struct Places {
    all: Arc<Mutex<All>>,
    most: usize,
    of_one: usize,
    left: Arc<Notify>,
}

/// One place, free again when it is dropped.
pub(crate) struct Place {
    places: Places,
    number: u64,
    close: Arc<Notify>,
}

/// A request being answered.
pub(crate) struct AtWork(Arc<Place>);

impl Places {
    pub fn new(most: usize, of_one: usize) -> Self {
        Self { all: Arc::default(), most, of_one, left: Arc::default() }
    }

    /// A place for a connection from there; none where all those who could give way are being answered.
    pub fn take(&self, from: IpAddr) -> Option<Place> {
        let mut all = lock(&self.all);
        if all.of(from) >= self.of_one && !all.give_way(Some(from)) {
            return None;
        }
        if all.taken.len() >= self.most && !all.give_way(None) {
            return None;
        }
        let number = all.next;
        all.next += 1;
        let close = Arc::new(Notify::new());
        all.taken.insert(number, Taken { from, at_work: 0, since: Instant::now(), close: close.clone() });
        Some(Place { places: self.clone(), number, close })
    }

    /// Comes back when no place is taken.
    pub async fn empty(&self) {
        loop {
            let left = self.left.notified();
            if lock(&self.all).taken.is_empty() {
                return;
            }
            left.await;
        }
    }

    /// Closes all.
    pub fn close_all(&self) {
        for (_, t) in lock(&self.all).taken.drain() {
            t.close.notify_one();
        }
    }
}

impl Place {
    /// Comes back when the place is wanted by another.
    pub fn closed(&self) -> impl Future<Output = ()> + use<> {
        let close = self.close.clone();
        async move { close.notified().await }
    }

    /// A request begins.
    pub fn begin(self: &Arc<Self>) -> AtWork {
        self.change(|n| n + 1);
        AtWork(self.clone())
    }

    fn change(&self, to: impl Fn(usize) -> usize) {
        if let Some(t) = lock(&self.places.all).taken.get_mut(&self.number) {
            t.at_work = to(t.at_work);
            t.since = Instant::now();
        }
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        lock(&self.places.all).taken.remove(&self.number);
        self.places.left.notify_waiters();
        self.places.left.notify_one();
    }
}

impl Drop for AtWork {
    fn drop(&mut self) {
        self.0.change(|n| n.saturating_sub(1));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn from(n: u8) -> IpAddr {
        IpAddr::from([203, 0, 113, n])
    }

    fn numbers(places: &Places) -> Vec<u64> {
        let mut out: Vec<u64> = lock(&places.all).taken.keys().copied().collect();
        out.sort_unstable();
        out
    }

    #[test]
    fn who_holds_most_and_asks_nothing_gives_way() {
        let places = Places::new(4, 3);
        let held: Vec<Arc<Place>> =
            [1, 2, 2, 2].iter().map(|n| Arc::new(places.take(from(*n)).expect("a free place"))).collect();
        let asks = held[1].begin();
        // Not the oldest, which is another's, nor the one being answered.
        let new = places.take(from(3)).expect("one gives way");
        assert_eq!(numbers(&places), [0, 1, 3, 4]);
        drop(asks);
        drop(new);
        assert_eq!(numbers(&places), [0, 1, 3]);
        let _others = [places.take(from(2)), places.take(from(2))];
        assert_eq!(places.all.lock().unwrap().of(from(2)), 3, "no more than three of one address");
    }

    #[test]
    fn where_all_are_answered_nobody_comes_in() {
        let places = Places::new(2, 2);
        let held = [1, 2].map(|n| Arc::new(places.take(from(n)).unwrap()));
        let asks: Vec<AtWork> = held.iter().map(Place::begin).collect();
        assert!(places.take(from(3)).is_none());
        drop(asks);
        assert!(places.take(from(3)).is_some());
    }
}
