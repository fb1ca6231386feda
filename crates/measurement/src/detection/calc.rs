//! `calc detection`: JSON in, JSON out. What is in the input decides the way: blanks, spiked
//! samples, a line, or counts. Every limit says its scale.

use super::trust::trust;
use super::{
    Comparison, CountLimits, Counting, Error, MdlBlanks, NetLimits, Risks, count_limits, from_blanks, from_line,
    mdl_confidence, mdl_from_blanks, mdl_from_spikes, mdl_review,
};
use crate::blank::{OrderLimit, percentile_limit};
use quantity::{CalcError, Calculation, Unit};
use serde::Deserialize;
use serde_json::{Map, Value, json};

/// The calculation as the command line offers it.
pub const CALCULATION: Calculation = Calculation {
    name: "detection",
    about: "critical value, detection limit and quantification limit from blanks, spikes, a line or counts",
    example: EXAMPLE,
    schema: SCHEMA,
    run,
};

const EXAMPLE: &str = r#"{
  "blanks": [0.071, 0.083, 0.064, 0.092, 0.078, 0.069, 0.088, 0.075, 0.081, 0.073],
  "unit": "ng/L",
  "alpha": 0.05,
  "beta": 0.05
}"#;

const SCHEMA: &str = r#"{
  "$schema": "https://json-schema.org/draft/2020-12/schema",
  "title": "detection",
  "type": "object",
  "additionalProperties": false,
  "properties": {
    "blanks": {"type": "array", "description": "blank results, negative ones kept; null or {\"below\": x} for a blank without a numerical result", "items": {"type": ["number", "null", "object"]}},
    "spiked": {"type": "array", "items": {"type": "number"}, "description": "results of samples spiked at one level near the limit"},
    "spike_level": {"type": "number", "exclusiveMinimum": 0},
    "old_mdl": {"type": "number", "exclusiveMinimum": 0, "description": "an MDL in force, to be reviewed"},
    "x": {"type": "array", "items": {"type": "number"}, "description": "assigned values of a calibration line"},
    "y": {"type": "array", "items": {"type": "number"}, "description": "responses"},
    "blank_counts": {"type": "integer", "minimum": 0},
    "blank_time_s": {"type": "number", "exclusiveMinimum": 0},
    "sample_time_s": {"type": "number", "exclusiveMinimum": 0},
    "blank_known": {"type": "boolean", "description": "the blank's expectation is known so well that its own u does not count"},
    "sd": {"type": "number", "exclusiveMinimum": 0, "description": "known standard deviation of the net result at zero"},
    "sample_readings": {"type": "integer", "minimum": 1},
    "paired": {"type": "boolean", "description": "each sample has one blank of its own"},
    "alpha": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 0.5},
    "beta": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 0.5},
    "percentile": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 1},
    "confidence": {"type": "number", "exclusiveMinimum": 0, "exclusiveMaximum": 1},
    "unit": {"type": "string"}
  },
  "anyOf": [{"required": ["blanks"]}, {"required": ["spiked"]}, {"required": ["x", "y"]}, {"required": ["blank_counts", "blank_time_s", "sample_time_s"]}, {"required": ["sd"]}]
}"#;

#[derive(Deserialize)]
#[serde(untagged)]
enum BlankValue {
    Number(f64),
    Below {
        #[serde(rename = "below")]
        _below: f64,
    },
    None(()),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Input {
    blanks: Option<Vec<BlankValue>>,
    spiked: Option<Vec<f64>>,
    spike_level: Option<f64>,
    old_mdl: Option<f64>,
    x: Option<Vec<f64>>,
    y: Option<Vec<f64>>,
    blank_counts: Option<u64>,
    blank_time_s: Option<f64>,
    sample_time_s: Option<f64>,
    #[serde(default)]
    blank_known: bool,
    sd: Option<f64>,
    sample_readings: Option<usize>,
    #[serde(default)]
    paired: bool,
    alpha: Option<f64>,
    beta: Option<f64>,
    percentile: Option<f64>,
    confidence: Option<f64>,
    unit: Option<String>,
}

struct Answer {
    out: Map<String, Value>,
    method: Vec<String>,
    sources: Vec<&'static str>,
    warnings: Vec<String>,
    unit: String,
}

impl Answer {
    fn limit(&self, value: f64, scale: &str) -> Value {
        json!({"value": value, "unit": self.unit, "scale": scale})
    }

