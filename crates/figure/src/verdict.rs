//! A verdict as word, shape and colour.

use crate::ink;
use message::{Message, word};

/// What the findings of a result add up to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Word {
    /// All decisive checks are met.
    Accepted,
    /// Decisive evidence is missing, or a warning is open.
    Provisional,
    /// A decisive check is not met.
    Rejected,
}

impl Word {
    /// The verdict as a document says it.
    pub fn said(self) -> Message {
        match self {
            Self::Accepted => word::Accepted.into(),
            Self::Provisional => word::Provisional.into(),
            Self::Rejected => word::Rejected.into(),
        }
    }
    /// Its English word, for codes and data.
    pub fn word(self) -> &'static str {
        match self {
            Self::Accepted => "accepted",
            Self::Provisional => "provisional",
            Self::Rejected => "rejected",
        }
    }
    /// The verdict as a shape.
    pub fn sign(self) -> &'static str {
        match self {
            Self::Accepted => "✓",
            Self::Provisional => "◊",
            Self::Rejected => "✗",
        }
    }
    /// The colour that repeats them.
    pub fn colour(self) -> &'static str {
        match self {
            Self::Accepted => ink::MET,
            Self::Provisional => ink::NOT_KNOWN,
            Self::Rejected => ink::NOT_MET,
        }
    }
}
