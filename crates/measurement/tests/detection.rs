//! Limits of detection against published formulas, tables and worked examples.
//!
//! `data/detection_scipy.csv` is made with scipy 1.17.1: δ by `optimize.brentq` over
//! `stats.nct.cdf(stats.t.isf(alpha, nu), nu, delta) - beta`; exact counts by `stats.binom.sf`;
//! their detection limit by `brentq` over `stats.poisson.cdf(k - 1, m) - 0.05`.
//! `data/currie_poisson.csv` is computed from Currie's formulas with z = 1.644854 (not published
//! figures).

#![allow(clippy::float_cmp)] // whole numbers come out whole

use crate::common;

use common::Random;
use measurement::blank;
use measurement::detection::calc::CALCULATION;
use measurement::detection::*;
use serde_json::{Value, json};

fn near(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "{got} against {want}");
}

fn table(file: &str) -> Vec<csv::StringRecord> {
    let mut t = csv::Reader::from_path(format!("tests/data/{file}")).expect("the table");
    t.records().map(|r| r.expect("a row")).collect()
}

fn number(r: &csv::StringRecord, i: usize) -> f64 {
    r[i].parse().expect("a number")
}

#[test]
fn delta_is_that_of_the_noncentral_t() {
    for r in table("detection_scipy.csv").iter().filter(|r| &r[0] == "delta") {
        let n = number(r, 1) as usize + 1;
        let risks = Risks { alpha: number(r, 2), beta: number(r, 3) };
        // Blanks with s = 1, so that L_D is δ·√(1 + 1/n).
        let mut blanks = vec![0.0; n];
        let half = ((n as f64 - 1.0) / 2.0).sqrt();
        blanks[0] = half;
        blanks[1] = -half;
        let b = from_blanks(&blanks, Comparison::default(), risks).expect("limits");
        near(b.centre.sd, 1.0, 1e-14);
        let s0 = (1.0 + 1.0 / n as f64).sqrt();
        // scipy's root is good to 1e-9, its non-central t to about 1e-10.
        near(b.limits.detection_limit, number(r, 4) * s0, 1e-8);
        near(b.limits.quantification_limit, 10.0 * s0, 1e-12);
    }
}

#[test]
fn with_infinite_degrees_of_freedom_the_factors_are_1_645_and_3_29() {
    // IUPAC 1995 (from memory): 1.645, 3.29, 10 times σ₀.
    let l = known(1.0, Risks::default()).expect("limits");
    near(l.critical_value, 1.645, 1e-3);
    near(l.detection_limit, 3.29, 1e-3);
    assert_eq!(l.quantification_limit, 10.0);
    assert_eq!(l.detection_interval(0.95), [l.detection_limit; 2]);
}

#[test]
fn twice_t_stands_close_to_delta_over_three_degrees_of_freedom() {
    // ISO 11843-2 (from memory): δ ≈ 2·t(0.95, ν) for ν > 3; the difference is under 6 %.
    for n in 5..40 {
        let blanks: Vec<f64> = (0..n).map(f64::from).collect();
        let l = from_blanks(&blanks, Comparison::default(), Risks::default()).expect("limits").limits;
        near(l.detection_limit, 2.0 * l.critical_value, 0.1);
        assert!(l.detection_limit < 2.0 * l.critical_value);
    }
}

#[test]
fn currie_s_table_of_counts() {
    for r in table("currie_poisson.csv") {
        let b = number(&r, 0);
        let of = |known: bool| {
            let c = Counting { blank_counts: b as u64, blank_time_s: 100.0, sample_time_s: 100.0, blank_known: known };
            count_limits(c, Risks::default()).expect("limits")
        };
        let (paired, known) = (of(false), of(true));
        // The table has four decimals.
        for (got, want) in [
            (paired.critical_value, number(&r, 1)),
            (paired.detection_limit, number(&r, 2)),
            (paired.quantification_limit, number(&r, 3)),
            (known.critical_value, number(&r, 4)),
            (known.detection_limit, number(&r, 5)),
            (known.quantification_limit, number(&r, 6)),
        ] {
            assert!((got - want).abs() <= 6e-5 * want.max(1.0), "{b}: {got} against {want}");
        }
    }
}

