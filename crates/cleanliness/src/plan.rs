//! What to take on the next trip, so that the question can be decided.
//!
//! In: the question (detect a level; decide under a limit; show that A is lower than B; see a change of x % a year;
//! reach a detection limit), what past blanks say of the variances, prices, and the choices open (numbers of
//! bottles and blanks, fill volume, minutes open, spikes). Out: the designs that nothing else beats in price
//! and chance, cheapest first, each with its critical value, detection limit, relative u, chance to decide,
//! bottles, and what it buys. A design that lacks what a decisive check asks for is not among them ([`crate::needs`]).
//!
//! Model: a bottle holds V·c + b + e; b = b_0 + θ·minutes; e normal, variance σ_i² + σ_b² + (φ·b)² for a blank and
//! (s_r·V·c)² more for a sample. Net of n_b field blanks: var = (v_s/n_s + v_b/n_b)/V². Critical value and
//! detection limit as Currie 1968 with Student's t and the non-central t; the chance is the mean over the
//! estimated standard deviation of the normal probability to pass the test. Trip and bottle blanks add degrees of
//! freedom to that deviation (and tell where metal comes from, which has no number here). Spikes bound the
//! recovery. One-sided 5 % tests, a trend two-sided 5 %.
//!
//! Spikes of contamination are not in the chance: it is that of clean work. Checked by simulation (to ±2 %) and
//! against brute force in `tests/validation_plan.rs`.

use crate::Error;
use crate::needs::{self, Need};
use crate::random::{normal, stream};
use crate::stats::mean_over_spread;
use message::join::Comma;
use message::{Arg, Digits, Message, Sentence, Share, Shown, plan as said};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use statistics::welch::effective_dof;
use statistics::{noncentral, normal, t};

/// Panels of the mean over the estimated deviation: six digits of a chance.
const PANELS: u32 = 4;

/// Risk of each test.
const ALPHA: f64 = 0.05;

/// What is asked. Concentrations in ng/L.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Question {
    /// Will a water of this level be detected?
    Detect {
        /// ng/L.
        level: f64,
    },
    /// Will a water of this level be shown to lie under (or over) the limit?
    Limit {
        /// ng/L expected.
        level: f64,
        /// ng/L.
        limit: f64,
    },
    /// Will A be shown to be lower than B?
    Lower {
        /// ng/L of the lower one.
        a: f64,
        /// ng/L of the higher one.
        b: f64,
    },
    /// Will a change be seen?
    Trend {
        /// ng/L at the start.
        level: f64,
        /// Percent of the level a year.
        percent_per_year: f64,
        /// Years.
        years: f64,
        /// Visits a year.
        visits_per_year: f64,
        /// Scatter of the water itself from visit to visit, share of the level.
        natural_share: f64,
    },
    /// Is a detection limit reached?
    DetectionLimit {
        /// ng/L.
        target: f64,
        /// ng/L expected, for the relative u.
        level: f64,
    },
}

/// What the past says.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Past {
    /// Blank without open minutes, pg per bottle.
    pub blank_pg: f64,
    /// pg a minute open.
    pub pg_per_minute: f64,
    /// Standard deviation between blanks, even part, pg.
    pub between_pg: f64,
    /// The same as a share of the blank.
    pub between_share: f64,
    /// Standard deviation of the laboratory for one bottle, pg.
    pub laboratory_pg: f64,
    /// Relative standard deviation of one sample bottle.
    pub relative_sd: f64,
    /// Degrees of freedom behind the deviation between blanks.
    pub dof: f64,
    /// Relative standard deviation of one spike recovery.
    pub spike_sd: f64,
    /// Relative u of the recovery without any spike on this trip.
    pub recovery_u: f64,
}

