//! What the water is: chemistry from one analysis.
