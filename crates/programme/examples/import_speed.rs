//! Takes files into a new programme and prints what came of them and how long it took:
//! `import_speed STORE MAPPING FILE…`. For measuring against other tools.

use intake::import::{import, in_words, inputs};
use record::store::Store;
use std::path::PathBuf;
use std::time::Instant;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut args = std::env::args().skip(1);
    let (Some(path), Some(mapping)) = (args.next(), args.next()) else {
        return Err("give STORE MAPPING FILE…".into());
    };
    let files: Vec<PathBuf> = args.map(PathBuf::from).collect();
    let start = Instant::now();
    let mut store = Store::create(&path)?;
    let list = inputs(&store, &files, &mapping)?;
    let taken = import(&mut store, &list, "speed", "2026-07-22")?;
    for f in &taken.files {
        println!("{}", f.in_words());
    }
    for n in taken.notes.iter().take(5) {
        println!("note: {}", in_words(n));
    }
    println!("{:.3} s, peak {}", start.elapsed().as_secs_f64(), peak());
    Ok(())
}

/// The most memory this process held, as Linux tells it.
fn peak() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    status.lines().find_map(|l| l.strip_prefix("VmHWM:")).map_or("not known", str::trim).to_string()
}