/// Prices in the person's own money.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Prices {
    /// One bottle washed, filled, analysed: sample or blank.
    pub bottle: f64,
    /// One spiked bottle.
    pub spike: f64,
    /// Keeping the air clean costs time: a price for each minute that a bottle is open less than the longest choice.
    pub minute_saved: f64,
    /// Per litre of water carried.
    pub litre: f64,
    /// The trip itself.
    pub trip: f64,
    /// One vial of the laboratory: reference material, drift check, second source.
    pub vial: f64,
}

/// Vials that the laboratory measures beside the bottles. They change no chance; checks ask for them.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Laboratory {
    /// Of a reference material.
    pub reference_materials: u32,
    /// Of the drift check.
    pub drift_checks: u32,
    /// Of a standard of a second source.
    pub second_sources: u32,
}

impl Laboratory {
    /// All of them.
    pub fn vials(&self) -> u32 {
        self.reference_materials + self.drift_checks + self.second_sources
    }
}

/// The choices open: every combination is a design.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Choices {
    /// Sample bottles a well.
    pub samples: Vec<u32>,
    /// Field blanks.
    pub field_blanks: Vec<u32>,
    /// Trip blanks.
    pub trip_blanks: Vec<u32>,
    /// Bottle blanks that stay at home.
    pub bottle_blanks: Vec<u32>,
    /// Spiked bottles.
    pub spikes: Vec<u32>,
    /// Fill volume, mL.
    pub volume_ml: Vec<f64>,
    /// Minutes open.
    pub minutes: Vec<f64>,
    /// Vials of the run, the same for every design; more where a check asks for more.
    pub laboratory: Laboratory,
}

impl Default for Choices {
    fn default() -> Self {
        Self {
            samples: vec![1, 2, 3, 4],
            field_blanks: vec![2, 3, 4, 5, 6, 8, 10],
            trip_blanks: vec![1, 2, 3],
            bottle_blanks: vec![1, 2, 4],
            spikes: vec![0, 1, 2, 3],
            volume_ml: vec![125.0, 250.0, 500.0],
            minutes: vec![1.0, 2.0, 5.0],
            laboratory: Laboratory::default(),
        }
    }
}

/// One design.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Design {
    /// Sample bottles a well.
    pub samples: u32,
    /// Field blanks.
    pub field_blanks: u32,
    /// Trip blanks.
    pub trip_blanks: u32,
    /// Bottle blanks.
    pub bottle_blanks: u32,
    /// Spiked bottles, of all wells together.
    pub spikes: u32,
    /// Fill volume, mL.
    pub volume_ml: f64,
    /// Minutes open.
    pub minutes: f64,
    /// Vials of the run.
    #[serde(flatten)]
    pub laboratory: Laboratory,
}

impl Design {
    /// Spiked bottles of one of the wells: as even as they go, the first wells first.
    pub fn spikes_at(&self, well: usize, wells: usize) -> u32 {
        let wells = u32::try_from(wells.max(1)).unwrap_or(u32::MAX);
        let more = u32::try_from(well).is_ok_and(|w| w < self.spikes % wells);
        self.spikes / wells + u32::from(more)
    }
}

/// What a design gives.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ranked {
    /// The design.
    #[serde(flatten)]
    pub design: Design,
    /// Bottles in all.
    pub bottles: u32,
    /// Price.
    pub price: f64,
    /// Critical value, ng/L.
    pub critical_value: f64,
    /// Detection limit, ng/L.
    pub detection_limit: f64,
    /// u at the expected level, as a share of it, recovery included.
    pub relative_u: f64,
    /// Chance to decide.
    pub power: f64,
    /// What it buys beyond the one before.
    pub buys: Sentence,
}

/// Everything a ranking needs.
#[derive(Debug, Clone, PartialEq)]
pub struct Planning {
    /// The question.
    pub question: Question,
    /// The past.
    pub past: Past,
    /// Prices.
    pub prices: Prices,
    /// Choices.
    pub choices: Choices,
    /// Wells visited with the same blanks.
    pub wells: u32,
    /// What every design must contain.
    pub needs: Vec<Need>,
}

