//! What a run is refused for, each by name with value, place and what to do; and what is only
//! told beside the numbers.

use crate::common;

use common::*;
use measurement::run::{self, *};
use quantity::{Check, Measured, Outcome, Unit};

fn good() -> (RunInput, Recipe) {
    let s = Setting::default();
    (simulate(&s, 2), recipe(&s))
}

fn refused(change: impl Fn(&mut RunInput, &mut Recipe)) -> (Error, String) {
    let (mut input, mut recipe) = good();
    change(&mut input, &mut recipe);
    let e = run::reduce(&input, &recipe).expect_err("a refusal");
    let text = e.to_string();
    (e, text)
}

fn vial<'a>(input: &'a mut RunInput, name: &str) -> &'a mut Vial {
    input.vials.iter_mut().find(|v| v.name == name).expect("a vial")
}

fn says(text: &str, parts: &[&str]) {
    for p in parts {
        assert!(text.contains(p), "\"{text}\" does not say \"{p}\"");
    }
}

#[test]
fn a_standard_without_value() {
    let (e, text) = refused(|i, _| vial(i, "std 2").assigned.clear());
    assert!(matches!(e, Error::StandardWithoutValue { .. }));
    says(&text, &["std 2", "no assigned value", "give value, u and unit"]);
    let (_, text) = refused(|i, _| {
        for v in &mut i.vials {
            v.assigned.retain(|a| a.element != "Cd");
        }
    });
    says(&text, &["no assigned value for Cd"]);
}

#[test]
fn fewer_than_two_standards() {
    let (e, text) = refused(|i, _| {
        for k in 1..5 {
            vial(i, &format!("std {k}")).role = Role::Sample;
        }
    });
    assert!(matches!(e, Error::TooFewStandards { found: 1, .. }));
    says(&text, &["1 usable standard,", "at least 2"]);
}

#[test]
fn one_standard_repeated() {
    let (e, text) = refused(|i, _| {
        for k in 0..5 {
            for a in &mut vial(i, &format!("std {k}")).assigned {
                a.amount.value = 1.0;
            }
        }
    });
    assert!(matches!(e, Error::OneLevel { .. }));
    says(&text, &["all 5 standards hold the same concentration", "two levels"]);
}

#[test]
fn fewer_than_two_blanks() {
    let (e, text) = refused(|i, _| {
        for k in 1..6 {
            vial(i, &format!("field blank {k}")).role = Role::TripBlank;
        }
    });
    assert!(matches!(e, Error::TooFewBlanks { found: 1, .. }));
    says(&text, &["field blank", "has 1 usable", "at least 2"]);
}

#[test]
fn a_dilution_that_is_not_above_zero() {
    for bad in [0.0, -2.0, f64::NAN] {
        let (e, text) = refused(|i, _| vial(i, "sample 1").dilution = Factor::new(bad, 0.0));
        assert!(matches!(e, Error::BadDilution { .. }));
        says(&text, &["sample 1", "above 0"]);
    }
}

#[test]
fn counts_beyond_the_dead_time_model() {
    let (e, text) = refused(|i, _| i.readings[3].rates_cps[2] = 6.0e7);
    assert!(matches!(e, Error::BeyondDeadTime { .. }));
    says(&text, &["60000000 counts/s", "20 ns", "120 %", "dilute"]);
    // Tiring, not blind: a finding, and a number.
    let (mut input, recipe) = good();
    let at = vial(&mut input, "sample 0").position;
    for r in input.readings.iter_mut().filter(|r| r.position == at && r.isotope.element == "In") {
        r.rates_cps.iter_mut().for_each(|x| *x *= 120.0);
    }
    let run = run::reduce(&input, &recipe).expect("still a number");
    let f = run.findings.iter().find(|f| f.finding.check == Check::RunDeadTime).expect("a finding");
    assert_eq!((f.finding.outcome, f.position), (Outcome::NotMet, Some(at)));
}

