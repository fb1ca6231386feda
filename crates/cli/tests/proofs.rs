//! What a person does to prove the record to a stranger: keys, signatures and anchors by the command line, checked with
//! stock `ssh-keygen` (Debian: openssh-client) and `openssl`. Where one is not installed a test says so and fails: the
//! project's own workflow has both. Copies: which counts, three programs that make one name, what is left over.

use crate::desk::{Desk, LEAD, LIMPID};
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

/// Runs a program of the system in the folder of the test.
fn tool(desk: &Desk, name: &str, words: &[&str]) -> Output {
    let ran = Command::new(name).args(words).current_dir(desk.path("")).output();
    ran.unwrap_or_else(|e| panic!("{name} is needed (Debian: apt-get install openssh-client openssl): {e}"))
}

#[track_caller]
fn well(desk: &Desk, name: &str, words: &[&str]) -> String {
    let out = tool(desk, name, words);
    assert!(out.status.success(), "{name} {words:?}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).unwrap()
}

/// The demo's programme in a folder of its own, and a key of Ines Varga elsewhere.
fn desk_with_key() -> Desk {
    let desk = Desk::new();
    fs::create_dir(desk.path("programme")).unwrap();
    fs::copy(Desk::with_programme().path("p.sqlite"), desk.path("programme/p.sqlite")).unwrap();
    well(&desk, "ssh-keygen", &["-q", "-t", "ed25519", "-N", "", "-f", "ines"]);
    desk
}

const P: &str = "programme/p.sqlite";
const INES: &str = "Ines Varga";

/// The command that a stranger was told, run by a shell in the folder.
#[track_caller]
fn told(desk: &Desk, command: &str) {
    let out = Command::new("sh").args(["-c", command]).current_dir(desk.path("")).output().unwrap();
    assert!(out.status.success(), "{command}: {}", String::from_utf8_lossy(&out.stderr));
}

#[test]
fn a_sign_off_is_typed_then_signed_and_a_stranger_checks_it() {
    let desk = desk_with_key();
    desk.run(&["sign", P, LEAD, "--as", INES, "--why", "seen beside its duplicate"]).done();
    let document = desk.run(&["verify", P, "--json"]).json();
    assert_eq!((&document["sign_offs"]["typed"], &document["signature"]), (&1.into(), &serde_json::Value::Null));
    // A key that nobody put on record signs nothing.
    desk.run(&["sign", P, "--key", "ines"]).fails(1, &["which nobody put on record", "limpid keys"]);
    desk.run(&["keys", P, "--add", "ines", "--as", INES]).done();
    desk.run(&["keys", P, "--add", "ines", "--as", "Marit Osk"]).fails(1, &["the key of Ines Varga"]);
    desk.run(&["sign", P, LEAD, "--key", "ines", "--as", "Marit Osk"]).fails(1, &["the key of Ines Varga"]);
    desk.run(&["sign", P, LEAD, "--key", "ines"]).done();
    desk.run(&["sign", P, LEAD, "--key", "ines"]).fails(1, &["no sign-off of Ines Varga waits"]);
    desk.run(&["sign", P, "--key", "ines"]).done();
    let document = desk.run(&["verify", P, "--json"]).json();
    assert_eq!(
        (document["sign_offs"]["signed_by_key"].as_i64(), document["sign_offs"]["typed"].as_i64()),
        (Some(1), Some(0))
    );
    let (events, signature) = (document["events"].as_i64().unwrap(), &document["signature"]);
    // The act that holds the signature comes after what it covers.
    assert_eq!((signature["covers_events"].as_i64(), signature["events_since"].as_i64()), (Some(events - 1), Some(1)));
    // In a package the signatures travel along, and are checked there as here.
    desk.run(&["export", P, "--out", "package"]).done();
    let of_package = desk.run(&["verify", "package", "--json"]).json();
    for what in ["answer", "identity", "signature", "sign_offs", "anchor"] {
        assert_eq!(of_package[what], document[what], "{what}");
    }
    assert!(desk.run(&["verify", "package"]).done().contains("last signature by key: Ines Varga"));
    // What a stranger gets, and does.
    let commands = desk.run(&["keys", P, "--write", "for-a-stranger"]).done();
    assert_eq!(commands.lines().count(), 2);
    commands.lines().for_each(|c| told(&desk, c));
    let line = fs::read_to_string(desk.path("for-a-stranger/1.txt")).unwrap();
    assert!(line.starts_with("limpid-sign-off 1 ") && line.contains("seen%20beside%20its%20duplicate"), "{line}");
    desk.edit("for-a-stranger/1.txt", |t| t.replace("duplicate", "triplicate"));
    let first = commands.lines().next().unwrap();
    let out = Command::new("sh").args(["-c", first]).current_dir(desk.path("")).output().unwrap();
    assert!(!out.status.success(), "a text that was altered is not signed");
    // No letter of the private key went anywhere.
    let private = fs::read_to_string(desk.path("ines")).unwrap();
    let middle = private.lines().nth(3).unwrap().as_bytes();
    let kept = fs::read(desk.path(P)).unwrap();
    assert!(!kept.windows(middle.len()).any(|w| w == middle));
}

#[test]
fn a_key_that_was_retired_or_lost_signs_no_more_and_what_it_signed_stays() {
    let desk = desk_with_key();
    desk.run(&["keys", P, "--add", "ines", "--as", INES]).done();
    desk.run(&["sign", P, "--key", "ines"]).done();
    let listed = desk.run(&["keys", P, "--json"]).json();
    let fingerprint = listed["keys"][0]["fingerprint"].as_str().unwrap().to_string();
    assert!(well(&desk, "ssh-keygen", &["-l", "-f", "ines.pub"]).contains(&fingerprint));
    desk.run(&["keys", P, "--lost", "SHA256:none", "--why", "the laptop is gone"]).fails(1, &["begins 0 of those"]);
    desk.run(&["keys", P, "--lost", &fingerprint[..20], "--why", "the laptop is gone", "--as", INES]).done();
    desk.run(&["sign", P, "--key", "ines"]).fails(1, &["which is lost"]);
    desk.run(&["keys", P, "--retire", &fingerprint, "--why", "again"]).fails(1, &["lost already"]);
    assert_eq!(desk.run(&["keys", P, "--json"]).json()["keys"][0]["ended"], "lost");
    desk.run(&["verify", P]).done();
}

#[test]
fn a_locked_key_is_opened_by_the_passphrase_in_a_file() {
    let desk = desk_with_key();
    well(&desk, "ssh-keygen", &["-q", "-t", "ed25519", "-N", "under the stone", "-f", "locked"]);
    desk.file("words", "under the stone\n");
    let add = ["keys", P, "--add", "locked", "--as", INES];
    desk.run(&add).fails(1, &["locked", "passphrase"]);
    desk.run(&[&add[..], &["--passphrase-file", "words"]].concat()).done();
    desk.run(&["sign", P, "--key", "locked", "--passphrase-file", "words"]).done();
}

#[test]
fn an_anchor_goes_out_comes_back_and_shows_an_older_copy() {
    let desk = desk_with_key();
    desk.run(&["backup", P, "copy.sqlite"]).done();
    desk.run(&["sign", P, LEAD, "--as", INES, "--why", "seen"]).done();
    let line = desk.run(&["anchor", P, "--out", "line.txt"]).done();
    assert_eq!(fs::read_to_string(desk.path("line.txt")).unwrap(), line);
    // Beside the programme it is none, and says so.
    let ran = desk.run(&["anchor", P, "--out", "programme/line.txt"]);
    assert!(ran.err.contains("lies beside the programme"), "{}", ran.err);
    let beside = desk.run(&["verify", P, "--anchor", "programme/line.txt", "--json"]).json();
    assert_eq!(beside["anchor"], serde_json::Value::Null);
    let mail = desk.run(&["anchor", P, "--mail", "--lang", "de"]).done();
    assert!(mail.contains(line.trim()) && mail.contains("Bitte"), "{mail}");
    desk.file("mail.txt", format!("> Hallo Ben,\n{}", mail.replace("limpid-head", "> limpid-head")));
    let held = desk.run(&["verify", P, "--anchor", "mail.txt", "--json"]).json();
    assert_eq!((&held["anchor"]["covers_events"], &held["anchor"]["events_since"]), (&held["events"], &0.into()));
    // An older copy, restored: its rows are sound, and the anchor knows better.
    desk.run(&["restore", "copy.sqlite", "back.sqlite"]).done();
    desk.run(&["verify", "back.sqlite"]).done();
    let older = desk.run(&["verify", "back.sqlite", "--anchor", "mail.txt"]);
    assert_eq!(older.status, 3, "{}", older.out);
    assert!(older.out.contains("it is an older copy, or its end was cut off"), "{}", older.out);
    desk.run(&["anchor", "back.sqlite", "--receipt", "mail.txt", "--kept-by", "Ben"]).fails(1, &["an older copy"]);
    // The receipt is an act; the next acts are told by name.
    desk.run(&["anchor", P, "--receipt", "mail.txt", "--kept-by", "Ben's mail", "--as", INES]).done();
    let out = desk.run(&["verify", P]).done();
    assert!(out.contains("said to be kept by Ben's mail") && out.contains("one event since then: "), "{out}");
    desk.file("nothing.txt", "a letter\n");
    desk.run(&["verify", P, "--anchor", "nothing.txt"]).fails(1, &["no line of a head"]);
}

#[test]
fn a_time_stamp_is_asked_for_taken_in_and_checked_by_openssl() {
    let desk = desk_with_key();
    // An authority of the test's own (RFC 3161, section 2.3: extended key usage timeStamping, critical, alone).
    desk.file(
        "tsa.cnf",
        "[req]\ndistinguished_name=dn\nprompt=no\nx509_extensions=ext\n[dn]\nCN=Stamps of the test\n\
         [ext]\nextendedKeyUsage=critical,timeStamping\n[tsa]\ndefault_tsa=own\n[own]\nserial=serial\n\
         crypto_device=builtin\nsigner_cert=tsa.pem\ncerts=tsa.pem\nsigner_key=tsa.key\nsigner_digest=sha256\n\
         default_policy=1.2.3.4.1\ndigests=sha256\naccuracy=secs:1\ness_cert_id_alg=sha256\n",
    );
    desk.file("serial", "01\n");
    let made = [
        "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "tsa.key", "-out", "tsa.pem", "-config", "tsa.cnf",
    ];
    well(&desk, "openssl", &made);
    desk.run(&["anchor", P, "--request", "head.tsq"]).done();
    let reply = ["ts", "-reply", "-config", "tsa.cnf", "-section", "own", "-queryfile", "head.tsq", "-out", "head.tsr"];
    well(&desk, "openssl", &reply);
    let covered = desk.run(&["verify", P, "--anchor", "head.tsr", "--json"]).json();
    assert_eq!(covered["anchor"]["covers_events"], covered["events"]);
    desk.run(&["anchor", P, "--receipt", "head.tsr", "--kept-by", "an authority"]).done();
    let commands = desk.run(&["anchor", P, "--write", "stamps"]).done();
    told(&desk, &commands.replace("CERTIFICATES.pem", "tsa.pem"));
    desk.run(&["verify", P]).done();
    // Another history knows nothing of it.
    desk.run(&["new", "other.sqlite"]).done();
    let other = desk.run(&["verify", "other.sqlite", "--anchor", "head.tsr"]);
    assert_eq!(other.status, 3, "{}{}", other.out, other.err);
}

#[test]
fn two_programmes_made_alike_are_two_and_each_says_which_it_is() {
    let desk = Desk::new();
    let identity = |name: &str| {
        let made = desk.run(&["new", name, "--as", INES, "--new-person"]).done();
        let told = desk.run(&["verify", name, "--json"]).json()["identity"].as_str().unwrap().to_string();
        assert!(made.contains(&told), "{made}");
        told
    };
    assert_ne!(identity("a.sqlite"), identity("b.sqlite"));
}

#[test]
fn three_programs_that_make_one_name_leave_one_programme_and_two_refusals() {
    let desk = Desk::with_programme();
    for words in
        [&["new", "one.sqlite"][..], &["backup", "p.sqlite", "two.sqlite"], &["restore", "p.sqlite", "three.sqlite"]]
    {
        let start = |_| {
            let mut command = Command::new(LIMPID);
            command.args(words).current_dir(desk.path("")).stdout(Stdio::piped()).stderr(Stdio::piped());
            command.spawn().unwrap()
        };
        let started: Vec<_> = (0..3).map(start).collect();
        let ended: Vec<Output> = started.into_iter().map(|c| c.wait_with_output().unwrap()).collect();
        let refused: Vec<String> =
            ended.iter().filter(|o| !o.status.success()).map(|o| String::from_utf8_lossy(&o.stderr).into()).collect();
        assert_eq!(refused.len(), 2, "{words:?}: {refused:?}");
        assert!(refused.iter().all(|r| r.contains("exists already and is left as it is")), "{refused:?}");
        desk.run(&["verify", words.last().unwrap()]).done();
    }
    assert_eq!(in_the_making(&desk.path("")), Vec::<String>::new());
}

fn in_the_making(folder: &Path) -> Vec<String> {
    let names = fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap());
    names.filter(|n| [".unfinished", ".rebuilding", ".copying"].iter().any(|e| n.contains(e))).collect()
}

