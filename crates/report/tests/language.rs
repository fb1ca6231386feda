//! The table of phrases, and the whole report in German.

use quantity::Lang;
use report::language::{is_english, put, speaking, table};
use std::collections::{BTreeMap, BTreeSet};

fn gaps(text: &str) -> BTreeSet<String> {
    text.split('{').skip(1).filter_map(|p| p.split_once('}')).map(|(n, _)| n.to_string()).collect()
}

#[test]
fn each_phrase_has_the_same_gaps_and_as_many_numbers_in_both_languages() {
    let mut seen: BTreeMap<String, String> = BTreeMap::new();
    for (english, german) in table() {
        assert!(!english.trim().is_empty() && !german.trim().is_empty(), "{english}");
        assert_eq!(gaps(&english), gaps(&german), "{english}");
        assert_eq!(english.matches('#').count(), german.matches('#').count(), "{english}");
        assert!(seen.insert(english.clone(), german).is_none(), "stands twice: {english}");
    }
    assert!(seen.len() > 900);
}

/// No phrase promises what the report may not say.
#[test]
fn no_german_phrase_advises_on_drinking() {
    for (_, german) in table() {
        let lower = german.to_lowercase();
        for word in ["trinkbar", "unbedenklich", "trinkwasserqualität", "gesund "] {
            assert!(!lower.contains(word), "{german}");
        }
    }
}

/// Each phrase is found by itself: put between the numbers and names that it was written for, the German comes out, and
/// no other phrase is taken for it.
#[test]
fn each_phrase_is_found() {
    let mut faults = vec![];
    for (english, german) in table() {
        let mut with = english.clone();
        let mut wanted = german.clone();
        for n in 1..=9 {
            with = with.replace(&format!("{{{n}}}"), &format!("Qx{n}"));
            wanted = wanted.replace(&format!("{{{n}}}"), &format!("Qx{n}"));
        }
        let (with, wanted) = (with.replace('#', "7"), wanted.replace('#', "7"));
        let (said, missing) = speaking(Lang::De, || put(&with).into_owned());
        if said != wanted || !missing.is_empty() {
            faults.push(format!("{english}\n  wanted {wanted}\n  said   {said}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn names_sources_and_what_people_wrote_are_not_english() {
    for same in ["SL2-26-07-A", "Currie 1968, Anal. Chem. 40:586", "Puls & Barcelona 1996, EPA/540/S-95/504", "ng/L"] {
        assert!(!is_english(same), "{same}");
    }
    let (said, missing) = speaking(Lang::De, || {
        let asked = report::language::as_written("Is lead at SL-2 still near 1 ng/L?");
        put(&asked).into_owned()
    });
    assert_eq!((said.as_str(), missing.len()), ("Is lead at SL-2 still near 1 ng/L?", 0));
}
