//! A web interface served on a throwaway programme, and a plain HTTP client.
#![allow(dead_code, reason = "each test file uses its part")]

pub mod browser;
pub mod large;
pub mod load;

use std::io::{Read as _, Write as _};
use std::net::{IpAddr, Ipv4Addr, SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::sync::mpsc::channel;
use std::thread::JoinHandle;
use std::time::Duration;
use web::auth::accounts::{Accounts, Role};

/// Password of every account in the tests.
pub const PASSWORD: &str = "a password for tests";

/// A served programme.
pub struct Face {
    pub dir: tempfile::TempDir,
    pub address: SocketAddr,
    stop: Option<tokio::sync::oneshot::Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

/// The raw files of the invented trip, written to a folder: path and mapping.
pub fn raw_files(dir: &Path) -> Vec<(PathBuf, &'static str)> {
    let trip = simulator::Trip::new(2611, simulator::Purpose::Demo);
    let write = |f: simulator::files::RawFile| {
        let path = dir.join(f.name);
        std::fs::write(&path, f.text).unwrap();
        (path, f.mapping)
    };
    simulator::files::raw_files(&trip).into_iter().map(write).collect()
}

/// The invented programme, derived once for all tests of this process: each serves a copy of its own.
fn invented() -> &'static Path {
    static MADE: OnceLock<(tempfile::TempDir, PathBuf)> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("sallow-levels.sqlite");
        let mut store = programme::start::start(&path, "test", "2026-07-01T00:00:00Z").unwrap();
        let mut inputs = vec![];
        for (path, mapping) in raw_files(dir.path()) {
            inputs.extend(intake::import::inputs(&store, &[path], mapping).unwrap());
        }
        intake::import::import(&mut store, &inputs, "Ines Varga", "2026-07-23T14:20:00Z").unwrap();
        let by = record::by::By { person: "Ines Varga", at: "2026-07-23T14:21:00Z" };
        programme::work::recompute(&mut store, None, by).unwrap();
        // Closing writes the log of the last acts into the file, so the file alone is the whole programme.
        drop(store);
        assert!(!path.with_extension("sqlite-wal").exists(), "the log stayed beside the file");
        (dir, path)
    });
    &made.1
}

impl Face {
    /// On an empty programme.
    pub fn empty() -> Self {
        Self::start(|_| {}, &[])
    }

    /// On the invented programme, with these accounts.
    pub fn demo(accounts: &[(&str, Role)]) -> Self {
        Self::serve(Self::invented_in_a_folder(), accounts)
    }

    /// On a programme that is filled before it is served.
    pub fn filled(fill: impl FnOnce(&mut record::store::Store)) -> Self {
        Self::start(fill, &[])
    }

    fn start(fill: impl FnOnce(&mut record::store::Store), accounts: &[(&str, Role)]) -> Self {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("sallow-levels.sqlite");
        let mut store = programme::start::start(&path, "test", "2026-07-01T00:00:00Z").unwrap();
        fill(&mut store);
        drop(store);
        Self::serve(dir, accounts)
    }

    /// On a programme that is there: `sallow-levels.sqlite` in the folder.
    pub fn serve(dir: tempfile::TempDir, accounts: &[(&str, Role)]) -> Self {
        Self::serve_as(dir, accounts, false)
    }

    /// On an empty programme behind a proxy with TLS.
    pub fn behind_tls(accounts: &[(&str, Role)]) -> Self {
        let dir = tempfile::tempdir().unwrap();
        programme::start::start(dir.path().join("sallow-levels.sqlite"), "test", "2026-07-01T00:00:00Z").unwrap();
        Self::serve_as(dir, accounts, true)
    }

    /// On an empty programme, where nobody was named when it was served.
    pub fn of_nobody() -> Self {
        let dir = tempfile::tempdir().unwrap();
        programme::start::start(dir.path().join("sallow-levels.sqlite"), "test", "2026-07-01T00:00:00Z").unwrap();
        Self::serve_by(dir, &[], false, programme::hands::NOT_NAMED)
    }

