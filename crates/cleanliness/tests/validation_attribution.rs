//! Attribution: the non-negative fit against scipy, coverage of the intervals over 2,000 simulated trips, what
//! cannot be told apart.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::attribution::{Attribution, Bottle, Kind, Spikes, Survey, attribute};
use cleanliness::nnls::{Nnls, gram, project};
use rand::{RngExt, SeedableRng, rngs::ChaCha8Rng};
use rayon::prelude::*;

pub fn normal(rng: &mut ChaCha8Rng) -> f64 {
    let (a, b): (f64, f64) = (1.0 - rng.random::<f64>(), rng.random());
    (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
}

const SOURCES: [&str; 5] = ["acid_mL", "days", "openings", "cabinet_min", "open_air_min"];

/// The truth of the simulated trips, pg per unit: cabinet air brings nothing.
pub const THETA: [f64; 5] = [3.0, 0.15, 2.5, 0.0, 0.8];

/// ng/L in three waters, one of them clean.
pub const WATERS: [(&str, f64); 3] = [("SL-1", 0.35), ("SL-2", 1.0), ("SL-3", 0.0)];

/// Bottles of one trip: five samples a well, and 6 field, 5 trip, 5 bottle blanks, 5 blanks with more acid: 36 in all.
fn bottles() -> Vec<Bottle> {
    let mut out = vec![];
    let mut push = |kind, water: Option<&str>, volume_ml: f64, exposures: [f64; 5]| {
        out.push(Bottle {
            name: format!("B{}", out.len() + 1),
            kind,
            water: water.map(String::from),
            volume_ml,
            mass_pg: 0.0,
            u_pg: 1.0,
            exposures: exposures.to_vec(),
        });
    };
    for (w, (name, _)) in WATERS.iter().enumerate() {
        for (i, volume) in [60.0, 125.0, 250.0, 250.0, 500.0].into_iter().enumerate() {
            push(
                Kind::Sample,
                Some(name),
                volume,
                [volume / 250.0, 12.0 + w as f64, 1.0 + (i % 2) as f64, 2.0 + i as f64, (i % 3) as f64],
            );
        }
    }
    for i in 0..6u8 {
        let i = f64::from(i);
        push(Kind::Blank, None, 250.0, [1.0, 12.0 + i, 2.0, 3.0 + i, 1.0 + 2.0 * i]);
    }
    for i in 0..5u8 {
        push(Kind::Blank, None, 250.0, [1.0, 10.0 + 3.0 * f64::from(i), f64::from(i % 2), 0.0, 0.0]);
    }
    for i in 0..5u8 {
        push(Kind::Blank, None, 250.0, [1.0, 2.0 + 8.0 * f64::from(i), 0.0, f64::from(5 * i), 0.0]);
    }
    for i in 0..5u8 {
        push(Kind::Blank, None, 250.0, [2.0 + f64::from(i), 6.0, 4.0 * f64::from(i % 2), f64::from(i), 0.0]);
    }
    out
}

/// How bottles differ among themselves.
#[derive(Clone, Copy, Debug)]
pub enum Between {
    /// By 1.5 pg, whatever they hold.
    Even,
    /// By a fifth of what did not come with the water: not what the model assumes.
    Share,
    /// By a factor on what did not come with the water, lognormal with mean 1 and as wide as its mean: the skewed
    /// blanks of the field at their worst.
    Lognormal,
}

/// One simulated trip: measurement error, between-bottle error, 3 % spikes of 2 to 20 times a blank of 10 pg.
pub fn trip(seed: u64, between: Between) -> Survey {
    let mut rng = ChaCha8Rng::seed_from_u64(seed);
    let mut bottles = bottles();
    for b in &mut bottles {
        let water = WATERS.iter().find(|w| Some(w.0) == b.water.as_deref()).map_or(0.0, |w| w.1);
        let other = b.exposures.iter().zip(THETA).map(|(x, t)| x * t).sum::<f64>();
        let truth = b.volume_ml * water + other;
        b.u_pg = (1.0 + (0.02 * truth).powi(2)).sqrt();
        b.mass_pg = truth + b.u_pg * normal(&mut rng);
        let z = normal(&mut rng);
        b.mass_pg += match between {
            Between::Even => 1.5 * z,
            Between::Share => 0.2 * other * z,
            // Variance of the logarithm ln(1 + cv²), mean 1.
            Between::Lognormal => other * (((2.0f64).ln().sqrt() * z - 0.5 * (2.0f64).ln()).exp() - 1.0),
        };
        if rng.random::<f64>() < 0.03 {
            b.mass_pg += 10.0 * (2.0 + 18.0 * rng.random::<f64>());
        }
    }
    Survey { sources: SOURCES.map(String::from).to_vec(), bottles, recovery: (1.0, 0.0), spikes: Spikes::default() }
}

#[test]
fn intervals_cover_over_2_000_trips() {
    coverage_over_trips(Between::Even, WINDOW);
}

#[test]
fn intervals_cover_where_bottles_differ_by_a_share() {
    coverage_over_trips(Between::Share, WINDOW);
}

/// Where bottles differ by as much as they hold, the upper tail looks like spikes and hardly counts: strengths come out
/// low, and their intervals hold the truth less often than they say. The waters keep theirs.
#[test]
fn what_intervals_hold_where_bottles_differ_as_much_as_they_hold() {
    // Over 2,000 trips 81 to 93 % came out for sources, 77 % for the share: floors three standard errors lower.
    coverage_over_trips(Between::Lognormal, Least { sources: 0.78, waters: 0.92, share: 0.74 });
}

/// Least coverage of each sort of interval.
struct Least {
    sources: f64,
    waters: f64,
    share: f64,
}

/// The window that the intervals are held to.
const WINDOW: Least = Least { sources: 0.92, waters: 0.92, share: 0.92 };

#[allow(clippy::needless_pass_by_value, reason = "a few numbers")]
fn coverage_over_trips(between: Between, least: Least) {
    let fits: Vec<Attribution> = (0..2000u64).into_par_iter().map(|i| attribute(&trip(i, between)).unwrap()).collect();
    let inside = |i: (f64, f64), truth: f64| i.0 <= truth && truth <= i.1;
    let share = |f: &dyn Fn(&Attribution) -> bool| fits.iter().filter(|a| f(a)).count() as f64 / fits.len() as f64;
    for (k, truth) in THETA.into_iter().enumerate() {
        let coverage = share(&|a| inside(a.sources[k].interval_95, truth));
        let width = fits.iter().map(|a| a.sources[k].interval_95.1 - a.sources[k].interval_95.0).sum::<f64>()
            / fits.len() as f64;
        println!("{} truth {truth}: coverage {coverage}, mean width {width:.3} pg", SOURCES[k]);
        check_coverage_of(coverage, truth, least.sources);
    }
    for (w, (name, truth)) in WATERS.into_iter().enumerate() {
        let coverage = share(&|a| inside(a.waters[w].interval_95, truth));
        println!("{name} truth {truth}: coverage {coverage}");
        check_coverage_of(coverage, truth, least.waters);
    }
    // The water's share of the 250 mL bottle of SL-2.
    let bottle = 7;
    let truth = {
        let b = &bottles()[bottle];
        let other: f64 = b.exposures.iter().zip(THETA).map(|(x, t)| x * t).sum();
        250.0 / (250.0 + other)
    };
    let coverage = share(&|a| inside(a.bottles[bottle].share_interval_95.unwrap(), truth));
    println!("share {truth:.3}: coverage {coverage}");
    check_coverage_of(coverage, truth, least.share);
}

/// A survey of 60 bottles × 8 sources, three of them without effect: exposures drawn once, blanks and samples of
/// two wells, a fifth between bottles, 3 % spikes.
fn large(seed: u64) -> (Survey, [f64; 8]) {
    let theta = [3.0, 0.2, 2.5, 0.0, 0.8, 0.0, 1.5, 0.0];
    let most = [3.0, 30.0, 4.0, 10.0, 8.0, 5.0, 6.0, 20.0];
    let mut fixed = ChaCha8Rng::seed_from_u64(77);
    let mut rng = ChaCha8Rng::seed_from_u64(seed + 10_000);
    let bottles = (0..60)
        .map(|i| {
            // What a person notes: whole numbers and halves.
            let exposures: Vec<f64> =
                most.iter().map(|m| (fixed.random::<f64>() * m * 2.0).round() / 2.0 + 0.5).collect();
            let well = [None, Some(("SL-1", 0.4)), Some(("SL-2", 1.0))][i % 3];
            let volume_ml = [125.0, 250.0, 500.0][(i / 3) % 3];
            let other: f64 = exposures.iter().zip(theta).map(|(x, t)| x * t).sum();
            let truth = other + well.map_or(0.0, |w| volume_ml * w.1);
            let u_pg = (1.0 + (0.02 * truth).powi(2)).sqrt();
            let mut mass_pg = truth + u_pg * normal(&mut rng) + 0.2 * other * normal(&mut rng);
            if rng.random::<f64>() < 0.03 {
                mass_pg += other * (2.0 + 18.0 * rng.random::<f64>());
            }
            Bottle {
                name: format!("B{i}"),
                kind: if well.is_some() { Kind::Sample } else { Kind::Blank },
                water: well.map(|w| w.0.to_string()),
                volume_ml,
                mass_pg,
                u_pg,
                exposures,
            }
        })
        .collect();
    let sources = (0..8).map(|j| format!("source {j}")).collect();
    (Survey { sources, bottles, recovery: (1.0, 0.0), spikes: Spikes::default() }, theta)
}

#[test]
fn intervals_cover_for_60_bottles_and_8_sources() {
    let fits: Vec<(Attribution, [f64; 8])> = (0..2000u64)
        .into_par_iter()
        .map(|i| {
            let (s, theta) = large(i);
            (attribute(&s).unwrap(), theta)
        })
        .collect();
    for k in 0..8 {
        let inside = |(a, t): &&(Attribution, [f64; 8])| {
            a.sources[k].interval_95.0 <= t[k] && t[k] <= a.sources[k].interval_95.1
        };
        let coverage = fits.iter().filter(inside).count() as f64 / fits.len() as f64;
        println!("source {k} truth {}: coverage {coverage}", fits[0].1[k]);
        check_coverage(coverage, fits[0].1[k]);
    }
    for (w, truth) in [(0, 0.4), (1, 1.0)] {
        let covered =
            fits.iter().filter(|(a, _)| a.waters[w].interval_95.0 <= truth && truth <= a.waters[w].interval_95.1);
        let coverage = covered.count() as f64 / fits.len() as f64;
        println!("water {w}: coverage {coverage}");
        check_coverage(coverage, truth);
    }
}

/// 92 to 98 % where the truth is above zero, at least 92 % at zero.
fn check_coverage(coverage: f64, truth: f64) {
    check_coverage_of(coverage, truth, 0.92);
}

fn check_coverage_of(coverage: f64, truth: f64, least: f64) {
    assert!(coverage >= least, "{coverage}");
    assert!(truth == 0.0 || coverage <= 0.98, "{coverage}");
}

/// A design and right-hand sides that need no file: remainders of products.
fn entry(i: usize, j: usize) -> f64 {
    ((i * 37 + j * 101 + i * j * 13) % 97) as f64 / 97.0
}

#[test]
fn the_non_negative_fit_agrees_with_scipy() {
    // scipy 1.17.1: A[i, j] = ((37 i + 101 j + 13 i j) % 97)/97, 60 × 8; b_i = A[i, 0] − 0.3·A[i, 3] + 2·A[i, 6] +
    // ((17 i) % 23)/23 − 0.5; optimize.nnls(A, b).
    let columns: Vec<f64> = (0..8).flat_map(|j| (0..60).map(move |i| entry(i, j))).collect();
    let b: Vec<f64> = (0..60)
        .map(|i| entry(i, 0) - 0.3 * entry(i, 3) + 2.0 * entry(i, 6) + ((17 * i) % 23) as f64 / 23.0 - 0.5)
        .collect();
    let (mut atb, mut x) = ([0.0; 8], [0.0; 8]);
    project(&columns, &b, &mut atb);
    Nnls::new(8).solve(&gram(&columns, 8), &atb, &mut x).unwrap();
    for (got, want) in x.iter().zip(SCIPY_NNLS) {
        assert!((got - want).abs() < 1e-9, "{x:?}");
    }
}

const SCIPY_NNLS: [f64; 8] = [0.804709675963789, 0.0, 0.0, 0.0, 0.0, 0.0, 1.9269273045707338, 0.0];

#[test]
fn the_non_negative_fit_meets_its_conditions() {
    // Karush, Kuhn, Tucker: gradient zero where free, pointing out where held; 500 random fits, some singular.
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    let mut solver = Nnls::new(6);
    for k in 0..500 {
        let mut columns: Vec<f64> = (0..120).map(|_| normal(&mut rng)).collect();
        if k % 3 == 0 {
            for i in 0..20 {
                columns[100 + i] = columns[20 + i] + columns[40 + i];
            }
        }
        let b: Vec<f64> = (0..20).map(|_| normal(&mut rng)).collect();
        let (g, mut atb, mut x) = (gram(&columns, 6), [0.0; 6], [0.0; 6]);
        project(&columns, &b, &mut atb);
        solver.solve(&g, &atb, &mut x).unwrap();
        for j in 0..6 {
            let gradient = atb[j] - (0..6).map(|i| g[j * 6 + i] * x[i]).sum::<f64>();
            assert!(x[j] >= 0.0 && gradient < 1e-8, "{k}: {x:?} {gradient}");
            assert!(x[j] == 0.0 || gradient.abs() < 1e-8, "{k}");
        }
    }
}

#[test]
fn exact_masses_give_back_what_made_them() {
    let mut s = trip(1, Between::Even);
    for b in &mut s.bottles {
        let water = WATERS.iter().find(|w| Some(w.0) == b.water.as_deref()).map_or(0.0, |w| w.1);
        b.mass_pg = 0.8 * (b.volume_ml * water + b.exposures.iter().zip(THETA).map(|(x, t)| x * t).sum::<f64>());
        b.u_pg = 1e-6;
    }
    s.recovery = (0.8, 0.0);
    let a = attribute(&s).unwrap();
    for (got, want) in a.sources.iter().zip(THETA) {
        assert!((got.per_unit_pg - want).abs() < 1e-5 && got.identifiable, "{got:?}");
    }
    assert!((a.waters[1].ng_l - 1.0).abs() < 1e-6 && a.cannot_separate.is_empty());
    // The plain subtraction stands beside it, and differs: the field blanks held other minutes and days.
    assert!((a.waters[1].plain_subtraction_ng_l.unwrap() - 1.0).abs() > 0.01);
    let share = a.bottles[7].water_share.unwrap();
    assert!(share > 0.9 && share < 1.0);
    assert!(a.bottles[20].water_share.is_none());
    // An uncertain recovery widens in proportion.
    s.recovery = (0.8, 0.04);
    let a = attribute(&s).unwrap();
    assert!((a.waters[1].u_ng_l.unwrap() - 0.05).abs() < 1e-3);
}

#[test]
fn what_goes_together_is_named() {
    let mut s = trip(1, Between::Even);
    // Openings and cabinet minutes rise together in every bottle; nobody noted gloves.
    for b in &mut s.bottles {
        b.exposures[3] = 2.0 * b.exposures[2];
        b.exposures.push(0.0);
    }
    s.sources.push("gloves".into());
    let a = attribute(&s).unwrap();
    assert_eq!(a.cannot_separate.len(), 2);
    assert_eq!(a.cannot_separate[0].sources, ["gloves"]);
    assert!(a.cannot_separate[0].sentence.starts_with("No bottle was exposed to gloves"));
    assert_eq!(a.cannot_separate[1].sources, ["openings", "cabinet_min"]);
    assert!(a.cannot_separate[1].sentence.contains("one blank that has openings without cabinet_min"));
    let openings = &a.sources[2];
    assert!(!openings.identifiable && openings.plain_pg.is_none());
    // What both together may hold bounds each: 2.5 pg an opening is in.
    assert!(openings.interval_95.0 == 0.0 && openings.interval_95.1 > 2.5 && openings.interval_95.1 < 10.0);
    assert!(a.sources[0].identifiable && a.waters[1].identifiable);
}

#[test]
fn a_spike_is_seen_and_does_not_carry_the_fit() {
    let mut s = trip(3, Between::Even);
    let clean = attribute(&s).unwrap();
    s.bottles[18].mass_pg += 200.0;
    let a = attribute(&s).unwrap();
    assert!(a.bottles[18].spike_probability > 0.99);
    for (x, y) in a.sources.iter().zip(&clean.sources) {
        assert!((x.per_unit_pg - y.per_unit_pg).abs() < 2.0 * y.u_pg.unwrap(), "{x:?} {y:?}");
    }
}

#[test]
fn faults_are_named() {
    let check = |change: &dyn Fn(&mut Survey), part: &str| {
        let mut s = trip(1, Between::Even);
        change(&mut s);
        let message = attribute(&s).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(&|s| s.bottles.retain(|b| b.kind == Kind::Sample), "blanks: 0 given");
    check(&|s| s.bottles[20].exposures = vec![0.0; 5], "a blank that met nothing says nothing");
    check(&|s| s.bottles.truncate(17), "blanks: 2 given, at least 5 needed; 5 sources are asked about");
    let few = |s: &mut Survey| {
        s.bottles = [0, 5, 10, 15, 17, 22, 27, 32].map(|i| s.bottles[i].clone()).to_vec();
    };
    check(&few, "bottles: 8 given, at least 9 needed");
    check(&|s| s.bottles[0].volume_ml = 0.0, "volume of bottle B1");
    check(&|s| s.bottles[0].u_pg = 0.0, "mass of bottle B1");
    check(&|s| s.bottles[3].exposures[3] = -2.0, "cabinet_min of bottle B4: found -2");
    check(&|s| s.bottles[0].water = None, "water of bottle B1");
    check(&|s| s.bottles[0].exposures.truncate(2), "exposures of bottle B1");
    check(&|s| s.recovery = (0.0, 0.0), "recovery");
    check(&|s| s.sources.clear(), "sources");
}

/// A small trip: 20 bottles, three sources, two wells.
fn small(seed: u64, between: Between) -> Survey {
    let mut s = trip(seed, between);
    let kept = [0, 1, 2, 4, 5, 6, 7, 9, 15, 18, 21, 22, 23, 24, 26, 28, 31, 32, 33, 34];
    s.bottles = kept.map(|i| s.bottles[i].clone()).to_vec();
    s.sources.truncate(3);
    for b in &mut s.bottles {
        // What the two sources left out would have brought is taken off: they do not exist on this trip.
        b.mass_pg -= b.exposures[4] * THETA[4];
        b.exposures.truncate(3);
    }
    s
}

#[test]
fn intervals_cover_for_a_small_trip() {
    for between in [Between::Even, Between::Share] {
        let fits: Vec<Attribution> =
            (0..2000u64).into_par_iter().map(|i| attribute(&small(i, between)).unwrap()).collect();
        let coverage = |f: &dyn Fn(&Attribution) -> (f64, f64), truth: f64| {
            fits.iter().filter(|a| f(a).0 <= truth && truth <= f(a).1).count() as f64 / fits.len() as f64
        };
        for k in 0..3 {
            let c = coverage(&|a| a.sources[k].interval_95, THETA[k]);
            println!("{between:?} {}: coverage {c}", SOURCES[k]);
            check_coverage(c, THETA[k]);
        }
        for (w, (name, truth)) in WATERS.into_iter().enumerate().take(2) {
            let c = coverage(&|a| a.waters[w].interval_95, truth);
            println!("{between:?} {name}: coverage {c}");
            check_coverage(c, truth);
        }
    }
}
