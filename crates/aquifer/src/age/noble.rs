//! At what temperature did the water leave the air, and how much air did it take along?
//!
//! In: Ne, Ar, Kr, Xe (and He, N2) in mol/kg with u, height of recharge in m. Out: recharge temperature in °C under each
//! model of excess air, the band over the models that fit, ΔNe in percent, helium of the rock and excess nitrogen in
//! mol/kg, the line of temperature against height.
//!
//! Method: C = Ceq(T, P) + excess of dry air; unfractionated; closed-system equilibration (Aeschbach-Hertig et al. 2000,
//! Nature 405:1040; recalled); partial re-equilibration (Stute et al. 1995, Science 269:379; recalled). χ² fit, a model is
//! kept at p > 0.01. Ceq: one set whole (Jenkins, Lott & Cahill 2019; N2 of Hamme & Emerson 2004), fresh water, 0 to
//! 35 °C, pressure of the standard atmosphere. What an older set would shift the temperature by is part of the band.
//!
//! Goodness of fit does not say which of the models is right (Cey et al. 2008): the answer is the band. Helium is never
//! in the fit, nitrogen neither. Checked in `tests/validation_noble.rs`.

use super::constants::{constant, number};
use super::gases::{pressure_atm, vapour_atm};
use super::least_squares::{Least, least};
use crate::Reason;
use message::{Message, Shown, aquifer as part, origin as said};
use nalgebra::DMatrix;
use serde::{Deserialize, Serialize};
use statistics::{chi2, normal};
use std::sync::LazyLock;

/// A gas of the air in water.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Gas {
    /// Helium.
    He,
    /// Neon.
    Ne,
    /// Argon.
    Ar,
    /// Krypton.
    Kr,
    /// Xenon.
    Xe,
    /// Nitrogen.
    N2,
}

impl Gas {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::He, Self::Ne, Self::Ar, Self::Kr, Self::Xe, Self::N2];
    /// Those of the fit.
    pub const FITTED: [Self; 4] = [Self::Ne, Self::Ar, Self::Kr, Self::Xe];

    /// Its symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::He => "He",
            Self::Ne => "Ne",
            Self::Ar => "Ar",
            Self::Kr => "Kr",
            Self::Xe => "Xe",
            Self::N2 => "N2",
        }
    }

    /// Mole fraction in dry air.
    pub fn in_air(self) -> f64 {
        LAWS[self as usize].in_air
    }

    /// Diffusion in water over that of neon.
    pub fn diffusion(self) -> f64 {
        LAWS[self as usize].diffusion
    }
}

/// A set of solubilities.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Solubilities {
    /// Jenkins, Lott & Cahill 2019.
    Jenkins2019,
    /// Hamme & Emerson 2004 for Ne and Ar, Weiss & Kyser 1978 for Kr: to see what the choice does.
    Older,
}

/// ln Ceq, the amount in fresh water under moist air at 1 atm.
enum Law {
    /// A1 + A2(100/T) + A3 ln(T/100) + A4(T/100), T in K.
    Weiss([f64; 4]),
    /// Σ Ai·y^i, y = ln((298.15 − t)/(273.15 + t)), t in °C.
    Scaled(Vec<f64>),
}

struct Laws {
    in_air: f64,
    diffusion: f64,
    law: (Law, f64),
    older: Option<(Law, f64)>,
}

/// By the order of [`Gas::ALL`].
static LAWS: LazyLock<Vec<Laws>> = LazyLock::new(|| {
    Gas::ALL
        .into_iter()
        .map(|gas| {
            let s = gas.symbol();
            let weiss = |set: &str| Law::Weiss([1, 2, 3, 4].map(|i| number(&format!("{s}.{set}.A{i}"))));
            let scaled = |set: &str, n: i32| {
                let row = |i| constant(&format!("{s}.{set}.A{i}"));
                let to_mol = if row(0).unit == "nmol/kg" { 1e-9 } else { 1e-6 };
                (Law::Scaled((0..n).map(|i| row(i).value).collect()), to_mol)
            };
            Laws {
                in_air: number(&format!("air.x.{s}")),
                diffusion: number(&format!("diffusion.{s}")),
                law: if gas == Gas::N2 { scaled("Ceq", 4) } else { (weiss("Ceq"), 1.0) },
                older: match gas {
                    Gas::Ne => Some(scaled("older", 3)),
                    Gas::Ar => Some(scaled("older", 4)),
                    Gas::Kr => Some((weiss("older"), 1.0 / number("molarvol.Kr"))),
                    _ => None,
                },
            }
        })
        .collect()
});

