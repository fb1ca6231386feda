//! Well tests: two published tests (data recalled), exact synthetic data, scipy's fit of the same data.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use aquifer::functions::{flowing_g, theis_w};
use aquifer::welltest::{
    Bootstrap, FlowingTest, PumpedTest, Reading, fit_flowing, fit_pumped, recovery, runs, straight_line,
};
use quantity::factor::S_PER_D;
use std::f64::consts::PI;

const FT: f64 = 0.3048;
const GPM: f64 = 3.785411784e-3 / 60.0;
/// m²/s to ft²/d.
const FT2_D: f64 = S_PER_D / (FT * FT);

fn columns(text: &str) -> Vec<(f64, f64)> {
    text.lines()
        .skip(1)
        .map(|l| {
            let f: Vec<f64> = l.split(',').map(|x| x.parse().unwrap()).collect();
            (f[0], f[1])
        })
        .collect()
}

/// A flowing artesian well: drawdown 92.33 ft, radius 0.276 ft (Lohman 1972, USGS Prof. Paper 708; data from
/// memory). A full fit gives T near 11.6 ft²/d.
fn flowing() -> FlowingTest {
    FlowingTest {
        drawdown_m: 92.33 * FT,
        radius_m: 0.276 * FT,
        series: columns(include_str!("data/flowing_well_recalled.csv"))
            .into_iter()
            .map(|(t, q)| Reading { t_s: 60.0 * t, value: q * GPM })
            .collect(),
    }
}

/// A pumped well, 96 000 ft³/d, watched at 200 ft (Lohman 1972; data from memory): about 14 000 ft²/d, 2e-4.
fn pumped() -> PumpedTest {
    PumpedTest {
        rate_m3_s: 96_000.0 * FT.powi(3) / S_PER_D,
        radius_m: 200.0 * FT,
        series: columns(include_str!("data/pumped_200ft_recalled.csv"))
            .into_iter()
            .map(|(t, s)| Reading { t_s: 60.0 * t, value: s * FT })
            .collect(),
    }
}

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

#[test]
fn the_flowing_well_gives_11_6() {
    let f = fit_flowing(&flowing(), Bootstrap::default()).unwrap();
    let t = f.transmissivity_m2_s.value * FT2_D;
    // Within 5 % of 11.6.
    close(t, 11.6, 0.05);
    let dropped: Vec<(usize, f64)> = f.dropped.iter().map(|d| (d.points, d.transmissivity_m2_s * FT2_D)).collect();
    // Without the first 4, 8, 12 points about 11.4, 11.8, 12.7: "about" as half of the last digit and a little.
    for ((points, t), (want_points, want)) in dropped.iter().zip([(4, 11.4), (8, 11.8), (12, 12.7)]) {
        assert_eq!(*points, want_points);
        close(*t, want, 0.03);
    }
    // S moves more than T, and the tool says so.
    let s = f.storage.value;
    let moved = |d: &dyn Fn(usize) -> f64, best: f64| (0..3).map(|i| (d(i) / best).ln().abs()).fold(0.0, f64::max);
    assert!(
        moved(&|i| f.dropped[i].storage, s)
            > 3.0 * moved(&|i| f.dropped[i].transmissivity_m2_s, f.transmissivity_m2_s.value)
    );
    assert!(f.model.sentence.contains("S rests on the early readings far more than T"), "{}", f.model.sentence);
    // Bootstrap and linearised intervals agree on this near-linear fit to a third of their width.
    let (low, high) = f.transmissivity_m2_s.bootstrap_95.unwrap();
    let (a, b) = f.transmissivity_m2_s.interval_95;
    assert!((low - a).abs() < 0.33 * (b - a) && (high - b).abs() < 0.33 * (b - a), "{low} {high} {a} {b}");
    println!("T {t} S {s} u {} {:?}", f.transmissivity_m2_s.u * FT2_D, f.model);
}

#[test]
fn the_pumped_well_gives_14_000() {
    let f = fit_pumped(&pumped(), Bootstrap::default()).unwrap();
    // "About 14 000 ft²/d and 2e-4" from a match by eye: 5 %.
    close(f.transmissivity_m2_s.value * FT2_D, 14_000.0, 0.05);
    close(f.storage.value, 2e-4, 0.05);
    assert!(f.model.holds || f.model.curvature_p < 0.05);
    println!("{:?} {:?} {:?}", f.transmissivity_m2_s, f.storage, f.model);
}

