//! Replicates of one vial to one response: dead time is already off; background and overlaps
//! come off, isotopes are added, the internal standard divides, replicate by replicate. Only then
//! are replicates summarised.
//!
//! ```text
//! R = mean over k of [ Σ (N − B) − Σ f·(M − B) ]_k / I_k
//! ```
//!
//! N rates of the isotopes, M of the monitors, B gas background, f overlap factors, I the
//! internal standard as a share of its mean in the calibration; all counts/s, I without unit.

use super::error::Error;
use super::input::{Mode, Role};
use super::plan::{Overlap, Plan};
use super::recipe::{DeadTime, FactorSource, Recipe};
use super::scatter::Noise;
use super::sources::{Group, Key, Pool, Sources};
use super::table::{Cell, Hole, Table, When};
use crate::interference::isobaric_factor;
use crate::isotope::WithU;
use message::{Message, refusal as says};
use statistics::sample::Moments;
use statistics::welch;

/// Mean, standard uncertainty of the mean and its degrees of freedom.
#[derive(Debug, Clone, Copy)]
pub(super) struct MeanU {
    pub mean: f64,
    pub u: f64,
    pub dof: f64,
}

/// What all analytes read of the whole table.
#[derive(Debug, Clone)]
pub(super) struct Levels {
    /// What is counted without a sample, per isotope, counts/s: the gas background where vials of it were read, else
    /// the recipe's dark rate; none without either.
    pub background: Vec<Option<MeanU>>,
    /// The entry of the recipe where the background is a dark rate.
    pub dark: Vec<Option<usize>>,
    /// Mean rate per isotope over standards and calibration blanks, background taken off.
    pub calibration: Vec<f64>,
    /// Mean rate per isotope over the calibration blanks, with the u of their scatter.
    pub blank: Vec<Option<MeanU>>,
}

fn mean_of(x: &[f64]) -> f64 {
    x.iter().sum::<f64>() / x.len() as f64
}

fn mean_u(x: &[f64]) -> MeanU {
    let Some(m) = Moments::of(x) else {
        return MeanU { mean: f64::NAN, u: 0.0, dof: 1.0 };
    };
    MeanU { mean: m.mean, u: m.u_mean().unwrap_or(0.0), dof: (m.n as f64 - 1.0).max(1.0) }
}

impl Levels {
    pub fn new(table: &Table, recipe: &Recipe) -> Self {
        let gas = |v: usize| {
            let vial = &table.vials[v];
            vial.role == Role::GasBackground || recipe.gas_background.contains(&vial.name)
        };
        let level = |i: usize, wanted: &dyn Fn(usize) -> bool| -> Option<MeanU> {
            let cells: Vec<Cell> =
                (0..table.vials.len()).filter(|v| wanted(*v)).filter_map(|v| table.cell(i, v).ok()).collect();
            match cells.as_slice() {
                [] => None,
                [one] if one.summary_n > 0 => Some(MeanU {
                    mean: table.rates(*one)[0],
                    u: one.summary_sd / f64::from(one.summary_n).sqrt(),
                    dof: f64::from(one.summary_n.max(2) - 1),
                }),
                [one] => Some(mean_u(table.rates(*one))),
                many => {
                    // Of several vials each counts once: u is what they scatter from vial to vial, not within one.
                    let means: Vec<f64> = many.iter().map(|c| mean_of(table.rates(*c))).collect();
                    Some(mean_u(&means))
                }
            }
        };
        let role = |v: usize| table.vials[v].role;
        let isotopes = 0..table.isotopes.len();
        let mut background: Vec<Option<MeanU>> = isotopes.clone().map(|i| level(i, &gas)).collect();
        // A gas background holds the dark rate: never both.
        let dark: Vec<Option<usize>> = isotopes
            .clone()
            .map(|i| recipe.dark_rate(&table.isotopes[i]).filter(|_| background[i].is_none()))
            .collect();
        for (b, entry) in background.iter_mut().zip(&dark) {
            if let Some(d) = entry.map(|k| &recipe.dark_rates[k]) {
                *b = Some(MeanU { mean: d.cps, u: d.u_cps, dof: f64::INFINITY });
            }
        }
        let zero = |i: usize| background[i].map_or(0.0, |b| b.mean);
        let calibration = isotopes
            .clone()
            .map(|i| {
                level(i, &|v| matches!(role(v), Role::Standard | Role::CalibrationBlank))
                    .map_or(0.0, |m| m.mean - zero(i))
            })
            .collect();
        let blank = isotopes
            .map(|i| level(i, &|v| role(v) == Role::CalibrationBlank).map(|m| MeanU { mean: m.mean - zero(i), ..m }))
            .collect();
        Self { background, dark, calibration, blank }
    }
}