#[test]
fn unequal_counting_times() {
    // MARLAP ch. 20 (from memory): 108 counts in 6000 s, sample 3000 s: S_C = 14.8, S_D = 32.3
    // counts.
    let c = Counting { blank_counts: 108, blank_time_s: 6000.0, sample_time_s: 3000.0, blank_known: false };
    let l = count_limits(c, Risks::default()).expect("limits");
    near(l.critical_value, 14.8, 2e-3);
    near(l.detection_limit, 32.3, 2e-3);
    assert_eq!(l.blank, 54.0);
}

#[test]
fn the_exact_test_of_counts() {
    for r in table("detection_scipy.csv") {
        if !r[0].starts_with("exact") {
            continue;
        }
        let p = number(&r, 2);
        let c = Counting {
            blank_counts: number(&r, 1) as u64,
            blank_time_s: 1000.0 * (1.0 - p) / p,
            sample_time_s: 1000.0,
            blank_known: false,
        };
        let l = count_limits(c, Risks::default()).expect("limits");
        assert_eq!(l.exact.gross_needed as f64, number(&r, 3), "{r:?}");
        match &r[0] {
            "exact" => near(l.exact.alpha_achieved, number(&r, 4), 1e-9),
            _ => near(l.exact.detection_limit + l.blank, number(&r, 4), 1e-9),
        }
    }
}

#[test]
fn the_exact_test_holds_five_percent_and_the_formula_does_not_for_few_counts() {
    let mut random = Random::new(77);
    for (mean, formula_fails) in [(0.5, true), (2.0, true), (8.0, true), (40.0, true), (1000.0, false)] {
        let (mut exact, mut formula) = (0, 0);
        let runs = 4000;
        for _ in 0..runs {
            let (blank, sample) = (random.poisson(mean), random.poisson(mean));
            let c = Counting { blank_counts: blank as u64, blank_time_s: 1.0, sample_time_s: 1.0, blank_known: false };
            let l = count_limits(c, Risks::default()).expect("limits");
            exact += usize::from(sample as u64 >= l.exact.gross_needed);
            formula += usize::from(sample - blank > l.critical_value);
        }
        let share = |n: usize| n as f64 / f64::from(runs);
        println!("mean {mean}: exact {:.3}, formula {:.3}", share(exact), share(formula));
        // One standard deviation of 5 % in 4000 is 0.34 %; the exact test lies under 5 % by design.
        assert!(share(exact) <= 0.055);
        assert_eq!(share(formula) > 0.065, formula_fails, "{mean}: {}", share(formula));
    }
}

#[test]
fn normal_blanks_give_four_to_six_percent_false_detections() {
    for (n, seed) in [(3, 1), (5, 2), (10, 3), (20, 4)] {
        let mut random = Random::new(seed);
        let draw = |random: &mut Random| -> Vec<f64> { (0..n).map(|_| random.normal()).collect() };
        // L_C is a factor times the spread; δ of L_D, not needed here, takes most of the time.
        let first = from_blanks(&draw(&mut random), Comparison::default(), Risks::default()).expect("limits");
        let factor = first.limits.critical_value / first.centre.sd;
        let runs = 40_000;
        let (mut t, mut robust) = (0, 0);
        for _ in 0..runs {
            let blanks = draw(&mut random);
            let sample = random.normal();
            let (c, r) = (blank::centre(&blanks), blank::robust_centre(&blanks));
            t += i32::from(sample - c.value > factor * c.sd);
            robust += i32::from(sample - r.value > factor * r.sd);
        }
        let share = |k: i32| f64::from(k) / f64::from(runs);
        println!("n {n}: t {:.4}, robust {:.4}", share(t), share(robust));
        // The test is exact: 5 % with a standard deviation of 0.11 % in 40 000 runs.
        assert!((share(t) - 0.05).abs() < 0.005, "{n}");
        assert!((0.03..=0.065).contains(&share(robust)), "{n}");
    }
}

