//! How long may a bottle wait before it is measured? Counted from the sampling.
//!
//! In: a bottle without results, and the time now (the caller's clock). Out: [`Clock`]s, one a group of
//! analytes that the bottle's preservation allows: a bottle that was acidified is for metals; one that was
//! not is for the ions and properties that fade in days.
//! The times are those of `reference/preservation_holding.csv` (US 40 CFR 136.3 Table II; each row says whether
//! it was seen or is from memory). They are told, and judge nothing: a finding is made when the bottle has been
//! measured (`evidence`).
//! What it does not do: it does not know what a bottle is meant for. Checked below.

use crate::field_checks::minutes_between;
use message::{Shown, Spoken, holding as said};
use record::model::Bottle;

/// The table as it came.
const TABLE: &str = include_str!("../../../reference/preservation_holding.csv");

/// One row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Holding {
    /// Group of analytes.
    pub analytes: String,
    /// Preservation.
    pub preservation: String,
    /// Longest time in words.
    pub longest: String,
    /// The same, hours.
    pub hours: f64,
    /// Whether the figure was seen or is from memory.
    pub provenance: String,
}

/// A clock that runs for a bottle.
#[derive(Debug, Clone, PartialEq)]
pub struct Clock {
    /// Which row of the table.
    pub of: Holding,
    /// Hours left; negative where the time is over.
    pub hours_left: f64,
}

/// The rows of the table.
pub fn table() -> Vec<Holding> {
    let mut rows = csv::Reader::from_reader(TABLE.as_bytes());
    rows.records()
        .filter_map(Result::ok)
        .filter_map(|r| {
            Some(Holding {
                analytes: r.get(0)?.into(),
                preservation: r.get(2)?.into(),
                longest: r.get(3)?.into(),
                hours: hours(r.get(3)?)?,
                provenance: provenance(r.get(4)?),
            })
        })
        .collect()
}

fn provenance(mark: &str) -> String {
    match mark.split(|c: char| !c.is_ascii_alphanumeric()).next() {
        Some("S") => "seen in the table of 1995".into(),
        _ => "from memory".into(),
    }
}

/// The first length of time in a text: "90 d (…)", "analyse at once (15 min)".
fn hours(text: &str) -> Option<f64> {
    let words: Vec<&str> = text.split(|c: char| c.is_whitespace() || c == '(' || c == ')').collect();
    words.windows(2).find_map(|w| {
        let n: f64 = w[0].parse().ok()?;
        // A month of the table is 30 days: it writes 180 d for 6 months elsewhere.
        let unit = match w[1] {
            "min" => 1.0 / 60.0,
            "h" => 1.0,
            "d" => 24.0,
            "months" => 720.0,
            _ => return None,
        };
        Some(n * unit)
    })
}

/// Groups that a bottle as it was preserved can be for. Those that are read at the well or need a vessel of their
/// own are left out.
const ACIDIFIED: [&str; 1] = ["metals"];
const PLAIN: [&str; 4] = ["NO3", "alkalinity", "SO4", "Cl, F, Br"];

/// The clocks of a bottle, shortest first; none where nobody wrote when it was filled.
pub fn clocks(bottle: &Bottle, now: &str) -> Vec<Clock> {
    let Some(minutes) = bottle.filled_at.as_deref().and_then(|t| minutes_between(t, now)) else { return vec![] };
    let acidified = bottle.acid_id.is_some() || bottle.acidified_at.is_some();
    let groups: &[&str] = if acidified { &ACIDIFIED } else { &PLAIN };
    let named = |h: &Holding| groups.iter().any(|g| h.analytes == *g || h.analytes.starts_with(&format!("{g} (")));
    let mut out: Vec<Clock> =
        table().into_iter().filter(named).map(|of| Clock { hours_left: of.hours - minutes / 60.0, of }).collect();
    out.sort_by(|a, b| a.hours_left.total_cmp(&b.hours_left));
    out
}

impl Clock {
    /// `12 d left`, `over since 3 h`.
    pub fn in_words(&self) -> String {
        let h = self.hours_left.abs();
        let whole = |x: f64, unit: &str| Shown::decimals(x.floor(), 0, unit);
        let time = if h >= 48.0 { whole(h / 24.0, "d") } else { whole(h, "h") };
        if self.hours_left >= 0.0 { said::Left { time }.text() } else { said::Over { time }.text() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_has_a_time() {
        let rows = csv::Reader::from_reader(TABLE.as_bytes()).records().count();
        let read = table();
        assert_eq!(read.len(), rows);
        let of = |name: &str| read.iter().find(|h| h.analytes.starts_with(name)).unwrap();
        // From the table's own words.
        for (name, hours) in [("metals", 4320.0), ("NO3", 48.0), ("sulfide", 168.0), ("pH", 0.25), ("sulfite", 0.25)] {
            assert!((of(name).hours - hours).abs() < 1e-9, "{name}");
        }
        assert_eq!(of("alkalinity").provenance, "from memory");
        assert_eq!(of("sulfide").provenance, "seen in the table of 1995");
    }
}
