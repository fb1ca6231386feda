//! The web interface at the command line: accounts, and what it refuses. The web interface itself is tested in its own room.

use crate::desk::{Desk, Ran};
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Command, Stdio};

fn add(desk: &Desk, name: &str, role: &str, password: &str) -> Ran {
    let mut child = desk
        .command(&["account", "a.sqlite", "add", name, "--role", role])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(format!("{password}\n").as_bytes()).unwrap();
    Ran::of(child.wait_with_output().unwrap())
}

#[test]
fn others_come_in_by_account_only() {
    let desk = Desk::new();
    desk.run(&["new", "a.sqlite"]).done();
    desk.run(&["serve", "a.sqlite", "--listen", "0.0.0.0", "--port", "0"])
        .fails(2, &["lets others in", "limpid account"]);
    add(&desk, "Ines Varga", "chief", "a long password").fails(2, &["chief", "reader, sampler, analyst, lead"]);
    add(&desk, "Ines Varga", "lead", "short").fails(1, &["The password", "at least 10"]);
    add(&desk, "Ines Varga", "lead", "a long password").done();
    assert_eq!(desk.run(&["account", "a.sqlite", "list"]).done(), "lead     Ines Varga\n");
    add(&desk, "Ines  Varga", "lead", "a long password").fails(1, &["looks like Ines Varga"]);
    // Beyond this machine passwords do not go in the clear, and a certificate is read before anybody is asked.
    desk.run(&["serve", "a.sqlite", "--listen", "0.0.0.0", "--port", "0"]).fails(2, &["without TLS", "--tls-cert"]);
    std::fs::write(desk.path("c.pem"), "no certificate").unwrap();
    desk.run(&["serve", "a.sqlite", "--port", "0", "--tls-cert", "c.pem", "--tls-key", "c.pem"])
        .fails(4, &["c.pem", "PEM"]);
    desk.run(&["serve", "a.sqlite", "--tls-cert", "c.pem"]).fails(2, &["--tls-key"]);
    let kept = std::fs::read_to_string(desk.path("a.sqlite.accounts")).unwrap();
    assert!(kept.contains("$argon2id$") && !kept.contains("a long password"));
    desk.run(&["account", "a.sqlite", "remove", "Nobody"]).fails(1, &["no account of Nobody"]);
    desk.run(&["account", "a.sqlite", "without-code", "Nobody"]).fails(1, &["no account of Nobody"]);
    desk.run(&["account", "a.sqlite", "remove", "Ines Varga"]).done();
    let log = desk.run(&["account", "a.sqlite", "log"]).done();
    let acts: Vec<serde_json::Value> = log.lines().map(|l| serde_json::from_str(l).unwrap()).collect();
    let acts: Vec<(&str, &str)> =
        acts.iter().map(|a| (a["act"].as_str().unwrap(), a["whom"].as_str().unwrap())).collect();
    assert_eq!(acts, [("set-account", "Ines Varga"), ("removed-account", "Ines Varga")]);
}

#[test]
fn the_face_says_where_it_is_and_ends_when_told() {
    let desk = Desk::new();
    desk.run(&["new", "a.sqlite"]).done();
    says_where_it_is(&desk, "a.sqlite");
}

/// Starts the web interface, asks for its first page, ends it.
pub fn says_where_it_is(desk: &Desk, store: &str) {
    let mut child = desk.command(&["serve", store, "--port", "0"]).stdout(Stdio::piped()).spawn().unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    let address = line.split("http://").nth(1).and_then(|a| a.split('/').next()).expect("an address").to_string();
    assert!(address.starts_with("127.0.0.1:"), "{line}");
    let mut stream = TcpStream::connect(&address).unwrap();
    write!(stream, "GET / HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n").unwrap();
    let mut page = String::new();
    stream.read_to_string(&mut page).unwrap();
    assert!(page.contains("First steps"), "{page}");
    Command::new("kill").arg(child.id().to_string()).status().unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(0));
}
