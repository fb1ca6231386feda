//! What is heard of a page, and how it stands where a person sets colours or the size of letters: the accessibility tree of
//! the browser is read for landmarks, headings, heads of tables and names of controls; every page is looked over in forced
//! colours and with letters twice as large. Source of what is asked: WCAG 2.2 (W3C), success criteria 1.3.1, 1.4.4, 2.4.6,
//! 4.1.2; HTML-AAM 1.0 for the roles.

use crate::common;

use common::browser::{Browser, Heard, Page};
use common::{Face, PAGES};
use std::fmt::Write as _;

/// Pages that are heard from end to end.
const HEARD: [(&str, &str); 5] = [
    ("desk", "/"),
    ("case", "/case/SL2-26-07-A:Pb:206%2B207%2B208%40low:unfiltered"),
    ("leaflet", "/report?show=1&what=leaflet&contact=01234%20567"),
    ("results", "/results"),
    ("workshop", "/statements/new"),
];

/// Roles of what a person can do something with.
const CONTROLS: [&str; 12] = [
    "button",
    "link",
    "textbox",
    "searchbox",
    "combobox",
    "checkbox",
    "radio",
    "listbox",
    "slider",
    "spinbutton",
    "DisclosureTriangle",
    "MenuListPopup",
];

/// The nodes under one.
fn under<'h>(all: &'h [Heard], of: &Heard) -> Vec<&'h Heard> {
    let mut ids = vec![of.id.clone()];
    let mut out = vec![];
    // A node stands behind the one that it is of, or before it: until nothing is added.
    loop {
        let new: Vec<&Heard> = all.iter().filter(|n| ids.contains(&n.parent) && !ids.contains(&n.id)).collect();
        if new.is_empty() {
            return out;
        }
        ids.extend(new.iter().map(|n| n.id.clone()));
        out.extend(new);
    }
}

/// What a page lacks for who hears it.
fn lacks(all: &[Heard]) -> Vec<String> {
    let mut out = vec![];
    let told = || all.iter().filter(|n| !n.ignored);
    let of = |role: &str| told().filter(|n| n.role == role).collect::<Vec<_>>();
    for landmark in ["banner", "main", "contentinfo", "navigation", "search"] {
        let found = of(landmark).len();
        if found == 0 || (found > 1 && ["banner", "main", "contentinfo"].contains(&landmark)) {
            out.push(format!("{found} × {landmark}"));
        }
    }
    let navigations = of("navigation");
    out.extend(
        navigations
            .iter()
            .filter(|n| navigations.len() > 1 && n.name.is_empty())
            .map(|_| "a navigation without a name".to_string()),
    );
    let headings = of("heading");
    let first = headings.iter().filter(|h| h.level == Some(1)).count();
    if first != 1 {
        out.push(format!("{first} headings of the first level"));
    }
    let mut before = 0;
    for h in &headings {
        let level = h.level.unwrap_or(0);
        if level > before + 1 {
            out.push(format!("heading \"{}\" of level {level} under one of level {before}", h.name));
        }
        before = level;
    }
    for n in told() {
        let named = ["heading", "table", "image", "img", "figure", "dialog"].contains(&n.role.as_str())
            || CONTROLS.contains(&n.role.as_str());
        if named && n.name.trim().is_empty() && n.role != "MenuListPopup" && n.role != "figure" {
            out.push(format!("a {} without a name", n.role));
        }
    }
    for table in of("table") {
        let parts = under(all, table);
        let heads: Vec<&&Heard> = parts.iter().filter(|n| n.role == "columnheader").collect();
        if heads.is_empty() {
            out.push(format!("table \"{}\" without heads of columns", table.name));
        }
        if !parts.iter().any(|n| n.role == "rowheader") {
            out.push(format!("table \"{}\" without heads of rows", table.name));
        }
    }
    out
}

/// What is heard, a line each, for people to read: `target/pages/NAME.heard.txt`.
fn kept(name: &str, all: &[Heard]) {
    let mut out = String::new();
    for n in all
        .iter()
        .filter(|n| !n.ignored && !["InlineTextBox", "StaticText", "none", "generic"].contains(&n.role.as_str()))
    {
        let level = n.level.map_or_else(String::new, |l| format!(" {l}"));
        let _ = writeln!(out, "{}{level}: {}", n.role, n.name);
    }
    std::fs::write(crate::browser::pictures().join(format!("{name}.heard.txt")), out).unwrap();
}

