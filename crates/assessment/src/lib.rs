//! What is derived and judged: runs reduced to results, the evidence of a trip, blanks, the apportionment of metal to
//! its sources, quality over the years, findings and verdicts. Everything here comes out of what is kept and can be
//! derived again from it.

pub mod accounting;
pub mod age;
pub mod air;
pub mod assess;
pub mod attribution;
pub mod blanks;
pub mod chemistry_checks;
pub mod derive;
pub mod dust;
pub mod engine;
pub mod field_checks;
pub mod forecast;
pub mod holding;
pub mod laboratory;
pub mod lead;
pub mod lots;
pub mod organics;
pub mod overflow;
pub mod profiles;
pub mod put_back;
pub mod quality;
pub mod reported_results;
pub mod results;
pub mod same_water;
mod say;
pub mod series_of;
pub mod unmet;
pub mod verdict;
pub mod verify;
pub mod well_value;
pub mod wells;
pub mod witnesses;
