//! The field sheet of a trip: one file for a phone without signal, the same sheet on paper, labels
//! for the bottles.
//!
//! In: a programme and the name of a trip. Out: [`html`], a page that needs nothing else, keeps each
//! entry on the phone and saves one JSON file (`docs/guide/field-sheet.md`); [`paper`], the same
//! fields in the same order; [`labels`], sheets of labels with a Data Matrix code of the bottle's
//! label beside its words. PDFs are made from the last two by the crate `typeset`.
//!
//! * [`data`] gathers, [`past`] what earlier trips found; [`fields`] holds order and words of the fields; `*.js` and
//!   `sheet.css` are the page, written by hand, without other code; `compute.js` holds its sums.
//! * Both languages are in the file; it begins with the one that is spoken where it is made.
//!
//! What it does not do: it takes nothing in; that is `intake::field`. Checked in
//! `tests/main.rs`: in a browser, opened as a file, against the programme's own sums.

pub mod data;
pub mod fields;
mod labels;
mod paper_sheet;
pub mod past;

pub use data::{Data, gather};
pub use labels::{LabelError, LabelGrid, code, labels};
pub use paper_sheet::paper;

use figure::escape;
use message::{Spoken as _, sheet};

/// The script, in the order in which its pieces need each other.
const SCRIPT: [&str; 9] = [
    include_str!("compute.js"),
    include_str!("keep.js"),
    include_str!("frame.js"),
    include_str!("ask.js"),
    include_str!("camera.js"),
    include_str!("list.js"),
    include_str!("trip.js"),
    include_str!("well.js"),
    include_str!("bottle.js"),
];

const STYLE: &str = include_str!("sheet.css");

/// What the page may load: nothing. Pictures and fonts are inside, what the camera sees stays there.
const POLICY: &str = "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data: blob:; font-src data:; media-src blob: mediastream:";

/// The sheet for a phone: one HTML file.
pub fn html(data: &Data) -> String {
    let json = serde_json::to_string(data).expect("a sheet has finite numbers and text keys");
    // Inside a script element only "<" could end it or open a comment.
    let json = json.replace('<', "\\u003c");
    let title = escape(&sheet::PaperTitle { trip: data.trip.name.as_str().into() }.text());
    let (lang, without) = (data.language, escape(&sheet::PaperNoScript.text()));
    let (fonts, script) = (figure::fonts::font_faces(false), SCRIPT.join("\n"));
    format!(
        "<!doctype html>\n<html lang=\"{lang}\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"{POLICY}\">\n<title>{title}</title>\n<style>{fonts}\n{STYLE}</style>\n<script type=\"application/json\" id=\"sheet\">{json}</script></head>\n<body><noscript><p>{without}</p></noscript>\n<script>\n{script}\n</script></body></html>\n"
    )
}
