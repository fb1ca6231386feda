//! The table of phrases, and the whole report in German.

use document::content::{Block, Content, Section};
use field_sheet::fields;
use language::{MARK, as_written, is_english, keep_names, put, speaking, table};
use quantity::{Lang, Spoken};
use report::Caution;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

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
        let asked = language::as_written("Is lead at SL-2 still near 1 ng/L?");
        put(&asked).into_owned()
    });
    assert_eq!((said.as_str(), missing.len()), ("Is lead at SL-2 still near 1 ng/L?", 0));
}

/// Texts in German beside the names of a programme, and what had no phrase.
fn beside(names: &[&str], texts: &[&str]) -> (Vec<String>, Vec<String>) {
    speaking(Lang::De, || {
        keep_names(names.iter().copied());
        texts.iter().map(|t| put(t).into_owned()).collect()
    })
}

#[test]
fn a_well_named_like_a_mineral_was_put_into_the_language() {
    let (said, missing) = beside(
        &["Galena", "Lead Spring", "lead", "SL-2"],
        &[
            "Lead at Galena",
            "No second bottle of Galena stands beside GA-26-07-A.",
            "Galena",
            "Over: quartz and galena.",
            "Lead at Lead Spring",
            "No blank was opened in the open air at lead, so what it brought is not measured.",
            "Galena holds at least 2.3 times less lead than SL-2.",
        ],
    );
    assert_eq!(missing, Vec::<String>::new());
    assert!(said[0].ends_with(" Galena") && said[0].starts_with("Blei "), "{said:?}");
    assert!(said[1].contains("Galena") && said[1].contains("GA-26-07-A"), "{said:?}");
    assert_eq!(said[2], "Galena");
    // The mineral is no name.
    assert!(said[3].contains("Bleiglanz"), "{said:?}");
    assert_eq!(said[4], "Blei in Lead Spring");
    // A name that is a word of the report is one where it is announced, and the word elsewhere.
    assert!(said[5].contains("an lead geöffnet"), "{said:?}");
    assert!(said[6].starts_with("Galena ") && said[6].contains("Blei") && said[6].contains("2,3"), "{said:?}");
}

#[test]
fn a_lot_that_looks_like_a_number_was_given_a_comma() {
    let sentence = "The 3 bottle blanks of lot 2.10 hold at most 2.10 ng/L of Pb, 3.0 % of what was found; the programme allows 20 %.";
    let (said, missing) = beside(&["2.10"], &[sentence, "lot 2.10", "2.10 ± 0.05 ng/L"]);
    assert_eq!(missing, Vec::<String>::new());
    assert!(said[0].contains("Los 2.10") || said[0].contains("Loses 2.10"), "{said:?}");
    assert!(said[0].contains("2,10 ng/L") && said[0].contains("3,0 %"), "numbers keep their comma: {said:?}");
    assert_eq!(said[1], "Los 2.10");
    assert_eq!(said[2], "2,10 ± 0,05 ng/L");
    // Where the report sets the name itself, it says so, whatever stands around it.
    let (said, _) = speaking(Lang::De, || {
        let heading =
            format!("{}: concentrations in the water (unfiltered), with what can be detected", as_written("2.10"));
        put(&heading).into_owned()
    });
    assert!(said.starts_with("2.10: "), "{said}");
}

#[test]
fn what_a_person_wrote_stays_within_a_sentence_of_the_record() {
    let why = "a gust of 2.5 m/s lifted the curtain, and lead dust fell in";
    let sentence = format!("Taken out of the evidence: {why} (Marit Osk); the value is the last on record.");
    let (said, missing) = beside(&[why, "Marit Osk"], &[&sentence]);
    assert_eq!(missing, Vec::<String>::new());
    assert!(said[0].contains(why) && !said[0].contains("Taken out"), "{said:?}");
}

fn of_one_text(text: &str) -> Content {
    let blocks = vec![Block::Text(text.into())];
    let sections = vec![Section { title: "Results".into(), blocks }];
    Content { title: "What is in the water".into(), lang: "de".into(), sections, ..Content::default() }
}

/// A text that stayed English bears the mark on paper and page, and the mark is explained once; else neither stands there.
#[test]
fn english_stood_in_the_german_report_without_a_mark() {
    let set = |text: &str| {
        speaking(Lang::De, || {
            let content = of_one_text(text);
            (document::paper::to_markup(&content).main, document::html::to_html(&content))
        })
        .0
    };
    let note = message::document_words::Untranslated { mark: MARK.into() }.in_language(Lang::De);
    let (paper, page) = set("a heron of 2.5 kg was seen");
    for out in [&paper, &page] {
        assert!(out.contains(&format!("was seen {MARK}")), "{MARK} behind the text");
        assert_eq!(out.matches(&note).count(), 1, "{note}");
    }
    let (paper, page) = set("Lead at SL-2");
    for out in [&paper, &page] {
        assert!(!out.contains(MARK) && !out.contains(&note));
    }
}

/// Every caution that a report, a packing list or a field sheet can print has its German.
#[test]
fn a_caution_was_left_in_english() {
    // Those that always stand come from the catalogues: in German already, and left alone on their way out.
    let always = |lang: &str| Content { lang: lang.into(), ..Content::default() }.all_cautions();
    let english: BTreeSet<String> = always("en").into_iter().collect();
    let (german, missing) =
        speaking(Lang::De, || always("de").iter().map(|c| (c.clone(), put(c).into_owned())).collect::<Vec<_>>());
    assert_eq!(missing, Vec::<String>::new());
    for (before, after) in &german {
        assert!(before == after && !english.contains(before), "{before}\n{after}");
    }
    let mut others: Vec<String> = Caution::every().iter().map(Caution::sentence).collect();
    others.extend(fields::CAUTIONS.iter().map(ToString::to_string));
    others.extend([fields::WELL_CAUTION, fields::ACID_CAUTION].map(String::from));
    let (said, missing) = speaking(Lang::De, || others.iter().map(|c| put(c).into_owned()).collect::<Vec<_>>());
    assert_eq!(missing, Vec::<String>::new());
    for (english, german) in others.iter().zip(&said) {
        assert!(english != german && !german.contains(MARK), "{english}\n{german}");
    }
    // One of each danger is among them.
    let all = said.join(" ");
    for danger in ["Schwefelwasserstoff", "Säure", "unter Druck", "nicht geprüft"] {
        assert!(all.contains(danger), "{danger}");
    }
}

/// What is pushed to the cautions of a report is a [`Caution`] or comes from the catalogues: no sentence that nobody
/// put into German.
#[test]
fn a_caution_came_from_elsewhere() {
    let mut sources = String::new();
    read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut sources);
    let calls: Vec<&str> = sources.split("cautions.").skip(1).filter(|c| !c.starts_with("iter()")).collect();
    assert!(calls.len() >= 5, "{}", calls.len());
    for call in calls {
        let known = ["push(Caution::", "push(leaflet::Caution"].iter().any(|k| call.starts_with(k));
        assert!(known, "cautions.{}", call.lines().next().unwrap_or_default());
    }
}

fn read(folder: &Path, out: &mut String) {
    for entry in std::fs::read_dir(folder).unwrap().flatten() {
        let path = entry.path();
        if path.is_dir() {
            read(&path, out);
        } else if path.extension().is_some_and(|e| e == "rs") {
            out.push_str(&std::fs::read_to_string(&path).unwrap());
        }
    }
}
