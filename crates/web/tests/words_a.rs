//! No code of the record, no date as files write it and no word of the other language stands on the desk, the wells, trips
//! and lots, in English and German, on the invented programme and on those of crates/fixtures.

use crate::common;
use crate::fixtures::served;

use common::{Client, Face, coded};
use message::{Lang, Message};
use quantity::Check;
use record::schema;
use record::store::{Filter, Store};
use std::collections::BTreeSet;

/// Strings that only the record knows.
const CODES: [&str; 12] = [
    "@low",
    "@medium",
    "@high",
    " Cel",
    "degC",
    "S(-II)",
    "L_C",
    "E_n",
    "-0.0",
    "u not stated",
    "as CaCO3",
    "litre(s)",
];

/// Places in books, as their language cites them.
const CITED: [&str; 1] = ["tables 2.2 and"];

/// Little words by which a sentence of a language is known.
// "was" is a word of both languages.
const ENGLISH: [&str; 7] = [" the ", " and ", " with ", " is ", " which ", " not ", " were "];
const GERMAN: [&str; 7] = [" der ", " und ", " mit ", " ist ", " wurde ", " nicht ", " eine "];

#[test]
fn every_check_has_words_in_every_language() {
    for check in Check::ALL.iter().filter(|c| c.is_weighed()) {
        let name = Message::named("web_check", check.text()).unwrap_or_else(|| panic!("{check} has no words"));
        for lang in Lang::ALL {
            let said = name.said(lang).unwrap();
            assert!(!said.contains(check.text()) && said.len() > 2, "{check} in {lang:?}: {said}");
        }
    }
}

/// The words that can be read on a page: without markup, without what people wrote.
fn words(page: &str, names: &[String]) -> String {
    let main = page.split_once("<main").map_or(page, |(_, rest)| rest);
    let main = main.split("</main>").next().unwrap_or_default();
    // Drawings break names into lines; their words are looked at in crates/report/tests.
    let drawn = main.split("<svg").enumerate();
    let main: String =
        drawn.map(|(n, p)| if n == 0 { p } else { p.split_once("</svg>").map_or("", |(_, r)| r) }).collect();
    let mut out = String::new();
    for piece in main.split('<').skip(1) {
        let text = piece.split_once('>').map_or("", |(_, text)| text);
        out.push(' ');
        out.push_str(text);
    }
    let mut out = out.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&");
    for name in names.iter().map(String::as_str).chain(CITED) {
        out = out.replace(name, "*");
    }
    out.replace('\u{A0}', " ")
}

/// Everything that people wrote into the record, the longest first.
fn written(store: &Store) -> Vec<String> {
    let mut out = BTreeSet::new();
    for table in
        schema::TABLES.iter().filter(|t| !["result", "verdict", "finding", "reading", "derivation"].contains(&t.name))
    {
        let Ok(rows) = store.as_typed(table.name, &Filter::all()) else { continue };
        for (_, cells) in rows {
            for cell in cells.into_iter().filter(|c| c.len() > 2 && !c.bytes().all(|b| b.is_ascii_digit())) {
                out.insert(message::number::capital(&cell));
                out.insert(document::printed::printed(&cell, Lang::De));
                out.insert(document::printed::printed(&cell, Lang::En));
                out.insert(cell);
            }
        }
    }
    let mut out: Vec<String> = out.into_iter().filter(|c| c.contains([' ', '-', '_', '.']) || c.len() > 6).collect();
    out.sort_by_key(|c| std::cmp::Reverse(c.len()));
    out
}

/// A day as files write it, standing free.
fn iso_day(text: &str) -> Option<&str> {
    text.split(|c: char| c.is_whitespace() || "(),;".contains(c)).find(|w| {
        let b = w.as_bytes();
        b.len() >= 10
            && b[..4].iter().all(u8::is_ascii_digit)
            && b[4] == b'-'
            && b[7] == b'-'
            && b[8..10].iter().all(u8::is_ascii_digit)
    })
}

fn look(c: &mut Client, store: &Store, lang: Lang) {
    let names = written(store);
    let mut paths: Vec<String> =
        ["/", "/wells", "/trips", "/lots", "/record/accounts", "/keys", "/search?q=x", "/nowhere"]
            .map(String::from)
            .into();
    for w in store.wells().unwrap() {
        paths.push(format!("/wells/{}", coded(&w.name)));
    }
    for t in store.trips().unwrap() {
        let parts = ["readings", "air", "bottles", "journey"];
        paths.extend(parts.map(|part| format!("/trips/{}?show={part}", coded(&t.name))));
    }
    let other: &[&str] = if lang == Lang::De { &ENGLISH } else { &GERMAN };
    let mut faults = vec![];
    c.get(&format!("/keys?language={}", lang.code()));
    for path in paths {
        let page = c.get(&path).text();
        assert!(page.contains(&format!("<html lang=\"{}\"", lang.code())), "{path}");
        let text = words(&page, &names);
        let mut told = |what: &str| {
            let at = text.find(what).unwrap_or(0);
            let near: String = text.chars().skip(text[..at].chars().count().saturating_sub(50)).take(110).collect();
            faults.push(format!("{path} in {}: {what:?} in {near:?}", lang.code()));
        };
        for code in CODES.iter().copied().chain(Check::ALL.iter().map(|c| c.text())).filter(|c| text.contains(c)) {
            told(code);
        }
        if let Some(day) = iso_day(&text) {
            told(day);
        }
        for word in other.iter().filter(|w| text.contains(**w)) {
            told(word);
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

fn both(face: &Face) {
    let mut c = face.client();
    for lang in Lang::ALL {
        look(&mut c, &face.store(), lang);
    }
}

#[test]
fn the_invented_programme_speaks_words() {
    both(&Face::demo(&[]));
}

#[test]
fn an_incomplete_programme_speaks_words() {
    both(&served("incomplete").0);
}

#[test]
fn a_programme_of_hostile_names_speaks_words() {
    both(&served("hostile").0);
}

#[test]
fn a_contract_laboratory_speaks_words() {
    both(&served("laboratory").0);
}
