//! One place for how a formula is written: read in every spelling, written into files in one, printed in another.
//!
//! In: a formula with its charge as laboratories and older files write it (`SO4--`, `SO4^2-`, `SO4²⁻`, `SO₄²⁻`). Out: its
//! charge; its spelling in files and JSON (`SO4^2-`, `HCO3-`); its form on pages and paper (SO₄²⁻, HCO₃⁻).
//! `SO42-` is not read: nothing tells its 4 from its 2. Names of couples (`SO4^2-/HS-`) are taken end by end.
//! What it does not do: no masses ([`crate::Substance`]). Checked in this file.

use crate::substance::is_formula;

/// A formula without its charge, and its charge number: `SO4--` and `SO4^2-` are `SO4` and −2.
///
/// ```
/// use quantity::formula::parted;
/// assert_eq!(parted("SO4--"), ("SO4", -2));
/// assert_eq!(parted("SO4²⁻"), ("SO4", -2));
/// // A digit before one sign counts atoms: four hydrogens, one charge.
/// assert_eq!(parted("NH4+"), ("NH4", 1));
/// ```
pub fn parted(name: &str) -> (&str, i32) {
    let bare = name.trim_end_matches(['+', '-', '\u{2212}', '⁺', '⁻']);
    let signs = &name[bare.len()..];
    let Some(sign) = signs.chars().next() else { return (name, 0) };
    let one = if matches!(sign, '+' | '⁺') { 1 } else { -1 };
    let several = i32::try_from(signs.chars().count()).unwrap_or(i32::MAX);
    if several == 1 {
        if let Some((body, n)) = bare.rsplit_once('^')
            && let Ok(n) = n.parse::<i32>()
        {
            return (body, n * one);
        }
        if let Some(n) = bare.chars().next_back().and_then(|c| SUPERSCRIPTS.iter().position(|s| *s == c)) {
            let body = &bare[..bare.len() - SUPERSCRIPTS[n].len_utf8()];
            return (body, i32::try_from(n).unwrap_or(1) * one);
        }
    }
    (bare, several * one)
}

const SUPERSCRIPTS: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
const SUBSCRIPTS: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];

/// As files and JSON write it: `SO4--` is `SO4^2-`, `HCO3⁻` is `HCO3-`; couples end by end.
///
/// ```
/// assert_eq!(quantity::formula::spelled("SO4--/HS-"), "SO4^2-/HS-");
/// ```
pub fn spelled(name: &str) -> String {
    name.split('/').map(spelled_one).collect::<Vec<_>>().join("/")
}

fn spelled_one(name: &str) -> String {
    let (body, charge) = parted(name);
    let body: String = body
        .chars()
        .map(|c| SUBSCRIPTS.iter().position(|s| *s == c).map_or(c, |n| char::from(b'0' + u8::try_from(n).unwrap_or(0))))
        .collect();
    let sign = if charge > 0 { '+' } else { '-' };
    match charge.abs() {
        0 => name.to_string(),
        1 => format!("{body}{sign}"),
        n => format!("{body}^{n}{sign}"),
    }
}

/// As a chemist writes it: `Pb(CO3)2^2-` is Pb(CO₃)₂²⁻, `SO4--/HS-` is SO₄²⁻ / HS⁻.
pub fn typeset(name: &str) -> String {
    name.split('/').map(typeset_one).collect::<Vec<_>>().join(" / ")
}

fn typeset_one(name: &str) -> String {
    let (body, charge) = parted(name);
    let mut out = String::new();
    let mut before = ' ';
    for c in body.chars() {
        let counts = before.is_alphabetic() || before == ')' || SUBSCRIPTS.contains(&before);
        let shown = c.to_digit(10).filter(|_| counts).map_or(c, |n| SUBSCRIPTS[n as usize]);
        out.push(shown);
        before = shown;
    }
    if charge.abs() > 1 {
        let digits = charge.abs().to_string();
        out.extend(digits.chars().filter_map(|c| c.to_digit(10)).map(|n| SUPERSCRIPTS[n as usize]));
    }
    match charge {
        0 => {}
        n if n > 0 => out.push('⁺'),
        _ => out.push('⁻'),
    }
    out
}

