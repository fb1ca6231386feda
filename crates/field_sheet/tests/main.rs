//! The field sheet as a person meets it: opened as a file in a browser without network, filled by
//! taps, reloaded, saved, taken in; the same fields on paper; labels read back by a code reader.
//! Pictures of every place are left in the target folder for a look.

mod asked;
mod phone;
mod thumb;
mod views;
mod words;

use aquifer::purge::{self, Readings};
use aquifer::well::{self, Fill, Fills};
use assessment::field_checks::{WATCHED, rule_of};
use cleanliness::air::{self, AirSample, Count};
use field_sheet::{LabelGrid, code, fields, gather, html, labels, paper};
use intake::entry::enter;
use intake::import::{Input, find_mapping, import};
use message::{Lang, Spoken as _};
use phone::{Phone, programme, row, sheet};
use quantity::Amount;
use rand::{RngExt as _, SeedableRng as _, rngs::ChaCha8Rng};
use record::by::By;
use record::store::Filter;
use serde_json::{Value, json};
use std::process::Command;

const BOTTLE_TAPS: [&str; 10] = [
    "#step-code-read",
    "#sampler-marit-osk",
    "#step-bags-open",
    "#step-opened-in-the-cabinet",
    "#step-rinsed",
    "#step-filled",
    "#step-closed",
    "#step-bags-closed",
    "#filter-unfiltered",
    "#acid-take",
];

#[test]
fn a_bottle_filled_by_taps_survives_a_reload_and_comes_home() {
    let mut p = programme();
    let phone = Phone::open(&sheet(&p), "day");
    assert_eq!(phone.count("#no-storage, #clock-off"), 0, "storage is lasting and the clock is right");
    phone.tap("#who-tobin-rell");
    phone.tap("#c-weather-drizzle");
    phone.shoot("trip");

    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.tap("#opened-now");
    for seconds in ["25.1", "24.9", "25.0"] {
        phone.open_details("Seconds by hand");
        phone.write("#fill-seconds", seconds);
        phone.tap("#fill-take");
    }
    for (minute, value) in [(0, "9.4"), (3, "9.5"), (6, "9.4"), (9, "9.4"), (12, "9.4")] {
        phone.ahead(minute);
        phone.write("#r-sl-2-temperature", value);
        phone.tap("#r-sl-2-temperature-take");
    }
    // Wrong at first, taken back, right.
    phone.write("#r-sl-2-ph", "7.17");
    phone.tap("#r-sl-2-ph-take");
    phone.tap("#take-back");
    phone.write("#r-sl-2-ph", "7.71");
    phone.tap("#r-sl-2-ph-take");
    phone.tap("#zero-0-5");
    phone.tap("#zero-5");
    phone.tap("#air-take");
    assert!(phone.text("main").contains("steady since"), "{}", phone.text("main"));
    // 60·10/t: 23.904, 24.096, 24.000; their mean, and u = √(0.0964²/3 + (24·0.05/10)²) = 0.132. Its degrees of freedom
    // are (0.132/0.0557)⁴·2 = 64; U = t(0.975, 64)·u = 1.998·0.132 (scipy.stats.t.ppf).
    assert_eq!(phone.text("#flow"), "24.00 ± 0.26 L/min");
    phone.shoot("well");

    phone.tap("#nav-bottles");
    phone.shoot("bottles");
    phone.tap("#bottle-a-1");
    phone.tap("#acid-take");
    assert!(phone.text("#status").contains("Not entered: mL of acid"), "nobody takes a number that nobody gave");
    phone.tap("#acid-mL-more");
    let before = phone.entries();
    for tap in BOTTLE_TAPS {
        if tap == "#step-closed" {
            phone.ahead(14);
            phone.shoot("open");
        }
        phone.tap(tap);
    }
    let taps = phone.entries() - before;
    assert!(taps <= 12, "{taps} entries for a bottle");
    phone.shoot("bottle");
    phone.tap("#nav-bottles");
    phone.tap("#bottle-add");
    phone.write("#new-label", "X <b>9</b>");
    phone.tap("#new-kind-field-blank");
    phone.tap("#new-take");
    assert_eq!(phone.text("h2"), "X <b>9</b>", "markup in a name is text");
    phone.tap("#nav-box");
    phone.write("#box-temperature", "5.1");
    phone.tap("#box-take");
    phone.shoot("box");

    let all = phone.entries();
    phone.reload();
    assert_eq!(phone.entries(), all, "nothing is lost on a reload");
    phone.tap("#nav-save");
    phone.shoot("save");
    let saved = phone.save("#save-file");
    assert_eq!(phone.requests(), Vec::<String>::new(), "nothing is asked of a network");

    let mapping = find_mapping(&p.store, "field-sheet").unwrap();
    let input = Input { path: saved, mapping };
    let taken = import(&mut p.store, std::slice::from_ref(&input), "Marit Osk", &p.tomorrow).unwrap();
    assert_eq!(taken.notes, [], "no doubt about this sheet");
    let b = p.store.bottles(&Filter::all().is("label", "A-1")).unwrap().pop().unwrap();
    assert_eq!((b.sampler.as_deref(), b.acid.as_deref(), b.acid_mL), (Some("Marit Osk"), Some("HN-88"), Some(0.5)));
    assert_eq!((b.openings, b.cabinet_min.map(f64::round), b.open_air_min), (Some(1), Some(2.0), Some(0.0)));
    assert!(b.filled_at.is_some() && b.acidified_at.is_some());
    let added = p.store.bottles(&Filter::all().is("label", "X <b>9</b>")).unwrap();
    assert_eq!(added[0].kind.word(), "field-blank");
    let readings = p.store.field_readings(&Filter::all()).unwrap();
    assert_eq!(readings.iter().filter(|r| r.quantity == "pH").map(|r| r.value).collect::<Vec<_>>(), [7.71]);
    assert_eq!(p.store.fills(&Filter::all()).unwrap().len(), 3);
    assert_eq!(p.store.custody(&Filter::all()).unwrap()[0].person.as_deref(), Some("Tobin Rell"));
    assert_eq!(p.store.trips().unwrap()[0].weather.as_deref(), Some("drizzle"));
    assert!(import(&mut p.store, &[input], "Marit Osk", &p.tomorrow).unwrap().head.is_none());
}

