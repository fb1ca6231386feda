//! Bad input of ages is named with what to do: units, dates, bounds, histories; constants have sources.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::{SAMPLED, gas, measured, tritium};
use aquifer::age::constants::{all, number};
use aquifer::age::tritium::{half_life_years, lambda};
use aquifer::age::{Level, Measured, Point, Tracer};
use message::{Lang, age as said};
use quantity::Outcome;

fn refused(tracer: Tracer, level: Level, unit: &str, when: Option<f64>) -> aquifer::Reason {
    let why = Measured::new(tracer, level, unit, when).unwrap_err();
    assert!(Lang::ALL.iter().all(|l| why.said().said(*l).is_some()));
    why
}

const TWO: Level = Level::Value { value: 2.0, u: 0.1 };

#[test]
fn a_tracer_without_unit_date_or_u_is_refused() {
    use aquifer::Reason::{OutOfRange, Unlike};
    let is = |why: aquifer::Reason, f: fn(&message::Message) -> bool| match why {
        Unlike { found, .. } => assert!(f(&found), "{found:?}"),
        other => panic!("{other}"),
    };
    is(refused(Tracer::Tritium, TWO, "", Some(2026.5)), message::Message::is::<said::NoUnit>);
    is(refused(Tracer::Tritium, TWO, "ng/L", Some(2026.5)), message::Message::is::<said::Unit>);
    is(refused(Tracer::Tritium, TWO, "TU", None), message::Message::is::<said::NoDate>);
    // "pMC" alone may mean two things.
    is(refused(Tracer::Carbon14, TWO, "pMC", Some(2026.5)), message::Message::is::<said::Unit>);
    for level in [
        Level::Value { value: 2.0, u: 0.0 },
        Level::Below { limit: 0.0, u: 0.1 },
        Level::Value { value: f64::NAN, u: 1.0 },
    ] {
        refused(Tracer::Tritium, level, "TU", Some(2026.5));
    }
    assert!(matches!(refused(Tracer::Tritium, TWO, "TU", Some(20265.0)), OutOfRange { .. }));
    // 60 percent written as 60: far above any air.
    let percent = Level::Value { value: 60.0, u: 0.3 };
    assert!(matches!(refused(Tracer::Carbon14, percent, "F14C", Some(2026.5)), OutOfRange { .. }));
    assert!(Measured::new(Tracer::Carbon14, percent, "pMC (100 F14C)", Some(2026.5)).is_ok());
}

#[test]
fn values_under_their_critical_value_stay_and_bounds_are_met_with_phi() {
    let mut m = measured(Tracer::Tritium, 0.05, 0.1);
    m.critical = Some(0.16);
    assert!(!m.detected() && (m.number() - 0.05).abs() < 1e-15);
    // Never under what could have been seen.
    assert!(m.at_most() >= 0.16);
    let below = Measured::new(Tracer::Tritium, Level::Below { limit: 0.5, u: 0.1 }, "TU", Some(2026.5)).unwrap();
    // Φ(0) = 1/2, Φ(−2) = 0.02275 (tables).
    assert!((below.ln_likelihood(0.5) - 0.5f64.ln()).abs() < 1e-12);
    assert!((below.ln_likelihood(0.7).exp() - 0.022_750).abs() < 1e-6);
    assert!(below.ln_likelihood(0.0) > -1e-5);
}

#[test]
fn tritium_units() {
    // 3H: 0.1192 Bq/kg and 3.221 pCi/kg a TU; 0.119 and 3.2 printed by laboratories; 7.09 dpm/kg with 12.43 y, 7.1 printed.
    assert!((number("3H.Bq_per_TU") - 0.1192).abs() < 5e-5 && (number("3H.pCi_per_TU") - 3.221).abs() < 5e-4);
    assert!((number("3H.Bq_per_TU") * 60.0 * half_life_years() / 12.43 - 7.09).abs() < 0.01);
    // Decay constant from 4500 d: 1.78279e-9 /s; 12.32 y are 388 789 632 s (ams.uottawa.ca: 388,789,632 s, 1.78e-9).
    assert!((lambda() / 31_557_600.0 / 1.78279e-9 - 1.0).abs() < 1e-5);
    assert!((12.32f64 * 31_557_600.0 - 388_789_632.0).abs() < 1.0);
    // By the definition, from Avogadro's constant and the mass of water: 1e-18·2·N/0.0180153·λ.
    let bq = 1e-18 * 2.0 * 6.02214076e23 / 0.0180153 * lambda() / 31_557_600.0;
    assert!((bq / number("3H.Bq_per_TU") - 1.0).abs() < 2e-4, "{bq}");
}

