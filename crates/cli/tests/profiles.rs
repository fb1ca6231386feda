//! A contract laboratory's programme from its files to what leaves the house: judged by a profile that a person chose,
//! told as such everywhere; values reported before laid beside; requests with blind labels.

use crate::desk::Desk;
use std::fs;

const PROFILE: &str = "contract laboratory";
const BY: [&str; 4] = ["--as", "Jule Ahrend", "--why", "agreed on 1 September"];
const LABORATORY: &str = "Labor Erlengrund (erfunden)";

/// What the laboratory wrote of its iron, over all years; invented as all of it.
fn quality() -> String {
    let row = |rest: &str| format!("{LABORATORY},DIN 1 (erfunden),{rest}\n");
    [
        "laboratory,method,analyte,kind,from_day,until_day,answer,value,below,expected,second,unit\n".to_string(),
        row(",accreditation,,,yes,,,,,"),
        row("Fe,blank,2021-01-01,2026-12-31,,,1,,,ug/L"),
        row("Fe,recovery,2021-01-01,2026-12-31,,98,,,,%"),
        row("Fe,duplicate,2021-01-01,2026-12-31,,1990,,,2010,ug/L"),
    ]
    .concat()
}

fn taken_in() -> Desk {
    let desk = Desk::new();
    let fixture = ::fixtures::all().into_iter().find(|f| f.name == "laboratory").unwrap();
    fixture.write(&desk.path("files")).unwrap();
    desk.run(&["new", "p.sqlite"]).done();
    desk.run(&["import", "p.sqlite", "files/bundle.toml", "--as", "Jule Ahrend", "--new-person"]).done();
    desk
}

