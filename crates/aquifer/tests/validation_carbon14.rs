//! Carbon-14: closed forms, a worked example of a university exercise, numpy's draws.

use super::scipy::expected;
use aquifer::Reason;
use aquifer::age::WithU;
use aquifer::age::carbon14::{Carbon, CarbonAge, Correction, Dated, Reported, age, gas_over_bicarbonate};
use aquifer::age::gases::Found;
use message::{Message, origin as said};

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn with(value: f64, u: f64) -> WithU {
    WithU { value, u }
}

/// 10 pMC, δDIC −14, δsoil −23, δrock 0, CO2 0.4, HCO3 4.0 mmol/kg, 10 °C.
fn sample() -> Carbon {
    Carbon {
        d13c: Some(with(-14.0, 0.2)),
        co2: Some(with(0.4, 0.04)),
        hco3: Some(with(4.0, 0.1)),
        temperature_c: Some(with(10.0, 1.0)),
        methane: Found::NotDetected,
        ..Carbon::new(Reported::PercentOfF14c(with(10.0, 0.3)))
    }
}

fn by(a: &CarbonAge, correction: Correction) -> &Dated {
    a.dated.iter().find(|d| d.correction == correction).unwrap()
}

fn says<T: message::Declared>(a: &CarbonAge) -> bool {
    a.findings.iter().any(Message::is::<T>)
}

#[test]
fn four_corrections_of_one_sample() {
    // Computed in plain Python with a mean life of 8266.64 y; ages given to a year, q to four decimals.
    let a = age(&sample()).unwrap();
    for (correction, q, years) in [
        (Correction::FixedShare, 0.85, 17_691.0),
        (Correction::Stoichiometric, 0.5455, 14_024.0),
        (Correction::IsotopeMixing, 0.6087, 14_931.0),
        (Correction::Equilibrium, 1.0449, 19_397.0),
    ] {
        let d = by(&a, correction);
        close(d.q, q, 1e-4);
        close(d.a0_pmc, 100.0 * q, 1e-4);
        assert!((d.years.unwrap() - years).abs() < 1.0, "{correction:?}: {:?}", d.years);
        assert!(d.in_band);
    }
    // A share above 1 raises the finding; one band holds all.
    assert!(says::<said::ShareAboveOne>(&a));
    let (low, high) = a.band.unwrap();
    assert!(low < 14_000.0 && high.unwrap() > 19_400.0);
    // The band of those read in print is narrower, and it is said that the other formulas are recalled.
    let (low_print, high_print) = a.band_read_in_print.unwrap();
    assert!(low_print >= low && high_print.unwrap() < high.unwrap() && says::<said::FormulasRecalled>(&a));
    assert_eq!(a.refused.len(), 1);
}

#[test]
fn the_spread_is_that_of_numpys_draws() {
    let a = age(&sample()).unwrap();
    for (correction, key) in [
        (Correction::FixedShare, "fixed"),
        (Correction::Stoichiometric, "stoichiometric"),
        (Correction::IsotopeMixing, "mixing"),
        (Correction::Equilibrium, "equilibrium"),
    ] {
        let s = by(&a, correction).spread.unwrap();
        let want = |what: &str| expected(&format!("c14.{key}.{what}"));
        // Percentiles of 20 000 draws: four standard errors are 2 % of the half width at the median of a normal law and 4 % at
        // its ends; at the long upper end of the last correction somewhat more.
        let half = 0.5 * (want("high") - want("low"));
        assert!((s.median - want("median")).abs() < 0.02 * half, "{key}");
        assert!((s.low_95 - want("low")).abs() < 0.06 * half, "{key} {} {}", s.low_95, want("low"));
        assert!((s.high_95 - want("high")).abs() < 0.06 * half, "{key} {} {}", s.high_95, want("high"));
    }
}

#[test]
fn conventional_and_physical_age() {
    // F14C 0.25: 11 136 y by 5568 y, 11 460 y by 5730 y (two half-lives each); the ratio of the mean lives is 1.0291
    // (Radiocarbon 15(2) 1973: 1.03).
    let back = Reported::Conventional(with(11_136.0, 40.0)).f14c();
    close(back.value, 0.25, 1e-5);
    // Wood that has lost 22 % by 5568 y, measured in AD 2000, is of AD 4 (worked example, edshare.soton.ac.uk/6729).
    close(Reported::Conventional(with(2000.0 - 4.13, 40.0)).f14c().value, 0.78, 1e-5);
    let c = Carbon {
        d13c: Some(with(-12.5, 0.1)),
        soil: with(-25.0, 0.1),
        carbonate: with(0.0, 0.1),
        ..Carbon::new(Reported::F14c(with(0.25, 0.003)))
    };
    // q = 0.5: 50 pMC at the start, 25 now, one half-life (end members of a university exercise, ldeo.columbia.edu).
    let a = age(&c).unwrap();
    close(by(&a, Correction::IsotopeMixing).q, 0.5, 1e-12);
    close(by(&a, Correction::IsotopeMixing).years.unwrap(), 5730.0, 1e-12);
}

#[test]
fn mook_and_others_at_ten_and_twenty_five_degrees() {
    // Mook, Bommerson & Staverman 1974: −9.60 and −7.92 ‰.
    assert!((gas_over_bicarbonate(10.0) + 9.60).abs() < 0.005);
    assert!((gas_over_bicarbonate(25.0) + 7.92).abs() < 0.005);
}

