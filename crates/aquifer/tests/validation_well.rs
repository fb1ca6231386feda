//! Flow, contact time, head: against hand computation, density and viscosity tables, scipy 1.17.1.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use aquifer::stats::line;
use aquifer::water::{density_kg_m3, viscosity_pa_s};
use aquifer::well::{self, Construction, Criteria, Fill, Fills, Gauge, Layer, Screen, Section};
use quantity::{Amount, Outcome, Unit};
use statistics::t;

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn fills(volume_l: f64, seconds: &[f64]) -> Fills {
    Fills { fills: seconds.iter().map(|s| Fill { volume_l, seconds: *s }).collect(), u_mark_l: None, u_seconds: None }
}

fn steel() -> Construction {
    Construction {
        sections: vec![Section { from_m: 0.0, to_m: 60.0, radius_m: 0.076, material: "steel".into() }],
        ..Construction::default()
    }
}

#[test]
fn density_and_viscosity_meet_the_tables() {
    // Handbook values (recalled): reference/water_properties.csv. Density to the table's last digit.
    for (t, rho, mu) in [
        (0.0, 999.84, 1.792e-3),
        (5.0, 999.97, 1.519e-3),
        (10.0, 999.70, 1.307e-3),
        (15.0, 999.10, 1.138e-3),
        (20.0, 998.21, 1.002e-3),
        (25.0, 997.05, 0.890e-3),
    ] {
        assert!((density_kg_m3(t).unwrap() - rho).abs() < 0.006, "{t} °C");
        close(viscosity_pa_s(t).unwrap(), mu, 1e-12);
    }
    // Between the rows: Poiseuille-type handbook values 1.386 mPa·s at 8 °C and 1.235 at 12 °C (recalled), to 0.3 %.
    close(viscosity_pa_s(8.0).unwrap(), 1.386e-3, 3e-3);
    close(viscosity_pa_s(12.0).unwrap(), 1.235e-3, 3e-3);
    assert!(density_kg_m3(50.0).is_err() && viscosity_pa_s(-1.0).is_err());
}

#[test]
fn line_agrees_with_scipy() {
    // scipy 1.17.1: x=[0,1,2,3,4]; y=[1.0,2.1,2.9,4.2,5.1]; stats.linregress(x, y).
    let l = line(&[0.0, 1.0, 2.0, 3.0, 4.0], &[1.0, 2.1, 2.9, 4.2, 5.1]).unwrap();
    close(l.slope, 1.03, 1e-12);
    close(l.intercept, 1.0, 1e-12);
    close(l.u_slope, 0.037859388972001744, 1e-10);
    close(l.u_intercept, 0.09273618495495684, 1e-10);
    close(t::two_sided_p(l.slope / l.u_slope, l.dof), 0.00010898621734116269, 1e-6);
}

#[test]
fn flow_of_repeated_fills() {
    // By hand: 0.75 L in 7.9, 8.1, 8.0 s: 5.69620, 5.55556, 5.62500 L/min (numpy); mean 5.625586, sd 0.07032, u 0.040602.
    let mut input = fills(0.75, &[7.9, 8.1, 8.0]);
    let f = well::flow(&input).unwrap();
    close(f.amount.value().unwrap(), 5.625586, 1e-6);
    close(f.amount.u().unwrap(), 0.040602, 1e-4);
    let Amount::Measured(m) = &f.amount else { panic!() };
    assert_eq!(m.dof, 2.0);
    // The mark, 1 % of the volume, does not average away: u² = 0.040602² + 0.0562560².
    input.u_mark_l = Some(0.0075);
    let f = well::flow(&input).unwrap();
    let want = (0.040602f64.powi(2) + 0.056_256f64.powi(2)).sqrt();
    close(f.amount.u().unwrap(), want, 1e-4);
    let Amount::Measured(m) = &f.amount else { panic!() };
    close(m.dof, want.powi(4) / (0.040602f64.powi(4) / 2.0), 1e-3);
    let shares: f64 = f.derivation.budget.iter().map(|c| c.share).sum();
    close(shares, 1.0, 1e-12);
    assert_eq!(f.derivation.nodes.len(), 10);
    assert_eq!(f.findings(&Criteria::default())[0].outcome, Outcome::Met);
}

#[test]
fn two_containers_have_two_errors() {
    // One L and ten L at the same flow: each container's relative mark error counts for half the mean.
    let input = Fills {
        fills: vec![Fill { volume_l: 1.0, seconds: 6.0 }, Fill { volume_l: 10.0, seconds: 60.0 }],
        u_mark_l: Some(0.02),
        u_seconds: None,
    };
    let f = well::flow(&input).unwrap();
    close(f.amount.u().unwrap(), (0.1f64.powi(2) + 0.01f64.powi(2)).sqrt(), 1e-12);
}

#[test]
fn equal_fills_have_no_uncertainty_of_a_rounded_sum() {
    // Three fills of 10 L in 19.5 s: their mean rounds in f64, which gave the flow a u of 1e-15 L/min in place of none.
    let f = well::flow(&fills(10.0, &[19.5; 3])).unwrap();
    assert!(matches!(&f.amount, Amount::Stated(q) if q.value == 10.0 / 19.5 * 60.0), "{:?}", f.amount);
    assert_eq!(f.sd_l_min, Some(0.0));
}

