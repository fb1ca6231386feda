//! The store's share of an import, measured: reads a table of results with the `csv` crate and
//! writes it as one act (raw file kept, rows checked, hashed, indexed). The mapping, the preview
//! and the messages of the real import are not in it.
//!
//!     store_bench results.csv STORE

use record::store::{ActInfo, Cell, RawFileIn, Store, StoreError, hash_bytes};
use std::error::Error;
use std::fs::File;
use std::time::Instant;

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let (Some(csv), Some(path)) = (arguments.next(), arguments.next()) else {
        return Err("store_bench results.csv STORE".into());
    };
    let begin = Instant::now();
    let mut store = Store::create(&path)?;
    let info = ActInfo {
        kind: "import".into(),
        author: "bench".into(),
        at: "2026-11-25T00:00:00".into(),
        body: serde_json::Value::Null,
    };
    let (rows, head) = store.large_act(&info, |act| import(act, &csv))?;
    let imported = begin.elapsed().as_secs_f64();
    drop(store);
    let all = begin.elapsed().as_secs_f64();
    println!(
        "store: act {imported:.2} s, closed {all:.2} s, peak {} MB, {:.0} rows/s, {rows} rows, head {head}",
        peak_mb(),
        rows as f64 / all
    );
    let begin = Instant::now();
    if arguments.next().is_some() {
        return Ok(());
    }
    let verified = Store::open(&path)?.verify(Some(head))?;
    println!(
        "verify: {:.2} s, {} rows, {} differences, peak {} MB",
        begin.elapsed().as_secs_f64(),
        verified.rows,
        verified.differences.len(),
        peak_mb()
    );
    Ok(())
}

/// Largest resident size of this process.
fn peak_mb() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:")).unwrap_or_default();
    let kib = line.trim().trim_end_matches(" kB").parse::<u64>().unwrap_or(0);
    kib / 1024
}

fn import(act: &mut record::store::Act, csv: &str) -> Result<i64, StoreError> {
    let outside = |source| StoreError::Io { doing: "reading", path: csv.into(), source };
    let open = || File::open(csv).map_err(outside);
    let (hash, size) = hash_bytes(open()?).map_err(outside)?;
    let mapping = act.keep_text("mapping", "bench", "table = \"result\"")?;
    let file = RawFileIn { name: "results.csv", hash, size, mapping, rows: None };
    let file = act.keep_file(&file, open()?)?;
    let mut reader = csv::Reader::from_reader(open()?);
    let mut record = csv::StringRecord::new();
    let mut row = 1;
    while reader.read_record(&mut record).map_err(|e| outside(e.into()))? {
        row += 1;
        result(act, &record, file, row)?;
    }
    Ok(row - 1)
}

/// One row of sample, well, date, analyte, fraction, result, unit, remark, reporting limit,
/// laboratory, method.
fn result(act: &mut record::store::Act, record: &csv::StringRecord, file: i64, row: i64) -> Result<(), StoreError> {
    let text = |i: usize| Cell::Text(&record[i]);
    let none = Cell::Null;
    let well = act.ensure("well", &[text(1), none, none, none, none, none, none, none, none])?;
    let mut cells = vec![Cell::Null; width("bottle")];
    (cells[0], cells[1], cells[3]) = (text(0), "sample".into(), well.into());
    cells[9] = text(2);
    let bottle = act.ensure("bottle", &cells)?;
    let measurand = [text(3), "".into(), "".into(), text(4)];
    let measurand = act.ensure("measurand", &measurand)?;
    let below = &record[7] == "<";
    let state = if below { "not-detected" } else { "quantified" };
    let subject = format!("{}|{}|{state}", &record[3], &record[4]);
    let subject = act.ensure("subject", &[(&subject).into()])?;
    let value: f64 = record[5].parse().unwrap_or(f64::NAN);
    let limit: f64 = record[8].parse().unwrap_or(f64::NAN);
    let mut cells = vec![Cell::Null; width("result")];
    cells[0] = bottle.into();
    cells[1] = measurand.into();
    cells[2] = 1.into();
    cells[4] = if below { "<" } else { "=" }.into();
    cells[if below { 8 } else { 5 }] = value.into();
    cells[9] = text(6);
    cells[10] = state.into();
    cells[19] = limit.into();
    if below {
        cells[21] = text(7);
    }
    cells[22] = text(9);
    cells[23] = text(10);
    cells[24] = file.into();
    cells[25] = row.into();
    cells[26] = subject.into();
    cells[27] = env!("CARGO_PKG_VERSION").into();
    act.insert("result", &cells)?;
    Ok(())
}

/// Columns of a table.
fn width(table: &str) -> usize {
    record::schema::table(table).map_or(0, |t| t.columns.len())
}
