//! What the sheet asks about, and what of the last visit it shows when: never before an entry, always behind one.

use crate::phone::{Phone, Programme, programme, row, sheet};
use field_sheet::{gather, paper};
use intake::entry::enter;
use intake::import::{Input, find_mapping, import};
use message::{Lang, with_language};
use record::by::By;
use record::store::Filter;
use serde_json::json;

/// The small programme with two earlier visits to SL-2: pH 7.62 and 7.65, 9.3 and 9.5 °C written in kelvin once, a flow
/// of 24 L/min; and a later one, which is no past.
fn visited() -> Programme {
    let mut p = programme();
    let reading = |trip: &str, at: &str, quantity: &str, value: &str, unit: &str| {
        let cells =
            [("trip", trip), ("well", "SL-2"), ("at", at), ("quantity", quantity), ("value", value), ("unit", unit)];
        row("field_reading", &cells)
    };
    let rows = [
        row("trip", &[("name", "one"), ("starts", "2024-07-10")]),
        row("trip", &[("name", "two"), ("starts", "2025-07-12")]),
        reading("one", "2024-07-10T10:00", "pH", "7.62", "pH"),
        reading("two", "2025-07-12T10:00", "pH", "7.60", "pH"),
        reading("two", "2025-07-12T10:05", "pH", "7.65", "pH"),
        reading("one", "2024-07-10T10:00", "temperature", "282.45", "K"),
        reading("two", "2025-07-12T10:05", "temperature", "9.5", "°C"),
        reading("two", "2025-07-12T10:05", "conductivity", "0.412", "mS/cm"),
        row(
            "fill",
            &[("trip", "two"), ("well", "SL-2"), ("at", "2025-07-12T09:50"), ("volume_L", "10"), ("seconds", "25")],
        ),
        row(
            "fill",
            &[("trip", "two"), ("well", "SL-2"), ("at", "2025-07-12T09:52"), ("volume_L", "10"), ("seconds", "25")],
        ),
    ];
    enter(&mut p.store, By { person: "Marit Osk", at: "2026-01-02T00:00:00Z" }, "", &rows).unwrap();
    p
}

#[test]
fn the_past_of_a_well_is_in_the_units_of_the_sheet_and_ends_before_the_trip() {
    let p = visited();
    let data = gather(&p.store, &p.trip, "levels").unwrap();
    let of = |name: &str| data.wells.iter().find(|w| w.name == name).unwrap();
    let past = |quantity: &str| of("SL-2").past.iter().find(|x| x.quantity == quantity).unwrap();
    let ph = past("pH");
    assert_eq!((ph.last, ph.day.as_str(), ph.low, ph.high, ph.days), (7.65, "2025-07-12", 7.60, 7.65, 2));
    // 282.45 K − 273.15.
    let t = past("temperature");
    assert!(
        (t.low - 9.3).abs() < 1e-9 && (t.high - 9.5).abs() < 1e-9 && (t.last - 9.5).abs() < 1e-9 && t.unit == "°C",
        "{t:?}"
    );
    assert!((past("conductivity").last - 412.0).abs() < 1e-9);
    // 60 · 10 / 25.
    assert_eq!((past("flow").last, past("flow").unit), (24.0, "L/min"));
    assert_eq!(of("SL-3").past, [], "nobody was there");
    // The sheet of the first trip knows nothing of the second.
    assert_eq!(gather(&p.store, "one", "levels").unwrap().wells.iter().map(|w| w.past.len()).sum::<usize>(), 0);
    let second = gather(&p.store, "two", "levels").unwrap();
    let ph = second.wells.iter().find(|w| w.name == "SL-2").unwrap().past.iter().find(|x| x.quantity == "pH").unwrap();
    assert_eq!((ph.last, ph.days), (7.62, 1));
}

#[test]
fn the_last_visit_stood_beside_the_empty_field() {
    let p = visited();
    let phone = Phone::open(&sheet(&p), "past");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    let main = phone.text("main");
    assert!(!main.contains("7.65") && !main.contains("412"), "an old value gets written again: {main}");
    phone.write("#r-sl-2-ph", "7,63");
    phone.tap("#r-sl-2-ph-take");
    let told = phone.text("#status");
    assert!(told.contains("7.63") && told.contains("Last visit: 7.65, 12 July 2025"), "{told}");
    // When asked.
    phone.tap("#past");
    assert!(phone.text("main").contains("412 µS/cm"), "{}", phone.text("main"));
    phone.tap("#past");
    assert!(!phone.text("main").contains("412 µS/cm"));
}

