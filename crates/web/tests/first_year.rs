//! A stranger's first year in the browser, by requests alone: from an empty programme through forms, templates, uploads and
//! questions to a signed result and a report. The files are those of the guide (`docs/guide/first-own-trip.md`), in which
//! everything is invented.

use crate::common;

use common::{Client, Face};
use programme::hands::NOT_NAMED;
use programme::templates::TEMPLATES;
use std::path::Path;

const RUN: &str = "RE-R-2605";
const ZINC: &str = "RE1-A:Zn:66@low:unfiltered#1";

/// A file that the guide writes: the text between `cat > reed-end/NAME <<'END'` and `END`.
fn of_guide(name: &str) -> Vec<u8> {
    let guide = std::fs::read_to_string(guides().join("first-own-trip.md")).unwrap();
    let start = format!("cat > reed-end/{name} <<'END'\n");
    let (_, rest) = guide.split_once(&start).unwrap_or_else(|| panic!("the guide writes {name}"));
    let lines = rest.lines().map(str::trim_start).take_while(|l| *l != "END");
    lines.flat_map(|l| [l, "\n"]).collect::<String>().into_bytes()
}

fn guides() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide")
}

/// A file beside the guide.
fn beside(name: &str) -> Vec<u8> {
    std::fs::read(guides().join("reed-end-files").join(name)).unwrap()
}

/// Brings files in: preview without a fault, then all.
fn bring_in(c: &mut Client, files: &[(&str, Vec<u8>)]) {
    let sent: Vec<(&str, &[u8])> = files.iter().map(|(n, b)| (*n, b.as_slice())).collect();
    let token = c.get("/runs/bring-in").token();
    let preview = c.upload("/runs/bring-in", &token, &sent).header("location").unwrap().to_string();
    let page = c.get(&preview);
    assert!(page.text().contains("no faults"), "{}", page.text());
    let taken = c.post(&format!("{preview}/take"), &[("token", &page.token())]);
    c.retrying(&taken);
}

/// Enters a row by its form.
fn enter(c: &mut Client, table: &str, fields: &[(&str, &str)]) {
    let token = c.get(&format!("/enter/{table}?to=%2F")).token();
    let named: Vec<(String, &str)> = fields.iter().map(|(column, v)| (format!("r0.{column}"), *v)).collect();
    let mut all = vec![("token", token.as_str()), ("to", "/")];
    all.extend(named.iter().map(|(n, v)| (n.as_str(), *v)));
    let done = c.post(&format!("/enter/{table}"), &all);
    assert_eq!((done.status, done.header("location")), (303, Some("/")), "{table}: {}", done.text());
}

/// The step that the home page calls next: its list item.
fn next(c: &mut Client) -> String {
    let home = c.get("/").text();
    let (_, rest) = home.split_once("<li aria-current=\"step\">").unwrap_or_else(|| panic!("a next step: {home}"));
    rest.split("</li>").next().unwrap().to_string()
}

fn act_as(c: &mut Client, name: &str) -> u16 {
    let token = c.get("/").token();
    c.post("/name", &[("token", &token), ("to", "%2F"), ("name", name)]).status
}

const ANSWERS: &[(&str, &str)] = &[
    ("name", "reed-end-counts"),
    ("unit", "ng/L"),
    ("dead_time-ns", "35,0"),
    ("dead_time-u_ns", "1.5"),
    ("internal_standards-isotopes", "In115@low"),
    ("drift-model", "bracket"),
    ("blank-samples", "field-blank"),
    ("blank-reference", "procedural-blank"),
];

