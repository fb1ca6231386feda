//! Keys, signatures and stamps beside the programs that every computer has: `ssh-keygen` (OpenSSH; Debian:
//! openssh-client) and `openssl` (Debian: openssl). Where one is not installed, the test says so and fails: the
//! workflow of the project has both.

use proptest::prelude::*;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::LazyLock;
use trust::{Head, Key, KeyError, SecretKey, SignatureError, StampError, stamp};

/// Runs a program with `input` on its standard input.
fn ran(tool: &str, args: &[&str], dir: &Path, input: &str) -> Output {
    let child = Command::new(tool)
        .args(args)
        .current_dir(dir)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child =
        child.unwrap_or_else(|e| panic!("{tool} is needed (Debian: apt-get install openssh-client openssl): {e}"));
    // A program that reads no input may have ended already.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

/// As [`ran`]; it must do well.
fn well(tool: &str, args: &[&str], dir: &Path, input: &str) -> String {
    let out = ran(tool, args, dir, input);
    assert!(out.status.success(), "{tool} {args:?}: {}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// A key pair that `ssh-keygen` made, and its files.
struct Made {
    dir: tempfile::TempDir,
    secret: SecretKey,
}

fn made(passphrase: &str, kind: &str) -> (tempfile::TempDir, String) {
    let dir = tempfile::tempdir().unwrap();
    well("ssh-keygen", &["-q", "-t", kind, "-N", passphrase, "-C", "Ann of the wells", "-f", "key"], dir.path(), "");
    let text = std::fs::read_to_string(dir.path().join("key")).unwrap();
    (dir, text)
}

static ANN: LazyLock<Made> = LazyLock::new(|| {
    let (dir, text) = made("", "ed25519");
    Made { dir, secret: SecretKey::read(&text, None).unwrap() }
});

const TEXT: &str = "limpid-head 1 programme=none events=3 head=00 ü\n";

#[test]
fn a_key_reads_as_ssh_keygen_made_it() {
    let dir = ANN.dir.path();
    let public = Key::parse(&std::fs::read_to_string(dir.join("key.pub")).unwrap()).unwrap();
    assert_eq!(public, ANN.secret.public());
    assert!(well("ssh-keygen", &["-l", "-f", "key.pub"], dir, "").contains(&public.fingerprint()));
    assert_eq!(Key::parse(&public.line()).unwrap(), public);
    assert!(!format!("{:?}", ANN.secret).contains("PRIVATE"));
}

#[test]
fn stock_ssh_keygen_verifies_our_signature() {
    let dir = tempfile::tempdir().unwrap();
    let who = "Inés Varga, lead*";
    let signature = trust::sign(&ANN.secret, TEXT).unwrap();
    std::fs::write(dir.path().join("signers"), ANN.secret.public().allowed_signer(who) + "\n").unwrap();
    std::fs::write(dir.path().join("sig"), signature).unwrap();
    let name = trust::key::principal(who);
    let args =
        |namespace| ["-Y", "verify", "-f", "signers", "-I", &name, "-n", namespace, "-s", "sig"].map(String::from);
    let verify = |namespace, text| {
        let args = args(namespace);
        ran("ssh-keygen", &args.each_ref().map(String::as_str), dir.path(), text).status.success()
    };
    assert!(verify("limpid", TEXT));
    let other = TEXT.replace('3', "4");
    assert!(!verify("limpid", &other), "another text");
    assert!(!verify("file", TEXT), "another use");
}

#[test]
fn we_verify_the_signature_of_stock_ssh_keygen() {
    let dir = ANN.dir.path();
    let signed = |namespace| well("ssh-keygen", &["-q", "-Y", "sign", "-f", "key", "-n", namespace], dir, TEXT);
    let key = ANN.secret.public();
    let signature = signed("limpid");
    assert_eq!(trust::verify(&key, TEXT, &signature), Ok(()));
    assert_eq!(trust::verify(&key, "other", &signature), Err(SignatureError::OtherText));
    assert_eq!(trust::verify(&key, TEXT, &signed("file")), Err(SignatureError::Namespace));
    let (_other, text) = made("", "ed25519");
    let other = SecretKey::read(&text, None).unwrap().public();
    assert_eq!(trust::verify(&other, TEXT, &signature), Err(SignatureError::OtherKey));
}

#[test]
fn a_locked_key_opens_by_its_passphrase_and_another_kind_is_named() {
    let (_dir, text) = made("under the stone", "ed25519");
    assert_eq!(SecretKey::read(&text, None).unwrap_err(), KeyError::Locked);
    assert_eq!(SecretKey::read(&text, Some("on the stone")).unwrap_err(), KeyError::Passphrase);
    let key = SecretKey::read(&text, Some("under the stone")).unwrap();
    let signature = trust::sign(&key, TEXT).unwrap();
    assert_eq!(trust::verify(&key.public(), TEXT, &signature), Ok(()));
    let (dir, text) = made("", "ecdsa");
    let found = SecretKey::read(&text, None).unwrap_err();
    assert!(matches!(found, KeyError::Kind { .. } | KeyError::NotPrivate { .. }), "{found}");
    let public = std::fs::read_to_string(dir.path().join("key.pub")).unwrap();
    assert!(matches!(Key::parse(&public), Err(KeyError::Kind { .. } | KeyError::NotPublic { .. })));
    assert!(matches!(SecretKey::read("a letter", None), Err(KeyError::NotPrivate { .. })));
}

proptest! {
    // Few: each case verifies twice on the curve.
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Of a signature with one damaged byte nothing is verified, and nothing panics.
    #[test]
    fn a_damaged_signature_is_none(at in 0usize..300, to in any::<u8>()) {
        let signature = trust::sign(&ANN.secret, TEXT).unwrap();
        let mut bytes = signature.clone().into_bytes();
        let at = at % bytes.len();
        bytes[at] = to;
        let Ok(damaged) = String::from_utf8(bytes) else { return Ok(()) };
        // The same letters, or only a line broken elsewhere or an end that says nothing: the same bytes inside.
        let inside = |t: &str| t.split_whitespace().collect::<String>();
        prop_assume!(inside(&damaged) != inside(&signature));
        prop_assert!(trust::verify(&ANN.secret.public(), TEXT, &damaged).is_err());
    }

    /// Of a text with one other letter the signature is none.
    #[test]
    fn another_text_is_not_signed(at in 0usize..TEXT.len(), to in "[a-z0-9 ]") {
        let mut text: Vec<char> = TEXT.chars().collect();
        let at = at % text.len();
        prop_assume!(text[at].to_string() != to);
        text[at] = to.chars().next().unwrap();
        let text: String = text.into_iter().collect();
        let signature = trust::sign(&ANN.secret, TEXT).unwrap();
        prop_assert_eq!(trust::verify(&ANN.secret.public(), &text, &signature), Err(SignatureError::OtherText));
    }
}

/// An authority of our own, made for the test: openssl's `ts` with a certificate that may stamp (RFC 3161, section 2.3:
/// extended key usage timeStamping, critical, alone).
fn authority(dir: &Path) {
    std::fs::write(
        dir.join("tsa.cnf"),
        "[req]\ndistinguished_name=dn\nprompt=no\nx509_extensions=ext\n[dn]\nCN=Stamps of the Sallow test\n\
         [ext]\nextendedKeyUsage=critical,timeStamping\n\
         [tsa]\ndefault_tsa=own\n[own]\nserial=serial\ncrypto_device=builtin\nsigner_cert=tsa.pem\ncerts=tsa.pem\n\
         signer_key=tsa.key\nsigner_digest=sha256\ndefault_policy=1.2.3.4.1\ndigests=sha256,sha384\naccuracy=secs:1\n\
         ess_cert_id_alg=sha256\n",
    )
    .unwrap();
    std::fs::write(dir.join("serial"), "01\n").unwrap();
    let args = [
        "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "tsa.key", "-out", "tsa.pem", "-config", "tsa.cnf",
    ];
    well("openssl", &args, dir, "");
}

const STAMPS: [&str; 10] =
    ["ts", "-reply", "-config", "tsa.cnf", "-section", "own", "-queryfile", "head.tsq", "-out", "head.tsr"];

#[test]
fn a_stamp_is_asked_for_and_read_as_openssl_does() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    authority(dir);
    let head = Head { programme: Some("0123456789abcdef".into()), events: 31, head: [7; 32] };
    for nonce in [None, Some(0), Some(0x80), Some(u64::MAX)] {
        std::fs::write(dir.join("head.tsq"), stamp::request(&head.imprint(), nonce)).unwrap();
        let told = well("openssl", &["ts", "-query", "-in", "head.tsq", "-text"], dir, "");
        assert!(told.contains("Hash Algorithm: sha256") && told.contains("Certificate required: yes"), "{told}");
        assert_eq!(told.contains("Nonce: unspecified"), nonce.is_none(), "{told}");
        well("openssl", &STAMPS, dir, "");
        let read = stamp::read(&std::fs::read(dir.join("head.tsr")).unwrap()).unwrap();
        assert_eq!(read.imprint, head.imprint());
        // Its own words of the time: `Time stamp: Dec  1 05:00:00 2026 GMT`.
        let told = well("openssl", &["ts", "-reply", "-in", "head.tsr", "-text"], dir, "");
        let stamped = told.lines().find_map(|l| l.strip_prefix("Time stamp: ")).unwrap();
        let date = well("date", &["-u", "-d", stamped, "+%Y-%m-%dT%H:%M:%SZ"], dir, "");
        assert_eq!(read.at, date.trim());
        // What a stranger does with the line and the answer.
        std::fs::write(dir.join("head.txt"), head.to_string()).unwrap();
        let args = ["ts", "-verify", "-data", "head.txt", "-in", "head.tsr", "-CAfile", "tsa.pem"];
        well("openssl", &args, dir, "");
    }
    // Of another digest: openssl's own query, with SHA-384.
    well("openssl", &["ts", "-query", "-data", "head.txt", "-sha384", "-out", "head.tsq"], dir, "");
    well("openssl", &STAMPS, dir, "");
    let found = stamp::read(&std::fs::read(dir.join("head.tsr")).unwrap());
    assert_eq!(found, Err(StampError::OtherDigest));
    // A refusal: this authority does not take SHA-512.
    well("openssl", &["ts", "-query", "-data", "head.txt", "-sha512", "-out", "head.tsq"], dir, "");
    ran("openssl", &STAMPS, dir, "");
    let found = stamp::read(&std::fs::read(dir.join("head.tsr")).unwrap());
    assert_eq!(found, Err(StampError::NotGranted { status: 2 }));
}

#[test]
fn a_stamp_cut_or_damaged_anywhere_is_read_or_refused_and_never_of_another_digest_unsaid() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    authority(dir);
    std::fs::write(dir.join("head.tsq"), stamp::request(&[9; 32], None)).unwrap();
    well("openssl", &STAMPS, dir, "");
    let answer = std::fs::read(dir.join("head.tsr")).unwrap();
    for cut in 0..answer.len() {
        assert!(stamp::read(&answer[..cut]).is_err(), "cut at {cut}");
    }
    for at in 0..answer.len() {
        for to in [0x00, 0x30, 0x80, 0x84, 0xFF] {
            let mut damaged = answer.clone();
            damaged[at] = to;
            let _ = stamp::read(&damaged);
        }
    }
}
