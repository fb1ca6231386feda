//! The survey on real extracts (US Geological Survey, public domain, doi 10.5066/P9UWRYR4): every answer equals what
//! `limpid calc` gives for the same rows, bit for bit; bytes do not depend on threads, buckets or interruptions.

#![allow(clippy::float_cmp)] // equal means equal

use datafusion::arrow::array::{Array as _, AsArray as _, RecordBatch};
use datafusion::arrow::datatypes::{Float64Type, Int64Type};
use datafusion::parquet::arrow::arrow_reader::ParquetRecordBatchReaderBuilder;
use quantity::Calculation;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{BufRead as _, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_limpid-survey"))
}

fn run(arguments: &[&str]) -> Output {
    program().arg("survey").args(arguments).output().unwrap()
}

fn text(of: &[u8]) -> String {
    String::from_utf8_lossy(of).into_owned()
}

/// Standard output of a run that must succeed.
fn told(arguments: &[&str]) -> String {
    let out = run(arguments);
    assert!(out.status.success(), "{}", text(&out.stderr));
    text(&out.stdout)
}

/// Standard error of a run that must be refused with this status.
fn refused(status: i32, arguments: &[&str]) -> String {
    let out = run(arguments);
    assert_eq!(out.status.code(), Some(status), "{}{}", text(&out.stdout), text(&out.stderr));
    text(&out.stderr)
}

const TRACE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../series/tests/data/groundwater_trace_extract.csv");
const TRACE_COLUMNS: &str =
    "well=site_no,analyte=parm_short_nm,value=result_va,unit=unit_cd,remark=remark_cd,method=meth_cd";
const MAJORS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../aqueous/tests/data/groundwater_majors.csv");

fn rows_of(path: &Path) -> Vec<RecordBatch> {
    let reader = ParquetRecordBatchReaderBuilder::try_new(File::open(path).unwrap()).unwrap().build().unwrap();
    reader.map(Result::unwrap).collect()
}

fn calculation(of: &[Calculation], name: &str) -> fn(&Value) -> Result<Value, quantity::CalcError> {
    of.iter().find(|c| c.name == name).unwrap().run
}

fn number(batch: &RecordBatch, column: &str, row: usize) -> Option<f64> {
    let c = batch.column_by_name(column).unwrap().as_primitive::<Float64Type>();
    c.is_valid(row).then(|| c.value(row))
}

fn word(batch: &RecordBatch, column: &str, row: usize) -> Option<String> {
    let c = batch.column_by_name(column).unwrap().as_string::<i32>();
    c.is_valid(row).then(|| c.value(row).to_string())
}

/// Date, method, value, limit.
type Series = Vec<(String, String, Option<f64>, Option<f64>)>;

/// The extract by well, analyte, unit, read here by the `csv` library alone.
fn extract() -> (BTreeMap<(String, String), Series>, usize) {
    let mut out: BTreeMap<(String, String), Series> = BTreeMap::new();
    let mut left_out = 0;
    for r in csv::Reader::from_path(TRACE).unwrap().records().map(Result::unwrap) {
        let v = r[5].parse::<f64>().ok();
        let (value, below) = match (&r[4], v) {
            ("" | "E", Some(v)) if v != 0.0 => (Some(v), None),
            ("<" | "U", Some(v)) if v > 0.0 => (None, Some(v)),
            _ => {
                left_out += 1;
                continue;
            }
        };
        let row = (r[1].to_string(), r[6].to_string(), value, below);
        out.entry((r[0].to_string(), r[2].to_string())).or_default().push(row);
    }
    for series in out.values_mut() {
        series.sort_by(|a, b| {
            let bound = |r: &(String, String, Option<f64>, Option<f64>)| r.3.or(r.2).unwrap();
            (&a.0, &a.1).cmp(&(&b.0, &b.1)).then(bound(a).total_cmp(&bound(b))).then(a.2.is_some().cmp(&b.2.is_some()))
        });
    }
    (out, left_out)
}

fn amount(value: Option<f64>, below: Option<f64>) -> Value {
    below.map_or_else(|| json!({"value": value}), |b| json!({"below": b}))
}

