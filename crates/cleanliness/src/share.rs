//! How much of the metal found in a bottle came with the water?
//!
//! What the blanks leave is the water's share where blanks met every stage. They never meet the pipe ([`Unmet`]): where
//! that may speak, the part left is only "not from air, bottle or laboratory".
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
use message::{Message, Name, Shown, share as said, step};
use quantity::format::decimals_for;
use quantity::{Amount, Check, Derivation, Finding, Measured, Outcome, Unit};
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

/// What no blank met on the way of a bottle. Blanks see what hands, bottle and laboratory add, and the air that they were
/// opened in; the pipe they never see.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Unmet {
    /// Why the pipe may have its part in what the blanks leave; none where the water passed it within the programme's
    /// limit and nothing tells of it.
    pub pipe: Option<Pipe>,
    /// Where the bottle stood in the open air and no blank did; none where it did not, or a blank did too.
    pub open_air: Option<String>,
}

/// Why the pipe may have its part in what the blanks leave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Pipe {
    /// The water touched it longer than the programme allows, both in minutes.
    Long {
        /// Contact, min.
        contact_min: f64,
        /// The programme's limit, min.
        longest_min: f64,
    },
    /// Bottles at different flow show its metal.
    Seen,
    /// Nobody knows how long the water touched it.
    NotKnown,
}

/// What the part of the metal that the blanks leave is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default, Serialize)]
pub enum Left {
    /// The water's.
    #[default]
    #[serde(rename = "the water's")]
    Water,
    /// The water's and, unmeasured, the open air's.
    #[serde(rename = "the water's, open air not measured")]
    WaterAndOpenAir,
    /// The water's and the pipe's.
    #[serde(rename = "not from air, bottle or laboratory")]
    WaterAndPipe,
    /// The water's, the pipe's and, unmeasured, the open air's.
    #[serde(rename = "not from air, bottle or laboratory, open air not measured")]
    WaterPipeAndOpenAir,
}

impl Left {
    /// In words, as in JSON.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Water => "the water's",
            Self::WaterAndOpenAir => "the water's, open air not measured",
            Self::WaterAndPipe => "not from air, bottle or laboratory",
            Self::WaterPipeAndOpenAir => "not from air, bottle or laboratory, open air not measured",
        }
    }

    /// May the pipe's metal be in it?
    pub fn holds_pipe(self) -> bool {
        matches!(self, Self::WaterAndPipe | Self::WaterPipeAndOpenAir)
    }
}

impl Unmet {
    /// What the blanks then leave.
    pub fn left(&self) -> Left {
        match (self.pipe.is_some(), self.open_air.is_some()) {
            (false, false) => Left::Water,
            (false, true) => Left::WaterAndOpenAir,
            (true, false) => Left::WaterAndPipe,
            (true, true) => Left::WaterPipeAndOpenAir,
        }
    }

    /// What the blanks leave a share to, and why it is not the water's alone; none where it is.
    fn says(&self, share: Message) -> Option<Message> {
        let place = self.open_air.as_deref().map(Name::from);
        Some(match (self.pipe.map(Pipe::says), place) {
            (None, None) => return None,
            (None, Some(place)) => said::LeftWithAir { share, place }.into(),
            (Some(pipe), None) => said::LeftWithPipe { share, pipe }.into(),
            (Some(pipe), Some(place)) => said::LeftWithPipeAndAir { share, pipe, place }.into(),
        })
    }
}

impl Pipe {
    fn says(self) -> Message {
        let min = |t| Shown::significant(t, 3, "min");
        match self {
            Self::Long { contact_min, longest_min } => {
                said::PipeLong { contact: min(contact_min), longest: min(longest_min) }.into()
            }
            Self::Seen => said::PipeSeen.into(),
            Self::NotKnown => said::PipeNotKnown.into(),
        }
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

    /// The finding: is the lower end of the interval at least what the programme asks, and is the part that the blanks
    /// leave the water's? Beside a pipe that may speak it is not met; where the contact is not known, or no blank met
    /// the open air, it is not known, unless the blanks alone say that it is not met.
    pub fn finding(&self, least: f64, unmet: &Unmet) -> Finding {
        let (by_blanks, why) = self.by_blanks(least);
        let outcome = match (self.held, unmet.pipe) {
            (Held::NoGross, _) => by_blanks,
            (_, Some(Pipe::Long { .. } | Pipe::Seen)) => Outcome::NotMet,
            _ if unmet.left() == Left::Water || by_blanks == Outcome::NotMet => by_blanks,
            _ => Outcome::NotKnown,
        };
        let of_rest = unmet.says(self.says()).filter(|_| self.held != Held::NoGross);
        let says = of_rest.unwrap_or_else(|| said::OfWater { share: self.says(), why }.into());
        let finding = Finding::new(Check::NumberWaterShare, outcome, says);
        let finding = match (self.raw, self.u) {
            (Some(raw), Some(u)) => finding.comparing(
                message::compared::OneLessBlankOverGross,
                Amount::Measured(Measured::with_dof(raw, u, self.dof, Unit::one())),
            ),
            _ => finding,
        }
        .comparing(message::compared::LeastShare, Amount::stated(least, Unit::one()));
        match unmet.pipe {
            Some(Pipe::Long { contact_min, longest_min }) => finding
                .comparing(message::compared::ContactWithPipe, Amount::stated(contact_min, Unit::known("min")))
                .comparing(message::compared::LongestContact, Amount::stated(longest_min, Unit::known("min"))),
            _ => finding,
        }
    }

    /// What the blanks alone say, were all that they leave the water's.
    fn by_blanks(&self, asked: f64) -> (Outcome, Message) {
        let least = Shown::as_given(asked, "");
        match self.held {
            Held::NoGross => (Outcome::NotKnown, said::NoMetal.into()),
            Held::AtZero => (Outcome::NotMet, said::BlankAbove.into()),
            _ if self.interval.0 >= asked => (Outcome::Met, said::Enough { least }.into()),
            _ if self.interval.1 < asked => (Outcome::NotMet, said::TooLittle { least }.into()),
            _ => (Outcome::NotKnown, said::Undecided { least }.into()),
        }
    }
}
