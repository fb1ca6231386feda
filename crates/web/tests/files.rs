//! Files coming in and papers going out, in both languages: equal faults stand together, a first import moves nothing that
//! stood before, what would turn is worked out on a copy, columns are guessed with proof and shown as they would print, acts
//! are told as sentences, page one is shown before a report is made.

use crate::common::browser::Browser;
use crate::common::{Client, Face, raw_files};
use message::{Lang, Message, web_columns, web_files, web_record};

/// A table of a laboratory that no mapping reads: decimal commas, ± without a word on it, a name that nobody knows.
const STRANGE: &str = "Probe;Entnahme;Parameter;Messwert;Einheit;Messunsicherheit;Fraktion\nA 1;23.04.2026;Blei;1,20;µg/l;0,10;unfiltered\nA 1;23.04.2026;Cadmium gesamt;<0,02;µg/l;;unfiltered\nA 2;23.04.2026;Xylidin;n.n.;µg/l;;unfiltered\n";

fn said(language: Lang, what: impl Into<Message>) -> String {
    what.into().said(language).unwrap()
}

/// Sends files up; where they are looked at.
fn sent(c: &mut Client, files: &[(&str, &[u8])]) -> String {
    let token = c.get("/runs/bring-in").token();
    c.upload("/runs/bring-in", &token, files).header("location").expect("a preview").to_string()
}

#[test]
fn two_hundred_equal_faults_were_two_hundred_rows() {
    let face = Face::empty();
    let mut c = face.client();
    let rows = (0..200).fold(String::new(), |all, n| all + &format!("W-{n},milk\n"));
    let preview = sent(&mut c, &[("wells.csv", format!("name,medium\n{rows}").as_bytes())]);
    let token = c.get(&preview).token();
    c.post(&format!("{preview}/mappings"), &[("token", &token), ("m0", "wells")]);
    for language in Lang::ALL {
        let page = c.get(&format!("{preview}?language={}", language.code())).text();
        assert_eq!(page.matches(&said(language, web_files::Times { n: 200 })).count(), 1, "{page}");
        assert!(page.contains(&said(language, web_files::InRows { first: 2, last: 201 })), "{page}");
        assert!(page.contains(&said(language, web_files::NFaults { n: 200 })), "{page}");
    }
}

#[test]
fn a_first_import_moved_values_that_nobody_had_seen() {
    let face = Face::empty();
    let mut c = face.client();
    let dir = tempfile::tempdir().unwrap();
    let files: Vec<(String, Vec<u8>)> = raw_files(dir.path())
        .into_iter()
        .map(|(p, _)| (p.file_name().unwrap().to_string_lossy().into_owned(), std::fs::read(p).unwrap()))
        .collect();
    let files: Vec<(&str, &[u8])> = files.iter().map(|(n, b)| (n.as_str(), b.as_slice())).collect();
    let preview = sent(&mut c, &files);
    let page = c.get(&preview);
    assert!(page.text().contains(&said(Lang::En, web_files::NoVerdictsYet)), "{}", page.text());
    let taken = c.post(&format!("{preview}/take"), &[("token", &page.token())]);
    let to = c.retrying(&taken);
    let told = c.get(&to).text();
    let verdicts = face.store().list::<record::model::Verdict>(&record::store::Filter::all()).unwrap().len();
    assert!(told.contains(&said(Lang::En, web_files::FirstVerdicts { n: message::count(verdicts) })), "{told}");
    assert!(!told.contains("anew"), "{told}");
    // The same files once more: they are there already, and nothing changes.
    let again = sent(&mut c, &files);
    let page = c.get(&again).text();
    assert!(page.contains(&said(Lang::En, web_files::SameFile { n: message::count(files.len()) })), "{page}");
    assert!(page.contains(&said(Lang::En, web_files::ChangesNone)), "{page}");
    // What would turn is worked out on a copy: nothing, and nothing is written.
    let head = face.store().head().unwrap();
    let token = c.get(&again).token();
    let asked = c.post(&format!("{again}/foresee"), &[("token", &token)]);
    c.retrying(&asked);
    let page = c.get(&again).text();
    assert!(page.contains(&said(Lang::En, web_files::ForeseenNone)), "{page}");
    assert_eq!(face.store().head().unwrap(), head);
}

