//! What becomes of the water that runs over: how much of the river is spring, and what does it change?
//!
//! In: two or more waters with flow (any one unit) and values, each with u, values possibly below a limit. Out:
//! flow of the mixture, share of each water, each value of the mixture with u, and how much it differs from
//! the first water alone.
//!
//! Method: mass balance, Q = Σ Q_i, c = Σ Q_i·c_i/Q; u by the partial derivatives (JCGM 100:2008, 5.1),
//! inputs taken as independent. A value below its limit stays between zero and it: the mixture then has a
//! range, not a number. Valid for what is conserved: not for pH, oxygen, or metals that fall out on mixing.
//! Checked in `tests/validation_travel.rs`.

use crate::Reason;
use message::{Name, Shown, aquifer as part};
use quantity::{Amount, Measured, Unit};

/// A water that takes part.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Its name.
    pub name: String,
    /// Its flow.
    pub flow: Amount,
    /// What it holds, by analyte.
    pub values: Vec<(String, Amount)>,
}

/// A value of the mixture.
#[derive(Debug, Clone, PartialEq)]
pub enum Mixed {
    /// One number with what is known of it.
    Value(Amount),
    /// Some waters are below their limits: the mixture lies between two values, in the unit given.
    Between(f64, f64, Unit),
    /// Not given for every water.
    Missing(Vec<String>),
}

/// The mixture.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixture {
    /// Flow in all, in the first water's unit.
    pub flow: Amount,
    /// Share of each water, 0 to 1.
    pub shares: Vec<(String, Amount)>,
    /// Each analyte that any water has.
    pub values: Vec<(String, Mixed)>,
    /// Change of each value against the first water alone, in percent, where both are numbers.
    pub change_percent: Vec<(String, Amount)>,
}

/// Mixes waters.
///
/// # Errors
/// [`Reason`]: fewer than two waters; a flow that is negative, not a number, or zero in all; a value above its range;
/// units that do not fit.
///
/// ```
/// use aquifer::mixing::{End, Mixed, mix};
/// use quantity::{Amount, Unit};
/// let end = |name: &str, l_min, lead| End {
///     name: name.into(),
///     flow: Amount::stated(l_min, Unit::known("L/min")),
///     values: vec![("Pb".into(), lead)],
/// };
/// let ng_l = Unit::known("ng/L");
/// // The river is below 20 ng/L: one part of it in two leaves the mixture between 1 and 11.
/// let river = end("river", 10.0, Amount::below(20.0, ng_l.clone()));
/// let m = mix(&[river, end("well", 10.0, Amount::stated(2.0, ng_l))])?;
/// let Mixed::Between(low, high, _) = &m.values[0].1 else { panic!("a range") };
/// assert!((low - 1.0).abs() < 1e-9 && (high - 11.0).abs() < 1e-9);
/// # Ok::<(), aquifer::Error>(())
/// ```
pub fn mix(ends: &[End]) -> Result<Mixture, Reason> {
    if ends.len() < 2 {
        return Err(Reason::TooFew {
            what: part::WatersToMix.into(),
            have: ends.len(),
            need: 2,
            hint: part::GiveRiver.into(),
        });
    }
    let unit = ends[0].flow.unit().clone();
    let flows = ends.iter().map(|e| flow_of(e, &unit)).collect::<Result<Vec<_>, _>>()?;
    let total: f64 = flows.iter().map(|f| f.0).sum();
    if total <= 0.0 {
        let found = Shown::as_given(total, unit.to_string());
        let nought = Shown::as_given(0.0, "");
        return Err(Reason::out_of_range(part::FlowOfAll, found, part::MoreThanNought { nought }));
    }
    let known_u = ends.iter().all(|e| e.flow.u().is_some());
    let amount = |v: f64, u2: f64, unit: Unit| {
        if known_u { Amount::measured(v, u2.sqrt(), unit) } else { Amount::stated(v, unit) }
    };
    let shares = (ends.iter().enumerate())
        .map(|(i, e)| {
            let s = flows[i].0 / total;
            // ∂s_i/∂Q_i = (1 − s_i)/Q, ∂s_i/∂Q_j = −s_i/Q.
            let u2: f64 = (flows.iter().enumerate())
                .map(|(j, f)| (f.1 * (f64::from(u8::from(i == j)) - s) / total).powi(2))
                .sum();
            (e.name.clone(), amount(s, u2, Unit::one()))
        })
        .collect();
    let mut names: Vec<&String> = vec![];
    for (name, _) in ends.iter().flat_map(|e| &e.values) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let mut values = vec![];
    let mut change_percent = vec![];
    for name in names {
        let (mixed, change) = one_value(name, ends, &flows, total)?;
        values.push((name.clone(), mixed));
        change_percent.extend(change.map(|c| (name.clone(), c)));
    }
    Ok(Mixture { flow: amount(total, flows.iter().map(|f| f.1 * f.1).sum(), unit), shares, values, change_percent })
}