#[test]
fn what_was_left_over_is_told_and_cleared() {
    let desk = Desk::with_programme();
    let names = ["p.sqlite.7-0.unfinished", "p.sqlite.7-0.copying", "p.sqlite.7-0.rebuilding", "p.sqlite.unfinished"];
    for name in names {
        desk.file(name, "half of a copy");
    }
    // What was written just now may be another program's: told and left.
    let ran = desk.run(&["history", "p.sqlite"]);
    assert_eq!(
        (ran.err.matches("is being written").count(), in_the_making(&desk.path("")).len()),
        (4, 4),
        "{}",
        ran.err
    );
    let hour_ago = std::time::SystemTime::now() - std::time::Duration::from_hours(1);
    for name in names {
        fs::File::options().append(true).open(desk.path(name)).unwrap().set_modified(hour_ago).unwrap();
    }
    // Another programme's, and files that only look like one.
    for name in ["p.sqlite2.7-0.unfinished", "notes.copying"] {
        desk.file(name, "mine");
        fs::File::options().append(true).open(desk.path(name)).unwrap().set_modified(hour_ago).unwrap();
    }
    let ran = desk.run(&["history", "p.sqlite"]);
    assert_eq!(ran.err.matches("was removed").count(), 4, "{}", ran.err);
    assert_eq!(in_the_making(&desk.path("")).len(), 2);
    desk.run(&["verify", "p.sqlite"]).done();
}

#[test]
fn a_tampered_copy_is_not_restored_and_leaves_nothing() {
    let desk = Desk::with_programme();
    let bytes = fs::read(desk.path("p.sqlite")).unwrap();
    // A word of a reason that stands in the record.
    let word = b"a gust lifted the curtain";
    let places: Vec<usize> =
        bytes.windows(word.len()).enumerate().filter(|(_, w)| w == word).map(|(at, _)| at).collect();
    assert!(!places.is_empty());
    let mut altered = bytes.clone();
    for at in &places {
        altered[*at + 2] = b'G';
    }
    desk.file("copy.sqlite", altered);
    desk.run(&["restore", "copy.sqlite", "back.sqlite"]).fails(3, &["not what was written"]);
    let left = fs::read_dir(desk.path("")).unwrap().map(|e| e.unwrap().file_name().into_string().unwrap());
    assert_eq!(left.filter(|n| n.starts_with("back")).collect::<Vec<_>>(), Vec::<String>::new());
}