#[test]
fn one_fill_has_no_made_up_uncertainty() {
    let f = well::flow(&fills(0.75, &[7.9])).unwrap();
    assert!(matches!(f.amount, Amount::Stated(_)));
    assert_eq!(f.findings(&Criteria::default())[0].outcome, Outcome::NotKnown);
    let mut with_watch = fills(0.75, &[7.9]);
    with_watch.u_seconds = Some(0.2);
    close(well::flow(&with_watch).unwrap().amount.u().unwrap(), 0.75 / 7.9 * 60.0 * 0.2 / 7.9, 1e-12);
}

#[test]
fn a_falling_flow_is_said() {
    let f = well::flow(&fills(1.0, &[6.0, 6.3, 6.6, 6.9, 7.3])).unwrap();
    let steady = &f.findings(&Criteria::default())[1];
    assert_eq!(steady.outcome, Outcome::NotMet);
    assert!(steady.sentence.contains("fell by"), "{}", steady.sentence);
    let f = well::flow(&fills(1.0, &[6.0, 6.1, 5.9, 6.05, 6.0])).unwrap();
    assert_eq!(f.findings(&Criteria::default())[1].outcome, Outcome::Met);
}

#[test]
fn contact_time_by_section_and_material() {
    // π·0.076²·60 = 1.08875035 m³; at 5.6 L/min 194.4 min.
    let flow = Amount::measured(5.6, 0.056, Unit::known("L/min"));
    let c = well::contact(&steel(), &flow).unwrap();
    close(c.volume_m3, 1.08875035, 1e-8);
    close(c.total.value().unwrap(), 194.42, 1e-4);
    close(c.total.u().unwrap(), 1.9442, 1e-3);
    close(c.sections[0].wall_per_volume_m, 26.3158, 1e-5);
    let mut two = steel();
    two.sections.push(Section { from_m: 60.0, to_m: 70.0, radius_m: 0.05, material: "PVC".into() });
    two.sections.push(Section { from_m: -0.5, to_m: 0.0, radius_m: 0.076, material: "steel".into() });
    let c = well::contact(&two, &flow).unwrap();
    assert_eq!(c.by_material.len(), 2);
    close(c.by_material[0].1.value().unwrap(), 194.42 * 60.5 / 60.0, 1e-4);
    assert_eq!(c.finding(&Criteria::default()).outcome, Outcome::NotMet);
    // A US gallon a minute comes through.
    let c = well::contact(&steel(), &Amount::stated(1.0, Unit::known("gal/min"))).unwrap();
    close(c.total.value().unwrap(), 1088.75035 / 3.785411784, 1e-6);
}

#[test]
fn head_of_a_shut_well() {
    // 1 bar at 10 °C: 1e5/(999.70·9.80665) = 10.2003 m of water.
    let g = Gauge {
        pressure_pa: 1e5,
        u_pressure_pa: Some(2000.0),
        height_m: 0.8,
        u_height_m: Some(0.02),
        temperature_c: 10.0,
    };
    let h = well::head(&g, Some(12.0)).unwrap();
    close(h.above_ground.value().unwrap(), 11.0003, 1e-5);
    close(h.above_ground.u().unwrap(), (0.204006f64.powi(2) + 0.02f64.powi(2)).sqrt(), 1e-4);
    close(h.elevation.unwrap().value().unwrap(), 23.0003, 1e-5);
    assert!(well::head(&Gauge { pressure_pa: -1.0, ..g }, None).unwrap_err().to_string().contains("depth to water"));
    let unknown = Gauge { u_pressure_pa: None, u_height_m: None, ..g };
    assert!(matches!(well::head(&unknown, None).unwrap().above_ground, Amount::Stated(_)));
    // u of the height alone says nothing of the pressure, which carries the head: no u is made of it.
    let height_alone = well::head(&Gauge { u_pressure_pa: None, ..g }, Some(12.0)).unwrap();
    assert!(matches!(height_alone.above_ground, Amount::Stated(_)), "{:?}", height_alone.above_ground);
    assert!(height_alone.derivation.budget.is_empty());
}

#[test]
fn faults_of_the_construction_are_named() {
    let check = |c: Construction, part: &str| {
        let message = c.check().unwrap_err().to_string();
        assert!(message.contains(part), "{message}");
    };
    let mut c = steel();
    c.depth_m = Some(62.0);
    c.screens = vec![Screen { from_m: 60.0, to_m: 65.0 }];
    check(c, "65 m, below the bottom of the well");
    let layer = |from_m, to_m, name: &str| Layer { from_m, to_m, name: name.into() };
    let mut c = steel();
    c.layers = vec![layer(0.0, 20.0, "clay"), layer(19.0, 60.0, "sandstone")];
    check(c, "\"clay\" 0 to 20 m overlaps \"sandstone\"");
    let mut c = steel();
    c.layers = vec![layer(5.0, 2.0, "clay")];
    check(c, "layer \"clay\"");
    let mut c = steel();
    c.sections[0].radius_m = 0.0;
    check(c, "radius of section 1");
    let mut c = steel();
    c.layers = vec![layer(0.0, 20.0, "clay"), layer(25.0, 60.0, "sandstone")];
    assert!(c.check().is_ok());
    assert!(c.findings()[0].sentence.contains("from 20 to 25 m"));
    assert!(well::flow(&fills(0.75, &[])).is_err());
    assert!(well::flow(&fills(0.75, &[0.0])).unwrap_err().to_string().contains("time of fill 1"));
    assert!(well::contact(&steel(), &Amount::stated(0.0, Unit::known("L/min"))).is_err());
    assert!(well::contact(&Construction::default(), &Amount::stated(1.0, Unit::known("L/min"))).is_err());
}
