//! How wide is a piece of text, and where does it break?
//!
//! In: text, size in user units (px), weight. Out: widths in the same units, lines. Widths are the
//! advance widths of the carried typeface "Limpid Text" (Source Sans 3), without kerning, which only
//! ever makes text narrower; letters that the typeface does not have count as 0.6 em.
//! Used by the figures (labels that must not collide or leave the picture) and by the tables
//! (numbers aligned at the decimal point). Checked in `crates/report/tests/figures.rs`.

use std::sync::OnceLock;
use ttf_parser::Face;

/// Name of the typeface in SVG, web page and PDF.
pub const FAMILY: &str = "Limpid Text";

/// The two weights that figures and tables use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// 400.
    Regular,
    /// 600.
    SemiBold,
}

const REGULAR: &[u8] = include_bytes!("../../../fonts/LimpidText-Regular.ttf");
const SEMIBOLD: &[u8] = include_bytes!("../../../fonts/LimpidText-SemiBold.ttf");

fn face(weight: Weight) -> &'static Face<'static> {
    static FACES: OnceLock<[Face<'static>; 2]> = OnceLock::new();
    let faces =
        FACES.get_or_init(|| [REGULAR, SEMIBOLD].map(|data| Face::parse(data, 0).expect("the carried face is a font")));
    &faces[usize::from(weight == Weight::SemiBold)]
}

/// Does the typeface have this letter (white space counts as had)?
pub fn has_letter(c: char) -> bool {
    c.is_whitespace() || face(Weight::Regular).glyph_index(c).is_some()
}

/// The text with □ for each letter that the typeface does not have.
pub fn with_known_letters(text: &str) -> String {
    text.chars().map(|c| if has_letter(c) { c } else { '□' }).collect()
}

/// Width of `text` on one line at `size`, in the unit of `size`.
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    measure(text, size, weight)
}

fn measure(text: &str, size: f64, weight: Weight) -> f64 {
    let face = face(weight);
    let units: f64 = text
        .chars()
        .map(|c| {
            face.glyph_index(c)
                .and_then(|g| face.glyph_hor_advance(g))
                .map_or(0.6 * f64::from(face.units_per_em()), f64::from)
        })
        .sum();
    units / f64::from(face.units_per_em()) * size
}

/// Breaks `text` into lines no wider than `room`. Breaks at spaces and after hyphens and slashes;
/// a single word wider than `room` is cut between letters. At least one line comes out.
pub fn wrap(text: &str, size: f64, weight: Weight, room: f64) -> Vec<String> {
    let mut lines = vec![];
    let mut line = String::new();
    for piece in pieces(text) {
        let joined = format!("{line}{piece}");
        if line.is_empty() || measure(joined.trim_end(), size, weight) <= room {
            line = joined;
        } else {
            lines.push(line.trim_end().to_string());
            line = piece.to_string();
        }
        while measure(line.trim_end(), size, weight) > room && line.trim_end().chars().count() > 1 {
            let cut = leave_three(&line, fitting(&line, size, weight, room));
            let rest = line.split_off(cut);
            lines.push(std::mem::replace(&mut line, rest));
        }
    }
    let last = line.trim_end();
    if !last.is_empty() || lines.is_empty() {
        lines.push(last.to_string());
    }
    lines
}

/// Number of bytes of `word` that fit into `room`: at least one letter.
fn fitting(word: &str, size: f64, weight: Weight, room: f64) -> usize {
    let ends = word.char_indices().map(|(i, c)| i + c.len_utf8());
    let mut cut = 0;
    for end in ends {
        if cut > 0 && measure(&word[..end], size, weight) > room {
            break;
        }
        cut = end;
    }
    cut
}

/// Moves a cut back so that the rest of the word is not one or two lonely letters.
fn leave_three(word: &str, cut: usize) -> usize {
    let rest = word[cut..].trim_end().chars().count();
    let back = 3usize.saturating_sub(rest);
    if back == 0 || word[..cut].chars().count() <= back + 2 {
        return cut;
    }
    word[..cut].char_indices().rev().nth(back - 1).map_or(cut, |(i, _)| i)
}

/// Pieces between which a line may break; each keeps its trailing space. A space between a number
/// and what follows it ("41 min", "< 0.5") is no place to break.
fn pieces(text: &str) -> Vec<&str> {
    let mut out = vec![];
    let mut start = 0;
    let mut before = ' ';
    let mut chars = text.char_indices().peekable();
    while let Some((i, c)) = chars.next() {
        let after = chars.peek().map_or(' ', |&(_, n)| n);
        let sticks = c == ' '
            && (matches!(before, '<' | '>' | '±' | '=' | '✓' | '✗' | '≤' | '≥')
                || (before.is_ascii_digit() && !after.is_ascii_digit() && short_word(&text[i..])));
        let joint = matches!(c, '-' | '/' | '–') && before.is_alphabetic() && after.is_alphabetic() && i - start > 3;
        let breaks = (c == ' ' && !sticks) || joint;
        if breaks {
            out.push(&text[start..i + c.len_utf8()]);
            start = i + c.len_utf8();
        }
        before = c;
    }
    out.push(&text[start..]);
    out
}

/// Is the word after this space short enough to be a unit?
fn short_word(from_space: &str) -> bool {
    from_space[1..].split(' ').next().is_some_and(|w| w.chars().count() <= 5)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_tabular() {
        let one = width("1", 10.0, Weight::Regular);
        for d in '0'..='9' {
            assert!((width(&d.to_string(), 10.0, Weight::Regular) - one).abs() < 1e-12);
        }
    }

    #[test]
    fn lines_break_where_a_reader_expects() {
        let check = |text: &str, room: f64, want: &[&str]| {
            assert_eq!(wrap(text, 10.0, Weight::Regular, room), want, "{text}");
        };
        check("", 50.0, &[""]);
        check("contact 41 min", 200.0, &["contact 41 min"]);
        check("contact 41 min", 45.0, &["contact", "41 min"]);
        check("nothing found < 0.5 pg", 60.0, &["nothing found", "< 0.5 pg"]);
    }

    #[test]
    fn a_long_word_is_cut_and_nothing_is_lost() {
        let word = "Donaudampfschifffahrtsgesellschaft";
        let lines = wrap(word, 11.0, Weight::Regular, 60.0);
        assert!(lines.len() > 1);
        assert_eq!(lines.concat(), word);
        for l in lines {
            assert!(width(&l, 11.0, Weight::Regular) <= 60.0);
        }
    }
}
