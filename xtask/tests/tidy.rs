//! The rules hold for this tree, and each rule finds what it is for.

use std::path::Path;
use xtask::tidy;

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
        ("series", "distribution", true),
        ("programme", "distribution", true),
        ("distribution", "quantity", false),
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
    assert!(tidy::source_faults("crates/programme/src/store/a.rs", "//! x\n\"SELECT 1\"").is_empty());
}
