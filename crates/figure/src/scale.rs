//! Where on an axis does a value stand, and which ticks does the axis carry?
//!
//! In: a domain (any unit; seconds since 1970 for time) and a stretch of the picture (px). Out:
//! positions in px and ticks with their labels. Kinds: linear and log with 1-2-5 ticks, time with
//! ticks at minutes, hours, days, months, years; "bent" is linear near zero and log far from it
//! (asinh), for blanks with rare spikes and negative values. Numbers have the decimal sign of the
//! language that is spoken.
//! A domain that is empty or not finite is widened to one that can be drawn; log domains must be
//! positive, which [`Scale::log`] ensures. Checked below and in `crates/report/tests/figures.rs`.

use quantity::factor::{S_PER_D, S_PER_H, S_PER_MIN};
use quantity::format::at_decimals;

/// A tick of an axis.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Value on the axis.
    pub value: f64,
    /// Its label.
    pub label: String,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Linear,
    Log,
    Bent { linear_to: f64 },
    Time,
}

/// A map from a domain to a stretch of the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    kind: Kind,
    lo: f64,
    hi: f64,
    from: f64,
    to: f64,
}

/// Lowest and highest of the finite values.
pub fn extent(values: impl IntoIterator<Item = f64>) -> Option<(f64, f64)> {
    values.into_iter().filter(|v| v.is_finite()).fold(None, |e, v| match e {
        None => Some((v, v)),
        Some((lo, hi)) => Some((lo.min(v), hi.max(v))),
    })
}

/// Ends of a logarithmic axis: doubles reach from 5e-324 to 1.8e308 (IEEE 754), and each end needs room for a step outwards.
const LEAST: f64 = 1e-300;
/// Upper end.
const MOST: f64 = 1e300;

impl Scale {
    /// Linear over the values, widened to whole ticks.
    pub fn linear(values: impl IntoIterator<Item = f64>, px: (f64, f64)) -> Self {
        let (lo, hi) = widened(extent(values));
        let step = nice_step((hi - lo) / 4.0);
        Self::new(Kind::Linear, ((lo / step).floor() * step, (hi / step).ceil() * step), px)
    }

    /// Logarithmic over the positive values, widened to the next 1-2-5; at least one decade.
    pub fn log(values: impl IntoIterator<Item = f64>, px: (f64, f64)) -> Self {
        let positive = values.into_iter().filter(|v| *v > 0.0);
        let (lo, hi) = extent(positive).unwrap_or((1.0, 10.0));
        // A step beyond the ends of double precision is infinite, or nought, and has no decade.
        let drawn = |x: f64| x.clamp(LEAST, MOST);
        let (mut lo, mut hi) = (one_two_five_below(drawn(lo)), one_two_five_above(drawn(hi)));
        while hi / lo < 9.0 {
            lo = one_two_five_below(lo * 0.99);
            hi = one_two_five_above(hi * 1.01);
        }
        Self::new(Kind::Log, (lo, hi), px)
    }

    /// Linear up to about `linear_to` on both sides of zero, logarithmic beyond.
    pub fn bent(values: impl IntoIterator<Item = f64>, linear_to: f64, px: (f64, f64)) -> Self {
        let (lo, hi) = widened(extent(values));
        let linear_to = if linear_to > 0.0 && linear_to.is_finite() { linear_to } else { (hi - lo) / 10.0 };
        let room = (hi - lo) * 0.04;
        let drawn = |x: f64| x.clamp(-MOST, MOST);
        Self::new(Kind::Bent { linear_to }, (drawn(lo - room), drawn(hi * 1.15 + room)), px)
    }

    /// Time in seconds since 1970-01-01 (as the clock on the wall showed it), a little widened.
    pub fn time(seconds: impl IntoIterator<Item = f64>, px: (f64, f64)) -> Self {
        let (lo, hi) = extent(seconds).unwrap_or((0.0, S_PER_H));
        let room = ((hi - lo) * 0.03).max(S_PER_MIN);
        Self::new(Kind::Time, (lo - room, hi + room), px)
    }

    fn new(kind: Kind, (lo, hi): (f64, f64), (from, to): (f64, f64)) -> Self {
        Self { kind, lo, hi, from, to }
    }

    /// The domain.
    pub fn domain(&self) -> (f64, f64) {
        (self.lo, self.hi)
    }

