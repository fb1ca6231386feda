//! What will the handling bring, stage by stage, before anyone drives out?
//!
//! In: what is known of each stage (metal in air and how fast it settles, acid, leaching, openings, the
//! pipe, or just past blanks), each number with a relative u. Out: picograms per bottle with u and 95 %
//! range, and their share of the water's own metal c·V.
//!
//! Methods: open air m = C·v·A·t; acid m = c·V; bottle m = rate·wall·days; handling m = per opening ·
//! openings; pipe c = J·(2/r)·t over the bottle's volume; past blanks by resampling them (a forecast needs
//! nothing else). Monte Carlo: inputs lognormal about the stated value with the stated relative u (they
//! are positive), one random stream a block. Settling by Stokes with slip (Cunningham; constants of Allen &
//! Raabe 1985), density 1 g/cm³ unless given.
//!
//! Gravity settling alone is a floor: moving air, clothes and gloves bring more. Checked in
//! `tests/validation_forecast.rs`.

use crate::Error;
use crate::random::{normal, stream};
use message::{Message, Shown, bottle as said};
use quantity::{Amount, Check, Finding, Outcome, Unit};
use rand::RngExt;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use statistics::sample::{mean_sd, nearest_rank};

/// A positive number with its relative standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct About {
    /// Best value.
    pub value: f64,
    /// u as a share of the value.
    pub relative_u: f64,
}

impl About {
    /// A value with a relative u.
    pub fn new(value: f64, relative_u: f64) -> Self {
        Self { value, relative_u }
    }
}

/// One source on the way, with what is known of it.
#[derive(Debug, Clone, PartialEq)]
pub enum Source {
    /// Air over the open bottle.
    Air {
        /// Metal in air, ng/m³.
        metal_ng_m3: About,
        /// Deposition velocity, m/s.
        deposition_m_s: About,
        /// Mouth of the bottle, cm².
        mouth_cm2: f64,
        /// Minutes open.
        minutes: About,
    },
    /// Acid added.
    Acid {
        /// Metal in the acid, pg/mL.
        pg_per_ml: About,
        /// Acid added, mL.
        ml: About,
    },
    /// The wall of the bottle.
    Wall {
        /// Leach rate, pg per cm² and day.
        pg_cm2_day: About,
        /// Wetted wall, cm².
        wall_cm2: f64,
        /// Days with the water in it.
        days: About,
    },
    /// Opening and closing it.
    Handling {
        /// pg an opening.
        pg_per_opening: About,
        /// Number of openings.
        openings: f64,
    },
    /// The pipe of the well.
    Pipe {
        /// Metal that leaves the wall, ng per m² and minute.
        ng_m2_min: About,
        /// Inner radius, m.
        radius_m: f64,
        /// Contact time, min.
        contact_min: About,
    },
    /// Blanks of past trips that held this stage, pg per bottle.
    PastBlanks(Vec<f64>),
}

/// A named stage.
#[derive(Debug, Clone, PartialEq)]
pub struct Stage {
    /// Its name as the picture shows it.
    pub name: String,
    /// What is known of it.
    pub source: Source,
}

/// What a stage will bring.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StageForecast {
    /// The stage.
    pub stage: String,
    /// Mean, pg per bottle.
    pub pg: f64,
    /// Standard deviation of the forecast, pg.
    pub u: f64,
    /// 95 % range, pg.
    pub range_95: (f64, f64),
    /// Mean over the water's own metal; none without it.
    pub share_of_water: Option<f64>,
}

/// The forecast of a bottle.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Forecast {
    /// Each stage.
    pub stages: Vec<StageForecast>,
    /// All of them.
    pub total: StageForecast,
    /// The water's own metal c·V, pg.
    pub water_pg: Option<f64>,
}

/// The bottle and the simulation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setting {
    /// Volume of the bottle, mL.
    pub bottle_ml: f64,
    /// Expected concentration in the water, ng/L.
    pub water_ng_l: Option<f64>,
    /// Draws.
    pub draws: usize,
    /// Seed.
    pub seed: u64,
}

