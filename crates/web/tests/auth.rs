//! The door against those who try it: strangers where accounts went away, many tries at once, addresses that lead
//! elsewhere, sessions of accounts that changed. Where a browser would be led is judged by the crate `url`, which
//! follows the URL standard as browsers do.

use crate::common::{self, Client, Face, PASSWORD};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Barrier};
use url::Url;
use web::auth::accounts::{Accounts, Role};

const LEAD: &[(&str, Role)] = &[("Marit Osk", Role::Lead)];

/// What a proxy with TLS adds to each request.
const FORWARDED: &[(&str, &str)] = &[("X-Forwarded-Proto", "https"), ("X-Forwarded-For", "203.0.113.7")];

fn accounts_file(face: &Face) -> PathBuf {
    web::accounts_file(&face.dir.path().join("sallow-levels.sqlite"))
}

/// A form sent with headers of a proxy.
fn post(c: &mut Client, path: &str, fields: &[(&str, &str)]) -> common::Answer {
    let body: Vec<String> = fields.iter().map(|(n, v)| format!("{n}={}", common::coded(v))).collect();
    let origin = format!("http://{}", c.host);
    let mut headers = vec![("Content-Type", "application/x-www-form-urlencoded"), ("Origin", origin.as_str())];
    headers.extend_from_slice(FORWARDED);
    c.send("POST", path, &headers, body.join("&").as_bytes())
}

