//! What the quick loop takes for changed, and what leans on it.

use std::collections::BTreeSet;
use std::path::Path;
use xtask::change::{Member, members, touched, with_dependants};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap()
}

fn set(names: &[&str]) -> BTreeSet<String> {
    names.iter().map(|n| (*n).to_string()).collect()
}

fn member(name: &str, uses: &[&str]) -> Member {
    Member { name: name.into(), dir: format!("crates/{name}"), uses: set(uses) }
}

#[test]
fn what_leans_on_a_change_is_found_however_far() {
    let members = [member("a", &[]), member("b", &["a"]), member("c", &["b"]), member("d", &["outside"])];
    assert_eq!(with_dependants(&members, &set(&["a"])), set(&["a", "b", "c"]));
    assert_eq!(with_dependants(&members, &set(&["d"])), set(&["d"]));
}

#[test]
fn a_file_belongs_to_its_crate_and_a_table_to_the_crates_that_name_it() {
    let members = members(root()).unwrap();
    let of = |path: &str| touched(root(), &members, &[path.to_string()]).unwrap();
    assert_eq!(of("crates/cli/src/main.rs"), set(&["limpid"]));
    assert!(of("reference/water_properties.csv").contains("aqueous"));
    assert!(!of("reference/water_properties.csv").contains("typeset"));
    assert_eq!(of("README.md"), set(&[]), "nothing is built from the README");
    assert_eq!(of("Cargo.lock").len(), members.len(), "the lock file touches every crate");
}

#[test]
fn the_command_line_leans_on_every_science() {
    let members = members(root()).unwrap();
    for science in ["quantity", "measurement", "limits"] {
        assert!(with_dependants(&members, &set(&[science])).contains("limpid"), "{science}");
    }
}
