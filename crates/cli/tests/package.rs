//! `limpid export`, `limpid new --from`, `limpid supplement`: out, back, and for reviewers. What a
//! package holds is checked in crates/exchange; here that the commands do it, whole or not at all.

use crate::desk::Desk;
use std::fs;
use std::process::Command;

#[test]
fn a_package_reads_back_with_nothing_lost() {
    let desk = Desk::with_programme();
    let head = desk.head("p.sqlite");
    desk.run(&["export", "p.sqlite", "--out", "package", "--licence", "CC0-1.0"]).done();
    let told = desk.run(&["new", "copy.sqlite", "--from", "package"]).done();
    let raw = fs::read_dir(desk.path("package/raw")).unwrap().count();
    assert!(raw > 0 && told.contains(&head) && told.contains(&format!(" {raw} raw files")), "{told}");
    assert!(desk.run(&["verify", "copy.sqlite", "--head", &head]).done().contains("every derivation is what it was"));
    for command in [["results", "--json"], ["report", "--out=told"]] {
        let of = |store: &str| desk.run(&[command[0], store, command[1]]).done();
        assert_eq!(of("p.sqlite").replace("p.sqlite", ""), of("copy.sqlite").replace("copy.sqlite", ""));
    }
    desk.run(&["export", "copy.sqlite", "--out", "again", "--licence", "CC0-1.0"]).done();
    let same = Command::new("diff").args(["-r", "package", "again"]).current_dir(desk.path("")).output().unwrap();
    assert!(same.status.success(), "{}", String::from_utf8_lossy(&same.stdout));
}

#[test]
fn a_damaged_package_is_refused_by_name_and_nothing_is_left() {
    let desk = Desk::with_programme();
    desk.run(&["export", "p.sqlite", "--out", "package"]).done();
    let path = desk.path("package/record/result.csv");
    let text = fs::read_to_string(&path).unwrap();
    fs::write(&path, text.replacen("quantified", "detected", 1)).unwrap();
    let new = ["new", "copy.sqlite", "--from", "package"];
    desk.run(&new).fails(1, &["record/result.csv: its bytes are not those that were written", "nothing was taken"]);
    fs::remove_file(&path).unwrap();
    desk.run(&new).fails(1, &["record/result.csv: the package lists it, but it is not there"]);
    desk.run(&["new", "copy.sqlite", "--from", "."]).fails(1, &["is no data package of Limpid"]);
    desk.run(&["new", "p.sqlite", "--from", "package"]).fails(1, &[]);
    assert!(!desk.path("copy.sqlite").exists());
}

/// What `limpid export` says after a word.
fn told_after<'a>(told: &'a str, word: &str) -> &'a str {
    let (_, after) = told.split_once(&format!("; {word} ")).unwrap_or_else(|| panic!("no {word}: {told}"));
    after.split(|c: char| !c.is_ascii_hexdigit()).next().unwrap()
}

#[test]
fn the_seal_stands_for_what_no_chain_covers() {
    let desk = Desk::with_programme();
    let person = "Ines Varga=https://example.org/ines-varga";
    let said = ["--licence", "CC0-1.0", "--publisher", "Sallow Levels Water", "--identifier", person];
    let told = desk.run(&[&["export", "p.sqlite", "--out", "package"], said.as_slice()].concat()).done();
    let (seal, head) = (told_after(&told, "seal").to_owned(), told_after(&told, "head").to_owned());
    let crate_of = fs::read_to_string(desk.path("package/ro-crate-metadata.json")).unwrap();
    assert_eq!(crate_of.matches("https://example.org/ines-varga").count(), 3, "author, contributor, and she herself");
    // Another licence in all places alike: the record is the same, the package is not.
    let other = desk.run(&["export", "p.sqlite", "--out", "other", "--licence", "All rights reserved"]).done();
    assert_eq!(told_after(&other, "head"), head);
    for (package, hash, status) in
        [("package", &seal, 0), ("package", &head, 0), ("other", &head, 0), ("other", &seal, 3)]
    {
        let ran = desk.run(&["verify", package, "--head", hash]);
        let python =
            Command::new("python3").args(["verify.py", "--head", hash]).current_dir(desk.path(package)).output();
        assert_eq!(python.unwrap().status.success(), status == 0, "{package} {hash}");
        if status == 0 {
            ran.done()
        } else {
            ran.fails(status, &[])
        };
    }
    desk.run(&["export", "p.sqlite", "--out", "x", "--identifier", "Nobody=https://example.org/"])
        .fails(1, &["no person \"Nobody\" is on record", "Ines Varga"]);
    desk.run(&["export", "p.sqlite", "--out", "x", "--identifier", "Ines Varga"]).fails(2, &["NAME=ADDRESS"]);
}