/// A way to lose the file of accounts: its words, and what is done to the file.
type Loss = (&'static str, fn(&Path));

#[test]
fn strangers_act_as_lead_once_the_accounts_are_gone() {
    let ways: [Loss; 4] = [
        ("the last one removed", |f| assert!(Accounts::open(f).unwrap().remove("Marit Osk").unwrap())),
        ("the file moved", |f| std::fs::rename(f, f.with_extension("elsewhere")).unwrap()),
        ("the file emptied", |f| std::fs::write(f, "{\"accounts\": []}").unwrap()),
        ("the file of no use", |f| std::fs::write(f, "").unwrap()),
    ];
    for (way, lose) in ways {
        for (kind, face) in [("behind a proxy", Face::behind_tls(LEAD)), ("on loopback", Face::serve_plain(LEAD))] {
            let mut stranger = face.client();
            let token = stranger.send("GET", "/login", FORWARDED, &[]).token();
            let file = accounts_file(&face);
            let kept = std::fs::read(&file).unwrap();
            lose(&file);
            for path in ["/", "/record/accounts", "/enter/well"] {
                let page = stranger.send("GET", path, FORWARDED, &[]);
                assert_eq!(page.status, 303, "{way}, {kind}, {path}");
                assert!(page.header("location").unwrap().starts_with("/login"), "{way}, {kind}, {path}");
            }
            let well = [("token", token.as_str()), ("r0.name", "SL-9")];
            assert_eq!(post(&mut stranger, "/enter/well", &well).status, 303, "{way}, {kind}");
            assert!(face.store().wells().unwrap().is_empty(), "{way}, {kind}: a stranger wrote");
            assert_eq!(stranger.send("GET", "/login", FORWARDED, &[]).status, 200, "{way}, {kind}");
            // The accounts put back are those of before.
            std::fs::write(&file, kept).unwrap();
            let token = stranger.send("GET", "/login", FORWARDED, &[]).token();
            let fields = [("token", token.as_str()), ("name", "Marit Osk"), ("password", PASSWORD)];
            assert_eq!(post(&mut stranger, "/login", &fields).status, 303, "{way}, {kind}");
            assert_eq!(stranger.send("GET", "/record/accounts", FORWARDED, &[]).status, 200, "{way}, {kind}");
        }
    }
}

#[test]
fn an_open_face_that_once_had_an_account_opens_again() {
    let face = Face::empty();
    let mut c = face.client();
    assert_eq!(c.get("/record/accounts").status, 200, "nobody has an account: whoever uses this machine is lead");
    Accounts::open(&accounts_file(&face)).unwrap().set("Marit Osk", Role::Lead, PASSWORD).unwrap();
    assert_eq!(c.get("/record/accounts").status, 303);
    std::fs::remove_file(accounts_file(&face)).unwrap();
    assert_eq!(c.get("/record/accounts").status, 303, "it only gets stricter while it runs");
}

#[test]
fn sixty_logins_at_once_are_all_tried() {
    let face = Face::serve_plain(LEAD);
    let token = face.client().get("/login").token();
    let together = Arc::new(Barrier::new(60));
    let threads: Vec<_> = (0..60)
        .map(|n| {
            let (mut c, token, together) = (face.client(), token.clone(), together.clone());
            std::thread::spawn(move || {
                together.wait();
                let password = format!("a wrong password {n}");
                c.post("/login", &[("token", &token), ("name", "Marit Osk"), ("password", &password)]).status
            })
        })
        .collect();
    let told: Vec<u16> = threads.into_iter().map(|t| t.join().unwrap()).collect();
    let count = |status| told.iter().filter(|s| **s == status).count();
    // Five tries of a name in a quarter of an hour, as one after the other.
    assert_eq!((count(401), count(429)), (5, 55), "{told:?}");
}

#[test]
fn who_comes_in_uses_up_the_tries_of_their_address() {
    let face = Face::serve_plain(LEAD);
    // More than twenty, which is what an address may fail.
    for n in 0..25 {
        let mut c = face.client();
        let token = c.get("/login").token();
        let done = c.post("/login", &[("token", &token), ("name", "Marit Osk"), ("password", PASSWORD)]);
        assert_eq!(done.status, 303, "login {n}");
    }
}

/// What leads to another host where it is taken for a path: by two slashes, by backslashes, by what browsers leave out
/// (tab, line feed, carriage return, space before), by a scheme.
const ELSEWHERE: &[&str] = &[
    "//evil.example/",
    "///evil.example/",
    "/\t/evil.example/",
    "/\n/evil.example/",
    "/\r/evil.example/",
    "/\r\n/evil.example/",
    "\t//evil.example/",
    " //evil.example/",
    "/\\evil.example/",
    "/\t\\evil.example/",
    "\\\\evil.example/",
    "\\/evil.example/",
    "https://evil.example/",
    "https:evil.example/",
    "http:/\\evil.example/",
    "\u{1}https://evil.example/",
    "javascript:alert(1)",
    "data:text/html,x",
    "evil.example",
    "/wells\r\nSet-Cookie: limpid-session=x",
];

/// Where a browser goes that is on this web interface and is told `to`.
#[track_caller]
fn stays(face: &Face, answer: &common::Answer, told: &str) {
    assert_eq!(answer.status, 303, "{told:?}: {}", answer.text());
    let base = Url::parse(&format!("{}/login", face.base())).unwrap();
    let to = answer.header("location").unwrap_or_else(|| panic!("{told:?}: no place to go"));
    let goes = base.join(to).unwrap_or_else(|e| panic!("{told:?}: {to:?}: {e}"));
    assert_eq!(goes.origin(), base.origin(), "{told:?} leads to {goes}");
    assert_eq!(answer.headers.iter().filter(|(n, _)| n.eq_ignore_ascii_case("location")).count(), 1);
    assert!(answer.header("set-cookie").is_none_or(|c| !c.contains("limpid-session=x")), "{told:?}");
}

#[test]
fn a_login_leads_to_a_stranger() {
    let face = Face::serve_plain(LEAD);
    for to in ELSEWHERE {
        let mut c = face.client();
        let page = c.get(&format!("/login?to={}", common::coded(to)));
        let fields = [("token", page.token()), ("name", "Marit Osk".into()), ("password", PASSWORD.into())];
        let [token, name, password] = fields.each_ref().map(|(n, v)| (*n, v.as_str()));
        stays(&face, &c.post("/login", &[token, name, password, ("to", to)]), to);
        // As it stands in the form that the link opened.
        let text = page.text();
        let hidden = text.split("name=\"to\" value=\"").nth(1).unwrap().split('"').next().unwrap();
        let base = Url::parse(&face.base()).unwrap();
        assert_eq!(base.join(hidden).unwrap().origin(), base.origin(), "{to:?}: {hidden:?} in the form");
    }
    let mut c = face.client();
    let token = c.get("/login").token();
    let own = [("token", token.as_str()), ("name", "Marit Osk"), ("password", PASSWORD), ("to", "/wells?x=%2F%2Fy#z")];
    assert_eq!(c.post("/login", &own).header("location"), Some("/wells?x=%2F%2Fy#z"), "a path of our own is gone to");
}

#[test]
fn a_name_or_an_entry_leads_to_a_stranger() {
    let face = Face::empty();
    let mut c = face.client();
    for (n, to) in ELSEWHERE.iter().enumerate() {
        let token = c.get("/").token();
        for sent in [common::coded(to), (*to).to_string()] {
            stays(&face, &c.post("/name", &[("token", &token), ("name", "Marit Osk"), ("to", &sent)]), to);
        }
        let form = c.get(&format!("/enter/well?to={}", common::coded(to)));
        let well = format!("SL-{n}");
        let entered = c.post("/enter/well", &[("token", &form.token()), ("r0.name", &well), ("to", to)]);
        stays(&face, &entered, to);
        let path = format!("/correct/well/{}", n + 1);
        let token = c.get(&format!("{path}?to={}", common::coded(to))).token();
        let why = [("token", token.as_str()), ("why", "the plate says so"), ("to", to)];
        let corrected = [&why[..], &[("seen.description", ""), ("r0.description", "old"), ("r0.name", &well)]].concat();
        stays(&face, &c.post(&path, &corrected), to);
    }
    let token = c.get("/enter/well").token();
    let own = [("token", token.as_str()), ("r0.name", "SL-own"), ("to", "/trips/T%2F1?x=1")];
    assert_eq!(c.post("/enter/well", &own).header("location"), Some("/trips/T%2F1?x=1"));
}

#[test]
fn a_bottle_taken_out_leads_to_a_stranger() {
    let face = Face::demo(&[]);
    let mut c = face.client();
    for to in
        ["/runs/\t/evil.example", "/runs/../\t/evil.example", "/runs/x\r\nSet-Cookie: limpid-session=x", "/runs/\\"]
    {
        let token = c.get("/runs/SL-R-2607").token();
        let fields = [("token", token.as_str()), ("what", "SL2-26-07-B"), ("why", "a gust"), ("to", to)];
        let done = c.post("/take-out", &fields);
        stays(&face, &done, to);
        let page = c.retrying(&done);
        let text = c.get(&page).text();
        assert!(!text.contains("evil.example") && !text.contains("limpid-session=x"), "{to:?}: {text}");
    }
}

#[test]
fn a_session_outlives_its_password_its_role_or_its_account() {
    let team = [("Marit Osk", Role::Lead), ("Sam Pohl", Role::Sampler)];
    let face = Face::serve_plain(&team);
    let other = || Accounts::open(&accounts_file(&face)).unwrap();
    let changes: [(&str, &dyn Fn()); 4] = [
        ("a new password", &|| other().set("Sam Pohl", Role::Sampler, "another password").unwrap()),
        ("another role", &|| other().set("Sam Pohl", Role::Reader, PASSWORD).unwrap()),
        ("taken away", &|| assert!(other().remove("Sam Pohl").unwrap())),
        ("taken away and made again", &|| {
            assert!(other().remove("Sam Pohl").unwrap());
            other().set("Sam Pohl", Role::Sampler, PASSWORD).unwrap();
        }),
    ];
    for (what, change) in changes {
        other().set("Sam Pohl", Role::Sampler, PASSWORD).unwrap();
        let (mut sam, mut marit) = (face.client_as("Sam Pohl"), face.client_as("Marit Osk"));
        assert_eq!(sam.get("/wells").status, 200, "{what}");
        change();
        assert_eq!(sam.get("/wells").status, 303, "{what}: the old session opens nothing");
        assert_eq!(marit.get("/wells").status, 200, "{what}: another's session lives on");
    }
    // The same from a page of the lead's.
    let (mut sam, mut marit) = (face.client_as("Sam Pohl"), face.client_as("Marit Osk"));
    let token = marit.get("/record/accounts").token();
    let fields = [("name", "Sam Pohl"), ("role", "sampler"), ("password", "a third password")];
    assert_eq!(marit.post("/record/accounts", &[&[("token", token.as_str())], &fields[..]].concat()).status, 303);
    assert_eq!(sam.get("/wells").status, 303);
}
