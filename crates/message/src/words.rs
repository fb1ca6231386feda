//! The words of statements, leaflet and authority sheet, in each language, in one table.
//!
//! In: a key, a language, what stands in the gaps. Out: the sentence. The table is
//! `reference/words.csv` (key, English, German), read at compile time; `{name}` is a gap, `{Name}` the
//! same with a capital. Numbers handed in by [`Lang::number`] have the decimal sign of the language;
//! grouping is never used.
//!
//! A key that is not in the table is a fault of the program: [`Lang::say`] then answers with the key
//! in ⟨⟩, and the test below looks through the sources for such keys.

use crate::Lang;
use crate::number::capital;
use std::collections::HashMap;
use std::fmt::Write as _;
use std::sync::LazyLock;

static WORDS: LazyLock<HashMap<String, [String; 2]>> = LazyLock::new(|| {
    let text = include_str!("../../../reference/words.csv");
    csv::Reader::from_reader(text.as_bytes())
        .records()
        .map(|r| {
            let r = r.expect("the table of words is well-formed CSV");
            (r[0].to_string(), [r[1].to_string(), r[2].to_string()])
        })
        .collect()
});

/// Keys and sentences of the table.
pub fn table() -> &'static HashMap<String, [String; 2]> {
    &WORDS
}

impl Lang {
    /// Is there a sentence of this key?
    pub fn knows(key: &str) -> bool {
        WORDS.contains_key(key)
    }

    /// The sentence of a key with its gaps filled.
    pub fn say(self, key: &str, gaps: &[(&str, &str)]) -> String {
        let Some(sentences) = WORDS.get(key) else { return format!("⟨{key}⟩") };
        let mut rest = sentences[self as usize].as_str();
        let mut out = String::with_capacity(rest.len() + 32);
        while let Some(start) = rest.find('{') {
            out.push_str(&rest[..start]);
            let end = rest[start..].find('}').map_or(rest.len(), |e| start + e);
            let name = &rest[start + 1..end];
            match gaps.iter().find(|(n, _)| n.eq_ignore_ascii_case(name)) {
                Some((_, text)) if name.starts_with(char::is_uppercase) => out.push_str(&capital(text)),
                Some((_, text)) => out.push_str(text),
                None => {
                    let _ = write!(out, "⟨{name}⟩");
                }
            }
            rest = rest.get(end + 1..).unwrap_or_default();
        }
        out.push_str(rest);
        // A gap may be filled with nothing.
        if out.contains("  ") { out.replace("  ", " ") } else { out }
    }

    /// The name of a substance in the language; as it came where the table has none.
    pub fn substance(self, name: &str) -> String {
        let key = format!("substance.{name}");
        if Self::knows(&key) { self.say(&key, &[]) } else { name.to_string() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;
    use std::path::Path;

    fn gaps(text: &str) -> BTreeSet<String> {
        text.split('{').skip(1).filter_map(|p| p.split_once('}')).map(|(n, _)| n.to_lowercase()).collect()
    }

    #[test]
    fn each_language_has_the_same_gaps_and_no_empty_sentence() {
        for (key, [en, de]) in table() {
            assert_eq!(gaps(en), gaps(de), "{key}");
            assert!(!en.trim().is_empty() && !de.trim().is_empty(), "{key}");
        }
    }

    #[test]
    fn gaps_are_filled_and_numbers_take_the_sign_of_the_language() {
        assert_eq!(Lang::De.number("3.44"), "3,44");
        assert_eq!(Lang::En.say("substance.Pb", &[]), "lead");
        assert_eq!(Lang::De.substance("Pb"), "Blei");
        assert_eq!(Lang::En.say("no such key", &[]), "⟨no such key⟩");
    }

    /// Every key that the sources name stands in the table, and every key of the table is named.
    #[test]
    fn keys_of_the_sources_are_the_keys_of_the_table() {
        let crates = Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the folder of the crates");
        let mut sources = String::new();
        for room in ["limits", "assessment", "programme", "document", "report", "cli"] {
            read(&crates.join(room).join("src"), &mut sources);
        }
        let quoted: BTreeSet<&str> = sources.split('"').collect();
        for key in table().keys().filter(|k| !k.starts_with("substance.")) {
            assert!(quoted.contains(key.as_str()), "nothing says {key}");
        }
        for call in sources.split(".say(\"").skip(1) {
            let key = call.split('"').next().unwrap_or_default();
            assert!(Lang::knows(key), "{key} is not in the table of words");
        }
    }

    fn read(folder: &Path, out: &mut String) {
        for entry in std::fs::read_dir(folder).expect("a folder of sources").flatten() {
            let path = entry.path();
            if path.is_dir() {
                read(&path, out);
            } else if path.extension().is_some_and(|e| e == "rs") {
                out.push_str(&std::fs::read_to_string(&path).expect("a source file"));
            }
        }
    }
}
