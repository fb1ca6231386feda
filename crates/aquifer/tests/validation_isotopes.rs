//! Water isotopes and chloride: mass balances by hand, lines and waves by scipy and numpy.

use super::scipy::expected;
use aquifer::Reason;
use aquifer::age::WithU;
use aquifer::age::chloride::{self, Balance, Runoff};
use aquifer::age::isotopes::{
    Line, Position, Rain, Season, Slope, Todays, Water, before_evaporation, beside_line, deuterium_excess, height,
    local_line, readings, season, summer_ratio,
};
use aquifer::age::seasons::{Dated, exponential_ratio, exponential_years, wave, young_water};
use aquifer::age::tritium::Month;
use message::{Message, origin as said};
use std::f64::consts::PI;

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn with(value: f64, u: f64) -> WithU {
    WithU { value, u }
}

fn water(d18o: f64, d2h: f64) -> Water {
    Water { d18o: with(d18o, 0.1), d2h: with(d2h, 1.0) }
}

fn says<T: message::Declared>(findings: &[Message]) -> bool {
    findings.iter().any(Message::is::<T>)
}

fn rain(weighted: bool) -> Vec<Rain> {
    (0..24)
        .map(|i| {
            let of = |what: &str| expected(&format!("rain.{i}.{what}"));
            Rain { water: water(of("x"), of("y")), amount_mm: weighted.then(|| of("mm")) }
        })
        .collect()
}

#[test]
fn lines_with_errors_in_both_coordinates_as_scipy_fits_them() {
    // scipy 1.17.1 least_squares over slope, intercept and all true abscissae; its u come from the full Jacobian, York's from
    // the adjusted abscissae: equal to some per cent (York et al. 2004).
    for (weighted, key) in [(false, "line"), (true, "weighted")] {
        let line = local_line(&rain(weighted)).unwrap();
        let want = |what: &str| expected(&format!("{key}.{what}"));
        close(line.slope, want("slope"), 1e-7);
        close(line.intercept, want("intercept"), 1e-6);
        close(line.scatter, want("scatter"), 1e-6);
        close(line.u_slope, want("u_slope"), 0.03);
        close(line.u_intercept, want("u_intercept"), 0.03);
    }
}

#[test]
fn the_global_line_and_deuterium_excess() {
    // δ18O −10 lies at δ2H −70; d = 10 there; u(d) of 0.1 and 1.0 ‰ is 1.281 ‰.
    close(Line::global().at(-10.0).value, -70.0, 1e-12);
    let d = deuterium_excess(&water(-10.0, -70.0));
    close(d.value, 10.0, 1e-12);
    close(d.u, 1.281, 1e-3);
    let on = beside_line(&water(-10.0, -70.0), &Line::global()).unwrap();
    assert!(on.position == Position::OnTheLine && on.source.is_none() && says::<said::GlobalLine>(&on.findings));
}

#[test]
fn an_evaporated_water_and_its_source() {
    // (−8, −60), slope of evaporation 5, line 8 and 10: source (−10, −70).
    let (o, h) = before_evaporation(&water(-8.0, -60.0), &Line::global(), 5.0).unwrap();
    close(o, -10.0, 1e-12);
    close(h, -70.0, 1e-12);
    let beside = beside_line(&water(-8.0, -60.0), &Line::global()).unwrap();
    assert_eq!(beside.position, Position::Evaporated);
    close(beside.residual.value, -6.0, 1e-12);
    let [steep, flat] = beside.source.unwrap();
    assert!(steep.0 > -10.0 && flat.0 < -10.0 && says::<said::Evaporated>(&beside.findings));
    assert!(says::<said::AboveTheLine>(&beside_line(&water(-8.0, -40.0), &Line::global()).unwrap().findings));
    assert!(before_evaporation(&water(-8.0, -60.0), &Line::global(), 8.0).is_err());
}

#[test]
fn season_height_and_climate_side_by_side() {
    // Winter −13, summer −7, well −11.5: winter share 0.75.
    let Season::WinterShare(s) = season(with(-11.5, 0.1), with(-13.0, 0.3), with(-7.0, 0.3)) else { panic!() };
    close(s.value, 0.75, 1e-12);
    close(s.u, (0.1f64.powi(2) + (0.75 * 0.3f64).powi(2) + (0.25 * 0.3f64).powi(2)).sqrt() / 6.0, 1e-12);
    // Seasons nearer than 4 u: no share.
    assert!(matches!(season(with(-9.0, 0.1), with(-10.0, 0.3), with(-9.0, 0.3)), Season::NotSeparable { .. }));
    // 1 ‰ lighter than at 100 m, −0.25 ‰ a 100 m: 400 m higher, ± 1.96·0.1·400.
    let slope = Slope { height_m: 100.0, d18o: with(-9.0, 0.0), per_100_m: Some((-0.25, -0.25)) };
    let (low, high) = height(with(-10.0, 0.1), &slope).unwrap();
    close(low, 500.0 - 195.9964 * 0.4, 1e-6);
    close(high, 500.0 + 195.9964 * 0.4, 1e-6);
    // Without a local gradient the usual range, −0.15 to −0.5.
    let (low, high) = height(with(-10.0, 1e-9), &Slope { per_100_m: None, ..slope }).unwrap();
    close(low, 300.0, 1e-6);
    close(high, 100.0 + 100.0 / 0.15, 1e-6);
    assert!(height(with(-10.0, 0.1), &Slope { per_100_m: Some((0.2, 0.3)), ..slope }).is_err());
    let todays =
        Todays { seasons: Some((with(-13.0, 0.3), with(-7.0, 0.3))), slope: Some(slope), mean: Some(with(-9.5, 0.2)) };
    let three = readings(with(-11.5, 0.1), &todays).unwrap();
    assert!(three.season.is_some() && three.height_m.is_some());
    close(three.from_todays_rain.unwrap().value, -2.0, 1e-12);
    assert!(says::<said::OneDeltaThreeReadings>(&three.findings));
    // Lighter than any rain of today.
    assert!(says::<said::NoMixtureOfSeasons>(&readings(with(-15.0, 0.1), &todays).unwrap().findings));
}

