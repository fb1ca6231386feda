//! The batch solver against the solver, lane by lane.

use aqueous::batch::{Batch, Water};
use aqueous::lanes;
use aqueous::network::{self, network};
use aqueous::solver::{Balance, Choices, Equations, System, TOLERANCE};
use aqueous::water::debye_hueckel;
use core::f64::consts::LN_10;

#[test]
fn exp_and_ln_are_those_of_libm() {
    for k in -6000..6000 {
        let x = f64::from(k) * 0.113 + 0.017;
        let got = lanes::exp(&[x; 8])[3];
        let want = libm::exp(x);
        // Four units in the last place: a polynomial in plain arithmetic.
        assert!((got / want - 1.0).abs() < 1e-15, "exp {x}: {got:e} {want:e}");
        let back = lanes::ln(&[want; 8])[5];
        assert!((back - libm::log(want)).abs() <= 2e-15 * (1.0 + x.abs()), "ln {want:e}");
    }
}

/// A made-up survey: index to water, over three decades of everything.
fn fill(system: &System, alkalinity: bool, k: usize, w: &mut Water) {
    let net = network();
    let h = |j: usize| f64::from(((k * 7919 + j * 104_729) % 1000) as u32) / 1000.0;
    let t_c = 1.0 + 38.0 * h(1);
    w.ln_h = -(5.5 + 3.5 * h(2)) * LN_10;
    w.dh = debye_hueckel(t_c);
    w.ln_k = system.ln_k(&network::row_values(t_c));
    for (at, c) in system.components.iter().enumerate() {
        let top = match net.components[*c].name.as_str() {
            "Ca^2+" | "Na+" | "Cl-" | "CO3^2-" => -1.7,
            "Mg^2+" | "K+" | "SO4^2-" | "H4SiO4" => -2.3,
            "F-" | "B(OH)3" | "HS-" | "NO3-" => -4.0,
            _ => -6.0,
        };
        w.totals[at] = libm::exp10(top - 3.0 * h(at + 3));
    }
    w.alkalinity = alkalinity.then(|| libm::exp10(-2.0 - h(99)));
}

fn check(alkalinity: bool) {
    let net = network();
    let names = [
        "Ca^2+", "Mg^2+", "Na+", "K+", "Cl-", "SO4^2-", "CO3^2-", "H4SiO4", "F-", "B(OH)3", "HS-", "NO3-", "Fe^2+",
        "Mn^2+", "Al^3+", "Pb^2+", "Cd^2+", "Zn^2+", "Ni^2+", "UO2^2+",
    ];
    let present: Vec<usize> = names.iter().map(|n| net.component(n).unwrap()).collect();
    let system = System::new(net, &present, &Choices::default());
    let carbon = system.position(net.component("CO3^2-").unwrap()).unwrap();
    let batch = Batch::new(&system, alkalinity.then_some(carbon));
    // 203 is no multiple of eight: the last block is part empty.
    let answers = batch.solve(203, |k, w| fill(&system, alkalinity, k, w));
    assert_eq!(answers.len(), 203);
    let mut w =
        Water { ln_h: 0.0, totals: vec![0.0; system.width()], alkalinity: None, ln_k: vec![], dh: debye_hueckel(25.0) };
    let mut handed_over = 0;
    for (k, a) in answers.iter().enumerate() {
        fill(&system, alkalinity, k, &mut w);
        let a = a.as_ref().unwrap();
        assert!(a.residual <= TOLERANCE, "water {k}: {:e}", a.residual);
        handed_over += usize::from(a.iterations > 40);
        let mut balance: Vec<Balance> = w.totals.iter().map(|t| Balance::Total(*t)).collect();
        balance[0] = Balance::FixedLnActivity(w.ln_h);
        if let Some(alk) = w.alkalinity {
            balance[carbon] = Balance::Alkalinity(alk);
        }
        let s = Equations { system: &system, ln_k: &w.ln_k, dh: w.dh, balance, held: vec![] }.solve().unwrap();
        for (x, y) in a.x.iter().zip(&s.x) {
            // Residuals of 1e-12 and a matrix whose condition reaches 1e3.
            assert!((x - y).abs() < 1e-9, "water {k}: {x} {y}");
        }
        assert!((a.ionic_strength / s.ionic_strength - 1.0).abs() < 1e-10);
    }
    assert!(handed_over <= 2, "{handed_over} of 203 were handed over");
}

#[test]
fn batch_and_solver_find_the_same_waters() {
    check(false);
}

#[test]
fn with_alkalinity_too() {
    check(true);
}

#[test]
fn the_same_bytes_on_one_thread_and_on_many() {
    let net = network();
    let present: Vec<usize> =
        ["Ca^2+", "Na+", "Cl-", "CO3^2-", "Pb^2+"].iter().map(|n| net.component(n).unwrap()).collect();
    let system = System::new(net, &present, &Choices::default());
    let batch = Batch::new(&system, None);
    let run = |threads: usize| {
        rayon::ThreadPoolBuilder::new()
            .num_threads(threads)
            .build()
            .unwrap()
            .install(|| batch.solve(100, |k, w| fill(&system, false, k, w)))
    };
    assert_eq!(run(1), run(3));
}
