//! The catalogues, read once, and the arguments as they take them.

use crate::{Arg, CATALOGUES, Declared, Digits, Lang, Shown, number};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::OnceLock;
use unic_langid::LanguageIdentifier;

/// One a language, read when it is first spoken.
static BUNDLES: [OnceLock<FluentBundle<FluentResource>>; Lang::ALL.len()] =
    [const { OnceLock::new() }; Lang::ALL.len()];

fn bundle(language: Lang) -> FluentBundle<FluentResource> {
    let id: LanguageIdentifier = language.code().parse().expect("a code of BCP 47");
    let mut bundle = FluentBundle::new_concurrent(vec![id]);
    // Marks of direction around arguments are for screens that mix directions; on paper and in files they are litter.
    bundle.set_use_isolating(false);
    for (_, _, text) in CATALOGUES.iter().filter(|(code, ..)| *code == language.code()) {
        let resource = FluentResource::try_new((*text).to_string()).expect("the build has read the catalogues");
        bundle.add_resource(resource).expect("no message stands twice: the build has looked");
    }
    bundle.add_function(CAPITAL, capital).expect("no function stands twice");
    bundle
}

/// What the catalogues call: an argument with its first letter large, where it begins a sentence.
const CAPITAL: &str = "CAPITAL";

fn capital<'a>(given: &[FluentValue<'a>], _: &FluentArgs) -> FluentValue<'a> {
    match given {
        [FluentValue::String(text)] => number::capital(text).into(),
        [other] => other.clone(),
        _ => FluentValue::Error,
    }
}

/// Behind the name of an amount: the amount with its expanded uncertainty, where `u-NAME` or `u` is an argument too.
const EXPANDED: &str = "-expanded";

/// Coverage factor of sentences: about 95 % (JCGM 100:2008, 6.3.3, from memory).
const K: f64 = 2.0;

/// An amount with U to two digits, itself to the same place; of an argument that is a u, U alone. What a message keeps is
/// u: U is a way of saying it.
fn expanded(name: &str, args: &BTreeMap<Cow<'static, str>, Arg>) -> Option<Shown> {
    let amount = |name: &str| match args.get(name) {
        Some(Arg::Amount(x)) => Some(x.clone()),
        // Its u is in percent too.
        Some(Arg::Share(x)) => Some(Shown::new(100.0 * x.value, x.digits, "%")),
        _ => None,
    };
    let x = amount(name)?;
    if name == "u" || name.starts_with("u-") {
        return Some(Shown { value: K * x.value, digits: Digits::Significant(2), ..x });
    }
    let u = K * amount(&format!("u-{name}")).or_else(|| amount("u"))?.value;
    if !(u.is_finite() && u > 0.0) {
        return Some(x);
    }
    Some(Shown { digits: Digits::Decimals(number::decimals_for(u, 2)), expanded: Some(u), ..x })
}

/// A message in a language; none where there is none of that name, or an argument is not of its kind.
pub(crate) fn said(language: Lang, id: &str, args: &BTreeMap<Cow<'static, str>, Arg>) -> Option<String> {
    let mut given = FluentArgs::new();
    for (name, arg) in args {
        given.set(name.to_string(), value(language, arg)?);
        if let Some(expanded) = expanded(name, args) {
            given.set(format!("{name}{EXPANDED}"), expanded.said(language));
        }
    }
    formatted(language, id, &given)
}

fn formatted(language: Lang, id: &str, given: &FluentArgs) -> Option<String> {
    let bundle = BUNDLES[language as usize].get_or_init(|| bundle(language));
    let pattern = bundle.get_message(id)?.value()?;
    let mut errors = vec![];
    let text = bundle.format_pattern(pattern, Some(given), &mut errors).into_owned();
    errors.is_empty().then_some(text)
}

fn value(language: Lang, arg: &Arg) -> Option<FluentValue<'static>> {
    Some(match arg {
        // A number to Fluent, so that it chooses between one and many.
        Arg::Count(n) => FluentValue::from(*n),
        other => FluentValue::from(text(language, other)?),
    })
}

/// An argument in a language; none where a message in it has no sentence.
pub(crate) fn text(language: Lang, arg: &Arg) -> Option<String> {
    Some(match arg {
        Arg::Amount(x) => x.said(language),
        Arg::Count(n) => n.to_string(),
        Arg::Share(x) => x.said(language),
        Arg::Name(x) => x.0.clone(),
        Arg::Date(x) => x.0.clone(),
        Arg::Message(m) => m.said(language)?,
        Arg::List(all) => {
            let all = all.iter().map(|a| text(language, a)).collect::<Option<Vec<_>>>()?;
            match &all[..] {
                [] => String::new(),
                [one] => one.clone(),
                [head @ .., last] => {
                    let mut given = FluentArgs::new();
                    given.set("head", head.join(", "));
                    given.set("last", last.as_str());
                    formatted(language, crate::language::List::ID, &given)?
                }
            }
        }
    })
}
