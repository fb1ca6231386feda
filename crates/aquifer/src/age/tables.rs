//! What every model makes of every history, once for a day of sampling: the tables that the joint fit draws from.
//!
//! In: histories, a day of sampling, the screen where it is known. Out: for each model and mean age T (1 to 50 000 years on
//! a logarithmic grid) the concentration of each tracer, its u by the history (one factor for all years), and its change
//! with the half-life. Between two ages the tables are read straight in ln T; shapes (η, D) stand on fixed values, which is
//! their prior. Gases in ppt of air, tritium and helium-3 in TU, carbon-14 as the share of A0. Checked in
//! `tests/age_fit.rs` against direct convolution.

use super::constants::number;
use super::convolve::{convolve, weighted};
use super::history::{History, Input, Pieces};
use super::measured::Tracer;
use super::models::{Model, decay_constant};
use super::tritium;
use crate::Reason;
use message::age as said;
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

/// One tracer under one model.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Entry {
    /// Concentration.
    pub c: f64,
    /// Its u by the history.
    pub u: f64,
    /// Its change with the logarithm of the decay constant.
    pub d: f64,
}

impl Entry {
    fn between(a: &Self, b: &Self, s: f64) -> Self {
        let mix = |x: f64, y: f64| x + s * (y - x);
        Self { c: mix(a.c, b.c), u: mix(a.u, b.u), d: mix(a.d, b.d) }
    }
}

/// All tracers, by their place in [`Tracer::ALL`].
pub type Row = [Entry; Tracer::ALL.len()];

/// A kind of model that the fit tries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// All of one age.
    Piston,
    /// Exponential.
    Exponential,
    /// Exponential, then confined.
    ExponentialPiston,
    /// Dispersion.
    Dispersion,
    /// A screen over part of the depth.
    PartialExponential,
    /// Piston water with dead water.
    PistonDead,
    /// Exponential water with dead water.
    ExponentialDead,
    /// Exponential water with piston water from before the bomb tests.
    Two,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Piston,
        Self::Exponential,
        Self::ExponentialPiston,
        Self::Dispersion,
        Self::PartialExponential,
        Self::PistonDead,
        Self::ExponentialDead,
        Self::Two,
    ];

    /// How many parameters are fitted.
    pub fn parameters(self) -> usize {
        match self {
            Self::Piston | Self::Exponential | Self::PartialExponential => 1,
            Self::ExponentialPiston | Self::Dispersion | Self::PistonDead | Self::ExponentialDead => 2,
            Self::Two => 3,
        }
    }

    /// Its name, for messages and answers.
    pub fn name(self) -> &'static str {
        match self {
            Self::Piston => "piston",
            Self::Exponential => "exponential",
            Self::ExponentialPiston => "exponential-piston",
            Self::Dispersion => "dispersion",
            Self::PartialExponential => "partial-exponential",
            Self::PistonDead => "piston-dead",
            Self::ExponentialDead => "exponential-dead",
            Self::Two => "two",
        }
    }
}

/// A screen over part of the depth, below the water table, m.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Screen {
    /// Thickness of the aquifer.
    pub thickness_m: f64,
    /// Top of the screen.
    pub top_m: f64,
    /// Its bottom.
    pub bottom_m: f64,
}

/// What the tables are made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// When the sample was taken, decimal year.
    pub sampled_year: f64,
    /// One for each tracer; helium-3 takes that of tritium, carbon-14 without one the same soil air always.
    pub histories: Vec<History>,
    /// The screen, where it covers part of the depth and is known.
    pub screen: Option<Screen>,
    /// Kinds of models to try.
    pub kinds: Vec<Kind>,
}

/// Youngest and oldest mean age, years, flat in its logarithm: the prior, stated beside each answer.
pub const AGES: (f64, f64) = (1.0, 50_000.0);
/// Values of η.
// The programme's own choice, near enough that neighbours differ by less than a good measurement.
const ETA: [f64; 10] = [1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.5, 3.3, 5.0, 10.0];
/// Values of D.
const D: [f64; 7] = [0.01, 0.025, 0.06, 0.12, 0.25, 0.5, 1.0];
/// Edges of the cells of the share of the first water of a mixture: narrow where a trace of young water decides.
pub(super) const SHARES: [f64; 28] = [
    0.0, 0.0005, 0.002, 0.005, 0.01, 0.02, 0.035, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6,
    0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.98, 1.0,
];

/// One model over all ages.
#[derive(Debug, Clone)]
pub(super) struct Curve {
    pub ln_t: Vec<f64>,
    pub rows: Vec<Row>,
    pub shape: f64,
    /// The table of its second water, for [`Kind::Two`].
    make: Make,
}

