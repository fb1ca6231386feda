//! One's own account: password, sessions, second factor; the log of the door; cookies of two programmes. The codes are
//! worked out here by the program `openssl`, which knows nothing of ours.

use crate::common::{Answer, Client, Face, PASSWORD};
use std::io::Write as _;
use std::process::{Command, Stdio};
use web::auth::accounts::{Accounts, Role};

const TEAM: &[(&str, Role)] = &[("Marit Osk", Role::Lead), ("Sam Pohl", Role::Sampler)];

/// The code of six digits of a moment (RFC 6238, RFC 4226 section 5.3): base 32 by `base32`, the HMAC by `openssl`.
fn code(secret: &str, moment_s: u64) -> String {
    let run = |program: &str, args: &[&str], given: &[u8]| {
        let mut child =
            Command::new(program).args(args).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect(program);
        child.stdin.take().unwrap().write_all(given).unwrap();
        child.wait_with_output().unwrap().stdout
    };
    let key = run("base32", &["--decode"], secret.as_bytes());
    let hex: String = key.iter().map(|b| format!("{b:02x}")).collect();
    let mac = ["dgst", "-sha1", "-binary", "-mac", "HMAC", "-macopt", &format!("hexkey:{hex}")];
    let tag = run("openssl", &mac, &(moment_s / 30).to_be_bytes());
    let at = usize::from(tag[19] & 15);
    let four: [u8; 4] = tag[at..at + 4].try_into().unwrap();
    format!("{:06}", (u32::from_be_bytes(four) & 0x7FFF_FFFF) % 1_000_000)
}

fn now_s() -> u64 {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_secs()
}

fn login(c: &mut Client, fields: &[(&str, &str)]) -> Answer {
    let token = c.get("/login").token();
    c.post("/login", &[&[("token", token.as_str()), ("name", "Marit Osk")], fields].concat())
}

/// The value of a hidden field.
fn hidden(page: &str, name: &str) -> String {
    let from = page.split(&format!("name=\"{name}\" value=\"")).nth(1).unwrap_or_else(|| panic!("no {name}: {page}"));
    from.split('"').next().unwrap().to_string()
}

fn log(face: &Face) -> Vec<(String, String, String)> {
    let text = face.client_as("Marit Osk").get("/record/accounts/log").text();
    let mut rows = csv::Reader::from_reader(text.as_bytes());
    rows.records().map(|r| r.unwrap()).map(|r| (r[1].to_string(), r[2].to_string(), r[3].to_string())).collect()
}

#[test]
fn a_second_factor_is_asked_for_once_it_is_set_up() {
    let face = Face::serve_plain(TEAM);
    let mut c = face.client_as("Marit Osk");
    let mut other = face.client_as("Marit Osk");
    let token = c.get("/account").token();
    let page = c.post("/account/second/begin", &[("token", &token)]);
    let (secret, mark) = (hidden(&page.text(), "secret"), hidden(&page.text(), "mark"));
    assert_eq!(secret.len(), 32, "160 bits in base 32");
    assert!(page.text().contains("otpauth://totp/"));
    let set = |c: &mut Client, secret: &str, password: &str, code: &str| {
        let token = c.get("/account").token();
        let fields = [("secret", secret), ("mark", mark.as_str()), ("now", password), ("second", code)];
        c.post("/account/second", &[&[("token", token.as_str())], &fields[..]].concat())
    };
    let shown = code(&secret, now_s());
    assert_eq!(set(&mut c, &secret, "a wrong password", &shown).status, 422);
    assert_eq!(set(&mut c, &secret, PASSWORD, "12345").status, 422);
    assert_eq!(
        set(&mut c, "MZXW6YTBOIMZXW6YTBOIMZXW6YTBOIMZ", PASSWORD, &shown).status,
        422,
        "a secret of a stranger's"
    );
    assert_eq!(set(&mut c, &secret, PASSWORD, &shown).status, 200);
    assert_eq!(c.get("/account").status, 200, "this browser goes on");
    assert_eq!(other.get("/account").status, 303, "the others end");
    // The code that set it up has counted; the next half minute is near enough.
    let next = code(&secret, now_s() + 30);
    for (code, status) in [("", 401), (shown.as_str(), 401), (next.as_str(), 303), (next.as_str(), 401)] {
        let told = login(&mut face.client(), &[("password", PASSWORD), ("code", code)]);
        assert_eq!(told.status, status, "{code:?}");
    }
    // A lost telephone: whoever keeps the programme takes it away.
    let accounts = Accounts::open(&web::accounts_file(&face.dir.path().join("sallow-levels.sqlite"))).unwrap();
    accounts.set_second("Marit Osk", None).unwrap();
    let mut own = face.client();
    own.cookie = c.cookie.clone();
    assert_eq!(own.get("/account").status, 303, "its sessions end");
    let acts: Vec<String> = log(&face).into_iter().map(|(_, act, _)| act).collect();
    assert!(acts.contains(&"set-code".to_string()) && acts.contains(&"refused".to_string()), "{acts:?}");
}

