//! Statements in the record: what is taken, what marks them, what a second look gives; lists of
//! compounds and local limits taken in by mappings.

use crate::demo_common;
use crate::import_common;
use assessment::organics;
use assessment::results;
use import_common::Desk;
use message::{Arg, Said};
use programme::limits_of::{Asked, against};
use programme::start::start;
use programme::statement::{self, New, Sentence};
use programme::work;
use quantity::Lang;
use record::by::By;
use record::store::Filter;
use serde_json::{Value, json};

const BY: By = By { person: "Ines Varga", at: "2026-07-23T14:20:00Z" };

fn desk() -> Desk {
    let folder = tempfile::tempdir().unwrap();
    let store = start(folder.path().join("programme.limpid"), BY.person, BY.at).unwrap();
    let mut desk = Desk { folder, store };
    desk.text("wells.csv", "wells", "name,medium\nA,groundwater\nB,groundwater\n");
    desk.text(
        "bottles.csv",
        "bottles",
        "label,kind,well,fraction,filled_at\nA1,sample,A,unfiltered,2026-07-14 09:00\nB1,sample,B,unfiltered,2026-07-14 10:00\n",
    );
    report(&mut desk, "first.csv", "4.1");
    desk
}

fn report(desk: &mut Desk, name: &str, b: &str) {
    let rows = format!(
        "bottle,analyte,fraction,value,u,unit,laboratory\nA1,Pb,unfiltered,20,1.6,ng/L,L\nB1,Pb,unfiltered,{b},0.3,ng/L,L\n"
    );
    desk.text(name, "laboratory-long", &rows);
    work::recompute(&mut desk.store, None, BY).unwrap();
}

fn sentence(fields: &Value) -> Sentence {
    Sentence::read(fields).unwrap_or_else(|e| panic!("{e}"))
}

/// What is kept of a check, as JSON.
fn kept(s: &statement::Stated) -> Value {
    serde_json::to_value(&s.kept).unwrap()
}

/// Fieller, one-sided 95 %, closed formula in Python: 20 ± 1.6 to 4.1 ± 0.3 at least 4.071 (rounded down
/// to 4), to 8.2 ± 0.3 at least 2.094 (to 2).
fn four_times() -> Value {
    json!({"kind": "ratio", "a": {"result": "A1:Pb:@:unfiltered"}, "b": {"result": "B1:Pb:@:unfiltered"}, "factor": 4})
}

#[test]
fn a_provisional_result_is_not_taken_unless_a_person_says_so() {
    let mut desk = desk();
    let sentence = sentence(&four_times());
    let refused =
        statement::add(&mut desk.store, &New { name: "lead", sentence: &sentence, despite: None }, BY).unwrap_err();
    let words = refused.to_string();
    assert!(words.contains("is provisional (") && words.contains("--despite"), "{words}");
    assert!(statement::all(&desk.store).unwrap().stated.is_empty());
    let new = New { name: "lead", sentence: &sentence, despite: Some("shown as what was measured") };
    let s = statement::add(&mut desk.store, &new, BY).unwrap();
    assert_eq!(s.answer, "supported");
    // 1/4.071 = 24.57 %, rounded up.
    assert_eq!(s.plain, "B holds at most 25 % of the lead in A.");
    assert_eq!(s.uses.len(), 2);
    assert_eq!((s.uses[0].role.as_str(), s.uses[0].result.to_string()), ("a", "A1:Pb:@:unfiltered#1".to_string()));
    assert!(s.stands() && s.despite.is_some());
    let twice = statement::add(&mut desk.store, &new, BY).unwrap_err().to_string();
    assert!(twice.contains("no statement has yet"), "{twice}");
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
    let german = statement::in_language(&s, Lang::De).unwrap();
    assert_eq!(german.plain, "B enthält höchstens 25 % so viel Blei wie A.");
    assert!(german.sentences.plain.is::<message::claim::RatioShare>());
}

