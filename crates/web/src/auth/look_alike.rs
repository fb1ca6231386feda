//! Names that look like another: whoever signs as "Marit Osk" is to be Marit Osk.
//!
//! Two names look alike where their skeletons are the same (Unicode Technical Standard 39, section 4: what is read as one
//! sign counts as one), written small and with one space between words. Signs that are not seen, and words that mix
//! writings (section 5.1), are no name.

use unicode_security::{GeneralSecurityProfile as _, MixedScript as _, skeleton};

/// What a name looks like: as it is written, and written small. Large and small letters resemble other signs each for
/// themselves: I and l, i and í.
fn looks(name: &str) -> [String; 2] {
    let one = |text: &str| skeleton(text).collect::<String>();
    let words: Vec<&str> = name.split_whitespace().collect();
    let name = words.join(" ");
    [one(&one(&name).to_lowercase()), one(&name.to_lowercase())]
}

/// The name of another that this one looks like.
pub(crate) fn like<'a>(name: &str, others: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let own = looks(name);
    let alike = |other: &str| looks(other).iter().zip(&own).any(|(a, b)| a == b);
    others.filter(|other| *other != name).find(|other| alike(other))
}

/// Whether a person can read it off and type it.
pub(crate) fn legible(name: &str) -> bool {
    let seen = |c: char| c == ' ' || "-'’.,()".contains(c) || c.identifier_allowed();
    name.chars().all(seen) && name.split([' ', '-']).all(|word| word.is_single_script())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_reads_the_same_looks_alike() {
        let known = ["Marit Osk", "Ines Varga", "Ole Illum"];
        for (name, other) in [
            ("marit osk", Some("Marit Osk")),
            ("Marit  Osk", Some("Marit Osk")),
            ("Marit Οsk", Some("Marit Osk")), // a Greek capital omicron
            ("Маrit Osk", Some("Marit Osk")), // Cyrillic capital em and a
            ("Marit 0sk", Some("Marit Osk")),
            ("Ole lllum", Some("Ole Illum")),
            ("lnes Varga", Some("Ines Varga")),
            ("ines varga", Some("Ines Varga")),
            ("INES VARGA", Some("Ines Varga")),
            ("Marit Osk", None), // the name itself
            ("Marit Oskar", None),
            ("Sam Pohl", None),
        ] {
            assert_eq!(like(name, known.into_iter()), other, "{name}");
        }
    }

    #[test]
    fn names_of_people_are_legible() {
        for name in ["Marit Osk", "Jürgen Weiß-Łapiński", "O’Neill, P. (lab)", "王小明", "Анна Ким", "Δήμητρα", "lab 2"]
        {
            assert!(legible(name), "{name}");
        }
        // A space without width, a turn of the direction, two writings in a word.
        for name in ["Marit\u{200b}Osk", "Marit \u{202e}Osk", "Mаrit", "a\u{00ad}b", "\u{3000}x"] {
            assert!(!legible(name), "{name:?}");
        }
    }
}