/// Forecasts each stage and their sum.
///
/// # Errors
/// [`Error::TooFew`] without stages or with a stage of past blanks that has none; [`Error::OutOfRange`] for a
/// negative number (minutes among them), a volume that is not positive, under 1000 draws.
///
/// ```
/// use cleanliness::forecast::{Setting, Source, Stage, forecast};
/// // A stage known by past blanks of which there is none: refused, not forecast as nothing.
/// let stage = |blanks: &[f64]| [Stage { name: "journey".into(), source: Source::PastBlanks(blanks.to_vec()) }];
/// let setting = Setting { bottle_ml: 250.0, water_ng_l: None, draws: 4000, seed: 1 };
/// assert!(forecast(&stage(&[]), &setting).is_err());
/// // Without a guess of the water there is a mass, and no share.
/// let f = forecast(&stage(&[4.0, 6.0, 8.0]), &setting)?;
/// assert!(f.total.pg > 0.0 && f.total.share_of_water.is_none());
/// # Ok::<(), cleanliness::Error>(())
/// ```
pub fn forecast(stages: &[Stage], setting: &Setting) -> Result<Forecast, Error> {
    const BLOCK: usize = 1024;
    check(stages, setting)?;
    let n = stages.len();
    let blocks: Vec<Vec<f64>> = (0..setting.draws.div_ceil(BLOCK))
        .into_par_iter()
        .map(|block| {
            let mut rng = stream(setting.seed, block);
            let count = BLOCK.min(setting.draws - block * BLOCK);
            let mut out = Vec::with_capacity(count * n);
            for _ in 0..count {
                for s in stages {
                    out.push(draw(&s.source, setting.bottle_ml, &mut rng));
                }
            }
            out
        })
        .collect();
    let draws: Vec<f64> = blocks.concat();
    let water_pg = setting.water_ng_l.map(|c| c * setting.bottle_ml);
    let summary = |name: &str, values: Vec<f64>| summarise(name, values, water_pg);
    Ok(Forecast {
        stages: (0..n).map(|k| summary(&stages[k].name, draws.iter().skip(k).step_by(n).copied().collect())).collect(),
        total: summary("all stages", draws.chunks_exact(n).map(|c| c.iter().sum()).collect()),
        water_pg,
    })
}

fn summarise(name: &str, mut values: Vec<f64>, water_pg: Option<f64>) -> StageForecast {
    let (mean, u) = mean_sd(&values).expect("two draws or more");
    values.sort_by(f64::total_cmp);
    let at = |p: f64| nearest_rank(&values, p);
    StageForecast {
        stage: name.into(),
        pg: mean,
        u,
        range_95: (at(0.025), at(0.975)),
        share_of_water: water_pg.filter(|w| *w > 0.0).map(|w| mean / w),
    }
}

type Rng = rand::rngs::ChaCha8Rng;

/// A lognormal draw with the stated mean and relative standard deviation.
fn about(a: About, rng: &mut Rng) -> f64 {
    if a.relative_u == 0.0 || a.value == 0.0 {
        return a.value;
    }
    let v = libm::log1p(a.relative_u * a.relative_u);
    a.value * libm::exp(v.sqrt() * normal(rng) - 0.5 * v)
}

fn draw(source: &Source, bottle_ml: f64, rng: &mut Rng) -> f64 {
    match source {
        // ng/m³ · m/s · 1e-4 m²/cm² · 60 s/min · 1000 pg/ng
        Source::Air { metal_ng_m3, deposition_m_s, mouth_cm2, minutes } => {
            about(*metal_ng_m3, rng) * about(*deposition_m_s, rng) * mouth_cm2 * about(*minutes, rng) * 6.0
        }
        Source::Acid { pg_per_ml, ml } => about(*pg_per_ml, rng) * about(*ml, rng),
        Source::Wall { pg_cm2_day, wall_cm2, days } => about(*pg_cm2_day, rng) * wall_cm2 * about(*days, rng),
        Source::Handling { pg_per_opening, openings } => about(*pg_per_opening, rng) * openings,
        // ng/(m²·min) · (2/r) 1/m · min = ng/m³ = pg/L; times mL/1000.
        Source::Pipe { ng_m2_min, radius_m, contact_min } => {
            about(*ng_m2_min, rng) * 2.0 / radius_m * about(*contact_min, rng) * bottle_ml * 1e-3
        }
        Source::PastBlanks(blanks) => blanks[rng.random_range(0..blanks.len())],
    }
}

/// Most draws.
// The programme's own choice: a million give the ends of an interval to three digits.
const MOST_DRAWS: usize = 1_000_000;

fn check(stages: &[Stage], setting: &Setting) -> Result<(), Error> {
    if stages.is_empty() {
        return Err(Error::TooFew {
            what: "stages".into(),
            have: 0,
            need: 1,
            hint: "name one stage, or give past blanks".into(),
        });
    }
    if !(setting.bottle_ml > 0.0 && setting.bottle_ml.is_finite()) {
        return Err(Error::out_of_range("volume of the bottle", format!("{} mL", setting.bottle_ml), "more than 0 mL"));
    }
    if !(1000..=MOST_DRAWS).contains(&setting.draws) {
        return Err(Error::out_of_range("draws", setting.draws, "1000 to 1000000"));
    }
    for s in stages {
        let numbers: Vec<(&str, f64, f64)> = match &s.source {
            Source::Air { metal_ng_m3: a, deposition_m_s: b, mouth_cm2, minutes: c } => vec![
                ("metal in air, ng/m³", a.value, a.relative_u),
                ("deposition velocity, m/s", b.value, b.relative_u),
                ("mouth, cm²", *mouth_cm2, 0.0),
                ("minutes open", c.value, c.relative_u),
            ],
            Source::Acid { pg_per_ml: a, ml: b } => {
                vec![("metal in the acid, pg/mL", a.value, a.relative_u), ("acid, mL", b.value, b.relative_u)]
            }
            Source::Wall { pg_cm2_day: a, wall_cm2, days: b } => vec![
                ("leach rate, pg/(cm²·day)", a.value, a.relative_u),
                ("wall, cm²", *wall_cm2, 0.0),
                ("days", b.value, b.relative_u),
            ],
            Source::Handling { pg_per_opening: a, openings } => {
                vec![("pg an opening", a.value, a.relative_u), ("openings", *openings, 0.0)]
            }
            Source::Pipe { ng_m2_min: a, radius_m, contact_min: b } => vec![
                ("leach rate, ng/(m²·min)", a.value, a.relative_u),
                ("contact time, min", b.value, b.relative_u),
                // The only number here that must not be 0: the wall over the volume is 2/r.
                ("radius, m", if *radius_m > 0.0 { *radius_m } else { -1.0 }, 0.0),
            ],
            Source::PastBlanks(b) => {
                if b.is_empty() {
                    return Err(Error::TooFew {
                        what: format!("past blanks of \"{}\"", s.name),
                        have: 0,
                        need: 1,
                        hint: "give at least one, or describe the stage".into(),
                    });
                }
                // A net blank may be negative and is drawn as it is: only its being a number is asked.
                b.iter().map(|v| ("past blank, pg", v.abs(), 0.0)).collect()
            }
        };
        for (what, value, relative_u) in numbers {
            if !(value >= 0.0 && value.is_finite() && relative_u >= 0.0 && relative_u.is_finite()) {
                return Err(Error::out_of_range(
                    format!("{what} of \"{}\"", s.name),
                    format!("{value} with relative u {relative_u}"),
                    "0 or more",
                ));
            }
        }
    }
    Ok(())
}