/// Temperatures that the solubilities were measured at, °C.
// Jenkins, Lott & Cahill 2019.
const MEASURED_AT: (f64, f64) = (0.0, 35.0);

/// What fresh water holds of a gas in equilibrium with moist air, mol/kg: Ceq(t)·(P − pw)/(1 − pw), t in °C, P in atm.
/// None where the set has no such gas. Measured at 0 to 35 °C.
pub fn at_equilibrium(gas: Gas, t_c: f64, pressure_atm: f64, set: Solubilities) -> Option<f64> {
    let laws = &LAWS[gas as usize];
    let (law, to_mol) = match set {
        Solubilities::Jenkins2019 => &laws.law,
        Solubilities::Older => laws.older.as_ref()?,
    };
    let t = (t_c + 273.15) / 100.0;
    let ln = match law {
        Law::Weiss([a1, a2, a3, a4]) => a1 + a2 / t + a3 * libm::log(t) + a4 * t,
        Law::Scaled(a) => {
            let y = libm::log((298.15 - t_c) / (273.15 + t_c));
            a.iter().rev().fold(0.0, |sum, a| sum * y + a)
        }
    };
    let pw = vapour_atm(t_c);
    Some(to_mol * libm::exp(ln) * (pressure_atm - pw) / (1.0 - pw))
}

/// The same by the default set, which has every gas.
pub fn in_water(gas: Gas, t_c: f64, pressure_atm: f64) -> f64 {
    at_equilibrium(gas, t_c, pressure_atm, Solubilities::Jenkins2019).expect("the set has every gas")
}

impl Gas {
    /// cm³ STP of a mol: of the real gas where the table has it, else of an ideal one.
    fn molar_volume(self) -> f64 {
        match self {
            Self::He => number("molarvol.He"),
            Self::Kr => number("molarvol.Kr"),
            _ => number("molarvol.air"),
        }
    }

    /// mol/kg of a volume in cm³ STP/g.
    pub fn mol_per_kg(self, cm3_stp_per_g: f64) -> f64 {
        cm3_stp_per_g * 1000.0 / self.molar_volume()
    }

    /// cm³ STP/g of an amount in mol/kg.
    pub fn cm3_stp_per_g(self, mol_kg: f64) -> f64 {
        mol_kg * self.molar_volume() / 1000.0
    }
}

/// Air beyond equilibrium, A in mol dry air per kg water.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Excess {
    /// Air as it is: C = Ceq + A·z. A below 0: gas was lost.
    Unfractionated {
        /// Dry air, mol/kg.
        air_mol_kg: f64,
    },
    /// Closed-system equilibration: C = Ceq + (1 − F)·A·z/(1 + F·A·z/Ceq). F = 0 unfractionated, 1 none, above 1 lost.
    ClosedSystem {
        /// Dry air entrapped, mol/kg.
        air_mol_kg: f64,
        /// Fractionation.
        fractionation: f64,
    },
    /// Partial re-equilibration: C = Ceq + A·z·exp(−F·D/D(Ne)).
    Reequilibrated {
        /// Dry air dissolved at first, mol/kg.
        air_mol_kg: f64,
        /// Share of neon's excess that left, as −ln of what stayed.
        lost: f64,
    },
}

