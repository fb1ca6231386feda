//! A process that writes to a store, to be killed, starved of disk or kept out of a folder by
//! the tests. One act a round, each a raw file, bottles and results; says what was kept.
//!
//!     store_child new STORE            makes a programme
//!     store_child import STORE ROWS N  takes in N files of ROWS results each
//!     store_child large STORE ROWS N   the same, each as one large act
//!     store_child exclude STORE WHAT   takes something out of the evidence, and derives anew

use programme::work::exclude;
use record::by::By;
use record::store::{Act, ActInfo, Cell, RawFileIn, Store, StoreError, hash_bytes};
use std::io::Write;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let done = match arguments.as_slice() {
        ["new", path] => Store::create(path).map(|_| ()).map_err(record::Error::from),
        ["exclude", path, what] => {
            let by = By { person: "store_child", at: "2026-11-25T00:00:00" };
            let store = Store::open(path).map_err(record::Error::from);
            store.and_then(|mut store| exclude(&mut store, what, true, "a gust", by)).map(|_| ())
        }
        [kind @ ("import" | "large"), path, rows, files] => {
            imports(path, rows.parse().unwrap_or(0), files.parse().unwrap_or(0), *kind == "large").map_err(Into::into)
        }
        _ => {
            eprintln!("store_child new STORE | import|large STORE ROWS N | exclude STORE WHAT");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn imports(path: &str, rows: i64, files: i64, large: bool) -> Result<(), StoreError> {
    let mut store = Store::open(path)?;
    let before = i64::try_from(store.raw_files()?.len()).unwrap_or(0);
    for file in before..before + files {
        let info = ActInfo {
            kind: "import".into(),
            author: "store_child".into(),
            at: "2026-11-25T00:00:00".into(),
            body: serde_json::Value::Null,
        };
        let work = |act: &mut Act| import(act, file, rows);
        let ((), hash) = if large { store.large_act(&info, work) } else { store.act(&info, work) }?;
        println!("kept {hash}");
        std::io::stdout().flush().unwrap_or_default();
    }
    Ok(())
}

fn import(act: &mut Act, number: i64, rows: i64) -> Result<(), StoreError> {
    let bytes = format!("file {number}\n").repeat(rows as usize);
    let (hash, size) = hash_bytes(bytes.as_bytes()).unwrap_or_default();
    let name = format!("file-{number}.csv");
    let mapping = act.keep_text("mapping", "child", "")?;
    let file = RawFileIn { name: &name, hash, size, mapping, rows: Some(rows) };
    let file = act.keep_file(&file, bytes.as_bytes())?;
    let measurand = act.ensure("measurand", &["Pb".into(), "".into(), "".into(), "".into()])?;
    let subject = act.ensure("subject", &["Pb".into()])?;
    for row in 0..rows {
        let label = format!("{number}-{row}");
        let mut bottle = vec![Cell::Null; width("bottle")];
        (bottle[0], bottle[1]) = ((&label).into(), "sample".into());
        let bottle = act.insert("bottle", &bottle)?;
        let mut result = vec![Cell::Null; width("result")];
        (result[0], result[1], result[2]) = (bottle.into(), measurand.into(), 1.into());
        (result[4], result[5], result[9]) = ("=".into(), Cell::Real(row as f64), "ng/L".into());
        (result[10], result[24], result[25]) = ("quantified".into(), file.into(), row.into());
        (result[26], result[27]) = (subject.into(), "0".into());
        act.insert("result", &result)?;
    }
    Ok(())
}

/// Columns of a table.
fn width(table: &str) -> usize {
    record::schema::table(table).map_or(0, |t| t.columns.len())
}
