//! What stands in a sentence: amounts, factors, names. A factor is rounded to the side that claims less.

use message::{Arg, Message, Name, Shown, claim};
use quantity::{Amount, Lang, Spoken, Unit};
use statistics::t;

/// What stands in a sentence as a name, as an amount or in words: a list of one, which takes each of them.
pub(crate) type Word = Vec<Arg>;

/// A list of one.
pub(crate) fn word(of: impl Into<Arg>) -> Word {
    vec![of.into()]
}

/// What a person named.
pub(crate) fn named(name: &str) -> Word {
    word(Name::from(name))
}

/// What a person named; else words of ours.
pub(crate) fn named_or(name: Option<&str>, otherwise: impl Into<Message>) -> Word {
    name.map_or_else(|| word(otherwise.into()), named)
}

/// Stands where a sentence does not say something that it may say.
pub(crate) fn none() -> Word {
    named("none")
}

/// A substance by its symbol, as a list of one; as it came where the catalogue has no name of it, the word none where it
/// is empty.
pub fn substance(symbol: &str) -> Vec<Arg> {
    match Message::named("substance", symbol) {
        Some(known) => word(known),
        None if symbol.is_empty() => none(),
        None => named(symbol),
    }
}

/// An amount with its expanded uncertainty, `1.05 ± 0.12 ng/L`, or what bounds it.
pub(crate) fn amount(a: &Amount) -> Word {
    let shown = |x, digits| Shown::trimmed(x, digits, printed(a.unit()));
    match a {
        Amount::Measured(m) => word(m.shown(t::upper_quantile(0.025, m.dof))),
        Amount::Stated(s) => said(claim::AmountStated { x: shown(s.value, 4) }),
        Amount::Below(b) => said(claim::AmountAtMost { x: at_most(b.limit, printed(&b.unit)) }),
        Amount::Above(b) => said(claim::AmountOver { x: shown(b.limit, 2) }),
    }
}

/// A message as a list of one.
pub(crate) fn said(message: impl Into<Message>) -> Word {
    word(message.into())
}

/// The same in a language.
pub fn amount_in_words(lang: Lang, a: &Amount) -> String {
    Arg::from(amount(a)).in_language(lang)
}

/// As a unit stands behind a number; the unit 1 is not printed.
pub(crate) fn printed(unit: &Unit) -> String {
    let text = unit.to_string();
    if text == "1" { String::new() } else { text }
}

/// Two digits, rounded down: a bound that claims no more than was found.
pub fn at_least(x: f64, unit: impl Into<String>) -> Shown {
    Shown::trimmed(kept(&message::number::down(x, 2), x), 2, unit)
}

/// Two digits, rounded up.
pub fn at_most(x: f64, unit: impl Into<String>) -> Shown {
    Shown::trimmed(kept(&message::number::up(x, 2), x), 2, unit)
}

/// A sentence holds the bound that it says, not the number behind it.
fn kept(text: &str, x: f64) -> f64 {
    text.parse().unwrap_or(x)
}

/// A number alone, without trailing zeros that nobody gave.
pub(crate) fn plain(x: f64, digits: i32) -> Shown {
    Shown::trimmed(x, digits, "")
}

/// A range in words; open ends say so.
pub(crate) fn range(interval: [Option<f64>; 2]) -> Message {
    let n = |x: f64| plain(x, 3);
    match interval {
        [Some(l), Some(h)] => claim::Range { low: n(l), high: n(h) }.into(),
        [Some(l), None] => claim::RangeAtLeast { low: n(l) }.into(),
        [None, Some(h)] => claim::RangeAtMost { high: n(h) }.into(),
        [None, None] => claim::RangeOpen.into(),
    }
}

/// A probability; near its ends a bound.
pub(crate) fn probability(p: f64) -> Word {
    let shown = quantity::format::probability_shown(p);
    match shown.relation.as_str() {
        ">" => said(claim::ProbabilityNearOne),
        "<" => said(claim::ProbabilityNearZero),
        _ => word(shown),
    }
}

/// Several messages as one, by halves, so that a long row is no deep one; none of no message.
pub(crate) fn in_a_row(all: &[Message], join: fn(Message, Message) -> Message) -> Option<Message> {
    match all {
        [] => None,
        [one] => Some(one.clone()),
        many => {
            let (head, rest) = many.split_at(many.len() / 2);
            Some(join(in_a_row(head, join)?, in_a_row(rest, join)?))
        }
    }
}

/// With a semicolon between them.
pub(crate) fn then(one: Message, next: Message) -> Message {
    claim::Then { one, next }.into()
}

/// One sentence after another.
pub(crate) fn sentences(one: Message, next: Message) -> Message {
    claim::Sentences { one, next }.into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_claim_no_more_than_was_found() {
        for (x, down, up) in [
            (3.4389, "3.4", "3.5"),
            (0.0996, "0.099", "0.1"),
            (12.0, "12", "12"),
            (999.0, "990", "1000"),
            (2.4, "2.4", "2.4"),
        ] {
            let text = |shown: Shown| shown.said(Lang::En);
            assert_eq!((text(at_least(x, "")).as_str(), text(at_most(x, "")).as_str()), (down, up));
        }
    }
}