#[test]
fn a_line_gives_the_limits_of_iso_11843_and_din_32645() {
    // scipy 1.17.1: stats.linregress, stats.t.isf, brentq over stats.nct.cdf and over
    // q − 3·s/b·t(0.975, 8)·√(1 + 1/10 + (q − x̄)²/s_xx).
    let x = [0.2, 0.4, 0.6, 0.8, 1.0, 1.2, 1.4, 1.6, 1.8, 2.0];
    let y = [0.11, 0.19, 0.33, 0.40, 0.52, 0.58, 0.72, 0.80, 0.93, 0.99];
    let l = from_line(&x, &y, 1, Risks::default()).expect("limits");
    near(l.slope, 0.49909090909090903, 1e-13);
    near(l.residual_sd, 0.01873256765393072, 1e-12);
    near(l.iso.critical_value, 0.08452608676727837, 1e-11);
    near(l.iso.detection_limit, 0.16441713104230943, 1e-9);
    near(l.din_quantification, 0.29560659385764865, 1e-9);
    assert_eq!(l.din_detection, 2.0 * l.din_decision);
    near(l.critical_response, l.intercept + l.slope * l.iso.critical_value, 1e-14);
    for (x, y) in
        [([1.0, 1.0, 1.0], [1.0, 2.0, 3.0]), ([1.0, 2.0, 3.0], [3.0, 2.0, 1.0]), ([1.0, 2.0, 3.0], [1.0, 2.0, 3.0])]
    {
        assert!(matches!(from_line(&x, &y, 1, Risks::default()), Err(Error::NoLine { .. })));
    }
}

#[test]
fn ten_blanks_of_cobalt() {
    // Worked example following DIN 32645 (German workplace method for cobalt, seen on the page of
    // arbeitssicherheit.de): 10 blanks, mean 15.3, sd 1.2 µg/L: mean + 10 sd = 27.3 µg/L.
    let half = (9.0_f64 / 2.0).sqrt() * 1.2;
    let mut blanks = vec![15.3; 10];
    blanks[0] += half;
    blanks[1] -= half;
    let c = blank::centre(&blanks);
    near(c.value, 15.3, 1e-12);
    near(c.sd, 1.2, 1e-12);
    near(c.value + 10.0 * c.sd, 27.3, 1e-12);
}

#[test]
fn student_factors_of_the_regulation() {
    // One-sided 99 %, seen in Wis. Admin. Code NR 252.0365.
    for (n, t) in [
        (7, 3.143),
        (8, 2.998),
        (9, 2.896),
        (10, 2.821),
        (11, 2.764),
        (16, 2.602),
        (21, 2.528),
        (26, 2.485),
        (31, 2.457),
        (61, 2.390),
    ] {
        let spiked: Vec<f64> = (0..n).map(f64::from).collect();
        let m = mdl_from_spikes(&spiked).expect("an MDL");
        assert!((m.t - t).abs() < 6e-4, "{n}: {}", m.t);
        near(m.value, m.t * blank::centre(&spiked).sd, 1e-14);
    }
    // 95 % limits for seven: 0.64 and 2.20 times the MDL (older appendix B, from memory).
    let [low, high] = mdl_confidence(6.0, 0.95);
    assert!((low - 0.64).abs() < 0.005 && (high - 2.20).abs() < 0.005);
}

#[test]
fn the_blanks_of_the_regulation_s_example() {
    // 40 CFR 136 appendix B rev. 2 (from memory): 164 blanks, the highest 1.5, 1.7, 1.9, 5.0, 10;
    // 164·0.99 = 162.36, the 162nd: 1.9.
    let mut blanks: Vec<Option<f64>> = vec![None; 150];
    blanks.extend((0..9).map(|i| Some(0.1 * f64::from(i))));
    blanks.extend([1.5, 1.7, 1.9, 5.0, 10.0].map(Some));
    assert_eq!(blanks.len(), 164);
    let m = mdl_from_blanks(&blanks).expect("an MDL");
    assert!(matches!(m, MdlBlanks::Percentile { rank: 162, .. }));
    assert_eq!(m.value(), Some(1.9));
    let few = [None, Some(0.3), None, Some(0.7), None, None, None];
    assert!(matches!(mdl_from_blanks(&few), Ok(MdlBlanks::Highest(x)) if x.value == 0.7));
    assert_eq!(mdl_from_blanks(&[None; 7]), Ok(MdlBlanks::NotGiven));
    // A negative mean counts as zero.
    let negative: Vec<Option<f64>> = [-1.0, -1.1, -0.9, -1.2, -0.8, -1.0, -1.05].map(Some).to_vec();
    let Ok(MdlBlanks::FromSpread(m)) = mdl_from_blanks(&negative) else { panic!("all are numbers") };
    let sd = blank::centre(&negative.iter().flatten().copied().collect::<Vec<_>>()).sd;
    near(m.value, m.t * sd, 1e-14);
    assert!(matches!(mdl_from_blanks(&[Some(1.0); 6]), Err(Error::TooFew { found: 6, needed: 7, .. })));
}