#[test]
fn exact_data_give_back_what_made_them() {
    let (t, s, r, drawdown) = (1.3e-5, 4e-4, 0.08, 20.0);
    let times = [30.0, 100.0, 400.0, 1600.0, 6400.0, 40_000.0, 200_000.0];
    let series = times
        .iter()
        .map(|time| Reading { t_s: *time, value: 2.0 * PI * t * drawdown * flowing_g(t * time / (s * r * r)) })
        .collect();
    let f = fit_flowing(&FlowingTest { drawdown_m: drawdown, radius_m: r, series }, Bootstrap { draws: 0, seed: 1 })
        .unwrap();
    close(f.transmissivity_m2_s.value, t, 1e-7);
    close(f.storage.value, s, 1e-6);
    assert!(f.model.holds && f.storage.bootstrap_95.is_none());
    let (q, r) = (0.01, 50.0);
    let series = times
        .iter()
        .map(|time| Reading { t_s: *time, value: q / (4.0 * PI * 2e-3) * theis_w(r * r * 3e-4 / (4.0 * 2e-3 * time)) })
        .collect();
    let f = fit_pumped(&PumpedTest { rate_m3_s: q, radius_m: r, series }, Bootstrap { draws: 0, seed: 1 }).unwrap();
    close(f.transmissivity_m2_s.value, 2e-3, 1e-7);
    close(f.storage.value, 3e-4, 1e-7);
    for p in &f.points {
        close(p.transmissivity_without_m2_s.unwrap(), 2e-3, 1e-6);
    }
}

#[test]
fn a_leaking_edge_is_noticed() {
    // A second, mirrored well doubles the late slope (an impervious edge): the misfit is said.
    let (t, s, r, q) = (2e-3, 3e-4, 50.0, 0.01);
    let w = |r: f64, time: f64| q / (4.0 * PI * t) * theis_w(r * r * s / (4.0 * t * time));
    let mut noise = 0.3f64;
    let series = (0..30)
        .map(|i| {
            let time = 60.0 * 1.35f64.powi(i);
            // A logistic map as a fixed, even scatter of about a millimetre.
            noise = 3.9 * noise * (1.0 - noise);
            Reading { t_s: time, value: w(r, time) + w(300.0, time) + 0.002 * (noise - 0.5) }
        })
        .collect();
    let f = fit_pumped(&PumpedTest { rate_m3_s: q, radius_m: r, series }, Bootstrap::default()).unwrap();
    assert!(!f.model.holds && f.model.runs_p < 0.01, "{:?}", f.model);
    assert!(f.model.sentence.contains("bend away from the model"));
}

#[test]
fn straight_lines_agree_with_the_full_fits() {
    let test = pumped();
    let points: Vec<(f64, f64)> = test.series.iter().map(|p| (p.t_s, p.value / test.rate_m3_s)).collect();
    // u = r²S/4Tt under 0.05 from about 10 min on.
    let l = straight_line(&points, test.radius_m, 600.0).unwrap();
    let f = fit_pumped(&test, Bootstrap { draws: 0, seed: 1 }).unwrap();
    close(l.transmissivity_m2_s, f.transmissivity_m2_s.value, 0.03);
    close(l.storage.unwrap(), f.storage.value, 0.06);
    let test = flowing();
    let points: Vec<(f64, f64)> = test.series.iter().map(|p| (p.t_s, test.drawdown_m / p.value)).collect();
    let l = straight_line(&points, test.radius_m, 60.0).unwrap();
    // Jacob & Lohman's line leans by a few percent against the full function at these times.
    close(l.transmissivity_m2_s * FT2_D, 11.6, 0.10);
    assert!(l.u_storage.unwrap() / l.storage.unwrap() > 3.0 * l.u_transmissivity_m2_s / l.transmissivity_m2_s);
    // Recovery: exact data by superposition, late enough that both W are logarithms.
    let (t, q, stop) = (2e-3, 0.01, 86_400.0);
    let w = |time: f64| q / (4.0 * PI * t) * theis_w(0.01 * 3e-4 / (4.0 * t * time));
    let readings: Vec<(f64, f64, f64)> = [600.0, 1200.0, 3600.0, 7200.0]
        .iter()
        .map(|since| (stop + since, *since, w(stop + since) - w(*since)))
        .collect();
    close(recovery(q, &readings).unwrap().transmissivity_m2_s, t, 1e-4);
    assert!(recovery(q, &[(10.0, 20.0, 1.0)]).is_err());
}

