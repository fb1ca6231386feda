//! The words of the forms, the workshop, the plan and the visit: no code on a page in either language, no English on a
//! German one, every field and choice named in both; and no fault of accessibility at either width.

use crate::browser::pictures;
use crate::common;
use crate::fixtures::served;

use common::Face;
use common::browser::Browser;
use message::{Message, Spoken as _};
use quantity::Lang;
use record::schema::{self, Kind};

const PAGES: [&str; 20] = [
    "/statements",
    "/statements?well=SL-2",
    "/statements/new?kind=limit",
    "/statements/new?kind=times",
    "/statements/new?kind=picture&number=8&body=Lake%20Superior",
    "/statements/new?kind=level&level=2",
    "/statements/new?kind=none",
    "/plan",
    "/plan?kind=detect&detect.level=0.2&well.SL-2=1&choices.samples=1,2&choices.field_blanks=2,3,4&prices.bottle=40",
    "/enter/visit",
    "/enter/visit?well=SL-2",
    "/enter/site",
    "/enter/well?entered=SL-2",
    "/enter/well_section",
    "/enter/lot",
    "/enter/trip",
    "/enter/bottle",
    "/enter/field_reading",
    "/enter/custody",
    "/correct/trip/1",
];

/// The words of a page's own part, without markup and without what stands in fields.
fn words(page: &str) -> String {
    let own = page.split_once("<main").and_then(|(_, rest)| rest.split_once("</main>")).map_or(page, |(own, _)| own);
    let mut out = String::new();
    let mut inside = false;
    let own = without(own, "<textarea", "</textarea>");
    for c in without(&without(&own, "<code", "</code>"), "<datalist", "</datalist>").chars() {
        match c {
            '<' => inside = true,
            '>' => {
                inside = false;
                out.push(' ');
            }
            c if !inside => out.push(c),
            _ => {}
        }
    }
    out.replace("&quot;", "\"").replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
}

fn without(text: &str, from: &str, to: &str) -> String {
    let mut parts = text.split(from);
    let first = parts.next().unwrap_or_default().to_string();
    parts.fold(first, |out, part| out + part.split_once(to).map_or("", |(_, rest)| rest))
}

/// What must not stand on any page: the list M8 of the design, and the names of checks.
fn codes(text: &str) -> Vec<String> {
    let fixed =
        ["@low", "@med", " Cel", "degC", "S(-II)", "L_C", "L_D", "E_n", "-0.0", "u not stated", "as CaCO3", "litre(s)"];
    let mut out: Vec<String> = fixed.iter().filter(|c| text.contains(**c)).map(ToString::to_string).collect();
    out.extend(quantity::Check::ALL.iter().map(|c| c.text()).filter(|c| text.contains(c)).map(str::to_string));
    let signs: Vec<char> = text.chars().collect();
    for w in signs.windows(4) {
        if w[0].is_ascii_digit() && w[1] == 'e' && w[2] == '-' && w[3].is_ascii_digit() {
            out.push(w.iter().collect());
        }
    }
    for w in signs.windows(12) {
        let free = |c: char| !c.is_ascii_alphanumeric() && c != '-';
        let is_day =
            w[1..11].iter().enumerate().all(|(i, c)| if i == 4 || i == 7 { *c == '-' } else { c.is_ascii_digit() });
        if is_day && free(w[0]) && free(w[11]) {
            out.push(w.iter().collect());
        }
    }
    out
}

#[test]
fn no_code_stands_on_a_page_in_either_language() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    for path in PAGES {
        for language in ["en", "de"] {
            let join = if path.contains('?') { '&' } else { '?' };
            let page = c.get(&format!("{path}{join}language={language}"));
            assert_eq!(page.status, 200, "{path}: {}", page.text());
            let text = words(&page.text());
            assert_eq!(codes(&text), Vec::<String>::new(), "{language} {path}: {text}");
        }
    }
}