#[derive(Debug, Clone, Copy)]
enum Make {
    Piston,
    Exponential,
    ExponentialPiston,
    Dispersion,
    Screen(Screen),
}

impl Curve {
    /// The model at a mean age (of a screen: its scale).
    pub fn model(&self, t: f64) -> Model {
        model(self.make, self.shape, t)
    }

    /// All tracers within cell `i`, at a part `s` of its width.
    pub fn at(&self, i: usize, s: f64, tracer: usize) -> Entry {
        Entry::between(&self.rows[i][tracer], &self.rows[i + 1][tracer], s)
    }

    pub fn cells(&self) -> usize {
        self.ln_t.len() - 1
    }

    pub fn t(&self, i: usize, s: f64) -> f64 {
        libm::exp(self.ln_t[i] + s * (self.ln_t[i + 1] - self.ln_t[i]))
    }
}

fn model(make: Make, shape: f64, t: f64) -> Model {
    match make {
        Make::Piston => Model::Piston { mean: t },
        Make::Exponential => Model::Exponential { mean: t },
        Make::ExponentialPiston => Model::ExponentialPiston { mean: t, eta: shape },
        Make::Dispersion => Model::Dispersion { mean: t, d: shape },
        Make::Screen(s) => {
            Model::of_screen(t, s.thickness_m, s.top_m, s.bottom_m).unwrap_or(Model::Exponential { mean: t })
        }
    }
}

/// A kind of model over all its parameters.
#[derive(Debug, Clone)]
pub(super) struct Family {
    pub kind: Kind,
    pub curves: Vec<Curve>,
    /// Old piston water, for [`Kind::Two`].
    pub second: Option<Curve>,
}

/// The tables.
#[derive(Debug, Clone)]
pub struct Tables {
    pub(super) sampled_year: f64,
    pub(super) families: Vec<Family>,
    /// Which tracers have a history.
    pub(super) known: [bool; Tracer::ALL.len()],
}

/// One tracer's input with its decay constant.
struct Source {
    tracer: usize,
    input: Input,
    lambda: f64,
    /// Helium-3 is what decayed of tritium.
    daughter: bool,
}

impl Tables {
    /// Of a setting.
    ///
    /// # Errors
    /// [`Reason`]: a history or screen that cannot be, or a quadrature that did not converge.
    pub fn new(setting: &Setting) -> Result<Self, Reason> {
        setting.histories.iter().try_for_each(History::check)?;
        if let Some(s) = setting.screen {
            Model::of_screen(1.0, s.thickness_m, s.top_m, s.bottom_m)?;
        }
        let sources = sources(setting);
        let mut known = [false; Tracer::ALL.len()];
        for s in &sources {
            known[s.tracer] = true;
        }
        let mut families = vec![];
        for kind in Kind::ALL.into_iter().filter(|k| setting.kinds.contains(k)) {
            let one = |make: Make, shape: f64, fine: f64| curve(make, shape, fine, AGES, &sources);
            let shapes = |make: Make, of: &[f64]| of.iter().map(|s| one(make, *s, 0.03)).collect::<Result<Vec<_>, _>>();
            // A piston shows each year of the history; the others smooth it.
            let curves = match kind {
                Kind::Piston | Kind::PistonDead => vec![one(Make::Piston, 0.0, 0.005)?],
                Kind::Exponential | Kind::ExponentialDead => vec![one(Make::Exponential, 0.0, 0.03)?],
                Kind::ExponentialPiston => shapes(Make::ExponentialPiston, &ETA)?,
                Kind::Dispersion => shapes(Make::Dispersion, &D)?,
                Kind::PartialExponential => match setting.screen {
                    // To the bottom it is the exponential-piston model, and no second confirmation.
                    Some(s) if s.bottom_m < s.thickness_m => vec![one(Make::Screen(s), 0.0, 0.03)?],
                    _ => continue,
                },
                Kind::Two => vec![curve(Make::Exponential, 0.0, 0.12, (AGES.0, 500.0), &sources)?],
            };
            let old = (setting.sampled_year - tritium::BOMB_YEAR).max(1.0);
            let second =
                (kind == Kind::Two).then(|| curve(Make::Piston, 0.0, 0.1, (old, AGES.1), &sources)).transpose()?;
            families.push(Family { kind, curves, second });
        }
        if families.is_empty() {
            return Err(Reason::TooFew {
                what: said::ModelsToTry.into(),
                have: 0,
                need: 1,
                hint: said::NameAModel.into(),
            });
        }
        Ok(Self { sampled_year: setting.sampled_year, families, known })
    }