impl Excess {
    /// What the water holds of a gas: `equilibrium` in mol/kg, mole fraction in dry air, diffusion over neon's.
    pub fn concentration(&self, equilibrium: f64, in_air: f64, diffusion: f64) -> f64 {
        match *self {
            Self::Unfractionated { air_mol_kg } => equilibrium + air_mol_kg * in_air,
            Self::ClosedSystem { air_mol_kg, fractionation } => {
                let entrapped = air_mol_kg * in_air;
                equilibrium + (1.0 - fractionation) * entrapped / (1.0 + fractionation * entrapped / equilibrium)
            }
            Self::Reequilibrated { air_mol_kg, lost } => {
                equilibrium + air_mol_kg * in_air * libm::exp(-lost * diffusion)
            }
        }
    }
}

/// A model of excess air.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Model {
    /// [`Excess::Unfractionated`].
    Unfractionated,
    /// [`Excess::ClosedSystem`].
    ClosedSystem,
    /// [`Excess::Reequilibrated`].
    Reequilibrated,
}

/// Unit of the entrapped air among the parameters of the unfractionated model, mol/kg: parameters near 1.
const AIR_UNIT: f64 = 1e-4;

impl Model {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Unfractionated, Self::ClosedSystem, Self::Reequilibrated];

    /// As a person is told.
    pub fn said(self) -> Message {
        match self {
            Self::Unfractionated => said::Unfractionated.into(),
            Self::ClosedSystem => said::ClosedSystem.into(),
            Self::Reequilibrated => said::Reequilibrated.into(),
        }
    }

    fn parameters(self) -> usize {
        if self == Self::Unfractionated { 2 } else { 3 }
    }

    /// Parameters: temperature; entrapped air (in [`AIR_UNIT`], or its logarithm); fractionation or loss.
    fn excess(self, p: &[f64]) -> Excess {
        match self {
            Self::Unfractionated => Excess::Unfractionated { air_mol_kg: p[1] * AIR_UNIT },
            Self::ClosedSystem => Excess::ClosedSystem { air_mol_kg: libm::exp(p[1]), fractionation: p[2] },
            Self::Reequilibrated => Excess::Reequilibrated { air_mol_kg: libm::exp(p[1]), lost: p[2] },
        }
    }

    fn bounds(self) -> Vec<(f64, f64)> {
        // The programme's own choice, far beyond what ground holds: 0.02 cm³ to 2 L of air in a kilogram of water; three
        // times as much gas lost as equilibrium leaves; neon's excess down to e^-10.
        let air = (libm::log(1e-6), libm::log(0.1));
        match self {
            Self::Unfractionated => vec![MEASURED_AT, (-50.0, 1000.0)],
            Self::ClosedSystem => vec![MEASURED_AT, air, (0.0, 3.0)],
            Self::Reequilibrated => vec![MEASURED_AT, air, (0.0, 10.0)],
        }
    }

    fn starts(self) -> Vec<Vec<f64>> {
        match self {
            Self::Unfractionated => vec![vec![12.0, 2.0]],
            Self::ClosedSystem => {
                [2e-4, 2e-3].iter().flat_map(|a: &f64| [0.1, 0.5, 1.3].map(|f| vec![12.0, libm::log(*a), f])).collect()
            }
            Self::Reequilibrated => {
                [2e-4, 2e-3].iter().flat_map(|a: &f64| [0.1, 1.0].map(|f| vec![12.0, libm::log(*a), f])).collect()
            }
        }
    }
}

/// A measured gas, mol/kg.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MeasuredGas {
    /// Which.
    pub gas: Gas,
    /// Amount, mol/kg.
    pub mol_kg: f64,
    /// Its standard uncertainty, mol/kg.
    pub u_mol_kg: f64,
}

/// The gases of one sample.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Gases {
    /// Each gas once.
    pub measured: Vec<MeasuredGas>,
    /// Whether bubbles were seen while the tube was filled.
    pub bubbles: bool,
}

/// What the test says of a model.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// p(χ²) above 0.01.
    Accepted,
    /// As many parameters as gases: fits by construction, nothing is tested.
    Untested,
    /// p(χ²) of 0.01 or less.
    Rejected,
    /// The best temperature lies at the end of what the solubilities were measured at.
    AtTheEnd,
}

