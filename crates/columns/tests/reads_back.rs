//! What is written reads back the same: by a reader made for this test from the format's description,
//! and, for one file, by pyarrow. `data/checked.parquet` is the table of [`checked`] as written here;
//! pyarrow 26.0.1 read it on 2026-11-25 with
//! `python3 -c "import pyarrow.parquet as p; print(p.read_table('checked.parquet').to_pylist())"`
//! and gave the rows of [`checked`]; the test holds the writer to those bytes.

use columns::{Field, Kind, Value, Writer};
use proptest::prelude::*;
use std::collections::BTreeMap;

type Row = (Option<String>, Option<i64>, Option<f64>);

fn fields() -> Vec<Field> {
    let field = |name: &str, kind, unit: &str| Field { name: name.into(), kind, unit: unit.into() };
    vec![field("analyte", Kind::Text, ""), field("n", Kind::Whole, ""), field("lead", Kind::Number, "ng/L")]
}

fn written(rows: &[Row]) -> Vec<u8> {
    let mut writer = Writer::new(vec![], fields(), &[("head", "abc")]).unwrap();
    for (text, whole, number) in rows {
        writer.push(text.as_deref().map_or(Value::Null, Value::Text)).unwrap();
        writer.push(whole.map_or(Value::Null, Value::Whole)).unwrap();
        writer.push(number.map_or(Value::Null, Value::Number)).unwrap();
        writer.end_row().unwrap();
    }
    writer.finish().unwrap()
}

fn checked() -> Vec<Row> {
    let row = |t: Option<&str>, n, x| (t.map(String::from), n, x);
    vec![
        row(Some("Pb"), Some(1), Some(1.057)),
        row(Some("Pb"), None, Some(-0.3)),
        row(None, Some(-9_007_199_254_740_993), None),
        row(Some(""), Some(i64::MAX), Some(5e-324)),
        row(Some("=1+1, \"µ\"\n"), Some(0), Some(f64::MAX)),
    ]
}

#[test]
fn the_file_that_pyarrow_read_is_still_written_so() {
    assert_eq!(written(&checked()), include_bytes!("data/checked.parquet"));
}

#[test]
fn more_rows_than_a_group_come_back_in_order() {
    let rows: Vec<Row> = (0..140_000)
        .map(|i| {
            let even = i % 2 == 0;
            let text = (i % 5 != 0 || i > 70_000).then(|| format!("v{}", i / 40 % 3_000));
            (text, (i % 3 == 0).then_some(i), (even || i < 1_000).then_some(i as f64 / 3.0))
        })
        .collect();
    assert_eq!(read(&written(&rows)), rows);
}

#[test]
fn a_row_of_another_width_and_a_value_of_another_kind_are_refused() {
    let mut writer = Writer::new(vec![], fields(), &[]).unwrap();
    assert!(writer.push(Value::Whole(1)).unwrap_err().to_string().contains("row 1, column analyte"));
    writer.push(Value::Text("Pb")).unwrap();
    assert!(writer.end_row().unwrap_err().to_string().contains("has 1 values, 3 columns"));
}

proptest! {
    #[test]
    fn any_value_comes_back(
        rows in prop::collection::vec(
            (prop::option::of("[ab]{0,2}|\\PC{0,9}"), any::<Option<i64>>(), prop::option::of(prop::num::f64::NORMAL)), 0..80),
    ) {
        prop_assert_eq!(read(&written(&rows)), rows);
    }
}

/// A value of Thrift's compact protocol.
#[derive(Debug, Clone)]
enum Thrift {
    Number(i64),
    Text(String),
    List(Vec<Thrift>),
    Struct(BTreeMap<u64, Thrift>),
}

impl Thrift {
    fn at(&self, field: u64) -> &Self {
        self.get(field).unwrap_or_else(|| panic!("no field {field} in {self:?}"))
    }
    fn get(&self, field: u64) -> Option<&Self> {
        if let Self::Struct(fields) = self { fields.get(&field) } else { panic!("{self:?} is no struct") }
    }
    fn number(&self) -> i64 {
        if let Self::Number(n) = self { *n } else { panic!("{self:?} is no number") }
    }
    fn list(&self) -> &[Self] {
        if let Self::List(items) = self { items } else { panic!("{self:?} is no list") }
    }
    fn text(&self) -> &str {
        if let Self::Text(t) = self { t } else { panic!("{self:?} is no text") }
    }
}

