//! No code, no ISO date and no second language on the pages of results, cases, limits, sources, waters, series, runs and
//! compounds: on the demo and on programmes that are not the demo (crates/fixtures), in English and in German. What is
//! forbidden is the project's own list of strings that no reader of a page should meet; names that people gave are left out
//! of it, since they stand as they were written.

use crate::common;

use common::{Client, Face, coded};
use quantity::Check;
use record::store::{Filter, Store};
use std::collections::BTreeSet;

/// Strings that no page shows.
const NEVER: [&str; 11] = [
    "@low",
    "@medium",
    "@high",
    " Cel",
    "degC",
    "S(-II)",
    "L_C",
    "E_n",
    "u not stated",
    "u nicht angegeben",
    "litre(s)",
];

/// English words that no German page says.
const ENGLISH: [&str; 9] = [" the ", " is ", " are ", " not ", " with ", " which ", " was ", " bottles ", " from "];

/// German words that no English page says.
const GERMAN: [&str; 6] = [" der ", " und ", " nicht ", " ist ", " mit ", " Flaschen "];

/// The words of the page itself: without tags, scripts, what its language is switched to, and literature.
fn words(page: &str) -> String {
    let main = page.split("<main").nth(1).and_then(|m| m.split("</main>").next()).unwrap_or_default();
    let mut out = String::new();
    for (n, part) in main.split('<').enumerate() {
        let (tag, text) = part.split_once('>').unwrap_or(("", part));
        if n == 0 || tag.starts_with("script") || tag.starts_with("style") {
            continue;
        }
        out.push(' ');
        // Sources are cited in the language that they were written in.
        if !tag.contains("class=\"from\"") && !tag.contains("class=\"source\"") {
            out += text;
        }
    }
    let plain = out
        .replace("&quot;", "\"")
        .replace("&gt;", ">")
        .replace("&lt;", "<")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
    format!(" {} ", plain.replace('\u{A0}', " ").split_whitespace().collect::<Vec<_>>().join(" "))
}

/// Names and remarks on record, the longest first.
fn names(store: &Store) -> Vec<String> {
    let mut out: BTreeSet<String> = BTreeSet::new();
    for b in store.bottles(&Filter::all()).unwrap() {
        out.insert(b.label);
        out.extend([b.well, b.trip, b.note, b.lot, b.acid].into_iter().flatten());
    }
    for r in assessment::results::all(store).unwrap() {
        out.extend([r.laboratory, r.method, r.remark, r.profile].into_iter().flatten());
        out.insert(r.analyte);
    }
    out.extend(store.raw_files().unwrap().into_iter().flat_map(|f| [f.name, f.mapping]));
    out.extend(store.runs().unwrap().into_iter().flat_map(|r| [Some(r.name), r.recipe]).flatten());
    out.extend(store.exclusions().unwrap().into_iter().flat_map(|x| [x.why, x.person]));
    for r in store.runs().unwrap() {
        out.extend(store.vials(r.id).unwrap().into_iter().map(|v| v.name));
    }
    let mut out: Vec<String> = out.into_iter().filter(|n| n.chars().count() > 1).collect();
    out.sort_by_key(|n| std::cmp::Reverse(n.len()));
    out
}

fn is_iso_date(text: &str, at: usize) -> bool {
    let form = "dddd-dd-dd";
    text.as_bytes().get(at..at + form.len()).is_some_and(|found| {
        found.iter().zip(form.bytes()).all(|(c, f)| if f == b'd' { c.is_ascii_digit() } else { *c == f })
    })
}

/// What stands on a page that should not.
fn faults(text: &str, german: bool) -> Vec<String> {
    let around = |at: usize| {
        let from = text[..at].char_indices().rev().take(40).last().map_or(at, |(n, _)| n);
        text[from..].chars().take(90).collect::<String>()
    };
    let mut out = vec![];
    let codes = Check::ALL.iter().map(|c| c.text()).filter(|c| c.contains('.'));
    let stop = if german { &ENGLISH[..] } else { &GERMAN[..] };
    for sign in NEVER.iter().copied().chain(codes).chain(stop.iter().copied()) {
        out.extend(text.match_indices(sign).take(2).map(|(at, _)| format!("{sign:?}: {}", around(at))));
    }
    let bytes = text.as_bytes();
    for at in (0..bytes.len()).filter(|at| text.is_char_boundary(*at)) {
        let exponent = at > 0
            && bytes[at - 1].is_ascii_digit()
            && bytes[at] == b'e'
            && matches!(bytes.get(at + 1), Some(b'-' | b'+'))
            && bytes.get(at + 2).is_some_and(u8::is_ascii_digit);
        let minus_nothing = text[at..].starts_with("-0.0 ") || text[at..].starts_with("−0.0 ");
        if exponent || minus_nothing || is_iso_date(text, at) {
            out.push(around(at));
        }
    }
    out
}