/// One point of a factor in time.
#[derive(Debug, Clone, Copy)]
pub(super) struct FactorPoint {
    pub when: When,
    pub value: f64,
    pub u: f64,
    pub source: usize,
    /// The check vial it was measured in.
    pub vial: Option<usize>,
}

/// The factor of one overlap through the run.
#[derive(Debug, Clone)]
pub(super) struct Track {
    pub member: usize,
    pub monitor: usize,
    pub points: Vec<FactorPoint>,
}

impl Track {
    /// The two points that a time stands between, with their weights.
    pub fn at(&self, when: When) -> [(usize, f64); 2] {
        hat(&self.points, |p| p.when, when)
    }

    pub fn value(&self, when: When) -> f64 {
        self.at(when).iter().map(|(k, w)| w * self.points[*k].value).sum()
    }
}

/// Linear interpolation between ordered points of the same session, constant outside. Where the
/// session has no point, the first point stands in.
pub(super) fn hat<T>(points: &[T], time: impl Fn(&T) -> When, at: When) -> [(usize, f64); 2] {
    let first = points.iter().position(|p| time(p).session == at.session).unwrap_or(0);
    let own = points[first..].iter().take_while(|p| time(p).session == at.session).count().max(1);
    let after = (first..first + own).find(|k| time(&points[*k]).minutes > at.minutes);
    match after {
        Some(k) if k == first => [(k, 1.0), (k, 0.0)],
        None => [(first + own - 1, 1.0), (first + own - 1, 0.0)],
        Some(k) => {
            let (a, b) = (time(&points[k - 1]).minutes, time(&points[k]).minutes);
            let w = (at.minutes - a) / (b - a);
            [(k - 1, 1.0 - w), (k, w)]
        }
    }
}

/// The response of one vial.
#[derive(Debug, Clone, Copy)]
pub(super) struct Response {
    /// R, counts/s.
    pub value: f64,
    /// u of the mean: from the scatter of all vials of the run together, where that is known.
    pub u: f64,
    pub dof: f64,
    /// u of the mean from this vial's own replicates; 0 where they agree to the last digit.
    pub own: MeanU,
    /// Number of replicates.
    pub replicates: f64,
    /// What its variance is expected to be at another response.
    pub noise: Noise,
    /// Variance of the mean that this vial's own replicates show over what is expected of it; 0 unless they scatter
    /// more than chance lets them.
    pub excess: f64,
    /// Its own scatter over the expected, as a ratio of standard deviations; 1 unless it has an excess.
    pub times: f64,
    /// Counts of the isotopes in all replicates; not a number where the integration time is not known.
    pub counts: f64,
    /// dC/dR of the counting variance: one over the counting time on the scale of R, 1/s.
    pub counting_slope: f64,
    /// Variance that counting alone predicts for the mean; not a number where the
    /// integration time is not known.
    pub counting: f64,
    /// R before overlaps came off.
    pub whole: f64,
    /// Variance of the mean from counting the overlap and its monitor.
    pub overlap_counting: f64,
    /// Internal standard as a share of its mean in the calibration, 1 without.
    pub standard: f64,
}

impl Response {
    /// Counting variance of this vial's mean were its response `r`; never less than that of one count.
    pub fn counting_at(&self, r: f64) -> f64 {
        let one = self.counting_slope * self.counting_slope;
        (self.counting + self.counting_slope * (r - self.value)).max(one)
    }
}

