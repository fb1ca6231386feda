//! Does the year's wave of the rain's isotopes still show in the well, and how much young water does that mean?
//!
//! In: δ18O in ‰ with dates as decimal years, of rain (with amounts) and of the well. Out: amplitudes with u, their ratio
//! as the share of water younger than about 0.2 years, the mean age of an exponential aquifer in years, or a lower bound
//! where the well is flat.
//!
//! Method: δ = mean + a·cos 2πt + b·sin 2πt by least squares, rain weighted by its amount; amplitude √(a² + b²). Ratio of
//! amplitudes = share of young water (Kirchner 2016, Hydrol. Earth Syst. Sci. 20:279); exponential aquifer:
//! 1/√(1 + (2πT)²). Mean ages from amplitudes are biased where waters mix (the same); a flat well says "more than 1 to 2
//! years" and no more. Checked in `tests/validation_isotopes.rs`.

use super::measured::WithU;
use crate::Reason;
use message::{Digits, Message, Share, Shown, aquifer as part, origin as said};
use nalgebra::{Matrix3, Vector3};
use serde::{Deserialize, Serialize};
use statistics::{chi2, normal};
use std::f64::consts::PI;

/// A dated value.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Dated {
    /// Decimal year.
    pub year: f64,
    /// δ18O, ‰, with u.
    pub d18o: WithU,
    /// Weight: the amount of rain, or 1.
    pub weight: f64,
}

/// The year's wave.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Wave {
    /// Mean, ‰.
    pub mean: WithU,
    /// Amplitude, half of peak to peak, ‰.
    pub amplitude: WithU,
    /// Time of the highest value, share of a year from its beginning.
    pub peak: f64,
    /// Whether there is a wave at all: (amplitude/u)² above χ²(0.95; 2).
    pub shows: bool,
}

/// Least number of samples of a wave and the least span in years.
// Own choice: three numbers are fitted; as many again leave a scatter to see, and a wave needs its whole year.
const LEAST: (usize, f64) = (6, 0.8);

/// The year's wave of dated values.
///
/// # Errors
/// [`Reason`]: fewer than six values, less than most of a year, a weight or a u that is not above 0, dates that cannot tell
/// a wave.
pub fn wave(of: &[Dated]) -> Result<Wave, Reason> {
    let need = LEAST.0;
    if of.len() < need {
        let (what, hint) = (said::SamplesOfWave.into(), said::SampleTheWholeYear.into());
        return Err(Reason::TooFew { what, have: of.len(), need, hint });
    }
    for d in of {
        crate::reason::above_nought(said::AmountsOfRain, d.weight, "mm")?;
        if !(d.d18o.value.is_finite() && d.d18o.u > 0.0) {
            let permil = |x| Shown::as_given(x, "‰").typeset();
            let found = part::ValueWithU { value: permil(d.d18o.value), u: permil(d.d18o.u) };
            return Err(Reason::unlike(said::SamplesOfWave, found, said::AmountWithU));
        }
    }
    let (first, last) = of.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), d| (a.min(d.year), b.max(d.year)));
    if last - first < LEAST.1 || !(last - first).is_finite() {
        let least = said::AtLeastYears { least: Shown::as_given(LEAST.1, "") };
        return Err(Reason::out_of_range(said::SpanOfWave, Shown::significant(last - first, 2, "a"), least));
    }
    let total: f64 = of.iter().map(|d| d.weight).sum();
    let mut hessian = Matrix3::zeros();
    let mut right = Vector3::zeros();
    let row = |d: &Dated| Vector3::new(1.0, libm::cos(2.0 * PI * d.year), libm::sin(2.0 * PI * d.year));
    let weight = |d: &Dated| d.weight * of.len() as f64 / total;
    for d in of {
        hessian += row(d) * row(d).transpose() * weight(d);
        right += row(d) * (weight(d) * d.d18o.value);
    }
    let Some(inverse) = hessian.try_inverse().filter(|m| m.iter().all(|x| x.abs() < 1e6)) else {
        return Err(Reason::unlike(said::SamplesOfWave, said::DatesAlike, said::DatesOverTheYear));
    };
    let fitted = inverse * right;
    let n = of.len() as f64;
    let scatter = of.iter().map(|d| weight(d) * (d.d18o.value - row(d).dot(&fitted)).powi(2)).sum::<f64>() / (n - 3.0);
    let measured = of.iter().map(|d| weight(d) * d.d18o.u.powi(2)).sum::<f64>() / n;
    let variance = inverse * scatter.max(measured);
    let (a, b) = (fitted[1], fitted[2]);
    let amplitude = a.hypot(b);
    let along = Vector3::new(0.0, a / amplitude, b / amplitude);
    let u = if amplitude > 0.0 { along.dot(&(variance * along)).sqrt() } else { variance[(1, 1)].sqrt() };
    Ok(Wave {
        mean: WithU { value: fitted[0], u: variance[(0, 0)].sqrt() },
        amplitude: WithU { value: amplitude, u },
        peak: (libm::atan2(b, a) / (2.0 * PI)).rem_euclid(1.0),
        shows: (amplitude / u).powi(2) > chi2::quantile(0.95, 2.0),
    })
}

