//! Washout, steadiness, what the pipe adds: hand computation and scipy 1.17.1.

#![allow(clippy::float_cmp)] // exact values are meant where they are compared

use aquifer::pipe::{LeachRate, added, lowest_flow};
use aquifer::purge::{Readings, criteria, fit_washout, renewed, renewed_finding, stability_findings, steady};
use aquifer::well::{Construction, Section};
use quantity::Outcome;

fn close(got: f64, want: f64, relative: f64) {
    assert!((got - want).abs() <= relative * want.abs(), "got {got}, expected {want}");
}

fn readings(parameter: &str, values: &[f64], spacing: f64) -> Readings {
    Readings {
        parameter: parameter.into(),
        points: values.iter().enumerate().map(|(i, v)| (spacing * i as f64, *v)).collect(),
    }
}

#[test]
fn washout_agrees_with_scipy() {
    // scipy 1.17.1: optimize.curve_fit(lambda t,a,b,k: a+b*exp(-k*t), t, y, p0=[1,20,.1]), default errors.
    let t = [0.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 45.0, 60.0];
    let y = [25.3, 19.6, 13.1, 7.4, 4.1, 2.9, 1.5, 1.1, 1.2];
    let points: Vec<(f64, f64)> = t.into_iter().zip(y).collect();
    let w = fit_washout(&points, Some(12.0)).unwrap();
    close(w.aquifer, SCIPY_WASHOUT[0], 1e-6);
    close(w.standing, SCIPY_WASHOUT[0] + SCIPY_WASHOUT[1], 1e-6);
    close(w.rate_per_min, SCIPY_WASHOUT[2], 1e-6);
    close(w.u_aquifer, SCIPY_WASHOUT[3], 1e-4);
    close(w.u_rate_per_min, SCIPY_WASHOUT[4], 1e-4);
    close(w.mixed_volume_l.unwrap(), 12.0 / w.rate_per_min, 1e-12);
    assert!(!w.still_falling);
    assert!(fit_washout(&points[..4], None).unwrap_err().to_string().contains("4 given, at least 5"));
    // A straight fall has no rate.
    let straight: Vec<(f64, f64)> = (0..8).map(|i| (f64::from(i), 20.0 - f64::from(i))).collect();
    assert!(fit_washout(&straight, None).unwrap_err().to_string().contains("no bend"));
    assert!(fit_washout(&points[..6], None).unwrap().still_falling);
}

/// End value, first excess, rate; u of end value and rate.
const SCIPY_WASHOUT: [f64; 5] =
    [1.1554570842075662, 24.152911391578623, 0.13754262526218342, 0.08763730395971324, 0.002154798378175427];

#[test]
fn volumes_renewed() {
    let (n, left) = renewed(100.0, 10.0, 30.0).unwrap();
    assert_eq!(n, 3.0);
    // e^−3 = 0.0498: three volumes leave 5 % where the water mixes.
    close(left, 0.049787068, 1e-8);
    assert_eq!(renewed_finding(100.0, 10.0, 30.0, 3.0).unwrap().outcome, Outcome::Met);
    assert_eq!(renewed_finding(100.0, 10.0, 20.0, 3.0).unwrap().outcome, Outcome::NotMet);
    assert!(renewed(0.0, 1.0, 1.0).is_err() && renewed(1.0, 1.0, -1.0).is_err());
}

#[test]
fn steady_from_when_by_which_rule() {
    // Five readings, 3 min apart: pH within ± 0.1 of the window's mean from the third reading on.
    let r = readings("pH", &[7.2, 7.45, 7.60, 7.64, 7.66, 7.65, 7.66, 7.65], 3.0);
    let s = steady(&r, "usgs").unwrap();
    assert_eq!(s.since_min, Some(6.0));
    assert!(s.rule_in_words.contains("5 readings in a row") && s.rule_in_words.contains("recalled"));
    // The low-flow rule asks three readings: means 7.563 of the second to fourth is off by 0.113, from the third on.
    assert_eq!(steady(&r, "low-flow").unwrap().since_min, Some(6.0));
    // A late jump ends it.
    let r = readings("pH", &[7.6, 7.6, 7.6, 7.6, 7.6, 7.9], 3.0);
    assert_eq!(steady(&r, "usgs").unwrap().since_min, None);
    assert_eq!(stability_findings(&[r], "usgs")[0].outcome, Outcome::NotMet);
    // Conductivity: 5 % up to 100 µS/cm, 3 % above.
    let low = readings("conductivity", &[100.0, 96.5, 96.0, 96.0, 96.0], 5.0);
    assert_eq!(steady(&low, "usgs").unwrap().since_min, Some(0.0));
    let high = readings("conductivity", &[520.0, 500.0, 499.0, 498.0, 498.0], 5.0);
    assert_eq!(steady(&high, "usgs").unwrap().since_min, None);
    // Oxygen by the quoted rule: the larger of 0.2 mg/L and 10 %.
    let o2 = readings("dissolved oxygen", &[0.5, 0.35, 0.25], 3.0);
    assert_eq!(steady(&o2, "astm").unwrap().since_min, Some(0.0));
}

#[test]
fn readings_too_close_together_are_thinned() {
    let r = readings("temperature", &[9.0; 12], 1.0);
    let e = steady(&r, "usgs").unwrap_err().to_string();
    assert!(e.contains("4 given, at least 5"), "{e}");
    assert_eq!(stability_findings(&[r], "usgs")[0].outcome, Outcome::NotKnown);
    let backwards = Readings { parameter: "pH".into(), points: vec![(5.0, 7.0), (3.0, 7.0)] };
    assert!(steady(&backwards, "usgs").unwrap_err().to_string().contains("later than"));
    assert!(
        steady(&readings("colour", &[1.0; 9], 5.0), "usgs").unwrap_err().to_string().contains("one of temperature")
    );
    assert!(criteria().len() >= 13);
}

#[test]
fn what_the_pipe_adds() {
    let well = Construction {
        sections: vec![
            Section { from_m: 0.0, to_m: 60.0, radius_m: 0.05, material: "galvanised steel".into() },
            Section { from_m: 60.0, to_m: 80.0, radius_m: 0.05, material: "PVC".into() },
        ],
        ..Construction::default()
    };
    let rates = [LeachRate { material: "galvanised steel".into(), ng_m2_min: 100.0, u_ng_m2_min: 20.0 }];
    // Wall 2π·0.05·60 = 18.850 m², 1885 ng/min; at 10 L/min 188.5 ng/L. The same as J·(2/r)·t with t = V/Q:
    // 100·40·(π·0.05²·60/0.01)/1000 = 188.5.
    let a = added(&well, &rates, &[10.0]).unwrap()[0];
    close(a.ng_l, 188.4956, 1e-6);
    close(a.u_ng_l, 37.69911, 1e-6);
    close(a.water_m3_year, 5259.6, 1e-12);
    let q = lowest_flow(&well, &rates, 100.0).unwrap();
    close(q.flow_l_min, (1884.956 + 1.6448536 * 376.9911) / 100.0, 1e-6);
    close(q.ng_l + 1.6448536 * q.u_ng_l, 100.0, 1e-6);
    let wrong = [LeachRate { material: "copper".into(), ng_m2_min: 1.0, u_ng_m2_min: 0.0 }];
    assert!(added(&well, &wrong, &[1.0]).unwrap_err().to_string().contains("galvanised steel, PVC"));
    assert!(added(&well, &rates, &[0.0]).is_err() && lowest_flow(&well, &[], 1.0).is_err());
}
