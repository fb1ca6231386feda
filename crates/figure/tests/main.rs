//! The tests of this crate, one program: a folder of tests is linked once. Each module says what it checks. The figures of
//! the whole specimen report are checked in `report`'s `crates/report/tests/figures.rs`.

mod chart;
mod figures_ages;
mod figures_attribution;
mod figures_bars;
mod figures_standing;
mod figures_strip;
mod figures_time_series;
mod figures_wells;
mod layout;