#[test]
fn what_a_profile_accepts_says_so_in_all_that_leaves_the_house() {
    let desk = taken_in();
    let before = desk.run(&["results", "p.sqlite"]).done();
    assert!(!before.contains("accepted"), "{before}");
    desk.run(&["profiles", "p.sqlite", "--choose", "contract labratory", "--why", "x"]).fails(1, &[PROFILE]);
    desk.run(&["profiles", "p.sqlite", "--choose", PROFILE]).fails(2, &["--why"]);
    desk.run(&[&["profiles", "p.sqlite", "--choose", PROFILE][..], &BY].concat()).done();
    let named = desk.run(&["results", "p.sqlite", "--analyte", "Fe"]).done();
    assert!(named.contains("lab.blank") && named.contains("lab.accreditation"), "{named}");
    desk.file("quality.csv", quality());
    desk.run(&["import", "p.sqlite", "quality.csv", "--mapping", "laboratory-quality", "--as", "Jule Ahrend"]).done();
    let told = "accepted by profile “contract laboratory”";
    let results = desk.run(&["results", "p.sqlite", "--analyte", "Fe", "--verdict", "accepted"]).done();
    assert!(results.matches(told).count() > 5, "{results}");
    assert!(desk.run(&["case", "p.sqlite", "E1-2026:Fe"]).done().contains(told));
    assert!(desk.run(&["limits", "p.sqlite"]).done().contains(told));
    let wide = desk.run(&["results", "p.sqlite", "--wide"]).done();
    assert!(wide.contains("2100 a") && wide.contains("a  accepted by a profile"), "{wide}");
    let json = desk.run(&["results", "p.sqlite", "--analyte", "Fe", "--json"]).json();
    assert!(json["results"].as_array().unwrap().iter().any(|r| r["profile"] == PROFILE && r["verdict"] == "accepted"));
    for (kind, lang, file) in
        [("full", "de", "report-de.html"), ("leaflet", "de", "leaflet-de.html"), ("authority", "en", "authority.html")]
    {
        desk.run(&["report", "p.sqlite", "--out", "out", "--kind", kind, "--lang", lang]).done();
        let page = fs::read_to_string(desk.path("out").join(file)).unwrap();
        assert!(page.contains(PROFILE), "{file} does not say by which profile");
    }
    desk.run(&["export", "p.sqlite", "--out", "package"]).done();
    let mut rows = csv::Reader::from_path(desk.path("package").join("results.csv")).unwrap();
    let headings = rows.headers().unwrap().clone();
    let place = |name: &str| headings.iter().position(|h| h == name).unwrap();
    let (verdict, profile) = (place("verdict"), place("profile"));
    let rows: Vec<_> = rows.records().map(Result::unwrap).collect();
    assert!(rows.iter().filter(|r| &r[verdict] == "accepted").all(|r| &r[profile] == PROFILE));
    desk.run(&["new", "again.sqlite", "--from", "package"]).done();
    assert!(desk.run(&["results", "again.sqlite", "--analyte", "Fe"]).done().contains(told));
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn a_table_is_printed_edited_and_kept() {
    let desk = taken_in();
    desk.run(&["profiles", "p.sqlite", "--show", PROFILE, "--csv", "t.csv"]).done();
    desk.edit("t.csv", |t| t.replace("lab.duplicate,decisive,20", "lab.duplicate,decisive,10"));
    let kept = desk.run(&[&["profiles", "p.sqlite", "--keep", PROFILE, "t.csv"][..], &BY].concat()).done();
    assert!(kept.contains("lab.duplicate"), "{kept}");
    let shown = desk.run(&["profiles", "p.sqlite", "--show", PROFILE, "--json"]).json();
    let rules = shown["profile"]["rules"].as_array().unwrap();
    assert_eq!(rules.iter().find(|r| r["check_name"] == "lab.duplicate").unwrap()["limit_value"], 10.0);
    desk.run(&["checks", "p.sqlite", "--csv", "own.csv"]).done();
    desk.edit("own.csv", |t| t.replace("number.limit,decisive", "number.limit,warning"));
    desk.run(&[&["checks", "p.sqlite", "--keep", "own.csv"][..], &BY].concat()).done();
    desk.edit("own.csv", |t| t.replace("number.limit", "number.limmit"));
    desk.run(&[&["checks", "p.sqlite", "--keep", "own.csv"][..], &BY].concat()).fails(1, &["number.limit"]);
    assert!(desk.run(&["profiles", "p.sqlite"]).done().contains("field meters"));
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn what_was_reported_before_stands_beside_today() {
    let desk = taken_in();
    let head = desk.head("p.sqlite");
    desk.file(
        "before.csv",
        "well;date;analyte;value;unit\nBrunnen Erlengrund 1;2026-05-14;Fe;2,1;mg/L\nBrunnen Erlengrund 1;2025-05-14;Fe;1,99;ug/L\nBrunnen Erlengrund 1;2026-05-14;Hg;1;ug/L\nBrunnen Erlengrund 1;2021-05-14;Pb;<0,5;ug/L\n",
    );
    let told = desk.run(&["shadow", "p.sqlite", "before.csv"]).done();
    assert!(told.contains("unit: the same digits, by a factor of 0.001"), "{told}");
    let json = desk.run(&["shadow", "p.sqlite", "before.csv", "--json"]).json();
    let stands: Vec<&str> = json["rows"].as_array().unwrap().iter().map(|r| r["stand"].as_str().unwrap()).collect();
    assert_eq!(stands, ["same", "differs", "not-on-record", "same"]);
    desk.run(&["shadow", "p.sqlite", "before.csv", "--csv", "beside.csv"]).done();
    assert!(fs::read_to_string(desk.path("beside.csv")).unwrap().contains("not on the sheet"));
    desk.file("bad.csv", "well,value\nx,1\n");
    desk.run(&["shadow", "p.sqlite", "bad.csv"]).fails(1, &["analyte"]);
    assert_eq!(desk.head("p.sqlite"), head, "nothing is kept");
    let pairs = desk.run(&["pairs", "p.sqlite"]).done();
    assert!(pairs.contains("no duplicates") && pairs.contains("no blanks"), "{pairs}");
}

#[test]
fn bottles_go_out_blind_and_come_back() {
    let desk = Desk::with_programme();
    let trips = desk.run(&["results", "p.sqlite", "--json"]).json();
    let trip = trips["results"].as_array().unwrap().iter().find_map(|r| r["trip"].as_str()).unwrap().to_string();
    desk.run(&["request", "p.sqlite", "--trip", "nowhere", "--out", "o"]).fails(1, &[&trip]);
    let asked = ["--analyte", "Sb:ng/L:0.5", "--laboratory", "Labor E", "--seed", "5", "--as", "Marit Osk"];
    let to = ["request", "p.sqlite", "--trip", &trip, "--out", "o", "--lang", "de"];
    let told = desk.run(&[&to[..], &asked].concat()).done();
    assert!(told.contains("request.pdf") && told.contains("under blind labels"), "{told}");
    let form = fs::read_to_string(desk.path("o/request.html")).unwrap();
    let body = form.rsplit("</style>").next().unwrap();
    assert!(body.contains("Schwefelwasserstoff") && !body.contains("SL2-26-07-A"));
    assert!(desk.run(&["unblind", "p.sqlite"]).done().contains("not opened"));
    desk.edit("o/results.csv", |t| t.replace(",,,ng/L,", ",1.5,0.1,ng/L,"));
    let back = desk.run(&["import", "p.sqlite", "o/results.csv", "--mapping", "laboratory-long"]).done();
    assert!(back.contains("blind labels of request") && back.contains("opened"), "{back}");
    assert!(desk.run(&["unblind", "p.sqlite"]).done().contains("by a file that came back"));
    let name = format!("{trip} request 1");
    desk.run(&["unblind", "p.sqlite", &name]).fails(2, &["--why"]);
    let opened = desk.run(&["unblind", "p.sqlite", &name, "--why", "all is in", "--as", "Marit Osk"]).done();
    assert!(opened.contains("SL2-26-07-A"), "{opened}");
    assert!(desk.run(&["results", "p.sqlite", "--analyte", "Sb"]).done().contains("SL2-26-07-A"));
    desk.run(&["verify", "p.sqlite"]).done();
}