/// The sources and settings that turn cells into responses, for one analyte.
#[derive(Debug, Clone)]
pub(super) struct Signal {
    dead_time: Option<(usize, f64)>,
    detector: DeadTime,
    analogue: Option<(usize, f64)>,
    /// (isotope, mean, u, source)
    background: Vec<(usize, f64, f64, usize)>,
    /// Isotopes whose background is the recipe's dark rate.
    dark: Vec<usize>,
    pub tracks: Vec<Track>,
    /// (isotope, weight / reference level)
    standards: Vec<(usize, f64)>,
}

impl Signal {
    pub fn new(
        table: &Table,
        recipe: &Recipe,
        levels: &Levels,
        plan: &Plan,
        sources: &mut Sources,
    ) -> Result<Self, Error> {
        let dead_time = (recipe.dead_time.u_ns > 0.0).then(|| {
            let s = sources.add_shared(Group::DeadTime, Pool::None, f64::INFINITY, Key::DeadTime);
            (s, recipe.dead_time.u_ns * 1e-9)
        });
        let x = recipe.analogue_factor;
        let analogue = (x.u > 0.0).then(|| {
            let s = sources.add_shared(Group::Analogue, Pool::None, f64::INFINITY, Key::Analogue);
            (s, x.u / x.value)
        });
        let mut involved: Vec<usize> = plan.members.clone();
        involved.extend(plan.standards.iter().map(|s| s.0));
        involved.extend(plan.overlaps.iter().map(|o| o.monitor));
        // An isotope may be monitor and internal standard at once; it has one background, so one source of its u.
        involved.sort_unstable();
        involved.dedup();
        let dark: Vec<usize> = involved.iter().copied().filter(|i| levels.dark[*i].is_some()).collect();
        // One dark rate that stands for several isotopes errs the same way in all of them.
        let mut of_entry: Vec<(usize, usize)> = Vec::new();
        let mut source_of = |i: usize, dof: f64| {
            let known = |k: usize| of_entry.iter().find(|x| x.0 == k).map(|x| x.1);
            if let Some(source) = levels.dark[i].and_then(known) {
                return source;
            }
            let source = sources.add(Group::Background, Pool::None, dof);
            of_entry.extend(levels.dark[i].map(|k| (k, source)));
            source
        };
        let background = involved
            .into_iter()
            .filter_map(|i| levels.background[i].map(|b| (i, b.mean, b.u, source_of(i, b.dof))))
            .collect();
        let mut standards = Vec::new();
        for (i, w) in &plan.standards {
            let level = levels.calibration[*i];
            if level <= 0.0 {
                return Err(Error::MissingInternalStandard {
                    analyte: plan.analyte.to_string(),
                    standard: table.isotopes[*i].to_string(),
                    place: says::InStandards.into(),
                    hint: says::HintEveryVial.into(),
                });
            }
            standards.push((*i, w / level));
        }
        let mut signal =
            Self { dead_time, detector: recipe.dead_time, analogue, background, dark, tracks: vec![], standards };
        for overlap in &plan.overlaps {
            let track = signal.track(table, levels, plan, overlap, sources)?;
            signal.tracks.push(track);
        }
        Ok(signal)
    }

    /// Background of an isotope: mean, u; none where none is known.
    pub fn background_of(&self, isotope: usize) -> Option<(f64, f64, f64)> {
        self.background.iter().find(|b| b.0 == isotope).map(|b| (b.1, b.2, f64::INFINITY))
    }

    /// Weight of each internal standard over its mean in the calibration, s.
    pub fn standard_weights(&self) -> Vec<f64> {
        self.standards.iter().map(|s| s.1).collect()
    }

    /// Whether the background of an isotope is the dark rate that the recipe gives.
    pub fn is_dark(&self, isotope: usize) -> bool {
        self.dark.contains(&isotope)
    }

    /// Whether anything is taken off for what the detector counts without a sample.
    pub fn has_background(&self, plan: &Plan) -> bool {
        plan.members.iter().all(|i| self.background.iter().any(|b| b.0 == *i))
    }

    fn zero(&self, isotope: usize) -> f64 {
        self.background.iter().find(|b| b.0 == isotope).map_or(0.0, |b| b.1)
    }

