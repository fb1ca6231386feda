//! The data dictionary in the guide is what the declarations say.

use std::fs;
use std::path::Path;

/// Below this line the guide is made by `exchange::dictionary`.
const MARK: &str = "<!-- dictionary -->\n";

#[test]
fn the_guide_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/data-package.md");
    let guide = fs::read_to_string(&path).unwrap();
    let (text, made) = guide.split_once(MARK).expect("the guide has the mark under which the dictionary stands");
    let now = exchange::dictionary::markdown();
    if std::env::var_os("WRITE_DICTIONARY").is_some() {
        fs::write(&path, format!("{text}{MARK}{now}")).unwrap();
        return;
    }
    assert!(
        made == now,
        "docs/guide/data-package.md is not what the schema declares; run\n  WRITE_DICTIONARY=1 cargo test --release -p exchange --test all dictionary"
    );
}
