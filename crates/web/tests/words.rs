//! No code and one language on every page: the programme is walked from its first page along all links, in each
//! language, and every text a person reads is held against what must not stand there.
//!
//! What must not, as on paper: the record's own codes (checks, resolutions, units as codes), numbers as a machine writes them, ISO dates. On German pages no English either: a list
//! of words that German does not have. Exempt is what people wrote into the record, titles of documents in our tables,
//! what stands in German quotes, and what files hold where the page marks it so: `<q>`, `<code>`, `<pre>`, a class
//! `as-written`, a `lang` of its own, and what was typed into a field.
//!
//! `WORDS_AT=/record cargo test …` walks as ever and tells of pages under that address alone.

use crate::common::{Client, Face};
use message::{Lang, Message};
use quantity::Check;
use record::by::By;
use record::schema;
use record::store::{Filter, Store};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::fmt::Write as _;

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:21:00Z" };

/// Most pages of one programme: a walk that finds more goes round in circles.
const MOST: usize = 3000;

/// Lines told of one page; the rest is counted.
const TOLD: usize = 6;

/// Codes of the record and words of a machine.
const CODES: [&str; 12] =
    ["@low", "@medium", "@high", "degC", "S(-II)", "L_C", "L_D", "L_Q", "E_n", "u not stated", "as CaCO3", "litre(s)"];

/// Words of English that are none of German in any sense ("was", "in", "so", "die" are both).
const ENGLISH: [&str; 48] = [
    "the", "and", "of", "is", "are", "were", "with", "which", "that", "this", "from", "its", "has", "have", "been",
    "what", "when", "where", "than", "by", "to", "each", "every", "nothing", "these", "their", "there", "because",
    "between", "below", "above", "without", "yet", "only", "other", "for", "it", "they", "as", "on", "be", "can",
    "cannot", "no", "none", "or", "not", "how",
];

/// Elements without an end.
const VOID: [&str; 13] =
    ["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"];

/// A text on a page, where it stands, and whether it is somebody else's.
struct Text {
    /// The elements around it, the nearest three.
    at: String,
    words: String,
    quoted: bool,
    /// In the frame around the page itself, or in the line under a table or picture, which is the same everywhere.
    frame: bool,
}

/// An element that is open.
struct Open {
    name: String,
    shown: String,
    quoted: bool,
    hidden: bool,
}

/// An attribute of a tag as it stands.
fn attribute<'t>(tag: &'t str, name: &str) -> Option<&'t str> {
    let (_, rest) = tag.split_once(&format!(" {name}=\""))?;
    rest.split('"').next()
}

fn plain(text: &str) -> String {
    let text = text.replace("&quot;", "\"").replace("&gt;", ">").replace("&lt;", "<").replace("&#39;", "'");
    text.replace("&nbsp;", " ").replace('\u{A0}', " ").replace("&amp;", "&")
}