/// The answer of `calc summary` for the method that is fit first, beside the survey's row.
fn same_summary(batch: &RecordBatch, row: usize, series: &Series) {
    let mut of: Vec<(f64, bool, Value)> =
        series.iter().map(|r| (r.3.or(r.2).unwrap(), r.2.is_some(), amount(r.2, r.3))).collect();
    of.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let values: Vec<Value> = of.into_iter().map(|r| r.2).collect();
    let input = json!({"values": values, "unit": "ug/L", "draws": 0, "percentiles": [25, 50, 75, 90]});
    let by_calc = calculation(series::CALCULATIONS, "summary")(&input);
    let Ok(answer) = by_calc else {
        let why = word(batch, "no_summary", row).unwrap();
        // A calculation says where in its input; the reason is the same.
        assert!(by_calc.unwrap_err().to_string().contains(&why), "{why}");
        return;
    };
    assert_eq!(number_of_rows(batch, "n", row), answer["n"].as_i64().unwrap());
    assert_eq!(number_of_rows(batch, "non_detects", row), answer["non_detects"].as_i64().unwrap());
    let by = answer["preferred_for_mean"].as_str().unwrap_or("product limit");
    assert_eq!(word(batch, "summary_by", row).as_deref(), Some(by));
    let of = &answer[by];
    assert_eq!(number(batch, "sd", row), of["sd"].as_f64(), "{of}");
    let ends = |v: &Value| (v["from"].as_f64().or(v.as_f64()), v["to"].as_f64().or(v.as_f64()));
    let mean = (number(batch, "mean", row), number(batch, "mean_highest", row));
    assert_eq!(mean, ends(&of["mean"]), "{of}");
    let interval =
        |name: &str| (number(batch, &format!("{name}_low"), row), number(batch, &format!("{name}_high"), row));
    assert_eq!(interval("mean"), (of["intervals"]["mean_95"][0].as_f64(), of["intervals"]["mean_95"][1].as_f64()));
    for (percent, name) in [(25.0, "p25"), (50.0, "median"), (75.0, "p75"), (90.0, "p90")] {
        let p = of["percentiles"].as_array().unwrap().iter().find(|p| p["percent"].as_f64() == Some(percent)).unwrap();
        if percent == 50.0 || percent == 90.0 {
            assert_eq!(interval(name), (p["interval_95"][0].as_f64(), p["interval_95"][1].as_f64()), "{name} {p}");
        }
        assert_eq!(number(batch, name, row), p["value"].as_f64(), "{name} {p}");
        assert_eq!(number(batch, &format!("{name}_below"), row), p["below"].as_f64(), "{name} {p}");
    }
}

fn number_of_rows(batch: &RecordBatch, column: &str, row: usize) -> i64 {
    batch.column_by_name(column).unwrap().as_primitive::<Int64Type>().value(row)
}

fn same_trend(batch: &RecordBatch, row: usize, series: &Series) {
    let rows: Vec<Value> = series
        .iter()
        .map(|r| {
            let mut v = amount(r.2, r.3);
            v["date"] = json!(r.0);
            if !r.1.is_empty() {
                v["method"] = json!(r.1);
            }
            v
        })
        .collect();
    let by_calc = calculation(series::CALCULATIONS, "trend")(&json!({"series": rows, "unit": "ug/L"}));
    let Ok(answer) = by_calc else {
        let why = word(batch, "no_trend", row).unwrap();
        assert!(by_calc.unwrap_err().to_string().contains(&why), "{why}");
        return;
    };
    assert_eq!(number(batch, "s", row), answer["S"].as_f64());
    assert_eq!(number(batch, "tau_b", row), answer["tau"].as_f64());
    assert_eq!(number(batch, "p", row), answer["p"].as_f64());
    assert_eq!(number(batch, "slope_per_year", row), answer["slope_per_year"].as_f64());
    assert_eq!(number(batch, "slope_low", row), answer["interval_95"][0].as_f64());
    assert_eq!(number(batch, "slope_high", row), answer["interval_95"][1].as_f64());
    let stepped = &answer["with_steps_taken_out"];
    assert_eq!(number(batch, "p_with_steps", row), stepped["p"].as_f64());
    assert_eq!(number(batch, "slope_with_steps", row), stepped["slope_per_year"].as_f64());
    assert_eq!(number(batch, "slope_with_steps_low", row), stepped["interval_95"][0].as_f64());
    assert_eq!(number(batch, "slope_with_steps_high", row), stepped["interval_95"][1].as_f64());
    assert_eq!(word(batch, "change_date", row).as_deref(), answer["step"]["date"].as_str());
    assert_eq!(number(batch, "change_p", row), answer["step"]["p"].as_f64());
    assert_eq!(number(batch, "change_shift", row), answer["step"]["shift"].as_f64());
}

