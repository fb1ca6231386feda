//! Twelve bottles by one thumb: how many taps, and how long by a stated model of a thumb.

use crate::phone::{Phone, Programme, programme, row, sheet};
use intake::entry::enter;
use intake::import::{Input, find_mapping, import};
use record::by::By;
use record::store::Filter;

/// The keystroke-level model (Card, Moran & Newell 1980, Comm. ACM 23:396; figures from memory), as slow as it goes: before
/// every tap a person makes up their mind (M = 1.35 s), points (P = 1.1 s, a mouse's; a thumb is quicker) and presses
/// (B = 0.2 s with its release). A target out of view costs one more pointing and two presses for the drag. A typed sign is
/// K = 0.5 s, somebody who does not type (0.28 s is average skill).
const DECIDE_S: f64 = 1.35;
const POINT_S: f64 = 1.1;
const PRESS_S: f64 = 0.2;
const KEY_S: f64 = 0.5;

/// Longest time for twelve bottles, s; what water and valve need comes on top.
const TARGET_S: f64 = 300.0;

struct Thumb<'p> {
    phone: &'p Phone,
    taps: u32,
    drags: u32,
    keys: u32,
}

impl Thumb<'_> {
    fn tap(&mut self, selector: &str) {
        self.phone.wait(&format!("!!document.querySelector('{selector}')"));
        if !self.phone.in_view(selector) {
            self.drags += 1;
        }
        self.taps += 1;
        self.phone.tap(selector);
    }

    fn write(&mut self, selector: &str, text: &str) {
        self.tap(selector);
        self.keys += u32::try_from(text.len()).unwrap();
        self.phone.write(selector, text);
    }

    fn seconds(&self) -> f64 {
        f64::from(self.taps) * (DECIDE_S + POINT_S + PRESS_S)
            + f64::from(self.drags) * (POINT_S + 2.0 * PRESS_S)
            + f64::from(self.keys) * KEY_S
    }
}

/// Twelve bottles at SL-2: two are the programme's own.
fn twelve() -> (Programme, Vec<String>) {
    let mut p = programme();
    let mut labels: Vec<String> = (1..=10).map(|n| format!("SL2-{n:02}")).collect();
    let rows: Vec<_> = labels
        .iter()
        .map(|l| row("bottle", &[("label", l), ("kind", "sample"), ("trip", &p.trip), ("well", "SL-2"), ("lot", "14")]))
        .collect();
    enter(&mut p.store, By { person: "Marit Osk", at: "2026-01-02T00:00:00Z" }, "", &rows).unwrap();
    labels.extend(["A-1".to_string(), "A-2".into()]);
    (p, labels)
}

#[test]
fn twelve_bottles_take_a_thumb_under_five_minutes() {
    let (mut p, labels) = twelve();
    let phone = Phone::open(&sheet(&p), "twelve");
    phone.width(360);
    phone.tap("#who-tobin-rell");
    let mut thumb = Thumb { phone: &phone, taps: 0, drags: 0, keys: 0 };
    thumb.tap("#nav-bottles");
    // The first one step by step.
    thumb.tap("#bottle-sl2-01");
    for tap in [
        "#step-code-read",
        "#sampler-marit-osk",
        "#step-bags-open",
        "#step-opened-in-the-cabinet",
        "#step-rinsed",
        "#step-filled",
        "#step-closed",
        "#step-bags-closed",
        "#filter-unfiltered",
    ] {
        thumb.tap(tap);
    }
    thumb.tap("#acid-place-at-the-well");
    thumb.write("#acid-mL", "0.5");
    thumb.tap("#acid-take");
    let first = thumb.taps;
    // Each next one as the one before: opened, closed, and the minutes are its own.
    for n in 1..labels.len() {
        thumb.tap("#next-bottle");
        thumb.tap("#before-open");
        phone.ahead(2 * u32::try_from(n).unwrap());
        if n == 1 {
            phone.shoot("as-before");
        }
        thumb.tap("#before-close");
    }
    let a_bottle = f64::from(thumb.taps - first) / 11.0;
    println!(
        "twelve bottles: {} taps ({first} for the first, {a_bottle:.1} for each of the others), {} drags, {} keys: {:.0} s",
        thumb.taps,
        thumb.drags,
        thumb.keys,
        thumb.seconds()
    );
    assert!(a_bottle <= 3.0, "{a_bottle} taps a bottle");
    assert!(thumb.seconds() < TARGET_S, "{} s", thumb.seconds());
    let most = phone.json(
        "Math.max(...S.bottles.map((b) => keep.standing().filter((e) => e.what === 'bottle' && e.bottle === b.label).length))",
    );
    assert!(most.as_u64().unwrap() <= 12, "{most} entries for a bottle");

    // What a tap says beforehand is what it kept, and one tap takes all of it back.
    let before = phone.json("keep.standing().length").as_u64().unwrap();
    phone.tap("#take-back");
    let kept = phone.json("keep.standing().length").as_u64().unwrap();
    assert_eq!(before - kept, 6, "rinsed, filled, closed, bags, filter, acid");
    phone.tap("#before-close");

    phone.tap("#nav-save");
    let saved = phone.save("#save-file");
    let mapping = find_mapping(&p.store, "field-sheet").unwrap();
    import(&mut p.store, &[Input { path: saved, mapping }], "Marit Osk", &p.tomorrow).unwrap();
    for (n, label) in labels.iter().enumerate() {
        let b = p.store.bottles(&Filter::all().is("label", label.as_str())).unwrap().pop().unwrap();
        assert_eq!(b.sampler.as_deref(), Some("Marit Osk"), "{label}");
        assert_eq!((b.openings, b.acid_mL, b.fraction.as_deref()), (Some(1), Some(0.5), Some("unfiltered")), "{label}");
        assert_eq!((b.acid.as_deref(), b.acidified_place.as_deref()), (Some("HN-88"), Some("at the well")), "{label}");
        assert!(b.filled_at.is_some() && b.acidified_at.is_some(), "{label}");
        // Two minutes of the moved clock each; the first stood open for no time.
        let minutes = b.cabinet_min.unwrap();
        assert!((minutes - if n == 0 { 0.0 } else { 2.0 }).abs() < 0.3, "{label}: {minutes} min");
    }
}

