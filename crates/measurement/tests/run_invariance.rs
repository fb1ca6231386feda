//! What must not change a reduced run: the order of rows, the scale of the counts, a constant on
//! top of everything. And what the budget says against what a small change of an input does.

use crate::common;

use common::*;
use measurement::run::{self, *};
use message::{Lang, Message, step_measurement as said};
use proptest::prelude::*;
use quantity::Measured;

fn setting() -> Setting {
    Setting { truths: vec![lead(), cadmium(), molybdenum()], oxide: 0.0006, dead_time_ns: 0.0, ..Setting::default() }
}

fn shuffle<T>(items: &mut [T], random: &mut Random) {
    for i in (1..items.len()).rev() {
        let j = (random.uniform() * (i + 1) as f64) as usize;
        items.swap(i, j);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn the_order_of_rows_changes_no_bit(seed in 0_u64..1000, order in 0_u64..1000) {
        let s = Setting { dead_time_ns: 20.0, ..setting() };
        let mut r = recipe(&s);
        r.dead_time.u_ns = 2.0;
        let input = simulate(&s, seed);
        let mut mixed = input.clone();
        let mut random = Random::new(order);
        shuffle(&mut mixed.vials, &mut random);
        shuffle(&mut mixed.readings, &mut random);
        let (a, b) = (reduce(&input, &r).unwrap(), reduce(&mixed, &r).unwrap());
        prop_assert_eq!(a.results, b.results);
        prop_assert_eq!(a.findings, b.findings);
    }

    #[test]
    fn scaling_all_counts_changes_nothing(seed in 0_u64..1000, factor in 0.2_f64..5.0) {
        let s = setting();
        let input = simulate(&s, seed);
        let mut more = input.clone();
        for r in &mut more.readings {
            for x in &mut r.rates_cps {
                *x *= factor;
            }
        }
        let mut r = recipe(&s);
        r.dead_time = DeadTime::default();
        let (a, b) = (reduce(&input, &r).unwrap(), reduce(&more, &r).unwrap());
        for (x, y) in a.results.iter().zip(&b.results) {
            // Rounding through a chain of some ten operations.
            prop_assert!((x.net.value - y.net.value).abs() <= 1e-9 * x.net.u);
            prop_assert!((x.net.u - y.net.u).abs() <= 1e-9 * x.net.u);
        }
    }

    #[test]
    fn a_constant_on_gross_and_blank_leaves_the_net_value(seed in 0_u64..1000, constant in 1.0_f64..500.0) {
        let s = setting();
        let mut r = recipe(&s);
        r.dead_time = DeadTime::default();
        r.monitors_only = std::mem::take(&mut r.internal_standards.isotopes);
        r.interferences.clear();
        r.drift = Drift::None;
        r.between_vials = Some(0.0);
        let input = simulate(&s, seed);
        let mut more = input.clone();
        for x in more.readings.iter_mut().flat_map(|r| &mut r.rates_cps) {
            *x += constant;
        }
        // Weights stay, so that the line stays: counting times are not given.
        let blind = |i: &RunInput| {
            let mut i = i.clone();
            for r in &mut i.readings {
                r.integration_s = 0.0;
            }
            i
        };
        let (a, b) = (reduce(&blind(&input), &r).unwrap(), reduce(&blind(&more), &r).unwrap());
        for (x, y) in a.results.iter().zip(&b.results).filter(|(x, _)| x.blank.is_some()) {
            // Rounding: 1e-16 of some 1e5 counts/s over some 1e3 counts/s per ng/L.
            prop_assert!((x.net.value - y.net.value).abs() <= 1e-7 * x.net.u, "{} {}", x.net.value, y.net.value);
        }
    }
}

fn sample<'a>(run: &'a ReducedRun, element: &str) -> &'a RunResult {
    run.results.iter().find(|r| r.role == Role::Sample && r.analyte.element == element).expect("a sample")
}

fn part(r: &RunResult, name: &str) -> f64 {
    r.budget.iter().find(|c| c.input == name).map_or(0.0, |c| c.u)
}

/// The budget's part against half the change of the result when the input moves by ± u.
fn agrees(budget: f64, plus: &RunResult, minus: &RunResult, what: &str) {
    let moved = (plus.net.value - minus.net.value).abs() / 2.0;
    // First order against the true function, where the inputs move by a percent or two; weights
    // move along, which shows in parts that hardly matter (under 1e-4 of u).
    assert!((budget - moved).abs() <= 0.01 * moved + 1e-4 * plus.net.u, "{what}: {budget} against {moved}");
    assert!(budget > 0.0, "{what}");
}