/// A recipe by questions: what is missing is asked for at its field, in German too; what is shown is kept.
fn recipe_by_questions(c: &mut Client) {
    let token = c.get("/recipes/questions").token();
    let send = |c: &mut Client, answers: &[(&str, &str)], language: &str| {
        let all = [&[("token", token.as_str())], answers].concat();
        c.post(&format!("/recipes/questions{language}"), &all)
    };
    let lacking = send(c, &ANSWERS[1..], "");
    assert_eq!(lacking.status, 422);
    assert!(
        lacking.text().contains("href=\"#name\"") && lacking.text().contains("value=\"35,0\""),
        "{}",
        lacking.text()
    );
    let german = send(&mut c.clone(), &ANSWERS[1..], "?language=de").text();
    assert!(german.contains("lang=\"de\"") && german.contains("Totzeit"), "{german}");
    let page = send(c, ANSWERS, "");
    assert_eq!(page.status, 200, "{}", page.text());
    let text = page.text();
    let (_, rest) = text.split_once("name=\"toml\"").unwrap();
    let (toml, _) = rest.split_once('>').unwrap().1.split_once("</textarea>").unwrap();
    let toml = toml.replace("&quot;", "\"");
    let recipe = intake::recipe::read(&toml).unwrap();
    let own = intake::recipe::read(&String::from_utf8(beside("recipe.toml")).unwrap()).unwrap();
    assert_eq!(recipe, own, "the answers make the recipe of the guide");
    let kept = c.post("/recipes", &[("token", &page.token()), ("toml", &toml), ("why", "")]);
    assert_eq!((kept.status, kept.header("location")), (303, Some("/recipes/reed-end-counts")), "{}", kept.text());
}

#[test]
fn from_an_empty_programme_to_a_signed_result_and_a_report() {
    let face = Face::of_nobody();
    let mut c = face.client();
    assert!(c.get("/").text().contains("Nobody is named"));
    assert!(next(&mut c).contains("/enter/person"));
    for nobody in ["", "   ", "!?"] {
        assert_eq!(act_as(&mut c, nobody), 422, "{nobody:?} is no name");
    }
    assert_eq!(act_as(&mut c, "Ina Moor"), 303);
    enter(&mut c, "person", &[("name", "Ina Moor"), ("role", "lead")]);
    assert!(next(&mut c).contains("/templates/wells.csv"));
    enter(&mut c, "site", &[("name", "Reed End"), ("invented", "1")]);
    for well in ["RE-1", "RE-2"] {
        enter(&mut c, "well", &[("name", well), ("site", "Reed End"), ("medium", "groundwater")]);
    }
    assert!(next(&mut c).contains("/enter/trip"));
    enter(&mut c, "trip", &[("name", "RE-2026-05"), ("starts", "2026-05-11")]);
    assert!(next(&mut c).contains("/templates/bottles.xlsx"));
    let names = ["bottles.csv", "spikes.csv", "well-sections.csv", "field-readings.csv", "fills.csv", "custody.csv"];
    bring_in(&mut c, &names.map(|n| (n, of_guide(n))));
    assert!(next(&mut c).contains("/recipes/questions"));
    recipe_by_questions(&mut c);
    assert!(next(&mut c).contains("/templates/sequence.csv"));
    bring_in(&mut c, &[("sequence.csv", beside("sequence.csv")), ("counts.csv", beside("counts.csv"))]);
    let beside_run = c.get(&format!("/recipes/reed-end-counts?run={RUN}")).text();
    assert!(beside_run.contains("role=\"status\"") && !beside_run.contains("class=\"fault\""), "{beside_run}");

    // One number, listed, and with its case: zinc is provisional until somebody stands for it.
    let csv = c.get("/results?well=RE-1&analyte=Zn&from=2026-05-11&to=2026-05-11&verdict=provisional&file=csv").text();
    assert!(csv.lines().skip(1).all(|l| l.starts_with("RE-1,RE-2026-05,2026-05-11,")), "{csv}");
    assert!(csv.contains(ZINC), "{csv}");
    // A stranger whom nobody named signs nothing, nor does a name that is not on record.
    let mut stranger = face.client();
    let refused = |c: &mut Client, words: &str| {
        let token = c.get("/").token();
        let page = c.post("/sign", &[("token", &token), ("result", ZINC), ("why", "seen")]);
        assert_eq!(page.status, 422);
        assert!(page.text().contains(words), "{}", page.text());
    };
    refused(&mut stranger, "nobody is named");
    assert_eq!(act_as(&mut stranger, "Ina More"), 303);
    refused(&mut stranger, "not on record");
    enter(&mut c, "person", &[("name", "Tom Sedge"), ("role", "sampler")]);
    assert_eq!(act_as(&mut stranger, "Tom Sedge"), 303);
    refused(&mut stranger, "The role of Tom Sedge");
    assert!(face.store().sign_offs().unwrap().is_empty());
    let case = c.get(&format!("/case/{}", common::coded(ZINC.trim_end_matches("#1"))));
    let signed = c.post("/sign", &[("token", &case.token()), ("result", ZINC), ("why", "the spikes came back whole")]);
    c.retrying(&signed);
    let case = c.get(&format!("/case/{}", common::coded(ZINC.trim_end_matches("#1")))).text();
    let typed = message::Message::from(message::trust::Typed).in_english();
    assert!(case.contains(&format!("({typed}): the spikes came back whole")), "by what right the name stands there");
    let csv = c.get("/results?analyte=Zn&verdict=accepted&file=csv").text();
    assert!(csv.contains(ZINC), "{csv}");

    let token = c.get("/report").token();
    let made = c.post("/report", &[("token", &token), ("what", "full"), ("lang", "en")]);
    c.retrying(&made);
    let page = c.get("/report").text();
    let html = page.split('"').find(|p| p.starts_with("/report/file/") && p.ends_with("report.html")).unwrap();
    let report = c.get(html).text();
    let title = message::Message::from(message::signed::Title).in_english();
    assert!(report.contains(&title) && report.contains("the spikes came back whole"), "who stands for what");
    let store = face.store();
    assert!(store.verify(None).unwrap().differences.is_empty());
    let authors: std::collections::BTreeSet<String> =
        store.events().unwrap().into_iter().skip(1).map(|e| e.author).collect();
    assert_eq!(authors.into_iter().collect::<Vec<_>>(), ["Ina Moor"], "each act says by whose hand");
}