    /// The stretch of the picture, px.
    pub fn range(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    fn bend(&self, x: f64) -> f64 {
        match self.kind {
            Kind::Linear | Kind::Time => x,
            Kind::Log => libm::log10(x),
            Kind::Bent { linear_to } => libm::asinh(x / linear_to),
        }
    }

    /// Position in px; values beyond the domain stand at its end.
    pub fn at(&self, x: f64) -> f64 {
        let x = if x.is_nan() { self.lo } else { x.clamp(self.lo, self.hi) };
        let share = (self.bend(x) - self.bend(self.lo)) / (self.bend(self.hi) - self.bend(self.lo));
        self.from + share * (self.to - self.from)
    }

    /// Ticks with labels.
    pub fn ticks(&self) -> Vec<Tick> {
        match self.kind {
            Kind::Linear => self.linear_ticks(),
            Kind::Log => self.log_ticks(),
            Kind::Bent { linear_to } => self.bent_ticks(linear_to),
            Kind::Time => self.time_ticks(),
        }
    }

    fn linear_ticks(&self) -> Vec<Tick> {
        let step = nice_step((self.hi - self.lo) / 4.0);
        let decimals = (-step.log10().floor()) as i32;
        let first = (self.lo / step).ceil() as i64;
        let last = (self.hi / step + 1e-9).floor() as i64;
        (first..=last)
            .map(|i| {
                let value = i as f64 * step;
                Tick { value, label: spaced(&at_decimals(value, decimals.max(0))) }
            })
            .collect()
    }

    /// Decades when there are three or more of them, else 1-2-5.
    fn log_ticks(&self) -> Vec<Tick> {
        let ends = (self.lo.clamp(LEAST, MOST).log10(), self.hi.clamp(LEAST, MOST).log10());
        let (first, last) = (ends.0.floor() as i32, ends.1.ceil() as i32);
        let decades = (self.hi / self.lo).log10();
        let steps: &[f64] = if decades > 2.6 { &[1.0] } else { &[1.0, 2.0, 5.0] };
        let every = if decades > 12.0 { 3 } else { 1 };
        (first..=last)
            .filter(|e| e % every == 0)
            .flat_map(|e| steps.iter().map(move |s| (s * 10f64.powi(e), e)))
            .filter(|(v, _)| *v >= self.lo * (1.0 - 1e-9) && *v <= self.hi * (1.0 + 1e-9))
            .map(|(value, _)| Tick { value, label: short(value) })
            .collect()
    }

    /// Zero, and 1-2-5 outwards from the bend, kept where they stand apart.
    fn bent_ticks(&self, linear_to: f64) -> Vec<Tick> {
        let mut sizes = vec![];
        let mut size = one_two_five_below(linear_to);
        while size <= self.hi.abs().max(self.lo.abs()) {
            sizes.push(size);
            size = one_two_five_above(size * 1.01);
        }
        let all = std::iter::once(0.0).chain(sizes.iter().flat_map(|s| [*s, -*s]));
        let mut kept: Vec<f64> = vec![];
        for v in all.filter(|v| *v >= self.lo && *v <= self.hi) {
            if kept.iter().all(|k| (self.at(*k) - self.at(v)).abs() >= 34.0) {
                kept.push(v);
            }
        }
        kept.sort_by(f64::total_cmp);
        kept.into_iter().map(|value| Tick { value, label: short(value) }).collect()
    }

    fn time_ticks(&self) -> Vec<Tick> {
        let span = self.hi - self.lo;
        // Months differ in length: over a longer time steps of days would drift off the first of the month.
        if span > 90.0 * S_PER_D {
            return self.calendar_ticks(span / S_PER_D);
        }
        // Up to a day each step divides the day, so that ticks stand at round times of the clock on the wall.
        let steps = [
            S_PER_MIN,
            300.0,
            900.0,
            1800.0,
            S_PER_H,
            7200.0,
            10800.0,
            21600.0,
            43200.0,
            S_PER_D,
            2.0 * S_PER_D,
            7.0 * S_PER_D,
            14.0 * S_PER_D,
        ];
        let step = steps.into_iter().find(|s| span / s <= 8.0).unwrap_or(14.0 * S_PER_D);
        let first = (self.lo / step).ceil() as i64;
        let last = (self.hi / step).floor() as i64;
        (first..=last)
            .map(|i| {
                let value = i as f64 * step;
                let (y, m, d) = civil((value / S_PER_D).floor() as i64);
                let minutes = (value.rem_euclid(S_PER_D) / S_PER_MIN) as i64;
                let label = if step >= S_PER_D {
                    format!("{y}-{m:02}-{d:02}")
                } else {
                    format!("{:02}:{:02}", minutes / 60, minutes % 60)
                };
                Tick { value, label }
            })
            .collect()
    }

    fn calendar_ticks(&self, days: f64) -> Vec<Tick> {
        let months =
            [1, 2, 3, 6, 12, 24, 60, 120, 240].into_iter().find(|m| days / 30.44 / f64::from(*m) <= 8.0).unwrap_or(600);
        let (y0, ..) = civil((self.lo / S_PER_D).floor() as i64);
        let (y1, ..) = civil((self.hi / S_PER_D).ceil() as i64);
        let first = i64::from(y0) * 12 / i64::from(months) * i64::from(months);
        (first..=i64::from(y1) * 12 + 11)
            .step_by(months as usize)
            .map(|n| ((n.div_euclid(12)) as i32, (n.rem_euclid(12)) as u32 + 1))
            .map(|(y, m)| Tick {
                value: days_from_civil(y, m, 1) as f64 * S_PER_D,
                label: if months >= 12 { y.to_string() } else { format!("{y}-{m:02}") },
            })
            .filter(|t| t.value >= self.lo && t.value <= self.hi)
            .collect()
    }
}

fn widened(e: Option<(f64, f64)>) -> (f64, f64) {
    let (lo, hi) = e.unwrap_or((0.0, 1.0));
    if hi > lo {
        (lo, hi)
    } else {
        let room = if lo == 0.0 { 1.0 } else { lo.abs() * 0.1 };
        (lo - room, hi + room)
    }
}

fn nice_step(rough: f64) -> f64 {
    one_two_five_above(rough)
}

fn one_two_five(x: f64, pick: impl Fn(f64) -> Option<f64>) -> f64 {
    let base = 10f64.powi(x.log10().floor() as i32);
    pick(x / base).unwrap_or(1.0) * base
}

/// Largest of 1-2-5 × 10^n not above x (x > 0).
fn one_two_five_below(x: f64) -> f64 {
    one_two_five(x, |m| [5.0, 2.0, 1.0].into_iter().find(|s| *s <= m * (1.0 + 1e-9)))
}

/// Smallest of 1-2-5 × 10^n not below x (x > 0).
fn one_two_five_above(x: f64) -> f64 {
    one_two_five(x, |m| [1.0, 2.0, 5.0, 10.0].into_iter().find(|s| *s >= m * (1.0 - 1e-9)))
}

/// A round number as an axis shows it: `0.002`, `1 000`, `10⁶`.
pub fn short(x: f64) -> String {
    let size = x.abs();
    if size == 0.0 {
        return "0".into();
    }
    if !(1e-4..1e6).contains(&size) {
        let e = (size * (1.0 + 1e-9)).log10().floor() as i32;
        let mantissa = (x / 10f64.powi(e)).round();
        let power: String = e.to_string().chars().map(superscript).collect();
        return if (mantissa - 1.0).abs() < 1e-9 {
            format!("10{power}")
        } else {
            format!("{mantissa}·10{power}").replace('-', "−")
        };
    }
    spaced(&quantity::format::significant_trimmed(x, 3))
}

fn superscript(c: char) -> char {
    match c {
        '-' => '⁻',
        '1' => '¹',
        '2' => '²',
        '3' => '³',
        '0' | '4'..='9' => char::from_u32(0x2070 + (c as u32 - '0' as u32)).unwrap_or(c),
        other => other,
    }
}

/// Groups of three before the point, a true minus sign, the decimal sign of the language that is spoken.
pub fn spaced(number: &str) -> String {
    message::language().number(&message::number::spaced(number))
}

/// Year, month, day of a day number counted from 1970-01-01 (proleptic Gregorian; the usual
/// 400-year-era arithmetic).
pub fn civil(days: i64) -> (i32, u32, u32) {
    // Days beyond all calendars stand at their end.
    let z = days.saturating_add(719_468);
    let era = z.div_euclid(146_097);
    let day_of_era = z.rem_euclid(146_097);
    let year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146_096) / 365;
    let day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let mp = (5 * day_of_year + 2) / 153;
    let month = if mp < 10 { mp + 3 } else { mp - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    (year as i32, month as u32, (day_of_year - (153 * mp + 2) / 5 + 1) as u32)
}

/// Day number from 1970-01-01 of a date.
pub fn days_from_civil(year: i32, month: u32, day: u32) -> i64 {
    let y = i64::from(year) - i64::from(month <= 2);
    let era = y.div_euclid(400);
    let year_of_era = y.rem_euclid(400);
    let mp = (i64::from(month) + 9) % 12;
    let day_of_year = (153 * mp + 2) / 5 + i64::from(day) - 1;
    let day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
    era * 146_097 + day_of_era - 719_468
}

#[cfg(test)]
mod tests {
    use super::*;

