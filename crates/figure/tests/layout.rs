//! What the tests of figures share: labels inside the picture and free of each other.

use figure::{Figure, Head};

/// The head of an invented picture.
pub fn head(id: &str) -> Head {
    Head { id: id.into(), title: format!("Invented: {id}"), desc: "Invented numbers.".into() }
}

/// Every label stands inside the picture, none over another.
#[track_caller]
pub fn labels_stand_free(f: &Figure) {
    for (i, l) in f.labels().iter().enumerate() {
        let a = l.area;
        assert!(
            a.x0 >= 0.0 && a.y0 >= 0.0 && a.x1 <= f.width && a.y1 <= f.height,
            "{}: \"{}\" leaves the picture: {a:?} in {} × {}",
            f.id,
            l.text,
            f.width,
            f.height
        );
        for b in &f.labels()[i + 1..] {
            assert!(!a.overlaps(&b.area, 1.0), "{}: \"{}\" over \"{}\": {a:?} {:?}", f.id, l.text, b.text, b.area);
        }
    }
}

/// The same of a picture without any number that is none.
#[track_caller]
pub fn check(f: &Figure) {
    let svg = f.inline();
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{}", f.id);
    labels_stand_free(f);
}