/// Bytes from the front on.
struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    fn take(&mut self, n: usize) -> &'a [u8] {
        let (taken, rest) = self.0.split_at(n);
        self.0 = rest;
        taken
    }
    fn byte(&mut self) -> u8 {
        self.take(1)[0]
    }
    fn u32(&mut self) -> usize {
        u32::from_le_bytes(self.take(4).try_into().unwrap()) as usize
    }
    fn varint(&mut self) -> u64 {
        let (mut out, mut shift) = (0, 0);
        loop {
            let b = self.byte();
            out |= u64::from(b & 0x7F) << shift;
            shift += 7;
            if b < 0x80 {
                return out;
            }
        }
    }
    fn thrift(&mut self, kind: u8) -> Thrift {
        match kind {
            5 | 6 => {
                let n = self.varint();
                Thrift::Number((n >> 1).cast_signed() ^ -(n & 1).cast_signed())
            }
            8 => {
                let n = self.varint() as usize;
                Thrift::Text(String::from_utf8(self.take(n).to_vec()).unwrap())
            }
            9 => {
                let head = self.byte();
                let n = if head >> 4 == 15 { self.varint() } else { u64::from(head >> 4) };
                Thrift::List((0..n).map(|_| self.thrift(head & 15)).collect())
            }
            12 => {
                let (mut fields, mut last) = (BTreeMap::new(), 0);
                loop {
                    let head = self.byte();
                    if head == 0 {
                        return Thrift::Struct(fields);
                    }
                    assert_ne!(head >> 4, 0, "the writer never needs long field headers");
                    last += u64::from(head >> 4);
                    let value = self.thrift(head & 15);
                    fields.insert(last, value);
                }
            }
            other => panic!("type {other} is not used"),
        }
    }
    /// The hybrid of runs and packed eights.
    fn hybrid(&mut self, width: u32, count: usize) -> Vec<u32> {
        let mut out: Vec<u32> = vec![];
        while out.len() < count {
            let head = self.varint() as usize;
            if head & 1 == 0 {
                let mut value = [0; 4];
                let bytes = width.div_ceil(8) as usize;
                value[..bytes].copy_from_slice(self.take(bytes));
                out.extend(std::iter::repeat_n(u32::from_le_bytes(value), head >> 1));
            } else {
                let eights = head >> 1;
                let bits: Vec<bool> = self
                    .take(eights * width as usize)
                    .iter()
                    .flat_map(|b| (0..8).map(move |i| b >> i & 1 == 1))
                    .collect();
                let number = |c: &[bool]| c.iter().rev().fold(0, |n, b| n << 1 | u32::from(*b));
                out.extend(bits.chunks(width as usize).map(number));
            }
        }
        out.truncate(count);
        out
    }
}

/// The values of one column of one group, as text, whole numbers or bits.
fn column(file: &[u8], about: &Thrift) -> Vec<Option<Vec<u8>>> {
    let kind = about.at(1).number();
    let mut dictionary: Vec<Vec<u8>> = vec![];
    let begin = about.get(11).unwrap_or_else(|| about.at(9)).number() as usize;
    let mut from = Bytes(&file[begin..begin + about.at(7).number() as usize]);
    if about.get(11).is_some() {
        let header = from.thrift(12);
        assert_eq!(header.at(1).number(), 2);
        for _ in 0..header.at(7).at(1).number() {
            let n = from.u32();
            dictionary.push(from.take(n).to_vec());
        }
        let read = about.at(7).number() as usize - from.0.len();
        assert_eq!(begin + read, about.at(9).number() as usize);
    }
    let header = from.thrift(12);
    let page = header.at(5);
    let rows = page.at(1).number() as usize;
    let mut body = Bytes(from.take(header.at(2).number() as usize));
    assert!(from.0.is_empty(), "one data page a column of a group");
    let n = body.u32();
    let there = Bytes(body.take(n)).hybrid(1, rows);
    let count = there.iter().filter(|t| **t == 1).count();
    let mut values: Vec<Vec<u8>> = match page.at(2).number() {
        8 => {
            let width = u32::from(body.byte());
            body.hybrid(width, count).into_iter().map(|i| dictionary[i as usize].clone()).collect()
        }
        0 => (0..count).map(|_| body.take(8).to_vec()).collect(),
        other => panic!("encoding {other} of type {kind}"),
    };
    values.reverse();
    there.into_iter().map(|t| if t == 1 { values.pop() } else { None }).collect()
}

/// Reads a file of [`fields`].
fn read(file: &[u8]) -> Vec<Row> {
    assert_eq!((&file[..4], &file[file.len() - 4..]), (b"PAR1".as_slice(), b"PAR1".as_slice()));
    let end = file.len() - 8;
    let size = Bytes(&file[end..]).u32();
    let footer = Bytes(&file[end - size..end]).thrift(12);
    let names: Vec<&str> = footer.at(2).list().iter().map(|f| f.at(4).text()).collect();
    assert_eq!(names, ["table", "analyte", "n", "lead"]);
    let about: Vec<_> = footer.at(5).list().iter().map(|p| (p.at(1).text(), p.at(2).text())).collect();
    assert_eq!(about, [("head", "abc"), ("unit:lead", "ng/L")]);
    let mut out = vec![];
    for group in footer.at(4).list() {
        let columns: Vec<Vec<Option<Vec<u8>>>> = group.at(1).list().iter().map(|c| column(file, c.at(3))).collect();
        let eight = |b: &[u8]| <[u8; 8]>::try_from(b).unwrap();
        let [texts, wholes, numbers] = columns.try_into().expect("three columns");
        assert_eq!(texts.len(), group.at(3).number() as usize);
        for ((text, whole), number) in texts.into_iter().zip(wholes).zip(numbers) {
            out.push((
                text.map(|b| String::from_utf8(b).unwrap()),
                whole.map(|b| i64::from_le_bytes(eight(&b))),
                number.map(|b| f64::from_le_bytes(eight(&b))),
            ));
        }
    }
    assert_eq!(out.len(), footer.at(3).number() as usize);
    out
}
