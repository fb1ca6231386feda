//! The joint fit against direct convolution and a posterior integrated on a grid beside it; tests, verdicts, refusals.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::{SAMPLED, measured, observed, sample, setting, tables, tritium};
use aquifer::Reason;
use aquifer::age::fit::{Observation, Side, Tested, fit, fit_supposed};
use aquifer::age::gases::dissolved_per_ppt;
use aquifer::age::tables::AGES;
use aquifer::age::tritium::lambda;
use aquifer::age::verdict::{
    Question, Standing, against_darcy, as_lower_bound, findings, most_unlike, union, verdict, younger_bounds,
};
use aquifer::age::{Input, Kind, Level, Measured, Model, Pieces, Sample, Tables, Tracer, convolve};
use message::{Lang, age as said};
use quantity::Outcome;

/// What a water of a model holds, in the units of measurements: 9 °C, 120 m, 2 cm³ STP/kg of air, A0 0.7.
pub fn water(model: &Model, tracers: &[Tracer]) -> Vec<(Tracer, f64)> {
    let all = setting(vec![]);
    let input = |t: Tracer| -> Option<Input> { all.histories.iter().find(|h| h.tracer == t).map(|h| h.input(SAMPLED)) };
    tracers
        .iter()
        .map(|t| {
            let c = |pieces: &Pieces, l: f64| convolve(pieces, model, l).unwrap();
            let value = match t {
                Tracer::Tritium => c(&input(*t).unwrap().value, lambda()),
                Tracer::Helium3 => {
                    let rain = input(Tracer::Tritium).unwrap().value;
                    c(&rain, 0.0) - c(&rain, lambda())
                }
                Tracer::Carbon14 => 0.7 * c(&Pieces::constant(1.0), 2f64.ln() / 5730.0),
                gas => {
                    let (water, air) = dissolved_per_ppt(*gas, 9.0, 120.0, 2.0).unwrap();
                    (water + air) * c(&input(*gas).unwrap().value, 0.0)
                }
            };
            (*t, value)
        })
        .collect()
}

/// The same measured exactly, with a usual u.
fn exact(model: &Model, tracers: &[Tracer], draws: usize) -> Sample {
    let observations = water(model, tracers).into_iter().map(|(t, v)| observed(t, v, 0.03 * v + 0.02)).collect();
    sample(observations, draws, 7)
}

const SIX: [Tracer; 6] =
    [Tracer::Tritium, Tracer::Helium3, Tracer::Sf6, Tracer::Cfc12, Tracer::Cfc113, Tracer::Carbon14];

fn model_of(f: &aquifer::age::Fit, kind: Kind) -> &aquifer::age::fit::ModelFit {
    f.models.iter().find(|m| m.kind == kind).unwrap()
}

#[test]
fn the_true_model_is_found_with_its_age() {
    let t = tables(Kind::ALL.to_vec());
    for (model, kind, age) in [
        (Model::Exponential { mean: 30.0 }, Kind::Exponential, 30.0),
        (Model::ExponentialPiston { mean: 45.0, eta: 1.5 }, Kind::ExponentialPiston, 45.0),
        (Model::Piston { mean: 25.3 }, Kind::Piston, 25.3),
        (Model::Dispersion { mean: 40.0, d: 0.12 }, Kind::Dispersion, 40.0),
    ] {
        let f = fit(&t, &exact(&model, &SIX, 8000)).unwrap();
        let m = model_of(&f, kind);
        assert!(!m.rejected && m.t_years.low_95 < age && age < m.t_years.high_95, "{kind:?}: {m:?}");
        let Tested::ChiSquared { chi2, dof, .. } = m.tested else { panic!() };
        assert!(chi2 < 0.5 && dof == 6 - kind.parameters(), "{kind:?} {chi2}");
        let young = model.younger_than(SAMPLED - 1953.0);
        let u = union(&f).unwrap();
        assert!(u.young.0 <= young + 1e-9 && young <= u.young.1 + 1e-9, "{u:?}");
        // The weights of those that stand are a whole.
        assert!((f.models.iter().map(|m| m.weight).sum::<f64>() - 1.0).abs() < 1e-12);
    }
}

