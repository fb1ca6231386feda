//! What the columns of a tracer, of a year of a history, of a fact of the recharge say together: a unit that is one of the
//! tracer, a sample and its day, the half-life behind a value of tritium. What a laboratory did not say is asked, never
//! guessed. Checked in `crates/programme/tests/tracers.rs`.

use super::fault::{Fault, fault, quoted};
use super::plan::Value;
use aquifer::age::reported::{PMC_ABSOLUTE, history_unit, units};
use message::{Message, Name, age as said, expected, found};
use record::words::{DecayedTo, RechargeFact};

/// The cell of a column.
type At<'a> = dyn Fn(&str) -> Option<&'a Value> + 'a;

/// The column at fault, and what is wrong with it.
type Wrong = (&'static str, Fault);

/// A row of one of the three tables.
pub(super) fn together(table: &str, at: &At) -> Result<(), Wrong> {
    match table {
        "tracer" => tracer(at),
        "input_history" => history(at),
        "recharge_fact" => recharge_fact(at),
        _ => Ok(()),
    }
}

fn text<'a>(at: &At<'a>, column: &str) -> Option<&'a str> {
    match at(column)? {
        Value::Text(t) | Value::Name(t) if !t.trim().is_empty() => Some(t.as_str()),
        _ => None,
    }
}

fn number(at: &At, column: &str) -> Option<f64> {
    match at(column)? {
        Value::Real(x) => Some(*x),
        Value::Integer(n) => Some(*n as f64),
        _ => None,
    }
}

fn lacks(column: &'static str, expected: impl Into<Message>) -> Wrong {
    (column, fault(found::Nothing, expected.into()))
}

fn tracer(at: &At) -> Result<(), Wrong> {
    let Some(sign) = text(at, "tracer") else { return Ok(()) };
    if text(at, "bottle").is_none() {
        if text(at, "well").is_none() {
            return Err(lacks("well", expected::BottleOrWell));
        }
        if text(at, "sampled_on").is_none() {
            return Err(lacks("sampled_on", said::DateOfSampling));
        }
    }
    let Some(unit) = text(at, "unit") else { return Ok(()) };
    if !units(sign).contains(&unit) {
        return Err(("unit", fault(quoted(unit), of_units(sign))));
    }
    if sign == "3H" {
        let as_measured = text(at, "decayed_to") == Some(DecayedTo::Measurement.word());
        if as_measured && text(at, "measured_on").is_none() {
            return Err(lacks("measured_on", expected::DayOfMeasurement));
        }
        if !as_measured && number(at, "half_life_a").is_none() {
            return Err(lacks("half_life_a", said::HalfLifeOfLaboratory));
        }
    }
    if unit == PMC_ABSOLUTE && text(at, "measured_on").is_none() {
        return Err(lacks("measured_on", expected::DayOfMeasurement));
    }
    if number(at, "below") == Some(1.0) && number(at, "value").is_some_and(|x| x <= 0.0) {
        return Err((
            "value",
            fault(quoted(&number(at, "value").unwrap_or(0.0).to_string()), expected::LimitAboveZero),
        ));
    }
    Ok(())
}

/// The units of a tracer; of carbon-14 with the question which of its two meanings "pMC" has.
fn of_units(sign: &str) -> Message {
    let known = units(sign);
    if sign == "14C" {
        said::OneOfUnits { known: known.iter().map(|u| Name::from(*u).into()).collect() }.into()
    } else {
        expected::OneOf { words: known.join(", ").into() }.into()
    }
}

fn history(at: &At) -> Result<(), Wrong> {
    let (Some(sign), Some(unit)) = (text(at, "tracer"), text(at, "unit")) else { return Ok(()) };
    match history_unit(sign) {
        Some(known) if known == unit => Ok(()),
        Some(known) => Err(("unit", fault(quoted(unit), expected::OneOf { words: known.into() }))),
        None => Err(("tracer", fault(quoted(sign), expected::TracerWithHistory))),
    }
}

fn recharge_fact(at: &At) -> Result<(), Wrong> {
    let (Some(what), Some(low), Some(high)) = (text(at, "what"), number(at, "low"), number(at, "high")) else {
        return Ok(());
    };
    if low > high {
        return Err(("high", fault(quoted(&high.to_string()), expected::UpperEnd)));
    }
    if what == RechargeFact::Price.word() {
        if text(at, "tracer").is_none() {
            return Err(lacks("tracer", expected::TracerOfPrice));
        }
        if low <= 0.0 {
            return Err(("low", fault(quoted(&low.to_string()), expected::AboveZero)));
        }
    }
    Ok(())
}
