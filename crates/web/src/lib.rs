//! The web interface: the programme as pages in a browser, served by the program itself.
//!
//! In: the store of a programme, an address to listen on, the file of accounts. Out: pages of plain links and
//! forms that work without script; tables also as CSV, pictures as SVG.
//!
//! * [`serve`] listens until it is told to stop. Loopback only unless told otherwise; beyond loopback it demands
//!   accounts ([`auth::accounts`]).
//! * `serving` takes connections and holds them to their limits; `tls` seals them; `auth` asks who comes in.
//! * `open_store` lends the store to readers, one writer at a time; `pages` has one module a place; `blocks` sets the
//!   report's own parts on a page; `forms` carries what was typed and lets each act happen once; `jobs` does long work.
//!
//! What it does not do: no science and no SQL; what a page says was computed below and stands in the record.
//! Checked in `tests/`: requests on a throwaway programme, and a real browser that does the whole job.

pub mod auth;

mod app;
mod blocks;
mod documents;
mod forms;
mod http_error;
mod jobs;
mod lock;
mod moment;
mod open_store;
mod page;
mod pages;
mod private;
mod routes;
mod serving;
mod style;
mod tls;
mod typed;
mod uploads;
mod worked;
mod written;

pub use app::Options;
pub use serving::Limits;
pub use tls::TlsFiles;

use app::App;
use message::{Spoken as _, web_door as says};
use serving::Serving;
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Instant;
use tls::Tls;
use tokio::net::TcpListener;

/// Tables that have a form on a screen, by their names in the record: what people fill and correct by hand.
pub fn tables_with_forms() -> impl Iterator<Item = &'static str> {
    pages::tables::SORTS.iter().map(|sort| sort.table)
}

/// Why the web interface could not be served.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ServeError {
    /// The programme cannot be opened.
    #[error(transparent)]
    Programme(#[from] record::Error),
    /// Others than this machine were to be let in, and nobody has an account.
    #[error("{}", no_accounts(address, accounts))]
    NoAccounts {
        /// The address asked for.
        address: SocketAddr,
        /// The file of accounts.
        accounts: PathBuf,
    },
    /// Others than this machine were to be let in, and passwords would go in the clear.
    #[error("{}", says::NoTls { address: address.to_string().into() }.text())]
    NoTls {
        /// The address asked for.
        address: SocketAddr,
    },
    /// The certificate or its key cannot be read, or they do not fit each other.
    #[error("{}", says::TlsUnfit { file: file.display().to_string().into(), why: detail.as_str().into() }.text())]
    Tls {
        /// The file.
        file: PathBuf,
        /// What the reader said.
        detail: String,
    },
    /// There is no place for files that pass.
    #[error("a private folder for files that pass")]
    Private(#[source] std::io::Error),
    /// The file of accounts cannot be read.
    #[error(transparent)]
    Accounts(#[from] auth::accounts::AccountError),
    /// The address is taken, or not this machine's.
    #[error("listening on {address}")]
    Listen {
        /// The address.
        address: SocketAddr,
        /// What the system said.
        source: std::io::Error,
    },
    /// Serving broke off.
    #[error("serving")]
    Serving(#[source] std::io::Error),
}

fn no_accounts(address: &SocketAddr, accounts: &Path) -> String {
    let accounts = record::store::shown(accounts);
    says::NoAccounts { address: address.to_string().into(), accounts: accounts.into() }.text()
}

/// Where the accounts of a programme stand: beside it, never in it; of one on a server, in the
/// folder where the program runs.
pub fn accounts_file(store: &Path) -> PathBuf {
    if record::store::is_server(store) {
        return format!("{}.accounts", record::store::short_name(store)).into();
    }
    let mut name = store.as_os_str().to_owned();
    name.push(".accounts");
    PathBuf::from(name)
}

/// Serves until `stop` is there. `ready` is told the address once connections are accepted.
///
/// # Errors
/// [`ServeError`].
pub fn serve(
    options: Options,
    ready: impl FnOnce(SocketAddr),
    stop: impl Future<Output = ()> + Send + 'static,
) -> Result<(), ServeError> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .max_blocking_threads(16)
        .enable_all()
        .build()
        .map_err(ServeError::Serving)?;
    let told = |source| ServeError::Listen { address: options.address, source };
    let tls = options.tls.as_ref().map(Tls::open).transpose()?.map(Arc::new);
    let listener = std::net::TcpListener::bind(options.address).map_err(told)?;
    listener.set_nonblocking(true).map_err(told)?;
    let address = listener.local_addr().map_err(ServeError::Serving)?;
    // A programme on a server waits for its answers: it is opened and let go off the runtime.
    let app = Arc::new(App::open(Options { address, ..options })?);
    let limits = app.options.limits;
    let serving = Serving { router: routes::of(app.clone()), limits, tls, proxy: app.options.behind_tls };
    let (asked, ending) = (std::sync::OnceLock::new(), app.clone());
    let stop = async {
        stop.await;
        let _ = asked.set(Instant::now());
        ending.jobs.stop_all();
    };
    let served = runtime.block_on(async {
        let listener = TcpListener::from_std(listener).map_err(ServeError::Serving)?;
        ready(address);
        serving.run(listener, stop).await;
        Ok(())
    });
    // Work that does not end by itself ends with the program: each act is whole or not at all.
    let spent = asked.get().map_or(limits.stop, Instant::elapsed);
    runtime.shutdown_timeout(limits.stop.saturating_sub(spent));
    drop(app);
    served
}

/// Comes back when the person presses Ctrl-C, or the system asks the program to end.
pub async fn interrupted() {
    let Ok(mut end) = tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate()) else {
        return std::future::pending().await;
    };
    tokio::select! {
        _ = tokio::signal::ctrl_c() => {}
        _ = end.recv() => {}
    }
}