#[test]
fn the_yearly_review() {
    let blanks = vec![0.1; 100];
    assert!(mdl_review(1.0, 1.9, &blanks).expect("a review").may_stand);
    assert!(!mdl_review(1.0, 2.1, &blanks).expect("a review").may_stand);
    let mut three = blanks.clone();
    three[0] = 2.0;
    three[1] = 2.0;
    three[2] = 2.0;
    let r = mdl_review(1.0, 1.0, &three).expect("a review");
    assert!(!r.may_stand && (r.blanks_above - 0.03).abs() < 1e-15);
}

#[test]
fn skewed_blanks_are_told() {
    // A² = 1.7174400847538447 by scipy 1.17.1 stats.anderson.
    let skewed = [0.1, 0.2, 0.15, 0.12, 0.3, 0.22, 0.18, 0.11, 0.9, 0.16];
    let t = normality(&skewed).expect("ten are enough");
    near(t.statistic, 1.7174400847538447 * (1.0 + 0.075 + 0.0225), 1e-9);
    assert!(!t.passes);
    assert!(normality(&skewed[..5]).is_none());
    // At 5 % one normal set in twenty fails.
    let mut random = Random::new(9);
    let fails = (0..2000)
        .filter(|_| {
            let x: Vec<f64> = (0..12).map(|_| random.normal()).collect();
            !normality(&x).expect("twelve").passes
        })
        .count();
    assert!((60..=140).contains(&fails), "{fails}");
}

#[test]
fn the_table_of_trust_is_the_one_of_the_validation_page() {
    let page = include_str!("../../../docs/validation/run_coverage.md");
    let column = |law: &str, n: usize, place: usize| -> f64 {
        let line = page.lines().find(|l| l.starts_with(&format!("| {law} | {n} |"))).expect("a row of the page");
        let cell = line.split('|').nth(place).expect("a cell").trim();
        cell.trim_end_matches(" %").parse().expect("a percentage")
    };
    for r in trust::FALSE_DETECTIONS {
        let page =
            [("normal", 3), ("lognormal with spikes", 3), ("lognormal with spikes", 4), ("lognormal with spikes", 5)]
                .map(|(law, place)| column(law, r.blanks, place));
        let table = [r.normal_t, r.skewed_t, r.skewed_robust, r.skewed_largest];
        for (a, b) in table.iter().zip(page) {
            assert!((a - b).abs() < 1e-12, "{} blanks: {table:?} and {page:?}", r.blanks);
        }
    }
    let skewed = [0.1, 0.2, 0.15, 0.12, 0.3, 0.22, 0.18, 0.11, 0.9, 0.16];
    let t = trust::trust(&skewed).expect("ten blanks");
    assert!(!t.t_holds() && t.says().in_english().contains("do not look normal: with"), "{}", t.says().in_english());
    assert!((t.expected.skewed_t - 7.7).abs() < 1e-12);
    assert!(trust::trust(&skewed[..2]).is_none());
    assert!(trust::trust(&skewed[..4]).expect("four").says().in_english().contains("too few to tell"));
}

fn calc(input: &Value) -> Value {
    (CALCULATION.run)(input).expect("an answer")
}

