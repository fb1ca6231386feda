//! The smell, the open bottle and the air of the well house.
//!
//! In: a solved water with sulfide. Out: H2S in the water against its published odour
//! thresholds (they differ a thousandfold, all are shown), the gas above the water, what an open
//! bottle loses and how fast its sulfide oxidises, and H2S in an enclosed well house against the
//! published occupational limits of `reference/h2s_air_limits.csv`.
//! Oxidation: HS− + 2 O2 = SO4−− + H+, first order in both; half-time 50 ± 16 h at 25 °C, pH 8
//! in air-saturated fresh water, log k rising 0.16 per pH, −3000 K in 1/T, 0.44·√I (Millero et
//! al. 1987, ES&T 21:439; from memory). Trace metals make it faster: a factor 3 either way is shown.
//! H2S kills, and it dulls the nose before it does: the figures here never replace a gas meter.
//! Checked in `tests/odour.rs`.

use crate::equilibrium::{Composition, Equilibrium, Hold, Ph, speciate};
use crate::error::{Error, within};
use crate::network::{network, row_values};
use crate::solver::Choices;
use crate::uncertainty;
use crate::water::{ZERO_CELSIUS_K, density_kg_l, oxygen_saturation_mg_l};
use core::f64::consts::LN_10;
use libm::{exp10, log};
use std::sync::OnceLock;

/// The caution that stands beside every figure for air.
pub const CAUTION: &str = "Hydrogen sulfide can kill in an enclosed well house or pit, and at dangerous levels it can no longer be smelled. Ventilate, use a calibrated gas meter, do not enter alone; local codes and licensed practice decide.";

/// A published threshold.
#[derive(Debug, Clone, PartialEq)]
pub struct Threshold {
    /// `water` or `air`.
    pub medium: String,
    /// ng/L in water, ppm in air.
    pub threshold: f64,
    /// Its unit.
    pub unit: String,
    /// What it is.
    pub what: String,
    /// Source.
    pub source: String,
    /// How the figure is known.
    pub provenance: String,
    /// Key of its row; the catalogue `odour` says medium and what it is by it.
    pub key: String,
}

/// All odour thresholds of the table.
pub fn thresholds() -> &'static [Threshold] {
    static ROWS: OnceLock<Vec<Threshold>> = OnceLock::new();
    ROWS.get_or_init(|| {
        let table = include_str!("../../../reference/odour_thresholds.csv");
        csv::Reader::from_reader(table.as_bytes())
            .records()
            .map(|r| {
                let r = r.expect("the table of thresholds is well-formed CSV");
                Threshold {
                    medium: r[1].into(),
                    threshold: r[2].parse().expect("thresholds are numbers"),
                    unit: r[3].into(),
                    what: r[4].into(),
                    source: r[5].into(),
                    provenance: r[6].into(),
                    key: r[7].into(),
                }
            })
            .collect()
    })
}

/// Sulfide of a water as the nose meets it.
#[derive(Debug, Clone, PartialEq)]
pub struct Odour {
    /// Total sulfide, mg/L as S.
    pub sulfide_mg_l_as_s: f64,
    /// Share of H2S in total sulfide.
    pub h2s_share: f64,
    /// H2S in the water, ng/L.
    pub h2s_ng_l: f64,
    /// H2S in air at equilibrium with the water, ppm by volume at 1 atm.
    pub air_ppm: f64,
    /// Each threshold and how many times it is exceeded.
    pub times: Vec<(Threshold, f64)>,
}

/// Molar mass of H2S, g/mol.
// Standard atomic weights 2021: 2·1.008 + 32.06.
const H2S_G_MOL: f64 = 34.076;
/// Molar mass of S, g/mol.
// Standard atomic weights 2021.
const S_G_MOL: f64 = 32.06;