#[test]
fn a_statement_is_marked_when_its_result_changes_and_says_what_changed() {
    let mut desk = desk();
    let sentence = sentence(&four_times());
    let new = New { name: "lead", sentence: &sentence, despite: Some("shown as what was measured") };
    statement::add(&mut desk.store, &new, BY).unwrap();
    report(&mut desk, "second.csv", "8.2");
    let s = statement::find(&desk.store, "lead").unwrap();
    assert_eq!(s.answer, "supported", "what was kept stays as it was");
    assert_eq!(
        s.changed[0],
        "B1:Pb:@:unfiltered#1 is now revision 2: 4.10 ± 0.60 ng/L (k = 2) → 8.20 ± 0.60 ng/L (k = 2)"
    );
    assert_eq!(s.changed.last().unwrap(), "answer: supported → contradicted");
    let Said::Message(revised) = &s.changes[0] else { panic!("{:?}", s.changes) };
    assert!(revised.is::<message::statement::ResultRevised>(), "{revised:?}");
    assert_eq!(revised.arg("revision"), Some(&Arg::Count(2)));
    let today = s.today.unwrap();
    assert_eq!(today.answer.as_deref(), Some("contradicted"));
    // 1/2.094 = 47.76 %, rounded up.
    assert!(today.plain.contains("at most 48 % of"), "{}", today.plain);
    let again = statement::again(&mut desk.store, "lead", None, BY).unwrap();
    assert_eq!((again.revision, again.answer.as_str(), again.stands()), (2, "contradicted", true));
    // Taken out of the evidence: marked too.
    work::exclude(&mut desk.store, "B1", true, "the cap was off", BY).unwrap();
    let out = statement::find(&desk.store, "lead").unwrap();
    assert!(out.changed[0].contains("was taken out of the evidence: the cap was off"), "{:?}", out.changed);
    assert!(desk.store.verify(None).unwrap().differences.is_empty());
}

#[test]
fn what_cannot_be_stated_is_refused_by_name() {
    let mut desk = desk();
    let mut refused = |fields: Value| {
        let sentence = match Sentence::read(&fields) {
            Ok(sentence) => sentence,
            Err(e) => return e.to_string(),
        };
        let new = New { name: "x", sentence: &sentence, despite: Some("for the test") };
        statement::add(&mut desk.store, &new, BY).unwrap_err().to_string()
    };
    assert!(
        refused(json!({"kind": "ratio", "a": {"result": "A9:Pb:@:unfiltered"}, "b": {"result": "B1:Pb:@:unfiltered"}}))
            .contains("A9")
    );
    assert!(refused(json!({"kind": "absence", "bottle": "A1"})).contains("organic compound of bottle"));
    assert!(refused(json!({"kind": "wish"})).contains("kind"));
    let missing = statement::find(&desk.store, "none").unwrap_err().to_string();
    assert!(missing.contains("none is kept yet"), "{missing}");
}

fn organics(desk: &mut Desk) {
    let rows = "bottle,analyte,cas,value,u,unit,detection_limit,reporting_limit,critical_value\n\
        A1,atrazine,1912-24-9,<0.01,,µg/L,0.003,0.01,\n\
        A1,simazine,122-34-9,-0.0004,0.001,µg/L,0.002,,0.0016\n\
        A1,lindane,58-89-9,<0.01,,µg/L,0.003,0.01,\n\
        A1,gamma-HCH,58-89-9,<0.02,,µg/L,0.003,0.02,\n\
        A1,dieldrin,60-57-1,<0.05,,µg/L,0.04,0.05,\n";
    desk.text("organics.csv", "compounds", rows);
    desk.text("organics.csv", "organics-long", rows);
    work::recompute(&mut desk.store, None, BY).unwrap();
}

#[test]
fn a_list_of_compounds_comes_in_by_mapping_and_says_what_it_shows() {
    let mut desk = desk();
    organics(&mut desk);
    let all = results::all(&desk.store).unwrap();
    let r = organics::report(&desk.store, &all, Lang::En).unwrap().unwrap();
    assert_eq!((r.compounds, r.samples, r.found.len()), (4, 1, 0));
    // 0.01 + (0 + 2 × 0.001) + 0.02 (lindane once) + 0.05.
    assert!((r.highest_sum.unwrap() - 0.082).abs() < 1e-12, "{:?}", r.highest_sum);
    assert_eq!(r.doubles, [["lindane", "gamma-HCH"]]);
    assert_eq!(r.blind, ["dieldrin"]);
    let sentence = sentence(&json!({"kind": "absence", "bottle": "A1", "of": "pesticides"}));
    let new = New { name: "none", sentence: &sentence, despite: Some("another laboratory's list") };
    let s = statement::add(&mut desk.store, &new, BY).unwrap();
    assert_eq!((s.answer.as_str(), s.uses.len()), ("cannot tell", 5));
    assert!(s.plain.starts_with("Of 4 substances looked for (pesticides) none was found in A"), "{}", s.plain);
}