/// While nobody is named, acts say so, and the page too.
#[test]
fn an_act_of_nobody_stands_as_such() {
    let face = Face::of_nobody();
    let mut c = face.client();
    enter(&mut c, "site", &[("name", "Reed End")]);
    assert_eq!(face.store().events().unwrap().pop().unwrap().author, NOT_NAMED);
}

#[test]
fn every_template_is_there_in_each_form_and_language_and_is_refused_as_it_comes() {
    let face = Face::of_nobody();
    let mut c = face.client();
    assert_eq!(c.get("/templates").status, 200);
    for t in TEMPLATES {
        for language in ["en", "de"] {
            let csv = c.get(&format!("/templates/{}.csv?language={language}", t.file));
            let text = csv.text();
            let mut lines = text.lines();
            assert_eq!(lines.next().unwrap(), t.headings().join(","));
            let token = c.get("/runs/bring-in").token();
            let name = format!("{}.csv", t.file);
            let preview = c.upload("/runs/bring-in", &token, &[(&name, &csv.body)]);
            let page = c.get(preview.header("location").unwrap()).text();
            assert!(!page.contains("no faults"), "{name} in {language}: {page}");
            let book = c.get(&format!("/templates/{}.xlsx?language={language}", t.file));
            assert!(
                book.body.starts_with(b"PK\x03\x04") && book.header("content-type").unwrap().contains("spreadsheet")
            );
        }
    }
    let words = c.get("/templates/words.csv?language=de").text();
    assert!(words.starts_with("Datei,Spalte,") && words.contains("bottles,volume_mL,,mL,"), "{words}");
    assert_eq!(c.get("/templates/nothing.csv").status, 404);
    assert_eq!(c.get("/templates/bottles.pdf").status, 404);
}

/// The wide table shows what the long one does, both go out as files, and what cannot be asked for is told.
#[test]
fn results_by_filters_long_and_wide() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let long = c.get("/results?well=SL-2&file=csv").text();
    let wide = c.get("/results?well=SL-2&wide=1&file=csv").text();
    // Bottles that tell of the way and not of the water have no verdict and no place in the wide table; of the isotopes of
    // an element one set stands there: a number each of those.
    let mut wide = csv::Reader::from_reader(wide.as_bytes());
    let head = wide.headers().unwrap().clone();
    assert_eq!(head.iter().take(3).collect::<Vec<_>>(), ["well", "day", "bottle"]);
    let values: Vec<usize> =
        (3..head.len()).filter(|n| !head[*n].contains("U95") && !head[*n].contains("verdict")).collect();
    let of_bottles = wide.records().map(Result::unwrap).filter(|row| &row[2] != "common value");
    let shown: usize = of_bottles.map(|row| values.iter().filter(|n| !row[**n].is_empty()).count()).sum();
    let long: Vec<csv::StringRecord> =
        csv::Reader::from_reader(long.as_bytes()).into_records().map(Result::unwrap).collect();
    let judged = |row: &&csv::StringRecord| row.iter().any(|c| ["accepted", "provisional", "rejected"].contains(&c));
    let reporting: std::collections::BTreeSet<(&str, &str, &str)> =
        long.iter().filter(judged).map(|row| (&row[3], &row[4], &row[6])).collect();
    assert!(reporting.len() > 50);
    assert_eq!(shown, reporting.len(), "a number for each bottle, substance and fraction");
    let page = c.get("/results?well=SL-2&wide=1").text();
    assert!(page.contains("href=\"/case/SL2-26-07-A:Pb:"), "a number opens its case: {page}");
    let blanks = c.get("/results?of=evidence&file=csv").text();
    assert!(blanks.contains("field blank") && !blanks.contains(",accepted,"), "{blanks}");
    let book = c.get("/results?wide=1&file=xlsx");
    assert!(book.body.starts_with(b"PK\x03\x04"));
    for wrong in ["verdict=perfect", "from=yesterday", "to=2026-7-1", "file=doc"] {
        assert_eq!(c.get(&format!("/results?{wrong}")).status, 422, "{wrong}");
    }
    let none = c.get("/results?well=SL-2&to=1999-12-31&file=csv").text();
    assert_eq!(none.lines().count(), 1, "{none}");
}

