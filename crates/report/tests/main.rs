//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks.

mod chart;
mod field_sheet;
mod figures;
mod figures_blame;
mod figures_time_series;
mod figures_wells;
mod language;
mod report;
mod specimen;
