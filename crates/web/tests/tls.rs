//! TLS of our own, looked at from outside by `openssl`: which protocols and ciphers are spoken, which certificate is shown,
//! and that a new one on the disk is shown without a new start.

use crate::common::{Face, PASSWORD};
use std::net::SocketAddr;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;
use web::TlsFiles;
use web::auth::accounts::Role;

fn openssl(args: &[&str]) -> (bool, String) {
    let ran = Command::new("openssl").args(args).stdin(Stdio::null()).output().expect("openssl is on this machine");
    (ran.status.success(), String::from_utf8_lossy(&ran.stdout).into_owned() + &String::from_utf8_lossy(&ran.stderr))
}

/// A certificate of its own for localhost, for a day.
fn certificate(dir: &Path, common_name: &str) -> TlsFiles {
    let (cert, key) = (dir.join("cert.pem"), dir.join("key.pem"));
    let subject = format!("/CN={common_name}");
    let made = openssl(&[
        "req",
        "-x509",
        "-newkey",
        "ec",
        "-pkeyopt",
        "ec_paramgen_curve:P-256",
        "-nodes",
        "-days",
        "1",
        "-subj",
        &subject,
        "-addext",
        "subjectAltName=DNS:localhost,IP:127.0.0.1",
        "-keyout",
        key.to_str().unwrap(),
        "-out",
        cert.to_str().unwrap(),
    ]);
    assert!(made.0, "{}", made.1);
    TlsFiles { cert, key }
}

fn face() -> (Face, TlsFiles) {
    let dir = tempfile::tempdir().unwrap();
    programme::start::start(dir.path().join("sallow-levels.sqlite"), "test", "2026-07-01T00:00:00Z").unwrap();
    let files = certificate(dir.path(), "wells-one");
    let tls = files.clone();
    (Face::serve_with(dir, &[("Marit Osk", Role::Lead)], |o| o.tls = Some(tls)), files)
}

/// What `openssl s_client` says of a connection made so.
fn connected(address: SocketAddr, how: &[&str]) -> (bool, String) {
    let at = address.to_string();
    openssl(&[&["s_client", "-connect", at.as_str(), "-servername", "localhost"], how].concat())
}

#[test]
fn protocols_ciphers_and_certificate_as_openssl_sees_them() {
    let (face, files) = face();
    let cert = files.cert.to_str().unwrap();
    let trusted = ["-CAfile", cert, "-verify_return_error", "-verify_hostname", "localhost"];
    for (protocol, cipher) in [("-tls1_3", "TLS_AES_"), ("-tls1_2", "ECDHE-ECDSA-")] {
        let (well, said) = connected(face.address, &[&trusted[..], &[protocol]].concat());
        assert!(well && said.contains("Verify return code: 0 (ok)"), "{protocol}: {said}");
        let line = said.lines().find(|l| l.contains("Cipher is ")).unwrap_or_default();
        assert!(line.contains(cipher), "{protocol}: {line}");
        assert!(said.contains("CN = wells-one") || said.contains("CN=wells-one"), "{said}");
    }
    // At the security level 0 openssl itself would speak what is old.
    for old in ["-tls1", "-tls1_1"] {
        let (well, said) = connected(face.address, &[old, "-cipher", "ALL:@SECLEVEL=0"]);
        assert!(!well, "{old}: {said}");
    }
    // Without a key of the connection's own, with CBC, with RC4 or 3DES, without a seal.
    for weak in ["AES128-SHA", "AES256-SHA256", "ECDHE-ECDSA-AES128-SHA", "AES128-GCM-SHA256", "eNULL", "aNULL"] {
        let (well, said) = connected(face.address, &["-tls1_2", "-cipher", &format!("{weak}:@SECLEVEL=0")]);
        assert!(!well, "{weak}: {said}");
    }
    let (well, _) =
        connected(face.address, &["-CAfile", cert, "-verify_return_error", "-verify_hostname", "elsewhere.example"]);
    assert!(!well, "it is shown as localhost alone");
}

#[test]
fn a_new_certificate_is_shown_without_a_new_start() {
    let (face, files) = face();
    let shown = || connected(face.address, &[]).1;
    assert!(shown().contains("wells-one"));
    // A half-written file leaves the old one in use.
    let new = tempfile::tempdir().unwrap();
    let other = certificate(new.path(), "wells-two");
    std::thread::sleep(Duration::from_millis(2100));
    std::fs::write(&files.cert, "-----BEGIN CERTIFICATE-----\nMIIB").unwrap();
    assert!(shown().contains("wells-one"));
    std::fs::copy(&other.key, &files.key).unwrap();
    std::fs::copy(&other.cert, &files.cert).unwrap();
    std::thread::sleep(Duration::from_millis(2100));
    assert!(shown().contains("wells-two"), "{}", shown());
}

#[test]
fn who_logs_in_by_tls_gets_cookies_for_tls_alone() {
    let (face, files) = face();
    // curl keeps cookies and follows the standards of its own accord; the certificate is checked.
    let curl = |args: &[&str]| {
        let jar = face.dir.path().join("jar");
        let ran = Command::new("curl")
            .args(["--silent", "--include", "--cacert", files.cert.to_str().unwrap()])
            .args(["--cookie-jar", jar.to_str().unwrap(), "--cookie", jar.to_str().unwrap()])
            .args(args)
            .output()
            .expect("curl is on this machine");
        String::from_utf8_lossy(&ran.stdout).into_owned()
    };
    let base = format!("https://localhost:{}", face.address.port());
    let page = curl(&[&format!("{base}/login")]);
    assert!(page.contains("strict-transport-security: max-age=31536000"), "{page}");
    let at = page.rfind("name=\"token\" value=\"").expect("a form") + 20;
    let token = page[at..].split('"').next().unwrap();
    let origin = format!("Origin: {base}");
    let done = curl(&[
        "--header",
        &origin,
        "--data-urlencode",
        &format!("token={token}"),
        "--data-urlencode",
        "name=Marit Osk",
        "--data-urlencode",
        &format!("password={PASSWORD}"),
        &format!("{base}/login"),
    ]);
    assert!(done.starts_with("HTTP/1.1 303"), "{done}");
    let cookies: Vec<&str> = done.lines().filter(|l| l.starts_with("set-cookie: ")).collect();
    assert_eq!(cookies.len(), 2);
    assert!(cookies.iter().all(|c| c.contains("__Host-limpid-") && c.contains("; Secure") && c.contains("HttpOnly")));
    assert!(curl(&[&format!("{base}/wells")]).starts_with("HTTP/1.1 200"));
    // Without TLS nothing is answered on that port.
    let plain = curl(&[&format!("http://localhost:{}/login", face.address.port())]);
    assert!(!plain.contains("HTTP/1.1 200"), "{plain}");
}
