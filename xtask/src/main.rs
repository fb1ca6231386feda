//! The checks that stand between a change and main.
fn main() {}
