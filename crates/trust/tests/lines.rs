//! Laws of the lines: what is written reads back, and two things have two lines.

use proptest::prelude::*;
use trust::line::NO_IDENTITY;
use trust::{Head, KeyHeld, SignOffLine};

fn head() -> Head {
    Head { programme: Some("5f0c1d2e".into()), events: 12, head: [0xAB; 32] }
}

proptest! {
    #[test]
    fn a_head_reads_back(programme in proptest::option::of(".{1,40}"), events in any::<u64>(), head in any::<[u8; 32]>()) {
        prop_assume!(programme.as_deref() != Some(NO_IDENTITY));
        let head = Head { programme, events, head };
        let line = head.to_string();
        prop_assert_eq!(line.lines().count(), 1);
        prop_assert_eq!(line.parse::<Head>().unwrap(), head);
    }

    #[test]
    fn no_text_makes_it_stop(text in ".{0,200}") {
        let _ = text.parse::<Head>();
        let _ = Head::all_in(&text);
    }

    /// What a person wrote cannot look like another part of the line.
    #[test]
    fn two_sign_offs_have_two_lines(a in ("\\PC{0,12}", "\\PC{0,12}"), b in ("\\PC{0,12}", "\\PC{0,12}")) {
        let line = |(person, why): &(String, String)| {
            SignOffLine { upon: head(), subject: "A:Pb:208@low:unfiltered", person, why }.to_string()
        };
        prop_assert_eq!(a == b, line(&a) == line(&b));
    }
}

#[test]
fn a_line_is_found_in_a_mail() {
    let line = head().to_string();
    let mail = format!("Dear Ben,\n> please keep this line:\n> {line}\r\n\nyours\n{line}.");
    // The last has a full stop at its end: not the line as it was sent.
    assert_eq!(Head::all_in(&mail), [head()]);
    assert!(Head::all_in("nothing of ours; limpid-head 1 programme=x events=y head=z").is_empty());
}

#[test]
fn a_line_says_what_it_is() {
    assert_eq!(head().to_string(), format!("limpid-head 1 programme=5f0c1d2e events=12 head={}", "ab".repeat(32)));
    let none = Head { programme: None, ..head() };
    assert_eq!(none.to_string().parse::<Head>().unwrap().programme, None);
    let held = KeyHeld { programme: None, person: "Inés Varga", fingerprint: "SHA256:x+/y" };
    assert_eq!(held.to_string(), "limpid-key 1 programme=none person=Inés%20Varga key=SHA256:x+/y");
    let wrong = format!("limpid-head 2 programme=a events=1 head={}", "ab".repeat(32));
    assert!(wrong.parse::<Head>().is_err());
}