/// Most combinations ranked.
pub const MOST_DESIGNS: usize = 5_000_000;

/// Most visits of a trend.
const MOST_VISITS: f64 = 1e6;

/// Most bottles of one kind, at a well or of a trip: with [`crate::asked::MOST_WELLS`] wells they are counted in 32 bits.
pub const MOST_BOTTLES: u32 = 10_000;

/// The designs that nothing beats, cheapest first.
///
/// # Errors
/// [`Error::OutOfRange`] for a number that cannot be or too many combinations; [`Error::TooFew`] for an empty
/// choice, or a choice of fewer than one sample or two field blanks.
pub fn rank(p: &Planning) -> Result<Vec<Ranked>, Error> {
    check(p)?;
    let designs = combinations(&needs::raised(&p.choices, &p.needs, p.wells));
    let longest = p.choices.minutes.iter().copied().fold(0.0, f64::max);
    let mut all: Vec<(f64, f64, usize)> = designs
        .par_iter()
        .enumerate()
        .map(|(i, d)| (price(p, d, longest), chance(&p.question, &p.past, d), i))
        .collect();
    // Cheapest first, of one price the best chance, of equals the first listed.
    all.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.total_cmp(&a.1)).then(a.2.cmp(&b.2)));
    let mut best = f64::NEG_INFINITY;
    let mut out: Vec<Ranked> = vec![];
    for (cost, power, i) in all {
        // A gain under a thousandth is none.
        if power > best + 1e-3 || out.is_empty() {
            best = power;
            let ranked = describe(p, designs[i], cost, power, out.last());
            out.push(ranked);
        }
    }
    Ok(out)
}

fn check(p: &Planning) -> Result<(), Error> {
    let c = &p.choices;
    let product = [
        c.samples.len(),
        c.field_blanks.len(),
        c.trip_blanks.len(),
        c.bottle_blanks.len(),
        c.spikes.len(),
        c.volume_ml.len(),
        c.minutes.len(),
    ];
    if product.contains(&0) {
        return Err(Error::TooFew {
            what: "choices of one kind".into(),
            have: 0,
            need: 1,
            hint: "give at least one number for each: samples, blanks, spikes, volume, minutes".into(),
        });
    }
    let count = product.iter().try_fold(1usize, |a, b| a.checked_mul(*b)).unwrap_or(usize::MAX);
    if count > MOST_DESIGNS {
        return Err(Error::out_of_range("combinations", count, format!("at most {MOST_DESIGNS}")));
    }
    if c.samples.iter().any(|n| *n < 1) || c.field_blanks.iter().any(|n| *n < 2) {
        return Err(Error::TooFew {
            what: "sample bottles or field blanks".into(),
            have: 1,
            need: 2,
            hint: "one sample and two field blanks at least: one blank shows no scatter".into(),
        });
    }
    let l = c.laboratory;
    let vials = [l.reference_materials, l.drift_checks, l.second_sources];
    for counts in [&c.samples, &c.field_blanks, &c.trip_blanks, &c.bottle_blanks, &c.spikes, &vials.to_vec()] {
        if let Some(n) = counts.iter().find(|n| **n > MOST_BOTTLES) {
            return Err(Error::out_of_range("bottles of one kind", n, format!("at most {MOST_BOTTLES}")));
        }
    }
    if p.wells as usize > crate::asked::MOST_WELLS {
        return Err(Error::out_of_range("wells", p.wells, format!("at most {}", crate::asked::MOST_WELLS)));
    }
    let past = &p.past;
    let not_negative = [
        ("blank, pg", past.blank_pg),
        ("pg a minute", past.pg_per_minute),
        ("deviation between blanks, pg", past.between_pg),
        ("deviation between blanks, share", past.between_share),
        ("deviation of the laboratory, pg", past.laboratory_pg),
        ("relative deviation", past.relative_sd),
        ("degrees of freedom of the past", past.dof),
        ("deviation of a spike", past.spike_sd),
        ("u of the recovery", past.recovery_u),
        ("price of a bottle", p.prices.bottle),
        ("price of a spike", p.prices.spike),
        ("price of a minute saved", p.prices.minute_saved),
        ("price of a litre", p.prices.litre),
        ("price of the trip", p.prices.trip),
        ("price of a vial", p.prices.vial),
    ];
    // Each by itself: what is no number hides in a smallest value.
    if let Some(v) = c.volume_ml.iter().find(|v| !(**v > 0.0 && v.is_finite())) {
        return Err(Error::out_of_range("fill volume, mL", v, "more than 0"));
    }
    let minutes = c.minutes.iter().map(|v| ("minutes open", *v));
    for (what, v) in minutes.chain(not_negative) {
        if !(v >= 0.0 && v.is_finite()) {
            return Err(Error::out_of_range(what, v, "0 or more"));
        }
    }
    // A share of the blank vanishes with the blank: one fixed deviation must be left for a test to divide by.
    if past.between_pg + past.laboratory_pg <= 0.0 {
        return Err(Error::out_of_range("deviation between blanks and of the laboratory", "0 and 0", "one above 0"));
    }
    check_question(&p.question)
}