    fn labels(s: &Scale) -> Vec<String> {
        s.ticks().into_iter().map(|t| t.label).collect()
    }

    #[test]
    fn ticks_are_round_numbers() {
        assert_eq!(labels(&Scale::linear([0.3, 9.7], (0.0, 100.0))), ["0", "5", "10"]);
        assert_eq!(labels(&Scale::log([0.02, 1500.0], (0.0, 100.0))), ["0.1", "1", "10", "100", "1\u{202F}000"]);
        assert_eq!(labels(&Scale::log([3.0, 4.0], (0.0, 100.0)))[..3], ["1", "2", "5"]);
        assert_eq!(short(2e-6), "2·10⁻⁶");
        assert_eq!(short(1e7), "10⁷");
        assert_eq!(spaced("-12345.5"), "−12\u{202F}345.5");
    }

    #[test]
    fn hard_domains_stay_finite() {
        for values in
            [vec![], vec![0.0], vec![-3.0, -3.0], vec![f64::NAN, 2.0], vec![1e-30, 1e30], vec![1.0, f64::INFINITY]]
        {
            for s in [
                Scale::linear(values.clone(), (0.0, 500.0)),
                Scale::log(values.clone(), (0.0, 500.0)),
                Scale::bent(values.clone(), 0.5, (0.0, 500.0)),
                Scale::time(values.clone(), (0.0, 500.0)),
            ] {
                for x in [-1e9, 0.0, 1.0, 1e40, f64::NAN, f64::INFINITY] {
                    assert!((0.0..=500.0).contains(&s.at(x)), "{s:?} {x}");
                }
                assert!(s.ticks().len() < 70, "{s:?}");
            }
        }
    }