/// What keeps recipe and run apart is told in the language asked for, and mended by the name of a vial.
#[test]
fn a_recipe_that_does_not_meet_a_run_says_what_is_missing() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let own = simulator::files::RECIPE
        .replace("\"sector-field-water\"", "\"my <own>\"")
        .replace("\"standard 5\"", "\"lead & co\"");
    let token = c.get("/recipes").token();
    let broken = own.replace("[dead_time]", "[deadtime]");
    let page = c.post("/recipes", &[("token", &token), ("toml", &broken), ("why", "")]);
    assert_eq!(page.status, 422);
    assert!(page.text().contains("deadtime") && page.text().contains("dead_time"), "{}", page.text());
    let kept = c.post("/recipes", &[("token", &token), ("toml", &own), ("why", "")]);
    assert_eq!(kept.status, 303, "{}", kept.text());
    let address = kept.header("location").unwrap().to_string();
    let show = c.get(&address).text();
    assert!(show.contains("my &lt;own&gt;") && !show.contains("my <own>"), "markup is text");
    let run = simulator::files::RUN;
    let german = c.clone().get(&format!("{address}?run={run}&language=de")).text();
    assert!(german.contains("passen nicht zusammen") && german.contains("lead &amp; co"), "{german}");
    // Changed without a reason it is refused, with one it is the next version.
    let next = own.replace("ns = 25.0", "ns = 27.5");
    let token = c.get("/recipes").token();
    let page = c.post("/recipes", &[("token", &token), ("toml", &next), ("why", "")]);
    assert_eq!(page.status, 422, "{}", page.text());
    let page = c.post("/recipes", &[("token", &token), ("toml", &next), ("why", "a dilution series")]);
    assert_eq!(page.status, 303, "{}", page.text());
    // Given as it is, the run is not reduced; first the vial gets its name.
    let token = c.get(&format!("/runs/{run}")).token();
    let vial = |why: &'static str| {
        [
            ("token", token.clone()),
            ("run", run.into()),
            ("vial", format!("{run}/8")),
            ("name", "lead & co".into()),
            ("why", why.into()),
        ]
    };
    let send = |c: &mut Client, fields: &[(&str, String)]| {
        let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
        c.post("/vial-name", &fields)
    };
    assert_eq!(send(&mut c, &vial("")).status, 422);
    let named = send(&mut c, &vial("as on the rack's list"));
    assert_eq!(named.status, 200, "{}", named.text());
    let met = c.get(&format!("{address}?run={run}")).text();
    assert!(!met.contains("class=\"fault\""), "{met}");
    let token = c.get(&address).token();
    let give = |why| [("token", token.as_str()), ("name", "my <own>"), ("run", run), ("why", why)];
    assert_eq!(c.post("/recipes/give", &give(" ")).status, 422);
    assert_eq!(c.post("/recipes/give", &give("set up by it")).status, 200);
    let kept = programme::recipes::all(&face.store()).unwrap();
    let given = kept.iter().find(|r| r.name == "my <own>" && r.version == 2).unwrap();
    assert_eq!((given.runs.as_slice(), given.why.as_str()), ([run.to_string()].as_slice(), "a dilution series"));
}
