//! Figures, report and open data package.
