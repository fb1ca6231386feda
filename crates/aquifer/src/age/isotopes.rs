//! From which rain does the water come: was it evaporated, of which season, from which height?
//!
//! In: δ18O and δ2H in ‰ VSMOW with u, of the well and of local rain. Out: the local meteoric line with u, the residual of
//! the well to it, deuterium excess, the source of an evaporated water, and three readings of one δ side by side: season,
//! height, climate. One δ cannot give them all; noble gases, 14C and the deuterium excess tell them apart.
//!
//! Method: straight line with errors in both coordinates (York et al. 2004, Am. J. Phys. 72:367), each point weighted by
//! its amount of rain; u by the scatter where that is larger than the errors. Mass balance for season and recharge share
//! (Grabczak et al. 1984; recalled). Gradients of height: −0.15 to −0.5 ‰ per 100 m for δ18O (Clark & Fritz 1997;
//! recalled) unless the local one is given. Checked in `tests/validation_isotopes.rs`.

use super::constants::number;
use super::measured::WithU;
use super::tritium::{Alpha, Month, alpha};
use crate::Reason;
use message::{Message, Shown, aquifer as part, origin as said};
use serde::{Deserialize, Serialize};
use statistics::normal;

/// δ18O and δ2H of a water, ‰ VSMOW.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Water {
    /// δ18O, ‰.
    pub d18o: WithU,
    /// δ2H, ‰.
    pub d2h: WithU,
}

/// Rain of a month or of an event.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Rain {
    /// Its isotopes.
    pub water: Water,
    /// Its amount, mm; for all samples or for none.
    pub amount_mm: Option<f64>,
}

/// A straight line δ2H = slope·δ18O + intercept.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Line {
    /// Slope.
    pub slope: f64,
    /// Intercept, ‰.
    pub intercept: f64,
    /// Standard uncertainty of the slope.
    pub u_slope: f64,
    /// Standard uncertainty of the intercept, ‰.
    pub u_intercept: f64,
    /// Covariance of the two, ‰.
    pub covariance: f64,
    /// Scatter of the points about the line in units of their u; below 1: less than their u allows.
    pub scatter: f64,
    /// Points; none for the global line.
    pub points: Option<usize>,
}

/// δ outside what any water on earth has, ‰: a ratio, a percent, or the two interchanged.
// Antarctic snow −60 and −500, strongly evaporated lakes +30 and +150 (usual values; from memory).
const D18O: (f64, f64) = (-70.0, 40.0);
const D2H: (f64, f64) = (-550.0, 200.0);

impl Line {
    /// The global meteoric line, δ2H = 8·δ18O + 10 (Craig 1961): where no local rain was measured.
    pub fn global() -> Self {
        let (slope, intercept) = (number("GMWL.slope"), number("GMWL.intercept"));
        Self { slope, intercept, u_slope: 0.0, u_intercept: 0.0, covariance: 0.0, scatter: 0.0, points: None }
    }

    /// δ2H on the line, ‰, and its u.
    pub fn at(&self, d18o: f64) -> WithU {
        let v = self.u_slope.powi(2) * d18o * d18o + 2.0 * d18o * self.covariance + self.u_intercept.powi(2);
        WithU { value: self.slope * d18o + self.intercept, u: v.max(0.0).sqrt() }
    }
}

fn check(what: impl Fn(bool) -> Message, w: &Water) -> Result<(), Reason> {
    for (oxygen, x, (low, high)) in [(true, w.d18o, D18O), (false, w.d2h, D2H)] {
        let permil = |x| Shown::as_given(x, "‰").typeset();
        if !(x.value.is_finite() && x.u > 0.0 && x.u.is_finite()) {
            let found = part::ValueWithU { value: permil(x.value), u: permil(x.u) };
            return Err(Reason::unlike(what(oxygen), found, said::AmountWithU));
        }
        if !(low..=high).contains(&x.value) {
            let expected = said::DeltaOfWater { low: permil(low), high: permil(high) };
            return Err(Reason::out_of_range(what(oxygen), permil(x.value), expected));
        }
    }
    Ok(())
}

