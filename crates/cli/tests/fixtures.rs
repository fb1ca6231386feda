//! Programmes that are not the demo, from their files through every command: each ends well or
//! with a refusal that names what is wrong; nothing panics, nothing shows its insides, and the record
//! verifies afterwards. The programmes are those of crates/fixtures.

use crate::desk::{Desk, Ran};
use ::fixtures::Fixture;
use message::{Arg, Message, Shown, document_words, leaflet};
use quantity::{Lang, Spoken};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::process::Command;

/// A fixture taken in, and where.
struct Tried {
    desk: Desk,
    fixture: Fixture,
    /// File of the programme: the name is the title of what is written of it.
    store: &'static str,
}

/// Signs that a text was written for a programmer.
const INSIDES: [&str; 9] = ["panicked", "RUST_BACKTRACE", "Some(", "None)", "Err(", "Ok(", "unwrap", "Error {", "\\u{"];

/// Longest line of a message: one that names a few labels of 200 letters stays under it.
const LONGEST_LINE: usize = 3000;
/// Most lines of a message.
const MOST_LINES: usize = 60;

/// Refuses a message that is no message.
#[track_caller]
fn readable(what: &[&str], ran: &Ran) {
    for text in [&ran.out, &ran.err] {
        for sign in INSIDES {
            assert!(!text.contains(sign), "{what:?} says {sign:?}:\n{text}");
        }
    }
    assert!(ran.err.lines().count() <= MOST_LINES, "{what:?}: a wall of text:\n{}", ran.err);
    assert!(ran.err.lines().all(|l| l.chars().count() <= LONGEST_LINE), "{what:?}: a wall of text:\n{}", ran.err);
}

impl Tried {
    fn new(name: &str) -> Self {
        let fixture = ::fixtures::all().into_iter().find(|f| f.name == name).unwrap();
        let store = if name == "hostile" { "pr #1 50 % <ä>.sqlite" } else { "p.sqlite" };
        let desk = Desk::new();
        fixture.write(&desk.path("files")).unwrap();
        Self { desk, fixture, store }
    }

    /// Made, previewed, taken in, with what a person takes out of it.
    fn taken_in(name: &str) -> Self {
        let tried = Self::new(name);
        tried.done(&["new", tried.store]);
        let head = tried.desk.head(tried.store);
        let seen = tried.json(&["import", tried.store, "files/bundle.toml", "--preview"]);
        assert_eq!(seen["faults_total"], 0, "{}", seen["faults"]);
        assert_eq!(tried.desk.head(tried.store), head, "a preview changes nothing");
        tried.done(&["import", tried.store, "files/bundle.toml"]);
        for out in &tried.fixture.out {
            let act = ["exclude", tried.store, &reading(out.bottle), "--as", out.person, "--why", out.why];
            if !tried.names_people() {
                tried.refused(&act, &["no person", "--new-person"]);
                tried.done(&[&act[..], &["--new-person"]].concat());
                continue;
            }
            tried.done(&act);
        }
        tried
    }

    /// Whether its files put people on record.
    fn names_people(&self) -> bool {
        self.fixture.files.iter().any(|f| f.mapping == "people")
    }

    #[track_caller]
    fn run(&self, arguments: &[&str]) -> Ran {
        let ran = self.desk.run(arguments);
        readable(arguments, &ran);
        ran
    }

    /// Standard output of a command that must succeed.
    #[track_caller]
    fn done(&self, arguments: &[&str]) -> String {
        let ran = self.run(arguments);
        assert_eq!(ran.status, 0, "{arguments:?}\n{}{}", ran.out, ran.err);
        ran.out
    }

    #[track_caller]
    fn json(&self, arguments: &[&str]) -> Value {
        let out = self.done(&[arguments, &["--json"]].concat());
        serde_json::from_str(&out).unwrap_or_else(|e| panic!("{arguments:?}: {e}\n{out}"))
    }

