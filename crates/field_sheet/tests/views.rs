//! The sheet in the sun, in large letters, in colours of the system, twice reloaded without network; its size.

use crate::phone::{Phone, programme, row, sheet};
use field_sheet::{gather, html};
use intake::entry::enter;
use record::by::By;
use serde_json::json;

/// Largest file, bytes.
const LARGEST: usize = 250_000;

const PLACES: [&str; 8] = ["trip", "wells", "well/SL-2", "bottles", "bottle/A-1", "bottle-new", "box", "save"];

#[test]
fn a_sheet_is_at_most_250_kb() {
    let mut p = programme();
    let (ours, head) = (sheet(&p).len(), "2026-01-02T00:00:00Z");
    // Thirty wells with sixty bottles and twenty people: more than a trip has.
    let mut rows = vec![];
    for n in 0..30 {
        let well = format!("W-{n}");
        rows.push(row(
            "well",
            &[("name", &well), ("site", "Sallow Levels"), ("description", "One of many wells in the levels")],
        ));
        for k in 0..2 {
            let label = format!("W{n}-26-07-{k}");
            rows.push(row(
                "bottle",
                &[("label", &label), ("kind", "sample"), ("trip", &p.trip), ("well", &well), ("lot", "14")],
            ));
        }
    }
    rows.extend((0..20).map(|n| row("person", &[("name", &format!("Person number {n}"))])));
    enter(&mut p.store, By { person: "Marit Osk", at: head }, "", &rows).unwrap();
    let large = sheet(&p).len();
    println!("field sheet: {ours} bytes; with 30 wells, 64 bottles and 22 people {large}");
    assert!(ours <= LARGEST && large <= LARGEST, "{ours} {large}");
}

#[test]
fn what_was_half_typed_was_lost_on_a_reload() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "twice");
    phone.tap("#who-marit-osk");
    phone.tap("#c-dust-some");
    phone.write("#trip-note", "a tractor on the dyke, not yet");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.write("#r-sl-2-ph", "7.7");
    phone.write("#count-5", "3");
    for _ in 0..2 {
        phone.reload();
        assert_eq!(phone.entries(), 1);
        assert_eq!(
            phone.json("['r-sl-2-ph', 'count-5'].map((id) => document.getElementById(id).value)"),
            json!(["7.7", "3"])
        );
    }
    phone.tap("#nav-bottles");
    phone.tap("#bottle-a-1");
    phone.write("#note", "flakes at the lip");
    for _ in 0..2 {
        phone.reload();
        assert_eq!(phone.json("document.getElementById('note').value"), json!("flakes at the lip"));
    }
    phone.tap("#nav-trip");
    assert_eq!(phone.json("document.getElementById('trip-note').value"), json!("a tractor on the dyke, not yet"));
    assert_eq!(phone.json("draft.who"), json!("Marit Osk"));
    // Taken on after both reloads.
    phone.tap("#trip-note-take");
    assert_eq!(phone.json("keep.state.entries.map((e) => e.what)"), json!(["condition", "note"]));
    assert_eq!(phone.requests(), Vec::<String>::new());
}

