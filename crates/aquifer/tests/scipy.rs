//! What scipy and numpy give: `data/origin_scipy.csv`, written by `data/origin_scipy.py` beside it.

use std::collections::HashMap;
use std::sync::LazyLock;

static TABLE: LazyLock<HashMap<String, f64>> = LazyLock::new(|| {
    include_str!("data/origin_scipy.csv")
        .lines()
        .skip(1)
        .map(|l| l.split_once(',').map(|(k, v)| (k.into(), v.parse().unwrap())).unwrap())
        .collect()
});

/// A number of the table.
pub fn expected(key: &str) -> f64 {
    *TABLE.get(key).unwrap_or_else(|| panic!("origin_scipy.csv has no {key}"))
}
