//! What a reader gets to see: figures, the report on paper and as a page, the supplement for reviewers.
//!
//! In: plain values, findings and verdicts of a record, already computed. Out: SVG, markup for the
//! typesetting engine, one self-contained web page. Same input, same bytes.
//!
//! * [`content`] — a report as data; [`paper`] and [`html`] — its two renderings;
//! * [`field`] — the field sheet of a trip: for a phone, on paper, and labels;
//! * [`figure`] — the figures, first of them the path of a bottle;
//! * [`number`] — how a quantity is printed;
//! * [`text`] — how wide text is.
//!
//! What it does not do: no science, no store, no files, no clock; the PDF is made from [`paper`] by
//! the crate `typeset`.

pub mod assemble;
pub mod content;
pub mod field;
pub mod figure;
pub mod html;
pub mod language;
pub mod number;
pub mod packing;
pub mod paper;
pub mod text;