    fn track(
        &self,
        table: &Table,
        levels: &Levels,
        plan: &Plan,
        overlap: &Overlap,
        sources: &mut Sources,
    ) -> Result<Track, Error> {
        let mut points = Vec::new();
        let mut push = |when, f: MeanU, vial, sources: &mut Sources| {
            let source = sources.add(Group::Interference, Pool::None, f.dof);
            points.push(FactorPoint { when, value: f.mean, u: f.u, source, vial });
        };
        match &overlap.recipe.factor {
            FactorSource::Given { value, u } => {
                let f = MeanU { mean: *value, u: *u, dof: f64::INFINITY };
                // A factor that was not measured in the run holds for all of it: `hat` falls back to the only point.
                push(When { session: 0, minutes: 0.0 }, f, None, sources);
            }
            FactorSource::Abundance { mass_bias, u_mass_bias } => {
                let f = abundance_factor(overlap, *mass_bias, *u_mass_bias)?;
                push(When { session: 0, minutes: 0.0 }, f, None, sources);
            }
            FactorSource::Vials { .. } => {
                for v in &overlap.vials {
                    let f = self.measured_factor(table, levels, plan, overlap, *v)?;
                    push(When::of(&table.vials[*v]), f, Some(*v), sources);
                }
                points.sort_by(|a, b| a.when.order(&b.when));
                Self::every_session_has_one(table, overlap, &points)?;
            }
        }
        Ok(Track { member: overlap.member, monitor: overlap.monitor, points })
    }

    /// A factor measured in one session says nothing of another day's plasma.
    fn every_session_has_one(table: &Table, overlap: &Overlap, points: &[FactorPoint]) -> Result<(), Error> {
        let lonely = table.vials.iter().find(|v| !points.iter().any(|p| p.when.session == v.session));
        match lonely {
            None => Ok(()),
            Some(v) => Err(Error::BadFactor {
                species: overlap.recipe.species.clone(),
                target: overlap.recipe.target.to_string(),
                why: says::FactorSession { session: v.session.to_string().into() }.into(),
            }),
        }
    }

    /// f = (T − T_blank)/(M − M_blank) in a vial that holds the interfering element alone.
    fn measured_factor(
        &self,
        table: &Table,
        levels: &Levels,
        plan: &Plan,
        overlap: &Overlap,
        v: usize,
    ) -> Result<MeanU, Error> {
        let target = plan.members[overlap.member];
        let bad = |why: Message| Error::BadFactor {
            species: overlap.recipe.species.clone(),
            target: overlap.recipe.target.to_string(),
            why,
        };
        let (Ok(t), Ok(m)) = (table.cell(target, v), table.cell(overlap.monitor, v)) else {
            return Err(bad(says::FactorUnread.into()));
        };
        let none = MeanU { mean: 0.0, u: 0.0, dof: f64::INFINITY };
        let t0 = levels.blank[target].unwrap_or(none);
        let m0 = levels.blank[overlap.monitor].unwrap_or(none);
        let (zt, zm) = (self.zero(target), self.zero(overlap.monitor));
        let (rt, rm) = (table.rates(t), table.rates(m));
        let net_m = mean_of(rm) - zm - m0.mean;
        if net_m <= 0.0 {
            let (vial, monitor) = (table.vials[v].name.as_str(), overlap.recipe.monitor.to_string());
            return Err(bad(says::FactorNoSignal { vial: vial.into(), monitor: monitor.into() }.into()));
        }
        // Replicate k of both isotopes is one sweep: in their ratio the flicker that they share cancels.
        let ratios: Vec<f64> = if rt.len() == rm.len() {
            rt.iter().zip(rm).map(|(t, m)| (t - zt - t0.mean) / (m - zm - m0.mean)).collect()
        } else {
            vec![(mean_of(rt) - zt - t0.mean) / net_m]
        };
        let mut f = mean_u(&ratios);
        if ratios.len() < 2 {
            // No sweeps to pair: target and monitor are two readings, each with its own noise.
            let (ut, um) = (cell_u(table, t) / net_m, ratios[0] * cell_u(table, m) / net_m);
            let dof = welch::effective_dof(&[(ut * ut, cell_dof(t)), (um * um, cell_dof(m))]);
            f = MeanU { mean: ratios[0], u: ut.hypot(um), dof: dof.unwrap_or(f64::INFINITY) };
        }
        let own = f.u * f.u;
        let blank = (t0.u / net_m).powi(2) + (f.mean * m0.u / net_m).powi(2);
        f.u = (own + blank).sqrt();
        f.dof = welch::effective_dof(&[(own, f.dof), (blank, t0.dof)]).unwrap_or(f64::INFINITY);
        Ok(f)
    }

