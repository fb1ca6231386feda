//! What can go wrong with a programme on a server, in words that say what to try.

use super::address::{ServerAddress, in_full};
use crate::store::StoreError;
use message::{Spoken as _, server as says};
use postgres::error::SqlState;

/// Oldest major version that is accepted. The tests run on the version that the system brings.
pub(crate) const OLDEST_MAJOR: u32 = 13;

/// Why a server refused or failed.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServerError {
    /// The address cannot be read.
    #[error("{address} is no address of a programme: {detail}")]
    Address {
        /// The address, without its password.
        address: String,
        /// What about it.
        detail: String,
    },
    /// The server does not prove to be the one that was asked for.
    #[error("{}", says::Untrusted { address: address.as_str().into(), why: detail.as_str().into() }.text())]
    Untrusted {
        /// The address, without its password.
        address: String,
        /// What about its certificate.
        detail: String,
    },
    /// Certificates on this machine cannot be read.
    #[error("{address}: {detail}")]
    Certificates {
        /// The address, without its password.
        address: String,
        /// Which, and what about them.
        detail: String,
    },
    /// Only a file will do.
    #[error("{address} names a server; here it takes the path of a file (`limpid move` copies it to a server)")]
    FileOnly {
        /// The address, without its password.
        address: String,
    },
    /// Nobody answers.
    #[error("no server answered at {address} for {waited_s} s: {detail}")]
    Silent {
        /// The address, without its password.
        address: String,
        /// How long was waited, s.
        waited_s: u64,
        /// What was last heard.
        detail: String,
    },
    /// The role may not come in.
    #[error("{address}: the server does not let this role in: {detail}; PGPASSWORD holds the password")]
    Login {
        /// The address, without its password.
        address: String,
        /// What the server said.
        detail: String,
    },
    /// There is no such database.
    #[error("{address}: {detail}; whoever runs the server makes the database and gives the role CREATE on it")]
    NoDatabase {
        /// The address, without its password.
        address: String,
        /// What the server said.
        detail: String,
    },
    /// There is no programme.
    #[error("{address}: schema {schema} holds no programme; `limpid new` makes an empty one")]
    NoProgramme {
        /// The address, without its password.
        address: String,
        /// Schema.
        schema: String,
    },
    /// There is one already, or something else.
    #[error("{address}: schema {schema} is not empty ({found}) and is left as it is")]
    NotEmpty {
        /// The address, without its password.
        address: String,
        /// Schema.
        schema: String,
        /// What stands there.
        found: String,
    },
    /// Too old a server.
    #[error("{address}: the server has version {found}; {OLDEST_MAJOR} and newer will do")]
    Version {
        /// The address, without its password.
        address: String,
        /// Its version.
        found: String,
    },
    /// The database cannot hold all texts.
    #[error("{address}: the database keeps texts as {found}; a programme needs UTF8")]
    Encoding {
        /// The address, without its password.
        address: String,
        /// Its encoding.
        found: String,
    },
    /// The role lacks rights.
    #[error("{}; nothing was changed", no_right(address, detail))]
    Rights {
        /// The address, without its password.
        address: String,
        /// What the server said.
        detail: String,
    },
    /// The connection broke.
    #[error("{}; nothing of this act was kept: do it again", lost(address, doing, detail))]
    Lost {
        /// The address, without its password.
        address: String,
        /// What was being done.
        doing: &'static str,
        /// What was heard.
        detail: String,
    },
    /// The connection broke in the one moment where nobody can know.
    #[error(
        "the connection to {address} was lost while an act was being committed and the server has not come back \
         ({detail}): look with `limpid verify --head {head}` whether the act was kept before doing it again"
    )]
    Unknown {
        /// The address, without its password.
        address: String,
        /// Hash of the act's event.
        head: String,
        /// What was heard.
        detail: String,
    },
    /// A name beyond what an index of the server takes.
    #[error("{address}: a name is too long for a server's index ({detail}); some 2600 bytes will do")]
    LongName {
        /// The address, without its password.
        address: String,
        /// What the server said.
        detail: String,
    },
    /// The schema is not what the program made.
    #[error("{address}: {detail}; the schema was altered: `limpid verify` names where")]
    Altered {
        /// The address, without its password.
        address: String,
        /// What the server said.
        detail: String,
    },
}

