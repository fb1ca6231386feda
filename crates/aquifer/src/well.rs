//! How fast does the well flow, how long does the water touch each pipe, how high would it stand?
//!
//! In: the construction (sections with depth, radius, material in m; screens; layers), timed fills
//! of a container, pressure at a shut well. Out: flow in L/min with u and degrees of freedom, volume
//! and contact time of each section, head above ground in m.
//!
//! Method: each fill gives V/t; their scatter gives the Type A part, the mark of the container is
//! common to all fills of that container and is not averaged away (JCGM 100:2008, 4.2, 5.1, G.4).
//! Contact time is volume over flow, plug flow. Head is gauge height plus p/(ρ·g), the shut well
//! at rest (Bernoulli without motion); density by temperature.
//!
//! Valid for steady flow of a full pipe. It does not find out whether the pipe is full, and it says
//! nothing of water below the screens. Checked in `tests/validation_well.rs`.

use crate::reason::above_nought;
use crate::stats::line;
use crate::water::{STANDARD_GRAVITY, density_kg_m3};
use crate::{Error, Reason};
use message::{Digits, Message, Name, Share, Shown, aquifer as part, step, well as said, word};
use quantity::{Amount, Check, Contribution, Derivation, Finding, Measured, Outcome, Unit};
use serde::{Deserialize, Serialize};
use statistics::sample::Moments;
use statistics::t;
use statistics::welch::effective_dof;

/// One stretch of pipe that the water rises through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Section {
    /// Upper end, m below ground; negative for a stand pipe above it.
    pub from_m: f64,
    /// Lower end, m below ground.
    pub to_m: f64,
    /// Inner radius, m.
    pub radius_m: f64,
    /// What it is made of.
    pub material: String,
}

/// A stretch of screen or open hole.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Screen {
    /// Upper end, m below ground.
    pub from_m: f64,
    /// Lower end, m below ground.
    pub to_m: f64,
}

/// A layer of the log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Layer {
    /// Upper end, m below ground.
    pub from_m: f64,
    /// Lower end, m below ground.
    pub to_m: f64,
    /// What the driller wrote.
    pub name: String,
}

/// How a well is built.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Construction {
    /// Casing and riser, the parts that the water rises through.
    #[serde(default)]
    pub sections: Vec<Section>,
    /// Screens and open hole.
    #[serde(default)]
    pub screens: Vec<Screen>,
    /// The layer log.
    #[serde(default)]
    pub layers: Vec<Layer>,
    /// Depth of the bottom, m below ground, where it was measured.
    #[serde(default)]
    pub depth_m: Option<f64>,
    /// Ground level above the programme's datum, m.
    #[serde(default)]
    pub ground_elevation_m: Option<f64>,
}

impl Construction {
    /// Is this a well that can stand? Every fault is named with its depths.
    ///
    /// # Errors
    /// [`Reason`]: an interval that ends above its start, a radius that is not positive, sections or layers that
    /// overlap, a screen or section below the bottom.
    pub fn check(&self) -> Result<(), Reason> {
        for (i, s) in self.sections.iter().enumerate() {
            let section = message::count(i + 1);
            above_nought(part::RadiusOfSection { section }, s.radius_m, "m")?;
            interval(part::Section { section, material: Name::from(&s.material) }, s.from_m, s.to_m)?;
        }
        for (i, s) in self.screens.iter().enumerate() {
            interval(part::Screen { screen: message::count(i + 1) }, s.from_m, s.to_m)?;
        }
        for l in &self.layers {
            interval(part::Layer { layer: Name::from(&l.name) }, l.from_m, l.to_m)?;
        }
        // Each kind by itself: a screen may lie beside casing, and a layer beside both.
        no_overlap(part::Sections, self.sections.iter().map(|s| (s.from_m, s.to_m, s.material.as_str())))?;
        no_overlap(part::Layers, self.layers.iter().map(|l| (l.from_m, l.to_m, l.name.as_str())))?;
        no_overlap(part::Screens, self.screens.iter().map(|s| (s.from_m, s.to_m, "screen")))?;
        let Some(bottom) = self.depth_m else {
            return Ok(());
        };
        above_nought(part::DepthOfWell, bottom, "m")?;
        let ends =
            (self.screens.iter().map(|s| ("screen", s.to_m))).chain(self.sections.iter().map(|s| ("section", s.to_m)));
        for (stretch, to_m) in ends {
            if to_m > bottom {
                return Err(Reason::unlike(
                    part::LowerEnd { stretch: stretch.into() },
                    part::BelowBottom { depth: Shown::as_given(to_m, "m") },
                    part::AtMost { most: Shown::as_given(bottom, "m") },
                ));
            }
        }
        Ok(())
    }

