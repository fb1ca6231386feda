//! What the web interface takes on a large programme: `measure build DIR`, then `measure DIR`. Prints milliseconds of each page
//! alone and with 50 readers and 5 writers, sizes, memory. See `bench/web/README.md`.
#![allow(missing_docs, clippy::pedantic, reason = "a bench")]

#[allow(dead_code, reason = "the tests use the rest")]
#[path = "../tests/common/browser.rs"]
mod browser;
#[path = "../tests/common/large.rs"]
mod large;
#[path = "../tests/common/load.rs"]
mod load;

use std::path::Path;
use std::time::{Duration, Instant};

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    match args.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["build", dir] => {
            let begun = Instant::now();
            std::fs::create_dir_all(dir).unwrap();
            let path = Path::new(dir).join("large.sqlite");
            let store = large::build(&path);
            let results = programme::index::Index::of(&store).unwrap().len();
            let mb = path.metadata().unwrap().len() >> 20;
            println!("{results} results in {:.0} s, {mb} MB", begun.elapsed().as_secs_f64());
        }
        [dir] => measure(&Path::new(dir).join("large.sqlite")),
        _ => println!("measure build DIR | measure DIR"),
    }
}

/// First paint of each page on a slow telephone.
fn paints(address: std::net::SocketAddr) {
    let mut b = browser::Browser::start();
    let p = b.page(&format!("http://{address}"));
    p.as_slow_telephone(&mut b);
    for path in load::PAGES {
        let mut ms: Vec<f64> = (0..3).map(|_| p.first_paint_ms(&mut b, path)).collect();
        ms.sort_by(f64::total_cmp);
        println!("{path:<44} first paint on a slow telephone, median of 3: {:.0} ms", ms[1]);
    }
}

fn measure(store: &Path) {
    let options = web::Options {
        store: store.into(),
        address: ([127, 0, 0, 1], 0).into(),
        accounts: web::accounts_file(store),
        person: "bench".into(),
        behind_tls: false,
        tls: None,
        limits: web::Limits::default(),
    };
    let (to, from) = std::sync::mpsc::channel();
    std::thread::spawn(move || web::serve(options, move |a| to.send(a).unwrap(), std::future::pending()).unwrap());
    let begun = Instant::now();
    let address = from.recv().unwrap();
    println!("open after {:.2} s, {:.0} MB", begun.elapsed().as_secs_f64(), load::resident_mb());
    let mut kept = load::Kept::open(address);
    println!("{:<44} {:>8} {:>8} {:>8} {:>9} {:>9}", "page", "first ms", "p50 ms", "p95 ms", "kB", "kB packed");
    for path in load::PAGES {
        let mut ms: Vec<f64> = (0..60)
            .map(|_| {
                let begun = Instant::now();
                assert_eq!(kept.get(path).0, 200, "{path}");
                begun.elapsed().as_secs_f64() * 1e3
            })
            .collect();
        let first = ms[0];
        ms.sort_by(f64::total_cmp);
        let (packed, plain) = (kept.get(path).1.len(), kept.send("GET", path, "", "").1.len());
        let (a, b) = (load::quantile(&ms, 0.5), load::quantile(&ms, 0.95));
        println!("{path:<44} {first:>8.1} {a:>8.1} {b:>8.1} {:>9.1} {:>9.1}", plain as f64 / 1e3, packed as f64 / 1e3);
    }
    paints(address);
    println!("{:.0} MB; 50 readers and 5 writers for 60 s:", load::resident_mb());
    let told = load::run(address, 50, 5, Duration::from_mins(1));
    for (path, ms) in &told.pages {
        println!(
            "{path:<44} {:>6} times, p50 {:.1}, p95 {:.1} ms",
            ms.len(),
            load::quantile(ms, 0.5),
            load::quantile(ms, 0.95)
        );
    }
    let mut all: Vec<f64> = told.pages.values().flatten().copied().collect();
    all.sort_by(f64::total_cmp);
    println!(
        "all pages: {}, p50 {:.1}, p95 {:.1} ms",
        all.len(),
        load::quantile(&all, 0.5),
        load::quantile(&all, 0.95)
    );
    let e = &told.entries;
    println!("entries: {}, p50 {:.1}, p95 {:.1} ms", e.len(), load::quantile(e, 0.5), load::quantile(e, 0.95));
    println!("errors: {}; {:.0} MB", told.errors.len(), load::resident_mb());
}
