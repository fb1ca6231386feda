//! A programme on a server, as a team meets it: every command takes its address, it goes there
//! and back, and a disk that died is made good from the nightly copy, as the guide says
//! (`docs/guide/when-the-disk-dies.md`).

#[path = "../../record/tests/store_common/cluster.rs"]
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
    let places = [("<dd>p</dd>", "<dd>NAME</dd>"), ("<p>p ·", "<p>NAME ·"), ("<p>Programme p,", "<p>Programme NAME,")];
    let of_file = places.iter().fold(page("of-file"), |page, (p, name)| page.replace(p, name));
    assert!(page("of-server").replace(&name, "NAME") == of_file);
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
    desk.run(&["results", "postgres://ann@db.example/wells?sslmode=none"]).fails(1, &["sslmode"]);
    // A name that no machine has (RFC 6761, 6.5).
    desk.run(&["results", "postgres://ann@db.example/wells"]).fails(4, &["postgres://ann@db.example/wells"]);
}

/// How a laboratory's table of one bottle is read.
const REPORTED: &str = r#"
name = "reported"
target = "results"

[columns.bottle]
label = "sample"
kind = { constant = "sample" }
filled_at = { constant = "2026-07-14 09:30" }

[columns.result]
analyte = "analyte"
fraction = { constant = "unfiltered" }
value = "value"
unit = "unit"
"#;

/// Imports, signatures and readings by processes of their own, at once: each act is in the chain once, whole, and
/// what is read between them is a programme.
/// Does what keeps or reads beside others: done (0), or kept and, on a machine with no room to breathe, not derived yet (5).
#[track_caller]
fn kept(desk: &Desk, arguments: &[&str]) {
    let ran = desk.run(arguments);
    assert!([0, 5].contains(&ran.status), "{}{}", ran.out, ran.err);
}

#[test]
fn several_processes_import_sign_and_read_at_once_and_no_event_is_lost_or_doubled() {
    const EACH: usize = 3;
    let desk = Desk::with_programme();
    let at = address();
    desk.run(&["move", "p.sqlite", &at]).done();
    desk.file("reported.toml", REPORTED);
    let row = |bottle: &str| format!("sample,analyte,value,unit\n{bottle},Pb,1.25,ng/L\n{bottle},Cd,0.5,ng/L\n");
    let of = |who: usize, n: usize| format!("LAB-{who}-{n}");
    for who in 0..4 {
        for n in 0..EACH {
            desk.file(&format!("{}.csv", of(who, n)), row(&of(who, n)));
        }
    }
    desk.file("LAB-twice.csv", row("LAB-twice"));
    desk.file(
        "signers.csv",
        "name,role\nSigner 0,lead\nSigner 1,lead\nSigner 2,analyst\nSigner 3,analyst\nSigner,lead\n",
    );
    for store in ["p.sqlite", &at] {
        desk.run(&["import", store, "signers.csv", "--mapping", "people"]).done();
    }
    let warned: Vec<String> = desk.run(&["results", "p.sqlite", "--json"]).json()["results"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|r| r["reasons"].as_array().unwrap().iter().any(|why| why == "air.class"))
        .map(|r| r["result"].as_str().unwrap().to_string())
        .take(4 * EACH)
        .collect();
    assert_eq!(warned.len(), 4 * EACH);
    std::thread::scope(|scope| {
        let (desk, at, warned) = (&desk, &at, &warned);
        for who in 0..4 {
            scope.spawn(move || {
                for n in 0..EACH {
                    let file = format!("{}.csv", of(who, n));
                    kept(desk, &["import", at, &file, "--mapping", "reported.toml"]);
                }
                // All four bring the same file too: one takes it in.
                kept(desk, &["import", at, "LAB-twice.csv", "--mapping", "reported.toml"]);
            });
            scope.spawn(move || {
                for result in &warned[who * EACH..(who + 1) * EACH] {
                    let by = format!("Signer {who}");
                    kept(desk, &["sign", at, result, "--as", &by, "--why", "cabinet seen on the day"]);
                }
            });
            scope.spawn(move || {
                for _ in 0..EACH {
                    // Never altered; what others have just kept may not be derived yet.
                    kept(desk, &["verify", at]);
                    assert!(desk.run(&["results", at]).done().contains("SL2-26-07-A"));
                }
            });
        }
    });
    desk.run(&["recompute", &at]).done();
    desk.run(&["verify", &at]).done();
    let case = |result: &str| desk.run(&["case", &at, result]).done();
    for (k, result) in warned.iter().enumerate() {
        let signed = format!("signed by Signer {}: cabinet seen on the day", k / EACH);
        assert_eq!(case(result).matches(&signed).count(), 1, "{result}");
    }
    let all = desk.run(&["results", &at]).done();
    for bottle in (0..4).flat_map(|who| (0..EACH).map(move |n| of(who, n))).chain(["LAB-twice".into()]) {
        assert_eq!(all.lines().filter(|l| l.contains(&bottle)).count(), 2, "{bottle}");
    }
    // The same acts one after another in a file give the same verdicts.
    for who in 0..4 {
        for n in 0..EACH {
            let file = format!("{}.csv", of(who, n));
            desk.run(&["import", "p.sqlite", &file, "--mapping", "reported.toml"]).done();
        }
    }
    desk.run(&["import", "p.sqlite", "LAB-twice.csv", "--mapping", "reported.toml"]).done();
    for result in &warned {
        desk.run(&["sign", "p.sqlite", result, "--as", "Signer", "--why", "cabinet seen on the day"]).done();
    }
    let one_after_another = address();
    desk.run(&["move", "p.sqlite", &one_after_another]).done();
    let count = |store: &str, what: &str| -> i64 {
        let mut server = Cluster::shared().raw(&schema_of(store.as_ref()));
        server.query_one(&format!("SELECT count(*) FROM {what}"), &[]).unwrap().get(0)
    };
    // An assessment may speak of what two imports brought; nothing else may be fewer or more.
    for what in [
        "event WHERE (body::json)->>'act' = 'import'",
        "event WHERE (body::json)->>'act' = 'sign-off'",
        "result",
        "verdict",
        "finding",
        "sign_off",
        "raw_file",
    ] {
        assert_eq!(count(&at, what), count(&one_after_another, what), "{what}");
    }
    let sorted = |text: &str| {
        let mut lines: Vec<String> = text.lines().map(str::to_string).collect();
        lines.sort();
        lines
    };
    assert_eq!(sorted(&all), sorted(&desk.run(&["results", "p.sqlite"]).done()));
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
