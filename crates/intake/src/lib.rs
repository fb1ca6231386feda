//! What comes in: files of laboratories and instruments by their mapping, field sheets from phones, rows that a person
//! types, recipes. What cannot be is refused before it is kept, by file, row and column.

pub mod entry;
pub mod field;
pub mod import;
pub mod negative;
pub mod one_name;
mod plausible;
pub mod recipe;
pub mod site;
pub mod unfit;
