//! What a stranger has who holds a package and no Limpid: `recompute.py` comes to every digit from the counts, of the
//! demo and of programmes that are not the demo; `verify.py` says that the package is what was written; README and
//! METHODS are there. The programs run with nothing of Limpid in reach. Python and numpy are needed, as is `sha256sum`.

use crate::desk::Desk;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Largest relative difference that may stand between the program and `recompute.py`: rounding alone, in another order.
const SAME: f64 = 1e-9;

/// A Python with numpy: the first on the PATH, else the system's own.
fn with_numpy() -> &'static str {
    let has = |python: &&&str| {
        Command::new(python).args(["-c", "import numpy"]).output().is_ok_and(|out| out.status.success())
    };
    ["python3", "/usr/bin/python3"].iter().find(has).expect("a Python with numpy (Debian: python3-numpy)")
}

/// Runs a program of a package with an empty environment; what it says.
#[track_caller]
fn python(package: &Path, program: &str) -> String {
    let out = Command::new(with_numpy())
        .arg(package.join(program))
        .env_clear()
        // Where Python is found; nothing of Limpid stands on it.
        .envs(["PATH", "HOME"].into_iter().filter_map(|name| Some((name, std::env::var_os(name)?))))
        .current_dir(package)
        .output()
        .expect("Python starts");
    let said = String::from_utf8_lossy(&out.stdout).into_owned();
    assert!(out.status.success(), "{program}:\n{said}{}", String::from_utf8_lossy(&out.stderr));
    said
}

/// Results recomputed, and the largest differences in value and u.
fn recomputed(said: &str) -> (u64, f64, f64) {
    let after = |words: &str| said.lines().find_map(|l| l.strip_prefix(words)).unwrap_or_else(|| panic!("{said}"));
    let number = |text: &str| text.split_whitespace().next().unwrap().parse().unwrap();
    let (results, _) = said.split_once(" results recomputed").unwrap_or_else(|| panic!("{said}"));
    (
        results.trim().parse().unwrap(),
        number(after("largest relative difference in value:")),
        number(after("largest relative difference in u:")),
    )
}

#[test]
fn every_result_of_the_demo_comes_out_of_its_counts_to_the_last_digits() {
    let desk = Desk::with_programme();
    desk.run(&["export", "p.sqlite", "--out", "package", "--licence", "CC0-1.0", "--publisher", "Nobody"]).done();
    let package = desk.path("package");
    let said = python(&package, "recompute.py");
    let (results, value, u) = recomputed(&said);
    assert!(results >= 468 && value <= SAME && u <= SAME, "{said}");
    assert!(!said.contains("not recomputed"), "{said}");
    let told = python(&package, "verify.py");
    assert!(told.contains("nothing differs") && told.contains(&desk.head("p.sqlite")), "{told}");
    let lines = fs::read_to_string(package.join("recompute.py")).unwrap().lines().count();
    assert!(lines < 300, "recompute.py has {lines} lines: it is to be read in one go");
    for (file, part) in [("README.md", "replicates"), ("METHODS.md", "32 zero bytes"), ("LICENCE.txt", "CC0-1.0")] {
        assert!(fs::read_to_string(package.join(file)).unwrap().contains(part), "{file}");
    }
    let sums = ["--check", "--strict", "--quiet", "SHA256SUMS"];
    let checked = Command::new("sha256sum").args(sums).current_dir(&package).output().unwrap();
    assert!(checked.status.success(), "{}", String::from_utf8_lossy(&checked.stdout));
}

#[test]
fn results_over_a_recovery_come_out_of_the_counts_whichever_recovery_it_is() {
    let desk = Desk::with_programme();
    let given = "from = \"given\"\nvalues = [{ element = \"Pb\", value = 0.93, u = 0.02 }]";
    for from in [given, "from = \"field-spikes\"", "from = \"lab-spikes\""] {
        let recipe = simulator::files::RECIPE.replace("\"sector-field-water\"", "\"own\"");
        let other = recipe.replace("from = \"not-applied\"", from);
        assert_ne!(other, recipe);
        desk.file("own.toml", other);
        desk.run(&["import", "p.sqlite", "own.toml", "--mapping", "recipe", "--why", "to try its recovery"]).done();
        let why = ["--as", "Ines Varga", "--why", "to try its recovery"];
        desk.run(&[&["recipes", "p.sqlite", "--give", "own", "SL-R-2607"], why.as_slice()].concat()).done();
    }
    desk.run(&["export", "p.sqlite", "--out", "package"]).done();
    let package = desk.path("package");
    let said = python(&package, "recompute.py");
    let (results, value, u) = recomputed(&said);
    // The first reduction, and three others of the elements that were spiked.
    assert!(results > 468 && value <= SAME && u <= SAME && !said.contains("not recomputed"), "{said}");
    let derivations = fs::read_to_string(package.join("record/derivation_node.csv")).unwrap();
    for part in ["\"\"same_bottle\"\":false", "\"\"same_bottle\"\":true", "\"\"error\"\":\"\"recovery\"\""] {
        assert!(derivations.contains(part), "no derivation with {part}");
    }
}

#[test]
fn a_package_is_verified_as_a_programme_is_and_nothing_is_left() {
    let desk = Desk::with_programme();
    let head = desk.head("p.sqlite");
    desk.run(&["export", "p.sqlite", "--out", "package"]).done();
    assert!(desk.run(&["verify", "package", "--head", &head]).done().contains("is what the record makes"));
    let other = "0".repeat(64);
    let told = desk.run(&["verify", "package", "--head", &other, "--json"]);
    assert!(told.out.contains("altered") && told.out.contains(&other), "{}", told.out);
    let path = desk.path("package/results.csv");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replacen(",quantified,", ",detected,", 1)).unwrap();
    desk.run(&["verify", "package"]).fails(3, &[]);
}

#[test]
fn programmes_that_are_not_the_demo_are_recomputed_as_well() {
    for fixture in ::fixtures::all().into_iter().filter(|f| f.files.iter().any(|x| x.name == "run.csv")) {
        let desk = Desk::new();
        fixture.write(&desk.path("files")).unwrap();
        desk.run(&["new", "p.sqlite"]).done();
        desk.run(&["import", "p.sqlite", "files/bundle.toml"]).done();
        desk.run(&["export", "p.sqlite", "--out", "package"]).done();
        let said = python(&desk.path("package"), "recompute.py");
        let (results, value, u) = recomputed(&said);
        assert!(results > 0 && value <= SAME && u <= SAME, "{}: {said}", fixture.name);
        let told = python(&desk.path("package"), "verify.py");
        assert!(told.contains("nothing differs"), "{}: {told}", fixture.name);
    }
}
