//! Arguments of what is signed, kept by others, and verified.

use super::Hand;
use clap::Args as ClapArgs;
use std::path::PathBuf;

/// A private key that stands in a file of its owner.
#[derive(Debug, ClapArgs)]
pub struct KeyFile {
    /// File with the passphrase of a locked key, its first line; - for standard input
    #[arg(long, value_name = "FILE")]
    pub passphrase_file: Option<PathBuf>,
}

/// `limpid sign`
#[derive(Debug, ClapArgs)]
pub struct Sign {
    /// The programme
    pub store: String,
    /// Identity of the result; with --key and without --why the sign-off that waits there is signed
    #[arg(allow_hyphen_values = true, required_unless_present = "key")]
    pub result: Option<String>,
    #[command(flatten)]
    pub hand: Hand,
    /// The reason, kept for good
    #[arg(long, requires = "result", required_unless_present = "key")]
    pub why: Option<String>,
    /// Your private key (ssh-keygen -t ed25519): signs the sign-off; without a result, the head of the record
    #[arg(long, value_name = "FILE")]
    pub key: Option<PathBuf>,
    /// With --key and without a result: all of your sign-offs that wait for a signature too
    #[arg(long, requires = "key", conflicts_with = "result")]
    pub all: bool,
    #[command(flatten)]
    pub file: KeyFile,
}

/// `limpid keys`
#[derive(Debug, ClapArgs)]
pub struct Keys {
    /// The programme
    pub store: String,
    /// Put the key on record that belongs to this private key file; the private key stays where it is
    #[arg(long, value_name = "FILE", requires = "person", conflicts_with_all = ["retire", "lost", "write"])]
    pub add: Option<PathBuf>,
    #[command(flatten)]
    pub file: KeyFile,
    /// Lay a key aside: its fingerprint or the beginning of it
    #[arg(long, value_name = "KEY", requires = "why", conflicts_with_all = ["lost", "write"])]
    pub retire: Option<String>,
    /// Say that another may have a key
    #[arg(long, value_name = "KEY", requires = "why", conflicts_with = "write")]
    pub lost: Option<String>,
    /// The reason, kept for good
    #[arg(long)]
    pub why: Option<String>,
    /// Write what a stranger needs into a new folder: the allowed signers, every signed line and its signature
    #[arg(long, value_name = "DIR")]
    pub write: Option<PathBuf>,
    #[command(flatten)]
    pub hand: Hand,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid anchor`
#[derive(Debug, ClapArgs)]
pub struct Anchor {
    /// The programme
    pub store: String,
    /// Write the line into a new file, for a second machine
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Print a mail to send
    #[arg(long)]
    pub mail: bool,
    /// Language of the mail
    #[arg(long, value_enum, default_value = "en")]
    pub lang: super::RecipeLanguage,
    /// Write a request for a time stamp (RFC 3161) into a new file
    #[arg(long, value_name = "FILE.tsq")]
    pub request: Option<PathBuf>,
    /// Take in what came back: a file with the line, or an authority's answer (.tsr)
    #[arg(long, value_name = "FILE", requires = "kept_by", conflicts_with_all = ["out", "mail", "request", "write"])]
    pub receipt: Option<PathBuf>,
    /// Who keeps the head, or where
    #[arg(long, value_name = "WHO", requires = "receipt")]
    pub kept_by: Option<String>,
    /// Write the time stamps on record into a new folder, for openssl
    #[arg(long, value_name = "DIR", conflicts_with_all = ["out", "mail", "request"])]
    pub write: Option<PathBuf>,
    #[command(flatten)]
    pub hand: Hand,
}

/// `limpid verify`
#[derive(Debug, ClapArgs)]
pub struct Verify {
    /// The programme, or the folder of a data package
    pub store: String,
    /// The head hash of an earlier report or export: shows a tail that was cut
    #[arg(long)]
    pub head: Option<String>,
    /// An anchor that was kept elsewhere: a file with the line, or an authority's answer (.tsr); may be given several times
    #[arg(long, value_name = "FILE")]
    pub anchor: Vec<PathBuf>,
    /// One JSON document on stdout
    #[arg(long)]
    pub json: bool,
}
