//! What is written reads back the same by the reader of the `parquet` crate, the general-purpose
//! library. pyarrow reads such files too (`docs/validation/package`).

use bytes::Bytes;
use columns::{Field, Kind, Value, Writer};
use parquet::file::reader::{FileReader, SerializedFileReader};
use parquet::record::{Field as Cell, RowAccessor};
use proptest::prelude::*;

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
fn awkward_values_come_back_and_the_bytes_are_the_same_each_time() {
    assert_eq!(read(&written(&checked())), checked());
    assert_eq!(written(&checked()), written(&checked()));
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

/// Reads a file of [`fields`] by rows.
fn read(file: &[u8]) -> Vec<Row> {
    let reader = SerializedFileReader::new(Bytes::copy_from_slice(file)).unwrap();
    let about = reader.metadata().file_metadata();
    let names: Vec<String> = about.schema_descr().columns().iter().map(|c| c.name().to_owned()).collect();
    assert_eq!(names, ["analyte", "n", "lead"]);
    let pairs = about.key_value_metadata().unwrap();
    let pairs: Vec<_> = pairs.iter().map(|p| (p.key.as_str(), p.value.as_deref().unwrap())).collect();
    assert_eq!(pairs, [("head", "abc"), ("unit:lead", "ng/L")]);
    let rows: Vec<Row> = reader
        .get_row_iter(None)
        .unwrap()
        .map(|row| {
            let row = row.unwrap();
            let there = |at: usize| !matches!(row.get_column_iter().nth(at).unwrap().1, Cell::Null);
            (
                there(0).then(|| row.get_string(0).unwrap().clone()),
                there(1).then(|| row.get_long(1).unwrap()),
                there(2).then(|| row.get_double(2).unwrap()),
            )
        })
        .collect();
    assert_eq!(i64::try_from(rows.len()).unwrap(), about.num_rows());
    rows
}
