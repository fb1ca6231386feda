//! `limpid anchor`: the head of the record, for others to keep where it cannot be rewritten with the record, and the note
//! of who keeps it. Everything goes out and comes back as files: this program calls nobody.

use super::verify::{Found, evidence};
use super::{is_beside, new_file, now, open};
use crate::args::Anchor;
use crate::failure::Failure;
use crate::out::say;
use anyhow::Context as _;
use assessment::witnesses;
use message::{Message, Name, trust as says};
use programme::proofs::{self, Receipt};
use record::by::By;
use record::store::Store;
use std::fs;
use std::path::Path;
use trust::stamp;

/// Runs `limpid anchor`.
pub fn run(args: &Anchor) -> Result<(), Failure> {
    let mut store = open(&args.store)?;
    if let Some(file) = &args.receipt {
        return take_in(&mut store, file, args);
    }
    if let Some(folder) = &args.write {
        return write_stamps(&store, folder);
    }
    let Some(head) = witnesses::head(&store)? else {
        return Err(Failure::Refused("nothing was done yet that a head could stand for".into()));
    };
    let line = head.to_string();
    if args.mail {
        let language = args.lang.of_messages();
        let said = |m: Message| m.said(language).unwrap_or_default();
        let (n, hash) = (i64::try_from(head.events).unwrap_or(i64::MAX), Name::from(trust::line::hex(&head.head)));
        say!("{}\n", said(says::MailSubject { n, head: hash }.into()));
        say!("{}\n\n{line}", said(says::MailBody.into()));
    } else {
        say!("{line}");
    }
    if let Some(file) = &args.out {
        new_file(file, format!("{line}\n"))?;
        if is_beside(file, &args.store) {
            eprintln!("{}", Message::from(says::AnchorBeside { file: file.display().to_string().into() }).in_english());
        }
    }
    if let Some(file) = &args.request {
        let mut drawn = [0; 8];
        getrandom::fill(&mut drawn).map_err(|e| anyhow::anyhow!("drawing a number for the request: {e}"))?;
        new_file(file, stamp::request(&head.imprint(), Some(u64::from_be_bytes(drawn))))?;
        eprintln!("{}", Message::from(says::RequestNext { file: file.display().to_string().into() }).in_english());
    } else {
        eprintln!("{}", Message::from(says::AnchorNext).in_english());
    }
    Ok(())
}

fn take_in(store: &mut Store, file: &Path, args: &Anchor) -> Result<(), Failure> {
    let (at, kept_by) = (now(), args.kept_by.as_deref().unwrap_or_default());
    args.hand.may_act(store)?;
    let by = By { person: args.hand.name(), at: &at };
    let bytes = fs::read(file).with_context(|| format!("reading {}", file.display()))?;
    let events = match evidence(file, &bytes)? {
        Found::Stamp(stamp) => proofs::keep_anchor(store, Receipt::Stamp(&stamp, &bytes), kept_by, by)?,
        Found::Heads(heads) => {
            // A thread of mails holds them all; the last head counts.
            let Some(last) = heads.iter().max_by_key(|h| h.events) else { return Ok(()) };
            proofs::keep_anchor(store, Receipt::Line(last), kept_by, by)?
        }
    };
    say!("{}", Message::from(says::AnchorTaken { events, who: kept_by.into() }).in_english());
    Ok(())
}

/// Writes each stamp with the line that was stamped, and says how a stranger checks it.
fn write_stamps(store: &Store, folder: &Path) -> Result<(), Failure> {
    fs::create_dir(folder).with_context(|| format!("making the folder {}", folder.display()))?;
    for a in store.anchors()? {
        let (Some(answer), Some(head)) = (&a.receipt, witnesses::head_after(store, a.events)?) else { continue };
        let (line, stamp) = (folder.join(format!("{}.txt", a.id)), folder.join(format!("{}.tsr", a.id)));
        new_file(&line, head.to_string())?;
        new_file(&stamp, answer)?;
        say!("openssl ts -verify -data {} -in {} -CAfile CERTIFICATES.pem", line.display(), stamp.display());
    }
    Ok(())
}
