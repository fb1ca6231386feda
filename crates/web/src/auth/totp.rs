//! The second factor: a code of six digits that changes every half minute, as authenticators show it.
//!
//! HOTP (RFC 4226 section 5.3) of the number of the half minute since 1970 (TOTP, RFC 6238 section 4), with HMAC-SHA-1 and
//! six digits, which is what all authenticators know. A secret has 160 bits (RFC 4226 section 4, R6), written in base 32
//! (RFC 4648 section 6). A code counts for its half minute and one on each side (RFC 6238 section 5.2), and once.

use crate::lock::lock;
use ring::hmac;
use std::collections::HashMap;
use std::sync::Mutex;

/// Seconds that a code stands (RFC 6238 section 4.1).
const STEP_S: u64 = 30;

/// Half minutes that clocks may differ by, each way.
const APART: u64 = 1;

/// Bytes of a secret.
const SECRET: usize = 20;

/// RFC 4648 section 6, table 3.
const BASE_32: &[u8; 32] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

/// A new secret, in base 32.
pub(crate) fn new_secret() -> String {
    let bytes: Vec<u8> = [(); 2].iter().flat_map(|()| argon2::password_hash::generate_salt()).take(SECRET).collect();
    base_32(&bytes)
}

fn base_32(bytes: &[u8]) -> String {
    let (mut out, mut bits, mut held) = (String::new(), 0_u32, 0_u32);
    for b in bytes {
        held = held << 8 | u32::from(*b);
        bits += 8;
        while bits >= 5 {
            bits -= 5;
            out.push(BASE_32[(held >> bits & 31) as usize].into());
        }
    }
    if bits > 0 {
        out.push(BASE_32[(held << (5 - bits) & 31) as usize].into());
    }
    out
}

fn from_base_32(text: &str) -> Option<Vec<u8>> {
    let (mut out, mut bits, mut held) = (vec![], 0_u32, 0_u32);
    for sign in text.bytes() {
        let five = BASE_32.iter().position(|b| *b == sign)?;
        held = (held << 5 | five as u32) & 0xFFF;
        bits += 5;
        if bits >= 8 {
            bits -= 8;
            out.push((held >> bits & 0xFF) as u8);
        }
    }
    Some(out)
}

/// The code of a half minute.
fn code(key: &hmac::Key, step: u64, digits: u32) -> u32 {
    let tag = hmac::sign(key, &step.to_be_bytes());
    let tag = tag.as_ref();
    // Dynamic truncation, RFC 4226 section 5.3: the last four bits say where the 31 bits stand.
    let at = usize::from(tag[tag.len() - 1] & 0xF);
    let four = [tag[at], tag[at + 1], tag[at + 2], tag[at + 3]];
    (u32::from_be_bytes(four) & 0x7FFF_FFFF) % 10_u32.pow(digits)
}

/// The half minute whose code this is, near a moment.
fn step_of(secret: &str, typed: &str, at_s: u64) -> Option<u64> {
    let key = hmac::Key::new(hmac::HMAC_SHA1_FOR_LEGACY_USE_ONLY, &from_base_32(secret)?);
    let digits: String = typed.chars().filter(|c| !c.is_whitespace()).collect();
    if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    let now = at_s / STEP_S;
    (now.saturating_sub(APART)..=now + APART).find(|step| format!("{:06}", code(&key, *step, 6)) == digits)
}

/// Codes that counted: none counts again (RFC 6238 section 5.2).
#[derive(Default)]
pub(crate) struct Codes(Mutex<HashMap<String, u64>>);

impl Codes {
    /// Whether the code typed is the person's now; it counts once.
    pub fn fits(&self, person: &str, secret: &str, typed: &str) -> bool {
        let at_s = u64::try_from(jiff::Timestamp::now().as_second()).unwrap_or_default();
        self.fits_at(person, secret, typed, at_s)
    }

    fn fits_at(&self, person: &str, secret: &str, typed: &str, at_s: u64) -> bool {
        let Some(step) = step_of(secret, typed, at_s) else { return false };
        let mut counted = lock(&self.0);
        let new = counted.get(person).is_none_or(|last| step > *last);
        if new {
            counted.insert(person.into(), step);
        }
        new
    }
}

