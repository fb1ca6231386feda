//! A real browser does what a person does: the whole job from an empty programme to the PDF by clicking, two people at
//! once, a telephone's width, the keyboard alone; every page is looked over for faults of accessibility, and nothing is
//! ever asked of another machine. Pictures of every page are kept in `target/pages` for people to look at.

use crate::common;

use common::browser::{Browser, Page};
use common::{Face, PAGES, PASSWORD, field_sheet, raw_files};
use intake::entry::{TypedRow, enter};
use record::by::By;
use serde_json::json;
use std::path::PathBuf;
use web::auth::accounts::Role;

/// Where pictures go: kept after the test.
pub fn pictures() -> PathBuf {
    let target = std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/../../target")), PathBuf::from);
    let dir = target.join("pages");
    std::fs::create_dir_all(&dir).unwrap();
    dir
}

fn quiet(b: &mut Browser, face: &Face) {
    let strange = b.strange_requests(&face.base());
    assert!(strange.is_empty(), "asked of other machines: {strange:?}");
    let complaints = b.complaints();
    assert!(complaints.is_empty(), "{complaints:#?}");
}

fn fill_all(b: &mut Browser, p: &Page, fields: &[(&str, &str)]) {
    for (name, text) in fields {
        let field = format!("[name='{name}']");
        if p.eval(b, &format!("document.querySelector(\"{field}\").tagName")) == json!("SELECT") {
            p.choose(b, &field, text);
        } else {
            p.fill(b, &field, text);
        }
    }
}

#[test]
fn the_whole_job_from_nothing_to_the_pdf() {
    let face = Face::empty();
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    p.size(b, 1280, 900);
    p.go(b, "/");
    // First steps: a well of one's own, with a slip on the way.
    p.follow(b, "a[href=\"/enter/well?to=%2F\"]");
    fill_all(b, &p, &[("r0.name", "SL-9"), ("r0.medium", "groundwater"), ("r0.elevation_m", "3,2")]);
    // A comma is a decimal sign; what may be a thousand is asked about.
    fill_all(b, &p, &[("r0.elevation_m", "3,200")]);
    p.follow(b, "Enter");
    assert!(p.text(b).contains("3.200") && p.text(b).contains("3200"), "{}", p.text(b));
    p.picture(b, &pictures().join("fault-at-its-field.png"));
    fill_all(b, &p, &[("r0.elevation_m", "3,2")]);
    p.follow(b, "Enter");
    assert_eq!(p.path(b), "/", "back to the steps");
    p.go(b, "/wells/SL-9");
    p.follow(b, "Add casing and screen");
    fill_all(
        b,
        &p,
        &[
            ("r0.from_m", "0"),
            ("r0.to_m", "40"),
            ("r0.radius_m", "0.05"),
            ("r0.kind", "casing"),
            ("r0.material", "stainless steel"),
        ],
    );
    p.follow(b, "Enter");
    assert!(p.text(b).contains("stainless steel"));
    p.follow(b, "Trips");
    p.follow(b, "Enter a trip");
    fill_all(
        b,
        &p,
        &[
            ("r0.name", "SL-2026-09"),
            ("r0.starts", "15 September 2026, 08:30"),
            ("r0.question", "Does SL-9 carry lead?"),
        ],
    );
    p.follow(b, "Enter");
    assert_eq!(p.eval(b, "document.activeElement.id"), json!("done"), "what was done has the focus");
    p.follow(b, "Open it");
    p.follow(b, "Enter a bottle");
    fill_all(
        b,
        &p,
        &[("r0.label", "SL9-A"), ("r0.kind", "sample"), ("r0.well", "SL-9"), ("r0.filled_at", "2026-09-15 10:00")],
    );
    p.follow(b, "Enter");
    // A form that a trip asked for leads back to it, where the new thing is seen at once.
    assert!(p.text(b).contains("SL9-A"));
    p.follow(b, "timed fills");
    fill_all(
        b,
        &p,
        &[
            ("r0.well", "SL-9"),
            ("r0.volume_L", "10"),
            ("r0.seconds", "25.1"),
            ("r1.well", "SL-9"),
            ("r1.volume_L", "10"),
            ("r1.seconds", "24.8"),
            ("r2.well", "SL-9"),
            ("r2.volume_L", "10"),
            ("r2.seconds", "25.0"),
        ],
    );
    p.follow(b, "Enter");
    assert!(p.text(b).contains("L/min"), "the flow is worked out: {}", p.text(b));
    // Back after a save, and forward again: no second act.
    let acts = face.store().events().unwrap().len();
    p.eval(b, "history.back()");
    p.wait(b, "location.pathname === '/enter/fill'");
    p.eval(b, "history.forward()");
    p.wait(b, "location.pathname !== '/enter/fill'");
    assert_eq!(face.store().events().unwrap().len(), acts);
    p.go(b, "/");
    assert!(p.text(b).contains("SL9-A"), "the bottle waits: {}", p.text(b));
    bring_in(b, &p);
    look_at_the_case(b, &p);
    report(b, &p, &face);
    let store = face.store();
    assert!(store.events().unwrap().iter().skip(1).all(|e| e.author == "Marit Osk"));
    assert!(store.verify(None).unwrap().differences.is_empty());
    quiet(b, &face);
}