    /// A refusal that names what is wrong.
    #[track_caller]
    fn refused(&self, arguments: &[&str], parts: &[&str]) {
        self.run(arguments).fails(1, parts);
    }

    /// A page that was written, as text.
    #[track_caller]
    fn page(&self, path: &str) -> String {
        let text = fs::read_to_string(self.desk.path(path)).unwrap_or_else(|e| panic!("{path}: {e}"));
        // The style holds the typefaces in letters, in which any short word may stand by chance.
        let body = text.rsplit("</style>").next().unwrap_or_default();
        for sign in ["panicked", "NaN", "Some(", "None)", "<b>fett", "<script>alert", "<i>schief"] {
            assert!(!body.contains(sign), "{path} holds {sign:?}");
        }
        text
    }

    #[track_caller]
    fn verified(&self) {
        let out = self.done(&["verify", self.store]);
        assert!(out.contains("every derivation is what it was"), "{out}");
    }

    fn results(&self) -> Vec<Value> {
        self.json(&["results", self.store])["results"].as_array().unwrap().clone()
    }
}

/// A label as a reading is named by it: what would end the label, or begin an encoded sign, is percent-encoded.
fn reading(label: &str) -> String {
    let mut out = String::new();
    for (at, c) in label.char_indices() {
        let encoded = label[at..].len() > 2 && label.as_bytes()[at + 1..at + 3].iter().all(u8::is_ascii_hexdigit);
        match c {
            '/' => out.push_str("%2F"),
            '%' if encoded => out.push_str("%25"),
            other => out.push(other),
        }
    }
    out
}

/// A text as it stands in a page.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// What is looked at on every programme.
fn look(name: &str) -> Tried {
    let tried = Tried::taken_in(name);
    let store = tried.store;
    tried.verified();
    let results = tried.results();
    assert!(results.len() > 5, "{name}");
    // One value a well: every program finishes, whatever its names, and says the same as its document.
    let wells = tried.json(&["results", store, "--wells"])["wells"].as_array().unwrap().clone();
    let values = tried.done(&["results", store, "--wells"]);
    for w in &wells {
        let (well, element) = (w["well"].as_str().unwrap(), w["analyte"].as_str().unwrap());
        assert!(values.lines().any(|l| l.starts_with(well) && l.contains(element)), "{name}: {well:?}, {element}");
    }
    let table = tried.done(&["results", store]);
    for label in &tried.fixture.labels {
        // The table names results; their names hold the label with some signs encoded.
        let named = results.iter().find(|r| r["bottle"] == label.as_str()).map(|r| r["result"].as_str().unwrap());
        // Bottle and analyte at least, whatever of the rest tells it from others.
        let begins = |name: &str| name.splitn(3, ':').take(2).collect::<Vec<_>>().join(":");
        let there = |name: &str| table.lines().any(|l| l.starts_with(&begins(name)));
        assert!(named.is_none_or(there), "{label:?} is not in the table of results");
    }
    cases(&tried, &results);
    let again = tried.done(&["recompute", store]);
    assert!(again.contains("verdicts written: 0") && !again.contains(" → "), "{again}");
    let same = tried.done(&["import", store, "files/bundle.toml"]);
    assert!(same.lines().all(|l| l.contains("taken in before")), "{same}");
    tried
}

/// Every result opens as a case by the name under which it is listed.
fn cases(tried: &Tried, results: &[Value]) {
    let mut measurands = BTreeSet::new();
    for r in results {
        let id = r["result"].as_str().unwrap();
        let case = tried.json(&["case", tried.store, id]);
        assert_eq!((&case["result"], &case["bottle"]), (&r["result"], &r["bottle"]));
        // In words once a measurand and kind of bottle: the rest differs by its numbers.
        if measurands.insert((r["analyte"].to_string(), r["kind"].to_string(), r["state"].to_string())) {
            let words = tried.done(&["case", tried.store, id]);
            assert!(words.starts_with(id), "{id} is not at the head of:\n{words}");
        }
    }
}

