//! Isotope ratios of lead in a run: 206/207 and 208/206 of every vial, whether a bottle of
//! water has the make-up of the field's contamination, and which known sources it could be of.
//!
//! In: the counts of a prepared run, counts/s. Out: ratios with u. Rates are corrected for dead
//! time and for the mean of the calibration blanks; R = ΣA/ΣB over the replicates, u from the
//! scatter of a − R·b, in which the flicker that both isotopes share cancels, and from the blanks'
//! own u. The internal standard cancels. **Mass bias**: where the recipe names vials of known
//! isotopic make-up, by the exponential law of `measurement::lead`; else all ratios of a run carry
//! the same factor, so vials of a run compare and a published ratio does not. Field blanks are
//! pooled by the same estimator, from bottle to bottle. A bottle is held against them by χ² over
//! both ratios; they share 206, so p is rough. What looks like the blanks need not come from them.
//! Known sources: [`sources`]. Checked in `crates/programme/tests/lead.rs`.

pub mod sources;

use crate::derive::Prepared;
use measurement::error::Error;
use measurement::lead::{Reference, correct, mass};
use measurement::line::Estimate;
use measurement::run::{LeadReference, Reading, Role};
use message::{Message, Shown, lead};
use quantity::{Check, Finding, Outcome};
use serde::Serialize;
use statistics::{chi2, sample::Moments};
use std::collections::BTreeMap;

/// The isotopes, in the order of the rates below.
const MASSES: [u16; 3] = [206, 207, 208];
/// Numerator and denominator of 206/207 and 208/206, as places in [`MASSES`].
const RATIOS: [(usize, usize); 2] = [(0, 1), (2, 0)];
/// Largest relative u of a ratio that tells anything.
// Ores differ by some per cent in 206/207 (from memory); the programme's own choice.
const LARGEST_RELATIVE_U: f64 = 0.05;

/// What a bottle's make-up says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lean {
    /// Cannot be told apart from the field blanks.
    AsBlanks,
    /// Another make-up than the field blanks.
    Other,
    /// Too few counts, here or in the blanks.
    CannotTell,
}

impl Lean {
    /// As a document says it.
    pub fn said(self) -> Message {
        match self {
            Self::AsBlanks => lead::AsFieldBlanks.into(),
            Self::Other => lead::AnotherMakeUp.into(),
            Self::CannotTell => lead::TooFewCounts.into(),
        }
    }
}

/// Ratios of one vial.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ratios {
    /// Position in the run.
    pub position: u32,
    /// Name of the vial.
    pub name: String,
    /// What it is.
    pub role: Role,
    /// 206/207 and 208/206, mass bias uncorrected.
    pub ratios: [Estimate; 2],
    /// The same with the mass bias corrected, where the recipe names a reference.
    pub corrected: Option<[Estimate; 2]>,
    /// Against the field blanks; none for blanks and standards, or without two field blanks.
    pub lean: Option<(Lean, f64)>,
}

/// The mass bias of a run.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MassBias {
    /// Where the known ratios are from.
    pub source: String,
    /// Vials measured.
    pub vials: Vec<String>,
    /// Known over measured, for 206/207 and 208/206.
    pub factors: [Estimate; 2],
}

/// Ratios of a run.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct LeadRatios {
    /// The mass bias; none without a reference in the recipe, or with one that could not be used.
    pub bias: Option<MassBias>,
    /// What is odd.
    pub findings: Vec<Finding>,
    /// The field blanks together, 206/207 and 208/206.
    pub field_blanks: Option<[Estimate; 2]>,
    /// Vial by vial in order of position; those with nothing above the calibration blanks are left
    /// out.
    pub vials: Vec<Ratios>,
}

/// Rates of 206, 207, 208 in the replicates of a vial.
type Rates = Vec<[f64; 3]>;

