//! A table of invented results with the shapes of real ones, for measuring.
//!
//! Each series takes level, spread, share and limits of its non-detects and length in years from one of 80 series of
//! groundwater records (US Geological Survey, public domain, doi 10.5066/P9UWRYR4; `shapes.csv` holds their figures,
//! none of their values). Every second series drifts by 2 % a year. Rows come in order of time, so that the rows of a
//! series lie as far apart as in a national archive. The same seed gives the same bytes.

use crate::error::Error;
use datafusion::arrow::array::{ArrayRef, Date32Array, Float64Array, RecordBatch, StringArray};
use datafusion::arrow::datatypes::{DataType, Field, Schema};
use datafusion::parquet::arrow::ArrowWriter;
use datafusion::parquet::basic::Compression;
use datafusion::parquet::file::properties::WriterProperties;
use rand::{RngExt as _, SeedableRng as _, rngs::ChaCha8Rng};
use rand_distr::{Distribution as _, StandardNormal};
use std::fs::File;
use std::path::Path;
use std::sync::Arc;

/// Figures of one real series.
struct Shape {
    element: String,
    mean_ln: f64,
    sd_ln: f64,
    not_detected: f64,
    limits: Vec<f64>,
    years: f64,
}

fn shapes() -> Vec<Shape> {
    let text = include_str!("../shapes.csv");
    text.lines()
        .skip(1)
        .filter_map(|line| {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |k: usize| cells.get(k).and_then(|c| c.parse::<f64>().ok());
            Some(Shape {
                element: (*cells.first()?).to_string(),
                mean_ln: number(1)?,
                sd_ln: number(2)?.max(0.01),
                not_detected: number(3)?,
                limits: cells.get(4)?.split(';').filter_map(|l| l.parse().ok()).collect(),
                years: number(5)?.max(2.0),
            })
        })
        .collect()
}

/// Days from 1970-01-01 to 2024-12-31, the last day of the invented records.
const LAST_DAY: f64 = 20_088.0;

/// Writes the table: `series` series of `each` rows.
///
/// # Errors
/// [`Error::File`].
pub fn table(path: &Path, series: usize, each: usize, seed: u64) -> Result<(), Error> {
    let shapes = shapes();
    let schema = Arc::new(Schema::new(vec![
        Field::new("well", DataType::Utf8, false),
        Field::new("analyte", DataType::Utf8, false),
        Field::new("date", DataType::Date32, false),
        Field::new("value", DataType::Float64, true),
        Field::new("below", DataType::Float64, true),
        Field::new("unit", DataType::Utf8, false),
        Field::new("method", DataType::Utf8, false),
    ]));
    // Row groups small enough that also a table of a test has several.
    let group = (series * each / 16).clamp(1000, 131_072);
    let properties = WriterProperties::builder()
        .set_compression(Compression::SNAPPY)
        .set_max_row_group_row_count(Some(group))
        .build();
    let file = File::create(path).map_err(Error::file(path))?;
    let mut writer = ArrowWriter::try_new(file, Arc::clone(&schema), Some(properties))?;
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    for k in 0..each {
        for block in (0..series).step_by(65_536) {
            let of: Vec<usize> = (block..series.min(block + 65_536)).collect();
            let mut days = Vec::with_capacity(of.len());
            let (mut values, mut below) = (Vec::with_capacity(of.len()), Vec::with_capacity(of.len()));
            for i in &of {
                let s = &shapes[i % shapes.len()];
                let share = (k as f64 + random.random::<f64>()) / each as f64;
                let years = share * s.years;
                days.push((LAST_DAY - 365.25 * (s.years - years)).round() as i32);
                let drift = if i % 2 == 0 { 0.0 } else { 0.02 * years };
                let z: f64 = StandardNormal.sample(&mut random);
                if !s.limits.is_empty() && random.random::<f64>() < s.not_detected {
                    values.push(None);
                    below.push(Some(s.limits[random.random_range(0..s.limits.len())]));
                } else {
                    values.push(Some((s.mean_ln + s.sd_ln * z - drift).exp()));
                    below.push(None);
                }
            }
            let wells = StringArray::from_iter_values(of.iter().map(|i| format!("W{:06}", i / 10)));
            let analyte = |i: &usize| format!("{} {}", shapes[i % shapes.len()].element, i % 10);
            let method = if 2 * k < each { "A" } else { "B" };
            let columns: Vec<ArrayRef> = vec![
                Arc::new(wells),
                Arc::new(StringArray::from_iter_values(of.iter().map(analyte))),
                Arc::new(Date32Array::from(days)),
                Arc::new(Float64Array::from(values)),
                Arc::new(Float64Array::from(below)),
                Arc::new(StringArray::from_iter_values(of.iter().map(|_| "ug/L"))),
                Arc::new(StringArray::from_iter_values(of.iter().map(|_| method))),
            ];
            writer.write(&RecordBatch::try_new(Arc::clone(&schema), columns)?)?;
        }
    }
    writer.close()?;
    Ok(())
}
