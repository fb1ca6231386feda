//! What all pages share: the record, who may come in, the work in hand.

use crate::ServeError;
use crate::auth::accounts::Accounts;
use crate::auth::sessions::Sessions;
use crate::auth::throttle::Throttle;
use crate::documents::Documents;
use crate::forms::Tokens;
use crate::jobs::Jobs;
use crate::open_store::Record;
use crate::uploads::Uploads;
use crate::worked::Worked;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;

/// What is served, where, and for whom.
#[derive(Debug, Clone)]
pub struct Options {
    /// The programme.
    pub store: PathBuf,
    /// Where to listen.
    pub address: SocketAddr,
    /// File of accounts; where it names none, loopback needs no login.
    pub accounts: PathBuf,
    /// Who acts where nobody has logged in.
    pub person: String,
    /// A proxy with TLS stands before the web interface: what it says of address and scheme is believed.
    pub behind_tls: bool,
}

/// All that pages share.
pub(crate) struct App {
    pub options: Options,
    /// Name of the programme.
    pub name: String,
    /// The data are made up: every page says so.
    pub invented: bool,
    pub record: Record,
    pub accounts: Accounts,
    pub sessions: Sessions,
    pub throttle: Throttle,
    pub tokens: Tokens,
    pub jobs: Jobs,
    pub uploads: Uploads,
    pub documents: Documents,
    pub worked: Worked,
}

/// The way handlers hold it.
pub(crate) type Shared = Arc<App>;

impl App {
    /// Opens the programme and its accounts.
    pub fn open(options: Options) -> Result<Self, ServeError> {
        let accounts = Accounts::open(&options.accounts)?;
        if (options.behind_tls || !options.address.ip().is_loopback()) && accounts.is_empty() {
            return Err(ServeError::NoAccounts { address: options.address, accounts: options.accounts });
        }
        let name = record::store::short_name(&options.store);
        let record = Record::open(&options.store)?;
        let invented = record
            .read_now(record::store::Store::sites)
            .map_err(record::Error::from)?
            .iter()
            .any(|s| s.invented == Some(true));
        Ok(Self {
            name,
            invented,
            record,
            accounts,
            sessions: Sessions::default(),
            throttle: Throttle::default(),
            tokens: Tokens::new(),
            jobs: Jobs::default(),
            uploads: Uploads::default(),
            documents: Documents::default(),
            worked: Worked::default(),
            options,
        })
    }
}

/// The moment now, to the second, in universal time.
pub(crate) fn now() -> String {
    jiff::Timestamp::now().strftime("%Y-%m-%dT%H:%M:%SZ").to_string()
}
