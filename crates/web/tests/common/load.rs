//! Many people at once: readers that open pages and look at each for a while, writers that enter readings.

use std::collections::BTreeMap;
use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

/// Pages that readers open.
pub const PAGES: &[&str] = &[
    "/",
    "/wells",
    "/wells/W-3",
    "/trips",
    "/trips/T-2024-06",
    "/runs",
    "/results",
    "/results?well=W-3&analyte=Pb",
    "/results?verdict=provisional&page=400",
    "/case/T-2024-06-3:Pb:%40:unfiltered",
    "/water",
    "/water/T-2024-06-3",
    "/time",
    "/time?well=W-3&analyte=Pb",
    "/report",
    "/plan",
    "/lots",
    "/attribution",
    "/record",
    "/enter/field_reading?trip=T-2024-06",
];

/// A connection that is kept.
pub struct Kept {
    address: SocketAddr,
    reader: BufReader<TcpStream>,
}

impl Kept {
    pub fn open(address: SocketAddr) -> Self {
        let stream = TcpStream::connect(address).unwrap();
        stream.set_nodelay(true).unwrap();
        stream.set_read_timeout(Some(Duration::from_mins(1))).unwrap();
        Self { address, reader: BufReader::new(stream) }
    }

    /// Sends a request; status and body as it came (packed where asked for so).
    pub fn send(&mut self, method: &str, path: &str, more: &str, body: &str) -> (u16, Vec<u8>) {
        let head = format!(
            "{method} {path} HTTP/1.1\r\nHost: {}\r\n{more}Content-Length: {}\r\n\r\n{body}",
            self.address,
            body.len()
        );
        self.reader.get_mut().write_all(head.as_bytes()).unwrap();
        let mut line = String::new();
        self.reader.read_line(&mut line).unwrap();
        let status = line.split(' ').nth(1).and_then(|s| s.parse().ok()).unwrap_or(0);
        let (mut length, mut chunked) = (0, false);
        loop {
            line.clear();
            self.reader.read_line(&mut line).unwrap();
            let header = line.trim().to_ascii_lowercase();
            if header.is_empty() {
                break;
            }
            if let Some(n) = header.strip_prefix("content-length: ") {
                length = n.parse().unwrap();
            }
            chunked |= header == "transfer-encoding: chunked";
        }
        let mut out = vec![0; length];
        self.reader.read_exact(&mut out).unwrap();
        if !chunked {
            return (status, out);
        }
        loop {
            line.clear();
            self.reader.read_line(&mut line).unwrap();
            let size = usize::from_str_radix(line.trim(), 16).unwrap();
            let start = out.len();
            out.resize(start + size, 0);
            self.reader.read_exact(&mut out[start..]).unwrap();
            self.reader.read_line(&mut String::new()).unwrap();
            if size == 0 {
                return (status, out);
            }
        }
    }

    pub fn get(&mut self, path: &str) -> (u16, Vec<u8>) {
        self.send("GET", path, "Accept-Encoding: gzip\r\n", "")
    }
}

/// What came of it.
#[derive(Debug, Default)]
pub struct Told {
    /// Milliseconds of each page, sorted.
    pub pages: BTreeMap<&'static str, Vec<f64>>,
    /// Milliseconds of each entry, sorted.
    pub entries: Vec<f64>,
    pub errors: Vec<String>,
}

/// The value under which a share of sorted values lies.
pub fn quantile(sorted: &[f64], share: f64) -> f64 {
    sorted
        .get(((sorted.len() as f64 * share).ceil() as usize).clamp(1, sorted.len().max(1)) - 1)
        .copied()
        .unwrap_or(0.0)
}

/// Runs it: each reader opens a page and looks at it for half a second to one and a half.
pub fn run(address: SocketAddr, readers: usize, writers: usize, length: Duration) -> Told {
    let told = Arc::new(Mutex::new(Told::default()));
    let end = Instant::now() + length;
    let turn = Arc::new(AtomicU64::new(0));
    let threads: Vec<_> = (0..readers + writers)
        .map(|n| {
            let (told, turn) = (told.clone(), turn.clone());
            std::thread::Builder::new()
                .stack_size(256 << 10)
                .spawn(move || {
                    let mut kept = Kept::open(address);
                    // They do not all come in the same moment.
                    std::thread::sleep(Duration::from_millis((n as u64 * 37) % 1000));
                    while Instant::now() < end {
                        let i = turn.fetch_add(1, Ordering::Relaxed);
                        if n < readers {
                            read(&mut kept, i, &told);
                        } else {
                            write(&mut kept, i, &told);
                        }
                        std::thread::sleep(Duration::from_millis(500 + (i * 7919) % 1000));
                    }
                })
                .unwrap()
        })
        .collect();
    for t in threads {
        if t.join().is_err() {
            told.lock().unwrap().errors.push("a connection broke off".into());
        }
    }
    let mut told = Arc::try_unwrap(told).unwrap().into_inner().unwrap();
    told.pages.values_mut().for_each(|v| v.sort_by(f64::total_cmp));
    told.entries.sort_by(f64::total_cmp);
    told
}

fn read(kept: &mut Kept, i: u64, told: &Mutex<Told>) {
    let path = PAGES[i as usize % PAGES.len()];
    let begun = Instant::now();
    let (status, _) = kept.get(path);
    let ms = begun.elapsed().as_secs_f64() * 1e3;
    let mut told = told.lock().unwrap();
    told.pages.entry(path).or_default().push(ms);
    if status != 200 {
        told.errors.push(format!("{path}: {status}"));
    }
}

fn write(kept: &mut Kept, i: u64, told: &Mutex<Told>) {
    let (_, page) = kept.send("GET", "/enter/field_reading", "", "");
    let page = String::from_utf8_lossy(&page).into_owned();
    let token =
        page.rfind("name=\"token\" value=\"").map(|at| page[at + 20..].split('"').next().unwrap_or("").to_string());
    // Two readings of one quantity in one minute are asked about: each has a minute of its own.
    let (day, hour, minute) = (16 + i / 1440 % 12, i / 60 % 24, i % 60);
    let body = format!(
        "token={}&r0.well=W-{}&r0.trip=T-2025-12&r0.at=2025-12-{day}+{hour:02}%3A{minute:02}&r0.quantity=conductivity&r0.value=4{}&r0.unit=uS%2Fcm",
        token.unwrap_or_default(),
        i % 10,
        i % 100
    );
    let more = format!("Origin: http://{}\r\nContent-Type: application/x-www-form-urlencoded\r\n", kept.address);
    let begun = Instant::now();
    let (status, answer) = kept.send("POST", "/enter/field_reading", &more, &body);
    let ms = begun.elapsed().as_secs_f64() * 1e3;
    let mut told = told.lock().unwrap();
    told.entries.push(ms);
    if status != 303 {
        told.errors.push(format!("an entry: {status} {}", String::from_utf8_lossy(&answer)));
    }
}

/// Memory of this process that is in use, MB.
pub fn resident_mb() -> f64 {
    let text = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = text.lines().find(|l| l.starts_with("VmRSS:")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<f64>().unwrap() / 1024.0
}
