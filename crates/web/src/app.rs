//! What all pages share: the record, who may come in, the work in hand.

use crate::ServeError;
use crate::auth::access_log::AccessLog;
use crate::auth::accounts::Accounts;
use crate::auth::cookies::Cookies;
use crate::auth::people::People;
use crate::auth::sessions::Sessions;
use crate::auth::throttle::Throttle;
use crate::auth::totp::Codes;
use crate::documents::Documents;
use crate::forms::Tokens;
use crate::jobs::Jobs;
use crate::lock::lock;
use crate::open_store::Record;
use crate::private::Private;
use crate::serving::Limits;
use crate::tls::TlsFiles;
use crate::uploads::Uploads;
use crate::worked::Worked;
use record::model::{Person, Site};
use record::store::{Filter, Store};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

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
    /// Certificate and key for TLS of our own.
    pub tls: Option<TlsFiles>,
    /// How long, how many.
    pub limits: Limits,
}

impl Options {
    /// Whether what goes to and fro is sealed.
    pub fn secure(&self) -> bool {
        self.behind_tls || self.tls.is_some()
    }
}

/// All that pages share.
pub(crate) struct App {
    pub options: Options,
    /// Name of the programme's file, for the files that are made of it.
    pub name: String,
    /// The data are made up: what is drawn says so.
    pub invented: bool,
    /// What the frame of every page says of the programme, as its sites stand now.
    called: Mutex<Called>,
    pub record: Record,
    pub accounts: Accounts,
    pub sessions: Sessions,
    pub throttle: Throttle,
    pub codes: Codes,
    pub log: AccessLog,
    pub cookies: Cookies,
    pub people: People,
    pub private: Private,
    pub tokens: Tokens,
    pub jobs: Jobs,
    pub uploads: Uploads,
    pub documents: Documents,
    pub worked: Worked,
}

/// What a programme is called.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Called {
    /// The names that people gave its sites; the stem of its file where there is none.
    pub name: String,
    /// The data are made up.
    pub invented: bool,
    /// The people of the programme.
    pub people: Vec<String>,
}

/// Sites that the name of a programme lists; more are too many to be read as one name.
const SITES_NAMED: usize = 3;

fn called(sites: &[Site], people: Vec<String>, file: &str) -> Called {
    let names: Vec<&str> = sites.iter().map(|s| s.name.as_str()).take(SITES_NAMED).collect();
    let more = if sites.len() > SITES_NAMED { " …" } else { "" };
    let stem = Path::new(file).file_stem().map_or(file.into(), |s| s.to_string_lossy());
    Called {
        name: if names.is_empty() { stem.into_owned() } else { names.join(" · ") + more },
        invented: sites.iter().any(|s| s.invented == Some(true)),
        people,
    }
}

fn people(store: &Store) -> Result<Vec<String>, record::Error> {
    Ok(store.list::<Person>(&Filter::all())?.into_iter().map(|p| p.name).collect())
}

/// The way handlers hold it.
pub(crate) type Shared = Arc<App>;

impl App {
    /// Opens the programme and its accounts.
    pub fn open(options: Options) -> Result<Self, ServeError> {
        let accounts = Accounts::open(&options.accounts)?;
        let beyond = !options.address.ip().is_loopback();
        if (options.secure() || beyond) && accounts.is_empty() {
            return Err(ServeError::NoAccounts { address: options.address, accounts: options.accounts });
        }
        if beyond && !options.secure() {
            return Err(ServeError::NoTls { address: options.address });
        }
        let private = Private::beside(&options.accounts).map_err(ServeError::Private)?;
        let name = record::store::short_name(&options.store);
        let record = Record::open(&options.store, options.limits.jobs)?;
        let (sites, people) = record.read_now(|store| Ok::<_, record::Error>((store.sites()?, people(store)?)))?;
        let called = called(&sites, people, &name);
        Ok(Self {
            name,
            invented: called.invented,
            called: Mutex::new(called),
            record,
            accounts,
            sessions: Sessions::default(),
            throttle: Throttle::default(),
            codes: Codes::default(),
            log: AccessLog::beside(&options.accounts),
            cookies: Cookies::of(&options.store, options.secure()),
            people: People::new(options.limits.requests_of_one),
            private,
            tokens: Tokens::new(),
            jobs: Jobs::new(options.limits.jobs, options.limits.waiting_of_one),
            uploads: Uploads::default(),
            documents: Documents::default(),
            worked: Worked::default(),
            options,
        })
    }

    /// What the programme is called.
    pub fn called(&self) -> Called {
        lock(&self.called).clone()
    }

    /// Sites come and are corrected while the programme is served: looked at with every reading.
    pub fn look_at_its_name(&self, store: &Store) {
        // A name is no reason to refuse a page: where the sites cannot be read the page itself says so.
        if let (Ok(sites), Ok(people)) = (store.sites(), people(store)) {
            *lock(&self.called) = called(&sites, people, &self.name);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn site(name: &str) -> Site {
        Site { id: 0, name: name.into(), description: None, latitude_deg: None, longitude_deg: None, invented: None }
    }

    #[test]
    fn a_programme_is_called_as_people_call_its_sites() {
        assert_eq!(called(&[], vec![], "reed-end.sqlite").name, "reed-end");
        assert_eq!(called(&[site("Reed End"), site("Moor")], vec![], "x.sqlite").name, "Reed End · Moor");
        assert_eq!(called(&["a", "b", "c", "d"].map(site), vec![], "x").name, "a · b · c …");
    }
}
