//! Messages put together from others.

use message::{Message, join};
use quantity::Finding;

/// One after the other; none of none.
pub fn joined(all: impl IntoIterator<Item = Message, IntoIter: DoubleEndedIterator>) -> Option<Message> {
    all.into_iter().rev().reduce(|more, one| join::Comma { one, more }.into())
}

/// What a finding says becomes a part of something longer; of one that has its English alone the English does.
pub fn more<M: Into<Message>>(
    f: &mut Finding,
    longer: impl FnOnce(Message) -> M,
    in_english: impl FnOnce(&str) -> String,
) {
    match f.message.take() {
        Some(m) => {
            let m = longer(m).into();
            f.sentence = m.in_english();
            f.message = Some(m);
        }
        None => f.sentence = in_english(&f.sentence),
    }
}
