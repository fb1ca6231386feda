//! The run as a table: vials in time order, isotopes in the order of their names, rates after
//! dead time. What the rest of the reduction reads; the order of the input lists is gone here.

use super::error::Error;
use super::input::{Isotope, Mode, Reading, RunInput, Vial};
use super::recipe::Recipe;
use crate::detector::DeadTimeModel;
use message::{Message, refusal as says};
use std::collections::HashMap;

/// When a vial was measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct When {
    pub session: u32,
    pub minutes: f64,
}

impl When {
    pub fn of(vial: &Vial) -> Self {
        Self { session: vial.session, minutes: vial.minutes }
    }

    /// Earlier or later, session by session.
    pub fn order(&self, other: &Self) -> std::cmp::Ordering {
        self.session.cmp(&other.session).then(self.minutes.total_cmp(&other.minutes))
    }
}

/// One isotope in one vial: where its replicates stand.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cell {
    /// First replicate in the flat arrays.
    pub start: usize,
    /// Number of replicates stored; 1 for a summary.
    pub len: usize,
    /// Replicates behind a summary; 0 where the replicates themselves are stored.
    pub summary_n: u32,
    /// Standard deviation of one replicate after dead time, for a summary.
    pub summary_sd: f64,
    /// Integration time of one replicate, s; 0 where not known.
    pub integration_s: f64,
    /// Detector mode.
    pub mode: Mode,
}

/// Why a cell holds nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hole {
    /// Never read.
    NotRead,
    /// Read, and taken out by a person.
    Excluded,
}

/// The run in order.
#[derive(Debug, Clone)]
pub(super) struct Table {
    /// Vials by position.
    pub vials: Vec<Vial>,
    /// Isotopes, detector mode left aside, in order of element, mass, resolution.
    pub isotopes: Vec<Isotope>,
    /// isotope-major: `cells[isotope · vials + vial]`.
    pub cells: Vec<Result<Cell, Hole>>,
    /// Replicates as observed, counts/s.
    pub observed: Vec<f64>,
    /// Replicates after dead time (or the cross factor), counts/s.
    pub corrected: Vec<f64>,
    /// Largest share of pulses lost, with the isotope and vial.
    pub most_dead: Option<(f64, usize, usize)>,
}

impl Table {
    /// Sorts and checks a run.
    pub fn new(input: &RunInput, recipe: &Recipe) -> Result<Self, Error> {
        let vials = sorted_vials(input)?;
        let (isotopes, index) = isotopes_of(input);
        let mut at = HashMap::with_capacity(vials.len());
        for (i, v) in vials.iter().enumerate() {
            at.insert(v.position, i);
        }
        let replicates = input.readings.iter().map(|r| r.rates_cps.len().max(1)).sum();
        let mut table = Self {
            cells: vec![Err(Hole::NotRead); vials.len() * isotopes.len()],
            vials,
            isotopes,
            observed: Vec::with_capacity(replicates),
            corrected: Vec::with_capacity(replicates),
            most_dead: None,
        };
        // Analogue readings first: pulses count where the detector could follow them, the current
        // where it could not.
        for mode in [Mode::Analogue, Mode::Counting] {
            for (r, reading) in input.readings.iter().enumerate() {
                if reading.isotope.mode != mode {
                    continue;
                }
                let vial = *at.get(&reading.position).ok_or_else(|| Error::ReadingWithoutVial {
                    position: reading.position,
                    isotope: reading.isotope.to_string(),
                })?;
                table.place(input, r, index[r] * table.vials.len() + vial, recipe)?;
            }
        }
        table.find_most_dead(recipe);
        Ok(table)
    }

