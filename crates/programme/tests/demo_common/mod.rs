//! The invented trip as a programme in a folder of its own, its raw files changed where a test asks.

use intake::import;
use programme::start;
use record::store::Store;
use simulator::Trip;
use std::path::Path;

pub const BY: &str = "Ines Varga";
pub const AT: &str = "2026-07-23T14:20:00+02:00";

/// Takes in all raw files of a trip. `change` gets each file's name and text; none leaves the file out.
pub fn record(dir: &Path, trip: &Trip, change: impl Fn(&str, String) -> Option<String>) -> Store {
    let store = start::start(dir.join("demo.sqlite"), BY, AT).unwrap();
    record_in(store, dir, trip, change)
}

/// As [`record`], into a programme that there is.
pub fn record_in(mut store: Store, dir: &Path, trip: &Trip, change: impl Fn(&str, String) -> Option<String>) -> Store {
    let mut bundle = String::new();
    for file in simulator::files::raw_files(trip) {
        let Some(text) = change(file.name, file.text) else { continue };
        std::fs::write(dir.join(file.name), text).unwrap();
        bundle += &format!("[[file]]\npath = \"{}\"\nmapping = \"{}\"\n", file.name, file.mapping);
    }
    let path = dir.join("bundle.toml");
    std::fs::write(&path, bundle).unwrap();
    let inputs = import::inputs(&store, &[path], "bundle").unwrap();
    import::import(&mut store, &inputs, BY, AT).unwrap_or_else(|e| panic!("{e}"));
    store
}