impl ServerError {
    /// Whether what was asked cannot be met, rather than something outside having failed.
    pub fn is_request(&self) -> bool {
        matches!(
            self,
            Self::Address { .. }
                | Self::Certificates { .. }
                | Self::FileOnly { .. }
                | Self::NotEmpty { .. }
                | Self::LongName { .. }
        )
    }
}

/// Whether the connection is gone.
pub(crate) fn is_lost(error: &postgres::Error) -> bool {
    use std::error::Error as _;
    let ended = [SqlState::ADMIN_SHUTDOWN, SqlState::CRASH_SHUTDOWN, SqlState::CANNOT_CONNECT_NOW];
    error.is_closed()
        || error.source().is_some_and(<dyn std::error::Error>::is::<std::io::Error>)
        || error.code().is_some_and(|c| ended.contains(c) || c.code().starts_with("08"))
}

/// Whether waiting may help one who connects: the server starts, stops, or has no place free.
pub(crate) fn will_pass(error: &postgres::Error) -> bool {
    // A name of a host that nobody knows stays unknown.
    let unknown = in_full(error).contains("failed to lookup");
    (is_lost(error) && !unknown) || error.code() == Some(&SqlState::TOO_MANY_CONNECTIONS)
}

/// Tells what the server reported in the words of the store.
pub fn told(at: &ServerAddress, doing: &'static str, error: &postgres::Error) -> StoreError {
    let address = at.to_string();
    if let Some(detail) = super::tls::untrusted(error) {
        return ServerError::Untrusted { address, detail }.into();
    }
    if in_full(error).contains("does not support TLS") {
        return ServerError::Untrusted { address, detail: says::SpeaksNoTls.text() }.into();
    }
    if is_lost(error) {
        return ServerError::Lost { address, doing, detail: in_full(error) }.into();
    }
    let Some(said) = error.as_db_error() else {
        let detail = in_full(error);
        if detail.contains("password") || detail.starts_with("authentication") {
            return ServerError::Login { address, detail }.into();
        }
        return StoreError::Database { path: address.into(), doing, detail };
    };
    let detail = said.message().to_owned();
    match said.code().code() {
        "28000" | "28P01" => ServerError::Login { address, detail }.into(),
        "3D000" => ServerError::NoDatabase { address, detail }.into(),
        // Insufficient privilege; a standby or a role that only reads.
        "42501" | "25006" => ServerError::Rights { address, detail }.into(),
        "55P03" | "40001" | "40P01" => StoreError::Busy { path: address.into() },
        "53100" => StoreError::Full { path: address.into(), detail },
        "54000" => ServerError::LongName { address, detail }.into(),
        // Table, column, index or function that is not there or of another type; a value that a
        // foreign constraint or trigger refuses.
        "42P01" | "42703" | "42804" | "42883" | "42P17" | "23502" | "23514" | "P0001" | "428C9" | "42809" => {
            ServerError::Altered { address, detail }.into()
        }
        "XX001" | "XX002" => StoreError::Damaged { path: address.into(), detail },
        _ => StoreError::Database { path: address.into(), doing, detail },
    }
}

fn no_right(address: &str, detail: &str) -> String {
    format!("{address}: the role may not do this: {detail}")
}

fn lost(address: &str, doing: &str, detail: &str) -> String {
    format!("the connection to {address} was lost while {doing} ({detail})")
}

impl ServerError {
    /// As [`StoreError::cause`](crate::store::StoreError::cause).
    pub(crate) fn cause(&self) -> String {
        match self {
            Self::Rights { address, detail } => no_right(address, detail),
            Self::Lost { address, doing, detail } => lost(address, doing, detail),
            other => other.to_string(),
        }
    }
}