#[test]
fn a_doubled_position_and_a_doubled_reading() {
    let (e, text) = refused(|i, _| i.vials[4].position = i.vials[3].position);
    assert!(matches!(e, Error::DoubledPosition { position: 4, .. }));
    says(&text, &["position 4 is taken twice", "cal blank 3", "cal blank 4"]);
    let (e, text) = refused(|i, _| {
        let again = i.readings[5].clone();
        i.readings.push(again);
    });
    assert!(matches!(e, Error::DoubledReading { .. }));
    says(&text, &["read twice"]);
}

#[test]
fn a_reading_without_vial_and_one_without_numbers() {
    let (e, text) = refused(|i, _| i.readings[0].position = 999);
    assert!(matches!(e, Error::ReadingWithoutVial { position: 999, .. }));
    says(&text, &["position 999", "no vial"]);
    let (_, text) = refused(|i, _| i.readings[0].rates_cps.clear());
    says(&text, &["neither replicates nor mean"]);
    let (_, text) = refused(|i, _| i.readings[0].rates_cps[0] = f64::NAN);
    says(&text, &["not a number"]);
    let (e, text) = refused(|i, _| {
        i.readings[0].rates_cps.pop();
    });
    assert!(matches!(e, Error::UnequalReplicates { .. }));
    says(&text, &["4 replicates", "replicate by replicate"]);
}

#[test]
fn a_missing_internal_standard() {
    let (e, text) = refused(|i, r| {
        r.internal_standards.isotopes.push(Isotope::counting("Rh", 103, "low"));
        let at = vial(i, "sample 0").position;
        i.readings.retain(|x| x.position != at || x.isotope.element != "In");
    });
    assert!(matches!(e, Error::MissingInternalStandard { .. }));
    says(&text, &["Rh103@low", "anywhere in the run"]);
    let (e, text) = refused(|i, _| {
        let at = vial(i, "sample 0").position;
        i.readings.retain(|x| x.position != at || x.isotope.element != "In");
    });
    assert!(matches!(e, Error::MissingInternalStandard { .. }));
    says(&text, &["In115@low", "sample 0", "exclude"]);
}

#[test]
fn a_unit_that_measures_something_else() {
    let (e, text) = refused(|i, _| {
        vial(i, "std 1").assigned[0].amount = Measured::new(1.0, 0.1, Unit::known("bar"));
    });
    assert!(matches!(e, Error::Unit { .. }));
    says(&text, &["std 1", "bar", "ng/L"]);
    // µg/L and nmol/L are turned into ng/L.
    let (mut input, recipe) = good();
    let want = run::reduce(&input, &recipe).expect("a run");
    for k in 0..5 {
        for a in &mut vial(&mut input, &format!("std {k}")).assigned {
            let amount = quantity::Amount::Measured(a.amount.clone());
            let quantity::Amount::Measured(m) =
                amount.convert(&Unit::known("ug/L"), None, None).expect("a unit of mass")
            else {
                panic!("a measured value stays one");
            };
            a.amount = m;
        }
    }
    let got = run::reduce(&input, &recipe).expect("a run");
    for (a, b) in got.results.iter().zip(&want.results) {
        assert!((a.net.value - b.net.value).abs() < 1e-12);
    }
}

