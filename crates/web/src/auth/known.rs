//! Browsers in which somebody has come in before. Each gets a cookie of a random number with its mark for that account; the
//! key of the mark is the account's password as it is kept, so another password makes all its browsers strange again. It
//! opens nothing: it only tells the owner of a name from strangers that try it ([`super::throttle`]).

use super::accounts::Account;
use super::random;

/// Names that one browser is remembered for: the latest.
const MOST: usize = 4;

/// How long, s: half a year.
pub(crate) const KEPT_S: i64 = 182 * 24 * 3600;

/// Between marks; a sign that a cookie may hold (RFC 6265 section 4.1.1).
const BETWEEN: char = '~';

fn mark(account: &Account, number: &str) -> blake3::Hash {
    blake3::keyed_hash(&account.key(), number.as_bytes())
}

/// The number of the browser, where its cookie says that the account came in with it.
pub(crate) fn number<'a>(account: &Account, cookie: &'a str) -> Option<&'a str> {
    cookie.split(BETWEEN).take(MOST).find_map(|one| {
        let (number, told) = one.split_once('.')?;
        // Hashes compare in constant time.
        (blake3::Hash::from_hex(told).ok()? == mark(account, number)).then_some(number)
    })
}

/// The cookie of a browser in which the account came in just now.
pub(crate) fn with(account: &Account, cookie: &str) -> String {
    let fits = |one: &&str| one.len() < 200 && one.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'.');
    let others = cookie.split(BETWEEN).filter(fits).filter(|one| number(account, one).is_none());
    let own = random();
    let mut all = vec![format!("{own}.{}", mark(account, &own).to_hex())];
    all.extend(others.filter(|o| !o.is_empty()).map(str::to_string));
    all.truncate(MOST);
    all.join(&BETWEEN.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::auth::accounts::{Accounts, Role};

    #[test]
    fn a_browser_is_known_for_those_who_came_in_with_it() {
        let dir = tempfile::tempdir().unwrap();
        let accounts = Accounts::open(&dir.path().join("a")).unwrap();
        let names = ["A", "B", "C", "D", "E"];
        for name in names {
            accounts.set(name, Role::Reader, "a long password").unwrap();
        }
        let of = |name: &str| accounts.of(name).unwrap();
        let one = with(&of("A"), "");
        assert!(number(&of("A"), &one).is_some());
        assert!(number(&of("B"), &one).is_none());
        let all = names.iter().fold(String::new(), |cookie, n| with(&of(n), &cookie));
        assert!(number(&of("A"), &all).is_none(), "the fifth pushes out the first");
        assert!(names[1..].iter().all(|n| number(&of(n), &all).is_some()));
        let again = with(&of("E"), &all);
        assert_eq!(again.split(BETWEEN).count(), MOST, "one mark a name");
        accounts.set("E", Role::Reader, "another password").unwrap();
        assert!(number(&of("E"), &again).is_none());
        assert!(number(&of("A"), "x.y~~.~;").is_none());
        let (own, _) = one.split_once('.').unwrap();
        assert!(number(&of("A"), &format!("{own}.{}", "0".repeat(64))).is_none());
    }
}
