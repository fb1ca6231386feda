//! A calculation over a whole table: every row is answered or says why not, in order, and the exit
//! status tells. The table is the public one of `examples/real`.

use parquet::file::reader::{FileReader as _, SerializedFileReader};
use parquet::record::RowAccessor as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn examples(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/real").join(name)
}

fn limpid(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_limpid")).args(args).output().expect("the binary runs")
}

fn on_table(input: &Path, mapping: &Path, output: &Path) -> Output {
    let text = |p: &Path| p.to_str().expect("a path in UTF-8").to_string();
    let (input, mapping, output) = (text(input), text(mapping), text(output));
    limpid(&["calc", "speciation", "--input", &input, "--mapping", &mapping, "--output", &output])
}

fn read(path: &Path) -> Vec<csv::StringRecord> {
    csv::Reader::from_path(path).unwrap().records().map(Result::unwrap).collect()
}

/// Place of a column by its heading.
fn column(path: &Path, heading: &str) -> usize {
    csv::Reader::from_path(path).unwrap().headers().unwrap().iter().position(|h| h == heading).unwrap()
}

#[test]
fn the_real_table_runs_without_a_failure() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out.csv");
    let done = on_table(&examples("majors.csv"), &examples("speciation.toml"), &out);
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    let (rows, source) = (read(&out), read(&examples("majors.csv")));
    let why = column(&out, "why_none");
    assert_eq!(rows.len(), source.len());
    for (r, s) in rows.iter().zip(&source) {
        assert_eq!(r[0], s[0]);
        // pH was given and stands as given.
        let (got, given): (f64, f64) = (r[1].parse().unwrap(), s[7].parse().unwrap());
        assert!((got - given).abs() < 1e-9, "{r:?}");
        assert!(r[why].is_empty(), "{r:?}");
    }
}

#[test]
fn one_bad_row_hides_no_other_and_the_status_tells() {
    let dir = tempfile::tempdir().unwrap();
    let (input, mapping, out) = (dir.path().join("in.csv"), dir.path().join("map.toml"), dir.path().join("out.csv"));
    std::fs::write(&input, "id,t,pH,Ca,alk\ngood,10,7,50,120\nacid,10,15,50,120\nwarm,80,7,50,120\n").unwrap();
    let columns = "[[analytes]]\ncolumn = \"Ca\"\nname = \"Ca\"\nunit = \"mg/L\"\n\
                   [[analytes]]\ncolumn = \"alk\"\nname = \"alkalinity\"\nunit = \"mg/L as CaCO3\"\n";
    std::fs::write(&mapping, format!("id = \"id\"\ntemperature_C = \"t\"\npH = \"pH\"\n{columns}")).unwrap();
    let done = on_table(&input, &mapping, &out);
    assert_eq!(done.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&done.stderr).contains("2 of 3 rows have no answer"));
    let rows = read(&out);
    assert_eq!(rows.iter().map(|r| r[0].to_string()).collect::<Vec<_>>(), ["good", "acid", "warm"]);
    let why = column(&out, "why_none");
    assert!(
        rows[0][why].is_empty() && rows[1][why].contains("0 to 14") && rows[2][why].contains("0 to 60"),
        "{rows:?}"
    );
}

#[test]
fn a_table_as_parquet_holds_the_numbers_of_the_csv() {
    let dir = tempfile::tempdir().unwrap();
    let (table, columns) = (dir.path().join("out.csv"), dir.path().join("out.parquet"));
    for out in [&table, &columns] {
        let done = on_table(&examples("majors.csv"), &examples("speciation.toml"), out);
        assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    }
    let rows = read(&table);
    let file = SerializedFileReader::new(std::fs::File::open(&columns).unwrap()).unwrap();
    let records: Vec<_> = file.get_row_iter(None).unwrap().map(Result::unwrap).collect();
    assert_eq!(records.len(), rows.len());
    assert!(rows.len() > 5);
    for (record, row) in records.iter().zip(&rows) {
        assert_eq!(record.get_string(0).unwrap(), &row[0]);
        for column in [1, 2, 3] {
            let number: f64 = row[column].parse().unwrap();
            assert_eq!(record.get_double(column).unwrap().to_bits(), number.to_bits(), "column {column}");
        }
    }
}

#[test]
fn a_table_is_written_as_csv_or_parquet_only() {
    let done = on_table(&examples("majors.csv"), &examples("speciation.toml"), Path::new("out.xlsx"));
    assert_eq!(done.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&done.stderr).contains(".csv or .parquet"));
}