    /// The response of a vial; its shared sensitivities are added to `row`. `Ok(None)` where a
    /// person took one of the readings out, or the analyte was not read in this vial.
    pub fn response(&self, table: &Table, plan: &Plan, v: usize, row: &mut [f64]) -> Result<Option<Response>, Error> {
        let Some(cells) = self.cells(table, plan, v)? else {
            return Ok(None);
        };
        let when = When::of(&table.vials[v]);
        let n = cells.members[0].len;
        let mut r = Vec::with_capacity(n);
        let factors: Vec<f64> = self.tracks.iter().map(|t| t.value(when)).collect();
        let (mut whole, mut standard) = (0.0, 0.0);
        let (mut tau, mut cross) = (0.0, 0.0);
        let (mut inverse, mut ratio_inverse) = (0.0, 0.0);
        // Sweep by sweep, and the mean afterwards: flicker that isotopes and internal standard share cancels in R.
        for k in 0..n {
            let Sweep { top, all, standard: i_k } = self.sweep(table, plan, &cells, &factors, k);
            if i_k <= 0.0 {
                return Err(no_standard(table, plan, v, &self.standards));
            }
            let (mut d_tau, mut d_x) = (0.0, 0.0);
            for c in &cells.members {
                self.differ(c.mode, table.corrected[c.start + k], 1.0, &mut d_tau, &mut d_x);
            }
            for (c, f) in cells.monitors.iter().zip(&factors) {
                self.differ(c.mode, table.corrected[c.start + k], -f, &mut d_tau, &mut d_x);
            }
            let (mut i_tau, mut i_x) = (0.0, 0.0);
            for ((_, w), c) in self.standards.iter().zip(&cells.standards) {
                self.differ(c.mode, table.corrected[c.start + k], *w, &mut i_tau, &mut i_x);
            }
            let r_k = top / i_k;
            r.push(r_k);
            whole += all / i_k;
            standard += i_k;
            inverse += 1.0 / i_k;
            ratio_inverse += r_k / i_k;
            tau += (d_tau - r_k * i_tau) / i_k;
            cross += (d_x - r_k * i_x) / i_k;
        }
        let scale = 1.0 / n as f64;
        let mean = MeanSensitivity {
            inverse: inverse * scale,
            ratio_inverse: ratio_inverse * scale,
            tau: tau * scale,
            cross: cross * scale,
        };
        self.spread_to(table, plan, &cells, when, &mean, row);
        let own = self.replicate_u(table, plan, v, &cells, &factors, (&r, standard * scale))?;
        let counting = self.counting(table, &cells, &factors, own.mean, standard * scale);
        let used = spread(own, counting);
        let time = cells.members.iter().map(|c| c.integration_s * replicates(*c)).sum::<f64>();
        Ok(Some(Response {
            value: own.mean,
            u: used.u,
            dof: used.dof,
            own,
            replicates: cells.members.iter().map(|c| replicates(*c)).fold(f64::INFINITY, f64::min),
            noise: if used.dof.is_finite() { Noise::fixed(used.u.powi(2)) } else { Noise::COUNTING },
            excess: 0.0,
            times: 1.0,
            counts: if counting.is_finite() { counts(table, &cells.members) } else { f64::NAN },
            counting_slope: cells.members.len() as f64 / (time * standard * scale),
            counting,
            whole: whole * scale,
            overlap_counting: self.overlap_counting(table, &cells, &factors, standard * scale),
            standard: standard * scale,
        }))
    }

    /// Rates of one sweep.
    fn sweep(&self, table: &Table, plan: &Plan, cells: &Cells, factors: &[f64], k: usize) -> Sweep {
        let rate = |c: &Cell| table.corrected[c.start + k];
        let all: f64 = plan.members.iter().zip(&cells.members).map(|(i, c)| rate(c) - self.zero(*i)).sum();
        let mut top = all;
        for ((track, c), f) in self.tracks.iter().zip(&cells.monitors).zip(factors) {
            top -= f * (rate(c) - self.zero(track.monitor));
        }
        let parts = self.standards.iter().zip(&cells.standards).map(|((i, w), c)| w * (rate(c) - self.zero(*i)));
        let standard = if self.standards.is_empty() { 1.0 } else { parts.sum() };
        Sweep { top, all, standard }
    }

