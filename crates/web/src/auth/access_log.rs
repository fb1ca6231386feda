//! What happened at the door: who came in, who was refused, what was done to accounts. A file of its own beside the
//! accounts, one line of JSON an event, for its owner alone to read; the lead looks at it on the page of accounts and takes
//! it away as CSV. It stands apart from the record, whose acts carry their authors themselves.
//!
//! A line is only ever added. Tries that fail are held up by `throttle` beside it, so strangers fill no disk.

use super::accounts::Role;
use crate::lock::lock;
use message::{Message, web_door as says};
use serde::{Deserialize, Serialize};
use std::fs::{File, OpenOptions};
use std::io::{BufRead as _, BufReader, Seek as _, SeekFrom, Write as _};
use std::os::unix::fs::OpenOptionsExt as _;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

/// What happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Act {
    /// Came in.
    CameIn,
    /// Name, password or code did not fit.
    Refused,
    /// Tried too often and was told to wait; kept once a wait.
    HeldUp,
    /// Went out.
    Left,
    /// Ended a session.
    EndedSession,
    /// Made an account, or gave one another role or password.
    SetAccount,
    /// Took an account away.
    RemovedAccount,
    /// Changed the own password.
    ChangedPassword,
    /// Set up a second factor.
    SetCode,
    /// Gave a second factor up, or took another's away.
    RemovedCode,
}

impl Act {
    /// In words.
    pub(crate) fn words(self) -> Message {
        match self {
            Self::CameIn => says::ActCameIn.into(),
            Self::Refused => says::ActRefused.into(),
            Self::HeldUp => says::ActHeldUp.into(),
            Self::Left => says::ActLeft.into(),
            Self::EndedSession => says::ActEndedSession.into(),
            Self::SetAccount => says::ActSetAccount.into(),
            Self::RemovedAccount => says::ActRemovedAccount.into(),
            Self::ChangedPassword => says::ActChangedPassword.into(),
            Self::SetCode => says::ActSetCode.into(),
            Self::RemovedCode => says::ActRemovedCode.into(),
        }
    }
}

/// An event.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Event {
    /// When, universal time.
    pub at: String,
    /// Who did it; of a try that failed the name that was tried, empty where it has no account.
    pub who: String,
    /// From which address; of the command line the name of the system's account.
    pub from: String,
    /// What.
    pub act: Act,
    /// To whose account, where it is another's.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub whom: String,
    /// Which role it has from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub role: Option<Role>,
}

impl Event {
    /// Now.
    pub fn now(who: &str, from: &str, act: Act) -> Self {
        Self { at: crate::moment::now(), who: clean(who), from: clean(from), act, whom: String::new(), role: None }
    }

    /// Done to that account.
    #[must_use]
    pub fn to(self, whom: &str, role: Option<Role>) -> Self {
        Self { whom: clean(whom), role, ..self }
    }
}

/// Longest text kept, characters.
const LONGEST: usize = 80;

fn clean(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(LONGEST).collect()
}

/// The log.
pub struct AccessLog {
    path: PathBuf,
    /// One line after the other.
    turn: Mutex<()>,
}

/// Bytes at the end of the file that a look at the newest events reads.
const END: u64 = 64 * 1024;

impl AccessLog {
    /// Beside a file of accounts.
    pub fn beside(accounts: &Path) -> Self {
        let mut name = accounts.as_os_str().to_owned();
        name.push(".log");
        Self { path: name.into(), turn: Mutex::default() }
    }

    /// Keeps an event. What cannot be kept is told where the program runs, and keeps nobody out.
    pub fn keep(&self, event: &Event) {
        let _turn = lock(&self.turn);
        let kept = serde_json::to_string(event).map_err(std::io::Error::from).and_then(|line| {
            let mut file = OpenOptions::new().append(true).create(true).mode(0o600).open(&self.path)?;
            // In one piece: two programs may write.
            file.write_all(format!("{line}\n").as_bytes())
        });
        if let Err(e) = kept {
            eprintln!("web: the log of the door: {}", e.kind());
        }
    }

    /// All events, the oldest first.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn all(&self) -> std::io::Result<Vec<Event>> {
        self.from(0)
    }

    /// The newest of them, the newest first.
    ///
    /// # Errors
    /// As [`all`](Self::all).
    pub fn newest(&self, most: usize) -> std::io::Result<Vec<Event>> {
        let mut events = self.from(END)?;
        events.reverse();
        events.truncate(most);
        Ok(events)
    }

    /// From so many bytes before the end; 0: from the beginning.
    fn from(&self, end: u64) -> std::io::Result<Vec<Event>> {
        let mut file = match File::open(&self.path) {
            Ok(file) => file,
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(vec![]),
            Err(e) => return Err(e),
        };
        let bytes = file.metadata()?.len();
        if end > 0 && bytes > end {
            file.seek(SeekFrom::End(-end.cast_signed()))?;
        }
        let mut out = vec![];
        for line in BufReader::new(file).split(b'\n') {
            // The first line of a piece is one cut through; one of a later version may say more.
            if let Ok(event) = serde_json::from_slice(&line?) {
                out.push(event);
            }
        }
        Ok(out)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt as _;

    #[test]
    fn events_are_added_and_read_back() {
        let dir = tempfile::tempdir().unwrap();
        let log = AccessLog::beside(&dir.path().join("a"));
        assert_eq!(log.all().unwrap(), []);
        let one = Event::now("Marit\nOsk", "::1", Act::CameIn);
        let two = Event::now(&"x".repeat(5000), "::1", Act::SetAccount).to("Sam Pohl", Some(Role::Sampler));
        log.keep(&one);
        log.keep(&two);
        assert_eq!(log.all().unwrap(), [one.clone(), two.clone()]);
        assert_eq!(log.newest(1).unwrap(), std::slice::from_ref(&two));
        assert_eq!((one.who.as_str(), two.who.len()), ("MaritOsk", LONGEST));
        let file = dir.path().join("a.log");
        assert_eq!(file.metadata().unwrap().permissions().mode() & 0o777, 0o600);
        for _ in 0..1000 {
            log.keep(&one);
        }
        assert_eq!((log.all().unwrap().len(), log.newest(30).unwrap().len()), (1002, 30));
    }
}