#[test]
fn the_acid_of_another_volume_was_repeated() {
    let mut p = programme();
    let rows = [
        row("lot", &[("name", "15"), ("volume_mL", "1000")]),
        row("bottle", &[("label", "BIG"), ("kind", "sample"), ("trip", &p.trip), ("well", "SL-2"), ("lot", "15")]),
    ];
    enter(&mut p.store, By { person: "Marit Osk", at: "2026-01-02T00:00:00Z" }, "", &rows).unwrap();
    let phone = Phone::open(&sheet(&p), "volume");
    phone.tap("#nav-bottles");
    phone.tap("#bottle-a-1");
    for tap in
        ["#step-opened-outdoors", "#step-filled", "#step-closed", "#step-bags-closed", "#acid-mL-more", "#acid-take"]
    {
        phone.tap(tap);
    }
    for (label, acid) in [("a-2", true), ("big", false)] {
        phone.tap("#nav-bottles");
        phone.tap(&format!("#bottle-{label}"));
        phone.tap("#before-open");
        phone.tap("#before-close");
        let steps = phone.json("keep.standing().filter((e) => e.bottle?.toLowerCase() === location.hash.slice(8).toLowerCase()).map((e) => e.step)");
        let there = steps.as_array().unwrap().iter().any(|s| s == "acid in");
        assert_eq!(there, acid, "{label}: {steps}");
        // Nobody rinsed the bottle before, and nobody said who had clean hands.
        assert!(!steps.to_string().contains("rinsed") && !steps.to_string().contains("clean hands"), "{steps}");
        assert!(steps.to_string().contains("opened outdoors"), "{steps}");
    }
}

#[test]
fn a_bottle_is_found_by_its_code_live_or_by_its_label_typed() {
    let p = programme();
    // This browser has no reader of codes: one is put in its place that finds a label in the third picture of the camera.
    let reader = "globalThis.BarcodeDetector = class { static async getSupportedFormats() { return ['data_matrix']; }
        async detect(video) { globalThis.seen = (globalThis.seen || 0) + 1; globalThis.wide = video.videoWidth;
          return globalThis.seen < 3 ? [] : [{ rawValue: 'A-2' }]; } };";
    let phone = Phone::open_with(&sheet(&p), "camera", Some(reader));
    phone.tap("#nav-bottles");
    phone.tap("#scan-find-live");
    phone.wait("location.hash === '#bottle/A-2'");
    phone.settle();
    assert!(phone.json("globalThis.wide").as_u64().unwrap() > 0, "the camera gave pictures");
    assert_eq!(phone.json("camera.state.stream"), serde_json::Value::Null, "the camera is off again");
    assert_eq!(
        phone.json("keep.state.entries.map((e) => [e.bottle, e.step])"),
        serde_json::json!([["A-2", "code read"]])
    );
    // Typed without its hyphen, in small letters: the same bottle; and nobody read its code.
    phone.tap("#nav-bottles");
    phone.write("#scan-find-text", "a1");
    phone.tap("#scan-find-take");
    phone.wait("location.hash === '#bottle/A-1'");
    assert_eq!(phone.entries(), 1);
    // Where the browser reads no codes there is a field to type, and no button that would do nothing.
    let phone = Phone::open_with(&sheet(&p), "no-camera", Some("delete globalThis.BarcodeDetector;"));
    phone.tap("#nav-bottles");
    assert_eq!((phone.count("#scan-find-live"), phone.count(".scan"), phone.count("#scan-find-text")), (0, 0, 1));
}
