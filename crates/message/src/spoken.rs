//! The language that is spoken: whatever is said ([`Spoken::text`]) within [`with_language`] is said in it.
//!
//! A document is put together in one language by one thread; its sections, tables and figures say what they say where
//! they are made, and none has to hand the language on.

use crate::{Arg, Declared, Lang, Message, Share, Shown, catalogue};
use std::cell::Cell;

thread_local! {
    static SPOKEN: Cell<Lang> = const { Cell::new(Lang::En) };
}

/// Does `work` in a language, and speaks what was spoken before after it, also when it panics.
pub fn with_language<T>(language: Lang, work: impl FnOnce() -> T) -> T {
    struct Before(Lang);
    impl Drop for Before {
        fn drop(&mut self) {
            SPOKEN.set(self.0);
        }
    }
    let _before = Before(SPOKEN.replace(language));
    work()
}

/// The language that is spoken now; English where nobody chose one.
pub fn language() -> Lang {
    SPOKEN.get()
}

/// What can be said: in a language that is handed on, or in the one that is spoken now.
pub trait Spoken {
    /// In a language. A message that this version does not know shows its identity.
    fn in_language(&self, language: Lang) -> String;

    /// In the language that is spoken now.
    fn text(&self) -> String {
        self.in_language(language())
    }
}

impl Spoken for Message {
    fn in_language(&self, language: Lang) -> String {
        self.said(language).unwrap_or_else(|| self.in_english())
    }
}

impl<T: Declared + Clone + Into<Message>> Spoken for T {
    fn in_language(&self, language: Lang) -> String {
        self.clone().into().in_language(language)
    }
}

impl Spoken for Shown {
    fn in_language(&self, language: Lang) -> String {
        self.said(language)
    }
}

impl Spoken for Share {
    fn in_language(&self, language: Lang) -> String {
        self.said(language)
    }
}

impl Spoken for Arg {
    fn in_language(&self, language: Lang) -> String {
        [language, Lang::En].into_iter().find_map(|l| catalogue::text(l, self)).unwrap_or_default()
    }
}

/// Behind a text that is in English alone: its language by ISO 639-1.
pub const IN_ENGLISH: &str = "[en]";

/// A text that an older program kept, in English alone: marked where another language is spoken.
pub fn older(text: &str) -> String {
    if language() == Lang::En { text.to_string() } else { format!("{text} {IN_ENGLISH}") }
}
