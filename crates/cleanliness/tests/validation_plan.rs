//! Plans: chance against simulation to ±2 %, the front against brute force, limits by hand.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use cleanliness::needs::{Need, Part};
use cleanliness::plan::{
    Choices, Design, Laboratory, Past, Planning, Prices, Question, chance, packing_list, rank, simulated_chance,
};

const PAST: Past = Past {
    blank_pg: 10.0,
    pg_per_minute: 2.0,
    between_pg: 3.0,
    between_share: 0.2,
    laboratory_pg: 2.0,
    relative_sd: 0.04,
    dof: 6.0,
    spike_sd: 0.06,
    recovery_u: 0.08,
};

const DESIGN: Design = Design {
    samples: 2,
    field_blanks: 4,
    trip_blanks: 2,
    bottle_blanks: 2,
    spikes: 2,
    volume_ml: 250.0,
    minutes: 2.0,
    laboratory: NO_VIALS,
};

const NO_VIALS: Laboratory = Laboratory { reference_materials: 0, drift_checks: 0, second_sources: 0 };

fn planning(question: Question) -> Planning {
    Planning {
        question,
        past: PAST,
        prices: Prices { bottle: 40.0, spike: 60.0, minute_saved: 1.0, litre: 0.5, trip: 300.0, vial: 25.0 },
        choices: Choices::default(),
        wells: 2,
        needs: vec![],
    }
}

fn questions() -> Vec<Question> {
    vec![
        Question::Detect { level: 0.05 },
        Question::Detect { level: 0.1 },
        Question::Limit { level: 0.9, limit: 1.1 },
        Question::Limit { level: 1.3, limit: 1.0 },
        Question::Lower { a: 0.2, b: 0.27 },
        Question::Lower { a: 0.9, b: 1.0 },
        Question::Trend { level: 1.0, percent_per_year: 3.0, years: 8.0, visits_per_year: 2.0, natural_share: 0.08 },
    ]
}

#[test]
fn the_chance_is_that_of_simulated_trips() {
    // 20 000 trips: standard error of a chance under 0.36 %; asked for ± 2 %.
    let few = Design {
        samples: 1,
        field_blanks: 2,
        trip_blanks: 1,
        bottle_blanks: 1,
        spikes: 0,
        volume_ml: 125.0,
        minutes: 5.0,
        laboratory: NO_VIALS,
    };
    for q in questions() {
        for d in [DESIGN, few] {
            for past in [PAST, Past { dof: 1.0, ..PAST }] {
                let (formula, trips) = (chance(&q, &past, &d), simulated_chance(&q, &past, &d, 20_000, 9));
                assert!((formula - trips).abs() < 0.02, "{q:?} {d:?}: {formula} {trips}");
            }
        }
    }
}

#[test]
fn chances_lie_between_sure_and_hopeless() {
    // The questions above are real ones: neither all sure nor all hopeless.
    let c: Vec<f64> = questions().iter().map(|q| chance(q, &PAST, &DESIGN)).collect();
    println!("{c:?}");
    assert!(c.iter().filter(|c| (0.1..0.95).contains(*c)).count() >= 4, "{c:?}");
}

#[test]
fn critical_value_and_detection_limit_by_hand() {
    // b = 14 pg, v_b = 4 + 9 + 7.84 = 20.84 pg², se = √(20.84·(1/2 + 1/4))/250 = 0.015814 ng/L; 3 + 2 + 6 = 11 degrees
    // of freedom, t(0.95) = 1.795885 (scipy): L_C 0.028400 ng/L. δ(0.05, 0.05, 11) = 3.5173 (scipy nct): L_D.
    let mut p = planning(Question::Detect { level: 0.05 });
    p.choices = Choices {
        samples: vec![2],
        field_blanks: vec![4],
        trip_blanks: vec![2],
        bottle_blanks: vec![2],
        spikes: vec![2],
        volume_ml: vec![250.0],
        minutes: vec![2.0],
        laboratory: NO_VIALS,
    };
    let r = &rank(&p).unwrap()[0];
    assert!((r.critical_value - 0.028400).abs() < 1e-5, "{r:?}");
    assert!((r.detection_limit - DELTA * 0.015814).abs() < 1e-5, "{r:?}");
    assert_eq!(r.bottles, 14);
    // 12 bottles at 40, 2 spikes at 60, 3 L at 0.5, the trip.
    assert!((r.price - (300.0 + 480.0 + 120.0 + 1.5)).abs() < 1e-9);
}