/// 142 series, 58 with at least 8 values, 7 of those all non-detects: counted with pandas from the extract
/// (docs/validation/series.md).
#[test]
fn every_series_of_the_real_extract_is_what_calc_gives() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out");
    let document: Value =
        serde_json::from_str(&told(&[TRACE, "--columns", TRACE_COLUMNS, "--out", out.to_str().unwrap(), "--json"]))
            .unwrap();
    let (series, left_out) = extract();
    let reasons = document["done"]["left_out"].as_object().unwrap();
    let counted: u64 = reasons.values().map(|of| of["rows"].as_u64().unwrap()).sum();
    assert_eq!(counted, left_out as u64, "{document}");
    assert_eq!(document["done"]["answers"], 142);
    let mut seen = 0;
    let (mut enough, mut all_below) = (0, 0);
    for batch in rows_of(&out.join("series.parquet")) {
        for row in 0..batch.num_rows() {
            let key = (word(&batch, "well", row).unwrap(), word(&batch, "analyte", row).unwrap());
            let of = &series[&key];
            assert!(word(&batch, "unit", row).unwrap().starts_with("µg/L"));
            seen += 1;
            if of.len() < 8 {
                assert!(word(&batch, "no_summary", row).unwrap().contains("needs at least 8"));
                continue;
            }
            enough += 1;
            all_below += usize::from(of.iter().all(|r| r.2.is_none()));
            same_summary(&batch, row, of);
            same_trend(&batch, row, of);
        }
    }
    assert_eq!((seen, enough, all_below), (142, 58, 7));
    assert!(!out.join(".work").exists(), "finished: the work folder is gone");
}

/// Long form of the analyses: one row an analyte, temperature and pH among them.
fn waters(dir: &Path) -> PathBuf {
    let path = dir.join("waters.csv");
    let mut writer = csv::Writer::from_path(&path).unwrap();
    writer.write_record(["sample", "well", "date", "analyte", "value", "unit"]).unwrap();
    let columns = [
        ("temp_C", "temperature", "degC"),
        ("pH", "pH", "pH"),
        ("Ca_mgL", "Ca", "mg/L"),
        ("Mg_mgL", "Mg", "mg/L"),
        ("Na_mgL", "Na", "mg/L"),
        ("K_mgL", "K", "mg/L"),
        ("ANC_lab_mgL_CaCO3", "alkalinity", "mg/L as CaCO3"),
        ("Cl_mgL", "Cl", "mg/L"),
        ("SO4_mgL", "SO4", "mg/L"),
        ("SiO2_mgL", "SiO2", "mg/L"),
        ("As_ugL", "As", "ug/L"),
    ];
    let mut reader = csv::Reader::from_path(MAJORS).unwrap();
    let heading = reader.headers().unwrap().clone();
    for r in reader.records().map(Result::unwrap) {
        for (column, name, unit) in columns {
            let cell = &r[heading.iter().position(|h| h == column).unwrap()];
            // The extract writes an estimate as E before its number.
            let cell = cell.strip_prefix('E').unwrap_or(cell);
            if !cell.is_empty() {
                writer.write_record([&r[0], &r[1], &r[3], name, cell, unit]).unwrap();
            }
        }
    }
    writer.flush().unwrap();
    path
}

