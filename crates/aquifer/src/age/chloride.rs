//! How much rain becomes groundwater, by the chloride that stays behind when water evaporates?
//!
//! In: rain in mm/a, chloride of rain (with dry deposition) and of the well in mg/L, runoff with its chloride, each with
//! u. Out: recharge in mm/a with a 95 % range, and the mean age of an exponential aquifer that it would give.
//!
//! Method: R = (P·Clp − Q·Clq)/Clgw, P·Clp with dry deposition in it (USGS, Geoscience Australia). Chloride of rain is
//! known to 30 % and worse: each factor is log-normal, with its value as the median. Valid where no other chloride comes in
//! (road salt, sewage, rock salt, old sea water) and the rain's chloride was the same when the water fell. Checked in
//! `tests/validation_isotopes.rs`.

use super::draws::{draws, spread};
use super::measured::WithU;
use crate::Reason;
use message::{Message, Shown, aquifer as part, origin as said};
use serde::Serialize;
use statistics::normal;

/// Water that runs off and takes chloride along.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Runoff {
    /// Depth, mm/a.
    pub depth_mm_a: WithU,
    /// Its chloride, mg/L.
    pub chloride_mg_l: WithU,
}

/// What the balance is made of.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Balance {
    /// Rain, mm/a.
    pub rain_mm_a: WithU,
    /// Chloride of rain with dry deposition, mg/L.
    pub rain_chloride_mg_l: WithU,
    /// Chloride of the well, mg/L.
    pub well_chloride_mg_l: WithU,
    /// Runoff; none where there is none.
    pub runoff: Option<Runoff>,
    /// Whether other sources of chloride were looked for (Cl/Br, B, road salt, sewage, rock salt) and ruled out.
    pub other_sources_ruled_out: bool,
}

/// Recharge.
#[derive(Debug, Clone, PartialEq)]
pub struct Recharged {
    /// Recharge, mm/a, with u by partial derivatives.
    pub recharge_mm_a: WithU,
    /// 95 % range, mm/a: skewed, as its factors are.
    pub range_mm_a: (f64, f64),
    /// What a person should see beside the numbers.
    pub findings: Vec<Message>,
}

/// Recharge by the balance of chloride.
///
/// # Errors
/// [`Reason`]: a factor that is not above 0, or runoff that takes all the chloride of the rain.
pub fn recharge(b: &Balance) -> Result<Recharged, Reason> {
    let mut factors = vec![
        (said::Rain.into(), b.rain_mm_a, "mm/a"),
        (said::ChlorideOfRain.into(), b.rain_chloride_mg_l, "mg/L"),
        (Message::from(said::ChlorideOfWell), b.well_chloride_mg_l, "mg/L"),
    ];
    if let Some(r) = b.runoff {
        factors.push((said::RunoffDepth.into(), r.depth_mm_a, "mm/a"));
        factors.push((said::ChlorideOfRunoff.into(), r.chloride_mg_l, "mg/L"));
    }
    for (what, x, unit) in factors {
        crate::reason::above_nought(what.clone(), x.value, unit)?;
        if !(x.u >= 0.0 && x.u.is_finite()) {
            let found = part::ValueWithU { value: Shown::as_given(x.value, unit), u: Shown::as_given(x.u, unit) };
            return Err(Reason::unlike(what, found, said::AmountWithU));
        }
    }
    let (rain, well) = (b.rain_mm_a.value * b.rain_chloride_mg_l.value, b.well_chloride_mg_l.value);
    let away = b.runoff.map_or(0.0, |r| r.depth_mm_a.value * r.chloride_mg_l.value);
    if away >= rain {
        let most = part::AtMost { most: Shown::significant(rain, 3, "mg/(m2 a)") };
        return Err(Reason::out_of_range(said::ChlorideRunOff, Shown::significant(away, 3, "mg/(m2 a)"), most));
    }
    let relative = |x: WithU| x.u / x.value;
    let value = (rain - away) / well;
    let of_rain = rain * relative(b.rain_mm_a).hypot(relative(b.rain_chloride_mg_l));
    let of_runoff = b.runoff.map_or(0.0, |r| away * relative(r.depth_mm_a).hypot(relative(r.chloride_mg_l)));
    let u = (of_rain.hypot(of_runoff) / well).hypot(value * relative(b.well_chloride_mg_l));
    let mut findings: Vec<Message> = vec![said::ChlorideSteady.into()];
    if !b.other_sources_ruled_out {
        findings.push(said::OtherChlorideNotRuledOut.into());
    }
    if value > b.rain_mm_a.value {
        findings.push(said::MoreThanTheRain { recharge: Shown::significant(value, 2, "mm/a") }.into());
    }
    Ok(Recharged { recharge_mm_a: WithU { value, u }, range_mm_a: range(b, value), findings })
}

/// Standard deviation of the logarithm of a log-normal of a relative standard uncertainty.
fn of_logarithm(relative: f64) -> f64 {
    libm::log1p(relative * relative).sqrt()
}

fn range(b: &Balance, value: f64) -> (f64, f64) {
    let sd = |x: WithU| of_logarithm(x.u / x.value);
    let Some(r) = b.runoff else {
        // A product of log-normals is one: the range in closed form.
        let all = sd(b.rain_mm_a).hypot(sd(b.rain_chloride_mg_l)).hypot(sd(b.well_chloride_mg_l));
        let half = normal::TWO_SIDED_95 * all;
        return (value * libm::exp(-half), value * libm::exp(half));
    };
    let all = draws(|dice| {
        let mut of = |x: WithU| x.value * libm::exp(dice.normal(0.0, sd(x)));
        let rain = of(b.rain_mm_a) * of(b.rain_chloride_mg_l);
        let away = of(r.depth_mm_a) * of(r.chloride_mg_l);
        Some(((rain - away) / of(b.well_chloride_mg_l)).max(0.0))
    });
    let s = spread(all.into_iter());
    s.map_or((0.0, f64::INFINITY), |s| (s.low_95, s.high_95))
}

/// Mean age of an exponential aquifer, years: thickness (m) times porosity over recharge (mm/a). To compare with tracers.
///
/// # Errors
/// [`Reason`]: a factor that is not above 0, or a porosity above 1.
pub fn exponential_age(thickness_m: f64, porosity: f64, recharge_mm_a: f64) -> Result<f64, Reason> {
    crate::reason::above_nought(said::Thickness, thickness_m, "m")?;
    crate::reason::above_nought(part::Porosity, porosity, "")?;
    crate::reason::above_nought(said::RechargeDepth, recharge_mm_a, "mm/a")?;
    if porosity > 1.0 {
        return Err(Reason::out_of_range(part::Porosity, Shown::as_given(porosity, ""), part::ShareNotPercent));
    }
    Ok(thickness_m * porosity / (recharge_mm_a / 1000.0))
}