    /// On an empty programme, served as it is.
    pub fn serve_plain(accounts: &[(&str, Role)]) -> Self {
        Self::start(|_| {}, accounts)
    }

    fn serve_as(dir: tempfile::TempDir, accounts: &[(&str, Role)], behind_tls: bool) -> Self {
        Self::serve_by(dir, accounts, behind_tls, "Marit Osk")
    }

    /// On a programme that is there, with limits of its own.
    pub fn limited(dir: tempfile::TempDir, accounts: &[(&str, Role)], limits: web::Limits) -> Self {
        Self::serve_with(dir, accounts, |o| o.limits = limits)
    }

    /// The invented programme in a folder of its own, to be served.
    pub fn invented_in_a_folder() -> tempfile::TempDir {
        let dir = tempfile::tempdir().unwrap();
        std::fs::copy(invented(), dir.path().join("sallow-levels.sqlite")).unwrap();
        dir
    }

    fn serve_by(dir: tempfile::TempDir, accounts: &[(&str, Role)], behind_tls: bool, person: &str) -> Self {
        Self::serve_with(dir, accounts, |o| {
            o.behind_tls = behind_tls;
            o.person = person.into();
        })
    }

    /// With other options than usual.
    pub fn serve_with(
        dir: tempfile::TempDir,
        accounts: &[(&str, Role)],
        change: impl FnOnce(&mut web::Options),
    ) -> Self {
        let path = dir.path().join("sallow-levels.sqlite");
        let file = web::accounts_file(&path);
        for (name, role) in accounts {
            Accounts::open(&file).unwrap().set(name, *role, PASSWORD).unwrap();
        }
        let mut options = web::Options {
            store: path,
            address: SocketAddr::new(IpAddr::V4(Ipv4Addr::LOCALHOST), 0),
            accounts: file,
            person: "Marit Osk".into(),
            behind_tls: false,
            tls: None,
            limits: web::Limits::default(),
        };
        change(&mut options);
        let (stop, stopped) = tokio::sync::oneshot::channel::<()>();
        let (to, from) = channel();
        let thread = std::thread::spawn(move || {
            let ready = move |address| to.send(address).unwrap();
            web::serve(options, ready, async move {
                let _ = stopped.await;
            })
            .unwrap();
        });
        let address = from.recv_timeout(Duration::from_mins(1)).expect("the face starts");
        Self { dir, address, stop: Some(stop), thread: Some(thread) }
    }

    pub fn base(&self) -> String {
        format!("http://{}", self.address)
    }

    /// Asks it to stop; how long until it has.
    pub fn stop(&mut self) -> Duration {
        let begun = std::time::Instant::now();
        drop(self.stop.take());
        self.thread.take().expect("it is served").join().unwrap();
        begun.elapsed()
    }

    pub fn store(&self) -> record::store::Store {
        record::store::Store::open(self.dir.path().join("sallow-levels.sqlite")).unwrap()
    }

    pub fn client(&self) -> Client {
        Client { address: self.address, cookie: String::new(), host: self.address.to_string() }
    }

    /// A client that has logged in.
    pub fn client_as(&self, name: &str) -> Client {
        let mut client = self.client();
        let page = client.get("/login");
        let token = page.token();
        let done = client.post("/login", &[("token", &token), ("name", name), ("password", PASSWORD)]);
        assert_eq!(done.status, 303, "{}", done.text());
        client
    }
}

impl Drop for Face {
    fn drop(&mut self) {
        drop(self.stop.take());
        // A browser may hold a connection open: the thread ends with the test.
        drop(self.thread.take());
    }
}

/// An HTTP client that keeps one cookie.
#[derive(Clone)]
pub struct Client {
    address: SocketAddr,
    pub cookie: String,
    pub host: String,
}

/// What came back.
pub struct Answer {
    pub status: u16,
    pub headers: Vec<(String, String)>,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    pub fn header(&self, name: &str) -> Option<&str> {
        self.headers.iter().find(|(n, _)| n.eq_ignore_ascii_case(name)).map(|(_, v)| v.as_str())
    }