#[test]
fn the_calculation_answers_each_way_in() {
    let example: Value = serde_json::from_str(CALCULATION.example).expect("JSON");
    serde_json::from_str::<Value>(CALCULATION.schema).expect("JSON");
    let out = calc(&example);
    assert_eq!(out["critical_value"]["scale"], "net");
    assert_eq!(out["mdl_blank"]["scale"], "gross");
    assert_eq!(out["critical_value"]["unit"], "ng/L");
    assert_eq!(out["dof"], 9.0);
    assert_eq!(out["percentile_limit"]["answer"], "cannot be given with this few");
    assert_eq!(out["percentile_limit"]["needed"], 14);
    let out = calc(&json!({"blank_counts":108,"blank_time_s":6000,"sample_time_s":3000}));
    near(out["critical_value"]["value"].as_f64().expect("a number"), 14.8, 2e-3);
    // What is said beside counts keeps its own unit: the limits of blanks in ng/L are no counts.
    let out = calc(&json!({"blank_counts":108,"blank_time_s":6000,"sample_time_s":3000,"sd":0.02,"unit":"ng/L"}));
    assert_eq!(out["critical_value"]["unit"], "ng/L");
    assert_eq!(out["expected_blank"]["unit"], "counts");
    let out = calc(&json!({"blank_counts":2,"blank_time_s":10,"sample_time_s":10}));
    assert!(out["warnings"][0].as_str().expect("a warning").contains("exact test"));
    let out = calc(
        &json!({"spiked":[1.0,1.1,0.9,1.2,1.0,0.95,1.05],"blanks":[0.1,0.2,0.1,0.05,0.15,0.12,0.18],"unit":"ng/L"}),
    );
    let of = |k: &str| out[k]["value"].as_f64().expect("a number");
    assert_eq!(of("mdl"), of("mdl_spiked").max(of("mdl_blank")));
    let out = calc(&json!({"x":[1,2,3,4,5],"y":[2.1,3.9,6.2,7.8,10.1]}));
    assert!(out["din_32645"]["quantification_limit"]["value"].as_f64().expect("a number") > 0.0);
    let out = calc(&json!({"blanks":[null,0.2,{"below":0.1},0.1,null,null,0.3]}));
    assert_eq!(out["mdl_blank"]["value"], 0.3);
    assert!(out.get("critical_value").is_none());
    for out in [calc(&json!({"sd":0.1})), out] {
        assert!(out["method"].is_string() && out["sources"].is_array() && out["warnings"].is_array());
    }
}

#[test]
fn the_calculation_refuses_by_name() {
    let refused = |v: Value| (CALCULATION.run)(&v).expect_err("a refusal").to_string();
    for (input, parts) in [
        (json!({"blanks":[0.0,0.0,0.0]}), ["3 values, all 0", "equal ones leave the spread unknown"]),
        (json!({"blanks":[0.1]}), ["blanks: found 1", "at least 2"]),
        (json!({"blanks":[0.1,0.2],"alpha":0.7}), ["alpha: found 0.7", "below 0.5"]),
        (json!({"blanks":[0.1,0.2],"unit":"ppt"}), ["unit: found ppt", "ambiguous"]),
        (json!({"x":[1,2],"y":[1,2,3]}), ["3 values", "as many as x"]),
        (json!({"blank_counts":5,"blank_time_s":0,"sample_time_s":1}), ["blank_time_s: found 0", "above 0"]),
        (json!({"blank_counts":-5,"blank_time_s":1,"sample_time_s":1}), ["input", "-5"]),
        (json!({}), ["none of them", "blanks"]),
    ] {
        let text = refused(input);
        for p in parts {
            assert!(text.contains(p), "\"{text}\" does not say \"{p}\"");
        }
    }
}

/// Counts have a unit of their own: blanks beside them keep theirs.
#[test]
fn blanks_beside_counts_keep_their_unit_and_absurd_times_are_refused() {
    let counts = |sample_time_s: f64| json!({ "blank_counts": 100, "blank_time_s": 10, "sample_time_s": sample_time_s, "blanks": [0.11, 0.20, 0.15, 0.12, 0.11, 0.17, 0.14], "unit": "ng/L" });
    let answer = (CALCULATION.run)(&counts(10.0)).expect("an answer");
    for key in ["critical_value", "detection_limit", "quantification_limit", "blank_mean", "mdl_blank"] {
        assert_eq!(answer[key]["unit"], "ng/L", "{key}: {answer:#}");
    }
    for key in ["critical_value", "detection_limit"] {
        assert_eq!(answer["exact"][key]["unit"], "counts");
    }
    assert_eq!(answer["expected_blank"]["unit"], "counts");
    for (time, at) in [(1e18, "1e-6 to 1e6"), (1e-17, "1e-6 to 1e6")] {
        let e = (CALCULATION.run)(&counts(time)).expect_err("a refusal").to_string();
        assert!(e.contains("sample_time_s/blank_time_s") && e.contains(at), "{e}");
    }
    let many = json!({ "blank_counts": 2_000_000_000_000_000u64, "blank_time_s": 1, "sample_time_s": 1 });
    let e = (CALCULATION.run)(&many).expect_err("a refusal").to_string();
    assert!(e.contains("blank_counts") && e.contains("1e15"), "{e}");
}

