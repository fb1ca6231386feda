//! How often may a password be tried, and by whom? Whoever fails waits, longer each time; nobody's failing keeps the
//! owner of a name out.
//!
//! * A stranger (a browser in which nobody of that name came in before) is counted three times: for the name from this
//!   address, for the address, and for the name from all addresses. After a few free tries each further one waits: half a
//!   minute, then twice as long each time, up to a quarter of an hour; for the name from all addresses up to a minute.
//! * A known browser (`known`) is counted by itself: what strangers try under the name does not hold it up.
//!
//! So strangers make other strangers of that name wait a minute at most. Counted in memory, before the password is looked
//! at: many tries at once are as many tries. A count is forgotten an hour after the last try.

use crate::lock::lock;
use std::collections::HashMap;
use std::net::IpAddr;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Of a name from one address, or of a browser: mistyping is free.
const FREE: u32 = 5;
/// Of an address: a team may sit behind one.
const FREE_OF_AN_ADDRESS: u32 = 20;
/// Of a name from all addresses.
const FREE_OF_A_NAME: u32 = 20;

/// The first wait; each further one is twice as long.
const FIRST: Duration = Duration::from_secs(30);
const LONGEST: Duration = Duration::from_mins(15);
/// Longest that others than oneself make one wait.
const LONGEST_OF_A_NAME: Duration = Duration::from_mins(1);

const FORGOTTEN: Duration = Duration::from_hours(1);

/// Counts kept at most; beyond, the oldest quarter is forgotten.
const MOST: usize = 10_000;

#[derive(Debug, Clone, PartialEq, Eq, Hash)]
enum Of {
    Browser(String),
    NameFrom(String, IpAddr),
    Address(IpAddr),
    Name(String),
}

impl Of {
    /// Free tries and the longest wait.
    fn bounds(&self) -> (u32, Duration) {
        match self {
            Self::Browser(_) | Self::NameFrom(..) => (FREE, LONGEST),
            Self::Address(_) => (FREE_OF_AN_ADDRESS, LONGEST),
            Self::Name(_) => (FREE_OF_A_NAME, LONGEST_OF_A_NAME),
        }
    }

    /// How long the try after so many waits.
    fn wait(&self, tries: u32) -> Duration {
        let (free, longest) = self.bounds();
        match tries.checked_sub(free) {
            None => Duration::ZERO,
            Some(more) => FIRST.saturating_mul(1 << more.min(10)).min(longest),
        }
    }
}

struct Count {
    tries: u32,
    last: Instant,
    /// Before this nothing is tried.
    next: Instant,
    /// Somebody was told to wait for it.
    told: bool,
}

/// Held up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct HeldUp {
    pub wait: Duration,
    /// For the first time since the last try.
    pub first: bool,
}

/// Who tries.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Try<'a> {
    pub name: &'a str,
    pub from: IpAddr,
    /// The number of the browser, where the name came in with it before.
    pub browser: Option<&'a str>,
}

impl Try<'_> {
    fn counts(&self) -> Vec<Of> {
        let from = network(self.from);
        match self.browser {
            Some(number) => vec![Of::Browser(number.into())],
            None => vec![Of::NameFrom(self.name.into(), from), Of::Address(from), Of::Name(self.name.into())],
        }
    }
}

/// The address, of IPv6 its first half: whoever has one address there has all that share it.
fn network(from: IpAddr) -> IpAddr {
    match from {
        IpAddr::V4(_) => from,
        IpAddr::V6(six) => {
            six.to_ipv4_mapped().map_or_else(|| IpAddr::V6((six.to_bits() >> 64 << 64).into()), IpAddr::V4)
        }
    }
}

/// Tries that did not succeed (yet).
pub(crate) struct Throttle {
    tries: Mutex<HashMap<Of, Count>>,
    /// Hashing takes memory on purpose: one at a time is enough for a small team, and one of those who are known.
    hashing: [tokio::sync::Semaphore; 2],
}

impl Default for Throttle {
    fn default() -> Self {
        Self { tries: Mutex::default(), hashing: [(); 2].map(|()| tokio::sync::Semaphore::new(1)) }
    }
}

impl Throttle {
    /// Counts a try, or answers how long to wait before the next one. Asked and counted in one step, so that of tries made
    /// at the same time no more get through than one after the other.
    pub fn begin(&self, who: Try) -> Result<(), HeldUp> {
        self.begin_at(who, Instant::now())
    }

    fn begin_at(&self, who: Try, now: Instant) -> Result<(), HeldUp> {
        let mut all = lock(&self.tries);
        let counts = who.counts();
        let wait = |c: &Count| c.next.saturating_duration_since(now);
        let longest = counts.iter().filter(|of| all.get(of).is_some_and(|c| !wait(c).is_zero()));
        if let Some(held) = longest.max_by_key(|of| wait(&all[of])).and_then(|of| all.get_mut(of)) {
            let first = !std::mem::replace(&mut held.told, true);
            return Err(HeldUp { wait: wait(held), first });
        }
        make_room(&mut all, now);
        for of in counts {
            let old = all.get(&of).filter(|c| now.saturating_duration_since(c.last) < FORGOTTEN);
            let tries = old.map_or(0, |c| c.tries).saturating_add(1);
            let next = now + of.wait(tries);
            all.insert(of, Count { tries, last: now, next, told: false });
        }
        Ok(())
    }