/// The pages of a programme.
fn pages(store: &Store) -> Vec<String> {
    let all = assessment::results::all(store).unwrap();
    let mut out: Vec<String> =
        ["/results", "/results?wide=1", "/results?of=evidence", "/results?sort=well", "/limits", "/limits?show=below"]
            .map(str::to_string)
            .to_vec();
    out.extend(["/attribution", "/water", "/time", "/runs", "/compounds"].map(str::to_string));
    let mut told: BTreeSet<(bool, String)> = BTreeSet::new();
    let mut series: BTreeSet<(String, String)> = BTreeSet::new();
    for r in &all {
        // One case of every substance, of water and of evidence.
        if told.insert((r.verdict.is_some(), r.analyte.clone())) && told.len() <= 30 {
            out.push(format!("/case/{}", coded(&r.result.to_string())));
        }
        if let Some(well) = &r.well
            && series.insert((well.clone(), r.analyte.clone()))
            && series.len() <= 12
        {
            out.push(format!("/time?well={}&analyte={}", coded(well), coded(&r.analyte)));
        }
    }
    out.extend(store.runs().unwrap().into_iter().map(|r| format!("/runs/{}", coded(&r.name))));
    let with_ions = all.iter().filter(|r| r.analyte == "Ca").map(|r| r.bottle.clone()).take(3);
    out.extend(with_ions.map(|label| format!("/water/{}", coded(&label))));
    out
}

/// Goes through all pages in both languages.
fn look_through(face: &Face) {
    let mut c: Client = face.client();
    let store = face.store();
    let names = names(&store);
    let mut found = vec![];
    for path in pages(&store) {
        for (german, language) in [(false, "en"), (true, "de")] {
            let join = if path.contains('?') { '&' } else { '?' };
            let page = c.get(&format!("{path}{join}language={language}"));
            if page.status == 404 && path.starts_with("/water/") {
                continue;
            }
            assert_eq!(page.status, 200, "{path}: {}", page.text());
            let mut text = words(&page.text());
            for name in &names {
                text = text.replace(name.as_str(), "…");
            }
            found.extend(faults(&text, german).into_iter().take(4).map(|f| format!("{path} ({language}): {f}")));
        }
    }
    assert!(found.is_empty(), "{} faults\n{}", found.len(), found.join("\n"));
}

#[test]
fn what_is_looked_for_is_found() {
    let check = |text: &str, german: bool, n: usize| assert_eq!(faults(text, german).len(), n, "{text}");
    check(" lead 206+207+208@low ", false, 1);
    check(" held by number.duplicates ", false, 1);
    check(" filled 2026-07-14 ", false, 1);
    check(" 5e-15 mol ", false, 1);
    check(" bei der Flasche, which the laboratory ", true, 1);
    check(" 14 July 2026, the bottles agree ", false, 0);
    assert_eq!(words("<main><p>a <b>c</b></p><span class=\"from\">x</span></main>"), " a c ");
}

#[test]
fn no_code_on_pages_of_the_demo() {
    look_through(&Face::demo(&[]));
}

#[test]
fn no_code_on_pages_of_an_incomplete_programme() {
    look_through(&crate::fixtures::served("incomplete").0);
}

#[test]
fn no_code_on_pages_of_hostile_names() {
    look_through(&crate::fixtures::served("hostile").0);
}

#[test]
fn no_code_on_pages_of_a_contract_laboratory() {
    look_through(&crate::fixtures::served("laboratory").0);
}

/// Every check that can hold a result back, and every reason of a verdict, has its words in both languages.
#[test]
fn every_check_has_words() {
    let reasons = Check::ALL.iter().filter(|c| c.is_weighed()).map(|c| c.text());
    for code in reasons.chain([assessment::verdict::NO_DECISIVE_CHECK]) {
        let words = message::Message::named("web_check", code);
        let words = words.unwrap_or_else(|| panic!("{code} has no words"));
        for language in message::Lang::ALL {
            let said = words.said(language).unwrap();
            assert!(!said.contains('.') && said.chars().count() < 60, "{code}: {said}");
        }
    }
}