/// All that a person reads on a page, or hears read: texts, and the words in attributes.
fn texts(page: &str, language: &str) -> Vec<Text> {
    let mut out = vec![];
    let mut open: Vec<Open> = vec![];
    let mut rest = page;
    let add = |open: &[Open], text: &str, out: &mut Vec<Text>| {
        let text = plain(text).split_whitespace().collect::<Vec<_>>().join(" ");
        if text.is_empty() || open.iter().any(|o| o.hidden) {
            return;
        }
        let near: Vec<&str> = open.iter().rev().take(3).map(|o| o.shown.as_str()).collect();
        out.push(Text {
            at: near.into_iter().rev().collect::<Vec<_>>().join(" "),
            words: text,
            quoted: open.iter().any(|o| o.quoted),
            frame: !open.iter().any(|o| o.name == "main")
                || open.iter().any(|o| o.name == "figcaption" || o.shown.contains(".under")),
        });
    };
    while let Some(at) = rest.find('<') {
        add(&open, &rest[..at], &mut out);
        rest = &rest[at..];
        let Some(end) = rest.find('>') else { break };
        let tag = &rest[1..end];
        rest = &rest[end + 1..];
        if let Some(name) = tag.strip_prefix('/') {
            if let Some(at) = open.iter().rposition(|o| o.name == name.trim()) {
                open.truncate(at);
            }
            continue;
        }
        if tag.starts_with('!') {
            continue;
        }
        let name = tag.split([' ', '/', '\n']).next().unwrap_or_default().to_string();
        let class = attribute(tag, "class").unwrap_or_default();
        let other = attribute(tag, "lang").is_some_and(|l| l != language && name != "html");
        let quotes = ["q", "code", "pre", "textarea", "kbd", "samp"].contains(&name.as_str());
        let element = Open {
            quoted: quotes || other || class.split(' ').any(|c| c == "as-written"),
            hidden: ["script", "style", "template"].contains(&name.as_str()),
            shown: if class.is_empty() { name.clone() } else { format!("{name}.{}", class.replace(' ', ".")) },
            name: name.clone(),
        };
        open.push(element);
        for words in ["aria-label", "placeholder", "title", "alt"].iter().filter_map(|a| attribute(tag, a)) {
            add(&open, words, &mut out);
        }
        if VOID.contains(&name.as_str()) || tag.ends_with('/') {
            open.pop();
        }
    }
    out
}

/// Whether a word stands at a place by itself and not within a name.
fn free(text: &str, at: usize, length: usize) -> bool {
    let joins = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '/');
    !text[..at].ends_with(joins) && !text[at + length..].starts_with(joins)
}

fn date(text: &str) -> Option<&str> {
    let bytes = text.as_bytes();
    (0..text.len().saturating_sub(9)).find_map(|at| {
        let ten = text.get(at..at + 10)?;
        let is = ten.bytes().enumerate().all(|(i, b)| if i == 4 || i == 7 { b == b'-' } else { b.is_ascii_digit() });
        let before = at > 0 && (bytes[at - 1].is_ascii_alphanumeric() || b"-_/".contains(&bytes[at - 1]));
        (is && !before).then_some(ten)
    })
}

/// What of a text must not stand on a page.
fn codes(text: &str) -> Vec<String> {
    let mut out: Vec<String> = CODES.iter().filter(|c| text.contains(**c)).map(ToString::to_string).collect();
    let names = Check::ALL.iter().map(|c| c.text());
    let stands = |name: &str| text.match_indices(name).any(|(at, _)| free(text, at, name.len()));
    out.extend(names.filter(|n| stands(n)).map(|n| format!("check {n}")));
    // Nothing below zero: a number that goes on behind it is one.
    let whole = |(at, zero): (usize, &str)| !text[at + zero.len()..].starts_with(|c: char| c.is_ascii_digit());
    if ["-0.0", "−0.0", "-0,0", "−0,0"].into_iter().any(|zero| text.match_indices(zero).any(whole)) {
        out.push("a zero with a sign".into());
    }
    if text.match_indices(" Cel").any(|(at, _)| free(text, at + 1, 3)) {
        out.push(" Cel".into());
    }
    let power = |(at, _): (usize, &str)| {
        text[..at].ends_with(|c: char| c.is_ascii_digit()) && text[at + 2..].starts_with(|c: char| c.is_ascii_digit())
    };
    if text.match_indices("e-").any(power) {
        out.push("a power of ten as a machine writes it".into());
    }
    out.extend(date(text).map(|d| format!("ISO date {d}")));
    out
}