#[test]
fn the_own_password_is_changed_by_who_knows_it() {
    let face = Face::serve_plain(TEAM);
    let (mut sam, mut elsewhere, mut marit) =
        (face.client_as("Sam Pohl"), face.client_as("Sam Pohl"), face.client_as("Marit Osk"));
    let change = |c: &mut Client, now: &str, new: &str| {
        let token = c.get("/account").token();
        c.post("/account/password", &[("token", &token), ("now", now), ("new", new)])
    };
    assert_eq!(change(&mut sam, "a wrong password", "the next password").status, 422);
    assert_eq!(change(&mut sam, PASSWORD, "short").status, 422);
    assert_eq!(change(&mut sam, PASSWORD, "sam-pohl-12").status, 422, "the own name");
    let done = change(&mut sam, PASSWORD, "the next password");
    assert_eq!(done.status, 200, "{}", done.text());
    assert_eq!(sam.get("/account").status, 200);
    // The forms of that page are the new session's.
    let ended = sam.post("/account/sessions/others", &[("token", &done.token())]);
    assert_eq!(ended.status, 303, "{}", ended.text());
    assert_eq!(elsewhere.get("/account").status, 303);
    assert_eq!(marit.get("/account").status, 200);
    let mut c = face.client();
    let token = c.get("/login").token();
    let fields = [("token", token.as_str()), ("name", "Sam Pohl"), ("password", PASSWORD)];
    assert_eq!(c.post("/login", &fields).status, 401);
}

#[test]
fn sessions_are_listed_and_ended() {
    let face = Face::serve_plain(TEAM);
    let (mut one, mut two, mut marit) =
        (face.client_as("Sam Pohl"), face.client_as("Sam Pohl"), face.client_as("Marit Osk"));
    let page = one.get("/account").text();
    let id = hidden(&page, "id");
    assert!(page.contains("this one") && !page.contains("Marit Osk"), "one's own alone");
    let number = two.cookie.split('=').nth(1).unwrap();
    assert!(!page.contains(number) && !number.contains(&id), "what is listed opens nothing");
    let token = one.get("/account").token();
    assert_eq!(one.post("/account/sessions", &[("token", &token), ("id", &id)]).status, 303);
    assert_eq!(two.get("/account").status, 303);
    // A sampler ends nobody else's.
    let leads = hidden(&marit.get("/record/accounts").text(), "id");
    let mut three = face.client_as("Marit Osk");
    let all = hidden(&three.get("/account").text(), "id");
    let token = one.get("/account").token();
    one.post("/account/sessions", &[("token", &token), ("id", &all)]);
    assert_eq!((marit.get("/account").status, three.get("/account").status), (200, 200));
    // The lead ends anybody's.
    let token = marit.get("/record/accounts").token();
    marit.post("/account/sessions", &[("token", &token), ("id", &leads)]);
    assert_eq!(one.get("/account").status, 303);
    let ended: Vec<_> = log(&face).into_iter().filter(|(_, act, _)| act == "ended-session").collect();
    assert_eq!(ended.len(), 2);
    assert_eq!((ended[1].0.as_str(), ended[1].2.as_str()), ("Marit Osk", "Sam Pohl"));
}

