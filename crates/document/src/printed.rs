//! A text as it is printed: dates in words, powers of ten as such, no code that only the record knows.
//!
//! In: a text of a message, of a person or of an older program, in a language. Out: the same text with days and hours as
//! the language writes them (the record and its files keep ISO 8601), numbers as `5 × 10⁻¹⁵`, units and charges as a
//! chemist writes them. A name that only looks alike (a file, a label) is left alone: what is replaced stands free.
//! Checked in this file.

use quantity::Lang;

/// Names of the months.
const MONTHS: [[&str; 12]; 2] = [
    [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ],
    [
        "Januar",
        "Februar",
        "März",
        "April",
        "Mai",
        "Juni",
        "Juli",
        "August",
        "September",
        "Oktober",
        "November",
        "Dezember",
    ],
];

/// What the record calls by a code, and how it is printed in English and German.
const WORDS: [[&str; 3]; 8] = [
    ["L_C", "critical value", "Erkennungsgrenze"],
    ["L_D", "detection limit", "Nachweisgrenze"],
    ["L_Q", "quantification limit", "Bestimmungsgrenze"],
    ["E_n", "En score", "En-Wert"],
    ["S(-II)", "sulfide", "Sulfid"],
    ["Cel", "°C", "°C"],
    ["degC", "°C", "°C"],
    ["CaCO3", "CaCO₃", "CaCO₃"],
];

/// The text as it is printed.
pub fn printed(text: &str, lang: Lang) -> String {
    // Of a report of some megabytes most letters are the beginning of nothing: they are passed over in pieces.
    let spaces = text.contains(NOT_STATED_BEGINS);
    let begins = |c: char| {
        c.is_ascii_digit() || c.is_ascii_uppercase() || matches!(c, '@' | '/' | 'e' | 'd' | '(') || (spaces && c == ' ')
    };
    let mut out = String::with_capacity(text.len());
    let (mut kept_from, mut looked_to) = (0, 0);
    while let Some(next) = text[looked_to..].find(begins) {
        let here = looked_to + next;
        match free(&text[here..], text[..here].chars().next_back(), lang) {
            Some((words, length)) => {
                out.push_str(&text[kept_from..here]);
                out.push_str(&words);
                looked_to = here + length;
                kept_from = looked_to;
            }
            // All that begins something is one byte long.
            None => looked_to = here + 1,
        }
    }
    out.push_str(&text[kept_from..]);
    out
}

/// A drawing whose words are printed as those around it; its marks and its style are left alone.
pub fn drawing(svg: &str, lang: Lang) -> String {
    let (style, marks) = match svg.split_once("</style>") {
        Some((style, marks)) => (&svg[..style.len() + "</style>".len()], marks),
        None => ("", svg),
    };
    let mut out = String::with_capacity(svg.len());
    out += style;
    for piece in marks.split_inclusive('>') {
        match piece.split_once('<') {
            Some((words, tag)) if !words.is_empty() => {
                out += &printed(words, lang);
                out.push('<');
                out += tag;
            }
            _ => out += piece,
        }
    }
    out
}

/// How both languages begin to say that no u is stated.
const NOT_STATED_BEGINS: &str = " (u n";

/// What begins here and is printed otherwise, with the bytes that it takes.
fn free(rest: &str, before: Option<char>, lang: Lang) -> Option<(String, usize)> {
    const COUNTED_AS: &str = "/L as ";
    const NOT_STATED: [&str; 2] = [" (u not stated)", " (u nicht angegeben)"];
    if let Some(without) = NOT_STATED.into_iter().find(|w| rest.starts_with(w)) {
        return Some((String::new(), without.len()));
    }
    if rest.starts_with('@') && before.is_some_and(|c| c.is_ascii_digit()) {
        let resolution = ["@low", "@medium", "@high"].into_iter().find(|w| rest.starts_with(w))?;
        return stands_free(&rest[resolution.len()..], None).then(|| (String::new(), resolution.len()));
    }
    // "mg/L as N": as what it is counted. What is to be typed so into a file stands in quotes, and no word follows there.
    if lang == Lang::De && rest.starts_with(COUNTED_AS) {
        let basis = &rest[COUNTED_AS.len()..];
        let length = basis
            .find(|c: char| !(c.is_alphanumeric() || matches!(c, '(' | ')' | '-' | '+' | '^')))
            .unwrap_or(basis.len());
        let typed = basis[length..].starts_with('\u{201c}');
        return (length > 0 && !typed).then(|| ("/L als ".into(), COUNTED_AS.len()));
    }
    if rest.starts_with('e') && before.is_some_and(|c| c.is_ascii_digit()) {
        return power(rest);
    }
    if !stands_free("", before) {
        return None;
    }
    if rest.starts_with(|c: char| c.is_ascii_digit()) {
        return moment(rest, lang);
    }
    if let Some(formula) = quantity::formula::at_start(rest) {
        return Some(formula);
    }
    let [code, en, de] = WORDS.into_iter().find(|[code, ..]| rest.starts_with(code))?;
    let after = &rest[code.len()..];
    stands_free(after, None).then(|| (if lang == Lang::De { de } else { en }.to_string(), code.len()))
}

