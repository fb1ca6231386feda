//! Thrift's compact protocol, as far as Parquet's headers need it: structs of whole numbers, texts,
//! lists and structs. (Apache Thrift, "Thrift Compact protocol encoding", from memory.)

/// Types as the protocol numbers them.
const I32: u8 = 5;
const I64: u8 = 6;
const BINARY: u8 = 8;
const LIST: u8 = 9;
const STRUCT: u8 = 12;

/// Appends an unsigned number, seven bits a byte, the lowest first.
pub(crate) fn varint(out: &mut Vec<u8>, mut n: u64) {
    while n >= 0x80 {
        out.push(n as u8 | 0x80);
        n >>= 7;
    }
    out.push(n as u8);
}

/// A signed number with its sign in the lowest bit.
fn zigzag(n: i64) -> u64 {
    ((n << 1) ^ (n >> 63)).cast_unsigned()
}

/// A struct in the making: fields in the order of their numbers.
#[derive(Default)]
pub(crate) struct Struct {
    out: Vec<u8>,
    last: u8,
}

impl Struct {
    fn field(&mut self, number: u8, kind: u8) {
        debug_assert!(number > self.last, "fields go up");
        self.out.push((number - self.last) << 4 | kind);
        self.last = number;
    }

    pub(crate) fn i32(mut self, number: u8, n: i32) -> Self {
        self.field(number, I32);
        varint(&mut self.out, zigzag(n.into()));
        self
    }

    pub(crate) fn i64(mut self, number: u8, n: i64) -> Self {
        self.field(number, I64);
        varint(&mut self.out, zigzag(n));
        self
    }

    pub(crate) fn text(mut self, number: u8, text: &str) -> Self {
        self.field(number, BINARY);
        binary(&mut self.out, text);
        self
    }

    pub(crate) fn of(mut self, number: u8, inner: Self) -> Self {
        self.field(number, STRUCT);
        self.out.extend(inner.bytes());
        self
    }

    fn list(&mut self, number: u8, kind: u8, len: usize) {
        self.field(number, LIST);
        if len < 15 {
            self.out.push((len as u8) << 4 | kind);
        } else {
            self.out.push(0xF0 | kind);
            varint(&mut self.out, len as u64);
        }
    }

    pub(crate) fn structs(mut self, number: u8, items: Vec<Self>) -> Self {
        self.list(number, STRUCT, items.len());
        self.out.extend(items.into_iter().flat_map(Self::bytes));
        self
    }

    pub(crate) fn i32s(mut self, number: u8, items: &[i32]) -> Self {
        self.list(number, I32, items.len());
        for n in items {
            varint(&mut self.out, zigzag((*n).into()));
        }
        self
    }

    pub(crate) fn texts(mut self, number: u8, items: &[&str]) -> Self {
        self.list(number, BINARY, items.len());
        for text in items {
            binary(&mut self.out, text);
        }
        self
    }

    /// The struct as bytes, closed.
    pub(crate) fn bytes(mut self) -> Vec<u8> {
        self.out.push(0);
        self.out
    }
}

fn binary(out: &mut Vec<u8>, text: &str) {
    varint(out, text.len() as u64);
    out.extend_from_slice(text.as_bytes());
}
