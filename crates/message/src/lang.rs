//! The languages that there are catalogues of.

use serde::{Deserialize, Serialize};

/// A language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Lang {
    /// English.
    #[default]
    En,
    /// German.
    De,
}

impl Lang {
    /// All languages.
    pub const ALL: [Self; 2] = [Self::En, Self::De];

    /// From its code (BCP 47): `en`, `de`.
    pub fn parse(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.code() == code)
    }

    /// Its code (BCP 47), the name of its folder of catalogues.
    pub fn code(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::De => "de",
        }
    }

    /// A number already in digits, with the decimal sign of the language.
    pub fn number(self, digits: &str) -> String {
        match self {
            Self::En => digits.to_string(),
            Self::De => digits.replace('.', ","),
        }
    }
}
