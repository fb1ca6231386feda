//! What is said: a [`Message`] is an identity and typed arguments; a catalogue in each language says it.
//!
//! In: arguments that were computed. Out: their sentence in a language ([`Message::said`]). The record keeps identity
//! and arguments, which two messages are compared by, and the English beside them as plain text. What a catalogue does
//! not have (a message of a newer version) has no sentence here: whoever kept one shows that.
//!
//! The catalogues stand in `catalogue/LANGUAGE/ROOM.ftl`, in the form of Project Fluent (projectfluent.org); the build
//! makes a type of each message ([`DECLARED`] lists them). A language is one more folder. Numbers and units are printed
//! by [`number`] whatever the language, with its decimal sign; names are never touched.
//!
//! What it does not do: it computes nothing and chooses no words. Checked in `tests/`.

mod catalogue;
mod lang;
pub mod number;
mod sentence;
mod shown;
mod spoken;

pub use lang::Lang;
pub use sentence::Sentence;
pub use shown::{Digits, Share, Shown};
pub use spoken::{IN_ENGLISH, Spoken, language, older, with_language};

use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::collections::{BTreeMap, HashMap};
use std::sync::LazyLock;

include!(concat!(env!("OUT_DIR"), "/messages.rs"));

/// A name, a label or what a person wrote: the same in every language.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Name(pub String);

impl<T: Into<String>> From<T> for Name {
    fn from(name: T) -> Self {
        Self(name.into())
    }
}

/// How many, as an argument.
pub fn count(n: usize) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

/// A day or a moment as the record writes it (ISO 8601), the same in every language.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Date(pub String);

impl<T: Into<String>> From<T> for Date {
    fn from(date: T) -> Self {
        Self(date.into())
    }
}

/// What a message speaks of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Arg {
    /// A number with its unit and the digits it is shown with.
    Amount(Shown),
    /// How many; chooses between one and many.
    Count(i64),
    /// A part of a whole, shown in percent.
    Share(Share),
    /// A name, a label, what a person wrote.
    Name(Name),
    /// A day or moment.
    Date(Date),
    /// Another message within this one.
    Message(Message),
    /// Several, joined by commas and "and".
    List(Vec<Arg>),
}

macro_rules! args {
    ($($variant:ident from $type:ty;)+) => { $(
        impl From<$type> for Arg {
            fn from(x: $type) -> Self {
                Self::$variant(x)
            }
        }
    )+ };
}
args! {
    Amount from Shown;
    Count from i64;
    Share from Share;
    Name from Name;
    Date from Date;
    List from Vec<Arg>;
}

impl From<Message> for Arg {
    fn from(m: Message) -> Self {
        Self::Message(m)
    }
}

/// An identity with its arguments. Made of one of the declared types (`message::ROOM::What { … }.into()`).
// Boxed: refusals hold several, and are handed on through many results.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Message(Box<Kept>);

/// What the record keeps of a message.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct Kept {
    /// `room-what`.
    id: Cow<'static, str>,
    /// By their names.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    args: BTreeMap<Cow<'static, str>, Arg>,
}

/// Names and kinds of the arguments, by identity.
static KNOWN: LazyLock<HashMap<&str, &[(&str, &str)]>> = LazyLock::new(|| DECLARED.iter().copied().collect());

/// A declared message.
pub trait Declared {
    /// Its identity.
    const ID: &'static str;
}

impl Message {
    /// Of a declared type; arguments by name.
    fn of<const N: usize>(id: &'static str, args: [(&'static str, Arg); N]) -> Self {
        Self(Box::new(Kept { id: id.into(), args: args.into_iter().map(|(name, arg)| (name.into(), arg)).collect() }))
    }

    /// Its identity.
    pub fn id(&self) -> &str {
        &self.0.id
    }

    /// Whether it is of a declared type.
    pub fn is<T: Declared>(&self) -> bool {
        self.0.id == T::ID
    }

    /// One of its arguments.
    pub fn arg(&self, name: &str) -> Option<&Arg> {
        self.0.args.get(name)
    }

    /// Its sentence in a language; none where this version has no such message, or one with other arguments.
    pub fn said(&self, language: Lang) -> Option<String> {
        let declared = KNOWN.get(&*self.0.id)?;
        let fits = declared.len() == self.0.args.len()
            && declared.iter().all(|(name, kind)| self.0.args.get(*name).is_some_and(|a| a.kind() == *kind));
        if fits { catalogue::said(language, &self.0.id, &self.0.args) } else { None }
    }

    /// The word of a catalogue for a row of a table (a mineral, a substance, a check), by the row's own key; none where
    /// the catalogue has none. Signs of the key that an identity cannot have stand as `-`.
    pub fn named(room: &str, key: &str) -> Option<Self> {
        let key: String = key.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
        let (id, _) = KNOWN.get_key_value(format!("{room}-{}", key.trim_matches('-')).as_str())?;
        Some(Self(Box::new(Kept { id: (*id).into(), args: BTreeMap::new() })))
    }

    /// Its English, which is kept beside it. Every declared message has one.
    pub fn in_english(&self) -> String {
        self.said(Lang::En).unwrap_or_else(|| format!("[{}]", self.0.id))
    }
}

/// A part of what is said: a message, or a text that is the same in every language (a name, a formula, a source).
#[derive(Debug, Clone, PartialEq)]
pub enum Said {
    /// A message.
    Message(Message),
    /// A name, or what somebody wrote: the same in every language.
    Text(String),
}

impl Said {
    /// As a list of one, which holds both.
    pub fn part(&self) -> Vec<Arg> {
        vec![match self {
            Self::Message(m) => m.clone().into(),
            Self::Text(text) => Name::from(text).into(),
        }]
    }

    /// In English.
    pub fn in_english(&self) -> String {
        match self {
            Self::Message(m) => m.in_english(),
            Self::Text(text) => text.clone(),
        }
    }
}

impl From<Message> for Said {
    fn from(m: Message) -> Self {
        Self::Message(m)
    }
}

impl From<String> for Said {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<&str> for Said {
    fn from(text: &str) -> Self {
        Self::Text(text.into())
    }
}

impl Arg {
    /// Its kind, as the catalogues name it.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Amount(_) => "amount",
            Self::Count(_) => "count",
            Self::Share(_) => "share",
            Self::Name(_) => "name",
            Self::Date(_) => "date",
            Self::Message(_) => "message",
            Self::List(_) => "list",
        }
    }
}
