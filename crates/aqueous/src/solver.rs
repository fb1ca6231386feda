//! The equilibrium solver: Newton on the logarithms of the component activities.
//!
//! In: a [`System`] (components present, species made of them), ln K of each species, what is
//! known of each component ([`Balance`]), phases held at a saturation. Out: ln activities,
//! molalities, ionic strength, moles taken from each phase, the largest relative residual.
//!
//! Method. Unknowns are x = ln a of each component that is not fixed, ln I, and the moles n of
//! each held phase. A balance Σ c·m = T is written ln P − ln N = 0 with P the positive part and
//! N the negative part plus T, which is close to piecewise linear in x and so lets Newton
//! converge from far away (log-sum-exp). Steps are limited and halved until the sum of squares
//! falls; if that fails the ionic strength is frozen and the mole balances are solved as the
//! minimum of a convex function (free energy dual; see docs/theory/chemistry.md), pH by
//! bisection on the charge, and Newton finishes from there. Residual reported:
//! |Σ − T| / Σ|c·m| per equation, to 1e−12. Valid for I up to 0.5 mol/kg.
//! It does not invent: no number comes out of a run that did not converge.
//! Checked in `tests/solver.rs` (derivatives, 20,000 random waters, properties).

use crate::activity::LARGEST_IONIC_STRENGTH;
use crate::error::Error;
use crate::network::PROTON;
pub use crate::system::{Choices, System, is_bisulfide_complex};
use crate::water::DebyeHueckel;
use core::f64::consts::LN_10;
use libm::{exp, log};
use message::{Name, Said, Shown, analysis as said};

/// Largest relative residual of an accepted solution.
pub const TOLERANCE: f64 = 1e-12;

/// Newton goes on below the tolerance as long as it gains; this is where it stops for good.
const GOAL: f64 = 2e-14;

/// What is known of a component.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Balance {
    /// Total of the component over all species, mol/kg.
    Total(f64),
    /// Alkalinity of the whole water, eq/kg; the component's own total follows.
    Alkalinity(f64),
    /// ln activity is given (pH, pe).
    FixedLnActivity(f64),
    /// Charge: Σ z·m equals this, eq/kg (0 for an electrically neutral water).
    Charge(f64),
}

/// A phase whose saturation is held: SI for a solid, log10 p for a gas.
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// Position in the system's component list and count per formula.
    pub terms: Vec<(usize, f64)>,
    /// Wanted ln of the ion activity product: ln K + ln 10 · SI.
    pub ln_iap: f64,
    /// Name for messages.
    pub name: String,
}

/// What the solver works on.
#[derive(Debug, Clone)]
pub struct Equations<'a> {
    /// The system.
    pub system: &'a System,
    /// ln K of formation from components, one a species.
    pub ln_k: &'a [f64],
    /// Debye–Hückel parameters of the temperature.
    pub dh: DebyeHueckel,
    /// One a component, in the order of the system.
    pub balance: Vec<Balance>,
    /// Phases held at a saturation.
    pub held: Vec<Held>,
}

/// A solution.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Solution {
    /// ln activity of each component.
    pub x: Vec<f64>,
    /// Molality of each species, mol/kg.
    pub molality: Vec<f64>,
    /// log10 γ of each species.
    pub log_gamma: Vec<f64>,
    /// Ionic strength, mol/kg.
    pub ionic_strength: f64,
    /// Moles that each held phase gave to a kilogram of water (negative: took).
    pub transfer: Vec<f64>,
    /// Newton iterations, all attempts together.
    pub iterations: usize,
    /// Largest relative residual over the equations.
    pub residual: f64,
}

/// Unknowns of one run.
#[derive(Debug, Clone)]
struct State {
    x: Vec<f64>,
    ln_i: f64,
    n: Vec<f64>,
}

/// Buffers of one run; nothing is allocated inside the iteration.
pub(crate) struct Work {
    m: Vec<f64>,
    ln_gamma: Vec<f64>,
    slope: Vec<f64>,
    pub(crate) positive: Vec<f64>,
    pub(crate) negative: Vec<f64>,
    f: Vec<f64>,
    pub(crate) jacobian: Vec<f64>,
    step: Vec<f64>,
    pub(crate) free: Vec<usize>,
    pub(crate) column_of: Vec<usize>,
}