    /// One's turn to have a password hashed.
    pub async fn turn(&self, known: bool) -> Option<tokio::sync::SemaphorePermit<'_>> {
        self.hashing[usize::from(known)].acquire().await.ok()
    }

    /// The last try succeeded: the name starts anew from there, and the others did not fail once more.
    pub fn succeeded(&self, who: Try) {
        let mut all = lock(&self.tries);
        for of in who.counts() {
            match of {
                Of::Browser(_) | Of::NameFrom(..) => {
                    all.remove(&of);
                }
                Of::Address(_) | Of::Name(_) => {
                    if let Some(count) = all.get_mut(&of) {
                        count.tries = count.tries.saturating_sub(1);
                        count.next = count.last;
                    }
                }
            }
        }
    }
}

fn make_room(all: &mut HashMap<Of, Count>, now: Instant) {
    if all.len() < MOST {
        return;
    }
    all.retain(|_, c| now.saturating_duration_since(c.last) < FORGOTTEN);
    if all.len() >= MOST {
        let mut ages: Vec<Instant> = all.values().map(|c| c.last).collect();
        ages.sort_unstable();
        let from = ages[MOST / 4];
        all.retain(|_, c| c.last > from);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stranger(name: &str, n: u8) -> Try<'_> {
        Try { name, from: IpAddr::from([203, 0, 113, n]), browser: None }
    }

    #[test]
    fn the_sixth_try_waits_and_longer_each_time() {
        let t = Throttle::default();
        let mut now = Instant::now();
        for n in 0..FREE {
            assert_eq!(t.begin_at(stranger("a", 1), now), Ok(()), "try {n}");
        }
        for wait_s in [30, 60, 120, 240, 480, 900, 900] {
            let wait = Duration::from_secs(wait_s);
            assert_eq!(t.begin_at(stranger("a", 1), now), Err(HeldUp { wait, first: true }));
            assert_eq!(t.begin_at(stranger("a", 1), now), Err(HeldUp { wait, first: false }), "told once");
            assert_eq!(t.begin_at(stranger("b", 1), now), Ok(()), "another name from there");
            assert_eq!(t.begin_at(stranger("a", 2), now), Ok(()), "the name from elsewhere");
            t.succeeded(stranger("a", 2));
            now += wait;
            assert_eq!(t.begin_at(stranger("a", 1), now), Ok(()));
        }
        assert_eq!(t.begin_at(stranger("a", 1), now + FORGOTTEN), Ok(()));
        assert_eq!(t.begin_at(stranger("a", 1), now + FORGOTTEN), Ok(()), "all forgotten");
    }

    #[test]
    fn strangers_lock_nobody_out() {
        let t = Throttle::default();
        let mut now = Instant::now();
        let mut kept_waiting = Duration::ZERO;
        // A try a second from ever new addresses, for half an hour.
        for second in 0..1800_u32 {
            let from = IpAddr::from((0x0A00_0000 + second).to_be_bytes());
            if let Err(HeldUp { wait, .. }) = t.begin_at(Try { name: "lead", from, browser: None }, now) {
                kept_waiting = kept_waiting.max(wait);
            }
            now += Duration::from_secs(1);
        }
        assert!(kept_waiting <= LONGEST_OF_A_NAME && !kept_waiting.is_zero(), "{kept_waiting:?}");
        // The known browser goes on at once, from wherever it is.
        let own = Try { browser: Some("7"), ..stranger("lead", 9) };
        assert_eq!(t.begin_at(own, now), Ok(()));
        t.succeeded(own);
        // A browser that was stolen is held up as anybody.
        for _ in 0..FREE {
            assert_eq!(t.begin_at(own, now), Ok(()));
        }
        assert_eq!(t.begin_at(own, now), Err(HeldUp { wait: FIRST, first: true }));
    }

    #[test]
    fn a_try_that_succeeds_is_none_of_its_address() {
        let t = Throttle::default();
        let now = Instant::now();
        for n in 0..3 * FREE_OF_AN_ADDRESS {
            assert_eq!(t.begin_at(stranger("a", 1), now), Ok(()), "try {n}");
            t.succeeded(stranger("a", 1));
        }
        for n in 0..FREE_OF_AN_ADDRESS {
            assert_eq!(t.begin_at(stranger(&n.to_string(), 1), now), Ok(()));
        }
        assert_eq!(
            t.begin_at(stranger("a", 1), now),
            Err(HeldUp { wait: FIRST, first: true }),
            "those that failed still count"
        );
    }

    #[test]
    fn one_network_of_ipv6_is_one_address() {
        let six = |text: &str| network(text.parse().unwrap());
        assert_eq!(six("2001:db8:1:2::1"), six("2001:db8:1:2:ffff::2"));
        assert_ne!(six("2001:db8:1:2::1"), six("2001:db8:1:3::1"));
        assert_eq!(six("::ffff:203.0.113.7"), six("203.0.113.7"));
    }

    #[test]
    fn what_is_counted_has_a_bound() {
        let t = Throttle::default();
        let now = Instant::now();
        for n in 0..MOST as u32 {
            let from = IpAddr::from(n.to_be_bytes());
            let _ =
                t.begin_at(Try { name: &n.to_string(), from, browser: None }, now + Duration::from_millis(n.into()));
        }
        assert!(lock(&t.tries).len() <= MOST + 3);
    }
}
