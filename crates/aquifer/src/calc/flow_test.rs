//! `flow-test`: T and S from flow or drawdown in time.

use super::CAUTION;
use super::read::{FLOW, Found, LENGTH, Object, TIME, one_unit};
use crate::Error;
use crate::welltest::{
    Bootstrap, FlowingTest, PumpedTest, Reading, StraightLine, TestFit, fit_flowing, fit_pumped, recovery,
    straight_line,
};
use quantity::factor::{S_PER_D, S_PER_MIN};
use quantity::{CalcError, Calculation};
use serde_json::{Value, json};

pub(super) const FLOW_TEST: Calculation = Calculation {
    name: "flow-test",
    about: "transmissivity and storage from a flowing well at constant head, a pumped well, or its recovery",
    example: r#"{"kind":"flowing","drawdown_m":28.1,"radius_m":0.084,"series":[{"t_min":1,"Q_L_min":27.6},{"t_min":2,"Q_L_min":26.3},{"t_min":4,"Q_L_min":24.3},{"t_min":8,"Q_L_min":23.2},{"t_min":16,"Q_L_min":22.1},{"t_min":31,"Q_L_min":20.5},{"t_min":61,"Q_L_min":19.5},{"t_min":113,"Q_L_min":18.6}]}"#,
    schema: r#"{"$schema":"https://json-schema.org/draft/2020-12/schema","type":"object","required":["kind","series"],"properties":{"kind":{"enum":["flowing","pumped","recovery"]},"drawdown_m":{"type":"number","description":"flowing: head lost by letting the well flow; _ft too"},"radius_m":{"type":"number","description":"flowing: of the well; pumped: distance of the watched well; _ft too"},"Q_m3_d":{"type":"number","description":"pumped, recovery; _L_min, _gal_min, _ft3_d too"},"series":{"type":"array","items":{"type":"object","description":"t_min (t_s, t_h, t_d) with Q_L_min (flowing) or drawdown_m (pumped, recovery); recovery: t since the start and since_stop_min"}},"line_from_min":{"type":"number","description":"the straight line uses readings from here on, and none before it holds: u = r²S/(4Tt) under 0.02 for a pumped well, Tt/(Sr²) over 10000 for a flowing one, by the full fit"},"draws":{"type":"integer"},"seed":{"type":"integer"}}}"#,
    run,
};

fn run(input: &Value) -> Result<Value, CalcError> {
    let o = Object::new(input, "")?;
    let bootstrap = Bootstrap {
        draws: o.whole("draws")?.map_or(Bootstrap::default().draws, |d| d as usize),
        seed: o.whole("seed")?.unwrap_or(1),
    };
    let series = o.list("series")?;
    match o.text("kind") {
        Some("flowing") => flowing(&o, &series, bootstrap),
        Some("pumped") => pumped(&o, &series, bootstrap),
        Some("recovery") => recovering(&o, &series),
        other => Err(CalcError::refused("kind", other.unwrap_or("nothing"), "flowing, pumped or recovery")),
    }
}

/// Times in s and values in `unit`, all rows in one unit each.
fn readings(
    series: &[Object],
    value: impl Fn(&Object) -> Result<Found, CalcError>,
    unit: &str,
) -> Result<Vec<Reading>, CalcError> {
    let times = series.iter().map(|r| r.needed("t", TIME)).collect::<Result<Vec<_>, _>>()?;
    let values = series.iter().map(value).collect::<Result<Vec<_>, _>>()?;
    one_unit("times", times.iter())?;
    one_unit("readings", values.iter())?;
    times.iter().zip(&values).map(|(t, v)| Ok(Reading { t_s: t.to("s")?.0, value: v.to(unit)?.0 })).collect()
}

/// The straight line beside the full fit, or why there is none.
struct Line {
    /// From this time on, s: where the line holds, or later by a person's choice.
    from_s: f64,
    line: Result<StraightLine, Error>,
}

impl Line {
    fn of(o: &Object, points: &[(f64, f64)], radius_m: f64, holds_from_s: f64) -> Result<Self, CalcError> {
        let asked = o.quantity("line_from", TIME)?.map(|t| t.to("s")).transpose()?.map_or(0.0, |t| t.0);
        let from_s = holds_from_s.max(asked);
        Ok(Self { from_s, line: straight_line(points, radius_m, from_s) })
    }

    fn json(&self) -> Value {
        self.line.as_ref().map_or(Value::Null, |l| {
            json!({
                "transmissivity_m2_d": l.transmissivity_m2_s * S_PER_D,
                "u_transmissivity_m2_d": l.u_transmissivity_m2_s * S_PER_D,
                "storage_coefficient": l.storage,
                "u_storage_coefficient": l.u_storage,
                "points": l.points,
                "from_min": self.from_s / S_PER_MIN,
            })
        })
    }

    /// The line is the cruder answer beside the full function: where it cannot be drawn the fit still answers.
    fn warning(&self) -> Option<String> {
        let why = self.line.as_ref().err()?;
        Some(format!(
            "no straight line from {:.3} min on, where it would hold by the full fit: {why}",
            self.from_s / S_PER_MIN
        ))
    }
}