/// Amplitude ratio of an exponential aquifer of mean age T, years: 1/√(1 + (2πT)²).
pub fn exponential_ratio(mean_years: f64) -> f64 {
    1.0 / 1f64.hypot(2.0 * PI * mean_years)
}

/// Its inverse: mean age in years of a ratio from 0 to 1.
pub fn exponential_years(ratio: f64) -> f64 {
    (1.0 / (ratio * ratio) - 1.0).max(0.0).sqrt() / (2.0 * PI)
}

/// What the wave in the well says.
#[derive(Debug, Clone, PartialEq)]
pub struct YoungWater {
    /// Amplitude of the well over that of the rain: about the share of water younger than 0.19 years.
    pub share: WithU,
    /// Mean age of an exponential aquifer, years; none where the well is flat.
    pub exponential_years: Option<f64>,
    /// Where the well is flat: the mean age is more than this, years.
    pub more_than_years: Option<f64>,
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

/// Mean age beyond which an amplitude says nothing, years: the bound of a flat well stops there.
// "More than 1 to 2 years, no more than that", after Kirchner 2016.
const NO_MORE_THAN: f64 = 2.0;

/// Share of young water by the year's wave.
///
/// # Errors
/// [`Reason`]: rain that has no wave.
pub fn young_water(rain: &Wave, well: &Wave) -> Result<YoungWater, Reason> {
    if !rain.shows {
        let found = part::ValueWithU {
            value: Shown::significant(rain.amplitude.value, 2, "‰"),
            u: Shown::significant(rain.amplitude.u, 2, "‰"),
        };
        return Err(Reason::unlike(said::WaveOfRain, found, said::WaveThatShows));
    }
    let value = well.amplitude.value / rain.amplitude.value;
    let u = value
        * (well.amplitude.u / well.amplitude.value.max(f64::MIN_POSITIVE))
            .hypot(rain.amplitude.u / rain.amplitude.value);
    let mut out =
        YoungWater { share: WithU { value, u }, exponential_years: None, more_than_years: None, findings: vec![] };
    if well.shows {
        let years = exponential_years(value);
        out.exponential_years = Some(years);
        let share = Share::new(value, Digits::Significant(2));
        out.findings.push(said::YoungShare { share }.into());
    } else {
        let most = ((well.amplitude.value + normal::ONE_SIDED_95 * well.amplitude.u) / rain.amplitude.value).min(1.0);
        let years = exponential_years(most).min(NO_MORE_THAN);
        out.more_than_years = Some(years);
        out.findings.push(said::FlatWell { years: Shown::lower_bound(years, "") }.into());
    }
    Ok(out)
}