#[test]
fn the_budget_is_what_a_change_of_the_input_does() {
    let s = Setting { dead_time_ns: 50.0, ..setting() };
    let mut base = recipe(&s);
    base.dead_time.u_ns = 3.0;
    base.drift = Drift::Bracket;
    base.interferences[0].factor = FactorSource::Given { value: 0.0006, u: 0.00002 };
    base.recovery = Recovery::Given {
        values: ["Pb", "Cd", "Mo"].map(|e| GivenRecovery { element: e.into(), value: 0.9, u: 0.01 }).to_vec(),
    };
    let mut input = simulate(&s, 11);
    for v in input.vials.iter_mut().filter(|v| v.role == Role::Sample) {
        v.dilution = Factor::new(1.1, 0.002);
    }
    let at = |change: &dyn Fn(&mut RunInput, &mut Recipe)| {
        let (mut i, mut r) = (input.clone(), base.clone());
        change(&mut i, &mut r);
        run::reduce(&i, &r).expect("a simulated run")
    };
    let run = at(&|_, _| {});
    for element in ["Pb", "Cd", "Mo"] {
        let b = sample(&run, element);
        let shares: f64 = b.budget.iter().map(|c| c.share).sum();
        assert!((shares - 1.0).abs() < 1e-12);
        let of = |sign: f64, kind: &str| {
            let r = at(&|i, r| match kind {
                "dead time" => r.dead_time.ns += sign * 3.0,
                "interference factor" => {
                    r.interferences[0].factor = FactorSource::Given { value: 0.0006 + sign * 0.00002, u: 0.00002 };
                }
                "assigned values of the standards" => {
                    for a in i.vials.iter_mut().flat_map(|v| &mut v.assigned) {
                        a.amount.value *= 1.0 + sign * s.u_standards;
                        a.amount.u *= 1.0 + sign * s.u_standards;
                    }
                }
                "recovery" => {
                    if let Recovery::Given { values } = &mut r.recovery {
                        for v in values {
                            v.value += sign * 0.01;
                        }
                    }
                }
                _ => {
                    let first = i.vials.iter_mut().find(|v| v.role == Role::Sample).expect("a sample");
                    first.dilution.value += sign * 0.002;
                }
            });
            sample(&r, element).clone()
        };
        let mut kinds = vec!["dead time", "assigned values of the standards", "recovery", "dilution"];
        if element == "Cd" {
            kinds.push("interference factor");
        }
        for kind in kinds {
            agrees(part(b, kind), &of(1.0, kind), &of(-1.0, kind), &format!("{element}, {kind}"));
        }
    }
}

#[test]
fn what_the_drift_checks_and_standards_bring_is_the_sum_of_what_each_brings() {
    let s = setting();
    let mut base = recipe(&s);
    base.between_vials = Some(0.0);
    base.dead_time = DeadTime::default();
    let input = simulate(&s, 12);
    for drift in [Drift::Bracket, Drift::Smooth { degree: 1 }] {
        let r = Recipe { drift, ..base.clone() };
        let run = run::reduce(&input, &r).expect("a simulated run");
        let b = sample(&run, "Pb");
        for (roles, name) in
            [(vec![Role::DriftCheck], "drift checks"), (vec![Role::Standard], "counts of the calibration line")]
        {
            let mut sum = 0.0;
            for v in input.vials.iter().filter(|v| roles.contains(&v.role)) {
                // The ratio moves with lead's counts: shift all replicates of all three isotopes.
                let shifted = |sign: f64| {
                    let mut i = input.clone();
                    let u = relative_u(&run, v);
                    for r in i.readings.iter_mut().filter(|r| r.position == v.position && r.isotope.element == "Pb") {
                        for x in &mut r.rates_cps {
                            *x *= 1.0 + sign * u;
                        }
                    }
                    sample(&run::reduce(&i, &r).expect("a simulated run"), "Pb").net.value
                };
                sum += ((shifted(1.0) - shifted(-1.0)) / 2.0).powi(2);
            }
            let (got, want) = (part(b, name), sum.sqrt());
            // The line's own part also holds the calibration blanks (a few percent of it), and
            // weights move a little with the counts.
            assert!((got / want - 1.0).abs() < 0.06, "{drift:?}, {name}: {got} against {want}");
        }
    }
}

/// Relative u of a vial's mean of Σ Pb / I, as the way back of the first sample shows it; of a vial that is not on that
/// way nothing.
fn relative_u(run: &ReducedRun, vial: &Vial) -> f64 {
    let i = run.results.iter().position(|r| r.role == Role::Sample && r.analyte.element == "Pb").expect("a sample");
    let name = format!("response R, Pb 206+207+208@low in \"{}\"", vial.name);
    match run.derivation(i).nodes.iter().find(|n| n.name == name).map(|n| n.amount.clone()) {
        Some(quantity::Amount::Measured(m)) => m.u / m.value,
        _ => 0.0,
    }
}