#[test]
fn one_tracer_against_a_posterior_integrated_beside() {
    let t = Tables::new(&aquifer::age::Setting { kinds: vec![Kind::Exponential], ..setting(vec![]) }).unwrap();
    let s = sample(vec![observed(Tracer::Tritium, 5.0, 0.3)], 50_000, 3);
    let f = fit(&t, &s).unwrap();
    let m = &f.models[0];
    assert_eq!(m.tested, Tested::ByConstruction);
    // Prior flat in ln T, history of 5 % common to all years integrated as a normal: on 20,000 points of ln T.
    let h = tritium(0.05).input(SAMPLED);
    let n = 20_000;
    let points: Vec<(f64, f64)> = (0..n)
        .map(|k| {
            let ln_t = (AGES.1 / AGES.0).ln() * (f64::from(k) + 0.5) / f64::from(n);
            let model = Model::Exponential { mean: ln_t.exp() };
            let c = convolve(&h.value, &model, lambda()).unwrap();
            let s2 = 0.3f64.powi(2) + convolve(&h.u, &model, lambda()).unwrap().powi(2);
            (ln_t.exp(), (-0.5 * (5.0 - c).powi(2) / s2).exp() / s2.sqrt())
        })
        .collect();
    let total: f64 = points.iter().map(|p| p.1).sum();
    let at = |p: f64| {
        let mut sum = 0.0;
        points
            .iter()
            .find(|x| {
                sum += x.1;
                sum >= p * total
            })
            .unwrap()
            .0
    };
    // 50,000 draws worth some 20,000: u of the 2.5th percentile is about 0.1 of a standard deviation; 3 % of the age.
    for (got, p) in [(m.t_years.low_95, 0.025), (m.t_years.median, 0.5), (m.t_years.high_95, 0.975)] {
        assert!((got / at(p) - 1.0).abs() < 0.03, "{got} {}", at(p));
    }
    // Of exponential water 1 − exp(−60/T) is younger than 60 years, the less the older: 5 % of the one are 95 % of the
    // other. 3 % of T are at most 0.03/e = 0.011 of the share.
    let (low, high) = younger_bounds(m, &t, 60.0);
    for (got, p) in [(low, 0.95), (high, 0.05)] {
        let want = 1.0 - (-60.0 / at(p)).exp();
        assert!((got - want).abs() < 0.011, "{got} {want}");
    }
}

/// Exponential water with dead water has as many parameters as there are values here, and yet cannot hold all its carbon-14
/// and no tritium: whatever share is young enough to have lost no carbon has rain since the bomb tests in it.
#[test]
fn a_model_that_gives_the_values_from_no_supposed_start_is_left_out() {
    let t = tables(vec![Kind::ExponentialDead]);
    let of = |tritium: f64, carbon: f64| {
        let observations = vec![observed(Tracer::Tritium, tritium, 0.02), observed(Tracer::Carbon14, carbon, 0.003)];
        let s = Sample { a0: Some((0.7, 0.7)), ..sample(observations, 8000, 5) };
        let f = fit_supposed(&t, &s).unwrap();
        assert_eq!(f.models[0].tested, Tested::ByConstruction);
        f.models[0].rejected
    };
    assert!(of(0.0, 0.7));
    let half = Model::Mixture { share: 0.5, first: Box::new(Model::Exponential { mean: 30.0 }), second: None };
    let [(_, tritium), (_, carbon)] = water(&half, &[Tracer::Tritium, Tracer::Carbon14])[..] else { panic!() };
    assert!(!of(tritium, carbon));
}

#[test]
fn threads_change_nothing_and_seeds_little() {
    let t = tables(vec![Kind::ExponentialPiston, Kind::ExponentialDead]);
    let s = exact(&Model::Exponential { mean: 30.0 }, &SIX, 20_000);
    let on = |n: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(n).build().unwrap();
        serde_json::to_string(&pool.install(|| fit(&t, &s).unwrap())).unwrap()
    };
    assert_eq!(on(1), on(3));
    let other = fit(&t, &Sample { seed: 8, ..s.clone() }).unwrap();
    let first = fit(&t, &s).unwrap();
    for (a, b) in first.models.iter().zip(&other.models) {
        assert!((a.t_years.median / b.t_years.median - 1.0).abs() < 0.05, "{a:?} {b:?}");
        assert!(a.effective_draws > 500.0, "{}", a.effective_draws);
    }
}