fn bring_in(b: &mut Browser, p: &Page) {
    p.follow(b, "Runs");
    p.follow(b, "Bring in files");
    let dir = tempfile::tempdir().unwrap();
    let files: Vec<PathBuf> = raw_files(dir.path()).into_iter().map(|(p, _)| p).collect();
    p.upload(b, "#files", &files);
    p.follow(b, "Look at them");
    assert!(p.text(b).contains("no faults"), "{}", p.text(b));
    p.picture(b, &pictures().join("preview.png"));
    p.follow(b, "Take all of it in");
    p.wait(b, "document.querySelector('a.go')");
    assert!(p.text(b).contains("verdicts were written"), "{}", p.text(b));
    p.follow(b, "Go on");
    assert_eq!(p.path(b), "/results");
}

fn look_at_the_case(b: &mut Browser, p: &Page) {
    // The choices are folded: the first thing on the page is the results.
    p.click(b, "Choose which");
    p.choose(b, "#well", "SL-1");
    p.choose(b, "#analyte", "lead");
    p.follow(b, "form.filters button");
    p.follow(b, "a[href*='SL1-26-07-A']");
    assert!(p.text(b).contains("provisional"));
    // Down to the counts, a click at a time.
    let opened = "document.querySelectorAll('.tree details[open]').length";
    let before = p.eval(b, opened).as_u64().unwrap();
    for _ in 0..4 {
        let closed = p.eval(b, "(() => { const d = [...document.querySelectorAll('.tree details:not([open])')].find((x) => x.checkVisibility()); if (!d) return ''; return '#' + d.id + ' > summary'; })()");
        p.click(b, closed.as_str().unwrap());
    }
    assert_eq!(p.eval(b, opened).as_u64().unwrap(), before + 4);
    assert!(p.text(b).contains("replicates"), "the counts stand open: {}", p.text(b));
    p.picture(b, &pictures().join("case-opened.png"));
    p.click(b, "Take the bottle out of the evidence");
    p.fill(b, "#out-why", "a gust lifted the curtain");
    p.follow(b, "Take it out");
    p.settle(b);
    assert!(p.text(b).contains("rejected"), "{}", p.text(b));
    p.click(b, "Take the bottle back into the evidence");
    p.fill(b, "#out-why", "the diary shows another bottle");
    p.follow(b, "Take it back");
    p.settle(b);
    p.click(b, "Stand for this verdict");
    p.fill(b, "#sign-why", "recovery is known from earlier years");
    p.follow(b, "Sign");
    p.settle(b);
    assert!(p.text(b).contains("Signed by Marit Osk"), "{}", p.text(b));
}

fn report(b: &mut Browser, p: &Page, face: &Face) {
    p.follow(b, "Report");
    p.follow(b, "Make it");
    p.settle(b);
    p.wait(b, "[...document.querySelectorAll('a')].some((a) => a.textContent === 'PDF')");
    let to = p.eval(b, "[...document.querySelectorAll('a')].find((a) => a.textContent === 'PDF').getAttribute('href')");
    let pdf = face.client().get(to.as_str().unwrap());
    assert!(pdf.body.starts_with(b"%PDF-1.") && pdf.body.len() > 50_000, "{} bytes", pdf.body.len());
    p.follow(b, "Web page");
    assert!(p.text(b).contains("What was found"));
    p.go(b, "/report");
}

fn come_in(b: &mut Browser, p: &Page, name: &str) {
    p.go(b, "/");
    p.fill(b, "#name", name);
    p.fill(b, "#password", PASSWORD);
    p.follow(b, "Come in");
    assert!(p.text(b).contains(name), "{}", p.text(b));
}