    /// Findings of the construction: a stretch that nobody described, no screen.
    pub fn findings(&self) -> Vec<Finding> {
        let mut out = vec![];
        let mut ends: Vec<(f64, f64)> = self.layers.iter().map(|l| (l.from_m, l.to_m)).collect();
        ends.sort_by(|a, b| a.0.total_cmp(&b.0));
        for w in ends.windows(2) {
            if w[1].0 > w[0].1 {
                out.push(Finding::new(
                    Check::WellLogGap,
                    Outcome::NotKnown,
                    said::LogGap { from: Shown::as_given(w[0].1, ""), to: Shown::as_given(w[1].0, "m") },
                ));
            }
        }
        if !self.sections.is_empty() && self.screens.is_empty() {
            out.push(Finding::new(Check::WellScreen, Outcome::NotKnown, said::NoScreen));
        }
        out
    }
}

fn positive(what: &str, x: f64, unit: &str) -> Result<(), Error> {
    if x > 0.0 && x.is_finite() {
        Ok(())
    } else {
        Err(Error::out_of_range(what, format!("{x} {unit}"), format!("more than 0 {unit}")))
    }
}

/// Ends of a stretch, for a message.
fn ends(from_m: f64, to_m: f64) -> (Shown, Shown) {
    (Shown::as_given(from_m, ""), Shown::as_given(to_m, "m"))
}

fn interval(what: impl Into<Message>, from_m: f64, to_m: f64) -> Result<(), Reason> {
    if from_m.is_finite() && to_m.is_finite() && to_m > from_m {
        return Ok(());
    }
    let (from, to) = ends(from_m, to_m);
    Err(Reason::unlike(what, part::Between { low: from, high: to }, part::LowerEndDeeper))
}

fn no_overlap<'a>(what: impl Into<Message>, items: impl Iterator<Item = (f64, f64, &'a str)>) -> Result<(), Reason> {
    let mut all: Vec<_> = items.collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Depths are written to the centimetre or millimetre at best.
    let Some(w) = all.windows(2).find(|w| w[1].0 < w[0].1 - 1e-6) else { return Ok(()) };
    let ((from, to), (next, end)) = (ends(w[0].0, w[0].1), ends(w[1].0, w[1].1));
    let (upper, lower) = (w[0].2.into(), w[1].2.into());
    Err(Reason::unlike(what, part::Overlap { upper, from, to, lower, next, end }, part::OneAfterTheOther))
}

/// One timed fill.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Fill {
    /// Volume to the mark, L.
    pub volume_l: f64,
    /// Time to the mark, s.
    pub seconds: f64,
}

/// Timed fills with what is known of container and watch.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Fills {
    /// The fills in time order.
    pub fills: Vec<Fill>,
    /// Standard uncertainty of the container's mark, L: common to all fills of that container.
    pub u_mark_l: Option<f64>,
    /// Standard uncertainty of one timing, s: used where there is a single fill; repeated fills
    /// show it in their scatter.
    pub u_seconds: Option<f64>,
}

/// A trend of the flow over the fills.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Drift {
    /// Change from first to last fill by the line through them, in percent of the mean.
    pub percent: f64,
    /// Two-sided p of the line's slope.
    pub p: f64,
}

/// Flow of a well.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Flow {
    /// L/min with u and degrees of freedom; stated without u after a single fill of unknown quality.
    pub amount: Amount,
    /// Number of fills.
    pub fills: usize,
    /// Standard deviation of a single fill, L/min; none for one fill.
    pub sd_l_min: Option<f64>,
    /// Trend over the fills; none under three fills.
    pub drift: Option<Drift>,
    /// From the fills to the flow, with budget.
    pub derivation: Derivation,
}

const GUM: &str = "JCGM 100:2008";

