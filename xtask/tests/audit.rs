//! What the auditing programs answer. The answer of `cargo audit` is one that version 0.22.2 gave for this lock file,
//! shortened, held against a data base of one invented weakness.

use xtask::audit::{Answer, Outcome};

const ONE_FOUND: &str = r#"{"database":{"advisory-count":1,"last-commit":null,"last-updated":null},
"lockfile":{"dependency-count":743},"settings":{"ignore":[]},
"vulnerabilities":{"found":true,"count":1,"list":[{"advisory":{"id":"RUSTSEC-2030-0001","package":"itoa",
"title":"Invented","date":"2026-11-01"},"versions":{"patched":[],"unaffected":[]},
"package":{"name":"itoa","version":"1.0.19"}}]},"warnings":{}}"#;

#[test]
fn a_weakness_is_named_with_its_crate() {
    let answer = Answer::read(ONE_FOUND.as_bytes()).unwrap();
    assert_eq!((answer.crates, answer.found), (743, vec!["RUSTSEC-2030-0001, itoa 1.0.19: Invented".to_string()]));
    assert!(answer.remarks.is_empty() && answer.changed.is_none());
}

#[test]
fn no_answer_is_not_taken_for_a_good_one() {
    // Without its data base the program writes nothing to standard output.
    for none in ["", "error: couldn't fetch advisory database", "{}", r#"{"vulnerabilities":{"list":[]}}"#] {
        assert_eq!(Answer::read(none.as_bytes()), None, "{none}");
    }
}

#[test]
fn the_status_tells_the_three_outcomes_apart() {
    let all = [Outcome::Good, Outcome::Found, Outcome::NotAll].map(Outcome::status);
    assert_eq!(all[0], 0);
    assert!(all[1] != 0 && all[2] != 0 && all[1] != all[2]);
}
