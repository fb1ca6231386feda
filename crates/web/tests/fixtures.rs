//! Every page of programmes that are not the demo: each link leads to a page, names stand on their pages as they
//! were written and never as markup. The programmes are those of crates/fixtures.

use crate::common;

use ::fixtures::Fixture;
use common::{Client, Face, coded};
use programme::work;
use record::by::By;
use record::identity::ReadingId;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:21:00Z" };

/// Most pages of one programme: a walk that finds more goes round in circles.
const MOST: usize = 1500;

/// A web interface on a fixture, and what it holds.
pub fn served(name: &str) -> (Face, Fixture) {
    let fixture = ::fixtures::all().into_iter().find(|f| f.name == name).unwrap();
    let face = Face::filled(|store| {
        let dir = tempfile::tempdir().unwrap();
        let bundle = fixture.write(dir.path()).unwrap();
        let inputs = intake::import::inputs(store, &[bundle], "bundle").unwrap();
        intake::import::import(store, &inputs, BY.person, BY.at).unwrap();
        work::recompute(store, None, BY).unwrap();
        for out in &fixture.out {
            let bottle = ReadingId::bottle(out.bottle).to_string();
            work::exclude(store, &bottle, true, out.why, By { person: out.person, ..BY }).unwrap();
        }
    });
    (face, fixture)
}

/// A text as maud writes it into a page.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

fn plain(text: &str) -> String {
    text.replace("&quot;", "\"").replace("&gt;", ">").replace("&lt;", "<").replace("&#39;", "'").replace("&amp;", "&")
}

/// Where a page's links lead, on this web interface, without the place in the page.
fn links(page: &str) -> BTreeSet<String> {
    let places = page.split("href=\"").skip(1).chain(page.split(" src=\"").skip(1));
    let found = places.filter_map(|rest| rest.split('"').next()).map(plain);
    let own = found.filter(|to| to.starts_with('/')).map(|to| to.split('#').next().unwrap_or_default().to_string());
    // The same page in the other language: `words` looks at those.
    let own = own.filter(|to| !to.contains("language="));
    // Choices of the results combine without end: one at a time is walked.
    let own = own.filter(|to| !to.starts_with("/results?") || to.matches('&').count() < 2);
    // The picture of a figure says the same as its SVG, and is slow to draw.
    own.filter(|to| !to.contains("as=png")).collect()
}

/// Every page that can be reached from the first, by its address.
fn walked(c: &mut Client) -> BTreeMap<String, String> {
    let mut pages = BTreeMap::new();
    let mut ahead = VecDeque::from([("/".to_string(), "nothing".to_string())]);
    let mut seen = BTreeSet::from(["/".to_string()]);
    while let Some((path, from)) = ahead.pop_front() {
        assert!(pages.len() < MOST, "the walk does not end: {path}");
        let answer = c.get(&path);
        assert_eq!(answer.status, 200, "{path}, from {from}: {}", answer.text());
        let text = answer.text();
        if answer.header("content-type").is_some_and(|t| t.starts_with("text/html")) {
            for to in links(&text) {
                if seen.insert(to.clone()) {
                    ahead.push_back((to, path.clone()));
                }
            }
        }
        pages.insert(path, text);
    }
    pages
}

/// What must not stand on any page: markup that a name carried in, and the insides of the program.
const NEVER: [&str; 9] =
    ["<b>fett", "<script>alert", "<i>schief", "panicked", "NaN", "Some(", "None)", "Err(", "called `"];

/// A file that is handed out as it is: what a person brought, or a field sheet with its program.
fn is_file(path: &str) -> bool {
    path.starts_with("/record/file") || path.contains("/files/")
}

fn sweep(name: &str) -> BTreeMap<String, String> {
    let (face, fixture) = served(name);
    let mut c = face.client();
    let pages = walked(&mut c);
    for (path, text) in pages.iter().filter(|(p, t)| !is_file(p) && t.starts_with("<!DOCTYPE")) {
        for sign in NEVER {
            assert!(!text.contains(sign), "{path} holds {sign:?}");
        }
    }
    let all = assessment::results::all(&face.store()).unwrap();
    assert!(all.len() > 5);
    for r in &all {
        let page = c.get(&format!("/case/{}", coded(&r.result.to_string())));
        assert_eq!(page.status, 200, "{}", r.result);
        assert!(page.text().contains(&escaped(&r.bottle)), "{}", r.result);
    }
    let within = |prefix: &str, word: &str| {
        let word = escaped(word);
        pages.iter().any(|(path, text)| path.starts_with(prefix) && text.contains(&word))
    };
    for label in all.iter().map(|r| r.bottle.as_str()).collect::<BTreeSet<_>>() {
        assert!(within("/results", label), "{label:?} stands on no page of results");
    }
    for well in &fixture.wells {
        assert!(
            within(&format!("/wells/{}", record::identity::in_address(well)), well),
            "the page of {well:?} does not name it"
        );
    }
    for trip in &fixture.trips {
        assert!(
            within(&format!("/trips/{}", record::identity::in_address(trip)), trip),
            "the page of {trip:?} does not name it"
        );
    }
    pages
}

#[test]
fn every_page_of_an_incomplete_programme() {
    sweep("incomplete");
}

#[test]
fn every_page_of_hostile_names() {
    sweep("hostile");
}

#[test]
fn every_page_of_a_contract_laboratory() {
    sweep("laboratory");
}