/// Share of total sulfide that is undissociated H2S in a fresh water, 0 to 1, from pH and temperature (°C) alone. Ionic
/// strength is left out: at 0.01 mol/kg the share is as at a pH higher by 0.04 (extended Debye-Hückel).
///
/// # Errors
/// pH or temperature outside what the constants hold for.
///
/// ```
/// use aqueous::odour::undissociated_share;
/// // At pH = pK1 (6.98 at 25 °C) one half is H2S, the other bisulfide, which has no smell.
/// assert!((undissociated_share(6.98, 25.0)? - 0.5).abs() < 0.01);
/// # Ok::<(), aqueous::Error>(())
/// ```
pub fn undissociated_share(ph: f64, temperature_c: f64) -> Result<f64, Error> {
    // So little that it makes no ionic strength of its own, mol/kg.
    let totals = network().component("HS-").map(|c| (c, 1e-9)).into_iter().collect();
    let (ph, choices) = (Ph::Given(ph), Choices::default());
    let e = speciate(&Composition { temperature_c, ph, totals, alkalinity: None, pe: None, choices })?;
    Ok(odour(&e).map_or(0.0, |o| o.h2s_share))
}

/// The smell of a water; `None` without sulfide.
///
/// ```
/// use aqueous::equilibrium::{Composition, Ph, speciate};
/// use aqueous::{network::network, odour::odour, solver::Choices};
/// let water = |sulfide_mol_kg| {
///     let totals = [("Ca^2+", 1.2e-3), ("CO3^2-", 3e-3), ("HS-", sulfide_mol_kg)];
///     speciate(&Composition {
///         temperature_c: 9.0,
///         ph: Ph::Given(7.6),
///         totals: totals.iter().map(|(n, t)| (network().component(n).unwrap(), *t)).collect(),
///         alkalinity: None,
///         pe: None,
///         choices: Choices::default(),
///     })
/// };
/// // Sulfide was not found or not asked for: nothing is said, not "no smell".
/// assert!(odour(&water(0.0)?).is_none());
/// // 0.1 mg/L as S: at this pH most of it is bisulfide, which does not smell.
/// let found = odour(&water(3e-6)?).unwrap();
/// assert!(found.h2s_share < 0.5 && found.h2s_ng_l > 1e3);
/// # Ok::<(), aqueous::Error>(())
/// ```
pub fn odour(e: &Equilibrium) -> Option<Odour> {
    let net = network();
    let total = e.total(net.component("HS-")?);
    if total <= 0.0 {
        return None;
    }
    let rho = density_kg_l(e.temperature_c);
    let h2s = e.molality("H2S(aq)");
    let gas = net.gases.iter().find(|g| g.name == "H2S")?;
    let air_ppm = exp10(e.saturation_index(gas)?) * 1e6;
    let h2s_ng_l = h2s * rho * H2S_G_MOL * 1e9;
    let times = thresholds()
        .iter()
        .map(|t| {
            let x = if t.medium == "water" { h2s_ng_l } else { air_ppm };
            (t.clone(), x / t.threshold)
        })
        .collect();
    Some(Odour { sulfide_mg_l_as_s: total * rho * S_G_MOL * 1e3, h2s_share: h2s / total, h2s_ng_l, air_ppm, times })
}

/// What becomes of an open bottle.
#[derive(Debug, Clone)]
pub struct OpenBottle {
    /// pH at the well.
    pub ph_before: f64,
    /// pH once CO2 is that of air, sulfide gone, nothing precipitated.
    pub ph_after: f64,
    /// Saturation index of calcite before and after.
    pub calcite: (Option<f64>, Option<f64>),
    /// Calcite that would form at equilibrium, mg/L.
    pub calcite_mg_l: f64,
    /// CO2 that leaves, mmol/L (negative: enters).
    pub co2_leaves_mmol_l: f64,
    /// H+ released if all sulfide goes to sulfate, mmol/L.
    pub acid_mmol_l: f64,
    /// Half-time of sulfide in water saturated with air, hours: likely, shortest, longest.
    pub half_time_h: Option<(f64, f64, f64)>,
    /// Oxygen that full oxidation takes, mg/L.
    pub oxygen_mg_l: f64,
}

/// log10 of the CO2 pressure of outdoor air, atm.
// 420 µmol/mol, global mean of 2023 (NOAA Global Monitoring Laboratory; from memory).
pub const AIR_LOG_P_CO2: f64 = -3.377;