#[test]
fn every_water_and_limit_is_what_calc_gives() {
    let dir = tempfile::tempdir().unwrap();
    let table = waters(dir.path());
    let out = dir.path().join("out");
    told(&[table.to_str().unwrap(), "--waters", "--out", out.to_str().unwrap()]);
    let mut samples: BTreeMap<String, Vec<(String, String, String)>> = BTreeMap::new();
    for r in csv::Reader::from_path(&table).unwrap().records().map(Result::unwrap) {
        samples.entry(r[0].to_string()).or_default().push((r[3].to_string(), r[4].to_string(), r[5].to_string()));
    }
    let (mut with, mut compared) = (0, 0);
    for batch in rows_of(&out.join("waters.parquet")) {
        for row in 0..batch.num_rows() {
            let of = &samples[&word(&batch, "sample", row).unwrap()];
            let mut input = json!({"draws": 0, "analytes": []});
            let mut sorted = of.clone();
            sorted.sort();
            for (name, cell, unit) in sorted {
                match name.as_str() {
                    "temperature" => input["temperature_C"] = json!(cell.parse::<f64>().unwrap()),
                    "pH" => input["pH"] = json!(cell.parse::<f64>().unwrap()),
                    _ => {
                        let mut a = json!({"name": name, "unit": unit});
                        match cell.strip_prefix('<') {
                            Some(limit) => a["below"] = json!(limit.parse::<f64>().unwrap()),
                            None => a["value"] = json!(cell.parse::<f64>().unwrap()),
                        }
                        input["analytes"].as_array_mut().unwrap().push(a);
                    }
                }
            }
            let Ok(answer) = calculation(aqueous::CALCULATIONS, "speciation")(&input) else {
                assert!(word(&batch, "no_water", row).is_some());
                continue;
            };
            with += 1;
            assert_eq!(word(&batch, "no_water", row), None);
            assert_eq!(number(&batch, "charge_balance_percent", row), answer["charge_balance_percent"].as_f64());
            assert_eq!(number(&batch, "ionic_strength_mol_kg", row), answer["ionic_strength_mol_kg"].as_f64());
            let list = batch.column_by_name("saturation").unwrap().as_list::<i32>().value(row);
            let list = list.as_struct();
            let wanted = answer["saturation"].as_array().unwrap();
            assert_eq!(list.len(), wanted.len());
            let index = list.column_by_name("saturation_index").unwrap().as_primitive::<Float64Type>();
            for (k, w) in wanted.iter().enumerate() {
                assert_eq!(Some(index.value(k)), w["saturation_index"].as_f64());
                compared += 1;
            }
        }
    }
    assert!(with > 100 && compared > 300, "{with} waters, {compared} indices");
    // Arsenic against limits by SQL, and by `calc limits` on the same results.
    let query = "SELECT value, l['answer'] AS answer, l['limit'] AS most FROM (SELECT value, \
                 against_limits(analyte, value, u, below, unit) AS l FROM results WHERE analyte = 'As' AND value > 2) ORDER BY value DESC LIMIT 3";
    let csv_text = told(&[table.to_str().unwrap(), "--sql", query]);
    let mut lines = csv_text.lines();
    assert_eq!(lines.next(), Some("value,answer,most"));
    let lines: Vec<&str> = lines.collect();
    assert_eq!(lines.len(), 3);
    for line in lines {
        let cells: Vec<&str> = line.split(',').collect();
        let value: f64 = cells[0].parse().unwrap();
        let input = json!({"results": [{"analyte": "As", "value": value, "unit": "ug/L"}]});
        let answer = calculation(limits::CALCULATIONS, "limits")(&input).unwrap();
        let strict = answer["rows"]
            .as_array()
            .unwrap()
            .iter()
            .find(|r| r["limit"].as_f64().or(r["limit"]["high"].as_f64()) == cells[2].parse().ok());
        assert_eq!(strict.unwrap()["answer"].as_str(), Some(cells[1]), "{answer}");
    }
}