#[test]
fn local_limits_stand_beside_the_published_ones() {
    let mut desk = desk();
    desk.text(
        "local.csv",
        "local-limits",
        "analyte,unit,authority,limit_high,kind\nPb,ng/L,District (invented),10,guide value\nNO3,mg/L,District (invented),20,guide value\n",
    );
    let a = against(&desk.store, &Asked::default()).unwrap();
    let of = |bottle: &str| a.rows.iter().find(|r| r.local && r.result.bottle == bottle).unwrap();
    assert_eq!((of("A1").comparison.answer.word(), of("B1").comparison.answer.word()), ("above", "below"));
    assert!(of("A1").strictest);
    assert_eq!(a.not_tested[0], "microbes");
    assert!(a.not_tested.contains(&"Cd".to_string()));
    assert!(a.warnings.iter().any(|w| w.contains("NO3") && w.contains("left out")), "{:?}", a.warnings);
    assert!(a.warnings.iter().any(|w| w.contains("local health authority")));
}

/// Years of the yearly values 30, 28, …: Theil–Sen slope −2 per year and nothing open (by hand).
#[test]
fn a_change_over_a_series_takes_its_trend_and_is_marked_by_what_comes_later() {
    let mut desk = desk();
    let mut bottles = "label,kind,well,fraction,filled_at\n".to_string();
    let mut values = "bottle,analyte,fraction,value,u,unit,laboratory\n".to_string();
    for (i, year) in (2010..2020).enumerate() {
        bottles += &format!("C{i},sample,A,unfiltered,{year}-07-01 09:00\n");
        values += &format!("C{i},Zn,unfiltered,{},1,ng/L,L\n", 30 - 2 * i);
    }
    desk.text("years.csv", "bottles", &bottles);
    desk.text("zinc.csv", "laboratory-long", &values);
    work::recompute(&mut desk.store, None, BY).unwrap();
    let sentence = sentence(&json!({"kind": "change", "relation": "fallen", "series": {"well": "A", "analyte": "Zn"}}));
    let new =
        New { name: "zinc", sentence: &sentence, despite: Some("reported by the laboratory, nothing else known") };
    let s = statement::add(&mut desk.store, &new, BY).unwrap();
    assert_eq!(s.answer, "supported");
    assert_eq!(s.plain, "Zinc in A has been falling from 2010-07-01 to 2019-07-01.");
    let slope = kept(&s)["input"]["slope"]["per_year"].as_f64().unwrap();
    // Decimal years of leap and common years differ by 0.003.
    assert!((slope + 2.0).abs() < 0.01, "{slope}");
    assert_eq!((s.uses.len(), s.uses[3].role.as_str()), (10, "series[3]"));
    assert!(s.stands());
    desk.text("later.csv", "bottles", "label,kind,well,fraction,filled_at\nC10,sample,A,unfiltered,2020-07-01 09:00\n");
    desk.text(
        "zinc-later.csv",
        "laboratory-long",
        "bottle,analyte,fraction,value,u,unit,laboratory\nC10,Zn,unfiltered,40,1,ng/L,L\n",
    );
    work::recompute(&mut desk.store, None, BY).unwrap();
    let s = statement::find(&desk.store, "zinc").unwrap();
    assert_eq!(s.changed, ["the series: 1 result came, 0 left since"]);
    let mut refused = |fields: Value| {
        let sentence = match Sentence::read(&fields) {
            Ok(sentence) => sentence,
            Err(e) => return e.to_string(),
        };
        let new = New { name: "x", sentence: &sentence, despite: Some("for the test") };
        statement::add(&mut desk.store, &new, BY).unwrap_err().to_string()
    };
    let named = |series: Value| json!({"kind": "change", "relation": "fallen", "series": series});
    assert!(refused(named(json!({"well": "A", "analyte": "Hg"}))).contains("series"));
    assert!(refused(named(json!({"well": "A"}))).contains("analyte"));
    assert!(refused(named(json!({"well": "B", "analyte": "Pb"}))).contains("trend of Pb of B"));
}