#[test]
fn no_code_stands_on_a_page_of_a_contract_laboratory() {
    let (face, _) = served("laboratory");
    let mut c = face.client();
    for path in
        ["/statements", "/statements/new", "/statements/new?kind=limit", "/plan", "/enter/visit", "/enter/bottle"]
    {
        for language in ["en", "de"] {
            let join = if path.contains('?') { '&' } else { '?' };
            let page = c.get(&format!("{path}{join}language={language}"));
            assert_eq!(page.status, 200, "{path}");
            let text = words(&page.text());
            assert_eq!(codes(&text), Vec::<String>::new(), "{language} {path}: {text}");
        }
    }
}

/// English words that no German sentence has.
const ENGLISH: [&str; 8] = [" the ", " of ", " and ", " with ", " where ", " which ", " each ", " is "];

#[test]
fn a_german_page_speaks_german() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    for path in PAGES.iter().filter(|p| !p.starts_with("/correct") && !p.contains("entered")) {
        let join = if path.contains('?') { '&' } else { '?' };
        let page = c.get(&format!("{path}{join}language=de")).text();
        // What is offered to be copied in English, what speaks English alone and says so, and titles of sources stand apart.
        let page = without(&without(&page, "<span id=\"copy", "</span>"), "lang=\"en\">", "</span>");
        let text = words(&page).replace('\n', " ");
        let sentences = text.split(['.', ';', ':']).filter(|s| !s.contains("[en]"));
        let english: Vec<&str> = sentences.filter(|s| ENGLISH.iter().filter(|w| s.contains(**w)).count() > 1).collect();
        assert!(english.is_empty(), "{path}: {english:?}");
    }
}

#[test]
fn every_field_and_choice_has_its_words() {
    let named = |name: &str| Message::named("web_forms", name);
    let mut lacking = vec![];
    for table in web::tables_with_forms() {
        let t = schema::table(table).unwrap();
        for of in ["thing", "enter"] {
            if named(&format!("{of}-{table}")).is_none() {
                lacking.push(format!("{of}-{table}"));
            }
        }
        for c in t.columns.iter().filter(|c| !matches!(c.kind, Kind::Blob | Kind::Json)) {
            if named(&format!("column-{}", c.name)).is_none() {
                lacking.push(format!("column-{}", c.name));
            }
            if let Kind::Word(all) = c.kind {
                // Signs of tracers stand as they are written by hand, in every language.
                let words = all.iter().filter(|w| !schema::TRACER_SIGNS.contains(w));
                lacking.extend(words.filter(|w| named(&format!("word-{w}")).is_none()).map(|w| format!("word-{w}")));
            }
        }
    }
    assert_eq!(lacking, Vec::<String>::new());
    // Each in German as in English: a label that is the same in both is a name.
    let well = named("column-well").unwrap();
    assert_eq!((well.in_language(Lang::En).as_str(), well.in_language(Lang::De).as_str()), ("Well", "Brunnen"));
}

#[test]
fn the_pages_fit_a_telephone_and_have_no_fault_of_accessibility() {
    let face = Face::demo(&[]);
    let axe = include_str!("fixtures/axe.min.js");
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut faults = vec![];
    for (n, path) in PAGES.iter().enumerate() {
        for (width, language) in [(1280, "en"), (360, "en"), (1280, "de"), (360, "de")] {
            p.size(b, width, 900);
            let join = if path.contains('?') { '&' } else { '?' };
            p.go(b, &format!("{path}{join}language={language}"));
            let over = p.eval(b, "document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if over.as_i64().is_none_or(|x| x > 0) {
                faults.push(format!("{path} at {width}: {over} px to the side"));
            }
            p.eval(b, &format!("{axe}; 0"));
            let found = p.eval(
                b,
                "axe.run(document.querySelector('main'), { resultTypes: ['violations'] }).then((r) => r.violations.filter((v) => ['serious', 'critical'].includes(v.impact)).map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')))",
            );
            faults.extend(found.as_array().unwrap().iter().map(|f| format!("{path} at {width}, {language}: {f}")));
            p.picture(b, &pictures().join(format!("forms-{n}-{width}-{language}.png")));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
