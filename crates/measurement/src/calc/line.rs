//! `line`: a calibration line, read both ways; or a polynomial, or several columns.

use super::{Given, finite, read};
use crate::error::Error;
use crate::least_squares::{Fit, fit_columns, fit_polynomial};
use crate::line::{EXACT, Intercept, Line, Options, Points, Scale};
use quantity::{CalcError, Calculation};
use serde::Deserialize;
use serde_json::{Value, json};
use statistics::{chi2, t};

/// The calculation `line`.
pub const LINE: Calculation = Calculation {
    name: "line",
    about: "weighted straight line with covariance, lack of fit, and concentrations read from it",
    example: r#"{"x":[0,2,4,6,8,10],"y":[0.009,0.158,0.301,0.472,0.577,0.739],"u_y":[0.001,0.004,0.010,0.013,0.017,0.022],"new_y":[0.1,{"value":0.6,"u":0.018}]}"#,
    schema: include_str!("schema/line.json"),
    run,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    #[serde(default)]
    x: Vec<f64>,
    columns: Option<Vec<Vec<f64>>>,
    y: Vec<f64>,
    u_y: Option<Vec<f64>>,
    #[serde(default)]
    new_y: Vec<Given>,
    #[serde(default)]
    through_zero: bool,
    #[serde(default)]
    scale: Scale,
    degree: Option<usize>,
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let i: Input = read(input)?;
    let weighted = i.u_y.is_some() || !i.new_y.is_empty();
    if let Some(columns) = &i.columns {
        only_plain(weighted, "columns")?;
        return Ok(fit_json(&fit_columns(columns, &i.y, !i.through_zero)?, "several columns"));
    }
    if let Some(degree) = i.degree.filter(|d| *d != 1) {
        only_plain(weighted || i.through_zero, "degree")?;
        if !(1..=12).contains(&degree) {
            return Err(CalcError::refused("degree", degree, "1 to 12"));
        }
        return Ok(fit_json(&fit_polynomial(&i.x, &i.y, degree)?, "polynomial"));
    }
    straight(&i)
}

fn only_plain(more: bool, field: &str) -> Result<(), CalcError> {
    if more {
        return Err(CalcError::refused(
            field,
            "u_y, new_y or through_zero beside it",
            "x (or columns) and y alone: weights and reading backwards are for the straight line",
        ));
    }
    Ok(())
}

fn fit_json(fit: &Fit, what: &str) -> Value {
    json!({
        "coefficients": fit.coefficients,
        "u_coefficients": fit.u,
        "residual_sd": fit.residual_sd,
        "dof": fit.dof,
        "r2": fit.r2,
        "method": format!("least squares with {what}, by orthogonalisation in double-double arithmetic"),
        "sources": ["Golub & Van Loan, Matrix Computations, ch. 5"],
        "warnings": [],
    })
}

fn straight(i: &Input) -> Result<Value, CalcError> {
    let points = Points { x: &i.x, y: &i.y, u_y: i.u_y.as_deref() };
    let options =
        Options { intercept: if i.through_zero { Intercept::Zero } else { Intercept::Fitted }, scale: i.scale };
    let line = Line::fit(&points, &options)?;
    let mut warnings = warnings(&line, &points);
    let new_x = i.new_y.iter().map(|g| new_x(&line, &points, *g, &mut warnings)).collect::<Result<Vec<_>, _>>()?;
    let from_residuals = line.residual_sd.map(|s| line.u_slope * s / line.variance_factor.sqrt());
    Ok(json!({
        "slope": line.slope,
        "intercept": line.intercept,
        "u_slope": line.u_slope,
        "u_intercept": line.u_intercept,
        "covariance": line.covariance,
        "correlation": line.correlation(),
        "residual_sd": line.residual_sd,
        "dof": finite(line.dof),
        "residual_dof": line.residual_dof,
        "r2": line.r2,
        "chi2": line.chi2,
        "u_slope_from_residuals": from_residuals,
        "lack_of_fit": line.lack_of_fit(&points),
        "residuals": line.residuals(&points),
        "new_x": new_x,
        "method": "weighted least squares, weights 1/u², sums about the weighted means; reading backwards with all covariances",
        "sources": ["JCGM 100:2008 H.3", "Miller & Miller, Statistics and Chemometrics for Analytical Chemistry, ch. 5"],
        "warnings": warnings,
    }))
}

fn warnings(line: &Line, points: &Points) -> Vec<String> {
    let mut out = Vec::new();
    if line.is_exact(points) {
        out.push(EXACT.into());
    }
    if line.levels == 1 {
        out.push(
            "all standards stand at one level: nothing shows that the line is straight or goes through zero".into(),
        );
    } else if line.levels == 2 && line.intercept != 0.0 {
        out.push("two levels only: nothing shows that the line is straight".into());
    }
    if let Some(fit) = line.lack_of_fit(points)
        && fit.p < 0.05
    {
        out.push(format!(
            "lack of fit: the level means scatter about the line more than replicates do (F = {:.2}, p = {:.4})",
            fit.f, fit.p
        ));
    }
    if points.u_y.is_some() && line.residual_dof > 0 {
        let p = chi2::sf(line.chi2, line.residual_dof as f64);
        if p < 0.05 {
            out.push(format!(
                "the points scatter more than their u_y say (chi² = {:.2} for {} degrees of freedom, p = {p:.4}): consider \"scale\":\"larger\"",
                line.chi2, line.residual_dof
            ));
        }
    }
    out
}

fn new_x(line: &Line, points: &Points, given: Given, warnings: &mut Vec<String>) -> Result<Value, Error> {
    let y = given.estimate();
    let u_y = match given {
        Given::Measured(_) => y.u,
        Given::Plain(_) => match points.u_y {
            Some(u) => u_at(points.y, u, y.value),
            None => line.residual_sd.unwrap_or(0.0),
        },
    };
    let r = line.read(y.value, u_y)?;
    let inside = |v: f64| points.x.iter().any(|x| *x <= v) && points.x.iter().any(|x| *x >= v);
    if !inside(r.value) {
        warnings.push(format!("y = {} reads as x = {:.6}, outside the standards", y.value, r.value));
    }
    let k = t::upper_quantile(0.025, line.dof);
    Ok(json!({
        "value": r.value,
        "u": r.u,
        "u_signal": r.u_signal,
        "u_line": r.u_line,
        "u_y": u_y,
        "dof": finite(line.dof),
        "interval_95": super::fieller_json(line.read_interval(y.value, u_y, k)?),
    }))
}

/// u(y) of a signal between the points, by linear interpolation over y.
fn u_at(y: &[f64], u: &[f64], at: f64) -> f64 {
    let mut pairs: Vec<(f64, f64)> = y.iter().copied().zip(u.iter().copied()).collect();
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    let k = pairs.partition_point(|p| p.0 <= at);
    match (k.checked_sub(1).map(|j| pairs[j]), pairs.get(k)) {
        (Some(a), Some(b)) if b.0 > a.0 => a.1 + (b.1 - a.1) * (at - a.0) / (b.0 - a.0),
        (Some(a), _) => a.1,
        (None, Some(b)) => b.1,
        (None, None) => 0.0,
    }
}