impl Verdict {
    /// Whether it may stand in the band.
    pub fn stands(self) -> bool {
        matches!(self, Self::Accepted | Self::Untested)
    }
}

/// A model fitted to a sample.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fit {
    /// Which model.
    pub model: Model,
    /// Recharge temperature, °C.
    pub temperature_c: f64,
    /// Its standard uncertainty, K; none where the gases do not determine it.
    pub u_temperature_k: Option<f64>,
    /// Excess air. Its two numbers are hardly separable: see the correlation.
    pub excess: Excess,
    /// Sum of squared residuals in units of their u.
    pub chi2: f64,
    /// Gases less parameters.
    pub dof: usize,
    /// p(χ²); none without degrees of freedom.
    pub p: Option<f64>,
    /// What the test says.
    pub verdict: Verdict,
    /// (fitted − measured)/u of each gas.
    pub residuals: Vec<(Gas, f64)>,
    /// Neon above equilibrium, percent, and its u.
    pub delta_neon_percent: (f64, Option<f64>),
    /// Correlation of ln A and F.
    pub correlation: Option<f64>,
    /// Covariance of the parameters: temperature (K), entrapped air (1e-4 mol/kg, or its ln), fractionation or loss.
    pub covariance: Option<Vec<Vec<f64>>>,
    #[serde(skip)]
    at: Vec<f64>,
}

impl Fit {
    /// What the model says the water holds of a gas, mol/kg, with u from the fit.
    fn predicted(&self, gas: Gas, pressure: f64) -> (f64, f64) {
        let of = |p: &[f64]| modelled(self.model, p, gas, pressure, Solubilities::Jenkins2019).unwrap_or(f64::NAN);
        let slope: Vec<f64> = (0..self.at.len())
            .map(|k| {
                let (mut up, mut down) = (self.at.clone(), self.at.clone());
                let h = 1e-4 * self.at[k].abs().max(1.0);
                up[k] += h;
                down[k] -= h;
                (of(&up) - of(&down)) / (2.0 * h)
            })
            .collect();
        let variance = self.covariance.as_ref().map_or(0.0, |c| {
            let row = |i: usize| c[i].iter().zip(&slope).map(|(c, s)| c * s).sum::<f64>();
            slope.iter().enumerate().map(|(i, s)| s * row(i)).sum()
        });
        (of(&self.at), variance.max(0.0).sqrt())
    }
}

/// A model tried on a sample.
#[derive(Debug, Clone, PartialEq)]
pub struct Tried {
    /// Which model.
    pub model: Model,
    /// The fit, or why there is none.
    pub fit: Result<Fit, Reason>,
}

