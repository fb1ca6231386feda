//! What physics leaves to a quantity: a pH of 78, water at 412 °C or a bottle of 1e-310 mL is a slip of the pen, in
//! whichever file or form it stands.
//!
//! In: a value with its unit. Out: nothing, or the range that it should lie in. The bounds are the rows of
//! `reference/physical_bounds.csv`, each with its source; import, forms (`entry`) and field sheets ask here, and the
//! sheet's own script carries the same rows. They are wide on purpose: what lies inside may still be a slip, which only
//! somebody who knows the well can see. Times: what is said to have happened cannot lie after the act that says so.
//! Checked in `crates/programme/tests/bounds.rs`.

use jiff::ToSpan;
use jiff::civil::{Date, DateTime};
use message::{Message, Shown, expected};
use quantity::{Amount, Unit};
use serde::{Deserialize, Serialize};
use std::sync::LazyLock;

/// The range of one quantity, both ends included.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Bound {
    /// A quantity as the record names it, or what a column holds.
    pub quantity: String,
    /// Least, in `unit`.
    pub lower: f64,
    /// Most, in `unit`.
    pub upper: f64,
    /// Unit of both.
    pub unit: String,
    /// Why there.
    pub source: String,
    /// Whether the figures were seen, are from memory (recalled), or are the programme's own choice.
    pub provenance: String,
}

static TABLE: LazyLock<Vec<Bound>> = LazyLock::new(|| {
    csv::Reader::from_reader(include_str!("../../../reference/physical_bounds.csv").as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .expect("the table of bounds is well formed")
});

/// Hours by which a time may seem to lie ahead of the act that keeps it: clocks of two zones differ by 26 at most
/// (UTC−12 to UTC+14), by less than a day between a site and whoever writes down what was done there.
const ZONES_H: i64 = 24;

/// All rows.
pub fn table() -> &'static [Bound] {
    &TABLE
}

/// The bound of a quantity; none where nothing is known of it.
pub fn of(quantity: &str) -> Option<&'static Bound> {
    TABLE.iter().find(|b| b.quantity == quantity)
}

impl Bound {
    /// Does a value in the bound's own unit lie within?
    ///
    /// # Errors
    /// The range.
    pub fn check(&self, x: f64) -> Result<(), Message> {
        if (self.lower..=self.upper).contains(&x) { Ok(()) } else { Err(self.message()) }
    }

    fn message(&self) -> Message {
        let quantity = Message::named("bound", &self.quantity).expect("every bounded quantity is named");
        // pH has no unit beside its name.
        let unit = if self.unit == self.quantity { "" } else { &self.unit };
        let (lower, upper) = (Shown::as_given(self.lower, ""), Shown::as_given(self.upper, unit));
        expected::Bound { quantity, lower, upper }.into()
    }
}

/// Does a reading lie within what its quantity can be? Of a quantity without bound, or in a unit that is none of its
/// own (refused elsewhere), nothing is said. "pH (laboratory)" is a pH.
///
/// # Errors
/// The range.
pub fn reading(quantity: &str, value: f64, unit: &Unit) -> Result<(), Message> {
    let name = quantity.split_once(" (").map_or(quantity, |(name, _)| name);
    let Some(bound) = of(name) else { return Ok(()) };
    // pH has no unit to turn into.
    if name == "pH" {
        return bound.check(value);
    }
    let there = Amount::stated(value, unit.clone()).convert(&Unit::known(&bound.unit), None, None);
    there.ok().and_then(|a| a.value()).map_or(Ok(()), |x| bound.check(x))
}

/// The time of an act: what it says has happened cannot lie after it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ActTime(DateTime);

impl ActTime {
    /// Of the text that an act gives; none where it gives none.
    pub fn of(at: &str) -> Option<Self> {
        moment(at).map(Self)
    }

    /// Is a time of the record one that has been?
    ///
    /// # Errors
    /// What was expected.
    pub fn check(self, time: &str) -> Result<(), Message> {
        let latest = self.0.checked_add(ZONES_H.hours()).unwrap_or(DateTime::MAX);
        if moment(time).is_some_and(|t| t > latest) {
            let at = self.0.strftime("%Y-%m-%d %H:%M").to_string();
            return Err(expected::TimeThatHasBeen { at: at.into() }.into());
        }
        Ok(())
    }
}

/// Columns of times that may lie ahead: a trip is planned before it is made.
pub fn may_lie_ahead(field: &str) -> bool {
    matches!(field, "trip.starts" | "trip.ends")
}

/// Whether a time of the record certainly lies before another: by the clock where both tell it in the same zone, by the
/// day where one tells the day alone, by more than the zones differ where the zones are not the same.
pub fn is_before(a: &str, b: &str) -> bool {
    let (Some(x), Some(y)) = (moment(a), moment(b)) else { return false };
    let (Some((_, clock_a)), Some((_, clock_b))) = (a.split_once('T'), b.split_once('T')) else {
        return x.date() < y.date();
    };
    let zone = |clock: &str| clock.find(['Z', '+', '-']).map_or(String::new(), |n| clock[n..].to_string());
    if zone(clock_a) == zone(clock_b) {
        return x < y;
    }
    x.checked_add(ZONES_H.hours()).is_ok_and(|latest| latest < y)
}

/// Day and clock of a time as the record writes it, whatever its zone.
fn moment(text: &str) -> Option<DateTime> {
    let clock = |n: usize| text.get(..n).filter(|t| t.as_bytes().get(10) == Some(&b'T'))?.parse().ok();
    let day = || text.get(..10)?.parse::<Date>().ok().map(|d| d.at(0, 0, 0, 0));
    clock(19).or_else(|| clock(16)).or_else(day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_time_is_before_another_only_where_that_is_certain() {
        for (a, b, before) in [
            ("2026-07-14", "2026-07-15", true),
            ("2026-07-14", "2026-07-14T09:00", false),
            ("2026-07-14T09:00", "2026-07-14", false),
            ("2026-07-13T23:00", "2026-07-14", true),
            ("2026-07-14T09:00", "2026-07-14T09:01", true),
            ("2026-07-14T09:00:00+02:00", "2026-07-14T09:00:01+02:00", true),
            ("2026-07-14T09:00:00+02:00", "2026-07-14T10:00:00Z", false),
            ("2026-07-12T09:00:00+02:00", "2026-07-14T10:00:00Z", true),
            ("some day", "2026-07-14", false),
        ] {
            assert_eq!(is_before(a, b), before, "{a} {b}");
        }
    }

    #[test]
    fn every_bound_has_a_name() {
        for b in table() {
            assert!(b.message().is::<expected::Bound>(), "{}", b.quantity);
        }
    }
}
