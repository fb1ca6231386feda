//! Tables of results far larger than memory, asked with the same sciences as one programme.
//!
//! In: tables of one row a result, CSV or Parquet, files and folders. Out: per series summary and trend, per sample charge
//! balance, saturation and limits, as Parquet; or any query in SQL with these sciences as functions. The query engine
//! is Apache DataFusion, spread over machines by its distributed form; nothing of the sciences is written anew here:
//! [`functions`] hands rows to the crates `series`, `aqueous` and `limits`.
//!
//! * [`table`] — files and folders, all of one shape.
//! * [`columns`] — which column is what; the view `results`.
//! * [`functions`] — the sciences as functions of the engine.
//! * [`run`] — bucket after bucket, resumed where it stopped.
//! * [`cluster`] — scheduler, executors, client.
//!
//! Not here: the record of a programme, its verdicts, reports. Checked in `tests/`.

pub mod cluster;
pub mod columns;
pub mod error;
pub mod functions;
pub mod generate;
pub mod run;
pub mod table;

pub use error::Error;