const NONE: usize = usize::MAX;
/// Smallest total that counts as present, mol/kg; below it a component is absent.
pub const SMALLEST_TOTAL: f64 = 1e-24;
const MOST_ITERATIONS: usize = 80;
/// Largest step of an ln activity in one iteration.
const LARGEST_STEP: f64 = 12.0;

impl Equations<'_> {
    fn work(&self) -> Work {
        let w = self.system.width();
        let s = self.system.species.len();
        let mut free = Vec::new();
        let mut column_of = vec![NONE; w];
        for (j, b) in self.balance.iter().enumerate() {
            if !matches!(b, Balance::FixedLnActivity(_)) {
                column_of[j] = free.len();
                free.push(j);
            }
        }
        let size = free.len() + 1 + self.held.len();
        Work {
            m: vec![0.0; s],
            ln_gamma: vec![0.0; self.system.classes.len()],
            slope: vec![0.0; self.system.classes.len()],
            positive: vec![0.0; w],
            negative: vec![0.0; w],
            f: vec![0.0; size],
            jacobian: vec![0.0; size * size],
            step: vec![0.0; size],
            free,
            column_of,
        }
    }

    /// Molalities at a state. γ follows ionic strength through its classes.
    fn molalities(&self, state: &State, w: &mut Work) {
        let s = self.system;
        let i = exp(state.ln_i);
        for (k, class) in s.classes.iter().enumerate() {
            let (g, d) = class.log_gamma(self.dh, i);
            w.ln_gamma[k] = g * LN_10;
            w.slope[k] = d * LN_10 * i;
        }
        for i in 0..s.species.len() {
            let mut ln_m = self.ln_k[i] - w.ln_gamma[s.class_of[i] as usize];
            for t in s.start[i] as usize..s.start[i + 1] as usize {
                ln_m += s.count[t] * state.x[s.column[t] as usize];
            }
            // Guard against overflow on the way; a solution never comes near it.
            w.m[i] = exp(ln_m.clamp(-600.0, 60.0));
        }
    }

    /// Coefficient of species `i` in the equation of component `j`, where it has one.
    fn coefficient(&self, j: usize, i: usize) -> f64 {
        let s = self.system;
        match self.balance[j] {
            Balance::Total(_) => {
                for t in s.start[i] as usize..s.start[i + 1] as usize {
                    if s.column[t] as usize == j {
                        return s.count[t];
                    }
                }
                0.0
            }
            Balance::Alkalinity(_) => s.alkalinity[i],
            Balance::Charge(_) => s.charge[i],
            Balance::FixedLnActivity(_) => 0.0,
        }
    }

    /// Residuals f and the positive and negative parts; returns the largest relative residual.
    fn residuals(&self, state: &State, w: &mut Work) -> (f64, usize) {
        self.molalities(state, w);
        let s = self.system;
        w.positive.fill(0.0);
        w.negative.fill(0.0);
        let whole = |b: &Balance| matches!(b, Balance::Alkalinity(_) | Balance::Charge(_));
        for i in 0..s.species.len() {
            let m = w.m[i];
            for t in s.start[i] as usize..s.start[i + 1] as usize {
                let j = s.column[t] as usize;
                if matches!(self.balance[j], Balance::Total(_)) {
                    w.positive[j] += s.count[t] * m;
                }
            }
        }
        for (j, b) in self.balance.iter().enumerate() {
            if !whole(b) {
                continue;
            }
            for i in 0..s.species.len() {
                let c = self.coefficient(j, i) * w.m[i];
                if c > 0.0 {
                    w.positive[j] += c;
                } else {
                    w.negative[j] -= c;
                }
            }
        }
        let mut worst = (0.0, 0);
        for (col, j) in w.free.iter().enumerate() {
            let mut total = match self.balance[*j] {
                Balance::Total(t) | Balance::Alkalinity(t) | Balance::Charge(t) => t,
                Balance::FixedLnActivity(_) => 0.0,
            };
            let mut touched = false;
            // Moles in a held phase belong to the balance: dissolved and solid together are Σ|ν·m|.
            let mut in_phases = 0.0;
            if matches!(self.balance[*j], Balance::Total(_)) {
                for (h, n) in self.held.iter().zip(&state.n) {
                    for (c, k) in &h.terms {
                        if c == j {
                            total += k * n;
                            in_phases += (k * n).abs();
                            touched = true;
                        }
                    }
                }
            }
            let scale = w.positive[*j] + w.negative[*j] + in_phases;
            let relative = (w.positive[*j] - w.negative[*j] - total).abs() / scale;
            if relative.is_nan() || relative > worst.0 {
                worst = (if relative.is_nan() { f64::INFINITY } else { relative }, *j);
            }
            if touched {
                // Phases enter linearly: the logarithm of a sum that may turn negative is no use.
                w.f[col] = 1.0 - total / w.positive[*j];
                w.negative[*j] = total;
            } else {
                if total >= 0.0 {
                    w.negative[*j] += total;
                } else {
                    w.positive[*j] -= total;
                }
                w.f[col] = log(w.positive[*j] / w.negative[*j]);
            }
        }
        let col = w.free.len();
        let ionic = 0.5 * s.charge.iter().zip(&w.m).map(|(z, m)| z * z * m).sum::<f64>();
        w.f[col] = log(ionic) - state.ln_i;
        let relative = w.f[col].abs();
        if relative > worst.0 {
            worst = (relative, NONE);
        }
        for (k, h) in self.held.iter().enumerate() {
            let ln_iap: f64 = h.terms.iter().map(|(c, n)| n * state.x[*c]).sum();
            w.f[col + 1 + k] = ln_iap - h.ln_iap;
            // ln IAP is a sum of numbers of size 100: 1e−12 of it is the rounding of the sum.
            let relative = (ln_iap - h.ln_iap).abs() / h.ln_iap.abs().max(1.0);
            if relative > worst.0 {
                worst = (relative, NONE - 1 - k);
            }
        }
        worst
    }

    /// Jacobian of the residuals at the state that `residuals` was called with.
    fn fill_jacobian(&self, w: &mut Work) {
        let s = self.system;
        let size = w.f.len();
        let ionic_col = w.free.len();
        w.jacobian.fill(0.0);
        let ionic: f64 = s.charge.iter().zip(&w.m).map(|(z, m)| z * z * m).sum::<f64>() * 0.5;
        for i in 0..s.species.len() {
            let m = w.m[i];
            if m == 0.0 {
                continue;
            }
            let range = s.start[i] as usize..s.start[i + 1] as usize;
            let slope = w.slope[s.class_of[i] as usize];
            for t in range.clone() {
                let j = s.column[t] as usize;
                if w.column_of[j] != NONE && matches!(self.balance[j], Balance::Total(_)) {
                    let part = s.count[t] * m;
                    let row = w.column_of[j] * size;
                    self.add_row(w, row, range.clone(), part / w.positive[j], slope);
                }
            }
            let z2 = s.charge[i] * s.charge[i] * m * 0.5;
            if z2 != 0.0 {
                self.add_row(w, ionic_col * size, range, z2 / ionic, slope);
            }
        }
        w.jacobian[ionic_col * size + ionic_col] -= 1.0;
        self.whole_rows(w);
        self.held_parts(w);
    }

    fn add_row(&self, w: &mut Work, row: usize, terms: core::ops::Range<usize>, part: f64, slope: f64) {
        let s = self.system;
        for u in terms {
            let k = w.column_of[s.column[u] as usize];
            if k != NONE {
                w.jacobian[row + k] += part * s.count[u];
            }
        }
        w.jacobian[row + w.free.len()] -= part * slope;
    }

    /// Rows of alkalinity and charge, to which every species may add.
    fn whole_rows(&self, w: &mut Work) {
        let s = self.system;
        let size = w.f.len();
        for j in 0..self.balance.len() {
            if !matches!(self.balance[j], Balance::Alkalinity(_) | Balance::Charge(_)) {
                continue;
            }
            for i in 0..s.species.len() {
                let c = self.coefficient(j, i) * w.m[i];
                if c == 0.0 {
                    continue;
                }
                let part = if c > 0.0 { c / w.positive[j] } else { c / w.negative[j] };
                let slope = w.slope[s.class_of[i] as usize];
                let row = w.column_of[j] * size;
                self.add_row(w, row, s.start[i] as usize..s.start[i + 1] as usize, part, slope);
            }
        }
    }

    /// Columns and rows of held phases; balances that they touch are in linear form.
    fn held_parts(&self, w: &mut Work) {
        let size = w.f.len();
        let first = w.free.len() + 1;
        for (k, h) in self.held.iter().enumerate() {
            for (c, n) in &h.terms {
                let col = w.column_of[*c];
                if col == NONE {
                    continue;
                }
                w.jacobian[(first + k) * size + col] += n;
                if matches!(self.balance[*c], Balance::Total(_)) {
                    w.jacobian[col * size + first + k] -= n / w.positive[*c];
                }
            }
        }
        for (col, j) in w.free.iter().enumerate() {
            let touched = matches!(self.balance[*j], Balance::Total(_))
                && self.held.iter().any(|h| h.terms.iter().any(|(c, _)| c == j));
            if touched {
                // f = 1 − N/P: dP counts N/P times as much as in the logarithm.
                let weight = w.negative[*j] / w.positive[*j];
                for k in 0..first {
                    w.jacobian[col * size + k] *= weight;
                }
            }
        }
    }

    /// The Jacobian at a solution, for derivatives by what went in.
    pub(crate) fn jacobian_at(&self, s: &Solution) -> (Work, usize) {
        let mut w = self.work();
        let state = self.start_at(s);
        self.residuals(&state, &mut w);
        self.fill_jacobian(&mut w);
        let size = w.f.len();
        (w, size)
    }

    /// Σ over equations of y·∂f/∂(ln m of a species): how ln K of the species enters.
    pub(crate) fn species_column(&self, w: &Work, i: usize, y: &[f64]) -> f64 {
        let s = self.system;
        let m = w.m[i];
        let mut sum = 0.0;
        for t in s.start[i] as usize..s.start[i + 1] as usize {
            let j = s.column[t] as usize;
            if matches!(self.balance[j], Balance::Total(_)) {
                sum += y[w.column_of[j]] * s.count[t] * m / w.positive[j];
            }
        }
        for (j, b) in self.balance.iter().enumerate() {
            if matches!(b, Balance::Alkalinity(_) | Balance::Charge(_)) {
                let c = self.coefficient(j, i) * m;
                let part = if c > 0.0 { c / w.positive[j] } else { c / w.negative[j] };
                sum += y[w.column_of[j]] * part;
            }
        }
        let ionic = core::iter::zip(&s.charge, &w.m).map(|(z, m)| z * z * m).sum::<f64>();
        sum + y[w.free.len()] * s.charge[i] * s.charge[i] * m / ionic
    }

    /// Newton with a limited, halved step. Returns iterations and the worst residual.
    fn newton(&self, state: &mut State, w: &mut Work) -> (usize, f64, usize) {
        let mut worst = self.residuals(state, w);
        let mut stalls = 0;
        let mut best = (worst.0, state.clone());
        let mut made = 0;
        for it in 0..MOST_ITERATIONS {
            made = it;
            if worst.0 <= GOAL {
                return (it, worst.0, worst.1);
            }
            let merit: f64 = w.f.iter().map(|f| f * f).sum();
            self.fill_jacobian(w);
            let size = w.f.len();
            for (s, f) in w.step.iter_mut().zip(&w.f) {
                *s = -f;
            }
            if !merit.is_finite() || !solve_in_place(&mut w.jacobian, &mut w.step, size) {
                break;
            }
            let mut t = Self::step_limit(w);
            let from = state.clone();
            for halving in 0..14 {
                take(&from, state, w, t);
                worst = self.residuals(state, w);
                let now: f64 = w.f.iter().map(|f| f * f).sum();
                if now < merit * (1.0 - 1e-4 * t) || halving == 13 {
                    break;
                }
                // Near the end rounding decides, not descent.
                if worst.0 <= TOLERANCE {
                    break;
                }
                t *= 0.5;
            }
            if worst.0 < best.0 {
                stalls = if worst.0 < 0.5 * best.0 { 0 } else { stalls + 1 };
                best = (worst.0, state.clone());
            } else {
                stalls += 1;
            }
            if stalls >= if best.0 <= TOLERANCE { 2 } else { 12 } {
                break;
            }
        }
        *state = best.1;
        let worst = self.residuals(state, w);
        (made + 1, worst.0, worst.1)
    }

    fn step_limit(w: &Work) -> f64 {
        let free = w.free.len();
        let largest = w.step[..free].iter().fold(0.0_f64, |a, s| a.max(s.abs()));
        let ionic = w.step[free].abs();
        1.0_f64.min(LARGEST_STEP / largest.max(1e-300)).min(3.0 / ionic.max(1e-300))
    }

    /// Solves from a first guess of its own.
    ///
    /// # Errors
    /// [`Error::NotConverged`] with the equation that failed, [`Error::NoSolution`] where the
    /// composition allows none, [`Error::OutOfRange`] for an ionic strength beyond 0.5 mol/kg.
    pub fn solve(&self) -> Result<Solution, Error> {
        self.solve_from(None)
    }

    /// Solves starting from a neighbouring solution where one is given.
    ///
    /// # Errors
    /// As [`Equations::solve`].
    pub fn solve_from(&self, guess: Option<&Solution>) -> Result<Solution, Error> {
        self.refuse_impossible()?;
        let mut w = self.work();
        let mut state = guess.map_or_else(|| self.first_guess(), |g| self.start_at(g));
        if guess.is_none() {
            self.sweep(&mut state, &mut w, 6);
        }
        let (mut iterations, mut residual, mut at) = self.newton(&mut state, &mut w);
        // Cheapest first: most waters need Newton alone. Both safeguards only bring it near; Newton always finishes.
        if residual > TOLERANCE && matches!(self.balance[PROTON], Balance::Charge(_)) {
            let (its, found) = self.bracket_ph()?;
            iterations += its;
            if let Some(found) = found {
                state = found;
                (_, residual, at) = self.newton(&mut state, &mut w);
            }
        }
        if residual > TOLERANCE {
            let mut second = self.first_guess();
            let mut ionic = exp(second.ln_i);
            iterations += crate::safeguard::approach(self, &mut second.x, &mut ionic);
            second.ln_i = log(ionic);
            let (its, r, a) = self.newton(&mut second, &mut w);
            iterations += its;
            if r < residual {
                (state, residual, at) = (second, r, a);
            }
        }
        if residual > TOLERANCE {
            return Err(self.failure(&state, iterations, residual, at));
        }
        self.finish(state, &w, iterations, residual)
    }

    /// Newton alone from a neighbouring solution, without first guess or safeguard: for paths
    /// that shorten their steps when it fails.
    ///
    /// # Errors
    /// As [`Equations::solve`].
    pub fn solve_near(&self, guess: &Solution) -> Result<Solution, Error> {
        self.refuse_impossible()?;
        let mut w = self.work();
        let mut state = self.start_at(guess);
        let (iterations, residual, at) = self.newton(&mut state, &mut w);
        if residual > TOLERANCE {
            return Err(self.failure(&state, iterations, residual, at));
        }
        self.finish(state, &w, iterations, residual)
    }

    fn finish(&self, state: State, w: &Work, iterations: usize, residual: f64) -> Result<Solution, Error> {
        let ph = -state.x[PROTON] / LN_10;
        if matches!(self.balance[PROTON], Balance::Charge(_)) && !(PH_SEARCH.0..=PH_SEARCH.1).contains(&ph) {
            return Err(beyond_any_ph(ph));
        }
        let i = exp(state.ln_i);
        if i > LARGEST_IONIC_STRENGTH {
            return Err(Error::OutOfRange {
                quantity: message::chemistry::IonicStrength.into(),
                value: i,
                unit: "mol/kg".into(),
                allowed: largest_ionic_strength(),
            });
        }
        let s = self.system;
        Ok(Solution {
            x: state.x,
            molality: w.m.clone(),
            log_gamma: s.class_of.iter().map(|k| w.ln_gamma[*k as usize] / LN_10).collect(),
            ionic_strength: i,
            transfer: state.n,
            iterations,
            residual,
        })
    }

    fn failure(&self, state: &State, iterations: usize, residual: f64, at: usize) -> Error {
        let ionic = exp(state.ln_i);
        if ionic > LARGEST_IONIC_STRENGTH {
            return Error::OutOfRange {
                quantity: message::chemistry::IonicStrength.into(),
                value: ionic,
                unit: "mol/kg".into(),
                allowed: largest_ionic_strength(),
            };
        }
        Error::NotConverged { equation: self.equation_name(at), iterations, residual }
    }

    /// The name of an equation by component position (or ionic strength, or a held phase).
    fn equation_name(&self, at: usize) -> Said {
        if at == NONE {
            return message::chemistry::IonicStrength.into();
        }
        if at > self.system.width() {
            let k = NONE - 1 - at;
            return said::SaturationWith { phase: Name::from(&self.held[k].name) }.into();
        }
        match self.balance[at] {
            Balance::Alkalinity(_) => said::AlkalinityBalance.into(),
            Balance::Charge(_) => message::word::ChargeBalance.into(),
            _ => said::MoleBalance { component: Name::from(self.system.label(at)) }.into(),
        }
    }

    fn refuse_impossible(&self) -> Result<(), Error> {
        for (j, b) in self.balance.iter().enumerate() {
            if let Balance::Total(t) = b {
                let fed = self.held.iter().any(|h| h.terms.iter().any(|(c, _)| *c == j));
                if !(*t >= 0.0 || (fed && t.is_finite())) || (*t == 0.0 && !fed) {
                    return Err(Error::OutOfRange {
                        quantity: said::Total { element: Name::from(self.system.label(j)) }.into(),
                        value: *t,
                        unit: "mol/kg".into(),
                        allowed: said::AboveZero.into(),
                    });
                }
            }
        }
        Ok(())
    }

    fn start_at(&self, g: &Solution) -> State {
        let mut state = State {
            x: g.x.clone(),
            ln_i: log(g.ionic_strength),
            n: if g.transfer.len() == self.held.len() { g.transfer.clone() } else { vec![0.0; self.held.len()] },
        };
        self.set_fixed(&mut state);
        state
    }

    fn set_fixed(&self, state: &mut State) {
        for (x, b) in state.x.iter_mut().zip(&self.balance) {
            if let Balance::FixedLnActivity(v) = b {
                *x = *v;
            }
        }
    }

    /// Totals as free ions; pH 7 where it is asked for; alkalinity as bicarbonate.
    fn first_guess(&self) -> State {
        let mut ionic = 1e-7;
        let ln_h = match self.balance[PROTON] {
            Balance::FixedLnActivity(v) => v,
            _ => -7.0 * LN_10,
        };
        ionic += 0.5 * (exp(ln_h) + exp(-14.0 * LN_10 - ln_h));
        let mut x = vec![0.0; self.system.width()];
        for (j, b) in self.balance.iter().enumerate() {
            x[j] = match *b {
                Balance::FixedLnActivity(v) => v,
                Balance::Total(t) => {
                    let c = self.system.component_charge[j];
                    ionic += 0.5 * c * c * t.max(0.0);
                    log(t.max(1e-9)).min(0.0)
                }
                // HCO3− = alkalinity; CO3^2- follows near pK2 10.33 (Plummer & Busenberg 1982).
                Balance::Alkalinity(t) => {
                    ionic += 0.5 * t.abs();
                    log(t.abs().max(1e-9)) - (10.33 + ln_h / LN_10).max(0.0) * LN_10
                }
                Balance::Charge(_) => ln_h,
            };
        }
        State { x, ln_i: log(ionic.min(0.4)), n: vec![0.0; self.held.len()] }
    }

    /// Brings each balance near its total in turn, all at once, before Newton starts.
    fn sweep(&self, state: &mut State, w: &mut Work, times: usize) {
        for _ in 0..times {
            self.residuals(state, w);
            for (col, j) in w.free.iter().enumerate() {
                if matches!(self.balance[*j], Balance::Total(_)) {
                    state.x[*j] -= 0.7 * w.f[col].clamp(-40.0, 40.0);
                }
            }
        }
    }
}