fn check_question(q: &Question) -> Result<(), Error> {
    // What is no number is neither above nor under anything: each is asked for what it must be.
    let above = |x: f64| x > 0.0 && x.is_finite();
    let not_below = |x: f64| x >= 0.0 && x.is_finite();
    let fault = match *q {
        Question::Detect { level } if !above(level) => Some(("level", level, "more than 0 ng/L")),
        Question::Limit { level, limit } if !(not_below(level) && above(limit) && level != limit) => {
            Some(("level and limit", level, "a level of 0 or more and a limit above 0 that differ"))
        }
        Question::Lower { a, b } if !(not_below(a) && above(b) && b > a) => {
            Some(("a and b", a, "a of 0 or more, b higher than a"))
        }
        Question::Trend { level, percent_per_year, years, visits_per_year, natural_share }
            if !(above(level)
                && above(percent_per_year.abs())
                && above(years)
                && above(visits_per_year)
                && years * visits_per_year >= 3.0
                && years * visits_per_year <= MOST_VISITS
                && not_below(natural_share)) =>
        {
            Some(("trend", years * visits_per_year, "a level above 0, a change other than 0, four visits to a million"))
        }
        Question::DetectionLimit { target, level } if !(above(target) && not_below(level)) => {
            Some(("target", target, "more than 0 ng/L"))
        }
        _ => None,
    };
    match fault {
        Some((what, found, expected)) => Err(Error::out_of_range(format!("{what} of the question"), found, expected)),
        None => Ok(()),
    }
}

fn combinations(c: &Choices) -> Vec<Design> {
    let mut out = vec![];
    for &samples in &c.samples {
        for &field_blanks in &c.field_blanks {
            for &trip_blanks in &c.trip_blanks {
                for &bottle_blanks in &c.bottle_blanks {
                    for &spikes in &c.spikes {
                        for &volume_ml in &c.volume_ml {
                            for &minutes in &c.minutes {
                                out.push(Design {
                                    samples,
                                    field_blanks,
                                    trip_blanks,
                                    bottle_blanks,
                                    spikes,
                                    volume_ml,
                                    minutes,
                                    laboratory: c.laboratory,
                                });
                            }
                        }
                    }
                }
            }
        }
    }
    out
}

fn price(p: &Planning, d: &Design, longest: f64) -> f64 {
    let bottles = f64::from(bottles(p.wells, d) - d.spikes);
    let opened = f64::from(p.wells * d.samples + d.field_blanks);
    p.prices.trip
        + bottles * p.prices.bottle
        + f64::from(d.spikes) * p.prices.spike
        + f64::from(d.laboratory.vials()) * p.prices.vial
        + bottles * d.volume_ml * 1e-3 * p.prices.litre
        + opened * (longest - d.minutes) * p.prices.minute_saved
}

