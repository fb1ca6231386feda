//! Every caution that a report can print beside those that always stand (`Content::all_cautions`). Each has its message,
//! so that none is ever left in English: what a caution says holds no text from elsewhere but names.
//! Checked in `tests/older_text.rs`.

use message::{Message, Name, Spoken, caution as said};

/// A caution.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Caution {
    /// Work at a flowing well: pressure, licensed work, gas.
    Well,
    /// Hydrogen sulfide in a well house.
    Gas,
    /// A run that cannot be reduced as the record stands: its name.
    RunLeftOut(String),
    /// A list of compounds that cannot be summed up.
    CompoundsLeftOut,
    /// What a packing list takes along: acid, and the well house it goes to.
    Packing,
    /// What a request to a laboratory comes with: acid, and water that may give off gas.
    Request,
}

impl Caution {
    /// One of each.
    pub fn every() -> [Self; 6] {
        [Self::Well, Self::Gas, Self::RunLeftOut("R-1".into()), Self::CompoundsLeftOut, Self::Packing, Self::Request]
    }

    /// In words.
    pub fn sentence(&self) -> String {
        let says: Message = match self {
            Self::Well => said::Well.into(),
            Self::Gas => said::Gas.into(),
            Self::RunLeftOut(run) => said::RunLeftOut { run: Name::from(run) }.into(),
            Self::CompoundsLeftOut => said::CompoundsLeftOut.into(),
            Self::Packing => said::Packing.into(),
            Self::Request => said::Request.into(),
        };
        says.text()
    }
}
