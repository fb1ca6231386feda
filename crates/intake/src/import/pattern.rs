//! Headings and names taken apart without regular expressions: `{analyte} ({unit})`, templates
//! such as `{site} {date|digits}`, and the unit that a heading carries ("Pb (ng/L)", "Pb_ugL").
//!
//! A pattern is literal text with names in braces. Matching takes each name as the shortest text
//! up to the next literal; the last name takes the rest. Checked in the tests below.

use quantity::{Unit, UnitError};
use std::collections::BTreeMap;

/// One piece of a pattern.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Piece {
    /// Text as it stands.
    Literal(String),
    /// A name, and whether only letters and digits of its text are kept.
    Name {
        /// The name.
        name: String,
        /// Kept without blanks and signs.
        digits: bool,
    },
}

/// Literal text and names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pattern(pub Vec<Piece>);

impl Pattern {
    /// Reads a pattern.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn parse(text: &str) -> Result<Self, String> {
        let mut pieces = vec![];
        let mut rest = text;
        while let Some(open) = rest.find('{') {
            let Some(close) = rest[open..].find('}').map(|k| open + k) else {
                return Err(format!("\"{text}\": a brace is not closed"));
            };
            if open > 0 {
                pieces.push(Piece::Literal(rest[..open].to_string()));
            }
            let (name, digits) = match rest[open + 1..close].split_once('|') {
                None => (&rest[open + 1..close], false),
                Some((n, "digits")) => (n, true),
                Some((_, other)) => return Err(format!("\"{text}\": \"{other}\" is no filter; there is \"digits\"")),
            };
            pieces.push(Piece::Name { name: name.to_string(), digits });
            rest = &rest[close + 1..];
        }
        if !rest.is_empty() {
            pieces.push(Piece::Literal(rest.to_string()));
        }
        Ok(Self(pieces))
    }

    /// The names in order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.0.iter().filter_map(|p| match p {
            Piece::Name { name, .. } => Some(name.as_str()),
            Piece::Literal(_) => None,
        })
    }

    /// Takes a text apart; none where it does not fit.
    pub fn fit<'t>(&self, text: &'t str) -> Option<BTreeMap<&str, &'t str>> {
        let mut found = BTreeMap::new();
        let mut rest = text.trim();
        let mut pieces = self.0.iter().peekable();
        while let Some(piece) = pieces.next() {
            match piece {
                Piece::Literal(l) => rest = rest.strip_prefix(l.as_str())?,
                Piece::Name { name, .. } => {
                    let end = match pieces.peek() {
                        None => rest.len(),
                        Some(Piece::Literal(l)) => rest.find(l.as_str())?,
                        Some(Piece::Name { .. }) => return None,
                    };
                    let part = rest[..end].trim();
                    if part.is_empty() {
                        return None;
                    }
                    found.insert(name.as_str(), part);
                    rest = &rest[end..];
                }
            }
        }
        rest.is_empty().then_some(found)
    }
}

/// A heading in two: what it names, and the unit it carries ("Pb (ng/L)", "Pb [ng/L]",
/// "Pb, ng/L", "Pb_ugL", "ANC_mgL_CaCO3"); none where it carries no unit we know.
pub fn heading_unit<'h>(
    heading: &'h str,
    names: &BTreeMap<String, String>,
) -> Option<(&'h str, Result<Unit, UnitError>)> {
    let h = heading.trim();
    for (open, close) in [('(', ')'), ('[', ']')] {
        if let Some(inner) = h.strip_suffix(close)
            && let Some(k) = inner.rfind(open)
        {
            return Some((h[..k].trim(), unit(inner[k + 1..].trim(), names)));
        }
    }
    if let Some((name, u)) = h.rsplit_once(", ")
        && let ok @ (Ok(_) | Err(UnitError::Ambiguous { .. })) = unit(u, names)
    {
        return Some((name.trim(), ok));
    }
    for (k, _) in h.match_indices(['_', ' ']) {
        if let ok @ (Ok(_) | Err(UnitError::Ambiguous { .. })) = unit(&h[k + 1..], names) {
            return Some((h[..k].trim(), ok));
        }
    }
    None
}

/// A unit as the file writes it: through the mapping's table of names, as a unit, or in the
/// short form of headings (`ugL`, `mgL_CaCO3`, `uScm`).
///
/// # Errors
/// [`UnitError`] of the text as found.
pub fn unit(text: &str, names: &BTreeMap<String, String>) -> Result<Unit, UnitError> {
    if let Some(known) = names.get(text) {
        return Unit::parse(known);
    }
    let plain = Unit::parse(text);
    match plain {
        Err(UnitError::Unknown { .. }) => {}
        _ => return plain,
    }
    if let Some(u) = customary(text) {
        return Ok(u);
    }
    let (body, basis) = match text.split_once('_') {
        Some((b, s)) => (b, Some(s)),
        None => (text, None),
    };
    for tail in ["L", "l", "kg", "cm"] {
        if let Some(head) = body.strip_suffix(tail)
            && ["g", "mol", "eq", "S"].iter().any(|q| head.ends_with(q))
        {
            let spelled = match basis {
                Some(s) => format!("{head}/{tail} as {s}"),
                None => format!("{head}/{tail}"),
            };
            if let Ok(u) = Unit::parse(&spelled) {
                return Ok(u);
            }
        }
    }
    plain
}