fn delta_of_sample(oxygen: bool) -> Message {
    said::DeltaOfSample { isotope: isotope(oxygen).into() }.into()
}

fn isotope(oxygen: bool) -> &'static str {
    if oxygen { "δ18O" } else { "δ2H" }
}

/// δ values without their scale.
pub fn no_scale() -> Reason {
    Reason::unlike(said::Scale, said::NoScale, said::SayScale)
}

/// The local meteoric line.
///
/// # Errors
/// [`Reason`]: fewer than 3 samples, amounts for some of them only, all of one δ18O, a δ that no water has, an iteration
/// that did not come to rest.
///
/// ```
/// use aquifer::age::{WithU, isotopes::{Rain, Water, local_line}};
/// let rain = |d18o: f64, d2h: f64| Rain {
///     water: Water { d18o: WithU { value: d18o, u: 0.1 }, d2h: WithU { value: d2h, u: 1.0 } }, amount_mm: None };
/// // Two points make a line whatever they are: refused.
/// assert!(local_line(&[rain(-8.0, -54.0), rain(-12.0, -86.0)]).is_err());
/// let line = local_line(&[rain(-8.0, -54.0), rain(-10.0, -70.0), rain(-12.0, -86.0)]).unwrap();
/// assert!((line.slope - 8.0).abs() < 1e-9 && (line.intercept - 10.0).abs() < 1e-8);
/// ```
pub fn local_line(rain: &[Rain]) -> Result<Line, Reason> {
    let n = rain.len();
    if n < 3 {
        let (what, hint) = (said::SamplesOfRain.into(), said::SampleMoreRain.into());
        return Err(Reason::TooFew { what, have: n, need: 3, hint });
    }
    for (i, r) in rain.iter().enumerate() {
        let what = |o: bool| said::DeltaOfRain { isotope: isotope(o).into(), sample: message::count(i + 1) }.into();
        check(what, &r.water)?;
    }
    let amounts = amounts(rain)?;
    let x: Vec<f64> = rain.iter().map(|r| r.water.d18o.value).collect();
    if x.iter().all(|v| *v == x[0]) {
        return Err(Reason::unlike(said::SamplesOfRain, said::AllOfOneDelta, said::RainOfSeveralSeasons));
    }
    let points: Vec<Point> = rain
        .iter()
        .zip(&amounts)
        .map(|(r, p)| {
            let Water { d18o, d2h } = r.water;
            Point { x: d18o.value, y: d2h.value, wx: p / (d18o.u * d18o.u), wy: p / (d2h.u * d2h.u) }
        })
        .collect();
    york(&points)
}

/// Amounts as weights with mean 1.
fn amounts(rain: &[Rain]) -> Result<Vec<f64>, Reason> {
    let given: Vec<f64> = rain.iter().filter_map(|r| r.amount_mm).collect();
    if given.is_empty() {
        return Ok(vec![1.0; rain.len()]);
    }
    if given.len() < rain.len() {
        let (found, of) = (message::count(given.len()), message::count(rain.len()));
        return Err(Reason::unlike(said::AmountsOfRain, said::GivenForSome { found, of }, said::AmountsForAllOrNone));
    }
    for a in &given {
        crate::reason::above_nought(said::AmountsOfRain, *a, "mm")?;
    }
    let mean = given.iter().sum::<f64>() / given.len() as f64;
    Ok(given.iter().map(|a| a / mean).collect())
}

/// A point with the weights of its coordinates.
struct Point {
    x: f64,
    y: f64,
    wx: f64,
    wy: f64,
}

