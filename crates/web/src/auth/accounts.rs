//! Accounts: who may come in, and as what. They stand in a file of their own beside the programme, so that a copy
//! of the record carries no secrets. A password is kept as its Argon2id hash with a salt of its own.
//!
//! Roles, each with what those before it may do: reader (look), sampler (enter trips, bottles, readings),
//! analyst (bring in files, take out of the evidence, derive anew), lead (sign, change checks and wells).

use super::look_alike;
use argon2::Argon2;
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use message::{Message, Spoken as _, count, web_door as says, web_frame};
use serde::{Deserialize, Serialize};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard};
use std::time::SystemTime;

/// Shortest password taken: what NIST SP 800-63B asks for at least, 8 characters (from memory), and two more.
pub const SHORTEST: usize = 10;

/// Longest name, characters.
const LONGEST_NAME: usize = 80;

/// Longest password taken: hashing it must not become work that a stranger can ask for.
const LONGEST: usize = 256;

/// What a person may do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Role {
    /// Looks.
    Reader,
    /// Enters what was done and read in the field.
    Sampler,
    /// Brings in files, weighs evidence.
    Analyst,
    /// Signs, and changes what others stand on.
    Lead,
}

impl Role {
    /// The role in words.
    pub fn word(self) -> &'static str {
        match self {
            Self::Reader => "reader",
            Self::Sampler => "sampler",
            Self::Analyst => "analyst",
            Self::Lead => "lead",
        }
    }

    /// What a person calls it, in the language that is spoken.
    pub(crate) fn called(self) -> String {
        match self {
            Self::Reader => web_frame::Reader.text(),
            Self::Sampler => web_frame::Sampler.text(),
            Self::Analyst => web_frame::Analyst.text(),
            Self::Lead => web_frame::Lead.text(),
        }
    }
}

impl std::str::FromStr for Role {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        [Self::Reader, Self::Sampler, Self::Analyst, Self::Lead]
            .into_iter()
            .find(|r| r.word() == text)
            .ok_or_else(|| says::NoRole { found: text.into() }.text())
    }
}

/// One account.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Account {
    /// Name, as it stands as author in the record.
    pub name: String,
    /// What they may do.
    pub role: Role,
    /// Argon2id hash with its salt, as a PHC string.
    hash: String,
    /// Secret of the second factor ([`super::totp`]), where one was set up.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    second: Option<String>,
}

impl Account {
    /// What stands for the account as it is now: another role, another password or an account made again (its salt is
    /// new) has another.
    pub(crate) fn mark(&self) -> blake3::Hash {
        let second = self.second.as_deref().unwrap_or_default();
        blake3::hash(format!("{}\n{}\n{second}\n{}", self.role.word(), self.hash, self.name).as_bytes())
    }

    /// A key that only who reads the file of accounts can know, of its password.
    pub(crate) fn key(&self) -> [u8; 32] {
        blake3::derive_key("limpid: browsers in which an account has come in", self.hash.as_bytes())
    }

    /// The secret of its second factor.
    pub(crate) fn second(&self) -> Option<&str> {
        self.second.as_deref()
    }

    /// Whether it has a second factor.
    pub fn has_second(&self) -> bool {
        self.second.is_some()
    }
}

/// What can go wrong with accounts.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum AccountError {
    /// The file cannot be read or written.
    #[error("the accounts in {}: {detail}", record::store::shown(path))]
    File {
        /// The file.
        path: PathBuf,
        /// What the system or the reader said.
        detail: String,
    },
    /// A name or password that cannot be.
    #[error("{}", why.text())]
    Unfit {
        /// Which of the two.
        what: Unfit,
        /// What was found, what was expected.
        why: Message,
    },
    /// There is no account of the name.
    #[error("{}", says::NoSuchAccount { who: name.as_str().into() }.text())]
    Nobody {
        /// The name.
        name: String,
    },
}

/// What of an account does not fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unfit {
    /// The name.
    Name,
    /// The password.
    Password,
}

#[derive(Serialize, Deserialize, Default)]
struct Kept {
    accounts: Vec<Account>,
}

#[derive(Default)]
struct Known {
    accounts: Vec<Account>,
    changed: Option<SystemTime>,
    /// Whether there was an account at any time.
    wanted: bool,
}

impl Known {
    fn set(&mut self, accounts: Vec<Account>, changed: Option<SystemTime>) {
        self.wanted |= !accounts.is_empty();
        (self.accounts, self.changed) = (accounts, changed);
    }
}

/// The accounts of a programme. Changes of the file while it is served count from the next request on.
pub struct Accounts {
    path: PathBuf,
    known: Mutex<Known>,
}

impl Accounts {
    /// Reads the file; none is no account.
    ///
    /// # Errors
    /// It is there and cannot be read.
    pub fn open(path: &Path) -> Result<Self, AccountError> {
        let mut known = Known::default();
        known.set(read(path)?, changed(path));
        Ok(Self { path: path.into(), known: Mutex::new(known) })
    }

