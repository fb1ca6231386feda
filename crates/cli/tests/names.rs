//! Names that may be slips, and two names that are one, at the command line: in a programme that a contract laboratory fills
//! in German. The slips are likely ones, from memory.

use crate::desk::Desk;

/// A laboratory's table with all names as it writes them.
const MAPPING: &str = r#"name = "labor"
about = "Prüfbericht, eine Zeile je Ergebnis (erfunden)."
target = "results"

[file]
delimiter = ";"
decimal = ","

[columns.well]
name = "Messstelle"

[columns.bottle]
label = "Probe"
kind = { constant = "sample" }
well = "Messstelle"

[columns.result]
analyte = "Parameter"
fraction = "Fraktion"
value = "Messwert"
unit = "Einheit"
"#;

const HEAD: &str = "Probe;Messstelle;Parameter;Fraktion;Messwert;Einheit\n";

fn desk() -> Desk {
    let desk = Desk::new();
    desk.file("labor.toml", MAPPING);
    desk.file("leute.csv", "name,role\nMarit Osk,lead\n");
    desk.run(&["new", "p.sqlite"]).done();
    desk.run(&["import", "p.sqlite", "leute.csv", "--mapping", "people"]).done();
    let rows = "A-1;Quelle Nordhang;Pb;unfiltered;1,2;ug/L\nA-2;Quelle Nordhang;Pb;0.45 um;0,4;ug/L\n";
    desk.file("eins.csv", [HEAD, rows].concat());
    desk.run(&["import", "p.sqlite", "eins.csv", "--mapping", "labor.toml"]).done();
    desk
}

#[test]
fn a_slip_is_refused_with_how_to_agree_and_agreed_once() {
    let desk = desk();
    desk.file("zwei.csv", [HEAD, "B-1;Quelle Nordhagn;Blei;0,45 µm;0,3;ug/L\n"].concat());
    let import = ["import", "p.sqlite", "zwei.csv", "--mapping", "labor.toml", "--as", "Marit Osk"];
    let head = desk.head("p.sqlite");
    let ways = [
        "--take \"Quelle Nordhagn=Quelle Nordhang\"  or  --new-name \"Quelle Nordhagn\"",
        "--take \"Blei=Pb\"  or  --new-name \"Blei\"",
        "--take \"0,45 µm=0.45 um\"  or  --new-name \"0,45 µm\"",
    ];
    desk.run(&import).fails(1, &ways);
    desk.run(&[&import[..], &["--preview"]].concat()).fails(1, &ways);
    let seen = desk.run(&[&import[..], &["--preview", "--json"]].concat());
    assert!(seen.out.contains("\"written\":\"Blei\""), "{}", seen.out);
    desk.run(&[&import[..], &["--take", "Blei"]].concat()).fails(2, &["Blei=Pb"]);
    assert_eq!(desk.head("p.sqlite"), head, "nothing was written");
    let take = ["--take", "Quelle Nordhagn=Quelle Nordhang", "--take", "Blei=Pb", "--take", "0,45 µm=0.45 um"];
    let done = desk.run(&[&import[..], &take].concat()).done();
    assert!(done.contains("\"Blei\" was read as Pb"), "{done}");
    desk.file("drei.csv", [HEAD, "B-2;Quelle Nordhagn;Blei;0,45 µm;0,3;ug/L\n"].concat());
    let next = desk.run(&["import", "p.sqlite", "drei.csv", "--mapping", "labor.toml"]).done();
    assert!(next.contains("as agreed before"), "{next}");
    let results = desk.run(&["results", "p.sqlite", "--analyte", "Pb", "--json"]).done();
    assert!(results.contains("B-2:Pb:@:0.45 um") && !results.contains("Blei"), "{results}");
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn two_names_that_are_one_read_as_one_everywhere_and_the_old_one_is_found() {
    let desk = desk();
    let rows = "C-1;Nordhangquelle;Blei;unfiltered;0,3;ug/L\n";
    desk.file("vier.csv", [HEAD, rows].concat());
    desk.run(&["import", "p.sqlite", "vier.csv", "--mapping", "labor.toml", "--new-name", "Blei"]).done();
    let why = ["--why", "beide sind dieselbe, laut Register", "--as", "Marit Osk"];
    let merge = |of: &[&'static str]| desk.run(&[&["merge-names", "p.sqlite"], of, &why[..]].concat());
    merge(&["analyte", "Blei", "Zn"]).fails(1, &["Zn"]);
    merge(&["fraction", "0.45 um", "unfiltered"]).fails(1, &["names of two things"]);
    merge(&["bottle", "A-1", "A-2"]).fails(1, &["analyte, fraction"]);
    let silent = ["merge-names", "p.sqlite", "analyte", "Blei", "Pb", "--why", " ", "--as", "Marit Osk"];
    desk.run(&silent).fails(1, &["the reason"]);
    let done = merge(&["analyte", "Blei", "Pb"]).done();
    assert!(done.contains("analyte Blei is Pb from now on"), "{done}");
    merge(&["well", "Nordhangquelle", "Quelle Nordhang"]).done();
    desk.run(&["verify", "p.sqlite"]).done();
    let results = desk.run(&["results", "p.sqlite", "--well", "Quelle Nordhang", "--json"]).done();
    assert!(results.contains("C-1:Pb:@:unfiltered"), "{results}");
    // By its old name a result is still found.
    assert!(desk.run(&["case", "p.sqlite", "C-1:Blei:@:unfiltered"]).done().contains("C-1"));
    // The package reads back the same; its tables for people say the new name, its record the old one too.
    desk.run(&["export", "p.sqlite", "--out", "package"]).done();
    let text = |name: &str| std::fs::read_to_string(desk.path("package").join(name)).unwrap();
    // `amended` says of a row that it was called otherwise; what it is called stands in its own column.
    let results = text("results.csv");
    let mut table = csv::Reader::from_reader(results.as_bytes());
    let at = table.headers().unwrap().iter().position(|h| h == "analyte").unwrap();
    let named: Vec<String> = table.records().map(|r| r.unwrap()[at].to_string()).collect();
    assert!(named.iter().any(|n| n == "Pb") && named.iter().all(|n| n != "Blei"), "{named:?}");
    assert!(text("results.csv").contains("Quelle Nordhang") && !text("results.csv").contains("Nordhangquelle"));
    desk.run(&["new", "again.sqlite", "--from", "package"]).done();
    assert_eq!(desk.head("again.sqlite"), desk.head("p.sqlite"));
    desk.run(&["verify", "again.sqlite"]).done();
    desk.run(&["report", "p.sqlite", "--out", "report"]).done();
}

#[test]
fn who_acts_does_not_act_by_an_old_name() {
    let desk = desk();
    desk.file("mehr.csv", "name,role\nM. Osk,\n");
    desk.run(&["import", "p.sqlite", "mehr.csv", "--mapping", "people", "--new-name", "M. Osk"]).done();
    let why = ["--why", "derselbe Mensch"];
    let merge = ["merge-names", "p.sqlite", "person", "M. Osk", "Marit Osk", "--as"];
    desk.run(&[&merge[..], &["M. Osk"], &why].concat()).fails(1, &["old name"]);
    desk.run(&[&merge[..], &["Marit Osk"], &why].concat()).done();
    for new in [&[][..], &["--new-person"]] {
        desk.run(&[&["recompute", "p.sqlite", "--as", "M. Osk"], new].concat()).fails(1, &["made one with Marit Osk"]);
    }
    desk.run(&["verify", "p.sqlite"]).done();
}