fn york(points: &[Point]) -> Result<Line, Reason> {
    // Steps and tolerance: own choice; the iteration gains a digit or more with each step.
    const MOST_STEPS: usize = 200;
    const AT_REST: f64 = 1e-13;
    let mut slope = number("GMWL.slope");
    let mut change = f64::INFINITY;
    for _ in 0..MOST_STEPS {
        let weight = |p: &Point| p.wx * p.wy / (p.wx + slope * slope * p.wy);
        let total: f64 = points.iter().map(weight).sum();
        let mx = points.iter().map(|p| weight(p) * p.x).sum::<f64>() / total;
        let my = points.iter().map(|p| weight(p) * p.y).sum::<f64>() / total;
        let beta = |p: &Point| weight(p) * ((p.x - mx) / p.wy + slope * (p.y - my) / p.wx);
        let next = points.iter().map(|p| weight(p) * beta(p) * (p.y - my)).sum::<f64>()
            / points.iter().map(|p| weight(p) * beta(p) * (p.x - mx)).sum::<f64>();
        change = (next - slope).abs();
        if change <= AT_REST * next.abs() {
            // Adjusted abscissae x' = mean + beta: u of the line hangs on their spread.
            let mid = points.iter().map(|p| weight(p) * (mx + beta(p))).sum::<f64>() / total;
            let spread: f64 = points.iter().map(|p| weight(p) * (mx + beta(p) - mid).powi(2)).sum();
            let intercept = my - next * mx;
            let sum: f64 = points.iter().map(|p| weight(p) * (p.y - next * p.x - intercept).powi(2)).sum();
            let scatter = (sum / (points.len() as f64 - 2.0)).sqrt();
            let larger = scatter.max(1.0).powi(2);
            let (v_slope, v_intercept) = (larger / spread, larger * (1.0 / total + mid * mid / spread));
            return Ok(Line {
                slope: next,
                intercept,
                u_slope: v_slope.sqrt(),
                u_intercept: v_intercept.sqrt(),
                covariance: -mid * v_slope,
                scatter,
                points: Some(points.len()),
            });
        }
        slope = next;
    }
    Err(Reason::NotConverged { what: said::LineOfRain.into(), iterations: MOST_STEPS, residual: change })
}

/// Deuterium excess d = δ2H − 8·δ18O, ‰; u(d) = √(u²(δ2H) + 64·u²(δ18O)).
pub fn deuterium_excess(w: &Water) -> WithU {
    let slope = number("GMWL.slope");
    WithU { value: w.d2h.value - slope * w.d18o.value, u: w.d2h.u.hypot(slope * w.d18o.u) }
}

/// Where a water stands to the line of rain.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Position {
    /// Within 2 u: rain that was not evaporated.
    OnTheLine,
    /// To the right of it, below: evaporated.
    Evaporated,
    /// Above it: exchange with rock or gas, other moisture, or an error.
    Above,
}

