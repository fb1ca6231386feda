//! JSON with one way to write it: RFC 8785 (JSON Canonicalization Scheme). Members sorted by
//! their UTF-16 code units, no spaces, numbers as ECMAScript prints them (shortest digits that
//! read back as the same binary64), only the escapes that JSON needs.
//!
//! In: a JSON value. Out: its canonical text, whose UTF-8 bytes are hashed. An integer beyond
//! 2^53 − 1 has no exact binary64 and is refused. Checked against the number table and the
//! example of the RFC (from memory).

use super::StoreError;
use serde_json::Value;
use std::fmt::Write as _;

/// The largest integer that every reader of JSON keeps exact (RFC 7493, section 2.2).
const LARGEST_SAFE_INTEGER: u64 = (1 << 53) - 1;

/// The canonical text of a JSON value.
///
/// # Errors
/// A number that is not finite or an integer beyond ±(2^53 − 1).
pub fn canonical_json(value: &Value) -> Result<String, StoreError> {
    let mut out = String::new();
    write_value(&mut out, value)?;
    Ok(out)
}

fn write_value(out: &mut String, value: &Value) -> Result<(), StoreError> {
    match value {
        Value::Null => out.push_str("null"),
        Value::Bool(b) => out.push_str(if *b { "true" } else { "false" }),
        Value::Number(n) => write_json_number(out, n)?,
        Value::String(s) => write_string(out, s),
        Value::Array(items) => {
            out.push('[');
            for (i, item) in items.iter().enumerate() {
                if i > 0 {
                    out.push(',');
                }
                write_value(out, item)?;
            }
            out.push(']');
        }
        Value::Object(members) => {
            let mut sorted: Vec<_> = members.iter().collect();
            // The order of UTF-16 code units (RFC 8785) differs from that of UTF-8 bytes above U+FFFF.
            sorted.sort_by(|a, b| a.0.encode_utf16().cmp(b.0.encode_utf16()));
            out.push('{');
            for (i, (name, item)) in sorted.into_iter().enumerate() {
                if i > 0 {
                    out.push(',');
                }
                write_string(out, name);
                out.push(':');
                write_value(out, item)?;
            }
            out.push('}');
        }
    }
    Ok(())
}

fn write_json_number(out: &mut String, n: &serde_json::Number) -> Result<(), StoreError> {
    let refused = || StoreError::NotCanonical(n.to_string());
    if let Some(magnitude) = n.as_u64().or_else(|| n.as_i64().map(i64::unsigned_abs)) {
        if magnitude > LARGEST_SAFE_INTEGER {
            return Err(refused());
        }
        write!(out, "{n}").expect("a string takes all that is written");
        return Ok(());
    }
    let x = n.as_f64().filter(|x| x.is_finite()).ok_or_else(refused)?;
    write_number(out, x);
    Ok(())
}

/// A finite number as ECMAScript's Number::toString prints it (ECMA-262, 6.1.6.1.20).
fn write_number(out: &mut String, x: f64) {
    if x == 0.0 {
        out.push('0');
        return;
    }
    if x < 0.0 {
        out.push('-');
    }
    let scientific = format!("{:e}", x.abs());
    let (mantissa, exponent) = scientific.split_once('e').expect("{:e} writes an exponent");
    let exponent: i32 = exponent.parse().expect("{:e} writes a whole exponent");
    let digits: String = mantissa.chars().filter(|c| *c != '.').collect();
    let count = i32::try_from(digits.len()).expect("a number has at most 17 digits");
    // ECMAScript's n: the decimal point stands after the n-th digit.
    let point = exponent + 1;
    if (count..=21).contains(&point) {
        out.push_str(&digits);
        out.extend(std::iter::repeat_n('0', (point - count) as usize));
    } else if 0 < point && point <= 21 {
        let (whole, part) = digits.split_at(point as usize);
        out.extend([whole, ".", part]);
    } else if -6 < point && point <= 0 {
        out.push_str("0.");
        out.extend(std::iter::repeat_n('0', (-point) as usize));
        out.push_str(&digits);
    } else {
        let (first, rest) = digits.split_at(1);
        out.push_str(first);
        if !rest.is_empty() {
            out.extend([".", rest]);
        }
        let sign = if exponent < 0 { '-' } else { '+' };
        write!(out, "e{sign}{}", exponent.abs()).expect("a string takes all that is written");
    }
}

fn write_string(out: &mut String, s: &str) {
    out.push('"');
    for c in s.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\u{8}' => out.push_str("\\b"),
            '\t' => out.push_str("\\t"),
            '\n' => out.push_str("\\n"),
            '\u{c}' => out.push_str("\\f"),
            '\r' => out.push_str("\\r"),
            c if c < '\u{20}' => {
                write!(out, "\\u{:04x}", c as u32).expect("a string takes all that is written");
            }
            c => out.push(c),
        }
    }
    out.push('"');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_the_table_in_rfc_8785_appendix_b() {
        // RFC 8785, appendix B: IEEE 754 bits and the text (from memory).
        for (bits, text) in [
            (0x0000_0000_0000_0000, "0"),
            (0x8000_0000_0000_0000, "0"),
            (0x0000_0000_0000_0001, "5e-324"),
            (0x8000_0000_0000_0001, "-5e-324"),
            (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
            (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
            (0x4340_0000_0000_0000, "9007199254740992"),
            (0xc340_0000_0000_0000, "-9007199254740992"),
            (0x4430_0000_0000_0000, "295147905179352830000"),
            (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
            (0x44b5_2d02_c7e1_4af6, "1e+23"),
            (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
            (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
            (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
            (0x444b_1ae4_d6e2_ef50, "1e+21"),
            (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
            (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
            (0x41b3_de43_5555_5553, "333333333.3333332"),
            (0x41b3_de43_5555_5554, "333333333.33333325"),
            (0x41b3_de43_5555_5555, "333333333.3333333"),
            (0x41b3_de43_5555_5556, "333333333.3333334"),
            (0x41b3_de43_5555_5557, "333333333.33333343"),
        ] {
            let mut out = String::new();
            write_number(&mut out, f64::from_bits(bits));
            assert_eq!(out, text, "{bits:016x}");
        }
    }

    #[test]
    fn the_example_of_rfc_8785_section_3_2() {
        // RFC 8785, sections 3.2.2 and 3.2.3 (from memory).
        let value: Value = serde_json::from_str(
            r#"{
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }"#,
        )
        .unwrap();
        assert_eq!(
            canonical_json(&value).unwrap(),
            "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}"
        );
    }

    #[test]
    fn members_are_sorted_by_utf_16_units() {
        // RFC 8785, section 3.2.3 (from memory): the surrogates of the emoji sort before U+FB33.
        let value: Value = serde_json::from_str(
            r#"{"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh",
                "1":"One","\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control",
                "\u00f6":"Latin Small Letter O With Diaeresis"}"#,
        )
        .unwrap();
        let text = canonical_json(&value).unwrap();
        let order: Vec<usize> = ["Carriage", "One", "Control", "Latin", "Euro", "Emoji", "Hebrew"]
            .iter()
            .map(|w| text.find(w).unwrap())
            .collect();
        assert!(order.is_sorted(), "{text}");
    }

    #[test]
    fn an_integer_that_binary64_cannot_hold_is_refused() {
        assert!(canonical_json(&serde_json::json!(9_007_199_254_740_991_i64)).is_ok());
        let refused = canonical_json(&serde_json::json!(9_007_199_254_740_993_i64)).unwrap_err();
        assert!(refused.to_string().contains("9007199254740993"));
    }
}