/// Ratios of all vials of a run; empty where 206, 207 and 208 were not all measured.
pub fn ratios(prepared: &Prepared) -> LeadRatios {
    let rates = rates(prepared);
    let role = |position: u32| prepared.input.vials.iter().find(|v| v.position == position);
    let of = |wanted: Role| -> Vec<[f64; 3]> {
        rates.iter().filter(|(p, _)| role(**p).is_some_and(|v| v.role == wanted)).map(|(_, r)| mean(r)).collect()
    };
    let zero = Background::of(&of(Role::CalibrationBlank));
    let blanks = of(Role::FieldBlank);
    let field_blanks = if blanks.len() > 1 { both(&blanks, &zero) } else { None };
    let mut out = LeadRatios { field_blanks, ..LeadRatios::default() };
    if let Some(reference) = prepared.recipe.lead_reference.as_ref().filter(|_| !rates.is_empty()) {
        match mass_bias(prepared, reference, &rates, &zero) {
            Ok(bias) => out.bias = Some(bias),
            Err(says) => out.findings.push(Finding::new(Check::LabLeadReference, Outcome::NotKnown, says)),
        }
    }
    for (position, replicates) in &rates {
        let (Some(vial), Some(found)) = (role(*position), both(replicates, &zero)) else { continue };
        let water = matches!(vial.role, Role::Sample | Role::Duplicate);
        out.vials.push(Ratios {
            position: *position,
            name: vial.name.clone(),
            role: vial.role,
            lean: field_blanks.filter(|_| water).map(|blanks| lean(&found, &blanks)),
            corrected: out.bias.as_ref().map(|bias| bias.apply(&found)),
            ratios: found,
        });
    }
    out
}

impl MassBias {
    /// Measured ratios times the factors. The u of the factors is common to all vials of the run.
    pub fn apply(&self, measured: &[Estimate; 2]) -> [Estimate; 2] {
        [0, 1].map(|i| {
            let (m, f) = (measured[i], self.factors[i]);
            let value = m.value * f.value;
            Estimate { value, u: value * (m.u / m.value).hypot(f.u / f.value) }
        })
    }
}

/// What is said where `measurement::lead` refuses the reference.
// The measured ratio is above zero and its isotopes are of lead, so what is refused is the recipe's ratio.
fn refused(why: &Error, known: f64) -> Message {
    match why {
        Error::ZeroDenominator { .. } => lead::BiasOneIsotope.into(),
        _ => lead::BiasOutOfRange { value: Shown::as_given(known, "") }.into(),
    }
}

/// Factors from the reference's vials; what is said where there are none.
fn mass_bias(
    prepared: &Prepared,
    reference: &LeadReference,
    rates: &BTreeMap<u32, Rates>,
    zero: &Background,
) -> Result<MassBias, Message> {
    let mut measured: Vec<Rates> = vec![];
    for name in &reference.vials {
        let position = prepared.input.vials.iter().find(|v| v.name == *name).map(|v| v.position);
        let found = position.and_then(|p| rates.get(&p));
        measured.push(found.ok_or_else(|| Message::from(lead::BiasVial { vial: name.as_str().into() }))?.clone());
    }
    // Several vials: their scatter; one vial: the scatter of its replicates.
    let rows: Rates = if measured.len() > 1 { measured.iter().map(|r| mean(r)).collect() } else { measured.concat() };
    let mut factors = [Estimate { value: 1.0, u: 0.0 }; 2];
    for (factor, (a, b)) in factors.iter_mut().zip(RATIOS) {
        let (top, bottom) = (MASSES[a], MASSES[b]);
        let same = |r: &&measurement::run::LeadRatio| {
            (r.numerator, r.denominator) == (top, bottom) || (r.denominator, r.numerator) == (top, bottom)
        };
        let known = reference
            .ratios
            .iter()
            .find(same)
            .or(reference.ratios.first())
            .ok_or_else(|| Message::from(lead::BiasNoRatio))?;
        let place = |m: u16| {
            MASSES
                .iter()
                .position(|x| *x == m)
                .ok_or_else(|| Message::from(lead::BiasNotMeasured { mass: m.to_string().into() }))
        };
        let found = ratio(&rows, zero, place(known.numerator)?, place(known.denominator)?)
            .ok_or_else(|| Message::from(lead::BiasTooLittle))?;
        let refused = |why: Error| refused(&why, known.value);
        let of_reference = Reference {
            masses: (mass(known.numerator).map_err(refused)?, mass(known.denominator).map_err(refused)?),
            certified: Estimate { value: known.value, u: known.u },
            measured: found,
        };
        let masses = (mass(top).map_err(refused)?, mass(bottom).map_err(refused)?);
        *factor = correct(&Estimate { value: 1.0, u: 0.0 }, masses, &of_reference).map_err(refused)?;
    }
    Ok(MassBias { source: reference.source.clone(), vials: reference.vials.clone(), factors })
}