#[test]
fn summers_share_of_recharge() {
    // Winter −13 with 300 mm, summer −7 with 500 mm, well −11.5: α = 0.2, and back: (300·−13 + 0.2·500·−7)/400 = −11.5.
    let months =
        [Month { value: -13.0, rain_mm: 300.0, summer: false }, Month { value: -7.0, rain_mm: 500.0, summer: true }];
    let r = summer_ratio(&months, with(-11.5, 0.1)).unwrap();
    close(r.alpha.value, 0.2, 1e-12);
    // By difference: α at −11.4 and −11.6.
    let at = |d: f64| summer_ratio(&months, with(d, 0.1)).unwrap().alpha.value;
    close(r.alpha.u, (at(-11.4) - at(-11.6)).abs() / 2.0, 2e-3);
    assert!(r.findings.is_empty());
    let outside = summer_ratio(&months, with(-8.0, 0.1)).unwrap();
    assert!(outside.range == (0.0, 1.0) && says::<said::SummerRatioOutside>(&outside.findings));
    assert!(matches!(summer_ratio(&months[..1], with(-11.5, 0.1)), Err(Reason::TooFew { .. })));
}

fn series(amplitude: f64, n: usize, noise: f64) -> Vec<Dated> {
    (0..n)
        .map(|i| {
            let year = 2024.0 + i as f64 / 12.0;
            // An alternating error, which no wave of a year takes up.
            let error = if i % 2 == 0 { noise } else { -noise };
            let value = -9.0 + amplitude * (2.0 * PI * (year - 0.5)).cos() + error;
            Dated { year, d18o: with(value, 0.1), weight: 1.0 }
        })
        .collect()
}

#[test]
fn the_years_wave_as_numpy_fits_it() {
    let of: Vec<Dated> = (0..14)
        .map(|i| {
            let at = |what: &str| expected(&format!("wave.{i}.{what}"));
            Dated { year: at("t"), d18o: with(at("d"), 0.05), weight: 1.0 }
        })
        .collect();
    let w = wave(&of).unwrap();
    // numpy 2.4.6 lstsq; decimal years near 2024 leave twelve digits of the phase.
    close(w.mean.value, expected("wave.mean"), 1e-9);
    close(w.amplitude.value, expected("wave.amplitude"), 1e-9);
    close(w.amplitude.u, expected("wave.u"), 1e-6);
    assert!(w.shows);
}

#[test]
fn amplitudes_and_young_water() {
    // Exponential aquifer, T 0.25 … 5 y: 1/√(1 + (2πT)²); share younger than 0.189 y, 1 − exp(−0.189/T), within a few
    // percent of it (Kirchner 2016).
    for (t, ratio, young) in [
        (0.25, 0.5370, 0.5305),
        (0.5, 0.3033, 0.3148),
        (1.0, 0.1572, 0.1722),
        (2.0, 0.0793, 0.0902),
        (5.0, 0.0318, 0.0371),
    ] {
        close(exponential_ratio(t), ratio, 1e-3);
        close(exponential_years(exponential_ratio(t)), t, 1e-9);
        close(1.0 - (-0.189f64 / t).exp(), young, 1e-3);
        assert!((exponential_ratio(t) - (1.0 - (-0.189f64 / t).exp())).abs() < 0.016);
    }
    let rain = wave(&series(3.0, 24, 0.2)).unwrap();
    close(rain.amplitude.value, 3.0, 1e-6);
    assert!((rain.peak - 0.5).abs() < 1e-6);
    let young = young_water(&rain, &wave(&series(0.6, 24, 0.05)).unwrap()).unwrap();
    close(young.share.value, 0.2, 1e-6);
    close(young.exponential_years.unwrap(), exponential_years(0.2), 1e-6);
    // Flat: a lower bound, never beyond 2 years, and no mean age.
    let flat = young_water(&rain, &wave(&series(0.0, 24, 0.1)).unwrap()).unwrap();
    assert!(flat.exponential_years.is_none() && says::<said::FlatWell>(&flat.findings));
    assert!((0.5..=2.0).contains(&flat.more_than_years.unwrap()));
    // Rain without a wave says nothing; too few samples, too short a time, the same day each year.
    assert!(matches!(young_water(&wave(&series(0.0, 24, 0.1)).unwrap(), &rain), Err(Reason::Unlike { .. })));
    assert!(matches!(wave(&series(3.0, 5, 0.1)), Err(Reason::TooFew { have: 5, need: 6, .. })));
    assert!(matches!(wave(&series(3.0, 7, 0.1)), Err(Reason::OutOfRange { .. })));
    let alike: Vec<Dated> =
        (0..8).map(|i| Dated { year: 2016.0 + f64::from(i), d18o: with(-9.0, 0.1), weight: 1.0 }).collect();
    assert!(matches!(wave(&alike), Err(Reason::Unlike { .. })));
}