#[test]
fn carbon_of_sulfide_is_taken_out() {
    // 4.0 mmol DIC, 0.05 mmol sulfide: 0.10 mmol, 2.5 % dead, 209 y too old without (stoichiometry).
    let c = Carbon { hco3: Some(with(4.0, 0.0)), co2: None, sulfide: Some(with(0.05, 0.0)), ..sample() };
    let a = age(&c).unwrap();
    close(a.share_of_sulfide.unwrap(), 0.025, 1e-12);
    let without = age(&Carbon { sulfide: None, ..c.clone() }).unwrap();
    let lower = by(&without, Correction::FixedShare).years.unwrap() - by(&a, Correction::FixedShare).years.unwrap();
    close(lower, 209.0, 2e-3);
    close(a.f14c_corrected, 0.10 / 0.975, 1e-12);
    assert!(says::<said::SulfideTakenOut>(&a) && says::<said::SulfideNotLookedFor>(&without));
    // δ13C by balance: (−14·4 + 25·0.1)/3.9.
    close(by(&a, Correction::IsotopeMixing).q, (-14.0 * 4.0 + 25.0 * 0.1) / 3.9 / -23.0, 1e-12);
    // Without bicarbonate it cannot be taken out, and that is said; more than there is, refused.
    assert!(says::<said::SulfideWithoutCarbonate>(&age(&Carbon { hco3: None, ..c.clone() }).unwrap()));
    let too_much = age(&Carbon { sulfide: Some(with(2.5, 0.1)), ..c }).unwrap_err();
    let Reason::OutOfRange { what, .. } = too_much else { panic!() };
    assert!(what.is::<said::CarbonOfSulfide>());
}

#[test]
fn methane_refuses_the_isotopes() {
    let a = age(&Carbon { methane: Found::Detected, ..sample() }).unwrap();
    assert!(a.dated.iter().all(|d| !matches!(d.correction, Correction::IsotopeMixing | Correction::Equilibrium)));
    assert!(a.refused.iter().any(|(c, why)| *c == Correction::IsotopeMixing && why.is::<said::MethaneShiftsCarbon>()));
    assert!(says::<said::MethaneFound>(&a));
    assert!(says::<said::MethaneNotLookedFor>(&age(&Carbon { methane: Found::NotMeasured, ..sample() }).unwrap()));
}

#[test]
fn a_share_that_cannot_be_is_left_out_and_said() {
    let a = age(&Carbon { d13c: Some(with(-5.0, 0.2)), ..sample() }).unwrap();
    assert!(
        !by(&a, Correction::IsotopeMixing).in_band && says::<said::ShareOutside>(&a) && says::<said::HeavyCarbon>(&a)
    );
}

#[test]
fn modern_carbon_mixtures_and_limits() {
    let of = |value: f64, u: f64| Carbon::new(Reported::PercentOfF14c(with(value, u)));
    // Above 100 pMC: no age.
    let a = age(&of(112.0, 0.5)).unwrap();
    assert!(a.band.is_none() && a.dated.is_empty() && says::<said::BombCarbon>(&a));
    // Half modern, half dead water: 50 pMC, 5730 y by A0 100; here fixed share 0.85. With tritium it is a mixture, at most
    // half of it modern (and what the u leaves).
    let a = age(&Carbon { tritium: Found::Detected, ..of(49.0, 0.3) }).unwrap();
    assert!(says::<said::TritiumWithOldCarbon>(&a) && (a.modern_share_at_most - 0.495).abs() < 1e-3);
    // 90 pMC: q 0.85 gives an age below nought.
    let a = age(&of(90.0, 0.3)).unwrap();
    assert!(says::<said::ModernOrTooLow>(&a) && by(&a, Correction::FixedShare).years.unwrap() < 0.0);
    // Not told from nought: older than, no upper end.
    let a = age(&of(0.1, 0.2)).unwrap();
    assert!(a.band.unwrap().1.is_none() && says::<said::OlderThan>(&a));
    let a = age(&of(-0.1, 0.2)).unwrap();
    assert!(by(&a, Correction::FixedShare).years.is_none() && says::<said::OlderThan>(&a));
    // 1.5 pMC: 33 400 y, beyond what DIC tells.
    assert!(says::<said::BeyondTheRange>(&age(&of(1.5, 0.1)).unwrap()));
    // Far above any air, or percent given for a fraction.
    let Err(Reason::OutOfRange { expected, .. }) = age(&Carbon::new(Reported::F14c(with(42.0, 0.3)))) else { panic!() };
    assert!(expected.is::<said::WithinAirOfAnyYear>());
    let Err(Reason::Unlike { expected, .. }) = age(&of(42.0, 0.0)) else { panic!() };
    assert!(expected.is::<said::AmountWithU>());
}

#[test]
fn less_carbon_is_never_younger() {
    let years = |pmc: f64| {
        age(&Carbon { reported: Reported::PercentOfF14c(with(pmc, 0.3)), ..sample() }).unwrap().band.unwrap().0
    };
    let all: Vec<f64> = [80.0, 60.0, 40.0, 20.0, 10.0, 5.0].into_iter().map(years).collect();
    assert!(all.windows(2).all(|w| w[1] > w[0]), "{all:?}");
}

#[test]
fn a_joint_fit_gets_the_band_of_the_start() {
    let start = age(&sample()).unwrap().with_start().unwrap();
    assert!(start.a0_low < 0.5455 && start.a0_high > 1.0449);
    close(start.f14c, 0.10, 1e-12);
    close(start.u, 0.003, 1e-12);
}
