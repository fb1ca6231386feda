//! What proves to a stranger that a record is what it was: signatures of persons, and heads that others keep.
//!
//! In: texts, keys and answers of others as bytes. Out: texts to sign and to send, and whether an answer speaks of them.
//!
//! * [`key`], [`signature`]: Ed25519 in the open signature format of SSH (OpenSSH's PROTOCOL.sshsig), so that
//!   `ssh-keygen -Y verify`, which every computer has, checks what we say.
//! * [`mod@line`]: the one line that is signed or sent, of a head, a sign-off, a key. It is made of the record alone, so
//!   that whoever has the record makes the same line again.
//! * [`stamp`]: requests for a time stamp and their answers (RFC 3161).
//!
//! What it does not do: it knows no programme, no clock, no file and no network, and makes no keys. It does not check
//! the signature of a time-stamp authority, whose certificates are not ours to trust: `openssl ts -verify` does.
//! Checked in `tests/`, against stock `ssh-keygen` and `openssl`.

mod der;
pub mod key;
pub mod line;
pub mod signature;
pub mod stamp;

pub use key::{Key, KeyError, SecretKey};
pub use line::{Head, KeyHeld, LineError, SignOffLine};
pub use signature::{SignatureError, sign, verify};
pub use stamp::{Stamp, StampError};