    /// The response of each replicate, counts/s; none where the vial has no response or only a mean of replicates.
    pub fn replicates(&self, table: &Table, plan: &Plan, v: usize) -> Option<Vec<f64>> {
        let cells = self.cells(table, plan, v).ok()??;
        if cells.all().any(|c| c.summary_n > 0) {
            return None;
        }
        let factors: Vec<f64> = self.tracks.iter().map(|t| t.value(When::of(&table.vials[v]))).collect();
        let response = |k: usize| {
            let s = self.sweep(table, plan, &cells, &factors, k);
            s.top / s.standard
        };
        Some((0..cells.members[0].len).map(response).collect())
    }

    /// dN/dτ for pulses; dN/d ln X = N for the current.
    fn differ(&self, mode: Mode, rate: f64, factor: f64, d_tau: &mut f64, d_x: &mut f64) {
        match mode {
            Mode::Counting => *d_tau += factor * self.detector.model.by_dead_time(rate, self.detector.seconds()),
            Mode::Analogue => *d_x += factor * rate,
        }
    }

    /// Adds the shared sensitivities, times their u, to a row.
    fn spread_to(
        &self,
        table: &Table,
        plan: &Plan,
        cells: &Cells,
        when: When,
        mean: &MeanSensitivity,
        row: &mut [f64],
    ) {
        if let Some((s, u)) = self.dead_time {
            row[s] += mean.tau * u;
        }
        if let Some((s, u)) = self.analogue {
            row[s] += mean.cross * u;
        }
        // One isotope's background may stand in the sum, in an overlap and in the internal standard: its parts
        // are added with their signs before anything is squared, since one error makes them all.
        for (isotope, _, u, s) in &self.background {
            let members = plan.members.iter().filter(|m| *m == isotope).count() as f64;
            let mut d = -members * mean.inverse;
            for track in self.tracks.iter().filter(|t| t.monitor == *isotope) {
                d += track.value(when) * mean.inverse;
            }
            for (_, w) in self.standards.iter().filter(|x| x.0 == *isotope) {
                d += w * mean.ratio_inverse;
            }
            row[*s] += d * u;
        }
        for (track, c) in self.tracks.iter().zip(&cells.monitors) {
            let level = mean_of(table.rates(*c)) - self.zero(track.monitor);
            for (k, w) in track.at(when) {
                let p = &track.points[k];
                row[p.source] -= w * p.u * level * mean.inverse;
            }
        }
    }

    /// u of the mean: from the scatter of the ratios where there are replicates, else from what
    /// the instrument said, else from counting.
    fn replicate_u(
        &self,
        table: &Table,
        plan: &Plan,
        v: usize,
        cells: &Cells,
        factors: &[f64],
        (r, standard): (&[f64], f64),
    ) -> Result<MeanU, Error> {
        let summarised = cells.all().any(|c| c.summary_n > 0);
        if r.len() > 1 && !summarised {
            return Ok(mean_u(r));
        }
        let (mut variance, mut doubt) = (0.0, 0.0);
        let mut add = |c: &Cell, sensitivity: f64| {
            let part = (sensitivity * cell_u(table, *c)).powi(2);
            variance += part;
            doubt += welch::welch_term(part, cell_dof(*c));
        };
        for c in &cells.members {
            add(c, 1.0 / standard);
        }
        for (c, f) in cells.monitors.iter().zip(factors) {
            add(c, f / standard);
        }
        for ((_, w), c) in self.standards.iter().zip(&cells.standards) {
            add(c, w * r[0] / standard);
        }
        if !variance.is_finite() {
            return Err(Error::BadReading {
                position: table.vials[v].position,
                vial: table.vials[v].name.clone(),
                isotope: plan.analyte.to_string(),
                why: says::ReadingSingle.into(),
            });
        }
        Ok(MeanU { mean: r[0], u: variance.sqrt(), dof: welch::dof_of(variance, doubt).unwrap_or(f64::INFINITY) })
    }