    /// Doubles reach from 5e-324 to 1.8e308 (IEEE 754): a step outwards from either end leaves them.
    #[test]
    fn an_axis_to_the_ends_of_double_precision_has_few_ticks() {
        for values in [vec![1.0, f64::MAX], vec![5e-324, 1.0], vec![f64::MIN_POSITIVE, f64::MAX], vec![f64::INFINITY]] {
            let s = Scale::log(values.clone(), (0.0, 500.0));
            let (lo, hi) = s.domain();
            assert!(lo > 0.0 && hi.is_finite() && hi / lo >= 9.0, "{values:?}: {lo} to {hi}");
            let ticks = s.ticks();
            assert!(!ticks.is_empty() && ticks.len() < 220, "{values:?}: {}", ticks.len());
            assert!(ticks.iter().all(|t| t.value.is_finite() && t.value > 0.0), "{values:?}: {ticks:?}");
            assert!(Scale::bent(values, 0.5, (0.0, 500.0)).ticks().len() < 70);
        }
        // Whatever made the domain: an infinite end has ticks up to the last decade, and comes to an end.
        let open = Scale::new(Kind::Log, (1.0, f64::INFINITY), (0.0, 500.0));
        assert!(open.ticks().len() < 220);
        let shut = Scale::new(Kind::Log, (0.0, 1.0), (0.0, 500.0));
        assert!(shut.ticks().len() < 220);
    }

    #[test]
    fn calendar_goes_both_ways() {
        // 1970-01-01 is day 0; 2000-02-29 is day 11016 (Unix time 951782400 / 86400).
        assert_eq!(civil(0), (1970, 1, 1));
        assert_eq!(civil(11016), (2000, 2, 29));
        for d in (-200_000..200_000).step_by(37) {
            let (y, m, day) = civil(d);
            assert_eq!(days_from_civil(y, m, day), d);
        }
    }
}
