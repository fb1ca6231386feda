//! Every caution that a report can print beside those that always stand (`Content::all_cautions`). Each has its sentence in
//! every language, so that none is ever left in English: what a caution says holds no text from elsewhere but names.
//! Checked in `tests/language.rs`.

use language::as_written;

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
}

impl Caution {
    /// One of each.
    pub fn every() -> [Self; 5] {
        [Self::Well, Self::Gas, Self::RunLeftOut("R-1".into()), Self::CompoundsLeftOut, Self::Packing]
    }

    /// In words.
    pub fn sentence(&self) -> String {
        match self {
            Self::Well => "Caution: opening or shutting a flowing well can damage the well, its pipe and the ground around it; it is done slowly and with the owner’s leave. Drilling into water under pressure is licensed work under the local code. Gas can gather in a closed well house.".into(),
            Self::Gas => aqueous::odour::CAUTION.into(),
            Self::RunLeftOut(run) => format!(
                "The run {} cannot be reduced as the record stands now. Its results in this report are those derived last; its own section is missing.",
                as_written(run)
            ),
            Self::CompoundsLeftOut => "The organic compounds are not summed up: the list does not bear it.".into(),
            Self::Packing => "Acid for preservation is concentrated: gloves, goggles, and a box that holds a spill. A closed well house can hold hydrogen sulfide: air it and do not go in alone; local rules and licensed people come first.".into(),
        }
    }
}
