//! How much of the metal found in a bottle came with the water?
//!
//! What the blanks leave is the water's where blanks met every stage; they never meet the pipe. What the part left may
//! be called ([`Left`]) and the finding on it are told by [`crate::accounting`].
//!
//! In: the metal in the bottle (gross) and the metal that the blank says came from elsewhere,
//! both with u in one unit (pg per bottle or ng/L), and their covariance, since both rest on the
//! same calibration. Out: the share 1 − blank/gross with an interval inside 0 to 1.
//!
//! Method: the interval is the set of shares s for which (b − ρ·g)², ρ = 1 − s, does not exceed
//! t² times its own variance u_b² + ρ²·u_g² − 2ρ·cov: Fieller's set for a ratio (Fieller 1954,
//! J. R. Stat. Soc. B 16:175). It is read on 0 ≤ s ≤ 1 only, and the misfit is counted from the
//! best share allowed there (a profile likelihood), so it is never empty and never narrower than
//! Fieller's set: a blank above the gross gives a short interval that starts at 0, not an error and
//! not a silent 0. The plain 1 − b/g stands beside it as `raw`, negative or not.
//!
//! A gross that is not distinct from zero gives 0 to 1: nothing can be said. Valid for errors
//! that are near normal; spikes of blanks belong to the attribution. Coverage is checked by
//! simulation in `tests/validation_share.rs`.

use crate::Error;
use crate::accounting::Holds;
use message::{Message, Shown, share as said, step};
use quantity::format::decimals_for;
use quantity::{Amount, Derivation, Measured, Unit};
use serde::Serialize;
use statistics::fieller::{Pair, within};
use statistics::t;
use statistics::welch::effective_dof;

/// Gross and blank with what they have in common.
#[derive(Debug, Clone, PartialEq)]
pub struct GrossAndBlank {
    /// The metal in the bottle, before any field blank is taken off.
    pub gross: Measured,
    /// The metal that the blanks say came from elsewhere, for a bottle handled like this one.
    pub blank: Measured,
    /// Covariance of the two, in the unit of `gross` squared (shared calibration); 0 when apart.
    pub covariance: f64,
}

/// Where the best share lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Held {
    /// Between 0 and 1: the plain share itself.
    Inside,
    /// The blank exceeds the gross: the plain share is negative, the best allowed one 0.
    AtZero,
    /// The blank is negative: the plain share exceeds 1, the best allowed one is 1.
    AtOne,
    /// The gross is not above zero: no share can be computed.
    NoGross,
}

/// What the part of the metal is that came with the water, as far as blanks and bottles tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize)]
pub enum Left {
    /// The aquifer's alone: pipe and air were measured at this well.
    #[default]
    #[serde(rename = "the water's own")]
    Water,
    /// Aquifer and pipe within the programme's contact: the water as it leaves the well.
    #[serde(rename = "the water's, as it leaves the well")]
    LeavesWell,
    /// Aquifer and pipe, the contact too long or not known.
    #[serde(rename = "not from air, bottle or laboratory")]
    WaterAndPipe,
    /// Aquifer and open air; the pipe was measured.
    #[serde(rename = "the water and the open air: not told apart")]
    WaterAndOpenAir,
    /// Aquifer and an air that no blank met; the pipe was measured.
    #[serde(rename = "the water and the air: not told apart")]
    WaterAndAir,
    /// Aquifer, pipe and open air.
    #[serde(rename = "the water, the pipe and the open air: not told apart")]
    WaterPipeAndOpenAir,
    /// Aquifer, pipe and an air that no blank met.
    #[serde(rename = "the water, the pipe and the air: not told apart")]
    WaterPipeAndAir,
    /// No blank met the way to the laboratory.
    #[serde(rename = "the water and its way to the laboratory: not told apart")]
    WaterAndWay,
}

impl Left {
    /// All.
    pub const ALL: [Self; 8] = [
        Self::Water,
        Self::LeavesWell,
        Self::WaterAndPipe,
        Self::WaterAndOpenAir,
        Self::WaterAndAir,
        Self::WaterPipeAndOpenAir,
        Self::WaterPipeAndAir,
        Self::WaterAndWay,
    ];

    /// By what is in the part.
    pub fn of(h: Holds) -> Self {
        match (h.pipe, h.air, h.outdoors) {
            _ if h.way => Self::WaterAndWay,
            (false, false, _) => Self::Water,
            (true, false, _) if h.bound => Self::WaterAndPipe,
            (true, false, _) => Self::LeavesWell,
            (false, true, true) => Self::WaterAndOpenAir,
            (false, true, false) => Self::WaterAndAir,
            (true, true, true) => Self::WaterPipeAndOpenAir,
            (true, true, false) => Self::WaterPipeAndAir,
        }
    }