#[cfg(test)]
pub(crate) fn code_now(secret: &str) -> String {
    let key = hmac::Key::new(hmac::HMAC_SHA1_FOR_LEGACY_USE_ONLY, &from_base_32(secret).unwrap());
    format!("{:06}", code(&key, jiff::Timestamp::now().as_second() as u64 / STEP_S, 6))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 6238 appendix B: moment in s, code of eight digits with SHA-1, SHA-256, SHA-512. The keys are the ASCII digits
    /// 1234567890 repeated to 20, 32 and 64 bytes, as the reference program of appendix A has them (its errata say so).
    #[test]
    fn the_codes_are_those_of_the_standard() {
        const TABLE: [(u64, u32, u32, u32); 6] = [
            (59, 94287082, 46119246, 90693936),
            (1111111109, 7081804, 68084774, 25091201),
            (1111111111, 14050471, 67062674, 99943326),
            (1234567890, 89005924, 91819424, 93441116),
            (2000000000, 69279037, 90698825, 38618901),
            (20000000000, 65353130, 77737706, 47863826),
        ];
        let digits: Vec<u8> = b"1234567890".iter().copied().cycle().take(64).collect();
        let key = |how, n: usize| hmac::Key::new(how, &digits[..n]);
        let one = key(hmac::HMAC_SHA1_FOR_LEGACY_USE_ONLY, 20);
        let (two, five) = (key(hmac::HMAC_SHA256, 32), key(hmac::HMAC_SHA512, 64));
        for (at, sha_1, sha_256, sha_512) in TABLE {
            let step = at / STEP_S;
            assert_eq!([&one, &two, &five].map(|k| code(k, step, 8)), [sha_1, sha_256, sha_512], "at {at} s");
        }
    }

    /// RFC 4226 appendix D: the codes of six digits of counts 0 to 9.
    #[test]
    fn codes_of_counts_are_those_of_the_standard() {
        const CODES: [u32; 10] = [755224, 287082, 359152, 969429, 338314, 254676, 287922, 162583, 399871, 520489];
        let key = hmac::Key::new(hmac::HMAC_SHA1_FOR_LEGACY_USE_ONLY, b"12345678901234567890");
        for (n, expected) in CODES.iter().enumerate() {
            assert_eq!(code(&key, n as u64, 6), *expected, "count {n}");
        }
    }

    /// RFC 4648 section 10, without the padding that authenticators leave out.
    #[test]
    fn base_32_is_that_of_the_standard() {
        for (text, coded) in [
            ("", ""),
            ("f", "MY"),
            ("fo", "MZXQ"),
            ("foo", "MZXW6"),
            ("foob", "MZXW6YQ"),
            ("fooba", "MZXW6YTB"),
            ("foobar", "MZXW6YTBOI"),
        ] {
            assert_eq!(base_32(text.as_bytes()), coded);
            assert_eq!(from_base_32(coded).as_deref(), Some(text.as_bytes()));
        }
        assert_eq!(from_base_32("MZ1"), None);
        assert_eq!(from_base_32(&new_secret()).map(|s| s.len()), Some(SECRET));
        assert_ne!(new_secret(), new_secret());
    }

    #[test]
    fn a_code_counts_near_its_half_minute_and_once() {
        let secret = base_32(b"12345678901234567890");
        // RFC 6238 appendix B at 59 s, its last six digits: the second half minute, with one on each side from 0 to 89 s.
        for (at, fits) in [(0, true), (30, true), (59, true), (89, true), (90, false), (119, false)] {
            assert_eq!(Codes::default().fits_at("a", &secret, "287082", at), fits, "at {at} s");
        }
        let codes = Codes::default();
        assert!(codes.fits_at("a", &secret, "287 082", 59));
        assert!(!codes.fits_at("a", &secret, "287082", 60), "a second time");
        assert!(codes.fits_at("b", &secret, "287082", 60), "another person's own");
        assert!(!codes.fits_at("c", &secret, "28708", 59));
        assert!(!codes.fits_at("c", &secret, "", 59));
    }
}