/// What noble gases say at a stated height of recharge.
#[derive(Debug, Clone, PartialEq)]
pub struct NobleRecharge {
    /// Height of recharge, m: the temperature holds for this height alone.
    pub height_m: f64,
    /// Every model.
    pub tried: Vec<Tried>,
    /// The union of 95 % ranges over the models that stand, °C; none where all are rejected.
    pub band_c: Option<(f64, f64)>,
    /// What the older solubilities would shift the temperature by, K; part of the band.
    pub set_shift_k: Option<f64>,
    /// Helium beyond air, mol/kg, and u, by the first model that stands.
    pub helium_of_rock_mol_kg: Option<(f64, f64)>,
    /// Nitrogen beyond air, mol/kg, and u, likewise.
    pub excess_nitrogen_mol_kg: Option<(f64, f64)>,
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

impl NobleRecharge {
    /// The simplest model that stands.
    pub fn first(&self) -> Option<&Fit> {
        self.tried.iter().filter_map(|t| t.fit.as_ref().ok()).find(|f| f.verdict.stands())
    }
}

fn modelled(model: Model, p: &[f64], gas: Gas, pressure: f64, set: Solubilities) -> Option<f64> {
    let equilibrium = at_equilibrium(gas, p[0], pressure, set)?;
    Some(model.excess(p).concentration(equilibrium, gas.in_air(), gas.diffusion()))
}

/// Recharge temperature and excess air at a height, m.
///
/// # Errors
/// [`Reason`]: bubbles; a gas twice, without u, or far from what any water holds (a unit); less than Ne and Ar; a height
/// beyond −500 to 5000 m.
///
/// ```
/// use aquifer::age::noble::{Gas, Gases, MeasuredGas, recharge};
/// // Neon and argon alone: temperature and air follow by construction, and the answer says that nothing was tested.
/// let gas = |gas, mol_kg: f64| MeasuredGas { gas, mol_kg, u_mol_kg: 0.01 * mol_kg };
/// let measured = vec![gas(Gas::Ne, 11.0e-9), gas(Gas::Ar, 18.1e-6)];
/// let r = recharge(&Gases { measured: measured.clone(), bubbles: false }, 100.0).unwrap();
/// assert!(r.first().unwrap().p.is_none() && !r.findings.is_empty());
/// // Bubbles at the tube: no answer.
/// assert!(recharge(&Gases { measured, bubbles: true }, 100.0).is_err());
/// ```
pub fn recharge(gases: &Gases, height_m: f64) -> Result<NobleRecharge, Reason> {
    check(gases)?;
    if !(-500.0..=5000.0).contains(&height_m) {
        let range = part::Between { low: Shown::as_given(-500.0, "m"), high: Shown::as_given(5000.0, "m") };
        return Err(Reason::out_of_range(said::HeightOfRecharge, Shown::as_given(height_m, "m"), range));
    }
    let pressure = pressure_atm(height_m);
    let fitted: Vec<MeasuredGas> = gases.measured.iter().filter(|m| Gas::FITTED.contains(&m.gas)).copied().collect();
    let tried: Vec<Tried> = Model::ALL
        .into_iter()
        .filter(|m| fitted.len() >= m.parameters())
        .map(|model| Tried { model, fit: fit(model, &fitted, pressure, Solubilities::Jenkins2019) })
        .collect();
    let set_shift_k = shift_between_sets(&fitted, pressure);
    let mut out = NobleRecharge {
        height_m,
        band_c: band(&tried, set_shift_k),
        tried,
        set_shift_k,
        helium_of_rock_mol_kg: None,
        excess_nitrogen_mol_kg: None,
        findings: vec![],
    };
    out.findings = of_the_fits(&out, fitted.len());
    if let Some(first) = out.first().cloned() {
        let beyond_air = |gas: Gas| {
            let m = gases.measured.iter().find(|m| m.gas == gas)?;
            let (value, u) = first.predicted(gas, pressure);
            Some((*m, (m.mol_kg - value, m.u_mol_kg.hypot(u))))
        };
        let (helium, nitrogen) = (beyond_air(Gas::He), beyond_air(Gas::N2));
        out.findings.extend(helium.and_then(|(m, beyond)| of_helium(&m, beyond, &first, pressure)));
        out.findings.extend(nitrogen.and_then(|(_, beyond)| of_nitrogen(beyond)));
        out.helium_of_rock_mol_kg = helium.map(|h| h.1);
        out.excess_nitrogen_mol_kg = nitrogen.map(|n| n.1);
    }
    Ok(out)
}

fn check(gases: &Gases) -> Result<(), Reason> {
    if gases.bubbles {
        return Err(Reason::unlike(said::GasSample, said::Bubbles, said::WithoutBubbles));
    }
    for (i, m) in gases.measured.iter().enumerate() {
        let what = said::GasOfSample { gas: m.gas.symbol().into() };
        let amount = |x| Shown::significant(x, 3, "mol/kg");
        if !(m.mol_kg.is_finite() && m.u_mol_kg > 0.0 && m.u_mol_kg.is_finite()) {
            let found = part::ValueWithU { value: amount(m.mol_kg), u: amount(m.u_mol_kg) };
            return Err(Reason::unlike(what, found, said::AmountWithU));
        }
        if gases.measured[..i].iter().any(|o| o.gas == m.gas) {
            return Err(Reason::unlike(what, said::GivenTwice, said::GivenOnce));
        }
        // Water of any recharge holds between half and a few times of this; beyond, a unit or a sample is wrong. Helium of
        // rock has no upper end.
        let usual = in_water(m.gas, 10.0, 1.0);
        let most = if m.gas == Gas::He { f64::INFINITY } else { 20.0 * usual };
        if !(0.05 * usual..=most).contains(&m.mol_kg) {
            return Err(Reason::out_of_range(what, amount(m.mol_kg), said::NearSolubility { usual: amount(usual) }));
        }
    }
    let has = |g| gases.measured.iter().any(|m| m.gas == g);
    let have = usize::from(has(Gas::Ne)) + usize::from(has(Gas::Ar));
    if have < 2 {
        let (what, hint) = (said::NeonAndArgon.into(), said::MeasureNeonAndArgon.into());
        return Err(Reason::TooFew { what, have, need: 2, hint });
    }
    Ok(())
}

fn fit(model: Model, gases: &[MeasuredGas], pressure: f64, set: Solubilities) -> Result<Fit, Reason> {
    // The solubility's own u, percent of the amount, one more part of the u of each gas.
    let of_solubility = number("noble.u_sol") / 100.0;
    let u: Vec<f64> = gases.iter().map(|m| m.u_mol_kg.hypot(of_solubility * m.mol_kg)).collect();
    let residuals = |p: &[f64]| -> Vec<f64> {
        let value = |m: &MeasuredGas| modelled(model, p, m.gas, pressure, set).unwrap_or(f64::NAN);
        gases.iter().zip(&u).map(|(m, u)| (value(m) - m.mol_kg) / u).collect()
    };
    let bounds = model.bounds();
    let mut best: Option<Least> = None;
    let mut failed = None;
    for start in model.starts() {
        match least(&start, &bounds, &residuals) {
            Ok(l) if best.as_ref().is_none_or(|b| l.sum < b.sum) => best = Some(l),
            Ok(_) => {}
            Err(e) => failed = Some(e),
        }
    }
    let Some(Least { at, sum, jacobian }) = best else {
        let (iterations, residual) = failed.map_or((0, f64::NAN), |f| (f.iterations, f.residual));
        return Err(Reason::NotConverged { what: said::FitOfGases.into(), iterations, residual });
    };
    let dof = gases.len() - model.parameters();
    let p = (dof > 0).then(|| chi2::sf(sum, dof as f64));
    let verdict = match p {
        _ if at[0] <= MEASURED_AT.0 || at[0] >= MEASURED_AT.1 => Verdict::AtTheEnd,
        None => Verdict::Untested,
        // The usual rule of acceptance (design of the tool: p above 0.01).
        Some(p) if p > 0.01 => Verdict::Accepted,
        Some(_) => Verdict::Rejected,
    };
    let covariance = (jacobian.transpose() * &jacobian).try_inverse().filter(|c| c.iter().all(|x| x.is_finite()));
    let u_temperature_k = covariance.as_ref().map(|c| c[(0, 0)].sqrt()).filter(|u| u.is_finite());
    Ok(Fit {
        model,
        temperature_c: at[0],
        u_temperature_k,
        excess: model.excess(&at),
        chi2: sum,
        dof,
        p,
        verdict,
        residuals: gases.iter().map(|m| m.gas).zip(residuals(&at)).collect(),
        delta_neon_percent: delta_neon(gases, &u, &at, pressure, set, covariance.as_ref().map(|c| (c, &jacobian))),
        correlation: (at.len() == 3)
            .then(|| covariance.as_ref().map(|c| c[(1, 2)] / (c[(1, 1)] * c[(2, 2)]).sqrt()))
            .flatten()
            .filter(|r| r.is_finite()),
        covariance: covariance.map(|c| c.row_iter().map(|r| r.iter().copied().collect()).collect()),
        at,
    })
}

/// ΔNe = C/Ceq(T) − 1 in percent. T hangs on the same neon, by the gain of the fit: cov(T, C) = (cov·Jᵀ)·u.
fn delta_neon(
    gases: &[MeasuredGas],
    u: &[f64],
    at: &[f64],
    pressure: f64,
    set: Solubilities,
    spread: Option<(&DMatrix<f64>, &DMatrix<f64>)>,
) -> (f64, Option<f64>) {
    let ne = gases.iter().position(|m| m.gas == Gas::Ne).expect("neon is asked for");
    let of = |t: f64| at_equilibrium(Gas::Ne, t, pressure, set).unwrap_or(f64::NAN);
    let ratio = gases[ne].mol_kg / of(at[0]);
    let u_percent = spread.map(|(covariance, jacobian)| {
        let by_neon = ratio / gases[ne].mol_kg;
        let by_t = -ratio * (libm::log(of(at[0] + 1e-3)) - libm::log(of(at[0] - 1e-3))) / 2e-3;
        let shared = (covariance * jacobian.transpose())[(0, ne)] * u[ne];
        let v = (by_neon * u[ne]).powi(2) + by_t * by_t * covariance[(0, 0)] + 2.0 * by_neon * by_t * shared;
        100.0 * v.max(0.0).sqrt()
    });
    (100.0 * (ratio - 1.0), u_percent.filter(|u| u.is_finite()))
}

/// The temperature of Ne, Ar and Kr by the older solubilities less that by the newer, unfractionated air.
fn shift_between_sets(gases: &[MeasuredGas], pressure: f64) -> Option<f64> {
    let both: Vec<MeasuredGas> = gases.iter().filter(|m| LAWS[m.gas as usize].older.is_some()).copied().collect();
    let t = |set| fit(Model::Unfractionated, &both, pressure, set).ok().map(|f| f.temperature_c);
    Some(t(Solubilities::Older)? - t(Solubilities::Jenkins2019)?)
}

fn band(tried: &[Tried], set_shift_k: Option<f64>) -> Option<(f64, f64)> {
    let stand = tried.iter().filter_map(|t| t.fit.as_ref().ok()).filter(|f| f.verdict.stands());
    stand
        .filter_map(|f| {
            let half = normal::TWO_SIDED_95 * f.u_temperature_k?.hypot(set_shift_k.unwrap_or(0.0));
            Some((f.temperature_c - half, f.temperature_c + half))
        })
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

/// Helium beyond air that counts as helium of the rock, cm³ STP/g.
// The programme's own choice: a fifth of what air leaves in water at 10 °C, far above the scatter of excess air.
const WELL_ABOVE_CM3_G: f64 = 1e-8;

/// What the fits say beside their numbers.
fn of_the_fits(r: &NobleRecharge, gases: usize) -> Vec<Message> {
    let mut out: Vec<Message> = vec![];
    let fits: Vec<&Fit> = r.tried.iter().filter_map(|t| t.fit.as_ref().ok()).collect();
    match r.first() {
        None => {
            let worst = fits
                .iter()
                .min_by(|a, b| a.chi2.total_cmp(&b.chi2))
                .and_then(|f| f.residuals.iter().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs())));
            if let Some((gas, by)) = worst {
                let by = Shown::significant(by.abs(), 2, "u");
                out.push(said::NoModelFits { gas: gas.symbol().into(), by }.into());
            }
        }
        Some(first) => {
            if gases == 2 {
                out.push(said::NothingTested.into());
            }
            let lost = match first.excess {
                Excess::Unfractionated { .. } => {
                    let (delta, u) = first.delta_neon_percent;
                    delta + normal::ONE_SIDED_95 * u.unwrap_or(f64::INFINITY) < 0.0
                }
                Excess::ClosedSystem { fractionation, .. } => fractionation > 1.0,
                Excess::Reequilibrated { .. } => false,
            };
            if lost {
                let delta = Shown::significant(first.delta_neon_percent.0, 2, "%");
                out.push(said::GasLost { delta }.into());
            }
        }
    }
    if fits.iter().any(|f| f.verdict == Verdict::AtTheEnd) {
        let (low, high) = (Shown::as_given(MEASURED_AT.0, "°C"), Shown::as_given(MEASURED_AT.1, "°C"));
        out.push(said::AtTheEndOfSolubilities { low, high }.into());
    }
    out
}