fn take(from: &State, to: &mut State, w: &Work, t: f64) {
    for (col, j) in w.free.iter().enumerate() {
        to.x[*j] = from.x[*j] + t * w.step[col];
    }
    let c = w.free.len();
    // Beyond 3 mol/kg the activity model has no meaning, even on the way.
    to.ln_i = (from.ln_i + t * w.step[c]).min(1.1);
    for k in 0..to.n.len() {
        to.n[k] = from.n[k] + t * w.step[c + 1 + k];
    }
}

/// Gauss with row scaling and partial pivoting on a row-major matrix; false when singular.
pub(crate) fn solve_in_place(a: &mut [f64], b: &mut [f64], n: usize) -> bool {
    // Traces stand beside majors, twenty orders of magnitude apart: pivots compare only once each row is scaled.
    for r in 0..n {
        let largest = a[r * n..(r + 1) * n].iter().fold(0.0_f64, |m, v| m.max(v.abs()));
        if largest == 0.0 || !largest.is_finite() {
            return false;
        }
        let s = 1.0 / largest;
        a[r * n..(r + 1) * n].iter_mut().for_each(|v| *v *= s);
        b[r] *= s;
    }
    for k in 0..n {
        let mut pivot = k;
        for r in k + 1..n {
            if a[r * n + k].abs() > a[pivot * n + k].abs() {
                pivot = r;
            }
        }
        if a[pivot * n + k] == 0.0 {
            return false;
        }
        if pivot != k {
            for c in k..n {
                a.swap(k * n + c, pivot * n + c);
            }
            b.swap(k, pivot);
        }
        let (top, rest) = a.split_at_mut((k + 1) * n);
        let lead = &top[k * n..(k + 1) * n];
        for r in 0..n - k - 1 {
            let row = &mut rest[r * n..(r + 1) * n];
            if row[k] == 0.0 {
                continue;
            }
            let f = row[k] / lead[k];
            for c in k + 1..n {
                row[c] -= f * lead[c];
            }
            b[k + 1 + r] -= f * b[k];
        }
    }
    for k in (0..n).rev() {
        let mut v = b[k];
        for c in k + 1..n {
            v -= a[k * n + c] * b[c];
        }
        b[k] = v / a[k * n + k];
    }
    b.iter().all(|v| v.is_finite())
}

