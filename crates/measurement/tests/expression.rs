//! The model language: precedence, functions, derivatives, errors by position.

use ::fixtures::damage::{cases, damaged_text, strokes};
use measurement::error::Error;
use measurement::expression::{Expression, LANES};
use proptest::prelude::*;

fn value(text: &str, given: &[(&str, f64)]) -> f64 {
    let names: Vec<&str> = given.iter().map(|g| g.0).collect();
    let x: Vec<f64> = given.iter().map(|g| g.1).collect();
    Expression::parse(text, &names).unwrap_or_else(|e| panic!("{text}: {e}")).value(&x)
}

fn check(text: &str, given: &[(&str, f64)], want: f64) {
    let got = value(text, given);
    assert!((got - want).abs() <= 1e-14 * want.abs(), "{text}: {got}, expected {want}");
}

/// Slopes at nought by their limits (calculus): x⁰ is flat, x^y is nought along x = 0 for y > 0; √x stands upright.
#[test]
fn slopes_at_nought() {
    let gradient = |text: &str, names: &[&str], at: &[f64]| {
        measurement::expression::Expression::parse(text, names).expect("a model").gradient(at)
    };
    assert_eq!(gradient("x^0", &["x"], &[0.0]), (1.0, vec![0.0]));
    assert_eq!(gradient("x^y", &["x", "y"], &[0.0, 0.0]).1[0].to_bits(), 0.0f64.to_bits());
    assert_eq!(gradient("x^y", &["x", "y"], &[0.0, 2.0]), (0.0, vec![0.0, 0.0]));
    assert_eq!(gradient("x^1.5", &["x"], &[0.0]), (0.0, vec![0.0]));
    assert_eq!(gradient("sqrt(x)", &["x"], &[0.0]), (0.0, vec![f64::INFINITY]));
    // Linear propagation through the upright slope is refused by the input's name.
    let uncertainty = measurement::CALCULATIONS.iter().find(|c| c.name == "uncertainty").expect("listed");
    let ask = |model: &str| {
        (uncertainty.run)(
            &serde_json::json!({ "model": model, "inputs": { "x": { "value": 0, "u": 0.1 } }, "draws": 0 }),
        )
    };
    let e = ask("sqrt(x)").expect_err("no slope").to_string();
    assert!(e.starts_with("slope in x: found inf") && e.contains("linear propagation fails"), "{e}");
    let flat = ask("x^0").expect("an answer");
    assert_eq!((flat["value"].as_f64(), flat["u"].as_f64()), (Some(1.0), Some(0.0)));
}

#[test]
fn the_usual_rules_of_precedence_hold() {
    check("1 + 2*3", &[], 7.0);
    check("(1 + 2)*3", &[], 9.0);
    check("-2^2", &[], -4.0);
    check("2^3^2", &[], 512.0);
    check("2^-1", &[], 0.5);
    check("8/4/2", &[], 1.0);
    check("8 - 4 - 2", &[], 2.0);
    check("--3", &[], 3.0);
    check("1.5e-3*2E3", &[], 3.0);
    check("2*pi", &[], std::f64::consts::TAU);
    check("a - -b", &[("a", 5.0), ("b", 2.0)], 7.0);
    check("a^b", &[("a", 2.0), ("b", 0.5)], std::f64::consts::SQRT_2);
    check("a^0.5 + a^-2", &[("a", 4.0)], 2.0625);
    check("-a^2", &[("a", 3.0)], -9.0);
    check(
        "(gross - blank)/(slope*recovery)*dilution",
        &[("gross", 110.0), ("blank", 10.0), ("slope", 50.0), ("recovery", 0.8), ("dilution", 2.0)],
        5.0,
    );
}

#[test]
fn functions_and_names() {
    check("sqrt(abs(-16)) + ln(exp(2)) + log10(1000)", &[], 9.0);
    check("min(3, a, 2) + max(a, 7)", &[("a", 5.0)], 9.0);
    check("sin(x)^2 + cos(x)^2", &[("x", 0.7)], 1.0);
    check("tan(x) - sin(x)/cos(x) + 1", &[("x", 0.7)], 1.0);
    check("δα·θ − x_1", &[("δα", 3.0), ("θ", 2.0), ("x_1", 1.0)], 5.0);
    // An input may have the name of a constant or a function.
    check("pi + min", &[("pi", 3.0), ("min", 1.0)], 4.0);
    assert_eq!(Expression::names_in("(gross - blank)/slope*exp(-k*2e3) + pi"), ["gross", "blank", "slope", "k"]);
}

#[test]
fn what_does_not_parse_is_refused_at_its_place() {
    let refused = |text: &str| match Expression::parse(text, &["a", "b"]) {
        Err(Error::Model { position, message }) => (position, message),
        other => panic!("{text}: {other:?}"),
    };
    assert_eq!(refused("a + c").0, 5);
    assert!(refused("a + c").1.contains("`c` is not an input; the inputs are a, b"));
    assert_eq!(refused("(a + b").0, 7);
    assert!(refused("(a + b").1.contains("expected `)`"));
    assert_eq!(refused("a b").0, 3);
    assert!(refused("").1.contains("the text ends"));
    assert!(refused("a +").1.contains("the text ends"));
    assert!(refused("system(a)").1.contains("not a function"));
    assert!(refused("sqrt(a, b)").1.contains("expected `)`"));
    assert!(refused("min(a)").1.contains("two arguments"));
    assert!(refused("1.2.3").1.contains("not a number"));
    assert!(refused("a ; b").1.contains("`;`"));
    let deep = "(".repeat(100_000);
    assert!(refused(&deep).1.contains("bytes"));
    assert!(refused(&"(".repeat(5000)).1.contains("deeper"));
    assert!(refused(&"2^".repeat(5000)).1.contains("deeper"));
    assert!(refused(&"abs(".repeat(3000)).1.contains("deeper"));
}