fn of_helium(m: &MeasuredGas, beyond: (f64, f64), fit: &Fit, pressure: f64) -> Option<Message> {
    let (helium, solubility) =
        (Shown::significant(m.mol_kg, 2, "mol/kg"), in_water(Gas::He, fit.temperature_c, pressure));
    if m.mol_kg + normal::ONE_SIDED_95 * m.u_mol_kg < solubility {
        let solubility = Shown::significant(solubility, 2, "mol/kg");
        return Some(said::HeliumBelowSolubility { helium, solubility }.into());
    }
    let well_above = Gas::He.mol_per_kg(WELL_ABOVE_CM3_G);
    (beyond.0 - normal::ONE_SIDED_95 * beyond.1 > well_above).then(|| {
        let beyond = Shown::significant(beyond.0, 2, "mol/kg");
        said::HeliumOfRock { beyond }.into()
    })
}

fn of_nitrogen(beyond: (f64, f64)) -> Option<Message> {
    (beyond.0 > 2.0 * beyond.1)
        .then(|| said::ExcessNitrogen { beyond: Shown::significant(beyond.0, 2, "mol/kg") }.into())
}

/// A place on the line of temperature against height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct AtHeight {
    /// Height of recharge, m.
    pub height_m: f64,
    /// Temperature by the simplest model that stands, °C.
    pub temperature_c: f64,
    /// The band over the models that stand, °C.
    pub band_c: (f64, f64),
}

