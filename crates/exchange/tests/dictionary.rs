//! The data dictionary in the guide is what the declarations say.

use exchange::tables::BOTTLES;
use record::schema::{TABLES, UnitOf, table};
use std::fs;
use std::path::Path;

/// Below this line the guide is made by `exchange::dictionary`.
const MARK: &str = "<!-- dictionary -->\n";

#[test]
fn the_guide_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/data-package.md");
    let guide = fs::read_to_string(&path).unwrap();
    let (text, made) = guide.split_once(MARK).expect("the guide has the mark under which the dictionary stands");
    let now = exchange::dictionary::markdown();
    if std::env::var_os("WRITE_DICTIONARY").is_some() {
        fs::write(&path, format!("{text}{MARK}{now}")).unwrap();
        return;
    }
    assert!(
        made == now,
        "docs/guide/data-package.md is not what the schema declares; run\n  WRITE_DICTIONARY=1 cargo test --release -p exchange --test all dictionary"
    );
}

#[test]
fn the_bottles_for_people_are_in_the_units_of_the_record() {
    let bottle = table("bottle").unwrap();
    let mut seen = 0;
    for f in BOTTLES.fields {
        let Some(column) = bottle.column(f.name) else { continue };
        let declared = if let UnitOf::Fixed(u) = column.unit { u.ucum } else { "" };
        assert_eq!(f.unit, declared, "{}", f.name);
        seen += usize::from(!declared.is_empty());
    }
    assert!(seen >= 5, "volume, its u, acid, two times: {seen}");
}

#[test]
fn the_dictionary_says_the_unit_that_the_schema_declares() {
    let made = exchange::dictionary::markdown();
    for t in TABLES {
        let head = format!("### `record/{}.csv`", t.name);
        let part = made.split_once(&head).unwrap_or_else(|| panic!("{head}")).1.split("\n### ").next().unwrap();
        for c in t.columns {
            let unit = match c.unit {
                UnitOf::Fixed(u) => u.ucum.to_owned(),
                UnitOf::Column(name) => format!("({name})"),
                UnitOf::None => continue,
            };
            let line = part
                .lines()
                .find(|l| l.starts_with(&format!("| {} |", c.name)) || l.starts_with(&format!("| **{}** |", c.name)));
            let line = line.unwrap_or_else(|| panic!("{}.{}", t.name, c.name));
            assert_eq!(line.split(" | ").nth(2), Some(unit.as_str()), "{line}");
        }
    }
    // The figures of the three columns where names were misread: a flow is no time, a share has no unit, a limit has its own.
    for (path, line) in [
        ("bottle", "| flow_L_min | number | L/min |"),
        ("attributed", "| share | number |  |"),
        ("local_limit", "| **limit_high** | number | (unit) |"),
    ] {
        let part = made.split_once(&format!("### `record/{path}.csv`")).unwrap().1;
        assert!(part.split("\n### ").next().unwrap().contains(line), "{path}: {line}");
    }
}