fn generated(dir: &Path, series: usize) -> PathBuf {
    let path = dir.join("made.parquet");
    survey::generate::table(&path, series, 40, 7).unwrap();
    path
}

fn blake3_of(arguments: &[&str]) -> String {
    let document: Value = serde_json::from_str(&told(arguments)).unwrap();
    document["done"]["blake3"].as_str().unwrap().to_string()
}

#[test]
fn bytes_do_not_depend_on_threads_buckets_or_form() {
    let dir = tempfile::tempdir().unwrap();
    let table = generated(dir.path(), 500);
    let table = table.to_str().unwrap();
    let out = |name: &str| dir.path().join(name).to_str().unwrap().to_string();
    let one = blake3_of(&[table, "--out", &out("a"), "--json", "--threads", "1"]);
    let two = blake3_of(&[table, "--out", &out("b"), "--json", "--threads", "3", "--bucket-rows", "2000"]);
    assert_eq!(one, two);
    // The same rows as text, in two folders, last ones first.
    let csv_text = told(&[
        table,
        "--sql",
        "SELECT well, analyte, unit, CAST(date AS VARCHAR) AS date, value, below, method FROM results",
    ]);
    let lines: Vec<&str> = csv_text.lines().collect();
    for (state, half) in [("state=B", &lines[1..10_001]), ("state=A", &lines[10_001..])] {
        let folder = dir.path().join("parts").join(state);
        fs::create_dir_all(&folder).unwrap();
        fs::write(folder.join("part.csv"), format!("{}\n{}\n", lines[0], half.join("\n"))).unwrap();
    }
    let three = blake3_of(&[dir.path().join("parts").to_str().unwrap(), "--out", &out("c"), "--json"]);
    assert_eq!(one, three);
    let by_state = told(&[
        dir.path().join("parts").to_str().unwrap(),
        "--columns",
        "method=state",
        "--sql",
        "SELECT method, count(*) AS n FROM results GROUP BY method ORDER BY method",
    ]);
    assert_eq!(by_state, "method,n\nA,10000\nB,10000\n");
}

#[test]
fn an_interrupted_survey_goes_on_and_gives_the_same_bytes() {
    let dir = tempfile::tempdir().unwrap();
    let table = generated(dir.path(), 3000);
    let (table, out) = (table.to_str().unwrap(), dir.path().join("out"));
    let arguments = [table, "--out", out.to_str().unwrap(), "--json", "--threads", "1", "--bucket-rows", "10000"];
    let whole = {
        let apart = dir.path().join("apart");
        let mut arguments = arguments;
        arguments[2] = apart.to_str().unwrap();
        blake3_of(&arguments)
    };
    let mut child =
        program().arg("survey").args(arguments).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
    let lines = BufReader::new(child.stderr.take().unwrap()).lines();
    for line in lines.map(Result::unwrap) {
        if line.contains("3 of") && line.contains("buckets answered") {
            child.kill().unwrap();
            break;
        }
    }
    child.wait().unwrap();
    let answered = || {
        fs::read_dir(out.join(".work"))
            .unwrap()
            .filter(|e| e.as_ref().unwrap().file_name().to_string_lossy().ends_with(".parquet"))
            .count()
    };
    assert!(answered() >= 3, "finished buckets are kept");
    assert!(!out.join("series.parquet").exists(), "no answer before it is whole");
    let again = run(&arguments);
    assert!(text(&again.stderr).contains("going on where it stopped"), "{}", text(&again.stderr));
    let document: Value = serde_json::from_slice(&again.stdout).unwrap();
    assert_eq!(document["done"]["blake3"], json!(whole));
    assert_eq!(document["done"]["rows"], 120_000);
}

