//! A signature in the open format of SSH (OpenSSH's PROTOCOL.sshsig, version 1): it names the namespace in which it was
//! made, so that a signature for a login or for a mail is none for a record.

use crate::key::{Key, SecretKey};
use ssh_key::{HashAlg, LineEnding, SshSig};

/// The namespace of all signatures of a record.
pub const NAMESPACE: &str = "limpid";

/// Why a signature is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum SignatureError {
    /// The text is no signature of this form.
    #[error("expected a signature between -----BEGIN SSH SIGNATURE----- and -----END SSH SIGNATURE-----")]
    Form,
    /// It was made for another use.
    #[error("the signature was made for another use than a record of Limpid")]
    Namespace,
    /// It was made by another key.
    #[error("the signature was made by another key")]
    OtherKey,
    /// It is not of this text.
    #[error("the signature is not of this text")]
    OtherText,
    /// The key could not sign.
    #[error("the key could not sign")]
    Unsigned,
}

/// Signs a text; the answer is the armoured signature, as `ssh-keygen -Y sign` writes it.
///
/// # Errors
/// [`SignatureError::Unsigned`].
pub fn sign(key: &SecretKey, text: &str) -> Result<String, SignatureError> {
    let signed = key.inner().sign(NAMESPACE, HashAlg::Sha512, text.as_bytes());
    signed.and_then(|s| s.to_pem(LineEnding::LF)).map_err(|_| SignatureError::Unsigned)
}

/// Whether an armoured signature is one of this text by this key.
///
/// # Errors
/// [`SignatureError`]: why it is none.
pub fn verify(key: &Key, text: &str, armoured: &str) -> Result<(), SignatureError> {
    let signature = SshSig::from_pem(armoured.trim()).map_err(|_| SignatureError::Form)?;
    // What reading passes over (a length that follows from another) is not passed over here: one text, one signature.
    let inside = |text: &str| text.split_whitespace().collect::<String>();
    let again = signature.to_pem(LineEnding::LF).map_err(|_| SignatureError::Form)?;
    if inside(&again) != inside(armoured) {
        return Err(SignatureError::Form);
    }
    if signature.namespace() != NAMESPACE {
        return Err(SignatureError::Namespace);
    }
    if signature.public_key() != key.inner().key_data() {
        return Err(SignatureError::OtherKey);
    }
    key.inner().verify(NAMESPACE, text.as_bytes(), &signature).map_err(|_| SignatureError::OtherText)
}