    /// Variance of the mean response that counting alone predicts.
    fn counting(&self, table: &Table, cells: &Cells, factors: &[f64], response: f64, standard: f64) -> f64 {
        let mut v: f64 = cells.members.iter().map(|c| poisson_variance(table, *c)).sum();
        for (c, f) in cells.monitors.iter().zip(factors) {
            v += f * f * poisson_variance(table, *c);
        }
        for ((_, w), c) in self.standards.iter().zip(&cells.standards) {
            v += (w * response).powi(2) * poisson_variance(table, *c);
        }
        v / (standard * standard)
    }

    /// Covariance of the internal standards of two analytes in one vial, each as a share of its mean in the
    /// calibration, by the counts of the isotopes that serve both; 0 where the integration time is not known.
    pub fn standards_in_common(&self, other: &Self, table: &Table, v: usize) -> f64 {
        let mut sum = 0.0;
        for (i, w) in &self.standards {
            for (_, x) in other.standards.iter().filter(|o| o.0 == *i) {
                sum += table.cell(*i, v).map_or(0.0, |c| w * x * poisson_variance(table, c));
            }
        }
        if sum.is_finite() { sum } else { 0.0 }
    }

    /// Variance from counting the overlap itself and its monitor.
    fn overlap_counting(&self, table: &Table, cells: &Cells, factors: &[f64], standard: f64) -> f64 {
        let mut v = 0.0;
        for ((track, c), f) in self.tracks.iter().zip(&cells.monitors).zip(factors) {
            let target = cells.members[track.member];
            let time = target.integration_s * replicates(target);
            // A term that gives counts back has a negative factor; its counts spread all the same.
            let overlap = f.abs() * (mean_of(table.rates(*c)) - self.zero(track.monitor)).max(0.0);
            v += overlap / time + f * f * poisson_variance(table, *c);
        }
        v / (standard * standard)
    }

    fn cells(&self, table: &Table, plan: &Plan, v: usize) -> Result<Option<Cells>, Error> {
        let mut cells = Cells::default();
        for i in &plan.members {
            match table.cell(*i, v) {
                Ok(c) => cells.members.push(c),
                Err(_) => return Ok(None),
            }
        }
        // What a person took out leaves the vial without a result. A monitor that was never read is refused: its
        // overlap would stay in the number unseen.
        for track in &self.tracks {
            match table.cell(track.monitor, v) {
                Ok(c) => cells.monitors.push(c),
                Err(Hole::Excluded) => return Ok(None),
                Err(Hole::NotRead) => {
                    let entry = &plan
                        .overlaps
                        .iter()
                        .find(|o| o.monitor == track.monitor)
                        .expect("a track has its overlap")
                        .recipe;
                    return Err(Error::MissingMonitor {
                        monitor: entry.monitor.to_string(),
                        species: entry.species.clone(),
                        target: entry.target.to_string(),
                        place: place(table, v),
                    });
                }
            }
        }
        for (i, _) in &self.standards {
            match table.cell(*i, v) {
                Ok(c) => cells.standards.push(c),
                Err(Hole::Excluded) => return Ok(None),
                Err(Hole::NotRead) => return Err(no_standard(table, plan, v, &self.standards)),
            }
        }
        let n = cells.members[0].len;
        let ids = plan
            .members
            .iter()
            .copied()
            .chain(self.tracks.iter().map(|t| t.monitor))
            .chain(self.standards.iter().map(|s| s.0));
        for (i, c) in ids.zip(cells.all()) {
            if c.len != n {
                return Err(Error::UnequalReplicates {
                    position: table.vials[v].position,
                    vial: table.vials[v].name.clone(),
                    isotope: table.isotopes[i].to_string(),
                    found: c.len,
                    with: table.isotopes[plan.members[0]].to_string(),
                    expected: n,
                });
            }
        }
        Ok(Some(cells))
    }
}

/// Rates of one sweep, counts/s.
struct Sweep {
    /// Isotopes with overlaps off.
    top: f64,
    /// Isotopes with overlaps on.
    all: f64,
    /// Internal standard as a share of its mean in the calibration, 1 without.
    standard: f64,
}