fn flowing(o: &Object, series: &[Object], bootstrap: Bootstrap) -> Result<Value, CalcError> {
    let test = FlowingTest {
        drawdown_m: o.needed("drawdown", LENGTH)?.to("m")?.0,
        radius_m: o.needed("radius", LENGTH)?.to("m")?.0,
        series: readings(series, |r| r.needed("Q", FLOW), "m3/s")?,
    };
    let f = fit_flowing(&test, bootstrap)?;
    let points: Vec<(f64, f64)> = test.series.iter().map(|p| (p.t_s, test.drawdown_m / p.value)).collect();
    let l = Line::of(o, &points, test.radius_m, test.line_holds_from_s(&f))?;
    Ok(answer(
        &f,
        &l,
        "m3/s",
        "least squares of ln Q on the full function G(alpha) of a flowing well at constant head; intervals by linearisation and by bootstrap of the residuals",
        &["Jacob & Lohman 1952, Trans. Am. Geophys. Union 33:559"],
    ))
}

fn pumped(o: &Object, series: &[Object], bootstrap: Bootstrap) -> Result<Value, CalcError> {
    let test = PumpedTest {
        rate_m3_s: o.needed("Q", FLOW)?.to("m3/s")?.0,
        radius_m: o.needed("radius", LENGTH)?.to("m")?.0,
        series: readings(series, |r| r.needed("drawdown", LENGTH), "m")?,
    };
    let f = fit_pumped(&test, bootstrap)?;
    let points: Vec<(f64, f64)> = test.series.iter().map(|p| (p.t_s, p.value / test.rate_m3_s)).collect();
    let l = Line::of(o, &points, test.radius_m, test.line_holds_from_s(&f))?;
    Ok(answer(
        &f,
        &l,
        "m",
        "least squares of drawdown on the well function W(u); intervals by linearisation and by bootstrap of the residuals",
        &["Theis 1935, Trans. Am. Geophys. Union 16:519", "Cooper & Jacob 1946, Trans. Am. Geophys. Union 27:526"],
    ))
}

fn recovering(o: &Object, series: &[Object]) -> Result<Value, CalcError> {
    let rate = o.needed("Q", FLOW)?.to("m3/s")?.0;
    let since = series.iter().map(|r| r.needed("since_stop", TIME)).collect::<Result<Vec<_>, _>>()?;
    one_unit("times since the stop", since.iter())?;
    let rows = readings(series, |r| r.needed("drawdown", LENGTH), "m")?;
    let points = rows
        .iter()
        .zip(&since)
        .map(|(r, s)| Ok((r.t_s, s.to("s")?.0, r.value)))
        .collect::<Result<Vec<_>, CalcError>>()?;
    let l = recovery(rate, &points)?;
    Ok(json!({
        "transmissivity_m2_d": l.transmissivity_m2_s * S_PER_D,
        "u_transmissivity_m2_d": l.u_transmissivity_m2_s * S_PER_D,
        "storage_coefficient": null,
        "dof": l.dof,
        "method": "straight line of residual drawdown against log10(t/t')",
        "sources": ["Theis 1935, Trans. Am. Geophys. Union 16:519"],
        "warnings": ["a recovery gives no storage coefficient", CAUTION],
    }))
}

fn answer(f: &TestFit, line: &Line, unit: &str, method: &str, sources: &[&str]) -> Value {
    let t = &f.transmissivity_m2_s;
    let per_day = |x: f64| x * S_PER_D;
    let interval = |i: (f64, f64)| [per_day(i.0), per_day(i.1)];
    let points: Vec<Value> = f
        .points
        .iter()
        .map(|p| {
            json!({
                "t_min": p.t_s / 60.0, "observed": p.observed, "fitted": p.fitted, "unit": unit,
                "standard_residual": p.standard_residual,
                "transmissivity_without_m2_d": p.transmissivity_without_m2_s.map(per_day),
                "storage_without": p.storage_without,
            })
        })
        .collect();
    let dropped: Vec<Value> = f
        .dropped
        .iter()
        .map(|d| {
            json!({
                "without_first": d.points,
                "transmissivity_m2_d": per_day(d.transmissivity_m2_s), "u_transmissivity_m2_d": per_day(d.u_transmissivity_m2_s),
                "storage_coefficient": d.storage, "u_storage_coefficient": d.u_storage,
            })
        })
        .collect();
    let mut warnings = vec![];
    if !f.model.holds {
        warnings.push(f.model.sentence.clone());
    }
    warnings.extend(line.warning());
    warnings.push(CAUTION.to_string());
    json!({
        "transmissivity_m2_d": per_day(t.value),
        "u_transmissivity_m2_d": per_day(t.u),
        "transmissivity_interval_95_m2_d": interval(t.interval_95),
        "transmissivity_bootstrap_95_m2_d": t.bootstrap_95.map(interval),
        "storage_coefficient": f.storage.value,
        "u_storage_coefficient": f.storage.u,
        "storage_interval_95": f.storage.interval_95,
        "storage_bootstrap_95": f.storage.bootstrap_95,
        "correlation_of_logarithms": f.correlation,
        "residual_sd": f.residual_sd,
        "dof": f.dof,
        "residuals": points,
        "dropped": dropped,
        "straight_line": line.json(),
        "model_holds": f.model.holds,
        "model": f.model,
        "method": method,
        "sources": sources,
        "warnings": warnings,
    })
}