/// Gases fix temperature and height only together: the line of temperature against height. Heights where no model stands
/// are left out.
///
/// # Errors
/// As [`recharge`].
pub fn height_line(gases: &Gases, heights_m: &[f64]) -> Result<Vec<AtHeight>, Reason> {
    let mut out = vec![];
    for &height_m in heights_m {
        let r = recharge(gases, height_m)?;
        if let (Some(fit), Some(band_c)) = (r.first(), r.band_c) {
            out.push(AtHeight { height_m, temperature_c: fit.temperature_c, band_c });
        }
    }
    Ok(out)
}

/// The ground's mean temperature along the slope of the recharge area: known at one height, with its lapse.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lapse {
    /// Height of the known mean, m.
    pub height_m: f64,
    /// The mean there, °C.
    pub temperature_c: f64,
    /// Change with height, K/km: negative upward.
    pub k_per_km: f64,
}

impl Lapse {
    /// The mean at a height, °C.
    pub fn at(&self, height_m: f64) -> f64 {
        self.temperature_c + self.k_per_km * (height_m - self.height_m) / 1000.0
    }

    /// Where a line of temperature against height (heights rising) meets the lapse: height in m and temperature in °C.
    pub fn meets(&self, line: &[AtHeight]) -> Option<(f64, f64)> {
        let off = |p: &AtHeight| p.temperature_c - self.at(p.height_m);
        line.windows(2).find(|w| off(&w[0]) * off(&w[1]) <= 0.0 && off(&w[0]) != off(&w[1])).map(|w| {
            let share = off(&w[0]) / (off(&w[0]) - off(&w[1]));
            let height = w[0].height_m + share * (w[1].height_m - w[0].height_m);
            (height, self.at(height))
        })
    }
}

/// Recharge much colder than today's mean at that height, K, as a finding: higher ground or a colder climate.
pub fn colder(r: &NobleRecharge, lapse: &Lapse) -> Option<Message> {
    // More than 3 K: own choice of the design, three times what models of excess air differ by.
    const MUCH: f64 = 3.0;
    let (_, high) = r.band_c?;
    let below = lapse.at(r.height_m) - r.first()?.temperature_c;
    (below > MUCH && high < lapse.at(r.height_m)).then(|| {
        said::ColderRecharge { below: Shown::significant(below, 2, "K"), height: Shown::as_given(r.height_m, "m") }
            .into()
    })
}
