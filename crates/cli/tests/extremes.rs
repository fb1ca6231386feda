//! Extreme numbers in every number of every calculation's example, and in every number that its schema names: each is
//! answered, or refused by its place, within a second; nothing hangs, breaks off, or answers with what is no number.

use crate::desk::Desk;
use quantity::{CalcError, Calculation};
use serde_json::{Value, json};
use std::sync::mpsc;
use std::time::{Duration, Instant};

fn all() -> Vec<Calculation> {
    [
        measurement::CALCULATIONS,
        cleanliness::CALCULATIONS,
        aquifer::CALCULATIONS,
        aqueous::CALCULATIONS,
        series::CALCULATIONS,
        limits::CALCULATIONS,
    ]
    .concat()
}

/// Far beyond what can be, at the edge of it, and within it but absurd; whole numbers beyond what a double holds.
fn extremes() -> Vec<Value> {
    let numbers = [0.0, -1.0, 1e300, -1e300, 1e-300, 5e-324, 9e59, -9e59, 2e-60, 1e30, 1e-30, 1e15, 1e-15, 1e7];
    let wholes = [0, 1_000_000_000, 9_007_199_254_740_993, u64::MAX];
    numbers.into_iter().map(|x| json!(x)).chain(wholes.into_iter().map(|x| json!(x))).collect()
}

/// Places of numbers: of a list the first two, which stand for the rest.
fn numbers(v: &Value, place: &str, out: &mut Vec<String>) {
    match v {
        Value::Object(map) => map.iter().for_each(|(k, v)| numbers(v, &format!("{place}/{k}"), out)),
        Value::Array(items) => {
            items.iter().take(2).enumerate().for_each(|(i, v)| numbers(v, &format!("{place}/{i}"), out));
        }
        Value::Number(_) => out.push(place.into()),
        _ => {}
    }
}

/// Numbers of the example, and those that stand in the schema alone.
fn places(c: &Calculation, example: &Value) -> Vec<String> {
    let mut out = vec![];
    numbers(example, "", &mut out);
    let schema: Value = serde_json::from_str(c.schema).unwrap();
    for (name, property) in schema["properties"].as_object().into_iter().flatten() {
        let number = property["type"] == "number" || property["type"] == "integer";
        if number && example.get(name).is_none() {
            out.push(format!("/{name}"));
        }
    }
    out
}

/// What may be null in an answer that is none in the answer to the example: an end that the data leave open, or what
/// cannot be formed and says so by its absence. Nothing else may.
const OPEN: &[&str] = &[
    // No reading of the series stands still.
    "since_min",
    // A group of bottles that such numbers leave without a test.
    "more_pg",
    "p",
    "p_over_all",
    "u_pg",
    // Ends of intervals: one-sided, or open where the numbers do not bound them.
    "interval",
    "interval_95",
    "mean_95",
    "median_95",
    "at_least_95",
    "at_most_95",
    "frequency_upper_95",
    "transmissivity_bootstrap_95_m2_d",
    "storage_bootstrap_95",
    "slope_open_between",
    // Air beyond the classes of the standard.
    "under_limit_of_class",
    "shown_class",
    "bounded_class",
    "equivalent_class",
    "shown_at_size_um",
    // Infinite degrees of freedom.
    "dof",
    "dof_eff",
    // Shares and ratios of nothing.
    "share_of_water",
    "total_share_of_water",
    "relative_percent",
    "percent_per_year",
    "magnification",
    "best_ratio",
    // A balance that non-detects leave a range, or of a water that was not solved as analysed.
    "charge_balance_percent",
    "charge_balance",
    // What too few or unlike readings do not give.
    "straight_line",
    "monte_carlo",
    "plot_correlation",
    "preferred_for_mean",
    "flow_for_longest_contact_L_min",
    // A lognormal fit whose mean lies beyond all numbers: its median and percentiles stand.
    "mean",
    "sd",
];

/// Places of nulls and of texts that hold what is no number; the key that an item of a list stands under is the list's.
fn holes(v: &Value, place: &str, key: &str, out: &mut Vec<(String, String)>) {
    match v {
        Value::Object(map) => map.iter().for_each(|(k, v)| holes(v, &format!("{place}/{k}"), k, out)),
        Value::Array(items) => items.iter().for_each(|v| holes(v, &format!("{place}/*"), key, out)),
        Value::Null => out.push((place.into(), key.into())),
        Value::String(text)
            if text.split(|c: char| !c.is_alphanumeric()).any(|word| word == "NaN" || word == "inf") =>
        {
            out.push((format!("{place}: {text}"), String::new()));
        }
        _ => {}
    }
}

/// How much slower work is because the machine is busy with other work: load over processors, where the system tells.
fn busy() -> f64 {
    let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_default();
    let load: f64 = load.split(' ').next().and_then(|l| l.parse().ok()).unwrap_or(0.0);
    (load / std::thread::available_parallelism().map_or(1.0, |n| n.get() as f64)).max(1.0)
}

