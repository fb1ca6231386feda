//! The form of a page: a report as data ([`content`]), on paper ([`paper`]) and as one self-contained web page
//! ([`html`]). Same input, same bytes. What a section says is the room `report`'s; the PDF is made by `typeset`.

pub mod content;
pub mod html;
pub mod paper;
pub mod printed;