    /// The token of the last form on the page: the first is that of the frame.
    pub fn token(&self) -> String {
        let text = self.text();
        let at = text.rfind("name=\"token\" value=\"").expect("a form with a token");
        text[at + 20..].split('"').next().unwrap().to_string()
    }
}

impl Client {
    pub fn get(&mut self, path: &str) -> Answer {
        self.send("GET", path, &[], &[])
    }

    pub fn post(&mut self, path: &str, fields: &[(&str, &str)]) -> Answer {
        let origin = format!("http://{}", self.host);
        self.post_from(&origin, path, fields)
    }

    pub fn post_from(&mut self, origin: &str, path: &str, fields: &[(&str, &str)]) -> Answer {
        let body: Vec<String> = fields.iter().map(|(n, v)| format!("{}={}", coded(n), coded(v))).collect();
        let headers = [("Content-Type", "application/x-www-form-urlencoded"), ("Origin", origin)];
        self.send("POST", path, &headers, body.join("&").as_bytes())
    }

    /// Where long work leads, or its own page where it has something to say.
    pub fn retrying(&mut self, answer: &Answer) -> String {
        let to =
            answer.header("location").unwrap_or_else(|| panic!("{}: {}", answer.status, answer.text())).to_string();
        let Some(id) = to.strip_prefix("/jobs/") else { return to };
        for _ in 0..400 {
            if self.get(&format!("/jobs/{id}/progress")).header("x-work") == Some("done") {
                return to;
            }
            std::thread::sleep(Duration::from_millis(100));
        }
        panic!("the work does not end: {}", self.get(&to).text());
    }

    /// Sends files as a form with parts does.
    pub fn upload(&mut self, path: &str, token: &str, files: &[(&str, &[u8])]) -> Answer {
        let mut body = format!("--x\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n{token}\r\n").into_bytes();
        for (name, bytes) in files {
            body.extend(format!("--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\nContent-Type: text/csv\r\n\r\n").bytes());
            body.extend_from_slice(bytes);
            body.extend_from_slice(b"\r\n");
        }
        body.extend_from_slice(b"--x--\r\n");
        let origin = format!("http://{}", self.host);
        self.send("POST", path, &[("Content-Type", "multipart/form-data; boundary=x"), ("Origin", &origin)], &body)
    }

