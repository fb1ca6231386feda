//! The readings of one visit: kept whole or not at all, with what was confirmed; steady by the rule of the record, the
//! flow with its ±; the same by keyboard and by a pasted block.

use crate::common;

use common::Face;
use common::browser::Browser;
use message::{Date, Shown, Spoken as _, web_forms as said};
use record::store::Filter;
use serde_json::json;

/// Five times of five quantities, as a person in Germany types them; the values of SL-2 as the invented trip has them.
const GRID: [[&str; 6]; 5] = [
    ["10:40", "9,2", "412", "7,61", "-180", "0,06"],
    ["10:43", "9,2", "411", "7,62", "-182", "0,05"],
    ["10:46", "9,2", "411", "7,62", "-183", "0,05"],
    ["10:49", "9,2", "411", "7,62", "-183", "0,05"],
    ["10:52", "9,2", "411", "7,62", "-183", "0,05"],
];

fn fields(token: &str, well: &str) -> Vec<(String, String)> {
    let field = |n: &str, v: &str| (n.to_string(), v.to_string());
    let mut out = vec![
        field("token", token),
        field("well", well),
        field("day", "2026-09-15"),
        field("person", "Marit Osk"),
        field("instrument", "meter of the hut"),
        field("u.2", "0,04"),
    ];
    for (n, row) in GRID.iter().enumerate() {
        out.push(field(&format!("t{n}"), row[0]));
        out.extend(row[1..].iter().enumerate().map(|(q, v)| field(&format!("c{n}.{q}"), v)));
    }
    for (n, seconds) in ["25,1", "24,8", "25,0", "25,2"].iter().enumerate() {
        out.extend([field(&format!("f{n}.l"), "10"), field(&format!("f{n}.s"), seconds)]);
    }
    out
}

fn post(c: &mut common::Client, path: &str, fields: &[(String, String)]) -> common::Answer {
    let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (n.as_str(), v.as_str())).collect();
    c.post(path, &fields)
}

/// A well that nobody visited yet: nothing is unusual beside an empty past.
fn new_well(c: &mut common::Client) {
    let token = c.get("/enter/well").token();
    assert_eq!(c.post("/enter/well", &[("token", &token), ("r0.name", "NF-1")]).status, 303);
}

fn change(fields: &mut [(String, String)], name: &str, value: &str) {
    fields.iter_mut().find(|f| f.0 == name).unwrap().1 = value.into();
}

#[test]
fn a_visit_is_kept_whole_and_said() {
    let face = Face::empty();
    let mut c = face.client();
    new_well(&mut c);
    let token = c.get("/enter/visit?well=NF-1").token();
    let sent = fields(&token, "NF-1");
    let kept = post(&mut c, "/enter/visit", &sent);
    let to = "/enter/visit?readings=25&fills=4&well=NF-1&trip=&day=2026-09-15";
    assert_eq!((kept.status, kept.header("location")), (303, Some(to)), "{}", kept.text());
    let told = said::EnteredVisit { readings: 25, fills: 4 };
    assert!(c.get(to).text().contains(&told.text()), "{}", c.get(to).text());
    let store = face.store();
    let readings = store.field_readings(&Filter::all()).unwrap();
    assert_eq!((readings.len(), store.fills(&Filter::all()).unwrap().len()), (25, 4));
    let ph: Vec<&record::model::FieldReading> = readings.iter().filter(|r| r.quantity == "pH").collect();
    // ± 0.04 at 95 % is u = 0.02 (JCGM 100:2008, 6.3.3: k = 2).
    assert_eq!((ph[0].value, ph[0].u, ph[0].at.as_str()), (7.61, Some(0.02), "2026-09-15T10:40"));
    let last = store.events().unwrap().pop().unwrap();
    let why = last.json["body"]["why"].as_str().unwrap().to_string();
    assert!(why.contains("Marit Osk") && why.contains("meter of the hut"), "{why}");
    // The same form again acts once.
    assert_eq!(post(&mut c, "/enter/visit", &sent).status, 303);
    assert_eq!(face.store().field_readings(&Filter::all()).unwrap().len(), 25);
}

#[test]
fn one_wrong_value_keeps_nothing_and_loses_nothing() {
    let face = Face::empty();
    let mut c = face.client();
    new_well(&mut c);
    let token = c.get("/enter/visit").token();
    let mut sent = fields(&token, "NF-1");
    change(&mut sent, "c1.0", "warm");
    change(&mut sent, "f2.s", "");
    change(&mut sent, "t3", "1049");
    // Physics refuses a pH of 78 in the same round.
    change(&mut sent, "c0.2", "78");
    let events = face.store().events().unwrap().len();
    let page = post(&mut c, "/enter/visit", &sent);
    assert_eq!(page.status, 422);
    let text = page.text();
    for (field, value) in [("c1.0", "warm"), ("t3", "1049"), ("c0.2", "78"), ("c4.4", "0,05")] {
        assert!(text.contains(&format!("name=\"{field}\" value=\"{value}\"")), "{field}: {text}");
    }
    for field in ["c1.0", "f2.s", "t3", "c0.2"] {
        assert!(text.contains(&format!("href=\"#{field}\"")), "{field}: {text}");
    }
    assert_eq!(face.store().events().unwrap().len(), events);
    // An empty form says what is needed, and does nothing.
    assert_eq!(c.post("/enter/visit", &[("token", &token)]).status, 422);
}