#[test]
fn what_physics_forbids_was_taken_by_the_sheet() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "bounds");
    let refused = |says: &str| {
        let told = phone.text("#status");
        assert!(told.contains("Not entered") && told.contains(says), "{told}");
        assert_eq!(phone.entries(), 0);
    };
    let range = |quantity: &str| {
        let b = record::bounds::of(quantity).unwrap();
        format!("a {quantity} from {} to {}", b.lower, b.upper)
    };
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    for (field, value, quantity) in
        [("#r-sl-2-ph", "78", "pH"), ("#r-sl-2-ph", "-7.8", "pH"), ("#r-sl-2-temperature", "412", "temperature")]
    {
        phone.write(field, value);
        phone.tap(&format!("{field}-take"));
        refused(&range(quantity));
    }
    for seconds in ["0", "0.04", "-3", "1e9"] {
        // What is folded up closes when the page tells what it refused.
        phone.open_details("Seconds by hand");
        phone.write("#fill-seconds", seconds);
        phone.tap("#fill-take");
        refused(&range("fill time"));
    }
    phone.open_details("Opened earlier");
    phone.write("#opened-ago", "-500");
    phone.tap("#opened-ago-take");
    refused("minutes that have been");
    phone.tap("#nav-bottles");
    phone.tap("#bottle-a-1");
    for volume in ["0", "1e-310", "1e300"] {
        phone.write("#volume", volume);
        phone.tap("#volume-take");
        refused(&range("bottle volume"));
    }
    phone.tap("#nav-box");
    phone.write("#box-temperature", "412");
    phone.tap("#box-person-marit-osk");
    phone.tap("#box-take");
    refused(&range("box temperature"));
    // The page's own words for every row of the table, inside and outside.
    for b in record::bounds::table() {
        for (x, within) in [(b.lower, true), (b.upper, true), (b.lower - 1.0, false), (2.0 * b.upper, false)] {
            let told = phone.json(&format!("compute.beyond(S.bounds, {}, {x:e})", json!(b.quantity)));
            assert_eq!((told.is_null(), b.check(x).is_ok()), (within, within), "{} {x}: {told}", b.quantity);
            for language in Lang::ALL {
                let expected = b.check(x).err().map(|m| m.in_language(language));
                assert_eq!(told[language.code()].as_str(), expected.as_deref(), "{} {x}", b.quantity);
            }
        }
    }
}