#[test]
fn constants_have_a_source_and_say_whether_it_was_seen() {
    let mut n = 0;
    for c in all() {
        assert!(!c.source.is_empty() && ["seen", "computed", "from memory"].contains(&c.seen.as_str()), "{c:?}");
        n += 1;
    }
    let tables =
        [include_str!("../../../reference/tracers.csv"), include_str!("../../../reference/tracers_origin.csv")];
    assert_eq!(n, tables.map(|t| t.lines().count() - 1).iter().sum::<usize>(), "a key stands twice");
    // Mean lives: 8267 restated from Stuiver & Polach 1977, 8033 (recalled); ×1.03 (Radiocarbon 1973 notice).
    let ln2 = std::f64::consts::LN_2;
    let (physical, libby) = (number("14C.halflife") / ln2, number("14C.halflife.Libby") / ln2);
    assert!(
        (physical - 8266.6).abs() < 0.1 && (libby - 8032.9).abs() < 0.1 && (physical / libby - 1.0291).abs() < 1e-4
    );
}

#[test]
fn a_history_that_ends_before_the_sample_is_said_and_held_with_doubled_u() {
    let mut h = tritium(0.1);
    let ends = |h: &aquifer::age::History| {
        let all = h.findings(SAMPLED);
        all.iter().all(|f| f.outcome == Outcome::NotMet).then_some(()).unwrap();
        all.iter().filter(|f| f.message.as_ref().unwrap().is::<said::HistoryEnds>()).count()
    };
    assert_eq!(ends(&h), 0);
    h.points.retain(|p| p.year < 2019.0);
    assert_eq!(ends(&h), 1);
    let input = h.input(SAMPLED);
    // 2015.5 is the last year, 11 TU ± 1.1; seven years before the sample the doubled u still holds.
    assert!((input.value.at(7.0) - 11.0).abs() < 1e-12 && (input.u.at(7.0) - 2.2).abs() < 1e-12);
    assert!((input.u.at(11.0 + 1e-9) - 1.1).abs() < 1e-6);
    // A gap in a yearly record.
    let mut h = gas(Tracer::Sf6, 1.0, 0.0);
    h.points.retain(|p| !(1980.0..1990.0).contains(&p.year));
    assert!(h.findings(SAMPLED)[0].message.as_ref().unwrap().is::<said::HistoryGap>());
}

#[test]
fn tritium_is_read_between_years_in_its_logarithm_and_gases_straight() {
    let h = tritium(0.0);
    // 1962.5: 1000, 1963.5: 2900.
    assert!((h.at(1963.0) - (1000.0f64 * 2900.0).sqrt()).abs() < 1e-9);
    assert!((h.input(SAMPLED).value.at(63.5) - h.at(1963.0)).abs() < 1e-9);
    assert_eq!(h.at(1900.0), 12.0);
    let g = gas(Tracer::Sf6, 1.0, 0.0);
    assert!((g.at(1961.5) - 0.5 * (g.at(1960.5) + g.at(1962.5))).abs() < 1e-12);
}

#[test]
fn histories_that_cannot_be_are_refused() {
    let good = tritium(0.1);
    assert!(good.check().is_ok());
    let change = |f: fn(&mut aquifer::age::History)| {
        let mut h = good.clone();
        f(&mut h);
        let why = h.check().unwrap_err();
        assert!(Lang::ALL.iter().all(|l| why.said().said(*l).is_some()));
    };
    change(|h| h.points.truncate(1));
    change(|h| h.points.swap(3, 4));
    change(|h| h.points[5].value = 0.0);
    change(|h| h.points[5].value = f64::INFINITY);
    change(|h| h.points[5].u = -1.0);
    change(|h| h.source.clear());
    change(|h| h.background = None);
    change(|h| h.points[2] = Point { year: 1940.5, value: 3.0, u: 0.1 });
}
