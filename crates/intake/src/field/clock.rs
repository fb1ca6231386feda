//! Is the phone's clock to be believed, and what is its time at the site?
//!
//! In: times as the phone wrote them, with their offset from UTC; start and end of the trip; the
//! time of taking in. Out: times local to the site, as the record keeps them, or what is wrong.

use super::{DAYS_AFTER, DAYS_BEFORE};
use crate::import::fault::{Fault, fault};
use jiff::civil::{Date, DateTime};
use jiff::tz::Offset;
use jiff::{SignedDuration, Timestamp};
use message::{expected, found};

/// A time of a phone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moment {
    /// As written.
    pub text: String,
    instant: Timestamp,
    /// Minutes ahead of UTC.
    pub offset_min: i64,
}

impl Moment {
    /// `2026-07-14T09:12:33+02:00`, nothing else.
    pub fn parse(text: &str) -> Option<Self> {
        let civil: DateTime = text.get(..19)?.parse().ok()?;
        let rest = text.get(19..)?;
        let bytes = rest.as_bytes();
        let form = bytes.len() == 6 && matches!(bytes[0], b'+' | b'-') && bytes[3] == b':';
        if !(form && text.as_bytes()[10] == b'T') {
            return None;
        }
        let (h, m): (i64, i64) = (rest.get(1..3)?.parse().ok()?, rest.get(4..6)?.parse().ok()?);
        // Offsets in use run from -12 to +14 hours.
        if h > 14 || m > 59 {
            return None;
        }
        let offset_min = if bytes[0] == b'-' { -(60 * h + m) } else { 60 * h + m };
        let utc = Offset::UTC.to_timestamp(civil).ok()?;
        let instant = utc.checked_sub(SignedDuration::from_mins(offset_min)).ok()?;
        Some(Self { text: text.into(), instant, offset_min })
    }

    /// Local time at an offset after adding days, as the record writes it.
    pub fn local(&self, offset_min: i64, add_days: f64) -> String {
        self.civil(offset_min, add_days)
            .map_or_else(|| self.text.clone(), |c| c.strftime("%Y-%m-%dT%H:%M:%S").to_string())
    }

    fn civil(&self, offset_min: i64, add_days: f64) -> Option<DateTime> {
        let seconds =
            SignedDuration::from_mins(offset_min) + SignedDuration::from_secs((add_days * 86_400.0).round() as i64);
        Some(Offset::UTC.to_datetime(self.instant.checked_add(seconds).ok()?))
    }

    /// The same a second earlier; its text is not the phone's.
    pub fn second_before(&self) -> Option<Self> {
        let instant = self.instant.checked_sub(SignedDuration::from_secs(1)).ok()?;
        Some(Self { instant, ..self.clone() })
    }

    /// Seconds since another.
    pub fn seconds_since(&self, other: &Self) -> i64 {
        self.instant.duration_since(other.instant).as_secs()
    }
}

/// The days of a trip.
pub struct Days<'a> {
    pub starts: &'a str,
    pub ends: Option<&'a str>,
    /// Time of taking in; empty where it is not known.
    pub taken_at: &'a str,
}

fn day(text: &str) -> Option<Date> {
    text.get(..10)?.parse().ok()
}

impl Days<'_> {
    /// What is wrong with a phone's time; none where it can be.
    pub fn wrong(&self, at: &Moment, add_days: f64) -> Option<Fault> {
        let said = at.civil(at.offset_min, add_days)?.date();
        let first = day(self.starts)?;
        let last = self.ends.and_then(day).unwrap_or(first);
        let span = |d: Date| d.until(said).map_or(0, |s| i64::from(s.get_days()));
        let (before, after) = (span(first), span(last));
        if before < -DAYS_BEFORE || after > DAYS_AFTER {
            let (at, start) = (at.text.as_str().into(), first.to_string().into());
            let expected = expected::TimeOfTrip { before: DAYS_BEFORE, after: DAYS_AFTER, days: -before };
            return Some(if before < 0 {
                fault(found::DaysBefore { at, days: -before, start }, expected)
            } else {
                fault(found::DaysAfter { at, days: before, start }, expected)
            });
        }
        let taken = day(self.taken_at)?;
        if taken.until(said).is_ok_and(|s| s.get_days() > 1) {
            let found = found::Later { at: at.text.as_str().into(), day: taken.to_string().into() };
            return Some(fault(found, expected::TimeBeforeTakingIn));
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_with_offset_and_nothing_else() {
        let m = Moment::parse("2026-07-14T09:12:33+02:00").unwrap();
        assert_eq!(m.local(120, 0.0), "2026-07-14T09:12:33");
        assert_eq!(m.local(0, 0.0), "2026-07-14T07:12:33");
        assert_eq!(m.local(120, 365.0), "2027-07-14T09:12:33");
        let later = Moment::parse("2026-07-14T07:12:43+00:00").unwrap();
        assert_eq!(later.seconds_since(&m), 10);
        for text in [
            "",
            "2026-07-14",
            "2026-07-14T09:12:33",
            "2026-07-14T09:12:33Z",
            "2026-02-30T09:12:33+00:00",
            "2026-07-14T09:12:33+2:00x",
            "päpäpäpäpäpäpäpäpäpä",
        ] {
            assert_eq!(Moment::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_year_is_too_far_and_a_day_is_not() {
        let days = Days { starts: "2026-07-14T08:30", ends: None, taken_at: "2026-07-20T10:00:00Z" };
        let wrong = |t: &str, add| days.wrong(&Moment::parse(t).unwrap(), add);
        assert_eq!(wrong("2026-07-14T09:00:00+02:00", 0.0), None);
        assert_eq!(wrong("2026-07-13T09:00:00+02:00", 0.0), None);
        let why = wrong("2025-07-14T09:00:00+02:00", 0.0).unwrap();
        let (found, expected) = (why.found.in_english(), why.expected.in_english());
        assert!(found.contains("365 days before"), "{found}");
        assert!(expected.contains("add_days = 365"), "{expected}");
        assert_eq!(wrong("2025-07-14T09:00:00+02:00", 365.0), None);
        assert!(wrong("2026-07-30T09:00:00+02:00", 0.0).unwrap().found.is::<found::Later>());
    }
}
