//! The languages that there are catalogues of: the build makes one of each folder of `catalogue/`.

use crate::{Declared, Message, language as said};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

include!(concat!(env!("OUT_DIR"), "/languages.rs"));

/// Decimal signs, one a language, in their order.
static DECIMAL_SIGNS: LazyLock<Vec<String>> =
    LazyLock::new(|| Lang::ALL.iter().map(|l| l.own::<said::DecimalSign>()).collect());

impl Lang {
    /// From its code (BCP 47): `en`, `de`.
    pub fn parse(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|l| l.code() == code)
    }

    /// A number already in digits, with the decimal sign of the language.
    pub fn number(self, digits: &str) -> String {
        if self == Self::En {
            return digits.to_string();
        }
        digits.replace('.', &DECIMAL_SIGNS[self as usize])
    }

    /// Its own name: `Deutsch`.
    pub fn name(self) -> String {
        self.own::<said::Name>()
    }

    /// What a language says of itself, without arguments.
    fn own<T: Declared>(self) -> String {
        Message::of::<0>(T::ID, []).said(self).unwrap_or_default()
    }
}
