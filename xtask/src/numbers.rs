//! Numbers that belong to a science: quantiles and unit factors written out in a room that only shows.
//!
//! In: one line of a source file. Out: what of it should be a name in `distribution` or
//! `quantity::factor`. Only float literals count, outside strings and comments. Quantiles of the normal
//! distribution and factors such as 35.3147 (ft³ in a m³) are known by their digits; 60 and powers of
//! ten only where they multiply or divide a name that ends in a unit (`volume_m3`, `minutes`), since
//! pictures are full of round numbers. What stands over two lines is not seen.

/// z with P(Z > z) = 10, 5, 2.5, 1, 0.5, 0.1 and 0.05 %.
// scipy 1.17.1: stats.norm.isf([.1, .05, .025, .01, .005, .001, .0005])
const QUANTILES: [f64; 7] = [
    1.281_551_565_544_600_4,
    1.644_853_626_951_472_9,
    1.959_963_984_540_054,
    2.326_347_874_040_840_8,
    2.575_829_303_548_900_4,
    3.090_232_306_167_813,
    3.290_526_731_491_925_5,
];

/// The three that are written to two decimals: others of that length are as likely a width.
const SHORT: [&str; 3] = ["1.64", "1.96", "2.58"];

/// Beginnings of factors that mean nothing else: ft³, gallons of both kinds, ft, in, psi and lb in SI units and
/// back, atm, 0 °C in K, hours, days and years in seconds and minutes, m³/s in L/min.
const FACTORS: [&str; 21] = [
    "35.31", "28.316", "0.0283", "3.785", "0.2641", "4.546", "0.3048", "3.2808", "0.0254", "6.894", "0.4535", "101325",
    "1.01325", "273.15", "3600", "86400", "31557600", "525960", "365.25", "365.2425", "60000",
];

/// Factors where the other side is a name with a unit: times, powers of ten, and twice a thousand (a width of a
/// radius).
const BESIDE_UNITS: [f64; 9] = [24.0, 60.0, 1e3, 2e3, 1e6, 1e9, 1e-3, 1e-6, 1e-9];

/// Ends of names that tell a unit.
const UNITS: [&str; 27] = [
    "m", "mm", "cm", "um", "km", "m2", "m3", "l", "ml", "s", "ms", "min", "h", "d", "a", "g", "kg", "mg", "ug", "ng",
    "pg", "pa", "bar", "minutes", "seconds", "hours", "days",
];

#[derive(Debug, Clone, PartialEq)]
enum Token {
    /// A float literal without underscores and type.
    Float(String),
    /// A name, with the path before it.
    Name(String),
    Sign(char),
}

/// What is wrong with one line of a room that only shows.
pub fn line_faults(line: &str) -> Vec<String> {
    let tokens = tokens(line);
    let mut faults = vec![];
    for (i, t) in tokens.iter().enumerate() {
        let Token::Float(text) = t else { continue };
        let value: f64 = text.parse().unwrap_or(f64::NAN);
        if is_quantile(text, value) {
            faults.push(format!("{text} is a quantile: take it from distribution, by name"));
        } else if FACTORS.iter().any(|f| starts(text, f)) || (is_round_factor(value) && beside_unit(&tokens, i)) {
            faults.push(format!("{text} is a factor between units: take it from quantity::factor, by name"));
        }
    }
    faults
}

fn is_quantile(text: &str, value: f64) -> bool {
    let decimals = text.split_once('.').map_or(0, |(_, d)| d.len());
    let scale = 10f64.powi(i32::try_from(decimals.min(12)).unwrap_or(12));
    // Rounded or cut off.
    let near = |z: &f64| (value - z).abs() * scale < 1.0 + 1e-9;
    SHORT.contains(&text) || (decimals >= 3 && QUANTILES.iter().any(near))
}

/// Does the number begin with these digits, or is it they and a point?
fn starts(text: &str, digits: &str) -> bool {
    text.strip_prefix(digits)
        .is_some_and(|rest| rest.is_empty() || rest == ".0" || (digits.contains('.') && !rest.contains(['.', 'e'])))
}

fn is_round_factor(value: f64) -> bool {
    BESIDE_UNITS.iter().any(|f| (value / f - 1.0).abs() < 1e-12)
}

/// Does the number multiply or divide a name that ends in a unit, or is it divided by one?
fn beside_unit(tokens: &[Token], i: usize) -> bool {
    let sign = |t: Option<&Token>| matches!(t, Some(Token::Sign('*' | '/')));
    let after = sign(tokens.get(i + 1)).then(|| tokens.get(i + 2)).flatten();
    let before = i.checked_sub(2).filter(|_| sign(tokens.get(i - 1))).and_then(|j| tokens.get(j));
    [before, after].into_iter().flatten().any(|t| matches!(t, Token::Name(n) if ends_in_unit(n)))
}

fn ends_in_unit(name: &str) -> bool {
    let last = name.rsplit('.').next().unwrap_or(name);
    match last.rsplit_once('_') {
        Some((_, unit)) => UNITS.contains(&unit),
        // A whole name of one letter says no unit.
        None => last.len() > 3 && UNITS.contains(&last),
    }
}

fn tokens(line: &str) -> Vec<Token> {
    let c: Vec<char> = line.chars().collect();
    let mut out = vec![];
    let mut i = 0;
    while i < c.len() {
        match c[i] {
            '/' if c.get(i + 1) == Some(&'/') => break,
            '"' => i = after_string(&c, i),
            x if x.is_ascii_digit() => {
                let (text, next) = number(&c, i);
                if text.contains(['.', 'e']) {
                    out.push(Token::Float(text));
                } else {
                    out.push(Token::Sign('0'));
                }
                i = next;
            }
            x if x.is_alphabetic() || x == '_' => {
                let start = i;
                while i < c.len() && (c[i].is_alphanumeric() || matches!(c[i], '_' | '.')) {
                    i += 1;
                }
                out.push(Token::Name(c[start..i].iter().collect()));
            }
            ' ' => i += 1,
            // A call without arguments is a name like any other.
            '(' if c.get(i + 1) == Some(&')') && matches!(out.last(), Some(Token::Name(_))) => i += 2,
            x => {
                out.push(Token::Sign(x));
                i += 1;
            }
        }
    }
    out
}

fn after_string(c: &[char], start: usize) -> usize {
    let mut i = start + 1;
    while i < c.len() && c[i] != '"' {
        i += if c[i] == '\\' { 2 } else { 1 };
    }
    i + 1
}

/// The literal at `start` without underscores and type, and where it ends.
fn number(c: &[char], start: usize) -> (String, usize) {
    let mut i = start;
    let digits = |i: &mut usize| {
        while c.get(*i).is_some_and(|x| x.is_ascii_digit() || *x == '_') {
            *i += 1;
        }
    };
    digits(&mut i);
    if c.get(i) == Some(&'.') && c.get(i + 1).is_some_and(char::is_ascii_digit) {
        i += 1;
        digits(&mut i);
    }
    if c.get(i) == Some(&'e') {
        i += 1;
        if matches!(c.get(i), Some('-' | '+')) {
            i += 1;
        }
        digits(&mut i);
    }
    let text = c[start..i].iter().filter(|x| **x != '_').collect();
    // A type behind the digits.
    while c.get(i).is_some_and(|x| x.is_alphanumeric() || *x == '_') {
        i += 1;
    }
    (text, i)
}