    fn place(&mut self, input: &RunInput, r: usize, slot: usize, recipe: &Recipe) -> Result<(), Error> {
        let reading = &input.readings[r];
        if reading.excluded.is_some() {
            if self.cells[slot].is_err() {
                self.cells[slot] = Err(Hole::Excluded);
            }
            return Ok(());
        }
        if let Ok(old) = self.cells[slot] {
            if old.mode == reading.isotope.mode {
                return Err(Error::DoubledReading { position: reading.position, isotope: reading.isotope.to_string() });
            }
            let dead = |n: &f64| recipe.dead_time.lost_share(*n) >= recipe.dead_time.warn_share;
            let summary = reading.summary.map(|s| s.mean_cps);
            if reading.rates_cps.iter().chain(&summary).any(dead) {
                return Ok(());
            }
        }
        let vial = slot % self.vials.len();
        self.cells[slot] = Ok(self.take(input, r, vial, recipe)?);
        Ok(())
    }

    /// The cell of an isotope in a vial.
    pub fn cell(&self, isotope: usize, vial: usize) -> Result<Cell, Hole> {
        self.cells[isotope * self.vials.len() + vial]
    }

    /// Corrected replicates of a cell.
    pub fn rates(&self, cell: Cell) -> &[f64] {
        &self.corrected[cell.start..cell.start + cell.len]
    }

    /// Observed replicates of a cell.
    pub fn raw(&self, cell: Cell) -> &[f64] {
        &self.observed[cell.start..cell.start + cell.len]
    }

    /// Index of an isotope, detector mode left aside.
    pub fn find(&self, isotope: &Isotope) -> Option<usize> {
        self.isotopes.iter().position(|i| i.same_measurand(isotope))
    }

    fn take(&mut self, input: &RunInput, r: usize, vial: usize, recipe: &Recipe) -> Result<Cell, Error> {
        let reading = &input.readings[r];
        let bad = |why: Message| Error::BadReading {
            position: reading.position,
            vial: self.vials[vial].name.clone(),
            isotope: reading.isotope.to_string(),
            why,
        };
        let one;
        let (rates, summary): (&[f64], _) = match (&reading.summary, reading.rates_cps.as_slice()) {
            (None, []) => return Err(bad(says::ReadingEmpty.into())),
            (None, rates) => (rates, None),
            (Some(s), []) => {
                if s.n < 1 || s.sd_cps.is_nan() || s.sd_cps < 0.0 {
                    return Err(bad(says::ReadingSummary.into()));
                }
                one = [s.mean_cps];
                (&one[..], Some(*s))
            }
            (Some(_), _) => return Err(bad(says::ReadingBoth.into())),
        };
        if rates.iter().any(|x| !x.is_finite()) {
            return Err(bad(says::ReadingNoNumber.into()));
        }
        if !(reading.integration_s >= 0.0 && reading.integration_s.is_finite()) {
            return Err(bad(says::ReadingTime.into()));
        }
        let counting = reading.isotope.mode == Mode::Counting;
        // A current may read below its zero; pulses cannot be fewer than none.
        if counting && rates.iter().any(|x| *x < 0.0) {
            return Err(bad(says::ReadingNegative.into()));
        }
        let start = self.observed.len();
        for &n in rates {
            let rate =
                if counting { self.true_rate(reading, vial, n, recipe)? } else { n * recipe.analogue_factor.value };
            self.observed.push(n);
            self.corrected.push(rate);
        }
        // The sd of a summary has no replicates to correct one by one: it follows dN/dn.
        let dead = recipe.dead_time;
        let scale = if counting {
            dead.model.by_observed(self.corrected[start], dead.seconds())
        } else {
            recipe.analogue_factor.value
        };
        Ok(Cell {
            start,
            len: rates.len(),
            summary_n: summary.map_or(0, |s| s.n),
            summary_sd: summary.map_or(0.0, |s| s.sd_cps * scale),
            integration_s: reading.integration_s,
            mode: reading.isotope.mode,
        })
    }

