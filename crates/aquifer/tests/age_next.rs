//! Which tracer next: gains by the sign they must have, prices, ties, refusals.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use crate::age_data::{observed, sample, tables};
use aquifer::age::fit::fit;
use aquifer::age::next::{Candidate, rank};
use aquifer::age::verdict::Question;
use aquifer::age::{Kind, Tracer};

fn candidate(tracer: Tracer, spoilt: f64, price: f64) -> Candidate {
    Candidate { tracer, relative_u: 0.04, least_u: if tracer == Tracer::Helium3 { 0.5 } else { 0.02 }, spoilt, price }
}

#[test]
fn ranking() {
    let t = tables(vec![Kind::Piston, Kind::Exponential, Kind::ExponentialPiston, Kind::Dispersion]);
    let s = sample(vec![observed(Tracer::Tritium, 4.0, 0.2)], 8000, 1);
    let f = fit(&t, &s).unwrap();
    let of = |c: &[Candidate]| rank(&f, &t, &s, c, Question::WhollyYoung).unwrap();
    let all = [
        candidate(Tracer::Cfc113, 1.0, 100.0),
        candidate(Tracer::Helium3, 0.0, 100.0),
        candidate(Tracer::Tritium, 0.0, 100.0),
    ];
    let r = of(&all);
    // Helium-3 parts what one tritium value leaves open; a second tritium of the same day tells the same again; what is
    // surely spoilt tells nothing.
    assert_eq!(r.single[0].tracers, [Tracer::Helium3], "{r:?}");
    assert!(r.single[0].narrower > 0.5 && r.single[0].decided >= 0.0);
    let spoilt = r.single.iter().find(|g| g.tracers == [Tracer::Cfc113]).unwrap();
    assert!(spoilt.narrower.abs() < 1e-12);
    assert!(!r.no_preference);
    // A pair tells no less than its better half.
    let pair = r.pair.unwrap();
    assert!(pair.narrower >= r.single[0].narrower && pair.price == 200.0);
    // A hundredfold price turns the order round.
    let dear = of(&[candidate(Tracer::Helium3, 0.0, 10_000.0), candidate(Tracer::Tritium, 0.0, 100.0)]);
    assert_eq!(dear.single[0].tracers, [Tracer::Tritium]);
    // Twins are no preference.
    assert!(of(&[candidate(Tracer::Helium3, 0.0, 100.0), candidate(Tracer::Helium3, 0.0, 100.0)]).no_preference);
    assert_eq!(of(&all), of(&all));
}

#[test]
fn what_cannot_be_ranked_is_refused() {
    let t = tables(vec![Kind::Exponential]);
    let s = sample(vec![observed(Tracer::Tritium, 4.0, 0.2)], 2000, 1);
    let f = fit(&t, &s).unwrap();
    for bad in [
        vec![],
        vec![candidate(Tracer::Helium3, 0.0, 0.0)],
        vec![candidate(Tracer::Helium3, 1.5, 10.0)],
        vec![candidate(Tracer::Cfc11, 0.0, 10.0)],
    ] {
        assert!(rank(&f, &t, &s, &bad, Question::BeforeBomb).is_err(), "{bad:?}");
    }
}
