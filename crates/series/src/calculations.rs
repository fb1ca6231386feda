//! The record on the command line: `summary`, `trend`, `compare`; JSON in, JSON out, keys as in
//! the command-line contract. Numbers stand in the unit given; a non-detect is `{"below": x}`.
//! Every answer carries `method`, `sources`, `warnings`. What cannot be read is refused with its
//! place: `series[3].value`. Checked in `tests/calculations.rs`.

mod compare;
mod input;
mod output;
mod summary;
mod trend;

use quantity::Calculation;

/// The calculations of this crate.
pub const CALCULATIONS: &[Calculation] = &[
    Calculation {
        name: "summary",
        about: "mean, median, percentiles of values with non-detects, by four methods, with intervals and fitness",
        example: include_str!("calculations/summary.example.json"),
        schema: include_str!("calculations/summary.schema.json"),
        run: summary::run,
    },
    Calculation {
        name: "trend",
        about: "trend, slope, steps and serial correlation of a record with non-detects",
        example: include_str!("calculations/trend.example.json"),
        schema: include_str!("calculations/trend.schema.json"),
        run: trend::run,
    },
    Calculation {
        name: "compare",
        about: "whether groups (wells, laboratories) with non-detects differ, and by how much",
        example: include_str!("calculations/compare.example.json"),
        schema: include_str!("calculations/compare.schema.json"),
        run: compare::run,
    },
];