#[test]
fn a_recipe_out_of_range() {
    let (_, text) = refused(|_, r| r.alpha = 1.5);
    says(&text, &["alpha is 1.5", "between 0 and 1"]);
    let (_, text) = refused(|_, r| r.drift = Drift::Smooth { degree: 7 });
    says(&text, &["degree is 7", "0 to 3"]);
    let (_, text) = refused(|_, r| r.blank.samples = Role::Standard);
    says(&text, &["blank.samples is standard", "nested blanks"]);
    let (_, text) = refused(|_, r| r.blank.reference = Role::DriftCheck);
    says(&text, &["blank.reference is drift check", "nested blanks"]);
    let (_, text) = refused(|_, r| r.interference_share = -0.1);
    says(&text, &["interference_share is -0.1", "a share from 0 to 1"]);
    let (_, text) = refused(|_, r| r.between_vials = Some(-0.005));
    says(&text, &["between_vials is -0.005", "a share from 0 to 1"]);
    let (_, text) = refused(|_, r| r.quantification = Quantification::RelativeExpanded { share: 1.3 });
    says(&text, &["quantification.share is 1.3", "a share from 0 to 1"]);
    let (_, text) = refused(|_, r| r.dead_time.refuse_share = -0.2);
    says(&text, &["dead_time.refuse_share is -0.2", "a share of time"]);
    let (e, text) = refused(|i, _| i.vials.retain(|v| v.role != Role::DriftCheck || v.name == "check 0"));
    assert!(matches!(e, Error::ReadingWithoutVial { .. }), "{text}");
    let (e, text) = refused(|i, _| {
        for v in i.vials.iter_mut().filter(|v| v.role == Role::DriftCheck && v.name != "check 0") {
            v.role = Role::Sample;
        }
    });
    assert!(matches!(e, Error::TooFewDriftChecks { .. }));
    says(&text, &["needs 2 drift checks", "has 1"]);
}

#[test]
fn equal_blanks_are_told_and_do_not_mean_certainty() {
    let (mut input, mut recipe) = good();
    recipe.internal_standards.isotopes.clear();
    recipe.drift = Drift::None;
    recipe.between_vials = Some(0.0);
    recipe.dead_time = DeadTime::default();
    input.readings.retain(|r| r.isotope.element == "Pb");
    let blanks: Vec<u32> = input.vials.iter().filter(|v| v.role == Role::FieldBlank).map(|v| v.position).collect();
    for r in input.readings.iter_mut().filter(|r| blanks.contains(&r.position)) {
        r.rates_cps = vec![0.0; 5];
    }
    let run = run::reduce(&input, &recipe).expect("a run");
    let f = run.findings.iter().find(|f| f.finding.check == Check::RunBlanksEqual).expect("a finding");
    assert_eq!(f.finding.outcome, Outcome::NotMet);
    says(&f.finding.sentence, &["not known", "not zero"]);
    let s = run.results.iter().find(|r| r.role == Role::Sample).expect("a sample");
    assert!(s.limits.expect("limits").critical_value > 0.0);
    assert!(s.net.u.is_finite());
}

#[test]
fn an_excluded_reading_is_kept_out_and_told() {
    let (mut input, recipe) = good();
    let at = vial(&mut input, "sample 0").position;
    for r in input.readings.iter_mut().filter(|r| r.position == at && r.isotope.element == "Cd") {
        r.excluded = Some("bubble in the tube".into());
    }
    let run = run::reduce(&input, &recipe).expect("a run");
    assert!(!run.results.iter().any(|r| r.position == at && r.analyte.element == "Cd"));
    assert!(run.results.iter().any(|r| r.position == at && r.analyte.element == "Pb"));
    assert!(run.findings.iter().any(|f| f.finding.check == Check::RunExcluded && f.position == Some(at)));
}

#[test]
fn an_internal_standard_that_fell_is_a_finding() {
    let (mut input, recipe) = good();
    let at = vial(&mut input, "sample 0").position;
    for r in input.readings.iter_mut().filter(|r| r.position == at) {
        r.rates_cps.iter_mut().for_each(|x| *x *= 0.5);
    }
    let run = run::reduce(&input, &recipe).expect("a run");
    assert!(run.findings.iter().any(|f| f.finding.check == Check::RunInternalStandard
        && f.finding.outcome == Outcome::NotMet
        && f.position == Some(at)));
}

