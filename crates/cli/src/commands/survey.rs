//! `limpid calc NAME --input table.csv --mapping FILE`: a calculation over a whole table.
//!
//! In: a CSV table with a heading row and a mapping (TOML or JSON) that says what each column is.
//! Out: CSV, a row for each row of the input in the same order. Rows go to the calculation in
//! blocks; progress stands on stderr. A row that cannot be answered says why in its own row and
//! never hides the others; the exit status then is 1.

use crate::args::Calc;
use crate::failure::Failure;
use anyhow::Context as _;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use quantity::Calculation;
use serde_json::{Value, json};
use std::io::{IsTerminal as _, Read, Write};
use std::path::Path;

/// Rows handed over at once: enough for all cores, few enough for a bar that moves.
const BLOCK: usize = 4096;

/// Runs the calculation over the table.
pub fn run(calculation: &Calculation, args: &Calc, mapping: &Path) -> Result<(), Failure> {
    // Asked before the table is read: a large one takes long, and the answers would then have nowhere to go.
    if let Some(out) = args.output.as_deref().filter(|o| !ends_in(o, "csv") && !ends_in(o, "parquet")) {
        return Err(Failure::Usage(format!(
            "{}: a table is written as CSV or Parquet; name a file that ends in .csv or .parquet",
            out.display()
        )));
    }
    let rule = read_mapping(mapping)?;
    let (columns, rows) = read_table(&args.input)?;
    let bar = progress(rows.len());
    let mut out = Answers::begin(args.output.as_deref())?;
    let (mut answered, mut headed) = (0, false);
    for block in rows.chunks(BLOCK) {
        let table = calculation.answer(&json!({ "columns": columns, "rows": block, "mapping": rule }))?;
        let head = list(&table["columns"]);
        if !headed {
            out.heading(head)?;
            headed = true;
        }
        let why = head.iter().position(|h| h == "why_none");
        for row in list(&table["rows"]) {
            let cells = list(row);
            answered += usize::from(why.is_none_or(|k| cells.get(k).is_none_or(Value::is_null)));
            out.row(cells)?;
        }
        bar.inc(block.len() as u64);
    }
    out.end()?;
    bar.finish_and_clear();
    eprintln!("{answered} of {} rows answered", rows.len());
    if answered < rows.len() {
        return Err(Failure::Refused(format!(
            "{} of {} rows have no answer; the column why_none says why",
            rows.len() - answered,
            rows.len()
        )));
    }
    Ok(())
}

fn ends_in(path: &Path, ending: &str) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case(ending))
}

/// Where the answers go.
enum Answers<'a> {
    Csv(Box<csv::Writer<Box<dyn Write>>>),
    /// A column's kind is known only when all rows are: they are kept until the end.
    Parquet {
        path: &'a Path,
        head: Vec<String>,
        rows: Vec<Vec<Value>>,
    },
}

impl<'a> Answers<'a> {
    fn begin(path: Option<&'a Path>) -> Result<Self, Failure> {
        match path {
            Some(path) if ends_in(path, "parquet") => Ok(Self::Parquet { path, head: vec![], rows: vec![] }),
            path => Ok(Self::Csv(Box::new(writer(path)?))),
        }
    }

    fn heading(&mut self, names: &[Value]) -> Result<(), Failure> {
        match self {
            Self::Csv(out) => out.write_record(names.iter().map(text)).context("writing the table")?,
            Self::Parquet { head, .. } => *head = names.iter().map(text).collect(),
        }
        Ok(())
    }

    fn row(&mut self, cells: &[Value]) -> Result<(), Failure> {
        match self {
            Self::Csv(out) => out.write_record(cells.iter().map(text)).context("writing the table")?,
            Self::Parquet { rows, .. } => rows.push(cells.to_vec()),
        }
        Ok(())
    }

    fn end(self) -> Result<(), Failure> {
        match self {
            Self::Csv(mut out) => out.flush().context("writing the table")?,
            Self::Parquet { path, head, rows } => parquet(path, head, &rows)?,
        }
        Ok(())
    }
}