/// Dead-time corrected rates by vial, at the first resolution that lead was measured at; a vial
/// with an isotope taken out or missing is left out.
fn rates(prepared: &Prepared) -> BTreeMap<u32, Rates> {
    let dead = prepared.recipe.dead_time;
    let of_lead = |r: &&Reading| r.isotope.element == "Pb" && r.excluded.is_none() && !r.rates_cps.is_empty();
    let readings: Vec<&Reading> = prepared.input.readings.iter().filter(of_lead).collect();
    let Some(resolution) = readings.iter().map(|r| r.isotope.resolution.clone()).min() else {
        return BTreeMap::new();
    };
    let mut by_vial: BTreeMap<u32, [Option<&[f64]>; 3]> = BTreeMap::new();
    for r in readings.iter().filter(|r| r.isotope.resolution == resolution) {
        if let Some(place) = MASSES.iter().position(|m| *m == r.isotope.mass) {
            by_vial.entry(r.position).or_default()[place] = Some(&r.rates_cps);
        }
    }
    by_vial
        .into_iter()
        .filter_map(|(position, isotopes)| {
            let [Some(a), Some(b), Some(c)] = isotopes else { return None };
            let n = a.len().min(b.len()).min(c.len());
            // A rate that no true one gives leaves its vial out.
            let sweep = |k: usize| Some([dead.true_rate(a[k])?, dead.true_rate(b[k])?, dead.true_rate(c[k])?]);
            Some((position, (0..n).map(sweep).collect::<Option<_>>()?))
        })
        .collect()
}

fn mean(rates: &[[f64; 3]]) -> [f64; 3] {
    let n = rates.len() as f64;
    [0, 1, 2].map(|i| rates.iter().map(|r| r[i]).sum::<f64>() / n)
}

/// Mean rates of the calibration blanks with the variance of the mean.
struct Background {
    rate: [f64; 3],
    variance: [f64; 3],
}

impl Background {
    fn of(blanks: &[[f64; 3]]) -> Self {
        let n = blanks.len() as f64;
        let each = [0, 1, 2].map(|i| Moments::of(&blanks.iter().map(|b| b[i]).collect::<Vec<f64>>()));
        Self {
            rate: each.map(|m| m.map_or(0.0, |m| m.mean)),
            variance: each.map(|m| m.and_then(|m| m.variance()).map_or(0.0, |v| v / n)),
        }
    }
}

/// Both ratios; none where a denominator is not above zero or one replicate tells no scatter.
fn both(rates: &[[f64; 3]], zero: &Background) -> Option<[Estimate; 2]> {
    let [first, second] = RATIOS.map(|(a, b)| ratio(rates, zero, a, b));
    Some([first?, second?])
}

fn ratio(rates: &[[f64; 3]], zero: &Background, a: usize, b: usize) -> Option<Estimate> {
    let n = rates.len() as f64;
    let net = |i: usize| rates.iter().map(move |r| r[i] - zero.rate[i]);
    let (top, bottom) = (net(a).sum::<f64>() / n, net(b).sum::<f64>() / n);
    if rates.len() < 2 || top <= 0.0 || bottom <= 0.0 {
        return None;
    }
    let value = top / bottom;
    let scatter: f64 = net(a).zip(net(b)).map(|(x, y)| (x - value * y).powi(2)).sum();
    let variance = scatter / (n - 1.0) / n + zero.variance[a] + value * value * zero.variance[b];
    Some(Estimate { value, u: variance.sqrt() / bottom })
}

fn lean(found: &[Estimate; 2], blanks: &[Estimate; 2]) -> (Lean, f64) {
    let chi_squared: f64 =
        found.iter().zip(blanks).map(|(f, b)| (f.value - b.value).powi(2) / (f.u * f.u + b.u * b.u)).sum();
    let p = chi2::sf(chi_squared, 2.0);
    let vague = found.iter().chain(blanks).any(|e| e.u > LARGEST_RELATIVE_U * e.value);
    let lean = match (p < 0.05, vague) {
        (true, _) => Lean::Other,
        (false, true) => Lean::CannotTell,
        (false, false) => Lean::AsBlanks,
    };
    (lean, p)
}