#[test]
fn columns_are_guessed_with_proof_and_shown_as_they_would_print() {
    let face = Face::empty();
    let mut c = face.client();
    let preview = sent(&mut c, &[("neues labor.csv", STRANGE.as_bytes())]);
    let columns = format!("{preview}/0/columns");
    for language in Lang::ALL {
        let page = c.get(&format!("{columns}?language={}", language.code())).text();
        // "1,20", "0,10" and the limit behind "<": three cells, none with a point.
        let proof = web_columns::ProofComma { n: 3, example: "1,20".into(), points: 0 };
        assert!(page.contains(&said(language, proof)), "{page}");
        // U with k = 2 is printed as it stands, u doubles, 0.10 % of 1.20 are 0.0012, so U is 0.0024 of u.
        let decimal = |text: &str| if language == Lang::De { text.replace('.', ",") } else { text.to_string() };
        for printed in ["1.20 ± 0.10", "1.20 ± 0.20", "1.2000 ± 0.0024"] {
            assert!(page.contains(&decimal(printed)), "{printed}: {page}");
        }
        for mark in [web_columns::Sure.into(), web_columns::Likely.into(), Message::from(web_columns::New)] {
            assert!(page.contains(&said(language, mark)), "{page}");
        }
        assert!(page.contains(&said(language, web_columns::NoLook)), "what ± is has no answer yet: {page}");
    }
    // Answered: the last look says each row as a sentence, and nothing is kept by looking.
    let token = c.get(&format!("{columns}?language=en")).token();
    let head = face.store().head().unwrap();
    let mut fields = vec![("token", token.as_str()), ("name", "Neues Labor"), ("layout", "results")];
    for (field, heading) in [
        ("c.bottle.label", "Probe"),
        ("c.bottle.filled_at", "Entnahme"),
        ("c.result.analyte", "Parameter"),
        ("c.result.value", "Messwert"),
        ("c.result.unit", "Einheit"),
        ("c.result.u", "Messunsicherheit"),
        ("c.result.fraction", "Fraktion"),
        ("u.means", "k=2|value"),
    ] {
        fields.push((field, heading));
    }
    let look = c.post(&columns, &[fields.as_slice(), &[("look", "1")]].concat());
    assert_eq!(look.status, 200);
    let page = look.text();
    assert!(page.contains("23\u{A0}April 2026") && page.contains("1.20 ± 0.10"), "{page}");
    assert_eq!(face.store().head().unwrap(), head);
    let kept = c.post(&columns, &fields);
    assert_eq!(kept.status, 303, "{}", kept.text());
    let names: Vec<String> = face.store().kept_texts("mapping").unwrap().into_iter().map(|k| k.name).collect();
    assert!(names.contains(&"Neues Labor".to_string()), "{names:?}");
}

#[test]
fn acts_are_told_as_sentences() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let store = face.store();
    let acts = programme::history::acts(&store).unwrap();
    let people = acts.iter().filter(|a| !a.derived).count();
    let import = acts.iter().find(|a| a.act == "import").unwrap();
    for language in Lang::ALL {
        let page = c.get(&format!("/record?language={}", language.code())).text();
        assert!(page.contains(&said(language, web_record::Acts { n: message::count(people) })), "{page}");
        let brought = web_record::DidImport { who: "Ines Varga".into(), n: message::count(import.files.len()) };
        assert!(page.contains(&said(language, brought)), "{page}");
        // The hash stands last.
        let hash = store.head().unwrap().unwrap().to_string();
        assert!(page.rfind(&hash).unwrap() > page.find("id=\"people\"").unwrap());
    }
}

#[test]
fn page_one_is_shown_before_a_report_is_made() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    for language in Lang::ALL {
        let token = c.get(&format!("/report?language={}", language.code())).token();
        let shown = |c: &mut Client, fields: &[(&str, &str)]| {
            let page = c.post(
                "/report",
                &[&[("token", token.as_str()), ("show", "1"), ("lang", language.code())], fields].concat(),
            );
            assert_eq!(page.status, 200, "{}", page.text());
            page.text()
        };
        let page = shown(&mut c, &[("what", "full")]);
        let content = message::with_language(language, || report::content(&face.store(), "sallow-levels")).unwrap();
        let front = content.front.unwrap();
        let answer = document::printed::printed(&front.answer, language);
        let escaped = answer.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;");
        assert!(page.contains(&escaped), "{answer}: {page}");
        // Of one well alone, of a trip by its name; a trip that is not there is refused by name.
        let page = shown(&mut c, &[("what", "full"), ("scope", "trip:SL-2026-07"), ("well", "SL-2")]);
        assert!(page.contains("id=\"page-one\""), "{page}");
        let refused = c.post("/report", &[("token", &token), ("show", "1"), ("scope", "trip:nowhere")]);
        assert!(refused.status >= 400 && refused.text().contains("nowhere"), "{}", refused.text());
        // Whom to ask is missing until it is said.
        let contact = said(language, web_record::MissingContact);
        assert!(shown(&mut c, &[("what", "leaflet")]).contains(&contact));
        assert!(!shown(&mut c, &[("what", "leaflet"), ("contact", "Marit Osk, Reed End")]).contains(&contact));
    }
    assert!(!c.get("/report").text().contains("/report/file/"), "nothing was made by looking");
}

#[test]
fn previews_and_columns_fit_a_telephone_and_have_no_fault_of_accessibility() {
    let face = Face::demo(&[]);
    let axe = include_str!("fixtures/axe.min.js");
    let mut c = face.client();
    let rows = (0..60).fold(String::new(), |all, n| all + &format!("W-{n},milk\n"));
    let wells = format!("name,medium\n{rows}");
    let preview = sent(&mut c, &[("neues labor.csv", STRANGE.as_bytes()), ("wells.csv", wells.as_bytes())]);
    let token = c.get(&preview).token();
    c.post(&format!("{preview}/mappings"), &[("token", &token), ("m1", "wells")]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut faults = vec![];
    for path in
        [preview.clone(), format!("{preview}/0/columns"), "/report?show=1".into(), "/report?show=1&what=leaflet".into()]
    {
        for (width, language) in [(1280, "en"), (360, "de")] {
            p.size(b, width, 800);
            let join = if path.contains('?') { '&' } else { '?' };
            p.go(b, &format!("{path}{join}language={language}"));
            let over = p.eval(b, "document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if over.as_i64().unwrap() > 0 {
                faults.push(format!("{path} at {width}: {over} px to the side"));
            }
            p.eval(b, &format!("{axe}; 0"));
            let found = p.eval(
                b,
                "axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.filter((v) => ['serious', 'critical'].includes(v.impact)).map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')))",
            );
            faults.extend(found.as_array().unwrap().iter().map(|f| format!("{path} at {width}: {f}")));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    let complaints = b.complaints();
    assert!(complaints.is_empty(), "{complaints:#?}");
}