#[test]
fn two_people_at_once() {
    let face = Face::demo(&[("Ines Varga", Role::Analyst), ("Sam Pohl", Role::Sampler)]);
    let mut b = Browser::start();
    let (ines, sam) = (b.page(&face.base()), b.page(&face.base()));
    let b = &mut b;
    come_in(b, &ines, "Ines Varga");
    come_in(b, &sam, "Sam Pohl");
    for p in [&ines, &sam] {
        p.go(b, "/correct/trip/1");
    }
    ines.fill(b, "[name='r0.wind']", "calm until ten");
    sam.fill(b, "[name='r0.wind']", "a storm");
    sam.fill(b, "[name='r0.dust']", "none seen");
    for (p, why) in [(&ines, "from the diary"), (&sam, "as I remember it")] {
        p.fill(b, "#why", why);
        p.follow(b, "Correct");
    }
    let told = sam.text(b);
    assert!(told.contains("somebody changed meanwhile") && told.contains("calm until ten"), "{told}");
    assert_eq!(
        sam.eval(b, "document.querySelector(\"[name='r0.dust']\").value"),
        json!("none seen"),
        "nothing typed is lost"
    );
    sam.picture(b, &pictures().join("somebody-was-first.png"));
    sam.go(b, "/enter/custody?trip=SL-2026-07");
    fill_all(b, &sam, &[("r0.at", "2026-07-20 09:00"), ("r0.step", "opened"), ("r0.person", "Marit Osk")]);
    sam.follow(b, "Enter");
    ines.go(b, "/record");
    let record = ines.text(b);
    assert!(record.contains("Sam Pohl") && record.contains("Ines Varga"), "{record}");
    let trip = face.store().trips().unwrap().remove(0);
    assert_eq!((trip.wind.as_deref(), trip.dust.as_deref() == Some("none seen")), (Some("calm until ten"), false));
    quiet(b, &face);
}