/// Flow from timed fills: mean of V/t.
///
/// u² = s²/n + Σ over containers ((n_c/n)·q_c·u_mark/V_c)², degrees of freedom by Welch–Satterthwaite
/// with n − 1 for the scatter and none lost for the mark. A single fill has u from mark and watch.
///
/// # Errors
/// [`Error::TooFew`] without fills, [`Error::OutOfRange`] for a volume, time or u that cannot be, alone or together.
///
/// ```
/// use aquifer::well::{Fill, Fills, flow};
/// use quantity::Amount;
/// // One fill, and nobody wrote down how well watch and mark were read: a flow without a made-up u.
/// let one = flow(&Fills { fills: vec![Fill { volume_l: 12.0, seconds: 20.0 }], ..Fills::default() })?;
/// assert!(matches!(&one.amount, Amount::Stated(q) if q.value == 36.0));
/// # Ok::<(), aquifer::Error>(())
/// ```
pub fn flow(input: &Fills) -> Result<Flow, Error> {
    if input.fills.is_empty() {
        return Err(Error::TooFew {
            what: "timed fills".into(),
            have: 0,
            need: 1,
            hint: "fill a container of known volume and note the seconds".into(),
        });
    }
    for (i, f) in input.fills.iter().enumerate() {
        positive(&format!("volume of fill {}", i + 1), f.volume_l, "L")?;
        positive(&format!("time of fill {}", i + 1), f.seconds, "s")?;
        // Two numbers of ordinary kind can have a quotient beyond all numbers.
        if !(f.volume_l / f.seconds * 60.0).is_normal() {
            let found = format!("{} L in {} s", f.volume_l, f.seconds);
            return Err(Error::out_of_range(format!("flow of fill {}", i + 1), found, "a flow that a number can hold"));
        }
    }
    for (what, u) in [("u of the mark", input.u_mark_l), ("u of the watch", input.u_seconds)] {
        if let Some(u) = u.filter(|u| !u.is_finite() || *u < 0.0) {
            return Err(Error::out_of_range(what, u, "at least 0"));
        }
    }
    let q: Vec<f64> = input.fills.iter().map(|f| f.volume_l / f.seconds * 60.0).collect();
    let n = q.len();
    let moments = Moments::of(&q).expect("one fill or more");
    let (mean, sd) = (moments.mean, moments.sd());
    let u_mark = input.u_mark_l.map(|u| mark_part(&input.fills, &q, u));
    let u_scatter =
        sd.map(|sd| sd / (n as f64).sqrt()).or_else(|| input.u_seconds.map(|u| q[0] * u / input.fills[0].seconds));
    let dof_scatter = if n > 1 { n as f64 - 1.0 } else { f64::INFINITY };
    let amount = combined(mean, u_scatter, u_mark, dof_scatter);
    // The mark's part too, where a single fill has no u in all.
    if [Some(mean), u_scatter, u_mark, amount.u()].iter().flatten().any(|x| !x.is_finite()) {
        let found = format!("{mean} L/min with a mark of u {} L", input.u_mark_l.unwrap_or_default());
        return Err(Error::out_of_range("flow", found, "a flow and a u that numbers can hold"));
    }
    Ok(Flow {
        derivation: derive_flow(input, &q, &amount, u_scatter, u_mark),
        amount,
        fills: n,
        sd_l_min: sd,
        drift: drift(&q, mean),
    })
}

/// The container's part: fills of one container share its error, containers are independent.
fn mark_part(fills: &[Fill], q: &[f64], u_mark_l: f64) -> f64 {
    let mut seen: Vec<f64> = vec![];
    let mut variance = 0.0;
    for f in fills {
        if seen.contains(&f.volume_l) {
            continue;
        }
        seen.push(f.volume_l);
        let part: f64 =
            (fills.iter().zip(q)).filter(|(g, _)| g.volume_l == f.volume_l).map(|(_, q)| q / fills.len() as f64).sum();
        variance += (part * u_mark_l / f.volume_l).powi(2);
    }
    variance.sqrt()
}

fn combined(mean: f64, u_scatter: Option<f64>, u_mark: Option<f64>, dof_scatter: f64) -> Amount {
    let unit = l_min();
    let (a, b) = (u_scatter.unwrap_or(0.0), u_mark.unwrap_or(0.0));
    // One fill without a word on the watch: u is not known, and is not made up.
    if u_scatter.is_none() || (a == 0.0 && b == 0.0) {
        return Amount::stated(mean, unit);
    }
    let dof = effective_dof(&[(a * a, dof_scatter), (b * b, f64::INFINITY)]).unwrap_or(f64::INFINITY);
    Amount::Measured(Measured::with_dof(mean, (a * a + b * b).sqrt(), dof, unit))
}