fn bottles(wells: u32, d: &Design) -> u32 {
    wells * d.samples + d.field_blanks + d.trip_blanks + d.bottle_blanks + d.spikes
}

/// Variances of one design, in (ng/L)².
struct Variances {
    /// Of one blank bottle, over V².
    blank: f64,
    n_s: f64,
    n_b: f64,
    /// Degrees of freedom of the blank's deviation.
    dof: f64,
    relative: f64,
}

impl Variances {
    fn new(past: &Past, d: &Design) -> Self {
        let b = past.blank_pg + past.pg_per_minute * d.minutes;
        // pg over mL is ng/L.
        let blank = (past.laboratory_pg.powi(2) + past.between_pg.powi(2) + (past.between_share * b).powi(2))
            / d.volume_ml.powi(2);
        let extra = d.trip_blanks.saturating_sub(1) + d.bottle_blanks.saturating_sub(1);
        Self {
            blank,
            n_s: f64::from(d.samples),
            n_b: f64::from(d.field_blanks),
            dof: f64::from(d.field_blanks - 1 + extra) + past.dof,
            relative: past.relative_sd,
        }
    }

    /// Variance of the net value that scales with the blank's deviation.
    fn estimated(&self) -> f64 {
        self.blank * (1.0 / self.n_s + 1.0 / self.n_b)
    }

    /// Variance that comes with the level and is known from the past.
    fn known(&self, level: f64) -> f64 {
        (self.relative * level).powi(2) / self.n_s
    }

    fn critical_value(&self) -> f64 {
        t::quantile(1.0 - ALPHA, self.dof) * self.estimated().sqrt()
    }

    /// Level detected with probability 1 − β = 95 %.
    fn detection_limit(&self) -> f64 {
        noncentral::detection_delta(ALPHA, ALPHA, self.dof) * self.estimated().sqrt()
    }
}

/// Relative variance of the recovery.
fn recovery_variance(past: &Past, d: &Design) -> f64 {
    if d.spikes == 0 {
        return past.recovery_u.powi(2);
    }
    let own = past.spike_sd.powi(2) / f64::from(d.spikes);
    let prior = past.recovery_u.powi(2);
    // Prior knowledge and this trip's spikes together.
    if prior > 0.0 && own > 0.0 { 1.0 / (1.0 / own + 1.0 / prior) } else { own.min(prior) }
}

/// Chance that a design decides the question.
pub fn chance(question: &Question, past: &Past, d: &Design) -> f64 {
    let v = Variances::new(past, d);
    let r2 = recovery_variance(past, d);
    match *question {
        Question::Detect { level } => {
            let t = t95(v.dof);
            let (a, se) = (v.estimated(), (v.estimated() + v.known(level)).sqrt());
            mean_over_spread(v.dof, PANELS, |s| normal::cdf((level - t * s * a.sqrt()) / se))
        }
        Question::Limit { level, limit } => {
            let known = v.known(level) + r2 * level * level;
            tested((limit - level).abs(), v.estimated(), known, v.dof)
        }
        // The blanks cancel in a difference; the recovery scales both.
        Question::Lower { a, b } => {
            let known = v.known(a) + v.known(b) + r2 * (b - a).powi(2);
            tested(b - a, 2.0 * v.blank / v.n_s, known, v.dof)
        }
        Question::Trend { level, percent_per_year, years, visits_per_year, natural_share } => {
            let n = (years * visits_per_year).floor() + 1.0;
            let step = 1.0 / visits_per_year;
            // Σ(t − mean)² of n evenly spaced visits.
            let stt = step * step * n * (n * n - 1.0) / 12.0;
            let one = v.estimated() + v.known(level) + (natural_share * level).powi(2);
            let delta = (percent_per_year.abs() / 100.0 * level) / (one / stt).sqrt();
            let t = t::quantile(1.0 - 0.5 * ALPHA, n - 2.0);
            noncentral::sf(t, n - 2.0, delta) + noncentral::cdf(-t, n - 2.0, delta)
        }
        Question::DetectionLimit { target, .. } => f64::from(u8::from(v.detection_limit() <= target)),
    }
}