/// Readings that only read: limits, lots, sources, conflicts.
fn read(tried: &Tried) {
    let store = tried.store;
    for arguments in [&["limits", store][..], &["limits", store, "--all", "--guard", "95 %"], &["lots", store]] {
        tried.done(arguments);
        tried.json(arguments);
    }
    assert!(!tried.done(&["attribution", store]).is_empty(), "nothing to attribute is said too");
    tried.json(&["attribution", store]);
    assert_eq!(tried.done(&["conflicts", store]), "no field sheets differ\n");
    tried.json(&["conflicts", store]);
}

/// Reports of every kind in both languages, the supplement.
fn told(tried: &Tried) {
    for lang in ["en", "de"] {
        let suffix = if lang == "en" { "" } else { "-de" };
        for kind in ["full", "leaflet", "authority"] {
            tried.done(&["report", tried.store, "--out", "told", "--kind", kind, "--lang", lang]);
            let file = if kind == "full" { "report" } else { kind };
            let page = tried.page(&format!("told/{file}{suffix}.html"));
            let pdf = fs::read(tried.desk.path(&format!("told/{file}{suffix}.pdf"))).unwrap();
            assert!(pdf.starts_with(b"%PDF-"));
            if lang == "de" {
                // What stands in its files, and what is typed here.
                let files = tried.fixture.files.iter().map(|f| String::from_utf8_lossy(&f.bytes).into_owned() + "\n");
                // The question that a plan kept with its trip, in English.
                let asked = "Will Pb of 0.5 ng/L be detected?".to_string();
                let written: String = files.chain([include_str!("fixtures.rs").to_string(), asked]).collect();
                let english = crate::german::english_in(&page, &written);
                assert!(english.is_empty(), "{kind} of {}: {english:#?}", tried.fixture.name);
            }
            if kind == "leaflet" {
                no_stronger_than_its_data(tried, &page, lang);
            }
            if kind == "full" {
                for label in &tried.fixture.wells {
                    assert!(page.contains(&escaped(label)), "{label:?} is not in the report ({lang})");
                }
            }
        }
    }
    tried.done(&["supplement", tried.store, "--out", "supplement"]);
    tried.page("supplement/supplement.html");
}

/// Counts, blanks and small levels are spoken of where the programme has them.
fn no_stronger_than_its_data(tried: &Tried, page: &str, lang: &str) {
    let lang = Lang::parse(lang).unwrap();
    let results = tried.results();
    let has = |kind: &str| results.iter().any(|r| r["kind"] == kind);
    // What a message says beside its arguments.
    let said = |message: Message| {
        let whole = message.in_language(lang);
        page.contains(&escaped(whole.split('\u{0}').max_by_key(|part| part.len()).unwrap()))
    };
    let gap = || "\u{0}".to_string();
    if !has("field-blank") && !has("trip-blank") {
        let why = leaflet::WhyBlanks { what: vec![Arg::Name(gap().into())], level: Shown::trimmed(0.0, 1, gap()) };
        assert!(!said(why.into()), "blanks that nobody filled ({})", tried.fixture.name);
    }
    let counted = results.iter().any(|r| r["isotopes"] != "");
    let (programme, date, hash) = (gap().into(), gap().into(), gap().into());
    let reported = document_words::OriginShortReported { programme, date, hash };
    assert_eq!(said(reported.into()), !counted, "{}", tried.fixture.name);
    let (programme, date, hash) = (gap().into(), gap().into(), gap().into());
    let counts = document_words::OriginShortCounts { programme, date, hash };
    assert!(counted || !said(counts.into()), "counts that nobody sent ({})", tried.fixture.name);
    if tried.fixture.name == "laboratory" {
        // "<0,2" µg/L of lead is the least that its tables hold; no result lies at 1 ng/L.
        let lead = Message::named("substance", "Pb").unwrap();
        let down_to = leaflet::DownTo { what: vec![lead.into()], level: Shown::trimmed(0.2, 2, "µg/L") };
        assert!(page.contains(&escaped(&down_to.in_language(lang))), "{page}");
    }
}