    /// The accounts as the file has them now.
    fn known(&self) -> MutexGuard<'_, Known> {
        let mut known = crate::lock::lock(&self.known);
        let now = changed(&self.path);
        if now != known.changed {
            // A file that cannot be read in this moment changes nothing.
            if let Ok(accounts) = read(&self.path) {
                known.set(accounts, now);
            }
        }
        known
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.known().accounts.is_empty()
    }

    /// Whether one has to log in: there is an account, or there was one since the file was opened. Where the last one
    /// was taken away or the file moved, nobody comes in until there is one again.
    pub fn wanted(&self) -> bool {
        self.known().wanted
    }

    /// The account of a name, as the file has it now.
    pub fn of(&self, name: &str) -> Option<Account> {
        self.known().accounts.iter().find(|a| a.name == name).cloned()
    }

    /// All accounts.
    pub fn all(&self) -> Vec<Account> {
        self.known().accounts.clone()
    }

    /// The account of the name, where the password is its own. Takes as long for a name that is not there.
    pub fn proven(&self, name: &str, password: &str) -> Option<Account> {
        // The hash of a random password: nobody knows it.
        const NOBODY: &str =
            "$argon2id$v=19$m=19456,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$b1cVyUYYwbV4dVDcqxJ3SXZ2lkA2wUzfGOfgq7oRZ4k";
        if password.len() > LONGEST {
            return None;
        }
        let found = self.of(name);
        let hash = found.as_ref().map_or(NOBODY, |a| &a.hash);
        let fits =
            PasswordHash::new(hash).is_ok_and(|h| Argon2::default().verify_password(password.as_bytes(), &h).is_ok());
        found.filter(|_| fits)
    }

    /// Adds an account, or gives a name another role or password.
    ///
    /// # Errors
    /// A name without letters, a short password; the file cannot be written.
    pub fn set(&self, name: &str, role: Role, password: &str) -> Result<(), AccountError> {
        let unfit = |why: Message| Err(AccountError::Unfit { what: Unfit::Name, why });
        let mut all = self.all();
        let old = all.iter().position(|a| a.name == name).map(|n| all.remove(n));
        let found = || name.escape_debug().to_string();
        if name.trim() != name || name.is_empty() || name.chars().any(char::is_control) {
            return unfit(says::NameUnfit { found: found().into() }.into());
        }
        if name.chars().count() > LONGEST_NAME {
            return unfit(says::NameLong { most: count(LONGEST_NAME) }.into());
        }
        // Names from before stay as they are.
        if old.is_none() {
            if !look_alike::legible(name) {
                return unfit(says::NameIllegible { found: found().into() }.into());
            }
            if let Some(other) = look_alike::like(name, all.iter().map(|a| a.name.as_str())) {
                return unfit(says::NameAlike { found: found().into(), other: other.into() }.into());
            }
        }
        let hash = self.hashed(name, password)?;
        all.push(Account { name: name.into(), role, hash, second: old.and_then(|o| o.second) });
        self.write(all)
    }

    /// Gives a name another password; its role and second factor stay.
    ///
    /// # Errors
    /// No account, a short or common password; the file cannot be written.
    pub fn set_password(&self, name: &str, password: &str) -> Result<Account, AccountError> {
        let hash = self.hashed(name, password)?;
        self.changed(name, |a| a.hash = hash)
    }

    /// Gives a name a second factor, or takes it away.
    ///
    /// # Errors
    /// No account; the file cannot be written.
    pub fn set_second(&self, name: &str, secret: Option<String>) -> Result<Account, AccountError> {
        self.changed(name, |a| a.second = secret)
    }

    fn changed(&self, name: &str, change: impl FnOnce(&mut Account)) -> Result<Account, AccountError> {
        let mut all = self.all();
        let Some(account) = all.iter_mut().find(|a| a.name == name) else {
            return Err(AccountError::Nobody { name: name.into() });
        };
        change(account);
        let account = account.clone();
        self.write(all)?;
        Ok(account)
    }

    /// The hash of a password that may be one.
    fn hashed(&self, name: &str, password: &str) -> Result<String, AccountError> {
        let unfit = |why: Message| Err(AccountError::Unfit { what: Unfit::Password, why });
        let length = password.chars().count();
        if length < SHORTEST || password.len() > LONGEST {
            let (least, most) = (count(SHORTEST), count(LONGEST));
            return unfit(says::PasswordLength { found: count(length), least, most }.into());
        }
        if guessable(password, name) {
            return unfit(says::PasswordGuessable.into());
        }
        Ok(Argon2::default().hash_password(password.as_bytes()).map_err(|e| self.failed(&e))?.to_string())
    }

    /// Takes an account away; whether there was one.
    ///
    /// # Errors
    /// The file cannot be written.
    pub fn remove(&self, name: &str) -> Result<bool, AccountError> {
        let mut all = self.all();
        let before = all.len();
        all.retain(|a| a.name != name);
        let gone = all.len() < before;
        if gone {
            self.write(all)?;
        }
        Ok(gone)
    }

    fn failed(&self, e: &dyn std::fmt::Display) -> AccountError {
        AccountError::File { path: self.path.clone(), detail: e.to_string() }
    }

    /// Writes the file whole, readable for its owner alone.
    fn write(&self, mut accounts: Vec<Account>) -> Result<(), AccountError> {
        accounts.sort_by(|a, b| a.name.cmp(&b.name));
        let text = serde_json::to_string_pretty(&Kept { accounts: accounts.clone() }).map_err(|e| self.failed(&e))?;
        let folder = self.path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
        // A temporary file is made for its owner alone. What went wrong is told without the path that the error repeats:
        // it may be an address with a password.
        let mut file = tempfile::NamedTempFile::new_in(folder).map_err(|e| self.failed(&e.kind()))?;
        file.write_all(text.as_bytes()).and_then(|()| file.as_file().sync_all()).map_err(|e| self.failed(&e))?;
        file.persist(&self.path).map_err(|e| self.failed(&e))?;
        crate::lock::lock(&self.known).set(accounts, changed(&self.path));
        Ok(())
    }
}

