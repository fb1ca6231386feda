//! What stands on a page as somebody else wrote it, marked as such, and what the record writes for machines in words.

use maud::{Markup, html};
use message::{Spoken as _, language, web_files};

/// A name of a file or a recipe, a heading, a code that has no words: as it is written.
pub(crate) fn written(text: &str) -> Markup {
    html! { code { (text) } }
}

/// What a person wrote.
pub(crate) fn quoted(text: &str) -> Markup {
    html! { @if !text.is_empty() { q { (text) } } }
}

/// Days and hours, units and powers of ten in words of the language that is spoken now.
pub(crate) fn spoken(text: &str) -> String {
    document::printed::printed(text, language())
}

/// The moment of an act, to the minute, as its zone had it.
pub(crate) fn moment(at: &str) -> String {
    spoken(at.get(..16).unwrap_or(at))
}

/// Bytes in kilobytes, at least one.
pub(crate) fn size(bytes: i64) -> String {
    web_files::Size { n: (bytes + 999) / 1000 }.text()
}