/// Anions of one charge that stand in running text. Of others a minus may be the hyphen of a compound word ("Pb- und
/// Cd-Gehalte"), so no list, no charge.
const ANIONS: [&str; 8] = ["HCO3-", "NO3-", "NO2-", "HS-", "OH-", "Cl-", "H2PO4-", "HSO4-"];

/// The charged formula that a text begins with, and the bytes that it takes; none where what follows makes it part of
/// another name.
pub fn at_start(text: &str) -> Option<(String, usize)> {
    if !text.starts_with(|c: char| c.is_ascii_uppercase() || c == '(') {
        return None;
    }
    let end = text.find(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '(' | ')')))?;
    let charge = text[end..].find(|c: char| !matches!(c, '+' | '-' | '^' | '0'..='9')).unwrap_or(text.len() - end);
    let whole = &text[..end + charge];
    let (body, number) = parted(whole);
    let signs = whole.len() - body.len();
    let sure = number.abs() > 1 || number == 1 || ANIONS.contains(&whole);
    let joined = text[whole.len()..].starts_with(|c: char| c.is_alphanumeric() || matches!(c, '_' | '/'));
    let couple = text[whole.len()..].strip_prefix('/').and_then(at_start);
    if number == 0 || signs == 0 || body.len() != end || !sure || !is_formula(body) {
        return None;
    }
    match couple {
        Some((other, length)) => Some((format!("{} / {other}", typeset(whole)), whole.len() + 1 + length)),
        None if joined => None,
        None => Some((typeset(whole), whole.len())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Charges as superscripts behind the number: IUPAC, Nomenclature of Inorganic Chemistry 2005, IR-5.4.2 (from memory).
    #[test]
    fn one_formula_in_its_spellings() {
        for (read, file, page) in [
            ("Ca++", "Ca^2+", "Ca²⁺"),
            ("Ca^2+", "Ca^2+", "Ca²⁺"),
            ("Ca²⁺", "Ca^2+", "Ca²⁺"),
            ("SO₄²⁻", "SO4^2-", "SO₄²⁻"),
            ("Pb(CO3)2--", "Pb(CO3)2^2-", "Pb(CO₃)₂²⁻"),
            ("UO2(CO3)3----", "UO2(CO3)3^4-", "UO₂(CO₃)₃⁴⁻"),
            ("SO4--/HS-", "SO4^2-/HS-", "SO₄²⁻ / HS⁻"),
            ("HCO3-", "HCO3-", "HCO₃⁻"),
            ("NH4+", "NH4+", "NH₄⁺"),
            ("H4SiO4(aq)", "H4SiO4(aq)", "H₄SiO₄(aq)"),
            ("Fe+++", "Fe^3+", "Fe³⁺"),
            ("HCO3 + CO3", "HCO3 + CO3", "HCO₃ + CO₃"),
            ("O2/H2O", "O2/H2O", "O₂ / H₂O"),
            ("calcite", "calcite", "calcite"),
        ] {
            assert_eq!((spelled(read).as_str(), typeset(read).as_str()), (file, page), "{read}");
            assert_eq!((spelled(&spelled(read)).as_str(), typeset(&spelled(read)).as_str()), (file, page), "{read}");
        }
    }

    #[test]
    fn a_formula_in_a_sentence_is_told_from_a_hyphen() {
        let found = |text: &str| at_start(text).map(|(shown, length)| (shown, text[length..].to_string()));
        assert_eq!(found("Ca^2+, Mg"), Some(("Ca²⁺".into(), ", Mg".into())));
        assert_eq!(found("SO4--/HS- apart"), Some(("SO₄²⁻ / HS⁻".into(), " apart".into())));
        assert_eq!(found("FeHS+)"), Some(("FeHS⁺".into(), ")".into())));
        for text in ["Pb- und Cd-Gehalte", "SL-2 again", "CO2 + H2O", "U-238", "Ca++x", "WELL--", "B2-1", "H2O"] {
            assert_eq!(found(text), None, "{text}");
        }
    }
}