/// scipy 1.17.1: brentq on stats.nct.cdf(1.795885, 11, d) = 0.05.
const DELTA: f64 = 3.5172515516375706;

#[test]
fn nothing_beats_the_front() {
    for q in questions() {
        let p = planning(q);
        let front = rank(&p).unwrap();
        assert!(front.windows(2).all(|w| w[0].price < w[1].price && w[0].power < w[1].power));
        // Brute force over each single design as a plan of its own.
        let c = &p.choices;
        let longest = 5.0;
        for &samples in &c.samples {
            for &field_blanks in &c.field_blanks {
                for &spikes in &c.spikes {
                    for &volume_ml in &c.volume_ml {
                        for &minutes in &c.minutes {
                            let d = Design {
                                samples,
                                field_blanks,
                                trip_blanks: 2,
                                bottle_blanks: 2,
                                spikes,
                                volume_ml,
                                minutes,
                                laboratory: NO_VIALS,
                            };
                            let power = chance(&q, &PAST, &d);
                            let n = f64::from(2 * samples + field_blanks + 4);
                            let price = 300.0
                                + 40.0 * n
                                + 60.0 * f64::from(spikes)
                                + n * volume_ml * 5e-4
                                + f64::from(2 * samples + field_blanks) * (longest - minutes);
                            let best =
                                front.iter().filter(|r| r.price <= price + 1e-9).map(|r| r.power).fold(0.0, f64::max);
                            // The front leaves out gains under a thousandth.
                            assert!(power <= best + 1e-3 + 1e-12, "{q:?} {d:?} {power} {best}");
                        }
                    }
                }
            }
        }
    }
}

#[test]
fn each_design_says_what_it_buys() {
    let front = rank(&planning(Question::Detect { level: 0.05 })).unwrap();
    assert!(front[0].buys.in_english().starts_with("The cheapest: decides with"));
    let (first, second) = (&front[0], front[1].buys.in_english());
    assert!(second.starts_with("For "), "{second}");
    // The chance before stands beside the chance now.
    assert!(second.contains(&format!(" instead of {:.1} % chance", 100.0 * first.power)), "{second} {}", first.power);
    let list = packing_list(&front[0].design, &["SL-1".into(), "SL-2".into()]);
    let list: Vec<String> = list.iter().map(|l| l.in_english()).collect();
    assert!(list[0].starts_with("SL-1:") && list.iter().any(|l| l.contains("field blanks")));
}