/// Chance that a one-sided test sees a distance: estimated variance a (with `dof`), known variance b.
fn tested(distance: f64, a: f64, b: f64, dof: f64) -> f64 {
    let se = (a + b).sqrt();
    mean_over_spread(dof, PANELS, |s| {
        let spread = a * s * s + b;
        let effective = effective_dof(&[(a * s * s, dof), (b, f64::INFINITY)]).unwrap_or(dof).min(1e7);
        normal::cdf((distance - t95(effective) * spread.sqrt()) / se)
    })
}

/// Student's 95 % quantile without the cost of an inverse: its expansion about the normal law from three
/// degrees of freedom on (error under 0.01 there, 1e-4 at six), exact below.
fn t95(dof: f64) -> f64 {
    if dof < 3.0 {
        return t::quantile(1.0 - ALPHA, dof);
    }
    // Abramowitz & Stegun 1964, 26.7.5, four terms.
    let z = normal::ONE_SIDED_95;
    let z2 = z * z;
    let g1 = (z2 + 1.0) * z / 4.0;
    let g2 = ((5.0 * z2 + 16.0) * z2 + 3.0) * z / 96.0;
    let g3 = (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) * z / 384.0;
    let g4 = ((((79.0 * z2 + 776.0) * z2 + 1482.0) * z2 - 1920.0) * z2 - 945.0) * z / 92160.0;
    z + (g1 + (g2 + (g3 + g4 / dof) / dof) / dof) / dof
}

fn describe(p: &Planning, design: Design, price: f64, power: f64, before: Option<&Ranked>) -> Ranked {
    let d = &design;
    let v = Variances::new(&p.past, d);
    let level = match p.question {
        Question::Detect { level }
        | Question::Limit { level, .. }
        | Question::Trend { level, .. }
        | Question::DetectionLimit { level, .. } => level,
        Question::Lower { b, .. } => b,
    };
    let u2 = v.estimated() + v.known(level) + recovery_variance(&p.past, d) * level * level;
    let detection_limit = v.detection_limit();
    // No chance is certain.
    let shown = |power: f64| Share::new(power.clamp(0.0, 0.999), Digits::Significant(3));
    let chance = shown(power);
    let limit = Shown::significant(detection_limit, 2, "ng/L");
    Ranked {
        design,
        bottles: bottles(p.wells, d),
        price,
        critical_value: v.critical_value(),
        detection_limit,
        relative_u: u2.sqrt() / level,
        power,
        buys: match before {
            None if p.needs.iter().any(|n| n.decides) => said::CheapestAccepted { chance, limit }.into(),
            None => said::Cheapest { chance, limit }.into(),
            Some(b) => {
                let more = Shown::significant(price - b.price, 3, "");
                said::More { price: more, changes: changes(&b.design, d), chance, before: shown(b.power), limit }.into()
            }
        },
    }
}

/// How many now, how many before, and what so many of them are called.
type Counted = (u32, u32, fn(u32) -> Message);

