//! Is a document in German whole? Every English word of it is a name, stands in what people wrote, or is the title of a
//! source. The words are those that only an English text has (common practice: function words tell a language).

use std::fs;
use std::path::Path;

/// Words that German does not have.
const ENGLISH: [&str; 24] = [
    "the", "of", "is", "are", "and", "with", "not", "no", "were", "by", "to", "from", "at", "on", "for", "that",
    "which", "than", "per", "below", "above", "one", "found", "expected",
];

/// Texts of a page that are in English and should not be; `written`: what people and laboratories wrote, whole.
pub fn english_in(page: &str, written: &str) -> Vec<String> {
    let recipes = written_in(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../recipes")));
    let written = format!(" {} ", words(&(recipes + written)).join(" "));
    texts(page).into_iter().filter(|text| is_english(text, &written)).collect()
}

/// All that stands in the files of a folder.
pub fn written_in(folder: &Path) -> String {
    let files = fs::read_dir(folder).unwrap().map(|file| fs::read(file.unwrap().path()).unwrap());
    files.map(|bytes| String::from_utf8_lossy(&bytes).into_owned() + "\n").collect()
}

/// What stands between the tags, behind the style and without scripts.
fn texts(page: &str) -> Vec<String> {
    let body = page.split_once("</style>").map_or(page, |(_, body)| body);
    let mut out = vec![];
    for piece in body.split('<').skip(1) {
        let Some((tag, text)) = piece.split_once('>') else { continue };
        let text = text
            .replace("&lt;", "<")
            .replace("&gt;", ">")
            .replace("&quot;", "\"")
            .replace("&#39;", "'")
            .replace("&amp;", "&")
            .replace('\u{a0}', " ");
        if !tag.starts_with("script") && !tag.starts_with("style") && !text.trim().is_empty() {
            out.push(text.trim().to_string());
        }
    }
    out
}

fn words(text: &str) -> Vec<String> {
    // `means_below` is a key of a file, not two words.
    let pieces = text.split(|c: char| !c.is_alphanumeric() && c != '_').filter(|w| !w.is_empty());
    pieces.map(str::to_lowercase).collect()
}

/// Does an English word stand in it, neither with the word before it nor with the one behind it in what was written?
fn is_english(text: &str, written: &str) -> bool {
    let words = words(text);
    let was_written = |pair: Option<&[String]>| pair.is_some_and(|p| written.contains(&format!(" {} ", p.join(" "))));
    let stands_there = |at: usize| {
        was_written(words.get(at..at + 2))
            || at.checked_sub(1).is_some_and(|before| was_written(words.get(before..=at)))
    };
    !is_source(text) && words.iter().enumerate().any(|(at, w)| ENGLISH.contains(&w.as_str()) && !stands_there(at))
}

/// The title of a source: it is the same in every language.
fn is_source(text: &str) -> bool {
    const MARKS: [&str; 17] = [
        "doi ",
        "doi:",
        "ISO ",
        "EPA/",
        "EPA ",
        "J. ",
        "https://",
        "USGS ",
        "JCGM ",
        "Guidelines for ",
        "Introduction to ",
        "U.S. ",
        "40 CFR",
        "Geochim.",
        "Anal. Chem.",
        "et al.",
        "Groundwater, ",
    ];
    MARKS.iter().any(|m| text.contains(m))
}

#[test]
fn an_english_sentence_is_told_from_names_and_sources() {
    let page = "<style></style><p>Der Brunnen The Spout of Galena</p><p>It is not known.</p><p>J. of the Sea</p>";
    assert_eq!(english_in(page, "well,The Spout of Galena"), ["It is not known."]);
}
