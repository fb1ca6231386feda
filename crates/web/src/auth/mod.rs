//! Who comes in, and what may be done: accounts, sessions, the guard before every request.

pub mod access_log;
pub mod accounts;
pub(crate) mod cookies;
pub(crate) mod guard;
pub(crate) mod known;
pub(crate) mod login;
pub(crate) mod look_alike;
pub(crate) mod people;
pub(crate) mod sessions;
pub(crate) mod throttle;
pub(crate) mod totp;
pub(crate) mod who;

/// Random bytes from the system, hexadecimal.
pub(crate) fn random() -> String {
    use std::fmt::Write as _;
    let bytes = argon2::password_hash::generate_salt();
    bytes.iter().fold(String::new(), |mut out, b| {
        let _ = write!(out, "{b:02x}");
        out
    })
}