/// A water beside the line of rain.
#[derive(Debug, Clone, PartialEq)]
pub struct BesideLine {
    /// δ2H less that of the line, ‰, with u of both.
    pub residual: WithU,
    /// Where it stands.
    pub position: Position,
    /// Deuterium excess, ‰.
    pub deuterium_excess: WithU,
    /// Rain before evaporation, (δ18O, δ2H) in ‰, for evaporation slopes 4 and 6; where the water was evaporated.
    pub source: Option<[(f64, f64); 2]>,
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

/// A water beside the line of rain.
///
/// # Errors
/// [`Reason`]: a δ that no water has or without u; a line not steeper than evaporation.
pub fn beside_line(w: &Water, line: &Line) -> Result<BesideLine, Reason> {
    check(delta_of_sample, w)?;
    let on = line.at(w.d18o.value);
    let residual = WithU { value: w.d2h.value - on.value, u: w.d2h.u.hypot(line.slope * w.d18o.u).hypot(on.u) };
    let position = if residual.value.abs() <= 2.0 * residual.u {
        Position::OnTheLine
    } else if residual.value < 0.0 {
        Position::Evaporated
    } else {
        Position::Above
    };
    let mut findings: Vec<Message> = vec![];
    let shown = Shown::significant(residual.value, 2, "‰").typeset();
    match position {
        Position::OnTheLine => {}
        Position::Evaporated => findings.push(said::Evaporated { residual: shown }.into()),
        Position::Above => findings.push(said::AboveTheLine { residual: shown }.into()),
    }
    if line.points.is_none() {
        findings.push(said::GlobalLine.into());
    }
    let source = match position {
        Position::Evaporated => {
            let of = |key: &str| before_evaporation(w, line, number(key));
            Some([of("evaporation.slope.least")?, of("evaporation.slope.most")?])
        }
        _ => None,
    };
    Ok(BesideLine { residual, position, deuterium_excess: deuterium_excess(w), source, findings })
}

/// Rain before evaporation, (δ18O, δ2H) in ‰: where the evaporation line of a slope meets the line of rain,
/// δ18O = (δ2Hs − me·δ18Os − b)/(m − me).
///
/// # Errors
/// [`Reason`]: a slope of evaporation that is not below the line's.
pub fn before_evaporation(w: &Water, line: &Line, slope: f64) -> Result<(f64, f64), Reason> {
    if !(slope > 0.0 && slope < line.slope) {
        let most = part::AtMost { most: Shown::significant(line.slope, 3, "") };
        return Err(Reason::out_of_range(said::SlopeOfEvaporation, Shown::as_given(slope, ""), most));
    }
    let d18o = (w.d2h.value - slope * w.d18o.value - line.intercept) / (line.slope - slope);
    Ok((d18o, line.slope * d18o + line.intercept))
}

/// Of which season one δ may be.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Season {
    /// Winter's share; outside 0 to 1 it is no mixture of today's winter and summer.
    WinterShare(WithU),
    /// Winter and summer rain lie too near each other.
    NotSeparable {
        /// Winter less summer, ‰.
        difference: WithU,
    },
}

/// Share of winter rain, fw = (δG − δs)/(δw − δs), where winter and summer differ by more than 4 u.
pub fn season(well: WithU, winter: WithU, summer: WithU) -> Season {
    let difference = WithU { value: winter.value - summer.value, u: winter.u.hypot(summer.u) };
    if difference.value.abs() <= 4.0 * difference.u {
        return Season::NotSeparable { difference };
    }
    let share = (well.value - summer.value) / difference.value;
    let u = well.u.hypot(share * winter.u).hypot((1.0 - share) * summer.u) / difference.value.abs();
    Season::WinterShare(WithU { value: share, u })
}

/// Rain of a known height, and how its δ18O changes with height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Slope {
    /// Height of the known rain, m.
    pub height_m: f64,
    /// Its mean δ18O, ‰.
    pub d18o: WithU,
    /// ‰ per 100 m from, to; negative. None: the usual range.
    pub per_100_m: Option<(f64, f64)>,
}

/// Height of recharge, m, from and to: h = href + (δG − δref)/(dδ/dh), over the range of gradients, with 95 % of u.
///
/// # Errors
/// [`Reason`]: a gradient that is not below 0.
pub fn height(well: WithU, slope: &Slope) -> Result<(f64, f64), Reason> {
    let (a, b) = slope.per_100_m.unwrap_or_else(|| (number("d18O.per_100_m.least"), number("d18O.per_100_m.most")));
    for g in [a, b] {
        if !(g < 0.0 && g.is_finite()) {
            let found = Shown::as_given(g, "‰/100 m").typeset();
            return Err(Reason::out_of_range(said::GradientOfHeight, found, said::BelowNought));
        }
    }
    let half = normal::TWO_SIDED_95 * well.u.hypot(slope.d18o.u);
    let difference = well.value - slope.d18o.value;
    let at =
        [a, b].into_iter().flat_map(|g| [difference - half, difference + half].map(|d| slope.height_m + 100.0 * d / g));
    Ok(at.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), h| (low.min(h), high.max(h))))
}