#[test]
fn one_tracer_tests_nothing() {
    let t = tables(Kind::ALL.to_vec());
    let f = fit(&t, &sample(vec![observed(Tracer::Tritium, 4.0, 0.2)], 20_000, 1)).unwrap();
    for m in &f.models {
        let expected = if m.kind.parameters() == 1 { Tested::ByConstruction } else { Tested::NotDetermined };
        assert_eq!((m.tested, m.rejected, m.aicc), (expected, false, None));
    }
    // 4.0 TU on this curve: several piston ages as separate ranges, and no answer to whether all of it is young.
    let piston = model_of(&f, Kind::Piston);
    assert!(piston.ranges_years.len() > 1, "{:?}", piston.ranges_years);
    assert_eq!(verdict(&f, Question::WhollyYoung).standing, Standing::CannotTell);
    let part = verdict(&f, Question::PartYoung);
    assert!(part.standing == Standing::Decided && part.answer == Some(true));
    let says: Vec<_> = findings(&f).into_iter().map(|f| f.message.unwrap()).collect();
    assert!(says.iter().any(message::Message::is::<said::ByConstruction>));
    assert!(says.iter().any(message::Message::is::<said::NotDetermined>));
    assert!(says.iter().all(|m| Lang::ALL.iter().all(|l| m.said(*l).is_some())));
    assert!(union(&f).unwrap().open);
}

#[test]
fn old_water_is_decided_and_its_bound_is_no_nought() {
    let t = tables(Kind::ALL.to_vec());
    let below = |tracer, limit, u| Observation {
        measured: Measured::new(tracer, Level::Below { limit, u }, tracer.unit(), Some(SAMPLED)).unwrap(),
        side: Side::Both,
    };
    let s = sample(
        vec![
            below(Tracer::Tritium, 0.03, 0.02),
            below(Tracer::Cfc12, 10.0, 5.0),
            observed(Tracer::Carbon14, 0.3, 0.003),
        ],
        20_000,
        1,
    );
    let f = fit(&t, &s).unwrap();
    let v = verdict(&f, Question::BeforeBomb);
    assert!(v.standing == Standing::Decided && v.answer == Some(true), "{v:?}");
    // 8267·ln(A0/A) for A0 0.55 to 0.85: 5010 to 8610 years.
    let piston = model_of(&f, Kind::Piston).t_years;
    assert!(piston.low_95 > 4800.0 && piston.high_95 < 8900.0, "{piston:?}");
    // A bound does not say nought: a little young water stays possible.
    assert!(model_of(&f, Kind::Two).young.high_95 > 1e-4);
}

#[test]
fn a_disturbed_tracer_is_named_and_not_dropped() {
    let t = tables(vec![Kind::Piston, Kind::Exponential, Kind::ExponentialPiston, Kind::Dispersion]);
    let mut s = exact(&Model::ExponentialPiston { mean: 40.0, eta: 1.5 }, &SIX, 4000);
    // SF6 from rock: four times what the water should have.
    let sf6 = s.observations.iter_mut().find(|o| o.measured.tracer == Tracer::Sf6).unwrap();
    sf6.measured.level = Level::Value { value: 4.0 * sf6.measured.number(), u: sf6.measured.u() };
    let f = fit(&t, &s).unwrap();
    assert!(f.models.iter().all(|m| m.rejected));
    assert_eq!(f.disturbed[0].0, Tracer::Sf6, "{:?}", f.disturbed);
    assert!(union(&f).is_none());
    assert!(findings(&f).iter().any(|f| f.message.as_ref().unwrap().is::<said::Disturbed>()));
    // As a lower bound of the age it fits.
    let f = fit(&t, &as_lower_bound(&s)).unwrap();
    let m = model_of(&f, Kind::ExponentialPiston);
    assert!(!m.rejected && m.t_years.low_95 < 40.0 && 40.0 < m.t_years.high_95);
}