/// The attached files by poppler's `pdfdetach`, unpacked by Python: neither has to do with this program.
#[test]
fn a_report_carries_its_package_on_demand_and_no_reader_complains() {
    let desk = Desk::with_programme();
    desk.run(&["report", "p.sqlite", "--out", "told", "--attach-package", "--licence", "CC0-1.0"]).done();
    let ran = |program: &str, arguments: &[&str]| {
        let out = Command::new(program).args(arguments).current_dir(desk.path("")).output();
        let out = out.unwrap_or_else(|e| panic!("{program} (Debian: poppler-utils, python3): {e}"));
        assert!(out.status.success() && out.stderr.is_empty(), "{program}: {}", String::from_utf8_lossy(&out.stderr));
        String::from_utf8_lossy(&out.stdout).into_owned()
    };
    let info = ran("pdfinfo", &["told/report.pdf"]);
    assert!(info.contains("Tagged:          yes") && info.contains(&desk.head("p.sqlite")), "{info}");
    ran("pdfdetach", &["-saveall", "-o", ".", "told/report.pdf"]);
    ran("python3", &["-m", "zipfile", "-e", "package.zip", "package"]);
    let told = desk.run(&["verify", "package", "--head", &desk.head("p.sqlite")]).done();
    assert!(told.contains("every other file is what the record makes"), "{told}");
    desk.run(&["report", "p.sqlite", "--out", "told", "--kind", "leaflet", "--attach-package"])
        .fails(2, &["--attach-package is for the full report"]);
    // PKWARE APPNOTE: the same record, the same bytes of the archive.
    let bytes = fs::read(desk.path("package.zip")).unwrap();
    desk.run(&["report", "p.sqlite", "--out", "again", "--attach-package", "--licence", "CC0-1.0"]).done();
    ran("pdfdetach", &["-saveall", "-o", ".", "again/report.pdf"]);
    assert!(bytes == fs::read(desk.path("package.zip")).unwrap());
    // 15 MB: what may be sent by mail nearly everywhere (common practice).
    assert!(bytes.len() < 15_000_000, "{} bytes packed", bytes.len());
}

#[test]
fn a_folder_with_other_files_is_left_alone() {
    let desk = Desk::with_programme();
    fs::create_dir(desk.path("mine")).unwrap();
    desk.file("mine/notes.txt", "mine");
    desk.run(&["export", "p.sqlite", "--out", "mine"]).fails(1, &["mine holds notes.txt"]);
    desk.run(&["supplement", "p.sqlite", "--out", "mine"]).fails(1, &["mine holds notes.txt"]);
    assert_eq!(fs::read_dir(desk.path("mine")).unwrap().count(), 1);
}

#[test]
fn the_supplement_has_the_validation_the_results_and_the_package_with_their_sums() {
    let desk = Desk::with_programme();
    // Twice: an earlier supplement is replaced.
    for _ in 0..2 {
        let told = desk.run(&["supplement", "p.sqlite", "--out", "supplement"]).done();
        let (files, _) = told.trim_end().rsplit_once('\n').unwrap();
        assert!(files.lines().all(|l| desk.path(l).is_file()), "{told}");
    }
    let sums = ["--check", "--strict", "--quiet", "SHA256SUMS"];
    for folder in ["supplement", "supplement/data"] {
        let checked = Command::new("sha256sum").args(sums).current_dir(desk.path(folder)).output().unwrap();
        assert!(checked.status.success(), "{}", String::from_utf8_lossy(&checked.stdout));
    }
    let pdf = fs::read(desk.path("supplement/supplement.pdf")).unwrap();
    let marked = b"/MarkInfo";
    assert!(pdf.starts_with(b"%PDF-") && pdf.windows(marked.len()).any(|w| w == marked), "a tagged PDF");
    let page = fs::read_to_string(desk.path("supplement/supplement.html")).unwrap();
    for part in [
        "Method validation, run SL-R-2607",
        "Recovery, precision, trueness, interferences, uncertainty",
        "Blanks, run SL-R-2607",
        "Budgets, run SL-R-2607",
        "Reported, Lowmere Water Laboratory (invented)",
        "data/SHA256SUMS",
    ] {
        assert!(page.contains(part), "{part}");
    }
    // The limits beside lead are those that the record gives for it.
    let document = desk.run(&["results", "p.sqlite", "--json"]).json();
    let lead =
        document["results"].as_array().unwrap().iter().find(|r| r["bottle"] == "SL2-26-07-A" && r["analyte"] == "Pb");
    let limit = quantity::format::significant(lead.unwrap()["critical_value"].as_f64().unwrap(), 2);
    let table = page.split("Pb 206+207+208 low: results with blank").nth(1).unwrap();
    let row = table.split("SL2-26-07-A").nth(1).unwrap().split("</tr>").next().unwrap();
    assert!(row.contains(&limit), "{limit} is not in {row}");
    desk.run(&["new", "copy.sqlite", "--from", "supplement/data"]).done();
}