/// What a laboratory sends later for the same bottle counts against a sentence on the whole bottle.
#[test]
fn compounds_that_come_later_to_a_bottle_mark_its_sentence() {
    let mut desk = desk();
    organics(&mut desk);
    let free = sentence(&json!({"kind": "absence", "bottle": "A1", "of": "pesticides"}));
    let new = New { name: "none", sentence: &free, despite: Some("another laboratory's list") };
    assert!(statement::add(&mut desk.store, &new, BY).unwrap().stands());
    desk.text(
        "later.csv",
        "organics-long",
        "bottle,analyte,cas,value,u,unit\nA1,vinyl chloride,75-01-4,2.4,0.3,µg/L\n",
    );
    work::recompute(&mut desk.store, None, BY).unwrap();
    let s = statement::find(&desk.store, "none").unwrap();
    assert_eq!(s.answer, "cannot tell", "what was kept stays as it was");
    let came = |c: &Said| matches!(c, Said::Message(m) if m.is::<message::statement::BottleChanged>() && m.arg("came") == Some(&Arg::Count(1)));
    assert!(s.changes.iter().any(came), "{:?}", s.changes);
    assert_eq!(s.today.unwrap().answer.as_deref(), Some("contradicted"));
}

/// 20 ± 1.6 ng/L lies under 25 by 3.1 u (supported) and 4.1 ± 0.3 under 4.5 by 1.3 u only.
#[test]
fn a_level_is_held_against_a_result_by_its_name() {
    let mut desk = desk();
    let mut add = |name: &str, result: &str, level: f64| {
        let fields = json!({"kind": "threshold", "value": {"result": result}, "relation": "below",
            "level": {"value": level, "unit": "ng/L"}});
        let sentence = sentence(&fields);
        statement::add(&mut desk.store, &New { name, sentence: &sentence, despite: Some("x") }, BY).unwrap()
    };
    let s = add("a", "A1:Pb:@:unfiltered", 25.0);
    assert_eq!((s.answer.as_str(), s.plain.as_str()), ("supported", "A holds less than 25 ng/L of lead."));
    assert_eq!(add("b", "B1:Pb:@:unfiltered", 4.5).answer, "cannot tell");
}

