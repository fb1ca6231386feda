//! `limpid keys`: whose key is whose. The private key is read where it lies, used and dropped; it is never copied.

use super::{new_file, now, open};
use crate::args::{KeyFile, Keys};
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use message::{Message, trust as says};
use programme::proofs;
use record::by::By;
use record::model::KeyEndHow;
use record::store::Store;
use serde_json::json;
use std::fs;
use std::io::Read as _;
use std::path::Path;
use trust::key::principal;
use trust::{Key, SecretKey};

/// Runs `limpid keys`.
pub fn run(args: &Keys) -> Result<(), Failure> {
    let (mut store, at) = (open(&args.store)?, now());
    if let Some(file) = &args.add {
        let key = secret(file, &args.file)?;
        args.hand.may_act(&store)?;
        let person = args.hand.name();
        let line = proofs::key_line(&store, person, &key.public())?;
        let proof = trust::sign(&key, &line).map_err(|e| Failure::Refused(e.to_string()))?;
        proofs::add_key(&mut store, &key.public(), &proof, By { person, at: &at })?;
        let key = key.public().fingerprint().into();
        say!("{}", Message::from(says::KeyAdded { key, person: person.into() }).in_english());
        return Ok(());
    }
    let ended = match (&args.retire, &args.lost) {
        (Some(key), _) => Some((key, KeyEndHow::Retired)),
        (_, Some(key)) => Some((key, KeyEndHow::Lost)),
        _ => None,
    };
    if let Some((key, how)) = ended {
        args.hand.may_act(&store)?;
        let why = args.why.as_deref().unwrap_or_default();
        let key = proofs::end_key(&mut store, key, how, why, By { person: args.hand.name(), at: &at })?.fingerprint;
        say!("{}", Message::from(says::KeyEnded { key: key.as_str().into(), how: ending(Some(how)) }).in_english());
        if how == KeyEndHow::Lost {
            say!("{}", Message::from(says::LostWhatNow { key: key.into() }).in_english());
        }
        return Ok(());
    }
    match &args.write {
        Some(folder) => write(&store, folder),
        None => list(&store, args.json),
    }
}

/// How a key stands.
fn ending(how: Option<KeyEndHow>) -> Message {
    match how {
        None => says::InUse.into(),
        Some(KeyEndHow::Retired) => says::Retired.into(),
        Some(KeyEndHow::Lost) => says::Lost.into(),
    }
}

fn list(store: &Store, json: bool) -> Result<(), Failure> {
    let all = proofs::keys(store)?;
    if json {
        let one = |(k, end): &(record::model::PersonKey, Option<KeyEndHow>)| json!({ "person": k.person, "fingerprint": k.fingerprint, "public_key": k.public_key, "ended": end, "event": k.event });
        say!("{}", json!({ "keys": all.iter().map(one).collect::<Vec<_>>(), "warnings": [] }));
        return Ok(());
    }
    if all.is_empty() {
        say!("{}", Message::from(says::NoKeys).in_english());
    }
    for (k, end) in all {
        let (key, person, how) = (k.fingerprint.into(), k.person.into(), ending(end));
        say!("{}", Message::from(says::KeyListed { key, person, how }).in_english());
    }
    Ok(())
}

/// Writes allowed signers, lines and signatures, and says how a stranger checks each.
fn write(store: &Store, folder: &Path) -> Result<(), Failure> {
    fs::create_dir(folder).with_context(|| format!("making the folder {}", folder.display()))?;
    let keys = proofs::keys(store)?;
    let mut signers = String::new();
    for (k, _) in &keys {
        let key = Key::parse(&k.public_key).map_err(|e| Failure::Refused(e.to_string()))?;
        signers += &(key.allowed_signer(&k.person) + "\n");
    }
    new_file(&folder.join("allowed_signers"), signers)?;
    for s in store.signatures_by_key()? {
        let name = format!("{}.txt", s.id);
        new_file(&folder.join(&name), &s.line)?;
        new_file(&folder.join(format!("{name}.sig")), &s.signature)?;
        let who = keys.iter().find(|(k, _)| k.id == s.person_key_id).map_or("", |(k, _)| k.person.as_str());
        let (signers, at) = (folder.join("allowed_signers"), folder.join(&name));
        say!(
            "ssh-keygen -Y verify -f {0} -I {1} -n {2} -s {3}.sig < {3}",
            signers.display(),
            principal(who),
            trust::signature::NAMESPACE,
            at.display()
        );
    }
    Ok(())
}

/// Reads a private key from its file.
pub fn secret(file: &Path, options: &KeyFile) -> Result<SecretKey, Failure> {
    let text = fs::read_to_string(file).with_context(|| format!("reading the key {}", file.display()))?;
    let passphrase = match &options.passphrase_file {
        None => None,
        Some(from) => {
            let mut all = String::new();
            if from.as_os_str() == "-" {
                std::io::stdin().lock().read_to_string(&mut all).context("reading the passphrase")?;
            } else {
                all = fs::read_to_string(from).with_context(|| format!("reading {}", from.display()))?;
            }
            Some(all.lines().next().unwrap_or_default().to_owned())
        }
    };
    SecretKey::read(&text, passphrase.as_deref()).map_err(|e| Failure::Refused(format!("{}: {e}", file.display())))
}
