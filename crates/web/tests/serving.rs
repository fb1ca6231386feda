//! Connections against those who hold them: half requests, idle connections, bodies that trickle, answers that nobody
//! takes; a reader who asks for 24 reports; the end in good time. Limits are short here: what is checked is that they hold.

use crate::common::{Client, Face, PASSWORD};
use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::time::{Duration, Instant};
use web::Limits;
use web::auth::accounts::Role;

const TEAM: &[(&str, Role)] = &[("Marit Osk", Role::Lead), ("Sam Pohl", Role::Reader)];

fn short() -> Limits {
    Limits {
        head: Duration::from_secs(1),
        piece: Duration::from_secs(1),
        taken: Duration::from_secs(2),
        connections: 150,
        ..Limits::default()
    }
}

fn empty(limits: Limits) -> Face {
    let dir = tempfile::tempdir().unwrap();
    programme::start::start(dir.path().join("sallow-levels.sqlite"), "test", "2026-07-01T00:00:00Z").unwrap();
    Face::limited(dir, TEAM, limits)
}

/// Connections that have said so much.
fn connections(face: &Face, n: usize, said: &str) -> Vec<TcpStream> {
    let one = |_| {
        let mut stream = TcpStream::connect(face.address).unwrap();
        // One that was closed already takes nothing.
        let _ = stream.write_all(said.as_bytes());
        stream
    };
    (0..n).map(one).collect()
}

/// Whether the other end has closed it within the time.
fn is_closed(stream: &mut TcpStream, within: Duration) -> bool {
    stream.set_read_timeout(Some(within)).unwrap();
    let mut all = vec![];
    match stream.read_to_end(&mut all) {
        Ok(_) => true,
        Err(e) => e.kind() == std::io::ErrorKind::ConnectionReset,
    }
}

#[test]
fn three_hundred_half_requests_are_closed_and_nobody_waits_for_them() {
    let face = empty(short());
    let mut half = connections(&face, 300, "GET /login HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: ");
    let begun = Instant::now();
    let mut lead = face.client_as("Marit Osk");
    assert_eq!(lead.get("/").status, 200);
    assert!(begun.elapsed() < Duration::from_secs(5), "{:?}", begun.elapsed());
    // A letter now and then does not keep them open: the head has its time as a whole.
    for stream in &mut half {
        let _ = stream.write_all(b"a");
    }
    std::thread::sleep(Duration::from_millis(1500));
    let open = half.iter_mut().filter_map(|s| (!is_closed(s, Duration::from_secs(2))).then_some(())).count();
    assert_eq!(open, 0, "of 300 half requests are still open");
}

#[test]
fn a_thousand_idle_connections_block_nobody() {
    // The time for a head is long: it is not that which frees the places.
    let face = empty(Limits { head: Duration::from_mins(10), ..short() });
    let idle = connections(&face, 1000, "");
    let begun = Instant::now();
    let mut lead = face.client_as("Marit Osk");
    for _ in 0..5 {
        assert_eq!(lead.get("/").status, 200);
    }
    assert!(begun.elapsed() < Duration::from_secs(10), "{:?}", begun.elapsed());
    drop(idle);
}

#[test]
fn a_body_that_trickles_and_one_that_stays_away_are_given_up() {
    let face = empty(Limits { least_rate: 1000, ..short() });
    let head = format!(
        "POST /login HTTP/1.1\r\nHost: {0}\r\nOrigin: http://{0}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100000\r\n\r\n",
        face.address
    );
    let mut silent = connections(&face, 1, &head).remove(0);
    let mut trickles = connections(&face, 1, &head).remove(0);
    for _ in 0..12 {
        let _ = trickles.write_all(b"a");
        std::thread::sleep(Duration::from_millis(250));
    }
    assert!(is_closed(&mut silent, Duration::from_secs(2)), "the body that stays away");
    assert!(is_closed(&mut trickles, Duration::from_secs(2)), "the body that trickles");
}

#[test]
fn an_answer_that_nobody_takes_frees_its_place() {
    let mut face = empty(short());
    // The style is larger than what the system holds for a connection that reads nothing, asked for often enough.
    let ask = format!("GET /page.css HTTP/1.1\r\nHost: {}\r\n\r\n", face.address).repeat(40);
    let mut deaf = connections(&face, 1, &ask).remove(0);
    std::thread::sleep(Duration::from_secs(4));
    // Closed on the other side: what the system holds is read, then it ends.
    assert!(is_closed(&mut deaf, Duration::from_secs(5)));
    assert!(face.stop() < Duration::from_secs(5));
}