#[test]
fn faults_are_named() {
    let check = |change: &dyn Fn(&mut Planning), part: &str| {
        let mut p = planning(Question::Detect { level: 0.05 });
        change(&mut p);
        let message = rank(&p).unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    check(&|p| p.choices.samples.clear(), "choices of one kind");
    check(&|p| p.choices.field_blanks = vec![1], "one blank shows no scatter");
    check(&|p| p.choices.volume_ml = vec![0.0], "fill volume");
    check(&|p| p.choices.minutes = vec![-1.0], "minutes open");
    check(&|p| p.question = Question::Detect { level: 0.0 }, "level of the question");
    check(&|p| p.question = Question::Lower { a: 2.0, b: 1.0 }, "b higher than a");
    check(&|p| p.past.between_pg = -1.0, "deviation between blanks");
    // What is no number passes no comparison, also beside good ones.
    check(&|p| p.choices.volume_ml = vec![250.0, f64::NAN], "fill volume");
    check(&|p| p.choices.minutes = vec![f64::NAN, 1.0], "minutes open");
    check(&|p| p.prices.vial = f64::NAN, "price of a vial");
    check(&|p| p.past.dof = f64::INFINITY, "degrees of freedom");
    for wrong in [f64::NAN, f64::INFINITY] {
        check(&|p| p.question = Question::Detect { level: wrong }, "level of the question");
        check(&|p| p.question = Question::Limit { level: 1.0, limit: wrong }, "level and limit");
        check(&|p| p.question = Question::Lower { a: 1.0, b: wrong }, "b higher than a");
        check(&|p| p.question = Question::DetectionLimit { target: 0.1, level: wrong }, "target of the question");
        for (percent_per_year, years, natural_share) in [(wrong, 5.0, 0.1), (3.0, wrong, 0.1), (3.0, 5.0, wrong)] {
            let trend = Question::Trend { level: 1.0, percent_per_year, years, visits_per_year: 1.0, natural_share };
            check(&|p| p.question = trend, "trend of the question");
        }
    }
    check(&|p| p.choices.samples = (1..100_000).collect(), "combinations");
    check(
        &|p| {
            p.question = Question::Trend {
                level: 1.0,
                percent_per_year: 3.0,
                years: 1.0,
                visits_per_year: 1.0,
                natural_share: 0.1,
            }
        },
        "four visits",
    );
}

/// The checks that decide in the table of a new programme, as far as numbers answer them.
fn decisive() -> Vec<Need> {
    use quantity::Check::{NumberDuplicates, NumberRecovery, RunBlankCount, RunReferenceMaterial};
    [RunBlankCount, RunReferenceMaterial, NumberRecovery, NumberDuplicates].into_iter().filter_map(Need::of).collect()
}

#[test]
fn a_design_contains_what_the_decisive_checks_ask_for() {
    for q in questions() {
        let mut p = planning(q);
        let free = rank(&p).unwrap();
        p.needs = decisive();
        let bound = rank(&p).unwrap();
        for d in bound.iter().map(|r| r.design) {
            assert!(d.field_blanks >= 3 && d.samples >= 2 && d.spikes >= 2, "{d:?}");
            assert_eq!((d.laboratory.reference_materials, d.laboratory.vials()), (1, 1));
        }
        // The same as ranking the choices that a person would have kept by hand, a vial dearer.
        let mut by_hand = planning(q);
        by_hand.choices.samples.retain(|n| *n >= 2);
        by_hand.choices.field_blanks.retain(|n| *n >= 3);
        by_hand.choices.spikes.retain(|n| *n >= 2);
        let kept = rank(&by_hand).unwrap();
        assert_eq!(bound.len(), kept.len());
        for (b, k) in bound.iter().zip(&kept) {
            assert!((b.price - k.price - 25.0).abs() < 1e-9 && b.power == k.power, "{b:?} {k:?}");
        }
        assert!(free[0].price < bound[0].price);
        assert!(bound[0].buys.in_english().starts_with("The cheapest whose bottles can be accepted"));
    }
}

#[test]
fn where_no_choice_suffices_the_need_stands_in_its_place() {
    let mut p = planning(Question::Detect { level: 0.05 });
    p.wells = 5;
    p.needs = decisive();
    p.needs.extend(Need::of_warning(quantity::Check::RunFastDrift));
    p.choices.spikes = vec![0, 1, 3];
    for d in rank(&p).unwrap().iter().map(|r| r.design) {
        assert_eq!((d.spikes, d.laboratory.drift_checks), (5, 3));
    }
    // A check that warns asks for vials of the run alone.
    assert_eq!(Need::of_warning(quantity::Check::NumberRecovery), None);
    assert_eq!(Need::of(quantity::Check::CoolBoxSeal), None);
    assert!(p.needs.iter().any(|n| n.part == Part::DriftChecks && !n.decides));
}

#[test]
fn every_well_gets_its_spikes() {
    let d = Design { spikes: 5, ..DESIGN };
    let at = |wells: usize| (0..wells).map(|w| d.spikes_at(w, wells)).collect::<Vec<_>>();
    assert_eq!((at(1), at(3), at(7)), (vec![5], vec![2, 2, 1], vec![1, 1, 1, 1, 1, 0, 0]));
    let list = packing_list(&d, &["SL-1".into(), "SL-2".into(), "SL-3".into()]);
    let spikes: Vec<String> =
        list.iter().map(|l| l.in_english()).filter(|l| l.contains("spikes in the water")).collect();
    assert_eq!(spikes.len(), 3);
    assert!(spikes[2].starts_with("SL-3: 1 bottle for"), "{spikes:?}");
}