#[test]
fn a_gas_that_was_taken_apart_is_a_bound() {
    let t = tables(vec![Kind::Exponential]);
    let truth = Model::Exponential { mean: 15.0 };
    let mut s = exact(&truth, &[Tracer::Tritium, Tracer::Cfc12], 8000);
    // Half of CFC-12 is gone. As a value it makes the water older; as "not older than" it does not.
    let cfc = s.observations.last_mut().unwrap();
    cfc.measured.level = Level::Value { value: 0.5 * cfc.measured.number(), u: 30.0 };
    let value = fit(&t, &s).unwrap().models.remove(0);
    s.observations.last_mut().unwrap().side = Side::AtLeast;
    let bound = fit(&t, &s).unwrap().models.remove(0);
    assert!(value.rejected || value.t_years.low_95 > 15.0, "{value:?}");
    assert!(!bound.rejected && bound.t_years.low_95 < 15.0 && 15.0 < bound.t_years.high_95, "{bound:?}");
}

#[test]
fn unlike_models_and_the_tracer_that_tells_them() {
    let t = tables(vec![Kind::Piston, Kind::Exponential, Kind::ExponentialDead]);
    let s = sample(vec![observed(Tracer::Tritium, 4.0, 0.2)], 8000, 1);
    let f = fit(&t, &s).unwrap();
    let u = most_unlike(&f, &t, &s).unwrap().unwrap();
    assert!(u.first != u.second && u.young.0 < u.young.1 && u.tracer != Tracer::Tritium, "{u:?}");
    assert!((u.predicted.0 / u.predicted.1 - 1.0).abs() > 0.05);
}

#[test]
fn an_age_beside_the_travel_time() {
    let t = tables(vec![Kind::Exponential]);
    let f = fit(&t, &exact(&Model::Exponential { mean: 30.0 }, &SIX, 4000)).unwrap();
    let around = |x: f64| (0..1000).map(|k| x * (0.5 + f64::from(k) / 1000.0)).collect::<Vec<_>>();
    let of = |x: f64| against_darcy_finding(&f, &around(x));
    assert!(matches!(of(30.0), (Outcome::Met, m) if m.is::<said::AgreesWithDarcy>()));
    assert!(matches!(of(3000.0), (Outcome::NotMet, m) if m.is::<said::YoungerThanDarcy>()));
    assert!(matches!(of(3.0), (Outcome::NotMet, m) if m.is::<said::OlderThanDarcy>()));
}

fn against_darcy_finding(f: &aquifer::age::Fit, darcy: &[f64]) -> (Outcome, message::Message) {
    let x = against_darcy(f, darcy);
    (x.outcome, x.message.unwrap())
}

#[test]
fn what_a_fit_cannot_be_made_of_is_refused() {
    let t = tables(vec![Kind::Exponential]);
    let good = exact(&Model::Exponential { mean: 30.0 }, &SIX, 2000);
    let refused = |change: &dyn Fn(&mut Sample)| -> Reason {
        let mut s = good.clone();
        change(&mut s);
        let why = fit(&t, &s).unwrap_err();
        assert!(Lang::ALL.iter().all(|l| why.said().said(*l).is_some()));
        why
    };
    refused(&|s| s.observations.clear());
    refused(&|s| s.observations.push(s.observations[0].clone()));
    refused(&|s| s.recharge = None);
    refused(&|s| s.recharge.as_mut().unwrap().excess_air_cm3_kg = None);
    refused(&|s| s.a0 = None);
    refused(&|s| s.a0 = Some((0.9, 0.5)));
    refused(&|s| s.draws = 10);
    refused(&|s| s.observations[0].measured.sampled_year = 2015.5);
    refused(&|s| s.observations[0].measured = measured(Tracer::Cfc11, 2.0, 0.1));
    let none = aquifer::age::Setting { kinds: vec![Kind::PartialExponential], ..setting(vec![]) };
    assert!(Tables::new(&none).is_err());
}