/// Signs that differ in a password, at least.
const DIFFERENT: usize = 5;

/// Whether a password is among the first that anybody tries: the name, this program's, one sign over and over, a row of
/// the keyboard. A list of leaked passwords is not carried along; ten characters leave few of its lines.
fn guessable(password: &str, name: &str) -> bool {
    let small = password.to_lowercase();
    let plain: String = small.chars().filter(|c| c.is_alphanumeric()).collect();
    let different: std::collections::BTreeSet<char> = small.chars().collect();
    let own: String = name.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect();
    // What is left when a word that anybody thinks of is taken out.
    let rest = |word: &str| if word.is_empty() { usize::MAX } else { plain.replace(word, "").chars().count() };
    let rows = ["1234567890", "0987654321", "qwertyuiop", "qwertzuiop", "abcdefghijklmnopqrstuvwxyz"];
    let words = ["password", "passwort", "limpid", "kennwort"];
    different.len() < DIFFERENT
        || rows.iter().any(|row| row.contains(&plain) && !plain.is_empty())
        || words.iter().any(|word| rest(word) < 5)
        || rest(&own) < 5
}

fn changed(path: &Path) -> Option<SystemTime> {
    path.metadata().and_then(|m| m.modified()).ok()
}

fn read(path: &Path) -> Result<Vec<Account>, AccountError> {
    let failed = |detail: String| AccountError::File { path: path.into(), detail };
    match std::fs::read_to_string(path) {
        Ok(text) => serde_json::from_str::<Kept>(&text).map(|k| k.accounts).map_err(|e| failed(e.to_string())),
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(vec![]),
        Err(e) => Err(failed(e.to_string())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_password_is_proved_and_never_kept() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("a.accounts");
        let accounts = Accounts::open(&path).unwrap();
        accounts.set("Ines Varga", Role::Analyst, "a long password").unwrap();
        assert!(accounts.proven("Ines Varga", "a long password").is_some());
        assert!(accounts.proven("Ines Varga", "a long passwore").is_none());
        assert!(accounts.proven("Nobody", "a long password").is_none());
        assert!(accounts.set("X", Role::Lead, "short").is_err());
        for guessed in ["aaaaaaaaaaaa", "1234567890", "password123", "Qwertzuiop", "Limpid!2026"] {
            assert!(accounts.set("X", Role::Lead, guessed).is_err(), "{guessed}");
        }
        assert!(accounts.set("Ines Varga", Role::Analyst, "ines-varga-1").is_err(), "the own name");
        assert!(accounts.set("ines varga", Role::Lead, "a long password").is_err(), "a name that looks alike");
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.contains("$argon2id$") && !text.contains("a long password"));
        let other = Accounts::open(&path).unwrap();
        assert_eq!(other.of("Ines Varga").map(|a| a.role), Some(Role::Analyst));
        other.set_second("Ines Varga", Some("MZXW6YTB".into())).unwrap();
        other.set("Ines Varga", Role::Lead, "another password").unwrap();
        let kept = Accounts::open(&path).unwrap().of("Ines Varga").unwrap();
        assert_eq!((kept.role, kept.second()), (Role::Lead, Some("MZXW6YTB")), "the second factor stays");
        assert!(other.set_password("Nobody", "another password").is_err());
        assert!(other.remove("Ines Varga").unwrap());
        assert!(Accounts::open(&path).unwrap().is_empty());
    }

    #[test]
    fn the_hash_of_nobody_can_be_worked_out() {
        // Else a name that is not there would be refused faster than one that is.
        let dir = tempfile::tempdir().unwrap();
        let accounts = Accounts::open(&dir.path().join("a")).unwrap();
        let start = std::time::Instant::now();
        assert!(accounts.proven("nobody", "x").is_none());
        assert!(start.elapsed().as_micros() > 500);
    }
}
