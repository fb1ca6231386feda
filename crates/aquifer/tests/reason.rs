//! Why there is no answer: a calculation is refused with the English of the same parts that a report says.

use aquifer::well::{Construction, Gauge, Section, head};
use aquifer::welltest::{Bootstrap, FlowingTest, fit_flowing};
use aquifer::{Error, Reason, mixing, travel};
use message::{Arg, Lang, aquifer as part};

fn section(from_m: f64, to_m: f64) -> Section {
    Section { from_m, to_m, radius_m: 0.05, material: "iron".into() }
}

fn reasons() -> Vec<Reason> {
    let overlapping =
        Construction { sections: vec![section(0.0, 10.0), section(9.0, 20.0)], ..Construction::default() };
    let upside_down = Construction { sections: vec![section(10.0, 0.0)], ..Construction::default() };
    let below = Gauge { pressure_pa: -1.0, u_pressure_pa: None, height_m: 0.5, u_height_m: None, temperature_c: 10.0 };
    let unread = FlowingTest { drawdown_m: 4.0, radius_m: 0.04, series: vec![] };
    vec![
        overlapping.check().unwrap_err(),
        upside_down.check().unwrap_err(),
        head(&below, None).unwrap_err(),
        fit_flowing(&unread, Bootstrap::default()).unwrap_err(),
        travel::gradient((10.0, 1.0), (14.0, 0.2), (6000.0, 0.0)).unwrap_err(),
        mixing::mix(&[]).unwrap_err(),
    ]
}

#[test]
fn a_reason_is_said_in_every_language_and_refuses_with_the_same_english() {
    for why in reasons() {
        assert_eq!(Error::from(why.clone()).to_string(), why.said().in_english());
        assert!(Lang::ALL.iter().all(|l| why.said().said(*l).is_some()), "{why}");
    }
}

#[test]
fn uphill_names_level_and_head() {
    let Reason::OutOfRange { what, found, expected } = &reasons()[4] else { panic!("{}", reasons()[4]) };
    assert!(what.is::<part::Input>() && expected.is::<part::AboveTheHead>());
    let Some(Arg::Amount(head)) = expected.arg("head") else { panic!("{expected:?}") };
    assert!((found.value - 10.0).abs() < 1e-12 && (head.value - 14.0).abs() < 1e-12);
}