/// Is there nothing before or after that would make it part of a name?
fn stands_free(after: &str, before: Option<char>) -> bool {
    let joins = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '/' | '+');
    !before.is_some_and(joins) && !after.starts_with(joins)
}

/// `e-15` behind a digit.
fn power(rest: &str) -> Option<(String, usize)> {
    let digits = rest[1..].strip_prefix(['-', '+']).unwrap_or(&rest[1..]);
    let n = digits.chars().take_while(char::is_ascii_digit).count();
    let signed = rest.len() - 1 - digits.len();
    // A number followed by `e` and digits without a sign may be a label: 12e3.
    if n == 0 || n > 3 || signed == 0 || !stands_free(&digits[n..], None) {
        return None;
    }
    let minus = if rest[1..].starts_with('-') { "⁻" } else { "" };
    let trimmed = digits[..n].trim_start_matches('0');
    let raised: String = trimmed.chars().filter_map(|c| "⁰¹²³⁴⁵⁶⁷⁸⁹".chars().nth(c.to_digit(10)? as usize)).collect();
    Some((format!("\u{A0}×\u{A0}10{minus}{raised}"), 1 + signed + n))
}

/// `2026-07-14`, `2026-07-14T12:10`, `2026-07-14 12:10`.
fn moment(rest: &str, lang: Lang) -> Option<(String, usize)> {
    let number = |range: std::ops::Range<usize>| {
        let digits = rest.get(range)?;
        digits.bytes().all(|b| b.is_ascii_digit()).then(|| digits.parse::<usize>().ok())?
    };
    let (year, month, day) = (number(0..4)?, number(5..7)?, number(8..10)?);
    let sound =
        rest.get(4..5)? == "-" && rest.get(7..8)? == "-" && (1..=12).contains(&month) && (1..=31).contains(&day);
    if !sound {
        return None;
    }
    let name = MONTHS[usize::from(lang == Lang::De)][month - 1];
    let words = match lang {
        Lang::De => format!("{day}.\u{A0}{name} {year}"),
        Lang::En => format!("{day}\u{A0}{name} {year}"),
    };
    let hour = || Some((number(11..13)?, rest.get(13..14).filter(|c| *c == ":")?, number(14..16)?));
    let time = rest.get(10..11).filter(|c| matches!(*c, "T" | " ")).and_then(|_| hour());
    let Some((hours, _, minutes)) = time.filter(|t| t.0 < 24 && t.2 < 60) else {
        return stands_free(&rest[10..], None).then_some((words, 10));
    };
    // Seconds and the zone are of the files.
    let tail = rest[16..].find(|c: char| !(c.is_ascii_digit() || matches!(c, ':' | 'Z'))).unwrap_or(rest.len() - 16);
    let clock = if lang == Lang::De { "\u{A0}Uhr" } else { "" };
    Some((format!("{words}, {hours:02}:{minutes:02}{clock}"), 16 + tail))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_and_hours_are_words_and_names_stay() {
        let both = |text: &str| [Lang::En, Lang::De].map(|l| printed(text, l).replace('\u{A0}', " "));
        assert_eq!(both("on 2026-07-14:"), ["on 14 July 2026:", "on 14. Juli 2026:"]);
        assert_eq!(both("(2026-03-04T12:10:30Z)"), ["(4 March 2026, 12:10)", "(4. März 2026, 12:10 Uhr)"]);
        for name in ["run-2026-07-14.csv", "SL-2026-07", "2026-13-14", "2026-07-14_A", "1e3", "Celsius", "x@low.org"] {
            assert_eq!(printed(name, Lang::En), name);
        }
    }

    #[test]
    fn codes_of_the_record_are_words() {
        let said = |text: &str| printed(text, Lang::En).replace('\u{A0}', " ");
        assert_eq!(said("10 Cel, 5e-15, 3.4e-05 mol"), "10 °C, 5 × 10⁻¹⁵, 3.4 × 10⁻⁵ mol");
        assert_eq!(said("Pb 206+207+208@low: 3 (u not stated)"), "Pb 206+207+208: 3");
        assert_eq!(said("S(-II) 0.3; mg/L as CaCO3"), "sulfide 0.3; mg/L as CaCO₃");
        assert_eq!(printed("S(-II)", Lang::De), "Sulfid");
        assert_eq!(said("mg/L as SO4^2-, Ca++ (Mg^2+); HCO3-"), "mg/L as SO₄²⁻, Ca²⁺ (Mg²⁺); HCO₃⁻");
        assert_eq!(printed("Pb- und Cd-Gehalte", Lang::De), "Pb- und Cd-Gehalte");
        assert_eq!(printed("3 mg/L as N, „mg/L as S“", Lang::De), "3 mg/L als N, „mg/L as S“");
        assert_eq!(drawing("<g id='2026-07-14'>5e-15 m</g>", Lang::En), "<g id='2026-07-14'>5\u{A0}×\u{A0}10⁻¹⁵ m</g>");
    }
}