#[test]
fn a_value_far_from_all_that_the_well_showed_was_entered_unasked() {
    let mut p = visited();
    let phone = Phone::open(&sheet(&p), "far");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    let write = |field: &str, value: &str| {
        phone.write(field, value);
        phone.tap(&format!("{field}-take"));
    };
    // A tenth beyond what it showed is no question: three bands of the criteria (0.2 each, the widest) leave 0.6.
    write("#r-sl-2-ph", "7.75");
    assert_eq!((phone.entries(), phone.count("#ask")), (1, 0));
    // Within what is usual of water, and nothing that this well ever showed.
    write("#r-sl-2-ph", "8.9");
    assert_eq!(phone.entries(), 1, "nothing is kept without an answer");
    let asked = phone.text("#ask");
    assert!(asked.contains("7.6 … 7.65") && asked.contains("7.65"), "{asked}");
    phone.shoot("asked");
    phone.tap("#ask-again");
    assert_eq!((phone.entries(), phone.count("#ask")), (1, 0));
    assert_eq!(
        phone.json("document.getElementById('r-sl-2-ph').value"),
        json!("8.9"),
        "it still stands to be read once more"
    );
    phone.tap("#r-sl-2-ph-take");
    phone.tap("#ask-right");
    // The value, and that it was asked about and confirmed.
    let kept = phone.json("keep.state.entries.slice(1).map((e) => [e.what, e.value ?? e.text, e.well])");
    assert_eq!(
        (kept[0].clone(), &kept[1][0], &kept[1][2]),
        (json!(["reading", 8.9, "SL-2"]), &json!("note"), &json!("SL-2"))
    );
    assert!(kept[1][1].as_str().unwrap().contains("8.9"), "{kept}");
    // A point at the wrong place: outside what can be at all, the slip is offered put right; so is one inside.
    write("#r-sl-2-ph", "768");
    assert!(phone.text("#status").contains("Not entered") && phone.count("#ask-right") == 0);
    phone.tap("#ask-slip");
    write("#r-sl-2-temperature", "94");
    assert_eq!(phone.count("#ask-right"), 1);
    phone.tap("#ask-slip");
    let last = phone.json("keep.state.entries.slice(-2).map((e) => [e.quantity, e.value])");
    assert_eq!(last, json!([["pH", 7.68], ["temperature", 9.4]]));
    // The flow: 24 L/min then; 10 L in 250 s are 2.4 now.
    phone.open_details("Seconds by hand");
    phone.write("#fill-seconds", "250");
    phone.tap("#fill-take");
    assert!(phone.text("#ask").contains("24 L/min"), "{}", phone.text("#ask"));
    phone.tap("#ask-right");
    assert_eq!(phone.json("keep.state.entries.filter((e) => e.what === 'fill').length"), json!(1));
    // All of it comes home by the same door.
    phone.tap("#nav-save");
    let saved = phone.save("#save-file");
    let mapping = find_mapping(&p.store, "field-sheet").unwrap();
    import(&mut p.store, &[Input { path: saved, mapping }], "Marit Osk", &p.tomorrow).unwrap();
    let read = p.store.field_readings(&Filter::all()).unwrap();
    assert_eq!(
        read.iter().filter(|r| r.quantity == "pH").map(|r| r.value).collect::<Vec<_>>(),
        [7.62, 7.60, 7.65, 7.75, 8.9, 7.68]
    );
}

#[test]
fn what_the_trade_wonders_at_was_kept_without_an_answer() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "unusual");
    let usual = |quantity: &str| record::usual::table().iter().find(|u| u.quantity == quantity).unwrap();
    let asked = |quantity: &str| {
        let (u, text) = (usual(quantity), phone.text("#ask"));
        assert!(text.contains(&format!("Usual is {} to {}", u.lower, u.upper)), "{text}");
    };
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.write("#r-sl-2-ph", "12.9");
    phone.tap("#r-sl-2-ph-take");
    asked("pH");
    assert_eq!(phone.entries(), 0);
    // A reload between question and answer loses neither.
    phone.reload();
    asked("pH");
    phone.tap("#ask-right");
    assert_eq!(phone.json("keep.state.entries.map((e) => e.what)"), json!(["reading", "note"]));
    phone.write("#r-sl-2-ph", "7.8");
    phone.tap("#r-sl-2-ph-take");
    assert_eq!((phone.entries(), phone.count("#ask")), (3, 0));
    phone.open_details("Seconds by hand");
    phone.write("#fill-seconds", "0.5");
    phone.tap("#fill-take");
    asked("fill.seconds");
    phone.tap("#ask-again");
    phone.tap("#nav-bottles");
    phone.tap("#bottle-a-1");
    phone.write("#volume", "0.24");
    phone.tap("#volume-take");
    asked("bottle.volume_mL");
    assert_eq!(phone.entries(), 3);
    phone.tap("#ask-right");
    assert_eq!(phone.json("keep.state.entries[3].sets"), json!({"volume_mL": 0.24}));
}