#[test]
fn values_outside_the_reals_are_no_numbers() {
    assert!(value("ln(a)", &[("a", -1.0)]).is_nan());
    assert!(value("sqrt(a)", &[("a", -1.0)]).is_nan());
    assert!(value("1/a", &[("a", 0.0)]).is_infinite());
    assert!(value("min(a/a, 3)", &[("a", 0.0)]).is_nan());
}

const MODEL: &str = "(a - b)/(c*d)*exp(-a/10) + sqrt(c)*log10(d) + max(a, b)^3/min(c, d) + abs(b - c) + ln(d) + sin(a)*cos(b) + tan(d/9) + c^d + a^-2";

proptest! {
    /// The derivatives are those of a difference quotient with four points.
    #[test]
    fn derivatives_agree_with_differences(
        a in 1.0..3.0_f64, b in 3.5..5.0_f64, c in 0.5..2.0_f64, d in 2.1..4.0_f64,
    ) {
        let e = Expression::parse(MODEL, &["a", "b", "c", "d"]).unwrap();
        let x = [a, b, c, d];
        let (v, g) = e.gradient(&x);
        prop_assert!((v - e.value(&x)).abs() < 1e-12 * v.abs());
        for i in 0..4 {
            let h = 1e-3;
            let at = |k: f64| { let mut y = x; y[i] += k * h; e.value(&y) };
            let difference = (8.0 * (at(1.0) - at(-1.0)) - (at(2.0) - at(-2.0))) / (12.0 * h);
            prop_assert!((g[i] - difference).abs() < 1e-7 * (1.0 + difference.abs()), "{i}: {} {difference}", g[i]);
        }
    }

    /// A block gives the same bits as single points.
    #[test]
    fn blocks_and_points_give_the_same_digits(n in 1..LANES, shift in 0.1..1.0_f64) {
        let e = Expression::parse(MODEL, &["a", "b", "c", "d"]).unwrap();
        let mut inputs = vec![[0.0; LANES]; 4];
        for (i, lanes) in inputs.iter_mut().enumerate() {
            for (k, v) in lanes.iter_mut().enumerate() {
                *v = shift + 0.01 * k as f64 + i as f64;
            }
        }
        let mut out = vec![0.0; n];
        e.block(&inputs, &mut e.scratch(), &mut out);
        for k in 0..n {
            let x: Vec<f64> = inputs.iter().map(|l| l[k]).collect();
            prop_assert_eq!(out[k].to_bits(), e.value(&x).to_bits());
        }
    }

    /// No text makes the parser panic.
    #[test]
    fn any_text_is_parsed_or_refused(text in "[a-d0-9.eE+*/^() ,πmin-]{0,60}") {
        let _ = Expression::parse(&text, &["a", "b", "c", "d"]);
        let _ = Expression::names_in(&text);
    }
}

/// Models as laboratories write them.
const MODELS: &[&str] = &[
    MODEL,
    "(gross - blank)/(slope*recovery)*dilution",
    "max(a, 0)^0.5 + min(b, c)*exp(-d/τ)",
    "-(-a)^-2e-3/(1.5E+2*b) - sqrt(abs(c))",
];

proptest! {
    #![proptest_config(cases(3000))]

    /// A model with a slip in it is a model or refused by name, and can be worked out either way of working.
    #[test]
    fn a_damaged_model_is_worked_out_or_refused(which in 0..MODELS.len(), strokes in strokes(4)) {
        let text = damaged_text(MODELS[which], &strokes);
        let names = Expression::names_in(&text);
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        match Expression::parse(&text, &names) {
            Err(e) => prop_assert!(!e.to_string().is_empty()),
            Ok(e) => {
                let x: Vec<f64> = (0..names.len()).map(|i| 1.3 + i as f64).collect();
                let inputs: Vec<[f64; LANES]> = x.iter().map(|v| [*v; LANES]).collect();
                let mut out = [0.0; LANES];
                e.block(&inputs, &mut e.scratch(), &mut out);
                let same = |v: f64| v.to_bits() == e.value(&x).to_bits() || (v.is_nan() && e.value(&x).is_nan());
                prop_assert!(same(e.gradient(&x).0) && same(out[0]), "{}: {} {} {}", text, e.value(&x), e.gradient(&x).0, out[0]);
            }
        }
    }

    /// The whole request, damaged.
    #[test]
    fn a_damaged_request_is_answered_or_refused(strokes in strokes(4)) {
        let uncertainty = measurement::CALCULATIONS.iter().find(|c| c.name == "uncertainty").unwrap();
        let example = uncertainty.example.replace("200000", "1000");
        let Ok(request) = serde_json::from_str::<serde_json::Value>(&damaged_text(&example, &strokes)) else { return Ok(()) };
        // More draws than these are lawful and take their time.
        let draws = request["draws"].as_u64().unwrap_or(0);
        if (20_000..=1_000_000_000).contains(&draws) || request["draws"].is_null() {
            return Ok(());
        }
        if let Err(e) = (uncertainty.run)(&request) {
            prop_assert!(!e.to_string().is_empty());
        }
    }
}