/// Writes the answers as Parquet: numbers where all of a column are numbers, else text.
fn parquet(path: &Path, head: Vec<String>, rows: &[Vec<Value>]) -> Result<(), Failure> {
    let kind = |j: usize| {
        let mut there = rows.iter().filter_map(|r| r.get(j)).filter(|v| !v.is_null()).peekable();
        // A column without any value is text: most often it says why there is none.
        let numbers = there.peek().is_some() && there.all(Value::is_number);
        if numbers { columns::Kind::Number } else { columns::Kind::Text }
    };
    let fields: Vec<columns::Field> = head
        .into_iter()
        .enumerate()
        .map(|(j, name)| columns::Field { name, kind: kind(j), unit: String::new() })
        .collect();
    let kinds: Vec<columns::Kind> = fields.iter().map(|f| f.kind).collect();
    let file = std::fs::File::create(path).with_context(|| format!("making {}", path.display()))?;
    let told = || format!("writing {}", path.display());
    let mut out = columns::Writer::new(std::io::BufWriter::new(file), fields, &[]).with_context(told)?;
    for row in rows {
        for (j, kind) in kinds.iter().enumerate() {
            let value = row.get(j).unwrap_or(&Value::Null);
            let as_text = if *kind == columns::Kind::Text { text(value) } else { String::new() };
            let cell = match (kind, value) {
                (_, Value::Null) => columns::Value::Null,
                (columns::Kind::Number, v) => v.as_f64().map_or(columns::Value::Null, columns::Value::Number),
                _ => columns::Value::Text(&as_text),
            };
            out.push(cell).with_context(told)?;
        }
        out.end_row().with_context(told)?;
    }
    out.finish().with_context(told)?.flush().with_context(told)?;
    Ok(())
}

fn read_mapping(path: &Path) -> Result<Value, Failure> {
    let text = std::fs::read_to_string(path).with_context(|| format!("reading the mapping {}", path.display()))?;
    let refused = |e: String| Failure::Refused(format!("mapping {}: {e}", path.display()));
    if path.extension().is_some_and(|e| e.eq_ignore_ascii_case("json")) {
        return serde_json::from_str(&text).map_err(|e| refused(e.to_string()));
    }
    toml::from_str(&text).map_err(|e| refused(e.to_string()))
}

/// Headings and rows.
type Table = (Vec<String>, Vec<Vec<String>>);

fn read_table(input: &str) -> Result<Table, Failure> {
    let source: Box<dyn Read> = if input == "-" {
        Box::new(std::io::stdin())
    } else {
        Box::new(std::fs::File::open(input).with_context(|| format!("reading {input}"))?)
    };
    let mut reader = csv::Reader::from_reader(source);
    let refused = |e: csv::Error| match e.kind() {
        csv::ErrorKind::Io(_) => Failure::Outside(anyhow::Error::new(e).context(format!("reading {input}"))),
        _ => Failure::Refused(format!("{input}: {e}")),
    };
    let columns: Vec<String> = reader.headers().map_err(refused)?.iter().map(|h| h.trim().to_string()).collect();
    let rows: Vec<Vec<String>> = reader
        .records()
        .map(|r| r.map(|r| r.iter().map(ToString::to_string).collect()).map_err(refused))
        .collect::<Result<_, _>>()?;
    if rows.is_empty() {
        return Err(Failure::Refused(format!("{input}: no row under the headings; expected one a sample")));
    }
    Ok((columns, rows))
}

fn writer(path: Option<&Path>) -> Result<csv::Writer<Box<dyn Write>>, Failure> {
    let to: Box<dyn Write> = match path {
        Some(p) => Box::new(std::fs::File::create(p).with_context(|| format!("making {}", p.display()))?),
        None => Box::new(std::io::stdout()),
    };
    Ok(csv::Writer::from_writer(to))
}

/// A bar on a terminal; silence where stderr goes to a file.
fn progress(rows: usize) -> ProgressBar {
    let target =
        if std::io::stderr().is_terminal() { ProgressDrawTarget::stderr() } else { ProgressDrawTarget::hidden() };
    let style = ProgressStyle::with_template("{bar:40} {pos}/{len} rows, {elapsed}").expect("the template is constant");
    ProgressBar::with_draw_target(Some(rows as u64), target).with_style(style)
}

fn list(v: &Value) -> &[Value] {
    v.as_array().map_or(&[], Vec::as_slice)
}

/// A cell: text as it is, numbers in their shortest exact form, nothing for null.
fn text(v: &Value) -> String {
    match v {
        Value::Null => String::new(),
        Value::String(s) => s.clone(),
        other => other.to_string(),
    }
}