/// The open bottle: CO2 to that of air, all sulfide to sulfate.
///
/// # Errors
/// Those of the solver.
pub fn open_bottle(e: &Equilibrium) -> Result<OpenBottle, Error> {
    let net = network();
    let rho = density_kg_l(e.temperature_c);
    let component = |n: &str| net.component(n).expect("the component is in the table");
    let (hs, so4, carbon) = (component("HS-"), component("SO4^2-"), component("CO3^2-"));
    let sulfide = e.total(hs);
    // HS− + 2 O2 = SO4−− + H+ conserves charge: only the totals change.
    let oxidised = if sulfide > 0.0 { e.with_added(&[(hs, -sulfide), (so4, sulfide)], 0.0)? } else { e.clone() };
    let air = Hold::plenty("CO2", AIR_LOG_P_CO2);
    let after = oxidised.equilibrate(std::slice::from_ref(&air))?;
    let calcite = net.solids.iter().find(|s| s.name == "calcite").expect("in the table");
    let si = |e: &Equilibrium| e.saturation_index(calcite);
    let formed = match si(&after) {
        Some(x) if x > 0.0 => {
            let only_form = Hold { name: "calcite".into(), target: 0.0, available_mol_kg: 0.0 };
            let w = oxidised.equilibrate(&[air, only_form])?;
            -w.transfers[1].1.min(0.0)
        }
        _ => 0.0,
    };
    let half_time_h = (sulfide > 0.0).then(|| half_time(e));
    Ok(OpenBottle {
        ph_before: e.ph(),
        ph_after: after.ph(),
        calcite: (si(e), si(&after)),
        // 100.086 g/mol of CaCO3 from the atomic weights.
        calcite_mg_l: formed * rho * 100.086e3,
        co2_leaves_mmol_l: (e.total(carbon) - after.total(carbon)) * rho * 1e3,
        acid_mmol_l: e.molality("HS-") * rho * 1e3 + 2.0 * e.molality("H2S(aq)") * rho * 1e3,
        half_time_h,
        // Two O2 a sulfide; 31.998 g/mol.
        oxygen_mg_l: 2.0 * sulfide * rho * 31.998e3,
    })
}

/// Half-time of sulfide at the oxygen of air, hours: likely, shortest, longest.
fn half_time(e: &Equilibrium) -> (f64, f64, f64) {
    let t = e.temperature_c + ZERO_CELSIUS_K;
    // Millero et al. 1987 (from memory): 50 h at 25 °C, pH 8, I = 0, oxygen of air (258 µmol/kg).
    let anchor = libm::log10(log(2.0) / (50.0 * 258e-6));
    let ph = e.ph().clamp(4.0, 8.5);
    let log_k =
        anchor + 0.16 * (ph - 8.0) - 3000.0 * (1.0 / t - 1.0 / 298.15) + 0.44 * libm::sqrt(e.solution.ionic_strength);
    let oxygen = oxygen_saturation_mg_l(e.temperature_c) / 31.998e3;
    let likely = log(2.0) / (exp10(log_k) * oxygen);
    (likely, likely / 3.0, likely * 3.0)
}

/// A well house.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WellHouse {
    /// Flow of the well into the house, L/min.
    pub flow_l_min: f64,
    /// Air in it, m³.
    pub volume_m3: f64,
    /// Changes of air in an hour; 0 for closed.
    pub air_changes_per_h: f64,
}

/// Doubt of a water's sulfide.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SulfideUncertainty {
    /// Standard uncertainty of the sulfide as a share of it.
    pub relative_u: f64,
    /// Standard uncertainty of log10 of the H2S pressure over the water: sulfide, pH, constants.
    pub u_log_p: f64,
    /// Sulfide was not detected: all figures are those of its limit.
    pub upper_bound: bool,
}

/// Whether the air of a house can come to a limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reach {
    /// Even with less sulfide and less gas by two u.
    Reached,
    /// Doubt, a warmer water or one of lower pH decides.
    CannotTell,
    /// Not by this analysis: not with all sulfide as H2S, the water warm, and two u more.
    NotByThis,
}

/// One published limit against the air.
#[derive(Debug, Clone, PartialEq)]
pub struct AirLimit {
    /// Authority.
    pub body: String,
    /// What the limit is.
    pub level: String,
    /// The limit, ppm by volume.
    pub ppm: f64,
    /// Can the air come to it?
    pub reach: Reach,
    /// Minutes until the air reaches it at the earliest, if all H2S leaves the water; none where it is not reached.
    pub minutes: Option<f64>,
    /// How the limit is known.
    pub provenance: String,
}

