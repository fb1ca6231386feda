//! Catalogues: every message of every language says all its arguments, once each and none for another; catalogues at
//! fault are named and do not build.

#[path = "../build/check.rs"]
#[allow(dead_code, reason = "the build uses the rest")]
mod check;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, PatternElement};
use message::{Arg, DECLARED, Date, Digits, Lang, Message, Name, Share, Shown};
use std::collections::{BTreeMap, HashSet};

/// An argument of a kind that no other is like, and how it stands in a language. Names are hostile: braces, quotes,
/// right to left, a percent sign.
pub fn distinct(kind: &str, n: usize, language: Lang) -> (Arg, String) {
    let number = 1.5 + n as f64 * 10.0;
    match kind {
        "amount" => {
            let arg = Shown::decimals(number, 1, "ng/L");
            let said = arg.said(language);
            (Arg::Amount(arg), said)
        }
        "count" => (Arg::Count(message::count(70 + n)), (70 + n).to_string()),
        "share" => {
            let arg = Share::new(number / 100.0, Digits::Decimals(1));
            let said = arg.said(language);
            (Arg::Share(arg), said)
        }
        "name" => {
            let name = format!("{{ $n{n} }} \"בדיקה\" 50 % & <b{n}>");
            (Arg::Name(Name(name.clone())), name)
        }
        "date" => (Arg::Date(Date(format!("2026-07-{:02}", 10 + n))), format!("2026-07-{:02}", 10 + n)),
        "message" => {
            let m: Message = message::well::NoFill.into();
            let said = m.said(language).unwrap();
            (Arg::Message(m), said)
        }
        "list" => {
            let and = if language == Lang::De { "und" } else { "and" };
            let all = [format!("X{n}"), format!("y{n}"), format!("z{n}")];
            let said = format!("{}, {} {and} {}", all[0], all[1], all[2]);
            (Arg::List(all.into_iter().map(|x| Arg::Name(Name(x))).collect()), said)
        }
        other => panic!("a kind {other}"),
    }
}

/// The texts of a language, a file a room.
pub fn catalogue(language: Lang) -> Vec<String> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("catalogue").join(language.code());
    let files = std::fs::read_dir(folder).expect("the catalogue").flatten();
    files.map(|f| std::fs::read_to_string(f.path()).expect("a room")).collect()
}

/// The arguments that a message prints, in some variant; the others choose between variants.
fn printed(language: Lang, id: &str) -> std::collections::BTreeSet<String> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("catalogue").join(language.code());
    let room = id.split('-').next().unwrap();
    let text = std::fs::read_to_string(root.join(format!("{room}.ftl"))).unwrap();
    let parsed = fluent_syntax::parser::parse(text.as_str()).expect("the build has read it");
    let found = parsed.body.iter().find_map(|entry| match entry {
        Entry::Message(m) if m.id.name == id => m.value.as_ref(),
        _ => None,
    });
    let mut out = std::collections::BTreeSet::new();
    let mut open = vec![found.unwrap_or_else(|| panic!("{id} is not in {room}.ftl"))];
    while let Some(pattern) = open.pop() {
        for element in &pattern.elements {
            match element {
                PatternElement::Placeable { expression: Expression::Inline(inline) } => {
                    let given = match inline {
                        InlineExpression::FunctionReference { arguments, .. } => &arguments.positional[..],
                        alone => std::slice::from_ref(alone),
                    };
                    out.extend(given.iter().filter_map(|x| match x {
                        InlineExpression::VariableReference { id } => Some(id.name.to_string()),
                        _ => None,
                    }));
                }
                PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                    assert!(variants.len() > 1, "{id} chooses between nothing");
                    open.extend(variants.iter().map(|v| &v.value));
                }
                _ => {}
            }
        }
    }
    out
}