#[test]
fn twenty_four_reports_of_a_reader_and_the_lead_goes_on() {
    let face = Face::limited(Face::invented_in_a_folder(), TEAM, Limits::default());
    let reader = face.client_as("Sam Pohl");
    let mut lead = face.client_as("Marit Osk");
    assert_eq!(lead.get("/wells").status, 200);
    let asked: Vec<_> = (0..24)
        .map(|_| {
            let mut c: Client = reader.clone();
            std::thread::spawn(move || {
                let token = c.get("/report").token();
                c.post("/report", &[("token", &token), ("what", "full"), ("language", "en")]).status
            })
        })
        .collect();
    std::thread::sleep(Duration::from_millis(500));
    let mut slowest = Duration::ZERO;
    for path in ["/", "/wells", "/results", "/runs", "/record"] {
        let begun = Instant::now();
        assert_eq!(lead.get(path).status, 200, "{path}");
        slowest = slowest.max(begun.elapsed());
    }
    // Other work on the machine must not decide this: without bounds the pages came after all the reports.
    assert!(slowest < Duration::from_secs(20), "{slowest:?}");
    // The lead's own work does not stand behind the reader's.
    let token = lead.get("/record").token();
    let verified = lead.post("/record/verify", &[("token", &token)]);
    let page = lead.retrying(&verified);
    let told: Vec<u16> = asked.into_iter().map(|t| t.join().unwrap()).collect();
    let refused = told.iter().filter(|s| **s == 429).count();
    let taken = told.iter().filter(|s| **s == 303).count();
    assert_eq!(refused + taken, 24, "{told:?}");
    // Nine at least are taken (one at work, eight that wait), more where some were done meanwhile.
    assert!(taken >= 9 && refused > 0, "{told:?}");
    assert!(lead.get(&page).status < 400);
}

#[test]
fn it_ends_within_five_seconds_whoever_holds_on() {
    let mut face = Face::limited(Face::invented_in_a_folder(), TEAM, Limits::default());
    let mut reader = face.client_as("Sam Pohl");
    let idle = connections(&face, 20, "");
    let half = connections(&face, 20, "GET / HTTP/1.1\r\n");
    // A job at work, and who watches it.
    let token = reader.get("/report").token();
    let to = reader.post("/report", &[("token", &token), ("what", "full"), ("language", "en")]);
    let to = to.header("location").unwrap_or("/").to_string();
    let watch = format!("GET {to}/stream HTTP/1.1\r\nHost: {}\r\nCookie: {}\r\n\r\n", face.address, reader.cookie);
    let watching = connections(&face, 1, &watch);
    let took = face.stop();
    assert!(took < Duration::from_secs(5), "{took:?}");
    drop((idle, half, watching));
}

#[test]
fn strangers_do_not_lock_the_lead_out_of_a_known_browser() {
    let face = empty(Limits::default());
    let mut known = face.client();
    let token = known.get("/login").token();
    let fields = [("token", token.as_str()), ("name", "Marit Osk"), ("password", PASSWORD)];
    let came = known.post("/login", &fields);
    assert_eq!(came.status, 303);
    let kept: Vec<&str> =
        came.headers.iter().filter(|(n, _)| n.eq_ignore_ascii_case("set-cookie")).map(|(_, v)| v.as_str()).collect();
    assert_eq!(kept.len(), 2, "the session, and the mark of the browser");
    let mark = kept[1].split(';').next().unwrap().to_string();
    // From the same address, which is the worst case: a stranger behind the same router.
    let mut stranger = face.client();
    let try_as = |c: &mut Client, password: &str| {
        let token = c.get("/login").token();
        c.post("/login", &[("token", token.as_str()), ("name", "Marit Osk"), ("password", password)]).status
    };
    let told: Vec<u16> = (0..8).map(|n| try_as(&mut stranger, &format!("a wrong password {n}"))).collect();
    assert_eq!(told, [401, 401, 401, 401, 401, 429, 429, 429]);
    assert_eq!(try_as(&mut stranger, PASSWORD), 429, "held up, whatever is typed");
    let mut own = face.client();
    own.cookie = mark;
    assert_eq!(try_as(&mut own, PASSWORD), 303, "the known browser goes on");
}
