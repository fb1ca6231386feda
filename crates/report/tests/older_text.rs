//! What an older program kept in English alone: marked in a document of another language, and the mark explained once.
//! Cautions are never among it.

use document::content::{Block, Content, Section};
use message::{IN_ENGLISH, Lang, Message, Spoken, document_words, run, with_language};
use quantity::{Check, Finding, Outcome};
use report::Caution;
use std::collections::BTreeSet;
use std::path::Path;

fn with_finding(finding: Finding) -> Content {
    let section = Section::of(run::Results, vec![Block::Findings(vec![finding])]);
    Content { title: "SL-2".into(), lang: "de".into(), sections: vec![section], ..Content::default() }
}

#[test]
fn english_stood_in_the_german_report_without_a_mark() {
    let set = |finding: Finding| {
        with_language(Lang::De, || {
            let content = with_finding(finding);
            [document::paper::to_markup(&content).main, document::html::to_html(&content)]
        })
    };
    let note = document_words::Untranslated { mark: IN_ENGLISH.into() }.in_language(Lang::De);
    for out in set(Finding::kept(Check::WellFlow, Outcome::NotKnown, Lang::En, "a heron was seen")) {
        assert!(out.contains(&format!("a heron was seen {IN_ENGLISH}")), "{IN_ENGLISH} behind the text");
        assert_eq!(out.matches(&note).count(), 1, "{note}");
    }
    let in_german = Finding::kept(Check::WellFlow, Outcome::NotKnown, Lang::De, "ein Reiher wurde gesehen");
    for finding in [in_german, Finding::new(Check::WellFlow, Outcome::NotKnown, message::well::NoFill)] {
        for out in set(finding) {
            assert!(!out.contains(IN_ENGLISH) && !out.contains(&note), "{out}");
        }
    }
}

/// A message of a version that this one does not know leaves its English, marked.
#[test]
fn a_message_of_the_future_was_left_out() {
    let unknown: Message = serde_json::from_str(r#"{"id":"well-of-the-future"}"#).unwrap();
    let mut finding = Finding::kept(Check::WellFlow, Outcome::NotKnown, Lang::En, "the well sings");
    finding.message = Some(unknown);
    assert_eq!(finding.text(), "the well sings");
    assert_eq!(with_language(Lang::De, || finding.text()), format!("the well sings {IN_ENGLISH}"));
}

#[test]
fn a_caution_was_left_in_english() {
    let always = |lang: &str| Content { lang: lang.into(), ..Content::default() }.all_cautions();
    let every = |lang| -> Vec<String> {
        with_language(lang, || {
            let field = [field_sheet::fields::well_caution(), field_sheet::fields::acid_caution()];
            let mut all: Vec<String> = Caution::every().iter().map(Caution::sentence).collect();
            all.extend(field_sheet::fields::cautions().into_iter().chain(field));
            all.extend(always(lang.code()));
            all
        })
    };
    let (english, german) = (every(Lang::En), every(Lang::De));
    assert_eq!(english.len(), german.len());
    let english: BTreeSet<String> = english.into_iter().collect();
    for caution in &german {
        assert!(!english.contains(caution) && !caution.contains(IN_ENGLISH), "{caution}");
    }
    let all = german.join(" ");
    for danger in ["Schwefelwasserstoff", "Säure", "unter Druck", "nicht geprüft"] {
        assert!(all.contains(danger), "{danger}");
    }
}

/// What is pushed to the cautions of a report is a [`Caution`] or comes from the catalogues.
#[test]
fn a_caution_came_from_elsewhere() {
    let mut sources = String::new();
    read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut sources);
    let calls: Vec<&str> = sources.split("cautions.").skip(1).filter(|c| !c.starts_with("iter()")).collect();
    assert!(calls.len() >= 5, "{}", calls.len());
    for call in calls {
        let known = ["push(Caution::", "push(leaflet::Caution"].iter().any(|k| call.starts_with(k));
        assert!(known, "cautions.{}", call.lines().next().unwrap_or_default());
    }
}

fn read(folder: &Path, out: &mut String) {
    for entry in std::fs::read_dir(folder).unwrap().flatten() {
        let path = entry.path();
        if path.is_dir() {
            read(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push_str(&std::fs::read_to_string(&path).unwrap());
        }
    }
}
