//! Which row under a digest was altered? A digest over many rows shows that one of them changed, not which; two sums
//! beside it tell that. They prove nothing: the digest does.
//!
//! A row has a tag: the first 8 bytes of its BLAKE3 hash as a little-endian number, modulo p. With k the row's place
//! under the digest, from 1:
//!
//! ```text
//! S0 = Σ tag(k) mod p      S1 = Σ k·tag(k) mod p      p = 2^61 − 1, a prime
//! ```
//!
//! Where one row changed or went, S0 is off by d and S1 by k·d, so k = ΔS1/ΔS0: a code that corrects one error, its
//! two syndromes (Reed and Solomon 1960, J. SIAM 8:300, from memory). Where several changed, the quotient is some number below p
//! and hardly ever (rows/p) one of a row: then nothing is located. Checked below and in `tests/store_verify.rs`.

/// The prime of the sums: 2^61 − 1 (Mersenne).
const P: u64 = (1 << 61) - 1;

/// The two sums over rows.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Sums {
    s0: u64,
    s1: u64,
}

impl Sums {
    /// Adds the row at `place`, from 1, by its canonical bytes.
    pub fn add(&mut self, place: u64, row: &[u8]) {
        let hash = blake3::hash(row);
        let first: [u8; 8] = hash.as_bytes()[..8].try_into().expect("a hash has 32 bytes");
        let tag = u64::from_le_bytes(first) % P;
        self.s0 = (self.s0 + tag) % P;
        self.s1 = (self.s1 + times(place, tag)) % P;
    }

    /// As an event holds it: two numbers of 16 hexadecimal digits.
    pub fn in_words(self) -> String {
        format!("{:016x}{:016x}", self.s0, self.s1)
    }

    /// From an event.
    pub fn read(text: &str) -> Option<Self> {
        let half = |range| u64::from_str_radix(text.get(range)?, 16).ok().filter(|n| *n < P);
        (text.len() == 32).then_some(Self { s0: half(0..16)?, s1: half(16..32)? })
    }

    /// The place, from 1 to `rows`, of the one row that makes these sums differ from those `found`.
    pub(crate) fn place_of_difference(self, found: Self, rows: u64) -> Option<u64> {
        let (d0, d1) = ((P + found.s0 - self.s0) % P, (P + found.s1 - self.s1) % P);
        // Fermat: 1/d = d^(p − 2).
        let place = times(d1, power(d0, P - 2));
        (d0 != 0 && (1..=rows).contains(&place)).then_some(place)
    }
}

fn times(a: u64, b: u64) -> u64 {
    u64::try_from(u128::from(a) * u128::from(b) % u128::from(P)).expect("a remainder is below the modulus")
}

fn power(mut base: u64, mut exponent: u64) -> u64 {
    let mut out = 1;
    while exponent > 0 {
        if exponent & 1 == 1 {
            out = times(out, base);
        }
        base = times(base, base);
        exponent >>= 1;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sums(rows: &[&str]) -> Sums {
        let mut out = Sums::default();
        for (place, row) in (1..).zip(rows) {
            out.add(place, row.as_bytes());
        }
        out
    }

    #[test]
    fn the_one_row_that_changed_is_located_and_of_several_none() {
        let names: Vec<String> = (0..4096).map(|n| format!("row {n}")).collect();
        let written: Vec<&str> = names.iter().map(String::as_str).collect();
        let kept = sums(&written);
        assert_eq!(Sums::read(&kept.in_words()), Some(kept));
        for place in [1, 2, 1000, 4096] {
            let mut altered = written.clone();
            altered[place - 1] = "another";
            assert_eq!(kept.place_of_difference(sums(&altered), 4096), Some(place as u64));
        }
        let mut two = written.clone();
        (two[7], two[8]) = (written[8], written[7]);
        assert_eq!(kept.place_of_difference(sums(&two), 4096), None, "S0 is the same");
        (two[7], two[8]) = ("x", "y");
        assert_eq!(kept.place_of_difference(sums(&two), 4096), None);
        assert_eq!(kept.place_of_difference(kept, 4096), None);
    }

    #[test]
    fn a_row_that_went_is_located() {
        let mut kept = Sums::default();
        let mut found = Sums::default();
        for place in 1..=9 {
            kept.add(place, &[place as u8]);
            if place != 5 {
                found.add(place, &[place as u8]);
            }
        }
        assert_eq!(kept.place_of_difference(found, 9), Some(5));
    }
}