#[test]
fn a_count_at_other_sizes_than_the_one_before_it_is_not_taken() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "sizes");
    phone.tap("#nav-wells");
    phone.tap("#well-sl-2");
    phone.tap("#zero-0-5");
    phone.tap("#air-take");
    phone.tap("#zero-5");
    phone.tap("#air-take");
    assert!(phone.text("#status").contains("counts at 0.5 µm"), "{}", phone.text("#status"));
    // In the open another counter may see other sizes.
    phone.tap("#air-place-open-air");
    phone.tap("#air-take");
    assert_eq!(phone.entries(), 2);
}

/// Largest relative difference between the page's sums and the programme's: both are double
/// precision; the bound of a count is found by bisection here and by another way there.
const AGREE: f64 = 1e-9;

#[track_caller]
fn agree(what: &str, page: &Value, ours: f64) {
    let there = page.as_f64().unwrap_or_else(|| panic!("{what}: the page says {page}, we say {ours}"));
    assert!((there - ours).abs() <= AGREE * ours.abs().max(1e-12), "{what}: the page says {there}, we say {ours}");
}

#[test]
fn the_sums_on_the_phone_are_the_programmes_own() {
    let p = programme();
    let phone = Phone::open(&sheet(&p), "sums");
    let mut random = ChaCha8Rng::seed_from_u64(9);
    for k in 0..40 {
        let fills: Vec<Fill> = (0..=(k % 6))
            .map(|_| Fill {
                volume_l: [0.5, 2.0, 10.0][random.random_range(0..3)],
                seconds: f64::from(random.random_range(30..900)) / 10.0,
            })
            .collect();
        let u_mark = [None, Some(0.01), Some(0.05)][k % 3];
        let ours = well::flow(&Fills { fills: fills.clone(), u_mark_l: u_mark, u_seconds: None }).unwrap();
        let listed: Vec<Value> = fills.iter().map(|f| json!({"volume_L": f.volume_l, "seconds": f.seconds})).collect();
        let there = phone.json(&format!("compute.flow({}, {})", json!(listed), json!(u_mark)));
        agree("flow", &there["value"], ours.amount.value().unwrap());
        match ours.amount.u() {
            Some(u) => {
                agree("u of the flow", &there["u"], u);
                let Amount::Measured(m) = &ours.amount else { panic!("a u is of a measured flow") };
                let there =
                    phone.json(&format!("compute.expanded(compute.flow({}, {}))", json!(listed), json!(u_mark)));
                agree("U of the flow", &there, statistics::t::upper_quantile(0.025, m.dof) * u);
            }
            None => assert!(there["u"].is_null(), "one fill has no u: {there}"),
        }
        let sections = phone.json("S.wells[0].sections");
        let construction =
            well::Construction { sections: serde_json::from_value(sections).unwrap(), ..well::Construction::default() };
        let contact = well::contact(&construction, &ours.amount).unwrap();
        let there = phone.json(&format!(
            "compute.contact(S.wells[0].sections, compute.flow({}, {}))",
            json!(listed),
            json!(u_mark)
        ));
        agree("contact", &there["total"]["value"], contact.total.value().unwrap());
        agree("volume", &there["litres"], 1000.0 * contact.volume_m3);
        assert_eq!(there["by"].as_array().unwrap().len(), contact.by_material.len());
    }
    for _ in 0..20 {
        let (v, q, t) =
            (random.random_range(10.0..900.0), random.random_range(0.1..60.0), random.random_range(0.0..300.0));
        let (n, left) = purge::renewed(v, q, t).unwrap();
        let there = phone.json(&format!("compute.renewed({v}, {q}, {t})"));
        agree("volumes", &there["volumes"], n);
        agree("left", &there["left"], left);
    }
    // scipy.stats.t.ppf(0.975, dof), scipy 1.x.
    for (dof, k) in
        [(1.0, 12.706204736174694), (2.5, 3.5746548420036817), (10.0, 2.2281388519862742), (1000.0, 1.9623390808264083)]
    {
        agree("k", &phone.json(&format!("compute.coverage({dof})")), k);
    }
    // What a manual's 0.1 is: U with k = 2, U with k = 3, u itself, limits (0.1/√3: JCGM 100:2008, 4.3.7).
    for (kind, k, u) in [
        ("expanded", 2.0, 0.05),
        ("expanded", 3.0, 0.1 / 3.0),
        ("standard", 1.0, 0.1),
        ("limits", 1.0, 0.057735026918962574),
    ] {
        agree(kind, &phone.json(&format!("compute.standardU({}, 0.1, {k})", json!(kind))), u);
    }
    stability(&phone, &mut random);
    classes(&phone, &mut random);
}

