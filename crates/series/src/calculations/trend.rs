//! `trend`.

use super::{input, output};
use crate::kendall::{Kendall, PChoice};
use crate::seasonal::{Season, Seasonal};
use crate::step::{ChangePoint, GivenStep};
use crate::trend::{self, Request, Slope, Trend, WithSteps};
use crate::{Observation, power, smooth};
use message::{Message, series as said};
use quantity::CalcError;
use serde_json::{Map, Value, json};

pub(super) fn run(v: &Value) -> Result<Value, CalcError> {
    let map = input::object(v, "input")?;
    let keys = ["series", "unit", "season", "steps", "permutations", "seed", "smooth_years", "power"];
    input::only_keys(map, "input", &keys)?;
    let unit = input::unit(map)?;
    let rows: Vec<Observation> = input::list(map.get("series"), "series")?
        .iter()
        .enumerate()
        .map(|(i, v)| input::observation(v, &format!("series[{i}]")))
        .collect::<Result<_, _>>()?;
    let t = trend::trend(&rows, &request(map)?).map_err(|e| e.at("series"))?;
    let mut out = answer(&t, &unit);
    if let Some(v) = map.get("smooth_years") {
        let h = input::number(v, "smooth_years")?;
        if h.is_nan() || h <= 0.0 {
            return Err(CalcError::refused("smooth_years", h, "years, more than 0"));
        }
        out["smooth"] = smoothed(&rows, &t, h);
    }
    if let Some(v) = map.get("power") {
        out["power"] = more_years(v, &rows)?;
    }
    Ok(out)
}

fn request(map: &Map<String, Value>) -> Result<Request, CalcError> {
    let season = match map.get("season").map(|v| input::text(v, "season")) {
        None => Season::None,
        Some(name) => match name? {
            "none" => Season::None,
            "month" => Season::Month,
            "quarter" => Season::Quarter,
            other => {
                return Err(CalcError::refused("season", other, "none, month or quarter"));
            }
        },
    };
    let steps = match map.get("steps") {
        None => Vec::new(),
        some => input::list(some, "steps")?
            .iter()
            .enumerate()
            .map(|(i, v)| input::time(v, &format!("steps[{i}]")))
            .collect::<Result<_, _>>()?,
    };
    let draws = input::whole(map, "permutations", 0, 1_000_000)? as u32;
    let seed = input::whole(map, "seed", 1, u64::MAX)?;
    Ok(Request {
        season,
        steps,
        p: if draws > 0 { PChoice::Permutation { draws, seed } } else { PChoice::Best },
        ..Request::default()
    })
}

const SOURCES: &[&str] = &[
    "Mann (1945) Econometrica 13:245; Kendall (1938) Biometrika 30:81",
    "Sen (1968) J. Am. Stat. Assoc. 63:1379",
    "Akritas, Murphy & LaValley (1995) J. Am. Stat. Assoc. 90:170",
    "Hirsch & Slack (1984) Water Resources Research 20:727",
    "Pettitt (1979) Applied Statistics 28:126",
    "Hamed & Rao (1998) J. Hydrology 204:182; the form for short records: docs/validation/series_correlation.md",
    "coverage by simulation: docs/validation/series_coverage.csv",
];

fn answer(t: &Trend, unit: &str) -> Value {
    json!({
        "answer": t.answer().said().in_english(),
        "unit": unit,
        "n": t.n,
        "non_detects": t.non_detects,
        "first": output::date(t.span.0),
        "last": output::date(t.span.1),
        "S": t.s(),
        "tau": t.tau(),
        "p": t.p(),
        "p_from": t.p_from().in_english(),
        "p_serial": t.p_serial,
        "correlation": correlation(t),
        "slope_per_year": t.slope.map(|x| x.per_year),
        "interval_95": t.slope.map(|x| output::interval(x.interval)),
        "interval_95_serial": t.slope.and_then(|x| x.interval_serial).map(output::interval),
        "slope_open_between": t.slope.filter(|x| x.zero_interval.0 < x.zero_interval.1).map(|x| output::interval(x.zero_interval)),
        "percent_per_year": t.slope.and_then(percent),
        "intercept": t.level_at_first.map(|r| {
            let mut v = output::reading(r);
            v["at"] = json!(output::date(t.span.0));
            v
        }),
        "serial_correlation": t.serial.map(|x| json!({"tau": x.tau, "p": x.p, "spacing_years": x.spacing_years})),
        "step": t.change_point.as_ref().map(change_point),
        "given_steps": t.given_steps.iter().map(given_step).collect::<Value>(),
        "with_steps_taken_out": t.with_steps.as_ref().map(with_steps),
        "seasonal": t.seasonal.as_ref().map(seasonal),
        "at_highest_limit": t.at_highest_limit.map(test),
        "limits_in_time": t.limits_in_time.map(test),
        "method": method(t).in_english(),
        "sources": SOURCES,
        "warnings": output::warnings(&t.findings),
    })
}