/// H2S in the air of a well house.
#[derive(Debug, Clone, PartialEq)]
pub struct HouseAir {
    /// H2S that the flow can bring, mg/min.
    pub brought_mg_min: f64,
    /// Its standard uncertainty, mg/min: that of the sulfide; the flow counts as exact.
    pub u_brought_mg_min: f64,
    /// Air at equilibrium with the water at its own temperature and pH, ppm.
    pub ceiling_ppm: f64,
    /// Its standard uncertainty, ppm: sulfide, pH, constants.
    pub u_ceiling_ppm: f64,
    /// The same with all sulfide as H2S: a water that turned acid, ppm.
    pub all_as_h2s_ppm: f64,
    /// The same again with the water warmed to [`WARM_C`]; that of the water where it is warmer, ppm.
    pub warm_ppm: f64,
    /// That and two standard uncertainties of sulfide and constant: what no limit above it is reached by, ppm.
    pub highest_ppm: f64,
    /// Air at rest if all of it leaves the water, two u more of it, and no more than [`Self::highest_ppm`], ppm.
    pub at_rest_ppm: f64,
    /// The sulfide was not detected: every figure is an upper bound.
    pub upper_bound: bool,
    /// Each limit.
    pub limits: Vec<AirLimit>,
}

/// Temperature that a water may warm to in a house, °C: the gas leaves it more readily.
// Chosen here: a warm room in summer. From 10 °C the pressure over the same H2S rises by half.
pub const WARM_C: f64 = 25.0;

fn air_limits() -> Vec<(String, String, f64, String)> {
    let table = include_str!("../../../reference/h2s_air_limits.csv");
    csv::Reader::from_reader(table.as_bytes())
        .records()
        .flat_map(|r| {
            let r = r.expect("the table of air limits is well-formed CSV");
            let levels: Vec<&str> = r[1].split(' ').next_back().unwrap_or("").split('/').collect();
            let values: Vec<&str> = r[2].split(" (").next().unwrap_or("").split('/').collect();
            values
                .iter()
                .enumerate()
                .map(|(k, v)| {
                    let level = if values.len() > 1 {
                        format!("{} {}", &r[0], levels.get(k).unwrap_or(&""))
                    } else {
                        r[1].to_string()
                    };
                    let ppm = v.trim().parse().expect("air limits are numbers");
                    (r[0].to_string(), level, ppm, r[3].to_string())
                })
                .collect::<Vec<_>>()
        })
        .collect()
}

/// H2S over a water, ppm, if all its sulfide were H2S at a temperature, and the standard uncertainty of its logarithm
/// by the constant of the gas.
fn all_as_gas(e: &Equilibrium, sulfide_mol_kg: f64, t_c: f64) -> Option<(f64, f64)> {
    let net = network();
    let gas = net.gases.iter().find(|g| g.name == "H2S")?;
    let dissolved = e.system.species.iter().position(|s| s.name == "H2S(aq)")?;
    let species = &e.system.species[dissolved];
    let rows = row_values(t_c);
    // H2S(g) = H2S(aq): log K of the gas less that of the species, both to components.
    let log_k = gas.log_k(&rows) + species.log_k(&rows);
    let mut recipe: Vec<(usize, f64)> = gas.recipe.clone();
    for (row, n) in &species.recipe {
        match recipe.iter_mut().find(|(r, _)| r == row) {
            Some(t) => t.1 += n,
            None => recipe.push((*row, *n)),
        }
    }
    let doubts = uncertainty::rows(t_c);
    let variance: f64 = recipe
        .iter()
        .map(|(r, n)| {
            let u = n * doubts[*r].u_total(rows[*r]);
            u * u
        })
        .sum();
    let activity = sulfide_mol_kg * exp10(e.solution.log_gamma[dissolved]);
    Some((activity / exp10(log_k) * 1e6, LN_10 * libm::sqrt(variance)))
}

/// How fast the gas comes into the air and how fast it leaves with it.
struct Filling {
    ppm_per_min: f64,
    lost_per_min: f64,
}

