//! Names of species as a chemist writes them, numbers with a true minus sign.

use figure::scale::spaced;
use quantity::format::{at_decimals, significant};

/// To significant digits.
pub fn digits(x: f64, n: i32) -> String {
    spaced(&significant(x, n))
}

/// To decimals.
pub fn decimals(x: f64, n: i32) -> String {
    let text = at_decimals(x, n);
    // A rounded nothing has no sign.
    if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
        return text.trim_start_matches('-').into();
    }
    spaced(&text)
}

/// `Pb(CO3)2--` as Pb(CO₃)₂²⁻, `SO4--/HS-` as SO₄²⁻ / HS⁻.
pub fn species(name: &str) -> String {
    name.split('/').map(one).collect::<Vec<_>>().join(" / ")
}

fn one(name: &str) -> String {
    let bare = name.trim_end_matches(['+', '-']);
    let charge = &name[bare.len()..];
    let mut out = String::new();
    let mut before = ' ';
    for c in bare.chars() {
        let low = c.is_ascii_digit() && (before.is_alphabetic() || before == ')' || ('₀'..='₉').contains(&before));
        let shown = if low { char::from_u32(0x2080 + (c as u32 - '0' as u32)).unwrap_or(c) } else { c };
        out.push(shown);
        before = shown;
    }
    match charge.len() {
        0 | 1 => {}
        2 => out.push('²'),
        3 => out.push('³'),
        n => out.push_str(&n.to_string()),
    }
    out.extend(charge.chars().next().map(|c| if c == '+' { '⁺' } else { '⁻' }));
    out
}

/// "a, b and c".
pub fn listed(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn species_as_a_chemist_writes_them() {
        for (plain, shown) in [
            ("Pb(CO3)2--", "Pb(CO₃)₂²⁻"),
            ("SO4--/HS-", "SO₄²⁻ / HS⁻"),
            ("H4SiO4(aq)", "H₄SiO₄(aq)"),
            ("Fe+++", "Fe³⁺"),
            ("HCO3 + CO3", "HCO₃ + CO₃"),
            ("O2/H2O", "O₂ / H₂O"),
        ] {
            assert_eq!(species(plain), shown);
        }
    }

    #[test]
    fn a_rounded_nothing_has_no_sign() {
        assert_eq!(decimals(-0.001, 2), "0.00");
        assert_eq!(decimals(-2.5, 1), "−2.5");
    }
}