fn method(t: &Trend) -> Message {
    let (test, p) = (t.seasonal.as_ref().map_or(Season::None, |x| x.season).test(), t.p_from());
    let slope = if t.non_detects > 0 { said::SlopeNonDetects.into() } else { said::SlopeAllKnown.into() };
    said::TrendMethod { test, p, slope }.into()
}

fn percent(s: Slope) -> Option<Value> {
    s.percent_per_year.map(|p| {
        json!({
            "value": p.per_year,
            "interval_95": output::interval(p.interval),
            "interval_95_serial": p.interval_serial.map(output::interval),
        })
    })
}

/// How far neighbours resemble each other, and p under each coefficient that was found or assumed.
fn correlation(t: &Trend) -> Value {
    let c = &t.correlation;
    let factors = c.factors.iter().zip(t.p_assumed()).map(|(f, (_, p))| {
        json!({"rho": f.rho, "variance_factor": f.inflation, "degrees_of_freedom": output::end(f.freedom), "p": p})
    });
    let told = match (c.lag_one, c.factors.is_empty()) {
        (Some(_), _) => "estimated",
        (None, false) => "assumed",
        (None, true) => "not told",
    };
    json!({
        "told": told,
        "rows": c.n,
        "gap_years": c.gap_years,
        "lag_one": c.lag_one,
        "under": factors.collect::<Value>(),
    })
}

fn test(k: Kendall) -> Value {
    json!({"S": k.s, "tau": k.tau_b, "p": k.p, "n": k.n, "p_from": k.p_from.said().in_english()})
}

fn change_point(c: &ChangePoint) -> Value {
    let (shift, interval) = output::shift(c.shift);
    json!({
        "date": output::date(c.first_after_years),
        "last_before": output::date(c.last_before_years),
        "K": c.k,
        "p": c.p,
        "p_serial": c.p_serial,
        "shift": shift,
        "shift_interval_95": interval,
    })
}

fn given_step(g: &GivenStep) -> Value {
    let (shift, interval) = output::shift(g.shift);
    json!({
        "date": output::date(g.time_years),
        "what": g.what.in_english(),
        "rows_before": g.rows.0,
        "rows_after": g.rows.1,
        "p": g.p,
        "p_serial": g.p_serial,
        "shift": shift,
        "shift_interval_95": interval,
    })
}

fn with_steps(w: &WithSteps) -> Value {
    json!({
        "stretches": w.stretches,
        "S": w.s,
        "p": w.p,
        "p_from": w.p_from.said().in_english(),
        "p_serial": w.p_serial,
        "slope_per_year": w.slope.map(|s| s.per_year),
        "interval_95": w.slope.map(|s| output::interval(s.interval)),
        "interval_95_serial": w.slope.and_then(|s| s.interval_serial).map(output::interval),
    })
}

fn seasonal(s: &Seasonal) -> Value {
    json!({
        "by": s.season.name(),
        "S": s.s,
        "tau": s.tau,
        "p": s.p,
        "p_as_if_independent": s.p_independent,
        "p_seasons_agree": s.p_seasons_agree,
        "years": s.years,
        "rows_taken_together": s.rows_taken_together,
        "seasons": s.seasons.iter().map(|o| json!({"number": o.number, "n": o.n, "S": o.s})).collect::<Value>(),
    })
}

/// Points of the smoothed course.
const COURSE: u32 = 40;

fn smoothed(rows: &[Observation], t: &Trend, half_width_years: f64) -> Value {
    let at: Vec<f64> =
        (0..=COURSE).map(|i| t.span.0 + (t.span.1 - t.span.0) * f64::from(i) / f64::from(COURSE)).collect();
    at.iter()
        .zip(smooth::moving_median(rows, &at, half_width_years))
        .filter_map(|(x, r)| {
            let mut v = output::reading(r?);
            v["date"] = json!(output::date(*x));
            Some(v)
        })
        .collect()
}

fn more_years(v: &Value, rows: &[Observation]) -> Result<Value, CalcError> {
    let map = input::object(v, "power")?;
    let keys = ["percent_per_year", "per_year", "sd_ln", "limit_over_median", "power", "alpha"];
    input::only_keys(map, "power", &keys)?;
    let need = |key: &str| {
        map.get(key)
            .ok_or_else(|| CalcError::refused(format!("power.{key}"), "nothing", "a number"))
            .and_then(|v| input::number(v, &format!("power.{key}")))
    };
    let q = power::Question {
        dates_years: rows.iter().map(|r| r.time_years).collect(),
        per_year: need("per_year")?,
        percent_per_year: need("percent_per_year")?,
        sd_ln: need("sd_ln")?,
        limit_over_median: map
            .get("limit_over_median")
            .map(|v| input::number(v, "power.limit_over_median"))
            .transpose()?,
        alpha: input::optional_number(map, "alpha", 0.05)?,
        power: input::optional_number(map, "power", 0.8)?,
        most_years: 60,
    };
    let a = power::years_to_see(&q).map_err(|e| e.at("power"))?;
    Ok(json!({
        "more_years": a.more_years,
        "curve": a.curve.iter().map(|(y, p)| json!({"more_years": y, "chance": p})).collect::<Value>(),
        "method": Message::from(said::PowerMethod).in_english(),
    }))
}