/// ISO 11929 (from memory) decides by counts so: y* = z(1−α)·ũ(0), y# = y* + z(1−β)·ũ(y#), with
/// ũ²(y) = (y + r₀)/t_S + r₀/t₀ and r₀ the blank's rate. The second is implicit: scipy 1.17.1, `optimize.brentq` on it.
/// Ours is a closed form.
#[test]
fn decision_and_detection_limit_of_counts_solve_the_implicit_equations() {
    for (blank_counts, blank_time_s, sample_time_s, alpha, beta, decision_cps, detection_cps) in [
        (108, 6000.0, 3000.0, 0.05, 0.05, 0.004934560880854418, 0.010770969579740641),
        (40, 1000.0, 1000.0, 0.05, 0.05, 0.014712018091602296, 0.03212957963730001),
        (40, 1000.0, 1000.0, 0.01, 0.05, 0.020807487942669754, 0.03873038430632151),
        (7, 600.0, 1800.0, 0.05, 0.1, 0.008375184725141979, 0.015932806841307007),
        (2500, 36000.0, 3600.0, 0.025, 0.05, 0.009028423804624017, 0.017425148613660582),
        (900, 1800.0, 7200.0, 0.001, 0.01, 0.05758307919047644, 0.10180584000972934),
    ] {
        let c = Counting { blank_counts, blank_time_s, sample_time_s, blank_known: false };
        let l = count_limits(c, Risks { alpha, beta }).expect("limits");
        // brentq stops at 1e-15 relative of a root that is conditioned near 1.
        near(l.critical_value / sample_time_s, decision_cps, 1e-12);
        near(l.detection_limit / sample_time_s, detection_cps, 1e-12);
    }
}

/// Currie 1995 (from memory): L_C = t(1−α, ν)·s·√(1 + 1/n), L_D = δ(α, β, ν)·s·√(1 + 1/n). Eight blanks; mean, s, t and
/// δ by numpy 2.4.6 and scipy 1.17.1 (`stats.t.isf`, `optimize.brentq` over `stats.nct.cdf`).
#[test]
fn eight_blanks_decide_as_currie_1995_writes() {
    let blanks = [0.021, 0.013, 0.034, 0.008, 0.019, 0.027, 0.016, 0.022];
    for (alpha, critical, detection) in
        [(0.05, 0.016289913781331645, 0.031581217375028295), (0.01, 0.025776904908401177, 0.04307743099247558)]
    {
        let b = from_blanks(&blanks, Comparison::default(), Risks { alpha, beta: 0.05 }).expect("limits");
        near(b.centre.value, 0.02, 1e-14);
        near(b.centre.sd, 0.008106434833777775, 1e-14);
        near(b.limits.critical_value, critical, 1e-12);
        // scipy's non-central t is good to about 1e-10.
        near(b.limits.detection_limit, detection, 1e-9);
    }
}

/// Currie 1995 (from memory) gives δ ≈ 2·t·4ν/(4ν + 1) for α = β; against scipy's δ it is 1.4 % low at ν = 4, 0.9 % at 5,
/// 0.3 % at 9 and 0.05 % at 20.
#[test]
fn delta_stands_as_close_to_currie_s_approximation_as_scipy_s() {
    for (nu, within) in [(4_u32, 0.014), (5, 0.009), (9, 0.003), (20, 0.0005)] {
        let half = f64::from(nu + 1) / 2.0;
        let blanks: Vec<f64> = (0..=nu).map(|k| f64::from(k) - half).collect();
        let l = from_blanks(&blanks, Comparison::default(), Risks::default()).expect("limits").limits;
        let nu = f64::from(nu);
        near(l.detection_limit / l.critical_value, 2.0 * 4.0 * nu / (4.0 * nu + 1.0), within);
    }
}