#[test]
fn what_does_not_fit_is_refused_by_name() {
    let dir = tempfile::tempdir().unwrap();
    let out = dir.path().join("out");
    let out = out.to_str().unwrap();
    let path = |name: &str| dir.path().join(name).to_str().unwrap().to_string();
    fs::write(path("a.csv"), "well,analyte,date,value,unit\nA,Pb,2020-01-01,1,ng/L\n").unwrap();
    let a = path("a.csv");
    assert!(refused(4, &[&path("none.csv"), "--out", out]).contains("none.csv"));
    let missing = refused(1, &[&a, "--out", out, "--columns", "value=result"]);
    assert!(missing.contains("no column result") && missing.contains("well, analyte, date, value, unit"), "{missing}");
    assert!(refused(1, &[&a, "--out", out, "--columns", "place=well"]).contains("one of well, analyte"));
    assert!(refused(1, &[&a, "--out", out, "--unit", "furlong"]).contains("furlong"));
    assert!(refused(1, &[&a, "--out", out, "--remarks", "<"]).contains("WORD=below"));
    assert!(refused(1, &[&a, "--sql", "SELECT nothing FROM results"]).contains("nothing"));
    assert!(refused(1, &[&a]).contains("--out"));
    // Another shape in one partition.
    for (state, kind) in [("A", "DOUBLE"), ("B", "VARCHAR")] {
        let folder = dir.path().join("parts").join(format!("state={state}"));
        fs::create_dir_all(&folder).unwrap();
        write_parquet(&folder.join("part.parquet"), kind == "DOUBLE");
    }
    let other = refused(1, &[&path("parts"), "--out", out]);
    assert!(other.contains("state=B") && other.contains("column value") && other.contains("Float64"), "{other}");
    // Rows that cannot be used are counted, none is dropped in silence.
    fs::write(
        path("b.csv"),
        "well,analyte,date,value,unit,remark\nA,Pb,2020-01-01,1,ng/L,\nA,Pb,2020-01-02,,ng/L,\nA,Pb,2020-01-03,2,parts,\n\
         A,Pb,2020-01-04,many,ng/L,\nA,Pb,2020-01-05,0,ng/L,\nA,Pb,2020-01-06,5,ng/L,>\nA,Pb,2020-01-07,5,ng/L,?\n,Pb,2020-01-08,5,ng/L,\nA,Pb,soon,5,ng/L,\n",
    )
    .unwrap();
    let document: Value = serde_json::from_str(&told(&[&path("b.csv"), "--out", out, "--json"])).unwrap();
    let one = |example: &str| json!({"rows": 1, "for_example": example});
    let expected = json!({
        "no value": one(""), "a unit that is not known": one("parts"), "a value that is not a number": one("many"),
        "not detected, and not said below what": one("0"), "above the range of the method": one("5"),
        "a remark that has no meaning here": one("?"), "no well": one(""), "a date that is not a day": one("soon"),
    });
    assert_eq!(document["done"]["left_out"], expected);
    assert_eq!(document["done"]["rows"], 9);
    // The answer's folder cannot be made: named, and nothing is left behind.
    let under_a_file = refused(4, &[&a, "--out", &path("a.csv/deeper")]);
    assert!(under_a_file.contains("a.csv"), "{under_a_file}");
}

/// Names that are patterns elsewhere, links, files named twice, files that are no tables.
#[test]
fn every_row_of_every_file_is_read_once() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("tables");
    fs::create_dir_all(folder.join("state=A?")).unwrap();
    for (name, well) in [("a[1].csv", "W1"), ("a1.csv", "W2"), ("b*.CSV", "W3"), ("c 100%.csv", "W4")] {
        fs::write(
            folder.join("state=A?").join(name),
            format!("well,analyte,date,value,unit\n{well},Pb,2020-01-01,1,ng/L\n"),
        )
        .unwrap();
    }
    std::os::unix::fs::symlink(folder.join("state=A?/a1.csv"), folder.join("state=A?/newest.csv")).unwrap();
    fs::write(folder.join("notes.txt"), "nothing").unwrap();
    let folder = folder.to_str().unwrap();
    let query = "SELECT well, count(*) AS n FROM results GROUP BY well ORDER BY well";
    let out = run(&[folder, &format!("{folder}/state=A?/a1.csv"), "--sql", query]);
    assert_eq!(text(&out.stdout), "well,n\nW1,1\nW2,1\nW3,1\nW4,1\n", "{}", text(&out.stderr));
    assert!(text(&out.stderr).contains("passed over") && text(&out.stderr).contains("notes.txt"));
    let named = refused(1, &[&format!("{folder}/notes.txt"), "--sql", query]);
    assert!(named.contains("notes.txt") && named.contains(".csv or .parquet"), "{named}");
    // The answer's own folder may have such a name too.
    let out = dir.path().join("an[s]wer");
    let document: Value = serde_json::from_str(&told(&[folder, "--out", out.to_str().unwrap(), "--json"])).unwrap();
    assert_eq!(document["done"]["answers"], 4);
}

