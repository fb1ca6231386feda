//! Names of rows remembered during an act, so that a file of a million rows asks the database
//! for each bottle once. A plain multiplicative hash: names come from the programme's own files,
//! and a map that is slow for hostile names is still right.

use super::Cell;
use super::cell::encode_row;
use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

/// The hash of the bytes of a name: multiply and rotate, eight bytes at a time.
#[derive(Default)]
pub(crate) struct NameHasher(u64);

/// 2^64 divided by the golden ratio, odd: spreads consecutive values (Knuth, The Art of Computer
/// Programming 3, section 6.4; from memory).
const SPREAD: u64 = 0x9E37_79B9_7F4A_7C15;

impl Hasher for NameHasher {
    fn write(&mut self, bytes: &[u8]) {
        for eight in bytes.chunks(8) {
            let mut word = [0; 8];
            word[..eight.len()].copy_from_slice(eight);
            self.0 = (self.0.rotate_left(23) ^ u64::from_le_bytes(word)).wrapping_mul(SPREAD);
        }
    }

    fn finish(&self) -> u64 {
        self.0 ^ (self.0 >> 32)
    }
}

/// Names and the ids of their rows.
#[derive(Default)]
pub struct Names {
    ids: HashMap<Box<[u8]>, i64, BuildHasherDefault<NameHasher>>,
    name: Vec<u8>,
}

impl Names {
    /// The id of the row with this name, where it is remembered.
    pub fn get<'a>(&mut self, key: impl Iterator<Item = Cell<'a>>) -> Option<i64> {
        self.encode(key);
        self.ids.get(self.name.as_slice()).copied()
    }

    /// Remembers a name.
    pub fn insert<'a>(&mut self, key: impl Iterator<Item = Cell<'a>>, id: i64) {
        self.encode(key);
        self.ids.insert(self.name.as_slice().into(), id);
    }

    fn encode<'a>(&mut self, key: impl Iterator<Item = Cell<'a>>) {
        self.name.clear();
        for cell in key {
            match cell {
                Cell::Text(text) => {
                    self.name.extend_from_slice(text.as_bytes());
                    self.name.push(0);
                }
                other => encode_row(&mut self.name, 0, 0, &[other]),
            }
        }
    }
}