    /// Whether a tracer has a history here.
    pub fn has(&self, tracer: Tracer) -> bool {
        self.known[tracer as usize]
    }
}

/// Decay constant of a tracer, 1/years; nought for a gas.
pub fn decay_of(tracer: Tracer) -> f64 {
    match tracer {
        Tracer::Tritium | Tracer::Helium3 => tritium::lambda(),
        Tracer::Carbon14 => decay_constant(number("14C.halflife")),
        _ => 0.0,
    }
}

fn sources(setting: &Setting) -> Vec<Source> {
    let mut out: Vec<Source> = vec![];
    for h in &setting.histories {
        let input = h.input(setting.sampled_year);
        if h.tracer == Tracer::Tritium {
            let (input, lambda) = (input.clone(), decay_of(h.tracer));
            out.push(Source { tracer: Tracer::Helium3 as usize, input, lambda, daughter: true });
        }
        out.push(Source { tracer: h.tracer as usize, input, lambda: decay_of(h.tracer), daughter: false });
    }
    if !setting.histories.iter().any(|h| h.tracer == Tracer::Carbon14) {
        // Without a history the soil air before 1950 always: what it was later makes young water richer, not older.
        let input = Input { value: Pieces::constant(1.0), u: Pieces::constant(0.0) };
        let lambda = decay_of(Tracer::Carbon14);
        out.push(Source { tracer: Tracer::Carbon14 as usize, input, lambda, daughter: false });
    }
    out
}

/// Above this age, years, curves are smooth and the grid is wide.
const SMOOTH_YEARS: f64 = 160.0;
/// Width of the grid there, in ln T.
const WIDE: f64 = 0.08;

fn curve(make: Make, shape: f64, fine: f64, ages: (f64, f64), sources: &[Source]) -> Result<Curve, Reason> {
    let mut ln_t = vec![libm::log(ages.0)];
    while let Some(&last) = ln_t.last().filter(|l| **l < libm::log(ages.1)) {
        let step = if last < libm::log(SMOOTH_YEARS) { fine } else { fine.max(WIDE) };
        ln_t.push((last + step).min(libm::log(ages.1)));
    }
    let rows = ln_t
        .par_iter()
        .map(|l| {
            let mut row = Row::default();
            for s in sources {
                row[s.tracer] = entry(&model(make, shape, libm::exp(*l)), s)?;
            }
            Ok(row)
        })
        .collect::<Result<Vec<Row>, Reason>>()?;
    Ok(Curve { ln_t, rows, shape, make })
}

/// Step of λ for the derivative.
const STEP: f64 = 0.01;
/// Part of the largest input that a table may be off.
const TABLE: f64 = 1e-7;

fn entry(model: &Model, s: &Source) -> Result<Entry, Reason> {
    if let Model::Dispersion { mean, d } = model {
        return by_quadrature(*mean, *d, s);
    }
    let of = |pieces: &Pieces, lambda: f64| convolve(pieces, model, lambda);
    let c = of(&s.input.value, s.lambda)?;
    let d = if s.lambda > 0.0 { (of(&s.input.value, s.lambda * (1.0 + STEP))? - c) / STEP } else { 0.0 };
    let stable = if s.daughter { (of(&s.input.value, 0.0)?, of(&s.input.u, 0.0)?) } else { (0.0, 0.0) };
    Ok(daughter(Entry { c, u: of(&s.input.u, s.lambda)?, d }, stable, s.daughter))
}

/// The same for a dispersion model, all in one quadrature.
fn by_quadrature(mean: f64, d: f64, s: &Source) -> Result<Entry, Reason> {
    let largest = |p: &Pieces| p.0.iter().map(|p| p.start.abs().max(p.end.abs())).fold(1e-30, f64::max);
    let (c, u) = (TABLE * largest(&s.input.value), TABLE * largest(&s.input.u));
    let factors = |k: usize, tau: f64| {
        let (value, u) = (s.input.value.0[k].at(tau), s.input.u.0[k].at(tau));
        let kept = libm::exp(-s.lambda * tau);
        [value * kept, u * kept, -s.lambda * tau * value * kept, value, u, 1.0]
    };
    let w = weighted(&s.input.value, mean, d, [c, u, c, c, u, TABLE], &factors)?;
    Ok(daughter(Entry { c: w[0], u: w[1], d: w[2] }, (w[3], w[4]), s.daughter))
}

/// Helium-3: what is gone of the tritium.
fn daughter(e: Entry, (stable, u_stable): (f64, f64), is: bool) -> Entry {
    if is { Entry { c: stable - e.c, u: u_stable - e.u, d: -e.d } } else { e }
}
