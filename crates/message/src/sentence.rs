//! A message as JSON shows it: its English. What people's scripts read holds its messages so.

use crate::{Message, Spoken};
use serde::{Serialize, Serializer};
use std::fmt;
use std::ops::Deref;

/// A message whose English stands in JSON; shown ([`fmt::Display`]) it speaks the language that is spoken now.
#[derive(Debug, Clone, PartialEq)]
pub struct Sentence(Message);

impl<T: Into<Message>> From<T> for Sentence {
    fn from(says: T) -> Self {
        Self(says.into())
    }
}

impl Deref for Sentence {
    type Target = Message;

    fn deref(&self) -> &Message {
        &self.0
    }
}

impl fmt::Display for Sentence {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.text())
    }
}

impl Serialize for Sentence {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.in_english())
    }
}
