//! The typefaces that pages and figures bring with them, so that they look the same everywhere and ask nobody for them.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use std::fmt::Write as _;

const REGULAR: &[u8] = include_bytes!("../../../fonts/LimpidText-Regular.woff2");
const ITALIC: &[u8] = include_bytes!("../../../fonts/LimpidText-Italic.woff2");
const SEMIBOLD: &[u8] = include_bytes!("../../../fonts/LimpidText-SemiBold.woff2");

/// `@font-face` rules with the fonts inside; with or without the italic.
pub fn font_faces(with_italic: bool) -> String {
    let mut out = String::new();
    for (data, weight, style) in [(REGULAR, 400, "normal"), (SEMIBOLD, 600, "normal"), (ITALIC, 400, "italic")] {
        if style == "italic" && !with_italic {
            continue;
        }
        let _ = write!(
            out,
            "@font-face{{font-family:\"{}\";font-weight:{weight};font-style:{style};src:url(data:font/woff2;base64,{}) format(\"woff2\")}}",
            crate::text::FAMILY,
            STANDARD.encode(data)
        );
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648 section 4 written out: six bits a letter, `=` where a group of three bytes is not full.
    fn base64_by_hand(data: &[u8]) -> String {
        const LETTERS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
        let group = |three: &[u8]| {
            let bits = (0..3).fold(0_u32, |bits, n| (bits << 8) | u32::from(three.get(n).copied().unwrap_or(0)));
            let letter = |n: usize| char::from(LETTERS[(bits >> (18 - 6 * n)) as usize & 63]);
            (0..4).map(|n| if n <= three.len() { letter(n) } else { '=' }).collect::<String>()
        };
        data.chunks(3).map(group).collect()
    }

    #[test]
    fn the_fonts_stand_in_the_page_byte_by_byte() {
        // RFC 4648 section 10, test vectors.
        for (plain, coded) in [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foobar", "Zm9vYmFy")] {
            assert_eq!((STANDARD.encode(plain), base64_by_hand(plain.as_bytes())), (coded.into(), coded.into()));
        }
        let style = font_faces(true);
        let told: Vec<&str> = style.split("base64,").skip(1).filter_map(|t| t.split(')').next()).collect();
        assert_eq!(told, [REGULAR, SEMIBOLD, ITALIC].map(base64_by_hand));
    }
}