    pub fn send(&mut self, method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Answer {
        let mut request = format!("{method} {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n", self.host);
        if !self.cookie.is_empty() {
            request += &format!("Cookie: {}\r\n", self.cookie);
        }
        for (n, v) in headers {
            request += &format!("{n}: {v}\r\n");
        }
        if !body.is_empty() || method == "POST" {
            request += &format!("Content-Length: {}\r\n", body.len());
        }
        let answer = exchange(self.address, &(request + "\r\n"), body);
        if let Some(set) = answer.header("set-cookie") {
            self.cookie = set.split(';').next().unwrap().to_string();
        }
        answer
    }
}

/// Sends bytes and reads all that comes back.
pub fn exchange(address: SocketAddr, head: &str, body: &[u8]) -> Answer {
    let mut stream = TcpStream::connect(address).unwrap();
    stream.set_read_timeout(Some(Duration::from_mins(1))).unwrap();
    stream.write_all(head.as_bytes()).unwrap();
    // A server that refuses early closes while we still send.
    let _ = stream.write_all(body);
    let mut bytes = vec![];
    let _ = stream.read_to_end(&mut bytes);
    let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").expect("a head");
    let head = String::from_utf8_lossy(&bytes[..end]).into_owned();
    let mut lines = head.lines();
    let status = lines.next().unwrap().split(' ').nth(1).unwrap().parse().unwrap();
    let headers: Vec<(String, String)> =
        lines.filter_map(|l| l.split_once(": ")).map(|(a, b)| (a.to_string(), b.to_string())).collect();
    let mut body = bytes[end + 4..].to_vec();
    if headers.iter().any(|(n, v)| n.eq_ignore_ascii_case("transfer-encoding") && v == "chunked") {
        body = unchunked(&body);
    }
    Answer { status, headers, body }
}

fn unchunked(mut bytes: &[u8]) -> Vec<u8> {
    let mut out = vec![];
    while let Some(end) = bytes.windows(2).position(|w| w == b"\r\n") {
        let size = usize::from_str_radix(std::str::from_utf8(&bytes[..end]).unwrap().trim(), 16).unwrap();
        if size == 0 {
            break;
        }
        out.extend_from_slice(&bytes[end + 2..end + 2 + size]);
        bytes = &bytes[end + 4 + size..];
    }
    out
}

/// A text for a form.
pub fn coded(text: &str) -> String {
    percent_encoding::utf8_percent_encode(text, percent_encoding::NON_ALPHANUMERIC).to_string()
}

/// A field sheet of the trip SL-2026-07 as a phone saves it, its clock off by so many years: what each entry sets.
pub fn field_sheet(store: &record::store::Store, device: &str, year: i32, sets: &[serde_json::Value]) -> String {
    let id = intake::field::programme_id(store).unwrap().unwrap();
    let entries: Vec<serde_json::Value> = sets
        .iter()
        .enumerate()
        .map(|(n, sets)| {
            let at = format!("{year}-07-14T1{n}:20:00+02:00");
            serde_json::json!({"n": n + 1, "at": at, "who": "Marit Osk", "what": "bottle", "bottle": "SL2-26-07-A", "step": "tap", "sets": sets})
        })
        .collect();
    serde_json::json!({
        "format": "limpid-field-sheet", "version": 1, "sheet": "0011223344556677", "trip": "SL-2026-07", "device": device,
        "programme": {"id": id.to_string(), "name": "p", "head": store.head().unwrap().unwrap().to_string()},
        "exported_at": format!("{year}-07-14T19:00:00+02:00"), "entries": entries,
    })
    .to_string()
}

/// Every page of the invented programme.
pub const PAGES: &[(&str, &str)] = &[
    ("home", "/"),
    ("wells", "/wells"),
    ("well", "/wells/SL-2"),
    ("trips", "/trips"),
    ("plan", "/plan"),
    (
        "plan-answered",
        "/plan?kind=detect&detect.level=0.2&analyte=Pb&well.SL-2=1&prices.bottle=40&prices.spike=60&prices.minute_saved=2&prices.litre=1&prices.trip=300&choices.samples=1,2,3&choices.field_blanks=2,3,4,6,8&choices.volume_ml=125,250,500",
    ),
    ("lots", "/lots"),
    ("attribution", "/attribution"),
    ("trip", "/trips/SL-2026-07"),
    ("runs", "/runs"),
    ("run", "/runs/SL-R-2607"),
    ("bring-in", "/runs/bring-in"),
    ("recipes-de", "/recipes?language=de"),
    ("recipe-de", "/recipes/sector-field-water?run=SL-R-2607&language=de"),
    ("recipe-questions-de", "/recipes/questions?language=de"),
    ("templates-de", "/templates?language=de"),
    ("recipes", "/recipes?language=en"),
    ("recipe", "/recipes/sector-field-water?run=SL-R-2607"),
    ("recipe-questions", "/recipes/questions"),
    ("templates", "/templates"),
    ("results", "/results"),
    ("results-wide", "/results?wide=1"),
    ("evidence", "/results?of=evidence&analyte=Pb"),
    ("case", "/case/SL2-26-07-A:Pb:206%2B207%2B208%40low:unfiltered"),
    ("case-rejected", "/case/SL3-26-07-A:Pb:206%2B207%2B208%40low:unfiltered"),
    ("waters", "/water"),
    ("water", "/water/SL2-26-07-M"),
    ("time", "/time"),
    ("series", "/time?well=SL-2&analyte=Pb"),
    ("compounds", "/compounds"),
    ("statements", "/statements"),
    ("limits", "/statements?well=SL-2"),
    ("limits-newest", "/limits"),
    ("statement-new", "/statements/new"),
    ("report", "/report"),
    ("record", "/record"),
    ("accounts", "/record/accounts"),
    ("enter-bottle", "/enter/bottle?trip=SL-2026-07"),
    ("enter-readings", "/enter/field_reading?trip=SL-2026-07"),
    ("correct", "/correct/bottle/12"),
];