#[test]
fn lines_and_values_that_cannot_be() {
    let refused = |r: &[Rain]| local_line(r).unwrap_err();
    assert!(matches!(refused(&rain(false)[..2]), Reason::TooFew { have: 2, need: 3, .. }));
    let mut some = rain(true);
    some[3].amount_mm = None;
    let Reason::Unlike { found, .. } = refused(&some) else { panic!() };
    assert!(found.is::<said::GivenForSome>());
    let same: Vec<Rain> = (0..4).map(|_| Rain { water: water(-9.0, -62.0), amount_mm: None }).collect();
    assert!(matches!(refused(&same), Reason::Unlike { .. }));
    // The two isotopes interchanged.
    let Err(Reason::OutOfRange { expected, .. }) = beside_line(&water(-71.0, -10.0), &Line::global()) else { panic!() };
    assert!(expected.is::<said::DeltaOfWater>());
}

#[test]
fn the_order_of_rain_changes_nothing() {
    let mut turned = rain(true);
    let line = local_line(&turned).unwrap();
    turned.reverse();
    let again = local_line(&turned).unwrap();
    close(again.slope, line.slope, 1e-10);
    close(again.u_slope, line.u_slope, 1e-10);
}

fn balance() -> Balance {
    Balance {
        rain_mm_a: with(700.0, 35.0),
        rain_chloride_mg_l: with(1.0, 0.3),
        well_chloride_mg_l: with(5.0, 0.5),
        runoff: None,
        other_sources_ruled_out: true,
    }
}

#[test]
fn recharge_by_chloride() {
    // 700 mm, 1.0 and 5.0 mg/L: 140 mm/a, u 45 (USGS, Geoscience Australia).
    let r = chloride::recharge(&balance()).unwrap();
    close(r.recharge_mm_a.value, 140.0, 1e-12);
    close(r.recharge_mm_a.u, 140.0 * (0.05f64.powi(2) + 0.3f64.powi(2) + 0.1f64.powi(2)).sqrt(), 1e-12);
    // Log-normal: exp(±1.96·√Σ ln(1 + r²)) about 140, skewed upward.
    let sd = [0.05f64, 0.3, 0.1].iter().map(|r| (1.0 + r * r).ln()).sum::<f64>().sqrt();
    close(r.range_mm_a.0, 140.0 * (-1.959964 * sd).exp(), 1e-6);
    close(r.range_mm_a.1, 140.0 * (1.959964 * sd).exp(), 1e-6);
    assert!(!says::<said::OtherChlorideNotRuledOut>(&r.findings));
    assert!(says::<said::OtherChlorideNotRuledOut>(
        &chloride::recharge(&Balance { other_sources_ruled_out: false, ..balance() }).unwrap().findings
    ));
    // Runoff takes 100 mm at 2 mg/L along: (700 − 200)/5 = 100 mm/a.
    let runoff = Runoff { depth_mm_a: with(100.0, 10.0), chloride_mg_l: with(2.0, 0.2) };
    let r = chloride::recharge(&Balance { runoff: Some(runoff), ..balance() }).unwrap();
    close(r.recharge_mm_a.value, 100.0, 1e-12);
    assert!(r.range_mm_a.0 < 60.0 && r.range_mm_a.1 > 160.0);
    // More than the rain is a finding; a runoff that takes all of it, and no chloride at all, are refused.
    let more = chloride::recharge(&Balance { well_chloride_mg_l: with(0.5, 0.1), ..balance() }).unwrap();
    assert!(says::<said::MoreThanTheRain>(&more.findings));
    let all = Runoff { depth_mm_a: with(700.0, 10.0), chloride_mg_l: with(1.0, 0.2) };
    assert!(chloride::recharge(&Balance { runoff: Some(all), ..balance() }).is_err());
    assert!(chloride::recharge(&Balance { well_chloride_mg_l: with(0.0, 0.1), ..balance() }).is_err());
    // 20 m, porosity 0.25, 140 mm/a: 35.7 years.
    close(chloride::exponential_age(20.0, 0.25, 140.0).unwrap(), 5.0 / 0.14, 1e-12);
    assert!(chloride::exponential_age(20.0, 25.0, 140.0).is_err());
}