fn stability(phone: &Phone, random: &mut ChaCha8Rng) {
    let mut words = [0; 3];
    for k in 0..120 {
        let (_, parameter, _) = WATCHED[k % WATCHED.len()];
        let rule = rule_of(parameter).unwrap();
        let (start, size) = [(9.0, 0.4), (60.0, 9.0), (400.0, 20.0), (7.7, 0.3), (-160.0, 30.0), (0.5, 0.2)][k / 20];
        let mut t = 0.0;
        let points: Vec<(f64, f64)> = (0..2 + k % 9)
            .map(|i| {
                t += random.random_range(1.0..5.0);
                (t, start + size * random.random_range(-1.0..1.0) / (1.0 + i as f64))
            })
            .collect();
        let there = phone.json(&format!(
            "compute.steady({}, {}, {}, S.criteria)",
            json!(points),
            json!(parameter),
            json!(rule)
        ));
        if let Ok(s) = purge::steady(&Readings { parameter: parameter.into(), points }, rule) {
            assert_eq!(there["since"].as_f64(), s.since_min, "{parameter}: {there}");
            agree("spread", &there["spread"], s.last_spread);
            words[usize::from(s.since_min.is_some())] += 1;
        } else {
            assert_eq!(there["state"], "few", "{parameter}");
            words[2] += 1;
        }
    }
    assert!(words.iter().all(|w| *w > 5), "all three answers occur: {words:?}");
}