#[test]
fn what_is_far_from_the_last_visit_is_asked_about_and_the_answer_is_kept() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let page = c.get("/enter/visit?well=SL-2");
    let store = face.store();
    let well = store.wells().unwrap().into_iter().find(|w| w.name == "SL-2").unwrap().id;
    let past = field_sheet::past::before(&store, "2026-09-15", None).unwrap().remove(&well).unwrap();
    let last = past.iter().find(|p| p.quantity == "pH").unwrap();
    let shown = said::LastTime { value: Shown::as_given(last.last, ""), day: Date(last.day.clone()) };
    let shown = document::printed::printed(&shown.text(), quantity::Lang::En);
    assert!(page.text().contains(&shown), "{shown}: {}", page.text());
    let field = |n: &str, v: &str| (n.to_string(), v.to_string());
    let day = [field("token", &page.token()), field("well", "SL-2"), field("day", "15.9.2026")];
    let mut sent = day.to_vec();
    sent.extend([field("t0", "10:40"), field("c0.2", "9,8")]);
    let asked = post(&mut c, "/enter/visit", &sent);
    assert_eq!(asked.status, 422);
    assert!(asked.text().contains("name=\"ok.c0.2\" value=\"9,8\""), "{}", asked.text());
    sent.push(field("ok.c0.2", "9,8"));
    assert_eq!(post(&mut c, "/enter/visit", &sent).status, 303);
    let last = face.store().events().unwrap().pop().unwrap();
    assert!(last.json["body"]["why"].as_str().unwrap().contains("9,8 confirmed"), "{}", last.json);
    // The same measurement a second time: are both real?
    let token = c.get("/enter/visit").token();
    let mut again = day.to_vec();
    again[0].1 = token;
    again.extend([field("t0", "10:40"), field("c0.2", "9,8")]);
    let twice = post(&mut c, "/enter/visit", &again);
    assert_eq!(twice.status, 422, "{}", twice.text());
    assert!(twice.text().contains("name=\"ok.c0.2\""), "{}", twice.text());
}

#[test]
fn a_look_tells_since_when_it_is_steady_and_how_much_flows() {
    let face = Face::empty();
    let mut c = face.client();
    new_well(&mut c);
    let token = c.get("/enter/visit").token();
    let mut sent = fields(&token, "NF-1");
    sent.push(("piece".into(), "1".into()));
    let events = face.store().events().unwrap().len();
    let piece = post(&mut c, "/enter/visit/look", &sent);
    assert_eq!(piece.status, 200);
    let text = piece.text();
    assert!(!text.contains("<html") && text.contains(&said::CountedVisit { readings: 25, fills: 4 }.text()), "{text}");
    // Three readings in a row, three minutes apart, within the band: steady from the first of them (Puls & Barcelona
    // 1996, EPA/540/S-95/504, from memory).
    assert!(text.contains(&said::SteadySince { at: "10:40".into() }.text()), "{text}");
    // Python 3.11 with scipy 1.11: q = 600/[25.1, 24.8, 25.0, 25.2]; mean(q) = 23.9772;
    // t.ppf(0.975, 3) * stdev(q) / 2 = 0.26.
    assert!(text.contains("23.98 ± 0.26"), "{text}");
    assert_eq!(face.store().events().unwrap().len(), events, "a look keeps nothing");
    // Without script the same is a page, with all that was typed.
    sent.pop();
    let page = post(&mut c, "/enter/visit/look", &sent).text();
    assert!(page.contains("<html") && page.contains("name=\"c4.1\" value=\"411\""), "{page}");
}

#[test]
fn a_block_of_a_spreadsheet_is_taken() {
    let face = Face::empty();
    let mut c = face.client();
    new_well(&mut c);
    let token = c.get("/enter/visit").token();
    let block = "Zeit\tT\tLF\tpH\n10:40\t9,2\t412\t7,61\n10:43\t9,2\t411\t7,62\n";
    let sent = [("token", token.as_str()), ("well", "NF-1"), ("day", "2026-09-15"), ("paste", block)];
    assert_eq!(
        c.post("/enter/visit", &sent).header("location").unwrap().split('&').next(),
        Some("/enter/visit?readings=6")
    );
    assert_eq!(face.store().field_readings(&Filter::all()).unwrap().len(), 6);
}

#[test]
fn a_grid_is_filled_from_the_keyboard() {
    let face = Face::empty();
    let mut c = face.client();
    new_well(&mut c);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    p.size(b, 1280, 900);
    p.go(b, "/enter/visit?well=NF-1&day=2026-09-15");
    p.fill(b, "#t0", "10:40");
    assert_eq!(p.eval(b, "document.getElementById('t4').value"), json!("10:52"), "three minutes apart");
    for (q, value) in ["9,2", "412", "7,61"].iter().enumerate() {
        p.fill(b, &format!("[name='c0.{q}']"), value);
        for n in 1..4 {
            p.key(b, "Enter");
            assert_eq!(p.eval(b, "document.activeElement.id"), json!(format!("c{n}.{q}")));
            p.type_text(b, value);
        }
    }
    p.wait(b, "document.querySelector('#visit-told').innerText.includes('steady since 10:40')");
    p.follow(b, "Enter all of it");
    assert!(p.text(b).contains("12 readings, 0 fills entered"), "{}", p.text(b));
    assert_eq!(p.eval(b, "document.activeElement.id"), json!("done"));
    assert_eq!(face.store().field_readings(&Filter::all()).unwrap().len(), 12);
    assert!(b.complaints().is_empty(), "{:?}", b.complaints());
}
