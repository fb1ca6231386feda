//! Whose key is whose, what was signed with it, and who keeps which head of the record elsewhere. Declarations only: the
//! words stand in [`schema`](super). No private key has a place here.

use super::Kind::{Blob, Integer, Row, Text, Time, Word};
use super::{PROOFS, Table, opt, req, since};
use crate::words::{AnchorKind, KeyEndHow, SignedWhat};

pub(super) const PERSON_KEY: Table = Table {
    name: "person_key",
    key: &["fingerprint"],
    index: &[],
    from_files: false,
    about: "Public keys of persons: whose signature is whose.",
    columns: &[
        since(PROOFS, req("fingerprint", Text, "What people compare keys by: SHA256: and 43 signs")),
        since(PROOFS, req("person", Row("person"), "Whose")),
        since(PROOFS, req("public_key", Text, "The key as one line, ssh-ed25519 and its letters")),
        since(PROOFS, req("proof", Text, "Signature by the key itself of the line that says whose it is")),
    ],
};

pub(super) const KEY_END: Table = Table {
    name: "key_end",
    key: &["person_key"],
    index: &[],
    from_files: false,
    about: "Keys that are used no longer.",
    columns: &[
        since(PROOFS, req("person_key", Row("person_key"), "Key")),
        since(
            PROOFS,
            req("how", Word(KeyEndHow::WORDS), "retired: laid aside by its owner; lost: another may have it"),
        ),
        since(PROOFS, req("why", Text, "Reason")),
        since(PROOFS, opt("person", Row("person"), "Who said so")),
    ],
};

pub(super) const SIGNED: Table = Table {
    name: "signed",
    key: &[],
    index: &["sign_off"],
    from_files: false,
    about: "Signatures by key: of sign-offs, and of heads of the record.",
    columns: &[
        since(PROOFS, req("person_key", Row("person_key"), "Key")),
        since(PROOFS, req("what", Word(SignedWhat::WORDS), "What was signed")),
        since(PROOFS, opt("sign_off", Row("sign_off"), "The sign-off; empty for a head")),
        since(PROOFS, req("events", Integer, "Number of the last event that the signature covers")),
        since(PROOFS, req("line", Text, "What was signed, as it was signed")),
        since(PROOFS, req("signature", Text, "The signature, in the open form of SSH")),
    ],
};

pub(super) const ANCHOR: Table = Table {
    name: "anchor",
    key: &[],
    index: &[],
    from_files: false,
    about: "Heads of the record that others keep.",
    columns: &[
        since(PROOFS, req("events", Integer, "Number of the last event that it covers")),
        since(PROOFS, req("head", Text, "Hash of that event")),
        since(PROOFS, req("kind", Word(AnchorKind::WORDS), "How it is kept")),
        since(PROOFS, req("kept_by", Text, "Who keeps it, or where")),
        since(PROOFS, opt("stamped_at", Time, "When an authority stamped it")),
        since(PROOFS, opt("receipt", Blob, "The authority's answer, as it came")),
        since(PROOFS, opt("person", Row("person"), "Who took it in")),
    ],
};
