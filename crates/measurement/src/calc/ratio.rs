//! `ratio`: the ratio of two results, lead isotopes, and two-source mixing.

use super::{Given, fieller_json, read};
use crate::lead::{Reference, correct, mass, mix};
use crate::line::Estimate;
use crate::ratio::{FiellerInterval, Quotient};
use quantity::{CalcError, Calculation};
use serde::Deserialize;
use serde_json::{Value, json};
use statistics::t;

/// The calculation `ratio`.
pub const RATIO: Calculation = Calculation {
    name: "ratio",
    about: "ratio of two results with Fieller's interval; lead isotope ratios; share of a source",
    example: r#"{"a":{"value":25,"u":2},"b":{"value":5,"u":1},"covariance":0.1,"lead":[{"isotopes":[208,206],"measured":{"value":2.13,"u":0.003},"reference":{"isotopes":[207,206],"certified":{"value":0.91464,"u":0.00017},"measured":{"value":0.9221,"u":0.0006}}}],"mixing":{"sample":[{"value":0.854,"u":0.001},{"value":2.086,"u":0.003}],"a":[{"value":0.910,"u":0.001},{"value":2.170,"u":0.002}],"b":[{"value":0.830,"u":0.001},{"value":2.050,"u":0.002}]}}"#,
    schema: include_str!("schema/ratio.json"),
    run,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    a: Option<Given>,
    b: Option<Given>,
    covariance: Option<f64>,
    correlation: Option<f64>,
    dof: Option<f64>,
    #[serde(default)]
    lead: Vec<Lead>,
    mixing: Option<MixingInput>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Lead {
    isotopes: (u16, u16),
    measured: Given,
    reference: LeadReference,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LeadReference {
    isotopes: (u16, u16),
    certified: Given,
    measured: Given,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MixingInput {
    sample: Vec<Given>,
    a: Vec<Given>,
    b: Vec<Given>,
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let i: Input = read(input)?;
    let mut out = json!({
        "method": "Fieller's interval; exponential law of mass bias; least squares in ratio space",
        "sources": [
            "Fieller 1954, J. R. Stat. Soc. B 16:175",
            "Russell, Papanastassiou & Tombrello 1978, Geochim. Cosmochim. Acta 42:1075",
        ],
    });
    let mut warnings: Vec<String> = Vec::new();
    match (i.a, i.b) {
        (Some(a), Some(b)) => quotient(&i, a, b, &mut out, &mut warnings)?,
        (None, None) if !i.lead.is_empty() || i.mixing.is_some() => {}
        _ => return Err(CalcError::refused("a, b", "one or none", "both, or lead, or mixing")),
    }
    let lead = i.lead.iter().map(corrected).collect::<Result<Vec<_>, _>>()?;
    if !lead.is_empty() {
        out["lead"] = json!(lead);
    }
    if let Some(m) = &i.mixing {
        let list = |v: &[Given]| v.iter().map(|g| g.estimate()).collect::<Vec<Estimate>>();
        let mixing = mix(&list(&m.sample), &list(&m.a), &list(&m.b))?;
        out["mixing"] = json!(mixing);
        warnings.push("the share is that of the denominator isotope, among these two sources only: a source that nobody measured is not among the answers".into());
    }
    out["warnings"] = json!(warnings);
    Ok(out)
}

fn quotient(i: &Input, a: Given, b: Given, out: &mut Value, warnings: &mut Vec<String>) -> Result<(), CalcError> {
    let (ea, eb) = (a.estimate(), b.estimate());
    let covariance = match (i.covariance, i.correlation) {
        (Some(_), Some(_)) => {
            return Err(CalcError::refused("covariance", "and correlation", "one of both"));
        }
        (Some(c), None) => c,
        (None, Some(r)) => r * ea.u * eb.u,
        (None, None) => 0.0,
    };
    let dof = i.dof.unwrap_or_else(|| a.dof().min(b.dof()));
    if dof.is_nan() || dof <= 0.0 {
        return Err(CalcError::refused("dof", dof, "more than 0"));
    }
    let k = t::upper_quantile(0.025, dof);
    let q = Quotient { numerator: ea.value, u_numerator: ea.u, denominator: eb.value, u_denominator: eb.u, covariance };
    // Fieller's set, not value ± k·u: where the interval of b holds zero, first order would still give limits.
    let interval = q.fieller(k)?;
    let first = q.first_order()?;
    out["ratio"] = json!(first.value);
    out["u"] = json!(first.u);
    out["interval_95"] = fieller_json(interval);
    out["bounded"] = json!(matches!(interval, FiellerInterval::Bounded { .. }));
    out["g"] = json!(q.g(k));
    out["coverage_k"] = json!(k);
    match interval {
        FiellerInterval::AtLeast { above, .. } => warnings.push(format!(
            "the interval of b holds zero: the ratio has no upper limit; for b over zero it is at least {above:.4} (Fieller). u is of no use here"
        )),
        FiellerInterval::Unbounded => warnings.push(
            "a and b are both compatible with zero: nothing can be said of their ratio".into(),
        ),
        FiellerInterval::Bounded { .. } => {}
    }
    Ok(())
}

fn corrected(l: &Lead) -> Result<Value, CalcError> {
    let masses = |p: (u16, u16)| Ok::<_, CalcError>((mass(p.0)?, mass(p.1)?));
    let r = correct(
        &l.measured.estimate(),
        masses(l.isotopes)?,
        &Reference {
            masses: masses(l.reference.isotopes)?,
            certified: l.reference.certified.estimate(),
            measured: l.reference.measured.estimate(),
        },
    )?;
    Ok(json!({"isotopes": l.isotopes, "value": r.value, "u": r.u}))
}