    /// In words, as in JSON.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Water => "the water's own",
            Self::LeavesWell => "the water's, as it leaves the well",
            Self::WaterAndPipe => "not from air, bottle or laboratory",
            Self::WaterAndOpenAir => "the water and the open air: not told apart",
            Self::WaterAndAir => "the water and the air: not told apart",
            Self::WaterPipeAndOpenAir => "the water, the pipe and the open air: not told apart",
            Self::WaterPipeAndAir => "the water, the pipe and the air: not told apart",
            Self::WaterAndWay => "the water and its way to the laboratory: not told apart",
        }
    }

    /// Its name in the language that is spoken.
    pub fn says(self) -> Message {
        match self {
            Self::Water => said::Water.into(),
            Self::LeavesWell => said::LeavesWell.into(),
            Self::WaterAndPipe => said::NotFromHandling.into(),
            Self::WaterAndOpenAir => said::WaterAndOpenAir.into(),
            Self::WaterAndAir => said::WaterAndAir.into(),
            Self::WaterPipeAndOpenAir => said::WaterPipeAndOpenAir.into(),
            Self::WaterPipeAndAir => said::WaterPipeAndAir.into(),
            Self::WaterAndWay => said::WaterAndWay.into(),
        }
    }

    /// May the pipe's metal be in it, beyond what the programme's contact allows?
    pub fn holds_pipe(self) -> bool {
        matches!(self, Self::WaterAndPipe | Self::WaterPipeAndOpenAir | Self::WaterPipeAndAir | Self::WaterAndWay)
    }

    /// Is the metal of an air that no blank met in it?
    pub fn holds_air(self) -> bool {
        !matches!(self, Self::Water | Self::LeavesWell | Self::WaterAndPipe)
    }

    /// Is it an upper bound of the water's part?
    pub fn is_bound(self) -> bool {
        !matches!(self, Self::Water | Self::LeavesWell)
    }
}

/// The water's share of the measured metal: of what the blanks saw, the rest.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Share {
    /// The best share between 0 and 1; none when the gross is not above zero.
    pub value: Option<f64>,
    /// 1 − blank/gross as it comes, outside 0 to 1 too; none when the gross is zero.
    pub raw: Option<f64>,
    /// Standard uncertainty of `raw` by linear propagation.
    pub u: Option<f64>,
    /// Degrees of freedom behind it.
    pub dof: f64,
    /// Interval of the share, inside 0 to 1.
    pub interval: (f64, f64),
    /// Confidence of the interval, two-sided.
    pub confidence: f64,
    /// Where the best share lies.
    pub held: Held,
    /// Gross, blank and share as nodes.
    #[serde(skip)]
    pub derivation: Derivation,
}

/// The water's share from gross and blank.
///
/// # Errors
/// [`Error::Unit`] when gross and blank cannot be brought to one unit, [`Error::OutOfRange`] for a
/// negative u, both u zero, a covariance beyond u·u, or a confidence outside (0, 1).
///
/// ```
/// # use cleanliness::share::{water_share, GrossAndBlank};
/// # use quantity::{Measured, Unit};
/// let pg = |value, u| Measured::with_dof(value, u, 9.0, Unit::known("pg"));
/// // The field blank holds more than the bottle: the plain share is negative, the interval starts at 0.
/// let s = water_share(&GrossAndBlank { gross: pg(20.0, 3.0), blank: pg(24.0, 4.0), covariance: 0.0 }, 0.95)?;
/// assert!(s.raw.unwrap() < 0.0 && s.value == Some(0.0) && s.interval.0 == 0.0 && s.interval.1 < 0.5);
/// # Ok::<(), cleanliness::Error>(())
/// ```
pub fn water_share(input: &GrossAndBlank, confidence: f64) -> Result<Share, Error> {
    let (g, b) = checked(input, confidence)?;
    let c = input.covariance;
    let spread = |rho: f64| b.u * b.u + rho * rho * g.u * g.u - 2.0 * rho * c;
    if g.value <= 0.0 {
        return Ok(no_gross(input, confidence));
    }
    let rho = b.value / g.value;
    let held = if rho > 1.0 {
        Held::AtZero
    } else if rho < 0.0 {
        Held::AtOne
    } else {
        Held::Inside
    };
    let best = rho.clamp(0.0, 1.0);
    let dof = dof_of(&g, &b, best);
    let t = t::quantile(0.5 + 0.5 * confidence, dof);
    let misfit = |r: f64| (b.value - r * g.value).powi(2) / spread(r);
    let least = if held == Held::Inside { 0.0 } else { misfit(best) };
    let pair = Pair { a: b.value, u_a: b.u, b: g.value, u_b: g.u, covariance: c };
    let (low, high) = within(&pair, t * t + least, 0.0, 1.0);
    let u = spread(rho).sqrt() / g.value;
    Ok(Share {
        value: Some(1.0 - best),
        raw: Some(1.0 - rho),
        u: Some(u),
        dof,
        interval: (1.0 - high, 1.0 - low),
        confidence,
        held,
        derivation: derive(input, 1.0 - rho, u, dof),
    })
}