/// Out and back: package, backup.
fn kept(tried: &Tried) {
    let head = tried.desk.head(tried.store);
    tried.done(&["export", tried.store, "--out", "package", "--licence", "CC0-1.0"]);
    tried.done(&["new", "copy.sqlite", "--from", "package"]);
    tried.done(&["verify", "copy.sqlite", "--head", &head]);
    assert_eq!(tried.done(&["results", "copy.sqlite"]), tried.done(&["results", tried.store]));
    tried.done(&["export", "copy.sqlite", "--out", "again", "--licence", "CC0-1.0"]);
    let diff = Command::new("diff").args(["-r", "package", "again"]).current_dir(tried.desk.path("")).output().unwrap();
    assert!(diff.status.success(), "{}", String::from_utf8_lossy(&diff.stdout));
    tried.done(&["backup", tried.store, "kept.limpid"]);
    tried.done(&["restore", "kept.limpid", "restored.sqlite"]);
    assert_eq!(tried.desk.head("restored.sqlite"), head);
}

/// Every bottle out and in again, by its label.
fn taken_out(tried: &Tried, person: &str, keep_blanks: bool) {
    let bottles: BTreeSet<(String, bool)> = tried
        .results()
        .iter()
        .map(|r| {
            let water = r["kind"] == "sample" || r["kind"] == "duplicate";
            (r["bottle"].as_str().unwrap().to_string(), water)
        })
        .collect();
    for (label, _) in bottles.iter().filter(|b| b.1 || !keep_blanks) {
        if tried.fixture.out.iter().any(|o| o.bottle == label) {
            continue;
        }
        // A label may begin with a hyphen: what stands after -- is no option.
        for back in [&["--as", person, "--why", "a doubt"][..], &["--as", person, "--why", "no doubt", "--back"]] {
            tried.done(&[&["exclude", tried.store][..], back, &["--", &reading(label)]].concat());
        }
    }
    tried.verified();
}

/// Signs the first result that has a verdict, and says a sentence of the first two with a value.
fn signed_and_said(tried: &Tried, person: &str) {
    let results = tried.results();
    let judged: Vec<&Value> = results.iter().filter(|r| r["verdict"].is_string()).collect();
    let id = judged[0]["result"].as_str().unwrap();
    if !tried.names_people() {
        let sign = ["sign", tried.store, "--as", person, "--why", "seen on \"paper\"", "--", id];
        tried.refused(&sign, &["the role of", "none on record"]);
        let role = ["correct", tried.store, "person", person, "role", "lead", "--why", "named so", "--as", person];
        tried.done(&role);
    }
    let out = tried.done(&["sign", tried.store, "--as", person, "--why", "seen on \"paper\"", "--", id]);
    assert!(out.contains("verdict: "), "{out}");
    // A value or a bound: either bears some sentence.
    let with = |r: &&&Value| r["amount"].is_object();
    let valued: Vec<&&Value> = judged.iter().filter(with).collect();
    let pair = valued.iter().find_map(|a| {
        let b = valued.iter().find(|b| b["analyte"] == a["analyte"] && b["well"] != a["well"])?;
        Some((a["result"].as_str().unwrap(), b["result"].as_str().unwrap()))
    });
    let (a, b) = pair.expect("two wells with a value of one analyte");
    let fields = json!({"kind": "ratio", "a": {"result": a}, "b": {"result": b}, "relation": "at least", "factor": 2});
    let fields = fields.to_string();
    let name = "=sentence/1 <b> #2";
    let add = ["state", tried.store, "add", name, "--fields", &fields, "--as", person, "--despite", "a \"trial\""];
    tried.done(&add);
    for action in [&["list"][..], &["show", name], &["again", name, "--as", person]] {
        tried.done(&[&["state", tried.store][..], action].concat());
    }
    tried.json(&["state", tried.store, "list"]);
    tried.verified();
}