/// Means over the replicates of what the sensitivities need.
struct MeanSensitivity {
    /// 1/I
    inverse: f64,
    /// R/I
    ratio_inverse: f64,
    /// ∂R/∂τ
    tau: f64,
    /// ∂R/∂ln X
    cross: f64,
}

#[derive(Default)]
struct Cells {
    members: Vec<Cell>,
    monitors: Vec<Cell>,
    standards: Vec<Cell>,
}

impl Cells {
    fn all(&self) -> impl Iterator<Item = &Cell> {
        self.members.iter().chain(&self.monitors).chain(&self.standards)
    }
}

fn replicates(c: Cell) -> f64 {
    f64::from(c.summary_n.max(c.len as u32))
}

/// Variance of the mean rate of a cell by counting; no counts seen is taken as one count, so
/// that "none in this time" never means "none ever". Not a number without integration time.
pub(super) fn poisson_variance(table: &Table, c: Cell) -> f64 {
    let time = c.integration_s * replicates(c);
    if time > 0.0 { (mean_of(table.rates(c)) / time).max(1.0 / (time * time)) } else { f64::NAN }
}

/// Counts of isotopes in all replicates.
fn counts(table: &Table, cells: &[Cell]) -> f64 {
    cells.iter().map(|c| mean_of(table.rates(*c)) * c.integration_s * replicates(*c)).sum()
}

/// What stands for the scatter of a vial alone. Replicates that agree to the last digit: few counts. Counting says how
/// far they might have lain apart.
fn spread(own: MeanU, counting: f64) -> MeanU {
    if own.u == 0.0 && own.dof.is_finite() && counting.is_finite() {
        return MeanU { u: counting.sqrt(), dof: f64::INFINITY, ..own };
    }
    own
}

fn cell_u(table: &Table, c: Cell) -> f64 {
    if c.summary_n > 1 {
        c.summary_sd / f64::from(c.summary_n).sqrt()
    } else if c.len > 1 {
        mean_u(table.rates(c)).u
    } else {
        poisson_variance(table, c).sqrt()
    }
}

fn cell_dof(c: Cell) -> f64 {
    if c.summary_n > 1 {
        f64::from(c.summary_n - 1)
    } else if c.len > 1 {
        c.len as f64 - 1.0
    } else {
        f64::INFINITY
    }
}

fn place(table: &Table, v: usize) -> Message {
    let vial = &table.vials[v];
    says::AtVial { position: vial.position.to_string().into(), vial: vial.name.as_str().into() }.into()
}

fn no_standard(table: &Table, plan: &Plan, v: usize, standards: &[(usize, f64)]) -> Error {
    let names: Vec<String> = standards.iter().map(|s| table.isotopes[s.0].to_string()).collect();
    Error::MissingInternalStandard {
        analyte: plan.analyte.to_string(),
        standard: names.join(", "),
        place: place(table, v),
        hint: says::HintExclude.into(),
    }
}

/// The factor from natural abundances: the interfering nuclide has the monitor's element and the
/// target's mass.
fn abundance_factor(overlap: &Overlap, bias: f64, u_bias: f64) -> Result<MeanU, Error> {
    let (target, monitor) = (&overlap.recipe.target, &overlap.recipe.monitor);
    let bias = WithU { value: bias, u: u_bias };
    let f = isobaric_factor(&monitor.element, target.mass, monitor.mass, bias).map_err(|e| Error::BadFactor {
        species: overlap.recipe.species.clone(),
        target: target.to_string(),
        why: e.message(),
    })?;
    Ok(MeanU { mean: f.value, u: f.u, dof: f64::INFINITY })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equal_replicates_have_no_scatter_of_a_rounded_sum() {
        // Counting takes the place of a scatter that is exactly none; a rounded one of 1e-17 kept it out.
        for (rate, n) in [(0.1, 3), (1.1, 6), (12.3, 3), (133.3, 10)] {
            let m = mean_u(&vec![rate; n]);
            assert!(
                (m.mean - rate).abs() < 1e-12 * rate.abs() && m.u.abs() < f64::MIN_POSITIVE,
                "{n} times {rate}: {m:?}"
            );
        }
    }
}