/// Three readings of one δ18O, side by side: each alone would explain it.
#[derive(Debug, Clone, PartialEq)]
pub struct Readings {
    /// As a mixture of today's winter and summer rain.
    pub season: Option<Season>,
    /// As rain of another height, m.
    pub height_m: Option<(f64, f64)>,
    /// As rain of another climate: what it lies from today's mean rain, ‰.
    pub from_todays_rain: Option<WithU>,
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

/// What today's rain is known by.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Todays {
    /// Mean δ18O of winter rain and of summer rain, ‰.
    pub seasons: Option<(WithU, WithU)>,
    /// Rain of a known height.
    pub slope: Option<Slope>,
    /// Mean of the year, amount-weighted, ‰.
    pub mean: Option<WithU>,
}

/// Three readings of one δ18O.
///
/// # Errors
/// As [`height`].
pub fn readings(well: WithU, todays: &Todays) -> Result<Readings, Reason> {
    let season = todays.seasons.map(|(winter, summer)| season(well, winter, summer));
    let height_m = todays.slope.map(|s| height(well, &s)).transpose()?;
    let from_todays_rain = todays.mean.map(|m| WithU { value: well.value - m.value, u: well.u.hypot(m.u) });
    let mut findings: Vec<Message> = vec![said::OneDeltaThreeReadings.into()];
    match season {
        Some(Season::NotSeparable { difference }) => {
            let difference = Shown::significant(difference.value, 2, "‰").typeset();
            findings.push(said::SeasonsTooNear { difference }.into());
        }
        Some(Season::WinterShare(s)) if s.value + 2.0 * s.u < 0.0 || s.value - 2.0 * s.u > 1.0 => {
            findings.push(said::NoMixtureOfSeasons { share: Shown::significant(s.value, 2, "").typeset() }.into());
        }
        _ => {}
    }
    Ok(Readings { season, height_m, from_todays_rain, findings })
}

/// How much of summer's rain infiltrates beside winter's.
#[derive(Debug, Clone, PartialEq)]
pub struct SummerRatio {
    /// α, with u of the well's δ.
    pub alpha: WithU,
    /// What to weight recharge with: α, or 0 to 1 flat where α cannot be.
    pub range: (f64, f64),
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

/// Summer-to-winter ratio of infiltration, α = Σw P(δ − δG)/Σs P(δG − δ) ([`alpha`]), with the u of the well's δ.
///
/// # Errors
/// [`Reason`]: as [`alpha`]; an amount that is not above 0.
pub fn summer_ratio(months: &[Month], well: WithU) -> Result<SummerRatio, Reason> {
    for m in months {
        crate::reason::above_nought(said::AmountsOfRain, m.rain_mm, "mm")?;
    }
    let half = |summer: bool| months.iter().filter(move |m| m.summer == summer);
    let amount = |summer: bool| half(summer).map(|m| m.rain_mm).sum::<f64>();
    let below = half(true).map(|m| m.rain_mm * (well.value - m.value)).sum::<f64>();
    let (value, within) = match alpha(months, well.value)? {
        Alpha::Known(value) => (value, true),
        Alpha::Open(value) => (value, false),
    };
    // dα/dδG = −(Pw + α·Ps)/Σs P(δG − δ)
    let u = ((amount(false) + value * amount(true)) / below).abs() * well.u;
    let mut findings: Vec<Message> = vec![];
    if !within {
        findings.push(said::SummerRatioOutside { alpha: Shown::significant(value, 2, "").typeset() }.into());
    }
    let range = if within { ((value - u).max(0.0), (value + u).min(1.0)) } else { (0.0, 1.0) };
    Ok(SummerRatio { alpha: WithU { value, u }, range, findings })
}