fn flow_of(e: &End, unit: &Unit) -> Result<(f64, f64), Reason> {
    let f = e.flow.convert(unit, None, None)?;
    let v = f.value().unwrap_or(f64::NAN);
    if v.is_nan() || v < 0.0 || v.is_infinite() {
        let water = Name::from(&e.name);
        return Err(Reason::unlike(part::FlowOf { water }, e.flow.with_u(), part::NoughtOrMore));
    }
    Ok((v, f.u().unwrap_or(0.0)))
}

fn one_value(name: &str, ends: &[End], flows: &[(f64, f64)], total: f64) -> Result<(Mixed, Option<Amount>), Reason> {
    let find = |e: &End| e.values.iter().find(|(n, _)| n == name).map(|(_, a)| a.clone());
    let missing: Vec<String> = ends.iter().filter(|e| find(e).is_none()).map(|e| e.name.clone()).collect();
    if !missing.is_empty() {
        return Ok((Mixed::Missing(missing), None));
    }
    let given: Vec<Amount> = ends.iter().filter_map(find).collect();
    let unit = given[0].unit().clone();
    let c = given.iter().map(|a| a.convert(&unit, None, None)).collect::<Result<Vec<_>, _>>()?;
    let weigh =
        |f: &dyn Fn(&Amount) -> f64| -> f64 { c.iter().zip(flows).map(|(c, q)| q.0 * f(c)).sum::<f64>() / total };
    // A value above its range has no upper end, and so neither has the mixture.
    if c.iter().any(|a| matches!(a, Amount::Above(_))) {
        let analyte = Name::from(name);
        return Err(Reason::unlike(part::AnalyteOfWater { analyte }, part::AboveItsRange, part::ValueOrNonDetect));
    }
    if c.iter().any(|a| matches!(a, Amount::Below(_))) {
        let high = weigh(&top);
        let low = weigh(&|a| a.value().unwrap_or(0.0));
        // A range from zero up is a non-detect. With either, the change against the first water is not one number.
        let mixed = if low == 0.0 { Mixed::Value(Amount::below(high, unit)) } else { Mixed::Between(low, high, unit) };
        return Ok((mixed, None));
    }
    let number = |a: &Amount| a.value().unwrap_or(f64::NAN);
    let mean = weigh(&number);
    let known = c.iter().all(|a| a.u().is_some()) && ends.iter().all(|e| e.flow.u().is_some());
    let u2: f64 = (c.iter().zip(flows))
        .map(|(c, q)| {
            // ∂c/∂Q_i = (c_i − c)/Q, ∂c/∂c_i = Q_i/Q.
            let by_flow = q.1 * (number(c) - mean) / total;
            let by_value = c.u().unwrap_or(0.0) * q.0 / total;
            by_flow * by_flow + by_value * by_value
        })
        .sum();
    let value = |v: f64, u2: f64, unit: Unit| {
        if known { Amount::measured(v, u2.sqrt(), unit) } else { Amount::stated(v, unit) }
    };
    let change = (number(&c[0]) > 0.0).then(|| {
        let (v, u2) = change_of(&c, flows, total, mean);
        value(v, u2, Unit::known("%"))
    });
    Ok((Mixed::Value(value(mean, u2, unit)), change))
}

fn top(a: &Amount) -> f64 {
    match a {
        Amount::Below(b) => b.limit,
        other => other.value().unwrap_or(f64::NAN),
    }
}

/// 100·(c/c_1 − 1) with its variance; the first water's value is in both.
fn change_of(c: &[Amount], flows: &[(f64, f64)], total: f64, mean: f64) -> (f64, f64) {
    let c1 = c[0].value().unwrap_or(f64::NAN);
    let mut u2 = 0.0;
    for (i, (a, q)) in c.iter().zip(flows).enumerate() {
        let ci = a.value().unwrap_or(f64::NAN);
        let mut by_value = q.0 / total / c1;
        if i == 0 {
            by_value -= mean / (c1 * c1);
        }
        u2 += (a.u().unwrap_or(0.0) * by_value).powi(2) + (q.1 * (ci - mean) / total / c1).powi(2);
    }
    (100.0 * (mean / c1 - 1.0), 1e4 * u2)
}

/// A mixture value as measured, where it is one.
pub fn measured(m: &Mixed) -> Option<&Measured> {
    match m {
        Mixed::Value(Amount::Measured(m)) => Some(m),
        _ => None,
    }
}