#[test]
fn every_message_says_all_its_arguments_in_every_language() {
    for language in Lang::ALL {
        for (id, arguments) in DECLARED {
            let (mut args, mut expected) = (serde_json::Map::new(), vec![]);
            for (n, (name, kind)) in arguments.iter().enumerate() {
                let (arg, said) = distinct(kind, n + 1, language);
                args.insert((*name).into(), serde_json::to_value(arg).unwrap());
                // One that only chooses between words (a kind of blank) does not stand itself.
                if printed(language, id).contains(*name) {
                    expected.push(said);
                }
            }
            let made: Message =
                serde_json::from_value(serde_json::json!({ "id": id, "args": args })).expect("a message reads back");
            let text = made.said(language).unwrap_or_else(|| panic!("{id} has no {}", language.code()));
            for said in expected {
                assert!(text.contains(&said), "{id} in {}: {said:?} is not in {text:?}", language.code());
            }
        }
    }
}

#[test]
fn one_and_many_and_none_choose_in_every_language() {
    for language in Lang::ALL {
        for (id, arguments) in DECLARED.iter().filter(|(_, a)| a.iter().any(|a| a.1 == "count")) {
            for count in [0, 1, 2, 21] {
                let args: serde_json::Map<_, _> = arguments
                    .iter()
                    .map(|(name, kind)| {
                        let arg = if *kind == "count" { Arg::Count(count) } else { distinct(kind, 1, language).0 };
                        ((*name).to_string(), serde_json::to_value(arg).unwrap())
                    })
                    .collect();
                let made: Message = serde_json::from_value(serde_json::json!({ "id": id, "args": args })).unwrap();
                assert!(made.said(language).is_some(), "{id} of {count} in {}", language.code());
            }
        }
    }
}

