//! The safeguard of the solver: slow, but it closes in on a solution from anywhere.
//!
//! With γ frozen and pH fixed, the mole balances Σ ν·m = T are the gradient of the convex
//! function φ(x) = Σ m(x) − Σ T·x (the dual of the free energy; Smith & Missen 1982, Chemical
//! Reaction Equilibrium Analysis, ch. 3, from memory). Newton on φ with a halved step converges
//! for any start. Around it: carbonate from alkalinity by bisection, pH from charge by bisection
//! (charge falls as pH rises), ionic strength by repetition. The result is a start for
//! `solver`, not an answer. Checked in `tests/solver.rs`.

use crate::network::PROTON;
use crate::solver::{Balance, Equations, solve_in_place};
use core::f64::consts::LN_10;
use libm::{exp, log};

/// A frozen problem: totals and fixed activities only.
struct Frozen<'e, 'a> {
    eq: &'e Equations<'a>,
    ln_gamma: Vec<f64>,
    totals: Vec<Option<f64>>,
}

impl Frozen<'_, '_> {
    fn molalities(&self, x: &[f64], m: &mut [f64]) {
        let (_, class_of) = self.eq.system.class_table();
        for (i, m) in m.iter_mut().enumerate() {
            let mut v = self.eq.ln_k[i] - self.ln_gamma[class_of[i] as usize];
            for (c, n) in self.eq.system.terms(i) {
                v += n * x[c];
            }
            *m = exp(v.clamp(-600.0, 200.0));
        }
    }

    fn phi(&self, x: &[f64], m: &[f64]) -> f64 {
        let mut p: f64 = m.iter().sum();
        for (x, t) in x.iter().zip(&self.totals) {
            p -= t.map_or(0.0, |t| t * x);
        }
        p
    }

    /// Minimises φ from x; returns iterations.
    fn minimise(&self, x: &mut [f64], m: &mut [f64]) -> usize {
        let free: Vec<usize> = (0..x.len()).filter(|j| self.totals[*j].is_some()).collect();
        let n = free.len();
        let mut h = vec![0.0; n * n];
        let mut g = vec![0.0; n];
        self.molalities(x, m);
        for it in 0..400 {
            self.gradient(&free, m, &mut g, &mut h);
            let worst = free.iter().zip(&g).map(|(j, g)| g.abs() / self.totals[*j].unwrap_or(1.0)).fold(0.0, f64::max);
            if worst < 1e-10 {
                return it;
            }
            let slope: Vec<f64> = g.clone();
            for v in &mut g {
                *v = -*v;
            }
            if !solve_in_place(&mut h, &mut g, n) {
                return it;
            }
            let down: f64 = slope.iter().zip(&g).map(|(a, b)| a * b).sum();
            let largest = g.iter().fold(0.0_f64, |a, v| a.max(v.abs()));
            let mut t = 1.0_f64.min(20.0 / largest);
            let start = x.to_vec();
            let phi = self.phi(x, m);
            for _ in 0..40 {
                for (k, j) in free.iter().enumerate() {
                    x[*j] = start[*j] + t * g[k];
                }
                self.molalities(x, m);
                let now = self.phi(x, m);
                // Near the minimum φ falls by less than its rounding: such a step counts as descent too.
                if now <= phi + 1e-4 * t * down || (now - phi).abs() <= 1e-15 * phi.abs() {
                    break;
                }
                t *= 0.5;
            }
        }
        400
    }

    fn gradient(&self, free: &[usize], m: &[f64], g: &mut [f64], h: &mut [f64]) {
        let n = free.len();
        h.fill(0.0);
        for (k, j) in free.iter().enumerate() {
            g[k] = -self.totals[*j].unwrap_or(0.0);
        }
        for (i, m) in m.iter().enumerate() {
            for (c, a) in self.eq.system.terms(i) {
                let Ok(r) = free.binary_search(&c) else { continue };
                g[r] += a * m;
                for (d, b) in self.eq.system.terms(i) {
                    if let Ok(s) = free.binary_search(&d) {
                        h[r * n + s] += a * b * m;
                    }
                }
            }
        }
    }
}

/// Finds activities near the solution; gives (x, ionic strength, iterations).
pub(crate) fn approach(eq: &Equations, x: &mut [f64], ionic: &mut f64) -> usize {
    let mut iterations = 0;
    let mut m = vec![0.0; eq.system.species.len()];
    for round in 0..30 {
        let before = *ionic;
        let (classes, _) = eq.system.class_table();
        let ln_gamma = classes.iter().map(|c| c.log_gamma(eq.dh, ionic.clamp(1e-9, 1.0)).0 * LN_10).collect();
        let totals = eq
            .balance
            .iter()
            .map(|b| match b {
                Balance::Total(t) => Some(t.max(1e-30)),
                _ => None,
            })
            .collect();
        let mut frozen = Frozen { eq, ln_gamma, totals };
        iterations += by_charge(&mut frozen, x, &mut m);
        let now = 0.5 * eq.system.charges().iter().zip(&m).map(|(z, m)| z * z * m).sum::<f64>();
        // Half a step in the logarithm: γ and I chase each other.
        *ionic = exp(0.5 * (log(before) + log(now.clamp(1e-9, 1.0))));
        if round > 2 && (now / before - 1.0).abs() < 1e-6 {
            break;
        }
    }
    iterations
}

fn by_charge(frozen: &mut Frozen, x: &mut [f64], m: &mut [f64]) -> usize {
    let Balance::Charge(target) = frozen.eq.balance[PROTON] else {
        return by_alkalinity(frozen, x, m);
    };
    let (mut low, mut high) = (0.0_f64, 14.5_f64);
    let mut iterations = 0;
    for _ in 0..50 {
        let ph = 0.5 * (low + high);
        x[PROTON] = -ph * LN_10;
        iterations += by_alkalinity(frozen, x, m);
        let z = frozen.eq.system.charges();
        let charge: f64 = z.iter().zip(m.iter()).map(|(z, m)| z * m).sum();
        if charge > target {
            low = ph;
        } else {
            high = ph;
        }
        if high - low < 1e-7 {
            break;
        }
    }
    iterations
}

fn by_alkalinity(frozen: &mut Frozen, x: &mut [f64], m: &mut [f64]) -> usize {
    let at = frozen.eq.balance.iter().position(|b| matches!(b, Balance::Alkalinity(_)));
    let Some(at) = at else {
        return frozen.minimise(x, m);
    };
    let Balance::Alkalinity(target) = frozen.eq.balance[at] else {
        return 0;
    };
    let (mut low, mut high) = (log(1e-14), log(2.0));
    let mut iterations = 0;
    for _ in 0..50 {
        let ln_t = 0.5 * (low + high);
        frozen.totals[at] = Some(exp(ln_t));
        iterations += frozen.minimise(x, m);
        let a = frozen.eq.system.alkalinities();
        let alkalinity: f64 = a.iter().zip(m.iter()).map(|(a, m)| a * m).sum();
        if alkalinity < target {
            low = ln_t;
        } else {
            high = ln_t;
        }
        if high - low < 1e-7 {
            break;
        }
    }
    iterations
}
