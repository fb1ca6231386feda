//! `control`, `outliers`, `conformity`.

use super::{Given, finite, read};
use crate::conformity::{Answer, Guard, Limits, Population, global_risk, judge};
use crate::control::{Chart, duplicates, e_n, spike_recovery, zeta};
use crate::outlier::{Side, Test, cochran, dixon, grubbs, grubbs_double};
use crate::robust::{algorithm_a, mean_sd, nested};
use quantity::{CalcError, Calculation};
use serde::Deserialize;
use serde_json::{Value, json};

/// The calculation `control`.
pub const CONTROL: Calculation = Calculation {
    name: "control",
    about: "control chart with run rules, CUSUM, EWMA; zeta and E_n scores, recovery, duplicates",
    example: r#"{"chart":"ewma","values":[52.0,47.0,53.0,49.3,50.1,47.0,51.0,50.1,51.2,50.5],"centre":50,"sd":2.0539,"lambda":0.3,"width":3,"score":{"measured":{"value":10.4,"u":0.3},"assigned":{"value":10.0,"u":0.4},"k":2},"duplicate":{"a":{"value":1.2,"u":0.1},"b":{"value":1.0,"u":0.1},"covariance":0.004},"recovery":{"spiked":{"value":5.8,"u":0.3},"unspiked":{"value":1.0,"u":0.2},"added":{"value":5,"u":0.05},"window":[0.85,1.15]}}"#,
    schema: include_str!("schema/control.json"),
    run: control,
};