enum Ended {
    Told(Result<Value, CalcError>, Duration),
    BrokeOff,
    Hangs,
}

fn watched(c: Calculation, input: Value) -> Ended {
    let (tell, told) = mpsc::channel();
    std::thread::spawn(move || {
        let begun = Instant::now();
        let ended = std::panic::catch_unwind(|| c.answer(&input));
        let _ = tell.send((ended, begun.elapsed()));
    });
    // One that does not come back within a minute hangs, however busy the machine.
    match told.recv_timeout(Duration::from_mins(1)) {
        Ok((Ok(answer), took)) => Ended::Told(answer, took),
        Ok((Err(_), _)) => Ended::BrokeOff,
        Err(_) => Ended::Hangs,
    }
}

fn fault(c: Calculation, input: &Value, lawful: &[(String, String)]) -> Option<String> {
    let mut least = Duration::MAX;
    for _ in 0..3 {
        match watched(c, input.clone()) {
            Ended::Hangs => return Some("hangs".into()),
            Ended::BrokeOff => return Some("breaks off".into()),
            Ended::Told(Err(e), took) => {
                if e.to_string().contains("NaN") {
                    return Some(format!("is refused without a value: {e}"));
                }
                least = least.min(took);
            }
            Ended::Told(Ok(answer), took) => {
                let mut found = vec![];
                holes(&answer, "", "", &mut found);
                let known = |(place, key): &(String, String)| {
                    lawful.iter().any(|(p, _)| p == place) || OPEN.contains(&key.as_str())
                };
                found.retain(|f| !known(f));
                if !found.is_empty() {
                    return Some(format!("answers without a number: {found:?}"));
                }
                least = least.min(took);
            }
        }
        if least < Duration::from_secs_f64(busy()) {
            return None;
        }
    }
    Some(format!("takes {least:?}"))
}

#[test]
fn every_number_of_every_calculation_is_answered_or_refused_within_a_second() {
    let mut faults = vec![];
    let mut asked = 0;
    for c in all() {
        let example: Value = serde_json::from_str(c.example).unwrap();
        let mut lawful = vec![];
        holes(&c.answer(&example).unwrap(), "", "", &mut lawful);
        for place in places(&c, &example) {
            for extreme in extremes() {
                let mut input = example.clone();
                match input.pointer_mut(&place) {
                    Some(number) => *number = extreme.clone(),
                    None => input[&place[1..]] = extreme.clone(),
                }
                asked += 1;
                if let Some(fault) = fault(c, &input, &lawful) {
                    faults.push(format!("{} {place} = {extreme} {fault}", c.name));
                }
            }
        }
    }
    assert!(asked > 5_000, "{asked}");
    assert!(faults.is_empty(), "{} of {asked}:\n{}", faults.len(), faults.join("\n"));
}

/// Through the program: by name, with value and allowed range, and soon.
#[test]
fn what_used_to_hang_is_refused_by_its_name() {
    let desk = Desk::new();
    let example = |name: &str, change: &dyn Fn(&mut Value)| {
        let mut input: Value = serde_json::from_str(&desk.run(&["calc", "--example", name]).done()).unwrap();
        change(&mut input);
        input.to_string()
    };
    let counts = r#"{"blank_counts":10,"blank_time_s":1,"sample_time_s":1e17}"#.to_string();
    let cases = [
        ("detection", counts, ["sample_time_s/blank_time_s", "100000000000000000", "1e-6 to 1e6"]),
        ("travel", example("travel", &|v| v["draws"] = json!(9e15)), ["draws", "9000000000000000", "1000 to 1000000"]),
        (
            "flow-test",
            example("flow-test", &|v| v["radius_m"] = json!(1e15)),
            ["radius of the well", "1000000000000000 m", "0.001 to 100 m"],
        ),
        (
            "flow-test",
            example("flow-test", &|v| v["draws"] = json!(9e15)),
            ["draws", "9000000000000000", "at most 10000"],
        ),
        (
            "uncertainty",
            example("uncertainty", &|v| v["draws"] = json!(1_000_000_000)),
            ["draws", "1000000000", "1000 to 2000000"],
        ),
        (
            "contamination",
            example("contamination", &|v| v["draws"] = json!(9e15 as u64)),
            ["draws", "9000000000000000", "1000 to 1000000"],
        ),
        (
            "trial",
            example("trial", &|v| v["trials"] = json!(9e15 as u64)),
            ["trials", "9000000000000000", "1 to 100000"],
        ),
        ("line", example("line", &|v| v["u_y"][1] = json!(1e-300)), ["u_y[1]", "1e-300", "1e-60 to 1e60"]),
        ("ratio", example("ratio", &|v| v["a"]["u"] = json!(-2)), ["a.u", "-2", "0 or more"]),
    ];
    for (name, input, parts) in cases {
        let begun = Instant::now();
        desk.calc(name, &input).fails(1, &parts);
        let took = begun.elapsed();
        assert!(took < Duration::from_secs_f64(busy()), "{name}: {took:?}");
    }
}
