//! `addition` and `dilution`: two other ways to a concentration.

use super::{Given, draws, fieller_json, finite, read};
use crate::addition::Additions;
use crate::dilution::{Blend, Known};
use crate::line::Estimate;
use crate::uncertainty::Draws;
use quantity::{CalcError, Calculation, Unit};
use serde::Deserialize;
use serde_json::{Value, json};

/// The calculation `addition`.
pub const ADDITION: Calculation = Calculation {
    name: "addition",
    about: "standard addition: the concentration in a sample from additions to itself",
    example: r#"{"added":[0,5,10,15,20,25,30],"signal":[0.32,0.41,0.52,0.60,0.70,0.77,0.89],"blank_signal":{"value":0.0,"u":0.0},"dilution":{"value":1,"u":0},"unit":"ng/L"}"#,
    schema: include_str!("schema/addition.json"),
    run: addition,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct AdditionInput {
    added: Vec<f64>,
    signal: Vec<f64>,
    u_signal: Option<Vec<f64>>,
    blank_signal: Option<Given>,
    dilution: Option<Given>,
    unit: String,
}

fn unit(text: &str) -> Result<Unit, CalcError> {
    Unit::parse(text).map_err(|e| CalcError::refused("unit", e, "a unit such as ng/L"))
}

fn addition(input: &Value) -> Result<Value, CalcError> {
    let i: AdditionInput = read(input)?;
    let or = |g: Option<Given>, value: f64| g.map_or(Estimate { value, u: 0.0 }, Given::estimate);
    let r = Additions {
        added: &i.added,
        signal: &i.signal,
        u_signal: i.u_signal.as_deref(),
        blank_signal: or(i.blank_signal, 0.0),
        dilution: or(i.dilution, 1.0),
        unit: unit(&i.unit)?,
    }
    .evaluate()?;
    let c = &r.concentration;
    Ok(json!({
        "concentration": {"value": c.value, "u": c.u, "dof": finite(c.dof), "unit": i.unit},
        "interval_95": fieller_json(r.interval_95),
        "slope": r.line.slope,
        "intercept": r.line.intercept,
        "u_slope": r.line.u_slope,
        "u_intercept": r.line.u_intercept,
        "covariance": r.line.covariance,
        "contributions": r.derivation.budget,
        "derivation": r.derivation,
        "method": "standard addition: (intercept − blank)/slope × dilution, covariance kept; interval by Fieller",
        "sources": r.derivation.sources,
        "warnings": r.warnings,
    }))
}

/// The calculation `dilution`.
pub const DILUTION: Calculation = Calculation {
    name: "dilution",
    about: "isotope dilution with mass bias and blank",
    example: r#"{"sample_mass":{"value":10,"u":0.002},"spike_mass":{"value":0.5,"u":0.0002},"spike_content":{"value":0.5,"u":0.001},"sample_r":{"value":0.2873,"u":0.0002},"sample_s":{"value":0.1280,"u":0.0002},"spike_r":{"value":0.0080,"u":0.0001},"spike_s":{"value":0.9650,"u":0.0003},"molar_mass":112.414,"spike_molar_mass":110.95,"ratio":{"value":0.45,"u":0.0015,"dof":4},"bias":{"value":0.99,"u":0.001},"blank":{"value":0.01,"u":0.003},"unit":"ng/g","draws":200000}"#,
    schema: include_str!("schema/dilution.json"),
    run: dilution,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DilutionInput {
    sample_mass: Given,
    spike_mass: Given,
    spike_content: Given,
    sample_r: Given,
    sample_s: Given,
    spike_r: Given,
    spike_s: Given,
    molar_mass: Given,
    spike_molar_mass: Given,
    ratio: Given,
    bias: Option<Given>,
    blank: Option<Given>,
    unit: String,
    #[serde(default)]
    draws: usize,
    #[serde(default)]
    seed: u64,
}

fn known(g: Given) -> Known {
    let e = g.estimate();
    Known { value: e.value, u: e.u, dof: g.dof() }
}

fn dilution(input: &Value) -> Result<Value, CalcError> {
    let i: DilutionInput = read(input)?;
    draws(i.draws)?;
    let blend = Blend {
        sample_mass: known(i.sample_mass),
        spike_mass: known(i.spike_mass),
        spike_content: known(i.spike_content),
        sample_r: known(i.sample_r),
        sample_s: known(i.sample_s),
        spike_r: known(i.spike_r),
        spike_s: known(i.spike_s),
        molar_mass: known(i.molar_mass),
        spike_molar_mass: known(i.spike_molar_mass),
        ratio: known(i.ratio),
        bias: i.bias.map_or(Known::new(1.0, 0.0), known),
        blank: i.blank.map_or(Known::new(0.0, 0.0), known),
        unit: unit(&i.unit)?,
    };
    let r = blend.evaluate()?;
    let mut warnings = r.warnings.clone();
    if i.bias.is_none() {
        warnings.push("no mass bias given: the measured ratio was taken as the true one".into());
    }
    let monte_carlo = if i.draws == 0 {
        None
    } else {
        let m = blend.problem()?.monte_carlo(&Draws { count: i.draws, seed: i.seed, coverage: 0.95 })?;
        // Clause 8 of JCGM 101 with the stricter of its two choices: two digits of u.
        let v = m.validates(&r.propagated, 2);
        if !v.agrees {
            warnings.push(
                "first-order propagation and Monte Carlo disagree: the Monte Carlo interval is the one to show".into(),
            );
        }
        Some(json!({
            "value": m.value, "u": m.u, "interval_95": [m.symmetric.low, m.symmetric.high],
            "agrees": v.agrees, "draws": m.draws, "failed_share": m.failed_share,
        }))
    };
    let (low, high) = r.propagated.interval(0.95);
    let c = &r.content;
    Ok(json!({
        "concentration": {"value": c.value, "u": c.u, "dof": finite(c.dof), "unit": i.unit},
        "interval_95": [low, high],
        "contributions": r.propagated.budget,
        "magnification": finite(r.magnification),
        "best_ratio": finite(r.best_ratio),
        "monte_carlo": monte_carlo,
        "derivation": r.derivation,
        "method": "single isotope dilution with mass bias and blank",
        "sources": r.derivation.sources,
        "warnings": warnings,
    }))
}