impl Filling {
    /// Where the air would come to rest if the water could always give more, ppm; infinite in a closed house.
    fn at_rest(&self) -> f64 {
        if self.ppm_per_min == 0.0 { 0.0 } else { self.ppm_per_min / self.lost_per_min }
    }

    /// Minutes to a level under the one at rest.
    fn minutes_to(&self, ppm: f64) -> f64 {
        if self.lost_per_min == 0.0 {
            ppm / self.ppm_per_min
        } else {
            -log(1.0 - ppm / self.at_rest()) / self.lost_per_min
        }
    }
}

/// H2S that a flow can bring into a well house, against published limits. Worst case: all
/// sulfide leaves as H2S and mixes at once, in air at 1 atm. `None` where no sulfide was looked for.
///
/// A limit is reached where it lies under what two u less would bring, not reached by this analysis only above
/// [`HouseAir::highest_ppm`]; between them it cannot be told, and the earliest time stands.
///
/// # Errors
/// [`Error::OutOfRange`] for flow, volume or air change.
pub fn house_air(e: &Equilibrium, doubt: &SulfideUncertainty, h: &WellHouse) -> Result<Option<HouseAir>, Error> {
    within("flow", h.flow_l_min, "L/min", 0.0, 1e6)?;
    within("volume of air", h.volume_m3, "m³", 0.01, 1e5)?;
    within("air changes", h.air_changes_per_h, "1/h", 0.0, 1000.0)?;
    let Some(s) = odour(e) else { return Ok(None) };
    let sulfide_mol_kg = network().component("HS-").map_or(0.0, |c| e.total(c));
    let all = |t_c: f64| all_as_gas(e, sulfide_mol_kg, t_c);
    let (Some((own, _)), Some((warm, u_ln_k))) = (all(e.temperature_c), all(WARM_C.max(e.temperature_c))) else {
        return Ok(None);
    };
    // Two u on the logarithm: a factor stays above nought on its lower side.
    let two_u = |u_ln: f64| libm::exp(2.0 * u_ln);
    let highest = warm * two_u(libm::hypot(doubt.relative_u, u_ln_k));
    let ceiling_low = s.air_ppm / two_u(LN_10 * doubt.u_log_p);
    let brought = s.sulfide_mg_l_as_s * H2S_G_MOL / S_G_MOL * h.flow_l_min;
    // Ideal gas at 1 atm: 0.082057 L atm/(mol K), exact from R and the atmosphere.
    let litre_per_mol = 0.082_057_366 * (e.temperature_c + ZERO_CELSIUS_K);
    let ppm_per_min = brought * 1e-3 / H2S_G_MOL * litre_per_mol / (h.volume_m3 * 1e3) * 1e6;
    let filling = |factor: f64| Filling { ppm_per_min: ppm_per_min * factor, lost_per_min: h.air_changes_per_h / 60.0 };
    let (most, least) = (filling(two_u(doubt.relative_u)), filling(1.0 / two_u(doubt.relative_u)));
    // Sulfide that was not detected may be none: nothing is sure to be reached.
    let sure = if doubt.upper_bound { 0.0 } else { least.at_rest().min(ceiling_low) };
    let at_rest = most.at_rest().min(highest);
    let limit = |(body, level, ppm, provenance): (String, String, f64, String)| {
        let reach = if ppm >= at_rest {
            Reach::NotByThis
        } else if ppm < sure {
            Reach::Reached
        } else {
            Reach::CannotTell
        };
        let minutes = (reach != Reach::NotByThis).then(|| most.minutes_to(ppm));
        AirLimit { body, level, ppm, reach, minutes, provenance }
    };
    Ok(Some(HouseAir {
        brought_mg_min: brought,
        u_brought_mg_min: brought * doubt.relative_u,
        ceiling_ppm: s.air_ppm,
        u_ceiling_ppm: s.air_ppm * LN_10 * doubt.u_log_p,
        all_as_h2s_ppm: own,
        warm_ppm: warm,
        highest_ppm: highest,
        at_rest_ppm: at_rest,
        upper_bound: doubt.upper_bound,
        limits: air_limits().into_iter().map(limit).collect(),
    }))
}