/// The sheet of a trip, a phone's file with two answers, the settlement.
fn field_sheet(tried: &Tried, trip: &str, bottle: &str, person: &str) {
    tried.done(&["field-sheet", tried.store, trip, "--out", "sheet"]);
    let page = fs::read_to_string(tried.desk.path("sheet/field-sheet.html")).unwrap();
    let from = page.find("id=\"sheet\">").unwrap() + 11;
    let carried: Value = serde_json::from_str(&page[from..from + page[from..].find("</script>").unwrap()]).unwrap();
    let day = "2026-06-01T10:40:00+02:00";
    let day = if trip.starts_with("FN") { day.replace("06-01", "05-04") } else { day.into() };
    for (device, ml) in [("one", 0.5), ("zwei \"<2>\"", 0.7)] {
        let saved = json!({
            "format": "limpid-field-sheet", "version": 1, "sheet": carried["sheet"], "programme": carried["programme"],
            "trip": trip, "device": device, "exported_at": day,
            "entries": [{"n": 1, "at": day, "what": "bottle", "bottle": bottle, "sets": {"acid_mL": ml}}],
        });
        tried.desk.file(&format!("{}.json", &device[..3]), saved.to_string());
    }
    tried.done(&["import", tried.store, "one.json", "zwe.json", "--mapping", "field-sheet"]);
    let told = tried.done(&["conflicts", tried.store]);
    assert!(told.contains(bottle) && told.contains(trip), "{told}");
    let by = ["--as", person, "--why", "the second pipette was right"];
    tried.done(&[&["settle", tried.store][..], &by, &["--", bottle, "acid_mL", "0.7"]].concat());
    assert_eq!(tried.done(&["conflicts", tried.store]), "no field sheets differ\n");
    tried.verified();
}

/// A plan with the programme's own numbers, made a trip.
fn planned(tried: &Tried, wells: &[&str], person: &str) {
    let wells: Vec<String> = wells.iter().map(|w| toml::Value::from(*w).to_string()).collect();
    let question =
        format!("analyte = \"Pb\"\nwells = [{}]\n[question]\nkind = \"detect\"\nlevel = 0.5\n", wells.join(", "));
    tried.desk.file("q.toml", question);
    let plan = ["plan", tried.store, "--question", "q.toml"];
    tried.json(&plan);
    let made = ["--make-trip", "T:2 #5 <ü>", "--starts", "2028-06-01", "--as", person, "--print", "pack.pdf"];
    tried.done(&[&plan[..], &made].concat());
    tried.verified();
}

#[test]
fn incomplete() {
    let tried = look("incomplete");
    read(&tried);
    // Nobody is on record here.
    tried.done(&["recompute", tried.store, "--as", "Pia Fenn", "--new-person"]);
    taken_out(&tried, "Pia Fenn", true);
    signed_and_said(&tried, "Pia Fenn");
    field_sheet(&tried, "FN-2026-05", "FN1-A", "Pia Fenn");
    planned(&tried, &["FN-1"], "Pia Fenn");
    told(&tried);
    kept(&tried);
}

#[test]
fn hostile_names() {
    let tried = look("hostile");
    let person = tried.fixture.out[0].person;
    read(&tried);
    taken_out(&tried, person, true);
    signed_and_said(&tried, "=Ärger & Söhne");
    field_sheet(&tried, &tried.fixture.trips[0], "A:B#1@x/y%41 z", person);
    planned(&tried, &["Galena"], person);
    told(&tried);
    kept(&tried);
}

#[test]
fn contract_laboratory() {
    let tried = look("laboratory");
    read(&tried);
    taken_out(&tried, "Jule Ahrend", false);
    signed_and_said(&tried, "Jule Ahrend");
    tried.refused(&["field-sheet", tried.store, "2026", "--out", "sheet"], &["no trip \"2026\""]);
    told(&tried);
    kept(&tried);
}