/// What a design changes in the one before it, in price and so in something.
fn changes(before: &Design, now: &Design) -> Message {
    let counts: [Counted; 5] = [
        (now.samples, before.samples, sample_bottles),
        (now.field_blanks, before.field_blanks, field_blanks),
        (now.trip_blanks, before.trip_blanks, trip_blanks),
        (now.bottle_blanks, before.bottle_blanks, bottle_blanks),
        (now.spikes, before.spikes, spikes),
    ];
    let differ = counts.into_iter().filter(|(now, before, _)| now != before);
    let mut all: Vec<Message> = differ
        .map(|(now, before, of)| {
            let bottles = of(now.abs_diff(before));
            if now > before { said::BottlesMore { bottles }.into() } else { said::BottlesLess { bottles }.into() }
        })
        .collect();
    if now.volume_ml != before.volume_ml {
        let (now, before) = (Shown::as_given(now.volume_ml, "mL"), Shown::as_given(before.volume_ml, ""));
        all.push(said::Volume { now, before }.into());
    }
    if now.minutes != before.minutes {
        let (now, before) = (Shown::as_given(now.minutes, "min"), Shown::as_given(before.minutes, ""));
        all.push(said::Open { now, before }.into());
    }
    let joined = all.into_iter().rev().reduce(|more, one| Comma { one, more }.into());
    joined.expect("one design decides more often than the other")
}

pub(crate) fn sample_bottles(n: u32) -> Message {
    said::SampleBottles { n: i64::from(n) }.into()
}

pub(crate) fn field_blanks(n: u32) -> Message {
    said::FieldBlanks { n: i64::from(n) }.into()
}

fn trip_blanks(n: u32) -> Message {
    said::TripBlanks { n: i64::from(n) }.into()
}

/// Says how many.
type Say = fn(u32) -> Message;

pub(crate) fn bottle_blanks(n: u32) -> Message {
    said::BottleBlanks { n: i64::from(n) }.into()
}

fn spikes(n: u32) -> Message {
    said::Spikes { n: i64::from(n) }.into()
}

pub(crate) fn reference_materials(n: u32) -> Message {
    said::ReferenceMaterials { n: i64::from(n) }.into()
}

pub(crate) fn drift_checks(n: u32) -> Message {
    said::DriftChecks { n: i64::from(n) }.into()
}

pub(crate) fn second_sources(n: u32) -> Message {
    said::SecondSources { n: i64::from(n) }.into()
}

/// What to pack for a design, line by line.
pub fn packing_list(d: &Design, wells: &[String]) -> Vec<Sentence> {
    let volume = || Shown::as_given(d.volume_ml, "mL");
    let mut out: Vec<Sentence> = vec![];
    for well in wells {
        let minutes = Shown::as_given(d.minutes, "min");
        let bottles = sample_bottles(d.samples);
        out.push(said::PackSamples { well: well.into(), bottles, volume: volume(), minutes }.into());
    }
    if d.field_blanks > 0 {
        out.push(said::PackFieldBlanks { blanks: field_blanks(d.field_blanks), volume: volume() }.into());
    }
    if d.trip_blanks > 0 {
        out.push(said::PackTripBlanks { blanks: trip_blanks(d.trip_blanks), volume: volume() }.into());
    }
    if d.bottle_blanks > 0 {
        out.push(said::PackBottleBlanks { blanks: bottle_blanks(d.bottle_blanks), volume: volume() }.into());
    }
    match wells {
        [] | [_] if d.spikes > 0 => out.push(said::PackSpikes { n: i64::from(d.spikes), volume: volume() }.into()),
        several => {
            let at = several.iter().enumerate().map(|(i, well)| (well, d.spikes_at(i, several.len())));
            let line = |(well, n): (&String, u32)| {
                said::PackSpikesAt { well: well.into(), n: i64::from(n), volume: volume() }.into()
            };
            out.extend(at.filter(|s| s.1 > 0).map(line));
        }
    }
    let l = d.laboratory;
    let vials: [(u32, Say); 3] = [
        (l.reference_materials, reference_materials),
        (l.drift_checks, drift_checks),
        (l.second_sources, second_sources),
    ];
    let vials: Vec<Arg> = vials.into_iter().filter(|v| v.0 > 0).map(|(n, of)| of(n).into()).collect();
    if !vials.is_empty() {
        out.push(said::PackVials { vials }.into());
    }
    out
}