fn classes(phone: &Phone, random: &mut ChaCha8Rng) {
    let counts = [0_u64, 1, 2, 3, 5, 10, 30, 100, 999, 61_420, 2_000_000];
    for (k, large) in counts.iter().enumerate() {
        for volume_l in [0.5, 2.83, 28.3, 100.0, 1000.0] {
            let small = random.random_range(0..=*large);
            let sizes = [(0.5, 5.0), (0.3, 1.0), (0.25, 0.7)][k % 3];
            let sample = AirSample {
                counts: vec![Count { size_um: sizes.0, count: *large }, Count { size_um: sizes.1, count: small }],
                volume_l,
                minutes: None,
            };
            let ours = air::read(&sample).unwrap();
            let there = phone.json(&format!(
                "(() => {{ const a = compute.air({}, {volume_l}, S.classes); return {{...a, need: a.toShow(5)}}; }})()",
                serde_json::to_string(&sample.counts).unwrap()
            ));
            let word = |v: &Value| v.as_u64().map(|k| u8::try_from(k).unwrap());
            assert_eq!(word(&there["under"]), ours.under_limit_of_class, "{sample:?}");
            assert_eq!(word(&there["shown"]), ours.shown_class, "{sample:?}");
            assert_eq!(word(&there["bounded"]), ours.bounded_class, "{sample:?}");
            assert_eq!(there["need"].as_f64().is_some(), ours.volume_to_show_l(5).is_some());
            if let Some((need, _)) = ours.volume_to_show_l(5) {
                agree("volume to show class 5", &there["need"], need);
            }
            for (r, t) in ours.readings.iter().zip(there["readings"].as_array().unwrap()) {
                agree("per m³", &t["per_m3"], r.per_m3);
                agree("upper bound", &t["upper_95_per_m3"], r.upper_95_per_m3);
            }
        }
    }
}

#[test]
fn every_place_fits_a_phone_of_360_and_every_target_a_glove() {
    let mut p = programme();
    let long = "Q".repeat(60);
    let rows = [
        row("bottle", &[("label", &long), ("kind", "equipment-blank"), ("trip", &p.trip)]),
        row("person", &[("name", "Wilhelmina Featherstonehaugh-Cholmondeley")]),
    ];
    enter(&mut p.store, By { person: "Marit Osk", at: "2026-01-01T00:00:00Z" }, "", &rows).unwrap();
    let data = gather(&p.store, &p.trip, "levels").unwrap();
    let phone = Phone::open(&html(&data), "narrow");
    phone.width(360);
    let places = [
        ("trip", "trip"),
        ("wells", ""),
        ("well/SL-2", "well"),
        ("bottles", ""),
        ("bottle/A-1", "bottle"),
        ("bottle-new", ""),
        ("box", "box"),
        ("save", ""),
    ];
    for (hash, fields) in places {
        phone.place(hash);
        let wide = phone.json("document.documentElement.scrollWidth");
        assert!(wide.as_u64().unwrap() <= 360, "{hash} is {wide} px wide");
        let small = phone.json(
            "[...document.querySelectorAll('button, a, summary, input:not([type=file]), textarea')].filter((e) => e.offsetParent !== null || e.closest('nav'))
             .map((e) => [e.id || e.textContent, e.getBoundingClientRect().width, e.getBoundingClientRect().height]).filter(([, w, h]) => w < 48 || h < 48)",
        );
        assert_eq!(small, json!([]), "{hash}: targets under 48 px");
        if !fields.is_empty() {
            let order = phone.json("[...document.querySelectorAll('[data-field]')].map((e) => e.dataset.field)");
            assert_eq!(order, json!(data.fields[fields]), "{hash}: the fields in their order");
        }
        phone.shoot(&format!("{}-360", hash.replace('/', "-")));
    }
    assert!(data.fields["bottle"].len() <= 12);
    phone.json(&format!("(location.hash = {}, true)", json!(format!("bottle/{long}"))));
    phone.settle();
    assert!(phone.json("document.documentElement.scrollWidth").as_u64().unwrap() <= 360);
}

#[test]
fn without_lasting_storage_it_says_so_at_once_and_offers_to_save_after_each_entry() {
    let p = programme();
    let page = sheet(&p);
    let refusing = "Storage.prototype.setItem = () => { throw new DOMException('no', 'SecurityError'); };";
    let phone = Phone::open_with(&page, "no-storage", Some(refusing));
    assert!(phone.text("#no-storage").contains("does not keep entries"));
    phone.tap("#who-marit-osk");
    phone.tap("#c-dust-some");
    phone.shoot("alarm");
    let first = phone.save("#save-now");
    assert_eq!(phone.count("#save-now"), 0, "everything is in a file");
    phone.tap("#c-dust-much");
    assert_eq!((phone.count("#save-now"), phone.json("unsaved()")), (1, json!(1)), "one entry is in no file");
    // The page goes and with it what it held; the file brings it back.
    phone.reload();
    assert_eq!(phone.entries(), 0);
    phone.tap("#nav-save");
    phone.open_details("Go on from a file");
    phone.choose("#resume", &first);
    phone.settle();
    assert_eq!(phone.entries(), 1);
    // A phone whose clock is a year off hears of it before anything is entered.
    let phone = Phone::open_with(&page, "clock", Some(&phone::clock_of(-365)));
    assert!(phone.text("#clock-off").contains("Set it before you enter anything"));
    phone.shoot("clock");
}