/// Units as laboratories print them and no standard has them: "mval/l", "mg/l CaCO3", "mg/l als N", "mmol/l (KS4,3)",
/// "µS/cm bei 25 °C", "pH-Einheiten", "µg l-1".
fn customary(text: &str) -> Option<Unit> {
    let mut t = text.trim().to_string();
    for (from, to) in [
        ("mval", "meq"),
        (" als ", " as "),
        (" L-1", "/L"),
        (" l-1", "/L"),
        ("·L-1", "/L"),
        ("·l-1", "/L"),
        (" L⁻¹", "/L"),
        (" l⁻¹", "/L"),
    ] {
        t = t.replace(from, to);
    }
    if ["pH-Einheiten", "pH-Einheit", "pH units", "pH unit", "pH-Wert", "std units"].contains(&t.as_str()) {
        return Unit::parse("pH").ok();
    }
    if let Ok(u) = Unit::parse(&t) {
        return Some(u);
    }
    // What follows the unit: the reference temperature of a conductivity, the end point of a titration, the formula.
    let (body, rest) = t.split_once([' ', '@', '(']).map(|(b, r)| (b.trim(), r.trim().trim_end_matches(')')))?;
    let squeezed: String = rest.chars().filter(|c| !c.is_whitespace()).collect::<String>().to_lowercase();
    let at_25 = ["25°c", "25c", "@25°c", "@25c", "bei25°c", "at25°c"].contains(&squeezed.trim_start_matches('('));
    let end_point = ["ks4,3", "ks4.3", "kb8,2", "kb8.2"].contains(&squeezed.trim_start_matches('('));
    if (at_25 && body.ends_with("S/cm")) || (end_point && body.contains("mol")) {
        return Unit::parse(body).ok();
    }
    Unit::parse(&format!("{body} as {}", rest.trim_start_matches('(').trim_end_matches(['-', '+', '2', '^'])))
        .ok()
        .or_else(|| Unit::parse(&format!("{body} as {}", rest.trim_start_matches('('))).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn patterns_take_headings_apart() {
        let p = Pattern::parse("{isotope} ({resolution}, {mode})").unwrap();
        let found = p.fit("Pb208 (low, counting)").unwrap();
        assert_eq!(found["isotope"], "Pb208");
        assert_eq!(found["mode"], "counting");
        assert!(p.fit("Pb208").is_none());
        assert!(Pattern::parse("{a").is_err());
        assert!(Pattern::parse("{a|b}").is_err());
    }

    #[test]
    fn headings_carry_units() {
        let none = BTreeMap::new();
        for (heading, name, unit) in [
            ("Pb (ng/L)", "Pb", "ng/L"),
            ("Pb [ng/l]", "Pb", "ng/L"),
            ("Pb_ugL", "Pb", "µg/L"),
            ("Pb, ng/L", "Pb", "ng/L"),
            ("ANC_field_mgL_CaCO3", "ANC_field", "mg/L as CaCO3"),
            ("NO3NO2_mgL_N", "NO3NO2", "mg/L as N"),
            ("sc_uScm", "sc", "µS/cm"),
            ("temp_C", "temp", "°C"),
        ] {
            let (n, u) = heading_unit(heading, &none).unwrap();
            assert_eq!((n, u.unwrap().to_string().as_str()), (name, unit), "{heading}");
        }
        for (text, known) in [
            ("mval/l", "meq/L"),
            ("mg/l CaCO3", "mg/L as CaCO3"),
            ("mg/l als CaCO3", "mg/L as CaCO3"),
            ("mg/l NO3-", "mg/L as NO3"),
            ("mg/l (HCO3)", "mg/L as HCO3"),
            ("mmol/l (KS4,3)", "mmol/L"),
            ("mmol/L KS 4.3", "mmol/L"),
            ("µS/cm bei 25 °C", "µS/cm"),
            ("uS/cm @25C", "µS/cm"),
            ("pH-Einheiten", "pH"),
            ("µg l-1", "µg/L"),
            ("mg/dm³", "mg/dm³"),
            ("°dH", "°dH"),
        ] {
            assert_eq!(super::unit(text, &none).map(|u| u.to_string()), Ok(known.into()), "{text}");
        }
        assert!(super::unit("mg/l bei Bedarf", &none).is_err());
        assert!(heading_unit("Lead", &none).is_none());
        let (_, u) = heading_unit("Pb (ppt)", &none).unwrap();
        assert!(matches!(u, Err(UnitError::Ambiguous { .. })));
    }
}