/// What a laboratory writes in more than one way: limits as text, cells with line breaks, temperatures of zero.
#[test]
fn cells_are_read_as_they_were_meant() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("a.csv");
    let mut rows = String::from("well,analyte,date,value,below,u,unit,\"note, of the laboratory\"\n");
    // More than a megabyte, so that threads would share it, with line breaks in cells.
    for n in 0..12_000 {
        rows += &format!(
            "W{},Pb,2020-01-01,{},,,ng/L,\"first line {n}\nsecond, line of some length to fill the file\"\n",
            n % 7,
            n + 1
        );
    }
    rows += "X,Pb,2020-01-01,0.5,<0.5,,ng/L,\nX,Pb,2020-01-02,0.5,\"0,5\",,ng/L,\nX,Pb,2020-01-03,1,,?,ng/L,\nX,temperature,2020-01-04,0,,,degC,\n";
    fs::write(&path, &rows).unwrap();
    let query = "SELECT well, count(value) AS n, count(below) AS below, count(fault) AS faults FROM results \
                 WHERE well IN ('W3', 'X') GROUP BY well ORDER BY well";
    for threads in ["1", "4"] {
        let answer = told(&[path.to_str().unwrap(), "--sql", query, "--threads", threads]);
        assert_eq!(answer, "well,n,below,faults\nW3,1714,0,0\nX,1,1,2\n", "{threads} threads");
    }
    let answer = told(&[
        path.to_str().unwrap(),
        "--sql",
        "SELECT fault, fault_cell FROM results WHERE fault IS NOT NULL ORDER BY date",
    ]);
    assert_eq!(
        answer,
        "fault,fault_cell\na limit that is not a number,\"0,5\"\na standard uncertainty that is not a number,?\n"
    );
    // A name as the laboratory has it and as the sciences know it.
    let lead = "SELECT l['authority'] IS NOT NULL AS known FROM (SELECT against_limits(analyte, value, u, below, unit) AS l FROM \
                results WHERE analyte = 'lead, filtered' OR analyte = 'Pb' ORDER BY well LIMIT 1)";
    assert_eq!(told(&[path.to_str().unwrap(), "--sql", lead, "--names", "Pb=lead, filtered"]), "known\nfalse\n");
    assert_eq!(told(&[path.to_str().unwrap(), "--sql", lead, "--names", "lead, filtered=Pb"]), "known\ntrue\n");
    // Nothing found is a heading too.
    assert_eq!(told(&[path.to_str().unwrap(), "--sql", "SELECT well FROM results WHERE well = 'none'"]), "well\n");
    // A row that is cut off is named by its line.
    fs::write(&path, "well,analyte,date,value,unit\nA,Pb,2020-01-01,1,ng/L\nA,Pb,2020-01-02,1\n").unwrap();
    let cut = refused(1, &[path.to_str().unwrap(), "--out", dir.path().join("out").to_str().unwrap()]);
    assert!(cut.contains("a.csv, line 3: found 4 cells, expected 5"), "{cut}");
}