/// The chance by simulating trips: bottles drawn, means and deviations taken, the test made. What the formula
/// of [`chance`] must meet.
pub fn simulated_chance(question: &Question, past: &Past, d: &Design, trips: usize, seed: u64) -> f64 {
    const BLOCK: usize = 256;
    let passed: usize = (0..trips.div_ceil(BLOCK))
        .into_par_iter()
        .map(|block| {
            let mut rng = stream(seed, block);
            (0..BLOCK.min(trips - block * BLOCK)).filter(|_| one_trip(question, past, d, &mut rng)).count()
        })
        .sum();
    passed as f64 / trips as f64
}

fn one_trip(question: &Question, past: &Past, d: &Design, rng: &mut rand::rngs::ChaCha8Rng) -> bool {
    let v = Variances::new(past, d);
    let sd = v.blank.sqrt();
    let blanks: Vec<f64> = (0..d.field_blanks).map(|_| sd * normal(rng)).collect();
    let mean = blanks.iter().sum::<f64>() / v.n_b;
    let mut ss: f64 = blanks.iter().map(|b| (b - mean).powi(2)).sum();
    // Trip and bottle blanks and the past give degrees of freedom alone: their means are no part of the net value.
    let extra = (v.dof - (v.n_b - 1.0)).round() as usize;
    ss += (0..extra).map(|_| (sd * normal(rng)).powi(2)).sum::<f64>();
    let s2 = ss / v.dof;
    let water = |level: f64, rng: &mut rand::rngs::ChaCha8Rng| {
        let own = (v.blank + (v.relative * level).powi(2)).sqrt();
        level + (0..d.samples).map(|_| own * normal(rng)).sum::<f64>() / v.n_s
    };
    let r = recovery_variance(past, d).sqrt();
    let spread = |a: f64, known: f64| {
        let total = a + known;
        let dof = effective_dof(&[(a, v.dof), (known, f64::INFINITY)]).unwrap_or(v.dof);
        (total.sqrt(), t::quantile(1.0 - ALPHA, dof.min(1e7)))
    };
    let per = 1.0 / v.n_s + 1.0 / v.n_b;
    match *question {
        Question::Detect { level } => water(level, rng) - mean > t::quantile(1.0 - ALPHA, v.dof) * (s2 * per).sqrt(),
        Question::Limit { level, limit } => {
            let c = (water(level, rng) - mean) * (1.0 + r * normal(rng));
            let (u, t) = spread(s2 * per, v.known(level) + (r * level).powi(2));
            if level < limit { c + t * u < limit } else { c - t * u > limit }
        }
        Question::Lower { a, b } => {
            // Both waters have the same blank taken off: it cancels in the difference.
            let difference = (water(b, rng) - water(a, rng)) * (1.0 + r * normal(rng));
            let (u, t) = spread(2.0 * s2 / v.n_s, v.known(a) + v.known(b) + (r * (b - a)).powi(2));
            difference > t * u
        }
        Question::Trend { level, percent_per_year, years, visits_per_year, natural_share } => {
            let n = (years * visits_per_year).floor() as usize + 1;
            let one = (v.estimated() + v.known(level) + (natural_share * level).powi(2)).sqrt();
            let middle = 0.5 * (n as f64 - 1.0) / visits_per_year;
            let (mut stt, mut sty, mut sy, mut syy) = (0.0, 0.0, 0.0, 0.0);
            for i in 0..n {
                let t = i as f64 / visits_per_year - middle;
                let y = level * percent_per_year / 100.0 * t + one * normal(rng);
                stt += t * t;
                sty += t * y;
                sy += y;
                syy += y * y;
            }
            let slope = sty / stt;
            let dof = n as f64 - 2.0;
            let s2 = (syy - sy * sy / n as f64 - slope * sty) / dof;
            slope.abs() > t::quantile(1.0 - 0.5 * ALPHA, dof) * (s2 / stt).sqrt()
        }
        Question::DetectionLimit { target, .. } => v.detection_limit() <= target,
    }
}
