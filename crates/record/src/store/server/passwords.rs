//! Passwords of servers from where others on the machine cannot read them: the environment, and the file that PostgreSQL's
//! clients read (`PGPASSFILE`, else `~/.pgpass`; lines of host:port:database:role:password, `*` for any, `\` before a `:`
//! or `\` that is meant; PostgreSQL documentation, libpq, "The Password File"; from memory).
//!
//! A password among the arguments of a program stands in the list of processes. The command line therefore takes it out of
//! an address ([`split`]) and starts itself anew, with the password in the environment ([`WITHDRAWN`]).

use super::address::Parts;
use percent_encoding::percent_decode_str;
use postgres::Config;
use postgres::config::Host;
use std::os::unix::fs::MetadataExt as _;
use std::path::{Path, PathBuf};

/// Variable of the environment with what was taken out of addresses: JSON, address without its password to password.
pub const WITHDRAWN: &str = "LIMPID_WITHDRAWN_PASSWORDS";

/// An address without its password, and the password; none where it holds none, or cannot be read in one way only.
pub fn split(address: &str) -> Option<(String, String)> {
    let parts = Parts::of(address).ok()?;
    let decoded = |text: &str| percent_decode_str(text).decode_utf8().ok().map(std::borrow::Cow::into_owned);
    let (before, after) = address.split_once("://")?;
    let mut rest = after.to_owned();
    let mut password = None;
    if let Some((who, place)) = after.split_once('@')
        && let Some((role, secret)) = who.split_once(':')
    {
        password = Some(decoded(secret)?);
        rest = format!("{role}@{place}");
    }
    if parts.query.iter().any(|(key, _)| *key == "password") {
        let (place, query) = rest.split_once('?')?;
        let (secrets, kept): (Vec<&str>, Vec<&str>) =
            query.split('&').filter(|p| !p.is_empty()).partition(|p| p.starts_with("password="));
        // The last counts, as where the address is read.
        password = Some(decoded(secrets.last()?.strip_prefix("password=")?)?);
        rest = if kept.is_empty() { place.to_owned() } else { format!("{place}?{}", kept.join("&")) };
    }
    password.map(|p| (format!("{before}://{rest}"), p))
}

/// The password for an address that holds none.
pub(crate) fn of(address: &str, config: &Config) -> Option<Vec<u8>> {
    let withdrawn = std::env::var(WITHDRAWN).ok().and_then(|text| {
        let all: std::collections::BTreeMap<String, String> = serde_json::from_str(&text).ok()?;
        all.get(address).cloned()
    });
    let given = withdrawn.or_else(|| std::env::var("PGPASSWORD").ok());
    given.map(String::into_bytes).or_else(|| in_file(&file()?, config))
}

fn file() -> Option<PathBuf> {
    let named = std::env::var_os("PGPASSFILE").map(PathBuf::from);
    named.or_else(|| Some(Path::new(&std::env::var_os("HOME")?).join(".pgpass")))
}

/// From a file that its owner alone can read; another is passed over, as PostgreSQL's clients do.
fn in_file(file: &Path, config: &Config) -> Option<Vec<u8>> {
    if file.metadata().ok()?.mode() & 0o077 != 0 {
        return None;
    }
    let text = std::fs::read_to_string(file).ok()?;
    let host = match config.get_hosts().first()? {
        Host::Tcp(name) => name.clone(),
        Host::Unix(_) => "localhost".into(),
    };
    let port = config.get_ports().first().copied().unwrap_or(5432).to_string();
    let role = config.get_user()?;
    let wanted = [host.as_str(), &port, config.get_dbname().unwrap_or(role), role];
    let line = text.lines().filter(|l| !l.starts_with('#')).map(fields).find(|fields| {
        fields.len() == 5 && fields.iter().zip(wanted).all(|(field, wanted)| field == "*" || field == wanted)
    });
    line.and_then(|mut fields| fields.pop()).map(String::into_bytes)
}

fn fields(line: &str) -> Vec<String> {
    let (mut out, mut meant) = (vec![String::new()], false);
    for c in line.chars() {
        match c {
            '\\' if !meant => meant = true,
            ':' if !meant => out.push(String::new()),
            c => {
                meant = false;
                if let Some(last) = out.last_mut() {
                    last.push(c);
                }
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Write as _;
    use std::os::unix::fs::OpenOptionsExt as _;

    #[test]
    fn a_password_is_taken_out_of_an_address() {
        for (address, without, password) in [
            ("postgres://ann:s3%40cr3t@h:5/wells?schema=x", "postgres://ann@h:5/wells?schema=x", "s3@cr3t"),
            ("postgres://ann@h/wells?password=s3cr3t", "postgres://ann@h/wells", "s3cr3t"),
            ("postgres://ann@h/wells?schema=x&password=s3cr3t", "postgres://ann@h/wells?schema=x", "s3cr3t"),
            ("postgres://ann:a/b?c@h/wells", "postgres://ann@h/wells", "a/b?c"),
        ] {
            assert_eq!(split(address), Some((without.into(), password.into())), "{address}");
            assert_eq!(split(without), None);
        }
        for none in ["wells.sqlite", "postgers://ann:s3cr3t@h/wells", "postgres://ann@h/wells", "postgres://a:b@c@d"] {
            assert_eq!(split(none), None, "{none}");
        }
    }

    #[test]
    fn the_file_of_passwords_is_read_as_postgresqls_clients_do() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("pgpass");
        let write = |mode| {
            let mut file =
                std::fs::OpenOptions::new().create(true).write(true).truncate(true).mode(mode).open(&path).unwrap();
            let text =
                "# a line of words\nh:5433:wells:ann:one\nlocalhost:*:*:ann:t\\:w\\\\o\n*:*:*:ben:three\nshort:line\n";
            file.write_all(text.as_bytes()).unwrap();
        };
        write(0o600);
        let of = |text: &str| in_file(&path, &text.parse().unwrap()).map(|p| String::from_utf8(p).unwrap());
        assert_eq!(of("postgres://ann@h:5433/wells").as_deref(), Some("one"));
        assert_eq!(of("postgres://ann@h/wells"), None, "another port");
        assert_eq!(of("postgres://ann@%2Fvar%2Frun/x").as_deref(), Some("t:w\\o"));
        assert_eq!(of("postgres://ben@elsewhere/x").as_deref(), Some("three"));
        std::fs::remove_file(&path).unwrap();
        write(0o644);
        assert_eq!(of("postgres://ben@elsewhere/x"), None, "others can read it");
    }
}