#[test]
fn every_page_fits_a_telephone_and_has_no_fault_of_accessibility() {
    let face = Face::demo(&[]);
    let axe = include_str!("fixtures/axe.min.js");
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut faults = vec![];
    for (name, path) in PAGES {
        for width in [1280, 360] {
            p.size(b, width, 800);
            p.go(b, path);
            let over = p.eval(b, "document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if over.as_i64().unwrap() > 0 {
                faults.push(format!("{name} at {width}: {over} px to the side"));
            }
            p.eval(b, &format!("{axe}; 0"));
            let found = p.eval(
                b,
                "axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.filter((v) => ['serious', 'critical'].includes(v.impact)).map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')))",
            );
            faults.extend(found.as_array().unwrap().iter().map(|f| format!("{name} at {width}: {f}")));
            p.picture(b, &pictures().join(format!("{name}-{width}.png")));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    quiet(b, &face);
}

#[test]
fn the_keyboard_alone_is_enough() {
    let face = Face::demo(&[]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    p.size(b, 1280, 900);
    p.go(b, "/");
    p.key(b, "Tab");
    assert_eq!(p.eval(b, "document.activeElement.className"), json!("skip"), "first of all one can pass the places by");
    p.tab_to(b, "e.textContent === 'Results'");
    p.follow_key(b, "Enter");
    p.tab_to(b, "e.tagName === 'A' && e.href.includes('/case/SL1-26-07-A')");
    p.follow_key(b, "Enter");
    let opened = "document.querySelectorAll('.tree details[open]').length";
    let before = p.eval(b, opened).as_u64().unwrap();
    p.tab_to(b, "e.matches('.tree details:not([open]) > summary')");
    p.key(b, "Enter");
    assert_eq!(p.eval(b, opened).as_u64().unwrap(), before + 1);
    // The focus can be seen.
    assert_eq!(p.eval(b, "getComputedStyle(document.activeElement).outlineStyle"), json!("solid"));
    p.tab_to(b, "e.textContent === 'Stand for this verdict'");
    p.key(b, "Enter");
    p.tab_to(b, "e.id === 'sign-why'");
    p.type_text(b, "read from end to end");
    p.tab_to(b, "e.textContent === 'Sign'");
    p.follow_key(b, "Enter");
    p.settle(b);
    assert!(p.text(b).contains("Signed by Marit Osk"), "{}", p.text(b));
    // The marks of a series can be read one after the other.
    p.go(b, "/time?well=SL-2&analyte=Pb");
    p.tab_to(b, "e.tagName === 'svg'");
    p.key(b, "ArrowRight");
    let told = p.eval(b, "document.querySelector('.told').textContent");
    assert!(told.as_str().unwrap().contains("ng/L (1 of"), "{told}");
    quiet(b, &face);
}

/// Twelve yearly samples of one well: a series that can be read and zoomed.
fn years() -> Face {
    let face = Face::empty();
    let mut store = face.store();
    let mut rows = vec![TypedRow::of("well").with("name", "SL-2")];
    let mut table = String::from("bottle,fraction,laboratory,Pb (ng/L)\n");
    for n in 0..12 {
        let bottle = TypedRow::of("bottle").with("label", format!("Y{n}")).with("kind", "sample").with("well", "SL-2");
        rows.push(bottle.with("filled_at", format!("{}-07-01 10:00", 2012 + n)).with("fraction", "unfiltered"));
        table += &format!("Y{n},unfiltered,Laboratory 1,{}.5\n", n + 1);
    }
    let by = By { person: "Marit Osk", at: "2026-07-01T00:00:00Z" };
    enter(&mut store, by, "", &rows).unwrap();
    let csv = face.dir.path().join("years.csv");
    std::fs::write(&csv, table).unwrap();
    let inputs = intake::import::inputs(&store, &[csv], "laboratory-wide").unwrap();
    intake::import::import(&mut store, &inputs, by.person, by.at).unwrap();
    programme::work::recompute(&mut store, None, by).unwrap();
    face
}

#[test]
fn the_years_are_read_by_pointing_and_by_keyboard_and_a_stretch_of_them_is_shown() {
    let face = years();
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    p.size(b, 1280, 900);
    p.go(b, "/time?well=SL-2&analyte=Pb");
    let told = |b: &mut Browser| {
        p.eval(b, "document.querySelector('.told').textContent").as_str().unwrap_or_default().to_string()
    };
    p.point(b, "figure .wide svg", None);
    assert!(told(b).contains("of 12)"), "{}", told(b));
    p.tab_to(b, "e.tagName === 'svg'");
    p.key(b, "End");
    assert!(told(b).contains("2023") && told(b).contains("12.5") && told(b).contains("(12 of 12)"), "{}", told(b));
    p.picture(b, &pictures().join("series-read.png"));
    p.follow_key(b, "+");
    assert!(p.path(b).contains("from=20") && p.path(b).contains("to=20"), "{}", p.path(b));
    // Half of eleven years about the last mark: five and a half years, of which the last is the middle.
    assert_eq!(p.eval(b, "document.activeElement.tagName"), json!("svg"), "the focus stays with the picture");
    p.key(b, "End");
    assert!(told(b).contains("(3 of 3)"), "{}", told(b));
    p.follow_key(b, "0");
    p.key(b, "End");
    assert!(told(b).contains("(12 of 12)"), "{}", told(b));
    // Drawn by hand, from the middle to the right.
    p.eval(b, "window.before = true");
    p.point(b, "figure .wide svg", Some(150.0));
    p.wait(b, "!window.before && document.readyState === 'complete'");
    let text = p.path(b);
    assert!(text.contains("from=20"), "{text}");
    // Each value under the picture opens its case.
    p.go(b, "/time?well=SL-2&analyte=Pb");
    p.follow(b, "#points ~ .frame tbody tr:first-child td a");
    assert!(p.path(b).starts_with("/case/"), "{}", p.path(b));
    quiet(b, &face);
}

#[test]
fn the_next_trip_is_planned_and_made_by_clicking() {
    let face = Face::demo(&[]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    p.size(b, 1280, 900);
    p.go(b, "/");
    p.follow(b, "Plan the next trip");
    p.fill(b, "[name='detect.level']", "a fifth");
    p.follow(b, "Rank the designs");
    assert!(p.text(b).contains("expected a number"), "{}", p.text(b));
    assert_eq!(p.eval(b, "document.getElementById('detect.level').value"), json!("a fifth"));
    p.picture(b, &pictures().join("plan-fault.png"));
    p.fill(b, "[name='detect.level']", "0,2");
    p.click(b, "[name='well.SL-2']");
    p.follow(b, "Rank the designs");
    let text = p.text(b);
    assert!(text.contains("Will Pb of 0.2 ng/L be detected?") && text.contains("field blanks of run"), "{text}");
    // Another design than the one proposed.
    p.follow(b, "table tbody tr:nth-child(2) a");
    assert!(p.text(b).contains("To pack, design 2"), "{}", p.text(b));
    p.fill(b, "#name", "SL-2027-07");
    p.fill(b, "#starts", "in July");
    p.follow(b, "Make this trip with its bottles");
    assert!(p.text(b).contains("cannot be taken as typed"), "{}", p.text(b));
    assert_eq!(p.eval(b, "document.querySelector('#name').value"), json!("SL-2027-07"), "nothing typed is lost");
    p.fill(b, "#starts", "2027-07-13");
    p.follow(b, "Make this trip with its bottles");
    assert_eq!(p.path(b), "/trips/SL-2027-07");
    assert!(p.text(b).contains("SL2-27-07-A"), "{}", p.text(b));
    // Back and sent again: the same trip, no second act.
    let acts = face.store().events().unwrap().len();
    p.eval(b, "history.go(-2)");
    p.wait(b, "location.pathname === '/plan'");
    p.eval(b, "history.go(2)");
    p.wait(b, "location.pathname === '/trips/SL-2027-07'");
    assert_eq!(face.store().events().unwrap().len(), acts);
    p.follow(b, "Lots");
    assert!(p.text(b).contains("Bottle"), "{}", p.text(b));
    quiet(b, &face);
}

#[test]
fn two_phones_come_home_one_with_a_wrong_clock_and_a_person_decides() {
    let face = Face::demo(&[]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    p.size(b, 1280, 900);
    let dir = tempfile::tempdir().unwrap();
    let phone = |name: &str, year: i32, openings: i64| {
        let path = dir.path().join(format!("{name}.json"));
        let sets = [json!({"openings": openings}), json!({"note": "<b>curtain</b> in the wind"})];
        std::fs::write(&path, field_sheet(&face.store(), name, year, &sets)).unwrap();
        path
    };
    let bring_in = |b: &mut Browser, file: PathBuf| {
        p.go(b, "/runs/bring-in");
        p.upload(b, "#files", &[file]);
        p.follow(b, "Look at them");
    };
    bring_in(b, phone("one", 2025, 7));
    // A year behind: named, with what would mend it; nothing is lost.
    assert!(p.text(b).contains("365 days before the start of the trip"), "{}", p.text(b));
    assert_eq!(p.eval(b, "document.querySelector('#clock0').value"), json!("365"));
    p.picture(b, &pictures().join("clock-wrong.png"));
    p.fill(b, "#clock0", "a year");
    p.follow(b, "Look again");
    assert!(p.text(b).contains("expected days from −40 000 to 40 000"), "{}", p.text(b));
    assert_eq!(p.eval(b, "document.querySelector('#clock0').value"), json!("a year"));
    p.fill(b, "#clock0", "365");
    p.follow(b, "Look again");
    assert!(p.text(b).contains("no faults"), "{}", p.text(b));
    p.follow(b, "Take all of it in");
    p.settle(b);
    let kept = face.store().field_entries(&record::store::Filter::all()).unwrap();
    assert!(kept.iter().all(|e| e.at.starts_with("2025-07-14")), "the phone's own times stay");
    let mappings = face.store().kept_texts("mapping").unwrap();
    assert!(mappings.iter().any(|k| k.toml.contains("add_days = 365")), "what was added is on record");
    // The next phone is right, and is not read by the first one's clock.
    bring_in(b, phone("two", 2026, 9));
    assert!(p.text(b).contains("no faults"), "{}", p.text(b));
    p.follow(b, "Take all of it in");
    p.settle(b);
    p.go(b, "/trips/SL-2026-07");
    assert!(p.text(b).contains("Field sheets that differ"), "{}", p.text(b));
    assert!(!p.text(b).contains("<b>bold") && p.eval(b, "document.querySelectorAll('main td b').length") == json!(0));
    p.picture(b, &pictures().join("phones-differ.png"));
    let form = "document.querySelector(\"form[action='/settle']:has([name=column][value=openings])\")";
    let field = |name: &str| format!("form[action='/settle']:has([name=column][value=openings]) [name={name}]");
    p.fill(b, &field("value"), "many");
    p.fill(b, &field("why"), "counted on the photograph");
    let decide = |b: &mut Browser| {
        p.eval(b, &format!("window.before = true, {form}.requestSubmit(), 0"));
        p.wait(b, "!window.before && document.readyState === 'complete'");
    };
    decide(b);
    assert!(p.text(b).contains("Found \"many\""), "{}", p.text(b));
    assert_eq!(p.eval(b, &format!("{form}.elements.why.value")), json!("counted on the photograph"));
    p.fill(b, &field("value"), "9");
    decide(b);
    p.settle(b);
    assert_eq!(p.path(b), "/trips/SL-2026-07");
    let bottles = face.store().bottles(&record::store::Filter::all().is("label", "SL2-26-07-A")).unwrap();
    assert_eq!(bottles[0].openings, Some(9));
    quiet(b, &face);
}
