//! `uncertainty`: any model, to first order and by Monte Carlo.

use super::{finite, read};
use crate::error::Error;
use crate::expression::Expression;
use crate::uncertainty::{Correlation, Distribution, Draws, Input, MonteCarlo, Problem, Propagated};
use quantity::{CalcError, Calculation};
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// The calculation `uncertainty`.
pub const UNCERTAINTY: Calculation = Calculation {
    name: "uncertainty",
    about: "value and uncertainty of a model of named inputs, by propagation and by Monte Carlo",
    example: r#"{"model":"(gross - blank)/(slope*recovery)*dilution","inputs":{"gross":{"value":2150,"u":28,"dof":4},"blank":{"value":310,"u":22},"slope":{"value":1840,"u":16},"recovery":{"value":0.97,"half_width":0.03,"dist":"rectangular"},"dilution":{"value":1.05,"u":0.004}},"correlations":[["blank","slope",-0.3]],"draws":200000,"seed":1}"#,
    schema: include_str!("schema/uncertainty.json"),
    run,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Request {
    model: String,
    inputs: BTreeMap<String, Given>,
    #[serde(default)]
    correlations: Vec<(String, String, f64)>,
    #[serde(default = "default_draws")]
    draws: usize,
    #[serde(default = "default_seed")]
    seed: u64,
    #[serde(default = "default_coverage")]
    coverage: f64,
    adaptive_digits: Option<u32>,
}

fn default_draws() -> usize {
    200_000
}

fn default_seed() -> u64 {
    1
}

fn default_coverage() -> f64 {
    0.95
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Given {
    value: f64,
    u: Option<f64>,
    half_width: Option<f64>,
    end: Option<f64>,
    dist: Option<Shape>,
    dof: Option<f64>,
}

#[derive(Deserialize, Clone, Copy, PartialEq)]
#[serde(rename_all = "snake_case")]
enum Shape {
    Normal,
    T,
    Rectangular,
    Triangular,
    Arcsine,
    Poisson,
    Counts,
    Lognormal,
}

impl Given {
    fn input(&self, name: &str) -> Result<Input, CalcError> {
        // Degrees of freedom say that u is an estimate: its distribution is t (JCGM 101, 6.4.9).
        let shape = self.dist.unwrap_or(if self.dof.is_some() { Shape::T } else { Shape::Normal });
        let field = |f: &str| format!("inputs.{name}.{f}");
        let bounded = matches!(shape, Shape::Rectangular | Shape::Triangular | Shape::Arcsine);
        if self.half_width.is_some() && !bounded {
            return Err(CalcError::refused(
                field("half_width"),
                "a half-width",
                "u; a half-width goes with rectangular, triangular or arcsine",
            ));
        }
        if self.end.is_some() && (shape != Shape::Rectangular || self.half_width.is_none()) {
            return Err(CalcError::refused(field("end"), "an end", "dist rectangular with half_width"));
        }
        let v = self.value;
        let input = match (shape, self.half_width, self.u) {
            (Shape::Rectangular, Some(a), None) => match self.end {
                Some(end) => Input::rounded_rectangular(name, v, a, end),
                None => Input::rectangular(name, v, a),
            },
            (Shape::Triangular, Some(a), None) => Input::triangular(name, v, a),
            (Shape::Arcsine, Some(a), None) => Input::arcsine(name, v, a),
            (_, Some(_), Some(_)) => {
                return Err(CalcError::refused(field("u"), "u and half_width", "one of both"));
            }
            (Shape::Poisson, _, None) => Input::poisson(name, v),
            (Shape::Counts, _, None) => Input::counts(name, v),
            (Shape::Poisson | Shape::Counts, _, Some(u)) => {
                return Err(CalcError::refused(field("u"), u, "no u: counts carry their own"));
            }
            (_, None, None) => {
                return Err(CalcError::refused(field("u"), "nothing", "a standard uncertainty (0 for a constant)"));
            }
            (_, None, Some(u)) => Input { distribution: distribution(shape), ..Input::normal(name, v, u) },
            _ => {
                return Err(CalcError::refused(field("half_width"), "a half-width", "u"));
            }
        };
        Ok(input.with_dof(self.dof.unwrap_or(f64::INFINITY)))
    }
}

fn distribution(shape: Shape) -> Distribution {
    match shape {
        Shape::Normal => Distribution::Normal,
        Shape::T => Distribution::T,
        Shape::Rectangular => Distribution::Rectangular,
        Shape::Triangular => Distribution::Triangular,
        Shape::Arcsine => Distribution::Arcsine,
        Shape::Poisson => Distribution::Poisson,
        Shape::Counts => Distribution::Counts,
        Shape::Lognormal => Distribution::Lognormal,
    }
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let r: Request = read(input)?;
    let names: Vec<&str> = r.inputs.keys().map(String::as_str).collect();
    let model = Expression::parse(&r.model, &names)?;
    let used = Expression::names_in(&r.model);
    let mut warnings: Vec<String> = names
        .iter()
        .filter(|n| !used.iter().any(|u| u == *n) && !r.model.contains(**n))
        .map(|n| format!("the input {n} is not in the model"))
        .collect();
    let inputs = r.inputs.iter().map(|(n, g)| g.input(n)).collect::<Result<Vec<_>, _>>()?;
    for i in &inputs {
        if i.dof.is_finite() && i.distribution == Distribution::Normal {
            warnings.push(format!(
                "{} has {} degrees of freedom but is drawn as normal; dist \"t\" would draw what is known of it",
                i.name, i.dof
            ));
        }
    }
    let correlations = r
        .correlations
        .iter()
        .enumerate()
        .map(|(k, (a, b, r))| {
            let place = |n: &String| {
                names
                    .iter()
                    .position(|m| m == n)
                    .ok_or_else(|| CalcError::refused(format!("correlations[{k}]"), n, "the name of an input"))
            };
            Ok(Correlation { a: place(a)?, b: place(b)?, r: *r })
        })
        .collect::<Result<Vec<_>, CalcError>>()?;
    let problem = Problem::new(model, inputs, &correlations)?;
    let first = problem.propagate()?;
    warnings.extend(first.warnings.iter().cloned());
    // Known for uncorrelated inputs only; null elsewhere.
    let second = problem.second_order_u().ok();
    let monte_carlo = draw(&problem, &r, &first, &mut warnings)?;
    Ok(answer(&r, &first, second, monte_carlo.as_ref(), &warnings))
}

fn draw(
    problem: &Problem<Expression>,
    r: &Request,
    first: &Propagated,
    warnings: &mut Vec<String>,
) -> Result<Option<Value>, CalcError> {
    if super::draws(r.draws)? == 0 {
        return Ok(None);
    }
    let draws = Draws { count: r.draws, seed: r.seed, coverage: r.coverage };
    let drawn: Result<MonteCarlo, Error> = match r.adaptive_digits {
        Some(digits) => problem.adaptive(&draws, digits).map(|a| a.result),
        None => problem.monte_carlo(&draws),
    };
    let m = match drawn {
        // First order still stands: the answer says why there are no draws beside it.
        Err(Error::Unsupported { what }) => {
            warnings.push(format!("no Monte Carlo: {what}"));
            return Ok(None);
        }
        other => other?,
    };
    let v = m.validates(first, 2);
    if m.failed_share > 0.0 {
        warnings.push(format!(
            "in {:.4} % of the draws the model has no value (a division by zero, a root or logarithm of a negative number); they are left out, and mean and u of the rest may mean nothing: use the interval, or keep the inputs away from there",
            100.0 * m.failed_share
        ));
    }
    if !v.agrees {
        warnings.push("first-order propagation and Monte Carlo disagree (JCGM 101 clause 8): the Monte Carlo interval is the one to show".into());
    }
    let interval = [m.symmetric.low, m.symmetric.high];
    let mut out = json!({
        "value": m.value,
        "u": m.u,
        "interval": interval,
        "shortest": [m.shortest.low, m.shortest.high],
        "coverage": m.coverage,
        "draws": m.draws,
        "failed_share": m.failed_share,
        "end_error": m.end_error,
        "agrees": v.agrees,
        "d_low": v.d_low,
        "d_high": v.d_high,
        "tolerance": v.tolerance,
        "seed": r.seed,
    });
    if is_95(r.coverage) {
        out["interval_95"] = json!(interval);
    }
    Ok(Some(out))
}

fn is_95(coverage: f64) -> bool {
    (coverage - 0.95).abs() < 1e-12
}

fn answer(r: &Request, p: &Propagated, second: Option<f64>, monte_carlo: Option<&Value>, warnings: &[String]) -> Value {
    let (low, high) = p.interval(0.95);
    let (cl, ch) = p.interval(r.coverage);
    let contributions: Vec<Value> = p
        .budget
        .iter()
        .zip(&p.sensitivities)
        .map(|(c, s)| json!({"input": c.input, "share": c.share, "u": c.u, "sensitivity": s}))
        .collect();
    json!({
        "value": p.value,
        "u": p.u,
        "u_second_order": second,
        "dof_eff": finite(p.dof_eff),
        "coverage_k": p.coverage_factor(r.coverage),
        "interval_95": [low, high],
        "coverage": r.coverage,
        "interval": [cl, ch],
        "contributions": contributions,
        "monte_carlo": monte_carlo,
        "method": "law of propagation with correlations, Welch–Satterthwaite, t at the whole part of dof_eff; Monte Carlo of the same model",
        "sources": ["JCGM 100:2008 clause 5, annex G", "JCGM 101:2008 clauses 6 to 8"],
        "warnings": warnings,
    })
}
