//! A programme on a server, as a team meets it: every command takes its address, it goes there
//! and back, and a disk that died is made good from the nightly copy, as the guide says
//! (`docs/guide/when-the-disk-dies.md`).

#[path = "../../../programme/tests/store_common/cluster.rs"]
#[allow(dead_code, reason = "a part of it serves here")]
mod cluster;

use crate::desk::{Desk, LEAD};
use cluster::{Cluster, schema_of};

fn address() -> String {
    Cluster::shared().address().display().to_string()
}

#[test]
fn every_command_takes_the_address_of_a_server_and_answers_as_for_a_file() {
    let desk = Desk::with_programme();
    let at = address();
    let moved = desk.run(&["move", "p.sqlite", &at]).done();
    let head = desk.head("p.sqlite");
    assert!(moved.contains("the same as p.sqlite") && moved.contains(&format!("head {head}")), "{moved}");
    assert_eq!(desk.head(&at), head);
    for arguments in [vec!["results"], vec!["results", "--json"], vec!["case"], vec!["case", "--json"]] {
        let ask = |store: &str| {
            let mut all = arguments.clone();
            all.insert(1, store);
            if arguments[0] == "case" {
                all.insert(2, LEAD);
            }
            desk.run(&all).done()
        };
        assert_eq!(ask(&at), ask("p.sqlite"), "{arguments:?}");
    }
    for (store, out) in [("p.sqlite", "of-file"), (at.as_str(), "of-server")] {
        desk.run(&["report", store, "--out", out]).done();
        desk.run(&["export", store, "--out", &format!("{out}-data")]).done();
    }
    let page = |out: &str| std::fs::read_to_string(desk.path(out).join("report.html")).unwrap();
    // The report names its programme, by a short name; nothing else differs.
    let name = format!("postgres-{}", schema_of(at.as_ref()));
    assert!(page("of-server").contains(&name));
    assert!(
        page("of-server").replace(&name, "NAME")
            == page("of-file").replace("<dd>p</dd>", "<dd>NAME</dd>").replace("<p>p ·", "<p>NAME ·")
    );
    // The same acts at the same time make the same events.
    let recomputed = desk.run(&["recompute", &at]).done();
    assert!(recomputed.contains("0 written"), "{recomputed}");
    desk.run(&["exclude", &at, "SL2-26-07-A", "--why", "cap was loose", "--as", "Ines Varga"]).done();
    desk.run(&["move", &at, "back.sqlite"]).done();
    assert_eq!(desk.head("back.sqlite"), desk.head(&at));
    desk.run(&["move", "p.sqlite", &at]).fails(1, &["is not empty (a programme) and is left as it is"]);
    desk.run(&["move", &at, "p.sqlite"]).fails(1, &["p.sqlite exists already"]);
}

#[test]
fn files_are_taken_in_on_a_server_and_what_is_refused_there_is_told() {
    let desk = Desk::with_raw();
    let at = address();
    desk.run(&["import", &at, "raw/bundle.toml", "--new"]).done();
    desk.run(&["import", "twin.sqlite", "raw/bundle.toml", "--new"]).done();
    // The heads differ by the moments of the acts, the results by nothing.
    assert_eq!(desk.run(&["results", &at]).done(), desk.run(&["results", "twin.sqlite"]).done());
    assert!(desk.run(&["import", &at, "raw/bundle.toml"]).done().contains("nothing changed"));
    desk.run(&["new", &at]).fails(1, &["is not empty"]);
    let empty = address();
    desk.run(&["new", &empty]).done();
    crate::serve::says_where_it_is(&desk, &empty);
    let secret = at.replace("limpid@", "limpid:secret@").replace(&schema_of(at.as_ref()), "nowhere");
    let told = desk.run(&["verify", &secret]).fails(4, &["holds no programme; `limpid new` makes an empty one"]);
    assert!(!told.contains("secret"), "{told}");
    desk.run(&["new", "c.sqlite", "--from", "raw"]).fails(1, &[]);
    desk.run(&["results", "postgres://ann@db.example/wells"]).fails(1, &["sslmode=disable"]);
}

#[test]
fn when_the_disk_dies() {
    let desk = Desk::with_programme();
    let at = address();
    desk.run(&["move", "p.sqlite", &at]).done();
    // Every night, while it is in use.
    desk.run(&["backup", &at, "night.sqlite"]).done();
    let noted = desk.head(&at);
    // The morning's work is not in the copy; then the disk dies.
    desk.run(&["exclude", &at, "SL2-26-07-A", "--why", "cap was loose", "--as", "Ines Varga"]).done();
    Cluster::shared().raw("").batch_execute(&format!("DROP SCHEMA {} CASCADE", schema_of(at.as_ref()))).unwrap();
    desk.run(&["results", &at]).fails(4, &["holds no programme"]);
    // 1. Is the copy whole?
    desk.run(&["verify", "night.sqlite", "--head", &noted]).done();
    // 2. Work goes on in the file, or on a new server.
    desk.run(&["results", "night.sqlite"]).done();
    let restored = desk.run(&["restore", "night.sqlite", &at]).done();
    assert!(restored.contains("verified"), "{restored}");
    // 3. Is it what was noted?
    desk.run(&["verify", &at, "--head", &noted]).done();
    // 4. What came after the copy is done again.
    desk.run(&["exclude", &at, "SL2-26-07-A", "--why", "cap was loose", "--as", "Ines Varga"]).done();
    assert!(desk.run(&["results", &at]).done().contains("SL2-26-07-B"));
    // The same with a file.
    std::fs::remove_file(desk.path("p.sqlite")).unwrap();
    desk.run(&["restore", "night.sqlite", "p.sqlite"]).done();
    assert_eq!(desk.head("p.sqlite"), noted);
}