#[derive(Deserialize, Clone, Copy, PartialEq)]
#[serde(rename_all = "snake_case")]
enum Kind {
    Shewhart,
    Cusum,
    Ewma,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ControlInput {
    chart: Option<Kind>,
    #[serde(default)]
    values: Vec<f64>,
    centre: Option<f64>,
    sd: Option<f64>,
    period: Option<Vec<f64>>,
    k: Option<f64>,
    h: Option<f64>,
    lambda: Option<f64>,
    width: Option<f64>,
    score: Option<Score>,
    duplicate: Option<Pair>,
    recovery: Option<Spike>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Score {
    measured: Given,
    assigned: Given,
    #[serde(default = "two")]
    k: f64,
}

fn two() -> f64 {
    2.0
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Pair {
    a: Given,
    b: Given,
    #[serde(default)]
    covariance: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Spike {
    spiked: Given,
    unspiked: Given,
    added: Given,
    #[serde(default)]
    correlation: f64,
    #[serde(default = "spike_window")]
    window: (f64, f64),
}

/// EPA 200.8: laboratory fortified matrix 70 to 130 % (from memory).
fn spike_window() -> (f64, f64) {
    (0.70, 1.30)
}

fn control(input: &Value) -> Result<Value, CalcError> {
    let i: ControlInput = read(input)?;
    let mut warnings: Vec<String> = Vec::new();
    let mut out = json!({
        "method": "scores and charts with known centre and sd; signals are findings, no point is removed",
        "sources": ["ISO 13528", "ISO 7870-2 (run rules)", "Page 1954 (CUSUM)", "Roberts 1959 (EWMA)"],
    });
    if let Some(kind) = i.chart {
        chart(&i, kind, &mut out, &mut warnings)?;
    } else if !i.values.is_empty() {
        return Err(CalcError::refused("chart", "nothing", "shewhart, cusum or ewma"));
    }
    if let Some(s) = &i.score {
        let (m, a) = (s.measured.estimate(), s.assigned.estimate());
        let (zeta, e_n) = (zeta(&m, &a)?, e_n(&m, s.k, &a, s.k)?);
        out["score"] = json!({
            "zeta": zeta, "e_n": e_n,
            "within": zeta.abs() <= 2.0 && e_n.abs() <= 1.0,
        });
    }
    if let Some(p) = &i.duplicate {
        let dof = p.a.dof().min(p.b.dof());
        let d = duplicates(&p.a.estimate(), &p.b.estimate(), p.covariance, dof)?;
        out["duplicate"] = json!(d);
    }
    if let Some(s) = &i.recovery {
        let (a, b, c) = (s.spiked.estimate(), s.unspiked.estimate(), s.added.estimate());
        out["recovery"] = json!(spike_recovery(&a, &b, &c, s.correlation, s.window)?);
    }
    out["warnings"] = json!(warnings);
    Ok(out)
}

fn chart(i: &ControlInput, kind: Kind, out: &mut Value, warnings: &mut Vec<String>) -> Result<(), CalcError> {
    let chart = match (i.centre, i.sd, &i.period) {
        (Some(centre), Some(sd), None) => Chart::new(centre, sd)?,
        (None, None, Some(period)) => Chart::from_period(period)?,
        (None, None, None) => {
            warnings.push("the series is charted against its own mean and scatter: a shift that it holds is hidden in part; give centre and sd, or a period in control".into());
            Chart::from_period(&i.values)?
        }
        _ => {
            return Err(CalcError::refused(
                "centre, sd, period",
                "a mixture",
                "centre and sd, or period, or none of them",
            ));
        }
    };
    let result = match kind {
        Kind::Shewhart => chart.shewhart(&i.values)?,
        Kind::Cusum => chart.cusum(&i.values, i.k.unwrap_or(0.5), i.h.unwrap_or(5.0))?,
        Kind::Ewma => chart.ewma(&i.values, i.lambda.unwrap_or(0.2), i.width.unwrap_or(3.0))?,
    };
    out["centre"] = json!(chart.centre);
    out["sd"] = json!(chart.sd);
    out["points"] = json!(result.points);
    out["signals"] = json!(result.signals);
    out["in_control"] = json!(result.signals.is_empty());
    Ok(())
}

/// The calculation `outliers`.
pub const OUTLIERS: Calculation = Calculation {
    name: "outliers",
    about: "Grubbs, double Grubbs, Dixon, Cochran; robust mean and sd beside",
    example: r#"{"values":[199.31,199.53,200.19,200.82,201.92,201.95,202.18,245.57],"alpha":0.05,"side":"both","groups":[[1.0,1.2,0.9],[1.1,1.0,1.3],[0.9,1.9,2.8]]}"#,
    schema: include_str!("schema/outliers.json"),
    run: outliers,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OutlierInput {
    values: Option<Vec<f64>>,
    groups: Option<Vec<Vec<f64>>>,
    variances: Option<Vec<f64>>,
    replicates: Option<usize>,
    #[serde(default = "five_percent")]
    alpha: f64,
    #[serde(default)]
    side: Side,
}

fn five_percent() -> f64 {
    0.05
}

fn outliers(input: &Value) -> Result<Value, CalcError> {
    let i: OutlierInput = read(input)?;
    let mut tests = Vec::new();
    let mut warnings =
        vec!["a test removes nothing: a person excludes a value, with a reason that is kept".to_string()];
    let mut out = json!({});
    if let Some(v) = &i.values {
        tests.push(named("grubbs", &grubbs(v, i.alpha, i.side)?));
        // The double test needs four values; Dixon's ends at 30, where neighbours hide each other. A test that cannot
        // be made is left out, so that the others still answer.
        if v.len() >= 4 {
            tests.push(named("grubbs_double", &grubbs_double(v, i.alpha, i.side)?));
        }
        if v.len() <= 30 {
            tests.push(named("dixon", &dixon(v, i.alpha, i.side)?));
        }
        let (mean, sd) = mean_sd(v)?;
        out["mean"] = json!(mean);
        out["sd"] = json!(sd);
        match algorithm_a(v) {
            Ok(r) => out["robust"] = json!(r),
            Err(e) => warnings.push(format!("no robust mean: {e}")),
        }
    }
    match (&i.variances, i.replicates) {
        (Some(v), Some(n)) => tests.push(named("cochran", &cochran(v, n, i.alpha)?)),
        (None, None) => {}
        _ => {
            return Err(CalcError::refused("variances, replicates", "one of them", "both"));
        }
    }
    if let Some(g) = &i.groups {
        grouped(g, i.alpha, &mut tests, &mut out)?;
    }
    if tests.is_empty() {
        return Err(CalcError::refused("input", "no values", "values, groups, or variances with replicates"));
    }
    out["tests"] = json!(tests);
    out["method"] = json!(
        "Grubbs by t; double Grubbs by 200,000 fixed draws; Dixon's Q by the exact integral; Cochran by inclusion–exclusion; robust by algorithm A"
    );
    out["sources"] = json!([
        "Grubbs 1969, Technometrics 11:1",
        "ISO 5725-2",
        "Dixon 1951, Ann. Math. Stat. 22:68",
        "ISO 13528:2015 annex C",
    ]);
    out["warnings"] = json!(warnings);
    Ok(out)
}

fn named(name: &str, t: &Test) -> Value {
    let mut v = json!(t);
    v["test"] = json!(name);
    v
}

fn grouped(groups: &[Vec<f64>], alpha: f64, tests: &mut Vec<Value>, out: &mut Value) -> Result<(), CalcError> {
    let n = groups.first().map_or(0, Vec::len);
    if let Some(k) = groups.iter().position(|g| g.len() != n) {
        return Err(CalcError::refused(
            format!("groups[{k}]"),
            groups[k].len(),
            format!("{n} values, as in the first group"),
        ));
    }
    let mut means = Vec::new();
    let mut sds = Vec::new();
    for g in groups {
        let (mean, sd) = mean_sd(g)?;
        means.push(mean);
        sds.push(sd);
    }
    let variances: Vec<f64> = sds.iter().map(|s| s * s).collect();
    tests.push(named("cochran", &cochran(&variances, n, alpha)?));
    out["nested"] = json!(nested(&means, &sds, n)?);
    Ok(())
}

/// The calculation `conformity`.
pub const CONFORMITY: Calculation = Calculation {
    name: "conformity",
    about: "is the true value within a limit: probability, guard band, risks",
    example: r#"{"value":9.5,"u":0.5,"dof":12,"upper":10,"guard":{"risk":0.05},"population":{"mean":8,"sd":1}}"#,
    schema: include_str!("schema/conformity.json"),
    run: conformity,
};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ConformityInput {
    value: f64,
    u: f64,
    dof: Option<f64>,
    unit: Option<String>,
    lower: Option<f64>,
    upper: Option<f64>,
    guard: Option<Guard>,
    population: Option<PopulationInput>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PopulationInput {
    mean: f64,
    sd: f64,
}

fn conformity(input: &Value) -> Result<Value, CalcError> {
    let i: ConformityInput = read(input)?;
    let v = crate::conformity::Value { value: i.value, u: i.u, dof: i.dof.unwrap_or(f64::INFINITY) };
    let limits = Limits { lower: i.lower, upper: i.upper };
    let c = judge(&v, &limits, i.guard.unwrap_or(Guard::Risk(0.05)))?;
    let warnings: Vec<String> = c.accept.is_none().then(|| no_zone(&limits, c.guard_band)).into_iter().collect();
    let mut out = json!({
        "answer": c.answer,
        "probability": c.probability,
        "guard_band": c.guard_band,
        "accept": c.accept,
        "consumer_risk": c.consumer_risk,
        "producer_risk": c.producer_risk,
        "dof": finite(v.dof),
        "unit": i.unit,
        "plain": plain(c.answer),
        "method": "probability that the true value lies within the limits (t), guard band on both sides of the limit",
        "sources": ["JCGM 106:2012 clauses 7 to 9"],
        "warnings": warnings,
    });
    if let Some(p) = i.population {
        let population = Population { mean: p.mean, sd: p.sd };
        out["global_risk"] = json!(global_risk(&population, i.u, &limits, c.accept.as_ref())?);
    }
    Ok(out)
}

/// That no value would be accepted, with the numbers.
fn no_zone(limits: &Limits, guard_band: f64) -> String {
    let apart = limits.upper.zip(limits.lower).map_or(f64::INFINITY, |(h, l)| h - l);
    format!(
        "no value is accepted: the limits stand {apart} apart, closer together than two guard bands of {guard_band}; a smaller u or a smaller guard band opens a zone of acceptance"
    )
}

fn plain(answer: Answer) -> &'static str {
    match answer {
        Answer::Conforms => "within the limit, with the margin that was asked for",
        Answer::DoesNotConform => "beyond the limit by more than the margin",
        Answer::CannotTell => "too near to the limit to tell",
    }
}
