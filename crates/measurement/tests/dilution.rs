//! Isotope dilution: made-up blends whose answer is known exactly, and the Monte Carlo twin.

use measurement::dilution::{Blend, Known};
use measurement::error::Error;
use measurement::uncertainty::Draws;
use quantity::Unit;

fn near(got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{got} against {want}");
}

/// Cadmium: 111 as the spike, 114 as the reference; abundances of IUPAC to four digits; the spike
/// is invented. The ratio follows from the atoms that are put together.
fn blend(content: f64, spike_mass: f64, bias: f64) -> Blend {
    let (sample_r, sample_s) = (0.2873, 0.1280);
    let (spike_r, spike_s) = (0.0080, 0.9650);
    let (sample_mass, spike_content) = (10.0, 0.5);
    let (mx, my) = (112.414, 110.95);
    let nx = content * sample_mass / mx;
    let ny = spike_content * spike_mass / my;
    let ratio = (nx * sample_r + ny * spike_r) / (nx * sample_s + ny * spike_s);
    Blend {
        sample_mass: Known::new(sample_mass, 0.002),
        spike_mass: Known::new(spike_mass, 0.0002),
        spike_content: Known::new(spike_content, 0.001),
        sample_r: Known::new(sample_r, 0.0002),
        sample_s: Known::new(sample_s, 0.0002),
        spike_r: Known::new(spike_r, 0.0001),
        spike_s: Known::new(spike_s, 0.0003),
        molar_mass: Known::new(mx, 0.002),
        spike_molar_mass: Known::new(my, 0.002),
        ratio: Known { value: ratio / bias, u: ratio / bias * 0.003, dof: 4.0 },
        bias: Known::new(bias, bias * 0.001),
        blank: Known::new(0.0, 0.0),
        unit: Unit::known("ng/g"),
    }
}

#[test]
fn the_content_that_was_mixed_is_found() {
    for (content, spike, bias) in [(0.05, 1.0, 1.0), (0.05, 0.4, 0.97), (3.0, 20.0, 1.03)] {
        let r = blend(content, spike, bias).evaluate().expect("a result");
        near(r.content.value / content, 1.0, 1e-12);
        assert!(r.content.u > 0.0 && r.content.dof > 4.0);
        let total: f64 = r.propagated.budget.iter().map(|c| c.share).sum();
        near(total, 1.0, 1e-12);
    }
}

#[test]
fn the_blank_is_subtracted_once_with_its_u() {
    let mut b = blend(0.05, 1.0, 1.0);
    b.blank = Known::new(0.1, 0.02);
    let r = b.evaluate().expect("a result");
    near(r.content.value, 0.05 - 0.01, 1e-12);
    let share = r.propagated.budget.iter().find(|c| c.input == "blank").expect("listed");
    near(share.u, 0.002, 1e-12);
}

#[test]
fn first_order_and_draws_agree() {
    let b = blend(0.05, 1.0, 0.98);
    let p = b.problem().expect("a problem");
    let first = p.propagate().expect("a result");
    let m = p.monte_carlo(&Draws { count: 200_000, ..Draws::default() }).expect("draws");
    near(m.value / first.value, 1.0, 1e-4);
    // The ratio has four degrees of freedom: its draws scatter √2 times its u.
    let ratio = first.budget.iter().find(|c| c.input == "ratio").expect("listed").u;
    let expected = (first.u.powi(2) + ratio.powi(2)).sqrt();
    near(m.u / expected, 1.0, 0.03);
}

/// The magnification is smallest at the geometric mean of the two ratios.
#[test]
fn poor_blends_are_told() {
    let best = blend(0.05, 2.155, 1.0).evaluate().expect("a result");
    let poor = blend(0.05, 0.02, 1.0).evaluate().expect("a result");
    // (√Q + 1)/(√Q − 1) with Q the quotient of both ratios.
    near(best.magnification, 1.130, 2e-3);
    assert!(best.magnification < 2.0, "{}", best.magnification);
    assert!(poor.magnification > 5.0, "{}", poor.magnification);
    assert!(poor.warnings[0].contains("far from the best"));
    near(poor.best_ratio, (0.2873_f64 / 0.1280 * 0.0080 / 0.9650).sqrt(), 1e-12);
}

#[test]
fn blends_that_cannot_be_are_refused() {
    let mut b = blend(0.05, 1.0, 1.0);
    b.ratio.value = 2.5; // over the ratio of the sample itself: no spike in it
    let e = b.evaluate().expect_err("refused");
    assert!(e.to_string().contains("whether any spike went in"), "{e}");
    b.ratio.value = 0.005; // under the ratio of the spike
    assert!(matches!(b.evaluate(), Err(Error::OutOfRange { .. })));
    let mut b = blend(0.05, 1.0, 1.0);
    b.sample_mass.value = 0.0;
    assert!(matches!(b.evaluate(), Err(Error::OutOfRange { .. })));
    let mut b = blend(0.05, 1.0, 1.0);
    b.spike_s.value = 1.2;
    assert!(matches!(b.evaluate(), Err(Error::OutOfRange { .. })));
    let mut b = blend(0.05, 1.0, 1.0);
    b.blank.u = f64::NAN;
    assert!(matches!(b.evaluate(), Err(Error::NotFinite { .. })));
}