fn drift(q: &[f64], mean: f64) -> Option<Drift> {
    if q.len() < 3 {
        return None;
    }
    let x: Vec<f64> = (0..q.len()).map(|i| i as f64).collect();
    let l = line(&x, q)?;
    let p =
        if l.u_slope > 0.0 { t::two_sided_p(l.slope / l.u_slope, l.dof) } else { f64::from(u8::from(l.slope == 0.0)) };
    Some(Drift { percent: 100.0 * l.slope * (q.len() as f64 - 1.0) / mean, p })
}

fn l_min() -> Unit {
    Unit::known("L/min")
}

fn derive_flow(input: &Fills, q: &[f64], amount: &Amount, u_scatter: Option<f64>, u_mark: Option<f64>) -> Derivation {
    let mut d = Derivation::new(step::FlowMethod, &[GUM]);
    let mut rates = vec![];
    for (i, (f, q)) in input.fills.iter().zip(q).enumerate() {
        let volume = match input.u_mark_l {
            Some(u) => Amount::measured(f.volume_l, u, Unit::known("L")),
            None => Amount::stated(f.volume_l, Unit::known("L")),
        };
        let fill = || Name::from((i + 1).to_string());
        let seconds = Amount::stated(f.seconds, Unit::known("s"));
        let v = d.given(step::FillVolume { fill: fill() }, volume, step::FieldRecord);
        let t = d.given(step::FillTime { fill: fill() }, seconds, step::FieldRecord);
        let name = step::FillFlow { fill: fill() };
        rates.push(d.step(name, Amount::stated(*q, l_min()), step::FillFlowFormula, "", &[v, t]));
    }
    d.step(word::Flow, amount.clone(), step::FillsMean, "JCGM 100:2008, 4.2, 5.1, G.4", &rates);
    let total: f64 = [u_scatter, u_mark].iter().flatten().map(|u| u * u).sum();
    let parts: [(Message, _); 2] = [(step::PartTiming.into(), u_scatter), (step::PartContainer.into(), u_mark)];
    for (name, u) in parts {
        if let Some(u) = u.filter(|_| total > 0.0) {
            d.budget.push(Contribution::new(name, u, u * u / total));
        }
    }
    d
}

/// One section as the water meets it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SectionContact {
    /// What the pipe is made of.
    pub material: String,
    /// Length, m.
    pub length_m: f64,
    /// Inner radius, m.
    pub radius_m: f64,
    /// Water held, m³.
    pub volume_m3: f64,
    /// Wall met by the water, m².
    pub wall_m2: f64,
    /// Wall over volume, 1/m: 2/r. A metal that leaves the wall at J per area and time adds J·(2/r)·t.
    pub wall_per_volume_m: f64,
    /// Contact time, min, with the u of the flow.
    pub contact: Amount,
}

/// Contact of the water with the well.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Contact {
    /// One entry a section, from the top down.
    pub sections: Vec<SectionContact>,
    /// Contact time by material, min, in the order they are met from the top.
    pub by_material: Vec<(String, Amount)>,
    /// Water held in all, m³.
    pub volume_m3: f64,
    /// Contact time in all, min.
    pub total: Amount,
}

/// Volume and contact time of each section and material at a flow (L/min).
///
/// # Errors
/// What [`Construction::check`] refuses; [`Error::TooFew`] without sections; [`Error::OutOfRange`] for a
/// flow that is not positive.
pub fn contact(well: &Construction, flow: &Amount) -> Result<Contact, Error> {
    well.check()?;
    let flow = flow.convert(&l_min(), None, None)?;
    let q = flow.value().unwrap_or(f64::NAN);
    positive("flow", q, "L/min")?;
    if well.sections.is_empty() {
        return Err(Error::TooFew {
            what: "sections of the well".into(),
            have: 0,
            need: 1,
            hint: "give depth, inner radius and material of the casing".into(),
        });
    }
    let mut ordered: Vec<&Section> = well.sections.iter().collect();
    ordered.sort_by(|a, b| a.from_m.total_cmp(&b.from_m));
    let minutes = |volume_m3: f64| time_amount(volume_m3 * 1000.0 / q, &flow, q);
    let sections: Vec<SectionContact> = ordered
        .iter()
        .map(|s| {
            let length_m = s.to_m - s.from_m;
            let volume_m3 = volume_m3(s);
            SectionContact {
                material: s.material.clone(),
                length_m,
                radius_m: s.radius_m,
                volume_m3,
                wall_m2: 2.0 * std::f64::consts::PI * s.radius_m * length_m,
                wall_per_volume_m: 2.0 / s.radius_m,
                contact: minutes(volume_m3),
            }
        })
        .collect();
    // By material too: a metal leaves one kind of wall, wherever in the well its sections stand.
    let mut materials: Vec<(String, f64)> = vec![];
    for s in &sections {
        match materials.iter_mut().find(|(m, _)| *m == s.material) {
            Some((_, v)) => *v += s.volume_m3,
            None => materials.push((s.material.clone(), s.volume_m3)),
        }
    }
    let volume_m3 = sections.iter().map(|s| s.volume_m3).sum();
    Ok(Contact {
        by_material: materials.into_iter().map(|(m, v)| (m, minutes(v))).collect(),
        total: minutes(volume_m3),
        volume_m3,
        sections,
    })
}