/// Titles of documents, as our tables of constants, limits and cases cite them.
fn titles() -> Vec<String> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../reference");
    let mut out = vec![];
    for file in
        std::fs::read_dir(folder).unwrap().flatten().filter(|f| f.path().extension().is_some_and(|e| e == "csv"))
    {
        let mut table = csv::ReaderBuilder::new().flexible(true).from_path(file.path()).unwrap();
        let cites = |h: &str| ["source", "document", "edition", "reference", "origin"].iter().any(|w| h.contains(w));
        let places: Vec<usize> =
            table.headers().unwrap().iter().enumerate().filter(|(_, h)| cites(h)).map(|(n, _)| n).collect();
        for row in table.records().flatten() {
            let cited = places.iter().filter_map(|n| row.get(*n)).filter(|t| t.len() > 6);
            out.extend(
                cited.flat_map(|t| [t.to_string(), document::printed::printed(t, Lang::De).replace('\u{A0}', " ")]),
            );
        }
    }
    out
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
                // A recipe is one cell; what a person wrote into it stands in quotes.
                if cell.contains('\n') {
                    out.extend(cell.split('"').skip(1).step_by(2).map(str::to_string));
                }
                out.insert(cell);
            }
        }
    }
    let mut out: Vec<String> = out.into_iter().filter(|c| c.contains([' ', '-', '_', '.']) || c.len() > 6).collect();
    out.sort_by_key(|c| std::cmp::Reverse(c.len()));
    out
}

/// A text without what others wrote and without what it quotes.
fn own_words(text: &str, others: &[String]) -> String {
    let mut out = text.replace('\u{A0}', " ");
    // A name in a drawing can stand in several lines.
    if others.iter().any(|o| o.contains(&out)) {
        return String::new();
    }
    for other in others {
        if out.contains(other.as_str()) {
            out = out.replace(other.as_str(), "…");
        }
    }
    while let Some((before, rest)) = out.split_once('„') {
        let Some((_, after)) = rest.split_once('“') else { break };
        out = format!("{before}…{after}");
    }
    out
}

/// Words of English in a text.
fn english(text: &str) -> Vec<String> {
    let words = text.split(|c: char| !(c.is_alphabetic() || c == '-' || c == '_' || c == '\u{2019}'));
    let found: BTreeSet<&str> = words.filter(|w| ENGLISH.contains(w)).collect();
    found.into_iter().map(|w| format!("English \"{w}\"")).collect()
}

/// What is wrong with a page: line and what.
fn faults(page: &str, language: &str, with_frame: bool, others: &[String]) -> Vec<String> {
    let mut out = vec![];
    for t in texts(page, language).iter().filter(|t| !t.quoted && (with_frame || !t.frame)) {
        let mut found = codes(&t.words);
        if language == "de" && !english(&t.words).is_empty() {
            found.extend(english(&own_words(&t.words, others)));
        }
        if !found.is_empty() {
            let short: String = t.words.chars().take(110).collect();
            out.push(format!("{}: “{short}”: {}", t.at, found.join(", ")));
        }
    }
    out
}

/// Where a page's links lead that is a page: not files, pictures, single tables, or the other language.
fn links(page: &str) -> BTreeSet<String> {
    let found = page.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next()).map(plain);
    let own = found.filter(|to| to.starts_with('/')).map(|to| to.split('#').next().unwrap_or_default().to_string());
    let no_page = |to: &String| {
        ["language=", "table=", "figure=", "/files/", "/record/file/", "/report/file/", "/page.", "csv", "file="]
            .iter()
            .any(|part| to.contains(part))
    };
    // Choices of the results combine without end: one at a time is walked.
    let combined = |to: &String| to.starts_with("/results?") && to.contains('&');
    own.filter(|to| !no_page(to) && !combined(to)).collect()
}

/// Pages of one kind (cases, say), with and without choices, that are walked: a case differs from the next by its numbers.
const OF_A_KIND: usize = 70;

