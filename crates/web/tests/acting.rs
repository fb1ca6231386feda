//! Who acts is chosen from the people of the programme, or is another name on purpose; it is remembered until the browser is
//! closed. Who has logged in acts under their own name. Fields of a person in forms are the same list.

use crate::common;

use common::{Answer, Client, Face};
use web::auth::accounts::Role;

/// The choices of a list on a page, and the one chosen.
fn choices(page: &str, id: &str) -> (Vec<String>, String) {
    let list = page.split(&format!("<select id=\"{id}\"")).nth(1).unwrap_or_else(|| panic!("no list {id} on {page}"));
    let list = list.split("</select>").next().unwrap();
    let options: Vec<&str> = list.split("<option ").skip(1).map(|o| o.split('>').next().unwrap()).collect();
    let value = |o: &&str| o.split("value=\"").nth(1).unwrap().split('"').next().unwrap().to_string();
    let chosen = options.iter().find(|o| o.contains(" selected")).map(value).unwrap_or_default();
    (options.iter().map(value).collect(), chosen)
}

fn act_as(c: &mut Client, fields: &[(&str, &str)]) -> Answer {
    let page = c.get("/wells").text();
    // The form of the frame is the first.
    let token = page.split("name=\"token\" value=\"").nth(1).unwrap().split('"').next().unwrap().to_string();
    let mut all = vec![("token", token.as_str()), ("to", "%2Fwells")];
    all.extend(fields);
    c.post("/name", &all)
}

#[test]
fn who_acts_is_one_of_the_people_or_another_name_on_purpose() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let people: Vec<String> = face
        .store()
        .list::<record::model::Person>(&record::store::Filter::all())
        .unwrap()
        .into_iter()
        .map(|p| p.name)
        .collect();
    assert!(people.len() > 1, "{people:?}");
    let (offered, chosen) = choices(&c.get("/").text(), "acting-as");
    assert!(people.iter().all(|p| offered.contains(p)), "{offered:?}");
    assert_eq!((offered.last().map(String::as_str), chosen.as_str()), (Some("+"), "Marit Osk"));
    let other = people.iter().find(|p| *p != "Marit Osk").unwrap();
    let done = act_as(&mut c, &[("name", other)]);
    assert_eq!(done.status, 303, "{}", done.text());
    let set = done.header("set-cookie").unwrap();
    assert!(!set.contains("Max-Age") && !set.contains("Expires"), "until the browser is closed: {set}");
    assert_eq!(choices(&c.get("/").text(), "acting-as").1, *other);
    assert_eq!(act_as(&mut c, &[("name", "+"), ("other.name", "Ina Moor")]).status, 303);
    let (offered, chosen) = choices(&c.get("/").text(), "acting-as");
    assert!(offered.contains(&chosen) && chosen == "Ina Moor", "{offered:?}");
    // Neither a name nor another one: nothing is set.
    assert_eq!(act_as(&mut c, &[("name", "+"), ("other.name", " ")]).status, 422);
    assert_eq!(act_as(&mut c, &[("name", "")]).status, 422);
    assert_eq!(choices(&c.get("/").text(), "acting-as").1, "Ina Moor");
}

#[test]
fn who_has_logged_in_acts_under_their_own_name() {
    let face = Face::demo(&[("Ines Varga", Role::Analyst)]);
    let mut c = face.client_as("Ines Varga");
    let page = c.get("/").text();
    assert!(!page.contains("id=\"acting-as\"") && page.contains("Ines Varga"));
    let form = c.get("/enter/custody?trip=SL-2026-07").text();
    assert_eq!(choices(&form, "r0.person").1, "Ines Varga", "and is the person of a new row");
}

#[test]
fn the_person_of_a_row_is_chosen_and_another_is_typed() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    let form = c.get("/enter/custody?trip=SL-2026-07");
    let (offered, chosen) = choices(&form.text(), "r0.person");
    assert_eq!((chosen.as_str(), offered.last().map(String::as_str)), ("Marit Osk", Some("+")));
    let fields = |person: &'static str, other: &'static str, token: String| {
        vec![
            ("token", token),
            ("r0.trip", "SL-2026-07".to_string()),
            ("r0.at", "2026-07-20 09:00".to_string()),
            ("r0.step", "opened".to_string()),
            ("r0.person", person.to_string()),
            ("other.r0.person", other.to_string()),
        ]
    };
    let mut send = |person, other| {
        let token = c.get("/enter/custody?trip=SL-2026-07").token();
        let fields = fields(person, other, token);
        let fields: Vec<(&str, &str)> = fields.iter().map(|(n, v)| (*n, v.as_str())).collect();
        c.post("/enter/custody", &fields)
    };
    // A name that nobody in the programme bears is told at its field: people are entered on purpose.
    let told = send("+", "Ina Moor");
    assert_eq!(told.status, 422);
    assert!(told.text().contains("Ina Moor"), "{}", told.text());
    let done = send("+", "ines varga");
    assert_eq!(done.status, 303, "{}", done.text());
    let rows = face.store().custody(&record::store::Filter::all()).unwrap();
    assert!(rows.iter().any(|r| r.person.as_deref() == Some("Ines Varga")), "as the record writes the name");
}
