//! The rules hold for this tree, and each rule finds what it is for.

use std::path::Path;
use xtask::{numbers, tidy};

#[test]
fn arrows_point_down() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    assert_eq!(tidy::arrows(root).unwrap(), Vec::<String>::new());
}

#[test]
fn an_arrow_up_or_sideways_is_found() {
    for (from, to, ok) in [
        ("measurement", "quantity", true),
        ("measurement", "series", false),
        ("quantity", "measurement", false),
        ("series", "statistics", true),
        ("programme", "statistics", true),
        ("statistics", "quantity", false),
        ("programme", "aqueous", true),
        ("aqueous", "programme", false),
        ("limpid", "typeset", true),
        ("programme", "typeset", false),
        ("measurement", "serde", true),
        ("simulator", "programme", false),
        ("programme", "fixtures", false),
    ] {
        assert_eq!(tidy::may_use(from, to), ok, "{from} → {to}");
    }
}

#[test]
fn each_source_rule_finds_its_fault() {
    for (name, text, word) in [
        ("crates/report/src/a.rs", "//! x\nlet q = \"SELECT * FROM result\";", "SQL"),
        ("crates/series/src/a.rs", "//! x\nuse std::fs;", "neither files"),
        ("crates/series/src/a.rs", "fn f() {}", "says nothing"),
        ("crates/cli/src/a.rs", concat!("//! x\ntodo", "!()"), "left open"),
        ("crates/cli/src/a.rs", concat!("//! x\nlet p = \"/ro", "ot/x\";"), "machine"),
    ] {
        let faults = tidy::source_faults(name, text);
        assert!(faults.iter().any(|f| f.contains(word)), "{name}: {faults:?}");
    }
    assert!(tidy::source_faults("crates/record/src/store/a.rs", "//! x\n\"SELECT 1\"").is_empty());
}

#[test]
fn a_number_of_a_science_is_found_where_things_are_shown() {
    for (line, what) in [
        ("let most = value + 1.645 * u;", "1.645 is a quantile"),
        ("    k: 1.96,", "1.96 is a quantile"),
        ("let w = 1.959_964 * u;", "1.959964 is a quantile"),
        ("let (a, b) = (v - 2.576f64 * u, v);", "2.576 is a quantile"),
        ("const Z: f64 = 1.2816;", "1.2816 is a quantile"),
        ("let ft3 = m3 * 35.3147;", "35.3147 is a factor"),
        ("let litres = 3.785_411_784 * gallons;", "3.785411784 is a factor"),
        ("let day = 86_400.0;", "86400.0 is a factor"),
        ("observed: 60_000.0 * p.observed,", "60000.0 is a factor"),
        ("Amount::stated(1000.0 * held.volume_m3, Unit::known(\"L\"))", "1000.0 is a factor"),
        ("minutes: p.t_s / 60.0,", "60.0 is a factor"),
        ("(v.minutes * 60.0, rate(r))", "60.0 is a factor"),
        ("digits(m.h2s_ng_l / 1e3, 2)", "1e3 is a factor"),
        ("n(2000.0 * p.radius_m(), 3)", "2000.0 is a factor"),
    ] {
        let faults = numbers::line_faults(line);
        assert!(faults.len() == 1 && faults[0].starts_with(what), "{line}: {faults:?}");
        for (name, found) in [
            ("crates/report/src/a.rs", true),
            ("crates/web/src/a.rs", true),
            ("crates/cli/src/a.rs", true),
            ("crates/aquifer/src/a.rs", false),
            ("crates/report/tests/a.rs", false),
        ] {
            assert_eq!(!tidy::source_faults(name, &format!("//! x\n{line}")).is_empty(), found, "{name}: {line}");
        }
    }
}