#[test]
fn paper_has_the_same_fields_in_the_same_order() {
    let p = programme();
    let data = gather(&p.store, &p.trip, "levels").unwrap();
    let paper = paper(&data);
    let mut from = 0;
    for list in [fields::TRIP, fields::WELL, fields::BOTTLE, fields::BOX] {
        for id in list {
            let quoted = format!("\"{}\"", fields::label(id));
            let at = paper.main[from..]
                .find(&quoted)
                .unwrap_or_else(|| panic!("{quoted} is not on paper after the field before it"));
            from += at;
        }
    }
    let (folder, pages) = phone::print(paper, "paper", 70);
    assert!(pages >= 4, "{pages} pages");
    drop(folder);
}

#[test]
fn labels_are_read_back_by_a_general_reader() {
    let p = programme();
    let data = gather(&p.store, &p.trip, "levels").unwrap();
    let small =
        LabelGrid { columns: 4, rows: 16, width_mm: 45.0, height_mm: 16.0, gap_y_mm: 0.5, ..LabelGrid::default() };
    for (name, grid) in [("labels", LabelGrid::default()), ("labels-small", small)] {
        let (folder, pages) = phone::print(labels(&data, &grid).unwrap(), name, 300);
        assert_eq!(pages, 1);
        let read = Command::new("dmtxread")
            .args(["--newline", "--milliseconds=60000", &format!("--stop-after={}", data.bottles.len())])
            .arg(folder.path().join("page-1.png"))
            .output()
            .unwrap();
        let mut found: Vec<String> = String::from_utf8(read.stdout).unwrap().lines().map(str::to_string).collect();
        let mut wanted: Vec<String> = data.bottles.iter().map(|b| b.label.clone()).collect();
        found.sort();
        wanted.sort();
        assert_eq!(found, wanted, "{name}");
    }
    // ISO/IEC 16022: 16 × 16 modules hold 12 code words; these 7 letters and digits need 7 or fewer.
    let (svg, side) = code("SL-2-A7").unwrap();
    assert!(side <= 16 + 4 && svg.contains("<path"), "{side}");
}

#[test]
fn a_grid_that_does_not_fit_is_refused_by_name() {
    let p = programme();
    let mut data = gather(&p.store, &p.trip, "levels").unwrap();
    let check = |grid: LabelGrid, words: &str| {
        let said = labels(&data, &grid).unwrap_err().to_string();
        assert!(said.contains(words), "{said}");
    };
    check(
        LabelGrid { columns: 4, ..LabelGrid::default() },
        "right edge of the labels: found 266.5 mm, expected at most the page's 210 mm",
    );
    check(LabelGrid { rows: 9, ..LabelGrid::default() }, "lower edge");
    check(LabelGrid { rows: 0, ..LabelGrid::default() }, "labels on a page");
    check(LabelGrid { height_mm: 5.0, ..LabelGrid::default() }, "height of a label");
    check(LabelGrid { left_mm: f64::NAN, ..LabelGrid::default() }, "a dimension");
    data.bottles[0].label = "L".repeat(3000);
    assert!(labels(&data, &LabelGrid::default()).is_err());
    assert!(gather(&p.store, "nowhere", "levels").unwrap_err().to_string().contains("there is no trip \"nowhere\""));
}
