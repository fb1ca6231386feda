//! `limpid history` and `limpid undo`: a wrong file taken back from the command line, and the right one taken in after it.

use crate::desk::Desk;

fn acts(desk: &Desk) -> Vec<serde_json::Value> {
    let told = desk.run(&["history", "p.sqlite", "--json"]).json();
    told["acts"].as_array().unwrap().clone()
}

fn last_import(desk: &Desk) -> serde_json::Value {
    acts(desk).into_iter().rfind(|a| a["act"] == "import").unwrap()
}

#[test]
fn a_wrong_file_is_taken_back_and_the_right_one_comes_in_under_the_same_names() {
    let desk = Desk::with_programme();
    let before = desk.run(&["results", "p.sqlite"]).done();
    let import = |file: &str| desk.run(&["import", "p.sqlite", file, "--mapping", "wells", "--as", "Marit Osk"]);
    desk.file("wrong.csv", "name,description\n\"=Brunnen <Süd>; 7\",falsch\n");
    desk.file("right.csv", "name,description\n\"=Brunnen <Süd>; 7\",richtig\n");
    import("wrong.csv").done();
    let act = last_import(&desk);
    assert_eq!(act["files"][0], "wrong.csv");
    assert_eq!(act["undone"], serde_json::Value::Null);
    // The right one says otherwise of the same well: refused while the wrong one stands.
    import("right.csv").fails(1, &["falsch"]);
    let (number, hash) = (act["event"].to_string(), act["hash"].as_str().unwrap()[..12].to_string());
    let undo = |what: &str, why: &str| desk.run(&["undo", "p.sqlite", what, "--why", why, "--as", "Marit Osk"]);
    undo("999999", "x").fails(1, &["limpid history"]);
    undo(&number, " ").fails(1, &[]);
    undo(&hash, "the wrong list of wells").done();
    undo(&number, "twice").fails(1, &["the wrong list of wells"]);
    desk.run(&["verify", "p.sqlite"]).done();
    assert_eq!(last_import(&desk)["undone"][1], "the wrong list of wells");
    import("right.csv").done();
    import("wrong.csv").fails(1, &["richtig"]);
    assert_eq!(desk.run(&["results", "p.sqlite"]).done(), before);
    // Read back from a package it is the same record.
    desk.run(&["export", "p.sqlite", "--out", "package"]).done();
    desk.run(&["new", "copy.sqlite", "--from", "package"]).done();
    assert_eq!(desk.head("copy.sqlite"), desk.head("p.sqlite"));
    desk.run(&["verify", "copy.sqlite"]).done();
    desk.run(&["correct", "copy.sqlite", "well", "=Brunnen <Süd>; 7", "description", "nass", "--why", "x"]).done();
}

#[test]
fn an_act_that_brought_no_rows_is_none_to_take_back() {
    let desk = Desk::with_programme();
    let derived = desk.run(&["history", "p.sqlite", "--all", "--json"]).json();
    let derived =
        derived["acts"].as_array().unwrap().iter().find(|a| a["derived"] == true).unwrap()["event"].to_string();
    let head = desk.head("p.sqlite");
    desk.run(&["undo", "p.sqlite", &derived, "--why", "x"]).fails(1, &["import"]);
    assert_eq!(desk.head("p.sqlite"), head);
    assert!(acts(&desk).iter().all(|a| a["derived"] == false));
}