    /// The rate after dead time; refused where too many pulses are lost, or no true rate gives the observed one.
    fn true_rate(&self, reading: &Reading, vial: usize, n: f64, recipe: &Recipe) -> Result<f64, Error> {
        let dead = &recipe.dead_time;
        let place = || (reading.position, self.vials[vial].name.clone(), reading.isotope.to_string());
        let rate = dead.true_rate(n);
        if let (None, DeadTimeModel::Extending) = (rate, dead.model) {
            let (position, vial, isotope) = place();
            let most_cps = 1.0 / (std::f64::consts::E * dead.seconds());
            return Err(Error::BeyondMostRate {
                position,
                vial,
                isotope,
                rate_cps: n,
                dead_time_ns: dead.ns,
                most_cps,
            });
        }
        let lost = dead.lost_share(n);
        if lost >= dead.refuse_share {
            let (position, vial, isotope) = place();
            return Err(Error::BeyondDeadTime {
                position,
                vial,
                isotope,
                rate_cps: n,
                dead_time_ns: dead.ns,
                dead_percent: 100.0 * lost,
                limit_percent: 100.0 * dead.refuse_share,
            });
        }
        Ok(rate.expect("under the share refused there is a rate"))
    }

    /// Largest share of pulses lost in a replicate of a cell; none in analogue mode.
    pub fn lost_share(&self, cell: Cell, recipe: &Recipe) -> Option<f64> {
        let top = self.raw(cell).iter().fold(0.0_f64, |m, x| m.max(*x));
        (cell.mode == Mode::Counting && recipe.dead_time.ns > 0.0).then(|| recipe.dead_time.lost_share(top))
    }

    fn find_most_dead(&mut self, recipe: &Recipe) {
        let n_vials = self.vials.len();
        for slot in 0..self.cells.len() {
            let Some(top) = self.cells[slot].ok().and_then(|c| self.lost_share(c, recipe)) else { continue };
            if self.most_dead.is_none_or(|(m, ..)| top > m) {
                self.most_dead = Some((top, slot / n_vials, slot % n_vials));
            }
        }
    }
}

fn sorted_vials(input: &RunInput) -> Result<Vec<Vial>, Error> {
    if input.vials.is_empty() {
        return Err(Error::NoVials);
    }
    let mut vials = input.vials.clone();
    vials.sort_by_key(|v| v.position);
    for pair in vials.windows(2) {
        if pair[0].position == pair[1].position {
            let (a, b) = (&pair[0].name, &pair[1].name);
            // The order of rows in the input changes nothing, not even the words of a refusal.
            let (first, second) = if a <= b { (a, b) } else { (b, a) };
            return Err(Error::DoubledPosition {
                position: pair[0].position,
                first: first.clone(),
                second: second.clone(),
            });
        }
    }
    for v in &vials {
        if !(v.dilution.value > 0.0 && v.dilution.value.is_finite() && v.dilution.u >= 0.0) {
            return Err(Error::BadDilution {
                position: v.position,
                vial: v.name.clone(),
                value: v.dilution.value,
                u: v.dilution.u,
            });
        }
        if !v.minutes.is_finite() {
            return Err(Error::BadTime { position: v.position, vial: v.name.clone(), minutes: v.minutes });
        }
    }
    Ok(vials)
}

/// All isotopes of the readings in order, and for each reading the index of its isotope.
fn isotopes_of(input: &RunInput) -> (Vec<Isotope>, Vec<usize>) {
    let mut seen: HashMap<(&str, u16, &str), usize> = HashMap::new();
    let mut first: Vec<&Isotope> = Vec::new();
    let raw: Vec<usize> = input
        .readings
        .iter()
        .map(|r| {
            let i = &r.isotope;
            *seen.entry((&i.element, i.mass, &i.resolution)).or_insert_with(|| {
                first.push(i);
                first.len() - 1
            })
        })
        .collect();
    let mut order: Vec<usize> = (0..first.len()).collect();
    order.sort_by(|a, b| {
        let key = |i: usize| (&first[i].element, first[i].mass, &first[i].resolution);
        key(*a).cmp(&key(*b))
    });
    let mut rank = vec![0; order.len()];
    for (new, old) in order.iter().enumerate() {
        rank[*old] = new;
    }
    let isotopes = order.iter().map(|i| Isotope { mode: Mode::Counting, ..first[*i].clone() }).collect();
    (isotopes, raw.iter().map(|i| rank[*i]).collect())
}