#[test]
fn a_recipe_and_a_run_go_through_json_and_back() {
    let (input, recipe) = good();
    let text = serde_json::to_string(&recipe).expect("json");
    assert_eq!(serde_json::from_str::<Recipe>(&text).expect("a recipe"), recipe);
    let text = serde_json::to_string(&input).expect("json");
    assert_eq!(serde_json::from_str::<RunInput>(&text).expect("a run"), input);
    assert_eq!(serde_json::from_str::<Recipe>("{}").expect("defaults"), Recipe::default());
    for (text, ok) in [
        ("Pb208@low", true),
        ("Fe56@medium/analogue", true),
        ("Pb208", true),
        ("208Pb", false),
        ("Pb@low", false),
        ("Pb208@", false),
    ] {
        assert_eq!(text.parse::<Isotope>().is_ok(), ok, "{text}");
    }
}

#[test]
fn a_recipe_that_claims_a_method_uses_its_equations_and_says_they_have_no_u() {
    let s = Setting { truths: vec![lead(), cadmium()], ..Setting::default() };
    let mut input = simulate(&s, 4);
    // 108 and 106 beside cadmium 111: 10 counts/s of MoO on 108, nothing on 106.
    let cadmium: Vec<Reading> = input.readings.iter().filter(|r| r.isotope.element == "Cd").cloned().collect();
    for r in cadmium {
        for (mass, rate) in [(108, 10.0), (106, 0.0)] {
            let mut more = r.clone();
            more.isotope.mass = mass;
            more.rates_cps = vec![rate; r.rates_cps.len()];
            input.readings.push(more);
        }
    }
    let mut r = recipe(&s);
    r.published_equations = Some("EPA 200.8".into());
    r.monitors_only = vec![Isotope::counting("Cd", 108, "low"), Isotope::counting("Cd", 106, "low")];
    let run = run::reduce(&input, &r).expect("a run");
    let told = run.findings.iter().find(|f| f.finding.check == Check::RunInterferenceFactor).expect("a finding");
    says(&told.finding.sentence, &["without u", "95Mo16O"]);
    let sample = run.results.iter().find(|r| r.role == Role::Sample && r.analyte.element == "Cd").expect("a sample");
    // 1.073 · 10 of about 160 counts/s.
    assert!((0.05..0.09).contains(&sample.interference_share), "{}", sample.interference_share);
    r.published_equations = Some("EPA 1".into());
    says(&run::reduce(&input, &r).expect_err("no such method").to_string(), &["EPA 1", "which holds EPA 200.8"]);
}

/// The factor of an overlap is a ratio of two readings. Where the check vials were told as means with their sd, the
/// variance of the result holds the monitor's noise too: doubled, its part is four times as large (JCGM 100 5.1.2).
#[test]
fn the_noise_of_the_monitor_counts_in_its_factor() {
    let variance = |sd_of_monitor: f64| {
        let s = Setting { truths: vec![lead(), cadmium(), molybdenum()], oxide: 0.0006, ..Setting::default() };
        let (mut input, recipe) = (simulate(&s, 2), recipe(&s));
        let alone: Vec<u32> =
            input.vials.iter().filter(|v| v.name.starts_with("Mo alone")).map(|v| v.position).collect();
        assert_eq!(alone.len(), 2);
        for r in input.readings.iter_mut().filter(|r| alone.contains(&r.position)) {
            let mean_cps = r.rates_cps.iter().sum::<f64>() / r.rates_cps.len() as f64;
            let sd_cps = if r.isotope.element == "Mo" { sd_of_monitor * mean_cps } else { 0.01 * mean_cps };
            r.summary = Some(Summary { mean_cps, sd_cps, n: 3 });
            r.rates_cps.clear();
        }
        let reduced = run::reduce(&input, &recipe).expect("a run");
        let cadmium = reduced.results.iter().find(|r| r.analyte.element == "Cd" && r.role == Role::Sample);
        cadmium.expect("a sample").net.u.powi(2)
    };
    let (none, once, twice) = (variance(0.0), variance(0.1), variance(0.2));
    assert!(once > none, "{once} {none}");
    let ratio = (twice - none) / (once - none);
    // The factors of two vials are one mean by their weights, which see the noise as well: near four, not at it.
    assert!((ratio - 4.0).abs() < 0.2, "{ratio}");
}