#[test]
fn landmarks_headings_heads_of_tables_and_names_of_controls_are_heard() {
    let face = Face::demo(&[]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut faults = vec![];
    for width in [1280, 360] {
        p.size(b, width, 900);
        for (name, path) in HEARD {
            p.go(b, path);
            // On a telephone search and places stand behind a box that opens them.
            if width == 360 {
                let menu = p.heard(b).into_iter().find(|n| n.role == "checkbox" && !n.name.is_empty());
                assert!(menu.is_some(), "{name}: nothing opens the menu");
                p.eval(b, "document.querySelector('#menu').click()");
            }
            let all = p.heard(b);
            kept(&format!("{name}-{width}"), &all);
            assert!(all.iter().filter(|n| n.role == "link").count() > 5, "{name}: the tree is read");
            faults.extend(lacks(&all).into_iter().map(|l| format!("{name} at {width}: {l}")));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn what_is_lacking_is_seen() {
    let node = |id: &str, parent: &str, role: &str, name: &str, level| Heard {
        id: id.into(),
        parent: parent.into(),
        ignored: false,
        role: role.into(),
        name: name.into(),
        level,
    };
    let mut all = vec![
        node("1", "0", "banner", "", None),
        node("2", "0", "main", "", None),
        node("3", "0", "contentinfo", "", None),
        node("4", "1", "navigation", "Places", None),
        node("5", "1", "search", "", None),
        node("6", "2", "heading", "Desk", Some(1)),
        node("7", "2", "table", "Wells", None),
        node("8", "7", "columnheader", "Well", None),
        node("9", "7", "rowheader", "SL-1", None),
    ];
    assert_eq!(lacks(&all), Vec::<String>::new());
    all.push(node("10", "2", "heading", "Deep", Some(3)));
    all.push(node("11", "2", "button", " ", None));
    all.push(node("12", "2", "table", "Bare", None));
    all.push(node("13", "0", "main", "", None));
    assert_eq!(lacks(&all).len(), 5, "{:?}", lacks(&all));
}

/// Faults that axe-core calls serious or critical.
fn faults(b: &mut Browser, p: &Page) -> Vec<String> {
    p.eval(b, &format!("{}; 0", include_str!("fixtures/axe.min.js")));
    let found = p.eval(
        b,
        "axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.filter((v) => ['serious', 'critical'].includes(v.impact)).map((v) => v.id + ': ' + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160)).join(' | ')))",
    );
    found.as_array().unwrap().iter().map(ToString::to_string).collect()
}

/// Each mark of a verdict and of a check can be told from the ground where the system sets the colours: it is drawn with a
/// border or a filling of the colour of the text, which such a system sets.
const UNSEEN_MARKS: &str = "[...document.querySelectorAll('.mk,.oc')].filter((e) => e.checkVisibility()).filter((e) => { const s = getComputedStyle(e); return s.borderTopColor === getComputedStyle(document.body).backgroundColor && s.backgroundImage === 'none' }).length";

#[test]
fn every_page_stands_in_forced_colours() {
    let face = Face::demo(&[]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut all = vec![];
    p.media(b, "forced-colors", "active");
    for width in [1280, 360] {
        p.size(b, width, 800);
        for (name, path) in PAGES {
            p.go(b, path);
            assert_eq!(
                p.eval(b, "matchMedia('(forced-colors: active)').matches"),
                true,
                "the browser sets its colours"
            );
            let unseen = p.eval(b, UNSEEN_MARKS).as_u64().unwrap();
            if unseen > 0 {
                all.push(format!("{name} at {width}: {unseen} marks are not seen"));
            }
            all.extend(faults(b, &p).into_iter().map(|f| format!("{name} at {width}: {f}")));
        }
    }
    assert!(all.is_empty(), "{all:#?}");
}

/// Text that a box of its own cuts off: hidden overflow with more inside than is shown.
const CUT_OFF: &str = "[...document.querySelectorAll('main *')].filter((e) => e.checkVisibility() && !e.matches('.unseen,.unseen *,.hid,caption.hid,thead,thead *') && getComputedStyle(e).overflowX === 'hidden' && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 1).map((e) => e.outerHTML.slice(0, 120))";

/// WCAG 2.2, 1.4.4: letters twice as large, nothing lost.
#[test]
fn every_page_stands_with_letters_twice_as_large() {
    let face = Face::demo(&[]);
    let mut b = Browser::start();
    let p = b.page(&face.base());
    let b = &mut b;
    let mut all = vec![];
    p.letters(b, 32);
    for width in [1280, 360] {
        p.size(b, width, 800);
        for (name, path) in PAGES {
            p.go(b, path);
            assert_eq!(p.eval(b, "getComputedStyle(document.documentElement).fontSize"), "32px");
            let over = p.eval(b, "document.documentElement.scrollWidth - document.documentElement.clientWidth");
            if over.as_i64().unwrap() > 0 {
                all.push(format!("{name} at {width}: {over} px to the side"));
            }
            let cut = p.eval(b, CUT_OFF);
            all.extend(cut.as_array().unwrap().iter().map(|e| format!("{name} at {width}: cut off: {e}")));
            all.extend(faults(b, &p).into_iter().map(|f| format!("{name} at {width}: {f}")));
            if ["home", "case", "results"].contains(name) {
                p.picture(b, &crate::browser::pictures().join(format!("{name}-{width}-large.png")));
            }
        }
    }
    assert!(all.is_empty(), "{all:#?}");
}