/// At 360 px nothing runs over the side, in both languages, each light, and with letters twice as large.
#[test]
fn large_letters_ran_over_the_side() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "large");
    phone.width(360);
    let mut faults = vec![];
    for language in ["en", "de"] {
        for (light, percent) in [("light", 100), ("dark", 100), ("sun", 100), ("light", 200), ("sun", 200)] {
            phone.json(&format!(
                "(look({{language: '{language}', light: '{light}'}}), document.documentElement.style.setProperty('--size', '{}%'), true)",
                f64::from(percent) * if light == "sun" { 1.25 } else { 1.125 }
            ));
            for hash in PLACES {
                phone.place(hash);
                let wide = phone.json("document.documentElement.scrollWidth").as_u64().unwrap();
                // A button whose words are wider than itself is cut as well.
                let cut = phone.json(
                    "[...document.querySelectorAll('button, nav a, h2, .told, .caution')].filter((e) => e.offsetParent !== null && e.scrollWidth > e.clientWidth + 1).map((e) => e.id || e.textContent.slice(0, 40))",
                );
                if wide > 360 || cut != json!([]) {
                    faults.push(format!("{hash} {language} {light} {percent} %: {wide} px, cut {cut}"));
                }
                // What stays at the foot leaves half of the screen at least.
                let foot = phone.json("(() => { const f = document.querySelector('footer'); return getComputedStyle(f).position === 'sticky' ? f.offsetHeight : 0; })()").as_f64().unwrap();
                if foot > 400.0 {
                    faults.push(format!("{hash} {language} {percent} %: the foot is {foot} px high"));
                }
            }
            if percent == 200 || language == "de" {
                phone.place("well/SL-2");
                phone.shoot(&format!("well-{language}-{light}-{percent}"));
                phone.place("bottle/A-1");
                phone.shoot(&format!("bottle-{language}-{light}-{percent}"));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn in_the_sun_there_are_two_colours_and_the_choice_stays() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "sun");
    // The system of a phone does not know where one stands.
    phone.media("prefers-color-scheme", "dark");
    assert_eq!(phone.json("document.documentElement.dataset.light"), json!("light"));
    phone.tap("#light");
    phone.tap("#light");
    phone.reload();
    assert_eq!(phone.json("document.documentElement.dataset.light"), json!("sun"));
    phone.place("well/SL-2");
    let colours = phone.json(
        "[...new Set([...document.querySelectorAll('main *')].filter((e) => e.offsetParent !== null && !['VIDEO', 'OPTION'].includes(e.tagName)).map((e) => getComputedStyle(e).color))].sort()",
    );
    assert_eq!(colours, json!(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]));
    let size = phone.json("parseFloat(getComputedStyle(document.documentElement).fontSize)").as_f64().unwrap();
    assert!((size - 20.0).abs() < 0.1, "{size} px");
    phone.shoot("well");
}

/// Where the system sets the colours a fill is gone: what is chosen and done is seen by its border and mark.
#[test]
fn in_colours_of_the_system_what_is_chosen_is_seen() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "forced");
    phone.media("forced-colors", "active");
    phone.tap("#c-dust-some");
    let look = |id: &str| {
        phone.json(&format!(
            "(() => {{ const e = document.getElementById('{id}'), s = getComputedStyle(e); return [s.borderTopStyle, getComputedStyle(e, '::before').content]; }})()"
        ))
    };
    assert_ne!(look("c-dust-some"), look("c-dust-much"));
    assert_eq!(look("c-dust-some"), json!(["double", "\"✓ \""]));
    phone.tap("#nav-bottles");
    phone.tap("#bottle-a-1");
    phone.tap("#step-code-read");
    assert_ne!(look("step-code-read")[0], look("step-bags-open")[0]);
    let here = "getComputedStyle(document.querySelector('nav a[aria-current]')).outlineStyle";
    assert_eq!(phone.json(here), json!("solid"));
    phone.shoot("bottle");
}

#[test]
fn no_place_has_a_fault_of_accessibility() {
    let p = programme();
    let phone = Phone::open(&html(&gather(&p.store, &p.trip, "levels").unwrap()), "axe");
    phone.json(&format!("(() => {{ {}; return true; }})()", include_str!("../../web/tests/fixtures/axe.min.js")));
    let mut faults = vec![];
    for (language, light) in [("en", "light"), ("de", "dark"), ("en", "sun")] {
        phone.json(&format!("(look({{language: '{language}', light: '{light}'}}), true)"));
        for hash in PLACES {
            phone.place(hash);
            let found = phone.later(
                "axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.map((v) => v.id + ' (' + v.impact + '): ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')))",
            );
            for fault in found.as_array().expect("axe answers") {
                faults.push(format!("{hash} {language} {light}: {fault}"));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}