/// SL-1 of the demo: its lead is an upper bound on the water (2.7 ng/L), the metal of a stage that no blank met is in it;
/// in the bottle 2.68 (u 0.02) ng/L were found, beside 0.98 (u 0.20) in that of SL-2: at least 1.8 times as much (Fieller,
/// 95 % on both sides).
#[test]
fn a_bound_on_the_water_bears_a_sentence_of_the_bottles_which_says_so() {
    let dir = tempfile::tempdir().unwrap();
    let mut store =
        demo_common::record(dir.path(), &simulator::Trip::new(2611, simulator::Purpose::Demo), |_, text| Some(text));
    work::recompute(&mut store, None, BY).unwrap();
    let (a, b) = ("SL1-26-07-A:Pb:206+207+208@low:unfiltered", "SL2-26-07-A:Pb:206+207+208@low:unfiltered");
    let mut add = |name: &str, fields: &Value| {
        let sentence = sentence(fields);
        statement::add(&mut store, &New { name, sentence: &sentence, despite: Some("for the test") }, BY).unwrap()
    };
    let ratio = json!({"kind": "ratio", "a": {"result": a}, "b": {"result": b}, "factor": 1.8});
    let of_waters = add("waters", &ratio);
    assert_eq!(of_waters.answer, "cannot tell");
    assert_eq!(kept(&of_waters)["of_bottles"]["answer"], "supported", "{}", kept(&of_waters));
    for lang in [Lang::En, Lang::De] {
        let said = statement::in_language(&of_waters, lang).unwrap().sentences.plain;
        assert!(said.is::<message::statement::OfWatersAndBottles>(), "{said:?}");
        let Some(Arg::Message(bottles)) = said.arg("bottles") else { panic!("{said:?}") };
        assert!(bottles.is::<message::claim::RatioShare>(), "{bottles:?}");
        assert_eq!(said.said(lang).unwrap(), statement::in_language(&of_waters, lang).unwrap().plain);
    }
    assert!(of_waters.plain.contains("SL2-26-07-A") && of_waters.plain.contains("SL1-26-07-A"), "{}", of_waters.plain);
    let mut asked = ratio;
    asked["subject"] = json!("bottles");
    let of_bottles = add("bottles", &asked);
    assert_eq!(of_bottles.answer, "supported");
    let said = statement::in_language(&of_bottles, Lang::De).unwrap().sentences;
    assert!(said.plain.is::<message::statement::OfBottles>() && said.asked.is::<message::statement::OfBottles>());
    // Below a level far over the bound the water lies; free of lead it is not called, however low the bound.
    let below = |level: f64| {
        json!({"kind": "threshold", "value": {"result": a}, "relation": "below",
            "level": {"value": level, "unit": "ng/L"}})
    };
    assert_eq!(add("below", &below(5.0)).answer, "supported");
    let above = json!({"kind": "threshold", "value": {"result": a}, "relation": "above",
        "level": {"value": 2, "unit": "ng/L"}});
    let above = add("above", &above);
    assert_eq!((above.answer.as_str(), &kept(&above)["of_bottles"]["answer"]), ("cannot tell", &json!("supported")));
    let free = json!({"kind": "absence", "value": {"result": a}, "means_below": {"value": 5, "unit": "ng/L"}});
    let free = add("free", &free);
    assert_eq!((free.answer.as_str(), &kept(&free)["of_bottles"]["answer"]), ("cannot tell", &json!("contradicted")));
    let wrong = Sentence::read(&json!({"kind": "ratio", "a": {"result": a}, "b": {"result": b}, "subject": "air"}));
    assert!(wrong.unwrap_err().to_string().starts_with("subject"));
}

/// Two results of one run share line, drift checks and blank; the reduction's covariance goes into the sentence.
#[test]
fn results_of_one_run_bring_what_they_share() {
    let dir = tempfile::tempdir().unwrap();
    let mut store =
        demo_common::record(dir.path(), &simulator::Trip::new(2611, simulator::Purpose::Demo), |_, text| Some(text));
    work::recompute(&mut store, None, BY).unwrap();
    let result = |bottle: &str| {
        results::all(&store)
            .unwrap()
            .into_iter()
            .find(|r| r.bottle == bottle && r.analyte == "Pb" && r.isotopes == "206+207+208")
            .unwrap()
    };
    let (a, b) = (result("SL2-26-07-B"), result("SL2-26-07-A"));
    let plain = json!({"kind": "ratio", "a": {"result": a.result}, "b": {"result": b.result}, "factor": 2});
    let add = |store: &mut record::store::Store, name: &str, fields: &Value| {
        let new = New { name, sentence: &sentence(fields), despite: Some("for the test") };
        statement::add(store, &new, BY).unwrap()
    };
    let s = add(&mut store, "shared", &plain);
    let covariance = kept(&s)["input"]["covariance"].as_f64().unwrap();
    let (ua, ub) = (a.amount.as_ref().unwrap().u().unwrap(), b.amount.as_ref().unwrap().u().unwrap());
    assert!(covariance > 0.0 && covariance < ua * ub, "{covariance} of {}", ua * ub);
    let mut apart = plain.clone();
    apart["covariance"] = json!(0.0);
    let width = |s: &statement::Stated| {
        let kept = kept(s);
        let ends = &kept["interval"];
        ends[1].as_f64().unwrap() - ends[0].as_f64().unwrap()
    };
    let t = add(&mut store, "apart", &apart);
    assert_eq!(kept(&t)["input"]["covariance"], json!(0.0), "what a person wrote stays");
    // d(a/b) has the variance (u_a² − 2ρc + ρ²u_b²)/b²: a positive covariance narrows it.
    assert!(width(&s) < width(&t), "{} {}", width(&s), width(&t));
    let ranked = json!({"kind": "ranking", "lowest": "SL-2", "items": [
        {"name": "SL-1", "amount": {"result": a.result}}, {"name": "SL-2", "amount": {"result": b.result}}]});
    let r = add(&mut store, "ranked", &ranked);
    assert_eq!(kept(&r)["input"]["covariances"][0]["covariance"].as_f64(), Some(covariance));
    // Beside a value in µg/L the sentence is worked out in µg/L: 1 ng²/L² = 10⁻⁶ µg²/L².
    let mixed = json!({"kind": "ranking", "lowest": "SL-2", "items": [
        {"name": "elsewhere", "amount": {"value": 0.1, "u": 0.01, "unit": "ug/L"}},
        {"name": "SL-1", "amount": {"result": a.result}}, {"name": "SL-2", "amount": {"result": b.result}}]});
    let m = add(&mut store, "mixed", &mixed);
    let scaled = kept(&m)["input"]["covariances"][0]["covariance"].as_f64().unwrap();
    // Two roundings of the factor 10⁻³.
    assert!((scaled / (covariance * 1e-6) - 1.0).abs() < 1e-12, "{scaled}");
    assert!(store.verify(None).unwrap().differences.is_empty());
}

