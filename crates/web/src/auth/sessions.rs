//! Who is logged in. A session is a random number in a cookie; what is kept here is its hash, so that a look into
//! memory gives nobody's session away. It ends after two hours without a request, after twelve in any case, and when
//! the account that it began with changes or goes.

use super::accounts::{Account, Accounts};
use super::random;
use crate::lock::lock;
use std::collections::HashMap;
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Without a request.
const IDLE: Duration = Duration::from_hours(2);

/// In any case: a working day.
const LONGEST: Duration = Duration::from_hours(12);

/// Sessions at once, at most: the oldest goes.
const MOST: usize = 1000;

struct Session {
    person: String,
    /// The account as it was ([`Account::mark`]).
    account: blake3::Hash,
    begun: Instant,
    seen: Instant,
}

/// The sessions.
#[derive(Default)]
pub(crate) struct Sessions(Mutex<HashMap<blake3::Hash, Session>>);

impl Sessions {
    /// Begins one for the account whose password was proven; answers the number for the cookie.
    pub fn begin(&self, account: &Account) -> String {
        let number = random() + &random();
        let now = Instant::now();
        let mut all = lock(&self.0);
        all.retain(|_, s| s.lives(now));
        if all.len() >= MOST
            && let Some(oldest) = all.iter().min_by_key(|(_, s)| s.seen).map(|(k, _)| *k)
        {
            all.remove(&oldest);
        }
        let session = Session { person: account.name.clone(), account: account.mark(), begun: now, seen: now };
        all.insert(blake3::hash(number.as_bytes()), session);
        number
    }

    /// Whose it is, where it lives and the account is what it was when the session began; else it ends.
    pub fn account(&self, number: &str, accounts: &Accounts) -> Option<Account> {
        let now = Instant::now();
        let mut all = lock(&self.0);
        let session = all.get_mut(&blake3::hash(number.as_bytes())).filter(|s| s.lives(now))?;
        let account = accounts.of(&session.person).filter(|a| a.mark() == session.account);
        session.seen = now;
        if account.is_none() {
            all.remove(&blake3::hash(number.as_bytes()));
        }
        account
    }

    /// Ends one.
    pub fn end(&self, number: &str) {
        lock(&self.0).remove(&blake3::hash(number.as_bytes()));
    }
}

impl Session {
    fn lives(&self, now: Instant) -> bool {
        now.duration_since(self.seen) < IDLE && now.duration_since(self.begun) < LONGEST
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::auth::accounts::Role;

    #[test]
    fn a_session_ends_by_itself_and_when_told() {
        let dir = tempfile::tempdir().unwrap();
        let accounts = Accounts::open(&dir.path().join("accounts")).unwrap();
        accounts.set("Ines Varga", Role::Analyst, "a long password").unwrap();
        let sessions = Sessions::default();
        let number = sessions.begin(&accounts.of("Ines Varga").unwrap());
        let whose = |number: &str| sessions.account(number, &accounts).map(|a| a.name);
        assert_eq!(whose(&number).as_deref(), Some("Ines Varga"));
        assert_eq!(whose("another"), None);
        let mut all = lock(&sessions.0);
        let old = all.values_mut().next().unwrap();
        let now = Instant::now();
        assert!(old.lives(now));
        assert!(!old.lives(now + IDLE));
        old.seen = now + LONGEST;
        assert!(!old.lives(now + LONGEST));
        drop(all);
        sessions.end(&number);
        assert_eq!(whose(&number), None);
    }
}
