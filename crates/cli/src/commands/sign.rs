//! `limpid sign`: a person stands for a verdict, under a name that is typed, or by a key that never leaves the person's
//! machine. A sign-off that was made in the browser, or typed, gets its signature here afterwards.

use super::keys::secret;
use super::upkeep::{derived, say as say_done};
use super::{now, open};
use crate::args::{Hand, Sign};
use crate::failure::Failure;
use crate::out::say;
use assessment::results;
use assessment::witnesses::{ToSign, to_sign};
use message::{Message, count, trust as says};
use programme::proofs;
use programme::work::{self, Recomputed};
use record::by::By;
use record::model::VerdictWord;
use record::store::Store;
use std::path::Path;
use trust::SecretKey;

/// Runs `limpid sign`.
pub fn run(args: &Sign) -> Result<(), Failure> {
    // Before anything is written: a key that may not sign must not leave a sign-off without signature behind.
    let mut store = open(&args.store)?;
    let key = match &args.key {
        Some(file) => Some(owned(&store, file, args)?),
        None => None,
    };
    let done = match (&args.result, &args.why) {
        (Some(result), Some(why)) => {
            let person = key.as_ref().map(|(_, person)| person.as_str());
            Some(stand_for(&mut store, (result, why), person, &args.hand)?)
        }
        _ => None,
    };
    if let Some((key, person)) = &key {
        sign(&mut store, args, key, person)?;
    }
    done.map_or(Ok(()), derived)
}

/// The key and whose it is.
fn owned(store: &Store, file: &Path, args: &Sign) -> Result<(SecretKey, String), Failure> {
    let key = secret(file, &args.file)?;
    let kept = proofs::key_in_use(store, &key.public(), args.hand.person.as_deref())?;
    Ok((key, kept.person))
}

/// Keeps a sign-off.
fn stand_for(
    store: &mut Store,
    (result, why): (&str, &str),
    of_key: Option<&str>,
    hand: &Hand,
) -> Result<Recomputed, Failure> {
    let Some(person) = hand.person.as_deref().or(of_key) else {
        return Err(Failure::Usage("a verdict is signed by somebody: --as PERSON".into()));
    };
    let at = now();
    hand.may_act(store)?;
    programme::hands::may_sign(store, person)?;
    let done = work::sign(store, result, why, By { person, at: &at })?;
    say!("{person} stands for {result}: {why}");
    let now = programme::case::case(store, result)?.result;
    say!("verdict: {}", programme::case::verdict_in_words(&now));
    if now.verdict == Some(VerdictWord::Provisional) {
        say!(
            "a word answers for warnings; what is named here is decisive evidence that is missing: `limpid case` says what was not known"
        );
    }
    say_done(&done);
    Ok(done)
}

/// Signs by key what was asked for: the sign-offs on one result, all that wait, or the head of the record alone.
fn sign(store: &mut Store, args: &Sign, key: &SecretKey, person: &str) -> Result<(), Failure> {
    let of = match &args.result {
        Some(result) => Some(results::find(store, result)?.subject_id),
        None => None,
    };
    let wanted = |s: &ToSign| match of {
        Some(subject) => s.subject == Some(subject),
        None => args.all || s.sign_off.is_none(),
    };
    let (signing, waiting): (Vec<ToSign>, Vec<ToSign>) = to_sign(store, person)?.into_iter().partition(wanted);
    if signing.is_empty() {
        return Err(Failure::Refused(Message::from(says::NothingToSign { person: person.into() }).in_english()));
    }
    let mut signed = vec![];
    for s in signing {
        say!("{}", s.line);
        let signature = trust::sign(key, &s.line).map_err(|e| Failure::Refused(e.to_string()))?;
        signed.push((s, signature));
    }
    let at = now();
    let kept = proofs::keep_signatures(store, &key.public(), &signed, &at)?;
    let (n, key) = (count(signed.len()), kept.fingerprint.into());
    say!("{}", Message::from(says::Signed { n, person: person.into(), key }).in_english());
    let n = count(waiting.iter().filter(|s| s.sign_off.is_some()).count());
    if n > 0 {
        say!("{}", Message::from(says::Waiting { n, person: person.into() }).in_english());
    }
    Ok(())
}