/// Exact data, T 100 m²/d: a line through all of them gave 136 ± 5; through those in its range it is right, or there is
/// none.
#[test]
fn straight_lines_use_only_readings_in_their_range() {
    let (t, s, r) = (100.0 / S_PER_D, 2e-4, 30.0);
    let (q, none) = (0.01, Bootstrap { draws: 0, seed: 1 });
    let series = |last: i32| -> Vec<Reading> {
        (0..last)
            .map(|i| 60.0 * 1.6f64.powi(i))
            .map(|time| Reading { t_s: time, value: q / (4.0 * PI * t) * theis_w(r * r * s / (4.0 * t * time)) })
            .collect()
    };
    let line = |test: &PumpedTest, from_s: f64| {
        let points: Vec<(f64, f64)> = test.series.iter().map(|p| (p.t_s, p.value / q)).collect();
        straight_line(&points, r, from_s)
    };
    let test = PumpedTest { rate_m3_s: q, radius_m: r, series: series(14) };
    let from_s = test.line_holds_from_s(&fit_pumped(&test, none).unwrap());
    // u = r²S/(4Tt) = 0.02; the fit gives back T and S to 1e-7 (`exact_data_give_back_what_made_them`).
    close(from_s, r * r * s / (4.0 * t * 0.02), 1e-5);
    // The slope is within 2 % from there on.
    close(line(&test, from_s).unwrap().transmissivity_m2_s, t, 0.02);
    // Through all readings, and through those of the range: numpy 2, polyfit of the exact values (scipy's exp1).
    close(line(&test, 0.0).unwrap().transmissivity_m2_s, 1.075_171 * t, 1e-5);
    close(line(&test, from_s).unwrap().transmissivity_m2_s, 1.005_593 * t, 1e-5);
    let short = PumpedTest { series: series(9), ..test };
    assert!(line(&short, short.line_holds_from_s(&fit_pumped(&short, none).unwrap())).is_err());
    // A flowing well. G by inverse Laplace transform of K1(√p)/(√p·K0(√p)) with mpmath 1.3 (Talbot, 30 digits), and the
    // slope of 1/G against ln α over one half, by differences.
    for (alpha, g, slope) in [
        (12.5, 0.508_467_24, 0.846_568),
        (1e3, 0.250_964_43, 0.963_204),
        (1e4, 0.195_931_93, 0.978_970),
        (1e5, 0.160_365_36, 0.986_594),
    ] {
        // 1e-5: what the table of the function promises.
        close(flowing_g(alpha), g, 1e-5);
        let h = 1.05f64;
        let rise = (1.0 / flowing_g(alpha * h) - 1.0 / flowing_g(alpha / h)) / (2.0 * h.ln());
        // 1e-3: the difference is a secant of a tenth.
        close(2.0 * rise, slope, 1e-3);
    }
    let (r, drawdown) = (0.1, 20.0);
    let flow = |time: f64| 2.0 * PI * t * drawdown * flowing_g(t * time / (s * r * r));
    let series = (0..20).map(|i| 5e-4 * 2f64.powi(i)).map(|time| Reading { t_s: time, value: flow(time) }).collect();
    let test = FlowingTest { drawdown_m: drawdown, radius_m: r, series };
    let points: Vec<(f64, f64)> = test.series.iter().map(|p| (p.t_s, drawdown / p.value)).collect();
    let from_s = test.line_holds_from_s(&fit_flowing(&test, none).unwrap());
    close(straight_line(&points, r, from_s).unwrap().transmissivity_m2_s, t, 0.021);
    assert!(straight_line(&points, r, 0.0).unwrap().transmissivity_m2_s > 1.1 * t);
}

#[test]
fn runs_are_counted_exactly() {
    // Two pluses, two minuses: six orders; two of them in two runs, two in three, two in four.
    close(runs(&[1.0, 1.0, -1.0, -1.0]), 2.0 / 6.0, 1e-12);
    close(runs(&[1.0, -1.0, -1.0, 1.0]), 4.0 / 6.0, 1e-12);
    close(runs(&[1.0, -1.0, 1.0, -1.0]), 1.0, 1e-12);
    // Ten of each in two runs: 2/C(20,10).
    let mut r = vec![1.0; 10];
    r.extend([-1.0; 10]);
    close(runs(&r), 2.0 / 184_756.0, 1e-12);
}

#[test]
fn faults_are_named() {
    let check = |t: &FlowingTest, part: &str| {
        let message = fit_flowing(t, Bootstrap::default()).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    let mut t = flowing();
    t.series.truncate(2);
    check(&t, "2 given, at least 4");
    let mut t = flowing();
    t.series[3].value = 0.0;
    check(&t, "flow of reading 4");
    let mut t = flowing();
    let n = t.series.len();
    for i in 0..n / 2 {
        let v = t.series[i].value;
        t.series[i].value = t.series[n - 1 - i].value;
        t.series[n - 1 - i].value = v;
    }
    check(&t, "a flow that does not fall");
    let mut t = flowing();
    t.drawdown_m = -1.0;
    check(&t, "drawdown");
    // A flow that falls by a power of time without bend carries no storage coefficient.
    let mut t = flowing();
    for r in &mut t.series {
        r.value = 1e-3 / r.t_s;
    }
    check(&t, "did not converge");
}

#[test]
fn draws_do_not_depend_on_threads() {
    let run = |threads: usize| {
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap()
            .install(|| fit_flowing(&flowing(), Bootstrap::default()).unwrap())
    };
    assert_eq!(run(1), run(3));
}