/// Settling velocity of a sphere in air at 20 °C, m/s, by Stokes with slip; diameter in µm, density in
/// kg/m³. Valid to about 50 µm (Reynolds number under 0.1).
///
/// # Errors
/// [`Error::OutOfRange`] outside 0.01 to 50 µm or for a density that is not positive.
pub fn settling_velocity_m_s(diameter_um: f64, density_kg_m3: f64) -> Result<f64, Error> {
    if !(0.01..=50.0).contains(&diameter_um) {
        return Err(Error::out_of_range("particle diameter", format!("{diameter_um} µm"), "0.01 to 50 µm"));
    }
    if !(density_kg_m3 > 0.0 && density_kg_m3.is_finite()) {
        return Err(Error::out_of_range("particle density", format!("{density_kg_m3} kg/m³"), "more than 0 kg/m³"));
    }
    // Air at 20 °C, 101.325 kPa: viscosity and mean free path (Hinds 1999, Aerosol Technology; recalled).
    let (viscosity, free_path_um) = (1.81e-5, 0.066);
    let d = diameter_um * 1e-6;
    let x = free_path_um / diameter_um;
    // Slip correction (Hinds 1999, eq. 3.20 after Allen & Raabe 1985; recalled).
    let slip = 1.0 + x * (2.34 + 1.05 * libm::exp(-0.39 / x));
    // Standard gravity.
    Ok(density_kg_m3 * d * d * 9.80665 * slip / (18.0 * viscosity))
}

/// Metal in air from a particle count: particles per m³ of one size · mass of a particle · metal in the dust
/// (µg/g = ppm), ng/m³.
///
/// # Errors
/// [`Error::OutOfRange`] for a negative number.
pub fn metal_in_air_ng_m3(per_m3: f64, diameter_um: f64, density_kg_m3: f64, metal_ug_g: f64) -> Result<f64, Error> {
    for (what, v) in [
        ("particles per m³", per_m3),
        ("diameter, µm", diameter_um),
        ("density, kg/m³", density_kg_m3),
        ("metal in dust, µg/g", metal_ug_g),
    ] {
        if !(v >= 0.0 && v.is_finite()) {
            return Err(Error::out_of_range(what, v, "0 or more"));
        }
    }
    let volume_m3 = std::f64::consts::PI / 6.0 * libm::pow(diameter_um * 1e-6, 3.0);
    // A kilogram of dust at 1 µg/g holds 1000 µg = 1e6 ng.
    Ok(per_m3 * volume_m3 * density_kg_m3 * metal_ug_g * 1e6)
}

/// Field blank against forecast: far above, and the forecast stages are not the cause.
pub fn blank_against_forecast(blank_pg: f64, u_pg: f64, forecast: &StageForecast) -> Finding {
    let (low_pg, high_pg) = forecast.range_95;
    let amount = Amount::measured(blank_pg, u_pg, Unit::known("pg"));
    let (blank, low, high) = (amount.with_u(), Shown::significant(low_pg, 2, ""), Shown::significant(high_pg, 2, "pg"));
    let (outcome, says): (_, Message) = if blank_pg - 2.0 * u_pg > high_pg {
        (Outcome::NotMet, said::BlankAboveForecast { blank, low, high }.into())
    } else if blank_pg + 2.0 * u_pg < low_pg {
        (Outcome::Met, said::BlankBelowForecast { blank, low, high }.into())
    } else {
        (Outcome::Met, said::BlankAsForecast { blank, low, high }.into())
    };
    Finding::new(Check::BottleBlankAgainstForecast, outcome, says)
        .comparing(message::compared::FieldBlank, amount)
        .comparing(message::compared::Forecast, Amount::stated(high_pg, Unit::known("pg")))
}