/// Texts that the program kept when it still passed sentences on as JSON: a sentence of each kind, its fields, the answer. A record stays readable and
/// its digests stay true only while the same sentence gives the same bytes (2 stays 2, 2.0 stays 2.0).
#[test]
fn a_sentence_of_each_kind_is_kept_in_the_same_bytes_as_ever() {
    let mut desk = desk();
    let lines: Vec<&str> = include_str!("kept_sentences.txt").lines().collect();
    let kinds: std::collections::BTreeSet<&str> = lines
        .chunks(3)
        .enumerate()
        .map(|(i, texts)| {
            let [text, fields, checked] = texts else { panic!("three lines a sentence") };
            let name = format!("s{i}");
            let sentence = Sentence::parse(text).unwrap_or_else(|e| panic!("{text}: {e}"));
            statement::add(&mut desk.store, &New { name: &name, sentence: &sentence, despite: Some("x") }, BY).unwrap();
            let filter = Filter::all().is("name", name.as_str());
            let row = desk.store.list::<record::model::StatementRow>(&filter).unwrap().remove(0);
            assert_eq!(
                (row.fields.to_string().as_str(), row.checked.to_string().as_str()),
                (*fields, *checked),
                "{text}"
            );
            sentence.claim.kind()
        })
        .collect();
    assert_eq!(
        kinds.into_iter().collect::<Vec<_>>(),
        ["absence", "analogy", "change", "difference", "ranking", "ratio", "reference", "threshold"]
    );
}

#[test]
fn a_kept_sentence_that_cannot_be_read_stops_none_of_the_others() {
    let mut desk = desk();
    let sentence = Sentence::parse(r#"{"kind":"ratio","a":{"value":2,"u":0.1,"unit":"ng/L"},"b":{"value":1,"u":0.1,"unit":"ng/L"},"relation":"at least","factor":1.5}"#).unwrap();
    statement::add(&mut desk.store, &New { name: "good", sentence: &sentence, despite: Some("x") }, BY).unwrap();
    // As a later version may write it: a kind that this one does not know.
    let info = record::store::ActInfo {
        kind: "statement".into(),
        author: BY.person.into(),
        at: BY.at.into(),
        body: serde_json::json!({}),
    };
    let row = desk.store.list::<record::model::StatementRow>(&Filter::all().is("name", "good")).unwrap().remove(0);
    desk.store
        .act(&info, |act| {
            let person = record::store::NamedCells::new("person").text("name", "Rea Dahl").insert(act)?;
            let mut cells = record::store::NamedCells::new("statement");
            cells.text("name", "later").integer("revision", 1).text("kind", "prophecy");
            let checked = row.checked.to_string();
            cells.text("fields", r#"{"kind":"prophecy"}"#).text("answer", "cannot tell").text("checked", &checked);
            cells.text("head", "").integer("person", person).text("engine", "a later one");
            cells.insert(act).map(|_| ())
        })
        .unwrap();
    let all = statement::all(&desk.store).unwrap();
    assert_eq!(all.stated.iter().map(|s| s.name.as_str()).collect::<Vec<_>>(), ["good"]);
    assert!(all.unread.len() == 1 && all.unread[0].contains("later"), "{:?}", all.unread);
}