/// Water held in a section, m³.
pub fn volume_m3(s: &Section) -> f64 {
    std::f64::consts::PI * s.radius_m * s.radius_m * (s.to_m - s.from_m)
}

/// A time that scales as 1/flow carries the flow's relative u.
fn time_amount(minutes: f64, flow: &Amount, q: f64) -> Amount {
    let unit = Unit::known("min");
    match flow {
        Amount::Measured(m) => Amount::Measured(Measured::with_dof(minutes, minutes * m.u / q, m.dof, unit)),
        _ => Amount::stated(minutes, unit),
    }
}

/// A pressure reading at a shut well.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gauge {
    /// Gauge pressure, Pa above the air.
    pub pressure_pa: f64,
    /// Its standard uncertainty, Pa, where known.
    pub u_pressure_pa: Option<f64>,
    /// Height of the gauge above ground, m; negative below ground.
    pub height_m: f64,
    /// Its standard uncertainty, m, where known.
    pub u_height_m: Option<f64>,
    /// Temperature of the water, °C.
    pub temperature_c: f64,
}

/// The level to which the water of a shut well would rise.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Head {
    /// Metres above ground; stated without u where u of the pressure is not known. A height without u counts as exact
    /// beside it.
    pub above_ground: Amount,
    /// Metres above the datum, where the ground's elevation is known.
    pub elevation: Option<Amount>,
    /// From pressure to head.
    pub derivation: Derivation,
}

/// Head from gauge pressure: h = z + p/(ρ·g).
///
/// # Errors
/// [`Reason`]: a negative pressure (the water stands below the gauge: measure the depth to water instead) or a
/// temperature outside 0 to 40 °C.
pub fn head(gauge: &Gauge, ground_elevation_m: Option<f64>) -> Result<Head, Reason> {
    let p = gauge.pressure_pa;
    if p.is_nan() || p < 0.0 || p.is_infinite() {
        let found = Shown::as_given(p, "Pa");
        return Err(Reason::out_of_range(part::GaugePressure, found, part::GaugePressureAllowed));
    }
    if !gauge.height_m.is_finite() {
        let found = Shown::as_given(gauge.height_m, "");
        return Err(Reason::out_of_range(part::GaugeHeight, found, part::GaugeHeightAllowed));
    }
    let rho = density_kg_m3(gauge.temperature_c)?;
    // The density counts as exact: from 0 to 20 °C it moves by 0.2 %.
    let per_pa = 1.0 / (rho * STANDARD_GRAVITY);
    let h = gauge.height_m + p * per_pa;
    let m = Unit::known("m");
    // The pressure carries the head: while its u is not known, that of the height alone would say it is exact.
    let known = gauge.u_pressure_pa.is_some();
    let parts: [(Message, f64); 2] = [
        (step::GaugePressure.into(), gauge.u_pressure_pa.unwrap_or(0.0) * per_pa),
        (step::PartGaugeHeight.into(), gauge.u_height_m.unwrap_or(0.0)),
    ];
    let u2: f64 = parts.iter().map(|(_, u)| u * u).sum();
    let amount = |v: f64| {
        if known { Amount::measured(v, u2.sqrt(), m.clone()) } else { Amount::stated(v, m.clone()) }
    };
    let mut d = Derivation::new(step::HeadMethod, &["Bernoulli's equation without motion"]);
    let stated = |v: f64, u: Option<f64>, unit: &str| match u {
        Some(u) => Amount::measured(v, u, Unit::known(unit)),
        None => Amount::stated(v, Unit::known(unit)),
    };
    let a = d.given(step::GaugePressure, stated(p, gauge.u_pressure_pa, "Pa"), step::FieldRecord);
    let height = stated(gauge.height_m, gauge.u_height_m, "m");
    let b = d.given(step::GaugeHeightAboveGround, height, step::FieldRecord);
    let c = d.step(
        step::Density,
        Amount::stated(rho, Unit::known("kg/m3")),
        step::AtTemperature { temperature: Shown::as_given(gauge.temperature_c, "°C") },
        "Tanaka et al. 2001, Metrologia 38:301",
        &[],
    );
    d.step(step::Head, amount(h), step::HeadFormula, "", &[a, b, c]);
    if known && u2 > 0.0 {
        d.budget = parts.into_iter().map(|(name, u)| Contribution::new(name, u, u * u / u2)).collect();
    }
    Ok(Head { above_ground: amount(h), elevation: ground_elevation_m.map(|g| amount(g + h)), derivation: d })
}

