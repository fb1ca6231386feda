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
        whole(self.in_language(language()))
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

/// Marked as being in the language already: while some rooms still speak English alone, `language::put` leaves it as it is.
fn whole(text: String) -> String {
    if language() == Lang::En {
        return text;
    }
    format!("\u{F8F0}{}\u{F8F1}", text.replace(['\u{F8F0}', '\u{F8F1}'], ""))
}