/// Every page that can be reached from the first, in a language; of each kind so many.
fn walked(c: &mut Client, language: &str, begin: &[&str]) -> BTreeMap<String, String> {
    c.get(&format!("/?language={language}"));
    let mut pages = BTreeMap::new();
    let mut ahead: VecDeque<String> = begin.iter().map(ToString::to_string).collect();
    let mut seen: BTreeSet<String> = ahead.iter().cloned().collect();
    let mut kinds: BTreeMap<(String, bool), usize> = BTreeMap::new();
    while let Some(path) = ahead.pop_front() {
        assert!(pages.len() < MOST, "the walk does not end: {path}");
        let answer = c.get(&path);
        assert_eq!(answer.status, 200, "{path}: {}", answer.text());
        let text = answer.text();
        if !text.starts_with("<!DOCTYPE") {
            continue;
        }
        for to in links(&text) {
            let kind = to.split(['?', '/']).nth(1).unwrap_or_default().to_string();
            let printed = to.contains('?');
            let of_kind: &mut usize = kinds.entry((kind, printed)).or_default();
            if *of_kind < OF_A_KIND && seen.insert(to.clone()) {
                *of_kind += 1;
                ahead.push_back(to);
            }
        }
        pages.insert(path, text);
    }
    pages
}

/// The programmes that are walked: the demo and two that are not.
fn programmes() -> [(&'static str, Face); 3] {
    [("demo", Face::demo(&[])), ("incomplete", fixture("incomplete")), ("laboratory", fixture("laboratory"))]
}

fn fixture(name: &str) -> Face {
    let fixture = ::fixtures::all().into_iter().find(|f| f.name == name).unwrap();
    Face::filled(|store| {
        let dir = tempfile::tempdir().unwrap();
        let bundle = fixture.write(dir.path()).unwrap();
        let inputs = intake::import::inputs(store, &[bundle], "bundle").unwrap();
        intake::import::import(store, &inputs, BY.person, BY.at).unwrap();
        programme::work::recompute(store, None, BY).unwrap();
    })
}

/// A report of pages with faults: each page with its first lines, how many pages say the same; none where all is well.
fn told(found: &BTreeMap<String, Vec<String>>) -> String {
    let mut times: BTreeMap<&str, usize> = BTreeMap::new();
    for line in found.values().flatten() {
        *times.entry(line).or_default() += 1;
    }
    let mut said: BTreeSet<&str> = BTreeSet::new();
    let mut out = String::new();
    for (page, lines) in found {
        let new: Vec<&String> = lines.iter().filter(|l| said.insert(l)).collect();
        if new.is_empty() {
            continue;
        }
        let _ = writeln!(out, "{page}");
        for line in new.iter().take(TOLD) {
            let n = times[line.as_str()];
            let also = if n > 1 { format!(" ({n} times)") } else { String::new() };
            let _ = writeln!(out, "    {line}{also}");
        }
        if new.len() > TOLD {
            let _ = writeln!(out, "    … and {} more", new.len() - TOLD);
        }
    }
    let pages = found.values().filter(|l| !l.is_empty()).count();
    if out.is_empty() { out } else { format!("{pages} of {} pages at fault\n{out}", found.len()) }
}

/// What others wrote: people into the record, and authors of documents.
fn others(face: &Face) -> Vec<String> {
    let mut out = written(&face.store());
    out.extend(titles());
    out.sort_by_key(|t| std::cmp::Reverse(t.len()));
    out
}

fn language_codes() -> [&'static str; 2] {
    message::Lang::ALL.map(message::Lang::code)
}

#[test]
fn no_code_and_one_language_on_every_page() {
    let only = std::env::var("WORDS_AT").unwrap_or_default();
    let mut found = BTreeMap::new();
    for (programme, face) in programmes() {
        let others = others(&face);
        for language in language_codes() {
            for (path, text) in walked(&mut face.client(), language, &["/"]) {
                if path.starts_with(&only) {
                    found.insert(format!("{programme} {language} {path}"), faults(&text, language, true, &others));
                }
            }
        }
    }
    let told = told(&found);
    assert!(told.is_empty(), "{told}");
}

/// The pages of files, recipes, the record and the report, without the frame around them; with them an upload of each
/// file of the contract laboratory: its preview, and the choice of its columns.
#[test]
fn no_code_and_one_language_where_files_come_in_and_go_out() {
    const BEGIN: [&str; 6] =
        ["/runs/bring-in", "/recipes", "/recipes/questions", "/record", "/report", "/report?show=1"];
    let mut found = BTreeMap::new();
    for (programme, face) in programmes() {
        let others = others(&face);
        for language in language_codes() {
            let mut c = face.client();
            c.get(&format!("/?language={language}"));
            let mut pages = BTreeMap::new();
            let mut ahead: VecDeque<String> = BEGIN.iter().map(ToString::to_string).collect();
            let mut seen: BTreeSet<String> = ahead.iter().cloned().collect();
            if programme == "laboratory" {
                ahead.extend(uploaded(&mut c));
            }
            while let Some(path) = ahead.pop_front() {
                let answer = c.get(&path);
                assert_eq!(answer.status, 200, "{path}: {}", answer.text());
                let text = answer.text();
                let own = |to: &String| {
                    ["/runs/bring-in", "/recipes", "/record", "/report"].iter().any(|p| to.starts_with(p))
                };
                let own_page =
                    |to: &String| own(to) && !to.contains("/template") && !to.starts_with("/record/accounts");
                ahead.extend(links(&text).into_iter().filter(own_page).filter(|to| seen.insert(to.clone())));
                pages.insert(path, text);
            }
            for (path, text) in pages {
                found.insert(format!("{programme} {language} {path}"), faults(&text, language, false, &others));
            }
        }
    }
    let told = told(&found);
    assert!(told.is_empty(), "{told}");
}

/// Files of the contract laboratory sent up once more, and one that no mapping reads; where they are looked at.
fn uploaded(c: &mut Client) -> Vec<String> {
    let fixture = ::fixtures::all().into_iter().find(|f| f.name == "laboratory").unwrap();
    let strange = "Probe;Entnahme;Parameter;Messwert;Einheit;Messunsicherheit\nA 1;03.04.2026;Blei;1,20;µg/l;0,10\nA 1;03.04.2026;Blei, gesamt;<0,02;µg/l;\nA 2;03.04.2026;Xylidin;n.n.;µg/l;\n";
    let mut files: Vec<(&str, &[u8])> = fixture.files.iter().map(|f| (f.name, f.bytes.as_slice())).collect();
    files.push(("neues-labor.csv", strange.as_bytes()));
    let token = c.get("/runs/bring-in").token();
    let sent = c.upload("/runs/bring-in", &token, &files);
    let preview = sent.header("location").expect("a preview").to_string();
    let columns = (0..files.len()).map(|n| format!("{preview}/{n}/columns"));
    let readable = columns.filter(|to| c.get(to).status == 200).collect::<Vec<_>>();
    assert!(!readable.is_empty());
    std::iter::once(preview).chain(readable).collect()
}

#[test]
fn what_is_told_is_what_a_person_reads() {
    let page = "<!DOCTYPE html><html lang=\"de\"><body><p>Nur <q>the lead</q> und <code>well.flow</code></p><p>the lead of 2026-07-14</p><p class=\"x as-written\">1.5e-7 Cel</p><input value=\"the\" placeholder=\"8 Cel\"><p lang=\"en\">of the</p><p>SL-2026-07-14 1e-7</p></body></html>";
    let told = faults(page, "de", true, &[]);
    assert_eq!(told.len(), 3, "{told:#?}");
    assert!(
        told[0].contains("ISO date 2026-07-14") && told[0].contains("\"the\"") && told[0].contains("\"of\""),
        "{told:#?}"
    );
    assert!(told[1].contains(" Cel") && told[2].contains("power"), "{told:#?}");
    assert_eq!(
        faults("<main><p>the well.flow</p></main>", "en", false, &[]),
        ["main p: “the well.flow”: check well.flow"]
    );
}

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