#[test]
fn steady_was_told_only_after_the_value_was_taken() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "typing");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    for minute in [0, 3] {
        phone.ahead(minute);
        phone.write("#r-sl-2-ph", "7.70");
        phone.tap("#r-sl-2-ph-take");
    }
    let line = || phone.text("#r-sl-2-ph-steady");
    assert!(line().contains("2 of 3"), "{}", line());
    phone.ahead(6);
    phone.write("#r-sl-2-ph", "7.74");
    assert_eq!(phone.entries(), 2);
    assert!(line().contains("7.74") && line().contains("steady since"), "{}", line());
    // 0.1 either way of the mean is the rule (Puls & Barcelona 1996): 7.70, 7.70, 7.95 lie 0.17 from theirs.
    phone.write("#r-sl-2-ph", "7.95");
    assert!(line().contains("not steady: ± 0.17"), "{}", line());
    phone.tap("#r-sl-2-ph-take");
    assert!(line().starts_with("✗ not steady"), "{}", line());
}

#[test]
fn a_reading_is_corrected_where_it_was_made_and_the_old_one_stays_struck() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "correct");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.write("#r-sl-2-ph", "7.17");
    phone.tap("#r-sl-2-ph-take");
    phone.tap("#nav-save");
    phone.tap("#correct-1");
    phone.wait("location.hash === '#well/SL-2'");
    assert_eq!(phone.json("document.getElementById('r-sl-2-ph').value"), json!("7.17"));
    phone.write("#r-sl-2-ph", "7.71");
    phone.tap("#r-sl-2-ph-take");
    assert_eq!(phone.json("keep.state.entries.map((e) => e.what)"), json!(["reading", "strike", "reading"]));
    assert_eq!(phone.json("keep.standing().map((e) => e.value)"), json!([7.71]));
}

/// Wells whose names differ by signs alone shared what was half typed.
#[test]
fn a_value_typed_at_one_well_stood_at_another() {
    let mut p = programme();
    let rows = ["Ö 1", "Ä 1"].map(|name| row("well", &[("name", name), ("site", "Sallow Levels")]));
    enter(&mut p.store, By { person: "Marit Osk", at: "2026-01-02T00:00:00Z" }, "", &rows).unwrap();
    let phone = Phone::open(&sheet(&p), "alike");
    phone.place("well/Ö 1");
    let input = "input[id^=r-][id$=-ph]";
    phone.write(input, "7.7");
    phone.place("well/Ä 1");
    assert_eq!(phone.json(&format!("document.querySelector({}).value", json!(input))), json!(""));
}

#[test]
fn what_a_manual_states_was_taken_as_u() {
    let mut p = programme();
    let phone = Phone::open(&sheet(&p), "meter");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.open_details("Say what ± is");
    phone.tap("#meter-quantity-ph");
    phone.write("#meter-given", "0.05");
    phone.tap("#meter-take");
    assert!(phone.text("#status").contains("Not entered"), "what it is has to be said");
    phone.tap("#meter-kind-expanded");
    phone.tap("#meter-take");
    phone.write("#r-sl-2-ph", "7.7");
    phone.tap("#r-sl-2-ph-take");
    phone.tap("#meter-quantity-temperature");
    phone.write("#meter-given", "0.3");
    phone.tap("#meter-kind-limits");
    phone.tap("#meter-take");
    phone.write("#r-sl-2-temperature", "9.4");
    phone.tap("#r-sl-2-temperature-take");
    phone.shoot("meter");
    phone.tap("#nav-save");
    // U = 2·u, as everywhere.
    assert!(phone.text(".log").contains("pH 7.7 ± 0.05"), "{}", phone.text(".log"));
    let saved = phone.save("#save-file");
    let mapping = find_mapping(&p.store, "field-sheet").unwrap();
    import(&mut p.store, &[Input { path: saved, mapping }], "Marit Osk", &p.tomorrow).unwrap();
    let u = |quantity: &str| {
        p.store.field_readings(&Filter::all()).unwrap().into_iter().find(|r| r.quantity == quantity).unwrap().u.unwrap()
    };
    assert!((u("pH") - 0.025).abs() < 1e-12);
    // 0.3/√3 = 0.173205, kept to six digits.
    assert!((u("temperature") - 0.173205).abs() < 1e-9);
}

#[test]
fn paper_shows_the_last_visit_behind_everything_that_is_written() {
    let p = visited();
    let data = gather(&p.store, &p.trip, "levels").unwrap();
    for language in Lang::ALL {
        let main = with_language(language, || paper(&data)).main;
        let last_field = main.rfind("#custody(").unwrap();
        let at = main.find("#past(").expect("the last visit is on paper");
        let value = language.number("7.65");
        assert!(at > last_field && main[at..].contains(&value) && !main[..at].contains(&value), "{}", language.code());
    }
}
