//! The sciences as functions of the query engine. [`register`] is called by every process that plans or runs a query:
//! this one, the scheduler, each executor.

pub mod answer;
pub mod gather;
pub mod scalar;
pub mod series;
pub mod water;

use datafusion::common::Result;
use datafusion::execution::FunctionRegistry;
use datafusion::logical_expr::{AggregateUDF, ScalarUDF};
use gather::{Gathered, Science};
use scalar::{Registered, Rowwise};
use std::fmt::Write as _;
use std::sync::Arc;

/// Functions of all rows of a group.
pub static OF_GROUPS: [&Science; 3] = [&series::CENSORED_SUMMARY, &series::TREND_OF, &water::WATER];

/// Functions of one row.
pub static OF_ROWS: [&Rowwise; 5] =
    [&scalar::CELL, &scalar::RENAMED, &scalar::UNIT_OF, &scalar::AGAINST_LIMITS, &scalar::AGAINST_LIMITS_ON];

/// The functions of groups.
pub fn aggregates() -> Vec<Arc<AggregateUDF>> {
    OF_GROUPS.iter().map(|s| Arc::new(AggregateUDF::new_from_impl(Gathered::new(s)))).collect()
}

/// The functions of rows.
pub fn scalars() -> Vec<Arc<ScalarUDF>> {
    OF_ROWS.iter().map(|s| Arc::new(ScalarUDF::new_from_impl(Registered::new(s)))).collect()
}

/// Makes the functions known.
///
/// # Errors
/// The registry takes no functions.
pub fn register(registry: &mut dyn FunctionRegistry) -> Result<()> {
    for f in aggregates() {
        registry.register_udaf(f)?;
    }
    for f in scalars() {
        registry.register_udf(f)?;
    }
    Ok(())
}

/// What there is, in words.
pub fn in_words() -> String {
    let mut out = String::new();
    let mut tell = |name: &str, about: &str, arguments: Vec<(&str, &str)>| {
        let names: Vec<&str> = arguments.iter().map(|a| a.0).collect();
        let _ = writeln!(out, "{name}({})\n  {about}", names.join(", "));
        for (argument, meaning) in arguments {
            let _ = writeln!(out, "  {argument:<10} {meaning}");
        }
    };
    for s in OF_GROUPS {
        tell(s.name, s.about, s.arguments.iter().map(|a| (a.0, a.2)).collect());
    }
    for s in OF_ROWS {
        tell(s.name, s.about, s.arguments.iter().map(|a| (a.0, a.2)).collect());
    }
    out
}