#[test]
fn a_message_that_this_version_does_not_know_has_no_sentence_and_is_kept_whole() {
    let newer =
        r#"{"id":"well-of-the-future","args":{"depth":{"amount":{"value":3.0,"digits":{"decimals":1},"unit":"m"}}}}"#;
    let read: Message = serde_json::from_str(newer).unwrap();
    assert_eq!(Lang::ALL.map(|l| read.said(l)), [None, None]);
    assert_eq!(serde_json::to_string(&read).unwrap(), newer);
    // Known, with an argument too many.
    let other: Message = serde_json::from_str(r#"{"id":"well-no-fill","args":{"n":{"count":1}}}"#).unwrap();
    assert_eq!(other.said(Lang::En), None);
}

#[test]
fn a_number_beyond_all_numbers_is_kept_and_reads_back() {
    let ratio = |value| -> Message { message::water::Conductivity { ratio: Shown::decimals(value, 2, "") }.into() };
    for value in [f64::INFINITY, f64::NEG_INFINITY, 1.25] {
        let kept = serde_json::to_string(&ratio(value)).unwrap();
        assert_eq!(serde_json::from_str::<Message>(&kept).unwrap(), ratio(value), "{kept}");
    }
}

#[test]
fn digits_that_no_number_has_stop_nothing() {
    for digits in [r#"{"decimals":2000000000}"#, r#"{"significant":-2000000000}"#, r#"{"trimmed":0}"#] {
        let kept = format!(
            r#"{{"id":"water-conductivity","args":{{"ratio":{{"amount":{{"value":1.25,"digits":{digits}}}}}}}}}"#
        );
        let read: Message = serde_json::from_str(&kept).unwrap();
        assert!(Lang::ALL.iter().all(|l| read.said(*l).is_some()), "{kept}");
    }
}

/// Faults of two catalogues.
fn faults(en: &str, de: &str) -> Vec<String> {
    let room = |text: &str| BTreeMap::from([("a".to_string(), text.to_string())]);
    let languages = BTreeMap::from([("en".to_string(), room(en)), ("de".to_string(), room(de))]);
    check::all(&languages).err().unwrap_or_default()
}

#[test]
fn a_catalogue_at_fault_does_not_build() {
    let en = "# $n (count): how many\na-fills = { $n ->\n    [one] one fill\n   *[other] { $n } fills\n } of it\n";
    let de = "a-fills = { $n ->\n    [one] eine Füllung\n   *[other] { $n } Füllungen\n } davon\n";
    assert_eq!(faults(en, de), Vec::<String>::new());
    for (en, de, fault) in [
        (en, "", "de: a-fills is missing"),
        (en, "a-fills = viele davon", "de: a-fills does not say $n"),
        (en, "a-fills = { $n } { $m }", "de: a-fills says $m, which it does not have"),
        ("a-fills = { $n } of it", "a-fills = { $n } davon", "en: a-fills says $n, which it does not have"),
        (
            "# $n (number): how many\na-fills = { $n } of it",
            "a-fills = { $n }",
            "$n is a \"number\", expected one of amount",
        ),
        ("# $t (name): text\na-fills = { $t }", "a-fills = { $t }", "nothing but an argument"),
        ("# $t (name): text\na-fills = { CAPITAL($t) }", "a-fills = { $t }", "nothing but an argument"),
        ("# $t (name): text\na-fills = { SMALL($t) } of it", "a-fills = { $t }", "calls SMALL, expected CAPITAL"),
        ("# $t (name): text\na-fills = { CAPITAL($u) } of it", "a-fills = { $t }", "says $u, which it does not have"),
        (en, &format!("{de}a-more = mehr\n"), "de: a-more is no message of en"),
        (en, &de.replace("davon", "{ -lead }"), "speaks of -lead, which is not there"),
        (&format!("{en}b-else = x\n"), de, "does not begin with a-"),
        (&format!("{en}a-fills = again\n"), de, "stands twice"),
        (&format!("{en}a-broken = {{ $\n"), de, "en/a.ftl, line"),
    ] {
        let found = faults(en, de);
        assert!(found.iter().any(|f| f.contains(fault)), "{fault:?} is not in {found:?}");
    }
}

#[test]
fn an_argument_begins_a_sentence_with_a_large_letter_and_keeps_it_elsewhere() {
    let named = |name: &str| vec![Arg::Name(name.into())];
    let less = message::claim::RatioLess { a: named("the spring"), b: named("the well"), what: named("none") };
    assert_eq!(Message::from(less).said(Lang::En).unwrap(), "The well holds less than the spring.");
}

/// Names of substances are looked up by the symbols of the trade, whatever signs these have.
#[test]
fn a_substance_is_found_by_its_symbol() {
    let said = |symbol: &str, language| Message::named("substance", symbol).and_then(|m| m.said(language));
    for (symbol, english, german) in [("Pb", "lead", "Blei"), ("S(-II)", "sulfide", "Sulfid")] {
        assert_eq!(said(symbol, Lang::En).as_deref(), Some(english));
        assert_eq!(said(symbol, Lang::De).as_deref(), Some(german));
    }
    assert_eq!(Message::named("substance", "xylodur"), None);
}

#[test]
fn a_number_has_the_decimal_sign_of_the_language() {
    let shown = Shown::trimmed(3.44, 3, "ng/L");
    assert_eq!(Lang::ALL.map(|l| shown.said(l)), ["3.44 ng/L", "3,44 ng/L"]);
}

/// Every message is made somewhere: by its type, or by the key of a row of a table.
#[test]
fn no_message_stands_in_the_catalogues_for_nothing() {
    let crates = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the folder of the crates");
    let mut sources = String::new();
    for entry in std::fs::read_dir(crates).expect("the crates").flatten() {
        read(&entry.path().join("src"), &mut sources);
    }
    let named: HashSet<&str> = sources.split(|c: char| !c.is_alphanumeric()).collect();
    for (id, _) in DECLARED {
        let (room, what) = id.split_once('-').expect("room and what");
        let name: String = what
            .split('-')
            .map(|part| part.chars().next().map_or_else(String::new, |c| c.to_uppercase().to_string() + &part[1..]))
            .collect();
        assert!(named.contains(name.as_str()) || sources.contains(&format!("named(\"{room}\"")), "nothing says {id}");
    }
}

fn read(folder: &std::path::Path, out: &mut String) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            read(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push_str(&std::fs::read_to_string(&path).expect("a source file"));
        }
    }
}
