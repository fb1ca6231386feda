//! Small whole numbers as Parquet packs them: the hybrid of run lengths and bit packing, `RLE`.
//! (Apache Parquet, "Encodings", from memory.)

use crate::thrift::varint;

/// Equal values from which a run is written as one.
const RUN: usize = 8;

/// Bits that hold every number up to `highest`; at least one.
pub(crate) fn width(highest: u32) -> u32 {
    (u32::BITS - highest.leading_zeros()).max(1)
}

/// Appends `values`, each in `width` bits.
pub(crate) fn encode(out: &mut Vec<u8>, values: &[u32], width: u32) {
    let mut at = 0;
    // Where the values begin that no run has taken yet; packed in eights.
    let mut loose = 0;
    while at < values.len() {
        let run = values[at..].iter().take_while(|v| **v == values[at]).count();
        // A run begins where the loose values fill their eights.
        let missing = (RUN - (at - loose) % RUN) % RUN;
        if run >= missing + RUN {
            packed(out, &values[loose..at + missing], width);
            let (from, count) = (at + missing, run - missing);
            varint(out, (count as u64) << 1);
            out.extend_from_slice(&values[from].to_le_bytes()[..width.div_ceil(8) as usize]);
            loose = from + count;
            at = loose;
        } else {
            at += run;
        }
    }
    packed(out, &values[loose..], width);
}

/// Values in eights, bits from the lowest; the last eight is filled with zeros.
fn packed(out: &mut Vec<u8>, values: &[u32], width: u32) {
    if values.is_empty() {
        return;
    }
    varint(out, (values.len().div_ceil(8) as u64) << 1 | 1);
    for eight in values.chunks(8) {
        let (mut bits, mut held) = (0u64, 0);
        for i in 0..8 {
            bits |= u64::from(eight.get(i).copied().unwrap_or(0)) << held;
            held += width;
            while held >= 8 {
                out.push(bits as u8);
                bits >>= 8;
                held -= 8;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_of_the_specification_and_a_run() {
        // Parquet, Encodings, "Bit-packed": 0 to 7 in three bits are 10001000 11000110 11111010
        // (from memory).
        let mut out = vec![];
        encode(&mut out, &[0, 1, 2, 3, 4, 5, 6, 7], 3);
        assert_eq!(out, [0b11, 0b1000_1000, 0b1100_0110, 0b1111_1010]);
        out.clear();
        encode(&mut out, &[1; 100], 1);
        assert_eq!(out, [0b1100_1000, 1, 1]);
    }
}
