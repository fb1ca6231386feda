//! The catalogues as documents use them: no message of any language advises on drinking, and every word of the record
//! that a document shows has a message.

use message::{Lang, Message};
use record::model::{BottleKind, State, VialRole};
use std::path::{Path, PathBuf};

fn within(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap_or_else(|e| panic!("reading {}: {e}", folder.display()));
    entries.map(|e| e.expect("a folder lists").path()).collect()
}

/// The text of a catalogue: comments left out, broken lines joined.
fn text(path: &Path) -> String {
    let catalogue = std::fs::read_to_string(path).unwrap_or_else(|e| panic!("reading {}: {e}", path.display()));
    let said: Vec<&str> = catalogue.lines().filter(|l| !l.starts_with('#')).map(str::trim).collect();
    said.join(" ").to_lowercase()
}

#[test]
fn no_message_of_any_language_advises_on_drinking() {
    const ADVICE: [&str; 6] =
        ["safe to drink", "potable", "trinkbar", "unbedenklich", "trinkwasserqualität", "gesund "];
    let mut read = 0;
    for language in within(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../message/catalogue")) {
        for path in within(&language).iter().filter(|p| p.extension().is_some_and(|e| e == "ftl")) {
            let said = text(path);
            for advice in ADVICE {
                assert!(!said.contains(advice), "{}: {advice}", path.display());
            }
            read += 1;
        }
    }
    assert!(read >= 40, "{read} catalogues");
}

#[test]
fn every_word_of_the_record_that_a_document_shows_has_a_message() {
    let kinds = BottleKind::WORDS.iter().chain(VialRole::WORDS).map(|w| ("kind", *w));
    for (room, word) in kinds.chain(State::WORDS.iter().map(|w| ("state", *w))) {
        let message = Message::named(room, word).unwrap_or_else(|| panic!("{room} {word}"));
        assert_eq!(message.in_english(), word.replace('-', " "));
        assert_ne!(message.said(Lang::De), None);
    }
}
