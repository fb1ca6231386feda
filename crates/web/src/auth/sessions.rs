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
pub(super) const LONGEST: Duration = Duration::from_hours(12);

/// Sessions at once, at most: the oldest goes.
const MOST: usize = 1000;

struct Session {
    person: String,
    from: From,
    /// The account as it was ([`Account::mark`]).
    account: blake3::Hash,
    begun: Instant,
    seen: Instant,
}

/// Where a session began.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct From {
    /// Address.
    pub address: String,
    /// What the browser calls itself.
    pub browser: String,
    /// When, universal time.
    pub at: String,
}

/// A session as its owner sees it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Listed {
    /// What it is called where one is to be ended; opens nothing.
    pub id: String,
    pub person: String,
    pub from: From,
    /// Since the last request.
    pub idle: Duration,
    /// The one that asks.
    pub own: bool,
}

/// The sessions.
#[derive(Default)]
pub(crate) struct Sessions(Mutex<HashMap<blake3::Hash, Session>>);

impl Sessions {
    /// Begins one for the account whose password was proven; answers the number for the cookie.
    pub fn begin(&self, account: &Account, from: From) -> String {
        let number = random() + &random();
        let now = Instant::now();
        let mut all = lock(&self.0);
        all.retain(|_, s| s.lives(now));
        if all.len() >= MOST
            && let Some(oldest) = all.iter().min_by_key(|(_, s)| s.seen).map(|(k, _)| *k)
        {
            all.remove(&oldest);
        }
        let session = Session { person: account.name.clone(), from, account: account.mark(), begun: now, seen: now };
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

    /// Those that live, of a person or of all, the latest asked first; `number` is the one that asks.
    pub fn listed(&self, person: Option<&str>, number: &str) -> Vec<Listed> {
        let (now, own) = (Instant::now(), blake3::hash(number.as_bytes()));
        let all = lock(&self.0);
        let of = all.iter().filter(|(_, s)| s.lives(now) && person.is_none_or(|p| p == s.person));
        let mut out: Vec<Listed> = of
            .map(|(hash, s)| Listed {
                id: name_of(hash),
                person: s.person.clone(),
                from: s.from.clone(),
                idle: now.duration_since(s.seen),
                own: *hash == own,
            })
            .collect();
        out.sort_by(|a, b| (a.idle, &a.id).cmp(&(b.idle, &b.id)));
        out
    }

    /// Ends the one called so, of a person or of anybody; whose it was.
    pub fn end_named(&self, id: &str, person: Option<&str>) -> Option<String> {
        let mut all = lock(&self.0);
        let found = all.iter().find(|(hash, s)| name_of(hash) == id && person.is_none_or(|p| p == s.person));
        let hash = *found?.0;
        all.remove(&hash).map(|s| s.person)
    }

    /// Ends all of a person but the one that asks; how many.
    pub fn end_others(&self, person: &str, number: &str) -> usize {
        let own = blake3::hash(number.as_bytes());
        let mut all = lock(&self.0);
        let before = all.len();
        all.retain(|hash, s| s.person != person || *hash == own);
        before - all.len()
    }
}

/// What a session is called: of its hash, from which its number cannot be found.
fn name_of(hash: &blake3::Hash) -> String {
    hash.to_hex()[..16].to_string()
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
        let number = sessions.begin(&accounts.of("Ines Varga").unwrap(), From::default());
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

    #[test]
    fn a_person_sees_and_ends_their_own() {
        let dir = tempfile::tempdir().unwrap();
        let accounts = Accounts::open(&dir.path().join("accounts")).unwrap();
        for name in ["Ines Varga", "Sam Pohl"] {
            accounts.set(name, Role::Analyst, "a long password").unwrap();
        }
        let sessions = Sessions::default();
        let begin = |name: &str| sessions.begin(&accounts.of(name).unwrap(), From::default());
        let (one, two, sams) = (begin("Ines Varga"), begin("Ines Varga"), begin("Sam Pohl"));
        let own = sessions.listed(Some("Ines Varga"), &one);
        assert_eq!((own.len(), own.iter().filter(|s| s.own).count()), (2, 1));
        assert_eq!(sessions.listed(None, &one).len(), 3);
        let other = &sessions.listed(None, &sams).into_iter().find(|s| s.own).unwrap().id;
        assert_eq!(sessions.end_named(other, Some("Ines Varga")), None, "another's");
        assert_eq!(sessions.end_named(&sams, None), None, "the number itself names none");
        assert_eq!(sessions.end_others("Ines Varga", &one), 1);
        assert!(sessions.account(&two, &accounts).is_none() && sessions.account(&one, &accounts).is_some());
        assert_eq!(sessions.end_named(other, None).as_deref(), Some("Sam Pohl"));
        assert!(sessions.account(&sams, &accounts).is_none());
    }
}