#[test]
fn results_that_share_a_blank_mean_are_correlated_by_it() {
    let s = setting();
    let run = run::reduce(&simulate(&s, 13), &recipe(&s)).expect("a simulated run");
    let of: Vec<usize> = (0..run.results.len())
        .filter(|i| run.results[*i].role == Role::Sample && run.results[*i].analyte.element == "Pb")
        .collect();
    let blank = run.results[of[0]].blank.clone().expect("a blank");
    // metrology: all samples share s²/n of the blanks; line and drift add to it.
    let covariance = run.covariance(of[0], of[1]);
    assert!(covariance >= blank.sd.powi(2) / blank.n as f64);
    assert!(covariance < run.results[of[0]].net.u * run.results[of[1]].net.u);
    // Two metals in two vials share the dead time and nothing else.
    let mut known = recipe(&s);
    known.dead_time = DeadTime::default();
    let run = run::reduce(&simulate(&s, 13), &known).expect("a simulated run");
    let position = run.results[of[0]].position;
    let other = |r: &RunResult| r.analyte.element == "Cd" && r.position != position;
    let other = run.results.iter().position(other).expect("cadmium");
    assert!(run.covariance(of[0], other).abs() < f64::EPSILON);
}

#[test]
fn a_derivation_goes_down_to_the_counts() {
    let s = Setting { dead_time_ns: 20.0, ..setting() };
    let run = run::reduce(&simulate(&s, 14), &recipe(&s)).expect("a simulated run");
    let i = run.results.iter().position(|r| r.role == Role::Sample && r.analyte.element == "Cd").expect("cadmium");
    let d = run.derivation(i);
    let last = d.result().expect("a result");
    assert_eq!(last.amount, quantity::Amount::Measured(run.results[i].net.clone()));
    let named = |text: &str| d.nodes.iter().filter(|n| n.name.contains(text)).count();
    for step in [
        "observed rate n, Cd111@low",
        "rate N after dead time",
        "overlap factor f",
        "response R",
        "drift removed",
        "slope b",
        "gross concentration",
        "field blank b",
        "assigned value, Cd",
    ] {
        assert!(named(step) > 0, "{step}");
    }
    assert_eq!(named("slope b"), 1);
    assert_eq!(named("observed rate n, Mo95@low in \"Mo alone 1\""), 1);
    assert_eq!(run.derivations()[i], d);
}

#[test]
fn all_words_of_a_derivation_are_messages_and_the_english_beside_them_is_theirs() {
    let s = Setting { dead_time_ns: 20.0, ..setting() };
    let run = run::reduce(&simulate(&s, 14), &recipe(&s)).expect("a simulated run");
    let i = run.results.iter().position(|r| r.role == Role::Sample && r.analyte.element == "Cd").expect("cadmium");
    let d = run.derivation(i);
    let mut all = vec![(d.says.as_ref(), d.method.as_str())];
    for n in &d.nodes {
        all.extend([(n.says.name.as_ref(), n.name.as_str()), (n.says.step.as_ref(), n.step.as_str())]);
        all.push((n.says.source.as_ref(), n.source.as_str()));
    }
    all.extend(d.budget.iter().map(|c| (c.says.as_ref(), c.input.as_str())));
    for (says, english) in &all {
        match says {
            Some(m) => {
                assert_eq!(m.in_english(), **english);
                assert_ne!(m.said(Lang::De).expect("German has every message"), **english);
            }
            // A formula: letters and signs.
            None => assert!(english.split(|c: char| !c.is_alphabetic()).all(|w| w.chars().count() < 2), "{english}"),
        }
    }
    let named = |m: Message| all.iter().filter(|(says, _)| *says == Some(&m)).count();
    assert_eq!(named(said::Run.into()), 1);
    assert_eq!(named(said::ObservedRate { isotope: "Mo95@low".into(), vial: "Mo alone 1".into() }.into()), 1);
    assert_eq!(named(said::PartInterference.into()), 1);
}

#[test]
fn the_mean_sd_n_form_gives_the_same_value_and_a_like_u() {
    let s = setting();
    let r = recipe(&s);
    let input = simulate(&s, 15);
    let mut short = input.clone();
    for x in &mut short.readings {
        let n = x.rates_cps.len() as f64;
        let mean = x.rates_cps.iter().sum::<f64>() / n;
        let ss: f64 = x.rates_cps.iter().map(|v| (v - mean).powi(2)).sum();
        x.summary = Some(Summary { mean_cps: mean, sd_cps: (ss / (n - 1.0)).sqrt(), n: n as u32 });
        x.rates_cps.clear();
    }
    let (a, b) = (run::reduce(&input, &r).expect("run"), run::reduce(&short, &r).expect("run"));
    let (x, y): (&Measured, &Measured) = (&sample(&a, "Pb").net, &sample(&b, "Pb").net);
    // Mean of ratios against ratio of means: second order in the scatter of a percent.
    assert!((x.value / y.value - 1.0).abs() < 2e-3);
    assert!((x.u / y.u - 1.0).abs() < 0.3);
}