fn largest_ionic_strength() -> Said {
    said::Range { low: Shown::as_given(0.0, ""), high: Shown::as_given(LARGEST_IONIC_STRENGTH, "mol/kg") }.into()
}

fn beyond_any_ph(ph: f64) -> Error {
    Error::NoSolution {
        equation: message::word::ChargeBalance.into(),
        why: if ph < 7.0 { said::PhBelow.into() } else { said::PhAbove.into() },
    }
}

/// pH beyond which a charge balance counts as having no solution.
const PH_SEARCH: (f64, f64) = (0.0, 14.0);

impl Equations<'_> {
    /// pH from charge by halving an interval of pH, each solved at fixed pH from its neighbour;
    /// once the interval is narrow, all equations are tried together.
    fn bracket_ph(&self) -> Result<(usize, Option<State>), Error> {
        let Balance::Charge(target) = self.balance[PROTON] else {
            return Ok((0, None));
        };
        let mut fixed = self.clone();
        let (mut low, mut high) = PH_SEARCH;
        let mut iterations = 0;
        let mut last: Option<State> = None;
        for _ in 0..40 {
            let ph = 0.5 * (low + high);
            fixed.balance[PROTON] = Balance::FixedLnActivity(-ph * LN_10);
            let mut w = fixed.work();
            let mut state = last.unwrap_or_else(|| fixed.first_guess());
            fixed.set_fixed(&mut state);
            fixed.sweep(&mut state, &mut w, 3);
            let (its, residual, _) = fixed.newton(&mut state, &mut w);
            iterations += its;
            if residual > TOLERANCE {
                return Ok((iterations, None));
            }
            let charge: f64 = self.system.charge.iter().zip(&w.m).map(|(z, m)| z * m).sum();
            // Charge falls as pH rises.
            if charge > target {
                low = ph;
            } else {
                high = ph;
            }
            if high - low < 0.2 {
                let mut all = state.clone();
                let mut w = self.work();
                let (its, residual, _) = self.newton(&mut all, &mut w);
                iterations += its;
                if residual <= TOLERANCE {
                    return Ok((iterations, Some(all)));
                }
            }
            last = Some(state);
        }
        if low <= PH_SEARCH.0 || high >= PH_SEARCH.1 {
            return Err(beyond_any_ph(if low <= PH_SEARCH.0 { -1.0 } else { 15.0 }));
        }
        Ok((iterations, last))
    }
}