/// What a programme asks of a flowing well.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Criteria {
    /// Longest contact time with the pipe, min.
    pub longest_contact_min: f64,
    /// Largest u of the flow as a share of it.
    pub largest_relative_u: f64,
}

/// Longest contact of the water with the pipe where a programme sets no other, min.
// The programme's own choice, as in `reference/default_checks.csv`; a test of `assessment` holds the two together.
pub const LONGEST_CONTACT_MIN: f64 = 120.0;

impl Default for Criteria {
    /// Two hours in the pipe, and 10 % on the flow: starting points, for the programme to change.
    fn default() -> Self {
        Self { longest_contact_min: LONGEST_CONTACT_MIN, largest_relative_u: 0.10 }
    }
}

impl Flow {
    /// Is the flow known well enough, and steady?
    pub fn findings(&self, criteria: &Criteria) -> Vec<Finding> {
        let flow = self.amount.with_u();
        let share = |x| Share::new(x, Digits::Significant(2));
        let (outcome, says): (_, Message) = match &self.amount {
            Amount::Measured(m) if m.relative_u() <= criteria.largest_relative_u => {
                (Outcome::Met, said::Flow { flow, fills: message::count(self.fills) }.into())
            }
            Amount::Measured(m) => {
                let (known, asked) = (share(m.relative_u()), share(criteria.largest_relative_u));
                (Outcome::NotMet, said::FlowLoose { flow, known, asked }.into())
            }
            _ => (Outcome::NotKnown, said::FlowOneFill { flow }.into()),
        };
        let mut out =
            vec![Finding::new(Check::WellFlow, outcome, says).comparing(message::compared::Flow, self.amount.clone())];
        if let Some(d) = self.drift {
            // A line at the 5 % level counts as drift: common practice.
            let steady = d.p >= 0.05;
            let change = Shown::significant(d.percent.abs(), 2, "%");
            let p = quantity::format::p_value(d.p);
            let (outcome, says): (_, Message) = if steady {
                (Outcome::Met, said::FlowSteady { p }.into())
            } else if d.percent < 0.0 {
                (Outcome::NotMet, said::FlowFell { change, p }.into())
            } else {
                (Outcome::NotMet, said::FlowRose { change, p }.into())
            };
            out.push(Finding::new(Check::WellFlowSteady, outcome, says));
        }
        out
    }
}

/// A material that every language has a word for goes by its key in the catalogues, what else a person wrote as it is.
fn material(written: &str) -> Name {
    match written {
        "galvanised steel" | "stainless steel" => written.replace(' ', "-").into(),
        other => other.into(),
    }
}

impl Contact {
    /// Is the contact time short enough?
    pub fn finding(&self, criteria: &Criteria) -> Finding {
        let minutes = self.total.value().unwrap_or(f64::NAN);
        let contact = self
            .by_material
            .iter()
            .map(|(m, t)| Message::from(said::ContactIn { time: t.with_u(), material: material(m) }))
            .reduce(|before, next| said::ContactNext { before, next }.into())
            .unwrap_or_else(|| self.total.with_u());
        let longest = Shown::significant(criteria.longest_contact_min, 3, "min");
        let (outcome, says): (_, Message) = if minutes <= criteria.longest_contact_min {
            (Outcome::Met, said::ContactShort { contact, longest }.into())
        } else {
            (Outcome::NotMet, said::ContactLong { contact, longest }.into())
        };
        Finding::new(Check::WellContactTime, outcome, says)
            .comparing(message::compared::ContactTime, self.total.clone())
            .comparing(
                message::compared::LongestAskedFor,
                Amount::stated(criteria.longest_contact_min, Unit::known("min")),
            )
    }
}