/// The share when the blank is a non-detect: at least 1 − limit/gross. The interval runs from the
/// lower bound with the blank at its limit to 1; the value stays open.
///
/// # Errors
/// As [`water_share`]; [`Error::OutOfRange`] for a limit that is not positive.
pub fn water_share_blank_below(gross: &Measured, limit: f64, confidence: f64) -> Result<Share, Error> {
    if limit.is_nan() || limit <= 0.0 {
        return Err(Error::out_of_range("limit of the blank", format!("{limit} {}", gross.unit), "more than 0"));
    }
    let at_limit =
        GrossAndBlank { gross: gross.clone(), blank: Measured::new(limit, 0.0, gross.unit.clone()), covariance: 0.0 };
    // One-sided: the blank's limit bounds one side, so the whole risk lies on the other.
    let mut s = water_share(&at_limit, 2.0 * confidence - 1.0)?;
    s.confidence = confidence;
    s.interval.1 = 1.0;
    s.value = None;
    s.raw = None;
    s.u = None;
    Ok(s)
}

fn checked(input: &GrossAndBlank, confidence: f64) -> Result<(Measured, Measured), Error> {
    if !(confidence > 0.0 && confidence < 1.0) {
        return Err(Error::out_of_range("confidence", confidence, "between 0 and 1"));
    }
    let g = input.gross.clone();
    let f = input.blank.unit.conversion(&g.unit, None, None)?;
    let b = Measured {
        value: f.apply(input.blank.value),
        u: f.apply_difference(input.blank.u),
        dof: input.blank.dof,
        unit: g.unit.clone(),
    };
    for (name, m) in [("gross", &g), ("blank", &b)] {
        if !m.value.is_finite() || !m.u.is_finite() || m.u < 0.0 || m.dof.is_nan() || m.dof <= 0.0 {
            return Err(Error::out_of_range(
                name,
                format!("{} with u {} {} and {} degrees of freedom", m.value, m.u, m.unit, m.dof),
                "a finite value, u of at least 0, degrees of freedom above 0",
            ));
        }
    }
    if g.u == 0.0 && b.u == 0.0 {
        return Err(Error::out_of_range("u of gross and blank", "0 and 0", "one of them above 0"));
    }
    // A covariance beyond u·u is no covariance; rounding is let pass.
    if input.covariance.abs() > g.u * b.u * (1.0 + 1e-9) {
        return Err(Error::out_of_range(
            "covariance of gross and blank",
            input.covariance,
            format!("at most u·u = {} in size", g.u * b.u),
        ));
    }
    Ok((g, b))
}

/// Degrees of freedom of b − ρ·g.
fn dof_of(g: &Measured, b: &Measured, rho: f64) -> f64 {
    effective_dof(&[(b.u * b.u, b.dof), (rho * rho * g.u * g.u, g.dof)]).unwrap_or(f64::INFINITY)
}

fn no_gross(input: &GrossAndBlank, confidence: f64) -> Share {
    Share {
        value: None,
        raw: None,
        u: None,
        dof: input.gross.dof,
        interval: (0.0, 1.0),
        confidence,
        held: Held::NoGross,
        derivation: Derivation::new(step::Share, &[SOURCE]),
    }
}

const SOURCE: &str = "Fieller 1954, J. R. Stat. Soc. B 16:175";

fn derive(input: &GrossAndBlank, raw: f64, u: f64, dof: f64) -> Derivation {
    let mut d = Derivation::new(step::Share, &[SOURCE]);
    let g = d.given(step::MetalInBottle, Amount::Measured(input.gross.clone()), "");
    let b = d.given(step::MetalByBlanks, Amount::Measured(input.blank.clone()), "");
    d.step(
        step::WaterShare,
        Amount::Measured(Measured::with_dof(raw, u, dof, Unit::one())),
        step::WaterShareFormula,
        SOURCE,
        &[g, b],
    );
    d
}

impl Share {
    /// The share in words: "0.90 (95 % interval 0.78 to 0.97)".
    pub fn in_words(&self) -> String {
        self.says().in_english()
    }

    fn says(&self) -> Message {
        let (low, high) = self.interval;
        // Two digits of the interval's half-width.
        let decimals = decimals_for((0.5 * (high - low)).max(1e-3), 2).clamp(1, 3);
        let show = |x: f64| Shown::decimals(x, decimals, "");
        let confidence = Shown::trimmed(100.0 * self.confidence, 3, "");
        match self.value {
            Some(v) => said::WithInterval { share: show(v), confidence, low: show(low), high: show(high) }.into(),
            None => said::Between { low: show(low), high: show(high), confidence }.into(),
        }
    }
}
