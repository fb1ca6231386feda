//! 50 readers and 5 writers at once on a programme of 198,000 results: no error, little memory, pages small. Times are
//! told in `bench/web`, not judged here: other work on the machine must not decide a test.

mod common;

use common::{Face, large, load};
use std::time::Duration;

/// Names the folder to a second process of this test that builds the programme, so that its memory is not counted.
const BUILD: &str = "LIMPID_TEST_BUILD_LARGE";

#[test]
fn many_people_on_a_large_programme() {
    if let Some(dir) = std::env::var_os(BUILD) {
        large::build(&std::path::Path::new(&dir).join("sallow-levels.sqlite"));
        return;
    }
    let dir = tempfile::tempdir().unwrap();
    let child = std::process::Command::new(std::env::current_exe().unwrap())
        .args(["many_people_on_a_large_programme", "--exact"])
        .env(BUILD, dir.path())
        .stdout(std::process::Stdio::null())
        .status();
    assert!(child.unwrap().success(), "the programme is built");
    let face = Face::serve(dir, &[]);
    let mut kept = load::Kept::open(face.address);
    for path in load::PAGES {
        let (status, body) = kept.get(path);
        assert_eq!(status, 200, "{path}");
        assert!(body.len() < 60 * 1024, "{path}: {} bytes", body.len());
        let (_, plain) = kept.send("GET", path, "", "");
        assert!(plain.len() < 150 * 1024, "{path}: {} bytes unpacked", plain.len());
    }
    let before = face.store().events().unwrap().len();
    let told = load::run(face.address, 50, 5, Duration::from_secs(20));
    assert!(told.errors.is_empty(), "{:?}", told.errors);
    let pages: usize = told.pages.values().map(Vec::len).sum();
    assert!(pages > 200 && told.entries.len() > 20, "{pages} pages, {} entries", told.entries.len());
    assert_eq!(face.store().events().unwrap().len(), before + told.entries.len(), "each entry is one act");
    let memory = load::resident_mb();
    assert!(memory < 300.0, "{memory:.0} MB");
}