    fn net(&mut self, l: &NetLimits) {
        let entries = [
            ("critical_value", l.critical_value),
            ("detection_limit", l.detection_limit),
            ("quantification_limit", l.quantification_limit),
        ];
        for (key, value) in entries {
            let mut entry = self.limit(value, "net");
            if key == "detection_limit" && l.dof.is_finite() {
                let interval = l.detection_interval(0.95);
                entry["interval_95"] = json!(interval);
            }
            self.out.insert(key.into(), entry);
        }
        let sd = self.limit(l.sd_at_zero, "net");
        self.out.insert("sd_at_zero".into(), sd);
        self.out.insert("dof".into(), finite_or_null(l.dof));
    }

    fn finish(mut self) -> Value {
        self.out.insert("method".into(), json!(self.method.join("; ")));
        self.out.insert("sources".into(), json!(self.sources));
        self.out.insert("warnings".into(), json!(self.warnings));
        Value::Object(self.out)
    }
}

/// Infinite degrees of freedom have no number in JSON.
fn finite_or_null(x: f64) -> Value {
    if x.is_finite() { json!(x) } else { Value::Null }
}

fn refused(e: &Error) -> CalcError {
    match e {
        Error::TooFew { what, found, needed } => CalcError::refused(*what, found, format!("at least {needed}")),
        Error::AllEqual { what, n, value } => CalcError::refused(
            *what,
            format!("{n} values, all {value}"),
            "values that differ: equal ones leave the spread unknown, not zero; give more digits and keep negative values, or give counts with counting times",
        ),
        Error::NotFinite { what, index, value } => {
            CalcError::refused(format!("{what}[{index}]"), value, "a finite number")
        }
        Error::OutOfRange { what, value, range } => CalcError::refused(*what, value, *range),
        Error::NoLine { why } => CalcError::refused("x, y", why, "a line that rises, with scatter"),
        Error::NotConverged { what, iterations } => {
            CalcError::NotConverged { what: (*what).into(), iterations: *iterations, residual: f64::NAN }
        }
    }
}

fn run(input: &Value) -> Result<Value, CalcError> {
    let input: Input = serde_json::from_value(input.clone())?;
    if let Some(u) = &input.unit {
        Unit::parse(u).map_err(|e| CalcError::refused("unit", u, e.to_string()))?;
    }
    let risks = Risks { alpha: input.alpha.unwrap_or(0.05), beta: input.beta.unwrap_or(0.05) };
    risks.check().map_err(|e| refused(&e))?;
    let mut a = Answer {
        out: Map::new(),
        method: vec![],
        sources: vec![],
        warnings: vec![],
        unit: input.unit.clone().unwrap_or_else(|| "1".into()),
    };
    // Each way overwrites the limits of the one before. Blanks come after line, counts and sd: they alone hold what
    // bottles and hands bring.
    let mut any = false;
    if let (Some(x), Some(y)) = (&input.x, &input.y) {
        line(&mut a, &input, x, y, risks)?;
        any = true;
    }
    if let Some(counts) = input.blank_counts {
        counting(&mut a, &input, counts, risks)?;
        any = true;
    }
    if let Some(sd) = input.sd {
        let l = super::known(sd, risks).map_err(|e| refused(&e))?;
        a.net(&l);
        a.method.push("known standard deviation of the net result at zero".into());
        a.sources.push(CURRIE);
        any = true;
    }
    if let Some(blanks) = &input.blanks {
        from_blank_values(&mut a, &input, blanks, risks)?;
        any = true;
    }
    if let Some(spiked) = &input.spiked {
        spikes(&mut a, &input, spiked)?;
        any = true;
    }
    if !any {
        return Err(CalcError::refused(
            "input",
            "none of them",
            "blanks, spiked, x with y, blank_counts with times, or sd",
        ));
    }
    Ok(a.finish())
}

const CURRIE: &str = "Currie 1968, Anal. Chem. 40:586; Currie 1995, Pure Appl. Chem. 67:1699";
const ISO_1: &str = "ISO 11843-1";
const ISO_2: &str = "ISO 11843-2; DIN 32645";
const CFR: &str = "40 CFR 136 appendix B, revision 2";
const ORDER: &str = "order statistics with the binomial distribution (Conover; US Geological Survey SIR 2011-5204)";

fn from_blank_values(a: &mut Answer, input: &Input, blanks: &[BlankValue], risks: Risks) -> Result<(), CalcError> {
    let values: Vec<Option<f64>> = blanks
        .iter()
        .map(|b| match b {
            BlankValue::Number(x) => Some(*x),
            BlankValue::Below { .. } | BlankValue::None(()) => None,
        })
        .collect();
    let numbers: Vec<f64> = values.iter().flatten().copied().collect();
    let complete = numbers.len() == values.len();
    if complete {
        blank_limits(a, input, &numbers, risks)?;
    } else {
        a.warnings.push(format!(
            "{} of {} blanks have no numerical result: critical value and detection limit need the raw values, negative ones too, and are not given",
            values.len() - numbers.len(),
            values.len()
        ));
    }
    mdl_blank(a, &values)?;
    if let (Some(old), Some(new)) = (input.old_mdl, a.out.get("mdl_blank").cloned()) {
        review(a, old, new["value"].as_f64(), &numbers)?;
    }
    Ok(())
}

fn blank_limits(a: &mut Answer, input: &Input, numbers: &[f64], risks: Risks) -> Result<(), CalcError> {
    let how = Comparison { sample_readings: input.sample_readings.unwrap_or(1), paired: input.paired };
    let b = from_blanks(numbers, how, risks).map_err(|e| refused(&e))?;
    // A known standard deviation, a line or counts may stand beside the blanks; the blanks lead.
    a.net(&b.limits);
    let mean = json!({"value": b.centre.value, "u": b.centre.u, "unit": a.unit});
    let sd = json!({"value": b.centre.sd, "unit": a.unit});
    a.out.insert("blank_mean".into(), mean);
    a.out.insert("blank_sd".into(), sd);
    a.out.insert("n".into(), json!(b.n));
    let robust = json!({
        "critical_value": a.limit(b.robust.critical_value, "net"),
        "detection_limit": a.limit(b.robust.detection_limit, "net"),
        "method": "Huber's location and scale in place of mean and standard deviation",
    });
    a.out.insert("robust".into(), robust);
    order_statistics(a, input, numbers)?;
    a.method.push(format!(
        "L_C = t(1−α, {nu})·s₀, L_D = δ(α, β, {nu})·s₀ with δ of the non-central t, L_Q = 10·s₀, s₀ = s·{}",
        if input.paired { "√2" } else { "√(1/m + 1/n)" },
        nu = b.n - 1
    ));
    a.sources.extend([CURRIE, ISO_1]);
    if let Some(t) = trust(numbers).filter(|t| !t.t_holds()) {
        a.warnings.push(t.says().in_english());
    }
    if b.robust.sd_at_zero < 0.5 * b.limits.sd_at_zero {
        a.warnings
            .push("the robust spread is less than half the standard deviation: a few blanks stand far out".into());
    }
    Ok(())
}

fn order_statistics(a: &mut Answer, input: &Input, numbers: &[f64]) -> Result<(), CalcError> {
    // US Geological Survey practice: the 95 % upper limit of a high percentile of field blanks.
    let percentile = input.percentile.unwrap_or(0.80);
    let confidence = input.confidence.unwrap_or(0.95);
    for (field, p) in [("percentile", percentile), ("confidence", confidence)] {
        if !(p > 0.0 && p < 1.0) {
            return Err(CalcError::refused(field, p, "over 0 and under 1"));
        }
    }
    let entry = match percentile_limit(numbers, percentile, confidence) {
        OrderLimit::Given { limit, rank, confidence: achieved } => {
            let mut entry = a.limit(limit, "gross");
            entry["rank"] = json!(rank);
            entry["confidence_achieved"] = json!(achieved);
            entry
        }
        OrderLimit::TooFew { needed, largest_gives } => json!({
            "answer": "cannot be given with this few",
            "needed": needed,
            "largest_gives_confidence": largest_gives,
            "scale": "gross",
        }),
    };
    let mut entry = entry;
    entry["percentile"] = json!(percentile);
    entry["confidence"] = json!(confidence);
    a.out.insert("percentile_limit".into(), entry);
    a.sources.push(ORDER);
    Ok(())
}

fn mdl_blank(a: &mut Answer, values: &[Option<f64>]) -> Result<(), CalcError> {
    // A warning, not a refusal: fewer blanks than the rule asks for still give L_C and L_D.
    if values.len() < super::method::FEWEST {
        a.warnings.push(format!(
            "mdl_blank is not given: {} blanks, the rule needs {}",
            values.len(),
            super::method::FEWEST
        ));
        return Ok(());
    }
    let m = mdl_from_blanks(values).map_err(|e| refused(&e))?;
    let how = match m {
        MdlBlanks::FromSpread(_) => "max(0, mean) + t(0.99, n−1)·S: all blanks are numbers",
        MdlBlanks::Highest(_) => "the highest blank: only some are numbers",
        MdlBlanks::Percentile { .. } => "the 99th percentile: only some are numbers, over 100 blanks",
        MdlBlanks::NotGiven => {
            a.warnings.push("mdl_blank is not given: no blank has a numerical result".into());
            return Ok(());
        }
    };
    if let Some(value) = m.value() {
        let mut entry = a.limit(value, "gross");
        entry["rule"] = json!(how);
        entry["n"] = json!(values.len());
        if let MdlBlanks::Percentile { rank, .. } = m {
            entry["rank"] = json!(rank);
        }
        a.out.insert("mdl_blank".into(), entry);
        larger_mdl(a);
    }
    a.sources.push(CFR);
    Ok(())
}

fn spikes(a: &mut Answer, input: &Input, spiked: &[f64]) -> Result<(), CalcError> {
    let m = mdl_from_spikes(spiked).map_err(|e| refused(&e))?;
    let mut entry = a.limit(m.value, "gross");
    entry["rule"] = json!("t(0.99, n−1)·S of the spiked samples");
    entry["n"] = json!(m.n);
    entry["t"] = json!(m.t);
    entry["interval_95"] = json!(mdl_confidence(m.dof, 0.95).map(|f| f * m.value));
    a.out.insert("mdl_spiked".into(), entry);
    a.out.entry("dof").or_insert(json!(m.dof));
    if let Some(level) = input.spike_level {
        let ratio = level / m.value;
        if !(2.0..=10.0).contains(&ratio) {
            a.warnings.push(format!("the spike level is {ratio:.1} times the MDL found; 2 to 10 times is asked for"));
        }
    }
    larger_mdl(a);
    if let Some(old) = input.old_mdl {
        review(a, old, Some(m.value), &[])?;
    }
    if !a.sources.contains(&CFR) {
        a.sources.push(CFR);
    }
    a.method.push("MDL: the larger of what spiked samples and blanks give".into());
    Ok(())
}

fn larger_mdl(a: &mut Answer) {
    let of = |key: &str| a.out.get(key).and_then(|e| e["value"].as_f64());
    let larger = match (of("mdl_blank"), of("mdl_spiked")) {
        (Some(b), Some(s)) => b.max(s),
        (Some(x), None) | (None, Some(x)) => x,
        (None, None) => return,
    };
    let entry = a.limit(larger, "gross");
    a.out.insert("mdl".into(), entry);
}

fn review(a: &mut Answer, old: f64, new: Option<f64>, blanks: &[f64]) -> Result<(), CalcError> {
    let Some(new) = new else { return Ok(()) };
    let r = mdl_review(old, new, blanks).map_err(|e| refused(&e))?;
    a.out.insert(
        "mdl_review".into(),
        json!({
            "ratio_new_to_old": r.ratio,
            "share_of_blanks_above_old": r.blanks_above,
            "old_may_stand": r.may_stand,
        }),
    );
    Ok(())
}

fn line(a: &mut Answer, input: &Input, x: &[f64], y: &[f64], risks: Risks) -> Result<(), CalcError> {
    if x.len() != y.len() {
        return Err(CalcError::refused(
            "y",
            format!("{} values", y.len()),
            format!("{} values, as many as x", x.len()),
        ));
    }
    let l = from_line(x, y, input.sample_readings.unwrap_or(1), risks).map_err(|e| refused(&e))?;
    a.net(&l.iso);
    a.out.insert(
        "critical_response".into(),
        json!({"value": l.critical_response, "unit": "response", "scale": "gross"}),
    );
    let din = json!({
        "decision_limit": a.limit(l.din_decision, "net"),
        "detection_limit": a.limit(l.din_detection, "net"),
        "quantification_limit": a.limit(l.din_quantification, "net"),
    });
    a.out.insert("din_32645".into(), din);
    a.out.insert("slope".into(), json!(l.slope));
    a.out.insert("intercept".into(), json!(l.intercept));
    a.out.insert("residual_sd".into(), json!(l.residual_sd));
    a.method.push(
        "x_C = t·(s/b)·√(1/K + 1/N + x̄²/s_xx), x_D with δ of the non-central t, constant standard deviation".into(),
    );
    a.sources.push(ISO_2);
    a.warnings.push(
        "from a line alone: the limits hold the instrument's noise, not what bottles and hands bring; take field blanks for that".into(),
    );
    Ok(())
}

/// Below this the exact test leads.
// Simulation in `tests/detection.rs`: the formulas give 8 % false detections at 8 expected counts
// and 7 % at 40, where 5 % is meant.
const FEW_COUNTS: u64 = 100;

fn counting(a: &mut Answer, input: &Input, blank_counts: u64, risks: Risks) -> Result<(), CalcError> {
    let need = |field: &str, v: Option<f64>| {
        v.ok_or_else(|| CalcError::refused(field, "nothing", "a counting time above 0 s"))
    };
    let c = Counting {
        blank_counts,
        blank_time_s: need("blank_time_s", input.blank_time_s)?,
        sample_time_s: need("sample_time_s", input.sample_time_s)?,
        blank_known: input.blank_known,
    };
    let l: CountLimits = count_limits(c, risks).map_err(|e| refused(&e))?;
    // Counts have a unit of their own; blanks, a line or a known sd beside them keep theirs.
    let unit = std::mem::replace(&mut a.unit, "counts".into());
    let entries = [
        ("critical_value", l.critical_value),
        ("detection_limit", l.detection_limit),
        ("quantification_limit", l.quantification_limit),
    ];
    for (key, value) in entries {
        let mut entry = a.limit(value, "net");
        entry["rate_per_s"] = json!(value / c.sample_time_s);
        a.out.insert(key.into(), entry);
    }
    // Counts carry their own variance (Poisson): nothing was estimated that degrees of freedom could doubt.
    a.out.insert("dof".into(), Value::Null);
    let expected = a.limit(l.blank, "gross");
    a.out.insert("expected_blank".into(), expected);
    let exact = json!({
        "gross_counts_needed": l.exact.gross_needed,
        "alpha_achieved": l.exact.alpha_achieved,
        "critical_value": a.limit(l.exact.critical_value, "net"),
        "detection_limit": a.limit(l.exact.detection_limit, "net"),
        "method": if c.blank_known { "Poisson tail" } else { "binomial test given the total count" },
    });
    a.out.insert("exact".into(), exact);
    a.unit = unit;
    if blank_counts < FEW_COUNTS {
        a.warnings.push(format!(
            "{blank_counts} blank counts are few: the formulas do not hold α = {}; decide by the exact test (detected from {} gross counts on)",
            risks.alpha, l.exact.gross_needed
        ));
    }
    a.method.push(
        "S_C = z·√(N_B·r·(1 + r)), r = t_S/t_B (known blank: z·√B); S_D = z² + 2·S_C where α = β; exact test beside it"
            .into(),
    );
    a.sources.extend([CURRIE, "MARLAP ch. 20 (unequal counting times)"]);
    Ok(())
}
