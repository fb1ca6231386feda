//! A person's key: the public half as one line of text, the private half as the file that `ssh-keygen` made.
//!
//! Only Ed25519 (RFC 8032): one curve, no parameters to choose wrongly. A private key is read, used and dropped; nothing
//! here writes one, and it has no text of its own that could be printed by mistake.

use ssh_key::{Algorithm, HashAlg, PrivateKey, PublicKey};
use std::fmt;

/// Why a key was not taken.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum KeyError {
    /// Not a public key at all.
    #[error("expected a public key, one line that begins with ssh-ed25519, as in the file that ends in .pub: {detail}")]
    NotPublic {
        /// What was wrong.
        detail: String,
    },
    /// Not a private key at all.
    #[error("expected a private key as `ssh-keygen -t ed25519` writes it: {detail}")]
    NotPrivate {
        /// What was wrong.
        detail: String,
    },
    /// A key of another kind.
    #[error("found a key of kind {found}, expected ssh-ed25519: `ssh-keygen -t ed25519` makes one")]
    Kind {
        /// What it is.
        found: String,
    },
    /// The private key is locked, and no passphrase was given.
    #[error("the private key is locked with a passphrase, and none was given")]
    Locked,
    /// The passphrase does not open it.
    #[error("the passphrase does not open the private key")]
    Passphrase,
}

/// The public half of a person's key.
#[derive(Clone, PartialEq, Eq)]
pub struct Key(PublicKey);

impl Key {
    /// Reads the line of a `.pub` file; a comment after the key is dropped.
    ///
    /// # Errors
    /// [`KeyError::NotPublic`], [`KeyError::Kind`].
    pub fn parse(line: &str) -> Result<Self, KeyError> {
        let key = PublicKey::from_openssh(line.trim()).map_err(|e| KeyError::NotPublic { detail: e.to_string() })?;
        Self::of(&key)
    }

    fn of(key: &PublicKey) -> Result<Self, KeyError> {
        match key.algorithm() {
            Algorithm::Ed25519 => Ok(Self(PublicKey::new(key.key_data().clone(), ""))),
            other => Err(KeyError::Kind { found: other.to_string() }),
        }
    }

    /// The line of a `.pub` file, without comment.
    ///
    /// # Panics
    /// Never: a key that was read can be written.
    pub fn line(&self) -> String {
        self.0.to_openssh().expect("a key that was read can be written").trim().to_owned()
    }

    /// What people compare keys by: `SHA256:` and 43 signs, as `ssh-keygen -l` prints it.
    pub fn fingerprint(&self) -> String {
        self.0.fingerprint(HashAlg::Sha256).to_string()
    }

    /// A line of a file of allowed signers (ssh-keygen(1)), by which `ssh-keygen -Y verify` knows whose key it is:
    /// `who` stands as in an address ([`principal`]), the key is good for our namespace alone.
    pub fn allowed_signer(&self, who: &str) -> String {
        format!("{} namespaces=\"{}\" {}", principal(who), crate::signature::NAMESPACE, self.line())
    }

    pub(crate) fn inner(&self) -> &PublicKey {
        &self.0
    }
}

impl fmt::Debug for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Key({})", self.fingerprint())
    }
}

/// A person's name as `ssh-keygen` takes it after `-I`: letters and digits of ASCII and `.-_@` stay, every other byte is
/// percent-encoded, since a space, a comma, `*`, `?` and `!` have a meaning in the file of allowed signers.
pub fn principal(who: &str) -> String {
    let one = |b: u8| {
        if b.is_ascii_alphanumeric() || b".-_@".contains(&b) { char::from(b).to_string() } else { format!("%{b:02X}") }
    };
    who.bytes().map(one).collect()
}

/// The private half of a person's key, in memory only.
pub struct SecretKey(PrivateKey);

impl SecretKey {
    /// Reads the file that `ssh-keygen` wrote; `passphrase` opens a locked one.
    ///
    /// # Errors
    /// [`KeyError`].
    pub fn read(text: &str, passphrase: Option<&str>) -> Result<Self, KeyError> {
        let mut key = PrivateKey::from_openssh(text).map_err(|e| KeyError::NotPrivate { detail: e.to_string() })?;
        Key::of(key.public_key())?;
        if key.is_encrypted() {
            key = key.decrypt(passphrase.ok_or(KeyError::Locked)?).map_err(|_| KeyError::Passphrase)?;
        }
        Ok(Self(key))
    }

    /// Its public half.
    ///
    /// # Panics
    /// Never: the kind was looked at when it was read.
    pub fn public(&self) -> Key {
        Key::of(self.0.public_key()).expect("an Ed25519 key")
    }

    pub(crate) fn inner(&self) -> &PrivateKey {
        &self.0
    }
}

impl fmt::Debug for SecretKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "SecretKey of {}", self.public().fingerprint())
    }
}