#[test]
fn a_picture_may_be_full_of_round_numbers() {
    for line in [
        "let height = if narrow { 160.0 } else { 200.0 };",
        "c.line((60.0, y + 24.0), (1000.0, y), ink::HAIR, \"stroke-width=\\\"1.96\\\"\");",
        "let x = end * f64::from(i) / 24.0;",
        "let share = 100.0 * below as f64 / n as f64;",
        "out.columns = x.clamp(0.0, 1000.0) as _,",
        "bytes as f64 / 1e6,",
        "if (l.from_m - to_m).abs() < 1e-9 { return; }",
        "self.hi * (1.0 + 1e-9)",
        "const PT_PER_MM: f64 = 72.0 / 25.4;",
        "Duration::from_secs(3600)",
        "let age = \"max-age=31536000\"; // 1.96 in a remark",
        "stroke: 1.64e2, width: 19.6, big: 1.961,",
        "let end = width.min(60.0) * 2.0;",
        "let middle = 0.5 * (a + b) * 1.28;",
    ] {
        assert_eq!(numbers::line_faults(line), Vec::<String>::new(), "{line}");
    }
}

#[test]
fn files_that_lean_on_each_other_across_folders_are_found() {
    let crate_of = |files: &[(&str, &str)]| {
        let sources = files.iter().map(|(p, t)| ((*p).to_string(), (*t).to_string())).collect();
        xtask::circles::circles(&sources)
    };
    let pair = |a: &str, b: &str| vec![(a.to_string(), b.to_string())];
    // Directly, in braces, over several lines.
    let files = [("a.rs", "use crate::{\n    deep::b::{X, Y},\n};"), ("deep/b.rs", "fn f() { crate::a::g() }")];
    assert_eq!(crate_of(&files), pair("a.rs", "deep/b.rs"));
    // Over a third file, by `super`.
    let files =
        [("a.rs", "use crate::deep::b;"), ("deep/b.rs", "use super::c;"), ("deep/c.rs", "use super::super::a;")];
    assert_eq!(crate_of(&files).len(), 2);
    // Within one folder, one way alone, in a test, in a comment: none.
    for files in [
        [("deep/a.rs", "use super::b;"), ("deep/b.rs", "use super::a;")],
        [("a.rs", "use crate::deep::b;"), ("deep/b.rs", "use std::fmt;")],
        [("a.rs", "use crate::deep::b;"), ("deep/b.rs", "#[cfg(test)]\nmod tests { use crate::a; }")],
        [("a.rs", "use crate::deep::b;"), ("deep/b.rs", "// see crate::a")],
    ] {
        assert_eq!(crate_of(&files), [], "{files:?}");
    }
}

#[test]
fn a_room_with_too_many_lines_is_named() {
    let lines = [("a", 20), ("b", 40), ("c", 40)];
    assert_eq!(tidy::too_large(&lines.into()).len(), 3);
    let even: std::collections::BTreeMap<&str, usize> = ["a", "b", "c", "d", "e", "f", "g"].map(|r| (r, 10)).into();
    assert_eq!(tidy::too_large(&even), Vec::<String>::new());
    assert!(tidy::too_large(&[("a", 16), ("b", 84)].into())[0].contains("16 of 100"));
}

#[test]
fn pages_name_paths_that_are_there_and_names_say_no_former_word() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    assert_eq!(
        tidy::missing_paths(root, "x.md", "see `crates/quantity/src/unit.rs` and `cargo xtask tidy`"),
        Vec::<String>::new()
    );
    assert_eq!(tidy::missing_paths(root, "x.md", "see `crates/quantity/src/nowhere.rs`").len(), 1);
    let former =
        tidy::former_words("| Term | Meaning | Not |\n|---|---|---|\n| odour | x | smell, reek |\n| run | y | |");
    assert_eq!(former, [("smell".into(), "odour".into()), ("reek".to_string(), "odour".to_string())]);
    let faults = |path: &str, text: &str| tidy::former_names(&former, path, text).len();
    assert_eq!(faults("crates/a/src/smell.rs", ""), 1);
    assert_eq!(faults("crates/a/src/b.rs", "pub fn smell_of(x: f64) {}\nstruct Reek;\n// fn smell()"), 2);
    assert_eq!(faults("crates/a/src/b.rs", "let smell = 1; // a word of prose may smell"), 0);
}
