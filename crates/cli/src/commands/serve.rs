//! `limpid serve`: the web interface, until Ctrl-C. `limpid account`: who may come in beyond this machine.

use super::{named, open};
use crate::args::{Account, AccountAct, Serve};
use crate::failure::Failure;
use crate::out::say;
use anyhow::anyhow;
use record::store::StoreError;
use std::io::{BufRead as _, Read as _};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use web::ServeError;
use web::auth::access_log::{AccessLog, Act, Event};
use web::auth::accounts::{AccountError, Accounts};

fn accounts_path(store: &str, given: Option<&PathBuf>) -> PathBuf {
    given.cloned().unwrap_or_else(|| web::accounts_file(Path::new(store)))
}

/// Runs `limpid serve`.
pub fn run(args: &Serve) -> Result<(), Failure> {
    if args.hand.person.is_some() {
        let mut store = open(&args.store)?;
        args.hand.may_act(&store)?;
        args.hand.keep(&mut store)?;
    }
    let options = web::Options {
        store: PathBuf::from(&args.store),
        address: SocketAddr::new(args.listen, args.port),
        accounts: accounts_path(&args.store, args.accounts.as_ref()),
        person: args.hand.name().to_string(),
        behind_tls: args.behind_tls,
        tls: args.tls_cert.clone().zip(args.tls_key.clone()).map(|(cert, key)| web::TlsFiles { cert, key }),
        limits: web::Limits::default(),
    };
    let named = named(&open(&args.store)?)?.in_english();
    let scheme = if options.tls.is_some() { "https" } else { "http" };
    let store = record::store::shown(&args.store);
    let ready = move |address: SocketAddr| {
        say!("{store}: {scheme}://{address}/  (Ctrl-C ends it)");
        say!("{named}");
    };
    web::serve(options, ready, web::interrupted()).map_err(|e| match e {
        ServeError::Programme(e) => e.into(),
        ServeError::NoAccounts { .. } | ServeError::NoTls { .. } => Failure::Usage(e.to_string()),
        other => Failure::Outside(anyhow!(other)),
    })
}

impl From<AccountError> for Failure {
    fn from(e: AccountError) -> Self {
        match e {
            AccountError::Unfit { .. } | AccountError::Nobody { .. } => Self::Refused(e.to_string()),
            other => Self::Outside(other.into()),
        }
    }
}

/// Runs `limpid account`.
pub fn account(args: &Account) -> Result<(), Failure> {
    record::store::readable(&args.store).map_err(StoreError::from)?;
    let path = accounts_path(&args.store, args.accounts.as_ref());
    let (accounts, log) = (Accounts::open(&path)?, AccessLog::beside(&path));
    // Whoever can do this has the file: the account of the system is all there is to name.
    let by = std::env::var("USER").unwrap_or_default();
    let kept = |act, whom: &str, role| log.keep(&Event::now(&by, "limpid account", act).to(whom, role));
    match &args.act {
        AccountAct::Add { name, role } => {
            let role = role.parse().map_err(Failure::Usage)?;
            accounts.set(name, role, &password()?)?;
            kept(Act::SetAccount, name, Some(role));
            say!("{name} may come in as {}", role.word());
        }
        AccountAct::Remove { name } => {
            if !accounts.remove(name)? {
                return Err(AccountError::Nobody { name: name.clone() }.into());
            }
            kept(Act::RemovedAccount, name, None);
            say!("{name} has no account any more");
        }
        AccountAct::WithoutCode { name } => {
            accounts.set_second(name, None)?;
            kept(Act::RemovedCode, name, None);
            say!("{name} comes in by password alone");
        }
        AccountAct::List => {
            for a in accounts.all() {
                let second = if a.has_second() { "  (with a code)" } else { "" };
                say!("{:<8} {}{second}", a.role.word(), a.name);
            }
        }
        AccountAct::Log => {
            for event in log.all().map_err(|e| Failure::Outside(e.into()))? {
                say!("{}", serde_json::to_string(&event).map_err(|e| Failure::Outside(e.into()))?);
            }
        }
    }
    Ok(())
}

/// The password, from standard input: never an argument, which others on the machine can read.
fn password() -> Result<String, Failure> {
    eprintln!("password (at least {} characters), then Enter:", web::auth::accounts::SHORTEST);
    let mut text = String::new();
    std::io::stdin().lock().take(4096).read_line(&mut text).map_err(|e| Failure::Outside(e.into()))?;
    Ok(text.trim_end_matches(['\r', '\n']).to_string())
}