#[test]
fn the_log_of_the_door_is_the_leads() {
    let face = Face::serve_plain(TEAM);
    let mut sam = face.client_as("Sam Pohl");
    assert_eq!(sam.get("/record/accounts/log").status, 403);
    // A password in the field of the name is not written down.
    let mut c = face.client();
    let token = c.get("/login").token();
    c.post("/login", &[("token", token.as_str()), ("name", "my secret password"), ("password", "x")]);
    let mut marit = face.client_as("Marit Osk");
    let token = marit.get("/record/accounts").token();
    let fields = [("name", "Ines Varga"), ("role", "analyst"), ("password", PASSWORD)];
    marit.post("/record/accounts", &[&[("token", token.as_str())], &fields[..]].concat());
    let events = log(&face);
    let has = |who: &str, act: &str, whom: &str| events.contains(&(who.into(), act.into(), whom.into()));
    assert!(has("Sam Pohl", "came-in", "") && has("", "refused", "") && has("Marit Osk", "set-account", "Ines Varga"));
    let file = face.dir.path().join("sallow-levels.sqlite.accounts.log");
    let text = std::fs::read_to_string(file).unwrap();
    assert!(!text.contains("my secret") && !text.contains(PASSWORD));
    let page = marit.get("/record/accounts").text();
    assert!(page.contains("set account and role: analyst"), "{page}");
}

#[test]
fn look_alike_names_get_no_account() {
    let face = Face::serve_plain(TEAM);
    let mut marit = face.client_as("Marit Osk");
    for name in ["marit osk", "Маrit Osk", "Marit\u{200b} Osk", "Sarn Pohl"] {
        let token = marit.get("/record/accounts").token();
        let fields = [("name", name), ("role", "lead"), ("password", PASSWORD)];
        let told = marit.post("/record/accounts", &[&[("token", token.as_str())], &fields[..]].concat());
        assert_eq!(told.status, 422, "{name:?}");
    }
}

#[test]
fn two_programmes_of_one_host_keep_their_sessions_apart() {
    let (one, two) = (Face::serve_plain(TEAM), Face::serve_plain(TEAM));
    let (mut a, b) = (one.client_as("Marit Osk"), two.client_as("Marit Osk"));
    let name = |c: &Client| c.cookie.split('=').next().unwrap().to_string();
    assert_ne!(name(&a), name(&b));
    // A browser sends the cookies of a host to all its ports.
    a.cookie = format!("{}; {}", b.cookie, a.cookie);
    assert_eq!(a.get("/account").status, 200);
}

#[test]
fn what_came_up_and_what_is_made_is_for_the_owner_of_the_program_alone() {
    use std::os::unix::fs::PermissionsExt as _;
    let face = Face::demo(&[]);
    let mut c = face.client();
    let token = c.get("/runs/bring-in").token();
    assert_eq!(c.upload("/runs/bring-in", &token, &[("counts.csv", b"a,b\n1,2\n")]).status, 303);
    let work = face.dir.path().join("sallow-levels.sqlite.accounts.work");
    let mode = |p: &std::path::Path| p.metadata().unwrap().permissions().mode() & 0o777;
    assert_eq!(mode(&work), 0o700);
    let own: Vec<_> = std::fs::read_dir(&work).unwrap().map(|e| e.unwrap().path()).collect();
    assert_eq!(own.len(), 1);
    let uploads: Vec<_> =
        std::fs::read_dir(&own[0]).unwrap().map(|e| e.unwrap().path()).filter(|p| p.is_dir()).collect();
    assert_eq!(uploads.len(), 1);
    assert_eq!((mode(&own[0]), mode(&uploads[0])), (0o700, 0o700));
}