/// A water is one sample's: nothing is pooled that was not measured together, nothing is reckoned without what was lost.
#[test]
fn a_water_is_of_one_sample_and_whole() {
    let dir = tempfile::tempdir().unwrap();
    let (path, out) = (dir.path().join("a.csv"), dir.path().join("out"));
    let mut rows = String::from("sample,well,date,analyte,value,unit\n");
    let water = |sample: &str, well: &str, calcium: &str, temperature: (&str, &str)| -> String {
        [
            ("temperature", temperature.0, temperature.1),
            ("pH", "7.5", "pH"),
            ("Ca", calcium, "mg/L"),
            ("Cl", "20", "mg/L"),
            ("alkalinity", "100", "mg/L as CaCO3"),
            ("atrazine", "<0.1", "ug/L"),
        ]
        .map(|(name, value, unit)| format!("{sample},{well},2020-01-01,{name},{value},{unit}\n"))
        .concat()
    };
    rows += &water("1", "A", "40", ("10", "degC"));
    rows += &water("1", "B", "40", ("283.15", "K"));
    rows += &water("2", "A", ">500", ("10", "degC"));
    rows += &water("3", "A", "40", ("0", "degC"));
    rows += &water("", "A", "40", ("10", "degC"));
    fs::write(&path, &rows).unwrap();
    let document: Value =
        serde_json::from_str(&told(&[path.to_str().unwrap(), "--waters", "--out", out.to_str().unwrap(), "--json"]))
            .unwrap();
    assert_eq!(document["done"]["left_out"]["no sample"]["rows"], 6);
    let batch = &rows_of(&out.join("waters.parquet"))[0];
    let told: Vec<_> = (0..batch.num_rows())
        .map(|r| {
            let id = |c: &str| word(batch, c, r).unwrap();
            (id("sample") + &id("well"), number_of_rows(batch, "left_out", r), word(batch, "no_water", r))
        })
        .collect();
    let name = |s: &str| s.to_string();
    let lost = Some(name("Ca cannot be used"));
    assert_eq!(told, [(name("1A"), 0, None), (name("1B"), 0, None), (name("2A"), 1, lost), (name("3A"), 0, None)]);
    // 283.15 K are 10 °C but for the rounding of the difference, far under what is allowed here.
    let balance = |r: usize| number(batch, "ionic_strength_mol_kg", r).unwrap();
    assert!((balance(0) / balance(1) - 1.0).abs() < 1e-9 && balance(0) != balance(3));
}

/// Several pieces, and two surveys that want one folder.
#[test]
fn pieces_give_the_same_bytes_and_a_folder_is_one_surveys() {
    let dir = tempfile::tempdir().unwrap();
    let folder = dir.path().join("tables");
    fs::create_dir(&folder).unwrap();
    for k in 0..5 {
        survey::generate::table(&folder.join(format!("{k}.parquet")), 400, 20, k).unwrap();
    }
    let out = |name: &str| dir.path().join(name).to_str().unwrap().to_string();
    let table = folder.to_str().unwrap();
    let whole = blake3_of(&[table, "--out", &out("a"), "--json", "--threads", "1"]);
    let pieces = blake3_of(&[table, "--out", &out("b"), "--json", "--piece-bytes", "1", "--bucket-rows", "3000"]);
    assert_eq!(whole, pieces);
    fs::create_dir(out("c")).unwrap();
    let held = File::create(format!("{}/.survey", out("c"))).unwrap();
    held.lock().unwrap();
    assert!(refused(1, &[table, "--out", &out("c")]).contains("another survey at work there"));
}

/// A table whose values are numbers or texts.
fn write_parquet(path: &Path, numbers: bool) {
    use datafusion::arrow::array::{ArrayRef, Float64Array, StringArray};
    use std::sync::Arc;
    let words = |w: &str| -> ArrayRef { Arc::new(StringArray::from(vec![w])) };
    let value: ArrayRef = if numbers { Arc::new(Float64Array::from(vec![1.0])) } else { words("1") };
    let batch = RecordBatch::try_from_iter([
        ("well", words("A")),
        ("analyte", words("Pb")),
        ("date", words("2020-01-01")),
        ("value", value),
        ("unit", words("ng/L")),
    ])
    .unwrap();
    let mut writer =
        datafusion::parquet::arrow::ArrowWriter::try_new(File::create(path).unwrap(), batch.schema(), None).unwrap();
    writer.write(&batch).unwrap();
    writer.close().unwrap();
}
